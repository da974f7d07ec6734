using Rootgap.Fabricating;
using Rootgap.Tests.Checks;

namespace Rootgap.Tests.Fabrication;

/// <summary>What is told of pieces, spools and rows of the list, from drawings: by the geometry beside each and the sizes of ASME B36.10M, B16.5 and B16.9.</summary>
public class PiecesTest
{
    private static Rootgap.Fabricating.Fabrication Of(string legs, string more = "", string line = "size: 6, schedule: 40, class: 150", string start = "to: open") => Desk.Packet(Desk.Drawing(legs, more, line, start)).Fabrication!;

    // Header 219.1 and branch 114.3 by 6.02: the sides reach 109.55 - root (109.55^2 - 51.13^2) = 12.66 deeper; the saw leaves them on, and 16.07 kg/m (B36.10M) are weighed with them.
    [Fact]
    public void A_saddle_is_sawn_and_weighed_with_its_sides()
    {
        var branch = Desk.Packet(Desk.Drawing("{go: east, by: 1500, to: stub-in, name: A, size: 4, branch: up}\n{go: east, by: 1500, to: open}", line: "size: 8, schedule: 40, class: 150", start: "to: open")
            + "\n  - {run: branch, start: {from: A}, legs: [{go: up, by: 400, to: open}]}").Fabrication!.Cuts.Single(c => c.Pipe.Size == Given.Size("4"));
        Assert.Equal(12.66, branch.Saddle, 0.01);
        Assert.Equal(400 - 109.55 - 3.2, branch.Length, 0.01);
        Assert.Equal((400 - 109.55 - 3.2 + 12.66) / 1000 * 16.07, branch.Mass, 0.01);
    }

    // Common practice: a fitting's weld draws in its pipe alone, two pipes share theirs.
    [Theory]
    [InlineData("{go: north, by: 1000, to: weld}\n{go: north, by: 1000, to: elbow}\n{go: up, by: 900, to: open}", 1, 1, 2)]
    [InlineData("{go: north, by: 1000, to: elbow}\n{go: up, by: 900, to: weld}\n{go: up, by: 900, to: open}", 1, 2, 1)]
    public void Each_end_has_its_own_share_of_the_shrinkage(string legs, int piece, double start, double end)
    {
        var cut = Of(legs, "shop: {shrinkage: 2}").Cuts[piece];
        Assert.Equal((start, end), (Math.Round(cut.Allowances.Start, 9), Math.Round(cut.Allowances.End, 9)));
        Assert.Equal(start + end, cut.Allowance, 1e-9);
    }

    // Two legs of one pipe: what its two welds draw in, twice 2, is added where it ends, and the welds that stand in a leg draw it in again.
    [Fact]
    public void The_allowance_of_a_pipe_through_a_point_is_in_its_last_leg()
    {
        var lengths = Of("{go: north, by: 1000, to: point}\n{go: north, by: 1200, to: flange}", "shop: {shrinkage: 2}", start: "to: flange").Spools.Single().Lengths;
        Assert.Equal([1000, 1204], lengths.Select(l => l.AsFitted), (a, b) => Math.Abs(a - b) < 1e-9);
    }

    [Theory]
    [InlineData("{go: north, by: 2000, begin: final-fit, to: flange}", "final-fit extra at the start", 100)]
    [InlineData("{go: north, by: 2000, end: final-fit, to: flange}", "final-fit extra at the end", 100)]
    [InlineData("{go: north, by: 2000, begin: final-fit, end: final-fit, to: flange}", "final-fit extra at both ends", 200)]
    public void A_pieces_sum_says_at_which_end_it_is_left_long(string leg, string says, double extra) =>
        Assert.Contains((says, extra), Of(leg, "shop: {final fit extra: 100}", start: "to: flange").Cuts.Single().Sum.Select(t => (t.What, t.Mm)));

    // Half of 168.3 square to the pipe; along east and north each end stands out by 84.15 sin 45.
    [Fact]
    public void The_box_of_a_skew_pipe_goes_out_to_the_rims_of_its_ends()
    {
        var box = Of("{go: {east: 1000, north: 1000}, to: open}").Spools.Single().Box;
        Assert.Equal([1000 + (168.3 * Math.Sin(Math.PI / 4)), 1000 + (168.3 * Math.Sin(Math.PI / 4)), 168.3], [box.X, box.Y, box.Z], (a, b) => Math.Abs(a - b) < 0.01);
        // Three, four, five: the rim of a pipe that leans by 3 east to 4 up reaches 4/5 of its radius east and 3/5 up.
        box = Of("{go: {east: 600, up: 800}, to: open}").Spools.Single().Box;
        Assert.Equal([600 + (168.3 * 0.8), 168.3, 800 + (168.3 * 0.6)], [box.X, box.Y, box.Z], (a, b) => Math.Abs(a - b) < 0.01);
    }

    [Fact]
    public void A_name_that_stands_at_two_spools_is_told_apart_by_a_letter() => Assert.Equal(["A", "Ab", "Ac", "4"],
        Of("{go: north, by: 900, to: elbow, spool: A}\n{go: up, by: 900, begin: field, to: elbow, spool: A}\n{go: north, by: 900, begin: field, to: elbow, spool: A}\n{go: up, by: 900, begin: field, to: elbow}\n{go: north, by: 900, to: open}").Spools.Select(s => s.Name), StringComparer.Ordinal);

    [Fact]
    public void Pieces_are_lettered_A_to_Z_and_then_AA()
    {
        var pieces = Of(string.Concat(Enumerable.Repeat("{go: north, by: 200, to: weld}\n", 54)) + "{go: north, by: 200, to: open}").Cuts.Select(c => c.Piece).ToList();
        Assert.Equal(["1-A", "1-Y", "1-Z", "1-AA", "1-AB", "1-AZ", "1-BA"], new[] { 0, 24, 25, 26, 27, 51, 52 }.Select(i => pieces[i]), StringComparer.Ordinal);
    }

    // ASME B16.5: 100 for NPS 6 class 150; a spacer of 16.8 and its own gasket of 3.2 make 120, which is a step; one of 17.8 goes to the next, 125.
    [Theory]
    [InlineData(16.8, 120)]
    [InlineData(17.8, 125)]
    public void Studs_through_a_spacer_are_as_long_as_the_next_step(double spacer, double length) =>
        Assert.Equal(length, Of($"{{go: north, by: 1500, to: in-line item, what: spacer, ends: wafer, face to face: {spacer}}}\n{{go: north, by: 1500, to: open}}").Bolting.Max(b => b.Length), 1e-6);

    private static string Told(string row, string legs, string line, string start) =>
        string.Join("; ", Of(legs, $"materials: [{{item: 1, {row}, quantity: 1}}]", line, start).Materials.Single(m => m.Item is not null).Disagreements);

    // B16.5: NPS 6 class 150 takes studs of 100. A nipple is bought at its length.
    [Theory]
    [InlineData("what: stud bolt, size: 3/4, length: 105", "")]
    [InlineData("what: stud bolt, size: 3/4, length: 107", "107 long listed, 100 needed")]
    [InlineData("what: stud bolt, size: 3/4, length: 93", "93 long listed, 100 needed")]
    public void A_row_of_studs_disagrees_by_more_than_a_step(string row, string says) => Assert.Equal(says, Told(row, "{go: north, by: 1500, to: flange}", "size: 6, schedule: 40, class: 150", "to: open"));

    [Theory]
    [InlineData("what: nipple, size: 1, length: 101, schedule: 80", "")]
    [InlineData("what: nipple, size: 1, length: 110, schedule: 80", "110 long listed, 100 drawn")]
    public void A_nipple_of_another_length_disagrees(string row, string says) =>
        Assert.Equal(says, Told(row, "{go: east, by: 500, to: elbow}\n{go: north, by: makeup, nipple: 100, to: elbow}\n{go: up, by: 500, to: open, ends: threaded}", "size: 1, schedule: 80, class: 150, ends: threaded", "to: open, ends: threaded"));
}
