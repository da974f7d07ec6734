using System.Text.Json;
using Rootgap.Checks;
using Rootgap.Measure;
using Rootgap.Packets;
using Rootgap.Papers;
using Rootgap.Tests.Checks;

namespace Rootgap.Tests.Sums;

/// <summary>A pressure test from the drawing's geometry, held against sums by hand.</summary>
public class TestPackTest
{
    private static TestPack Of(string legs, string more = "", string start = "to: flange, at: {up: 3000}") => TestPack.Of(Desk.Packet(Desk.Drawing(legs, more, start: start)).Fabrication);

    private const string Sag = "{go: down, by: 2000, to: elbow}\n{go: north, by: 3000, to: elbow}\n{go: up, by: 2000, to: flange}";

    // ASME B36.10M: NPS 6 schedule 40, bore 154.08 by the millimetre column: 18.65 litres a metre (18.64 by 154.05).
    [Fact]
    public void Ten_metres_of_pipe_hold_ten_times_the_bore()
    {
        var pack = Of("{go: north, by: 10000, to: open}", start: "to: open, at: {up: 0}");
        Assert.Equal(186.5, pack.Volume / 1e6, 0.1);
        // A litre of water weighs a kilogram, to 2 in a thousand up to 20 C (any steam table).
        Assert.Equal(186.5, pack.WaterMass, 0.4);
    }

    // A test with gas is another danger: what the line data say of it must reach the paper, and a test that says its own medium goes before.
    [Theory]
    [InlineData("service: {test package: \"TP-1, pneumatic with nitrogen\", test pressure: 11 bar}", "nitrogen", true)]
    [InlineData("service: {test package: TP-1, test pressure: 11 bar pneumatic}", "air", true)]
    [InlineData("service: {test package: \"TP-1, pneumatic with nitrogen\", test pressure: 11 bar}\ntest: {medium: water}", "water", false)]
    [InlineData("service: {test package: TP-1, test pressure: 11 bar}", "water", false)]
    public void The_medium_of_the_line_data_reaches_the_test_pack(string more, string medium, bool isGas)
    {
        var pack = Of("{go: north, by: 10000, to: flange}", more);
        Assert.Equal(isGas, pack.IsAir);
        Assert.Equal(medium, TestWords.Medium(pack));
    }

    [Fact]
    public void A_sag_without_a_drain_stays_wet_whole_and_asks_for_one()
    {
        var pack = Of(Sag);
        var low = Assert.Single(pack.Pockets, p => !p.IsHigh);
        Assert.False(low.IsServed);
        Assert.Equal(3000 - 2000 - (154.08 / 2), low.Height, 0.5);
        // Both ends are the sills, at one height: all below them stays.
        Assert.InRange(low.Stays / pack.Volume, 0.97, 1.0);
        Assert.Contains("NO OUTLET", TestWords.Of(low, pack, Units.Millimetres), StringComparison.Ordinal);
        // Each end is a high place with a limit that can be opened.
        Assert.All(pack.Pockets.Where(p => p.IsHigh), p => Assert.NotNull(p.Limit));
    }

    [Fact]
    public void A_drain_at_the_lowest_place_lets_it_all_out()
    {
        var pack = TestPack.Of(Given.Packet("""
            drawing: T-1
            units: mm
            line: {size: 6, schedule: 40, class: 150, material: A106-B}
            runs:
              - run: main
                start: {to: flange, at: {up: 3000}}
                legs:
                  - {go: down, by: 2000, to: elbow}
                  - {go: north, by: 1500, to: outlet, name: D, branch: down, size: 1, ends: socket}
                  - {go: north, by: 1500, to: elbow}
                  - {go: up, by: 2000, to: flange}
              - run: drain
                start: {from: D}
                legs: [{go: down, by: 400, to: open}]
            """).Fabrication);
        var low = Assert.Single(pack.Pockets, p => !p.IsHigh);
        Assert.Equal((LimitKind.Cap, "1"), (low.Limit!.Kind, low.Size.ToString()));
        Assert.Equal(3, pack.Limits.Count);
    }

    [Fact]
    public void A_slope_drains_to_its_low_end_and_a_hump_keeps_air()
    {
        var sloped = Of("{go: north, by: 6000, fall: 1:100, to: flange}");
        Assert.Equal(["1"], sloped.Pockets.Where(p => p.IsHigh).Select(p => p.Limit?.Name));
        Assert.Equal(["2"], sloped.Pockets.Where(p => !p.IsHigh).Select(p => p.Limit?.Name));
        var hump = Of("{go: up, by: 2000, to: elbow}\n{go: north, by: 3000, to: elbow}\n{go: down, by: 2000, to: flange}");
        var high = Assert.Single(hump.Pockets, p => p.IsHigh);
        Assert.False(high.IsServed);
        Assert.InRange(high.Stays / hump.Volume, 0.97, 1.0);
    }

    [Fact]
    public void Water_above_a_check_valve_is_drained_by_a_joint_whose_gasket_is_renewed()
    {
        var pack = TestPack.Of(Given.Packet("""
            drawing: T-2
            units: mm
            line: {size: 6, schedule: 40, class: 150, material: A106-B}
            runs:
              - run: main
                flow: along
                start: {to: flange, at: {up: 0}}
                legs:
                  - {go: up, by: 1000, to: valve, kind: check}
                  - {go: up, by: 3000, to: flange}
            """).Fabrication);
        var wet = Assert.Single(pack.Pockets, p => p is { IsHigh: false, Limit: null });
        Assert.InRange(wet.Stays / 1e6, 18.65 * 2.5, 18.65 * 3.1);
        Assert.NotNull(wet.Opened);
        Assert.Contains(wet.Opened.Joint.Id, pack.Opened.Select(b => b.Joint.Id));
        Assert.Contains(pack.Valves, v => TestWords.Of(v, pack).Contains("lets it through with the flow only", StringComparison.Ordinal));
    }

    // 10 m of water are 0.981 bar (1000 kg/m³ by 9.81 m/s²).
    [Fact]
    public void Heads_fall_with_height_from_where_the_pressure_is_asked()
    {
        var pack = Of(Sag, "service: {design pressure: 10 bar}\ntest: {medium: water, pressure: 15 bar, at: {up: 900}, gauge: {up: 3300}}");
        Assert.Equal(14.76, pack.Heads[1].Bar!.Value, 0.005);
        Assert.Equal(15 + ((900 - 922.96) / 1000 * 0.0981), pack.Heads[^1].Bar!.Value, 0.001);
        // ASME B16.5 2.6: class 150, group 1.1: 30 bar.
        Assert.Equal(30, pack.Weakest!.Value.Most, 1e-9);
        Assert.Equal(15, pack.Least!.Value, 1e-9);
    }

    [Fact]
    public void Air_is_stored_energy_and_says_so()
    {
        var pack = Of(Sag, "service: {design pressure: 10 bar}\ntest: {medium: air, pressure: 11 bar}");
        Assert.All(pack.Heads, h => Assert.Equal(11, h.Bar));
        Assert.Contains("STORED ENERGY", TestWords.Cautions(pack).First(), StringComparison.Ordinal);
        Assert.Contains(TestWords.Held(pack, Units.Millimetres), h => h.Says.StartsWith("12.10 bar", StringComparison.Ordinal));
    }

    [Fact]
    public void What_is_taken_out_is_put_back_with_new_gaskets()
    {
        var pack = Of("{go: down, by: 1000, to: in-line item, what: flow meter, face to face: 300, test: out}\n{go: down, by: 1000, to: flange}");
        Assert.Equal(["flow meter"], pack.Out.Select(c => c.Name));
        Assert.Equal(4, pack.Opened.Count);
        Assert.Equal(2, pack.Limits.Count(l => l.Kind == LimitKind.Blind));
    }

    [Fact]
    public void A_class_that_no_table_has_is_said_to_be_not_checked() =>
        Assert.Contains(TestWords.Held(TestPack.Of(Desk.Packet(Desk.Drawing("{go: up, by: 1000, to: flange}", line: "size: 6, schedule: 40, class: 150, material: unobtainium")).Fabrication), Units.Millimetres), h => h.Says.Contains("not checked", StringComparison.Ordinal) && h.What.Contains("class 150", StringComparison.Ordinal));

    private const string Lower = """
        drawing: T-8
        units: mm
        line: {size: 6, schedule: 40, class: 150, material: A106-B}
        service: {design pressure: 10 bar}
        test: {pack: TP, medium: water, pressure: 15 bar}
        runs:
          - run: main
            start: {to: flange, at: {up: 1000}}
            legs: [{go: up, by: 4000, to: weld, continues: T-9}]
        """;

    private const string Upper = """
        drawing: T-9
        units: mm
        line: {size: 6, schedule: 40, class: 150, material: A106-B}
        service: {design pressure: 12 bar}
        runs:
          - run: main
            start: {to: weld, continues: T-8, at: {up: 5000}}
            legs: [{go: up, by: 20000, to: flange}]
        """;

    [Fact]
    public void Drawings_tested_together_have_the_heads_of_the_whole_pack_and_no_limit_where_they_meet()
    {
        var (low, high) = (Given.Packet(Lower).Fabrication, Given.Packet(Upper).Fabrication);
        Assert.Equal(2, TestPack.Of(low).Limits.Count);
        foreach (var one in new[] { low, high })
        {
            var pack = TestPack.Of(one, [low, high]);
            Assert.Single(pack.Limits);
            Assert.Empty(pack.Apart);
            // Asked at the highest place, EL 25000; the lowest is the face at EL 1000: 24 m of water, 0.0981 bar a metre, by hand.
            Assert.Equal(25000, pack.AskedAt, 1e-6);
            Assert.Equal(15 + (24 * 0.0981), pack.Heads[^1].Bar!.Value, 0.002);
            Assert.Contains("T-8", pack.Heads[^1].What, StringComparison.Ordinal);
            // 1.5 times the higher design pressure of the two.
            Assert.Equal(18, pack.Least!.Value, 1e-9);
            Assert.Equal(TestPack.Of(low).Volume + TestPack.Of(high).Volume, pack.PackVolume, 1);
        }

        // By itself the lower one would be told 4 m.
        Assert.Equal(15 + (4 * 0.0981), TestPack.Of(low).Heads[^1].Bar!.Value, 0.002);
    }

    [Fact]
    public void Drawings_that_ask_for_different_tests_or_stand_nowhere_are_not_one_test()
    {
        var low = Given.Packet(Lower).Fabrication;
        var high = Given.Packet(Upper.Replace(", at: {up: 5000}", "", StringComparison.Ordinal).Replace("service:", "test: {medium: air, pressure: 11 bar}\nservice:", StringComparison.Ordinal)).Fabrication;
        var pack = TestPack.Of(high, [low, high]);
        foreach (var said in (string[])["T-9 asks for air, T-8 for water", "T-9 asks for 11 bar, T-8 for 15 bar", "T-9 does not say how high it stands"])
            Assert.Contains(pack.Apart, a => a.StartsWith(said, StringComparison.Ordinal));
        Assert.Null(pack.Heads.Single(h => h.What.StartsWith("limit", StringComparison.Ordinal)).Bar);
        Assert.Contains(TestWords.Held(pack, Units.Millimetres), h => h.What == "NOT ONE TEST AS DRAWN");
    }

    [Fact]
    public void Two_supports_bear_half_of_the_full_pipe_between_them()
    {
        var pack = Of("{go: north, by: 1000, to: support, kind: shoe}\n{go: north, by: 4000, to: support, kind: shoe}\n{go: north, by: 1000, to: open}", start: "to: open, at: {up: 0}");
        Assert.Equal(2, pack.Supports.Count);
        Assert.All(pack.Supports, s => Assert.Equal(2 * (28.26 + 18.65), s.Full, 1.5));
        Assert.All(pack.Supports, s => Assert.Equal(2 * 28.26, s.Empty, 1.0));
    }

    // Segment of a circle, tables of hydraulics: at 0.2 of the height 0.1424 of the area, at a half a half.
    [Theory]
    [InlineData(0.2, 0.1424)]
    [InlineData(0.5, 0.5)]
    [InlineData(0.8, 0.8576)]
    public void A_round_bore_is_filled_as_segments_are(double height, double share) => Assert.Equal(share, BoreMap.Filled(0, 1, height), 0.0001);
}
