using Rootgap.Measure;

namespace Rootgap.Sheets;

/// <summary>A direction from which a spool is seen square on: what lies to the right and what lies up on paper, unit vectors.</summary>
internal sealed record Sight(string Key, string Title, Vector Right, Vector Up)
{
    public static readonly Sight Plan = new("plan", "From above", Vector.East, Vector.North);
    public static readonly Sight PlanAlongNorth = new("above", "From above", Vector.North, -Vector.East);
    public static readonly Sight FromSouth = new("south", "From the south", Vector.East, Vector.Up);
    public static readonly Sight FromNorth = new("north", "From the north", -Vector.East, Vector.Up);
    public static readonly Sight FromEast = new("east", "From the east", Vector.North, Vector.Up);
    public static readonly Sight FromWest = new("west", "From the west", -Vector.North, Vector.Up);

    public static readonly IReadOnlyList<Sight> All = [Plan, PlanAlongNorth, FromSouth, FromEast, FromNorth, FromWest];

    /// <summary>Square to a plane of its own, with a way in it to the right; null where that plane is one of the plant's.</summary>
    public static Sight? Flat(Vector normal, Vector right)
    {
        if (new[] { Vector.East, Vector.North, Vector.Up }.Any(a => Math.Abs(a.Dot(normal)) > 0.9999))
            return null;
        var up = normal.Cross(right);
        return new("flat", "Laid flat, square to its own plane", right, up.Z < 0 ? -up : up);
    }

    /// <summary>Unit vector out of the paper, to the reader.</summary>
    public Vector Toward { get; } = Right.Cross(Up);

    /// <summary>Where a point stands, real millimetres, y downwards.</summary>
    public Spot Of(Point p) => Of(p - Point.Origin);

    public Spot Of(Vector v) => new(v.Dot(Right), -v.Dot(Up));

    /// <summary>How near to the reader, mm.</summary>
    public double Depth(Point p) => (p - Point.Origin).Dot(Toward);
}
