using Rootgap.Drawings;
using Rootgap.Packets;

namespace Rootgap.Tests.Checks.Materials;

public class MaterialListEmptyTest
{
    private const string Rule = "material-list-empty";
    private const string Legs = "{go: up, by: 1000, to: flange}";

    [Fact]
    public void A_list_without_rows_is_told() => Desk.Finds(Rule, "", Desk.Drawing(Legs, "materials: []"), "no row");

    [Theory]
    [InlineData("")]
    [InlineData("item,what,size,quantity\n")]
    [InlineData("\n\n")]
    public void A_list_file_without_rows_is_told_by_its_name(string list)
    {
        var drawing = DrawingReader.Read(Desk.Drawing(Legs, "materials: list.csv"), "test.yaml", _ => System.Text.Encoding.UTF8.GetBytes(list)).Drawing!;
        Assert.Contains("list.csv", Assert.Single(Packet.Of(drawing).Findings, f => f.Rule == Rule).Message, StringComparison.Ordinal);
    }

    [Fact]
    public void A_drawing_without_a_list_has_nothing_to_tell() => Desk.IsSilent(Rule, Desk.Drawing(Legs));
}
