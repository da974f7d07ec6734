using System.Text.Json;

namespace Rootgap.Tests.PacketFiles;

/// <summary>A chain built from radius, turn and straight ends of packet.json must come to the elbow's own ends.</summary>
public class ElbowChainTest
{
    // ASME B16.9, NPS 6 long radius: 90 degrees centre to end 229, 45 degrees centre to end 95; each is rounded by itself, and 229 x tan 22.5 is 94.85 (from memory).
    [Theory]
    [InlineData("east", 229)]
    [InlineData("{north: 600, east: 600}", 95)]
    public void Radius_turn_and_straight_ends_come_to_the_centre_to_end_of_the_standard(string next, double centreToEnd)
    {
        var packet = Given.Millimetres("size: 6, schedule: 40, class: 150", "flange", "{go: north, by: 1500, to: elbow}", $"{{go: {next}, by: 1500, to: flange}}");
        using var json = JsonDocument.Parse(Given.Json(packet));
        var elbow = json.RootElement.GetProperty("components").EnumerateArray().Single(c => c.GetProperty("kind").GetString() == "elbow");
        var straight = elbow.TryGetProperty("straight", out var s) ? s.GetDouble() : 0;
        var tangent = elbow.GetProperty("radius").GetDouble() * Math.Tan(elbow.GetProperty("angle").GetDouble() * Math.PI / 360);
        Assert.Equal(centreToEnd, tangent + straight, 1e-3);
        Assert.Equal(229, elbow.GetProperty("radius").GetDouble());
    }
}
