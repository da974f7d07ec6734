using System.Globalization;
using Rootgap.FitUp;
using Rootgap.Measure;

namespace Rootgap.Tests.FitUp;

[Trait("pace", "slow")]
public class FitOrderTest
{
    // Lines of pipe and long-radius elbows that turn any way at each elbow, with a flange at the end.
    private static readonly Gen<FitSpool> Lines =
        Gen.Select(Gen.Int[0, 3].Array[4], Gen.Double[400, 2500].Array[5], Gen.Int[1, 3], Gen.Bool).Select((turns, lengths, elbows, flange) => Line(turns, lengths, elbows, flange));

    internal static FitSpool Line(int[] turns, double[] lengths, int elbows, bool flange)
    {
        List<string> legs = [];
        var a = Vector.East;
        for (var k = 0; k < elbows; k++)
        {
            legs.Add(Leg(a, lengths[k], "elbow"));
            a = a.AnySquare().Turned(a, turns[k] * Math.PI / 2);
        }

        legs.Add(Leg(a, lengths[elbows], flange ? "flange" : "open"));
        return Spool(legs);
    }

    private static string Leg(Vector go, double by, string to) => string.Create(CultureInfo.InvariantCulture,
        $"{{go: {(go.X > 0.5 ? "east" : go.X < -0.5 ? "west" : go.Y > 0.5 ? "north" : go.Y < -0.5 ? "south" : go.Z > 0 ? "up" : "down")}, by: {by:0.0}, to: {to}}}");

    private static FitSpool Spool(IEnumerable<string> legs)
    {
        var f = Given.Run("mm", "size: 6, schedule: 40, class: 150, material: A106-B", "root gap: 3.2", "open", [.. legs]).Fabrication;
        return new FitJoints(f).OfSpool(f.Spools[0]);
    }

    [Fact]
    public void No_order_of_a_small_spool_costs_less_than_the_planned_one() =>
        Lines.Where(l => l.Welds.Count is > 1 and <= 5).Holds(spool =>
        {
            var planned = FitOrder.Of(spool);
            Assert.Equal(spool.Welds.Count, planned.Count);
            var plan = new FitOrder.Plan(spool);
            var best = Fewest(plan, FitOrder.State.Loose(spool), 0, default, null);
            Assert.Equal(best!.Value.TurnOvers, planned.Sum(s => s.TurnOvers));
            Assert.Equal(best.Value.NotRolled, planned.Count(s => !s.CanRoll));
            Assert.Equal(best.Value.Lift, planned.Sum(s => s.Lift), 1e-6);
        }, iter: 25);

    [Fact]
    public void No_order_of_a_spool_of_eight_parts_needs_fewer_turn_overs()
    {
        var spool = Line([0, 1, 2, 3], [900, 700, 1500, 800, 900], 3, flange: true);
        Assert.Equal(8, spool.Parts.Count);
        var plan = new FitOrder.Plan(spool);
        Assert.Equal(Fewest(plan, FitOrder.State.Loose(spool), 0, default, null, turnOversOnly: true)!.Value.TurnOvers, FitOrder.Of(spool).Sum(s => s.TurnOvers));
    }

    // Every order of every joint in every way it can stand, one after the other; only orders already worse than the best are left.
    private static FitOrder.Cost? Fewest(FitOrder.Plan plan, FitOrder.State state, ulong done, FitOrder.Cost sofar, FitOrder.Cost? best, bool turnOversOnly = false)
    {
        if (done == (1UL << plan.Spool.Welds.Count) - 1)
            return best is { } b && b.CompareTo(sofar) <= 0 ? best : sofar;
        for (var j = 0; j < plan.Spool.Welds.Count; j++)
        {
            if ((done & (1UL << j)) != 0)
                continue;
            var (held, brought) = FitOrder.Sides(plan, state, j);
            var meeting = plan.Meet(j, held, brought);
            foreach (var choice in meeting.Choices)
            {
                var (next, cost) = FitOrder.Make(plan, state, meeting, choice);
                var sum = sofar + cost;
                if (best is { } known && (turnOversOnly ? sum.TurnOvers >= known.TurnOvers : known.CompareTo(sum) <= 0))
                    continue;
                best = Fewest(plan, next, done | (1UL << j), sum, best, turnOversOnly);
            }
        }

        return best;
    }

    [Fact]
    public void A_line_that_stays_in_one_plane_is_fitted_without_turning_over() =>
        Assert.Equal(0, FitOrder.Of(Line([0, 2, 0, 2], [900, 900, 900, 900, 900], 3, flange: true)).Sum(s => s.TurnOvers));

    [Fact]
    public void A_fitter_may_choose_another_order_and_gets_its_set_ups()
    {
        var spool = Line([0, 1, 0, 2], [900, 900, 900, 900, 900], 2, flange: true);
        var (chosen, refused) = FitOrder.Of(spool, [new(4), new(0, Attitude.Level), new(1), new(3), new(2)]);
        Assert.Null(refused);
        Assert.Equal(["W5", "W1", "W2", "W4", "W3"], chosen.Select(s => s.Joint.Name), StringComparer.Ordinal);
        Assert.Equal(Attitude.Level, chosen[1].SetUp.Attitude);
    }

    [Fact]
    public void An_order_that_cannot_be_says_why()
    {
        var spool = Line([0, 1, 0, 2], [2500, 900, 900, 900, 900], 1, flange: true);
        var (steps, refused) = FitOrder.Of(spool, [new(0, Attitude.OnEnd)]);
        Assert.Empty(steps);
        // 2500 less the take-off of 229 and a root gap: over 1,200 mm, the shop's rule.
        Assert.Contains("2267.8 mm long, over 1200 mm", refused, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData(900, true)]
    [InlineData(1300, false)] // over 1,200 mm, a shop rule
    public void Only_short_pieces_are_stood_on_end(double length, bool can) =>
        Assert.Equal(can, FitGen.SetUp(FitGen.Of("flange", 6, Vector.East, 0, length, 90, 3.2), Attitude.OnEnd).Cautions.Count == 0);

    [Fact]
    public void A_thin_pipe_with_a_heavy_flange_high_up_is_tied_back_to_a_post()
    {
        // NPS 2, 1.15 m tall: its bore of 52 mm is a base of which three breadths are 158 mm; the centre of mass stands five times as high.
        var joint = FitGen.Of("flange", 2, Vector.East, 0, 1150, 90, 3.2);
        var setUp = FitGen.SetUp(joint, Attitude.OnEnd);
        var tie = Assert.Single(setUp.Stands, s => s.Kind == SupportKind.TieBack);
        Assert.True(setUp.HeightOf(tie.At) >= setUp.HeightOf(joint.Both.Centre) - 1e-6);
        Assert.Equal(joint.Both.Mass / 10, tie.After!.Value, 1e-6);
        Assert.Equal("the land of its bevel", joint.Held.Ends[0].StandsOn);
    }

    [Fact]
    public void A_small_roll_on_the_stands_is_no_turn_over()
    {
        // A drain's fall turns the second elbow a degree or two against the first.
        var spool = Spool(["{go: east, by: 900, to: elbow}", "{go: {north: 900, up: 30}, by: 900, to: elbow}", "{go: east, by: 900, to: open}"]);
        Assert.Equal(0, FitOrder.Of(spool).Sum(s => s.TurnOvers));
    }
}
