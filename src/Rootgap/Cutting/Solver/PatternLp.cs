using System.Runtime.InteropServices;

namespace Rootgap.Cutting.Solver;

/// <summary>
/// The linear relaxation over cutting patterns, solved by column generation (Gilmore and Gomory 1961, 1963):
/// revised simplex with an explicit inverse, patterns priced by <see cref="Knapsack"/>.
/// A diving search may fix bars one by one; the basis is kept and repaired.
/// </summary>
internal sealed partial class PatternLp
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
    private double[] lean = []; // what is wanted beside the demands, where the prices are looked at from another side

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
        lean = new double[m];
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

        Repair();
    }

    /// <summary>Asks for a little more of some kinds and less of others than is wanted: the best prices are at another corner then. The basis is repaired.</summary>
    public void Lean(double[] by)
    {
        center = [];
        lean = by;
        var b = RightSide();
        Array.Clear(x);
        for (var c = 0; c < rows; c++)
        {
            Axpy(b[c], inverse.AsSpan(c * rows, rows), x);
        }

        Repair();
    }

    // What went below zero is carried as its negative.
    private void Repair()
    {
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
}
