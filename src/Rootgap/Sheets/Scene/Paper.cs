namespace Rootgap.Sheets;

/// <summary>A sheet of paper, millimetres, as it lies in front of the reader.</summary>
/// <remarks>A sizes: ISO 216. Letter and Tabloid: ANSI/ASME Y14.1 sizes A and B, 8.5 x 11 and 11 x 17 inches.</remarks>
public sealed record Paper(string Name, double Width, double Height)
{
    public static readonly Paper A5 = new("A5", 148, 210);
    public static readonly Paper A4 = new("A4", 210, 297);
    public static readonly Paper A3 = new("A3", 297, 420);
    public static readonly Paper Letter = new("Letter", 215.9, 279.4);
    public static readonly Paper Tabloid = new("Tabloid", 279.4, 431.8);

    /// <summary>The sizes that can be asked for by name.</summary>
    public static readonly IReadOnlyList<Paper> All = [A5, A4, A3, Letter, Tabloid];

    /// <summary>The size of that name, whatever its case, or null.</summary>
    public static Paper? Find(string name) =>
        All.FirstOrDefault(p => string.Equals(p.Name, name, StringComparison.OrdinalIgnoreCase));

    /// <summary>The same paper with its long side across.</summary>
    public Paper Landscape => Width >= Height ? this : this with { Width = Height, Height = Width };

    /// <summary>The same paper with its long side upright.</summary>
    public Paper Portrait => Height >= Width ? this : this with { Width = Height, Height = Width };

    /// <summary>The size of the same family with twice the area (A4 to A3, Letter to Tabloid), for drawings; itself where there is none. Keeps the way it lies.</summary>
    public Paper Larger
    {
        get
        {
            var larger = Name switch { "A5" => A4, "A4" => A3, "Letter" => Tabloid, _ => Portrait };
            return Width > Height ? larger.Landscape : larger;
        }
    }

    /// <summary>The whole sheet.</summary>
    public Box Box => new(0, 0, Width, Height);

    public override string ToString() => Name;
}

/// <summary>A place on paper, millimetres from the upper left corner, y downwards.</summary>
public readonly record struct Spot(double X, double Y)
{
    /// <summary>This place moved.</summary>
    public Spot Moved(double dx, double dy) => new(X + dx, Y + dy);

    /// <summary>The place at a distance (mm) and an angle (radians, from right towards down).</summary>
    public Spot Polar(double distance, double angle)
    {
        var (sin, cos) = Math.SinCos(angle);
        return new(X + (distance * cos), Y + (distance * sin));
    }

    /// <summary>The place a share <paramref name="t"/> of the way to <paramref name="other"/>.</summary>
    public Spot Toward(Spot other, double t) => new(X + ((other.X - X) * t), Y + ((other.Y - Y) * t));

    /// <summary>Distance on paper, mm.</summary>
    public double To(Spot other) => Math.Sqrt(((other.X - X) * (other.X - X)) + ((other.Y - Y) * (other.Y - Y)));

    /// <summary>Direction to another place, radians from right towards down.</summary>
    public double AngleTo(Spot other) => Math.Atan2(other.Y - Y, other.X - X);
}

/// <summary>An upright rectangle on paper, mm.</summary>
public readonly record struct Box(double X, double Y, double Width, double Height)
{
    public double Left => X;
    public double Top => Y;
    public double Right => X + Width;
    public double Bottom => Y + Height;
    public Spot Centre => new(X + (Width / 2), Y + (Height / 2));

    /// <summary>The box smaller by a margin on each side.</summary>
    public Box Inset(double margin) => Inset(margin, margin);

    public Box Inset(double across, double down) => new(X + across, Y + down, Width - (2 * across), Height - (2 * down));

    /// <summary>The top strip of a height, and what is left below it.</summary>
    public (Box Strip, Box Remainder) CutTop(double height) =>
        (this with { Height = height }, new(X, Y + height, Width, Height - height));

    /// <summary>The bottom strip of a height, and what is left above it.</summary>
    public (Box Strip, Box Remainder) CutBottom(double height) =>
        (new(X, Bottom - height, Width, height), this with { Height = Height - height });

    /// <summary>Columns side by side whose widths are in the proportion of the shares.</summary>
    public IReadOnlyList<Box> Columns(double gap, params IReadOnlyList<double> shares)
    {
        var unit = (Width - (gap * (shares.Count - 1))) / shares.Sum();
        var x = X;
        var columns = new List<Box>(shares.Count);
        foreach (var share in shares)
        {
            columns.Add(new(x, Y, unit * share, Height));
            x += (unit * share) + gap;
        }
        return columns;
    }

    /// <summary>Whether the other box lies within this one, give or take <paramref name="slack"/> mm.</summary>
    public bool Holds(Box other, double slack = 1e-6) =>
        Left - slack <= other.Left && other.Right <= Right + slack && Top - slack <= other.Top && other.Bottom <= Bottom + slack;

    /// <summary>Whether the boxes share more than <paramref name="slack"/> mm both ways.</summary>
    public bool Overlaps(Box other, double slack = 1e-6) =>
        other.Left + slack < Right && Left + slack < other.Right && other.Top + slack < Bottom && Top + slack < other.Bottom;
}

/// <summary>Where a group's own coordinates go: x' = a x + c y + e, y' = b x + d y + f. Its default is not legal: start from <see cref="None"/>.</summary>
public readonly record struct Placement(double A, double B, double C, double D, double E, double F)
{
    public static readonly Placement None = new(1, 0, 0, 1, 0, 0);

    public static Placement Move(double x, double y) => new(1, 0, 0, 1, x, y);

    public static Placement Scale(double k) => new(k, 0, 0, k, 0, 0);

    /// <summary>Turned about the origin, radians from right towards down.</summary>
    public static Placement Turn(double angle)
    {
        var (sin, cos) = Math.SinCos(angle);
        return new(cos, sin, -sin, cos, 0, 0);
    }

    /// <summary>This placement first, then the other.</summary>
    public Placement Then(Placement n) => new(
        (n.A * A) + (n.C * B), (n.B * A) + (n.D * B),
        (n.A * C) + (n.C * D), (n.B * C) + (n.D * D),
        (n.A * E) + (n.C * F) + n.E, (n.B * E) + (n.D * F) + n.F);

    public Spot Of(Spot p) => new((A * p.X) + (C * p.Y) + E, (B * p.X) + (D * p.Y) + F);
}
