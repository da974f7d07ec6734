using System.Globalization;

namespace Rootgap.Measure;

/// <summary>What an amount is of. Inside, each is held in the unit named here.</summary>
public enum Quantity
{
    /// <summary>A count or a ratio.</summary>
    Number,

    /// <summary>mm.</summary>
    Length,

    /// <summary>mm².</summary>
    Area,

    /// <summary>mm³, of metal: written in cm³.</summary>
    MetalVolume,

    /// <summary>mm³, of a bore: written in litres.</summary>
    Volume,

    /// <summary>kg.</summary>
    Mass,

    /// <summary>kg/mm: written in kg/m.</summary>
    MassPerLength,

    /// <summary>N: written in kN.</summary>
    Force,

    /// <summary>N m.</summary>
    Torque,

    /// <summary>bar, over the air round about.</summary>
    Pressure,

    /// <summary>N/mm².</summary>
    Stress,

    /// <summary>J: written in MJ.</summary>
    Energy,

    /// <summary>Radians: written in degrees.</summary>
    Angle,

    /// <summary>Hours.</summary>
    Hours,
}

/// <summary>Amounts with their units as people write and read them: pressures, masses, volumes, forces. Lengths are <see cref="LengthText"/>'s.</summary>
public static class Amount
{
    /// <summary>A pound, kg (international pound of 1959).</summary>
    public const double Pound = 0.45359237;

    /// <summary>A pound-force, N.</summary>
    public const double PoundForce = Pound * 9.80665;

    private const double Foot = 12 * LengthText.Inch;
    private const double Cube = LengthText.Inch * LengthText.Inch * LengthText.Inch;

    /// <summary>A US gallon, mm³: 231 cubic inches.</summary>
    private const double Gallon = 231 * Cube;

    /// <summary>A pound-force on a square inch, bar.</summary>
    internal const double Psi = PoundForce / (LengthText.Inch * LengthText.Inch) * 10;

    private static (string Word, double Factor)[] UnitsOf(Quantity quantity) => quantity switch
    {
        Quantity.Number => [("", 1)],
        Quantity.Length => [("mm", 1), ("in", LengthText.Inch), ("m", 1000)],
        Quantity.Area => [("mm2", 1), ("in2", LengthText.Inch * LengthText.Inch), ("cm2", 100), ("sq in", LengthText.Inch * LengthText.Inch)],
        Quantity.MetalVolume => [("cm3", 1000), ("in3", Cube)],
        Quantity.Volume => [("l", 1e6), ("gal", Gallon), ("m3", 1e9), ("ft3", Cube * 1728), ("litre", 1e6), ("litres", 1e6), ("cm3", 1e3), ("in3", Cube), ("cu ft", Cube * 1728), ("mm3", 1)],
        Quantity.Mass => [("kg", 1), ("lb", Pound), ("t", 1000), ("lbs", Pound), ("g", 0.001)],
        Quantity.MassPerLength => [("kg/m", 0.001), ("lb/ft", Pound / Foot)],
        Quantity.Force => [("kN", 1000), ("lbf", PoundForce), ("n", 1), ("lb", PoundForce), ("lbs", PoundForce), ("kip", PoundForce * 1000), ("kips", PoundForce * 1000), ("kgf", 9.80665)],
        Quantity.Torque => [("N m", 1), ("ft lb", PoundForce * Foot / 1000), ("nm", 1), ("lb ft", PoundForce * Foot / 1000), ("in lb", PoundForce * LengthText.Inch / 1000)],
        Quantity.Pressure => [("bar", 1), ("psi", Psi), ("barg", 1), ("bar(g)", 1), ("bar g", 1), ("mbar", 0.001), ("psig", Psi), ("mpa", 10), ("mpag", 10), ("kpa", 0.01), ("kpag", 0.01), ("kg/cm2", 0.980665), ("kgf/cm2", 0.980665)],
        Quantity.Stress => [("MPa", 1), ("ksi", Psi * 100), ("psi", Psi / 10), ("n/mm2", 1), ("kpa", 0.001), ("bar", 0.1)],
        Quantity.Energy => [("MJ", 1e6), ("ft lb", PoundForce * Foot / 1000), ("kj", 1000), ("j", 1)],
        Quantity.Angle => [("degrees", Math.PI / 180)],
        Quantity.Hours => [("h", 1)],
        _ => throw new InvalidOperationException("The family of quantities is closed."),
    };

    /// <summary>Reads an amount with its unit: <c>15 bar</c>, <c>50 ksi</c>, <c>400 gal</c>, <c>1,000 kg</c>.</summary>
    /// <param name="bare">In which system a bare number is read; null where it must have its unit.</param>
    public static bool TryParse(string text, Quantity quantity, Units? bare, out double amount)
    {
        var span = text.AsSpan().Trim();
        var length = 0;
        while (length < span.Length && (char.IsAsciiDigit(span[length]) || span[length] is '.' or '-' or '+' or ',' || (span[length] is 'e' or 'E' && length > 0 && char.IsAsciiDigit(span[length - 1]) && length + 1 < span.Length && char.IsAsciiDigit(span[length + 1]))))
            length++;
        // A comma parts thousands, and only whole ones: "1,000". What might be a decimal comma is not guessed at.
        if (!IsGrouped(span[..length]) || !double.TryParse(span[..length], NumberStyles.Float | NumberStyles.AllowThousands, CultureInfo.InvariantCulture, out amount) || !double.IsFinite(amount))
        {
            amount = 0;
            return false;
        }

        var unit = span[length..].Trim().ToString().ToLowerInvariant().Replace("³", "3", StringComparison.Ordinal).Replace("²", "2", StringComparison.Ordinal).Replace('·', ' ').Replace("^", "", StringComparison.Ordinal);
        var all = UnitsOf(quantity);
        if (unit.Length == 0)
        {
            amount *= bare is { } system ? Shown(quantity, system).Factor : 1;
            return bare is not null || quantity == Quantity.Number;
        }

        foreach (var (word, factor) in all)
        {
            if (word.Equals(unit, StringComparison.OrdinalIgnoreCase) || word.Replace(" ", "", StringComparison.Ordinal).Equals(unit.Replace("-", "", StringComparison.Ordinal).Replace(" ", "", StringComparison.Ordinal), StringComparison.OrdinalIgnoreCase))
            {
                amount *= factor;
                return true;
            }
        }

        return false;
    }

    private static bool IsGrouped(ReadOnlySpan<char> digits)
    {
        for (var at = digits.IndexOf(','); at >= 0;)
        {
            var rest = digits[(at + 1)..];
            var next = rest.IndexOf(',');
            var group = next >= 0 ? rest[..next] : rest[..(rest.IndexOf('.') is >= 0 and var dot ? dot : rest.Length)];
            if (group.Length != 3)
                return false;
            at = next < 0 ? -1 : at + 1 + next;
        }

        return true;
    }

    /// <summary>The units in which a quantity can be written, for messages.</summary>
    public static string Words(Quantity quantity) => string.Join(", ", UnitsOf(quantity).Select(u => u.Word).Where(w => w.Length > 0).Take(4));

    /// <summary>The unit in which a quantity is written.</summary>
    public static string Unit(Quantity quantity, Units units) => Shown(quantity, units).Word;

    /// <summary>The amount in the unit in which it is written.</summary>
    public static double In(Quantity quantity, double amount, Units units) => amount / Shown(quantity, units).Factor;

    /// <summary>The amount with its unit, to four figures: of more nobody knows the inputs.</summary>
    public static string Say(Quantity quantity, double amount, Units units)
    {
        var (word, _) = Shown(quantity, units);
        var number = Figures(In(quantity, amount, units), quantity == Quantity.Angle ? 3 : 4);
        return word.Length > 0 ? $"{number} {word}" : number;
    }

    /// <summary>A number to so many figures, without an exponent: 0.08123, 23.28, 12350.</summary>
    public static string Figures(double value, int figures)
    {
        if (value == 0 || !double.IsFinite(value))
            return "0";
        var decimals = figures - 1 - (int)Math.Floor(Math.Log10(Math.Abs(value)));
        return LengthText.Rounded(value, Math.Clamp(decimals, 0, 12)).ToString("0.############", CultureInfo.InvariantCulture);
    }

    private static (string Word, double Factor) Shown(Quantity quantity, Units units)
    {
        var all = UnitsOf(quantity);
        return all[units == Units.Inches && all.Length > 1 ? 1 : 0];
    }
}
