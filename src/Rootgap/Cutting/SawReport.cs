using Rootgap.Findings;

namespace Rootgap.Cutting;

/// <summary>
/// What the people at the saw tell of a plan: which pieces are cut, which were spoiled, which bars turned out otherwise. Pieces are named by drawing and
/// mark, <c>CHW-118-01 1-A</c> or <c>CHW-118-01:1-A</c>; the mark alone will do where only one drawing of the plan has it.
/// </summary>
public sealed record SawReport
{
    /// <summary>Cut, and good.</summary>
    public IReadOnlyList<string> Cut { get; init; } = [];

    /// <summary>Cut, and spoiled; also such as were good in an earlier report.</summary>
    public IReadOnlyList<string> Spoiled { get; init; } = [];

    /// <summary>Bars that are of no use: bent, lost, sold.</summary>
    public IReadOnlyList<string> Out { get; init; } = [];

    /// <summary>Another bar was taken than the plan says; the cuts are those of the plan.</summary>
    public IReadOnlyList<(string Planned, string Taken)> Instead { get; init; } = [];

    /// <summary>Heat numbers found on bars: on those delivered, and on those whose heat is not what the stock file says.</summary>
    public IReadOnlyList<(string Bar, string Heat)> Heats { get; init; } = [];

    /// <summary>The log after this report on a plan, or what is wrong with the report.</summary>
    /// <param name="plan">The plan that was cut by; it carries the log before it.</param>
    /// <param name="rack">The stock file that the first plan was made from.</param>
    /// <param name="facts">What the job's facts say now, in the place of what they said when the plan was made; null where they are not looked at.</param>
    public (SawLog? Log, IReadOnlyList<Finding> Findings) On(CuttingPlan plan, Rack rack, IReadOnlyList<SawnBar>? facts = null)
    {
        var findings = new List<Finding>();
        var bars = plan.Log.Bars.ToDictionary(b => b.Name, StringComparer.OrdinalIgnoreCase);
        var told = new Dictionary<string, SawnBar>(StringComparer.OrdinalIgnoreCase); // what this report says, bar by bar
        var planned = plan.Groups.SelectMany(g => g.Bars).ToList();
        var steel = planned.ToDictionary(b => b, b => Steel(b.Name, bars, rack), (IEqualityComparer<CutBar>)ReferenceEqualityComparer.Instance); // which bar of the stock file each planned bar is cut from
        foreach (var (from, taken) in Instead)
        {
            var at = planned.Find(b => b.Name.Equals(from, StringComparison.OrdinalIgnoreCase));
            if (at is null)
                Wrong(findings, "unknown-bar", from, $"The plan has no bar {from}.", $"Its bars are: {Some(planned.Select(b => b.Name))}.");
            else if (rack.RowOfBar(taken) is not { } row)
                Wrong(findings, "unknown-bar", taken, $"The stock file has no bar {taken}.", "Bars of a row with a quantity are called by the row's mark and a number, such as A1#2.");
            else if (!row.Pipe.Equals(at.Stock.Pipe))
                Wrong(findings, "wrong-pipe", taken, $"The bar {taken} is {row.Pipe}, and what is cut from {from} must be {at.Stock.Pipe}.", "Was it this bar? Pieces cut from the wrong pipe are spoiled.");
            else if (at.Pieces[^1].To > row.Length + SawLog.SameLength || bars.ContainsKey(taken))
                Wrong(findings, "bar-too-short", taken, $"What is cut from {from} does not come out of {taken}{(bars.ContainsKey(taken) ? ", which was begun before" : "")}.", "Name the pieces one by one that were cut, or the bar that was taken.");
            else
                steel[at] = (taken, row.Id);
        }

        foreach (var taken in steel.Values.GroupBy(s => s.Name, StringComparer.OrdinalIgnoreCase).Where(g => g.Count() > 1))
        {
            // The bar that was taken in another's place is not there for its own cuts: only if nothing of those is told as cut does it add up.
            foreach (var bar in planned.Where(b => steel[b].Name.Equals(taken.Key, StringComparison.OrdinalIgnoreCase) && !Instead.Any(i => i.Planned.Equals(b.Name, StringComparison.OrdinalIgnoreCase))))
                steel[bar] = ("", "");
        }

        var sawn = Sawn(plan, planned, told, findings);
        foreach (var bar in planned)
        {
            var pieces = bar.Pieces.Where(p => sawn.ContainsKey(p)).ToList();
            if (pieces.Count == 0)
                continue;
            var (name, row) = steel[bar];
            if (name.Length == 0)
            {
                Wrong(findings, "bar-taken-twice", bar.Name, $"The bar {bar.Name} was taken in another's place, and {string.Join(", ", pieces.Select(p => p.Piece.FullName))} cannot have been cut from it, too.", "Say which bar was taken for these.");
                continue;
            }

            // All up to the last cut is gone, whatever stands before it in the plan and was not cut.
            var last = pieces[^1];
            var missed = bar.Pieces.TakeWhile(p => p != last).Where(p => !sawn.ContainsKey(p)).Select(p => p.Piece.FullName)
                .Where(p => facts?.Any(f => f.Name.Equals(name, StringComparison.OrdinalIgnoreCase) && f.Sawn.Any(s => s.FullName == p)) != true).ToList();
            if (missed.Count > 0)
            {
                findings.Add(CuttingPlanner.Say("cut-out-of-order", Severity.Note, bar.Name, $"Bar {bar.Name}: {last.Piece.FullName} is cut, and {string.Join(", ", missed)} before it not: the bar is counted as gone up to {CuttingPlanner.Mm(last.To)} mm.",
                    "If a length is left there, write it into the stock file as a remnant."));
            }

            var begun = bars.GetValueOrDefault(name) is { Gone: > 0 } known ? known.Gone + plan.Rules.Kerf : 0;
            Tell(new(name, row, begun + last.To, [.. pieces.Select(p => new SawnPiece(p.Piece.Drawing, p.Piece.Id, p.Piece.Length, sawn[p], begun + p.To))]));
        }

        foreach (var (name, heat) in Heats)
        {
            if (State(name, planned, steel, bars, rack, findings) is { } bar)
                Tell(bar with { Heat = heat.Trim() });
        }

        foreach (var name in Out)
        {
            if (State(name, planned, steel, bars, rack, findings) is { } bar)
                Tell(bar with { IsOut = true });
        }

        return (findings.Exists(f => f.Severity == Severity.Stop) ? null : plan.Log.And(told.Values) is var log && facts is null ? log : log.With(facts!), findings);

        void Tell(SawnBar bar) => told[bar.Name] = told.TryGetValue(bar.Name, out var before) ? before.And(bar) : bar;
    }

    // Which positions of the plan are sawn, and whether the piece is good. Pieces of earlier plans that were spoiled since are marked in their bars.
    private Dictionary<CutPosition, bool> Sawn(CuttingPlan plan, List<CutBar> planned, Dictionary<string, SawnBar> told, List<Finding> findings)
    {
        var positions = planned.SelectMany(b => b.Pieces).ToList();
        var sawn = new Dictionary<CutPosition, bool>(ReferenceEqualityComparer.Instance);
        foreach (var (mark, good) in Cut.Select(m => (m, true)).Concat(Spoiled.Select(m => (m, false))))
        {
            // The same piece told as cut and as spoiled is spoiled.
            var here = positions.FindAll(p => Names(mark, p.Piece.Drawing, p.Piece.Id));
            var earlier = plan.Log.Good.Where(p => Names(mark, p.Drawing, p.Id)).Select(p => p.FullName);
            var names = here.Select(p => p.Piece.FullName).Concat(earlier).Distinct(StringComparer.Ordinal).ToList();
            if (names.Count > 1)
            {
                Wrong(findings, "mark-of-several", mark, $"The mark {mark} stands on {string.Join(" and on ", names.Select(n => $"\"{n}\""))}.", "Name the piece by its drawing and mark.");
            }
            else if (names.Count == 0)
            {
                var known = plan.Log.Sawn.Any(p => Names(mark, p.Drawing, p.Id));
                Wrong(findings, "unknown-piece", mark, known ? $"The piece {mark} was told as spoiled before, and this plan does not cut it." : $"The plan has no piece {mark}.", "Look at the plan: which piece is it?");
            }
            else if (here.Find(p => !sawn.ContainsKey(p)) is { } next && (good || !here.Exists(p => sawn.GetValueOrDefault(p))))
            {
                sawn[next] = good;
            }
            else if (!good && here.Find(p => sawn.GetValueOrDefault(p)) is { } both)
            {
                sawn[both] = false;
            }
            else if (!good && here.Count == 0)
            {
                Spoil(plan.Log, told, names[0]);
            }
        }

        return sawn;
    }

    // The last cut of a piece that was good up to now.
    private static void Spoil(SawLog log, Dictionary<string, SawnBar> told, string name)
    {
        foreach (var bar in log.All.Reverse())
        {
            if (bar.Sawn.LastOrDefault(p => p.IsGood && p.FullName == name && told.GetValueOrDefault(bar.Name)?.Sawn.Any(p.IsSameCut) != true) is not { } at)
                continue;
            var spoiled = new SawnBar(bar.Name, bar.Row, 0, [at with { IsGood = false }]);
            told[bar.Name] = told.TryGetValue(bar.Name, out var before) ? before.And(spoiled) : spoiled;
            return;
        }
    }

    private static bool Names(string mark, string drawing, string id) =>
        mark.Equals(Piece.NameOf(drawing, id), StringComparison.OrdinalIgnoreCase)
        || mark.Equals($"{drawing}:{id}", StringComparison.OrdinalIgnoreCase)
        || mark.Equals(id, StringComparison.OrdinalIgnoreCase);

    // A bar's mark, or a plan's word for its rest, to the bar of the stock file.
    private static (string Name, string Row) Steel(string name, Dictionary<string, SawnBar> bars, Rack rack)
    {
        foreach (var bar in bars.Values)
        {
            if (bar.Rest.Equals(name, StringComparison.OrdinalIgnoreCase) || bar.Name.Equals(name, StringComparison.OrdinalIgnoreCase))
                return (bar.Name, bar.Row);
        }

        return (name, rack.RowOfBar(name)?.Id ?? throw new FormatException($"the plan cuts from bar {name}, and the stock file has no such bar: give the stock file that the first plan was made from."));
    }

    private static SawnBar? State(string name, List<CutBar> planned, Dictionary<CutBar, (string Name, string Row)> steel, Dictionary<string, SawnBar> bars, Rack rack, List<Finding> findings)
    {
        var at = planned.Find(b => b.Name.Equals(name, StringComparison.OrdinalIgnoreCase));
        if (at is not null && steel[at] is { Name.Length: > 0 } real)
            return new(real.Name, real.Row, 0, []);
        if (bars.Values.FirstOrDefault(b => b.Rest.Equals(name, StringComparison.OrdinalIgnoreCase) || b.Name.Equals(name, StringComparison.OrdinalIgnoreCase)) is { } known)
            return new(known.Name, known.Row, 0, []);
        if (rack.RowOfBar(name) is { } row)
            return new(name, row.Id, 0, []);
        Wrong(findings, "unknown-bar", name, $"Neither the plan nor the stock file has a bar {name}.", $"The plan's bars are: {Some(planned.Select(b => b.Name))}.");
        return null;
    }

    private static string Some(IEnumerable<string> names) => string.Join(", ", names.Take(12)) + (names.Skip(12).Any() ? " ..." : "");

    private static void Wrong(List<Finding> findings, string rule, string at, string message, string remedy) => findings.Add(CuttingPlanner.Say(rule, Severity.Stop, at, message, remedy));
}
