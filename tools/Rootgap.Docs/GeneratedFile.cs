using System.Globalization;
using System.Text;
using Rootgap.Checks;
using Rootgap.Drawings;
using Rootgap.Findings;
using Rootgap.Standards;

namespace Rootgap.Docs;

/// <summary>A file that is made from the code: its path from the root of the repository, and its text.</summary>
internal sealed record GeneratedFile(string Path, string Text)
{
    private const string Notice = "<!-- Made by tools/Rootgap.Docs: change the code, not this page. -->\n\n";

    public static IEnumerable<GeneratedFile> All() =>
    [
        new("schema/drawing.schema.json", DrawingSchema.Text()),
        new("docs/drawing-keys.md", Keys()),
        new("docs/rules.md", Rules()),
        .. DeskCheck.Rules.Select(r => new GeneratedFile(PageOf(r), Page(r))),
        new("docs/tables.md", Tables()),
    ];

    public static HashSet<string> RulePages() => [.. DeskCheck.Rules.Select(PageOf)];

    private static string PageOf(Rule rule) => $"docs/rules/{rule.Name}.md";

    private static string Keys()
    {
        var text = new StringBuilder("# Every key of the drawing file\n\n").Append(Notice)
            .Append("How to write a drawing file is told in [drawing-file.md](drawing-file.md); this page lists every key. ")
            .Append("A key in **bold** must be there.\n");
        foreach (var shape in DrawingSchema.Shapes())
        {
            text.Append(CultureInfo.InvariantCulture, $"\n## {Title(shape)}\n\n| key | written as | what it is |\n|---|---|---|\n");
            foreach (var key in shape.Keys)
            {
                var name = key.IsRequired || (shape == DrawingShape.Line && (key.Name is "size" or "schedule")) ? $"**`{key.Name}`**" : $"`{key.Name}`";
                text.Append(CultureInfo.InvariantCulture, $"| {name} | {Cell(Written(key))} | {Cell(key.Says)}{With(shape, key)} |\n");
            }
        }

        text.Append("\n## What goes with each `to`\n\n| `to` | keys of its own |\n|---|---|\n");
        foreach (var (word, keys) in DrawingShape.KeysOf)
            text.Append(CultureInfo.InvariantCulture, $"| `{word}` | {(keys.Length == 0 ? "none" : string.Join(", ", keys.Select(k => $"`{k}`")))} |\n");
        return text.ToString();
    }

    private static string Title(Shape shape) => shape == DrawingShape.Drawing ? "The drawing" : char.ToUpperInvariant(shape.Name[0]) + shape.Name[1..];

    private static string With(Shape shape, Key key)
    {
        if (shape != DrawingShape.Leg)
            return "";
        var words = DrawingShape.KeysOf.Where(p => p.Value.Contains(key.Name)).Select(p => $"`{p.Key}`").ToList();
        return words.Count == 0 ? "" : $" With {string.Join(", ", words)}.";
    }

    private static string Written(Key key) => key.Kind switch
    {
        Kind.Text => "text",
        Kind.Whole => "whole number",
        Kind.Number => "number",
        Kind.Mass => "kg, or with its unit: `55 lb`",
        Kind.Length => "length",
        Kind.Lengths => "list of lengths",
        Kind.Size => "nominal size",
        Kind.Sizes => "nominal size, or two: `8 x 6`",
        Kind.Schedule => "schedule, or `{wall: 7.11}`",
        Kind.Direction => "direction",
        Kind.Go => "direction or vector",
        Kind.By => "length, `makeup`, or `return`",
        Kind.Angle => "degrees",
        Kind.Choice => string.Join(", ", key.Words!.Select(w => $"`{w}`")),
        Kind.YesNo => "`yes`, `no`",
        Kind.Slope => "slope, such as `1:100`",
        Kind.Quantity => "count, or length with a unit",
        Kind.Place => "`{east: 0, north: 0, up: 0}`",
        Kind.Plate => $"what it is and its thickness: {key.Of!.Name}",
        Kind.Map => $"keys of its own: {key.Of!.Name}",
        Kind.List => $"list, each row: {key.Of!.Name}",
        Kind.Materials => "list of items, or a file's name (.yaml, .csv, .xlsx)",
        Kind.ShopFile => "rules, or a file's name (.yaml)",
        Kind.Measured => "`{item 2: {take-off: 230.5}}`",
        Kind.Holes => "`straddle`, `on-centre` or degrees",
        Kind.Flat => "`top`, `bottom` or a direction",
        Kind.Spread => "length either way, or `{normal: 0.5}`",
        Kind.SpreadAngle => "degrees either way, or `{normal: 0.1}`",
        Kind.Names => "name, or list of names",
        _ => throw new InvalidOperationException("Every kind of value is described."),
    };

    private static string Rules()
    {
        var text = new StringBuilder("# The desk check's rules\n\n").Append(Notice)
            .Append("`rootgap check` looks for these before any steel is cut. A `stop` can't be built as drawn; a `warn` wants a look; a `note` informs.\n")
            .Append("A drawing can accept a finding, with its reason: `accept: [{rule: NAME, at: leg 3 of main, why: the reason}]`. The finding stays on the cover sheet with the reason.\n\n")
            .Append("| rule | at most | looks for |\n|---|---|---|\n");
        foreach (var rule in DeskCheck.Rules)
            text.Append(CultureInfo.InvariantCulture, $"| [{rule.Name}](rules/{rule.Name}.md) | {Word(rule.Severity)} | {Cell(rule.Says)} |\n");
        return text.ToString();
    }

    private static string Page(Rule rule) =>
        $"# {rule.Name}\n\n{Notice}**{Word(rule.Severity)}** - {rule.Says}\n\n{rule.Why}\n\n{(rule.CanBeAccepted ? $"If it is meant so, the drawing says why: `accept: [{{rule: {rule.Name}, why: the reason}}]`; with `at: leg 3 of main` for one place only." : "It cannot be accepted: what it stops cannot be made.")}\n\n[All rules](../rules.md)\n";

    private static string Tables()
    {
        var text = new StringBuilder("# The standard tables\n\n").Append(Notice)
            .Append("`rootgap tables --out DIR` writes every table as CSV, one value a row, each with its source, to be compared with the book. ")
            .Append("A look-up never interpolates: a size that a table does not have is a finding.\n\n| table | values | items | standards |\n|---|---|---|---|\n");
        foreach (var name in StandardTable.Names)
        {
            var rows = StandardTable.Rows(name);
            text.Append(CultureInfo.InvariantCulture, $"| `{name}` | {rows.Count} | {List(rows.Select(r => r.Item), 12)} | {List(rows.Select(r => r.Standard), 12)} |\n");
        }

        text.Append("\n## Where each value was read\n\nThe number of values per source; a standard's number alone would not say which print was looked at.\n");
        foreach (var name in StandardTable.Names)
        {
            text.Append(CultureInfo.InvariantCulture, $"\n### {name}\n\n| source | values |\n|---|---|\n");
            foreach (var group in StandardTable.Rows(name).GroupBy(r => r.Source, StringComparer.Ordinal).OrderByDescending(g => g.Count()).ThenBy(g => g.Key, StringComparer.Ordinal))
                text.Append(CultureInfo.InvariantCulture, $"| {Cell(group.Key)} | {group.Count()} |\n");
        }

        return text.ToString();
    }

    private static string List(IEnumerable<string> words, int most)
    {
        var all = words.Distinct(StringComparer.Ordinal).ToList();
        return Cell(string.Join(", ", all.Take(most))) + (all.Count > most ? string.Create(CultureInfo.InvariantCulture, $" and {all.Count - most} more") : "");
    }

    private static string Word(Severity severity) => severity switch
    {
        Severity.Stop => "stop",
        Severity.Warn => "warn",
        _ => "note",
    };

    private static string Cell(string text) => text.Replace("|", "\\|", StringComparison.Ordinal).Replace("\n", " ", StringComparison.Ordinal);
}
