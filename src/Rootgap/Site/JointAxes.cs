using MathNet.Numerics.LinearAlgebra;
using Rootgap.FitUp;
using Rootgap.Measure;

namespace Rootgap.Site;

/// <summary>A joint's own axes as drawn: x to 3 o'clock, y to 12 o'clock, z along the run as it is written. Seen along z the three are a left-handed set, as at fit-up.</summary>
/// <param name="Centre">Middle of the joint.</param>
/// <param name="Three">x, unit.</param>
/// <param name="Twelve">y, unit: most nearly up; plant north where z is within 5 degrees of upright.</param>
/// <param name="Along">z, unit: from the joint's first side to its second.</param>
public sealed record JointAxes(Point Centre, Vector Three, Vector Twelve, Vector Along)
{
    public static JointAxes Of(Point centre, Vector along)
    {
        var twelve = StandingJoint.TwelveOClock(along, Vector.Up);
        return new(centre, along.Cross(twelve), twelve, along);
    }

    /// <summary>The same clock about another place.</summary>
    public JointAxes At(Point centre) => this with { Centre = centre };

    /// <summary>Unit, outward to a clock position.</summary>
    /// <param name="clock">Radians clockwise from 12, looking along z.</param>
    public Vector Q(double clock)
    {
        var (sin, cos) = Math.SinCos(clock);
        return (Twelve * cos) + (Three * sin);
    }

    /// <summary>The motion that an error in these axes is: turned about the centre by one rotation vector, then shifted.</summary>
    public Motion MotionOf(in PoseError e) => Motion.About(Centre, Plant(e.X, e.Y, e.Z), Plant(e.Rx, e.Ry, e.Rz));

    /// <summary>A motion told in these axes.</summary>
    public PoseError ErrorOf(in Motion motion)
    {
        var (shift, turn) = (motion.ShiftAt(Centre), motion.Turn);
        return new(shift.Dot(Three), shift.Dot(Twelve), shift.Dot(Along), turn.Dot(Three), turn.Dot(Twelve), turn.Dot(Along));
    }

    /// <summary>
    /// How a small error in these axes shows in another joint's (its lever), to first order: six by six, rows and columns in the order of
    /// <see cref="PoseError.Names"/>. With it a covariance C of six (mm, radians) goes over as L C L^T.
    /// </summary>
    public Matrix<double> LeverTo(JointAxes other)
    {
        var lever = Matrix<double>.Build.Dense(6, 6);
        var arm = other.Centre - Centre;
        Vector[] from = [Three, Twelve, Along];
        Vector[] to = [other.Three, other.Twelve, other.Along];
        for (var k = 0; k < 3; k++)
        {
            var swing = from[k].Cross(arm);
            for (var i = 0; i < 3; i++)
            {
                lever[i, k] = lever[i + 3, k + 3] = from[k].Dot(to[i]);
                lever[i, k + 3] = swing.Dot(to[i]);
            }
        }

        return lever;
    }

    private Vector Plant(double x, double y, double z) => (Three * x) + (Twelve * y) + (Along * z);
}
