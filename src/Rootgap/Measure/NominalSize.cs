using System.Globalization;

namespace Rootgap.Measure;

/// <summary>A nominal size as the trade writes it: NPS 1/8 to 48, or a bolt diameter, in eighths of an inch.</summary>
/// <remarks>The default value is "no size" and prints as a dash. DN by ISO 6708 / ASME B36.10M Table 1.</remarks>
public readonly record struct NominalSize : IComparable<NominalSize>
{
    private static readonly (int Eighths, int Dn)[] Small =
        [(1, 6), (2, 8), (3, 10), (4, 15), (6, 20), (8, 25), (10, 32), (12, 40), (16, 50), (20, 65), (24, 80), (28, 90)];

    private static readonly string[] Fractions = ["", "1/8", "1/4", "3/8", "1/2", "5/8", "3/4", "7/8"];

    private static readonly string[] Texts = [.. Enumerable.Range(0, (48 * 8) + 1).Select(Write)];

    private NominalSize(int eighths) => Eighths = eighths;

    /// <summary>The size in eighths of an inch; 0 for no size.</summary>
    public int Eighths { get; }

    /// <summary>The size in inches: a name, not a dimension.</summary>
    public double Inches => Eighths / 8.0;

    public bool IsNone => Eighths == 0;

    /// <summary>The metric name, such as 150 for NPS 6; 0 where the trade has none (bolt diameters).</summary>
    public int Dn
    {
        get
        {
            foreach (var (eighths, dn) in Small)
            {
                if (eighths == Eighths)
                    return dn;
            }

            return IsPipeSize ? Eighths * 25 / 8 : 0;
        }
    }

    /// <summary>NPS 1-1/2 and less: mostly run at site, whatever the drawing marks (common practice).</summary>
    public bool IsSmallBore => Eighths is > 0 and <= 12;

    /// <summary>Whether ASME B36.10M lists pipe of this size.</summary>
    public bool IsPipeSize => Eighths switch
    {
        1 or 2 or 3 or 4 or 6 or 8 or 10 or 12 or 16 or 20 or 24 or 28 or 32 or 40 or 48 => true,
        _ => Eighths is > 48 and <= 384 && Eighths % 16 == 0,
    };

    public static NominalSize OfEighths(int eighths)
    {
        ArgumentOutOfRangeException.ThrowIfNegative(eighths);
        ArgumentOutOfRangeException.ThrowIfGreaterThan(eighths, 48 * 8);
        return new(eighths);
    }

    public static NominalSize OfInches(double inches) => OfEighths((int)Math.Round(inches * 8));

    /// <summary>Reads <c>6</c>, <c>1/2</c>, <c>1-1/2</c>, <c>1 1/2</c>, <c>1.5</c>, <c>NPS 6</c>, <c>6"</c> or <c>DN150</c>.</summary>
    public static bool TryParse(ReadOnlySpan<char> text, out NominalSize size)
    {
        size = default;
        text = text.Trim();
        if (text.StartsWith("DN", StringComparison.OrdinalIgnoreCase))
            return int.TryParse(text[2..].Trim(), NumberStyles.None, CultureInfo.InvariantCulture, out var dn) && TryDn(dn, out size);
        if (text.StartsWith("NPS", StringComparison.OrdinalIgnoreCase))
            text = text[3..].Trim();
        if (text.EndsWith("in", StringComparison.OrdinalIgnoreCase))
            text = text[..^2].Trim();
        text = text.TrimEnd('"');
        if (!LengthText.TryParseNumber(text, out var inches))
            return false;
        var eighths = inches * 8;
        if (!(eighths >= 1 && eighths <= 384) || eighths != Math.Floor(eighths))
            return false;
        size = new((int)eighths);
        return true;
    }

    /// <summary>The pipe size nearest to this one, and whether there is one on each side: for messages.</summary>
    public static IEnumerable<NominalSize> PipeSizes => Enumerable.Range(1, 384).Select(OfEighths).Where(s => s.IsPipeSize);

    public int CompareTo(NominalSize other) => Eighths.CompareTo(other.Eighths);

    public static bool operator <(NominalSize a, NominalSize b) => a.Eighths < b.Eighths;
    public static bool operator >(NominalSize a, NominalSize b) => a.Eighths > b.Eighths;
    public static bool operator <=(NominalSize a, NominalSize b) => a.Eighths <= b.Eighths;
    public static bool operator >=(NominalSize a, NominalSize b) => a.Eighths >= b.Eighths;

    /// <summary>The trade's notation: <c>1-1/2</c>.</summary>
    public override string ToString() => Texts[Eighths];

    private static bool TryDn(int dn, out NominalSize size)
    {
        foreach (var (eighths, small) in Small)
        {
            if (small == dn)
            {
                size = new(eighths);
                return true;
            }
        }

        size = dn is >= 100 and <= 1200 && dn % 25 == 0 ? new(dn * 8 / 25) : default;
        return size.IsPipeSize;
    }

    private static string Write(int eighths)
    {
        var (whole, rest) = (eighths / 8, eighths % 8);
        return (whole, rest) switch
        {
            (0, 0) => "-",
            (_, 0) => whole.ToString(CultureInfo.InvariantCulture),
            (0, _) => Fractions[rest],
            _ => string.Create(CultureInfo.InvariantCulture, $"{whole}-{Fractions[rest]}"),
        };
    }
}
