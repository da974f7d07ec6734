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

    private static Diagnosis Found(PoseError error)
    {
        var targets = Targets.Of(Joint, Limits);
        return Diagnosis.Of(Joint, Limits, [.. targets.Select(t => new Taken(t.Reading, t.Reading.Measure(Joint, error)))], targets);
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

    // Each way out has one way back, and the words name it: right and left, up and down, wide and narrow, clockwise and anticlockwise.
    [Theory]
    [InlineData(0, -2, "2.0 mm toward 3 o'clock")]
    [InlineData(1, 2, "2.0 mm toward 6 o'clock")]
    [InlineData(1, -2, "2.0 mm toward 12 o'clock")]
    [InlineData(2, -1.5, "1.5 mm too narrow at the middle (0.8 mm allowed), and the spool by as much too short. Open it")]
    [InlineData(3, -Math.PI / 180, "close 1.3 mm at 12 and open 1.3 mm at 6")]
    [InlineData(4, Math.PI / 180, "close 1.3 mm at 3 and open 1.3 mm at 9")]
    [InlineData(4, -Math.PI / 180, "open 1.3 mm at 3 and close 1.3 mm at 9")]
    [InlineData(5, -Math.PI / 90, "Turn it clockwise")]
    public void What_is_off_one_way_is_moved_the_other(int component, double by, string says)
    {
        var errors = new double[6];
        errors[component] = by;
        Assert.Contains(Say(PoseError.From(errors)), s => s.Contains(says, StringComparison.Ordinal));
    }

    // What has moved is named by where it went, not by what to do about it.
    [Theory]
    [InlineData(0, 2, "2.0 mm toward 3 o'clock")]
    [InlineData(0, -2, "2.0 mm toward 9 o'clock")]
    [InlineData(1, 2, "2.0 mm toward 12 o'clock")]
    [InlineData(1, -2, "2.0 mm toward 6 o'clock")]
    [InlineData(2, 2, "2.0 mm wider")]
    [InlineData(2, -2, "2.0 mm narrower")]
    [InlineData(3, Math.PI / 180, "1.00 degrees leaning to 12")]
    [InlineData(3, -Math.PI / 180, "1.00 degrees leaning to 6")]
    [InlineData(4, Math.PI / 180, "1.00 degrees leaning to 9")]
    [InlineData(4, -Math.PI / 180, "1.00 degrees leaning to 3")]
    [InlineData(5, Math.PI / 180, "1.00 degrees clockwise")]
    [InlineData(5, -Math.PI / 180, "1.00 degrees anticlockwise")]
    public void What_has_moved_since_is_told_with_its_way(int component, double by, string says)
    {
        var errors = new double[6];
        errors[component] = by;
        // A part that leans to a side stands nearer there: the gap read at that place is less than it was (12, 6, 3 or 9 in the words).
        Assert.Equal($"Since it was gone over before it has moved {says}.", Remedy.Since(Found(PoseError.None), Found(PoseError.From(errors))), StringComparer.Ordinal);
        if (says.Contains("leaning", StringComparison.Ordinal))
            Assert.True(Remedy.Gaps(Joint, PoseError.From(errors))[int.Parse(says[(says.LastIndexOf(' ') + 1)..], System.Globalization.CultureInfo.InvariantCulture)] < 3.2);
    }

    // The normal law: one reading in a thousand lies 3.3 standard deviations off (0.1 % in both tails, any table). The other readings see a part of each reading too,
    // so it must be off by a little more; by five it would be one in two million, and much would be believed that is wrong.
    [Fact]
    public void A_reading_is_doubted_from_where_one_in_a_thousand_lies()
    {
        var targets = Targets.Of(Joint, Limits);
        var reading = new Reading.Gap(12);
        bool IsDoubted(double off)
        {
            var found = Diagnosis.Of(Joint, Limits, [.. targets.Select(t => new Taken(t.Reading, t.Value + (t.Reading == reading ? off * reading.Sd : 0)))], targets);
            return found.Again.Any(t => t.Reading == reading) || found.Alike.Any(t => t.Reading == reading);
        }

        Assert.False(IsDoubted(3.2));
        Assert.True(IsDoubted(4.8));
    }

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
