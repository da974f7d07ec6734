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
    private static TestPack Of(string legs, string more = "", string start = "to: flange, at: {up: 3000}", string line = "size: 6, schedule: 40, class: 150, material: A106-B") => TestPack.Of(Desk.Packet(Desk.Drawing(legs, more, line: line, start: start)).Fabrication);

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
        // Its two gaskets' ends stand open: each is a limit, counted, and the two sides are two bores.
        Assert.Equal(4, pack.Limits.Count(l => l.Kind == LimitKind.Blind));
        Assert.Equal(2, pack.Limits.Count(l => l.Out is not null));
        Assert.Equal(2, pack.Bores.Count);
        Assert.All(pack.Bores, b => Assert.Equal(2, b.Limits.Count));
        Assert.Contains(TestWords.Steps(pack), s => s.StartsWith("4 blinds and caps", StringComparison.Ordinal));
        Assert.Contains(TestWords.Cautions(pack), c => c.Contains("each side is filled", StringComparison.Ordinal));
    }

    // A steam trap in a threaded line: its two threads stand open when it is out (a look at a sheet found them in no limit).
    [Fact]
    public void Threads_that_a_trap_leaves_open_are_limits_and_what_lies_behind_is_filled_by_itself()
    {
        var pack = Of("{go: east, by: 500, to: in-line item, what: steam trap, ends: threaded, face to face: 95, test: out}\n{go: east, by: 500, to: open, ends: threaded}", start: "to: open, ends: threaded, at: {up: 0}", line: "size: 3/4, schedule: 160, material: A106-B, ends: threaded, fitting class: 6000");
        Assert.Equal([LimitKind.Cap, LimitKind.Cap, LimitKind.Cap, LimitKind.Cap], pack.Limits.Select(l => l.Kind));
        var open = pack.Limits.Where(l => l.Out is not null).ToList();
        Assert.Equal(["cap or plug NPS 3/4 where C1 is out", "cap or plug NPS 3/4 where C1 is out"], open.Select(l => TestWords.Of(l).Split(", ")[1]));
        Assert.Equal(2, TestWords.Steps(pack).Count(s => s.Contains("fill at limit", StringComparison.Ordinal)));
        // A metre of NPS 3/4 schedule 160, bore 15.55 (ASME B36.10M: 26.67 less twice 5.56), is 0.190 litres: the trap's own bore, 95 mm less what screws into it, is gone.
        Assert.InRange(pack.Volume / 1e6, 0.190 * 0.905, 0.190 * 0.945);
    }

    [Fact]
    public void A_welded_part_that_is_marked_out_is_said_not_to_come_out() =>
        Assert.Contains(Of("{go: east, by: 500, to: valve, kind: check, ends: socket, face to face: 172, test: out}\n{go: east, by: 500, to: open}", start: "to: open, at: {up: 0}", line: "size: 1, schedule: 80, material: A106-B, ends: socket").Limits, l => TestWords.Of(l).Contains("WELDED IN", StringComparison.Ordinal));

    // A spectacle blind with its blind side in parts the line unseen; what is not marked out is pressed with the rest (common practice).
    [Fact]
    public void What_stays_in_the_line_is_named_on_the_sheet()
    {
        var pack = Of("{go: north, by: 1000, to: joint, between: {spectacle blind: 16}}\n{go: north, by: 1000, to: in-line item, what: expansion joint, face to face: 250}\n{go: north, by: 1000, to: flange}");
        Assert.Equal(["OPEN side in", "not marked out"], pack.Valves.Select(v => TestWords.Of(v, pack).Split(": ")[1].Split(',', ':')[0]));
    }

    private const string Vented = """
        drawing: T-3
        units: mm
        line: {size: 6, schedule: 40, class: 150, material: A106-B}
        runs:
          - run: main
            flow: along
            start: {to: flange, at: {up: 3000}}
            legs:
              - {go: down, by: 2000, to: elbow}
              - {go: north, by: 1500, to: drain, size: 3/4, ends: threaded, nipple: 100, face to face: 90}
              - {go: north, by: 1500, to: elbow}
              - {go: up, by: 2000, to: flange, blinded: yes}
          - run: end
            start: {to: cap, at: {up: 9000}}
            legs: [{go: east, by: 1000, to: cap, ends: threaded}]
        """;

    [Fact]
    public void Plugs_screwed_caps_and_the_lines_own_blind_are_limits_and_told_by_what_they_are()
    {
        var pack = TestPack.Of(Given.Packet(Vented).Fabrication);
        Assert.Equal(["Blind", "OwnBlind", "Screwed", "Screwed", "WeldedCap"], pack.Limits.Select(l => l.Kind.ToString()).Order(StringComparer.Ordinal));
        // Only the test's own blind is counted in and out.
        Assert.Contains(TestWords.Steps(pack), s => s.StartsWith("1 blind or cap (limit 1) in and counted; the line's own at limits", StringComparison.Ordinal));
        var drain = Assert.Single(pack.Pockets, p => !p.IsHigh && p.Limit is { Part: Rootgap.Routes.Plug });
        Assert.Contains("unscrewed", TestWords.Of(drain, pack, Units.Millimetres), StringComparison.Ordinal);
        // The riser under the line's own blind: no limit lets its air out.
        Assert.Contains(pack.Pockets, p => p is { IsHigh: true, Limit: null, IsServed: false });
    }

    [Fact]
    public void A_valve_behind_which_nothing_follows_is_an_open_end()
    {
        var pack = Of("{go: east, by: 500, to: valve, kind: gate, ends: socket, face to face: 150}", start: "to: open, at: {up: 0}", line: "size: 1, schedule: 80, material: A106-B, ends: socket");
        Assert.Equal(["open end: cap, plug or stopper NPS 1", "C1 valve gate, open end: cap, plug or stopper NPS 1"], pack.Limits.Select(TestWords.Of));
    }

    [Fact]
    public void Open_branches_of_small_tees_are_ends_though_their_other_ends_are_near()
    {
        var pack = Of("{go: east, by: 300, to: tee, name: T, branch: up}\n{go: east, by: 300, to: open}", start: "to: open, at: {up: 0}", line: "size: 3/4, schedule: 80, material: A106-B, ends: socket");
        Assert.Contains(pack.Limits, l => l is { Kind: LimitKind.Cap, Part: Rootgap.Routes.Tee });
    }

    // A clapper lets water and air through with the flow and never back (common practice): filling behind it shuts it and leaves the line before it empty.
    [Theory]
    [InlineData("along", "1")]
    [InlineData("against", "2")]
    public void A_line_with_a_check_valve_is_filled_from_before_it_whatever_end_is_lower(string flow, string fill)
    {
        // Both ends hang down; the second one lower. In between, at the top, the check valve.
        var pack = TestPack.Of(Given.Packet($$$"""
            drawing: T-4
            units: mm
            line: {size: 6, schedule: 40, class: 150, material: A106-B}
            runs:
              - run: main
                flow: {{{flow}}}
                start: {to: flange, at: {up: 1000}}
                legs:
                  - {go: up, by: 1000, to: elbow}
                  - {go: north, by: 1500, to: valve, kind: check}
                  - {go: north, by: 1500, to: elbow}
                  - {go: down, by: 1800, to: flange}
            """).Fabrication);
        var bore = Assert.Single(pack.Bores);
        Assert.Equal([fill], bore.Fills.Select(l => l.Name));
        Assert.Equal(0, bore.Dry);
        // No air of what lies behind comes back through the clapper: no vent is there.
        Assert.Contains(pack.Pockets, p => p is { IsHigh: true, IsServed: false });
        Assert.DoesNotContain(TestWords.Steps(pack), s => s.Contains("fill from the lowest", StringComparison.Ordinal));
    }

    [Fact]
    public void Of_a_check_valve_without_a_flow_each_side_is_filled_by_itself()
    {
        var pack = Of("{go: up, by: 1000, to: valve, kind: check}\n{go: up, by: 3000, to: flange}");
        Assert.Equal(2, Assert.Single(pack.Bores).Fills.Count);
        Assert.Contains(pack.Pockets, p => p is { IsHigh: true, Limit: null, IsServed: false });
        Assert.Contains(pack.Pockets, p => p is { IsHigh: false, Limit: null, IsServed: false });
    }

    // A joint that is higher than what stands does not let it out.
    [Fact]
    public void No_joint_above_the_water_is_said_to_drain_it()
    {
        var pack = TestPack.Of(Given.Packet("""
            drawing: T-5
            units: mm
            line: {size: 2, schedule: 80, class: 300, material: A106-B, flange: SW, ends: socket}
            runs:
              - run: main
                flow: along
                start: {to: flange, at: {up: 0}}
                legs:
                  - {go: up, by: 300, to: valve, kind: check, ends: socket, face to face: 172}
                  - {go: up, by: 3000, to: flange}
            """).Fabrication);
        var wet = Assert.Single(pack.Pockets, p => p is { IsHigh: false, Limit: null });
        Assert.Null(wet.Opened);
        Assert.Contains("ask for a drain", TestWords.Of(wet, pack, Units.Millimetres), StringComparison.Ordinal);
    }

    // Upright pipe that goes down from a slip-on flange, or from a socket elbow, holds nothing at its top.
    [Theory]
    [InlineData("size: 4, schedule: 40, class: 150, material: A106-B, flange: SO", "{go: down, by: 1000, to: elbow}\n{go: north, by: 1000, to: flange}", "to: flange, at: {up: 700}")]
    [InlineData("size: 1, schedule: 80, class: 150, material: A106-B, flange: SW, ends: socket", "{go: north, by: 1000, to: elbow}\n{go: down, by: 1000, to: flange}", "to: flange, at: {up: 3000}")]
    [InlineData("size: 2, schedule: 40, class: 150, material: A106-B, flange: SW, ends: socket", "{go: north, by: 1000, to: elbow}\n{go: down, by: 1000, to: tee, name: T, branch: east}\n{go: down, by: 500, to: flange}", "to: flange, at: {up: 3000}")]
    public void Upright_pipe_under_a_slip_on_flange_or_a_socket_elbow_holds_no_water(string line, string legs, string start)
    {
        var pack = Of(legs, start: start, line: line);
        Assert.DoesNotContain(pack.Pockets, p => p.Limit is null);
        Assert.Single(pack.Pockets, p => !p.IsHigh);
    }

    // A level branch of an upright pipe runs off whole: its water goes over the lower lip of its mouth.
    [Fact]
    public void A_level_branch_of_a_riser_drains_into_it()
    {
        var pack = TestPack.Of(Given.Packet("""
            drawing: T-6
            units: mm
            line: {size: 6, schedule: 40, class: 150, material: A106-B}
            runs:
              - run: main
                start: {to: flange, at: {up: 3000}}
                legs:
                  - {go: down, by: 1030, to: outlet, name: D, branch: east, size: 4}
                  - {go: down, by: 970, to: flange}
              - run: branch
                start: {from: D}
                legs: [{go: east, by: 3000, to: cap}]
            """).Fabrication);
        Assert.DoesNotContain(pack.Pockets, p => p.Limit is null);
    }

    // An eccentric reducer that is flat below keeps its bore square to the line: nothing stays at its small end.
    [Fact]
    public void Air_goes_up_through_an_eccentric_reducer_that_is_flat_below()
    {
        var pack = Of("{go: north, by: 1000, to: reducer, size: 10, kind: eccentric, flat: bottom}\n{go: north, by: 1000, to: elbow}\n{go: up, by: 1000, to: flange}");
        Assert.Equal(["2"], pack.Pockets.Where(p => p.IsHigh).Select(p => p.Limit?.Name));
    }

    // With gas every corner is filled: no vents of water stand on its sheet.
    [Fact]
    public void A_gas_test_speaks_of_no_water()
    {
        var pack = Of(Sag, "test: {medium: nitrogen, pressure: 11 bar}");
        Assert.Empty(pack.Pockets);
        Assert.DoesNotContain(TestWords.Steps(pack), s => s.Contains("drain", StringComparison.Ordinal) || s.Contains("Vents", StringComparison.Ordinal));
    }

    // 165 psi and 10 %: 181.5 psi, and no more (B31.3 345.5.2); 100 degrees F (ASME B16.5); 135.5 MJ are 100 million ft lb (ASME PCC-2 501-III).
    [Fact]
    public void In_inches_limits_are_rounded_down_and_said_in_its_own_units()
    {
        var pack = TestPack.Of(Given.Packet("""
            drawing: T-7
            units: in
            line: {size: 6, schedule: 40, class: 150, material: A106-B}
            service: {design pressure: 150 psi}
            test: {medium: air, pressure: 165 psi}
            runs:
              - run: main
                start: {to: flange, at: {up: 0}}
                legs: [{go: north, by: "10'", to: flange}]
            """).Fabrication);
        var held = TestWords.Held(pack, Units.Inches).ToList();
        Assert.Contains(held, h => h.Says.StartsWith("181 psi", StringComparison.Ordinal));
        Assert.Contains(held, h => h.What.Contains("100 °F", StringComparison.Ordinal));
        var caution = TestWords.Cautions(pack).First();
        Assert.Contains("million ft lb", caution, StringComparison.Ordinal);
        Assert.DoesNotContain("MJ", caution, StringComparison.Ordinal);
    }

    // Two supports on one line in plan, a rolling offset between them that comes back to it: no straight stretch.
    [Fact]
    public void Supports_over_an_offset_are_no_simple_beam_and_are_named_as_not_reckoned()
    {
        var pack = Of("{go: north, by: 1000, to: support, kind: shoe, tag: PS-1}\n{go: north, by: 1000, to: elbow}\n{go: {north: 600, up: 600}, to: elbow}\n{go: north, by: 1000, to: support, kind: shoe, tag: PS-2}\n{go: north, by: 3000, to: support, kind: shoe, tag: PS-3}\n{go: north, by: 1000, to: open}", start: "to: open, at: {up: 0}");
        Assert.Equal([("PS-1", false), ("PS-2", true), ("PS-3", true)], pack.Supports.Select(s => (s.Support.Tag, s.Full > 0)));
        // 3 m of NPS 6 schedule 40 full of water: 28.26 + 18.65 kg a metre (ASME B36.10M), half on each.
        Assert.All(pack.Supports.Skip(1), s => Assert.Equal(1.5 * (28.26 + 18.65), s.Full, 3.0));
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
