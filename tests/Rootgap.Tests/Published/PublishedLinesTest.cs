using Rootgap.Findings;
using Rootgap.Measure;
using Rootgap.Packets;
using Rootgap.Routes;
using Rootgap.Standards;

namespace Rootgap.Tests.Published;

/// <summary>Published lines written down whole, in <c>Lines</c>; their sources are in <c>examples.md</c>, by the same names.</summary>
public class PublishedLinesTest
{
    private const double Gravity = 9.80665, KilogramsPerFoot = 0.45359237 / 0.3048;

    /// <summary>Nodes of BM3 as the model has them: X east, Y up, Z south, inches.</summary>
    private static readonly (double X, double Y, double Z)[] Bm3 =
    [
        (0, 0, 0), (15, 0, 0), (19.5, -4.5, 0), (19.5, -180, 0), (19.5, -199.5, 0), (19.5, -204, 4.5), (19.5, -204, 139.5), (24, -204, 144), (96, -204, 144), (254, -204, 144),
        (333, -204, 144), (411, -204, 144), (483, -204, 144), (487.5, -204, 148.5), (487.5, -204, 192), (487.5, -204, 235.5), (492, -204, 240), (575, -204, 240), (723, -204, 240),
        (727.5, -208.5, 240), (727.5, -264, 240), (727.5, -264, 205), (727.5, -264, 190), (733.5, -264, 184), (753.5, -264, 184), (845.5, -264, 184), (851.5, -264, 178),
        (851.5, -264, 160), (851.5, -264, 142), (851.5, -270, 136), (851.5, -360, 136), (727.5, -264, 255), (727.5, -264, 270), (727.5, -264, 306), (727.5, -264, 414),
        (739.5, -264, 426), (847.5, -264, 426), (955.5, -264, 426),
    ];

    /// <summary>Nodes of example 1 of Appendix S: x east, y up, m. Those of the elbows are the corners.</summary>
    private static readonly (double X, double Y)[] FirstHalf = [(0, 0), (6.10, 0), (12.20, 0), (15.25, 0), (15.25, 6.10), (18.30, 6.10), (24.40, 6.10)];

    private static readonly (double X, double Y)[] SecondHalf = [(30.50, 6.10), (33.55, 6.10), (33.55, 0), (36.60, 0), (42.70, 0), (48.80, 0)];

    [Theory]
    [InlineData("bm3")]
    [InlineData("s301")]
    [InlineData("s302")]
    [InlineData("s303")]
    [InlineData("coil")]
    public void Nothing_stops_a_published_line(string line) =>
        Assert.Empty(Of(line).Findings.Where(f => f.Severity == Severity.Stop).Select(f => $"{f.Rule} {f.Message}"));

    [Fact]
    public void BM3_Every_node_of_the_model_is_a_place_on_the_line()
    {
        var packet = Of("bm3");
        Stand(packet, Bm3.Select(Inches));
        Hold(packet, new() { ["4"] = At(4), ["7"] = At(7), ["11"] = At(11), ["15"] = At(15), ["17"] = At(17), ["23"] = At(23), ["36"] = At(36) });

        static Point At(int node) => Inches(Bm3[node - 1]);
    }

    [Fact]
    public void BM3_Bends_have_the_models_radii()
    {
        var bends = Of("bm3").Fabrication.Route.Components.OfType<Bent>().Select(b => ($"{b.Size}", Math.Round(b.WorkPoint.To(b.In.At) / LengthText.Inch, 6))).ToLookup(b => b);
        Assert.Equal([6, 3, 1], new[] { ("3", 4.5), ("4", 6.0), ("8", 12.0) }.Select(b => bends[b].Count()));
        Assert.Equal(3, bends.Count);
    }

    // Straights of the model from bend to bend and from bend to anchor; those that end at node 21 end at a fitting here.
    [Fact]
    public void BM3_Pipes_are_cut_to_the_models_straights()
    {
        double[] straights = [15, 195, 135, 459, 87, 231, 112, 36, 90, 216];
        var cuts = Given.LengthsInInches(Of("bm3"));
        Assert.All(straights, s => Assert.Contains(cuts, c => Math.Abs(c - s) < 1e-6));
        Assert.Equal(straights.Length + 3, cuts.Length);
    }

    // Weights as the model has them: density by the metal's section, gravity 386.4 in./s2. NPS 8 has 48.80 lb/ft there, 2.9 % less than full of water.
    [Theory]
    [InlineData("3", 10.78)]
    [InlineData("4", 16.29)]
    public void BM3_Model_weighs_what_pipe_and_water_do(string size, double poundsPerFoot)
    {
        var pipe = Of("bm3").Fabrication.Cuts.First(c => $"{c.Pipe.Size}" == size).Pipe;
        Assert.Equal(poundsPerFoot, (Metal(pipe) + Water(pipe)) / KilogramsPerFoot, 0.0025 * poundsPerFoot);
    }

    [Fact]
    public void S301_Every_node_of_the_example_is_a_place_on_the_line()
    {
        var packet = Of("s301");
        Stand(packet, FirstHalf.Select(Upright));
        Hold(packet, new() { ["20"] = Upright((12.20, 0)) });
    }

    [Fact]
    public void S302_Every_node_of_the_example_is_a_place_on_the_line()
    {
        var packet = Of("s302");
        Stand(packet, FirstHalf.Concat(SecondHalf).Select(Upright));
        Hold(packet, new() { ["20"] = Upright((12.20, 0)), ["50"] = Upright((24.40, 6.10)), ["120"] = Upright((36.60, 0)) });
    }

    // Elbow ends of the example: 609.6 mm from the corners; B16.9's column in millimetres has 610.
    [Theory]
    [InlineData("s301", 2)]
    [InlineData("s302", 4)]
    public void S301_S302_Elbows_are_of_long_radius(string line, int elbows)
    {
        var ends = Of(line).Fabrication.Route.Components.OfType<Bent>().SelectMany(b => b.Ports.Select(p => p.At.To(b.WorkPoint))).ToList();
        Assert.Equal(2 * elbows, ends.Count);
        Assert.All(ends, e => Assert.Equal(609.6, e, 0.5));
    }

    // 248.3 kg/m with its contents and 37.46 kg/m of insulation (127 mm at 176 kg/m3 on 406.4 mm).
    [Fact]
    public void S301_Pipe_and_contents_weigh_what_the_example_has()
    {
        var pipe = Of("s301").Fabrication.Cuts[0].Pipe;
        var insulation = Math.PI / 4 * (Math.Pow(406.4 + (2 * 127), 2) - Math.Pow(406.4, 2)) * 176e-6;
        Assert.Equal(248.3, Metal(pipe) + Water(pipe) + insulation, 0.5);
    }

    // Sustained loads on the supports, together the weight of the line: Table S301.5.2, nodes 10, 20 and 50; Table S302.5.1, twice nodes 10 and 20.
    [Theory]
    [InlineData("s301", 12_710 + 63_050 - 2_810)]
    [InlineData("s302", 2 * (14_050 + 58_900))]
    public void S301_S302_Supports_carry_the_line(string line, double newtons) =>
        Assert.Equal(newtons, Developed(Of(line)) / 1000 * 248.3 * Gravity, 0.001 * newtons);

    [Fact]
    public void S303_Every_node_of_the_example_is_a_place_on_the_line()
    {
        (double X, double Z)[] nodes =
        [
            (0, 0), (1.52, 0), (1.52, 1.52), (1.52, -1.52), (1.52, 2.28), (1.52, -2.28), (3.04, -1.52), (4.56, -1.52), (6.08, -1.52), (7.60, -1.52), (3.04, 1.52), (4.56, 1.52), (6.08, 1.52), (7.60, 1.52),
            (9.12, 0), (9.12, 1.52), (9.12, -1.52), (9.12, 2.28), (9.12, -2.28), (10.64, 0),
        ];
        var packet = Of("s303");
        Stand(packet, nodes.Select(Flat));
        Hold(packet, new() { ["110"] = Flat((3.04, -1.52)), ["140"] = Flat((7.60, -1.52)), ["210"] = Flat((3.04, 1.52)), ["240"] = Flat((7.60, 1.52)) });

        static Point Flat((double X, double Z) node) => new(node.X * 1000, -node.Z * 1000, 0);
    }

    // 24 STD and 20 STD; the meters, 1.52 m long, weigh 8890 N each.
    [Fact]
    public void S303_Headers_branches_and_meters_are_the_examples()
    {
        var packet = Of("s303");
        Assert.All(packet.Fabrication.Cuts, c => Assert.Contains(($"{c.Pipe.Size}", c.Pipe.Wall), new[] { ("24", 9.53), ("20", 9.53) }));
        Assert.Equal(["20", "20", "20", "20"], packet.Fabrication.Route.Components.Where(c => c.Sign == IsometricSign.Tee && c.Size2 != default && c.Size2 != c.Size).Select(c => $"{c.Size2}"));
        Assert.Equal(6, packet.Fabrication.Route.Components.Count(c => c.Sign == IsometricSign.Tee));
        var meters = packet.Fabrication.Route.Components.Where(c => c.Sign == IsometricSign.Box).ToList();
        Assert.Equal(2, meters.Count);
        Assert.All(meters, m => Assert.Equal(1520, m.Ports[0].At.To(m.Ports[1].At), 1e-6));
        Assert.All(meters, m => Assert.Equal(8890, packet.Fabrication.Masses[m.Id].Kg * Gravity, 0.5));
    }

    [Fact]
    public void Coil_Straights_are_nine_metres_and_the_returns_seven()
    {
        var packet = Of("coil");
        Assert.Equal(9000, Given.Lengths(packet).Sum(), 1e-6);
        var bends = packet.Fabrication.Route.Components.OfType<Bent>().ToList();
        Assert.Equal(7 * Math.PI, bends.Sum(b => b.Turn), 1e-9);
        Assert.All(bends, b => Assert.Equal(100, b.WorkPoint.To(b.In.At), 1e-9));
        Assert.All(bends.Chunk(2), pair => Assert.Equal(0, pair[0].Out.At.To(pair[1].In.At), 1e-9));
    }

    private static Packet Of(string line) => Given.Packet(File.ReadAllText(Repository.At("tests", "Rootgap.Tests", "Published", "Lines", line + ".yaml")));

    private static Point Inches((double X, double Y, double Z) node) => new(node.X * LengthText.Inch, -node.Z * LengthText.Inch, node.Y * LengthText.Inch);

    private static Point Upright((double X, double Y) node) => new(node.X * 1000, 0, node.Y * 1000);

    /// <summary>Each node is a work point, a support or an end of a fitting.</summary>
    private static void Stand(Packet packet, IEnumerable<Point> nodes)
    {
        var route = packet.Fabrication.Route;
        var places = route.Runs.SelectMany(r => r.Points).Concat(route.Components.SelectMany(c => c.Ports).Select(p => p.At)).ToList();
        Assert.All(nodes, n => Assert.Contains(places, p => p.To(n) < 1e-6));
    }

    private static void Hold(Packet packet, Dictionary<string, Point> supports)
    {
        Assert.Equal(supports.Keys.Order(), packet.Fabrication.Route.Supports.Select(s => s.Tag).Order());
        Assert.All(packet.Fabrication.Route.Supports, s => Assert.True(s.At.To(supports[s.Tag]) < 1e-6, s.Tag));
    }

    /// <summary>Pipes as cut and the arcs of the elbows, mm.</summary>
    private static double Developed(Packet packet) =>
        Given.Lengths(packet).Sum() + packet.Fabrication.Route.Components.OfType<Bent>().Sum(b => b.WorkPoint.To(b.In.At) / Math.Tan(b.Turn / 2) * b.Turn);

    private static double Metal(PipePiece pipe) => Pipes.MassPerLength(pipe.Outside, pipe.Wall, Metals.Density(pipe.Line.Material)) * 1000;

    private static double Water(PipePiece pipe) => Math.PI / 4 * Math.Pow(pipe.Outside - (2 * pipe.Wall), 2) * 1e-3;
}
