using System.Globalization;
using Rootgap.Cutting.Solver;
using Rootgap.Findings;

namespace Rootgap.Cutting;

/// <summary>From a packing to bars with names and places, and what can be claimed for it.</summary>
internal sealed partial class GroupPlanner
{
    private CutGroup LayOut(PipeKind pipe, List<Part> parts, SearchResult result, List<Finding> findings)
    {
        var problem = Problem(parts, out var kinds, out var byKind);
        var shaped = Chosen(problem, Shaped(problem, result.Best!));

        // Bars with the same cuts beside each other; those with urgent pieces first.
        var waiting = byKind.ToDictionary(k => k.Key, k => new Queue<Part>(k.Value.OrderBy(p => p.Pieces.Min(x => x.Priority)).ThenBy(p => p.Pieces[0].FullName, StringComparer.Ordinal)));
        var supply = types.ConvertAll(t => t.Names().GetEnumerator()); // lengths to buy have no end
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

        return Judged(group, problem, shaped, result);
    }

    // Where few set-ups count more than something that counts by bars, or there are more of them than may be: the best by the order of the rules among what
    // was found and packings made for few set-ups, whatever bars they take.
    private Packing Chosen(PackingProblem problem, Packing shaped)
    {
        var isLimited = rules.MostPlans < Different(problem, shaped);
        if (MostToShape < problem.Pieces || !(isLimited || goals.Searched.Exists(g => Before(CuttingAim.SetUps, g.Aim))))
            return shaped;
        var all = FewPatterns.Of(problem, effort).Prepend(shaped).ToList();
        var few = all.Where(p => rules.MostPlans is null || Different(problem, p) <= rules.MostPlans).ToList();
        return (few.Count > 0 ? few : isLimited ? [shaped] : all).Select(p => (Packing: p, Value: InOrder(p))).Aggregate((a, b) => b.Value.AsSpan().SequenceCompareTo(a.Value) < 0 ? b : a).Packing;

        decimal[] InOrder(Packing packing)
        {
            var used = packing.CountByType(problem.Types);
            return [.. rules.Order.SelectMany(aim => aim == CuttingAim.SetUps ? [Different(problem, packing)] : goals.All.Where(g => g.Aim == aim).Select(g => g.ValueOf(used)))];
        }
    }

    // The same bars, or bars that count the same, with what is left and the set-ups as the rules want them.
    private Packing Shaped(PackingProblem problem, Packing plain)
    {
        var counts = plain.CountByType(problem.Types);
        var candidates = new List<Packing> { plain };
        var shortest = rules.ShortestRemnant / problem.Unit;
        if (problem.Pieces <= MostToShape)
            candidates.Add(RemnantShaping.Shape(problem, plain, (long)Math.Ceiling(shortest), effort));
        // Few set-ups: every filling is cut as often as the pieces allow.
        var fill = new GreedyFill(problem);
        for (var seed = 1; seed <= 12 && problem.Pieces <= MostToShape && problem.Pieces > problem.Kinds && (seed == 1 || !effort.Spent); seed++)
        {
            if (fill.Pack(problem.Demand, counts, 6, effort, seed) is { } packed)
            {
                var repeated = new Packing(packed);
                candidates.Add(repeated);
                candidates.Add(RemnantShaping.Shape(problem, repeated, (long)Math.Ceiling(shortest), effort));
            }
        }

        var remnantsFirst = rules.Order.Index().First(a => a.Item is CuttingAim.Remnants or CuttingAim.NetCost or CuttingAim.SetUps).Item != CuttingAim.SetUps;
        var best = candidates.Select(p => (Packing: p, Scrap: Scrap(problem, p, shortest), SetUps: Different(problem, p))).Where(p => rules.MostPlans is null || p.SetUps <= rules.MostPlans).ToList();
        if (best.Count == 0)
            return candidates.MinBy(p => Different(problem, p))!;
        return (remnantsFirst ? best.OrderBy(p => p.Scrap).ThenBy(p => p.SetUps) : best.OrderBy(p => p.SetUps).ThenBy(p => p.Scrap)).First().Packing;
    }

    private const int MostToShape = 3000;

    // What is left and too short to keep, in the problem's unit; the kerf that cuts it off is lost with it.
    private long Scrap(PackingProblem problem, Packing packing, double shortest)
    {
        var kerf = rules.Kerf / problem.Unit;
        return packing.Bars.Sum(b => problem.Capacity[b.Pattern.Type] - b.Pattern.Used(problem) is var left && left - kerf < shortest ? b.Times * left : 0);
    }

    private CutGroup Judged(CutGroup group, PackingProblem problem, Packing packing, SearchResult result)
    {
        var counts = new BarCounts(problem);
        foreach (var certificate in result.Certificates)
            counts.Add(certificate);
        var used = packing.CountByType(problem.Types);
        // Few set-ups may have been bought with bars: then what was found counts for nothing but the first bound.
        var isBest = problem.ValueOf(used).AsSpan().SequenceEqual(problem.ValueOf(result.Best!.CountByType(problem.Types)));
        var isProven = result.Proven && isBest;
        var caps = new List<(long[], long)>();
        var judged = new List<CutGoal>();
        decimal leastCost = 0;
        foreach (var goal in goals.All)
        {
            var value = goal.ValueOf(used);
            var whole = used.Select((n, k) => n * goal.Whole[k]).Sum();
            var bound = isProven && !goal.IsRounded ? value
                : goals.Searched.IndexOf(goal) is var at && 0 <= at && at < result.Bound.Length && caps.Count == at && (isBest || at == 0) && !goal.IsRounded ? Math.Min(value, result.Bound[at] * goal.Unit)
                : Math.Min(value, counts.Least(goal.Whole, caps) * goal.Unit);
            if (goals.Searched.Contains(goal))
                caps.Add((goal.Whole, whole));
            var always = goal.Aim == CuttingAim.NetCost ? goals.RemnantWorth * (decimal)group.Bars.Sum(b => b.Pieces.Sum(p => p.SawLength)) : 0;
            judged.Add(new(goal.Aim, goal.Says, value + always, bound + always));
            leastCost = goal.Aim == CuttingAim.Cost ? bound : leastCost;
        }

        judged.Insert(judged.FindLastIndex(g => Before(g.Aim, CuttingAim.Remnants)) + 1, new(CuttingAim.Remnants, "scrap, mm", decimal.Round((decimal)group.Bars.Sum(b => b.Remnant - b.KeptRemnant), 6), 0));
        judged.Insert(judged.FindLastIndex(g => Before(g.Aim, CuttingAim.SetUps)) + 1, new(CuttingAim.SetUps, "different plans", group.Plans, FewestPlans(problem)));
        long[] steel = [.. types.Select(t => Grid.Down(t.Length))];
        var leastSteel = counts.Least(steel, caps) * Grid.Unit;
        return group with
        {
            Goals = judged,
            IsMoney = isMoney,
            Cost = judged.First(g => g.Aim == CuttingAim.Cost).Value,
            LeastCost = leastCost,
            LeastBars = (int)judged.First(g => g.Aim == CuttingAim.Bars).Bound,
            LeastSteel = Math.Min(group.Used, leastSteel),
            IsForSetUps = !isBest,
            IsProven = isProven && !goals.Searched.Exists(g => g.IsRounded),
        };
    }

    private bool Before(CuttingAim a, CuttingAim b) => rules.Order.Index().First(o => o.Item == a).Index < rules.Order.Index().First(o => o.Item == b).Index;

    // So many different lengths, and so many go into one bar at most.
    private static int FewestPlans(PackingProblem problem)
    {
        var lengths = problem.Length.Distinct().ToList();
        var room = problem.Capacity.Max();
        var most = lengths.AsEnumerable().Reverse().TakeWhile(l => 0 <= (room -= l)).Count();
        return most == 0 ? 0 : (lengths.Count + most - 1) / most;
    }

    // As CutGroup.Plans counts: by the length of the bar and the lengths that are cut from it.
    private int Different(PackingProblem problem, Packing packing) => packing.Bars
        .Select(b => string.Create(CultureInfo.InvariantCulture, $"{types[b.Pattern.Type].Length:R}:{string.Join(',', b.Pattern.Kinds.Zip(b.Pattern.Counts).GroupBy(k => problem.Length[k.First]).OrderBy(k => k.Key).Select(k => $"{k.Key}x{k.Sum(n => n.Second)}"))}"))
        .Distinct(StringComparer.Ordinal).Count();

    private CutBar Bar(string name, StockBar row, List<Part> inside)
    {
        var pieces = inside.OrderBy(p => p.Pieces.Min(x => x.Priority)).ThenBy(p => rules.ShortPiecesFirst ? p.Length : -p.Length).SelectMany(p => p.Pieces).ToList();
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
        return new CutBar(name, row, positions, kerf, remnant, rules.ShortestRemnant <= remnant + Measure.Tolerance.Noise ? remnant : 0);
    }
}
