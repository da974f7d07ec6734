using Rootgap.Measure;
using Rootgap.Papers;
using Rootgap.Routes;

namespace Rootgap.Sheets;

/// <summary>A small isometric of what is tested: limits as black squares with their numbers, valves as circles, pockets without an outlet marked.</summary>
internal static class TestPicture
{
    private static readonly LineStyle Pipe = new(0.9);
    private static readonly TextStyle Name = new(3.5, Bold: true);
    private static readonly TextStyle Small = TextStyle.Small with { Bold = true };

    public static Figure Of(TestPack pack, double width, double height)
    {
        var route = pack.Fabrication.Route;
        var canvas = new Canvas();
        var strokes = LineSight.Strokes(route.Components.Cast<Part>().Concat(route.Pipes)).ToList();
        if (strokes.Count == 0)
            return canvas.ToFigure(width, 10);
        var box = new Box(0, 0, width, height);
        var sight = new LineSight(pack.Fabrication, [.. strokes.SelectMany(s => new[] { s.From, s.To })], box.Inset(34, 9));
        foreach (var (from, to) in strokes)
            canvas.Line(sight.On(from), sight.On(to), Pipe);
        List<Box> taken = [];
        foreach (var limit in pack.Limits)
        {
            var at = sight.On(limit.At);
            canvas.Fill(Shape.Rectangle(new(at.X - 1.5, at.Y - 1.5, 3, 3)));
            taken.Add(new(at.X - 2, at.Y - 2, 4, 4));
        }

        foreach (var valve in pack.Valves.Concat(pack.Out))
        {
            var at = sight.On(valve.WorkPoint);
            canvas.Fill(Shape.Circle(at, 1.7), Ink.White).Circle(at, 1.7, LineStyle.Medium);
            taken.Add(new(at.X - 2, at.Y - 2, 4, 4));
        }

        foreach (var limit in pack.Limits)
            Put(sight.On(limit.At), limit.Name, Name);
        foreach (var valve in pack.Valves.Concat(pack.Out))
            Put(sight.On(valve.WorkPoint), pack.Out.Contains(valve) ? valve.Id + " out" : valve.Id, Small);
        foreach (var pocket in pack.Pockets.Where(p => !p.IsServed))
        {
            var at = sight.On(pocket.At);
            canvas.Stroke(pocket.IsHigh ? Shape.Polygon(at.Moved(0, -3.4), at.Moved(-2, -0.6), at.Moved(2, -0.6)) : Shape.Polygon(at.Moved(0, 3.4), at.Moved(-2, 0.6), at.Moved(2, 0.6)), LineStyle.Medium);
            taken.Add(new(at.X - 2.5, at.Y - 3.6, 5, 7.2));
            Put(at, pocket.IsHigh ? "air stays" : "stays wet", Small);
        }

        sight.Compass(canvas, new(1, 3));
        return canvas.ToFigure(width, height);

        // The first free place round it.
        void Put(Spot at, string text, TextStyle style)
        {
            var (w, h) = (style.Width(text) + 1, style.Height + 1);
            foreach (var reach in (double[])[3.5, 7, 11, 16])
            {
                for (var k = 0; k < 8; k++)
                {
                    var (dx, dy) = (Math.Cos(k * Math.PI / 4), Math.Sin(k * Math.PI / 4));
                    var place = new Box(at.X + (dx * reach) + (dx < -0.1 ? -w : dx > 0.1 ? 0 : -w / 2), at.Y + (dy * reach) + (dy < -0.1 ? -h : dy > 0.1 ? 0 : -h / 2), w, h);
                    if (place.X < 0 || place.Y < 0 || place.Right > width || place.Bottom > height || taken.Any(t => Overlap(t, place)) || strokes.Any(s => Slab.Along(sight.On(s.From), sight.On(s.To), 0.6).Overlaps(new Slab(place))))
                        continue;
                    taken.Add(place);
                    if (reach > 4)
                        canvas.Line(at.Polar(2, at.AngleTo(place.Centre)), place.Centre.Moved(dx < -0.1 ? w / 2 : dx > 0.1 ? -w / 2 : 0, dy < -0.1 ? h / 2 : dy > 0.1 ? -h / 2 : 0), LineStyle.Thin);
                    canvas.Text(text, new Spot(place.X + 0.5, place.Y + h - 0.5), style);
                    return;
                }
            }

            canvas.Text(text, at.Moved(3, -3), style);
        }
    }

    private static bool Overlap(Box a, Box b) => a.X < b.Right && b.X < a.Right && a.Y < b.Bottom && b.Y < a.Bottom;
}
