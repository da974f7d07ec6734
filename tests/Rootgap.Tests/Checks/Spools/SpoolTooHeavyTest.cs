namespace Rootgap.Tests.Checks;

public class SpoolTooHeavyTest
{
    private const string Rule = "spool-over-mass";

    // ASME B36.10M: NPS 6 schedule 40 is 28.26 kg/m, so 7.8 m are 221 kg, and two flanges.
    [Fact]
    public void A_spool_heavier_than_the_envelope_is_found() => Desk.Finds(Rule, "runs[0].legs[0]", Desk.Drawing("""
        {go: north, by: 8000, to: flange}
        """, more: """
        shop: {envelope: {mass: 200}}
        """), "limit is 200 kg");

    [Fact]
    public void A_spool_under_the_limit_is_silent() => Desk.IsSilent(Rule, Desk.Drawing("""
        {go: north, by: 8000, to: flange}
        """, more: """
        shop: {envelope: {mass: 300}}
        """));
}
