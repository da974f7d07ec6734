namespace Rootgap.Tests.Checks.Supports;

public class SupportRulesTest
{
    // NPS 6: 168.3 outside, so a support without a length covers 42 to each side of its middle; the weld's middle stands 30 from it.
    [Theory]
    [InlineData("by: 30, to: weld, end: field", "lies inside", "stop")]
    [InlineData("by: 30, to: weld, end: final-fit", "final-fit weld", "stop")]
    [InlineData("by: 30, to: weld", "a shop weld", "warn")]
    [InlineData("by: 80, to: weld, end: field", "usual is 50", "warn")]
    [InlineData("by: 80, to: weld", "usual is 50", "note")]
    public void A_weld_at_a_support_is_found(string weld, string says, string severity)
    {
        var finding = Desk.Finds("weld-at-support", "runs[0].legs[0]", Desk.Drawing($$"""
            {go: north, by: 1500, to: support, kind: guide}
            {go: north, {{weld}}}
            {go: north, by: 1500, to: flange}
            """), says);
        Assert.Equal(severity, finding.Severity.ToString().ToLowerInvariant());
    }

    [Fact]
    public void A_weld_well_clear_of_a_support_is_silent() => Desk.IsSilent("weld-at-support", Desk.Drawing("""
        {go: north, by: 1500, to: support, kind: shoe}
        {go: north, by: 95, to: weld, end: field}
        {go: north, by: 1500, to: flange}
        """));

    [Fact]
    public void A_long_shoe_covers_what_it_says() => Desk.Finds("weld-at-support", "runs[0].legs[0]", Desk.Drawing("""
        {go: north, by: 1500, to: support, kind: shoe, length: 300}
        {go: north, by: 140, to: weld, end: field}
        {go: north, by: 1500, to: flange}
        """), "lies inside");

    private static string Metals(string material, string kind, string support) => Desk.Drawing($$"""
        {go: north, by: 1500, to: support, kind: {{kind}}}
        {go: north, by: 1500, to: flange}
        """, $"materials:\n  - {{item: 1, what: pipe, size: 6, schedule: 40, material: {material}, quantity: 6 m}}\n  - {{item: 2, what: {kind}, size: 6, material: {support}, quantity: 1}}");

    [Theory]
    [InlineData("shoe", "pad")]
    [InlineData("clamp", "liner")]
    public void Stainless_against_carbon_is_found(string kind, string remedy) =>
        Assert.Contains(remedy, Desk.Finds("support-metal", "runs[0].legs[0]", Metals("A312-TP316L", kind, "A36"), "P-No. 8", "P-No. 1").Remedy, StringComparison.Ordinal);

    [Fact]
    public void Carbon_on_carbon_is_silent() => Desk.IsSilent("support-metal", Metals("A106-B", "shoe", "A36"));

    [Fact]
    public void Two_of_a_kind_at_one_place_are_found() => Desk.Finds("support-twice", "runs[0].legs[1]", Desk.Drawing("""
        {go: north, by: 1500, to: support, kind: shoe}
        {go: north, by: 60, to: support, kind: shoe}
        {go: north, by: 1500, to: flange}
        """), "60 from one another");

    [Fact]
    public void One_tag_twice_is_found() => Desk.Finds("support-twice", "runs[0].legs[1]", Desk.Drawing("""
        {go: north, by: 1500, to: support, kind: shoe, tag: PS-1}
        {go: north, by: 900, to: support, kind: guide, tag: ps-1}
        {go: north, by: 1500, to: flange}
        """), "main, leg 1");

    [Fact]
    public void A_guided_shoe_is_silent() => Desk.IsSilent("support-twice", Desk.Drawing("""
        {go: north, by: 1500, to: support, kind: shoe}
        {go: north, by: 1, to: support, kind: guide}
        {go: north, by: 1500, to: flange}
        """));

    [Theory]
    [InlineData("shoe", true)]
    [InlineData("hanger", true)]
    [InlineData("guide", false)]
    [InlineData("clamp", false)]
    public void What_carries_nothing_on_an_upright_pipe_is_found(string kind, bool isWarning)
    {
        var finding = Desk.Finds("support-carries-nothing", "runs[0].legs[0]", Desk.Drawing($$"""
            {go: up, by: 1500, to: support, kind: {{kind}}, side: east}
            {go: up, by: 1500, to: flange}
            """), "goes up");
        Assert.Equal(isWarning, finding.Severity == Rootgap.Findings.Severity.Warn);
    }

    [Theory]
    [InlineData("up", "lug")]
    [InlineData("up", "trunnion")]
    [InlineData("north", "shoe")]
    public void What_carries_is_silent(string go, string kind) => Desk.IsSilent("support-carries-nothing", Desk.Drawing($$"""
        {go: {{go}}, by: 1500, to: support, kind: {{kind}}, side: east}
        {go: {{go}}, by: 1500, to: flange}
        """));

    [Fact]
    public void A_place_on_a_fitting_is_found() => Desk.Finds("support-on-fitting", "runs[0].legs[1]", Desk.Drawing("""
        {go: up, by: 1500, to: elbow}
        {go: north, by: 100, to: support, kind: shoe}
        {go: north, by: 1500, to: flange}
        """), "beyond the end of its pipe");

    [Fact]
    public void A_place_on_pipe_is_silent() => Desk.IsSilent("support-on-fitting", Desk.Drawing("""
        {go: up, by: 1500, to: elbow}
        {go: north, by: 400, to: support, kind: shoe}
        {go: north, by: 1500, to: flange}
        """));

    [Fact]
    public void A_side_that_nobody_says_is_found() => Desk.Finds("support-side-unknown", "runs[0].legs[0]", Desk.Drawing("""
        {go: up, by: 1500, to: support, kind: trunnion}
        {go: up, by: 1500, to: flange}
        """), "PS1", "trunnion");

    [Fact]
    public void Lugs_all_round_need_no_side() => Desk.IsSilent("support-side-unknown", Desk.Drawing("""
        {go: up, by: 1500, to: support, kind: lug}
        {go: up, by: 1500, to: flange}
        """));

    // ASME B31.1 Table 121.5: NPS 6 with water 5.2 m (17 ft).
    [Fact]
    public void Supports_shorten_the_span_and_points_do_not()
    {
        const string Long = "long-leg-unsupported";
        static string Of(string middle) => Desk.Drawing($$"""
            {go: north, by: 4000, {{middle}}}
            {go: north, by: 4000, to: flange}
            """);
        Desk.IsSilent(Long, Of("to: support, kind: shoe"));
        Desk.Finds(Long, "runs[0].legs[0]", Of("to: point"), "8000");
        Desk.Finds(Long, "runs[0].legs[0]", Of("to: point").Replace("by: 4000, to: point", "by: 6000, to: support, kind: shoe", StringComparison.Ordinal), "6000");
    }

    [Fact]
    public void Supports_that_a_list_leaves_to_another_are_a_note()
    {
        static string Of(string more) => Desk.Drawing("""
            {go: north, by: 1500, to: support, kind: shoe}
            {go: north, by: 1500, to: flange}
            """, $"materials:\n  - {{item: 1, what: pipe, size: 6, schedule: 40, quantity: 6 m}}\n  - {{item: 2, what: flange WN RF, size: 6, class: 150, quantity: 2}}{more}");
        Assert.Equal(Rootgap.Findings.Severity.Note, Desk.Finds("item-not-listed", "runs[0].legs[0]", Of(""), "shoe").Severity);
        Assert.Equal(Rootgap.Findings.Severity.Stop, Desk.Finds("item-not-listed", "runs[0].legs[0]", Of("\n  - {item: 3, what: guide, size: 6, quantity: 1}"), "shoe").Severity);
    }
}
