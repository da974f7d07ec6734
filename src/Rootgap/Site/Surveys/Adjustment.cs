using MathNet.Numerics.LinearAlgebra;
using Rootgap.Findings;
using Rootgap.FitUp;
using Rootgap.Measure;

namespace Rootgap.Site.Surveys;

/// <summary>A reading after the adjustment.</summary>
/// <param name="Residual">Read less reckoned, mm or radians.</param>
/// <param name="Standardised">Over the standard deviation that the residual should have; 0 where nothing checks the reading.</param>
/// <param name="Redundancy">How much of it the others check, 0 to 1.</param>
public sealed record Adjusted(SiteTaken Taken, double Residual, double Standardised, double Redundancy)
{
    /// <summary>Over this many standard deviations a reading is questioned.</summary>
    private const double Limit = 3;

    /// <summary>Under this nothing checks a reading.</summary>
    private const double Unchecked = 0.05;

    public bool IsQuestioned => Math.Abs(Standardised) > Limit;

    public bool IsUnchecked => Redundancy < Unchecked;
}

/// <summary>Where everything stands, by least squares from what was read and what was known before, and how well that is known.</summary>
public sealed class Adjustment
{
    private readonly Unknowns unknowns;
    private readonly Slopes slopes;
    private readonly double[] x;

    private Adjustment(SiteLine line, Survey survey, double expansion, Unknowns unknowns, double[] x, Matrix<double> covariance)
    {
        (Line, Survey, Expansion, this.unknowns, this.x, Covariance) = (line, survey, expansion, unknowns, x, covariance);
        slopes = new(line, unknowns, x);
        Standing = unknowns.At(x);
        Readings = [.. survey.Readings.Select(Judge)];
    }

    public SiteLine Line { get; }

    public Survey Survey { get; }

    /// <summary>Expansion of the steel that was reckoned with, per degree C.</summary>
    public double Expansion { get; }

    /// <summary>Where everything stands.</summary>
    public Standing Standing { get; }

    public IReadOnlyList<Adjusted> Readings { get; }

    /// <summary>Of the unknowns, in units of their scale.</summary>
    internal Matrix<double> Covariance { get; }

    internal Unknowns Unknowns => unknowns;

    /// <summary>Worst of the readings that the others contradict; null where there is none.</summary>
    public Adjusted? Worst => Readings.Where(r => r.IsQuestioned).MaxBy(r => Math.Abs(r.Standardised));

    /// <summary>A body's pose about its reference point (mm, radians) and the standard deviation of each of the six.</summary>
    public (Vector Shift, Vector Turn, double[] Sd) PoseOf(SiteBody body)
    {
        var of = unknowns.Of(body);
        if (of < 0)
            return (Vector.Zero, Vector.Zero, new double[6]);
        return (new(x[of], x[of + 1], x[of + 2]), new(x[of + 3], x[of + 4], x[of + 5]), [.. Enumerable.Range(of, 6).Select(i => unknowns.Scale[i] * Math.Sqrt(Covariance[i, i]))]);
    }

    /// <summary>A joint's opening: the pose of its second side against its first, and the standard deviation of each of the six.</summary>
    public (PoseError Off, double[] Sd) OpeningOf(SiteJoint joint)
    {
        var sd = new double[6];
        for (var i = 0; i < 6; i++)
        {
            var k = i;
            sd[i] = SdOf([joint.First, joint.Second], s => Opening(joint, s)[k]);
        }

        return (Opening(joint, Standing), sd);
    }

    internal static PoseError Opening(SiteJoint joint, Standing standing) =>
        joint.Axes.ErrorOf(standing.Motions[joint.First.Index].Inverse.After(standing.Motions[joint.Second.Index]));

    /// <summary>How far an end of a spool is from where its body's drawing has it, in its joint's axes, and the standard deviation of each of the six; null for what is outside or exactly as drawn.</summary>
    public (PoseError Off, PoseError Sd)? AsBuilt(SiteEnd end)
    {
        var of = unknowns.Of(end);
        if (of < 0)
            return null;
        double[] sd = [.. Enumerable.Range(of, 6).Select(i => unknowns.Scale[i] * Math.Sqrt(Covariance[i, i]))];
        return (PoseError.From(x.AsSpan(of, 6)), PoseError.From(sd));
    }

    /// <summary>Whether the readings say more of an end than was thought of it before: its spread went down by a fifth in at least one of the six.</summary>
    public bool IsMeasured(SiteEnd end) => unknowns.Of(end) is >= 0 and var of && Enumerable.Range(of, 6).Any(i => Covariance[i, i] < 0.64);

    /// <summary>Components of a body's pose that the readings do not see: 0 to 5, east, north, up and the turn about them.</summary>
    public IEnumerable<int> UnseenOf(SiteBody body)
    {
        var of = unknowns.Of(body);
        return of < 0 ? [] : Enumerable.Range(0, 6).Where(i => Math.Sqrt(Covariance[of + i, of + i]) > 0.5);
    }

    /// <summary>Standard deviation of a value that depends on the given ends.</summary>
    public double SdOf(IReadOnlyList<SiteEnd> ends, Func<Standing, double> value)
    {
        var row = slopes.Of(ends, value, readsFrame: false);
        return Math.Sqrt(Math.Max(0, Quadratic(row)));
    }

    /// <summary>The slopes of a value with each unknown, in units of their scale.</summary>
    internal List<(int Unknown, double Slope)> SlopesOf(IReadOnlyList<SiteEnd> ends, Func<Standing, double> value, bool readsFrame = false) => slopes.Of(ends, value, readsFrame);

    /// <summary>Standard deviation of the same value before anything was read, everything as drawn.</summary>
    internal double SdBefore(IReadOnlyList<SiteEnd> ends, Func<Standing, double> value)
    {
        asDrawn ??= new(Line, unknowns, (double[])unknowns.Mean.Clone());
        return Math.Sqrt(asDrawn.Of(ends, value, readsFrame: false).Sum(s => s.Slope * s.Slope));
    }

    private Slopes? asDrawn;

    /// <summary>The adjustment; without it, why there is none.</summary>
    public static (Adjustment? Adjustment, IReadOnlyList<Finding> Errors) Of(SiteLine line, Survey survey)
    {
        var expansion = survey.Expansion ?? Standards.Metals.ExpansionOf(line.Fabrication.Route.Drawing.Line.Material).PerDegree;
        var plain = new Unknowns(line, survey, expansion, Motion.None);
        (Unknowns Unknowns, double[] X, Matrix<double> Covariance, double Misfit)? best = null;
        foreach (var start in FrameStart.Of(survey, plain.At(plain.Mean)))
        {
            var sought = new Unknowns(line, survey, expansion, start);
            var solving = new LeastSquares(line, survey, sought);
            if (solving.OpenFrame() is { } missing)
                return (null, [missing]);
            var (x, covariance, misfit) = solving.Solve();
            if (best is null || misfit < best.Value.Misfit)
                best = (sought, x, covariance, misfit);
        }

        var (u, found, c, _) = best!.Value;
        return (new(line, survey, expansion, u, found, c), []);
    }

    private Adjusted Judge(SiteTaken taken)
    {
        var row = slopes.Of(taken.Reading.Ends, taken.Reading.Of, taken.Reading is SiteReading.Coordinate);
        var residual = taken.Value - taken.Reading.Of(Standing);
        var left = 1 - (Quadratic(row) / (taken.Sd * taken.Sd));
        return new(taken, residual, left < 1e-6 ? 0 : residual / (taken.Sd * Math.Sqrt(left)), Math.Max(0, left));
    }

    private double Quadratic(List<(int Unknown, double Slope)> row)
    {
        var sum = 0.0;
        foreach (var (i, a) in row)
        {
            foreach (var (k, b) in row)
                sum += a * b * Covariance[i, k];
        }

        return sum;
    }
}
