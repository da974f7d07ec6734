using Rootgap.Fabricating;
using Rootgap.Measure;
using Rootgap.Packets;
using Rootgap.Sheets;

namespace Rootgap.Tests.Sheets;

/// <summary>What the fitter's sheet of a spool says, read from its drawing of texts.</summary>
public class SpoolSheetWordsTest
{
    private static string Words(Packet packet, Spool spool) => string.Join(' ',
        new Booklet("spool", SpoolSheet.Of(packet.ToJob(Paper.A4), new Rootgap.FitUp.FitJoints(packet.Fabrication), spool)).Scenes().SelectMany(s => new SvgReader(SvgWriter.Write(s)).Texts).Select(t => t.Text));

    private static string Words(Packet packet, int spool = 0) => Words(packet, packet.Fabrication.Spools[spool]);

    // By hand: elbow NPS 6 LR 229; the flange's face stands 1500 - ... north of the base flange's axis, which is what a plumb line from its middle shows.
    [Fact]
    public void Off_a_base_flange_that_lies_a_plumb_line_is_read_from_its_middle_and_off_one_that_stands_from_its_face()
    {
        var lies = Words(Given.Millimetres("size: 6, schedule: 40, class: 150", "flange", "{go: up, by: 1000, to: elbow}", "{go: north, by: 1500, to: flange}"));
        Assert.Matches("C[0-9]+ [369] plumb, north of C[0-9]+'s middle 1500 ", lies);
        Assert.DoesNotContain("'s face", lies, StringComparison.Ordinal);
        var stands = Words(Given.Millimetres("size: 6, schedule: 40, class: 150", "flange", "{go: north, by: 1000, to: elbow}", "{go: east, by: 1500, to: flange}"));
        Assert.Matches("plumb, north of C[0-9]+'s face 8", stands);
        Assert.Matches("plumb, east of C[0-9]+'s line 1500 ", stands);
    }

    // ASME B16.25-2017 section 3.1: a wall of 3 mm and less is welded square.
    [Fact]
    public void Pipe_too_thin_to_bevel_is_cut_square()
    {
        var thin = Given.Millimetres("size: 2, schedule: 10S, class: 150, material: A312-TP316L", "flange", "{go: north, by: 1500, to: flange}");
        Assert.Equal("square both", SawRow.EndsOf(Assert.Single(thin.Fabrication.Cuts)));
        Assert.Contains("square both", Words(thin), StringComparison.Ordinal);
        Assert.Equal("bevel both", SawRow.EndsOf(Assert.Single(Given.Millimetres("size: 2, schedule: 40, class: 150", "flange", "{go: north, by: 1500, to: flange}").Fabrication.Cuts)));
    }

    // Common practice: the pipe stands back by its wall, 6 mm at most, and 1.6 for the weld; NPS 2 schedule 40 has 3.91 (ASME B36.10).
    [Fact]
    public void A_slip_on_says_its_setback_as_two_terms_with_a_figure_each()
    {
        var packet = Given.Millimetres("size: 2, schedule: 40, class: 150, flange: SO", "flange", "{go: north, by: 1500, to: flange}");
        Assert.Equal("1500 − 2 × slip-on setback by the wall 3.91 − 2 × slip-on setback for the weld 1.6 = 1488.98", SumWords.Of(Assert.Single(packet.Fabrication.Cuts), Units.Millimetres));
    }

    [Fact]
    public void A_lap_joint_has_a_row_for_the_stub_end_that_is_welded_and_its_ring_has_no_holes_to_set()
    {
        var words = Words(Given.Millimetres("size: 2, schedule: 40, class: 150, flange: LJ", "flange", "{go: north, by: 1500, to: flange}"));
        // ASME B16.9, long pattern: 152.
        Assert.Matches("stub end 2 W1; 152 long; slide", words);
        Assert.Contains("loose on its stub end, it turns", words, StringComparison.Ordinal);
        Assert.DoesNotContain("straddle", words, StringComparison.Ordinal);
    }

    private static Packet Branched(string more = "") => Given.Packet($$"""
        drawing: T-2
        units: mm
        line: {size: 6, schedule: 40, class: 150}
        shop: {root gap: 3.2, final fit extra: 100}
        runs:
          - run: main
            start: {to: flange}
            legs:
              - {go: north, by: 700, to: point}
              - {go: north, by: 800, to: stub-in, name: S, branch: up, size: 4{{more}} }
              - {go: north, by: 900, to: support, kind: shoe, attach: clamped, tag: PS-9}
              - {go: north, by: 1000, to: flange}
          - run: side
            start: {from: S}
            legs: [{go: up, by: 600, to: flange}]
        """);

    [Fact]
    public void A_pad_without_measures_leaves_room_for_the_designers() =>
        Assert.Contains("by the designer: ________", Words(Branched(", pad: yes")), StringComparison.Ordinal);

    [Fact]
    public void Nothing_is_dimensioned_that_is_not_on_the_spool()
    {
        var packet = Branched();
        // The branch is on it, 1500 north; the point at 700 and the clamp at 2400 are not.
        var norths = new ViewSubject(packet.Fabrication, Assert.Single(packet.Fabrication.Spools)).Stations.Select(s => Math.Round(s.Y)).ToHashSet();
        Assert.Contains(1500, norths);
        Assert.DoesNotContain(700, norths);
        Assert.DoesNotContain(2400, norths);
    }

    [Fact]
    public void Of_a_saddle_on_a_header_that_lies_below_or_above_the_words_are_right() =>
        Assert.Contains("the sides of the saddle reach 17.3 deeper than the middle line", SumWords.Of(Branched().Fabrication.Cuts.Single(c => c.Saddle > 0), Units.Millimetres), StringComparison.Ordinal);

    // By hand: the header's radius 84.15, the branch's bore 51.13: the sides reach to the root of the difference of the squares, 66.84, and the gap of 3.2 is between.
    [Fact]
    public void A_saddles_end_line_has_the_root_gap_of_the_sum_in_it_and_the_hole_says_where_it_goes()
    {
        var notes = string.Join(' ', Assert.Single(Templates.Of(Branched().Fabrication)).Notes);
        Assert.Contains("The end line lies 70.0 mm from the header's centreline, measured along the branch, the root gap of 3.2 mm in it", notes, StringComparison.Ordinal);
        // The bore along the header; round it twice 84.15 times the arc sine of 51.13 / 84.15.
        Assert.Contains("The hole goes into 1-A, where the spool sheet sets 1-B on it: 102.3 mm along it, 109.9 mm round it.", notes, StringComparison.Ordinal);
        Assert.Contains("without a root gap", string.Join(' ', Template.BranchEnd("x", 168.3, 114.3, 51.1, Math.PI / 2, 0).Notes), StringComparison.Ordinal);
    }

    [Fact]
    public void An_item_found_by_kind_and_size_has_a_sign_that_is_explained()
    {
        const string Sign = "* item found by kind and size";
        string Run(string item) => $$"""
            drawing: T-3
            units: mm
            line: {size: 6, schedule: 40, class: 150}
            materials: [{item: 1, what: pipe, size: 6, schedule: 40}]
            runs:
              - run: main
                start: {to: open}
                legs: [{go: north, by: 1500, to: open{{item}}}]
            """;
        Assert.Contains(Sign, Words(Given.Packet(Run(""))), StringComparison.Ordinal);
        Assert.DoesNotContain(Sign, Words(Given.Packet(Run(", pipe item: 1"))), StringComparison.Ordinal);
    }

    [Fact]
    public void The_strip_tells_the_spools_own_pipe_and_class()
    {
        var packet = Given.Run("mm", "size: 6, schedule: 40, class: 150", "root gap: 3", "flange", "{go: north, by: 2500, to: reducer, size: 4, end: field}", "{go: north, by: 1500, to: flange, class: 300}");
        Assert.Contains("NPS 4 schedule 40", Words(packet, 1), StringComparison.Ordinal);
        Assert.DoesNotContain("NPS 6 schedule 40", Words(packet, 1), StringComparison.Ordinal);
        Assert.Equal("300", Assert.Single(packet.ToJob(Paper.A4).StripOf(packet.Fabrication.Spools[1]), f => f.Label == "class").Value);
        Assert.Equal("150", Assert.Single(packet.ToJob(Paper.A4).StripOf(packet.Fabrication.Spools[0]), f => f.Label == "class").Value);
    }

    // A field weld has not drawn in when the spool leaves the shop: its pipe is as long as it was cut, in the view, in the box and in the check.
    [Fact]
    public void What_is_kept_for_a_field_weld_is_on_the_spool_until_it_is_made()
    {
        var packet = Given.Run("mm", "size: 6, schedule: 40, class: 150", "root gap: 3, shrinkage: 2", "flange", "{go: north, by: 1500, to: elbow, end: field}", "{go: up, by: 2000, to: elbow, begin: field, end: field}", "{go: north, by: 1500, to: flange}");
        var (spool, cut) = packet.Fabrication.Spools.Select(s => (s, s.Cuts)).Where(s => s.Cuts.Count == 1 && s.s.Components.Count == 0).Select(s => (s.s, s.Cuts[0])).First();
        Assert.Equal(4, cut.Allowance, 1e-9);
        Assert.Equal(cut.Length, spool.Box.Z, 1e-9);
        var ups = new ViewSubject(packet.Fabrication, spool).Stations.Select(s => s.Z).ToList();
        Assert.Equal(cut.Length, ups.Max() - ups.Min(), 1e-9);
        // Welded in the shop at its flange, the first pipe keeps nothing there.
        var first = packet.Fabrication.Cuts[0];
        Assert.Equal(first.Length - 2, first.Reach.Start.To(first.Reach.End), 1e-9);
    }

    [Fact]
    public void Along_a_pipe_with_extra_left_on_places_are_told_from_its_other_end_and_readings_say_that_it_is_in_them()
    {
        var packet = Given.Packet("""
            drawing: T-4
            units: mm
            line: {size: 6, schedule: 40, class: 150}
            shop: {root gap: 3, final fit extra: 100}
            runs:
              - run: main
                start: {to: flange}
                legs:
                  - {go: north, by: 2000, to: elbow}
                  - {go: east, by: 500, to: support, kind: shoe, tag: PS-1, begin: final-fit}
                  - {go: east, by: 1500, to: flange}
            """);
        var spool = packet.Fabrication.Spools.Single(s => s.Cuts.Any(c => c.Extra > 0));
        var cut = spool.Cuts.Single(c => c.Extra > 0);
        Assert.True(cut.Pipe.ExtraAtStart);
        var words = Words(packet, spool);
        var flange = spool.Joints.Single(j => j.Kind == Rootgap.Routes.JointKind.Butt).Id;
        // By hand: 1500 to the face, the weld neck of NPS 6 class 150 is 89 long (ASME B16.5, 87 with a raised face of 2 in it), the gap 3.
        var hub = spool.Components.OfType<Rootgap.Routes.Flange>().Single();
        var from = 1500 - hub.Contact.At.To(cut.Pipe.End);
        Assert.Contains(string.Create(System.Globalization.CultureInfo.InvariantCulture, $"middle {from:0.#} from its {flange} end"), words, StringComparison.Ordinal);
        Assert.Contains(", extra on", words, StringComparison.Ordinal);
        Assert.DoesNotContain(", extra on", Words(packet, packet.Fabrication.Spools.Single(s => s != spool)), StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("{go: north, by: 2500, to: elbow, end: final-fit}", "{go: up, by: 1500, to: flange}", false)]
    [InlineData("{go: north, by: 2500, to: weld, end: final-fit}", "{go: north, by: 1500, to: flange}", true)]
    public void Beside_a_pipe_with_extra_left_on_another_pipe_is_cut_to_size_and_a_fitting_is_not(string one, string other, bool isCut)
    {
        var packet = Given.Run("mm", "size: 6, schedule: 40, class: 150", "root gap: 3, final fit extra: 100", "flange", one, other);
        var cut = packet.Fabrication.Cuts.Single(c => c.Extra > 0);
        var neighbour = Words(packet, packet.Fabrication.Spools.Single(s => !s.Cuts.Contains(cut)));
        Assert.Contains($"+100 is on {cut.Piece}", neighbour, StringComparison.Ordinal);
        Assert.Equal(isCut, neighbour.Contains($"cut to size, +100 is on {cut.Piece}", StringComparison.Ordinal));
    }

    // A branch of NPS 4 schedule 40 that comes down and ends on a header of NPS 6: its middle line ends 84.15 and the gap of 3.2 before the header's (ASME B36.10M).
    private static (Packet Packet, Spool Spool) ComesTo(string header, string last, string at, string end) => Given.Packet($$"""
        drawing: T-5
        units: mm
        line: {size: 6, schedule: 40, class: 150}
        shop: {root gap: 3.2, final fit extra: 100}
        runs:
          - run: main
            start: {to: flange, at: {east: 0, north: 0, up: 0} }
            legs:
              - {go: north, by: 1500, to: stub-in, name: S, branch: {{header}}, size: 4}
              - {go: north, by: 1000, to: flange}
          - run: side
            size: 4
            start: {to: flange, at: {{at}} }
            legs:
              - {go: down, by: 700, to: elbow}
              - {go: {{last}}, by: 900, end: {{end}}, to: tie-in, with: S}
        """) is var packet ? (packet, packet.Fabrication.Spools.Single(s => s.Cuts.Any(c => c.Saddle > 0))) : default;

    // By hand: the crowns lie 900 - 84.15 - 3.2 = 812.65 from the flange's middle; bore 51.13, so the sides reach 84.15 - root(84.15^2 - 51.13^2) = 17.31 deeper.
    // The flange of NPS 4 class 150 is 230 over all (ASME B16.5, metric), half of it behind its middle.
    [Fact]
    public void A_saddle_that_is_set_on_at_site_is_read_at_its_crowns_and_the_box_holds_its_sides()
    {
        var (packet, spool) = ComesTo("east", "west", "{east: 900, north: 1500, up: 700}", "field");
        var words = Words(packet, spool);
        Assert.Contains("2-B 3 (crown) plumb, west of C6's middle 812.5", words, StringComparison.Ordinal);
        Assert.Contains("2-B 12 (side) below C6 12", words, StringComparison.Ordinal);
        // It has no face for a level or a straight edge.
        Assert.DoesNotContain("2-B face", words, StringComparison.Ordinal);
        Assert.Equal(812.65 + 17.31 + (230 / 2), spool.Box.X, 0.01);
        Assert.Contains("945 × 230 ×", words, StringComparison.Ordinal);
        // The view shows both: over the sides 17.5 more than over the crowns.
        var easts = new ViewSubject(packet.Fabrication, spool).Stations.Select(s => s.X).Order().ToList();
        Assert.Equal(17.31, easts[1] - easts[0], 0.01);
    }

    // Trimming at site would take off a saddle that is cut before: with the extra on the end is square, 17.31 and 100 beyond the crown (common practice).
    [Fact]
    public void With_final_fit_extra_on_it_a_saddle_is_still_square_and_is_read_as_a_square_end()
    {
        var (packet, spool) = ComesTo("east", "west", "{east: 900, north: 1500, up: 700}", "final-fit");
        var words = Words(packet, spool);
        Assert.Contains("2-B 3 plumb, west of C6's middle, extra on 930 ", words, StringComparison.Ordinal);
        Assert.Contains("square till then, the saddle is cut at site by its template", words, StringComparison.Ordinal);
        Assert.Contains("2-B face plumb", words, StringComparison.Ordinal);
        Assert.Equal("bevel, square", SawRow.EndsOf(spool.Cuts.Single(c => c.Saddle > 0)).Replace("square, bevel", "bevel, square", StringComparison.Ordinal));
        Assert.Equal(812.65 + 17.31 + 100 + (230 / 2), spool.Box.X, 0.01);
        // Its packet still says that a saddle is to be made there.
        Assert.Contains(spool.Cuts, c => c.AtStart.Word == "saddle" || c.AtEnd.Word == "saddle");
    }

    // By hand, lean 45 degrees: along the branch the middle line ends (84.15 + 3.2) / sin 45 before the header's; the heel's outside edge, cut square to the wall where the bore bears,
    // 51.13 deeper (51.13 / tan 45), the throat as much shorter.
    [Fact]
    public void Of_a_saddle_that_leans_the_heel_and_the_throat_are_named_and_each_has_its_own_length()
    {
        var (packet, spool) = ComesTo("{east: 1, north: 1}", "{west: 1, south: 1}", "{east: 636.396, north: 2136.396, up: 700}", "field");
        Assert.Contains("(heel)", Words(packet, spool), StringComparison.Ordinal);
        var end = Rootgap.FitUp.FinalCheck.Welded(new Rootgap.FitUp.FitJoints(packet.Fabrication).OfSpool(spool)).Ends.Single(e => !e.IsPlane);
        double Out(string edge) => new[] { 12, 3, 6, 9 }.Where(at => end.EdgeAt(at) == edge).Select(at => (end.Lip(at, Motion.None) - end.Centre).Dot(end.Normal)).First();
        Assert.Equal(51.13, Out("heel"), 0.01);
        Assert.Equal(-51.13, Out("throat"), 0.01);
        Assert.Equal(17.31 * Math.Sqrt(2), Out("side"), 0.01);
    }

    // From one header to another: the saw leaves the saddle at both ends, 17.31 each.
    [Fact]
    public void A_pipe_that_is_set_on_a_header_at_both_ends_has_two_saddles_and_two_templates()
    {
        var packet = Given.Packet("""
            drawing: T-6
            units: mm
            line: {size: 6, schedule: 40, class: 150}
            shop: {root gap: 3.2}
            runs:
              - run: one
                start: {to: flange, at: {east: 0, north: 0, up: 0}}
                legs: [{go: north, by: 1500, to: stub-in, name: S, branch: east, size: 4}, {go: north, by: 1000, to: flange}]
              - run: other
                start: {to: flange, at: {east: 1000, north: 0, up: 0}}
                legs: [{go: north, by: 1500, to: stub-in, name: T, branch: west, size: 4}, {go: north, by: 1000, to: flange}]
              - run: side
                size: 4
                start: {from: S}
                legs: [{go: east, by: 1000, end: field, to: tie-in, with: T}]
            """);
        var cut = packet.Fabrication.Cuts.Single(c => c.Saddle > 0);
        Assert.Equal(1000 - (2 * (84.15 + 3.2)) + (2 * 17.31), cut.SawLength, 0.02);
        Assert.Equal(2, Templates.Saddles(packet.Fabrication, cut).Select(t => t.Title).Distinct().Count());
        // The one at the shop weld stands on its header; the free one reaches 17.31 past its crowns.
        Assert.Equal(1000 - 84.15 - 3.2 + 17.31, packet.Fabrication.Spools.Single(s => s.Cuts.Contains(cut)).BoxTo.X, 0.01);
    }

    [Fact]
    public void A_shoe_that_the_fitter_welds_on_has_its_measures_and_is_drawn_with_them()
    {
        var packet = Given.Packet("""
            drawing: T-7
            units: mm
            line: {size: 6, schedule: 40, class: 150}
            runs:
              - run: main
                start: {to: flange}
                legs:
                  - {go: north, by: 1000, to: support, kind: shoe, tag: PS-1, height: 120, length: 250}
                  - {go: north, by: 1000, to: support, kind: shoe, tag: PS-2, side: east}
                  - {go: north, by: 1000, to: flange}
            """);
        var spool = Assert.Single(packet.Fabrication.Spools);
        var words = Words(packet, spool);
        Assert.Matches("PS-1 . shoe on 1-A, middle [0-9.]+ from its W1 end, under; 120 from the pipe, 250 along it; welded, A1", words);
        Assert.Matches("PS-2 . shoe on 1-A, middle [0-9.]+ from its W1 end, east side; measures by its own drawing; welded, A2", words);
        // A web and a base, 250 along the pipe and 120 down from its underside; no round stub.
        var corners = Body.Of(spool).Where(b => b.Part == spool.Supports[0].Id).SelectMany(b => b.Corners).ToList();
        Assert.Equal(250, corners.Max(c => c.Y) - corners.Min(c => c.Y), 1e-6);
        Assert.Equal(120, corners.Max(c => c.Z) - corners.Min(c => c.Z), 1e-6);
        Assert.Equal(-168.3 / 2, corners.Max(c => c.Z), 1e-6);
    }

    // By hand: the axes meet 1500 north, the pipe begins behind the hub of 89 and the gap of 3.2; the bore of 102.26 along the header, 109.9 round it.
    [Theory]
    [InlineData("field")]
    [InlineData("final-fit")]
    public void The_hole_of_a_branch_that_is_set_on_at_site_is_on_the_headers_sheet(string end)
    {
        var (packet, branch) = ComesTo("east", "west", "{east: 900, north: 1500, up: 700}", end);
        var header = packet.Fabrication.Spools.Single(s => s != branch);
        var words = Words(packet, header);
        Assert.Contains("W6 hole on 1-A, 1408 from its W1 end, east; 102.5 along × 110 round, by the template of 2-B", words, StringComparison.Ordinal);
        // What is made there is a hole, and no pipe is cut to size.
        Assert.DoesNotContain("cut to size", words, StringComparison.Ordinal);
        Assert.Equal(end == "final-fit", words.Contains("hole by its template, +100 is on 2-B", StringComparison.Ordinal));
        Assert.DoesNotContain(" hole ", Words(packet, branch), StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("{north: 1, east: 1}", "45° east of north")]
    [InlineData("{north: 2, west: 1}", "26.57° west of north")]
    [InlineData("{south: 1, east: 1}", "45° east of south")]
    [InlineData("{south: 1, west: 2}", "63.43° west of south")]
    public void A_bearing_names_its_side(string way, string said)
    {
        var packet = Given.Packet($$"""
            drawing: T-8
            units: mm
            line: {size: 6, schedule: 40, class: 150}
            runs:
              - run: main
                start: {to: flange}
                legs: [{go: {{way}}, by: 2000, to: flange}]
            """);
        Assert.Contains("W1 to W2, " + said, Words(packet), StringComparison.Ordinal);
    }
}
