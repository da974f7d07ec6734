namespace Rootgap.Tests.FitUp;

/// <summary>A rigid motion as a matrix and a shift: x becomes R x + t.</summary>
internal sealed record PlainMotion(double[][] R, double[] T)
{
    public static readonly PlainMotion One = new([[1, 0, 0], [0, 1, 0], [0, 0, 1]], [0, 0, 0]);

    public double[] Turn(double[] v) => [FitBench.Dot(R[0], v), FitBench.Dot(R[1], v), FitBench.Dot(R[2], v)];

    public double[] Of(double[] p) => FitBench.Plus(Turn(p), T);

    public PlainMotion After(PlainMotion first)
    {
        double[][] columns = [.. Enumerable.Range(0, 3).Select(k => Turn([first.R[0][k], first.R[1][k], first.R[2][k]]))];
        return new([.. Enumerable.Range(0, 3).Select(i => new[] { columns[0][i], columns[1][i], columns[2][i] })], Of(first.T));
    }

    public PlainMotion Back()
    {
        double[][] r = [.. Enumerable.Range(0, 3).Select(i => new[] { R[0][i], R[1][i], R[2][i] })];
        var turned = new PlainMotion(r, [0, 0, 0]).Turn(T);
        return new(r, FitBench.Times(turned, -1));
    }

    /// <summary>About a place by a rotation vector (Rodrigues in matrix form), then shifted.</summary>
    public static PlainMotion About(double[] c, double[] w, double[] shift)
    {
        var angle = FitBench.Norm(w);
        if (angle < 1e-15)
            return One with { T = shift };
        var k = FitBench.Times(w, 1 / angle);
        var (s, v) = (Math.Sin(angle), 1 - Math.Cos(angle));
        double[][] r =
        [
            [1 - (v * ((k[1] * k[1]) + (k[2] * k[2]))), (v * k[0] * k[1]) - (s * k[2]), (v * k[0] * k[2]) + (s * k[1])],
            [(v * k[0] * k[1]) + (s * k[2]), 1 - (v * ((k[0] * k[0]) + (k[2] * k[2]))), (v * k[1] * k[2]) - (s * k[0])],
            [(v * k[0] * k[2]) - (s * k[1]), (v * k[1] * k[2]) + (s * k[0]), 1 - (v * ((k[0] * k[0]) + (k[1] * k[1])))],
        ];
        var m = new PlainMotion(r, [0, 0, 0]);
        return m with { T = FitBench.Plus(FitBench.Less(c, m.Turn(c)), shift) };
    }
}
