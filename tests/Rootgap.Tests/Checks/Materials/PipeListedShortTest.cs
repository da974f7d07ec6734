namespace Rootgap.Tests.Checks;

public class PipeListedShortTest
{
    private const string Rule = "pipe-listed-short";

    // 1000 - 2 x 89 (ASME B16.5) - 2 x 3.2 = 815.6, and one saw cut of 3.
    [Fact]
    public void Less_pipe_than_the_pieces_is_found() => Desk.Finds(Rule, "materials[0]", Lists.With("0.9 m", "0.7 m"), "0.82 m needed", "0.12 m short");

    [Fact]
    public void Pipe_that_leaves_out_the_final_fit_extra_is_found() => Desk.Finds(Rule, "materials[0]", Desk.Drawing("{go: up, by: 1000, to: flange, end: final-fit}", Lists.Straight.Replace("0.9 m", "0.82 m", StringComparison.Ordinal), Lists.Line), "final-fit extra 0.10");

    [Fact]
    public void Pipe_just_long_enough_is_silent() => Desk.IsSilent(Rule, Lists.With("0.9 m", "0.82 m"));

    [Fact]
    public void The_extra_counted_is_silent() => Desk.IsSilent(Rule, Desk.Drawing("{go: up, by: 1000, to: flange, end: final-fit}", Lists.Straight.Replace("0.9 m", "0.92 m", StringComparison.Ordinal), Lists.Line));
}
