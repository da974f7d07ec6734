using Rootgap.Drawings;
using Rootgap.Records;
using Rootgap.Routes;

namespace Rootgap.Papers;

/// <summary>A line with its welds and whose word the shop asks for before which step.</summary>
public sealed class HoldPoints
{
    private readonly IReadOnlyList<HoldPoint> points;
    private readonly ILookup<string, WeldHistory> byJoint;
    private readonly Roster roster;

    /// <param name="line">The line.</param>
    /// <param name="welds">All of the line's.</param>
    /// <param name="roster">Who is who; where a job has no people, a name or role that a hold point asks for is compared with what stands in the fact.</param>
    public HoldPoints(LineDone line, IReadOnlyList<WeldHistory> welds, Roster roster)
    {
        (Line, this.roster) = (line, roster);
        points = line.Fabrication.Route.Drawing.Shop.HoldPoints;
        byJoint = welds.Where(w => w.IsNow).ToLookup(w => w.Joint.Id, StringComparer.OrdinalIgnoreCase);
    }

    public LineDone Line { get; }

    public bool IsAny(string before) => points.Any(p => p.Before == before);

    /// <summary>What a fact would be told: what is missing before the step that it says was done; empty where nothing is, or it is about no step.</summary>
    public IReadOnlyList<string> Before(Fact fact) => fact switch
    {
        JointStep s when s.Weld == Line.Done.WeldOf(s.Joint) => BeforeJoint(PaperWords.Of(s.Step), s.Joint),
        HeatTreated h when h.Weld == Line.Done.WeldOf(h.Joint) => BeforeJoint("heat treated", h.Joint),
        BoltedUp b => BeforeJoint("bolted up", b.Joint),
        Released r => BeforeSpool("released", r.Spool),
        Coated c => BeforeSpool(c.Coating == Coating.Painted ? "painted" : "insulated", c.Spool),
        Tested => Line.Fabrication.Route.Joints.SelectMany(j => Missing("tested", j)).Concat(Whole("tested")).ToList(),
        _ => [],
    };

    public IReadOnlyList<string> BeforeJoint(string step, string joint) =>
        Line.Fabrication.Route.Joints.FirstOrDefault(j => j.Id.Equals(joint, StringComparison.OrdinalIgnoreCase)) is { } at ? [.. Missing(step, at)] : [];

    public IReadOnlyList<string> BeforeSpool(string step, string spool) =>
        Line.Fabrication.Spools.FirstOrDefault(s => s.Name.Equals(spool, StringComparison.OrdinalIgnoreCase)) is { } at
            ? [.. at.Joints.SelectMany(j => Missing(step, j)), .. Whole(step, at.Name)] : [];

    public IReadOnlyList<string> BeforeTest() => [.. Line.Fabrication.Route.Joints.SelectMany(j => Missing("tested", j)), .. Whole("tested")];

    private IEnumerable<string> Missing(string step, Joint joint)
    {
        var weld = byJoint[joint.Id].FirstOrDefault();
        foreach (var point in points.Where(p => p.Before == step))
        {
            var by = point.By.Length > 0 ? $" by {point.By}" : "";
            switch (point.Needs)
            {
                case "heats":
                    foreach (var (part, _) in joint.Between.Select(id => Line.HeatOf(id)).Where(h => h.Heat is null))
                        yield return $"{joint.Id}: no heat number for {part}";
                    break;
                case "fit-up seen" when weld is not null:
                    if (weld.FitUp is not { IsRefused: false } seen || !Is(seen.Who, point.By))
                        yield return $"{weld.Name}: its fit-up is not seen{by}";
                    break;
                case "welded" when weld is { IsMade: false }:
                    yield return $"{weld.Name}: not welded";
                    break;
                case "visual" when weld is not null:
                    if (weld.ResultOf(ExaminationMethod.Visual) is not { IsAccepted: true } looked || !Is(looked.Who, point.By))
                        yield return $"{weld.Name}: not accepted by visual examination{by}";
                    break;
                case "examined" when weld is not null:
                    foreach (var missing in weld.Missing)
                        yield return missing;
                    break;
                case "heat treated" when weld is { Treated: null }:
                    yield return $"{weld.Name}: not heat treated";
                    break;
                case "bolted up" when joint.Kind == JointKind.Bolted && !Line.Done.Counting<BoltedUp>(joint.Id).Any():
                    yield return $"{joint.Id}: not bolted up";
                    break;
            }
        }
    }

    // What is asked of a spool or a line as a whole.
    private IEnumerable<string> Whole(string step, string? spool = null)
    {
        foreach (var point in points.Where(p => p.Before == step))
        {
            var spools = spool is null ? Line.Fabrication.Spools.Select(s => s.Name) : [spool];
            switch (point.Needs)
            {
                case "released":
                    foreach (var name in spools.Where(s => !Line.Done.Counting<Released>($"spool {s}").Any(r => Is(r.Who, point.By))))
                        yield return $"spool {name}: not released{(point.By.Length > 0 ? $" by {point.By}" : "")}";
                    break;
                case "painted":
                    foreach (var name in spools.Where(s => !Line.Done.Counting<Coated>($"spool {s}").Any(c => c.Coating == Coating.Painted)))
                        yield return $"spool {name}: not painted";
                    break;
                case "tested" when !Line.IsTested():
                    yield return $"{Line.Number}: not tested";
                    break;
            }
        }
    }

    private bool Is(string who, string by) =>
        by.Length == 0 || who.Equals(by, StringComparison.OrdinalIgnoreCase) || !roster.IsOn || roster.Named(who)?.Entry.Role.Equals(by, StringComparison.OrdinalIgnoreCase) == true;
}
