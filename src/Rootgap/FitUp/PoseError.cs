using Rootgap.Measure;

namespace Rootgap.FitUp;

/// <summary>How far the new part is from where it should be, at the weld's centre, in the joint's own axes: X toward 3 o'clock, Y toward 12, Z along
/// the pipe away from the held part (mm); Rx pitch, Ry swing, Rz roll: one rotation vector, right-handed about those directions (radians).</summary>
public readonly record struct PoseError(double X, double Y, double Z, double Rx, double Ry, double Rz)
{
    public static readonly PoseError None;

    /// <summary>The components' names, in order.</summary>
    public static readonly IReadOnlyList<string> Names = ["x", "y", "z", "rx", "ry", "rz"];

    /// <summary>How large an error is thought likely before anything is read (one standard deviation): 5 mm and 3 degrees.</summary>
    public static readonly IReadOnlyList<double> Prior = [5, 5, 5, 3 * Math.PI / 180, 3 * Math.PI / 180, 3 * Math.PI / 180];

    public static PoseError From(ReadOnlySpan<double> v) => new(v[0], v[1], v[2], v[3], v[4], v[5]);

    public double this[int i] => i switch
    {
        0 => X,
        1 => Y,
        2 => Z,
        3 => Rx,
        4 => Ry,
        5 => Rz,
        _ => throw new ArgumentOutOfRangeException(nameof(i)),
    };

    /// <summary>Distance off the pipe's axis line, mm.</summary>
    public double Shift => Math.Sqrt((X * X) + (Y * Y));

    /// <summary>Angle out of line, radians.</summary>
    public double Tilt => Math.Sqrt((Rx * Rx) + (Ry * Ry));
}
