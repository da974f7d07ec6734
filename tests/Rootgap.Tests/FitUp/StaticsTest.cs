using Rootgap.FitUp;
using Rootgap.Measure;

namespace Rootgap.Tests.FitUp;

/// <summary>The loads on stands against the formulas that handbooks give for beams.</summary>
public class StaticsTest
{
    // AISC Steel Construction Manual, table 3-23 case 24 (from memory; it follows from the moments): a beam on supports l apart that overhangs one of them by a, with w per
    // length all along: R1 = w (l² - a²) / 2l, R2 = w (l + a)² / 2l.
    [Theory]
    [InlineData(3000, 900, 0.03)]
    [InlineData(1000, 1000, 0.02)]
    [InlineData(1000, 1500, 0.02)] // the far support lifts off
    public void An_even_load_with_an_overhang_is_carried_as_the_handbook_says(double l, double a, double w)
    {
        var (first, second) = Statics.OnTwo(0, l, [new(w * (l + a), (l + a) / 2)]);
        Assert.Equal(w * ((l * l) - (a * a)) / (2 * l), first, 1e-9);
        Assert.Equal(w * (l + a) * (l + a) / (2 * l), second, 1e-9);
    }

    // A public worked example, engineeringintro.com "Simply supported beam with overhang on both sides": R1 x 5 + 200 x 2 x 1 = 200 x 2 x 1 + 1000 x 2 + 600 x 7: supports 5 m
    // apart, 600 kg 7 m and 1000 kg 2 m left of the right one, 200 kg/m over 2 m on either side of it. Its answer: R1 = 1240 kg, R2 = 1160 kg.
    [Fact]
    public void A_beam_that_overhangs_both_supports_is_carried_as_the_worked_example_says()
    {
        var (first, second) = Statics.OnTwo(-5000, 0, [new(600, -7000), new(1000, -2000), new(400, -1000), new(400, 1000)]);
        Assert.Equal((1240, 1160), (Math.Round(first, 9), Math.Round(second, 9)));
    }

    // Another, civilguruvu.com "Determine the reactions at the supports of a overhanging beam": RB x 4 + 20 x 1 = 40 x 1 + 20 x 5 + (5 x 3)(3/2 + 2); RB = 43.125, RA = 51.875 kN.
    [Fact]
    public void Point_loads_and_an_even_load_with_two_overhangs_are_carried_as_another_says()
    {
        var (first, second) = Statics.OnTwo(0, 4, [new(20, -1), new(40, 1), new(20, 5), new(15, 3.5)]);
        Assert.Equal((51.875, 43.125), (Math.Round(first, 9), Math.Round(second, 9)));
    }

    // The same table, case 26: a load P at the end of the overhang: R1 = P a / l, downward; R2 = P (l + a) / l.
    [Fact]
    public void A_load_at_the_end_of_an_overhang_lifts_the_far_support()
    {
        var (first, second) = Statics.OnTwo(500, 2500, [new(40, 3100)]);
        Assert.Equal(-40 * 600 / 2000.0, first, 1e-9);
        Assert.Equal(40 * 2600 / 2000.0, second, 1e-9);
    }

    // A table on three legs: each leg of an equilateral triangle carries a third of what stands over its middle.
    [Fact]
    public void A_third_stand_off_the_line_carries_what_the_moments_say()
    {
        Load[] middle = [new(90, 500, 1000 * Math.Sqrt(0.75) / 3)];
        var third = Statics.OffTheLine(1000 * Math.Sqrt(0.75), middle);
        var (first, second) = Statics.BesideThird(0, 1000, 500, third, middle);
        Assert.Equal(30, third, 1e-9);
        Assert.Equal(30, first, 1e-9);
        Assert.Equal(30, second, 1e-9);
    }

    [Fact]
    public void A_third_stand_in_the_line_takes_what_it_is_screwed_up_to()
    {
        Load[] even = [new(100, 1000)];
        Assert.Equal((40, 40), Statics.BesideThird(0, 2000, 1000, 20, even));
    }

    // A pipe whose far end is heavy by 10 % more and whose near end is light by as much: the worst that the masses can do.
    [Fact]
    public void The_worst_of_the_masses_is_each_to_the_worse_side()
    {
        Load[] loads = [new(10, 500), new(10, 2500)];
        // On the support at 0 of two that are 2000 apart: 10 x 0.75 - 10 x 0.25; at the worst 6.75 - 2.75.
        Assert.Equal(4, Statics.Least(loads, l => (2000 - l.Along) / 2000, 0.1), 1e-9);
    }

    // Common practice: a pipe of even weight lies on two stands a fifth of its length from each end, half on each; with 11 kg at one end they move.
    [Fact]
    public void Two_stands_carry_the_weight_with_moments_in_balance() =>
        FitGen.Any.Where(j => j.HeldStraight > 600).Holds(joint =>
        {
            var setUp = FitGen.SetUp(joint, Attitude.Level);
            if (setUp.Stands.Any(s => s.Kind != SupportKind.Stand))
                return;
            foreach (var (mass, centre, load) in new (double, Point, Func<FitStand, double>)[] { (joint.HeldSide.Mass, joint.HeldSide.Centre, s => s.Before!.Value), (joint.Both.Mass, joint.Both.Centre, s => s.After!.Value) })
            {
                Assert.Equal(mass, setUp.Stands.Sum(load), 1e-6);
                Assert.All(setUp.Stands, s => Assert.True(load(s) >= 0.2 * mass));
                double Back(Point p) => (joint.Centre - p).Dot(joint.Axis);
                Assert.Equal(mass * Back(centre), setUp.Stands.Sum(s => load(s) * Back(s.At)), 1e-3);
            }
        }, iter: 60);
}
