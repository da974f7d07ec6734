using System.Text;
using MiniExcelLibs;
using Rootgap.Cutting;
using Rootgap.Findings;

namespace Rootgap.Tests.Cutting;

public class RackReaderTest
{
    private static RackReading Read(string text, string name = "rack.yaml") => RackReader.Read(Encoding.UTF8.GetBytes(text), name);

    private const string Good = """
        rules: {kerf: 2, end trim: 5, shortest remnant: 500, most plans: 3, one heat: spool, order: [cost, bars]}
        stock:
          - {id: R1, size: DN150, schedule: sch 40, material: a106-b, length: 6 m, quantity: 4, heat: H1, cost: 41.5}
        remnants:
          - {id: O1, size: 6, schedule: 40, material: A106-B, length: "4'-9 1/2\""}
        buy:
          - {size: 6, schedule: 40, material: A106-B, length: 12000, cost: 38}
        pieces:
          - {spool: "1", heat: H1, priority: 1}
          - {drawing: CHW-1, piece: 2-B, cut: yes}
        """;

    [Fact]
    public void A_stock_file_with_all_its_parts_is_read()
    {
        var rack = Read(Good).Rack!;
        Assert.Equal((2.0, 5.0, 500.0, 3, true, CuttingAim.Cost, CuttingAim.Bars), (rack.Rules.Kerf, rack.Rules.EndTrim, rack.Rules.ShortestRemnant, rack.Rules.MostPlans, rack.Rules.SpoolFromOneHeat, rack.Rules.Order[0], rack.Rules.Order[1]));
        Assert.Collection(rack.Bars,
            b => Assert.Equal(("R1", 6000.0, 4, "H1", 41.5), (b.Id, b.Length, b.Quantity, b.Heat, b.Cost)),
            b => Assert.Equal((57.5 * 25.4, 1, StockSource.Remnant), (b.Length, b.Quantity, b.Source)), // 4 ft 9 1/2 in.
            b => Assert.Equal((12000.0, null, StockSource.Buy), (b.Length, b.Quantity, b.Source)));
        Assert.Single(rack.Bars.Select(b => b.Pipe).Distinct());
        Assert.Equal(2, rack.PieceRules.Count);
    }

    [Fact]
    public void Rules_for_pieces_give_heats_and_urgency_and_leave_out_what_is_cut()
    {
        var pipe = PipeKind.Of("6", "40", "A106-B");
        var ruled = Read(Good).Rack!.Rule([new Piece("1-A", "X", pipe, 10) { Spool = "1" }, new Piece("2-B", "chw-1", pipe, 10), new Piece("2-B", "Y", pipe, 10)]);
        Assert.Collection(ruled,
            p => Assert.Equal(("1-A", "H1", 1, "spool 1 of X"), (p.Id, p.Heat, p.Priority, p.OneHeat)),
            p => Assert.Equal(("2-B", "Y"), (p.Id, p.Drawing)));
    }

    [Theory]
    [InlineData("stock: [{id: A, size: 6, schedule: 40, length: -5}]", "impossible-value")]
    [InlineData("stock: [{id: A, size: 6, schedule: 40, length: 0}]", "impossible-value")]
    [InlineData("stock: [{id: A, size: 5.3, schedule: 40, length: 6000}]", "impossible-value")]
    [InlineData("stock: [{id: A, size: 7, schedule: 40, length: 6000}]", "impossible-value")]
    [InlineData("stock: [{id: A, size: 6, schedule: 40, length: 6000}, {id: a, size: 6, schedule: 40, length: 6000}]", "name-twice")]
    [InlineData("stock: [{id: A, size: 6, schedule: 40, length: 6000, quantity: 1.5}]", "wrong-type")]
    [InlineData("stock: [{id: A, size: 6, length: 6000}]", "missing-key")]
    [InlineData("stock: [{id: A, size: 6, schedule: 40, lenght: 6000}]", "unknown-key")]
    [InlineData("stock: {id: A}", "wrong-type")]
    [InlineData("rules: {order: [bars, price]}", "unknown-word")]
    [InlineData("pieces: [{heat: H1}]", "missing-key")]
    [InlineData("stock: [{id: A", "not-yaml")]
    [InlineData("", "stock-empty")]
    public void A_slip_in_the_stock_file_is_told_with_its_place(string text, string rule)
    {
        var reading = Read(text);
        Assert.Null(reading.Rack);
        var error = Assert.Single(reading.Errors, e => e.Rule == rule);
        Assert.Equal((Severity.Stop, "rack.yaml"), (error.Severity, error.Where.File));
        Assert.True(error.Where.Line > 0);
        Assert.NotEqual("", error.Remedy);
    }

    [Theory]
    [InlineData("kind,id,size,schedule,material,length,quantity,heat,cost\nstock,R1,6,40,A106-B,6000,2,H1,\nbuy,,6,40,A106-B,12000,,,38\n")]
    [InlineData("Type;Bar;NPS;SCH;Grade;Length mm;Qty;Heat number;Price\nstock;R1;6;40;A106-B;6000;2;H1;\nbuy;;6;40;A106-B;12000;;;38\n")]
    public void A_list_as_shops_keep_it_is_read(string csv)
    {
        var rack = Read(csv, "rack.csv").Rack!;
        Assert.Collection(rack.Bars,
            b => Assert.Equal(("R1", 6000.0, 2, "H1", null), (b.Id, b.Length, b.Quantity, b.Heat, b.Cost)),
            b => Assert.Equal((StockSource.Buy, 12000.0, null, 38.0), (b.Source, b.Length, b.Quantity, b.Cost)));
    }

    [Fact]
    public void A_workbook_is_read()
    {
        using var stream = new MemoryStream();
        stream.SaveAs(new[] { new { id = "R1", size = 6, schedule = "40", material = "A106-B", length = 6000.5, quantity = 3 } });
        var bar = Assert.Single(RackReader.Read(stream.ToArray(), "rack.xlsx").Rack!.Bars);
        Assert.Equal(("R1", 6000.5, 3), (bar.Id, bar.Length, bar.Quantity));
    }

    [Fact]
    public void A_list_of_more_rows_than_a_rack_has_is_refused_with_the_row()
    {
        var text = new StringBuilder("id,size,schedule,material,length\n");
        for (var i = 0; i <= RackReader.MostRows; i++)
            text.Append(i).Append(",6,40,A106-B,6000\n");
        Assert.Equal("stock-too-long", Assert.Single(Read(text.ToString(), "rack.csv").Errors).Rule);
    }

    [Fact]
    public void The_stock_file_written_after_the_cuts_reads_back_as_it_was_meant()
    {
        var rack = Read(Good).Rack!;
        var plan = CuttingPlanner.Plan([new Piece("1-A", "X", rack.Bars[0].Pipe, 2500)], rack, TimeSpan.FromMinutes(1), stop: TestContext.Current.CancellationToken);
        var text = new StringWriter();
        CuttingPlanTables.Yaml(text, rack, plan);
        var after = Read(text.ToString()).Rack!;
        static IEnumerable<(StockBar, string)> Sorted(IEnumerable<StockBar> bars) => bars.OrderBy(b => b.Source).ThenBy(b => b.Id, StringComparer.Ordinal).Select(b => (b with { Gone = [] }, string.Join(' ', b.Gone)));
        Assert.Equal(Sorted(plan.RackAfter), Sorted(after.Bars));
        Assert.Equal(["R1#1"], after.Row("R1")!.Gone);
        Assert.Equal(rack.PieceRules, after.PieceRules);
        Assert.Equal(rack.Rules with { Order = [] }, after.Rules with { Order = [] });
    }
}
