using Rootgap.Measure;

namespace Rootgap.FitUp;

/// <summary>A simple body of a part, for lines of sight and clearances only. Millimetres, plant axes.</summary>
public abstract record Solid
{
    private Solid() { }

    /// <summary>Signed distance from a place to the surface, mm: negative inside. Never overestimates how far away the body is.</summary>
    public abstract double Distance(Point p);

    /// <summary>A solid round bar: a pipe, a flange disc, a hub, a tee's arm.</summary>
    public sealed record Cylinder(Point From, Point To, double Radius) : Solid
    {
        public override double Distance(Point p)
        {
            var axis = To - From;
            var length = axis.Length;
            if (length <= 0)
                return (p - From).Length - Radius;
            axis /= length;
            var along = (p - From).Dot(axis);
            var away = (p - From - (axis * along)).Length - Radius;
            var beyond = Math.Max(-along, along - length);
            return away > 0 && beyond > 0 ? Math.Sqrt((away * away) + (beyond * beyond)) : Math.Max(away, beyond);
        }
    }

    /// <summary>A tapering round bar: a reducer, a weld neck. <paramref name="From"/> has radius <paramref name="R1"/>.</summary>
    public sealed record Cone(Point From, Point To, double R1, double R2) : Solid
    {
        public override double Distance(Point p)
        {
            // Slices keep their centres on the slanting axis, as an eccentric reducer's do; the slope's cosine keeps the distance a lower bound.
            var axis = To - From;
            var length = axis.Length;
            if (length <= 0)
                return (p - From).Length - Math.Max(R1, R2);
            axis /= length;
            var along = (p - From).Dot(axis);
            var t = Math.Clamp(along / length, 0, 1);
            var radius = R1 + ((R2 - R1) * t);
            var slope = length / Math.Sqrt((length * length) + ((R2 - R1) * (R2 - R1)));
            var away = ((p - From - (axis * along)).Length - radius) * slope;
            var beyond = Math.Max(-along, along - length);
            return Math.Max(away, beyond);
        }
    }

    /// <summary>A bend's body: a round bar bent about <paramref name="Centre"/> from the direction <paramref name="Start"/> (unit, from the centre)
    /// turning about <paramref name="Axis"/> (unit) by <paramref name="Turn"/> radians, right-handed.</summary>
    public sealed record Bend(Point Centre, Vector Start, Vector Axis, double Turn, double BendRadius, double Radius) : Solid
    {
        public override double Distance(Point p)
        {
            var v = p - Centre;
            var side = Axis.Cross(Start);
            var (x, y, z) = (v.Dot(Start), v.Dot(side), v.Dot(Axis));
            var angle = Math.Atan2(y, x);
            var fromMiddle = Math.IEEERemainder(angle - (Turn / 2), 2 * Math.PI);
            if (Math.Abs(fromMiddle) <= Turn / 2)
            {
                var ring = Math.Sqrt((x * x) + (y * y)) - BendRadius;
                return Math.Sqrt((ring * ring) + (z * z)) - Radius;
            }
            // Beyond an end face: distance to that face's disc.
            var end = fromMiddle > 0 ? Turn : 0;
            var outward = Start.Turned(Axis, end);
            var normal = Axis.Cross(outward) * (fromMiddle > 0 ? 1 : -1);
            var middle = Centre + (outward * BendRadius);
            var w = p - middle;
            var beyond = w.Dot(normal);
            var rim = Math.Max(0, w.SquareTo(normal).Length - Radius);
            return Math.Sqrt((beyond * beyond) + (rim * rim));
        }
    }

    /// <summary>A ball: a cap's crown, a valve's body.</summary>
    public sealed record Ball(Point Centre, double Radius) : Solid
    {
        public override double Distance(Point p) => (p - Centre).Length - Radius;
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
}
