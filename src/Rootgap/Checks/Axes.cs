using Rootgap.Measure;

namespace Rootgap.Checks;

/// <summary>Displacements as a fitter says them, axis by axis.</summary>
internal static class Axes
{
    /// <summary>Such as <c>12 east, 3.5 down</c>, in the units of the drawing; parts under 0.05 mm are left out.</summary>
    public static string Say(Units units, Vector mm)
    {
        var text = "";
        Add(mm.X, "east", "west");
        Add(mm.Y, "north", "south");
        Add(mm.Z, "up", "down");
        return text;

        void Add(double part, string plus, string minus)
        {
            if (Math.Abs(part) > 0.05)
                text += LengthText.Say(units, $"{(text.Length > 0 ? ", " : "")}{Math.Abs(part):len} {(part > 0 ? plus : minus)}");
        }
    }

    /// <summary>The word of the axis along which a unit direction lies within 0.25 degrees; null where it lies along none.</summary>
    public static string? Word(Vector direction)
    {
        foreach (var (axis, word) in Six)
        {
            if (axis.AngleTo(direction) <= Tolerance.Turn)
                return word;
        }

        return null;
    }

    public static readonly (Vector Axis, string Word)[] Six =
        [(Vector.North, "north"), (-Vector.North, "south"), (Vector.East, "east"), (-Vector.East, "west"), (Vector.Up, "up"), (-Vector.Up, "down")];
}
