using System.Numerics;
using System.Runtime.InteropServices;

namespace Rootgap.Cutting.Solver;

/// <summary>
/// The linear relaxation over cutting patterns, solved by column generation (Gilmore and Gomory 1961, 1963):
/// revised simplex with an explicit inverse, patterns priced by <see cref="Knapsack"/>.
/// A diving search may fix bars one by one; the basis is kept and repaired.
/// </summary>
internal sealed class PatternLp
{
    /// <summary>Prices are whole numbers: what a whole bar is worth, about.</summary>
    public const double Scale = 1e9;

    private const double Small = 1e-9;
    private const double Big = 1000;
    private const double Smoothing = 0.8;

    // A pattern known already is taken at once when it gains this share of a bar; else new ones are looked for too.
    private const double PoolEnough = 0.02;

    private enum Kind : byte { Pattern, Slack, Artificial }

    private readonly PackingProblem problem;
    private readonly Knapsack knapsack = new();
    private readonly List<Pattern> pool = [];
    private readonly Dictionary<string, int> known = new(StringComparer.Ordinal);
    private readonly int m;
    private int rows;
    private int[] limitRow = [];
    private int[] demand = [];
    private int[] limit = [];
    private double[] cost = [];

    // Basis: what stands in each row, its sign (a value that went below zero is carried as its negative, at a high cost) and value.
    private Kind[] kind = [];
    private int[] which = [];
    private sbyte[] sign = [];
    private double[] x = [];
    private double[] inverse = []; // column by column
    private double[] y = [];
    private double[] w = [];
    private long[] prices = [];
    private bool[] inBasis = [];
    private int pivots;
    private double[] center = [];
    private double centerValue;
    private bool stopped;

    public PatternLp(PackingProblem problem)
    {
        this.problem = problem;
        m = problem.Kinds;
    }

    public IReadOnlyList<Pattern> Pool => pool;

    public double Objective { get; private set; }

    /// <summary>What the bars at hand leave uncovered (pieces, as a fraction); zero when the relaxation can be met.</summary>
    public double Uncovered { get; private set; }

    /// <summary>False when the search was stopped before the end.</summary>
    public bool Complete { get; private set; }

    /// <summary>Price of each kind, whole numbers, from the last pricing.</summary>
    public long[] Prices => prices;

    /// <summary>No filling of a bar of the type is worth more at these prices.</summary>
    public long[] Worth { get; private set; } = [];

    public int[] Demand => demand;

    public int[] Limit => limit;

    /// <summary>Called after each complete pricing with prices and worths; true stops the solution early.</summary>
    public Func<bool>? Enough { get; set; }

    public int Add(Pattern pattern)
    {
        var key = string.Concat(pattern.Type.ToString(System.Globalization.CultureInfo.InvariantCulture), new string(MemoryMarshal.Cast<int, char>(pattern.Kinds)), new string(MemoryMarshal.Cast<int, char>(pattern.Counts)));
        if (known.TryGetValue(key, out var index))
        {
            return index;
        }

        known[key] = pool.Count;

        pool.Add(pattern);
        return pool.Count - 1;
    }

    /// <summary>Starts afresh for these demands, bars and costs of bars (about 1 each); the patterns found so far are kept.</summary>
    public void Start(int[] demands, int[] limits, double[] costs, bool limitRows)
    {
        demand = [.. demands];
        limit = [.. limits];
        cost = costs;
        limitRow = new int[problem.Types];
        rows = m;
        for (var k = 0; k < problem.Types; k++)
        {
            limitRow[k] = limitRows && limit[k] < PackingProblem.Plenty ? rows++ : -1;
        }

        kind = new Kind[rows];
        which = new int[rows];
        sign = new sbyte[rows];
        x = new double[rows];
        y = new double[rows];
        w = new double[rows];
        inverse = new double[rows * rows];
        prices = new long[m];
        Worth = new long[problem.Types];
        for (var r = 0; r < rows; r++)
        {
            kind[r] = r < m ? Kind.Artificial : Kind.Slack;
            which[r] = r;
            sign[r] = 1;
            inverse[r * rows + r] = 1;
        }

        var longest = (double)problem.Capacity.Max();
        center = new double[m];
        centerValue = 0;
        var one = problem.Types == 1 && limitRow[0] < 0 && !ListOnly;
        for (var i = 0; i < m; i++)
        {
            center[i] = problem.Length[i] / longest;
            x[i] = demand[i];
            if (one && 0 < demand[i])
            {
                // Bars of one kind each: a plan to begin with.
                var copies = (int)Math.Min(demand[i], problem.Capacity[0] / problem.Length[i]);
                kind[i] = Kind.Pattern;
                which[i] = Add(new Pattern(0, [i], [copies]));
                inverse[i * rows + i] = 1.0 / copies;
                x[i] /= copies;
            }
        }

        for (var k = 0; k < problem.Types; k++)
        {
            if (limitRow[k] >= 0)
            {
                x[limitRow[k]] = limit[k];
            }
        }

        pivots = 0;
    }

    /// <summary>A copy of the state, to come back to.</summary>
    public PatternLp Branch()
    {
        var copy = (PatternLp)MemberwiseClone();
        copy.demand = [.. demand];
        copy.limit = [.. limit];
        copy.kind = [.. kind];
        copy.which = [.. which];
        copy.sign = [.. sign];
        copy.x = [.. x];
        copy.y = [.. y];
        copy.w = [.. w];
        copy.inverse = [.. inverse];
        copy.prices = [.. prices];
        copy.center = [];
        copy.Forbidden = [.. Forbidden];
        copy.Worth = [.. Worth];
        copy.inBasis = [];
        return copy; // the pool, its index and the knapsack's scratch are shared
    }

    /// <summary>Solves to the end (or until stopped). The basis must be feasible, as Start and Fix leave it.</summary>
    public bool Solve(Effort effort)
    {
        Complete = false;
        Reprice();
        var most = 60 * rows + 5000;
        var fresh = false;
        stopped = false;
        for (var iteration = 0; iteration < most; iteration++)
        {
            if ((iteration & 15) == 0 && effort.Spent)
            {
                break;
            }

            if (pivots > 600 + 2 * rows && Drifted())
            {
                Refactor();
            }

            if (Enter(out var done))
            {
                fresh = false;
                continue;
            }

            if (done)
            {
                Complete = true;
                break;
            }

            // Nothing enters though something should: the inverse has drifted. Once more with a fresh one.
            if (fresh || stopped)
            {
                break;
            }

            Refactor();
            fresh = true;
        }

        Summarise();
        return Complete;
    }

    /// <summary>The patterns of the solution with their (fractional) numbers.</summary>
    public List<(int Index, Pattern Pattern, double Times)> Solution()
    {
        var list = new List<(int, Pattern, double)>();
        for (var r = 0; r < rows; r++)
        {
            if (kind[r] == Kind.Pattern && sign[r] > 0 && Small < x[r])
            {
                list.Add((which[r], pool[which[r]], x[r]));
            }
        }

        return list;
    }

    /// <summary>Cuts a pattern so many times for good: demands and bars go down, the basis is repaired.</summary>
    public void Fix(Pattern pattern, int times)
    {
        center = []; // its bound was that of the demands before
        Direction(pattern);
        for (var r = 0; r < rows; r++)
        {
            x[r] -= times * w[r];
        }

        for (var i = 0; i < pattern.Kinds.Length; i++)
        {
            demand[pattern.Kinds[i]] -= times * pattern.Counts[i];
        }

        if (limit[pattern.Type] < PackingProblem.Plenty)
        {
            limit[pattern.Type] -= times;
        }

        for (var r = 0; r < rows; r++)
        {
            if (x[r] < -1e-7)
            {
                x[r] = -x[r];
                sign[r] = (sbyte)-sign[r];
                for (var c = r; c < inverse.Length; c += rows)
                {
                    inverse[c] = -inverse[c];
                }
            }
            else if (x[r] < 0)
            {
                x[r] = 0;
            }
        }
    }

    /// <summary>Only the patterns added are used, and none is generated; they may cover more than what is wanted.</summary>
    public bool ListOnly { get; init; }

    /// <summary>Of a list: patterns that may not be used any more.</summary>
    public bool[] Forbidden { get; set; } = [];

    private bool Usable(int p) => ListOnly ? !Forbidden[p] && 0 < limit[pool[p].Type] : Proper(pool[p]);

    public bool Proper(Pattern pattern)
    {
        if (limit[pattern.Type] < 1)
        {
            return false;
        }

        var kinds = pattern.Kinds;
        var counts = pattern.Counts;
        for (var i = 0; i < kinds.Length; i++)
        {
            if (demand[kinds[i]] < counts[i])
            {
                return false;
            }
        }

        return true;
    }

    private double CostOf(int r) => kind[r] switch
    {
        Kind.Pattern => sign[r] < 0 || !Usable(which[r]) ? Big : cost[pool[which[r]].Type],
        Kind.Slack => sign[r] < 0 ? Big : 0,
        _ => Big,
    };

    /// <summary>The prices as they are now, in whole numbers (in a list nothing else sets them).</summary>
    public long[] WholePrices()
    {
        var whole = new long[m];
        for (var i = 0; i < m; i++)
        {
            whole[i] = y[i] <= 0 ? 0 : (long)(y[i] * Scale);
        }

        return whole;
    }

    private void Reprice()
    {
        var costs = new double[rows];
        for (var r = 0; r < rows; r++)
        {
            costs[r] = CostOf(r);
        }

        for (var c = 0; c < rows; c++)
        {
            y[c] = Dot(costs, inverse.AsSpan(c * rows, rows));
        }

        if (inBasis.Length < pool.Count + 64)
        {
            Array.Resize(ref inBasis, 2 * pool.Count + 256);
        }

        Array.Clear(inBasis);
        for (var r = 0; r < rows; r++)
        {
            if (kind[r] == Kind.Pattern)
            {
                inBasis[which[r]] = true;
            }
        }
    }

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

    private void Direction(Pattern pattern)
    {
        Array.Clear(w);
        for (var i = 0; i < pattern.Kinds.Length; i++)
        {
            Axpy(pattern.Counts[i], inverse.AsSpan(pattern.Kinds[i] * rows, rows), w);
        }

        if (limitRow[pattern.Type] >= 0)
        {
            Axpy(1, inverse.AsSpan(limitRow[pattern.Type] * rows, rows), w);
        }
    }

    private bool Pivot(Kind enterKind, int enter, double reduced)
    {
        var leave = -1;
        var ratio = double.MaxValue;
        for (var r = 0; r < rows; r++)
        {
            if (w[r] > 1e-9)
            {
                var t = x[r] / w[r];
                if (t < ratio - 1e-10 || (t < ratio + 1e-10 && (leave < 0 || w[leave] < w[r])))
                {
                    ratio = Math.Min(ratio, t);
                    leave = r;
                }
            }
        }

        if (leave < 0)
        {
            return false;
        }

        ratio = Math.Max(0, x[leave] / w[leave]);
        Axpy(-ratio, w, x);
        for (var r = 0; r < rows; r++)
        {
            if (x[r] < 0)
            {
                x[r] = 0;
            }
        }

        x[leave] = ratio;
        var pivot = w[leave];
        w[leave] = 0;
        for (var c = 0; c < rows; c++)
        {
            var at = c * rows + leave;
            var f = inverse[at];
            if (f != 0)
            {
                f /= pivot;
                Axpy(-f, w, inverse.AsSpan(c * rows, rows));
                inverse[at] = f;
                y[c] += reduced * f;
            }
        }

        if (kind[leave] == Kind.Pattern)
        {
            inBasis[which[leave]] = false;
        }

        kind[leave] = enterKind;
        which[leave] = enter;
        sign[leave] = 1;
        if (enterKind == Kind.Pattern)
        {
            inBasis[enter] = true;
        }

        if ((++pivots & 127) == 0)
        {
            Reprice();
        }

        return true;
    }

    private double[] RightSide()
    {
        var b = new double[rows];
        for (var i = 0; i < m; i++)
        {
            b[i] = demand[i];
        }

        for (var k = 0; k < problem.Types; k++)
        {
            if (limitRow[k] >= 0)
            {
                b[limitRow[k]] = limit[k];
            }
        }

        return b;
    }

    private bool Drifted()
    {
        pivots = 0;
        var b = RightSide();
        var exact = new double[rows];
        for (var c = 0; c < rows; c++)
        {
            Axpy(b[c], inverse.AsSpan(c * rows, rows), exact);
        }

        for (var r = 0; r < rows; r++)
        {
            if (1e-7 < Math.Abs(exact[r] - x[r]))
            {
                return true;
            }
        }

        return false;
    }

    // The inverse afresh from the basis, by Gauss-Jordan with row exchange.
    private void Refactor()
    {
        var n = rows;
        var a = new double[n][];
        for (var r = 0; r < n; r++)
        {
            a[r] = new double[2 * n];
            a[r][n + r] = 1;
        }

        for (var c = 0; c < n; c++)
        {
            double s = sign[c];
            if (kind[c] == Kind.Pattern)
            {
                var p = pool[which[c]];
                for (var i = 0; i < p.Kinds.Length; i++)
                {
                    a[p.Kinds[i]][c] += s * p.Counts[i];
                }

                if (limitRow[p.Type] >= 0)
                {
                    a[limitRow[p.Type]][c] += s;
                }
            }
            else
            {
                a[which[c]][c] = s * (kind[c] == Kind.Slack && which[c] < m ? -1 : 1);
            }
        }

        for (var c = 0; c < n; c++)
        {
            var p = c;
            for (var r = c + 1; r < n; r++)
            {
                if (Math.Abs(a[p][c]) < Math.Abs(a[r][c]))
                {
                    p = r;
                }
            }

            if (Math.Abs(a[p][c]) < 1e-11)
            {
                return; // singular to working precision: keep the old inverse
            }

            (a[p], a[c]) = (a[c], a[p]);
            var f = 1 / a[c][c];
            for (var j = c; j < 2 * n; j++)
            {
                a[c][j] *= f;
            }

            for (var r = 0; r < n; r++)
            {
                if (r != c && a[r][c] != 0)
                {
                    Axpy(-a[r][c], a[c].AsSpan(c), a[r].AsSpan(c));
                }
            }
        }

        for (var r = 0; r < n; r++)
        {
            for (var c = 0; c < n; c++)
            {
                inverse[c * n + r] = a[r][n + c];
            }
        }

        var b = RightSide();
        Array.Clear(x);
        for (var c = 0; c < n; c++)
        {
            Axpy(b[c], inverse.AsSpan(c * n, n), x);
        }

        for (var r = 0; r < n; r++)
        {
            if (x[r] < 0 && -1e-7 < x[r])
            {
                x[r] = 0;
            }
        }

        Reprice();
    }

    private void Summarise()
    {
        double sum = 0;
        double uncovered = 0;
        for (var r = 0; r < rows; r++)
        {
            var c = CostOf(r);
            sum += c * x[r];
            uncovered += c == Big ? x[r] : 0;
        }

        Objective = sum;
        Uncovered = uncovered < 1e-3 ? 0 : uncovered;
    }

    private static void Axpy(double f, ReadOnlySpan<double> from, Span<double> to)
    {
        var fs = MemoryMarshal.Cast<double, Vector<double>>(from);
        var ts = MemoryMarshal.Cast<double, Vector<double>>(to);
        var v = new Vector<double>(f);
        for (var i = 0; i < fs.Length; i++)
        {
            ts[i] += v * fs[i];
        }

        for (var i = fs.Length * Vector<double>.Count; i < from.Length; i++)
        {
            to[i] += f * from[i];
        }
    }

    private static double Dot(ReadOnlySpan<double> a, ReadOnlySpan<double> b)
    {
        var va = MemoryMarshal.Cast<double, Vector<double>>(a);
        var vb = MemoryMarshal.Cast<double, Vector<double>>(b);
        var sum = Vector<double>.Zero;
        for (var i = 0; i < va.Length; i++)
        {
            sum += va[i] * vb[i];
        }

        var total = Vector.Dot(sum, Vector<double>.One);
        for (var i = va.Length * Vector<double>.Count; i < a.Length; i++)
        {
            total += a[i] * b[i];
        }

        return total;
    }
}
