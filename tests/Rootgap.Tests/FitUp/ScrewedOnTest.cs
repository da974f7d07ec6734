using Rootgap.FitUp;

namespace Rootgap.Tests.FitUp;

/// <summary>What is screwed on behind a weld comes when the weld is cold: its heat spoils seats, sealant and made-up threads (common practice).</summary>
public class ScrewedOnTest
{
    private static FitSpool Begin(string yaml) => Given.Packet(yaml).Fabrication is var f ? new FitJoints(f).OfSpool(f.Spools[0]) : null!;

    [Fact]
    public void A_half_coupling_is_brought_alone_before_its_nipple_valve_and_plug()
    {
        var spool = Begin("""
            drawing: V-1
            line: {size: 2, schedule: 80, class: 150, material: A106-B, flange: SW, ends: socket, fitting class: 3000}
            runs:
              - run: main
                start: {to: flange, at: {east: 0, north: 0, up: 0} }
                legs:
                  - {go: east, by: 900, to: half coupling, name: V1, branch: up, size: 1/2, ends: threaded}
                  - {go: east, by: 900, to: flange}
              - run: vent
                size: 1/2
                ends: threaded
                start: {from: V1}
                legs:
                  - {go: up, by: makeup, nipple: 75, to: valve, kind: ball, ends: threaded, class: 800, face to face: 62, mass: 0.4}
                  - {go: up, by: makeup, to: plug}
            """);
        Assert.Equal(3, spool.Screwed.Count);
        // From the coupling outward, each on the one before.
        Assert.Equal(spool.Screwed.Skip(1).Select(s => s.On), spool.Screwed.SkipLast(1).Select(s => s.Part));
        var coupling = spool.Screwed[0].On;
        var card = FitWork.Cards(spool, FitOrder.Of(spool)).Single(c => c.Step.Weld.Between.Contains(coupling.Id));
        Assert.Equal(coupling.Mass!.Value, card.Step.Joint.Brought.Mass, 1e-9);
    }

    // A screwed elbow between two pipes that are welded at their other ends: nobody can screw it in later.
    [Fact]
    public void What_is_screwed_between_two_welds_is_made_up_first()
    {
        var spool = Begin("""
            drawing: V-1
            line: {size: 2, schedule: 80, class: 150, material: A106-B, flange: SW, ends: socket, fitting class: 3000}
            runs:
              - run: main
                start: {to: flange, at: {east: 0, north: 0, up: 0} }
                legs:
                  - {go: east, by: 900, to: coupling}
                  - {go: east, by: 500, to: elbow, ends: threaded}
                  - {go: north, by: 500, to: coupling}
                  - {go: north, by: 900, to: flange}
            """);
        Assert.Empty(spool.Screwed);
        Assert.Contains(spool.Pieces, p => p.Parts.Length == 3);
    }

    [Fact]
    public void A_spool_without_a_weld_is_one_piece()
    {
        var spool = Begin("""
            drawing: V-1
            line: {size: 1, schedule: 80, class: 150, material: A106-B, ends: threaded, fitting class: 3000}
            runs:
              - run: main
                start: {to: open, ends: threaded, at: {east: 0, north: 0, up: 0} }
                legs:
                  - {go: east, by: 500, to: elbow}
                  - {go: north, by: 500, to: open, ends: threaded}
            """);
        Assert.Equal(3, Assert.Single(spool.Pieces).Parts.Length);
    }
}
