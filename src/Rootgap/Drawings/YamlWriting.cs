using System.Globalization;
using System.Text;

namespace Rootgap.Drawings;

/// <summary>Values as YAML, quoted only where they would be read as something else.</summary>
internal static class YamlWriting
{
    public static string Write(YamlNode node, bool inFlow, bool quoted = false) => node switch
    {
        YamlText t => quoted ? Quote(t.Value) : Word(t.Value, inFlow),
        YamlMap map => "{" + string.Join(", ", map.Pairs.Select(p => $"{Word(p.Key.Value, inFlow: true)}: {Write(p.Value, inFlow: true)}")) + "}",
        YamlList list => "[" + string.Join(", ", list.Items.Select(i => Write(i, inFlow: true))) + "]",
        _ => "",
    };

    public static string Word(string word, bool inFlow) => IsPlain(word, inFlow) ? word : Quote(word);

    /// <summary>Whether every YAML reader takes the word as it stands for these characters and nothing else.</summary>
    private static bool IsPlain(string word, bool inFlow)
    {
        if (word.Length == 0 || word is "~" || word.Equals("null", StringComparison.OrdinalIgnoreCase) || word is "---" or "..." || word[^1] is ' ' or ':')
            return false;
        var first = word[0];
        if (!char.IsLetterOrDigit(first) && !(first is '.' or '+' or '/' or '(' or '_' or '½' or '¼' or '¾') && !(first == '-' && word.Length > 1 && (char.IsAsciiLetterOrDigit(word[1]) || word[1] == '.')))
            return false;
        for (var i = 0; i < word.Length; i++)
        {
            var c = word[i];
            if (c is < ' ' or '\u007f' or (>= '\u0080' and <= '\u00a0') or '\u2028' or '\u2029' or '\ufeff' or '\ufffe' or '\uffff' || char.IsSurrogate(c))
                return false;
            if (c == ':' && word[i + 1] is ' ' or ',' or '[' or ']' or '{' or '}' && c == ':')
                return false;
            if (c == '#' && word[i - 1] == ' ')
                return false;
            if (inFlow && c is ',' or '[' or ']' or '{' or '}' && inFlow)
                return false;
            if (c is '*' or '&' or '!' or '|' or '>' or '?' or '`' or '@')
                return false;
        }

        return true;
    }

    private static string Quote(string word)
    {
        var quoted = new StringBuilder(word.Length + 4).Append('"');
        foreach (var c in word)
        {
            _ = c switch
            {
                '"' => quoted.Append("\\\""),
                '\\' => quoted.Append("\\\\"),
                '\n' => quoted.Append("\\n"),
                '\r' => quoted.Append("\\r"),
                '\t' => quoted.Append("\\t"),
                < ' ' or '\u007f' or (>= '\u0080' and <= '\u009f') or '\u2028' or '\u2029' or '\ufeff' or '\ufffe' or '\uffff' => quoted.Append("\\u").Append(((int)c).ToString("x4", CultureInfo.InvariantCulture)),
                _ => quoted.Append(c),
            };
        }

        return quoted.Append('"').ToString();
    }
}
