namespace Rootgap.Cli.Tests;

/// <summary>Every kind of error in a drawing file as its writer sees it: place, line, caret, what was expected. The spot is marked «so» in the text.</summary>
public class ReadingErrorsTest
{
    private const string Line = "line: {size: 6, schedule: 40}\n";

    private static string Legs(params string[] legs) =>
        $"drawing: E\n{Line}runs:\n  - run: main\n    start: {{to: open}}\n    legs:\n      - {string.Join("\n      - ", legs)}\n";

    private const string End = "{go: east, by: 2000, to: open}";

    /// <summary>Name, text with its spot, rule, words of the message, words of the remedy.</summary>
    private static readonly (string Name, string Text, string Rule, string Says, string Do)[] Cases =
    [
        ("unknown-key", "drawing: E\nline: {size: 6, schedule: 40, «clas»: 150}\nruns: [{run: m, start: {to: open}, legs: [" + End + "]}]\n", "unknown-key", "has no key \"clas\"", "Did you mean \"class\"?"),
        ("unknown-key-far", "drawing: E\n«zzzzzzzzz»: 1\n" + Line + "runs: [{run: m, start: {to: open}, legs: [" + End + "]}]\n", "unknown-key", "has no key \"zzzzzzzzz\"", "Its keys are: drawing, revision"),
        ("not-a-length", Legs("{go: east, by: «far», to: open}"), "wrong-type", "\"far\" is not a length", "4'-9 1/2\""),
        ("negative-length", Legs("{go: east, by: «-5», to: open}"), "impossible-value", "\"-5\" cannot be", "Turn the direction round"),
        ("list-for-a-word", Legs("{go: east, by: 2000, to: «[»open]}"), "wrong-type", "\"to\" is a word or a number", "without brackets"),
        ("word-for-a-list", "drawing: E\n" + Line + "runs: [{run: m, start: {to: open}, legs: «5»}]\n", "wrong-type", "The legs are a list", "Write one row a leg"),
        ("word-for-a-map", "drawing: E\n" + Line + "runs: [{run: m, start: «open», legs: [" + End + "]}]\n", "wrong-type", "A start is written as keys and values", "{key: value, ...}"),
        ("no-distance", Legs("«{»go: east, to: open}"), "missing-key", "This leg has no distance", "Add `by:`"),
        ("no-number", "«l»ine: {size: 6, schedule: 40}\nruns: [{run: m, start: {to: open}, legs: [" + End + "]}]\n", "missing-key", "has no \"drawing\"", "Add it"),
        ("no-schedule", "drawing: E\nline: «{»size: 6}\nruns: [{run: m, start: {to: open}, legs: [" + End + "]}]\n", "missing-key", "The line has no schedule", "such as 40, STD or {wall: 7.11}"),
        ("key-twice", "drawing: E\nrevision: 1\n«revision»: 2\n" + Line + "runs: [{run: m, start: {to: open}, legs: [" + End + "]}]\n", "not-yaml", "\"revision\" stands twice", "Keep one of the two"),
        ("unknown-alias", Legs("{go: east, by: «*far», to: open}"), "not-yaml", "Nothing is named &far above", "with &"),
        ("direction", Legs("{go: «nort», by: 2000, to: open}"), "unknown-word", "\"nort\" is not a direction", "Did you mean \"north\"?"),
        ("vector-word", Legs("{go: {«estt»: 5}, to: open}"), "unknown-key", "not one of the six directions", "Did you mean \"east\"?"),
        ("vector-nowhere", Legs("{go: «{»north: 0}, to: open}"), "impossible-value", "leads nowhere", "above 0"),
        ("vector-both-ways", Legs("{go: {north: 5, «south»: 5}, to: open}"), "impossible-value", "\"south\" and its opposite", "Keep one of the two"),
        ("work-point", Legs("{go: east, by: 2000, to: «elbw»}", End), "unknown-word", "\"elbw\" is no word for \"to\"", "Did you mean \"elbow\"?"),
        ("size", Legs("{go: east, by: 2000, to: reducer, size: «7»}", End), "impossible-value", "\"7\" is not a nominal pipe size", "The nearest are 6 or 8"),
        ("schedule", "drawing: E\nline: {size: 6, schedule: «4O»}\nruns: [{run: m, start: {to: open}, legs: [" + End + "]}]\n", "unknown-word", "\"4O\" is not a schedule", "Did you mean \"40\"?"),
        ("key-does-not-fit", Legs("{go: east, by: 2000, to: tee, branch: up, radius: «long»}", End), "key-does-not-fit", "\"radius\" does not go with a tee", "It goes with: elbow"),
        ("slope", Legs("{go: east, by: 2000, to: open, fall: «steep»}"), "impossible-value", "\"steep\" is not a slope", "1:100"),
        ("slope-twice", Legs("{go: east, by: 2000, to: open, fall: 1:100, rise: «1:100»}"), "impossible-value", "cannot both fall and rise", "Keep one"),
        ("slope-upright", Legs("{go: up, by: 2000, to: open, fall: «1:100»}"), "impossible-value", "Only a level leg can fall", "Leave the slope out"),
        ("ends-at-elbow", Legs("{go: east, by: 2000, to: «elbow»}"), "impossible-value", "A run cannot end at an elbow", "Add the next leg"),
        ("flange-inside", Legs("{go: east, by: 2000, to: «flange»}", End), "impossible-value", "A flange ends a run", "Write `joint`"),
        ("turn-too-small", Legs("{go: north, by: 2000, to: «elbow»}", "{go: {north: 1000, east: 4}, to: open}"), "elbow-without-turn", "This elbow does not turn", "leave the elbow out"),
        ("weld-marked-twice", Legs("{go: east, by: 2000, to: weld, end: field}", "{go: east, by: 2000, to: open, begin: «final-fit»}"), "weld-marked-twice", "marked field by the leg before and final-fit here", "Mark it once"),
        ("makeup-to-open", Legs("{go: east, by: «makeup», to: open}"), "impossible-value", "Nothing can be made up to an open", "Write the distance"),
        ("makeup-begin", Legs("{go: east, by: 2000, to: elbow}", "{go: north, by: makeup, to: elbow, begin: «field»}", End), "key-does-not-fit", "has one weld, its `end`", "Write `end:`"),
        ("tee-without-branch", Legs("{go: east, by: 2000, to: «tee»}", End), "missing-key", "no branch direction", "branch: east"),
        ("reducer-without-size", Legs("{go: east, by: 2000, to: «reducer»}", End), "missing-key", "This reducer has no size", "Add `size:`"),
        ("valve-without-kind", Legs("{go: east, by: 2000, to: «valve»}", End), "missing-key", "This valve has no kind", "gate, globe, check, ball, butterfly"),
        ("named-twice", Legs("{go: east, by: 2000, to: tee, branch: up, name: T1}", "{go: east, by: 2000, to: tee, branch: up, name: «T1»}", End), "name-twice", "\"T1\" is the name of two work points", "its own name"),
        ("unknown-name", Legs("{go: east, by: 2000, to: tee, branch: up, name: TEE-1}", End) + "  - {run: b, start: {from: «TEE-2»}, legs: [{go: up, by: 2000, to: open}]}\n", "unknown-name", "is named \"TEE-2\"", "Did you mean \"TEE-1\"?"),
        ("end-taken", Legs("{go: east, by: 2000, to: tee, branch: up, name: T1}", End) + "  - {run: b, start: {from: T1}, legs: [{go: up, by: 2000, to: open}]}\n  - {run: c, start: {from: «T1»}, legs: [{go: up, by: 2000, to: open}]}\n", "name-twice", "already taken, at runs[1]", "takes one run"),
        ("runs-named-twice", Legs(End) + "  - {run: «main», start: {to: open, at: {up: 1}}, legs: [{go: up, by: 2000, to: open}]}\n", "name-twice", "Two runs are named \"main\"", "its own name"),
        ("two-at-the-origin", Legs(End) + "  - {run: b, start: «{»to: open}, legs: [{go: up, by: 2000, to: open}]}\n", "missing-key", "two cannot both stand at the origin", "Add `at:"),
        ("circle", "drawing: E\n" + Line + "runs:\n  - {run: a, start: {from: «B»}, legs: [{go: east, by: 2000, to: tee, branch: up, name: A}, " + End + "]}\n  - {run: b, start: {from: A}, legs: [{go: up, by: 2000, to: tee, branch: east, name: B}, {go: up, by: 2000, to: open}]}\n", "runs-in-a-circle", "in the end, from itself", "a start of its own"),
        ("item-twice", "drawing: E\n" + Line + "materials:\n  - {item: 1, what: pipe}\n  - {item: «1», what: cap}\nruns: [{run: m, start: {to: open}, legs: [" + End + "]}]\n", "name-twice", "Two rows are item 1", "its own number"),
        ("quantity", "drawing: E\n" + Line + "materials: [{item: 1, what: pipe, quantity: «some»}]\nruns: [{run: m, start: {to: open}, legs: [" + End + "]}]\n", "wrong-type", "\"some\" is not a quantity", "9.6 m"),
        ("shop-file", "drawing: E\n" + Line + "shop: «nowhere.yaml»\nruns: [{run: m, start: {to: open}, legs: [" + End + "]}]\n", "file-not-found", "\"nowhere.yaml\" is not there", "beside the drawing file"),
        ("material-file", "drawing: E\n" + Line + "materials: «nowhere.csv»\nruns: [{run: m, start: {to: open}, legs: [" + End + "]}]\n", "file-not-found", "\"nowhere.csv\" is not there", "beside the drawing file"),
        ("units", "drawing: E\nunits: «cm»\n" + Line + "runs: [{run: m, start: {to: open}, legs: [" + End + "]}]\n", "unknown-word", "\"cm\" is no word for \"units\"", "It is one of: mm, in"),
        ("second-document", Legs(End) + "«---»\ndrawing: F\n", "not-yaml", "A second document begins here", "a file of its own"),
    ];

    public static TheoryData<string> Names => [.. Cases.Select(c => c.Name)];

    private static readonly Lazy<Call> All = new(() =>
    {
        using var shop = new Shop();
        foreach (var (name, text, _, _, _) in Cases)
            shop.Write(name + ".yaml", Plain(text));
        return shop.Run(["check", .. Cases.Select(c => c.Name + ".yaml")]);
    });

    private static string Plain(string text) => text.Replace("«", "", StringComparison.Ordinal).Replace("»", "", StringComparison.Ordinal);

    [Theory]
    [MemberData(nameof(Names))]
    public void An_error_shows_its_place_its_line_a_caret_and_what_was_expected(string name)
    {
        var (_, text, rule, says, @do) = Cases.Single(c => c.Name == name);
        var lines = text.Split('\n');
        var line = Array.FindIndex(lines, l => l.Contains('«', StringComparison.Ordinal));
        var column = lines[line].IndexOf('«', StringComparison.Ordinal);
        var width = lines[line].IndexOf('»', StringComparison.Ordinal) - column - 1;
        var printed = Blocks(All.Value.Out).Where(b => b[0].StartsWith(name + ".yaml:", StringComparison.Ordinal)).ToList();
        var place = FormattableString.Invariant($"{name}.yaml:{line + 1}:{column + 1}: stop: ");
        var block = Assert.Single(printed, b => b[0].StartsWith(place, StringComparison.Ordinal) && b[0].EndsWith($"[{rule}]", StringComparison.Ordinal));
        Assert.Contains(says, block[0], StringComparison.Ordinal);
        Assert.Equal(FormattableString.Invariant($"{line + 1,5} | {Plain(lines[line])}"), block[1]);
        Assert.StartsWith($"      | {new string(' ', column)}^", block[2], StringComparison.Ordinal);
        Assert.True(block[2].Count(c => c == '^') >= width, block[2]);
        Assert.Contains(@do, block[3], StringComparison.Ordinal);
        Assert.Contains($"{name}.yaml: cannot be read: ", All.Value.Out, StringComparison.Ordinal);
    }

    [Fact]
    public void A_drawing_that_cannot_be_read_ends_with_3_and_says_nothing_on_standard_error()
    {
        Assert.Equal(3, All.Value.Exit);
        Assert.Equal("", All.Value.Error);
        Assert.DoesNotContain('\u001b', All.Value.Out);
    }

    /// <summary>The printed errors, each with its lines; the closing line of each file is left out.</summary>
    private static IEnumerable<string[]> Blocks(string text) => text.ReplaceLineEndings("\n").Split("\n\n")
        .Select(b => b.Split('\n').Where(l => l.Length > 0 && !l.Contains(": cannot be read: ", StringComparison.Ordinal)).ToArray())
        .Where(b => b.Length > 0);

    [Fact]
    public void All_errors_of_a_file_are_told_in_one_go_in_its_order()
    {
        using var shop = new Shop();
        var file = shop.Write("many.yaml", """
            drawing: E
            line: {size: 6, schedule: 40, clas: 150}
            runs:
              - run: main
                start: {to: opn}
                legs:
                  - {go: nort, by: far, to: elbow}
                  - {go: east, by: -5, to: open, begn: field}
            """);
        var call = shop.Run("check", file);
        Assert.Equal(3, call.Exit);
        var places = Blocks(call.Out).Where(b => b[0].Contains(": stop: ", StringComparison.Ordinal)).Select(b => b[0][..b[0].IndexOf(": stop", StringComparison.Ordinal)]);
        Assert.Equal(["many.yaml:2:31", "many.yaml:5:17", "many.yaml:7:14", "many.yaml:7:24", "many.yaml:8:24", "many.yaml:8:38"], places, StringComparer.Ordinal);
        Assert.Contains("many.yaml: cannot be read: 6 errors", call.Out, StringComparison.Ordinal);
    }

    [Fact]
    public void What_is_no_drawing_at_all_is_said_with_its_place()
    {
        (string Name, string Text, string Says)[] files =
        [
            ("empty", "", "The file is empty"),
            ("bracket", "drawing: [1, 2\n", "This is not YAML"),
            ("quote", "drawing: \"E\nline: 5\n", "This is not YAML"),
            ("tab", "drawing: E\nline:\n\tsize: 6\n", "This is not YAML"),
            ("list", "- a\n- b\n", "A drawing is written as keys and values"),
            ("word", "hello", "A drawing is written as keys and values"),
            ("deep", "a: " + new string('[', 40) + "1" + new string(']', 40) + "\n", "nested too deep"),
        ];
        using var shop = new Shop();
        var call = shop.Run(["check", .. files.Select(f => shop.Write(f.Name + ".yaml", f.Text))]);
        Assert.Equal((3, ""), (call.Exit, call.Error));
        var printed = Blocks(call.Out).Select(b => b[0]).ToList();
        Assert.All(files, f => Assert.Contains(printed, line => line.StartsWith(f.Name + ".yaml:", StringComparison.Ordinal) && line.Contains(": stop: ", StringComparison.Ordinal) && line.Contains(f.Says, StringComparison.Ordinal)));
    }
}
