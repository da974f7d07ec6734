using System.Globalization;
using Rootgap.Measure;

namespace Rootgap.Sheets;

/// <summary>A place that is dimensioned in one direction.</summary>
/// <param name="Real">How far along it lies, real mm.</param>
/// <param name="At">Where it is on paper; of several at the same distance the one nearest to the figures.</param>
/// <param name="IsTouched">It can be touched: a face or an end. An axis cannot, and its figure stands in brackets.</param>
internal readonly record struct Stop(double Real, Spot At, bool IsTouched);

/// <summary>A row of the check table along one direction: between which distances it is read there, real mm, and what it says.</summary>
internal readonly record struct CheckedLength(double From, double To, CheckMark Mark)
{
    private const double Same = 0.3;

    /// <summary>Whether it is read between two places.</summary>
    public bool IsBetween(double one, double other) => (Math.Abs(From - one) < Same && Math.Abs(To - other) < Same) || (Math.Abs(From - other) < Same && Math.Abs(To - one) < Same);
}

/// <summary>Dimensions that run from one datum along one line, below a view and at its left: no chain, so that no error adds up.</summary>
internal sealed class RunningDimensions(Canvas canvas, Lettering letters, Units units, HashSet<string> named)
{
    private const double Line = 7, Beyond = 1, Knee = 3, Clear = 0.8, Pitch = 3.9, SameStop = 0.05, Head = 2.6, Datum = 0.9;

    /// <summary>Nearer to the datum than this an oblique stroke ends the dimension (ISO 129-1), and not an arrowhead longer than its line.</summary>
    private const double LeastArrow = 2.1, Tick = 1.2, StrokeAngle = -Math.PI / 4;

    private static readonly TextStyle Style = TextStyle.Small with { Bold = true };

    /// <summary>A length as a tape reads it: to half a millimetre or a sixteenth.</summary>
    public static string Figure(Units units, double mm) =>
        units == Units.Inches ? LengthText.FeetInches(mm) : (LengthText.Rounded(mm * 2, 0) / 2).ToString("0.#", CultureInfo.InvariantCulture);

    /// <summary>Paper that the figures need beside the picture, mm.</summary>
    public static double Room(Units units, IReadOnlyList<Stop> stops, IReadOnlyList<CheckedLength> checks) => stops.Count < 2 ? 0 : Line + Beyond + Knee + Clear + Said(units, stops, checks).Max(s => Style.Width(s.Text)) + 0.5;

    /// <summary>Paper that they need along it, mm.</summary>
    public static double Along(IReadOnlyList<Stop> stops) => stops.Count * Pitch;

    /// <summary>Places at the same distance are one.</summary>
    /// <param name="farness">How far a place on paper is from the figures.</param>
    public static IReadOnlyList<Stop> Stops(IEnumerable<Stop> all, Func<Spot, double> farness)
    {
        List<Stop> stops = [];
        foreach (var stop in all.OrderBy(s => s.Real).ThenBy(s => farness(s.At)))
        {
            if (stops.Count > 0 && stop.Real - stops[^1].Real < SameStop)
                stops[^1] = stops[^1] with { IsTouched = stops[^1].IsTouched || stop.IsTouched };
            else
                stops.Add(stop);
        }

        return stops;
    }

    /// <summary>Below the picture: figures turned, read from the right.</summary>
    public void Across(IReadOnlyList<Stop> stops, IReadOnlyList<CheckedLength> checks, double bottom)
    {
        if (stops.Count < 2)
            return;
        var y = bottom + Line;
        Draw(stops, checks, s => new(s.X, y), new(0, 1), Spread([.. stops.Select(s => s.At.X)]), (place, text) =>
        {
            var (top, width) = (y + Beyond + Knee + Clear, Style.Width(text));
            letters.BlockWords(Convex.Slab(new(place, top + (width / 2)), Style.Height + 0.6, width + 0.6, 0));
            canvas.Text(text, new(place + (Style.Height / 2), top), Style, Anchor.End, -Math.PI / 2, @class: "dimension");
            return new(place, y + Beyond + Knee);
        });
    }

    /// <summary>At the left of the picture.</summary>
    public void Up(IReadOnlyList<Stop> stops, IReadOnlyList<CheckedLength> checks, double left)
    {
        if (stops.Count < 2)
            return;
        var x = left - Line;
        Draw(stops, checks, s => new(x, s.Y), new(-1, 0), Spread([.. stops.Select(s => s.At.Y)]), (place, text) =>
        {
            var (right, width) = (x - Beyond - Knee - Clear, Style.Width(text));
            letters.BlockWords(Convex.Slab(new(right - (width / 2), place), width + 0.6, Style.Height + 0.6, 0));
            canvas.Text(text, new(right, place + (Style.Height / 2)), Style, Anchor.End, 0, @class: "dimension");
            return new(x - Beyond - Knee, place);
        });
    }

    private void Draw(IReadOnlyList<Stop> stops, IReadOnlyList<CheckedLength> checks, Func<Spot, Spot> onLine, Spot away, double[] places, Func<double, string, Spot> write)
    {
        var (first, last) = (onLine(stops[0].At), onLine(stops[^1].At));
        letters.BlockLine(first, last);
        canvas.Line(first, last, LineStyle.Thin);
        var said = Said(units, stops, checks);
        named.UnionWith(said.Select(s => s.Letter).Where(l => l.Length > 0));
        var datum = onLine(said.First(s => s.IsDatum).Stop.At);
        for (var i = 0; i < stops.Count; i++)
        {
            var at = onLine(stops[i].At);
            var end = at.Moved(away.X * Beyond, away.Y * Beyond);
            var knee = write(places[i], said[i].Text);
            foreach (var (from, to) in new[] { (stops[i].At.Moved(away.X, away.Y), end), (end, knee) })
            {
                letters.BlockLine(from, to);
                canvas.Line(from, to, LineStyle.Thin);
            }

            if (said[i].IsDatum)
                canvas.Fill(Shape.Circle(at, Datum), Ink.White).Circle(at, Datum, LineStyle.Thin);
            else if (datum.To(at) > LeastArrow)
                canvas.Arrowhead(at, datum.AngleTo(at), Math.Min(Head, datum.To(at) - Datum));
            else
                canvas.Line(at.Polar(-Tick, StrokeAngle), at.Polar(Tick, StrokeAngle), LineStyle.Thin);
        }
    }

    /// <summary>The figures, from the datum: an end that can be touched, the first or the last where one of these can. What a row of the check table reads between the same places bears its letter.</summary>
    private static List<(Stop Stop, string Text, bool IsDatum, string Letter)> Said(Units units, IReadOnlyList<Stop> stops, IReadOnlyList<CheckedLength> checks)
    {
        var datum = stops[0].IsTouched ? stops[0] : stops[^1].IsTouched ? stops[^1] : stops.FirstOrDefault(s => s.IsTouched, stops[0]);
        return [.. stops.Select(s =>
        {
            var figure = Figure(units, Math.Abs(s.Real - datum.Real));
            if (s == datum)
                return (s, "0", true, "");
            if (!s.IsTouched)
                return (s, $"({figure})", false, "");
            var row = checks.FirstOrDefault(c => c.IsBetween(datum.Real, s.Real) && c.Mark.Target == figure).Mark;
            return (s, row?.Text ?? figure, false, row?.Letter ?? "");
        })];
    }

    /// <summary>Places as near to the wished ones as they can be at least a pitch apart, in the same order (wishes rise or fall throughout).</summary>
    internal static double[] Spread(double[] wished)
    {
        var falls = wished.Length > 1 && wished[^1] < wished[0];
        // Neighbours that are too near make a group about the middle of their wishes; groups that meet join.
        List<(double Sum, int Count)> groups = [];
        foreach (var (wish, i) in wished.Select((w, i) => (falls ? -w : w, i)))
        {
            groups.Add((wish - (i * Pitch), 1));
            while (groups.Count > 1 && groups[^2].Sum / groups[^2].Count >= groups[^1].Sum / groups[^1].Count)
            {
                var (a, b) = (groups[^2], groups[^1]);
                groups.RemoveRange(groups.Count - 2, 2);
                groups.Add((a.Sum + b.Sum, a.Count + b.Count));
            }
        }

        List<double> places = [];
        foreach (var (sum, count) in groups)
        {
            for (var k = 0; k < count; k++)
                places.Add((sum / count) + (places.Count * Pitch));
        }

        return [.. places.Select(p => falls ? -p : p)];
    }
}
