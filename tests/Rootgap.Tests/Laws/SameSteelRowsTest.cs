using System.Globalization;
using Rootgap.Measure;

namespace Rootgap.Tests.Laws;

/// <summary>The same steel written another way, for the rows that a sketch does not draw: drains and vents, branches that lean, laterals, returns, bends made in the shop, blinds.</summary>
public class SameSteelRowsTest
{
    private static readonly int Many = int.TryParse(Environment.GetEnvironmentVariable("ROOTGAP_LAWS"), CultureInfo.InvariantCulture, out var n) ? n : 100;

    /// <summary>What stands at the end of a leg; <c>@</c> in it is the direction in which its branch leaves.</summary>
    private sealed record Row(Vector Go, double By, string To, Vector Branch, string Name)
    {
        /// <summary>The crown of a return bend, between two elbows.</summary>
        public bool IsReturn { get; init; }
    }

    /// <summary>A line of such rows with the runs on its branches.</summary>
    private sealed record Rows(string Start, Point At, Row[] Legs, (string Name, Vector Way, double By, string To)[] Branches, bool AreExchanged)
    {
        public string Yaml()
        {
            var runs = Branches.Select(b => $"  - run: {b.Name}\n    start: {{from: {b.Name}}}\n    legs:\n      - {{go: {Direction(b.Way)}, by: {Number(b.By)}, to: {b.To}}}");
            return string.Join('\n',
            [
                "drawing: R-1", "line: {size: 6, schedule: 40, class: 150, material: A106-B}", "shop: {root gap: 3, branch gap: 2, shrinkage: 2}", "runs:", "  - run: main",
                $"    start: {{to: {Start}, at: {{east: {Number(At.X)}, north: {Number(At.Y)}, up: {Number(At.Z)}}}}}", "    legs:",
                .. Legs.Select(l => $"      - {{go: {Direction(l.Go)}, by: {(l.IsReturn ? "return" : Number(l.By))}, to: {l.To.Replace("@", Direction(l.Branch), StringComparison.Ordinal)}}}"),
                .. AreExchanged ? runs.Reverse() : runs,
            ]);
        }

        /// <summary>Written from its other end, which stands where this one ends.</summary>
        public Rows Backwards()
        {
            var end = Legs.Aggregate(At, (at, l) => at + (l.Go.Unit * l.By));
            var ends = Legs.Select(l => (l.To, l.Branch, l.Name)).Prepend((Start, Vector.Zero, "")).ToArray();
            return this with
            {
                Start = Legs[^1].To,
                At = end,
                Legs = [.. Enumerable.Range(0, Legs.Length).Reverse().Select(i => new Row(-Legs[i].Go, Legs[i].By, ends[i].Item1, ends[i].Item2, ends[i].Item3) { IsReturn = Legs[i].IsReturn })],
            };
        }

        /// <summary>To the other hand: east and west exchanged.</summary>
        public Rows Mirrored()
        {
            static Vector Other(Vector v) => v with { X = -v.X };
            return this with { At = new(-At.X, At.Y, At.Z), Legs = [.. Legs.Select(l => l with { Go = Other(l.Go), Branch = Other(l.Branch) })], Branches = [.. Branches.Select(b => b with { Way = Other(b.Way) })] };
        }

        private static string Number(double mm) => mm.ToString("0.########", CultureInfo.InvariantCulture);

        private static string Direction(Vector v)
        {
            var words = new[] { (v.X, "east", "west"), (v.Y, "north", "south"), (v.Z, "up", "down") }.Where(w => w.Item1 != 0).Select(w => $"{(w.Item1 > 0 ? w.Item2 : w.Item3)}: {Number(Math.Abs(w.Item1))}");
            return "{" + string.Join(", ", words) + "}";
        }
    }

    private static readonly Vector[] Sides = [Vector.East, -Vector.East, Vector.Up, -Vector.Up, Vector.North, -Vector.North];

    private static readonly Gen<Rows> Lines = Gen.Byte.Array[60].Select(bytes =>
    {
        var c = new Choices(bytes);
        var go = Vector.North;
        var legs = new List<Row>();
        var branches = new List<(string, Vector, double, string)>();
        var count = 2 + c.Below(4);
        for (var i = 0; i < count; i++)
        {
            var by = 1500 + (10.0 * c.Below(150));
            var side = c.Of([.. Sides.Where(s => Math.Abs(s.Dot(go)) < 0.5)]);
            var name = FormattableString.Invariant($"N{i}");
            if (i == count - 1)
            {
                legs.Add(new(go, by, c.Of("flange, blinded: yes", "flange", "open"), Vector.Zero, ""));
                break;
            }

            var lean = side + (go * c.Of(1, -1, 0.57735027, -0.57735027));
            switch (c.Below(8))
            {
                case 0:
                    legs.Add(new(go, by, "drain, size: 3/4, ends: threaded, branch schedule: 80, nipple: 100, face to face: 62, mass: 2, branch: @", side, ""));
                    break;
                case 1:
                    legs.Add(new(go, by, "vent, kind: half coupling, size: 1, branch schedule: 80, nipple: 75, valve: globe, face to face: 90, mass: 3, branch: @", side, ""));
                    break;
                case 2:
                    legs.Add(new(go, by, $"stub-in, name: {name}, size: {c.Of("2", "3", "4")}{c.Of("", ", pad: yes, pad width: 40")}, branch: @", lean, name));
                    branches.Add((name, lean, 900, "open"));
                    break;
                case 3:
                    legs.Add(new(go, by, $"lateral, name: {name}, long end: 450, short end: 90, branch end: 450, mass: 30, branch: @", lean, name));
                    branches.Add((name, lean, 1100, c.Of("flange", "open")));
                    break;
                case 4:
                    legs.Add(new(go, by, $"outlet, name: {name}, size: 2, height: 55, branch: @", lean, name));
                    branches.Add((name, lean, 700, "cap"));
                    break;
                case 5:
                    legs.Add(new(go, by, $"mitred bend, cuts: {c.Of("2", "3", "5")}, bend radius: 305, straight: {c.Of("0", "80")}", Vector.Zero, ""));
                    go = side;
                    break;
                case 6:
                    var radius = c.Of("", ", radius: short");
                    legs.Add(new(go, by, "elbow" + radius, Vector.Zero, ""));
                    // ASME B16.9: a 6 in. return is 457 mm wide, a short one 305.
                    legs.Add(new(side, radius.Length > 0 ? 305 : 457, "elbow" + radius, Vector.Zero, "") { IsReturn = true });
                    go = -go;
                    break;
                default:
                    legs.Add(new(go, by, "bend, bend radius: 457, straight: 100", Vector.Zero, ""));
                    go = c.Of(side, side + go).Unit;
                    if (Sides.All(s => Math.Abs(s.Dot(go)) < 0.99))
                    {
                        // A second bend brings the line back to the compass.
                        legs.Add(new(go, 2000, "bend, bend radius: 457", Vector.Zero, ""));
                        go = side;
                    }

                    break;
            }
        }

        return new Rows(c.Of("flange, blinded: yes", "flange", "open"), new(c.Below(9) * 100, 0, c.Below(5) * 100), [.. legs], [.. branches], AreExchanged: false);
    });

    [Fact]
    public void A_run_written_from_its_other_end() => Lines.Sample(
        rows => SameSteelTest.AssertSame(Given.Packet(rows.Yaml()), Given.Packet(rows.Backwards().Yaml()), p => p), iter: Many, print: r => r.Yaml() + "\n\n" + r.Backwards().Yaml());

    [Fact]
    public void Runs_exchanged() => Lines.Sample(
        rows => SameSteelTest.AssertSame(Given.Packet(rows.Yaml()), Given.Packet((rows with { AreExchanged = true }).Yaml()), p => p), iter: Many, print: r => r.Yaml());

    [Fact]
    public void The_other_hand() => Lines.Sample(
        rows => SameSteelTest.AssertSame(Given.Packet(rows.Yaml()), Given.Packet(rows.Mirrored().Yaml()), p => p with { X = -p.X }), iter: Many, print: r => r.Yaml());

    [Fact]
    public void The_welds_of_mitred_bends_stand_where_they_stood() => Lines.Sample(rows =>
    {
        static IEnumerable<Point> Seams(string yaml) => Given.Packet(yaml).Fabrication.Route.Seams.Select(s => s.At).OrderBy(p => Math.Round(p.X, 3)).ThenBy(p => Math.Round(p.Y, 3)).ThenBy(p => Math.Round(p.Z, 3));
        Assert.All(Seams(rows.Yaml()).Zip(Seams(rows.Backwards().Yaml())), p => Assert.Equal(0, p.First.To(p.Second), 1e-3));
    }, iter: Many, print: r => r.Yaml());
}
