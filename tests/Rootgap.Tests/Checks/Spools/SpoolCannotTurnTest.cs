namespace Rootgap.Tests.Checks;

public class SpoolCannotTurnTest
{
    private const string Rule = "spool-cannot-turn";

    [Fact]
    public void A_spool_bolted_at_both_ends_is_found() => Desk.Finds(Rule, "runs[0].legs[1]", Desk.Drawing("""
        {go: up, by: 1500, to: elbow, end: shop}
        {go: north, by: 1500, to: flange}
        """), "cannot be turned");

    [Fact]
    public void A_field_weld_lets_it_turn() => Desk.IsSilent(Rule, Desk.Drawing("""
        {go: up, by: 1500, to: elbow, end: field}
        {go: north, by: 1500, to: flange}
        """));

    [Fact]
    public void Lap_joint_flanges_let_it_turn() => Desk.IsSilent(Rule, Desk.Drawing("""
        {go: up, by: 1500, to: elbow, end: shop}
        {go: north, by: 1500, to: flange}
        """, line: "size: 6, schedule: 40, class: 150, flange: LJ"));
}
