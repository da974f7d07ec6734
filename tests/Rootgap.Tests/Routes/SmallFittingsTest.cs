using Rootgap.Drawings;
using Rootgap.Findings;
using Rootgap.Routes;
using Rootgap.Tests.Checks;

namespace Rootgap.Tests.Routes;

/// <summary>Couplings, half couplings, unions, nipples, swages and plugs: their sums against figures worked out here from the standards' tables.</summary>
public class SmallFittingsTest
{
    private const string Small = "size: 3/4, schedule: 80, class: 150";

    private static string Drawing(string legs, string ends = "socket", string materials = "") =>
        Desk.Drawing(legs, line: $"{Small}, ends: {ends}", start: "to: open, ends: plain", more: materials);

    private static List<double> Cuts(string drawing) => [.. Desk.Packet(drawing).Fabrication.Cuts.Select(c => Math.Round(c.Length, 2))];

    // ASME B16.11 class 3000 NPS 3/4: E = 9.5 mm between the socket bottoms. ASME B31.3 328.5.2C: 1.6 mm off the bottom.
    [Fact]
    public void A_socket_weld_coupling_takes_half_its_laying_length_and_the_bottoming_gap_from_each_pipe() =>
        Assert.Equal([1000 - 4.75 - 1.6, 500 - 4.75 - 1.6], Cuts(Drawing("{go: east, by: 1000, to: coupling}\n{go: east, by: 500, to: open, ends: plain}")));

    // ASME B16.11 class 3000 NPS 3/4: W = 51 mm. ASME B1.20.1 NPS 3/4-14: L1 = 0.339 in., L3 = 3/14 in.
    [Fact]
    public void A_threaded_coupling_takes_half_its_length_less_the_engagement()
    {
        var expected = Math.Round(1000 - 25.5 + ((0.339 + (3 / 14.0)) * 25.4), 1);
        Assert.Equal(expected, Cuts(Drawing("{go: east, by: 1000, to: coupling}\n{go: east, by: 500, to: open, ends: threaded}", "threaded"))[0], 0.1);
    }

    // A union has no table: its length over the ends as the drawing says, less the socket's depth of 12.5 mm (ASME B16.11) at each.
    [Fact]
    public void A_union_takes_its_own_length_from_the_maker() =>
        Assert.Equal([1000 - 30 + 12.5 - 1.6, 500 - 30 + 12.5 - 1.6], Cuts(Drawing("{go: east, by: 1000, to: union, face to face: 60}\n{go: east, by: 500, to: open, ends: plain}")));

    [Fact]
    public void A_union_without_its_length_is_an_error() =>
        Assert.Contains(DrawingReader.Read(Drawing("{go: east, by: 1000, to: union}\n{go: east, by: 500, to: open}"), "given.yaml").Errors, e => e.Rule == "missing-key" && e.Message.Contains("union", StringComparison.Ordinal));

    // Header NPS 6: 168.3 mm. Half coupling class 3000 NPS 3/4: F = 24 mm to the bottom of its socket (ASME B16.11).
    [Fact]
    public void A_half_coupling_stands_on_its_header_and_takes_the_branch_in_its_socket()
    {
        var packet = Desk.Packet("""
            drawing: TEST-1
            revision: 1
            line: {size: 6, schedule: 40, class: 150}
            materials:
              - {item: 4, what: half coupling SW, size: 3/4, class: 3000, quantity: 1}
            runs:
              - run: main
                start: {to: flange}
                legs:
                  - {go: north, by: 1000, to: half coupling, name: D1, branch: down, size: 3/4}
                  - {go: north, by: 1000, to: flange}
              - run: drain
                schedule: 80
                start: {from: D1}
                legs:
                  - {go: down, by: 300, to: open, ends: plain}
            """);
        var f = packet.Fabrication;
        Assert.Equal(300 - 84.15 - 24 - 1.6, f.Cuts[1].Length, 0.01);
        Assert.Equal([JointKind.Branch, JointKind.Socket], f.Route.Joints.Where(j => j.IsWeld && j.Kind != JointKind.Butt).Select(j => j.Kind));
        var part = Assert.Single(f.Route.Components.OfType<Outlet>());
        Assert.Equal((4, "SW half coupling"), (part.Item?.Item, part.Name));
        Assert.DoesNotContain(packet.Findings, x => x.Rule is "item-not-used" or "item-not-listed" && x.Message.Contains("coupling", StringComparison.Ordinal));
    }

    // Threaded elbow NPS 3/4 class 3000: A = 38 mm (ASME B16.11); engagement 14.05 mm at each end (ASME B1.20.1): 100 - 2 x 14.05 + 2 x 38 = 147.9 between the work points.
    [Fact]
    public void A_nipple_sets_the_distance_between_its_fittings_and_is_bought_not_cut()
    {
        var packet = Desk.Packet(Drawing("{go: east, by: 500, to: elbow}\n{go: north, by: makeup, nipple: 100, to: elbow}\n{go: up, by: 500, to: open, ends: threaded}", "threaded", """
            materials:
              - {item: 1, what: pipe, size: 3/4, schedule: 80, quantity: 2 m}
              - {item: 2, what: nipple, size: 3/4, schedule: 80, length: 75, quantity: 1}
              - {item: 3, what: nipple, size: 3/4, schedule: 80, length: 100, quantity: 1}
              - {item: 4, what: elbow 90 TH, size: 3/4, class: 3000, quantity: 2}
            """));
        var f = packet.Fabrication;
        Assert.Equal(147.9, f.Route.Runs[0].Distances[1], 0.1);
        var nipple = Assert.Single(f.Cuts, c => !c.IsCut);
        Assert.Equal((100, 3), (Math.Round(nipple.Length, 6), nipple.Pipe.Item?.Item));
        Assert.Equal(2, Rootgap.Cutting.Pieces.Of(f, "TEST-1").Count());
        var row = f.Materials.Single(m => m.Item?.Item == 3);
        Assert.Equal((false, 1.0, 1.0), (row.IsLength, row.Needed, row.Listed));
        Assert.Contains(packet.Findings, x => x.Rule == "item-not-used" && x.At.ToString() == "materials[1]");
    }

    // MSS SP-95 (from memory): a swage NPS 2 is 165 mm long, and has the length of its large end. Centre to end of the NPS 2 long elbow 76 mm, of NPS 1 38 mm (ASME B16.9).
    [Fact]
    public void A_swage_with_bevelled_ends_lies_in_the_line_as_a_reducer_does()
    {
        var drawing = Desk.Drawing("{go: east, by: 600, to: swage, size: 1}\n{go: east, by: 400, to: open}", line: "size: 2, schedule: 80", start: "to: open");
        Assert.Equal([600 - 165 - 3.2, 400 - 3.2], Cuts(drawing));
        Assert.Equal("swage concentric", Desk.Packet(drawing).Fabrication.Route.Components.Single().Name);
    }

    // Its plain end goes into the socket of the coupling: 9.5 / 2 + 1.6 mm beyond the coupling's middle.
    [Fact]
    public void A_swage_with_a_plain_end_goes_into_a_socket_and_is_welded_there()
    {
        var route = Desk.Packet(Desk.Drawing("{go: east, by: 600, to: swage, size: 3/4, large end: bevel, small end: plain}\n{go: east, by: makeup, to: coupling, ends: socket}\n{go: east, by: 400, to: open, ends: plain}", line: "size: 2, schedule: 80", start: "to: open")).Fabrication.Route;
        Assert.Equal((9.5 / 2) + 1.6, route.Runs[0].Distances[1], 0.001);
        Assert.Equal([JointKind.Butt, JointKind.Socket, JointKind.Socket], route.Joints.Select(j => j.Kind));
    }

    // ASME B16.11 (from memory) NPS 3/4: thread 16 mm, head 10 mm. Threaded cap's place is a coupling's: half of 51 mm, engagement 14.05 mm.
    [Fact]
    public void A_plug_is_screwed_straight_into_the_fitting_before_it()
    {
        var packet = Desk.Packet(Drawing("{go: east, by: 500, to: coupling}\n{go: east, by: makeup, to: plug}", "threaded"));
        var route = packet.Fabrication.Route;
        Assert.Equal(25.5 - 14.05 + 26, route.Runs[0].Distances[1], 0.05);
        Assert.Equal([JointKind.Threaded, JointKind.Threaded], route.Joints.Select(j => j.Kind));
        Assert.Single(packet.Fabrication.Cuts);
        Assert.InRange(route.Components.OfType<Plug>().Single().Mass!.Kg, 0.05, 0.15);
    }

    [Fact]
    public void The_same_line_entered_from_the_other_end_has_the_same_pieces_and_masses()
    {
        var there = Desk.Packet(Drawing("{go: east, by: 300, to: coupling}\n{go: east, by: 250, to: union, face to face: 60, mass: 0.6}\n{go: east, by: 400, to: open, ends: plain}")).Fabrication;
        var back = Desk.Packet(Drawing("{go: west, by: 400, to: union, face to face: 60, mass: 0.6}\n{go: west, by: 250, to: coupling}\n{go: west, by: 300, to: open, ends: plain}")).Fabrication;
        Assert.Equal(there.Cuts.Select(c => Math.Round(c.Length, 6)), back.Cuts.Select(c => Math.Round(c.Length, 6)).Reverse());
        Assert.Equal(there.Spools.Sum(s => s.Mass), back.Spools.Sum(s => s.Mass), 0.0001);
    }

    [Fact]
    public void All_of_them_are_clean_and_on_the_list()
    {
        var findings = Desk.Packet("""
            drawing: TEST-1
            revision: 1
            line: {size: 2, schedule: 80, material: A106-B, class: 150, ends: socket}
            materials:
              - {item: 1, what: pipe, size: 2, schedule: 80, material: A106-B, quantity: 2 m}
              - {item: 2, what: swage concentric, size: 2 x 3/4, schedule: 80, material: A234-WPB, quantity: 1}
              - {item: 3, what: coupling SW, size: 3/4, class: 3000, material: A105, quantity: 2}
              - {item: 4, what: union SW, size: 3/4, class: 3000, material: A105, quantity: 1}
              - {item: 5, what: pipe, size: 3/4, schedule: 80, material: A106-B, quantity: 2 m}
            runs:
              - run: main
                start: {to: open, ends: plain, at: {east: 0, north: 0, up: 0}}
                legs:
                  - {go: east, by: 600, to: swage, size: 3/4, large end: bevel, small end: plain}
                  - {go: east, by: makeup, to: coupling}
                  - {go: east, by: 500, to: union, face to face: 60, mass: 0.6}
                  - {go: east, by: 500, to: coupling}
                  - {go: east, by: 300, to: open, ends: plain}
            """).Findings.Where(f => f.Severity > Severity.Note).ToList();
        Assert.True(findings.Count == 0, string.Join("\n", findings.Select(f => $"{f.Rule} {f.At}: {f.Message}")));
    }
}
