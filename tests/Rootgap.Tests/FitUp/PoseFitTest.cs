using MathNet.Numerics.Distributions;
using Rootgap.FitUp;

namespace Rootgap.Tests.FitUp;

/// <summary>When readings contradict each other, against the distribution of a sum of squares (MathNet.Numerics, chi-squared).</summary>
public class PoseFitTest
{
    // Readings of one thing, by turns so much over and under: no single one explains it, and their squares add up. What chance gives no more often than one in two thousand (3.3
    // standard deviations, one side) is a contradiction.
    [Theory]
    [InlineData(4)]
    [InlineData(6)]
    [InlineData(12)]
    [InlineData(30)]
    public void Readings_disagree_where_their_squares_are_beyond_chance(int count)
    {
        var limit = Math.Sqrt(ChiSquared.InvCDF(count, Normal.CDF(0, 1, 3.3)) / count);
        Assert.False(Disagree(count, 0.98 * limit));
        Assert.True(Disagree(count, 1.02 * limit));
    }

    private static bool Disagree(int count, double off)
    {
        var fit = PoseFit.Of([.. Enumerable.Range(0, count).Select(i => new Sighting([0], e => e[0], i % 2 == 0 ? off : -off, 1))], 1);
        Assert.Equal(count, fit.Kept.Count);
        return fit.Disagree;
    }
}
