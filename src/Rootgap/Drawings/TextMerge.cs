namespace Rootgap.Drawings;

/// <summary>A stretch of a file in which two versions differ from the one they were both made from, or from each other.</summary>
/// <param name="Line">Its first line in that one, from 1.</param>
/// <param name="Before">The lines as they were; empty where lines were put in.</param>
/// <param name="One">The lines in the first version.</param>
/// <param name="Other">The lines in the second version.</param>
/// <param name="Taken">Which goes on: the one that changed, or either where both changed it alike; null where both changed it, each in another way.</param>
public sealed record MergePart(int Line, IReadOnlyList<string> Before, IReadOnlyList<string> One, IReadOnlyList<string> Other, IReadOnlyList<string>? Taken);

/// <summary>Brings two versions of a text together line by line, by the one that both were made from (three-way merge after Khanna, Kunal and Pierce, "A Formal Investigation of Diff3", 2007).</summary>
public sealed class TextMerge
{
    /// <summary>Texts of more lines are not compared: nobody writes such a drawing by hand.</summary>
    private const int MostLines = 5000;

    private readonly List<(IReadOnlyList<string>? Same, MergePart? Part)> pieces = [];

    private TextMerge()
    {
    }

    /// <summary>Where the versions differ, from the top.</summary>
    public IReadOnlyList<MergePart> Parts => [.. pieces.Select(p => p.Part).OfType<MergePart>()];

    /// <summary>The text with each part as it is taken.</summary>
    /// <param name="chosen">For the parts where both changed something, which lines go on.</param>
    public string Text(Func<MergePart, IReadOnlyList<string>> chosen) => string.Concat(pieces.SelectMany(p => p.Same ?? p.Part!.Taken ?? chosen(p.Part)));

    /// <summary>Compares two versions with the one they were made from. Null where a text is too long for it.</summary>
    public static TextMerge? Of(string before, string one, string other)
    {
        var (b, x, y) = (Lines(before), Lines(one), Lines(other));
        if (MostLines < Math.Max(b.Count, Math.Max(x.Count, y.Count)))
            return null;
        var (inOne, inOther) = (Matches(b, x), Matches(b, y));
        var merge = new TextMerge();
        var (i, j, k) = (0, 0, 0);
        while (i < b.Count || j < x.Count || k < y.Count)
        {
            // As far as the three agree.
            var same = i;
            while (same < b.Count && inOne[same] == j + same - i && inOther[same] == k + same - i)
                same++;
            if (same > i)
            {
                merge.pieces.Add((b[i..same], null));
                (j, k, i) = (j + same - i, k + same - i, same);
                continue;
            }

            // Up to the next line that all three have.
            var next = i;
            while (next < b.Count && (inOne[next] < j || inOther[next] < k))
                next++;
            var (toOne, toOther) = next < b.Count ? (inOne[next], inOther[next]) : (x.Count, y.Count);
            var part = Part(i + 1, b[i..next], x[j..toOne], y[k..toOther]);
            merge.pieces.Add((null, part));
            (i, j, k) = (next, toOne, toOther);
        }

        return merge;
    }

    private static MergePart Part(int line, List<string> before, List<string> one, List<string> other) =>
        new(line, before, one, other, one.SequenceEqual(other) || before.SequenceEqual(other) ? one : before.SequenceEqual(one) ? other : null);

    // With their ends, so that nothing is lost.
    private static List<string> Lines(string text)
    {
        List<string> lines = [];
        for (var at = 0; at < text.Length;)
        {
            var end = text.IndexOf('\n', at);
            lines.Add(end < 0 ? text[at..] : text[at..(end + 1)]);
            at += lines[^1].Length;
        }

        return lines;
    }

    // For each line of the first text its line in the second, by a longest common subsequence; -1 where it has none.
    private static int[] Matches(List<string> a, List<string> b)
    {
        var matches = new int[a.Count];
        Array.Fill(matches, -1);
        var (head, tail) = (0, 0);
        while (head < a.Count && head < b.Count && a[head] == b[head])
        {
            matches[head] = head;
            head++;
        }

        while (tail < a.Count - head && tail < b.Count - head && a[^(tail + 1)] == b[^(tail + 1)])
        {
            matches[a.Count - 1 - tail] = b.Count - 1 - tail;
            tail++;
        }

        var (rows, columns) = (a.Count - head - tail, b.Count - head - tail);
        var longest = new ushort[rows + 1, columns + 1];
        for (var i = rows - 1; i >= 0; i--)
        {
            for (var j = columns - 1; j >= 0; j--)
                longest[i, j] = a[head + i] == b[head + j] ? (ushort)(longest[i + 1, j + 1] + 1) : Math.Max(longest[i + 1, j], longest[i, j + 1]);
        }

        for (int i = 0, j = 0; i < rows && j < columns;)
        {
            if (a[head + i] == b[head + j])
            {
                matches[head + i] = head + j;
                (i, j) = (i + 1, j + 1);
            }
            else if (longest[i, j + 1] >= longest[i + 1, j])
            {
                j++;
            }
            else
            {
                i++;
            }
        }

        return matches;
    }
}
