using Rootgap.Findings;
using Rootgap.Measure;

namespace Rootgap.Drawings;

/// <summary>
/// A drawing file as a text that can be changed without touching what is not changed: comments, layout, order of keys and line ends stay. Immutable; each change
/// gives a new text, which has been read again and holds exactly what was asked for. What cannot be changed so is refused: the same text comes back with its <see cref="Refusal"/>.
/// </summary>
/// <remarks>
/// Refused are changes of a file that is no YAML, of values that are named with <c>&amp;</c> and used elsewhere, and of rows that stand for another with <c>*</c>;
/// where a single value stands for another, the new value is written out in its place.
/// </remarks>
public sealed class DrawingText
{
    private readonly YamlMap? root;
    private readonly YamlNode? tree;
    private readonly List<(Place Where, string Message, string Remedy)> yamlErrors = [];
    private readonly Lazy<WrittenRows> rows;
    private YamlEdit? edit;

    private DrawingText(string text, string file)
    {
        (Text, File) = (text, file);
        tree = YamlTree.Read(text, file, (where, message, remedy) => yamlErrors.Add((where, message, remedy)));
        root = yamlErrors.Count == 0 ? tree as YamlMap : null;
        rows = new(() => new WrittenRows(this), LazyThreadSafetyMode.None);
    }

    private DrawingText(DrawingText same, string? refusal)
    {
        (Text, File, tree, root, yamlErrors, rows, edit, Refusal) = (same.Text, same.File, same.tree, same.root, same.yamlErrors, same.rows, same.edit, refusal);
    }

    public string Text { get; }

    /// <summary>Name of the file, for findings.</summary>
    public string File { get; }

    /// <summary>Whether the text is YAML with keys at its top; only then has it rows, and can be changed row by row.</summary>
    public bool IsYaml => root is not null;

    /// <summary>Why the last change was not made, as a person should be told; null where it was.</summary>
    public string? Refusal { get; }

    /// <summary>Number, revision, title and units.</summary>
    public WrittenRow Top => rows.Value.Top;

    public WrittenRow Line => rows.Value.Line;

    public WrittenRow Service => rows.Value.Service;

    /// <summary>The shop's rules where they stand in the drawing itself.</summary>
    public WrittenRow Shop => rows.Value.Shop;

    /// <summary>The largest spool that can be carried, of the shop's rules.</summary>
    public WrittenRow Envelope => rows.Value.Envelope;

    public IReadOnlyList<WrittenRun> Runs => rows.Value.Runs;

    /// <summary>The material list where it stands in the drawing itself.</summary>
    public IReadOnlyList<WrittenRow> Materials => rows.Value.Materials;

    /// <summary>Findings that the drawing accepts.</summary>
    public IReadOnlyList<WrittenRow> Accepted => rows.Value.Accepted;

    /// <summary>The file that holds the material list; null where the drawing holds it, or has none.</summary>
    public string? MaterialsFile => FileUnder("materials");

    /// <summary>The file that holds the shop's rules; null where the drawing holds them, or has none.</summary>
    public string? ShopFile => FileUnder("shop");

    public Units Units => Top["units"] == "in" ? Units.Inches : Units.Millimetres;

    private YamlEdit Edit => edit ??= new(Text);

    /// <summary>Any text, also one that is no YAML.</summary>
    public static DrawingText Of(string text, string file) => new(text, file);

    /// <summary>A new drawing: its number, its units, a line to be filled in, and one run without legs that begins at a flange.</summary>
    public static DrawingText Blank(string file, string number, Units units = Units.Millimetres)
    {
        var blank = $"""
            drawing: {YamlWriting.Word(number.Trim().Length > 0 ? number.Trim() : "NEW", inFlow: false)}
            units: {(units == Units.Inches ? "in" : "mm")}
            line: {"{}"}
            runs:
              - run: main
                start: {"{to: flange}"}
                legs: []

            """;
        return new(blank.ReplaceLineEndings("\n"), file);
    }

    /// <summary>Reads the drawing; the text is not parsed again.</summary>
    /// <inheritdoc cref="DrawingReader.Read(string, string, Func{string, byte[]})" path="/param[@name='beside']"/>
    public DrawingReading Read(Func<string, byte[]?>? beside = null)
    {
        var errors = new ReadingErrors();
        foreach (var (where, message, remedy) in yamlErrors)
            errors.Add("not-yaml", where, "", message, remedy);
        return DrawingReader.Read(tree, File, beside, errors);
    }

    /// <summary>Writes a value as typed; null or blank takes the key out. A row such as <c>line</c> or <c>runs[0].start</c> that is not there yet is made.</summary>
    /// <param name="path">Path of the row: empty for the top, <c>line</c>, <c>service</c>, <c>shop</c>, <c>shop.envelope</c>, <c>runs[0]</c>, <c>runs[0].start</c>, <c>runs[0].legs[2]</c>, <c>materials[3]</c>, <c>accept[0]</c>.</param>
    /// <param name="value">A vector or a place is typed <c>east 600 up 600</c>, or <c>e 600 u 600</c>; a list <c>6000, 12000</c>; a wall <c>wall 7.11</c>.</param>
    public DrawingText Set(string path, string key, string? value)
    {
        if (root is null)
            return Refused(NotYaml);
        var kind = ShapeOf(path)?.Keys.FirstOrDefault(k => k.Name == key)?.Kind ?? Kind.Text;
        var typed = string.IsNullOrWhiteSpace(value) ? null : TypedValue.Of(kind, value.Trim());
        if (kind is Kind.Map or Kind.List)
            return Refused($"\"{key}\" is not one value.");
        return SetNode(path, key, typed);
    }

    /// <summary>A blank leg before leg <paramref name="at"/>; behind the last where it is their number.</summary>
    public DrawingText InsertLeg(int run, int at) => InsertItem(RunPath(run), "legs", at, [new YamlMap(default, []) { IsInBraces = true }]);

    public DrawingText RemoveLeg(int run, int at) => RemoveItem(RunPath(run), "legs", at);

    /// <summary>Moves a leg so that it is number <paramref name="to"/> afterwards, with the comments above it and behind it.</summary>
    public DrawingText MoveLeg(int run, int from, int to) => MoveItem(RunPath(run), "legs", from, to);

    /// <summary>A new run without legs, behind the others: from the free end of a tee, outlet or stub-in, or with a start of its own.</summary>
    public DrawingText AddRun(string name, string? from = null)
    {
        var run = new YamlMap(default, []);
        run.Pairs.Add((TypedValue.Word("run"), TypedValue.Word(name.Trim())));
        run.Pairs.Add((TypedValue.Word("start"), string.IsNullOrWhiteSpace(from) ? TypedValue.Map(("to", "flange")) : TypedValue.Map(("from", from.Trim()))));
        run.Pairs.Add((TypedValue.Word("legs"), new YamlList(default, [])));
        return InsertItem("", "runs", Runs.Count, [run]);
    }

    public DrawingText RemoveRun(int run) => RemoveItem("", "runs", run);

    public DrawingText MoveRun(int from, int to) => MoveItem("", "runs", from, to);

    /// <summary>A new row of the material list, with what is known of it.</summary>
    public DrawingText InsertMaterial(int at, IReadOnlyDictionary<string, string>? cells = null) => InsertItem("", "materials", at, [ItemOf(cells)]);

    public DrawingText RemoveMaterial(int at) => RemoveItem("", "materials", at);

    public DrawingText MoveMaterial(int from, int to) => MoveItem("", "materials", from, to);

    /// <summary>The whole material list anew, from a pasted table or a file (<see cref="MaterialTable"/>); it then stands in the drawing itself.</summary>
    public DrawingText ReplaceMaterials(IReadOnlyList<IReadOnlyDictionary<string, string>> table)
    {
        if (root is null)
            return Refused(NotYaml);
        if (table.Count == 0)
            return SetNode("", "materials", null);
        var items = table.Select(ItemOf).ToList<YamlNode>();
        var pair = YamlPaths.IndexOf(root, "materials");
        var at = pair >= 0 ? pair : PlaceFor(root, DrawingShape.Drawing, "materials");
        return Made(Edit.InsertList(root, pair, at, "materials", items), YamlPaths.With(root, pair, at, "materials", new YamlList(default, items)));
    }

    /// <summary>Accepts a finding of the desk check, with the reason that goes on the cover sheet.</summary>
    public DrawingText Accept(Finding finding, string why) =>
        InsertItem("", "accept", Accepted.Count, [finding.At.IsDrawing ? TypedValue.Map(("rule", finding.Rule), ("why", why.Trim())) : TypedValue.Map(("rule", finding.Rule), ("at", finding.At.ToString()), ("why", why.Trim()))]);

    /// <summary>Makes mechanical changes, such as a finding's own; those whose place is in another file are left out.</summary>
    public DrawingText Apply(params IEnumerable<Change> changes)
    {
        var (text, made) = Mending.Apply(Text, changes.Where(c => c.At.File == File));
        return made.Count == 0 ? Refused("This remedy no longer fits the text.") : new(text, File);
    }

    /// <summary>The text of a value in the file, for values that are neither word, list nor vector.</summary>
    internal string Written(YamlMap map, string key) => Edit.Written(map, key);

    internal YamlMap? MapAt(string path) => NodeAt(path) as YamlMap;

    internal YamlNode? NodeAt(string path) => YamlPaths.At(root, path);

    private const string NotYaml = "The file is not YAML as it stands: mend its text first.";

    private static string RunPath(int run) => RowPath.OfRun(run).ToString();

    private string? FileUnder(string key) => root?[key] is YamlText { IsEmpty: false, Value: var name } ? name : null;

    /// <summary>The same text, with why a change was not made.</summary>
    internal DrawingText Refuse(string why) => new(this, why);

    private DrawingText Refused(string why) => Refuse(why);

    private DrawingText Unchanged => Refusal is null ? this : new(this, refusal: null);

    private DrawingText SetNode(string path, string key, YamlNode? value)
    {
        if (NodeAt(path) is not YamlMap map)
        {
            var dot = path.LastIndexOf('.');
            var (parent, name) = (dot < 0 ? "" : path[..dot], path[(dot + 1)..]);
            if (name.EndsWith(']') || path.Length == 0)
                return Refused($"There is no row {path}.");
            if (NodeAt(path) is YamlText { IsEmpty: false, Value: var file })
                return Refused($"\"{name}\" stands in the file {file}: change it there.");
            if (value is null)
                return Unchanged;
            var made = new YamlMap(default, []) { IsInBraces = true };
            made.Pairs.Add((TypedValue.Word(key), value));
            return SetNode(parent, name, made);
        }

        var pair = YamlPaths.IndexOf(map, key);
        if (value is null)
            return pair < 0 ? Unchanged : Made(Edit.Remove(map, pair), YamlPaths.Put(root!, path, YamlPaths.Without(map, pair)));
        if (pair >= 0)
            return YamlPaths.IsSame(map.Pairs[pair].Value, value, 10_000) ? Unchanged : Made(Edit.Replace(map, pair, value), YamlPaths.Put(root!, path, YamlPaths.With(map, pair, pair, key, value)));
        var at = PlaceFor(map, ShapeOf(path), key);
        return Made(Edit.Insert(map, at, key, value, HasBlockNeighbours(path)), YamlPaths.Put(root!, path, YamlPaths.With(map, -1, at, key, value)));
    }

    private DrawingText InsertItem(string path, string key, int at, IReadOnlyList<YamlNode> items)
    {
        if (root is null)
            return Refused(NotYaml);
        if (NodeAt(path) is not YamlMap parent)
            return Refused($"There is no row {path}.");
        var pair = YamlPaths.IndexOf(parent, key);
        if (pair >= 0 && parent.Pairs[pair].Value is YamlList { Items.Count: > 0 } list)
        {
            if (at < 0 || at > list.Items.Count)
                return Refused($"There is no place {at} in {key}.");
            var more = list.Items.ToList();
            more.InsertRange(at, items);
            return Made(Edit.InsertItem(list, Edit.ValueStart(parent, pair), at, items[0]), YamlPaths.Put(root!, path, YamlPaths.With(parent, pair, pair, key, new YamlList(default, more))));
        }

        if (pair >= 0 && parent.Pairs[pair].Value is not (YamlList or YamlText { IsEmpty: true }))
            return Refused(parent.Pairs[pair].Value is YamlText { Value: var file } ? $"\"{key}\" stands in the file {file}: change it there." : $"\"{key}\" is not a list.");
        var place = pair >= 0 ? pair : PlaceFor(parent, ShapeOf(path), key);
        return Made(Edit.InsertList(parent, pair, place, key, items), YamlPaths.Put(root!, path, YamlPaths.With(parent, pair, place, key, new YamlList(default, [.. items]))));
    }

    private DrawingText RemoveItem(string path, string key, int at)
    {
        if (ListAt(path, key, at) is not { } found)
            return Refused(root is null ? NotYaml : $"There is no row {at} in {key}.");
        var (parent, pair, list) = found;
        var less = list.Items.ToList();
        less.RemoveAt(at);
        return Made(Edit.RemoveItem(parent, pair, at), YamlPaths.Put(root!, path, YamlPaths.With(parent, pair, pair, key, new YamlList(default, less))));
    }

    private DrawingText MoveItem(string path, string key, int from, int to)
    {
        if (ListAt(path, key, from) is not { } found || to < 0 || to >= found.List.Items.Count)
            return Refused(root is null ? NotYaml : $"There is no such row in {key}.");
        if (from == to)
            return Unchanged;
        var (parent, pair, list) = found;
        var moved = list.Items.ToList();
        moved.RemoveAt(from);
        moved.Insert(to, list.Items[from]);
        return Made(Edit.MoveItem(list, Edit.ValueStart(parent, pair), from, to), YamlPaths.Put(root!, path, YamlPaths.With(parent, pair, pair, key, new YamlList(default, moved))));
    }

    private (YamlMap Parent, int Pair, YamlList List)? ListAt(string path, string key, int at) =>
        NodeAt(path) is YamlMap parent && YamlPaths.IndexOf(parent, key) is >= 0 and var pair && parent.Pairs[pair].Value is YamlList list && at >= 0 && at < list.Items.Count ? (parent, pair, list) : null;

    /// <summary>The changed text, where it reads back as what was meant.</summary>
    private DrawingText Made(string text, YamlNode meant)
    {
        var made = new DrawingText(text, File);
        return made.root is not null && YamlPaths.IsSame(made.root, meant, 100_000)
            ? made
            : Refused("This is written in a way that cannot be changed here (a value that is used in several places, a tag): change it in the file's text.");
    }

    private static YamlMap ItemOf(IReadOnlyDictionary<string, string>? cells)
    {
        var item = new YamlMap(default, []) { IsInBraces = true };
        foreach (var key in DrawingShape.Item.Keys)
        {
            if (cells?.GetValueOrDefault(key.Name) is { } value && !string.IsNullOrWhiteSpace(value))
                item.Pairs.Add((TypedValue.Word(key.Name), TypedValue.Of(Kind.Text, value.Trim())));
        }

        return item;
    }

    /// <summary>Behind the last key that the shape names before it.</summary>
    private static int PlaceFor(YamlMap map, Shape? shape, string key)
    {
        var order = shape is null ? -1 : Array.FindIndex(shape.Keys, k => k.Name == key);
        if (order < 0)
            return map.Pairs.Count;
        return map.Pairs.FindLastIndex(p => Array.FindIndex(shape!.Keys, k => k.Name == p.Key.Value) is >= 0 and var other && other < order) + 1;
    }

    private bool HasBlockNeighbours(string path)
    {
        var bracket = path.LastIndexOf('[');
        return bracket > 0 && path.EndsWith(']') && NodeAt(path[..bracket]) is YamlList list && list.Items.Exists(i => i is YamlMap { IsInBraces: false });
    }

    private static Shape? ShapeOf(string path)
    {
        var shape = DrawingShape.Drawing;
        foreach (var step in YamlPaths.Steps(path).Where(s => !char.IsAsciiDigit(s[0])))
        {
            if (shape.Keys.FirstOrDefault(k => k.Name == step)?.Of is not { } inner)
                return null;
            shape = inner;
        }

        return shape;
    }
}
