namespace Rootgap.Tests.Checks;

public class ThreadedInHazardousServiceTest
{
    private const string Rule = "threaded-in-hazardous-service";

    [Fact]
    public void Threads_in_a_natural_gas_line_are_noted() => Desk.Finds(Rule, "runs[0].legs[0]", Desk.Drawing("""
        {go: north, by: 1000, to: elbow}
        {go: up, by: 1000, to: flange}
        """, more: """
        service: {fluid: natural gas}
        """, line: "size: 1, schedule: 80, class: 150, ends: threaded, flange: TH"), "4 threaded joints");

    [Fact]
    public void Threads_in_a_water_line_are_silent() => Desk.IsSilent(Rule, Desk.Drawing("""
        {go: north, by: 1000, to: elbow}
        {go: up, by: 1000, to: flange}
        """, more: """
        service: {fluid: water}
        """, line: "size: 1, schedule: 80, class: 150, ends: threaded, flange: TH"));

    [Fact]
    public void Welds_in_a_natural_gas_line_are_silent() => Desk.IsSilent(Rule, Desk.Drawing("""
        {go: north, by: 1000, to: elbow}
        {go: up, by: 1000, to: flange}
        """, more: """
        service: {fluid: natural gas}
        """));
}
