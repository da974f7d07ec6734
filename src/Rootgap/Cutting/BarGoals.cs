namespace Rootgap.Cutting;

/// <summary>
/// What plans are compared by, bar by bar: for each aim of the rules that counts by bars, what a bar of each type counts. Exact: decimals as given, and
/// whole numbers of their smallest unit for the search.
/// </summary>
internal sealed class BarGoals
{
    /// <summary>One goal.</summary>
    /// <param name="Aim">The aim it belongs to.</param>
    /// <param name="Says">In words.</param>
    /// <param name="Weights">What a bar of each type counts.</param>
    /// <param name="Whole">The same in whole numbers.</param>
    /// <param name="Unit">What one of them is worth; null where they had to be rounded down to be searched with.</param>
    public sealed record Goal(CuttingAim Aim, string Says, decimal[] Weights, long[] Whole, decimal Unit, bool IsRounded)
    {
        public decimal ValueOf(int[] bars) => Weights.Select((w, k) => w * bars[k]).Sum();
    }

    private const long Largest = 1_000_000_000_000;

    private readonly List<BarType> types;

    public BarGoals(List<BarType> types, CuttingRules rules, bool isMoney)
    {
        this.types = types;
        // A metre of remnant is worth a share of a metre of new pipe: of the cheapest full length.
        var full = types.Where(IsFull).ToList();
        NewPipe = (full.Count > 0 ? full : types).Select(t => t.Cost / (decimal)t.Length).DefaultIfEmpty(0).Min();
        RemnantWorth = NewPipe * (decimal)rules.RemnantValue;
        var unit = isMoney ? "cost" : "length";
        All = [.. rules.Order.SelectMany(aim => Of(aim, unit))];
        // A goal that counts nothing, or that counts like one before it, decides nothing.
        Searched = [];
        foreach (var goal in All)
        {
            if (goal.Whole.Any(w => w != 0) && !Searched.Exists(g => g.Whole.AsSpan().SequenceEqual(goal.Whole)))
                Searched.Add(goal);
        }

        if (Searched.Count == 0)
            Searched.Add(Scaled(CuttingAim.Bars, "bars", [.. types.Select(_ => 1m)]));
    }

    /// <summary>Cost of a mm of new pipe.</summary>
    public decimal NewPipe { get; }

    /// <summary>What a mm of remnant is worth.</summary>
    public decimal RemnantWorth { get; }

    /// <summary>Every goal that counts by bars, in the order of the rules.</summary>
    public List<Goal> All { get; }

    /// <summary>Those of them that can decide anything.</summary>
    public List<Goal> Searched { get; }

    public decimal[] Costs => [.. types.Select(t => t.Source == StockSource.Begun ? 0 : t.Cost)];

    private static bool IsFull(BarType type) => type.Source is StockSource.OnHand or StockSource.Buy;

    private IEnumerable<Goal> Of(CuttingAim aim, string unit)
    {
        switch (aim)
        {
            case CuttingAim.Rack:
                yield return Scaled(aim, $"{unit} of what is bought", [.. types.Select(t => t.Source == StockSource.Buy ? t.Cost : 0)]);
                yield return Scaled(aim, $"{unit} of full bars from the rack", [.. types.Select(t => t.Source == StockSource.OnHand ? t.Cost : 0)]);
                break;
            case CuttingAim.NetCost:
                yield return Scaled(aim, $"{unit} less what is left", [.. types.Select(t => IsFull(t) ? t.Cost - (RemnantWorth * (decimal)t.Length) : 0)]);
                break;
            case CuttingAim.Bars:
                yield return Scaled(aim, "bars", [.. types.Select(t => t.Source == StockSource.Begun ? 0m : 1)]);
                break;
            case CuttingAim.Cost:
                yield return Scaled(aim, $"{unit} of the steel used", Costs);
                break;
        }
    }

    private static Goal Scaled(CuttingAim aim, string says, decimal[] weights)
    {
        // Preferences may make a bar worth less than its own remnant: it counts nothing then.
        weights = [.. weights.Select(w => Math.Max(0, w))];
        decimal factor = 1;
        var most = weights.DefaultIfEmpty(0).Max();
        while (most * factor < Largest && weights.Any(w => decimal.Truncate(w * factor) != w * factor))
            factor *= 10;
        while (most * factor >= Largest)
            factor /= 10;
        long[] whole = [.. weights.Select(w => (long)decimal.Floor(w * factor))];
        var isRounded = weights.Where((w, k) => whole[k] / factor != w).Any();
        long shared = 0;
        foreach (var w in whole)
            shared = Gcd(shared, w);
        return new(aim, says, weights, shared > 1 ? [.. whole.Select(w => w / shared)] : whole, Math.Max(1, shared) / factor, isRounded);
    }

    internal static long Gcd(long a, long b)
    {
        while (b != 0)
            (a, b) = (b, a % b);
        return a;
    }
}
