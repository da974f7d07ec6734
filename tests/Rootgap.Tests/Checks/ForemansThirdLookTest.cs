namespace Rootgap.Tests.Checks;

/// <summary>What a foreman saw in drawings with one mistake each, and what he did not mind in drawings without any: common practice, where no other source stands beside it.</summary>
public class ForemansThirdLookTest
{
    // Two anchors in one pipe: steel held fast over 60 C more is pressed with 200 GPa x 11.7e-6 x 60 = 140 MPa.
    [Theory]
    [InlineData("205 C", "anchor", "{go: north, by: 1600, to: support, kind: anchor, tag: A2, height: 100}", "warn")]
    [InlineData("205 C", "guide", "{go: north, by: 1600, to: support, kind: anchor, tag: A2, height: 100}", "")]
    [InlineData("60 C", "anchor", "{go: north, by: 1600, to: support, kind: anchor, tag: A2, height: 100}", "")]
    [InlineData("-50 C", "anchor", "{go: north, by: 1600, to: support, kind: anchor, tag: A2, height: 100}", "warn")]
    [InlineData("205 C", "anchor", "{go: north, by: 900, to: in-line item, what: bellows, face to face: 300, mass: 30}\n{go: north, by: 900, to: support, kind: anchor, tag: A2, height: 100}", "")]
    public void Two_anchors_in_one_straight_pipe_leave_it_no_room_to_grow(string temperature, string first, string second, string told) => Desk.Tells("anchors-in-one-line", told, Desk.Drawing(
        $"{{go: north, by: 1500, to: support, kind: {first}, tag: A1, height: 100}}\n{second}\n{{go: north, by: 1500, to: flange}}", $"service: {{design temperature: {temperature}}}"));

    [Fact]
    public void What_the_pipe_would_grow_is_said() => Desk.Finds("anchors-in-one-line", "runs[0].legs[1]", Desk.Drawing(
        "{go: north, by: 1500, to: support, kind: anchor, tag: A1, height: 100}\n{go: north, by: 2000, to: support, kind: anchor, tag: A2, height: 100}\n{go: north, by: 1500, to: flange}", "service: {design temperature: 220 C}"), "2000 of straight pipe", "grow");

    [Theory]
    [InlineData("rubber", ", end: final-fit", "warn")]
    [InlineData("PTFE 3 mm", ", end: field", "warn")]
    [InlineData("cement 12 mm", ", end: field", "note")]
    [InlineData("none", ", end: field", "")]
    [InlineData("rubber", "", "")]
    public void A_lining_is_burnt_by_a_weld_at_site(string lining, string end, string told) => Desk.Tells("lining-burnt", told, Desk.Drawing(
        $"{{go: north, by: 1500, to: elbow{end}}}\n{{go: up, by: 1500, to: flange}}", $"service: {{lining: {lining}}}"));

    [Theory]
    [InlineData("welded", ", end: field", "by the procedure", "warn")]
    [InlineData("welded", "", "by the procedure", "")]
    [InlineData("welded", ", end: field", "none", "")]
    [InlineData("clamped", "", "by the procedure", "")]
    public void What_is_welded_on_at_site_comes_after_the_heat_treatment(string attach, string end, string treatment, string told) => Desk.Tells("welded-on-after-treatment", told, Desk.Drawing(
        $"{{go: north, by: 1500, to: support, kind: shoe, attach: {attach}, tag: PS-1, height: 100{end}}}\n{{go: north, by: 1500, to: flange}}", $"service: {{heat treatment: {treatment}}}"));

    // ASME B16.11: a socket NPS 1-1/2 class 3000 is 13 deep; the pipe of 48.3 ends in it 1.6 before its bottom.
    [Theory]
    [InlineData(20, "warn")]
    [InlineData(60, "")]
    public void A_clamp_on_the_socket_into_which_its_pipe_goes_is_found(int from, string told) => Desk.Tells("support-on-fitting", told, Desk.Drawing(
        $"{{go: north, by: 1000, to: coupling}}\n{{go: north, by: {from}, to: support, kind: clamp, tag: C-1, height: 60}}\n{{go: north, by: 1000, to: open}}", line: "size: 1-1/2, schedule: 80, class: 150, ends: socket", start: "to: open"));

    // ASME B31.1 table 121.5: NPS 6 with water 17 ft (5180).
    [Theory]
    [InlineData("{go: north, by: 3000, to: tee, name: T, branch: up}\n{go: north, by: 3000, to: open}", "note")]
    [InlineData("{go: north, by: 3000, to: joint}\n{go: north, by: 3000, to: open}", "note")]
    [InlineData("{go: north, by: 3000, to: elbow}\n{go: east, by: 3000, to: open}", "")]
    [InlineData("{go: north, by: 3000, to: elbow}\n{go: east, by: 3000, to: elbow}\n{go: up, by: 1000, to: support, kind: guide, tag: G1, height: 100}\n{go: up, by: 1000, to: open}", "note")]
    [InlineData("{go: north, by: 3000, to: support, kind: shoe, tag: G1, height: 100}\n{go: north, by: 3000, to: open}", "")]
    public void A_level_stretch_goes_on_through_what_stands_in_it(string legs, string told) => Desk.Tells("long-leg-unsupported", told, Desk.Drawing(legs, start: "to: open"));

    private static string Studs(int first, int second) => Desk.Drawing("""
        {go: north, by: 1450, to: valve, kind: butterfly, stem: up}
        {go: north, by: 1200, to: flange}
        """, more: $$"""
        materials:
          - {item: 1, what: pipe, size: 6, schedule: 40, quantity: 6 m}
          - {item: 2, what: flange WN RF, size: 6, class: 150, bore: 40, quantity: 4}
          - {item: 3, what: gasket spiral wound, size: 6, class: 150, quantity: 4}
          - {item: 4, what: valve butterfly wafer, size: 6, class: 150, quantity: 1}
          - {item: 5, what: stud bolt, size: 3/4, length: {{first}}, quantity: 16}
          - {item: 6, what: stud bolt, size: 3/4, length: {{second}}, quantity: 8}
        """);

    // ASME B16.5: 100 for two raised faces NPS 6 class 150; API 609: 56 for the valve between them, and a second gasket.
    [Fact]
    public void The_row_that_is_left_over_is_that_of_the_joint_that_is_left_over()
    {
        Desk.Finds("stud-length", "materials[5]", Studs(100, 100), "100 listed");
        Desk.IsSilent("quantity-short", Studs(100, 100));
        Desk.IsSilent("stud-length", Studs(100, 160));
    }

    // ASME B16.5: NPS 10 class 300 takes sixteen studs of 1 in. 160 long, NPS 8 twelve of 7/8 140 long.
    [Fact]
    public void Studs_listed_in_a_neighbouring_diameter_are_told_at_their_row_and_nowhere_else()
    {
        var yaml = Desk.Drawing("""
            {go: north, by: 1450, to: reducer, size: 8}
            {go: north, by: 1200, to: flange}
            """, more: """
            materials:
              - {item: 1, what: pipe, size: 10, schedule: 40, quantity: 2 m}
              - {item: 2, what: pipe, size: 8, schedule: 40, quantity: 2 m}
              - {item: 3, what: reducer concentric, size: 10 x 8, schedule: 40, quantity: 1}
              - {item: 4, what: flange WN RF, size: 10, class: 300, bore: 40, quantity: 1}
              - {item: 5, what: flange WN RF, size: 8, class: 300, bore: 40, quantity: 1}
              - {item: 6, what: gasket spiral wound, size: 10, class: 300, quantity: 1}
              - {item: 7, what: gasket spiral wound, size: 8, class: 300, quantity: 1}
              - {item: 8, what: stud bolt, size: 7/8, length: 160, quantity: 16}
              - {item: 9, what: stud bolt, size: 7/8, length: 140, quantity: 12}
            """, line: "size: 10, schedule: 40, class: 300");
        Desk.Finds("studs-missing", "materials[7]", yaml, "7/8 in. studs", "takes 16 of 1");
        Assert.DoesNotContain(Desk.Packet(yaml).Findings, f => f.Rule is "stud-length" or "quantity-short" or "item-not-used");
    }

    [Theory]
    [InlineData("6000", "3000", "warn")]
    [InlineData("6000", "6000", "note")]
    [InlineData("3000", "3000", "")]
    public void One_fitting_of_another_class_than_its_neighbours_is_told_at_its_row(string elbow, string others, string told) => Desk.Tells("fitting-class-unsaid", told, Desk.Drawing("""
        {go: north, by: 1450, to: elbow}
        {go: up, by: 1200, to: tee, name: T, branch: north}
        {go: up, by: 1200, to: coupling}
        {go: up, by: 1200, to: open}
        """, more: $$"""
        materials:
          - {item: 1, what: elbow 90 SW, size: 1-1/2, class: {{elbow}}, quantity: 1}
          - {item: 2, what: tee SW, size: 1-1/2, class: {{others}}, quantity: 1}
          - {item: 3, what: coupling SW, size: 1-1/2, class: {{others}}, quantity: 1}
        """, line: "size: 1-1/2, schedule: 80, class: 150, ends: socket", start: "to: open"));

    [Theory]
    [InlineData("light hydrocarbon", "B31.1", "warn")]
    [InlineData("light hydrocarbon", "B31.3", "")]
    [InlineData("steam", "B31.1", "")]
    public void Power_piping_carries_no_hydrocarbons(string fluid, string code, string told) => Desk.Tells("line-data-contradicts", told, Desk.Drawing("{go: north, by: 2000, to: open}", $"service: {{fluid: {fluid}, code: {code}}}", start: "to: open"));

    [Theory]
    [InlineData("fluid: hot oil, insulation: none, design temperature: 150 C", "note")]
    [InlineData("fluid: hot oil, insulation: none, design temperature: 220 C", "warn")]
    [InlineData("fluid: flare gas, insulation: none, design temperature: 220 C", "note")]
    [InlineData("fluid: flare gas, paint: P1, design temperature: 150 C", "note")]
    [InlineData("fluid: hot oil, paint: P1, design temperature: 150 C", "warn")]
    [InlineData("fluid: hot oil, insulation: personnel protection, design temperature: 120 C", "")]
    public void A_line_that_is_bare_by_its_line_data_is_believed(string service, string told) => Desk.Tells("insulation-incomplete", told, Desk.Drawing("{go: north, by: 2000, to: open}", $"service: {{{service}}}", start: "to: open"));

    [Theory]
    [InlineData("kind: gate, ends: butt, face to face: 400", "by the procedure", "note")]
    [InlineData("kind: ball, ends: butt, face to face: 400", "by the procedure", "warn")]
    [InlineData("kind: ball, ends: butt, face to face: 400", "locally by heating bands", "note")]
    public void A_valve_that_bears_the_heat_is_a_note(string valve, string treatment, string told) => Desk.Tells("heat-treatment-soft-parts", told, Desk.Drawing(
        $"{{go: north, by: 1500, to: valve, {valve}, mass: 60}}\n{{go: north, by: 1500, to: open}}", $"service: {{heat treatment: {treatment}}}", start: "to: open"));

    // A nozzle may stand 30 off in every direction; the end that goes on elsewhere moves with its own drawing.
    [Theory]
    [InlineData("weld, end: field", "warn")]
    [InlineData("weld, end: field, continues: TEST-2", "note")]
    public void An_end_that_goes_on_in_another_drawing_stands_no_faster_than_this_one(string end, string told) => Desk.Tells("final-fit-direction-missing", told, Desk.Drawing(
        $"{{go: east, by: 1500, to: elbow, end: final-fit}}\n{{go: north, by: 800, to: {end}}}", "forecast: {other: {position: 30, angle: 0.1}}"));

    // ASME B31.1 table 121.5: NPS 6 17 ft with water, 21 ft with steam.
    [Theory]
    [InlineData("steam condensate", "note")]
    [InlineData("steam", "")]
    public void Condensate_is_a_liquid(string fluid, string told) => Desk.Tells("long-leg-unsupported", told, Desk.Drawing("{go: north, by: 6000, to: open}", $"service: {{fluid: {fluid}}}", start: "to: open"));

    [Fact]
    public void The_row_of_a_control_valve_is_not_that_of_the_valve_beside_it()
    {
        var yaml = Desk.Drawing("""
            {go: north, by: 1450, to: in-line item, what: control valve LV-61, face to face: 451, mass: 80}
            {go: north, by: 1200, to: valve, kind: globe, stem: up}
            {go: north, by: 1200, to: flange}
            """, more: """
            materials:
              - {item: 1, what: control valve LV-61, size: 6, class: 150, quantity: 1}
              - {item: 2, what: valve gate flanged, size: 6, class: 150, quantity: 1}
            """);
        Desk.Finds("item-not-used", "materials[1]", yaml, "valve gate");
        Assert.DoesNotContain(Desk.Packet(yaml).Findings, f => f.Rule == "quantity-short" && f.At == "materials[0]");
    }

    [Theory]
    [InlineData("threaded", "")]
    [InlineData("socket", "warn")]
    public void A_line_screwed_up_at_site_is_no_load_for_a_lorry(string ends, string told) => Desk.Tells("spool-over-width", told, Desk.Drawing(
        "{go: north, by: 6000, to: elbow}\n{go: east, by: 3200, to: elbow}\n{go: up, by: 300, to: open}", line: $"size: 2, schedule: 80, class: 150, ends: {ends}", start: "to: open"));

    [Theory]
    [InlineData("flange LJ galvanised", "")]
    [InlineData("stud bolt galvanised", "")]
    [InlineData("elbow 90 LR galvanised", "warn")]
    public void Zinc_that_the_fluid_does_not_touch_is_no_matter(string what, string told) => Desk.Tells("fluid-and-metal", told, Desk.Drawing("{go: north, by: 2000, to: open}",
        $"service: {{fluid: caustic soda 2 %, design temperature: 30 C}}\nmaterials:\n  - {{item: 1, what: {what}, size: 6, material: A105, quantity: 1}}", "size: 6, schedule: 10S, class: 150, material: A312-TP304L, flange: LJ", "to: open"));

    [Theory]
    [InlineData("FG-4-B3-2207-1", "FG-2207-4-B3", "")]
    [InlineData("CIP-NaOH-031", "3-CIP-031-S1L", "")]
    [InlineData("CW-2207-1", "FG-2207-4-B3", "note")]
    public void Parts_of_a_number_in_another_order_are_no_slip(string drawing, string line, string told)
    {
        var yaml = Desk.Drawing("{go: north, by: 2000, to: open}", $"service: {{line number: {line}}}", "size: 4, schedule: 40, class: 150", "to: open").Replace("drawing: TEST-1", "drawing: " + drawing, StringComparison.Ordinal);
        var slips = Desk.Packet(yaml).Findings.Where(f => f.Rule == "line-data-contradicts" && f.Message.Contains("is numbered", StringComparison.Ordinal));
        Assert.Equal(told, slips.Any() ? "note" : "");
    }

    [Fact]
    public void Two_in_line_items_of_one_size_are_told_apart_by_their_words() => Desk.IsSilent("item-ambiguous", Desk.Drawing("""
        {go: north, by: 1450, to: in-line item, what: cone strainer, face to face: 300, mass: 20}
        {go: north, by: 1200, to: in-line item, what: expansion joint, face to face: 300, mass: 20}
        {go: north, by: 1200, to: open}
        """, """
        materials:
          - {item: 1, what: cone strainer, size: 6, class: 150, quantity: 1}
          - {item: 2, what: expansion joint, size: 6, class: 150, quantity: 1}
        """, start: "to: open"));
}
