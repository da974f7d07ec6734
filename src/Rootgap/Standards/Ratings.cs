using System.Globalization;
using Rootgap.Measure;

namespace Rootgap.Standards;

/// <summary>Pressure-temperature ratings of flanges by ASME B16.5 table 2, and by the tables in psi and degrees F of its second annex for a drawing in inches.</summary>
/// <remarks>
/// The two sets of tables are not conversions of each other: class 150 of group 1.1 carries 19.6 bar (284.3 psi) or 285 psi, and class 300 carries 51.1 bar
/// (741.1 psi) or 740. A line designed to its book's figure is neither over it nor under it.
/// </remarks>
public static class Ratings
{
    /// <summary>At what the cold rating is taken, degrees C (100 degrees F).</summary>
    public const double Ambient = 38;

    /// <summary>The psi tables go in steps of five (ASME B16.5 annex II).</summary>
    private const double PsiStep = 5;

    /// <summary>Temperature and rating by unit, group and class, in the order of the table.</summary>
    private static readonly Lazy<Dictionary<(string Unit, string Group, string Class), (double Celsius, double Bar)[]>> All = new(() => StandardTable.Rows("ratings")
        .Select(r => (Row: r, Words: r.Attribute.Split(' ')))
        .GroupBy(r => (r.Words[0], r.Row.Item.Split(' ')[^1], r.Row.Class))
        .ToDictionary(g => g.Key, g => g.Select(r => (Temperature(r.Words), r.Row.Figure * (r.Words[0] == "psi" ? Amount.Psi : 1))).ToArray()));

    /// <summary>
    /// Rating of a flange class of a group (ASME B16.5 Table 1A) at a temperature, bar, between two rows in proportion as ASME B16.5 2.1 allows;
    /// null where the group, the class or the temperature is not in the table.
    /// </summary>
    /// <param name="celsius">Of the flange, degrees C.</param>
    /// <param name="units">Those of the drawing: one in inches is held to the psi tables. A group that has none here is taken from the bar table, to the step of five psi.</param>
    public static double? Of(string group, string @class, double celsius, Units units)
    {
        if (units != Units.Inches)
            return Between(All.Value.GetValueOrDefault(("bar", group, @class), []), celsius);
        return All.Value.TryGetValue(("psi", group, @class), out var rows)
            ? Between(rows, celsius)
            : Between(All.Value.GetValueOrDefault(("bar", group, @class), []), celsius) is { } bar ? Math.Round(bar / Amount.Psi / PsiStep) * PsiStep * Amount.Psi : null;
    }

    private static double? Between((double Celsius, double Bar)[] rows, double celsius)
    {
        var (lowT, low, highT, high) = (double.NaN, 0.0, double.NaN, 0.0);
        foreach (var (t, bar) in rows)
        {
            if (t <= celsius)
                (lowT, low) = (t, bar);
            if (t >= celsius && double.IsNaN(highT))
                (highT, high) = (t, bar);
        }

        // Below 38 degrees the rating stays, and below -29 it is no higher than at -29 (ASME B16.5 chapter 2; from memory).
        if (double.IsNaN(lowT))
            return double.IsNaN(highT) ? null : high;
        return double.IsNaN(highT) ? null : highT <= lowT ? low : low + ((high - low) * (celsius - lowT) / (highT - lowT));
    }

    /// <summary>The temperature of a row, degrees C: <c>bar at 50 C</c>, <c>psi at 200 F</c>. The first of the psi table, 100 F, is the cold rating's.</summary>
    private static double Temperature(string[] attribute)
    {
        var figure = double.Parse(attribute[2], CultureInfo.InvariantCulture);
        return attribute[3] == "C" ? figure : figure <= 100 ? Ambient : (figure - 32) / 1.8;
    }
}
