using System.Globalization;
using Rootgap.Drawings;
using Rootgap.Fabricating;
using Rootgap.Measure;
using Rootgap.Routes;
using Rootgap.Standards;

namespace Rootgap.Sheets;

/// <summary>
/// The sum of a piece as a fitter checks it with a pencil: terms that are alike together, each with one figure, and what is printed adds up to the printed total.
/// Millimetres to a hundredth where a term has it, inches to 1/64 and, where that would leave the total more than 1/32 off, to tenths of 1/64.
/// </summary>
internal static class SumWords
{
    private const double SixtyFourth = LengthText.Inch / 64;

    /// <summary>Sum and total: <c>900 − elbow 229 − 2 × root gap 3.2 = 664.6</c>.</summary>
    public static string Of(Cut cut, Units units)
    {
        var (terms, total) = Parts(cut, units);
        return $"{terms} = {total}{(cut.Saddle > 0 ? $"; saw {LengthText.In(units, cut.SawLength)}: {Reaches(cut)} {LengthText.In(units, cut.Saddle)} deeper than the middle line" : "")}";
    }

    private static string Reaches(Cut cut) => cut.Saddles switch
    {
        (not null, not null) => "both saddles together reach",
        ({ Lean.IsSquare: false }, _) or (_, { Lean.IsSquare: false }) => "the heel side of the saddle reaches",
        _ => "the sides of the saddle reach",
    };

    /// <summary>The terms, and the total that they add up to as printed.</summary>
    public static (string Terms, string Total) Parts(Cut cut, Units units)
    {
        var like = cut.Sum.Select((t, i) => (t.Origin.IsFromMemory, What: IsLeg(t, i) ? "" : Shortened(t.What), t.Mm))
            .GroupBy(t => (t.What, Mm: Math.Round(t.Mm, 6))).Select(g => (g.First().IsFromMemory, g.Key.What, g.Key.Mm, Count: g.Count())).ToList();
        return Added(like, cut.Length, units);
    }

    /// <summary>The blank of a bend that the shop makes of pipe: of a mitred one its pieces along their middle, less the gaps and with the saw's cuts; of a pulled one its straight ends and the arc.</summary>
    public static (string Terms, string Total) Parts(MadeBend bend, Units units)
    {
        List<(bool, string, double, int)> terms = [];
        if (bend.IsMitred)
        {
            terms.Add((false, "", bend.Piece(isEnd: true).Middle, 2));
            if (bend.Cuts > 1)
                terms.Add((false, "", bend.Piece(isEnd: false).Middle, bend.Cuts - 1));
            if (bend.Gap > 0)
                terms.Add((false, "gap", -bend.Gap, bend.Cuts));
            if (bend.Kerf > 0)
                terms.Add((false, "saw cut", bend.KerfAlong, bend.Cuts));
        }
        else
        {
            if (bend.Straight > 0)
                terms.Add((false, "straight", bend.Straight, 2));
            terms.Add((false, string.Create(CultureInfo.InvariantCulture, $"arc, {LengthText.In(units, bend.Radius!.Value)} × {Angles.ToDegrees(bend.Turn):0.##}° × π / 180,"), bend.Path - (2 * bend.Straight), 1));
        }

        return Added(terms, bend.PipeLength, units);
    }

    /// <summary>A length of which others are made, to as many places as its sum has.</summary>
    public static string Term(double mm, Units units) => units == Units.Inches ? Inches((long)LengthText.Rounded(mm / SixtyFourth, 0), SixtyFourth) + "\"" : Plain((long)LengthText.Rounded(mm * 100, 0));

    private static (string Terms, string Total) Added(IReadOnlyList<(bool IsFromMemory, string What, double Mm, int Count)> like, double length, Units units)
    {
        var step = units == Units.Inches ? SixtyFourth : 0.01;
        long Steps(double mm) => (long)LengthText.Rounded(mm / step, 0);
        if (units == Units.Inches && Math.Abs((like.Sum(t => t.Count * Steps(t.Mm)) * step) - length) > LengthText.Inch / 32)
            step /= 10;
        var total = like.Sum(t => t.Count * Steps(t.Mm));
        var first = true;
        var words = string.Concat(like.Select(t =>
        {
            var steps = Steps(first ? t.Mm : Math.Abs(t.Mm));
            // The mark of inches stands at the first term and at the total.
            var figure = units == Units.Inches ? Inches(steps, step) + (first ? "\"" : "") : Plain(steps);
            var memory = t.IsFromMemory ? Wording.MemorySign : "";
            var sign = first ? "" : t.Mm < 0 ? " − " : " + ";
            first = false;
            return $"{sign}{(t.Count > 1 ? string.Create(CultureInfo.InvariantCulture, $"{t.Count} × ") : "")}{(t.What.Length > 0 ? t.What + " " : "")}{figure}{memory}";
        }));
        return (words, units == Units.Inches ? Inches(total, step) + "\"" : Plain(total));
    }

    // The legs come first; one leg needs no word.
    private static bool IsLeg(Term term, int index) => term.Origin is Origin.Drawn && (index == 0 || term.What.StartsWith("leg ", StringComparison.Ordinal));

    private static string Shortened(string what)
    {
        foreach (var at in (string[])[" at the start", " at the end"])
        {
            if (what.EndsWith(at, StringComparison.Ordinal))
                what = what[..^at.Length];
        }

        foreach (var (full, brief) in Brief)
            what = what.Replace(full, brief, StringComparison.Ordinal);
        return what;
    }

    /// <summary>What a term is called beside its figure.</summary>
    private static readonly (string Full, string Brief)[] Brief =
    [
        ("flange length through hub", "flange"), (" take-off", ""), ("half the root gap", "half gap"), ("root gap", "gap"), ("half the header's outside diameter", "half header"),
        ("centre to socket bottom", "socket"), ("off the bottom of the socket", "clear"), ("weld shrinkage", "shrinkage"), ("half the valve's face to face", "half valve"),
    ];

    private static string Plain(long hundredths) => (hundredths / 100.0).ToString("0.##", CultureInfo.InvariantCulture);

    private static string Inches(long steps, double step)
    {
        var minus = steps < 0 ? "−" : "";
        steps = Math.Abs(steps);
        var inInch = (long)Math.Round(LengthText.Inch / step);
        var (inches, rest) = Math.DivRem(steps, inInch);
        var (feet, whole) = Math.DivRem(inches, 12);
        var fraction = "";
        if (rest > 0 && inInch > 64)
        {
            fraction = string.Create(CultureInfo.InvariantCulture, $"{rest / 10.0:0.#}/64");
        }
        else if (rest > 0)
        {
            var below = inInch;
            while (rest % 2 == 0)
                (rest, below) = (rest / 2, below / 2);
            fraction = string.Create(CultureInfo.InvariantCulture, $"{rest}/{below}");
        }

        var small = fraction.Length == 0 ? whole.ToString(CultureInfo.InvariantCulture) : whole > 0 || feet > 0 ? string.Create(CultureInfo.InvariantCulture, $"{whole} {fraction}") : fraction;
        return minus + (feet > 0 ? string.Create(CultureInfo.InvariantCulture, $"{feet}'-{small}") : small);
    }
}
