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
    private readonly FitWords words;
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

    private FitUpPicture(Canvas canvas, StandingJoint joint, Func<FitPart, string> nameOf, FitWords words)
    {
        (this.canvas, this.joint, this.nameOf, this.words) = (canvas, joint, nameOf, words);
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

    public static void Draw(Canvas canvas, Box box, StandingJoint joint, IReadOnlyList<Target> targets, Func<FitPart, string> nameOf, FitWords words)
    {
        var picture = new FitUpPicture(canvas, joint, nameOf, words) { area = box.Inset(0.5) };
        // Below stand the stands' feet and the line that says from where it is seen.
        picture.FitInto(box.Inset(Label + 1).CutBottom(4).Remainder);
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

    private readonly List<Box> written = [];
    private Box area;

    // A word at the first of some places where it lies on no other; left out where there is none and it stands in the table anyhow.
    private void Write(string text, TextStyle style, IEnumerable<Spot> places, bool mustStand = false)
    {
        var all = places.ToList();
        Box At(Spot p) => new(p.X - (style.Width(text) / 2) - 0.5, p.Y - (style.Height / 2) - 0.5, style.Width(text) + 1, style.Height + 1);
        // In the picture and nowhere else: beside it stand words that must be read.
        Spot In(Spot p) => new(Math.Clamp(p.X, area.Left + (At(p).Width / 2), area.Right - (At(p).Width / 2)), Math.Clamp(p.Y, area.Top + (At(p).Height / 2), area.Bottom - (At(p).Height / 2)));
        var free = all.FindIndex(p => area.Holds(At(p)) && !written.Exists(w => w.Overlaps(At(p))));
        if (free < 0 && !mustStand)
            return;
        if (free < 0)
        {
            // Wherever in the picture it is free, the nearest first.
            var near = In(all[0]);
            all = [.. from x in Enumerable.Range(0, (int)(area.Width / 2)) from y in Enumerable.Range(0, (int)(area.Height / 2)) let p = In(new(area.Left + (2 * x), area.Top + (2 * y))) orderby p.To(near) select p];
            free = all.FindIndex(p => !written.Exists(w => w.Overlaps(At(p))));
        }

        var spot = In(all[Math.Max(0, free)]);
        written.Add(At(spot));
        canvas.Label(text, spot, style);
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
            var mark = On(joint.MarkAt(at));
            if (hidden)
                canvas.Circle(mark, 0.8, LineStyle.Thin with { Ink = Ink.Grey });
            else
                canvas.Fill(Shape.Circle(mark, 0.9));
        }
    }

    private void DrawClock()
    {
        var j = joint.Joint;
        foreach (var at in StandingJoint.Clock.OrderBy(at => joint.Q(at).Dot(toward) < 0 ? 1 : 0))
        {
            var q = joint.Q(at);
            var (from, to) = (On(j.Centre + (q * (j.Outside / 2))), On(j.Centre + (q * (j.Outside * 0.66))));
            var away = from.To(to) > 0.5 ? from.AngleTo(to) : -Math.PI / 2;
            Write(at.ToString(CultureInfo.InvariantCulture), TextStyle.Small with { Bold = true, Ink = q.Dot(toward) < 0 ? Ink.Grey : default },
                from p in (double[])[3.2, 5, 7] from turn in (double[])[0, 0.5, -0.5, 1, -1] select to.Polar(p, away + turn), mustStand: true);
        }
    }

    private void DrawLines(IReadOnlyList<Target> targets)
    {
        foreach (var tape in targets.Select(t => t.Reading).OfType<Reading.Tape>())
        {
            var (from, to) = (On(joint.MarkAt(tape.At)), On(joint.Lip(tape.At)));
            canvas.Line(from, to, LineStyle.Accent with { Width = 0.5, Dash = joint.Q(tape.At).Dot(toward) < 0 ? Dash.Dashed : Dash.Solid });
            canvas.Fill(Shape.Circle(to, 0.8), Ink.Accent);
        }

        var scales = Scales(targets);
        foreach (var (_, foot, top) in scales)
            canvas.Line(foot, top, LineStyle.Thin with { Dash = Dash.Dashed });
        if (scales.Count == 0)
            return;
        var (j, last) = (joint.Joint, scales[^1].Target);
        var far = OnPipe(((Reading.Scale)last.Reading).Station + (0.15 * j.Outside)) + (joint.Along * (last.Value + (0.15 * j.Outside / Math.Tan(Math.Max(0.2, j.Turn.Turn)))));
        canvas.Line(On(far), On(joint.LipToward(-joint.Along)), LineStyle.Medium with { Dash = Dash.Chain });
    }

    private Point OnPipe(double station) => joint.Joint.Centre - (joint.Axis * station) + (joint.Along * (joint.Joint.Outside / 2));

    private List<(Target Target, Spot Foot, Spot Top)> Scales(IReadOnlyList<Target> targets) => joint.Joint.Turn.IsStraight ? [] :
    [
        .. targets.Where(t => t.Reading is Reading.Scale { Station: > 0 })
            .Select(t => (t, OnPipe(((Reading.Scale)t.Reading).Station)))
            .Select(t => (t.t, On(t.Item2), On(t.Item2 + (joint.Along * t.t.Value)))),
    ];

    private static readonly double[] Shares = [0.46, 0.6, 0.32, 0.74, 0.2, 0.86];

    private void DrawFigures(IReadOnlyList<Target> targets)
    {
        foreach (var target in targets)
        {
            if (target.Reading is not Reading.Tape tape)
                continue;
            var (from, to) = (On(joint.MarkAt(tape.At)), On(joint.Lip(tape.At)));
            Write(words.Show(target.Reading, target.Value), TextStyle.Small with { Bold = true, Ink = Ink.Accent }, Shares.Select(s => from.Toward(to, s)));
        }

        foreach (var (target, foot, top) in Scales(targets).TakeLast(1))
            Write(words.Show(target.Reading, target.Value), TextStyle.Small, Shares.Select(s => foot.Toward(top, s)));
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

    private void DrawNames()
    {
        var j = joint.Joint;
        var style = TextStyle.Small with { Bold = true, Height = 3 };
        // Of a pipe that is shown as a stub, the stub's middle.
        var stub = strips.Where(s => !s.IsHeld && s.Centres.Count == 2).ToList();
        var centre = On(!isWhole && j.New.IsPipe && stub.Count > 0 ? stub[0].Centres[0].Toward(stub[0].Centres[1], 0.5) : j.Places.TryGetValue(j.New.Id, out var motion) ? motion.Of(j.New.Centre) : j.New.Centre);
        Write(nameOf(j.New), style, Around(centre), mustStand: true);
        Write(nameOf(j.Held), style, ((double[])[0.3, 0.15, 0.5, 0]).SelectMany(s => Around(On(heldEnd.Toward(j.Centre, s)))), mustStand: true);

        static IEnumerable<Spot> Around(Spot p) => [p, p.Moved(0, -5), p.Moved(0, 5), p.Moved(-8, 0), p.Moved(8, 0)];
    }

    private void DrawView(Box box)
    {
        var from = StandingJoint.Clock.MaxBy(at => joint.Q(at).Dot(toward));
        var text = string.Create(CultureInfo.InvariantCulture, $"seen from {from} o'clock{(isWhole ? "" : "; not to scale along the pipe")}");
        var at = new Spot(box.Left + 1.5, box.Bottom - 1.5);
        canvas.Text(text, at, TextStyle.Small with { Ink = Ink.Grey });
        written.Add(new(at.X, at.Y - TextStyle.Small.Height - 0.5, TextStyle.Small.Width(text), TextStyle.Small.Height + 1));
    }
}
