using System.Text.Json;
using System.Text.Json.Nodes;
using MiniExcelLibs;

namespace Rootgap.Cli.Tests;

/// <summary>Shop rules and material lists in files of their own give the same packet as written in the drawing.</summary>
public class FilesBesideTest
{
    private static readonly string[] Headings = ["item", "what", "size", "schedule", "class", "material", "quantity"];

    private static readonly string[][] Rows =
    [
        ["1", "pipe", "6", "40", "", "A106-B", "9.6 m"],
        ["2", "elbow 90 LR", "6", "40", "", "A234-WPB", "1"],
        ["3", "flange WN RF", "6", "", "150", "A105", "2"],
        ["4", "gasket, spiral wound", "6", "", "150", "", "2"],
        ["5", "stud bolt", "3/4", "", "", "", "16"],
    ];

    private const string ShopRules = "{root gap: 2.4, final fit extra: 75, shrinkage: 1.6, stock: [6000]}";

    private static string Inline => "[" + string.Join(", ", Rows.Select(r => "{" + string.Join(", ", Headings.Zip(r).Where(c => c.Second.Length > 0).Select(c => $"{c.First}: \"{c.Second}\"")) + "}")) + "]";

    private static string Packet(Shop shop, string shopRules, string materials)
    {
        shop.Write("a.yaml", Shop.Drawing("A-1", extra: $"shop: {shopRules}\nmaterials: {materials}"));
        var call = shop.Run("packet", "a.yaml", "--out", "p", "--json");
        Assert.True(call.Exit is 0 or 1, call.Error);
        // What is found in the list is told at its place, and that is another one.
        var packet = JsonNode.Parse(call.Out)!;
        packet["drawings"]![0]!.AsObject().Remove("findings");
        return packet.ToJsonString();
    }

    private static string Written(string shopRules, string materials, Action<Shop> write)
    {
        using var shop = new Shop();
        write(shop);
        return Packet(shop, shopRules, materials);
    }

    private static readonly Lazy<string> AsInline = new(() => Written(ShopRules, Inline, _ => { }));

    [Fact]
    public void The_inline_list_is_taken_as_written()
    {
        using var json = JsonDocument.Parse(AsInline.Value);
        var rows = json.RootElement.GetProperty("drawings")[0].GetProperty("materials").EnumerateArray().ToList();
        Assert.Equal(9.6, rows[0].GetProperty("listed").GetDouble());
        Assert.Equal("gasket, spiral wound", rows[3].GetProperty("what").GetString());
        // 1500 - 229 - 2.4 + 1.6 (ASME B16.9 A: the file's own tests hold the tables against the books).
        Assert.Equal(1500 - 229 - 2.4 + 1.6, json.RootElement.GetProperty("drawings")[0].GetProperty("cuts")[0].GetProperty("length").GetDouble(), 1.0);
    }

    [Fact]
    public void A_yaml_list_and_a_yaml_shop_file_give_the_same_packet() =>
        Assert.Equal(AsInline.Value, Written("shop.yaml", "list.yaml", shop =>
        {
            shop.Write("shop.yaml", ShopRules);
            shop.Write("list.yaml", "materials: " + Inline + "\n");
        }));

    [Fact]
    public void A_shop_file_with_its_own_heading_and_units_gives_the_same_packet() =>
        Assert.Equal(AsInline.Value, Written("rules/shop.yaml", Inline, shop => shop.Write("rules/shop.yaml", "units: mm\nshop: " + ShopRules + "\n")));

    [Theory]
    [InlineData(",", "\n", "")]
    [InlineData(";", "\n", "")]
    [InlineData(",", "\r\n", "\ufeff")]
    [InlineData(";", "\r\n", "\ufeff")]
    public void A_csv_list_gives_the_same_packet(string separator, string newLine, string mark) =>
        Assert.Equal(AsInline.Value, Written(ShopRules, "list.csv", shop => shop.Write("list.csv",
            mark + string.Join(newLine, new[] { Headings }.Concat(Rows).Select(r => string.Join(separator, r.Select(c => c.Contains(',', StringComparison.Ordinal) ? $"\"{c}\"" : c)))) + newLine)));

    [Fact]
    public void An_xlsx_list_with_numbers_as_numbers_gives_the_same_packet() =>
        Assert.Equal(AsInline.Value, Written(ShopRules, "list.xlsx", shop => MiniExcel.SaveAs(shop.At("list.xlsx"), Rows.Select(r =>
            Headings.Zip(r).ToDictionary(c => c.First, c => double.TryParse(c.Second, System.Globalization.CultureInfo.InvariantCulture, out var number) ? number : (object)c.Second, StringComparer.Ordinal)))));

    [Fact]
    public void An_error_in_a_sheet_names_its_row_and_column()
    {
        using var shop = new Shop();
        shop.Write("list.csv", "item,what,size\n1,pipe,6\n2,elbow 90 LR,seven\n");
        shop.Write("a.yaml", Shop.Drawing("A-1", extra: "materials: list.csv"));
        var call = shop.Run("check", "a.yaml");
        Assert.Equal(3, call.Exit);
        Assert.Contains("list.csv:3:3: stop: \"seven\" is not a size.", call.Out, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("list.xlsx", "this is no workbook")]
    [InlineData("list.pdf", "%PDF-1.4")]
    public void A_file_that_is_no_list_is_said_to_be_none(string name, string text)
    {
        using var shop = new Shop();
        shop.Write(name, text);
        shop.Write("a.yaml", Shop.Drawing("A-1", extra: "materials: " + name));
        var call = shop.Run("check", "a.yaml");
        Assert.Equal((3, ""), (call.Exit, call.Error));
        Assert.Contains("stop: ", call.Out, StringComparison.Ordinal);
        Assert.Contains(".xlsx", call.Out, StringComparison.OrdinalIgnoreCase);
    }
}
