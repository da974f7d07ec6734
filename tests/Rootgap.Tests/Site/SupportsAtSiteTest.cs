using System.Buffers;
using System.Text;
using System.Text.Json;
using Rootgap.Drawings;
using Rootgap.Measure;
using Rootgap.Papers;
using Rootgap.Sheets;
using Rootgap.Site;
using Rootgap.Site.Closing;
using Rootgap.Site.Erection;
using Rootgap.Site.Forecasting;
using Rootgap.Site.Splitting;
using Rootgap.Site.Surveys;
using Rootgap.Tests.Samples;

namespace Rootgap.Tests.Site;

/// <summary>What supports are at the site: set first, rested on, kept clear of, set to heights. Figures by geometry and statics done here, and by published formulas.</summary>
public class SupportsAtSiteTest
{
    // A pump and an exchanger with a line between: a rise, a long level pipe in two spools on two supports, and a final fit.
    private static string Drawing(string more = "", string first = "kind: shoe, tag: PS-11, height: 100", string second = "kind: hanger, tag: PS-12, height: 900") => $$$"""
        drawing: TEST-1
        revision: 1
        line: {size: 6, schedule: 40, class: 150, material: A106-B}
        {{{more}}}
        runs:
          - run: main
            start: {to: flange, at: {east: 2000, north: 1000, up: 900}}
            legs:
              - {go: up, by: 1500, to: elbow}
              - {go: north, by: 1800, to: support, {{{first}}}}
              - {go: north, by: 2400, to: weld, end: field}
              - {go: north, by: 1500, to: support, {{{second}}}}
              - {go: north, by: 1300, to: elbow, end: final-fit}
              - {go: east, by: 1600, to: flange}
        """;

    private static SiteLine Line(string yaml) => SiteLine.Of(Given.Packet(yaml).Fabrication);

    // AISC Steel Construction Manual, Table 3-23, case 24 (beam overhanging one support, uniform load): R1 = w/2l (l² - a²), R2 = w/2l (l + a)².
    [Theory]
    [InlineData(4000, 1000)]
    [InlineData(6000, 2500)]
    [InlineData(3000, 0)]
    public void A_beam_with_an_overhang_rests_as_the_published_formula_has_it(double l, double a)
    {
        var w = 0.0283; // kg a millimetre: NPS 6 schedule 40
        var loads = Statics.OnSeveral(w * (l + a), new(0, (l + a) / 2, 0), [new(0, 0, 0), new(0, l, 0)]);
        Assert.Equal(w / (2 * l) * ((l * l) - (a * a)), loads[0], 6);
        Assert.Equal(w / (2 * l) * (l + a) * (l + a), loads[1], 6);
    }

    // A plate on three columns bears by areas of the opposite triangles; one on four equal springs at the corners of a square 2a, loaded at (x, y) from its middle,
    // P/4 (1 ± x/a ± y/a): the usual answers to a table's legs.
    [Fact]
    public void Three_columns_and_four_springs_bear_as_the_textbook_has_it()
    {
        Point[] three = [new(0, 0, 0), new(4000, 0, 100), new(0, 3000, 0)];
        var loads = Statics.OnSeveral(120, new(1000, 900, 0), three);
        Assert.Equal([120 * (1 - 0.25 - 0.3), 120 * 0.25, 120 * 0.3], loads.Select(v => Math.Round(v, 9)));
        const double A = 500;
        var (x, y) = (120.0, -60.0);
        var four = Statics.OnSeveral(80, new(x, y, 0), [new(-A, -A, 0), new(A, -A, 0), new(A, A, 0), new(-A, A, 0)]);
        double[] expected = [20 * (1 - (x / A) - (y / A)), 20 * (1 + (x / A) - (y / A)), 20 * (1 + (x / A) + (y / A)), 20 * (1 - (x / A) + (y / A))];
        for (var i = 0; i < 4; i++)
            Assert.Equal(expected[i], four[i], 9);
    }

    // On a line that lies askew; and a support from which the mass would lift bears nothing.
    [Fact]
    public void A_line_askew_bears_by_its_lever_arms_and_nothing_pulls_down()
    {
        var askew = Statics.OnSeveral(100, new(750, 1000, 0), [new(0, 0, 0), new(3000, 4000, 0)]);
        Assert.Equal([75, 25], askew.Select(v => Math.Round(v, 9)));
        var over = Statics.OnSeveral(100, new(2200, 0, 0), [new(0, 0, 0), new(1000, 0, 0), new(2000, 0, 0)]);
        Assert.Equal(0, over[0]);
        Assert.Equal(100, over.Sum(), 9);
        Assert.All(over, v => Assert.True(v >= 0));
    }

    [Fact]
    public void Supports_are_set_first_and_a_spool_on_two_of_them_needs_no_stand()
    {
        var steps = ErectionOrder.Of(Line(Drawing(second: "kind: hanger, tag: PS-12}\n      - {go: north, by: 600, to: support, kind: shoe, tag: PS-13").Replace("by: 1300, to: elbow", "by: 700, to: elbow", StringComparison.Ordinal)));
        Assert.Equal(["PS1", "PS2", "PS3"], steps[0].Sets.Select(s => s.Id));
        Assert.Equal("supports", steps[0].Name);
        var alone = steps.Single(s => s.Name == "spool 2");
        Assert.Empty(alone.Stands!);
        // By moments about PS-13: both stand in line with the pipe.
        var (mass, centre) = (alone.Body!.Mass, alone.Body.Centre.Y);
        var (a, b) = (alone.RestsOn[0].Support.At.Y, alone.RestsOn[1].Support.At.Y);
        if (alone.Joints.Count == 0)
            Assert.Equal(mass * (b - centre) / (b - a), alone.RestsOn[0].Bears, 3);
        else
            Assert.InRange(alone.RestsOn.Sum(r => r.Bears), 0.5 * mass, mass);
    }

    // By hand: 900 + 1500 = 2400 for the middle line, 168.3 outside: 2315.85 under the pipe, steel 100 below; the hanger's steel 900 above the top.
    [Fact]
    public void Heights_are_told_in_the_drawings_units()
    {
        var readings = ErectionOrder.Of(Line(Drawing()))[0].Readings;
        Assert.Contains("EL +2215.9", readings[0].Target, StringComparison.Ordinal);
        Assert.Contains("EL +3384.2", readings[1].Target, StringComparison.Ordinal);
        var inches = ErectionOrder.Of(Line(Drawing("units: in").Replace("up: 900", "up: 36", StringComparison.Ordinal).Replace("by: 1500", "by: 60", StringComparison.Ordinal).Replace("by: 1800", "by: 72", StringComparison.Ordinal)
            .Replace("by: 2400", "by: 96", StringComparison.Ordinal).Replace("by: 1300", "by: 48", StringComparison.Ordinal).Replace("by: 1600", "by: 60", StringComparison.Ordinal)
            .Replace("height: 100", "height: 4", StringComparison.Ordinal).Replace("height: 900", "height: 36", StringComparison.Ordinal)));
        // 36 + 60 - 6.625/2 - 4 = 88.6875 in. = 7 ft 4 11/16 in.
        Assert.Contains("7'-4 11/16\"", inches[0].Readings[0].Target, StringComparison.Ordinal);
        Assert.All(inches.SelectMany(s => s.Readings), r => Assert.DoesNotContain("2315", r.Target, StringComparison.Ordinal));
    }

    // A riser on a trunnion over a tacked weld, a header on a shoe, and a branch that swings out to the south.
    private const string Riser = """
        drawing: TEST-2
        line: {size: 6, schedule: 40, class: 150, material: A106-B}
        runs:
          - run: main
            start: {to: flange, at: {east: 0, north: 0, up: 900}}
            legs:
              - {go: north, by: 2500, to: elbow, end: field}
              - {go: up, by: 1000, to: support, kind: trunnion, tag: PS-2, side: west, height: 350}
              - {go: up, by: 1200, to: elbow}
              - {go: east, by: 1100, to: tee, name: T1, branch: south, branch size: 6}
              - {go: east, by: 1900, to: support, kind: shoe, tag: PS-3, height: 100}
              - {go: east, by: 1500, to: flange}
          - run: side
            start: {from: T1}
            legs:
              - {go: south, by: 1800, to: flange}
        """;

    // Equilibrium: what holds a spool bears its mass, no more and no less, and each by the moments of all; tacks carry nothing (common practice), so what hangs on them is told.
    [Fact]
    public void What_holds_a_spool_bears_its_mass_together()
    {
        foreach (var line in SampleFile.Clean.Select(s => SiteLine.Of(s.Packet().Fabrication)).Concat([Line(Riser), Line(Drawing()), Line(Drawing(second: "kind: guide"))]))
        {
            foreach (var step in ErectionOrder.Of(line).Where(s => s is { Body: not null, Stands: not null }))
            {
                var told = step.RestsOn.Sum(r => r.Bears) + step.Stands!.Sum(s => s.Bears) + step.OnJoints.Sum(j => j.Bears);
                Assert.True(Math.Abs(told - step.Body!.Mass) < 1e-6, $"{line.Fabrication.Route.Drawing.Number} {step.Name}: {told} of {step.Body.Mass}");
                foreach (var (joint, _) in step.OnJoints.Where(j => !j.Joint.IsBolted))
                    Assert.Contains(step.Holds, h => h.Contains($"{joint.Id}, on which", StringComparison.Ordinal));
            }
        }
    }

    [Fact]
    public void A_spool_that_would_hang_on_a_tack_gets_a_stand_and_its_riser_support_bears()
    {
        var step = ErectionOrder.Of(Line(Riser)).Single(s => s.Joints.Any(j => !j.IsBolted));
        Assert.Single(step.Stands!);
        Assert.Empty(step.OnJoints);
        Assert.All(step.RestsOn, r => Assert.True(r.Bears > 0.05 * step.Body!.Mass, r.Support.Tag));
    }

    // A riser has no underside: 900 + 1000 is the middle of what is welded to it.
    [Fact]
    public void A_support_on_a_riser_is_told_by_its_middle()
    {
        var packet = Given.Packet(Riser);
        var line = SiteLine.Of(packet.Fabrication);
        var steps = ErectionOrder.Of(line);
        var set = Assert.Single(steps[0].Readings, r => r.What.StartsWith("PS-2", StringComparison.Ordinal));
        Assert.Contains("its middle on the riser", set.What, StringComparison.Ordinal);
        Assert.StartsWith("EL +1900;", set.Target, StringComparison.Ordinal);
        var rests = Assert.Single(steps.Skip(1).SelectMany(s => s.Readings), r => r.What.StartsWith("PS-2", StringComparison.Ordinal));
        Assert.DoesNotContain("underside", rests.What, StringComparison.Ordinal);
        Assert.Equal("EL +1900", rests.Target);
        var words = Said(ErectionPages.Of(packet.ToJob(Paper.A4), line, steps, []));
        Assert.Contains("PS-2, middle EL +1900", words, StringComparison.Ordinal);
        Assert.DoesNotContain("PS-2, underside", words, StringComparison.Ordinal);
    }

    // By hand: elbows' middle line 1000 + 1800 + 2400 + 1500 + 1300 = 8000 north, its end 229 before (ASME B16.9, NPS 6 long radius), the gap 3.2: the pipe ends at 7767.8, and 100 further while its extra is on.
    [Theory]
    [InlineData("1, 2, 3, W5", "W5 of 2, with its 100 on", "N 7867.8")]
    [InlineData("1, 3, 2, W5", "W5 of 2, cut", "N 7767.8")]
    public void A_final_fit_end_is_told_where_the_pipe_ends_and_what_it_keeps_out_is_said(string order, string end, string north)
    {
        var (steps, _) = ErectionOrder.Checked(Line(Drawing()), order.Split(", "));
        Assert.Contains(steps.SelectMany(s => s.Readings), r => r.What.StartsWith(end + ", middle", StringComparison.Ordinal) && r.Target.EndsWith(north, StringComparison.Ordinal));
        var last = steps.Last(s => s.Body is not null);
        // 100 less the gap.
        Assert.Contains(last.Holds, h => h.Contains("2-A has 100 left on and reaches 96.8 into the place of", StringComparison.Ordinal) && h.Contains("only then", StringComparison.Ordinal));
        Assert.DoesNotContain(steps.Where(s => s.Body is not null && s != last).SelectMany(s => s.Holds), h => h.Contains("left on", StringComparison.Ordinal));
    }

    [Fact]
    public void An_inch_line_is_surveyed_in_its_own_units()
    {
        var packet = Given.Packet(Drawing("units: in").Replace("east: 2000, north: 1000, up: 900", "east: 80, north: 40, up: 36", StringComparison.Ordinal).Replace("by: 1500", "by: 60", StringComparison.Ordinal).Replace("by: 1800", "by: 72", StringComparison.Ordinal)
            .Replace("by: 2400", "by: 96", StringComparison.Ordinal).Replace("by: 1300", "by: 48", StringComparison.Ordinal).Replace("by: 1600", "by: 60", StringComparison.Ordinal)
            .Replace("height: 100", "height: 4", StringComparison.Ordinal).Replace("height: 900", "height: 36", StringComparison.Ordinal));
        var line = SiteLine.Of(packet.Fabrication);
        var words = Said(SurveySheets.Of(packet.ToJob(Paper.Letter), line, new()));
        Assert.Contains("°F", words, StringComparison.Ordinal);
        Assert.DoesNotContain("°C", words, StringComparison.Ordinal);
        // 900, 300 and 100 mm back are on no rule in inches.
        foreach (var odd in (string[])["2'-11 7/16\"", "11 13/16\" back", "3 15/16\" back"])
            Assert.DoesNotContain(odd, words, StringComparison.Ordinal);
        Assert.Contains("3'-0\" back", words, StringComparison.Ordinal);
    }

    // The demo's two closings: what would help is named run by run, and what may be out across the pipe stands once.
    [Fact]
    public void A_forecast_names_the_legs_run_by_run_and_one_figure_a_direction()
    {
        var forecast = Forecast.Of(SampleFile.All.First(s => s.Name == "chilled-supply").Packet().Fabrication, new(Draws: 2000));
        var said = string.Join('\n', new ForecastWords(Units.Millimetres).Of(forecast));
        Assert.Contains("takes up what is out; one on leg 1, 2, 3 or 7 of run 1 would", said, StringComparison.Ordinal);
        Assert.Contains("one on leg 1, 2 or 3 of run 1 or leg 3 of run 2 would", said, StringComparison.Ordinal);
        Assert.DoesNotContain("may be out", said, StringComparison.Ordinal);
    }

    // Two standard deviations of 185.2 mm are 14.58 in.
    [Theory]
    [InlineData(Units.Inches, "length: ±15\" becomes ±5/16\"")]
    [InlineData(Units.Millimetres, "length: ±370 becomes ±8")]
    public void A_doubt_is_told_no_finer_than_it_is(Units units, string told) => Assert.Equal(told, SurveySheets.Tells([185.2, 0, 0, 0, 0], [4.1, 0, 0, 0, 0], units));

    // Pictures of all steps: no name on another, none on a pipe that stands or goes up.
    [Fact]
    public void Names_in_the_pictures_of_erection_keep_clear_of_each_other()
    {
        foreach (var line in SampleFile.Clean.Select(s => SiteLine.Of(s.Packet().Fabrication)).Concat([Line(Riser), Line(Drawing()), Line(Drawing(second: "kind: shoe, tag: PS-12}\n      - {go: north, by: 150, to: support, kind: shoe, tag: PS-13"))]))
        {
            var steps = ErectionOrder.Of(line);
            for (var i = 0; i < steps.Count; i++)
            {
                var names = ErectionPicture.Of(line, steps, i, 87, 50).Marks.OfType<Text>().Where(t => t.Style.Bold).ToList();
                for (var a = 0; a < names.Count; a++)
                {
                    for (var b = a + 1; b < names.Count; b++)
                        Assert.False(names[a].At.X < names[b].At.X + names[b].Width && names[b].At.X < names[a].At.X + names[a].Width && Math.Abs(names[a].At.Y - names[b].At.Y) < names[a].Style.Height, $"{line.Fabrication.Route.Drawing.Number} step {i + 1}: {names[a].Content} on {names[b].Content}");
                }
            }
        }
    }

    private static string Said(IEnumerable<Page> pages) => string.Join('\n', pages.SelectMany(p => Words(p.Marks))).Replace('\u00a0', ' ');

    private static IEnumerable<string> Words(IEnumerable<Mark> marks) => marks.SelectMany(m => m is Text text ? [text.Content] : m is Group group ? Words(group.Marks) : []);

    [Theory]
    [InlineData("1, 2, 3, W5", "")]
    [InlineData("supports, 1, 2, 3, W5", "")]
    [InlineData("1, supports, 2, 3, W5", "before its supports")]
    public void A_foremans_own_order_may_name_the_supports(string order, string wrong)
    {
        var line = Line(Drawing());
        var names = order.Split(", ").Select(n => n == "W5" ? line.FinalFits.Single().Id : n).ToList();
        var told = ErectionOrder.Checked(line, names).Wrong;
        if (wrong.Length == 0)
            Assert.Empty(told);
        else
            Assert.Contains(told, t => t.Contains(wrong, StringComparison.Ordinal));
    }

    // NPS 6 keeps 168.3 to a support; with a length of 300 the edge counts.
    [Theory]
    [InlineData("kind: shoe", 168.3)]
    [InlineData("kind: shoe, length: 300", 168.3 + 150)]
    public void The_split_keeps_new_welds_clear_of_supports(string support, double least)
    {
        var packet = Given.Packet(Drawing("shop: {envelope: {length: 3600, width: 2400, height: 2400, mass: 500}}", first: support, second: "kind: guide"));
        var split = Split.Of(packet.Fabrication, new(Free: true));
        Assert.NotEmpty(split.Plans);
        foreach (var mark in split.Plans.SelectMany(p => p.Marks).Where(m => m.Place.Along is not null))
        {
            foreach (var s in packet.Fabrication.Route.Supports.Where(s => (mark.Place.At - s.At).SquareTo(s.Along).Length < 1))
                Assert.True(mark.Place.At.To(s.At) >= (s.Id == "PS1" ? least : 168.3) - 0.01, $"{mark.Place.Name} stands {mark.Place.At.To(s.At):0.0} from {s.Id}");
        }
    }

    // The hanger's height taken up: of all that comes from the pump's side, nothing up or down is left at its place but what it is set to (±1: sd 0.577).
    [Fact]
    public void A_support_that_is_set_to_its_height_takes_out_what_comes_up_or_down()
    {
        static Forecast Of(string more) => Forecast.Of(Given.Packet(Drawing(more)).Fabrication, new(Draws: 4000));
        var (free, set) = (Of("").Closings.Single(), Of("forecast: {supports: [PS-12, PS-11], height: {normal: 0.4}}").Closings.Single());
        Assert.True(set.Opening.FirstOrder.Y < free.Opening.FirstOrder.Y);
        Assert.Equal(free.Opening.FirstOrder.X, set.Opening.FirstOrder.X, 9);
        Assert.Contains(set.Opening.Shares, s => s.At == "PS-12" && s.Error == "height" && s.Of == "y");
        // Draws of the full geometry beside the levers.
        Assert.InRange(set.Opening.Draws!.Value.Y / set.Opening.FirstOrder.Y, 0.95, 1.05);
    }

    // The spool with the hanger stands 8 low at both ends: no cut takes that out, so it is moved, and the hanger's height goes with it as the lever has it.
    [Fact]
    public void Heights_at_supports_follow_a_movement()
    {
        var line = Line(Drawing());
        var readings = new[] { "W4 of 2", "W5 of 2" }.SelectMany(name =>
        {
            var end = line.EndOf(name)!;
            var face = end.Face + (end.Normal * end.Extra);
            return new[] { ("lip 12", 0, 1), ("lip 3", 1, 0), ("lip 6", 0, -1), ("lip 9", -1, 0) }.Select(p =>
                SiteLines.Text($"  - {{point: {p.Item1}, at: {name}, east: {face.X + (p.Item2 * 168.3 / 2)}, north: {face.Y}, up: {face.Z - 8 + (p.Item3 * 168.3 / 2)}, sd: 0.001}}"));
        });
        var survey = $"survey: low\nstanding: {{{string.Join(", ", line.Bodies.Where(b => b.Name != "spool 2").Select(b => b.Name + ": drawn"))}}}\nheld: [spool 1, spool 3]\nloose: [W4]\nreadings:\n{string.Join('\n', readings)}";
        var read = SurveyReading.Read(line, "survey.yaml", Encoding.UTF8.GetBytes(survey));
        Assert.True(read.Errors.Count == 0, string.Join('\n', read.Errors.Select(e => e.Message)));
        var (closing, errors) = LineClosing.Of(line, read.Survey);
        Assert.True(closing is not null, string.Join('\n', errors.Select(e => e.Message)));
        var moved = Assert.Single(closing.Movement.Moves);
        Assert.Equal("spool 2", Assert.Single(moved.Bodies).Name);
        using var json = JsonDocument.Parse(JsonOf(closing));
        var height = Assert.Single(json.RootElement.GetProperty("moves")[0].GetProperty("supports").EnumerateArray());
        Assert.Equal("PS2", height.GetProperty("support").GetString());
        var lever = line.Fabrication.Route.Supports[1].At - moved.Centre;
        var up = moved.Shift.Z + moved.Turn.Cross(lever).Z;
        Assert.True(up > 5, $"{up}");
        Assert.Equal(up, height.GetProperty("by").GetDouble(), 0.02);
        // Where the body is found: its ends' own deviations take some tenths of the eight.
        var (shift, turn, _) = closing!.Adjustment.PoseOf(moved.Bodies[0]);
        var found = shift.Z + turn.Cross(line.Fabrication.Route.Supports[1].At - moved.Bodies[0].Reference).Z;
        Assert.InRange(found, -8.1, -6.5);
        Assert.Equal(2315.85 + found + up, height.GetProperty("underside").GetDouble(), 0.02);
        Assert.Contains(new ClosingWords(Units.Millimetres).Say(closing), w => w.Contains("PS-12 to EL", StringComparison.Ordinal));
    }

    private static string JsonOf(LineClosing closing)
    {
        var buffer = new ArrayBufferWriter<byte>();
        using (var json = new Utf8JsonWriter(buffer))
            ClosingJson.Write(json, closing, new ClosingWords(Units.Millimetres).Say(closing));
        return Encoding.UTF8.GetString(buffer.WrittenSpan);
    }
}
