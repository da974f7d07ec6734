namespace Rootgap.Tests.Checks;

/// <summary>Where the rules of lists, spools, supports, welds and tests begin: as <see cref="BordersTest"/>.</summary>
public class ListAndWeldBordersTest
{
    private static string List(string legs, params string[] rows) => Desk.Drawing(legs, "materials:\n" + string.Join('\n', rows.Select((r, i) => $"  - {{item: {i + 1}, {r}}}")));

    private const string OnePipe = "{go: north, by: 1500, to: flange}";

    // ASME B16.5: 89 through the hub. 1500 - 2 x 89 - 2 x 3.2 = 1315.6 of pipe, and 3 for the saw; half a tenth of a metre is rounding.
    [Theory]
    [InlineData(1.280, "")]
    [InlineData(1.267, "warn")]
    [InlineData(1.260, "stop")]
    public void Pipe_is_listed_short_by_more_than_rounding(double metres, string told) => Desk.Tells("pipe-listed-short", told, List(OnePipe, $"what: pipe, size: 6, schedule: 40, quantity: {metres} m"));

    [Fact]
    public void Pipe_listed_short_by_the_final_fit_extra_alone_is_a_warning() => Desk.Tells("pipe-listed-short", "warn",
        List("{go: north, by: 1500, end: final-fit, to: flange}", "what: pipe, size: 6, schedule: 40, quantity: 1.3 m"));

    // 1.3156 m needed: 15 % and half a metre more are 2.013. 6184.4 between two flanges are 6.000 m of pipe: 14.8 is 2.47 times, 15.2 is 2.53.
    [Theory]
    [InlineData(1500, 2.00, "")]
    [InlineData(1500, 2.05, "note")]
    [InlineData(6184.4, 14.8, "note")]
    [InlineData(6184.4, 15.2, "warn")]
    public void Pipe_is_over_and_a_slip_from_two_and_a_half_times(double by, double metres, string told) =>
        Desk.Tells("quantity-over", told, List($"{{go: north, by: {by}, to: flange}}", $"what: pipe, size: 6, schedule: 40, quantity: {metres} m"));

    [Theory]
    [InlineData(1, "")]
    [InlineData(2, "note")]
    [InlineData(8, "note")]
    [InlineData(9, "warn")]
    public void Pieces_are_a_slip_from_eight_more(int elbows, string told) =>
        Desk.Tells("quantity-over", told, List("{go: north, by: 1500, to: elbow}\n{go: up, by: 1500, to: flange}", $"what: elbow 90 LR, size: 6, schedule: 40, quantity: {elbows}"));

    [Theory]
    [InlineData(2, 3, "warn")]
    [InlineData(3, 3, "note")]
    [InlineData(2, 2, "note")]
    public void A_quantity_was_forgotten_in_two_rows_of_a_list_that_has_three(int without, int with, string told)
    {
        string[] rows = ["what: pipe, size: 6, schedule: 40", "what: elbow 90 LR, size: 6, schedule: 40", "what: flange WN RF, size: 6, class: 150", "what: gasket spiral wound, size: 6, class: 150", "what: stud bolt, size: 3/4, length: 100", "what: cap, size: 8, schedule: 40"];
        Desk.Tells("quantity-missing", told, List("{go: north, by: 1500, to: elbow}\n{go: up, by: 1500, to: flange}", [.. rows.Take(without + with).Select((r, i) => i < without ? r : r + ", quantity: 2")]));
    }

    // A third of the rows, and two fifths.
    [Theory]
    [InlineData("warn", 1, 3)]
    [InlineData("", 2, 5)]
    public void A_heat_is_missing_where_two_thirds_have_theirs(string told, int without, int all)
    {
        string[] rows = ["what: pipe, size: 6, schedule: 40", "what: elbow 90 LR, size: 6, schedule: 40", "what: flange WN RF, size: 6, class: 150", "what: cap, size: 6, schedule: 40", "what: tee, size: 6, schedule: 40"];
        Desk.Tells("heat-missing", told, List("{go: north, by: 1500, to: elbow}\n{go: up, by: 1500, to: flange}", [.. rows.Take(all).Select((r, i) => i < without ? r : r + ", heat: H" + i)]));
    }

    [Theory]
    [InlineData("what: cap, size: 6, schedule: 40", "warn")]
    [InlineData("what: flange blind, size: 8, class: 150", "warn")]
    [InlineData("what: shoe, size: 6", "note")]
    public void A_row_that_nothing_uses_is_a_warning_where_it_could_be_drawn(string row, string told) =>
        Desk.Tells("item-not-used", told, List(OnePipe, "what: pipe, size: 6, schedule: 40, quantity: 2 m", row + ", quantity: 1"));

    private static string Bolted(string metal) => Desk.Drawing("{go: north, by: 1500, to: flange}", $"materials:\n  - {{item: 1, what: stud bolt, size: 7/8, length: 150, material: {metal}, quantity: 16}}", "size: 6, schedule: 40, class: 400, gasket: 3.2");

    // ASME B16.5 5.3.4: bolting of low strength is for classes 150 and 300.
    [Fact]
    public void Bolts_are_too_weak_from_class_400() => Desk.Finds("bolts-too-weak", "", Bolted("A307-B"));

    // A frame of three sides, a by b by a: its centre lies a^2 / (2 a + b) off the middle side, elbows alike but little. 1100 and 2400: 263; 1300 and 2400: 338.
    // ASME B36.10M: NPS 6 is 28.3 kg/m, NPS 3 is 11.3 (56 kg of pipe and 6 of elbows), NPS 2 is 5.4 (30 kg).
    [Theory]
    [InlineData("6", 1100, "")]
    [InlineData("6", 1300, "note")]
    [InlineData("3", 1300, "note")]
    [InlineData("2", 1300, "")]
    public void A_spool_hangs_askew_over_50_kg_with_its_centre_300_off(string size, int side, string told) => Desk.Tells("spool-centre-off-pipe", told,
        Desk.Drawing($"{{go: north, by: {side}, to: elbow}}\n{{go: east, by: 2400, to: elbow}}\n{{go: south, by: {side}, to: open}}", line: $"size: {size}, schedule: 40, class: 150", start: "to: open"));

    // The box goes from half the outside, 84, below the first pipe to the end of the last.
    [Theory]
    [InlineData(905, "")]
    [InlineData(925, "note")]
    public void A_spool_stands_out_in_three_directions_over_1000(int up, string told) =>
        Desk.Tells("spool-three-dimensional", told, Desk.Drawing($"{{go: north, by: 1500, to: elbow}}\n{{go: east, by: 1500, to: elbow}}\n{{go: up, by: {up}, to: open}}", start: "to: open"));

    [Theory]
    [InlineData("{piece: 1-A, at: 1500}, {piece: 1-A, at: 1790}", "warn")]
    [InlineData("{piece: 1-A, at: 1500}, {piece: 1-A, at: 1810}", "")]
    [InlineData("{piece: 1-A, at: 500}, {piece: 1-A, at: 1000}, {piece: 1-A, at: 2500}, {piece: 1-A, at: 3000}", "")]
    [InlineData("{piece: 1-A, at: 500}, {piece: 1-A, at: 1000}, {piece: 1-A, at: 1700}, {piece: 1-A, at: 2500}, {piece: 1-A, at: 3000}", "warn")]
    [InlineData("{piece: 1-A, at: 500, sling: 1300}, {piece: 1-A, at: 3000, sling: 1300}", "")]
    [InlineData("{piece: 1-A, at: 500, sling: 1200}, {piece: 1-A, at: 3000, sling: 1200}", "warn")]
    public void Lifting_points_stand_300_apart_four_at_most_on_slings_that_meet(string lift, string told) => Desk.Tells("lift-slings", told, Desk.Drawing("{go: north, by: 4000, to: flange}", $"lift: [{lift}]"));

    // NPS 6 is 168.3 outside: one of them from each end, weld and branch.
    [Theory]
    [InlineData(170, "")]
    [InlineData(166, "warn")]
    [InlineData(3830, "stop")]
    public void A_sling_stands_one_outside_off_a_pieces_end(int at, string told) => Desk.Tells("lift-place", told, Desk.Drawing("{go: north, by: 4000, to: flange}", $"lift: [{{piece: 1-A, at: {at}}}, {{piece: 1-A, at: 2000}}]"));

    private static string Supported(string first, string second, double by = 1500) => Desk.Drawing($"{{go: north, by: 1500, to: support, {first}}}\n{{go: north, by: {by}, to: support, {second}}}\n{{go: north, by: 1500, to: flange}}");

    // Half of 168.3 is 84; a shoe of 300 covers 150 to each side.
    [Theory]
    [InlineData("", 80, "warn")]
    [InlineData("", 88, "")]
    [InlineData(", length: 300", 145, "warn")]
    [InlineData(", length: 300", 155, "")]
    public void Two_supports_are_one_within_half_an_outside_or_half_a_shoe(string length, double by, string told) => Desk.Tells("support-twice", told, Supported("kind: shoe" + length, "kind: shoe" + length, by));

    // 0.75 and 0.66 of the direction up.
    [Theory]
    [InlineData("kind: shoe, side: {up: 75, east: 66}", "warn")]
    [InlineData("kind: shoe, side: {up: 66, east: 75}", "")]
    [InlineData("kind: hanger, side: {down: 75, east: 66}", "warn")]
    [InlineData("kind: hanger, side: {down: 66, east: 75}", "")]
    public void A_support_is_on_the_wrong_side_where_it_is_mostly_there(string support, string told) => Desk.Tells("support-on-wrong-side", told, Desk.Drawing($"{{go: north, by: 1500, to: support, {support}}}\n{{go: north, by: 1500, to: flange}}"));

    [Fact]
    public void Two_supports_of_two_heights_say_nothing_of_the_third() => Desk.Tells("support-height-odd", "", Supported("kind: shoe, height: 100", "kind: shoe, height: 150"));

    [Theory]
    [InlineData("kind: shoe, height: 595", "")]
    [InlineData("kind: shoe, height: 19", "warn")]
    [InlineData("kind: shoe, height: 20", "")]
    [InlineData("kind: guide, height: 605", "warn")]
    [InlineData("kind: anchor, height: 605", "warn")]
    [InlineData("kind: trunnion, height: 1010", "")]
    [InlineData("kind: trunnion, height: 3010", "warn")]
    [InlineData("kind: hanger, height: 5990", "")]
    [InlineData("kind: hanger, height: 6010", "warn")]
    public void A_support_is_higher_than_such_a_support_is(string support, string told) => Desk.Tells("support-height-odd", told, Desk.Drawing($"{{go: north, by: 1500, to: support, {support}}}\n{{go: north, by: 1500, to: flange}}"));

    [Theory]
    [InlineData("kind: guide, side: east", "")]
    [InlineData("kind: guide, side: north", "warn")]
    public void A_side_along_the_pipe_is_none(string support, string told) => Desk.Tells("support-side-unknown", told, Desk.Drawing($"{{go: north, by: 1500, to: support, {support}}}\n{{go: north, by: 1500, to: flange}}"));

    // ASME B16.9: the elbow's end stands 229 from its work point, half a root gap beyond it the pipe begins 1.6 later.
    [Theory]
    [InlineData(228, "warn")]
    [InlineData(236, "")]
    public void A_support_stands_on_a_fitting_within_one_millimetre(int by, string told) =>
        Desk.Tells("support-on-fitting", told, Desk.Drawing($"{{go: up, by: 1450, to: elbow}}\n{{go: north, by: {by}, to: support, kind: shoe}}\n{{go: north, by: 2000, to: flange}}"));

    // ASME B36.10M: the hole under an NPS 1 outlet is 33.4 wide, 16.7 to each side; the weld is 1.6 to each side of its middle.
    [Theory]
    [InlineData(18, "", "warn")]
    [InlineData(33, "", "warn")]
    [InlineData(33.8, "", "note")]
    [InlineData(65, "", "note")]
    [InlineData(68, "", "")]
    [InlineData(88, "weld spacing: 75", "warn")]
    [InlineData(93, "weld spacing: 75", "")]
    public void A_branch_is_near_a_weld_under_50_or_what_the_shop_says(double apart, string shop, string told) => Desk.Tells("branch-near-weld", told,
        Desk.Drawing($"{{go: north, by: 1000, to: weld}}\n{{go: north, by: {apart}, to: outlet, name: B, size: 1, branch: up}}\n{{go: north, by: 1000, to: flange}}", $"shop: {{ {shop} }}"));

    // arctan(0.158) = 9.0 degrees, arctan(0.194) = 11.0.
    [Theory]
    [InlineData(158, "note")]
    [InlineData(194, "")]
    public void A_pipe_stands_upright_within_ten_degrees(int north, string told) => Desk.Tells("field-weld-in-upright-pipe", told,
        Desk.Drawing($"{{go: {{up: 1000, north: {north}}}, by: 1500, to: weld, end: field}}\n{{go: {{up: 1000, north: {north}}}, by: 1500, to: flange}}"));

    [Theory]
    [InlineData("final fit extra: 14", "final-fit-extra-unusual", "warn")]
    [InlineData("final fit extra: 16", "final-fit-extra-unusual", "note")]
    [InlineData("final fit extra: 49", "final-fit-extra-unusual", "note")]
    [InlineData("final fit extra: 51", "final-fit-extra-unusual", "")]
    [InlineData("final fit extra: 149", "final-fit-extra-unusual", "")]
    [InlineData("final fit extra: 151", "final-fit-extra-unusual", "note")]
    [InlineData("final fit extra: 290", "final-fit-extra-unusual", "note")]
    [InlineData("final fit extra: 510", "final-fit-extra-unusual", "warn")]
    [InlineData("shrinkage: 1.4", "shrinkage-unusual", "note")]
    [InlineData("shrinkage: 1.6", "shrinkage-unusual", "")]
    [InlineData("shrinkage: 2.9", "shrinkage-unusual", "")]
    [InlineData("shrinkage: 3.1", "shrinkage-unusual", "note")]
    [InlineData("shrinkage: 5.9", "shrinkage-unusual", "note")]
    [InlineData("shrinkage: 6.1", "shrinkage-unusual", "warn")]
    public void What_the_shop_adds_to_a_pipe_is_usual_or_a_slip(string shop, string rule, string told) => Desk.Tells(rule, told, Desk.Drawing("{go: north, by: 3000, to: elbow}\n{go: east, by: 1500, to: flange, end: final-fit}", $"shop: {{ {shop} }}"));

    // Two elbows take 229 each and two root gaps 3.2 each: what is left of the leg is pipe.
    [Theory]
    [InlineData(95, "")]
    [InlineData(105, "note")]
    [InlineData(145, "note")]
    [InlineData(155, "")]
    public void A_final_fit_pipe_is_short_within_50_of_the_shortest(int pipe, string told) => Desk.Tells("final-fit-pipe-short", told,
        Desk.Drawing($"{{go: north, by: 1500, to: elbow}}\n{{go: east, by: {458 + 6.4 + pipe}, to: elbow, end: final-fit}}\n{{go: up, by: 900, to: flange}}", "shop: {shortest pipe: 100, final fit extra: 100}"));

    // Side by side: 168.3 between the middles is no space at all.
    [Theory]
    [InlineData(95, "note")]
    [InlineData(105, "")]
    public void A_field_weld_is_out_of_reach_under_100_clear(int clear, string told) => Desk.Tells("weld-out-of-reach", told, Desk.Drawing("{go: north, by: 5000, to: flange}") + $$"""

              - run: other
                start: {to: flange, at: {east: {{168.3 + clear}}, north: 0, up: 0} }
                legs:
                  - {go: north, by: 2500, to: weld, end: field}
                  - {go: north, by: 2500, to: flange}
            """);

    [Fact]
    public void A_weld_inside_another_pipe_is_a_warning() => Desk.Tells("weld-out-of-reach", "warn", Desk.Drawing("{go: north, by: 5000, to: flange}") + """

              - run: other
                start: {to: flange, at: {east: -1000, north: 2500, up: 0}}
                legs:
                  - {go: east, by: 1000, to: weld}
                  - {go: east, by: 1000, to: flange}
            """);

    // ASME B16.9: an NPS 1 long-radius elbow is 38, NPS 6 is 229 from centre to end; the welds stand a root gap further apart than the pipe is long, 168.3 or 50 is usual.
    [Theory]
    [InlineData("1", 76, 48, "", "note")]
    [InlineData("1", 76, 52, "", "")]
    [InlineData("6", 458, 166, "", "note")]
    [InlineData("6", 458, 170, "", "")]
    [InlineData("6", 458, 198, ", weld spacing: 200", "warn")]
    [InlineData("6", 458, 202, ", weld spacing: 200", "")]
    public void Welds_are_too_close_under_one_outside_50_or_what_the_shop_says(string size, int elbows, int apart, string shop, string told) => Desk.Tells("welds-too-close", told,
        Desk.Drawing($"{{go: north, by: 1500, to: elbow}}\n{{go: east, by: {elbows + 3.2 + apart}, to: elbow}}\n{{go: up, by: 900, to: flange}}", $"shop: {{shortest pipe: 20{shop}}}", $"size: {size}, schedule: 40, class: 150"));

    [Theory]
    [InlineData("{go: north, by: 1450, to: flange}", "")]
    [InlineData("{go: north, by: 1450, to: elbow}\n{go: up, by: 2200, to: flange}", "stop")]
    [InlineData("{go: north, by: 1450, to: elbow}\n{go: up, by: 200, to: flange}", "")]
    public void Two_pieces_that_cannot_be_are_a_wrong_unit(string legs, string told) => Desk.Tells("units-not-of-figures", told, Desk.Drawing(legs, "units: in"));

    // One weld of five has no number; one of four.
    [Theory]
    [InlineData(5, "note")]
    [InlineData(4, "")]
    public void A_weld_number_is_left_out_where_four_of_five_have_theirs(int welds, string told) => Desk.Tells("weld-number-twice", told,
        Desk.Drawing("{go: north, by: 1000, to: weld, begin number: 1}\n" + string.Concat(Enumerable.Range(2, welds - 2).Select(i => $"{{go: north, by: 1000, to: {(i == welds - 1 ? "flange" : "weld")}, begin number: {i}}}\n"))));

    private static string Served(string service, string more = "") => Desk.Drawing("{go: north, by: 1000, to: flange}", $"service: {{ {service} }}\n{more}", "size: 6, schedule: 40, class: 150, material: A106-B");

    private const string Design = "code: B31.3, examination: 10 %, design temperature: 50 C, ";

    // ASME B16.5 table 2-1.1, class 150: 19.6 bar cold, 19.2 at 50 C. One and a half times 19.6 is 29.4, rounded up 30. ASME B31.3 345.4.2: 15 bar for 10.
    [Theory]
    [InlineData("design pressure: 19.2 bar", "design-pressure-over-class", "")]
    [InlineData("design pressure: 19.4 bar", "design-pressure-over-class", "warn")]
    [InlineData("design pressure: 10 bar, test pressure: 30 bar", "test-pressure-over-flange", "")]
    [InlineData("design pressure: 10 bar, test pressure: 30.2 bar", "test-pressure-over-flange", "warn")]
    [InlineData("design pressure: 10 bar, test pressure: 14.96 bar", "test-pressure-low", "")]
    [InlineData("design pressure: 10 bar, test pressure: 14.92 bar", "test-pressure-low", "note")]
    [InlineData("design pressure: 10 bar, test pressure: 9.96 bar", "test-pressure-under-design", "")]
    [InlineData("design pressure: 10 bar, test pressure: 9.92 bar", "test-pressure-under-design", "warn")]
    public void Pressures_are_held_against_their_limits(string service, string rule, string told) => Desk.Tells(rule, told, Served(Design + service, "test: {medium: water}"));

    // 32 F is 0 C and 273.15 K: -20.2 F is -29 C, 140 F is 60 C.
    [Theory]
    [InlineData("design temperature: -29 C", "cold-service-material", "")]
    [InlineData("design temperature: -30 C", "cold-service-material", "warn")]
    [InlineData("design temperature: -20 F", "cold-service-material", "")]
    [InlineData("design temperature: -22 F", "cold-service-material", "warn")]
    [InlineData("design temperature: 245 K", "cold-service-material", "")]
    [InlineData("design temperature: 243 K", "cold-service-material", "warn")]
    [InlineData("paint: system 1, design temperature: 59 C", "insulation-incomplete", "")]
    [InlineData("paint: system 1, design temperature: 61 C", "insulation-incomplete", "note")]
    [InlineData("paint: system 1, design temperature: 101 C", "insulation-incomplete", "warn")]
    [InlineData("paint: system 1, design temperature: 142 F", "insulation-incomplete", "note")]
    [InlineData("insulation: mineral wool", "insulation-incomplete", "warn")]
    [InlineData("insulation: mineral wool 50", "insulation-incomplete", "")]
    [InlineData("insulation: none", "insulation-incomplete", "")]
    [InlineData("insulation: mineral wool, insulation thickness: 14", "insulation-incomplete", "warn")]
    [InlineData("insulation: mineral wool, insulation thickness: 15", "insulation-incomplete", "")]
    [InlineData("insulation: mineral wool, insulation thickness: 300", "insulation-incomplete", "")]
    [InlineData("insulation: mineral wool, insulation thickness: 310", "insulation-incomplete", "warn")]
    [InlineData("code: B31.3, examination: 4 %", "examination-share-odd", "warn")]
    [InlineData("code: B31.3, examination: 0 %", "examination-share-odd", "")]
    [InlineData("code: B31.1, examination: 4 %", "examination-share-odd", "note")]
    [InlineData("code: B31.3", "examination-share-odd", "note")]
    [InlineData("examination: 15 %", "examination-share-odd", "")]
    [InlineData("examination: 12 %", "examination-share-odd", "note")]
    [InlineData("examination: 110 %", "examination-share-odd", "warn")]
    [InlineData("fluid: water", "service-incomplete", "note")]
    [InlineData("fluid: \"\"", "service-incomplete", "warn")]
    public void What_the_service_says_is_held_against_its_limits(string service, string rule, string told) => Desk.Tells(rule, told, Served(service));

    // The line lies level at 0, NPS 6: 84 to each side of its middle.
    [Theory]
    [InlineData("stress ratio: 0.95", "warn")]
    [InlineData("stress ratio: 1.05", "")]
    [InlineData("stress ratio: 6.4", "")]
    [InlineData("stress ratio: 6.6", "warn")]
    [InlineData("gauge: {up: 5050}", "")]
    [InlineData("gauge: {up: 5100}", "warn")]
    [InlineData("gauge: {down: 5100}", "warn")]
    [InlineData("at: {up: 84}", "")]
    [InlineData("at: {up: 90}", "warn")]
    public void A_figure_of_the_test_is_odd(string test, string told) => Desk.Tells("test-figure-odd", told, Served(Design + "design pressure: 10 bar", $"test: {{medium: water, pressure: 15 bar, {test}}}"));

    // Half of what fits on the truck: 1200 of 2400. Both arms of a Z swing about its riser.
    [Theory]
    [InlineData(1100, "")]
    [InlineData(1300, "note")]
    public void A_weld_cannot_be_rolled_where_both_sides_swing_over_half_the_height(int arm, string told) => Desk.Tells("shop-weld-not-rollable", told,
        Desk.Drawing($"{{go: north, by: {arm}, to: elbow}}\n{{go: up, by: 3000, to: elbow}}\n{{go: north, by: {arm}, to: open}}", "shop: {envelope: {length: 12000, width: 2400, height: 2400, mass: 3000}}", start: "to: open"));

    // Closed form as for the rule itself: 2.326 x 20 x root 2 = 65.8, rounded up to tens.
    [Fact]
    public void The_extra_that_99_lines_need_is_asked_for_in_tens() => Assert.Contains("`final fit extra` to 70", Desk.Finds("final-fit-extra-short", "", Desk.Drawing("{go: east, by: 1500, to: elbow, end: final-fit}\n{go: north, by: 2800, to: flange}",
        "forecast: {other: {position: {normal: 20}, angle: 0}, spool: {position: 0, angle: 0}, bolted: {shift: 0, angle: 0, roll: 0}, shrinkage: 0}\nshop: {final fit extra: 60}")).Remedy, StringComparison.Ordinal);

    // 1315.6 of pipe (see above): two rows alike that hold 0.7 m each are enough together, where nobody says which of them it is.
    [Theory]
    [InlineData("", "")]
    [InlineData(", pipe item: 1", "stop")]
    public void Rows_that_are_alike_count_together_where_none_is_named(string named, string told) => Desk.Tells("pipe-listed-short", told,
        List($"{{go: north, by: 1500, to: flange{named}}}", "what: pipe, size: 6, schedule: 40, quantity: 0.7 m", "what: pipe, size: 6, schedule: 40, quantity: 0.7 m"));

    // 5706, 3097 and 3096 of pipe (ASME B16.5: 89 through the hub, root gaps of 3.2) are 11.9 m, two bars of 6; no two of them come out of one.
    [Fact]
    public void A_piece_nearly_as_long_as_its_bar_takes_one_for_itself() => Desk.Tells("pipe-not-from-stock", "note", Desk.Drawing("""
        {go: up, by: 5800, to: weld, end: field}
        {go: up, by: 3100, to: weld, end: field}
        {go: up, by: 3190, to: flange}
        """, "shop: {stock: [6000]}\nmaterials: [{item: 1, what: pipe, size: 6, schedule: 40, quantity: 12 m}]"));

    [Theory]
    [InlineData("A193-B7", "A193-B8M", "A193-B8M", "warn")]
    [InlineData("A193-B7", "A193-B8M", "", "note")]
    public void One_grade_of_studs_is_odd_among_three(string a, string b, string c, string told) => Desk.Tells("stud-grades-mixed", told, Desk.Drawing("""
        {go: up, by: 1450, to: reducer, size: 8}
        {go: up, by: 1450, to: reducer, size: 4}
        {go: up, by: 1450, to: flange}
        """, "materials:" + string.Concat(new[] { ("7/8", 120, a), ("5/8", 90, b), ("3/4", 110, c) }.Where(r => r.Item3.Length > 0).Select((r, i) => $"\n  - {{item: {i + 1}, what: stud bolt, size: {r.Item1}, length: {r.Item2}, material: {r.Item3}, quantity: 8}}")),
        "size: 12, schedule: STD, class: 150") + """

              - run: side
                start: {to: flange, at: {east: 9000, north: 0, up: 0}}
                size: 8
                legs:
                  - {go: up, by: 900, to: flange}
            """);

    // ASME B16.9: an NPS 1 long-radius elbow is 38 from centre to end. Two made up to each other bring their pipes 79 apart, 46 clear: by the nature of the thing.
    [Fact]
    public void Pipes_beside_each_other_about_a_return_are_near_by_their_nature() => Desk.Tells("weld-out-of-reach", "", Desk.Drawing("""
        {go: north, by: 500, begin: field, to: elbow}
        {go: east, by: makeup, to: elbow}
        {go: south, by: 500, to: open}
        """, line: "size: 1, schedule: 40, class: 150"));
}
