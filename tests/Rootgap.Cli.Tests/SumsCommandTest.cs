using System.Text.Json;

namespace Rootgap.Cli.Tests;

/// <summary><c>rootgap sums</c> as its user calls it.</summary>
public class SumsCommandTest
{
    private static double Figure(JsonElement answer, string name, string what = "value") =>
        answer.GetProperty("figures").EnumerateArray().Single(f => f.GetProperty("name").GetString() == name).GetProperty(what).GetDouble();

    private static JsonElement Answer(params string[] arguments)
    {
        using var shop = new Shop();
        var call = shop.Run(["sums", .. arguments, "--json"]);
        Assert.Equal((0, ""), (call.Exit, call.Error));
        return JsonDocument.Parse(call.Out).RootElement.Clone();
    }

    [Fact]
    public void Weld_metal_torque_energy_and_slings_come_from_sizes_alone()
    {
        // The worked examples are those of PublishedSumsTest, with their sources there.
        Assert.Equal(0.424, Figure(Answer("weld", "--units", "in", "--fillet", "0.5", "--length", "12"), "mass of the seam", "value in inches"), 0.002);
        Assert.Equal(160, Figure(Answer("bolts", "--size", "3/4", "--stress", "50 ksi", "--area", "root", "--nut-factor", "0.17"), "torque", "value in inches"), 1.0);
        Assert.Equal(256, Figure(Answer("bolts", "--size", "3/4", "--load", "24,525 lbf", "--nut-factor", "0.167"), "torque", "value in inches"), 0.6);
        Assert.Equal(0.32, Figure(Answer("test", "--medium", "air", "--pressure", "10 bar", "--volume", "1 m3"), "as TNT"), 0.005);
        Assert.Equal(14.76, Figure(Answer("test", "--pressure", "15 bar", "--at", "900", "--height", "3300"), "pressure at height 3300.0"), 0.005);
        Assert.Equal(577, Figure(Answer("lift", "--mass", "1000", "--angle", "60"), "tension of a leg"), 0.5);
    }

    // By hand: 10 m of sea water at 1025 kg/m3 and 9.81 m/s2 are 1.0055 bar, a cubic metre of it 1025 kg.
    [Fact]
    public void Another_liquid_presses_by_its_density()
    {
        Assert.Equal(2 + 1.0055, Figure(Answer("test", "--pressure", "2 bar", "--at", "10 m", "--height", "0", "--density", "1025"), "pressure at height 0.0"), 1e-4);
        Assert.Equal(1025, Figure(Answer("test", "--volume", "1 m3", "--density", "1025"), "mass of water"), 1e-6);
    }

    [Fact]
    public void The_order_of_bolts_is_an_array_that_names_its_source()
    {
        var answer = Answer("bolts", "--count", "12");
        Assert.Equal([1, 7, 4, 10, 2, 8, 5, 11, 3, 9, 6, 12], answer.GetProperty("order").EnumerateArray().Select(h => h.GetInt32()));
        Assert.Contains("web article", answer.GetProperty("order from").GetString(), StringComparison.Ordinal);
    }

    // docs/sums.md says the shape: what it names comes, and nothing comes that it does not name.
    [Theory]
    [InlineData("weld", "--size", "6", "--schedule", "40", "--process", "stick")]
    [InlineData("weld", "--fillet", "6", "--length", "1000")]
    [InlineData("bolts", "--count", "8", "--size", "3/4", "--stress", "345 MPa", "--area", "stress", "--nut-factor", "0.17")]
    [InlineData("test", "--medium", "air", "--pressure", "10 bar", "--volume", "1 m3")]
    [InlineData("test", "--pressure", "15 bar", "--at", "900", "--height", "3300", "--design", "10 bar", "--class", "150")]
    [InlineData("lift", "--mass", "168", "--span", "2310", "--centre", "1071", "--leg", "2300")]
    [InlineData("lift", "--mass", "168", "--angle", "60")]
    [InlineData("lift", "--mass", "168", "--angle", "60", "45")]
    [InlineData("lift", "--mass", "168", "--leg", "2000", "--hook", "1800", "--legs", "3")]
    [InlineData("lift", "--mass", "168", "--span", "2310", "--centre", "1071", "--hook", "2000", "1900")]
    [InlineData("sample", "--share", "10", "--welds", "40", "--rejected", "1", "0")]
    [InlineData("sample", "--share", "10", "--welds", "40", "7")]
    [InlineData("bolts", "--size", "M36x3", "--stress", "345 MPa", "--area", "root", "--nut-factor", "0.16")]
    public void The_documented_shape_is_the_one_that_comes(params string[] arguments)
    {
        var docs = File.ReadAllText(Repository.At("docs", "sums.md"));
        docs = docs[docs.IndexOf("## As JSON", StringComparison.Ordinal)..];
        var answer = Answer(arguments);
        Assert.Equal(arguments[0], answer.GetProperty("sums").GetString());
        Assert.All(answer.EnumerateObject(), p => Assert.Contains($"`{p.Name}`", docs, StringComparison.Ordinal));
        var units = docs[docs.IndexOf("Units: ", StringComparison.Ordinal)..docs.IndexOf("Figures are not rounded", StringComparison.Ordinal)].Split(['\n', ' ', ',', ';', '.'], StringSplitOptions.RemoveEmptyEntries);
        foreach (var figure in answer.GetProperty("given").EnumerateArray().Concat(answer.GetProperty("figures").EnumerateArray()))
        {
            Assert.All(figure.EnumerateObject(), p => Assert.Contains($"`{p.Name}`", docs, StringComparison.Ordinal));
            foreach (var unit in new[] { "unit", "unit in inches" }.Where(u => figure.TryGetProperty(u, out _)).Select(u => figure.GetProperty(u).GetString()!))
                Assert.All(unit.Split(' '), u => Assert.Contains(u, units));
        }

        foreach (var name in answer.GetProperty("figures").EnumerateArray().Select(f => f.GetProperty("name").GetString()!))
        {
            var general = System.Text.RegularExpressions.Regex.Replace(name, "(?<=height ).*|(?<=^(area|round), ).*|(?<=^efficiency of ).*|^.*(?= to buy$)", "...", System.Text.RegularExpressions.RegexOptions.None, TimeSpan.FromSeconds(1));
            general = System.Text.RegularExpressions.Regex.Replace(general, "(60|100) %", "30 %", System.Text.RegularExpressions.RegexOptions.None, TimeSpan.FromSeconds(1)).Replace("point 2", "point 1", StringComparison.Ordinal).Replace("leg 2", "leg 1", StringComparison.Ordinal).Replace("step 2", "step 1", StringComparison.Ordinal).Replace("welder 2", "welder 1", StringComparison.Ordinal);
            Assert.Contains($"`{general}`", docs, StringComparison.Ordinal);
        }
    }

    [Theory]
    [InlineData("--schedule goes with --size", "weld", "--schedule", "40")]
    [InlineData("There is no wall", "weld", "--size", "6")]
    [InlineData("multiple of four", "bolts", "--count", "6")]
    [InlineData("On which area is the stress meant", "bolts", "--size", "3/4", "--stress", "345 MPa", "--nut-factor", "0.17")]
    [InlineData("--pressure: \"10 feet\" is not read", "test", "--pressure", "10 feet", "--height", "3")]
    [InlineData("do not meet", "lift", "--mass", "100", "--span", "2000", "--leg", "900")]
    [InlineData("not checked", "test", "--class", "155")]
    [InlineData("one figure or two", "lift", "--mass", "100", "--angle", "60", "50", "40")]
    [InlineData("no higher than a leg is long", "lift", "--mass", "100", "--leg", "1000", "--hook", "1200")]
    [InlineData("both points", "lift", "--mass", "100", "--span", "1000", "--hook", "1200", "0")]
    [InlineData("5 rejected of 4", "sample", "--share", "10", "--welds", "40", "--rejected", "5")]
    [InlineData("at most 100", "sample", "--share", "110", "--welds", "40")]
    [InlineData("no root area", "bolts", "--size", "M12", "--stress", "345 MPa", "--area", "root", "--nut-factor", "0.16")]
    public void What_is_missing_or_wrong_is_said_and_ends_with_64(string says, params string[] arguments)
    {
        using var shop = new Shop();
        var call = shop.Run(["sums", .. arguments]);
        Assert.Equal((64, ""), (call.Exit, call.Out));
        Assert.Contains(says, call.Error, StringComparison.Ordinal);
    }

    [Fact]
    public void A_centre_of_mass_above_the_points_is_said_to_turn_over()
    {
        using var shop = new Shop();
        Assert.Contains("turn over", shop.Run(["sums", "lift", "--mass", "100", "--span", "2000", "--below", "-50", "--leg", "2000"]).Out, StringComparison.Ordinal);
    }
}
