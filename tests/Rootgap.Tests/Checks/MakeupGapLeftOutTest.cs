namespace Rootgap.Tests.Checks;

public class MakeupGapLeftOutTest
{
    private const string Rule = "makeup-gap-left-out";

    // ASME B16.9: NPS 6 long-radius elbow 229 mm; 2 x 229 = 458.
    [Fact]
    public void A_distance_of_just_two_take_offs_is_found() => Desk.Finds(Rule, "runs[0].legs[1]", Desk.Drawing("""
        {go: up, by: 1500, to: elbow}
        {go: north, by: 458, to: elbow}
        {go: up, by: 800, to: flange}
        """), "458", "3.2");

    // 458 + 3.2
    [Fact]
    public void A_distance_with_room_for_the_gap_is_silent() => Desk.IsSilent(Rule, Desk.Drawing("""
        {go: up, by: 1500, to: elbow}
        {go: north, by: 461.2, to: elbow}
        {go: up, by: 800, to: flange}
        """));
}
