using Rootgap.Drawings;
using Rootgap.Fabricating;
using Rootgap.Measure;
using Rootgap.Packets;
using Rootgap.Routes;
using Rootgap.Standards;

namespace Rootgap.Tests.Laws;

/// <summary>What holds for every drawing, whatever it shows.</summary>
public class DrawingLawsTest
{
    private const double Same = 1e-6;

    /// <summary>Random drawings a law: enough to meet every pair of neighbours many times (seen by breaking the engine on purpose).</summary>
    private const int Many = 250;

    private static void ForAll(Action<Sketch, Packet> law) => Gens.Sketches.Holds(s => law(s, s.Packet()), iter: Many, print: s => s.Yaml());

    [Fact]
    public void Every_generated_drawing_finds_its_sizes_in_the_standards() => ForAll((_, packet) =>
        Assert.DoesNotContain(packet.Findings, f => f.Rule is "not-in-the-standard" or "turn-without-elbow" or "branch-not-square" or "run-leaves-wrong-way" or "leg-too-short-for-fittings"));

    [Fact]
    public void The_sum_printed_under_a_cut_is_its_length() => ForAll((_, packet) =>
    {
        foreach (var cut in packet.Fabrication.Cuts)
            Assert.Equal(cut.Sum.Sum(t => t.Mm), cut.Length, Same);
    });

    [Fact]
    public void Cut_lengths_are_those_of_a_reckoning_by_hand_in_the_column_of_the_drawings_units() =>
        ForAll((sketch, packet) => Assert.Equal(Reckoning.MainRun(sketch), packet.Fabrication.Cuts.Where(c => c.Pipe.Run == 0).Select(c => c.Length), new Near(Same)));

    [Fact]
    public void Every_standard_term_of_a_sum_stands_in_the_column_of_the_drawings_units() => ForAll((sketch, packet) =>
    {
        foreach (var term in packet.Fabrication.Cuts.SelectMany(c => c.Sum))
        {
            if (Column(term.What) is not { } column)
                continue;
            var values = StandardTable.Rows(column.Table).Where(r => r.Attribute == column.Attribute)
                .Select(r => sketch.Units == Units.Inches ? r.Inches * LengthText.Inch : r.Mm).OfType<double>();
            Assert.True(values.Any(v => Math.Abs((v * column.Share) + term.Mm) < Same), $"{term.What} {term.Mm}");
        }
    });

    private static (string Table, string Attribute, double Share)? Column(string what) => what switch
    {
        "tee take-off, run" => ("butt-weld", "C", 1),
        "tee take-off, branch" => ("butt-weld", "M", 1),
        "reducer length" => ("butt-weld", "H", 1),
        "flange length through hub" => ("flanges", "length through hub", 1),
        "half the valve's face to face" => ("valves", "face to face", 0.5),
        "half the header's outside diameter" => ("pipe", "outside diameter", 0.5),
        "outlet height" => ("outlets", "height", 1),
        _ => null,
    };

    [Fact]
    public void Moving_and_turning_a_whole_drawing_changes_no_cut_no_mass_and_no_joint() =>
        Gen.Select(Gens.Sketches, Gens.Displacements, Gen.Int[0, 3]).Holds((sketch, by, quarters) =>
        {
            var (here, there) = (sketch.Packet().Fabrication, sketch.Moved(by, quarters).Packet().Fabrication);
            Assert.Equal(here.Cuts.Select(c => c.Length), there.Cuts.Select(c => c.Length), new Near(Same));
            Assert.Equal(here.Spools.Select(s => s.Mass), there.Spools.Select(s => s.Mass), new Near(Same));
            Assert.Equal(here.Route.Joints.Select(j => (j.Id, j.Kind, j.Place)), there.Route.Joints.Select(j => (j.Id, j.Kind, j.Place)));
            // A quarter turn swaps the box's level sides; the height stays.
            foreach (var (a, b) in here.Spools.Zip(there.Spools))
            {
                var turned = quarters % 2 == 1 ? new Vector(b.Box.Y, b.Box.X, b.Box.Z) : b.Box;
                Assert.Equal(0, (a.Box - turned).Length, 1e-4);
            }
        }, iter: Many / 2);

    [Fact]
    public void Writing_a_run_from_its_other_end_changes_no_cut() => Gens.Sketches.Holds(sketch =>
    {
        var (forth, back) = (MainCuts(sketch.Packet()), MainCuts(Backwards(sketch).Packet()));
        Assert.Equal(forth, back.Reverse(), new Near(1e-4));
    }, iter: Many);

    internal static Sketch Backwards(Sketch sketch) =>
        sketch.Backwards((a, b) => Reckoning.Column(sketch, "butt-weld", "reducer", "H", Larger(a, b), Smaller(a, b)) / sketch.Scale);

    private static double[] MainCuts(Packet packet) => [.. packet.Fabrication.Cuts.Where(c => c.Pipe.Run == 0).Select(c => c.Length)];

    private static string Larger(string a, string b) => Array.IndexOf(Gens.Sizes, a) > Array.IndexOf(Gens.Sizes, b) ? a : b;

    private static string Smaller(string a, string b) => Larger(a, b) == a ? b : a;

    [Fact]
    public void Joined_ends_face_each_other_one_gap_apart() => ForAll((_, packet) =>
    {
        var route = packet.Fabrication.Route;
        var ends = route.Components.ToDictionary(c => c.Id, c => c.Ports, StringComparer.Ordinal);
        foreach (var p in route.Pipes)
            ends[p.Id] = p.Ports;
        foreach (var joint in route.Joints.Where(j => j is { Between.Count: 2, Kind: JointKind.Butt or JointKind.Bolted }))
        {
            // The two ends nearest to the joint; they look at each other, and the joint stands in the middle.
            var a = ends[joint.Between[0]].MinBy(e => e.At.To(joint.At));
            var b = ends[joint.Between[1]].MinBy(e => e.At.To(joint.At));
            Assert.Equal(joint.Gap, a.At.To(b.At), 1e-4);
            Assert.Equal(0, (a.Face + b.Face).Length, 1e-6);
            Assert.Equal(0, joint.At.To(a.At.Toward(b.At, 0.5)), 1e-4);
            Assert.Equal(joint.Gap, (b.At - a.At).Dot(a.Face), 1e-4);
        }
    });

    [Fact]
    public void Every_component_and_pipe_is_in_exactly_one_spool_and_loose_parts_in_none() => ForAll((_, packet) =>
    {
        var f = packet.Fabrication;
        Assert.Equal(
            f.Route.Components.Where(c => !c.IsLoose).Select(c => c.Id).Concat(f.Route.Pipes.Select(p => p.Id)).Order(StringComparer.Ordinal),
            f.Spools.SelectMany(s => s.Components.Select(c => c.Id).Concat(s.Cuts.Select(c => c.Pipe.Id))).Order(StringComparer.Ordinal));
        Assert.Equal(f.Spools.Count, f.Spools.Select(s => s.Name).Distinct(StringComparer.Ordinal).Count());
        Assert.Equal(f.Cuts.Count, f.Cuts.Select(c => c.Piece).Distinct(StringComparer.Ordinal).Count());
        // A shop weld never leaves its spool; a field weld and a bolted joint never stand inside one by themselves.
        foreach (var joint in f.Route.Joints.Where(j => j is { Place: WeldPlace.Shop, Between.Count: 2, Kind: not JointKind.Bolted }))
            Assert.Equal(f.SpoolOf[joint.Between[0]], f.SpoolOf[joint.Between[1]]);
    });

    [Fact]
    public void A_spools_box_holds_all_its_ends_and_its_centre_of_mass() => ForAll((_, packet) =>
    {
        foreach (var spool in packet.Fabrication.Spools)
        {
            foreach (var at in spool.Components.SelectMany(c => c.Ports.Select(p => p.At)).Concat(spool.Cuts.SelectMany(c => new[] { c.Pipe.Start, c.Pipe.End })).Append(spool.CentreOfMass))
            {
                Assert.InRange(at.X, spool.BoxFrom.X - 1e-4, spool.BoxTo.X + 1e-4);
                Assert.InRange(at.Y, spool.BoxFrom.Y - 1e-4, spool.BoxTo.Y + 1e-4);
                Assert.InRange(at.Z, spool.BoxFrom.Z - 1e-4, spool.BoxTo.Z + 1e-4);
            }
        }
    });

    [Fact]
    public void A_spool_weighs_what_its_parts_weigh() => ForAll((_, packet) =>
    {
        var f = packet.Fabrication;
        foreach (var spool in f.Spools)
        {
            Assert.Empty(spool.Unweighed);
            Assert.Equal(spool.Cuts.Sum(c => c.Mass) + spool.Components.Sum(c => f.Masses[c.Id].Kg), spool.Mass, Same);
        }
    });

    [Fact]
    public void Material_needed_is_what_is_drawn() => Gen.Select(Gens.Sketches, Gen.Bool).Holds((sketch, listed) =>
    {
        var f = (listed ? sketch with { Materials = Listed(sketch) } : sketch).Packet().Fabrication;
        var studs = f.Materials.Where(r => r.What.StartsWith("stud bolt", StringComparison.Ordinal)).ToList();
        Assert.Equal(f.Bolting.Sum(b => b.Count), studs.Sum(r => r.Needed), Same);
        Assert.Equal(f.Route.Components.Count, f.Materials.Where(r => !r.IsLength).Except(studs).Sum(r => r.Needed), Same);
        Assert.Equal(f.Cuts.Sum(c => c.SawLength) / 1000, f.Materials.Where(r => r.IsLength).Sum(r => r.Needed), Same);
        var used = f.Materials.SelectMany(r => r.UsedBy).ToList();
        Assert.Equal(used.Count, used.Distinct(StringComparer.Ordinal).Count());
    }, iter: Many / 2);

    private static string Listed(Sketch s) => $$"""
        materials:
          - {item: 1, what: pipe, size: {{s.Size}}, schedule: {{s.Schedule}}, quantity: 6 m}
          - {item: 2, what: elbow 90 LR, size: {{s.Size}}, quantity: 2}
          - {item: 3, what: elbow 45 LR, size: {{s.Size}}, quantity: 2}
          - {item: 4, what: flange WN RF, size: {{s.Size}}, class: {{s.Class}}, quantity: 2}
          - {item: 5, what: gasket spiral wound, size: {{s.Size}}, class: {{s.Class}}, quantity: 2}
          - {item: 6, what: stud bolt, size: 3/4, length: 100 mm, quantity: 8}
        """;

    [Fact]
    public void Joints_and_components_are_numbered_without_gaps_along_the_line() => ForAll((_, packet) =>
    {
        var route = packet.Fabrication.Route;
        foreach (var (ids, letter) in new[]
                 {
                     (route.Components.Select(c => c.Id), 'C'), (route.Pipes.Select(p => p.Id), 'P'),
                     (route.Joints.Where(j => j.Kind != JointKind.Bolted).Select(j => j.Id), 'W'), (route.Joints.Where(j => j.Kind == JointKind.Bolted).Select(j => j.Id), 'B'),
                 })
        {
            Assert.Equal(Enumerable.Range(1, ids.Count()).Select(i => FormattableString.Invariant($"{letter}{i}")), ids, StringComparer.Ordinal);
        }

        Assert.Equal(route.Joints.Select(j => (j.Run, j.Leg)).Order(), route.Joints.Select(j => (j.Run, j.Leg)));
    });
}

internal sealed class Near(double tolerance) : IEqualityComparer<double>
{
    public bool Equals(double x, double y) => Math.Abs(x - y) <= tolerance;

    public int GetHashCode(double obj) => 0;
}

/// <summary>Cut lengths worked out again, apart from the engine, by the drawing file's own rules: straight from the tables, as a fitter would with a pencil.</summary>
internal static class Reckoning
{
    public static List<double> MainRun(Sketch s)
    {
        var (gap, extra) = (double.Parse(s.RootGap, System.Globalization.CultureInfo.InvariantCulture) * s.Scale, double.Parse(s.Extra, System.Globalization.CultureInfo.InvariantCulture) * s.Scale);
        var along = s.Along;
        var lengths = new List<double>();
        double? open = null;
        for (var i = 0; i < s.Legs.Length; i++)
        {
            var leg = s.Legs[i];
            if (leg.By is not { } by)
                continue;
            var start = i == 0 ? s.Start : s.Legs[i - 1].To.To;
            var length = open ?? (leg.Begin == "final-fit" ? extra : 0)
                - Away(s, i == 0 ? new(s.Start) : s.Legs[i - 1].To, along[i], i == 0 ? null : Turn(s, i - 1), leaves: true)
                - Gap(start, gap);
            length += by * s.Scale;
            if (leg.To.To is "outlet" or "point")
            {
                open = length;
                continue;
            }

            open = null;
            lengths.Add(length
                - Away(s, leg.To, along[i], i + 1 < s.Legs.Length ? Turn(s, i) : null, leaves: false)
                - Gap(leg.To.To, gap)
                + (leg.End == "final-fit" ? extra : 0));
        }

        return lengths;
    }

    /// <summary>A dimension in the column of the sketch's units, mm.</summary>
    public static double Column(Sketch s, string table, string item, string attribute, string size, string size2 = "", string schedule = "", string @class = "")
    {
        var row = StandardTable.Find(table, item, attribute, Given.Size(size), size2.Length > 0 ? Given.Size(size2) : default, schedule, @class);
        Assert.True(row is not null, $"{item} {attribute} {size} {size2}");
        return s.Units == Units.Inches ? row.Inches!.Value * LengthText.Inch : row.Mm!.Value;
    }

    private static double Turn(Sketch s, int leg) => s.Legs[leg].Go.AngleTo(s.Legs[leg + 1].Go);

    private static double Gap(string point, double gap) => point switch { "open" => 0, "weld" => gap / 2, _ => gap };

    private static double Away(Sketch s, SketchPoint point, string size, double? turn, bool leaves)
    {
        double Hub() => Column(s, "flanges", "flange WN", "length through hub", size, @class: s.Class);
        var gasket = double.Parse(s.Gasket, System.Globalization.CultureInfo.InvariantCulture) * s.Scale;
        switch (point.To)
        {
            case "elbow" when Math.Abs(turn!.Value - (Math.PI / 2)) < 1e-6:
                return Column(s, "butt-weld", "elbow 90 LR", "A", size);
            case "elbow" when Math.Abs(turn.Value - (Math.PI / 4)) < 1e-6:
                return Column(s, "butt-weld", "elbow 45 LR", "B", size);
            case "elbow":
                return Column(s, "butt-weld", "elbow 90 LR", "A", size) * Math.Tan(turn.Value / 2);
            case "tee":
                return Column(s, "butt-weld", point.Size.Length > 0 ? "reducing tee" : "tee", "C", size, point.Size);
            case "reducer":
                // The work point is the far end; the leg before holds the length.
                return leaves ? 0 : Column(s, "butt-weld", "reducer", "H", size, point.Size);
            case "flange":
                return Hub();
            case "joint":
                return Hub() + (gasket / 2);
            case "valve":
                return Hub() + gasket + (Column(s, "valves", "valve gate", "face to face", size, @class: s.Class) / 2);
            case "cap":
                // E up to the limiting wall, which is the extra-strong one; E1 above it (ASME B16.9).
                return Column(s, "butt-weld", "cap", Column(s, "pipe", "pipe", "wall", size, schedule: s.Schedule) > Column(s, "pipe", "pipe", "wall", size, schedule: "XS") + 0.01 ? "E1" : "E", size);
            default:
                return 0;
        }
    }
}
