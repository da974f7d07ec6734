using Rootgap.Cutting;

namespace Rootgap.Tests.Cutting;

/// <summary>Checks a plan from outside, by adding up: it knows nothing of how the plan was made.</summary>
internal static class PlanChecker
{
    private const double Hair = 0.011; // the planner counts in hundredths of a millimetre

    public static void Check(CuttingPlan plan, IReadOnlyList<Piece> pieces, Rack rack)
    {
        var rules = rack.Rules;

        // Every piece once: on a bar or among the unplaced, with a reason.
        var wanted = pieces.Select(p => p.FullName + "|" + p.Length.ToString("R", null)).Order(StringComparer.Ordinal);
        var found = plan.Groups.SelectMany(g => g.Bars).SelectMany(b => b.Pieces).Select(p => p.Piece).Concat(plan.Unplaced.Select(u => u.Piece))
            .Select(p => p.FullName + "|" + p.Length.ToString("R", null)).Order(StringComparer.Ordinal);
        Assert.Equal(wanted, found, StringComparer.Ordinal);
        Assert.All(plan.Unplaced, u => Assert.NotEqual("", u.Why));

        // No bar more often than the rack has it, no physical bar twice.
        var bars = plan.Groups.SelectMany(g => g.Bars).ToList();
        Assert.Equal(bars.Count, bars.Select(b => b.Name).Distinct(StringComparer.Ordinal).Count());
        foreach (var use in bars.GroupBy(b => b.Stock.Id, StringComparer.Ordinal))
        {
            var row = Assert.Single(rack.Bars, b => b.Id == use.Key);
            Assert.True(row.Left is null || use.Count() <= row.Left, $"bar {use.Key} is used {use.Count()} times");
        }

        foreach (var group in plan.Groups)
        {
            foreach (var bar in group.Bars)
                CheckBar(group, bar, rules);
            Assert.True(group.LeastBars <= group.NewBars, "the bound is above the plan");
            Assert.True(group.LeastSteel <= group.Used + Hair, "the bound of steel is above the plan");
            Assert.All(group.Goals, g => Assert.True(g.Bound <= g.Value, $"the bound of {g.Says} is above the plan"));
            Assert.True(!group.IsProven || group.Goals.All(g => g.IsBest || g.Aim is CuttingAim.NetCost or CuttingAim.Remnants or CuttingAim.SetUps), "proven, but not at its bound");
        }

        // Pieces that must be of one heat are: one heat number, or one bar.
        foreach (var set in bars.SelectMany(b => b.Pieces.Select(p => (Bar: b, p.Piece))).Where(p => p.Piece.OneHeat.Length > 0).GroupBy(p => p.Piece.OneHeat, StringComparer.Ordinal))
        {
            var heats = set.Select(p => p.Bar.Stock.Heat.Length > 0 ? "heat " + p.Bar.Stock.Heat.ToUpperInvariant() : "bar " + p.Bar.Name).Distinct(StringComparer.Ordinal);
            Assert.Single(heats);
        }
    }

    private static void CheckBar(CutGroup group, CutBar bar, CuttingRules rules)
    {
        Assert.NotEmpty(bar.Pieces);
        Assert.Equal(group.Pipe, bar.Stock.Pipe);
        var mill = bar.Stock.Source is StockSource.OnHand or StockSource.Buy;
        var from = mill ? rules.EndTrim : 0;
        var end = bar.Stock.Length - (mill || (bar.Stock.Source == StockSource.Begun && bar.Stock.FarEndIsMill) ? rules.EndTrim : 0);
        double kerfs = 0;
        foreach (var (i, p) in bar.Pieces.Index())
        {
            Assert.Equal(bar.Stock.Pipe.Size, p.Piece.Pipe.Size);
            Assert.Equal(bar.Stock.Pipe.Schedule, p.Piece.Pipe.Schedule);
            Assert.True(p.Piece.Pipe.Material.Length == 0 || p.Piece.Pipe.Material == bar.Stock.Pipe.Material);
            Assert.True(p.Piece.Heat.Length == 0 || p.Piece.Heat.Equals(bar.Stock.Heat, StringComparison.OrdinalIgnoreCase), $"{p.Piece.Id} is not from its heat");
            Assert.Equal(from, p.From, Hair);
            Assert.Equal(p.From + p.Piece.Length + (p.Piece.FacedEnds * rules.FacingLoss), p.To, Hair);
            Assert.True(p.To <= end + Hair, $"{p.Piece.Id} ends beyond the bar");
            from = p.To;
            var last = i == bar.Pieces.Count - 1;
            var cut = last ? Math.Clamp(end - from, 0, rules.Kerf) : rules.Kerf;
            kerfs += cut;
            from += cut;
        }

        Assert.Equal(kerfs, bar.Kerf, Hair * bar.Pieces.Count);
        Assert.Equal(Math.Max(0, end - from), bar.Remnant, Hair * bar.Pieces.Count);
        Assert.Equal(rules.ShortestRemnant <= bar.Remnant + 1e-6 ? bar.Remnant : 0, bar.KeptRemnant, Hair);
    }
}
