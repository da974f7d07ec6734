using System.Text.Json;

namespace Rootgap.Cli.Tests;

/// <summary>Exit codes, standard output, standard error and files of the commands.</summary>
public class CommandsTest
{
    private const string ShortPipe = "520";
    private const string TooShort = "300";

    [Fact]
    public void A_clean_drawing_is_done_with_0()
    {
        using var shop = new Shop();
        var call = shop.Run("check", shop.Write("a.yaml", Shop.Drawing("A-1")));
        Assert.Equal((0, ""), (call.Exit, call.Error));
        Assert.Contains("a.yaml: ", call.Out, StringComparison.Ordinal);
    }

    [Fact]
    public void A_warning_is_done_with_1()
    {
        using var shop = new Shop();
        // 520 - 229 - 89 or so - two gaps: longer than 100; the shop's shortest is set to meet it.
        var call = shop.Run("check", shop.Write("a.yaml", Shop.Drawing("A-1", ShortPipe, "shop: {shortest pipe: 300}")));
        Assert.Equal((1, ""), (call.Exit, call.Error));
        Assert.Contains("warning: ", call.Out, StringComparison.Ordinal);
        Assert.Contains("[pipe-too-short]", call.Out, StringComparison.Ordinal);
    }

    [Fact]
    public void Measuring_says_the_way_between_two_places_and_a_place_that_is_not_there_is_refused_with_those_that_are()
    {
        using var shop = new Shop();
        var line = Path.Combine(Repository.Root, "samples", "hatchery", "chilled-supply.yaml");
        var call = shop.Run("measure", line, "leg 1 of discharge", "leg 2 of discharge");
        Assert.Equal("", call.Error);
        Assert.StartsWith("leg 1 of discharge to leg 2 of discharge: ", call.Out, StringComparison.Ordinal);
        using var json = JsonDocument.Parse(shop.Run("measure", line, "leg 1 of discharge", "leg 2 of discharge", "--json").Out);
        double Of(string name) => json.RootElement.GetProperty(name).GetDouble();
        Assert.Equal(Math.Sqrt((Of("east") * Of("east")) + (Of("north") * Of("north")) + (Of("up") * Of("up"))), Of("straight"), 0.01);
        var refused = shop.Run("measure", line, "W3", "X9");
        Assert.Equal((3, ""), (refused.Exit, refused.Out));
        Assert.Contains("there is no 'X9'. A place is a joint (W1 to ", refused.Error, StringComparison.Ordinal);
    }

    [Fact]
    public void Places_of_many_notes_are_told_by_run_and_leg()
    {
        using var shop = new Shop();
        // Five field welds in a riser, each a note.
        var riser = shop.Write("riser.yaml", "drawing: T-2\nrevision: 1\nline: {size: 6, schedule: 40, class: 150}\nruns:\n  - run: riser\n    start: {to: flange}\n    legs:\n"
            + string.Concat(Enumerable.Repeat("      - {go: up, by: 3000, to: weld, end: field}\n", 5)) + "      - {go: up, by: 3000, to: flange}\n");
        var call = shop.Run("packet", riser, "--out", shop.At("packet"));
        Assert.Contains("also: riser, leg 2; riser, leg 3; riser, leg 4; riser, leg 5 (4 more)", call.Out + call.Error, StringComparison.Ordinal);
        Assert.DoesNotContain("runs[", call.Out + call.Error, StringComparison.Ordinal);
    }

    [Fact]
    public void A_drawing_that_cannot_be_built_ends_with_2_and_its_packet_is_written_and_marked()
    {
        using var shop = new Shop();
        var call = shop.Run("packet", shop.Write("a.yaml", Shop.Drawing("A-1", TooShort)), "--out", "packet");
        Assert.Equal((2, ""), (call.Exit, call.Error));
        Assert.Contains("[leg-too-short-for-fittings]", call.Out, StringComparison.Ordinal);
        Assert.Contains("NOT FOR FABRICATION", call.Out, StringComparison.Ordinal);
        using var packet = JsonDocument.Parse(File.ReadAllText(shop.At("packet", "packet.json")));
        Assert.False(packet.RootElement.GetProperty("drawings")[0].GetProperty("buildable").GetBoolean());
        var finding = packet.RootElement.GetProperty("drawings")[0].GetProperty("findings").EnumerateArray().Single(f => f.GetProperty("rule").GetString() == "leg-too-short-for-fittings");
        Assert.Equal("runs[0].legs[1]", finding.GetProperty("at").GetString());
        Assert.Equal(9, finding.GetProperty("line").GetInt32());
    }

    [Fact]
    public void The_cut_list_holds_the_same_lengths_as_workbook_as_csv_and_as_json()
    {
        using var shop = new Shop();
        Assert.Equal(0, shop.Run("packet", shop.Write("a.yaml", Shop.Drawing("A-1")), "--out", "p").Exit);
        using var packet = JsonDocument.Parse(File.ReadAllText(shop.At("p", "packet.json")));
        var lengths = packet.RootElement.GetProperty("drawings")[0].GetProperty("cuts").EnumerateArray().Select(c => Math.Round(c.GetProperty("length").GetDouble(), 2)).ToList();
        Assert.Equal(2, lengths.Count);
        Assert.Equal(lengths, MiniExcelLibs.MiniExcel.Query(shop.At("p", "cut-list.xlsx"), useHeaderRow: true).Select(r => (double)((IDictionary<string, object>)r)["length mm"]));
        Assert.Equal(lengths, MiniExcelLibs.MiniExcel.Query(shop.At("p", "cut-list.csv"), useHeaderRow: true)
            .Select(r => double.Parse((string)((IDictionary<string, object>)r)["length mm"], System.Globalization.CultureInfo.InvariantCulture)));
    }

    [Fact]
    public void An_accepted_finding_no_longer_counts()
    {
        using var shop = new Shop();
        var accept = "shop: {shortest pipe: 300}\naccept: [{rule: pipe-too-short, why: the elbow is trimmed}]";
        var call = shop.Run("check", shop.Write("a.yaml", Shop.Drawing("A-1", ShortPipe, accept)));
        Assert.True(call.Exit is 0 or 1, call.Out);
        Assert.Contains("accepted: the elbow is trimmed", call.Out, StringComparison.Ordinal);
    }

    [Fact]
    public void Nothing_is_written_for_a_drawing_that_cannot_be_read()
    {
        using var shop = new Shop();
        var call = shop.Run("packet", shop.Write("a.yaml", "drawing: [\n"), "--out", "packet");
        Assert.Equal(3, call.Exit);
        Assert.Contains("nothing was written for it", call.Out, StringComparison.Ordinal);
        Assert.False(Directory.Exists(shop.At("packet")));
    }

    [Fact]
    public void The_gravest_of_many_drawings_decides_and_the_others_are_still_written()
    {
        using var shop = new Shop();
        shop.Write("a.yaml", Shop.Drawing("A-1"));
        shop.Write("b.yaml", "drawing: B\nline: 5\n");
        shop.Write("c.yaml", Shop.Drawing("C-1", TooShort));
        var call = shop.Run("packet", "a.yaml", "b.yaml", "c.yaml", "--out", "packet");
        Assert.Equal(3, call.Exit);
        using var packet = JsonDocument.Parse(File.ReadAllText(shop.At("packet", "packet.json")));
        Assert.Equal(["A-1", "C-1"], packet.RootElement.GetProperty("drawings").EnumerateArray().Select(d => d.GetProperty("drawing").GetString()!), StringComparer.Ordinal);
    }

    [Theory]
    [InlineData("pakcet")]
    [InlineData("packet a.yaml")]
    [InlineData("check")]
    [InlineData("check a.yaml --colour")]
    [InlineData("packet a.yaml --out p --paper folio")]
    public void Wrong_usage_ends_with_64_and_says_how_on_standard_error(string arguments)
    {
        using var shop = new Shop();
        shop.Write("a.yaml", Shop.Drawing("A-1"));
        var call = shop.Run(arguments.Split(' '));
        Assert.Equal((64, ""), (call.Exit, call.Out));
        Assert.Contains("--help", call.Error, StringComparison.Ordinal);
        Assert.Equal(["a.yaml"], Directory.EnumerateFileSystemEntries(shop.Folder).Select(f => Path.GetFileName(f)), StringComparer.Ordinal);
    }

    [Fact]
    public void A_file_that_is_not_there_ends_with_3()
    {
        using var shop = new Shop();
        var call = shop.Run("check", "nowhere.yaml");
        Assert.Equal((3, ""), (call.Exit, call.Out));
        Assert.Contains("nowhere.yaml: there is no such file or folder.", call.Error, StringComparison.Ordinal);
    }

    [Fact]
    public void An_empty_folder_ends_with_3()
    {
        using var shop = new Shop();
        Directory.CreateDirectory(shop.At("empty"));
        var call = shop.Run("check", "empty");
        Assert.Equal((3, ""), (call.Exit, call.Out));
        Assert.Contains("No drawing file was found", call.Error, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("check", 0)]
    [InlineData("check", 3)]
    [InlineData("packet", 0)]
    [InlineData("packet", 3)]
    public void With_json_standard_output_holds_one_json_text_and_nothing_else(string command, int exit)
    {
        using var shop = new Shop();
        shop.Write("a.yaml", exit == 3 ? "drawing: [\n" : Shop.Drawing("Ä-1"));
        var call = shop.Run([command, "a.yaml", "--json", .. command == "packet" ? new[] { "--out", "p" } : []]);
        Assert.Equal(exit, call.Exit);
        using var json = JsonDocument.Parse(call.Out);
        var drawings = json.RootElement.GetProperty("drawings");
        if (exit == 0)
            Assert.Equal("Ä-1", drawings[0].GetProperty("drawing").GetString());
        if (exit == 0 && command == "packet")
            Assert.Equal(File.ReadAllText(shop.At("p", "packet.json")), call.Out);
        if (exit == 3 && command == "packet")
            Assert.Contains("[not-yaml]", call.Error, StringComparison.Ordinal);
        if (exit == 3 && command == "check")
            Assert.Equal("not-yaml", drawings[0].GetProperty("findings")[0].GetProperty("rule").GetString());
    }

    [Fact]
    public void The_tables_are_written_with_the_columns_of_the_contract()
    {
        using var shop = new Shop();
        var call = shop.Run("tables", "--out", "t", "--json");
        Assert.Equal((0, ""), (call.Exit, call.Error));
        using var json = JsonDocument.Parse(call.Out);
        foreach (var table in json.RootElement.GetProperty("tables").EnumerateArray())
        {
            var lines = File.ReadAllLines(shop.At(table.GetProperty("file").GetString()!));
            Assert.Equal("standard,item,nps,nps2,schedule,class,attribute,value_mm,value_in,source", lines[0]);
            Assert.Equal(table.GetProperty("rows").GetInt32(), lines.Length - 1);
            Assert.All(lines, l => Assert.Equal(10, l.Split(',').Length));
        }

        // ASME B16.9: A of a 6 in. long-radius elbow is 229 mm and 9.00 in.
        Assert.Contains(File.ReadAllLines(shop.At("t", "butt-weld.csv")), l => l.StartsWith("ASME B16.9,elbow 90 LR,6,,,,A,229,9,", StringComparison.Ordinal));
    }

    [Fact]
    public void The_number_of_processors_changes_no_byte()
    {
        using var shop = new Shop();
        for (var i = 0; i < 9; i++)
            shop.Write($"job/d{i}.yaml", Shop.Drawing($"D-{i}", (900 + (37 * i)).ToString(System.Globalization.CultureInfo.InvariantCulture)));
        var one = shop.Begin(1, "packet", "job", "--out", "one");
        var two = shop.Begin(2, "packet", "job", "--out", "two");
        Assert.Equal(one.Exit, two.Exit);
        Assert.Equal(one.Out.Replace(" one:", " two:", StringComparison.Ordinal), two.Out);
        var files = Directory.EnumerateFiles(shop.At("one")).Select(f => Path.GetFileName(f)).Order(StringComparer.Ordinal).ToList();
        Assert.Equal(files, Directory.EnumerateFiles(shop.At("two")).Select(f => Path.GetFileName(f)).Order(StringComparer.Ordinal), StringComparer.Ordinal);
        Assert.All(files, f => Assert.True(File.ReadAllBytes(shop.At("one", f)).AsSpan().SequenceEqual(File.ReadAllBytes(shop.At("two", f))), f));
    }

    [Fact]
    public void Of_a_folder_all_drawings_below_it_are_taken_in_order_of_name_and_nothing_else()
    {
        using var shop = new Shop();
        shop.Write("job/b.yaml", Shop.Drawing("B"));
        shop.Write("job/a/z.yml", Shop.Drawing("Z"));
        shop.Write("job/shop.yaml", "root gap: 3\n");
        shop.Write("job/list.yaml", "materials: [{item: 1, what: pipe}]\n");
        shop.Write("job/notes.txt", "drawing: none\n");
        shop.Write("c.yaml", Shop.Drawing("C"));
        var call = shop.Run("check", "c.yaml", "job", "--json");
        Assert.Equal(0, call.Exit);
        using var json = JsonDocument.Parse(call.Out);
        Assert.Equal(["C", "Z", "B"], json.RootElement.GetProperty("drawings").EnumerateArray().Select(d => d.GetProperty("drawing").GetString()!), StringComparer.Ordinal);
    }
}
