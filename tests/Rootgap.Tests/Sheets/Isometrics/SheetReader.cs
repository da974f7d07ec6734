using System.Globalization;
using System.Xml.Linq;

namespace Rootgap.Tests.Sheets.Isometrics;

/// <summary>Reads a sheet's SVG as a stranger would: words with their room and strokes with the group they stand in. Uses nothing of the project.</summary>
internal sealed class SheetReader
{
    private static readonly XNamespace Svg = "http://www.w3.org/2000/svg";

    /// <summary>Part of the font's size that a capital takes (DejaVu Sans: 1493 of 2048 units).</summary>
    private const double CapHeight = 0.729;

    public List<(string Text, (double X, double Y)[] Corners, string Class)> Words { get; } = [];

    /// <summary>Straight parts and flattened curves, with half their width.</summary>
    public List<((double X, double Y) A, (double X, double Y) B, double Half, string Class, string Id, bool IsFill)> Strokes { get; } = [];

    public List<string> Ids { get; } = [];

    public SheetReader(string svg)
    {
        Read(XDocument.Parse(svg).Root!, [1, 0, 0, 1, 0, 0], "", "");
    }

    private void Read(XElement e, double[] m, string inClass, string inId)
    {
        var transform = (string?)e.Attribute("transform");
        if (transform is not null)
            m = Then(Transform(transform), m);
        if ((string?)e.Attribute("id") is { } id)
        {
            Ids.Add(id);
            inId = id;
        }

        var name = (string?)e.Attribute("class");
        if (name is not null)
            inClass = inClass.Length > 0 ? inClass + "/" + name : name;
        if (e.Name == Svg + "text")
            ReadText(e, m, inClass);
        else if (e.Name == Svg + "path")
            ReadPath(e, m, inClass, inId);
        foreach (var child in e.Elements())
            Read(child, m, inClass, inId);
    }

    private void ReadText(XElement e, double[] m, string inClass)
    {
        var (x, y) = (Number(e, "x"), Number(e, "y"));
        var (width, size) = (Number(e, "textLength"), Number(e, "font-size"));
        x -= (string?)e.Attribute("text-anchor") switch { "middle" => width / 2, "end" => width, _ => 0 };
        var (top, bottom) = (y - (CapHeight * size), y);
        Words.Add((e.Value, [At(m, x, top), At(m, x + width, top), At(m, x + width, bottom), At(m, x, bottom)], inClass));
    }

    private void ReadPath(XElement e, double[] m, string inClass, string inId)
    {
        var half = Number(e, "stroke-width") / 2;
        var isFill = e.Attribute("stroke") is null;
        var d = (string)e.Attribute("d")!;
        var numbers = new List<double>();
        (double X, double Y) at = default, start = default;
        var i = 0;
        while (i < d.Length)
        {
            var command = d[i++];
            var from = i;
            while (i < d.Length && !char.IsAsciiLetter(d[i]))
                i++;
            numbers.Clear();
            foreach (var part in d[from..i].Split([' ', ','], StringSplitOptions.RemoveEmptyEntries))
                numbers.Add(double.Parse(part, CultureInfo.InvariantCulture));
            switch (command)
            {
                case 'M':
                    at = start = At(m, numbers[0], numbers[1]);
                    break;
                case 'L':
                    Go(At(m, numbers[0], numbers[1]));
                    break;
                case 'C':
                    var (p0, p1, p2, p3) = (at, At(m, numbers[0], numbers[1]), At(m, numbers[2], numbers[3]), At(m, numbers[4], numbers[5]));
                    for (var k = 1; k <= 8; k++)
                    {
                        var t = k / 8.0;
                        var (a, b, c, f) = ((1 - t) * (1 - t) * (1 - t), 3 * t * (1 - t) * (1 - t), 3 * t * t * (1 - t), t * t * t);
                        Go(((a * p0.X) + (b * p1.X) + (c * p2.X) + (f * p3.X), (a * p0.Y) + (b * p1.Y) + (c * p2.Y) + (f * p3.Y)));
                    }

                    break;
                default:
                    Go(start);
                    break;
            }
        }

        void Go((double X, double Y) to)
        {
            Strokes.Add((at, to, half, inClass, inId, isFill));
            at = to;
        }
    }

    private static double Number(XElement e, string name) => (string?)e.Attribute(name) is { } text ? double.Parse(text, CultureInfo.InvariantCulture) : 0;

    private static double[] Transform(string text)
    {
        double[] m = [1, 0, 0, 1, 0, 0];
        foreach (var call in text.Split(')', StringSplitOptions.RemoveEmptyEntries | StringSplitOptions.TrimEntries))
        {
            var open = call.IndexOf('(', StringComparison.Ordinal);
            var n = call[(open + 1)..].Split([' ', ','], StringSplitOptions.RemoveEmptyEntries).Select(p => double.Parse(p, CultureInfo.InvariantCulture)).ToArray();
            double[] next = call[..open] switch
            {
                "matrix" => n,
                "translate" => [1, 0, 0, 1, n[0], n.Length > 1 ? n[1] : 0],
                "rotate" => [Math.Cos(n[0] * Math.PI / 180), Math.Sin(n[0] * Math.PI / 180), -Math.Sin(n[0] * Math.PI / 180), Math.Cos(n[0] * Math.PI / 180), 0, 0],
                var other => throw new InvalidOperationException($"a transform that this reader does not know: {other}"),
            };
            m = Then(next, m);
        }

        return m;
    }

    /// <summary>The inner transform first, then the outer.</summary>
    private static double[] Then(double[] p, double[] q) =>
    [
        (q[0] * p[0]) + (q[2] * p[1]), (q[1] * p[0]) + (q[3] * p[1]),
        (q[0] * p[2]) + (q[2] * p[3]), (q[1] * p[2]) + (q[3] * p[3]),
        (q[0] * p[4]) + (q[2] * p[5]) + q[4], (q[1] * p[4]) + (q[3] * p[5]) + q[5],
    ];

    private static (double X, double Y) At(double[] m, double x, double y) => ((m[0] * x) + (m[2] * y) + m[4], (m[1] * x) + (m[3] * y) + m[5]);

    /// <summary>Whether two convex shapes share more than a hair of paper (separating lines).</summary>
    public static bool Overlap((double X, double Y)[] a, (double X, double Y)[] b, double hair = 0.02)
    {
        foreach (var (shape, count) in new[] { (a, a.Length), (b, b.Length) })
        {
            for (var i = 0; i < count; i++)
            {
                var (p, q) = (shape[i], shape[(i + 1) % count]);
                var (nx, ny) = (-(q.Y - p.Y), q.X - p.X);
                var length = Math.Sqrt((nx * nx) + (ny * ny));
                if (length < 1e-9)
                    continue;
                var (amin, amax) = Span(a, nx / length, ny / length);
                var (bmin, bmax) = Span(b, nx / length, ny / length);
                if (amax - bmin < hair || bmax - amin < hair)
                    return false;
            }
        }

        return true;
    }

    private static (double Least, double Most) Span((double X, double Y)[] shape, double nx, double ny)
    {
        var (least, most) = (double.MaxValue, double.MinValue);
        foreach (var (x, y) in shape)
        {
            var s = (x * nx) + (y * ny);
            (least, most) = (Math.Min(least, s), Math.Max(most, s));
        }

        return (least, most);
    }

    /// <summary>A stroke with its width, as four corners.</summary>
    public static (double X, double Y)[] Room((double X, double Y) a, (double X, double Y) b, double half)
    {
        var (dx, dy) = (b.X - a.X, b.Y - a.Y);
        var length = Math.Sqrt((dx * dx) + (dy * dy));
        if (length < 1e-9)
            return [(a.X - half, a.Y - half), (a.X + half, a.Y - half), (a.X + half, a.Y + half), (a.X - half, a.Y + half)];
        var (nx, ny) = (-dy / length * half, dx / length * half);
        return [(a.X + nx, a.Y + ny), (b.X + nx, b.Y + ny), (b.X - nx, b.Y - ny), (a.X - nx, a.Y - ny)];
    }
}
