using Rootgap.FitUp;
using Rootgap.Measure;

namespace Rootgap.Tests.FitUp;

public class RemedyTest
{
    private static readonly FitJoint Elbow = FitGen.Of("elbow", 6, Vector.East, 0, 900, 90, 3.2);

    private static readonly StandingJoint Joint = new(Elbow, FitGen.SetUp(Elbow, Attitude.Level));

    private static readonly FitTolerance Limits = FitTolerance.Of(Elbow, 6);

    private static IReadOnlyList<string> Say(PoseError error)
    {
        var targets = Targets.Of(Joint, Limits);
        var taken = targets.Select(t => new Taken(t.Reading, t.Reading.Measure(Joint, error))).ToList();
        return Remedy.Say(Joint, Limits, Diagnosis.Of(Joint, Limits, taken, targets));
    }

    [Fact]
    public void What_is_true_is_welded() => Assert.Equal(["Within tolerance: tack it and weld it, as the procedure says."], Say(PoseError.None), StringComparer.Ordinal);

    // Statics of words: a part that leans toward 12 o'clock has its gap closed there; it is opened at 12 and closed at 6 by half the inside
    // diameter times the angle: 1 degree on 154.1 / 2 is 1.34 mm.
    [Fact]
    public void A_part_that_leans_up_gets_its_gap_opened_at_the_top()
    {
        var error = PoseError.None with { Rx = Angles.ToRadians(1) };
        Assert.True(Remedy.Gaps(Joint, error)[12] < 3.2);
        Assert.Contains(Say(error), s => s.Contains("open 1.3 mm at 12 and close 1.3 mm at 6", StringComparison.Ordinal));
    }

    [Fact]
    public void A_part_rolled_clockwise_is_turned_back_anticlockwise()
    {
        // Clockwise looking into the new part: its throat goes from 12 toward 3 o'clock.
        var error = PoseError.None with { Rz = Angles.ToRadians(2) };
        var throat = Joint.MotionOf(error).Of(Joint.Twelve);
        Assert.True(0 < throat.Dot(Joint.Three));
        Assert.Contains(Say(error), s => s.Contains("Turn it anticlockwise", StringComparison.Ordinal) && s.Contains("2.9 mm round", StringComparison.Ordinal));
    }

    [Fact]
    public void A_part_off_to_the_right_is_shifted_to_the_left() =>
        Assert.Contains(Say(PoseError.None with { X = 2 }), s => s.Contains("2.0 mm toward 9 o'clock", StringComparison.Ordinal));

    [Fact]
    public void A_wide_gap_is_closed() =>
        Assert.Contains(Say(PoseError.None with { Z = 1.5 }), s => s.Contains("1.5 mm too wide", StringComparison.Ordinal) && s.Contains("Close it", StringComparison.Ordinal));

    [Fact]
    public void Doing_what_is_said_makes_the_part_true() =>
        FitGen.Errors.Holds(e =>
        {
            // The change of gap undoes the tilt: the gap that was, changed, is even all round but for the mean.
            var error = new PoseError(0, 0, 0, e[3], e[4], 0);
            var (gaps, change) = (Remedy.Gaps(Joint, error), Remedy.Change(Joint, error));
            // Changes are said where gaps are read: at the inside.
            foreach (var at in StandingJoint.Clock)
                Assert.Equal(3.2, gaps[at] + change[at], 0.02);
        });

    [Fact]
    public void An_unseen_roll_is_told_with_the_reading_that_shows_it()
    {
        var targets = Targets.Of(Joint, Limits);
        var taken = targets.Where(t => t.Reading is Reading.Gap or Reading.HiLo).Select(t => new Taken(t.Reading, t.Value)).ToList();
        var found = Diagnosis.Of(Joint, Limits, taken, targets);
        Assert.Equal([5], found.Unseen);
        Assert.Contains(new Reading.FaceLevelAcross(), found.Next);
        Assert.Contains(Remedy.Say(Joint, Limits, found), s => s.Contains("roll about the pipe", StringComparison.Ordinal));
    }

    [Fact]
    public void A_reading_that_contradicts_the_others_is_to_be_taken_again()
    {
        var targets = Targets.Of(Joint, Limits);
        var taken = targets.Select(t => new Taken(t.Reading, t.Value + (t.Reading == new Reading.Tape(3) ? 30 : 0))).ToList();
        var found = Diagnosis.Of(Joint, Limits, taken, targets);
        Assert.Equal(new Reading.Tape(3), Assert.Single(found.Again).Reading);
        Assert.Contains(Remedy.Say(Joint, Limits, found), s => s.Contains("Take the tape at 3 again", StringComparison.Ordinal));
        Assert.Equal(0, found.Error.Tilt, 1e-6);
    }
}
