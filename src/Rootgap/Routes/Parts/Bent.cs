using Rootgap.Measure;
using Rootgap.Standards;

namespace Rootgap.Routes;

/// <summary>A component that turns the line: an elbow or a bend.</summary>
public abstract record Bent : Component
{
    private protected Bent()
    {
    }

    /// <summary>An elbow against the tube along its bend: published lists run from 0 to 5 % above it, the throat being thicker.</summary>
    private const double ElbowShare = 1.02;

    /// <summary>Beyond this a drawing that cannot be built turns the line back on itself, and the tangents run away, radians.</summary>
    private const double MostTurn = 2.9;

    /// <summary>Turn of the line, radians.</summary>
    public required double Turn { get; init; }

    /// <summary>Radius of the bend's middle line, mm; null for a forged elbow, whose branches meet in a corner.</summary>
    public double? Radius { get; init; }

    /// <summary>The stock elbow has to be cut to its turn.</summary>
    public virtual bool IsCut => false;

    public Port In => Of(PortName.RunIn);

    public Port Out => Of(PortName.RunOut);

    public sealed override bool ShowsClock => true;

    public sealed override bool LiesAlongLine => false;

    public override IEnumerable<(Point From, Point To)> MiddleLines => Ports.Select(p => (p.At, WorkPoint));

    public sealed override MadeTo MadeTo => MadeTo.CentreToEnd;

    public sealed override IsometricSign Sign => IsometricSign.Elbow;

    /// <summary>Distance from the work point to where the arc begins, mm: R tan(turn/2).</summary>
    internal static double Tangent(double radius, double turn) => radius * Math.Tan(Math.Min(turn, MostTurn) / 2);

    /// <summary>Straight length at each end beyond the arc, mm: what makes radius, turn and ends agree, since the standards round each by itself. 0 for a forged elbow.</summary>
    public double StraightEnd => Radius is { } radius ? Straight(radius) : 0;

    /// <summary>Straight length at each end: a 45 degree elbow is a little longer than its arc (ASME B16.9: B against R tan 22.5), mm.</summary>
    private double Straight(double radius) => Math.Max(0, In.At.To(WorkPoint) - Tangent(radius, Turn));

    /// <summary>Unit direction square to its first end, to which it turns; zero where the line does not turn.</summary>
    public virtual Vector Side => Out.Face.SquareTo(In.Face) is { Length: > Tolerance.Noise } side ? side.Unit : Vector.Zero;

    /// <summary>The arc of its middle line as a body; null for a corner, and where the line does not turn.</summary>
    public Solid.Bend? Arc => Radius is > 0 and var radius && Turn > Tolerance.Turn && Side is { Length: > Tolerance.Noise } side
        ? new(In.At - (In.Face * Straight(radius)), -In.Face, side, radius, Turn, Outside / 2)
        : null;

    public override IReadOnlyList<Solid> Bodies
    {
        get
        {
            if (Outside <= 0)
                return [];
            if (Arc is not { } arc)
                return [.. Ports.Where(p => p.At.To(WorkPoint) > Tolerance.Noise).Select(p => Solid.Cylinder(WorkPoint, p.At, Outside / 2))];
            if (Straight(arc.BendRadius) <= Least)
                return [arc];
            return [arc, Solid.Cylinder(In.At, arc.Start, Outside / 2), Solid.Cylinder(arc.On(Turn).At, Out.At, Outside / 2)];
        }
    }

    /// <summary>A straight end shorter than this is the rounding of a printed dimension, mm.</summary>
    private const double Least = 0.1;

    public override double Path => Radius is { } radius ? (radius * Turn) + (2 * Straight(radius)) : In.At.To(Out.At);

    public override Mass? Mass => Radius is null ? new(PerLength * Path, Origins.Tube) : new(PerLength * Path * ElbowShare, AlongBend);

    private static readonly Origin AlongBend = new Origin.Rule("geometry: a tube along the bend");

    /// <summary>Of the bent tube: its arc's lies (R² + (ro² + ri²)/4) / R x sin(t/2) / (t/2) from the bend's centre, the metal of the back weighing more than that of the throat.</summary>
    public override Point Centre
    {
        get
        {
            if (Arc is not { } arc)
                return In.At.Toward(WorkPoint, 0.5).Toward(Out.At.Toward(WorkPoint, 0.5), 0.5);
            var (ro, ri, r) = (Outside / 2, Inside / 2, arc.BendRadius);
            var half = Turn / 2;
            var from = ((r * r) + (((ro * ro) + (ri * ri)) / 4)) / r * Math.Sin(half) / half;
            var outward = (arc.On(half).At - arc.Centre).Unit;
            var straight = Straight(r);
            var moment = ((arc.Centre + (outward * from) - Point.Origin) * (r * Turn))
                + ((In.At - (In.Face * (straight / 2)) - Point.Origin) * straight)
                + ((Out.At - (Out.Face * (straight / 2)) - Point.Origin) * straight);
            return Point.Origin + (moment / ((r * Turn) + (2 * straight)));
        }
    }
}
