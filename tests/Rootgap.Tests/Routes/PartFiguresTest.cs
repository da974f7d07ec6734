using Rootgap.Fabricating;
using Rootgap.Measure;
using Rootgap.Routes;
using Rootgap.Tests.Checks;

namespace Rootgap.Tests.Routes;

/// <summary>Where the parts of a drawing end, how wide they are there and where their metal lies, worked by hand from the standards' dimensions.</summary>
public class PartFiguresTest
{
    private const string Six = "size: 6, schedule: 40, class: 150";

    private static Packets.Packet Of(string legs, string line = Six, string more = "", string start = "to: open") => Desk.Packet(Desk.Drawing(legs, more, line, start));

    private static T Only<T>(string legs, string line = Six, string start = "to: open") => Of(legs, line, start: start).Fabrication!.Route.Components.OfType<T>().Single();

    private static double Widest(IReadOnlyList<Solid> bodies, Point at) => bodies.SelectMany(b => b.Discs).Where(d => d.Middle.To(at) < 0.01).Select(d => 2 * d.Radius).DefaultIfEmpty(0).Max();

    // What is butt welded is as wide as its pipe where it is welded, 168.3 (ASME B36.10M), and reaches just so far: the straight ends of a 45 degree elbow and the end of a hub among it.
    [Theory]
    [InlineData("{go: north, by: 1000, to: elbow}\n{go: {north: 1000, east: 1000}, to: open}")]
    [InlineData("{go: north, by: 1000, to: elbow}\n{go: east, by: 1000, to: open}")]
    [InlineData("{go: north, by: 1000, to: flange}")]
    [InlineData("{go: north, by: 1000, to: cap}")]
    [InlineData("{go: north, by: 1000, to: tee, branch: up}\n{go: north, by: 1000, to: open}")]
    public void A_part_is_as_wide_as_its_pipe_where_it_is_welded(string legs)
    {
        foreach (var part in Of(legs).Fabrication!.Route.Components.Where(c => c is Bent or Flange or Cap or Tee))
            Assert.All(part.Ports.Where(p => p.Name != PortName.Face), p => Assert.Equal(168.3, Widest(part.Bodies, p.At), 0.01));
    }

    // ASME B16.9 reducer NPS 6 x 4: 140 long; B36.10M: 168.3 x 7.11 and 114.3 x 6.02. The metal slice by slice, whichever way the line goes through it.
    [Theory]
    [InlineData("6", "4")]
    [InlineData("4", "6")]
    public void A_reducers_centre_lies_toward_its_large_end(string from, string to)
    {
        var reducer = Only<Reducer>($"{{go: north, by: 1000, to: reducer, size: {to}}}\n{{go: north, by: 1000, to: open}}", $"size: {from}, schedule: 40, class: 150");
        double metal = 0, moment = 0;
        const int N = 2000;
        for (var i = 0; i < N; i++)
        {
            var share = (i + 0.5) / N;
            var (outside, inside) = (168.3 + ((114.3 - 168.3) * share), 154.08 + ((102.26 - 154.08) * share));
            metal += (outside * outside) - (inside * inside);
            moment += ((outside * outside) - (inside * inside)) * share * 140;
        }

        var large = from == "6" ? reducer.In : reducer.Out;
        Assert.Equal(moment / metal, large.At.To(reducer.Centre), 0.05);
        Assert.True(moment / metal < 66);
    }

    // ASME B16.9 reducing tee NPS 6 x 3: C 143, M 124; B36.10M: 168.3 x 7.11 and 88.9 x 5.49. The branch's tube weighs by its own wall.
    [Fact]
    public void A_reducing_tees_branch_weighs_by_its_own_wall()
    {
        var tee = Only<Tee>("{go: north, by: 1000, to: tee, branch: up, branch size: 3}\n{go: north, by: 1000, to: open}");
        var length = 124 - (168.3 / 2);
        var (run, branch) = (286 * (168.3 - 7.11) * 7.11, length * (88.9 - 5.49) * 5.49);
        Assert.Equal(branch * (124 - (length / 2)) / (run + branch), tee.Centre.Z - tee.WorkPoint.Z, 0.02);
    }

    // ASME B16.5 lap joint NPS 6 class 150: 280 outside, 25.4 thick, 40 through, hub 192, 8 holes of 22.2 (7/8 inch), over a pipe of 168.3 x 7.11; stub end (B16.9) 203 long, lap 216 across and
    // as thick as the pipe's wall. The loose flange lies behind the lap; no raised face is in its thickness.
    [Fact]
    public void A_lap_joint_flange_weighs_and_lies_behind_its_lap()
    {
        var flange = Only<Flange>("{go: north, by: 1000, to: flange}", Six + ", flange: LJ, material: A106-B");
        static double Disc(double d) => Math.PI / 4 * d * d;
        (double Volume, double At)[] metal =
        [
            ((Disc(280) - (8 * Disc(22.2)) - Disc(168.3)) * 25.4, 7.11 + (25.4 / 2)),
            ((Disc(192) - Disc(168.3)) * (40 - 25.4), 7.11 + 25.4 + ((40 - 25.4) / 2)),
            ((Disc(168.3) - Disc(168.3 - (2 * 7.11))) * 203, 203 / 2.0),
            ((Disc(216) - Disc(168.3)) * 7.11, 7.11 / 2),
        ];
        Assert.Equal(metal.Sum(m => m.Volume) * 7.85e-6, flange.Mass!.Kg, 0.01 * flange.Mass.Kg);
        Assert.Equal(metal.Sum(m => m.Volume * m.At) / metal.Sum(m => m.Volume), flange.Contact.At.To(flange.Centre), 0.5);
    }

    // ASME B16.11 half coupling NPS 3/4 class 3000: 24 to the bottom of its socket, which is 12.5 deep: its own end stands 36.5 from the header's outside, 168.3 / 2 from its middle.
    [Fact]
    public void A_half_coupling_ends_a_sockets_depth_beyond_the_pipe_in_it()
    {
        var half = Only<Outlet>("{go: north, by: 1000, to: half coupling, branch: up, size: 3/4}\n{go: north, by: 1000, to: open}");
        Assert.Equal((168.3 / 2) + 24 + 12.5, half.WorkPoint.To(half.Branch.At), 0.01);
    }

    // A gap is measured square to the header: along an outlet that leans by 45 degrees it is root 2 as long, and so is the header's half.
    [Fact]
    public void The_gap_under_an_outlet_that_leans_is_longer_along_it()
    {
        var outlet = Of("{go: north, by: 1500, to: outlet, size: 3, height: 70, branch: {north: 1, up: 1}}\n{go: north, by: 1500, to: flange}", more: "shop: {outlet gap: 3}").Fabrication!.Route.Components.OfType<Outlet>().Single();
        Assert.Equal(((168.3 / 2) + 3) * Math.Sqrt(2), outlet.WorkPoint.To(outlet.Foot.At), 0.01);
    }

    // The plate's middle lies on the header's outside: half of 168.3 and half of 10.
    [Fact]
    public void A_pads_centre_lies_in_the_middle_of_its_plate()
    {
        var pad = Assert.Single(Of("{go: north, by: 1000, to: stub-in, name: S, branch: up, size: 3, pad width: 40, pad thickness: 10}\n{go: north, by: 1000, to: open}").Fabrication!.Route.Pads);
        Assert.Equal((168.3 / 2) + 5, pad.Centre.Z - pad.At.Z, 0.01);
    }

    // The strip's pieces, end to end, are the bend's middle line: 2 n R tan(90 / 2n) and its two straight ends.
    [Theory]
    [InlineData(2)]
    [InlineData(3)]
    public void The_pieces_of_a_mitred_bend_add_up_to_its_middle_line(int cuts)
    {
        var bend = Only<MadeBend>($"{{go: north, by: 2000, to: mitred bend, cuts: {cuts}, bend radius: 381, straight: 50}}\n{{go: east, by: 1500, to: open}}");
        var sum = (2 * bend.Piece(isEnd: true).Middle) + ((cuts - 1) * bend.Piece(isEnd: false).Middle);
        Assert.Equal((2 * cuts * 381 * Math.Tan(Math.PI / 4 / cuts)) + 100, sum, 1e-6);
    }

    // EN 558 DN 600: 154 between flanges (series 20), 267 with its own (series 13), 1.7 times as long; from memory. One of 160 stays between two flanges.
    [Theory]
    [InlineData(267, false)]
    [InlineData(160, true)]
    public void A_large_butterfly_valve_of_its_series_has_flanges_of_its_own(int length, bool isWafer) =>
        Assert.Equal(isWafer, Only<Valve>($"{{go: north, by: 3000, to: valve, kind: butterfly, ends: flanged, face to face: {length}}}\n{{go: north, by: 3000, to: open}}", "size: 24, schedule: STD, class: 150").IsWafer);

    // ASME B16.5: 4 inches for NPS 6 class 150. In inches studs come in quarters: a spacer of 1.1 and its own gasket of an eighth make 5.225, so 5 1/4.
    [Fact]
    public void Studs_of_a_drawing_in_inches_come_in_quarters() =>
        Assert.Equal(5.25, Given.Run("in", Six + ", gasket: 1/8", "root gap: 1/8", "open", "{go: north, by: 60, to: in-line item, what: spacer, ends: wafer, face to face: 1.1}", "{go: north, by: 60, to: open}").Fabrication.Bolting.Max(b => b.Length) / 25.4, 1e-6);

    // A valve that is flanged is ordered by its flanges' class, one that is welded in by its own: the list is held against the drawing only for the first.
    [Theory]
    [InlineData("flanged", "class 300 listed, 150 drawn")]
    [InlineData("butt", "")]
    public void A_flanged_valve_has_the_class_of_its_flanges(string ends, string says) =>
        Assert.Equal(says, string.Join("; ", Of($"{{go: north, by: 1500, to: valve, kind: gate, ends: {ends}, item: 1}}\n{{go: north, by: 1500, to: open}}",
            more: "materials: [{item: 1, what: gate valve, size: 6, class: 300, quantity: 1}]").Fabrication!.Materials.Single(m => m.Item is not null).Disagreements));

    // ASME B36.10M and B36.19M: schedules of one figure are schedules as well: NPS 6 has 2.77 in 5S and 2.77 in 5.
    [Theory]
    [InlineData("5", "schedule 5 listed, 40 drawn")]
    [InlineData("40", "")]
    public void A_schedule_of_one_figure_is_held_against_the_drawing(string listed, string says) =>
        Assert.Equal(says, string.Join("; ", Of("{go: north, by: 1500, to: open, item: 1}", more: $"materials: [{{item: 1, what: pipe, size: 6, schedule: {listed}, quantity: 6 m}}]").Fabrication!.Materials.Single(m => m.Item is not null).Disagreements));

    // A branch on a branch: the strip is that of its own header, NPS 4, whose axis it leaves at half of 114.3.
    [Fact]
    public void A_branch_set_on_a_branch_has_its_strip()
    {
        var strips = Templates.Of(Desk.Packet(Desk.Drawing("{go: north, by: 1500, to: stub-in, name: A, size: 4, branch: up}\n{go: north, by: 1500, to: open}", start: "to: open")
            + "\n  - {run: riser, size: 4, start: {from: A}, legs: [{go: up, by: 900, to: stub-in, name: B, size: 2, branch: east}, {go: up, by: 900, to: open}]}"
            + "\n  - {run: side, size: 2, start: {from: B}, legs: [{go: east, by: 600, to: open}]}").Fabrication!).ToList();
        Assert.Equal(["set on NPS 6", "set on NPS 4"], strips.Select(s => s.Title[s.Title.IndexOf("set on", StringComparison.Ordinal)..]), StringComparer.Ordinal);
    }
}
