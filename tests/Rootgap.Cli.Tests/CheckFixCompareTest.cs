using System.Text.Json;

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
