using System.Globalization;
using System.Text.Json;

namespace Rootgap.Cli.Commands;

/// <summary>What a key of a fact takes.</summary>
internal enum FormKind
{
    Text,
    Number,
    YesNo,
    List,
}

/// <summary>A kind of fact as <c>rootgap record</c> takes it.</summary>
/// <param name="Word">As it is said: welded, examined.</param>
/// <param name="Fact">The fact's kind.</param>
/// <param name="NameKey">The key that the name goes to; empty where it has none.</param>
/// <param name="Example">Name and keys, as in an example.</param>
/// <param name="Keys">The keys that may be given.</param>
/// <param name="Always">What the word itself says.</param>
internal sealed record RecordForm(string Word, string Fact, string NameKey, string Example, IReadOnlyList<(string Key, FormKind Kind)> Keys, params IReadOnlyList<(string Key, object Value)> Always)
{
    private static readonly (string, FormKind) Note = ("note", FormKind.Text);

    public static IReadOnlyList<RecordForm> All { get; } =
    [
        new("cut", "piece-cut", "piece", "1-A stock=rack.yaml bar=R1#2 to=1204", [("heat", FormKind.Text), ("length", FormKind.Number), ("spoiled", FormKind.YesNo), ("stock", FormKind.Text), ("bar", FormKind.Text), ("to", FormKind.Number), Note]),
        new("heat", "heat", "component", "C3 heat=H2", [("heat", FormKind.Text), Note]),
        new("fitted", "joint-step", "joint", "W7", [("weld", FormKind.Text), Note], ("step", "fitted")),
        new("tacked", "joint-step", "joint", "W7", [("weld", FormKind.Text), ("welder", FormKind.Text), Note], ("step", "tacked")),
        new("fit-up-seen", "fit-up-seen", "joint", "W7 gap=3.0 hi-lo=0.8", [("weld", FormKind.Text), ("gap", FormKind.Number), ("hi-lo", FormKind.Number), ("readings", FormKind.Text), ("refused", FormKind.YesNo), Note]),
        new("welded", "joint-step", "joint", "W7 welder=K12 procedure=WPS-4", [("weld", FormKind.Text), ("welder", FormKind.Text), ("root", FormKind.Text), ("fill", FormKind.Text), ("cap", FormKind.Text), ("procedure", FormKind.Text), ("filler", FormKind.Text), ("preheat", FormKind.Number), ("at", FormKind.Text), Note], ("step", "welded")),
        new("checked", "joint-step", "joint", "W7", [("weld", FormKind.Text), Note], ("step", "checked")),
        new("examined", "examined", "joint", "W7 method=radiography accepted=yes report=RT-31", [("weld", FormKind.Text), ("method", FormKind.Text), ("accepted", FormKind.YesNo), ("extent", FormKind.Number), ("report", FormKind.Text), ("found", FormKind.Text), ("rejected-length", FormKind.Number), Note]),
        new("heat-treated", "heat-treated", "joint", "W7 chart=C-9 temperature=620 minutes=60", [("weld", FormKind.Text), ("chart", FormKind.Text), ("temperature", FormKind.Number), ("minutes", FormKind.Number), Note]),
        new("repair", "repair", "joint", "W7 why=\"lack of fusion at 3 o'clock\"", [("weld", FormKind.Text), ("why", FormKind.Text), Note], ("cut-out", false)),
        new("cut-out", "repair", "joint", "W7 why=\"rejected twice\"", [("weld", FormKind.Text), ("why", FormKind.Text), Note], ("cut-out", true)),
        new("bolted-up", "bolted-up", "joint", "B1 gasket=\"spiral wound 4 in. 150\" tool=TW-3 \"100 %=240 N m\"", [("gasket", FormKind.Text), ("lubricant", FormKind.Text), ("tool", FormKind.Text), Note]),
        new("released", "released", "spool", "3", [Note]),
        new("painted", "coated", "spool", "3", [Note], ("with", "paint")),
        new("insulated", "coated", "spool", "3", [Note], ("with", "insulation")),
        new("tested", "tested", "pack", "TP-4 medium=water bar=22.5 passed=yes gauges=G1,G2", [("medium", FormKind.Text), ("bar", FormKind.Number), ("passed", FormKind.YesNo), ("from", FormKind.Text), ("to", FormKind.Text), ("gauges", FormKind.List), Note]),
        new("note", "note", "about", "W7 note=\"arc strike beside the cap\"", [Note]),
        new("certificate", "certificate", "heat", "H1 number=C-771 type=3.1 size=6 schedule=40 material=A106-B", [("number", FormKind.Text), ("type", FormKind.Text), ("product", FormKind.Text), ("size", FormKind.Text), ("schedule", FormKind.Text), ("material", FormKind.Text)]),
        new("withdrawn", "withdrawn", "withdraws", "5f0f2a52-8f2b-4a3c-9d2d-3f1f6f2a9b01 why=\"wrong joint\"", [("why", FormKind.Text)]),
    ];

    public static RecordForm? Find(string word) => All.FirstOrDefault(f => f.Word.Equals(word, StringComparison.OrdinalIgnoreCase));

    /// <summary>Whether it speaks of a drawing.</summary>
    public bool IsOfDrawing => Fact is not ("certificate" or "withdrawn");

    /// <summary>Writes the keys that were given; what is wrong, or null.</summary>
    public string? Write(Utf8JsonWriter json, string name, IReadOnlyList<string> given)
    {
        if (NameKey.Length > 0)
            json.WriteString(NameKey, name);
        foreach (var (key, value) in Always)
        {
            if (value is bool yes)
                json.WriteBoolean(key, yes);
            else
                json.WriteString(key, (string)value);
        }

        var seen = new HashSet<string>(StringComparer.Ordinal);
        List<(string Name, string Value)> tightened = [];
        var from = new SortedDictionary<string, string>(StringComparer.Ordinal);
        var passes = new SortedDictionary<string, List<string>>(StringComparer.Ordinal); // welder, passes
        foreach (var pair in given)
        {
            var at = pair.IndexOf('=', StringComparison.Ordinal);
            if (at < 1)
                return $"\"{pair}\" is no key=value.";
            var (key, value) = (pair[..at].Trim(), pair[(at + 1)..].Trim());
            if (!seen.Add(key))
                return $"{key} is given twice.";
            if (Keys.FirstOrDefault(k => k.Key == key) is not { Key: not null } form)
            {
                // Passes of tightening have names of their own: 30 %, round.
                if (Fact == "bolted-up" && value.Length > 0)
                {
                    tightened.Add((key, value));
                    continue;
                }

                return $"\"{key}\" is no key of {Word}. Its keys are: {string.Join(", ", Keys.Select(k => k.Key))}.";
            }

            if (key is "root" or "fill" or "cap")
            {
                foreach (var welder in value.Split(',', StringSplitOptions.RemoveEmptyEntries | StringSplitOptions.TrimEntries))
                    (passes.TryGetValue(welder, out var his) ? his : passes[welder] = []).Add(key);
                continue;
            }

            // The bar of a piece; of a test, bar is its pressure and to its end.
            if (Word == "cut" && key is ("stock" or "bar" or "to"))
            {
                from[key] = value;
                continue;
            }

            switch (form.Kind)
            {
                case FormKind.Number when double.TryParse(value, NumberStyles.Float, CultureInfo.InvariantCulture, out var number):
                    json.WriteNumber(key, number);
                    break;
                case FormKind.Number:
                    return $"{key}: \"{value}\" is not a number such as 3.2.";
                case FormKind.YesNo when value is "yes" or "true" or "no" or "false":
                    json.WriteBoolean(key, value is "yes" or "true");
                    break;
                case FormKind.YesNo:
                    return $"{key}: \"{value}\" is neither yes nor no.";
                case FormKind.List:
                    json.WriteStartArray(key);
                    foreach (var item in value.Split(',', StringSplitOptions.RemoveEmptyEntries | StringSplitOptions.TrimEntries))
                        json.WriteStringValue(item);
                    json.WriteEndArray();
                    break;
                default:
                    json.WriteString(key, value);
                    break;
            }
        }

        // The bar goes with the piece, and its heat with the bar.
        if (from.Count is 1 or 2)
            return "stock, bar and to go together: the stock file, the bar's mark in it, and where it was cut off, mm from the bar's end.";
        if (from.Count > 0)
        {
            if (!double.TryParse(from["to"], NumberStyles.Float, CultureInfo.InvariantCulture, out var to))
                return $"to: \"{from["to"]}\" is not a number such as 1204.5.";
            json.WriteStartObject("from");
            json.WriteString("stock", from["stock"]);
            json.WriteString("bar", from["bar"]);
            json.WriteNumber("to", to);
            json.WriteEndObject();
        }

        if (tightened.Count > 0)
        {
            json.WriteStartArray("passes");
            foreach (var (pass, value) in tightened)
            {
                json.WriteStartObject();
                json.WriteString("pass", pass);
                json.WriteString("value", value);
                json.WriteEndObject();
            }

            json.WriteEndArray();
        }

        if (passes.Count > 0)
        {
            json.WriteStartArray("passes");
            foreach (var (welder, made) in passes)
            {
                json.WriteStartObject();
                json.WriteString("welder", welder);
                json.WriteStartArray("made");
                foreach (var pass in made)
                    json.WriteStringValue(pass);
                json.WriteEndArray();
                json.WriteEndObject();
            }

            json.WriteEndArray();
        }

        return null;
    }
}
