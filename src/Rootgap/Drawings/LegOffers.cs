using System.Globalization;
using Rootgap.Measure;

namespace Rootgap.Drawings;

/// <summary>What fits in a leg's fields, seen from the rows before it.</summary>
internal sealed class LegOffers(DrawingText text, int run, int leg, WrittenRow row)
{
    private readonly WrittenRun written = text.Runs[run];
    private readonly NominalSize size = Offers.SizeAt(text, run, leg);

    private bool IsLast => leg >= written.Legs.Count - 1;

    private bool IsMadeUp => row["by"].Equals("makeup", StringComparison.OrdinalIgnoreCase);

    private bool IsReturn => row["by"].Equals("return", StringComparison.OrdinalIgnoreCase);

    private bool BeginsReturn => leg + 1 < written.Legs.Count && written.Legs[leg + 1]["by"].Equals("return", StringComparison.OrdinalIgnoreCase);

    private bool HasPipe => !IsReturn && (!IsMadeUp || row["nipple"].Length > 0);

    public IEnumerable<Offer> All()
    {
        var to = row["to"];
        var offers = new List<Offer> { Go(), By(), To() };
        switch (to)
        {
            case "tee":
                offers.AddRange([Branch(isRequired: row["enter"] != "branch"), Name(), Offers.Of(DrawingShape.Leg, "branch size", size.IsNone ? null : size.ToString(), BranchSizes("reducing tee")), Offers.WithUsual(DrawingShape.Leg, "enter")]);
                if (row["enter"] == "branch")
                {
                    offers.RemoveAll(o => o.Key is "branch" or "branch size");
                    offers.Add(Size(s => s >= size, isRequired: false));
                }

                break;
            case "lateral":
                offers.AddRange([Branch(isRequired: true), Name(), Size(s => s <= size, isRequired: false) with { Key = "branch size" }]);
                break;
            case "outlet" or "half coupling" or "stub-in":
                offers.AddRange([Branch(isRequired: true), Size(s => s <= size, isRequired: true), Name()]);
                break;
            case "drain" or "vent":
                offers.AddRange(
                [
                    Size(s => s <= size, isRequired: true), Branch(isRequired: Axis(row["go"]) == 2) with { Default = Axis(row["go"]) == 2 ? null : to == "vent" ? "up" : "down" },
                    Offers.Of(DrawingShape.Leg, "kind", "outlet", FileWords.DrainKinds), Offers.Of(DrawingShape.Leg, "nipple") with { IsRequired = row["valve"] != "none" },
                    Offers.Of(DrawingShape.Leg, "valve", "gate", FileWords.DrainValves), Offers.Of(DrawingShape.Leg, "closed by", row["ends"] == "threaded" ? "plug" : "cap", FileWords.DrainClosings),
                ]);
                break;
            case "reducer":
                offers.AddRange([Offers.Of(DrawingShape.Leg, "size", words: BranchSizes("reducer")) with { IsRequired = true }, Offers.Of(DrawingShape.Leg, "kind", "concentric", FileWords.ReducerKinds)]);
                if (row["kind"] == "eccentric")
                    offers.Add(Offers.Of(DrawingShape.Leg, "flat"));
                break;
            case "swage":
                offers.AddRange([Size(s => s != size, isRequired: true), Offers.Of(DrawingShape.Leg, "kind", "concentric", FileWords.ReducerKinds)]);
                if (row["kind"] == "eccentric")
                    offers.Add(Offers.Of(DrawingShape.Leg, "flat"));
                break;
            case "valve":
                offers.Add(Offers.Of(DrawingShape.Leg, "kind", words: FileWords.ValveKinds) with { IsRequired = true });
                break;
            case "support":
                offers.Add(Offers.Of(DrawingShape.Leg, "kind", words: FileWords.SupportKinds) with { IsRequired = true });
                break;
            case "tie-in":
                offers.Add(Offers.Of(DrawingShape.Leg, "with", words: Offers.FreeNames(text, row["with"]), kind: OfferKind.Choice) with { IsRequired = true });
                break;
        }

        if (to.Length > 0)
            offers.AddRange(Details(to).Where(d => !offers.Exists(o => o.Key == d.Key)).ToList());
        return [.. offers, .. Offers.Unfitting(DrawingShape.Leg, row, offers.Select(o => o.Key))];
    }

    private Offer Go()
    {
        var before = leg > 0 && leg <= written.Legs.Count ? written.Legs[leg - 1] : null;
        string[] words = [.. FileWords.Directions];
        string? usual = null;
        if (before is not null && IsWord(before["go"]))
        {
            var axis = Axis(before["go"]);
            words = before["to"] switch
            {
                "elbow" or "bend" or "mitred bend" => [.. words.Where(w => Axis(w) != axis)],
                "tee" when before["enter"] == "branch" => [.. words.Where(w => Axis(w) != axis)],
                "" => [.. words.Where(w => w == before["go"] || Axis(w) != axis)],
                _ => [before["go"]],
            };
        }
        else if (before is not null && before["to"] is not ("elbow" or "bend" or "mitred bend" or "" or "tee") && before["go"].Length > 0)
        {
            words = [before["go"]];
        }
        else if (leg == 0 && written.Start["from"] is { Length: > 0 } from && text.Runs.SelectMany(r => r.Legs).FirstOrDefault(l => l["name"] == from)?["branch"] is { Length: > 0 } branch)
        {
            words = [branch];
        }

        if (words.Length == 1)
            usual = words[0];
        return Offers.Of(DrawingShape.Leg, "go", words: words) with { Default = usual };
    }

    private Offer By()
    {
        var before = leg > 0 && leg <= written.Legs.Count ? written.Legs[leg - 1]["to"] : written.Start["to"];
        var isVector = row["go"].Contains(' ', StringComparison.Ordinal);
        var canBeMadeUp = CanBeMadeUp(before) && CanBeMadeUp(row["to"]);
        var canReturn = leg > 0 && before == "elbow" && row["to"] is "elbow" or "";
        return Offers.Of(DrawingShape.Leg, "by", words: [.. canBeMadeUp ? ["makeup"] : Array.Empty<string>(), .. canReturn ? ["return"] : Array.Empty<string>()]) with { IsRequired = !isVector };
    }

    private Offer To()
    {
        var free = Offers.FreeNames(text, row["with"]);
        return Offers.Of(DrawingShape.Leg, "to", words: [.. DrawingShape.ToWords.Where(w => w == row["to"] || w switch
        {
            _ when WorkPointKind.Of(w) is { IsOtherWord: true } => false,
            "tie-in" => IsLast && free.Count > 0,
            _ => WorkPointKind.Of(w) is { } kind && (kind.EndsRun ? IsLast : kind.CanBeMadeUpTo || !IsMadeUp),
        })]);
    }

    private static bool CanBeMadeUp(string to) => WorkPointKind.Of(to) is not { CanBeMadeUpTo: false };

    private Offer Branch(bool isRequired)
    {
        var axis = IsWord(row["go"]) ? Axis(row["go"]) : -1;
        return Offers.Of(DrawingShape.Leg, "branch", words: [.. FileWords.Directions.Where(w => Axis(w) != axis)]) with { IsRequired = isRequired };
    }

    private Offer Name()
    {
        var names = text.Runs.SelectMany(r => r.Legs).Select(l => l["name"]).ToHashSet(StringComparer.Ordinal);
        var n = 1;
        while (names.Contains("T" + n.ToString(CultureInfo.InvariantCulture)))
            n++;
        return Offers.Of(DrawingShape.Leg, "name", words: row["name"].Length > 0 ? [] : ["T" + n.ToString(CultureInfo.InvariantCulture)]);
    }

    /// <summary>The first tag that no support has.</summary>
    private string NextTag()
    {
        var tags = text.Runs.SelectMany(r => r.Legs).Select(l => l["tag"]).ToHashSet(StringComparer.OrdinalIgnoreCase);
        var n = 1;
        while (tags.Contains("PS-" + n.ToString(CultureInfo.InvariantCulture)))
            n++;
        return "PS-" + n.ToString(CultureInfo.InvariantCulture);
    }

    private Offer Size(Func<NominalSize, bool> fits, bool isRequired) =>
        Offers.Of(DrawingShape.Leg, "size", words: [.. NominalSize.PipeSizes.Where(s => size.IsNone || fits(s)).Select(s => s.ToString())]) with { IsRequired = isRequired };

    /// <summary>Sizes to which the standard reduces from the line's, or enlarges.</summary>
    private IReadOnlyList<string> BranchSizes(string item)
    {
        if (size.IsNone || Ends is "socket" or "threaded")
            return [.. NominalSize.PipeSizes.Where(s => size.IsNone || s < size).Select(s => s.ToString())];
        return Offers.ReducedSizes(item, size);
    }

    private string Ends => row["ends"] is { Length: > 0 } own ? own : Inherited("ends");

    private string Inherited(string key) => written.Row[key] is { Length: > 0 } said ? said : text.Line[key];

    /// <summary>The keys that go with the work point, and those that every leg may have.</summary>
    private IEnumerable<Offer> Details(string to)
    {
        foreach (var key in DrawingShape.KeysOf.GetValueOrDefault(to) ?? [])
        {
            switch (key)
            {
                case "branch" or "branch size" or "enter" or "kind" or "flat" or "with":
                case "holes" or "holes from" when WorkPointKind.Of(to)!.HasOwnEnds && row["ends"] is not ("" or "flanged" or "wafer"):
                case "holes from" when row["holes"].Length == 0 && Axis(row["go"]) >= 0 && row["fall"].Length == 0 && row["rise"].Length == 0 && row[key].Length == 0:
                case "mass" when to == "joint" && row["mass"].Length == 0 && row["between"].Length == 0:
                case "fitting class" when Ends is not ("socket" or "threaded"):
                    break;
                case "ends":
                    var kind = WorkPointKind.Of(to)!;
                    var words = kind.Choices.First(c => c.Key == key).Words;
                    // What has ends of its own has the first of them, unless it says otherwise; a fitting those of its line.
                    yield return Offers.Of(DrawingShape.Leg, key, kind.HasOwnEnds ? FileWords.FlangelessClasses.Contains(row["class"]) ? Inherited(key) == "threaded" ? "threaded" : "socket" : words[0] : Inherited(key) is { Length: > 0 } said ? said : "butt", words);
                    break;
                case "fitting class":
                    yield return Offers.Of(DrawingShape.Leg, key, Inherited(key) is { Length: > 0 } line ? line : "3000", Offers.FittingClasses(Ends == "socket"));
                    break;
                case "attach":
                    yield return Offers.Of(DrawingShape.Leg, key, row["kind"] is "shoe" or "anchor" or "trunnion" or "lug" ? "welded" : "clamped", row["kind"] is "trunnion" or "lug" ? ["welded"] : row["kind"] == "clamp" ? ["clamped"] : FileWords.Attachments);
                    break;
                case "side":
                    yield return Offers.Of(DrawingShape.Leg, key, Axis(row["go"]) == 2 ? null : row["kind"] == "hanger" ? "up" : "down", [.. FileWords.Directions.Where(w => Axis(w) != Axis(row["go"]) || !IsWord(row["go"]))]);
                    break;
                case "tag":
                    yield return Offers.Of(DrawingShape.Leg, key, words: row["tag"].Length > 0 ? [] : [NextTag()]);
                    break;
                case "stem":
                    yield return Offers.Of(DrawingShape.Leg, key, words: [.. FileWords.Directions.Where(w => Axis(w) != Axis(row["go"]) || !IsWord(row["go"]))]);
                    break;
                case "what":
                    yield return Offers.Of(DrawingShape.Leg, key, words: InLineItemPoint.Usual) with { IsRequired = true };
                    break;
                default:
                    yield return Offers.WithUsual(DrawingShape.Leg, key) with { IsRequired = WorkPointKind.Of(to)!.Required.Contains(key, StringComparer.Ordinal) };
                    break;
            }
        }

        if (WorkPointKind.Of(to) is not { HasOwnNipple: true } && !IsReturn)
            yield return Offers.Of(DrawingShape.Leg, "nipple");
        if (HasPipe)
            yield return Offers.Of(DrawingShape.Leg, "begin", "shop");
        if (!IsReturn)
            yield return Offers.Of(DrawingShape.Leg, "end", "shop");
        if (HasPipe)
            yield return Offers.Of(DrawingShape.Leg, "begin number");
        if (!IsReturn)
            yield return Offers.Of(DrawingShape.Leg, "end number");
        if (row["go"] is "north" or "south" or "east" or "west")
        {
            if (row["rise"].Length == 0)
                yield return Offers.Of(DrawingShape.Leg, "fall");
            if (row["fall"].Length == 0)
                yield return Offers.Of(DrawingShape.Leg, "rise");
        }

        yield return Offers.Of(DrawingShape.Leg, "spool", words: Offers.Spools(text));
        if (Offers.WareOf(to) is { } ware && !IsReturn)
            yield return Offers.Of(DrawingShape.Leg, "item", words: Offers.Items(text, BeginsReturn ? Ware.Return : ware));
        if (HasPipe)
            yield return Offers.Of(DrawingShape.Leg, "pipe item", words: Offers.Items(text, row["nipple"].Length > 0 ? Ware.Nipple : Ware.Pipe));
        yield return Offers.Of(DrawingShape.Leg, "at");
        yield return Offers.Of(DrawingShape.Leg, "note");
        foreach (var field in Offers.LineFields(DrawingShape.Leg, row, size, text.Line).Where(f => to is "flange" or "joint" or "valve" || f.Key is "schedule" or "material"))
            yield return written.Row[field.Key] is { Length: > 0 } own ? field with { Default = own } : field;
    }

    private static bool IsWord(string go) => Axis(go) >= 0;

    private static int Axis(string word) => word switch
    {
        "east" or "west" => 0,
        "north" or "south" => 1,
        "up" or "down" => 2,
        _ => -1,
    };
}
