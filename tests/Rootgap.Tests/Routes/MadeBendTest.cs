using Rootgap.Drawings;
using Rootgap.Fabricating;
using Rootgap.Measure;
using Rootgap.Routes;
using Rootgap.Tests.Checks;

namespace Rootgap.Tests.Routes;

/// <summary>Bends that the shop makes of the line's own pipe: mitred and pulled.</summary>
public class MadeBendTest
{
    private static string Turn(string bend, string next = "east", string line = "size: 10, schedule: 40, class: 150, material: A106-B", string more = "") =>
        Desk.Drawing($"{{go: north, by: 2000, to: {bend}}}\n{{go: {next}, by: 1500, to: open}}", "shop: {root gap: 3}\n" + more, line, "to: open");

    private static MadeBend Bend(string yaml) => Desk.Packet(yaml).Fabrication.Route.Components.OfType<MadeBend>().Single();

    // pipingengineer.org "Formula for miter fabrication from pipe" (examples.md M1): 90 degrees in 4 cuts, radius 381 mm, pipe 273 mm: middle pieces 151.6, ends 75.8, cutback 27.15.
    [Fact]
    public void A_mitred_bend_has_the_published_pieces()
    {
        var bend = Bend(Turn("mitred bend, cuts: 4, bend radius: 381"));
        Assert.Equal(11.25, Angles.ToDegrees(bend.Cut), 1e-9);
        Assert.Equal(151.6, bend.Piece(isEnd: false).Middle, 0.05);
        Assert.Equal(75.8, bend.Piece(isEnd: true).Middle, 0.05);
        Assert.Equal(27.15, (bend.Piece(isEnd: true).Heel - bend.Piece(isEnd: true).Throat) / 2, 0.02);
    }

    // A published sheet "Miter Bend Design Calculation" (scribd 510677269): 60 degrees, radius 2000 mm, four pieces: middle pieces 705.31 mm long, ends 352.65.
    [Fact]
    public void Four_pieces_on_a_large_radius_are_as_published()
    {
        var bend = Bend(Desk.Drawing("{go: north, by: 9000, to: mitred bend, cuts: 3, bend radius: 2000}\n{go: {north: 1, east: 1.7320508}, by: 9000, to: open}", line: "size: 20, schedule: STD, class: 150", start: "to: open"));
        Assert.Equal((705.31, 352.65), (Math.Round(bend.Piece(isEnd: false).Middle, 2), Math.Round(bend.Piece(isEnd: true).Middle, 2)));
    }

    [Fact]
    public void The_pipes_before_and_behind_are_short_by_the_tangent_and_the_straight_end()
    {
        var f = Desk.Packet(Turn("mitred bend, cuts: 3, bend radius: 381, straight: 100")).Fabrication;
        Assert.Equal([2000 - 381 - 100 - 3, 1500 - 381 - 100 - 3], f.Cuts.Select(c => c.Length), (a, b) => Math.Abs(a - b) < 1e-6);
    }

    // The middle line touches the circle: from its centre each middle piece is 381 away at its middle, and the corners stand on it as a polygon round it.
    [Theory]
    [InlineData(2)]
    [InlineData(5)]
    public void Its_corners_stand_round_the_circle_of_its_radius(int cuts)
    {
        var bend = Bend(Turn($"mitred bend, cuts: {cuts}, bend radius: 381"));
        var centre = new Point(381, 2000 - 381, 0);
        Assert.Equal(cuts + 1, bend.Bodies.Count);
        var f = Desk.Packet(Turn($"mitred bend, cuts: {cuts}, bend radius: 381")).Fabrication;
        List<Point> line = [bend.In.At, .. f.Route.Seams.Select(s => s.At), bend.Out.At];
        Assert.All(line.Zip(line.Skip(1)).Skip(1).SkipLast(1), s => Assert.Equal(381, s.First.Toward(s.Second, 0.5).To(centre), 1e-6));
        Assert.Equal(line.Zip(line.Skip(1)).Sum(s => s.First.To(s.Second)), bend.Path, 1e-6);
        Assert.Equal(cuts, f.Route.Seams.Count);
        Assert.All(f.Route.Seams, s => Assert.Equal(381 / Math.Cos(Math.PI / 4 / cuts), s.At.To(centre), 1e-6));
        Assert.Equal(cuts, f.Spools[0].Attachments.Count());
        // Each weld leaves its gap of 3 out, and the saw of 3 takes 3 / cos of the cut along the pipe.
        Assert.Equal(bend.Path - (3 * cuts) + (3 * cuts / Math.Cos(Math.PI / 4 / cuts)), bend.PipeLength, 1e-9);
    }

    // A mitre halves the angle between its two pieces: both end there on one ellipse, as wide as the pipe over the cosine of the cut.
    [Fact]
    public void Its_picture_shows_piece_on_piece()
    {
        var pieces = Bend(Turn("mitred bend, cuts: 3, bend radius: 381")).Picture.Cast<Solid.Bar>().ToList();
        Assert.Equal(4, pieces.Count);
        foreach (var (one, next) in pieces.Zip(pieces.Skip(1)))
        {
            Assert.Equal(0, one.To.To(next.From), 1e-9);
            Assert.Equal(0, (one.FarAxis!.Value - next.Axis).Length, 1e-9);
            Assert.Equal(273.0 / 2 / Math.Cos(Math.PI / 12), one.RadiusTo, 0.05);
            Assert.Equal(Math.PI / 12, one.FarAxis.Value.AngleTo((one.To - one.From).Unit), 1e-9);
        }
    }

    // pertneer.net "Useful information when bending tube": length in the bend R x .01745 x degrees, setback R tan(half the bend). 762 x .01745 x 90 = 1196.7 (.0174533: 1196.95).
    [Fact]
    public void A_pulled_bend_has_its_developed_length_and_its_marks()
    {
        var yaml = Turn("bend, bend radius: 762, straight: 150", more: "materials: [{item: 1, what: pipe, size: 10, schedule: 40, material: A106-B, quantity: 5 m}]");
        var bend = Bend(yaml);
        Assert.Equal((150 + 1196.95 + 150, 150.0, 1346.95), (Math.Round(bend.PipeLength, 2), bend.Marks.Begin, Math.Round(bend.Marks.End, 2)));
        var f = Desk.Packet(yaml).Fabrication;
        // 10 in. schedule 40 weighs 60.29 kg/m (ASME B36.10M).
        Assert.Equal(60.29 * 1.49695, bend.Mass!.Kg, 0.3);
        var pipe = Assert.Single(f.Materials);
        Assert.Equal((f.Cuts.Sum(c => c.Length) + bend.PipeLength) / 1000, pipe.Needed, 1e-9);
        Assert.Contains(Rootgap.Cutting.Pieces.Of(f, "TEST-1"), p => p.Id == "1-C1" && Math.Abs(p.Length - bend.PipeLength) < 1e-9);
        Assert.Equal(
            Rootgap.Cutting.Pieces.Of(f, "TEST-1").Select(p => (p.Id, Math.Round(p.Length, 1))).Order(),
            Rootgap.Cutting.Pieces.OfPacket("{\"drawings\":[" + Given.Json(Desk.Packet(yaml)) + "]}", "packet.json").Select(p => (p.Id, Math.Round(p.Length, 1))).Order());
        Assert.Equal(3, f.Route.Pipes.Count + f.Route.Components.Count);
    }

    [Fact]
    public void A_bend_turns_more_than_a_right_angle_and_an_elbow_does_not()
    {
        const string Back = "{south: 1, east: 1}";
        Desk.Finds("turn-over-90", "runs[0].legs[0]", Turn("elbow", Back));
        Desk.IsSilent("turn-over-90", Turn("bend, bend radius: 762", Back));
        // 762 tan(135 / 2): 1839.6.
        Assert.Equal(2000 - 1839.63 - 3, Desk.Packet(Turn("bend, bend radius: 762", Back)).Fabrication.Cuts[0].Length, 0.01);
    }

    [Theory]
    [InlineData("mitred bend, cuts: 6, bend radius: 381", "impossible-value")]
    [InlineData("mitred bend, cuts: 1, bend radius: 381", "impossible-value")]
    [InlineData("mitred bend, bend radius: 381", "missing-key")]
    [InlineData("mitred bend, cuts: 3", "missing-key")]
    [InlineData("bend", "missing-key")]
    [InlineData("bend, bend radius: 381, cuts: 3", "key-does-not-fit")]
    public void What_is_missing_or_cannot_be_is_told(string bend, string rule) =>
        Assert.Contains(DrawingReader.Read(Turn(bend), "given.yaml").Errors, e => e.Rule == rule);

    [Fact]
    public void Its_template_bears_the_lengths_of_its_pieces()
    {
        var template = Assert.Single(Templates.Of(Desk.Packet(Turn("mitred bend, cuts: 4, bend radius: 381")).Fabrication));
        Assert.Equal(2 * 27.15, template.Deepest, 0.05);
        Assert.Contains(template.Notes, n => n.Contains("151.6", StringComparison.Ordinal) && n.Contains("75.8", StringComparison.Ordinal));
    }
}
