namespace Rootgap.Measure;

/// <summary>A rigid motion of something from its place as drawn: turned and shifted, neither stretched nor mirrored. Shifts mm, turns radians.</summary>
/// <remarks>Get one from <see cref="None"/>, <see cref="About"/> or by composing: the default value of the struct is not a motion.</remarks>
public readonly record struct Motion
{
    private readonly Vector east;
    private readonly Vector north;
    private readonly Vector up;
    private readonly Vector shift;

    private Motion(Vector east, Vector north, Vector up, Vector shift) => (this.east, this.north, this.up, this.shift) = (east, north, up, shift);

    /// <summary>Where everything stays as drawn.</summary>
    public static readonly Motion None = new(Vector.East, Vector.North, Vector.Up, Vector.Zero);

    /// <summary>Turned about a place, then shifted: p becomes c + Q (p - c) + shift.</summary>
    /// <param name="centre">c, the place about which it is turned.</param>
    /// <param name="shift">mm.</param>
    /// <param name="turn">Rotation vector: the axis, right-handed, as long as the angle in radians; one turn, not three in a row.</param>
    public static Motion About(Point centre, Vector shift, Vector turn)
    {
        var (axis, angle) = (turn.Unit, turn.Length);
        var (e, n, u) = angle > 0 ? (Vector.East.Turned(axis, angle), Vector.North.Turned(axis, angle), Vector.Up.Turned(axis, angle)) : (Vector.East, Vector.North, Vector.Up);
        var c = centre - Point.Origin;
        return new(e, n, u, c + shift - ((e * c.X) + (n * c.Y) + (u * c.Z)));
    }

    /// <summary>Where a place goes.</summary>
    public Point Of(Point p) => new(
        (east.X * p.X) + (north.X * p.Y) + (up.X * p.Z) + shift.X,
        (east.Y * p.X) + (north.Y * p.Y) + (up.Y * p.Z) + shift.Y,
        (east.Z * p.X) + (north.Z * p.Y) + (up.Z * p.Z) + shift.Z);

    /// <summary>How a direction or a displacement turns.</summary>
    public Vector Of(Vector v) => new(
        (east.X * v.X) + (north.X * v.Y) + (up.X * v.Z),
        (east.Y * v.X) + (north.Y * v.Y) + (up.Y * v.Z),
        (east.Z * v.X) + (north.Z * v.Y) + (up.Z * v.Z));

    /// <summary>This motion after another one, as one.</summary>
    public Motion After(Motion first) => new(Of(first.east), Of(first.north), Of(first.up), Of(first.shift) + shift);

    /// <summary>The motion that undoes this one.</summary>
    public Motion Inverse
    {
        get
        {
            var (e, n, u) = (new Vector(east.X, north.X, up.X), new Vector(east.Y, north.Y, up.Y), new Vector(east.Z, north.Z, up.Z));
            return new(e, n, u, -((e * shift.X) + (n * shift.Y) + (u * shift.Z)));
        }
    }

    /// <summary>The rotation vector, radians: its length 0 to pi.</summary>
    public Vector Turn
    {
        get
        {
            // Twice the sine times the axis, and twice the cosine and one: together good at every angle but near the half turn.
            var twist = new Vector(north.Z - up.Y, up.X - east.Z, east.Y - north.X);
            var (sine, cosine) = (twist.Length / 2, (east.X + north.Y + up.Z - 1) / 2);
            var angle = Math.Atan2(sine, cosine);
            if (sine > 1e-6 || cosine > 0)
                return sine > 1e-12 ? twist / (2 * sine) * angle : twist / 2;
            // Near the half turn Q + 1 has the axis in every column.
            var (a, b, c) = (east + Vector.East, north + Vector.North, up + Vector.Up);
            var axis = (a.Length >= b.Length && a.Length >= c.Length ? a : b.Length >= c.Length ? b : c).Unit;
            return axis * (twist.Dot(axis) < 0 ? -angle : angle);
        }
    }

    /// <summary>How far a place goes, mm.</summary>
    public Vector ShiftAt(Point p) => Of(p) - p;

    public override string ToString() => $"shift {shift}, turn {Turn}";
}
