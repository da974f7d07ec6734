using System.Text.Json;
using Rootgap.Findings;
using Rootgap.Measure;

namespace Rootgap.Cutting;

/// <summary>Writes cut.json and the answer to a plain instance: the contract with other programs.</summary>
public static class CuttingPlanJson
{
    public static void Write(Utf8JsonWriter json, CuttingPlan plan, string version)
    {
        json.WriteStartObject();
        json.WriteString("rootgap", version);
        json.WriteStartObject("rules");
        json.WriteNumber("kerf", Mm(plan.Rules.Kerf));
        json.WriteNumber("end_trim", Mm(plan.Rules.EndTrim));
        json.WriteNumber("facing_loss", Mm(plan.Rules.FacingLoss));
        json.WriteNumber("shortest_remnant", Mm(plan.Rules.ShortestRemnant));
        json.WriteEndObject();
        json.WriteStartArray("groups");
        foreach (var group in plan.Groups)
            Write(json, group);
        json.WriteEndArray();
        json.WriteStartArray("unplaced");
        foreach (var (piece, why) in plan.Unplaced)
        {
            json.WriteStartObject();
            json.WriteString("piece", piece.Id);
            json.WriteString("drawing", piece.Drawing);
            json.WriteString("size", piece.Pipe.Size);
            json.WriteString("schedule", piece.Pipe.Schedule);
            if (piece.Pipe.Material.Length > 0)
                json.WriteString("material", piece.Pipe.Material);
            if (double.IsFinite(piece.Length))
                json.WriteNumber("length", Mm(piece.Length));
            json.WriteString("why", why);
            json.WriteEndObject();
        }

        json.WriteEndArray();
        json.WriteStartArray("buy");
        foreach (var (pipe, length, count) in plan.Purchases)
        {
            json.WriteStartObject();
            json.WriteString("size", pipe.Size);
            json.WriteString("schedule", pipe.Schedule);
            json.WriteString("material", pipe.Material);
            json.WriteNumber("length", Mm(length));
            json.WriteNumber("count", count);
            json.WriteEndObject();
        }

        json.WriteEndArray();
        json.WriteStartArray("findings");
        foreach (var finding in plan.Findings)
        {
            json.WriteStartObject();
            json.WriteString("rule", finding.Rule);
            json.WriteString("severity", finding.Severity.ToString().ToLowerInvariant());
            json.WriteString("at", finding.At.ToString());
            json.WriteString("message", finding.Message);
            json.WriteString("remedy", finding.Remedy);
            json.WriteEndObject();
        }

        json.WriteEndArray();
        json.WriteEndObject();
    }

    /// <summary>Reads a plan back from its cut.json, for showing it: what stands there, lengths to a thousandth of a millimetre. The stock's costs and the rack after it do not.</summary>
    /// <exception cref="FormatException">The text is no plan.</exception>
    public static CuttingPlan Read(string text)
    {
        try
        {
            using var document = JsonDocument.Parse(text);
            var root = document.RootElement;
            var rules = root.GetProperty("rules");
            return new CuttingPlan(
                [.. root.GetProperty("groups").EnumerateArray().Select(ReadGroup)],
                [.. root.GetProperty("unplaced").EnumerateArray().Select(u => new UnplacedPiece(
                    new Piece(Text(u, "piece"), Text(u, "drawing"), PipeOf(u), u.TryGetProperty("length", out var length) ? length.GetDouble() : double.NaN), Text(u, "why")))],
                new CuttingRules { Kerf = Number(rules, "kerf"), EndTrim = Number(rules, "end_trim"), FacingLoss = Number(rules, "facing_loss"), ShortestRemnant = Number(rules, "shortest_remnant") })
            {
                Findings = [.. root.GetProperty("findings").EnumerateArray().Select(f => new Finding(
                    Text(f, "rule"), Enum.Parse<Severity>(Text(f, "severity"), ignoreCase: true), Text(f, "at"), default, Text(f, "message"), Text(f, "remedy")))],
            };
        }
        catch (Exception e) when (e is JsonException or KeyNotFoundException or InvalidOperationException or ArgumentException)
        {
            throw new FormatException($"this is no cutting plan (cut.json): {e.Message}", e);
        }
    }

    private static CutGroup ReadGroup(JsonElement group)
    {
        var pipe = PipeOf(group);
        return new CutGroup(pipe, [.. group.GetProperty("bars").EnumerateArray().Select(bar => ReadBar(bar, pipe))])
        {
            LeastBars = group.GetProperty("bound").GetInt32(),
            LeastSteel = Number(group, "used_bound"),
            IsProven = group.GetProperty("proven").GetBoolean(),
        };
    }

    private static CutBar ReadBar(JsonElement bar, PipeKind pipe)
    {
        var word = Text(bar, "source");
        var source = Enum.GetValues<StockSource>().First(s => Word(s) == word);
        var remnant = Number(bar, "remnant");
        return new CutBar(
            Text(bar, "bar"),
            new StockBar(Text(bar, "stock"), pipe, Number(bar, "length"), null, source) { Heat = Text(bar, "heat") },
            [.. bar.GetProperty("pieces").EnumerateArray().Select(p => new CutPosition(
                new Piece(Text(p, "piece"), Text(p, "drawing"), pipe, Number(p, "length")) { Spool = Text(p, "spool") }, Number(p, "from"), Number(p, "to")))],
            Number(bar, "kerf"), remnant, bar.GetProperty("keep").GetBoolean() ? remnant : 0);
    }

    private static PipeKind PipeOf(JsonElement element) => new(Text(element, "size"), Text(element, "schedule"), Text(element, "material"));

    private static double Number(JsonElement element, string key) => element.GetProperty(key).GetDouble();

    private static string Text(JsonElement element, string key) => element.TryGetProperty(key, out var value) ? value.GetString() ?? "" : "";

    private static void Write(Utf8JsonWriter json, CutGroup group)
    {
        json.WriteStartObject();
        json.WriteString("size", group.Pipe.Size);
        json.WriteString("schedule", group.Pipe.Schedule);
        json.WriteString("material", group.Pipe.Material);
        json.WriteStartArray("bars");
        foreach (var bar in group.Bars)
        {
            json.WriteStartObject();
            json.WriteString("stock", bar.Stock.Id);
            json.WriteString("bar", bar.Name);
            json.WriteString("source", Word(bar.Stock.Source));
            json.WriteNumber("length", Mm(bar.Stock.Length));
            if (bar.Stock.Heat.Length > 0)
                json.WriteString("heat", bar.Stock.Heat);
            json.WriteStartArray("pieces");
            foreach (var (piece, from, to) in bar.Pieces)
            {
                json.WriteStartObject();
                json.WriteString("piece", piece.Id);
                json.WriteString("drawing", piece.Drawing);
                json.WriteNumber("length", Mm(piece.Length));
                json.WriteNumber("from", Mm(from));
                json.WriteNumber("to", Mm(to));
                if (piece.Spool.Length > 0)
                    json.WriteString("spool", piece.Spool);
                json.WriteEndObject();
            }

            json.WriteEndArray();
            json.WriteNumber("kerf", Mm(bar.Kerf));
            json.WriteNumber("remnant", Mm(bar.Remnant));
            json.WriteBoolean("keep", bar.KeptRemnant > 0);
            json.WriteEndObject();
        }

        json.WriteEndArray();
        json.WriteNumber("count", group.NewBars);
        json.WriteNumber("bound", group.LeastBars);
        json.WriteBoolean("proven", group.IsProven);
        json.WriteString("verdict", group.Verdict);
        json.WriteNumber("used", Mm(group.Used));
        json.WriteNumber("used_bound", Mm(group.LeastSteel));
        json.WriteNumber("waste_percent", LengthText.Rounded(group.WastePercent, 3));
        json.WriteNumber("plans", group.Plans);
        json.WriteEndObject();
    }

    public static void Write(Utf8JsonWriter json, PlainSolution solution)
    {
        json.WriteStartObject();
        json.WriteNumber("bars", solution.Bars);
        json.WriteNumber("bound", solution.Bound);
        json.WriteBoolean("proven", solution.Proven);
        json.WriteNumber("seconds", Math.Round(solution.Seconds, 4));
        json.WriteStartArray("patterns");
        foreach (var pattern in solution.Patterns)
        {
            json.WriteStartObject();
            json.WriteNumber("count", pattern.Count);
            json.WriteStartArray("cuts");
            foreach (var (length, count) in pattern.Cuts)
            {
                json.WriteStartArray();
                json.WriteNumberValue(length / 1.0000m);
                json.WriteNumberValue(count);
                json.WriteEndArray();
            }

            json.WriteEndArray();
            json.WriteEndObject();
        }

        json.WriteEndArray();
        json.WriteEndObject();
    }

    /// <summary>The word for a source, as in the stock file.</summary>
    public static string Word(StockSource source) => source switch
    {
        StockSource.OnHand => "stock",
        StockSource.Buy => "buy",
        StockSource.Remnant => "remnant",
        StockSource.Begun => "begun",
        _ => throw new ArgumentOutOfRangeException(nameof(source)),
    };

    // A thousandth of a millimetre: finer than anything that is cut, coarse enough to hide the noise of sums.
    private static double Mm(double mm) => LengthText.Rounded(mm, 3);
}
