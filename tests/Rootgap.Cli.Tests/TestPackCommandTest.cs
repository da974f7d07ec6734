using System.Text.Json;

namespace Rootgap.Cli.Tests;

/// <summary><c>rootgap test-pack</c> as its user calls it.</summary>
public class TestPackCommandTest
{
    private const string Sag = """
        drawing: TP-1
        units: mm
        line: {size: 6, schedule: 40, class: 150, material: A106-B}
        service: {fluid: water, design pressure: 10 bar, design temperature: 40 C, code: B31.3}
        test: {pack: TP-1, medium: water, pressure: 15 bar, at: {up: 900}, gauge: {up: 3300}}
        runs:
          - run: main
            start: {to: flange, at: {up: 3000}}
            legs:
              - {go: down, by: 2000, to: elbow}
              - {go: north, by: 3000, to: elbow}
              - {go: up, by: 2000, to: flange}
        """;

    [Fact]
    public void The_pack_is_a_pdf_a_list_and_the_same_as_json()
    {
        using var shop = new Shop();
        shop.Write("sag.yaml", Sag);
        var call = shop.Run("test-pack", "sag.yaml", "--out", "pack", "--json");
        Assert.InRange(call.Exit, 0, 1);
        Assert.True(new FileInfo(shop.At("pack", "test-pack.pdf")).Length > 1000);
        Assert.StartsWith("drawing,revision,pack,row,", File.ReadAllText(shop.At("pack", "test.csv")), StringComparison.Ordinal);
        var pack = Assert.Single(JsonDocument.Parse(call.Out).RootElement.GetProperty("packs").EnumerateArray().ToArray());
        Assert.Equal("TP-1", pack.GetProperty("pack").GetString());
        var rows = pack.GetProperty("rows").EnumerateArray().ToArray();
        // 2.4 m of fresh water above where 15 bar are asked, 0.0981 bar a metre: by hand.
        Assert.Equal(14.765, rows.Single(r => r.GetProperty("says").GetString() == "at the gauge").GetProperty("bar").GetDouble(), 0.001);
        Assert.Contains(rows, r => r.GetProperty("row").GetString() == "low pocket" && r.GetProperty("says").GetString()!.Contains("NO OUTLET", StringComparison.Ordinal));
    }

    [Fact]
    public void A_test_pressure_without_its_unit_is_told_with_its_line()
    {
        using var shop = new Shop();
        shop.Write("sag.yaml", Sag.Replace("15 bar", "15", StringComparison.Ordinal));
        var call = shop.Run("test-pack", "sag.yaml", "--out", "pack");
        Assert.Equal(3, call.Exit);
        Assert.Contains("sag.yaml:5:", call.Out + call.Error, StringComparison.Ordinal);
        Assert.False(Directory.Exists(shop.At("pack")));
    }
}
