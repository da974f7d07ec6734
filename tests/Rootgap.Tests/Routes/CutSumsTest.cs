using System.Globalization;
using Rootgap.Standards;
using Rootgap.Drawings;
using Rootgap.Fabricating;
using Rootgap.Findings;
using Rootgap.Measure;
using Rootgap.Packets;
using Rootgap.Routes;

namespace Rootgap.Tests.Routes;

/// <summary>
/// The sum of a cut for each work point, reckoned beside it with a pencil. Dimensions are those of the standards named, NPS 6 unless said otherwise:
/// B16.9 A 229, B 95, A short 152, C and M 143, H (6 x 4) 140, E 89, stub end F 203; B16.5 class 150 WN 87 + 2, class 600 117 + 7; B16.10 gate 150 267;
/// B36.10M outside 168.3 (NPS 1: 33.4, 3: 88.9, 4: 114.3); B16.11 class 3000 NPS 1: 22.5 to the socket's bottom, cap end wall 9.6; MSS SP-97 NPS 3: 44.
/// </summary>
public class CutSumsTest
{
    private const string Line = "size: 6, schedule: 40, class: 150";

    private static double[] Cuts(string line, string shop, string start, params string[] legs) => Given.Lengths(Given.Run("mm", line, shop, start, legs));

    private static void Same(double[] expected, double[] found) => Assert.True(
        expected.Length == found.Length && expected.Zip(found).All(p => Math.Abs(p.First - p.Second) < 1e-6),
        string.Create(CultureInfo.InvariantCulture, $"{string.Join(" ", expected)} expected, {string.Join(" ", found.Select(f => Math.Round(f, 3)))} found"));

    [Fact]
    public void Welding_neck_elbow_elbow_cap() => Same(
        [1000 - 89 - 229 - 6, 2000 - 229 - 95 - 6, 1500 - 95 - 89 - 6],
        Cuts(Line, "root gap: 3", "flange", "{go: north, by: 1000, to: elbow}", "{go: east, by: 2000, to: elbow}", "{go: {east: 1, north: 1}, by: 1500, to: cap}"));

    [Fact]
    public void A_cap_over_the_limiting_wall_is_longer() => Same(
        [1000 - 102 - 3], // E1 102: schedule 120 is 14.27 mm, the limiting wall 10.92
        Cuts("size: 6, schedule: 120", "root gap: 3", "open", "{go: east, by: 1000, to: cap}"));

    [Fact]
    public void A_reducer_is_inside_its_leg_and_takes_nothing_from_the_next() => Same(
        [2000 - 140 - 3, 1000 - 3],
        Cuts(Line, "root gap: 3", "open", "{go: east, by: 2000, to: reducer, size: 4}", "{go: east, by: 1000, to: open}"));

    [Fact]
    public void A_weld_between_pipes_takes_half_a_gap_from_each() => Same(
        [1000 - 1.5, 1000 - 1.5],
        Cuts(Line, "root gap: 3", "open", "{go: east, by: 1000, to: weld}", "{go: east, by: 1000, to: open}"));

    [Fact]
    public void A_flanged_valve_brings_its_gaskets_and_flanges() => Same(
        [1000 - 133.5 - 1.5 - 89 - 3, 1000 - 133.5 - 1.5 - 89 - 3],
        Cuts(Line + ", gasket: 1.5", "root gap: 3", "open", "{go: east, by: 1000, to: valve, kind: gate}", "{go: east, by: 1000, to: open}"));

    [Fact]
    public void A_valves_own_face_to_face_replaces_the_table() => Same(
        [1000 - 150 - 1.5 - 89 - 3, 1000 - 150 - 1.5 - 89 - 3],
        Cuts(Line + ", gasket: 1.5", "root gap: 3", "open", "{go: east, by: 1000, to: valve, kind: gate, face to face: 300}", "{go: east, by: 1000, to: open}"));

    [Fact]
    public void A_joint_takes_half_its_gasket_and_a_flange_each_way() => Same(
        [1000 - 2 - 89 - 3, 1000 - 2 - 89 - 3],
        Cuts(Line + ", gasket: 4", "root gap: 3", "open", "{go: east, by: 1000, to: joint}", "{go: east, by: 1000, to: open}"));

    [Fact]
    public void In_a_slip_on_flange_the_pipe_stops_its_wall_short_and_at_most_6()
    {
        // Schedule 40 is 7.11: 6 at most, plus 1.6. Schedule 10 is 3.40. No root gap: it is no butt weld.
        Same([1000 - 6 - 1.6], Cuts(Line + ", flange: SO", "root gap: 3", "open", "{go: east, by: 1000, to: flange}"));
        Same([1000 - 3.4 - 1.6], Cuts("size: 6, schedule: 10, class: 150, flange: SO", "root gap: 3", "open", "{go: east, by: 1000, to: flange}"));
    }

    [Fact]
    public void A_lap_joint_flange_takes_off_its_stub_end() =>
        Same([1000 - 203 - 3], Cuts(Line + ", flange: LJ", "root gap: 3", "open", "{go: east, by: 1000, to: flange}"));

    [Fact]
    public void A_ring_joint_flange_ends_at_its_extreme_face_and_a_flat_one_has_no_raised_face()
    {
        // Class 600: Y 117 less no face; groove R 45 is 7.92 deep.
        Same([1000 - 117 - 7.92 - 3], Cuts("size: 6, schedule: 40, class: 600, facing: RTJ", "root gap: 3", "open", "{go: east, by: 1000, to: flange}"));
        Same([1000 - 117 - 3], Cuts("size: 6, schedule: 40, class: 600, facing: FF", "root gap: 3", "open", "{go: east, by: 1000, to: flange}"));
    }

    [Fact]
    public void A_socket_takes_the_pipe_to_its_bottom_less_the_gap() => Same(
        [500 - 22.5 - 1.6, 600 - 22.5 - 1.6 - 9.6 - 1.6],
        Cuts("size: 1, schedule: 80, ends: socket", "root gap: 3", "open", "{go: east, by: 500, to: elbow}", "{go: north, by: 600, to: cap}"));

    [Fact]
    public void A_branch_of_an_outlet_begins_at_half_the_header_and_the_outlets_height_and_the_header_is_one_piece()
    {
        var packet = Given.Packet("""
            drawing: T
            line: {size: 6, schedule: 40}
            shop: {root gap: 3}
            runs:
              - run: header
                start: {to: open}
                legs:
                  - {go: east, by: 1000, to: outlet, name: O, branch: up, size: 3}
                  - {go: east, by: 700, to: point}
                  - {go: east, by: 800, to: stub-in, name: S, branch: up, size: 4}
                  - {go: east, by: 500, to: open}
              - {run: vent, start: {from: O}, legs: [{go: up, by: 1000, to: open}]}
              - {run: drain, start: {from: S}, legs: [{go: up, by: 1000, to: open}]}
            """);
        // The branch gap is the root gap unless the shop says otherwise; an outlet has none.
        Same([1000 + 700 + 800 + 500, 1000 - 84.15 - 44 - 3, 1000 - 84.15 - 3], Given.Lengths(packet));
        Assert.Contains(packet.Fabrication.Cuts[2].Sum, t => t.What == "branch gap" && t.Mm == -3);
        var header = packet.Fabrication.Cuts[0];
        Assert.Equal(["leg 1, work point to outlet", "leg 2, work point to point", "leg 3, work point to stub-in", "leg 4, work point to work point"], header.Sum.Take(4).Select(t => t.What), StringComparer.Ordinal);
        Assert.Equal((0, 3), (header.Pipe.FirstLeg, header.Pipe.LastLeg));
    }

    [Fact]
    public void Made_up_fittings_have_one_gap_and_no_pipe_or_none_where_the_shop_ignores_it()
    {
        string[] legs = ["{go: north, by: 1000, to: elbow}", "{go: east, by: makeup, to: elbow}", "{go: north, by: makeup, to: flange}"];
        var counted = Given.Run("mm", Line, "root gap: 3", "open", legs);
        Assert.Equal([1000, 229 + 229 + 3, 229 + 89 + 3], counted.Fabrication.Route.Runs[0].Distances, new Near());
        Assert.Single(counted.Fabrication.Cuts);
        Assert.Equal(3, counted.Fabrication.Route.Joints.Count(j => j.Kind == JointKind.Butt));
        var ignored = Given.Run("mm", Line, "root gap: 3, makeup gap: ignored", "open", legs);
        Assert.Equal([1000, 229 + 229, 229 + 89], ignored.Fabrication.Route.Runs[0].Distances, new Near());
    }

    private sealed class Near : IEqualityComparer<double>
    {
        public bool Equals(double x, double y) => Math.Abs(x - y) < 1e-6;

        public int GetHashCode(double obj) => 0;
    }

    [Fact]
    public void The_final_fit_extra_goes_on_the_pipe_whose_leg_carries_the_mark() => Same(
        [1000 - 229 - 3, 2000 - 229 - 229 - 6 + 75, 1000 - 229 - 3],
        Cuts(Line, "root gap: 3, final fit extra: 75", "open", "{go: north, by: 1000, to: elbow}", "{go: east, by: 2000, to: elbow, begin: final-fit}", "{go: north, by: 1000, to: open}"));

    [Theory]
    [InlineData(", end: final-fit", "", 75, 0)]
    [InlineData("", ", begin: final-fit", 0, 75)]
    [InlineData(", end: final-fit", ", begin: final-fit", 75, 0)]
    public void A_final_fit_weld_between_pipes_leaves_one_of_them_long(string end, string begin, double first, double second) => Same(
        [1000 - 1.5 + first, 1000 - 1.5 + second],
        Cuts(Line, "root gap: 3, final fit extra: 75", "open", $"{{go: east, by: 1000, to: weld{end}}}", $"{{go: east, by: 1000, to: open{begin}}}"));

    [Fact]
    public void Shrinkage_is_added_whole_at_a_fitting_and_half_at_another_pipe() => Same(
        [1000 - 89 - 1.5 - 3 + 1.6 + 0.8, 1000 - 229 - 1.5 - 3 + 0.8 + 1.6, 1000 - 229 - 3 + 1.6],
        Cuts(Line, "root gap: 3, shrinkage: 1.6", "flange", "{go: north, by: 1000, to: weld}", "{go: north, by: 1000, to: elbow}", "{go: east, by: 1000, to: open}"));

    // ASME B36.10M: NPS 6 is 168.3 mm over, NPS 4 schedule 40 is 102.26 inside, where its root sits. The sides of the saddle lie a - sqrt(a² - b²) below the header's crown (geometry).
    [Fact]
    public void A_branch_set_on_its_header_says_what_the_saw_is_set_to()
    {
        var packet = Given.Packet("""
            drawing: T-1
            line: {size: 6, schedule: 40, class: 150}
            shop: {root gap: 3}
            runs:
              - run: main
                start: {to: open}
                legs:
                  - {go: north, by: 1000, to: stub-in, name: S, branch: up, size: 4}
                  - {go: north, by: 1000, to: open}
              - {run: riser, size: 4, start: {from: S}, legs: [{go: up, by: 800, to: open}]}
            """);
        using var json = System.Text.Json.JsonDocument.Parse(Given.Json(packet));
        var cut = json.RootElement.GetProperty("cuts").EnumerateArray().Single(c => c.TryGetProperty("saddle", out _));
        var (a, b) = (168.3 / 2, 102.26 / 2);
        Assert.Equal(800 - a - 3, cut.GetProperty("length").GetDouble(), 0.01);
        Assert.Equal(800 - Math.Sqrt((a * a) - (b * b)) - 3, cut.GetProperty("saw").GetDouble(), 0.01);
    }

    // Each weld draws in what its pipes were given: the welded spool is the drawing's, leg by leg.
    [Fact]
    public void A_spool_with_pipe_at_each_weld_lands_on_the_drawing()
    {
        var packet = Given.Run("mm", Line, "root gap: 3, shrinkage: 1.6", "flange", "{go: north, by: 1120, to: weld}", "{go: north, by: 1000, to: elbow}", "{go: east, by: 1350, to: open}");
        var spool = Assert.Single(packet.Fabrication.Spools);
        Assert.Equal([1120 + 1.6 + 0.8, 1000 + 0.8 + 1.6, 1350 + 1.6], spool.Lengths.Select(l => l.AsFitted), new Near());
        Assert.Equal([1120, 1000, 1350], spool.Lengths.Select(l => l.Low), new Near());
        Assert.Equal([1120, 1000, 1350], spool.Lengths.Select(l => l.High), new Near());
    }

    // Nothing can be added to fittings that stand on each other: the forecast says how much comes short.
    [Fact]
    public void Fitting_on_fitting_comes_short_by_its_weld()
    {
        var packet = Given.Run("mm", Line, "root gap: 3, shrinkage: 1.6", "open", "{go: north, by: 1000, to: elbow}", "{go: east, by: makeup, to: elbow}", "{go: north, by: 1000, to: open}");
        Assert.Equal([1000, 229 + 229 + 3 - 1.6, 1000], Assert.Single(packet.Fabrication.Spools).Lengths.Select(l => l.Low), new Near());
    }

    [Fact]
    public void Shrinkage_is_added_for_each_butt_weld_and_only_where_the_shop_gives_it() => Same(
        [1000 - 89 - 229 - 6 + 3.2, 1000 - 229 - 3 + 1.6],
        Cuts(Line, "root gap: 3, shrinkage: 1.6", "flange", "{go: north, by: 1000, to: elbow}", "{go: east, by: 1000, to: open}"));

    [Fact]
    public void A_sloped_leg_is_longer_than_its_level_length()
    {
        // fall 1:100: 3000 level is 3000.15 along; the turn to it from a level leg at right angles stays 90.
        var packet = Given.Run("mm", Line, "root gap: 3", "open", "{go: north, by: 1000, to: elbow}", "{go: east, by: 3000, fall: 1:100, to: open}");
        Same([1000 - 229 - 3, Math.Sqrt((3000.0 * 3000) + (30 * 30)) - 229 - 3], Given.Lengths(packet));
        Assert.Equal(-30, packet.Fabrication.Route.Runs[0].Points[2].Z, 1e-9);
    }

    [Fact]
    public void A_measured_take_off_replaces_the_tables_and_says_so()
    {
        var packet = Given.Packet("""
            drawing: T
            line: {size: 6, schedule: 40}
            shop: {root gap: 3, measured: {item 2: {take-off: 230.5}}}
            materials: [{item: 2, what: elbow 90 LR, size: 6, quantity: 1}]
            runs:
              - run: main
                start: {to: open}
                legs:
                  - {go: north, by: 1000, to: elbow}
                  - {go: east, by: 1000, to: open}
            """);
        Same([1000 - 230.5 - 3, 1000 - 230.5 - 3], Given.Lengths(packet));
        Assert.Equal(new Origin.Measured("fitting", 2, 229), packet.Fabrication.Cuts[0].Sum[1].Origin);
    }

    [Fact]
    public void A_tee_entered_by_its_branch_turns_the_line() => Same(
        [1000 - 143 - 3, 1500 - 143 - 3, 700 - 143 - 3],
        Given.Lengths(Given.Packet("""
            drawing: T
            line: {size: 6, schedule: 40}
            shop: {root gap: 3}
            runs:
              - run: main
                start: {to: open}
                legs:
                  - {go: north, by: 1000, to: tee, name: T, enter: branch}
                  - {go: east, by: 1500, to: open}
              - {run: other, start: {from: T}, legs: [{go: west, by: 700, to: open}]}
            """)));

    [Fact]
    public void An_eccentric_reducer_steps_the_centreline_toward_its_flat_side()
    {
        var packet = Given.Run("mm", Line, "root gap: 3", "open", "{go: east, by: 2000, to: reducer, size: 4, kind: eccentric, flat: bottom}", "{go: east, by: 1000, to: open}");
        var route = packet.Fabrication.Route;
        // Half the difference of the outside diameters: the bottoms lie level.
        Assert.Equal(-(168.3 - 114.3) / 2, route.Runs[0].Points[1].Z, 1e-9);
        Assert.Equal(0, route.Components[0].Ports[0].At.Z, 1e-9);
        Assert.Equal(0, route.Pipes[0].End.Z, 1e-9);
        Assert.Equal(route.Pipes[0].End.Z - (168.3 / 2), route.Pipes[1].Start.Z - (114.3 / 2), 1e-9);
    }

    [Theory]
    [InlineData("{east: 1000, north: 4}", "elbow 90 LR", false)] // 89.77 degrees: within a quarter of a degree of 90
    [InlineData("{east: 1000, north: 6}", "elbow 90 LR", true)] // 89.66
    [InlineData("{east: 1000, north: 1008}", "elbow 45 LR", false)] // 44.77
    [InlineData("{east: 1000, north: 1020}", "elbow 45 LR", true)] // 44.43
    [InlineData("{east: 1000, north: 300}", "elbow 90 LR", true)]
    [InlineData("{east: 300, north: 1000}", "elbow 45 LR", true)]
    public void A_turn_off_90_and_45_by_more_than_a_quarter_degree_is_cut_from_the_next_larger_elbow(string go, string name, bool isCut)
    {
        var elbow = Given.Run("mm", Line, "root gap: 3", "open", "{go: north, by: 2000, to: elbow}", $"{{go: {go}, by: 2000, to: open}}").Fabrication.Route.Components[0];
        Assert.Equal((name, isCut), (elbow.Name, ((Bent)elbow).IsCut));
    }

    /// <summary>EN 558: a double-flanged butterfly valve of DN 150 is 140 long (series 13), one between flanges 56 (series 20; API 609): from memory.</summary>
    [Fact]
    public void A_butterfly_valve_as_long_as_one_with_flanges_of_its_own_has_studs_on_each_side()
    {
        var packet = Given.Run("mm", Line + ", gasket: 4.5", "root gap: 3", "open", "{go: east, by: 1000, to: valve, kind: butterfly, ends: flanged, face to face: 140}", "{go: east, by: 1000, to: open}");
        Assert.Equal([(8, 100.0), (8, 100.0)], packet.Fabrication.Bolting.Select(b => (b.Count, b.Length)));
        var wafer = Given.Run("mm", Line + ", gasket: 4.5", "root gap: 3", "open", "{go: east, by: 1000, to: valve, kind: check, ends: wafer, face to face: 98}", "{go: east, by: 1000, to: open}");
        Assert.Equal((8, 205.0), (Assert.Single(wafer.Fabrication.Bolting).Count, wafer.Fabrication.Bolting[0].Length));
    }

    [Fact]
    public void A_wafer_valve_has_one_set_of_long_studs()
    {
        var packet = Given.Run("mm", Line + ", gasket: 4.5", "root gap: 3", "open", "{go: east, by: 1000, to: valve, kind: butterfly}", "{go: east, by: 1000, to: open}");
        // B16.5: 100 for two flanges and a gasket; API 609 wafer NPS 6: 56 face to face, and the second gasket; next 5 mm.
        var set = Assert.Single(packet.Fabrication.Bolting);
        Assert.Equal(8, set.Count);
        Assert.Equal(Math.Ceiling((100 + 56 + 4.5) / 5) * 5, set.Length, 1e-9);
        Assert.Equal(2, packet.Fabrication.Route.Joints.Count(j => j.Kind == JointKind.Bolted));
    }

    [Fact]
    public void A_loop_that_closes_is_silent_and_one_that_does_not_says_by_how_much_and_where()
    {
        static Packet Loop(double last) => Given.Packet(string.Create(CultureInfo.InvariantCulture, $$"""
            drawing: T
            line: {size: 6, schedule: 40}
            runs:
              - run: main
                start: {to: open}
                legs:
                  - {go: east, by: 1000, to: tee, name: A, branch: north}
                  - {go: east, by: 2000, to: tee, name: B, branch: north}
                  - {go: east, by: 1000, to: open}
              - run: loop
                start: {from: A}
                legs:
                  - {go: north, by: 1500, to: elbow}
                  - {go: east, by: 2000, to: elbow}
                  - {go: south, by: {{last}}, to: tie-in, with: B}
            """));
        Assert.DoesNotContain(Loop(1500).Findings, f => f.Severity == Severity.Stop);
        Same([1000 - 143 - 3.2, 2000 - 286 - 6.4, 1000 - 143 - 3.2, 1500 - 143 - 229 - 6.4, 2000 - 458 - 6.4, 1500 - 229 - 143 - 6.4], Given.Lengths(Loop(1500)));
        var open = Assert.Single(Loop(1460).Findings, f => f.Rule == "does-not-close");
        Assert.Contains("40 north", open.Message, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("{go: east, by: makeup, to: elbow, end: final-fit}", "final-fit-without-pipe", Severity.Stop)]
    [InlineData("{go: {east: 1, south: 1}, by: 2000, to: elbow}", "turn-over-90", Severity.Stop)]
    [InlineData("{go: east, by: 200, to: elbow}", "leg-too-short-for-fittings", Severity.Stop)]
    [InlineData("{go: east, by: 20000, to: elbow}", "piece-longer-than-stock", Severity.Stop)]
    [InlineData("{go: east, by: 540, to: elbow}", "pipe-too-short", Severity.Warn)]
    public void What_cannot_be_built_is_found_at_its_leg(string leg, string rule, Severity severity)
    {
        var packet = Given.Run("mm", Line, "root gap: 3", "open", "{go: north, by: 1000, to: elbow}", leg, "{go: up, by: 1000, to: open}");
        var finding = Assert.Single(packet.Findings, f => f.Rule == rule);
        Assert.Equal(severity, finding.Severity);
        Assert.True(finding.At is { Run: 0, Leg: not null });
        Assert.Equal(severity != Severity.Stop, packet.IsBuildable);
    }
}
