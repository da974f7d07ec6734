namespace Rootgap.Tests.Checks;

/// <summary>What the words of a row say of a way, against the way that is drawn.</summary>
public class WordsAgainstWaysTest
{
    // Common practice: water leaves at the bottom, air at the top.
    [Theory]
    [InlineData("up", "low point drain", "warn")]
    [InlineData("down", "high point vent", "warn")]
    [InlineData("up", "drip pocket", "warn")]
    [InlineData("down", "low point drain", "")]
    [InlineData("up", "high point vent", "")]
    [InlineData("up", "pressure gauge", "")]
    public void A_note_of_a_branch_says_which_way_it_points(string branch, string note, string told) => Desk.Tells("drain-or-vent-wrong-way", told, Desk.Drawing($$"""
        {go: north, by: 1500, to: outlet, name: G, size: 1, branch: {{branch}}, ends: threaded, note: {{note}}}
        {go: north, by: 1500, to: flange}
        """));

    private static string Falling(string high, string low) => Desk.Drawing($$"""
        {go: north, by: 1500, to: {{high}}, size: 1, ends: threaded, valve: none, closed by: plug}
        {go: down, by: 1500, to: elbow}
        {go: north, by: 1500, to: {{low}}, size: 1, ends: threaded, valve: none, closed by: plug}
        {go: north, by: 1500, to: flange}
        """.Replace("{go: down", "{go: north, by: 800, to: elbow}\n{go: down", StringComparison.Ordinal));

    [Fact]
    public void A_drain_above_the_vent_of_a_line_that_only_falls_is_told()
    {
        Desk.Tells("drain-or-vent-wrong-way", "warn", Falling("drain", "vent"));
        Desk.IsSilent("drain-or-vent-wrong-way", Falling("vent", "drain"));
    }

    private static string Suction(string flat, string what) => Desk.Drawing($$"""
        {go: north, by: 1500, to: reducer, size: 4, kind: eccentric, flat: {{flat}}, item: 1}
        {go: north, by: 1500, to: flange}
        """, $"materials: [{{item: 1, what: {what}, size: 6 x 4, quantity: 1}}]");

    [Theory]
    [InlineData("bottom", "reducer eccentric flat top", "warn")]
    [InlineData("top", "reducer eccentric flat bottom", "warn")]
    [InlineData("top", "reducer eccentric flat top", "")]
    [InlineData("top", "reducer eccentric", "")]
    public void The_flat_side_that_the_list_names_is_the_drawn_one(string flat, string what, string told) => Desk.Tells("eccentric-flat-against-list", told, Suction(flat, what));

    private static string Service(string service, string title = "Line") => Desk.Drawing("{go: north, by: 1500, to: flange}", $"title: {title}\nservice: {{{service}}}");

    [Theory]
    [InlineData("line number: 6-ST-301-C3A, pipe class: C1A", "warn")]
    [InlineData("line number: 6-ST-301-C1A, pipe class: C1A", "")]
    [InlineData("line number: 6-ST-301, pipe class: C1A", "")]
    [InlineData("line number: 6-ST-301-80H, pipe class: C1A", "")]
    public void The_class_in_the_line_number_is_the_pipe_class(string service, string told) => Desk.Tells("line-data-contradicts", told, Service(service));

    [Theory]
    [InlineData("fluid: instrument air", "Fuel gas to the heater", "note")]
    [InlineData("fluid: fuel gas", "Fuel gas to the heater", "")]
    [InlineData("fluid: cooling water", "Pump discharge", "")]
    public void Title_and_fluid_speak_of_one_fluid(string service, string title, string told) => Desk.Tells("line-data-contradicts", told, Service(service, title));

    [Fact]
    public void A_line_s_size_is_not_that_of_its_branch() => Desk.Tells("line-data-contradicts", "note", Desk.Drawing("""
        {go: north, by: 1500, to: tee, name: T, branch: east, branch size: 4}
        {go: north, by: 1500, to: flange}
        """, "service: {line number: '4\"-FW-505'}") + """

          - run: side
            start: {from: T}
            legs:
              - {go: east, by: 900, to: flange}
        """);
}
