using System.Numerics;
using System.Runtime.InteropServices;

namespace Rootgap.Cutting.Solver;

/// <summary>The basis: its explicit inverse, pivots, and putting right what has drifted.</summary>
internal sealed partial class PatternLp
{
    private void Direction(Pattern pattern)
    {
        Array.Clear(w);
        for (var i = 0; i < pattern.Kinds.Length; i++)
        {
            Axpy(pattern.Counts[i], inverse.AsSpan(pattern.Kinds[i] * rows, rows), w);
        }

        if (limitRow[pattern.Type] >= 0)
        {
            Axpy(1, inverse.AsSpan(limitRow[pattern.Type] * rows, rows), w);
        }
    }

    private bool Pivot(Kind enterKind, int enter, double reduced)
    {
        var leave = -1;
        var ratio = double.MaxValue;
        for (var r = 0; r < rows; r++)
        {
            if (w[r] > 1e-9)
            {
                var t = x[r] / w[r];
                if (t < ratio - 1e-10 || (t < ratio + 1e-10 && (leave < 0 || w[leave] < w[r])))
                {
                    ratio = Math.Min(ratio, t);
                    leave = r;
                }
            }
        }

        if (leave < 0)
        {
            return false;
        }

        ratio = Math.Max(0, x[leave] / w[leave]);
        Axpy(-ratio, w, x);
        for (var r = 0; r < rows; r++)
        {
            if (x[r] < 0)
            {
                x[r] = 0;
            }
        }

        x[leave] = ratio;
        var pivot = w[leave];
        w[leave] = 0;
        for (var c = 0; c < rows; c++)
        {
            var at = c * rows + leave;
            var f = inverse[at];
            if (f != 0)
            {
                f /= pivot;
                Axpy(-f, w, inverse.AsSpan(c * rows, rows));
                inverse[at] = f;
                y[c] += reduced * f;
            }
        }

        if (kind[leave] == Kind.Pattern)
        {
            inBasis[which[leave]] = false;
        }

        kind[leave] = enterKind;
        which[leave] = enter;
        sign[leave] = 1;
        if (enterKind == Kind.Pattern)
        {
            inBasis[enter] = true;
        }

        if ((++pivots & 127) == 0)
        {
            Reprice();
        }

        return true;
    }

    private double[] RightSide()
    {
        var b = new double[rows];
        for (var i = 0; i < m; i++)
        {
            b[i] = demand[i] + lean[i];
        }

        for (var k = 0; k < problem.Types; k++)
        {
            if (limitRow[k] >= 0)
            {
                b[limitRow[k]] = limit[k];
            }
        }

        return b;
    }

    private bool Drifted()
    {
        pivots = 0;
        var b = RightSide();
        var exact = new double[rows];
        for (var c = 0; c < rows; c++)
        {
            Axpy(b[c], inverse.AsSpan(c * rows, rows), exact);
        }

        for (var r = 0; r < rows; r++)
        {
            if (1e-7 < Math.Abs(exact[r] - x[r]))
            {
                return true;
            }
        }

        return false;
    }

    // The inverse afresh from the basis, by Gauss-Jordan with row exchange.
    private void Refactor()
    {
        var n = rows;
        var a = new double[n][];
        for (var r = 0; r < n; r++)
        {
            a[r] = new double[2 * n];
            a[r][n + r] = 1;
        }

        for (var c = 0; c < n; c++)
        {
            double s = sign[c];
            if (kind[c] == Kind.Pattern)
            {
                var p = pool[which[c]];
                for (var i = 0; i < p.Kinds.Length; i++)
                {
                    a[p.Kinds[i]][c] += s * p.Counts[i];
                }

                if (limitRow[p.Type] >= 0)
                {
                    a[limitRow[p.Type]][c] += s;
                }
            }
            else
            {
                a[which[c]][c] = s * (kind[c] == Kind.Slack && which[c] < m ? -1 : 1);
            }
        }

        for (var c = 0; c < n; c++)
        {
            var p = c;
            for (var r = c + 1; r < n; r++)
            {
                if (Math.Abs(a[p][c]) < Math.Abs(a[r][c]))
                {
                    p = r;
                }
            }

            if (Math.Abs(a[p][c]) < 1e-11)
            {
                return; // singular to working precision: keep the old inverse
            }

            (a[p], a[c]) = (a[c], a[p]);
            var f = 1 / a[c][c];
            for (var j = c; j < 2 * n; j++)
            {
                a[c][j] *= f;
            }

            for (var r = 0; r < n; r++)
            {
                if (r != c && a[r][c] != 0)
                {
                    Axpy(-a[r][c], a[c].AsSpan(c), a[r].AsSpan(c));
                }
            }
        }

        for (var r = 0; r < n; r++)
        {
            for (var c = 0; c < n; c++)
            {
                inverse[c * n + r] = a[r][n + c];
            }
        }

        var b = RightSide();
        Array.Clear(x);
        for (var c = 0; c < n; c++)
        {
            Axpy(b[c], inverse.AsSpan(c * n, n), x);
        }

        for (var r = 0; r < n; r++)
        {
            if (x[r] < 0 && -1e-7 < x[r])
            {
                x[r] = 0;
            }
        }

        Reprice();
    }

    private void Reprice()
    {
        var costs = new double[rows];
        for (var r = 0; r < rows; r++)
        {
            costs[r] = CostOf(r);
        }

        for (var c = 0; c < rows; c++)
        {
            y[c] = Dot(costs, inverse.AsSpan(c * rows, rows));
        }

        if (inBasis.Length < pool.Count + 64)
        {
            Array.Resize(ref inBasis, 2 * pool.Count + 256);
        }

        Array.Clear(inBasis);
        for (var r = 0; r < rows; r++)
        {
            if (kind[r] == Kind.Pattern)
            {
                inBasis[which[r]] = true;
            }
        }
    }

    private static void Axpy(double f, ReadOnlySpan<double> from, Span<double> to)
    {
        var fs = MemoryMarshal.Cast<double, Vector<double>>(from);
        var ts = MemoryMarshal.Cast<double, Vector<double>>(to);
        var v = new Vector<double>(f);
        for (var i = 0; i < fs.Length; i++)
        {
            ts[i] += v * fs[i];
        }

        for (var i = fs.Length * Vector<double>.Count; i < from.Length; i++)
        {
            to[i] += f * from[i];
        }
    }

    private static double Dot(ReadOnlySpan<double> a, ReadOnlySpan<double> b)
    {
        var va = MemoryMarshal.Cast<double, Vector<double>>(a);
        var vb = MemoryMarshal.Cast<double, Vector<double>>(b);
        var sum = Vector<double>.Zero;
        for (var i = 0; i < va.Length; i++)
        {
            sum += va[i] * vb[i];
        }

        var total = Vector.Dot(sum, Vector<double>.One);
        for (var i = va.Length * Vector<double>.Count; i < a.Length; i++)
        {
            total += a[i] * b[i];
        }

        return total;
    }
}
