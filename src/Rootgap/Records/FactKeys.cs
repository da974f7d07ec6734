using System.Globalization;
using System.Text.Json;

namespace Rootgap.Records;

/// <summary>Reads the keys of one object of a fact; keeps what is wrong first, and which keys were asked for.</summary>
internal class FactKeys(JsonElement element)
{
    protected const int LongestWord = 200;
    protected const int LongestNote = 4000;
    private const int MostBases = 50;

    private readonly HashSet<string> known = new(StringComparer.Ordinal) { "id", "fact", "who", "when" };

    /// <summary>Where and what is wrong; null while nothing is.</summary>
    public string? Wrong { get; private set; }

    protected JsonElement Element { get; } = element;

    protected bool IsKnown(string key) => known.Contains(key);

    protected string Id(string of, JsonElement parent, string key) => Id($"{of}.{key}", parent.TryGetProperty(key, out var value) ? value : null);

    /// <summary>Ids of versions: one, or a list.</summary>
    protected string[] Ids(string key)
    {
        List<string> ids = [];
        switch (Get(key))
        {
            case null or { ValueKind: JsonValueKind.Null }:
                break;
            case { ValueKind: JsonValueKind.Array } list:
                if (MostBases < list.GetArrayLength())
                    Fail(key, "names more versions than one file ever has at a time.");
                else
                    ids.AddRange(list.EnumerateArray().Select(e => Id(key, e)));
                break;
            case { } one:
                ids.Add(Id(key, one));
                break;
        }

        return [.. ids.Distinct(StringComparer.Ordinal)];
    }

    protected bool MaybeYes(string key) => Get(key) is { ValueKind: not JsonValueKind.Null } && YesNo(key);

    protected bool YesNo(string key)
    {
        switch (Get(key))
        {
            case { ValueKind: JsonValueKind.True }:
                return true;
            case { ValueKind: JsonValueKind.False }:
                return false;
            case null:
                Fail(key, "is missing: write true or false.");
                return false;
            default:
                Fail(key, "is neither true nor false.");
                return false;
        }
    }

    protected DateTimeOffset When()
    {
        var text = Word("when");
        return Wrong is null ? Time("when", text) : default;
    }

    protected DateTimeOffset Time(string key, string text)
    {
        // With its offset: a time without one is another moment on every machine.
        if (text.Length > 10 && text[10] == 'T' && (text[^1] == 'Z' || text.AsSpan(11).IndexOfAny('+', '-') > 0)
            && DateTimeOffset.TryParse(text, CultureInfo.InvariantCulture, DateTimeStyles.None, out var when))
            return when;
        Fail(key, $"\"{text}\" is not a time such as 2026-11-25T15:00:00.000Z.");
        return default;
    }

    protected string Id(string key) => Id(key, Get(key));

    // A random UUID, 32 hexadecimal digits in lower case, with or without its hyphens.
    protected string Id(string key, JsonElement? value)
    {
        if (value is { ValueKind: JsonValueKind.String } text && text.GetString()! is { Length: 32 or 36 } id
            && Guid.TryParseExact(id, id.Length == 32 ? "N" : "D", out _) && !id.Any(char.IsAsciiLetterUpper))
            return id;
        Fail(key, value is null ? "is missing: write a random UUID in lower case." : "is not a UUID in lower case.");
        return "";
    }

    protected string? MaybeId(string key) => Get(key) is null or { ValueKind: JsonValueKind.Null } ? null : Id(key);

    protected string Word(string key) => Text(key, LongestWord, needed: true) is { } text && (text.Trim().Length > 0 || Fail(key, "is empty.") is not null) ? text : "";

    protected string? MaybeWord(string key) => Text(key, LongestWord, needed: false);

    protected string? Note() => Text("note", LongestNote, needed: false);

    protected string? Text(string key, int longest, bool needed)
    {
        switch (Get(key))
        {
            case null or { ValueKind: JsonValueKind.Null }:
                if (needed)
                    Fail(key, "is missing.");
                return null;
            case { ValueKind: JsonValueKind.String } value when value.GetString()! is var text:
                if (longest < text.Length)
                    Fail(key, string.Create(CultureInfo.InvariantCulture, $"has {text.Length} characters; {longest} are enough."));
                return text;
            default:
                Fail(key, "is not text.");
                return null;
        }
    }

    protected double? Number(string key)
    {
        switch (Get(key))
        {
            case null or { ValueKind: JsonValueKind.Null }:
                return null;
            case { ValueKind: JsonValueKind.Number } value when value.TryGetDouble(out var number) && double.IsFinite(number):
                return number;
            default:
                Fail(key, "is not a number.");
                return null;
        }
    }

    protected JsonElement? Get(string key)
    {
        known.Add(key);
        return Element.TryGetProperty(key, out var value) ? value : null;
    }

    protected Fact? Fail(string key, string what)
    {
        Wrong ??= key.Length > 0 ? $"{key} {what}" : $"This {what}";
        return null;
    }
}
