using Rootgap.FitUp;
using Rootgap.Measure;

namespace Rootgap.Tests.FitUp;

/// <summary>The geometry of one joint, worked out again from the definitions with plain arrays and a power series for the rotation:
/// nothing of the engine's is used but its input types. What it gives is what a fitter would read.</summary>
internal sealed class FitBench
{
    private readonly double[] c, a, x, y, side, far, up, floor;
    private readonly double gap, outside, inside, turn, mark, lip;
    private readonly bool isRound;

    public FitBench(StandingJoint standing)
    {
        var (j, up, floor, mark) = (standing.Joint, A(standing.SetUp.Up), A(standing.SetUp.Floor), standing.Mark);
        // Of what stands at the end of these pipes, an elbow and a tee show how they are turned; a flange, a pipe and a concentric reducer are round.
        isRound = j.New.Kind is "flange" or "pipe" or "reducer";
        c = A(j.Centre);
        a = A(j.Axis);
        (gap, outside, inside, turn, this.mark) = (j.Gap, j.Outside, j.Inside, j.Turn.Turn, mark);
        side = A(j.Turn.Side);
        far = j.Far is { } f ? A(f.Centre) : A(j.Tip);
        lip = j.Far?.Outside ?? 0;
        (this.up, this.floor) = (up, floor);
        // 12 o'clock: up with its part along the axis taken out; north (the second axis) where the axis is within 5 degrees of upright.
        var twelve = Less(up, Times(a, Dot(up, a)));
        if (Math.Acos(Math.Min(1, Math.Abs(Dot(up, a)))) < 5 * Math.PI / 180)
        {
            double[] north = [0, 1, 0];
            twelve = Less(north, Times(a, Dot(north, a)));
            if (Norm(twelve) < Math.Sin(5 * Math.PI / 180))
                twelve = Less([0, 0, 1], Times(a, a[2]));
        }
        y = Times(twelve, 1 / Norm(twelve));
        // Clockwise looking along a: the right hand of someone who looks along a with y overhead.
        x = Cross(a, y);
    }

    public double[] X => x;

    public double[] Q(int at) => at switch { 12 => y, 3 => x, 6 => Times(y, -1), _ => Times(x, -1) };

    /// <summary>Rotation matrix of a rotation vector: I + K + K²/2! + ... until nothing is added.</summary>
    private static double[][] Exp(double[] w)
    {
        double[][] k = [[0, -w[2], w[1]], [w[2], 0, -w[0]], [-w[1], w[0], 0]];
        double[][] sum = [[1, 0, 0], [0, 1, 0], [0, 0, 1]], term = [[1, 0, 0], [0, 1, 0], [0, 0, 1]];
        for (var n = 1; n < 30; n++)
        {
            term = Product(term, k, 1.0 / n);
            for (var i = 0; i < 3; i++)
                for (var l = 0; l < 3; l++)
                    sum[i][l] += term[i][l];
        }
        return sum;
    }

    public double[] Moved(double[] p, double[] e)
    {
        var turned = Rotated(Less(p, c), e);
        return Plus(Plus(c, turned), Plus(Plus(Times(x, e[0]), Times(y, e[1])), Times(a, e[2])));
    }

    public double[] Rotated(double[] v, double[] e)
    {
        var q = Exp(Plus(Plus(Times(x, e[3]), Times(y, e[4])), Times(a, e[5])));
        return [Dot(q[0], v), Dot(q[1], v), Dot(q[2], v)];
    }

    // Round the bend: the part of q toward the side goes back along the pipe, the rest stays.
    public double[] Carried(double[] q)
    {
        if (turn == 0)
            return q;
        var s = Dot(q, side);
        var rest = Less(q, Times(side, s));
        return Plus(rest, Plus(Times(side, s * Math.Cos(turn)), Times(a, -s * Math.Sin(turn))));
    }

    public double[] Normal => turn == 0 ? a : Plus(Times(a, Math.Cos(turn)), Times(side, Math.Sin(turn)));

    public double[] Lip(int at) => Plus(far, Times(Carried(Q(at)), lip / 2));

    public double[] MarkAt(int at) => Plus(Less(c, Times(a, (gap / 2) + mark)), Times(Q(at), outside / 2));

    public double Gap(int at, double[] e) => Dot(Step(at, e), a);

    public double HiLo(int at, double[] e) => Dot(Step(at, e), Q(at));

    private double[] Step(int at, double[] e)
    {
        var nose = Plus(c, Plus(Times(a, gap / 2), Times(Q(at), inside / 2)));
        var held = Plus(c, Plus(Times(a, -gap / 2), Times(Q(at), inside / 2)));
        return Less(Moved(nose, e), held);
    }

    // A rim that is round shows no roll: the fitter finds 12 o'clock anew in the moved face.
    public double[] MovedLip(int at, double[] e) => Plus(Moved(far, e), Times(MovedWay(Q(at), e), lip / 2));

    private double[] MovedWay(double[] q, double[] e)
    {
        var t = Carried(q);
        if (!isRound)
            return Rotated(t, e);
        var n = Rotated(Normal, e);
        var flat = Less(t, Times(n, Dot(t, n)));
        return Times(flat, 1 / Norm(flat));
    }

    public double Tape(int at, double[] e) => Norm(Less(MovedLip(at, e), MarkAt(at)));

    /// <summary>Scale to pipe at s: a point of the plane through c with a and the side, s back from c, moved out until it meets the moved face (by halving).</summary>
    public double Scale(double s, double[] e)
    {
        var w = turn == 0 ? y : side;
        var face = Moved(far, e);
        var n = Rotated(Normal, e);
        double Side(double h) => Dot(Less(Plus(Less(c, Times(a, s)), Times(w, h)), face), n);
        double low = -20000, high = 20000;
        for (var i = 0; i < 200; i++)
        {
            var middle = (low + high) / 2;
            if (Math.Sign(Side(middle)) == Math.Sign(Side(low)))
                low = middle;
            else
                high = middle;
        }
        return ((low + high) / 2) - (outside / 2);
    }

    /// <summary>Angle to the horizontal of a direction of the weld's cross-section, carried to the face and moved.</summary>
    public double Slope(double[] q, double[] e)
    {
        var v = MovedWay(q, e);
        var rise = Dot(v, up);
        return Math.Atan2(rise, Norm(Less(v, Times(up, rise))));
    }

    public double LineSlope(double[] line, double[] e)
    {
        var v = Rotated(line, e);
        var rise = Dot(v, up);
        return Math.Atan2(rise, Norm(Less(v, Times(up, rise))));
    }

    public double Height(int? at, double[] e) => Dot(Less(at is { } q ? MovedLip(q, e) : Moved(far, e), floor), up);

    public double Plumb(int at, double[] e)
    {
        var d = Less(MovedLip(at, e), MarkAt(at));
        return Norm(Less(d, Times(up, Dot(d, up))));
    }

    /// <summary>What the reading would be; null where these definitions do not cover it.</summary>
    public double? Read(Reading reading, StandingJoint standing, double[] e) => reading switch
    {
        Reading.Gap r => Gap(r.At, e),
        Reading.HiLo r => HiLo(r.At, e),
        Reading.Tape r when standing.Joint.Weld != FitWeld.Branch => Tape(r.At, e),
        Reading.Scale r when standing.Joint.Turn.Turn > 0 => Scale(r.Station, e),
        Reading.FaceLevelAlong => Slope(turn == 0 ? y : side, e),
        Reading.FaceLevelAcross => Slope(AcrossLine(), e),
        Reading.Height r => Height(r.At, e),
        Reading.Plumb r when standing.Joint.Weld != FitWeld.Branch => Plumb(r.At, e),
        Reading.Holes => LineSlope(HoleLine(standing.Joint.Holes!), e),
        _ => null,
    };

    private double[] AcrossLine()
    {
        if (turn == 0)
            return x;
        var v = Cross(a, side);
        var s = Math.Abs(Dot(v, x)) > 1e-6 ? Math.Sign(Dot(v, x)) : Math.Sign(Dot(v, y));
        return Times(v, s);
    }

    private double[] HoleLine(FitHoles holes) => HoleLine(holes.Count, A(holes.Between), Normal, up, Carried(x), Carried(y));

    /// <summary>Of all pairs of neighbours, and of pairs with one hole between them, the line of the one whose middle is highest, from 9 to 3 o'clock; neighbours where two are equally high.</summary>
    public static double[] HoleLine(int count, double[] u, double[] n, double[] up, double[] three, double[] twelve)
    {
        var v = Cross(n, u);
        double[] Hole(int k)
        {
            var t = 2 * Math.PI * (k + 0.5) / count;
            return Plus(Times(u, Math.Cos(t)), Times(v, Math.Sin(t)));
        }

        double[] best = u;
        var most = double.NegativeInfinity;
        foreach (var apart in (int[])[1, 2])
        {
            for (var k = 0; k < count; k++)
            {
                var m = Plus(Hole(k), Hole(k + apart));
                // Two holes of four, one between them, lie across from each other: their middle is the centre, the way to it is over the hole between.
                m = apart == 2 ? Hole(k + 1) : Times(m, 1 / Norm(m));
                if (Dot(m, up) > most + (apart == 2 ? 1e-7 : 1e-9))
                    (best, most) = (m, Dot(m, up));
            }
        }

        var line = Cross(n, best);
        var right = Dot(line, three);
        if (Math.Abs(right) < 1e-6)
            right = Dot(line, twelve);
        return Times(line, Math.Sign(right));
    }

    public static double[] A(Point p) => [p.X, p.Y, p.Z];
    public static double[] A(Vector v) => [v.X, v.Y, v.Z];
    public static double Dot(double[] p, double[] q) => (p[0] * q[0]) + (p[1] * q[1]) + (p[2] * q[2]);
    public static double Norm(double[] p) => Math.Sqrt(Dot(p, p));
    public static double[] Times(double[] p, double k) => [p[0] * k, p[1] * k, p[2] * k];
    public static double[] Plus(double[] p, double[] q) => [p[0] + q[0], p[1] + q[1], p[2] + q[2]];
    public static double[] Less(double[] p, double[] q) => [p[0] - q[0], p[1] - q[1], p[2] - q[2]];
    public static double[] Cross(double[] p, double[] q) =>
        [(p[1] * q[2]) - (p[2] * q[1]), (p[2] * q[0]) - (p[0] * q[2]), (p[0] * q[1]) - (p[1] * q[0])];

    private static double[][] Product(double[][] p, double[][] q, double scale)
    {
        double[][] r = [new double[3], new double[3], new double[3]];
        for (var i = 0; i < 3; i++)
            for (var k = 0; k < 3; k++)
                for (var l = 0; l < 3; l++)
                    r[i][k] += p[i][l] * q[l][k] * scale;
        return r;
    }
}
