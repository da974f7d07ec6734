namespace Rootgap.Drawings;

/// <summary>What stands at the end of a leg. A closed family: each kind stands in a file of its own with its word, its keys and how it is read.</summary>
public abstract record WorkPoint
{
    private protected WorkPoint()
    {
    }

    /// <summary>What the drawing file says of this kind.</summary>
    internal abstract WorkPointKind Written { get; }

    /// <summary>The word of the drawing file.</summary>
    public string Word => Written.Word;

    /// <summary>The drawing in which the line goes on behind it; null where none is named.</summary>
    public virtual string? GoesOnIn => null;

    /// <summary>The header goes through uncut.</summary>
    public bool IsPassedThrough => Written.IsPassedThrough;

    /// <summary>Name by which another run can start here; null where none can or none is given.</summary>
    public virtual string? Name => null;

    /// <summary>The same without its name, where two have one name.</summary>
    internal virtual WorkPoint WithoutName() => this;

    /// <summary>Whether a run can end here.</summary>
    internal virtual bool CanEndRun => !IsPassedThrough;

    /// <summary>Whether the leg's <c>size</c> is this one's and not that of the pipe.</summary>
    internal virtual bool TakesSize => false;
}

/// <summary>What the drawing file says of one kind of work point.</summary>
/// <param name="Word">Its word after <c>to</c>.</param>
/// <param name="Keys">The keys of a leg that go with it, besides those that go with every leg.</param>
/// <param name="Read">Makes it from a leg; null where something is missing or not understood, which is told.</param>
internal sealed record WorkPointKind(string Word, string[] Keys, Func<Fields, WorkPoint?> Read)
{
    /// <summary>Keys that must be given.</summary>
    public string[] Required { get; init; } = [];

    /// <summary>The words that a key takes here, where other kinds take other ones.</summary>
    public (string Key, string[] Words)[] Choices { get; init; } = [];

    /// <summary>What a material list calls what stands here; null where nothing is ordered.</summary>
    public Ware? Ware { get; init; }

    /// <summary>The header goes through uncut.</summary>
    public bool IsPassedThrough { get; init; }

    /// <summary>Whether it only ends a run and nothing can follow it.</summary>
    public bool EndsRun { get; init; }

    /// <summary>Whether a run can begin with it.</summary>
    public bool CanStart { get; init; }

    /// <summary>Whether a fitting stands here, to which the next can be made up without pipe.</summary>
    public bool CanBeMadeUpTo { get; init; } = true;

    /// <summary>Whether its <c>ends</c> are its own and not those of the line's fittings.</summary>
    public bool HasOwnEnds { get; init; }

    /// <summary>Whether the line turns here.</summary>
    public bool TurnsLine { get; init; }

    /// <summary>Whether its <c>nipple</c> is one of its own and not the pipe of the leg.</summary>
    public bool HasOwnNipple { get; init; }

    /// <summary>Another word for a kind that is offered by its own.</summary>
    public bool IsOtherWord { get; init; }

    /// <summary>Every kind, in the order in which they are offered.</summary>
    public static readonly WorkPointKind[] All =
    [
        ElbowPoint.OfFile, ElbowPoint.OfBend, ElbowPoint.OfMitre, TeePoint.OfFile, TeePoint.OfLateral, ReducerPoint.OfFile, ReducerPoint.OfSwage, OutletPoint.OfFile, OutletPoint.OfHalfCoupling, StubInPoint.OfFile, FlangePoint.OfFile, FlangedJointPoint.OfFile,
        ValvePoint.OfFile, InLineItemPoint.OfFile, InLineItemPoint.OfShortWord, CouplingPoint.OfFile, UnionPoint.OfFile, WeldPoint.OfFile, CapPoint.OfFile, PlugPoint.OfFile, DrainRow.OfDrain, DrainRow.OfVent, OpenPoint.OfFile, DimensionPoint.OfFile, SupportPoint.OfFile, TieInPoint.OfFile,
    ];

    /// <summary>The kind of a word; null where no kind has it.</summary>
    public static WorkPointKind? Of(string word) => Array.Find(All, k => k.Word == word);
}
