using Rootgap.Measure;

namespace Rootgap.Drawings;

/// <summary>How an end of a swage is made.</summary>
public enum SwageEnd
{
    /// <summary>For a butt weld.</summary>
    Bevel,

    /// <summary>Goes into a socket.</summary>
    Plain,

    /// <summary>Goes into a thread.</summary>
    Threaded,
}

/// <summary>A reducer or a swage; its work point is the far end.</summary>
/// <param name="Flat">The flat side of an eccentric one as a direction; null where none is stated.</param>
public sealed record ReducerPoint(NominalSize Size, bool IsEccentric, Vector? Flat) : WorkPoint
{
    internal static readonly WorkPointKind OfFile = new("reducer", ["kind", "flat"], Read)
    {
        Ware = Ware.Reducer,
        Required = ["size"],
        Choices = [("kind", FileWords.ReducerKinds)],
    };

    internal static readonly WorkPointKind OfSwage = new("swage", ["kind", "flat", "large end", "small end", "face to face"], ReadSwage)
    {
        Ware = Ware.Swage,
        Required = ["size"],
        Choices = [("kind", FileWords.ReducerKinds)],
    };

    /// <summary>The ends of a swage; null for a reducer.</summary>
    public (SwageEnd? Large, SwageEnd? Small)? Swage { get; init; }

    /// <summary>Length of a swage that the drawing gives in place of the table's, mm; null where it gives none.</summary>
    public double? Length { get; init; }

    internal override WorkPointKind Written => Swage is null ? OfFile : OfSwage;

    internal override bool TakesSize => true;

    private static ReducerPoint? ReadSwage(Fields f)
    {
        SwageEnd? End(string key) => f.Word(key, FileWords.SwageEnds) is { } word && Array.IndexOf(FileWords.SwageEnds, word) is >= 0 and var index ? (SwageEnd)index : null;
        var (large, small, length) = (End("large end"), End("small end"), f.Length("face to face", Tolerance.Noise));
        return Of(f, "swage") is { } point ? point with { Swage = (large, small), Length = length } : null;
    }

    private static ReducerPoint? Read(Fields f) => Of(f, "reducer");

    private static ReducerPoint? Of(Fields f, string word)
    {
        if (!f.Has("size"))
            f.Error("missing-key", "to", $"This {word} has no size.", "Add `size:`, the size from here on.");
        var eccentric = f.Word("kind", FileWords.ReducerKinds) == "eccentric";
        if (f.Has("flat") && !eccentric)
        {
            var change = f.Has("kind") ? f.Source.Replace("kind", "eccentric", $"the {word} is now eccentric") is { } other ? other with { IsJudgement = true } : null : f.Source.Add("to", "kind", "eccentric", $"the {word} is now eccentric");
            f.Error("key-does-not-fit", "flat", $"Only an eccentric {word} has a flat side.", "Add `kind: eccentric`, or leave `flat` out.", change);
        }

        var flat = f.Flat();
        return f.Size("size") is { } size ? new(size, eccentric, flat) : null;
    }
}
