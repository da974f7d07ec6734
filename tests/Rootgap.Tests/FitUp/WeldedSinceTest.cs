using Rootgap.FitUp;
using Rootgap.Measure;
using Rootgap.Records;
using Rootgap.Tests.Records;
using JointStage = Rootgap.Records.Step;

namespace Rootgap.Tests.FitUp;

/// <summary>
/// A joint that is welded, read or not, has drawn in: what comes after stands on that length. Held against a second drawing with no shrinkage whose legs are as long as the first one's have become:
/// by hand, the allowance of each weld that is only tacked (at the pipe, format: the whole of it at a fitting) and the gap error that stays are added to the leg.
/// </summary>
public class WeldedSinceTest
{
    private const double Draws = 2, Wider = 0.5;

    private static string Text(double east, double north, double shrinkage) =>
        FormattableString.Invariant($$"""
        drawing: F-1
        line: {size: 4, schedule: 40, class: 150, material: A106-B}
        shop: {root gap: 3.2, shrinkage: {{shrinkage}}}
        runs:
          - run: main
            start: {to: flange}
            legs:
              - {go: east, by: {{east}}, to: elbow}
              - {go: north, by: {{north}}, to: elbow}
              - {go: east, by: 1000, to: flange}

        """);

    private static FitSpool Spool(double east, double north, double shrinkage) =>
        Given.Packet(Text(east, north, shrinkage)).Fabrication is var f ? new FitJoints(f).OfSpool(f.Spools[0]) : null!;

    // W2 P1-C3, W1 C2-P1, W3 C3-P2: the third card tapes from the first flange's lip to the second pipe's far lip.
    private static IReadOnlyList<FitStep> Steps(FitSpool spool) => FitOrder.Of(spool, [new(1, Attitude.Rolled, 90), new(0), new(2)]).Steps;

    private static Target[] EndTapes(FitSpool spool, Func<string, JointAsMade?>? made = null) =>
        [.. FitWork.Cards(spool, Steps(spool), made)[2].Targets.Where(t => t.Reading is Reading.EndTape)];

    [Theory]
    [InlineData(false, false, Draws + Draws)]
    [InlineData(true, false, Draws)]
    [InlineData(true, true, Draws + Wider)]
    [InlineData(false, true, Draws + Draws + Wider)]
    public void A_joint_that_is_welded_is_shorter_for_what_comes_after(bool isWelded, bool isRead, double longer)
    {
        var made = new JointAsMade([], isRead ? PoseError.None with { Z = Wider } : null, null) { HasDrawnIn = isWelded };
        var stands = EndTapes(Spool(1500, 1200, Draws), id => id == "W2" ? made : null);
        // The second pipe is longer at both ends: its own weld and the next are not welded.
        var expected = EndTapes(Spool(1500 + longer, 1200 + Draws + Draws, 0));
        Assert.NotEmpty(expected);
        Assert.Equal(expected.Select(t => t.Reading), stands.Select(t => t.Reading));
        for (var i = 0; i < expected.Length; i++)
        {
            Assert.Equal(expected[i].Value, stands[i].Value, 1e-3);
            // As drawn: the same without the error.
            Assert.Equal(EndTapes(Spool(1500 + longer - (isRead ? Wider : 0), 1200 + Draws + Draws, 0))[i].Value, stands[i].Drawn, 1e-3);
        }
    }

    // Where nothing draws in, what was read at a joint stays all the same: the next card's tapes are those of a drawing whose leg is longer by it, and as drawn they are the drawing's own.
    [Theory]
    [InlineData(Wider)]
    [InlineData(-1.5)]
    public void What_was_read_stays_for_what_comes_after_without_any_shrinkage(double wider)
    {
        var stands = EndTapes(Spool(1500, 1200, 0), id => id == "W2" ? new([], PoseError.None with { Z = wider }, null) : null);
        var (expected, drawn) = (EndTapes(Spool(1500 + wider, 1200, 0)), EndTapes(Spool(1500, 1200, 0)));
        Assert.NotEmpty(expected);
        Assert.Equal(expected.Select(t => t.Reading), stands.Select(t => t.Reading));
        for (var i = 0; i < expected.Length; i++)
        {
            Assert.Equal(expected[i].Value, stands[i].Value, 1e-3);
            Assert.Equal(drawn[i].Value, stands[i].Drawn, 1e-3);
        }

        Assert.Contains(expected.Zip(drawn), t => Math.Abs(t.First.Value - t.Second.Value) > 0.1);
    }

    [Fact]
    public void The_card_and_the_final_check_say_which_welds_have_drawn_in()
    {
        var spool = Spool(1500, 1200, Draws);
        JointAsMade? Made(string id) => id == "W2" ? new([], null, null, IsWelded: true) : null;
        var cards = FitWork.Cards(spool, Steps(spool), Made);
        Assert.Equal((0, 1), (cards[0].DrawnIn.Count, cards[1].DrawnIn.Count));
        Assert.Contains("W2 is welded and has drawn in by what was allowed for", new FitWords(Units.Millimetres, id => id).Kept(cards[2]));
        var order = FitOrder.Of(spool);
        var (welded, tacked, partly) = (FinalCheck.Welded(spool), FinalCheck.Tacked(spool, order), FinalCheck.Tacked(spool, order, made: Made));
        Assert.Equal("tacked, W2 welded", FinalWords.State(partly));
        // From flange to flange along the east the spool is longer by each of its four welds there that is only tacked.
        double East(FinalCheck c) => c.Ends[1].Centre.X - c.Ends[0].Centre.X;
        Assert.Equal((4 * Draws, 3 * Draws), (Math.Round(East(tacked) - East(welded), 6), Math.Round(East(partly) - East(welded), 6)));
        Assert.Equal(0, East(FinalCheck.Tacked(spool, order, made: _ => new([], null, null, IsWelded: true))) - East(welded), 1e-6);
    }

    // What a fitter types at the joint and then presses is the same as a file with his readings and, below them, `state: welded`.
    [Theory]
    [InlineData(false)]
    [InlineData(true)]
    public void Pressed_in_the_app_it_is_the_same_as_written_in_a_file(bool isRead)
    {
        var job = new ShopJob(Text(1500, 1200, Draws));
        var fabrication = job.Made();
        var spool = new FitJoints(fabrication).OfSpool(fabrication.Spools[0]);
        var card = FitWork.Cards(spool, Steps(spool))[0];
        Assert.Equal("W2", card.Step.Weld.Id);
        List<Taken> taken = isRead ? [.. card.Targets.Select(t => new Taken(t.Reading, Math.Round(t.Reading.Measure(card.Standing, new(0, 0, Wider, 0, 0, Angles.ToRadians(0.8))), 4)))] : [];
        string? first = null;
        foreach (var t in taken)
        {
            var fact = job.Add(new ReadingsTaken(job.NextId, "Ann", job.Now, job.Drawing(), "W2", card.Standing.SetUp.Word, card.Step.Joint.Held.Id, card.Standing.Mark, [t]) { First = first, Versions = job.Versions() });
            first ??= fact.Id;
        }

        job.Step("W2", JointStage.Tacked);
        var tacked = new SpoolAsMade(spool, job.Done());
        job.Step("W2", JointStage.Welded);
        var made = new SpoolAsMade(spool, job.Done());
        Assert.NotEqual(tacked.Key, made.Key);
        Assert.Equal("W2", made.Steps[0].Weld.Id);

        var rows = string.Concat(taken.Select(t => $"\n      - {FitRecord.Line(t)}"));
        var (sets, errors) = FitReadings.ReadAll(FormattableString.Invariant($"- joint: W2\n  set-up: {card.Standing.SetUp.Word}\n  mark: {card.Standing.Mark}\n  readings:{(rows.Length > 0 ? rows : " []")}\n- joint: W2\n  state: welded\n"), "w2.yaml");
        Assert.Empty(errors);
        var (pressed, written, before) = (Values(id => made.Joint(id, made.Steps)), Values(id => FitReadings.Made(sets, id)), Values(id => tacked.Joint(id, tacked.Steps)));
        Assert.Equal(pressed.Count, written.Count);
        for (var i = 0; i < pressed.Count; i++)
            Assert.Equal(written[i], pressed[i], 1e-4);
        Assert.Contains(pressed.Zip(before), p => Math.Abs(p.First - p.Second) > 1);

        List<double> Values(Func<string, JointAsMade?> of) => [.. FitWork.Cards(spool, made.Steps, of).Skip(1).SelectMany(c => c.Targets).Select(t => t.Value)];
    }

    // Of a shop that allows for no shrinkage a final check read tacked is kept like any other; once a weld has drawn in, what was read before it says nothing of the spool as it stands.
    [Theory]
    [InlineData(0)]
    [InlineData(Draws)]
    public void A_final_check_read_tacked_counts_until_a_weld_draws_in(double shrinkage)
    {
        var job = new ShopJob(Text(1500, 1200, shrinkage));
        var fabrication = job.Made();
        var spool = new FitJoints(fabrication).OfSpool(fabrication.Spools[0]);
        foreach (var weld in spool.Welds)
            job.Step(weld.Id, JointStage.Tacked);
        (SpoolAsMade Made, FinalCheck Check, IReadOnlyList<KeptEnd> Kept) Now()
        {
            var made = new SpoolAsMade(spool, job.Done());
            List<SpoolRead> read = [.. job.Done().SpoolReadings[spool.Spool.Name].Where(e => e.Counts).Select(e => e.As)];
            var stands = made.IsTacked(read) ? FinalCheck.Tacked(spool, made.Steps, made: id => made.Joint(id, made.Steps)) : FinalCheck.Welded(spool);
            return (made, stands, SpoolGoneOver.Of(stands, read, made.DrewIn));
        }

        var check = Now().Check;
        Assert.False(check.IsWelded);
        foreach (var target in check.Targets)
            job.Add(new SpoolRead(job.NextId, "Ann", job.Now, job.Drawing(), spool.Spool.Name, check.Base!.Name, FinalReadings.Row(new(target.Reading, target.Value))) { IsTacked = true, Versions = job.Versions() });
        Assert.Equal(check.Targets.Count, Now().Kept.Count);
        Assert.Equal(Verdict.Within, check.Judge([.. Now().Kept.Select(k => k.Taken)]).Verdict);
        job.Step("W2", JointStage.Welded);
        Assert.Equal(shrinkage > 0 ? 0 : check.Targets.Count, Now().Kept.Count);
        foreach (var weld in spool.Welds)
            job.Step(weld.Id, JointStage.Welded);
        Assert.True(Now().Check.IsWelded);
    }

    // A bevelled end for a weld at site stands out by what that weld will draw in until it is made, however the spool itself stands (format: the length as cut counts the weld at either end).
    [Fact]
    public void An_open_end_keeps_the_allowance_of_the_weld_that_is_made_at_site()
    {
        double East(double shrinkage)
        {
            var f = Given.Packet(FormattableString.Invariant($"drawing: F-1\nline: {{size: 4, schedule: 40, class: 150}}\nshop: {{root gap: 3.2, shrinkage: {shrinkage}}}\nruns:\n  - run: main\n    start: {{to: flange}}\n    legs:\n      - {{go: east, by: 2000, to: elbow, end: field}}\n      - {{go: north, by: 900, to: flange}}\n")).Fabrication;
            var check = FinalCheck.Welded(new FitJoints(f).OfSpool(f.Spools[0]));
            return check.Ends[1].Centre.X - check.Ends[0].Centre.X;
        }

        Assert.Equal(Draws, East(Draws) - East(0), 1e-6);
    }
}
