using System.Globalization;
using System.Text;
using Rootgap.FitUp;
using Rootgap.Records;
using static Rootgap.Tests.Records.FactGens;

namespace Rootgap.Tests.Records;

public class JobRecordTest
{
    private static readonly DrawingRef D = new("D-1", "2");

    private static DrawingRecord Done(JobRecord record) => new Following().Of(record, "d.yaml", SpoolStatesTest.Line.Fabrication, []);

    /// <summary>All that a record says, as text.</summary>
    private static string Said(JobRecord record)
    {
        var text = new StringBuilder();
        foreach (var e in record.Facts)
            text.Append(CultureInfo.InvariantCulture, $"{FactJson.Text(e.Fact)} {string.Join(',', e.Withdrawals.Select(w => w.Id))}\n");
        foreach (var (path, file) in record.Files.OrderBy(f => f.Key, StringComparer.Ordinal))
            text.Append(CultureInfo.InvariantCulture, $"{path}: {string.Join(',', file.Heads.Select(h => h.Id))} of {string.Join(',', file.Versions.Select(h => h.Fact.Id))}\n");
        text.AppendJoin(',', record.OnDrawings.Select(f => f.Fact.Id)).Append('\n');
        var done = Done(record);
        foreach (var joint in done.Steps.OrderBy(s => s.Key, StringComparer.Ordinal))
            text.Append(CultureInfo.InvariantCulture, $"{joint.Key} {done.StepOf(joint.Key)}\n");
        foreach (var piece in done.Pieces.OrderBy(s => s.Key, StringComparer.Ordinal))
            text.Append(CultureInfo.InvariantCulture, $"{piece.Key} {done.CutOf(piece.Key)?.Id}\n");
        foreach (var marked in done.Marked)
            text.Append(CultureInfo.InvariantCulture, $"{marked.Entry.Fact.Id} {marked.Mark} {marked.Now}\n");
        return text.ToString();
    }

    // The law of a set: union is commutative and idempotent, so whatever way facts travel everybody ends with the same record
    // (Shapiro et al., "Conflict-free replicated data types", 2011: grow-only set).
    [Fact]
    public void The_same_facts_in_any_order_and_however_often_give_the_same_record() =>
        Gen.Select(Jobs, Gen.Int[0, int.MaxValue], Gen.Int[0, 20]).Holds((facts, seed, again) =>
        {
            var chance = new Random(seed);
            var twice = facts.Concat(Enumerable.Range(0, again).Select(_ => facts[chance.Next(facts.Length)])).ToArray();
            chance.Shuffle(twice);
            return Said(JobRecord.Of(facts)) == Said(JobRecord.Of(twice));
        }, iter: 2000);

    [Fact]
    public void No_fact_is_ever_lost_from_a_record() =>
        Jobs.Holds(facts => JobRecord.Of(facts).Facts.Count == facts.Length, iter: 300);

    [Fact]
    public void One_id_used_for_two_facts_gives_everybody_the_same_one_of_the_two()
    {
        var (one, other) = (new PieceCut(Id(1), "Jo", Noon, D, "1-A"), new PieceCut(Id(1), "Ann", Noon, D, "1-B"));
        Assert.Equal(Said(JobRecord.Of([one, other])), Said(JobRecord.Of([other, one])));
    }

    private static FileSaved Saved(int id, string text, params int[] bases) => FileSaved.OfText(Id(id), "Jo", Noon.AddMinutes(id), "a.yaml", text, [.. bases.Select(Id)]);

    private static int[] Heads(params Fact[] facts) => [.. JobRecord.Of(facts).Files["a.yaml"].Heads.Select(h => Convert.ToInt32(h.Id[..8], 16))];

    [Fact]
    public void A_version_takes_the_place_of_the_one_it_was_made_from() => Assert.Equal([2], Heads(Saved(1, "a"), Saved(2, "b", 1)));

    [Fact]
    public void Two_people_who_change_the_same_version_are_both_kept() => Assert.Equal([2, 3], Heads(Saved(1, "a"), Saved(2, "b", 1), Saved(3, "c", 1)));

    [Fact]
    public void A_version_based_on_both_brings_them_together() => Assert.Equal([4], Heads(Saved(1, "a"), Saved(2, "b", 1), Saved(3, "c", 1), Saved(4, "d", 2, 3)));

    [Fact]
    public void A_withdrawn_version_gives_its_place_back_to_the_one_before() =>
        Assert.Equal([1], Heads(Saved(1, "a"), Saved(2, "b", 1), new Withdrawn(Id(9), "Jo", Noon, Id(2), "wrong file")));

    [Fact]
    public void What_was_made_from_a_withdrawn_version_still_stands_before_all_it_comes_from() =>
        Assert.Equal([3], Heads(Saved(1, "a"), Saved(2, "b", 1), Saved(3, "c", 2), new Withdrawn(Id(9), "Jo", Noon, Id(2), "")));

    [Fact]
    public void A_file_does_not_vanish_when_versions_name_each_other_as_base() => Assert.Single(Heads(Saved(1, "a", 2), Saved(2, "b", 1)));

    [Fact]
    public void A_version_whose_base_has_not_come_yet_is_a_head_all_the_same() => Assert.Equal([1, 3], Heads(Saved(1, "a"), Saved(3, "c", 2)));

    [Fact]
    public void A_withdrawn_fact_no_longer_counts_and_is_still_there()
    {
        var record = JobRecord.Of([new PieceCut(Id(1), "Jo", Noon, D, "1-A"), new Withdrawn(Id(2), "Jo", Noon.AddMinutes(1), Id(1), "cut too short")]);
        Assert.Null(Done(record).CutOf("1-A"));
        Assert.Equal("cut too short", Assert.Single(Assert.Single(Done(record).Pieces["1-A"]).Withdrawals).Why);
    }

    [Fact]
    public void A_withdrawal_that_is_withdrawn_lets_the_fact_count_again()
    {
        var record = JobRecord.Of([new PieceCut(Id(1), "Jo", Noon, D, "1-A"), new Withdrawn(Id(2), "Jo", Noon, Id(1), ""), new Withdrawn(Id(3), "Jo", Noon, Id(2), "")]);
        Assert.NotNull(Done(record).CutOf("1-a"));
    }

    [Fact]
    public void A_hundred_thousand_withdrawals_of_each_other_are_worked_through()
    {
        var facts = new List<Fact> { new PieceCut(Id(0), "Jo", Noon, D, "1-A") };
        facts.AddRange(Enumerable.Range(1, 100_000).Select(i => new Withdrawn(Id(i), "Jo", Noon, Id(i - 1), "")));
        Assert.NotNull(Done(JobRecord.Of(facts)).CutOf("1-A"));
    }

    [Fact]
    public void Two_peoples_readings_of_one_joint_are_both_kept()
    {
        ReadingsTaken Read(int id, string who, double mm) => new(Id(id), who, Noon, D, "W3", "level", "P1", null, [new(new Reading.Tape(3), mm)]);
        var readings = Done(JobRecord.Of([Read(1, "Jo", 612), Read(2, "Ann", 615)])).Readings["W3"];
        Assert.Equal([612, 615], readings.Select(r => r.Fact.Readings[0].Value).Order());
    }
}
