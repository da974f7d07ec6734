using Rootgap.Drawings;
using Rootgap.Packets;

namespace Rootgap.Tests.Drawings;

/// <summary>Changes of a drawing file row by row. What each must give is written out by hand; the samples are the project's own.</summary>
public class DrawingTextTest
{
    private const string Small = """
        drawing: X-1   # from the title block
        units: mm
        line: {size: 6, schedule: 40}
        runs:
          - run: main
            start: {to: flange}
            legs:
              - {go: up, by: 1450, to: elbow}   # first
              # a word on the second
              - {go: north, by: 3200, to: tee, name: T1, branch: east}
              - go: north
                by: 2600     # measured
                to: flange
        """;

    private static readonly DrawingText Given = DrawingText.Of(Small, "x.yaml");

    [Fact]
    public void The_rows_show_what_is_written_as_a_person_types_it()
    {
        var text = DrawingText.Of(File.ReadAllText(Repository.At("samples", "hatchery", "chilled-supply.yaml")), "chilled-supply.yaml");
        Assert.Equal("CHW-201", text.Top["drawing"]);
        Assert.Equal("6", text.Line["size"]);
        Assert.Equal("shop.yaml", text.ShopFile);
        Assert.Null(text.MaterialsFile);
        Assert.Equal(18, text.Materials.Count);
        Assert.Equal("6 x 4", text.Materials[6]["size"]);
        Assert.Equal(["discharge", "rearing hall", "gauge"], text.Runs.Select(r => r.Name));
        Assert.Equal("east 4200 north 1500 up 850", text.Runs[0].Start["at"]);
        Assert.Equal("north 700 east 420 up 560", text.Runs[0].Legs[6]["go"]);
        Assert.Equal("runs[0].legs[6]", text.Runs[0].Legs[6].Path);
        Assert.Equal("T1", text.Runs[1].Start["from"]);
    }

    [Theory]
    [InlineData("runs[0].legs[0]", "by", "1500", "{go: up, by: 1450, to", "{go: up, by: 1500, to")]
    [InlineData("runs[0].legs[0]", "by", "4'-9 1/2\"", "by: 1450,", "by: 4'-9 1/2\",")]
    [InlineData("runs[0].legs[0]", "end", "field", "to: elbow}", "to: elbow, end: field}")]
    [InlineData("runs[0].legs[0]", "go", "east 600 up 600", "go: up", "go: {east: 600, up: 600}")]
    [InlineData("runs[0].legs[0]", "go", "n", "go: up", "go: north")]
    [InlineData("runs[0].legs[0]", "to", null, ", to: elbow}", "}")]
    [InlineData("runs[0].legs[0]", "go", "", "{go: up, ", "{")]
    [InlineData("runs[0].legs[1]", "end", "final-fit", "name: T1, branch", "name: T1, end: final-fit, branch")]
    [InlineData("runs[0].legs[2]", "by", "1:2", "by: 2600     # m", "by: 1:2     # m")]
    [InlineData("runs[0].legs[2]", "by", null, "by: 2600     # m", "# m")]
    [InlineData("runs[0].legs[2]", "spool", "2", "        to: flange", "        to: flange\n        spool: 2")]
    [InlineData("runs[0].legs[2]", "go", null, "- go: north\n        by", "- by")]
    [InlineData("", "title", "Pump: suction, part 1", "block\nunits", "block\ntitle: \"Pump: suction, part 1\"\nunits")]
    [InlineData("", "title", "Suction, part 1", "block\nunits", "block\ntitle: Suction, part 1\nunits")]
    [InlineData("", "drawing", "null", "X-1 ", "\"null\" ")]
    [InlineData("line", "schedule", "wall 7.11", "schedule: 40", "schedule: {wall: 7.11}")]
    [InlineData("service", "examination", "5 %", "40}\nruns", "40}\nservice: {examination: 5 %}\nruns")]
    [InlineData("runs[0].start", "at", "e 0 n 4'-2\" u 1.5", "{to: flange}", "{to: flange, at: {east: 0, north: 4'-2\", up: 1.5}}")]
    [InlineData("shop", "stock", "6000, 12000", "40}\nruns", "40}\nshop: {stock: [6000, 12000]}\nruns")]
    public void A_value_is_written_where_it_belongs_and_nothing_else_changes(string path, string key, string? value, string old, string now)
    {
        var made = Given.Set(path, key, value);
        Assert.Null(made.Refusal);
        Assert.Equal(Small.Replace(old, now, StringComparison.Ordinal), made.Text);
    }

    [Fact]
    public void Rows_come_and_go_with_their_own_lines_only()
    {
        Assert.Equal(Small.Replace("   # first\n", "   # first\n      - {}\n", StringComparison.Ordinal), Given.InsertLeg(0, 1).Text);
        Assert.Equal(Small + "\n      - {}", Given.InsertLeg(0, 3).Text);
        Assert.Equal(Small + "\n      - go: east\n        to: flange", Given.InsertLeg(0, 3).Set("runs[0].legs[3]", "go", "e").Set("runs[0].legs[3]", "to", "flange").Text);
        Assert.Equal(Small.Replace("      - {go: up, by: 1450, to: elbow}   # first\n", "", StringComparison.Ordinal), Given.RemoveLeg(0, 0).Text);
        var moved = Given.MoveLeg(0, 1, 0);
        Assert.Contains("legs:\n      # a word on the second\n      - {go: north, by: 3200, to: tee, name: T1, branch: east}\n      - {go: up", moved.Text, StringComparison.Ordinal);
        Assert.Equal(Small, moved.MoveLeg(0, 0, 1).Text);
        Assert.Equal(Small + "\n  - run: drain\n    start: {from: T1}\n    legs: []", Given.AddRun("drain", "T1").Text);
        Assert.Equal(Small + "\n  - run: drain\n    start: {from: T1}\n    legs:\n      - {}", Given.AddRun("drain", "T1").InsertLeg(1, 0).Text);
    }

    [Fact]
    public void A_drawing_typed_from_nothing_is_a_drawing()
    {
        var text = DrawingText.Blank("n.yaml", "CHW-1").Set("line", "size", "6").Set("line", "schedule", "40");
        string[][] legs = [["up", "700", "elbow"], ["north", "900", "flange"]];
        for (var i = 0; i < legs.Length; i++)
        {
            text = text.InsertLeg(0, i);
            Assert.Null(text.Refusal);
            Assert.NotNull(text.Read().Partial);
            foreach (var (key, n) in new[] { ("go", 0), ("by", 1), ("to", 2) })
            {
                text = text.Set($"runs[0].legs[{i}]", key, legs[i][n]);
                Assert.Null(text.Refusal);
                var partial = text.Read().Partial;
                Assert.NotNull(partial);
                Packet.Of(partial);
            }
        }

        var reading = text.Read();
        Assert.Empty(reading.Errors);
        Assert.Same(reading.Drawing, reading.Partial);
        Assert.Equal("drawing: CHW-1\nunits: mm\nline: {size: 6, schedule: 40}\nruns:\n  - run: main\n    start: {to: flange}\n    legs:\n      - {go: up, by: 700, to: elbow}\n      - {go: north, by: 900, to: flange}\n", text.Text);
    }

    [Fact]
    public void A_value_that_stands_for_another_is_written_out_and_one_that_others_use_is_not_touched()
    {
        const string Named = "drawing: X\nline: {size: 6, schedule: &s 40}\nruns:\n- run: a\n  start: {to: open}\n  schedule: *s\n  legs: &l\n  - &r {go: up, by: 9, to: weld}\n  - *r\n";
        var text = DrawingText.Of(Named, "x.yaml");
        Assert.Equal(Named.Replace("schedule: *s", "schedule: 80", StringComparison.Ordinal), text.Set("runs[0]", "schedule", "80").Text);
        var refused = text.Set("line", "schedule", "80");
        Assert.NotNull(refused.Refusal);
        Assert.Equal(Named, refused.Text);
        Assert.NotNull(text.Set("runs[0].legs[1]", "by", "8").Refusal);
        Assert.Null(refused.Set("line", "size", "4").Refusal);
    }

    [Fact]
    public void Windows_line_ends_and_a_byte_order_mark_stay()
    {
        var text = "\ufeff" + Small.Replace("\n", "\r\n", StringComparison.Ordinal);
        var made = DrawingText.Of(text, "x.yaml").Set("runs[0].legs[2]", "spool", "2").Set("", "revision", "B").InsertLeg(0, 1);
        Assert.Null(made.Refusal);
        Assert.Equal(
            text.Replace("to: flange", "to: flange", StringComparison.Ordinal).Replace("block\r\n", "block\r\nrevision: B\r\n", StringComparison.Ordinal).Replace("# first\r\n", "# first\r\n      - {}\r\n", StringComparison.Ordinal) + "\r\n        spool: 2",
            made.Text);
    }

    /// <summary>Common practice for a row being typed: the fitter sees pipe as far as the rows say, open where it stops.</summary>
    [Theory]
    [InlineData("- {go: up, by: 900, to: elbow}", 1, "open")]
    [InlineData("- {go: up, by: 900}", 1, "open")]
    [InlineData("- {go: up, by: 900, to: elb}", 1, "open")]
    [InlineData("- {go: up, by: 900, to: tee, name: T1}", 1, "open")]
    [InlineData("- {go: up, by: 900, to: elbow}\n- {go: north}", 1, "open")]
    [InlineData("- {go: up, by: 900, to: elbow}\n- {go: north, by: 700}", 2, "open")]
    [InlineData("- {go: up, by: 900, to: elbow}\n- {}", 1, "open")]
    [InlineData("- {go: up, by: 900, to: flange}\n- {go: up, by: 700, to: flange}", 2, "flange")]
    [InlineData("- {go: up, by: 900, to: tie-in, with: nobody}", 1, "open")]
    [InlineData("- {go: up, by: 900, to: valve, kind: gate, colour: red}", 1, "valve")]
    public void While_a_row_is_typed_the_pipe_is_shown_as_far_as_it_goes(string legs, int count, string ends)
    {
        var text = DrawingText.Of("drawing: X\nline: {size: 6, schedule: 40}\nruns:\n- run: main\n  start: {to: flange}\n  legs:\n  " + legs.Replace("\n", "\n  ", StringComparison.Ordinal), "x.yaml");
        var reading = text.Read();
        Assert.Null(reading.Drawing);
        var run = Assert.Single(reading.Partial!.Runs);
        Assert.Equal(count, run.Legs.Count);
        Assert.Equal(ends, run.Legs[^1].To.Word);
        Assert.Contains(reading.Errors, e => e.At.Run == 0);
        Assert.NotEmpty(Packet.Of(reading.Partial).Fabrication.Cuts);
    }

    [Theory]
    [InlineData("bend")]
    [InlineData("mitred bend")]
    public void A_bend_that_has_no_radius_yet_turns_the_line_in_the_picture(string bend)
    {
        var reading = DrawingReader.Read($$"""
            drawing: T-1
            line: {size: 6, schedule: 40, class: 150}
            runs:
              - run: main
                start: {to: flange}
                legs:
                  - {go: north, by: 1500, to: {{bend}}}
                  - {go: east, by: 1500, to: flange}
            """, "given.yaml");
        Assert.NotEmpty(reading.Errors);
        Assert.DoesNotContain(Rootgap.Checks.DeskCheck.Of(Packet.Of(reading.Partial!).Fabrication), f => f.Severity == Rootgap.Findings.Severity.Stop);
    }

    [Fact]
    public void Only_what_fits_is_offered()
    {
        var text = Given.InsertLeg(0, 3).AddRun("drain", "T1").InsertLeg(1, 0);
        string[] Words(int run, int leg, string key) => [.. Offers.Leg(text, run, leg).Single(o => o.Key == key).Words];
        // A 6 in. tee reduces to 5 in. at most and 2-1/2 in. at least (ASME B16.9 Table 6.1-8, as in the project's table).
        Assert.Equal(["2-1/2", "3", "3-1/2", "4", "5"], Words(0, 1, "branch size"));
        Assert.DoesNotContain("north", Words(0, 1, "branch"));
        Assert.Equal(["north"], Words(0, 2, "go"));
        Assert.Equal(["north", "south", "east", "west"], Words(0, 1, "go"));
        Assert.Equal(["east"], Words(1, 0, "go"));
        Assert.Contains("flange", Words(0, 2, "to"));
        Assert.DoesNotContain("cap", Words(0, 0, "to"));
        Assert.DoesNotContain("tie-in", Words(0, 3, "to"));
        Assert.Equal("long", Offers.Leg(text, 0, 0).Single(o => o.Key == "radius").Default);
        Assert.DoesNotContain(Offers.Leg(text, 0, 0), o => o.Key is "branch" or "kind" or "holes" or "fall");
        // NPS 6 has no schedule 20, 30 or 60 in ASME B36.10M.
        var schedules = Offers.Line(text).Single(o => o.Key == "schedule").Words;
        Assert.Contains("80", schedules);
        Assert.DoesNotContain("20", schedules);
        Assert.Equal(["T1"], Offers.Start(text, 1).Single(o => o.Key == "from").Words);
    }

    [Fact]
    public void A_pasted_material_list_becomes_rows_and_what_is_not_understood_is_told()
    {
        var table = MaterialTable.Pasted("Item\tWhat\tSize\tQuantity\tColour\r\n1\tpipe\t6\t9.6 m\tred\r\n2\t\"elbow\n90 \"\"LR\"\"\"\t6\tmany\t\r\n\tcap\t6\t1\t\r\n", Rootgap.Measure.Units.Millimetres);
        Assert.Equal(3, table.Rows.Count);
        Assert.Equal("elbow 90 \"LR\"", table.Rows[1]["what"]);
        Assert.Equal([(-1, "colour"), (1, "quantity"), (2, null)], table.Notes.Select(n => (n.Row, n.Key)).Order());
        var text = Given.ReplaceMaterials(table.Rows);
        Assert.Null(text.Refusal);
        Assert.Equal(Small.Replace("40}\n", "40}\nmaterials:\n  - {item: 1, what: pipe, size: 6, quantity: 9.6 m}\n  - {item: 2, what: elbow 90 \"LR\", size: 6, quantity: many}\n  - {what: cap, size: 6, quantity: 1}\n", StringComparison.Ordinal), text.Text);
        Assert.Equal(Given.InsertMaterial(0, table.Rows[0]).Text, text.RemoveMaterial(2).RemoveMaterial(1).Text);
        Assert.Equal(text.Text, Given.Set("", "materials", "list.csv").ReplaceMaterials(table.Rows).Text);
        var sheet = MaterialTable.OfFile("oxygen.xlsx", File.ReadAllBytes(Repository.At("samples", "hatchery", "oxygen.xlsx")), Rootgap.Measure.Units.Millimetres);
        Assert.Empty(sheet.Notes);
        Assert.Equal("pipe", sheet.Rows[0]["what"].Split(' ')[0]);
    }

    /// <summary>What one tap does: the change of one finding is made, and that finding is gone.</summary>
    [Fact]
    public void The_remedy_of_each_finding_can_be_taken_alone()
    {
        var file = Repository.At("samples", "mistakes", "chilled-supply-mistakes.yaml");
        var taken = 0;
        foreach (var yaml in new[] { File.ReadAllText(file), Small.Replace("to: tee", "to: teee", StringComparison.Ordinal), Small.Replace("to: tee, name: T1, branch: east", "to: flange", StringComparison.Ordinal), Small.Replace("by: 1450", "bye: 1450", StringComparison.Ordinal) })
        {
            var text = DrawingText.Of(yaml, "x.yaml");
            foreach (var finding in Findings(text).Where(f => f.Change is not null))
            {
                taken++;
                var mended = text.Apply(finding.Change!);
                Assert.Null(mended.Refusal);
                Assert.DoesNotContain(Findings(mended), f => f.Rule == finding.Rule && f.At == finding.At && f.Message == finding.Message);
            }
        }

        Assert.True(taken >= 4, $"{taken}");

        static IEnumerable<Rootgap.Findings.Finding> Findings(DrawingText text)
        {
            var reading = text.Read(MutationTest.Beside);
            return reading.Drawing is { } drawing ? Packet.Of(drawing).Findings : reading.Errors;
        }
    }

    [Fact]
    public void A_finding_knows_the_cell_of_which_it_speaks()
    {
        var text = DrawingText.Of(Small.Replace("by: 1450", "by: x", StringComparison.Ordinal).Replace("to: flange\n", "to: flnge\n", StringComparison.Ordinal).Replace("branch: east", "branch: {east: y}", StringComparison.Ordinal), "x.yaml");
        var errors = text.Read().Errors;
        Assert.Equal("by", text.Runs[0].Legs[0].KeyOf(errors.Single(e => e.At == "runs[0].legs[0]")));
        Assert.Equal("branch", text.Runs[0].Legs[1].KeyOf(errors.First(e => e.At == "runs[0].legs[1]")));
        var missing = DrawingText.Of(Small.Replace(", by: 1450", "", StringComparison.Ordinal), "x.yaml");
        Assert.Null(missing.Runs[0].Legs[0].KeyOf(missing.Read().Errors[0]));
    }

    [Fact]
    public void What_an_in_line_item_must_say_is_asked_for()
    {
        var text = DrawingText.Of("""
            drawing: T-1
            line: {size: 6, schedule: 40, class: 150}
            runs:
              - run: main
                start: {to: flange}
                legs:
                  - {go: north, by: 1000, to: in-line item}
                  - {go: north, by: 1000, to: in-line item, ends: butt}
            """, "t.yaml");
        var offers = Offers.Leg(text, 0, 0);
        Assert.All(["what", "face to face"], key => Assert.True(Assert.Single(offers, o => o.Key == key).IsRequired));
        Assert.Contains("strainer", offers.Single(o => o.Key == "what").Words);
        Assert.Contains("wafer", offers.Single(o => o.Key == "ends").Words);
        Assert.Contains(offers, o => o.Key == "holes");
        Assert.DoesNotContain(Offers.Leg(text, 0, 1), o => o.Key == "holes");
    }

    // A joint has a mass of its own only once a plate lies in it: OtherWordsTest.
    private static readonly string[] MassOfPlate = ["mass"];

    // A row of the app's table is filled in from what is offered there: a kind of work point whose keys are not offered cannot be entered.
    [Fact]
    public void Whatever_a_work_point_must_say_is_offered_as_required()
    {
        foreach (var kind in WorkPointKind.All)
        {
            var text = DrawingText.Of($"drawing: T\nline: {{size: 6, schedule: 40}}\nruns:\n  - run: main\n    start: {{to: flange}}\n    legs:\n      - {{go: north, by: 1000, to: {kind.Word}}}\n", "t.yaml");
            var offers = Offers.Leg(text, 0, 0);
            Assert.All(kind.Required, key => Assert.True(offers.Any(o => o.Key == key && o.IsRequired), $"{kind.Word}: {key}"));
            Assert.All(kind.Keys.Except(["flat", "branch size", "holes from", "fitting class", "test", .. kind == FlangedJointPoint.OfFile ? MassOfPlate : []]), key => Assert.True(offers.Any(o => o.Key == key), $"{kind.Word}: {key}"));
        }
    }
}
