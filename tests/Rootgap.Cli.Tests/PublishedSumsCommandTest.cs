using System.Globalization;
using System.Text.Json;

namespace Rootgap.Cli.Tests;

/// <summary>Worked examples and tables that others have published, through <c>rootgap sums ... --json</c>; the source stands beside each.</summary>
public class PublishedSumsCommandTest
{
    private static double Figure(string arguments, string name, string what = "value")
    {
        using var shop = new Shop();
        var call = shop.Run(["sums", .. arguments.Split('|'), "--json"]);
        Assert.Equal((0, ""), (call.Exit, call.Error));
        var figures = JsonDocument.Parse(call.Out).RootElement.GetProperty("figures").EnumerateArray().ToList();
        Assert.True(figures.Exists(f => f.GetProperty("name").GetString() == name), string.Join(", ", figures.Select(f => f.GetProperty("name").GetString())));
        return figures.Single(f => f.GetProperty("name").GetString() == name).GetProperty(what).GetDouble();
    }

    private static string Text(double value) => value.ToString(CultureInfo.InvariantCulture);

    // A filler-metal maker's handbook, "weight per metre of weld metal ... elements of common butt joints" (stored copies on document sites): rectangles of gap by thickness, kg/m.
    [Theory]
    [InlineData(12.70, 3.175, 0.315)]
    [InlineData(12.70, 9.525, 0.948)]
    [InlineData(17.46, 6.350, 0.869)]
    [InlineData(15.88, 12.70, 1.579)]
    public void A_rectangle_weighs_what_the_handbooks_chart_has(double wall, double gap, double printed) =>
        Assert.Equal(printed, Figure($"weld|--wall|{Text(wall)}|--gap|{Text(gap)}|--land|{Text(wall)}|--bevel|0|--cap|0|--root|0", "mass of weld metal"), printed * 0.006);

    // The same chart's triangles of height by angle; a V has two of them.
    [Theory]
    [InlineData(12.70, 22.5, 0.262)]
    [InlineData(12.70, 45, 0.632)]
    [InlineData(15.88, 30, 0.570)]
    [InlineData(17.46, 15, 0.320)]
    public void Two_triangles_make_a_V(double wall, double degrees, double printed) =>
        Assert.Equal(2 * printed, Figure($"weld|--wall|{Text(wall)}|--gap|0|--land|0|--bevel|{Text(degrees)}|--cap|0|--root|0", "mass of weld metal"), 2 * printed * 0.006);

    // A gasket maker's design manual, "Torque data for use with alloy steel stud bolts" (stored page 55): load on the root area and torque at 30,000, 45,000 and 60,000 psi. The table
    // names no nut factor; its torques are those of 0.175 within 3 %.
    [Theory]
    [InlineData("3/4", 30, 9060, 100)]
    [InlineData("7/8", 45, 18855, 240)]
    [InlineData("1", 60, 33060, 490)]
    [InlineData("1-1/4", 30, 27870, 500)]
    public void Studs_carry_what_the_gasket_makers_table_has(string size, double ksi, double pounds, double torque)
    {
        var arguments = $"bolts|--size|{size}|--stress|{Text(ksi)} ksi|--area|root|--nut-factor|0.175";
        Assert.Equal(pounds, Figure(arguments, "load of one bolt", "value in inches"), pounds * 0.004);
        Assert.Equal(torque, Figure(arguments, "torque", "value in inches"), torque * 0.03);
    }

    // A page on the energy of compressed air (calculator5.snowdaycalculatornow.com): 300 litres, 10 bar over 1 bar, expanding without heat: V2 1.67 m3, about 409,000 J.
    [Fact]
    public void Pressed_air_stores_what_the_worked_example_says() =>
        Assert.Equal(409, Figure("test|--medium|air|--pressure|10 bar|--volume|0.3 m3", "stored energy") * 1000, 2.0);

    // A handbook of waste water treatment (climate-policy-watcher.org, example 92): a 10 ft column of water exerts 4.33 psi; 50 psi is 2.31 x 50 = 115.5 ft.
    [Theory]
    [InlineData(10, 4.33, 0.01)]
    [InlineData(115.5, 50, 0.1)]
    public void A_column_of_water_presses_as_the_handbook_says(double feet, double psi, double within)
    {
        using var shop = new Shop();
        var call = shop.Run("sums", "test", "--units", "in", "--pressure", "100 psi", "--at", $"{Text(feet)} ft", "--height", "0", "--json");
        Assert.Equal((0, ""), (call.Exit, call.Error));
        var figures = JsonDocument.Parse(call.Out).RootElement.GetProperty("figures").EnumerateArray().Where(f => f.GetProperty("name").GetString()!.StartsWith("pressure at height", StringComparison.Ordinal)).ToList();
        Assert.Equal(100 + psi, Assert.Single(figures).GetProperty("value in inches").GetDouble(), within);
    }

    // A question page (askanewquestion.com, 1800510): a 500 lb beam level on two cables at 60 degrees: 250 / sin 60.
    [Fact]
    public void Two_equal_legs_pull_as_the_answer_says() =>
        Assert.Equal(288.7, Figure("lift|--units|in|--mass|500|--angle|60", "tension of a leg", "value in inches"), 0.1);

    // An instructor's solution (coursehero.com, 6621180, problem 6.29): 9,800 N under a ring from which two ropes go at 20 and 30 degrees to the plumb line:
    // T1 sin 20 = T2 sin 30, T1 cos 20 + T2 cos 30 = 9,800: 6,397 and 4,376 N, as masses 652.7 and 446.5 kg.
    [Fact]
    public void Two_unequal_legs_pull_as_the_solution_says()
    {
        const double Hook = 3000;
        var (left, right) = (Hook * Math.Tan(20 * Math.PI / 180), Hook * Math.Tan(30 * Math.PI / 180));
        var arguments = $"lift|--mass|1000|--span|{Text(left + right)}|--centre|{Text(left)}|--hook|{Text(Hook)}";
        Assert.Equal(652.7, Figure(arguments, "tension of leg 1"), 0.1);
        Assert.Equal(446.5, Figure(arguments, "tension of leg 2"), 0.1);
    }
}
