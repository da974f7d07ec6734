using Rootgap.Drawings;
using Rootgap.Fabricating;
using Rootgap.Measure;
using Rootgap.Routes;

namespace Rootgap.Checks;

/// <summary>A component or joint that one of two drawings does not have, or has differently; with the parts that tell its spool.</summary>
internal sealed record PartChange(Difference Says, Func<string, bool> OldSpool, Func<string, bool> NewSpool);

/// <summary>Components, joints, material items and run ends of two drawings, side by side.</summary>
internal static class Parts
{
    public static List<PartChange> Components(Fabrication before, Fabrication after, LegPairs legs)
    {
        var (old, @new) = (before.Route, after.Route);
        var (oldSpools, newSpools) = (before.SpoolOf, after.SpoolOf);
        var left = old.Components.ToList();
        var changes = new List<PartChange>();
        foreach (var n in @new.Components)
        {
            var at = left.FindIndex(o => legs.Of(o.Run, o.Leg) == (n.Run, n.Leg) && IsSame(o, n));
            if (at >= 0)
            {
                left.RemoveAt(at);
                continue;
            }

            changes.Add(new(new("added", Name(n), $"{Name(n)} {Where(@new, n.Run, n.Leg)}"), _ => false, s => newSpools.GetValueOrDefault(n.Id) == s));
        }

        changes.AddRange(left.Select(o => new PartChange(new("removed", Name(o), $"{Name(o)} {Where(old, o.Run, o.Leg)}"), s => oldSpools.GetValueOrDefault(o.Id) == s, _ => false)));
        return changes;
    }

    public static List<PartChange> Joints(Fabrication before, Fabrication after, LegPairs legs)
    {
        var (old, @new) = (before.Route, after.Route);
        var (oldSpools, newSpools) = (before.SpoolOf, after.SpoolOf);
        var left = old.Joints.ToList();
        var changes = new List<PartChange>();
        foreach (var n in @new.Joints)
        {
            bool OnSpool(string s) => n.Between.Any(id => newSpools.GetValueOrDefault(id) == s);
            var at = left.FindIndex(o => legs.Of(o.Run, o.Leg) == (n.Run, n.Leg) && o.Kind == n.Kind && o.Size == n.Size && o.Class == n.Class);
            if (at < 0)
            {
                changes.Add(new(new("added", n.Id, $"{n.Id}, {Says(n)}, {Where(@new, n.Run, n.Leg)}"), _ => false, OnSpool));
                continue;
            }

            var o = left[at];
            left.RemoveAt(at);
            if (o.Place != n.Place)
                changes.Add(new(new("changed", n.Id, $"{n.Id}, {Where(@new, n.Run, n.Leg)}: {Words.Of(o.Place)} is now {Words.Of(n.Place)}"), s => o.Between.Any(id => oldSpools.GetValueOrDefault(id) == s), OnSpool));
        }

        changes.AddRange(left.Select(o => new PartChange(new("removed", o.Id, $"{o.Id}, {Says(o)}, {Where(old, o.Run, o.Leg)}"), s => o.Between.Any(id => oldSpools.GetValueOrDefault(id) == s), _ => false)));
        return changes;
    }

    public static List<Difference> Items(Fabrication old, Fabrication @new)
    {
        var changes = new List<Difference>();
        foreach (var n in @new.Route.Drawing.Materials)
        {
            var name = FormattableString.Invariant($"item {n.Item}");
            if (old.Route.Drawing.Materials.FirstOrDefault(m => m.Item == n.Item) is not { } o)
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

        changes.AddRange(old.Route.Drawing.Materials.Where(o => !@new.Route.Drawing.Materials.Any(n => n.Item == o.Item))
            .Select(o => new Difference("removed", FormattableString.Invariant($"item {o.Item}"), FormattableString.Invariant($"item {o.Item}, {Says(o)}"))));
        return changes;
    }

    /// <summary>Starts and ends of runs that have moved.</summary>
    public static List<Difference> Ends(Route old, Route @new)
    {
        var changes = new List<Difference>();
        foreach (var n in @new.Runs)
        {
            if (old.Runs.FirstOrDefault(r => r.Run.Name == n.Run.Name) is not { } o)
            {
                changes.Add(new("added", n.Run.Name, $"run \"{n.Run.Name}\""));
                continue;
            }

            Compare("start", o.Points[0], n.Points[0]);
            Compare("end", o.Points[^1], n.Points[^1]);
            void Compare(string which, Point before, Point now)
            {
                var move = now - before;
                if (move.Length > Tolerance.Closing)
                    changes.Add(new("changed", n.Run.Name, $"the {which} of run \"{n.Run.Name}\" moves {Says(move)}"));
            }
        }

        changes.AddRange(old.Runs.Where(o => !@new.Runs.Any(n => n.Run.Name == o.Run.Name)).Select(o => new Difference("removed", o.Run.Name, $"run \"{o.Run.Name}\"")));
        return changes;
    }

    private static bool IsSame(Component o, Component n) =>
        o.Name == n.Name && o.Size == n.Size && o.Size2 == n.Size2 && (o is not Flange || (o.Line.Class == n.Line.Class && o.Line.Facing == n.Line.Facing))
        && Math.Abs(TurnOf(o) - TurnOf(n)) <= Tolerance.Turn && Math.Abs(Length(o) - Length(n)) <= Comparison.SameLength;

    private static double TurnOf(Component c) => c is Bent bent ? bent.Turn : 0;

    /// <summary>Its own length in the line: a valve of another make is another valve.</summary>
    private static double Length(Component c) => c.Ports.Count > 1 ? c.Ports[0].At.To(c.Ports[1].At) : 0;

    private static string Name(Component c) => $"{c.Name} NPS {c.Size}{(c.Size2.IsNone ? "" : " x " + c.Size2)}";

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
