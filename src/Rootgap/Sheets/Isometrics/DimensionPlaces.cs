using Rootgap.Measure;

namespace Rootgap.Sheets;

/// <summary>Places for a dimension: its line parallel to the leg, moved along one of the other axes, so that it lies in a plane of the isometric.</summary>
/// <param name="offA">How far extension lines stay off the first end, mm: more where a symbol stands there.</param>
internal sealed class DimensionPlaces(Spot a, Spot b, double offA, double offB, string text, IsometricView view, Spot middle)
{
    private const double Head = 2.4, Over = 1.2, Rise = 0.8;

    private static readonly double[] Distances = [7, 10.5, 14, 18, 23, 29];

    public static readonly TextStyle Style = TextStyle.Small;

    private readonly double along = a.AngleTo(b);
    private readonly double length = a.To(b);
    private readonly double width = Style.Width(text);

    /// <summary>The angle at which words along a line can be read from below or from the right.</summary>
    public static double Upright(double angle)
    {
        var turn = Math.IEEERemainder(angle, Math.PI);
        return turn >= (Math.PI / 2) - 1e-6 ? turn - Math.PI : turn;
    }

    public IEnumerable<Candidate> All()
    {
        var turn = Upright(along);
        var up = new Spot(Math.Sin(turn), -Math.Cos(turn));
        var (ux, uy) = (Math.Cos(along), Math.Sin(along));
        var ways = Ways(ux, uy);
        for (var d = 0; d < Distances.Length; d++)
        {
            for (var w = 0; w < ways.Count; w++)
            {
                var (way, sine, dear) = ways[w];
                var reach = Distances[d] / sine;
                var (p, q) = (a.Moved(way.X * reach, way.Y * reach), b.Moved(way.X * reach, way.Y * reach));
                var cost = (d * 1.6) + dear;
                // Words that are longer than the line stand beside it, on the line drawn on.
                var isShort = length < width + 1.5;
                var shelf = length < (2 * Head) + 1 ? 4.5 : 0;
                for (var place = 0; place < 3; place++)
                {
                    if (place == 0 && isShort)
                        continue;
                    if (place > 0 && !isShort && length < width + 8)
                        break;
                    var shift = place == 0 ? 0 : isShort ? (length / 2) + 2 + (width / 2) : (length - width - 2) / 2;
                    if (place == 1)
                        shift = -shift;
                    var centre = p.Toward(q, 0.5).Moved((ux * shift) + (up.X * (Rise + 1.25)), (uy * shift) + (up.Y * (Rise + 1.25)));
                    var beyond = isShort && place > 0 ? 2 + width : shelf;
                    var from = p.Moved(-ux * (place == 1 ? beyond : shelf), -uy * (place == 1 ? beyond : shelf));
                    var to = q.Moved(ux * (place == 2 ? beyond : shelf), uy * (place == 2 ? beyond : shelf));
                    yield return new(
                        cost + (place == 0 ? 0 : 1.2),
                        [new(centre, (width / 2) + 0.2, 1.3, turn)],
                        [(from, to), (a.Moved(way.X * offA, way.Y * offA), p.Moved(way.X * Over, way.Y * Over)), (b.Moved(way.X * offB, way.Y * offB), q.Moved(way.X * Over, way.Y * Over))],
                        0);
                }
            }
        }

        // Where no dimension line finds room, the figure stands at a leader.
        foreach (var candidate in new TagBlock([[new Tag(text, Frame.None)]]).Round([a.Toward(b, 0.5), a.Toward(b, 0.3), a.Toward(b, 0.7)], 0.9))
            yield return candidate with { Cost = candidate.Cost + 75, Choice = 1 };
    }

    public void Draw(Canvas canvas, Candidate at)
    {
        if (at.Choice == 1)
        {
            new TagBlock([[new Tag(text, Frame.None)]]).Draw(canvas, at, arrow: true);
            return;
        }

        foreach (var (from, to) in at.Lines)
            canvas.Line(from, to, LineStyle.Thin);
        var (p, q) = (Foot(at.Lines[1].B), Foot(at.Lines[2].B));
        var outside = length < (2 * Head) + 1;
        canvas.Arrowhead(p, outside ? along : along + Math.PI, Head).Arrowhead(q, outside ? along + Math.PI : along, Head);
        var words = at.Words[0];
        canvas.Text(text, words.Centre.Polar(1.25, words.Turn + (Math.PI / 2)), Style, Anchor.Middle, words.Turn);

        // The extension line goes on over the dimension line: back from its tip to where the two meet.
        Spot Foot(Spot tip)
        {
            var line = at.Lines[0];
            var start = tip == at.Lines[1].B ? at.Lines[1].A : at.Lines[2].A;
            var cross = Strokes.Crossing(line.A, line.B, start, tip);
            return cross is { } c ? line.A.Toward(line.B, c.First) : tip;
        }
    }

    private List<(Spot Way, double Sine, double Dear)> Ways(double ux, double uy)
    {
        var ways = new List<(Spot, double, double)>();
        var centre = a.Toward(b, 0.5);
        var (ox, oy) = (centre.X - middle.X, centre.Y - middle.Y);
        void Add(Spot way, double dear)
        {
            var size = default(Spot).To(way);
            var (x, y) = (way.X / size, way.Y / size);
            var sine = Math.Abs((ux * y) - (uy * x));
            if (sine < 0.45)
                return;
            // Outward is better: the middle of the sheet is full.
            var inward = (x * ox) + (y * oy) < 0 ? 1.5 : 0;
            ways.Add((new(x, y), sine, dear + inward));
        }

        foreach (var axis in new[] { Vector.Up, Vector.East, Vector.North })
        {
            var way = view.Of(axis);
            Add(way, 0);
            Add(new(-way.X, -way.Y), 0);
        }

        // Square to the leg on paper where neither axis is free; a skew leg has no plane of its own anyway.
        var square = ways.Count < 4 ? 1 : 7;
        Add(new(-uy, ux), square);
        Add(new(uy, -ux), square);

        return [.. ways.OrderBy(x => x.Item3)];
    }
}
