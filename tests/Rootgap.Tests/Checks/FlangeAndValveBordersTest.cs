namespace Rootgap.Tests.Checks;

/// <summary>Where the rules of flanges, gaskets, studs and valves begin: just inside silent, just outside told.</summary>
public class FlangeAndValveBordersTest
{
    private static string Gasket(string thickness) => Desk.Drawing("{go: north, by: 1450, to: flange}",
        $"materials:\n  - {{item: 1, what: pipe, size: 6, schedule: 40, quantity: 2 m}}\n  - {{item: 2, what: gasket spiral wound, size: 6, class: 150, thickness: {thickness}, quantity: 2}}");

    [Theory]
    [InlineData("3.6", "")]
    [InlineData("3.8", "warn")]
    [InlineData("2.8", "")]
    [InlineData("2.6", "warn")]
    public void A_gasket_listed_may_be_half_a_millimetre_off(string thickness, string told) => Desk.Tells("gasket-thickness", told, Gasket(thickness));

    [Theory]
    [InlineData("0.45", "warn")]
    [InlineData("0.55", "")]
    [InlineData("7.4", "")]
    [InlineData("7.6", "warn")]
    public void A_gasket_is_half_to_seven_and_a_half_thick(string thickness, string told) =>
        Desk.Tells("gasket-unusual", told, Desk.Drawing("{go: up, by: 1000, to: flange}", line: $"size: 6, schedule: 40, class: 150, gasket: {thickness}"));

    // ASME B16.5: NPS 6 class 150 raised face takes studs of 100.
    [Theory]
    [InlineData(90, "stop")]
    [InlineData(92, "")]
    [InlineData(115, "")]
    [InlineData(117, "warn")]
    public void Studs_may_be_9_short_and_16_long(int length, string told) => Desk.Tells("stud-length", told, Desk.Drawing("{go: up, by: 1450, to: flange}",
        $"materials:\n  - {{item: 1, what: pipe, size: 6, schedule: 40, quantity: 2 m}}\n  - {{item: 2, what: stud bolt, size: 3/4, length: {length}, quantity: 16}}"));

    private static string Valve(string valve, string line = "size: 6, schedule: 40, class: 150", string end = "flange", string start = "to: flange") =>
        Desk.Drawing($"{{go: north, by: 1500, to: valve, {valve}}}\n{{go: north, by: 1500, to: {end}}}", line: line, start: start);

    // ASME B16.10: a gate valve NPS 6 class 150 is 267 long. 1.35 times: 360.5; 0.65 times: 173.6.
    [Theory]
    [InlineData("kind: gate, face to face: 360", "")]
    [InlineData("kind: gate, face to face: 363", "warn")]
    [InlineData("kind: gate, face to face: 175", "")]
    [InlineData("kind: gate, face to face: 172", "warn")]
    public void A_valve_is_within_35_percent_of_its_table(string valve, string told) => Desk.Tells("valve-length-unusual", told, Valve(valve));

    // No table has a threaded ball valve. ASME B36.10M: the pipe is 33.4 outside; twelve inches and 150 are 454.8.
    [Theory]
    [InlineData(33, "warn")]
    [InlineData(34, "")]
    [InlineData(450, "")]
    [InlineData(460, "warn")]
    public void A_valve_of_no_table_is_in_proportion_to_its_size(double length, string told) =>
        Desk.Tells("valve-length-unusual", told, Valve($"kind: ball, ends: threaded, face to face: {length}", "size: 1, schedule: 80, class: 150, ends: threaded", "open, ends: threaded", "to: open, ends: threaded"));

    // A steel round of two outsides, 336.6 across, and 267 long (ASME B16.10) weighs 7.85e-6 pi/4 336.6^2 267 = 186.5 kg; 400 long 279.4 kg. An NPS 1/2 flange is 90 across (ASME B16.5), two outsides are 42.6: 100 long 5.0 kg.
    [Theory]
    [InlineData("6", "mass: 18.3", "warn")]
    [InlineData("6", "mass: 19.0", "")]
    [InlineData("6", "mass: 555", "")]
    [InlineData("6", "mass: 565", "warn")]
    [InlineData("6", "ends: butt, face to face: 400, mass: 27.5", "warn")]
    [InlineData("6", "ends: butt, face to face: 400, mass: 28.4", "")]
    [InlineData("1/2", "face to face: 100, mass: 24.4", "")]
    [InlineData("1/2", "face to face: 100, mass: 25.6", "warn")]
    public void A_mass_is_a_tenth_to_three_times_a_solid_round_and_to_five_where_it_is_small(string size, string valve, string told) => Desk.Tells("mass-unusual", told, Valve("kind: gate, " + valve, $"size: {size}, schedule: 40, class: 150"));

    // The part of the stem's direction along the line: 0.148, 0.09; 0.987, 0.982.
    [Theory]
    [InlineData("{up: 1000, north: 150}", "valve-stem-skew", "")]
    [InlineData("{up: 1000, north: 90}", "", "valve-stem-skew")]
    [InlineData("{up: 160, north: 1000}", "valve-stem-along-line", "valve-stem-skew")]
    [InlineData("{up: 190, north: 1000}", "valve-stem-skew", "valve-stem-along-line")]
    [InlineData("{east: 1000, down: 60}", "valve-stem-down", "")]
    [InlineData("{east: 1000, down: 40}", "", "valve-stem-down")]
    public void A_stem_points_square_to_its_line_and_not_down(string stem, string told, string silent)
    {
        var yaml = Valve($"kind: gate, stem: {stem}");
        if (told.Length > 0)
            Desk.Finds(told, "runs[0].legs[0]", yaml);
        if (silent.Length > 0)
            Desk.IsSilent(silent, yaml);
    }

    // The part of the flow's direction that goes down, sin 30 = 0.5: arctan(0.55) = 28.8 degrees, arctan(0.61) = 31.4.
    [Theory]
    [InlineData(550, "")]
    [InlineData(610, "warn")]
    public void A_check_valve_lets_a_flow_down_to_30_degrees(int down, string told) => Desk.Tells("check-valve-flows-down", told,
        Desk.Drawing($"{{go: {{north: 1000, down: {down}}}, by: 1500, to: valve, kind: check}}\n{{go: {{north: 1000, down: {down}}}, by: 1500, to: flange}}").Replace("- run: main", "- run: main\n    flow: along", StringComparison.Ordinal));
}
