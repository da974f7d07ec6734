namespace Rootgap.Tests.Checks;

public class UnitsMixedTest
{
    private const string Rule = "units-mixed";

    // 57.5 in. x 25.4 = 1460.5 mm
    [Fact]
    public void Inches_in_a_drawing_in_millimetres_are_found() => Desk.Finds(Rule, "runs[0].legs[0]", Desk.Drawing("""
        {go: up, by: "57 1/2 in", to: elbow}
        {go: north, by: 3200, to: flange}
        """), "1460.5");

    [Fact]
    public void Metres_in_a_drawing_in_millimetres_are_silent() => Desk.IsSilent(Rule, Desk.Drawing("""
        {go: up, by: "1.45 m", to: elbow}
        {go: north, by: 3200, to: flange}
        """));
}
