namespace Rootgap.Tests.Checks;

public class MatingFlangeClassTest
{
    private const string Rule = "mating-flange-class";

    [Fact]
    public void Two_flanges_face_to_face_that_differ_are_found() => Desk.Finds(Rule, "runs[1].start", """
        drawing: TEST-1
        revision: 1
        line: {size: 6, schedule: 40, class: 150}
        runs:
          - run: one
            start: {to: flange}
            legs:
              - {go: north, by: 2000, to: flange}
          - run: two
            class: 300
            start: {to: flange, at: {north: 2003.2}}
            legs:
              - {go: north, by: 2000, to: flange}
        """, "300", "150");

    [Fact]
    public void Two_flanges_face_to_face_that_agree_are_silent() => Desk.IsSilent(Rule, """
        drawing: TEST-1
        revision: 1
        line: {size: 6, schedule: 40, class: 150}
        runs:
          - run: one
            start: {to: flange}
            legs:
              - {go: north, by: 2000, to: flange}
          - run: two
            class: 150
            start: {to: flange, at: {north: 2003.2}}
            legs:
              - {go: north, by: 2000, to: flange}
        """);

    [Fact]
    public void Flanges_far_apart_may_differ() => Desk.IsSilent(Rule, """
        drawing: TEST-1
        revision: 1
        line: {size: 6, schedule: 40, class: 150}
        runs:
          - run: one
            start: {to: flange}
            legs:
              - {go: north, by: 2000, to: flange}
          - run: two
            class: 300
            start: {to: flange, at: {north: 9000}}
            legs:
              - {go: north, by: 2000, to: flange}
        """);
}
