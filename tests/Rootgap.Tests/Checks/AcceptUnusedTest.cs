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
        const string Materials = "materials: [{item: 1, what: pipe, size: 6, schedule: 40, quantity: 12 m}, {item: 2, what: flange WN RF, size: 6, class: 150, quantity: 1}, {item: 3, what: gasket, size: 6, class: 150, quantity: 2}, {item: 4, what: stud bolt, size: 3/4, length: 100, quantity: 16}]\n";
        Desk.Finds("quantity-short", "materials[1]", Desk.Drawing(Legs, Materials));
        Assert.False(Desk.Packet(Desk.Drawing(Legs, Materials)).IsBuildable);
        Assert.True(Desk.Packet(Desk.Drawing(Legs, Materials + "accept: [{rule: quantity-short, why: one is on the shelf}]")).IsBuildable);
    }
}

/// <summary>What cannot be made, no reason makes.</summary>
public class AcceptImpossibleTest
{
    private const string Rule = "accept-impossible";

    [Theory]
    [InlineData("leg-too-short-for-fittings", "{go: up, by: 1450, to: elbow}\n{go: north, by: 300, to: elbow}\n{go: up, by: 1000, to: flange}")]
    [InlineData("piece-longer-than-stock", "{go: up, by: 14500, to: flange}")]
    [InlineData("turns-back-on-itself", "{go: up, by: 1450, to: elbow}\n{go: down, by: 1450, to: flange}")]
    [InlineData("wall-too-thick", "{go: up, by: 1450, to: reducer, size: 1}\n{go: up, by: 1000, to: flange}", "size: 6, schedule: {wall: 18}, class: 150")]
    public void An_impossible_length_a_piece_longer_than_stock_and_the_like_stay_stops_and_the_acceptance_is_told(string rule, string legs, string line = "size: 6, schedule: 40, class: 150")
    {
        foreach (var at in new[] { "", ", at: \"runs[0]\"" })
        {
            var yaml = Desk.Drawing(legs, $"accept: [{{rule: {rule}{at}, why: the foreman says so}}]", line);
            var packet = Desk.Packet(yaml);
            Assert.False(packet.IsBuildable);
            Assert.Contains(packet.Findings, f => f.Rule == rule && f.AcceptedBecause is null);
            Desk.Finds(Rule, "accept[0]", yaml, rule);
            Desk.IsSilent("accept-unused", yaml);
        }
    }

    [Fact]
    public void What_may_be_accepted_is_not_told() => Desk.IsSilent(Rule, Desk.Drawing("{go: up, by: 1000, to: flange}", "accept: [{rule: no-final-fit, why: it is measured}]"));

    [Theory]
    [InlineData("\"\"")]
    [InlineData("\"  \"")]
    [InlineData("\"...\"")]
    public void An_acceptance_without_a_reason_is_an_error(string why)
    {
        var reading = Rootgap.Drawings.DrawingReader.Read(Desk.Drawing("{go: up, by: 1000, to: flange}", $"accept: [{{rule: no-final-fit, why: {why}}}]"), "test.yaml");
        Assert.Null(reading.Drawing);
        Assert.Contains("no reason", Assert.Single(reading.Errors).Message, StringComparison.Ordinal);
    }
}
