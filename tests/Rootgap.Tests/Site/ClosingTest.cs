using System.Globalization;
using System.Text;
using System.Text.RegularExpressions;
using Rootgap.FitUp;
using Rootgap.Measure;
using Rootgap.Packets;
using Rootgap.Records;
using Rootgap.Sheets;
using Rootgap.Site;
using Rootgap.Site.Closing;
using Rootgap.Site.Surveys;

namespace Rootgap.Tests.Site;

/// <summary>The closing of a line by hand: figures that can be checked with a pencil.</summary>
public class ClosingTest
{
    // A pump's flange, up, over, a final-fit weld, a nozzle: the extra is on the level pipe.
    internal const string Line = """
        drawing: T-1
        revision: 3
        line: {size: 6, schedule: 40, class: 150, material: A106-B, gasket: 3.2}
        runs:
          - run: main
            start: {to: flange, at: {east: 0, north: 0, up: 1000}}
            legs:
              - {go: up, by: 1500, to: elbow, end: field}
              - {go: north, by: 3000, to: elbow, end: final-fit}
              - {go: east, by: 2000, to: flange, at: {east: 2000, north: 3000, up: 2500}}
        """;

    private static readonly Packet Drawn = Given.Packet(Line);
    private static readonly SiteLine Site = SiteLine.Of(Drawn.Fabrication);
    private static readonly string Final = Site.FinalFits.Single().Id;

    private static SurveyReading Read(string survey) => SurveyReading.Read(Site, "survey.yaml", Encoding.UTF8.GetBytes(survey));

    private static LineClosing Close(string survey, SiteLine? line = null)
    {
        var read = SurveyReading.Read(line ?? Site, "survey.yaml", Encoding.UTF8.GetBytes(survey));
        Assert.True(read.Errors.Count == 0, string.Join('\n', read.Errors.Select(e => e.Message)));
        var (closing, errors) = LineClosing.Of(line ?? Site, read.Survey);
        Assert.True(closing is not null, string.Join('\n', errors.Select(e => e.Message)));
        return closing!;
    }

    private static string AllDrawn(SiteLine line, string but = "") =>
        $"survey: x\nstanding: {{{string.Join(", ", line.Bodies.Where(b => b.Name != but && line.Ends.Any(e => e.Body == b)).Select(b => b.Name + ": drawn"))}}}\n";

    [Fact]
    public void As_drawn_the_cut_is_the_extra_all_round_and_everything_closes()
    {
        var closing = Close(AllDrawn(Site));
        var c = Assert.Single(closing.Closures);
        Assert.All(c.Opening.Round, mm => Assert.Equal(100, mm, 1e-9));
        Assert.True(closing.IsClosed);
        Assert.Empty(closing.Movement.Moves);
    }

    // The other side 4 mm up shows as an offset to 12 and as no cut; 10 mm nearer is 10 mm more to cut off (by hand).
    [Theory]
    [InlineData(0, 0, 4, 4, 0, 100)]
    [InlineData(0, -10, 0, 0, 0, 110)]
    [InlineData(3, 0, 0, 0, 3, 100)]
    public void What_the_other_side_stands_off_is_offset_and_what_it_stands_nearer_is_cut(double east, double north, double up, double offset12, double offset3, double mean)
    {
        var other = Site.FinalFits.Single().Across(Site.FinalFits.Single().Long!);
        var readings = new[] { "lip 12", "lip 3", "lip 6", "lip 9" }.Select(p =>
        {
            var (y, x) = p switch { "lip 12" => (1, 0), "lip 3" => (0, 1), "lip 6" => (-1, 0), _ => (0, -1) };
            var at = other.Face + (Vector.Up * (y * 168.3 / 2)) + (Vector.East * (x * 168.3 / 2));
            return SiteLines.Text($"  - {{point: {p}, at: {other.Name}, east: {at.X + east}, north: {at.Y + north}, up: {at.Z + up}, sd: 0.0001}}");
        });
        var closing = Close(AllDrawn(Site, other.Body.Name) + "readings:\n" + string.Join('\n', readings));
        var o = closing.Closures[0].Opening;
        // The pipe runs north: 12 is up, 3 is east. What was thought before pulls by some thousandths.
        Assert.Equal(offset12, o.OffsetUp, 0.02);
        Assert.Equal(offset3, o.OffsetSide, 0.02);
        Assert.Equal(mean, o.Mean, 0.02);
    }

    // What is to be cut off, and what the survey leaves open of it: within twice its standard deviation nobody knows yet whether the piece is long enough, and a gap takes no more
    // than a millimetre of doubt (the rule of two standard deviations, common practice of surveyors).
    [Fact]
    public void Whether_a_piece_is_long_enough_is_known_to_twice_the_doubt()
    {
        var other = Site.FinalFits.Single().Across(Site.FinalFits.Single().Long!);
        var seen = new HashSet<(string, string)>();
        foreach (var left in (double[])[-2, -0.7, -0.4, -0.1, 0.1, 0.3, 0.5, 0.9, 3])
        {
            foreach (var sd in (double[])[0.05, 0.2, 0.4, 0.7, 1.4])
            {
                var c = Close(AllDrawn(Site, other.Body.Name) + "readings:\n" + string.Join('\n', new[] { ("lip 12", 1, 0), ("lip 3", 0, 1), ("lip 6", -1, 0), ("lip 9", 0, -1) }.Select(p =>
                {
                    var at = other.Face + (Vector.Up * (p.Item2 * 168.3 / 2)) + (Vector.East * (p.Item3 * 168.3 / 2));
                    return SiteLines.Text($"  - {{point: {p.Item1}, at: {other.Name}, east: {at.X}, north: {at.Y + 100 - left}, up: {at.Z}, sd: {sd}}}");
                }))).Closures[0];
                var (least, doubt) = (c.Opening.Round.Min(), 2 * c.Sd[0]);
                var (expected, why) = least < -doubt ? ("DoesNotClose", "short") : least < doubt ? ("NotKnownYet", "near") : doubt > 1 ? ("NotKnownYet", "doubtful") : ("Closes", "long");
                Assert.Equal(expected, c.Length.ToString());
                seen.Add((expected, why));
            }
        }

        Assert.Equal(4, seen.Count);
    }

    // 11.5e-6 on 3 m of carbon steel, 20 degrees warmer: the pipe is 0.6 mm longer from its body's reference point on, and the closing takes it up.
    [Fact]
    public void Warm_steel_is_longer_by_its_expansion()
    {
        var cold = Close(AllDrawn(Site)).Closures[0].Opening.Mean;
        var warm = Close(AllDrawn(Site) + "steel: 40 C\nexpansion: 11.5e-6\n").Closures[0].Opening.Mean;
        var grown = Site.FinalFits.Single().Sides.Sum(e => (e.Face + (e.Normal * e.Extra) - e.Body.Reference).Dot(e.Normal)) * 11.5e-6 * 20;
        Assert.Equal(grown, warm - cold, 1e-6);
        Assert.Equal("carbon steel 2.3 mm, austenitic 3.4 mm on 10 m for 20 degrees", string.Create(CultureInfo.InvariantCulture,
            $"carbon steel {Rootgap.Standards.Metals.ExpansionOf("A106-B").PerDegree * 20 * 1e4:0.0} mm, austenitic {Rootgap.Standards.Metals.ExpansionOf("A312-TP304").PerDegree * 20 * 1e4:0.0} mm on 10 m for 20 degrees"));
    }

    // Four gaps 6.4, 5.0, 3.6, 5.0 at the noses of NPS 6 schedule 40 (154.1): mean 5.0, tilt 1.04 degrees about the line from 3 to 9.
    [Fact]
    public void Four_gaps_tell_mean_and_tilt()
    {
        var weld = Site.Joints.First(j => !j.IsBolted && !j.IsFinalFit);
        var closing = Close($$"""
            survey: x
            standing: {{{weld.First.Body.Name}}: drawn}
            readings:
              - {gap: 12, at: {{weld.Id}}, mm: 6.4, sd: 0.01}
              - {gap: 3, at: {{weld.Id}}, mm: 5.0, sd: 0.01}
              - {gap: 6, at: {{weld.Id}}, mm: 3.6, sd: 0.01}
              - {gap: 9, at: {{weld.Id}}, mm: 5.0, sd: 0.01}
            """);
        var joint = closing.Joints.Single(j => j.Joint == weld);
        Assert.Equal(5.0 - weld.Gap, joint.Off.Z, 0.01);
        Assert.Equal(Angles.ToDegrees(Math.Atan(2.8 / 154.08)), Math.Abs(Angles.ToDegrees(joint.Off.Rx)), 0.01);
        Assert.Equal(0, Angles.ToDegrees(joint.Off.Ry), 0.01);
    }

    [Fact]
    public void Tapes_between_two_flanges_do_not_see_offset_and_the_answer_says_so()
    {
        // Sixteen tapes from four holes to four, flanges 2 m apart, nothing known before (own computation: length sd 0.25, lateral 5.9 mm, roll 2.8 degrees at NPS 6).
        var line = SiteLine.Of(Given.Packet("""
            drawing: T-2
            line: {size: 6, schedule: 40, class: 150, material: A106-B, gasket: 3.2}
            runs:
              - run: main
                start: {to: flange, at: {east: 0, north: 0, up: 1000}}
                legs: [{go: north, by: 2006.4, to: flange, begin: final-fit}]
            """).Fabrication);
        var (a, b) = (line.Ends.First(e => e.Body.IsOutside), line.Ends.Last(e => e.Body.IsOutside));
        var drawn = new Standing([.. line.Ends.Select(_ => Motion.None)], new double[line.Ends.Count], Motion.None);
        var rows = from i in new[] { 1, 3, 5, 7 }
                   from k in new[] { 1, 3, 5, 7 }
                   let tape = new SiteReading.Tape(new(line.JointOf(a.Joint)!, a, TouchKind.Hole, Hole: i), new(line.JointOf(b.Joint)!, b, TouchKind.Hole, Hole: k))
                   select SiteLines.Text($"  - {{tape: [hole {i}, hole {k}], at: [{a.Name}, {b.Name}], mm: {tape.Of(drawn)}, sd: 1}}");
        var closing = Close($"survey: x\nstanding: {{{a.Body.Name}: drawn, {b.Body.Name}: far}}\nreadings:\n{string.Join('\n', rows)}", line);
        var sd = closing.Adjustment.PoseOf(b.Body).Sd;
        Assert.Equal(0.25, sd[1], 0.02);
        Assert.InRange(sd[0], 5.5, 6.3);
        Assert.InRange(sd[2], 5.5, 6.3);
        Assert.InRange(Angles.ToDegrees(sd[4]), 2.5, 3.1);
    }

    [Fact]
    public void The_reading_that_is_proposed_leaves_least_doubt_of_all_that_are_weighed()
    {
        var closing = Close("survey: x\nother: drawn\n");
        var next = closing.Next!;
        Assert.True(next.After < next.Before);
        // Taken, it does what was said.
        var value = next.Reading.Of(closing.Adjustment.Standing);
        var with = Close("survey: x\nother: drawn\nreadings:\n  - " + ReadingText.Line(next.Reading, value));
        Assert.Equal(next.After, with.Closures.Single(c => c.Joint == next.Closing.Joint).Doubt, 0.02 * next.After);
        var search = new ReadingSearch(closing.Adjustment, next.Closing);
        Assert.All(search.Top(20), other => Assert.True(other.After >= next.After - 1e-9));
        // All over the two ends by chance, at hours, holes and distances of no table: none tells noticeably more.
        var chance = new Random(7);
        SiteEnd[] ends = [.. next.Closing.Joint.Sides];
        var any = Enumerable.Range(0, 600).Select(_ => (Any(ends[chance.Next(2)]), Any(Site.Ends[chance.Next(Site.Ends.Count)]))).Where(p => p.Item1 != p.Item2)
            .SelectMany(p => new SiteReading[] { new SiteReading.Height(p.Item1, p.Item2), new SiteReading.Coordinate(p.Item1, Along.Up) }).ToList();
        Assert.All(any.Where(r => r.Ends.Select(e => e.Body).Distinct().Count() < 2 || r.Ends.All(e => e.Body.IsOutside)), r => Assert.True(Doubt(search, next.Closing, r) >= next.After * 0.97));

        Touch Any(SiteEnd end) => chance.Next(2) == 0 || end.Straight is null
            ? new(Site.JointOf(end.Joint)!, end, TouchKind.Lip, chance.NextDouble() * 2 * Math.PI)
            : new(Site.JointOf(end.Joint)!, end, TouchKind.Side, chance.NextDouble() * 2 * Math.PI, end.Straight.From + end.Extra + (chance.NextDouble() * (end.Straight.To - end.Straight.From)));

        static double Doubt(ReadingSearch search, Closure closure, SiteReading reading) => search.Of([reading])?.After ?? closure.Doubt;
    }

    [Fact]
    public void An_existing_pipe_is_reckoned_by_its_girth_and_its_wall()
    {
        var line = SiteLine.Of(Given.Packet("""
            drawing: T-3
            line: {size: 6, schedule: 40, class: 150, material: A106-B}
            runs:
              - run: main
                start: {to: weld, at: {east: 0, north: 0, up: 1000}}
                legs: [{go: north, by: 3000, to: elbow, begin: final-fit}, {go: up, by: 2000, to: flange}]
            """).Fabrication);
        var weld = line.FinalFits.Single();
        // Girth 529.6: 168.58 outside; walls 7.0, 6.8, 7.2, 7.0: bore 154.58 against the table's 168.3 - 2 x 7.11 = 154.08.
        var closing = Close($$"""
            survey: x
            existing: {at: {{weld.Id}} of other, girth: 529.6, across: [168.0, 169.4], wall: {12: 7.0, 3: 6.8, 6: 7.2, 9: 7.0}, punch: [300.0, 298.6]}
            """, line);
        var c = closing.Closures.Single();
        Assert.Equal(154.08, c.Inside.Long, 0.005);
        Assert.Equal((529.6 / Math.PI) - 14, c.Inside.Other, 1e-9);
        Assert.Equal(1.5 - ((c.Inside.Other - c.Inside.Long) / 2), c.OffsetLimit, 1e-9);
        var say = string.Join('\n', new ClosingWords(Units.Millimetres).Say(closing));
        Assert.Contains("sprang 1.4 together", say, StringComparison.Ordinal);
        Assert.Contains("isolated, drained and gas-free", say, StringComparison.Ordinal);
    }

    // One length between two ends and nothing beside it: a slip of it would be the cut. Readings are counted from one.
    [Fact]
    public void A_reading_that_nothing_checks_is_named_by_its_number()
    {
        var other = Site.FinalFits.Single().Across(Site.FinalFits.Single().Long!);
        var readings = new[] { (1, 0), (0, 1), (-1, 0) }.Select(p =>
        {
            var at = other.Face + (Vector.Up * (p.Item1 * 168.3 / 2)) + (Vector.East * (p.Item2 * 168.3 / 2));
            return SiteLines.Text($"  - {{point: {p switch { (1, 0) => "lip 12", (0, 1) => "lip 3", _ => "lip 6" }}, at: {other.Name}, east: {at.X}, north: {at.Y}, up: {at.Z}, sd: 0.0001}}");
        });
        var say = new ClosingWords(Units.Millimetres).Say(Close(AllDrawn(Site, other.Body.Name) + "readings:\n" + string.Join('\n', readings)));
        var unchecked1 = Assert.Single(say, w => w.StartsWith("Nothing checks reading", StringComparison.Ordinal));
        Assert.Matches("^Nothing checks readings? [123](, [123])*: ", unchecked1);
        // Of three points on a ring none is seen twice: the first is among them.
        Assert.Contains("1", unchecked1.Split(':')[0], StringComparison.Ordinal);
    }

    /// <summary>What is said in inches is read back by hand, and is the same to half a thirty-second.</summary>
    [Fact]
    public void A_drawing_in_inches_is_closed_in_inches()
    {
        var closing = Close(AllDrawn(Site));
        var c = closing.Closures[0];
        var mm = string.Join('\n', new ClosingWords(Units.Millimetres).Say(closing));
        var inches = string.Join('\n', new ClosingWords(Units.Inches).Say(closing));
        Assert.Contains($"cut {c.Opening.Mean.ToString("0.0", CultureInfo.InvariantCulture)} off", mm, StringComparison.Ordinal);
        var cut = Regex.Match(inches, @"cut (?<whole>\d+)(?: (?<above>\d+)/(?<below>\d+))?""", RegexOptions.ExplicitCapture);
        Assert.True(cut.Success, inches);
        double Part(string name) => cut.Groups[name].Success ? double.Parse(cut.Groups[name].Value, CultureInfo.InvariantCulture) : 0;
        Assert.Equal(c.Opening.Mean, 25.4 * (Part("whole") + (cut.Groups["below"].Success ? Part("above") / Part("below") : 0)), 25.4 / 64 + 1e-9);
        Assert.DoesNotContain(" mm", inches, StringComparison.Ordinal);
        Assert.DoesNotMatch(@"\d\.\d (off|short|toward|in all)", inches);
    }

    [Fact]
    public void An_end_as_built_is_reckoned_with_in_place_of_the_drawn_one()
    {
        var end = Site.FinalFits.Single().Across(Site.FinalFits.Single().Long!);
        var drawn = Close("survey: x\nother: drawn\n").Closures[0].Opening;
        var built = Close($"survey: x\nother: drawn\nas built: {{{end.Name}: {{y: 2.5, sd: {{y: 0.1}}}}}}\n").Closures[0].Opening;
        Assert.Equal(2.5, built.OffsetUp - drawn.OffsetUp, 0.01);
        // Each of the three is read, and moves the end by itself.
        foreach (var name in new[] { "x", "y", "z" })
        {
            var moved = Close($"survey: x\nother: drawn\nas built: {{{end.Name}: {{{name}: 4}}}}\n").Closures[0].Opening;
            Assert.Equal(4, Math.Sqrt(Square(moved.OffsetUp - drawn.OffsetUp) + Square(moved.OffsetSide - drawn.OffsetSide) + Square(moved.Mean - drawn.Mean)), 0.02);
        }

        static double Square(double x) => x * x;
    }

    [Theory]
    [InlineData("readings:\n  - {tape: [lip 12, lip 12], at: [W2 of 9, B1 of other], mm: 900}", "There is no end \"W2 of 9\"", "readings[0]")]
    [InlineData("readings:\n  - {point: rim 12, at: B1 of other, up: 900}", "no point that can be touched", "readings[0]")]
    [InlineData("readings:\n  - {gap: 12, at: W1, mm: 3}", "No joint W1", "readings[0]")]
    [InlineData("readings:\n  - {point: hole 9, at: B1 of other, up: 900}", "8 bolt holes, not 9", "readings[0]")]
    [InlineData("readings:\n  - {point: crown 90000, at: B1 of 1, up: 900}", "it runs from", "readings[0]")]
    [InlineData("readings:\n  - {tape: [lip 12, lip 12], at: [B1 of 1, B1 of other], mm: -5}", "never less than 0", "readings[0]")]
    [InlineData("readings:\n  - {tape: [lip 12, lip 3], at: B1 of 1}", "has no value", "readings[0]")]
    [InlineData("readings:\n  - {slope: [lip 12, lip 6], at: B1 of 1, deg: 120}", "between -90 and 90", "readings[0]")]
    [InlineData("revision: 2", "to revision 2", "revision")]
    [InlineData("drawing: T-9", "taken of T-9", "drawing")]
    [InlineData("made: [W1]", "made in the shop", "made")]
    [InlineData("made: [B1]\nloose: [B1]", "made and loose", "loose")]
    [InlineData("steel: hot", "not a temperature", "steel")]
    [InlineData("redings: []", "no key \"redings\"", "")]
    public void A_survey_that_cannot_be_says_where_and_what(string rows, string message, string at)
    {
        var error = Assert.Single(Read("survey: x\n" + rows).Errors);
        Assert.Contains(message, error.Message + error.Remedy, StringComparison.Ordinal);
        Assert.Equal(at, error.At);
        Assert.NotEmpty(error.Remedy);
        Assert.True(error.Where.IsKnown);
    }

    [Fact]
    public void A_tape_that_no_placing_explains_and_coordinates_of_another_system_are_told_with_what_would_fit()
    {
        var nozzle = Site.Ends.Last(e => e.Body.IsOutside);
        var tape = Read($"survey: x\nreadings:\n  - {{tape: [lip 12, lip 12], at: [B1 of other, {nozzle.Name}], mm: 38000}}");
        Assert.Contains("No placing", LineClosing.Of(Site, tape.Survey).Errors.Single().Message, StringComparison.Ordinal);
        var rows = Site.Ends.Select(e => SiteLines.Text($"  - {{point: centre, at: {e.Name}, east: {e.Face.X + 52000}, north: {e.Face.Y - 7000}, up: {e.Face.Z}}}"));
        var elsewhere = Read("survey: x\nreadings:\n" + string.Join('\n', rows));
        var error = LineClosing.Of(Site, elsewhere.Survey).Errors.Single();
        Assert.Contains("another system", error.Message, StringComparison.Ordinal);
        Assert.Contains("east -52000, north +7000", error.Message, StringComparison.Ordinal);
        Assert.DoesNotContain("turned", error.Message, StringComparison.Ordinal);
        // A quarter of a turn besides: no shift fits.
        var turned = Read("survey: x\nreadings:\n" + string.Join('\n', Site.Ends.Select(e => SiteLines.Text($"  - {{point: centre, at: {e.Name}, east: {52000 - e.Face.Y}, north: {e.Face.X}, up: {e.Face.Z}}}"))));
        Assert.Contains("turned as well", LineClosing.Of(Site, turned.Survey).Errors.Single().Message, StringComparison.Ordinal);
        // With a frame of its own the same survey is fitted.
        Assert.NotNull(LineClosing.Of(Site, elsewhere.Survey with { Frame = SurveyFrame.Levelled }).Closing);
        var few = Read("survey: x\nframe: free\nreadings:\n  - {point: centre, at: B1 of 1, east: 1, north: 2, up: 3}");
        Assert.Contains("three points", LineClosing.Of(Site, few.Survey).Errors.Single().Remedy, StringComparison.Ordinal);
    }

    [Fact]
    public void Readings_from_a_sheet_say_the_same_as_those_in_the_file()
    {
        var csv = $"point,at,east,north,up,tape,mm\nlip 12,B1 of 1,0,0,1140,,\n,B1 of 1; {Final} of 2,,,,lip 12; lip 12,3250\n";
        var read = SurveyReading.Read(Site, "points.csv", Encoding.UTF8.GetBytes(csv));
        var yaml = Read($"survey: x\nreadings:\n  - {{point: lip 12, at: B1 of 1, east: 0, north: 0, up: 1140}}\n  - {{tape: [lip 12, lip 12], at: [B1 of 1, {Final} of 2], mm: 3250}}");
        Assert.Empty(read.Errors);
        Assert.Equal(yaml.Survey.Readings, read.Survey.Readings);
    }

    [Fact]
    public void The_head_of_a_survey_and_its_rows_are_read_again_as_they_were_written()
    {
        var read = Read($"survey: x\nsteel: 31 C\ninstrument: total station\nframe: levelled\nmade: [B1]\nloose: [B2]\nstands out: {{{Final}: 103}}\nstanding: {{spool 1: drawn}}\nheld: [spool 1]\nmay move: {{spool 2: {{up: 10, turn: 1}}}}\nreadings:\n  - {{slope: [lip 12, lip 6], at: B1 of 1, deg: 0.2}}");
        Assert.Empty(read.Errors);
        var again = Read("survey: x\n" + SurveyText.Head(read.Survey) + "readings:\n  - " + ReadingText.Line(read.Survey.Readings[0].Reading, read.Survey.Readings[0].Value));
        Assert.Empty(again.Errors);
        Assert.Equal(SurveyText.Head(read.Survey), SurveyText.Head(again.Survey));
        Assert.Equal(read.Survey.Readings[0].Reading, again.Survey.Readings[0].Reading);
        Assert.Equal(read.Survey.Readings[0].Value, again.Survey.Readings[0].Value, 1e-9);
    }

    [Fact]
    public void Facts_of_a_survey_come_back_from_their_written_form_and_make_the_same_survey()
    {
        var drawing = new DrawingRef("T-1", "3");
        DrawingFact[] facts =
        [
            new SurveySet("00000000-0000-7000-8000-0000000000a1", "Ann", DateTimeOffset.UnixEpoch, drawing, "steel: 14 C\nmade: [B1]\n"),
            new SurveyRead("00000000-0000-7000-8000-0000000000a2", "Ann", DateTimeOffset.UnixEpoch, drawing, "{point: lip 12, at: B1 of 1, up: 1140}"),
            new EndAsBuilt("00000000-0000-7000-8000-0000000000a3", "Ann", DateTimeOffset.UnixEpoch, drawing, $"{Final} of 2", new(1, 2, 3, 0.01, 0, 0), new(0.1, 0.1, 0.1, 0.001, 0.001, 0.001)),
        ];
        var back = facts.Select(f => FactJson.Read(FactJson.Text(f))).ToList();
        Assert.All(back, r => Assert.Null(r.Wrong));
        var survey = RecordedSurvey.Of(Site, back.Select(r => (DrawingFact)r.Fact!));
        Assert.Empty(survey.Reading.Errors);
        Assert.Equal(14, survey.Reading.Survey.Steel);
        Assert.Equal(["B1"], survey.Reading.Survey.Made);
        Assert.Equal(1140, Assert.Single(survey.Reading.Survey.Readings).Value);
        Assert.Equal(3, survey.Reading.Survey.AsBuilt[$"{Final} of 2"].Off.Z);
        Assert.Equal("00000000-0000-7000-8000-0000000000a2", Assert.Single(survey.Rows).Id);
    }

    [Fact]
    public void The_closing_sheet_bears_sixteen_figures_and_the_wrap_around_the_same_line()
    {
        var closing = Close(AllDrawn(Site, "spool 1"));
        var c = closing.Closures[0] with { Unseen = [] };
        var template = ClosingSheets.Template(closing, c)!;
        // Seen from outside with the pipe's end down, the clock runs to the left where the end looks along the line as it is written.
        Assert.Equal(c.Joint.Long!.IsFirst ? "16" : "2", template.NameOfLine(1));
        Assert.Equal("1", template.NameOfLine(0));
        var at3 = c.Joint.Long.IsFirst ? 12 : 4;
        Assert.Equal("5", template.NameOfLine(at3));
        Assert.Equal(c.Opening.Round[4], template.Ordinates.ElementAt(at3), 1e-9);
        var pages = ClosingSheets.Of(Drawn.ToJob(Paper.A4), closing, new ClosingWords(Units.Millimetres).Say(closing));
        Assert.True(pages.Count > 2);
        var words = SvgWriter.Write(pages[0].Numbered(1, 1));
        foreach (var text in new[] { "Closing " + Final, "length", "offset", "free of force seen", "100.0" })
            Assert.Contains(text, words, StringComparison.Ordinal);
    }

    [Fact]
    public void A_surveyed_place_in_the_drawing_is_offered_as_a_survey()
    {
        var text = SurveyText.Begin(Site, new());
        Assert.Contains("{point: centre, at: B2 of other, east: 2003.2, north: 3000, up: 2500}", text, StringComparison.Ordinal);
        Assert.Empty(Read(text).Errors);
    }

    // A survey lies beside its drawing in the job's folder and names it: it is no second drawing of that number.
    [Fact]
    public void A_survey_in_the_job_is_no_drawing()
    {
        var text = SurveyText.Begin(Site, new());
        Assert.Equal(new Rootgap.Drawings.DrawingHead("", ""), Rootgap.Drawings.DrawingHead.Of(text));
        Assert.Null(FileSaved.OfText("f", "Ann", DateTimeOffset.UnixEpoch, "survey.yaml", text).DrawingNumber);
    }
}
