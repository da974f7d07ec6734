using System.Collections.Immutable;

namespace Rootgap.Sheets;

/// <summary>What a <see cref="Segment"/> does.</summary>
public enum Step
{
    Move,
    Line,
    /// <summary>A cubic curve with two control points.</summary>
    Curve,
    /// <summary>Back to the last move.</summary>
    Close,
}

/// <summary>One step of a shape: its end, and for a curve its two control points. Millimetres.</summary>
public readonly record struct Segment(Step Step, Spot To, Spot Control1 = default, Spot Control2 = default);

/// <summary>A path on paper: lines, arcs and curves, open or closed, in one or more parts. Angles are radians from right towards down.</summary>
public sealed class Shape
{
    // Distance of the control points that brings a cubic nearest to a quarter circle is 4/3 tan(angle/4).
    private const double QuarterTurn = Math.PI / 2;

    private Shape(ImmutableArray<Segment> segments) => Segments = segments;

    public ImmutableArray<Segment> Segments { get; }

    /// <summary>An open shape that starts here; go on with LineTo, CurveTo and ArcTo.</summary>
    public static Shape From(Spot start) => new([new(Step.Move, start)]);

    public static Shape From(double x, double y) => From(new Spot(x, y));

    public static Shape Line(Spot a, Spot b) => new([new(Step.Move, a), new(Step.Line, b)]);

    public static Shape Polyline(params IEnumerable<Spot> spots) =>
        new([.. spots.Select((p, i) => new Segment(i == 0 ? Step.Move : Step.Line, p))]);

    public static Shape Polygon(params IEnumerable<Spot> spots) => Polyline(spots).Close();

    public static Shape Rectangle(Box b) =>
        Polygon(new Spot(b.Left, b.Top), new Spot(b.Right, b.Top), new Spot(b.Right, b.Bottom), new Spot(b.Left, b.Bottom));

    public static Shape Circle(Spot centre, double radius) => Ellipse(centre, radius, radius);

    /// <summary>An ellipse with its own half axes, the first turned by <paramref name="turn"/>.</summary>
    public static Shape Ellipse(Spot centre, double along, double across, double turn = 0) =>
        From(EllipsePoint(centre, along, across, turn, 0)).Sweep(centre, along, across, turn, 0, 2 * Math.PI).Close();

    /// <summary>A part of a circle from one angle through a sweep (negative: the other way).</summary>
    public static Shape Arc(Spot centre, double radius, double from, double sweep) => EllipseArc(centre, radius, radius, 0, from, sweep);

    /// <summary>A part of an ellipse; the angles are those of the circle it is squeezed from.</summary>
    public static Shape EllipseArc(Spot centre, double along, double across, double turn, double from, double sweep) =>
        From(EllipsePoint(centre, along, across, turn, from)).Sweep(centre, along, across, turn, from, sweep);

    public Shape LineTo(Spot to) => new(Segments.Add(new(Step.Line, to)));

    public Shape LineTo(double x, double y) => LineTo(new Spot(x, y));

    public Shape CurveTo(Spot control1, Spot control2, Spot to) => new(Segments.Add(new(Step.Curve, to, control1, control2)));

    /// <summary>A line to the arc's start where it is elsewhere, then the arc.</summary>
    public Shape ArcTo(Spot centre, double radius, double from, double sweep)
    {
        var start = centre.Polar(radius, from);
        return (Segments[^1].To.To(start) > 1e-9 ? LineTo(start) : this).Sweep(centre, radius, radius, 0, from, sweep);
    }

    public Shape Close()
    {
        var start = Segments.Last(s => s.Step == Step.Move).To;
        return new(Segments.Add(new(Step.Close, start)));
    }

    /// <summary>Both as one shape: a filled hole, or many strokes of one kind.</summary>
    public static Shape operator +(Shape a, Shape b) => new(a.Segments.AddRange(b.Segments));

    public static Shape Add(Shape a, Shape b) => a + b;

    /// <summary>The shape with each of its places moved by the placement.</summary>
    public Shape Placed(Placement p) =>
        new([.. Segments.Select(s => s with { To = p.Of(s.To), Control1 = p.Of(s.Control1), Control2 = p.Of(s.Control2) })]);

    private Shape Sweep(Spot centre, double along, double across, double turn, double from, double sweep)
    {
        var parts = Math.Max(1, (int)Math.Ceiling((Math.Abs(sweep) / QuarterTurn) - 1e-9));
        var step = sweep / parts;
        var reach = 4.0 / 3 * Math.Tan(step / 4);
        var segments = Segments.ToBuilder();
        for (var i = 0; i < parts; i++)
        {
            var (a, b) = (from + (i * step), from + ((i + 1) * step));
            var (start, end) = (EllipsePoint(centre, along, across, turn, a), EllipsePoint(centre, along, across, turn, b));
            var (leave, arrive) = (EllipsePoint(default, along, across, turn, a + QuarterTurn), EllipsePoint(default, along, across, turn, b + QuarterTurn));
            segments.Add(new(Step.Curve, end, start.Moved(leave.X * reach, leave.Y * reach), end.Moved(-arrive.X * reach, -arrive.Y * reach)));
        }
        return new(segments.ToImmutable());
    }

    private static Spot EllipsePoint(Spot centre, double along, double across, double turn, double angle)
    {
        var (x, y) = (along * Math.Cos(angle), across * Math.Sin(angle));
        var (sin, cos) = Math.SinCos(turn);
        return new(centre.X + (x * cos) - (y * sin), centre.Y + (x * sin) + (y * cos));
    }
}
