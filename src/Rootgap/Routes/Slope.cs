using Rootgap.Measure;

namespace Rootgap.Routes;

/// <summary>The slight slope of a line that drains: fittings are not cut for it, the fitter takes it up in the joints (common practice).</summary>
internal static class Slope
{
    /// <summary>Up to about 1 in 20, radians.</summary>
    public const double Slight = 3 * Math.PI / 180;

    /// <summary>Whether a unit direction is nearly level and not quite.</summary>
    public static bool IsSlight(Vector direction) => Math.Abs(direction.Z) is > 1e-6 and < 0.0524;
}
