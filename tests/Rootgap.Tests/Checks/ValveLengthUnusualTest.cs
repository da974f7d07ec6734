namespace Rootgap.Tests.Checks;

public class ValveLengthUnusualTest
{
    private const string Rule = "valve-length-unusual";

    private static string Drawing(string valve) => Desk.Drawing($$"""
        {go: east, by: 2500, to: valve, kind: gate, {{valve}}}
        {go: east, by: 1900, to: flange}
        """);

    // ASME B16.10: a gate valve NPS 6 class 150 is 267 mm long.
    [Fact]
    public void A_slipped_digit_is_found() => Desk.Finds(Rule, "runs[0].legs[0]", Drawing("face to face: 26.7"), "26.7 long", "267");

    [Fact]
    public void A_socket_valve_that_no_table_has_is_held_against_its_size() => Desk.Finds(Rule, "runs[0].legs[0]", Drawing("ends: socket, face to face: 5000"), "out of all proportion");

    [Fact]
    public void A_makers_longer_valve_is_silent() => Desk.IsSilent(Rule, Drawing("face to face: 330"));
}
