using Rootgap.Drawings;

namespace Rootgap.Tests.Checks;

public class DrawingTwiceTest
{
    private static readonly Drawing Drawing = DrawingReader.Read(Desk.Drawing("{go: north, by: 1000, to: flange}"), "a.yaml").Drawing!;

    [Fact]
    public void Two_files_with_one_number_and_revision_stop_both()
    {
        var finding = Rootgap.Packets.Packet.Of(Drawing with { AlsoIn = ["b.yaml"] }).Findings.Single(f => f.Rule == "drawing-twice");
        Assert.Equal((Rootgap.Findings.Severity.Stop, "TEST-1 revision 1 is also in b.yaml."), (finding.Severity, finding.Message));
        Assert.True(finding.Where.IsKnown);
    }

    [Fact]
    public void A_drawing_that_is_alone_is_not_doubted() => Assert.DoesNotContain(Rootgap.Packets.Packet.Of(Drawing).Findings, f => f.Rule == "drawing-twice");

    [Theory]
    [InlineData("drawing: CHW-1\nrevision: 2\nruns:\n", "CHW-1", "2")]
    [InlineData("# first\ndrawing: \"CHW-1\"   # number\nrevision: '2a' # of March\nruns: []\n", "CHW-1", "2a")]
    [InlineData("title: x\nruns: []\n", "", "")]
    [InlineData("drawing: CHW-1\nrevision: 2\nreadings: []\n", "", "")]
    public void Number_and_revision_are_found_at_the_top_of_a_file(string text, string number, string revision) =>
        Assert.Equal(new DrawingHead(number, revision), DrawingHead.Of(text));
}
