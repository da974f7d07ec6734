using Rootgap.Drawings;
using Rootgap.Findings;

namespace Rootgap.App.Drawings;

/// <summary>A field as it is shown.</summary>
/// <param name="Caption">The word above it.</param>
/// <param name="Label">Its whole name, for those who do not see where it stands.</param>
/// <param name="Other">The same length in the other units, where those are chosen; empty else.</param>
/// <param name="Words">What fits, in the field in which the person is; empty elsewhere.</param>
public sealed record EditorCell(CellAt At, string Caption, string Label, string Value, OfferKind Kind, bool IsRequired, string Default, bool IsWrong, string Other, string Words, string Says)
{
    /// <summary>How keys act in the field: see scripts/editor.js.</summary>
    public string Manner => (At.Key, Kind) switch
    {
        ("go", _) => "direction",
        (CellAt.More, _) => "choice",
        (_, OfferKind.Place) => "place",
        (_, OfferKind.Choice or OfferKind.YesNo or OfferKind.Direction) => "choice",
        (_, OfferKind.By or OfferKind.Holes) => "word",
        _ => "text",
    };

    /// <summary>Which keys a touch screen shows.</summary>
    /// <param name="isMetric">Feet and inches need signs that number keys lack.</param>
    public string Keys(bool isMetric) => Kind switch
    {
        OfferKind.Direction or OfferKind.Choice or OfferKind.YesNo => "none",
        OfferKind.Whole => "numeric",
        OfferKind.Number or OfferKind.Angle => "decimal",
        OfferKind.Length or OfferKind.By when isMetric => "decimal",
        _ => "text",
    };

    /// <summary>How wide it is.</summary>
    public string Width => At.Key switch
    {
        "title" or "note" or "why" => "wide",
        "go" or "by" or "to" => At.Key,
        "at" or "measured" => "long",
        "fluid" or "between" or "run" or "rule" or "stock" or "shop" or "materials" or "drawing" or "design temperature" => "medium",
        "material" or "design pressure" or "test pressure" or "fitting class" or "face to face" or "linear tolerance" or "angular tolerance" or "final fit extra"
            or "on end limit" or "shortest pipe" or "weld spacing" or "makeup gap" => "some",
        CellAt.More => "ask",
        _ => "short",
    };
}

/// <param name="CanAccept">It comes from the desk check: the drawing may accept it with a reason.</param>
public sealed record RowFinding(Finding Finding, bool CanAccept);

/// <summary>A row as it is shown. Rows that are equal look the same.</summary>
/// <param name="Number">The leg's number; empty for other rows.</param>
/// <param name="Tail">What is unusual at a leg, at the end of its line: branch, kind, final-fit.</param>
/// <param name="HasBranch">A branch can begin at it.</param>
/// <param name="Cut">What is cut for the chosen leg, in words; empty elsewhere.</param>
/// <param name="IsPicked">It is one of several legs that something is to be done with.</param>
public sealed record EditorRow(string Path, string Number, string Label, IReadOnlyList<EditorCell> Cells, IReadOnlyList<RowFinding> Findings, bool IsChosen, bool IsMetric, string Tail = "", bool HasBranch = false, string Cut = "", bool IsPicked = false)
{
    public bool Equals(EditorRow? other) => other is not null && Path == other.Path && Number == other.Number && Label == other.Label && IsChosen == other.IsChosen && IsMetric == other.IsMetric && Tail == other.Tail && HasBranch == other.HasBranch && Cut == other.Cut && IsPicked == other.IsPicked
        && Cells.SequenceEqual(other.Cells) && Findings.SequenceEqual(other.Findings);

    public override int GetHashCode() => StringComparer.Ordinal.GetHashCode(Path);
}

/// <summary>A run as it is shown.</summary>
/// <param name="From">Where it begins, in words.</param>
public sealed record EditorRun(int Index, string Name, string From, EditorRow Row, EditorRow Start, IReadOnlyList<EditorRow> Legs);

/// <summary>A drawing as it is shown for writing.</summary>
/// <param name="Whole">Findings that speak of no row that is shown.</param>
/// <param name="Active">The field in which the person is; null where that is none.</param>
public sealed record EditorSheet(EditorRow Top, EditorRow Line, EditorRow Service, EditorRow Shop, EditorRow Envelope, IReadOnlyList<EditorRun> Runs, IReadOnlyList<EditorRow> Accepted,
    IReadOnlyList<RowFinding> Whole, EditorCell? Active);
