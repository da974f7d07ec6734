using Rootgap.Drawings;
using Rootgap.Measure;

namespace Rootgap.Routes;

/// <summary>How a branch leans on its header: the angle between the header's direction and the branch's, radians, over 0 to under pi. What lies within a slight slope of square is square: the weld takes it up.</summary>
internal readonly record struct Lean(double Radians)
{
    /// <summary>Flatter than 15 degrees on its header a branch has no end that could be cut, radians.</summary>
    public const double Flattest = Math.PI / 12;

    public static readonly Lean Square = new(Math.PI / 2);

    /// <summary>A branch that points along its header leans by nothing that has a figure: it is reckoned square, and a stop tells of it.</summary>
    public static Lean Of(Vector header, Vector branch)
    {
        var off = Math.Abs(header.AngleTo(branch) - (Math.PI / 2));
        return off <= Slope.Slight || off >= (Math.PI / 2) - Flattest ? Square : new(header.AngleTo(branch));
    }

    public bool IsSquare => Radians == Square.Radians;

    /// <summary>The angle as the trade says it, degrees, 90 at most.</summary>
    public double Degrees => Angles.ToDegrees(Math.Min(Radians, Math.PI - Radians));

    /// <summary>What is measured square to the header as measured along the branch.</summary>
    public double Along(double square) => IsSquare ? square : square / Math.Sin(Radians);

    /// <summary>How far along the header, the way the branch leans, it comes out of a header of this radius, mm.</summary>
    public double Shift(double radius) => IsSquare ? 0 : radius / Math.Tan(Radians);

    /// <summary>The place and half the length of a branch's hole along its header, mm from the leg's end, along the leg; null where nothing is set on there.</summary>
    public static (double Along, double Half)? HoleOf(Leg leg, Vector direction, double header, Units units)
    {
        var (size, branch) = leg.To switch { OutletPoint o => (o.Size, o.Branch), StubInPoint s => (s.Size, s.Branch), _ => default };
        if (size.IsNone)
            return null;
        var lean = Of(direction, branch);
        return (lean.Shift(header / 2), lean.Along(Standards.Pipes.Outside(size, units) / 2));
    }
}
