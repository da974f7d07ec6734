using System.Globalization;
using Rootgap.Drawings;
using Rootgap.Findings;
using Rootgap.Measure;

namespace Rootgap.FitUp;

/// <summary>A map of a readings file, be it of a joint or of a spool's final check: what its keys hold, and what is wrong with them.</summary>
internal sealed class ReadingRow(YamlMap map, Action<Place, string, string> error)
{
    /// <summary>Something is wrong with it.</summary>
    public bool IsBad { get; private set; }

    public Place Where => map.Where;

    public YamlNode? this[string key] => map[key];

    public void Error(Place where, string message, string remedy)
    {
        IsBad = true;
        error(where, message, remedy);
    }

    public void Error(string key, string message, string remedy) => Error(map[key]?.Where ?? map.Where, message, remedy);

    /// <summary>Tells of keys that it does not have.</summary>
    /// <param name="what">What it is: "A reading".</param>
    public void Keys(string what, string[] keys)
    {
        foreach (var (key, _) in map.Pairs)
        {
            if (!keys.Contains(key.Value, StringComparer.Ordinal))
                Error(key.Where, $"{what} has no key \"{key.Value}\".", Near(key.Value, keys));
        }
    }

    /// <summary>A text without what stands round it; null where it is left out or empty.</summary>
    public string? Word(string key) => map[key] is YamlText { IsEmpty: false } text ? text.Value.Trim() : null;

    public bool Is(string key, string word) => string.Equals(Word(key), word, StringComparison.OrdinalIgnoreCase);

    /// <summary>Tells where its state is none.</summary>
    /// <param name="of">Of what: "a joint".</param>
    public void State(string of)
    {
        if (Word("state") is { } state && !Is("state", "tacked") && !Is("state", "welded"))
            Error("state", $"\"{state}\" is no state of {of}.", "It is tacked or welded.");
    }

    /// <summary>Which of its words is read; null where none is, and then it is told.</summary>
    /// <param name="of">What it is no reading of; empty for a joint.</param>
    public string? Reads(string[] words, string of)
    {
        if (Word("read") is not { } word)
            Error(map.Where, "This reading does not say what was read.", "Add `read:` with one of: " + string.Join(", ", words) + ".");
        else if (words.FirstOrDefault(w => w.Equals(word, StringComparison.OrdinalIgnoreCase)) is { } name)
            return name;
        else
            Error("read", $"\"{word}\" is {(of.Length == 0 ? "not a reading" : "no reading of " + of)}.", Near(word, words));
        return null;
    }

    public double? Number(string key)
    {
        switch (map[key])
        {
            case null or YamlText { IsEmpty: true }:
                return null;
            case YamlText text when double.TryParse(text.Value, NumberStyles.Float, CultureInfo.InvariantCulture, out var number) && Math.Abs(number) < 1e6:
                return number;
            case var node:
                Error(node.Where, $"\"{(node as YamlText)?.Value ?? key}\" is not a number.", "Write a number such as 612.5.");
                return null;
        }
    }

    /// <summary>How well it was read, mm or degrees; null where it does not say.</summary>
    public double? Spread()
    {
        var sd = Number("sd");
        if (sd is <= 0)
            Error("sd", "A spread is greater than 0.", "Write how well it was read: one standard deviation.");
        return sd;
    }

    /// <summary>A length in mm, or as it was written in inches; null where there is none, and then it is told.</summary>
    /// <param name="name">The reading's name.</param>
    public double? Length(string name)
    {
        if (map["mm"] is null && map["in"] is YamlText { IsEmpty: false } inches)
        {
            var text = inches.Value.Trim();
            var isMinus = text.StartsWith('-');
            if (LengthText.TryParse(isMinus ? text[1..] : text, Units.Inches, out var mm))
                return isMinus ? -mm : mm;
            Error(inches.Where, $"\"{inches.Value}\" is not a length.", "Write such as 24 1/16, or 2'-0 1/16\".");
            return null;
        }

        if (map["mm"] is null)
            Error(map.Where, $"This {name} has no value.", "Write `mm:` with the reading, or `in:` with inches.");
        return Number("mm");
    }

    private static string Near(string word, string[] words) => Nearest.To(word, words) is { } near ? $"Did you mean \"{near}\"?" : "It is one of: " + string.Join(", ", words) + ".";
}
