using Rootgap.FitUp;
using Rootgap.Measure;

namespace Rootgap.Tests.FitUp;

/// <summary>Figures of fit-up as they are said, in both units. One pound is 0.45359237 kg and one inch 25.4 mm (international yard and pound); one lbf ft is 1.3558179 N m (NIST SP 811).</summary>
public class FitWordsTest
{
    private static readonly FitWords Metric = FitWords.In(Units.Millimetres);
    private static readonly FitWords Inch = FitWords.In(Units.Inches);

    [Fact]
    public void Masses_and_moments_are_said_in_the_units_of_the_drawing()
    {
        Assert.Equal(["45.4 kg", "100 lb"], [Metric.Mass(45.359237), Inch.Mass(45.359237)], StringComparer.Ordinal);
        Assert.Equal(["135.6 N m", "100 lbf ft"], [Metric.Moment(135.58179), Inch.Moment(135.58179)], StringComparer.Ordinal);
    }

    // 3/32 in. is 2.38 mm; a rod comes in 64ths, and what is within a thousandth of an inch of one is that one.
    [Theory]
    [InlineData(2.38125, "3/32\"")]
    [InlineData(2.40, "3/32\"")]
    [InlineData(2.42, "0.095\"")]
    [InlineData(2.44, "0.096\"")]
    [InlineData(1.984375, "5/64\"")]
    [InlineData(3.175, "1/8\"")]
    [InlineData(0.1, "0.004\"")]
    public void A_gap_in_inches_is_the_rod_that_it_is(double mm, string says) => Assert.Equal(says, Inch.Gap(mm));

    [Fact]
    public void A_gap_in_millimetres_is_in_tenths() => Assert.Equal("2.4 mm", Metric.Gap(2.38125));

    [Theory]
    [InlineData(0.04, "0.0 mm", "0.002\"")]
    [InlineData(-0.01, "0.0 mm", "0.000\"")]
    [InlineData(-0.06, "-0.1 mm", "-0.002\"")]
    public void A_little_less_than_nothing_is_nothing(double mm, string metric, string inch) => Assert.Equal([metric, inch], [Metric.Signed(mm), Inch.Signed(mm)], StringComparer.Ordinal);

    [Theory]
    [InlineData(0, 0, 1, "upper")]
    [InlineData(0, 0, -1, "lower")]
    [InlineData(1, 0, 0, "east")]
    [InlineData(-1, 0, 0, "west")]
    [InlineData(0, 1, 0, "north")]
    [InlineData(0, -1, 0, "south")]
    [InlineData(0.6, -0.8, 0, "south")]
    [InlineData(-0.8, 0.6, 0, "west")]
    [InlineData(0.6, 0, -0.8, "lower")]
    public void An_end_is_named_by_where_it_looks_most(double x, double y, double z, string says) => Assert.Equal(says, FitWords.Toward(new Vector(x, y, z)));

    // The axes of an error: x toward 3 o'clock, y toward 12, z wider; turned about 3 o'clock the top leans back, about 12 the left; clockwise looking into it.
    [Theory]
    [InlineData(0, 1.5, "1.5 mm toward 3")]
    [InlineData(0, -1.5, "1.5 mm toward 9")]
    [InlineData(1, 1.5, "1.5 mm toward 12")]
    [InlineData(1, -1.5, "1.5 mm toward 6")]
    [InlineData(2, 1.5, "gap 1.5 mm wider")]
    [InlineData(2, -1.5, "gap 1.5 mm narrower")]
    [InlineData(3, Math.PI / 180, "lean 1.00° toward 12")]
    [InlineData(3, -Math.PI / 180, "lean 1.00° toward 6")]
    [InlineData(4, Math.PI / 180, "lean 1.00° toward 9")]
    [InlineData(4, -Math.PI / 180, "lean 1.00° toward 3")]
    [InlineData(5, Math.PI / 180, "roll 1.00° clockwise")]
    [InlineData(5, -Math.PI / 180, "roll 1.00° anticlockwise")]
    [InlineData(5, Math.PI / 18000, "nothing to speak of")]
    public void A_wanted_error_is_said_as_it_would_be_set(int component, double by, string says)
    {
        var errors = new double[6];
        errors[component] = by;
        Assert.Equal(says, Metric.Set(PoseError.From(errors)));
    }

    // The same error leans the part toward the place where its gap is the least.
    [Theory]
    [InlineData(3, 1)]
    [InlineData(3, -1)]
    [InlineData(4, 1)]
    [InlineData(4, -1)]
    public void A_lean_is_toward_where_the_gap_is_least(int component, int sign)
    {
        var elbow = FitGen.Of("elbow", 6, Vector.East, 0, 900, 90, 3.2);
        var errors = new double[6];
        errors[component] = sign * Math.PI / 180;
        var gaps = Remedy.Gaps(new StandingJoint(elbow, FitGen.SetUp(elbow, Attitude.Level)), PoseError.From(errors));
        var least = new[] { 12, 3, 6, 9 }.MinBy(at => gaps[at]);
        Assert.EndsWith($" toward {least}", Metric.Set(PoseError.From(errors)), StringComparison.Ordinal);
    }

    [Fact]
    public void What_is_read_from_end_to_end_is_shown_as_angles_or_lengths()
    {
        var words = new FinalWords(Metric);
        var (tape, level) = (new EndReading.Tape(new("C1", 12), new("C5", 12), false), new EndReading.FaceLevel("C1", IsAcross: true));
        Assert.Equal(["1265.6", "1.5 mm", "0.57°", "0.11°"], [words.Show(tape, 1265.6), words.ShowSmall(tape, 1.5), words.Show(level, 0.01), words.ShowSmall(level, 0.002)], StringComparer.Ordinal);
        // Nothing is nothing, from either side.
        Assert.Equal(["0.0", "0.00°"], [words.Show(tape, -0.01), words.Show(level, -5e-6)], StringComparer.Ordinal);
    }

    // A feeler or a gauge shows a hundred at most; no tape over a spool is longer than what it reaches and 50 besides.
    [Theory]
    [InlineData("gap", 100, true)]
    [InlineData("gap", 100.5, false)]
    [InlineData("gap", -100.5, false)]
    [InlineData("hi-lo", 101, false)]
    [InlineData("tape", 2360, true)]
    [InlineData("tape", 2361, false)]
    [InlineData("diagonal", 2361, false)]
    public void A_reading_that_cannot_be_is_refused(string name, double value, bool isRead)
    {
        var elbow = FitGen.Of("elbow", 6, Vector.East, 0, 900, 90, 3.2) with { SpoolReach = 2310 };
        var wrong = FitReadings.Wrong(new Taken(FitReadings.Find(name, 3, null, null)!, value), new StandingJoint(elbow, FitGen.SetUp(elbow, Attitude.Level)));
        Assert.Equal(isRead, wrong is null);
    }
}
