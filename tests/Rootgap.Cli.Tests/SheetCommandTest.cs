using System.Text.Json;
using System.Xml.Linq;

namespace Rootgap.Cli.Tests;

/// <summary><c>rootgap sheet</c> as its user sees it.</summary>
public class SheetCommandTest
{
    [Theory]
    [InlineData("svg", "A-1-1.svg", "<svg")]
    [InlineData("pdf", "A-1.pdf", "%PDF-")]
    [InlineData("png", "A-1-1.png", "PNG")]
    public void The_sheets_are_written_in_the_format_asked_for(string format, string file, string begins)
    {
        using var shop = new Shop();
        var call = shop.Run("sheet", shop.Write("a.yaml", Shop.Drawing("A-1")), "--format", format, "--out", "sheets");
        Assert.Equal((0, ""), (call.Exit, call.Error));
        Assert.Contains(file, call.Out, StringComparison.Ordinal);
        Assert.Contains(begins, System.Text.Encoding.Latin1.GetString(File.ReadAllBytes(shop.At("sheets", file)).AsSpan(0, 8)), StringComparison.Ordinal);
    }

    [Fact]
    public void The_paper_is_the_one_asked_for()
    {
        using var shop = new Shop();
        Assert.Equal(0, shop.Run("sheet", shop.Write("a.yaml", Shop.Drawing("A-1")), "--format", "svg", "--paper", "tabloid", "--out", "sheets").Exit);
        // Source: ANSI/ASME Y14.1, size B: 11 x 17 inches.
        Assert.Equal("431.8mm", (string?)XDocument.Load(shop.At("sheets", "A-1-1.svg")).Root!.Attribute("width"));
        Assert.Equal(64, shop.Run("sheet", shop.At("a.yaml"), "--paper", "napkin", "--out", "sheets").Exit);
    }

    [Fact]
    public void Where_the_paper_asked_for_has_no_room_it_is_said()
    {
        using var shop = new Shop();
        var call = shop.Run("sheet", Repository.At("samples", "hatchery", "chilled-supply.yaml"), "--format", "svg", "--paper", "A4", "--out", "sheets");
        Assert.Contains("Isometric is on A3: A4 has no room for all its words", call.Out, StringComparison.Ordinal);
        Assert.Equal("420mm", (string?)XDocument.Load(shop.At("sheets", "CHW-201-1.svg")).Root!.Attribute("width"));
    }

    [Fact]
    public void One_spool_alone_or_the_names_of_those_there_are()
    {
        using var shop = new Shop();
        var file = shop.Write("a.yaml", Shop.Drawing("A-1"));
        Assert.Equal(0, shop.Run("sheet", file, "--spool", "1", "--format", "svg", "--out", "sheets").Exit);
        Assert.True(File.Exists(shop.At("sheets", "A-1-1-1.svg")));
        var wrong = shop.Run("sheet", file, "--spool", "99", "--out", "sheets");
        Assert.Equal(64, wrong.Exit);
        Assert.Contains("there is no spool 99; it has 1", wrong.Out, StringComparison.Ordinal);
    }

    [Fact]
    public void Json_names_the_files_and_nothing_else_is_on_standard_output()
    {
        using var shop = new Shop();
        var call = shop.Run("sheet", shop.Write("a.yaml", Shop.Drawing("A-1")), "--out", "sheets", "--json");
        using var json = JsonDocument.Parse(call.Out);
        var sheet = Assert.Single(json.RootElement.GetProperty("sheets").EnumerateArray());
        Assert.Equal("A-1", sheet.GetProperty("drawing").GetString());
        Assert.EndsWith("A-1.pdf", sheet.GetProperty("file").GetString(), StringComparison.Ordinal);
    }
}
