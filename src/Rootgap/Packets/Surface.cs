using System.Numerics;
using Rootgap.Measure;
using Vector = Rootgap.Measure.Vector;

namespace Rootgap.Packets;

/// <summary>A surface made of rings round a line: tubes, cones, discs, bends. Millimetres in, triangles in metres from an origin out, y upward as glTF has it.</summary>
/// <param name="origin">What becomes 0, 0, 0: single precision is coarse far from it.</param>
internal sealed class Surface(Point origin)
{
    /// <summary>Corners of a ring: round enough to look at, few enough to load.</summary>
    private const int Corners = 20;

    private const float Metre = 0.001f;

    public List<Vector3> Positions { get; } = [];

    public List<Vector3> Normals { get; } = [];

    public List<int> Triangles { get; } = [];

    /// <summary>The surface of all bodies of a part.</summary>
    public static Surface Of(IEnumerable<Solid> bodies, Point origin)
    {
        var surface = new Surface(origin);
        foreach (var body in bodies)
        {
            switch (body)
            {
                case Solid.Bar bar:
                    surface.Add(bar);
                    break;
                case Solid.Bend bend:
                    surface.Add(bend);
                    break;
                default:
                    throw new InvalidOperationException("The family of bodies is closed.");
            }
        }

        return surface;
    }

    private void Add(Solid.Bar bar)
    {
        var (u, v) = Across(bar.Axis);
        var far = bar.FarAxis ?? bar.Axis;
        var p = u.SquareTo(far).Unit;
        // The normal leans by the slope of the outline.
        var slope = new Vector(bar.Length, bar.RadiusTo - bar.RadiusFrom, 0).Unit;
        Band(Ring(bar.From, u, v, bar.RadiusFrom), Ring(bar.To, p, far.Cross(p), bar.RadiusTo), angle => ((Radial(u, v, angle) * slope.X) - (bar.Axis * slope.Y)).Unit);
        Disc(bar.From, -bar.Axis, bar.RadiusFrom);
        Disc(bar.To, far, bar.RadiusTo);
    }

    private void Add(Solid.Bend bend)
    {
        var (start, into, side, bendRadius, turn, radius) = (bend.Start, bend.Into, bend.Side, bend.BendRadius, bend.Turn, bend.Radius);
        const int Steps = 10;
        var centre = start + (side * bendRadius);
        var up = into.Cross(side);
        var (last, lastNormals) = RingAt(0);
        for (var i = 1; i <= Steps; i++)
        {
            var (next, nextNormals) = RingAt(turn * i / Steps);
            Stitch(last, next, lastNormals, nextNormals);
            (last, lastNormals) = (next, nextNormals);
        }

        var end = (-side * Math.Cos(turn)) + (into * Math.Sin(turn));
        Disc(start, -into, radius);
        Disc(centre + (end * bendRadius), (into * Math.Cos(turn)) + (side * Math.Sin(turn)), radius);

        (Vector3[] Ring, Vector3[] Normals) RingAt(double angle)
        {
            var outward = (-side * Math.Cos(angle)) + (into * Math.Sin(angle));
            var middle = centre + (outward * bendRadius);
            var (ring, normals) = (new Vector3[Corners + 1], new Vector3[Corners + 1]);
            for (var k = 0; k <= Corners; k++)
            {
                var (sin, cos) = Math.SinCos(2 * Math.PI * k / Corners);
                var radial = (outward * cos) + (up * sin);
                ring[k] = Place(middle + (radial * radius));
                normals[k] = Face(radial);
            }

            return (ring, normals);
        }
    }

    private static (Vector U, Vector V) Across(Vector axis)
    {
        var u = axis.AnySquare();
        return (u, axis.Cross(u));
    }

    private static Vector Radial(Vector u, Vector v, double angle) => (u * Math.Cos(angle)) + (v * Math.Sin(angle));

    private Vector3 Place(Point p) => Place(p, origin);

    /// <summary>A place, metres from an origin.</summary>
    public static Vector3 Place(Point p, Point origin) => p - origin is var v ? new((float)(v.X * Metre), (float)(v.Z * Metre), (float)(-v.Y * Metre)) : default;

    private static Vector3 Face(Vector v) => Vector3.Normalize(new((float)v.X, (float)v.Z, (float)-v.Y));

    private Vector3[] Ring(Point at, Vector u, Vector v, double radius)
    {
        var ring = new Vector3[Corners + 1];
        for (var k = 0; k <= Corners; k++)
            ring[k] = Place(at + (Radial(u, v, 2 * Math.PI * k / Corners) * radius));
        return ring;
    }

    private void Band(Vector3[] first, Vector3[] second, Func<double, Vector> normal)
    {
        Span<Vector3> normals = stackalloc Vector3[Corners + 1];
        for (var k = 0; k <= Corners; k++)
            normals[k] = Face(normal(2 * Math.PI * k / Corners));
        Stitch(first, second, normals, normals);
    }

    private void Stitch(ReadOnlySpan<Vector3> first, ReadOnlySpan<Vector3> second, ReadOnlySpan<Vector3> firstNormals, ReadOnlySpan<Vector3> secondNormals)
    {
        var from = Positions.Count;
        for (var k = 0; k <= Corners; k++)
        {
            Positions.Add(first[k]);
            Normals.Add(firstNormals[k]);
            Positions.Add(second[k]);
            Normals.Add(secondNormals[k]);
        }

        for (var k = 0; k < Corners; k++)
        {
            var a = from + (2 * k);
            Add(a, a + 2, a + 1);
            Add(a + 1, a + 2, a + 3);
        }
    }

    private void Disc(Point at, Vector face, double radius)
    {
        if (radius <= 0)
            return;
        var (u, v) = Across(face);
        var from = Positions.Count;
        Positions.Add(Place(at));
        Normals.Add(Face(face));
        foreach (var corner in Ring(at, u, v, radius))
        {
            Positions.Add(corner);
            Normals.Add(Face(face));
        }

        for (var k = 1; k <= Corners; k++)
            Add(from, from + k, from + k + 1);
    }

    /// <summary>Adds a triangle with its corners anticlockwise seen from outside, whichever way they were given; flat ones are left out.</summary>
    private void Add(int a, int b, int c)
    {
        var turn = Vector3.Cross(Positions[b] - Positions[a], Positions[c] - Positions[a]);
        if (turn.LengthSquared() < 1e-16f)
            return;
        var isOutward = Vector3.Dot(turn, Normals[a] + Normals[b] + Normals[c]) > 0;
        Triangles.Add(a);
        Triangles.Add(isOutward ? b : c);
        Triangles.Add(isOutward ? c : b);
    }
}
