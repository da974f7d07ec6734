namespace Rootgap.Tests.Checks;

/// <summary>What a foreman sees by holding one row against another. The facts are common practice where no standard stands beside them.</summary>
public class ForemansSecondLookTest
{
    private static string Listed(string legs, string rows, string line = "size: 6, schedule: 40, class: 150, material: A106-B", string more = "", string start = "to: flange") =>
        Desk.Drawing(legs, $"{more}\nmaterials:\n{string.Join('\n', rows.Split('\n').Select((r, i) => $"  - {{item: {i + 1}, {r}}}"))}", line, start);

    [Theory]
    [InlineData("elbow 90 3D", "stop")]
    [InlineData("elbow 90 LR", "stop")]
    [InlineData("bend 90 5D", "")]
    [InlineData("elbow 90", "")]
    public void A_bend_of_five_diameters_is_no_elbow_of_three(string what, string told) => Desk.Tells("item-is-another-part", told,
        Listed("{go: up, by: 2450, to: elbow, radius: 5d}\n{go: north, by: 2200, to: open}", $"what: {what}, size: 6, schedule: 40, quantity: 1"));

    // The flange is slip-on: a pipe of 1500 from face to face ends at its set-back.
    [Theory]
    [InlineData(160, 300, "")]
    [InlineData(140, 300, "warn")]
    [InlineData(140, 260, "")]
    public void A_shoe_lies_on_pipe_with_its_whole_length(int by, int length, string told) => Desk.Tells("support-on-fitting", told,
        Desk.Drawing($"{{go: north, by: {by}, to: support, kind: shoe, attach: clamped, height: 100, length: {length}, mass: 8}}\n{{go: north, by: 2500, to: flange}}", line: "size: 6, schedule: 40, class: 150, flange: SO"));

    [Theory]
    [InlineData("NH3-220-6-L3A", "")]
    [InlineData("NH3-220-4-L3A", "note")]
    [InlineData("NH3-220-150-L3A", "")]
    [InlineData("CAU-55-50-S1", "note")]
    [InlineData("CAU-55-77-S1", "")]
    [InlineData("P-3310-01-C3A", "")]
    [InlineData("6-P-3310-4-C3A", "note")]
    public void A_size_within_the_line_number_is_the_line_s(string number, string told) => Desk.Tells("line-data-contradicts", told,
        Desk.Drawing("{go: north, by: 1000, to: flange}", $"service: {{line number: {number}}}"));

    [Theory]
    [InlineData("SLU-09", "SLU-90-6-W1", "note")]
    [InlineData("SLU-91", "SLU-90-6-W1", "")]
    [InlineData("NH3-202", "NH3-220-6-L3A", "warn")]
    [InlineData("NH3-220", "NH3-220-6-L3A", "")]
    public void Turned_figures_of_the_number_are_told(string drawing, string line, string told) => Desk.Tells("line-data-contradicts", told,
        Desk.Drawing("{go: north, by: 1000, to: flange}", $"service: {{line number: {line}}}").Replace("TEST-1", drawing, StringComparison.Ordinal));

    // Titles of the sections of ASME B31 (from memory).
    [Theory]
    [InlineData("B31.4", "steam", "warn")]
    [InlineData("B31.4", "crude oil", "")]
    [InlineData("B31.8", "water", "warn")]
    [InlineData("B31.5", "ammonia", "")]
    [InlineData("B31.3", "steam", "")]
    public void A_section_is_of_its_own_fluids(string code, string fluid, string told) => Desk.Tells("line-data-contradicts", told,
        Desk.Drawing("{go: north, by: 1000, to: flange}", $"service: {{code: {code}, fluid: {fluid}}}"));

    [Theory]
    [InlineData("A333-6", "40 C", "warn")]
    [InlineData("A333-6", "-40 C", "")]
    [InlineData("A106-B", "40 C", "")]
    [InlineData("A333-6", "-40 to 60 C", "")]
    public void Steel_and_insulation_for_the_cold_are_for_the_cold(string material, string temperature, string told) => Desk.Tells("warmth-contradicts", told,
        Desk.Drawing("{go: north, by: 1000, to: flange}", $"service: {{insulation: cold PIR, insulation thickness: 80, design temperature: {temperature}}}", "size: 6, schedule: 40, class: 150, material: " + material));

    [Theory]
    [InlineData("cooling water", "-5 C", "warn")]
    [InlineData("cooling water", "-5 to 40 C", "")]
    [InlineData("glycol and water", "-5 C", "")]
    [InlineData("ammonia", "-5 C", "")]
    public void Water_is_not_frozen(string fluid, string temperature, string told) => Desk.Tells("warmth-contradicts", told,
        Desk.Drawing("{go: north, by: 1000, to: flange}", $"service: {{fluid: {fluid}, design temperature: {temperature}}}"));

    [Theory]
    [InlineData("what: elbow 90 LR, size: 6, schedule: 40, material: A234-WPB, quantity: 1\nwhat: elbow 90 LR, size: 6, schedule: 40, material: A234-WPB, quantity: 1", "warn")]
    [InlineData("what: elbow 90 LR, size: 6, schedule: 40, material: A234-WPB, quantity: 2", "note")]
    [InlineData("what: elbow 90 LR, size: 6, schedule: 40, material: A234-WPB, quantity: 1", "")]
    public void A_row_written_twice_is_told(string rows, string told) => Desk.Tells("quantity-over", told, Listed("{go: up, by: 1450, to: elbow}\n{go: north, by: 1200, to: open}", rows, start: "to: open"));

    // Two joints take two lengths: the longer row is the longer joint's, whatever it says.
    [Fact]
    public void Studs_that_are_off_are_told_of_the_joint_that_they_are_for()
    {
        var found = Desk.Finds("stud-length", "materials[1]", Listed("{go: north, by: 1000, to: joint}\n{go: north, by: 1000, to: in-line item, what: spectacle blind, ends: wafer, face to face: 43, mass: 9}\n{go: north, by: 1000, to: open}",
            "what: stud bolt, size: 3/4, length: 100, quantity: 8\nwhat: stud bolt, size: 3/4, length: 130, quantity: 8", start: "to: open"));
        Assert.StartsWith("Joint B2,", found.Message, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("spectacle blind", 16, "")]
    [InlineData("spectacle blind", 160, "warn")]
    [InlineData("spacer", 160, "")]
    public void A_plate_is_thin(string what, int thick, string told) => Desk.Tells("valve-length-unusual", told,
        Desk.Drawing($"{{go: north, by: 1000, to: in-line item, what: {what}, ends: wafer, face to face: {thick}, mass: 9}}\n{{go: north, by: 1000, to: open}}", start: "to: open"));

    [Theory]
    [InlineData(", holes from: up", ", holes from: up", "")]
    [InlineData(", holes from: up", "", "note")]
    [InlineData("", "", "")]
    public void Where_one_flange_on_a_slope_says_its_line_the_others_do(string first, string second, string told) => Desk.Tells("hole-line-unstated", told,
        Desk.Drawing($"{{go: north, by: 1000, fall: 1:60, to: joint{first}}}\n{{go: north, by: 1000, fall: 1:60, to: flange{second}}}", start: "to: open"));

    [Theory]
    [InlineData("A234-WPB", "note")]
    [InlineData("A105", "")]
    public void Threaded_fittings_are_forged(string material, string told) => Desk.Tells("material-of-another-form", told,
        Listed("{go: up, by: 450, to: elbow}\n{go: north, by: 1200, to: open, ends: threaded}", $"what: elbow 90 TH, size: 1, class: 3000, material: {material}, quantity: 1", "size: 1, schedule: 80, ends: threaded, fitting class: 3000, material: A106-B", start: "to: open, ends: threaded"));

    [Theory]
    [InlineData("A53-B", "warn")]
    [InlineData("A53-B galvanised", "")]
    public void A_line_is_galvanised_as_a_whole(string pipe, string told) => Desk.Tells("galvanised-in-part", told,
        Listed("{go: up, by: 450, to: elbow}\n{go: north, by: 1200, to: cap}", $"what: pipe, size: 1, schedule: 80, material: {pipe}, quantity: 2 m\nwhat: elbow 90 TH, size: 1, class: 3000, material: A105 galvanised, quantity: 1\nwhat: cap TH, size: 1, class: 3000, material: A105 galvanised, quantity: 1",
            "size: 1, schedule: 80, ends: threaded, fitting class: 3000, material: A53-B", start: "to: open, ends: threaded"));

    [Theory]
    [InlineData("along", "along", "")]
    [InlineData("along", "against", "note")]
    public void Twins_flow_the_same_way(string first, string second, string told) => Desk.Tells("flow-other-than-its-twins", told, string.Join('\n',
    [
        "drawing: TEST-1", "revision: 1", "line: {size: 6, schedule: 40, class: 150}", "runs:",
        "  - {run: main, flow: along, start: {to: flange}, legs: [{go: north, by: 1000, to: tee, name: A, branch: up, branch size: 4}, {go: north, by: 1500, to: tee, name: B, branch: up, branch size: 4}, {go: north, by: 1000, to: flange}]}",
        $"  - {{run: first, size: 4, flow: {first}, start: {{from: A}}, legs: [{{go: up, by: 900, to: flange}}]}}",
        $"  - {{run: second, size: 4, flow: {second}, start: {{from: B}}, legs: [{{go: up, by: 900, to: flange}}]}}",
    ]));

    private const string Blinded = "{go: up, by: 1450, to: elbow, item: 1}\n{go: north, by: 1200, to: flange, blinded: yes, item: 2}";

    [Theory]
    [InlineData("\nwhat: flange blind RF, size: 6, class: 150, quantity: 1", "")]
    [InlineData("", "stop")]
    public void The_item_of_a_flange_is_not_that_of_its_blind(string blind, string told) => Desk.Tells("item-not-listed", told,
        Listed(Blinded, "what: elbow 90 LR, size: 6, schedule: 40, quantity: 1\nwhat: flange WN RF, size: 6, class: 150, bore: 40, quantity: 1\nwhat: pipe, size: 6, schedule: 40, quantity: 3 m\nwhat: gasket spiral wound, size: 6, class: 150, quantity: 1\nwhat: stud bolt, size: 3/4, length: 110, quantity: 8" + blind, start: "to: open"));

    [Theory]
    [InlineData("item: 1", "", "")]
    [InlineData("item: 1", "\nwhat: elbow 90 LR, size: 6, schedule: 40, quantity: 1", "warn")]
    public void A_second_row_of_a_part_whose_row_is_named_is_told(string item, string second, string told) => Desk.Tells("item-not-used", told,
        Listed($"{{go: up, by: 1450, to: elbow, {item}}}\n{{go: north, by: 1200, to: open}}", "what: elbow 90 LR, size: 6, schedule: 40, quantity: 1" + second, start: "to: open"));

    // Ten metres of pipe in two rows are ten metres.
    [Fact]
    public void Pipe_in_two_rows_is_counted_together() => Desk.IsSilent("figure-ten-times-off", Listed("{go: north, by: 9000, to: open}", "what: pipe, size: 6, schedule: 40, quantity: 6 m, heat: A1\nwhat: pipe, size: 6, schedule: 40, quantity: 4 m, heat: A2", start: "to: open"));

    [Theory]
    [InlineData("guide", "6", "")]
    [InlineData("guide", "4", "warn")]
    [InlineData("trunnion", "4", "")]
    public void A_support_is_listed_in_its_pipe_s_size(string kind, string size, string told) => Desk.Tells("support-contradicts-list", told,
        Listed($"{{go: north, by: 900, to: support, kind: {kind}, tag: PS-1, height: 100, mass: 8, item: 1}}\n{{go: north, by: 900, to: open}}", $"what: {kind} PS-1, size: {size}, quantity: 1", start: "to: open"));

    [Theory]
    [InlineData("spectacle blind", "16", "", "")]
    [InlineData("spectacle blind", "13", "", "stop")]
    [InlineData("orifice plate", "16", "stop", "")]
    public void A_plate_is_the_one_that_is_listed(string what, string thick, string sort, string thickness)
    {
        var drawing = Listed($"{{go: north, by: 900, to: in-line item, what: {what}, ends: wafer, face to face: 16, mass: 9, item: 1}}\n{{go: north, by: 900, to: open}}", $"what: spectacle blind, size: 6, class: 150, thickness: {thick}, quantity: 1", start: "to: open");
        Desk.Tells("item-is-another-part", sort, drawing);
        Desk.Tells("item-length-mismatch", thickness, drawing);
    }

    [Theory]
    [InlineData("clamp", 50, "warn")]
    [InlineData("clamp", 80, "")]
    [InlineData("anchor", 50, "warn")]
    public void What_holds_a_pipe_is_higher_than_its_insulation(string kind, int height, string told) => Desk.Tells("support-in-insulation", told,
        Desk.Drawing($"{{go: north, by: 1500, to: support, kind: {kind}, height: {height}, mass: 8}}\n{{go: north, by: 1500, to: open}}", "service: {insulation: mineral wool, insulation thickness: 75}"));

    [Theory]
    [InlineData("insulation: none, insulation thickness: 50", "warn")]
    [InlineData("insulation: none", "")]
    public void What_is_not_there_has_no_thickness(string service, string told) => Desk.Tells("insulation-incomplete", told, Desk.Drawing("{go: north, by: 1000, to: flange}", $"service: {{{service}}}"));

    [Theory]
    [InlineData("what: pipe, size: 6, schedule: 40, material: A106-B, quantity: 3 m, heat: P1\nwhat: elbow 90 LR, size: 6, schedule: 40, material: A234-WPB, quantity: 1, heat: P1", "note")]
    [InlineData("what: pipe, size: 6, schedule: 40, material: A106-B, quantity: 3 m, heat: P1\nwhat: elbow 90 LR, size: 6, schedule: 40, material: A234-WPB, quantity: 1, heat: E1", "")]
    [InlineData("what: flange WN RF, size: 6, class: 150, material: A105, quantity: 1, heat: F1\nwhat: flange WN RF, size: 4, class: 150, material: A105, quantity: 1, heat: F1", "note")]
    [InlineData("what: flange WN RF, size: 6, class: 150, material: A105, quantity: 1, heat: F1\nwhat: flange blind RF, size: 6, class: 150, material: A105, quantity: 1, heat: F1", "")]
    public void A_heat_is_seldom_that_of_two_things(string rows, string told) => Desk.Tells("heat-of-two-forms", told, Listed("{go: up, by: 1450, to: elbow}\n{go: north, by: 1200, to: flange}", rows, start: "to: open"));

    [Theory]
    [InlineData("6-MS-1104-C3", "")]
    [InlineData("4-MS-1104-C3", "note")]
    public void The_size_ahead_of_the_line_number_is_the_line_s(string number, string told) => Desk.Tells("line-data-contradicts", told,
        Desk.Drawing("{go: north, by: 1000, to: tee, name: A, branch: up, branch size: 4}\n{go: north, by: 1000, to: reducer, size: 4}\n{go: north, by: 1000, to: flange}", $"service: {{line number: {number}}}"));

    [Theory]
    [InlineData("title: Liquid ammonia to cooler", "fluid: ammonia gas", "note")]
    [InlineData("title: Liquid ammonia to cooler", "fluid: liquid ammonia", "")]
    [InlineData("title: Ammonia to cooler", "fluid: ammonia gas", "")]
    [InlineData("title: Slurry", "fluid: slurry, design pressure: 8 bar, design temperature: 60 F", "note")]
    [InlineData("title: Slurry", "fluid: slurry, design pressure: 8 bar, design temperature: 60 C", "")]
    [InlineData("title: Slurry", "fluid: slurry, design pressure: 120 psi, design temperature: 60 F", "")]
    [InlineData("title: Air", "fluid: air, line number: PW-512-G1", "")]
    public void Title_fluid_and_figures_speak_of_one_line(string title, string service, string told) => Desk.Tells("line-data-contradicts", told,
        Desk.Drawing("{go: north, by: 1000, to: flange}", $"{title}\nservice: {{{service}}}"));

    [Theory]
    [InlineData("IA-5512", "PW-5512-G1", "note")]
    [InlineData("IA-5512", "IA-5512-G1", "")]
    [InlineData("IA-55", "PW-55-G1", "")]
    public void The_same_number_behind_other_letters_is_told(string drawing, string line, string told) => Desk.Tells("line-data-contradicts", told,
        Desk.Drawing("{go: north, by: 1000, to: flange}", $"service: {{line number: {line}}}").Replace("TEST-1", drawing, StringComparison.Ordinal));

    [Theory]
    [InlineData("ends: threaded", "", "note")]
    [InlineData("ends: threaded", ", ends: plain", "note")]
    [InlineData("ends: threaded", ", ends: threaded", "")]
    [InlineData("ends: butt", ", ends: threaded", "note")]
    [InlineData("ends: butt", "", "")]
    public void An_open_end_is_as_the_line_is_joined(string line, string end, string told) => Desk.Tells("open-end-odd", told,
        Desk.Drawing($"{{go: north, by: 1000, to: open{end}}}", line: $"size: 1, schedule: 80, class: 150, {line}"));

    // The trunnion is of its own pipe's size; a guide of another size that bears the mark is the one meant, and is told.
    [Theory]
    [InlineData("trunnion", "trunnion PS-1", "4", "", "")]
    [InlineData("guide", "guide PS-1", "4", "", "warn")]
    [InlineData("guide", "guide PS-2", "4", "stop", "")]
    public void A_support_is_found_by_its_mark(string kind, string what, string size, string missing, string told)
    {
        var drawing = Listed($"{{go: north, by: 900, to: support, kind: {kind}, tag: PS-1, height: 100, mass: 8}}\n{{go: north, by: 900, to: open}}", $"what: {what}, size: {size}, quantity: 1\nwhat: pipe, size: 6, schedule: 40, quantity: 3 m", start: "to: open");
        Desk.Tells("item-not-listed", missing, drawing);
        Desk.Tells("support-contradicts-list", told, drawing);
    }

    // A fall may be written as a vector, too.
    [Theory]
    [InlineData("{go: {east: 900, down: 9}, to: tee, name: A, branch: down}")]
    [InlineData("{go: east, by: 900, fall: 1:100, to: tee, name: A, branch: down}")]
    public void A_branch_on_a_fall_is_square_enough(string leg)
    {
        var drawing = Desk.Drawing(leg + "\n{go: {east: 900, down: 9}, to: open}", start: "to: open");
        Desk.IsSilent("branch-not-square", drawing);
        Desk.Tells("branch-on-slope", "note", drawing);
    }

    [Theory]
    [InlineData("note: on HOLD", "stop")]
    [InlineData("note: hold the list against the drawing", "")]
    [InlineData("heat: TBC", "warn")]
    [InlineData("heat: E2051", "")]
    public void A_row_of_the_list_may_be_on_hold(string row, string told) => Desk.Tells("drawing-hold", told,
        Listed("{go: up, by: 1450, to: elbow}\n{go: north, by: 1200, to: open}", $"what: elbow 90 LR, size: 6, schedule: 40, quantity: 1, {row}", start: "to: open"));

    [Theory]
    [InlineData("", "", "")]
    [InlineData(", spool: 1", "", "note")]
    [InlineData(", spool: 1", ", spool: 2", "")]
    public void One_spool_with_a_number_among_counted_ones_is_told(string one, string two, string told) => Desk.Tells("spool-name-odd", told, Desk.Drawing(
        $"{{go: north, by: 1000, to: elbow, end: field}}\n{{go: east, by: 1000, to: elbow, end: field{two}}}\n{{go: north, by: 1000, to: elbow, end: field{one}}}\n{{go: east, by: 1000, to: flange}}"));

    [Theory]
    [InlineData("caustic soda 300 %", "warn")]
    [InlineData("caustic soda 30 %", "")]
    public void Nothing_is_more_than_all_of_it(string fluid, string told) => Desk.Tells("line-data-contradicts", told, Desk.Drawing("{go: north, by: 1000, to: flange}", $"service: {{fluid: {fluid}}}"));

    // A thermowell screwed or bolted to a flange on the line goes where the line goes; a branch of two legs leads somewhere, to a place that stands fast where the drawing gives it.
    [Theory]
    [InlineData("{go: up, by: 400, to: flange}", "note")]
    [InlineData("{go: up, by: 400, to: elbow}, {go: north, by: 1400, to: flange, at: {east: 0, north: 2400, up: 400}}", "warn")]
    [InlineData("{go: up, by: 400, to: elbow}, {go: north, by: 1400, to: flange}", "note")]
    public void The_flange_of_an_instrument_is_no_fixed_end(string legs, string told) => Desk.Tells("no-final-fit", told, string.Join('\n',
    [
        "drawing: TEST-1", "revision: 1", "line: {size: 6, schedule: 40, class: 150}", "runs:",
        "  - {run: main, start: {to: flange}, legs: [{go: north, by: 1000, to: outlet, name: A, branch: up, size: 2}, {go: north, by: 4500, to: elbow}, {go: east, by: 1000, to: flange, begin: final-fit}]}",
        $"  - {{run: thermowell, size: 2, start: {{from: A}}, legs: [{legs}]}}",
    ]));

    // Two words of one thing, and two of two.
    [Theory]
    [InlineData("expansion joint", "bellows", "")]
    [InlineData("rubber bellows", "expansion joint", "")]
    [InlineData("strainer", "flow meter", "stop")]
    public void A_bellows_is_an_expansion_joint(string drawn, string listed, string told) => Desk.Tells("item-is-another-part", told,
        Listed($"{{go: north, by: 900, to: in-line item, what: {drawn}, face to face: 200, mass: 20, item: 1}}\n{{go: north, by: 900, to: open}}", $"what: {listed}, size: 6, class: 150, quantity: 1", start: "to: open"));
}
