using Rootgap.Findings;

namespace Rootgap.Drawings;

/// <summary>Values as a person types them in one field: <c>east 600 up 600</c> for a vector or a place, <c>6000, 12000</c> for a list, <c>wall 7.11</c> for a wall, <c>spacer 20</c> for a plate between two flanges.</summary>
internal static class TypedValue
{
    private static readonly (string Letter, string Word)[] Letters = [("n", "north"), ("s", "south"), ("e", "east"), ("w", "west"), ("u", "up"), ("d", "down")];

    /// <summary>The node that the file holds for a typed value; what does not fit stays as it was typed, and the reader says what is wrong with it.</summary>
    public static YamlNode Of(Kind kind, string typed)
    {
        if (kind is not (Kind.Text or Kind.Choice) && typed is ['{' or '[', ..] && Bracketed(typed) is { } node)
            return node;
        return kind switch
        {
            Kind.Go or Kind.Direction or Kind.Flat or Kind.Place => Vector(typed, kind) ?? Word(typed),
            Kind.Lengths when typed.Contains(',', StringComparison.Ordinal) => new YamlList(default, [.. typed.Split(',', StringSplitOptions.TrimEntries | StringSplitOptions.RemoveEmptyEntries).Select(Word)]),
            Kind.Plate when InLineItemPoint.InJoints.FirstOrDefault(w => typed.StartsWith(w + ' ', StringComparison.OrdinalIgnoreCase)) is { } plate => Map((plate, typed[plate.Length..].Trim())),
            Kind.Schedule when typed.StartsWith("wall ", StringComparison.OrdinalIgnoreCase) => Map(("wall", typed[5..].Trim())),
            _ => Word(typed),
        };
    }

    /// <summary>A value of the file as a person types it.</summary>
    public static string Says(YamlNode node, Func<string> written) => node switch
    {
        YamlText text => text.IsEmpty ? "" : text.Value,
        YamlMap map when map.Pairs.Count > 0 && map.Pairs.TrueForAll(p => p.Value is YamlText { IsEmpty: false } && (p.Key.Value == "wall" || InLineItemPoint.InJoints.Contains(p.Key.Value) || FileWords.Directions.Contains(p.Key.Value))) =>
            string.Join(' ', map.Pairs.Select(p => $"{p.Key.Value} {((YamlText)p.Value).Value}")),
        YamlList list when list.Items.TrueForAll(i => i is YamlText t && !t.Value.Contains(',', StringComparison.Ordinal)) => string.Join(", ", list.Items.Select(i => ((YamlText)i).Value)),
        _ => written(),
    };

    public static YamlText Word(string word) => new(default, word, Quoted: true);

    public static YamlMap Map(params ReadOnlySpan<(string Key, string Value)> pairs)
    {
        var map = new YamlMap(default, []) { IsInBraces = true };
        foreach (var (key, value) in pairs)
            map.Pairs.Add((Word(key), Word(value)));
        return map;
    }

    private static YamlNode? Vector(string typed, Kind kind)
    {
        var words = typed.Split(' ', StringSplitOptions.RemoveEmptyEntries).Select(w => w.Length > 1 ? w.TrimEnd(',') : w).ToArray();
        if (words.Length == 1 && kind != Kind.Place)
            return Axis(words[0]) is { } axis ? Word(axis) : null;
        var map = new YamlMap(default, []) { IsInBraces = true };
        for (var i = 0; i < words.Length;)
        {
            if (Axis(words[i++]) is not { } axis || map[axis] is not null)
                return null;
            var from = i;
            while (i < words.Length && Axis(words[i]) is null)
                i++;
            if (from == i)
                return null;
            map.Pairs.Add((Word(axis), Word(string.Join(' ', words[from..i]))));
        }

        return map.Pairs.Count > 0 ? map : null;
    }

    private static string? Axis(string word)
    {
        foreach (var (letter, whole) in Letters)
        {
            if (word.Equals(letter, StringComparison.OrdinalIgnoreCase) || word.Equals(whole, StringComparison.OrdinalIgnoreCase))
                return whole;
        }

        return null;
    }

    private static YamlNode? Bracketed(string typed)
    {
        var isWhole = true;
        var node = YamlTree.Read("x: " + typed.ReplaceLineEndings(" "), "", (Place _, string _, string _) => isWhole = false);
        return isWhole && node is YamlMap { Pairs: [(_, YamlMap or YamlList)] } map ? map.Pairs[0].Value : null;
    }
}
