using Rootgap.Drawings;
using Rootgap.Measure;
using Rootgap.Routes;

namespace Rootgap.Sheets;

/// <summary>What each mark of an isometric means.</summary>
internal static class IsometricLegend
{
    private const double RowHeight = 6.6, SignWidth = 13, Gap = 4;

    public static Figure Of(double width)
    {
        var entries = Entries();
        var canvas = new Canvas();
        var (x, y) = (0.0, 0.0);
        foreach (var (words, draw) in entries)
        {
            var needed = SignWidth + 1.5 + TextStyle.Small.Width(words) + Gap;
            if (x + needed > width + Gap && x > 0)
                (x, y) = (0, y + RowHeight);
            draw(canvas, new(x + (SignWidth / 2), y + (RowHeight / 2)));
            canvas.Text(words, x + SignWidth + 1.5, y + (RowHeight / 2) + 1.25, TextStyle.Small);
            x += needed;
        }

        return canvas.ToFigure(width, y + RowHeight);
    }

    private static (string Words, Action<Canvas, Spot> Draw)[] Entries() =>
    [
        ("shop weld", (c, at) => Joint(c, at, JointKind.Butt, WeldPlace.Shop)),
        ("field weld", (c, at) => Joint(c, at, JointKind.Butt, WeldPlace.Field)),
        ("final-fit weld, with the extra left on", (c, at) => Joint(c, at, JointKind.Butt, WeldPlace.FinalFit)),
        ("socket weld", (c, at) => Joint(c, at, JointKind.Socket, WeldPlace.Shop)),
        ("thread", (c, at) => Joint(c, at, JointKind.Threaded, WeldPlace.Shop)),
        ("bolted joint", Bolted),
        ("joint number (A1: weld of a support, a pad or a mitre)", (c, at) => Tag(c, at, new("W1", Frame.Stadium))),
        ("item of the list (C1: component without item)", (c, at) => Tag(c, at, new("1", Frame.Circle))),
        ("spool", (c, at) => Tag(c, at, new("1", Frame.Rectangle, Bold: true))),
        ("cut piece", (c, at) => Tag(c, at, new("1-A", Frame.None, Bold: true))),
        ("gate", (c, at) => Valve(c, at, ValveKind.Gate)),
        ("globe", (c, at) => Valve(c, at, ValveKind.Globe)),
        ("check", (c, at) => Valve(c, at, ValveKind.Check)),
        ("ball", (c, at) => Valve(c, at, ValveKind.Ball)),
        ("butterfly", (c, at) => Valve(c, at, ValveKind.Butterfly)),
        ("in-line item", (c, at) => { Symbols.HalfBox(c, at.Moved(-4, 0), at, new(0, -1), 0.9); Symbols.HalfBox(c, at.Moved(4, 0), at, new(0, -1), 0.9); }),
        ("reducer", (c, at) => Symbols.Reducer(c, at.Moved(-3.5, 0), at.Moved(3.5, 0), new(0, -1), 0.9, largeFirst: true, 0)),
        ("reducer, flat side", (c, at) => Symbols.Reducer(c, at.Moved(-3.5, 0), at.Moved(3.5, 0), new(0, -1), 0.9, largeFirst: true, -1)),
        ("branch outlet", (c, at) => { c.Line(at.Moved(-5, 2), at.Moved(5, 2), Symbols.Pipe); Symbols.Outlet(c, at.Moved(0, 1.6), at.Moved(0, -2.4), new(1, 0), 0.9); }),
        ("support", (c, at) => { c.Line(at.Moved(-5, -2), at.Moved(5, -2), Symbols.Pipe); Symbols.Support(c, at.Moved(0, -2), new(0, 1), isHung: false, 0.9); }),
        ("hanger", (c, at) => { c.Line(at.Moved(-5, 2), at.Moved(5, 2), Symbols.Pipe); Symbols.Support(c, at.Moved(0, 2), new(0, -1), isHung: true, 0.9); }),
        ("cap", (c, at) => { c.Line(at.Moved(-5, 0), at, Symbols.Pipe); Symbols.Cap(c, at, at.Moved(3, 0), 0.9); }),
        ("blind flange", (c, at) => { c.Line(at.Moved(-5, 0), at.Moved(-3.5, 0), Symbols.Pipe); Symbols.Flange(c, at.Moved(-3.5, 0), at.Moved(-0.7, 0), new(0, -1), 0.9, Symbols.Pipe, isLap: false); Symbols.Blind(c, at.Moved(0.3, 0), at.Moved(0.9, 0), new(0, -1), 0.9); }),
        ("flow", (c, at) => c.Line(at.Moved(-5, 0), at.Moved(5, 0), Symbols.Pipe).Fill(Shape.Polygon(at.Moved(2.2, 0), at.Moved(-2.2, -1.7), at.Moved(-2.2, 1.7)))),
        ("skew leg's planes", Planes),
        ("slope, low side", (c, at) => c.Text("◣", at.Moved(0, 1.2), TextStyle.Body, Anchor.Middle)),
        ("of the pipe's middle; not to scale", (c, at) => c.Text("EL", at.Moved(0, 1.25), TextStyle.Small, Anchor.Middle)),
    ];

    private static void Tag(Canvas canvas, Spot at, Tag tag) => tag.Draw(canvas, at.Moved(-tag.Width / 2, 0));

    private static void Joint(Canvas canvas, Spot at, JointKind kind, WeldPlace place)
    {
        canvas.Line(at.Moved(-5.5, 0), at.Moved(5.5, 0), Symbols.Pipe);
        Symbols.Mark(canvas, kind, place, at, new(1, 0), new(0, -1), 1);
    }

    private static void Bolted(Canvas canvas, Spot at)
    {
        Symbols.Flange(canvas, at.Moved(-3.5, 0), at.Moved(-0.7, 0), new(0, -1), 0.9, Symbols.Pipe, isLap: false);
        Symbols.Flange(canvas, at.Moved(3.5, 0), at.Moved(0.7, 0), new(0, -1), 0.9, Symbols.Pipe, isLap: false);
        canvas.Line(at.Moved(-5.5, 0), at.Moved(-3.5, 0), Symbols.Pipe).Line(at.Moved(3.5, 0), at.Moved(5.5, 0), Symbols.Pipe);
        Symbols.Mark(canvas, JointKind.Bolted, WeldPlace.Field, at, new(1, 0), new(0, -1), 0.9);
    }

    private static void Valve(Canvas canvas, Spot at, ValveKind kind)
    {
        var (a, b, across) = (at.Moved(-4.5, 0), at.Moved(4.5, 0), new Spot(0, -1));
        if (kind == ValveKind.Butterfly)
            canvas.Line(a, b, LineStyle.Thin);
        else
        {
            Symbols.HalfValve(canvas, a, at, across, 0.9, kind == ValveKind.Check);
            Symbols.HalfValve(canvas, b, at, across, 0.9, isFilled: false);
        }

        Symbols.ValveKind(canvas, kind, a, at, b, across, 0.9);
    }

    private static void Planes(Canvas canvas, Spot at)
    {
        var (a, b, c) = (at.Moved(-5, 2.2), at.Moved(4, 2.2), at.Moved(4, -2.6));
        for (var i = 1; i < 6; i++)
            canvas.Line(a.Toward(b, i / 6.0), a.Toward(c, i / 6.0), new LineStyle(0.13));
        canvas.Line(a, b, new LineStyle(0.25, Dash.Dashed)).Line(b, c, new LineStyle(0.25, Dash.Dashed)).Line(a, c, Symbols.Pipe);
    }
}
