using Rootgap.Comparing;
using Rootgap.Fabricating;

namespace Rootgap.Tests.Laws;

/// <summary>The same steel written another way is the same steel.</summary>
[Trait("pace", "slow")]
public class ComparingLawsTest
{
    private static readonly long Cases = long.TryParse(Environment.GetEnvironmentVariable("ROOTGAP_CASES"), System.Globalization.CultureInfo.InvariantCulture, out var n) ? n : 200;

    [Fact]
    public void A_line_moved_and_turned_as_a_whole_touches_no_spool_and_no_piece() => Gen.Select(Gens.Sketches, Gen.Int[0, 3]).Holds((sketch, quarters) =>
        IsSameSteel(Comparison.Of(sketch.Packet().Fabrication, sketch.Moved(new(1000, -2000, 500), quarters).Packet().Fabrication)), iter: Cases, print: s => s.Item1.Yaml());

    [Fact]
    public void A_run_written_from_its_other_end_touches_no_spool_and_no_piece() => Gens.Sketches.Holds(sketch =>
        IsSameSteel(Comparison.Of(sketch.Packet().Fabrication, DrawingLawsTest.Backwards(sketch).Packet().Fabrication)), iter: Cases, print: s => s.Yaml());

    [Fact]
    public void One_leg_longer_changes_the_pieces_of_that_leg_and_no_other() => Gen.Select(Gens.Sketches, Gen.Int[0, 100]).Holds((sketch, which) =>
    {
        var legs = sketch.Legs.Select((l, i) => (l, i)).Where(x => x.l.By is not null).ToList();
        if (legs.Count == 0)
            return;
        var (leg, at) = legs[which % legs.Count];
        var longer = sketch with { Legs = [.. sketch.Legs.Select((l, i) => i == at ? l with { By = l.By + 40 } : l)] };
        var (old, now) = (sketch.Packet().Fabrication, longer.Packet().Fabrication);
        if (old.Cuts.Count != now.Cuts.Count)
            return;
        var comparison = Comparison.Of(old, now);
        Assert.DoesNotContain(comparison.Pieces, p => p.Old is null || p.New is null);
        Assert.All(comparison.Pieces.Where(p => !p.IsSame), p => Assert.True(p.New!.Pipe.Run == 0 && p.New.Pipe.FirstLeg <= at && at <= p.New.Pipe.LastLeg, p.New.Piece));
    }, iter: Cases);

    private static void IsSameSteel(Comparison comparison)
    {
        Assert.All(comparison.Pieces, p => Assert.True(p.IsSame, $"{p.Old?.Piece} {p.New?.Piece} {p.By} {string.Join("; ", p.Differences)}"));
        Assert.All(comparison.Spools, s => Assert.False(s.IsTouched, $"{s.Old} {s.New} {string.Join("; ", s.Why)} {string.Join("; ", comparison.Joints.Select(j => j.Says))}"));
        var fates = CutAlready.Of(comparison, [.. comparison.Pieces.Select(p => new CutPiece(p.Old!.Piece, null))]);
        Assert.All(fates, f => Assert.Equal(Fate.Usable, f.Fate));
    }
}
