using System.Text.Json;
using Rootgap.Measure;

namespace Rootgap.Sums;

/// <summary>Figures with their sums as other programs read them, in both systems of units. This writer is the contract.</summary>
public static class SumsJson
{
    private const int Significant = 9;

    /// <summary>An array of figures under a name.</summary>
    public static void Write(Utf8JsonWriter json, string name, IEnumerable<Sum> sums)
    {
        json.WriteStartArray(name);
        foreach (var sum in sums)
        {
            json.WriteStartObject();
            json.WriteString("name", sum.Name);
            Value(json, "value", "unit", sum, Units.Millimetres);
            if (Amount.Unit(sum.Of, Units.Inches) != Amount.Unit(sum.Of, Units.Millimetres))
                Value(json, "value in inches", "unit in inches", sum, Units.Inches);
            if (sum.How.Length > 0)
                json.WriteString("sum", sum.How);
            if (sum.Source.Length > 0)
                json.WriteString("source", sum.Source);
            json.WriteEndObject();
        }

        json.WriteEndArray();
    }

    private static void Value(Utf8JsonWriter json, string value, string unit, Sum sum, Units units)
    {
        var number = Amount.In(sum.Of, sum.Value, units);
        json.WriteNumber(value, Rounded(number));
        if (Amount.Unit(sum.Of, units) is { Length: > 0 } word)
            json.WriteString(unit, word);
    }

    private static double Rounded(double value) => value == 0 || !double.IsFinite(value) ? 0 : Math.Round(value, Math.Clamp(Significant - 1 - (int)Math.Floor(Math.Log10(Math.Abs(value))), 0, 15));
}
