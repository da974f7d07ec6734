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

    // What is wrong with it is told where it is held against a spool.
    private ReadingRow AsIs => new(map, (_, _, _) => { });

    /// <summary>The spool that it names.</summary>
    public string Spool => AsIs.Word("spool") ?? "";

    /// <summary>The end by which the spool was set; empty for the usual one.</summary>
    public string Base => AsIs.Word("base") ?? "";

    /// <summary>Read before the welds had drawn in.</summary>
    public bool IsTacked => AsIs.Is("state", "tacked");

    private static readonly string[] Keys = ["spool", "base", "state", "readings", "drawing", "revision", "taken", "by", "error", "say", "verdict"];
    private static readonly string[] EntryKeys = ["read", "from", "to", "way", "of", "along", "across", "mm", "in", "deg", "sd"];
    private static readonly string[] Words = ["tape", "height", "offset", "face lean", "face level", "holes", "hole line"];

    /// <summary>Reads such a file, or a record of several of which the last counts; null where the file is of joints, or cannot be read at all.</summary>
    public static FinalReadings? Read(string text, string file)
    {
        var root = YamlTree.Read(text, file, (_, _, _) => { });
        if (root is YamlList list)
            root = list.Items.LastOrDefault();
        return root is YamlMap found && new FinalReadings(found) is { Spool.Length: > 0 } readings ? readings : null;
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
        var row = new ReadingRow(map, Error);
        row.Keys("A final check's file", Keys);
        row.State("a spool");
        if (Base.Length > 0 && check.Find(Base) is null)
            row.Error("base", $"The spool has no end {Base}.", NamesOf(check));
        if (row["readings"] is not YamlList list)
            row.Error("readings", "There is no list of readings.", "Write `readings:` and under it a line such as `- {read: tape, from: C1 12, to: C5 12, mm: 2345}`.");
        else
        {
            foreach (var node in list.Items)
            {
                if (node is YamlMap entry)
                    Entry(new(entry, Error), check, taken);
                else
                    Error(node.Where, "A reading is written {read: tape, from: C1 12, to: C5 12, mm: 2345}.", "Put the reading into braces.");
            }
        }

        return (taken, errors.InOrder);
    }

    private static void Entry(ReadingRow row, FinalCheck check, List<EndTaken> taken)
    {
        row.Keys("A reading", EntryKeys);
        if (row.Reads(Words, "a final check") is not { } word)
            return;
        var sd = row.Spread();
        foreach (var (reading, key) in Readings(row, word, check))
        {
            if (row.IsBad || Value(row, reading, key) is not { } value)
                continue;
            if (reading is EndReading.Tape && value > 3 * check.Of(reading).Value + 500)
                row.Error(row.Where, $"A {FinalWords.Of(reading, check)} of {Said(check, value)} cannot be: it should be about {Said(check, check.Of(reading).Value)}.", "Is the decimal point in its place?");
            else if (reading.IsAngle && Math.Abs(value) > Math.PI / 2)
                row.Error(row.Where, $"A {FinalWords.Of(reading, check)} over 90 degrees cannot be.", "A slope lies between -90 and 90 degrees to the horizontal.");
            else if (!reading.IsSigned && value < 0)
                row.Error(row.Where, $"A {FinalWords.Of(reading, check)} below nought cannot be.", "Write the distance without a minus sign.");
            else
                taken.Add(new(reading, value, sd is { } s ? reading.IsAngle ? Angles.ToRadians(s) : s : null));
        }
    }

    private static IEnumerable<(EndReading Reading, string Key)> Readings(ReadingRow row, string word, FinalCheck check)
    {
        switch (word)
        {
            case "tape" or "height" or "offset":
                var to = Lip(row, "to", check);
                if (to is not { } far)
                    yield break;
                if (word == "offset")
                {
                    var offsets = check.Targets.Select(t => t.Reading).OfType<EndReading.Offset>().Where(o => o.Lip.End == far.End).ToList();
                    if (row.Word("way") is not ("along" or "across"))
                        row.Error("way", "This offset does not say which way it was read.", "Write `way: along` or `way: across`, by the chalk line.");
                    else if (offsets.Find(o => o.IsAcross == (row.Word("way") == "across")) is not { } offset)
                        row.Error(row.Where, $"There is no offset of {row.Word("to")}: it is the base, or its plumb line is not free.", "Take another reading of its card.");
                    else
                        yield return (offset with { Lip = far }, "mm");
                    yield break;
                }

                if (Lip(row, "from", check) is not { } near)
                    yield break;
                if (near.End == far.End)
                    row.Error(row.Where, "Both places are on one end.", "Give two ends.");
                else if (word == "height")
                    yield return (new EndReading.Height(near, far), "mm");
                else
                    yield return (new EndReading.Tape(near, far, check.Targets.Any(t => t.Reading is EndReading.Tape { IsDiagonal: true } d && d.Equals(new EndReading.Tape(near, far, false)))), "mm");
                yield break;
        }

        if (row.Word("of") is not { } of || check.Find(of) is not { } end)
        {
            row.Error("of", row.Word("of") is { } wrong ? $"The spool has no end {wrong}." : "This reading does not say of which end.", NamesOf(check));
            yield break;
        }

        if (word == "face level")
        {
            var before = row["along"] is null && row["across"] is null;
            if (before)
                row.Error(row.Where, "This face level has no value.", "Write `along:` or `across:` with degrees.");
            if (row["along"] is not null)
                yield return (new EndReading.FaceLevel(end.Name, IsAcross: false), "along");
            if (row["across"] is not null)
                yield return (new EndReading.FaceLevel(end.Name, IsAcross: true), "across");
            yield break;
        }

        if (word == "face lean" && !end.IsPlane)
        {
            row.Error(row.Where, $"{end.Called} is cut to a saddle and has no face that could lean.", "Read tapes to its edge.");
            yield break;
        }

        if (word != "face lean" && end.Holes is null)
        {
            row.Error(row.Where, $"{end.Called} has no bolt holes.", "Its holes cannot be read.");
            yield break;
        }

        yield return (word switch { "holes" => new EndReading.Holes(end.Name), "hole line" => new EndReading.HoleLine(end.Name), _ => new EndReading.Lean(end.Name) }, "deg");
    }

    private static LipPlace? Lip(ReadingRow row, string key, FinalCheck check)
    {
        if (row.Word(key) is not { } text)
        {
            row.Error(row.Where, $"This reading does not say `{key}:` where.", "Write an end and a clock position, such as `C5 12`.");
            return null;
        }

        var cut = text.LastIndexOf(' ');
        if (cut > 0 && check.Find(text[..cut].Trim()) is { } end && int.TryParse(text.AsSpan(cut + 1), NumberStyles.None, CultureInfo.InvariantCulture, out var at) && StandingJoint.Clock.Contains(at))
            return new(end.Name, at);
        row.Error(key, $"\"{text}\" is no lip of this spool.", "Write an end and 12, 3, 6 or 9 o'clock looking out of it. " + NamesOf(check));
        return null;
    }

    private static double? Value(ReadingRow row, EndReading reading, string key)
    {
        if (!reading.IsAngle)
            return row.Length(reading.Name);
        if (row[key] is null)
            row.Error(row.Where, $"This {reading.Name} has no value.", "Write `deg:` with degrees.");
        return row.Number(key) is { } degrees ? Angles.ToRadians(degrees) : null;
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

    private static string Said(FinalCheck check, double mm) => new FitWords(check.Spool.Fitting.Units, id => id).Said(mm);

    private static string NamesOf(FinalCheck check) => $"Its ends are: {string.Join(", ", check.Ends.Select(e => e.Called))}.";
}
