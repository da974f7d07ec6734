using System.Text.Json;
using Rootgap.Findings;

namespace Rootgap.Cutting;

public static partial class CuttingPlanJson
{
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
                    new Piece(Text(u, "piece"), Text(u, "drawing"), PipeOf(u), u.TryGetProperty("length", out var length) ? length.GetDouble() : double.NaN) { NotForFabrication = Is(u, "not_for_fabrication") }, Text(u, "why")))],
                new CuttingRules { Kerf = Number(rules, "kerf"), EndTrim = Number(rules, "end_trim"), FacingLoss = Number(rules, "facing_loss"), ShortestRemnant = Number(rules, "shortest_remnant"), Units = Text(rules, "units") == "in" ? Measure.Units.Inches : Measure.Units.Millimetres })
            {
                Findings = [.. root.GetProperty("findings").EnumerateArray().Select(f => new Finding(
                    Text(f, "rule"), Enum.Parse<Severity>(Text(f, "severity"), ignoreCase: true), Text(f, "at"), default, Text(f, "message"), Text(f, "remedy")))],
                Log = ReadLog(root),
            };
        }
        catch (Exception e) when (e is JsonException or KeyNotFoundException or InvalidOperationException or ArgumentException)
        {
            throw new FormatException($"this is no cutting plan (cut.json): {e.Message}", e);
        }
    }

    /// <summary>The log that <see cref="Text(SawLog)"/> wrote.</summary>
    public static SawLog ReadLog(string text)
    {
        using var document = JsonDocument.Parse(text);
        return ReadLog(document.RootElement);
    }

    private static SawLog ReadLog(JsonElement root) => root.TryGetProperty("cut_before", out var log) ? new([.. log.EnumerateArray().Select(ReadSawn)]) : SawLog.Empty;

    private static CutGroup ReadGroup(JsonElement group)
    {
        var pipe = PipeOf(group);
        return new CutGroup(pipe, [.. group.GetProperty("bars").EnumerateArray().Select(bar => ReadBar(bar, pipe))])
        {
            LeastBars = group.GetProperty("bound").GetInt32(),
            LeastSteel = Number(group, "used_bound"),
            IsProven = group.GetProperty("proven").GetBoolean(),
            IsForSetUps = Is(group, "for_set_ups"),
            IsMoney = Text(group, "cost_in") == "money",
            Cost = Money(group, "cost"),
            LeastCost = Money(group, "cost_bound"),
            Otherwise = group.TryGetProperty("otherwise", out var others) ? [.. others.EnumerateArray().Select(o => new OtherLength(Number(o, "length"), o.GetProperty("bars").GetInt32(), Money(o, "cost")))] : [],
            Goals = group.TryGetProperty("goals", out var goals)
                ? [.. goals.EnumerateArray().Select(g => new CutGoal(Enum.GetValues<CuttingAim>().First(a => Word(a) == Text(g, "aim")), Text(g, "says"), Money(g, "value"), Money(g, "bound")))]
                : [],
        };
    }

    private static CutBar ReadBar(JsonElement bar, PipeKind pipe)
    {
        var word = Text(bar, "source");
        var source = Enum.GetValues<StockSource>().First(s => Word(s) == word);
        var remnant = Number(bar, "remnant");
        return new CutBar(
            Text(bar, "bar"),
            new StockBar(Text(bar, "stock"), pipe, Number(bar, "length"), null, source)
            {
                Heat = Text(bar, "heat"),
                Cost = bar.TryGetProperty("cost_metre", out var metre) ? metre.GetDouble() : null,
                Supplier = Text(bar, "supplier"),
                Certificate = Text(bar, "certificate"),
                FarEndIsMill = Is(bar, "far_end_is_mill"),
            },
            [.. bar.GetProperty("pieces").EnumerateArray().Select(p => new CutPosition(
                new Piece(Text(p, "piece"), Text(p, "drawing"), pipe, Number(p, "length")) { Job = Text(p, "job"), Spool = Text(p, "spool"), Heat = Text(p, "heat"), AtStart = End(p, 0), AtEnd = End(p, 1), FacedEnds = p.TryGetProperty("faced_ends", out var faced) ? faced.GetInt32() : 0, NotForFabrication = Is(p, "not_for_fabrication") }, Number(p, "from"), Number(p, "to")))],
            Number(bar, "kerf"), remnant, bar.GetProperty("keep").GetBoolean() ? remnant : 0)
        {
            RemnantName = Text(bar, "remnant_name"),
        };
    }

    private static SawnBar ReadSawn(JsonElement bar) => new(
        Text(bar, "bar"), Text(bar, "stock"), Number(bar, "gone"),
        [.. bar.GetProperty("pieces").EnumerateArray().Select((p, n) => new SawnPiece(Text(p, "drawing"), Text(p, "piece"), Number(p, "length"), Is(p, "good"), p.TryGetProperty("to", out var to) ? to.GetDouble() : n))])
    {
        IsByFacts = Is(bar, "by_facts"),
        Heat = Text(bar, "heat"),
        IsOut = Is(bar, "out"),
    };

    private static string End(JsonElement piece, int which) => piece.TryGetProperty("ends", out var ends) && which < ends.GetArrayLength() ? ends[which].GetString() ?? "" : "";

    private static decimal Money(JsonElement element, string key) => element.TryGetProperty(key, out var value) ? value.GetDecimal() : 0;

    private static bool Is(JsonElement element, string key) => element.TryGetProperty(key, out var value) && value.GetBoolean();

    private static PipeKind PipeOf(JsonElement element) => new(Text(element, "size"), Text(element, "schedule"), Text(element, "material"));

    private static double Number(JsonElement element, string key) => element.GetProperty(key).GetDouble();

    private static string Text(JsonElement element, string key) => element.TryGetProperty(key, out var value) ? value.GetString() ?? "" : "";
}
