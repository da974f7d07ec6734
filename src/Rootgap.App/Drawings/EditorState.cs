using System.Globalization;
using System.Text;
using Rootgap.App.Jobs;
using Rootgap.Drawings;
using Rootgap.Findings;

namespace Rootgap.App.Drawings;

/// <summary>One field of one row of a drawing.</summary>
/// <param name="Path">Path of the row, such as <c>runs[0].legs[2]</c>; empty for the drawing's head.</param>
/// <param name="Key">The key in the file, or <see cref="More"/>.</param>
public readonly record struct CellAt(string Path, string Key)
{
    /// <summary>The choice, at the end of a row, of a field that the row does not show yet.</summary>
    public const string More = "more";

    /// <summary>The field's id on the page: <c>cell-runs[0].legs[2]-pipe-item</c>. An id holds no blanks.</summary>
    public string Id => $"cell-{Path}-{Key.Replace(' ', '-')}";
}

/// <summary>
/// A drawing while it is written: its text, what can be undone, the chosen field, and what the engine makes of it, worked out once for each change.
/// What is typed into one field, until it is left, is one step.
/// </summary>
public sealed partial class EditorState
{
    private const int MostSteps = 2000;
    private static readonly CellAt WholeText = new("", "text");

    private static readonly HashSet<string> Directions = ["north", "south", "east", "west", "up", "down"];

    private readonly Func<DrawingText, OpenDrawing> work;
    private readonly List<Step> steps = [];
    private readonly HashSet<CellAt> shown = [];
    private int now;
    private CellAt? typing;

    /// <summary>Something was typed into the row since it was entered.</summary>
    private bool isBegun;

    /// <param name="path">Path of the file in the job.</param>
    /// <param name="work">What works out a drawing, with the files beside it.</param>
    public EditorState(string path, string text, Func<DrawingText, OpenDrawing> work)
    {
        this.work = work;
        Text = DrawingText.Of(text, path);
        Shown = Open = work(Text);
        steps.Add(new(text, null));
    }

    public DrawingText Text { get; private set; }

    public OpenDrawing Open { get; private set; }

    /// <summary>The drawing whose findings are told: as it stood when the row that is being written was entered, or when the hand rested last (<see cref="Settle"/>). A half-written row does not shout.</summary>
    public OpenDrawing Shown { get; private set; }

    /// <summary>Whether the person is in a field.</summary>
    public bool IsWriting { get; private set; }

    /// <summary>Whether a row is still being written: nothing is said of it until it is left.</summary>
    public bool IsHalfWritten(string path) => IsWriting && Chosen?.Path == path && (isBegun || LegAt(path) is { Leg: >= 0 } && RowAt(path) is { } row && (row["to"].Length == 0 || row["go"].Length == 0));

    /// <summary>The person left the fields: what was written is looked at.</summary>
    public void Leave()
    {
        Close();
        IsWriting = false;
        Tell();
    }

    /// <summary>The hand rests: what the drawing as it stands says of other rows than the one that is being written is told. Where something cannot be read yet, nothing changes.</summary>
    /// <returns>Whether other findings are told now.</returns>
    public bool Settle()
    {
        if (ReferenceEquals(Shown, Open) || Open.Errors.Count > 0)
            return false;
        Shown = Open;
        return true;
    }

    /// <summary>All is told, of the row that was being written too.</summary>
    private void Tell()
    {
        Shown = Open;
        isBegun = false;
    }

    /// <summary>The field in which the person is, or was last.</summary>
    public CellAt? Chosen { get; private set; }

    /// <summary>What stands in the chosen field just as it was typed, until it is left; null where it stands as the file has it.</summary>
    public string? AsTyped { get; private set; }

    /// <summary>Why the last change was not made; empty where it was.</summary>
    public string Refusal { get; private set; } = "";

    public bool CanUndo => now > 0;

    public bool CanRedo => now < steps.Count - 1;

    /// <summary>Fields that the person asked for, and that hold nothing yet.</summary>
    public bool IsAskedFor(CellAt cell) => shown.Contains(cell);

    /// <summary>The person goes to a field: what was typed before is a step of its own.</summary>
    public void Choose(CellAt cell)
    {
        IsWriting = true;
        if (Chosen == cell)
            return;
        Close();
        if (Chosen?.Path != cell.Path)
            Tell();
        Chosen = cell;
    }

    /// <summary>Marks a row, as by a tap on the drawing.</summary>
    public void ChooseRow(string path)
    {
        Leave();
        Chosen = new(path, "");
    }

    /// <summary>What a field holds now. True where the file changed.</summary>
    public bool Type(CellAt cell, string value)
    {
        Choose(cell);
        AsTyped = value;
        if (cell.Key == CellAt.More)
            return false;
        return Make(Text.Set(cell.Path, cell.Key, Spelled(cell.Key, value)), cell, isTyped: true);
    }

    /// <summary>The whole text as typed. True where it changed.</summary>
    public bool TypeText(string text)
    {
        if (Text.Text.Contains("\r\n", StringComparison.Ordinal))
            text = text.ReplaceLineEndings("\r\n");
        Chosen = null;
        AsTyped = null;
        var isMade = Make(DrawingText.Of(text, Text.File), WholeText, isTyped: true);
        Tell();
        return isMade;
    }

    /// <summary>Nothing was typed for a while: what is typed next into the text is a step of its own. A field's step goes on until it is left.</summary>
    public void Pause()
    {
        if (typing == WholeText)
            typing = null;
    }

    /// <summary>What was typed is not among the words of a field.</summary>
    public void Unfit(string typed, string caption) => Refusal = $"\"{typed}\" is not among what fits as {caption} here.";

    /// <summary>The field is left: what was typed is one step. A distance typed behind its direction goes to its own field.</summary>
    public bool Close()
    {
        var cell = typing;
        typing = null;
        AsTyped = null;
        if (cell is not { Key: "go", Path: var path } || RowAt(path) is not { } row || row["by"].Length > 0 || OneWay(row["go"]) is not { } way)
            return false;
        var split = Text.Set(path, "by", way.Length).Set(path, "go", way.Direction);
        if (split.Refusal is not null)
            return false;
        steps[now] = steps[now] with { Text = split.Text };
        Take(split, isTyped: true);
        return true;
    }

    /// <summary>Takes back what was typed since the field was entered.</summary>
    public bool Cancel()
    {
        if (typing is null)
        {
            AsTyped = null;
            return false;
        }

        typing = null;
        var changed = Undo() is not null;
        steps.RemoveRange(now + 1, steps.Count - now - 1);
        return changed;
    }

    /// <summary>Goes a step back. The field that was changed; null where there is none, or nothing to undo.</summary>
    public CellAt? Undo()
    {
        Close();
        if (!CanUndo)
            return null;
        var undone = steps[now--];
        Take(DrawingText.Of(steps[now].Text, Text.File));
        return Chosen = Existing(undone.Cell);
    }

    public CellAt? Redo()
    {
        Close();
        if (!CanRedo)
            return null;
        Take(DrawingText.Of(steps[++now].Text, Text.File));
        return Chosen = Existing(steps[now].Cell);
    }

    /// <summary>Another text, as it came from elsewhere: it can be undone like one's own changes.</summary>
    public bool Replace(string text)
    {
        Close();
        return Make(DrawingText.Of(text, Text.File), null);
    }

    /// <summary>Works the same text out again: a file beside the drawing changed.</summary>
    public void Again()
    {
        Open = work(Text);
        Tell();
    }

    /// <summary>Shows a field that the row does not have yet, and goes there. What was typed may be the beginning of its name.</summary>
    public CellAt? Ask(string path, string key)
    {
        var offers = EditorRows.OffersAt(Text, path);
        var offer = offers.FirstOrDefault(o => o.Key == key) ?? offers.FirstOrDefault(o => key.Trim().Length > 0 && o.Key.StartsWith(key.Trim(), StringComparison.OrdinalIgnoreCase));
        Close();
        if (offer is null)
            return null;
        var cell = new CellAt(path, offer.Key);
        shown.Add(cell);
        return Chosen = cell;
    }

    /// <summary>The next row down, as Enter goes: a new leg behind the last one of a run, unless the run has come to its end.</summary>
    public CellAt? Next(CellAt from)
    {
        Close();
        var paths = EditorRows.Paths(Text).ToList();
        var at = paths.IndexOf(from.Path);
        if (LegAt(from.Path) is { } place && place.Run < Text.Runs.Count && from.Path != Run(place.Run) && place.Leg == Text.Runs[place.Run].Legs.Count - 1 && !IsEnded(Text.Runs[place.Run]))
            return Insert(from.Path);
        // A first drawing that has its pipe goes on to its first leg.
        if (from is { Path: "line", Key: "size" or "schedule" or "class" } && Text.Runs is [{ Legs.Count: 0 } only] && Text.Line["size"].Length > 0 && Text.Line.Cells.Count <= 3)
        {
            var key = from.Key switch { "size" => "schedule", "schedule" => "class", _ => "" };
            return key.Length > 0 ? Chosen = new CellAt("line", key) : Insert(only.Start.Path);
        }

        Tell();
        return at >= 0 && at + 1 < paths.Count ? Chosen = First(paths[at + 1]) : null;
    }

    /// <summary>Takes the mechanical remedy of a finding.</summary>
    public bool Mend(Finding finding)
    {
        Close();
        return finding.Change is { } change && Make(Text.Apply(change), new(finding.At.ToString(), ""));
    }

    /// <summary>Accepts a finding of the desk check, with a reason.</summary>
    public bool Accept(Finding finding, string why)
    {
        Close();
        return why.Trim().Length > 0 && Make(Text.Accept(finding, why), new(finding.At.ToString(), ""));
    }

    /// <summary>The row of a path; null where there is none.</summary>
    public WrittenRow? RowAt(string path) => EditorRows.RowAt(Text, path);

    /// <summary>Where a row stands among the runs: leg -1 is the start or the run's own row.</summary>
    public static (int Run, int Leg)? LegAt(string path) => path.Split('[', ']') switch
    {
        ["runs", var run, "" or ".start"] when Whole(run) is { } r => (r, -1),
        ["runs", var run, ".legs", var leg, ""] when Whole(run) is { } r && Whole(leg) is { } l => (r, l),
        _ => null,
    };

    private static string Run(int run) => RowPath.OfRun(run).ToString();

    private static string Leg(int run, int leg) => RowPath.OfLeg(run, leg).ToString();

    private CellAt First(string path) => new(path, EditorRows.FirstKey(Text, path));

    private CellAt? Existing(CellAt? cell) => cell is { } c && RowAt(c.Path) is not null ? c with { Key = c.Key.Length == 0 ? EditorRows.FirstKey(Text, c.Path) : c.Key } : null;

    /// <summary>Rows of a run get other numbers: what was asked for in them is asked for no more.</summary>
    private void Forget(int run) => shown.RemoveWhere(c => c.Path.StartsWith(Run(run) + ".", StringComparison.Ordinal));

    private static int? Whole(string digits) => int.TryParse(digits, NumberStyles.None, CultureInfo.InvariantCulture, out var n) ? n : null;

    /// <summary>A value as the file has it: letters of directions stand apart from their numbers.</summary>
    private static string Spelled(string key, string value)
    {
        if (key is not ("go" or "at"))
            return value;
        var spelled = new StringBuilder();
        for (var i = 0; i < value.Length; i++)
        {
            spelled.Append(value[i]);
            var isLetter = "nsewud".Contains(char.ToLowerInvariant(value[i]), StringComparison.Ordinal) && (i == 0 || !char.IsAsciiLetter(value[i - 1]));
            if (isLetter && i + 1 < value.Length && (char.IsAsciiDigit(value[i + 1]) || value[i + 1] is '-' or '.'))
                spelled.Append(' ');
        }

        return spelled.ToString();
    }

    /// <summary>A vector that has only one way to go: a direction with a distance behind it.</summary>
    private static (string Direction, string Length)? OneWay(string go)
    {
        var words = go.Split(' ', StringSplitOptions.RemoveEmptyEntries);
        return words.Length > 1 && Directions.Contains(words[0]) && !words.Skip(1).Any(Directions.Contains) && words[1..].Any(w => w.Any(char.IsAsciiDigit))
            ? (words[0], string.Join(' ', words[1..]))
            : null;
    }

    private bool Make(DrawingText made, CellAt? cell, bool isTyped = false)
    {
        Refusal = made.Refusal ?? "";
        if (made.Refusal is not null || made.Text == Text.Text)
            return false;
        steps.RemoveRange(now + 1, steps.Count - now - 1);
        if (isTyped && typing is not null && typing == cell)
        {
            steps[now] = new(made.Text, cell);
        }
        else
        {
            steps.Add(new(made.Text, cell));
            if (steps.Count > MostSteps)
                steps.RemoveAt(0);
            now = steps.Count - 1;
            typing = isTyped ? cell : null;
        }

        Take(made, isTyped);
        return true;
    }

    private void Take(DrawingText text, bool isTyped = false)
    {
        Text = text;
        Open = work(text);
        if (isTyped)
            isBegun = true;
        else
            Tell();
        AsTyped = typing is null ? null : AsTyped;
        HoldStretch();
    }

    private sealed record Step(string Text, CellAt? Cell);
}
