namespace Rootgap.Tests.Checks;

public class LineDataRulesTest
{
    private static string Numbered(string first, string second, string third = "end number: 4") => Desk.Drawing($$"""
        {go: north, by: 1500, to: elbow, begin number: 1, {{first}}}
        {go: up, by: 1500, to: elbow, begin number: 3, {{third}}}
        {go: north, by: 900, to: flange, begin number: 5, {{second}}}
        """);

    [Fact]
    public void A_weld_number_that_stands_twice_is_found() =>
        Desk.Finds("weld-number-twice", "runs[0].legs[2]", Numbered("end number: 2", "end number: 3"), "Weld number 3", "W3", "W6");

    [Fact]
    public void A_weld_without_a_number_among_numbered_ones_is_a_note() =>
        Assert.Equal(Rootgap.Findings.Severity.Note, Desk.Finds("weld-number-twice", "runs[0].legs[2]", Numbered("end number: 2", "spool: A"), "W6").Severity);

    [Fact]
    public void Numbers_that_differ_and_no_numbers_are_silent()
    {
        Desk.IsSilent("weld-number-twice", Numbered("end number: 2", "end number: 6"));
        Desk.IsSilent("weld-number-twice", Desk.Drawing("{go: north, by: 1500, to: flange}"));
    }

    private static string InARow(string last, string to = "flange", string prefix = "W") => Desk.Drawing($$"""
        {go: north, by: 1500, to: elbow, begin number: W-07, end number: W-08}
        {go: up, by: 1500, to: elbow, begin number: W-09, end number: {{prefix}}-10}
        {go: north, by: 900, to: {{to}}, begin number: W-11, end number: W-{{last}}}
        """);

    // Common practice: the office numbers the welds of a sheet one after another.
    [Fact]
    public void A_number_that_the_row_leaps_over_is_a_note() =>
        Assert.Equal(Rootgap.Findings.Severity.Note, Desk.Finds("weld-number-twice", "runs[0].legs[2]", InARow("13"), "W-12", "W-13").Severity);

    [Fact]
    public void A_whole_row_two_left_out_or_another_row_are_silent()
    {
        Desk.IsSilent("weld-number-twice", InARow("12"));
        Desk.IsSilent("weld-number-twice", InARow("14"));
        Desk.IsSilent("weld-number-twice", InARow("13", prefix: "F"));
    }

    [Fact]
    public void A_number_left_out_may_stand_on_the_sheet_that_goes_on() => Desk.IsSilent("weld-number-twice", InARow("13", "weld, continues: TEST-2"));

    [Fact]
    public void A_number_where_no_weld_is_is_found() => Desk.Finds("mark-without-weld", "runs[0].legs[0]", Desk.Drawing("""
        {go: north, by: 1500, to: point, end number: 7}
        {go: north, by: 1500, to: flange}
        """), "weld 7");

    private static string Treated(string treatment, string valve) => Desk.Drawing($$"""
        {go: north, by: 1500, to: valve, kind: gate, {{valve}}}
        {go: north, by: 1500, to: flange}
        """, $"service: {{heat treatment: {treatment}}}");

    [Fact]
    public void A_welded_valve_in_a_spool_that_is_heat_treated_is_found() =>
        Desk.Finds("heat-treatment-soft-parts", "runs[0].legs[0]", Treated("by the procedure", "ends: butt, face to face: 400, mass: 60"), "heat-treated");

    [Fact]
    public void Small_bore_whose_welds_are_treated_one_by_one_is_a_note() => Desk.Tells("heat-treatment-soft-parts", "note", Desk.Drawing("""
        {go: north, by: 1500, to: valve, kind: gate, ends: socket, face to face: 110}
        {go: north, by: 1500, to: open}
        """, "service: {heat treatment: by the procedure}", "size: 1, schedule: 160, class: 600, ends: socket", "to: open"));

    [Theory]
    [InlineData("none", "ends: butt, face to face: 400, mass: 60")]
    [InlineData("by the procedure", "stem: up")]
    public void No_treatment_or_a_flanged_valve_is_silent(string treatment, string valve) => Desk.IsSilent("heat-treatment-soft-parts", Treated(treatment, valve));

    [Theory]
    [InlineData(100, true)]
    [InlineData(60, false)]
    public void A_shoe_lower_than_the_insulation_is_found(int thick, bool isFound)
    {
        var yaml = Desk.Drawing("""
            {go: north, by: 1500, to: support, kind: shoe, height: 75}
            {go: north, by: 1500, to: flange}
            """, $"service: {{insulation: mineral wool, insulation thickness: {thick}}}");
        if (isFound)
            Desk.Finds("support-in-insulation", "runs[0].legs[0]", yaml, "75", "100");
        else
            Desk.IsSilent("support-in-insulation", yaml);
    }
}
