using System.Globalization;

namespace Rootgap.Measure;

/// <summary>The unit in which a drawing's bare numbers are written and its table column is read.</summary>
public enum Units
{
    Millimetres,
    Inches,
}

/// <summary>Lengths as a fitter writes and reads them; millimetres inside. Rounding happens here and only here, half away from zero, once.</summary>
public static class LengthText
{
    public const double Inch = 25.4;
    private const double Foot = 12 * Inch;

    /// <summary>Longest length that a drawing can mean, mm: 100 km. Beyond it a figure is a slip of the pen.</summary>
    public const double Longest = 1e8;

    private const double Sixteenth = Inch / 16;

    private static readonly (char Sign, string Text)[] Signs =
    [
        ('½', " 1/2"), ('¼', " 1/4"), ('¾', " 3/4"), ('⅛', " 1/8"), ('⅜', " 3/8"), ('⅝', " 5/8"), ('⅞', " 7/8"),
        ('′', "'"), ('’', "'"), ('″', "\""), ('”', "\""), ('⁄', "/"), ('\u00a0', " "), ('−', "-"),
    ];

    /// <summary>
    /// Reads a length: a bare number in <paramref name="bare"/>, or one with its own unit:
    /// <c>1450 mm</c>, <c>145 cm</c>, <c>1.45 m</c>, <c>4'-9 1/2"</c>, <c>4 ft 9 in</c>, <c>57 1/2 in</c>, <c>57-1/2"</c>. A leading minus sign is allowed.
    /// </summary>
    /// <returns>False where the text is no length, or is longer than <see cref="Longest"/>.</returns>
    public static bool TryParse(ReadOnlySpan<char> text, Units bare, out double mm)
    {
        mm = 0;
        text = text.Trim();
        if (text.Length is 0 or > 64)
            return false;
        if (text.IndexOfAnyExceptInRange('\0', '\u007f') >= 0)
            text = PlainSigns(text);
        var sign = 1.0;
        if (text[0] is '-' or '+')
        {
            sign = text[0] == '-' ? -1 : 1;
            text = text[1..].TrimStart();
        }

        if (!TryParseUnsigned(text, bare, out mm) || !(mm <= Longest))
            return false;
        mm *= sign;
        return true;
    }

    /// <summary>Reads an unsigned number: whole, decimal, or with a fraction (<c>57 1/2</c>, <c>57-1/2</c>, <c>1/2</c>).</summary>
    public static bool TryParseNumber(ReadOnlySpan<char> text, out double number)
    {
        number = 0;
        text = text.Trim();
        if (text.Length is 0 or > 32 || !char.IsAsciiDigit(text[0]) && text[0] != '.')
            return false;
        var slash = text.IndexOf('/');
        if (slash < 0)
            return double.TryParse(text, NumberStyles.AllowDecimalPoint, CultureInfo.InvariantCulture, out number);

        if (!TryWhole(text[(slash + 1)..].Trim(), out var below) || below == 0)
            return false;
        var left = text[..slash].TrimEnd();
        var gap = left.LastIndexOfAny(' ', '-');
        var whole = 0;
        if (gap >= 0 && !TryWhole(left[..gap].Trim().TrimEnd('-').TrimEnd(), out whole))
            return false;
        if (!TryWhole(left[(gap + 1)..].Trim(), out var above))
            return false;
        number = whole + ((double)above / below);
        return true;
    }

    /// <summary>Feet, inches and sixteenths: <c>4'-9 1/2"</c>, under a foot <c>9 1/2"</c>.</summary>
    public static string FeetInches(double mm)
    {
        var sixteenths = Sixteenths(mm);
        var minus = sixteenths < 0 ? "-" : "";
        sixteenths = Math.Abs(sixteenths);
        var (feet, rest) = Math.DivRem(sixteenths, 12 * 16);
        // With feet the inches always stand: 4'-1/8" is read as four feet one.
        var inches = feet > 0 && rest is > 0 and < 16 ? "0 " + InchesText(rest) : InchesText(rest);
        return feet == 0 ? $"{minus}{inches}\"" : string.Create(CultureInfo.InvariantCulture, $"{minus}{feet}'-{inches}\"");
    }

    /// <summary>Whole millimetres, as read off a tape.</summary>
    public static string WholeMillimetres(double mm) => Millimetres(mm, 0);

    /// <summary>Millimetres with a fixed number of decimals.</summary>
    public static string Millimetres(double mm, int decimals) =>
        Rounded(mm, decimals).ToString(decimals == 0 ? "0" : "0." + new string('0', decimals), CultureInfo.InvariantCulture);

    /// <summary>The length in the drawing's own units, as a person reads it there.</summary>
    public static string In(Units units, double mm) => units == Units.Inches ? FeetInches(mm) : Millimetres(mm, 1);

    /// <summary>
    /// A text with its lengths, mm inside, as a person reads them in the drawing's units: <c>{x:len}</c> to a tenth of a millimetre or a sixteenth, <c>{x:len0}</c> to
    /// a whole millimetre or a sixteenth, <c>{x:small}</c>, of a wall or a step, to a hundredth of a millimetre or a thousandth of an inch, <c>{x:gap}</c>, of a gap that is read with a rod or a feeler, to a sixty-fourth,
    /// <c>{x:cut}</c>, of a cut that is set out with a rule, to a tenth of a millimetre or a thirty-second, <c>{x:off}</c>, of what is out of its place, to a tenth or a sixty-fourth, <c>{x:pipe}</c> metres of pipe. With their unit: <c>{x:kg}</c> a mass to a whole kilogram or pound, <c>{x:kg1}</c> to a tenth,
    /// <c>{x:el}</c>, <c>{x:east}</c> and <c>{x:north}</c> a place in the plant as its isometric has it, <c>+3'-0"</c>, <c>W 1200</c>, with a nought behind to a whole millimetre,
    /// <c>{x:bar}</c> a pressure to a tenth of a bar or a whole psi, <c>{x:celsius}</c> a temperature to a whole degree C or F. Other figures as they are formatted.
    /// </summary>
    public static string Say(Units units, FormattableString text) => text.ToString(units == Units.Inches ? InInches : InMillimetres);

    private static readonly Written InMillimetres = new(Units.Millimetres);
    private static readonly Written InInches = new(Units.Inches);

    /// <summary>A gap or a step in inches: to the next sixty-fourth, in lowest terms.</summary>
    private static string Fraction(double mm)
    {
        var parts = (long)Math.Round(Math.Abs(mm) / Inch * 64);
        return $"{(mm < 0 && parts > 0 ? "-" : "")}{Fraction(parts, 64)}\"";
    }

    private static string Fraction(long parts, int under)
    {
        var (whole, rest) = Math.DivRem(parts, under);
        for (; rest > 0 && rest % 2 == 0; rest /= 2)
            under /= 2;
        return rest == 0 ? whole.ToString(CultureInfo.InvariantCulture) : string.Create(CultureInfo.InvariantCulture, $"{(whole > 0 ? $"{whole} " : "")}{rest}/{under}");
    }

    /// <summary>A cut in feet, inches and thirty-seconds, as a rule has them: <c>3 13/32"</c>, <c>1'-0 1/32"</c>.</summary>
    private static string ByRule(double mm)
    {
        const int Under = 32;
        var parts = (long)Rounded(Math.Abs(mm) / Inch * Under, 0);
        var (feet, rest) = Math.DivRem(parts, 12 * Under);
        var inches = Fraction(rest, Under);
        return $"{(mm < 0 && parts > 0 ? "-" : "")}{(feet == 0 ? "" : string.Create(CultureInfo.InvariantCulture, $"{feet}'-{(rest is > 0 and < Under ? "0 " : "")}"))}{inches}\"";
    }

    private sealed class Written(Units units) : IFormatProvider, ICustomFormatter
    {
        public object? GetFormat(Type? formatType) => formatType == typeof(ICustomFormatter) ? this : CultureInfo.InvariantCulture.GetFormat(formatType);

        public string Format(string? format, object? arg, IFormatProvider? formatProvider) => (format, arg) switch
        {
            ("len", double mm) => Length(mm, 1),
            ("len0", double mm) => Length(mm, 0),
            ("el", double mm) => (mm < -0.05 ? "−" : "+") + Length(Math.Abs(mm), 1),
            ("el0", double mm) => (mm < -0.5 ? "−" : "+") + Length(Math.Abs(mm), 0),
            ("east", double mm) => (mm < -0.05 ? "W " : "E ") + Length(Math.Abs(mm), 1),
            ("east0", double mm) => (mm < -0.5 ? "W " : "E ") + Length(Math.Abs(mm), 0),
            ("north", double mm) => (mm < -0.05 ? "S " : "N ") + Length(Math.Abs(mm), 1),
            ("north0", double mm) => (mm < -0.5 ? "S " : "N ") + Length(Math.Abs(mm), 0),
            ("gap", double mm) => units == Units.Inches ? Fraction(mm) : Plain(mm, 2),
            ("cut", double mm) => units == Units.Inches ? ByRule(mm) : Millimetres(mm, 1),
            ("off", double mm) => units == Units.Inches ? Fraction(mm) : Millimetres(mm, 1),
            ("pipe", double metres) => Pipe(units, metres),
            ("small", double mm) => units == Units.Inches ? Plain(mm / Inch, 3) + "\"" : Plain(mm, 2),
            ("kg", double kg) => With(Quantity.Mass, kg, 0, 0),
            ("kg1", double kg) => With(Quantity.Mass, kg, 1, 1),
            ("bar", double bar) => With(Quantity.Pressure, bar, 1, 0),
            ("celsius", double celsius) => units == Units.Inches ? Plain((celsius * 1.8) + 32, 0) + " F" : Plain(celsius, 0) + " C",
            (_, IFormattable other) => other.ToString(format, CultureInfo.InvariantCulture),
            _ => arg?.ToString() ?? "",
        };

        private string Length(double mm, int decimals) => units == Units.Inches ? FeetInches(mm) : Plain(mm, decimals);

        private string With(Quantity quantity, double amount, int decimals, int inInches) =>
            $"{Plain(Amount.In(quantity, amount, units), units == Units.Inches ? inInches : decimals)} {Amount.Unit(quantity, units)}";

        // Nought has no sign.
        private static string Plain(double value, int decimals) => (Rounded(value, decimals) + 0.0).ToString("0.###", CultureInfo.InvariantCulture);
    }

    /// <summary>The unit in which pipe is bought, mm: a metre, or a foot. A bare number of pipe is of these.</summary>
    public static double PipeUnit(Units units) => units == Units.Inches ? Foot : 1000;

    /// <summary>So many metres of pipe as it is bought: in metres, or in feet.</summary>
    public static string Pipe(Units units, double metres) => units == Units.Inches
        ? (metres * 1000 / Foot).ToString("0.0", CultureInfo.InvariantCulture) + " ft"
        : metres.ToString("0.00", CultureInfo.InvariantCulture) + " m";

    /// <summary>So much pipe at least, to a tenth of the unit in which it is bought.</summary>
    public static string PipeAtLeast(Units units, double metres)
    {
        var (unit, word) = units == Units.Inches ? (Foot / 1000, "ft") : (1.0, "m");
        return (Math.Ceiling(Math.Round(metres / unit * 10, 6)) / 10).ToString("0.0", CultureInfo.InvariantCulture) + " " + word;
    }

    /// <summary>The nearest number of sixteenths of an inch, halves away from zero.</summary>
    public static long Sixteenths(double mm) => (long)Rounded(mm / Sixteenth, 0);

    /// <summary>Half away from zero, where a half is met within the noise of a sum.</summary>
    public static double Rounded(double value, int decimals)
    {
        var nudged = value + (Math.Sign(value) * Tolerance.Noise * 1e-3);
        var rounded = Math.Round(nudged, decimals, MidpointRounding.AwayFromZero);
        return rounded == 0 ? 0 : rounded;
    }

    private static bool TryParseUnsigned(ReadOnlySpan<char> text, Units bare, out double mm)
    {
        mm = 0;
        var foot = text.IndexOf('\'');
        var footWidth = 1;
        if (foot < 0)
        {
            foot = text.IndexOf("ft", StringComparison.OrdinalIgnoreCase);
            footWidth = 2;
        }

        if (foot >= 0)
        {
            if (!TryParseNumber(text[..foot], out var feet))
                return false;
            var rest = text[(foot + footWidth)..].Trim();
            var isJoined = rest is ['-', ..];
            if (isJoined)
                rest = rest[1..].TrimStart();
            var inches = 0.0;
            if ((isJoined || rest.Length > 0) && !(TryInches(rest, out inches) || TryParseNumber(rest, out inches)))
                return false;
            // Twelve inches are a foot: 3'-16" was meant otherwise.
            if (inches >= 12)
                return false;
            mm = ((feet * 12) + inches) * Inch;
            return true;
        }

        if (TryInches(text, out var only))
        {
            mm = only * Inch;
            return true;
        }

        var scale = bare == Units.Inches ? Inch : 1;
        var unit = 0;
        if (text.EndsWith("mm", StringComparison.OrdinalIgnoreCase))
            (scale, unit) = (1, 2);
        else if (text.EndsWith("cm", StringComparison.OrdinalIgnoreCase))
            (scale, unit) = (10, 2);
        else if (text.EndsWith("m", StringComparison.OrdinalIgnoreCase))
            (scale, unit) = (1000, 1);
        text = text[..^unit];
        if (!TryParseNumber(text, out var number))
            return false;
        mm = number * scale;
        return true;
    }

    private static bool TryInches(ReadOnlySpan<char> text, out double inches)
    {
        inches = 0;
        if (text.EndsWith("\""))
            return TryParseNumber(text[..^1], out inches);
        if (text.EndsWith("in.", StringComparison.OrdinalIgnoreCase))
            return TryParseNumber(text[..^3], out inches);
        return text.EndsWith("in", StringComparison.OrdinalIgnoreCase) && TryParseNumber(text[..^2], out inches);
    }

    private static bool TryWhole(ReadOnlySpan<char> text, out int number) =>
        int.TryParse(text, NumberStyles.None, CultureInfo.InvariantCulture, out number);

    private static string InchesText(long sixteenths)
    {
        var (whole, rest) = Math.DivRem(sixteenths, 16);
        if (rest == 0)
            return whole.ToString(CultureInfo.InvariantCulture);
        var below = 16L;
        while (rest % 2 == 0)
            (rest, below) = (rest / 2, below / 2);
        return whole == 0
            ? string.Create(CultureInfo.InvariantCulture, $"{rest}/{below}")
            : string.Create(CultureInfo.InvariantCulture, $"{whole} {rest}/{below}");
    }

    private static string PlainSigns(ReadOnlySpan<char> text)
    {
        var plain = text.ToString();
        foreach (var (sign, written) in Signs)
            plain = plain.Replace(sign.ToString(), written, StringComparison.Ordinal);
        return plain.Trim();
    }
}
