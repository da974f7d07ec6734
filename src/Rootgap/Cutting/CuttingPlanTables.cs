using System.Globalization;
using Rootgap.Drawings;
using Rootgap.Measure;

namespace Rootgap.Cutting;

/// <summary>Writes the plan and the rack as tables: CSV and XLSX.</summary>
public static class CuttingPlanTables
{
    /// <summary>One row a piece, in the order of cutting.</summary>
    public static IEnumerable<Dictionary<string, object?>> Rows(CuttingPlan plan) =>
        from g in plan.Groups
        from b in g.Bars
        from p in b.Pieces.Index()
        select new Dictionary<string, object?>(StringComparer.Ordinal)
        {
            ["size"] = g.Pipe.Size,
            ["schedule"] = g.Pipe.Schedule,
            ["material"] = g.Pipe.Material,
            ["bar"] = b.Name,
            ["source"] = CuttingPlanJson.Word(b.Stock.Source),
            ["bar mm"] = LengthText.Rounded(b.Stock.Length, 2),
            ["heat"] = b.Stock.Heat,
            ["cut"] = p.Index + 1,
            ["piece"] = p.Item.Piece.Id,
            ["drawing"] = p.Item.Piece.Drawing,
            ["spool"] = p.Item.Piece.Spool,
            ["length mm"] = LengthText.Rounded(p.Item.Piece.Length, 2),
            ["saw length mm"] = LengthText.Rounded(p.Item.SawLength, 2),
            ["from mm"] = LengthText.Rounded(p.Item.From, 2),
            ["to mm"] = LengthText.Rounded(p.Item.To, 2),
            ["remnant mm"] = p.Index == b.Pieces.Count - 1 ? LengthText.Rounded(b.Remnant, 2) : null,
            ["remnant name"] = p.Index == b.Pieces.Count - 1 ? b.RemnantName : null,
            ["not for fabrication"] = p.Item.Piece.NotForFabrication ? "NOT FOR FABRICATION" : null,
        };

    public static IEnumerable<Dictionary<string, object?>> Rows(IEnumerable<StockBar> rack) => rack.Select(b => new Dictionary<string, object?>(StringComparer.Ordinal)
    {
        ["kind"] = CuttingPlanJson.Word(b.Source),
        ["id"] = b.Id,
        ["size"] = b.Pipe.Size,
        ["schedule"] = b.Pipe.Schedule,
        ["material"] = b.Pipe.Material,
        ["length"] = LengthText.Rounded(b.Length, 6),
        ["quantity"] = b.Quantity,
        ["gone"] = b.GoneText,
        ["heat"] = b.Heat,
        ["cost"] = b.Cost,
        ["supplier"] = b.Supplier,
        ["certificate"] = b.Certificate,
        ["preference"] = b.Preference == 1 ? null : b.Preference,
    });

    /// <summary>What is to be bought, a row for each length of each supplier.</summary>
    public static IEnumerable<Dictionary<string, object?>> Rows(IEnumerable<Purchase> purchases) => purchases.Select(b => new Dictionary<string, object?>(StringComparer.Ordinal)
    {
        ["size"] = b.Pipe.Size,
        ["schedule"] = b.Pipe.Schedule,
        ["material"] = b.Pipe.Material,
        ["length mm"] = LengthText.Rounded(b.Length, 2),
        ["count"] = b.Count,
        ["metres"] = LengthText.Rounded(b.Count * b.Length / 1000, 3),
        ["cost each"] = b.CostEach,
        ["cost"] = b.Cost,
        ["supplier"] = b.Supplier,
        ["certificate"] = b.Certificate,
        ["bars"] = string.Join(' ', b.Bars),
        ["for jobs"] = string.Join("; ", b.Jobs.Select(j => string.Create(CultureInfo.InvariantCulture, $"{j.Job} {j.Percent:0.0} %{(j.Cost is { } cost ? $" {cost:0.00}" : "")}"))),
    });

    /// <summary>Headings of the list of what to buy.</summary>
    public static IReadOnlyList<string> ToBuy { get; } = ["size", "schedule", "material", "length mm", "count", "metres", "cost each", "cost", "supplier", "certificate", "bars", "for jobs"];

    /// <param name="to">Where to.</param>
    /// <param name="rows">The rows; the first has the headings.</param>
    /// <param name="headings">Headings to write where there is no row.</param>
    public static void Csv(TextWriter to, IEnumerable<Dictionary<string, object?>> rows, IReadOnlyList<string>? headings = null)
    {
        var first = true;
        foreach (var row in rows)
        {
            if (first)
                to.Write(string.Join(',', row.Keys) + "\n");
            first = false;
            to.Write(string.Join(',', row.Values.Select(v => CsvText.Cell(Convert.ToString(v, CultureInfo.InvariantCulture) ?? ""))) + "\n");
        }

        if (first && headings is not null)
            to.Write(string.Join(',', headings) + "\n");
    }

    public static void Xlsx(Stream to, CuttingPlan plan) => Workbook.Write(
        to,
        ("cutting plan", Rows(plan)),
        ("unplaced", plan.Unplaced.Select(u => new Dictionary<string, object?>(StringComparer.Ordinal)
        {
            ["piece"] = u.Piece.Id,
            ["drawing"] = u.Piece.Drawing,
            ["size"] = u.Piece.Pipe.Size,
            ["schedule"] = u.Piece.Pipe.Schedule,
            ["material"] = u.Piece.Pipe.Material,
            ["length mm"] = double.IsFinite(u.Piece.Length) ? LengthText.Rounded(u.Piece.Length, 2) : null,
            ["why"] = u.Why,
        })),
        ("buy", Rows(plan.Purchases)),
        ("rack after", Rows(plan.RackAfter)));

    /// <summary>The stock file as it will be after the cuts, rules and all.</summary>
    public static void Yaml(TextWriter to, Rack rack, CuttingPlan plan)
    {
        to.Write("# The stock after the cuts of the plan beside this file.\n");
        // In a file in inches lengths stand with their unit: nothing is rounded.
        var mm = plan.Rules.Units == Units.Inches ? " mm" : "";
        if (mm.Length > 0)
            to.Write("units: in\n");
        to.Write(string.Create(CultureInfo.InvariantCulture, $"rules: {{kerf: {LengthText.Rounded(plan.Rules.Kerf, 6)}{mm}, end trim: {LengthText.Rounded(plan.Rules.EndTrim, 6)}{mm}, facing loss: {LengthText.Rounded(plan.Rules.FacingLoss, 6)}{mm}, shortest remnant: {LengthText.Rounded(plan.Rules.ShortestRemnant, 6)}{mm}, remnant value: {plan.Rules.RemnantValue}, one heat: {(plan.Rules.SpoolFromOneHeat ? "spool" : "none")}"));
        if (plan.Rules.ShortPiecesFirst)
            to.Write(", short pieces first: yes");
        if (plan.Rules.MostPlans is { } most)
            to.Write(string.Create(CultureInfo.InvariantCulture, $", most plans: {most}"));
        to.Write(", order: [" + string.Join(", ", plan.Rules.Order.Select(CuttingPlanJson.Word)) + "]}\n");
        foreach (var (source, key) in ((StockSource, string)[])[(StockSource.OnHand, "stock"), (StockSource.Remnant, "remnants"), (StockSource.Buy, "buy")])
        {
            to.Write(key + ":" + (plan.RackAfter.Any(b => b.Source == source) ? "\n" : " []\n"));
            foreach (var bar in plan.RackAfter.Where(b => b.Source == source))
            {
                to.Write(string.Create(CultureInfo.InvariantCulture,
                    $"  - {{id: {Quoted(bar.Id)}, size: {Quoted(bar.Pipe.Size)}, schedule: {Quoted(bar.Pipe.Schedule)}, material: {Quoted(bar.Pipe.Material)}, length: {LengthText.Rounded(bar.Length, 6)}{mm}"));
                if (bar.Quantity is { } quantity && quantity != 1)
                    to.Write(string.Create(CultureInfo.InvariantCulture, $", quantity: {quantity}"));
                if (bar.Gone.Count > 0)
                    to.Write($", gone: {Quoted(bar.GoneText)}");
                if (bar.Heat.Length > 0)
                    to.Write($", heat: {Quoted(bar.Heat)}");
                if (bar.Cost is { } cost)
                    to.Write(string.Create(CultureInfo.InvariantCulture, $", cost: {cost}"));
                if (bar.Supplier.Length > 0)
                    to.Write($", supplier: {Quoted(bar.Supplier)}");
                if (bar.Certificate.Length > 0)
                    to.Write($", certificate: {Quoted(bar.Certificate)}");
                if (bar.Preference != 1)
                    to.Write(string.Create(CultureInfo.InvariantCulture, $", preference: {bar.Preference}"));
                to.Write("}\n");
            }
        }

        if (rack.PieceRules.Count == 0)
            return;
        to.Write("pieces:\n");
        foreach (var rule in rack.PieceRules)
        {
            var parts = new List<string>();
            void Part(string key, string value)
            {
                if (value.Length > 0)
                    parts.Add($"{key}: {Quoted(value)}");
            }

            Part("drawing", rule.Drawing);
            Part("spool", rule.Spool);
            Part("piece", rule.Piece);
            Part("heat", rule.Heat);
            if (rule.OneHeat)
                parts.Add("one heat: yes");
            if (rule.Priority is { } priority)
                parts.Add(string.Create(CultureInfo.InvariantCulture, $"priority: {priority}"));
            if (rule.IsCut)
                parts.Add("cut: yes");
            to.Write($"  - {{{string.Join(", ", parts)}}}\n");
        }
    }

    private static string Quoted(string text) => "\"" + text.Replace("\\", "\\\\", StringComparison.Ordinal).Replace("\"", "\\\"", StringComparison.Ordinal) + "\"";
}
