using Rootgap.Drawings;
using Rootgap.Routes;

namespace Rootgap.Sheets;

/// <summary>Signs of an isometric, drawn in black so that each is known without colour. After the simplified representation of pipelines of ISO 6412; weld marks are explained on every sheet.</summary>
internal static class Symbols
{
    public static readonly LineStyle Pipe = new(0.9);
    public static readonly LineStyle SmallPipe = new(0.6);
    public static readonly LineStyle Outline = new(0.4);
    private static readonly LineStyle Bar = new(0.55);

    /// <summary>Half the height of flanges and valves on paper.</summary>
    public const double HalfHigh = 2.3;

    public static LineStyle Of(double inches) => inches < 2 ? SmallPipe : Pipe;

    private static Spot Off(Spot at, Spot across, double by) => at.Moved(across.X * by, across.Y * by);

    /// <summary>A stroke across the line.</summary>
    public static void Across(Canvas canvas, Spot at, Spot across, double half, LineStyle? style = null) =>
        canvas.Line(Off(at, across, -half), Off(at, across, half), style ?? Bar);

    /// <summary>A flange: its face as a stroke; a lapped one has its stub's lip as a second.</summary>
    public static void Flange(Canvas canvas, Spot weld, Spot face, Spot across, double k, LineStyle pipe, bool isLap)
    {
        canvas.Line(weld, face, pipe);
        Across(canvas, face, across, HalfHigh * k);
        if (isLap)
            Across(canvas, face.Toward(weld, 0.6), across, HalfHigh * k, LineStyle.Thin);
        else
            canvas.Fill(Shape.Polygon(weld, Off(face, across, 1.3 * k), Off(face, across, -1.3 * k)));
    }

    /// <summary>A blind flange: a solid plate, its face at the gasket.</summary>
    /// <param name="a">One end of the stretch between flange and blind on paper.</param>
    public static void Blind(Canvas canvas, Spot a, Spot b, Spot across, double k)
    {
        var middle = a.Toward(b, 0.5);
        var (dx, dy) = (-across.Y * 0.55 * k, across.X * 0.55 * k);
        var (p, q) = (middle.Moved(-dx, -dy), middle.Moved(dx, dy));
        canvas.Fill(Shape.Polygon(Off(p, across, HalfHigh * k), Off(q, across, HalfHigh * k), Off(q, across, -HalfHigh * k), Off(p, across, -HalfHigh * k)));
    }

    /// <summary>A reducer: the outline tapers; where it has a flat side, that side runs straight on.</summary>
    /// <param name="flat">-1 or 1: the flat side lies that way across; 0 for a concentric one.</param>
    public static void Reducer(Canvas canvas, Spot from, Spot to, Spot across, double k, bool largeFirst, int flat)
    {
        var (large, small) = (2.1 * k, 0.9 * k);
        var (a1, a2, b1, b2) = (large, -large, small, -small);
        if (flat != 0)
            (b1, b2) = flat > 0 ? (large, -0.2 * k) : (0.2 * k, -large);
        var (p, q) = largeFirst ? (from, to) : (to, from);
        var shape = Shape.Polygon(Off(p, across, a1), Off(q, across, b1), Off(q, across, b2), Off(p, across, a2));
        canvas.Fill(shape, Ink.White).Stroke(shape, Outline);
        if (flat != 0)
            canvas.Line(Off(p, across, flat * large), Off(q, across, flat * large), Pipe);
    }

    /// <summary>Half of a valve's body: a triangle from its end to its middle.</summary>
    public static void HalfValve(Canvas canvas, Spot end, Spot middle, Spot across, double k, bool isFilled)
    {
        var shape = Shape.Polygon(Off(end, across, HalfHigh * k), middle, Off(end, across, -HalfHigh * k));
        canvas.Fill(shape, isFilled ? Ink.Black : Ink.White).Stroke(shape, Outline);
    }

    /// <summary>Half of an in-line item: a box from its end to its middle, open there.</summary>
    public static void HalfBox(Canvas canvas, Spot end, Spot middle, Spot across, double k)
    {
        var (a, b, c, d) = (Off(middle, across, HalfHigh * k), Off(end, across, HalfHigh * k), Off(end, across, -HalfHigh * k), Off(middle, across, -HalfHigh * k));
        canvas.Fill(Shape.Polygon(a, b, c, d), Ink.White).Line(a, b, Outline).Line(b, c, Outline).Line(c, d, Outline);
    }

    /// <summary>What tells valves apart, in the middle of the body.</summary>
    public static void ValveKind(Canvas canvas, ValveKind kind, Spot first, Spot middle, Spot second, Spot across, double k)
    {
        switch (kind)
        {
            case Drawings.ValveKind.Globe:
                canvas.Fill(Shape.Circle(middle, 1.2 * k));
                break;
            case Drawings.ValveKind.Ball:
                canvas.Fill(Shape.Circle(middle, 1.4 * k), Ink.White).Circle(middle, 1.4 * k, Outline);
                break;
            case Drawings.ValveKind.Butterfly:
                Across(canvas, first, across, HalfHigh * k);
                Across(canvas, second, across, HalfHigh * k);
                canvas.Line(Off(first, across, -HalfHigh * k), Off(second, across, HalfHigh * k), Outline).Fill(Shape.Circle(middle, 0.8 * k));
                break;
        }
    }

    /// <summary>A stem with its handwheel.</summary>
    public static void Stem(Canvas canvas, Spot middle, Spot way, Spot along, double k)
    {
        var top = Off(middle, way, 5.2 * k);
        canvas.Line(middle, top, Outline).Line(Off(top, along, -1.7 * k), Off(top, along, 1.7 * k), Bar);
    }

    public static void Cap(Canvas canvas, Spot weld, Spot end, double k)
    {
        var angle = weld.AngleTo(end);
        var shape = Shape.EllipseArc(weld, weld.To(end), 2 * k, angle, -Math.PI / 2, Math.PI).Close();
        canvas.Fill(shape, Ink.White).Stroke(shape, Bar);
    }

    /// <summary>An outlet: wide on the header, narrow at the branch.</summary>
    public static void Outlet(Canvas canvas, Spot header, Spot end, Spot across, double k)
    {
        var shape = Shape.Polygon(Off(header, across, 1.9 * k), Off(end, across, 0.7 * k), Off(end, across, -0.7 * k), Off(header, across, -1.9 * k));
        canvas.Fill(shape, Ink.White).Stroke(shape, Outline);
    }

    /// <summary>An open end: plain one stroke, bevelled two that open outward, threaded two strokes.</summary>
    public static void OpenEnd(Canvas canvas, Spot end, Spot across, Spot outward, OpenEnds ends, double k)
    {
        switch (ends)
        {
            case OpenEnds.Threaded:
                Across(canvas, end, across, 1.6 * k, Outline);
                Across(canvas, Off(end, outward, -1.1 * k), across, 1.6 * k, Outline);
                break;
            case OpenEnds.Plain:
                Across(canvas, end, across, 1.6 * k, Outline);
                break;
            default:
                canvas.Line(end, Off(Off(end, across, 1.6 * k), outward, 1.1 * k), Outline).Line(end, Off(Off(end, across, -1.6 * k), outward, 1.1 * k), Outline);
                break;
        }
    }

    /// <summary>A support: a triangle that stands on a bar, its tip on the pipe; one that holds from above hangs on a rod.</summary>
    /// <param name="way">Where it stands as seen from the pipe.</param>
    public static void Support(Canvas canvas, Spot at, Spot way, bool isHung, double k)
    {
        var across = new Spot(-way.Y, way.X);
        var (tip, foot) = (Off(at, way, 0.45), Off(at, way, SupportHigh * k));
        if (isHung)
            canvas.Line(tip, foot, Outline);
        else
        {
            var shape = Shape.Polygon(tip, Off(foot, across, 1.7 * k), Off(foot, across, -1.7 * k));
            canvas.Fill(shape, Ink.White).Stroke(shape, Outline);
        }

        Across(canvas, foot, across, 2.5 * k);
    }

    /// <summary>From the pipe to a support's bar on paper.</summary>
    public const double SupportHigh = 3.9;

    /// <summary>Half the size of a joint's mark on paper.</summary>
    public static double MarkRadius(Joint joint) => (joint.Kind, joint.Place) switch
    {
        (JointKind.Bolted, _) => 0.6,
        (JointKind.Threaded, _) => 1.5,
        (_, WeldPlace.FinalFit) => 2.3,
        (_, WeldPlace.Field) or (JointKind.Socket, _) => 1.6,
        _ => 0.95,
    };

    /// <summary>The mark of a joint: shop welds a dot, field welds an open circle with a cross, final-fit welds that in a second ring; sockets and threads have bars.</summary>
    public static void Mark(Canvas canvas, JointKind kind, WeldPlace place, Spot at, Spot along, Spot across, double k)
    {
        if (kind == JointKind.Bolted)
        {
            Across(canvas, at, across, HalfHigh * k, LineStyle.Thin);
            return;
        }

        if (kind == JointKind.Threaded)
        {
            Across(canvas, at, across, 1.5 * k, Bar);
            if (place == WeldPlace.Shop)
                return;
        }

        if (kind == JointKind.Socket)
        {
            foreach (var side in new[] { -1.1, 1.1 })
                Across(canvas, Off(at, along, side * k), across, 1.6 * k, LineStyle.Thin);
        }

        switch (place)
        {
            case WeldPlace.Shop:
                canvas.Fill(Shape.Circle(at, 0.95 * k));
                break;
            case WeldPlace.Field:
                Crossed(canvas, at, 1.5 * k, Ink.Black);
                break;
            default:
                canvas.Fill(Shape.Circle(at, 2.3 * k), Ink.White).Circle(at, 2.3 * k, new LineStyle(0.4, Dash.Solid, Ink.Accent));
                Crossed(canvas, at, 1.5 * k, Ink.Accent);
                break;
        }
    }

    private static void Crossed(Canvas canvas, Spot at, double r, Ink ink)
    {
        var style = new LineStyle(0.4, Dash.Solid, ink);
        canvas.Fill(Shape.Circle(at, r), Ink.White).Circle(at, r, style);
        foreach (var angle in new[] { Math.PI / 4, 3 * Math.PI / 4 })
            canvas.Line(at.Polar(-r, angle), at.Polar(r, angle), style);
    }

    /// <summary>Where a compass has its middle and its letters.</summary>
    public static IEnumerable<Spot> CompassSpots(Spot at, IsometricView view)
    {
        var (north, east) = (view.Way(Measure.Vector.North), view.Way(Measure.Vector.East));
        return [at, at.Moved(east.X * 9.5, east.Y * 9.5), at.Moved(0, -9.25), at.Moved(north.X * 16.5, north.Y * 16.5)];
    }

    /// <summary>North, east and up, as the view has them.</summary>
    public static void Compass(Canvas canvas, Spot at, IsometricView view)
    {
        var north = view.Way(Measure.Vector.North);
        var east = view.Way(Measure.Vector.East);
        canvas.Line(at, at.Moved(east.X * 7, east.Y * 7), LineStyle.Thin).Label("E", at.Moved(east.X * 9.5, east.Y * 9.5), TextStyle.Small);
        canvas.Line(at, at.Moved(0, -7), LineStyle.Thin).Label("up", at.Moved(0, -9.25), TextStyle.Small);
        canvas.Line(at, at.Moved(north.X * 9, north.Y * 9), LineStyle.Thick).Arrowhead(at.Moved(north.X * 13, north.Y * 13), Math.Atan2(north.Y, north.X), 5);
        canvas.Text("N", at.Moved(north.X * 16.5, (north.Y * 16.5) + 1.75), TextStyle.Strong, Anchor.Middle);
    }

    /// <summary>The same for a small picture, 17 mm wide and 14 high at most, from its upper left corner.</summary>
    public static void SmallCompass(Canvas canvas, Spot corner, IsometricView view)
    {
        const double North = 7, Letter = 9.8, East = 5, Up = 6;
        var (north, east) = (view.Way(Measure.Vector.North), view.Way(Measure.Vector.East));
        var name = TextStyle.Small with { Bold = true };
        var at = corner.Moved(Math.Max(0, Math.Max((-north.X * Letter) + 1.2, -east.X * East)), Math.Max(Up, (-north.Y * Letter) + 1.3));
        canvas.Arrow(at, at.Moved(north.X * North, north.Y * North), LineStyle.Medium, 2.2);
        canvas.Text("N", at.Moved(north.X * Letter, (north.Y * Letter) + (name.Height / 2)), name, Anchor.Middle);
        canvas.Line(at, at.Moved(east.X * East, east.Y * East), LineStyle.Thin).Line(at, at.Moved(0, -Up), LineStyle.Thin);
    }
}
