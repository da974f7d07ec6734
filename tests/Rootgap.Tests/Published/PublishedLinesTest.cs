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

    /// <summary>Nodes 1 to 41 of problem 6 of NUREG/CR-1677, to 10 mm: X east, Y up, Z south, m.</summary>
    private static readonly (double X, double Y, double Z)[] Nr6 =
    [
        (3.20, 12.29, 17.93), (3.20, 12.29, 17.90), (3.20, 13.44, 16.75), (3.20, 14.43, 16.75), (3.20, 16.56, 16.75), (3.20, 18.69, 16.75), (3.20, 20.39, 16.75), (3.20, 22.08, 16.75),
        (3.20, 23.30, 16.75), (3.20, 24.52, 16.75), (3.20, 24.59, 16.75), (4.31, 25.74, 16.50), (4.42, 25.74, 16.48), (5.84, 25.74, 16.03), (7.21, 25.74, 15.46), (8.53, 25.74, 14.77),
        (9.79, 25.74, 13.97), (10.97, 25.74, 13.07), (12.07, 25.74, 12.06), (13.08, 25.74, 10.96), (13.98, 25.74, 9.78), (14.78, 25.74, 8.52), (15.47, 25.74, 7.20), (16.04, 25.74, 5.83),
        (16.49, 25.74, 4.41), (16.81, 25.74, 2.95), (17.00, 25.74, 1.48), (17.07, 25.74, -0.01), (17.00, 25.74, -1.50), (16.81, 25.74, -2.97), (16.49, 25.74, -4.43), (16.04, 25.74, -5.85),
        (15.47, 25.74, -7.22), (14.78, 25.74, -8.54), (13.99, 25.74, -9.79), (9.53, 25.74, -11.35), (8.78, 25.74, -11.09), (6.66, 25.74, -10.36), (5.63, 25.74, -10.00), (4.55, 24.59, -9.63),
        (4.55, 24.59, -9.63),
    ];

    /// <summary>Volumes of CIET 1.0 along each run: number, length in mm, slope in degrees.</summary>
    private static readonly Dictionary<string, (int Volume, double Length, double Slope)[]> Ciet = new()
    {
        ["ciet hot leg"] = [(20, 149.43, 90), (21, 330, 90), (30, 1282.68, 90), (40, 241.3, 49.74338742), (5, 749.3, 0), (60, 152.6, 51.52638425), (61, 330, 51.52638425)],
        ["ciet cold leg"] = [(81, 330, -90), (80, 222.46, -90), (90, 711.2, -42.73211004), (100, 2451.02, -90), (110, 482.6, -63.47464798), (120, 333.39, 0)],
        ["ciet pump discharge"] = [(130, 1273.2, 0), (140, 668.7, 90), (141, 360, 90), (150, 355.59, -49.36983394), (160, 644.52, -90), (17, 473.08, 0), (180, 177.8, -40.00520088)],
        ["ciet heat exchanger DHX"] =
        [
            (190, 219.08, -31.44898139), (200, 336.54, 0), (210, 487.72, 90), (211, 360, 90), (220, 230.72, 90), (221, 115.36, 90), (222, 115.36, 90), (224, 230.72, 90), (231, 330, 90),
            (230, 89.1, 90), (240, 1187.45, 90), (250, 222.46, 90), (251, 330, 90), (260, 215.9, 52.57199446),
        ],
        ["dracs hot leg"] = [(310, 143.08, 90), (311, 330, 90), (320, 238.12, 54.42289745), (330, 3010, 90), (34, 552.45, 0)],
        ["dracs cold leg"] = [(360, 203.4, -58.99728087), (361, 330, -58.99728087), (370, 1773.6, -90), (371, 360, -90), (380, 336.54, -52.41532675), (390, 1911.42, -80.6488182)],
    };

    [Theory]
    [InlineData("bm3")]
    [InlineData("s301")]
    [InlineData("s302")]
    [InlineData("s303")]
    [InlineData("coil")]
    [InlineData("nr6")]
    [InlineData("ciet")]
    [InlineData("dracs")]
    [InlineData("c714")]
    [InlineData("series")]
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

    // The input has its nodes to 10 mm; its elbows of 1143 mm take 1.14 or 1.15 m between them.
    [Fact]
    public void NR6_Every_node_of_the_problem_is_a_place_on_the_line()
    {
        var packet = Of("nr6");
        Stand(packet, Nr6.Select(Metres), 7.5);
        Hold(packet, new() { ["10"] = Metres(Nr6[9]) });

        static Point Metres((double X, double Y, double Z) node) => new(node.X * 1000, -node.Z * 1000, node.Y * 1000);
    }

    // Flexibility factor 1.65 r2 / (t R) of the elements 2, 11, 35 and 39, with r the middle radius of the pipe.
    [Fact]
    public void NR6_Bends_have_the_radii_of_the_flexibility_factors()
    {
        double[] factors = [9.162847837559045, 9.155684671404007, 2.7477953664113617, 9.7885852576543];
        var bends = Of("nr6").Fabrication.Route.Components.OfType<Bent>().Where(b => b.Turn > 0.2).ToList();
        Assert.Equal(factors.Length, bends.Count);
        Assert.All(bends.Zip(factors), p =>
        {
            var (outside, wall) = $"{p.First.Size}" == "32" ? (812.8, 23.0) : (762, 21.6);
            var middle = (outside - wall) / 2;
            Assert.Equal(1.65 * middle * middle / (wall * p.Second), p.First.WorkPoint.To(p.First.In.At) / Math.Tan(p.First.Turn / 2), 0.5);
        });
    }

    // The straight from the first elbow to the second, 13.44 to 24.59 m, and the tangents between nodes 13 and 35, less the elbows cut to 5 degrees.
    [Fact]
    public void NR6_Pipes_are_cut_to_the_problems_straights()
    {
        var packet = Of("nr6");
        var cuts = Given.Lengths(packet);
        Assert.Contains(cuts, c => Math.Abs(c - 11_150) <= 15);
        var route = packet.Fabrication.Route;
        var corners = route.Components.OfType<Bent>().Where(b => b.Turn < 0.2).ToList();
        Assert.Equal(22, corners.Count);
        Assert.All(corners, c => Assert.Equal(5, c.Turn * 180 / Math.PI, 0.5));
        Assert.All(packet.Fabrication.Cuts, c => Assert.Contains(($"{c.Pipe.Size}", c.Pipe.Wall), new[] { ("30", 21.6), ("32", 23.0) }));
    }

    [Theory]
    [InlineData("ciet", 0, 1924.06)]
    [InlineData("ciet", 1, 3917.935)]
    [InlineData("ciet", 2, 0.055)]
    [InlineData("ciet", 3, 114.368)]
    [InlineData("dracs", 0, 1482.74)]
    [InlineData("dracs", 1, 4743.571)]
    public void CIET_DRACS_Every_volume_ends_at_the_inputs_height(string line, int run, double start)
    {
        var way = Of(line).Fabrication.Route.Runs[run];
        var volumes = Ciet[$"{line} {way.Run.Name}"];
        Assert.Equal(volumes.Sum(v => v.Length), way.Points.Zip(way.Points.Skip(1), (a, b) => a.To(b)).Sum(), 0.01);
        var (along, height) = (0.0, start);
        Assert.Equal(height, way.Points[0].Z, 0.01);
        foreach (var (_, length, slope) in volumes)
        {
            along += length;
            height += length * Math.Sin(slope * Math.PI / 180);
            Assert.Equal(height, Along(way.Points, along).Z, 0.01);
        }
    }

    // The heights of both ways round agree in the input to 0.07 mm; heat exchanger CTAH is 330.21 mm high and 1234.2 mm wide, TCHX 415.92 and 1148.51, the primary heater 1924.06 mm high.
    [Fact]
    public void CIET_DRACS_Loops_close()
    {
        var runs = Of("ciet").Fabrication.Route.Runs;
        var (hot, cold, pump, exchanger) = (runs[0].Points, runs[1].Points, runs[2].Points, runs[3].Points);
        Assert.Equal(0, pump[^1].To(new(0, 0, 0)), 0.1);
        Assert.Equal(1924.06, hot[0].Z - pump[^1].Z, 0.1);
        Assert.Equal(0, cold[^1].To(pump[0]), 0.01);
        Assert.Contains(hot, p => p.To(exchanger[^1]) < 0.15);
        Assert.Contains(pump, p => p.To(exchanger[0]) < 1e-6);
        Nozzles(hot[^1], cold[0], 330.21, 1234.2);
        runs = Of("dracs").Fabrication.Route.Runs;
        Assert.Equal(0, runs[1].Points[^1].To(new(0, 0, 0)), 0.1);
        Nozzles(runs[0].Points[^1], runs[1].Points[0], 415.92, 1148.51);

        static void Nozzles(Point inlet, Point outlet, double high, double wide)
        {
            Assert.Equal(high, inlet.Z - outlet.Z, 0.01);
            Assert.Equal(wide, inlet.To(outlet with { Z = inlet.Z }), 0.01);
        }
    }

    // Flow area 6.11e-4 m2, hydraulic diameter 27.9 mm.
    [Theory]
    [InlineData("ciet")]
    [InlineData("dracs")]
    public void CIET_DRACS_Bore_is_the_inputs(string line) => Assert.All(Of(line).Fabrication.Cuts, c =>
    {
        Assert.Equal(27.9, Bore(c.Pipe), 0.05);
        Assert.Equal(611, Math.PI / 4 * Math.Pow(Bore(c.Pipe), 2), 0.003 * 611);
    });

    // 34 m, 22 m up and 45 m; elbows at r/D 1.5.
    [Fact]
    public void C714_Legs_and_elbows_are_the_examples()
    {
        var packet = Of("c714");
        Stand(packet, [new(0, 0, 0), new(34_000, 0, 0), new(34_000, 0, 22_000), new(79_000, 0, 22_000)]);
        Assert.Equal(["4", "5", "5"], packet.Fabrication.Cuts.Select(c => $"{c.Pipe.Size}"));
        var elbows = packet.Fabrication.Route.Components.OfType<Bent>().ToList();
        Assert.Equal(["4", "5"], elbows.Select(e => $"{e.Size}"));
        Assert.All(elbows.Zip(new[] { 4, 5 }), p => Assert.Equal(1.5 * p.Second * LengthText.Inch, p.First.WorkPoint.To(p.First.In.At), 0.5));
    }

    // Flow areas 0.02330 and 0.05134 ft2, diameters 0.1723 and 0.2557 ft.
    [Theory]
    [InlineData("2", 0.02330, 0.1723)]
    [InlineData("3", 0.05134, 0.2557)]
    public void Series_Bores_are_the_examples(string size, double squareFeet, double feet)
    {
        var bore = Bore(Of("series").Fabrication.Cuts.First(c => $"{c.Pipe.Size}" == size).Pipe) / (12 * LengthText.Inch);
        Assert.Equal(feet, bore, 0.0001);
        Assert.Equal(squareFeet, Math.PI / 4 * bore * bore, 0.00003);
    }

    // The valve, 8-1/2 in. from end to end, is part of the 100 ft.
    [Fact]
    public void Series_Needs_what_the_example_lists()
    {
        var rows = Of("series").Fabrication.Materials.ToDictionary(m => m.Item!.Item);
        Assert.Equal([1, 2, 3, 4], rows.Keys.Order());
        Assert.Equal(30.48 - (8.5 * LengthText.Inch / 1000), rows[1].Needed, 1e-9);
        Assert.Equal(30.48, rows[1].Listed ?? 0, 1e-9);
        Assert.Equal(18.288, rows[2].Needed, 1e-9);
        Assert.All(new[] { rows[2], rows[3], rows[4] }, r => Assert.Equal(r.Listed ?? 0, r.Needed, 1e-9));
    }

    private static Packet Of(string line) => Given.Packet(File.ReadAllText(Repository.At("tests", "Rootgap.Tests", "Published", "Lines", line + ".yaml")));

    private static Point Inches((double X, double Y, double Z) node) => new(node.X * LengthText.Inch, -node.Z * LengthText.Inch, node.Y * LengthText.Inch);

    private static Point Upright((double X, double Y) node) => new(node.X * 1000, 0, node.Y * 1000);

    /// <summary>Each node is a work point, a support or an end of a fitting.</summary>
    private static void Stand(Packet packet, IEnumerable<Point> nodes, double within = 1e-6)
    {
        var route = packet.Fabrication.Route;
        var places = route.Runs.SelectMany(r => r.Points).Concat(route.Components.SelectMany(c => c.Ports).Select(p => p.At)).ToList();
        Assert.All(nodes, n => Assert.Contains(places, p => p.To(n) < within));
    }

    private static void Hold(Packet packet, Dictionary<string, Point> supports)
    {
        Assert.Equal(supports.Keys.Order(), packet.Fabrication.Route.Supports.Select(s => s.Tag).Order());
        Assert.All(packet.Fabrication.Route.Supports, s => Assert.True(s.At.To(supports[s.Tag]) < 1e-6, s.Tag));
    }

    /// <summary>Pipes as cut and the arcs of the elbows, mm.</summary>
    private static double Developed(Packet packet) =>
        Given.Lengths(packet).Sum() + packet.Fabrication.Route.Components.OfType<Bent>().Sum(b => b.WorkPoint.To(b.In.At) / Math.Tan(b.Turn / 2) * b.Turn);

    /// <summary>The place so far along a run.</summary>
    private static Point Along(IReadOnlyList<Point> points, double distance)
    {
        for (var i = 0; i + 1 < points.Count; i++)
        {
            var leg = points[i].To(points[i + 1]);
            if (distance <= leg + 0.01)
                return points[i].Toward(points[i + 1], distance / leg);
            distance -= leg;
        }
        return points[^1];
    }

    private static double Bore(PipePiece pipe) => pipe.Outside - (2 * pipe.Wall);

    private static double Metal(PipePiece pipe) => Pipes.MassPerLength(pipe.Outside, pipe.Wall, Metals.Density(pipe.Line.Material)) * 1000;

    private static double Water(PipePiece pipe) => Math.PI / 4 * Math.Pow(Bore(pipe), 2) * 1e-3;
}
