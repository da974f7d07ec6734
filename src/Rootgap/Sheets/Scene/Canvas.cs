using System.Collections.Immutable;

namespace Rootgap.Sheets;

/// <summary>Collects marks in order and hands them over as a <see cref="Scene"/> or a <see cref="Figure"/>. Millimetres from the upper left, y downwards.</summary>
public sealed class Canvas
{
    private readonly ImmutableArray<Mark>.Builder _marks = ImmutableArray.CreateBuilder<Mark>();

    public ImmutableArray<Mark> Marks => _marks.ToImmutable();

    public Canvas Add(Mark mark)
    {
        _marks.Add(mark);
        return this;
    }

    public Canvas Stroke(Shape shape, LineStyle? style = null, string? id = null, string? @class = null) =>
        Add(new Stroke(shape, style ?? LineStyle.Medium) { Id = id, Class = @class });

    public Canvas Fill(Shape shape, Ink ink = default, string? id = null, string? @class = null) =>
        Add(new Fill(shape, ink) { Id = id, Class = @class });

    public Canvas Line(Spot a, Spot b, LineStyle? style = null) => Stroke(Shape.Line(a, b), style);

    public Canvas Line(double x1, double y1, double x2, double y2, LineStyle? style = null) => Line(new(x1, y1), new(x2, y2), style);

    public Canvas Polyline(IEnumerable<Spot> spots, LineStyle? style = null) => Stroke(Shape.Polyline(spots), style);

    public Canvas Rectangle(Box box, LineStyle? style = null) => Stroke(Shape.Rectangle(box), style);

    public Canvas Circle(Spot centre, double radius, LineStyle? style = null) => Stroke(Shape.Circle(centre, radius), style);

    /// <summary>One line of text, its baseline at a place.</summary>
    public Canvas Text(string text, Spot at, TextStyle? style = null, Anchor anchor = Anchor.Start, double turn = 0, string? id = null, string? @class = null) =>
        text.Length == 0 ? this : Add(new Text(text, at, style ?? TextStyle.Body, anchor, turn) { Id = id, Class = @class });

    public Canvas Text(string text, double x, double y, TextStyle? style = null, Anchor anchor = Anchor.Start, double turn = 0) =>
        Text(text, new Spot(x, y), style, anchor, turn);

    /// <summary>Text centred on a place both ways, on a white patch that keeps lines away from it.</summary>
    public Canvas Label(string text, Spot centre, TextStyle? style = null, double turn = 0, string? id = null, string? @class = null)
    {
        style ??= TextStyle.Body;
        var (half, rise, margin) = ((style.Width(text) / 2) + (style.Height * 0.2), style.Height / 2, style.Height * 0.3);
        var patch = Shape.Rectangle(new(-half, -rise - margin, 2 * half, style.Height + (2 * margin)));
        Fill(patch.Placed(Placement.Turn(turn).Then(Placement.Move(centre.X, centre.Y))), Ink.White);
        return Text(text, centre.Polar(rise, turn + (Math.PI / 2)), style, Anchor.Middle, turn, id, @class);
    }

    /// <summary>Text in lines within a box, from its top; text that is too long for the box is set smaller.</summary>
    public Canvas TextIn(Box box, string text, TextStyle? style = null, Anchor anchor = Anchor.Start)
    {
        style ??= TextStyle.Body;
        var lines = style.Wrap(text, box.Width);
        while (style.Height > 0.5 && style.Height + ((lines.Count - 1) * style.Pitch) > box.Height + 1e-9)
        {
            style = style with { Height = style.Height * 0.93 };
            lines = style.Wrap(text, box.Width);
        }
        Lines(lines, box.X, box.Y, box.Width, style, anchor);
        return this;
    }

    /// <summary>A filled arrowhead whose tip is at a place and points along an angle.</summary>
    public Canvas Arrowhead(Spot tip, double angle, double length = 3, Ink ink = default)
    {
        var back = tip.Polar(-length, angle);
        var half = length / 6;
        return Fill(Shape.Polygon(tip, back.Polar(half, angle + (Math.PI / 2)), back.Polar(-half, angle + (Math.PI / 2))), ink);
    }

    /// <summary>A line with an arrowhead at its end.</summary>
    public Canvas Arrow(Spot from, Spot to, LineStyle? style = null, double head = 3)
    {
        style ??= LineStyle.Thin;
        var angle = from.AngleTo(to);
        // The line stops inside the head, so that its round end does not blunt the tip.
        return Line(from, to.Polar(-Math.Min(head, from.To(to)) * 0.8, angle), style).Arrowhead(to, angle, head, style.Ink);
    }

    /// <summary>A dimension between two places: extension lines, a dimension line <paramref name="offset"/> mm to the left of the way from a to b (negative: right), arrowheads, and the text on it, readable from below or from the right.</summary>
    public Canvas Dimension(Spot a, Spot b, double offset, string text, TextStyle? style = null, LineStyle? line = null, string? id = null, string? @class = null)
    {
        style ??= TextStyle.Body;
        line ??= LineStyle.Thin;
        var along = a.AngleTo(b);
        var away = along - (Math.PI / 2 * Math.Sign(offset == 0 ? 1 : offset));
        var reach = Math.Abs(offset);
        var (p, q) = (a.Polar(reach, away), b.Polar(reach, away));
        return Group(id, @class, Placement.None, g =>
        {
            if (reach > 2)
                g.Line(a.Polar(1, away), p.Polar(1.5, away), line).Line(b.Polar(1, away), q.Polar(1.5, away), line);
            var (length, room, head) = (p.To(q), style.Width(text) + (style.Height * 0.8), 3.0);
            if (length > (2 * head) + 1)
                g.Line(p, q, line).Arrowhead(p, along + Math.PI, head, line.Ink).Arrowhead(q, along, head, line.Ink);
            else
                g.Line(p.Polar(-6, along), q.Polar(6, along), line).Arrowhead(p, along, head, line.Ink).Arrowhead(q, along + Math.PI, head, line.Ink);
            // Upright text: turned so that it never stands on its head.
            var turn = Math.IEEERemainder(along, Math.PI);
            if (turn >= (Math.PI / 2) - 1e-6)
                turn -= Math.PI;
            var middle = p.Toward(q, 0.5);
            if (room + (2 * head) < length)
                g.Label(text, middle, style, turn);
            else
                g.Label(text, middle.Polar((style.Height / 2) + 1.2, away), style, turn);
        });
    }

    /// <summary>Marks under one id and class, with their own coordinates.</summary>
    public Canvas Group(string? id, string? @class, Placement placement, Action<Canvas> fill, string? row = null)
    {
        var inner = new Canvas();
        fill(inner);
        return inner._marks.Count == 0 ? this : Add(new Group(inner._marks.DrainToImmutable(), placement) { Id = id, Class = @class, Row = row });
    }

    public Canvas Group(string? id, string? @class, Action<Canvas> fill, string? row = null) => Group(id, @class, Placement.None, fill, row);

    /// <summary>A figure with its upper left corner at a place.</summary>
    public Canvas Place(Figure figure, Spot corner, double scale = 1) => Add(figure.At(corner, scale));

    /// <summary>A figure in the middle of a box, made smaller where it is larger than the box.</summary>
    public Canvas PlaceIn(Box box, Figure figure)
    {
        var scale = Math.Min(1, Math.Min(box.Width / figure.Width, box.Height / figure.Height));
        return Place(figure, box.Centre.Moved(-figure.Width * scale / 2, -figure.Height * scale / 2), scale);
    }

    public Scene ToScene(Paper paper, string title = "") => new(paper, Marks) { Title = title };

    public Figure ToFigure(double width, double height) => new(Marks, width, height);

    /// <summary>Lines from the top of a column: the first one's capitals touch <paramref name="top"/>.</summary>
    internal void Lines(IReadOnlyList<string> lines, double x, double top, double width, TextStyle style, Anchor anchor)
    {
        var at = anchor switch { Anchor.Middle => x + (width / 2), Anchor.End => x + width, _ => x };
        for (var i = 0; i < lines.Count; i++)
            Text(lines[i], at, top + style.Height + (i * style.Pitch), style, anchor);
    }
}
