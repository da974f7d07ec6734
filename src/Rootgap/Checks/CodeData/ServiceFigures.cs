using System.Globalization;
using Rootgap.Drawings;
using Rootgap.Routes;
using Rootgap.Standards;

namespace Rootgap.Checks;

/// <summary>Pressures, temperatures and shares as the service block writes them.</summary>
internal static class ServiceFigures
{
    /// <summary>A pressure in bar: <c>10 bar</c>, <c>150 psi</c>, <c>1.6 MPa</c>, <c>1000 kPa</c>; null where none is to be read.</summary>
    public static double? Bar(string text) => Split(text, out var number) is { } unit
        ? unit switch
        {
            "bar" or "barg" or "bar(g)" or "bar g" => number,
            "mbar" => number / 1000,
            "psi" or "psig" => number * 0.0689475729,
            "mpa" or "mpag" => number * 10,
            "kpa" or "kpag" => number / 100,
            "kg/cm2" or "kgf/cm2" => number * 0.980665,
            _ => null,
        }
        : null;

    /// <summary>A temperature in degrees Celsius: <c>50 C</c>, <c>105 F</c>, <c>320 K</c>; null where none is to be read.</summary>
    public static double? Celsius(string text) => Split(text, out var number) is { } unit
        ? unit.Trim('°', ' ').Replace("deg", "", StringComparison.Ordinal).Trim() switch { "c" => number, "f" => (number - 32) / 1.8, "k" => number - 273.15, _ => null }
        : null;

    /// <summary>A share in percent: <c>5 %</c>, <c>5</c>, <c>100% RT</c>; null where none is to be read.</summary>
    public static double? Percent(string text) => Split(text, out var number) is { } unit && (unit.Length == 0 || unit[0] == '%') ? number : null;

    private static string? Split(string text, out double number)
    {
        var span = text.AsSpan().Trim();
        var length = 0;
        while (length < span.Length && (char.IsAsciiDigit(span[length]) || span[length] is '.' or '-' or '+'))
            length++;
        return double.TryParse(span[..length], NumberStyles.Float, CultureInfo.InvariantCulture, out number) ? span[length..].Trim().ToString().ToLowerInvariant() : null;
    }

    /// <summary>Temperature and rating by class, in the order of the table.</summary>
    private static readonly Lazy<Dictionary<string, (double Celsius, double Bar)[]>> Ratings = new(() => StandardTable.Rows("ratings")
        .GroupBy(r => r.Class, StringComparer.Ordinal)
        .ToDictionary(g => g.Key, g => g.Select(r => (double.Parse(r.Attribute.Split(' ')[2], CultureInfo.InvariantCulture), r.Figure)).ToArray(), StringComparer.Ordinal));

    /// <summary>
    /// Rating of a flange class of group 1.1 (carbon steel) at a temperature, bar, between two rows in proportion as ASME B16.5 2.1 allows;
    /// null where the class or the temperature is not in the table.
    /// </summary>
    public static double? Rating(string @class, double celsius)
    {
        var (lowT, low, highT, high) = (double.NaN, 0.0, double.NaN, 0.0);
        foreach (var (t, bar) in Ratings.Value.GetValueOrDefault(@class, []))
        {
            if (t <= celsius)
                (lowT, low) = (t, bar);
            if (t >= celsius && double.IsNaN(highT))
                (highT, high) = (t, bar);
        }

        // Below 38 degrees the rating stays (to -29, ASME B16.5 2.1.3).
        if (double.IsNaN(lowT))
            return double.IsNaN(highT) || celsius < -29 ? null : high;
        return double.IsNaN(highT) ? null : highT <= lowT ? low : low + ((high - low) * (celsius - lowT) / (highT - lowT));
    }

    /// <summary>The lowest flange class of the drawing's flanges, with the first flange of it; null where there is none or a material that the table does not rate.</summary>
    public static Component? WeakestFlange(Route route)
    {
        Component? weakest = null;
        var least = double.PositiveInfinity;
        foreach (var c in route.Components)
        {
            if (c is not Flange || Rating(c.Line.Class, 38) is not { } rating || rating >= least)
                continue;
            var material = c.Item?.Material is { Length: > 0 } own ? own : c.Line.Material;
            if (material.Length > 0 && Metals.PNumber(material) is not 1)
                continue;
            (weakest, least) = (c, rating);
        }

        return weakest;
    }
}
