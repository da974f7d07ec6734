using Rootgap.Fabricating;
using Rootgap.Measure;

namespace Rootgap.Tests.Fabrication;

public class TemplateTest
{
    /// <summary>Where a generator of the branch first meets the header, found by halving along the generator: no formula of the engine's.</summary>
    private static double MeetingByHalving(double header, double branch, double lean, double offset, double angle)
    {
        // Header axis x; branch axis in the x-z plane, moved sideways (y) by the offset.
        var u = new Vector(Math.Cos(lean), 0, Math.Sin(lean));
        var side = Vector.North;
        var v = side.Cross(u);
        var start = new Point(0, offset, 0) + (v * (branch * Math.Cos(angle))) + (side * (branch * Math.Sin(angle)));
        double Outside(double s)
        {
            var p = start + (u * s);
            return Math.Sqrt((p.Y * p.Y) + (p.Z * p.Z)) - header;
        }

        // The middle of the chord is inside the header; far out along the branch is outside.
        var (inside, outside) = (-start.Z / u.Z, 100 * header);
        for (var i = 0; i < 200; i++)
        {
            var middle = (inside + outside) / 2;
            (inside, outside) = Outside(middle) < 0 ? (middle, outside) : (inside, middle);
        }

        return inside;
    }

    [Fact]
    public void A_branch_end_agrees_with_a_numeric_intersection_of_the_two_cylinders() =>
        Gen.Select(Gen.Double[30, 300], Gen.Double[0.1, 0.98], Gen.Double[0, 0.9], Gen.Double[30, 150], Gen.Double[0, 2 * Math.PI])
            .Holds((header, share, off, degrees, angle) =>
            {
                var branch = header * share;
                var offset = (header - branch) * off;
                var lean = Angles.ToRadians(degrees);
                Assert.Equal(MeetingByHalving(header, branch, lean, offset, angle), Template.Meeting(header, branch, lean, offset, angle), 0.05);
            });

    [Fact]
    public void The_strip_is_once_round_the_outside_and_closes_on_itself()
    {
        var template = Template.BranchEnd("x", 168.3, 114.3, 51.1, Math.PI / 2, 0);
        Assert.Equal(Math.PI * 114.3, template.Round, 1e-9);
        Assert.Equal(template.At(0), template.At(2 * Math.PI), 1e-9);
        Assert.Equal(0, template.Ordinates.Min(), 1e-6);
    }

    // Geometry: a full-size 90-degree branch, outside on outside, reaches down to the header's centreline at its sides: the ordinate at the crown is the radius.
    [Fact]
    public void A_full_size_branch_reaches_the_headers_centreline_at_its_sides() =>
        Assert.Equal(168.3 / 2, Template.BranchEnd("x", 168.3, 168.3, 168.3 / 2, Math.PI / 2, 0).Deepest, 1e-6);

    // Common practice, and in every layout book: a mitre's greatest ordinate is the diameter times the tangent of the cut.
    [Fact]
    public void A_mitre_takes_the_diameter_times_the_tangent_off_its_short_side() =>
        Assert.Equal(168.3 * Math.Tan(Math.PI / 8), Template.Mitre("x", 168.3, Math.PI / 8).Deepest, 1e-9);

    // Arcs of an elbow of 9 in. radius and 6 5/8 in. outside cut to 60 degrees (textbook method, (R -+ r) times the turn): 151.3, 239.4, 327.5 mm in inch-exact figures.
    [Fact]
    public void A_cut_elbow_has_the_textbooks_arcs_at_throat_side_and_back()
    {
        var template = Template.CutElbow("x", 168.275, 228.6, Math.PI / 3);
        Assert.Equal(151.3, template.At(0), 0.05);
        Assert.Equal(239.4, template.At(Math.PI / 2), 0.05);
        Assert.Equal(327.5, template.At(Math.PI), 0.05);
    }

    [Fact]
    public void A_trimmed_end_takes_off_what_is_asked_at_the_four_quarters()
    {
        var template = Template.Trim("x", 168.3, 12, 9, 6, 9);
        Assert.Equal([12, 9, 6, 9], [template.At(0), template.At(Math.PI / 2), template.At(Math.PI), template.At(3 * Math.PI / 2)], (a, b) => Math.Abs(a - b) < 1e-9);
        // A right-hand side that loses more than the left: 3 and 9 are not each other.
        var leaning = Template.Trim("x", 168.3, 9, 12, 9, 6);
        Assert.Equal([9, 12, 9, 6], [leaning.At(0), leaning.At(Math.PI / 2), leaning.At(Math.PI), leaning.At(3 * Math.PI / 2)], (a, b) => Math.Abs(a - b) < 1e-9);
    }

    // The strip is wrapped once round: what is named on it lies at the quarters, and what is cut at each is what the name says. A branch leaning at 45 degrees takes least
    // at neither throat nor heel by chance: the sides of a full-size one reach deepest (the layout books' picture).
    [Fact]
    public void Each_named_line_lies_at_its_quarter_and_has_the_cut_that_its_name_says()
    {
        double[] quarters = [0, Math.PI / 2, Math.PI, 3 * Math.PI / 2];
        var mitre = Template.Mitre("x", 168.3, Math.PI / 8);
        Template[] all = [Template.BranchEnd("x", 168.3, 114.3, 51.1, Math.PI / 4, 0), Template.BranchEnd("x", 168.3, 114.3, 51.1, Math.PI / 2, 10), mitre, Template.CutElbow("x", 168.3, 229, Math.PI / 3)];
        Assert.All(all, t => Assert.Equal(quarters, t.Marks.Select(m => m.Angle), (a, b) => Math.Abs(a - b) < 1e-9));
        double At(Template t, string name) => t.At(t.Marks.First(m => m.Name == name).Angle);
        Assert.Equal((0, mitre.Deepest), (At(mitre, "long side"), At(mitre, "short side")));
        Assert.Equal(mitre.Deepest / 2, At(mitre, "side"), 1e-9);
        // Off the axis to the right the header falls away: the branch reaches further down there.
        var offset = all[1];
        Assert.True(At(offset, "right, off the axis") < At(offset, "left, over the axis"));
    }

    // Arithmetic: 14, 9, 10, 11 at 12, 3, 6, 9: mean 11, (14 - 10) / 2 = 2 up, (9 - 11) / 2 = -1 to the right: the plane cuts 13, 10, 9, 12, each 1 off.
    [Fact]
    public void What_the_nearest_plane_cuts_is_told_quarter_by_quarter()
    {
        var trim = Template.Trim("x", 168.3, 14, 9, 10, 11);
        Assert.Contains("Asked at 12, 3, 6, 9: 14.0, 9.0, 10.0, 11.0 mm; the nearest plane cuts 13.0, 10.0, 9.0, 12.0, 1.0 mm off", trim.Caution, StringComparison.Ordinal);
        Assert.Equal([13, 10, 9, 12], [trim.At(0), trim.At(Math.PI / 2), trim.At(Math.PI), trim.At(3 * Math.PI / 2)], (a, b) => Math.Abs(a - b) < 1e-9);
    }

    // Arithmetic: of 12, 9, 12, 9 the nearest plane is 10.5 all round, 1.5 off at each.
    [Fact]
    public void Four_readings_that_are_in_no_plane_are_told_with_what_is_cut_instead()
    {
        Assert.Empty(Template.Trim("x", 168.3, 12, 9, 6, 9).Caution);
        var caution = Template.Trim("x", 168.3, 12, 9, 12, 9).Caution;
        Assert.Contains("not in one plane", caution, StringComparison.Ordinal);
        Assert.Contains("12.0, 9.0, 12.0, 9.0 mm", caution, StringComparison.Ordinal);
        Assert.Contains("10.5, 10.5, 10.5, 10.5, 1.5 mm off", caution, StringComparison.Ordinal);
        // 5.5 in the middle, 3 more at the top than in the middle, 2 less at the right.
        Assert.Contains("8.5, 3.5, 2.5, 7.5, 1.5 mm off", Template.Trim("x", 168.3, 10, 2, 4, 6).Caution, StringComparison.Ordinal);
    }

    // Geometry: 5 + 5 root 2 cos: the plane through 0, 0, 10, 10 lies 2.1 beyond the end half way between 12 and 3 o'clock.
    [Fact]
    public void A_trim_takes_off_no_less_than_nothing_and_says_where_the_plane_lies_beyond_the_end()
    {
        var template = Template.Trim("x", 168.3, 0, 0, 10, 10);
        Assert.Equal(0, Enumerable.Range(0, 720).Min(i => template.At(i * Math.PI / 360)));
        Assert.Equal(10, template.At(Math.PI), 1e-9);
        Assert.Matches("About [12] o'clock .* 2.1 mm", template.Caution);
        Assert.Equal(0, Template.Trim("x", 168.3, 0, 10, 0, 0).Ordinates.Min());
    }

    // Geometry: side by side on a header the branch's off side reaches lower on the pipe, so less comes off there; facing line 0 with the header below, line 4 is at the right hand.
    [Fact]
    public void A_branch_off_the_axis_has_a_right_and_a_left_side()
    {
        var right = Template.BranchEnd("x", 168.3, 60.3, 26.2, Math.PI / 2, 30);
        Assert.Equal(["along header", "right, off the axis", "along header", "left, over the axis"], right.Marks.Select(m => m.Name), StringComparer.Ordinal);
        Assert.True(right.At(Math.PI / 2) < right.At(3 * Math.PI / 2));
        Assert.Contains("30.0 mm to the right", right.Notes[0], StringComparison.Ordinal);
        var left = Template.BranchEnd("x", 168.3, 60.3, 26.2, Math.PI / 2, -30);
        Assert.Equal("left, off the axis", left.Marks[3].Name);
        Assert.Equal(right.At(1), left.At(-1), 1e-9);
    }

    [Fact]
    public void A_mitre_is_said_to_be_a_matter_of_design() =>
        Assert.Contains("matter of design", Template.Mitre("x", 168.3, 0.3).Caution, StringComparison.Ordinal);

    [Fact]
    public void A_branch_template_brings_the_hole_in_its_header_and_no_other_does()
    {
        Assert.NotEmpty(Template.BranchEnd("x", 168.3, 114.3, 51.1, Math.PI / 2, 0).Hole);
        Assert.Empty(Template.Mitre("x", 168.3, 0.3).Hole);
        // Every point of the hole lies on both cylinders: on the header's round, and at the branch's radius from its leaning axis.
        var lean = Angles.ToRadians(60);
        foreach (var (round, along) in Template.BranchEnd("x", 168.3, 114.3, 51.1, lean, 10).Hole)
        {
            var turn = round / 84.15;
            var p = new Vector(along, 84.15 * Math.Sin(turn), 84.15 * Math.Cos(turn)) - new Vector(0, 10, 0);
            Assert.Equal(51.1, p.SquareTo(new Vector(Math.Cos(lean), 0, Math.Sin(lean))).Length, 1e-6);
        }
    }

    [Fact]
    public void The_hole_in_the_header_has_the_branchs_width_across_and_length_along()
    {
        var hole = Template.HeaderHole(168.3, 51.1, Math.PI / 2, 0).ToList();
        Assert.Equal(51.1, hole.Max(p => p.Along), 1e-6);
        // Round the header: radius times the arc sine of the half width.
        Assert.Equal(84.15 * Math.Asin(51.1 / 84.15), hole.Max(p => p.Round), 1e-3);
    }

    // Common practice: a strip once round has its quarters at a quarter, a half and three quarters; the chain of sixteen begins and ends at the same line.
    [Fact]
    public void What_stays_and_what_comes_off_are_told_apart_with_the_names_round_the_pipe()
    {
        var elbow = Template.CutElbow("x", 168.3, 228.6, Math.PI / 3);
        Assert.False(elbow.IsTakenOff);
        Assert.Equal(["throat", "side", "back", "side"], elbow.Marks.Select(m => m.Name), StringComparer.Ordinal);
        var mitre = Template.Mitre("x", 168.3, 0.3);
        Assert.True(mitre.IsTakenOff);
        Assert.Equal(["long side", "side", "short side", "side"], mitre.Marks.Select(m => m.Name), StringComparer.Ordinal);
        Assert.Equal([0, Math.PI / 2, Math.PI, 3 * Math.PI / 2], mitre.Marks.Select(m => m.Angle), (a, b) => Math.Abs(a - b) < 1e-12);
    }

    // A branch that hangs over its header's side does not lie on it, however thin it is.
    [Fact]
    public void A_branch_lies_on_its_header_with_its_axis_aside()
    {
        Assert.True(Template.Fits(100, 60, 40));
        Assert.False(Template.Fits(100, 60, 41));
        Assert.False(Template.Fits(100, 60, -41));
    }

    // Geometry: square, outside on outside, the end's line lies from the header's axis by its radius at the crown, and by root (84.15^2 - 57.15^2) = 61.8 at its sides: there it reaches deepest.
    [Fact]
    public void The_end_of_a_branch_says_where_it_reaches_deepest_and_how_it_is_bevelled()
    {
        var outside = Template.BranchEnd("x", 168.3, 114.3, 57.15, Math.PI / 2, 0);
        Assert.Contains(outside.Notes, n => n.Contains("61.8 mm from the header's centreline", StringComparison.Ordinal));
        Assert.Contains(outside.Notes, n => n.StartsWith("The line is where the outside of the branch", StringComparison.Ordinal));
        Assert.Contains(Template.BranchEnd("x", 168.3, 114.3, 51.1, Math.PI / 2, 0).Notes, n => n.StartsWith("The line is where the inside edge", StringComparison.Ordinal));
        Assert.Equal(["side", "side"], new[] { outside.Marks[1].Name, outside.Marks[3].Name }, StringComparer.Ordinal);
        Assert.Contains("30.0 mm to the left", Template.BranchEnd("x", 168.3, 60.3, 26.2, Math.PI / 2, -30).Notes[0], StringComparison.Ordinal);
    }

    // Arithmetic: 9.6, 9, 9.6, 9 lie 0.3 off their plane, 9.4, 9, 9.4, 9 lie 0.2 off.
    [Fact]
    public void Readings_within_a_quarter_of_a_millimetre_are_in_one_plane()
    {
        Assert.NotEmpty(Template.Trim("x", 168.3, 9.6, 9, 9.6, 9).Caution);
        Assert.Empty(Template.Trim("x", 168.3, 9.4, 9, 9.4, 9).Caution);
    }

    // The plane lies farthest beyond the end opposite to where most comes off: 12 off at 3 o'clock is 9 o'clock.
    [Theory]
    [InlineData(0, 12, 0, -12, 9)]
    [InlineData(0, -12, 0, 12, 3)]
    [InlineData(12, 0, -12, 0, 6)]
    [InlineData(-12, 0, 12, 0, 12)]
    public void A_piece_too_short_says_at_which_hour(double at12, double at3, double at6, double at9, int hour) =>
        Assert.Contains($"About {hour} o'clock the plane lies up to 12.0 mm", Template.Trim("x", 168.3, at12, at3, at6, at9).Caution, StringComparison.Ordinal);

    // The clock runs clockwise looking along the line: round an end that looks that way it runs to the left on the strip.
    [Theory]
    [InlineData(true, 5, 13, 4)]
    [InlineData(false, 5, 5, 12)]
    public void A_closing_strip_bears_the_places_of_its_sheet(bool looksAlong, int place, int name, int ofLine)
    {
        // At place 5, three o'clock, comes off most.
        var strip = Template.Closing("x", 168.3, clock => 10 + (5 * Math.Sin(clock)), looksAlong);
        var line = looksAlong ? 12 : 4;
        Assert.Equal(15, strip.At(line * 2 * Math.PI / Template.Parts), 1e-9);
        Assert.Equal(place.ToString(System.Globalization.CultureInfo.InvariantCulture), strip.NameOfLine(line));
        Assert.Equal(name.ToString(System.Globalization.CultureInfo.InvariantCulture), strip.NameOfLine(4));
        Assert.Equal(ofLine * 2 * Math.PI / Template.Parts, strip.Marks.Single(m => m.Name == "9").Angle, 1e-9);
    }

    // A stub-in with a pad: the strip of its branch carries the pad and is otherwise what it was without.
    [Fact]
    public void A_pad_goes_with_its_branch_s_strip_and_changes_nothing_else_of_it()
    {
        static Template Of(string pad)
        {
            var f = Given.Packet($$"""
                drawing: T-1
                revision: 1
                line: {size: 8, schedule: 40, class: 150}
                runs:
                  - run: main
                    start: {to: flange}
                    legs:
                      - {go: east, by: 1500, to: stub-in, name: A, size: 4, branch: up{{pad}}}
                      - {go: east, by: 1500, to: stub-in, name: B, size: 3, branch: up}
                      - {go: east, by: 1500, to: flange}
                  - {run: one, start: {from: A}, legs: [{go: up, by: 900, to: flange}]}
                  - {run: two, start: {from: B}, legs: [{go: up, by: 900, to: flange}]}
                """).Fabrication;
            var all = Templates.Of(f).ToList();
            Assert.Equal(2, all.Count);
            Assert.Null(all[1].Pad);
            return all[0];
        }

        var (with, without) = (Of(", pad width: 75"), Of(""));
        Assert.Null(without.Pad);
        // The pad of 75 beside a branch of 114.3 is 264.3 over all along the header, with the wall of the header, 8.18 (ASME B36.10M).
        var pad = with.Pad!.Value;
        Assert.Equal(264.3, pad.Edge.Max(p => p.Along) - pad.Edge.Min(p => p.Along), 0.1);
        Assert.Equal(114.3, pad.Hole.Max(p => p.Along) - pad.Hole.Min(p => p.Along), 5);
        Assert.Equal(8.18, pad.Thickness, 0.01);
        Assert.Equal(without.IsTakenOff, with.IsTakenOff);
        Assert.Equal(without.Ordinates, with.Ordinates);
        Assert.Equal(without.Hole, with.Hole);
        Assert.Equal(without.Marks, with.Marks);
        Assert.Equal(without.Notes, with.Notes, StringComparer.Ordinal);
        Assert.Equal(without.Caution, with.Caution);
        Assert.Equal("7", with.NameOfLine(7));
    }

    // Three cuts of 15 degrees make four pieces: an end at each side and two between. ASME B31.3 304.2.3's figure: heel and throat differ by the outside times twice the tangent of the cut.
    [Fact]
    public void A_mitred_bend_says_how_many_pieces_it_takes()
    {
        var strip = Assert.Single(Templates.Of(Rootgap.Tests.Checks.Desk.Packet(Rootgap.Tests.Checks.Desk.Drawing("{go: north, by: 2000, to: mitred bend, cuts: 3, bend radius: 381}\n{go: east, by: 1500, to: open}", start: "to: open")).Fabrication!));
        var pieces = strip.Notes[^1];
        Assert.StartsWith("Pieces along heel, middle and throat, before the gaps: 2 ends ", pieces, StringComparison.Ordinal);
        Assert.Contains("; 2 between ", pieces, StringComparison.Ordinal);
        Assert.Contains("each cut 15° from square", strip.Title, StringComparison.Ordinal);
    }
}
