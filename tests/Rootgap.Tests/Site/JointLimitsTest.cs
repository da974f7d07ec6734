using Rootgap.Measure;
using Rootgap.Site;
using Rootgap.Tests.Checks;

namespace Rootgap.Tests.Site;

/// <summary>What a joint as made, or the end of a checked spool, may be off: PFI ES-3 and the holes of ASME B16.5, worked out by hand.</summary>
public class JointLimitsTest
{
    private static SiteLine Line(string size, string legs) => SiteLine.Of(Desk.Packet(Desk.Drawing(legs, line: $"size: {size}, schedule: 40, class: 150")).Fabrication!);

    // ASME B16.5, NPS 2 class 150: four holes of 19 (3/4 in.) for studs of 15.9 (5/8) on a circle of 120.7: 3.2 of play, of which 3 count; half of it to each side, and round half the circle it turns by so much.
    [Fact]
    public void A_bolted_joint_plays_half_its_holes_to_each_side()
    {
        var joint = Line("2", "{go: north, by: 1000, to: joint}\n{go: north, by: 1000, to: flange}").Joints.Single(j => j.IsBolted && j.Joint.Between.Count == 2);
        Assert.Equal((4, 120.7), (joint.Bolting!.Count, joint.Bolting.Circle));
        var made = JointLimits.AsMade(joint);
        Assert.Equal(joint.Bolting.Play / 2, made.X, 1e-9);
        Assert.InRange(made.X, 1.4, 1.6);
        Assert.Equal(Math.Min(made.X / (120.7 / 2), JointLimits.Lean), made.Rz, 1e-9);
        Assert.Equal(JointLimits.FaceLean / joint.Outside, made.Rx, 1e-9);
    }

    // PFI ES-3: 3 mm to NPS 10, 5 to 24, 6 above; 1.6 round the outside: an error anywhere within its limit has the limit over root 3 as its standard deviation.
    [Theory]
    [InlineData("10", 3)]
    [InlineData("12", 5)]
    [InlineData("24", 5)]
    [InlineData("26", 6)]
    public void A_spools_end_stands_within_what_its_size_allows(string size, double place)
    {
        var joint = Line(size, "{go: north, by: 3000, to: weld, end: field}\n{go: north, by: 3000, to: weld}").Joints.First(j => j.Joint.Place == Rootgap.Drawings.WeldPlace.Field && !j.IsBolted);
        var end = JointLimits.EndOfSpool(joint);
        Assert.Equal((place, place, place), (end.X, end.Y, end.Z));
        Assert.Equal(JointLimits.EndRoll / (joint.Outside / 2), end.Rz, 1e-9);
        Assert.Equal(place / 1.7320508, JointLimits.Spread(place), 1e-6);
    }
}
