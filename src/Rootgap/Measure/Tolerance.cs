namespace Rootgap.Measure;

/// <summary>What counts as equal, each with its reason. Equality itself stays exact.</summary>
public static class Tolerance
{
    /// <summary>A turn within this of 90 or 45 degrees is a stock elbow; below it there is no turn. Radians (0.25 degrees, the drawing file's rule).</summary>
    public const double Turn = 0.25 * Math.PI / 180;

    /// <summary>Two places that should coincide do so within this, mm: what a tape can show.</summary>
    public const double Closing = 1.0;

    /// <summary>Numerical noise of a chain of sums, mm: far below anything printed.</summary>
    public const double Noise = 1e-6;
}
