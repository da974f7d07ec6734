namespace Rootgap.Sheets;

/// <summary>A page as pixels, red, green and blue, white at first. Areas are filled with soft edges; what runs round a point at all is inside (non-zero rule), as in SVG and PDF.</summary>
internal sealed class Bitmap
{
    // Each row of pixels is cut in so many lines; along a line the cover is exact.
    private const int LinesPerPixel = 8;

    private readonly List<(int Line, float X, int Turn)> _crossings = [];
    private readonly float[] _cover;

    public Bitmap(int width, int height)
    {
        (Width, Height) = (width, height);
        Pixels = new byte[width * height * 3];
        Array.Fill(Pixels, (byte)255);
        _cover = new float[width + 1];
    }

    public int Width { get; }

    public int Height { get; }

    public byte[] Pixels { get; }

    /// <summary>Adds an edge of the area to be filled; edges must close, in any order. Pixels.</summary>
    public void Edge(Spot a, Spot b)
    {
        if (a.Y == b.Y)
            return;
        var turn = a.Y < b.Y ? 1 : -1;
        var (top, bottom) = turn > 0 ? (a, b) : (b, a);
        var slope = (bottom.X - top.X) / (bottom.Y - top.Y);
        var first = Math.Max(0, (int)Math.Ceiling((top.Y * LinesPerPixel) - 0.5));
        var end = Math.Min(Height * LinesPerPixel, (int)Math.Ceiling((bottom.Y * LinesPerPixel) - 0.5));
        for (var line = first; line < end; line++)
            _crossings.Add((line, (float)(top.X + ((((line + 0.5) / LinesPerPixel) - top.Y) * slope)), turn));
    }

    /// <summary>Fills the area within the edges added since the last time.</summary>
    public void Fill(Ink ink)
    {
        _crossings.Sort((a, b) => a.Line != b.Line ? a.Line.CompareTo(b.Line) : a.X.CompareTo(b.X));
        for (var i = 0; i < _crossings.Count;)
        {
            var row = _crossings[i].Line / LinesPerPixel;
            var (from, to) = (Width, 0);
            while (i < _crossings.Count && _crossings[i].Line / LinesPerPixel == row)
            {
                var (line, start, winding) = _crossings[i++];
                while (winding != 0 && i < _crossings.Count && _crossings[i].Line == line)
                {
                    winding += _crossings[i].Turn;
                    if (winding == 0)
                        Cover(start, _crossings[i].X, ref from, ref to);
                    i++;
                }
            }
            Blend(row, from, to, ink);
        }
        _crossings.Clear();
    }

    private void Cover(float left, float right, ref int from, ref int to)
    {
        (left, right) = (Math.Clamp(left, 0, Width), Math.Clamp(right, 0, Width));
        if (right <= left)
            return;
        var (first, last) = ((int)left, (int)right);
        from = Math.Min(from, first);
        to = Math.Max(to, Math.Min(last + 1, Width));
        if (first == last)
        {
            _cover[first] += right - left;
            return;
        }
        _cover[first] += first + 1 - left;
        for (var x = first + 1; x < last; x++)
            _cover[x]++;
        _cover[last] += right - last;
    }

    private void Blend(int row, int from, int to, Ink ink)
    {
        for (var x = from; x < to; x++)
        {
            var share = Math.Min(1, _cover[x] / LinesPerPixel);
            _cover[x] = 0;
            var pixel = Pixels.AsSpan(3 * ((row * Width) + x), 3);
            pixel[0] = Mix(pixel[0], ink.Red, share);
            pixel[1] = Mix(pixel[1], ink.Green, share);
            pixel[2] = Mix(pixel[2], ink.Blue, share);
        }
        _cover[Width] = 0;
    }

    private static byte Mix(byte under, byte over, float share) => (byte)(under + ((over - under) * share) + 0.5f);
}
