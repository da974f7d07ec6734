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

    /// <summary>The height that the marks of a pack want, mm.</summary>
    public static double Height(TestPack pack) => Math.Clamp(40 + (5 * (pack.Limits.Count + pack.Valves.Count + pack.Pockets.Count(p => !p.IsServed))), 70, 125);

    public static Figure Of(TestPack pack, double width, double height)
    {
        var canvas = new Canvas();
        var line = DrawnLine.Of(pack.Fabrication, DrawnLine.Everything(pack.Fabrication));
        if (line.Legs.Count == 0)
            return canvas.ToFigure(width, 10);
        var layout = IsometricLayout.Of(line, new Box(0, 0, width, height).Inset(Math.Min(40, width / 5), 9), Effort.Full, largest: 1.2);
        var names = new NamesBeside(canvas, new(0, 0, width, height), [.. layout.Legs.Select(l => Slab.Along(l.Start, l.End, 0.6))]);
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
        foreach (var limit in pack.Limits)
        {
            var at = On(limit.At);
            canvas.Fill(Shape.Rectangle(new(at.X - Half, at.Y - Half, 2 * Half, 2 * Half)));
            names.Keep(new(at.X - 2, at.Y - 2, 4, 4));
            names.Add(at, Says(pack, limit), Strong);
        }

        foreach (var valve in pack.Valves.OfType<Valve>())
        {
            var at = On(valve.WorkPoint);
            canvas.Fill(Shape.Circle(at, Round), Ink.White).Circle(at, Round, LineStyle.Medium);
            names.Keep(new(at.X - 2, at.Y - 2, 4, 4));
            names.Add(at, valve.Kind == ValveKind.Check ? $"{valve.Id} check" : $"{valve.Id} open", TextStyle.Small);
        }

        foreach (var gone in pack.Out)
            names.Add(On(gone.WorkPoint), $"{gone.Id} out", Strong);
        foreach (var pocket in pack.Pockets.Where(p => !p.IsServed))
        {
            var at = On(pocket.At);
            canvas.Stroke(pocket.IsHigh ? Shape.Polygon(at.Moved(0, -3.4), at.Moved(-2, -0.6), at.Moved(2, -0.6)) : Shape.Polygon(at.Moved(0, 3.4), at.Moved(-2, 0.6), at.Moved(2, 0.6)), LineStyle.Medium);
            names.Keep(new(at.X - 2.5, at.Y + (pocket.IsHigh ? -3.6 : 0), 5, 3.6));
            names.Add(at, pocket.IsHigh ? "air stays" : "stays wet", Strong);
        }

        var view = layout.View;
        canvas.Group(null, "small compass", g => Symbols.SmallCompass(g, new(1, 3), view));
        names.Keep(new(0, 0, 22, 24));
        names.Place();
        return canvas.ToFigure(width, height);

        // On the leg that goes nearest by, so far along it.
        Spot On(Point p)
        {
            var (leg, along) = layout.Legs.Select(l => (Leg: l, Along: Math.Clamp((p - l.Leg.Origin).Dot(l.Leg.Direction), l.Leg.First, l.Leg.Last)))
                .MinBy(x => p.To(x.Leg.Leg.Origin + (x.Leg.Leg.Direction * x.Along)));
            return leg.At(along);
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
