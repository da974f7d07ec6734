using Rootgap.FitUp;
using Rootgap.Measure;

namespace Rootgap.Sheets;

/// <summary>The lines of a joint's picture that are measured: tapes from mark to lip, scales held to the pipe.</summary>
internal sealed partial class FitUpPicture
{
    private void DrawLines(IReadOnlyList<Target> targets)
    {
        foreach (var (target, from, to) in Tapes(targets))
        {
            var isHidden = joint.Q(target.Reading.Position!.Value).Dot(toward) < 0;
            var (start, end) = Clipped(from, to);
            Keep(start, end);
            canvas.Line(start, end, LineStyle.Accent with { Width = 0.5, Dash = isHidden ? Dash.Dashed : Dash.Solid });
            // It goes on to what is not shown.
            if (end == to)
                canvas.Fill(Shape.Circle(to, 0.8), Ink.Accent);
            else
                canvas.Arrow(end.Toward(start, Math.Min(1, 4 / Math.Max(1e-9, end.To(start)))), end, LineStyle.Accent, 2);
        }

        var scales = Scales(targets);
        foreach (var (_, foot, top) in scales)
        {
            var (start, end) = Clipped(foot, top);
            canvas.Line(start, end, LineStyle.Thin with { Dash = Dash.Dashed });
        }

        if (scales.Count == 0)
            return;
        var (j, last) = (joint.Joint, scales[^1].Target);
        var far = OnPipe(((Reading.Scale)last.Reading).Station + (0.15 * j.Outside)) + (joint.Along * (last.Value + (0.15 * j.Outside / Math.Tan(Math.Max(0.2, j.Turn.Turn)))));
        var (one, other) = Clipped(On(joint.LipToward(-joint.Along)), On(far));
        canvas.Line(one, other, LineStyle.Medium with { Dash = Dash.Chain });
    }

    // A tape from its mark to the lip; where a pipe is broken off, to the lip of what is shown of it.
    private IEnumerable<(Target Target, Spot From, Spot To)> Tapes(IReadOnlyList<Target> targets)
    {
        var j = joint.Joint;
        foreach (var target in targets.Where(t => t.Reading is Reading.Tape))
        {
            var at = target.Reading.Position!.Value;
            var lip = joint.Lip(at);
            if (!isWhole && j.Far is { } far && j.End == j.New && j.New.IsPipe && strips.Find(s => !s.IsHeld && s.Centres.Count == 2) is { } shown)
                lip += shown.Centres.MaxBy(c => c.To(j.Centre)) - far.Centre;
            yield return (target, On(MarkAt(at)), On(lip));
        }
    }

    // What of a line lies in the picture; of one that lies beside it, nothing but the place in the picture that is nearest to its beginning.
    private (Spot From, Spot To) Clipped(Spot from, Spot to)
    {
        var (x, y, first, last) = (to.X - from.X, to.Y - from.Y, 0.0, 1.0);
        foreach (var (at, by, low, high) in new[] { (from.X, x, area.Left, area.Right), (from.Y, y, area.Top, area.Bottom) })
        {
            if (by == 0)
            {
                if (at < low || high < at)
                    last = -1;
                continue;
            }

            first = Math.Max(first, Math.Min((low - at) / by, (high - at) / by));
            last = Math.Min(last, Math.Max((low - at) / by, (high - at) / by));
        }

        if (first <= last)
            return (first > 0 ? from.Toward(to, first) : from, last < 1 ? from.Toward(to, last) : to);
        var inside = new Spot(Math.Clamp(from.X, area.Left, area.Right), Math.Clamp(from.Y, area.Top, area.Bottom));
        return (inside, inside);
    }

    private Point OnPipe(double station) => joint.Joint.Centre - (joint.Axis * station) + (joint.Along * (joint.Joint.Outside / 2));

    private List<(Target Target, Spot Foot, Spot Top)> Scales(IReadOnlyList<Target> targets) => joint.Joint.Turn.IsStraight ? [] :
    [
        .. targets.Where(t => t.Reading is Reading.Scale { Station: > 0 })
            .Select(t => (t, OnPipe(((Reading.Scale)t.Reading).Station)))
            .Select(t => (t.t, On(t.Item2), On(t.Item2 + (joint.Along * t.t.Value)))),
    ];
}
