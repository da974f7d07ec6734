using System.Globalization;
using System.Text;
using Rootgap.Drawings;
using Rootgap.FitUp;
using Rootgap.Measure;
using Rootgap.Records;
using Rootgap.Sheets;
using Rootgap.Site;
using Rootgap.Site.Closing;
using Rootgap.Site.Splitting;
using Rootgap.Site.Surveys;

namespace Rootgap.Tests.Site;

/// <summary>What was measured stands in place of what is drawn, and both are told.</summary>
public class AsBuiltTest
{
    private static (SiteLine Line, LineClosing Closing) Close(SiteWorld world, string survey)
    {
        var line = SiteLine.Of(world.Packet.Fabrication);
        var read = SurveyReading.Read(line, "survey.yaml", Encoding.UTF8.GetBytes(survey));
        Assert.Empty(read.Errors);
        return (line, LineClosing.Of(line, read.Survey).Closing!);
    }

    [Fact]
    public void Measured_faces_and_lengths_are_where_the_geometry_written_apart_has_them()
    {
        for (var seed = 40; seed < 44; seed++)
        {
            var r = new Random(seed);
            var world = new SiteWorld(SiteLines.Random(r));
            SiteLines.Misplace(world, r, 8, 0.4, own: 0.5);
            var (line, closing) = Close(world, SiteLines.Survey("other: near", SiteLines.Readings(world, r, 0, 0.001)));
            var measured = MeasuredLine.Of(closing.Adjustment);
            Assert.Equal(line.Ends.Count, measured.Ends.Count);
            foreach (var end in measured.Ends)
            {
                var face = world.Faces.Single(f => f.Name == end.End.Name);
                // Where the pipe carries extra the world stands at its end as it is; the drawing's cut lies that much back along the pipe.
                var truth = SiteWorld.Minus(world.Centre(face), SiteWorld.Times(world.Normal(face), face.Extra));
                double[] found = [end.Found.X, end.Found.Y, end.Found.Z];
                Assert.True(SiteWorld.Length(SiteWorld.Minus(truth, found)) < 0.05, $"seed {seed} {end.End.Name}");
                Assert.Equal(face.At[0], end.Drawn.X, 1e-6);
            }

            foreach (var length in measured.Lengths)
            {
                double[] At(SiteEnd e)
                {
                    var face = world.Faces.Single(f => f.Name == e.Name);
                    return SiteWorld.Minus(world.Centre(face), SiteWorld.Times(world.Normal(face), face.Extra));
                }

                Assert.Equal(SiteWorld.Length(SiteWorld.Minus(At(length.From), At(length.To))), length.Found, 0.05);
            }

            Assert.NotEmpty(measured.Lengths);
        }
    }

    [Fact]
    public void What_the_readings_do_not_see_is_not_told_as_built()
    {
        var site = SiteLine.Of(Given.Packet(ClosingTest.Line).Fabrication);
        var read = SurveyReading.Read(site, "survey.yaml", Encoding.UTF8.GetBytes("survey: x\nreadings:\n  - {tape: [lip 12, lip 12], at: [B1 of 1, B1 of other], mm: 3}\n"));
        var adjustment = Adjustment.Of(site, read.Survey).Adjustment!;
        Assert.Empty(MeasuredLine.Of(adjustment).Ends);
        Assert.Empty(AsBuiltSheets.Of(Given.Packet(ClosingTest.Line).ToJob(Paper.A4), adjustment));
    }

    [Fact]
    public void The_isometric_as_built_prints_the_place_found_beside_the_drawn_one_at_each_joint()
    {
        var r = new Random(7);
        var world = new SiteWorld(SiteLines.Random(r));
        SiteLines.Misplace(world, r, 6, 0.2, own: 0.3);
        var (_, closing) = Close(world, SiteLines.Survey("other: near", SiteLines.Readings(world, r, 0, 0.01)));
        var measured = MeasuredLine.Of(closing.Adjustment);
        var pages = AsBuiltSheets.Of(world.Packet.ToJob(Paper.A4), closing.Adjustment);
        var picture = SvgWriter.Write(pages[0].Numbered(1, pages.Count));
        foreach (var end in measured.Ends)
        {
            Assert.Contains(string.Create(CultureInfo.InvariantCulture, $"{end.End.Name} built {(end.Found.X < 0 ? "W" : "E")} {Math.Abs(Math.Round(end.Found.X, 1, MidpointRounding.AwayFromZero)):0.0} "), picture, StringComparison.Ordinal);
            Assert.Contains(string.Create(CultureInfo.InvariantCulture, $"drawn {(end.Drawn.X < 0 ? "W" : "E")} {Math.Abs(end.Drawn.X):0.0} "), picture, StringComparison.Ordinal);
        }
    }

    // The final check of a spool with a flange and a bevelled pipe: its pipe's end 2 mm too far out, 1.5 up; the survey file that is written has it so in its joint's axes, whichever way the run goes.
    [Theory]
    [InlineData("start: {to: flange, at: {up: 0}}", "{go: east, by: 2000, to: elbow, end: field}\n          - {go: north, by: 900, to: flange}", 2, 1.5)]
    [InlineData("start: {to: flange, at: {up: 0}}", "{go: north, by: 900, to: elbow, end: field}\n          - {go: east, by: 2000, to: flange}", -2, 1.5)]
    public void What_the_final_check_found_is_written_as_a_survey_has_it(string start, string legs, double along, double up)
    {
        var packet = Given.Packet($"drawing: F-1\nline: {{size: 4, schedule: 40, class: 150, gasket: 3.2}}\nruns:\n  - run: main\n    {start}\n    legs:\n          - {legs}\n");
        var line = SiteLine.Of(packet.Fabrication);
        // Set by its flange, the spool's other end is at the field weld: of the first case the pipe looks along the run, of the second the elbow looks back.
        var joint = line.Joints.Single(j => !j.IsBolted);
        var spool = packet.Fabrication.Spools.Single(s => s.Name == (along > 0 ? joint.First : joint.Second).Body.Spool!.Name);
        var check = FinalCheck.Welded(new FitJoints(packet.Fabrication).OfSpool(spool));
        var far = check.Ends.Single(e => e != check.Base);
        var errors = new Dictionary<string, PoseError>(StringComparer.Ordinal) { [far.Name] = far.ErrorOf(Motion.About(far.Centre, (far.Normal * 2) + (Vector.Up * up), Vector.Zero)) };
        var taken = check.Targets.Select(t => new EndTaken(t.Reading, check.Measure(t.Reading, errors))).ToList();
        var built = FinalAsBuilt.Of(line, check.Judge(taken));
        var (off, sd) = built[(along > 0 ? joint.First : joint.Second).Name];
        Assert.Equal(along, off.Z, 0.05);
        Assert.Equal(up, off.Y, 0.05);
        Assert.Equal(0, off.X, 0.05);
        Assert.InRange(sd.Z, 0.01, 1.5);
        // As facts of a job, each written and read again: the last of each counts, those of the tacked spool and of another base do not, and they say the same.
        var wrong = taken[0] with { Value = taken[0].Value + 40 };
        SpoolRead Fact(EndTaken t, string by, bool isTacked = false) => Assert.IsType<SpoolRead>(FactJson.Read(FactJson.Text(
            new SpoolRead(Guid.NewGuid().ToString(), "Ann", DateTimeOffset.UnixEpoch, new("F-1", ""), spool.Name, by, FinalReadings.Row(t)) { IsTacked = isTacked })).Fact);
        var from = check.Base!.Name;
        List<SpoolRead> facts = [Fact(wrong, from), .. taken.Select(t => Fact(t, from)), Fact(wrong, from, isTacked: true), Fact(wrong, far.Name), Fact(taken[0], from) with { Row = "{read: tape, from: C99 12" }];
        Assert.Equal(new[] { check.Base.Part.Id, far.Part.Id }.Order(StringComparer.Ordinal), facts[0].Parts.Order(StringComparer.Ordinal));
        var kept = SpoolGoneOver.Of(check, facts);
        Assert.Equal(facts.GetRange(1, taken.Count), kept.Select(k => k.Fact));
        var again = FinalAsBuilt.Of(line, check.Judge([.. kept.Select(k => k.Taken)])).Single().Value;
        for (var i = 0; i < 6; i++)
        {
            Assert.Equal(off[i], again.Off[i], 1e-3);
            Assert.Equal(sd[i], again.Sd[i], 1e-3);
        }

        // Written and read again it says the same.
        var read = SurveyReading.Read(line, "survey.yaml", Encoding.UTF8.GetBytes("survey: x\n" + SurveyText.AsBuilt(built)));
        Assert.Empty(read.Errors);
        Assert.Equal(off.Z, read.Survey.AsBuilt.Values.Single().Off.Z, 0.001);
        Assert.Equal(sd.Rx, read.Survey.AsBuilt.Values.Single().Sd.Rx, 1e-5);
    }

    // A pipe that came out 12 mm long: its box is 12 mm longer, it is neither parted nor are its marks moved, and the drawn box stands beside.
    [Fact]
    public void A_built_spool_is_split_as_it_was_measured()
    {
        var packet = Given.Packet(ClosingTest.Line.Replace("line:", "shop: {envelope: {length: 6000, width: 3000, height: 3000, mass: 900}}\nline:", StringComparison.Ordinal));
        var site = SiteLine.Of(packet.Fabrication);
        var far = site.FinalFits.Single().Long!;
        var near = site.Ends.First(e => e.Body == far.Body && e != far);
        Assert.Equal("2", far.Body.Spool!.Name);
        var built = new Dictionary<string, (PoseError Off, PoseError Sd)>(StringComparer.Ordinal) { [far.Name] = (new(0, 0, 12, 0, 0, 0), new(1, 1, 1, 0, 0, 0)) };
        var split = Split.Of(packet.Fabrication, new(Free: true) { AsBuilt = built });
        var plan = split.Plans[0];
        Assert.Contains(plan.Marks, m => m.Place.Name == far.Joint && m.Kind == WeldPlace.FinalFit && m.IsThere);
        Assert.Contains(plan.Marks, m => m.Place.Name == near.Joint && m.IsThere);
        var spool = Assert.Single(plan.Spools, s => s.DrawnBox is not null);
        Assert.Equal(12, spool.Box[0] - spool.DrawnBox![0], 1e-6);
        Assert.Contains(split.Say, s => s.Contains("spool 2", StringComparison.Ordinal));
        Assert.Contains(SplitWords.Of(split, packet.Drawing), s => s.Contains("by the drawing", StringComparison.Ordinal));
        // Without the measurement all may move.
        Assert.DoesNotContain(Split.Of(packet.Fabrication, new(Free: true)).Plans[0].Marks, m => m.IsThere);
        Assert.DoesNotContain(split.Places, p => p.Along is not null && p.Leg == 1);
    }
}
