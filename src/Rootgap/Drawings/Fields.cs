using System.Globalization;
using Rootgap.Findings;
using Rootgap.Measure;

namespace Rootgap.Drawings;

/// <summary>The errors of one reading, in the order of the file.</summary>
internal sealed class ReadingErrors
{
    private readonly List<Finding> findings = [];
    private readonly HashSet<Finding> told = [];

    public IReadOnlyList<Finding> InOrder => [.. findings.OrderBy(f => f.Where.File, StringComparer.Ordinal).ThenBy(f => f.Where.Line).ThenBy(f => f.Where.Column)];

    public int Count => findings.Count;

    /// <summary>Adds an error, once: a value that is looked at twice is still one error.</summary>
    public void Add(string rule, Place where, RowPath path, string message, string remedy, Change? change = null)
    {
        var finding = new Finding(rule, Severity.Stop, path, where, message, remedy) { Change = change };
        if (told.Add(finding))
            findings.Add(finding);
    }

    /// <summary>The change of a misspelt word to the nearest valid one.</summary>
    public static Change? Spelling(Place where, string written, string? nearest) =>
        nearest is not null && where.File.EndsWith("ml", StringComparison.OrdinalIgnoreCase) ? new(where, nearest, $"\"{written}\" is now \"{nearest}\"") : null;
}

/// <summary>One mapping of the file, read by its shape: each getter gives the value or says what is wrong with it.</summary>
internal sealed class Fields
{
    private readonly YamlMap map;
    private readonly Shape shape;
    private readonly ReadingErrors errors;
    private readonly Units units;

    private Fields(YamlMap map, Shape shape, ReadingErrors errors, Units units, RowPath path)
    {
        (this.map, this.shape, this.errors, this.units) = (map, shape, errors, units);
        Path = path;
    }

    public RowPath Path { get; }

    public Place Where => map.Where;

    public SourceRow Source => new(map, map.Where, Path);

    /// <summary>Opens a mapping: null with an error where the node is none; unknown and missing keys are told here.</summary>
    public static Fields? Open(YamlNode? node, Shape shape, ReadingErrors errors, Units units, RowPath path, Place parent)
    {
        if (node is not YamlMap map)
        {
            errors.Add("wrong-type", node?.Where ?? parent, path, $"{Words.A(shape.Name, capital: true)} is written as keys and values.", "Write it as `key: value` lines, or as {key: value, ...}.");
            return null;
        }

        var fields = new Fields(map, shape, errors, units, path);
        foreach (var (key, _) in map.Pairs)
        {
            if (shape.Has(key.Value))
                continue;
            var near = Nearest.To(key.Value, shape.Names);
            errors.Add("unknown-key", key.Where, path, $"{Words.A(shape.Name, capital: true)} has no key \"{key.Value}\".",
                near is null ? $"Its keys are: {string.Join(", ", shape.Names)}." : $"Did you mean \"{near}\"?", ReadingErrors.Spelling(key.Where, key.Value, Nearest.OnlyTo(key.Value, [.. shape.Names])));
        }

        foreach (var key in shape.Keys)
        {
            if (key.IsRequired && !fields.Has(key.Name))
                errors.Add("missing-key", map.Where, path, $"This {shape.Name} has no \"{key.Name}\".", $"Add it: {key.Says}");
        }

        return fields;
    }

    public IEnumerable<YamlText> Keys => map.Pairs.Select(p => p.Key);

    public YamlNode? Node(string key) => map[key] is { } node && node is not YamlText { IsEmpty: true } ? node : null;

    public bool Has(string key) => Node(key) is not null;

    /// <summary>Whether the value is a single word or number.</summary>
    public bool IsWord(string key) => Node(key) is YamlText;

    public void Error(string rule, string key, string message, string remedy, Change? change = null) => errors.Add(rule, map[key]?.Where ?? map.Where, Path, message, remedy, change);

    public string? Text(string key)
    {
        switch (Node(key))
        {
            case null:
                return null;
            case YamlText text:
                return text.Value.Trim();
            default:
                Error("wrong-type", key, $"\"{key}\" is a word or a number.", "Write one value, without brackets.");
                return null;
        }
    }

    public string? Word(string key, IReadOnlyList<string> words)
    {
        if (Text(key) is not { } text)
            return null;
        foreach (var word in words)
        {
            if (word.Equals(text, StringComparison.OrdinalIgnoreCase))
                return word;
        }

        var near = Nearest.To(text, words);
        var where = map[key]!.Where;
        errors.Add("unknown-word", where, Path, $"\"{text}\" is no word for \"{key}\".", (near is null ? "" : $"Did you mean \"{near}\"? ") + $"It is one of: {string.Join(", ", words)}.", ReadingErrors.Spelling(where, text, Nearest.OnlyTo(text, [.. words])));
        return null;
    }

    public bool? YesNo(string key) => Word(key, ["yes", "no", "true", "false"]) switch
    {
        null => null,
        "yes" or "true" => true,
        _ => false,
    };

    public int? Whole(string key)
    {
        if (Text(key) is not { } text)
            return null;
        if (int.TryParse(text, NumberStyles.None, CultureInfo.InvariantCulture, out var whole) && whole is > 0 and < 1_000_000)
            return whole;
        Error("wrong-type", key, $"\"{text}\" is not a whole number above 0.", "Write a number such as 3.");
        return null;
    }

    public double? Number(string key)
    {
        if (Text(key) is not { } text)
            return null;
        if (double.TryParse(text, NumberStyles.AllowDecimalPoint, CultureInfo.InvariantCulture, out var number) && number < LengthText.Longest)
            return number;
        Error("wrong-type", key, $"\"{text}\" is not a number of 0 or more.", "Write a number such as 12.5.");
        return null;
    }

    /// <summary>A mass, kg: a bare number is kilograms in either system, as the maker's sheet has it.</summary>
    public double? Mass(string key)
    {
        if (Text(key) is not { } text)
            return null;
        if (Amount.TryParse(text, Quantity.Mass, Units.Millimetres, out var kg) && kg is >= 0 and < LengthText.Longest)
            return kg;
        Error("wrong-type", key, $"\"{text}\" is not a mass.", "Write kilograms, such as 12.5, or a number with its unit: 12.5 kg, 27 lb.");
        return null;
    }

    /// <summary>A length, mm, at least <paramref name="least"/>.</summary>
    public double? Length(string key, double least = 0)
    {
        if (Text(key) is not { } text)
            return null;
        return Length(key, text, least, map[key]!.Where);
    }

    public List<double>? Lengths(string key)
    {
        switch (Node(key))
        {
            case null:
                return null;
            case YamlList list:
                var lengths = new List<double>();
                foreach (var node in list.Items)
                {
                    if (node is not YamlText text)
                        errors.Add("wrong-type", node.Where, Path, "A length is expected here.", "Write a list such as [6000, 12000].");
                    else if (Length(key, text.Value, 1, text.Where) is { } length)
                        lengths.Add(length);
                }

                return lengths.Count > 0 ? lengths : null;
            default:
                return Length(key, 1) is { } one ? [one] : null;
        }
    }

    public NominalSize? Size(string key)
    {
        if (Text(key) is not { } text)
            return null;
        if (NominalSize.TryParse(text, out var size) && size.IsPipeSize)
            return size;
        var near = size.IsNone ? null : string.Join(" or ", new[] { NominalSize.PipeSizes.LastOrDefault(s => s < size), NominalSize.PipeSizes.FirstOrDefault(s => s > size) }.Where(s => !s.IsNone));
        Error("impossible-value", key, $"\"{text}\" is not a nominal pipe size.", near is { Length: > 0 } ? $"The nearest are {near}." : "Write NPS 1/8 to 48, such as 6, 1-1/2 or DN150.");
        return null;
    }

    public double? Angle(string key)
    {
        if (Text(key) is not { } text)
            return null;
        if (double.TryParse(text.TrimEnd('°'), NumberStyles.AllowDecimalPoint | NumberStyles.AllowLeadingSign, CultureInfo.InvariantCulture, out var degrees) && Math.Abs(degrees) <= 360)
            return Angles.ToRadians(degrees);
        Error("wrong-type", key, $"\"{text}\" is not an angle.", "Write degrees, such as 22.5.");
        return null;
    }

    /// <summary>Words in a list, or one alone; null where none is written.</summary>
    public List<string>? Names(string key)
    {
        if (Node(key) is not YamlList list)
            return Text(key) is { } one ? [one] : null;
        foreach (var node in list.Items)
        {
            if (node is not YamlText)
                errors.Add("wrong-type", node.Where, Path, "A name is expected here.", "Write a list such as [spool 3, spool 4].");
        }

        return [.. list.Items.OfType<YamlText>().Select(t => t.Value.Trim())];
    }

    /// <summary>How far a length may be out, mm: a limit, or {normal: standard deviation}.</summary>
    public Spread? Spread(string key) => Spread(key, f => f.Length("normal"), () => Length(key));

    /// <summary>How far an angle may be out, radians; written in degrees.</summary>
    public Spread? SpreadAngle(string key) => Spread(key, f => f.Angle("normal") is { } a ? Math.Abs(a) : null, () => Angle(key) is { } a ? Math.Abs(a) : null);

    private Spread? Spread(string key, Func<Fields, double?> normal, Func<double?> limit)
    {
        if (Node(key) is YamlMap)
            return Inner(key, NormalShape) is { } f && normal(f) is { } sd ? new(sd, IsNormal: true) : null;
        return limit() is { } size ? new(size) : null;
    }

    private static readonly Shape NormalShape = new("normal spread", new Key("normal", Kind.Number, "Standard deviation.", IsRequired: true));

    /// <summary>Rise per unit of level length of <c>1:100</c>, <c>1 in 100</c> or <c>1 %</c>.</summary>
    public double? Slope(string key)
    {
        if (Text(key) is not { } text)
            return null;
        var parts = text.Replace(" in ", ":", StringComparison.Ordinal).Split(':');
        if (parts.Length == 2 && LengthText.TryParseNumber(parts[0], out var rise) && LengthText.TryParseNumber(parts[1], out var level) && level > 0 && rise > 0 && rise <= level)
            return rise / level;
        if (text.Split('/') is [var over, var per] && over.TrimEnd().EndsWith("mm", StringComparison.OrdinalIgnoreCase) && per.Trim().Equals("m", StringComparison.OrdinalIgnoreCase)
            && LengthText.TryParseNumber(over.AsSpan().TrimEnd()[..^2].TrimEnd(), out var mm) && mm is > 0 and <= 1000)
            return mm / 1000;
        if (text.EndsWith('%') && LengthText.TryParseNumber(text.AsSpan()[..^1], out var percent) && percent is > 0 and <= 100)
            return percent / 100;
        Error("impossible-value", key, $"\"{text}\" is not a slope.", "Write it as 1:100 (one down or up in a hundred level), no steeper than 1:1; for more use a vector.");
        return null;
    }

    /// <summary>A direction word or a vector in any of the six words; mm where it has lengths.</summary>
    public Vector? Direction(string key, out bool isVector)
    {
        isVector = false;
        switch (Node(key))
        {
            case null:
                return null;
            case YamlText text when Of(text.Value.Trim()) is { } unit:
                return unit;
            case YamlText text:
                var near = Nearest.To(text.Value, FileWords.Directions);
                Error("unknown-word", key, $"\"{text.Value}\" is not a direction.",
                    (near is null ? "" : $"Did you mean \"{near}\"? ") + "It is north, south, east, west, up, down, or a vector such as {north: 600, up: 450}.");
                return null;
            case YamlMap vector:
                isVector = true;
                return Components(key, vector) is not { } v ? null : v.Length > Tolerance.Noise ? v : Nowhere(key);
            default:
                Error("wrong-type", key, "A direction is a word or a vector.", "Write north, or {north: 600, up: 450}.");
                return null;
        }

        Vector? Nowhere(string at)
        {
            Error("impossible-value", at, "This vector leads nowhere: its lengths are all 0.", "Give at least one length above 0.");
            return null;
        }
    }

    /// <summary>A place in the plant: {east, north, up}, each 0 where it is left out.</summary>
    public Point? PlaceAt(string key)
    {
        switch (Node(key))
        {
            case null:
                return null;
            case YamlMap place:
                return Components(key, place) is { } v ? Point.Origin + v : null;
            default:
                Error("wrong-type", key, "A place is written {east: 0, north: 0, up: 0}.", "Write the coordinates that the drawing gives.");
                return null;
        }
    }

    /// <summary>A schedule by its name, or a wall of its own.</summary>
    public Schedule? Schedule(string key)
    {
        switch (Node(key))
        {
            case null:
                return null;
            case YamlText text when Rootgap.Standards.Pipes.ScheduleName(text.Value) is { } name:
                return new(name);
            case YamlText text:
                var near = Nearest.To(text.Value, Rootgap.Standards.Pipes.Schedules);
                Error("unknown-word", key, $"\"{text.Value}\" is not a schedule.",
                    (near is null ? "" : $"Did you mean \"{near}\"? ") + $"It is one of: {string.Join(", ", Rootgap.Standards.Pipes.Schedules)}, or {{wall: 7.11}}.");
                return null;
            case YamlMap when Inner(key, WallShape) is { } wall:
                return wall.Length("wall", Tolerance.Noise) is { } mm ? new("", mm) : null;
            default:
                Error("wrong-type", key, "A schedule is a word, or {wall: 7.11}.", "Write 40, STD, 10S, or {wall: 7.11}.");
                return null;
        }
    }

    /// <summary>The mapping under a key; null with an error where it is none.</summary>
    public Fields? Inner(string key, Shape inner) => Open(Node(key), inner, errors, units, Path + key, Where);

    /// <summary>How bolt holes stand, from the keys <c>holes</c> and <c>holes from</c>.</summary>
    public HoleOrientation Holes()
    {
        var from = Direction("holes from", out _);
        if (Text("holes") is not { } text)
            return from is null ? HoleOrientation.Straddle : HoleOrientation.Straddle with { From = from };
        if (text.Equals("straddle", StringComparison.OrdinalIgnoreCase))
            return new(0, OnCentre: false, from);
        if (text.Equals("on-centre", StringComparison.OrdinalIgnoreCase))
            return new(0, OnCentre: true, from);
        if (text.Length > 0 && (char.IsAsciiDigit(text[0]) || text[0] is '-' or '.'))
            return new(Angle("holes") ?? 0, OnCentre: false, from);
        Word("holes", ["straddle", "on-centre"]);
        return HoleOrientation.Straddle;
    }

    /// <summary>The flat side of an eccentric reducer.</summary>
    public Vector? Flat()
    {
        if (Node("flat") is YamlText { Value: var text })
        {
            if (text.Equals("top", StringComparison.OrdinalIgnoreCase))
                return Vector.Up;
            if (text.Equals("bottom", StringComparison.OrdinalIgnoreCase))
                return -Vector.Up;
            if (Of(text.Trim()) is null)
            {
                Word("flat", ["top", "bottom", .. FileWords.Directions]);
                return null;
            }
        }

        return Direction("flat", out _)?.Unit;
    }

    private static readonly Shape WallShape = new("wall", new Key("wall", Kind.Length, "Wall thickness.", IsRequired: true));

    private static Vector? Of(string word) => word.ToLowerInvariant() switch
    {
        "north" => Vector.North,
        "south" => -Vector.North,
        "east" => Vector.East,
        "west" => -Vector.East,
        "up" => Vector.Up,
        "down" => -Vector.Up,
        _ => null,
    };

    private Vector? Components(string key, YamlMap vector)
    {
        var sum = Vector.Zero;
        var seen = new HashSet<(bool, bool)>();
        var before = errors.Count;
        foreach (var (word, value) in vector.Pairs)
        {
            if (Of(word.Value) is not { } axis)
            {
                var near = Nearest.To(word.Value, FileWords.Directions);
                errors.Add("unknown-key", word.Where, Path, $"\"{word.Value}\" is not one of the six directions.", near is null ? "They are north, south, east, west, up, down." : $"Did you mean \"{near}\"?");
            }
            else if (value is not YamlText text || !LengthText.TryParse(text.Value, units, out var length))
            {
                errors.Add("wrong-type", value.Where, Path, $"\"{(value as YamlText)?.Value}\" is not a length.", "Write a number in the drawing's units, or one with its own unit.");
            }
            else
            {
                if (!seen.Add((axis.X != 0, axis.Y != 0)))
                    errors.Add("impossible-value", word.Where, Path, $"\"{word.Value}\" and its opposite both stand in this {key}.", "Keep one of the two.");
                sum += axis * length;
            }
        }

        return errors.Count > before ? null : sum;
    }

    private double? Length(string key, string text, double least, Place where)
    {
        if (!LengthText.TryParse(text, units, out var mm))
        {
            errors.Add("wrong-type", where, Path, $"\"{text}\" is not a length.", "Write a number in the drawing's units, or one with its own unit: 1450 mm, 1.45 m, 4'-9 1/2\", 57 1/2 in.");
            return null;
        }

        if (mm >= least)
            return mm;
        errors.Add("impossible-value", where, Path, $"\"{text}\" cannot be: \"{key}\" is {(least > 0 ? "greater than 0" : "0 or more")}.",
            key == "by" ? "Turn the direction round instead of writing a minus sign." : "Write the length without a minus sign.");
        return null;
    }

    /// <summary>How a fitting or valve takes the pipe, by its <c>ends</c>.</summary>
    public FittingEnds FittingEnds(string[] words, FittingEnds otherwise) => Word("ends", words) switch
    {
        "butt" => Drawings.FittingEnds.Butt,
        "socket" => Drawings.FittingEnds.Socket,
        "threaded" => Drawings.FittingEnds.Threaded,
        "flanged" => Drawings.FittingEnds.Flanged,
        _ => otherwise,
    };
}
