using System.Numerics;
using Rootgap.FitUp;
using Rootgap.Measure;
using Rootgap.Site;
using Vector = Rootgap.Measure.Vector;

namespace Rootgap.Tests.Measure;

/// <summary>Rigid motions against quaternions of System.Numerics, composed apart.</summary>
public class MotionTest
{
    private static readonly Gen<Vector> Vectors =
        Gen.Select(Gen.Double[-5000, 5000], Gen.Double[-5000, 5000], Gen.Double[-5000, 5000], (x, y, z) => new Vector(x, y, z));

    private static readonly Gen<Vector> Turns =
        Gen.Select(Vectors.Where(v => v.Length > 1), Gen.Double[0, Math.PI - 1e-4], (axis, angle) => axis.Unit * angle);

    [Fact]
    public void A_motion_turns_about_its_centre_and_then_shifts_as_a_quaternion_does() =>
        Gen.Select(Vectors, Vectors, Vectors, Turns).Holds((c, p, shift, turn) =>
        {
            var centre = Point.Origin + c;
            var moved = Motion.About(centre, shift, turn).Of(Point.Origin + p);
            var q = Quaternion.CreateFromAxisAngle(turn.Length > 0 ? new((float)turn.Unit.X, (float)turn.Unit.Y, (float)turn.Unit.Z) : Vector3.UnitX, (float)turn.Length);
            var r = Vector3.Transform(new((float)(p.X - c.X), (float)(p.Y - c.Y), (float)(p.Z - c.Z)), q);
            // A float has seven digits.
            Assert.True(moved.To(centre + new Vector(r.X, r.Y, r.Z) + shift) < 0.02);
        });

    [Fact]
    public void A_motion_after_another_and_its_inverse_undo_and_the_turn_is_found_again() =>
        Gen.Select(Vectors, Vectors, Turns, Turns).Holds((p, shift, first, second) =>
        {
            var (a, b) = (Motion.About(new(10, 20, 30), shift, first), Motion.About(new(-400, 5, 77), -shift, second));
            var at = Point.Origin + p;
            Assert.True(b.After(a).Of(at).To(b.Of(a.Of(at))) < 1e-7);
            Assert.True(a.Inverse.Of(a.Of(at)).To(at) < 1e-7);
            Assert.True((a.Turn - first).Length < 1e-7, $"{a.Turn} {first}");
        });

    [Fact]
    public void A_half_turn_has_its_axis() =>
        Turns.Where(t => t.Length > 0.1).Holds(turn =>
        {
            var half = Motion.About(Point.Origin, Vector.Zero, turn.Unit * Math.PI).Turn;
            Assert.Equal(Math.PI, half.Length, 1e-7);
            Assert.Equal(1, Math.Abs(half.Unit.Dot(turn.Unit)), 1e-9);
        });

    [Fact]
    public void An_error_told_in_a_joint_s_axes_is_the_motion_that_it_makes() =>
        Gen.Select(Vectors.Where(v => v.Length > 1), Turns, Vectors).Holds((along, turn, shift) =>
        {
            var axes = JointAxes.Of(Point.Origin + shift, along.Unit);
            Assert.Equal(-1, axes.Three.Cross(axes.Twelve).Dot(axes.Along), 1e-9);
            var error = new PoseError(1, -2, 3, turn.X, turn.Y, turn.Z);
            var back = axes.ErrorOf(axes.MotionOf(error));
            for (var i = 0; i < 6; i++)
                Assert.Equal(error[i], back[i], 1e-6);
        });

    [Fact]
    public void A_lever_is_what_a_small_error_becomes_at_another_joint() =>
        Gen.Select(Vectors.Where(v => v.Length > 1), Vectors.Where(v => v.Length > 1), Vectors, Gen.Int[0, 5]).Holds((one, two, away, k) =>
        {
            var (a, b) = (JointAxes.Of(Point.Origin, one.Unit), JointAxes.Of(Point.Origin + away, two.Unit));
            Span<double> small = stackalloc double[6];
            small[k] = 1e-6;
            var there = b.ErrorOf(a.MotionOf(PoseError.From(small)));
            var lever = a.LeverTo(b);
            for (var i = 0; i < 6; i++)
                Assert.Equal(lever[i, k], there[i] / 1e-6, 1e-2);
        });
}
