using Rootgap.Findings;

namespace Rootgap.Tests.Checks;

/// <summary>Mistakes that a foreman knows, each with a near miss beside it.</summary>
public class OneMistakeRulesTest
{
    private static string Served(string service, string line = "size: 6, schedule: 40, class: 150, material: A106-B") => Desk.Drawing("{go: up, by: 1000, to: elbow}\n{go: north, by: 1000, to: flange}", $"service: {{{service}}}", line);

    [Theory]
    [InlineData("tracing: electric", "traced")]
    [InlineData("insulation thickness: 50", "50")]
    public void Tracing_without_insulation_and_a_thickness_without_a_kind_are_found(string service, string says) => Desk.Finds("insulation-incomplete", "service", Served(service), says);

    [Theory]
    [InlineData("tracing: electric, insulation: mineral wool, insulation thickness: 50")]
    [InlineData("tracing: none")]
    public void Insulation_that_is_whole_and_no_tracing_are_silent(string service) => Desk.IsSilent("insulation-incomplete", Served(service));

    [Theory]
    [InlineData("units: in", "size: 6, schedule: 40, class: 150, gasket: 1 1/8")]
    [InlineData("units: mm", "size: 6, schedule: 40, class: 150, gasket: 32")]
    [InlineData("units: mm", "size: 6, schedule: 40, class: 150, gasket: 0.32")]
    public void A_gasket_of_no_known_thickness_is_found(string units, string line) => Desk.Finds("gasket-unusual", "", Desk.Drawing("{go: up, by: 1000, to: flange}", units, line), "is usual");

    [Theory]
    [InlineData("size: 6, schedule: 40, class: 150, gasket: 6.4")]
    [InlineData("size: 6, schedule: 40, class: 150, gasket: 0.8")]
    [InlineData("size: 6, schedule: 40, class: 150")]
    public void Usual_gaskets_are_silent(string line) => Desk.IsSilent("gasket-unusual", Desk.Drawing("{go: up, by: 1000, to: flange}", line: line));

    [Fact]
    public void A_blind_flange_on_the_list_is_not_the_weld_neck_that_is_drawn()
    {
        static string Listed(string what) => Desk.Drawing("{go: up, by: 1000, to: flange}", $"materials:\n  - {{item: 1, what: pipe, size: 6, schedule: 40, quantity: 2 m}}\n  - {{item: 2, what: {what}, size: 6, class: 150, bore: 40, quantity: 2}}");
        Desk.Finds("item-is-another-part", "materials[1]", Listed("flange blind"), "flange blind listed, flange WN drawn");
        Desk.IsSilent("item-is-another-part", Listed("flange WN"));
    }

    private static string Ring(string end) => $$"""
        drawing: TEST-1
        revision: 1
        line: {size: 4, schedule: 40, class: 150}
        runs:
          - run: main
            start: {to: flange}
            legs:
              - {go: east, by: 1500, to: tee, name: T1, branch: north}
              - {go: east, by: 3000, to: tee, name: T2, branch: north}
              - {go: east, by: 1500, to: flange, end: final-fit}
          - run: ring
            start: {from: T1}
            legs:
              - {go: north, by: 2000, to: elbow}
              - {go: east, by: 3000, to: elbow, end: field}
              - {go: south, by: 2000, to: tie-in, with: T2, {{end}}}
        """;

    [Theory]
    [InlineData("end: shop")]
    [InlineData("end: field")]
    public void A_ring_in_which_nothing_can_be_trimmed_is_found(string end) => Desk.Finds("ring-without-final-fit", "runs[1].legs[2]", Ring(end), "closes a ring");

    [Theory]
    [InlineData("end: final-fit")]
    [InlineData("begin: final-fit")]
    public void A_ring_with_a_final_fit_is_silent(string end) => Desk.IsSilent("ring-without-final-fit", Ring(end));
}
