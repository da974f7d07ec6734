using System.Globalization;
using Rootgap.Measure;

namespace Rootgap.Sheets;

/// <summary>Dimensions of a view: a chain from station to station and the length over all below it and at its left, and true lengths along legs that lie askew.</summary>
internal sealed class DimensionChains(Canvas canvas, Lettering letters, Units units, List<string> unplaced)
{
    private const double Head = 2.4, FirstChain = 8, OverAll = 21, OverAllNear = 14.5, OverAllOnly = 8, SameStation = 0.05;

    private static readonly TextStyle Style = TextStyle.Small;

    private readonly record struct Stop(double Real, Spot At);

    /// <summary>Dimensions across the paper, below the picture.</summary>
    /// <param name="stations">How far to the right each station lies, real mm, and where it is on paper.</param>
    public void Across(IReadOnlyList<(double Real, Spot At)> stations, double bottom, bool isChain, string view) =>
        Chain(Stops(stations, s => -s.Y), isChain, view, "below", (s, off) => new(s.X, bottom + off), Math.PI / 2);

    /// <summary>Dimensions up the paper, at the left of the picture.</summary>
    public void Up(IReadOnlyList<(double Real, Spot At)> stations, double left, bool isChain, string view) =>
        Chain(Stops(stations, s => s.X), isChain, view, "at the left", (s, off) => new(left - off, s.Y), Math.PI);

    /// <summary>The true length of a leg that lies askew on paper, along it.</summary>
    public void Along(Spot a, Spot b, double length, string view)
    {
        var figure = LengthText.In(units, length);
        var text = Fits(a, b, figure + " true") ? figure + " true" : figure;
        var width = Style.Width(text);
        var along = a.AngleTo(b);
        var turn = SpoolView.Upright(along);
        var seats = new List<Seat>();
        var offsets = new[] { 6, -6, 9, -9, 13, -13, 18, -18, 24, -24.0 };
        foreach (var off in offsets)
        {
            foreach (var t in new[] { 0.5, 0.3, 0.7 })
                seats.Add(new(a.Toward(b, t).Polar(off, along + (Math.PI / 2)).Polar(-0.9 - (Style.Height / 2), turn + (Math.PI / 2)), turn, Math.Abs(off) + Math.Abs(t - 0.5)));
        }

        if (letters.Take(width, Style.Height, seats) is not { } seat)
        {
            unplaced.Add($"{view}: a leg askew, {text}");
            return;
        }

        var chosen = offsets[seats.IndexOf(seat) / 3];
        var (p, q) = (a.Polar(chosen, along + (Math.PI / 2)), b.Polar(chosen, along + (Math.PI / 2)));
        Line(p, q);
        foreach (var (from, to) in new[] { (a, p), (b, q) })
            Thin(from.Toward(to, 1 / from.To(to)), from.Toward(to, 1 + (1.2 / from.To(to))));
        Write(text, seat);
    }

    /// <summary>Stations at the same distance are one: the one nearest to the chain carries the extension line.</summary>
    private static List<Stop> Stops(IReadOnlyList<(double Real, Spot At)> stations, Func<Spot, double> farness)
    {
        var stops = new List<Stop>();
        foreach (var (distance, at) in stations.OrderBy(s => s.Real).ThenBy(s => farness(s.At)))
        {
            if (stops.Count == 0 || distance - stops[^1].Real > SameStation)
                stops.Add(new(distance, at));
        }

        return stops;
    }

    private void Chain(List<Stop> stops, bool isChain, string view, string side, Func<Spot, double, Spot> on, double away)
    {
        if (stops.Count < 2)
            return;
        var hasChain = isChain && stops.Count > 2;
        var gaps = Enumerable.Range(0, stops.Count - 1).Select(i => (From: on(stops[i].At, FirstChain), To: on(stops[i + 1].At, FirstChain), Text: LengthText.In(units, stops[i + 1].Real - stops[i].Real), Number: i + 1)).ToList();
        // Figures that don't fit on their line stand in rows beyond it.
        var far = !hasChain ? OverAllOnly : gaps.TrueForAll(g => Fits(g.From, g.To, g.Text)) ? OverAllNear : OverAll;
        // The length over all first: its figure has the whole line to itself.
        Line(on(stops[0].At, far), on(stops[^1].At, far));
        foreach (var (stop, i) in stops.Select((s, i) => (s, i)))
        {
            if (i > 0 && i < stops.Count - 1 && !hasChain)
                continue;
            var reach = i == 0 || i == stops.Count - 1 ? far : FirstChain;
            var (from, to) = (stop.At.Polar(1, away), on(stop.At, reach + 1.2));
            Thin(from, to);
        }

        if (hasChain)
        {
            for (var i = 0; i + 1 < stops.Count; i++)
                Line(on(stops[i].At, FirstChain), on(stops[i + 1].At, FirstChain));
        }

        Figure(on(stops[0].At, far), on(stops[^1].At, far), LengthText.In(units, stops[^1].Real - stops[0].Real) + (hasChain ? " over all" : ""), away, $"{view}, {side}, over all", rows: 2);
        if (!hasChain)
            return;
        // Figures that fit between their arrows first, so that the others can keep away from them.
        foreach (var gap in gaps.OrderBy(g => Fits(g.From, g.To, g.Text) ? 0 : 1).ThenBy(g => g.Number))
            Figure(gap.From, gap.To, gap.Text, away, string.Create(CultureInfo.InvariantCulture, $"{view}, {side}, stretch {gap.Number}"), rows: 3);
    }

    private static bool Fits(Spot p, Spot q, string text) => p.To(q) > Style.Width(text) + 1.2;

    /// <summary>The figure of a dimension: on its line where it fits between the ends, otherwise beside it with a leader.</summary>
    private void Figure(Spot p, Spot q, string text, double away, string where, int rows)
    {
        var width = Style.Width(text);
        var turn = SpoolView.Upright(p.AngleTo(q));
        var middle = p.Toward(q, 0.5);
        var seats = new List<Seat>();
        // Above the line, as it is read.
        if (Fits(p, q, text))
            seats.Add(new(middle.Polar(-0.8 - (Style.Height / 2), turn + (Math.PI / 2)), turn, 0));
        for (var row = 0; row < rows; row++)
        {
            var centre = middle.Polar(1.6 + (Style.Height / 2) + (row * 3.9), away);
            for (var step = 0; step <= 16; step++)
            {
                var shift = (step + 1) / 2 * (step % 2 == 0 ? 1.5 : -1.5);
                var seat = centre.Polar(shift, turn);
                // The leader ends at the words' edge, over their middle or as near to it as the stretch lies.
                var edge = seat.Polar(-0.2 - (Style.Height / 2), away).Polar(Math.Clamp(-shift, -width / 2, width / 2), turn);
                seats.Add(new(seat, turn, 2 + (row * 2) + Math.Abs(shift * 0.3), (middle, edge)));
            }
        }

        if (letters.Take(width, Style.Height, seats) is not { } taken)
        {
            unplaced.Add($"{where}: {text}");
            return;
        }

        if (taken.Leader is { } leader)
            canvas.Line(leader.From, leader.To, LineStyle.Thin with { Width = 0.18 });
        Write(text, taken);
    }

    /// <summary>A dimension line with arrowheads, or with dots where there is no room for them.</summary>
    private void Line(Spot p, Spot q)
    {
        letters.BlockLine(p, q);
        canvas.Line(p, q, LineStyle.Thin);
        var along = p.AngleTo(q);
        if (p.To(q) > (2 * Head) + 0.6)
            canvas.Arrowhead(p, along + Math.PI, Head).Arrowhead(q, along, Head);
        else
            canvas.Fill(Shape.Circle(p, 0.45)).Fill(Shape.Circle(q, 0.45));
    }

    private void Thin(Spot from, Spot to)
    {
        letters.BlockLine(from, to);
        canvas.Line(from, to, LineStyle.Thin with { Width = 0.18 });
    }

    private void Write(string text, Seat seat) =>
        canvas.Text(text, seat.Centre.Polar(Style.Height / 2, seat.Turn + (Math.PI / 2)), Style, Anchor.Middle, seat.Turn, @class: "dimension");
}
