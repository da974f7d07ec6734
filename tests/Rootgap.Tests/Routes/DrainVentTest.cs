using Rootgap.Drawings;
using Rootgap.Routes;
using Rootgap.Tests.Checks;

namespace Rootgap.Tests.Routes;

/// <summary>Drains and vents in one row against the same steel written out by hand.</summary>
public class DrainVentTest
{
    private static string Row(string row, string more = "") => Desk.Drawing($"{{go: north, by: 1000, {row}}}\n{{go: north, by: 1000, to: flange}}", more);

    private static string ByHand(string leg, string run) => Desk.Drawing($"{{go: north, by: 1000, {leg}}}\n{{go: north, by: 1000, to: flange}}") + "\n" + run;

    private static List<string> Steel(string yaml)
    {
        var f = Desk.Packet(yaml).Fabrication;
        return
        [
            .. f.Route.Components.Select(c => FormattableString.Invariant($"{c.Name} {c.Size} {c.WorkPoint.X:0.00} {c.WorkPoint.Y:0.00} {c.WorkPoint.Z:0.00} {c.Mass?.Kg:0.000}")).Order(StringComparer.Ordinal),
            .. f.Cuts.Select(c => FormattableString.Invariant($"{c.Pipe.Name} {c.Pipe.Size} {c.Pipe.Line.Schedule} {c.Length:0.00} {c.AtStart.Word} {c.AtEnd.Word}")),
            .. f.Route.Joints.Select(j => FormattableString.Invariant($"{j.Kind} {j.Size} {j.Place} {j.At.Z:0.00}")),
        ];
    }

    [Fact]
    public void A_vent_in_one_row_is_the_steel_of_the_same_vent_written_out() => Assert.Equal(
        Steel(ByHand("to: outlet, name: V1, branch: up, size: 3/4, ends: threaded", """
              - run: vent
                size: 3/4
                schedule: 80
                ends: threaded
                flow: along
                start: {from: V1}
                legs:
                  - {go: up, by: makeup, nipple: 100, to: valve, kind: gate, ends: threaded, face to face: 60, mass: 2}
                  - {go: up, by: makeup, to: plug}
            """)),
        Steel(Row("to: vent, size: 3/4, ends: threaded, branch schedule: 80, nipple: 100, face to face: 60, mass: 2")));

    [Fact]
    public void A_drain_with_sockets_ends_in_a_cap_on_a_second_nipple() => Assert.Equal(
        Steel(ByHand("to: half coupling, name: D1, branch: down, size: 1", """
              - run: drain
                size: 1
                schedule: 80
                ends: socket
                flow: along
                start: {from: D1}
                legs:
                  - {go: down, by: makeup, nipple: 75, to: valve, kind: globe, ends: socket, face to face: 90, mass: 4}
                  - {go: down, by: makeup, nipple: 75, to: cap, ends: threaded}
            """)),
        Steel(Row("to: drain, kind: half coupling, size: 1, branch schedule: 80, nipple: 75, valve: globe, face to face: 90, mass: 4")));

    // Outlet threaded NPS 3/4 class 3000 on NPS 6; a plug's thread goes straight into it.
    [Fact]
    public void A_plugged_vent_has_no_valve_and_no_pipe()
    {
        var f = Desk.Packet(Row("to: vent, size: 3/4, ends: threaded, valve: none")).Fabrication;
        Assert.Equal(["outlet threaded", "TH plug"], f.Route.Components.Where(c => c.Size == Given.Size("3/4")).Select(c => c.Name));
        Assert.Equal([JointKind.Branch, JointKind.Threaded], f.Route.Joints.Where(j => j.Size == Given.Size("3/4")).Select(j => j.Kind));
        Assert.Single(f.Spools);
    }

    [Fact]
    public void Rows_of_the_list_are_found_for_all_parts_of_it()
    {
        var packet = Desk.Packet(Row("to: drain, size: 3/4, ends: threaded, branch schedule: 80, nipple: 100, face to face: 60, mass: 2, class: 800", """
            materials:
              - {item: 1, what: pipe, size: 6, schedule: 40, quantity: 2 m}
              - {item: 2, what: flange WN RF, size: 6, class: 150, bore: 40, quantity: 2}
              - {item: 3, what: gasket spiral wound, size: 6, class: 150, quantity: 2}
              - {item: 4, what: stud bolt, size: 3/4, length: 100, quantity: 16}
              - {item: 5, what: outlet threaded, size: 3/4, class: 3000, quantity: 1}
              - {item: 6, what: nipple, size: 3/4, schedule: 80, length: 100, quantity: 1}
              - {item: 7, what: valve gate threaded, size: 3/4, class: 800, quantity: 1}
              - {item: 8, what: plug TH, size: 3/4, quantity: 1}
            """));
        Assert.DoesNotContain(packet.Findings, f => f.Rule.StartsWith("item-", StringComparison.Ordinal) || f.Rule.StartsWith("quantity-", StringComparison.Ordinal));
        Assert.Equal([1, 1, 1, 1], packet.Fabrication.Materials.Where(m => m.Item?.Item > 4).Select(m => m.Needed));
    }

    [Fact]
    public void Two_drains_without_names_are_two_runs_and_a_name_is_kept()
    {
        var drawing = DrawingReader.Read(Desk.Drawing("""
            {go: north, by: 1000, to: drain, size: 3/4, ends: threaded, valve: none}
            {go: north, by: 1000, to: drain, size: 3/4, ends: threaded, valve: none}
            {go: north, by: 1000, to: vent, name: V9, size: 3/4, ends: threaded, valve: none}
            {go: north, by: 1000, to: flange}
            """), "given.yaml").Drawing!;
        Assert.Equal(["main", "drain 1", "drain 2", "vent V9"], drawing.Runs.Select(r => r.Name));
        Assert.Equal("runs[0].legs[1]", drawing.Runs[2].Source.Path.ToString());
    }

    [Theory]
    [InlineData("to: drain, size: 3/4, nipple: 100", "missing-key", "face to face")]
    [InlineData("to: drain, size: 3/4, face to face: 60", "missing-key", "nipple")]
    [InlineData("to: drain, nipple: 100, face to face: 60", "missing-key", "size")]
    [InlineData("to: drain, size: 3/4, nipple: 100, face to face: 60, closed by: plug", "impossible-value", "threaded")]
    [InlineData("to: vent, size: 3/4, valve: none, closed by: nothing", "impossible-value", "outlet")]
    [InlineData("to: vent, size: 3/4, valve: butterfly", "unknown-word", "gate")]
    public void What_is_missing_or_cannot_be_is_told(string row, string rule, string remedy) =>
        Assert.Contains(DrawingReader.Read(Row(row), "given.yaml").Errors, e => e.Rule == rule && (e.Remedy + e.Message).Contains(remedy, StringComparison.Ordinal));

    [Fact]
    public void A_drain_that_points_up_is_found() => Desk.Finds("drain-or-vent-wrong-way", "runs[0].legs[0]", Row("to: drain, branch: up, size: 3/4, ends: threaded, valve: none"), "goes up");

    [Fact]
    public void It_is_never_where_a_spool_is_parted()
    {
        var drawing = DrawingReader.Read(Row("to: vent, size: 3/4, ends: threaded, branch schedule: 80, nipple: 100, face to face: 60, mass: 2"), "given.yaml").Drawing!;
        Assert.True(drawing.Runs[1].IsOfOneRow);
    }
}
