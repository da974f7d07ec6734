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

    /// <summary>What a bar of the type counts in the objective that comes first.</summary>
    public required long[] First { get; init; }

    /// <summary>What a bar of the type counts in the objective that comes second.</summary>
    public required long[] Second { get; init; }

    /// <summary>Allowed[type][kind]: may the piece be cut from the bar (its heat is right)? Null: every piece from every bar.</summary>
    public bool[][]? Allowed { get; init; }

    /// <summary>Stands for "as many as wanted".</summary>
    public const int Plenty = 1_000_000;

    public int Kinds => Length.Length;

    public int Types => Capacity.Length;

    public long Pieces => Demand.Sum(d => (long)d);

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

        return new PackingProblem { Length = Length, Demand = Demand, Capacity = Capacity, Limit = limit, First = First, Second = Second, Allowed = Allowed };
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
            First = [1],
            Second = [1],
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
