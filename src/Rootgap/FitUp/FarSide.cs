using Rootgap.Measure;
using Rootgap.Routes;

namespace Rootgap.FitUp;

/// <summary>What is read at the far side of a joint: one free end, and the way to it from the weld.</summary>
/// <param name="Part">The part whose end it is.</param>
/// <param name="End">The end.</param>
/// <param name="Turns">The turn in each part on the way, as drawn: from where the way comes in to where it goes out.</param>
internal sealed record FarSide(FitPart Part, FitEnd End, IReadOnlyList<(Vector In, Vector Out)> Turns)
{
    /// <summary>
    /// The free end of the new part that its kind names, else another free end of it, else the nearest beyond: fewest parts, then shortest along the axes, then
    /// first along the line. Null where nothing is free.
    /// </summary>
    /// <param name="net">What is joined to what.</param>
    /// <param name="part">The new part.</param>
    /// <param name="entry">Its end at the weld; null where the weld is on its side (a header).</param>
    /// <param name="into">Unit, from the held part into the new one.</param>
    /// <param name="brought">The assembly in which it is looked for.</param>
    /// <param name="there">Ids of all that is there: an end with one of them at it is not free.</param>
    public static FarSide? Of(JointNet net, Joint weld, FitPart part, FitEnd? entry, Vector into, Assembly brought, IReadOnlySet<string> there)
    {
        var goesIn = entry is null ? into : -entry.Face;
        if (Exit(net, part, entry, there) is { } own)
            return new(part, own, Ways(goesIn, own.Face, entry?.At, own.At));
        var open = new PriorityQueue<(FitPart Part, FitEnd? Entry, Vector In, int Parts, double Length, IReadOnlyList<(Vector, Vector)> Turns), (int, double, int)>();
        var seen = new HashSet<string>(StringComparer.Ordinal) { part.Id };
        void Beyond(FitPart from, FitEnd? came, Vector way, int parts, double length, IReadOnlyList<(Vector, Vector)> turns)
        {
            foreach (var (joint, at, otherId) in net.Of(from.Id))
            {
                if (joint == weld || brought.Parts.FirstOrDefault(p => p.Id == otherId) is not { } next || seen.Contains(otherId))
                    continue;
                // A branch leaves its header at the side: the way turns to the branch's own direction there.
                var nextEnd = net.EndAt(joint, next);
                var outward = at?.Face ?? (nextEnd is null ? way : -nextEnd.Face);
                var goes = nextEnd is null ? outward : -nextEnd.Face;
                var more = length + Length(from, came?.At, at?.At ?? joint.At);
                open.Enqueue((next, nextEnd, goes, parts + 1, more, [.. turns, .. Ways(way, outward, came?.At, at?.At)]), (parts + 1, more, next.Order));
            }
        }

        Beyond(part, entry, goesIn, 1, 0, []);
        // Of the parts equally far, the shortest way to a free end counts.
        (FarSide Side, int Parts, double Length, int Order)? best = null;
        while (open.TryDequeue(out var here, out _))
        {
            if (best is { } found && found.Parts < here.Parts)
                break;
            if (!seen.Add(here.Part.Id))
                continue;
            foreach (var end in here.Part.Ends)
            {
                if (!net.IsFree(here.Part, end, there))
                    continue;
                var length = here.Length + Length(here.Part, here.Entry?.At, end.At);
                if (best is null || (length, here.Part.Order).CompareTo((best.Value.Length - 1e-6, best.Value.Order)) < 0)
                    best = (new(here.Part, end, [.. here.Turns, .. Ways(here.In, end.Face, here.Entry?.At, end.At)]), here.Parts, length, here.Part.Order);
            }

            Beyond(here.Part, here.Entry, here.In, here.Parts, here.Length, here.Turns);
        }

        return best?.Side;
    }

    /// <summary>The free end of a part that is read: an elbow's outlet, a flange's face, a tee's branch (entered by its branch, the first end of its run, or the one toward which it leans), the far end of anything straight; else another that is free.</summary>
    private static FitEnd? Exit(JointNet net, FitPart part, FitEnd? entry, IReadOnlySet<string> there)
    {
        if (part.Of is Cap)
            return null;
        var free = part.Ends.Where(e => e != entry && net.IsFree(part, e, there)).ToList();
        if (free.Count == 0)
            return null;
        return part.Of is Tee && entry?.Name != PortName.Branch && free.Find(e => e.Name == PortName.Branch) is { } branch ? branch
            : entry is null ? free[0] : FitEnd.Onward(free, entry);
    }

    /// <summary>The turn in a part between two of its ends; one that leads straight back, a return's, is two quarter turns by way of its crown.</summary>
    public static IReadOnlyList<(Vector In, Vector Out)> Ways(Vector goesIn, Vector comesOut, Point? from, Point? to) =>
        goesIn.Dot(comesOut) < -0.99 && from is { } a && to is { } b && (b - a).SquareTo(goesIn) is { Length: > Tolerance.Noise } across
            ? [(goesIn, across.Unit), (across.Unit, comesOut)]
            : [(goesIn, comesOut)];

    private static double Length(FitPart part, Point? from, Point? to)
    {
        if (from is not { } a || to is not { } b)
            return 0;
        return part.Of is Component { LiesAlongLine: false } c ? a.To(c.WorkPoint) + c.WorkPoint.To(b) : a.To(b);
    }

    /// <summary>The least turn from one direction to another: unit axis and radians; none where they agree.</summary>
    public static (Vector Axis, double Angle)? Least(Vector from, Vector to)
    {
        var axis = from.Cross(to);
        var angle = from.AngleTo(to);
        return angle < 1e-9 ? null : axis.Length < 1e-9 ? (from.AnySquare(), angle) : (axis.Unit, angle);
    }
}

/// <summary>What is joined to what by welds and threads, and at which end.</summary>
internal sealed class JointNet
{
    private readonly ILookup<string, (Joint Joint, string Other)> joints;
    private readonly IReadOnlyDictionary<string, FitPart> parts;

    public JointNet(IEnumerable<Joint> all, IReadOnlyDictionary<string, FitPart> parts)
    {
        this.parts = parts;
        joints = all.Where(j => j.Kind != JointKind.Bolted && j.Between is [var a, var b] && a != b && parts.ContainsKey(a) && parts.ContainsKey(b))
            .SelectMany(j => new[] { (Part: j.Between[0], Joint: j, Other: j.Between[1]), (Part: j.Between[1], Joint: j, Other: j.Between[0]) })
            .ToLookup(t => t.Part, t => (t.Joint, t.Other), StringComparer.Ordinal);
    }

    /// <summary>The joints of a part, each with the end of the part that it is at (null: on its side) and the part beyond.</summary>
    public IEnumerable<(Joint Joint, FitEnd? At, string Other)> Of(string id) => joints[id].Select(j => (j.Joint, EndAt(j.Joint, parts[id]), j.Other));

    /// <summary>The end of a part at a joint; null where it is joined at its side: a header.</summary>
    /// <remarks>A flange is never welded at its contact face, however near a pipe that goes into it comes to the face.</remarks>
    public FitEnd? EndAt(Joint joint, FitPart part) => IsHeader(joint, part) ? null
        : part.Ends.Where(e => part.Of is not Flange || e.Name != PortName.Face).DefaultIfEmpty(part.Ends[0]).MinBy(e => e.Drawn.To(joint.At));

    public FitPart Part(string id) => parts[id];

    /// <summary>Whether a part is the header of a branch joint: of two pipes the one that the weld is far from both ends of.</summary>
    public bool IsHeader(Joint joint, FitPart part)
    {
        if (joint.Kind != JointKind.Branch || !part.IsPipe)
            return false;
        var other = parts[joint.Between[0] == part.Id ? joint.Between[1] : joint.Between[0]];
        return !other.IsPipe || Least(other) < Least(part);

        double Least(FitPart p) => p.Ends.Min(e => e.Drawn.To(joint.At));
    }

    /// <summary>Whether nothing of what is there is joined to an end.</summary>
    public bool IsFree(FitPart part, FitEnd end, IReadOnlySet<string> there)
    {
        foreach (var (_, at, other) in Of(part.Id))
        {
            if (at == end && there.Contains(other))
                return false;
        }

        return true;
    }
}
