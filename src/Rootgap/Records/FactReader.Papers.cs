using System.Globalization;
using System.Text.Json;

namespace Rootgap.Records;

internal sealed partial class FactReader
{
    private const int MostWords = 50;
    private const int MostWelds = 20_000;

    /// <summary>The facts of which the papers are made; null for another kind.</summary>
    private Fact? OfPapers(string kind, string id, string who, DateTimeOffset when)
    {
        switch (kind)
        {
            case "fit-up-seen":
                return new FitUpSeen(id, who, when, Drawing(), Word("joint"))
                {
                    Gap = MaybeNumber("gap", -50, 50, "no gap in mm"),
                    HiLo = MaybeNumber("hi-lo", 0, 50, "no step in mm"),
                    Over = MaybeId("readings"),
                    IsRefused = MaybeYes("refused"),
                    Weld = Weld(),

                    Versions = Ids("version"),
                    Note = Note(),
                };
            case "examined":
                return new Examined(id, who, when, Drawing(), Word("joint"), One<ExaminationMethod>("method", FactJson.WordOf), YesNo("accepted"))
                {
                    Extent = MaybeNumber("extent", 0, 100, "no share of the weld's length in %") ?? 100,
                    Report = MaybeWord("report"),
                    Found = Text("found", LongestNote, needed: false),
                    RejectedLength = MaybeNumber("rejected-length", 0, 1e5, "no length of a weld in mm"),
                    Weld = Weld(),

                    Versions = Ids("version"),
                    Note = Note(),
                };
            case "heat-treated":
                return new HeatTreated(id, who, when, Drawing(), Word("joint"), Word("chart"))
                {
                    Temperature = MaybeNumber("temperature", -200, 2000, "no temperature in °C"),
                    Minutes = MaybeNumber("minutes", 0, 1e5, "no time in minutes"),
                    Weld = Weld(),

                    Versions = Ids("version"),
                    Note = Note(),
                };
            case "repair":
                return new Repair(id, who, when, Drawing(), Word("joint"), YesNo("cut-out")) { Why = Text("why", LongestNote, needed: false), Weld = Weld(), Versions = Ids("version"), Note = Note() };
            case "welds-drawn":
                return new WeldsDrawn(id, who, when, Drawing(), Word("lot"), One<ExaminationMethod>("method", FactJson.WordOf), Share(), Whole("seed"), (int)Whole("round"), Drawn()) { Since = MaybeDate("since"), Until = MaybeDate("until"), For = MaybeWord("for"), Versions = Ids("version"), Note = Note() };
            case "certificate":
                return new CertificateNoted(id, who, when, Word("heat"), Word("number"))
                {
                    Type = MaybeWord("type"),
                    Product = MaybeWord("product"),
                    Size = MaybeWord("size"),
                    Schedule = MaybeWord("schedule"),
                    Material = MaybeWord("material"),
                };
            case "welder":
                return new WelderNoted(id, who, when, Word("stamp")) { Name = MaybeWord("name"), Procedures = Words("procedures"), Until = MaybeDate("until") };
            case "bolted-up":
                return new BoltedUp(id, who, when, Drawing(), Word("joint")) { Gasket = MaybeWord("gasket"), Lubricant = MaybeWord("lubricant"), Tool = MaybeWord("tool"), Passes = Tightening(), Versions = Ids("version"), Note = Note() };
            case "tested":
                return new Tested(id, who, when, Drawing(), Word("pack"), One<TestMedium>("medium", FactJson.WordOf), MaybeNumber("bar", 0, 1e5, "no pressure in bar", isNeeded: true) ?? 0, YesNo("passed"))
                {
                    From = MaybeTime("from"),
                    To = MaybeTime("to"),
                    Gauges = Words("gauges"),

                    Versions = Ids("version"),
                    Note = Note(),
                };
            case "released":
                return new Released(id, who, when, Drawing(), Word("spool")) { Versions = Ids("version"), Note = Note() };
            case "coated":
                return new Coated(id, who, when, Drawing(), Word("spool"), One<Coating>("with", FactJson.WordOf)) { Versions = Ids("version"), Note = Note() };
            case "note":
                return new NoteTaken(id, who, when, Drawing(), MaybeWord("about") ?? "") { Versions = Ids("version"), Note = Note() };
            case "paper-ticked":
                return new PaperTicked(id, who, when, Drawing(), Word("paper")) { Page = Page(), Ticked = Ticks("ticked"), TakenBack = Ticks("taken back"), Versions = Ids("version"), Note = Note() };
            default:
                return null;
        }
    }

    private int Page()
    {
        var page = MaybeNumber("page", 1, PaperTicked.LastPage, "no page of a paper") ?? 1;
        if (page != Math.Floor(page))
            Fail("page", "is no whole number.");
        return (int)page;
    }

    private List<PaperTick> Ticks(string key)
    {
        List<PaperTick> ticks = [];
        foreach (var word in Words(key))
        {
            if (PaperTick.Parse(word) is { } tick)
                ticks.Add(tick);
            else
                Fail(key, $"\"{word}\" is no place on a picture, such as 1250 8430: ten thousandths of its width and its height.");
        }

        return ticks;
    }

    private WeldMark Weld()
    {
        var word = MaybeWord("weld") ?? "";
        if (WeldMark.Parse(word) is { } mark)
            return mark;
        Fail("weld", $"\"{word}\" is no number of a weld after repairs such as R1, C1 or C1 R2.");
        return WeldMark.First;
    }

    private List<PassesMade> Passes()
    {
        List<PassesMade> passes = [];
        foreach (var given in Objects("passes", MostWords))
        {
            var inner = new FactReader(given);
            var made = new PassesMade(inner.Word("welder"), [.. inner.Words("made").Select(w => inner.Among<Pass>("made", w, FactJson.WordOf)).Distinct()]);
            if (inner.Wrong is null && made.Made.Count == 0)
                inner.Fail("made", "names no pass: root, fill, cap.");
            if (inner.Wrong is { } wrong)
                Fail("passes", wrong);
            passes.Add(made);
        }

        return passes;
    }

    private List<TighteningPass> Tightening()
    {
        List<TighteningPass> passes = [];
        foreach (var given in Objects("passes", MostWords))
        {
            var inner = new FactReader(given);
            passes.Add(new(inner.Word("pass"), inner.Word("value")));
            if (inner.Wrong is { } wrong)
                Fail("passes", wrong);
        }

        return passes;
    }

    private List<WeldInDraw> Drawn()
    {
        List<WeldInDraw> welds = [];
        foreach (var given in Objects("welds", MostWelds))
        {
            var inner = new FactReader(given);
            welds.Add(new(inner.Word("joint"), inner.Weld(), inner.MaybeWord("welder") ?? "", inner.Place() ?? false, inner.MaybeYes("drawn")));
            if (inner.Wrong is { } wrong)
                Fail("welds", wrong);
        }

        return welds;
    }

    // Where it was welded; null where that is not said.
    private bool? Place()
    {
        var word = MaybeWord("at");
        if (word is not (null or "shop" or "site"))
            Fail("at", $"\"{word}\" is not one of shop, site.");
        return word is null ? null : word == "site";
    }

    private Deviation? Deviation()
    {
        switch (Get("deviation"))
        {
            case null or { ValueKind: JsonValueKind.Null }:
                return null;
            case { ValueKind: JsonValueKind.Object } given:
                var inner = new FactReader(given);
                var deviation = new Deviation(inner.Words("missing"), inner.Text("why", LongestNote, needed: true) ?? "", inner.Word("by"));
                if (inner.Wrong is null && deviation.Why.Trim().Length == 0)
                    inner.Fail("why", "is empty: a deviation has a reason.");
                if (inner.Wrong is { } wrong)
                    Fail("deviation", wrong);
                return deviation;
            default:
                Fail("deviation", "is none: write {\"missing\": [\"...\"], \"why\": \"...\", \"by\": \"...\"}.");
                return null;
        }
    }

    private double Share()
    {
        var share = Number("share") ?? -1;
        if (share is not (> 0 and <= 100))
            Fail("share", "is no share in %, more than 0 and at most 100.");
        return share;
    }

    private uint Whole(string key)
    {
        if (Get(key) is { ValueKind: JsonValueKind.Number } value && value.TryGetUInt32(out var whole) && whole <= int.MaxValue)
            return whole;
        Fail(key, "is no whole number from 0 to 2147483647.");
        return 0;
    }

    private double? MaybeNumber(string key, double least, double most, string otherwise, bool isNeeded = false)
    {
        var number = Number(key);
        if (number is null && isNeeded)
            Fail(key, "is missing.");
        if (number < least || most < number)
            Fail(key, string.Create(CultureInfo.InvariantCulture, $"is {number}: {otherwise}."));
        return number;
    }

    private DateTimeOffset? MaybeTime(string key) => MaybeWord(key) is { } text ? Time(key, text) : null;

    private DateOnly? MaybeDate(string key)
    {
        if (MaybeWord(key) is not { } text)
            return null;
        if (DateOnly.TryParseExact(text, "yyyy-MM-dd", CultureInfo.InvariantCulture, DateTimeStyles.None, out var date))
            return date;
        Fail(key, $"\"{text}\" is no date such as 2027-03-31.");
        return null;
    }

    private List<string> Words(string key)
    {
        List<string> words = [];
        if (Get(key) is not { ValueKind: not JsonValueKind.Null } given)
            return words;
        if (given.ValueKind != JsonValueKind.Array || MostWords < given.GetArrayLength())
        {
            Fail(key, "is no list of words.");
            return words;
        }

        foreach (var item in given.EnumerateArray())
        {
            if (item.ValueKind == JsonValueKind.String && item.GetString()! is { Length: > 0 and <= LongestNote } word)
                words.Add(word);
            else
                Fail(key, "holds something that is no text.");
        }

        return words;
    }

    private List<JsonElement> Objects(string key, int most)
    {
        if (Get(key) is not { ValueKind: not JsonValueKind.Null } given)
            return [];
        if (given.ValueKind == JsonValueKind.Array && given.GetArrayLength() <= most && given.EnumerateArray().All(e => e.ValueKind == JsonValueKind.Object))
            return [.. given.EnumerateArray()];
        Fail(key, "is no list of objects.");
        return [];
    }

    private T One<T>(string key, Func<T, string> wordOf)
        where T : struct, Enum => Among(key, Word(key), wordOf);

    private T Among<T>(string key, string word, Func<T, string> wordOf)
        where T : struct, Enum
    {
        foreach (var value in Enum.GetValues<T>())
        {
            if (wordOf(value) == word)
                return value;
        }

        Fail(key, $"\"{word}\" is not one of {string.Join(", ", Enum.GetValues<T>().Select(wordOf))}.");
        return default;
    }
}
