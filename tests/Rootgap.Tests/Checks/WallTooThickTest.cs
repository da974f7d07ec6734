using Rootgap.Drawings;

namespace Rootgap.Tests.Checks;

/// <summary>Outside diameters by ASME B36.10M: NPS 6 is 168.3 mm, NPS 1 is 33.4 mm.</summary>
public class WallTooThickTest
{
    private const string Rule = "wall-too-thick";

    private static string Reduced(string wall) => Desk.Drawing("{go: up, by: 1450, to: reducer, size: 1}\n{go: up, by: 1000, to: flange}", line: $"size: 6, schedule: {{wall: {wall}}}, class: 150");

    [Fact]
    public void A_wall_that_the_smaller_pipe_behind_a_reducer_cannot_have_is_a_stop() => Desk.Finds(Rule, "runs[0].legs[1]", Reduced("16.8"), "NPS 1", "33.4");

    [Fact]
    public void A_wall_that_leaves_a_bore_is_not_told() => Desk.IsSilent(Rule, Reduced("16.5"));

    [Theory]
    [InlineData("drawing: T\nline: {size: 6, schedule: {wall: 84.2}}\nruns: [{run: m, start: {to: open}, legs: [{go: up, by: 900, to: open}]}]", "no bore in NPS 6")]
    [InlineData("drawing: T\nline: {size: 6, schedule: {wall: 18}}\nruns: [{run: m, size: 1, start: {to: open}, legs: [{go: up, by: 900, to: open}]}]", "no bore in NPS 1")]
    public void A_line_or_a_run_whose_wall_leaves_no_bore_is_refused_where_it_stands(string yaml, string words)
    {
        var reading = DrawingReader.Read(yaml, "test.yaml");
        Assert.Null(reading.Drawing);
        Assert.Contains(words, Assert.Single(reading.Errors).Message, StringComparison.Ordinal);
        Assert.NotNull(DrawingReader.Read(yaml.Replace("84.2", "84.1", StringComparison.Ordinal).Replace("18", "16", StringComparison.Ordinal), "test.yaml").Drawing);
    }
}
