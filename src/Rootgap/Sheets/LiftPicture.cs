using Rootgap.Fabricating;
using Rootgap.Measure;
using Rootgap.Papers;

namespace Rootgap.Sheets;

/// <summary>A spool on its slings, seen square to the line of the first two, with how far along each is made fast.</summary>
internal static class LiftPicture
{
    private const double Side = 7, Head = 8, Floor = 8, LeastBody = 18;

    // A hook that hangs higher over the grips than this share of the spool's length is left out of the picture: it would make the spool small.
    private const double HighestHook = 0.4;

    private static readonly TextStyle Name = new(5, Bold: true);
    private static readonly TextStyle Figures = new(3.5, Bold: true);
    private static readonly LineStyle Leg = new(0.5);
    private static readonly LineStyle Other = new(0.5, Dash.Dashed);
    private static readonly LineStyle Plumb = new(0.25, Dash.Chain);

    public static Figure Of(Lift lift, Units units, double width, double height)
    {
        var across = lift.Across.SquareTo(lift.Up) is { Length: > 1e-6 } level ? level.Unit : lift.Up.AnySquare();
        var sight = new Sight("lift", "", across, lift.Up);
        var bodies = Body.Of(lift.Spool);
        var spots = bodies.SelectMany(b => Silhouette.Of(b, sight, Placement.None).Covers).SelectMany(c => c).ToList();
        var centre = sight.Of(lift.Centre);
        var top = lift.Holds.Min(h => sight.Of(h.Hitch).Y);
        var (left, right) = (spots.Min(s => s.X), spots.Max(s => s.X));
        var bottom = spots.Max(s => s.Y);
        // Running figures from the outermost place at the left.
        List<(double X, string Says)> marks = [(left, "0"), (centre.X, LiftWords.Length(units, centre.X - left)), .. lift.Holds.Select(h => sight.Of(h.At).X).Zip(lift.Holds, (x, h) => (x, $"{LiftWords.Length(units, x - left)} {h.Name}"))];
        var figures = Floor + 5 + marks.Max(m => Figures.Width(m.Says));
        var up = lift.HookUp ?? HookOf(lift);
        var shownUp = Math.Min(up, Math.Max(right - left, bottom - spots.Min(s => s.Y)) * HighestHook);
        var hook = new Spot(centre.X, top - up);
        var highest = Math.Min(top - shownUp, spots.Min(s => s.Y));
        var n = Math.Max((right - left) / (width - (2 * Side)), (bottom - highest) / Math.Max(LeastBody, height - Head - figures));
        var place = new Placement(1 / n, 0, 0, 1 / n, (width / 2) - ((left + right) / 2 / n), Head - (highest / n));
        var canvas = new Canvas();
        foreach (var part in bodies.Select(b => Silhouette.Of(b, sight, place)).OrderBy(s => s.Depth))
            part.Draw(canvas, LineStyle.Medium);
        var (ring, mass) = (place.Of(hook), place.Of(centre));
        var isHookSeen = up <= shownUp;
        var cut = place.Of(new(0, top - shownUp)).Y;
        // A line to the hook, as far as it is in the picture.
        Spot Seen(Spot to) => isHookSeen ? ring : ring.Toward(to, (cut - ring.Y) / (to.Y - ring.Y));
        canvas.Line(Seen(mass), mass, Plumb);
        for (var i = 0; i < lift.Holds.Count; i++)
        {
            var grip = place.Of(sight.Of(lift.Holds[i].Hitch));
            canvas.Line(Seen(grip), grip, i < 2 ? Leg : Other);
            if (!isHookSeen)
                canvas.Arrow(grip, Seen(grip), LineStyle.Medium, 2.6);
        }

        if (isHookSeen)
            canvas.Fill(Shape.Circle(ring, 2), Ink.White).Circle(ring, 2, LineStyle.Thick);
        MassMark.Draw(canvas, mass);

        var floor = place.Of(new(0, bottom)).Y + Floor;
        var letters = new Lettering(new Box(0, Head - 2, width, floor - 4 - Head));
        foreach (var cover in bodies.SelectMany(b => Silhouette.Of(b, sight, place).Covers))
            letters.BlockPipe(cover);
        foreach (var to in lift.Holds.Select(h => place.Of(sight.Of(h.Hitch))).Append(mass))
            letters.BlockWords(Convex.Slab(ring.Toward(to, 0.5), ring.To(to), 0.8, ring.AngleTo(to)));
        letters.BlockWords(Convex.Slab(ring, 4.8, 4.8, 0));
        foreach (var at in lift.Holds.Select(h => place.Of(sight.Of(h.Hitch))).Append(mass))
            letters.BlockWords(Convex.Slab(at, 3.8, 3.8, 0));
        var datum = new Spot(place.Of(new(left, 0)).X, floor);
        foreach (var hold in lift.Holds)
        {
            var grip = place.Of(sight.Of(hold.Hitch));
            canvas.Circle(grip, 1, LineStyle.Medium);
            var seats = Lettering.Round(grip, Name.Width(hold.Name), Name.Height, 3).Select(s => s with { Leader = null });
            var spot = letters.Take(Name.Width(hold.Name), Name.Height, seats)?.Centre ?? grip.Moved(0, (hold.Cut.Pipe.Outside / n) + 6);
            canvas.Text(hold.Name, spot.Moved(0, Name.Height / 2), Name, Anchor.Middle);
        }

        Dimensions(canvas, place, floor, marks, datum);
        var isAsDrawn = lift.IsHeld || (!lift.IsLying && lift.Roll < Angles.ToRadians(5));
        var from = isAsDrawn ? "Seen from: " + (sight.Toward.SquareTo(Vector.Up) is { Length: > 0.1 } side ? BoltCircle.NameOf(side.Unit) : "above") : "As it hangs";
        canvas.Text(from, new Spot(0, TextStyle.Strong.Height + 1), TextStyle.Strong.Width(from) <= width ? TextStyle.Strong : TextStyle.Small with { Bold = true });
        return canvas.ToFigure(width, floor + 5 + marks.Max(m => Figures.Width(m.Says)));
    }

    private static double HookOf(Lift lift) => lift.Hanging is { } h ? Math.Max(h.First.Length * Math.Sin(h.First.ToLevel), h.Second.Length * Math.Sin(h.Second.ToLevel)) : 1000;

    /// <summary>Running figures from the outermost place at the left.</summary>
    private static void Dimensions(Canvas canvas, Placement place, double floor, List<(double X, string Says)> marks, Spot datum)
    {
        var last = double.NegativeInfinity;
        canvas.Circle(datum, 1, LineStyle.Thin);
        foreach (var (x, says) in marks.OrderBy(m => m.X))
        {
            var at = place.Of(new(x, 0)).X;
            var figure = Math.Max(at, last + 4.2);
            last = figure;
            canvas.Line(new(at, floor - 5), new(at, floor), LineStyle.Thin);
            canvas.Line(new(at, floor), new(figure, floor + 2.5), LineStyle.Thin);
            canvas.Text(says, new Spot(figure + 1.7, floor + 3 + Figures.Width(says)), Figures, Anchor.Start, -Math.PI / 2);
            if (at > datum.X + 3)
                canvas.Arrow(datum, new(at, floor), LineStyle.Thin, 2.6);
        }
    }
}

/// <summary>A round with two black quarters: the centre of mass.</summary>
internal static class MassMark
{
    public static void Draw(Canvas canvas, Spot at)
    {
        canvas.Fill(Shape.Circle(at, 1.9), Ink.White);
        canvas.Fill(Shape.From(at).LineTo(at.Moved(0, -1.9)).ArcTo(at, 1.9, -Math.PI / 2, Math.PI / 2).Close());
        canvas.Fill(Shape.From(at).LineTo(at.Moved(0, 1.9)).ArcTo(at, 1.9, Math.PI / 2, Math.PI / 2).Close());
        canvas.Circle(at, 1.9, LineStyle.Medium);
    }
}
