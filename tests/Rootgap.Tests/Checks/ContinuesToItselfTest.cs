namespace Rootgap.Tests.Checks;

public class ContinuesToItselfTest
{
    private const string Rule = "continues-to-itself";

    private static string Drawing(string on) => Desk.Drawing($$"""
        {go: east, by: 1500, to: open, continues: {{on}}}
        """);

    [Fact]
    public void A_drawing_that_goes_on_on_itself_is_found() => Desk.Finds(Rule, "runs[0].legs[0]", Drawing("test-1"), "this drawing");

    [Theory]
    [InlineData("TEST-2", "")]
    [InlineData("TSET-2", "warn")]
    [InlineData("CHW-201", "")]
    public void Another_drawing_is_silent_and_turned_letters_are_not(string on, string told) => Desk.Tells(Rule, told, Drawing(on));
}
