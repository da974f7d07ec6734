using System.Globalization;
using Rootgap.Cutting.Solver;
using Rootgap.Findings;

namespace Rootgap.Cutting;

/// <summary>Plans one size, schedule and material: turns pieces and bars into whole numbers, lets the search work, and lays the bars out.</summary>
internal sealed partial class GroupPlanner
{
    /// <summary>Most ways of giving heats to the sets of pieces that must have one; beyond them the plan is good, not proven.</summary>
    private const int MostHeatWays = 200;

    private readonly CuttingRules rules;
    private readonly Effort effort;
    private readonly List<BarType> types;
    private readonly BarGoals goals;
    private readonly bool isMoney;
    private readonly Action<int?, decimal> progress;

    /// <summary>What is laid into a bar as one: a piece, or pieces that stay together.</summary>
    private sealed record Part(long Length, string Heat, string Set, List<Piece> Pieces);

    private GroupPlanner(CuttingRules rules, Effort effort, List<BarType> types, bool isMoney, Action<int?, decimal> progress)
    {
        (this.rules, this.effort, this.types, this.isMoney, this.progress) = (rules, effort, types, isMoney, progress);
        goals = new BarGoals(types, rules, isMoney);
    }

    public static CutGroup Plan(
        PipeKind pipe, List<Piece> pieces, List<StockBar> bars, CuttingRules rules, Effort effort, List<UnplacedPiece> unplaced, List<Finding> findings, Action<int?, decimal> progress)
    {
        var heats = pieces.Exists(p => p.Heat.Length > 0 || p.OneHeat.Length > 0);
        var planner = new GroupPlanner(rules, effort, BarType.Of(bars, heats), bars.Exists(b => b.Cost is not null), progress);
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

    // What goes into a bar, in units of the grid: a kerf is counted with every piece, and one with the bar, whose last piece needs none.
    private long Room(BarType type) => Grid.Down(type.Length) - (type.MillEnds * Grid.Up(rules.EndTrim)) + Grid.Up(rules.Kerf);

    private long Room(Piece piece) => Grid.Up(piece.Length) + (piece.FacedEnds * Grid.Up(rules.FacingLoss)) + Grid.Up(rules.Kerf);

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
            ? $"it is {CuttingPlanner.Mm(piece.Length)} mm long, and the longest bar{(heat.Length > 0 ? " of heat " + piece.Heat : "")} gives {CuttingPlanner.Mm((Room(longest) * Grid.Unit) - rules.Kerf)} mm: put a weld in it or get a longer bar"
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
            var total = parts.Sum(p => p.Length) * Grid.Unit;
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
                (result, solved) = (new SearchResult(FirstThatFit(parts, out _), [], false, false, []), parts);
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
        var same = loose.Proven && Value(found.Result).AsSpan().SequenceEqual(loose.Bound);
        return (found.Result with { Bound = loose.Bound, Proven = same || (all && found.Result.Proven), Certificates = loose.Certificates }, found.Parts);

        void Walk(int j)
        {
            if (best is { } b && loose.Proven && Value(b.Result).AsSpan().SequenceEqual(loose.Bound))
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
            if (result.Best is not null && (best is null || PackingProblem.IsLess(Value(result), Value(best.Value.Result))))
                best = (result, given);
        }
    }

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
        var demand = byKind;
        // The largest common measure of the lengths is the unit: no sum of them falls between.
        var unit = Math.Max(1, kinds.Aggregate(0L, (g, k) => BarGoals.Gcd(g, k.Item1)));
        return new PackingProblem
        {
            Length = [.. kinds.Select(k => k.Length / unit)],
            Demand = [.. kinds.Select(k => demand[k].Count)],
            Capacity = [.. types.Select(t => Math.Max(0, Room(t)) / unit)],
            Limit = [.. types.Select(t => t.Count)],
            Goals = [.. goals.Searched.Select(g => g.Whole)],
            Allowed = parts.Exists(p => p.Heat.Length > 0) ? [.. types.Select(t => local.Select(k => k.Heat.Length == 0 || k.Heat == t.Heat).ToArray())] : null,
            Reach = [.. types.Select(t => t.Source switch { StockSource.Begun or StockSource.Remnant => 0, StockSource.OnHand => 1, _ => 2 })],
            Unit = unit * Grid.Unit,
        };
    }

    private SearchResult Search(List<Part> parts, Effort share)
    {
        var problem = Problem(parts, out var kinds, out _);
        for (var i = 0; i < kinds.Count; i++)
        {
            if (!Enumerable.Range(0, problem.Types).Any(k => 0 < problem.Limit[k] && problem.Fits(k, i)))
                return new SearchResult(null, new long[problem.Goals.Length], false, true, []);
        }

        return new BarSearch(problem, share, r =>
        {
            var value = r.Best is null ? [] : problem.ValueOf(r.Best.CountByType(types.Count));
            var open = value.Index().FirstOrDefault(v => r.Bound[v.Index] < v.Item, (-1, 0));
            progress(
                r.Best?.Bars.Where(b => types[b.Pattern.Type].Source != StockSource.Begun).Sum(b => b.Times),
                open.Index < 0 ? 0 : r.Bound[open.Index] == 0 ? 100 : 100 * (decimal)(open.Item - r.Bound[open.Index]) / r.Bound[open.Index]);
        }).Run();
    }

    private long[] Value(SearchResult result) => Problem([], out _, out _).ValueOf(result.Best!.CountByType(types.Count));

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
                    room.Add(Room(types[k]));
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
}
