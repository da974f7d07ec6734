namespace Rootgap.Tests.Checks;

public class RevisionMissingTest
{
    private const string Rule = "revision-missing";

    [Fact]
    public void A_drawing_without_a_revision_is_found() => Desk.Finds(Rule, "", """
        drawing: TEST-1
        line: {size: 6, schedule: 40, class: 150}
        runs:
          - run: main
            start: {to: flange}
            legs:
              - {go: up, by: 1450, to: flange}
        """, "TEST-1");

    [Fact]
    public void A_drawing_with_a_revision_is_silent() => Desk.IsSilent(Rule, Desk.Drawing("""
        {go: up, by: 1450, to: elbow}
        {go: north, by: 3200, to: flange}
        """));
}
