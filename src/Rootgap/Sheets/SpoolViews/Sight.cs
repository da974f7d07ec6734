using Rootgap.Measure;

namespace Rootgap.Sheets;

/// <summary>A direction from which a spool is seen square on: what lies to the right and what lies up on paper, unit vectors.</summary>
internal sealed record Sight(string Key, string Title, Vector Right, Vector Up)
{
    public static readonly Sight Plan = new("plan", "Plan: seen from above, north is up", Vector.East, Vector.North);
    public static readonly Sight FromSouth = new("south", "Seen from the south, east is to the right", Vector.East, Vector.Up);
    public static readonly Sight FromNorth = new("north", "Seen from the north, west is to the right", -Vector.East, Vector.Up);
    public static readonly Sight FromEast = new("east", "Seen from the east, north is to the right", Vector.North, Vector.Up);
    public static readonly Sight FromWest = new("west", "Seen from the west, south is to the right", -Vector.North, Vector.Up);

    public static readonly IReadOnlyList<Sight> All = [Plan, FromSouth, FromEast, FromNorth, FromWest];

    /// <summary>Unit vector out of the paper, to the reader.</summary>
    public Vector Toward { get; } = Right.Cross(Up);

    /// <summary>Where a point stands, real millimetres, y downwards.</summary>
    public Spot Of(Point p) => Of(p - Point.Origin);

    public Spot Of(Vector v) => new(v.Dot(Right), -v.Dot(Up));

    /// <summary>How near to the reader, mm.</summary>
    public double Depth(Point p) => (p - Point.Origin).Dot(Toward);
}
