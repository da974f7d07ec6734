using System.Globalization;
using System.Text;
using Rootgap.Drawings;
using Rootgap.Measure;
using Rootgap.Packets;

namespace Rootgap.Tests;

/// <summary>Generators of the domain's values, one each: random, but always such as a fitter could meet.</summary>
public static class Gens
{
    /// <summary>Pipe sizes that every table used here has: B16.9 tees and reducers of each to the one before, B16.10 gate valves.</summary>
    public static readonly string[] Sizes = ["2", "3", "4", "6", "8", "10"];

    /// <summary>A length up to 60 m, mm, of either sign.</summary>
    public static readonly Gen<double> Lengths = Gen.Double[-60_000, 60_000];

    /// <summary>A length that a tape in inches can show: a number of sixteenths, either sign.</summary>
    public static readonly Gen<long> Sixteenths = Gen.Long[-40_000, 40_000];

    /// <summary>A drawing, as a sketch that can be moved, turned and written backwards.</summary>
    public static readonly Gen<Sketch> Sketches = Gen.Byte.Array[160].Select(b => SketchMaking.Of(new Choices(b)));

    /// <summary>A drawing of up to sixty legs, for whoever lays out paper.</summary>
    public static readonly Gen<Sketch> LongSketches = Gen.Byte.Array[1200].Select(b => SketchMaking.Of(new Choices(b), 60));

    public static readonly Gen<Vector> Displacements =
        Gen.Select(Gen.Int[-9000, 9000], Gen.Int[-9000, 9000], Gen.Int[-9000, 9000], (x, y, z) => new Vector(x, y, z));
}

/// <summary>Decisions read off a row of bytes, so that the testing library can shrink a drawing by shrinking its bytes. Past the end all decisions are the first.</summary>
public sealed class Choices(byte[] bytes)
{
    private int next;

    public int Below(int count) => next < bytes.Length ? bytes[next++] % count : 0;

    public bool OneIn(int count) => Below(count) == count - 1;

    public T Of<T>(params ReadOnlySpan<T> options) => options[Below(options.Length)];
}

/// <summary>What stands at the end of a leg of a sketch.</summary>
/// <param name="To">The drawing file's word.</param>
/// <param name="Size">New size of a reducer, size of an outlet or of a tee's branch; empty otherwise.</param>
/// <param name="Branch">Direction of a branch; zero where there is none.</param>
/// <param name="BranchRun">The run that starts there: how far and what stands at its end.</param>
public sealed record SketchPoint(string To, string Size = "", Vector Branch = default, (double By, string To)? BranchRun = null);

/// <summary>One leg of a sketch; distances in the sketch's units; null is made up fitting to fitting.</summary>
public sealed record SketchLeg(Vector Go, double? By, SketchPoint To, string Begin = "", string End = "");

/// <summary>A drawing before it is written down.</summary>
public sealed record Sketch(Units Units, string Size, string Schedule, string Class, string Start, Point At, SketchLeg[] Legs)
{
    public string RootGap => Units == Units.Inches ? "0.125" : "3";
    public string Gasket => Units == Units.Inches ? "0.125" : "3.2";
    public string Extra => Units == Units.Inches ? "4" : "100";

    public double Scale => Units == Units.Inches ? LengthText.Inch : 1;

    /// <summary>Material rows; none unless given.</summary>
    public string Materials { get; init; } = "";

    /// <summary>Size of the pipe in each leg.</summary>
    public string[] Along
    {
        get
        {
            var sizes = new string[Legs.Length];
            var size = Size;
            for (var i = 0; i < Legs.Length; i++)
            {
                sizes[i] = size;
                if (Legs[i].To.To == "reducer")
                    size = Legs[i].To.Size;
            }

            return sizes;
        }
    }

    public string Yaml()
    {
        var text = new StringBuilder();
        text.Append(CultureInfo.InvariantCulture, $"""
            drawing: G-1
            units: {(Units == Units.Inches ? "in" : "mm")}
            line: {Braces($"size: {Size}, schedule: {Schedule}, class: {Class}, material: A106-B, gasket: {Gasket}")}
            shop: {Braces($"root gap: {RootGap}, final fit extra: {Extra}")}
            {Materials}
            runs:
              - run: main
                start: {Braces($"to: {Start}, at: {Braces($"east: {Number(At.X)}, north: {Number(At.Y)}, up: {Number(At.Z)}")}")}
                legs:

            """);
        var branches = Rows(text, Legs, "N");
        foreach (var branch in Order == RunOrder.Exchanged ? Enumerable.Reverse(branches) : branches)
            text.Append(branch);
        return text.ToString();
    }

    /// <summary>Writes the legs of a run; gives the runs that branch off it.</summary>
    private static List<string> Rows(StringBuilder text, SketchLeg[] legs, string prefix)
    {
        var branches = new List<string>();
        foreach (var (leg, i) in legs.Select((l, i) => (l, i)))
        {
            text.Append("      - {go: ").Append(Direction(leg.Go)).Append(", by: ").Append(leg.By is { } by ? Number(by) : "makeup").Append(", to: ").Append(leg.To.To);
            if (leg.To.To is "tee" or "outlet")
            {
                var name = string.Create(CultureInfo.InvariantCulture, $"{prefix}{i}");
                text.Append(CultureInfo.InvariantCulture, $", name: {name}, branch: {Direction(leg.To.Branch)}");
                if (leg.To.Size.Length > 0)
                    text.Append(leg.To.To == "tee" ? ", branch size: " : ", size: ").Append(leg.To.Size);
                if (leg.To.BranchRun is { } run)
                    branches.Add($"  - run: branch {name}\n    start: {Braces($"from: {name}")}\n    legs:\n      - {Braces($"go: {Direction(leg.To.Branch)}, by: {Number(run.By)}, to: {run.To}")}\n");
            }

            if (leg.To.To == "reducer")
                text.Append(", size: ").Append(leg.To.Size);
            if (leg.To.To == "valve")
                text.Append(", kind: gate");
            if (leg.Begin.Length > 0)
                text.Append(", begin: ").Append(leg.Begin);
            if (leg.End.Length > 0)
                text.Append(", end: ").Append(leg.End);
            text.Append("}\n");
        }

        return branches;
    }

    /// <summary>In which order the runs that branch off are written.</summary>
    public RunOrder Order { get; init; }

    /// <summary>The other hand: east and west exchanged.</summary>
    public Sketch Mirrored()
    {
        static Vector Other(Vector v) => v with { X = -v.X };
        return this with
        {
            At = new(-At.X, At.Y, At.Z),
            Legs = [.. Legs.Select(l => l with { Go = Other(l.Go), To = l.To with { Branch = Other(l.To.Branch) } })],
        };
    }

    /// <summary>The same steel, written from the free end of its first tee's branch: in at the branch and on along the line, with a second run back to where the line began; null where no tee has a line after it.</summary>
    /// <param name="tee">Where the tee stands in a writing, mm, by the index of its leg.</param>
    /// <param name="reducer">Length of a reducer, in the sketch's units.</param>
    public string? EnteredByBranch(Func<int, Point> tee, Func<string, string, double> reducer)
    {
        var at = Array.FindIndex(Legs, l => l.To is { To: "tee", BranchRun: not null });
        if (at < 0 || at == Legs.Length - 1)
            return null;
        var point = Legs[at].To;
        var (by, end) = point.BranchRun!.Value;
        var size = Along[at];
        var from = tee(at) + (point.Branch * (by * Scale));
        var back = (this with { Legs = Legs[..(at + 1)] }).Backwards(reducer).Legs;
        var text = new StringBuilder();
        text.Append(CultureInfo.InvariantCulture, $"""
            drawing: G-1
            units: {(Units == Units.Inches ? "in" : "mm")}
            line: {Braces($"size: {(point.Size.Length > 0 ? point.Size : size)}, schedule: {Schedule}, class: {Class}, material: A106-B, gasket: {Gasket}")}
            shop: {Braces($"root gap: {RootGap}, final fit extra: {Extra}")}
            runs:
              - run: in
                start: {Braces($"to: {end}, at: {Braces($"east: {Number(from.X / Scale)}, north: {Number(from.Y / Scale)}, up: {Number(from.Z / Scale)}")}")}
                legs:
                  - {Braces($"go: {Direction(-point.Branch)}, by: {Number(by)}, to: tee, name: E, enter: branch{(point.Size.Length > 0 ? $", size: {size}" : "")}")}

            """);
        var branches = Rows(text, Legs[(at + 1)..], "N");
        text.Append("  - run: back\n    start: {from: E}\n    legs:\n");
        branches.AddRange(Rows(text, back, "M"));
        return text + string.Concat(branches);
    }

    public Packet Packet() => Given.Packet(Yaml());

    /// <summary>The same sketch elsewhere: moved (sketch units), then turned about the upright through the origin by quarter turns.</summary>
    public Sketch Moved(Vector by, int quarters)
    {
        Vector Turn(Vector v) => quarters switch { 0 => v, 1 => new(-v.Y, v.X, v.Z), 2 => new(-v.X, -v.Y, v.Z), _ => new(v.Y, -v.X, v.Z) };
        return this with
        {
            At = Point.Origin + Turn(At + by - Point.Origin),
            Legs = [.. Legs.Select(l => l with { Go = Turn(l.Go), To = l.To with { Branch = Turn(l.To.Branch) } })],
        };
    }

    /// <summary>The same line written from its other end. A reducer's work point is its far end, so its length <paramref name="reducer"/> changes sides.</summary>
    public Sketch Backwards(Func<string, string, double> reducer)
    {
        var along = Along;
        var n = Legs.Length;
        var legs = new SketchLeg[n];
        for (var i = 0; i < n; i++)
        {
            var leg = Legs[n - 1 - i];
            var to = i == n - 1 ? new SketchPoint(Start) : Legs[n - 2 - i].To;
            var by = leg.By;
            if (to.To == "reducer")
            {
                by += reducer(along[n - 2 - i], to.Size);
                to = to with { Size = along[n - 2 - i] };
            }

            if (leg.To.To == "reducer")
                by -= reducer(along[n - 1 - i], leg.To.Size);
            legs[i] = leg with { Go = -leg.Go, By = by, To = to, Begin = leg.By is null ? "" : leg.End, End = leg.By is null ? leg.End : leg.Begin };
        }

        return this with { Size = along[^1], Start = Legs[^1].To.To, Legs = legs };
    }

    private static string Braces(string inside) => "{" + inside + "}";

    private static string Number(double value) => value.ToString("0.######", CultureInfo.InvariantCulture);

    private static string Direction(Vector v)
    {
        var words = new List<string>();
        foreach (var (value, plus, minus) in new[] { (v.X, "east", "west"), (v.Y, "north", "south"), (v.Z, "up", "down") })
        {
            if (value != 0)
                words.Add($"{(value > 0 ? plus : minus)}: {Number(Math.Abs(value))}");
        }

        return words.Count == 1 ? words[0][..words[0].IndexOf(':', StringComparison.Ordinal)] : Braces(string.Join(", ", words));
    }
}

/// <summary>In which order the runs that branch off a sketch's line are written.</summary>
public enum RunOrder
{
    Along,
    Exchanged,
}

internal static class SketchMaking
{
    private static readonly Vector[] Axes = [Vector.East, Vector.North, Vector.Up, -Vector.East, -Vector.North, -Vector.Up];

    public static Sketch Of(Choices c, int mostLegs = 7)
    {
        var units = c.Of(Units.Millimetres, Units.Inches);
        var size = c.Below(Gens.Sizes.Length);
        var start = c.Of("flange", "open", "weld", "cap");
        var sketch = new Sketch(units, Gens.Sizes[size], c.Of("40", "80", "STD"), c.Of("150", "300", "600"), start, new(0, 0, 0), []);
        var count = 1 + c.Below(mostLegs);
        var legs = new List<SketchLeg>();
        var direction = c.Of(Axes);
        // The two axes of a skew leg; null on a straight one.
        (Vector From, Vector To)? skew = null;
        var before = start;
        for (var i = 0; i < count; i++)
        {
            var to = i == count - 1
                ? new SketchPoint(c.Of("flange", "cap", "open", "weld"))
                : Between(c, sketch, skew is null ? direction : Vector.Zero, ref size);
            double? by = TakesFittings(before) && TakesFittings(to.To) && c.OneIn(6) ? null : Distance(c, units);
            var begin = by is not null && Welds(before) && legs is not [.., { End.Length: > 0 }] && c.OneIn(7) ? c.Of("field", "final-fit") : "";
            var end = Welds(to.To) && c.OneIn(5) ? by is null ? "field" : c.Of("shop", "field", "final-fit") : "";
            legs.Add(new(direction, by, to, begin, end));
            before = to.To;
            if (to.To == "elbow")
                (direction, skew) = Turned(c, direction, skew);
        }

        return sketch with { Legs = [.. legs] };
    }

    private static (Vector Direction, (Vector, Vector)? Skew) Turned(Choices c, Vector direction, (Vector From, Vector To)? skew)
    {
        if (skew is { } s)
            return (c.Of(s.From, s.To), null);
        var side = c.Of([.. Axes.Where(a => a.Dot(direction) == 0)]);
        return c.Below(5) switch
        {
            0 => ((direction * 600) + (side * 600), (direction, side)),
            1 => ((direction * 600) + (side * 450), (direction, side)),
            _ => (side, null),
        };
    }

    /// <summary>Fittings that can stand directly on each other.</summary>
    private static bool TakesFittings(string point) => point is "elbow" or "tee" or "reducer" or "flange" or "joint" or "valve" or "cap";

    private static bool Welds(string point) => TakesFittings(point) || point == "weld";

    private static double Distance(Choices c, Units units) => units == Units.Inches
        ? 50 + c.Below(70) + (c.Below(16) / 16.0)
        : 1300 + (10 * c.Below(200)) + (c.Below(4) / 2.0);

    private static SketchPoint Between(Choices c, Sketch sketch, Vector straight, ref int size)
    {
        var kind = c.Below(10);
        if (straight == Vector.Zero || kind < 4)
            return new("elbow");
        var side = c.Of([.. Axes.Where(a => a.Dot(straight) == 0)]);
        var branch = (Distance(c, sketch.Units), c.Of("open", "flange", "cap", "weld"));
        switch (kind)
        {
            case 4:
                return new("tee", size > 0 && c.OneIn(2) ? Gens.Sizes[size - 1] : "", side, branch);
            case 5 when size > 0:
                size--;
                return new("reducer", Gens.Sizes[size]);
            case 6 when size > 0:
                return new("outlet", Gens.Sizes[size - 1], side, branch);
            case 7:
                return new(c.Of("point", "weld"));
            case 8:
                return new("joint");
            case 9:
                return new("valve");
            default:
                return new("elbow");
        }
    }
}
