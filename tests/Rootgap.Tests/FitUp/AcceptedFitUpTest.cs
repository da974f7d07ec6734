using Rootgap.FitUp;
using Rootgap.Measure;
using Rootgap.Packets;
using Rootgap.Sheets;

namespace Rootgap.Tests.FitUp;

/// <summary>What is said of the accepted drawings' joints and spools: orders, cards as drawn and with joints before them that are off, what readings mean, the final check.</summary>
public class AcceptedFitUpTest
{
    private static readonly DateTimeOffset When = new(2026, 3, 2, 8, 0, 0, TimeSpan.Zero);

    [Fact]
    public void The_orders_of_work_are_the_accepted_ones() => Accepted.Same("accepted-orders.txt", Accepted.Drawings.Select(d =>
    {
        var fitting = new FitJoints(d.Packet.Fabrication);
        return (d.Name, Accepted.Json(json => FitOrderJson.Write(json, [.. d.Packet.Fabrication.Spools.Select(s => (s, fitting.OfSpool(s), FitOrder.Of(fitting.OfSpool(s))))], d.Packet.IsBuildable)));
    }));

    [Fact]
    [Trait("pace", "slow")]
    public void The_cards_and_what_is_made_of_readings_are_the_accepted_ones() => Accepted.Same("accepted-cards.txt", Accepted.Few.Select(d => (d.Name, Accepted.Lines(Cards(d.Packet)))));

    [Fact]
    public void The_cards_of_two_parts_alone_in_every_set_up_are_the_accepted_ones() => Accepted.Same("accepted-alone.txt", Accepted.Drawings.Select(d => (d.Name, Accepted.Lines(Alone(d.Packet)))));

    [Fact]
    [Trait("pace", "slow")]
    public void The_cards_of_small_drawings_are_the_accepted_ones() => Accepted.Same("accepted-small.txt", Accepted.Mistakes.Where(d => d.Packet.IsBuildable).Select(d => (d.Name, Accepted.Lines(Alone(d.Packet)))));

    [Fact]
    [Trait("pace", "slow")]
    public void The_final_checks_are_the_accepted_ones() => Accepted.Same("accepted-final.txt", Accepted.Few.Select(d => (d.Name, Accepted.Lines(Final(d.Packet)))));

    // Every third joint is as drawn, the next off a little, the next far.
    private static PoseError Error(int i, double size = 1) => i % 3 == 0 ? PoseError.None : PoseError.From([.. Enumerable.Range(0, 6).Select(k => size * (i % 3) * Accepted.Figure(i, k) * (k < 3 ? 1.5 : 0.01))]);

    private static int Number(string joint) => int.Parse(string.Concat(joint.Where(char.IsDigit)), System.Globalization.CultureInfo.InvariantCulture);

    private static JointAsMade? Made(string joint) => Number(joint) % 3 == 0 ? null : new(null, Error(Number(joint), 0.4), null, IsWelded: Number(joint) % 2 == 0);

    private static IEnumerable<string> Cards(Packet packet)
    {
        var fitting = new FitJoints(packet.Fabrication);
        var words = new FitWords(packet.Drawing.Units, id => Wording.NameOf(packet.Fabrication, id));
        var i = 0;
        foreach (var spool in packet.Fabrication.Spools.Select(fitting.OfSpool))
        {
            foreach (var card in FitWork.Cards(spool, FitOrder.Of(spool), Made))
            {
                foreach (var line in Card(card, words, i++, packet))
                    yield return line;
            }
        }
    }

    private static IEnumerable<string> Alone(Packet packet)
    {
        var fitting = new FitJoints(packet.Fabrication);
        var words = FitWords.In(packet.Drawing.Units);
        var i = 0;
        foreach (var weld in fitting.Welds.Take(12))
        {
            var joint = fitting.Of(weld, flip: i % 2 == 1);
            var attitude = (Attitude)(i % 3);
            var setUp = attitude == Attitude.OnEnd && !SetUps.HasBase(joint) ? SetUps.Usual(fitting, joint) : SetUps.Of(fitting, joint, attitude, 30 * i);
            foreach (var line in Card(FitWork.Alone(fitting, weld, joint, setUp, i % 4 == 0 ? Math.Min(100, joint.HeldStraight) : null), words, i, packet))
                yield return line;
            i++;
        }
    }

    private static IEnumerable<string> Card(FitCard card, FitWords words, int i, Packet packet)
    {
        yield return words.Head(card);
        foreach (var line in words.Standing(card).Concat(words.StandingInShort(card)).Concat(words.Kept(card)).Concat(words.Besides(card)))
            yield return line;
        var error = Error(i);
        // All readings of the card, or some, with one that is wrong now and then.
        List<Taken> taken = [.. card.Targets.Where((_, k) => i % 4 != 1 || k % 3 == 0).Select((t, k) => new Taken(t.Reading, t.Reading.Measure(card.Standing, error) + (i % 5 == 4 && k == 2 ? 6 : 0)))];
        var found = Diagnosis.Of(card.Standing, card.Limits, taken, card.Targets);
        var before = Diagnosis.Of(card.Standing, card.Limits, [.. card.Targets.Select(t => new Taken(t.Reading, t.Value))], card.Targets);
        IReadOnlyList<string> say = [.. Remedy.Say(card.Standing, card.Limits, found, packet.Drawing.Units)];
        yield return Accepted.Json(json => FitJson.Write(json, card, found, [.. say, Remedy.Since(before, found, packet.Drawing.Units)]));
        yield return FitRecord.Entry(card.Standing, taken, found, say, packet.Drawing.Number, packet.Drawing.Revision, When);
    }

    private static IEnumerable<string> Final(Packet packet)
    {
        var fitting = new FitJoints(packet.Fabrication);
        var words = new FinalWords(new(packet.Drawing.Units, id => Wording.NameOf(packet.Fabrication, id)));
        var i = 0;
        foreach (var spool in packet.Fabrication.Spools.Select(fitting.OfSpool))
        {
            var steps = FitOrder.Of(spool);
            var (welded, tacked) = (FinalCheck.Welded(spool), FinalCheck.Tacked(spool, steps, null, Made));
            foreach (var check in (FinalCheck[])[welded, tacked])
            {
                var errors = check.Ends.Where(e => e != check.Base).Select((e, k) => (e.Name, Error: Error(i + k))).ToDictionary(e => e.Name, e => e.Error, StringComparer.Ordinal);
                List<EndTaken> taken = [.. check.Targets.Where((_, k) => i % 4 != 1 || k % 2 == 0).Select((t, k) => new EndTaken(t.Reading, check.Measure(t.Reading, errors) + (i % 5 == 4 && k == 1 ? 9 : 0)))];
                var left = EndLeft.Of(check, steps, Made);
                var found = check.Judge(taken);
                var say = words.Say(check, found);
                yield return FinalWords.State(check) + "; " + words.SetBy(check);
                yield return Accepted.Json(json => FinalJson.Write(json, check, check.IsWelded ? tacked : null, left, found, say));
                yield return Accepted.Lines(words.Say(check, left));
                yield return FinalReadings.Entry(check, taken, found, say, packet.Drawing.Number, packet.Drawing.Revision, When);
                i++;
            }
        }
    }
}
