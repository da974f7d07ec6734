using System.Text.Json;

namespace Rootgap.Cli.Tests;

/// <summary><c>rootgap cut</c> as its user calls it.</summary>
public class CutCommandTest
{
    private const string Rack = """
        stock:
          - {id: R1, size: 6, schedule: 40, material: A106-B, length: 6000, quantity: 2, heat: H1}
        """;

    [Fact]
    public void Two_drawings_and_a_rack_give_one_plan_in_every_form()
    {
        using var shop = new Shop();
        shop.Write("a.yaml", Shop.Drawing("A-1"));
        shop.Write("b.yaml", Shop.Drawing("B-1"));
        shop.Write("rack.yaml", Rack);
        var call = shop.Run("cut", "a.yaml", "b.yaml", "--stock", "rack.yaml", "--out", "plan");
        Assert.Equal((0, ""), (call.Exit, call.Error));
        foreach (var file in (string[])["cut.pdf", "cut.json", "cut.csv", "cut.xlsx", "rack-after.yaml", "rack-after.csv"])
            Assert.True(new FileInfo(shop.At("plan", file)).Length > 0, file);
        using var plan = JsonDocument.Parse(File.ReadAllText(shop.At("plan", "cut.json")));
        var group = Assert.Single(plan.RootElement.GetProperty("groups").EnumerateArray().ToArray());
        Assert.True(group.GetProperty("proven").GetBoolean());
        var bar = Assert.Single(group.GetProperty("bars").EnumerateArray().ToArray());
        Assert.Equal(("R1", "H1"), (bar.GetProperty("stock").GetString(), bar.GetProperty("heat").GetString()));
        Assert.Equal(4, bar.GetProperty("pieces").GetArrayLength());

        // The stock after the cuts is a stock file, and the packet gives the same pieces as the drawing.
        Assert.Equal(0, shop.Run("packet", "a.yaml", "--out", "packet").Exit);
        var again = shop.Run("cut", Path.Combine("packet", "packet.json"), "--stock", Path.Combine("plan", "rack-after.yaml"), "--json");
        Assert.Equal((0, 0), (again.Exit, JsonDocument.Parse(again.Out).RootElement.GetProperty("unplaced").GetArrayLength()));
    }

    [Fact]
    public void A_piece_without_stock_ends_with_2_and_is_named()
    {
        using var shop = new Shop();
        shop.Write("a.yaml", Shop.Drawing("A-1"));
        shop.Write("rack.csv", "id,size,schedule,material,length\nR1,6,80,A106-B,6000\n");
        var call = shop.Run("cut", "a.yaml", "--stock", "rack.csv", "--json");
        Assert.Equal(2, call.Exit);
        using var plan = JsonDocument.Parse(call.Out);
        Assert.All(plan.RootElement.GetProperty("unplaced").EnumerateArray(), u => Assert.Contains("not in 40", u.GetProperty("why").GetString(), StringComparison.Ordinal));
    }

    [Fact]
    public void A_stock_file_with_a_slip_ends_with_3_and_shows_the_line()
    {
        using var shop = new Shop();
        shop.Write("a.yaml", Shop.Drawing("A-1"));
        shop.Write("rack.yaml", "stock:\n  - {id: R1, size: 6, schedule: 40, length: -6000}\n");
        var call = shop.Run("cut", "a.yaml", "--stock", "rack.yaml", "--json");
        Assert.Equal((3, ""), (call.Exit, call.Out));
        Assert.Contains("rack.yaml:2:", call.Error, StringComparison.Ordinal);
    }

    [Fact]
    public void A_plain_instance_is_answered_as_JSON()
    {
        using var shop = new Shop();
        // 3 x 60 cannot share a bar of 100: 3 bars hold 60 + 40, 60 + 40, 60.
        shop.Write("i.txt", "2\n100\n60 3\n40 2\n");
        var call = shop.Run("cut", "--instance", "i.txt", "--json");
        Assert.Equal(0, call.Exit);
        using var answer = JsonDocument.Parse(call.Out);
        Assert.Equal((3, 3, true), (answer.RootElement.GetProperty("bars").GetInt32(), answer.RootElement.GetProperty("bound").GetInt32(), answer.RootElement.GetProperty("proven").GetBoolean()));
        Assert.Equal(3, answer.RootElement.GetProperty("patterns").EnumerateArray().Sum(p => p.GetProperty("count").GetInt32()));
    }

    [Theory]
    [InlineData("cut")]
    [InlineData("cut", "a.yaml")]
    [InlineData("cut", "a.yaml", "--stock", "rack.yaml")]
    [InlineData("cut", "a.yaml", "--stock", "rack.yaml", "--out", "plan", "--cut", "1-A")]
    [InlineData("cut", "a.yaml", "--instance", "i.txt")]
    [InlineData("cut", "--instance", "i.txt", "--time", "0")]
    public void Wrong_usage_ends_with_64(params string[] arguments)
    {
        using var shop = new Shop();
        Assert.Equal(64, shop.Run(arguments).Exit);
    }

    [Fact]
    public void A_file_that_is_not_there_ends_with_3()
    {
        using var shop = new Shop();
        shop.Write("a.yaml", Shop.Drawing("A-1"));
        Assert.Equal(3, shop.Run("cut", "a.yaml", "--stock", "none.yaml", "--json").Exit);
        Assert.Equal(3, shop.Run("cut", "none.yaml", "--stock", "none.yaml", "--json").Exit);
        Assert.Equal(3, shop.Run("cut", "--instance", "none.txt", "--json").Exit);
    }
}
