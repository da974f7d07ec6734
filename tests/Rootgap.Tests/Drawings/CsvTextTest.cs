using System.Globalization;
using System.Text;
using Rootgap.Drawings;

namespace Rootgap.Tests.Drawings;

/// <summary>A list written as CSV holds no formula, and gives back what was written.</summary>
public class CsvTextTest
{
    private static readonly Gen<string> Texts = Gen.OneOf(Gen.String[Gen.Char["=+-@'\t\r\n\",;1a é"], 1, 8], Gen.String, Gen.OneOf("=1+1", "+49 30", "-heat", "-12.5", "@x", "'=a", "''=a", "-", "=HYPERLINK(\"x\")"));

    private static string Back(string text) => Assert.Single(SheetRows.Of("list.csv", Encoding.UTF8.GetBytes($"what,note\nx,{CsvText.Cell(text)}\n"))).Cells.FirstOrDefault(c => c.Heading == "note").Text ?? "";

    [Fact]
    public void What_is_written_comes_back_without_the_blanks_around_it() => Texts.Where(t => !t.Contains('\0', StringComparison.Ordinal) && Encoding.UTF8.GetString(Encoding.UTF8.GetBytes(t)) == t && t.Trim() == t)
        .Holds(text => Assert.Equal(text, Back(text)), iter: 2000);

    /// <summary>OWASP, "CSV Injection": cells that begin with one of = + - @, a tab or a return are formulas to a spreadsheet. A number with its sign is none.</summary>
    [Fact]
    public void No_cell_is_a_formula() => Texts.Holds(
        text =>
        {
            var cell = CsvText.Cell(text);
            cell = cell is ['"', .. var inner, '"'] ? inner.Replace("\"\"", "\"", StringComparison.Ordinal) : cell;
            Assert.True(cell.Length == 0 || !"=+-@\t\r".Contains(cell[0], StringComparison.Ordinal) || double.TryParse(cell, NumberStyles.AllowLeadingSign | NumberStyles.AllowDecimalPoint | NumberStyles.AllowExponent, CultureInfo.InvariantCulture, out _), cell);
        }, iter: 2000);

    [Theory]
    [InlineData("'quoted'", "'quoted'")]
    [InlineData("'-5", "'-5")]
    [InlineData("'=1+1", "=1+1")]
    public void An_apostrophe_of_another_program_is_taken_off_only_before_a_formula(string cell, string meant) => Assert.Equal(meant, CsvText.Meant(cell));

    [Theory]
    [InlineData("cut-list.csv")]
    [InlineData("cut-list.xlsx")]
    public void A_list_with_hostile_words_is_changed_in_one_cell_and_comes_back(string name)
    {
        var rows = "item,what,note\n1,\"'=1+1\",'-x\n2,\"a, \"\"b\"\"\",@y\n"u8.ToArray();
        if (name.EndsWith("xlsx", StringComparison.Ordinal))
        {
            using var book = new MemoryStream();
            Workbook.Write(book, ("list", (Dictionary<string, object?>[])[new() { ["item"] = 1, ["what"] = "=1+1", ["note"] = "-x" }, new() { ["item"] = 2, ["what"] = "a, \"b\"", ["note"] = "@y" }]));
            rows = book.ToArray();
        }

        var copy = SheetCopy.With(name, rows, [new(new(name, 2, 3, 4), "+new", "")]);
        var read = SheetRows.Of(name, copy).Select(r => string.Join('|', r.Cells.Select(c => c.Text))).ToList();
        Assert.Equal(["1|=1+1|+new", "2|a, \"b\"|@y"], read, StringComparer.Ordinal);
    }
}
