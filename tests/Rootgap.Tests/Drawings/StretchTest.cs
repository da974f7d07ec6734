using System.Globalization;
using CsCheck;
using Rootgap.Drawings;
using Rootgap.Findings;
using Rootgap.Measure;
using Rootgap.Packets;
using Rootgap.Routes;

namespace Rootgap.Tests.Drawings;

/// <summary>What is done with a stretch of legs at once, through the drawing that comes of it.</summary>
public class StretchTest
{
    private const string Head = "drawing: T-1\nline: {size: 6, schedule: 40, class: 150, material: A106-B, gasket: 3.2}\n";

    private static readonly string[] Words = ["north", "east", "up", "south", "west", "down"];

    private static int Axis(string way) => Array.IndexOf(Words, way) % 3;

    /// <summary>A run from flange to flange with elbows, valves and tees, whose last tee has a branch of its own.</summary>
    private static readonly Gen<string> Drawn = Gen.Select(Gen.Int[2, 7], Gen.Int[0, 5].Array[20], Gen.Int[800, 4000].Array[20], Gen.Int[0, 3].Array[20]).Select((count, ways, lengths, kinds) =>
    {
        var way = Words[ways[0]];
        var legs = new List<string>();
        var branch = "";
        for (var i = 0; i < count; i++)
        {
            var side = Words.First(w => Axis(w) != Axis(way) && Array.IndexOf(Words, w) >= ways[i + 1] % 3);
            var weld = kinds[i] == 0 ? ", end: field" : "";
            var at = i == count - 1 ? "flange" : kinds[i] switch { 0 or 1 => "elbow", 2 => $"valve, kind: gate, stem: {side}", _ => $"tee, name: B{i}, branch: {side}" };
            legs.Add($"{{go: {way}, by: {lengths[i].ToString(CultureInfo.InvariantCulture)}, to: {at}{weld}}}   # leg {i}");
            if (at.StartsWith("tee", StringComparison.Ordinal))
                branch = $"  - run: branch\n    start: {{from: B{i}}}\n    legs:\n      - {{go: {side}, by: 900, to: flange}}\n";
            if (at == "elbow")
                way = side;
        }

        return $"{Head}runs:\n  - run: main\n    start: {{to: flange, at: {{east: 100, north: 200, up: 300}}}}\n    legs:\n{string.Concat(legs.Select(l => $"      - {l}\n"))}{branch}";
    });

    private static DrawingText Of(string text) => DrawingText.Of(text, "t.yaml");

    private static Packet Packet(DrawingText text)
    {
        var reading = text.Read();
        Assert.Empty(reading.Errors);
        return Rootgap.Packets.Packet.Of(reading.Drawing!);
    }

    /// <summary>What is bought and cut: piece by piece, and what all of it weighs.</summary>
    private static List<string> Steel(Packet packet) =>
    [
        .. packet.Fabrication.Cuts.Select(c => string.Create(CultureInfo.InvariantCulture, $"cut {c.Length:0.000}")).Order(StringComparer.Ordinal),
        .. packet.Fabrication.Route.Components.Select(c => c.Ware + " " + c.Size).Order(StringComparer.Ordinal),
        string.Create(CultureInfo.InvariantCulture, $"{packet.Fabrication.Spools.Sum(s => s.Mass):0.000} kg"),
    ];

    /// <summary>The lengths of its reducers, as the editor has them.</summary>
    private static Dictionary<string, double> Long(Packet packet) => packet.Fabrication.Route.Components.OfType<Reducer>().ToDictionary(r => r.Source.Path.ToString(), r => Math.Abs((r.Out.At - r.In.At).Dot(r.Out.Face)), StringComparer.Ordinal);

    private static StretchDone Turned(DrawingText text) => Packet(text) is var packet ? Stretch.Reverse(text, 0, End(packet), Long(packet)) : null!;

    private static Stretch Whole(DrawingText text) => new(0, 0, text.Runs[0].Legs.Count - 1);

    private static string End(Packet packet)
    {
        var p = packet.Fabrication.Route.Runs[0].Points[^1];
        string Typed(double mm) => (packet.Drawing.Units == Units.Inches ? mm / 25.4 : mm).ToString("0.########", CultureInfo.InvariantCulture);
        return $"east {Typed(p.X)} north {Typed(p.Y)} up {Typed(p.Z)}";
    }

    // Mirroring keeps every distance (Euclid): what is cut and what it weighs is the same on the other hand.
    [Fact]
    public void A_mirrored_line_is_cut_from_the_same_steel_and_mirrored_twice_is_the_same_text() =>
        Gen.Select(Drawn, Gen.Int[0, 2].Select(i => Words[i])).Sample((drawn, axis) =>
        {
            var text = Of(drawn);
            var once = Whole(text).Mirror(text, axis);
            Assert.Null(once.Text.Refusal);
            Assert.Equal(Steel(Packet(text)), Steel(Packet(once.Text)));
            var (a, b) = (Packet(text).Fabrication.Route.Runs[0].Points, Packet(once.Text).Fabrication.Route.Runs[0].Points);
            for (var i = 0; i < a.Count; i++)
            {
                Assert.Equal(axis == "east" ? 200 - a[i].X : a[i].X, b[i].X, 1e-6);
                Assert.Equal(axis == "north" ? 400 - a[i].Y : a[i].Y, b[i].Y, 1e-6);
                Assert.Equal(axis == "up" ? 600 - a[i].Z : a[i].Z, b[i].Z, 1e-6);
            }

            Assert.Equal(drawn, once.Now.Mirror(once.Text, axis).Text.Text);
        }, iter: 60);

    /// <summary>The same with reducers and swages between 6 and 4 inches, round and with a flat side, drains, vents, laterals and nipples; in millimetres or in inches.</summary>
    private static readonly Gen<string> Reduced = Gen.Select(Gen.Int[3, 9], Gen.Int[0, 5].Array[20], Gen.Int[50, 160].Array[20], Gen.Int[0, 8].Array[20], Gen.Bool).Select((count, ways, lengths, kinds, inInches) =>
    {
        var way = Words[ways[0]];
        var size = "6";
        var legs = new List<string>();
        var branch = "";
        for (var i = 0; i < count; i++)
        {
            var side = Words.First(w => Axis(w) != Axis(way) && Array.IndexOf(Words, w) >= ways[i + 1] % 3);
            var other = size == "6" ? "4" : "6";
            var at = i == count - 1 ? "flange" : kinds[i] switch
            {
                0 or 1 => "elbow",
                2 => $"reducer, size: {other}",
                3 => $"reducer, size: {other}, kind: eccentric, flat: {side}",
                4 => $"swage, size: {other}",
                5 => $"drain, size: 3/4, branch: {side}, nipple: {(inInches ? "4" : "100")}, valve: gate, face to face: {(inInches ? "3 1/2" : "90")}, mass: 2",
                6 => $"tee, name: B{i}, branch: {side}",
                7 => $"lateral, name: B{i}, branch: {{{way}: 1, {side}: 1}}, long end: {(inInches ? "16" : "400")}, short end: {(inInches ? "5" : "130")}, branch end: {(inInches ? "16" : "400")}, mass: 30",
                _ => $"valve, kind: gate, stem: {side}",
            };
            legs.Add($"{{go: {way}, by: {(inInches ? FormattableString.Invariant($"{lengths[i]} 3/8") : FormattableString.Invariant($"{lengths[i] * 25.3:0.#}"))}, to: {at}}}   # leg {i}");
            if (at.Contains("name:", StringComparison.Ordinal))
                branch = $"  - run: branch\n    start: {{from: B{i}}}\n    legs:\n      - {{go: {(at[0] == 'l' ? $"{{{way}: 1, {side}: 1}}" : side)}, by: {(inInches ? "40" : "1000")}, to: flange}}\n";
            if (kinds[i] is 2 or 3 or 4 && i < count - 1)
                size = other;
            if (at == "elbow")
                way = side;
        }

        return $"{(inInches ? "units: in\n" : "")}{Head.Replace("gasket: 3.2", inInches ? "gasket: 1/8" : "gasket: 3.2", StringComparison.Ordinal)}runs:\n  - run: main\n    start: {{to: flange, at: {{east: 0, north: 0, up: 0}}}}\n    legs:\n{string.Concat(legs.Select(l => $"      - {l}\n"))}{branch}";
    });

    // The same pipe walked the other way (common practice). A reducer's place is its far end, and that is its other end then: the rest stands where it stood.
    [Fact]
    public void A_run_with_reducers_drains_and_branches_written_from_its_other_end_is_the_same_steel() =>
        Reduced.Sample(drawn =>
        {
            var text = Of(drawn);
            var before = Packet(text);
            var turned = Turned(text);
            Assert.True(turned.Text.Refusal is null, turned.Text.Refusal);
            var after = Packet(turned.Text);
            Assert.Equal(Steel(before), Steel(after));
            Assert.Equal(Stops(before), Stops(after));
            var (a, b) = (before.Fabrication.Route.Runs[0].Points, after.Fabrication.Route.Runs[0].Points);
            for (var i = 1; i < a.Count - 1; i++)
            {
                if (text.Runs[0].Legs[i - 1]["to"] is not ("reducer" or "swage"))
                    Assert.True(a[i].To(b[^(i + 1)]) < 1e-3, $"leg {i}: {a[i]} {b[^(i + 1)]}");
            }

            var again = Turned(turned.Text).Text;
            Assert.True(again.Refusal is null, again.Refusal);
            foreach (var (one, other) in text.Runs[0].Legs.Append(text.Runs[0].Row).Zip(again.Runs[0].Legs.Append(again.Runs[0].Row)))
                Assert.Equal(one.Cells.OrderBy(c => c.Key, StringComparer.Ordinal).Select(Plain), other.Cells.OrderBy(c => c.Key, StringComparer.Ordinal).Select(Plain));

            static IEnumerable<string> Stops(Packet of) => of.Findings.Where(f => f.Severity == Severity.Stop).Select(f => f.Rule).Order(StringComparer.Ordinal);

            string Plain(KeyValuePair<string, string> cell) => cell.Key == "by" && LengthText.TryParse(cell.Value, text.Units, out var mm) ? $"by {mm:0.00}" : $"{cell.Key} {cell.Value}";
        }, iter: 60);

    // ASME B16.9 Table 8: a reducer of 6 to 4 is 140 mm long. Flange, 1000 to the reducer's small end, 1500 to the last flange: from there 1640 to its large end and 860 on.
    [Fact]
    public void A_reducer_is_met_at_its_other_end_and_its_length_goes_to_the_leg_behind_it()
    {
        var text = Of(Head + "runs:\n  - run: main\n    start: {to: flange}\n    legs:\n      - {go: north, by: 1000, to: reducer, size: 4}\n      - {go: north, by: 1500, to: flange}\n");
        var turned = Turned(text).Text;
        Assert.Null(turned.Refusal);
        Assert.Equal("4", turned.Runs[0].Row["size"]);
        Assert.Equal([("south", "1640", "reducer", "6"), ("south", "860", "flange", "")], turned.Runs[0].Legs.Select(l => (l["go"], l["by"], l["to"], l["size"])));
        Assert.Equal(["1000", "1500"], Turned(turned).Text.Runs[0].Legs.Select(l => l["by"]));
        Assert.False(Turned(turned).Text.Runs[0].Row.Cells.ContainsKey("size"));
        // Where its length is not known nothing is turned.
        Assert.Contains("not known while the line cannot be placed", Stretch.Reverse(text, 0, null, NoneLong).Text.Refusal, StringComparison.Ordinal);
    }

    private static readonly Dictionary<string, double> NoneLong = [];

    // The same pipe walked the other way (common practice): every piece, every fitting and every place of it is the same.
    [Fact]
    public void A_run_written_from_its_other_end_is_the_same_steel_in_the_same_place_and_turned_twice_says_the_same() =>
        Drawn.Sample(drawn =>
        {
            var text = Of(drawn);
            var before = Packet(text);
            var turned = Turned(text);
            Assert.Null(turned.Text.Refusal);
            var after = Packet(turned.Text);
            Assert.Equal(Steel(before), Steel(after));
            foreach (var (a, b) in before.Fabrication.Route.Runs[0].Points.Zip(after.Fabrication.Route.Runs[0].Points.Reverse()))
                Assert.True(a.To(b) < 1e-6);
            foreach (var (a, b) in before.Fabrication.Route.Runs.Skip(1).SelectMany(r => r.Points).Zip(after.Fabrication.Route.Runs.Skip(1).SelectMany(r => r.Points)))
                Assert.True(a.To(b) < 1e-6);
            var again = Turned(turned.Text).Text;
            Assert.Null(again.Refusal);
            foreach (var (a, b) in text.Runs[0].Legs.Append(text.Runs[0].Start).Zip(again.Runs[0].Legs.Append(again.Runs[0].Start)))
                Assert.Equal(a.Cells.OrderBy(c => c.Key, StringComparer.Ordinal), b.Cells.OrderBy(c => c.Key, StringComparer.Ordinal));
        }, iter: 60);

    [Fact]
    public void Repeated_legs_stand_behind_themselves_without_the_names_of_the_first()
    {
        var text = Of(Head + """
            runs:
              - run: main
                start: {to: flange}
                legs:
                  - {go: north, by: 1500, to: tee, name: B1, branch: up, end number: 17}   # kept
                  - {go: north, by: 900, to: valve, kind: gate, stem: up, at: {north: 2400}}
                  - {go: north, by: 900, to: flange}

            """);
        var done = new Stretch(0, 0, 1).Repeat(text);
        Assert.Equal(new Stretch(0, 2, 3), done.Now);
        Assert.Equal(["tee", "valve", "tee", "valve", "flange"], done.Text.Runs[0].Legs.Select(l => l["to"]));
        Assert.Equal(["B1", "", "", "", ""], done.Text.Runs[0].Legs.Select(l => l["name"]));
        Assert.All(done.Text.Runs[0].Legs.Skip(2), l => Assert.False(l.Cells.ContainsKey("at") || l.Cells.ContainsKey("end number")));
        Assert.Contains("# kept", done.Text.Text, StringComparison.Ordinal);
        Assert.Contains("stay with the first", Assert.Single(done.Says), StringComparison.Ordinal);

        // Behind an end nothing goes on.
        Assert.Contains("ends the run", new Stretch(0, 2, 2).Repeat(text).Text.Refusal, StringComparison.Ordinal);
    }

    [Fact]
    public void Another_drawing_comes_in_with_its_branch_under_names_that_are_free_and_without_its_items()
    {
        var text = Of(Head + """
            runs:
              - run: main
                start: {to: flange}
                legs:
                  - {go: north, by: 1500, to: tee, name: B1, branch: up}
                  - {go: north, by: 900, to: flange}
              - run: vent
                start: {from: B1}
                legs:
                  - {go: up, by: 900, to: flange}

            """);
        var done = Stretch.Insert(text, 0, 1, new Stretch(0, 0, 0).Apart(text, "a tee"));
        Assert.Null(done.Text.Refusal);
        Assert.Equal(["B1", "B1 2", ""], done.Text.Runs[0].Legs.Select(l => l["name"]));
        Assert.Equal(["", "B1", "B1 2"], done.Text.Runs.Select(r => r.Start["from"]));
        Assert.Equal(["main", "vent", "vent 2"], done.Text.Runs.Select(r => r.Name));
        Assert.Equal(2, Packet(done.Text).Fabrication.Route.Components.Count(c => c.Ware == Ware.Tee));
        Assert.Contains("B1 is B1 2", string.Join(' ', done.Says), StringComparison.Ordinal);
    }

    [Fact]
    public void A_fall_is_a_rise_where_the_run_is_turned()
    {
        var text = Of(Head + "runs:\n  - run: main\n    start: {to: flange}\n    legs:\n      - {go: north, by: 900, to: elbow, fall: '1:100'}\n      - {go: east, by: 700, to: elbow, rise: '1:50'}\n      - {go: up, by: 600, to: flange}\n");
        var turned = Stretch.Reverse(text, 0, null, NoneLong);
        Assert.Null(turned.Text.Refusal);
        Assert.NotEqual(text.Text, turned.Text.Text);
        Assert.Equal(Steel(Packet(text)), Steel(Packet(turned.Text)));
        var again = Stretch.Reverse(turned.Text, 0, null, NoneLong).Text;
        foreach (var (a, b) in text.Runs[0].Legs.Append(text.Runs[0].Row).Zip(again.Runs[0].Legs.Append(again.Runs[0].Row)))
            Assert.Equal(a.Cells.OrderBy(c => c.Key, StringComparer.Ordinal), b.Cells.OrderBy(c => c.Key, StringComparer.Ordinal));
    }

    [Theory]
    [InlineData("{go: north, by: 900, to: elbow, schedule: 80}", "schedule")]
    [InlineData("{go: north, by: 900, to: reducer, size: 4, schedule: 80}", "schedule")]
    public void What_hangs_on_the_way_a_run_is_written_is_not_turned_and_the_leg_is_named(string leg, string key)
    {
        var text = Of($"{Head}runs:\n  - run: main\n    start: {{to: flange}}\n    legs:\n      - {leg}\n      - {{go: north, by: 900, to: flange}}\n");
        var done = Stretch.Reverse(text, 0, null, NoneLong);
        Assert.Equal(text.Text, done.Text.Text);
        Assert.Contains($"Leg 1 has \"{key}\"", done.Text.Refusal, StringComparison.Ordinal);
    }
}
