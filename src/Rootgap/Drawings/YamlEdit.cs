using System.Text;

namespace Rootgap.Drawings;

/// <summary>
/// Changes a YAML text at a node of its tree and touches nothing else. The positions are found by walking the text along the tree; whoever edits reads the
/// result again and compares, so what is written in a way that the walk does not know (explicit keys, tags) is refused and never spoilt.
/// </summary>
internal sealed class YamlEdit
{
    private readonly string text;
    private readonly List<int> lines = [0];
    private readonly string newLine;
    private readonly bool hasMark;

    public YamlEdit(string text)
    {
        this.text = text;
        hasMark = text.StartsWith('\uFEFF');
        newLine = text.Contains("\r\n", StringComparison.Ordinal) ? "\r\n" : "\n";
        for (var i = 0; i < text.Length; i++)
        {
            if (text[i] is '\n' or '\u0085' or '\u2028' or '\u2029' || (text[i] == '\r' && At(i + 1) != '\n'))
                lines.Add(i + 1);
        }
    }

    /// <summary>An entry of a mapping or an item of a list: where it begins (key or dash), where its value begins and ends.</summary>
    private readonly record struct Span(int From, int Value, int To);

    private char At(int at) => at >= 0 && at < text.Length ? text[at] : '\0';

    private int Offset(int line, int column) => Math.Clamp(lines[Math.Clamp(line, 1, lines.Count) - 1] + column - 1 + (line == 1 && hasMark ? 1 : 0), 0, text.Length);

    private int Start(YamlNode node) => Offset(node.Where.Line, node.Where.Column);

    /// <summary>The text of a value as it is written.</summary>
    public string Written(YamlMap map, string key)
    {
        var spans = Spans(map, Start(map));
        var i = map.Pairs.FindIndex(p => p.Key.Value == key);
        return text[spans[i].Value..spans[i].To];
    }

    /// <summary>Whether a mapping has a key for which another value is written with <c>*</c>.</summary>
    public bool IsAlias(YamlMap map, int pair) => At(Spans(map, Start(map))[pair].Value) == '*';

    /// <summary>Another value for a key that is there.</summary>
    public string Replace(YamlMap map, int pair, YamlNode value)
    {
        var span = Spans(map, Start(map))[pair];
        var inFlow = IsFlow(map);
        var old = map.Pairs[pair].Value;
        var keepsQuotes = old is YamlText { Quoted: true } && At(span.Value) == '"';
        if (span.Value == span.To)
            return Splice(span.Value, span.To, " " + YamlWriting.Write(value, inFlow));
        if (!inFlow && old is YamlList or YamlMap && At(span.Value) is not ('{' or '[' or '*' or '&'))
        {
            // What filled lines of its own becomes a word behind its key.
            var colon = AfterColon(map.Pairs[pair].Key);
            var (from, to) = Lines(span.Value, span.To);
            return string.Concat(text.AsSpan(0, colon), " " + YamlWriting.Write(value, inFlow), text.AsSpan(colon, from - colon), text.AsSpan(to));
        }

        return Splice(AfterProperties(span.Value), span.To, YamlWriting.Write(value, inFlow, keepsQuotes));
    }

    /// <summary>A new key, as pair number <paramref name="at"/> of its mapping.</summary>
    /// <param name="inBlock">An empty mapping in braces is written as lines from now on, as its neighbours are.</param>
    public string Insert(YamlMap map, int at, string key, YamlNode value, bool inBlock)
    {
        var start = Start(map);
        if (map.Pairs.Count == 0)
        {
            var end = End(map, start);
            return inBlock
                ? Splice(start, end, Entry(key, value, inFlow: false))
                : Splice(start + 1, start + 1, Entry(key, value, inFlow: true));
        }

        var spans = Spans(map, start);
        if (IsFlow(map))
        {
            var entry = Entry(key, value, inFlow: true);
            return at == 0 ? Splice(spans[0].From, spans[0].From, entry + ", ") : Splice(spans[at - 1].To, spans[at - 1].To, ", " + entry);
        }

        var indent = Indent(spans[0].From);
        var line = Entry(key, value, inFlow: false);
        if (at == 0)
            return Splice(spans[0].From, spans[0].From, line + newLine + indent);
        var lineEnd = LineEnd(spans[at - 1].To);
        return Splice(lineEnd, lineEnd, newLine + indent + line);
    }

    /// <summary>Takes a key out with its value. A comment behind it stays.</summary>
    public string Remove(YamlMap map, int pair)
    {
        var spans = Spans(map, Start(map));
        if (IsFlow(map))
            return RemoveInFlow(spans, pair);
        var (key, _, to) = spans[pair];
        if (spans.Count == 1)
            return Splice(key, to, "{}");
        var lineEnd = LineEnd(to);
        var comment = text.AsSpan(to, lineEnd - to).TrimStart().Length > 0 ? to + text.AsSpan(to, lineEnd - to).IndexOfAnyExcept(' ', '\t') : -1;
        if (comment >= 0)
            return Splice(key, comment, "");
        if (IsFirstOnLine(key))
        {
            var (from, end) = Lines(key, to);
            return Splice(from, end, "");
        }

        // Behind a dash: the next key takes the place.
        return pair + 1 < spans.Count && string.IsNullOrWhiteSpace(text[to..spans[pair + 1].From]) ? Splice(key, spans[pair + 1].From, "") : Splice(key, to, "");
    }

    /// <summary>A new list under a key that is there and empty, or is not there.</summary>
    public string InsertList(YamlMap parent, int pair, int at, string key, IReadOnlyList<YamlNode> items)
    {
        var start = Start(parent);
        var inFlow = IsFlow(parent);
        if (inFlow)
        {
            var list = new YamlList(default, [.. items]);
            return pair >= 0 ? Replace(parent, pair, list) : Insert(parent, at, key, list, inBlock: false);
        }

        var spans = Spans(parent, start);
        var indent = Indent(spans[0].From);
        var rows = new StringBuilder();
        foreach (var item in items)
            rows.Append(newLine).Append(indent).Append("  - ").Append(Item(item, indent + "    ", inBlock: item is YamlMap { IsInBraces: false, Pairs.Count: > 0 }));
        if (pair < 0)
        {
            var written = key + ":" + rows;
            if (at == 0)
                return Splice(spans[0].From, spans[0].From, written + newLine + indent);
            var end = LineEnd(spans[at - 1].To);
            return Splice(end, end, newLine + indent + written);
        }

        var (_, value, to) = spans[pair];
        var colon = AfterColon(parent.Pairs[pair].Key);
        if (value > LineEnd(colon))
        {
            // The old list's lines make room.
            var (from, past) = Lines(value, to);
            var head = LineEnd(colon);
            return string.Concat(text.AsSpan(0, head), rows.ToString(), text.AsSpan(head, from - head), text.AsSpan(past));
        }

        var lineEnd = LineEnd(to);
        // A comment behind the old value stays behind the key.
        return string.Concat(text.AsSpan(0, colon), text.AsSpan(to, lineEnd - to), rows.ToString(), text.AsSpan(lineEnd));
    }

    /// <summary>A new item in a list that has some, in the style of its neighbours.</summary>
    public string InsertItem(YamlList list, int start, int at, YamlNode item)
    {
        var spans = Spans(list, start);
        if (At(start) == '[')
        {
            var written = YamlWriting.Write(item, inFlow: true);
            return at < spans.Count ? Splice(spans[at].From, spans[at].From, written + ", ") : Splice(spans[^1].To, spans[^1].To, ", " + written);
        }

        var indent = Indent(spans[0].From);
        var inBlock = item is YamlMap { Pairs.Count: > 0 } && list.Items.Exists(n => n is YamlMap { IsInBraces: false });
        var row = "- " + Item(item, indent + "  ", inBlock);
        if (at == 0)
            return Splice(spans[0].From, spans[0].From, row + newLine + indent);
        var end = LineEnd(spans[at - 1].To);
        return Splice(end, end, newLine + indent + row);
    }

    /// <summary>Takes an item out with its lines and what is written behind it; comments on lines of their own before and after stay.</summary>
    public string RemoveItem(YamlMap parent, int pair, int item)
    {
        var (_, start, _) = Spans(parent, Start(parent))[pair];
        var list = (YamlList)parent.Pairs[pair].Value;
        start = AfterProperties(start);
        var spans = Spans(list, start);
        if (At(start) == '[')
            return RemoveInFlow(spans, item);
        var (from, to) = Lines(spans[item].From, spans[item].To);
        if (spans.Count > 1)
            return Splice(from, to, "");
        var colon = AfterColon(parent.Pairs[pair].Key);
        return string.Concat(text.AsSpan(0, colon), " []", text.AsSpan(colon, from - colon), text.AsSpan(to));
    }

    /// <summary>Moves an item to another place; the comments on the lines directly above it, in the dash's column, and behind it go with it.</summary>
    public string MoveItem(YamlList list, int start, int from, int to)
    {
        var spans = Spans(list, start);
        var isFlow = At(start) == '[';
        var slots = spans.Select(s => isFlow ? (s.From, s.To) : (From: WithCommentsAbove(s.From), To: LineEnd(s.To))).ToList();
        var rows = slots.Select(s => text[s.From..s.To]).ToList();
        var moved = rows[from];
        rows.RemoveAt(from);
        rows.Insert(to, moved);
        var result = new StringBuilder(text.Length);
        var at = 0;
        for (var i = 0; i < slots.Count; i++)
        {
            result.Append(text, at, slots[i].From - at).Append(rows[i]);
            at = slots[i].To;
        }

        return result.Append(text, at, text.Length - at).ToString();
    }

    /// <summary>Where the value of a pair begins, behind its anchor.</summary>
    public int ValueStart(YamlMap map, int pair) => AfterProperties(Spans(map, Start(map))[pair].Value);

    private bool IsFlow(YamlMap map) => At(Start(map)) == '{';

    private static string Entry(string key, YamlNode value, bool inFlow) => $"{YamlWriting.Word(key, inFlow: true)}: {YamlWriting.Write(value, inFlow)}";

    private string Item(YamlNode item, string indent, bool inBlock) => item is YamlMap map && inBlock
        ? string.Join(newLine + indent, map.Pairs.Select(p => Entry(p.Key.Value, p.Value, inFlow: false)))
        : YamlWriting.Write(item, inFlow: false);

    private string Splice(int from, int to, string with) => string.Concat(text.AsSpan(0, from), with, text.AsSpan(Math.Max(from, to)));

    private string RemoveInFlow(List<Span> spans, int i)
    {
        var (from, _, to) = spans[i];
        if (i > 0 && text.AsSpan(spans[i - 1].To, from - spans[i - 1].To).IndexOf('#') < 0)
            return Splice(spans[i - 1].To, to, "");
        if (i + 1 < spans.Count && text.AsSpan(to, spans[i + 1].From - to).IndexOf('#') < 0)
            return Splice(from, spans[i + 1].From, "");
        if (i + 1 == spans.Count)
            return Splice(from, to, "");
        var comma = SkipToContent(to);
        return string.Concat(text.AsSpan(0, from), text.AsSpan(to, comma - to), text.AsSpan(At(comma) == ',' ? comma + 1 : comma));
    }

    private List<Span> Spans(YamlMap map, int start)
    {
        var spans = new List<Span>(map.Pairs.Count);
        foreach (var (key, value) in map.Pairs)
        {
            var from = Start(key);
            var after = AfterColon(key);
            var (valueStart, end) = Extent(value, after);
            spans.Add(new(from, valueStart, end));
        }

        return spans;
    }

    private List<Span> Spans(YamlList list, int start)
    {
        var spans = new List<Span>(list.Items.Count);
        var isFlow = At(start) == '[';
        var at = isFlow ? start + 1 : start;
        foreach (var item in list.Items)
        {
            var from = SkipToContent(at);
            if (isFlow && At(from) == ',')
                from = SkipToContent(from + 1);
            var (value, end) = Extent(item, isFlow ? from : from + 1);
            spans.Add(new(from, value, end));
            at = end;
        }

        return spans;
    }

    /// <summary>Where a value begins and ends that follows a colon or a dash.</summary>
    private (int From, int To) Extent(YamlNode node, int after)
    {
        var at = SkipToContent(after);
        if (At(at) == '*')
        {
            var end = at + 1;
            while (end < text.Length && At(end) is not (' ' or '\t' or '\r' or '\n' or ',' or ']' or '}'))
                end++;
            return (at, end);
        }

        if (node is YamlText { Quoted: false, Value: "" })
            return (after, after);
        return (at, End(node, AfterProperties(at)));
    }

    private int AfterProperties(int at)
    {
        while (At(at) is '&' or '!')
        {
            while (at < text.Length && !char.IsWhiteSpace(text[at]))
                at++;
            at = SkipToContent(at);
        }

        return at;
    }

    private int AfterColon(YamlText key)
    {
        var at = Offset(key.Where.Line, key.Where.EndColumn);
        while (At(at) is ' ' or '\t')
            at++;
        return Math.Min(text.Length, at + 1);
    }

    private int End(YamlNode node, int start)
    {
        switch (node)
        {
            case YamlText { End.Line: > 0 } word:
                var end = Offset(word.End.Line, word.End.Column);
                while (end > start && char.IsWhiteSpace(text[end - 1]))
                    end--;
                return end;
            case YamlText word:
                return Math.Max(start, Offset(word.Where.Line, word.Where.EndColumn));
            case YamlMap map when At(start) == '{':
                return Closed(map.Pairs.Count == 0 ? start + 1 : Spans(map, start)[^1].To, '}');
            case YamlList list when At(start) == '[':
                return Closed(list.Items.Count == 0 ? start + 1 : Spans(list, start)[^1].To, ']');
            case YamlMap { Pairs: [.., var last] }:
                return Extent(last.Value, AfterColon(last.Key)).To;
            case YamlList { Items.Count: > 0 } list:
                return Spans(list, start)[^1].To;
            default:
                return start;
        }
    }

    private int Closed(int at, char bracket)
    {
        at = SkipToContent(at);
        if (At(at) == ',')
            at = SkipToContent(at + 1);
        return At(at) == bracket ? at + 1 : at;
    }

    private int SkipToContent(int at)
    {
        while (at < text.Length)
        {
            if (char.IsWhiteSpace(text[at]) || text[at] == '\uFEFF')
                at++;
            else if (text[at] == '#' && (at == 0 || char.IsWhiteSpace(text[at - 1])))
                at = LineEnd(at);
            else
                break;
        }

        return at;
    }

    /// <summary>Where the line that holds a place ends, its line break aside.</summary>
    private int LineEnd(int at)
    {
        var end = text.AsSpan(at).IndexOfAny('\n', '\r');
        return end < 0 ? text.Length : at + end;
    }

    private int LineStart(int at)
    {
        var i = lines.BinarySearch(at);
        return lines[i >= 0 ? i : ~i - 1];
    }

    private bool IsFirstOnLine(int at) => string.IsNullOrWhiteSpace(text[LineStart(at)..at].TrimStart('\uFEFF'));

    /// <summary>Spaces up to the column of a place.</summary>
    private string Indent(int at) => new(' ', at - LineStart(at) - (LineStart(at) == 0 && hasMark ? 1 : 0));

    /// <summary>Whole lines, their break with them; at the end of a text without one, the break before.</summary>
    private (int From, int To) Lines(int from, int to)
    {
        var (start, end) = (LineStart(from), LineEnd(to));
        if (start == 0 && hasMark)
            start = 1;
        if (end < text.Length)
            return (start, At(end) == '\r' && At(end + 1) == '\n' ? end + 2 : end + 1);
        if (start > 0 && At(start - 1) == '\n')
            start -= At(start - 2) == '\r' ? 2 : 1;
        return (start, end);
    }

    private int WithCommentsAbove(int dash)
    {
        var column = dash - LineStart(dash);
        while (LineStart(dash) is > 0 and var line)
        {
            var above = LineStart(line - 1);
            var row = text.AsSpan(above, line - above);
            if (row.Length <= column || row[column] != '#' || !row[..column].IsWhiteSpace())
                break;
            dash = above + column;
        }

        return dash;
    }
}
