using System.Text;
using Rootgap.Cutting;
using Rootgap.Findings;
using Rootgap.Measure;
using Rootgap.Sheets;
using Rootgap.Tests.Sheets;

namespace Rootgap.Tests.Cutting;

/// <summary>What goes to the saw, to the merchant and onto the pieces. Sums beside the checks are done by hand.</summary>
public class CuttingSheetsTest
{
    private static readonly PipeKind Six = PipeKind.Of("6", "40", "A106-B");

    private static CuttingPlan Plan(Piece[] pieces, StockBar[] bars, CuttingRules? rules = null) =>
        CuttingPlanner.Plan(pieces, new Rack(bars, rules ?? new()), TimeSpan.FromMinutes(1), stop: TestContext.Current.CancellationToken);

    private static List<string> Words(IEnumerable<Page> pages) => [.. new Booklet("x", pages).Scenes().SelectMany(s => Drawn.Texts(s.Marks)).Select(t => t.Content)];

    private static StockBar[] Sold =>
    [
        new("N6", Six, 6000, null, StockSource.Buy) { Cost = 40, Supplier = "North Yard", Certificate = "EN 10204 3.1" },
        new("N12", Six, 12000, null, StockSource.Buy) { Cost = 41, Supplier = "Harbour" },
    ];

    [Fact]
    public void What_to_buy_is_added_up_by_supplier_with_what_another_length_would_cost()
    {
        // Three of 5000: three bars of 6 m at 240.00 are 720; one of 12 m at 492.00 for two and one of 6 m are 732; two of 12 m are 984.
        var plan = Plan([.. Enumerable.Range(0, 3).Select(i => new Piece($"P{i}", "D", Six, 5000))], Sold);
        var buy = Assert.Single(plan.Purchases);
        Assert.Equal((3, 240m, 720m, "North Yard", "EN 10204 3.1", 720m), (buy.Count, buy.CostEach, buy.Cost, buy.Supplier, buy.Certificate, plan.PurchaseCost));
        Assert.Equal([(6000.0, 3, 720m), (12000.0, 2, 984m)], plan.Groups[0].Otherwise.Select(o => (o.Length, o.Bars, o.Cost)));
        var csv = new StringWriter();
        CuttingPlanTables.Csv(csv, CuttingPlanTables.Rows(plan.Purchases));
        Assert.Contains("6,40,A106-B,6000,3,18,240", csv.ToString(), StringComparison.Ordinal);
        var none = new StringWriter();
        CuttingPlanTables.Csv(none, CuttingPlanTables.Rows(Array.Empty<Purchase>()), CuttingPlanTables.ToBuy);
        Assert.StartsWith(none.ToString().TrimEnd(), csv.ToString(), StringComparison.Ordinal);
        Assert.Contains("720.00", Words(CuttingPages.Of(plan, Paper.A4)));
    }

    [Fact]
    public void What_is_bought_for_several_jobs_is_shared_by_the_steel_of_each_to_the_cent()
    {
        // A bar of 6 m at 240.00 gives 3000 for the north and 2000 for the south: 3/5 and 2/5.
        var shared = Assert.Single(Plan([new("A", "D", Six, 3000) { Job = "north" }, new("B", "E", Six, 2000) { Job = "south" }], Sold).Purchases);
        Assert.Equal([("north", 60m, 144m), ("south", 40m, 96m)], shared.Jobs.Select(j => (j.Job, j.Percent, j.Cost!.Value)));

        // Three alike at 100.00: a third of it has no cents, and yet they add up.
        var plan = Plan([.. Enumerable.Range(0, 3).Select(i => new Piece($"P{i}", "D", Six, 1000) { Job = $"j{i}" })], [new("N", Six, 4000, null, StockSource.Buy) { Cost = 25 }]);
        Assert.Equal(100m, plan.SharedByJob.Sum(j => j.Cost));
        Assert.Equal([33.33m, 33.33m, 33.34m], plan.SharedByJob.Select(j => j.Cost!.Value).Order());
        Assert.Equal(100.0, (double)plan.SharedByJob.Sum(j => j.Percent), 1e-9);
        Assert.Contains("Shared among the jobs, each bar by the length of the pieces that are cut from it:", Words(CuttingPages.Of(plan, Paper.A4)));
        Assert.Empty(Plan([new("A", "D", Six, 3000)], Sold).SharedByJob);
    }

    // A piece of 2000 that is faced at both ends is sawn to 2010: of 2010 and 1005, two thirds.
    [Fact]
    public void A_job_bears_what_the_saw_takes_for_it()
    {
        var bought = Assert.Single(Plan([new("A", "D", Six, 2000) { Job = "north", FacedEnds = 2 }, new("B", "E", Six, 1005) { Job = "south" }], Sold, new() { FacingLoss = 5 }).Purchases);
        Assert.Equal([200.0 / 3, 100.0 / 3], bought.Jobs.Select(j => (double)j.Percent), (a, b) => Math.Abs(a - b) < 1e-9);
    }

    // Without prices by the metre: two bars of 6 m of NPS 6 are the north's, one of 6 m of NPS 4 the south's.
    [Fact]
    public void Where_nothing_has_a_price_jobs_share_by_the_metres_that_are_bought()
    {
        var four = PipeKind.Of("4", "40", "A106-B");
        var plan = Plan([new("A", "D", Six, 5000) { Job = "north" }, new("B", "D", Six, 5000) { Job = "north" }, new("C", "E", four, 5000) { Job = "south" }],
            [new("N6", Six, 6000, null, StockSource.Buy), new("N4", four, 6000, null, StockSource.Buy)]);
        Assert.Equal([("north", 66.7), ("south", 33.3)], plan.SharedByJob.Select(j => (j.Job, Math.Round((double)j.Percent, 1))));
    }

    // A bar of 6000 of which 3000 are cut, 5 are trimmed and 3 sawn: 2992 are kept, and 8 of 6000 are lost.
    [Fact]
    public void What_is_kept_is_no_waste()
    {
        var group = Plan([new("A", "D", Six, 3000)], [new("N6", Six, 6000, 1, StockSource.OnHand)], new() { Kerf = 3, EndTrim = 5, ShortestRemnant = 500 }).Groups.Single();
        var kept = group.Bars.Sum(b => b.KeptRemnant);
        Assert.InRange(kept, 2980, 2997);
        Assert.Equal(100 * (6000 - 3000 - kept) / 6000, group.WastePercent, 1e-9);
        Assert.True(group.WastePercent < 0.4);
    }

    [Fact]
    public void Where_the_stock_file_is_in_inches_the_saw_reads_feet_and_sixteenths()
    {
        var rack = RackReader.Read(Encoding.UTF8.GetBytes("units: in\nrules: {kerf: 1/8}\nstock:\n  - {id: R, size: 6, schedule: 40, material: A106-B, length: 20'}\n"), "rack.yaml").Rack!;
        // 19'-2 3/8" is 230.375 in.; with the kerf of 1/8 the rest is 240 - 230.5 = 9 1/2 in., and scrap.
        var plan = CuttingPlanner.Plan([new("A", "D", Six, 230.375 * 25.4)], rack, TimeSpan.FromMinutes(1), stop: TestContext.Current.CancellationToken);
        var words = Words(CuttingPages.Of(plan, Paper.Letter));
        Assert.Contains("19'-2 3/8\"", words);
        Assert.Contains("9 1/2\"", words);
        Assert.Contains("Used, ft", words);
        Assert.Contains("19'-2 3/8\"", Words(CuttingLabels.Of(plan, Paper.Letter)));

        // The stock after it is in inches, too, and nothing is rounded.
        using var after = new StringWriter();
        CuttingPlanTables.Yaml(after, rack, plan with { RackAfter = [new("O", Six, 230.375 * 25.4, 1, StockSource.Remnant)] });
        var again = RackReader.Read(Encoding.UTF8.GetBytes(after.ToString()), "rack.yaml").Rack!;
        Assert.Equal((230.375 * 25.4, 25.4 / 8, Units.Inches), (again.Bars[0].Length, again.Rules.Kerf, again.Rules.Units));
    }

    [Fact]
    public void Every_piece_and_every_remnant_has_a_label_with_its_heat_and_its_ends()
    {
        Piece[] pieces = [new("1-A", "CHW-1", Six, 2000) { AtStart = "bevel, W1", AtEnd = "plain, W2" }, new("1-A", "CHW-2", Six, 1500) { NotForFabrication = true }];
        var plan = Plan(pieces, [new("R", Six, 6000, 1, StockSource.OnHand) { Heat = "H47" }]);
        var words = Words(CuttingLabels.Of(plan, Paper.A4));
        // 6000 - 2000 - 1500 - 2 x 3 = 2494 is kept, under the name that the rack has it by.
        Assert.Equal(["2000.0 mm", "1500.0 mm", "2494.0 mm"], words.Where(w => w.EndsWith(" mm", StringComparison.Ordinal)));
        Assert.Contains("CHW-1 1-A", words);
        Assert.Contains("ends: bevel, W1 / plain, W2", words);
        Assert.Equal(3, words.Count(w => w == "heat H47"));
        var remnant = Assert.Single(plan.RackAfter, b => b.Source == StockSource.Remnant);
        Assert.Contains($"Remnant {remnant.Id}", words);
        Assert.Contains(words, w => w.Contains($"keep: {remnant.Id}", StringComparison.Ordinal) || w == "NOT FOR FABRICATION");
        Assert.Contains($"keep: {remnant.Id}", Words(CuttingPages.Of(plan, Paper.A4)));
    }

    [Fact]
    public void Nothing_overlaps_the_edge_of_a_label_and_all_stand_on_the_paper()
    {
        Piece[] pieces = [.. Enumerable.Range(0, 40).Select(i => new Piece($"12-{(char)('A' + (i % 26))}{i}", "AREA-0815-CHW-118-01", Six, 200 + i) { AtStart = "threaded, W118", AtEnd = "bevel, W119" })];
        var plan = Plan(pieces, [new("R", Six, 6000, 4, StockSource.OnHand)]);
        foreach (var paper in (Paper[])[Paper.A4, Paper.Letter])
        {
            foreach (var scene in new Booklet("x", CuttingLabels.Of(plan, paper)).Scenes())
                Assert.All(Drawn.Texts(scene.Marks), t => Assert.InRange(t.At.X, 0, paper.Width));
        }
    }

    // Sizes of label rolls and tags as they are sold: common practice.
    [Theory]
    [InlineData("100x50", 100, 50)]
    [InlineData("62 x 40", 62, 40)]
    [InlineData("100x150", 100, 150)]
    public void On_label_stock_each_label_is_a_page_of_that_size_with_all_its_words(string size, double width, double height)
    {
        Piece[] pieces = [new("12-A", "AREA-0815-CHW-118-01", Six, 2000) { AtStart = "threaded, W118", AtEnd = "bevel, W119" }, new("1-A", "CHW-2", Six, 1500)];
        var plan = Plan(pieces, [new("R", Six, 6000, 1, StockSource.OnHand) { Heat = "H47" }]);
        Assert.True(CuttingLabels.TrySize(size, out var stock, out _));
        using var file = new MemoryStream();
        CuttingLabels.WritePdf(file, plan, Paper.A4, stock);
        // Read back with another library (PdfPig): points of 1/72 in.
        using var pdf = UglyToad.PdfPig.PdfDocument.Open(file.ToArray());
        Assert.Equal(3, pdf.NumberOfPages);
        foreach (var page in pdf.GetPages())
        {
            Assert.Equal((width, height), (Math.Round(page.Width / 72 * 25.4, 1), Math.Round(page.Height / 72 * 25.4, 1)));
            Assert.All(page.Letters, l => Assert.True(l.BoundingBox.Left >= 0 && l.BoundingBox.Right <= page.Width && l.BoundingBox.Bottom >= 0 && l.BoundingBox.Top <= page.Height, page.Text));
            Assert.Contains("H47", page.Text, StringComparison.Ordinal);
        }
    }

    [Theory]
    [InlineData("100", "no size of a label")]
    [InlineData("x50", "no size of a label")]
    [InlineData("20x10", "at least 50 wide")]
    [InlineData("100x900", "no side over 300")]
    public void A_size_that_is_no_label_is_refused_with_what_to_write(string size, string says)
    {
        Assert.False(CuttingLabels.TrySize(size, out _, out var why));
        Assert.Contains(says, why, StringComparison.Ordinal);
    }

    [Fact]
    public void The_stop_of_a_faced_piece_is_longer_than_the_piece_and_short_pieces_come_first_where_the_shop_says_so()
    {
        Piece[] pieces = [new("A", "D", Six, 2000) { FacedEnds = 2 }, new("B", "D", Six, 1000) { FacedEnds = 1 }];
        var plan = Plan(pieces, [new("R", Six, 6000, 1, StockSource.OnHand)], new() { FacingLoss = 2, EndTrim = 10 });
        // Trim 10; A: 10 to 10 + 2000 + 4; kerf 3; B: 2017 to 2017 + 1000 + 2.
        Assert.Equal([(10.0, 2014.0, 2004.0), (2017.0, 3019.0, 1002.0)], plan.Groups[0].Bars[0].Pieces.Select(p => (p.From, p.To, p.SawLength)));
        var turned = Plan(pieces, [new("R", Six, 6000, 1, StockSource.OnHand)], new() { ShortPiecesFirst = true });
        Assert.Equal("B A", string.Join(' ', turned.Groups[0].Bars[0].Pieces.Select(p => p.Piece.Id)));
    }

    [Fact]
    public void A_hundredth_that_is_missing_for_one_bar_less_is_said()
    {
        // 2998.5 + 3 + 2998.52 = 6000.02.
        var plan = Plan([new("A", "D", Six, 2998.5), new("B", "D", Six, 2998.52)], [new("R", Six, 6000, 2, StockSource.OnHand)]);
        Assert.Equal(2, plan.Groups[0].NewBars);
        var said = Assert.Single(plan.Findings, f => f.Rule == "nearly-one-bar-less");
        Assert.Contains("0.02 mm short of one bar less", said.Message, StringComparison.Ordinal);
        Assert.Empty(Plan([new("A", "D", Six, 2998.5), new("B", "D", Six, 3000)], [new("R", Six, 6000, 2, StockSource.OnHand)]).Findings);
        // The same with 10 trimmed off each end of bars that are 20 longer.
        var trimmed = Plan([new("A", "D", Six, 2998.5), new("B", "D", Six, 2998.52)], [new("R", Six, 6020, 2, StockSource.OnHand)], new() { EndTrim = 10 });
        Assert.Contains("0.02 mm short of one bar less", Assert.Single(trimmed.Findings, f => f.Rule == "nearly-one-bar-less").Message, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData(1, "")]
    [InlineData(0.5, "0.5")]
    public void A_preference_stands_in_the_stock_list_where_it_is_one(double preference, string told)
    {
        using var csv = new StringWriter();
        CuttingPlanTables.Csv(csv, CuttingPlanTables.Rows([new StockBar("R", Six, 6000, 1, StockSource.OnHand) { Preference = preference }]));
        var rows = csv.ToString().Split('\n', StringSplitOptions.TrimEntries);
        var column = Array.FindIndex(rows[0].Split(','), c => c.Trim('"') == "preference");
        Assert.Equal(told, rows[1].Split(',')[column].Trim('"'));
    }

    [Fact]
    public void A_stock_file_names_suppliers_and_certificates_and_keeps_them()
    {
        const string text = """
            rules: {short pieces first: yes}
            buy:
              - {id: N, size: 6, schedule: 40, material: A106-B, length: 6000, cost: 40, supplier: North Yard, certificate: EN 10204 3.1}
            """;
        var rack = RackReader.Read(Encoding.UTF8.GetBytes(text), "rack.yaml").Rack!;
        Assert.Equal(("North Yard", "EN 10204 3.1", true), (rack.Bars[0].Supplier, rack.Bars[0].Certificate, rack.Rules.ShortPiecesFirst));
        var written = new StringWriter();
        CuttingPlanTables.Yaml(written, rack, CuttingPlanner.Plan([new("A", "D", Six, 100)], rack, TimeSpan.FromMinutes(1), stop: TestContext.Current.CancellationToken));
        var again = RackReader.Read(Encoding.UTF8.GetBytes(written.ToString()), "rack.yaml").Rack!;
        Assert.Equal(("North Yard", "EN 10204 3.1", true), (again.Bars[0].Supplier, again.Bars[0].Certificate, again.Rules.ShortPiecesFirst));
        Assert.DoesNotContain(RackReader.Read(Encoding.UTF8.GetBytes(text), "rack.yaml").Errors, e => e.Severity == Severity.Stop);
    }
}
