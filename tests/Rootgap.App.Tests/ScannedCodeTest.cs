using Rootgap.App.Jobs;

namespace Rootgap.App.Tests;

/// <summary>Codes as the engine writes them on sheets, cards and labels lead to their pages.</summary>
public sealed class ScannedCodeTest
{
    private static readonly (string, string)[] Drawings = [("CHW-20", "a.yaml"), ("CHW-20 A", "area 1/b.yaml")];

    [Theory]
    [InlineData("CHW-20 rev 2 spool 3", "2", "spool/3/a.yaml")]
    [InlineData("CHW-20 rev 2 W7", "2", "fit/W7/a.yaml")]
    [InlineData("CHW-20 rev B", "B", "drawing/a.yaml")]
    [InlineData("CHW-20 A rev 2 spool N 1", "2", "spool/N%201/area%201/b.yaml")]
    [InlineData("CHW-20 3-A\n1146.4 mm\n6 sch 40", "", "spools/a.yaml")]
    public void A_code_leads_to_its_spool_joint_or_drawing(string said, string revision, string address)
    {
        var code = ScannedCode.Of(said, Drawings)!;
        Assert.Equal((revision, address), (code.Revision, code.Address));
    }

    [Theory]
    [InlineData("CHW-201 rev 2")]
    [InlineData("Remnant R1-a")]
    [InlineData("")]
    public void A_code_of_no_drawing_here_leads_nowhere(string said) => Assert.Null(ScannedCode.Of(said, Drawings));
}
