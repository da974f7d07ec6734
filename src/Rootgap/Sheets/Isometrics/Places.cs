namespace Rootgap.Sheets;

/// <summary>The ways to set a label, the cheapest first (roughly). Each is worked out only when it is looked at: most never are.</summary>
internal abstract class Places
{
    /// <summary>Lines that go with a label at most: a dimension's own and its two extension lines.</summary>
    public const int MostLines = 3;

    public abstract int Count { get; }

    /// <summary>What is wrong with a place as such, the less the better.</summary>
    public abstract double Cost(int place);

    /// <summary>The room of its words.</summary>
    public abstract Slab Words(int place);

    /// <summary>The lines that go with it.</summary>
    /// <returns>How many.</returns>
    public abstract int Lines(int place, Span<(Spot A, Spot B)> lines);

    /// <summary>Whether the words stand away from what they mean, at a leader.</summary>
    public virtual bool AtLeader(int place) => true;
}

/// <summary>Places of the label's own kind, then such at a leader.</summary>
internal sealed class LeaderAfter(Places own, Places atLeader, double dearer) : Places
{
    private readonly int first = own.Count;

    public override int Count { get; } = own.Count + atLeader.Count;

    public override double Cost(int place) => place < first ? own.Cost(place) : atLeader.Cost(place - first) + dearer;

    public override Slab Words(int place) => place < first ? own.Words(place) : atLeader.Words(place - first);

    public override int Lines(int place, Span<(Spot A, Spot B)> lines) => place < first ? own.Lines(place, lines) : atLeader.Lines(place - first, lines);

    public override bool AtLeader(int place) => place >= first;
}
