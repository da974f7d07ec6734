using System.Globalization;
using Rootgap.Findings;
using Rootgap.Measure;

namespace Rootgap.Drawings;

/// <summary>Reads the material list: in the drawing, or from a YAML, CSV or XLSX file beside it, since that is how they arrive.</summary>
internal static class MaterialListReader
{
    private const int MostRows = 20_000;

    private static readonly Shape File = new("material file",
        new Key("units", Kind.Choice, "Unit of bare numbers.", Words: ["mm", "in"]),
        new Key("materials", Kind.List, "The items.", IsRequired: true, Of: DrawingShape.Item));

    public static List<MaterialItem> Read(Fields top, Func<string, byte[]?>? beside, Units units, ReadingErrors errors)
    {
        switch (top.Node("materials"))
        {
            case null:
                return [];
            case YamlList list:
                return Items(list.Items, "materials", units, errors, top.Where);
            case YamlText name:
                if (beside?.Invoke(name.Value) is { } bytes)
                    return FromFile(top, name.Value, bytes, units, errors);
                top.Error("file-not-found", "materials", $"The material file \"{name.Value}\" is not there.", "Give its path beside the drawing file, in the job's folder, or write the list here.");
                return [];
            default:
                top.Error("wrong-type", "materials", "The material list is a list, or the name of a file.", "Write - {item: 1, what: pipe, ...} rows.");
                return [];
        }
    }

    private static List<MaterialItem> FromFile(Fields top, string name, byte[] bytes, Units units, ReadingErrors errors)
    {
        if (name.EndsWith(".csv", StringComparison.OrdinalIgnoreCase) || name.EndsWith(".xlsx", StringComparison.OrdinalIgnoreCase))
            return Items(Rows(name, bytes, errors), "materials", units, errors, new(name, 1, 1, 2));
        if (!name.EndsWith(".yaml", StringComparison.OrdinalIgnoreCase) && !name.EndsWith(".yml", StringComparison.OrdinalIgnoreCase))
        {
            top.Error("impossible-value", "materials", $"\"{name}\" is no kind of material file that can be read.", "It is a .yaml, .csv or .xlsx file.");
            return [];
        }

        var before = errors.Count;
        var text = FileText.Read(bytes, name, "materials", errors);
        if (errors.Count > before)
            return [];
        var root = YamlTree.Read(text, name, (where, message, remedy) => errors.Add("not-yaml", where, "materials", message, remedy));
        switch (root)
        {
            case null:
                return [];
            case YamlList list:
                return Items(list.Items, "materials", units, errors, root.Where);
            default:
                if (root is YamlMap { } m && (m["units"] as YamlText)?.Value.Trim() is { } own)
                    units = own == "in" ? Units.Inches : Units.Millimetres;
                return Fields.Open(root, File, errors, units, "materials", root.Where)?.Node("materials") is YamlList items
                    ? Items(items.Items, "materials", units, errors, root.Where)
                    : [];
        }
    }

    /// <summary>The rows of a sheet as mappings from heading to cell, each cell with its row and column as its place.</summary>
    internal static List<YamlNode> Rows(string name, byte[] bytes, ReadingErrors errors)
    {
        var rows = new List<YamlNode>();
        var before = errors.Count;
        if (name.EndsWith(".csv", StringComparison.OrdinalIgnoreCase))
            FileText.Read(bytes, name, "materials", errors);
        if (errors.Count > before)
            return rows;
        try
        {
            foreach (var (number, cells) in SheetRows.Of(name, bytes))
            {
                if (number > MostRows)
                {
                    errors.Add("impossible-value", new(name, number, 1, 2), "materials", $"The list has more than {MostRows} rows.", "A drawing's material list is shorter: is this the right file?");
                    break;
                }

                var pairs = new List<(YamlText, YamlNode)>();
                foreach (var (heading, column, text) in cells)
                    pairs.Add((new(new(name, 1, column, column + 1), heading.ToLowerInvariant(), Quoted: false), new YamlText(new(name, number, column, column + 1), text, Quoted: false)));
                if (pairs.Count > 0)
                    rows.Add(new YamlMap(new(name, number, 1, 2), pairs));
            }
        }
        catch (Exception e) when (e is not OutOfMemoryException)
        {
            errors.Add("not-a-sheet", new(name, 1, 1, 2), "materials", $"The file cannot be read as a sheet: {e.Message}", "Save it again as CSV (UTF-8) or XLSX, with a row of headings at the top.");
        }

        return rows;
    }

    internal static List<MaterialItem> Items(List<YamlNode> nodes, string path, Units units, ReadingErrors errors, Place parent)
    {
        var items = new List<MaterialItem>();
        var numbers = new HashSet<int>();
        for (var i = 0; i < nodes.Count; i++)
        {
            if (Fields.Open(nodes[i], DrawingShape.Item, errors, units, $"{path}[{i}]", parent) is not { } f)
                continue;
            var number = f.Whole("item");
            var (size, size2) = Sizes(f);
            var (count, length) = Quantity(f, units);
            var what = f.Text("what");
            if (number is null || what is null)
                continue;
            var words = WareWords.Of(what);
            var second = f.Size("size 2") ?? size2;
            // A reducer from 4 to 6 is one from 6 to 4.
            if (words.Ware is Ware.Reducer or Ware.Swage && second > size)
                (size, second) = (second, size);
            if (!numbers.Add(number.Value))
                f.Error("name-twice", "item", $"Two rows are item {number}.", "Give each row its own number.");
            items.Add(new MaterialItem
            {
                Item = number.Value,
                What = what,
                Words = words,
                Size = size,
                Size2 = second,
                Schedule = f.Text("schedule") ?? "",
                Class = f.Text("class") ?? "",
                Bore = f.Text("bore") ?? "",
                Material = f.Text("material") ?? "",
                Length = f.Length("length") ?? LengthInWords(what, units),
                Count = count,
                Quantity = length,
                Heat = f.Text("heat") ?? "",
                Source = f.Source,
            });
        }

        return items;
    }

    /// <summary>The length of a nipple that a list writes into its words: nipple x 100; null where they say none.</summary>
    private static double? LengthInWords(string what, Units units) =>
        WareWords.Of(what).Ware == Ware.Nipple && what.LastIndexOf(" x ", StringComparison.OrdinalIgnoreCase) is > 0 and var at && LengthText.TryParse(what.AsSpan(at + 3), units, out var mm) && mm > 0 ? mm : null;

    private static (NominalSize, NominalSize) Sizes(Fields f)
    {
        if (f.Text("size") is not { } text)
            return default;
        var parts = text.Split(['x', 'X', '×'], StringSplitOptions.TrimEntries);
        // A reducing tee's two run ends are of one size: 2 x 2 x 1.
        if (parts is [var a, var b, var c] && a.Equals(b, StringComparison.OrdinalIgnoreCase))
            parts = [a, c];
        if (parts.Length <= 2 && NominalSize.TryParse(parts[0], out var one))
        {
            if (parts.Length == 1)
                return (one, default);
            if (NominalSize.TryParse(parts[1], out var two))
                return (one, two);
        }

        f.Error("impossible-value", "size", $"\"{text}\" is not a size.", "Write 6, 1-1/2, DN150, or two sizes: 8 x 6.");
        return default;
    }

    /// <summary>A count, or a length in mm: by the quantity's own unit, or by the column <c>unit</c>.</summary>
    private static (double? Count, double? Length) Quantity(Fields f, Units units)
    {
        if (f.Text("quantity") is not { } text)
            return default;
        var unit = f.Text("unit")?.ToLowerInvariant() ?? "";
        foreach (var each in (string[])[" each", " ea", " pcs", " pc", " off", " nos"])
        {
            if (text.EndsWith(each, StringComparison.OrdinalIgnoreCase) && int.TryParse(text.AsSpan(0, text.Length - each.Length).Trim(), NumberStyles.None, CultureInfo.InvariantCulture, out var pieces))
                return (pieces, null);
        }

        if (double.TryParse(text, NumberStyles.AllowDecimalPoint, CultureInfo.InvariantCulture, out var bare) && bare < LengthText.Longest)
        {
            return unit is "m" or "mm" or "cm" or "in" or "ft" or "\"" or "'"
                ? LengthText.TryParse(text + unit, units, out var withUnit) ? (null, withUnit) : default
                : (bare, null);
        }

        if (LengthText.TryParse(text, units, out var mm) && mm >= 0)
            return (null, mm);
        f.Error("wrong-type", "quantity", $"\"{text}\" is not a quantity.", "Write a count such as 3, or a length with its unit such as 9.6 m.");
        return default;
    }
}
