using System.Text;
using System.Text.Json;
using Rootgap.Findings;
using Rootgap.Measure;

namespace Rootgap.Cutting;

/// <summary>Writes cut.json and the answer to a plain instance: the contract with other programs.</summary>
public static partial class CuttingPlanJson
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
        if (plan.Rules.Units == Units.Inches)
            json.WriteString("units", "in");
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
            if (piece.NotForFabrication)
                json.WriteBoolean("not_for_fabrication", true);
            json.WriteString("why", why);
            json.WriteEndObject();
        }

        json.WriteEndArray();
        json.WriteStartArray("buy");
        foreach (var purchase in plan.Purchases)
        {
            json.WriteStartObject();
            json.WriteString("size", purchase.Pipe.Size);
            json.WriteString("schedule", purchase.Pipe.Schedule);
            json.WriteString("material", purchase.Pipe.Material);
            json.WriteNumber("length", Mm(purchase.Length));
            json.WriteNumber("count", purchase.Count);
            if (purchase.CostEach is { } each)
            {
                json.WriteNumber("cost_each", each);
                json.WriteNumber("cost", each * purchase.Count);
            }

            if (purchase.Supplier.Length > 0)
                json.WriteString("supplier", purchase.Supplier);
            if (purchase.Certificate.Length > 0)
                json.WriteString("certificate", purchase.Certificate);
            json.WriteStartArray("bars");
            foreach (var bar in purchase.Bars)
                json.WriteStringValue(bar);
            json.WriteEndArray();
            if (purchase.Jobs.Count > 0)
            {
                json.WriteStartArray("jobs");
                foreach (var share in purchase.Jobs)
                {
                    json.WriteStartObject();
                    json.WriteString("job", share.Job);
                    json.WriteNumber("percent", share.Percent);
                    if (share.Cost is { } part)
                        json.WriteNumber("cost", part);
                    json.WriteEndObject();
                }

                json.WriteEndArray();
            }

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
        json.WriteStartArray("not_for_fabrication");
        foreach (var drawing in plan.NotForFabrication)
            json.WriteStringValue(drawing);
        json.WriteEndArray();
        Write(json, plan.Log);
        json.WriteEndObject();
    }

    /// <summary>The log alone, to be handed on.</summary>
    public static string Text(SawLog log)
    {
        using var stream = new MemoryStream();
        using (var json = new Utf8JsonWriter(stream))
        {
            json.WriteStartObject();
            Write(json, log);
            json.WriteEndObject();
        }

        return Encoding.UTF8.GetString(stream.ToArray());
    }

    // What was cut before: a plan made after this one needs no other file than this and the first stock file.
    private static void Write(Utf8JsonWriter json, SawLog log)
    {
        json.WriteStartArray("cut_before");
        foreach (var bar in log.Told)
        {
            json.WriteStartObject();
            json.WriteString("bar", bar.Name);
            json.WriteString("stock", bar.Row);
            json.WriteNumber("gone", Mm(bar.Gone));
            if (bar.Heat.Length > 0)
                json.WriteString("heat", bar.Heat);
            if (bar.IsOut)
                json.WriteBoolean("out", true);
            if (bar.IsByFacts)
                json.WriteBoolean("by_facts", true);
            json.WriteStartArray("pieces");
            foreach (var piece in bar.Sawn)
            {
                json.WriteStartObject();
                json.WriteString("piece", piece.Id);
                json.WriteString("drawing", piece.Drawing);
                json.WriteNumber("length", Mm(piece.Length));
                json.WriteNumber("to", Mm(piece.To));
                json.WriteBoolean("good", piece.IsGood);
                json.WriteEndObject();
            }

            json.WriteEndArray();
            json.WriteEndObject();
        }

        json.WriteEndArray();
    }

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
            if (bar.Stock.Cost is { } metre)
                json.WriteNumber("cost_metre", metre);
            if (bar.Stock.Supplier.Length > 0)
                json.WriteString("supplier", bar.Stock.Supplier);
            if (bar.Stock.Certificate.Length > 0)
                json.WriteString("certificate", bar.Stock.Certificate);
            if (bar.Stock.FarEndIsMill)
                json.WriteBoolean("far_end_is_mill", true);
            json.WriteStartArray("pieces");
            foreach (var (piece, from, to) in bar.Pieces)
            {
                json.WriteStartObject();
                json.WriteString("piece", piece.Id);
                json.WriteString("drawing", piece.Drawing);
                json.WriteNumber("length", Mm(piece.Length));
                json.WriteNumber("from", Mm(from));
                json.WriteNumber("to", Mm(to));
                if (piece.Job.Length > 0)
                    json.WriteString("job", piece.Job);
                if (piece.Spool.Length > 0)
                    json.WriteString("spool", piece.Spool);
                if (piece.AtStart.Length + piece.AtEnd.Length > 0)
                {
                    json.WriteStartArray("ends");
                    json.WriteStringValue(piece.AtStart);
                    json.WriteStringValue(piece.AtEnd);
                    json.WriteEndArray();
                }

                if (piece.Heat.Length > 0)
                    json.WriteString("heat", piece.Heat);
                if (piece.FacedEnds > 0)
                    json.WriteNumber("faced_ends", piece.FacedEnds);
                if (piece.NotForFabrication)
                    json.WriteBoolean("not_for_fabrication", true);
                json.WriteEndObject();
            }

            json.WriteEndArray();
            json.WriteNumber("kerf", Mm(bar.Kerf));
            json.WriteNumber("remnant", Mm(bar.Remnant));
            json.WriteBoolean("keep", bar.KeptRemnant > 0);
            if (bar.RemnantName.Length > 0)
                json.WriteString("remnant_name", bar.RemnantName);
            json.WriteEndObject();
        }

        json.WriteEndArray();
        json.WriteNumber("count", group.NewBars);
        json.WriteNumber("bound", group.LeastBars);
        json.WriteBoolean("proven", group.IsProven);
        if (group.IsForSetUps)
            json.WriteBoolean("for_set_ups", true);
        json.WriteString("verdict", group.Verdict);
        json.WriteString("cost_in", group.IsMoney ? "money" : "mm of pipe");
        json.WriteNumber("cost", group.Cost);
        json.WriteNumber("cost_bound", group.LeastCost);
        json.WriteStartArray("otherwise");
        foreach (var other in group.Otherwise)
        {
            json.WriteStartObject();
            json.WriteNumber("length", Mm(other.Length));
            json.WriteNumber("bars", other.Bars);
            json.WriteNumber("cost", other.Cost);
            json.WriteEndObject();
        }

        json.WriteEndArray();
        json.WriteStartArray("goals");
        foreach (var goal in group.Goals)
        {
            json.WriteStartObject();
            json.WriteString("aim", Word(goal.Aim));
            json.WriteString("says", goal.Says);
            json.WriteNumber("value", goal.Value);
            json.WriteNumber("bound", goal.Bound);
            json.WriteEndObject();
        }

        json.WriteEndArray();
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

    /// <summary>The word for an aim, as in the stock file's order.</summary>
    public static string Word(CuttingAim aim) => aim switch
    {
        CuttingAim.Rack => "rack",
        CuttingAim.NetCost => "net cost",
        CuttingAim.Remnants => "remnants",
        CuttingAim.Bars => "bars",
        CuttingAim.SetUps => "set-ups",
        CuttingAim.Cost => "cost",
        _ => throw new ArgumentOutOfRangeException(nameof(aim)),
    };

    // A thousandth of a millimetre: finer than anything that is cut, coarse enough to hide the noise of sums.
    private static double Mm(double mm) => LengthText.Rounded(mm, 3);
}
