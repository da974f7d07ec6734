namespace Rootgap.Cutting.Solver;

/// <summary>
/// The bare task under a cutting plan: kinds of pieces, each wanted so many times, to be laid into bars of some types.
/// All lengths are whole numbers of one unit; kerf and losses are already counted in.
/// </summary>
internal sealed class PackingProblem
{
    /// <summary>Length of each kind, longest first.</summary>
    public required long[] Length { get; init; }

    /// <summary>How many of each kind are wanted.</summary>
    public required int[] Demand { get; init; }

    /// <summary>Usable length of each type of bar.</summary>
    public required long[] Capacity { get; init; }

    /// <summary>Bars of the type to be had; <see cref="Plenty"/> when it can be bought.</summary>
    public required int[] Limit { get; init; }

    /// <summary>Goals[goal][type]: what a bar of the type counts in each objective, 0 or more; the objective that comes first is the first.</summary>
    public required long[][] Goals { get; init; }

    /// <summary>Allowed[type][kind]: may the piece be cut from the bar (its heat is right)? Null: every piece from every bar.</summary>
    public bool[][]? Allowed { get; init; }

    /// <summary>How near at hand a bar of each type is, the nearest 0: what is taken first where plans are begun. Null: all alike.</summary>
    public int[]? Reach { get; init; }

    /// <summary>What one of the units is, mm.</summary>
    public double Unit { get; init; } = 1;

    /// <summary>Stands for "as many as wanted".</summary>
    public const int Plenty = 1_000_000;

    public int Kinds => Length.Length;

    public int Types => Capacity.Length;

    public long Pieces => Demand.Sum(d => (long)d);

    /// <summary>What these numbers of bars count in each objective.</summary>
    public long[] ValueOf(int[] bars)
    {
        var value = new long[Goals.Length];
        for (var g = 0; g < value.Length; g++)
        {
            for (var k = 0; k < bars.Length; k++)
            {
                value[g] += bars[k] * Goals[g][k];
            }
        }

        return value;
    }

    /// <summary>Whether a value is better than another: smaller in the first objective in which they differ.</summary>
    public static bool IsLess(long[] a, long[] b) => a.AsSpan().SequenceCompareTo(b) < 0;

    public bool Fits(int type, int kind) => Length[kind] <= Capacity[type] && (Allowed is null || Allowed[type][kind]);

    /// <summary>The same task with no more bars of a type than there are pieces to go into it: a plan never needs more.</summary>
    public PackingProblem WithoutIdleBars()
    {
        var limit = new int[Types];
        for (var k = 0; k < limit.Length; k++)
        {
            long fitting = 0;
            for (var i = 0; i < Kinds; i++)
            {
                fitting += Fits(k, i) ? Demand[i] : 0;
            }

            limit[k] = (int)Math.Min(Limit[k], Math.Min(fitting, Plenty - 1));
        }

        return new PackingProblem { Length = Length, Demand = Demand, Capacity = Capacity, Limit = limit, Goals = Goals, Allowed = Allowed, Reach = Reach, Unit = Unit };
    }

    /// <summary>One length of bar, as many as wanted, fewest bars: the textbook task.</summary>
    public static PackingProblem Classic(IReadOnlyList<(long Length, int Demand)> kinds, long bar)
    {
        var merged = kinds.GroupBy(k => k.Length).Select(g => (Length: g.Key, Demand: g.Sum(k => k.Demand)))
            .Where(k => k.Demand > 0).OrderByDescending(k => k.Length).ToArray();
        return new PackingProblem
        {
            Length = [.. merged.Select(k => k.Length)],
            Demand = [.. merged.Select(k => k.Demand)],
            Capacity = [bar],
            Limit = [Plenty],
            Goals = [[1]],
        };
    }
}

/// <summary>What is cut from one bar: how many of which kinds, from which type of bar.</summary>
internal sealed class Pattern(int type, int[] kinds, int[] counts)
{
    public int Type { get; } = type;

    public int[] Kinds { get; } = kinds;

    public int[] Counts { get; } = counts;

    public long Used(PackingProblem problem)
    {
        long sum = 0;
        for (var i = 0; i < Kinds.Length; i++)
        {
            sum += problem.Length[Kinds[i]] * Counts[i];
        }

        return sum;
    }

    /// <summary>Tells patterns apart by what they hold.</summary>
    public static IEqualityComparer<Pattern> SameCuts { get; } = new Same();

    private sealed class Same : IEqualityComparer<Pattern>
    {
        public bool Equals(Pattern? x, Pattern? y) => x is not null && y is not null && x.Type == y.Type && x.Kinds.AsSpan().SequenceEqual(y.Kinds) && x.Counts.AsSpan().SequenceEqual(y.Counts);

        public int GetHashCode(Pattern obj)
        {
            var hash = new HashCode();
            hash.Add(obj.Type);
            for (var i = 0; i < obj.Kinds.Length; i++)
            {
                hash.Add(obj.Kinds[i]);
                hash.Add(obj.Counts[i]);
            }

            return hash.ToHashCode();
        }
    }
}

/// <summary>A complete packing: patterns, each cut so many times.</summary>
internal sealed record Packing(IReadOnlyList<(Pattern Pattern, int Times)> Bars)
{
    public int[] CountByType(int types)
    {
        var n = new int[types];
        foreach (var (pattern, times) in Bars)
        {
            n[pattern.Type] += times;
        }

        return n;
    }
}
