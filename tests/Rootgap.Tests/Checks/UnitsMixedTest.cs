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

    [Fact]
    public void Where_all_legs_are_in_the_other_unit_it_is_told_once()
    {
        var yaml = Desk.Drawing("""
            {go: up, by: "4'-9\"", to: elbow}
            {go: north, by: "10'-6\"", to: elbow}
            {go: east, by: "6'-0\"", to: flange}
            """);
        Desk.Tells(Rule, "warn", yaml);
        Assert.Single(Desk.Packet(yaml).Findings, f => f.Rule == Rule);
    }
}
