using System.Text;
using MiniExcelLibs;
using Rootgap.Drawings;

namespace Rootgap.Tests.Drawings;

/// <summary>Lists as sheets. CSV: the rules of RFC 4180, section 2. XLSX: a workbook written by MiniExcel, a general library that the engine does not use.</summary>
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

    // ECMA-376 part 1, 18.4.8 and 18.4.6 (shared strings in runs, with how they are spoken), 18.3.1.4 (a cell's place), 18.2.19 (the first sheet by its link).
    [Fact]
    public void Shared_strings_gaps_and_the_first_sheet_are_read_as_the_standard_writes_them()
    {
        const string Main = "xmlns=\"http://schemas.openxmlformats.org/spreadsheetml/2006/main\"";
        using var stream = new MemoryStream();
        using (var zip = new System.IO.Compression.ZipArchive(stream, System.IO.Compression.ZipArchiveMode.Create, leaveOpen: true))
        {
            void Part(string name, string text)
            {
                using var writer = new StreamWriter(zip.CreateEntry(name).Open());
                writer.Write(text);
            }

            Part("xl/workbook.xml", $"<workbook {Main} xmlns:r=\"http://schemas.openxmlformats.org/officeDocument/2006/relationships\"><sheets><sheet name=\"List\" sheetId=\"7\" r:id=\"rId9\"/><sheet name=\"Other\" sheetId=\"1\" r:id=\"rId1\"/></sheets></workbook>");
            Part("xl/_rels/workbook.xml.rels", "<Relationships xmlns=\"http://schemas.openxmlformats.org/package/2006/relationships\"><Relationship Id=\"rId1\" Type=\"t\" Target=\"worksheets/sheet1.xml\"/><Relationship Id=\"rId9\" Type=\"t\" Target=\"/xl/worksheets/sheet2.xml\"/></Relationships>");
            Part("xl/sharedStrings.xml", $"<sst {Main}><si><t>item</t></si><si><r><t xml:space=\"preserve\">what </t></r><r><rPr><b/></rPr><t>it is</t></r><rPh sb=\"0\" eb=\"1\"><t>spoken</t></rPh></si><si><t/></si><si><t>elbow</t></si></sst>");
            Part("xl/worksheets/sheet1.xml", $"<worksheet {Main}><sheetData><row r=\"1\"><c r=\"A1\"><v>1</v></c></row></sheetData></worksheet>");
            Part("xl/worksheets/sheet2.xml", $"<worksheet {Main}><sheetData><row r=\"2\"><c r=\"A2\" t=\"s\"><v>0</v></c><c r=\"C2\" t=\"s\"><v>1</v></c></row><row r=\"3\"/><row r=\"5\"><c r=\"A5\"><v>0.30000000000000004</v></c><c r=\"B5\" t=\"s\"><v>2</v></c><c r=\"C5\" t=\"s\"><v>3</v></c></row></sheetData></worksheet>");
        }

        var row = SheetRows.Of("x.xlsx", stream.ToArray()).Single(r => r.Cells.Count > 0);
        Assert.Equal(5, row.Number);
        Assert.Equal([("item", 1, "0.30000000000000004"), ("what it is", 3, "elbow")], row.Cells);
    }

    [Fact]
    public void What_is_no_workbook_is_said_to_be_none() =>
        Assert.Throws<InvalidDataException>(() => SheetRows.Of("x.xlsx", [1, 2, 3]).ToList());
}
