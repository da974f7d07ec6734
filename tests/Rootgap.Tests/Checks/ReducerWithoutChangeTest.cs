namespace Rootgap.Tests.Checks;

public class ReducerWithoutChangeTest
{
    private const string Rule = "reducer-without-change";

    [Fact]
    public void A_reducer_to_the_same_size_is_found() => Desk.Finds(Rule, "runs[0].legs[0]", Desk.Drawing("""
        {go: north, by: 1500, to: reducer, size: 6}
        {go: north, by: 1500, to: flange}
        """), "NPS 6");

    [Fact]
    public void A_reducer_to_the_next_size_is_silent() => Desk.IsSilent(Rule, Desk.Drawing("""
        {go: north, by: 1500, to: reducer, size: 5}
        {go: north, by: 1500, to: flange}
        """));
}
