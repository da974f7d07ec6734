namespace Rootgap.Tests.Checks;

/// <summary>Rows of the list against what is drawn: alloys, valves' classes, supports, heats, words of one's own.</summary>
public class ListedOtherwiseTest
{
    private static string Stainless(string listed, string line = "A312-TP316L") => Desk.Drawing(
        "{go: north, by: 1500, to: elbow}\n{go: up, by: 1500, to: flange, end: final-fit}",
        $"materials:\n  - {{item: 1, what: elbow 90 LR, size: 6, schedule: 40S, material: {listed}, quantity: 1}}", $"size: 6, schedule: 40S, class: 150, material: {line}");

    // The row of a longer mark stands first, and is another support's.
    [Fact]
    public void A_support_has_the_row_of_its_own_mark_and_not_of_a_longer_one()
    {
        var support = Assert.Single(Desk.Packet(Desk.Drawing("{go: north, by: 1500, to: support, kind: guide, tag: PS-4}\n{go: north, by: 1500, to: open}",
            "materials:\n  - {item: 1, what: guide PS-41, quantity: 1}\n  - {item: 2, what: guide PS-4, quantity: 1}")).Fabrication.Route.Supports);
        Assert.Equal(2, support.Item!.Item);
    }

    private static string Branched(string to, string row) => $$"""
        drawing: T
        revision: 1
        units: mm
        line: {size: 12, schedule: 40, class: 150}
        materials:
          - {{row}}
        runs:
          - run: main
            start: {to: flange}
            legs:
              - {go: north, by: 2000, to: {{to}}, name: T1, branch: up}
              - {go: north, by: 2000, to: flange, end: final-fit}
          - run: branch
            start: {from: T1}
            legs:
              - {go: up, by: 1000, to: open}
        """;

    // Both orders are in use: MSS SP-97 names an outlet by run and branch, lists as often by branch and run (common practice).
    [Theory]
    [InlineData("outlet, size: 2", "{item: 1, what: branch outlet butt weld, size: 2 x 12, quantity: 1}", "")]
    [InlineData("outlet, size: 2", "{item: 1, what: branch outlet butt weld, size: 12 x 2, quantity: 1}", "")]
    [InlineData("outlet, size: 2", "{item: 1, what: branch outlet butt weld, size: 2, quantity: 1}", "")]
    [InlineData("outlet, size: 2", "{item: 1, what: branch outlet butt weld, size: 12 x 3, quantity: 1}", "stop")]
    [InlineData("outlet, size: 2", "{item: 1, what: branch outlet butt weld, size: 12, quantity: 1}", "stop")]
    [InlineData("stub-in, size: 6, pad: yes", "{item: 1, what: reinforcing pad, size: 6, quantity: 1}", "")]
    [InlineData("stub-in, size: 6, pad: yes", "{item: 1, what: reinforcing pad, size: 12 x 6, quantity: 1}", "")]
    [InlineData("stub-in, size: 6, pad: yes", "{item: 1, what: reinforcing pad, size: 6 x 12, quantity: 1}", "")]
    [InlineData("stub-in, size: 6, pad: yes", "{item: 1, what: reinforcing pad, size: 12 x 4, quantity: 1}", "stop")]
    public void An_outlet_or_a_pad_is_found_by_branch_and_header_in_either_order(string to, string row, string severity)
    {
        var findings = Desk.Packet(Branched(to, row)).Findings;
        var part = to.StartsWith("outlet", StringComparison.Ordinal) ? "outlet" : "reinforcing pad";
        Assert.Equal(severity.Length > 0, findings.Any(f => f.Rule == "item-not-listed" && f.Message.StartsWith(part, StringComparison.Ordinal)));
        Assert.Equal(severity.Length > 0, findings.Any(f => f.Rule == "item-not-used"));
    }

    // ASTM A403 and A312 name their grades by one number each.
    [Theory]
    [InlineData("A403-WP304L", "A312-TP316L", "warn")]
    [InlineData("A403-WP316", "A312-TP316L", "warn")]
    [InlineData("A403-WP316L", "A312-TP316L", "")]
    [InlineData("A403-WP316/316L", "A312-TP316L", "")]
    [InlineData("A403-WP316/WP316L", "A312-TP316L", "")]
    [InlineData("SA403 WP316L-S", "ASTM A312 TP316L", "")]
    [InlineData("A234-WP12", "A335-P11", "warn")]
    [InlineData("A234-WP11 CL1", "A335-P11", "")]
    [InlineData("A234-WPB", "A106-B", "")]
    public void A_fitting_of_another_alloy_is_told(string listed, string line, string severity) => Desk.Tells("fitting-grade-mismatch", severity, Stainless(listed, line));

    [Theory]
    [InlineData("A312-TP316/316L", "")]
    [InlineData("A312-TP316L", "")]
    [InlineData("A312-TP304/304L", "warn")]
    public void Dual_marked_pipe_is_either_of_the_two(string listed, string severity) => Desk.Tells("pipe-grade-mismatch", severity, Desk.Drawing(
        "{go: north, by: 1500, to: flange, end: final-fit}", $"materials: [{{item: 1, what: pipe, size: 6, schedule: 40S, material: {listed}, quantity: 6 m}}]", "size: 6, schedule: 40S, class: 150, material: A312-TP316L"));

    private static string Small(string valve, string listed) => Desk.Drawing(
        $"{{go: north, by: 1500, to: valve, kind: gate, ends: socket, face to face: 92, mass: 2{valve}}}\n{{go: north, by: 500, to: open, ends: plain}}",
        $"materials: [{{item: 1, what: valve gate socket weld, size: 1, class: {listed}, quantity: 1}}]", "size: 1, schedule: 80, class: 150, ends: socket");

    [Theory]
    [InlineData(", class: 800", "600", "stop")]
    [InlineData(", class: 800", "800", "")]
    [InlineData("", "800", "")]
    public void A_socket_valve_of_another_class_is_told(string valve, string listed, string severity) => Desk.Tells("class-mismatch", severity, Small(valve, listed));

    private static string Held(string support, string what) => Desk.Drawing(
        $"{{go: north, by: 1500, to: support, {support}}}\n{{go: north, by: 1500, to: open}}", $"materials: [{{item: 1, what: {what}, quantity: 1}}]");

    [Theory]
    [InlineData("kind: guide, tag: PS-41", "guide PS-41", "")]
    [InlineData("kind: guide, tag: PS-41", "hanger PS-41", "warn")]
    [InlineData("kind: guide, tag: PS-41", "guide PS-14", "warn")]
    [InlineData("kind: guide, tag: ps-41", "guide PS-41 painted", "")]
    [InlineData("kind: guide", "guide PS-41", "")]
    [InlineData("kind: guide, tag: PS-41", "pipe support", "")]
    [InlineData("kind: shoe, tag: PS-1340-081", "shoe PS-1340-081", "")]
    [InlineData("kind: shoe, tag: PS-1340-081", "shoe PS-1340-018", "warn")]
    [InlineData("kind: clamp, tag: 55-U-12", "clamp 55-U-12", "")]
    [InlineData("kind: clamp, tag: IA-S1", "clamp IA-S1", "")]
    [InlineData("kind: clamp, tag: IA-S1", "clamp IA-S12", "warn")]
    public void A_support_of_another_kind_or_mark_is_told(string support, string what, string severity) => Desk.Tells("support-contradicts-list", severity, Held(support, what));

    [Theory]
    [InlineData("heat: H1", "heat: H2", "")]
    [InlineData("heat: H1", "heat: H1", "warn")]
    [InlineData("note: x", "note: x", "")]
    public void One_heat_on_pipe_and_flange_is_told(string pipe, string flange, string severity) => Desk.Tells("heat-of-two-forms", severity, Desk.Drawing("{go: north, by: 1500, to: flange, end: final-fit}",
        $"materials:\n  - {{item: 1, what: pipe, size: 6, schedule: 40, material: A106-B, {pipe}, quantity: 6 m}}\n  - {{item: 2, what: flange WN RF, size: 6, class: 150, bore: 40, material: A105, {flange}, quantity: 2}}"));

    [Theory]
    [InlineData("A234-WBP", "warn")]
    [InlineData("A234-WPB", "")]
    [InlineData("X-10 of our own", "")]
    public void Two_letters_of_a_material_changed_over_are_told(string material, string severity) => Desk.Tells("material-misspelt", severity, Desk.Drawing(
        "{go: north, by: 1500, to: elbow}\n{go: up, by: 1500, to: open}", $"materials: [{{item: 1, what: elbow 90 LR, size: 6, schedule: 40, material: {material}, quantity: 1}}]"));

    // ASME B16.5 table 1B: strain-hardened A193 B8M class 2 is bolting of intermediate strength.
    [Theory]
    [InlineData("A193-B8M CL2", "")]
    [InlineData("A193-B8M", "warn")]
    public void Strain_hardened_bolting_is_not_weak(string material, string severity) => Desk.Tells("bolts-too-weak", severity, Desk.Drawing("{go: north, by: 1500, to: flange}",
        $"materials: [{{item: 1, what: stud bolt, size: 3/4, length: 100, material: {material}, quantity: 16}}, {{item: 2, what: gasket spiral wound, size: 6, class: 150, quantity: 2}}]"));

    [Theory]
    [InlineData("control valve", "control valve flanged")]
    [InlineData("pressure reducing valve", "pressure reducing valve")]
    [InlineData("steam trap", "steam trap")]
    [InlineData("sight glass", "sight glass flanged")]
    [InlineData("Y-strainer", "Y-strainer")]
    [InlineData("flexible hose", "flexible hose, flanged")]
    public void An_item_in_words_of_one_s_own_is_found_in_the_list_by_them(string drawn, string listed)
    {
        var yaml = Desk.Drawing($"{{go: north, by: 1500, to: in-line item, what: {drawn}, face to face: 300, mass: 20, item: 7}}\n{{go: north, by: 1500, to: open}}", $"materials: [{{item: 7, what: \"{listed}\", size: 6, class: 150, quantity: 1}}]");
        Desk.IsSilent("item-is-another-part", yaml);
        var guessed = yaml.Replace(", item: 7}", "}", StringComparison.Ordinal);
        Assert.DoesNotContain(Desk.Packet(guessed).Findings, f => f.Rule == "item-not-listed" && f.Message.Contains(drawn, StringComparison.Ordinal));
        Desk.IsSilent("item-not-used", guessed);
    }

    [Fact]
    public void A_reducer_listed_small_end_first_is_the_same_reducer()
    {
        var yaml = Desk.Drawing("{go: north, by: 1500, to: reducer, size: 4}\n{go: north, by: 1500, to: open}", "materials: [{item: 1, what: reducer concentric, size: 4 x 6, schedule: 40, quantity: 1}]");
        Assert.DoesNotContain(Desk.Packet(yaml).Findings, f => f.Rule == "item-not-listed" && f.Message.Contains("reducer", StringComparison.Ordinal));
        Desk.IsSilent("item-not-used", yaml);
    }

    [Fact]
    public void A_blind_that_is_listed_and_not_drawn_is_a_warning() => Desk.Tells("item-not-used", "warn", Desk.Drawing("{go: north, by: 1500, to: flange}", "materials: [{item: 1, what: flange blind RF, size: 6, class: 150, quantity: 1}, {item: 2, what: flange WN RF, size: 6, class: 150, bore: 40, quantity: 2}]"));

    private static string Flanged(string drawn, string listed, string line = "size: 6, schedule: 40, class: 150, material: A106-B", string more = "") => Desk.Drawing(
        $"{{go: north, by: 1500, to: {drawn}, item: 1}}\n{{go: north, by: 1500, to: flange}}", $"{more}\nmaterials: [{{item: 1, {listed}, quantity: 1}}]", line);

    // ASME B16.10: a wafer valve has no flanges of its own, and another length.
    [Theory]
    [InlineData("valve, kind: check", "what: valve check swing flanged, size: 6, class: 150", "")]
    [InlineData("valve, kind: check", "what: valve check wafer, size: 6, class: 150", "stop")]
    [InlineData("valve, kind: check, ends: wafer, face to face: 98", "what: valve check wafer, size: 6, class: 150", "")]
    [InlineData("valve, kind: check, ends: wafer, face to face: 98", "what: valve check swing flanged, size: 6, class: 150", "stop")]
    [InlineData("valve, kind: butterfly", "what: valve butterfly wafer, size: 6, class: 150", "")]
    [InlineData("valve, kind: butterfly, ends: wafer", "what: valve butterfly wafer, size: 6, class: 150", "")]
    [InlineData("valve, kind: butterfly, ends: flanged, face to face: 140", "what: valve butterfly flanged, size: 6, class: 150", "")]
    [InlineData("valve, kind: butterfly, ends: flanged, face to face: 140", "what: valve butterfly wafer, size: 6, class: 150", "stop")]
    [InlineData("valve, kind: butterfly", "what: valve butterfly, size: 6, class: 150", "")]
    [InlineData("valve, kind: butterfly", "what: valve butterfly flanged, size: 6, class: 150", "stop")]
    public void A_wafer_valve_for_a_flanged_one_is_told(string drawn, string listed, string severity) => Desk.Tells("item-is-another-part", severity, Flanged(drawn, listed));

    [Theory]
    [InlineData("A216-WCB", "A312-TP316L", "warn")]
    [InlineData("A351-CF3M", "A312-TP316L", "")]
    [InlineData("A351-CF8M", "A106-B", "")]
    [InlineData("A351-CF8M", "A790-S31803", "warn")]
    public void A_carbon_valve_in_stainless_is_told(string listed, string line, string severity) =>
        Desk.Tells("wetted-metal", severity, Flanged("valve, kind: gate", $"what: valve gate flanged, size: 6, class: 150, material: {listed}", $"size: 6, schedule: 40S, class: 150, material: {line}"));

    [Fact]
    public void One_steel_is_one_with_and_without_its_unified_number() => Desk.IsSilent("pipe-grade-mismatch", Desk.Drawing(
        "{go: north, by: 1500, to: flange}", "materials: [{item: 1, what: pipe, size: 6, schedule: 40S, material: A790-S31803, quantity: 6 m}]", "size: 6, schedule: 40S, class: 150, material: A790 UNS S31803"));

    [Theory]
    [InlineData("kind: clamp, attach: clamped", "clamp with liner PS-1", "A36", "A312-TP316L", "")]
    [InlineData("kind: clamp, attach: clamped", "clamp PS-1", "A36", "A312-TP316L", "warn")]
    [InlineData("kind: guide, attach: clamped", "guide PS-1", "A240-304", "A106-B", "")]
    public void A_clamp_with_a_liner_may_be_of_another_metal(string support, string what, string metal, string line, string severity) => Desk.Tells("support-metal", severity, Desk.Drawing(
        $"{{go: north, by: 1500, to: support, {support}, tag: PS-1}}\n{{go: north, by: 1500, to: open}}", $"materials: [{{item: 1, what: {what}, material: {metal}, quantity: 1}}]", $"size: 6, schedule: 40, class: 150, material: {line}"));

    [Fact]
    public void A_support_drawn_welded_and_listed_as_a_clamp_is_told() => Desk.Tells("support-contradicts-list", "warn", Held("kind: guide, tag: PS-41, attach: welded", "guide with lined clamp PS-41"));

    [Theory]
    [InlineData("control valve FCV-611", "FCV-611 pneumatic control valve RF")]
    public void A_tag_in_both_names_an_item(string drawn, string listed) => Desk.IsSilent("item-is-another-part", Flanged($"in-line item, what: {drawn}, face to face: 451", $"what: {listed}, size: 6, class: 150"));

    [Theory]
    [InlineData("quantity: 96 each")]
    [InlineData("quantity: 96 pcs")]
    public void Pieces_may_be_written_with_their_word(string quantity)
    {
        var f = Desk.Packet(Desk.Drawing("{go: north, by: 1500, to: flange}", $"materials: [{{item: 1, what: stud bolt, size: 3/4, length: 100, {quantity}}}]")).Fabrication;
        Assert.Equal(96, f.Materials.Single(m => m.Item?.Item == 1).Listed);
    }

    [Fact]
    public void A_reducing_tee_may_be_listed_by_its_three_ends()
    {
        var f = Desk.Packet(Desk.Drawing("{go: north, by: 1500, to: tee, branch: up, branch size: 4, name: T}\n{go: north, by: 1500, to: open}", "materials: [{item: 1, what: reducing tee, size: 6 x 6 x 4, schedule: 40, quantity: 1}]")).Fabrication;
        Assert.Equal(1, f.Materials.Single(m => m.Item?.Item == 1).Needed);
    }
}
