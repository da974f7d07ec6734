namespace Rootgap.Tests.Checks;

public class SpoolNamesMixedTest
{
    private const string Rule = "spool-names-mixed";

    [Fact]
    public void Two_names_with_only_a_shop_weld_between_are_found() => Desk.Finds(Rule, "runs[0].legs[1]", Desk.Drawing("""
        {go: north, by: 2000, to: elbow, spool: A}
        {go: east, by: 2000, to: flange, spool: B}
        """), "only shop welds");

    [Fact]
    public void Two_names_with_a_field_weld_between_are_silent() => Desk.IsSilent(Rule, Desk.Drawing("""
        {go: north, by: 2000, to: elbow, spool: A}
        {go: east, by: 2000, to: flange, spool: B, begin: field}
        """));

    [Fact]
    public void Two_names_with_a_flanged_joint_between_are_silent() => Desk.IsSilent(Rule, Desk.Drawing("""
        {go: north, by: 2000, to: joint, spool: A}
        {go: north, by: 2000, to: flange, spool: B}
        """));
}
