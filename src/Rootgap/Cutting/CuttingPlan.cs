using Rootgap.Findings;

namespace Rootgap.Cutting;

/// <summary>Which bar gives which piece, for a whole job.</summary>
public sealed record CuttingPlan(IReadOnlyList<CutGroup> Groups, IReadOnlyList<UnplacedPiece> Unplaced, CuttingRules Rules)
{
    /// <summary>What a foreman should know beside the plan.</summary>
    public IReadOnlyList<Finding> Findings { get; init; } = [];

    /// <summary>The rack as it will be after the cuts: remnants worth keeping on it, used bars gone.</summary>
    public IReadOnlyList<StockBar> RackAfter { get; init; } = [];

    /// <summary>What was cut before this plan was made.</summary>
    public SawLog Log { get; init; } = SawLog.Empty;

    /// <summary>Numbers of the drawings in it that can't be built as drawn.</summary>
    public IReadOnlyList<string> NotForFabrication => [.. Groups.SelectMany(g => g.Bars).SelectMany(b => b.Pieces).Where(p => p.Piece.NotForFabrication).Select(p => p.Piece.Drawing).Distinct(StringComparer.Ordinal).Order(StringComparer.Ordinal)];

    /// <summary>Lengths to buy, longest first within a size.</summary>
    public IEnumerable<(PipeKind Pipe, double Length, int Count)> Purchases => Groups
        .SelectMany(g => g.Bars.Where(b => b.Stock.Source == StockSource.Buy).GroupBy(b => b.Stock.Length).OrderByDescending(b => b.Key).Select(b => (g.Pipe, b.Key, b.Count())));

    public bool IsProven => Groups.All(g => g.IsProven);
}

/// <summary>The plan of one size, schedule and material.</summary>
public sealed record CutGroup(PipeKind Pipe, IReadOnlyList<CutBar> Bars)
{
    /// <summary>No plan does with fewer bars (bars begun already do not count).</summary>
    public int LeastBars { get; init; }

    /// <summary>No plan with this many bars uses less steel, mm of stock.</summary>
    public double LeastSteel { get; init; }

    /// <summary>Proven best in bars and in cost.</summary>
    public bool IsProven { get; init; }

    /// <summary>Bars newly begun: what <see cref="LeastBars"/> is compared with.</summary>
    public int NewBars => Bars.Count(b => b.Stock.Source != StockSource.Begun);

    /// <summary>Length of the stock used, mm.</summary>
    public double Used => Bars.Sum(b => b.Stock.Length);

    /// <summary>Length of the pieces, mm.</summary>
    public double Net => Bars.Sum(b => b.Pieces.Sum(p => p.Piece.Length));

    /// <summary>What neither is in pieces nor worth keeping, of the stock used, percent.</summary>
    public double WastePercent => Used <= 0 ? 0 : 100 * (Used - Net - Bars.Sum(b => b.KeptRemnant)) / Used;

    /// <summary>Different plans: bars of one length with the same pieces' lengths count as one.</summary>
    public int Plans => Bars.Select(b => b.PlanKey).Distinct(StringComparer.Ordinal).Count();

    /// <summary>As a foreman says it.</summary>
    public string Verdict => IsProven ? "proven best"
        : NewBars <= LeastBars ? "fewest bars proven; the cost may be improved"
        : string.Create(System.Globalization.CultureInfo.InvariantCulture, $"within {NewBars - LeastBars} {(NewBars - LeastBars == 1 ? "bar" : "bars")} of the best possible");
}

/// <summary>One bar and what is cut from it.</summary>
/// <param name="Name">The bar's mark, with a number where the stock row stands for several.</param>
/// <param name="Stock">The row of the rack.</param>
/// <param name="Pieces">In the order of cutting.</param>
/// <param name="Kerf">All saw cuts together, mm.</param>
/// <param name="Remnant">What is left at the far end, mm; the far end's trim not counted.</param>
/// <param name="KeptRemnant">The same where it is worth keeping, else 0.</param>
public sealed record CutBar(string Name, StockBar Stock, IReadOnlyList<CutPosition> Pieces, double Kerf, double Remnant, double KeptRemnant)
{
    /// <summary>What to write on what is left, and how the rack after the cuts calls it.</summary>
    public string RemnantName { get; init; } = "";

    internal string PlanKey => string.Create(System.Globalization.CultureInfo.InvariantCulture, $"{Stock.Length:R}:{string.Join('+', Pieces.Select(p => p.Piece.Length).Order())}");
}

/// <summary>A piece on a bar, with what is lost at its faced ends: where it begins and where the saw cuts it off, mm from the bar's measuring end.</summary>
public sealed record CutPosition(Piece Piece, double From, double To)
{
    /// <summary>What the saw's stop is set to, mm: the finished length and what facing takes off.</summary>
    public double SawLength => To - From;
}

/// <summary>A piece that found no bar, and why.</summary>
public sealed record UnplacedPiece(Piece Piece, string Why);
