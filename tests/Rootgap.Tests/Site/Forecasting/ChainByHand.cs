namespace Rootgap.Tests.Site.Forecasting;

/// <summary>
/// A tolerance chain worked out apart from the program: every place and limit is given by the test, each error moves the whole of what lies nearer to the weld by
/// a four-by-four matrix whose turn is the exponential series, and only chance decides. Nothing of the engine's geometry is used.
/// </summary>
internal sealed class ChainByHand(int seed)
{
    public const double Degree = Math.PI / 180;

    private readonly Random chance = new(seed);
    private readonly List<(double[] At, double[][] Axes, double[] Limits, string[] Names)> errors = [];

    /// <summary>The six limits at a place; axes are x (3 o'clock), y (12 o'clock) and z. From the thing outside to the weld, in this order.</summary>
    public ChainByHand Then(double[] at, double[][] axes, double x = 0, double y = 0, double z = 0, double rx = 0, double ry = 0, double rz = 0)
    {
        errors.Add((at, axes, [x, y, z, rx, ry, rz], []));
        return this;
    }

    /// <summary>Clock of a joint by site.md section 1: 12 most nearly up, north where the pipe is upright; 3 clockwise looking along.</summary>
    public static double[][] Clock(params double[] along)
    {
        double[] up = Math.Abs(along[2]) > Math.Cos(5 * Degree) ? [0, 1, 0] : [0, 0, 1];
        var dot = up[0] * along[0] + up[1] * along[1] + up[2] * along[2];
        double[] twelve = [up[0] - dot * along[0], up[1] - dot * along[1], up[2] - dot * along[2]];
        var length = Math.Sqrt(twelve.Sum(v => v * v));
        twelve = [.. twelve.Select(v => v / length)];
        // Looking along, with 12 up, 3 is at the right hand: along x twelve.
        double[] three = [along[1] * twelve[2] - along[2] * twelve[1], along[2] * twelve[0] - along[0] * twelve[2], along[0] * twelve[1] - along[1] * twelve[0]];
        return [three, twelve, along];
    }

    /// <summary>One chance motion of the last part: four by four.</summary>
    public double[,] Draw()
    {
        var whole = Identity();
        foreach (var (at, axes, limits, _) in errors)
        {
            var drawn = limits.Select(l => l * ((2 * chance.NextDouble()) - 1)).ToArray();
            double[] shift = [0, 0, 0], turn = [0, 0, 0];
            for (var k = 0; k < 3; k++)
            {
                for (var i = 0; i < 3; i++)
                {
                    shift[i] += axes[k][i] * drawn[k];
                    turn[i] += axes[k][i] * drawn[k + 3];
                }
            }

            whole = Times(whole, About(at, shift, turn));
        }

        return whole;
    }

    /// <summary>Standard deviations of the second side against the first, in the weld's axes: mm and radians.</summary>
    public static double[] Deviations(ChainByHand first, ChainByHand second, double[] at, double[][] axes, int count)
    {
        var sums = new double[6];
        var squares = new double[6];
        for (var n = 0; n < count; n++)
        {
            var relative = Times(Inverse(first.Draw()), second.Draw());
            double[] moved = [.. Enumerable.Range(0, 3).Select(i => relative[i, 0] * at[0] + relative[i, 1] * at[1] + relative[i, 2] * at[2] + relative[i, 3] - at[i])];
            // Of a small turn the skew part is the rotation vector but for its cube.
            double[] turn = [(relative[2, 1] - relative[1, 2]) / 2, (relative[0, 2] - relative[2, 0]) / 2, (relative[1, 0] - relative[0, 1]) / 2];
            for (var k = 0; k < 3; k++)
            {
                Add(k, Dot(moved, axes[k]));
                Add(k + 3, Dot(turn, axes[k]));
            }
        }

        return [.. sums.Select((s, k) => Math.Sqrt((squares[k] - s * s / count) / (count - 1)))];

        void Add(int k, double v)
        {
            sums[k] += v;
            squares[k] += v * v;
        }
    }

    private static double Dot(double[] a, double[] b) => a[0] * b[0] + a[1] * b[1] + a[2] * b[2];

    private static double[,] Identity() => new double[,] { { 1, 0, 0, 0 }, { 0, 1, 0, 0 }, { 0, 0, 1, 0 }, { 0, 0, 0, 1 } };

    private static double[,] About(double[] centre, double[] shift, double[] w)
    {
        // exp(W) = 1 + W + W^2/2 + ...
        double[,] skew = { { 0, -w[2], w[1], 0 }, { w[2], 0, -w[0], 0 }, { -w[1], w[0], 0, 0 }, { 0, 0, 0, 0 } };
        var turn = Identity();
        var power = Identity();
        for (var n = 1; n < 12; n++)
        {
            power = Times(power, skew);
            for (var i = 0; i < 4; i++)
            {
                for (var j = 0; j < 4; j++)
                {
                    power[i, j] /= n;
                    turn[i, j] += power[i, j];
                }
            }
        }

        for (var i = 0; i < 3; i++)
            turn[i, 3] = centre[i] + shift[i] - (turn[i, 0] * centre[0] + turn[i, 1] * centre[1] + turn[i, 2] * centre[2]);
        return turn;
    }

    private static double[,] Times(double[,] a, double[,] b)
    {
        var c = new double[4, 4];
        for (var i = 0; i < 4; i++)
        {
            for (var j = 0; j < 4; j++)
            {
                for (var k = 0; k < 4; k++)
                    c[i, j] += a[i, k] * b[k, j];
            }
        }

        return c;
    }

    private static double[,] Inverse(double[,] a)
    {
        var b = Identity();
        for (var i = 0; i < 3; i++)
        {
            for (var j = 0; j < 3; j++)
                b[i, j] = a[j, i];
        }

        for (var i = 0; i < 3; i++)
            b[i, 3] = -(b[i, 0] * a[0, 3] + b[i, 1] * a[1, 3] + b[i, 2] * a[2, 3]);
        return b;
    }
}
