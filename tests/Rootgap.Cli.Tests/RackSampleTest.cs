using System.Text.Json;

namespace Rootgap.Cli.Tests;

/// <summary>The demo's rack against the demo's drawings, as the README says it.</summary>
public class RackSampleTest
{
    [Fact]
    public void The_demo_is_cut_from_its_rack_with_every_group_proven()
    {
        using var shop = new Shop();
        var run = shop.Run("cut", Repository.At("samples", "hatchery"), "--stock", Repository.At("samples", "hatchery", "rack.yaml"), "--out", "plan", "--json");
        Assert.Equal(0, run.Exit);
        using var plan = JsonDocument.Parse(run.Out);
        Assert.Empty(plan.RootElement.GetProperty("unplaced").EnumerateArray());
        Assert.All(plan.RootElement.GetProperty("groups").EnumerateArray(), g => Assert.True(g.GetProperty("proven").GetBoolean()));
    }
}
