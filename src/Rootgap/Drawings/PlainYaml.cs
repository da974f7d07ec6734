using Rootgap.Findings;

namespace Rootgap.Drawings;

/// <summary>
/// Reads the YAML that drawings are written in — block and flow mappings and lists, plain and quoted words, comments — some ten times faster than the library.
/// At anything else (anchors, tags, text blocks, words over several lines, tabs, every error) it gives up, and <see cref="YamlTree"/> asks the library.
/// </summary>
/// <remarks>Thousands of drawings are read in one go, and the library's scanner would take longer than all the rest together. A test proves that both give the same tree.</remarks>
internal ref struct PlainYaml
{
    private const int Deepest = 32;

    private readonly ReadOnlySpan<char> text;
    private readonly string file;
    private readonly Dictionary<string, string>.AlternateLookup<ReadOnlySpan<char>> words;
    private int at;
    private int line;
    private int lineStart;
    private int blockColumn;

    private PlainYaml(string text, string file)
    {
        this.text = text;
        this.file = file;
        words = new Dictionary<string, string>(64, StringComparer.Ordinal).GetAlternateLookup<ReadOnlySpan<char>>();
        line = 1;
    }

    /// <summary>The root mapping, or null where the text has anything that is not plain.</summary>
    public static YamlNode? Read(string text, string file)
    {
        if (text.AsSpan().IndexOfAny('\t', '\r', '\ufeff') >= 0 || text.AsSpan().IndexOfAnyInRange('\u0080', '\u009f') >= 0 || text.AsSpan().IndexOfAny('\u2028', '\u2029') >= 0)
            return null;
        var reader = new PlainYaml(text, file);
        return reader.SkipToContent() && reader.Column == 1 && reader.BlockMap(1, 0) is { } root && !reader.SkipToContent() ? root : null;
    }

    private readonly int Column => at - lineStart + 1;

    private readonly char Here => at < text.Length ? text[at] : '\n';

    private readonly char Next => at + 1 < text.Length ? text[at + 1] : '\n';

    /// <summary>Moves to the next character that is neither space, line end nor comment; false at the end of the text.</summary>
    private bool SkipToContent()
    {
        while (at < text.Length)
        {
            switch (text[at])
            {
                case ' ':
                    at++;
                    break;
                case '\n':
                    at++;
                    line++;
                    lineStart = at;
                    break;
                case '#' when at == lineStart || text[at - 1] is ' ':
                    var end = text[at..].IndexOf('\n');
                    at = end < 0 ? text.Length : at + end;
                    break;
                default:
                    return true;
            }
        }

        return false;
    }

    private readonly Place PlaceFrom(int startLine, int startColumn, int endColumn) => new(file, startLine, startColumn, Math.Max(startColumn + 1, endColumn));

    private string Word(ReadOnlySpan<char> span)
    {
        if (!words.TryGetValue(span, out var word))
            words[span] = word = span.ToString();
        return word;
    }

    /// <summary>A mapping whose keys all stand in one column.</summary>
    private YamlMap? BlockMap(int column, int depth)
    {
        if (depth > Deepest)
            return null;
        var map = new YamlMap(PlaceFrom(line, column, 0), []);
        do
        {
            if (Key(inFlow: false) is not { } key || map[key.Value] is not null)
                return null;
            if (Value(column, depth) is not { } value)
                return null;
            map.Pairs.Add((key, value));
        }
        while (SkipToContent() && Column == column && !IsItem);

        // Content further right belongs to nobody; further left is the parent's.
        return at >= text.Length || Column < column || (Column == column && IsItem) ? map : null;
    }

    private readonly bool IsItem => Here == '-' && Next is ' ' or '\n';

    /// <summary>What follows a key and its colon.</summary>
    private YamlNode? Value(int column, int depth)
    {
        SkipSpaces();
        if (Here is not ('\n' or '#'))
            return Inline(column, depth);
        if (Here == '#' && text[at - 1] != ' ')
            return null;
        if (!SkipToContent() || Column < column || (Column == column && !IsItem))
            return null;
        return IsItem ? BlockList(Column, depth + 1) : Column > column ? BlockMap(Column, depth + 1) : null;
    }

    /// <summary>A list whose dashes all stand in one column.</summary>
    private YamlList? BlockList(int column, int depth)
    {
        if (depth > Deepest)
            return null;
        var list = new YamlList(PlaceFrom(line, column, 0), []);
        do
        {
            at++;
            SkipSpaces();
            if (Here is '\n' or '#' || IsItem)
                return null;
            var isFlow = Here is '{' or '[' or '"' or '\'';
            var item = !isFlow && IsKeyAhead() ? BlockMap(Column, depth + 1) : Inline(column, depth);
            if (item is null)
                return null;
            list.Items.Add(item);
        }
        while (SkipToContent() && Column == column && IsItem);
        return at >= text.Length || Column < column || (Column == column && !IsItem) ? list : null;
    }

    /// <summary>Whether this line goes on with a plain word and a colon.</summary>
    private readonly bool IsKeyAhead()
    {
        var rest = text[at..];
        var end = rest.IndexOf('\n');
        if (end >= 0)
            rest = rest[..end];
        var colon = rest.IndexOf(": ");
        var last = rest.TrimEnd(' ');
        return colon > 0 || last.EndsWith(":");
    }

    /// <summary>A value on the line of its key or dash, that ends before the line does (or at its closing bracket).</summary>
    private YamlNode? Inline(int column, int depth)
    {
        blockColumn = column;
        YamlNode? node = Here switch
        {
            '{' => FlowMap(depth + 1),
            '[' => FlowList(depth + 1),
            '"' or '\'' => Quoted(),
            _ => Plain(inFlow: false),
        };
        if (node is null)
            return null;
        SkipSpaces();
        if (Here == '#' && text[at - 1] != ' ')
            return null;
        if (Here is not ('\n' or '#'))
            return null;
        // A plain word may go on in the next line, further right: that is for the library.
        var (oldAt, oldLine, oldStart) = (at, line, lineStart);
        var goesOn = SkipToContent() && Column > column;
        (at, line, lineStart) = (oldAt, oldLine, oldStart);
        return goesOn ? null : node;
    }

    private YamlText? Key(bool inFlow)
    {
        var (start, startColumn) = (at, Column);
        if (!StartsPlain())
            return null;
        while (at < text.Length && text[at] != '\n')
        {
            var c = text[at];
            if (c == ':' && (Next is ' ' or '\n' || (inFlow && (Next is ',' or '{' or '}' or '[' or ']'))))
                break;
            if (c is '{' or '}' or '[' or ']' or ',' or '"' or '\'' or '*' or '&' or '!' or '|' or '>' or '?' || (c == '#' && text[at - 1] == ' '))
                return null;
            at++;
        }

        if (Here != ':' || (inFlow && Next is not ' '))
            return null;
        var word = text[start..at].TrimEnd(' ');
        if (word.Length == 0)
            return null;
        var key = new YamlText(PlaceFrom(line, startColumn, startColumn + word.Length), Word(word), Quoted: false);
        at++;
        return key;
    }

    /// <summary>Whether a plain word can begin here.</summary>
    private readonly bool StartsPlain() => Here switch
    {
        '&' or '*' or '!' or '|' or '>' or '%' or '@' or '`' or '"' or '\'' or '#' or '{' or '}' or '[' or ']' or ',' or '\n' or ' ' => false,
        '?' or ':' => false,
        '-' => Next is not (' ' or '\n' or ',' or '[' or ']' or '{' or '}' or '-'),
        '.' => !(Next == '.'),
        _ => true,
    };

    private YamlText? Plain(bool inFlow)
    {
        var (start, startColumn) = (at, Column);
        if (!StartsPlain())
            return null;
        while (at < text.Length && text[at] != '\n')
        {
            var c = text[at];
            if (c == ':' && (Next is ' ' or '\n' || (inFlow && (Next is ',' or '{' or '}' or '[' or ']'))))
                return null;
            if (c is '*' or '&' or '!' or '|' or '>' or '?')
                return null;
            if (c == '#' && text[at - 1] == ' ')
                break;
            if (inFlow && (c is ',' or '}' or ']' or '{' or '['))
                break;
            at++;
        }

        if (inFlow && (Here is '{' or '['))
            return null;
        var word = text[start..at].TrimEnd(' ');
        return word.Length == 0 ? null : new YamlText(PlaceFrom(line, startColumn, startColumn + word.Length), Word(word), Quoted: false);
    }

    /// <summary>A quoted word on one line, with the escapes that lengths need.</summary>
    private YamlText? Quoted()
    {
        var quote = Here;
        var (startColumn, start) = (Column, ++at);
        var escapes = 0;
        while (Here != quote || (quote == '\'' && Next == '\''))
        {
            if (Here == '\n' || (quote == '"' && Here == '\\' && Next is not ('"' or '\\')))
                return null;
            if ((quote == '"' && Here == '\\') || quote == Here)
            {
                escapes++;
                at++;
            }

            at++;
        }

        var raw = text[start..at];
        at++;
        var word = escapes == 0 ? Word(raw)
            : quote == '"' ? raw.ToString().Replace("\\\"", "\"", StringComparison.Ordinal) : raw.ToString().Replace("''", "'", StringComparison.Ordinal);
        if (escapes > 0 && quote == '"' && raw.IndexOf("\\\\") >= 0)
            return null;
        return new YamlText(PlaceFrom(line, startColumn, Column), word, Quoted: true);
    }

    private YamlMap? FlowMap(int depth)
    {
        if (depth > Deepest)
            return null;
        var map = new YamlMap(PlaceFrom(line, Column, 0), []) { IsInBraces = true };
        at++;
        while (SkipInFlow())
        {
            if (Here == '}')
            {
                at++;
                return map;
            }

            var keyLine = line;
            if (Key(inFlow: true) is not { } key || map[key.Value] is not null || !SkipInFlow() || line != keyLine || FlowValue(depth) is not { } value)
                return null;
            map.Pairs.Add((key, value));
            if (!EndOfEntry('}'))
                return null;
        }

        return null;
    }

    private YamlList? FlowList(int depth)
    {
        if (depth > Deepest)
            return null;
        var list = new YamlList(PlaceFrom(line, Column, 0), []);
        at++;
        while (SkipInFlow())
        {
            if (Here == ']')
            {
                at++;
                return list;
            }

            if (FlowValue(depth) is not { } value)
                return null;
            list.Items.Add(value);
            if (!EndOfEntry(']'))
                return null;
        }

        return null;
    }

    private YamlNode? FlowValue(int depth) => Here switch
    {
        '{' => FlowMap(depth + 1),
        '[' => FlowList(depth + 1),
        '"' or '\'' => Quoted(),
        _ => Plain(inFlow: true),
    };

    /// <summary>Moves past a comma, or stays at the closing bracket; anything else is not plain.</summary>
    private bool EndOfEntry(char close)
    {
        if (!SkipInFlow())
            return false;
        if (Here == close)
            return true;
        if (Here != ',')
            return false;
        at++;
        return true;
    }

    /// <summary>Inside brackets every line stands further right than the entry that the brackets belong to.</summary>
    private bool SkipInFlow()
    {
        var from = line;
        return SkipToContent() && (line == from || Column > blockColumn);
    }

    private void SkipSpaces()
    {
        while (at < text.Length && text[at] == ' ')
            at++;
    }
}
