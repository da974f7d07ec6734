using System.Diagnostics;
using System.Text;
using System.Text.Json;

namespace Rootgap.Cli.Tests;

/// <summary>Drawings that cannot be built, files that are no drawings, names that lead elsewhere: each is told in its place, and the others go on.</summary>
public class BadDaysTest
{
    /// <summary>A leg that turns straight back: an elbow of no shape.</summary>
    private static string Back => Shop.Drawing("B-1").Replace("{go: east, by: 1200, to: flange}", "{go: south, by: 1200, to: flange}", StringComparison.Ordinal);

    [Fact]
    public void The_model_of_a_drawing_that_cannot_be_built_says_so_and_the_others_are_written()
    {
        using var shop = new Shop();
        shop.Write("job/a.yaml", Back);
        shop.Write("job/b.yaml", Shop.Drawing("A-1"));
        var call = shop.Run("model", "job", "--out", "m");
        Assert.Equal(2, call.Exit);
        Assert.Equal(["A-1.glb", "B-1.glb"], Directory.EnumerateFiles(shop.At("m")).Select(f => Path.GetFileName(f)!).Order(StringComparer.Ordinal), StringComparer.Ordinal);
        Assert.Contains("B-1.glb: NOT FOR FABRICATION", call.Out, StringComparison.Ordinal);
        Assert.DoesNotContain("A-1.glb: NOT", call.Out, StringComparison.Ordinal);
        Assert.Contains("NOT FOR FABRICATION", Encoding.UTF8.GetString(File.ReadAllBytes(shop.At("m", "B-1.glb"))), StringComparison.Ordinal);
        Assert.DoesNotContain("NOT FOR FABRICATION", Encoding.UTF8.GetString(File.ReadAllBytes(shop.At("m", "A-1.glb"))), StringComparison.Ordinal);
        using var json = JsonDocument.Parse(shop.Run("model", "job", "--out", "m", "--json").Out);
        Assert.EndsWith("B-1.glb", json.RootElement.GetProperty("not for fabrication")[0].GetString(), StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("fit-order", "a.yaml")]
    [InlineData("template", "drawing", "a.yaml", "--out", "o")]
    [InlineData("model", "a.yaml", "--out", "o")]
    [InlineData("sheet", "a.yaml", "--out", "o")]
    [InlineData("packet", "a.yaml", "--out", "o")]
    public void Whatever_is_made_of_a_drawing_that_cannot_be_built_ends_with_2_and_says_so(params string[] arguments)
    {
        using var shop = new Shop();
        shop.Write("a.yaml", Shop.Drawing("A-1", "300"));
        var call = shop.Run(arguments);
        Assert.Equal(2, call.Exit);
        Assert.Contains("NOT FOR FABRICATION", call.Out + call.Error, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("packet", "a.yaml", "--out", "")]
    [InlineData("packet", "a.yaml", "--out", "  ")]
    [InlineData("sheet", "a.yaml", "--out", "")]
    [InlineData("model", "a.yaml", "--out", "")]
    [InlineData("tables", "--out", "")]
    [InlineData("template", "drawing", "a.yaml", "--out", "")]
    [InlineData("template", "mitre", "--size", "6", "--angle", "20", "--out", "")]
    [InlineData("fit", "a.yaml", "--joint", "W1", "--card", "")]
    public void A_name_that_names_nothing_is_wrong_usage(params string[] arguments)
    {
        using var shop = new Shop();
        shop.Write("a.yaml", Shop.Drawing("A-1"));
        var call = shop.Run(arguments);
        Assert.Equal((64, ""), (call.Exit, call.Out));
        Assert.Contains("needs a name", call.Error, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("iso-8859-1", "no UTF-8")]
    [InlineData("utf-16", "UTF-16")]
    public void A_drawing_in_another_encoding_is_told_in_its_place_and_the_others_go_on(string encoding, string words)
    {
        using var shop = new Shop();
        shop.Write("b.yaml", Shop.Drawing("A-2"));
        File.WriteAllBytes(shop.At("a.yaml"), [.. Encoding.GetEncoding(encoding).Preamble, .. Encoding.GetEncoding(encoding).GetBytes("# Kühlwasser\n" + Shop.Drawing("A-1"))]);
        var call = shop.Run("check", "a.yaml", "b.yaml");
        Assert.Equal(3, call.Exit);
        Assert.Contains(words, call.Out, StringComparison.Ordinal);
        Assert.Contains("[not-utf-8]", call.Out, StringComparison.Ordinal);
        Assert.Contains(encoding == "utf-16" ? "a.yaml:1:1" : "a.yaml:1:4", call.Out, StringComparison.Ordinal);
        Assert.DoesNotContain('\ufffd', File.ReadAllText(shop.At("b.yaml")));
        Assert.Contains("b.yaml: ", call.Out, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("list.csv", "item,what,size,quantity\n1,Rohr für Kühlwasser,6,9 m\n")]
    [InlineData("list.yaml", "- {item: 1, what: Rohr für Kühlwasser, size: 6}\n")]
    [InlineData("rules.yaml", "# für alle\nroot gap: 3\n")]
    public void A_list_or_a_shop_file_in_another_encoding_is_told_in_its_place(string name, string text)
    {
        using var shop = new Shop();
        File.WriteAllBytes(shop.At(name), Encoding.Latin1.GetBytes(text));
        shop.Write("a.yaml", Shop.Drawing("A-1", extra: name == "rules.yaml" ? "shop: rules.yaml" : $"materials: {name}"));
        var call = shop.Run("check", "a.yaml");
        Assert.Equal(3, call.Exit);
        Assert.Contains("[not-utf-8]", call.Out, StringComparison.Ordinal);
        Assert.Contains(name + ":", call.Out, StringComparison.Ordinal);
    }

    [Fact]
    public void What_a_drawing_names_lies_in_the_jobs_folder_or_is_not_read()
    {
        using var shop = new Shop();
        shop.Write("secret.yaml", "password: 1\n");
        shop.Write("job/shop.yaml", "root gap: 3\n");
        shop.Write("job/area/a.yaml", Shop.Drawing("A-1", extra: "shop: ../shop.yaml"));
        // The job's folder was named: what lies in it may be shared by the folders in it.
        Assert.Equal(0, shop.Run("check", "job").Exit);
        Assert.Equal(3, shop.Run("check", "job/area/a.yaml").Exit);
        File.CreateSymbolicLink(shop.At("job", "area", "link.yaml"), shop.At("secret.yaml"));
        foreach (var name in new[] { "../../secret.yaml", shop.At("secret.yaml"), "/etc/passwd", "link.yaml", "../area/../../secret.yaml" })
        {
            shop.Write("job/area/a.yaml", Shop.Drawing("A-1", extra: $"shop: {name}"));
            var call = shop.Run("check", "job");
            Assert.Equal(3, call.Exit);
            Assert.Contains("[file-not-found]", call.Out, StringComparison.Ordinal);
            Assert.DoesNotContain("password", call.Out, StringComparison.Ordinal);
        }
    }

    [Fact]
    public async Task A_pipe_that_nobody_writes_into_is_told_and_one_that_somebody_writes_into_is_read()
    {
        using var shop = new Shop();
        Process.Start("mkfifo", [shop.At("a.yaml")])!.WaitForExit();
        // Each with an end of its own: one that still waits for the pipe would take what is meant for the next.
        var call = shop.Begin(null, "check", "a.yaml");
        Assert.Equal(3, call.Exit);
        Assert.Contains("nothing comes out of it", call.Out, StringComparison.Ordinal);
        var writer = Task.Run(() => File.WriteAllText(shop.At("a.yaml"), Shop.Drawing("A-1")), TestContext.Current.CancellationToken);
        Assert.Equal(0, shop.Begin(null, "check", "a.yaml").Exit);
        await writer.WaitAsync(TimeSpan.FromSeconds(20), TestContext.Current.CancellationToken);
    }

    [Fact]
    public void A_drawing_without_end_is_refused_with_its_measure()
    {
        using var shop = new Shop();
        var legs = string.Concat(Enumerable.Range(0, 5001).Select(i => i % 2 == 0 ? "      - {go: up, by: 900, to: elbow}\n" : "      - {go: east, by: 900, to: elbow}\n"));
        shop.Write("a.yaml", Shop.Drawing("A-1").Replace("      - {go: north", legs + "      - {go: north", StringComparison.Ordinal));
        var call = shop.Run("check", "a.yaml");
        Assert.Equal(3, call.Exit);
        Assert.Contains("5003 legs; 5000 can be worked out", call.Out, StringComparison.Ordinal);
    }

    /// <summary>1,000 legs over each other would be half a million findings.</summary>
    [Fact]
    public void Findings_without_end_are_told_as_far_as_anybody_reads()
    {
        using var shop = new Shop();
        string[] round = ["north", "east", "south", "west"];
        var legs = string.Concat(Enumerable.Range(0, 400).Select(i => $"      - {{go: {round[i % 4]}, by: 1500, to: elbow}}\n"));
        shop.Write("a.yaml", Shop.Drawing("A-1").Replace("      - {go: north", legs + "      - {go: north", StringComparison.Ordinal));
        var call = shop.Run("check", "a.yaml", "--json");
        Assert.Equal(2, call.Exit);
        using var json = JsonDocument.Parse(call.Out);
        var clashes = json.RootElement.GetProperty("drawings")[0].GetProperty("findings").EnumerateArray().Where(f => f.GetProperty("rule").GetString() == "runs-through-another").ToList();
        Assert.Equal(201, clashes.Count);
        Assert.Contains(clashes, f => f.GetProperty("message").GetString()!.Contains("more than 200", StringComparison.Ordinal));
    }
}
