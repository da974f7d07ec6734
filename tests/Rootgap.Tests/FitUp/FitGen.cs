using Rootgap.FitUp;
using Rootgap.Measure;

namespace Rootgap.Tests.FitUp;

/// <summary>Random joints of every kind. Sizes: ASME B36.10M outside diameters and standard walls, B16.9 long-radius take-offs (A = 1.5 NPS),
/// B16.5 class 150 weld-neck flanges (outside diameter, bolt circle, holes, length through hub), inch columns.</summary>
internal static class FitGen
{
    public sealed record Row(double Nps, double Outside, double Wall, double FlangeOd, double Circle, int Holes, double Hub, double TeeC);

    public static readonly Row[] Sizes =
    [
        new(2, 60.3, 3.91, 152.4, 120.7, 4, 63.5, 63.5),
        new(4, 114.3, 6.02, 228.6, 190.5, 8, 76.2, 104.8),
        new(6, 168.3, 7.11, 279.4, 241.3, 8, 88.9, 142.9),
        new(8, 219.1, 8.18, 342.9, 298.5, 8, 101.6, 177.8),
        new(12, 323.9, 9.53, 482.6, 431.8, 12, 114.3, 254.0),
        new(16, 406.4, 9.53, 596.9, 539.8, 16, 127.0, 304.8),
    ];

    private static readonly Gen<Vector> Directions = Gen.Select(Gen.Int[0, 5], Gen.Double[-1, 1], Gen.Double[-1, 1], Gen.Double[-1, 1], Gen.Bool)
        .Where(t => (t.Item2 * t.Item2) + (t.Item3 * t.Item3) + (t.Item4 * t.Item4) > 0.05)
        .Select((k, x, y, z, square) => square
            ? k switch { 0 => Vector.Up, 1 => -Vector.Up, 2 => Vector.North, 3 => -Vector.North, 4 => Vector.East, _ => -Vector.East }
            : new Vector(x, y, z).Unit);

    public static readonly Gen<Attitude> Attitudes = Gen.Int[0, 2].Select(i => (Attitude)i);

    public static readonly Gen<FitJoint> Elbow = Joints("elbow");
    public static readonly Gen<FitJoint> Flange = Joints("flange");

    public static readonly Gen<FitJoint> Any = Gen.OneOf(Joints("elbow"), Joints("elbow"), Joints("flange"), Joints("tee"), Joints("pipe"), Joints("reducer"), Joints("cap"));

    /// <summary>An error up to 5 mm and 3 degrees a component.</summary>
    public static readonly Gen<double[]> Errors = Gen.Double[-1, 1].Array[6]
        .Select(u => u.Select((v, i) => v * (i < 3 ? 5 : 3 * Math.PI / 180)).ToArray());

    private static Gen<FitJoint> Joints(string kind) =>
        Gen.Select(Gen.Int[0, Sizes.Length - 1].Select(i => Sizes[i]), Directions, Gen.Double[0, 2 * Math.PI], Gen.Double[250, 3000], Gen.Int[0, 3].Select(i => new[] { 90.0, 45, 60, 33 }[i]), Gen.Double[1.6, 4])
            .Select((size, a, roll, length, turn, gap) => Of(kind, size, a, roll, length, turn, gap));

    public static FitJoint Of(string kind, Row size, Vector a, double roll, double length, double turnDegrees, double gap)
    {
        var c = new Point(1000, -2000, 1500);
        var side = a.AnySquare().Turned(a, roll);
        var weld = c + (a * (gap / 2));
        var t = kind == "tee" ? Math.PI / 2 : Angles.ToRadians(turnDegrees);
        var radius = 1.5 * 25.4 * size.Nps;
        var heldEnd = c - (a * (gap / 2));
        var heldFar = heldEnd - (a * length);
        var normal = kind is "elbow" or "tee" ? (a * Math.Cos(t)) + (side * Math.Sin(t)) : a;
        var tip = kind switch
        {
            "elbow" => weld + (a * (radius * Math.Sin(t))) + (side * (radius * (1 - Math.Cos(t)))),
            "tee" => weld + (a * size.TeeC) + (side * size.TeeC),
            "flange" => weld + (a * size.Hub),
            "pipe" => weld + (a * 700),
            "reducer" => weld + (a * 140),
            _ => weld + (a * 90),
        };
        var r = size.Outside / 2;
        Solid[] body = kind switch
        {
            "elbow" => [new Solid.Bend(weld, a, side, radius, t, r)],
            "tee" => [Solid.Cylinder(weld, weld + (a * (2 * size.TeeC)), r), Solid.Cylinder(weld + (a * size.TeeC), tip, r)],
            "flange" => [Solid.Cylinder(weld, tip, r), Solid.Cylinder(tip - (a * 25), tip, size.FlangeOd / 2)],
            "reducer" => [new Solid.Bar(weld, tip, (tip - weld).Unit, r, r * 0.8)],
            _ => [Solid.Cylinder(weld, tip, r)],
        };
        var face = kind switch
        {
            "flange" => new FitFace(tip, normal, size.FlangeOd),
            "reducer" => new FitFace(tip, normal, size.Outside * 0.8),
            "cap" => null,
            _ => new FitFace(tip, normal, size.Outside),
        };
        return new FitJoint
        {
            Name = "W1",
            Held = new FitPart("P1", "pipe", length * size.Outside * size.Wall * Math.PI * 7.85e-6, heldFar.Toward(heldEnd, 0.5), [Solid.Cylinder(heldFar, heldEnd, r)]),
            New = new FitPart("C1", kind, 0.9 * size.Nps * size.Nps / 4, weld.Toward(tip, 0.5), body),
            Centre = c,
            Axis = a,
            Gap = gap,
            Outside = size.Outside,
            Inside = size.Outside - (2 * size.Wall),
            HeldFar = new FitFace(heldFar, -a, size.Outside),
            HeldStraight = length,
            Turn = kind is "elbow" or "tee" ? new FitTurn(t, side, kind == "elbow" ? radius : 0) : FitTurn.Straight,
            Far = face,
            Tip = tip,
            Run = kind == "tee" ? 2 * size.TeeC : 0,
            Holes = kind == "flange" ? new FitHoles(size.Holes, size.Circle, side) : null,
            SpoolEnd = tip + (normal * 2000),
        };
    }
}
