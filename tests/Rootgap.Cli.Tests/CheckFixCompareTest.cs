using System.Text.Json;
using System.Xml.Linq;

namespace Rootgap.Cli.Tests;

/// <summary>What <c>check --fix</c>, <c>check --sarif</c> and <c>compare</c> leave behind.</summary>
public class CheckFixCompareTest
{
    private const string Extra = "# the shop's\nshop: {final fit extra: 0}   # as told";

    private static string Faulty => Shop.Drawing("A-1", extra: Extra).Replace("to: elbow}", "to: elbow, end: final-fit}", StringComparison.Ordinal);

    [Fact]
    public void Fix_writes_the_remedy_keeps_the_old_file_and_nothing_else_changes()
    {
        using var shop = new Shop();
        shop.Write("a.yaml", Faulty);
        var call = shop.Run("check", "--fix", "a.yaml");
        Assert.Equal("", call.Error);
        Assert.Equal(Faulty, File.ReadAllText(shop.At("a.yaml.old")));
        Assert.Equal(Faulty.Replace("final fit extra: 0", "final fit extra: 100 mm", StringComparison.Ordinal), File.ReadAllText(shop.At("a.yaml")));
        Assert.Contains("changed: the shop's final fit extra is now 100 mm.", call.Out, StringComparison.Ordinal);
        Assert.DoesNotContain("[final-fit-without-extra]", call.Out, StringComparison.Ordinal);
    }

    [Fact]
    public void A_second_old_file_has_a_number_and_a_clean_file_is_not_touched()
    {
        using var shop = new Shop();
        shop.Write("a.yaml", Faulty);
        shop.Write("a.yaml.old", "older");
        shop.Run("check", "--fix", "a.yaml");
        Assert.Equal("older", File.ReadAllText(shop.At("a.yaml.old")));
        Assert.Equal(Faulty, File.ReadAllText(shop.At("a.yaml.old2")));
        var mended = File.ReadAllText(shop.At("a.yaml"));
        shop.Run("check", "--fix", "a.yaml");
        Assert.Equal(mended, File.ReadAllText(shop.At("a.yaml")));
        Assert.False(File.Exists(shop.At("a.yaml.old3")));
    }

    [Fact]
    public void A_file_that_could_not_be_read_is_mended_where_a_word_is_misspelt()
    {
        using var shop = new Shop();
        shop.Write("a.yaml", Shop.Drawing("A-1").Replace("schedule:", "shedule:", StringComparison.Ordinal));
        Assert.Equal(3, shop.Run("check", "a.yaml").Exit);
        var call = shop.Run("check", "--fix", "--json", "a.yaml");
        Assert.Equal(0, call.Exit);
        using var json = JsonDocument.Parse(call.Out);
        Assert.Contains("schedule", json.RootElement.GetProperty("drawings")[0].GetProperty("changed")[0].GetProperty("says").GetString(), StringComparison.Ordinal);
    }

    [Fact]
    public void An_accepted_finding_is_not_mended()
    {
        using var shop = new Shop();
        var text = Faulty + "accept:\n  - {rule: final-fit-without-extra, why: it is measured}\n";
        shop.Write("a.yaml", text);
        shop.Run("check", "--fix", "a.yaml");
        Assert.Equal(text, File.ReadAllText(shop.At("a.yaml")));
    }

    private static string Listed(string quantity, string more = "") => Shop.Drawing("A-1", extra: $$"""
        materials:
          - {item: 1, what: pipe, size: 6, schedule: 40, material: A106-B, quantity: 12 m}
          - {item: 2, what: elbow 90 LR, size: 6, quantity: 1}
          - {item: 3, what: flange WN RF, size: 6, class: 150, bore: 40, quantity: {{quantity}}{{more}}}
          - {item: 4, what: gasket spiral wound, size: 6, class: 150, quantity: 2}
          - {item: 5, what: stud bolt, size: 3/4, length: 100, quantity: 16}
        accept: [{rule: no-final-fit, why: both flanges were measured}]
        """).Replace("start: {to: open", "start: {to: flange", StringComparison.Ordinal);

    [Fact]
    public void The_list_says_what_was_bought_and_is_changed_only_where_that_is_asked_for()
    {
        using var shop = new Shop();
        shop.Write("a.yaml", Listed("1"));
        var call = shop.Run("check", "--fix", "a.yaml");
        Assert.Equal(2, call.Exit);
        Assert.Equal(Listed("1"), File.ReadAllText(shop.At("a.yaml")));
        Assert.Contains("left as it is, since the list says what was bought", call.Out, StringComparison.Ordinal);
        call = shop.Run("check", "a.yaml", "--fix", "list");
        Assert.Equal(Listed("2"), File.ReadAllText(shop.At("a.yaml")));
        // A stop was written away: whoever reads on is still told to look.
        Assert.Equal(1, call.Exit);
        Assert.Contains("changed: item 3: quantity 1 is now 2.", call.Out, StringComparison.Ordinal);
        Assert.Contains("look at what is written now", call.Out, StringComparison.Ordinal);
    }

    [Fact]
    public void A_row_that_another_finding_doubts_is_not_written_over()
    {
        using var shop = new Shop();
        // The quantity is short, and the words name another class than the column: which flange was bought?
        var text = Listed("1", ", note: x").Replace("flange WN RF, size: 6, class: 150", "flange WN RF class 300, size: 6, class: 150", StringComparison.Ordinal);
        shop.Write("a.yaml", text);
        var call = shop.Run("check", "--fix", "list", "a.yaml");
        Assert.Equal(text, File.ReadAllText(shop.At("a.yaml")));
        Assert.Contains("doubts the same row", call.Out, StringComparison.Ordinal);
        Assert.Equal(2, call.Exit);
    }

    [Theory]
    [InlineData("accept: [{rule: no-final-fitt, why: it is measured}]", "")]
    [InlineData("", "{go: north, by: 700, to: point, end: field}")]
    [InlineData("", "{go: north, by: 700, to: reducer, kind: concentric, flat: bottom, size: 4}")]
    public void What_somebody_wrote_is_neither_taken_away_nor_overruled(string extra, string leg)
    {
        using var shop = new Shop();
        var text = Shop.Drawing("A-1", extra: extra);
        if (leg.Length > 0)
            text = text.Replace("      - {go: north, by: 1500", "      - " + leg + "\n      - {go: north, by: 1500", StringComparison.Ordinal);
        shop.Write("a.yaml", text);
        var before = shop.Run("check", "a.yaml");
        var call = shop.Run("check", "--fix", "a.yaml");
        Assert.Equal(text, File.ReadAllText(shop.At("a.yaml")));
        Assert.Equal(before.Exit, call.Exit);
        Assert.Contains("somebody decides", call.Out, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("list.csv")]
    [InlineData("list.xlsx")]
    public void Of_a_list_that_is_a_sheet_a_changed_copy_is_offered(string name)
    {
        using var shop = new Shop();
        object[] rows =
        [
            new { item = 1, what = "pipe", size = "6", schedule = "40", @class = "", quantity = "12 m", note = "-heat later" },
            new { item = 2, what = "elbow 90 LR", size = "6", schedule = "", @class = "", quantity = "1", note = "" },
            new { item = 3, what = "flange WN RF", size = "6", schedule = "", @class = "150", quantity = "1", note = "=1+1" },
            new { item = 4, what = "gasket spiral wound", size = "6", schedule = "", @class = "150", quantity = "2", note = "" },
            new { item = 5, what = "stud bolt", size = "3/4", schedule = "", @class = "", quantity = "16", note = "" },
        ];
        MiniExcelLibs.MiniExcel.SaveAs(shop.At(name), rows);
        var before = File.ReadAllBytes(shop.At(name));
        shop.Write("a.yaml", Shop.Drawing("A-1", extra: $"materials: {name}").Replace("start: {to: open", "start: {to: flange", StringComparison.Ordinal));
        Assert.DoesNotContain("changed copy", shop.Run("check", "--fix", "a.yaml").Out, StringComparison.Ordinal);
        var call = shop.Run("check", "--fix", "list", "a.yaml");
        var copy = "list.changed" + Path.GetExtension(name);
        Assert.True(call.Out.Contains("a changed copy is", StringComparison.Ordinal), call.Out + call.Error);
        Assert.Equal(before, File.ReadAllBytes(shop.At(name)));
        var read = MiniExcelLibs.MiniExcel.Query(shop.At(copy), useHeaderRow: true).Cast<IDictionary<string, object?>>().ToList();
        Assert.Equal(["12 m", "1", "2", "2", "16"], read.Select(r => Convert.ToString(r["quantity"], System.Globalization.CultureInfo.InvariantCulture)), StringComparer.Ordinal);
        // What would be a formula is none in the copy, and comes back as it was.
        shop.Write("b.yaml", Shop.Drawing("A-1", extra: $"materials: {copy}").Replace("start: {to: open", "start: {to: flange", StringComparison.Ordinal));
        Assert.DoesNotContain("[quantity-short]", shop.Run("check", "b.yaml").Out, StringComparison.Ordinal);
        if (name.EndsWith("csv", StringComparison.Ordinal))
            Assert.Contains(",'=1+1", File.ReadAllText(shop.At(copy)), StringComparison.Ordinal);
    }

    [Fact]
    public void Sarif_is_written_beside_what_is_printed()
    {
        using var shop = new Shop();
        shop.Write("a.yaml", Faulty);
        shop.Write("b.yaml", Shop.Drawing("A-2"));
        var call = shop.Run("check", "a.yaml", "b.yaml", "--sarif", "found.sarif");
        Assert.Equal((1, ""), (call.Exit, call.Error));
        using var log = JsonDocument.Parse(File.ReadAllText(shop.At("found.sarif")));
        Assert.Contains(log.RootElement.GetProperty("runs")[0].GetProperty("results").EnumerateArray(), r => r.GetProperty("ruleId").GetString() == "final-fit-without-extra");
        Assert.Contains("2 drawings: ", call.Out, StringComparison.Ordinal);
    }

    [Fact]
    public void Findings_are_grouped_by_leg()
    {
        using var shop = new Shop();
        var call = shop.Run("check", shop.Write("a.yaml", Faulty));
        Assert.Contains("Leg 1 of \"main\", to elbow", call.Out, StringComparison.Ordinal);
    }

    [Fact]
    public void Compare_says_what_changed_and_what_becomes_of_pieces_cut_already()
    {
        using var shop = new Shop();
        shop.Write("old.yaml", Shop.Drawing("A-1", "1200"));
        shop.Write("new.yaml", Shop.Drawing("A-1", "1300"));
        shop.Write("cut.txt", "1-A\n1-B, 880\n");
        var call = shop.Run("compare", "old.yaml", "new.yaml", "--cut", "cut.txt");
        Assert.Equal((1, ""), (call.Exit, call.Error));
        Assert.Contains("100.0 longer", call.Out, StringComparison.Ordinal);
        Assert.Contains("1-A: usable", call.Out, StringComparison.Ordinal);
        Assert.Contains("1-B: spoiled", call.Out, StringComparison.Ordinal);
    }

    [Fact]
    public void Compare_draws_what_changed_on_the_new_drawing()
    {
        using var shop = new Shop();
        shop.Write("old.yaml", Shop.Drawing("A-1", "1200"));
        shop.Write("new.yaml", Shop.Drawing("A-1", "1160"));
        shop.Write("cut.txt", "1-B\n");
        var call = shop.Run("compare", "old.yaml", "new.yaml", "--cut", "cut.txt", "--picture", "changes.svg");
        Assert.Equal((0, ""), (call.Exit, call.Error));
        var drawn = XDocument.Parse(File.ReadAllText(shop.At("changes.svg"))).Descendants().ToList();
        Assert.Contains(drawn, e => (string?)e.Attribute("id") == "1-B" && ((string)e.Attribute("class")!).Contains("revised trim", StringComparison.Ordinal));
        Assert.Contains(drawn, e => e.Value == "trim 40.0" && e.Name.LocalName == "text");
        call = shop.Run("compare", "old.yaml", "new.yaml", "--picture", "changes.docx");
        Assert.Equal(3, call.Exit);
        Assert.Contains("changes.docx: the picture is written as .svg, .pdf or .png.", call.Error, StringComparison.Ordinal);
        Assert.False(File.Exists(shop.At("changes.docx")));
    }

    [Fact]
    public void Compare_refuses_a_list_of_cut_pieces_with_a_bad_line_and_says_which()
    {
        using var shop = new Shop();
        shop.Write("old.yaml", Shop.Drawing("A-1", "1200"));
        shop.Write("new.yaml", Shop.Drawing("A-1", "1300"));
        shop.Write("cut.txt", "# Monday\n1-A\n1-B; 880,5\n1-a\n");
        var call = shop.Run("compare", "old.yaml", "new.yaml", "--cut", "cut.txt");
        Assert.Equal((3, ""), (call.Exit, call.Out));
        Assert.Contains("cut.txt:3: \"880,5\" is no length", call.Error, StringComparison.Ordinal);
        Assert.Contains("cut.txt:4: 1-a stands in line 2 already", call.Error, StringComparison.Ordinal);
        Assert.Contains("nothing was compared", call.Error, StringComparison.Ordinal);
    }

    [Fact]
    public void Two_files_with_one_number_and_revision_stop_the_check_and_the_packet()
    {
        using var shop = new Shop();
        shop.Write("job/a.yaml", Shop.Drawing("A-1", "1200"));
        shop.Write("job/b.yaml", Shop.Drawing("A-1", "1300"));
        shop.Write("job/c.yaml", Shop.Drawing("A-2"));
        var check = shop.Run("check", "job");
        Assert.Equal(2, check.Exit);
        Assert.Contains("A-1 revision 0 is also in job/b.yaml", check.Out, StringComparison.Ordinal);
        Assert.Contains("A-1 revision 0 is also in job/a.yaml", check.Out, StringComparison.Ordinal);
        Assert.Equal(2, shop.Run("packet", "job", "--out", "out").Exit);
        Assert.DoesNotContain("drawing-twice", shop.Run("check", "job/a.yaml").Out, StringComparison.Ordinal);
    }

    private static string Cut(int n, string piece) => $$"""{"id":"{{n:x8}}-0000-4000-8000-000000000000","fact":"piece-cut","who":"Jo","when":"2026-11-25T15:00:00.000Z","drawing":"A-1","revision":"0","piece":"{{piece}}"}""";

    [Fact]
    public void Compare_says_what_a_change_makes_of_what_was_done()
    {
        using var shop = new Shop();
        shop.Write("old.yaml", Shop.Drawing("A-1", "1200"));
        shop.Write("new.yaml", Shop.Drawing("A-1", "1300"));
        foreach (var facts in new[] { $"[{Cut(1, "1-A")},{Cut(2, "1-B")}]", $"{Cut(1, "1-A")}\n{Cut(2, "1-B")}\n", $$"""{"facts":[{"seq":1,"fact":{{Cut(1, "1-A")}}},{"seq":2,"fact":{{Cut(2, "1-B")}}}],"next":2,"more":false}""" })
        {
            shop.Write("done.json", facts);
            var call = shop.Run("compare", "old.yaml", "new.yaml", "--done", "done.json");
            Assert.Equal((1, ""), (call.Exit, call.Error));
            Assert.Contains("Done and spoiled\n  1-B cut, by Jo: was on 1-B", call.Out, StringComparison.Ordinal);
            Assert.Contains("100.0 too short for 1-B", call.Out, StringComparison.Ordinal);
            Assert.Contains("Done, and stays\n  1-A cut, by Jo", call.Out, StringComparison.Ordinal);
        }

        using var json = JsonDocument.Parse(shop.Run("compare", "old.yaml", "new.yaml", "--done", "done.json", "--json").Out);
        Assert.Equal(["spoiled", "stays"], json.RootElement.GetProperty("done").EnumerateArray().Select(d => d.GetProperty("mark").GetString()));
        shop.Write("done.json", $"[{Cut(1, "1-A")},{{\"id\":7}}]");
        var bad = shop.Run("compare", "old.yaml", "new.yaml", "--done", "done.json");
        Assert.Equal((3, ""), (bad.Exit, bad.Out));
        Assert.Contains("done.json: fact 2: ", bad.Error, StringComparison.Ordinal);
    }

    [Fact]
    public void Compare_as_json_is_json_and_nothing_else()
    {
        using var shop = new Shop();
        shop.Write("old.yaml", Shop.Drawing("A-1", "1300"));
        shop.Write("new.yaml", Shop.Drawing("A-1", "1200"));
        shop.Write("cut.csv", "piece,length\n1-B,\n");
        var call = shop.Run("compare", "old.yaml", "new.yaml", "--cut", "cut.csv", "--json");
        Assert.Equal((0, ""), (call.Exit, call.Error));
        using var json = JsonDocument.Parse(call.Out);
        var cut = json.RootElement.GetProperty("cut")[0];
        Assert.Equal(("usable-trimmed", 100.0), (cut.GetProperty("fate").GetString(), cut.GetProperty("trim by").GetDouble()));
    }

    [Fact]
    public void A_file_that_is_not_there_ends_with_3()
    {
        using var shop = new Shop();
        shop.Write("new.yaml", Shop.Drawing("A-1"));
        Assert.Equal(3, shop.Run("compare", "old.yaml", "new.yaml").Exit);
    }
}
