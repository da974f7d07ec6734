using System.Collections.Immutable;

namespace Rootgap.Sheets;

/// <summary>A ruled table. Its heading is repeated on each page, and that of a group where its rows go on; it is as wide as the column it stands in, unless its columns need less.</summary>
public sealed record Table(ImmutableArray<Column> Columns, ImmutableArray<Row> Rows)
{
    public Table(IEnumerable<Column> columns, IEnumerable<Row> rows)
        : this([.. columns], [.. rows])
    {
    }

    /// <summary>Style of the cells.</summary>
    public TextStyle Style { get; init; } = TextStyle.Body;

    /// <summary>Least height of a row, mm; 9 or more where something is to be written in by hand.</summary>
    public double RowHeight { get; init; }

    /// <summary>To what height rows are closed up, mm, where that saves a page; 0 where they are not.</summary>
    public double LeastRowHeight { get; init; }

    /// <summary>No list begins a page for fewer rows than this: rows close up, else as many go over with them.</summary>
    public const int FewestRows = 6;

    /// <summary>What stands in place of the rows where there are none.</summary>
    public string WhenEmpty { get; init; } = "none";
}

/// <summary>A column of a table.</summary>
public sealed record Column(string Heading, ColumnWidth Width, Anchor Align = Anchor.Start)
{
    /// <summary>As wide as its content.</summary>
    public Column(string heading, Anchor align = Anchor.Start)
        : this(heading, ColumnWidth.Fit, align)
    {
    }

    public static implicit operator Column(string heading) => new(heading);

    public static Column FromString(string heading) => new(heading);
}

/// <summary>How wide a column is: a length, as its content needs, or a share of what is left.</summary>
public readonly record struct ColumnWidth
{
    private ColumnWidth(double fixedWidth, double share) => (FixedWidth, ShareOfRest) = (fixedWidth, share);

    internal double FixedWidth { get; }

    internal double ShareOfRest { get; }

    /// <summary>As wide as its content, narrower where the page is (this is the default).</summary>
    public static ColumnWidth Fit => default;

    /// <summary>A width in mm.</summary>
    public static ColumnWidth Of(double mm) => new(mm, 0);

    /// <summary>A share of what the other columns leave, at least as much as its content needs.</summary>
    public static ColumnWidth Share(double share = 1) => new(0, share);
}

/// <summary>A row of a table. Cells that are missing at its end stay empty.</summary>
public sealed record Row(ImmutableArray<Cell> Cells)
{
    public Row(params IEnumerable<Cell> cells)
        : this([.. cells])
    {
    }

    /// <summary>A total, or a group's heading: bold, with a strong rule above it.</summary>
    public bool Strong { get; init; }

    /// <summary>Heads the rows below it: its first cell across the whole width, on a grey ground; never the last row of a page.</summary>
    public bool Group { get; init; }

    /// <summary>For the app: id and class of the row in SVG.</summary>
    public string? Id { get; init; }

    public string? Class { get; init; }
}

/// <summary>What stands in a cell: text that wraps (line breaks are kept), after it a small figure if there is one.</summary>
public sealed record Cell(string Text = "")
{
    public static readonly Cell Empty = new();

    /// <summary>An empty box to tick, before the text.</summary>
    public bool Tick { get; init; }

    public bool Bold { get; init; }

    /// <summary>Height of its capitals where they are larger than the table's, mm: what is read first; 0 where not.</summary>
    public double Height { get; init; }

    /// <summary>In the accent colour and bold: what must not be missed in this row.</summary>
    public bool Alert { get; init; }

    /// <summary>A drawing below the text, made smaller where the column is narrower.</summary>
    public Figure? Figure { get; init; }

    public static implicit operator Cell(string text) => new(text);

    public static Cell FromString(string text) => new(text);

    /// <summary>An empty box to tick.</summary>
    public static Cell Box(string text = "") => new(text) { Tick = true };

    /// <summary>Text that must not be missed.</summary>
    public static Cell Warn(string text) => new(text) { Alert = true };
}
