using System.Globalization;
using System.Runtime.CompilerServices;
using Rootgap.FitUp;
using Rootgap.Measure;

namespace Rootgap.Tests.FitUp;

/// <summary>Random joints of every kind, each from a drawing in inches: a pipe in any direction with one part at its end.</summary>
internal static class FitGen
{
    public static readonly int[] Sizes = [2, 4, 6, 8, 12, 16];

    private static readonly ConditionalWeakTable<FitPart, FitJoints> Makers = [];

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

    /// <summary>The first weld of a drawing, its two parts alone: the pipe held, the part at its end brought.</summary>
    /// <param name="length">Cut length of the pipe, mm.</param>
    public static FitJoint Of(string kind, int nps, Vector a, double roll, double length, double turnDegrees, double gap)
    {
        var side = a.AnySquare().Turned(a, roll);
        var t = Angles.ToRadians(turnDegrees);
        var next = (a * Math.Cos(t)) + (side * Math.Sin(t));
        var smaller = nps switch { 2 => "1-1/2", 4 => "3", 6 => "5", 8 => "6", 12 => "10", _ => "14" };
        const string Text = """
            drawing: F-1
            units: in
            line: {size: SIZE, schedule: STD, class: 150, material: A106-B}
            shop: {root gap: GAP mm}
            runs:
              - run: main
                start: {to: open}
                legs:
                  - {go: WAY, by: LENGTH mm, to: END}
                  - NEXT
            """;
        var (end, onward, beyond) = kind switch
        {
            "elbow" => ("elbow", next, true),
            "tee" => ($"tee, name: T, branch: {Way(side)}", a, true),
            "flange" => ($"flange, holes from: {Way(side)}", a, false),
            "pipe" => ("weld", a, true),
            "reducer" => ($"reducer, size: {smaller}", a, true),
            _ => ("cap", a, false),
        };
        FitJoint Make(double by)
        {
            var yaml = Text.Replace("SIZE", nps.ToString(CultureInfo.InvariantCulture), StringComparison.Ordinal).Replace("GAP", Number(gap), StringComparison.Ordinal)
                .Replace("WAY", Way(a), StringComparison.Ordinal).Replace("LENGTH", Number(by), StringComparison.Ordinal).Replace("END", end, StringComparison.Ordinal)
                .Replace("      - NEXT", beyond ? $"      - {{go: {Way(onward)}, by: 90, to: open}}" : "", StringComparison.Ordinal);
            var fitting = new FitJoints(Given.Packet(yaml).Fabrication);
            var joint = fitting.Of(fitting.Welds[0]);
            Makers.AddOrUpdate(joint.New, fitting);
            return joint;
        }

        // What is taken off stands in the drawing's own sums: made once to see how much.
        var first = Make(2000);
        return Make(2000 + length - first.Held.Straight);
    }

    public static FitJoints Maker(FitJoint joint) => Makers.TryGetValue(joint.New, out var fitting) ? fitting : throw new InvalidOperationException("not made here");

    /// <summary>The set-up of the two parts alone.</summary>
    public static SetUp SetUp(FitJoint joint, Attitude attitude, double roll = 90) => SetUps.Of(Maker(joint), joint, attitude, roll);

    private static string Way(Vector v) => $"{{east: {Number(v.X * 100)}, north: {Number(v.Y * 100)}, up: {Number(v.Z * 100)}}}";

    private static string Number(double value) => value.ToString("0.0#########", CultureInfo.InvariantCulture);
}
