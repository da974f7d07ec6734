using System.Globalization;
using Rootgap.Cutting.Solver;
using Rootgap.Findings;
using Rootgap.Measure;

namespace Rootgap.Cutting;

/// <summary>How far a plan has come: group by group, and how good the plan in hand is.</summary>
/// <param name="Group">Number of the group being planned, from 1.</param>
/// <param name="Groups">Of so many.</param>
/// <param name="Pipe">What pipe it is.</param>
/// <param name="Bars">Bars of the plan in hand; null: none yet.</param>
/// <param name="Gap">What it may be above the best in the first thing that counts, percent; 0: best.</param>
public readonly record struct CuttingProgress(int Group, int Groups, PipeKind Pipe, int? Bars, decimal Gap)
{
    /// <summary>In words.</summary>
    public override string ToString() => string.Create(CultureInfo.InvariantCulture,
        $"{Pipe} ({Group} of {Groups}): {(Bars is not { } bars ? "looking for a plan" : Gap > 0 ? $"{bars} bars, at most {Gap:0.00} % above the best" : $"{bars} bars")}");
}

/// <summary>Plans which bar gives which piece.</summary>
/// <remarks>
/// The engine has no clock: a caller who wants a time limit gives one. Without it the search goes on until each group is settled, which
/// for some hundred different lengths may be long. Two runs that are not cut short give the same plan.
/// </remarks>
public static class CuttingPlanner
{
    /// <summary>Longest length taken for real, mm: anything longer is a slip of the pen.</summary>
    internal const double Longest = 1_000_000;

    public static CuttingPlan Plan(
        IReadOnlyList<Piece> pieces, Rack rack, TimeSpan limit, TimeProvider? clock = null, Action<CuttingProgress>? progress = null, CancellationToken stop = default)
    {
        var effort = new Effort(clock, limit, stop);
        var unplaced = new List<UnplacedPiece>();
        var findings = new List<Finding>();
        var stock = new List<StockBar>();
        foreach (var bar in rack.Bars)
        {
            if (bar.Length is > 0 and <= Longest)
                stock.Add(bar);
            else
                findings.Add(Say("stock-length", Severity.Warn, bar.Id, $"The bar {bar.Id} is given as {Mm(bar.Length)} mm long: it is left out.", "Give its length in millimetres, above 0."));
        }

        if (rack.Rules.Order is [CuttingAim.Remnants, ..])
        {
            findings.Add(Say("remnants-first", Severity.Note, "rules.order", "The order begins with remnants: scrap is made least with the bars that what stands after it chooses, and chooses none itself.",
                "To have little left over, begin with net cost; the rule remnant value says what a remnant is worth."));
        }

        var good = new List<Piece>();
        var names = new HashSet<string>(StringComparer.Ordinal);
        foreach (var piece in pieces)
        {
            if (!(piece.Length is > 0 and <= Longest))
                unplaced.Add(new(piece, $"its length is {Mm(piece.Length)} mm: a piece has a length above 0"));
            else
                good.Add(piece);
            if (!names.Add(piece.FullName))
                findings.Add(Say("piece-twice", Severity.Warn, piece.FullName, $"The mark {piece.FullName} stands on two pieces: both are cut.", "Give each piece of a drawing its own mark, or leave the second out."));
        }

        var byPipe = stock.GroupBy(b => b.Pipe).ToDictionary(g => g.Key, g => g.ToList());
        var groups = new List<(PipeKind Pipe, List<Piece> Pieces, List<StockBar> Bars)>();
        foreach (var group in good.GroupBy(p => p.Pipe).OrderBy(g => g.Key))
        {
            var pipe = group.Key;
            if (Match(pipe, byPipe, out var why) is not { } kind)
            {
                unplaced.AddRange(group.Select(p => new UnplacedPiece(p, why)));
                continue;
            }

            if (kind != pipe)
                findings.Add(Say("material-not-given", Severity.Note, pipe.ToString(), $"The pieces of {pipe} name no material; the rack's only one, {kind.Material}, is used.", "Give the material in the drawing when this is not meant."));
            groups.Add((kind, [.. group], byPipe[kind]));
        }

        // Pieces without a material may have joined those that name it.
        var merged = groups.GroupBy(g => g.Pipe).Select(g => (Pipe: g.Key, Pieces: g.SelectMany(x => x.Pieces).ToList(), g.First().Bars)).OrderBy(g => g.Pipe).ToList();
        var planned = new Dictionary<PipeKind, CutGroup>();
        var done = 0;
        foreach (var (pipe, wanted, bars) in merged.OrderBy(g => g.Pieces.Count).ThenBy(g => g.Pipe))
        {
            var left = merged.Count - done;
            var share = effort.Part(left == 1 ? 0.97 : Math.Min(0.97, 1.6 / left));
            var number = ++done;
            var group = GroupPlanner.Plan(pipe, wanted, bars, rack.Rules, share, unplaced, findings,
                (found, gap) => progress?.Invoke(new(number, merged.Count, pipe, found, gap)));
            if (group.Bars.Count > 0)
                planned[pipe] = group with { Otherwise = Otherwise(group, wanted, bars, rack.Rules) };
            if (ShortOfOneLess(group, wanted, bars, rack.Rules, effort) is { } nearly)
                findings.Add(nearly);
            progress?.Invoke(new(number, merged.Count, pipe, group.NewBars, group.IsProven ? 0 : group.Goals.FirstOrDefault(g => !g.IsBest && !g.IsImproved)?.Gap ?? 0));
        }

        var remnants = new HashSet<string>(rack.Bars.Select(b => b.Id), StringComparer.OrdinalIgnoreCase);
        CutGroup[] result = [.. planned.OrderBy(g => g.Key).Select(g => g.Value with { Bars = [.. g.Value.Bars.Select(b => b.KeptRemnant > 0 ? b with { RemnantName = Unused($"{b.Name}-R", remnants) } : b)] })];
        return new CuttingPlan(result, [.. unplaced.OrderBy(u => u.Piece.Pipe).ThenBy(u => u.Piece.FullName, StringComparer.Ordinal)], rack.Rules)
        {
            Findings = findings,
            RackAfter = After(rack, result),
            Log = rack.Log,
        };
    }

    internal static Finding Say(string rule, Severity severity, string at, string message, string remedy) => new(rule, severity, at, default, message, remedy);

    internal static string Mm(double mm) => !double.IsFinite(mm) ? "no number of" : LengthText.Rounded(mm, 2).ToString("0.##", CultureInfo.InvariantCulture);

    // The rack's pipe for these pieces: the same; or, where the pieces name no material, the only one of that size and schedule.
    private static PipeKind? Match(PipeKind pipe, Dictionary<PipeKind, List<StockBar>> stock, out string why)
    {
        why = "";
        if (stock.ContainsKey(pipe))
            return pipe;
        var same = stock.Keys.Where(k => k.Size == pipe.Size && k.Schedule == pipe.Schedule).Order().ToList();
        if (pipe.Material.Length == 0 && same.Count == 1)
            return same[0];
        var size = stock.Keys.Where(k => k.Size == pipe.Size).Order().ToList();
        why = same.Count > 0
            ? pipe.Material.Length == 0
                ? $"its material is not given, and the stock has NPS {pipe.Size} schedule {pipe.Schedule} in {string.Join(", ", same.Select(k => k.Material))}"
                : $"the stock has NPS {pipe.Size} schedule {pipe.Schedule} only in {string.Join(", ", same.Select(k => k.Material.Length == 0 ? "unnamed material" : k.Material))}, not in {pipe.Material}"
            : size.Count > 0
                ? $"the stock has NPS {pipe.Size} only in schedule {string.Join(", ", size.Select(k => k.Schedule).Distinct(StringComparer.Ordinal))}, not in {pipe.Schedule}{SameWall(pipe, size)}"
                : $"the stock has no pipe of NPS {pipe.Size}";
        return null;
    }

    // Two names of one wall, such as 40 and STD up to NPS 10 (ASME B36.10M): not taken for each other, but said.
    private static string SameWall(PipeKind pipe, List<PipeKind> others)
    {
        if (!NominalSize.TryParse(pipe.Size, out var size) || Standards.Pipes.Wall(size, pipe.Schedule) is not { } wall)
            return "";
        var twin = others.Find(k => Standards.Pipes.Wall(size, k.Schedule) is { } w && w.Mm == wall.Mm);
        return twin is null ? "" : $" (of the same wall: write {pipe.Schedule} in the stock file if it may be used)";
    }

    private static List<StockBar> After(Rack before, CutGroup[] groups)
    {
        var used = groups.SelectMany(g => g.Bars).ToLookup(b => b.Stock, b => b.Name, (IEqualityComparer<StockBar>)ReferenceEqualityComparer.Instance);
        var after = new List<StockBar>();
        foreach (var bar in before.Bars)
        {
            // Bars keep their numbers: what the records say of R1#2 must never be taken for another bar.
            if (bar.Quantity != 1 && bar.Source != StockSource.Begun)
                after.Add(bar with { Gone = [.. bar.Gone, .. used[bar]] });
            else if (bar.Left == 0 || used[bar].Any())
                continue;
            else if (bar.Source != StockSource.Begun)
                after.Add(bar);
            else if (bar.Length - (bar.MillEnds * before.Rules.EndTrim) is var rest && before.Rules.ShortestRemnant <= rest)
                after.Add(Remnant(bar, bar.Id, rest)); // a rest that the plan leaves is a remnant like any other
        }

        foreach (var bar in groups.SelectMany(g => g.Bars).Where(b => b.KeptRemnant > 0))
            after.Add(Remnant(bar.Stock, bar.RemnantName, bar.KeptRemnant));
        return [.. after.Where(b => b.Left != 0)];
    }

    // If every bar were a little longer, would one bar less do? Then it is worth a look at the tape, or at the kerf.
    private static Finding? ShortOfOneLess(CutGroup group, List<Piece> pieces, List<StockBar> bars, CuttingRules rules, Effort effort)
    {
        const double little = Tolerance.Closing;
        if (!group.IsProven || MostToTryAgain < pieces.Count || group.NewBars < 2)
            return null;
        var placed = group.Bars.SelectMany(b => b.Pieces).Select(p => p.Piece).ToHashSet<Piece>(ReferenceEqualityComparer.Instance);
        var longer = bars.ConvertAll(b => b with { Length = b.Length + little });
        var again = GroupPlanner.Plan(group.Pipe, [.. pieces.Where(placed.Contains)], longer, rules, effort.Part(0.05), [], [], (_, _) => { });
        if (again.Bars.Sum(b => b.Pieces.Count) != placed.Count || group.NewBars <= again.NewBars || Bought(group) < Bought(again))
            return null;
        // What is used of the little: from the last cut to where the bar really ends.
        var (bar, over) = again.Bars.Select(b => (b, b.Pieces[^1].To - (b.Stock.Length - little - (b.Stock.MillEnds > 0 ? rules.EndTrim : 0)))).MaxBy(b => b.Item2);
        return over <= 0 ? null : Say("nearly-one-bar-less", Severity.Note, group.Pipe.ToString(),
            string.Create(CultureInfo.InvariantCulture, $"{group.Pipe}: {Math.Max(0.01, LengthText.Rounded(over, 2)):0.00} mm short of one bar less."),
            $"Measure the bars of {Mm(bar.Stock.Length - little)} mm: a longer one, a narrower kerf, or a piece that may be so much shorter ({string.Join(", ", bar.Pieces.Select(p => p.Piece.FullName))} would come from one bar) saves it.");

        static int Bought(CutGroup g) => g.Bars.Count(b => b.Stock.Source == StockSource.Buy);
    }

    private const int MostToTryAgain = 40;

    // Each length on sale by itself, with what the shop has: planned as one does it by hand.
    private static List<OtherLength> Otherwise(CutGroup group, List<Piece> pieces, List<StockBar> bars, CuttingRules rules)
    {
        var sold = bars.Where(b => b.Source == StockSource.Buy).ToList();
        if (sold.Count < 2 || !group.Bars.Any(b => b.Stock.Source == StockSource.Buy))
            return [];
        var others = new List<OtherLength>();
        var placed = group.Bars.SelectMany(b => b.Pieces).Select(p => p.Piece).ToHashSet<Piece>(ReferenceEqualityComparer.Instance);
        foreach (var length in sold.GroupBy(b => b.Length).OrderBy(g => g.Key))
        {
            var unplaced = new List<UnplacedPiece>();
            var plan = GroupPlanner.Plan(group.Pipe, [.. pieces.Where(placed.Contains)], [.. bars.Where(b => b.Source != StockSource.Buy), .. length], rules, Effort.None, unplaced, [], (_, _) => { });
            if (unplaced.Count == 0)
                others.Add(new(length.Key, plan.Bars.Count(b => b.Stock.Source == StockSource.Buy), plan.Cost));
        }

        return others;
    }

    private static string Unused(string name, HashSet<string> names)
    {
        var free = name;
        for (var n = 2; !names.Add(free); n++)
            free = string.Create(CultureInfo.InvariantCulture, $"{name}{n}");
        return free;
    }

    private static StockBar Remnant(StockBar bar, string name, double length) =>
        bar with { Id = name, Length = Math.Floor((length * 100) + 1e-6) / 100, Quantity = 1, Gone = [], Source = StockSource.Remnant, FarEndIsMill = false };
}
