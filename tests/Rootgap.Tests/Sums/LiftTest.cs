using Rootgap.Measure;
using Rootgap.Packets;
using Rootgap.Papers;
using Rootgap.Sums;

namespace Rootgap.Tests.Sums;

/// <summary>How a spool is lifted, through a drawing. The statics are held against sums by hand.</summary>
public class LiftTest
{
    private static Packet Drawn(string legs, string more = "", string start = "{to: flange, at: {up: 1000}}") => Given.Packet($$"""
        drawing: L-1
        units: mm
        line: {size: 6, schedule: 40, class: 150, material: A106-B}
        {{more}}
        runs:
          - run: main
            start: {{start}}
            legs:
        {{string.Join('\n', legs.Split('\n').Select(l => "      " + l.Trim()))}}
        """);

    private static Lift Of(Packet packet, int spool = 0) => Lift.Of(packet.Fabrication, packet.Fabrication.Spools[spool]);

    [Fact]
    public void A_straight_spool_hangs_level_on_two_slings_that_share_its_mass_and_a_tenth()
    {
        var lift = Of(Drawn("- {go: north, by: 4000, to: flange}"));
        Assert.Equal(lift.Spool.Mass * 1.1, lift.Holds.Sum(h => h.Lifts), 1e-9);
        Assert.Equal(2, lift.Holds.Count);
        Assert.True(lift.Holds[0].At.To(lift.Holds[1].At) >= 2000, "as far apart as half the length");
        Assert.All(lift.Holds, h => Assert.InRange(h.Along, 168.2, h.Cut.Length - 168.2));
        Assert.Equal(0, lift.Hanging!.Tilt, 1e-9);
        Assert.False(lift.TurnsOver);
        // The pull by hand: what it lifts over the sine of the leg, from the hook's height and the leg's length.
        Assert.All(lift.Holds, h => Assert.Equal(h.Lifts * h.Leg!.Value / lift.HookUp!.Value, h.Pull!.Value, 1e-6));
    }

    [Fact]
    public void A_branch_to_the_side_turns_a_spool_unless_a_third_leg_holds_it()
    {
        var packet = Given.Packet("""
            drawing: L-2
            units: mm
            line: {size: 6, schedule: 40, class: 150, material: A106-B}
            runs:
              - run: main
                start: {to: flange, at: {up: 1000}}
                legs:
                  - {go: north, by: 2000, to: tee, name: T, branch: east}
                  - {go: north, by: 2000, to: flange}
              - run: side
                start: {from: T}
                legs: [{go: east, by: 1500, to: flange}]
            """);
        var lift = Of(packet);
        Assert.True(lift.IsHeld);
        Assert.True(lift.Roll > Angles.ToRadians(10));
        // Moments about the header by hand: the third leg's lever against that of the centre of mass.
        var (header, centre) = (lift.Holds[0].At.X, lift.Spool.CentreOfMass.X);
        Assert.Equal(lift.Mass * (centre - header) / (lift.Holds[2].At.X - header), lift.Holds[2].Lifts, 1e-6);
        Assert.Equal(lift.Mass, lift.Holds.Sum(h => h.Lifts), 1e-6);
        Assert.Contains(LiftWords.Of(lift, Units.Millimetres), s => s.StartsWith("Three legs: two carry", StringComparison.Ordinal));
    }

    // By hand: a branch outlet of NPS 2 with a flange puts the centre of mass e beside the header's axis. Choked at the top of the header (84.15 mm over the axis) the spool leans
    // atan(e / (84.15 + what it hangs below the axis)); in a basket hitch it would roll till the centre hangs under the axis.
    [Fact]
    public void A_small_branch_to_the_side_leans_a_choked_spool_a_little_and_rolls_it_in_a_basket()
    {
        var packet = Given.Packet("""
            drawing: L-3
            units: mm
            line: {size: 6, schedule: 40, class: 150, material: A106-B}
            runs:
              - run: main
                start: {to: flange, at: {up: 1000}}
                legs:
                  - {go: north, by: 2000, to: outlet, name: O, branch: east, size: 2}
                  - {go: north, by: 2000, to: flange}
              - run: side
                start: {from: O}
                legs: [{go: east, by: 500, to: flange}]
            """);
        var lift = Of(packet);
        var (x, z) = (lift.Spool.CentreOfMass.X, lift.Spool.CentreOfMass.Z - 1000);
        Assert.InRange(x, 8.5, 40);
        Assert.Equal(Math.Atan2(x, 84.15 - z), lift.Roll, 1e-4);
        Assert.Equal(Math.PI / 2, lift.RollInBasket, 0.05);
        Assert.All(lift.Holds, h => Assert.Equal(84.15, (h.Hitch - h.At).Length, 0.01));
        var said = string.Join(' ', LiftWords.Of(lift, Units.Millimetres));
        Assert.Contains("Choked, it leans", said, StringComparison.Ordinal);
        Assert.Contains("In a basket hitch", said, StringComparison.Ordinal);
        Assert.Contains("choke both slings", said, StringComparison.Ordinal);
    }

    private const string Risers = """
        - {go: down, by: 1500, to: elbow}
        - {go: north, by: 3000, to: elbow}
        - {go: up, by: 1500, to: flange}
        """;

    [Fact]
    public void Slung_under_its_centre_of_mass_a_spool_is_said_to_turn_over()
    {
        var packet = Drawn(Risers, "lift: [{piece: 1-B, at: 400}, {piece: 1-B, at: 2000}]", "{to: flange, at: {up: 3000}}");
        var lift = Of(packet);
        Assert.True(lift.TurnsOver);
        Assert.Contains(LiftWords.Of(lift, Units.Millimetres), s => s.StartsWith("IT TURNS OVER", StringComparison.Ordinal));
        Assert.False(lift.IsProposed);
    }

    [Fact]
    public void Slings_as_given_hang_it_as_statics_have_it()
    {
        var packet = Drawn("- {go: north, by: 4000, to: flange}", "lift: [{piece: 1-A, at: 500, sling: 2500}, {piece: 1-A, at: 3000, sling: 2600}]");
        var lift = Of(packet);
        var (a, b) = (lift.Holds[0], lift.Holds[1]);
        Assert.Equal((2500, 2600), (a.Leg, b.Leg));
        Assert.Equal(a.Pull!.Value * Math.Cos(a.ToLevel!.Value), b.Pull!.Value * Math.Cos(b.ToLevel!.Value), 1e-6);
        Assert.Equal(lift.Mass, a.Lifts + b.Lifts, 1e-6);
        Assert.Contains("off level", string.Join(' ', LiftWords.Of(lift, Units.Millimetres)), StringComparison.Ordinal);
    }

    [Fact]
    public void An_upright_spool_is_lifted_lying()
    {
        var lift = Of(Drawn("- {go: up, by: 4000, to: flange}"));
        Assert.True(lift.IsLying);
        Assert.Equal(2, lift.Holds.Count);
    }

    [Fact]
    public void The_places_are_said_from_the_nearer_end_and_what_the_mass_leaves_out_is_named()
    {
        var packet = Drawn("- {go: north, by: 2000, to: in-line item, what: strainer, ends: butt, face to face: 400}\n- {go: north, by: 2000, to: flange}");
        var lift = Of(packet);
        Assert.Matches("^on 1-[AB], [0-9]+ from its W[0-9]+ end$", LiftWords.Where(packet.Fabrication, lift.Holds[0]));
        var said = LiftWords.LeavesOut(packet.Fabrication, lift.Spool);
        Assert.Contains("water, paint", said, StringComparison.Ordinal);
        Assert.Contains("maker's sheet before lifting", said, StringComparison.Ordinal);
    }

    // A riser, a tee over it and a branch to the side: as drawn no sling stays on the riser, and a leg from its top to the hook would run through the pipe over it.
    private static Packet OverARiser => Given.Packet("""
        drawing: L-6
        units: in
        line: {size: 10, schedule: 40, class: 150, material: A106-B}
        runs:
          - run: main
            start: {to: open}
            legs:
              - {go: up, by: "7'-0 3/4\"", to: elbow}
              - {go: east, by: "3'-7 1/8\"", to: tee, name: T1, branch: south, branch size: 6}
              - {go: east, by: "11'-3 3/4\"", to: flange}
          - run: side
            start: {from: T1}
            legs: [{go: south, by: "3'-2 1/2\"", to: flange, size: 6}]
        """);

    [Fact]
    public void No_leg_of_a_proposal_runs_through_the_spool_and_held_as_drawn_no_sling_is_on_pipe_that_stands()
    {
        foreach (var packet in new[] { OverARiser, Tee(""), Drawn("- {go: north, by: 2000, to: elbow}\n- {go: up, by: 2500, to: elbow}\n- {go: east, by: 2000, to: flange}"), Drawn(Risers) })
        {
            var lift = Of(packet);
            Assert.True(lift.Holds.Count >= 2, packet.Drawing.Number);
            if (lift.IsHeld)
                Assert.All(lift.Holds, h => Assert.InRange(Math.Abs(h.Cut.Pipe.Direction.Z), 0, 0.5));
            var hook = lift.IsHeld
                ? new Point(lift.Centre.X, lift.Centre.Y, lift.Holds.Max(h => h.Hitch.Z) + lift.HookUp!.Value)
                : HookOf(lift.Holds[0].Hitch, lift.Across, lift.Up, lift.Centre, lift.HookUp!.Value);
            foreach (var hold in lift.Holds)
            {
                // By points along the leg, against every pipe as a line with its radius.
                foreach (var t in Enumerable.Range(1, 400).Select(i => i / 400.0))
                {
                    var p = hold.Hitch.Toward(hook, t);
                    Assert.All(lift.Spool.Cuts, c => Assert.True(ToLine(p, c.Pipe.Start, c.Pipe.End) > (c.Pipe.Outside / 2) - 10, $"{packet.Drawing.Number}: {hold.Name} through {c.Piece}"));
                }
            }
        }

        static Point HookOf(Point first, Vector along, Vector up, Point centre, double high) => first + (along * (centre - first).Dot(along)) + (up * high);

        static double ToLine(Point p, Point a, Point b)
        {
            var way = b - a;
            var t = Math.Clamp((p - a).Dot(way) / way.Dot(way), 0, 1);
            return p.To(a + (way * t));
        }
    }

    // By hand: clear of its ends by a diameter of 168.3, a flanged pipe of some 480 leaves 140 between the slings, and one of 250 leaves none.
    [Theory]
    [InlineData(660, "Two slings on straight pipe would stand nearer than 300 mm to each other, or one of them would lift more than four fifths")]
    [InlineData(430, "No straight pipe is long enough for a sling clear of its ends")]
    public void Why_no_slings_are_proposed_is_said_as_it_is(int length, string why)
    {
        var lift = Of(Drawn($"- {{go: north, by: {length}, to: flange}}"));
        Assert.Empty(lift.Holds);
        Assert.Equal([why + ": a rigger says how it is slung."], LiftWords.Of(lift, Units.Millimetres));
    }

    [Fact]
    public void A_spool_that_rolls_on_its_side_is_said_so_first()
    {
        var said = LiftWords.Of(Of(Tee("lift: [{piece: 1-A, at: 400}, {piece: 1-B, at: 1300}]", reach: 2500)), Units.Millimetres).ToList();
        Assert.StartsWith("IT ROLLS ", said[0], StringComparison.Ordinal);
    }

    private static Packet Tee(string lift, string side = "6", string point = "tee", int reach = 1500) => Given.Packet($$"""
        drawing: L-4
        units: mm
        line: {size: 6, schedule: 40, class: 150, material: A106-B}
        {{lift}}
        runs:
          - run: main
            start: {to: flange, at: {up: 1000} }
            legs:
              - {go: north, by: 2000, to: {{point}}, {{(side == "6" ? "" : "size: " + side + ", ")}}name: T, branch: east }
              - {go: north, by: 2000, to: flange}
          - run: side
            start: {from: T}
            legs: [{go: east, by: {{reach}}, to: flange}]
        """);

    // The geometry of a hook over the centre of mass, so high over the highest hitch: each leg's length and its angle follow, and what it pulls is what it lifts over the sine.
    private static void IsDrawnFromOneHook(Lift lift)
    {
        var top = lift.Holds.Max(h => h.Hitch.Z) + lift.HookUp!.Value;
        foreach (var hold in lift.Holds)
        {
            var (up, aside) = (top - hold.Hitch.Z, Math.Sqrt(Math.Pow(hold.Hitch.X - lift.Centre.X, 2) + Math.Pow(hold.Hitch.Y - lift.Centre.Y, 2)));
            Assert.Equal(Math.Atan2(up, aside), hold.ToLevel!.Value, 1e-9);
            Assert.Equal(hold.Lifts * Math.Sqrt((up * up) + (aside * aside)) / up, hold.Pull!.Value, 1e-6);
            if (hold.Leg is { } leg)
                Assert.Equal(Math.Sqrt((up * up) + (aside * aside)), leg, 1e-6);
        }

        // Riggers' practice: of three or four two are counted to carry.
        Assert.Equal(lift.Holds.Max(h => lift.Mass / 2 / Math.Sin(h.ToLevel!.Value)), lift.TwoCarry!.Value, 1e-6);
    }

    [Fact]
    public void Of_four_legs_two_are_reckoned_to_carry_it_all()
    {
        var lift = Of(Tee("lift: [{piece: 1-A, at: 400}, {piece: 1-A, at: 1400}, {piece: 1-B, at: 1300}, {piece: 1-C, at: 700}]"));
        Assert.Equal(4, lift.Holds.Count);
        Assert.All(lift.Holds, h => Assert.Equal(lift.Spool.Mass * 1.1 / 2, h.Lifts, 1e-6));
        IsDrawnFromOneHook(lift);
    }

    [Fact]
    public void Three_legs_at_two_heights_hang_from_one_hook()
    {
        IsDrawnFromOneHook(Of(Tee("lift: [{piece: 1-A, at: 400}, {piece: 1-B, at: 1300}, {piece: 1-C, at: 700}]")));
        // The last pipe lies 1200 over the first.
        var stepped = Of(Drawn("- {go: north, by: 2000, to: elbow}\n- {go: up, by: 1200, to: elbow}\n- {go: east, by: 2000, to: flange}", "lift: [{piece: 1-A, at: 400}, {piece: 1-A, at: 1400}, {piece: 1-C, at: 900}]"));
        Assert.Equal(1200, stepped.Holds[2].Hitch.Z - stepped.Holds[0].Hitch.Z, 1e-6);
        IsDrawnFromOneHook(stepped);
    }

    // A spool with its centre of mass beside the line of its slings, hanging below their bites, leans and does not turn over, however far it leans.
    [Fact]
    public void A_spool_that_leans_far_and_hangs_below_its_bites_does_not_turn_over()
    {
        var lift = Of(Tee("lift: [{piece: 1-A, at: 400}, {piece: 1-B, at: 1300}]"));
        Assert.InRange(lift.Roll, Angles.ToRadians(60), Angles.ToRadians(90));
        Assert.False(lift.TurnsOver);
    }

    // Two slings alike are as long as the longer one that hangs it level, to the next 100.
    [Fact]
    public void Slings_alike_are_no_shorter_than_the_longer_one()
    {
        var lift = Of(Drawn("- {go: north, by: 4000, to: flange}", "lift: [{piece: 1-A, at: 300}, {piece: 1-A, at: 2700}]"));
        var longer = lift.Holds.Max(h => h.Leg!.Value);
        Assert.True(longer > lift.Holds.Min(h => h.Leg!.Value) + 100);
        Assert.Equal(Math.Ceiling(longer / 100) * 100, lift.Alike!.Value.Length, 1e-9);
    }

    // Half of NPS 6 over is 84.2: NPS 2-1/2 (73.0) is less, NPS 4 (114.3) is more.
    [Theory]
    [InlineData("2-1/2", false)]
    [InlineData("4", true)]
    public void No_sling_is_put_on_a_pipe_under_half_the_largest(string side, bool isUsed) =>
        Assert.Equal(isUsed, Of(Tee("", side, "stub-in", 4000)).Holds.Any(h => h.Cut.Pipe.Size == Given.Size(side)));
}
