using Rootgap.Drawings;
using Rootgap.Findings;

namespace Rootgap.Tests.Checks;

/// <summary>What fresh clean drawings and mistakes showed, each from a drawing.</summary>
public class ForemansSixthLookTest
{
    private const string Flanged = "{go: north, by: 3000, to: flange}";

    // 55 lb by the international pound of 1959, 0.45359237 kg.
    [Theory]
    [InlineData("24.9", 24.9)]
    [InlineData("24.9 kg", 24.9)]
    [InlineData("55 lb", 24.94758035)]
    [InlineData("0.5 t", 500)]
    public void A_mass_may_have_its_unit(string written, double kg)
    {
        var packet = Desk.Packet(Desk.Drawing($"{{go: north, by: 3000, to: valve, kind: gate, mass: {written}}}\n{{go: north, by: 3000, to: flange}}"));
        Assert.Equal(kg, packet.Fabrication.Route.Components.Single(c => c.Name.StartsWith("valve", StringComparison.Ordinal)).Mass!.Kg, 6);
    }

    [Theory]
    [InlineData("heavy")]
    [InlineData("12 bar")]
    [InlineData("-3 kg")]
    public void What_is_no_mass_is_said_with_its_units(string written)
    {
        var error = Assert.Single(DrawingReader.Read(Desk.Drawing($"{{go: north, by: 3000, to: valve, kind: gate, mass: {written}}}\n{{go: north, by: 3000, to: flange}}"), "test.yaml").Errors);
        Assert.Equal("runs[0].legs[0]", error.At.ToString());
        Assert.Equal($"\"{written}\" is not a mass.", error.Message);
        Assert.Contains("lb", error.Remedy, StringComparison.Ordinal);
    }

    // Two branches that are fixed: five openings of directions in one note.
    [Fact]
    public void Directions_that_bolted_joints_take_up_are_one_note_a_drawing()
    {
        var findings = Desk.Packet("""
            drawing: TEST-1
            revision: 1
            line: {size: 6, schedule: 40, class: 150}
            forecast: {other: {position: 1, angle: 0.02}, spool: {position: 1, angle: 0.02}}
            runs:
              - run: main
                start: {to: flange, at: {east: 0, north: 0, up: 0}}
                legs:
                  - {go: east, by: 4500, to: tee, name: T, branch: north, end: final-fit}
                  - {go: east, by: 4500, to: elbow}
                  - {go: up, by: 4800, to: flange, at: {east: 9000, north: 0, up: 4800}}
              - run: side
                start: {from: T}
                legs:
                  - {go: north, by: 4800, to: elbow, end: final-fit}
                  - {go: up, by: 4800, to: flange, at: {east: 4500, north: 4800, up: 4800}}
            """).Findings.Where(f => f.Rule == "final-fit-direction-missing" && f.Severity == Severity.Note).ToList();
        Assert.Single(findings);
        Assert.Contains(" and ", findings[0].Message, StringComparison.Ordinal);
    }

    // Square to a header that falls 1:100: 0.573 degrees off upright, as it must be.
    [Theory]
    [InlineData("{up: 100, north: 1}", "")]
    [InlineData("{up: 200, north: 1}", "note")]
    public void A_branch_square_to_a_slope_is_not_nearly_upright(string go, string told) => Desk.Tells("nearly-on-axis", told, $$$"""
        drawing: TEST-1
        revision: 1
        line: {size: 6, schedule: 40, class: 150}
        runs:
          - run: main
            start: {to: flange, at: {east: 0, north: 0, up: 0}}
            legs:
              - {go: north, by: 3000, to: outlet, name: O, size: 2, branch: {{{go}}}, fall: "1:100"}
              - {go: north, by: 3000, to: flange, fall: "1:100"}
          - run: side
            start: {from: O}
            legs:
              - {go: {{{go}}}, by: 500, to: flange}
        """);

    // One figure at a reducer: NPS 4 for the 3 of the list. All that follows is told once, at the reducer.
    [Fact]
    public void A_wrong_size_at_a_reducer_is_told_once_as_the_cause()
    {
        var findings = Desk.Packet(Reduced("4")).Findings.Where(f => f.Severity == Severity.Stop || f.Severity == Severity.Warn).ToList();
        var finding = Assert.Single(findings, f => f.Rule == "size-not-listed");
        Assert.Equal("runs[0].legs[0]", finding.At.ToString());
        Assert.Contains("NPS 4 is drawn", finding.Message, StringComparison.Ordinal);
        Assert.Contains("listed as NPS 3", finding.Message, StringComparison.Ordinal);
        Assert.DoesNotContain(findings, f => f.Rule is "item-not-listed" or "item-not-used" or "quantity-over" or "gasket-missing");
    }

    [Fact]
    public void The_right_size_is_silent() => Desk.IsSilent("size-not-listed", Reduced("3"));

    [Fact]
    public void What_follows_from_a_size_that_is_accepted_is_told() =>
        Desk.Finds("item-not-listed", "", Reduced("4") + "\naccept: [{rule: size-not-listed, why: the list comes later}]");

    private static string Reduced(string size) => Desk.Drawing($$"""
        {go: north, by: 2000, to: reducer, size: {{size}}}
        {go: north, by: 2000, to: elbow}
        {go: east, by: 2000, to: elbow}
        {go: north, by: 2000, to: flange}
        """, """
        materials:
          - {item: 1, what: pipe, size: 6, schedule: 40, material: A106-B, quantity: 2 m}
          - {item: 2, what: pipe, size: 3, schedule: 40, material: A106-B, quantity: 6 m}
          - {item: 3, what: reducer concentric, size: 6 x 3, schedule: 40, quantity: 1}
          - {item: 4, what: elbow 90 LR, size: 3, schedule: 40, quantity: 2}
          - {item: 5, what: flange WN RF, size: 6, class: 150, bore: 40, quantity: 1}
          - {item: 6, what: flange WN RF, size: 3, class: 150, bore: 40, quantity: 1}
          - {item: 7, what: gasket spiral wound, size: 6, class: 150, thickness: 3.2, quantity: 1}
          - {item: 8, what: gasket spiral wound, size: 3, class: 150, thickness: 3.2, quantity: 1}
          - {item: 9, what: stud bolt, size: 3/4, length: 100, material: A193-B7, quantity: 8}
          - {item: 10, what: stud bolt, size: 5/8, length: 90, material: A193-B7, quantity: 4}
        """);

    [Theory]
    [InlineData("line falls 1:100 to the turbine", "warn")]
    [InlineData("falls 1 in 250", "")]
    [InlineData("slope 1:240", "")]
    [InlineData("flow to the south", "warn")]
    [InlineData("flow from the south", "")]
    [InlineData("flows north", "")]
    [InlineData("flow meter south of here", "")]
    public void A_note_that_says_another_slope_or_flow_is_told(string note, string told) => Desk.Tells("note-contradicts", told, $$"""
        drawing: TEST-1
        revision: 1
        line: {size: 6, schedule: 40, class: 150}
        runs:
          - run: main
            flow: along
            start: {to: flange}
            legs:
              - {go: north, by: 3000, to: flange, fall: "1:250", note: {{note}} }
        """);

    [Fact]
    public void A_note_of_a_slope_on_a_level_leg_is_told() => Desk.Finds("note-contradicts", "runs[0].legs[0]", Desk.Drawing("{go: north, by: 3000, to: flange, note: fall 1:100}"), "this leg is level");

    [Theory]
    [InlineData("hot-dip galvanised after fabrication", "field", "warn")]
    [InlineData("hot-dip galvanised after fabrication", "final-fit", "note")]
    [InlineData("hot-dip galvanised after fabrication", "shop", "")]
    [InlineData("zinc primer", "field", "")]
    public void A_site_weld_in_a_galvanised_line_is_told(string paint, string place, string told) => Desk.Tells("weld-on-galvanised", told, Desk.Drawing(
        $"{{go: north, by: 3000, to: weld, end: {place}}}\n{{go: north, by: 3000, to: flange}}", $"service: {{paint: {paint}}}"));

    [Fact]
    public void A_galvanised_line_without_a_final_fit_is_not_asked_for_a_weld_alone() => Assert.Contains("burn the zinc",
        Desk.Finds("no-final-fit", "", Desk.Drawing("{go: north, by: 3000, to: flange, at: {north: 3000}}", "service: {paint: galvanised after fabrication}", start: "to: flange, at: {east: 0}")).Remedy, StringComparison.Ordinal);

    [Theory]
    [InlineData("heavy fuel oil", "none", "warn")]
    [InlineData("molten sulphur", "none", "warn")]
    [InlineData("sulphur dioxide", "none", "")]
    [InlineData("heavy fuel oil", "steam", "")]
    [InlineData("gas oil", "none", "")]
    public void What_sets_when_cold_is_traced(string fluid, string tracing, string told) =>
        Desk.Tells("insulation-incomplete", told, Desk.Drawing(Flanged, $"service: {{fluid: {fluid}, design temperature: 90 C, insulation: hot, insulation thickness: 50, tracing: {tracing}}}"));

    [Theory]
    [InlineData("15 C", "warn")]
    [InlineData("150 C", "")]
    [InlineData("-20 C", "")]
    public void Guards_against_burns_on_a_cool_line_are_told(string temperature, string told) =>
        Desk.Tells("warmth-contradicts", told, Desk.Drawing(Flanged, $"service: {{insulation: personnel protection, insulation thickness: 40, design temperature: {temperature}}}"));

    [Theory]
    [InlineData("2", "")]
    [InlineData("3", "warn")]
    public void A_support_more_listed_than_drawn_is_one_forgotten(string listed, string told) => Desk.Tells("quantity-over", told, Desk.Drawing("""
        {go: north, by: 2000, to: support, kind: shoe, tag: S-1}
        {go: north, by: 2000, to: support, kind: shoe, tag: S-2}
        {go: north, by: 2000, to: flange}
        """, $"materials: [{{item: 1, what: shoe, size: 6, quantity: {listed}}}]"));

    // A control valve of 524 for 254: both dimensions beside it leave a ring.
    [Theory]
    [InlineData("524", "warn")]
    [InlineData("254", "")]
    public void Rings_on_both_sides_of_a_part_doubt_its_length(string length, string told)
    {
        var found = Desk.Packet(Desk.Drawing($$"""
            {go: north, by: 2000, to: reducer, size: 4}
            {go: north, by: 362, to: in-line item, what: control valve, face to face: {{length}} }
            {go: north, by: 503, to: reducer, size: 6}
            {go: north, by: 2000, to: flange}
            """)).Findings.Where(f => f.Rule == "makeup-ring-hidden" && f.Message.StartsWith("Rings", StringComparison.Ordinal)).ToList();
        Assert.Equal(told.Length > 0, found.Count == 1);
        Assert.All(found, f => Assert.Equal("runs[0].legs[1]", f.At.ToString()));
    }

    // ASME B16.5 tables 7 and 10: NPS 6 class 300 takes 3/4 x 120, NPS 3 class 300 3/4 x 110 (from the project's own table).
    [Fact]
    public void The_row_of_studs_that_is_right_is_not_told_beside_the_wrong_one()
    {
        var findings = Desk.Packet("""
            drawing: TEST-1
            revision: 1
            line: {size: 6, schedule: 40, class: 300}
            materials:
              - {item: 1, what: stud bolt, size: 3/4, length: 90, material: A193-B7, quantity: 24}
              - {item: 2, what: stud bolt, size: 3/4, length: 110, material: A193-B7, quantity: 8}
            runs:
              - run: main
                start: {to: flange}
                legs:
                  - {go: north, by: 2000, to: tee, name: T, branch: up, branch size: 3}
                  - {go: north, by: 2000, to: flange}
              - run: side
                start: {from: T}
                legs: [{go: up, by: 500, to: flange}]
            """).Findings.Where(f => f.Rule == "stud-length").ToList();
        Assert.Equal("materials[0]", Assert.Single(findings).At.ToString());
    }

    // The outlet of a relief valve stands apart and ends open: class 150 of A105 carries 19.6 bar (ASME B16.5 table 2-1.1), and never sees the 40 of the line.
    [Theory]
    [InlineData("open, ends: plain", "note")]
    [InlineData("flange", "warn")]
    public void The_open_outlet_of_a_relief_valve_is_not_rated_for_the_line(string end, string told)
    {
        var drawing = $$$"""
            drawing: TEST-1
            revision: 1
            line: {size: 6, schedule: 40, class: 300, material: A106-B}
            service: {design pressure: 40 bar, design temperature: 40 C, test pressure: 60 bar}
            runs:
              - run: main
                start: {to: flange, at: {east: 0, north: 0, up: 0}}
                legs: [{go: north, by: 3000, to: flange}]
              - run: outlet
                class: 150
                start: {to: flange, at: {east: 1000, north: 0, up: 0}}
                legs: [{go: up, by: 1000, to: {{{end}}} }]
            """;
        Desk.Tells("design-pressure-over-class", told, drawing);
        Desk.Tells("test-pressure-over-flange", told == "note" ? "" : told, drawing);
        Desk.Finds("design-pressure-over-class", "", drawing, told == "note" ? "end open" : "(outlet, start)");
    }

    [Theory]
    [InlineData("control valve flanged", "")]
    [InlineData("control valve", "")]
    [InlineData("control valve FCV-55 flanged", "")]
    [InlineData("control valve FCV-56 flanged", "stop")]
    [InlineData("flow meter flanged", "stop")]
    public void A_tag_that_the_list_leaves_out_makes_no_other_part(string listed, string told) => Desk.Tells("item-is-another-part", told, Desk.Drawing("""
        {go: north, by: 2000, to: in-line item, what: control valve FCV-55, face to face: 400, item: 1}
        {go: north, by: 2000, to: flange}
        """, $"materials: [{{item: 1, what: {listed}, size: 6, class: 150, quantity: 1}}]"));

    [Fact]
    public void Machine_bolts_are_the_odd_studs_wherever_they_stand() => Desk.Finds("stud-grades-mixed", "materials[0]", Desk.Drawing("""
        {go: up, by: 1450, to: reducer, size: 3}
        {go: up, by: 1450, to: flange}
        """, """
        materials:
          - {item: 1, what: stud bolt, size: 3/4, length: 100, quantity: 8, material: A307-B}
          - {item: 2, what: stud bolt, size: 5/8, length: 90, quantity: 4, material: A193-B7}
        """), "A307-B");

    // 41 in. written 4'-1": 8 in. too long.
    [Fact]
    public void Inches_written_as_feet_and_inches_are_seen() => Desk.Finds("closing-error-explained", "runs[0].legs[1]", Desk.Drawing("""
        {go: up, by: 60, to: elbow}
        {go: north, by: 4'-1", to: elbow}
        {go: east, by: 70, to: elbow}
        {go: up, by: 40, to: flange, at: {east: 70, north: 41, up: 100} }
        """, "units: in"), "inches written as feet and inches");

    [Fact]
    public void Pipe_listed_in_feet_for_metres_is_told_in_the_lists_own_words() => Assert.Contains("The list says 6.2 ft",
        Desk.Finds("pipe-listed-short", "materials[0]", Desk.Drawing("{go: north, by: 3000, to: weld}\n{go: north, by: 3000, to: flange}", "materials: [{item: 1, what: pipe, size: 6, schedule: 40, quantity: 6.2 ft}]")).Remedy, StringComparison.Ordinal);

    // Two halves of one mistake name each other.
    [Fact]
    public void What_is_missing_and_what_is_left_over_name_each_other()
    {
        var drawing = Desk.Drawing("{go: north, by: 2000, to: reducer, size: 4}\n{go: north, by: 2000, to: flange}", """
            materials:
              - {item: 1, what: reducer concentric, size: 6 x 3, schedule: 40, quantity: 1}
              - {item: 2, what: pipe, size: 6, schedule: 40, quantity: 2 m}
              - {item: 3, what: pipe, size: 4, schedule: 40, quantity: 2 m}
            """);
        Assert.Contains("item 1, reducer concentric NPS 6 x 3", Desk.Finds("item-not-listed", "runs[0].legs[0]", drawing).Remedy, StringComparison.Ordinal);
        Assert.Contains("reducer concentric, size 6 x 4", Desk.Finds("item-not-used", "materials[0]", drawing, "NPS 6 x 3").Remedy, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("14.3 bar pneumatic with nitrogen")]
    [InlineData("14.3 bar (hydro)")]
    [InlineData("14.3 bar, hydrostatic")]
    [InlineData("14.3 bar with water")]
    public void The_medium_beside_the_test_pressure_is_none_of_its_unit(string written)
    {
        var drawing = Desk.Drawing(Flanged, $"service: {{design pressure: 13 bar, design temperature: 40 C, test pressure: \"{written}\"}}");
        Desk.IsSilent("service-figure-unread", drawing);
        Desk.Finds("test-pressure-over-flange", "", drawing.Replace("14.3", "43", StringComparison.Ordinal));
    }

    [Theory]
    [InlineData("Gas oil, tank to suction of pump P-1", "gas oil", "warn")]
    [InlineData("Wet suction header to accumulator", "ammonia", "")]
    [InlineData("Suction of compressor K-1", "natural gas", "")]
    public void A_pumps_suction_is_one_of_a_liquid(string title, string fluid, string told) => Desk.Tells("eccentric-flat-against-service", told, Desk.Drawing(
        "{go: north, by: 2000, to: reducer, size: 4, kind: eccentric, flat: bottom}\n{go: north, by: 2000, to: flange}", $"title: {title}\nservice: {{fluid: {fluid}}}"));

    [Fact]
    public void A_reducer_that_widens_along_the_flow_stands_before_no_pump() => Desk.IsSilent("eccentric-flat-against-service", Desk.Drawing(
        "{go: north, by: 2000, to: reducer, size: 8, kind: eccentric, flat: bottom}\n{go: north, by: 2000, to: flange}", "title: Pump suction").Replace("  - run: main", "  - run: main\n    flow: along", StringComparison.Ordinal));

    // ASME B16.5 annex II tables 5: the ring of NPS 3/4 class 1500 leaves 4 mm between the flanges (the project's own row).
    [Theory]
    [InlineData("flange", "warn")]
    [InlineData("blind flange", "note")]
    public void The_joint_whose_ring_stands_otherwise_is_named(string end, string told)
    {
        var drawing = Desk.Drawing($"{{go: north, by: 2000, to: weld}}\n{{go: north, by: 2000, to: {(end == "flange" ? "flange" : "flange, blinded: yes")}}}", line: "size: 3/4, schedule: 160, class: 1500, facing: RTJ, gasket: 2", start: "to: open");
        Desk.Tells("ring-stand-off-unusual", told, drawing);
        Desk.Finds("ring-stand-off-unusual", "", drawing, "main, leg 2");
    }
}
