namespace Rootgap.Findings;

/// <summary>Writes changes into a text. Nothing but the changed stretches is touched: comments, layout and line ends stay.</summary>
public static class Mending
{
    /// <summary>The text with its changes, and those that were made, in the order of the text. A change that overlaps an earlier one, or whose place is not in the text, is left out.</summary>
    public static (string Text, IReadOnlyList<Change> Made) Apply(string text, IEnumerable<Change> changes)
    {
        var lines = LineStarts(text);
        var stretches = new List<(int From, int To, Change Change)>();
        foreach (var change in changes.OrderBy(c => c.At.Line).ThenBy(c => c.At.Column).ThenBy(c => c.NewText, StringComparer.Ordinal))
        {
            if (Stretch(text, lines, change) is { } found && (stretches.Count == 0 || found.From >= stretches[^1].To && !(found.From == stretches[^1].From && found.To == stretches[^1].To)))
                stretches.Add((found.From, found.To, change));
        }

        // From the back, so that the places before stay true.
        var isWindows = text.Contains("\r\n", StringComparison.Ordinal);
        for (var i = stretches.Count - 1; i >= 0; i--)
        {
            var written = stretches[i].Change.NewText;
            text = string.Concat(text.AsSpan(0, stretches[i].From), isWindows ? written.Replace("\n", "\r\n", StringComparison.Ordinal) : written, text.AsSpan(stretches[i].To));
        }

        return (text, [.. stretches.Select(s => s.Change)]);
    }

    private static List<int> LineStarts(string text)
    {
        var starts = new List<int> { 0 };
        for (var i = 0; i < text.Length; i++)
        {
            if (text[i] == '\n')
                starts.Add(i + 1);
        }

        return starts;
    }

    private static (int From, int To)? Stretch(string text, List<int> lines, Change change)
    {
        var at = change.At;
        if (at.Line < 1 || at.Line > lines.Count || at.Column < 1 || at.EndColumn < at.Column)
            return null;
        // A byte order mark takes no column.
        var start = lines[at.Line - 1] + (at.Line == 1 && text.StartsWith('\uFEFF') ? 1 : 0);
        var end = at.Line < lines.Count ? lines[at.Line] : text.Length;
        var (from, to) = (start + at.Column - 1, start + at.EndColumn - 1);
        if (to > end)
            return null;
        return change.TakesOutEntry ? Entry(text, lines[at.Line - 1], end, from, to) : (from, to);
    }

    /// <summary>A whole entry with the comma that parts it from its neighbours, or with its line where it stands alone on one.</summary>
    private static (int From, int To) Entry(string text, int start, int end, int from, int to)
    {
        var before = from;
        while (before > start && text[before - 1] is ' ' or '\t')
            before--;
        if (before > start && text[before - 1] == ',')
            return (before - 1, to);
        var after = to;
        while (after < end && text[after] is ' ' or '\t')
            after++;
        if (after < end && text[after] == ',')
        {
            after++;
            while (after < end && text[after] is ' ' or '\t')
                after++;
            return (from, after);
        }

        // A line of its own, comment and all.
        return before == start ? (start, end) : (from, to);
    }
}
