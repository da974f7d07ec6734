using System.Text;
using Rootgap.Drawings;
using Rootgap.Measure;
using Xunit;

namespace Rootgap.Tests.Drawings;

/// <summary>Material lists as other people's spreadsheets give them.</summary>
public sealed class MaterialTableTest
{
    [Fact]
    public void Headings_that_other_people_use_are_understood()
    {
        // The usual columns of a bill of materials on a piping isometric: mark, description, nominal size, schedule, quantity, material (common practice).
        var table = MaterialTable.Pasted("Pos\tDescription\tNPS\tSch.\tQty\tGrade\n1\tpipe\t6\t40\t12 m\tA106-B\n", Units.Millimetres);
        var row = Assert.Single(table.Rows);
        Assert.Equal(
            [("class", ""), ("item", "1"), ("material", "A106-B"), ("quantity", "12 m"), ("schedule", "40"), ("size", "6"), ("what", "pipe")],
            new[] { "class", "item", "material", "quantity", "schedule", "size", "what" }.Select(k => (k, row.GetValueOrDefault(k, ""))));
        Assert.Empty(table.Notes);
    }

    [Fact]
    public void A_column_that_says_nothing_is_left_out_and_named()
    {
        var table = MaterialTable.Pasted("item\twhat\tColour\n1\tpipe\tred\n", Units.Millimetres);
        Assert.Contains(table.Notes, n => n.Row < 0 && n.Message.Contains("colour", StringComparison.OrdinalIgnoreCase));
        Assert.DoesNotContain("red", table.Rows[0].Values);
    }

    [Fact]
    public void A_block_without_headings_is_told_from_a_table()
    {
        Assert.True(MaterialTable.HasHeadings(MaterialTable.CellsOf("item,what,size\n1,pipe,6")));
        Assert.False(MaterialTable.HasHeadings(MaterialTable.CellsOf("1\tpipe\t6\n2\tcap\t6")));
        Assert.False(MaterialTable.HasHeadings(MaterialTable.CellsOf("size\n6")));
        Assert.False(MaterialTable.HasHeadings([]));
    }

    [Fact]
    public void Cells_in_quotes_are_read_as_RFC_4180_has_them()
    {
        // RFC 4180, section 2, rules 5 to 7: quoted cells may hold separators, line breaks (here one blank) and doubled quotes.
        var cells = MaterialTable.CellsOf("\"aaa\",\"b\r\nbb\",\"c,c\"\r\nzzz,\"y\"\"y\",xxx\r\n");
        Assert.Equal(["aaa|b bb|c,c", "zzz|y\"y|xxx"], cells.Select(row => string.Join('|', row)));
    }

    [Fact]
    public void Inches_at_the_end_of_a_cell_are_no_quotes() =>
        Assert.Equal("1|stud bolt|3/4\"|4-1/4\"", string.Join('|', MaterialTable.CellsOf("1\tstud bolt\t3/4\"\t4-1/4\"\n")[0]));

    [Fact]
    public void Bare_lengths_of_a_list_in_inches_keep_their_length_in_a_drawing_in_millimetres()
    {
        var list = Encoding.UTF8.GetBytes("units: in\nmaterials:\n  - {item: 1, what: stud bolt, size: 3/4, length: 4.25, quantity: 8}\n");
        Assert.Equal("4.25 in", MaterialTable.OfFile("list.yaml", list, Units.Millimetres).Rows[0]["length"]);
        Assert.Equal("4.25", MaterialTable.OfFile("list.yaml", list, Units.Inches).Rows[0]["length"]);
    }

    [Fact]
    public void The_same_list_as_csv_and_as_yaml_is_the_same_table()
    {
        var csv = Encoding.UTF8.GetBytes("item,what,size,quantity\n1,pipe,6,9.6 m\n2,cap,6,1\n");
        var yaml = Encoding.UTF8.GetBytes("- {item: 1, what: pipe, size: 6, quantity: 9.6 m}\n- {item: 2, what: cap, size: 6, quantity: 1}\n");
        static IEnumerable<string> Said(MaterialTable table) => table.Rows.Select(r => string.Join('|', r.OrderBy(c => c.Key, StringComparer.Ordinal).Select(c => $"{c.Key}={c.Value}")));
        Assert.Equal(Said(MaterialTable.OfFile("a.csv", csv, Units.Millimetres)), Said(MaterialTable.OfFile("a.yaml", yaml, Units.Millimetres)));
    }

    [Fact]
    public void A_file_that_is_no_list_says_so()
    {
        Assert.NotEmpty(MaterialTable.OfFile("a.yaml", Encoding.UTF8.GetBytes("drawing: [1\n"), Units.Millimetres).Notes);
        Assert.NotEmpty(MaterialTable.OfFile("a.yaml", Encoding.UTF8.GetBytes("name: x\n"), Units.Millimetres).Notes);
        Assert.NotEmpty(MaterialTable.OfFile("a.xlsx", [1, 2, 3], Units.Millimetres).Notes);
        Assert.NotEmpty(MaterialTable.OfFile("a.pdf", [1, 2, 3], Units.Millimetres).Notes);
    }
}
