using Rootgap.Drawings;
using Rootgap.FitUp;
using Rootgap.Measure;
using Rootgap.Routes;
using Rootgap.Tests.Checks;

namespace Rootgap.Tests.Routes;

/// <summary>180 degree returns, written as two elbows with <c>by: return</c> between them.</summary>
public class ReturnBendTest
{
    private static string Hairpin(string across = "up", string back = "south", string first = "elbow", string second = "elbow", string materials = "") => Desk.Drawing(
        $"{{go: north, by: 2600, to: {first}}}\n{{go: {across}, by: return, to: {second}}}\n{{go: {back}, by: 1800, to: flange}}",
        "shop: {root gap: 3}\n" + materials, "size: 3, schedule: 40, class: 150, material: A106-B");

    private static ReturnBend Bend(Fabricating.Fabrication f) => Assert.Single(f.Route.Components.OfType<ReturnBend>());

    // ASME B16.9 table 6.1-3: a 3 in. long-radius return has O = 229 (centre to centre) and K = 159 (back to face); pipe of 3 in. is 88.9 outside.
    [Fact]
    public void It_is_as_wide_and_as_deep_as_its_standard_says()
    {
        var f = Desk.Packet(Hairpin()).Fabrication;
        var bend = Bend(f);
        Assert.Equal(229, bend.Width, 1e-9);
        Assert.Equal(bend.In.At.Y, bend.Out.At.Y, 1e-9);
        Assert.Equal((0, 1), (bend.Out.At.X - bend.In.At.X, Math.Sign(bend.Out.At.Z - bend.In.At.Z)));
        var back = bend.Arc!.On(Math.PI / 2).At.Y + (88.9 / 2);
        Assert.Equal(159, back - bend.In.At.Y, 0.5);
        Assert.Equal(new Point(0, 2600 - 114.5 + (2 / Math.PI * 114.5), 114.5).Z, bend.Centre.Z, 1e-9);
        // It weighs what two elbows of 90 degrees weigh (common practice).
        var elbows = Desk.Packet(Desk.Drawing("{go: north, by: 2600, to: elbow}\n{go: up, by: 600, to: flange}", "shop: {root gap: 3}", "size: 3, schedule: 40, class: 150, material: A106-B")).Fabrication;
        Assert.Equal(2 * elbows.Route.Components.OfType<Elbow>().Single().Mass!.Kg, bend.Mass!.Kg, 0.05);
    }

    [Fact]
    public void The_pipes_end_half_its_width_before_its_corners_and_it_has_two_welds()
    {
        var f = Desk.Packet(Hairpin()).Fabrication;
        // Weld neck of 3 in. class 150: 2.75 in. through the hub, 70 in the mm column (ASME B16.5).
        Assert.Equal([2600 - 70 - 3 - 114.5 - 3, 1800 - 114.5 - 3 - 70 - 3], f.Cuts.Select(c => c.Length), (a, b) => Math.Abs(a - b) < 0.6);
        Assert.Equal(2, f.Route.Joints.Count(j => j.Between.Contains(Bend(f).Id)));
        Assert.All(f.Cuts, c => Assert.Contains(c.Sum, t => t.What.StartsWith("half the return", StringComparison.Ordinal) && Math.Abs(t.Mm + 114.5) < 1e-9));
        Assert.Single(f.Spools);
    }

    [Fact]
    public void Drawings_in_inches_take_the_inch_column()
    {
        var f = Desk.Packet("units: in\n" + Desk.Drawing("{go: north, by: 8'-6\", to: elbow}\n{go: up, by: return, to: elbow}\n{go: south, by: 6', to: flange}", "shop: {root gap: 1/8}", "size: 3, schedule: 40, class: 150, material: A106-B")).Fabrication;
        Assert.Equal(9 * 25.4, Bend(f).Width, 1e-9);
    }

    [Fact]
    public void The_list_has_it_once_and_short_for_long_is_told()
    {
        string List(string what) => Hairpin(materials: $"materials: [{{item: 1, what: pipe, size: 3, schedule: 40, material: A106-B, quantity: 6 m}}, {{item: 2, what: {what}, size: 3, schedule: 40, material: A234-WPB, quantity: 1}}]");
        var f = Desk.Packet(List("return LR")).Fabrication;
        Assert.Equal(2, Bend(f).Item!.Item);
        var row = f.Materials.Single(m => m.Item?.Item == 2);
        Assert.Equal((1.0, 1.0), (row.Listed, row.Needed));
        Assert.Equal(2, Bend(Desk.Packet(List("return bend 180 LR")).Fabrication).Item!.Item);
        Assert.Equal(2, Bend(Desk.Packet(List("ELBOW 180 DEG LR BW")).Fabrication).Item!.Item);
        Assert.NotEqual(2, Bend(Desk.Packet(List("elbow 90 LR")).Fabrication).Item?.Item);
        Desk.Finds("item-is-another-part", "materials[0]", Hairpin(first: "elbow, item: 2", materials: "materials: [{item: 2, what: return SR, size: 3, schedule: 40, quantity: 1}]"));
    }

    [Theory]
    [InlineData("elbow", "elbow, radius: short", "impossible-value")]
    [InlineData("bend, bend radius: 300", "elbow", "impossible-value")]
    [InlineData("elbow, radius: 3d", "elbow, radius: 3d", "impossible-value")]
    [InlineData("elbow", "flange", "impossible-value")]
    [InlineData("elbow", "elbow, end: field", "key-does-not-fit")]
    [InlineData("elbow", "elbow, nipple: 100", "key-does-not-fit")]
    public void What_cannot_be_a_return_is_told(string first, string second, string rule) =>
        Assert.Contains(DrawingReader.Read(Hairpin(first: first, second: second), "given.yaml").Errors, e => e.Rule == rule);

    [Fact]
    public void A_run_does_not_begin_with_one() =>
        Assert.Contains(DrawingReader.Read(Desk.Drawing("{go: up, by: return, to: elbow}\n{go: south, by: 1800, to: flange}"), "given.yaml").Errors, e => e.Rule == "impossible-value" && e.Message.Contains("return", StringComparison.Ordinal));

    [Fact]
    public void It_has_a_weld_and_a_root_gap_less_than_two_elbows()
    {
        var two = Desk.Packet(Hairpin().Replace("by: return", "by: makeup", StringComparison.Ordinal)).Fabrication;
        var one = Desk.Packet(Hairpin()).Fabrication;
        Assert.Equal(two.Route.Joints.Count - 1, one.Route.Joints.Count);
        // ASME B16.9: a 3 in. elbow is 114 from middle to end.
        Assert.Equal(2 * 114 + 3, two.Route.Runs[0].Points[^1].Z, 1e-9);
        Assert.Equal(229, one.Route.Runs[0].Points[^1].Z, 1e-9);
    }

    // Pythagoras: from a mark on the pipe to the far end's lips, which lie over the pipe again.
    [Fact]
    public void Its_other_end_is_taped_from_the_pipe_across_its_width()
    {
        var f = Desk.Packet(Hairpin()).Fabrication;
        var joints = new FitJoints(f);
        var weld = joints.Welds.First(w => w.Between.Contains(Bend(f).Id) && w.Between.Contains(f.Route.Pipes[0].Id));
        var joint = joints.Of(weld);
        Assert.Equal(Math.PI, joint.Turn.Turn, 1e-9);
        Assert.Equal(1, joint.Turn.Side.Z, 1e-9);
        var standing = new StandingJoint(joint, SetUps.Of(joints, joint, Attitude.Level));
        var throat = StandingJoint.Clock.Single(at => standing.Q(at).Dot(standing.Along) > 0.99);
        var tape = Targets.Of(standing, joints.Limits(weld, joint)).Single(t => t.Reading == new Reading.Tape(throat));
        // The lip of the throat is the one toward the held pipe: 229 - 44.45 off its middle, the mark 44.45; 300 and the gap of 3 along.
        var (up, along) = (229 - 88.9, 300 + 3.0);
        Assert.Equal(Math.Sqrt((up * up) + (along * along)), tape.Value, 0.01);
    }
}
