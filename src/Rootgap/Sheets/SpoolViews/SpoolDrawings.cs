using Rootgap.Fabricating;
using Rootgap.FitUp;
using Rootgap.Measure;
using Rootgap.Routes;

namespace Rootgap.Sheets;

/// <summary>The drawings of a spool: its isometric, its views to scale, the bolt circles of its faces. Letters keep their size in every setting out: where the room is too small for them there is none.</summary>
internal sealed class SpoolDrawings
{
    private const double Gap = 2.5, CircleWidth = 34, SmallIsometric = 66;

    private static readonly double[] Isometrics = [145, 125, 105];

    private static readonly TextStyle Style = TextStyle.Small;

    private readonly Fabrication fabrication;
    private readonly Spool spool;
    private readonly ViewSubject subject;
    private readonly IReadOnlyList<SpoolView> views;
    private readonly IReadOnlyList<Figure> circles;

    /// <param name="checks">Rows of the check table that the views are to bear.</param>
    public SpoolDrawings(Fabrication fabrication, Spool spool, IReadOnlyList<CheckMark> checks)
    {
        (this.fabrication, this.spool) = (fabrication, spool);
        subject = new(fabrication, spool, checks);
        views = ViewSheet.Choose(subject);
        circles = Circles(fabrication, spool, subject);
    }

    /// <summary>Drawings in the room that they were set out for.</summary>
    /// <param name="Draw">Draws them from the room's upper left corner.</param>
    /// <param name="IsClean">Whether all that belongs to them has found its place, and no line runs through words.</param>
    internal sealed record SetOut(Action<Canvas, Spot> Draw, bool IsClean);

    /// <summary>The isometric at the left, the views at the right of it; null where the views have no room there.</summary>
    public SetOut? Beside(double width, double height, bool isSmall)
    {
        var across = Columns(height);
        double Room(double isometric) => width - isometric - Gap - (across * (CircleWidth + Gap));
        double? Scale(double isometric) => ViewSheet.Scale(views, subject.Units, Room(isometric), height - 4);
        // The isometric gives room to the views where they would have none, or where that makes them larger and all of it still finds its place.
        double[] widths = isSmall ? [SmallIsometric] : [.. Isometrics.Select(w => Math.Min(w, width * 0.4))];
        var left = widths.FirstOrDefault(w => Scale(w) is not null);
        if (Scale(left) is not { } scale || left == 0)
            return null;
        var isometric = Isometric.OfSpool(fabrication, spool, left, height);
        foreach (var narrower in widths.Where(w => IsClean(isometric) && w < left && Scale(w) < scale).OrderBy(w => Scale(w)).ThenByDescending(w => w))
        {
            if (Isometric.OfSpool(fabrication, spool, narrower, height) is not { } other || !IsClean(other))
                continue;
            (left, isometric) = (narrower, other);
            break;
        }

        var (drawn, unplaced) = ViewSheet.Of(subject, views, Room(left), height - 4);
        return new((canvas, at) =>
        {
            Group(canvas, isometric.Figure, at);
            canvas.Place(drawn, at.Moved(left + Gap, 0));
            Say(canvas, unplaced, at.Moved(left + Gap, height), Room(left));
            Circles(canvas, at.Moved(width, 0), height);
        }, IsClean(isometric) && unplaced.Count == 0);
    }

    /// <summary>The isometric alone.</summary>
    public SetOut Alone(double width, double height)
    {
        var isometric = Isometric.OfSpool(fabrication, spool, width, height);
        return new((canvas, at) => Group(canvas, isometric.Figure, at), IsClean(isometric));
    }

    /// <summary>The views alone, on as many sheets of one size as they need.</summary>
    public IReadOnlyList<SetOut> Views(double width, double height)
    {
        var room = width - (Columns(height) * (CircleWidth + Gap));
        return
        [
            .. ViewSheet.Sheets(views, subject.Units, room, height - 4).Select((group, i) =>
            {
                var (drawn, unplaced) = ViewSheet.Of(subject, group, room, height - 4);
                return new SetOut((canvas, at) =>
                {
                    canvas.Place(drawn, at);
                    Say(canvas, unplaced, at.Moved(0, height), room);
                    if (i == 0)
                        Circles(canvas, at.Moved(width, 0), height);
                }, unplaced.Count == 0);
            }),
        ];
    }

    private static bool IsClean(Isometric.Picture picture) => picture is { Listed.Count: 0, Strained: 0 };

    private static void Group(Canvas canvas, Figure isometric, Spot at) => canvas.Group(null, "isometric", Placement.Move(at.X, at.Y), g =>
    {
        foreach (var mark in isometric.Marks)
            g.Add(mark);
    });

    private static void Say(Canvas canvas, IReadOnlyList<string> unplaced, Spot foot, double width)
    {
        if (unplaced.Count > 0)
            canvas.Lines(Style.Wrap("No room on the views: " + string.Join("; ", unplaced), width), foot.X, foot.Y - Style.Height, width, Style, Anchor.Start);
    }

    // From the upper right corner down, then in the next column.
    private void Circles(Canvas canvas, Spot corner, double height)
    {
        var (x, y) = (corner.X - CircleWidth, corner.Y);
        foreach (var circle in circles)
        {
            if (y + circle.Height > corner.Y + height && y > corner.Y)
                (x, y) = (x - CircleWidth - Gap, corner.Y);
            canvas.Place(circle, new(x, y));
            y += circle.Height + Gap;
        }
    }

    // Columns that the bolt circles take, filled from the top.
    private int Columns(double height)
    {
        var (columns, y) = (0, double.PositiveInfinity);
        foreach (var circle in circles)
        {
            if (y + circle.Height > height && (columns == 0 || y > 0))
                (columns, y) = (columns + 1, 0);
            y += circle.Height + Gap;
        }

        return columns;
    }

    // Flanges that stand alike share a picture.
    private static List<Figure> Circles(Fabrication f, Spool spool, ViewSubject subject) =>
    [
        .. spool.Components.OfType<Flange>().Select(c => (Circle: BoltCircle.Of(c), Name: subject.Ends.FirstOrDefault(e => e.Part == c.Id)?.Name ?? c.Id)).Where(c => c.Circle is not null)
            .GroupBy(c => (c.Circle!.Says, c.Circle.Reading(f.Units), c.Circle.Flange.Size, c.Circle.Count, c.Circle.IsLevel))
            .Select(g => g.First().Circle!.ToFigure(FitWords.Join(g.Select(c => c.Name)), CircleWidth, f.Units)),
    ];
}
