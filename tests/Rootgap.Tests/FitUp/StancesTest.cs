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

    private static string Mm(double length) => length.ToString("0", CultureInfo.InvariantCulture);
}
