using Rootgap.Drawings;
using Rootgap.Fabricating;
using Rootgap.Measure;
using Rootgap.Routes;
using Rootgap.Standards;

namespace Rootgap.Sheets;

/// <summary>A plain solid of which a part of a spool is made. Real millimetres.</summary>
/// <param name="Part">Id of the component or the pipe.</param>
internal abstract record Body(string Part)
{
    /// <summary>The solids of all parts of a spool.</summary>
    public static IReadOnlyList<Body> Of(Fabrication f, Spool spool)
    {
        var units = f.Route.Drawing.Units;
        var bodies = new List<Body>();
        foreach (var cut in spool.Cuts)
        {
            var (start, end) = ReachOf(f, cut);
            if (cut.Pipe.Outside > 0 && (end - start).Dot(cut.Pipe.Direction) > 0)
                bodies.Add(new Cone(cut.Pipe.Id, start, end, cut.Pipe.Direction, cut.Pipe.Outside / 2, cut.Pipe.Outside / 2));
        }

        foreach (var c in spool.Components)
            bodies.AddRange(Of(c, units));
        return bodies;
    }

    /// <summary>The two ends of a piece as it leaves the shop, final-fit extra included.</summary>
    public static (Point Start, Point End) ReachOf(Fabrication f, Cut cut)
    {
        var extra = f.Route.Drawing.Shop.FinalFitExtra;
        var pipe = cut.Pipe;
        return (pipe.Start - (pipe.Direction * (pipe.ExtraAtStart ? extra : 0)), pipe.End + (pipe.Direction * (pipe.ExtraAtEnd ? extra : 0)));
    }

    /// <summary>The contact face of a flange: the port that looks away from the pipe, at the gasket or at the work point.</summary>
    public static Port ContactFace(Component flange)
    {
        foreach (var port in flange.Ports)
        {
            var toWorkPoint = flange.WorkPoint - port.At;
            if (toWorkPoint.Length < Tolerance.Noise || toWorkPoint.Dot(port.Face) > 0)
                return port;
        }

        return flange.Ports[^1];
    }

    /// <summary>The branch of a tee is the port square to the two others.</summary>
    public static Port? BranchOf(Component c) => c.Ware is Ware.Tee
        ? c.Ports.Where(p => c.Ports.All(o => o == p || Math.Abs(o.Face.Dot(p.Face)) < 0.5)).Select(p => (Port?)p).FirstOrDefault()
        : c.Ware is Ware.Outlet ? c.Ports[1] : null;

    public static double RadiusOf(NominalSize size, Units units) => (Pipes.OutsideDiameter(size)?.In(units) ?? 0) / 2;

    private static IEnumerable<Body> Of(Component c, Units units)
    {
        var r = RadiusOf(c.Size, units);
        if (r <= 0 || c.Ports.Count == 0)
            return [];
        var first = c.Ports[0];
        switch (c.Ware)
        {
            case Ware.Elbow when c is { Radius: { } radius, Turn: { } turn } && turn > Tolerance.Turn:
                var straight = Math.Max(0, first.At.To(c.WorkPoint) - (radius * Math.Tan(Math.Min(turn, 2.9) / 2)));
                return [new Bend(c.Id, first.At - (first.Face * straight), -first.Face, c.Ports[1].Face.SquareTo(first.Face).Unit, radius, turn, r)];
            case Ware.Elbow or Ware.Tee:
                var branch = BranchOf(c);
                return c.Ports.OrderBy(p => p == branch ? 0 : 1).Select(p =>
                    new Cone(c.Id, c.WorkPoint, p.At, p.Face, RadiusAt(p), RadiusAt(p)) { IsUnder = p == branch });
            case Ware.Reducer:
                var isShrinking = c.Drawn is ReducerPoint p && p.Size != c.Size;
                var small = RadiusOf(c.Size2, units);
                return [new Cone(c.Id, first.At, c.Ports[1].At, -first.Face, isShrinking ? r : small, isShrinking ? small : r)];
            case Ware.Flange:
                return Flange(c, r, units);
            case Ware.Valve:
                return Valve(c, r);
            case Ware.Cap:
                var length = first.At.To(c.WorkPoint);
                return Lathe(c.Id, first.At, -first.Face, (0, r), (length * 0.45, r), (length * 0.75, r * 0.87), (length * 0.92, r * 0.6), (length, r * 0.25));
            case Ware.Outlet:
                var height = first.At.To(c.Ports[1].At);
                return Lathe(c.Id, first.At, -first.Face, (0, r * 1.45), (height * 0.75, r * 1.15), (height, r)).Select(b => b with { IsUnder = true });
            default:
                return [];
        }

        double RadiusAt(Port port) => c is { Ware: Ware.Tee, Size2.IsNone: false } && port == BranchOf(c) ? RadiusOf(c.Size2, units) : r;
    }

    private static IEnumerable<Cone> Flange(Component c, double r, Units units)
    {
        double Value(string item, string attribute, double otherwise) => StandardTable.Find("flanges", item, attribute, c.Size, @class: c.Line.Class)?.In(units) ?? otherwise;
        var face = ContactFace(c);
        var length = c.Ports.Max(p => p.At.To(face.At));
        var outside = Value("flange", "outside diameter", r * 3) / 2;
        var thickness = Math.Min(Value(c.Name, "thickness", length / 2), length);
        var raised = Math.Min(Value("flange", "raised face height", 0), thickness / 2);
        var raisedRadius = Math.Min(Value("flange", "raised face diameter", outside * 2) / 2, outside);
        var hub = Math.Min(Value(c.Name, "hub diameter", r * 2.4) / 2, outside);
        return Lathe(c.Id, face.At, -face.Face, (0, raisedRadius), (raised, raisedRadius), (raised, outside), (thickness, outside), (thickness, hub), (length, Math.Min(hub, r * 1.02)));
    }

    private static IEnumerable<Cone> Valve(Component c, double r)
    {
        var axis = -c.Ports[0].Face;
        var length = c.Ports[0].At.To(c.Ports[1].At);
        // Two bells that meet in the middle: a valve's outline says that it is one, not which.
        var bells = Lathe(c.Id, c.Ports[0].At, axis, (0, r * 1.25), (length / 2, r * 0.55), (length, r * 1.25));
        if (c.Drawn is not ValvePoint { Kind: not ValveKind.Check } drawn)
            return bells;
        var stem = (drawn.Stem ?? Vector.Up).SquareTo(axis);
        stem = stem.Length > 0.1 ? stem.Unit : axis.AnySquare();
        return [.. Lathe(c.Id, c.WorkPoint, stem, (r * 0.4, r * 0.18), (r * 2.6, r * 0.18), (r * 2.6, r * 0.9), (r * 2.8, r * 0.9)), .. bells];
    }

    /// <summary>A body of revolution from its outline as (distance along, radius).</summary>
    private static IEnumerable<Cone> Lathe(string part, Point at, Vector axis, params (double Along, double Radius)[] outline)
    {
        for (var i = 0; i + 1 < outline.Length; i++)
        {
            var (a, b) = (outline[i], outline[i + 1]);
            if (b.Along - a.Along > Tolerance.Noise)
                yield return new(part, at + (axis * a.Along), at + (axis * b.Along), axis, a.Radius, b.Radius);
        }
    }
}

/// <summary>A cylinder, a cone or a slanted cone: two round ends square to one axis.</summary>
internal sealed record Cone(string Part, Point From, Point To, Vector Axis, double RadiusFrom, double RadiusTo) : Body(Part)
{
    /// <summary>A branch: where it is level with its header on paper, the header's outline goes over it.</summary>
    public bool IsUnder { get; init; }
}

/// <summary>A tube round a part of a circle.</summary>
/// <param name="Into">Unit direction into the bend at its start.</param>
/// <param name="Side">Unit direction from the start to the bend's centre.</param>
internal sealed record Bend(string Part, Point Start, Vector Into, Vector Side, double BendRadius, double Turn, double Radius) : Body(Part)
{
    /// <summary>A place on the centreline and the direction there, by the angle from the start.</summary>
    public (Point At, Vector Along) On(double angle)
    {
        var (sin, cos) = Math.SinCos(angle);
        return (Start + (Side * (BendRadius * (1 - cos))) + (Into * (BendRadius * sin)), (Into * cos) + (Side * sin));
    }
}
