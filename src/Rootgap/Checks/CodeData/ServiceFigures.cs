using System.Globalization;
using System.Text.RegularExpressions;
using Rootgap.Drawings;
using Rootgap.Measure;
using Rootgap.Routes;
using Rootgap.Standards;

namespace Rootgap.Checks;

/// <summary>Pressures, temperatures and shares as the service block writes them.</summary>
internal static partial class ServiceFigures
{
    /// <summary>
    /// A pressure in bar above the air's: <c>10 bar</c>, <c>150 psi</c>, <c>1.6 MPa</c>, <c>50 mbar abs</c>; of <c>12 bar / full vacuum</c> the greater. Null where none is to be read.
    /// </summary>
    public static double? Bar(string text)
    {
        var all = text.Split(['/', '&'], StringSplitOptions.TrimEntries | StringSplitOptions.RemoveEmptyEntries).Select(One).ToList();
        return all.Contains(null) ? Amount.TryParse(text, Quantity.Pressure, null, out var whole) ? whole : null : all.Max();

        static double? One(string text) => text.ToLowerInvariant() is "full vacuum" or "vacuum" or "fv" ? -Atmosphere
            : Absolute().Match(text) is { Success: true } absolute && Amount.TryParse(text[..absolute.Index], Quantity.Pressure, null, out var above) ? above - Atmosphere
            : Amount.TryParse(text, Quantity.Pressure, null, out var bar) || (Tested().Match(text) is { Success: true } medium && Amount.TryParse(text[..medium.Index], Quantity.Pressure, null, out bar)) ? bar : null;
    }

    /// <summary>With what is tested, behind the pressure: 14.3 bar pneumatic with nitrogen; 225 psi (hydro).</summary>
    [GeneratedRegex(@"[\s,;(]+(?:pneumatic\w*|hydro\w*|with|by|air|nitrogen|water)\b[^\d]*$", RegexOptions.CultureInvariant | RegexOptions.IgnoreCase | RegexOptions.ExplicitCapture, matchTimeoutMilliseconds: 1000)]
    private static partial Regex Tested();

    /// <summary>Of the air, bar (ISO 2533).</summary>
    public const double Atmosphere = 1.01325;

    [GeneratedRegex(@"\s*(\(a\)|\(abs\)|abs\.?|absolute)$", RegexOptions.CultureInvariant | RegexOptions.IgnoreCase | RegexOptions.ExplicitCapture, matchTimeoutMilliseconds: 1000)]
    private static partial Regex Absolute();

    /// <summary>The test pressure, bar: of the drawing's test, or else of its service; null where none is to be read.</summary>
    public static double? TestPressure(Drawing drawing) => Bar(drawing.Test.Pressure.Length > 0 ? drawing.Test.Pressure : drawing.Service.TestPressure);

    /// <summary>A temperature in degrees Celsius: <c>50 C</c>, <c>105 F</c>, <c>320 K</c>; of a range, <c>-29 to 90 C</c>, its hot end. Null where none is to be read.</summary>
    public static double? Celsius(string text) => Between().Match(text) is { Success: true } range ? Figure(range.Groups["hot"].Value) : Figure(text);

    /// <summary>The cold end of a range of temperatures, C, or the one temperature there is; null where none is to be read.</summary>
    public static double? Coldest(string text) =>
        Between().Match(text) is { Success: true } range ? Figure(range.Groups["cold"].Value) ?? Figure(range.Groups["cold"].Value + range.Groups["unit"].Value) : Figure(text);

    [GeneratedRegex(@"^\s*(?<cold>[-+]?\d+(\.\d+)?\s*°?[A-Za-z]*)\s*(?:to|/|\.\.\.?)\s*(?<hot>[-+]?\d+(\.\d+)?\s*(?<unit>°?\s*[A-Za-z]+))\s*$", RegexOptions.CultureInvariant | RegexOptions.ExplicitCapture, matchTimeoutMilliseconds: 1000)]
    private static partial Regex Between();

    private static double? Figure(string text) => Split(text, out var number) is { } unit
        ? unit.Trim('°', ' ').Replace("deg", "", StringComparison.Ordinal).Trim() switch { "c" => number, "f" => (number - 32) / 1.8, "k" => number - 273.15, _ => null }
        : null;

    /// <summary>A time in minutes: <c>20 min</c>, <c>30 s</c>, <c>1 h</c>; null where none is to be read.</summary>
    public static double? Minutes(string text) => Split(text, out var number) switch
    {
        "s" or "sec" or "seconds" => number / 60,
        "min" or "minutes" or "minute" or "mins" => number,
        "h" or "hour" or "hours" or "hr" => number * 60,
        _ => null,
    };

    /// <summary>A share in percent: <c>5 %</c>, <c>5</c>, <c>100% RT</c>, <c>RT 100 %</c>; null where none is to be read.</summary>
    public static double? Percent(string text) => Split(Method().Replace(text, ""), out var number) is { } unit && (unit.Length == 0 || unit[0] == '%') ? number : null;

    /// <summary>The method before the share: RT, UT, MT, PT, VT.</summary>
    [GeneratedRegex("^\\s*[RUMPV]T\\s+(?=\\d)", RegexOptions.CultureInvariant | RegexOptions.IgnoreCase, matchTimeoutMilliseconds: 1000)]
    private static partial Regex Method();

    private static string? Split(string text, out double number)
    {
        var span = text.AsSpan().Trim();
        var length = 0;
        while (length < span.Length && (char.IsAsciiDigit(span[length]) || span[length] is '.' or '-' or '+'))
            length++;
        return double.TryParse(span[..length], NumberStyles.Float, CultureInfo.InvariantCulture, out number) ? span[length..].Trim().ToString().ToLowerInvariant() : null;
    }

    /// <summary>
    /// Of the drawing's flanges the one that carries least at a temperature, with its rating; null where none can be looked up. What stands apart from the flanges of the highest class and
    /// ends open, the outlet of a relief valve, never sees the design pressure.
    /// </summary>
    public static (Component Flange, string Material, double Bar)? Weakest(Route route, double celsius) => Weakest(Kinds(route, Tails(route)), celsius, route.Drawing.Units);

    /// <summary>As <see cref="Weakest(Route, double)"/>, of the flanges that it leaves out.</summary>
    public static (Component Flange, string Material, double Bar)? WeakestLeftOut(Route route, double celsius) =>
        Tails(route) is { Count: > 0 } tails ? Weakest(Kinds(route, route.Components.Select(c => c.Id).Where(id => !tails.Contains(id)).ToHashSet(StringComparer.Ordinal)), celsius, route.Drawing.Units) : null;

    private static (Component Flange, string Material, double Bar)? Weakest(IEnumerable<(Component Flange, string Material, string? Group)> kinds, double celsius, Units units) => kinds
        .Select(k => (k.Flange, k.Material, Bar: k.Group is { } group ? Ratings.Of(group, k.Flange.Line.Class, celsius, units) : null))
        .Where(k => k.Bar is not null).OrderBy(k => k.Bar).Select(k => ((Component, string, double)?)(k.Flange, k.Material, k.Bar!.Value)).FirstOrDefault();

    /// <summary>A flange of each class and material of the drawing, with the group by which it is rated; a drawing that names no material is read as carbon steel.</summary>
    public static IEnumerable<(Component Flange, string Material, string? Group)> Kinds(Route route) => Kinds(route, []);

    private static IEnumerable<(Component Flange, string Material, string? Group)> Kinds(Route route, HashSet<string> except)
    {
        HashSet<(string, string)> told = [];
        foreach (var c in route.Components)
        {
            if (c is not Flange || except.Contains(c.Id))
                continue;
            if (told.Add((c.Line.Class, c.Material)))
                yield return (c, c.Material, c.Material.Length == 0 ? CarbonSteel : Metals.RatingGroup(c.Material));
        }
    }

    /// <summary>Where a flange of one of several classes stands: " (main, leg 3)"; empty where the drawing has one class.</summary>
    public static string Where(Route route, Component flange) =>
        route.Components.Any(c => c is Flange && c.Line.Class != flange.Line.Class) ? $" ({route.Drawing.PlaceOf(flange.Source.Path)})" : "";

    /// <summary>The flanges of what is joined to none of the highest class, and ends open to the air.</summary>
    private static HashSet<string> Tails(Route route)
    {
        var flanges = route.Components.Where(c => c is Flange).ToList();
        var highest = flanges.Select(Class).DefaultIfEmpty(0).Max();
        if (flanges.TrueForAll(f => Class(f) == highest))
            return [];
        var joined = new Parted(route.Joints, _ => true);
        var open = route.Runs.Select((r, i) => (r.Run, Index: i)).Where(r => r.Run.Legs[^1].To is OpenPoint { Continues: null }).SelectMany(r => route.Pipes.Where(p => p.Run == r.Index)).Select(p => joined.GroupOf(p.Id)).ToHashSet(StringComparer.Ordinal);
        open.ExceptWith(flanges.Where(f => Class(f) == highest).Select(f => joined.GroupOf(f.Id)));
        return [.. flanges.Where(f => open.Contains(joined.GroupOf(f.Id))).Select(f => f.Id)];

        static int Class(Component flange) => int.TryParse(flange.Line.Class, CultureInfo.InvariantCulture, out var @class) ? @class : 0;
    }

    private const string CarbonSteel = "1.1";
}
