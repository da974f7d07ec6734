namespace Rootgap.Tests.Checks;

public class BranchesTooCloseTest
{
    private const string Rule = "branches-too-close";

    // ASME B36.10M: NPS 2 is 60.3 mm over.
    [Fact]
    public void Two_outlets_that_overlap_are_found() => Desk.Finds(Rule, "runs[0].legs[2]", Desk.Drawing("""
        {go: up, by: 1450, to: elbow}
        {go: north, by: 1000, to: outlet, size: 2, branch: up}
        {go: north, by: 50, to: outlet, size: 2, branch: up}
        {go: north, by: 1500, to: flange}
        """), "50 apart", "60.3", "10.3 short");

    [Fact]
    public void Two_outlets_with_no_room_for_their_welds_are_noted() => Desk.Finds(Rule, "runs[0].legs[2]", Desk.Drawing("""
        {go: up, by: 1450, to: elbow}
        {go: north, by: 1000, to: outlet, size: 2, branch: up}
        {go: north, by: 70, to: outlet, size: 2, branch: up}
        {go: north, by: 1500, to: flange}
        """), "9.7 clear");

    // 60.3 + 25
    [Fact]
    public void Two_outlets_with_room_between_are_silent() => Desk.IsSilent(Rule, Desk.Drawing("""
        {go: up, by: 1450, to: elbow}
        {go: north, by: 1000, to: outlet, size: 2, branch: up}
        {go: north, by: 86, to: outlet, size: 2, branch: up}
        {go: north, by: 1500, to: flange}
        """));

    [Fact]
    public void Two_outlets_on_opposite_sides_are_silent() => Desk.IsSilent(Rule, Desk.Drawing("""
        {go: up, by: 1450, to: elbow}
        {go: north, by: 1000, to: outlet, size: 2, branch: up}
        {go: north, by: 10, to: outlet, size: 2, branch: down}
        {go: north, by: 1500, to: flange}
        """));
}
