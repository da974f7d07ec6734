using MathNet.Numerics.LinearAlgebra;
using MathNet.Numerics.LinearAlgebra.Factorization;
using Rootgap.Findings;
using Rootgap.FitUp;

namespace Rootgap.Site.Surveys;

/// <summary>
/// The least of the weighted squares: of what is read less what would be read, of what was thought before, and of the openings of joints that are made or
/// loose, on the full nonlinear functions (Levenberg 1944, Marquardt 1963).
/// </summary>
internal sealed class LeastSquares
{
    /// <summary>A step under this share of every unknown's scale is none: 0.001 mm at most.</summary>
    private const double Settled = 1e-6;

    /// <summary>Sums of squares that differ by less than this share are the same: rounding.</summary>
    private const double Noise = 1e-9;

    /// <summary>The first step is shortened by half where it is best seen: bodies stand centimetres off, and what is read is not linear in that.</summary>
    private const double FirstDamping = 1;

    private const int MostRounds = 100;

    private readonly SiteLine line;
    private readonly Survey survey;
    private readonly Unknowns unknowns;
    private readonly List<Row> rows = [];

    /// <param name="Sd">As given.</param>
    /// <param name="Usual">Usual spread of such a reading; the first search is made with no less.</param>
    private sealed record Row(IReadOnlyList<SiteEnd> Ends, Func<Standing, double> Of, double Value, double Sd, double Usual, bool ReadsFrame);

    public LeastSquares(SiteLine line, Survey survey, Unknowns unknowns)
    {
        (this.line, this.survey, this.unknowns) = (line, survey, unknowns);
        foreach (var taken in survey.Readings)
            rows.Add(new(taken.Reading.Ends, taken.Reading.Of, taken.Value, taken.Sd, taken.Reading.UsualSd(taken.Value, totalStation: false), taken.Reading is SiteReading.Coordinate));
        foreach (var joint in line.Joints)
        {
            if (!survey.Made.Contains(joint.Id) && !survey.Loose.Contains(joint.Id))
                continue;
            var limits = JointLimits.AsMade(joint);
            for (var i = 0; i < 6; i++)
            {
                var k = i;
                rows.Add(new([joint.First, joint.Second], s => Adjustment.Opening(joint, s)[k], 0, JointLimits.Spread(limits[i]), JointLimits.Spread(limits[i]), ReadsFrame: false));
            }
        }
    }

    /// <summary>What is missing where the readings do not fix the survey's own frame; null where they do.</summary>
    public Finding? OpenFrame()
    {
        var free = unknowns.Count - unknowns.Frame;
        if (free == 0)
            return null;
        var slopes = new Slopes(line, unknowns, (double[])unknowns.Mean.Clone());
        var seen = Matrix<double>.Build.Dense(free, free);
        foreach (var row in rows.Where(r => r.ReadsFrame))
        {
            var own = slopes.Of(row.Ends, row.Of, readsFrame: true).Where(s => s.Unknown >= unknowns.Frame).ToList();
            foreach (var (i, a) in own)
            {
                foreach (var (k, b) in own)
                    seen[i - unknowns.Frame, k - unknowns.Frame] += a * b / (row.Sd * row.Sd);
            }
        }

        // A turn that shifts the farthest point by less than a hundredth of its reading's spread is not fixed.
        if (seen.Evd(Symmetricity.Symmetric).EigenValues.Min(v => v.Real) > 0.01)
            return null;
        var points = rows.Count(r => r.ReadsFrame);
        return new("frame-not-fixed", Severity.Stop, "frame", survey.Places.Count > 0 ? survey.Places[0] : default,
            $"The coordinates do not fix the survey's own frame: there {(points == 1 ? "is 1 coordinate" : $"are {points} coordinates")}, of points that leave {(survey.Frame == SurveyFrame.Levelled ? "its shift or its turn about the upright" : "its shift or a turn")} open.",
            survey.Frame == SurveyFrame.Levelled
                ? "Give east, north and up of one point, and east and north of a second one some way off."
                : "Give east, north and up of three points that are not in one line.");
    }

    /// <summary>The unknowns with the least squares, their covariance in units of their scale, and the sum of squares.</summary>
    public (double[] X, Matrix<double> Covariance, double Misfit) Solve()
    {
        var x = (double[])unknowns.Mean.Clone();
        if (x.Length == 0)
            return (x, Matrix<double>.Build.Dense(0, 0), Misfit(x, r => r.Sd));
        // Readings that claim more than is usual make a narrow, curved valley: it is entered from where the usual spread leads.
        if (rows.Exists(r => r.Sd < r.Usual))
            x = Descend(x, r => Math.Max(r.Sd, r.Usual)).X;
        (x, var normal, var misfit) = Descend(x, r => r.Sd);
        return (x, Factor(normal).Solve(Matrix<double>.Build.DenseIdentity(x.Length)), misfit);
    }

    private (double[] X, Matrix<double> Normal, double Misfit) Descend(double[] start, Func<Row, double> sd)
    {
        var x = start;
        var damping = FirstDamping;
        var misfit = Misfit(x, sd);
        var (normal, right) = Normal(x, sd);
        for (var round = 0; round < MostRounds; round++)
        {
            var damped = normal.Clone();
            for (var i = 0; i < x.Length; i++)
                damped[i, i] *= 1 + damping;
            var step = Factor(damped).Solve(right);
            var next = (double[])x.Clone();
            for (var i = 0; i < x.Length; i++)
                next[i] += step[i] * unknowns.Scale[i];
            var there = Misfit(next, sd);
            // A short step says that the bottom is reached only where nothing shortens it.
            var isSettled = step.AbsoluteMaximum() < Settled && damping < 1e-3;
            if (there <= misfit + (Noise * (1 + misfit)) || isSettled)
            {
                (x, misfit) = (next, there);
                damping = damping < 1e-4 ? 0 : damping / 30;
                (normal, right) = Normal(x, sd);
                if (isSettled)
                    break;
            }
            else
            {
                damping = Math.Max(1e-4, damping * 10);
                if (damping > 1e12)
                    break;
            }
        }

        return (x, normal, misfit);
    }

    private static Cholesky<double> Factor(Matrix<double> normal) => normal.Cholesky();

    private double Misfit(double[] x, Func<Row, double> sd)
    {
        var standing = unknowns.At(x);
        var sum = 0.0;
        foreach (var row in rows)
        {
            var off = (row.Value - row.Of(standing)) / sd(row);
            sum += off * off;
        }

        for (var i = 0; i < unknowns.Frame; i++)
            sum += Math.Pow((x[i] - unknowns.Mean[i]) / unknowns.Scale[i], 2);
        return sum;
    }

    private (Matrix<double> Normal, Vector<double> Right) Normal(double[] x, Func<Row, double> sd)
    {
        var slopes = new Slopes(line, unknowns, x);
        var normal = Matrix<double>.Build.Dense(x.Length, x.Length);
        var right = Vector<double>.Build.Dense(x.Length);
        for (var i = 0; i < unknowns.Frame; i++)
        {
            normal[i, i] = 1;
            right[i] = (unknowns.Mean[i] - x[i]) / unknowns.Scale[i];
        }

        foreach (var row in rows)
        {
            var weight = 1 / (sd(row) * sd(row));
            var off = row.Value - row.Of(slopes.Standing);
            var slope = slopes.Of(row.Ends, row.Of, row.ReadsFrame);
            foreach (var (i, a) in slope)
            {
                right[i] += a * off * weight;
                foreach (var (k, b) in slope)
                    normal[i, k] += a * b * weight;
            }
        }

        return (normal, right);
    }
}
