namespace Rootgap.Sheets;

/// <summary>A table with its columns measured: sets heading and rows at a given height of a page. Millimetres.</summary>
internal sealed class TableLayout
{
    private static readonly Ink Pale = new(0xED, 0xED, 0xED); // grey 7 %

    private readonly Table _table;
    private readonly double[] _widths;
    private readonly SetRow _heading;

    public TableLayout(Table table, double available)
    {
        _table = table;
        _widths = Widths(table, available);
        _heading = Set(new Row(table.Columns.Select(c => new Cell(c.Heading))) { Strong = true }, leastHeight: 0);
    }

    public double HeadingHeight => _heading.Height;

    public double Width => _widths.Sum();

    private double PadX => _table.Style.Height * 0.5;

    private double PadY => _table.Style.Height * 0.6;

    private double TickSide => _table.Style.Height * 1.25;

    public IEnumerable<SetRow> Rows() => Rows(_table.RowHeight);

    private IEnumerable<SetRow> Rows(double leastHeight) =>
        _table.Rows.IsEmpty ? [Set(new Row(_table.WhenEmpty), 0)] : _table.Rows.Select(r => Set(r, leastHeight));

    /// <summary>The rows, closed up where that saves a page; and the row before which a page begins in any case, so that none begins for a few of them, or -1.</summary>
    /// <param name="room">Height that is left on this page, mm.</param>
    /// <param name="page">Height of a whole one.</param>
    public (IReadOnlyList<SetRow> Rows, int BreakBefore) Rows(double room, double page)
    {
        var usual = Rows().ToList();
        var (pages, onLast) = Pages(usual);
        if (_table.LeastRowHeight <= 0 || pages == 1)
            return (usual, -1);
        for (var height = _table.RowHeight - 0.2; height >= _table.LeastRowHeight - 1e-9 && Pages([.. Rows(_table.LeastRowHeight)]).Pages < pages; height -= 0.2)
        {
            if (Rows(height).ToList() is var closer && Pages(closer).Pages < pages)
                return (closer, -1);
        }

        if (usual.Count < Table.FewestRows || onLast >= Table.FewestRows)
            return (usual, -1);
        // A group's heading goes over with its rows.
        var before = usual.Count - Table.FewestRows;
        return (usual, before > 0 && usual[before - 1].Source.Group ? before - 1 : before);

        // How many pages the rows take, and how many stand on the last one.
        (int Pages, int OnLast) Pages(List<SetRow> rows)
        {
            var (left, on, count) = (room - HeadingHeight, 0, 1);
            SetRow? group = null;
            foreach (var row in rows)
            {
                if (row.Height > left)
                    (left, on, count) = (page - HeadingHeight - (group is null || row.Source.Group ? 0 : group.Height), 0, count + 1);
                left -= row.Height;
                on++;
                group = row.Source.Group ? row : group;
            }

            return (count, on);
        }
    }

    /// <summary>A group's heading once more, for the page on which its rows go on.</summary>
    public SetRow Continued(SetRow group) => Set(group.Source with { Cells = [group.Source.Cells[0] with { Text = group.Source.Cells[0].Text + ", continued" }], Id = null }, 0);

    public void DrawHeading(Canvas canvas, Spot corner)
    {
        Draw(canvas, corner, _heading, 0, int.MaxValue);
        Between(canvas, corner, _heading.Height);
        Across(canvas, corner, 0, LineStyle.Thick);
        Across(canvas, corner, _heading.Height, LineStyle.Thick);
    }

    /// <summary>How many of a row's lines, from one on, fit in a height.</summary>
    public int LinesIn(double height) =>
        (int)Math.Floor((height - (2 * PadY) - _table.Style.Height) / _table.Style.Pitch) + 1;

    /// <summary>Height of a row, or of the part of it from one line to another; figures stand in the last part.</summary>
    public double HeightOf(SetRow row, int fromLine, int toLine)
    {
        if (fromLine == 0 && toLine >= row.Lines)
            return row.Height;
        var height = HeightOf(Math.Min(toLine, row.Lines) - fromLine);
        for (var c = 0; c < row.Cells.Count && toLine >= row.Lines; c++)
        {
            var (cell, style, lines) = row.Cells[c];
            if (cell.Figure is { } figure)
                height = Math.Max(height, (2 * PadY) + TextHeight(lines.Count - fromLine, style) + FigureHeight(figure, _widths[c] - (2 * PadX)));
        }
        return height;
    }

    /// <summary>Draws a row, or the lines of it from one to another, and the rule below it.</summary>
    public double DrawRow(Canvas canvas, Spot corner, SetRow row, int fromLine = 0, int toLine = int.MaxValue)
    {
        var height = HeightOf(row, fromLine, toLine);
        if (row.Source.Group)
            canvas.Fill(Shape.Rectangle(new(corner.X, corner.Y, Width, height)), Pale);
        else
            Between(canvas, corner, height);
        if (row.Source.Id is null && row.Source.Class is null)
            Draw(canvas, corner, row, fromLine, toLine);
        else
            canvas.Group(fromLine == 0 ? row.Source.Id : null, row.Source.Class, g => Draw(g, corner, row, fromLine, toLine));
        if (row.Source.Strong && fromLine == 0)
            Across(canvas, corner, 0, LineStyle.Thick);
        Across(canvas, corner, height, LineStyle.Thin);
        return height;
    }

    /// <summary>A frame around the part of the table that stands on one page.</summary>
    public void DrawFrame(Canvas canvas, Spot corner, double height) => canvas.Rectangle(new(corner.X, corner.Y, Width, height), LineStyle.Medium);

    // Rules between the columns, a row at a time: none runs through the heading of a group.
    private void Between(Canvas canvas, Spot corner, double height)
    {
        var x = corner.X;
        for (var i = 0; i < _widths.Length - 1; i++)
        {
            x += _widths[i];
            canvas.Line(x, corner.Y, x, corner.Y + height, LineStyle.Thin);
        }
    }

    private void Across(Canvas canvas, Spot corner, double y, LineStyle style) =>
        canvas.Line(corner.X, corner.Y + y, corner.X + Width, corner.Y + y, style);

    private void Draw(Canvas canvas, Spot corner, SetRow row, int fromLine, int toLine)
    {
        var x = corner.X;
        var whole = fromLine == 0 && toLine >= row.Lines;
        for (var c = 0; c < row.Cells.Count; c++)
        {
            var (cell, style, lines) = row.Cells[c];
            var (left, top, width) = (x + PadX, corner.Y + PadY + (whole ? row.Spare / 2 : 0), (row.Source.Group ? Width : _widths[c]) - (2 * PadX));
            // A figure in larger letters stands in the middle of its row, as the small ones do.
            if (whole && lines.Count <= 1 && cell.Figure is null)
                top = corner.Y + ((row.Height - style.Height) / 2);
            x += _widths[c];
            if (cell.Tick && fromLine == 0)
                canvas.Rectangle(new(left, top - ((TickSide - style.Height) / 2), TickSide, TickSide), LineStyle.Medium);
            var indent = cell.Tick ? TickSide + PadX : 0;
            var shown = lines.Skip(fromLine).Take(toLine - fromLine).ToList();
            canvas.Lines(shown, left + indent, top, width - indent, style, _table.Columns[c].Align);
            if (cell.Figure is { } figure && toLine >= row.Lines)
                canvas.PlaceIn(new(left, top + TextHeight(shown.Count, style), width, FigureHeight(figure, width)), figure);
        }
    }

    private SetRow Set(Row row, double leastHeight)
    {
        var cells = new List<(Cell, TextStyle, IReadOnlyList<string>)>(_widths.Length);
        var (most, height) = (1, 0.0);
        for (var c = 0; c < (row.Group ? 1 : _widths.Length); c++)
        {
            var cell = c < row.Cells.Length ? row.Cells[c] : Cell.Empty;
            var style = StyleOf(cell, row.Strong || row.Group);
            var width = (row.Group ? Width : _widths[c]) - (2 * PadX);
            var lines = cell.Text.Length == 0 ? [] : style.Wrap(cell.Text, width - (cell.Tick ? TickSide + PadX : 0));
            cells.Add((cell, style, lines));
            most = Math.Max(most, lines.Count);
            var needs = HeightOf(Math.Max(1, lines.Count), style);
            if (cell.Figure is { } figure)
                needs = (2 * PadY) + TextHeight(lines.Count, style) + FigureHeight(figure, width);
            height = Math.Max(height, needs);
        }
        return new(row, cells, most, Math.Max(height, leastHeight)) { Spare = Math.Max(0, leastHeight - height) };
    }

    private double HeightOf(int lines, TextStyle? style = null) => (style is null || style.Height <= _table.Style.Height ? 2 * PadY : 2.2) + (style ?? _table.Style).Height + ((lines - 1) * (style ?? _table.Style).Pitch);

    // Of the lines above a figure.
    private double TextHeight(int lines, TextStyle style) => lines <= 0 ? 0 : style.Height + ((lines - 1) * style.Pitch) + PadY;

    private static double FigureHeight(Figure figure, double width) => figure.Height * Math.Min(1, width / figure.Width);

    private TextStyle StyleOf(Cell cell, bool strong)
    {
        var style = cell.Height > 0 ? _table.Style with { Height = cell.Height } : _table.Style;
        return cell.Alert ? style with { Bold = true, Ink = Ink.Accent } : strong || cell.Bold ? style with { Bold = true } : style;
    }

    // A column wants the width of its longest line and can do with its longest word. Room is shared out between the two.
    private double[] Widths(Table table, double available)
    {
        var count = table.Columns.Length;
        var (least, wanted) = (new double[count], new double[count]);
        for (var c = 0; c < count; c++)
        {
            Measure(table.Columns[c].Heading, StyleOf(Cell.Empty, strong: true), 0, c);
            foreach (var row in table.Rows)
            {
                if (c >= row.Cells.Length || row.Group)
                    continue;
                var cell = row.Cells[c];
                Measure(cell.Text, StyleOf(cell, row.Strong), cell.Tick ? TickSide + (cell.Text.Length > 0 ? PadX : 0) : 0, c);
                if (cell.Figure is { } figure)
                    wanted[c] = Math.Max(wanted[c], figure.Width);
            }
            if (table.Rows.IsEmpty && c == 0)
                Measure(table.WhenEmpty, table.Style, 0, 0);
            least[c] += 2 * PadX;
            wanted[c] = Math.Max(wanted[c] + (2 * PadX), least[c]);
            if (table.Columns[c].Width.FixedWidth > 0)
                least[c] = wanted[c] = table.Columns[c].Width.FixedWidth;
        }
        return ShareOut(table, available, least, wanted);

        void Measure(string text, TextStyle style, double before, int c)
        {
            // A box to tick has its room also where no word stands beside it.
            least[c] = Math.Max(least[c], before);
            foreach (var range in text.AsSpan().Split('\n'))
            {
                var line = text.AsSpan()[range];
                wanted[c] = Math.Max(wanted[c], style.Width(line) + before);
                for (var at = 0; at < line.Length;)
                {
                    var end = Wrapping.WordEnd(line, at);
                    least[c] = Math.Max(least[c], style.Width(line[at..end]) + before);
                    at = end + 1;
                }
            }
        }
    }

    private static double[] ShareOut(Table table, double available, double[] least, double[] wanted)
    {
        var (floor, wish) = (least.Sum(), wanted.Sum());
        if (wish <= available)
        {
            var shares = table.Columns.Select(c => c.Width.ShareOfRest).ToArray();
            if (shares.Sum() <= 0)
                return wanted;
            // Water-filling: a share never makes a column narrower than it wants to be.
            var open = Enumerable.Range(0, shares.Length).Where(i => shares[i] > 0).ToHashSet();
            var room = available - wanted.Where((_, i) => !open.Contains(i)).Sum();
            while (open.FirstOrDefault(i => room * shares[i] / open.Sum(j => shares[j]) < wanted[i], -1) is >= 0 and var narrow)
            {
                open.Remove(narrow);
                room -= wanted[narrow];
            }
            var total = open.Sum(i => shares[i]);
            return [.. wanted.Select((w, i) => open.Contains(i) ? room * shares[i] / total : w)];
        }
        if (floor <= available)
        {
            // Columns that take a share give way first: they are the ones with running text.
            var settled = least.Select((l, i) => table.Columns[i].Width.ShareOfRest > 0 ? l : wanted[i]).ToArray();
            if (settled.Sum() <= available)
                (least, floor) = (settled, settled.Sum());
            else
                (wanted, wish) = (settled, settled.Sum());
            var t = (available - floor) / (wish - floor);
            return [.. least.Select((l, i) => l + (t * (wanted[i] - l)))];
        }
        // Not even the longest words fit side by side: words are broken, the widest columns first.
        var cap = Cap(least, available);
        return [.. least.Select(l => Math.Min(l, cap))];
    }

    // The width to which the widest are cut so that the sum is what is available.
    private static double Cap(double[] widths, double available)
    {
        var sorted = widths.Order().ToArray();
        var left = available;
        for (var i = 0; i < sorted.Length; i++)
        {
            var even = left / (sorted.Length - i);
            if (even <= sorted[i])
                return even;
            left -= sorted[i];
        }
        return sorted[^1];
    }
}

/// <summary>A row broken into lines: its cells with their style, the most lines in a cell, and its height in mm.</summary>
internal sealed record SetRow(Row Source, IReadOnlyList<(Cell Cell, TextStyle Style, IReadOnlyList<string> Lines)> Cells, int Lines, double Height)
{
    /// <summary>Height beyond what the text needs, mm; half of it goes above the text.</summary>
    public double Spare { get; init; }
}
