using Rootgap.Routes;

namespace Rootgap.Tests.Checks;

/// <summary>What a foreman saw in drawings with one mistake each, and what he did not mind in drawings without any: common practice, where no other source stands beside it.</summary>
public class ForemansFourthLookTest
{
    // ASME B16.5 section 1 has no class 800; API 602 has it with socket, threaded and butt ends (from memory).
    [Theory]
    [InlineData("socket", "")]
    [InlineData("threaded", "")]
    [InlineData("socket", ", ends: socket")]
    [InlineData("butt", ", ends: socket")]
    public void A_valve_of_class_800_has_no_flanges_and_takes_its_pipe_as_the_fittings_do(string line, string own)
    {
        var fabrication = Desk.Packet(Desk.Drawing(
            $"{{go: north, by: 500, to: valve, kind: gate, class: 800, face to face: 111, stem: up{own}}}\n{{go: north, by: 500, to: in-line item, what: strainer, class: 800, face to face: 100}}\n{{go: north, by: 500, to: open}}",
            line: $"size: 1, schedule: 80, class: 150, ends: {line}", start: "to: open")).Fabrication;
        Assert.Empty(fabrication.Bolting);
        Assert.Equal(4, fabrication.Route.Joints.Count(j => j.Kind == (line == "threaded" ? JointKind.Threaded : JointKind.Socket)));
    }

    [Fact]
    public void A_valve_that_says_flanged_or_has_a_class_of_flanges_keeps_them() =>
        Assert.Equal(4, Desk.Packet(Desk.Drawing(
            "{go: north, by: 800, to: valve, kind: gate, class: 600, face to face: 216, stem: up}\n{go: north, by: 800, to: valve, kind: gate, ends: flanged, class: 600, face to face: 216, stem: up}\n{go: north, by: 800, to: open}",
            line: "size: 1, schedule: 80, class: 150, ends: socket", start: "to: open")).Fabrication.Bolting.Count);

    [Fact]
    public void A_leg_that_would_run_back_over_the_one_beside_it_explains_nothing() => Assert.DoesNotContain(Desk.Packet(Desk.Drawing("""
        {go: up, by: 1450, to: elbow}
        {go: north, by: 1000, to: weld}
        {go: north, by: 1800, to: elbow}
        {go: east, by: 1700, to: flange, at: {east: 1700, north: -800, up: 1450}}
        """)).Findings, f => f.Rule == "closing-error-explained" && f.Message.Contains("south", StringComparison.Ordinal));

    [Fact]
    public void Digits_changed_over_are_seen_in_the_unit_in_which_they_are_written() => Desk.Finds("closing-error-explained", "runs[0].legs[1]", Desk.Drawing("""
        {go: up, by: "4'-9\"", to: elbow}
        {go: north, by: 42, to: elbow}
        {go: east, by: "5'-7\"", to: flange, at: {east: 67, north: 24, up: 57}}
        """, "units: in"), "2'-0\" here", "digits changed over");

    // The start's elevation is 0.1 off whole by what the end was rounded.
    [Fact]
    public void Digits_of_a_start_are_seen_where_the_end_is_rounded_to_a_millimetre() => Desk.Finds("closing-error-explained", "runs[0].start", Desk.Drawing("""
        {go: down, by: 1450.4, to: elbow}
        {go: north, by: 2690, to: flange, at: {north: 2690, up: 5350}}
        """, start: "to: flange, at: {east: 0, up: 8600}"), "6800.4 for up 8600", "digits");

    // 0.6 m of pipe too little on the list; the leg that is proved by the flange's place is not doubted for it.
    [Fact]
    public void A_figure_that_a_stated_place_proves_is_not_doubted_for_the_pipe_listed()
    {
        const string Legs = "{go: up, by: 1450, to: elbow}\n{go: north, by: 7000, to: elbow}\n{go: east, by: 1700, to: elbow}\n{go: up, by: 900, to: flange{0}}";
        const string List = "materials:\n  - {item: 1, what: pipe, size: 6, schedule: 40, quantity: 4 m}";
        Desk.Finds("figure-ten-times-off", "runs[0].legs[1]", Desk.Drawing(Legs.Replace("{0}", "", StringComparison.Ordinal), List));
        Desk.IsSilent("figure-ten-times-off", Desk.Drawing(Legs.Replace("{0}", ", at: {east: 1700, north: 7000, up: 2350}", StringComparison.Ordinal), List));
    }

    [Fact]
    public void A_support_that_is_listed_and_not_drawn_is_told_at_its_own_row()
    {
        var findings = Desk.Packet(Desk.Drawing("{go: north, by: 1500, to: support, kind: shoe, tag: HS-11, height: 100}\n{go: north, by: 1500, to: flange}", """
            materials:
              - {item: 1, what: pipe, size: 6, schedule: 40, quantity: 6 m}
              - {item: 2, what: flange WN RF, size: 6, class: 150, bore: 40, quantity: 2}
              - {item: 3, what: shoe HS-11, size: 6, quantity: 1}
              - {item: 4, what: guide HS-12, size: 6, quantity: 1}
            """)).Findings.Where(f => f.At.ToString() is "materials[2]" or "materials[3]").ToList();
        Assert.Equal("item-not-used at materials[3]", Assert.Single(findings) is var only ? $"{only.Rule} at {only.At}" : "");
    }

    // ASME B31.1 table 121.5: NPS 6 with water 17 ft (5180).
    [Theory]
    [InlineData(14000, "warn")]
    [InlineData(9000, "note")]
    public void A_stretch_of_many_spans_in_a_drawing_that_has_supports_lacks_one(int by, string told) => Desk.Tells("long-leg-unsupported", told, Desk.Drawing(
        $"{{go: north, by: {by}, to: support, kind: shoe, tag: S-1, height: 100}}\n{{go: north, by: 1500, to: open}}", start: "to: open"));

    [Theory]
    [InlineData("along", "along", "")]
    [InlineData("along", "against", "warn")]
    [InlineData("against", "against", "note")]
    public void A_by_pass_flows_as_what_it_passes_by(string main, string pass, string told) => Desk.Tells("valve-arrow-against-run", told, $$"""
        drawing: TEST-1
        revision: 1
        line: {size: 4, schedule: 40, class: 150}
        runs:
          - run: main
            flow: {{main}}
            start: {to: flange}
            legs:
              - {go: north, by: 1500, to: tee, name: T1, branch: up}
              - {go: north, by: 2600, to: tee, name: T2, branch: up}
              - {go: north, by: 1500, to: flange}
          - run: by-pass
            flow: {{pass}}
            start: {from: T1}
            legs:
              - {go: up, by: 900, to: elbow}
              - {go: north, by: 1300, to: valve, kind: globe, stem: up}
              - {go: north, by: 1300, to: elbow, end: final-fit}
              - {go: down, by: 900, to: tie-in, with: T2}
        """);

    [Theory]
    [InlineData("along", "strainer Y", "steam trap", "")]
    [InlineData("along", "steam trap", "strainer Y", "warn")]
    [InlineData("against", "strainer Y", "steam trap", "warn")]
    public void A_strainer_stands_before_its_trap(string flow, string first, string second, string told) => Desk.Tells("strainer-behind-trap", told, Desk.Drawing(
        $"{{go: north, by: 500, to: in-line item, what: {first}, ends: socket, face to face: 90, mass: 2}}\n{{go: north, by: 500, to: in-line item, what: {second}, ends: socket, face to face: 90, mass: 2}}\n{{go: north, by: 500, to: open}}",
        line: "size: 1, schedule: 80, class: 150, ends: socket", start: "to: open").Replace("    start:", $"    flow: {flow}\n    start:", StringComparison.Ordinal));

    // ASME B31.3 345.4.2 (water, 1.5 times) and 345.5.4 (gas, 1.1 times).
    [Theory]
    [InlineData("cooling water", "warn")]
    [InlineData("fuel gas", "note")]
    public void What_carries_water_is_tested_with_it(string fluid, string told) => Desk.Tells("test-pressure-low", told, Desk.Drawing(
        "{go: north, by: 1500, to: flange}", $"service: {{fluid: {fluid}, design pressure: 10 bar, test pressure: 11 bar, code: B31.3}}"));

    [Theory]
    [InlineData("air", 120, "note")]
    [InlineData("air", 250, "warn")]
    [InlineData("hot oil", 120, "warn")]
    public void Warm_air_is_mostly_left_to_cool(string fluid, int celsius, string told) => Desk.Tells("insulation-incomplete", told, Desk.Drawing(
        "{go: north, by: 1500, to: flange}", $"service: {{fluid: {fluid}, line number: 6-BA-101, area: \"3\", design temperature: {celsius} C}}"));

    // Three nominal sizes of NPS 2 are 152.4; a radius is written in whole millimetres.
    [Theory]
    [InlineData(152, "")]
    [InlineData(150, "warn")]
    public void A_bend_of_three_sizes_is_written_to_the_millimetre(int radius, string told) => Desk.Tells("bend-made-in-shop", told, Desk.Drawing(
        $"{{go: north, by: 1000, to: bend, bend radius: {radius}, straight: 100}}\n{{go: up, by: 1000, to: flange}}", line: "size: 2, schedule: 40, class: 150"));

    // A rubber joint NPS 20: 250 between its faces, 60 kg (from memory of makers' sheets: 203 to 250, 40 to 70 kg).
    [Theory]
    [InlineData("rubber expansion joint", 250, "")]
    [InlineData("rubber expansion joint", 25, "warn")]
    [InlineData("strainer", 250, "warn")]
    public void A_rubber_joint_is_short_and_light(string what, int over, string told)
    {
        var drawing = Desk.Drawing($"{{go: north, by: 1500, to: in-line item, what: {what}, face to face: {over}, mass: 60}}\n{{go: north, by: 1500, to: open}}", line: "size: 20, schedule: 20, class: 150", start: "to: open");
        Desk.Tells("valve-length-unusual", told, drawing);
        Desk.Tells("mass-unusual", what == "strainer" ? "warn" : "", drawing);
    }

    [Theory]
    [InlineData("bellows", "note")]
    [InlineData("strainer", "warn")]
    public void A_bellows_on_the_way_gives_where_no_weld_is_final_fit(string what, string told) => Desk.Tells("no-final-fit", told, Desk.Drawing(
        $"{{go: north, by: 3000, to: in-line item, what: {what}, face to face: 300, mass: 30}}\n{{go: north, by: 3000, to: elbow}}\n{{go: east, by: 4000, to: flange, at: {{east: 4000, north: 6000}}}}", start: "to: flange, at: {east: 0}"));

    // A bellows on a branch gives nothing to the rest of the line.
    [Fact]
    public void A_bellows_on_a_branch_does_not_help_the_main_run() => Desk.Finds("no-final-fit", "runs[0].legs[2]", """
        drawing: TEST-1
        revision: 1
        line: {size: 6, schedule: 40, class: 150}
        runs:
          - run: main
            start: {to: flange, at: {east: 0}}
            legs:
              - {go: north, by: 3000, to: tee, name: T, branch: up}
              - {go: north, by: 3000, to: elbow}
              - {go: east, by: 4000, to: flange, at: {east: 4000, north: 6000}}
          - run: side
            start: {from: T}
            legs:
              - {go: up, by: 2000, to: in-line item, what: bellows, face to face: 300, mass: 30}
              - {go: up, by: 2000, to: elbow}
              - {go: east, by: 2000, to: flange, at: {east: 2000, north: 3000, up: 4000}}
        """, "no weld is final-fit");

    // What stands on the other side of such a weld is not in the shop (common practice).
    [Theory]
    [InlineData("", "", "", "a pipe that stands already", "warn")]
    [InlineData("continues: TEST-2, ", "", "", "the pipe of drawing TEST-2", "warn")]
    [InlineData("", "begin: field, ", "end: field", "", "")]
    [InlineData("", "begin: final-fit, ", "end: field", "", "")]
    public void A_weld_to_what_stands_at_site_is_no_shop_weld(string on, string begin, string end, string words, string told)
    {
        var drawing = Desk.Drawing($"{{go: north, by: 3000, {begin}to: elbow}}\n{{go: east, by: 3000, to: weld{(end.Length > 0 ? ", " + end : "")}}}", start: $"to: weld, {on}at: {{east: 0}}");
        Desk.Tells("end-weld-in-shop", told, drawing);
        if (told.Length > 0)
            Desk.Finds("end-weld-in-shop", "runs[0].start", drawing, words);
    }

    // A guide on a riser lets it slide by its nature: what carries the riser may stand elsewhere on it (common practice).
    [Theory]
    [InlineData("{go: up, by: 1500, to: support, kind: trunnion, tag: TR-1, height: 300, side: north, attach: welded, mass: 10}", "")]
    [InlineData("{go: up, by: 1500, to: support, kind: guide, tag: G-2, height: 100}", "note")]
    public void A_guide_on_a_riser_that_something_carries_is_silent(string other, string told) => Desk.Tells("support-carries-nothing", told, Desk.Drawing(
        $"{{go: up, by: 1500, to: support, kind: guide, tag: G-1, height: 100}}\n{other}\n{{go: up, by: 1500, to: elbow}}\n{{go: east, by: 1500, to: flange}}"));

    [Theory]
    [InlineData("clamped", "clamped", "clamped", "")]
    [InlineData("clamped", "welded", "clamped", "warn")]
    [InlineData("welded", "welded", "clamped", "")]
    [InlineData("clamped", "welded", "", "")]
    public void The_one_support_of_its_kind_that_is_welded_to_stainless_is_told(string first, string second, string third, string told)
    {
        string Row(string attach, int n) => attach.Length == 0 ? "" : $"{{go: north, by: 1500, to: support, kind: shoe, tag: PS-{n}, height: 100, attach: {attach}, mass: 4}}\n";
        var legs = Row(first, 1) + Row(second, 2) + Row(third, 3) + "{go: north, by: 1500, to: flange}";
        Desk.Tells("support-metal", told, Desk.Drawing(legs, line: "size: 3, schedule: 10S, class: 150, material: A312-TP316L"));
        Desk.Tells("support-metal", "", Desk.Drawing(legs, line: "size: 3, schedule: 40, class: 150, material: A106-B"));
    }

    // ASME B31.3 345.5.4: 1.1 times the design pressure with gas, 345.4.2: 1.5 times with water.
    [Theory]
    [InlineData("TP-12, pneumatic with nitrogen", "11 bar", "")]
    [InlineData("TP-12, hydrotest", "11 bar", "warn")]
    [InlineData("TP-AIR-12", "11 bar", "note")]
    [InlineData("TP-12", "11 bar pneumatic", "")]
    [InlineData("TP-12, hydrostatic, with dry air after it", "11 bar", "note")]
    [InlineData("TP-12, pneumatic with dry air", "10.5 bar", "warn")]
    public void The_medium_of_the_test_is_read_where_the_line_data_speak_of_it(string package, string pressure, string told) => Desk.Tells("test-pressure-low", told, Desk.Drawing(
        "{go: north, by: 3000, to: flange}", $"service: {{fluid: nitrogen, code: ASME B31.3, design pressure: 10 bar, test pressure: {pressure}, test package: \"{package}\"}}"));

    [Theory]
    [InlineData(", size: 1, end: field", "{go: up, by: 500, to: open, ends: threaded}", "note")]
    [InlineData("", "{go: up, by: 500, to: valve, kind: gate, ends: threaded, face to face: 90, mass: 2}\n{go: up, by: 500, to: open, ends: threaded}", "")]
    public void A_threaded_end_behind_a_threaded_valve_is_not_odd(string _, string legs, string told) => Desk.Tells("open-end-odd", told, Desk.Drawing(legs, line: "size: 1, schedule: 80, class: 150", start: "to: open"));

    // A by-pass with its valves is bolted up at the bench as one; a large ring closes at site.
    [Theory]
    [InlineData(1500, "note")]
    [InlineData(9000, "warn")]
    public void A_small_by_pass_with_bolted_valves_is_a_station(int long_, string told) => Desk.Tells("ring-without-final-fit", told, $$"""
        drawing: TEST-1
        revision: 1
        line: {size: 2, schedule: 80, class: 150}
        runs:
          - run: main
            start: {to: open}
            legs:
              - {go: north, by: 1000, to: tee, name: T, branch: east}
              - {go: north, by: {{long_}}, to: tee, name: U, branch: east}
              - {go: north, by: 1000, to: open}
          - run: by-pass
            start: {from: T}
            legs:
              - {go: east, by: {{long_}}, to: elbow}
              - {go: north, by: {{long_ / 2}}, to: valve, kind: globe}
              - {go: north, by: {{long_ / 2}}, to: elbow}
              - {go: west, by: {{long_}}, to: tie-in, with: U}
        """);

    // Water boils at 184 C at 10 bar gauge (IAPWS-IF97, region 4).
    [Theory]
    [InlineData("demineralised water", "10 bar", "649 C", "warn")]
    [InlineData("demineralised water", "10 bar", "65 C", "")]
    [InlineData("boiler feed water", "60 bar", "250 C", "")]
    [InlineData("boiler feed water", "2 bar", "150 C", "")]
    [InlineData("nitrogen", "10 bar", "649 C", "")]
    public void Water_is_not_hotter_than_it_boils(string fluid, string pressure, string temperature, string told) =>
        Desk.Tells("warmth-contradicts", told, Desk.Drawing("{go: north, by: 3000, to: flange}", $"service: {{fluid: {fluid}, design pressure: {pressure}, design temperature: {temperature}}}"));

    [Theory]
    [InlineData("control valve", 2540, "warn")]
    [InlineData("control valve", 254, "")]
    [InlineData("static mixer", 1500, "")]
    public void A_valve_by_its_words_is_not_longer_than_valves_are(string what, int over, string told) => Desk.Tells("valve-length-unusual", told, Desk.Drawing(
        $"{{go: north, by: 4000, to: in-line item, what: {what}, face to face: {over}, mass: 30}}\n{{go: north, by: 4000, to: open}}", line: "size: 2, schedule: 40, class: 150", start: "to: open"));

    [Theory]
    [InlineData("shoe PS-1 PS-2 PS-3", 3, "warn")]
    [InlineData("shoe PS-1 PS-2", 2, "")]
    [InlineData("shoe PS-1 PS-2, drawing S-77", 2, "")]
    public void A_mark_of_the_list_that_is_not_drawn_is_told(string what, int quantity, string told) => Desk.Tells("support-contradicts-list", told, Desk.Drawing(
        "{go: north, by: 1500, to: support, kind: shoe, tag: PS-1, height: 100}\n{go: north, by: 3000, to: support, kind: shoe, tag: PS-2, height: 100}\n{go: north, by: 1500, to: flange}", $$"""
        materials:
          - {item: 1, what: "{{what}}", size: 6, quantity: {{quantity}} }
        """));

    // "Nitrogen, header to" names the fluid; an air cooler, a gas of its own name and an oil of many kinds do not.
    [Theory]
    [InlineData("Nitrogen, header to compressor", "oxygen", "warn")]
    [InlineData("LP steam to exchanger", "nitrogen", "warn")]
    [InlineData("Nitrogen, header to compressor, buffer gas and purge", "oxygen", "warn")]
    [InlineData("Wet return, air cooler AC-6", "ammonia", "note")]
    [InlineData("Treat gas, exchanger to reactor", "hydrogen", "note")]
    [InlineData("Nitrogen, header to compressor", "nitrogen", "")]
    public void A_title_that_begins_with_another_fluid_is_a_warning(string title, string fluid, string told) =>
        Desk.Tells("line-data-contradicts", told, Desk.Drawing("{go: north, by: 3000, to: flange}", $"title: \"{title}\"\nservice: {{fluid: {fluid}}}"));

    [Fact]
    public void A_row_that_is_short_names_the_row_that_nothing_uses()
    {
        var finding = Desk.Finds("quantity-short", "materials[0]", Desk.Drawing("{go: north, by: 1000, to: valve, kind: gate}\n{go: north, by: 1000, to: valve, kind: gate}\n{go: north, by: 1000, to: open}", """
            materials:
              - {item: 1, what: valve gate flanged, size: 6, class: 150, quantity: 1}
              - {item: 2, what: valve globe flanged, size: 6, class: 150, quantity: 1}
            """, start: "to: open"));
        Assert.Equal("Look whether one of them is item 2, valve globe flanged, which is drawn nowhere; if not, list 2.", finding.Remedy);
    }

    // 120 C of a compressor's discharge is mostly left bare, where nothing is said of insulation (common practice).
    [Theory]
    [InlineData("hydrogen", "note")]
    [InlineData("thermal oil", "warn")]
    public void A_gas_warmed_by_a_compressor_is_mostly_bare(string fluid, string told) => Desk.Tells("insulation-incomplete", told, Desk.Drawing("{go: north, by: 3000, to: flange}", $"service: {{fluid: {fluid}, design temperature: 120 C, paint: P1}}"));

    // Below -29 C the rating is no higher than at -29 (ASME B16.5, from memory): class 150 of group 2.3 has 15.9 bar there (table 2-2.3).
    [Theory]
    [InlineData("15 bar", "", "")]
    [InlineData("17 bar", "", "warn")]
    public void A_rating_below_minus_29_is_that_of_minus_29(string pressure, string unchecked_, string told)
    {
        var drawing = Desk.Drawing("{go: north, by: 3000, to: flange}", $"service: {{fluid: LNG, design pressure: {pressure}, design temperature: -162 C}}", line: "size: 6, schedule: 10S, class: 150, material: A312-TP316L");
        Desk.Tells("rating-not-checked", unchecked_, drawing);
        Desk.Tells("design-pressure-over-class", told, drawing);
    }

    // What is bolted to a branch's flange to which the drawing gives no place, a monitor or a hydrant behind its valve, may come to the line.
    [Theory]
    [InlineData("{go: up, by: 600, to: valve, kind: gate}\n{go: up, by: 600, to: flange}", "note")]
    [InlineData("{go: up, by: 600, to: valve, kind: gate}\n{go: up, by: 600, to: flange, at: {east: 0, north: 3000, up: 1200}}", "warn")]
    [InlineData("{go: up, by: 600, to: elbow}\n{go: east, by: 600, to: flange}", "note")]
    public void A_branch_s_flange_without_a_place_may_not_stand_fast(string legs, string told) => Desk.Tells("no-final-fit", told, """
        drawing: TEST-1
        revision: 1
        line: {size: 6, schedule: 40, class: 150}
        runs:
          - run: main
            start: {to: flange, at: {east: 0}}
            legs:
              - {go: north, by: 3000, to: tee, name: T, branch: up}
              - {go: north, by: 3000, to: cap}
          - run: side
            start: {from: T}
            legs:
        """ + string.Concat(legs.Split('\n').Select(l => "\n      - " + l)));

    // Flanges with taps are thicker (ASME B16.36): their length is the maker's, 89 for the 80 of a welding neck NPS 3 class 300 with its raised face (78 and 2, ASME B16.5-2013 table 11).
    [Theory]
    [InlineData(", item: 4", 89)]
    [InlineData("", 80)]
    [InlineData(", item: 3", 80)]
    public void A_flange_s_row_at_a_plate_is_that_of_its_two_flanges(string item, double length)
    {
        var packet = Desk.Packet(Desk.Drawing($"{{go: north, by: 1000, to: joint, between: {{orifice plate: 3}}{item}}}\n{{go: north, by: 1000, to: open}}", """
            shop: {measured: {item 4: {take-off: 89}}}
            materials:
              - {item: 1, what: pipe, size: 3, schedule: 40, quantity: 6 m}
              - {item: 2, what: gasket spiral wound, size: 3, class: 300, quantity: 2}
              - {item: 3, what: orifice plate, size: 3, class: 300, quantity: 1}
              - {item: 6, what: flange WN RF, size: 3, class: 300, bore: 40, quantity: 2}
              - {item: 4, what: flange orifice WN RF, size: 3, class: 300, bore: 40, quantity: 2}
              - {item: 5, what: stud bolt, size: 3/4, length: 120, quantity: 8}
            """, line: "size: 3, schedule: 40, class: 300", start: "to: open"));
        // Half of the plate and a gasket of 3 each lie between the work point and the flange (facing heights are within its length).
        Assert.Equal(1000 - 1.5 - 3.2 - length, packet.Fabrication.Cuts[0].Length + packet.Fabrication.Route.Joints.First(j => j.IsWeld).Gap, 1);
        Assert.Equal(item.EndsWith('4') ? 2 : 0, packet.Fabrication.Materials.First(m => m.Item?.Item == 4).Needed);
        Assert.Equal(1, packet.Fabrication.Materials.First(m => m.Item?.Item == 3).Needed);
    }

    [Theory]
    [InlineData(2, "")]
    [InlineData(3, "stop")]
    public void A_control_valve_named_by_its_item_has_the_line_s_size(int size, string told) => Desk.Tells("item-size-mismatch", told, Desk.Drawing(
        "{go: north, by: 1500, to: in-line item, what: control valve CV-1, face to face: 254, mass: 38, item: 2}\n{go: north, by: 1500, to: open}", $$"""
        materials:
          - {item: 1, what: pipe, size: 2, schedule: 40, quantity: 6 m}
          - {item: 2, what: control valve CV-1, size: {{size}}, class: 150, quantity: 1}
        """, line: "size: 2, schedule: 40, class: 150", start: "to: open"));

    [Theory]
    [InlineData("7'-6", 79, "feet and inches changed over")]
    [InlineData("1 1/2", 36, "")]
    public void Feet_and_inches_changed_over_are_seen(string written, int right, string slip)
    {
        var found = Desk.Packet(Desk.Drawing($"{{go: up, by: \"4'-9\\\"\", to: elbow}}\n{{go: north, by: \"{written}\\\"\", to: elbow}}\n{{go: east, by: 67, to: flange, at: {{east: 67, north: {right}, up: 57}}}}", "units: in"))
            .Findings.First(f => f.Rule == "closing-error-explained" && f.At == "runs[0].legs[1]").Message;
        Assert.Equal(slip.Length > 0, found.Contains("changed over", StringComparison.Ordinal));
        Assert.Contains(slip, found, StringComparison.Ordinal);
    }

    [Fact]
    public void Metres_for_millimetres_are_a_thousand_times_off() => Desk.Finds("closing-error-explained", "runs[0].legs[1]", Desk.Drawing("""
        {go: up, by: 1450, to: weld}
        {go: up, by: 0.9, to: elbow}
        {go: east, by: 1700, to: flange, at: {east: 1700, up: 2350}}
        """), "a thousand times off");
}
