using Rootgap.FitUp;
using Rootgap.Measure;

namespace Rootgap.Tests.FitUp;

/// <summary>What is screwed on behind a weld comes when the weld is cold: its heat spoils seats, sealant and made-up threads (common practice).</summary>
public class ScrewedLastTest
{
    private static FitSpool Spool(string main, string vent = "") => Begin($$"""
        drawing: V-1
        line: {size: 2, schedule: 80, class: 150, material: A106-B, flange: SW, ends: socket, fitting class: 3000}
        runs:
          - run: main
            start: {to: flange, at: {east: 0, north: 0, up: 0} }
            legs:
        {{string.Join('\n', main.Split('\n').Select(l => "      - " + l.Trim()))}}
        {{vent}}
        """);

    private static FitSpool Begin(string yaml) => Given.Packet(yaml).Fabrication is var f ? new FitJoints(f).OfSpool(f.Spools[0]) : null!;

    private const string Vent = """

          - run: vent
            size: 1/2
            ends: threaded
            start: {from: V1}
            legs:
              - {go: up, nipple: 75, by: makeup, to: valve, kind: ball, ends: threaded, class: 800, face to face: 60, mass: 0.4}
              - {go: up, by: makeup, to: plug}
        """;

    [Fact]
    public void A_half_coupling_is_welded_alone_and_its_valve_is_screwed_on_when_all_is_welded()
    {
        var spool = Spool("{go: east, by: 900, to: half coupling, name: V1, branch: up, size: 1/2, ends: threaded}\n{go: east, by: 900, to: flange}", Vent);
        // The nipple, the valve, the plug.
        Assert.Equal(3, spool.ScrewedLast.Count);
        var coupling = Assert.Single(spool.Parts, p => spool.ScrewedLast.Values.Contains(p.Id, StringComparer.Ordinal) && !spool.ScrewedLast.ContainsKey(p.Id));
        Assert.Contains("half coupling", coupling.Of.Name, StringComparison.Ordinal);
        Assert.All(spool.ScrewedLast.Keys, id => Assert.Equal(coupling.Id, spool.ScrewedOn(id)));
        var cards = FitWork.Cards(spool, FitOrder.Of(spool), _ => new JointAsMade(null, new PoseError { Rz = 0.02 }, null, false));
        Assert.All(cards, c => Assert.DoesNotContain(c.Step.Joint.Both.Parts, p => spool.ScrewedLast.ContainsKey(p.Id)));
        var card = cards.Single(c => c.Step.Weld.Between.Contains(coupling.Id));
        Assert.Equal(coupling.Id, card.Step.Joint.New.Id);
        Assert.Equal(coupling.Mass!.Value, card.Step.Joint.Brought.Mass, 1e-9);
        var said = new FitWords(Units.Millimetres, id => id).Besides(card);
        Assert.Contains(said, s => s.Contains("screwed on when all is welded and cold", StringComparison.Ordinal));
        Assert.All(cards.Where(c => c != card), c => Assert.Empty(c.NotYetOn));
        // They go with what carries them, to the last.
        var after = cards[^1].After;
        Assert.All(spool.ScrewedLast.Keys, id => Assert.Equal(after.MotionOf(coupling.Id), after.MotionOf(id)));
        Assert.NotEqual(Motion.None, after.MotionOf(coupling.Id));
    }

    // A screwed elbow between two pipes that are welded at their other ends: nobody can screw it in later.
    [Fact]
    public void What_is_screwed_between_two_welds_is_made_up_first()
    {
        var spool = Spool("{go: east, by: 900, to: coupling}\n{go: east, by: 500, to: elbow, ends: threaded}\n{go: north, by: 500, to: coupling}\n{go: north, by: 900, to: flange}");
        Assert.Empty(spool.ScrewedLast);
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
