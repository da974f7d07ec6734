namespace Rootgap.Site.Forecasting;

/// <summary>
/// What can be taken up at a weld: every opening that its own limits, and all joints on the way set within theirs, bring to a close. A convex body in five
/// dimensions (roll of the weld is free); whether an opening lies in it is found by walking to its nearest point (Wolfe, "Finding the nearest point in a polytope", 1976).
/// </summary>
internal sealed class Reach
{
    private const int Dimensions = 5;

    /// <summary>One radian counts as so many mm, so that the five are of a size.</summary>
    private const double Arm = 1000;

    /// <summary>Nearer than this is inside, mm.</summary>
    private const double Near = 0.02;

    private const int MostSteps = 400;

    /// <summary>Too short a gap is cut away: how much too short is no matter. Far beyond any opening, mm.</summary>
    private const double Shortest = -2000;

    private readonly IReadOnlyList<Opening.Setting> settings;
    private readonly double shift;
    private readonly double extra;
    private readonly double outside;

    /// <param name="shift">Offset that the weld may have, mm.</param>
    /// <param name="extra">Pipe that can be left on to fill a gap that is too wide, mm.</param>
    /// <param name="outside">Outside diameter at the weld, mm.</param>
    public Reach(IReadOnlyList<Opening.Setting> settings, double shift, double extra, double outside) => (this.settings, this.shift, this.extra, this.outside) = (settings, shift, extra, outside);

    /// <summary>How far the opening may stand along a direction of its own (x, y, z; a unit vector) and still close, mm.</summary>
    public double Along(double x, double y, double z)
    {
        var (low, high) = (0.0, 1.0);
        double[] At(double r) => [x * r, y * r, z * r, 0, 0, 0];
        while (high < 4096 && Closes(At(high)))
            (low, high) = (high, 2 * high);
        for (var i = 0; i < 24 && high - low > 0.02; i++)
        {
            var middle = (low + high) / 2;
            if (Closes(At(middle)))
                low = middle;
            else
                high = middle;
        }

        return low;
    }

    /// <summary>Whether an opening (mm and radians, roll not looked at) closes when every joint on the way is set as best.</summary>
    public bool Closes(ReadOnlySpan<double> opening)
    {
        Span<double> e = stackalloc double[Dimensions];
        for (var k = 0; k < Dimensions; k++)
            e[k] = opening[k] * (k < 3 ? 1 : Arm);
        var corral = new List<double[]>(Dimensions + 2);
        var weights = new List<double>(Dimensions + 2);
        var x = new double[Dimensions];
        Farthest([-e[0], -e[1], -e[2], -e[3], -e[4]], e, x);
        corral.Add([.. x]);
        weights.Add(1);
        var found = new double[Dimensions];
        Span<double> toward = stackalloc double[Dimensions];
        for (var step = 0; step < MostSteps; step++)
        {
            var length = Math.Sqrt(Dot(x, x));
            if (length < Near)
                return true;
            for (var k = 0; k < Dimensions; k++)
                toward[k] = -x[k];
            Farthest(toward, e, found);
            // Every point of the body lies beyond this plane: where it parts the two, the opening is outside.
            if (Dot(x, found) > 1e-9 * length)
                return false;
            corral.Add([.. found]);
            weights.Add(0);
            Settle(corral, weights, x);
        }

        return false;
    }

    /// <summary>Moves to the nearest point of the corral's hull, dropping what is not needed.</summary>
    private static void Settle(List<double[]> corral, List<double> weights, double[] x)
    {
        while (true)
        {
            var affine = NearestOfPlane(corral);
            if (affine is null)
            {
                // One point alone always has its nearest, so there are two here at least.
                // Points on one flat: the newest takes the place of the least.
                var least = weights.IndexOf(weights.Take(weights.Count - 1).Min());
                corral.RemoveAt(least);
                weights.RemoveAt(least);
                Normalise(weights);
                continue;
            }

            var step = 1.0;
            for (var i = 0; i < affine.Length; i++)
            {
                if (affine[i] < 1e-12)
                    step = Math.Min(step, weights[i] / Math.Max(1e-300, weights[i] - affine[i]));
            }

            for (var i = 0; i < affine.Length; i++)
                weights[i] += step * (affine[i] - weights[i]);
            if (step >= 1)
                break;
            for (var i = weights.Count - 1; i >= 0 && weights.Count > 1; i--)
            {
                if (weights[i] > 1e-12)
                    continue;
                weights.RemoveAt(i);
                corral.RemoveAt(i);
            }

            Normalise(weights);
        }

        Array.Clear(x);
        for (var i = 0; i < corral.Count; i++)
        {
            for (var k = 0; k < Dimensions; k++)
                x[k] += weights[i] * corral[i][k];
        }
    }

    private static void Normalise(List<double> weights)
    {
        var sum = weights.Sum();
        for (var i = 0; i < weights.Count; i++)
            weights[i] = sum > 0 ? weights[i] / sum : 1.0 / weights.Count;
    }

    /// <summary>
    /// Weights, adding to 1, of the point nearest the origin on the plane through the points; null where they lie on a lesser one. By differences from the last
    /// point made square to one another, so that it does not matter how far from the origin they all lie.
    /// </summary>
    private static double[]? NearestOfPlane(List<double[]> points)
    {
        var n = points.Count - 1;
        var basis = points[n];
        var square = new double[n][];
        var upper = new double[n, n];
        for (var i = 0; i < n; i++)
        {
            var q = square[i] = new double[Dimensions];
            for (var k = 0; k < Dimensions; k++)
                q[k] = points[i][k] - basis[k];
            var whole = Math.Sqrt(Dot(q, q));
            for (var j = 0; j < i; j++)
            {
                upper[j, i] = Dot(square[j], q);
                for (var k = 0; k < Dimensions; k++)
                    q[k] -= upper[j, i] * square[j][k];
            }

            var left = Math.Sqrt(Dot(q, q));
            if (left <= 1e-9 * whole || left <= 0)
                return null;
            upper[i, i] = left;
            for (var k = 0; k < Dimensions; k++)
                q[k] /= left;
        }

        var weights = new double[n + 1];
        var rest = 1.0;
        for (var i = n - 1; i >= 0; i--)
        {
            var right = -Dot(square[i], basis);
            for (var j = i + 1; j < n; j++)
                right -= upper[i, j] * weights[j];
            weights[i] = right / upper[i, i];
        }

        for (var i = 0; i < n; i++)
            rest -= weights[i];
        weights[n] = rest;
        return weights;
    }

    private static double Dot(ReadOnlySpan<double> a, ReadOnlySpan<double> b)
    {
        var sum = 0.0;
        for (var k = 0; k < a.Length; k++)
            sum += a[k] * b[k];
        return sum;
    }

    /// <summary>The point of the body that lies farthest along a direction, less the opening.</summary>
    private void Farthest(ReadOnlySpan<double> d, ReadOnlySpan<double> e, Span<double> point)
    {
        for (var k = 0; k < Dimensions; k++)
            point[k] = -e[k];
        OwnLimits(d, point);
        Span<double> u = stackalloc double[6];
        Span<double> best = stackalloc double[6];
        foreach (var setting in settings)
        {
            for (var i = 0; i < 6; i++)
            {
                var lever = setting.Lever[i];
                u[i] = (d[0] * lever[0]) + (d[1] * lever[1]) + (d[2] * lever[2]) + (Arm * ((d[3] * lever[3]) + (d[4] * lever[4])));
            }

            Set(setting.Control, u, best);
            for (var i = 0; i < 6; i++)
            {
                if (best[i] == 0)
                    continue;
                var lever = setting.Lever[i];
                for (var k = 0; k < Dimensions; k++)
                    point[k] += best[i] * lever[k] * (k < 3 ? 1 : Arm);
            }
        }
    }

    /// <summary>Adds the opening that the weld itself bears which lies farthest along d: offset within hi-lo, slope within the gap's variation, and no wider than the extra.</summary>
    private void OwnLimits(ReadOnlySpan<double> d, Span<double> point)
    {
        var across = Math.Sqrt((d[0] * d[0]) + (d[1] * d[1]));
        if (across > 0)
        {
            point[0] += shift * d[0] / across;
            point[1] += shift * d[1] / across;
        }

        var slope = ErrorModel.GapVariation / outside * Arm;
        var turned = Math.Sqrt((d[3] * d[3]) + (d[4] * d[4]));
        // The slope costs half its height of the extra.
        var costs = Math.Max(0, d[2]) * outside / 2 / Arm;
        var takes = turned > costs;
        if (takes)
        {
            point[3] += slope * d[3] / turned;
            point[4] += slope * d[4] / turned;
        }

        point[2] += d[2] < 0 ? Shortest : extra - (takes ? slope * outside / 2 / Arm : 0);
    }

    /// <summary>How a joint is best set along u.</summary>
    private static void Set(StageControl c, ReadOnlySpan<double> u, Span<double> best)
    {
        best.Clear();
        var across = Math.Sqrt((u[0] * u[0]) + (u[1] * u[1]));
        var byRoll = c.RollArm > 0 ? Math.Abs(u[5]) / c.RollArm : 0;
        if (c.RollArm > 0 && byRoll > across)
        {
            best[5] = Math.Sign(u[5]) * c.Roll;
        }
        else if (across > 0)
        {
            best[0] = c.Shift * u[0] / across;
            best[1] = c.Shift * u[1] / across;
        }

        best[2] = u[2] < 0 ? -(c.Along + c.Extra) : c.Along + c.Extra;
        if (u[2] == 0)
            best[2] = 0;
        var tilted = Math.Sqrt((u[3] * u[3]) + (u[4] * u[4]));
        if (tilted > 0)
        {
            best[3] = c.Tilt * u[3] / tilted;
            best[4] = c.Tilt * u[4] / tilted;
        }

        if (c.RollArm <= 0)
            best[5] = Math.Sign(u[5]) * c.Roll;
    }
}
