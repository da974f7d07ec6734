using Rootgap.Measure;

namespace Rootgap.Sheets;

/// <summary>An isometric view from above (ISO 5456-3): the three axes make 120 degrees on paper, up is up, and they have one scale but for the stretch.</summary>
/// <param name="Quarter">Quarter turns of the plant under the reader's eye: 0 has north to the upper right, 1 to the upper left, 2 to the lower left, 3 to the lower right.</param>
/// <param name="East">How much longer than they are lengths to the east are drawn, everywhere alike; so <paramref name="North"/> and <paramref name="Up"/>. It turns no leg along an axis, and skew legs off the axes.</param>
internal readonly record struct IsometricView(int Quarter, double East = 1, double North = 1, double Up = 1)
{
    /// <summary>The usual view first.</summary>
    public static readonly IReadOnlyList<IsometricView> All = [new(0), new(1), new(2), new(3)];

    /// <summary>The same from one side with one direction drawn longer or shorter: the upright one first.</summary>
    public IEnumerable<IsometricView> Stretched()
    {
        foreach (var by in (double[])[0.75, 1.35, 1.8])
        {
            yield return this with { Up = by };
            yield return this with { North = by };
            yield return this with { East = by };
        }
    }

    /// <summary>How far it is from one scale for all: what it costs that lengths do not compare.</summary>
    public double Stretch => Math.Abs(Math.Log(East)) + Math.Abs(Math.Log(North)) + Math.Abs(Math.Log(Up));

    private static readonly double Cos30 = Math.Cos(Math.PI / 6);

    /// <summary>The displacement on paper; a vector along an axis keeps its length, but for the stretch.</summary>
    public Spot Of(Vector v)
    {
        var (x, y, z) = Turned(v);
        return new((x + y) * Cos30, ((x - y) / 2) - z);
    }

    /// <summary>Which way a direction goes on paper: 1 mm long, or as it is where it is seen end on.</summary>
    public Spot Way(Vector v) => Of(v) is var on && default(Spot).To(on) is > 1e-9 and var length ? new(on.X / length, on.Y / length) : on;

    /// <summary>How near a place is to the reader: of two that fall together on paper, the one with the larger value is in front.</summary>
    public double Nearness(Vector v)
    {
        var (x, y, z) = Turned(v);
        return (x - y + z) / Math.Sqrt(3);
    }

    /// <summary>How much of a unit direction is left on paper: 1 along an axis (but for the stretch), 0 for a line of sight.</summary>
    public double Share(Vector direction) => default(Spot).To(Of(direction.Unit));

    private (double X, double Y, double Z) Turned(Vector v)
    {
        var (east, north, up) = (v.X * East, v.Y * North, v.Z * Up);
        return Quarter switch
        {
            0 => (east, north, up),
            1 => (-north, east, up),
            2 => (-east, -north, up),
            _ => (north, -east, up),
        };
    }
}
