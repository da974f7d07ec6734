using Rootgap.Measure;

namespace Rootgap.Sheets;

/// <summary>An isometric view from above (ISO 5456-3): the three axes make 120 degrees on paper and have one scale, up is up.</summary>
/// <param name="Quarter">Quarter turns of the plant under the reader's eye: 0 has north to the upper right, 1 to the upper left, 2 to the lower left, 3 to the lower right.</param>
internal readonly record struct IsometricView(int Quarter)
{
    /// <summary>The usual view first.</summary>
    public static readonly IReadOnlyList<IsometricView> All = [new(0), new(1), new(2), new(3)];

    private static readonly double Cos30 = Math.Cos(Math.PI / 6);

    /// <summary>The displacement on paper; a vector along an axis keeps its length.</summary>
    public Spot Of(Vector v)
    {
        var (x, y) = Turned(v);
        return new((x + y) * Cos30, ((x - y) / 2) - v.Z);
    }

    /// <summary>How near a place is to the reader: of two that fall together on paper, the one with the larger value is in front.</summary>
    public double Nearness(Vector v)
    {
        var (x, y) = Turned(v);
        return (x - y + v.Z) / Math.Sqrt(3);
    }

    /// <summary>How much of a unit direction is left on paper: 1 along an axis, 0 for a line of sight.</summary>
    public double Share(Vector direction) => default(Spot).To(Of(direction.Unit));

    private (double X, double Y) Turned(Vector v) => Quarter switch
    {
        0 => (v.X, v.Y),
        1 => (-v.Y, v.X),
        2 => (-v.X, -v.Y),
        _ => (v.Y, -v.X),
    };
}
