namespace Rootgap.Sheets;

/// <summary>A turned rectangle on paper, mm: the room of a text or of a symbol. Its baseline makes <see cref="Turn"/> radians with the horizontal.</summary>
internal readonly struct Slab
{
    private readonly double cos, sin;

    public Slab(Spot centre, double halfWidth, double halfHeight, double turn)
    {
        (Centre, HalfWidth, HalfHeight) = (centre, halfWidth, halfHeight);
        (sin, cos) = turn == 0 ? (0, 1) : Math.SinCos(turn);
    }

    public Slab(Box box)
        : this(box.Centre, box.Width / 2, box.Height / 2, 1, 0)
    {
    }

    private Slab(Spot centre, double halfWidth, double halfHeight, double cos, double sin) =>
        (Centre, HalfWidth, HalfHeight, this.cos, this.sin) = (centre, halfWidth, halfHeight, cos, sin);

    /// <summary>A thick stroke.</summary>
    public static Slab Along(Spot a, Spot b, double half)
    {
        var length = a.To(b);
        var (cos, sin) = length > 0 ? ((b.X - a.X) / length, (b.Y - a.Y) / length) : (1, 0);
        return new(a.Toward(b, 0.5), (length / 2) + half, half, cos, sin);
    }

    public Spot Centre { get; }
    public double HalfWidth { get; }
    public double HalfHeight { get; }
    public double Turn => Math.Atan2(sin, cos);

    /// <summary>Its four sides.</summary>
    public Shape Outline => Shape.Rectangle(new(-HalfWidth, -HalfHeight, 2 * HalfWidth, 2 * HalfHeight)).Placed(Placement.Turn(Turn).Then(Placement.Move(Centre.X, Centre.Y)));

    /// <summary>Whether its sides lie along those of the sheet.</summary>
    public bool IsLevel => sin == 0;

    public Slab Moved(Spot way) => new(new(Centre.X + way.X, Centre.Y + way.Y), HalfWidth, HalfHeight, cos, sin);

    public Slab Larger(double margin) => new(Centre, HalfWidth + margin, HalfHeight + margin, cos, sin);

    /// <summary>Half the width and half the height of the upright box that holds it.</summary>
    public double Across => sin == 0 ? HalfWidth : Math.Abs(HalfWidth * cos) + Math.Abs(HalfHeight * sin);

    public double Down => sin == 0 ? HalfHeight : Math.Abs(HalfWidth * sin) + Math.Abs(HalfHeight * cos);

    /// <summary>Sine of the angle between the two baselines, without its sign.</summary>
    public double SineTo(in Slab other) => Math.Abs((cos * other.sin) - (sin * other.cos));

    /// <summary>Whether the two share some paper: no line parts them that is parallel to a side of either.</summary>
    public bool Overlaps(in Slab other)
    {
        var (dx, dy) = (other.Centre.X - Centre.X, other.Centre.Y - Centre.Y);
        if (sin == 0 && other.sin == 0)
            return Math.Abs(dx) < HalfWidth + other.HalfWidth && Math.Abs(dy) < HalfHeight + other.HalfHeight;
        var (c1, s1, c2, s2) = (cos, sin, other.cos, other.sin);
        var (c, s) = (Math.Abs((c1 * c2) + (s1 * s2)), Math.Abs((c1 * s2) - (s1 * c2)));
        return Math.Abs((dx * c1) + (dy * s1)) < HalfWidth + (other.HalfWidth * c) + (other.HalfHeight * s)
            && Math.Abs((dy * c1) - (dx * s1)) < HalfHeight + (other.HalfWidth * s) + (other.HalfHeight * c)
            && Math.Abs((dx * c2) + (dy * s2)) < other.HalfWidth + (HalfWidth * c) + (HalfHeight * s)
            && Math.Abs((dy * c2) - (dx * s2)) < other.HalfHeight + (HalfWidth * s) + (HalfHeight * c);
    }
}
