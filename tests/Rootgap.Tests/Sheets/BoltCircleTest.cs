using Rootgap.Routes;
using Rootgap.Drawings;
using Rootgap.Measure;
using Rootgap.Packets;
using Rootgap.Sheets;

namespace Rootgap.Tests.Sheets;

/// <summary>How flanges' bolt holes stand on the spool sheet. NPS 6 class 150: 8 holes on 241.3 mm in a flange of 280 mm (ASME B16.5 tables 7 and 8).</summary>
public class BoltCircleTest
{
    private const double Pitch = Math.PI / 4;

    private static Packet Line(string go, string holes) => Given.Millimetres("size: 6, schedule: 40, class: 150", "open", $"{{go: {go}, by: 900, to: flange{holes}}}");

    private static BoltCircle Circle(Packet packet) => packet.Fabrication.Route.Components.OfType<Flange>().Select(c => BoltCircle.Of(c)!).First();

    /// <summary>Middles of the holes as drawn, from the middle of the flange: right and up, in real mm (the flange's drawn outside is 280).</summary>
    private static List<(double Right, double Up)> Drawn(BoltCircle circle)
    {
        var page = new SvgReader(SvgWriter.Write(new Canvas().Place(circle.ToFigure("E1", 90, Units.Millimetres), new(10, 10)).ToScene(Paper.A4)));
        var rim = page.Paths.Where(p => p.Class.Length == 0).MaxBy(p => p.Line.Max(s => s.X) - p.Line.Min(s => s.X) is var w && w < 33 && p.Line.Count > 30 ? w : 0).Line;
        var k = 280 / (rim.Max(s => s.X) - rim.Min(s => s.X));
        var (x, y) = ((rim.Max(s => s.X) + rim.Min(s => s.X)) / 2, (rim.Max(s => s.Y) + rim.Min(s => s.Y)) / 2);
        return [.. page.Paths.Where(p => p.Class == "bolt hole").Chunk(2).Select(h => (k * (((h[0].Line.Max(s => s.X) + h[0].Line.Min(s => s.X)) / 2) - x), -k * (((h[0].Line.Max(s => s.Y) + h[0].Line.Min(s => s.Y)) / 2) - y)))];
    }

    private static double[] FromUp(List<(double Right, double Up)> holes) => [.. holes.Select(h => Math.Atan2(h.Right, h.Up)).Order()];

    [Fact]
    public void A_straddling_flange_is_drawn_with_its_eight_holes_on_the_bolt_circle_half_a_pitch_off_upright()
    {
        var holes = Drawn(Circle(Line("north", "")));
        Assert.Equal(8, holes.Count);
        Assert.All(holes, h => Assert.Equal(241.3 / 2, Math.Sqrt((h.Right * h.Right) + (h.Up * h.Up)), 0.2));
        Assert.All(FromUp(holes), a => Assert.Equal(Pitch / 2, Math.Abs(Math.IEEERemainder(a, Pitch)), 1e-3));
    }

    [Fact]
    public void On_centre_one_hole_stands_at_the_very_top()
    {
        var circle = Circle(Line("north", ", holes: on-centre"));
        Assert.Contains(Drawn(circle), h => Math.Abs(h.Right) < 0.2 && Math.Abs(h.Up - (241.3 / 2)) < 0.2);
        Assert.Equal(0, circle.LevelReading, 1e-9);
        Assert.Contains("One hole on the up line", circle.Says, StringComparison.Ordinal);
    }

    [Fact]
    public void A_turned_flange_at_the_end_of_a_run_is_turned_clockwise_for_who_looks_at_it_and_the_level_reads_the_turn()
    {
        // Clockwise: the left pin of the top pair goes up, the right one comes down.
        var circle = Circle(Line("north", ", holes: 10"));
        var ten = 10 * Math.PI / 180;
        Assert.Contains(FromUp(Drawn(circle)), a => Math.Abs(a - ((Pitch / 2) + ten)) < 1e-3);
        Assert.Equal(ten, circle.LevelReading, 1e-9);
        Assert.Contains("left pin higher", circle.Reading(Units.Millimetres), StringComparison.Ordinal);
        // The fit-up card of the same flange reckons its holes by itself.
        var packet = Line("north", ", holes: 10");
        var flange = packet.Fabrication.Route.Components.First(c => c.Ware == Ware.Flange);
        var between = new Rootgap.FitUp.FitJoints(packet.Fabrication).HolesOf(flange.Id)!.Between;
        Assert.Contains(circle.Holes, h => Math.Abs(h.AngleTo(between) - (Pitch / 2)) < 1e-9);
    }

    [Theory]
    [InlineData("up")]
    [InlineData("down")]
    public void A_level_face_straddles_the_north_south_line_and_is_drawn_with_north_up(string go)
    {
        var circle = Circle(Line(go, ""));
        Assert.Equal("north", circle.LineName);
        Assert.All(circle.Holes, h => Assert.Equal(Pitch / 2, Math.Abs(Math.IEEERemainder(Math.Atan2(h.X, h.Y), Pitch)), 1e-9));
        Assert.All(FromUp(Drawn(circle)), a => Assert.Equal(Pitch / 2, Math.Abs(Math.IEEERemainder(a, Pitch)), 1e-3));
    }

    [Theory]
    [InlineData("joint, holes: 7")]
    [InlineData("joint, holes: on-centre")]
    [InlineData("valve, kind: gate, holes: 7")]
    public void Flanges_that_mate_have_their_holes_in_the_same_places(string to)
    {
        var packet = Given.Millimetres("size: 6, schedule: 40, class: 150", "open", $"{{go: east, by: 900, to: {to}}}", "{go: east, by: 900, to: open}");
        var circles = packet.Fabrication.Route.Components.OfType<Flange>().Select(c => BoltCircle.Of(c)!).ToList();
        Assert.Equal(2, circles.Count);
        Assert.All(circles[0].Holes, h => Assert.Contains(circles[1].Holes, o => o.AngleTo(h) < 1e-9));
    }

    /// <summary>Pins stand BC sin(180°/N) apart: 92.3 mm for eight holes on 241.3 (chord of a circle).</summary>
    [Fact]
    public void The_distance_of_the_pins_is_the_chord_of_one_pitch() =>
        Assert.Contains("Pins 92.3 apart", Circle(Line("east", "")).Reading(Units.Millimetres), StringComparison.Ordinal);

    // ASME B16.5: NPS 4 class 300 has eight holes on 200.0 mm. With one at the very top the pair that lies level is a quarter turn apart: 200.0 sin 45.
    [Fact]
    public void With_a_hole_at_the_top_the_pins_stand_in_the_two_beside_it()
    {
        var circle = Circle(Given.Millimetres("size: 4, schedule: 40, class: 300", "open", "{go: east, by: 900, to: flange, holes: on-centre}"));
        Assert.Equal(141.4, circle.Pins, 0.05);
        Assert.Contains("Level across the pair beside the top hole: 0.0°. Pins 141.4 apart", circle.Reading(Units.Millimetres), StringComparison.Ordinal);
        Assert.Contains("Pins 5 9/16\" apart", circle.Reading(Units.Inches), StringComparison.Ordinal);
    }

    // ASME B16.5: NPS 2 class 150 has four holes on 120.7 mm. With one at the very top the two beside it lie level, right across the circle.
    [Fact]
    public void Of_four_holes_with_one_at_the_top_the_pins_stand_right_across()
    {
        var circle = Circle(Given.Millimetres("size: 2, schedule: 40, class: 150", "open", "{go: east, by: 900, to: flange, holes: on-centre}"));
        Assert.Equal(120.7, circle.Pins, 0.05);
        Assert.Equal(0, circle.LevelReading, 1e-9);
    }

    [Theory]
    [InlineData("", false)]
    [InlineData(", holes: on-centre", true)]
    public void The_packet_says_where_a_hole_stands_on_the_line(string holes, bool isOnCentre)
    {
        using var json = System.Text.Json.JsonDocument.Parse(Given.Json(Line("north", holes)));
        var said = json.RootElement.GetProperty("components").EnumerateArray().Where(c => c.TryGetProperty("holes straddle", out _)).Any(c => c.GetProperty("holes straddle").TryGetProperty("on centre", out var on) && on.GetBoolean());
        Assert.Equal(isOnCentre, said);
    }

    [Fact]
    public void A_branch_is_turned_clockwise_for_who_looks_along_the_run_and_measured_round_the_header()
    {
        // A branch to the east of a run that goes north: a quarter turn clockwise, a quarter of the way round NPS 6 (OD 168.3, ASME B36.10M).
        var packet = Given.Packet("""
            drawing: T-1
            units: mm
            line: {size: 6, schedule: 40, class: 150}
            runs:
              - run: main
                start: {to: open}
                legs:
                  - {go: north, by: 900, to: tee, branch: east, name: N1}
                  - {go: north, by: 900, to: elbow}
                  - {go: {up: 300, east: 300}, to: open}
            """);
        var turns = PartTurn.Of(packet.Fabrication, packet.Fabrication.Spools[0]);
        Assert.Equal(Math.PI / 2, turns[0].Roll, 1e-9);
        Assert.Equal(Math.PI * 168.3 / 4, turns[0].Round, 0.01);
        // The elbow goes up and east in equal parts: 45 degrees clockwise from the top.
        Assert.Equal(Math.PI / 4, turns[1].Roll, 1e-9);
    }

    /// <summary>PFI ES-3 linear tolerances: 3 mm to NPS 10, 5 mm from 12 to 24, 6 mm above 24 to 36 (from memory).</summary>
    [Theory]
    [InlineData("10", "", 3)]
    [InlineData("12", "", 5)]
    [InlineData("24", "", 5)]
    [InlineData("30", "", 6)]
    [InlineData("6", "linear tolerance: 1.5", 1.5)]
    public void The_tolerance_of_check_dimensions_is_by_size_or_the_shops_own(string size, string shop, double tolerance)
    {
        var packet = Given.Run("mm", $"size: {size}, schedule: STD", shop.Length > 0 ? shop : "root gap: 3", "open", "{go: east, by: 2000, to: open}");
        Assert.Equal(tolerance, SpoolEnd.ToleranceOf(packet.Fabrication, packet.Fabrication.Spools[0]).Mm, 1e-9);
    }
}
