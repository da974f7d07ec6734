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

    /// <summary>The joint with a new part that is made out of square as somebody read: its free face leans, and all that is read on it with it.</summary>
    public StandingJoint MadeSo(IEnumerable<Taken> read)
    {
        if (Joint.Far is not { } far)
            return this;
        // Standing out at one clock position the face looks away from it. What is read opposite is the same lean the other way: it is a second reading of it and no second lean.
        var leans = read.Where(t => t.Reading is Reading.OutOfSquare).ToLookup(t => ((Reading.OutOfSquare)t.Reading).At is 12 or 6, t => ((Reading.OutOfSquare)t.Reading).At is 12 or 3 ? t.Value : -t.Value);
        var normal = far.Normal;
        foreach (var lean in leans)
            normal -= Carried(Q(lean.Key ? 12 : 3)) * Math.Tan(lean.Average() / far.Outside);

        return normal == far.Normal ? this : new(Joint with { Far = far with { Normal = normal.Unit } }, SetUp, Mark);
    }

    /// <summary>An error that stays, as what comes next to the new part feels it: with the lean of a part that is made out of square, about its free face's middle.</summary>
    public PoseError Leaning(in PoseError error, IEnumerable<Taken> ofPart)
    {
        if (Joint.Far is not { } far || MadeSo(ofPart) is var made && ReferenceEquals(made, this) || FarSide.Least(far.Normal, made.Joint.Far!.Normal) is not var (axis, angle))
            return error;
        return ErrorOf(MotionOf(error).After(Motion.About(far.Centre, Vector.Zero, axis * angle)));
    }

    /// <summary>Whether a straight line runs nowhere deeper than 1 mm inside a body of either assembly.</summary>
    public bool IsFree(Point from, Point to) => Solid.Clear(from, to, Joint.Bodies, 1);

    /// <summary>Whether tapes have marks to start from.</summary>
    public bool HasMarks => 0 < Mark && (0 < Joint.HeldStraight || Joint.Header != Vector.Zero);

    /// <summary>The motion that an error gives what is brought: p becomes c + Q (p - c) + shift.</summary>
    public Motion MotionOf(in PoseError e) => Motion.About(
        Joint.Centre, (Three * e.X) + (Twelve * e.Y) + (Axis * e.Z), (Three * e.Rx) + (Twelve * e.Ry) + (Axis * e.Rz));

    /// <summary>The error that a motion of what is brought is.</summary>
    public PoseError ErrorOf(in Motion motion)
    {
        var (shift, turn) = (motion.ShiftAt(Joint.Centre), motion.Turn);
        return new(shift.Dot(Three), shift.Dot(Twelve), shift.Dot(Axis), turn.Dot(Three), turn.Dot(Twelve), turn.Dot(Axis));
    }

    /// <summary>Outward direction of a clock position; gaps and steps are read at any hour.</summary>
    public Vector Q(int at)
    {
        switch (at)
        {
            case 12:
                return Twelve;
            case 3:
                return Three;
            case 6:
                return -Twelve;
            case 9:
                return -Three;
            case > 0 and < 12:
                var (sin, cos) = Math.SinCos(at * Math.PI / 6);
                return (Twelve * cos) + (Three * sin);
            default:
                throw new ArgumentOutOfRangeException(nameof(at), "a clock has 12 hours");
        }
    }

    /// <summary>A direction of the weld's cross-section carried along the parts on the way and laid into the free face: unit.</summary>
    public Vector Carried(Vector q)
    {
        foreach (var (axis, angle) in Joint.Carry)
            q = q.Turned(axis, angle);
        return Joint.Far is { } far ? Laid(q, far.Normal) : q;
    }

    /// <summary>A carried direction when what is brought is moved: on a rim that shows no clock it is laid anew into the moved face, else it goes with the metal.</summary>
    public Vector Carried(Vector q, in Motion moved)
    {
        var t = Carried(q);
        return Joint.IsRound ? Laid(t, moved.Of(Joint.Far!.Normal)) : moved.Of(t);
    }

    private static Vector Laid(Vector q, Vector normal) => q.SquareTo(normal) is var flat && flat.Length > 1e-9 ? flat.Unit : q;

    /// <summary>M: the punched mark. On a branch, the marks lie on the header's line that faces the branch, either side of it.</summary>
    public Point MarkAt(int at)
    {
        var q = Q(at);
        return Joint.Header != Vector.Zero
            ? Joint.Centre - (Axis * (Joint.Gap / 2)) + (q * Mark)
            : Joint.Centre - (Axis * ((Joint.Gap / 2) + Mark)) + (q * (Joint.Outside / 2));
    }

    /// <summary>Whether a mark can be punched there: on bare pipe; on a header only along it.</summary>
    public bool MarkExists(int at)
    {
        if (!HasMarks || (Joint.Header != Vector.Zero && Math.Abs(Q(at).Dot(Joint.Header)) <= 0.9998))
            return false;
        var mark = MarkAt(at);
        // What covers the place has a spot just outside the pipe inside it.
        var over = mark + ((Joint.Header != Vector.Zero ? Axis : Q(at)) * Covered);
        return Joint.Bodies.All(b => b.Distance(over) > -1e-6);
    }

    // Over a branch's root gap, under anything that is set on the pipe, mm.
    private const double Covered = 5;

    /// <summary>L: the lip of the free face, where it should be.</summary>
    public Point Lip(int at) => LipToward(Q(at));

    public Point LipToward(Vector q) =>
        Joint.Far is { } far ? far.Centre + (Carried(q) * (far.Outside / 2)) : Joint.Tip;

    /// <summary>L of the moved part.</summary>
    public Point Lip(int at, in Motion moved) =>
        Joint.Far is { } far ? moved.Of(far.Centre) + (Carried(Q(at), moved) * (far.Outside / 2)) : moved.Of(Joint.Tip);

    /// <summary>Lip of the held part's other end, for diagonals.</summary>
    public Point HeldLip(int at)
    {
        var q = Q(at);
        if (FarSide.Least(-Axis, Joint.HeldFar.Normal) is var (axis, angle))
            q = q.Turned(axis, angle);
        return Joint.HeldFar.Centre + (Laid(q, Joint.HeldFar.Normal) * (Joint.HeldFar.Outside / 2));
    }

    /// <summary>Lip of the open end behind a held fitting, at a clock position carried there.</summary>
    public Point HeldEndLip(int at)
    {
        var q = Q(at);
        foreach (var (axis, angle) in Joint.HeldCarry)
            q = q.Turned(axis, angle);
        return Joint.HeldEndFace!.Centre + (Laid(q, Joint.HeldEndFace.Normal) * (Joint.HeldEndFace.Outside / 2));
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
