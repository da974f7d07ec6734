using System.Globalization;
using Rootgap.Cutting;
using Rootgap.Measure;
using Rootgap.Sheets;

namespace Rootgap.Tests.Cutting;

/// <summary>Cutting plans of the accepted drawings, and of pieces at random from racks and by rules of every kind; what is told at the saw; their lists and sheets.</summary>
public class AcceptedPlansTest
{
    private static CuttingPlan Plan(IReadOnlyList<Piece> pieces, Rack rack) => CuttingPlanner.Plan(pieces, rack, TimeSpan.FromMinutes(2), stop: TestContext.Current.CancellationToken);

    // Where the search was cut short, or how long it took, is the machine's affair; none of these takes so long.
    private static string Says(CuttingPlan plan)
    {
        using var csv = new StringWriter();
        CuttingPlanTables.Csv(csv, CuttingPlanTables.Rows(plan));
        return string.Join('\n', Accepted.Json(json => CuttingPlanJson.Write(json, plan, "test")).Split('\n').Where(l => !l.Contains("seconds", StringComparison.Ordinal))) + csv;
    }

    [Fact]
    public void The_plans_of_the_drawings_are_the_accepted_ones()
    {
        var rack = RackReader.Read(File.ReadAllBytes(Repository.At("samples", "hatchery", "rack.yaml")), "rack.yaml").Rack!;
        Accepted.Same("accepted-drawings.txt", Accepted.Drawings.Select(d =>
        {
            var pieces = Pieces.Of(d.Packet.Fabrication, d.Name, d.Packet.IsBuildable).ToList();
            var plan = Plan(rack.Rule(pieces), d.Name.StartsWith("random", StringComparison.Ordinal) ? Rack.ToBuy([(pieces, d.Packet.Drawing.Shop)], d.Packet.Drawing.Units) : rack);
            var pages = CuttingPages.Of(plan, Paper.A4).Concat(CuttingLabels.Of(plan, Paper.A4));
            return (d.Name, Says(plan) + string.Concat(pages.Select((p, i) => SvgWriter.Write(p.Numbered(i + 1, 99)))));
        }));
    }

    [Fact]
    public void The_plans_of_pieces_at_random_are_the_accepted_ones() => Accepted.Same("accepted-plans.txt", Enumerable.Range(1, 40).Select(seed =>
    {
        var (pieces, rack) = Job(seed);
        var plan = Plan(rack.Rule(pieces), rack);
        // Half of it is cut, one piece of it spoiled; then what is left is planned again.
        var done = plan.Groups.SelectMany(g => g.Bars).Select(b => b.Name).Where((_, i) => i % 2 == 0).ToList();
        var cut = plan.Groups.SelectMany(g => g.Bars).Where(b => done.Contains(b.Name)).SelectMany(b => b.Pieces).Select(c => c.Piece.FullName).ToList();
        var (log, findings) = new SawReport { Cut = [.. cut.Skip(1)], Spoiled = [.. cut.Take(1)] }.On(plan, rack);
        var says = Says(plan) + Accepted.Lines(findings.Select(f => $"{f.Rule} {f.At}: {f.Message} {f.Remedy}"));
        if (log is not null)
        {
            var told = new List<Rootgap.Findings.Finding>();
            var left = log.Left(rack);
            says += Says(Plan(log.Wanted(rack.Rule(pieces), told), left)) + Accepted.Lines(told.Select(f => $"{f.Rule} {f.At}: {f.Message}"));
            using var yaml = new StringWriter();
            CuttingPlanTables.Yaml(yaml, left, plan);
            says += yaml;
        }

        return (string.Create(CultureInfo.InvariantCulture, $"{seed}"), says);
    }));

    internal static (List<Piece> Pieces, Rack Rack) Job(int seed)
    {
        var chance = new Random(seed);
        PipeKind[] kinds = [PipeKind.Of("6", "40", "A106-B"), PipeKind.Of("2", "80", "A106-B"), PipeKind.Of("6", "40", "")];
        var pieces = Enumerable.Range(0, 5 + chance.Next(25)).Select(i => new Piece(string.Create(CultureInfo.InvariantCulture, $"{1 + (i / 4)}-{(char)('A' + (i % 4))}"), "D" + chance.Next(2), kinds[chance.Next(10) switch { < 7 => 0, < 9 => 1, _ => 2 }], 150 + (chance.Next(1200) * 2.5))
        {
            Spool = string.Create(CultureInfo.InvariantCulture, $"{1 + (i / 4)}"),
            FacedEnds = chance.Next(3),
            Priority = chance.Next(3),
            Heat = chance.Next(12) == 0 ? "H1" : "",
        }).ToList();
        StockBar Bar(string id, int kind, double length, int? quantity, StockSource source) => new(id, kinds[kind], length, quantity, source) { Heat = source == StockSource.Buy ? "" : "H" + (1 + chance.Next(3)), Cost = chance.Next(4) == 0 ? null : 10 + chance.Next(40), Preference = 1 + chance.Next(2) };
        List<StockBar> bars =
        [
            Bar("A", 0, 6000, 1 + chance.Next(3), StockSource.OnHand), Bar("B", 0, 5000 + chance.Next(2000), 2, StockSource.OnHand), Bar("C", 1, 6000, 2, StockSource.OnHand),
            Bar("R1", 0, 700 + chance.Next(3000), 1, StockSource.Remnant), Bar("R2", 0, 400 + chance.Next(900), 1, StockSource.Remnant), Bar("R3", 1, 1500, 1, StockSource.Remnant),
        ];
        if (seed % 5 != 0)
            bars.AddRange([Bar("N1", 0, 6000, null, StockSource.Buy), Bar("N2", 0, 12000, null, StockSource.Buy), Bar("N3", 1, 6000, null, StockSource.Buy), Bar("N4", 2, 6000, null, StockSource.Buy)]);
        var order = Enum.GetValues<CuttingAim>();
        if (seed % 3 == 0)
            chance.Shuffle(order);
        return (pieces, new(bars, new()
        {
            Kerf = chance.Next(4),
            EndTrim = chance.Next(3) * 5,
            FacingLoss = chance.Next(2) * 1.5,
            ShortestRemnant = 200 + (100 * chance.Next(5)),
            RemnantValue = chance.Next(5) / 4.0,
            MostPlans = chance.Next(4) == 0 ? 3 : null,
            SpoolFromOneHeat = chance.Next(4) == 0,
            ShortPiecesFirst = chance.Next(3) == 0,
            Units = seed % 2 == 0 ? Units.Inches : Units.Millimetres,
            Order = order,
        })
        {
            PieceRules = chance.Next(3) == 0 ? [new("D0", "1", "") { OneHeat = true }, new("D1", "", "") { Priority = 1 }, new("", "2", "") { Heat = "H2" }] : [],
        });
    }
}
