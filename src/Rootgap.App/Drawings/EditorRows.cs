using System.Globalization;
using System.Text;
using Rootgap.Drawings;
using Rootgap.Findings;
using Rootgap.Measure;

namespace Rootgap.App.Drawings;

/// <summary>Makes the rows of a drawing for showing: which fields a row has, what stands and what fits in them, what was found there.</summary>
/// <remarks>What fits is asked of the engine for the row in which the person is; of other rows only which fields they have, which is remembered.</remarks>
public sealed class EditorRows
{
    /// <summary>Fields that a leg shows, where it has them, before anything is written in them; the others are asked for.</summary>
    private static readonly HashSet<string> UsualOfLeg = ["go", "by", "to", "name", "branch", "branch size", "size", "kind", "flat", "stem", "with", "tag", "end"];

    private static readonly HashSet<string> UsualOfLine = ["size", "schedule", "class", "material", "gasket"];

    private readonly Dictionary<string, IReadOnlyList<Offer>> known = new(StringComparer.Ordinal);

    /// <summary>All of a drawing, as it stands in an editor.</summary>
    /// <param name="other">Units in which lengths are shown beside what is written, where they are others than the drawing's.</param>
    /// <param name="files">Files of the job that the drawing may name: <c>shop</c>, <c>materials</c>.</param>
    public EditorSheet Of(EditorState state, Units other, Func<string, IEnumerable<string>> files)
    {
        var text = state.Text;
        if (known.Count > 2000)
            known.Clear();
        var outer = Written(text.Line);
        var findings = new Dictionary<string, List<RowFinding>>(StringComparer.Ordinal);
        var whole = new List<RowFinding>();
        var paths = AllPaths(text).ToHashSet(StringComparer.Ordinal);
        foreach (var (finding, canAccept) in state.Shown.Errors.Select(f => (f, false)).Concat((state.Shown.Packet?.Findings ?? []).Select(f => (f, true))))
        {
            if (RowOf(finding.At.ToString(), paths) is not { } path)
                whole.Add(new(finding, canAccept));
            else if (findings.TryGetValue(path, out var there))
                there.Add(new(finding, canAccept));
            else
                findings[path] = [new(finding, canAccept)];
        }

        EditorCell? active = null;
        EditorRow Make(WrittenRow row, string label, string number = "", string context = "")
        {
            var isChosen = state.Chosen?.Path == row.Path;
            IReadOnlyList<Offer>? offers = null;
            if (!isChosen)
            {
                // Which fields a row has hangs on what is written in it and around it, not on the words that fit.
                var key = context + Written(row);
                if (!known.TryGetValue(key, out offers))
                    known[key] = offers = OffersAt(text, row.Path);
            }

            offers ??= OffersAt(text, row.Path);
            var found = state.IsHalfWritten(row.Path) ? [] : findings.GetValueOrDefault(row.Path) ?? [];
            var wrong = found.Count == 0 ? [] : found.Where(f => f.Finding is { AcceptedBecause: null, Severity: not Severity.Note }).Select(f => row.KeyOf(f.Finding)).ToHashSet();
            var cells = new List<EditorCell>();
            var unshown = new List<string>();
            foreach (var offer in offers)
            {
                var at = new CellAt(row.Path, offer.Key);
                if (!IsShown(row, offer, state.IsAskedFor(at)))
                {
                    unshown.Add(offer.Key);
                    continue;
                }

                var isHere = state.Chosen == at;
                var words = !isHere ? "" : string.Join('|', row.Path.Length == 0 && offer.Key is "shop" or "materials" ? files(offer.Key) : offer.Words);
                var value = isHere && state.AsTyped is { } typed ? typed : row[offer.Key];
                var caption = Caption(row.Path, offer.Key);
                var shownOther = offer.Kind is OfferKind.Length or OfferKind.By && other != text.Units && LengthText.TryParse(value, text.Units, out var mm) ? LengthText.In(other, mm) : "";
                var cell = new EditorCell(at, caption, $"{label}: {caption}", value, offer.Kind, offer.IsRequired && value.Length == 0, offer.Default ?? "", wrong.Contains(offer.Key), shownOther, words, isHere ? offer.Says : "");
                cells.Add(cell);
                if (isHere)
                    active = cell;
            }

            if (unshown.Count > 0)
            {
                var at = new CellAt(row.Path, CellAt.More);
                var isHere = state.Chosen == at;
                var cell = new EditorCell(at, "more", $"{label}: another field", isHere ? state.AsTyped ?? "" : "", OfferKind.Choice, IsRequired: false, "more", IsWrong: false, "", isHere ? string.Join('|', unshown) : "", isHere ? "Which other field this row needs." : "");
                cells.Add(cell);
                if (isHere)
                    active = cell;
            }

            return number.Length == 0 || LegAt(row) is null
                ? new(row.Path, number, label, cells, found, isChosen, text.Units == Units.Millimetres)
                : new(row.Path, number, label, cells, found, isChosen, text.Units == Units.Millimetres, TailOf(row), isChosen && state.FreeBranchOf(row.Path) is not null, isChosen ? CutOf(state, row.Path, other) : "", state.IsInStretch(row.Path));
        }

        var runs = new List<EditorRun>(text.Runs.Count);
        foreach (var run in text.Runs)
        {
            var name = run.Name.Length > 0 ? run.Name : Number(run.Index + 1);
            var context = outer + Written(run.Row);
            var head = Make(run.Row, $"run {name}", context: "r" + outer);
            var start = Make(run.Start, $"start of {name}", context: "s" + context + (Offers.FreeBranches(text).Count > 0 ? "f" : ""));
            var legs = new EditorRow[run.Legs.Count];
            for (var i = 0; i < legs.Length; i++)
                legs[i] = Make(run.Legs[i], $"leg {Number(i + 1)} of {name}", Number(i + 1), $"l{(i == legs.Length - 1 ? "-" : "")}{(i == 0 ? "" : run.Legs[i - 1]["to"])}{context}");
            runs.Add(new(run.Index, name, From(run), head, start, legs));
        }

        return new(Make(text.Top, "drawing", context: "t"), Make(text.Line, "line", context: "n"), Make(text.Service, "service", context: "v"), Make(text.Shop, "shop rules", context: "h"),
            Make(text.Envelope, "largest spool", context: "e"), runs, [.. text.Accepted.Select((a, i) => Make(a, $"accepted finding {Number(i + 1)}", Number(i + 1), "a"))], whole, active);
    }

    private static (int Run, int Leg)? LegAt(WrittenRow row) => EditorState.LegAt(row.Path) is { Leg: >= 0 } at ? at : null;

    /// <summary>Where a run begins, in words.</summary>
    private static string From(WrittenRun run)
    {
        var at = run.Start["at"];
        var place = at.Length > 0 ? ", " + at : "";
        return run.Start["from"] is { Length: > 0 } branch ? $"leaves {branch}" : $"from {run.Start["to"] switch { "flange" => "a flange", "weld" => "a weld", "open" => "an open end", "cap" => "a cap", "" => "where?", var other => other }}{place}";
    }

    /// <summary>What is unusual at a leg, as short as a line's end has room for.</summary>
    private static string TailOf(WrittenRow row)
    {
        var parts = new List<string>();
        if (row["end"] is { Length: > 0 } end && end != "shop")
            parts.Add(end == "field" ? "field weld" : end);
        if (row["begin"] is { Length: > 0 } begin && begin != "shop")
            parts.Add("begins " + begin);
        if (row["branch"] is { Length: > 0 } branch)
            parts.Add($"{(row["branch size"] is { Length: > 0 } of ? of + " " : row["size"] is { Length: > 0 } its ? its + " " : "")}{branch}");
        else if (row["size"] is { Length: > 0 } size)
            parts.Add("to " + size);
        foreach (var key in new[] { "kind", "what", "between", "with" })
        {
            if (row[key] is { Length: > 0 } value)
                parts.Add(value);
        }

        foreach (var key in new[] { "angle", "fall", "rise", "stem", "spool", "note" })
        {
            if (row[key] is { Length: > 0 } value && parts.Count < 2)
                parts.Add(key == "angle" ? value + "\u00b0" : $"{key} {value}");
        }

        return string.Join(", ", parts);
    }

    /// <summary>What is cut for a leg.</summary>
    private static string CutOf(EditorState state, string path, Units units)
    {
        if (state.Open.Packet is not { } packet)
            return "";
        var route = packet.Fabrication.Route;
        var cuts = packet.Fabrication.Cuts.Where(c => Enumerable.Range(c.Pipe.FirstLeg, c.Pipe.LastLeg - c.Pipe.FirstLeg + 1).Any(l => route.Runs[c.Pipe.Run].Run.Legs[l].Source.Path.ToString() == path)).ToList();
        return cuts.Count == 0 ? "" : "Cut " + string.Join(", ", cuts.Select(c => $"{c.Piece} at {(units == Units.Inches ? LengthText.FeetInches(c.Length) : LengthText.Millimetres(c.Length, 1))}"));
    }

    /// <summary>The rows in the order in which Enter goes through them.</summary>
    public static IEnumerable<string> Paths(DrawingText text)
    {
        yield return "";
        yield return "line";
        yield return "service";
        foreach (var run in text.Runs)
        {
            yield return run.Path;
            yield return run.Start.Path;
            foreach (var leg in run.Legs)
                yield return leg.Path;
        }
    }

    public static WrittenRow? RowAt(DrawingText text, string path) => path switch
    {
        "" => text.Top,
        "line" => text.Line,
        "service" => text.Service,
        "shop" => text.Shop,
        "shop.envelope" => text.Envelope,
        _ when EditorState.LegAt(path) is { } at => at.Run >= text.Runs.Count ? null
            : at.Leg >= 0 ? at.Leg < text.Runs[at.Run].Legs.Count ? text.Runs[at.Run].Legs[at.Leg] : null
            : path == text.Runs[at.Run].Path ? text.Runs[at.Run].Row : text.Runs[at.Run].Start,
        _ => text.Accepted.FirstOrDefault(a => a.Path == path),
    };

    /// <summary>What a row may hold.</summary>
    public static IReadOnlyList<Offer> OffersAt(DrawingText text, string path)
    {
        switch (path)
        {
            case "":
                return Offers.Top(text);
            case "line":
                return Offers.Line(text);
            case "service":
                return Offers.Service(text);
            case "shop":
                return Offers.Shop(text);
            case "shop.envelope":
                return Offers.Envelope(text);
        }

        if (EditorState.LegAt(path) is { } at)
        {
            if (at.Run >= text.Runs.Count)
                return [];
            return at.Leg >= 0 ? Offers.Leg(text, at.Run, at.Leg) : path == text.Runs[at.Run].Path ? Offers.Run(text, at.Run) : Offers.Start(text, at.Run);
        }

        return
        [
            new("rule", "Name of the rule.", OfferKind.Text, [], IsRequired: true, null),
            new("at", "The place: leg 3 of main, start of main, item 4; left out for the whole drawing.", OfferKind.Text, [], IsRequired: false, null),
            new("why", "The reason; it stays on the cover sheet.", OfferKind.Text, [], IsRequired: true, null),
        ];
    }

    /// <summary>The field with which a row begins.</summary>
    public static string FirstKey(DrawingText text, string path) => OffersAt(text, path) is [var first, ..] ? first.Key : "";

    private static IEnumerable<string> AllPaths(DrawingText text) => Paths(text).Skip(1).Append("shop").Append("shop.envelope").Concat(text.Accepted.Select(a => a.Path));

    private static string? RowOf(string at, HashSet<string> paths)
    {
        while (at.Length > 0 && !paths.Contains(at))
            at = at[..Math.Max(0, at.LastIndexOfAny(['.', '[']))];
        return at.Length > 0 ? at : null;
    }

    private static bool IsShown(WrittenRow row, Offer offer, bool isAsked) => isAsked || offer.IsRequired || row.Cells.ContainsKey(offer.Key) || (row.Path, EditorState.LegAt(row.Path)) switch
    {
        ("line", _) => UsualOfLine.Contains(offer.Key),
        (_, { Leg: >= 0 }) => UsualOfLeg.Contains(offer.Key),
        (_, { }) => offer.Key is "run" or "flow" or "to" or "from" or "at",
        _ => true,
    };

    private static string Caption(string path, string key) => (path.Length == 0, key) switch
    {
        (true, "drawing") => "number",
        (true, "shop") => "shop rules file",
        (true, "materials") => "material list file",
        _ => PlainWords.Called(key),
    };

    private static string Written(WrittenRow row)
    {
        var all = new StringBuilder();
        foreach (var (key, value) in row.Cells)
            all.Append(key).Append('\u0001').Append(value).Append('\u0002');
        return all.ToString();
    }

    private static string Number(int n) => n.ToString(CultureInfo.InvariantCulture);
}
