using System.Text.Json;

namespace Rootgap.Cli.Tests;

/// <summary><c>rootgap close</c> as its user calls it.</summary>
public class CloseCommandTest
{
    private const string Line = """
        drawing: T-1
        revision: 3
        line: {size: 6, schedule: 40, class: 150, material: A106-B, gasket: 3.2}
        runs:
          - run: main
            start: {to: flange, at: {east: 0, north: 0, up: 1000}}
            legs:
              - {go: up, by: 1500, to: elbow}
              - {go: north, by: 3000, to: elbow, end: final-fit}
              - {go: east, by: 2000, to: flange, at: {east: 2000, north: 3000, up: 2500}}
        """;

    private const string AsDrawn = "survey: x\ndrawing: T-1\nstanding: {spool 1: drawn, spool 2: drawn, B1 of other: drawn, B2 of other: drawn}\n";

    [Fact]
    public void A_line_that_stands_as_drawn_closes_and_its_extra_is_cut_off()
    {
        using var shop = new Shop();
        var call = shop.Run("close", shop.Write("a.yaml", Line), "--survey", shop.Write("s.yaml", AsDrawn), "--json");
        Assert.Equal((0, ""), (call.Exit, call.Error));
        using var json = JsonDocument.Parse(call.Out);
        var closing = Assert.Single(json.RootElement.GetProperty("closings").EnumerateArray());
        Assert.All(closing.GetProperty("round").EnumerateArray(), mm => Assert.Equal(100, mm.GetDouble()));
        Assert.Equal(16, closing.GetProperty("round").GetArrayLength());
        Assert.Equal("closes", closing.GetProperty("verdict").GetProperty("length").GetString());
        Assert.False(json.RootElement.TryGetProperty("moves", out _));
    }

    [Fact]
    public void What_is_not_known_yet_is_1_and_a_survey_that_cannot_be_read_is_3_with_its_row()
    {
        using var shop = new Shop();
        shop.Write("a.yaml", Line);
        Assert.Equal(1, shop.Run("close", "a.yaml").Exit);
        shop.Write("bad.yaml", "survey: x\nreadings:\n  - {tape: [lip 12, lip 12], at: [W9 of 9, B1 of other], mm: 900}\n");
        var bad = shop.Run("close", "a.yaml", "--survey", "bad.yaml");
        Assert.Equal(3, bad.Exit);
        Assert.Contains("There is no end \"W9 of 9\"", bad.Error, StringComparison.Ordinal);
        Assert.Contains("bad.yaml:3", bad.Error, StringComparison.Ordinal);
    }

    [Fact]
    public void Sheets_are_written_and_a_survey_to_begin_with_does_not_write_over_another()
    {
        using var shop = new Shop();
        shop.Write("a.yaml", Line);
        Assert.Equal(0, shop.Run("close", "a.yaml", "--blank", "--out", "blank").Exit);
        Assert.Equal("%PDF", File.ReadAllText(Assert.Single(Directory.EnumerateFiles(shop.At("blank"), "*.pdf")))[..4]);
        Assert.Equal(0, shop.Run("close", "a.yaml", "--begin", "new.yaml").Exit);
        Assert.Contains("B2 of other, east: 2003.2", File.ReadAllText(shop.At("new.yaml")), StringComparison.Ordinal);
        Assert.Equal(64, shop.Run("close", "a.yaml", "--begin", "new.yaml").Exit);
    }
}
