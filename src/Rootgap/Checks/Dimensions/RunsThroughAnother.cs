using Rootgap.Drawings;
using Rootgap.Fabricating;
using Rootgap.Findings;
using Rootgap.Measure;
using Rootgap.Routes;

namespace Rootgap.Checks;

internal sealed class RunsThroughAnother : Rule
{
    /// <summary>Bodies must lie in each other by more than this before it is said, mm: they are taken as plain cylinders.</summary>
    private const double Margin = 5;

    public override string Name => "runs-through-another";
    public override Severity Severity => Severity.Stop;
    public override string Says => "A pipe, fitting or flange lies in the space of another that it is not joined to.";
    public override string Why => "Two things cannot be in one place (geometry, by outside diameters): a direction or a dimension is wrong, or one of the two has to step aside.";

    public override IEnumerable<Finding> Check(Fabrication fabrication)
    {
        var route = fabrication.Route;
        // Where a leg goes back along the one before, it lies in it: that is said already.
        var turnsBack = route.Findings.Any(f => f.Rule == "turns-back-on-itself");
        HashSet<(RowPath, RowPath)>? told = null;
        foreach (var (a, b, apart) in Overlaps(route))
        {
            if (turnsBack && a.Run == b.Run && Math.Abs(a.Leg - b.Leg) <= 2)
                continue;
            var (first, second) = (a.Run, a.Leg).CompareTo((b.Run, b.Leg)) <= 0 ? (a, b) : (b, a);
            if (!(told ??= []).Add((first.Row.Path, second.Row.Path)))
                continue;
            yield return Found(second.Row, second.Leg < 0 ? "to" : "go",
                Say(fabrication.Units, $"The {second.Of.Word} here runs through the {first.Of.Word} of run {route.Runs[first.Run].Run.Name}, {(first.Leg < 0 ? "at its start" : $"leg {first.Leg + 1}")}: their middles are {apart:len0} apart and need {first.Radius + second.Radius:len0}."),
                "Mend the direction or the dimension that brings them together, or step one of the two aside.", "It is found when the second spool is lifted in.");
        }
    }

    /// <summary>The pairs of parts that lie in each other and are not joined.</summary>
    internal static IEnumerable<(Part First, Part Second)> Pairs(Route route) =>
        Overlaps(route).Select(o => string.CompareOrdinal(o.A.Of.Id, o.B.Of.Id) < 0 ? (o.A.Of, o.B.Of) : (o.B.Of, o.A.Of)).Distinct();

    private static IEnumerable<(Body A, Body B, double Apart)> Overlaps(Route route)
    {
        var bodies = Bodies(route);
        if (bodies.Count < 2)
            yield break;
        bodies.Sort(static (a, b) => a.Low.X.CompareTo(b.Low.X));
        Neighbours? joined = null;
        for (var i = 0; i < bodies.Count; i++)
        {
            var a = bodies[i];
            for (var j = i + 1; j < bodies.Count && bodies[j].Low.X <= a.High.X; j++)
            {
                var b = bodies[j];
                if (a.Low.Y > b.High.Y || b.Low.Y > a.High.Y || a.Low.Z > b.High.Z || b.Low.Z > a.High.Z || ReferenceEquals(a.Of, b.Of) || !Overlap(a, b, out var apart))
                    continue;
                joined ??= new(route);
                if (!joined.AreClose(a.Of.Id, b.Of.Id))
                    yield return (a, b, apart);
            }
        }
    }

    /// <summary>A straight cylinder with flat ends.</summary>
    private sealed record Body(Part Of, int Leg, Point From, Point To, double Radius, SourceRow Row)
    {
        public int Run => Of.Run;

        public Point Low { get; } = new(Math.Min(From.X, To.X) - Radius, Math.Min(From.Y, To.Y) - Radius, Math.Min(From.Z, To.Z) - Radius);

        public Point High { get; } = new(Math.Max(From.X, To.X) + Radius, Math.Max(From.Y, To.Y) + Radius, Math.Max(From.Z, To.Z) + Radius);
    }

    private static List<Body> Bodies(Route route)
    {
        var bodies = new List<Body>(route.Pipes.Count + (2 * route.Components.Count));
        foreach (var p in route.Pipes)
            Add(p, p.LastLeg, route.Runs[p.Run].Run.Legs[p.LastLeg].Source);
        foreach (var c in route.Components)
        {
            if (!c.LiesInJoint)
                Add(c, c.Leg, c.Source);
        }

        return bodies;

        void Add(Part part, int leg, SourceRow row)
        {
            foreach (var (from, to, r) in part.Bodies.SelectMany(b => b.Stretches))
            {
                if (from.To(to) > 1 && r > 0)
                    bodies.Add(new(part, leg, from, to, r, row));
            }
        }
    }

    /// <summary>Whether two cylinders overlap by more than the margin: nearest points of their axes, and no flat end between.</summary>
    private static bool Overlap(Body a, Body b, out double apart)
    {
        var (u, v) = (a.To - a.From, b.To - b.From);
        var (lengthA, lengthB) = (u.Length, v.Length);
        var (ua, ub) = (u / lengthA, v / lengthB);
        var between = a.From - b.From;
        var (cos, d, e) = (ua.Dot(ub), ua.Dot(between), ub.Dot(between));
        var square = 1 - (cos * cos);
        if (square < 1e-9)
        {
            // Side by side: they overlap where both have a stretch.
            var (p, q) = (-d, (cos * lengthB) - d);
            var (low, high) = (Math.Max(0, Math.Min(p, q)), Math.Min(lengthA, Math.Max(p, q)));
            apart = (between - (ua * d)).Length;
            return high - low > Margin && apart <= a.Radius + b.Radius - Margin;
        }

        var s = Math.Clamp(((cos * e) - d) / square, 0, lengthA);
        var t = Math.Clamp((cos * s) + e, 0, lengthB);
        s = Math.Clamp((cos * t) - d, 0, lengthA);
        t = Math.Clamp((cos * s) + e, 0, lengthB);
        var off = (b.From + (ub * t)) - (a.From + (ua * s));
        apart = off.Length;
        if (apart > a.Radius + b.Radius - Margin)
            return false;
        // Beyond a flat end only the other's own thickness along this axis reaches back.
        var sin = Math.Sqrt(Math.Max(0, square));
        return (IsInside(s, lengthA) || Math.Abs(off.Dot(ua)) < (b.Radius * sin) - Margin)
            && (IsInside(t, lengthB) || Math.Abs(off.Dot(ub)) < (a.Radius * sin) - Margin);
    }

    private static bool IsInside(double along, double length) => along > 0 && along < length;

    /// <summary>What is joined to what: parts that are joined, or joined to the same part, may touch.</summary>
    private sealed class Neighbours
    {
        private readonly Dictionary<string, HashSet<string>> of = new(StringComparer.Ordinal);

        public Neighbours(Route route)
        {
            foreach (var joint in route.Joints)
            {
                if (joint.Between is not [var a, var b])
                    continue;
                Of(a).Add(b);
                Of(b).Add(a);
            }
        }

        public bool AreClose(string a, string b) => Of(a).Contains(b) || Of(a).Overlaps(Of(b));

        private HashSet<string> Of(string id) => of.TryGetValue(id, out var set) ? set : of[id] = new(StringComparer.Ordinal);
    }
}
