namespace Rootgap.Tests.Checks;

public class SizeChangesWithoutReducerTest
{
    private const string Rule = "size-changes-without-reducer";

    [Fact]
    public void A_leg_of_another_size_with_no_reducer_before_it_is_found() => Desk.Finds(Rule, "runs[0].legs[1]", Desk.Drawing("""
        {go: up, by: 1450, to: elbow}
        {go: north, by: 3200, to: flange, size: 4}
        """), "NPS 6", "NPS 4");

    [Fact]
    public void A_leg_of_another_size_after_a_reducer_is_silent() => Desk.IsSilent(Rule, Desk.Drawing("""
        {go: up, by: 1450, to: reducer, size: 4}
        {go: up, by: 3200, to: flange, size: 4}
        """));
}
