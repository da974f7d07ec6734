using System.Globalization;
using Rootgap.Cutting.Solver;
using Rootgap.Findings;

namespace Rootgap.Cutting;

/// <summary>Plans one size, schedule and material: turns pieces and bars into whole numbers, lets the search work, and lays the bars out.</summary>
internal sealed class GroupPlanner
{
    /// <summary>Lengths are counted in hundredths of a millimetre: pieces rounded up, bars down.</summary>
    internal const double Unit = 0.01;

    /// <summary>Most ways of giving heats to the sets of pieces that must have one; beyond them the plan is good, not proven.</summary>
    private const int MostHeatWays = 200;

    private readonly CuttingRules rules;
    private readonly Effort effort;
    private readonly List<BarType> types;
    private readonly Action<int?, int> progress;

    /// <summary>Bars that are alike for the plan.</summary>
    private sealed record BarType(double Length, string Heat, StockSource Source, int MillEnds, double Weight, List<StockBar> Rows)
    {
        public int Count => Rows.Exists(r => r.Left is null) ? PackingProblem.Plenty : (int)Math.Min(PackingProblem.Plenty - 1, Rows.Sum(r => (long)r.Left!.Value));
    }

    /// <summary>What is laid into a bar as one: a piece, or pieces that stay together.</summary>
    private sealed record Part(long Length, string Heat, string Set, List<Piece> Pieces);

    private GroupPlanner(CuttingRules rules, Effort effort, List<BarType> types, Action<int?, int> progress) =>
        (this.rules, this.effort, this.types, this.progress) = (rules, effort, types, progress);

    public static CutGroup Plan(
        PipeKind pipe, List<Piece> pieces, List<StockBar> bars, CuttingRules rules, Effort effort, List<UnplacedPiece> unplaced, List<Finding> findings, Action<int?, int> progress)
    {
        var heats = pieces.Exists(p => p.Heat.Length > 0 || p.OneHeat.Length > 0);
        var kindsOfBars = bars
            .Where(b => b.Left is null or > 0)
            .GroupBy(b => (b.Length, Heat: heats ? b.Heat.ToUpperInvariant() : "", b.Source, b.MillEnds, Weight: (b.Cost ?? double.NaN) * b.Preference, b.Preference))
            .OrderByDescending(g => g.Key.Length).ThenBy(g => g.Key.Heat, StringComparer.Ordinal).ThenBy(g => g.Key.Source).ThenBy(g => g.Key.Weight)
            .Select(g => new BarType(g.Key.Length, g.Key.Heat, g.Key.Source, g.Key.MillEnds, Weight(g.First(), bars), [.. g]))
            .ToList();
        var planner = new GroupPlanner(rules, effort, kindsOfBars, progress);
        var fitting = new List<Piece>();
        foreach (var piece in pieces)
        {
            if (planner.WhyNot(piece) is { } why)
                unplaced.Add(new(piece, why));
            else
                fitting.Add(piece);
        }

        return planner.Solve(pipe, fitting, unplaced, findings);
    }

    // Cost of a metre beside the others: what is given; where some rows have a price and this has none, the dearest given.
    private static double Weight(StockBar bar, List<StockBar> all) =>
        (bar.Cost ?? all.Max(b => b.Cost) ?? 1) * bar.Preference;

    private long Room(BarType type)
    {
        return (long)Math.Floor(((type.Length - (type.MillEnds * rules.EndTrim) + rules.Kerf) / Unit) + 1e-4);
    }

    private long Room(Piece piece) => (long)Math.Ceiling(((piece.Length + (piece.FacedEnds * rules.FacingLoss) + rules.Kerf) / Unit) - 1e-4);

    private string? WhyNot(Piece piece)
    {
        if (types.Count == 0)
            return "no bar of its size, schedule and material is left in the stock";
        var need = Room(piece);
        var heat = piece.Heat.ToUpperInvariant();
        var right = heat.Length == 0 ? types : types.FindAll(t => t.Heat == heat);
        if (right.Count == 0)
            return $"it must come from heat {piece.Heat}, and the stock has no such bar of its size, schedule and material";
        var longest = right.MaxBy(Room)!;
        return Room(longest) < need
            ? $"it is {CuttingPlanner.Mm(piece.Length)} mm long, and the longest bar{(heat.Length > 0 ? " of heat " + piece.Heat : "")} gives {CuttingPlanner.Mm((Room(longest) * Unit) - rules.Kerf)} mm: put a weld in it or get a longer bar"
            : null;
    }

    private CutGroup Solve(PipeKind pipe, List<Piece> pieces, List<UnplacedPiece> unplaced, List<Finding> findings)
    {
        if (pieces.Count == 0)
            return new CutGroup(pipe, []);
        var parts = pieces.ConvertAll(p => new Part(Room(p), p.Heat.ToUpperInvariant(), p.OneHeat, [p]));
        var (result, solved) = SolveHeats(parts, effort);
        if (result.Best is null)
        {
            var total = parts.Sum(p => p.Length) * Unit;
            var why = result.Impossible
                ? "proven: the bars at hand cannot hold all the pieces of this size; this one was left over"
                : "no plan that places all the pieces of this size was found with the bars at hand; this one was left over";
            var placed = MostThatFit(parts, out var left);
            findings.Add(CuttingPlanner.Say("stock-short", Severity.Stop, pipe.ToString(),
                $"{pipe}: the pieces need {CuttingPlanner.Mm(total)} mm with kerfs, and the bars at hand {(result.Impossible ? "cannot hold them all (proven)" : "did not take them all")}.", "Get more pipe, or give a length that can be bought."));
            unplaced.AddRange(left.SelectMany(p => p.Pieces).Select(p => new UnplacedPiece(p, why)));
            parts = placed;
            if (parts.Count == 0)
                return new CutGroup(pipe, []);
            (result, solved) = SolveHeats(parts, effort.Part(0.5));
            if (result.Best is null)
                (result, solved) = (new SearchResult(FirstThatFit(parts, out _), 0, 0, false, false, []), parts);
        }

        return LayOut(pipe, solved, result, findings);
    }

    // Sets of pieces that must have one heat: each way of giving them heats is a task of its own; the best is taken.
    private (SearchResult Result, List<Part> Parts) SolveHeats(List<Part> parts, Effort share)
    {
        var sets = parts.Where(p => p.Set.Length > 0).GroupBy(p => p.Set, StringComparer.Ordinal).OrderByDescending(g => g.Sum(p => p.Length)).ThenBy(g => g.Key, StringComparer.Ordinal).ToList();
        if (sets.Count == 0)
            return (Search(parts, share), parts);

        // Without the rule no plan is worse: its bound holds, and when its plan keeps the rule anyway, it is the answer.
        var loose = Search(parts, share.Part(0.3));
        if (loose.Best is null && loose.Impossible)
            return (loose, parts);
        var options = sets.ConvertAll(s => Options([.. s]));
        (SearchResult Result, List<Part> Parts)? best = null;
        var all = true;
        var ways = 0;
        var chosen = new int[sets.Count];
        Walk(0);
        if (best is not { } found)
            return (loose with { Best = null, Proven = false, Impossible = all }, parts);
        var same = Value(found.Result) is var v && v.First == loose.First && v.Second == loose.Second;
        return (found.Result with { First = loose.First, Second = loose.Second, Proven = same || (all && found.Result.Proven), Certificates = loose.Certificates }, found.Parts);

        void Walk(int j)
        {
            if (best is { } b && Value(b.Result) is var now && now.First == loose.First && now.Second <= loose.Second)
                return;
            if (j < sets.Count)
            {
                for (chosen[j] = 0; chosen[j] < options[j].Count; chosen[j]++)
                    Walk(j + 1);
                return;
            }

            if (MostHeatWays < ++ways || share.Spent)
            {
                all = false;
                return;
            }

            var given = parts.Where(p => p.Set.Length == 0).ToList();
            for (var q = 0; q < sets.Count; q++)
                given.AddRange(options[q][chosen[q]]);
            var result = Search(given, share.Part(best is null ? 0.5 : 0.25));
            all &= result.Proven || result.Impossible;
            if (result.Best is not null && (best is null || Less(Value(result), Value(best.Value.Result))))
                best = (result, given);
        }
    }

    private static bool Less((long First, long Second) a, (long First, long Second) b) => a.First < b.First || (a.First == b.First && a.Second < b.Second);

    // A set comes from one named heat, or whole from a single bar, whose heat is one whatever it is.
    private List<List<Part>> Options(List<Part> set)
    {
        var options = new List<List<Part>>();
        var given = set.Select(p => p.Heat).Where(h => h.Length > 0).Distinct(StringComparer.Ordinal).ToList();
        foreach (var heat in types.Where(t => t.Heat.Length > 0).GroupBy(t => t.Heat, StringComparer.Ordinal).OrderByDescending(g => g.Sum(t => (double)Room(t) * t.Count)).Select(g => g.Key))
        {
            var longest = types.Where(t => t.Heat == heat).Max(Room);
            if (given.TrueForAll(h => h == heat) && set.TrueForAll(p => p.Length <= longest))
                options.Add(set.ConvertAll(p => p with { Heat = heat }));
        }

        var whole = set.Sum(p => p.Length);
        var one = given.Count switch { 0 => "", 1 => given[0], _ => null };
        if (one is not null && types.Exists(t => whole <= Room(t) && (one.Length == 0 ? t.Heat.Length == 0 : t.Heat == one)))
            options.Add([new Part(whole, one, "", [.. set.SelectMany(p => p.Pieces)])]);
        return options;
    }

    private PackingProblem Problem(List<Part> parts, out List<(long Length, string Heat)> kinds, out Dictionary<(long, string), List<Part>> byKind)
    {
        byKind = parts.GroupBy(p => (p.Length, p.Heat)).ToDictionary(g => g.Key, g => g.ToList());
        kinds = [.. byKind.Keys.OrderByDescending(k => k.Item1).ThenBy(k => k.Item2, StringComparer.Ordinal)];
        var local = kinds;
        var cost = types.ConvertAll(t => t.Source == StockSource.Begun ? 0 : (long)Math.Round(t.Weight / Least() * t.Length) * 100_000 + (t.Source == StockSource.Buy ? 1 : 0));
        var count = types.ConvertAll(t => t.Source == StockSource.Begun ? 0L : 1L);
        var demand = byKind;
        return new PackingProblem
        {
            Length = [.. kinds.Select(k => k.Length)],
            Demand = [.. kinds.Select(k => demand[k].Count)],
            Capacity = [.. types.Select(Room)],
            Limit = [.. types.Select(t => t.Count)],
            First = [.. rules.IsCostFirst ? cost : count],
            Second = [.. rules.IsCostFirst ? count : cost],
            Allowed = parts.Exists(p => p.Heat.Length > 0) ? [.. types.Select(t => local.Select(k => k.Heat.Length == 0 || k.Heat == t.Heat).ToArray())] : null,
        };
    }

    private double Least() => types.Select(t => t.Weight).Where(w => w > 0).DefaultIfEmpty(1).Min();

    private SearchResult Search(List<Part> parts, Effort share)
    {
        var problem = Problem(parts, out var kinds, out _);
        for (var i = 0; i < kinds.Count; i++)
        {
            if (!Enumerable.Range(0, problem.Types).Any(k => 0 < problem.Limit[k] && problem.Fits(k, i)))
                return new SearchResult(null, 0, 0, false, true, []);
        }

        return new BarSearch(problem, share, r => progress(r.Best is null ? null : r.Best.Bars.Where(b => types[b.Pattern.Type].Source != StockSource.Begun).Sum(b => b.Times), (int)(rules.IsCostFirst ? r.Second : r.First))).Run();
    }

    private (long First, long Second) Value(SearchResult result)
    {
        var problem = Problem([], out _, out _);
        long first = 0;
        long second = 0;
        foreach (var (pattern, times) in result.Best!.Bars)
        {
            first += times * problem.First[pattern.Type];
            second += times * problem.Second[pattern.Type];
        }

        return (first, second);
    }

    // The bars do not take all: urgent pieces first, then the longest, as many as go in.
    private List<Part> MostThatFit(List<Part> parts, out List<Part> left)
    {
        FirstThatFit([.. parts.OrderBy(p => p.Pieces.Min(x => x.Priority)).ThenByDescending(p => p.Length)], out left);
        var over = left.ToHashSet(ReferenceEqualityComparer.Instance);
        return [.. parts.Where(p => !over.Contains(p))];
    }

    private Packing FirstThatFit(List<Part> parts, out List<Part> left)
    {
        left = [];
        var problem = Problem(parts, out var kinds, out _);
        var index = kinds.Index().ToDictionary(k => k.Item, k => k.Index);
        var free = (int[])problem.Limit.Clone();
        var open = new List<(int Type, List<int> Kinds)>();
        var room = new List<long>();
        var setHeat = new Dictionary<string, int>(StringComparer.Ordinal);
        foreach (var part in parts)
        {
            var kind = index[(part.Length, part.Heat)];
            var at = -1;
            bool Right(int type, int bar) => problem.Fits(type, kind) && (part.Set.Length == 0 || !setHeat.TryGetValue(part.Set, out var first)
                || (first == bar || (open[first] is var o && types[o.Type].Heat.Length > 0 && types[o.Type].Heat == types[type].Heat)));
            for (var b = 0; b < open.Count && at < 0; b++)
            {
                if (part.Length <= room[b] && Right(open[b].Type, b))
                    at = b;
            }

            for (var k = 0; k < problem.Types && at < 0; k++)
            {
                if (0 < free[k] && Right(k, open.Count))
                {
                    free[k]--;
                    at = open.Count;
                    open.Add((k, []));
                    room.Add(problem.Capacity[k]);
                }
            }

            if (at < 0)
            {
                left.Add(part);
                continue;
            }

            if (part.Set.Length > 0)
                setHeat.TryAdd(part.Set, at);
            room[at] -= part.Length;
            open[at].Kinds.Add(kind);
        }

        return new Packing([.. open.Select(o => (GreedyFill.ToPattern(o.Type, o.Kinds), 1))]);
    }

    private CutGroup LayOut(PipeKind pipe, List<Part> parts, SearchResult result, List<Finding> findings)
    {
        var problem = Problem(parts, out var kinds, out var byKind);
        var plain = result.Best!;
        var shaped = RemnantShaping.Shape(problem, plain, (long)Math.Round(rules.ShortestRemnant / Unit), effort);
        if (rules.MostPlans is { } most && most < Different(shaped) && Different(plain) < Different(shaped))
            shaped = plain;

        // Bars with the same cuts beside each other; those with urgent pieces first.
        var waiting = byKind.ToDictionary(k => k.Key, k => new Queue<Part>(k.Value.OrderBy(p => p.Pieces.Min(x => x.Priority)).ThenBy(p => p.Pieces[0].FullName, StringComparer.Ordinal)));
        var supply = types.ConvertAll(t => Names(t).GetEnumerator()); // lengths to buy have no end
        var bars = new List<CutBar>();
        foreach (var (pattern, times) in shaped.Bars.OrderBy(b => b.Pattern.Type).ThenByDescending(b => b.Times).ThenByDescending(b => b.Pattern.Used(problem)))
        {
            for (var t = 0; t < times; t++)
            {
                var inside = new List<Part>();
                for (var i = 0; i < pattern.Kinds.Length; i++)
                {
                    for (var n = 0; n < pattern.Counts[i]; n++)
                        inside.Add(waiting[kinds[pattern.Kinds[i]]].Dequeue());
                }

                supply[pattern.Type].MoveNext();
                var (name, row) = supply[pattern.Type].Current;
                bars.Add(Bar(name, row, inside));
            }
        }

        var group = new CutGroup(pipe, [.. bars.OrderBy(b => b.Pieces.Min(p => p.Piece.Priority))]);
        if (rules.MostPlans is { } limit && limit < group.Plans)
        {
            findings.Add(CuttingPlanner.Say("too-many-plans", Severity.Warn, pipe.ToString(),
                string.Create(CultureInfo.InvariantCulture, $"{pipe}: {group.Plans} different plans, where the rules want {limit} at most."), "Allow more plans, or accept more bars and cut like lengths together by hand."));
        }

        var counts = new BarCounts(problem);
        foreach (var certificate in result.Certificates)
            counts.Add(certificate);
        long newBars = group.NewBars;
        var fewest = result.Proven && !rules.IsCostFirst ? newBars : Math.Max(rules.IsCostFirst ? 0 : result.First, counts.Least([.. types.Select(t => t.Source == StockSource.Begun ? 0L : 1L)], null, 0));
        var steel = types.ConvertAll(t => (long)Math.Floor(t.Length / Unit));
        var leastSteel = result.Proven && types.TrueForAll(t => t.Weight == types[0].Weight && t.Source != StockSource.Begun)
            ? group.Used
            : counts.Least([.. steel], rules.IsCostFirst ? null : problem.First, problem.First.Length == 0 ? 0 : Value(result).First) * Unit;
        return group with { LeastBars = (int)Math.Min(newBars, fewest), LeastSteel = Math.Min(group.Used, leastSteel), IsProven = result.Proven };
    }

    private static int Different(Packing packing) => packing.Bars
        .Select(b => string.Create(CultureInfo.InvariantCulture, $"{b.Pattern.Type}:{string.Join(',', b.Pattern.Kinds)}:{string.Join(',', b.Pattern.Counts)}")).Distinct(StringComparer.Ordinal).Count();

    private static IEnumerable<(string Name, StockBar Row)> Names(BarType type)
    {
        foreach (var row in type.Rows)
        {
            foreach (var name in row.Names())
                yield return (name, row);
        }
    }

    private CutBar Bar(string name, StockBar row, List<Part> inside)
    {
        var pieces = inside.OrderBy(p => p.Pieces.Min(x => x.Priority)).ThenByDescending(p => p.Length).SelectMany(p => p.Pieces).ToList();
        var at = row.MillEnds > 1 ? rules.EndTrim : 0;
        var end = row.Length - (row.MillEnds > 0 ? rules.EndTrim : 0);
        var positions = new List<CutPosition>();
        double kerf = 0;
        foreach (var piece in pieces)
        {
            var to = at + piece.Length + (piece.FacedEnds * rules.FacingLoss);
            positions.Add(new(piece, at, to));
            at = to;
            var cut = Math.Clamp(end - at, 0, rules.Kerf); // the last piece may end where the bar ends
            kerf += cut < 1e-6 ? 0 : cut;
            at += cut;
        }

        var remnant = Math.Max(0, end - at);
        if (remnant < 1e-6)
            remnant = 0;
        return new CutBar(name, row, positions, kerf, remnant, rules.ShortestRemnant <= remnant ? remnant : 0);
    }
}
