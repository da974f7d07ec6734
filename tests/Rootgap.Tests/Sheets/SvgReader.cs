using System.Globalization;
using System.Xml.Linq;

namespace Rootgap.Tests.Sheets;

/// <summary>Reads an SVG page as another program does: texts as turned rectangles and paths as polylines, all in the page's millimetres.</summary>
internal sealed class SvgReader
{
    /// <summary>Height of a capital letter of DejaVu Sans over the font's size (its OS/2 table: 1493 of 2048).</summary>
    private const double CapHeight = 0.729;

    private readonly List<(string Text, (double X, double Y)[] Corners, string Class)> texts = [];
    private readonly List<(string Class, string Id, List<(double X, double Y)> Line)> paths = [];

    public SvgReader(string svg)
    {
        Walk(XDocument.Parse(svg).Root!, [1, 0, 0, 1, 0, 0], "", "");
    }

    public IReadOnlyList<(string Text, (double X, double Y)[] Corners, string Class)> Texts => texts;

    /// <summary>Parts of paths, with class and id of the nearest group or path that has one.</summary>
    public IReadOnlyList<(string Class, string Id, List<(double X, double Y)> Line)> Paths => paths;

    /// <summary>Pairs of texts that share paper (separating axes of two rectangles).</summary>
    public IEnumerable<string> OverlappingTexts()
    {
        for (var i = 0; i < texts.Count; i++)
        {
            for (var k = i + 1; k < texts.Count; k++)
            {
                if (Meet(texts[i].Corners, texts[k].Corners))
                    yield return $"'{texts[i].Text}' on '{texts[k].Text}'";
            }
        }
    }

    /// <summary>Texts that lie across a line of a class of paths.</summary>
    public IEnumerable<string> TextsAcross(string prefix)
    {
        foreach (var (@class, _, line) in paths.Where(p => p.Class.StartsWith(prefix, StringComparison.Ordinal)))
        {
            for (var i = 0; i + 1 < line.Count; i++)
            {
                foreach (var text in texts)
                {
                    if (Meet(text.Corners, [line[i], line[i + 1]]))
                        yield return $"'{text.Text}' across {@class}";
                }
            }
        }
    }

    private static bool Meet((double X, double Y)[] a, (double X, double Y)[] b)
    {
        foreach (var polygon in new[] { a, b })
        {
            for (var i = 0; i < polygon.Length; i++)
            {
                var (p, q) = (polygon[i], polygon[(i + 1) % polygon.Length]);
                var (nx, ny) = (q.Y - p.Y, p.X - q.X);
                if (Math.Abs(nx) + Math.Abs(ny) < 1e-9)
                    continue;
                var (onA, onB) = (a.Select(s => (s.X * nx) + (s.Y * ny)).ToList(), b.Select(s => (s.X * nx) + (s.Y * ny)).ToList());
                if (onA.Max() <= onB.Min() || onB.Max() <= onA.Min())
                    return false;
            }
        }

        return true;
    }

    private void Walk(XElement element, double[] m, string @class, string id)
    {
        @class = element.Attribute("class")?.Value ?? @class;
        id = element.Attribute("id")?.Value ?? id;
        m = Transformed(m, element.Attribute("transform")?.Value ?? "");
        switch (element.Name.LocalName)
        {
            case "text":
                var width = Number(element, "textLength");
                var size = Number(element, "font-size");
                var x = Number(element, "x") - (element.Attribute("text-anchor")?.Value switch { "middle" => width / 2, "end" => width, _ => 0 });
                var y = Number(element, "y");
                texts.Add((element.Value, [Of(m, x, y - (CapHeight * size)), Of(m, x + width, y - (CapHeight * size)), Of(m, x + width, y), Of(m, x, y)], @class));
                break;
            case "path":
                foreach (var line in Lines(element.Attribute("d")!.Value))
                    paths.Add((@class, id, [.. line.Select(p => Of(m, p.X, p.Y))]));
                break;
        }

        foreach (var child in element.Elements())
            Walk(child, m, @class, id);
    }

    private static double Number(XElement element, string name) =>
        element.Attribute(name) is { } a ? double.Parse(a.Value, CultureInfo.InvariantCulture) : 0;

    private static (double X, double Y) Of(double[] m, double x, double y) => ((m[0] * x) + (m[2] * y) + m[4], (m[1] * x) + (m[3] * y) + m[5]);

    private static double[] Transformed(double[] m, string transform)
    {
        foreach (var part in transform.Split(')', StringSplitOptions.RemoveEmptyEntries))
        {
            var open = part.IndexOf('(', StringComparison.Ordinal);
            var n = part[(open + 1)..].Split([' ', ','], StringSplitOptions.RemoveEmptyEntries).Select(t => double.Parse(t, CultureInfo.InvariantCulture)).ToArray();
            var (sin, cos) = Math.SinCos(n[0] * Math.PI / 180);
            double[] t = part[..open].Trim() switch { "matrix" => n, "translate" => [1, 0, 0, 1, n[0], n[1]], "rotate" => [cos, sin, -sin, cos, 0, 0], var other => throw new InvalidDataException(other) };
            m = [(m[0] * t[0]) + (m[2] * t[1]), (m[1] * t[0]) + (m[3] * t[1]), (m[0] * t[2]) + (m[2] * t[3]), (m[1] * t[2]) + (m[3] * t[3]), (m[0] * t[4]) + (m[2] * t[5]) + m[4], (m[1] * t[4]) + (m[3] * t[5]) + m[5]];
        }

        return m;
    }

    /// <summary>The parts of a path; a curve gives eight straight pieces.</summary>
    private static IEnumerable<List<(double X, double Y)>> Lines(string data)
    {
        var part = new List<(double X, double Y)>();
        for (var i = 0; i < data.Length;)
        {
            var end = data.AsSpan(i + 1).IndexOfAny("MLCZ") is var e and >= 0 ? i + 1 + e : data.Length;
            var n = data[(i + 1)..end].Split([' ', ','], StringSplitOptions.RemoveEmptyEntries).Select(t => double.Parse(t, CultureInfo.InvariantCulture)).ToArray();
            switch (data[i])
            {
                case 'M':
                    if (part.Count > 0)
                        yield return part;
                    part = [(n[0], n[1])];
                    break;
                case 'L':
                    part.Add((n[0], n[1]));
                    break;
                case 'C':
                    var (a, b) = (part[^1], (n[4], n[5]));
                    for (var k = 1; k <= 8; k++)
                        part.Add((Bezier(a.X, n[0], n[2], n[4], k / 8.0), Bezier(a.Y, n[1], n[3], n[5], k / 8.0)));
                    break;
                case 'Z':
                    part.Add(part[0]);
                    break;
                default:
                    throw new InvalidDataException(data);
            }

            i = end;
        }

        if (part.Count > 0)
            yield return part;
    }

    private static double Bezier(double a, double b, double c, double d, double t) =>
        ((1 - t) * (1 - t) * (1 - t) * a) + (3 * (1 - t) * (1 - t) * t * b) + (3 * (1 - t) * t * t * c) + (t * t * t * d);
}
