using System.Globalization;
using Rootgap.Fabricating;

namespace Rootgap.Sheets;

/// <summary>Isometric pictures: of a whole drawing, of a part of it, or of one spool.</summary>
public static class Isometric
{
    private const double ListLine = 4.2;

    /// <summary>On a canvas of its own: scale of the sketch, and room for labels round the line, mm.</summary>
    private const double FreeScale = 1.3, FreeMarginAcross = 34, FreeMarginDown = 26;

    /// <summary>One spool alone, as large as the room allows, with every leg's length, its joints, items and pieces.</summary>
    public static Figure Of(Fabrication fabrication, Spool spool, double width, double height)
    {
        HashSet<string> ids = [.. spool.Components.Select(c => c.Id), .. spool.Cuts.Select(c => c.Pipe.Id)];
        return Of(DrawnLine.Of(fabrication, ids), width, height, EmptyMarks).Figure;
    }

    /// <summary>One spool for its own sheet: what and which way, without the lengths, which stand on the views beside it.</summary>
    internal static Picture OfSpool(Fabrication fabrication, Spool spool, double width, double height)
    {
        HashSet<string> ids = [.. spool.Components.Select(c => c.Id), .. spool.Cuts.Select(c => c.Pipe.Id)];
        return Of(DrawnLine.Of(fabrication, ids, isSpool: true), width, height, EmptyMarks);
    }

    /// <summary>What the marks of an isometric mean, in rows of the given width.</summary>
    public static Figure Legend(double width) => IsometricLegend.Of(width);

    internal static readonly IReadOnlyDictionary<string, string> EmptyMarks = new Dictionary<string, string>(StringComparer.Ordinal);

    /// <summary>A picture with what it is judged by.</summary>
    /// <param name="Labels">How many labels it has.</param>
    /// <param name="Listed">Labels for which there was no room: they stand in a list in the picture's lower left corner.</param>
    /// <param name="Strained">How many labels have no room, or only such that words and lines cross.</param>
    /// <param name="Crossed">How many leaders run through another's.</param>
    /// <param name="Scale">1 where all symbols have the size they should have; smaller where the line is too long for the room.</param>
    internal sealed record Picture(Figure Figure, int Labels, IReadOnlyList<string> Listed, int Strained, int Crossed, double Scale)
    {
        /// <summary>Symbols may be made this much smaller, and this share of the labels be strained or their leaders run through others, before a picture counts as too full.</summary>
        private const double SmallestSymbols = 0.8, MostStrained = 0.04, FewCrossed = 0.02, ManyCrossed = 0.1, TooManyCrossed = 0.2;

        /// <summary>What is wrong with it, the gravest first.</summary>
        public (int Listed, bool IsSmall, int Strained, int Crossed) Badness => (Listed.Count, Scale < SmallestSymbols, Strained, Crossed);

        /// <summary>Whether there is nothing to look for with more or less paper round the legs.</summary>
        public bool IsClean => Listed.Count == 0 && Strained == 0 && Crossed <= FewCrossed * Labels;

        /// <summary>Whether larger paper, where there is some, would be easier to read.</summary>
        public bool IsCrowded => IsTooFull || Crossed > ManyCrossed * Labels;

        public bool IsTooFull => Listed.Count > 0 || Scale < SmallestSymbols || Strained > MostStrained * Labels || Crossed > TooManyCrossed * Labels;
    }

    /// <param name="marks">What to write at joints where the sheet ends.</param>
    internal static Picture Of(DrawnLine line, double width, double height, IReadOnlyDictionary<string, string> marks)
    {
        // Where a line would run through words, or leaders through each other, the legs are set out once more with more and with less paper round them: other places are free then.
        Picture? best = null;
        foreach (var around in Around)
        {
            var picture = Try(line, width, height, marks, 0, around);
            if (picture.Listed.Count > 0)
                picture = Try(line, width, height, marks, picture.Listed.Count + 1, around);
            if (best is null || picture.Badness.CompareTo(best.Badness) < 0)
                best = picture;
            if (best.IsClean)
                break;
        }

        return best!;
    }

    /// <summary>Paper round the legs for labels, as a share of what is usual.</summary>
    private static readonly double[] Around = [1, 0.75, 1.3, 0.55];

    private static Picture Try(DrawnLine line, double width, double height, IReadOnlyDictionary<string, string> marks, int listLines, double around)
    {
        var zone = new Box(1, 1, width - 2, height - 2 - (listLines * ListLine));
        var (across, down) = (Math.Min(26, zone.Width * 0.13) * around, Math.Min(19, zone.Height * 0.13) * around);
        return Drawn(line, IsometricLayout.Of(line, zone.Inset(across, down), Effort.Full), zone, new(width, height), marks, Effort.Full);
    }

    /// <summary>The whole line on a canvas of its own that is as large as it needs; at the full size of all symbols.</summary>
    internal static Figure Free(DrawnLine line, Effort effort) => Free(line, effort, out _, out _);

    /// <param name="layout">Where the legs lie, in its own lengths.</param>
    /// <param name="origin">The figure's upper left corner in the layout.</param>
    internal static Figure Free(DrawnLine line, Effort effort, out IsometricLayout layout, out Spot origin)
    {
        // Twice the longest paper roll that anybody would scroll through.
        layout = IsometricLayout.Of(line, new Box(0, 0, 4000, 4000), effort, FreeScale);
        var (left, top, right, bottom) = (double.MaxValue, double.MaxValue, double.MinValue, double.MinValue);
        foreach (var leg in layout.Legs)
        {
            var (a, b) = (leg.Start, leg.End);
            (left, right) = (Math.Min(left, Math.Min(a.X, b.X)), Math.Max(right, Math.Max(a.X, b.X)));
            (top, bottom) = (Math.Min(top, Math.Min(a.Y, b.Y)), Math.Max(bottom, Math.Max(a.Y, b.Y)));
        }

        var zone = new Box(left, top, right - left, bottom - top).Inset(-FreeMarginAcross, -FreeMarginDown);
        var picture = Drawn(line, layout, zone, new(zone.Width, zone.Height), EmptyMarks, effort);
        var list = picture.Listed.Count > 0 ? (picture.Listed.Count + 2) * ListLine : 0;
        origin = new(zone.X, zone.Y);
        return new([picture.Figure.At(new(-zone.X, -zone.Y))], zone.Width, zone.Height + list);
    }

    /// <summary>The last rank of the words that are worth a second look on a screen, and a push: figures and what has changed.</summary>
    private const int Important = 1;

    /// <summary>The whole line in the room that a screen has: what has no place in it is not written.</summary>
    /// <param name="before">The picture that the pane shows: where little work is to be done, its legs and words keep their places. Null for none.</param>
    internal static Figure Pane(DrawnLine line, double width, double height, Effort effort, double closer, PaneBefore? before, out PaneBefore now)
    {
        var zone = new Box(0.5, 0.5, width - 1, height - 1);
        var (across, down) = (Math.Min(24, width * 0.12), Math.Min(17, height * 0.12));
        var layout = IsometricLayout.Of(line, zone.Inset(across, down), effort, 1.6 * Math.Sqrt(closer), effort.Again == 0 ? before?.Layout : null);
        var placement = new LabelPlacement(zone);
        // In the upper left corner, whichever way the view turns it.
        var (north, east) = (layout.View.Way(Measure.Vector.North), layout.View.Way(Measure.Vector.East));
        Spot compass = new(zone.Left + 2.5 + Math.Max(2.5, Math.Max(-north.X * 19, -east.X * 12)), zone.Top + 1.5 + Math.Max(11, Math.Max(-north.Y * 19, -east.Y * 12)));
        placement.Block(new Slab(new Box(0, 0, 34, 26)));
        var drawing = IsometricDrawing.Of(line, layout, placement, EmptyMarks);
        var (labels, boxes) = IsometricLabels.Of(line, layout, drawing, placement, EmptyMarks, effort.Marks);
        IReadOnlyDictionary<string, Spot> moved = new Dictionary<string, Spot>();
        if (effort.Again == 0 && before is not null)
        {
            var kept = effort.Marks ? [] : before.Moved(IsometricLabels.Marks(line, drawing), out moved);
            labels = [.. labels.Where(l => !moved.ContainsKey(l.Key)), .. kept];
            foreach (var label in labels)
                label.Before = before.Places.GetValueOrDefault(label.Key, -1);
        }

        foreach (var rank in labels.GroupBy(l => l.Rank).OrderBy(g => g.Key))
            placement.Set(rank, rank.Key <= Important ? effort.Again : 0);
        foreach (var label in labels.Where(l => l.Set is not null).OrderByDescending(l => l.Rank))
        {
            if (label.Cost > label.MostOnScreen)
                placement.Leave(label);
        }

        now = effort.Marks
            ? new(layout, labels, PaneBefore.Kept(labels, IsometricLabels.Marks(line, drawing)), "")
            : new(layout, labels, before?.Marks ?? new Dictionary<string, KeptMark>(), string.Join(';', labels.Where(l => l.Set is not null && moved.ContainsKey(l.Key)).Select(l => string.Create(CultureInfo.InvariantCulture, $"{SheetId.Of(l.Key)}-label {moved[l.Key].X:0.##} {moved[l.Key].Y:0.##}"))));

        var canvas = new Canvas();
        canvas.Group(null, "planes", g =>
        {
            foreach (var box in boxes)
                box.Draw(g);
        });
        canvas.Group(null, "compass", g => Symbols.Compass(g, compass, layout.View));
        foreach (var mark in drawing.Canvas.Marks)
            canvas.Add(mark);
        foreach (var label in labels)
        {
            if (label.Set is { } set)
                label.Draw(canvas, set);
        }

        foreach (var (row, isBranch, at, way) in drawing.ToBeWritten())
        {
            canvas.Group(null, isBranch ? "goes-on branches" : "goes-on", g =>
            {
                var tip = at.Moved(way.X * 9, way.Y * 9);
                g.Line(at, tip, new LineStyle(0.5, Dash.Dotted));
                g.Fill(Shape.Circle(tip, 2.1));
            }, row);
        }

        return canvas.ToFigure(width, height);
    }

    private static Picture Drawn(DrawnLine line, IsometricLayout layout, Box zone, Spot size, IReadOnlyDictionary<string, string> marks, Effort effort)
    {
        var placement = new LabelPlacement(zone);
        var (compass, isClear) = Compass(layout, zone);
        placement.Block(new Slab(new Box(compass.X - 17, compass.Y - 14, 34, 24)));
        var drawing = IsometricDrawing.Of(line, layout, placement, marks);
        var (labels, boxes) = IsometricLabels.Of(line, layout, drawing, placement, marks, effort.Marks);
        var left = placement.Set(labels, effort.Again);
        var canvas = new Canvas();
        canvas.Group(null, "planes", g =>
        {
            foreach (var box in boxes)
                box.Draw(g);
            // Hatching stays off words.
            foreach (var words in boxes.Count > 0 ? labels.Select(l => l.Set?.Words).OfType<Slab>() : [])
                g.Fill(words.Outline, Ink.White);
        });
        canvas.Group(null, "compass", g => Symbols.Compass(g, compass, layout.View));
        foreach (var label in labels)
        {
            if (label.Set is { } set && label.Difficulty >= 90)
                label.Draw(canvas, set);
        }

        foreach (var mark in drawing.Canvas.Marks)
            canvas.Add(mark);
        foreach (var label in labels)
        {
            if (label.Set is { } set && label.Difficulty < 90)
                label.Draw(canvas, set);
        }

        var listed = left.Select(l => l.InWords).ToList();
        if (listed.Count > 0)
        {
            canvas.Group(null, "list", g =>
            {
                g.Text("No room in the picture for:", zone.X + 1, zone.Bottom + ListLine - 0.5, TextStyle.Small with { Bold = true });
                for (var i = 0; i < listed.Count; i++)
                    g.Text(listed[i], zone.X + 1, zone.Bottom + ((i + 2) * ListLine) - 0.5, TextStyle.Small.Fitting(listed[i], size.X - 4));
            });
        }

        return new(canvas.ToFigure(size.X, size.Y), labels.Count, listed, effort == Effort.Full ? placement.Strained(labels) + (isClear ? 0 : 1) : 0, LabelPlacement.Crossed(labels), layout.SymbolScale);
    }

    /// <summary>Clear paper round the compass's middle and its letters, mm.</summary>
    private const double CompassRoom = 4.6;

    /// <summary>The compass stands in the corner that is farthest from the line, the upper ones first.</summary>
    /// <returns>Its place, and whether no leg comes near it.</returns>
    private static (Spot At, bool IsClear) Compass(IsometricLayout layout, Box zone)
    {
        Spot[] corners = [new(zone.Right - 18, zone.Top + 16), new(zone.Left + 18, zone.Top + 16), new(zone.Right - 18, zone.Bottom - 12), new(zone.Left + 18, zone.Bottom - 12)];
        double Off(Spot at) => layout.Legs.Min(l => Strokes.Distance(at, l.Start, l.End));
        var best = corners.Select((c, i) => (Corner: c, Far: Math.Min(60, Off(c)) - (i * 5))).MaxBy(c => c.Far).Corner;
        return (best, Symbols.CompassSpots(best, layout.View).All(s => Off(s) > CompassRoom));
    }
}
