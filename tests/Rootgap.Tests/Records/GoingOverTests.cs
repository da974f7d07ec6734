using System.Text.Json;
using Rootgap.FitUp;
using Rootgap.Records;

namespace Rootgap.Tests.Records;

/// <summary>
/// Readings as a shop's measuring sheet has them (common practice): nothing is rubbed out, a place measured again gets another line and the later
/// one counts, and every person's lines stay that person's.
/// </summary>
public sealed class GoingOverTests
{
    private static readonly DrawingRef Drawing = new("L-1", "2");
    private static readonly DateTimeOffset Noon = new(2026, 3, 2, 12, 0, 0, TimeSpan.Zero);

    private static ReadingsTaken Read(int minute, Reading reading, double value, string who = "Ann", string? first = null, string setUp = "level") =>
        new(Guid.NewGuid().ToString(), who, Noon.AddMinutes(minute), Drawing, "W3", setUp, "P2", 300, [new Taken(reading, value)]) { First = first };

    private static IReadOnlyList<GoingOver> Of(params Rootgap.Records.Fact[] facts) => GoingOver.Of(JobRecord.Of(facts).OnDrawings.Select(e => new Entry<ReadingsTaken>((ReadingsTaken)e.Fact, e.Withdrawals)));

    [Fact]
    public void Of_a_place_read_again_the_later_reading_counts_and_the_earlier_stays()
    {
        var first = Read(0, new Reading.Tape(3), 612.5);
        var other = Read(1, new Reading.Tape(9), 610, first: first.Id);
        var again = Read(2, new Reading.Tape(3), 611, first: first.Id);

        var over = Assert.Single(Of(again, first, other));

        Assert.Equal([610, 611], over.Counting.Select(r => r.Taken.Value).Order());
        Assert.Equal([612.5, 610, 611], over.All.Select(r => r.Taken.Value));
        Assert.Equal(Noon, over.Begun);
        Assert.Equal(Noon.AddMinutes(2), over.Ended);
    }

    [Fact]
    public void A_reading_that_is_taken_back_leaves_the_one_before_it_in_force()
    {
        var first = Read(0, new Reading.Gap(12), 3.2);
        var wrong = Read(1, new Reading.Gap(12), 32, first: first.Id);
        var back = new Withdrawn(Guid.NewGuid().ToString(), "Ann", Noon.AddMinutes(2), wrong.Id, "slipped");

        var over = Assert.Single(Of(first, wrong, back));

        Assert.Equal(3.2, Assert.Single(over.Counting).Taken.Value);
        Assert.Equal(2, over.All.Count);
    }

    [Fact]
    public void Readings_of_two_people_or_of_two_set_ups_are_never_mixed()
    {
        var ann = Read(0, new Reading.Tape(3), 612.5);
        // Both claim to go on from Ann's: one is another person, the other another set-up.
        var ben = Read(1, new Reading.Tape(3), 614, who: "Ben", first: ann.Id);
        var onEnd = Read(2, new Reading.Tape(3), 613, first: ann.Id, setUp: "on end");

        var overs = Of(ann, ben, onEnd);

        Assert.Equal([("Ann", "level"), ("Ben", "level"), ("Ann", "on end")], overs.Select(o => (o.Who, o.SetUp)));
        Assert.All(overs, o => Assert.Single(o.Counting));
    }

    [Fact]
    public void Readings_after_welding_are_a_going_over_of_their_own_and_are_written_as_a_readings_file_says_it()
    {
        var tacked = Read(0, new Reading.Tape(3), 612.5);
        var welded = Read(1, new Reading.Tape(3), 611, first: tacked.Id) with { IsWelded = true };

        Assert.Equal([false, true], Of(tacked, welded).Select(o => o.IsWelded));
        Assert.DoesNotContain("state", FactJson.Text(tacked), StringComparison.Ordinal);
        var read = Assert.IsType<ReadingsTaken>(FactJson.Read(FactJson.Text(welded)).Fact);
        Assert.True(read.IsWelded);
        Assert.Empty(read.More);
        Assert.Equal("state \"cold\" is not one of tacked, welded.", FactJson.Read(FactJson.Text(welded).Replace("\"welded\"", "\"cold\"", StringComparison.Ordinal)).Wrong);
    }

    [Fact]
    public void A_reading_without_a_first_one_begins_a_going_over()
    {
        var overs = Of(Read(0, new Reading.HiLo(6), 0.5), Read(30, new Reading.HiLo(6), 0.2));

        Assert.Equal([0.5, 0.2], overs.Select(o => o.Counting[0].Taken.Value));
    }

    [Fact]
    public void Which_reading_was_the_first_survives_being_written_and_read()
    {
        var first = Read(0, new Reading.Scale(300), 145);
        var second = Read(1, new Reading.FaceLevelAcross(), 0.01, first: first.Id);

        using var json = JsonDocument.Parse(FactJson.Text(second));
        var read = Assert.IsType<ReadingsTaken>(FactJson.Read(json.RootElement).Fact);

        Assert.Equal(first.Id, read.First);
        Assert.Empty(read.More);
        Assert.Equal("first is not a UUID in lower case.",
            FactJson.Read(JsonDocument.Parse(FactJson.Text(second).Replace(first.Id, "the one before", StringComparison.Ordinal)).RootElement).Wrong);
    }
}
