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

    // A question page (ask.okorder.com, 1196077): a pipe of 4.7 m and 820 kg, its centre of mass 1.45 m from one end, hangs level from a 5.6 m cable over a hook: h^2 = 2.078 m2, legs of
    // 2.045 and 3.555 m; 44.8 and 23.9 degrees to the pipe, 7.88 and 6.12 kN (with 9.81 m/s2).
    [Theory]
    [InlineData("--hook|1441.5")]
    [InlineData("--leg|2044.6|--leg|3555.4")]
    public void A_pipe_slung_off_its_middle_pulls_as_the_answer_says(string legs)
    {
        var arguments = $"lift|--mass|820|--span|4700|--centre|1450|{legs}";
        Assert.Equal(7.88, Figure(arguments, "tension of leg 1") * 9.81 / 1000, 0.02);
        Assert.Equal(6.12, Figure(arguments, "tension of leg 2") * 9.81 / 1000, 0.02);
        Assert.Equal(44.8, Figure(arguments, "angle of leg 1 to the level"), 0.06);
        Assert.Equal(23.9, Figure(arguments, "angle of leg 2 to the level"), 0.06);
        Assert.Equal(0, Figure(arguments, "out of level"), 0.05);
    }

    // Two answers on question pages: 400 lb on cables at 18 and 72 degrees to the ceiling, 123.607 and 380.423 lb (qammunity.org, 777249); 60 lb at 30 and 45 degrees, 43.9 and 53.8 lb (0685.com, 20863).
    [Theory]
    [InlineData(400, 18, 72, 123.607, 380.423, 0.001)]
    [InlineData(60, 30, 45, 43.9, 53.8, 0.1)]
    public void Legs_at_two_angles_pull_as_the_answers_say(double pounds, double first, double second, double one, double two, double within)
    {
        var arguments = $"lift|--units|in|--mass|{Text(pounds)}|--angle|{Text(first)}|{Text(second)}";
        Assert.Equal(one, Figure(arguments, "tension of leg 1", "value in inches"), within);
        Assert.Equal(two, Figure(arguments, "tension of leg 2", "value in inches"), within);
        Assert.Equal(pounds, Figure(arguments, "leg 1 lifts", "value in inches") + Figure(arguments, "leg 2 lifts", "value in inches"), 1e-6);
    }

    // A crane safety board's practice quiz (bccranesafety.ca): slings of 16 ft, hook 12 ft over a load of 15,000 lb: length × load / (2 × height) = 10,000 lb.
    [Fact]
    public void The_riggers_rule_with_a_tape_needs_no_angle() =>
        Assert.Equal(10000, Figure("lift|--units|in|--mass|15000|--leg|16'|--hook|12'", "tension of a leg", "value in inches"), 1e-3);

    // Angle factors as a rigging page prints them (toolcroze.com): 1.00, 1.15, 1.41, 2.00 at 90, 60, 45, 30 degrees to the level.
    [Theory]
    [InlineData(90, 1.00)]
    [InlineData(60, 1.15)]
    [InlineData(45, 1.41)]
    [InlineData(30, 2.00)]
    public void The_load_factor_is_the_charts(double degrees, double printed) =>
        Assert.Equal(printed, Figure($"lift|--mass|1000|--angle|{Text(degrees)}", "load factor of the angle"), 0.006);

    // Points at two heights: the long-hand rule of riggers' courses, T1 = W D2 L1 / (D1 H2 + D2 H1), from memory; held by moments about the hook as well.
    [Fact]
    public void Points_at_two_heights_pull_as_the_long_hand_rule_says()
    {
        const string Arguments = "lift|--mass|2000|--span|3000|--centre|1200|--hook|2500|1900";
        var (l1, l2) = (Math.Sqrt((1200.0 * 1200) + (2500 * 2500)), Math.Sqrt((1800.0 * 1800) + (1900 * 1900)));
        const double Both = (1200.0 * 1900) + (1800.0 * 2500);
        Assert.Equal(2000 * 1800 * l1 / Both, Figure(Arguments, "tension of leg 1"), 1e-5);
        Assert.Equal(2000 * 1200 * l2 / Both, Figure(Arguments, "tension of leg 2"), 1e-5);
        Assert.Equal(2000, Figure(Arguments, "leg 1 lifts") + Figure(Arguments, "leg 2 lifts"), 1e-5);
        Assert.Equal(Math.Atan2(600, 3000) * 180 / Math.PI, Figure(Arguments, "out of level"), 1e-6);
    }

    // A calculator page's worked example (aionlinecalculator.com): M12 of grade 8.8, 84.3 mm2, 70 % of 580 MPa, nut factor 0.2: about 34 kN and 82 N m.
    [Fact]
    public void A_metric_bolt_takes_the_torque_of_the_worked_example()
    {
        const string Arguments = "bolts|--size|M12|--stress|406 MPa|--area|stress|--nut-factor|0.2";
        Assert.Equal(34.2, Figure(Arguments, "load of one bolt"), 0.05);
        Assert.Equal(82, Figure(Arguments, "torque"), 0.2);
    }

    // The filler-metal maker's handbook once more, reinforcement by width and height, kg/m: 12.70 wide 1.59 and 3.18 high, 15.88 wide 4.76 high. Here the groove is as wide as that and has no bevel.
    [Theory]
    [InlineData(12.70, 1.59, 0.106)]
    [InlineData(12.70, 3.18, 0.210)]
    [InlineData(15.88, 4.76, 0.394)]
    public void A_cap_weighs_what_the_handbooks_chart_has(double width, double height, double printed)
    {
        var with = Figure($"weld|--wall|10|--gap|{Text(width)}|--land|10|--bevel|0|--cap|{Text(height)}|--overlap|0|--root|0", "mass of weld metal");
        var without = Figure($"weld|--wall|10|--gap|{Text(width)}|--land|10|--bevel|0|--cap|0|--root|0", "mass of weld metal");
        Assert.Equal(printed, with - without, 0.0025);
    }

    // The same handbook in pounds a foot (a second stored sheet): rectangle of 1/2 by 1/8 in. 0.212, two triangles of 1/2 in. at 22 1/2 degrees 2 × 0.176, 3/4 in. at 30 degrees 2 × 0.552.
    [Theory]
    [InlineData("1/2", "1/8", 0, 0.212)]
    [InlineData("1/2", "0", 22.5, 0.352)]
    [InlineData("3/4", "0", 30, 1.104)]
    public void The_chart_in_pounds_a_foot_is_met_too(string wall, string gap, double degrees, double printed) =>
        Assert.Equal(printed, Figure($"weld|--units|in|--wall|{wall}|--gap|{gap}|--land|{(degrees > 0 ? "0" : wall)}|--bevel|{Text(degrees)}|--cap|0|--root|0", "mass of weld metal", "value in inches"), printed * 0.005);

    // A 2005 committee draft of ASME PCC-2's appendix (stored on a document site): in US units E = 360 Pat V (1 - (Pa / Pat)^0.286) ft lb, 14.7 psia, TNT = E / 1,488,617 lb; worked here for
    // 400 gal (53.47 ft3) at 404.7 psia, the vessel of a question about a test chamber. Its TNT in pounds is 4 % off its own figure in kilograms, which is the one used here.
    [Fact]
    public void The_same_energy_comes_in_us_units()
    {
        var energy = 360 * 404.7 * 53.472 * (1 - Math.Pow(14.7 / 404.7, 0.286));
        const string Arguments = "test|--medium|air|--pressure|390 psi|--volume|400 gal|--atmosphere|14.7 psi";
        Assert.Equal(energy, Figure(Arguments, "stored energy", "value in inches"), energy * 0.001);
        Assert.Equal(energy / 1488617, Figure(Arguments, "as TNT", "value in inches"), energy / 1488617 * 0.06);
    }

    // A forum's example (cr4.globalspec.com, 38522): 5 % of a welder's 100 joints are 5. Another (eng-tips.com, 316747) and a welding society's (app.aws.org, 31098): one reject, two more; one of
    // these, two more; one of these, all.
    [Fact]
    public void A_welders_sample_grows_with_his_rejects_as_the_forums_read_the_code()
    {
        Assert.Equal(5, Figure("sample|--share|5|--welds|100", "drawn"));
        const string Rejected = "sample|--share|5|--welds|100|--rejected|1|1|1";
        Assert.Equal((2, 2, 91), (Figure(Rejected, "more after step 1"), Figure(Rejected, "more after step 2"), Figure(Rejected, "more after step 3")));
        Assert.Equal(9, Figure("sample|--share|5|--welds|100|--rejected|1|1|0", "examined in all"));
        // Four rejected at once: eight more, as the second answer in that thread has it.
        Assert.Equal(8, Figure("sample|--share|10|--welds|100|--rejected|4", "more after step 1"));
        Assert.Equal(10, Figure("sample|--share|5|--welds|100|37|4|21", "drawn of all welders"));
    }
}
