using System.Globalization;
using Rootgap.Drawings;
using Rootgap.Findings;
using Rootgap.Measure;

namespace Rootgap.FitUp;

/// <summary>A file with the readings of a spool's final check: <c>spool: 2</c>, <c>readings:</c>, and where wanted <c>base:</c> and <c>state: tacked</c>.</summary>
public sealed class FinalReadings
{
    private readonly YamlMap map;

    private FinalReadings(YamlMap map) => this.map = map;

    /// <summary>The spool that it names.</summary>
    public string Spool => Word(map, "spool") ?? "";

    /// <summary>The end by which the spool was set; empty for the usual one.</summary>
    public string Base => Word(map, "base") ?? "";

    /// <summary>Read before the welds had drawn in.</summary>
    public bool IsTacked => string.Equals(Word(map, "state"), "tacked", StringComparison.OrdinalIgnoreCase);

    private static readonly string[] Keys = ["spool", "base", "state", "readings", "drawing", "revision", "taken", "by", "error", "say", "verdict"];
    private static readonly string[] EntryKeys = ["read", "from", "to", "way", "of", "along", "across", "mm", "in", "deg", "sd"];
    private static readonly string[] Words = ["tape", "height", "offset", "face lean", "face level", "holes", "hole line"];

    /// <summary>Reads such a file, or a record of several of which the last counts; null where the file is of joints, or cannot be read at all.</summary>
    public static FinalReadings? Read(string text, string file)
    {
        var root = YamlTree.Read(text, file, (_, _, _) => { });
        if (root is YamlList list)
            root = list.Items.LastOrDefault();
        return root is YamlMap found && Word(found, "spool") is not null ? new(found) : null;
    }

    /// <summary>What one row of such a file says, such as <c>{read: tape, from: C2 12, to: C5 12, mm: 2773.5}</c>; nothing where it does not fit the spool's ends.</summary>
    public static IReadOnlyList<EndTaken> OfRow(FinalCheck check, string row) =>
        Read($"spool: {Quoted(check.Spool.Spool.Name)}\nreadings:\n  - {row.ReplaceLineEndings(" ")}\n", "row")?.Of(check) is { Errors.Count: 0, Taken: var taken } ? taken : [];

    /// <summary>The readings at the ends of a spool, with all that is wrong with them.</summary>
    public (IReadOnlyList<EndTaken> Taken, IReadOnlyList<Finding> Errors) Of(FinalCheck check)
    {
        var errors = new ReadingErrors();
        void Error(Place where, string message, string remedy) => errors.Add("bad-reading", where, "", message, remedy);
        List<EndTaken> taken = [];
        foreach (var (key, _) in map.Pairs)
        {
            if (!Keys.Contains(key.Value, StringComparer.Ordinal))
                Error(key.Where, $"A final check's file has no key \"{key.Value}\".", Near(key.Value, Keys));
        }

        if (Word(map, "state") is { } state && state.ToUpperInvariant() is not ("TACKED" or "WELDED"))
            Error(map["state"]!.Where, $"\"{state}\" is no state of a spool.", "It is tacked or welded.");
        if (Base.Length > 0 && check.Find(Base) is null)
            Error(map["base"]!.Where, $"The spool has no end {Base}.", NamesOf(check));
        if (map["readings"] is not YamlList list)
            Error(map["readings"]?.Where ?? map.Where, "There is no list of readings.", "Write `readings:` and under it a line such as `- {read: tape, from: C1 12, to: C5 12, mm: 2345}`.");
        else
        {
            foreach (var node in list.Items)
            {
                if (node is YamlMap entry)
                    Entry(entry, check, taken, Error);
                else
                    Error(node.Where, "A reading is written {read: tape, from: C1 12, to: C5 12, mm: 2345}.", "Put the reading into braces.");
            }
        }

        return (taken, errors.InOrder);
    }

    private static void Entry(YamlMap map, FinalCheck check, List<EndTaken> taken, Action<Place, string, string> error)
    {
        var isBad = false;
        void Error(Place where, string message, string remedy)
        {
            isBad = true;
            error(where, message, remedy);
        }

        foreach (var (key, _) in map.Pairs)
        {
            if (!EntryKeys.Contains(key.Value, StringComparer.Ordinal))
                Error(key.Where, $"A reading has no key \"{key.Value}\".", Near(key.Value, EntryKeys));
        }

        var word = Word(map, "read");
        if (word is null || !Words.Contains(word, StringComparer.OrdinalIgnoreCase))
        {
            Error(map["read"]?.Where ?? map.Where, word is null ? "This reading does not say what was read." : $"\"{word}\" is no reading of a final check.", word is null ? "Add `read:` with one of: " + string.Join(", ", Words) + "." : Near(word, Words));
            return;
        }

        var sd = Number(map, "sd", Error);
        if (sd is <= 0)
            Error(map["sd"]!.Where, "A spread is greater than 0.", "Write how well it was read: one standard deviation.");
        foreach (var (reading, key) in Readings(map, word.ToUpperInvariant(), check, Error))
        {
            if (isBad || Value(map, reading, key, Error) is not { } value)
                continue;
            if (reading is EndReading.Tape && value > 3 * check.Of(reading).Value + 500)
                Error(map.Where, string.Create(CultureInfo.InvariantCulture, $"A {reading.Text} of {value:0.#} mm cannot be: it should be about {check.Of(reading).Value:0.#}."), "Is the decimal point in its place?");
            else if (reading.IsAngle && Math.Abs(value) > Math.PI / 2)
                Error(map.Where, $"A {reading.Text} over 90 degrees cannot be.", "A slope lies between -90 and 90 degrees to the horizontal.");
            else if (!reading.IsSigned && value < 0)
                Error(map.Where, $"A {reading.Text} below nought cannot be.", "Write the distance without a minus sign.");
            else
                taken.Add(new(reading, value, sd is { } s ? reading.IsAngle ? Angles.ToRadians(s) : s : null));
        }
    }

    private static IEnumerable<(EndReading Reading, string Key)> Readings(YamlMap map, string word, FinalCheck check, Action<Place, string, string> error)
    {
        switch (word)
        {
            case "TAPE" or "HEIGHT" or "OFFSET":
                var to = Lip(map, "to", check, error);
                if (to is not { } far)
                    yield break;
                if (word == "OFFSET")
                {
                    var offsets = check.Targets.Select(t => t.Reading).OfType<EndReading.Offset>().Where(o => o.Lip.End == far.End).ToList();
                    if (Word(map, "way") is not ("along" or "across"))
                        error(map["way"]?.Where ?? map.Where, "This offset does not say which way it was read.", "Write `way: along` or `way: across`, by the chalk line.");
                    else if (offsets.Find(o => o.IsAcross == (Word(map, "way") == "across")) is not { } offset)
                        error(map.Where, $"There is no offset of {far}: it is the base, or its plumb line is not free.", "Take another reading of its card.");
                    else
                        yield return (offset with { Lip = far }, "mm");
                    yield break;
                }

                if (Lip(map, "from", check, error) is not { } near)
                    yield break;
                if (near.End == far.End)
                    error(map.Where, "Both places are on one end.", "Give two ends.");
                else if (word == "HEIGHT")
                    yield return (new EndReading.Height(near, far), "mm");
                else
                    yield return (new EndReading.Tape(near, far, check.Targets.Any(t => t.Reading is EndReading.Tape { IsDiagonal: true } d && d.Equals(new EndReading.Tape(near, far, false)))), "mm");
                yield break;
        }

        if (Word(map, "of") is not { } of || check.Find(of) is not { } end)
        {
            error(map["of"]?.Where ?? map.Where, Word(map, "of") is { } wrong ? $"The spool has no end {wrong}." : "This reading does not say of which end.", NamesOf(check));
            yield break;
        }

        if (word == "FACE LEVEL")
        {
            var before = map["along"] is null && map["across"] is null;
            if (before)
                error(map.Where, "This face level has no value.", "Write `along:` or `across:` with degrees.");
            if (map["along"] is not null)
                yield return (new EndReading.FaceLevel(end.Name, IsAcross: false), "along");
            if (map["across"] is not null)
                yield return (new EndReading.FaceLevel(end.Name, IsAcross: true), "across");
            yield break;
        }

        if (word != "FACE LEAN" && end.Holes is null)
        {
            error(map.Where, $"{end.Name} has no bolt holes.", "Its holes cannot be read.");
            yield break;
        }

        yield return (word switch { "HOLES" => new EndReading.Holes(end.Name), "HOLE LINE" => new EndReading.HoleLine(end.Name), _ => new EndReading.Lean(end.Name) }, "deg");
    }

    private static LipPlace? Lip(YamlMap map, string key, FinalCheck check, Action<Place, string, string> error)
    {
        if (Word(map, key) is not { } text)
        {
            error(map.Where, $"This reading does not say `{key}:` where.", "Write an end and a clock position, such as `C5 12`.");
            return null;
        }

        var cut = text.LastIndexOf(' ');
        if (cut > 0 && check.Find(text[..cut].Trim()) is { } end && int.TryParse(text.AsSpan(cut + 1), NumberStyles.None, CultureInfo.InvariantCulture, out var at) && StandingJoint.Clock.Contains(at))
            return new(end.Name, at);
        error(map[key]!.Where, $"\"{text}\" is no lip of this spool.", "Write an end and 12, 3, 6 or 9 o'clock looking out of it. " + NamesOf(check));
        return null;
    }

    private static double? Value(YamlMap map, EndReading reading, string key, Action<Place, string, string> error)
    {
        if (reading.IsAngle)
        {
            if (map[key] is null)
                error(map.Where, $"This {reading.Name} has no value.", "Write `deg:` with degrees.");
            return Number(map, key, error) is { } degrees ? Angles.ToRadians(degrees) : null;
        }

        if (map["in"] is YamlText { IsEmpty: false } inches)
        {
            var text = inches.Value.Trim();
            var isMinus = text.StartsWith('-');
            if (LengthText.TryParse(isMinus ? text[1..] : text, Units.Inches, out var mm))
                return isMinus ? -mm : mm;
            error(inches.Where, $"\"{inches.Value}\" is not a length.", "Write such as 24 1/16, or 2'-0 1/16\".");
            return null;
        }

        if (map["mm"] is null)
            error(map.Where, $"This {reading.Name} has no value.", "Write `mm:` with the reading, or `in:` with inches.");
        return Number(map, "mm", error);
    }

    /// <summary>The readings and what was said of them as one entry of the spool's record, YAML; it can itself be read again.</summary>
    public static string Entry(FinalCheck check, IReadOnlyList<EndTaken> taken, FinalFound found, IReadOnlyList<string> say, string drawing, string revision, DateTimeOffset at)
    {
        var text = new System.Text.StringBuilder();
        var c = CultureInfo.InvariantCulture;
        text.Append(c, $"- spool: {Quoted(check.Spool.Spool.Name)}\n  drawing: {Quoted(drawing)}\n  revision: {Quoted(revision)}\n  taken: {Quoted(at.ToString("yyyy-MM-ddTHH:mm:sszzz", c))}\n");
        text.Append(c, $"  base: {Quoted(check.Base?.Name ?? "")}\n  state: {(check.IsWelded ? "welded" : "tacked")}\n  readings:\n");
        foreach (var t in taken)
            text.Append(c, $"    - {Row(t)}\n");
        text.Append(c, $"  verdict: {Remedy.Of(found.Verdict)}\n  say:\n");
        foreach (var line in say)
            text.Append(c, $"    - {Quoted(line)}\n");
        return text.ToString();
    }

    /// <summary>The readings alone, as a file to be given to <c>rootgap fit --final</c>.</summary>
    public static string File(FinalCheck check, IEnumerable<EndTaken> taken) =>
        $"spool: {Quoted(check.Spool.Spool.Name)}\nbase: {Quoted(check.Base?.Name ?? "")}\nstate: {(check.IsWelded ? "welded" : "tacked")}\nreadings:\n{string.Concat(taken.Select(t => $"  - {Row(t)}\n"))}";

    /// <summary>A reading as a row of such a file.</summary>
    public static string Row(EndTaken taken)
    {
        var (reading, value) = (taken.Reading, taken.Reading.IsAngle ? Angles.ToDegrees(taken.Value) : taken.Value);
        var where = reading switch
        {
            EndReading.Tape t => $"from: {t.From}, to: {t.To}",
            EndReading.Height h => $"from: {h.From}, to: {h.To}",
            EndReading.Offset o => $"to: {o.Lip}, way: {(o.IsAcross ? "across" : "along")}",
            _ => $"of: {reading.Ends[0]}",
        };
        var key = reading is EndReading.FaceLevel level ? level.IsAcross ? "across" : "along" : reading.IsAngle ? "deg" : "mm";
        var sd = taken.Sd is { } s ? FormattableString.Invariant($", sd: {(reading.IsAngle ? Angles.ToDegrees(s) : s):0.####}") : "";
        return FormattableString.Invariant($"{{read: {reading.Name}, {where}, {key}: {value:0.####}{sd}}}");
    }

    private static string Quoted(string text) => "\"" + text.Replace("\\", "\\\\", StringComparison.Ordinal).Replace("\"", "\\\"", StringComparison.Ordinal) + "\"";

    private static string NamesOf(FinalCheck check) => $"Its ends are: {string.Join(", ", check.Ends.Select(e => e.Name))}.";

    private static string? Word(YamlMap map, string key) => map[key] is YamlText { IsEmpty: false } text ? text.Value.Trim() : null;

    private static double? Number(YamlMap map, string key, Action<Place, string, string> error)
    {
        switch (map[key])
        {
            case null or YamlText { IsEmpty: true }:
                return null;
            case YamlText text when double.TryParse(text.Value, NumberStyles.Float, CultureInfo.InvariantCulture, out var number) && Math.Abs(number) < 1e6:
                return number;
            case var node:
                error(node.Where, $"\"{(node as YamlText)?.Value ?? key}\" is not a number.", "Write a number such as 612.5.");
                return null;
        }
    }

    private static string Near(string word, string[] words) => Nearest.To(word, words) is { } near ? $"Did you mean \"{near}\"?" : "It is one of: " + string.Join(", ", words) + ".";
}
