using MathNet.Numerics.LinearAlgebra;

namespace Rootgap.FitUp;

/// <summary>Which of the readings of a joint a short card bears: few, and together they see every error that the joint may have.</summary>
internal static class TellingReadings
{
    /// <summary>An error is known well enough when one standard deviation is this share of its limit.</summary>
    private const double Known = 0.4;

    /// <summary>A row that brings what is lacking nearer by less than this, in log units, is not worth its room.</summary>
    private const double LeastGain = 0.15;

    /// <summary>Rows in the order in which they were given, without those that tell nothing more.</summary>
    /// <param name="rows">The readings of each row.</param>
    /// <param name="always">Rows that are kept in any case.</param>
    /// <param name="most">Rows at most, those that are kept in any case with them.</param>
    public static IReadOnlyList<int> Of(StandingJoint joint, FitTolerance limits, IReadOnlyList<IReadOnlyList<Target>> rows, Func<int, bool> always, int most)
    {
        var scale = Scale(limits);
        // What is thought before anything is read, in units of the limits.
        var known = Matrix<double>.Build.DenseDiagonal(6, 6, i => (scale[i] / PoseError.Prior[i]) * (scale[i] / PoseError.Prior[i]));
        var told = rows.Select(r => Told(joint, r, scale)).ToList();
        var chosen = Enumerable.Range(0, rows.Count).Where(always).ToHashSet();
        foreach (var row in chosen)
            known += told[row];
        while (chosen.Count < most && Lacking(known) is > 0 and var lacking)
        {
            var best = Enumerable.Range(0, rows.Count).Where(i => !chosen.Contains(i)).Select(i => (Row: i, Gain: lacking - Lacking(known + told[i]))).DefaultIfEmpty((Row: -1, Gain: 0.0)).MaxBy(b => b.Gain);
            if (best.Gain < LeastGain)
                break;
            chosen.Add(best.Row);
            known += told[best.Row];
        }

        return [.. chosen.Order()];
    }

    // How much the errors are less well known than they should be, in log units over all of them.
    private static double Lacking(Matrix<double> known) => known.Inverse().Diagonal().Sum(v => Math.Max(0, Math.Log(v / (Known * Known)) / 2));

    // A turn that changes nothing for the part is still kept to the tilt's limit.
    private static double[] Scale(FitTolerance t) =>
        [t.Shift.Value, t.Shift.Value, t.Gap.Value, t.Tilt.Value, t.Tilt.Value, double.IsInfinity(t.Roll.Value) ? t.Tilt.Value : t.Roll.Value];

    private static Matrix<double> Told(StandingJoint joint, IReadOnlyList<Target> row, double[] scale)
    {
        var told = Matrix<double>.Build.Dense(6, 6);
        Span<double> slopes = stackalloc double[6];
        foreach (var target in row.Where(t => !t.Reading.IsOfPart))
        {
            Targets.Slopes(target.Reading, joint, PoseError.None, slopes);
            var seen = Vector<double>.Build.Dense(6);
            for (var i = 0; i < 6; i++)
                seen[i] = slopes[i] * scale[i] / target.Reading.Sd;
            told += seen.OuterProduct(seen);
        }

        return told;
    }
}
