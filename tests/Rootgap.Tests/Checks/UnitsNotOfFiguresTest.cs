using Rootgap.Checks;

namespace Rootgap.Tests.Checks;

public class UnitsNotOfFiguresTest
{
    private const string Rule = "units-not-of-figures";

    /// <summary>A tap-off of usual size (invented), its figures in millimetres.</summary>
    private static string Line(string units, double per, string more = "") => FormattableString.Invariant($$$"""
        drawing: TEST-1
        revision: 1
        units: {{{units}}}
        line: {size: 6, schedule: 40, class: 150}
        {{{more}}}
        runs:
          - run: main
            start: {to: flange, at: {up: 0}}
            legs:
              - {go: up, by: {{{1016 / per}}}, to: elbow}
              - {go: north, by: {{{2032 / per}}}, to: tee, name: T, branch: up}
              - {go: north, by: {{{1524 / per}}}, end: final-fit, to: flange}
          - run: side
            start: {from: T}
            legs:
              - {go: up, by: {{{889 / per}}}, to: flange}
        """);

    [Fact]
    public void Inches_over_figures_in_millimetres_are_told_once_as_the_cause()
    {
        Desk.Finds(Rule, "", Line("in", 1), "millimetres", "4 of 4");
        Assert.DoesNotContain(Desk.Packet(Line("in", 1)).Findings, f => UnitsNotOfFigures.Following.Contains(f.Rule));
    }

    [Fact]
    public void Millimetres_over_figures_in_inches_are_told_once_as_the_cause()
    {
        Desk.Finds(Rule, "", Line("mm", 25.4), "inches", "4 of 4");
        Assert.DoesNotContain(Desk.Packet(Line("mm", 25.4)).Findings, f => UnitsNotOfFigures.Following.Contains(f.Rule));
    }

    // ASME B16.20: spiral-wound gaskets are 3.2, 4.5 and 6.4 mm thick. Pipe of 12000 inches is not sold (common practice).
    [Fact]
    public void A_gasket_s_and_the_stock_s_figures_tell_the_unit()
    {
        var yaml = Line("in", 1, "shop: {stock: 12000}").Replace("class: 150}", "class: 150, gasket: 3.2}", StringComparison.Ordinal);
        Desk.Finds(Rule, "", yaml, "gasket", "stock");
        Desk.IsSilent(Rule, yaml.Replace("units: in", "units: mm", StringComparison.Ordinal));
        Desk.IsSilent(Rule, yaml.Replace("gasket: 3.2", "gasket: 1/8", StringComparison.Ordinal));
    }

    [Fact]
    public void Figures_in_the_drawing_s_unit_are_silent()
    {
        Desk.IsSilent(Rule, Line("mm", 1));
        Desk.IsSilent(Rule, Line("in", 25.4));
    }

    [Fact]
    public void A_single_leg_that_is_too_long_is_told_as_that() =>
        Assert.Contains(Desk.Packet(Line("mm", 1).Replace("2032", "25000", StringComparison.Ordinal)).Findings, f => f.Rule == "piece-longer-than-stock");

    [Fact]
    public void Accepted_with_a_reason_all_else_is_told() =>
        Assert.Contains(Desk.Packet(Line("in", 1, "accept: [{rule: units-not-of-figures, why: a pipeline of long bars}]")).Findings, f => f.Rule == "piece-longer-than-stock");

    [Fact]
    public void Each_rule_that_follows_is_one() =>
        Assert.Empty(UnitsNotOfFigures.Following.Except(DeskCheck.Rules.Select(r => r.Name)));
}
