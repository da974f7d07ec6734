namespace Rootgap.Cutting.Solver;

/// <summary>Which pattern or slack enters the basis: those known, then new ones by the knapsack, priced near the best prices so far.</summary>
internal sealed partial class PatternLp
{
    private bool Enter(out bool done)
    {
        done = false;

        // A price below zero, or a bar of a limited type that is not worth having: its slack enters.
        var least = -1e-8;
        var row = -1;
        for (var r = 0; r < rows; r++)
        {
            var reduced = r < m ? y[r] : -y[r];
            if (reduced < least)
            {
                least = reduced;
                row = r;
            }
        }

        // A pattern known already.
        var bestReduced = -1e-8;
        var bestPattern = -1;
        for (var p = 0; p < pool.Count; p++)
        {
            var pattern = pool[p];
            if (inBasis.Length <= p || inBasis[p])
            {
                continue;
            }

            var reduced = cost[pattern.Type] - (limitRow[pattern.Type] >= 0 ? y[limitRow[pattern.Type]] : 0);
            var kinds = pattern.Kinds;
            var counts = pattern.Counts;
            for (var i = 0; i < kinds.Length; i++)
            {
                reduced -= y[kinds[i]] * counts[i];
            }

            if (reduced < bestReduced && Usable(p))
            {
                bestReduced = reduced;
                bestPattern = p;
            }
        }

        if (ListOnly)
        {
            done = bestPattern < 0 && row < 0;
            if (done)
            {
                return false;
            }
        }
        else if (bestPattern < 0 || -PoolEnough < bestReduced)
        {
            bestPattern = Generate(out bestReduced, out done);
            if (bestPattern < 0 && (row < 0 || stopped))
            {
                return false;
            }
        }

        if (row >= 0 && least <= bestReduced)
        {
            var s = row < m ? -1.0 : 1.0;
            var column = inverse.AsSpan(row * rows, rows);
            for (var r = 0; r < rows; r++)
            {
                w[r] = s * column[r];
            }

            return Pivot(Kind.Slack, row, least);
        }

        Direction(pool[bestPattern]);
        return Pivot(Kind.Pattern, bestPattern, bestReduced);
    }

    // New patterns by the knapsack: the best over all types of bars. Done when no filling of any bar beats what it costs.
    // Priced first near the best prices so far, which keeps the prices from swinging (smoothing, Wentges 1997; Pessoa et al. 2018).
    private int Generate(out double reduced, out bool done)
    {
        for (var smooth = center.Length > 0 ? Smoothing : 0; ; smooth = 0)
        {
            done = false;
            for (var i = 0; i < m; i++)
            {
                var price = smooth == 0 ? y[i] : (smooth * center[i]) + ((1 - smooth) * Math.Max(0, y[i]));
                prices[i] = price <= 0 || demand[i] < 1 ? 0 : (long)(price * Scale);
            }

            var found = Price(smooth == 0, out reduced, out var complete);
            if (Enough is { } enough && enough())
            {
                stopped = true;
                return -1;
            }

            Recenter();
            if (0 <= found)
            {
                return found;
            }

            if (smooth == 0)
            {
                done = complete;
                return -1;
            }
        }
    }

    private int Price(bool plain, out double reduced, out bool complete)
    {
        reduced = 0;
        var found = -1;
        complete = true;
        for (var k = 0; k < problem.Types; k++)
        {
            Worth[k] = 0;
            if (limit[k] < 1)
            {
                continue; // no such bar is left: its worth does not count
            }

            var bar = Math.Max(0, cost[k] - (limitRow[k] >= 0 ? y[limitRow[k]] : 0));
            var floor = plain ? (long)(bar * Scale * (1 + 1e-9)) + 20 : 0;
            if (knapsack.Solve(problem, k, prices, demand, floor, steps: plain ? 200_000 : 20_000))
            {
                var (kinds, counts) = knapsack.Filling();
                var gain = bar;
                for (var i = 0; i < kinds.Length; i++)
                {
                    gain -= y[kinds[i]] * counts[i];
                }

                if (gain < -1e-9)
                {
                    var index = Add(new Pattern(k, kinds, counts));
                    if (inBasis.Length <= index)
                    {
                        Array.Resize(ref inBasis, 2 * pool.Count + 64);
                    }

                    if (!inBasis[index] && gain < reduced)
                    {
                        reduced = gain;
                        found = index;
                    }
                }
            }

            complete &= knapsack.AtMost <= Math.Max(floor, knapsack.Value);
            Worth[k] = knapsack.AtMost;
        }

        return found;
    }

    // Keeps the prices with the best bound.
    private void Recenter()
    {
        double value = 0;
        for (var i = 0; i < m; i++)
        {
            value += (double)prices[i] * demand[i];
        }

        double scale = 1;
        if (limitRow.Max() < 0 && problem.Types == 1)
        {
            scale = cost[0] * Scale / Math.Max(1, Worth[0]);
            value *= scale / Scale;
        }
        else
        {
            for (var k = 0; k < problem.Types; k++)
            {
                value -= limit[k] < PackingProblem.Plenty ? limit[k] * Math.Max(0, Worth[k] - (cost[k] * Scale)) : 0;
            }

            value /= Scale;
        }

        if (center.Length == 0 || centerValue < value)
        {
            if (center.Length == 0)
            {
                center = new double[m];
            }

            centerValue = value;
            for (var i = 0; i < m; i++)
            {
                center[i] = prices[i] * scale / Scale;
            }
        }
    }
}
