using System.Xml.Linq;
using Rootgap.Drawings;
using Rootgap.Sheets;
using Rootgap.Tests.Samples;

namespace Rootgap.Tests.Sheets.Isometrics;

/// <summary>The isometric for the screen, read back with the .NET XML reader.</summary>
[Trait("pace", "slow")]
public class IsometricScreenTest
{
    public static TheoryData<string> Names => [.. SampleFile.Clean.Select(s => s.Name)];

    private static (Packets.Packet Packet, List<XElement> All) Read(string name, Effort effort)
    {
        var packet = SampleFile.Clean.Single(s => s.Name == name).Packet();
        return (packet, [.. XDocument.Parse(IsometricScreen.Svg(packet.Fabrication, effort)).Descendants()]);
    }

    // Source: docs/sheets.md; the rows are those that the reader gave to the drawing's own legs.
    [Theory]
    [MemberData(nameof(Names))]
    public void Every_leg_can_be_tapped_and_every_component_says_its_row(string name)
    {
        foreach (var effort in new[] { Effort.Live, Effort.Full })
        {
            var (packet, all) = Read(name, effort);
            var rows = all.Attributes("data-row").Select(a => a.Value).ToHashSet(StringComparer.Ordinal);
            foreach (var run in packet.Drawing.Runs)
                Assert.All(run.Legs, leg => Assert.Contains(leg.Source.Path.ToString(), rows));
            foreach (var component in packet.Fabrication.Route.Components.Where(c => c.Ware != Ware.Gasket))
                Assert.Equal(component.Source.Path.ToString(), all.Single(e => (string?)e.Attribute("id") == component.Id).Attribute("data-row")?.Value);
            var ids = all.Attributes("id").Select(a => a.Value).ToList();
            Assert.Equal(ids.Count, ids.Distinct(StringComparer.Ordinal).Count());
        }
    }

    // Dark pages need no colour of paper in the picture: everything is drawn in the page's own ink.
    [Theory]
    [MemberData(nameof(Names))]
    public void It_brings_no_black_and_no_white_of_its_own(string name)
    {
        var (_, all) = Read(name, Effort.Full);
        Assert.DoesNotContain(all.Attributes(), a => a.Value is "#000000" or "#ffffff");
        Assert.Contains(all.Attributes("stroke"), a => a.Value == "currentColor");
    }

    [Theory]
    [MemberData(nameof(Names))]
    public void While_typing_all_dimensions_are_there_and_fewer_marks(string name)
    {
        var (_, full) = Read(name, Effort.Full);
        var (_, live) = Read(name, Effort.Live);
        static HashSet<string> Dimensions(List<XElement> all) => [.. all.Where(e => (string?)e.Attribute("class") == "dimension").Attributes("id").Select(a => a.Value)];
        Assert.Equal(Dimensions(full), Dimensions(live));
        Assert.True(live.Count < full.Count);
    }
}
