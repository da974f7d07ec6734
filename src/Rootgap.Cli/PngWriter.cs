using Rootgap.Measure;
using Rootgap.Sheets;
using SkiaSharp;

namespace Rootgap.Cli;

/// <summary>A scene as a PNG picture. Lines and letters are those of SVG and PDF.</summary>
internal static class PngWriter
{
    /// <summary>Writes the page at a fineness of 20 to 1200 dots per inch (96 on a screen, 150 to read, 300 to print).</summary>
    public static void Write(Scene scene, double dotsPerInch, Stream stream)
    {
        if (dotsPerInch is not (>= 20 and <= 1200))
            throw new ArgumentOutOfRangeException(nameof(dotsPerInch), dotsPerInch, "A picture has 20 to 1200 dots per inch.");
        var scale = dotsPerInch / LengthText.Inch;
        using var bitmap = new SKBitmap((int)Math.Round(scene.Paper.Width * scale), (int)Math.Round(scene.Paper.Height * scale), SKColorType.Rgba8888, SKAlphaType.Opaque);
        using (var canvas = new SKCanvas(bitmap))
        {
            canvas.Clear(SKColors.White);
            canvas.Scale((float)scale);
            using var page = new PngPage(canvas);
            foreach (var mark in scene.Marks)
                mark.DrawOn(page);
        }

        using var png = bitmap.Encode(SKEncodedImageFormat.Png, quality: 100);
        png.SaveTo(stream);
    }

    private sealed class PngPage(SKCanvas canvas) : IBackEnd, IDisposable
    {
        /// <summary>A line thinner than this many dots would fade.</summary>
        private const float Thinnest = 0.8f;

        private readonly Dictionary<FontFace, SKTypeface> _faces = [];

        public void Draw(Fill fill)
        {
            using var path = PathOf(fill.Shape);
            using var paint = PaintOf(fill.Ink);
            canvas.DrawPath(path, paint);
        }

        public void Draw(Stroke stroke)
        {
            var m = canvas.TotalMatrix;
            var dots = MathF.Sqrt(MathF.Abs((m.ScaleX * m.ScaleY) - (m.SkewX * m.SkewY)));
            using var path = PathOf(stroke.Shape);
            using var paint = PaintOf(stroke.Style.Ink);
            paint.Style = SKPaintStyle.Stroke;
            paint.StrokeWidth = Math.Max((float)stroke.Style.Width, Thinnest / dots);
            paint.StrokeCap = SKStrokeCap.Round;
            paint.StrokeJoin = SKStrokeJoin.Round;
            using var dashes = stroke.Style.Pattern.Length > 0 ? SKPathEffect.CreateDash([.. stroke.Style.Pattern.ToArray().Select(l => (float)l)], 0) : null;
            paint.PathEffect = dashes;
            canvas.DrawPath(path, paint);
        }

        // Filled outlines: letters look the same on every system, whatever it has for drawing text.
        public void Draw(Text text)
        {
            if (!_faces.TryGetValue(text.Style.Face, out var face))
            {
                using var file = SKData.CreateCopy(text.Style.Face.File);
                _faces[text.Style.Face] = face = SKTypeface.FromData(file);
            }

            using var font = new SKFont(face, (float)text.Style.Em) { Hinting = SKFontHinting.None, LinearMetrics = true, Subpixel = true };
            using var path = font.GetTextPath(text.Content, new SKPoint((float)-text.Lead, 0));
            using var paint = PaintOf(text.Style.Ink);
            canvas.Save();
            canvas.Translate((float)text.At.X, (float)text.At.Y);
            canvas.RotateRadians((float)text.Turn);
            canvas.DrawPath(path, paint);
            canvas.Restore();
        }

        public void Draw(Group group)
        {
            var p = group.Placement;
            canvas.Save();
            canvas.Concat(new SKMatrix((float)p.A, (float)p.C, (float)p.E, (float)p.B, (float)p.D, (float)p.F, 0, 0, 1));
            foreach (var mark in group.Marks)
                mark.DrawOn(this);
            canvas.Restore();
        }

        public void Dispose()
        {
            foreach (var face in _faces.Values)
                face.Dispose();
        }

        private static SKPaint PaintOf(Ink ink) => new() { IsAntialias = true, Color = new SKColor(ink.Red, ink.Green, ink.Blue) };

        private static SKPath PathOf(Shape shape)
        {
            using var path = new SKPathBuilder();
            foreach (var s in shape.Segments)
            {
                switch (s.Step)
                {
                    case Step.Move: path.MoveTo(At(s.To)); break;
                    case Step.Line: path.LineTo(At(s.To)); break;
                    case Step.Curve: path.CubicTo(At(s.Control1), At(s.Control2), At(s.To)); break;
                    case Step.Close: path.Close(); break;
                    default: throw new InvalidOperationException($"No step {s.Step}.");
                }
            }

            return path.Detach();
        }

        private static SKPoint At(Spot spot) => double.IsFinite(spot.X + spot.Y)
            ? new((float)spot.X, (float)spot.Y)
            : throw new ArgumentOutOfRangeException(nameof(spot), spot, "A place on a sheet must be a finite number of millimetres.");
    }
}
