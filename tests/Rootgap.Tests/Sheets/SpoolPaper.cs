using System.Globalization;
using System.Text.RegularExpressions;
using Rootgap.Tests.Sheets.Isometrics;

namespace Rootgap.Tests.Sheets;

/// <summary>
/// A spool's sheet as a fitter reads it: words, numbers and the rules of the table of pieces. Nothing of the program is asked; what a word means stands here in a second hand.
/// </summary>
internal sealed partial class SpoolPaper
{
    /// <summary>One row of the table of pieces and parts.</summary>
    /// <param name="How">How it stands, and its sum.</param>
    public sealed record Row(string Mark, string What, string Ends, string How, bool IsInches)
    {
        public bool IsPiece => !Mark.StartsWith('C') && How.Contains(" = ", StringComparison.Ordinal);

        /// <summary>What stands before the sum.</summary>
        public string Stands => IsPiece ? How[..How.IndexOf(": ", StringComparison.Ordinal)] : How;

        private string Sum => How[(How.IndexOf(": ", StringComparison.Ordinal) + 2)..];

        /// <summary>What the sum comes to, mm.</summary>
        public double Total => Length(TotalText().Match(Sum).Groups[1].Value, IsInches);

        /// <summary>Sum of the terms with a word in them, mm.</summary>
        public double Term(string word) => Terms.Where(t => t.What.Contains(word, StringComparison.Ordinal)).Sum(t => t.Mm);

        /// <summary>The terms: sign and count reckoned in, mm.</summary>
        public IReadOnlyList<(string What, int Count, double Mm)> Terms
        {
            get
            {
                var words = Sum[..Sum.IndexOf(" = ", StringComparison.Ordinal)];
                var terms = new List<(string, int, double)>();
                var signs = Signs().Matches(words).Select(m => m.Value == " − " ? -1 : 1).Prepend(1).ToList();
                foreach (var (term, sign) in Signs().Split(words).Zip(signs))
                {
                    var m = TermText().Match(term.TrimEnd('†'));
                    Assert.True(m.Success, term);
                    var count = m.Groups[1].Success ? int.Parse(m.Groups[1].Value, CultureInfo.InvariantCulture) : 1;
                    terms.Add((m.Groups[2].Value.Trim(), count, sign * count * Length(m.Groups[3].Value, IsInches)));
                }

                return terms;
            }
        }
    }

    public SpoolPaper(IEnumerable<SheetReader> sides, bool isInches)
    {
        IsInches = isInches;
        foreach (var side in sides)
        {
            Words.AddRange(side.Words.Select(w => w.Text));
            Rows.AddRange(Table(side, isInches));
        }

        var foot = string.Join(' ', Words);
        if (GapText().Match(foot) is { Success: true } gap)
            RootGap = Length(gap.Groups[1].Value, isInches);
    }

    public bool IsInches { get; }

    public List<Row> Rows { get; } = [];

    public List<string> Words { get; } = [];

    /// <summary>At each butt weld, mm; not a number where the sheet does not say.</summary>
    public double RootGap { get; } = double.NaN;

    // Columns and rows by the rules between them: a row's words may take several lines.
    private static IEnumerable<Row> Table(SheetReader side, bool isInches)
    {
        if (side.Words.Find(w => w.Text == "mark") is not { } mark)
            yield break;
        var (top, left) = (mark.Corners[0].Y, mark.Corners[0].X);
        var uprights = side.Strokes.Where(s => !s.IsFill && Math.Abs(s.A.X - s.B.X) < 0.01 && Math.Min(s.A.Y, s.B.Y) < top + 0.5 && Math.Max(s.A.Y, s.B.Y) > top + 2).Select(s => s.A.X).Order().ToList();
        // The table ends where its frame does.
        var edges = uprights.Where(x => x > left - 4).Aggregate(new List<double>(), (xs, x) => xs.Count > 0 && x - xs[^1] < 0.3 ? xs : [.. xs, x]);
        var heads = side.Words.Where(w => Math.Abs(w.Corners[0].Y - top) < 0.5).ToList();
        (double From, double To) Column(string head)
        {
            var at = heads.Find(w => w.Text == head)!.Corners;
            var middle = (at[0].X + at[1].X) / 2;
            return (edges.Last(x => x < middle), edges.First(x => x > middle));
        }

        var (marks, what, ends, how) = (Column("mark"), Column("what"), Column("ends"), Column("how it stands, sum"));
        var levels = side.Strokes.Where(s => !s.IsFill && Math.Abs(s.A.Y - s.B.Y) < 0.01 && Math.Min(s.A.X, s.B.X) < marks.From + 0.5 && Math.Max(s.A.X, s.B.X) > marks.To - 0.5 && s.A.Y > top).Select(s => s.A.Y)
            .Order().Aggregate(new List<double>(), (ys, y) => ys.Count > 0 && y - ys[^1] < 0.3 ? ys : [.. ys, y]);
        for (var i = 0; i + 1 < levels.Count; i++)
        {
            string In((double From, double To) column) => string.Join(' ', side.Words.Where(w => w.Corners[0].X > column.From - 0.1 && w.Corners[1].X < column.To + 0.1 && w.Corners[0].Y > levels[i] - 0.1 && w.Corners[3].Y < levels[i + 1] + 0.1)
                .OrderBy(w => w.Corners[3].Y).Select(w => w.Text));
            if (In(marks) is { Length: > 0 } name)
                yield return new(name, In(what), In(ends), In(how), isInches);
        }
    }

    /// <summary>A length as it is written: millimetres, or feet and inches with fractions, mm.</summary>
    public static double Length(string text, bool isInches)
    {
        if (!isInches)
            return double.Parse(text.Replace('−', '-'), CultureInfo.InvariantCulture);
        var m = InchText().Match(text);
        Assert.True(m.Success, text);
        double Number(int group) => m.Groups[group].Success ? double.Parse(m.Groups[group].Value, CultureInfo.InvariantCulture) : 0;
        return 25.4 * ((12 * Number(1)) + Number(2) + (m.Groups[3].Success ? Number(3) / Number(4) : 0));
    }

    /// <summary>A direction in words: east, north, up.</summary>
    public static (double E, double N, double U) Way(string words)
    {
        var m = WayText().Match(words);
        Assert.True(m.Success && m.Length == words.Length, words);
        if (m.Groups["upright"].Success)
            return (0, 0, m.Groups["upright"].Value == "up" ? 1 : -1);
        var bearing = m.Groups["head"].Success ? m.Groups["head"].Value switch { "north" => 0, "east" => 90, "south" => 180, _ => 270 } : Bearing(m);
        var slope = !m.Groups["slope"].Success ? 0 : m.Groups["ratio"].Success ? Math.Atan(1 / double.Parse(m.Groups["ratio"].Value, CultureInfo.InvariantCulture)) : double.Parse(m.Groups["degrees"].Value, CultureInfo.InvariantCulture) * Math.PI / 180;
        if (m.Groups["slope"].Value == "falling")
            slope = -slope;
        var (sin, cos) = Math.SinCos(bearing * Math.PI / 180);
        return (Math.Cos(slope) * sin, Math.Cos(slope) * cos, Math.Sin(slope));
    }

    // From north or south so much to the east or the west, as clockwise from north.
    private static double Bearing(Match m) => double.Parse(m.Groups["bearing"].Value, CultureInfo.InvariantCulture) is var off && m.Groups["pole"].Value == "north"
        ? m.Groups["toward"].Value == "east" ? off : 360 - off
        : m.Groups["toward"].Value == "east" ? 180 - off : 180 + off;

    public const string WayPattern = @"(?:(?<upright>up|down)|(?:(?<head>north|south|east|west)|(?<bearing>[\d.]+)° (?<toward>east|west) of (?<pole>north|south))(?: (?<slope>rising|falling) (?:1:(?<ratio>\d+)|(?<degrees>[\d.]+)°))?)";

    [GeneratedRegex(WayPattern)]
    private static partial Regex WayText();

    [GeneratedRegex(""" = ((?:−?\d+'-)?[\d. /]+"?)""")]
    private static partial Regex TotalText();

    [GeneratedRegex(" [−+] ")]
    private static partial Regex Signs();

    [GeneratedRegex("""^(?:(\d+) × )?(.*?)((?:(?:\d+'-)?(?:\d+ )?[\d.]+/\d+|(?:\d+'-)?\d+|\d+\.\d+)"?)$""")]
    private static partial Regex TermText();

    [GeneratedRegex("""Root gap ([\d./ ]+?)"? at each butt weld""")]
    private static partial Regex GapText();

    [GeneratedRegex("""^(?:(\d+)'-)?(?:(\d+)(?:\s|"|$))?(?:([\d.]+)/(\d+))?"?\s*$""")]
    private static partial Regex InchText();
}
