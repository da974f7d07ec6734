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

    public LineMap(Route route)
    {
        this.route = route;
        var pairs = new List<(string Part, int Joint)>();
        for (var i = 0; i < route.Joints.Count; i++)
        {
            foreach (var part in route.Joints[i].Between)
                pairs.Add((part, i));
            if (route.Joints[i].Between.Count == 1)
                outer.Add(i);
        }

        jointsOf = pairs.ToLookup(p => p.Part, p => p.Joint, StringComparer.Ordinal);
    }

    /// <summary>The joints with a thing outside the drawing, in their order: a nozzle's flange, an existing pipe.</summary>
    public IReadOnlyList<Joint> Outer => [.. outer.Select(i => route.Joints[i])];

    /// <summary>A part's joints, in their order.</summary>
    public IEnumerable<Joint> JointsOf(string part) => jointsOf[part].Select(i => route.Joints[i]);

    /// <summary>The two sides of a joint in the direction in which its run is written; null where a thing outside stands.</summary>
    public (string? First, string? Second) Sides(Joint joint) => joint.Between switch
    {
        [var a, var b] => (a, b),
        [var a] => StartsRun(joint) ? (null, a) : (a, null),
        _ => (null, null),
    };

    private bool StartsRun(Joint joint)
    {
        var points = route.Runs[joint.Run].Points;
        return route.Runs[joint.Run].Run.Start.Ends is not null && joint.At.To(points[0]) < joint.At.To(points[^1]);
    }

    /// <summary>
    /// The way with the fewest joints from a thing outside to one side of a joint; of equal ones that of the joint which comes first. Through no other final-fit weld if
    /// there is such a way. Null where nothing outside is tied to that side.
    /// </summary>
    public LineWay? To(Joint joint, bool second)
    {
        var (a, b) = Sides(joint);
        return (second ? b : a) is not { } side
            ? new([joint], [])
            : Find(side, joint, passFinalFits: false, outer) ?? Find(side, joint, passFinalFits: true, outer);
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

    /// <summary>Both ways along a line: <c>east or west</c>; off the axes <c>north and up, or back</c>.</summary>
    public static string Both(Vector along) => Axis(along) is var (_, word, back) ? $"{word} or {back}" : One(along) + ", or back";

    /// <summary>One way: <c>east</c>, or its parts with their shares.</summary>
    public static string One(Vector along)
    {
        var unit = along.Unit;
        var words = new List<string>();
        foreach (var (axis, word, back) in Axes)
        {
            var part = unit.Dot(axis);
            if (Math.Abs(part) > NearlyAlong)
                return part > 0 ? word : back;
            if (Math.Abs(part) > 0.02)
                words.Add(FormattableString.Invariant($"{Math.Abs(part):0.00} {(part > 0 ? word : back)}"));
        }

        return string.Join(" and ", words);
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
