namespace Rootgap.Tests.Checks.Materials;

/// <summary>Rows of the list against the pipe that they are welded to, bolted to or meant for.</summary>
public class ListAgainstPipeTest
{
    private static string Cold(string elbow, string flange, string line = "A333-6") => Desk.Drawing("{go: up, by: 1450, to: elbow}\n{go: north, by: 1450, to: flange}", $$"""
        materials:
          - {item: 1, what: pipe, size: 6, schedule: 40, material: {{line}}, quantity: 3 m}
          - {item: 2, what: elbow 90 LR, size: 6, schedule: 40, material: {{elbow}}, quantity: 1}
          - {item: 3, what: flange WN RF, size: 6, class: 150, material: {{flange}}, quantity: 2}
        """, $"size: 6, schedule: 40, class: 150, material: {line}");

    [Theory]
    [InlineData("A420-WPL6", "A350-LF2", "A333-6", "")]
    [InlineData("A234-WPB", "A350-LF2", "A333-6", "warn")]
    [InlineData("A420-WPL6", "A105", "A333-6", "warn")]
    [InlineData("A420-WPL6", "A350-LF2", "A106-B", "")]
    [InlineData("A234-WPB", "A105", "A106-B", "")]
    public void Plain_steel_in_a_line_made_for_the_cold_is_told(string elbow, string flange, string line, string told) => Desk.Tells("fitting-grade-mismatch", told, Cold(elbow, flange, line));

    // ASME B36.10M: NPS 2 is 3.91 thick in schedule 40 and 5.54 in 80.
    [Theory]
    [InlineData("80", "")]
    [InlineData("40", "warn")]
    public void An_outlet_is_of_its_branch_s_wall(string schedule, string told)
    {
        var yaml = $$"""
            drawing: TEST-1
            revision: 1
            line: {size: 6, schedule: 40, class: 150}
            materials:
              - {item: 1, what: outlet butt, size: 2 x 6, schedule: {{schedule}}, quantity: 1}
            runs:
              - run: main
                start: {to: flange}
                legs:
                  - {go: north, by: 1000, to: outlet, name: O, size: 2, branch: up}
                  - {go: north, by: 1000, to: flange}
              - run: branch
                start: {from: O}
                legs:
                  - {go: up, by: 600, schedule: 80, to: open}
            """;
        Desk.Tells("end-schedule-differs", told, yaml);
        // With the branch's own wall there is no step.
        Desk.Tells("wall-step", told.Length > 0 ? "note" : "", yaml);
    }

    [Theory]
    [InlineData("40", "")]
    [InlineData("80", "warn")]
    public void A_stub_end_is_of_its_pipe_s_wall(string schedule, string told) => Desk.Tells("end-schedule-differs", told, Desk.Drawing("{go: north, by: 1000, to: flange, flange: LJ}",
        $"materials:\n  - {{item: 1, what: stub end, size: 6, schedule: {schedule}, quantity: 1}}"));

    private static string Item(string leg, string row, string line = "size: 1, schedule: 80, class: 150, ends: socket, fitting class: 3000", string end = "open", string start = "to: open") => Desk.Drawing($"{{go: north, by: 1000, to: in-line item, {leg}}}\n{{go: north, by: 1000, to: {end}}}",
        $"materials:\n  - {{item: 1, {row}, quantity: 1}}", line, start);

    [Theory]
    [InlineData("what: steam trap socket, size: 1, class: 800", "", "")]
    [InlineData("what: steam trap flanged, size: 1, class: 800", "stop", "")]
    [InlineData("what: steam trap threaded, size: 1, class: 800", "stop", "")]
    [InlineData("what: steam trap socket, size: 1, class: 150", "", "stop")]
    public void An_in_line_item_has_the_ends_and_the_class_of_its_row(string row, string kind, string @class)
    {
        var yaml = Item("what: steam trap, ends: socket, class: 800, face to face: 95", row);
        Desk.Tells("item-is-another-part", kind, yaml);
        Desk.Tells("class-mismatch", @class, yaml);
    }

    [Theory]
    [InlineData("flow meter flanged", "")]
    [InlineData("flow meter wafer", "stop")]
    public void A_wafer_body_is_not_listed_for_one_with_flanges(string what, string told) => Desk.Tells("item-is-another-part", told,
        Item("what: flow meter, ends: flanged, face to face: 300", $"what: {what}, size: 6, class: 150", "size: 6, schedule: 40, class: 150", "flange", "to: flange"));

    private static string Heats(string first, string second) => Desk.Drawing("{go: north, by: 1000, to: reducer, size: 4}\n{go: north, by: 1000, to: open}", $$"""
        materials:
          - {item: 1, what: pipe, size: 6, schedule: 40, quantity: 2 m{{first}}}
          - {item: 2, what: pipe, size: 4, schedule: 40, quantity: 2 m{{second}}}
          - {item: 3, what: reducer concentric, size: 6 x 4, schedule: 40, quantity: 1}
          - {item: 4, what: flange WN RF, size: 6, class: 150, quantity: 1}
        """);

    [Theory]
    [InlineData(", heat: A1", ", heat: B2", "", "")]
    [InlineData(", heat: A1", ", heat: A1", "note", "")]
    [InlineData(", heat: A1", "", "", "note")]
    [InlineData("", "", "", "")]
    public void Pipe_s_heats_are_held_against_each_other(string first, string second, string same, string missing)
    {
        Desk.Tells("heat-of-two-forms", same, Heats(first, second));
        Desk.Tells("heat-missing", missing, Heats(first, second));
    }

    // A joint that was drawn as a weld: two flanges, one gasket.
    [Theory]
    [InlineData(3, 2, "warn")]
    [InlineData(3, 1, "note")]
    [InlineData(1, 2, "note")]
    public void Two_flanges_and_a_gasket_too_many_are_a_joint(int flanges, int gaskets, string told) => Desk.Tells("quantity-over", told, Desk.Drawing("{go: north, by: 1000, to: open}", $$"""
        materials:
          - {item: 1, what: flange WN RF, size: 6, class: 150, quantity: {{flanges}}}
          - {item: 2, what: gasket spiral wound, size: 6, class: 150, quantity: {{gaskets}}}
        """));

    // 30 kg and 0.2 for each of the 168.3 mm of NPS 6: 63.7.
    [Theory]
    [InlineData(63, "")]
    [InlineData(64, "warn")]
    public void A_support_s_mass_has_a_limit(int mass, string told) => Desk.Tells("mass-unusual", told, Desk.Drawing($"{{go: north, by: 1000, to: support, kind: shoe, attach: welded, mass: {mass}}}\n{{go: north, by: 1000, to: flange}}"));

    // Solid, twice 273.1 across and 350 long, it would weigh 643 kg, of which a fiftieth is 12.9; with flanges of 406 only 356.
    [Theory]
    [InlineData(12, "warn")]
    [InlineData(14, "")]
    public void A_bellows_may_be_light(int mass, string told) => Desk.Tells("mass-unusual", told, Desk.Drawing($"{{go: north, by: 1000, to: in-line item, what: bellows, face to face: 350, mass: {mass}}}\n{{go: north, by: 1000, to: flange}}", line: "size: 10, schedule: 10S, class: 150"));

    [Theory]
    [InlineData("gasket spiral wound", "EPDM", "210 C", "warn")]
    [InlineData("gasket spiral wound", "EPDM", "100 C", "")]
    [InlineData("gasket spiral wound", "316 graphite", "210 C", "")]
    public void A_soft_filler_is_spoiled_by_heat(string what, string material, string temperature, string told) => Desk.Tells("gasket-material", told, Desk.Drawing("{go: north, by: 1000, to: joint}\n{go: north, by: 1000, to: flange}",
        $"service: {{design temperature: {temperature}}}\nmaterials:\n  - {{item: 1, what: {what}, size: 6, class: 300, material: {material}, quantity: 3}}", "size: 6, schedule: 40, class: 300"));

    [Theory]
    [InlineData("valve check swing flanged")]
    [InlineData("non-return valve swing flanged")]
    [InlineData("non return valve flanged")]
    [InlineData("NRV flanged")]
    public void A_check_valve_goes_by_its_other_names(string what)
    {
        var yaml = Desk.Drawing("{go: north, by: 1500, to: valve, kind: check}\n{go: north, by: 1500, to: flange}", $"materials:\n  - {{item: 1, what: {what}, size: 6, class: 150, quantity: 1}}\n  - {{item: 2, what: valve gate flanged, size: 6, class: 150, quantity: 1}}");
        Desk.IsSilent("item-is-another-part", yaml);
        Assert.Equal(1, Assert.Single(Desk.Packet(yaml).Fabrication.Materials, m => m.Item?.Item == 1).Needed);
    }

    [Theory]
    [InlineData("half coupling SW")]
    [InlineData("half-coupling SW")]
    public void A_half_coupling_may_have_a_hyphen(string what) => Assert.Equal(Rootgap.Drawings.Ware.HalfCoupling, Rootgap.Drawings.WareWords.Of(what).Ware);
}
