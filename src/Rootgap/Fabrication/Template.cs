using System.Globalization;
using Rootgap.Measure;

namespace Rootgap.Fabricating;

/// <summary>
/// A wrap-around template: a strip as long as the pipe's outside is round, with a cut line. Ordinates run along the pipe, mm: back from its square end as it is,
/// or, on an elbow, from the end that stays.
/// </summary>
public sealed class Template
{
    /// <summary>Parts into which the round is divided for laying out by hand.</summary>
    public const int Parts = 16;

    private readonly Func<double, double> ordinate;

    private Template(string title, double outside, Func<double, double> ordinate, IReadOnlyList<(double Angle, string Name)> marks, IReadOnlyList<string> notes)
    {
        (Title, Outside, this.ordinate, Marks, Notes) = (title, outside, ordinate, marks, notes);
        Deepest = Enumerable.Range(0, 720).Max(i => ordinate(i * Math.PI / 360));
    }

    public string Title { get; }

    /// <summary>Ordinates are what comes off the pipe's end; otherwise what stays, from the other end.</summary>
    public bool IsTakenOff { get; private init; } = true;

    /// <summary>Outside diameter of the pipe round which the strip goes, mm.</summary>
    public double Outside { get; }

    /// <summary>Length of the strip, mm: once round the outside.</summary>
    public double Round => Math.PI * Outside;

    /// <summary>Named places round the pipe, radians from the strip's beginning.</summary>
    public IReadOnlyList<(double Angle, string Name)> Marks { get; }

    public IReadOnlyList<string> Notes { get; }

    /// <summary>What whoever asked for it must know before he cuts: that it is not quite what was asked, or that others decide; empty where there is nothing.</summary>
    public string Caution { get; private init; } = "";

    /// <summary>The hole in the header under a branch, as laid flat round the header: (round from the header's line that faces the branch, along the header), mm, closed; empty for any other template.</summary>
    public IReadOnlyList<(double Round, double Along)> Hole { get; private init; } = [];

    /// <summary>What the ends of <see cref="Hole"/> along the header are called, the farther one first: where the branch leans the hole is not the same both ways; empty where it is.</summary>
    public (string Ahead, string Behind) HoleEnds { get; private init; } = ("", "");

    /// <summary>The reinforcing pad round the branch, as cut from plate before it is rolled: its outer edge and its hole, as <see cref="Hole"/>; null where there is none of known width.</summary>
    public (IReadOnlyList<(double Round, double Along)> Edge, IReadOnlyList<(double Round, double Along)> Hole, double Thickness)? Pad { get; private init; }

    /// <summary>The same with the pad that lies round the branch.</summary>
    public Template With(Routes.Pad pad) => new(Title, Outside, ordinate, Marks, Notes) { IsTakenOff = IsTakenOff, Hole = Hole, HoleEnds = HoleEnds, NameOfLine = NameOfLine, Caution = Caution, Pad = (pad.Outline(inner: false), pad.Outline(inner: true), pad.Thickness) };

    /// <summary>What the lines of the strip are called, from its left end; usually their number.</summary>
    public Func<int, string> NameOfLine { get; private init; } = line => line.ToString(CultureInfo.InvariantCulture);

    /// <summary>Greatest ordinate, mm.</summary>
    public double Deepest { get; }

    /// <summary>The ordinate at an angle round the pipe, radians.</summary>
    public double At(double angle) => ordinate(angle);

    /// <summary>The ordinates at the sixteen parts of the round, for laying out by hand.</summary>
    public IEnumerable<double> Ordinates => Enumerable.Range(0, Parts).Select(i => ordinate(i * 2 * Math.PI / Parts));

    /// <summary>How far along the branch's axis, from the header's axis, the two cylinders meet, mm; NaN where they don't.</summary>
    /// <param name="header">Radius of the header's cylinder, mm.</param>
    /// <param name="branch">Radius of the branch's cylinder, mm.</param>
    /// <param name="lean">Angle between the two axes, radians, over 0 to under pi.</param>
    /// <param name="offset">Distance between the two axes, mm.</param>
    /// <param name="angle">Round the branch, radians: 0 lies in the plane of both axes, on the side to which the branch leans.</param>
    public static double Meeting(double header, double branch, double lean, double offset, double angle)
    {
        var (sin, cos) = Math.SinCos(lean);
        var across = offset + (branch * Math.Sin(angle));
        return (Math.Sqrt((header * header) - (across * across)) + (branch * Math.Cos(angle) * cos)) / sin;
    }

    /// <summary>Whether a branch lies wholly on its header.</summary>
    public static bool Fits(double header, double branch, double offset) => Math.Abs(offset) + branch <= header + Tolerance.Noise;

    /// <summary>The end of a branch set on its header (the fishmouth).</summary>
    /// <param name="contact">Radius of the branch's cylinder that bears on the header: its inside for a set-on branch that is bevelled outward.</param>
    /// <param name="offset">Distance between the two axes, mm: the branch stands so far to the right of the header's axis, seen facing line 0; negative: to the left.</param>
    /// <param name="gap">Of the root, as measured along the branch, mm; null where nobody said one.</param>
    /// <param name="header">What the header is called.</param>
    /// <param name="ends">The header's ends: the one toward which the angle is measured, and the other; null where they have no names.</param>
    public static Template BranchEnd(string title, double headerOutside, double branchOutside, double contact, double lean, double offset, Units units = Units.Millimetres, double? gap = null, string header = "the header", (string Ahead, string Behind)? ends = null)
    {
        double Meet(double angle) => Meeting(headerOutside / 2, contact, lean, offset, angle);
        var shortest = Enumerable.Range(0, 1440).Min(i => Meet(i * Math.PI / 720));
        List<(double Round, double Along)> hole = [.. HeaderHole(headerOutside, contact, lean, offset)];
        var isInside = contact < (branchOutside / 2) - Tolerance.Noise;
        var isSquare = lean == Math.PI / 2;
        var (first, opposite) = isSquare ? (offset == 0 ? "crown" : "along header") is var crown ? (crown, crown) : default : lean < Math.PI / 2 ? ("throat", "heel") : ("heel", "throat");
        var (right, left) = offset == 0 ? ("side", "side") : offset > 0 ? ("right, off the axis", "left, over the axis") : ("right, over the axis", "left, off the axis");
        return new(title, branchOutside, angle => Meet(angle) - shortest,
        [
            (0, first), (Math.PI / 2, right), (Math.PI, opposite), (3 * Math.PI / 2, left),
        ],
        [
            .. offset == 0 ? Array.Empty<string>() :
            [
                string.Create(CultureInfo.InvariantCulture, $"Right and left as you face line 0{(isSquare ? "" : ", the " + first)}, header below you, print outside: the branch stands {Said(units, Math.Abs(offset))} to the {(offset > 0 ? "right" : "left")} of the header's axis. Wrapped with the print inside it fits the other hand."),
            ],
            isInside
                ? "The line is where the inside edge of the branch bears on the header. Cut square to the pipe's wall along it, then bevel outward by the procedure; take nothing off the inside edge."
                : "The line is where the outside of the branch meets the outside of the header. No allowance for the bevel is in it: bevel from the outside inward.",
            string.Create(CultureInfo.InvariantCulture, $"The end line lies {Said(units, shortest + (gap ?? 0))} from the header's centreline, measured along the branch, {(gap is { } root ? $"the root gap of {Said(units, root)} in it" : "without a root gap")}: there the cut edge reaches deepest."),
            string.Create(CultureInfo.InvariantCulture, $"The hole goes into {header}: {Said(units, hole.Max(p => p.Along) - hole.Min(p => p.Along))} along it, {Said(units, hole.Max(p => p.Round) - hole.Min(p => p.Round))} round it."),
        ])
        {
            Hole = hole,
            HoleEnds = isSquare ? ("", "") : (first + (ends is var (ahead, _) ? ", to " + ahead : ""), opposite + (ends is var (_, behind) ? ", to " + behind : "")),
        };
    }

    private static string Said(Units units, double mm) => LengthText.In(units, mm) + (units == Units.Inches ? "" : " mm");

    /// <summary>The hole in the header under a set-on branch: (distance round the header's outside from the top line, distance along the header), mm, closed.</summary>
    public static IEnumerable<(double Round, double Along)> HeaderHole(double headerOutside, double contact, double lean, double offset, int points = 192)
    {
        for (var i = 0; i <= points; i++)
        {
            var angle = i * 2 * Math.PI / points;
            var across = offset + (contact * Math.Sin(angle));
            var meet = Meeting(headerOutside / 2, contact, lean, offset, angle);
            var (sin, cos) = Math.SinCos(lean);
            yield return (headerOutside / 2 * Math.Asin(Math.Clamp(across / (headerOutside / 2), -1, 1)), (meet * cos) + (contact * Math.Cos(angle) * sin));
        }
    }

    /// <summary>A mitre cut.</summary>
    /// <param name="cut">Angle of the cut from square, radians: half the turn of a two-piece mitre.</param>
    /// <param name="more">What is to be said besides: the lengths of the pieces.</param>
    public static Template Mitre(string title, double outside, double cut, params string[] more) =>
        new(title, outside, angle => outside / 2 * Math.Tan(cut) * (1 - Math.Cos(angle)),
            [(0, "long side"), (Math.PI / 2, "side"), (Math.PI, "short side"), (3 * Math.PI / 2, "side")],
            ["The end line touches the long side's point. Half the root gap comes off each side besides.", .. more])
        {
            Caution = "A mitre is a matter of design: the code limits where one may be and what pressure it holds (ASME B31.3, 304.2.3; from memory). Cut one only where the drawing shows it.",
        };

    /// <summary>A stock elbow cut to a smaller turn: lengths over its outside from the end that stays.</summary>
    /// <param name="radius">Bend radius, mm.</param>
    /// <param name="turn">The turn wanted, radians.</param>
    public static Template CutElbow(string title, double outside, double radius, double turn) =>
        new(title, outside, angle => (radius - (outside / 2 * Math.Cos(angle))) * turn,
            [(0, "throat"), (Math.PI / 2, "side"), (Math.PI, "back"), (3 * Math.PI / 2, "side")],
            ["The ordinates are lengths of tape rolled over the elbow from the end that stays; the strip cannot lie flat on the bend: mark each sixteenth with the tape."])
        { IsTakenOff = false };

    /// <summary>Readings that lie nearer than this to one plane count as lying in it, mm.</summary>
    private const double InPlane = 0.25;

    /// <summary>The plane cut that trims a closing piece: what comes off at 12, 3, 6 and 9 o'clock. Never less than nothing: where the plane lies beyond the end, the end stays as it is.</summary>
    /// <param name="units">In which what is to be minded is said: millimetres to a tenth, inches to a sixty-fourth.</param>
    public static Template Trim(string title, double outside, double at12, double at3, double at6, double at9, Units units = Units.Millimetres)
    {
        string Said(double mm) => units == Units.Inches ? LengthText.Say(units, $"{mm:gap}") : LengthText.Millimetres(mm, 1);
        var mm = units == Units.Inches ? "" : " mm";
        // Of four readings at quarters this plane is the one with the least squares.
        var (mean, up, side) = ((at12 + at3 + at6 + at9) / 4, (at12 - at6) / 2, (at3 - at9) / 2);
        double Plane(double angle) => mean + (up * Math.Cos(angle)) + (side * Math.Sin(angle));
        var twist = (at12 + at6 - at3 - at9) / 4;
        List<string> said = [];
        if (Math.Abs(twist) > InPlane)
        {
            var cut = Enumerable.Range(0, 4).Select(i => Math.Max(0, Plane(i * Math.PI / 2))).ToList();
            said.Add(string.Create(CultureInfo.InvariantCulture, $"The four readings are not in one plane. Asked at 12, 3, 6, 9: {Said(at12)}, {Said(at3)}, {Said(at6)}, {Said(at9)}{mm}; the nearest plane cuts {Said(cut[0])}, {Said(cut[1])}, {Said(cut[2])}, {Said(cut[3])}, {Said(Math.Abs(twist))}{mm} off. Measure again before you cut."));
        }

        var deepest = Math.Sqrt((up * up) + (side * side)) - mean;
        if (deepest > Tolerance.Noise)
        {
            var clock = (Math.Atan2(side, up) + Math.PI) * 6 / Math.PI;
            said.Add(string.Create(CultureInfo.InvariantCulture, $"About {(Math.Round(clock) + 11) % 12 + 1:0} o'clock the plane lies up to {Said(deepest)}{mm} beyond the end: nothing comes off there, and the gap is so much wider. The piece is too short for this cut by as much."));
        }

        return new(title, outside, angle => Math.Max(0, Plane(angle)),
            [(0, "12 o'clock"), (Math.PI / 2, "3"), (Math.PI, "6"), (3 * Math.PI / 2, "9")],
            ["The ordinates are what comes off the end; the end line lies on the end as it is."])
        {
            Caution = string.Join(' ', said),
        };
    }

    /// <summary>The cut that closes a line as it was measured: its lines bear the numbers of the sixteen places on the closing sheet, 1 at 12 o'clock.</summary>
    /// <param name="cutBack">Distance of the cut back from the pipe's present end at a clock position, radians clockwise from 12, looking along the line as it is written.</param>
    /// <param name="endLooksAlong">The pipe's end looks the way the line is written: seen from outside with its end down, the clock then runs to the left.</param>
    public static Template Closing(string title, double outside, Func<double, double> cutBack, bool endLooksAlong)
    {
        int Place(int line) => (endLooksAlong ? Parts - line : line) % Parts;
        return new(title, outside, angle => cutBack(endLooksAlong ? -angle : angle),
            [.. new[] { "12 o'clock", "3", "6", "9" }.Select((name, i) => (Place(i * Parts / 4) * 2 * Math.PI / Parts, name))],
            [
                "The ordinates are what comes off, back from the end as it is; the chain line lies on that end all round, the seam at 12 o'clock.",
                "The numbers are those of the closing sheet; they run clockwise looking along the line as it is written.",
            ])
        {
            NameOfLine = line => (Place(line) + 1).ToString(CultureInfo.InvariantCulture),
        };
    }
}
