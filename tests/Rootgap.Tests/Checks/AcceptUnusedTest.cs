namespace Rootgap.Tests.Checks;

public class AcceptUnusedTest
{
    private const string Rule = "accept-unused";
    private const string Legs = "{go: up, by: 1000, to: flange}";

    [Fact]
    public void An_acceptance_that_matches_nothing_is_noted() => Desk.Finds(Rule, "accept[0]", Desk.Drawing(Legs, "accept: [{rule: pipe-too-short, why: it holds}]"), "pipe-too-short");

    [Fact]
    public void An_acceptance_at_another_place_is_noted() => Desk.Finds(Rule, "accept[0]", Desk.Drawing(Legs, "accept: [{rule: no-final-fit, at: start of main, why: it is measured}]"), "start of main");

    [Fact]
    public void An_accepted_finding_stays_with_its_reason()
    {
        var yaml = Desk.Drawing(Legs, "accept: [{rule: no-final-fit, at: leg 1 of main, why: it is measured}]");
        Desk.IsSilent(Rule, yaml);
        Assert.Equal("it is measured", Desk.Finds("no-final-fit", "runs[0].legs[0]", yaml).AcceptedBecause);
    }

    [Fact]
    public void A_run_accepts_for_all_its_legs() => Desk.IsSilent(Rule, Desk.Drawing(Legs, "accept: [{rule: no-final-fit, at: \"runs[0]\", why: it is measured}]"));

    // runs[1] is no start of runs[10].
    [Fact]
    public void A_place_is_not_another_place_that_begins_alike() => Desk.Finds(Rule, "accept[0]", Desk.Drawing(Legs, "accept: [{rule: no-final-fit, at: \"runs[0].leg\", why: x}]"));

    [Fact]
    public void An_accepted_stop_lets_the_drawing_be_built()
    {
        var legs = "{go: up, by: 1450, to: elbow}\n{go: north, by: 300, to: elbow}\n{go: up, by: 1000, to: flange}";
        Assert.False(Desk.Packet(Desk.Drawing(legs)).IsBuildable);
        Assert.True(Desk.Packet(Desk.Drawing(legs, "accept: [{rule: leg-too-short-for-fittings, why: elbows are cut}]")).IsBuildable);
    }
}
