using System.Text;
using MiniExcelLibs;
using Rootgap.Drawings;

namespace Rootgap.Tests.Drawings;

/// <summary>Lists as sheets. CSV: the rules of RFC 4180, section 2. XLSX: workbooks written by MiniExcel, a general library, and by its shared-strings form in ECMA-376 part 1, 18.4.</summary>
public class SheetRowsTest
{
    private static List<SheetRow> Csv(string text) => [.. SheetRows.Of("list.csv", Encoding.UTF8.GetBytes(text))];

    [Theory]
    [InlineData("item,what\r\n1,\"elbow, 90 \"\"LR\"\"\nlong\"\r\n")] // rules 5 to 7
    [InlineData("item,what\n1,\"elbow, 90 \"\"LR\"\"\nlong\"")] // rule 2: the last record may lack its line end
    [InlineData("\uFEFFitem;what\n1;\"elbow, 90 \"\"LR\"\"\nlong\"\n")]
    [InlineData("item\twhat\n1\t\"elbow, 90 \"\"LR\"\"\nlong\"\n")]
    public void Quotes_commas_and_line_ends_stand_in_quoted_cells(string text)
    {
        var row = Assert.Single(Csv(text));
        Assert.Equal([("item", 1, "1"), ("what", 2, "elbow, 90 \"LR\"\nlong")], row.Cells);
        Assert.Equal(2, row.Number);
    }

    [Fact]
    public void A_second_column_of_one_name_is_not_mixed_with_the_first_and_empty_cells_are_left_out() =>
        Assert.Equal([("a", 1, "1"), ("a (2)", 2, "2")], Assert.Single(Csv("a,a,,b\n1,2,3, \n")).Cells);

    [Fact]
    public void A_workbook_gives_the_numbers_and_words_that_were_put_in()
    {
        using var stream = new MemoryStream();
        stream.SaveAs(new[] { new { size = "1-1/2", length = 6000.25, quantity = 3, good = true, what = " ø <6\" & more" } });
        var row = Assert.Single(SheetRows.Of("x.xlsx", stream.ToArray()));
        Assert.Equal([("size", "1-1/2"), ("length", "6000.25"), ("quantity", "3"), ("good", "True"), ("what", "ø <6\" & more")], row.Cells.Select(c => (c.Heading, c.Text)));
        Assert.Equal(2, row.Number);
    }

    [Fact]
    public void What_is_no_workbook_is_said_to_be_none() =>
        Assert.Throws<InvalidDataException>(() => SheetRows.Of("x.xlsx", [1, 2, 3]).ToList());
}
