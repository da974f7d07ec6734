using Rootgap.Findings;
using YamlDotNet.Core;
using YamlDotNet.Core.Events;

namespace Rootgap.Drawings;

/// <summary>A node of a YAML file with its place, so that every error can point at it.</summary>
internal abstract record YamlNode(Place Where)
{
    /// <summary>Line and column just past the end, where that is on another line; 0 otherwise.</summary>
    public (int Line, int Column) End { get; init; }
}

internal sealed record YamlText(Place Where, string Value, bool Quoted) : YamlNode(Where)
{
    /// <summary>Whether nothing is written here (<c>key:</c> or <c>~</c>).</summary>
    public bool IsEmpty => !Quoted && Value is "" or "~" or "null";
}

internal sealed record YamlList(Place Where, List<YamlNode> Items) : YamlNode(Where);

internal sealed record YamlMap(Place Where, List<(YamlText Key, YamlNode Value)> Pairs) : YamlNode(Where)
{
    /// <summary>Whether it is written in braces.</summary>
    public bool IsInBraces { get; init; }

    public YamlNode? this[string key]
    {
        get
        {
            foreach (var (k, v) in Pairs)
            {
                if (k.Value == key)
                    return v;
            }

            return null;
        }
    }
}

/// <summary>Reads YAML into nodes with places, by the library's own event parser: anchors are kept by reference, so nothing is expanded.</summary>
internal static class YamlTree
{
    private const int Deepest = 32;

    /// <summary>The root node, or null with an error that says where the YAML itself breaks.</summary>
    public static YamlNode? Read(string text, string file, Action<Place, string, string> error) =>
        PlainYaml.Read(WithoutReturns(text), file) ?? ReadAny(text, file, error);

    /// <summary>The text with lines ended by a line feed alone and without a byte order mark: no place in it changes.</summary>
    private static string WithoutReturns(string text) =>
        text.AsSpan().IndexOfAny('\r', '\ufeff') < 0 ? text : (text.StartsWith('\ufeff') ? text[1..] : text).Replace("\r\n", "\n", StringComparison.Ordinal);

    /// <summary>The library's reading, for all that is not plain.</summary>
    internal static YamlNode? ReadAny(string text, string file, Action<Place, string, string> error)
    {
        var parser = new Parser(new Scanner(new StringReader(text), skipComments: true));
        try
        {
            var reader = new Reader(parser, file, error);
            return reader.Document();
        }
        catch (YamlException e)
        {
            error(At(file, e.Start, e.Start), "This is not YAML: " + FirstSentence(e.Message), "Mend the punctuation here: brackets, quotes and indentation must match.");
        }
        catch (Exception e) when (e is InvalidOperationException or ArgumentException or IndexOutOfRangeException or NotSupportedException or FormatException or OverflowException or NullReferenceException)
        {
            // The library gives no place for some broken input (an unclosed bracket at the end, for instance).
            var last = parser.Current?.End ?? Mark.Empty;
            error(At(file, last, last), "This is not YAML: it breaks off after this place.", "Close the bracket, brace or quote that is still open.");
        }

        return null;
    }

    private static Place At(string file, in Mark start, in Mark end) =>
        new(file, (int)Math.Max(1, start.Line), (int)Math.Max(1, start.Column), (int)Math.Max(start.Column + 1, end.Line == start.Line ? end.Column : 0));

    private static string FirstSentence(string message)
    {
        var text = message.AsSpan();
        // "(Line: 3, Col: 7, Idx: 41) - (Line: ...): While parsing ..." : the place is told apart from the words.
        var colon = text.StartsWith("(") ? text.LastIndexOf("): ") : -1;
        if (colon >= 0)
            text = text[(colon + 3)..];
        var end = text.IndexOf('\n');
        return (end >= 0 ? text[..end] : text).ToString().TrimEnd('.') + ".";
    }

    private sealed class Reader(Parser parser, string file, Action<Place, string, string> error)
    {
        private readonly Dictionary<string, YamlNode> anchors = new(StringComparer.Ordinal);

        public YamlNode? Document()
        {
            Next();
            while (parser.Current is StreamStart or DocumentStart)
                Next();
            if (parser.Current is StreamEnd or null)
                return null;
            if (parser.Current is DocumentEnd)
                return null;
            var root = Node(0);
            if (parser.Current is DocumentEnd)
            {
                Next();
                if (parser.Current is DocumentStart)
                    error(Here(), "A second document begins here.", "One file is one drawing: write the other into a file of its own.");
            }

            return root;
        }

        private void Next() => parser.MoveNext();

        private Place Here() => parser.Current is { } e ? At(file, e.Start, e.End) : new(file, 1, 1, 2);

        private YamlNode Node(int depth)
        {
            var where = Here();
            if (depth > Deepest)
                throw new YamlException(parser.Current!.Start, parser.Current.End, "Brackets and indentation are nested too deep here.");
            switch (parser.Current)
            {
                case Scalar s:
                    Next();
                    return Remember(s, new YamlText(where, s.Value, s.Style is ScalarStyle.SingleQuoted or ScalarStyle.DoubleQuoted) { End = s.End.Line == s.Start.Line ? default : ((int)s.End.Line, (int)s.End.Column) });
                case SequenceStart start:
                    var list = new YamlList(where, []);
                    Remember(start, list);
                    Next();
                    while (parser.Current is not SequenceEnd)
                        list.Items.Add(Node(depth + 1));
                    Next();
                    return list;
                case MappingStart start:
                    var map = new YamlMap(where, []) { IsInBraces = start.Style == MappingStyle.Flow };
                    Remember(start, map);
                    Next();
                    while (parser.Current is not MappingEnd)
                    {
                        var key = Node(depth + 1);
                        if (key is not YamlText word)
                        {
                            error(key.Where, "A key must be a word.", "Write the key without brackets.");
                            word = new YamlText(key.Where, "", Quoted: true);
                        }

                        var value = Node(depth + 1);
                        if (map[word.Value] is not null)
                            error(word.Where, $"\"{word.Value}\" stands twice in this entry.", "Keep one of the two.");
                        else if (word.Value.Length > 0)
                            map.Pairs.Add((word, value));
                    }

                    Next();
                    return map;
                case AnchorAlias alias:
                    Next();
                    if (anchors.TryGetValue(alias.Value.Value, out var known))
                        return known;
                    error(where, $"Nothing is named &{alias.Value.Value} above.", "Name it with & before using it with *.");
                    return new YamlText(where, "", Quoted: false);
                default:
                    throw new YamlException(parser.Current?.Start ?? Mark.Empty, parser.Current?.End ?? Mark.Empty, "The file ends in the middle of an entry.");
            }
        }

        private YamlNode Remember(NodeEvent e, YamlNode node)
        {
            if (!e.Anchor.IsEmpty)
                anchors[e.Anchor.Value] = node;
            return node;
        }
    }
}
