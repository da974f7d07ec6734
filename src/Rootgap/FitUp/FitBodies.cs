using Rootgap.Drawings;
using Rootgap.Measure;
using Rootgap.Routes;

namespace Rootgap.FitUp;

/// <summary>Simple solids of components, for lines of sight.</summary>
internal static class FitBodies
{
    private const int ArcPoints = 8;

    public static string Word(Ware ware) => ware switch
    {
        Ware.Outlet => "branch outlet",
        Ware.StubEnd => "stub end",
        _ => ware.ToString().ToLowerInvariant(),
    };

    /// <param name="c">The component.</param>
    /// <param name="outsideAt">Outside diameter at one of its ends, mm.</param>
    /// <param name="outside">Outside diameter of its pipe, mm.</param>
    /// <param name="thickness">Thickness of a flange's disc, mm; null where no table has it.</param>
    public static IReadOnlyList<Solid> Of(Component c, Func<Port, double> outsideAt, double outside, double? thickness)
    {
        var r = outside / 2;
        switch (c.Ware)
        {
            case Ware.Elbow when c is { Turn: { } turn, Radius: { } radius, Ports.Count: 2 } && Tolerance.Turn < turn:
                return Elbow(c, turn, radius, r);
            case Ware.Flange when c.Ports.Count == 2:
                var (weld, face) = (c.Ports[0], c.Ports[1]);
                // The contact face looks at the gasket: it is the end with the work point's side; the disc lies against it.
                if (IsFaceFirst(c))
                    (weld, face) = (face, weld);
                var disc = Math.Min(thickness ?? weld.At.To(face.At) / 3, weld.At.To(face.At));
                return [new Solid.Cylinder(weld.At, face.At, r), new Solid.Cylinder(face.At - (face.Face * disc), face.At, outsideAt(face) / 2)];
            case Ware.Reducer when c.Ports.Count == 2:
                return [new Solid.Cone(c.Ports[0].At, c.Ports[1].At, outsideAt(c.Ports[0]) / 2, outsideAt(c.Ports[1]) / 2)];
            case Ware.Tee when c.Ports.Count == 3:
                var centre = c.WorkPoint;
                return [.. c.Ports.Select(p => (Solid)new Solid.Cylinder(centre, p.At, outsideAt(p) / 2))];
            case Ware.Valve when c.Ports.Count == 2:
                // A valve's body is about half as wide again as its pipe (common practice); what stands out of it is left out.
                return [new Solid.Cylinder(c.Ports[0].At, c.Ports[1].At, r), new Solid.Cylinder(c.Ports[0].At.Toward(c.Ports[1].At, 0.2), c.Ports[0].At.Toward(c.Ports[1].At, 0.8), 1.5 * r)];
            case Ware.Cap:
                return [new Solid.Cylinder(c.Ports[0].At, c.WorkPoint, r)];
            default:
                return c.Ports.Count > 1 ? [new Solid.Cylinder(c.Ports[0].At, c.Ports[1].At, r)] : [new Solid.Ball(c.Ports[0].At, r)];
        }
    }

    /// <summary>About where a component's mass is.</summary>
    public static Point Middle(Component c)
    {
        if (c is { Ware: Ware.Elbow, Turn: { } turn, Radius: { } radius, Ports: [var first, var second] } && Tolerance.Turn < turn)
        {
            var side = second.Face.SquareTo(-first.Face).Unit;
            var centre = first.At + (side * radius);
            var sum = Vector.Zero;
            for (var i = 0; i <= ArcPoints; i++)
            {
                var (s, k) = Math.SinCos(turn * i / ArcPoints);
                sum += centre - (side * (radius * k)) - (first.Face * (radius * s)) - Point.Origin;
            }
            return Point.Origin + (sum / (ArcPoints + 1));
        }
        var total = Vector.Zero;
        foreach (var port in c.Ports)
            total += port.At - Point.Origin;
        if (c.Ports.Count == 1)
            return c.Ports[0].At.Toward(c.WorkPoint, 0.5);
        return Point.Origin + (total / c.Ports.Count);
    }

    // A flange stands with its contact face toward its own work point (its gasket, its valve) and its weld end away from it.
    private static bool IsFaceFirst(Component c) => c.Ports[0].At.To(c.WorkPoint) < c.Ports[1].At.To(c.WorkPoint);

    private static List<Solid> Elbow(Component c, double turn, double radius, double r)
    {
        var (first, second) = (c.Ports[0], c.Ports[1]);
        var a = -first.Face;
        var side = second.Face.SquareTo(a).Unit;
        var tangent = radius * Math.Tan(turn / 2);
        var (from, to) = (c.WorkPoint + (first.Face * tangent), c.WorkPoint + (second.Face * tangent));
        List<Solid> bodies = [new Solid.Bend(from + (side * radius), -side, a.Cross(side), turn, radius, r)];
        // A stock elbow may be a little longer than its arc.
        if (0.1 < (first.At - from).Dot(first.Face))
            bodies.Add(new Solid.Cylinder(first.At, from, r));
        if (0.1 < (second.At - to).Dot(second.Face))
            bodies.Add(new Solid.Cylinder(to, second.At, r));
        return bodies;
    }
}
