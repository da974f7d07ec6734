using MathNet.Numerics;
using MathNet.Numerics.Distributions;
using MathNet.Numerics.RootFinding;

namespace Rootgap.Site.Forecasting;

/// <summary>
/// How short a pipe may be at a final-fit weld, without drawing lines by chance: the shift along the pipe and the two tilts are taken as normal together, with the variances
/// and covariances that the errors give them to first order (many errors add up to nearly that: central limit theorem), but for how soon uniform errors end. Over the tilts it is summed, along the pipe the
/// normal distribution is exact.
/// </summary>
internal static class ShortByFirstOrder
{
    /// <summary>Rings and spokes of equal weight over the two tilts.</summary>
    private const int Rings = 24, Spokes = 16;

    /// <summary>Radius and direction of each place, for two independent tilts of unit deviation: their radius is Rayleigh distributed.</summary>
    private static readonly (double U, double V)[] Tilts = [.. from ring in Enumerable.Range(0, Rings)
                                                              let radius = Math.Sqrt(-2 * Math.Log(1 - ((ring + 0.5) / Rings)))
                                                              from spoke in Enumerable.Range(0, Spokes)
                                                              let angle = 2 * Math.PI * (spoke + (0.5 * (ring % 2))) / Spokes
                                                              select (radius * Math.Cos(angle), radius * Math.Sin(angle))];

    /// <summary>The length that a share of all lines is not short by more than, mm: along the pipe, and round the outside of a cut that leans.</summary>
    /// <param name="half">Half the outside diameter, mm.</param>
    /// <param name="share">Between 0.5 and 1.</param>
    public static double Of(Opening opening, double half, double share)
    {
        double flat = 0, zz = 0, zx = 0, zy = 0, xx = 0, xy = 0, yy = 0;
        foreach (var c in opening.Columns)
        {
            var own = c.Source.Spread.Deviation * c.Source.Spread.Deviation;
            var (z, x, y) = (c.Lever[2], c.Lever[3], c.Lever[4]);
            zz += own * z * z;
            // A uniform error has a fourth cumulant of -1.2 times its variance squared, a normal one none.
            flat -= c.Source.Spread.IsNormal ? 0 : 1.2 * Sq(own * z * z);
            zx += own * z * x;
            zy += own * z * y;
            xx += own * x * x;
            xy += own * x * y;
            yy += own * y * y;
        }

        // Cholesky's factors, the tilts first: tilt x = a u, tilt y = b u + c v, shift = d u + e v + sd w.
        var a = Math.Sqrt(xx);
        var b = a > 0 ? xy / a : 0;
        var c2 = Math.Sqrt(Math.Max(0, yy - (b * b)));
        var d = a > 0 ? zx / a : 0;
        var e = c2 > 0 ? (zy - (b * d)) / c2 : 0;
        var sd = Math.Sqrt(Math.Max(0, zz - (d * d) - (e * e)));
        var (knownZ, knownX, knownY) = (opening.Known[2], opening.Known[3], opening.Known[4]);
        var shorts = Array.ConvertAll(Tilts, t => knownZ + (d * t.U) + (e * t.V) + (half * Math.Sqrt(Sq(knownX + (a * t.U)) + Sq(knownY + (b * t.U) + (c2 * t.V)))));
        Array.Sort(shorts);
        if (sd < 1e-9)
            return Math.Max(0, shorts[(int)(share * (shorts.Length - 1))]);
        var point = Normal.InvCDF(0, 1, share);
        // At the least place it is not reached, at the greatest it is passed: between them lies one root.
        var normal = Brent.FindRoot(q => shorts.Sum(s => SpecialFunctions.Erfc((s - q) / (sd * Constants.Sqrt2)) / 2) - (share * shorts.Length), shorts[0] + (sd * point) - sd, shorts[^1] + (sd * point) + sd, 1e-3);
        // Few large uniform errors end sooner than a normal one: the next term of Cornish and Fisher's expansion (1938), along the pipe.
        var sooner = zz > 0 ? ((point * point * point) - (3 * point)) / 24 * flat / (zz * zz) * Math.Sqrt(zz) : 0;
        return Math.Max(0, normal + sooner);
    }

    private static double Sq(double value) => value * value;
}
