using System.Globalization;
using System.Xml;
using Rootgap.Drawings;
using Rootgap.Findings;
using Rootgap.Measure;

namespace Rootgap.Site.Surveys;

/// <summary>Reads the readings of a survey, row by row: from the file itself or from a list beside it.</summary>
internal sealed class ReadingRows(SiteLine line, Survey survey, ReadingErrors errors)
{
    private static readonly string[] Kinds = ["point", "tape", "plumb", "height", "slope", "string", "gap", "hi-lo"];
    private static readonly string[] Keys = [.. Kinds, "at", "east", "north", "up", "mm", "deg", "to", "of", "sd"];

    private readonly List<SiteTaken> taken = [];
    private readonly List<Place> places = [];

    public IReadOnlyList<SiteTaken> Taken => taken;

    /// <summary>Where each row stands.</summary>
    public IReadOnlyList<Place> Places => places;

    private string path = "";

    public static bool IsSheet(string file) => file.EndsWith(".csv", StringComparison.OrdinalIgnoreCase) || file.EndsWith(".xlsx", StringComparison.OrdinalIgnoreCase);

    /// <summary>The rows of a sheet as if they were written in the file; two points in a cell are parted by a semicolon or a stroke.</summary>
    public static List<YamlNode> OfSheet(string file, byte[] bytes, Action<Place, string, string> error)
    {
        try
        {
            return [.. SheetRows.Of(file, bytes).Where(r => r.Cells.Count > 0).Select(r => (YamlNode)new YamlMap(new(file, r.Number, 1, 2), [.. r.Cells.Select(c =>
            {
                var where = new Place(file, r.Number, c.Column, c.Column + 1);
                var parts = c.Text.Split([';', '|'], StringSplitOptions.TrimEntries | StringSplitOptions.RemoveEmptyEntries);
                return (new YamlText(where, c.Heading.ToLowerInvariant(), Quoted: false), parts.Length > 1
                    ? (YamlNode)new YamlList(where, [.. parts.Select(p => (YamlNode)new YamlText(where, p, Quoted: false))])
                    : new YamlText(where, c.Text, Quoted: false));
            })]))];
        }
        catch (Exception e) when (e is InvalidDataException or XmlException)
        {
            error(new(file, 1, 1, 2), "The list of readings cannot be read: " + e.Message, "Save it again as CSV or XLSX, with a first row of headings: point, at, east, north, up.");
            return [];
        }
    }

    /// <summary>One row.</summary>
    public void Add(YamlNode node)
    {
        var entry = places.Count;
        places.Add(node.Where);
        path = string.Create(CultureInfo.InvariantCulture, $"readings[{entry}]");
        if (node is not YamlMap map)
        {
            Error("wrong-type", node.Where, "A reading is written {tape: [lip 12, lip 12], at: [W15 of 4, B6 of other], mm: 2108}.", "Put the reading into braces.");
            return;
        }

        foreach (var (key, _) in map.Pairs)
        {
            if (!Keys.Contains(key.Value, StringComparer.Ordinal))
                Error("unknown-key", key.Where, $"A reading has no key \"{key.Value}\".", SurveyReader.Near(key.Value, Keys));
        }

        var kinds = Kinds.Where(k => map[k] is not (null or YamlText { IsEmpty: true })).ToList();
        switch (kinds)
        {
            case []:
                Error("missing-key", map.Where, "This reading does not say what was read.", $"Add one of: {string.Join(", ", Kinds)}.");
                break;
            case ["point"]:
                Coordinates(map, entry);
                break;
            case ["gap" or "hi-lo"]:
                AtJoint(map, kinds[0], entry);
                break;
            case ["string"]:
                StringLine(map, entry);
                break;
            case [var kind]:
                Between(map, kind, entry);
                break;
            default:
                Error("two-readings", map.Where, $"This row says {string.Join(" and ", kinds)}: it is one reading or the other.", "Write one row for each.");
                break;
        }
    }

    private void Coordinates(YamlMap map, int entry)
    {
        if (Points(map, "point", 1, "at") is not [var touch])
            return;
        var sd = Sd(map, isAngle: false);
        var read = 0;
        foreach (var (word, along) in new[] { ("east", Along.East), ("north", Along.North), ("up", Along.Up) })
        {
            if (map[word] is null or YamlText { IsEmpty: true })
                continue;
            read++;
            if (Number(map, word) is { } value)
            {
                var isUpAlone = word == "up" && map["east"] is null && map["north"] is null;
                Take(entry, new SiteReading.Coordinate(touch, along), value, sd ?? (isUpAlone ? 1 : null));
            }
        }

        if (read == 0)
            Error("missing-key", map.Where, "This point has no coordinate.", "Give east, north or up, one or more of them.");
    }

    private void Between(YamlMap map, string kind, int entry)
    {
        if (Points(map, kind, 2, "at") is not [var from, var to])
            return;
        if (from == to)
        {
            Error("same-point", map.Where, $"Both ends of this {kind} are the same point.", "Name two points.");
            return;
        }

        SiteReading reading = kind switch
        {
            "tape" => new SiteReading.Tape(from, to),
            "plumb" => new SiteReading.Plumb(from, to),
            "height" => new SiteReading.Height(from, to),
            _ => new SiteReading.Slope(from, to),
        };
        Value(map, reading, entry, isNeverNegative: kind is "tape" or "plumb");
    }

    private void StringLine(YamlMap map, int entry)
    {
        if (Points(map, "string", 2, "at") is [var from, var to] && Points(map, "to", 1, "of") is [var third])
            Value(map, new SiteReading.StringLine(from, to, third), entry, isNeverNegative: true);
    }

    private void AtJoint(YamlMap map, string kind, int entry)
    {
        if (map[kind] is not YamlText text || !Clock.TryParse(text.Value, out var clock))
        {
            Error("unknown-point", map[kind]!.Where, $"\"{(map[kind] as YamlText)?.Value}\" is no place on a clock.", "Write 12, 3, 1:30 or 45 deg.");
            return;
        }

        if (map["at"] is not YamlText { IsEmpty: false } name)
        {
            Error("missing-key", map.Where, $"This {kind} does not say at which joint.", "Add `at: W11`.");
            return;
        }

        if (line.JointOf(name.Value.Trim()) is not { } joint)
        {
            Error("unknown-joint", name.Where, $"No joint {name.Value} is made at site.", $"They are: {string.Join(", ", line.Joints.Select(j => j.Id))}.");
            return;
        }

        Value(map, kind == "gap" ? new SiteReading.Gap(joint, clock) : new SiteReading.HiLo(joint, clock), entry, isNeverNegative: false);
    }

    private void Value(YamlMap map, SiteReading reading, int entry, bool isNeverNegative)
    {
        var key = reading.IsAngle ? "deg" : "mm";
        if (map[key] is null or YamlText { IsEmpty: true })
        {
            Error("missing-key", map.Where, $"This {reading.Word} has no value.", reading.IsAngle ? "Write `deg:` with the degrees read." : "Write `mm:` with what was read.");
            return;
        }

        if (Number(map, key) is not { } value)
            return;
        if (isNeverNegative && value < 0)
            Error("impossible-value", map[key]!.Where, $"A {reading.Word} is never less than 0.", "Write it without a minus sign.");
        else if (reading.IsAngle && Math.Abs(value) > 90)
            Error("impossible-value", map[key]!.Where, "A slope lies between -90 and 90 degrees.", "Write the angle to the horizontal.");
        else
            Take(entry, reading, reading.IsAngle ? Angles.ToRadians(value) : value, Sd(map, reading.IsAngle));
    }

    private void Take(int entry, SiteReading reading, double value, double? sd) => taken.Add(new(entry, reading, value, sd ?? reading.UsualSd(value, survey.TotalStation)));

    private double? Sd(YamlMap map, bool isAngle)
    {
        if (map["sd"] is null or YamlText { IsEmpty: true } || Number(map, "sd") is not { } sd)
            return null;
        if (sd > 0)
            return isAngle ? Angles.ToRadians(sd) : sd;
        Error("impossible-value", map["sd"]!.Where, "A spread is greater than 0.", "Write how well it was read, as one standard deviation.");
        return null;
    }

    private double? Number(YamlMap map, string key)
    {
        if (map[key] is YamlText text)
        {
            if (double.TryParse(text.Value, NumberStyles.Float, CultureInfo.InvariantCulture, out var plain) && Math.Abs(plain) <= LengthText.Longest)
                return plain;
            if (LengthText.TryParse(text.Value, Units.Millimetres, out var mm))
                return mm;
        }

        Error("wrong-type", map[key]!.Where, $"\"{(map[key] as YamlText)?.Value}\" is not a number.", key == "deg" ? "Write degrees, such as 0.15." : "Write mm, such as 2108, or a length with its unit.");
        return null;
    }

    private List<Touch>? Points(YamlMap map, string key, int count, string where)
    {
        var words = map[key] switch { YamlList list => list.Items, null => [], var one => new List<YamlNode> { one } };
        if (words.Count != count)
        {
            Error("wrong-type", (map[key] ?? map).Where, count == 1 ? $"\"{key}\" is one point." : $"A {key} is read between two points.", count == 1 ? "Write it such as lip 12." : $"Write {key}: [lip 12, lip 12].");
            return null;
        }

        var names = map[where] switch { YamlList list => list.Items, null => [], var one => new List<YamlNode> { one } };
        if (names.Count != 1 && names.Count != count)
        {
            Error("missing-key", (map[where] ?? map).Where, names.Count == 0 ? $"This reading does not say on which end it was taken: \"{where}\" is missing." : $"\"{where}\" names {names.Count} ends for {count} points.", $"Write `{where}: W11 of 3`, or one end for each point.");
            return null;
        }

        var touches = new List<Touch>();
        for (var i = 0; i < count; i++)
        {
            if (End(names[Math.Min(i, names.Count - 1)], map, path) is { } end && Point(words[i], end) is { } touch)
                touches.Add(touch);
        }

        return touches.Count == count ? touches : null;
    }

    /// <summary>The end with a name; null with an error where there is none.</summary>
    public SiteEnd? End(YamlNode? node, YamlMap parent, string at)
    {
        if (node is not YamlText { IsEmpty: false } text)
        {
            errors.Add("missing-key", (node ?? parent).Where, at, "An end is named by its joint and its spool.", $"Write one of: {string.Join(", ", line.Ends.Select(e => e.Name))}.");
            return null;
        }

        var name = text.Value.Trim();
        if (line.EndOf(name) is { } end)
            return end;
        var joint = line.JointOf(name.Split(" of ")[0].Trim());
        var remedy = joint is not null ? $"{joint.Id} is between {joint.First.Name} and {joint.Second.Name}."
            : (Nearest.To(name, line.Ends.Select(e => e.Name)) is { } near ? $"Did you mean \"{near}\"? " : "") + $"The ends are: {string.Join(", ", line.Ends.Select(e => e.Name))}.";
        errors.Add("unknown-end", text.Where, at, $"There is no end \"{name}\".", remedy);
        return null;
    }

    private Touch? Point(YamlNode node, SiteEnd end)
    {
        var text = (node as YamlText)?.Value.Trim() ?? "";
        var parts = text.Split(' ', 2, StringSplitOptions.RemoveEmptyEntries | StringSplitOptions.TrimEntries);
        var joint = line.JointOf(end.Joint)!;
        switch (parts)
        {
            case ["centre"]:
                return new(joint, end, TouchKind.Centre);
            case ["lip", var q] when Clock.TryParse(q, out var clock):
                return new(joint, end, TouchKind.Lip, clock);
            case ["nose", var q] when Clock.TryParse(q, out var clock):
                return new(joint, end, TouchKind.Nose, clock);
            case ["hole", var k] when int.TryParse(k, NumberStyles.None, CultureInfo.InvariantCulture, out var hole) && hole > 0:
                return Hole(node, joint, end, hole);
            case ["crown", var s] when LengthText.TryParse(s, Units.Millimetres, out var back):
                return Back(node, new(joint, end, TouchKind.Crown, 0, back));
            case ["side", var rest] when rest.LastIndexOf(' ') is > 0 and var gap && Clock.TryParse(rest[..gap], out var clock) && LengthText.TryParse(rest.AsSpan(gap), Units.Millimetres, out var back):
                return Back(node, new(joint, end, TouchKind.Side, clock, back));
            default:
                Error("unknown-point", node.Where, $"\"{text}\" is no point that can be touched.", "Points are: lip 12, nose 3, hole 1, crown 100, side 3 100, centre. Clock positions are written 12, 1:30 or 45 deg; the last figure of crown and side is the distance back from the end, mm.");
                return null;
        }
    }

    private Touch? Hole(YamlNode node, SiteJoint joint, SiteEnd end, int hole)
    {
        if (end.Holes is { } holes && hole <= holes.Count)
            return new(joint, end, TouchKind.Hole, Hole: hole);
        Error("unknown-point", node.Where, end.Holes is { } some ? $"{end.Name} has {some.Count} bolt holes, not {hole}." : $"{end.Name} has no bolt holes whose place the drawing tells.",
            end.Holes is null ? "Read it on a lip." : "Holes are counted clockwise from 12, looking along the line as it is written.");
        return null;
    }

    private Touch? Back(YamlNode node, Touch touch)
    {
        var end = touch.End;
        var beyond = survey.StandsOut.TryGetValue(end.Joint, out var mm) && touch.Joint.Long == end ? mm : end.Extra;
        if (end.Straight is { } pipe)
        {
            var (from, to) = (pipe.From > 0 ? pipe.From + beyond : 0, pipe.To + beyond);
            if (touch.Back >= from && touch.Back <= to)
                return touch;
            Error("no-straight-pipe", node.Where, string.Create(CultureInfo.InvariantCulture, $"There is no straight pipe {touch.Back:0.#} mm back from {end.Name}: it runs from {from:0} to {to:0}."), "Measure the distance back from the end as it is now, its extra counted.");
        }
        else
        {
            Error("no-straight-pipe", node.Where, $"There is no straight pipe behind {end.Name}.", "Read it on a lip or at the centre.");
        }

        return null;
    }

    private void Error(string rule, Place where, string message, string remedy) => errors.Add(rule, where, path, message, remedy);
}
