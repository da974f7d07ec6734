using System.Globalization;
using Rootgap.Measure;
using Rootgap.Site;
using Rootgap.Site.Closing;
using Rootgap.Site.Surveys;

namespace Rootgap.Sheets;

/// <summary>The opening of a final-fit weld, the line running to the right as it is written: once seen from 3 o'clock with 12 up, once from 12 with 3 below. Offset and angle are drawn larger than they are.</summary>
public static class OpeningPicture
{
    /// <summary>For the screen: both views side by side.</summary>
    /// <param name="closure">Null before anything is measured: both sides stand as drawn.</param>
    public static Scene Scene(SiteLine line, SiteJoint joint, Closure? closure, Units units)
    {
        var canvas = new Canvas();
        var paper = new Paper("opening", 170, 56);
        Draw(canvas, paper.Box.Inset(2), line, joint, closure, units);
        return canvas.ToScene(paper, $"{joint.Id}, the opening");
    }

    public static void Draw(Canvas canvas, Box box, SiteLine line, SiteJoint joint, Closure? closure, Units units)
    {
        var views = box.Columns(4, 1, 1);
        View(canvas, views[0], line, joint, closure, units, isFromAbove: false);
        View(canvas, views[1], line, joint, closure, units, isFromAbove: true);
    }

    /// <summary>How far from the pipe's end the cut is drawn, mm on paper.</summary>
    private const double CutAt = 14;

    private static void View(Canvas canvas, Box box, SiteLine line, SiteJoint joint, Closure? closure, Units units, bool isFromAbove)
    {
        var (end, other) = joint.Long is { } l ? (l, joint.Across(l)) : (joint.First, joint.Second);
        var (title, picture) = box.CutTop(5);
        var says = isFromAbove ? "from 12 o'clock, 3 is below" : "from 3 o'clock, 12 is above";
        canvas.Text(says, title.Left, title.Top + 3, (TextStyle.Small with { Bold = true }).Fitting(says, title.Width));
        var (half, y) = (Math.Min(9, picture.Height / 5), picture.Top + (picture.Height * 0.42));
        var way = end.IsFirst ? 1 : -1;
        // The pipe that is cut lies with its end a third from the middle, the other side beyond.
        var tip = new Spot(picture.Centre.X - (way * 4), y);
        var far = tip.Moved(-way * (picture.Width * 0.42), 0);
        var body = new Box(Math.Min(tip.X, far.X), y - half, Math.Abs(tip.X - far.X), 2 * half);
        canvas.Polyline([far.Moved(0, -half), tip.Moved(0, -half), tip.Moved(0, half), far.Moved(0, half)], LineStyle.Thick);
        canvas.Line(far.Moved(-way * 2, 0), tip.Moved(way * 26, 0), LineStyle.Thin with { Dash = Dash.Chain });
        // Beside the line of the cut, where there is one, on what stays.
        canvas.Text(line.NameOf(end), closure is { Opening.Mean: >= 0 } ? far.Toward(tip.Moved(-way * CutAt, 0), 0.3).X : body.Centre.X, y - half - 1.5, TextStyle.Strong, Anchor.Middle);
        var (off, tilt) = closure is null ? (0, 0) : isFromAbove
            ? (closure.Opening.OffsetSide, closure.Opening.TiltY)
            : (-closure.Opening.OffsetUp, closure.Opening.TiltX);
        // On paper right-handed about 3 o'clock, seen from 3, and about 12 seen from 12, both turn against the clock; a millimetre is drawn as two, a degree as eight.
        var shift = Math.Clamp(off * 2, -half * 0.9, half * 0.9);
        var lean = Math.Clamp(tilt * 8, -0.22, 0.22) * -1;
        var face = new Spot(tip.X + (way * 13), y + shift);
        var (along, up) = (new Spot(way * Math.Cos(lean), way * Math.Sin(lean)), new Spot(-Math.Sin(lean), Math.Cos(lean)));
        Spot At(double s, double h) => new(face.X + (s * along.X) + (h * up.X), face.Y + (s * along.Y) + (h * up.Y));
        const double Piece = 17;
        canvas.Polyline([At(Piece, -half), At(0, -half), At(0, half), At(Piece, half)], LineStyle.Thick);
        Label(canvas, line.NameOf(other), At(Piece * 0.55, 0));
        if (closure is null)
            return;
        if (closure.Opening.Mean < 0)
        {
            // Nothing to cut: the pipe would have to reach on toward the other side.
            canvas.Text(LengthText.Say(units, $"short {-closure.Opening.Mean:off}"), tip.Toward(face, 0.5).Moved(0, half + 8), TextStyle.Strong, Anchor.Middle);
            canvas.Line(tip.Moved(0, half + 1), tip.Moved(0, half + 4.5), LineStyle.Thin).Arrow(tip.Moved(0, half + 3), tip.Moved(way * 10, half + 3), LineStyle.Thin, 2.2);
        }
        else
        {
            var cut = tip.Moved(-way * CutAt, 0);
            canvas.Line(cut.Moved(0, -half - 2), cut.Moved(0, half + 4), new LineStyle(0.7, Dash.Dashed));
            canvas.Line(cut.Moved(0, half + 3), tip.Moved(0, half + 3), LineStyle.Thin).Line(tip.Moved(0, half + 1), tip.Moved(0, half + 4.5), LineStyle.Thin);
            canvas.Text(LengthText.Say(units, $"cut off {closure.Opening.Mean:cut}"), cut.Toward(tip, 0.5).Moved(0, half + 8), TextStyle.Strong, Anchor.Middle);
        }

        var words = isFromAbove
            ? LengthText.Say(units, $"offset {Math.Abs(closure.Opening.OffsetSide):off} to {(closure.Opening.OffsetSide < 0 ? 9 : 3)}, angle {Math.Abs(Angles.ToDegrees(closure.Opening.TiltY)):0.00}°")
            : LengthText.Say(units, $"offset {Math.Abs(closure.Opening.OffsetUp):off} to {(closure.Opening.OffsetUp < 0 ? 6 : 12)}, angle {Math.Abs(Angles.ToDegrees(closure.Opening.TiltX)):0.00}°");
        canvas.Text(words, picture.Left, picture.Bottom - 1, TextStyle.Small.Fitting(words, picture.Width));
    }

    private static void Label(Canvas canvas, string text, Spot centre)
    {
        var style = TextStyle.Strong;
        var width = style.Width(text) + 2;
        canvas.Fill(Shape.Rectangle(new(centre.X - (width / 2), centre.Y - 2.6, width, 5.2)), Ink.White);
        canvas.Text(text, centre.Moved(0, 1.75), style, Anchor.Middle);
    }

    private static string Text(FormattableString s) => s.ToString(CultureInfo.InvariantCulture);
}
