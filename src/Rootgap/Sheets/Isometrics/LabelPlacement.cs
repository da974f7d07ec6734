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

/// <summary>One way to set a label: the rooms of its words, the lines that go with it, and what is wrong with it, the less the better.</summary>
internal sealed record Candidate(double Cost, Slab[] Words, (Spot A, Spot B)[] Lines, int Choice);

/// <summary>A label that looks for its place.</summary>
internal sealed class Label(string key, Func<IEnumerable<Candidate>> candidates, double difficulty, Action<Canvas, Candidate> draw)
{
    public string Key { get; } = key;

    /// <summary>Ways to set it, the cheapest first (roughly).</summary>
    public Func<IEnumerable<Candidate>> Candidates { get; } = candidates;

    /// <summary>Labels that fit into few places are set first.</summary>
    public double Difficulty { get; } = difficulty;

    public Action<Canvas, Candidate> Draw { get; } = draw;

    /// <summary>What to say in the keyed list where there is no room.</summary>
    public string InWords { get; init; } = key;

    /// <summary>Id of what it means: its leader may touch that.</summary>
    public string Of { get; init; } = key;

    /// <summary>Dimensions keep the place they found while the sheet was empty.</summary>
    public bool Stays { get; init; }

    public Candidate? Set { get; set; }
    public double Cost { get; set; }
}

/// <summary>Finds places for labels: no words on words, on pipe or on symbols; few lines crossed; near what they mean. The same labels always get the same places.</summary>
internal sealed class LabelPlacement
{
    private const double Cell = 6;

    /// <summary>Clear paper round words, mm.</summary>
    public const double Clearance = 0.5;

    private const double OnLine = 30, OnBackground = 5, LineOverWords = 70, LineOverSymbol = 14, LineOverPipe = 10, LineOverLine = 3;

    private readonly Box zone;
    private readonly int columns, rows;
    private readonly List<int>[] grid;
    private readonly List<Thing> things = [];

    public LabelPlacement(Box zone)
    {
        this.zone = zone;
        columns = Math.Max(1, (int)Math.Ceiling(zone.Width / Cell));
        rows = Math.Max(1, (int)Math.Ceiling(zone.Height / Cell));
        grid = new List<int>[columns * rows];
        for (var i = 0; i < grid.Length; i++)
            grid[i] = [];
    }

    private sealed class Thing
    {
        public required Slab Room { get; init; }
        public required Occupant Kind { get; init; }

        /// <summary>The label it belongs to; null for what is drawn already.</summary>
        public Label? Owner { get; init; }

        /// <summary>Id of the component that is drawn there; empty where none is.</summary>
        public string Of { get; init; } = "";

        /// <summary>Ends of a line or of a stroke of pipe.</summary>
        public (Spot A, Spot B)? Stroke { get; init; }

        public bool IsGone { get; set; }
        public int Seen { get; set; }
    }

    /// <summary>Something on which nothing may be written.</summary>
    /// <param name="of">Id of the component.</param>
    public void Block(Slab room, Occupant kind = Occupant.Symbol, string of = "") => Add(new Thing { Room = room, Kind = kind, Of = of });

    /// <summary>A stroke that is drawn already.</summary>
    public void Block(Spot a, Spot b, double half, Occupant kind, string of = "") => Add(new Thing { Room = Slab.Along(a, b, half), Kind = kind, Stroke = (a, b), Of = of });

    /// <summary>Sets all labels.</summary>
    /// <returns>Those for which there is no room.</returns>
    public List<Label> Set(IEnumerable<Label> labels)
    {
        var all = labels.OrderByDescending(l => l.Difficulty).ToList();
        foreach (var label in all)
            Settle(label);
        // Each label in turn looks again, now that it knows its neighbours; then those without room push others aside.
        for (var pass = 0; pass < 2; pass++)
        {
            foreach (var label in all.Where(l => l.Set is null || (l.Cost > 9 && !l.Stays)).ToList())
            {
                Remove(label);
                Settle(label);
                if (label.Set is null)
                    PushIn(label);
            }
        }

        return [.. all.Where(l => l.Set is null)];
    }

    /// <summary>How many labels have no room, or lines that run over the words of others.</summary>
    public int Strained(IEnumerable<Label> labels) => labels.Count(l => l.Set is not { } set || set.Lines.Any(line => LineCost(line.A, line.B, l) >= LineOverWords));

    private void Settle(Label label)
    {
        var best = default(Candidate);
        var least = double.MaxValue;
        foreach (var candidate in label.Candidates())
        {
            // Candidates come roughly in order of cost: far dearer ones need not be looked at.
            if (candidate.Cost >= least + 4)
                break;
            if (candidate.Cost >= least)
                continue;
            var cost = CostOf(candidate, label, least, null);
            if (cost < least)
                (least, best) = (cost, candidate);
        }

        if (best is not null)
            Put(label, best, least);
    }

    /// <summary>Takes the place of one or two others that find another place.</summary>
    private void PushIn(Label label)
    {
        var tried = 0;
        foreach (var candidate in label.Candidates())
        {
            var blockers = new List<Label>();
            if (CostOf(candidate, label, double.MaxValue, blockers) >= double.MaxValue || blockers.Count is 0 or > 2)
                continue;
            if (++tried > 12)
                return;
            var before = blockers.Select(b => (Label: b, b.Set, b.Cost)).ToList();
            foreach (var blocker in blockers)
                Remove(blocker);
            Put(label, candidate, candidate.Cost);
            foreach (var blocker in blockers)
                Settle(blocker);
            if (blockers.TrueForAll(b => b.Set is not null))
                return;
            Remove(label);
            foreach (var (blocker, set, cost) in before)
            {
                Remove(blocker);
                Put(blocker, set!, cost);
            }
        }
    }

    private void Put(Label label, Candidate candidate, double cost)
    {
        (label.Set, label.Cost) = (candidate, cost);
        foreach (var words in candidate.Words)
            Add(new Thing { Room = words, Kind = Occupant.Words, Owner = label });
        foreach (var (a, b) in candidate.Lines)
            Add(new Thing { Room = Slab.Along(a, b, 0.15), Kind = Occupant.Line, Owner = label, Stroke = (a, b) });
    }

    private void Remove(Label label)
    {
        if (label.Set is null)
            return;
        label.Set = null;
        foreach (var thing in things)
            thing.IsGone |= thing.Owner == label;
    }

    private void Add(Thing thing)
    {
        var (left, top, right, bottom) = Cells(thing.Room.Bounds);
        for (var y = top; y <= bottom; y++)
        {
            for (var x = left; x <= right; x++)
            {
                // A long slanting stroke touches few of the cells of its bounds.
                if (thing.Room.Turn == 0 || thing.Room.Overlaps(new Slab(new Box(zone.X + (x * Cell) - 0.1, zone.Y + (y * Cell) - 0.1, Cell + 0.2, Cell + 0.2))))
                    grid[(y * columns) + x].Add(things.Count);
            }
        }

        things.Add(thing);
    }

    private (int Left, int Top, int Right, int Bottom) Cells(Box box)
    {
        int Column(double x) => Math.Clamp((int)((x - zone.X) / Cell), 0, columns - 1);
        int Row(double y) => Math.Clamp((int)((y - zone.Y) / Cell), 0, rows - 1);
        return (Column(box.Left), Row(box.Top), Column(box.Right), Row(box.Bottom));
    }

    private int look;

    /// <summary>What a candidate costs where things stand now; not more exactly than to say that it is above <paramref name="limit"/>.</summary>
    /// <param name="blockers">Where given: labels whose words are in the way are put here instead of forbidding the place.</param>
    private double CostOf(Candidate candidate, Label label, double limit, List<Label>? blockers)
    {
        var cost = candidate.Cost;
        foreach (var words in candidate.Words)
        {
            var bounds = words.Bounds;
            if (!zone.Holds(bounds, 0))
                return double.MaxValue;
            var room = words.Larger(Clearance);
            look++;
            var (left, top, right, bottom) = Cells(room.Bounds);
            for (var y = top; y <= bottom; y++)
            {
                for (var x = left; x <= right; x++)
                {
                    foreach (var i in grid[(y * columns) + x])
                    {
                        var thing = things[i];
                        if (thing.Seen == look || thing.IsGone || thing.Owner == label)
                            continue;
                        thing.Seen = look;
                        if (!room.Overlaps(thing.Room))
                            continue;
                        switch (thing.Kind)
                        {
                            case Occupant.Words when blockers is not null && thing.Owner is { } owner:
                                if (!blockers.Contains(owner))
                                    blockers.Add(owner);
                                break;
                            case Occupant.Line when blockers is null || thing.Owner is null:
                                cost += OnLine;
                                break;
                            case Occupant.Line:
                                cost += OnLine / 2;
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
        }

        foreach (var (a, b) in candidate.Lines)
        {
            cost += LineCost(a, b, label);
            if (cost >= limit)
                return cost;
        }

        return cost;
    }

    private double LineCost(Spot a, Spot b, Label label)
    {
        var cost = 0.0;
        var line = Slab.Along(a, b, 0.15);
        if (!zone.Holds(line.Bounds, 0.5))
            return 1000;
        look++;
        var (left, top, right, bottom) = Cells(line.Bounds);
        for (var y = top; y <= bottom; y++)
        {
            for (var x = left; x <= right; x++)
            {
                foreach (var i in grid[(y * columns) + x])
                {
                    var thing = things[i];
                    if (thing.Seen == look || thing.IsGone || thing.Owner == label)
                        continue;
                    thing.Seen = look;
                    if (thing.Kind == Occupant.Background || thing.Of == label.Of || !line.Overlaps(thing.Room))
                        continue;
                    cost += thing.Kind switch
                    {
                        Occupant.Words => LineOverWords,
                        Occupant.Symbol => LineOverSymbol,
                        Occupant.Pipe => LineOverPipe * (thing.Stroke is { } s && IsAlong(a, b, s.A, s.B, 0.4) ? 3 : 1),
                        _ => thing.Stroke is { } other && IsAlong(a, b, other.A, other.B, 0.05) ? LineOverLine * 3 : LineOverLine,
                    };
                }
            }
        }

        return cost;
    }

    /// <summary>Whether two strokes that touch run along each other.</summary>
    private static bool IsAlong(Spot a, Spot b, Spot c, Spot d, double sine) => Math.Abs(Math.Sin(a.AngleTo(b) - c.AngleTo(d))) < sine;
}
