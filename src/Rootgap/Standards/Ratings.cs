using System.Globalization;

namespace Rootgap.Standards;

/// <summary>Pressure-temperature ratings of flanges by ASME B16.5 table 2.</summary>
public static class Ratings
{
    /// <summary>At what the cold rating is taken, degrees C.</summary>
    public const double Ambient = 38;

    /// <summary>Temperature and rating by group and class, in the order of the table.</summary>
    private static readonly Lazy<Dictionary<(string Group, string Class), (double Celsius, double Bar)[]>> All = new(() => StandardTable.Rows("ratings")
        .GroupBy(r => (r.Item.Split(' ')[^1], r.Class))
        .ToDictionary(g => g.Key, g => g.Select(r => (double.Parse(r.Attribute.Split(' ')[2], CultureInfo.InvariantCulture), r.Figure)).ToArray()));

    /// <summary>
    /// Rating of a flange class of a group (ASME B16.5 Table 1A) at a temperature, bar, between two rows in proportion as ASME B16.5 2.1 allows;
    /// null where the group, the class or the temperature is not in the table.
    /// </summary>
    public static double? Of(string group, string @class, double celsius)
    {
        var (lowT, low, highT, high) = (double.NaN, 0.0, double.NaN, 0.0);
        foreach (var (t, bar) in All.Value.GetValueOrDefault((group, @class), []))
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
}
