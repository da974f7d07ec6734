using Rootgap.FitUp;
using Rootgap.Measure;

namespace Rootgap.Tests.FitUp;

/// <summary>Targets against published figures and against what geometry demands.</summary>
public class TargetsTest
{
    private static readonly FitTolerance Limits = FitTolerance.Of(FitGen.Of("elbow", 6, Vector.East, 0, 900, 90, 3.2), 6);

    private static double At(FitJoint joint, Reading reading, Attitude attitude = Attitude.Level, double? mark = null) =>
        Targets.Of(new StandingJoint(joint, FitGen.SetUp(joint, attitude), mark), Limits).Single(t => t.Reading == reading).Value;

    private static StandingJoint Stand(FitJoint joint, Attitude attitude) => new(joint, FitGen.SetUp(joint, attitude));

    // ASME B16.9 long radius: centre to end 76.2, 152.4, 228.6, 304.8 for NPS 2, 4, 6, 8 in the inch column; B36.10M outside diameters.
    [Theory]
    [InlineData(0, 76.2, 60.3)]
    [InlineData(1, 152.4, 114.3)]
    [InlineData(2, 228.6, 168.3)]
    [InlineData(3, 304.8, 219.1)]
    public void A_scale_on_a_90_elbow_stands_centre_to_end_less_half_the_diameter_over_the_pipe_at_every_station(int size, double centreToEnd, double outside)
    {
        var joint = FitGen.Of("elbow", FitGen.Sizes[size], Vector.East, 0, 2000, 90, 3.2);
        // From the weld's centre the elbow's own end is half the gap farther on: at 90 degrees that changes nothing.
        foreach (var station in (double[])[75, 300])
            Assert.Equal(centreToEnd + 0 - (outside / 2), At(joint, new Reading.Scale(station)), 0.05);
    }

    // Common practice (setting a 45 by the square's equal figures): one more for each one back from the fitting's own end, R - r at that end.
    [Fact]
    public void A_scale_on_a_45_elbow_rises_one_for_each_one_back()
    {
        var joint = FitGen.Of("elbow", 6, Vector.East, 0, 2000, 45, 3.2);
        foreach (var station in (double[])[75, 300])
            Assert.Equal((3.75 * 25.4 / Math.Tan(Math.PI / 8)) - (6.625 / 2 * 25.4) + (station + 1.6), At(joint, new Reading.Scale(station)), 0.05);
    }

    // ASME B16.9 tee NPS 6, inch column: M = 5.62 in., B36.10M D = 6.625 in.; the scale on its branch face stands M - D/2 over the held pipe. Over the tee's own far side it would turn with the tee.
    [Fact]
    public void A_scale_on_a_tees_branch_stands_over_the_held_pipe()
    {
        var joint = FitGen.Of("tee", 6, Vector.North, 0, 2000, 90, 3.2);
        var scales = Targets.Of(Stand(joint, Attitude.Level), Limits).Where(t => t.Reading is Reading.Scale).ToList();
        Assert.Equal(2, scales.Count);
        Assert.All(scales, t => Assert.True(((Reading.Scale)t.Reading).Station > 0));
        Assert.All(scales, t => Assert.Equal((5.62 - (6.625 / 2)) * 25.4, t.Value, 0.01));
    }

    [Fact]
    public void The_two_sides_of_an_elbow_measure_the_same() =>
        FitGen.Elbow.Holds(joint =>
        {
            if (joint.HeldStraight < 300)
                return;
            Assert.Equal(At(joint, new Reading.Tape(3)), At(joint, new Reading.Tape(9)), 1e-9);
            Assert.Equal(0, At(joint, new Reading.FaceLevelAcross()), 1e-9);
        }, iter: 200);

    [Fact]
    public void The_back_of_an_elbow_has_no_straight_tape_and_the_throat_has() =>
        FitGen.Elbow.Holds(joint =>
        {
            var tapes = Targets.Of(Stand(joint, Attitude.Level), Limits).Select(t => t.Reading).OfType<Reading.Tape>().Select(t => t.At).ToList();
            Assert.DoesNotContain(6, tapes);
            Assert.Contains(12, tapes);
        }, iter: 200);

    // A weld neck's rim hides its face's lip from a mark on the pipe: the tape would bend over the disc's back edge.
    [Fact]
    public void A_flange_has_no_tape_to_the_lip_of_its_face() =>
        FitGen.Flange.Holds(joint => Assert.DoesNotContain(Targets.Of(Stand(joint, Attitude.Level), Limits), t => t.Reading is Reading.Tape), iter: 100);

    [Fact]
    public void Raised_lips_stand_where_the_stands_and_the_take_off_put_them()
    {
        // NPS 6 of a drawing in inches on stands 3'-0" to the underside: axis at 998.55; a 90 elbow looking up ends 228.6 above it (B16.9, inch column).
        var joint = FitGen.Of("elbow", 6, Vector.East, 0, 2000, 90, 3.2);
        Assert.Equal(914.4 + 84.15 + 228.6, At(joint, new Reading.Height(null)), 0.05);
    }

    // ASME B16.5 class 150: bolt circle 241.3 with 8 holes on NPS 6, 431.8 with 12 on NPS 12 (inch columns 9.50 and 17.00). Published chord factors
    // sin(180/N): 0.38268 for 8 holes, 0.25882 for 12 (Machinery's Handbook, lengths of chords for spacing off the circumference of circles).
    [Theory]
    [InlineData(8, 241.3, 0.38268)]
    [InlineData(12, 431.8, 0.25882)]
    [InlineData(4, 120.7, 0.70711)]
    public void The_chord_between_pins_is_the_bolt_circle_times_the_published_factor(int holes, double circle, double factor)
    {
        var pins = new FitHoles(holes, circle, Vector.Up);
        Assert.Equal(circle * factor, pins.Pair(Vector.East, Vector.Up).Apart, 0.01);
        Assert.False(pins.MidHeight);
    }

    // ASME B16.5 NPS 4 class 300: 8 holes on 200 (7.88 in.). With a hole on top the two beside it lie level: 200 sin 45 = 141.4.
    [Fact]
    public void With_a_hole_on_top_the_pair_beside_it_is_read()
    {
        var onCentre = new FitHoles(8, 200, Vector.Up.Turned(Vector.East, Math.PI / 8)).Pair(Vector.East, Vector.Up);
        Assert.Equal(141.42, onCentre.Apart, 0.01);
        Assert.Equal(1, onCentre.Top.Dot(Vector.Up), 1e-9);
    }

    // Common practice: on flanges with many holes the pair at mid-height is read; 16 holes of B16.5 NPS 16 class 150 on 539.8: 539.8 cos 11.25 = 529.4.
    [Fact]
    public void From_sixteen_holes_up_the_pins_at_left_and_right_are_read()
    {
        var pins = new FitHoles(16, 539.8, Vector.Up);
        Assert.True(pins.MidHeight);
        Assert.Equal(529.4, pins.Pair(Vector.East, Vector.Up).Apart, 0.05);
    }

    [Fact]
    public void A_flange_whose_holes_straddle_the_top_has_level_pins_and_one_turned_by_its_angle_has_not()
    {
        var flange = FitGen.Of("flange", 6, Vector.East, 0, 900, 90, 3.2);
        Assert.Equal(0, At(flange, new Reading.Holes()), 1e-9);
        var onCentre = flange with { Holes = flange.Holes! with { Between = flange.Holes.Between.Turned(flange.Axis, Math.PI / 8) } };
        Assert.Equal(0, At(onCentre, new Reading.Holes()), 1e-6);
        var turned = flange with { Holes = flange.Holes! with { Between = flange.Holes.Between.Turned(flange.Axis, Angles.ToRadians(5)) } };
        Assert.Equal(5, Math.Abs(Angles.ToDegrees(At(turned, new Reading.Holes()))), 1e-6);
    }

    [Fact]
    public void A_mirrored_part_gives_mirrored_readings() =>
        Gen.Select(Gen.Double[0.2, 1.3], Gen.Double[700, 2500], Gen.Int[0, 5]).Holds((roll, length, k) =>
        {
            // The same elbow rolled to the left and to the right on a pipe that stays put: 3 and 9 o'clock change places.
            var size = FitGen.Sizes[k];
            var (left, right) = (FitGen.Of("elbow", size, Vector.East, roll, length, 90, 3.2), FitGen.Of("elbow", size, Vector.East, -roll, length, 90, 3.2));
            var setUp = FitGen.SetUp(left, Attitude.Level) with { Up = Vector.Up };
            var (one, other) = (new StandingJoint(left, setUp), new StandingJoint(right, setUp));
            foreach (var (at, mirrored) in new[] { (12, 12), (3, 9), (6, 6), (9, 3) })
            {
                Assert.Equal(new Reading.Tape(at).Measure(one, PoseError.None), new Reading.Tape(mirrored).Measure(other, PoseError.None), 1e-9);
                Assert.Equal(new Reading.Height(at).Measure(one, PoseError.None), new Reading.Height(mirrored).Measure(other, PoseError.None), 1e-9);
            }
            Assert.Equal(Targets.Of(one, Limits).Count, Targets.Of(other, Limits).Count);
        });

    // PFI ES-3, figure 1: the greater of 1/32 in (0.8 mm) and 3/64 in per foot (3.9 mm per m) across the face; ASME B31.3 335.1.1: 1 mm in 200 mm.
    [Theory]
    [InlineData(0, 2, 152.4, 0.005)]
    [InlineData(2, 6, 279.4, 0.0039)]
    public void The_stricter_of_two_published_limits_is_in_force(int size, double nps, double face, double radians)
    {
        var flange = FitGen.Of("flange", FitGen.Sizes[size], Vector.East, 0, 900, 90, 3.2);
        Assert.Equal(face, flange.Far!.Outside, 1e-9);
        Assert.Equal(radians, FitTolerance.Of(flange, nps).Tilt.Value, 1e-9);
        // A shop's own rule overrides both.
        Assert.Equal(Angles.ToRadians(0.5), FitTolerance.Of(flange, nps, new FitShopLimits(FaceAngle: 0.5)).Tilt.Value, 1e-9);
    }

    [Fact]
    public void No_error_within_tolerance_changes_a_reading_by_more_than_its_allowance() =>
        Gen.Select(FitGen.Any, FitGen.Attitudes, Gen.Double[-1, 1].Array[6]).Holds((joint, attitude, u) =>
        {
            // Just inside the limits, so that rounding does not put the error outside.
            u = [.. u.Select(v => v * 0.999999)];
            var shift = Math.Sqrt((u[0] * u[0]) + (u[1] * u[1])) * 1.000001;
            var tilt = Math.Sqrt((u[3] * u[3]) + (u[4] * u[4])) * 1.000001;
            var roll = double.IsInfinity(Limits.Roll.Value) ? Limits.Tilt.Value : Limits.Roll.Value;
            var e = new PoseError(
                u[0] / Math.Max(1, shift) * Limits.Shift.Value, u[1] / Math.Max(1, shift) * Limits.Shift.Value, u[2] * Limits.Gap.Value,
                u[3] / Math.Max(1, tilt) * Limits.Tilt.Value, u[4] / Math.Max(1, tilt) * Limits.Tilt.Value, u[5] * roll);
            Assert.True(Limits.Holds(e));
            var standing = Stand(joint, attitude);
            foreach (var t in Targets.Of(standing, Limits))
            {
                // Second-order parts: up to a twentieth of a millimetre.
                var change = Math.Abs(t.Reading.Measure(standing, e) - t.Value);
                Assert.True(change <= t.Allow + (t.Reading.IsAngle ? 2e-4 : 0.05), $"{t.Reading.Text}: {change} over {t.Allow}");
            }
        }, iter: 500);
}
