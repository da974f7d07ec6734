namespace Rootgap.Sheets;

/// <summary>What stands on a sheet already, for those who look for room.</summary>
internal enum Occupant
{
    /// <summary>Pipe: nothing written may lie on it, and lines cross it unwillingly.</summary>
    Pipe,

    /// <summary>Symbols and whatever else nothing may lie on or cross.</summary>
    Symbol,

    /// <summary>Words: nothing may lie on them, and no line may cross them.</summary>
    Words,

    /// <summary>Thin lines: dimension lines, leaders.</summary>
    Line,

    /// <summary>Hatching and other background.</summary>
    Background,
}

/// <summary>How a label is set: the room of its words and the lines that go with it.</summary>
/// <param name="AtLeader">Whether the words stand away from what they mean.</param>
internal sealed record Candidate(Slab Words, (Spot A, Spot B)[] Lines, bool AtLeader);

/// <summary>A label that looks for its place.</summary>
internal sealed class Label(string key, Places places, double difficulty, Action<Canvas, Candidate> draw)
{
    public string Key { get; } = key;

    public Places Places { get; } = places;

    /// <summary>Labels that fit into few places are set first.</summary>
    public double Difficulty { get; } = difficulty;

    public Action<Canvas, Candidate> Draw { get; } = draw;

    /// <summary>What to say in the keyed list where there is no room.</summary>
    public string InWords { get; init; } = key;

    /// <summary>Id of what it means: its leader may touch that.</summary>
    public string Of { get; init; } = key;

    /// <summary>How important it is where there is not room for all: 0 the figures, 5 what is missed least.</summary>
    public int Rank { get; init; }

    /// <summary>What its place may cost on a screen: where words would lie on lines, or lines on words, it is not written; a figure sooner than others.</summary>
    public double MostOnScreen => Rank == 0 ? 95 : 42;

    /// <summary>Dimensions keep the place they found while the sheet was empty.</summary>
    public bool Stays { get; init; }

    /// <summary>Which of its places it took last; -1 for none.</summary>
    public int Place { get; set; } = -1;

    /// <summary>Which of its places it had in the picture before: where that one still does, no other is looked for. -1 for none.</summary>
    public int Before { get; set; } = -1;

    public Candidate? Set { get; set; }
    public double Cost { get; set; }

    /// <summary>What it covers on the sheet, while it is set.</summary>
    public List<int> Things { get; } = new(1 + Places.MostLines);
}

/// <summary>Finds places for labels: no words on words, on pipe or on symbols; few lines crossed; near what they mean. The same labels always get the same places.</summary>
internal sealed class LabelPlacement
{
    private const double Cell = 6;

    /// <summary>Clear paper round words, mm.</summary>
    public const double Clearance = 0.5;

    /// <summary>What a line through words costs: they are taken only where no other place is left, and count as strained.</summary>
    public const double OnLine = 400, LineOverWords = 400;

    private const double NearLine = 30, OnBackground = 5, LineOverSymbol = 14, LineOverPipe = 10, LineOverLine = 3;

    /// <summary>A leader that runs over a symbol, a pipe or another leader leads the eye to that: it goes a long way round sooner than a dimension line does.</summary>
    private const double LeaderOverSymbol = 25, LeaderOverPipe = 20, LeaderOverLeader = 30;

    private readonly Box zone;
    private readonly int columns, rows;

    /// <summary>The first entry of each cell of the grid, and the last; -1 where there is none.</summary>
    private readonly int[] heads, tails;

    /// <summary>What stands in a cell, and its next entry.</summary>
    private (int Thing, int Next)[] entries = new (int, int)[1024];

    private Thing[] things = new Thing[512];
    private int entryCount, thingCount, look;
    /// <summary>How many of the things are gone again.</summary>
    private int goneCount;

    private readonly (Spot A, Spot B)[] lines = new (Spot A, Spot B)[Places.MostLines];

    public LabelPlacement(Box zone)
    {
        this.zone = zone;
        columns = Math.Max(1, (int)Math.Ceiling(zone.Width / Cell));
        rows = Math.Max(1, (int)Math.Ceiling(zone.Height / Cell));
        (heads, tails) = (new int[columns * rows], new int[columns * rows]);
        Array.Fill(heads, -1);
    }

    private struct Thing
    {
        public Slab Room;

        /// <summary>Middle, half the width and half the height of its upright bounds.</summary>
        public double X, Y, Across, Down;

        public Occupant Kind;

        /// <summary>Whether it is a line or a stroke of pipe.</summary>
        public bool IsStroke;

        public bool IsGone;

        /// <summary>The last search that came across it.</summary>
        public int Seen;

        /// <summary>The label it belongs to; null for what is drawn already.</summary>
        public Label? Owner;

        /// <summary>Id of the component that is drawn there; empty where none is.</summary>
        public string Of;
    }

    /// <summary>Whether a place is in the room that labels have.</summary>
    public bool IsInside(Spot at) => at.X >= zone.Left && at.X <= zone.Right && at.Y >= zone.Top && at.Y <= zone.Bottom;

    /// <summary>Something on which nothing may be written.</summary>
    /// <param name="of">Id of the component.</param>
    public void Block(Slab room, Occupant kind = Occupant.Symbol, string of = "") => Add(room, kind, of, null, isStroke: false);

    /// <summary>A stroke that is drawn already.</summary>
    public void Block(Spot a, Spot b, double half, Occupant kind, string of = "") => Add(Slab.Along(a, b, half), kind, of, null, isStroke: true);

    /// <summary>Sets all labels.</summary>
    /// <param name="again">How often labels that stand badly look for a better place.</param>
    /// <returns>Those for which there is no room.</returns>
    public List<Label> Set(IEnumerable<Label> labels, int again)
    {
        var all = labels.OrderByDescending(l => l.Difficulty).ToList();
        foreach (var label in all)
            Settle(label);
        // Each label in turn looks again, now that it knows its neighbours; then those without room push others aside.
        for (var pass = 0; pass < again; pass++)
        {
            foreach (var label in all.Where(l => l.Set is null || l.Cost >= OnLine || (l.Cost > 9 && !l.Stays)).ToList())
            {
                Remove(label);
                Settle(label);
                if (label.Set is null || label.Cost >= OnLine)
                    PushIn(label);
            }
        }

        return [.. all.Where(l => l.Set is null)];
    }

    /// <summary>A label is not written after all.</summary>
    public void Leave(Label label) => Remove(label);

    /// <summary>How many labels have no room, or lines that run over the words of others.</summary>
    public int Strained(IEnumerable<Label> labels) => labels.Count(l => l.Set is not { } set || WordsCost(set.Words, 0, l, double.MaxValue, null) >= OnLine || set.Lines.Any(line => LineCost(line.A, line.B, l, double.MaxValue) >= LineOverWords));

    /// <summary>How many leaders of labels that are set run through another's.</summary>
    public static int Crossed(IReadOnlyList<Label> labels)
    {
        var leaders = labels.Select(l => l.Set).OfType<Candidate>().Where(s => s.AtLeader).SelectMany(s => s.Lines).ToList();
        var count = 0;
        for (var i = 0; i < leaders.Count; i++)
        {
            for (var j = i + 1; j < leaders.Count; j++)
                count += Strokes.Crossing(leaders[i].A, leaders[i].B, leaders[j].A, leaders[j].B) is not null ? 1 : 0;
        }

        return count;
    }

    private void Settle(Label label)
    {
        var places = label.Places;
        var best = -1;
        var least = double.MaxValue;
        if (label.Before >= 0 && label.Before < places.Count)
        {
            var most = label.MostOnScreen;
            var kept = CostOf(places, label.Before, places.Cost(label.Before), label, most, null);
            if (kept < most)
            {
                Put(label, label.Before, kept);
                return;
            }
        }

        for (int i = 0, count = places.Count; i < count; i++)
        {
            // Places come roughly in order of cost: far dearer ones need not be looked at.
            var own = places.Cost(i);
            if (own >= least + 4 && own < OnLine)
                break;
            if (own >= least)
                continue;
            var cost = CostOf(places, i, own, label, least, null);
            if (cost < least)
                (least, best) = (cost, i);
        }

        if (best >= 0)
            Put(label, best, least);
    }

    private Candidate Made(Places places, int place)
    {
        var count = places.Lines(place, lines);
        return new(places.Words(place), lines[..count], places.AtLeader(place));
    }

    /// <summary>Takes a place where one or two others are in the way, if these find another and all of them stand better than before.</summary>
    private void PushIn(Label label)
    {
        const int MostTried = 40;
        var (places, tried) = (label.Places, 0);
        var (old, oldCost) = (label.Set, label.Set is null ? NoPlace : label.Cost);
        Remove(label);
        var blockers = new List<Label>();
        for (int i = 0, count = places.Count; i < count && tried < MostTried; i++)
        {
            blockers.Clear();
            if (CostOf(places, i, places.Cost(i), label, OnLine, blockers) >= OnLine || blockers.Count is 0 or > 2)
                continue;
            tried++;
            var before = blockers.Select(b => (Label: b, b.Set, b.Cost)).ToList();
            foreach (var blocker in blockers)
                Remove(blocker);
            Put(label, i, CostOf(places, i, places.Cost(i), label, NoPlace, null));
            foreach (var blocker in blockers)
                Settle(blocker);
            if (blockers.TrueForAll(b => b.Set is not null) && label.Cost + blockers.Sum(b => b.Cost) < oldCost + before.Sum(b => b.Cost) - 1)
                return;
            Remove(label);
            foreach (var (blocker, set, cost) in before)
            {
                Remove(blocker);
                Put(blocker, set!, cost);
            }
        }

        if (old is not null)
            Put(label, old, oldCost);
    }

    /// <summary>More than any place costs.</summary>
    private const double NoPlace = 1e6;

    private void Put(Label label, int place, double cost)
    {
        label.Place = place;
        Put(label, Made(label.Places, place), cost);
    }

    private void Put(Label label, Candidate candidate, double cost)
    {
        (label.Set, label.Cost) = (candidate, cost);
        Add(candidate.Words, Occupant.Words, "", label, isStroke: false);
        foreach (var (a, b) in candidate.Lines)
            Add(Slab.Along(a, b, 0.15), Occupant.Line, "", label, isStroke: true);
    }

    private void Remove(Label label)
    {
        if (label.Set is null)
            return;
        label.Set = null;
        foreach (var i in label.Things)
            things[i].IsGone = true;
        goneCount += label.Things.Count;
        label.Things.Clear();
        if (goneCount > MostGone && 2 * goneCount > thingCount)
            Sweep();
    }

    /// <summary>Things that are gone cost a look each as long as they lie about.</summary>
    private const int MostGone = 200;

    /// <summary>Takes out what is gone; what is left keeps its order, so that every sum is the same to the last digit.</summary>
    private void Sweep()
    {
        var (at, kept) = (new int[thingCount], 0);
        for (var i = 0; i < thingCount; i++)
        {
            at[i] = things[i].IsGone ? -1 : kept;
            if (!things[i].IsGone)
                things[kept++] = things[i];
        }

        for (var i = 0; i < kept; i++)
            things[i].Owner?.Things.Clear();
        for (var i = 0; i < kept; i++)
            things[i].Owner?.Things.Add(i);
        Array.Clear(things, kept, thingCount - kept);
        (thingCount, goneCount) = (kept, 0);
        var (before, all) = (entries, entryCount);
        (entries, entryCount) = (new (int, int)[Math.Max(1024, all)], 0);
        for (var cell = 0; cell < heads.Length; cell++)
        {
            var e = heads[cell];
            heads[cell] = -1;
            for (; e >= 0; e = before[e].Next)
            {
                if (at[before[e].Thing] is >= 0 and var thing)
                    Enter(cell, thing);
            }
        }
    }

    private void Add(in Slab room, Occupant kind, string of, Label? owner, bool isStroke)
    {
        var (across, down) = (room.Across, room.Down);
        var (left, right) = (Column(room.Centre.X - across), Column(room.Centre.X + across));
        var (top, bottom) = (Row(room.Centre.Y - down), Row(room.Centre.Y + down));
        for (var y = top; y <= bottom; y++)
        {
            for (var x = left; x <= right; x++)
            {
                // A long slanting stroke touches few of the cells of its bounds.
                if (room.IsLevel || room.Overlaps(new Slab(new Box(zone.X + (x * Cell) - 0.1, zone.Y + (y * Cell) - 0.1, Cell + 0.2, Cell + 0.2))))
                    Enter((y * columns) + x, thingCount);
            }
        }

        if (thingCount == things.Length)
            Array.Resize(ref things, 2 * thingCount);
        things[thingCount] = new Thing { Room = room, X = room.Centre.X, Y = room.Centre.Y, Across = across, Down = down, Kind = kind, Of = of, Owner = owner, IsStroke = isStroke };
        owner?.Things.Add(thingCount);
        thingCount++;
    }

    private void Enter(int cell, int thing)
    {
        if (entryCount == entries.Length)
            Array.Resize(ref entries, 2 * entryCount);
        entries[entryCount] = (thing, -1);
        if (heads[cell] < 0)
            heads[cell] = entryCount;
        else
            entries[tails[cell]].Next = entryCount;
        tails[cell] = entryCount++;
    }

    private int Column(double x)
    {
        var column = (int)((x - zone.X) / Cell);
        return column < 0 ? 0 : column >= columns ? columns - 1 : column;
    }

    private int Row(double y)
    {
        var row = (int)((y - zone.Y) / Cell);
        return row < 0 ? 0 : row >= rows ? rows - 1 : row;
    }

    /// <summary>What a place costs where things stand now; not more exactly than to say that it is above <paramref name="limit"/>.</summary>
    /// <param name="blockers">Where given: labels whose words or lines are in the way are put here instead of forbidding the place.</param>
    private double CostOf(Places places, int place, double own, Label label, double limit, List<Label>? blockers)
    {
        var cost = WordsCost(places.Words(place), own, label, limit, blockers);
        if (cost >= limit)
            return cost;
        var count = places.Lines(place, lines);
        for (var i = 0; i < count && cost < limit; i++)
            cost += LineCost(lines[i].A, lines[i].B, label, limit - cost, blockers);
        return cost;
    }

    private double WordsCost(Slab words, double own, Label label, double limit, List<Label>? blockers)
    {
        var cost = own;
        var (cx, cy, across, down) = (words.Centre.X, words.Centre.Y, words.Across, words.Down);
        if (cx - across < zone.Left || cx + across > zone.Right || cy - down < zone.Top || cy + down > zone.Bottom)
            return double.MaxValue;
        var room = words.Larger(Clearance);
        (across, down) = (room.Across, room.Down);
        look++;
        int left = Column(cx - across), right = Column(cx + across), top = Row(cy - down), bottom = Row(cy + down);
        for (var y = top; y <= bottom; y++)
        {
            for (var x = left; x <= right; x++)
            {
                for (var e = heads[(y * columns) + x]; e >= 0; e = entries[e].Next)
                {
                    ref var thing = ref things[entries[e].Thing];
                    if (thing.Seen == look || thing.IsGone || thing.Owner == label)
                        continue;
                    thing.Seen = look;
                    if (Math.Abs(thing.X - cx) >= thing.Across + across || Math.Abs(thing.Y - cy) >= thing.Down + down || !room.Overlaps(in thing.Room))
                        continue;
                    switch (thing.Kind)
                    {
                        case Occupant.Words or Occupant.Line when blockers is not null && thing.Owner is { } owner:
                            if (!blockers.Contains(owner))
                                blockers.Add(owner);
                            break;
                        case Occupant.Line:
                            cost += words.Overlaps(in thing.Room) ? OnLine : NearLine;
                            break;
                        case Occupant.Background:
                            cost += OnBackground;
                            break;
                        default:
                            return double.MaxValue;
                    }

                    if (cost >= limit)
                        return cost;
                }
            }
        }

        return cost;
    }

    private double LineCost(Spot a, Spot b, Label label, double limit, List<Label>? blockers = null)
    {
        var cost = 0.0;
        var line = Slab.Along(a, b, 0.15);
        var (cx, cy, across, down) = (line.Centre.X, line.Centre.Y, line.Across, line.Down);
        if (cx - across < zone.Left - 0.5 || cx + across > zone.Right + 0.5 || cy - down < zone.Top - 0.5 || cy + down > zone.Bottom + 0.5)
            return 1000;
        look++;
        int left = Column(cx - across), right = Column(cx + across), top = Row(cy - down), bottom = Row(cy + down);
        for (var y = top; y <= bottom; y++)
        {
            for (var x = left; x <= right; x++)
            {
                for (var e = heads[(y * columns) + x]; e >= 0; e = entries[e].Next)
                {
                    ref var thing = ref things[entries[e].Thing];
                    if (thing.Seen == look || thing.IsGone || thing.Owner == label)
                        continue;
                    thing.Seen = look;
                    if (Math.Abs(thing.X - cx) >= thing.Across + across || Math.Abs(thing.Y - cy) >= thing.Down + down
                        || thing.Kind == Occupant.Background || thing.Of == label.Of || !line.Overlaps(in thing.Room))
                        continue;
                    if (thing.Kind == Occupant.Words && blockers is not null && thing.Owner is { } owner)
                    {
                        if (!blockers.Contains(owner))
                            blockers.Add(owner);
                        continue;
                    }

                    cost += thing.Kind switch
                    {
                        Occupant.Words => LineOverWords,
                        Occupant.Symbol => label.Stays ? LineOverSymbol : LeaderOverSymbol,
                        Occupant.Pipe => (label.Stays ? LineOverPipe : LeaderOverPipe) * (thing.IsStroke && line.SineTo(in thing.Room) < 0.4 ? 3 : 1),
                        _ when !label.Stays && thing.Owner is { Stays: false } => LeaderOverLeader,
                        _ => thing.IsStroke && line.SineTo(in thing.Room) < 0.05 ? LineOverLine * 3 : LineOverLine,
                    };
                    if (cost >= limit)
                        return cost;
                }
            }
        }

        return cost;
    }
}
