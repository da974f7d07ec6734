using System.Globalization;
using Rootgap.FitUp;

namespace Rootgap.Sheets;

/// <summary>The words of a joint's picture: clock, names, figures and from where it is seen, each where it lies on no other.</summary>
internal sealed partial class FitUpPicture
{
    private readonly List<(string Name, Spot Foot)> feet = [];
    private readonly List<Box> written = [];

    // Along the tapes: clock and names keep off them, a tape's own figure lies on it.
    private readonly List<Box> taped = [];

    private void Keep(Spot from, Spot to)
    {
        const double Step = 1.5;
        var count = (int)(from.To(to) / Step) + 1;
        taped.AddRange(Enumerable.Range(0, count + 1).Select(i => from.Toward(to, (double)i / count)).Select(s => new Box(s.X - 0.4, s.Y - 0.4, 0.8, 0.8)));
    }
    private Box area;

    // A word at the first of some places where it lies on no other; left out where there is none and it stands in the table anyhow.
    private void Write(string text, TextStyle style, IEnumerable<Spot> places, bool mustStand = false, bool isOnTape = false)
    {
        var all = places.ToList();
        bool IsFree(Box box) => !written.Exists(w => w.Overlaps(box)) && (isOnTape || !taped.Exists(t => t.Overlaps(box)));
        Box At(Spot p) => new(p.X - (style.Width(text) / 2) - 0.5, p.Y - (style.Height / 2) - 0.5, style.Width(text) + 1, style.Height + 1);
        // In the picture and nowhere else: beside it stand words that must be read.
        Spot In(Spot p) => new(Math.Clamp(p.X, area.Left + (At(p).Width / 2), area.Right - (At(p).Width / 2)), Math.Clamp(p.Y, area.Top + (At(p).Height / 2), area.Bottom - (At(p).Height / 2)));
        var free = all.FindIndex(p => area.Holds(At(p)) && IsFree(At(p)));
        if (free < 0 && !mustStand)
            return;
        if (free < 0)
        {
            // Wherever in the picture it is free, the nearest first.
            var near = In(all[0]);
            all = [.. from x in Enumerable.Range(0, (int)(area.Width / 2)) from y in Enumerable.Range(0, (int)(area.Height / 2)) let p = In(new(area.Left + (2 * x), area.Top + (2 * y))) orderby p.To(near) select p];
            free = all.FindIndex(p => IsFree(At(p)));
        }

        var spot = In(all[Math.Max(0, free)]);
        written.Add(At(spot));
        canvas.Label(text, spot, style);
    }

    private void DrawClock()
    {
        var j = joint.Joint;
        foreach (var at in StandingJoint.Clock.OrderBy(at => joint.Q(at).Dot(toward) < 0 ? 1 : 0))
        {
            var q = joint.Q(at);
            var (from, to) = (On(j.Centre + (q * (j.Outside / 2))), On(j.Centre + (q * (j.Outside * 0.66))));
            var away = from.To(to) > 0.5 ? from.AngleTo(to) : -Math.PI / 2;
            Write(at.ToString(CultureInfo.InvariantCulture), TextStyle.Small with { Bold = q.Dot(toward) >= 0 },
                from p in (double[])[3.2, 5, 7] from turn in (double[])[0, 0.5, -0.5, 1, -1] select to.Polar(p, away + turn), mustStand: true);
        }
    }

    private static readonly double[] Shares = [0.46, 0.6, 0.32, 0.74, 0.2, 0.86];

    private void DrawFigures(IReadOnlyList<Target> targets)
    {
        foreach (var (target, from, to) in Tapes(targets))
            Write(words.Printed(target.Reading, target.Value), TextStyle.Small with { Bold = true, Ink = Ink.Accent }, Along(from, to), isOnTape: true);
        foreach (var (target, foot, top) in Scales(targets).TakeLast(1))
            Write(words.Printed(target.Reading, target.Value), TextStyle.Small, Along(foot, top));

        IEnumerable<Spot> Along(Spot from, Spot to) => Clipped(from, to) is var (start, end) ? Shares.Select(s => start.Toward(end, s)) : [];
    }

    private void DrawNames()
    {
        foreach (var (name, foot) in feet)
            Write(name, TextStyle.Small, [foot.Moved(-6, -1), foot.Moved(6, -1), foot.Moved(-6, -4), foot.Moved(6, -4)]);
        var j = joint.Joint;
        var style = TextStyle.Small with { Bold = true, Height = 3 };
        // Of a pipe that is shown as a stub, the stub's middle.
        var shown = strips.Where(s => !s.IsHeld && s.Centres.Count == 2).ToList();
        var centre = On(!isWhole && j.New.IsPipe && shown.Count > 0 ? shown[0].Centres[0].Toward(shown[0].Centres[1], 0.5) : j.Places.TryGetValue(j.New.Id, out var motion) ? motion.Of(j.New.Centre) : j.New.Centre);
        Write(j.New.Label, style, Around(centre), mustStand: true);
        Write(j.Held.Label, style, ((double[])[0.3, 0.15, 0.5, 0]).SelectMany(s => Around(On(heldEnd.Toward(j.Centre, s)))), mustStand: true);

        static IEnumerable<Spot> Around(Spot p) => [p, p.Moved(0, -5), p.Moved(0, 5), p.Moved(-8, 0), p.Moved(8, 0)];
    }

    // In as many lines as the picture is narrow.
    private IReadOnlyList<string> Says(Box box)
    {
        var from = StandingJoint.Clock.MaxBy(at => joint.Q(at).Dot(toward));
        return TextStyle.Small.Wrap(string.Create(CultureInfo.InvariantCulture, $"from {from} o'clock{(breaks.Count > 0 ? ", broken off" : isWhole ? "" : ", the weld alone")}"), box.Width - 3);
    }

    // The last line at the picture's foot.
    private void DrawView(Box box)
    {
        var lines = Says(box);
        for (var i = 0; i < lines.Count; i++)
        {
            var at = new Spot(box.Left + 1.5, box.Bottom - 1.5 - ((lines.Count - 1 - i) * TextStyle.Small.Pitch));
            canvas.Text(lines[i], at, TextStyle.Small);
            written.Add(new(at.X, at.Y - TextStyle.Small.Height - 0.5, TextStyle.Small.Width(lines[i]), TextStyle.Small.Height + 1));
        }
    }
}
