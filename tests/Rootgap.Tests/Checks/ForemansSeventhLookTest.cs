using Rootgap.Drawings;
using Rootgap.Findings;
using Rootgap.Measure;
using Rootgap.Routes;

namespace Rootgap.Tests.Checks;

/// <summary>What two more fresh sets of mistakes and one of clean drawings showed, each from a drawing.</summary>
public class ForemansSeventhLookTest
{
    private const string Flanged = "{go: north, by: 3000, to: flange}";

    [Theory]
    [InlineData("discharge", "along", "flange", "weld, end: field", "")]
    [InlineData("discharge", "against", "flange", "weld, end: field", "warn")]
    [InlineData("discharge", "against", "weld, begin: field", "flange", "")]
    [InlineData("discharge", "along", "weld, begin: field", "flange", "warn")]
    [InlineData("suction", "along", "flange", "weld, end: field", "warn")]
    [InlineData("suction", "along", "weld, begin: field", "flange", "")]
    [InlineData("discharge", "against", "flange", "flange", "")]
    [InlineData("discharge", "against", "flange", "flange, continues: X-2", "warn")]
    [InlineData("main", "against", "flange", "weld, end: field", "")]
    public void A_discharge_leaves_its_machine(string run, string flow, string start, string end, string told) => Desk.Tells("flow-against-name", told, $$$"""
        drawing: TEST-1
        revision: 1
        line: {size: 6, schedule: 40, class: 150}
        runs:
          - run: {{{run}}}
            flow: {{{flow}}}
            start: {to: {{{start.Split(',')[0]}}}}
            legs: [{go: north, by: 3000, to: {{{end}}}}]
        """);

    [Theory]
    [InlineData("gaseous oxygen", "preserved with oil", "stop")]
    [InlineData("GOX", "greased", "stop")]
    [InlineData("gaseous oxygen", "degreased, free from oil and grease", "")]
    [InlineData("gaseous oxygen", "oil-free", "")]
    [InlineData("oxygen-free nitrogen", "preserved with oil", "")]
    [InlineData("water", "preserved with oil", "")]
    public void Oil_in_an_oxygen_line_stops(string fluid, string cleanliness, string told) =>
        Desk.Tells("oil-in-oxygen", told, Desk.Drawing(Flanged, $"service: {{fluid: {fluid}, cleanliness: \"{cleanliness}\"}}"));

    private static string Drained(string pipe, string schedule = ", schedule: 80") => Desk.Drawing("""
        {go: north, by: 1500, to: drain, size: 3/4, nipple: 75, face to face: 90, branch schedule: 80}
        {go: north, by: 1500, to: flange}
        """, $$"""
        materials:
          - {item: 1, what: pipe, size: 6, schedule: 40, quantity: 6 m}
          - {item: 2, what: pipe, size: 3/4{{schedule}}, quantity: {{pipe}}}
        """);

    // A drain has two nipples of 75: 0.15 m.
    [Theory]
    [InlineData("0.6 m", "note", "")]
    [InlineData("0.1 m", "stop", "warn")]
    public void Nipples_are_cut_from_pipe_that_is_left_over(string pipe, string nipples, string unused)
    {
        var findings = Desk.Packet(Drained(pipe)).Findings;
        Assert.Equal(nipples, findings.Where(f => f.Rule == "item-not-listed" && f.Message.Contains("nipple", StringComparison.Ordinal)).Max(f => f.Severity).ToString().ToLowerInvariant());
        Assert.Equal(unused.Length > 0, findings.Any(f => f.Rule == "item-not-used" && f.At == "materials[1]"));
    }

    // A list that does not say the wall of its small pipe is taken at its word; one that says another wall is not.
    [Theory]
    [InlineData("", "note")]
    [InlineData(", schedule: 160", "stop")]
    public void They_are_cut_from_pipe_of_their_own_wall_or_of_none_that_is_said(string schedule, string nipples) =>
        Assert.Equal(nipples, Desk.Packet(Drained("0.6 m", schedule)).Findings.Where(f => f.Rule == "item-not-listed" && f.Message.Contains("nipple", StringComparison.Ordinal)).Max(f => f.Severity).ToString().ToLowerInvariant());

    [Fact]
    public void A_flange_may_go_on_in_another_drawing()
    {
        var end = Desk.Packet(Desk.Drawing("{go: north, by: 3000, to: flange, continues: X-2, at: {north: 3000}}", start: "to: flange, at: {east: 0}"));
        Assert.Equal("X-2", end.Drawing.Runs[0].Legs[0].To.GoesOnIn);
        Assert.Contains(end.Fabrication.Route.Joints, j => j.Kind == JointKind.Bolted && end.Fabrication.Route.GoesOn(j));
        // The other drawing may have the final-fit weld.
        Assert.Equal(Severity.Note, end.Findings.First(f => f.Rule == "no-final-fit").Severity);
        Desk.Finds("continues-to-itself", "runs[0].legs[0]", Desk.Drawing("{go: north, by: 3000, to: flange, continues: TEST-1}"));
    }

    [Fact]
    public void A_blinded_flange_does_not_go_on() => Assert.Contains(
        DrawingReader.Read(Desk.Drawing("{go: north, by: 3000, to: flange, blinded: yes, continues: X-2}"), "test.yaml").Errors, e => e.Rule == "key-does-not-fit" && e.Message.Contains("blinded", StringComparison.Ordinal));

    [Theory]
    [InlineData("none", "warn")]
    [InlineData("hot-dip galvanised", "note")]
    public void Zinc_keeps_sea_water_off_for_a_while(string paint, string told) =>
        Desk.Tells("fluid-and-metal", told, Desk.Drawing(Flanged, $"service: {{fluid: sea water, design temperature: 40 C, paint: {paint}}}", line: "size: 6, schedule: 40, class: 150, material: A106-B"));

    // ISO 5167-2:2003 table 3: 6 diameters before a plate of the smallest bore, behind one bend (from memory). NPS 6: 914 mm.
    [Theory]
    [InlineData("along", 900, 2000, "warn")]
    [InlineData("along", 920, 2000, "")]
    [InlineData("against", 2000, 900, "warn")]
    [InlineData("against", 900, 2000, "")]
    public void An_orifice_plate_wants_straight_pipe_before_it(string flow, int before, int behind, string told) => Desk.Tells("meter-run-short", told, Desk.Drawing($$"""
        {go: up, by: 1450, to: elbow}
        {go: north, by: {{before}}, to: in-line item, what: orifice plate, face to face: 200, mass: 40}
        {go: north, by: {{behind}}, to: elbow}
        {go: east, by: 1450, to: flange}
        """).Replace("  - run: main", $"  - run: main\n    flow: {flow}", StringComparison.Ordinal));

    [Theory]
    [InlineData("vent", "down", "warn")]
    [InlineData("drain", "down", "")]
    [InlineData("vent", "up", "")]
    public void A_vent_where_the_run_is_lowest_is_told(string what, string go, string told) => Desk.Tells("drain-or-vent-wrong-way", told, Desk.Drawing($$"""
        {go: north, by: 1450, to: elbow}
        {go: {{go}}, by: 1500, to: elbow}
        {go: north, by: 1500, to: {{what}}, size: 3/4, nipple: 75, face to face: 90}
        {go: north, by: 1500, to: flange}
        """));

    [Theory]
    [InlineData("welded", "clamped with two half shells - no welding on the pipe", "warn")]
    [InlineData("clamped", "clamped with two half shells - no welding on the pipe", "")]
    [InlineData("clamped", "welded all round", "warn")]
    [InlineData("welded", "see standard drawing 7", "")]
    public void A_note_that_holds_a_support_otherwise_is_told(string attach, string note, string told) => Desk.Tells("note-contradicts", told, Desk.Drawing(
        $"{{go: north, by: 1500, to: support, kind: shoe, attach: {attach}, height: 100, note: {note}}}\n{{go: north, by: 1500, to: flange}}"));

    [Theory]
    [InlineData("CW-8-101-A1A", "CW-8-101-01", "")]
    [InlineData("CW-8-110-A1A", "CW-8-101-01", "warn")]
    [InlineData("CW-8-110-A1A", "FW-8-101-01", "")]
    public void Figures_between_dashes_that_changed_places_are_told(string line, string drawing, string told)
    {
        var found = Desk.Packet(Desk.Drawing(Flanged, $"service: {{line number: {line}}}", line: "size: 8, schedule: 40, class: 150").Replace("drawing: TEST-1", $"drawing: {drawing}", StringComparison.Ordinal)).Findings
            .Where(f => f.Rule == "line-data-contradicts" && f.Severity == Severity.Warn).ToList();
        Assert.Equal(told.Length > 0, found.Count == 1);
    }

    [Theory]
    [InlineData("DN80-NA-650-S6")]
    [InlineData("NA-650-DN80-S6")]
    public void A_line_number_that_says_its_size_has_no_other(string line) => Desk.IsSilent("line-data-contradicts", Desk.Drawing(Flanged, $"service: {{line number: {line}}}", line: "size: 3, schedule: 40, class: 150"));

    // ASME B31.3 table A-1: A106-B is used to -29 C, A333-6 to -46 C.
    [Fact]
    public void The_drawings_own_steel_breaks_in_the_cold_whatever_the_list_has() => Desk.Finds("cold-service-material", "runs[0].legs[0]", Desk.Drawing(Flanged, """
        service: {design temperature: -40 C}
        materials: [{item: 1, what: pipe, size: 6, schedule: 40, material: A333-6, quantity: 6 m}]
        """, line: "size: 6, schedule: 40, class: 150, material: A106-B"), "A106-B at -40 C");

    [Theory]
    [InlineData("cold, vapour barrier", "40 C", "warn")]
    [InlineData("60 PIR with vapour barrier", "40 C", "warn")]
    [InlineData("60 PIR with vapour barrier", "-40 C", "")]
    public void A_vapour_barrier_is_for_the_cold(string insulation, string temperature, string told) => Desk.Tells("warmth-contradicts", told, Desk.Drawing(
        Flanged, $"service: {{insulation: \"{insulation}\", design temperature: {temperature}}}", line: "size: 6, schedule: 40, class: 150, material: A333-6"));

    [Theory]
    [InlineData("1", "note")]
    [InlineData("3", "warn")]
    public void Small_bore_is_run_at_site_to_measure(string size, string told)
    {
        var drawing = Desk.Drawing("{go: north, by: 5000, to: elbow, end: shop}\n{go: east, by: 5000, to: flange, at: {east: 5000, north: 5000}}", line: $"size: {size}, schedule: 80, class: 150, ends: {(size == "1" ? "socket" : "butt")}", start: "to: flange, at: {east: 0}");
        Desk.Tells("no-final-fit", told, drawing);
        Desk.Tells("spool-over-width", told, drawing);
    }

    // NFPA 13 asks for 200 psi, or 50 over the working pressure (from memory): 225 for 175.
    [Theory]
    [InlineData("NFPA 13", "note")]
    [InlineData("B31.3", "warn")]
    public void Codes_beside_B31_have_their_own_tests(string code, string told) => Desk.Tells("test-pressure-low", told, Desk.Drawing(
        Flanged, $"service: {{fluid: fire water, code: {code}, design pressure: 175 psi, test pressure: 225 psi}}\ntest: {{medium: water}}"));

    // ASME B16.9 has no reducing tee 6 x 2.
    [Fact]
    public void A_fitting_without_measures_puts_no_weld_in_its_neighbours() => Desk.IsSilent("weld-out-of-reach", """
        drawing: TEST-1
        revision: 1
        line: {size: 6, schedule: 40, class: 150}
        runs:
          - run: main
            start: {to: open}
            legs:
              - {go: north, by: 1500, to: tee, name: T, branch: up, branch size: 2}
              - {go: north, by: 1500, to: open}
          - run: side
            start: {from: T}
            legs: [{go: up, by: 500, to: open}]
        """);

    // One stub-in of 6 for 4: the 6 of the header is listed, and too little by just the branch.
    [Fact]
    public void A_wrong_size_at_a_branch_is_told_once_though_the_size_is_listed()
    {
        var findings = Desk.Packet("""
            drawing: TEST-1
            revision: 1
            line: {size: 6, schedule: 40, class: 150}
            materials:
              - {item: 1, what: pipe, size: 6, schedule: 40, quantity: 4.3 m}
              - {item: 2, what: pipe, size: 4, schedule: 40, quantity: 3 m}
              - {item: 3, what: elbow 90 LR, size: 6, schedule: 40, quantity: 1}
              - {item: 4, what: elbow 90 LR, size: 4, schedule: 40, quantity: 2}
              - {item: 5, what: flange WN RF, size: 6, class: 150, bore: 40, quantity: 1}
              - {item: 6, what: flange WN RF, size: 4, class: 150, bore: 40, quantity: 1}
            runs:
              - run: main
                start: {to: open}
                legs:
                  - {go: north, by: 1500, to: stub-in, name: S, size: 6, branch: up}
                  - {go: north, by: 1500, to: elbow}
                  - {go: east, by: 1500, to: flange}
              - run: side
                start: {from: S}
                legs:
                  - {go: up, by: 1000, to: elbow}
                  - {go: east, by: 1000, to: elbow}
                  - {go: north, by: 1000, to: flange}
            """).Findings.Where(f => f.Severity != Severity.Note && f.Rule is "size-not-listed" or "item-not-listed" or "quantity-short" or "item-not-used" or "pipe-listed-short" or "quantity-over").ToList();
        var cause = Assert.Single(findings);
        Assert.Equal(("size-not-listed", "runs[0].legs[0]"), (cause.Rule, cause.At.ToString()));
        Assert.Contains("too little of that size", cause.Message, StringComparison.Ordinal);
    }

    // The row of the two socket unions is left out: the threaded one has its own place, and no more of it are to be bought.
    [Fact]
    public void A_row_that_has_its_own_part_is_not_made_longer_for_another()
    {
        var short1 = Desk.Finds("quantity-short", "materials[0]", Desk.Drawing("""
            {go: north, by: 1000, to: union, face to face: 60, ends: socket}
            {go: north, by: 1000, to: union, face to face: 60, ends: socket}
            {go: north, by: 1000, to: union, face to face: 60, ends: threaded}
            {go: north, by: 1000, to: open, ends: threaded}
            """, "materials: [{item: 1, what: union threaded, size: 1, class: 3000, quantity: 1}]", line: "size: 1, schedule: 80, class: 150, ends: socket", start: "to: open"));
        Assert.Null(short1.Change);
        Assert.Contains("has no row", short1.Remedy, StringComparison.Ordinal);
    }

    // ASME B16.5: NPS 6 class 300 takes 120 (the project's own table); the row of 100 belongs to class 150.
    [Fact]
    public void Studs_that_are_too_short_for_a_joint_are_not_bought_for_it()
    {
        var short1 = Desk.Finds("quantity-short", "materials[0]", Desk.Drawing("{go: north, by: 1000, to: flange, class: 300}",
            "materials: [{item: 1, what: stud bolt, size: 3/4, length: 100, material: A193-B7, quantity: 8}]"));
        Assert.Null(short1.Change);
        Assert.DoesNotContain("List 20", short1.Remedy, StringComparison.Ordinal);
    }

    [Fact]
    public void A_figure_that_leaves_no_room_for_the_fittings_explains_nothing() => Assert.DoesNotContain(Desk.Packet(Desk.Drawing("""
        {go: up, by: 1450, to: elbow}
        {go: north, by: 1000, to: elbow}
        {go: east, by: 1700, to: flange, at: {east: 1700, north: 100, up: 1450}}
        """)).Findings, f => f.Rule == "closing-error-explained" && f.At == "runs[0].legs[1]");

    // Of one leg both ends are told apart, whichever row its joints stand at.
    [Fact]
    public void The_two_ends_of_a_run_of_one_leg_have_their_own_rows()
    {
        var route = Desk.Packet(Desk.Drawing("{go: north, by: 3000, to: weld, begin: field, end: field}", start: "to: weld")).Fabrication.Route;
        var ends = route.Joints.Where(j => j.Between.Count == 1).OrderBy(j => j.At.Y).ToList();
        Assert.Equal(["runs[0].start", "runs[0].legs[0]"], ends.Select(j => route.EndRow(j).Path.ToString()));
        Assert.Equal([true, false], ends.Select(route.StartsRun));
    }

    // More spools of one name than the alphabet has letters: every one keeps a name of its own, of letters and figures.
    [Fact]
    public void Forty_spools_of_one_name_have_forty_names()
    {
        var legs = string.Join('\n', Enumerable.Range(0, 40).Select(i => $"{{go: north, by: 500, to: weld, end: field, spool: S}}"));
        var names = Desk.Packet(Desk.Drawing(legs + "\n{go: north, by: 500, to: flange, spool: S}")).Fabrication.Spools.Select(s => s.Name).ToList();
        Assert.Equal(names.Count, names.Distinct(StringComparer.OrdinalIgnoreCase).Count());
        Assert.True(names.Count >= 40);
        Assert.All(names, n => Assert.Matches("^[A-Za-z0-9.-]+$", n));
    }

    // ASME B16.5 tables 5: NPS 6 class 600 R45, class 1500 R46; NPS 4 class 600 R37.
    [Theory]
    [InlineData("R45", "6", "600", "")]
    [InlineData("R 45", "6", "600", "")]
    [InlineData("RX45", "6", "600", "")]
    [InlineData("R46", "6", "600", "stop")]
    [InlineData("R46", "6", "1500", "")]
    [InlineData("R37", "4", "600", "")]
    [InlineData("oval", "4", "600", "")]
    public void The_number_of_a_ring_is_that_of_its_groove(string ring, string size, string @class, string told) => Desk.Tells("ring-number", told, Desk.Drawing(
        Flanged, $"materials: [{{item: 1, what: gasket ring joint {ring}, size: {size}, class: {@class}, quantity: 2}}]", line: $"size: {size}, schedule: 80, class: {@class}, facing: RTJ"));

    [Theory]
    [InlineData("Boiler feed water, pump P-1 discharge to header", "against", "warn")]
    [InlineData("Boiler feed water, pump P-1 discharge to header", "along", "")]
    [InlineData("Tank T-1 to suction of pump P-1", "against", "warn")]
    [InlineData("Header, with the discharge of pump P-1", "against", "")]
    public void A_title_leads_the_way_the_legs_are_written(string title, string flow, string told) => Desk.Tells("flow-against-name", told,
        Desk.Drawing(Flanged, $"title: \"{title}\"").Replace("  - run: main", $"  - run: main\n    flow: {flow}", StringComparison.Ordinal));

    [Theory]
    [InlineData("test package: TP-41 hydrotest with sea water", "warn")]
    [InlineData("test package: TP-41 hydrotest with potable water", "")]
    public void Stainless_is_not_tested_with_the_sea(string service, string told) =>
        Desk.Tells("stainless-treatment", told, Desk.Drawing(Flanged, $"service: {{{service}}}", line: "size: 6, schedule: 40, class: 150, material: A312-TP316L"));

    [Theory]
    [InlineData("Ammonia liquid -33 C to vaporiser", "40 C", "warn")]
    [InlineData("Ammonia liquid minus 33 C to vaporiser", "40 C", "warn")]
    [InlineData("Ammonia liquid -33 C to vaporiser", "-40 C", "")]
    [InlineData("Ammonia liquid -33 C to vaporiser", "-40 to 40 C", "")]
    [InlineData("Ammonia liquid -28 F to vaporiser", "100 F", "warn")]
    [InlineData("Ammonia liquid -28 F to vaporiser", "-40 F", "")]
    [InlineData("Line K-33 C, rack 2", "40 C", "")]
    public void A_title_that_speaks_of_cold_is_held_against_the_design(string title, string temperature, string told) =>
        Desk.Tells("warmth-contradicts", told, Desk.Drawing(Flanged, $"title: {title}\nservice: {{design temperature: {temperature}}}"));

    // NPS 6: 30 D are 4572.
    [Theory]
    [InlineData("FE-5510 30 D BEFORE 8 D BEHIND", 3500, "warn")]
    [InlineData("FE-5510 30 D BEFORE 8 D BEHIND", 4600, "")]
    [InlineData("20D upstream", 3500, "")]
    [InlineData("FE-5510 30 day test", 3500, "")]
    public void The_straight_pipe_that_a_note_asks_for_is_held_against_the_line(string note, int before, string told) => Desk.Tells("meter-run-short", told, Desk.Drawing($$"""
        {go: up, by: 1450, to: elbow}
        {go: north, by: {{before}}, to: in-line item, what: orifice plate, face to face: 200, mass: 40, note: {{note}} }
        {go: north, by: 2000, to: flange}
        """).Replace("  - run: main", "  - run: main\n    flow: along", StringComparison.Ordinal));

    [Fact]
    public void A_slip_on_row_and_not_the_blind_is_what_the_drawn_weld_necks_were_meant_to_be()
    {
        var findings = Desk.Packet(Desk.Drawing("{go: north, by: 3000, to: flange}", """
            materials:
              - {item: 1, what: flange SO RF, size: 6, class: 150, quantity: 2}
              - {item: 2, what: flange blind RF, size: 6, class: 150, quantity: 1}
            """)).Findings.Where(f => f.Rule == "item-is-another-part").ToList();
        Assert.All(findings, f => Assert.Contains("flange SO RF", f.Message, StringComparison.Ordinal));
        Assert.NotEmpty(findings);
    }

    [Fact]
    public void How_the_line_works_stands_with_its_data() => Assert.Contains(("operating pressure", "6 bar"),
        Desk.Packet(Desk.Drawing(Flanged, "service: {operating pressure: 6 bar, operating temperature: 30 C}")).Drawing.Service.LineData(Units.Millimetres));
}
