namespace Rootgap.Sheets;

/// <summary>A place where words could stand: their middle, turned, with the leader that would lead there and what is wrong with it.</summary>
internal readonly record struct Seat(Spot Centre, double Turn, double Cost, (Spot From, Spot To)? Leader = null);

/// <summary>Finds room for the words of a view: never on other words, never on pipe, rarely on a line. The same words always get the same places.</summary>
/// <param name="paper">Where words may stand.</param>
internal sealed class Lettering(Box paper)
{
    /// <summary>Clear paper round words, and what a crossed line costs, in mm of way.</summary>
    public const double OnLine = 60;

    private const double Clear = 0.45, LeaderOverPipe = 9, LeaderOverLine = 3;

    private readonly List<(Spot[] Room, Box Box)> pipe = [];
    private readonly List<(Spot[] Room, Box Box)> words = [];
    private readonly List<(Spot A, Spot B)> lines = [];

    public void BlockPipe(Spot[] room) => pipe.Add((room, BoxOf(room)));

    public void BlockWords(Spot[] room) => words.Add((room, BoxOf(room)));

    public void BlockLine(Spot a, Spot b) => lines.Add((a, b));

    /// <summary>Takes the best seat for words of a size; null where every one lies on something.</summary>
    /// <param name="most">What a seat may cost at most; less than <see cref="OnLine"/> for one that no line crosses.</param>
    public Seat? Take(double width, double height, IEnumerable<Seat> seats, double most = double.MaxValue)
    {
        Seat? best = null;
        var (least, bestRoom) = (most, Array.Empty<Spot>());
        foreach (var seat in seats)
        {
            if (seat.Cost >= least)
                continue;
            var room = Convex.Slab(seat.Centre, width + (2 * Clear), height + (2 * Clear), seat.Turn);
            var box = BoxOf(room);
            if (!paper.Holds(box) || IsTaken(pipe, room, box) || IsTaken(words, room, box))
                continue;
            var cost = seat.Cost;
            foreach (var (a, b) in lines)
            {
                if (box.Overlaps(BoxOf(a, b), -1e-6) && Convex.Crossed(room, a, b))
                    cost += OnLine;
            }

            if (seat.Leader is { } leader)
            {
                var reach = BoxOf(leader.From, leader.To);
                if (Crosses(words, leader, reach) > 0)
                    continue;
                cost += LeaderOverPipe * Math.Max(0, Crosses(pipe, leader, reach) - 1);
                foreach (var (a, b) in lines)
                    cost += Convex.LinesCross(a, b, leader.From, leader.To) ? LeaderOverLine : 0;
            }

            if (cost < least)
                (best, least, bestRoom) = (seat, cost, room);
        }

        if (best is { } taken)
        {
            BlockWords(bestRoom);
            if (taken.Leader is { } l)
                BlockLine(l.From, l.To);
        }

        return best;
    }

    /// <summary>Whether a line would run through words that stand.</summary>
    public bool RunsThroughWords(Spot a, Spot b) => Crosses(words, (a, b), BoxOf(a, b)) > 0;

    /// <summary>Seats round a place: near ones first, each with a leader from the place where it stands off.</summary>
    /// <param name="gap">How far the words stay off the place at least, mm.</param>
    public static IEnumerable<Seat> Round(Spot at, double width, double height, double gap)
    {
        const int Ways = 24;
        for (var ring = 0; ring < 9; ring++)
        {
            var reach = gap + (ring * 2.2);
            for (var i = 0; i < Ways; i++)
            {
                // Up to the right first.
                var angle = (-Math.PI / 4) + ((i % 2 == 0 ? 1 : -1) * ((i + 1) / 2) * 2 * Math.PI / Ways);
                var (sin, cos) = Math.SinCos(angle);
                var tip = at.Moved(cos * reach, sin * reach);
                // The words' box touches the tip with its side that looks back.
                var centre = tip.Moved(Math.Clamp(cos * 1.6, -1, 1) * width / 2, Math.Clamp(sin * 1.6, -1, 1) * height / 2);
                yield return new(centre, 0, (ring * 2.2) + (i * 0.03), (at, tip));
            }
        }
    }

    private static bool IsTaken(List<(Spot[] Room, Box Box)> taken, Spot[] room, Box box)
    {
        foreach (var (other, otherBox) in taken)
        {
            if (box.Overlaps(otherBox) && Convex.Meet(other, room))
                return true;
        }

        return false;
    }

    private static int Crosses(List<(Spot[] Room, Box Box)> taken, (Spot From, Spot To) leader, Box reach)
    {
        var count = 0;
        foreach (var (room, box) in taken)
        {
            if (box.Overlaps(reach, -1e-6) && Convex.Crossed(room, leader.From, leader.To))
                count++;
        }

        return count;
    }

    private static Box BoxOf(Spot a, Spot b) => new(Math.Min(a.X, b.X), Math.Min(a.Y, b.Y), Math.Abs(a.X - b.X), Math.Abs(a.Y - b.Y));

    private static Box BoxOf(Spot[] room)
    {
        var (left, top, right, bottom) = (double.MaxValue, double.MaxValue, double.MinValue, double.MinValue);
        foreach (var s in room)
            (left, top, right, bottom) = (Math.Min(left, s.X), Math.Min(top, s.Y), Math.Max(right, s.X), Math.Max(bottom, s.Y));
        return new(left, top, right - left, bottom - top);
    }
}
