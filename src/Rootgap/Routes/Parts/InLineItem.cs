using Rootgap.Drawings;
using Rootgap.Findings;
using Rootgap.Measure;
using Rootgap.Standards;

namespace Rootgap.Routes;

/// <summary>Something of its own length in the line: a strainer, a meter, a plate between two flanges. All that is known of it the drawing says.</summary>
public sealed record InLineItem : InLine
{
    /// <summary>A body between its ends is thicker than the pipe: for pictures only.</summary>
    private const double Likely = 1.3;

    /// <summary>What it is, in the drawing's own words.</summary>
    public required string What { get; init; }

    /// <summary>It has no flanges of its own.</summary>
    public required bool IsPlate { get; init; }

    public override bool IsWafer => IsPlate;

    public override string Word => "in-line item";

    public override string Name => What;

    public override Ware Ware => Ware.InLineItem;

    public override IsometricSign Sign => IsometricSign.Box;

    /// <summary>A thick stretch between its ends: it says that something is there, not what.</summary>
    public override IReadOnlyList<Solid> Picture =>
        IsWafer || Path <= Tolerance.Noise || Outside <= 0 ? Bodies : [.. Solid.Turned(In.At, -In.Face, (0, Outside / 2), (Path * 0.15, Outside / 2 * Likely), (Path * 0.85, Outside / 2 * Likely), (Path, Outside / 2))];

    /// <summary>A list that says no more than "flanged" of a plate means the flanges beside it.</summary>
    public override bool IsOtherKind(WareWords words) => words.EndsDiffer(Ends) || (Ends == FittingEnds.Flanged && !IsPlate && words.IsWafer == true);

    /// <summary>By its own words, whatever other part is named among them: a control valve, a sight glass; what goes with it is none.</summary>
    internal override bool IsListedAs(MaterialItem row) => (row.Words.Ware == Ware.InLineItem && !IsAnotherSort(row)) || (row.Words.Ware is not (Ware.Gasket or Ware.StudBolt or Ware.Pipe) && Names(row));

    internal override int? Fits(MaterialItem row) => Names(row) ? ItemSearch.FlangeClass(row, Line) : null;

    /// <summary>Words of which no two are said of one thing.</summary>
    private static readonly string[] Sorts = ["strainer", "meter", "orifice", "spacer", "spectacle", "valve", "trap"];

    private bool IsAnotherSort(MaterialItem row) =>
        Array.Find(Sorts, s => What.Contains(s, StringComparison.OrdinalIgnoreCase)) is { } own && !row.What.Contains(own, StringComparison.OrdinalIgnoreCase) && Array.Exists(Sorts, s => row.What.Contains(s, StringComparison.OrdinalIgnoreCase));

    // A tag in both says it; else all words of the drawing stand in the row, but for a tag where the row has none.
    private bool Names(MaterialItem row) => IsTagged(What, row) || AllWords(Words(row.What).Any(IsTag) ? Words(What) : [.. Words(What).Where(w => !IsTag(w))], row);

    private static bool AllWords(string[] words, MaterialItem row) => words.Length > 0 && words.All(w => row.What.Contains(w, StringComparison.OrdinalIgnoreCase));

    private static bool IsTag(string word) => word.Length > 2 && word.Any(char.IsAsciiDigit) && word.Any(char.IsAsciiLetter);

    private static string[] Words(string what) => what.Split(' ', StringSplitOptions.RemoveEmptyEntries);

    private static bool IsTagged(string what, MaterialItem row) =>
        Words(what).Any(w => IsTag(w) && row.What.Contains(w, StringComparison.OrdinalIgnoreCase));

    /// <summary>Whether a row is meant for an in-line item of these words and for nothing else: it bears its tag, or all of its words where there are several.</summary>
    internal static bool IsFor(string what, MaterialItem row) => IsTagged(what, row) || (Words(what) is { Length: > 1 } words && words.All(w => row.What.Contains(w, StringComparison.OrdinalIgnoreCase)));

    internal static Station Station(StationMaking make, Situation s, InLineItemPoint p)
    {
        var body = make.Sized(s, new InLineItem
        {
            Size = s.Size, Line = s.Line, Drawn = p, Source = s.Source, What = p.What, Ends = p.Ends, IsPlate = p.IsWafer,
            Stated = p.Mass is { } kg ? new(kg, Origin.Drawing) : null,
        });
        var stated = false;
        var item = p.IsWafer && make.NamesFlange(s) ? make.Found(body) : make.Item(s, body, out stated);
        return body.Made(make, s, p.Holes, make.Measured(item, new($"half of the {p.What}", -p.FaceToFace / 2, Origin.Drawing)), item, stated);
    }
}
