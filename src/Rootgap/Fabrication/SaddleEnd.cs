using Rootgap.Measure;
using Rootgap.Routes;

namespace Rootgap.Fabricating;

/// <summary>The end of a pipe that is cut to lie on the header on which it is set.</summary>
/// <param name="Along">Unit, square to the pipe, in the plane of both axes: the way the header runs.</param>
/// <param name="Header">Outside radius of the header, mm.</param>
/// <param name="Contact">Radius of the pipe's edge that bears on it, mm.</param>
/// <param name="Lean">How the pipe leans on the header.</param>
internal sealed record SaddleEnd(Vector Along, double Header, double Contact, Lean Lean)
{
    /// <summary>By how much deeper than its middle line, which ends where it meets the header's outside, the cut edge reaches on a side of the pipe, mm; below nought where it is shorter.</summary>
    /// <param name="side">Unit, square to the pipe.</param>
    public double Deeper(Vector side)
    {
        var (cos, across) = (Math.Clamp(side.Dot(Along), -1, 1), Contact * side.SquareTo(Along).Length);
        var level = Math.Sqrt(Math.Max(0, (Header * Header) - (across * across)));
        return Lean.Along(Header - level) - Lean.Shift(Contact * cos);
    }

    /// <summary>How much deeper than its middle line it reaches at most, mm: at its sides, or about the heel of one that leans.</summary>
    public double Deepest
    {
        get
        {
            var level = Math.Sqrt(Math.Max(0, (Header * Header) - (Contact * Contact)));
            if (Lean.IsSquare)
                return Header - level;
            // Of a + b that meet at an angle the least distance lies at the heel, or where the curve turns beside it: there it is the square branch's level.
            var (sin, cos) = (Math.Sin(Lean.Radians), Math.Abs(Math.Cos(Lean.Radians)));
            var deepest = Contact > 0 && level * cos / sin < Contact ? level : (Header - (Contact * cos)) / sin;
            return Lean.Along(Header) - deepest;
        }
    }

    /// <summary>What the cut edge is called on a side: its crown lies on the header's own line, the sides hang over it; of one that leans the throat, the heel and the sides. Empty between them.</summary>
    public string Name(Vector side) => Math.Abs(side.Dot(Along)) < 0.02 ? "side"
        : Math.Abs(side.Dot(Along)) < 0.98 ? ""
        : Lean.IsSquare ? "crown" : side.Dot(Along) * Math.Cos(Lean.Radians) > 0 ? "throat" : "heel";

    /// <summary>The edge as points, mm.</summary>
    /// <param name="middle">Where the pipe's middle line ends.</param>
    /// <param name="face">Unit, out of the pipe.</param>
    /// <param name="radius">Outside radius of the pipe, mm.</param>
    public IEnumerable<Point> Rim(Point middle, Vector face, double radius, int points = 72)
    {
        var across = face.Cross(Along);
        for (var i = 0; i < points; i++)
        {
            var (sin, cos) = Math.SinCos(2 * Math.PI * i / points);
            var side = (Along * cos) + (across * sin);
            yield return middle + (side * radius) + (face * Deeper(side));
        }
    }

    /// <summary>The same end after a rigid motion.</summary>
    public SaddleEnd Moved(in Motion motion) => this with { Along = motion.Of(Along) };
}
