using Rootgap.Measure;
using Rootgap.Routes;

namespace Rootgap.Tests.Routes;

public class MeasuredWayTest
{
    private static readonly Route Line = Given.Run("mm", "size: 4, schedule: 40, class: 150", "root gap: 3", "flange",
        "{go: north, by: 1200, to: elbow}", "{go: east, by: 1600, to: elbow}", "{go: up, by: 900, to: flange}").Fabrication.Route;

    [Fact]
    public void The_straight_way_is_by_pythagoras_and_each_direction_is_named()
    {
        var way = Way("start of main", "leg 3 of main");
        // 1200, 1600 and 900: the level way is a 3-4-5 triangle of 2000; with 900 up, the root of 4,810,000.
        Assert.Equal(2000, way.Level, 1e-9);
        Assert.Equal(Math.Sqrt(4_810_000), way.Straight, 1e-9);
        Assert.Equal("start of main to leg 3 of main: 2193.2 straight; 1600 east, 1200 north, 900 up", way.Say(Units.Millimetres));
        Assert.Equal("leg 3 of main to start of main: 2193.2 straight; 1600 west, 1200 south, 900 down", Way("leg 3 of main", "start of main").Say(Units.Millimetres));
        Assert.Equal("start of main to leg 1 of main: 1200 straight, north", Way("start of main", "leg 1 of main").Say(Units.Millimetres));
        Assert.Equal("start of main to leg 1 of main: 3'-11 1/4\" straight, north", Way("start of main", "leg 1 of main").Say(Units.Inches));
    }

    [Fact]
    public void Joints_and_parts_are_places_by_their_names()
    {
        var elbow = Line.Components.First(c => c.Name.Contains("elbow", StringComparison.OrdinalIgnoreCase));
        Assert.Equal(0, Way(elbow.Id, "leg 1 of main").Straight, 1e-9);
        Assert.All(Line.Joints, j => Assert.Equal(j.At, MeasuredWay.Places(Line).First(p => p.Name == j.Id).At));
    }

    private static MeasuredWay Way(string from, string to) => new(MeasuredWay.Places(Line).First(p => p.Name == from), MeasuredWay.Places(Line).First(p => p.Name == to));
}
