using Rootgap.Measure;

namespace Rootgap.Sheets;

/// <summary>A line seen as an isometric has it, true to scale and as large as a box lets it: north to the right and up, east to the right and down, up is up.</summary>
public sealed class LineSight
{
    private static readonly double Cos30 = Math.Cos(Math.PI / 6);

    private readonly double scale;
    private readonly Spot middle;
    private readonly Spot centre;

    /// <param name="points">What must be seen, mm in the plant; at least one.</param>
    public LineSight(IReadOnlyList<Point> points, Box box)
    {
        var flat = points.Select(Flat).ToList();
        var (left, right) = (flat.Min(p => p.X), flat.Max(p => p.X));
        var (top, bottom) = (flat.Min(p => p.Y), flat.Max(p => p.Y));
        scale = Math.Min(box.Width / Math.Max(1, right - left), box.Height / Math.Max(1, bottom - top));
        middle = new((left + right) / 2, (top + bottom) / 2);
        centre = box.Centre;
    }

    /// <summary>Where a place in the plant stands in the box.</summary>
    public Spot On(Point p)
    {
        var f = Flat(p);
        return new(centre.X + ((f.X - middle.X) * scale), centre.Y + ((f.Y - middle.Y) * scale));
    }

    private static Spot Flat(Point p) => new((p.X + p.Y) * Cos30, ((p.X - p.Y) / 2) - p.Z);

    /// <summary>Middle lines of parts, for a picture of one stroke.</summary>
    public static IEnumerable<(Point From, Point To)> Strokes(IEnumerable<Routes.Part> parts)
    {
        foreach (var part in parts)
        {
            if (part is Routes.Component c && c is not Routes.Gasket)
            {
                foreach (var stroke in c is Routes.ReturnBend ? c.MiddleLines : c.Ports.Select(p => (c.WorkPoint, p.At)))
                    yield return stroke;
            }
            else if (part is Routes.PipePiece pipe)
            {
                yield return (pipe.Start, pipe.End);
            }
        }
    }
}
