namespace Rootgap.Sheets;

/// <summary>
/// Names of the marks on a small picture: they wait until all marks stand, and then each takes the nearest place beside its own where it covers no mark, no pipe and no other name, with a leader
/// where that is not close by. What finds none stands at its mark all the same: nothing is left out.
/// </summary>
/// <param name="zone">Where names may stand.</param>
/// <param name="pipes">What they keep clear of and a leader may cross.</param>
internal sealed class NamesBeside(Canvas canvas, Box zone, IReadOnlyList<Slab> pipes)
{
    /// <summary>A name stands so near to its mark without a leader, mm, and is looked for in so many directions round it.</summary>
    private const double Near = 3.5;

    private const int Ways = 16;

    private readonly List<Slab> taken = [];
    private readonly List<(Spot At, string Says, TextStyle Style)> waiting = [];

    /// <summary>No name covers this, mm on paper.</summary>
    public void Keep(Box mark) => taken.Add(new(mark));

    /// <summary>A name for what stands at a place.</summary>
    public void Add(Spot at, string says, TextStyle style) => waiting.Add((at, says, style));

    /// <summary>Writes them all, in the order in which they came.</summary>
    public void Place()
    {
        foreach (var (at, says, style) in waiting)
            Put(at, says, style);
    }

    private void Put(Spot at, string says, TextStyle style)
    {
        var (w, h) = (style.Width(says) + 1, style.Height + 1);
        for (var reach = Near; reach < zone.Width; reach += reach < 10 ? 2 : 4)
        {
            for (var k = 0; k < Ways; k++)
            {
                var (dx, dy) = (Math.Cos(k * 2 * Math.PI / Ways), Math.Sin(k * 2 * Math.PI / Ways));
                var place = new Box(at.X + (dx * reach) + (dx < -0.1 ? -w : dx > 0.1 ? 0 : -w / 2), at.Y + (dy * reach) + (dy < -0.1 ? -h : dy > 0.1 ? 0 : -h / 2), w, h);
                var slab = new Slab(place);
                if (place.X < zone.X || place.Y < zone.Y || place.Right > zone.Right || place.Bottom > zone.Bottom || taken.Any(t => t.Overlaps(slab)) || pipes.Any(p => p.Overlaps(slab)))
                    continue;
                if (reach > Near)
                {
                    var edge = place.Centre.Moved(dx < -0.1 ? w / 2 : dx > 0.1 ? -w / 2 : 0, dy < -0.1 ? h / 2 : dy > 0.1 ? -h / 2 : 0);
                    var begin = at.Polar(2.2, at.AngleTo(edge));
                    var leader = Slab.Along(begin, edge, 0.2);
                    // Its own mark it may touch.
                    if (taken.Any(t => t.Centre.To(at) > 2.5 && t.Overlaps(leader)))
                        continue;
                    canvas.Line(begin, edge, LineStyle.Thin);
                    taken.Add(leader);
                }

                taken.Add(slab);
                canvas.Text(says, new Spot(place.X + 0.5, place.Y + h - 0.5), style);
                return;
            }
        }

        canvas.Text(says, at.Moved(3, -3), style);
    }
}
