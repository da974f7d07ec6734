namespace Rootgap.Measure;

/// <summary>A plain body of which a part is made, in the plant's millimetres. A closed family: a straight bar (cylinder, cone, disc, skew cone) and a bent one.</summary>
/// <remarks>Every picture, box, line of sight and clash is made from these; a part describes itself once.</remarks>
public abstract record Solid
{
    private Solid()
    {
    }

    /// <summary>It is set on another body, as a branch on its header: where both lie equally near, the other's outline goes over it.</summary>
    public bool IsSetOn { get; init; }

    /// <summary>Signed distance from a place to the surface, mm: negative inside. Never overestimates how far away the body is.</summary>
    public abstract double Distance(Point p);

    /// <summary>Discs whose hull holds the body: middle, unit direction that the disc faces, radius, mm. For boxes.</summary>
    public abstract IEnumerable<(Point Middle, Vector Axis, double Radius)> Discs { get; }

    /// <summary>The body as straight stretches of its middle line, each with its greatest radius, mm: a bend as two chords that meet on its arc. For clashes.</summary>
    public abstract IEnumerable<(Point From, Point To, double Radius)> Stretches { get; }

    /// <summary>The body after a rigid motion.</summary>
    public abstract Solid Moved(in Motion motion);

    /// <summary>How far down it reaches along a direction from a place, mm: the least of (p - from) . up over its points; for a bend its discs' (it is never asked closer than that).</summary>
    public double Lowest(Point from, Vector up)
    {
        var lowest = double.PositiveInfinity;
        foreach (var (middle, axis, radius) in Discs)
            lowest = Math.Min(lowest, (middle - from).Dot(up) - (radius * up.SquareTo(axis).Length));
        return lowest;
    }

    /// <summary>A straight round bar of one radius: a pipe, a flange's plate, a tee's arm.</summary>
    public static Bar Cylinder(Point from, Point to, double radius) => new(from, to, (to - from).Unit, radius, radius);

    /// <summary>A body of revolution from its outline as (distance along, radius), mm; steps without length are left out.</summary>
    public static IEnumerable<Bar> Turned(Point at, Vector axis, params IEnumerable<(double Along, double Radius)> outline)
    {
        (double Along, double Radius)? last = null;
        foreach (var next in outline)
        {
            if (last is { } from && next.Along - from.Along > Tolerance.Noise)
                yield return new(at + (axis * from.Along), at + (axis * next.Along), axis, from.Radius, next.Radius);
            last = next;
        }
    }

    /// <summary>Whether the straight line between two places stays out of all bodies; a line may lie on a surface, and may cut in by <paramref name="graze"/> mm.</summary>
    public static bool Clear(Point from, Point to, IEnumerable<Solid> bodies, double graze = 0.5)
    {
        foreach (var body in bodies)
        {
            if (!Clear(from, to, body, graze))
                return false;
        }

        return true;
    }

    // A distance that never overestimates lets whole stretches be passed at once; what is left is halved down to a quarter of a millimetre.
    private static bool Clear(Point from, Point to, Solid body, double graze)
    {
        var half = from.To(to) / 2;
        var middle = from.Toward(to, 0.5);
        var distance = body.Distance(middle) + graze;
        if (distance < 0)
            return false;
        return half <= distance || half < 0.25 || (Clear(from, middle, body, graze) && Clear(middle, to, body, graze));
    }

    /// <summary>A straight bar between two round ends that lie square to one axis: a cylinder, a disc, a cone; where the middles do not lie on the axis, a skew cone.</summary>
    /// <param name="Axis">Unit direction to which both ends are square; runs from the first end to the second.</param>
    /// <param name="RadiusFrom">At the first end, mm.</param>
    /// <param name="RadiusTo">At the second end, mm.</param>
    public sealed record Bar(Point From, Point To, Vector Axis, double RadiusFrom, double RadiusTo) : Solid
    {
        /// <summary>Unit direction to which its second end is square where that is another one: a piece between two mitres. For pictures and boxes; distances go by the one axis.</summary>
        public Vector? FarAxis { get; init; }

        /// <summary>Length along the axis, mm.</summary>
        public double Length => (To - From).Dot(Axis);

        public override Solid Moved(in Motion motion) => this with { From = motion.Of(From), To = motion.Of(To), Axis = motion.Of(Axis), FarAxis = FarAxis is { } far ? motion.Of(far) : null };

        public override IEnumerable<(Point, Vector, double)> Discs => [(From, Axis, RadiusFrom), (To, FarAxis ?? Axis, RadiusTo)];

        public override IEnumerable<(Point, Point, double)> Stretches => [(From, To, Math.Max(RadiusFrom, RadiusTo))];

        public override double Distance(Point p)
        {
            var length = Length;
            if (length <= 0)
                return (p - From).Length - Math.Max(RadiusFrom, RadiusTo);
            var along = (p - From).Dot(Axis);
            var t = Math.Clamp(along / length, 0, 1);
            // Slices are square to the axis and keep their middles on the line between both ends' middles, as an eccentric reducer's do.
            var middle = From + ((To - From) * t) + (Axis * (along - (t * length)));
            var lean = ((To - From).SquareTo(Axis).Length + Math.Abs(RadiusTo - RadiusFrom)) / length;
            var away = ((p - middle).Length - (RadiusFrom + ((RadiusTo - RadiusFrom) * t))) / Math.Sqrt(1 + (lean * lean));
            var beyond = Math.Max(-along, along - length);
            return away > 0 && beyond > 0 ? Math.Sqrt((away * away) + (beyond * beyond)) : Math.Max(away, beyond);
        }
    }

    /// <summary>A round bar bent about a centre.</summary>
    /// <param name="Start">Middle of its first end.</param>
    /// <param name="Into">Unit direction into the bend at its first end.</param>
    /// <param name="Side">Unit direction from the first end to the bend's centre.</param>
    /// <param name="BendRadius">Of the middle line, mm.</param>
    /// <param name="Turn">Radians, above 0.</param>
    /// <param name="Radius">Of the bar, mm.</param>
    public sealed record Bend(Point Start, Vector Into, Vector Side, double BendRadius, double Turn, double Radius) : Solid
    {
        private const int ArcPoints = 8;

        public Point Centre => Start + (Side * BendRadius);

        /// <summary>A place on the middle line and the direction there, by the angle from the start, radians.</summary>
        public (Point At, Vector Along) On(double angle)
        {
            var (sin, cos) = Math.SinCos(angle);
            return (Start + (Side * (BendRadius * (1 - cos))) + (Into * (BendRadius * sin)), (Into * cos) + (Side * sin));
        }

        public override Solid Moved(in Motion motion) => this with { Start = motion.Of(Start), Into = motion.Of(Into), Side = motion.Of(Side) };

        public override IEnumerable<(Point, Vector, double)> Discs => Enumerable.Range(0, ArcPoints + 1).Select(i =>
        {
            var (at, along) = On(Turn * i / ArcPoints);
            return (at, along, Radius);
        });

        public override IEnumerable<(Point, Point, double)> Stretches => [(On(0).At, On(Turn / 2).At, Radius), (On(Turn / 2).At, On(Turn).At, Radius)];

        public override double Distance(Point p)
        {
            var v = p - Centre;
            var (x, y) = (-v.Dot(Side), v.Dot(Into));
            var z = v.Dot(Into.Cross(Side));
            var fromMiddle = Math.IEEERemainder(Math.Atan2(y, x) - (Turn / 2), 2 * Math.PI);
            if (Math.Abs(fromMiddle) <= Turn / 2)
            {
                var reach = Math.Sqrt((x * x) + (y * y));
                var ring = reach - BendRadius;
                // The nearer end's face is a surface too; it lies at most a quarter turn away where it can be the nearest.
                var toFace = reach * Math.Sin(Math.Min((Turn / 2) - Math.Abs(fromMiddle), Math.PI / 2));
                return Math.Max(Math.Sqrt((ring * ring) + (z * z)) - Radius, -toFace);
            }

            // Beyond an end face: distance to that face's disc.
            var (middle, along) = On(fromMiddle > 0 ? Turn : 0);
            var w = p - middle;
            var beyond = w.Dot(fromMiddle > 0 ? along : -along);
            var rim = Math.Max(0, w.SquareTo(along).Length - Radius);
            return Math.Sqrt((beyond * beyond) + (rim * rim));
        }
    }
}
