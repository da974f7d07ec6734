using System.Globalization;
using Rootgap.FitUp;
using Rootgap.Measure;

namespace Rootgap.Sheets;

/// <summary>A joint in its set-up as the fitter sees it: both parts, clock positions, marks, and the lines that are measured. Not to scale along the held pipe.</summary>
internal sealed class FitUpPicture
{
    // The fitter stands beside the pipe, a little behind the weld, and looks down on it.
    private const double Aside = -20 * Math.PI / 180, Above = 24 * Math.PI / 180;
    private const double Label = 6;

    private readonly StandingJoint joint;
    private readonly Canvas canvas;
    private readonly Func<FitPart, string> nameOf;
    private readonly Vector right, up, toward;
    private readonly List<Strip> strips;
    private readonly Point heldEnd;
    private readonly bool isBroken;

    /// <summary>Assemblies are shown whole and to scale, so that it is seen what lies on what.</summary>
    private readonly bool isWhole;
    private double scale = 1;
    private Spot middle;

    /// <summary>A round body along a line of centres: its outline is the line, widened by its radius.</summary>
    private sealed record Strip(IReadOnlyList<Point> Centres, double From, double To, bool IsHeld)
    {
        public double RadiusAt(int i) => Centres.Count < 2 ? From : From + ((To - From) * i / (Centres.Count - 1));
    }

    private FitUpPicture(Canvas canvas, StandingJoint joint, Func<FitPart, string> nameOf)
    {
        (this.canvas, this.joint, this.nameOf) = (canvas, joint, nameOf);
        var bench = joint.SetUp.Up;
        var along = joint.SetUp.Attitude == Attitude.OnEnd
            ? (joint.Joint.Turn.IsStraight ? joint.Three : joint.Joint.Turn.Side)
            : joint.Axis.SquareTo(bench) is { Length: > 0.2 } level ? level.Unit : joint.Three;
        var face = along.Cross(bench);
        (right, var near) = ((along * Math.Cos(Aside)) - (face * Math.Sin(Aside)), (face * Math.Cos(Aside)) + (along * Math.Sin(Aside)));
        (up, toward) = ((bench * Math.Cos(Above)) - (near * Math.Sin(Above)), (near * Math.Cos(Above)) + (bench * Math.Sin(Above)));
        var j = joint.Joint;
        var end = j.Centre - (j.Axis * (j.Gap / 2));
        var keep = Math.Max(joint.Mark + (0.9 * j.Outside), 3.2 * j.Outside);
        isWhole = (j.HeldSide.Parts.Count > 1 || j.Brought.Parts.Count > 1) && Reach(j) < MostReach * j.Outside;
        isBroken = !isWhole && keep + j.Outside < j.HeldStraight && j.Weld != FitWeld.Branch;
        heldEnd = isBroken ? end - (j.Axis * keep) : j.HeldFar.Centre;
        strips = isWhole
            ? [.. j.HeldSide.Parts.SelectMany(p => p.Bodies.SelectMany(b => Of(b.Moved(j.Places[p.Id]), isHeld: true))), .. j.Brought.Parts.SelectMany(p => p.Bodies.SelectMany(b => Of(b.Moved(j.Places[p.Id]), isHeld: false)))]
            : [.. Held(end), .. j.NewBodies.SelectMany(b => Of(b, isHeld: false))];
    }

    public static void Draw(Canvas canvas, Box box, StandingJoint joint, IReadOnlyList<Target> targets, Func<FitPart, string> nameOf)
    {
        var picture = new FitUpPicture(canvas, joint, nameOf);
        picture.FitInto(box.Inset(Label + 1));
        picture.DrawStands();
        picture.DrawBodies();
        picture.DrawClock();
        picture.DrawTapes(targets);
        picture.DrawScale(targets);
        picture.DrawNames(box);
    }

    // A longer assembly would shrink the weld until its clock and tapes lie over each other, diameters.
    private const double MostReach = 7;

    private static double Reach(FitJoint j) =>
        j.Both.Parts.SelectMany(p => p.Bodies.SelectMany(b => b.Moved(j.Places.TryGetValue(p.Id, out var m) ? m : Motion.None).Discs)).Select(d => d.Middle.To(j.Centre)).DefaultIfEmpty(0).Max();

    private IEnumerable<Strip> Held(Point end)
    {
        var j = joint.Joint;
        if (j.Weld == FitWeld.Branch)
        {
            var reach = j.Header * Math.Max(1.6 * j.HeaderOutside, joint.Mark + (0.4 * j.HeaderOutside));
            var axis = j.Centre - (j.Axis * (j.HeaderOutside / 2));
            return [new Strip([axis - reach, axis + reach], j.HeaderOutside / 2, j.HeaderOutside / 2, true)];
        }
        return isBroken
            ? [new Strip([heldEnd, end], j.Outside / 2, j.Outside / 2, true)]
            : j.HeldBodies.SelectMany(b => Of(b, isHeld: true));
    }

    private IEnumerable<Strip> Of(Solid body, bool isHeld)
    {
        switch (body)
        {
            case Solid.Bar c:
                var to = c.To;
                var wide = c.RadiusFrom;
                // A pipe that is brought is shown as a stub.
                if (!isWhole && !isHeld && joint.Joint.New.IsPipe && 4 * wide < c.From.To(c.To))
                    to = c.From.To(joint.Joint.Centre) < c.To.To(joint.Joint.Centre) ? c.From.Toward(c.To, 5 * wide / c.From.To(c.To)) : c.To;
                yield return new([c.From, to], c.RadiusFrom, c.RadiusTo, isHeld);
                break;
            case Solid.Bend b:
                yield return new([.. Enumerable.Range(0, 25).Select(k => b.On(b.Turn * k / 24).At)], b.Radius, b.Radius, isHeld);
                break;
            default:
                throw new InvalidOperationException("The family of bodies is closed.");
        }
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
        if (isBroken)
            DrawBreak();
    }

    // A round face seen at a slant.
    private Shape End(Point centre, Vector normal, double radius)
    {
        var (x, y) = (normal.Dot(right), -normal.Dot(up));
        return Shape.Ellipse(On(centre), radius * scale * Math.Abs(normal.Dot(toward)), radius * scale, Math.Atan2(y, x));
    }

    private void DrawBreak()
    {
        var at = On(heldEnd);
        var angle = at.AngleTo(On(joint.Joint.Centre));
        var r = (joint.Joint.Outside / 2 * scale) + 1;
        var across = angle + (Math.PI / 2);
        canvas.Fill(Shape.Polygon(at.Polar(r, across), at.Polar(-r, across), at.Polar(-r, across).Polar(-r, angle), at.Polar(r, across).Polar(-r, angle)), Ink.White);
        canvas.Stroke(Shape.From(at.Polar(r, across)).CurveTo(at.Polar(r / 2, across).Polar(r / 2, angle), at.Polar(r / 2, across).Polar(r / 4, angle), at).CurveTo(at.Polar(-r / 2, across).Polar(-r / 4, angle), at.Polar(-r / 2, across).Polar(-r / 2, angle), at.Polar(-r, across)), LineStyle.Thin);
    }

    private void DrawClock()
    {
        var j = joint.Joint;
        foreach (var at in StandingJoint.Clock)
        {
            var q = joint.Q(at);
            var rim = j.Centre + (q * (j.Outside / 2));
            var hidden = q.Dot(toward) < 0;
            var (from, to) = (On(rim), On(rim + (q * (j.Outside * 0.16))));
            var away = from.To(to) > 0.5 ? from.AngleTo(to) : -Math.PI / 2;
            canvas.Line(from, to, hidden ? LineStyle.Thin with { Dash = Dash.Dotted } : LineStyle.Thin);
            canvas.Label(at.ToString(CultureInfo.InvariantCulture), to.Polar(3.2, away), TextStyle.Small with { Bold = true, Ink = hidden ? Ink.Grey : default });
            if (!joint.MarkExists(at))
                continue;
            var mark = On(joint.MarkAt(at));
            if (hidden)
                canvas.Circle(mark, 0.8, LineStyle.Thin with { Ink = Ink.Grey });
            else
                canvas.Fill(Shape.Circle(mark, 0.9));
        }
    }

    private void DrawTapes(IReadOnlyList<Target> targets)
    {
        foreach (var target in targets)
        {
            if (target.Reading is not Reading.Tape tape)
                continue;
            var (from, to) = (On(joint.MarkAt(tape.At)), On(joint.Lip(tape.At)));
            var hidden = joint.Q(tape.At).Dot(toward) < 0;
            canvas.Line(from, to, LineStyle.Accent with { Width = 0.5, Dash = hidden ? Dash.Dashed : Dash.Solid });
            canvas.Fill(Shape.Circle(to, 0.8), Ink.Accent);
            // Texts of crossing tapes stand at different shares of their length.
            canvas.Label(string.Create(CultureInfo.InvariantCulture, $"{target.Value:0.0}"), from.Toward(to, tape.At switch { 3 => 0.28, 9 => 0.76, 6 => 0.64, _ => 0.46 }), TextStyle.Small with { Bold = true, Ink = Ink.Accent });
        }
    }

    private void DrawScale(IReadOnlyList<Target> targets)
    {
        if (joint.Joint.Turn.IsStraight)
            return;
        var scales = targets.Where(t => t.Reading is Reading.Scale { Station: > 0 }).ToList();
        if (scales.Count == 0)
            return;
        var j = joint.Joint;
        Point OnPipe(double s) => j.Centre - (j.Axis * s) + (joint.Along * (j.Outside / 2));
        foreach (var target in scales)
        {
            var s = ((Reading.Scale)target.Reading).Station;
            var (foot, top) = (On(OnPipe(s)), On(OnPipe(s) + (joint.Along * target.Value)));
            canvas.Line(foot, top, LineStyle.Thin with { Dash = Dash.Dashed });
            if (target == scales[^1])
                canvas.Label(string.Create(CultureInfo.InvariantCulture, $"{target.Value:0.0}"), foot.Toward(top, 0.6), TextStyle.Small);
        }
        var last = scales[^1];
        var far = OnPipe(((Reading.Scale)last.Reading).Station + (0.15 * j.Outside)) + (joint.Along * (last.Value + (0.15 * j.Outside / Math.Tan(Math.Max(0.2, j.Turn.Turn)))));
        canvas.Line(On(far), On(joint.LipToward(-joint.Along)), LineStyle.Medium with { Dash = Dash.Chain });
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
        foreach (var stand in joint.SetUp.Stands)
        {
            if (isWhole && stand.Kind is SupportKind.Stand or SupportKind.Third)
            {
                var radius = j.Both.Parts.First(p => p.Id == stand.Part).Outside / 2;
                Stand(On(j.Places[stand.Part].Of(stand.At) - (joint.SetUp.Up * radius)));
                continue;
            }

            // Only what is under the part at the weld, and in the picture.
            if (stand.Kind is not (SupportKind.Stand or SupportKind.Third) || stand.Part != j.Held.Id)
                continue;
            var along = (j.Centre - stand.At).Dot(j.Axis);
            if (j.Weld == FitWeld.Branch || along < 0 || along > (j.Centre - heldEnd).Dot(j.Axis))
                continue;
            Stand(On(j.Centre - (j.Axis * along) - (joint.SetUp.Up * (j.Outside / 2))));
        }
    }

    private void Stand(Spot top)
    {
        canvas.Polyline([top.Moved(-3.5, -1.5), top.Moved(0, 1), top.Moved(3.5, -1.5)], LineStyle.Thick);
        canvas.Line(top.Moved(0, 1), top.Moved(0, 6), LineStyle.Thick).Line(top.Moved(-3, 6), top.Moved(3, 6), LineStyle.Thick);
    }

    private void DrawNames(Box box)
    {
        var j = joint.Joint;
        var style = TextStyle.Small with { Bold = true };
        canvas.Text(nameOf(j.Held), On(heldEnd.Toward(j.Centre, 0.3)).Moved(0, 1.2), style with { Height = 3 }, Anchor.Middle);
        canvas.Text(nameOf(j.New), On(j.Places.TryGetValue(j.New.Id, out var motion) ? motion.Of(j.New.Centre) : j.New.Centre).Moved(0, 1.2), style with { Height = 3 }, Anchor.Middle);
        var from = StandingJoint.Clock.MaxBy(at => joint.Q(at).Dot(toward));
        canvas.Text(string.Create(CultureInfo.InvariantCulture, $"seen from {from} o'clock{(isWhole ? "" : "; not to scale along the pipe")}"), box.Left + 1.5, box.Bottom - 1.5, TextStyle.Small with { Ink = Ink.Grey });
    }
}
