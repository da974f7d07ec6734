using System.Globalization;

namespace Rootgap.Drawings;

/// <summary>Nodes of a YAML tree by their path, <c>runs[0].legs[2]</c>. Trees are immutable here: what is put gives a new tree.</summary>
internal static class YamlPaths
{
    /// <summary>The node at a path; null where nothing is.</summary>
    public static YamlNode? At(YamlNode? root, string path)
    {
        var node = root;
        foreach (var step in Steps(path))
        {
            node = node switch
            {
                YamlMap map => map[step],
                YamlList list when int.TryParse(step, NumberStyles.None, CultureInfo.InvariantCulture, out var i) && i < list.Items.Count => list.Items[i],
                _ => null,
            };
        }

        return node;
    }

    /// <summary>The map with a value at a pair; where <paramref name="pair"/> is below zero, with a new pair at a place.</summary>
    public static YamlMap With(YamlMap map, int pair, int at, string key, YamlNode value)
    {
        var pairs = map.Pairs.ToList();
        if (pair >= 0)
            pairs[pair] = (pairs[pair].Key, value);
        else
            pairs.Insert(at, (TypedValue.Word(key), value));
        return map with { Pairs = pairs };
    }

    public static YamlMap Without(YamlMap map, int pair)
    {
        var pairs = map.Pairs.ToList();
        pairs.RemoveAt(pair);
        return map with { Pairs = pairs };
    }

    /// <summary>The tree with another node at a path, of which all but the end must be there.</summary>
    public static YamlNode Put(YamlNode root, string path, YamlNode node) => Put(root, Steps(path), 0, node);

    private static YamlNode Put(YamlNode at, List<string> steps, int i, YamlNode node)
    {
        if (i == steps.Count)
            return node;
        if (at is YamlList list)
        {
            var items = list.Items.ToList();
            var n = int.Parse(steps[i], CultureInfo.InvariantCulture);
            items[n] = Put(items[n], steps, i + 1, node);
            return list with { Items = items };
        }

        var map = (YamlMap)at;
        var pair = IndexOf(map, steps[i]);
        return With(map, pair, pair, steps[i], Put(map.Pairs[pair].Value, steps, i + 1, node));
    }

    /// <summary>The pair of a key; -1 where there is none.</summary>
    public static int IndexOf(YamlMap map, string key) => map.Pairs.FindIndex(p => p.Key.Value == key);

    public static List<string> Steps(string path) => [.. path.Split(['.', '[', ']'], StringSplitOptions.RemoveEmptyEntries)];

    /// <summary>Whether two trees say the same; false where they have more nodes than <paramref name="most"/>.</summary>
    public static bool IsSame(YamlNode a, YamlNode b, int most)
    {
        var budget = most;
        return IsSame(a, b, ref budget, 0);
    }

    private static bool IsSame(YamlNode a, YamlNode b, ref int budget, int depth)
    {
        if (--budget < 0 || depth > 64)
            return false;
        switch (a, b)
        {
            case (YamlText x, YamlText y):
                return x.Value == y.Value && x.IsEmpty == y.IsEmpty;
            case (YamlList x, YamlList y):
                if (x.Items.Count != y.Items.Count)
                    return false;
                for (var i = 0; i < x.Items.Count; i++)
                {
                    if (!IsSame(x.Items[i], y.Items[i], ref budget, depth + 1))
                        return false;
                }

                return true;
            case (YamlMap x, YamlMap y):
                if (x.Pairs.Count != y.Pairs.Count)
                    return false;
                for (var i = 0; i < x.Pairs.Count; i++)
                {
                    if (x.Pairs[i].Key.Value != y.Pairs[i].Key.Value || !IsSame(x.Pairs[i].Value, y.Pairs[i].Value, ref budget, depth + 1))
                        return false;
                }

                return true;
            default:
                return false;
        }
    }
}
