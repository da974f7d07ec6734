namespace Rootgap.Tests.Checks;

public class ValveLengthUnknownTest
{
    private const string Rule = "valve-length-unknown";

    [Fact]
    public void A_socket_weld_valve_without_a_length_is_found() => Desk.Finds(Rule, "runs[0].legs[0]", Desk.Drawing("""
        {go: up, by: 1500, to: valve, kind: gate, ends: socket}
        {go: up, by: 1500, to: flange}
        """, line: "size: 2, schedule: 80, class: 150, ends: socket"), "length");

    [Fact]
    public void A_socket_weld_valve_with_its_length_is_silent() => Desk.IsSilent(Rule, Desk.Drawing("""
        {go: up, by: 1500, to: valve, kind: gate, ends: socket, face to face: 140}
        {go: up, by: 1500, to: flange}
        """, line: "size: 2, schedule: 80, class: 150, ends: socket"));
}
