namespace Rootgap.Tests.Checks;

public class PipeGradeMismatchTest
{
    private const string Rule = "pipe-grade-mismatch";

    [Fact]
    public void Pipe_of_another_grade_than_the_line_is_found() => Desk.Finds(Rule, "materials[0]", Lists.With("material: A106-B", "material: A53-B"), "A53-B listed", "A106-B");

    [Fact]
    public void The_same_grade_written_otherwise_is_silent() => Desk.IsSilent(Rule, Lists.With("material: A106-B", "material: ASTM A106 Gr.B"));

    [Fact]
    public void Without_the_lines_material_it_is_silent() => Desk.IsSilent(Rule, Desk.Drawing(Lists.Leg, Lists.Straight));
}
