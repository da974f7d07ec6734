using Rootgap.Fabricating;
using Rootgap.Measure;

namespace Rootgap.FitUp;

/// <summary>An end of a spool to which nothing of the spool is joined, as it should be: plant axes as drawn, mm.</summary>
/// <param name="Name">Id of its part, with the way it looks where the part has several: "C5", "P1 north".</param>
/// <param name="Part">The part.</param>
/// <param name="Centre">Middle of the face, final-fit extra included, and what its own weld, which is made later, will draw in.</param>
/// <param name="Normal">Unit, out of the spool.</param>
/// <param name="Outside">Diameter over the lips, mm.</param>
/// <param name="Holes">Bolt holes; null where there are none, or no line to set them by.</param>
public sealed record OpenEnd(string Name, FitPart Part, Point Centre, Vector Normal, double Outside, FitHoles? Holes)
{
    /// <summary>As people call it, who know a pipe by its piece mark: "C5", "2-B north". A readings file may say so too.</summary>
    public string Called => Part.Label + Name[Part.Id.Length..];

    /// <summary>Unit, in the face: 12 o'clock, nearest to up as drawn; north where the face lies level.</summary>
    public Vector Twelve { get; } = StandingJoint.TwelveOClock(Normal, Vector.Up);

    /// <summary>Unit, in the face: at the right hand looking out of the end.</summary>
    public Vector Three => Normal.Cross(Twelve);

    /// <summary>How it is cut to lie on a header; null where it is square.</summary>
    internal SaddleEnd? Saddle { get; init; }

    /// <summary>It has a face on which a level or a straight edge lies.</summary>
    public bool IsPlane => Saddle is null;

    /// <summary>What a saddle's edge is called there; empty where the end is square, or the edge has no name there.</summary>
    public string EdgeAt(int at) => Saddle?.Name(Q(at)) ?? "";

    public Vector Q(int at) => at switch
    {
        12 => Twelve,
        3 => Three,
        6 => -Twelve,
        9 => -Three,
        _ => throw new ArgumentOutOfRangeException(nameof(at), "lips are read at 12, 3, 6 and 9"),
    };

    /// <summary>The motion that an error gives the end: x toward 3 o'clock, y toward 12, z out of the spool, about the face's middle.</summary>
    public Motion MotionOf(in PoseError e) => Motion.About(Centre, (Three * e.X) + (Twelve * e.Y) + (Normal * e.Z), (Three * e.Rx) + (Twelve * e.Ry) + (Normal * e.Rz));

    /// <summary>The error that a motion of the end is.</summary>
    public PoseError ErrorOf(in Motion motion)
    {
        var (shift, turn) = (motion.ShiftAt(Centre), motion.Turn);
        return new(shift.Dot(Three), shift.Dot(Twelve), shift.Dot(Normal), turn.Dot(Three), turn.Dot(Twelve), turn.Dot(Normal));
    }

    /// <summary>The lip at a clock position of the moved end. A rim shows no roll: 12 o'clock is found anew with the level, so a lip is a place and not a point of the metal.</summary>
    public Point Lip(int at, in Motion moved)
    {
        var normal = moved.Of(Normal);
        var side = Q(at).SquareTo(normal).Unit;
        return moved.Of(Centre) + (side * (Outside / 2)) + (normal * (Saddle?.Moved(moved).Deeper(side) ?? 0));
    }

    /// <summary>The ends of a spool, along the line.</summary>
    /// <param name="place">How each part lies against its place as drawn.</param>
    internal static IReadOnlyList<OpenEnd> Of(FitSpool spool, Func<string, Motion> place)
    {
        var there = spool.Parts.Select(p => p.Id).ToHashSet(StringComparer.Ordinal);
        List<OpenEnd> ends = [];
        foreach (var part in spool.Parts)
        {
            // A cap's crown is no end that anything is joined to.
            var free = part.Of is Routes.Cap ? [] : part.Ends.Where(e => spool.Fitting.Net.IsFree(part, e, there)).ToList();
            foreach (var end in free)
            {
                var motion = place(part.Id);
                var holes = part.Holes is { } h && end.Name == Routes.PortName.Face ? h with { Between = motion.Of(h.Between) } : null;
                ends.Add(new(free.Count > 1 ? $"{part.Id} {Way(end.Face)}" : part.Id, part, motion.Of(end.At), motion.Of(end.Face), end.Outside, holes) { Saddle = end.Saddle?.Moved(motion) });
            }
        }

        return ends;
    }

    /// <summary>The plant direction that comes nearest.</summary>
    internal static string Way(Vector v)
    {
        var (x, y, z) = (Math.Abs(v.X), Math.Abs(v.Y), Math.Abs(v.Z));
        return z >= x && z >= y ? (v.Z > 0 ? "up" : "down") : x >= y ? (v.X > 0 ? "east" : "west") : v.Y > 0 ? "north" : "south";
    }
}
