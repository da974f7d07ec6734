using Rootgap.Sheets;
using Rootgap.Tests.Sheets;

namespace Rootgap.Tests.Drawings;

/// <summary>What is left on at a final-fit weld where the shop says nothing: 100 mm, said in the drawing's units (common practice: 50 to 150 mm).</summary>
public class UsualExtraTest
{
    [Theory]
    [InlineData("mm", "1500", 100, "+100 left on ")]
    [InlineData("in", "5'-0", 100, "+3 15/16\" left on ")]
    public void What_is_left_on_is_100_mm_and_said_in_the_drawing_s_units(string units, string by, double mm, string says)
    {
        var packet = Given.Run(units, "size: 6, schedule: 40, class: 150", "kerf: 3 mm", "flange", $"{{go: north, by: {by}, to: elbow, end: final-fit}}", $"{{go: up, by: {by}, to: flange}}");
        Assert.Equal(mm, packet.Drawing.Shop.FinalFitExtra, 1e-9);
        var pages = IsometricPages.Of(packet.ToJob(Paper.A4), withLists: false);
        Assert.Contains(pages.SelectMany(p => Drawn.Texts(p.Marks)), t => t.Content.StartsWith(says, StringComparison.Ordinal));
    }
}
