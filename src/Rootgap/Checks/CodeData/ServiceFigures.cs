using System.Globalization;
using Rootgap.Drawings;
using Rootgap.Measure;
using Rootgap.Routes;
using Rootgap.Standards;

namespace Rootgap.Checks;

/// <summary>Pressures, temperatures and shares as the service block writes them.</summary>
internal static class ServiceFigures
{
    /// <summary>A pressure in bar: <c>10 bar</c>, <c>150 psi</c>, <c>1.6 MPa</c>, <c>1000 kPa</c>; null where none is to be read.</summary>
    public static double? Bar(string text) => Amount.TryParse(text, Quantity.Pressure, null, out var bar) ? bar : null;

    /// <summary>The test pressure, bar: of the drawing's test, or else of its service; null where none is to be read.</summary>
    public static double? TestPressure(Drawing drawing) => Bar(drawing.Test.Pressure.Length > 0 ? drawing.Test.Pressure : drawing.Service.TestPressure);

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

    /// <summary>Of the drawing's flanges the one that carries least at a temperature, with its rating; null where none can be looked up.</summary>
    public static (Component Flange, string Material, double Bar)? Weakest(Route route, double celsius) => Kinds(route)
        .Select(k => (k.Flange, k.Material, Bar: k.Group is { } group ? Ratings.Of(group, k.Flange.Line.Class, celsius) : null))
        .Where(k => k.Bar is not null).OrderBy(k => k.Bar).Select(k => ((Component, string, double)?)(k.Flange, k.Material, k.Bar!.Value)).FirstOrDefault();

    /// <summary>A flange of each class and material of the drawing, with the group by which it is rated; a drawing that names no material is read as carbon steel.</summary>
    public static IEnumerable<(Component Flange, string Material, string? Group)> Kinds(Route route)
    {
        HashSet<(string, string)> told = [];
        foreach (var c in route.Components)
        {
            if (c is not Flange)
                continue;
            var material = c.Item?.Material is { Length: > 0 } own ? own : c.Line.Material;
            if (told.Add((c.Line.Class, material)))
                yield return (c, material, material.Length == 0 ? CarbonSteel : Metals.RatingGroup(material));
        }
    }

    private const string CarbonSteel = "1.1";
}
