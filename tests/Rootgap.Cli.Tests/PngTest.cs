using Rootgap.Sheets;
using SkiaSharp;
using UglyToad.PdfPig.Core;
using UglyToad.PdfPig.Fonts.TrueType;
using UglyToad.PdfPig.Fonts.TrueType.Parser;

namespace Rootgap.Cli.Tests;

public class PngTest
{
    private const double Dots = 254; // ten to the millimetre

    private static byte[] Png(Action<Canvas> draw, double dotsPerInch = Dots)
    {
        var canvas = new Canvas();
        draw(canvas);
        using var stream = new MemoryStream();
        PngWriter.Write(canvas.ToScene(new Paper("small", 40, 30)), dotsPerInch, stream);
        return stream.ToArray();
    }

    // How much of the page is black, mm²: the sum of all grey.
    private static double Black(byte[] png)
    {
        using var picture = SKBitmap.Decode(png);
        return picture.Pixels.Sum(p => (255.0 - p.Green) / 255) / 100;
    }

    // Source: pi r².
    [Fact]
    public void A_disc_covers_its_area() =>
        Assert.Equal(Math.PI * 81, Black(Png(c => c.Fill(Shape.Circle(new(20.03, 14.98), 9)))), 0.15);

    [Fact]
    public void A_hole_that_runs_the_other_way_round_stays_white()
    {
        var hole = Shape.Polygon(new Spot(15, 12), new Spot(15, 18), new Spot(25, 18), new Spot(25, 12));
        Assert.Equal(300 - 60, Black(Png(c => c.Fill(Shape.Rectangle(new(10, 7.5, 20, 15)) + hole))), 0.05);
    }

    // A band with half a disc at each end: length times width and pi w²/4, whatever the direction, once at the corner.
    [Fact]
    public void A_line_covers_its_length_times_its_width_with_round_ends() =>
        Gen.Select(Gen.Double[0, 6.28], Gen.Double[0.2, 2]).Sample((turn, width) =>
        {
            // A level edge is placed to an eighth of a pixel: each of the two by 0.0125 mm along 20 mm, and a tenth for the ends and for rounding to 255 greys.
            const double near = 0.6;
            var (a, b) = (new Spot(20, 15).Polar(-10, turn), new Spot(20, 15).Polar(10, turn));
            Assert.Equal((20 * width) + (Math.PI * width * width / 4), Black(Png(c => c.Line(a, b, new LineStyle(width)))), near);
            Assert.Equal((20 * width) + (Math.PI * width * width / 4), Black(Png(c => c.Polyline([a, new(20, 15), b], new LineStyle(width)))), near);
        }, iter: 20);

    [Fact]
    public void Dashes_cover_their_share_of_a_line()
    {
        // 3 mm on and 1.5 mm off along 30 mm: six whole dashes and the full seventh, each with round ends.
        const double width = 0.5;
        Assert.Equal((7 * 3 * width) + (7 * Math.PI * width * width / 4), Black(Png(c => c.Line(5, 15, 35, 15, new LineStyle(width, Dash.Dashed)))), 0.1);
    }

    // Source: the outlines of the same font file as PdfPig reads them, their area by the shoelace sum.
    [Theory]
    [InlineData('H', false)]
    [InlineData('é', false)]
    [InlineData('8', true)]
    [InlineData('½', true)]
    [InlineData('g', false)]
    [InlineData('Å', true)]
    public void A_letter_covers_the_area_of_its_outline(char letter, bool bold)
    {
        var style = new TextStyle(12, bold);
        var font = TrueTypeFontParser.Parse(new TrueTypeDataBytes(File.ReadAllBytes(Repository.At("src", "Rootgap", "Sheets", "Fonts", style.Face.Name + ".ttf"))));
        Assert.True(font.TryGetPath(letter, out var outline));
        var expected = Math.Abs(outline.Sum(Area)) * style.Em * style.Em / 2048 / 2048;
        Assert.Equal(expected, Black(Png(c => c.Text(letter.ToString(), 10, 20, style))), expected * 0.004);
        Assert.Equal(expected, Black(Png(c => c.Text(letter.ToString(), 20, 15, style, Anchor.Middle, 1))), expected * 0.01);
    }

    // Source: the check of an empty IEND chunk is AE 42 60 82 (ISO/IEC 15948, and every PNG file).
    [Fact]
    public void The_file_is_a_png_of_the_papers_size()
    {
        var png = Png(c => c.Line(0, 0, 40, 30), 96);
        Assert.Equal([0x89, 0x50, 0x4e, 0x47, 0x0d, 0x0a, 0x1a, 0x0a], png[..8]);
        Assert.Equal([0xae, 0x42, 0x60, 0x82], png[^4..]);
        using var picture = SKBitmap.Decode(png);
        Assert.Equal((151, 113), (picture.Width, picture.Height));
        Assert.Equal(png, Png(c => c.Line(0, 0, 40, 30), 96));
    }

    [Fact]
    public void What_lies_off_the_page_does_no_harm() =>
        Assert.Equal(0, Black(Png(c => c.Fill(Shape.Circle(new(-50, -50), 30)).Line(100, -100, 100, 100).Text("off", 60, 60))));

    private static double Area(PdfSubpath part)
    {
        var points = new List<(double X, double Y)>();
        foreach (var command in part.Commands)
        {
            switch (command)
            {
                case PdfSubpath.Move move: points.Add((move.Location.X, move.Location.Y)); break;
                case PdfSubpath.Line line: points.Add((line.To.X, line.To.Y)); break;
                case PdfSubpath.QuadraticBezierCurve q:
                    for (var t = 0.05; t < 1.01; t += 0.05)
                        points.Add((Quadratic(q.StartPoint.X, q.ControlPoint.X, q.EndPoint.X, t), Quadratic(q.StartPoint.Y, q.ControlPoint.Y, q.EndPoint.Y, t)));
                    break;
                case PdfSubpath.CubicBezierCurve c:
                    for (var t = 0.05; t < 1.01; t += 0.05)
                        points.Add((Cubic(c.StartPoint.X, c.FirstControlPoint.X, c.SecondControlPoint.X, c.EndPoint.X, t), Cubic(c.StartPoint.Y, c.FirstControlPoint.Y, c.SecondControlPoint.Y, c.EndPoint.Y, t)));
                    break;
            }
        }
        return points.Select((p, i) => (p, q: points[(i + 1) % points.Count])).Sum(e => (e.p.X * e.q.Y) - (e.q.X * e.p.Y)) / 2;

        static double Quadratic(double a, double b, double c, double t) => ((1 - t) * (1 - t) * a) + (2 * t * (1 - t) * b) + (t * t * c);
        static double Cubic(double a, double b, double c, double d, double t) => ((1 - t) * Quadratic(a, b, c, t)) + (t * Quadratic(b, c, d, t));
    }
}
