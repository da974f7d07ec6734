using Rootgap.App.Drawings;
using Rootgap.App.Jobs;
using Rootgap.Drawings;
using Rootgap.Packets;

namespace Rootgap.App.Tests;

/// <summary>Writing a drawing, without a browser. What a key does is the app's own convention (docs/app-drawing.md); what the text means is the file format's (docs/drawing-file.md).</summary>
public sealed class EditorStateTest
{
    private const string Begun = """
        drawing: T-1   # from the title block
        units: mm
        line: {size: 6, schedule: 40, class: 150, material: A106-B, gasket: 3.2}
        runs:
          - run: main
            start: {to: flange, at: {east: 0, north: 0, up: 0}}
            legs:
              - {go: up, by: 700, to: elbow}

        """;

    [Fact]
    public void What_is_typed_into_one_field_is_one_step_back()
    {
        var state = Editor(Begun);
        foreach (var typed in new[] { "9", "95", "950" })
            state.Type(new("runs[0].legs[0]", "by"), typed);
        Assert.Equal("950", state.Text.Runs[0].Legs[0]["by"]);
        var changed = state.Undo();
        Assert.Equal(new CellAt("runs[0].legs[0]", "by"), changed);
        Assert.Equal(Begun, state.Text.Text);
        Assert.False(state.CanUndo);
        state.Redo();
        Assert.Equal("950", state.Text.Runs[0].Legs[0]["by"]);
        Assert.False(state.CanRedo);
    }

    [Fact]
    public void A_field_that_was_left_and_entered_again_is_another_step()
    {
        var state = Editor(Begun);
        var by = new CellAt("runs[0].legs[0]", "by");
        state.Type(by, "900");
        state.Close();
        state.Type(by, "901");
        state.Undo();
        Assert.Equal("900", state.Text.Runs[0].Legs[0]["by"]);
    }

    // Common practice on screens: who writes is not interrupted, and what the figure does elsewhere is told when the hand rests.
    [Fact]
    public void When_the_hand_rests_other_rows_are_told_of_and_the_row_that_is_written_when_it_is_left()
    {
        const string Row = "runs[0].legs[0]";
        var state = Editor(Begun.Replace("to: elbow", "to: open", StringComparison.Ordinal));
        var before = state.Shown;
        state.Type(new(Row, "by"), "70");
        Assert.Same(before, state.Shown);
        Assert.True(state.Settle());
        Assert.Same(state.Open, state.Shown);
        Assert.True(state.IsHalfWritten(Row));
        Assert.False(state.Settle());
        state.Leave();
        Assert.False(state.IsHalfWritten(Row));
        Assert.Same(state.Open, state.Shown);
    }

    [Fact]
    public void Escape_gives_back_what_stood_in_the_field()
    {
        var state = Editor(Begun);
        state.Type(new("runs[0].legs[0]", "by"), "1");
        state.Cancel();
        Assert.Equal(Begun, state.Text.Text);
        Assert.False(state.CanRedo);
    }

    [Fact]
    public void A_distance_typed_behind_its_direction_goes_to_its_own_field_in_the_same_step()
    {
        var state = Editor(Begun);
        state.Next(new("runs[0].legs[0]", "to"));
        var before = state.Text.Text;
        state.Type(new("runs[0].legs[1]", "go"), "n1200");
        state.Choose(new("runs[0].legs[1]", "to"));
        Assert.Equal(("north", "1200"), (state.Text.Runs[0].Legs[1]["go"], state.Text.Runs[0].Legs[1]["by"]));
        state.Undo();
        Assert.Equal(before, state.Text.Text);
    }

    [Theory]
    [InlineData("E600 U600", "east 600 up 600")]
    [InlineData("n700 e420 u560", "north 700 east 420 up 560")]
    [InlineData("west 9 south 9", "west 9 south 9")]
    public void A_skew_is_typed_with_letters_or_words(string typed, string written)
    {
        var state = Editor(Begun);
        state.Type(new("runs[0].legs[0]", "go"), typed);
        state.Close();
        Assert.Equal(written, state.Text.Runs[0].Legs[0]["go"]);
    }

    [Fact]
    public void Enter_on_the_last_leg_makes_the_next_one_and_behind_an_end_it_makes_none()
    {
        var state = Editor(Begun);
        Assert.Equal(new CellAt("runs[0].legs[1]", "go"), state.Next(new("runs[0].legs[0]", "to")));
        state.Type(new("runs[0].legs[1]", "go"), "north");
        state.Type(new("runs[0].legs[1]", "by"), "900");
        state.Type(new("runs[0].legs[1]", "to"), "flange");
        Assert.Null(state.Next(new("runs[0].legs[1]", "to")));
        Assert.Equal(2, state.Text.Runs[0].Legs.Count);
    }

    [Fact]
    public void Enter_goes_from_the_head_to_the_first_leg_of_an_empty_run()
    {
        var state = Editor(DrawingText.Blank("t.yaml", "T-2").Text);
        List<string> went = [];
        CellAt? at = new("", "drawing");
        for (var i = 0; i < 5; i++)
            went.Add((at = state.Next(at.Value))!.Value.Path);
        Assert.Equal(["line", "service", "runs[0]", "runs[0].start", "runs[0].legs[0]"], went);
    }

    [Fact]
    public void Behind_a_valve_the_line_goes_straight_on()
    {
        var state = Editor(Begun);
        state.Type(new("runs[0].legs[0]", "to"), "valve");
        state.Insert("runs[0].legs[0]");
        Assert.Equal("up", state.Text.Runs[0].Legs[1]["go"]);
    }

    [Fact]
    public void A_field_that_is_asked_for_by_the_beginning_of_its_name_is_shown_empty()
    {
        var state = Editor(Begun);
        var cell = state.Ask("runs[0].legs[0]", "rad");
        Assert.Equal(new CellAt("runs[0].legs[0]", "radius"), cell);
        Assert.Contains(Sheet(state).Runs[0].Legs[0].Cells, c => c.At == cell && c.Value.Length == 0 && c.Words.Contains("short", StringComparison.Ordinal));
        Assert.Equal(Begun, state.Text.Text);
    }

    [Fact]
    public void A_leg_is_filled_from_the_leg_above_except_for_what_is_its_own()
    {
        var state = Editor(Begun);
        state.Type(new("runs[0].legs[0]", "name"), "X1");
        state.Insert("runs[0].legs[0]");
        state.Type(new("runs[0].legs[1]", "go"), "north");
        state.CopyAbove(new("runs[0].legs[1]", "go"));
        var leg = state.Text.Runs[0].Legs[1];
        Assert.Equal(("north", "700", "elbow", ""), (leg["go"], leg["by"], leg["to"], leg["name"]));
    }

    [Fact]
    public void Findings_stand_at_the_row_they_speak_of_once_it_is_left()
    {
        var state = Editor(Begun);
        state.Type(new("runs[0].legs[0]", "by"), "seven");
        Assert.Empty(Sheet(state).Runs[0].Legs[0].Findings);
        state.Leave();
        var leg = Sheet(state).Runs[0].Legs[0];
        Assert.NotEmpty(leg.Findings);
        Assert.True(leg.Cells.First(c => c.At.Key == "by").IsWrong);
    }

    [Fact]
    public void Rows_that_did_not_change_are_equal_so_that_they_are_not_drawn_again()
    {
        var state = Editor(Begun);
        state.Insert("runs[0].legs[0]");
        state.Type(new("runs[0].legs[1]", "go"), "north");
        var rows = new EditorRows();
        var before = rows.Of(state, Rootgap.Measure.Units.Millimetres, _ => []);
        state.Type(new("runs[0].legs[1]", "go"), "south");
        var after = rows.Of(state, Rootgap.Measure.Units.Millimetres, _ => []);
        Assert.Equal(before.Line, after.Line);
        Assert.Equal(before.Runs[0].Start, after.Runs[0].Start);
        Assert.NotEqual(before.Runs[0].Legs[1], after.Runs[0].Legs[1]);
    }

    [Fact]
    public void Lengths_are_shown_in_the_other_units_beside_what_is_written()
    {
        var state = Editor(Begun);
        var cell = new EditorRows().Of(state, Rootgap.Measure.Units.Inches, _ => []).Runs[0].Legs[0].Cells.First(c => c.At.Key == "by");
        // 700 mm = 27.559 in, to the nearest sixteenth 27 9/16.
        Assert.Equal(("700", "2'-3 9/16\""), (cell.Value, cell.Other));
    }

    [Fact]
    public void Text_that_is_no_yaml_can_be_typed_and_mended()
    {
        var state = Editor(Begun);
        state.TypeText("drawing: [");
        Assert.False(state.Text.IsYaml);
        Assert.NotEmpty(Sheet(state).Whole);
        state.Undo();
        Assert.Equal(Begun, state.Text.Text);
    }

    private static EditorState Editor(string text) => new("t.yaml", text.ReplaceLineEndings("\n"), Worked);

    private static EditorSheet Sheet(EditorState state) => new EditorRows().Of(state, Rootgap.Measure.Units.Millimetres, _ => []);

    private static OpenDrawing Worked(DrawingText text)
    {
        var reading = text.Read(_ => null);
        return new(text.File, text.Text, reading.Partial is { } drawing ? Packet.Of(drawing) : null, reading.Errors);
    }
}
