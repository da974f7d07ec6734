using System.Globalization;
using Rootgap.Findings;

namespace Rootgap.Drawings;

/// <summary>The rows of a drawing text, as they are written.</summary>
internal sealed class WrittenRows
{
    private readonly DrawingText text;

    public WrittenRows(DrawingText text)
    {
        this.text = text;
        Top = Row("", DrawingShape.Drawing);
        Line = Row("line", DrawingShape.Line);
        Service = Row("service", DrawingShape.Service);
        Shop = Row("shop", DrawingShape.Shop);
        Envelope = Row("shop.envelope", DrawingShape.Envelope);
        Materials = All("materials", DrawingShape.Item);
        Accepted = All("accept", DrawingShape.Accept);
        Runs = text.NodeAt("runs") is YamlList runs
            ? [.. runs.Items.Select((_, i) => new WrittenRun(i, Row(RunPath(i), DrawingShape.Run), Row(RunPath(i) + ".start", DrawingShape.Start), All(RunPath(i) + ".legs", DrawingShape.Leg)))]
            : [];
    }

    public WrittenRow Top { get; }
    public WrittenRow Line { get; }
    public WrittenRow Service { get; }
    public WrittenRow Shop { get; }
    public WrittenRow Envelope { get; }
    public IReadOnlyList<WrittenRow> Materials { get; }
    public IReadOnlyList<WrittenRow> Accepted { get; }
    public IReadOnlyList<WrittenRun> Runs { get; }

    private static string RunPath(int run) => RowPath.OfRun(run).ToString();

    private List<WrittenRow> All(string path, Shape shape) => text.NodeAt(path) is YamlList list
        ? [.. list.Items.Select((item, i) => Row(string.Create(CultureInfo.InvariantCulture, $"{path}[{i}]"), item as YamlMap, shape))]
        : [];

    private WrittenRow Row(string path, Shape shape) => Row(path, text.NodeAt(path) as YamlMap, shape);

    private WrittenRow Row(string path, YamlMap? map, Shape shape)
    {
        var cells = new Dictionary<string, string>(map?.Pairs.Count ?? 0, StringComparer.Ordinal);
        foreach (var (key, value) in map?.Pairs ?? [])
        {
            var isOfItsOwn = value is not YamlText && Array.Find(shape.Keys, k => k.Name == key.Value) is { Of: not null, Kind: not Kind.Plate };
            if (!isOfItsOwn && TypedValue.Says(value, () => text.Written(map!, key.Value)) is { Length: > 0 } says)
                cells[key.Value] = says;
        }

        return new(path, map, cells);
    }
}
