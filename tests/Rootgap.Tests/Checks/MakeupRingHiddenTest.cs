namespace Rootgap.Tests.Checks;

public class MakeupRingHiddenTest
{
    private const string Rule = "makeup-ring-hidden";

    // ASME B16.9: NPS 6 long-radius elbow 229 mm; 2 x 229 + 3.2 = 461.2 makes them up.
    [Fact]
    public void Twenty_more_than_two_elbows_made_up_is_found() => Desk.Finds(Rule, "runs[0].legs[1]", Desk.Drawing("""
        {go: up, by: 1450, to: elbow}
        {go: north, by: 481.2, to: elbow}
        {go: up, by: 1000, to: flange}
        """), "461.2", "20 over", "16.8 long");

    // 458 + 6.4 + 60
    [Fact]
    public void A_pipe_of_sixty_is_short_but_no_ring() => Desk.IsSilent(Rule, Desk.Drawing("""
        {go: up, by: 1450, to: elbow}
        {go: north, by: 524.4, to: elbow}
        {go: up, by: 1000, to: flange}
        """));

    [Fact]
    public void Two_elbows_made_up_are_silent() => Desk.IsSilent(Rule, Desk.Drawing("""
        {go: up, by: 1450, to: elbow}
        {go: north, by: 461.2, to: elbow}
        {go: up, by: 1000, to: flange}
        """));
}
