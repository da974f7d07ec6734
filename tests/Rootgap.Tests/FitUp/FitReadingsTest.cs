using Rootgap.FitUp;
using Rootgap.Measure;

namespace Rootgap.Tests.FitUp;

public class FitReadingsTest
{
    private static readonly FitJoint Elbow = FitGen.Of("elbow", 6, Vector.East, 0, 900, 90, 3.2) with { SpoolReach = 2310 };

    private static StandingJoint Standing => new(Elbow, FitGen.SetUp(Elbow, Attitude.Level));

    [Fact]
    public void The_example_of_the_file_is_read()
    {
        var file = FitReadings.Read("""
            joint: W3
            readings:
              - {read: tape, at: 3, mm: 612.5}
              - {read: tape, at: 9, mm: 610.0}
              - {read: gap, at: 12, mm: 3.0}
              - {read: face level, across: 0.3}
            """, "w3.yaml");
        Assert.Empty(file.Errors);
        Assert.Equal("W3", file.Joint);
        Assert.Equal([new Reading.Tape(3), new Reading.Tape(9), new Reading.Gap(12), new Reading.FaceLevelAcross()], file.Entries.Select(e => e.Taken.Reading));
        Assert.Equal(Angles.ToRadians(0.3), file.Entries[3].Taken.Value, 1e-12);
    }

    // line:column of the word that is wrong, and what the message has to say of it.
    [Theory]
    [InlineData("readings:\n  - {read: tape, at: 8, mm: 612.5}\n", 2, 22, "8")]
    [InlineData("readings:\n  - {read: tpae, at: 3, mm: 612.5}\n", 2, 12, "tpae")]
    [InlineData("readings:\n  - {read: tape, at: 3, mm: six}\n", 2, 29, "six")]
    [InlineData("readings:\n  - {read: tape, at: 3, cm: 61}\n", 2, 25, "cm")]
    [InlineData("readings:\n  - {read: gap, mm: 3}\n", 2, 5, "clock position")]
    [InlineData("reading:\n  - {read: gap, at: 3, mm: 3}\n", 1, 1, "reading")]
    [InlineData("set-up: upside down\nreadings: []\n", 1, 9, "upside down")]
    public void What_cannot_be_read_is_told_with_its_place(string text, int line, int column, string says)
    {
        var errors = FitReadings.Read(text, "w.yaml").Errors;
        Assert.Contains(errors, e => e.Where.Line == line && e.Where.Column == column && e.Message.Contains(says, StringComparison.Ordinal) && e.Remedy.Length > 0);
    }

    [Fact]
    public void A_tape_longer_than_the_spool_is_refused()
    {
        var wrong = FitReadings.Wrong(new Taken(new Reading.Tape(3), 6125), Standing);
        Assert.Contains("longer than the whole spool", wrong!.Value.Message, StringComparison.Ordinal);
        Assert.Null(FitReadings.Wrong(new Taken(new Reading.Tape(3), 612.5), Standing));
    }

    [Fact]
    public void A_reading_that_the_joint_does_not_have_is_refused()
    {
        Assert.NotNull(FitReadings.Wrong(new Taken(new Reading.Holes(), 0), Standing));
        Assert.NotNull(FitReadings.Wrong(new Taken(new Reading.FaceLevelAcross(), Angles.ToRadians(91)), Standing));
        Assert.NotNull(FitReadings.Wrong(new Taken(new Reading.Tape(3), -5), Standing));
        Assert.Null(FitReadings.Wrong(new Taken(new Reading.HiLo(3), -0.5), Standing));
    }

    [Fact]
    public void A_record_that_was_kept_twice_is_read_again_and_its_last_entry_counts()
    {
        var joint = Standing;
        var limits = FitTolerance.Of(Elbow, 6);
        var targets = Targets.Of(joint, limits);
        Taken[] first = [new(new Reading.Gap(12), 3), new(new Reading.FaceLevelAcross(), Angles.ToRadians(0.4))];
        Taken[] second = [new(new Reading.Gap(12), 3.2), new(new Reading.Scale(300), 145, 0.5), new(new Reading.Height(null), 1212.75)];
        var text = Entry(first) + Entry(second);
        var file = FitReadings.Read(text, "record.yaml");
        Assert.Empty(file.Errors);
        Assert.Equal("W1", file.Joint);
        Assert.Equal((Attitude.Level, 0), file.SetUp);
        Assert.Equal(joint.Mark, file.Mark!.Value, 1e-3);
        Assert.Equal(second.Length, file.Entries.Count);
        for (var i = 0; i < second.Length; i++)
        {
            Assert.Equal(second[i].Reading, file.Entries[i].Taken.Reading);
            Assert.Equal(second[i].Value, file.Entries[i].Taken.Value, 1e-6);
            Assert.Equal(second[i].Sd, file.Entries[i].Taken.Sd);
        }

        string Entry(Taken[] taken)
        {
            var found = Diagnosis.Of(joint, limits, taken, targets);
            return FitRecord.Entry(joint, taken, found, Remedy.Say(joint, limits, found), "A \"quoted\" name", "2", new DateTimeOffset(2026, 1, 2, 3, 4, 5, TimeSpan.Zero));
        }
    }

    [Fact]
    public void Any_text_is_read_without_breaking() =>
        Gen.String.Holds(text => Assert.NotNull(FitReadings.Read(text, "x.yaml").Errors), iter: 2000);

    [Theory]
    [InlineData("on end", Attitude.OnEnd, 0)]
    [InlineData("Level", Attitude.Level, 0)]
    [InlineData("rolled", Attitude.Rolled, 90)]
    [InlineData("rolled 270", Attitude.Rolled, 270)]
    public void A_set_up_is_named_in_words(string word, Attitude attitude, double roll) => Assert.Equal((attitude, roll), SetUp.Parse(word));
}
