using System.Globalization;

namespace Rootgap.Findings;

/// <summary>Where a row stands in the tree of a drawing file: <c>runs[0].legs[2]</c>, <c>runs[1].start</c>, <c>materials[3]</c>, <c>service</c>; empty for the drawing itself.</summary>
/// <remarks>Counted from 0, as the file's tree is; people are told runs by name and legs from 1.</remarks>
public readonly record struct RowPath
{
    private readonly string? text;

    private RowPath(string text) => this.text = text;

    /// <summary>The drawing itself.</summary>
    public static readonly RowPath Drawing;

    /// <summary>The path that a text writes; any text is one.</summary>
    public static RowPath Of(string text) => new(text);

    public static implicit operator RowPath(string text) => Of(text);

    public static RowPath OfRun(int run) => new(string.Create(CultureInfo.InvariantCulture, $"runs[{run}]"));

    public static RowPath OfStart(int run) => OfRun(run) + "start";

    public static RowPath OfLeg(int run, int leg) => new(string.Create(CultureInfo.InvariantCulture, $"runs[{run}].legs[{leg}]"));

    public static RowPath OfItem(int row) => new(string.Create(CultureInfo.InvariantCulture, $"materials[{row}]"));

    /// <summary>The row below this one under a key.</summary>
    public static RowPath operator +(RowPath path, string key) => new(path.IsDrawing ? key : $"{path}.{key}");

    public bool IsDrawing => string.IsNullOrEmpty(text);

    /// <summary>Index of the run in or below which it is; null elsewhere.</summary>
    public int? Run => Index("runs[");

    /// <summary>Index of the leg in or below which it is; null elsewhere.</summary>
    public int? Leg => Below is { } rest ? Number(rest, ".legs[") : null;

    /// <summary>Whether it is the start of a run, or below it.</summary>
    public bool IsStart => Below?.StartsWith(".start", StringComparison.Ordinal) == true;

    /// <summary>Index of the row of the material list; null elsewhere.</summary>
    public int? Item => Index("materials[");

    /// <summary>The leg, the start, the run, or else the block at the top in which it lies.</summary>
    public RowPath Group
    {
        get
        {
            if (Run is not { } run)
                return new((text ?? "").Split('.', '[')[0]);
            return Leg is { } leg ? OfLeg(run, leg) : IsStart ? OfStart(run) : OfRun(run);
        }
    }

    /// <summary>Whether it is another path, or lies below it.</summary>
    public bool IsWithin(RowPath other) =>
        other.IsDrawing || this == other || (ToString().StartsWith(other.ToString(), StringComparison.Ordinal) && ToString()[other.ToString().Length] is '.' or '[');

    /// <summary>A choice of legs in words, counted from one, run by run: <c>leg 1, 2 or 7 of run 1 or leg 3 of run 2</c>.</summary>
    /// <param name="nameOf">What a run is called, by its index.</param>
    public static string Legs(IEnumerable<RowPath> legs, Func<int, string> nameOf) => string.Join(" or ", legs.Where(l => l is { Run: not null, Leg: not null }).Distinct().GroupBy(l => l.Run!.Value, l => l.Leg!.Value + 1)
        .Select(g => (Name: nameOf(g.Key), Legs: g.Select(n => n.ToString(CultureInfo.InvariantCulture)).ToList()))
        .Select(g => $"leg {(g.Legs.Count > 1 ? string.Join(", ", g.Legs.SkipLast(1)) + " or " : "")}{g.Legs[^1]} of {g.Name}"));

    /// <summary>The path as the file's tree writes it.</summary>
    public override string ToString() => text ?? "";

    public bool Equals(RowPath other) => string.Equals(ToString(), other.ToString(), StringComparison.Ordinal);

    public override int GetHashCode() => ToString().GetHashCode(StringComparison.Ordinal);

    /// <summary>What follows the run.</summary>
    private string? Below => Run is not null && text!.IndexOf(']', StringComparison.Ordinal) is var close ? text[(close + 1)..] : null;

    private int? Index(string word) => text is null ? null : Number(text, word);

    private static int? Number(string from, string word) =>
        from.StartsWith(word, StringComparison.Ordinal) && from.IndexOf(']', StringComparison.Ordinal) is var close && close > word.Length
        && int.TryParse(from.AsSpan(word.Length, close - word.Length), NumberStyles.None, CultureInfo.InvariantCulture, out var index) ? index : null;
}
