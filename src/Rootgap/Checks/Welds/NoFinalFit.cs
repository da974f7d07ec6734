using Rootgap.Drawings;
using Rootgap.Fabricating;
using Rootgap.Findings;
using Rootgap.Routes;
using Rootgap.Site;
using Rootgap.Standards;

namespace Rootgap.Checks;

/// <summary>Two fixed ends and nothing between them that can be trimmed.</summary>
internal sealed class NoFinalFit : Rule
{
    public override string Name => "no-final-fit";
    public override Severity Severity => Severity.Warn;
    public override string Says => "Two fixed ends are joined by a line without a final-fit weld; whether bolted joints and hi-lo on the way take up what may be out by the forecast is said. A note at a branch's flange to which the drawing gives no place, where an expansion joint stands on the way, where all pipe between them is NPS 1-1/2 or less, which is run at site, where the line goes on in another drawing, which may have it, or where one of them is the flange of a single leg on a branch, or of a small straight branch, as for an instrument or an air valve.";
    public override string Why => "Nozzles and existing pipes never stand where they are drawn; something between them must be trimmed to fit (common practice; one final-fit weld a direction).";

    public override IEnumerable<Finding> Check(Fabrication fabrication)
    {
        var route = fabrication.Route;
        var ends = FixedEnd.AllOf(route);
        if (ends.Count < 2)
            yield break;
        var parted = new Parted(route.Joints, j => j.Place != WeldPlace.FinalFit);
        // A bellows on the way gives; how much is its maker's to say.
        var bellows = route.Components.OfType<InLineItem>().Where(i => LineData.IsBellows(i.What)).Select(i => i.Id).ToHashSet(StringComparer.Ordinal);
        var stiff = bellows.Count == 0 ? parted : new Parted(route.Joints, j => j.Place != WeldPlace.FinalFit && !j.Between.Any(bellows.Contains));
        // Those that may not stand fast come last: a group is told by the two that most surely do.
        var fixedEnds = ends.Where(e => e.Joint?.Place != WeldPlace.FinalFit && !IsNozzle(route, e)).OrderBy(e => e.GoesOn || IsUnplacedBranch(route, e)).ToList();
        var first = fixedEnds.GroupBy(e => parted.GroupOf(e.Part)).ToDictionary(g => g.Key, g => g.First(), StringComparer.Ordinal);
        var told = new HashSet<string>(StringComparer.Ordinal);
        foreach (var group in fixedEnds.GroupBy(e => stiff.GroupOf(e.Part)))
        {
            if (group.ToList() is [var one, var other, ..] && told.Add(parted.GroupOf(one.Part)))
                yield return Nothing(one, other, isMild: false);
        }

        foreach (var group in fixedEnds.GroupBy(e => parted.GroupOf(e.Part)))
        {
            if (group.ToList() is [var one, var other, ..] && told.Add(group.Key))
                yield return Nothing(one, other, isMild: true);
        }

        foreach (var nozzle in ends.Where(e => IsNozzle(route, e) && e.Joint?.Place != WeldPlace.FinalFit))
        {
            if (parted.GroupOf(nozzle.Part) is var group && first.TryGetValue(group, out var other) && told.Add(group))
                yield return Found(nozzle.Row, "to", $"From the {other.Says} at {route.Drawing.PlaceOf(other.Row.Path)} to this {nozzle.Says} no weld is final-fit.", "Mark a weld `final-fit` if what is bolted here stands on anything but the line.", severity: Severity.Note);
        }

        Finding Nothing(FixedEnd one, FixedEnd other, bool isMild)
        {
            var opening = DeskForecast.Of(fabrication)?.Rigid.FirstOrDefault(l => l.From is [var from, ..] && ((l.Joint == other.Joint && from == one.Joint) || (l.Joint == one.Joint && from == other.Joint)));
            var worst = opening?.Missing.Where(m => m.Opening95 > m.TakenUp).MaxBy(m => m.Opening95 - m.TakenUp);
            var isTaken = opening is not null && worst is null;
            var out95 = isTaken ? " What may be out by the forecast, bolted joints and welds on the way take up." : worst is null ? "" : Say(fabrication.Units, $" {worst.Opening95:len0} {Compass.Both(worst.Direction)} may be out, and bolted joints and welds on the way take up {worst.TakenUp:len0} of it.");
            return Found(other.Row, "to", $"From the {one.Says} at {route.Drawing.PlaceOf(one.Row.Path)} to this {other.Says} no weld is final-fit: nothing can be trimmed between them.{out95}",
                route.Drawing.Service.IsLined ? "A weld at site would burn the lining: leave a flanged piece to be made to site measure before it is lined, or ask for a bellows."
                : !route.Joints.Any(j => j.IsWeld) ? "Leave a piece to be cut and threaded to measure at site, with a union beside it."
                : WeldOnGalvanised.IsGalvanised(route) ? "A weld at site would burn the zinc: leave a flanged piece to be made to site measure before it is galvanised, or mark a weld `final-fit` and say how the zinc is mended."
                : worst is null ? "Mark a weld on straight pipe `final-fit`, one in each direction that may be out." : $"Mark a weld `final-fit` on {string.Join(" or ", worst.Legs.Select(l => route.Drawing.PlaceOf(l.Path)))}, and one in each other direction that may be out.",
                "The last spool is forced in, or comes back.",
                // Where the line goes on, the other drawing may have it.
                isMild || IsSmallBore(route, parted.GroupOf(one.Part), parted) || IsUnplacedBranch(route, one) || IsUnplacedBranch(route, other) || other.GoesOn || one.GoesOn ? Severity.Note : null);
        }
    }

    /// <summary>NPS 1-1/2 and less throughout: run at site to measure, whatever the drawing marks (common practice).</summary>
    private static bool IsSmallBore(Route route, string group, Parted parted) =>
        route.Pipes.Where(p => parted.GroupOf(p.Id) == group).ToList() is { Count: > 0 } pipes && pipes.TrueForAll(p => p.Size.IsSmallBore);

    /// <summary>A branch's flange to which the drawing gives no place: what is bolted to it may come to the line.</summary>
    private static bool IsUnplacedBranch(Route route, FixedEnd end) =>
        end.Joint is { Kind: JointKind.Bolted } joint && route.Drawing.Runs[joint.Run] is { Start.From: not null, Legs: [.., { At: null } last] } && last.Source == end.Row;

    /// <summary>The flange of one leg on a branch, or of a small straight one: what is bolted to it mostly stands on the line itself.</summary>
    private static bool IsNozzle(Route route, FixedEnd end) =>
        (end.Joint is { } joint && route.HangsOnLine(joint)) || route.Runs.Any(r => r.Run is { Start.From: not null, Legs: [var only] } && only.Source == end.Row);
}
