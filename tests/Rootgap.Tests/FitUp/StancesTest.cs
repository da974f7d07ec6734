using System.Globalization;
using Rootgap.FitUp;

namespace Rootgap.Tests.FitUp;

public class StancesTest
{
    // A leg falls by up to one in four: 14 degrees. What is clamped stands as a level shows it: a spirit level or a plumb line needs a pipe that is level or upright.
    [Fact]
    public void A_joint_that_is_clamped_is_level_or_upright_within_a_degree() =>
        Gen.Select(Gen.Int[4, 60], Gen.Double[60, 400], Gen.Double[60, 1500], Gen.Bool).Holds((fall, first, second, isFlanged) =>
        {
            var f = Given.Run("mm", "size: 6, schedule: 40, class: 150, material: A106-B", "root gap: 3.2", "open",
                $"{{go: east, by: {Mm(first + 300)}, to: elbow}}",
                $"{{go: north, by: {Mm(second + 500)}, fall: 1:{fall}, to: elbow}}",
                $"{{go: up, by: {Mm(first + 300)}, to: {(isFlanged ? "flange" : "open")}}}").Fabrication;
            var spool = new FitJoints(f).OfSpool(f.Spools[0]);
            foreach (var step in FitOrder.Of(spool).Where(s => s.SetUp.Attitude == Attitude.Clamped))
            {
                var across = Math.Abs(Math.Asin(Math.Clamp(step.SetUp.Up.Dot(step.Weld.Axis), -1, 1))) * 180 / Math.PI;
                Assert.True(across is < 1.01 or > 88.99, string.Create(CultureInfo.InvariantCulture, $"{step.Weld.Id} is clamped {across:0.##} degrees from level."));
            }
        }, iter: 25);

    // Two thirds of the base's radius, within which the centre of mass must lie for a post to hold it (fit-up by hand, common practice); of a pipe the base is no wider than its outside, 84.15.
    [Fact]
    public void What_stands_on_end_has_its_centre_over_its_foot() =>
        Gen.Select(Gen.Double[150, 1000], Gen.Double[10, 900]).Holds((leg, tail) =>
        {
            var f = Given.Run("mm", "size: 6, schedule: 40, class: 150, material: A106-B", "root gap: 3.2", "open",
                $"{{go: up, by: {Mm(leg + 229)}, to: elbow}}", $"{{go: north, by: {Mm(tail + 229)}, to: open}}").Fabrication;
            var spool = new FitJoints(f).OfSpool(f.Spools[0]);
            var (steps, refused) = FitOrder.Of(spool, [new(1), new(0, Attitude.OnEnd)]);
            if (refused is not null)
                return;
            var joint = steps[1].Joint;
            var (held, brought) = (joint.HeldSide, joint.Brought);
            var centre = held.Centre.Toward(brought.Centre, brought.Mass / (held.Mass + brought.Mass));
            var off = (centre - joint.Centre).SquareTo(joint.Axis).Length;
            Assert.True(off <= 168.3 / 3 + 0.1, string.Create(CultureInfo.InvariantCulture, $"on end with its centre {off:0.#} off its axis"));
        }, iter: 40);

    // Of a short tail it is steady enough, of a long one not; both are tried above.
    [Theory]
    [InlineData(1000, 10, true)]
    [InlineData(300, 900, false)]
    public void A_long_tail_does_not_stand_on_end(double leg, double tail, bool stands)
    {
        var f = Given.Run("mm", "size: 6, schedule: 40, class: 150, material: A106-B", "root gap: 3.2", "open",
            $"{{go: up, by: {Mm(leg + 229)}, to: elbow}}", $"{{go: north, by: {Mm(tail + 229)}, to: open}}").Fabrication;
        Assert.Equal(stands, FitOrder.Of(new FitJoints(f).OfSpool(f.Spools[0]), [new(1), new(0, Attitude.OnEnd)]).Refused is null);
    }

    private static string Mm(double length) => length.ToString("0", CultureInfo.InvariantCulture);
}
