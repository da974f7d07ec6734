using Rootgap.Measure;

namespace Rootgap.FitUp;

/// <summary>A reading as taken: mm, or radians for an angle.</summary>
/// <param name="Reading">What was read.</param>
/// <param name="Value">mm or radians.</param>
/// <param name="Sd">How well it was read, one standard deviation; the reading's usual one where not given.</param>
public sealed record Taken(Reading Reading, double Value, double? Sd = null)
{
    public double Spread => Sd ?? Reading.Sd;
}

/// <summary>What the readings taken say about where the new part is.</summary>
/// <param name="Error">The error found, without a reading that contradicts the others.</param>
/// <param name="Sd">One standard deviation of each component, mm and radians, in the order of <see cref="PoseError.Names"/>.</param>
/// <param name="Unseen">Components that the readings do not see: standard deviation over half of what was thought likely beforehand.</param>
/// <param name="Verdict">What the readings allow to be said.</param>
/// <param name="Outside">Readings that are outside their own allowance.</param>
/// <param name="Again">Readings that do not agree with the others, worst first: left out, and to be taken again.</param>
/// <param name="Alike">Readings that could be the wrong ones just as well: to be taken again too.</param>
/// <param name="Next">The readings not yet taken that together would show most, at most three, the best first; none when enough is seen.</param>
/// <param name="Doubtful">What is left does not fit together, and no single reading explains it.</param>
/// <param name="Residuals">Reading minus what the error found explains, in the readings' order; mm or radians.</param>
public sealed record Diagnosis(
    PoseError Error, IReadOnlyList<double> Sd, IReadOnlyList<int> Unseen, Verdict Verdict, IReadOnlyList<Taken> Outside,
    IReadOnlyList<Taken> Again, IReadOnlyList<Taken> Alike, IReadOnlyList<Reading> Next, bool Doubtful, IReadOnlyList<double> Residuals)
{
    /// <summary>What was read of the part itself.</summary>
    public IReadOnlyList<Taken> OfPart { get; init; } = [];

    /// <summary>Each component seen is inside, each reading too, and all was seen.</summary>
    public bool Within => Verdict == Verdict.Within;

    /// <summary>The error that is kept when the joint is tacked: what nothing saw counts as none.</summary>
    public PoseError Kept => Seen(Error, Unseen);

    private const int Proposed = 3;

    public static Diagnosis Of(StandingJoint joint, FitTolerance tolerance, IReadOnlyList<Taken> taken, IReadOnlyList<Target> targets)
    {
        // The same thing read twice with different figures is a contradiction: neither counts.
        var twice = taken.GroupBy(t => t.Reading).Where(g => g.Max(t => t.Value) - g.Min(t => t.Value) > 1e-9).SelectMany(g => g).ToList();
        var once = taken.Except(twice).GroupBy(t => t.Reading).Select(g => g.First()).ToList();
        // What the part itself is made like moves what is read on it, and says nothing of where it is.
        joint = joint.MadeSo(once);
        Dictionary<Sighting, Taken> of = new(ReferenceEqualityComparer.Instance);
        foreach (var t in once.Where(t => !t.Reading.IsOfPart))
            of[See(t.Reading, t.Value, t.Spread)] = t;
        var fit = PoseFit.Of([.. of.Keys], 1);
        var error = PoseError.From(fit.Errors);
        var residuals = taken.Select(t => t.Value - t.Reading.Measure(joint, error)).ToList();
        var outside = taken.Where(t => !Targets.Of(t.Reading, joint, tolerance).Allows(t.Value)).ToList();
        var verdict = taken.All(t => t.Reading.IsOfPart) ? Verdict.NothingRead
            : !tolerance.Holds(Seen(error, fit.Unseen)) || outside.Count > 0 || fit.Again.Count > 0 || twice.Count > 0 || fit.Disagree ? Verdict.NotWithin
            : fit.Unseen.Any(i => i != 5 || !joint.Joint.RollIsFree) ? Verdict.AsFarAsRead : Verdict.Within;
        var open = targets.Select(t => t.Reading).Where(r => !r.IsOfPart && !fit.Kept.Any(k => of[k].Reading == r)).ToList();
        var limits = tolerance.Each;
        if (joint.Joint.RollIsFree)
            limits[5] = double.PositiveInfinity;
        return new Diagnosis(
            error, fit.Sd, fit.Unseen, verdict, outside, [.. twice, .. fit.Again.Select(s => of[s])], [.. fit.Alike.Select(s => of[s])],
            [.. fit.Next([.. open.Select(r => See(r, 0, r.Sd))], limits, Proposed).Select(i => open[i])], fit.Disagree, residuals)
        { OfPart = [.. once.Where(t => t.Reading.IsOfPart)] };

        Sighting See(Reading reading, double value, double spread) => new([0], e => reading.Measure(joint, PoseError.From(e)), value, spread);
    }

    // An unseen component says nothing either way.
    private static PoseError Seen(in PoseError e, IReadOnlyList<int> unseen)
    {
        Span<double> v = stackalloc double[6];
        for (var i = 0; i < 6; i++)
            v[i] = unseen.Contains(i) ? 0 : e[i];
        return PoseError.From(v);
    }
}
