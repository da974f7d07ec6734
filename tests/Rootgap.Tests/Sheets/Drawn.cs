using Rootgap.Sheets;

namespace Rootgap.Tests.Sheets;

/// <summary>What stands on a page once all groups are placed: lines and texts in the page's own millimetres.</summary>
internal static class Drawn
{
    public static IEnumerable<Text> Texts(IEnumerable<Mark> marks) => Flat(marks, Placement.None).Select(m => m.Mark).OfType<Text>();

    /// <summary>Room of each unturned text, from descender to accent.</summary>
    public static List<(string Text, Box Box)> TextBoxes(IEnumerable<Mark> marks) =>
        [.. Flat(marks, Placement.None).Where(m => m.Mark is Text).Select(m =>
        {
            var text = (Text)m.Mark;
            var (a, b) = (m.Placement.Of(new(text.Box.Left, text.Box.Top)), m.Placement.Of(new(text.Box.Right, text.Box.Bottom)));
            return (text.Content, new Box(a.X, a.Y, b.X - a.X, b.Y - a.Y));
        })];

    /// <summary>The straight parts of all strokes.</summary>
    public static List<(Spot A, Spot B)> Lines(IEnumerable<Mark> marks)
    {
        var lines = new List<(Spot, Spot)>();
        foreach (var (mark, placement) in Flat(marks, Placement.None))
        {
            if (mark is not Stroke stroke)
                continue;
            var at = default(Spot);
            foreach (var s in stroke.Shape.Segments)
            {
                var to = placement.Of(s.To);
                if (s.Step is Step.Line or Step.Close)
                    lines.Add((at, to));
                at = to;
            }
        }
        return lines;
    }

    private static IEnumerable<(Mark Mark, Placement Placement)> Flat(IEnumerable<Mark> marks, Placement placement)
    {
        foreach (var mark in marks)
        {
            if (mark is not Group group)
                yield return (mark, placement);
            else
            {
                foreach (var inner in Flat(group.Marks, group.Placement.Then(placement)))
                    yield return inner;
            }
        }
    }
}
