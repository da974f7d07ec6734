namespace Rootgap.Tests.Checks;

/// <summary>Figures that stand alone against a standard, a neighbour or geometry: laterals, pads, rings, valves, tests, temperatures.</summary>
public class FiguresOutOfLineTest
{
    private static string Lateral(string ends, string flow = "", string branchFlow = "", string branch = "{north: 1, east: 1}") => $$"""
        drawing: TEST-1
        revision: 1
        line: {size: 6, schedule: 40, class: 150}
        runs:
          - run: main
            {{(flow.Length > 0 ? "flow: " + flow : "")}}
            start:
              to: flange
              at: {north: 0}
            legs:
              - {go: north, by: 1500, to: lateral, name: L, branch: {{branch}}, {{ends}}, mass: 30}
              - {go: north, by: 1500, to: flange}
          - run: side
            {{(branchFlow.Length > 0 ? "flow: " + branchFlow : "")}}
            start: {from: L}
            legs:
              - {go: {{branch}}, by: 1500, to: flange}
        """;

    // Two tubes of 168.3 at 45 degrees: the far edge comes out (84.15 cos 45 + 84.15) / sin 45 = 203.2 along the run, the near edge as far up the branch.
    [Theory]
    [InlineData("long end: 445, short end: 90, branch end: 445", "")]
    [InlineData("long end: 204, short end: 90, branch end: 204", "")]
    [InlineData("long end: 202, short end: 90, branch end: 445", "stop")]
    [InlineData("long end: 445, short end: 90, branch end: 202", "stop")]
    [InlineData("long end: 90, short end: 445, branch end: 445", "stop")]
    [InlineData("long end: 445, short end: 450, branch end: 445", "stop")]
    public void Ends_of_a_lateral_that_cannot_be_are_told(string ends, string severity) => Desk.Tells("lateral-odd", severity, Lateral(ends));

    [Theory]
    [InlineData("along", "along", "{north: 1, east: 1}", "")]
    [InlineData("along", "along", "{south: 1, east: 1}", "warn")]
    [InlineData("along", "against", "{south: 1, east: 1}", "")]
    [InlineData("along", "against", "{north: 1, east: 1}", "warn")]
    [InlineData("against", "along", "{south: 1, east: 1}", "")]
    [InlineData("", "along", "{south: 1, east: 1}", "")]
    public void A_lateral_that_leans_against_the_flow_is_told(string flow, string branchFlow, string branch, string severity) =>
        Desk.Tells("lateral-odd", severity, Lateral("long end: 445, short end: 90, branch end: 445", flow, branchFlow, branch));

    private static string Padded(string pad, string list = "") => $$"""
        drawing: TEST-1
        revision: 1
        line: {size: 6, schedule: 40, class: 150}
        {{list}}
        runs:
          - run: main
            start:
              to: flange
              at: {north: 0}
            legs:
              - {go: north, by: 1500, to: stub-in, name: S, size: 3, branch: up, {{pad}}}
              - {go: north, by: 1500, to: flange}
          - run: side
            start: {from: S}
            legs:
              - {go: up, by: 700, to: flange}
        """;

    // ASME B36.10M: 6 in. schedule 40 has a wall of 7.11.
    private static string Twins(string first, string second) => Desk.Drawing($$"""
        {go: north, by: 1500, to: stub-in, name: S, size: 3, branch: up, {{first}}}
        {go: north, by: 1500, to: stub-in, name: T, {{second}}}
        {go: north, by: 1500, to: flange}
        """);

    [Theory]
    [InlineData("pad: yes, pad width: 60", "size: 3, branch: up, pad: yes, pad width: 60", "")]
    [InlineData("pad: yes, pad width: 60", "size: 3, branch: up", "warn")]
    [InlineData("pad: yes, pad width: 60", "size: 2, branch: up", "")]
    [InlineData("pad: no", "size: 3, branch: up", "")]
    public void Of_two_branches_alike_both_have_a_pad_or_none(string first, string second, string told) => Desk.Tells("pad-odd", told, Twins(first, second));

    // One figure, and the same in another order; other letters are another fluid, and fewer than three figures a sheet.
    [Theory]
    [InlineData("BFW-611-01", "4-BFW-611-6C1", "")]
    [InlineData("BFW-611-01", "4-BFW-161-6C1", "warn")]
    [InlineData("BFW-611-01", "4-BFW-612-6C1", "note")]
    [InlineData("BFW-611-01", "4-BFW-116-6C1", "warn")]
    [InlineData("BFW-611-01", "4-BFW-175-6C1", "")]
    [InlineData("BFW-611-01", "4-CW-612-6C1", "")]
    [InlineData("BFW-61-01", "4-BFW-62-6C1", "")]
    public void A_line_number_that_nearly_is_the_drawings_is_told(string drawing, string line, string told) =>
        Desk.Tells("line-data-contradicts", told, Desk.Drawing("{go: north, by: 1500, to: flange}", $"service: {{line number: {line}}}", "size: 4, schedule: 40, class: 150").Replace("TEST-1", drawing, StringComparison.Ordinal));

    [Theory]
    [InlineData("pad: yes, pad width: 60", "")]
    [InlineData("pad: yes, pad width: 6", "warn")]
    [InlineData("pad: yes, pad width: 130", "")]
    [InlineData("pad: yes, pad width: 140", "warn")]
    [InlineData("pad: yes, pad width: 60, pad thickness: 5.4", "")]
    [InlineData("pad: yes, pad width: 60, pad thickness: 5.2", "warn")]
    public void A_pad_too_narrow_or_too_thin_is_told(string pad, string severity) => Desk.Tells("pad-odd", severity, Padded(pad));

    [Theory]
    [InlineData("7.1", "")]
    [InlineData("5", "warn")]
    public void A_pad_listed_in_another_thickness_is_told(string listed, string severity) => Desk.Tells("pad-odd", severity,
        Padded("pad: yes, pad width: 60, pad thickness: 7.1", $"materials: [{{item: 1, what: reinforcing pad, size: 3, thickness: {listed}, material: A516-70, quantity: 1}}]"));

    // ASME B16.5 annex: the ring R45 between two 6 in. class 600 flanges leaves 5 mm.
    [Theory]
    [InlineData("gasket: 5", "")]
    [InlineData("gasket: 50", "warn")]
    [InlineData("gasket: 3.2", "warn")]
    [InlineData("note: none", "")]
    public void A_ring_s_stand_off_of_another_figure_is_told(string gasket, string severity) =>
        Desk.Tells("ring-stand-off-unusual", severity, Desk.Drawing("{go: north, by: 1500, to: joint}\n{go: north, by: 1500, to: flange}", line: $"size: 6, schedule: 80, class: 600, facing: RTJ{(gasket.StartsWith('g') ? ", " + gasket : "")}"));

    // ASME B16.10: a gate valve of 4 in. is 432 in class 600 and 305 in class 300; one of 6 in. class 150 is 267, a globe valve 406.
    [Theory]
    [InlineData("4", "600", "gate", "305", "warn")]
    [InlineData("4", "600", "gate", "432", "")]
    [InlineData("4", "600", "gate", "425", "")]
    [InlineData("4", "600", "gate", "400", "")]
    [InlineData("6", "150", "globe", "267", "warn")]
    public void The_length_of_another_valve_is_told(string size, string @class, string kind, string length, string severity) => Desk.Tells("valve-length-unusual", severity,
        Desk.Drawing($"{{go: north, by: 1500, to: valve, kind: {kind}, face to face: {length}}}\n{{go: north, by: 1500, to: flange}}", line: $"size: {size}, schedule: 80, class: {@class}"));

    // ASME B31.3 345.5.4: a gas test goes to 1.33 times the design pressure at most.
    [Theory]
    [InlineData("design pressure: 16 bar, test pressure: 24 bar", "", "")]
    [InlineData("design pressure: 16 psi, test pressure: 24 bar", "", "warn")]
    [InlineData("design pressure: 10 bar, test pressure: 40 bar", "", "")]
    [InlineData("design pressure: 10 bar, test pressure: 40.2 bar", "", "warn")]
    [InlineData("design pressure: 10 bar, test pressure: 13.3 bar", "test: {medium: air}", "")]
    [InlineData("design pressure: 10 bar, test pressure: 13.5 bar", "test: {medium: air}", "warn")]
    public void A_test_far_over_the_design_is_told(string service, string test, string severity) =>
        Desk.Tells("test-pressure-far-over", severity, Desk.Drawing("{go: north, by: 1500, to: open}", $"service: {{{service}}}\n{test}", start: "to: open"));

    [Theory]
    [InlineData("code: B31.3, design pressure: 10 bar, test pressure: 12 bar", "", "note")]
    [InlineData("code: B31.3, design pressure: 10 bar, test pressure: 10.5 bar", "", "warn")]
    [InlineData("design pressure: 10 bar, test pressure: 10.5 bar", "", "note")]
    [InlineData("design pressure: 10 bar, test pressure: 10 bar", "test: {medium: water}", "warn")]
    [InlineData("design pressure: 10 bar, test pressure: 12 bar", "test: {medium: water}", "warn")]
    [InlineData("code: B31.3, design pressure: 10 bar, test pressure: 15 bar", "", "")]
    public void A_test_under_what_its_code_asks_is_a_warning(string service, string test, string severity) =>
        Desk.Tells("test-pressure-low", severity, Desk.Drawing("{go: north, by: 1500, to: open}", $"service: {{{service}}}\n{test}", start: "to: open"));

    // ASME B31.3 Table A-1 and its notes: 427 C (800 F) for carbon steel, 593 C (1100 F), 649 C (1200 F) and 816 C (1500 F) for the others; the limits from memory.
    [Theory]
    [InlineData("A106-B", "427 C", "")]
    [InlineData("A106-B", "430 C", "warn")]
    [InlineData("A335-P11", "593 C", "")]
    [InlineData("A335-P11", "595 C", "warn")]
    [InlineData("A335-P9", "650 C", "warn")]
    [InlineData("A312-TP304", "800 C", "")]
    [InlineData("A312-TP304", "820 C", "warn")]
    public void A_metal_too_hot_is_told(string material, string temperature, string severity) => Desk.Tells("hot-service-material", severity,
        Desk.Drawing("{go: north, by: 1500, to: open}", $"service: {{design temperature: {temperature}}}", $"size: 6, schedule: {(material.StartsWith("A312", StringComparison.Ordinal) ? "40S" : "40")}, class: 150, material: {material}", "to: open"));

    private static string Hill(string what) => Desk.Drawing($"{{go: up, by: 2000, to: elbow}}\n{{go: north, by: 1500, to: {what}}}\n{{go: north, by: 1500, to: elbow}}\n{{go: down, by: 1500, to: flange}}");

    [Theory]
    [InlineData("drain, size: 3/4, nipple: 75, valve: none", "warn")]
    [InlineData("vent, size: 3/4, nipple: 75, valve: none", "")]
    [InlineData("point", "")]
    public void A_drain_at_the_highest_stretch_is_told(string what, string severity) => Desk.Tells("drain-or-vent-wrong-way", severity, Hill(what));

    [Theory]
    [InlineData("drain, size: 3/4, nipple: 75, valve: none", "note")]
    [InlineData("vent, size: 3/4, nipple: 75, valve: none", "")]
    [InlineData("outlet, size: 3/4, branch: east, name: O", "")]
    public void A_drain_is_no_vent(string what, string severity) => Desk.Tells("high-point-without-vent", severity, Hill(what));

    [Theory]
    [InlineData("6-CHW-201", "")]
    [InlineData("8-CHW-201", "warn")]
    [InlineData("8-CHW201", "note")]
    [InlineData("50-CHW-201", "warn")]
    [InlineData("8\"-CHW-201", "warn")]
    [InlineData("CHW-201", "")]
    [InlineData("1-1/2-LO-118", "warn")]
    public void A_line_number_of_another_size_is_told(string number, string severity) =>
        Desk.Tells("line-data-contradicts", severity, Desk.Drawing("{go: north, by: 1500, to: open}", $"service: {{line number: '{number}'}}", start: "to: open"));

    // ISO 6708: NPS 1-1/2 is DN 40. Some offices number lines by it.
    [Theory]
    [InlineData("40-CHW-201", "")]
    [InlineData("50-CHW-201", "warn")]
    public void A_line_number_may_begin_with_the_DN(string number, string severity) =>
        Desk.Tells("line-data-contradicts", severity, Desk.Drawing("{go: north, by: 1500, to: open}", $"service: {{line number: '{number}'}}", "size: 1-1/2, schedule: 80", "to: open"));

    [Theory]
    [InlineData("final-fit", "warn")]
    [InlineData("field", "")]
    public void A_final_fit_on_a_thread_is_told(string mark, string severity) => Desk.Tells("mark-without-weld", severity,
        Desk.Drawing($"{{go: north, by: 1500, to: coupling, end: {mark}}}\n{{go: north, by: 1500, to: open, ends: threaded}}", line: "size: 1, schedule: 80, class: 150, ends: threaded", start: "to: open, ends: threaded"));

    // ASME B31.3 Table A-1, minimum temperatures: -46 C for A333-6, A350-LF2 and A420-WPL6, -101 C for the 3 1/2 nickel grades; from memory.
    [Theory]
    [InlineData("A333-6", "-45 C", "")]
    [InlineData("A333-6", "-60 C", "warn")]
    [InlineData("A333-3", "-100 C", "")]
    [InlineData("A333-3", "-110 C", "warn")]
    [InlineData("A312-TP304", "-150 C", "")]
    public void A_grade_for_the_cold_has_its_floor(string material, string temperature, string severity) => Desk.Tells("cold-service-material", severity,
        Desk.Drawing("{go: north, by: 1500, to: open}", $"service: {{design temperature: {temperature}}}", $"size: 6, schedule: {(material.StartsWith("A312", StringComparison.Ordinal) ? "40S" : "40")}, class: 150, material: {material}", "to: open"));

    [Theory]
    [InlineData("gasket flat rubber", "150", "90 C", "")]
    [InlineData("gasket flat rubber", "300", "90 C", "warn")]
    [InlineData("gasket flat EPDM", "150", "140 C", "warn")]
    [InlineData("gasket flat PTFE", "300", "200 C", "")]
    [InlineData("gasket flat PTFE", "150", "240 C", "warn")]
    [InlineData("gasket spiral wound PTFE", "600", "200 C", "")]
    [InlineData("gasket flat fibre", "300", "200 C", "")]
    [InlineData("gasket flat fibre", "600", "200 C", "warn")]
    [InlineData("gasket sheet", "150", "410 C", "warn")]
    [InlineData("flat gasket RF", "300", "200 C", "")]
    [InlineData("flat gasket RF", "600", "200 C", "warn")]
    [InlineData("flat gasket graphite", "600", "200 C", "")]
    public void A_soft_gasket_too_hot_or_pressed_too_hard_is_told(string what, string @class, string temperature, string severity) => Desk.Tells("gasket-material", severity,
        Desk.Drawing("{go: north, by: 1500, to: flange}", $"service: {{design temperature: {temperature}}}\nmaterials: [{{item: 1, what: {what}, size: 6, class: {@class}, quantity: 2}}]", $"size: 6, schedule: 40, class: {@class}"));

    [Theory]
    [InlineData("10 min", "")]
    [InlineData("2 min", "warn")]
    [InlineData("30 s", "warn")]
    [InlineData("1 h", "")]
    public void A_test_is_held_ten_minutes(string hold, string severity) => Desk.Tells("test-figure-odd", severity, Desk.Drawing("{go: north, by: 1500, to: open}", $"test: {{hold: {hold}}}", start: "to: open"));

    [Theory]
    [InlineData("kind: shoe, height: 100", "warn")]
    [InlineData("kind: guide, height: 40", "warn")]
    [InlineData("kind: guide, height: 150", "")]
    public void What_is_lower_than_the_insulation_is_told(string support, string severity) => Desk.Tells("support-in-insulation", severity,
        Desk.Drawing($"{{go: north, by: 1500, to: support, {support}}}\n{{go: north, by: 1500, to: open}}", "service: {insulation: mineral wool, insulation thickness: 110}"));

    [Theory]
    [InlineData("56", "warn")]
    [InlineData("560", "")]
    public void An_item_shorter_than_its_flanges_is_told(string length, string severity) => Desk.Tells("valve-length-unusual", severity,
        Desk.Drawing($"{{go: north, by: 1500, to: in-line item, what: strainer, face to face: {length}, mass: 90}}\n{{go: north, by: 1500, to: flange}}", line: "size: 10, schedule: 40, class: 150"));

    [Theory]
    [InlineData("pad: yes, pad width: 60, pad thickness: 21", "")]
    [InlineData("pad: yes, pad width: 60, pad thickness: 71", "warn")]
    public void A_pad_too_thick_is_told(string pad, string severity) => Desk.Tells("pad-odd", severity, Padded(pad));

    [Fact]
    public void A_pad_of_another_metal_is_told() => Desk.Tells("pad-odd", "warn",
        Padded("pad: yes, pad width: 60", "materials: [{item: 1, what: reinforcing pad, size: 3, material: A36, quantity: 1}]").Replace("class: 150}", "class: 150, material: A312-TP316L}", StringComparison.Ordinal).Replace("schedule: 40,", "schedule: 40S,", StringComparison.Ordinal));

    [Theory]
    [InlineData("", "warn")]
    [InlineData("service: {design pressure: 6 bar}", "note")]
    public void A_pumped_line_that_drains_back_is_a_note(string service, string severity) => Desk.Tells("slope-against-flow", severity, $$"""
        drawing: TEST-1
        revision: 1
        line: {size: 6, schedule: 40, class: 150}
        {{service}}
        runs:
          - run: main
            flow: along
            start: {to: flange}
            legs:
              - {go: north, by: 1500, rise: 1:100, to: elbow}
              - {go: east, by: 1500, rise: 1:100, to: flange}
        """);

    [Theory]
    [InlineData("3'-16\"")]
    [InlineData("3'-12\"")]
    public void Twelve_inches_are_a_foot(string by) => Assert.Contains(Rootgap.Drawings.DrawingReader.Read(Desk.Drawing($"{{go: north, by: '{by.Replace("'", "''", StringComparison.Ordinal)}', to: open}}"), "given.yaml").Errors, e => e.At == "runs[0].legs[0]");

    [Fact]
    public void A_fall_may_be_written_in_millimetres_a_metre() =>
        Assert.Equal(-0.01, Desk.Packet(Desk.Drawing("{go: north, by: 1500, fall: 10 mm/m, to: open}")).Fabrication.Route.Drawing.Runs[0].Legs[0].Slope, 1e-12);
}
