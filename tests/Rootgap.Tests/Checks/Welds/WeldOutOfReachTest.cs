namespace Rootgap.Tests.Checks;

public class WeldOutOfReachTest
{
    private const string Rule = "weld-out-of-reach";

    [Fact]
    public void A_weld_inside_another_runs_pipe_is_found() => Desk.Finds(Rule, "runs[1].legs[0]", Desk.Drawing("{go: north, by: 5000, to: flange}", more: "") + """

              - run: other
                start: {to: flange, at: {east: -1000, north: 2500, up: 0}}
                legs:
                  - {go: east, by: 1000, to: weld}
                  - {go: east, by: 1000, to: flange}
            """, "lies inside");

    [Fact]
    public void A_field_weld_with_50_clear_to_a_neighbour_is_noted() => Desk.Finds(Rule, "runs[1].legs[0]", Desk.Drawing("{go: north, by: 5000, to: flange}", more: "") + """

              - run: other
                start: {to: flange, at: {east: 218.3, north: 0, up: 0}}
                legs:
                  - {go: north, by: 2500, to: weld, end: field}
                  - {go: north, by: 2500, to: flange}
            """, "has 50 clear");

    [Fact]
    public void A_field_weld_with_150_clear_is_silent() => Desk.IsSilent(Rule, Desk.Drawing("{go: north, by: 5000, to: flange}", more: "") + """

              - run: other
                start: {to: flange, at: {east: 318.3, north: 0, up: 0}}
                legs:
                  - {go: north, by: 2500, to: weld, end: field}
                  - {go: north, by: 2500, to: flange}
            """);

    [Fact]
    public void A_shop_weld_with_50_clear_is_silent() => Desk.IsSilent(Rule, Desk.Drawing("{go: north, by: 5000, to: flange}", more: "") + """

              - run: other
                start: {to: flange, at: {east: 218.3, north: 0, up: 0}}
                legs:
                  - {go: north, by: 2500, to: weld}
                  - {go: north, by: 2500, to: flange}
            """);
}
