using Rootgap.Findings;

namespace Rootgap.Tests.Checks;

/// <summary>Mistakes that a foreman knows, each with a near miss beside it.</summary>
public class OneMistakeRulesTest
{
    private static string Served(string service, string line = "size: 6, schedule: 40, class: 150, material: A106-B") => Desk.Drawing("{go: up, by: 1000, to: elbow}\n{go: north, by: 1000, to: flange}", $"service: {{{service}}}", line);

    [Theory]
    [InlineData("tracing: electric", "traced")]
    [InlineData("insulation thickness: 50", "50")]
    [InlineData("design temperature: 90 C, paint: system 1", "90 C")]
    public void Tracing_without_insulation_and_a_thickness_without_a_kind_are_found(string service, string says) => Desk.Finds("insulation-incomplete", "service", Served(service), says);

    [Theory]
    [InlineData("tracing: electric, insulation: mineral wool, insulation thickness: 50")]
    [InlineData("tracing: none")]
    [InlineData("design temperature: 45 C, paint: system 1")]
    [InlineData("design temperature: 90 C, paint: system 1, insulation: none")]
    [InlineData("design temperature: 90 C")]
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

    private const string Stainless = "size: 6, schedule: 40S, class: 150, material: A312-TP316L";

    [Theory]
    [InlineData("zinc-rich primer")]
    [InlineData("Galvanised")]
    public void Zinc_on_stainless_pipe_is_found(string paint) => Desk.Finds("stainless-treatment", "service", Served($"paint: {paint}", Stainless), "A312-TP316L");

    [Fact]
    public void Zinc_on_carbon_steel_and_other_paint_on_stainless_are_silent()
    {
        Desk.IsSilent("stainless-treatment", Served("paint: zinc-rich primer"));
        Desk.IsSilent("stainless-treatment", Served("paint: \"no zinc, system 7\"", Stainless));
    }

    private static string Small(string valve) => Desk.Drawing($"{{go: east, by: 500, to: elbow}}\n{{go: north, by: 900, to: valve, kind: ball, {valve}, face to face: 80}}\n{{go: north, by: 900, to: elbow}}\n{{go: up, by: 500, to: open, ends: threaded}}", line: "size: 1, schedule: 80, class: 150, ends: threaded", start: "to: open, ends: threaded");

    [Fact]
    public void A_pipe_between_a_thread_and_a_socket_is_found() => Desk.Finds("thread-and-socket", "runs[0].legs[1]", Small("ends: socket"), "threaded at its start");

    [Fact]
    public void Threads_at_both_ends_and_a_nipple_of_two_ends_are_silent()
    {
        Desk.IsSilent("thread-and-socket", Small("ends: threaded"));
        Desk.IsSilent("thread-and-socket", Desk.Drawing("{go: north, by: 1000, to: drain, size: 3/4, branch schedule: 80, nipple: 75, face to face: 60}\n{go: north, by: 1000, to: flange}"));
    }

    [Theory]
    [InlineData("what: nipple x 75, size: 1", true)]
    [InlineData("what: nipple x 100, size: 1", false)]
    [InlineData("what: nipple, size: 1", false)]
    public void A_nipple_s_length_is_read_out_of_its_words(string row, bool isFound)
    {
        var yaml = Desk.Drawing("{go: east, by: 500, to: elbow}\n{go: north, by: makeup, nipple: 100, to: elbow}\n{go: up, by: 500, to: open, ends: threaded}", $"materials: [{{item: 1, {row}, schedule: 80, quantity: 1}}]", "size: 1, schedule: 80, class: 150, ends: threaded", "to: open, ends: threaded");
        if (isFound)
            Desk.Finds("item-length-mismatch", "materials[0]", yaml, "75 long listed, 100 drawn");
        else
            Desk.IsSilent("item-length-mismatch", yaml);
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
