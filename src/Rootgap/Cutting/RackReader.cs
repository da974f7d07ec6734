using System.Globalization;
using Rootgap.Drawings;
using Rootgap.Findings;
using Rootgap.Measure;

namespace Rootgap.Cutting;

/// <summary>What came of reading a stock file: the rack, unless an error says why not.</summary>
public sealed record RackReading(Rack? Rack, IReadOnlyList<Finding> Errors);

/// <summary>Reads the stock file: YAML with rules, or a CSV or XLSX list of lengths.</summary>
public static class RackReader
{
    /// <summary>Rows that a stock file may have: more are no rack but a catalogue.</summary>
    public const int MostRows = 100_000;

    private static readonly Shape Rules = new("block of rules",
        new("kerf", Drawings.Kind.Length, "Width of the saw cut."),
        new("end trim", Drawings.Kind.Length, "Cut off each mill end."),
        new("facing loss", Drawings.Kind.Length, "Lost at each bevelled, threaded or faced end."),
        new("shortest remnant", Drawings.Kind.Length, "Shortest remnant worth keeping."),
        new("remnant value", Drawings.Kind.Number, "What a metre of remnant is worth beside new pipe, 0 to 1."),
        new("most plans", Drawings.Kind.Whole, "Most different plans a size."),
        new("one heat", Drawings.Kind.Choice, "Whether the pieces of a spool come from one heat.", Words: ["none", "spool"]),
        new("short pieces first", Drawings.Kind.YesNo, "On each bar the short pieces are cut first."),
        new("order", Drawings.Kind.List, "What is best, the first first."));

    private static readonly Shape Row = new("stock row",
        new("kind", Drawings.Kind.Choice, "stock, buy or remnant.", Words: ["stock", "buy", "remnant"]),
        new("id", Drawings.Kind.Text, "The bar's mark."),
        new("size", Drawings.Kind.Size, "Nominal size.", IsRequired: true),
        new("schedule", Drawings.Kind.Text, "Pipe schedule.", IsRequired: true),
        new("material", Drawings.Kind.Text, "Grade."),
        new("length", Drawings.Kind.Length, "Length of a bar.", IsRequired: true),
        new("quantity", Drawings.Kind.Whole, "How many."),
        new("gone", Drawings.Kind.Text, "Numbers of its bars that are there no longer."),
        new("heat", Drawings.Kind.Text, "Heat number."),
        new("cost", Drawings.Kind.Number, "Cost a metre."),
        new("supplier", Drawings.Kind.Text, "Who sells it."),
        new("certificate", Drawings.Kind.Text, "Certificate asked for."),
        new("preference", Drawings.Kind.Number, "Multiplies the cost: under 1 rather, over 1 rather not."));

    private static readonly Shape PieceRow = new("piece rule",
        new("drawing", Drawings.Kind.Text, "Drawing's number."),
        new("spool", Drawings.Kind.Text, "Spool."),
        new("piece", Drawings.Kind.Text, "Piece's mark."),
        new("heat", Drawings.Kind.Text, "Only from this heat."),
        new("one heat", Drawings.Kind.YesNo, "From one heat, whichever."),
        new("priority", Drawings.Kind.Whole, "1 is cut first."),
        new("cut", Drawings.Kind.YesNo, "Cut already."));

    private static readonly Shape File = new("stock file",
        new("units", Drawings.Kind.Choice, "Unit of bare numbers.", Words: ["mm", "in"]),
        new("rules", Drawings.Kind.Map, "The shop's rules for cutting."),
        new("stock", Drawings.Kind.List, "Lengths on hand."),
        new("buy", Drawings.Kind.List, "Lengths that can be bought."),
        new("remnants", Drawings.Kind.List, "Remnants."),
        new("pieces", Drawings.Kind.List, "Rules for some pieces."));

    // Headings as they stand in lists that shops keep.
    private static readonly Dictionary<string, string> Headings = new(StringComparer.OrdinalIgnoreCase)
    {
        ["bar"] = "id",
        ["mark"] = "id",
        ["nps"] = "size",
        ["nominal size"] = "size",
        ["sch"] = "schedule",
        ["grade"] = "material",
        ["length mm"] = "length",
        ["length_mm"] = "length",
        ["qty"] = "quantity",
        ["count"] = "quantity",
        ["heat number"] = "heat",
        ["heat no"] = "heat",
        ["cost per metre"] = "cost",
        ["price"] = "cost",
        ["vendor"] = "supplier",
        ["cert"] = "certificate",
        ["type"] = "kind",
        ["source"] = "kind",
    };

    /// <summary>Reads the file's bytes; its name tells what it is.</summary>
    public static RackReading Read(byte[] bytes, string name)
    {
        var errors = new ReadingErrors();
        var bars = new List<StockBar>();
        var rules = new CuttingRules();
        var pieces = new List<PieceRule>();
        if (name.EndsWith(".csv", StringComparison.OrdinalIgnoreCase) || name.EndsWith(".xlsx", StringComparison.OrdinalIgnoreCase))
        {
            var rows = Sheet(name, bytes, errors);
            Bars(rows, "stock", StockSource.OnHand, Units.Millimetres, errors, new(name, 1, 1, 2), bars);
            if (bars.Count == 0 && errors.Count == 0)
                errors.Add("stock-empty", new(name, 1, 1, 2), "", "The stock file has no row.", "Give a heading row (kind, id, size, schedule, material, length, quantity, heat, cost) and a row for each length.");
        }
        else
        {
            var text = FileText.Read(bytes, name, "", errors);
            var root = errors.Count > 0 ? null : YamlTree.Read(text, name, (where, message, remedy) => errors.Add("not-yaml", where, "", message, remedy));
            if (root is null && errors.Count == 0)
                errors.Add("stock-empty", new(name, 1, 1, 2), "", "The stock file is empty.", "Write `stock:` and a row for each length on hand, `buy:` and a row for each length that can be bought.");
            if (root is not null && Fields.Open(root, File, errors, Units.Millimetres, "", root.Where) is { } top)
            {
                var units = top.Word("units", ["mm", "in"]) == "in" ? Units.Inches : Units.Millimetres;
                rules = ReadRules(top, units, errors);
                foreach (var (key, source) in ((string, StockSource)[])[("stock", StockSource.OnHand), ("remnants", StockSource.Remnant), ("buy", StockSource.Buy)])
                    Bars(List(top, key), key, source, units, errors, top.Where, bars);
                ReadPieces(List(top, "pieces"), errors, top.Where, pieces);
            }
        }

        return errors.Count > 0 ? new(null, errors.InOrder) : new(new Rack(bars, rules) { PieceRules = pieces }, []);
    }

    private static List<YamlNode> List(Fields top, string key)
    {
        switch (top.Node(key))
        {
            case null:
                return [];
            case YamlList list:
                return list.Items;
            default:
                top.Error("wrong-type", key, $"\"{key}\" is a list.", "Write a row for each, beginning with a dash.");
                return [];
        }
    }

    private static CuttingRules ReadRules(Fields top, Units units, ReadingErrors errors)
    {
        var rules = new CuttingRules { Units = units };
        if (top.Node("rules") is not { } node || Fields.Open(node, Rules, errors, units, "rules", top.Where) is not { } f)
            return rules;
        rules = rules with
        {
            Kerf = f.Length("kerf") ?? rules.Kerf,
            EndTrim = f.Length("end trim") ?? rules.EndTrim,
            FacingLoss = f.Length("facing loss") ?? rules.FacingLoss,
            ShortestRemnant = f.Length("shortest remnant") ?? rules.ShortestRemnant,
            RemnantValue = Math.Min(1, f.Number("remnant value") ?? rules.RemnantValue),
            MostPlans = f.Whole("most plans"),
            ShortPiecesFirst = f.YesNo("short pieces first") ?? false,
            SpoolFromOneHeat = f.Word("one heat", ["none", "spool"]) == "spool",
        };
        if (f.Node("order") is not { } order)
            return rules;
        string[] words = [.. Enum.GetValues<CuttingAim>().Select(CuttingPlanJson.Word)];
        var aims = new List<CuttingAim>();
        foreach (var item in order is YamlList list ? list.Items : [order])
        {
            var at = item is YamlText text ? Array.IndexOf(words, text.Value.Trim().ToLowerInvariant()) : -1;
            if (at < 0)
                errors.Add("unknown-word", item.Where, "rules.order", "The order names what is best, the first first.", $"It is made of: {string.Join(", ", words)}.");
            else if (!aims.Contains((CuttingAim)at))
                aims.Add((CuttingAim)at);
        }

        return rules with { Order = [.. aims, .. Enum.GetValues<CuttingAim>().Except(aims)] };
    }

    private static void Bars(List<YamlNode> rows, string path, StockSource source, Units units, ReadingErrors errors, Place parent, List<StockBar> bars)
    {
        if (MostRows < rows.Count + bars.Count)
        {
            errors.Add("stock-too-long", rows[0].Where, path, string.Create(CultureInfo.InvariantCulture, $"The stock file has more than {MostRows} rows."), "Write bars that are alike as one row with a quantity, and leave out sizes that this job does not need.");
            return;
        }

        var names = new Dictionary<string, Place>(bars.Select(b => KeyValuePair.Create(b.Id, default(Place))), StringComparer.OrdinalIgnoreCase);
        for (var i = 0; i < rows.Count && errors.Count < 200; i++)
        {
            if (Fields.Open(rows[i], Row, errors, units, string.Create(CultureInfo.InvariantCulture, $"{path}[{i}]"), parent) is not { } f)
                continue;
            var kind = f.Word("kind", ["stock", "buy", "remnant"]) switch { "buy" => StockSource.Buy, "remnant" => StockSource.Remnant, "stock" => StockSource.OnHand, _ => source };
            var size = f.Text("size");
            var known = default(NominalSize);
            if (size is not null && (!NominalSize.TryParse(size, out known) || !known.IsPipeSize))
            {
                var near = known.IsNone ? null : NominalSize.PipeSizes.MinBy(s => Math.Abs(s.Eighths - known.Eighths)).ToString();
                f.Error("impossible-value", "size", $"There is no pipe of size \"{size}\".", near is null ? "Write 6, 1-1/2 or DN150." : $"Did you mean {near}?");
                continue;
            }

            var length = f.Length("length", Tolerance.Noise);
            if (length > CuttingPlanner.Longest)
            {
                f.Error("impossible-value", "length", $"A bar of {CuttingPlanner.Mm(length.Value)} mm cannot be.", "Is the unit right?");
                continue;
            }

            int? quantity = kind == StockSource.Buy ? null : 1;
            if (f.Text("quantity") is { } text)
            {
                if (!int.TryParse(text, NumberStyles.None, CultureInfo.InvariantCulture, out var n) || n > 1_000_000)
                    f.Error("wrong-type", "quantity", $"\"{text}\" is no number of bars.", "Write a whole number, 0 or more.");
                else
                    quantity = n;
            }

            var gone = new List<int>();
            if (f.Text("gone") is { } numbers && !Numbers(numbers, quantity ?? MostRows, gone))
                f.Error("wrong-type", "gone", $"\"{numbers}\" names no bars of this row.", string.Create(CultureInfo.InvariantCulture, $"Write their numbers, such as \"1-3, 7\"{(quantity is { } of ? $", up to {of}" : "")}."));

            var id = f.Text("id") ?? string.Create(CultureInfo.InvariantCulture, $"{path}-{i + 1}");
            if (!names.TryAdd(id, f.Where))
            {
                f.Error("name-twice", "id", $"The bar {id} stands in the stock file twice{(names[id].Line > 0 ? string.Create(CultureInfo.InvariantCulture, $" (first in line {names[id].Line})") : "")}.", "Give each bar its own mark, or write alike bars as one row with a quantity.");
                continue;
            }

            var cost = f.Number("cost");
            var preference = f.Number("preference") ?? 1;
            if (length is null || size is null || f.Text("schedule") is not { } schedule)
                continue;
            bars.Add(new StockBar(id, PipeKind.Of(size, schedule, f.Text("material") ?? ""), length.Value, quantity, kind)
            {
                Gone = [.. gone.Select(n => quantity == 1 ? id : string.Create(CultureInfo.InvariantCulture, $"{id}#{n}"))],
                Heat = f.Text("heat") ?? "",
                Cost = cost,
                Supplier = f.Text("supplier") ?? "",
                Certificate = f.Text("certificate") ?? "",
                Preference = preference <= 0 ? 1 : preference,
            });
        }
    }

    // "1-3, 7" to the numbers, each once.
    private static bool Numbers(string text, int most, List<int> numbers)
    {
        foreach (var part in text.Split([',', ' '], StringSplitOptions.RemoveEmptyEntries))
        {
            var ends = part.Split('-');
            if (2 < ends.Length || !int.TryParse(ends[0], NumberStyles.None, CultureInfo.InvariantCulture, out var first) || !int.TryParse(ends[^1], NumberStyles.None, CultureInfo.InvariantCulture, out var last) || first < 1 || last < first || most < last)
                return false;
            numbers.AddRange(Enumerable.Range(first, last - first + 1));
        }

        var once = numbers.Distinct().ToList();
        numbers.Clear();
        numbers.AddRange(once);
        return true;
    }

    private static void ReadPieces(List<YamlNode> rows, ReadingErrors errors, Place parent, List<PieceRule> pieces)
    {
        for (var i = 0; i < rows.Count; i++)
        {
            if (Fields.Open(rows[i], PieceRow, errors, Units.Millimetres, string.Create(CultureInfo.InvariantCulture, $"pieces[{i}]"), parent) is not { } f)
                continue;
            var rule = new PieceRule(f.Text("drawing") ?? "", f.Text("spool") ?? "", f.Text("piece") ?? "")
            {
                Heat = f.Text("heat") ?? "",
                OneHeat = f.YesNo("one heat") ?? false,
                Priority = f.Whole("priority"),
                IsCut = f.YesNo("cut") ?? false,
            };
            if (rule is { Drawing: "", Spool: "", Piece: "" })
                f.Error("missing-key", "piece", "This rule does not say which pieces it means.", "Give a piece, a spool or a drawing.");
            else
                pieces.Add(rule);
        }
    }

    // The rows of a sheet as mappings from heading to cell, each cell with its row and column as its place.
    private static List<YamlNode> Sheet(string name, byte[] bytes, ReadingErrors errors)
    {
        var rows = new List<YamlNode>();
        try
        {
            foreach (var (number, cells) in SheetRows.Of(name, bytes))
            {
                if (MostRows < number)
                {
                    errors.Add("stock-too-long", new(name, number, 1, 2), "stock", string.Create(CultureInfo.InvariantCulture, $"The stock file has more than {MostRows} rows."), "Write bars that are alike as one row with a quantity, and leave out sizes that this job does not need.");
                    return [];
                }

                var pairs = new List<(YamlText, YamlNode)>();
                foreach (var (heading, column, text) in cells)
                    pairs.Add((new(new(name, 1, column, column + 1), Headings.GetValueOrDefault(heading.ToLowerInvariant(), heading.ToLowerInvariant()), Quoted: false), new YamlText(new(name, number, column, column + 1), text, Quoted: false)));
                if (pairs.Count > 0)
                    rows.Add(new YamlMap(new(name, number, 1, 2), pairs));
            }
        }
        catch (Exception e) when (e is not OutOfMemoryException)
        {
            errors.Add("not-a-sheet", new(name, 1, 1, 2), "stock", $"The file cannot be read as a sheet: {e.Message}", "Save it again as CSV (UTF-8) or XLSX, with a row of headings at the top.");
        }

        return rows;
    }
}
