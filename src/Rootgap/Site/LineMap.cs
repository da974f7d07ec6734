using Rootgap.Drawings;
using Rootgap.Fabricating;
using Rootgap.Measure;
using Rootgap.Routes;

namespace Rootgap.Site;

/// <summary>A way through the line from a joint with a thing outside to another joint: the parts between, and the joints that part them.</summary>
/// <param name="Joints">The outer joint first, the one that the way leads to last; one alone where the thing outside itself stands at that joint.</param>
/// <param name="Parts">Ids; one fewer than the joints.</param>
public sealed record LineWay(IReadOnlyList<Joint> Joints, IReadOnlyList<string> Parts)
{
    public Joint Outer => Joints[0];
}

/// <summary>A line as a net of parts and joints, with what stands outside it. All that is asked about ways is asked here.</summary>
public sealed class LineMap
{
    private readonly Route route;
    private readonly ILookup<string, int> jointsOf;
    private readonly List<int> outer = [];

    /// <summary>Where what stands outside may itself move: what a small branch carries.</summary>
    private readonly List<int> loose = [];

    public LineMap(Route route)
    {
        this.route = route;
        var pairs = new List<(string Part, int Joint)>();
        for (var i = 0; i < route.Joints.Count; i++)
        {
            foreach (var part in route.Joints[i].Between)
                pairs.Add((part, i));
            if (route.Joints[i].Between.Count == 1)
                (route.HangsOnLine(route.Joints[i]) ? loose : outer).Add(i);
        }

        jointsOf = pairs.ToLookup(p => p.Part, p => p.Joint, StringComparer.Ordinal);
    }

    /// <summary>The joints with a thing outside the drawing, in their order: a nozzle's flange, an existing pipe, the next drawing's; not those of what a small branch carries.</summary>
    public IReadOnlyList<Joint> Outer => [.. outer.Concat(loose).Order().Select(i => route.Joints[i]).Where(j => !route.HangsOnLine(j))];

    /// <summary>A part's joints, in their order.</summary>
    public IEnumerable<Joint> JointsOf(string part) => jointsOf[part].Select(i => route.Joints[i]);

    /// <summary>The two sides of a joint in the direction in which its run is written; null where a thing outside stands.</summary>
    public (string? First, string? Second) Sides(Joint joint) => joint.Between switch
    {
        [var a, var b] => (a, b),
        [var a] => route.StartsRun(joint) ? (null, a) : (a, null),
        _ => (null, null),
    };

    /// <summary>
    /// The way with the fewest joints from a thing outside to one side of a joint; of equal ones that of the joint which comes first. Through no other final-fit weld if
    /// there is such a way, and to what may itself move only if nothing else is there. Null where nothing outside is tied to that side.
    /// </summary>
    public LineWay? To(Joint joint, bool second)
    {
        var (a, b) = Sides(joint);
        return (second ? b : a) is not { } side
            ? new([joint], [])
            : Find(side, joint, passFinalFits: false, outer) ?? Find(side, joint, passFinalFits: true, outer)
                ?? Find(side, joint, passFinalFits: false, loose) ?? Find(side, joint, passFinalFits: true, loose);
    }

    /// <summary>The way from one thing outside up to the joint with another; null where there is none without a final-fit weld.</summary>
    public LineWay? Rigid(Joint from, Joint to) => from.Place == WeldPlace.FinalFit || to.Place == WeldPlace.FinalFit
        ? null
        : Find(to.Between[0], to, passFinalFits: false, [Index(from)]);

    private int Index(Joint joint)
    {
        for (var i = 0; i < route.Joints.Count; i++)
        {
            if (ReferenceEquals(route.Joints[i], joint))
                return i;
        }

        throw new ArgumentException("The joint is of another line.", nameof(joint));
    }

    /// <summary>Widens ring by ring from the side's part; the joint led to is never crossed.</summary>
    private LineWay? Find(string side, Joint to, bool passFinalFits, List<int> wanted)
    {
        var from = new Dictionary<string, (string Part, int Joint)>(StringComparer.Ordinal) { [side] = ("", -1) };
        var ring = new List<string> { side };
        while (ring.Count > 0)
        {
            var best = int.MaxValue;
            var at = "";
            foreach (var part in ring)
            {
                foreach (var j in jointsOf[part])
                {
                    if (j < best && wanted.Contains(j) && !ReferenceEquals(route.Joints[j], to) && (passFinalFits || route.Joints[j].Place != WeldPlace.FinalFit))
                        (best, at) = (j, part);
                }
            }

            if (best < int.MaxValue)
                return Back(at, best, from, to);
            var next = new List<string>();
            foreach (var (j, part) in ring.SelectMany(p => jointsOf[p].Select(j => (j, p))).OrderBy(t => t.j))
            {
                var joint = route.Joints[j];
                if (joint.Between is not [var a, var b] || ReferenceEquals(joint, to) || (!passFinalFits && joint.Place == WeldPlace.FinalFit))
                    continue;
                var other = a == part ? b : a;
                if (from.TryAdd(other, (part, j)))
                    next.Add(other);
            }

            ring = next;
        }

        return null;
    }

    private LineWay Back(string part, int outerJoint, Dictionary<string, (string Part, int Joint)> from, Joint to)
    {
        List<Joint> joints = [route.Joints[outerJoint]];
        List<string> parts = [];
        while (part.Length > 0)
        {
            parts.Add(part);
            var (next, joint) = from[part];
            joints.Add(joint < 0 ? to : route.Joints[joint]);
            part = next;
        }

        return new(joints, parts);
    }
}

/// <summary>What a fitter calls a direction.</summary>
internal static class Compass
{
    private static readonly (Vector Axis, string Word, string Back)[] Axes = [(Vector.East, "east", "west"), (Vector.North, "north", "south"), (Vector.Up, "up", "down")];

    /// <summary>Cosine of three degrees: a pipe with a fall still goes north.</summary>
    private const double NearlyAlong = 0.9986;

    private static readonly string[] Points = ["east", "north-east", "north", "north-west", "west", "south-west", "south", "south-east"];

    /// <summary>Both ways along a line: <c>east or west</c>, <c>north-east or south-west</c>; off those <c>at 30° east of north, or back</c>.</summary>
    public static string Both(Vector along) =>
        Axis(along) is var (_, word, back) ? $"{word} or {back}"
        : Point(along) is { } point ? $"{Points[point]} or {Points[(point + 4) % 8]}"
        : One(along) + ", or back";

    /// <summary>One way: <c>east</c>, <c>south-west</c>, <c>down</c>; off those by degrees: <c>at 30° east of north, 15° up</c>.</summary>
    public static string One(Vector along)
    {
        foreach (var (axis, word, back) in Axes)
        {
            if (Math.Abs(along.Unit.Dot(axis)) > NearlyAlong)
                return along.Dot(axis) > 0 ? word : back;
        }

        if (Point(along) is { } point)
            return Points[point];
        var (e, n, rise) = (along.X, along.Y, Angles.ToDegrees(Math.Asin(Math.Clamp(along.Unit.Z, -1, 1))));
        var level = Point(new(e, n, 0)) is { } near ? Points[near]
            : Math.Abs(n) >= Math.Abs(e) ? FormattableString.Invariant($"{Angles.ToDegrees(Math.Atan2(Math.Abs(e), Math.Abs(n))):0}° {(e > 0 ? "east" : "west")} of {(n > 0 ? "north" : "south")}")
            : FormattableString.Invariant($"{Angles.ToDegrees(Math.Atan2(Math.Abs(n), Math.Abs(e))):0}° {(n > 0 ? "north" : "south")} of {(e > 0 ? "east" : "west")}");
        return "at " + level + (Math.Abs(rise) < 1 ? "" : FormattableString.Invariant($", {Math.Abs(rise):0}° {(rise > 0 ? "up" : "down")}"));
    }

    /// <summary>Which of the eight points a level line goes to, within three degrees; null where none.</summary>
    private static int? Point(Vector along)
    {
        if (along.SquareTo(Vector.Up) is var level && level.Length < NearlyAlong * along.Length)
            return null;
        var eighth = Angles.ToDegrees(Math.Atan2(along.Y, along.X)) / 45;
        var near = Math.Round(eighth);
        return Math.Abs(eighth - near) * 45 > 3 ? null : ((int)near + 8) % 8;
    }

    private static (Vector, string, string)? Axis(Vector along)
    {
        foreach (var axis in Axes)
        {
            if (Math.Abs(along.Unit.Dot(axis.Axis)) > NearlyAlong)
                return axis;
        }

        return null;
    }
}
