using Rootgap.Measure;

namespace Rootgap.Drawings;

public enum ElbowRadius
{
    Long,
    Short,
    ThreeD,
    FiveD,
}

/// <summary>An elbow, or a bend that the shop makes; its turn is that from this leg to the next.</summary>
public sealed record ElbowPoint(ElbowRadius Radius) : WorkPoint
{
    internal static readonly WorkPointKind OfFile = new("elbow", ["radius", "ends", "fitting class"], Read) { Ware = Ware.Elbow, TurnsLine = true, Choices = [("ends", FileWords.FittingEnds)] };

    internal static readonly WorkPointKind OfMitre = new("mitred bend", ["cuts", "bend radius", "straight"], f => Made(f, "mitred bend", isMitred: true)) { Ware = Ware.Pipe, TurnsLine = true, Required = ["cuts", "bend radius"] };

    internal static readonly WorkPointKind OfBend = new("bend", ["bend radius", "straight"], f => Made(f, "bend", isMitred: false)) { Ware = Ware.Pipe, TurnsLine = true, Required = ["bend radius"] };

    internal override WorkPointKind Written => Bend is null ? OfFile : Bend.Cuts > 0 ? OfMitre : OfBend;

    /// <summary>How the shop makes it of the line's pipe; null for an elbow that is bought.</summary>
    public MadeBendRow? Bend { get; init; }

    internal override bool CanEndRun => false;

    private static ElbowPoint Read(Fields f) => new(f.Word("radius", FileWords.Radii) switch
    {
        "short" => ElbowRadius.Short,
        "3d" => ElbowRadius.ThreeD,
        "5d" => ElbowRadius.FiveD,
        _ => ElbowRadius.Long,
    });

    private static ElbowPoint? Made(Fields f, string word, bool isMitred)
    {
        if (!f.Has("bend radius"))
            f.Error("missing-key", "to", $"This {word} has no radius.", "Add `bend radius:`, that of its middle line.");
        if (isMitred && !f.Has("cuts"))
            f.Error("missing-key", "to", "This mitred bend does not say how many mitre welds it has.", "Add `cuts:`, 2 to 5.");
        var cuts = isMitred ? f.Whole("cuts") : 0;
        if (cuts is { } n && isMitred && n is < MadeBendRow.Fewest or > MadeBendRow.Most)
            f.Error("impossible-value", "cuts", FormattableString.Invariant($"A mitred bend of {n} cuts is not reckoned: {MadeBendRow.Fewest} to {MadeBendRow.Most} are."), "Write how many mitre welds it has.");
        var (radius, straight) = (f.Length("bend radius", Tolerance.Noise), f.Length("straight"));
        return radius is { } r && cuts is { } count ? new(ElbowRadius.Long) { Bend = new(r, count, straight ?? 0) } : null;
    }
}

/// <summary>A bend made of the line's pipe.</summary>
/// <param name="Radius">Of its middle line, mm.</param>
/// <param name="Cuts">Mitre welds; 0 where the pipe is pulled round.</param>
/// <param name="Straight">Straight length at each end, mm.</param>
public sealed record MadeBendRow(double Radius, int Cuts, double Straight)
{
    public const int Fewest = 2;
    public const int Most = 5;
}
