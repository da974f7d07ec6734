using Rootgap.Comparing;
using Rootgap.Fabricating;

namespace Rootgap.Tests.Comparing;

/// <summary>
/// Pairs of revisions with known effects. Which piece changes by how much is the drawing's own arithmetic: work points less take-offs of ASME B16.9 and B16.5; which spool
/// is another is seen by laying the two isometrics on each other.
/// </summary>
[Trait("pace", "slow")]
public class RevisionPairsTest
{
    public static TheoryData<string> Pairs => [.. RevisionPairs.All.Select(p => p.Says)];

    [Theory]
    [MemberData(nameof(Pairs))]
    public void A_revision_changes_what_it_changes_and_nothing_else(string says)
    {
        var pair = RevisionPairs.All.Single(p => p.Says == says);
        var comparison = Of(pair);
        Assert.Equal(pair.Touched, string.Join(' ', comparison.Spools.Where(s => s.IsTouched).Select(s => s.New ?? "-" + s.Old).Order(StringComparer.Ordinal)));
        Assert.Equal(pair.Cut, string.Join(", ", Fates(comparison).Select(f => Says(comparison, f)).OfType<string>()));
    }

    [Fact]
    public void There_are_forty_of_them() => Assert.InRange(RevisionPairs.All.Count(), 40, int.MaxValue);

    [Fact]
    public void Back_again_the_same_spools_are_touched() => Assert.All(RevisionPairs.All, pair =>
    {
        var (forth, back) = (Of(pair), Of(pair with { Old = pair.New, New = pair.Old }));
        Assert.Equal(
            forth.Spools.Where(s => s is { Old: not null, New: not null, IsTouched: false }).Select(s => (s.Old, s.New)).Order(),
            back.Spools.Where(s => s is { Old: not null, New: not null, IsTouched: false }).Select(s => (Old: s.New, New: s.Old)).Order());
    });

    [Fact]
    public void A_drawing_and_itself_are_the_same_in_every_pair() => Assert.All(RevisionPairs.All, pair => Assert.True(Of(pair with { Old = pair.New }).IsSame, pair.Says));

    [Theory]
    [InlineData("the last leg to the other side: no piece changes, the spool does", "built to the other hand")]
    [InlineData("the whole to the other hand", "built to the other hand")]
    [InlineData("the drain turned round at its elbow", "W8 changed")]
    [InlineData("the holes of the first flange turned", "W1 changed")]
    [InlineData("the outlet moved along the header", "1-A is cut differently")]
    public void A_touched_spool_says_why(string says, string why) =>
        Assert.Contains(Of(RevisionPairs.All.Single(p => p.Says == says)).Spools, s => s.Why.Any(w => w.Contains(why, StringComparison.Ordinal)));

    [Fact]
    public void A_stem_that_is_turned_is_told() =>
        Assert.Contains("its stem is turned by 90 degrees", Assert.Single(Of(RevisionPairs.All.Single(p => p.Says == "the stem of the valve turned")).Components).Says, StringComparison.Ordinal);

    private static Comparison Of(RevisionPair pair) => Comparison.Of(Given.Packet(pair.Old).Fabrication, Given.Packet(pair.New).Fabrication);

    private static IReadOnlyList<CutAlready> Fates(Comparison comparison) =>
        CutAlready.Of(comparison, [.. comparison.Pieces.Select(p => p.Old).OfType<Cut>().OrderBy(c => c.Piece, StringComparer.Ordinal).Select(c => new CutPiece(c.Piece, null))]);

    /// <summary>Null for a piece that is usable in its own place as it is.</summary>
    private static string? Says(Comparison comparison, CutAlready fate)
    {
        var own = comparison.OfPiece(fate.Piece.Piece)!.Now;
        var at = fate.Says.IndexOf(" off the end at ", StringComparison.Ordinal);
        var said = fate.Fate == Fate.Spoiled ? " spoiled"
            : (fate.UseAs == own ? "" : $" as {fate.UseAs}")
            + (fate.TrimBy > 0 ? FormattableString.Invariant($" trim {fate.TrimBy:0.#} at {fate.Says[(at + 16)..].Split(' ')[0]}") : "")
            + (fate.Says.Contains("to be made", StringComparison.Ordinal) ? " holes 1" : "");
        return said.Length > 0 ? fate.Piece.Piece + said : null;
    }
}
