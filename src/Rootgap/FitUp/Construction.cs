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
    private readonly IReadOnlyDictionary<string, string> carriers;

    private Construction(IReadOnlyDictionary<string, Assembly> assemblyOf, IReadOnlyDictionary<string, Motion> motions, IReadOnlyDictionary<string, string> carriers, IReadOnlyList<string> made) =>
        (this.assemblyOf, this.motions, this.carriers, Made) = (assemblyOf, motions, carriers, made);

    /// <summary>The joints made so far, in their order.</summary>
    public IReadOnlyList<string> Made { get; }

    /// <summary>What hangs together, along the line.</summary>
    public IEnumerable<Assembly> Assemblies => assemblyOf.Values.Distinct().OrderBy(a => a.Parts[0].Order);

    public Assembly Of(string part) => assemblyOf[carriers.GetValueOrDefault(part, part)];

    /// <summary>How a part lies against its place as drawn; what is screwed on later, as the welded part does that carries it.</summary>
    public Motion MotionOf(string part) => motions.TryGetValue(carriers.TryGetValue(part, out var carrier) ? carrier : part, out var motion) ? motion : Motion.None;

    /// <summary>The parts as they are picked up; what is screwed together before the welds is one from the beginning.</summary>
    /// <param name="pieces">What is picked up.</param>
    /// <param name="screwed">What is screwed on later, from the welded part outward; null where nothing is.</param>
    public static Construction Begin(IEnumerable<Assembly> pieces, IEnumerable<ScrewedOn>? screwed = null)
    {
        var carriedBy = new Dictionary<string, string>(StringComparer.Ordinal);
        foreach (var one in screwed ?? [])
            carriedBy[one.Part.Id] = carriedBy.TryGetValue(one.On.Id, out var carrier) ? carrier : one.On.Id;

        var of = new Dictionary<string, Assembly>(StringComparer.Ordinal);
        foreach (var piece in pieces)
        {
            foreach (var part in piece.Parts)
                of[part.Id] = piece;
        }

        return new(of, new Dictionary<string, Motion>(StringComparer.Ordinal), carriedBy, []);
    }

    /// <summary>The construction after a joint is tacked with an error that stays.</summary>
    /// <param name="joint">The joint as it stood: its places are those of the part on the stands, as that one is drawn.</param>
    /// <param name="stands">The part on the stands.</param>
    /// <param name="error">In the joint's own axes as it stood; none where nothing was read.</param>
    public Construction Join(StandingJoint joint, string stands, in PoseError error)
    {
        var fit = joint.Joint;
        if (fit.IsRing)
            return new(assemblyOf, motions, carriers, [.. Made, fit.Name]);
        var back = MotionOf(stands);
        var moved = joint.MotionOf(error);
        var next = new Dictionary<string, Motion>(motions, StringComparer.Ordinal);
        foreach (var part in fit.Brought.Parts)
            next[part.Id] = back.After(moved).After(fit.Places[part.Id]);
        var both = fit.HeldSide.With(fit.Brought);
        var of = new Dictionary<string, Assembly>(assemblyOf, StringComparer.Ordinal);
        foreach (var part in both.Parts)
            of[part.Id] = both;
        return new(of, next, carriers, [.. Made, fit.Name]);
    }

    /// <summary>How each part lies as one sees it from the part on the stands, which lies there as drawn.</summary>
    public Func<string, Motion> SeenFrom(string stands)
    {
        var back = MotionOf(stands).Inverse;
        return id => back.After(MotionOf(id));
    }
}
