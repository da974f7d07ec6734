using Rootgap.Comparing;
using Rootgap.Tests.Checks;
using Made = Rootgap.Fabricating.Fabrication;

namespace Rootgap.Tests.Comparing;

/// <summary>Two revisions beside each other. Lengths are the drawing's figures less take-offs of ASME B16.9 and B16.5 (NPS 6: elbow 229, class 150 weld neck 89) and gaps of 3.2.</summary>
public class ComparisonTest
{
    private const string Legs = """
        {go: up, by: 1450, to: elbow}
        {go: north, by: 3200, to: elbow, end: field}
        {go: up, by: 1000, to: elbow}
        {go: east, by: 2000, to: flange}
        """;

    private static Made Of(string legs, string more = "") => Desk.Packet(Desk.Drawing(legs, more)).Fabrication;

    private static Comparison Compare(string newLegs, string oldMore = "", string newMore = "") => Comparison.Of(Of(Legs, oldMore), Of(newLegs, newMore));

    private static string With(string text, string by)
    {
        Assert.Contains(text, Legs, StringComparison.Ordinal);
        return Legs.Replace(text, by, StringComparison.Ordinal);
    }

    [Fact]
    public void A_drawing_and_itself_are_the_same()
    {
        var comparison = Compare(Legs);
        Assert.True(comparison.IsSame);
        Assert.Equal(4, comparison.Pieces.Count);
    }

    [Fact]
    public void A_longer_leg_makes_one_piece_longer_by_as_much_and_touches_its_spool_only()
    {
        var comparison = Compare(With("3200", "3350"));
        var piece = Assert.Single(comparison.Pieces, p => !p.IsSame);
        Assert.Equal(("1-B", "1-B"), (piece.Old!.Piece, piece.New!.Piece));
        Assert.Equal(150, piece.By, 6);
        Assert.Equal("1", Assert.Single(comparison.Spools, s => s.IsTouched).New);
        Assert.Contains("north", Assert.Single(comparison.Ends).Says, StringComparison.Ordinal);
        Assert.Empty(comparison.Joints);
    }

    [Fact]
    public void Two_legs_put_in_are_new_and_the_pieces_behind_keep_their_lengths_under_new_marks()
    {
        var comparison = Compare(With("{go: up, by: 1000, to: elbow}", "{go: up, by: 1000, to: elbow}\n{go: west, by: 700, to: elbow}\n{go: up, by: 800, to: elbow}"));
        Assert.Equal(2, comparison.Pieces.Count(p => p.Old is null));
        Assert.DoesNotContain(comparison.Pieces, p => p.New is null);
        var last = comparison.Pieces.Single(p => p.New?.Pipe.LastLeg == 5);
        Assert.Equal(("2-B", "2-D", 0.0), (last.Old!.Piece, last.New!.Piece, Math.Round(last.By, 6)));
        Assert.Equal(2, comparison.Components.Count(c => c.Kind == "added" && c.Name.StartsWith("elbow 90 LR", StringComparison.Ordinal)));
        // The elbow that stays is welded to another piece on one side: that weld is gone, and five are new.
        Assert.Equal((5, 1), (comparison.Joints.Count(j => j.Kind == "added"), comparison.Joints.Count(j => j.Kind == "removed")));
    }

    [Fact]
    public void A_weld_moved_to_site_is_told_and_parts_a_spool()
    {
        var comparison = Compare(With("{go: up, by: 1000, to: elbow}", "{go: up, by: 1000, to: elbow, end: field}"));
        Assert.Contains("shop is now field", Assert.Single(comparison.Joints).Says, StringComparison.Ordinal);
        Assert.Contains(comparison.Spools, s => s.Old is null);
    }

    [Fact]
    public void A_removed_outlet_changes_the_holes_of_its_header()
    {
        var comparison = Comparison.Of(Of("{go: north, by: 1000, to: outlet, name: O1, branch: up, size: 2}\n{go: north, by: 1000, to: flange}"), Of("{go: north, by: 2000, to: flange}"));
        Assert.Contains("holes", Assert.Single(comparison.Pieces).Differences.Single(), StringComparison.Ordinal);
        Assert.Contains(comparison.Components, c => c.Kind == "removed" && c.Name.StartsWith("outlet", StringComparison.Ordinal));
    }

    [Fact]
    public void Items_are_compared_by_number()
    {
        var comparison = Compare(Legs, "materials: [{item: 1, what: pipe, size: 6, schedule: 40, quantity: 8 m}, {item: 2, what: cap, size: 6}]", "materials: [{item: 1, what: pipe, size: 6, schedule: 40, quantity: 9 m}, {item: 3, what: tee, size: 6}]");
        Assert.Equal(["item 1: quantity 8 m is now 9 m", "item 3, tee NPS 6", "item 2, cap NPS 6"], comparison.Items.Select(i => i.Says));
    }

    private static CutAlready FateOf(string newLegs, string piece, string newMore = "") => CutAlready.Of(Compare(newLegs, newMore: newMore), [CutPiece.Parse(piece, out _)!.Value]).Single();

    [Fact]
    public void A_piece_whose_leg_did_not_change_is_usable_as_it_is() => Assert.Equal(Fate.Usable, FateOf(With("3200", "3350"), "1-A").Fate);

    [Fact]
    public void A_piece_that_is_now_shorter_is_trimmed_by_the_difference()
    {
        var fate = FateOf(With("3200", "3050"), "1-B");
        Assert.Equal((Fate.UsableTrimmed, "1-B"), (fate.Fate, fate.UseAs));
        Assert.Equal(150, fate.TrimBy, 6);
    }

    // All four are cut, so no other place is open.
    [Fact]
    public void A_piece_that_is_now_longer_is_spoiled_by_the_difference()
    {
        var fates = CutAlready.Of(Compare(With("3200", "3350")), [new("1-A", null), new("1-B", null), new("2-A", null), new("2-B", null)]);
        Assert.Equal([Fate.Usable, Fate.Spoiled, Fate.Usable, Fate.Usable], fates.Select(f => f.Fate));
        Assert.Contains("150.0 too short for 1-B", fates[1].Says, StringComparison.Ordinal);
    }

    // Leg 2 was 3200 - 2 x 229 - 2 x 3.2 = 2735.6 and is now 3350: too short there, and long enough for the last, 2000 - 229 - 89 - 6.4 = 1675.6.
    [Fact]
    public void A_spoiled_piece_is_offered_to_another_place_of_the_same_pipe()
    {
        var fates = CutAlready.Of(Compare(With("3200", "3350")), [new("1-A", null), new("1-B", null)]);
        Assert.Equal("2-B", fates[1].UseAs);
        Assert.Equal(2735.6 - 1675.6, fates[1].TrimBy, 6);
    }

    [Fact]
    public void A_piece_measured_short_is_judged_by_what_it_is()
    {
        var fate = CutAlready.Of(Compare(Legs), [new("2-B", 1600)]).Single();
        Assert.NotEqual("2-B", fate.UseAs);
    }

    [Fact]
    public void A_piece_of_another_wall_is_spoiled() =>
        Assert.Equal(Fate.Spoiled, CutAlready.Of(Comparison.Of(Of(Legs), Desk.Packet(Desk.Drawing(Legs, line: "size: 6, schedule: 80, class: 150")).Fabrication), [new("1-A", null)]).Single().Fate);

    // Extra of 100: a piece 60 short still has 40 of it.
    [Fact]
    public void A_final_fit_piece_may_be_short_of_its_extra()
    {
        var legs = With("end: field", "end: final-fit");
        var fate = CutAlready.Of(Comparison.Of(Of(legs), Of(legs.Replace("3200", "3260", StringComparison.Ordinal))), [new("1-B", null)]).Single();
        Assert.Equal(Fate.Usable, fate.Fate);
        Assert.Contains("40.0 of the 100.0 final-fit extra", fate.Says, StringComparison.Ordinal);
    }

    [Fact]
    public void A_mark_that_the_old_drawing_does_not_have_is_unknown() => Assert.Equal(Fate.Unknown, FateOf(Legs, "7-Q").Fate);

    [Theory]
    [InlineData("1-A", "1-A", null)]
    [InlineData(" 1-A , 1146.4 ", "1-A", 1146.4)]
    [InlineData("1-A;1146.4", "1-A", 1146.4)]
    [InlineData("\"1-A\",\"1146.4\",x", "1-A", 1146.4)]
    public void A_line_is_a_mark_and_perhaps_a_length(string line, string piece, double? length) => Assert.Equal(new CutPiece(piece, length), CutPiece.Parse(line, out _));

    [Theory]
    [InlineData("")]
    [InlineData("# cut on Monday")]
    [InlineData("piece,length")]
    public void Headings_and_comments_are_no_pieces(string line)
    {
        Assert.Null(CutPiece.Parse(line, out var wrong));
        Assert.Null(wrong);
    }

    [Theory]
    [InlineData("1-A, abc", "\"abc\" is no length")]
    [InlineData("1-A, -5", "\"-5\" is no length")]
    [InlineData("1-A; 1146,4", "write the decimal sign as a point, 1146.4")]
    [InlineData(", 1146.4", "names no piece")]
    [InlineData("1-A, 1e9", "is no length")]
    public void A_line_that_cannot_be_read_is_refused_with_what_to_write(string line, string told)
    {
        CutPiece.Parse(line, out var wrong);
        Assert.Contains(told, wrong, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("north leg-A 1146.4", "north leg-A", 1146.4)]
    [InlineData("1-A, 45 1/8 in", "1-A", 1146.175)]
    public void A_spool_may_have_a_blank_in_its_name_and_a_length_its_unit(string line, string piece, double mm) => Assert.Equal(new CutPiece(piece, mm), CutPiece.Parse(line, out _));
}
