using Rootgap.Drawings;
using Rootgap.Measure;
using Rootgap.Routes;

namespace Rootgap.Checks;

/// <summary>Which leg of the old drawing is which of the new one: runs by their names, legs by what they say, so that a leg put in between moves no other.</summary>
internal sealed class LegPairs
{
    private const double Gap = 1.5;
    private const double OtherPoint = 2;
    private const double OtherDirection = 2;
    private const double OtherSize = 1;
    private const double OtherDistance = 0.5;

    private readonly int[] runOf;
    private readonly int[][] legOf;

    public LegPairs(Route old, Route @new)
    {
        runOf = new int[old.Runs.Count];
        legOf = new int[old.Runs.Count][];
        for (var r = 0; r < runOf.Length; r++)
        {
            var name = old.Runs[r].Run.Name;
            runOf[r] = -1;
            for (var n = 0; n < @new.Runs.Count; n++)
            {
                if (@new.Runs[n].Run.Name == name)
                    runOf[r] = n;
            }

            legOf[r] = runOf[r] >= 0 ? Pair(old.Runs[r], @new.Runs[runOf[r]]) : [.. Enumerable.Repeat(-2, old.Runs[r].Run.Legs.Count)];
        }
    }

    /// <summary>Run and leg of the new drawing that an old leg is (-1 is the start of a run); null where it is gone.</summary>
    public (int Run, int Leg)? Of(int run, int leg)
    {
        if (runOf[run] < 0)
            return null;
        if (leg < 0)
            return (runOf[run], -1);
        return legOf[run][leg] >= 0 ? (runOf[run], legOf[run][leg]) : null;
    }

    /// <summary>The cheapest way to turn the old legs into the new ones (edit distance), legs that stay paired.</summary>
    private static int[] Pair(RunLine old, RunLine @new)
    {
        var (rows, columns) = (old.Run.Legs.Count, @new.Run.Legs.Count);
        var cost = new double[rows + 1, columns + 1];
        for (var i = 0; i <= rows; i++)
        {
            for (var j = 0; j <= columns; j++)
            {
                cost[i, j] = (i, j) switch
                {
                    (0, _) => j * Gap,
                    (_, 0) => i * Gap,
                    _ => Math.Min(cost[i - 1, j - 1] + Difference(old, i - 1, @new, j - 1), Math.Min(cost[i - 1, j], cost[i, j - 1]) + Gap),
                };
            }
        }

        var pairs = new int[rows];
        Array.Fill(pairs, -2);
        for (var (i, j) = (rows, columns); i > 0 && j > 0;)
        {
            if (cost[i, j] >= cost[i - 1, j - 1] + Difference(old, i - 1, @new, j - 1) - 1e-9)
                (pairs[--i], j) = (j - 1, j - 1);
            else if (cost[i, j] >= cost[i - 1, j] + Gap - 1e-9)
                i--;
            else
                j--;
        }

        return pairs;
    }

    private static double Difference(RunLine old, int i, RunLine @new, int j)
    {
        var (a, b) = (old.Run.Legs[i], @new.Run.Legs[j]);
        var difference = a.To.Word == b.To.Word ? 0 : OtherPoint;
        if (old.Directions[i].AngleTo(@new.Directions[j]) > Tolerance.Turn)
            difference += OtherDirection;
        if (old.Sizes[i] != @new.Sizes[j])
            difference += OtherSize;
        if (Math.Abs(old.Distances[i] - @new.Distances[j]) > Comparison.SameLength)
            difference += OtherDistance;
        // A name is the surest sign.
        return a.To.Name is { } name && name == b.To.Name ? Math.Min(difference, OtherDistance) : difference;
    }
}
