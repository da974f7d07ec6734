namespace Rootgap.Measure;

/// <summary>A place in the plant, millimetres: x = east, y = north, z = up, right-handed.</summary>
public readonly record struct Point(double X, double Y, double Z)
{
    /// <summary>The drawing's origin.</summary>
    public static readonly Point Origin;

    public static Point operator +(Point p, Vector v) => new(p.X + v.X, p.Y + v.Y, p.Z + v.Z);
    public static Point operator -(Point p, Vector v) => new(p.X - v.X, p.Y - v.Y, p.Z - v.Z);
    public static Vector operator -(Point a, Point b) => new(a.X - b.X, a.Y - b.Y, a.Z - b.Z);

    /// <summary>Distance to another place, mm.</summary>
    public double To(Point other) => (other - this).Length;

    /// <summary>The place a share <paramref name="t"/> of the way to <paramref name="other"/> (0 here, 1 there).</summary>
    public Point Toward(Point other, double t) => this + ((other - this) * t);
}

/// <summary>A displacement or, with length 1, a direction: millimetres or no unit; x = east, y = north, z = up.</summary>
public readonly record struct Vector(double X, double Y, double Z)
{
    public static readonly Vector Zero;
    public static readonly Vector East = new(1, 0, 0);
    public static readonly Vector North = new(0, 1, 0);
    public static readonly Vector Up = new(0, 0, 1);

    public static Vector operator +(Vector a, Vector b) => new(a.X + b.X, a.Y + b.Y, a.Z + b.Z);
    public static Vector operator -(Vector a, Vector b) => new(a.X - b.X, a.Y - b.Y, a.Z - b.Z);
    public static Vector operator -(Vector a) => new(-a.X, -a.Y, -a.Z);
    public static Vector operator *(Vector a, double k) => new(a.X * k, a.Y * k, a.Z * k);
    public static Vector operator *(double k, Vector a) => a * k;
    public static Vector operator /(Vector a, double k) => new(a.X / k, a.Y / k, a.Z / k);

    public double Dot(Vector b) => (X * b.X) + (Y * b.Y) + (Z * b.Z);

    public Vector Cross(Vector b) => new((Y * b.Z) - (Z * b.Y), (Z * b.X) - (X * b.Z), (X * b.Y) - (Y * b.X));

    public double Length => Math.Sqrt(Dot(this));

    /// <summary>The direction of this displacement. A zero vector stays zero: callers check first.</summary>
    public Vector Unit
    {
        get
        {
            var l = Length;
            return l > 0 ? this / l : Zero;
        }
    }

    // The record's own text would print Unit, whose text prints its Unit, without end.
    public override string ToString() => string.Create(System.Globalization.CultureInfo.InvariantCulture, $"({X:0.###}, {Y:0.###}, {Z:0.###})");

    /// <summary>The part of this vector square to the unit direction <paramref name="axis"/>.</summary>
    public Vector SquareTo(Vector axis) => this - (axis * Dot(axis));

    /// <summary>A unit direction square to this one, the same one every time: nearest to up, or to north where this is upright.</summary>
    public Vector AnySquare()
    {
        var up = Up.SquareTo(Unit);
        return up.Length > 1e-3 ? up.Unit : North.SquareTo(Unit).Unit;
    }

    /// <summary>Angle to another vector, radians, 0 to pi; exact near 0 and pi as well.</summary>
    public double AngleTo(Vector b) => Math.Atan2(Cross(b).Length, Dot(b));

    /// <summary>This vector turned about a unit axis by an angle in radians, right-handed (Rodrigues).</summary>
    public Vector Turned(Vector axis, double angle)
    {
        var (s, c) = Math.SinCos(angle);
        return (this * c) + (axis.Cross(this) * s) + (axis * (axis.Dot(this) * (1 - c)));
    }
}
