using System.Globalization;
using Rootgap.FitUp;
using Rootgap.Measure;

namespace Rootgap.Sheets;

/// <summary>
/// A joint in its set-up as the fitter sees it: both parts, clock positions, marks, and the lines that are measured. Assemblies stand whole where the weld can be read then; else
/// what is near the weld is shown, pipes broken off, and it is said.
/// </summary>
internal sealed partial class FitUpPicture
{
    // The fitter stands beside the pipe, a little behind the weld, and looks down on it.
    private const double Aside = -20 * Math.PI / 180, Above = 24 * Math.PI / 180;
    private const double Label = 6, Beside = 3.5;

    private readonly StandingJoint joint;
    private readonly Canvas canvas;
    private readonly FitWords words;
    private readonly Vector right, up, toward;
    private List<Strip> strips = [];
    private readonly List<(Point At, Vector Out, double Radius)> breaks = [];
    private Point heldEnd;

    /// <summary>Assemblies are shown whole and to scale, so that it is seen what lies on what.</summary>
    private bool isWhole;

    /// <summary>A scale held from one pipe to the other is shown at its places.</summary>
    private bool isToScale;

    /// <summary>How far from the weld its marks are shown, mm: nearer than they are where a pipe is broken off.</summary>
    private double shownMark;

    /// <summary>How much is shown of a pipe that is brought, or that hangs on a part at the weld, diameters.</summary>
    private double stub;
    private double scale = 1;
    private Spot middle;

    /// <summary>A round body along a line of centres: its outline is the line, widened by its radius.</summary>
    private sealed record Strip(IReadOnlyList<Point> Centres, double From, double To, bool IsHeld)
    {
        public double RadiusAt(int i) => Centres.Count < 2 ? From : From + ((To - From) * i / (Centres.Count - 1));

        /// <summary>A place on the axis of a part lies in what is shown of it.</summary>
        public bool Shows(Point place) => Enumerable.Range(1, Math.Max(0, Centres.Count - 1)).Any(i =>
        {
            var (from, way) = (Centres[i - 1], Centres[i] - Centres[i - 1]);
            var share = Math.Clamp((place - from).Dot(way) / Math.Max(1e-9, way.Dot(way)), 0, 1);
            return place.To(from + (way * share)) < 0.2 * From;
        });
    }

    private FitUpPicture(Canvas canvas, StandingJoint joint, FitWords words)
    {
        (this.canvas, this.joint, this.words) = (canvas, joint, words);
        var bench = joint.SetUp.Up;
        var along = joint.SetUp.Attitude == Attitude.OnEnd
            ? (joint.Joint.Turn.IsStraight ? joint.Three : joint.Joint.Turn.Side)
            : joint.Axis.SquareTo(bench) is { Length: > 0.2 } level ? level.Unit
            // What is held lies across the picture, not away from it.
            : joint.Joint.HeldFar.Normal.SquareTo(bench) is { Length: > 0.2 } held ? -held.Unit : joint.Three;
        var face = along.Cross(bench);
        (right, var near) = ((along * Math.Cos(Aside)) - (face * Math.Sin(Aside)), (face * Math.Cos(Aside)) + (along * Math.Sin(Aside)));
        (up, toward) = ((bench * Math.Cos(Above)) - (near * Math.Sin(Above)), (near * Math.Cos(Above)) + (bench * Math.Sin(Above)));
    }

    public static void Draw(Canvas canvas, Box box, StandingJoint joint, IReadOnlyList<Target> targets, FitWords words)
    {
        var picture = new FitUpPicture(canvas, joint, words) { isToScale = targets.Any(t => t.Reading is Reading.Scale) };
        picture.Choose(box);
        // Lines and figures keep off what is said at the picture's foot.
        picture.area = box.Inset(0.5).CutBottom((picture.Says(box).Count * TextStyle.Small.Pitch) + 1).Remainder;
        picture.DrawStands();
        picture.DrawBodies();
        picture.DrawMarks();
        picture.DrawLines(targets);
        // Words come last, each where it lies on no other.
        picture.DrawView(box);
        picture.DrawClock();
        picture.DrawNames();
        picture.DrawFigures(targets);
    }

    // A longer assembly would shrink the weld until its clock and tapes lie over each other, diameters.
    private const double MostReach = 7;

    // So wide a pipe's clock, marks and tapes can be told from each other, mm on paper.
    private const double Readable = 9;

    // The first view in which the weld can be read; where none is, the one that shows it largest.
    private void Choose(Box box)
    {
        var reach = Reach(joint.Joint);
        List<(bool IsWhole, double Stub)> views = [(false, 2.5), (false, 1.6), (false, 0.9)];
        if ((joint.Joint.HeldSide.Parts.Length > 1 || joint.Joint.Brought.Parts.Length > 1) && reach < MostReach * joint.Joint.Outside)
            views.Insert(0, (true, 0));
        ((bool, double) View, double Wide)? best = null;
        foreach (var (whole, length) in views)
        {
            Show(whole, length);
            FitInto(Inner(box));
            var wide = joint.Joint.Outside * scale;
            if (wide >= Readable)
                return;
            if (best is null || best.Value.Wide < wide)
                best = ((whole, length), wide);
        }

        Show(best!.Value.View.Item1, best.Value.View.Item2);
        FitInto(Inner(box));
    }

    // Below stand the stands' feet and the lines that say from where it is seen.
    private Box Inner(Box box) => new(box.X + Beside, box.Y + Label, box.Width - (2 * Beside), box.Height - (2 * Label) - 5 - ((Says(box).Count - 1) * TextStyle.Small.Pitch));

    private void Show(bool whole, double length)
    {
        (isWhole, stub) = (whole, length);
        breaks.Clear();
        var j = joint.Joint;
        var end = j.Centre - (j.Axis * (j.Gap / 2));
        shownMark = isWhole || isToScale ? joint.Mark : Math.Min(joint.Mark, FarthestMark * (j.Header == Vector.Zero ? j.Outside : j.HeaderOutside));
        var keep = Math.Max(shownMark + (0.6 * j.Outside), (stub + 0.5) * j.Outside);
        var isBroken = !isWhole && keep + j.Outside < j.HeldStraight && j.Weld != FitWeld.Branch;
        if (!isBroken && j.Weld != FitWeld.Branch)
            shownMark = joint.Mark;
        heldEnd = isBroken ? end - (j.Axis * keep) : j.HeldFar.Centre;
        if (isBroken)
            breaks.Add((heldEnd, -j.Axis, j.Outside / 2));
        strips = isWhole
            ? [.. Whole(j.HeldSide, isHeld: true), .. Whole(j.Brought, isHeld: false)]
            : [.. Held(end, isBroken), .. New(), .. HangsOn(j.Held, j.HeldSide, isHeld: true), .. HangsOn(j.New, j.Brought, isHeld: false)];
    }

    // Farther off a mark would make the weld small, diameters.
    private const double FarthestMark = 1.5, Unmoved = 0.8;

    // A mark where it is shown.
    private Point MarkAt(int at) => joint.MarkAt(at) - ((joint.Joint.Header == Vector.Zero ? -joint.Axis : joint.Q(at)) * (joint.Mark - shownMark));

    // A place on the pipe that is held, where it is shown: what lies at the weld stays, the rest goes with the marks.
    private Point Shown(Point p)
    {
        var j = joint.Joint;
        var (fixedTo, along) = (Unmoved * j.Outside, (j.Centre - p).Dot(j.Axis));
        return shownMark < joint.Mark && fixedTo < along && j.Header == Vector.Zero
            ? p + (j.Axis * ((along - fixedTo) * (joint.Mark - shownMark) / Math.Max(1e-9, joint.Mark - fixedTo)))
            : p;
    }

    private static double Reach(FitJoint j) =>
        j.Both.Parts.SelectMany(p => p.Bodies.SelectMany(b => b.Moved(Place(j, p)).Discs)).Select(d => d.Middle.To(j.Centre)).DefaultIfEmpty(0).Max();

    private static Motion Place(FitJoint j, FitPart part) => j.Places.TryGetValue(part.Id, out var motion) ? motion : Motion.None;

    private IEnumerable<Strip> Whole(Assembly side, bool isHeld) => side.Parts.SelectMany(p => p.Bodies.Select(b => Of(b.Moved(Place(joint.Joint, p)), isHeld)));

    private IEnumerable<Strip> Held(Point end, bool isBroken)
    {
        var j = joint.Joint;
        if (j.Weld == FitWeld.Branch && j.Header != Vector.Zero)
        {
            var reach = j.Header * Math.Max(1.6 * j.HeaderOutside, shownMark + (0.4 * j.HeaderOutside));
            var axis = j.Centre - (j.Axis * (j.HeaderOutside / 2));
            foreach (var way in (Vector[])[-reach, reach])
                breaks.Add((axis + way, way.Unit, j.HeaderOutside / 2));
            return [new Strip([axis - reach, axis + reach], j.HeaderOutside / 2, j.HeaderOutside / 2, true)];
        }

        return isBroken
            ? [new Strip([heldEnd, end], j.Outside / 2, j.Outside / 2, true)]
            : j.HeldBodies.Select(b => Of(b, isHeld: true));
    }

    private IEnumerable<Strip> New() => joint.Joint.NewBodies.Select(b => joint.Joint.New.IsPipe && b is Solid.Bar bar ? Stub(bar, joint.Joint.Centre, isHeld: false) : Of(b, isHeld: false));

    // What comes next to a fitting at the weld: it is seen then which way the fitting looks.
    private IEnumerable<Strip> HangsOn(FitPart at, Assembly side, bool isHeld)
    {
        if (at.IsPipe)
            yield break;
        var j = joint.Joint;
        var ends = at.Ends.Select(e => Place(j, at).Of(e.At)).Where(e => e.To(j.Centre) > 10).ToList();
        foreach (var part in side.Parts.Where(p => p != at))
        {
            foreach (var end in ends.Where(e => part.Ends.Any(o => Place(j, part).Of(o.At).To(e) < NextTo)))
            {
                foreach (var body in part.Bodies)
                    yield return body.Moved(Place(j, part)) is Solid.Bar bar && part.IsPipe ? Stub(bar, end, isHeld) : Of(body.Moved(Place(j, part)), isHeld);
            }
        }
    }

    // Over a root gap and an allowance, mm.
    private const double NextTo = 15;

    private static Strip Of(Solid body, bool isHeld) => body switch
    {
        Solid.Bar c => new([c.From, c.To], c.RadiusFrom, c.RadiusTo, isHeld),
        Solid.Bend b => new([.. Enumerable.Range(0, 25).Select(k => b.On(b.Turn * k / 24).At)], b.Radius, b.Radius, isHeld),
        _ => throw new InvalidOperationException("The family of bodies is closed."),
    };

    // A pipe from the end that is near; broken off where it is much longer.
    private Strip Stub(Solid.Bar bar, Point near, bool isHeld)
    {
        var (from, to) = bar.From.To(near) < bar.To.To(near) ? (bar.From, bar.To) : (bar.To, bar.From);
        var length = stub * 2 * bar.RadiusFrom;
        if (from.To(to) < length + (1.5 * bar.RadiusFrom))
            return new([from, to], bar.RadiusFrom, bar.RadiusFrom, isHeld);
        var cut = from.Toward(to, length / from.To(to));
        breaks.Add((cut, (to - from).Unit, bar.RadiusFrom));
        return new([from, cut], bar.RadiusFrom, bar.RadiusFrom, isHeld);
    }

    private (double X, double Y) Flat(Point p) => ((p - Point.Origin).Dot(right), -(p - Point.Origin).Dot(up));

    private double Near(Point p) => (p - Point.Origin).Dot(toward);

    private Spot On(Point p)
    {
        var (x, y) = Flat(p);
        return new(middle.X + (x * scale), middle.Y + (y * scale));
    }

    private void FitInto(Box box)
    {
        double left = double.MaxValue, top = double.MaxValue, rightmost = double.MinValue, bottom = double.MinValue;
        foreach (var strip in strips)
        {
            for (var i = 0; i < strip.Centres.Count; i++)
            {
                var ((x, y), r) = (Flat(strip.Centres[i]), strip.RadiusAt(i));
                (left, rightmost, top, bottom) = (Math.Min(left, x - r), Math.Max(rightmost, x + r), Math.Min(top, y - r), Math.Max(bottom, y + r));
            }
        }
        scale = Math.Min(box.Width / (rightmost - left), box.Height / (bottom - top));
        middle = new(box.Centre.X - ((left + rightmost) / 2 * scale), box.Centre.Y - ((top + bottom) / 2 * scale));
    }

    private void DrawBodies()
    {
        // What is farther away is drawn first.
        foreach (var strip in strips.OrderBy(s => s.Centres.Average(Near)))
        {
            if (strip.Centres.Count == 1)
            {
                var ball = Shape.Circle(On(strip.Centres[0]), strip.From * scale);
                canvas.Fill(ball, Ink.White).Stroke(ball, LineStyle.Medium);
                continue;
            }
            var spots = strip.Centres.Select(On).ToList();
            List<Spot> one = [], other = [];
            for (var i = 0; i < spots.Count; i++)
            {
                var angle = spots[Math.Max(0, i - 1)].AngleTo(spots[Math.Min(spots.Count - 1, i + 1)]);
                one.Add(spots[i].Polar(strip.RadiusAt(i) * scale, angle + (Math.PI / 2)));
                other.Add(spots[i].Polar(strip.RadiusAt(i) * scale, angle - (Math.PI / 2)));
            }
            var ends = new[] { (At: 0, Next: 1), (At: spots.Count - 1, Next: spots.Count - 2) }.Select(e => (
                Shape: End(strip.Centres[e.At], (strip.Centres[e.At] - strip.Centres[e.Next]).Unit, strip.RadiusAt(e.At)),
                Faces: 0 < (strip.Centres[e.At] - strip.Centres[e.Next]).Dot(toward))).ToList();
            foreach (var (shape, _) in ends.Where(e => !e.Faces))
                canvas.Fill(shape, Ink.White).Stroke(shape, LineStyle.Medium);
            canvas.Fill(Shape.Polygon([.. one, .. Enumerable.Reverse(other)]), Ink.White);
            canvas.Polyline(one, LineStyle.Medium).Polyline(other, LineStyle.Medium);
            foreach (var (shape, _) in ends.Where(e => e.Faces))
                canvas.Fill(shape, Ink.White).Stroke(shape, LineStyle.Medium);
        }
        foreach (var (at, outward, radius) in breaks)
            DrawBreak(at, outward, radius);
    }

    // A round face seen at a slant.
    private Shape End(Point centre, Vector normal, double radius)
    {
        var (x, y) = (normal.Dot(right), -normal.Dot(up));
        return Shape.Ellipse(On(centre), radius * scale * Math.Abs(normal.Dot(toward)), radius * scale, Math.Atan2(y, x));
    }

    private void DrawBreak(Point where, Vector outward, double radius)
    {
        // Seen nearly along the pipe a break says nothing.
        var (at, beyond) = (On(where), On(where + (outward * radius)));
        if (at.To(beyond) < 0.35 * radius * scale)
            return;
        var angle = beyond.AngleTo(at);
        var r = (radius * scale) + 1;
        var across = angle + (Math.PI / 2);
        canvas.Fill(Shape.Polygon(at.Polar(r, across), at.Polar(-r, across), at.Polar(-r, across).Polar(-r, angle), at.Polar(r, across).Polar(-r, angle)), Ink.White);
        canvas.Stroke(Shape.From(at.Polar(r, across)).CurveTo(at.Polar(r / 2, across).Polar(r / 2, angle), at.Polar(r / 2, across).Polar(r / 4, angle), at).CurveTo(at.Polar(-r / 2, across).Polar(-r / 4, angle), at.Polar(-r / 2, across).Polar(-r / 2, angle), at.Polar(-r, across)), LineStyle.Thin);
    }

    private void DrawMarks()
    {
        var j = joint.Joint;
        foreach (var at in StandingJoint.Clock)
        {
            var q = joint.Q(at);
            var rim = j.Centre + (q * (j.Outside / 2));
            var hidden = q.Dot(toward) < 0;
            canvas.Line(On(rim), On(rim + (q * (j.Outside * 0.16))), hidden ? LineStyle.Thin with { Dash = Dash.Dotted } : LineStyle.Thin);
            if (!joint.MarkExists(at))
                continue;
            var mark = On(MarkAt(at));
            written.Add(new(mark.X - 1, mark.Y - 1, 2, 2));
            if (hidden)
                canvas.Circle(mark, 0.8, LineStyle.Thin);
            else
                canvas.Fill(Shape.Circle(mark, 0.9));
        }
    }

    private void DrawStands()
    {
        var j = joint.Joint;
        if (joint.SetUp.Attitude == Attitude.OnEnd)
        {
            var foot = On(heldEnd);
            var r = (j.Outside * scale) + 3;
            canvas.Line(foot.Moved(-r, 0), foot.Moved(r, 0), LineStyle.Thick);
            return;
        }
        // Those that are under what is shown.
        foreach (var (name, stand) in joint.SetUp.Named)
        {
            var part = j.Both.Parts.First(p => p.Id == stand.Part);
            var at = Place(j, part).Of(stand.At);
            if (part == j.Held)
                at = Shown(at);
            if (strips.Exists(s => s.Shows(at)))
                Stand(name, On(at - (joint.SetUp.Up * (part.Outside / 2))));
        }
    }

    private void Stand(string name, Spot top)
    {
        feet.Add((name, top.Moved(0, 6)));
        canvas.Polyline([top.Moved(-3.5, -1.5), top.Moved(0, 1), top.Moved(3.5, -1.5)], LineStyle.Thick);
        canvas.Line(top.Moved(0, 1), top.Moved(0, 6), LineStyle.Thick).Line(top.Moved(-3, 6), top.Moved(3, 6), LineStyle.Thick);
    }
}
