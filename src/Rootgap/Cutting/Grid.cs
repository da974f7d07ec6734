using Rootgap.Measure;

namespace Rootgap.Cutting;

/// <summary>
/// Lengths as whole numbers, so that what fits exactly fits: of a unit of which both 0.01 mm (16) and 1/64 in. (635) are whole. A length that is
/// neither is a hundredth of a millimetre rounded to the safe side.
/// </summary>
internal static class Grid
{
    /// <summary>0.01 mm / 16 = 25.4 mm / 64 / 635.</summary>
    public const double Unit = 0.000625;

    private const long Hundredth = 16;

    /// <summary>A piece's length, or what is lost: never shorter than it is.</summary>
    public static long Up(double mm) => Exact(mm) ?? ((long)Math.Ceiling((mm - Tolerance.Noise) / (Unit * Hundredth)) * Hundredth);

    /// <summary>A bar's length: never longer than it is.</summary>
    public static long Down(double mm) => Exact(mm) ?? ((long)Math.Floor((mm + Tolerance.Noise) / (Unit * Hundredth)) * Hundredth);

    private static long? Exact(double mm)
    {
        var units = Math.Round(mm / Unit);
        return Math.Abs((units * Unit) - mm) < Tolerance.Noise ? (long)units : null;
    }
}
