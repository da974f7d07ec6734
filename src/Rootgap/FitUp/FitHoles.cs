using Rootgap.Measure;

namespace Rootgap.FitUp;

/// <summary>Bolt holes of a flange face.</summary>
/// <param name="Count">Number of holes.</param>
/// <param name="Circle">Bolt circle diameter, mm.</param>
/// <param name="Between">Unit, in the face: from its centre to the middle between two neighbouring holes.</param>
public sealed record FitHoles(int Count, double Circle, Vector Between)
{
    /// <summary>Distance between neighbouring pins (the chord), mm: BC sin(180/N).</summary>
    public double Chord => Circle * Math.Sin(Math.PI / Count);

    /// <summary>What turning at the bolt circle shows as across the pair that is read, mm: for 1.6 mm across the top pair 3.2 sin(180/N).</summary>
    public double Shows(double turning, Vector normal, Vector up) => turning / (Circle / 2) * Pair(normal, up).Apart;

    /// <summary>From 16 holes up the pins at left and right near mid-height are read: farther apart, they show more.</summary>
    public bool MidHeight => 16 <= Count;

    /// <summary>
    /// The pair of holes that is read: of the neighbours, and of those with one hole between them, the pair that comes nearest to level under the top; from 16 holes up the
    /// pair at left and right that belongs to it.
    /// </summary>
    /// <param name="normal">Unit, out of the face.</param>
    /// <param name="up">Unit.</param>
    /// <returns>The unit direction from the centre to the middle over the pair (the top when the pair is level), and how far apart its pins are, mm.</returns>
    public (Vector Top, double Apart, bool OverHole) Pair(Vector normal, Vector up)
    {
        var (top, over, most) = (Between, false, double.NegativeInfinity);
        for (var k = 0; k < 2 * Count; k++)
        {
            var way = Between.Turned(normal, Math.PI * k / Count);
            var height = way.Dot(up);
            // Where two come equally near, neighbours are read.
            if (most + (k % 2 == 0 && over ? -1e-9 : 1e-9) < height)
                (top, over, most) = (way, k % 2 == 1, height);
        }

        var apart = (over, MidHeight) switch
        {
            (false, false) => Chord,
            (true, false) => Circle * Math.Sin(2 * Math.PI / Count),
            // A quarter round from the top there is a hole wherever the number of holes is a multiple of four and one is on top; between two otherwise.
            (false, true) => Circle * Math.Cos(Math.PI / Count),
            (true, true) => Circle,
        };
        return (top, apart, over);
    }
}
