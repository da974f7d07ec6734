using Rootgap.Drawings;
using Rootgap.Fabricating;
using Rootgap.Measure;
using Rootgap.Routes;

namespace Rootgap.Comparing;

/// <summary>A component or joint that one of two drawings does not have, or has differently; with the names of the spools that it touches, of the old drawing and of the new one.</summary>
internal sealed record PartChange(Difference Says, IReadOnlyList<string> OldSpools, IReadOnlyList<string> NewSpools);

/// <summary>Components, joints, material items and ends of two drawings, side by side.</summary>
internal static class Changes
{
    public static List<PartChange> Components(Steel before, Steel after, SteelMap map)
    {
        var changes = new List<PartChange>();
        foreach (var n in after.Parts)
        {
            if (n.Component is not { } now)
                continue;
            var place = Where(after.Made.Route, now.Run, now.Leg);
            if (map.Before(n) is not { } o)
                changes.Add(new(new("added", Steel.Name(now), $"{Steel.Name(now)} {place}") { Part = n.Id }, [], SpoolsOf(after, [n.Id])));
            else if ((List<string>)[.. Steel.Differences(o, n), .. OtherStem(o, n, map)] is { Count: > 0 } differences)
                changes.Add(new(new("changed", Steel.Name(now), $"{n.Id} {place}: {string.Join("; ", differences)}") { Part = n.Id }, SpoolsOf(before, [o.Id]), SpoolsOf(after, [n.Id])));
        }

        changes.AddRange(before.Parts.Where(o => o.Component is not null && map.Of(o) is null)
            .Select(o => new PartChange(new("removed", Steel.Name(o.Component!), $"{Steel.Name(o.Component!)} {Where(before.Made.Route, o.Component!.Run, o.Component.Leg)}"), SpoolsOf(before, [o.Id]), [])));
        return changes;
    }

    /// <summary>A stem that points elsewhere on a line that goes as it went: of loose valves no spool tells it.</summary>
    private static IEnumerable<string> OtherStem(SteelPart old, SteelPart now, SteelMap map)
    {
        var asItWent = old.Links.All(l => l.Joint is not { } j || map.Of(j) is { } there && Steel.Looks(old, j).AngleTo(Steel.Looks(now, there)) <= Tolerance.Turn);
        foreach (var (what, way) in asItWent && old.Ware == Ware.Valve ? Steel.Marks(old) : [])
        {
            if (Steel.Marks(now).FirstOrDefault(m => m.What == what) is { What: not null } mark && mark.Way.AngleTo(way) > Tolerance.Turn)
                yield return FormattableString.Invariant($"its {what} is turned by {Angles.ToDegrees(mark.Way.AngleTo(way)):0.#} degrees");
        }
    }

    public static List<PartChange> Joints(Steel before, Steel after, SteelMap map, SteelTurns turns)
    {
        var was = map.Joints.ToDictionary(j => j.New, j => j.Old);
        var changes = new List<PartChange>();
        foreach (var n in after.Made.Route.Joints)
        {
            var place = Where(after.Made.Route, n.Run, n.Leg);
            if (!was.TryGetValue(n, out var o))
            {
                changes.Add(new(new("added", n.Id, $"{n.Id}, {Says(n)}, {place}") { Part = n.Id }, [], SpoolsOf(after, n)));
                continue;
            }

            List<string> says = [];
            if (o.Place != n.Place)
                says.Add($"{Words.Of(o.Place)} is now {Words.Of(n.Place)}");
            if (o.Size != n.Size)
                says.Add($"NPS {o.Size} is now NPS {n.Size}");
            if (o.Class != n.Class)
                says.Add($"class {o.Class} is now {n.Class}");
            if (turns.Of(o) is { } turned)
                says.Add(turned);
            if (says.Count > 0)
                changes.Add(new(new("changed", n.Id, $"{n.Id}, {place}: {string.Join("; ", says)}") { Part = n.Id }, SpoolsOf(before, o), SpoolsOf(after, n)));
        }

        changes.AddRange(before.Made.Route.Joints.Where(o => map.Of(o) is null)
            .Select(o => new PartChange(new("removed", o.Id, $"{o.Id}, {Says(o)}, {Where(before.Made.Route, o.Run, o.Leg)}"), SpoolsOf(before, o), [])));
        return changes;
    }

    /// <summary>A joint between two spools, or at site, changes neither of them: their ends are told by what stands there.</summary>
    private static List<string> SpoolsOf(Steel steel, Joint joint) => Steel.IsOfSpool(joint) ? SpoolsOf(steel, joint.Between) : [];

    private static List<string> SpoolsOf(Steel steel, IEnumerable<string> ids) => [.. ids.Select(id => steel.Made.SpoolOf.GetValueOrDefault(id)).OfType<string>().Distinct(StringComparer.Ordinal)];

    public static List<Difference> Items(Drawing old, Drawing @new)
    {
        var changes = new List<Difference>();
        foreach (var n in @new.Materials)
        {
            var name = FormattableString.Invariant($"item {n.Item}");
            if (old.Materials.FirstOrDefault(m => m.Item == n.Item) is not { } o)
            {
                changes.Add(new("added", name, $"{name}, {Says(n)}"));
                continue;
            }

            var says = new List<string>();
            void Compare(string what, string a, string b)
            {
                if (a != b)
                    says.Add($"{what} {(a.Length > 0 ? a : "none")} is now {(b.Length > 0 ? b : "none")}");
            }

            Compare("what:", o.What, n.What);
            Compare("NPS", Sizes(o), Sizes(n));
            Compare("schedule", o.Schedule, n.Schedule);
            Compare("class", o.Class, n.Class);
            Compare("bore", o.Bore, n.Bore);
            Compare("material", o.Material, n.Material);
            Compare("length", Figure(o.Length), Figure(n.Length));
            Compare("quantity", Quantity(o), Quantity(n));
            if (says.Count > 0)
                changes.Add(new("changed", name, $"{name}: {string.Join("; ", says)}"));
        }

        changes.AddRange(old.Materials.Where(o => !@new.Materials.Any(n => n.Item == o.Item))
            .Select(o => new Difference("removed", FormattableString.Invariant($"item {o.Item}"), FormattableString.Invariant($"item {o.Item}, {Says(o)}"))));
        return changes;
    }

    /// <summary>Ends of the line that have moved, whichever run they are written in. What comes or goes with an end is told by its parts.</summary>
    public static List<Difference> Ends(Steel before, Steel after, SteelMap map)
    {
        var changes = new List<Difference>();
        var now = EndsOf(after);
        foreach (var (part, at, _) in EndsOf(before))
        {
            if (map.Of(part) is not { } there || now.Where(e => e.Part == there).ToList() is not { Count: > 0 } candidates)
                continue;
            var end = candidates.MinBy(e => e.At.To(at));
            now.Remove(end);
            var move = end.At - at;
            if (move.Length > Tolerance.Closing)
                changes.Add(new("changed", end.Name, $"{end.Name} moves {Says(move)}"));
        }

        return changes;
    }

    private static List<(SteelPart Part, Point At, string Name)> EndsOf(Steel steel)
    {
        List<(SteelPart, Point, string)> ends = [];
        var route = steel.Made.Route;
        for (var r = 0; r < route.Runs.Count; r++)
        {
            var line = route.Runs[r];
            if (line.Run.Start.From is null && PartAt(steel, r, -1, line.Points[0]) is { } first)
                ends.Add((first, line.Points[0], $"the start of run \"{line.Run.Name}\""));
            if (line.Run.Legs.Count > 0 && line.Run.Legs[^1].To is not TieInPoint && PartAt(steel, r, line.Run.Legs.Count - 1, line.Points[^1]) is { } last)
                ends.Add((last, line.Points[^1], $"the end of run \"{line.Run.Name}\""));
        }

        return ends;
    }

    /// <summary>What stands at the end of a run: a part that is no gasket, else the pipe.</summary>
    private static SteelPart? PartAt(Steel steel, int run, int leg, Point at) =>
        steel.Parts.Where(p => p.Component is { } c && (c.Run, c.Leg) == (run, leg) && !c.LiesInJoint).MinBy(p => p.Component!.Ports.Count == 0 ? 0 : p.Component.Ports.Min(e => e.At.To(at)))
        ?? steel.Parts.Find(p => p.Cut is { Pipe: var pipe } && pipe.Run == run && (leg < 0 ? pipe.FirstLeg == 0 : pipe.LastLeg == leg));

    private static string Where(Route route, int run, int leg) =>
        leg < 0 ? $"at the start of \"{route.Runs[run].Run.Name}\"" : FormattableString.Invariant($"at leg {leg + 1} of \"{route.Runs[run].Run.Name}\"");

    private static string Says(Joint j) => j.Kind == JointKind.Bolted ? $"bolted joint NPS {j.Size} class {j.Class}" : $"{Words.Of(j.Place)} {j.Kind.ToString().ToLowerInvariant()} {(j.Kind == JointKind.Threaded ? "joint" : "weld")} NPS {j.Size}";

    private static string Says(MaterialItem m) => $"{m.What}{(m.Size.IsNone ? "" : " NPS " + Sizes(m))}{(Quantity(m).Length > 0 ? ", " + Quantity(m) : "")}";

    private static string Sizes(MaterialItem m) => m.Size.IsNone ? "" : m.Size2.IsNone ? m.Size.ToString() : $"{m.Size} x {m.Size2}";

    private static string Quantity(MaterialItem m) => m.Quantity is { } mm ? FormattableString.Invariant($"{mm / 1000:0.###} m") : Figure(m.Count);

    private static string Figure(double? value) => value is { } v ? FormattableString.Invariant($"{v:0.###}") : "";

    private static string Says(Vector move)
    {
        var parts = new List<string>();
        foreach (var (mm, plus, minus) in new[] { (move.X, "east", "west"), (move.Y, "north", "south"), (move.Z, "up", "down") })
        {
            if (Math.Abs(mm) > 0.05)
                parts.Add(FormattableString.Invariant($"{Math.Abs(mm):0.#} {(mm > 0 ? plus : minus)}"));
        }

        return string.Join(", ", parts);
    }
}
