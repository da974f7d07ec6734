using Rootgap.FitUp;
using Rootgap.Measure;

namespace Rootgap.Tests.FitUp;

[Trait("pace", "slow")]
public class FitOrderTest
{
    // A line of pipes and long-radius elbows (ASME B16.9, NPS 6: A = 228.6, D = 168.3) that turns any way at each elbow, with a flange at the end.
    private static readonly Gen<List<FitJoint>> Lines =
        Gen.Select(Gen.Int[0, 3].Array[4], Gen.Double[200, 2500].Array[5], Gen.Int[1, 3], Gen.Bool).Select((turns, lengths, elbows, flange) => Line(turns, lengths, elbows, flange));

    private static List<FitJoint> Line(int[] turns, double[] lengths, int elbows, bool flange)
    {
        List<FitJoint> joints = [];
        var (at, a) = (new Point(0, 0, 1000), Vector.East);
        FitPart? last = null;
        FitJoint? lastElbow = null;
        for (var k = 0; k <= elbows; k++)
        {
            var pipe = FitGen.Of("pipe", FitGen.Sizes[2], a, 0, lengths[k], 90, 3.2);
            var from = at;
            var end = from + (a * lengths[k]);
            var held = new FitPart($"P{k + 1}", "pipe", lengths[k] * 0.0283, from.Toward(end, 0.5), [Solid.Cylinder(from, end, 84.15)]);
            if (last is not null && lastElbow is not null)
            {
                // The weld behind the pipe: the pipe is held, the elbow is new.
                joints.Add(Elbow(held, last, from - (a * 1.6), -a, -lastElbow.Axis, end, lengths[k], joints.Count + 1));
            }
            if (k == elbows)
            {
                if (flange)
                    joints.Add(Moved(FitGen.Of("flange", FitGen.Sizes[2], a, 0, lengths[k], 90, 3.2), held, new FitPart("C9", "flange", 11, end + (a * 50), [Solid.Cylinder(end, end + (a * 90), 140)]), end + (a * 1.6), from, joints.Count + 1));
                break;
            }
            var square = a.AnySquare();
            var next = square.Turned(a, turns[k] * Math.PI / 2);
            var weld = end + (a * 3.2);
            var elbow = new FitPart($"C{k + 1}", "elbow", 10, weld + (a * 100) + (next * 100), [new Solid.Bend(weld, a, next, 228.6, Math.PI / 2, 84.15)]);
            var joint = Elbow(held, elbow, end + (a * 1.6), a, next, from, lengths[k], joints.Count + 1);
            joints.Add(joint);
            (last, lastElbow) = (elbow, joint);
            at = weld + ((a + next) * 228.6) + (next * 3.2);
            a = next;
        }
        return joints;
    }

    private static FitJoint Elbow(FitPart held, FitPart elbow, Point c, Vector a, Vector side, Point far, double length, int number) =>
        FitGen.Of("elbow", FitGen.Sizes[2], a, 0, length, 90, 3.2) with
        {
            Name = "W" + number,
            Held = held,
            New = elbow,
            Centre = c,
            Axis = a,
            Turn = new FitTurn(Math.PI / 2, side, 228.6),
            HeldFar = new FitFace(far, -a, 168.3),
            HeldStraight = length,
            Far = new FitFace(c + (a * 230.2) + (side * 228.6), side, 168.3),
        };

    private static FitJoint Moved(FitJoint joint, FitPart held, FitPart brought, Point c, Point far, int number) =>
        joint with { Name = "W" + number, Held = held, New = brought, Centre = c, HeldFar = joint.HeldFar with { Centre = far } };

    [Fact]
    public void No_order_of_a_small_spool_needs_fewer_turn_overs_than_the_planned_one() =>
        Lines.Where(l => l.Count <= 7).Holds(joints =>
        {
            var planned = FitOrder.Of(joints);
            Assert.Equal(joints.Count, planned.Count);
            var plan = new FitOrder.Plan(joints);
            Assert.Equal(Fewest(plan, FitOrder.State.Loose(plan.Parts.Count), 0, 0, int.MaxValue), planned.Sum(s => s.TurnOvers));
        }, iter: 60);

    // Every order of every joint in every attitude, one after the other; only orders already worse than the best are left.
    private static int Fewest(FitOrder.Plan plan, FitOrder.State state, ulong done, int sofar, int best)
    {
        if (done == (1UL << plan.Joints.Count) - 1)
            return sofar;
        for (var j = 0; j < plan.Joints.Count; j++)
        {
            if ((done & (1UL << j)) != 0)
                continue;
            foreach (var choice in plan.Choices[j])
            {
                if (FitOrder.Make(plan, state, j, choice) is var (next, cost) && cost.Blocked == 0 && sofar + cost.TurnOvers < best)
                    best = Math.Min(best, Fewest(plan, next, done | (1UL << j), sofar + cost.TurnOvers, best));
            }
        }
        return best;
    }

    [Fact]
    public void A_line_that_stays_in_one_plane_is_fitted_without_turning_over()
    {
        var joints = Line([0, 3, 0, 3], [900, 900, 900, 900, 900], 3, flange: true);
        // Laid on its side, every elbow leads sideways and every pipe is level.
        Assert.Equal(0, FitOrder.Of(joints).Sum(s => s.TurnOvers));
    }

    [Fact]
    public void A_fitter_may_choose_another_order_and_gets_its_set_ups()
    {
        var joints = Line([0, 1, 0, 2], [900, 900, 900, 900, 900], 2, flange: true);
        var chosen = FitOrder.Of(joints, [(4, null), (0, Attitude.Level), (1, null), (3, null), (2, null)]);
        Assert.Equal(["W5", "W1", "W2", "W4", "W3"], chosen.Select(s => s.Joint.Name), StringComparer.Ordinal);
        Assert.Equal(Attitude.Level, chosen[1].SetUp.Attitude);
    }

    [Fact]
    public void A_joint_that_another_part_would_close_off_is_made_before_that_part_comes()
    {
        // Two legs side by side, 250 mm apart: a hand cannot get in between once the second stands there.
        var joints = Line([0, 0, 0, 0], [400, 120, 700, 900, 900], 2, flange: true);
        var steps = FitOrder.Of(joints);
        Assert.All(steps, s => Assert.Empty(s.InTheWay));
    }

    [Theory]
    [InlineData(900, true)]
    [InlineData(1300, false)] // over 1,200 mm, a shop rule
    public void Only_short_pieces_are_stood_on_end(double length, bool can)
    {
        var joint = FitGen.Of("flange", FitGen.Sizes[2], Vector.East, 0, length, 90, 3.2);
        Assert.Equal(can, SetUp.Of(joint, Attitude.OnEnd).Cautions.Count == 0);
    }

    [Fact]
    public void A_piece_whose_mass_hangs_over_its_base_is_not_stood_on_end()
    {
        // A 150 mm pup with an elbow of 10 kg on it: the middle of the mass lies outside two thirds of the base's radius.
        var joint = FitGen.Of("elbow", FitGen.Sizes[2], Vector.Up, 0, 150, 90, 3.2);
        var heavy = joint with { New = joint.New with { Mass = 30 } };
        Assert.NotEmpty(SetUp.Of(heavy, Attitude.OnEnd).Cautions);
    }

    [Fact]
    public void Both_stands_carry_and_their_loads_add_up_with_moments_in_balance() =>
        FitGen.Any.Where(j => j.HeldStraight > 400).Holds(joint =>
        {
            var setUp = SetUp.Of(joint, Attitude.Level);
            if (setUp.Cautions.Count > 0)
                return;
            Assert.All(setUp.Stands, s => Assert.True(s.Load > 0));
            Assert.Equal(joint.Held.Mass + joint.New.Mass, setUp.Stands.Sum(s => s.Load), 1e-6);
            // Statics: moments about the weld.
            var end = joint.Centre - (joint.Axis * (joint.Gap / 2));
            double Back(Point p) => -(p - end).Dot(joint.Axis);
            Assert.Equal((joint.Held.Mass * Back(joint.Held.Centre)) + (joint.New.Mass * Back(joint.New.Centre)), setUp.Stands.Sum(s => s.Load * s.FromWeld), 1e-6);
        });
}
