namespace Rootgap.Tests.Checks;

public class ValveStemDownTest
{
    private const string Rule = "valve-stem-down";

    [Fact]
    public void A_stem_that_hangs_down_is_found() => Desk.Finds(Rule, "runs[0].legs[0]", Desk.Drawing("""
        {go: north, by: 1450, to: valve, kind: gate, stem: down}
        {go: north, by: 3200, to: flange}
        """), "down");

    [Fact]
    public void A_level_stem_is_silent() => Desk.IsSilent(Rule, Desk.Drawing("""
        {go: north, by: 1450, to: valve, kind: gate, stem: east}
        {go: north, by: 3200, to: flange}
        """));

    [Fact]
    public void A_stem_upright_is_silent() => Desk.IsSilent(Rule, Desk.Drawing("""
        {go: north, by: 1450, to: valve, kind: gate, stem: up}
        {go: north, by: 3200, to: flange}
        """));

    [Fact]
    public void A_check_valve_whose_cover_hangs_down_is_found() => Desk.Finds(Rule, "runs[0].legs[0]", Desk.Drawing("""
        {go: north, by: 1450, to: valve, kind: check, stem: down}
        {go: north, by: 3200, to: flange}
        """), "cover");
}
