namespace Rootgap.Drawings;

/// <summary>Pipe to pipe; the middle of the root gap. At a run's end: to an existing line's pipe.</summary>
/// <param name="Continues">The drawing that goes on from here; null where none is named.</param>
public sealed record WeldPoint(string? Continues) : WorkPoint
{
    internal static readonly WorkPointKind OfFile = new("weld", ["continues"], f => new WeldPoint(f.Text("continues"))) { CanStart = true, CanBeMadeUpTo = false };

    public override string? GoesOnIn => Continues;

    internal override WorkPointKind Written => OfFile;
}

/// <summary>A cap; its work point is its outer end.</summary>
public sealed record CapPoint : WorkPoint
{
    internal static readonly WorkPointKind OfFile = new("cap", ["ends", "fitting class"], _ => new CapPoint())
    {
        Ware = Ware.Cap,
        Choices = [("ends", FileWords.FittingEnds)],
        EndsRun = true,
        CanStart = true,
    };

    internal override WorkPointKind Written => OfFile;
}

public enum OpenEnds
{
    Bevel,
    Plain,
    Threaded,
}

/// <summary>The plain end of the pipe.</summary>
public sealed record OpenPoint(OpenEnds Ends, string? Continues) : WorkPoint
{
    internal static readonly WorkPointKind OfFile = new("open", ["ends", "continues"], Read)
    {
        Choices = [("ends", FileWords.OpenEnds)],
        EndsRun = true,
        CanStart = true,
        CanBeMadeUpTo = false,
        HasOwnEnds = true,
    };

    public override string? GoesOnIn => Continues;

    internal override WorkPointKind Written => OfFile;

    private static OpenPoint Read(Fields f) => new(
        f.Word("ends", FileWords.OpenEnds) switch { "plain" => OpenEnds.Plain, "threaded" => OpenEnds.Threaded, _ => OpenEnds.Bevel }, f.Text("continues"));
}

/// <summary>A dimension point in a straight run.</summary>
public sealed record DimensionPoint : WorkPoint
{
    internal static readonly WorkPointKind OfFile = new("point", [], _ => new DimensionPoint()) { IsPassedThrough = true, CanBeMadeUpTo = false };

    internal override WorkPointKind Written => OfFile;
}

/// <summary>The run ends at the free end of a tee, outlet or stub-in of another run, and so closes a loop.</summary>
public sealed record TieInPoint(string With) : WorkPoint
{
    internal static readonly WorkPointKind OfFile = new("tie-in", ["with"], Read) { Required = ["with"], EndsRun = true };

    internal override WorkPointKind Written => OfFile;

    private static TieInPoint? Read(Fields f)
    {
        if (f.Text("with") is { } with)
            return new(with);
        f.Error("missing-key", "to", "This tie-in does not say with what.", "Add `with:` and the name of a tee, outlet or stub-in.");
        return null;
    }
}
