using Rootgap.Measure;

namespace Rootgap.FitUp;

/// <summary>A joint in its set-up: the clock, the marks, the lips. What each reading is, is defined on this.</summary>
public sealed class StandingJoint
{
    /// <summary>sin 5 degrees: closer to upright than this, 12 o'clock is plant north.</summary>
    internal const double FiveDegrees = 0.08715574274765817;

    /// <summary>The clock positions that are marked and read.</summary>
    public static readonly IReadOnlyList<int> Clock = [12, 3, 6, 9];

    public StandingJoint(FitJoint joint, SetUp setUp, double? mark = null)
    {
        Joint = joint;
        SetUp = setUp;
        Axis = joint.Axis;
        Twelve = TwelveOClock(joint.Axis, setUp.Up);
        Three = Axis.Cross(Twelve);
        Mark = mark ?? joint.DefaultMark;
        Along = joint.Turn.IsStraight ? Twelve : joint.Turn.Side;
        Across = SquareAcross();
        Bodies = [.. joint.Held.Bodies, .. joint.New.Bodies];
    }

    public FitJoint Joint { get; }
    public SetUp SetUp { get; }

    /// <summary>z: from the held part into the new one.</summary>
    public Vector Axis { get; }

    /// <summary>y: 12 o'clock, unit.</summary>
    public Vector Twelve { get; }

    /// <summary>x: 3 o'clock, unit: at the right hand when looking from the held part into the new one.</summary>
    public Vector Three { get; }

    /// <summary>m: distance of the marks back from the held end, mm.</summary>
    public double Mark { get; }

    /// <summary>Unit, square to the axis: toward the throat; 12 o'clock of a part without bend.</summary>
    public Vector Along { get; }

    /// <summary>Unit, square to the axis and to the bend: toward 3 o'clock; toward 12 where the bend itself lies from 9 to 3.</summary>
    public Vector Across { get; }

    /// <summary>All bodies that can stand in a tape's way.</summary>
    public IReadOnlyList<Solid> Bodies { get; }

    /// <summary>Whether tapes have marks to start from.</summary>
    public bool HasMarks => 0 < Mark && (0 < Joint.HeldStraight || Joint.Weld == FitWeld.Branch);

    /// <summary>Outward direction of a clock position.</summary>
    public Vector Q(int at) => at switch
    {
        12 => Twelve,
        3 => Three,
        6 => -Twelve,
        9 => -Three,
        _ => throw new ArgumentOutOfRangeException(nameof(at), "only 12, 3, 6 and 9 o'clock are marked"),
    };

    /// <summary>A direction of the weld's cross-section carried along the new part to its free face.</summary>
    public Vector Carried(Vector q) =>
        Joint.Turn.IsStraight ? q : q.Turned(Axis.Cross(Joint.Turn.Side), Joint.Turn.Turn);

    /// <summary>M: the punched mark. On a branch, the marks lie on the header's line that faces the branch, either side of it.</summary>
    public Point MarkAt(int at)
    {
        var q = Q(at);
        return Joint.Weld == FitWeld.Branch
            ? Joint.Centre - (Axis * (Joint.Gap / 2)) + (q * Mark)
            : Joint.Centre - (Axis * ((Joint.Gap / 2) + Mark)) + (q * (Joint.Outside / 2));
    }

    /// <summary>Whether a mark can be punched there: on a branch only along the header.</summary>
    public bool MarkExists(int at) =>
        HasMarks && (Joint.Weld != FitWeld.Branch || Math.Abs(Q(at).Dot(Joint.Header)) > 0.9998);

    /// <summary>L: the lip of the new part's free face, where the part should be.</summary>
    public Point Lip(int at) => LipToward(Q(at));

    public Point LipToward(Vector q) =>
        Joint.Far is { } far ? far.Centre + (Carried(q) * (far.Outside / 2)) : Joint.Tip;

    /// <summary>Lip of the held part's other end, for diagonals.</summary>
    public Point HeldLip(int at)
    {
        var q = Q(at);
        var back = -Axis;
        var axis = back.Cross(Joint.HeldFar.Normal);
        if (axis.Length > 1e-9)
            q = q.Turned(axis.Unit, back.AngleTo(Joint.HeldFar.Normal));
        return Joint.HeldFar.Centre + (q * (Joint.HeldFar.Outside / 2));
    }

    /// <summary>12 o'clock: square to the axis, nearest to up; within 5 degrees of upright, plant north (or plant up, where north runs along the pipe).</summary>
    public static Vector TwelveOClock(Vector axis, Vector up)
    {
        foreach (var wanted in (Vector[])[up, Vector.North, Vector.Up])
        {
            var square = wanted.SquareTo(axis);
            if (FiveDegrees <= square.Length)
                return square.Unit;
        }
        return axis.AnySquare();
    }

    private Vector SquareAcross()
    {
        if (Joint.Turn.IsStraight)
            return Three;
        var across = Axis.Cross(Joint.Turn.Side);
        var right = across.Dot(Three);
        if (Math.Abs(right) < 1e-6)
            right = across.Dot(Twelve);
        return right < 0 ? -across : across;
    }
}
