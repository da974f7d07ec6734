using System.Buffers;
using System.Globalization;
using System.Text;
using System.Text.Json;
using Rootgap.FitUp;
using Rootgap.Measure;

namespace Rootgap.Tests.FitUp;

/// <summary>
/// The final check of a spool. What is read is worked out apart: from the places, the axes and the diameters that the drawing's own numbers give, with an end put wrong
/// by a known rigid motion, in plain arrays; written into a readings file, and read back.
/// </summary>
public class FinalCheckTest
{
    private const string Line = "size: 4, schedule: 40, class: 150, material: A106-B";

    // ASME B16.5 class 150 weld neck NPS 4: outside 230, bolt circle 190.5, 8 holes (mm columns).
    private static readonly FitSpool Flanged = Spool("flange", "{go: east, by: 1500, to: elbow}", "{go: north, by: 1200, to: elbow}", "{go: east, by: 1000, to: flange}");

    private static readonly FitSpool Branched = Spool("flange", "{go: north, by: 900, to: tee, name: T1, branch: up, branch run: {by: 400, to: flange}}", "{go: north, by: 700, to: elbow}", "{go: east, by: 800, to: open, end: final-fit}");

    private static FitSpool Spool(string start, params string[] legs)
    {
        var text = new StringBuilder($"drawing: F-1\nunits: mm\nline: {{{Line}}}\nshop: {{root gap: 3.2}}\nruns:\n  - run: main\n    start: {{to: {start}}}\n    legs:\n");
        List<string> runs = [];
        foreach (var leg in legs)
        {
            var at = leg.IndexOf(", branch run: {", StringComparison.Ordinal);
            text.Append(CultureInfo.InvariantCulture, $"      - {(at < 0 ? leg : leg[..at] + "}")}\n");
            if (at >= 0)
                runs.Add($"  - run: branch\n    start: {{from: T1}}\n    legs:\n      - {{go: up, {leg[(at + ", branch run: {".Length)..^1]}\n");
        }

        var f = Given.Packet(text.ToString() + string.Concat(runs)).Fabrication;
        return new FitJoints(f).OfSpool(f.Spools[0]);
    }

    private static JsonElement Json(FinalCheck check, FinalFound? found = null)
    {
        var buffer = new ArrayBufferWriter<byte>();
        using (var json = new Utf8JsonWriter(buffer))
            FinalJson.Write(json, check, null, [], found, []);
        return JsonDocument.Parse(buffer.WrittenMemory).RootElement;
    }

    // By hand: face to face 2500 east and 1200 north; the upper lips stand level, the side lips as the faces look (both along east).
    [Fact]
    public void Lengths_from_lip_to_lip_are_those_of_the_drawing_board()
    {
        var check = FinalCheck.Welded(Flanged);
        Assert.Equal(2, check.Ends.Count);
        double Tape(int from, int to) => check.Targets.Single(t => t.Reading.Equals(new EndReading.Tape(new(check.Ends[0].Name, from), new(check.Ends[1].Name, to), false))).Value;
        Assert.Equal(Math.Sqrt((2500 * 2500.0) + (1200 * 1200.0)), Tape(12, 12), 0.01);
        Assert.Equal(Math.Sqrt((2500 * 2500.0) + (1200 * 1200.0)), Tape(6, 6), 0.01);
        // Looking west out of the first flange, into the spool is east; looking east out of the last one its right hand is south: 1200 - 115.0 to the north.
        double Offset(int at, bool isAcross) => check.Targets.Single(t => t.Reading is EndReading.Offset o && o.Lip.At == at && o.IsAcross == isAcross).Value;
        Assert.Equal((2500, 2500), (Math.Round(Offset(3, false), 6), Math.Round(Offset(9, false), 6)));
        Assert.Equal(1200 - 115.0, Math.Abs(Offset(3, true)), 0.01);
        Assert.Contains(check.Targets, t => t.Reading is EndReading.Holes { End: var e } && e == check.Ends[1].Name);
        // PFI ES-3: 3 mm to NPS 10; 3.9 mm per metre across a face, 1.6 mm at the bolt circle.
        var limits = check.Limits[check.Ends[1].Name];
        Assert.Equal((3, 0.0039, 1.6 / 95.25), (limits.Gap.Value, Math.Round(limits.Tilt.Value, 9), limits.Roll.Value));
    }

    public static TheoryData<string, double, double, double, double, double, double> Wrongs => new()
    {
        { "flanged", 0, 0, 0, 0, 0, 0 },
        { "flanged", 4, -3, 6, 0.8, -1.1, 1.5 },
        { "flanged", -2, 7, -5, -0.4, 0.6, -2 },
        { "branched", 3, 2, -6, 0.7, 1.2, 0 },
        { "branched", 0, 0, 0, 0, 1.5, 0 },
    };

    [Theory]
    [MemberData(nameof(Wrongs))]
    public void An_end_put_wrong_by_a_known_motion_is_found_where_it_was_put(string which, double x, double y, double z, double rx, double ry, double rz)
    {
        var check = FinalCheck.Welded(which == "flanged" ? Flanged : Branched);
        var last = check.Ends[^1].Name;
        double[] e = [x, y, z, Angles.ToRadians(rx), Angles.ToRadians(ry), Angles.ToRadians(rz)];
        var (taken, errors) = FinalReadings.Read(Written(check, last, e), "r.yaml")!.Of(check);
        Assert.Empty(errors);
        var found = check.Judge(taken);
        foreach (var end in found.Ends)
        {
            Assert.Empty(end.Unseen.Where(i => i != 5 || end.End.Holes is not null));
            for (var i = 0; i < 6; i++)
            {
                // A plain pipe's end shows no turn about itself.
                if (i == 5 && end.End.Holes is null)
                    continue;
                Assert.Equal(end.End.Name == last ? e[i] : 0, end.Error[i], i < 3 ? 0.02 : Angles.ToRadians(0.01));
            }

            Assert.Equal(end.End.Name == last && e.Any(v => v != 0) ? Verdict.NotWithin : Verdict.Within, end.Verdict);
        }
    }

    // A readings file with all that the check lists, as it would be read with one end moved by e: only the JSON's places, axes and diameters go in.
    private static string Written(FinalCheck check, string wrong, double[] e)
    {
        var json = Json(check);
        double[] V(JsonElement v) => [v.GetProperty("east").GetDouble(), v.GetProperty("north").GetDouble(), v.GetProperty("up").GetDouble()];
        Dictionary<string, (double[] C, double[] X, double[] Y, double[] Z, double Outside, PlainMotion M)> ends = [];
        foreach (var end in json.GetProperty("ends").EnumerateArray())
        {
            var name = end.GetProperty("end").GetString()!;
            var (c, axes) = (V(end.GetProperty("centre")), new[] { "x", "y", "z" }.Select(a => V(end.GetProperty(a))).ToArray());
            double[] Sum(int i) => FitBench.Plus(FitBench.Plus(FitBench.Times(axes[0], e[i]), FitBench.Times(axes[1], e[i + 1])), FitBench.Times(axes[2], e[i + 2]));
            ends[name] = (c, axes[0], axes[1], axes[2], end.GetProperty("outside").GetDouble(), name == wrong ? PlainMotion.About(c, Sum(3), Sum(0)) : PlainMotion.One);
        }

        double[] Laid(double[] v, double[] n)
        {
            var flat = FitBench.Less(v, FitBench.Times(n, FitBench.Dot(v, n)));
            return FitBench.Times(flat, 1 / FitBench.Norm(flat));
        }

        double[] Lip(string place)
        {
            var end = ends[place[..place.LastIndexOf(' ')]];
            var q = place[(place.LastIndexOf(' ') + 1)..] switch { "12" => end.Y, "3" => end.X, "6" => FitBench.Times(end.Y, -1), _ => FitBench.Times(end.X, -1) };
            return FitBench.Plus(end.M.Of(end.C), FitBench.Times(Laid(q, end.M.Turn(end.Z)), end.Outside / 2));
        }

        double Degrees(double[] v) => Math.Asin(v[2] / FitBench.Norm(v)) * 180 / Math.PI;
        var from = json.GetProperty("base").GetString()!;
        var text = new StringBuilder($"spool: {json.GetProperty("spool").GetString()}\nreadings:\n");
        foreach (var target in json.GetProperty("targets").EnumerateArray())
        {
            string Word(string key) => target.GetProperty(key).GetString()!;
            var read = Word("read");
            var where = target.TryGetProperty("of", out var of) ? $"of: {of.GetString()}" : target.TryGetProperty("from", out var f) ? $"from: {f.GetString()}, to: {Word("to")}" : $"to: {Word("to")}, way: {Word("way")}";
            string Angle(string key, double value) => FormattableString.Invariant($"{key}: {value}");
            var value = read switch
            {
                "tape" => Angle("mm", FitBench.Norm(FitBench.Less(Lip(Word("to")), Lip(Word("from"))))),
                "height" => Angle("mm", Lip(Word("to"))[2] - Lip(Word("from"))[2]),
                "offset" => Angle("mm", FitBench.Dot(FitBench.Less(Lip(Word("to")), ends[from].C), V(target.GetProperty("plus")))),
                "face lean" => Angle("deg", Degrees(ends[of.GetString()!].M.Turn(ends[of.GetString()!].Z))),
                "face level" when target.TryGetProperty("along", out _) => Angle("along", Degrees(Laid(ends[of.GetString()!].Y, ends[of.GetString()!].M.Turn(ends[of.GetString()!].Z)))),
                "face level" => Angle("across", Degrees(Laid(ends[of.GetString()!].X, ends[of.GetString()!].M.Turn(ends[of.GetString()!].Z)))),
                // Two holes straddle the top: their line lies from 9 to 3 o'clock as drawn.
                "holes" => Angle("deg", Degrees(ends[of.GetString()!].M.Turn(ends[of.GetString()!].X))),
                _ => Angle("deg", Clockwise(ends[of.GetString()!])),
            };
            text.Append(CultureInfo.InvariantCulture, $"  - {{read: {read}, {where}, {value}}}\n");
        }

        return text.ToString();

        double Clockwise((double[] C, double[] X, double[] Y, double[] Z, double Outside, PlainMotion M) end)
        {
            var (y, n) = (end.M.Turn(end.Y), end.M.Turn(end.Z));
            var north = Laid(end.Y, n);
            return Math.Atan2(-FitBench.Dot(FitBench.Cross(north, y), n), FitBench.Dot(north, y)) * 180 / Math.PI;
        }
    }

    [Fact]
    public void One_reading_far_off_is_not_within_and_few_are_not_enough()
    {
        var check = FinalCheck.Welded(Flanged);
        var tape = check.Targets.First(t => t.Reading is EndReading.Tape);
        Assert.Equal(Verdict.NothingRead, check.Judge([]).Verdict);
        Assert.Equal(Verdict.NotWithin, check.Judge([new(tape.Reading, tape.Value + 40)]).Verdict);
        Assert.Equal(Verdict.AsFarAsRead, check.Judge([new(tape.Reading, tape.Value)]).Verdict);
        Assert.NotEmpty(check.Judge([new(tape.Reading, tape.Value)]).Next);
        Assert.Equal(Verdict.NotWithin, check.Judge([.. check.Targets.Select(t => new EndTaken(t.Reading, t.Value)), new(tape.Reading, tape.Value + 1)]).Verdict);
        Assert.Equal(Verdict.Within, check.Judge([.. check.Targets.Select(t => new EndTaken(t.Reading, t.Value))]).Verdict);
    }

    [Theory]
    [InlineData("{read: tape, from: C2 12, to: C9 12, mm: 10}", "is no lip of this spool")]
    [InlineData("{read: tape, from: C2 12, to: C5 12, mm: 27000}", "cannot be")]
    [InlineData("{read: tape, from: C2 12, to: C5 12}", "has no value")]
    [InlineData("{read: holes, of: C7, deg: 0.1}", "has no end C7")]
    [InlineData("{read: lenght, from: C2 12, to: C5 12, mm: 5}", "is no reading of a final check")]
    [InlineData("{read: tape, from: C2 12, to: C2 6, mm: 229}", "on one end")]
    public void A_reading_that_cannot_be_says_where_and_what_to_do(string line, string says)
    {
        var (taken, errors) = FinalReadings.Read($"spool: 1\nreadings:\n  - {line}\n", "r.yaml")!.Of(FinalCheck.Welded(Flanged));
        Assert.Empty(taken);
        Assert.Contains(errors, e => e.Message.Contains(says, StringComparison.Ordinal) && e.Where.Line == 3 && e.Remedy.Length > 0);
    }

    // By hand, at the last flange: x goes to the right hand looking out of it, y up, z out; a right-handed turn about x tips the face up, one about y swings it to the left hand, one about z is clockwise looking out.
    // 1.5 degrees at 95.25 mm are 2.5 mm; the limits are those of PFI ES-3, as above.
    [Theory]
    [InlineData(0, 4, "4.0 mm toward 3 o'clock (3.0 mm allowed)")]
    [InlineData(0, -4, "4.0 mm toward 9 o'clock (3.0 mm allowed)")]
    [InlineData(1, 4, "4.0 mm toward 12 o'clock (3.0 mm allowed)")]
    [InlineData(1, -4, "4.0 mm toward 6 o'clock (3.0 mm allowed)")]
    [InlineData(2, 5, "5.0 mm too far out along its own axis (3.0 mm allowed)")]
    [InlineData(2, -5, "5.0 mm too far in along its own axis (3.0 mm allowed)")]
    [InlineData(3, 0.8, "its face looks 0.80 degrees toward 12 o'clock (0.22 allowed)")]
    [InlineData(3, -0.8, "its face looks 0.80 degrees toward 6 o'clock (0.22 allowed)")]
    [InlineData(4, 0.8, "its face looks 0.80 degrees toward 9 o'clock (0.22 allowed)")]
    [InlineData(4, -0.8, "its face looks 0.80 degrees toward 3 o'clock (0.22 allowed)")]
    [InlineData(5, 1.5, "its holes are turned 1.50 degrees clockwise looking out of it, 2.5 mm at the bolt circle (1.6 mm allowed)")]
    [InlineData(5, -1.5, "its holes are turned 1.50 degrees anticlockwise looking out of it, 2.5 mm at the bolt circle (1.6 mm allowed)")]
    public void What_an_end_is_off_is_said_with_its_hand(int component, double off, string says)
    {
        var check = FinalCheck.Welded(Flanged);
        var error = new double[6];
        error[component] = component < 3 ? off : Angles.ToRadians(off);
        var words = new FinalWords(FitWords.In(Units.Millimetres));
        Assert.Equal(says, Assert.Single(words.Off(PoseError.From(error), check.Limits[check.Ends[1].Name], check.Ends[1])));
        // Less than a tenth of what is allowed is not worth a word.
        error[component] = component < 3 ? 0.29 : Angles.ToRadians(0.02);
        Assert.Empty(words.Off(PoseError.From(error), check.Limits[check.Ends[1].Name], check.Ends[1]));
    }

    // The gap of W3 left 2 mm wide lengthens the leg that runs north: the last flange comes 2 mm north, at its 9 o'clock; W4, still open, lies in the same line and takes it back.
    [Fact]
    public void What_the_joints_leave_at_an_end_is_said_with_who_can_take_it_back()
    {
        var check = FinalCheck.Welded(Flanged);
        var left = Assert.Single(EndLeft.Of(check, FitOrder.Of(Flanged), id => id == "W3" ? new(null, PoseError.None with { Z = 2 }, null) : null));
        Assert.Equal(-2, left.Error.X, 1e-6);
        Assert.True(left.IsWithin);
        var back = left.By.Single(b => b.Joint == "W4");
        Assert.Equal(-2, back.By.Z, 1e-6);
        Assert.False(back.IsWithin);
        Assert.DoesNotContain(left.By, b => b.Joint == "W3");
    }

    [Fact]
    public void A_reading_at_an_end_that_is_not_there_is_not_taken_for_one_at_the_base() =>
        Assert.Contains("E9 is no end", Assert.Throws<ArgumentException>(() => FinalCheck.Welded(Branched).Judge([new(new EndReading.Lean("E9"), 0)])).Message, StringComparison.Ordinal);

    [Fact]
    public void The_record_of_a_check_can_itself_be_read_again()
    {
        var check = FinalCheck.Welded(Branched);
        var taken = check.Targets.Select(t => new EndTaken(t.Reading, Math.Round(t.Value, 1), t.Reading is EndReading.Tape ? 2 : null)).ToList();
        var entry = FinalReadings.Entry(check, taken, check.Judge(taken), ["\"so\""], "F-1", "0", new(2026, 3, 1, 8, 0, 0, TimeSpan.Zero));
        var (again, errors) = FinalReadings.Read(entry, "r.yaml")!.Of(check);
        Assert.Empty(errors);
        Assert.Equal(taken.Select(t => (t.Reading, Math.Round(t.Value, 4))), again.Select(t => (t.Reading, Math.Round(t.Value, 4))));
    }
}
