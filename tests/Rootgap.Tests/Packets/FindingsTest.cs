using Rootgap.Drawings;
using Rootgap.Packets;
using Rootgap.Tests.Samples;

namespace Rootgap.Tests.PacketFiles;

/// <summary>The findings of a drawing, asked for at once or a rule at a time.</summary>
public class FindingsTest
{
    [Fact]
    public void A_rule_at_a_time_finds_what_is_found_at_once()
    {
        var sample = SampleFile.Clean.Single(s => s.Name == "chilled-supply");
        // Two legs that are too short, so that there is more than notes.
        var text = DrawingText.Of(sample.Text, sample.Name + ".yaml").Set("runs[0].legs[2]", "by", "90").Set("runs[0].legs[4]", "by", "80");
        Packet Made() => Packet.Of(text.Read(name => File.ReadAllBytes(Path.Combine(sample.Folder, name))).Partial!);
        var (once, bit) = (Made(), Made());
        var steps = 0;
        while (bit.LookOn())
            steps++;
        Assert.True(steps > 50);
        Assert.False(bit.LookOn());
        Assert.Contains(once.Findings, f => f.Severity == Rootgap.Findings.Severity.Stop);
        Assert.Equal(once.Findings.Select(f => (f.Rule, f.Where, f.Message)), bit.Findings.Select(f => (f.Rule, f.Where, f.Message)));
    }
}
