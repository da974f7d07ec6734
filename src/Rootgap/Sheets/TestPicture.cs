using Rootgap.Drawings;
using Rootgap.Measure;
using Rootgap.Papers;
using Rootgap.Routes;

namespace Rootgap.Sheets;

/// <summary>
/// A small isometric of what is tested, stretched as the line's own isometric is: limits as black squares with what they are and whether they fill, vent or drain, valves as circles, what is
/// taken out as a gap, pockets without an outlet as triangles.
/// </summary>
internal static class TestPicture
{
    private static readonly LineStyle Pipe = new(0.9);
    private static readonly TextStyle Strong = TextStyle.Small with { Bold = true };

    /// <summary>Half of a square, radius of a circle, mm.</summary>
    private const double Half = 1.5, Round = 1.7;

    /// <summary>Words stand so near to their mark without a leader, mm, and are looked for in so many directions round it.</summary>
    private const double Near = 3.5;

    private const int Ways = 16;

    /// <summary>The height that the marks of a pack want, mm.</summary>
    public static double Height(TestPack pack) => Math.Clamp(40 + (5 * (pack.Limits.Count + pack.Valves.Count + pack.Pockets.Count(p => !p.IsServed))), 70, 125);

    public static Figure Of(TestPack pack, double width, double height)
    {
        var canvas = new Canvas();
        var line = DrawnLine.Of(pack.Fabrication, DrawnLine.Everything(pack.Fabrication));
        if (line.Legs.Count == 0)
            return canvas.ToFigure(width, 10);
        var layout = IsometricLayout.Of(line, new Box(0, 0, width, height).Inset(Math.Min(40, width / 5), 9), Effort.Full, largest: 1.2);
        var strokes = layout.Legs.Select(l => (From: l.Start, To: l.End)).ToList();
        foreach (var leg in layout.Legs)
        {
            // The pipe is not drawn through what is taken out.
            var gaps = leg.Leg.Parts.Where(p => p.Component is { } c && pack.Out.Contains(c)).Select(leg.Of).OrderBy(g => g.From).ToList();
            var from = 0.0;
            foreach (var gap in gaps.Append((From: leg.Length, To: leg.Length)))
            {
                if (gap.From > from + 0.1)
                    canvas.Line(leg.On(from), leg.On(gap.From), Pipe);
                from = gap.To;
            }
        }

        // Marks first: words keep clear of all of them.
        List<Slab> taken = [];
        List<(Spot At, string Says, TextStyle Style)> labels = [];
        foreach (var limit in pack.Limits)
        {
            var at = On(limit.At);
            canvas.Fill(Shape.Rectangle(new(at.X - Half, at.Y - Half, 2 * Half, 2 * Half)));
            taken.Add(new(new Box(at.X - 2, at.Y - 2, 4, 4)));
            labels.Add((at, Says(pack, limit), Strong));
        }

        foreach (var valve in pack.Valves.OfType<Valve>())
        {
            var at = On(valve.WorkPoint);
            canvas.Fill(Shape.Circle(at, Round), Ink.White).Circle(at, Round, LineStyle.Medium);
            taken.Add(new(new Box(at.X - 2, at.Y - 2, 4, 4)));
            labels.Add((at, valve.Kind == ValveKind.Check ? $"{valve.Id} check" : $"{valve.Id} open", TextStyle.Small));
        }

        foreach (var gone in pack.Out)
            labels.Add((On(gone.WorkPoint), $"{gone.Id} out", Strong));
        foreach (var pocket in pack.Pockets.Where(p => !p.IsServed))
        {
            var at = On(pocket.At);
            canvas.Stroke(pocket.IsHigh ? Shape.Polygon(at.Moved(0, -3.4), at.Moved(-2, -0.6), at.Moved(2, -0.6)) : Shape.Polygon(at.Moved(0, 3.4), at.Moved(-2, 0.6), at.Moved(2, 0.6)), LineStyle.Medium);
            taken.Add(new(new Box(at.X - 2.5, at.Y + (pocket.IsHigh ? -3.6 : 0), 5, 3.6)));
            labels.Add((at, pocket.IsHigh ? "air stays" : "stays wet", Strong));
        }

        var view = layout.View;
        canvas.Group(null, "small compass", g => Symbols.SmallCompass(g, new(1, 3), view));
        taken.Add(new(new Box(0, 0, 22, 24)));
        foreach (var (at, says, style) in labels)
            Put(at, says, style);
        return canvas.ToFigure(width, height);

        // On the leg that goes nearest by, so far along it.
        Spot On(Point p)
        {
            var (leg, along) = layout.Legs.Select(l => (Leg: l, Along: Math.Clamp((p - l.Leg.Origin).Dot(l.Leg.Direction), l.Leg.First, l.Leg.Last)))
                .MinBy(x => p.To(x.Leg.Leg.Origin + (x.Leg.Leg.Direction * x.Along)));
            return leg.At(along);
        }

        // The first free place round it.
        void Put(Spot at, string text, TextStyle style)
        {
            var (w, h) = (style.Width(text) + 1, style.Height + 1);
            for (var reach = Near; reach < width; reach += reach < 10 ? 2 : 4)
            {
                for (var k = 0; k < Ways; k++)
                {
                    var (dx, dy) = (Math.Cos(k * 2 * Math.PI / Ways), Math.Sin(k * 2 * Math.PI / Ways));
                    var place = new Box(at.X + (dx * reach) + (dx < -0.1 ? -w : dx > 0.1 ? 0 : -w / 2), at.Y + (dy * reach) + (dy < -0.1 ? -h : dy > 0.1 ? 0 : -h / 2), w, h);
                    var slab = new Slab(place);
                    if (place.X < 0 || place.Y < 0 || place.Right > width || place.Bottom > height || taken.Any(t => t.Overlaps(slab)) || strokes.Any(s => Slab.Along(s.From, s.To, 0.6).Overlaps(slab)))
                        continue;
                    if (reach > Near)
                    {
                        var edge = place.Centre.Moved(dx < -0.1 ? w / 2 : dx > 0.1 ? -w / 2 : 0, dy < -0.1 ? h / 2 : dy > 0.1 ? -h / 2 : 0);
                        var begin = at.Polar(2.2, at.AngleTo(edge));
                        var leader = Slab.Along(begin, edge, 0.2);
                        // Its own mark it may touch.
                        if (taken.Any(t => t.Centre.To(at) > 2.5 && t.Overlaps(leader)))
                            continue;
                        canvas.Line(begin, edge, LineStyle.Thin);
                        taken.Add(leader);
                    }

                    taken.Add(slab);
                    canvas.Text(text, new Spot(place.X + 0.5, place.Y + h - 0.5), style);
                    return;
                }
            }

            canvas.Text(text, at.Moved(3, -3), style);
        }
    }

    /// <summary>A limit in the words of the picture: <c>2 B6 blind, vent</c>.</summary>
    private static string Says(TestPack pack, TestLimit limit)
    {
        var what = limit.Kind switch
        {
            LimitKind.Blind => "blind",
            LimitKind.Cap => limit.Out is null ? "open end" : "cap",
            LimitKind.WeldedCap => "welded",
            LimitKind.Screwed => limit.Part is Plug ? "plug" : "cap",
            LimitKind.OwnBlind => "own blind",
            _ => "existing",
        };
        List<string> says = [$"{limit.Name} {(limit.Joint.Length > 0 ? limit.Joint : limit.Part is Component c ? c.Id : "")} {what}".Replace("  ", " ", StringComparison.Ordinal)];
        if (!pack.IsAir && pack.Bores.Any(b => b.Fills.Contains(limit)))
            says.Add("fill");
        if (pack.Bores.Any(b => b.Vents.Contains(limit)))
            says.Add("vent");
        if (pack.Bores.Any(b => b.Drains.Contains(limit)))
            says.Add("drain");
        return string.Join(", ", says);
    }
}
