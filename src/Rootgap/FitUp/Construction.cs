using Rootgap.Measure;
using Rootgap.Routes;

namespace Rootgap.FitUp;

/// <summary>
/// A spool under construction, at one moment: what hangs together, and how each part lies against its place as drawn. An immutable value: a joint that is made gives
/// the next one. Motions are counted in the drawing's axes; only those of parts that hang together say anything about each other.
/// </summary>
public sealed record Construction
{
    private readonly IReadOnlyDictionary<string, Assembly> assemblyOf;
    private readonly IReadOnlyDictionary<string, Motion> motions;
    private readonly IReadOnlyDictionary<string, string> screwedOn;

    private Construction(IReadOnlyDictionary<string, Assembly> assemblyOf, IReadOnlyDictionary<string, Motion> motions, IReadOnlyDictionary<string, string> screwedOn, IReadOnlyList<string> made) =>
        (this.assemblyOf, this.motions, this.screwedOn, Made) = (assemblyOf, motions, screwedOn, made);

    /// <summary>The joints made so far, in their order.</summary>
    public IReadOnlyList<string> Made { get; }

    /// <summary>What hangs together, along the line.</summary>
    public IEnumerable<Assembly> Assemblies => assemblyOf.Values.Distinct().OrderBy(a => a.Parts[0].Order);

    public Assembly Of(string part) => assemblyOf[HostOf(part)];

    /// <summary>How a part lies against its place as drawn; what is screwed on last goes with what carries it.</summary>
    public Motion MotionOf(string part) => motions.TryGetValue(HostOf(part), out var motion) ? motion : Motion.None;

    private string HostOf(string part)
    {
        while (screwedOn.TryGetValue(part, out var host))
            part = host;
        return part;
    }

    /// <summary>The parts as they are picked up; what is screwed together between welds is one from the beginning.</summary>
    /// <param name="screwedLast">What is screwed on when the welds are made, with the part it is screwed on (<see cref="FitSpool.ScrewedLast"/>).</param>
    public static Construction Begin(IEnumerable<Assembly> pieces, IReadOnlyDictionary<string, string> screwedLast)
    {
        var of = new Dictionary<string, Assembly>(StringComparer.Ordinal);
        foreach (var piece in pieces)
        {
            foreach (var part in piece.Parts)
                of[part.Id] = piece;
        }

        return new(of, new Dictionary<string, Motion>(StringComparer.Ordinal), screwedLast, []);
    }

    /// <summary>The construction after a joint is tacked with an error that stays.</summary>
    /// <param name="joint">The joint as it stood: its places are those of the part on the stands, as that one is drawn.</param>
    /// <param name="stands">The part on the stands.</param>
    /// <param name="error">In the joint's own axes as it stood; none where nothing was read.</param>
    public Construction Join(StandingJoint joint, string stands, in PoseError error)
    {
        var fit = joint.Joint;
        if (fit.IsRing)
            return new(assemblyOf, motions, screwedOn, [.. Made, fit.Name]);
        var back = MotionOf(stands);
        var moved = joint.MotionOf(error);
        var next = new Dictionary<string, Motion>(motions, StringComparer.Ordinal);
        foreach (var part in fit.Brought.Parts)
            next[part.Id] = back.After(moved).After(fit.Places[part.Id]);
        var both = fit.HeldSide.With(fit.Brought);
        var of = new Dictionary<string, Assembly>(assemblyOf, StringComparer.Ordinal);
        foreach (var part in both.Parts)
            of[part.Id] = both;
        return new(of, next, screwedOn, [.. Made, fit.Name]);
    }

    /// <summary>How each part lies as one sees it from the part on the stands, which lies there as drawn.</summary>
    public Func<string, Motion> SeenFrom(string stands)
    {
        var back = MotionOf(stands).Inverse;
        return id => back.After(MotionOf(id));
    }
}
