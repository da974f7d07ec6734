using System.Globalization;
using System.Text;

namespace Rootgap.Tests.Site;

/// <summary>Random lines with field welds, a flanged joint or a valve, a final-fit weld, and something outside at both ends; and random readings of them.</summary>
internal static class SiteLines
{
    private static readonly string[] Ways = ["east", "west", "north", "south", "up", "down"];

    public static string Random(Random r)
    {
        var yaml = new StringBuilder();
        var size = new[] { "3", "4", "6", "8" }[r.Next(4)];
        yaml.Append(CultureInfo.InvariantCulture, $$$"""
            drawing: R-1
            revision: 1
            line: {size: {{{size}}}, schedule: 40, class: 150, material: A106-B, gasket: 3.2}
            runs:
              - run: main
                start: {to: flange, at: {east: {{{r.Next(20000)}}}, north: {{{r.Next(20000)}}}, up: {{{r.Next(6000)}}}}}
                legs:

            """);
        var legs = r.Next(4, 8);
        var final = r.Next(1, legs);
        var last = -1;
        for (var i = 0; i < legs; i++)
        {
            int way;
            do
                way = r.Next(6);
            while (last >= 0 && way / 2 == last / 2);
            last = way;
            var to = i == legs - 1 ? "flange" : "elbow";
            var mark = i == final ? ", end: final-fit" : r.Next(3) == 0 ? ", end: field" : "";
            yaml.Append(CultureInfo.InvariantCulture, $"      - {{go: {Ways[way]}, by: {r.Next(1400, 3500)}, to: {to}{mark}}}\n");
        }

        return yaml.ToString();
    }

    /// <summary>Everything put where it is not as drawn.</summary>
    public static void Misplace(SiteWorld world, Random r, double shift, double degrees, double own)
    {
        foreach (var body in world.Pose.Keys.ToList())
            world.Pose[body] = ([Normal(r) * shift, Normal(r) * shift, Normal(r) * shift], [Normal(r) * degrees * Math.PI / 180, Normal(r) * degrees * Math.PI / 180, Normal(r) * degrees * Math.PI / 180]);
        foreach (var face in world.Faces.Where(f => !f.Body.EndsWith("other", StringComparison.Ordinal)))
        {
            var circle = face.IsBolted ? face.Circle : face.Outside;
            double[] limits = [3, 3, 3, 0.22 * Math.PI / 180, 0.22 * Math.PI / 180, 1.6 / (circle / 2)];
            world.Own[face.Name] = [.. limits.Select(l => own * l * ((r.NextDouble() * 2) - 1))];
        }
    }

    /// <summary>Readings that fix every end: coordinates of lips and holes, tapes, levels.</summary>
    /// <param name="noise">In units of each reading's spread.</param>
    /// <param name="sd">Written beside each reading; null: as the file's default has it.</param>
    public static List<string> Readings(SiteWorld world, Random r, double noise, double? sd, bool isRich = true)
    {
        var rows = new List<string>();
        string Sd(double usual) => sd is { } s ? Text($", sd: {s}") : Text($", sd: {usual}");
        double Off(double usual) => Normal(r) * noise * (sd ?? usual);
        foreach (var f in world.Faces)
        {
            string[] points = f.Holes is not null ? ["lip 12", "lip 3", "hole 1", "hole 2", "hole 3"] : f.PipeTo > 1000 ? ["lip 12", "lip 3", "lip 6", "lip 9", "crown 500", "side 3 700"] : ["lip 12", "lip 3", "lip 6", "lip 9"];
            foreach (var point in points)
            {
                var p = world.Seen(world.Point(point, f.Name));
                rows.Add(Text($"{{point: {point}, at: {f.Name}, east: {p[0] + Off(1)}, north: {p[1] + Off(1)}, up: {p[2] + Off(1)}{Sd(1)}}}"));
            }
        }

        if (!isRich)
            return rows;
        for (var i = 0; i < 12; i++)
        {
            var (a, b) = (world.Faces[r.Next(world.Faces.Count)], world.Faces[r.Next(world.Faces.Count)]);
            if (a == b)
                continue;
            var (p, q) = (world.Point("lip 3", a.Name), world.Point("lip 6", b.Name));
            var way = SiteWorld.Minus(q, p);
            var level = Math.Sqrt((way[0] * way[0]) + (way[1] * way[1]));
            if (SiteWorld.Length(way) < 500 || level < 300)
                continue;
            rows.Add(Text($"{{tape: [lip 3, lip 6], at: [{a.Name}, {b.Name}], mm: {SiteWorld.Length(way) + Off(1)}{Sd(1)}}}"));
            rows.Add(Text($"{{plumb: [lip 3, lip 6], at: [{a.Name}, {b.Name}], mm: {level + Off(1.5)}{Sd(1.5)}}}"));
            rows.Add(Text($"{{height: [lip 3, lip 6], at: [{a.Name}, {b.Name}], mm: {way[2] + Off(1)}{Sd(1)}}}"));
            rows.Add(Text($"{{slope: [lip 3, lip 6], at: [{a.Name}, {b.Name}], deg: {(Math.Asin(way[2] / SiteWorld.Length(way)) * 180 / Math.PI) + Off(0.1)}{Sd(0.1)}}}"));
            var c = world.Faces[r.Next(world.Faces.Count)];
            var third = world.Point("lip 9", c.Name);
            var along = SiteWorld.Unit(way);
            var from = SiteWorld.Minus(third, p);
            var square = SiteWorld.Length(SiteWorld.Minus(from, SiteWorld.Times(along, SiteWorld.Dot(from, along))));
            if (square > 100)
                rows.Add(Text($"{{string: [lip 3, lip 6], at: [{a.Name}, {b.Name}], to: lip 9, of: {c.Name}, mm: {square + Off(2)}{Sd(2)}}}"));
        }

        foreach (var joint in world.Joints.Keys.Except(world.FinalFits))
        {
            rows.Add(Text($"{{gap: 12, at: {joint}, mm: {world.Gap(12, joint, isStep: false) + Off(0.2)}{Sd(0.2)}}}"));
            rows.Add(Text($"{{hi-lo: 3, at: {joint}, mm: {world.Gap(3, joint, isStep: true) + Off(0.2)}{Sd(0.2)}}}"));
        }

        return rows;
    }

    public static string Survey(string head, IEnumerable<string> readings) => $"survey: test\ndrawing: R-1\n{head}\nreadings:\n  - {string.Join("\n  - ", readings)}\n";

    public static double Normal(Random r) => Math.Sqrt(-2 * Math.Log(1 - r.NextDouble())) * Math.Cos(2 * Math.PI * r.NextDouble());

    public static string Text(FormattableString s) => FormattableString.Invariant(s);
}
