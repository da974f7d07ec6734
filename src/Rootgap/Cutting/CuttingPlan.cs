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

    /// <summary>Which bar of the stock file a planned bar is cut from, and where on it the plan's places begin, mm: not at its end where it is the rest of a bar begun before.</summary>
    public (string Bar, double Begun) SteelOf(CutBar bar) =>
        Log.Bars.FirstOrDefault(b => b.Gone > 0 && b.Rest.Equals(bar.Name, StringComparison.OrdinalIgnoreCase)) is { } begun ? (begun.Name, begun.Gone + Rules.Kerf) : (bar.Name, 0);

    /// <summary>Numbers of the drawings in it that can't be built as drawn.</summary>
    public IReadOnlyList<string> NotForFabrication => [.. Groups.SelectMany(g => g.Bars).SelectMany(b => b.Pieces).Where(p => p.Piece.NotForFabrication).Select(p => p.Piece.Drawing).Distinct(StringComparer.Ordinal).Order(StringComparer.Ordinal)];

    /// <summary>What is to be bought, longest first within a size, each supplier's by itself.</summary>
    public IEnumerable<Purchase> Purchases => Groups.SelectMany(g => g.Bars.Where(b => b.Stock.Source == StockSource.Buy)
        .GroupBy(b => (b.Stock.Length, b.Stock.Cost, b.Stock.Supplier, b.Stock.Certificate)).OrderByDescending(b => b.Key.Length).ThenBy(b => b.Key.Supplier, StringComparer.Ordinal)
        .Select(b => new Purchase(g.Pipe, b.Key.Length, b.Count())
        {
            CostEach = b.Key.Cost is { } metre ? Math.Round((decimal)metre * (decimal)b.Key.Length / 1000, 2, MidpointRounding.AwayFromZero) : null,
            Supplier = b.Key.Supplier,
            Certificate = b.Key.Certificate,
            Bars = [.. b.Select(x => x.Name)],
        }.Shared([.. b])));

    /// <summary>What each job bears of all purchases together, where the plan is for several; empty where it is for one. Percent of the cost; where a price is missing, of the length.</summary>
    public IReadOnlyList<JobShare> SharedByJob
    {
        get
        {
            var all = Purchases.SelectMany(p => p.Jobs.Select(j => (j.Job, Metres: j.Percent * (decimal)(p.Length * p.Count) / 100_000, j.Cost))).ToList();
            var metres = all.Sum(j => j.Metres);
            return [.. all.GroupBy(j => j.Job, StringComparer.Ordinal).OrderBy(g => g.Key, StringComparer.Ordinal)
                .Select(g => PurchaseCost is > 0 and var cost ? new JobShare(g.Key, 100 * g.Sum(j => j.Cost ?? 0) / cost, g.Sum(j => j.Cost)) : new JobShare(g.Key, 100 * g.Sum(j => j.Metres) / metres, null))];
        }
    }

    /// <summary>What all purchases cost together; null where one has no price.</summary>
    public decimal? PurchaseCost => Purchases.Any(p => p.CostEach is null) ? null : Purchases.Sum(p => p.Cost ?? 0);

    public bool IsProven => Groups.All(g => g.IsProven);

    /// <summary>Whether this plan of the same job is better: more pieces placed, else less in the first goal in which they differ, all groups together.</summary>
    public bool IsBetterThan(CuttingPlan other)
    {
        var goals = Groups.Concat(other.Groups).Select(g => g.Goals.Count).DefaultIfEmpty(0).Max();
        decimal[] InOrder(CuttingPlan plan) => [plan.Unplaced.Count, .. Enumerable.Range(0, goals).Select(goal => plan.Groups.Where(g => goal < g.Goals.Count).Sum(g => g.Goals[goal].Value))];
        return InOrder(this).AsSpan().SequenceCompareTo(InOrder(other)) < 0;
    }
}

/// <summary>Bars to buy that are alike.</summary>
public sealed record Purchase(PipeKind Pipe, double Length, int Count)
{
    /// <summary>What one bar costs; null where no price is given.</summary>
    /// <remarks>To the cent, as it is billed: what is printed of each adds up to what is printed of all.</remarks>
    public decimal? CostEach { get; init; }

    public decimal? Cost => CostEach * Count;

    public string Supplier { get; init; } = "";

    public string Certificate { get; init; } = "";

    /// <summary>Marks of the bars in the plan.</summary>
    public IReadOnlyList<string> Bars { get; init; } = [];

    /// <summary>What each job bears of it, where the plan is for several: as much of each bar as its pieces are of all that is cut from the bar. The costs add up to the whole, to the cent.</summary>
    public IReadOnlyList<JobShare> Jobs { get; init; } = [];

    internal Purchase Shared(IReadOnlyList<CutBar> bars)
    {
        var jobs = bars.SelectMany(b => b.Pieces).Select(p => p.Piece.Job).Distinct(StringComparer.Ordinal).Order(StringComparer.Ordinal).ToList();
        if (jobs is [""])
            return this;
        decimal Share(string job) => bars.Average(b => (decimal)b.Pieces.Where(p => p.Piece.Job == job).Sum(p => p.SawLength) / (decimal)b.Pieces.Sum(p => p.SawLength));
        var shares = new List<JobShare>();
        var (share, paid) = (0m, 0m);
        foreach (var job in jobs)
        {
            var mine = Share(job);
            share += mine;
            // What is rounded here is not rounded again there: each gets what is due up to it less what was given out.
            var due = Cost is { } cost ? decimal.Round(job == jobs[^1] ? cost : cost * share, 2, MidpointRounding.AwayFromZero) : 0;
            shares.Add(new(job, 100 * mine, Cost is null ? null : due - paid));
            paid = due;
        }

        return this with { Jobs = shares };
    }
}

/// <summary>What one of several jobs bears of what is bought.</summary>
/// <param name="Job">The job's name.</param>
/// <param name="Percent">Of what is bought, percent.</param>
/// <param name="Cost">Its part of the cost; null where no price is given.</param>
public sealed record JobShare(string Job, decimal Percent, decimal? Cost);

/// <summary>What it would come to if only this length were bought; found quickly, it may be a little less.</summary>
public sealed record OtherLength(double Length, int Bars, decimal Cost);

/// <summary>The plan of one size, schedule and material.</summary>
public sealed record CutGroup(PipeKind Pipe, IReadOnlyList<CutBar> Bars)
{
    /// <summary>What the plan is judged by, the first first, each with what it comes to and the least it can come to.</summary>
    public IReadOnlyList<CutGoal> Goals { get; init; } = [];

    /// <summary>Where lengths are bought: what each of the lengths on sale would cost if it alone were bought.</summary>
    public IReadOnlyList<OtherLength> Otherwise { get; init; } = [];

    /// <summary>Costs are money; else they are lengths, mm, for want of a price.</summary>
    public bool IsMoney { get; init; }

    /// <summary>Cost of all steel used.</summary>
    public decimal Cost { get; init; }

    /// <summary>No plan that is as good in what comes before cost costs less.</summary>
    public decimal LeastCost { get; init; }

    /// <summary>No plan that is as good in what comes before bars does with fewer (bars begun already do not count).</summary>
    public int LeastBars { get; init; }

    /// <summary>No plan that is as good in all that is proven uses less steel, mm of stock.</summary>
    public double LeastSteel { get; init; }

    /// <summary>Proven: no plan is better in what counts by bars (rack, net cost, bars, cost), in the order of the rules. Scrap and set-ups are improved only, and have bounds of their own.</summary>
    public bool IsProven { get; init; }

    /// <summary>Bars newly begun: what <see cref="LeastBars"/> is compared with.</summary>
    public int NewBars => Bars.Count(b => b.Stock.Source != StockSource.Begun);

    /// <summary>Length of the stock used, mm.</summary>
    public double Used => Bars.Sum(b => b.Stock.Length);

    /// <summary>Length of the pieces, mm.</summary>
    public double Net => Bars.Sum(b => b.Pieces.Sum(p => p.Piece.Length));

    /// <summary>What neither is in pieces nor worth keeping, of the stock used, percent.</summary>
    public double WastePercent => Used <= 0 ? 0 : 100 * (Used - Net - Bars.Sum(b => b.KeptRemnant)) / Used;

    /// <summary>Different plans: bars of one length that are cut into the same lengths count as one.</summary>
    public int Plans => Bars.Select(b => b.PlanKey).Distinct(StringComparer.Ordinal).Count();

    /// <summary>Other bars were taken for fewer different plans, as the order of the rules wants it.</summary>
    public bool IsForSetUps { get; init; }

    /// <summary>As a foreman says it.</summary>
    public string Verdict
    {
        get
        {
            if (IsProven)
                return "proven best";
            var open = Goals.FirstOrDefault(g => !g.IsBest && (!g.IsImproved || (IsForSetUps && g.Aim == CuttingAim.SetUps)));
            return open switch
            {
                null => "not proven best",
                { Aim: CuttingAim.SetUps } => string.Create(System.Globalization.CultureInfo.InvariantCulture, $"few set-ups first: {open.Value:0} different plans, no plan has fewer than {open.Bound:0}"),
                _ when IsForSetUps && Goals.TakeWhile(g => g != open).Any(g => g.Aim == CuttingAim.SetUps) => string.Create(System.Globalization.CultureInfo.InvariantCulture, $"fewest set-ups; for them {open.Says} may be {open.Gap:0.00} % above the least possible"),
                { Aim: CuttingAim.Bars } => string.Create(System.Globalization.CultureInfo.InvariantCulture, $"within {open.Value - open.Bound:0} {(open.Value - open.Bound == 1 ? "bar" : "bars")} of the fewest possible"),
                _ => string.Create(System.Globalization.CultureInfo.InvariantCulture, $"{open.Says}: at most {open.Gap:0.00} % above the least possible"),
            };
        }
    }
}

/// <summary>One thing that a plan is judged by.</summary>
/// <param name="Aim">Where it stands in the rules' order.</param>
/// <param name="Says">What it is, in words.</param>
/// <param name="Value">What it comes to in this plan.</param>
/// <param name="Bound">No plan that is as good in the searched goals before comes to less.</param>
public sealed record CutGoal(CuttingAim Aim, string Says, decimal Value, decimal Bound)
{
    public bool IsBest => Value <= Bound;

    /// <summary>Improved as far as it goes, not searched to the end (few set-ups may take other bars where they stand before these, scrap takes the bars as they are); it does not narrow what the goals after it are compared with.</summary>
    public bool IsImproved => Aim is CuttingAim.Remnants or CuttingAim.SetUps;

    /// <summary>How far it may be from the best, percent of the best.</summary>
    public decimal Gap => IsBest ? 0 : Bound <= 0 ? 100 : 100 * (Value - Bound) / Bound;
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

    internal string PlanKey => string.Create(System.Globalization.CultureInfo.InvariantCulture, $"{Stock.Length:R}:{string.Join('+', Pieces.Select(p => Measure.LengthText.Rounded(p.SawLength, 4)).Order())}");
}

/// <summary>A piece on a bar, with what is lost at its faced ends: where it begins and where the saw cuts it off, mm from the bar's measuring end.</summary>
public sealed record CutPosition(Piece Piece, double From, double To)
{
    /// <summary>What the saw's stop is set to, mm: the finished length and what facing takes off.</summary>
    public double SawLength => To - From;
}

/// <summary>A piece that found no bar, and why.</summary>
public sealed record UnplacedPiece(Piece Piece, string Why);
