namespace Rootgap.Sheets;

/// <summary>A turned rectangle on paper, mm: the room of a text or of a symbol. Its baseline makes <paramref name="Turn"/> radians with the horizontal.</summary>
internal readonly record struct Slab(Spot Centre, double HalfWidth, double HalfHeight, double Turn)
{
    public Slab(Box box)
        : this(box.Centre, box.Width / 2, box.Height / 2, 0)
    {
    }

    /// <summary>A thick stroke.</summary>
    public static Slab Along(Spot a, Spot b, double half) => new(a.Toward(b, 0.5), (a.To(b) / 2) + half, half, a.AngleTo(b));

    public Slab Larger(double margin) => this with { HalfWidth = HalfWidth + margin, HalfHeight = HalfHeight + margin };

    /// <summary>The upright box that holds it.</summary>
    public Box Bounds
    {
        get
        {
            var (w, h) = (HalfWidth, HalfHeight);
            if (Turn != 0)
            {
                var (sin, cos) = Math.SinCos(Turn);
                (w, h) = ((Math.Abs(HalfWidth * cos) + Math.Abs(HalfHeight * sin)), (Math.Abs(HalfWidth * sin) + Math.Abs(HalfHeight * cos)));
            }

            return new(Centre.X - w, Centre.Y - h, 2 * w, 2 * h);
        }
    }

    /// <summary>Whether the two share some paper: no line parts them that is parallel to a side of either.</summary>
    public bool Overlaps(in Slab other)
    {
        var (dx, dy) = (other.Centre.X - Centre.X, other.Centre.Y - Centre.Y);
        if (Turn == 0 && other.Turn == 0)
            return Math.Abs(dx) < HalfWidth + other.HalfWidth && Math.Abs(dy) < HalfHeight + other.HalfHeight;
        var (s1, c1) = Math.SinCos(Turn);
        var (s2, c2) = Math.SinCos(other.Turn);
        var (cos, sin) = (Math.Abs((c1 * c2) + (s1 * s2)), Math.Abs((c1 * s2) - (s1 * c2)));
        return Math.Abs((dx * c1) + (dy * s1)) < HalfWidth + (other.HalfWidth * cos) + (other.HalfHeight * sin)
            && Math.Abs((dy * c1) - (dx * s1)) < HalfHeight + (other.HalfWidth * sin) + (other.HalfHeight * cos)
            && Math.Abs((dx * c2) + (dy * s2)) < other.HalfWidth + (HalfWidth * cos) + (HalfHeight * sin)
            && Math.Abs((dy * c2) - (dx * s2)) < other.HalfHeight + (HalfWidth * sin) + (HalfHeight * cos);
    }
}
