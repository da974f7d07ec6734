using System.Globalization;
using Rootgap.Tests.Sheets.Isometrics;

namespace Rootgap.Tests.Sheets;

/// <summary>
/// Judges a sheet by what is drawn, as a stranger would who has the file and a ruler: words on words, lines under or over words, arrowheads beside their line, small or scaled letters, marks off the paper.
/// Nothing of the program is asked. 2.5 mm: the least lettering height of the house (ISO 3098-1's series); the rest is common practice of the drawing office.
/// </summary>
internal static class SheetJudge
{
    /// <summary>Paper shared that nobody sees, mm.</summary>
    private const double Hair = 0.06;

    private const double LeastLetters = 2.48, Margin = 4, RowHeight = 8;

    public static List<string> Faults(SheetReader sheet)
    {
        var rows = new Dictionary<int, List<SheetReader.Word>>();
        foreach (var word in sheet.Words)
        {
            for (var row = Row(word.Corners.Min(c => c.Y)); row <= Row(word.Corners.Max(c => c.Y)); row++)
            {
                if (!rows.TryGetValue(row, out var list))
                    rows[row] = list = [];
                list.Add(word);
            }
        }

        return [.. OnWords(rows).Concat(UnderLines(sheet, rows)).Concat(Covered(sheet, rows)).Concat(Arrowheads(sheet)).Concat(Letters(sheet)).Concat(OffPaper(sheet)).Distinct(StringComparer.Ordinal)];
    }

    private static int Row(double y) => (int)Math.Floor(y / RowHeight);

    private static IEnumerable<SheetReader.Word> Near(Dictionary<int, List<SheetReader.Word>> rows, (double X, double Y)[] room)
    {
        var (left, right, top, bottom) = (room.Min(c => c.X), room.Max(c => c.X), room.Min(c => c.Y), room.Max(c => c.Y));
        for (var row = Row(top); row <= Row(bottom); row++)
        {
            foreach (var word in rows.GetValueOrDefault(row, []))
            {
                var c = word.Corners;
                if (Math.Min(Math.Min(c[0].X, c[1].X), Math.Min(c[2].X, c[3].X)) < right && Math.Max(Math.Max(c[0].X, c[1].X), Math.Max(c[2].X, c[3].X)) > left
                    && Math.Min(Math.Min(c[0].Y, c[1].Y), Math.Min(c[2].Y, c[3].Y)) < bottom && Math.Max(Math.Max(c[0].Y, c[1].Y), Math.Max(c[2].Y, c[3].Y)) > top)
                    yield return word;
            }
        }
    }

    private static IEnumerable<string> OnWords(Dictionary<int, List<SheetReader.Word>> rows)
    {
        foreach (var list in rows.Values)
        {
            for (var a = 0; a < list.Count; a++)
            {
                for (var b = a + 1; b < list.Count; b++)
                {
                    if (SheetReader.Overlap(list[a].Corners, list[b].Corners, Hair))
                        yield return $"words on words: \"{list[a].Text}\" and \"{list[b].Text}\"{Where(list[a])}";
                }
            }
        }
    }

    // A line that runs through words; what a white patch hides of it does not count.
    private static IEnumerable<string> UnderLines(SheetReader sheet, Dictionary<int, List<SheetReader.Word>> rows)
    {
        var patches = sheet.Fills.Where(f => f.IsWhite).ToList();
        foreach (var line in sheet.Strokes.Where(s => !s.IsFill))
        {
            var room = SheetReader.Room(line.A, line.B, line.Half);
            foreach (var word in Near(rows, room))
            {
                if (!SheetReader.Overlap(word.Corners, room, Hair) || Within(word.Corners, line.A, line.B) is not { } shown)
                    continue;
                var covers = patches.Where(p => p.Order > line.Order && p.Order < word.Order).ToList();
                if (shown.Any(p => !covers.Exists(c => Holds(c.Outline, p))))
                    yield return $"a line through words: \"{word.Text}\" and a line of {Name(line.Class)}{Where(word)}";
            }
        }
    }

    // What is filled later lies over words.
    private static IEnumerable<string> Covered(SheetReader sheet, Dictionary<int, List<SheetReader.Word>> rows)
    {
        foreach (var fill in sheet.Fills.Where(f => f.Outline.Length is >= 3 and <= 24))
        {
            foreach (var word in Near(rows, fill.Outline))
            {
                if (word.Order < fill.Order && SheetReader.Overlap(word.Corners, fill.Outline, Hair))
                    yield return $"words are covered: \"{word.Text}\" by {Name(fill.Class)}{Where(word)}";
            }
        }
    }

    // A slim filled triangle is an arrowhead: a line must run along its axis, into its foot.
    private static IEnumerable<string> Arrowheads(SheetReader sheet)
    {
        var lines = sheet.Strokes.Where(s => !s.IsFill).ToList();
        foreach (var fill in sheet.Fills)
        {
            var p = fill.Outline;
            if (p.Length != 3)
                continue;
            var foot = Enumerable.Range(0, 3).MinBy(i => Length(p[i], p[(i + 1) % 3]));
            var (a, b, tip) = (p[foot], p[(foot + 1) % 3], p[(foot + 2) % 3]);
            var middle = ((a.X + b.X) / 2, (a.Y + b.Y) / 2);
            var (high, wide) = (Length(middle, tip), Length(a, b));
            if (high is < 0.8 or > 4.2 || wide > 0.5 * high)
                continue;
            if (!lines.Exists(l => Distance(middle, l.A, l.B) < 0.25 && Length(l.A, l.B) > 0.3 && Sine(l.A, l.B, middle, tip) < 0.06))
                yield return $"an arrowhead beside its line: {Name(fill.Class)} at {At(tip)}";
        }
    }

    private static IEnumerable<string> Letters(SheetReader sheet)
    {
        foreach (var word in sheet.Words)
        {
            var high = Length(word.Corners[0], word.Corners[3]);
            if (high < LeastLetters)
                yield return string.Create(CultureInfo.InvariantCulture, $"small letters: \"{word.Text}\" {high:0.00} mm");
            else if (Math.Abs(word.Scale - 1) > 0.005)
                yield return string.Create(CultureInfo.InvariantCulture, $"letters are scaled: \"{word.Text}\" by {word.Scale:0.00}");
        }
    }

    private static IEnumerable<string> OffPaper(SheetReader sheet)
    {
        bool IsOff((double X, double Y) p) => p.X < Margin || p.Y < Margin || p.X > sheet.Paper.Width - Margin || p.Y > sheet.Paper.Height - Margin;
        foreach (var word in sheet.Words)
        {
            if (word.Corners.Any(IsOff))
                yield return $"off the paper: \"{word.Text}\"{Where(word)}";
        }

        foreach (var line in sheet.Strokes)
        {
            if (IsOff(line.A) || IsOff(line.B))
                yield return $"off the paper: a line of {Name(line.Class)} at {At(line.A)}";
        }
    }

    private static string Name(string @class) => @class.Length == 0 ? "the page" : @class;

    private static string Where(SheetReader.Word word) => " at " + At(word.Corners[3]);

    private static string At((double X, double Y) p) => string.Create(CultureInfo.InvariantCulture, $"{p.X:0}, {p.Y:0}");

    private static double Length((double X, double Y) a, (double X, double Y) b) => Math.Sqrt(((b.X - a.X) * (b.X - a.X)) + ((b.Y - a.Y) * (b.Y - a.Y)));

    private static double Distance((double X, double Y) p, (double X, double Y) a, (double X, double Y) b)
    {
        var (dx, dy) = (b.X - a.X, b.Y - a.Y);
        var t = Math.Clamp((((p.X - a.X) * dx) + ((p.Y - a.Y) * dy)) / Math.Max(1e-12, (dx * dx) + (dy * dy)), 0, 1);
        return Length(p, (a.X + (t * dx), a.Y + (t * dy)));
    }

    private static double Sine((double X, double Y) a, (double X, double Y) b, (double X, double Y) c, (double X, double Y) d) =>
        Math.Abs(((b.X - a.X) * (d.Y - c.Y)) - ((b.Y - a.Y) * (d.X - c.X))) / Math.Max(1e-12, Length(a, b) * Length(c, d));

    /// <summary>Places of a line that lie in a convex room; null where none does by more than its edge.</summary>
    private static List<(double X, double Y)>? Within((double X, double Y)[] room, (double X, double Y) a, (double X, double Y) b)
    {
        var inside = Enumerable.Range(0, 33).Select(i => (a.X + ((b.X - a.X) * i / 32.0), a.Y + ((b.Y - a.Y) * i / 32.0)));
        var count = Math.Max(1, (int)(Length(a, b) / 0.4));
        if (count > 32)
            inside = Enumerable.Range(0, count + 1).Select(i => (a.X + ((b.X - a.X) * i / count), a.Y + ((b.Y - a.Y) * i / count)));
        var found = inside.Where(p => Holds(room, p)).ToList();
        return found.Count == 0 ? null : found;
    }

    private static bool Holds((double X, double Y)[] outline, (double X, double Y) p)
    {
        var isIn = false;
        for (int i = 0, j = outline.Length - 1; i < outline.Length; j = i++)
        {
            var (a, b) = (outline[i], outline[j]);
            if (a.Y > p.Y != b.Y > p.Y && p.X < ((b.X - a.X) * (p.Y - a.Y) / (b.Y - a.Y)) + a.X)
                isIn = !isIn;
        }

        return isIn;
    }
}
