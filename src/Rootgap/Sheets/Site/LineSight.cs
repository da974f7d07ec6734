using Rootgap.Fabricating;
using Rootgap.Measure;

namespace Rootgap.Sheets;

/// <summary>A line seen from the side from which its isometric shows it, to its scale and with its stretch, as large as a box lets it; up is up.</summary>
public sealed class LineSight
{
    private readonly IsometricView view;
    private readonly double scale;
    private readonly Spot middle;
    private readonly Spot centre;

    /// <param name="points">What must be seen, mm in the plant; at least one.</param>
    public LineSight(Fabrication fabrication, IReadOnlyList<Point> points, Box box)
    {
        view = IsometricLayout.OfDrawing(fabrication);
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

    private Spot Flat(Point p) => view.Of(p - Point.Origin);

    /// <summary>North, east and up as this sight has them, small, below and to the right of a corner.</summary>
    public void Compass(Canvas canvas, Spot corner) => canvas.Group(null, "small compass", g => Symbols.SmallCompass(g, corner, view));

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
