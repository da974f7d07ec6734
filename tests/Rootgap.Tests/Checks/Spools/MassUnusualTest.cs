namespace Rootgap.Tests.Checks;

public class MassUnusualTest
{
    private const string Rule = "mass-unusual";

    private static string Line(string valve) => Desk.Drawing($$"""
        {go: up, by: 1450, to: valve, {{valve}}}
        {go: up, by: 1450, to: flange}
        """);

    // A flanged NPS 6 class 150 gate valve weighs about 80 kg by makers' lists (from memory); 267 long, flange 280 across.
    [Theory]
    [InlineData("8")]
    [InlineData("8000")]
    public void A_point_that_slipped_is_found(string mass) => Desk.Finds(Rule, "runs[0].legs[0]", Line($"kind: gate, stem: east, mass: {mass}"), "kg");

    [Theory]
    [InlineData("kind: gate, stem: east, mass: 80")]
    [InlineData("kind: butterfly, stem: east, mass: 9")]
    [InlineData("kind: butterfly, stem: east, mass: 40")]
    [InlineData("kind: globe, stem: east, mass: 95")]
    public void Valves_as_makers_list_them_are_silent(string valve) => Desk.IsSilent(Rule, Line(valve));

    // A forged class 800 ball valve NPS 1 weighs some 2 kg (from memory).
    [Fact]
    public void A_small_socket_valve_is_silent() => Desk.IsSilent(Rule, Desk.Drawing("""
        {go: up, by: 450, to: valve, kind: ball, ends: socket, class: 800, face to face: 89, mass: 2}
        {go: up, by: 450, to: open, ends: plain}
        """, line: "size: 1, schedule: 80, class: 150, ends: socket, fitting class: 3000", start: "to: open, ends: plain"));

    // Steel of twice the pipe's outside across (B36.10M: 48.3, 60.3) and as long as the valve: five times that for the smallest, which are all handle, three times from NPS 2 (common practice).
    [Theory]
    [InlineData("1-1/2", 100, 28, "")]
    [InlineData("1-1/2", 100, 30, "warn")]
    [InlineData("2", 100, 26, "")]
    [InlineData("2", 100, 28, "warn")]
    public void From_NPS_2_a_valve_is_mostly_body(string size, int length, int mass, string told) => Desk.Tells(Rule, told, Desk.Drawing(
        $"{{go: up, by: 450, to: valve, kind: ball, ends: socket, class: 800, face to face: {length}, mass: {mass}}}\n{{go: up, by: 450, to: open, ends: plain}}",
        line: $"size: {size}, schedule: 80, class: 150, ends: socket, fitting class: 3000", start: "to: open, ends: plain"));

    private static string WithUnion(string mass) => Desk.Drawing($$"""
        {go: up, by: 450, to: union, face to face: 92, mass: {{mass}}}
        {go: up, by: 450, to: open, ends: plain}
        """, line: "size: 2, schedule: 80, class: 150, ends: socket, fitting class: 3000", start: "to: open, ends: plain");

    // A forged class 3000 union NPS 2 weighs some 3.5 kg (from memory).
    [Fact]
    public void A_union_is_no_heavier_than_the_round_it_is_cut_from()
    {
        Desk.Finds(Rule, "runs[0].legs[0]", WithUnion("16"), "16 kg", "union");
        Desk.Finds(Rule, "runs[0].legs[0]", WithUnion("0.35"), "union");
        Desk.IsSilent(Rule, WithUnion("3.5"));
    }

    // ASME B36.10M: NPS 6 schedule 40 weighs 28.26 kg a metre.
    [Fact]
    public void A_lateral_lighter_than_its_tube_is_held_against_the_tube() => Desk.Finds(Rule, "runs[0].legs[0]", Desk.Drawing("""
        {go: north, by: 1500, to: lateral, name: B, branch: {north: 1, east: 1}, branch size: 6, long end: 460, short end: 140, branch end: 460, mass: 1.2}
        {go: north, by: 1500, to: flange}
        """), "its tube alone");
}
