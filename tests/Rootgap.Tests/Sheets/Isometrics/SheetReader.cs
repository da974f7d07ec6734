using System.Globalization;
using System.Xml.Linq;

namespace Rootgap.Tests.Sheets.Isometrics;

/// <summary>Reads a sheet's SVG as a stranger would: words with their room and strokes with the group they stand in. Uses nothing of the project.</summary>
internal sealed class SheetReader
{
    private static readonly XNamespace Svg = "http://www.w3.org/2000/svg";

    /// <summary>Part of the font's size that a capital takes (DejaVu Sans: 1493 of 2048 units).</summary>
    private const double CapHeight = 0.729;

    /// <summary>Words with their room, from the baseline to the capitals' height.</summary>
    /// <param name="Order">The later mark lies over the earlier one.</param>
    /// <param name="Scale">What the transforms make of a millimetre.</param>
    public sealed record Word(string Text, (double X, double Y)[] Corners, string Class, int Order, double Scale);

    /// <summary>A straight part or a piece of a flattened curve.</summary>
    /// <param name="Half">Half its width.</param>
    /// <param name="Begins">Whether a pen is set down at its first end.</param>
    public sealed record Stroke((double X, double Y) A, (double X, double Y) B, double Half, string Class, string Id, bool IsFill, int Order, bool Begins);

    /// <summary>A filled outline of one part.</summary>
    public sealed record Fill((double X, double Y)[] Outline, bool IsWhite, string Class, int Order);

    public List<Word> Words { get; } = [];

    public List<Stroke> Strokes { get; } = [];

    public List<Fill> Fills { get; } = [];

    /// <summary>Width and height of the paper.</summary>
    public (double Width, double Height) Paper { get; }

    private int order;

    public List<string> Ids { get; } = [];

    public SheetReader(string svg)
    {
        var root = XDocument.Parse(svg).Root!;
        var box = ((string)root.Attribute("viewBox")!).Split(' ').Select(n => double.Parse(n, CultureInfo.InvariantCulture)).ToArray();
        Paper = (box[2], box[3]);
        Read(root, [1, 0, 0, 1, 0, 0], "", "");
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
        Words.Add(new(e.Value, [At(m, x, top), At(m, x + width, top), At(m, x + width, bottom), At(m, x, bottom)], inClass, order++, Math.Sqrt(Math.Abs((m[0] * m[3]) - (m[1] * m[2])))));
    }

    private void ReadPath(XElement e, double[] m, string inClass, string inId)
    {
        var half = Number(e, "stroke-width") / 2;
        var isFill = e.Attribute("stroke") is null;
        var d = (string)e.Attribute("d")!;
        var numbers = new List<double>();
        (double X, double Y) at = default, start = default;
        var (isDown, from, own) = (false, Strokes.Count, order++);
        var i = 0;
        while (i < d.Length)
        {
            var command = d[i++];
            var first = i;
            while (i < d.Length && !char.IsAsciiLetter(d[i]))
                i++;
            numbers.Clear();
            foreach (var part in d[first..i].Split([' ', ','], StringSplitOptions.RemoveEmptyEntries))
                numbers.Add(double.Parse(part, CultureInfo.InvariantCulture));
            switch (command)
            {
                case 'M':
                    EndPart();
                    at = start = At(m, numbers[0], numbers[1]);
                    isDown = false;
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

        EndPart();

        void Go((double X, double Y) to)
        {
            Strokes.Add(new(at, to, half, inClass, inId, isFill, own, !isDown));
            (at, isDown) = (to, true);
        }

        void EndPart()
        {
            if (isFill && Strokes.Count > from)
                Fills.Add(new([.. Strokes[from..].Select(s => s.A)], (string?)e.Attribute("fill") == "#ffffff", inClass, own));
            from = Strokes.Count;
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
