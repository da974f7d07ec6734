using Rootgap.Cutting;

namespace Rootgap.Tests.Cutting;

/// <summary>Shop rules, as a foreman would check them with a pencil. The arithmetic of each case stands beside it.</summary>
public class CuttingPlannerTest
{
    private static readonly PipeKind Six40 = PipeKind.Of("6", "40", "A106-B");

    private static Piece Cut(string id, double length, PipeKind? pipe = null) => new(id, "D1", pipe ?? Six40, length);

    private static StockBar OnHand(string id, double length, int quantity = 1, string heat = "") => new(id, Six40, length, quantity, StockSource.OnHand) { Heat = heat };

    private static StockBar Buy(double length) => new($"buy {length}", Six40, length, null, StockSource.Buy);

    private static CuttingPlan Plan(Piece[] pieces, StockBar[] bars, CuttingRules? rules = null)
    {
        var rack = new Rack(bars, rules ?? new CuttingRules());
        var plan = CuttingPlanner.Plan(pieces, rack, TimeSpan.FromMinutes(1), stop: TestContext.Current.CancellationToken);
        PlanChecker.Check(plan, pieces, rack);
        return plan;
    }

    [Fact]
    public void A_piece_as_long_as_the_bar_needs_no_cut()
    {
        var bar = Assert.Single(Plan([Cut("A", 6000)], [Buy(6000)]).Groups[0].Bars);
        Assert.Equal((0.0, 0.0), (bar.Kerf, bar.Remnant));
    }

    [Fact]
    public void Two_pieces_and_the_kerf_between_them_fill_a_bar()
    {
        // 2998.5 + 3 + 2998.5 = 6000.
        var bar = Assert.Single(Plan([Cut("A", 2998.5), Cut("B", 2998.5)], [Buy(6000)]).Groups[0].Bars);
        Assert.Equal(3, bar.Kerf, 1e-9);
        Assert.Equal([0.0, 3001.5], bar.Pieces.Select(p => p.From));
    }

    [Fact]
    public void A_hundredth_of_a_millimetre_too_much_takes_a_second_bar()
    {
        Assert.Equal(2, Plan([Cut("A", 2998.5), Cut("B", 2998.51)], [Buy(6000)]).Groups[0].Bars.Count);
    }

    [Fact]
    public void Mill_ends_are_trimmed_and_remnants_are_not()
    {
        // 6000 - 2 x 10 = 5980 of a full length; all 5985 of the remnant.
        var rules = new CuttingRules { EndTrim = 10 };
        var plan = Plan([Cut("A", 5985)], [Buy(6000), new StockBar("R", Six40, 5985, 1, StockSource.Remnant)], rules);
        Assert.Equal("R", plan.Groups[0].Bars[0].Name);
        Assert.Equal("A", Assert.Single(Plan([Cut("A", 5985)], [Buy(6000)], rules).Unplaced).Piece.Id);
    }

    [Fact]
    public void Each_faced_end_loses_its_loss()
    {
        // (2990 + 2 x 2) + 3 + (2990 + 2 x 2) = 5991; with 2996: 6003, too long for one bar.
        var rules = new CuttingRules { FacingLoss = 2 };
        Assert.Single(Plan([Cut("A", 2990) with { FacedEnds = 2 }, Cut("B", 2990) with { FacedEnds = 2 }], [Buy(6000)], rules).Groups[0].Bars);
        Assert.Equal(2, Plan([Cut("A", 2996) with { FacedEnds = 2 }, Cut("B", 2996) with { FacedEnds = 2 }], [Buy(6000)], rules).Groups[0].Bars.Count);
    }

    [Fact]
    public void Fewest_bars_or_least_steel_comes_first_as_the_order_says()
    {
        // Two of 3000 and a kerf: one bar of 12000, or two of 3010.
        var bars = new[] { Buy(12000), Buy(3010) };
        var few = Plan([Cut("A", 3000), Cut("B", 3000)], bars, new CuttingRules { Order = With(CuttingAim.Bars) });
        Assert.Equal(12000, Assert.Single(few.Groups[0].Bars).Stock.Length);
        var cheap = Plan([Cut("A", 3000), Cut("B", 3000)], bars, new CuttingRules { Order = With(CuttingAim.Cost) });
        Assert.Equal(6020, cheap.Groups[0].Used);
        Assert.True(cheap.Groups[0].IsProven);
        Assert.Equal(6020, Plan([Cut("A", 3000), Cut("B", 3000)], bars).Groups[0].Used);
    }

    private static CuttingAim[] With(CuttingAim first) => [first, .. Enum.GetValues<CuttingAim>().Where(a => a != first)];

    [Fact]
    public void What_the_shop_has_is_used_before_anything_is_bought_remnants_first()
    {
        // 120 remnants of 1100 to 1695 mm hold 150 pieces of 500: nothing is bought, no full bar is begun.
        StockBar[] bars = [.. Enumerable.Range(0, 120).Select(i => new StockBar($"O{i}", Six40, 1100 + (5 * i), 1, StockSource.Remnant)), OnHand("R", 6000, 10), Buy(12000)];
        var plan = Plan([.. Enumerable.Range(0, 150).Select(i => Cut($"P{i}", 500))], bars);
        Assert.Empty(plan.Purchases);
        Assert.All(plan.Groups[0].Bars, b => Assert.Equal(StockSource.Remnant, b.Stock.Source));
        Assert.Equal((0m, 0m), (plan.Groups[0].Goals[0].Value, plan.Groups[0].Goals[1].Value));

        // Without the remnants the rack's full bars are used: 150 x 503 = 75450 in 6003 each hold 11: 14 bars, 10 of them from the rack, and 36 m more: 40 pieces, two of 12000.
        var full = Plan([.. Enumerable.Range(0, 150).Select(i => Cut($"P{i}", 500))], bars[120..]);
        Assert.Equal((10, 2), (full.Groups[0].Bars.Count(b => b.Stock.Source == StockSource.OnHand), full.Purchases.Single().Count));
        Assert.True(full.Groups[0].IsProven);
    }

    [Fact]
    public void An_exact_fit_in_sixtyfourths_of_an_inch_fits()
    {
        // 20 ft less two kerfs of 1/8 in. is 239 3/4 in.: 80 1/64, 79 7/8 and 79 55/64 in. fill it to the end.
        const double inch = 25.4;
        var rules = new CuttingRules { Kerf = inch / 8 };
        Piece[] pieces = [Cut("A", (80 + (1 / 64.0)) * inch), Cut("B", (79 + (7 / 8.0)) * inch), Cut("C", (79 + (55 / 64.0)) * inch)];
        var bar = Assert.Single(Plan(pieces, [Buy(240 * inch)], rules).Groups[0].Bars);
        Assert.Equal(0, bar.Remnant);
        Assert.Equal(2, Plan([.. pieces[..2], pieces[2] with { Length = (79 + (56 / 64.0)) * inch }], [Buy(240 * inch)], rules).Groups[0].Bars.Count);
    }

    [Fact]
    public void Costs_are_added_up_as_they_are_given()
    {
        // 34.21 a metre, 6 m: 205.26; 12 m at 34.20: 410.40. Four of 2990: two of 6 m are 410.52, one of 12 m holds 4 x 2993 = 11972: 410.40.
        var plan = Plan(
            [.. Enumerable.Range(0, 4).Select(i => Cut($"P{i}", 2990))],
            [Buy(6000) with { Cost = 34.21 }, Buy(12000) with { Cost = 34.20 }]);
        Assert.Equal((410.40m, 410.40m, true), (plan.Groups[0].Cost, plan.Groups[0].LeastCost, plan.Groups[0].IsProven));
    }

    [Fact]
    public void Of_plans_with_as_many_bars_the_cheapest_is_taken_and_the_rack_before_the_shop()
    {
        var plan = Plan([Cut("A", 2000)], [Buy(6000), OnHand("R1", 6000), OnHand("R2", 12000)]);
        Assert.Equal("R1", plan.Groups[0].Bars[0].Name);
        Assert.Empty(plan.Purchases);
        Assert.True(plan.Groups[0].IsProven);
    }

    [Fact]
    public void What_is_left_is_one_long_remnant_rather_than_two_short_ones()
    {
        // 2 bars of 6000 for 2000, 2000, 1900, 1900, 1000: 2000 + 2000 + 1900 + 2 x 3 = 5906 is the fullest; the rest leaves 3094 (1900 + 1000 + 2 x 3).
        var plan = Plan([Cut("A", 2000), Cut("B", 2000), Cut("C", 1900), Cut("D", 1900), Cut("E", 1000)], [OnHand("R", 6000, 2)]);
        Assert.Equal(3094, plan.Groups[0].Bars.Max(b => b.Remnant), 0.02);
    }

    [Fact]
    public void A_piece_is_never_cut_from_another_schedule_or_material()
    {
        var plan = Plan(
            [Cut("A", 500, PipeKind.Of("6", "80", "A106-B")), Cut("B", 500, PipeKind.Of("6", "40", "A312-TP304L")), Cut("C", 500, PipeKind.Of("4", "40", "A106-B")), Cut("D", 500)],
            [OnHand("R", 6000)]);
        Assert.Equal("D", Assert.Single(Assert.Single(plan.Groups[0].Bars).Pieces).Piece.Id);
        Assert.Equal("A B C", string.Join(' ', plan.Unplaced.Select(u => u.Piece.Id).Order(StringComparer.Ordinal)));
        Assert.Contains("not in 80", plan.Unplaced.Single(u => u.Piece.Id == "A").Why, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("DN150", "sch 40", "a106-b")]
    [InlineData("6\"", "Schedule 40", "A106-B ")]
    public void Spellings_of_the_same_pipe_are_the_same(string size, string schedule, string material) =>
        Assert.Equal(Six40, PipeKind.Of(size, schedule, material));

    [Theory]
    [InlineData(0)]
    [InlineData(-5)]
    [InlineData(double.NaN)]
    [InlineData(double.PositiveInfinity)]
    public void A_piece_without_a_length_is_named_and_the_others_are_planned(double length)
    {
        var plan = CuttingPlanner.Plan([Cut("A", length), Cut("B", 100)], new Rack([Buy(6000)], new CuttingRules()), TimeSpan.FromMinutes(1), stop: TestContext.Current.CancellationToken);
        Assert.Equal("A", Assert.Single(plan.Unplaced).Piece.Id);
        Assert.Single(plan.Groups[0].Bars);
    }

    [Fact]
    public void A_piece_longer_than_any_bar_is_named_with_the_longest()
    {
        var plan = Plan([Cut("A", 7000)], [Buy(6000)]);
        Assert.Contains("6000 mm", Assert.Single(plan.Unplaced).Why, StringComparison.Ordinal);
    }

    [Fact]
    public void Too_little_stock_is_proven_and_the_rest_is_cut()
    {
        // 3 x 2500 do not go into 6000 + 1000.
        var plan = Plan([Cut("A", 2500), Cut("B", 2500), Cut("C", 2500)], [OnHand("R", 6000), OnHand("S", 1000)]);
        Assert.Contains("proven", Assert.Single(plan.Unplaced).Why, StringComparison.Ordinal);
        Assert.Equal(2, plan.Groups[0].Bars.Sum(b => b.Pieces.Count));
    }

    [Fact]
    public void A_given_heat_is_kept_even_when_it_costs_a_bar()
    {
        var plan = Plan([Cut("A", 2000) with { Heat = "H2" }, Cut("B", 2000)], [OnHand("R1", 6000, heat: "H1"), OnHand("R2", 3000, heat: "h2")]);
        Assert.Equal(2, plan.Groups[0].Bars.Count);
        Assert.Equal("R2", plan.Groups[0].Bars.Single(b => b.Pieces.Any(p => p.Piece.Id == "A")).Name);
        Assert.True(plan.Groups[0].IsProven);
    }

    [Fact]
    public void A_spool_that_must_be_of_one_heat_gets_one_heat()
    {
        // Without the rule 3 pieces of 3000 go into the two 6000 bars; heat H1 has only one of them, heat H2 has 2 x 6000.
        Piece[] pieces = [.. Enumerable.Range(0, 3).Select(i => Cut($"P{i}", 2900) with { OneHeat = "spool 1" })];
        var plan = Plan(pieces, [OnHand("R1", 6000, heat: "H1"), OnHand("R2", 6000, 2, heat: "H2")]);
        Assert.All(plan.Groups[0].Bars, b => Assert.Equal("H2", b.Stock.Heat));
        Assert.True(plan.Groups[0].IsProven);
    }

    [Fact]
    public void Bars_to_buy_may_be_of_any_heat_so_a_set_of_one_heat_goes_into_one_of_them()
    {
        Piece[] pieces = [Cut("A", 2500) with { OneHeat = "x" }, Cut("B", 2500) with { OneHeat = "x" }, Cut("C", 3400), Cut("D", 3400)];
        var plan = Plan(pieces, [Buy(6000)]);
        var bar = Assert.Single(plan.Groups[0].Bars, b => b.Pieces.Any(p => p.Piece.Id == "A"));
        Assert.Contains(bar.Pieces, p => p.Piece.Id == "B");
        Assert.Equal(3, plan.Groups[0].Bars.Count);
    }

    [Fact]
    public void Urgent_pieces_are_cut_first()
    {
        var plan = Plan([Cut("A", 5000), Cut("B", 5000), Cut("C", 900) with { Priority = -1 }, Cut("D", 900)], [Buy(6000)]);
        Assert.Equal("C", plan.Groups[0].Bars[0].Pieces[0].Piece.Id);
    }

    [Fact]
    public void Few_set_ups_first_take_another_bar_and_its_price_is_told()
    {
        // 3 of 3100, 3 of 2800 and 5 of 1450, 3 mm kerf, bars of 6000. By bars: 3 x (3100 + 2800 + 3 = 5903), 4 x 1450 + 9 = 5809 and the last 1450: five bars, three
        // set-ups. Few set-ups first: the 1450 one by one, two set-ups in eight bars. One bar cannot hold all three lengths: fewer than two there are not.
        Assert.Equal((3, 5), Of(CuttingAim.Bars, (3100, 3), (2800, 3), (1450, 5)));
        var few = Plan([.. Many((3100, 3), (2800, 3), (1450, 5))], [Buy(6000)], First(CuttingAim.SetUps)).Groups[0];
        Assert.Equal((2, 8), (few.Plans, few.NewBars));
        Assert.False(few.IsProven);
        Assert.Equal("fewest set-ups; for them length of what is bought may be 60.00 % above the least possible", few.Verdict);

        (int, int) Of(CuttingAim first, params (double, int)[] wanted)
        {
            var group = Plan([.. Many(wanted)], [Buy(6000)], First(first)).Groups[0];
            return (group.Plans, group.NewBars);
        }

        static CuttingRules First(CuttingAim first) => new() { Order = [first, .. Enum.GetValues<CuttingAim>().Where(a => a != first)] };

        static IEnumerable<Piece> Many(params (double Length, int Count)[] wanted) => wanted.SelectMany(w => Enumerable.Range(0, w.Count).Select(n => Cut($"{w.Length}-{n}", w.Length)));
    }

    [Fact]
    public void The_rack_after_the_cuts_has_the_remnants_and_not_the_bars()
    {
        // 6000 - 4000 - 3 = 1997 is kept; the second bar on the rack stays.
        var plan = Plan([Cut("A", 4000)], [OnHand("R", 6000, 2, "H9")]);
        Assert.Collection(plan.RackAfter,
            b => Assert.Equal(("R", 6000.0, 1, "R#1"), (b.Id, b.Length, b.Left, Assert.Single(b.Gone))),
            b => Assert.Equal((1997.0, "H9", StockSource.Remnant), (b.Length, b.Heat, b.Source)));
    }

    // 6000 - 4000.005 - 3 = 1996.995: a remnant is never written down longer than it is.
    [Fact]
    public void A_remnant_is_rounded_down() =>
        Assert.Equal(1996.99, Assert.Single(Plan([Cut("A", 4000.005)], [OnHand("R", 6000)]).RackAfter).Length, 1e-9);

    // A begun bar that the plan leaves alone has a mill end yet: 1000 - 10 of it can be used, and the rack says so.
    [Fact]
    public void A_begun_bar_that_is_left_alone_goes_back_without_its_mill_end()
    {
        var begun = new StockBar("B", Six40, 1000, 1, StockSource.Begun) { FarEndIsMill = true };
        var plan = Plan([Cut("A", 5980)], [begun, OnHand("R", 6000)], new CuttingRules { EndTrim = 10 });
        Assert.Equal((990.0, StockSource.Remnant), plan.RackAfter.Select(b => (b.Length, b.Source)).Single());
    }

    // 10 are trimmed at the far end of a begun bar: 1000 - 10 hold a piece of 990 and none of 991.
    [Fact]
    public void A_begun_bar_is_trimmed_at_its_mill_end_only()
    {
        var begun = new StockBar("B", Six40, 1000, 1, StockSource.Begun) { FarEndIsMill = true };
        var bar = Assert.Single(Plan([Cut("A", 900)], [begun], new CuttingRules { EndTrim = 10 }).Groups[0].Bars);
        Assert.Equal((0.0, 87.0), (bar.Pieces[0].From, bar.Remnant));
        Assert.Empty(Plan([Cut("A", 990)], [begun], new CuttingRules { EndTrim = 10 }).Unplaced);
        Assert.Single(Plan([Cut("A", 991)], [begun], new CuttingRules { EndTrim = 10 }).Unplaced);
    }

    // A plan is no better than itself; than one that leaves a piece out, or takes a bar more, it is.
    [Fact]
    public void A_better_plan_places_more_or_takes_less()
    {
        var (one, two, less) = (Plan([Cut("A", 2900), Cut("B", 2900)], [Buy(6000)]), Plan([Cut("A", 2900), Cut("B", 2900)], [Buy(3000)]), Plan([Cut("A", 2900), Cut("B", 7000)], [Buy(6000)]));
        Assert.False(one.IsBetterThan(one));
        Assert.Equal((true, false), (one.IsBetterThan(two), two.IsBetterThan(one)));
        Assert.Equal((true, false), (two.IsBetterThan(less), less.IsBetterThan(two)));
    }

    // 10 come off the one mill end of a begun bar of 3000: a piece of 2990.5 is half a millimetre too long for it, and takes a second bar beside the one that 5980 fill.
    [Fact]
    public void What_is_missing_on_a_begun_bar_counts_its_one_mill_end()
    {
        var begun = new StockBar("B", Six40, 3000, 1, StockSource.Begun) { FarEndIsMill = true };
        var plan = Plan([Cut("A", 2990.5), Cut("C", 5980)], [begun, Buy(6000)], new CuttingRules { EndTrim = 10 });
        Assert.Contains("0.50 mm short of one bar less", Assert.Single(plan.Findings, f => f.Rule == "nearly-one-bar-less").Message, StringComparison.Ordinal);
    }

    [Fact]
    public void Pieces_without_a_material_take_the_only_one_there_is_and_say_so()
    {
        var plan = Plan([Cut("A", 500, PipeKind.Of("6", "40", ""))], [OnHand("R", 6000)]);
        Assert.Equal("material-not-given", Assert.Single(plan.Findings).Rule);
        var two = Plan([Cut("A", 500, PipeKind.Of("6", "40", ""))], [OnHand("R", 6000), new StockBar("S", PipeKind.Of("6", "40", "A53"), 6000, 1, StockSource.OnHand)]);
        Assert.Single(two.Unplaced);
    }

    private static readonly Gen<(Piece[] Pieces, StockBar[] Bars, CuttingRules Rules)> Jobs =
        from lengths in Gen.Double[50, 5500].Array[1, 25]
        from heats in Gen.Int[0, 6].Array[25]
        from sets in Gen.Int[0, 8].Array[25]
        from stock in Gen.Double[800, 6000].Array[0, 8]
        from quantities in Gen.Int[1, 3].Array[8]
        from stockHeats in Gen.Int[0, 2].Array[8]
        from kerf in Gen.Int[0, 2].Select(i => ((double[])[0, 1.6, 3])[i])
        from trim in Gen.Bool.Select(b => b ? 10.0 : 0)
        from buys in Gen.Bool
        select (
            lengths.Select((l, i) => Cut($"P{i}", Math.Round(l, 1)) with { Heat = heats[i] == 1 ? "H1" : "", OneHeat = sets[i] < 2 ? $"set {sets[i]}" : "", FacedEnds = i % 3 }).ToArray(),
            (StockBar[])[.. stock.Select((l, i) => OnHand($"R{i}", Math.Round(l), quantities[i], stockHeats[i] == 0 ? "" : $"H{stockHeats[i]}")), .. buys ? new[] { Buy(6000) } : []],
            new CuttingRules { Kerf = kerf, EndTrim = trim, FacingLoss = 1 });

    [Fact]
    public void Any_job_gives_a_plan_that_adds_up_and_is_the_same_when_made_again() => Jobs.Holds(
        job =>
        {
            var rack = new Rack(job.Bars, job.Rules);
            var plan = CuttingPlanner.Plan(job.Pieces, rack, TimeSpan.FromMinutes(1), stop: TestContext.Current.CancellationToken);
            PlanChecker.Check(plan, job.Pieces, rack);
            var again = CuttingPlanner.Plan(job.Pieces, rack, TimeSpan.FromMinutes(1), stop: TestContext.Current.CancellationToken);
            Assert.Equal(Text(plan), Text(again));
        },
        iter: 60, threads: 1);

    private static string Text(CuttingPlan plan) =>
        string.Join('\n', plan.Groups.SelectMany(g => g.Bars).Select(b => b.Name + ":" + string.Join(',', b.Pieces.Select(p => p.Piece.Id))));

    [Fact]
    public void A_search_that_is_stopped_at_once_still_gives_a_plan_and_a_bound()
    {
        Piece[] pieces = [.. Enumerable.Range(0, 300).Select(i => Cut($"P{i}", 400 + ((i * 7919) % 3500)))];
        var rack = new Rack([Buy(6000)], new CuttingRules());
        using var stop = new CancellationTokenSource();
        stop.Cancel();
        var plan = CuttingPlanner.Plan(pieces, rack, TimeSpan.FromMinutes(1), stop: stop.Token);
        PlanChecker.Check(plan, pieces, rack);
        Assert.Empty(plan.Unplaced);
        Assert.True(0 < plan.Groups[0].LeastBars);
    }
}
