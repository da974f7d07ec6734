using System.Globalization;
using Rootgap.Drawings;
using Rootgap.Findings;
using Rootgap.FitUp;
using Rootgap.Measure;

namespace Rootgap.Site.Surveys;

/// <summary>A survey file as far as it could be read, with all that is wrong with it.</summary>
public sealed record SurveyReading(Survey Survey, IReadOnlyList<Finding> Errors)
{
    /// <summary>Reads a survey of a line: YAML, or the readings alone as CSV or XLSX.</summary>
    /// <param name="beside">Gives the bytes of a file that the survey names beside it (<c>readings: points.csv</c>); null where there is none.</param>
    public static SurveyReading Read(SiteLine line, string file, byte[] bytes, Func<string, byte[]?>? beside = null) => new SurveyReader(line, file, beside).Read(bytes);
}

/// <summary>Reads the survey file: what was known before and how it was measured. The readings themselves are read by <see cref="ReadingRows"/>.</summary>
internal sealed class SurveyReader(SiteLine line, string file, Func<string, byte[]?>? beside)
{
    internal static readonly string[] Keys =
        ["survey", "drawing", "revision", "by", "when", "steel", "expansion", "instrument", "frame", "standing", "other", "made", "loose", "stands out", "held", "may move", "existing", "as built", "readings"];

    private static readonly string[] KnownWords = ["drawn", "near", "far"];
    private static readonly string[] ExistingKeys = ["at", "girth", "across", "wall", "punch"];

    private readonly ReadingErrors errors = new();

    public SurveyReading Read(byte[] bytes)
    {
        if (ReadingRows.IsSheet(file))
        {
            var alone = Rows(ReadingRows.OfSheet(file, bytes, Told("readings")), new());
            return new(alone, errors.InOrder);
        }

        var text = System.Text.Encoding.UTF8.GetString(bytes);
        var root = YamlTree.Read(text, file, (where, message, remedy) => errors.Add("not-yaml", where, "", message, remedy));
        if (root is not YamlMap map)
        {
            if (errors.Count == 0)
                errors.Add("wrong-type", root?.Where ?? new(file, 1, 1, 2), "", "A survey is written as keys and values.", "Begin with `survey:` and `drawing:`, then `readings:` with one line a reading.");
            return new(new(), errors.InOrder);
        }

        return new(Of(map), errors.InOrder);
    }

    private Survey Of(YamlMap map)
    {
        foreach (var (key, _) in map.Pairs)
        {
            if (!Keys.Contains(key.Value, StringComparer.Ordinal))
                errors.Add("unknown-key", key.Where, "", $"A survey has no key \"{key.Value}\".", Near(key.Value, Keys), ReadingErrors.Spelling(key.Where, key.Value, Nearest.OnlyTo(key.Value, Keys)));
        }

        var survey = new Survey
        {
            Title = Word(map, "survey") ?? "",
            Drawing = Word(map, "drawing") ?? "",
            Revision = Word(map, "revision") ?? "",
            By = Word(map, "by") ?? "",
            When = Word(map, "when") ?? "",
            Steel = Steel(map),
            Expansion = Expansion(map),
            TotalStation = Choice(map, "instrument", ["total station", "tape", "level"]) == "total station",
            Frame = Choice(map, "frame", ["plant", "levelled", "free"]) switch { "levelled" => SurveyFrame.Levelled, "free" => SurveyFrame.Free, _ => SurveyFrame.Plant },
            Others = KnownOf(Choice(map, "other", KnownWords)) ?? Known.Near,
            Standing = Standing(map),
            Made = Joints(map, "made"),
            Loose = Joints(map, "loose"),
            StandsOut = StandsOut(map),
            Held = [.. Words(map, "held").Select(w => Body(w, "held")?.Name).OfType<string>()],
            Limits = MayMove(map),
            Existing = Existing(map),
            AsBuilt = AsBuilt(map),
        };
        MatchDrawing(map, survey);
        foreach (var both in survey.Made.Intersect(survey.Loose, StringComparer.Ordinal))
            errors.Add("made-and-loose", (map["loose"] ?? map).Where, "loose", $"{both} is said to be made and loose.", "Keep it under one of the two: `made` where nothing moves any more.");
        return map["readings"] switch
        {
            YamlList list => Rows(list.Items, survey),
            YamlText { IsEmpty: false } name when ReadingRows.IsSheet(name.Value) => beside?.Invoke(name.Value) is { } bytes
                ? Rows(ReadingRows.OfSheet(name.Value, bytes, Told("readings")), survey)
                : Missing(name, survey),
            YamlText { IsEmpty: true } or null => survey,
            var node => Wrong(node, survey),
        };
    }

    private Survey Rows(IEnumerable<YamlNode> nodes, Survey survey)
    {
        var rows = new ReadingRows(line, survey, errors);
        foreach (var node in nodes)
            rows.Add(node);
        return survey with { Readings = rows.Taken, Places = rows.Places };
    }

    private Survey Missing(YamlText name, Survey survey)
    {
        errors.Add("file-not-found", name.Where, "readings", $"The list of readings \"{name.Value}\" is not there.", "Give its path beside the survey file, or write the readings here.");
        return survey;
    }

    private Survey Wrong(YamlNode node, Survey survey)
    {
        errors.Add("wrong-type", node.Where, "readings", "The readings are a list.", "Write one line a reading, such as `- {tape: [lip 12, lip 12], at: [W15 of 4, B6 of other], mm: 2108}`, or the name of a CSV or XLSX file.");
        return survey;
    }

    private void MatchDrawing(YamlMap map, Survey survey)
    {
        var drawing = line.Fabrication.Route.Drawing;
        if (survey.Drawing.Length > 0 && survey.Drawing != drawing.Number)
            errors.Add("other-drawing", map["drawing"]!.Where, "drawing", $"This survey was taken of {survey.Drawing}, not of {drawing.Number}.", "Give it with its own drawing, or correct the number.");
        if (survey.Revision.Length > 0 && survey.Revision != drawing.Revision)
        {
            errors.Add("other-revision", map["revision"]!.Where, "revision", $"This survey was taken to revision {survey.Revision}; the drawing is revision {(drawing.Revision.Length > 0 ? drawing.Revision : "none")}.",
                "Joints and spools may have other numbers now: compare the two (`rootgap compare`), correct what changed, then write the drawing's revision here.");
        }
    }

    private double Steel(YamlMap map)
    {
        if (Word(map, "steel") is not { } text)
            return Survey.Drawn;
        var plain = text.TrimEnd('C', 'F', '°', ' ');
        if (double.TryParse(plain, NumberStyles.Float, CultureInfo.InvariantCulture, out var degrees))
        {
            degrees = text.EndsWith('F') ? (degrees - 32) / 1.8 : degrees;
            if (degrees is >= -60 and <= 120)
                return degrees;
        }

        Error(map, "steel", "wrong-type", $"\"{text}\" is not a temperature of steel that is measured.", "Write degrees such as 31 C.");
        return Survey.Drawn;
    }

    private double? Expansion(YamlMap map)
    {
        if (Word(map, "expansion") is not { } text)
            return null;
        if (double.TryParse(text, NumberStyles.Float, CultureInfo.InvariantCulture, out var value) && value is >= 0 and < 5e-5)
            return value;
        Error(map, "expansion", "wrong-type", $"\"{text}\" is not an expansion per degree C.", "Write it such as 11.7e-6; left out, it is that of the line's material.");
        return null;
    }

    private Dictionary<string, Known> Standing(YamlMap map)
    {
        var standing = new Dictionary<string, Known>(StringComparer.Ordinal);
        foreach (var (key, value) in Pairs(map, "standing"))
        {
            if (Body(key, "standing") is { } body && KnownOf((value as YamlText)?.Value, value.Where) is { } known)
                standing[body.Name] = known;
        }

        return standing;
    }

    private Known? KnownOf(string? word, Place where = default)
    {
        var at = Array.FindIndex(KnownWords, w => w.Equals(word, StringComparison.OrdinalIgnoreCase));
        if (at < 0 && where.IsKnown)
            errors.Add("unknown-word", where, "standing", $"\"{word}\" does not say how far a body is known.", "It is one of: drawn (exactly as drawn), near (50 mm, 3 degrees), far (1000 mm, 15 degrees).");
        return at < 0 ? null : (Known)at;
    }

    private List<string> Joints(YamlMap map, string key) => [.. Words(map, key).Select(w => Joint(w, key)?.Id).OfType<string>().Distinct()];

    private SiteJoint? Joint(YamlText word, string path)
    {
        if (line.JointOf(word.Value.Trim()) is { } joint)
            return joint;
        var isElsewhere = line.Fabrication.Route.Joints.Any(j => j.Id == word.Value);
        errors.Add("unknown-joint", word.Where, path, isElsewhere ? $"{word.Value} is made in the shop, within a spool: it does not stand open at site." : $"The drawing has no joint {word.Value}.",
            $"The joints made at site are: {string.Join(", ", line.Joints.Select(j => j.Id))}.");
        return null;
    }

    private SiteBody? Body(YamlText word, string path)
    {
        if (line.BodyOf(word.Value.Trim()) is { } body)
            return body;
        errors.Add("unknown-body", word.Where, path, $"There is no body \"{word.Value}\" in this drawing.",
            (Nearest.To(word.Value, line.Bodies.Select(b => b.Name)) is { } near ? $"Did you mean \"{near}\"? " : "") + $"They are: {string.Join(", ", line.Bodies.Select(b => b.Name))}.");
        return null;
    }

    private Dictionary<string, double> StandsOut(YamlMap map)
    {
        var standsOut = new Dictionary<string, double>(StringComparer.Ordinal);
        foreach (var (key, value) in Pairs(map, "stands out"))
        {
            if (Joint(key, "stands out") is not { } joint)
                continue;
            if (joint.Long is null)
                errors.Add("no-extra-there", key.Where, "stands out", $"No pipe at {joint.Id} carries a final-fit extra.", $"The final-fit welds are: {string.Join(", ", line.FinalFits.Select(j => j.Id))}.");
            else if (value is YamlText text && LengthText.TryParse(text.Value, Units.Millimetres, out var mm))
                standsOut[joint.Id] = mm;
            else
                errors.Add("wrong-type", value.Where, "stands out", "How far the pipe reaches beyond its drawn end is a length.", "Write mm, such as {W15: 103}; 0 once it is cut to the drawing.");
        }

        return standsOut;
    }

    private Dictionary<string, MayMove> MayMove(YamlMap map)
    {
        string[] keys = ["east", "north", "up", "turn"];
        var limits = new Dictionary<string, MayMove>(StringComparer.Ordinal);
        foreach (var (key, value) in Pairs(map, "may move"))
        {
            if (Body(key, "may move") is not { } body)
                continue;
            if (value is not YamlMap given)
            {
                errors.Add("wrong-type", value.Where, "may move", "How far a body may be moved is written {east: 10, north: 10, up: 20, turn: 1}.", "Give mm either way, and degrees for the turn; what is left out has no limit.");
                continue;
            }

            foreach (var (k, _) in given.Pairs.Where(p => !keys.Contains(p.Key.Value, StringComparer.Ordinal)))
                errors.Add("unknown-key", k.Where, "may move", $"A limit has no key \"{k.Value}\".", Near(k.Value, keys));
            double? Of(string name) => Number(given, name, "may move", least: 0);
            limits[body.Name] = new(Of("east"), Of("north"), Of("up"), Of("turn") is { } t ? Angles.ToRadians(t) : null);
        }

        return limits;
    }

    private List<ExistingPipe> Existing(YamlMap map)
    {
        var pipes = new List<ExistingPipe>();
        YamlNode[] nodes = map["existing"] switch { null or YamlText { IsEmpty: true } => [], YamlList list => [.. list.Items], var one => [one] };
        foreach (var (node, i) in nodes.Select((n, i) => (n, i)))
        {
            var path = string.Create(CultureInfo.InvariantCulture, $"existing[{i}]");
            if (node is not YamlMap given)
            {
                errors.Add("wrong-type", node.Where, path, "An existing pipe is written {at: W1 of other, girth: 529.6, across: [168.0, 169.4], wall: {12: 7.0, 3: 6.8}, punch: [300.0, 298.6]}.", "Put it into braces.");
                continue;
            }

            foreach (var (key, _) in given.Pairs.Where(p => !ExistingKeys.Contains(p.Key.Value, StringComparer.Ordinal)))
                errors.Add("unknown-key", key.Where, path, $"An existing pipe has no key \"{key.Value}\".", Near(key.Value, ExistingKeys));
            if (new ReadingRows(line, new(), errors).End(given["at"], given, path) is not { } end)
                continue;
            var walls = new List<(double, double)>();
            foreach (var (key, value) in Pairs(given, "wall"))
            {
                if (!Clock.TryParse(key.Value, out var clock))
                    errors.Add("unknown-point", key.Where, path, $"\"{key.Value}\" is no place on a clock.", "Write 12, 3, 1:30 or 45 deg.");
                else if (value is YamlText text && LengthText.TryParse(text.Value, Units.Millimetres, out var mm) && mm is > 0 and < 200)
                    walls.Add((clock, mm));
                else
                    errors.Add("wrong-type", value.Where, path, "A wall is a length in mm.", "Write what the gauge shows, such as 7.0.");
            }

            pipes.Add(new(end, Number(given, "girth", path, least: 10), Two(given, "across", path), walls, Two(given, "punch", path)));
        }

        return pipes;
    }

    private Dictionary<string, (PoseError, PoseError)> AsBuilt(YamlMap map)
    {
        string[] keys = [.. PoseError.Names, "sd"];
        var built = new Dictionary<string, (PoseError, PoseError)>(StringComparer.Ordinal);
        foreach (var (key, value) in Pairs(map, "as built"))
        {
            if (new ReadingRows(line, new(), errors).End(key, map, "as built") is not { } end)
                continue;
            if (end.Body.IsOutside)
            {
                errors.Add("outside-as-built", key.Where, "as built", $"{end.Name} is outside the drawing: how it was built is not ours to say.", "Read it in the survey.");
            }
            else if (value is not YamlMap given)
            {
                errors.Add("wrong-type", value.Where, "as built", "An end as built is written {x: 1.2, y: 0, z: -0.5, rx: 0, ry: 0.1, rz: 0}, mm and degrees.", "What is left out is as drawn; sd: {x: 0.3} says how well each is known.");
            }
            else
            {
                foreach (var (k, _) in given.Pairs.Where(p => !keys.Contains(p.Key.Value, StringComparer.Ordinal)))
                    errors.Add("unknown-key", k.Where, "as built", $"An end as built has no key \"{k.Value}\".", Near(k.Value, keys));
                var usual = new PoseError(0.5, 0.5, 0.5, Angles.ToRadians(0.1), Angles.ToRadians(0.1), Angles.ToRadians(0.2));
                built[end.Name] = (Six(given, PoseError.None), given["sd"] is YamlMap sd ? Six(sd, usual) : usual);
            }
        }

        return built;
    }

    private PoseError Six(YamlMap map, PoseError otherwise)
    {
        Span<double> six = stackalloc double[6];
        for (var i = 0; i < 6; i++)
        {
            var name = PoseError.Names[i];
            six[i] = otherwise[i];
            if (map[name] is null or YamlText { IsEmpty: true })
                continue;
            if (map[name] is YamlText text && double.TryParse(text.Value, NumberStyles.Float, CultureInfo.InvariantCulture, out var value) && Math.Abs(value) < 1e4)
                six[i] = i < 3 ? value : Angles.ToRadians(value);
            else
                errors.Add("wrong-type", map[name]!.Where, "as built", $"\"{(map[name] as YamlText)?.Value}\" is not a number.", "Write mm, or degrees for rx, ry, rz.");
        }

        return PoseError.From(six);
    }

    private (double, double)? Two(YamlMap map, string key, string path)
    {
        if (map[key] is null or YamlText { IsEmpty: true })
            return null;
        if (map[key] is YamlList { Items: [YamlText a, YamlText b] } && LengthText.TryParse(a.Value, Units.Millimetres, out var one) && LengthText.TryParse(b.Value, Units.Millimetres, out var two) && one > 0 && two > 0)
            return (one, two);
        errors.Add("wrong-type", map[key]!.Where, path, $"\"{key}\" is two lengths.", key == "punch" ? "Write the distance of the marks before and after the cut: [300.0, 298.6]." : "Write the diameters from 12 to 6 and from 3 to 9: [168.0, 169.4].");
        return null;
    }

    private double? Number(YamlMap map, string key, string path, double least)
    {
        if (map[key] is null or YamlText { IsEmpty: true })
            return null;
        if (map[key] is YamlText text && LengthText.TryParse(text.Value, Units.Millimetres, out var mm) && mm >= least)
            return mm;
        errors.Add("wrong-type", map[key]!.Where, path, $"\"{(map[key] as YamlText)?.Value}\" cannot be: \"{key}\" is {least:0} or more.", "Write a number, mm.");
        return null;
    }

    private string? Choice(YamlMap map, string key, string[] words)
    {
        if (Word(map, key) is not { } text)
            return null;
        if (words.FirstOrDefault(w => w.Equals(text, StringComparison.OrdinalIgnoreCase)) is { } word)
            return word;
        Error(map, key, "unknown-word", $"\"{text}\" is no word for \"{key}\".", Near(text, words));
        return null;
    }

    private void Error(YamlMap map, string key, string rule, string message, string remedy) => errors.Add(rule, map[key]!.Where, key, message, remedy);

    private Action<Place, string, string> Told(string path) => (where, message, remedy) => errors.Add("wrong-type", where, path, message, remedy);

    private List<(YamlText Key, YamlNode Value)> Pairs(YamlMap map, string key)
    {
        switch (map[key])
        {
            case null or YamlText { IsEmpty: true }:
                return [];
            case YamlMap inner:
                return inner.Pairs;
            case var node:
                errors.Add("wrong-type", node.Where, key, $"\"{key}\" is written as names and values.", "Write {spool 3: drawn} or {W15: 103}, as it is.");
                return [];
        }
    }

    private IEnumerable<YamlText> Words(YamlMap map, string key) => map[key] switch
    {
        null or YamlText { IsEmpty: true } => [],
        YamlText one => [one],
        YamlList list => list.Items.OfType<YamlText>(),
        var node => Refused(node, key),
    };

    private IEnumerable<YamlText> Refused(YamlNode node, string key)
    {
        errors.Add("wrong-type", node.Where, key, $"\"{key}\" is a list of names.", "Write [B1, W11].");
        return [];
    }

    private static string? Word(YamlMap map, string key) => map[key] is YamlText { IsEmpty: false } text ? text.Value.Trim() : null;

    internal static string Near(string word, IEnumerable<string> words) =>
        (Nearest.To(word, words) is { } near ? $"Did you mean \"{near}\"? " : "") + $"It is one of: {string.Join(", ", words)}.";
}
