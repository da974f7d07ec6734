using System.Buffers;
using System.Globalization;
using System.Text.Json;
using CsCheck;
using Rootgap.Drawings;
using Rootgap.Findings;
using Rootgap.Packets;
using Rootgap.Site.Splitting;
using Rootgap.Tests.Samples;

namespace Rootgap.Tests.Site.Splitting;

/// <summary>The split against every way of marking small drawings, each written out, read, and judged apart.</summary>
public class SplitTest
{
    private sealed record Line(string[] Legs, string Shop)
    {
        /// <summary>The drawing with marks: for each leg what stands at its begin and its end, and new welds along it.</summary>
        public string Text(string[] begin, string[] end, (double Along, string Mark)[][] welds)
        {
            var rows = new List<string>();
            for (var i = 0; i < Legs.Length; i++)
            {
                var parts = Legs[i].Split(' ');
                var (go, by, to) = (parts[0], double.Parse(parts[1], CultureInfo.InvariantCulture), parts[2]);
                var from = 0.0;
                var first = begin[i].Length > 0 ? $", begin: {begin[i]}" : "";
                foreach (var (along, mark) in welds[i])
                {
                    rows.Add(FormattableString.Invariant($"{{go: {go}, by: {along - from}, to: weld, end: {mark}{first}}}"));
                    (from, first) = (along, "");
                }

                rows.Add(FormattableString.Invariant($"{{go: {go}, by: {by - from}, to: {to}{(end[i].Length > 0 ? $", end: {end[i]}" : "")}{first}}}"));
            }

            return $"drawing: T-1\nline: {{size: 4, schedule: 40, class: 150, gasket: 0}}\nshop: {{{Shop}}}\nruns:\n  - run: main\n    start: {{to: flange, at: {{up: 500}}}}\n    legs:\n      - {string.Join("\n      - ", rows)}\n";
        }

        public string Bare => Text(Blank, Blank, [.. Legs.Select(_ => Array.Empty<(double, string)>())]);

        public string[] Blank => [.. Legs.Select(_ => "")];
    }

    /// <summary>The least costs of all ways of marking, three of them.</summary>
    private static List<double> ByHand(Line line, IReadOnlyList<SplitPlace> places)
    {
        var costs = new List<double>();
        string[] kinds = ["", "field", "final-fit"];
        for (var code = 0; code < Math.Pow(3, places.Count); code++)
        {
            var (begin, end) = (line.Blank, line.Blank);
            var welds = line.Legs.Select(_ => new List<(double, string)>()).ToArray();
            var rest = code;
            foreach (var place in places)
            {
                var kind = kinds[rest % 3];
                rest /= 3;
                if (kind.Length == 0)
                    continue;
                if (place.Along is { } along)
                    welds[place.Leg].Add((along, kind));
                else
                    (place.AtBegin ? begin : end)[place.Leg] = kind;
            }

            var packet = Given.Packet(line.Text(begin, end, [.. welds.Select(w => w.OrderBy(x => x.Item1).ToArray())]));
            int[] legOfRow = [.. welds.SelectMany((w, i) => Enumerable.Repeat(i, w.Count + 1))];
            if (packet.Fabrication.Route.Findings.Any(f => f.Severity == Severity.Stop) || !SplitByHand.IsGood(packet, legOfRow))
                continue;
            // New is a weld of two pipes at the end of a row that is not the last of its leg.
            costs.Add(SplitByHand.Cost(packet, j => j.Between.All(id => id.StartsWith('P')) && j.Leg + 1 < legOfRow.Length && legOfRow[j.Leg + 1] == legOfRow[j.Leg]));
        }

        costs.Sort();
        return [.. costs.Take(3)];
    }

    private static void Agrees(Line line)
    {
        var packet = Given.Packet(line.Bare);
        var split = Split.Of(packet.Fabrication, new());
        var byHand = ByHand(line, split.Places);
        Assert.Equal(byHand.Count, split.Plans.Count);
        for (var i = 0; i < byHand.Count; i++)
            Assert.Equal(byHand[i], split.Plans[i].Cost, 1e-6);
        Assert.All(split.Plans, p => Assert.True(p.IsProven));
    }

    [Theory]
    [InlineData("east 1900 elbow|north 900 flange", "envelope: {length: 1500, width: 1200, height: 1200, mass: 100}, split: {every: 700}")]
    [InlineData("up 2600 elbow|east 700 flange", "envelope: {length: 2500, width: 500, height: 500, mass: 60}, split: {every: 1000}")]
    [InlineData("east 1200 weld|east 1600 flange", "envelope: {length: 1800, width: 400, height: 400, mass: 40}, split: {every: 5000}")]
    [InlineData("east 600 elbow|up 650 elbow|north 700 flange", "envelope: {length: 3000, width: 1500, height: 900, mass: 500}, split: {every: 5000}")]
    [InlineData("east 900 elbow|north 900 cap", "envelope: {length: 900, width: 900, height: 500, mass: 500}, split: {every: 5000}")]
    public void The_best_three_are_those_of_all_ways_of_marking(string legs, string shop) => Agrees(new(legs.Split('|'), shop));

    [Fact]
    public void Random_small_lines_have_the_cost_of_the_best_of_all_ways() =>
        Gen.Select(Gen.Int[500, 1500], Gen.Int[500, 1500], Gen.Bool.Select(b => b ? "north" : "up"), Gen.Int[500, 1800], Gen.Int[400, 1500], Gen.Int[20, 90]).Select((a, b, way, length, width, mass) =>
            new Line([$"east {a} elbow", $"{way} {b} flange"], Shop(length, width, mass, 800, ""))).Holds(Agrees, iter: 5, threads: 1);

    /// <summary>Two elbows and no new places, or one pipe with several; with and without an allowance for shrinkage, with other root gaps.</summary>
    [Fact]
    public void Random_lines_of_three_legs_or_one_long_pipe_have_the_cost_of_the_best_of_all_ways() =>
        Gen.Select(
            Gen.Bool.SelectMany(isLong => isLong
                ? Gen.Int[1700, 2600].Select(a => (Legs: new[] { $"east {a} elbow", "up 150 cap" }, Every: 600))
                : Gen.Select(Gen.Int[400, 1500], Gen.Int[450, 1500], Gen.Int[400, 1500], (a, b, c) => (Legs: new[] { $"east {a} elbow", $"up {b} elbow", $"north {c} flange" }, Every: 5000))),
            Gen.OneOf("", ", shrinkage: 1.5", ", root gap: 5", ", final fit extra: 60"), Gen.Int[500, 1800], Gen.Int[400, 1500], Gen.Int[20, 90])
            .Select((line, more, length, width, mass) => new Line(line.Legs, Shop(length, width, mass, line.Every, more))).Holds(Agrees, iter: 4, threads: 1);

    /// <summary>Odd tenths keep every case clear of a limit that is met exactly.</summary>
    private static string Shop(int length, int width, int mass, int every, string more) =>
        FormattableString.Invariant($"envelope: {{length: {length}.7, width: {width}.3, height: {width}.9, mass: {mass}.123}}, split: {{every: {every}}}{more}");

    /// <summary>A bypass round a header: both ways round need their final-fit weld, and a ring that is parted once is still one spool. Six places are free, the others forbidden.</summary>
    [Fact]
    public void A_ring_is_split_as_the_best_of_all_ways() =>
        Gen.Select(Gen.Int[900, 3000], Gen.Int[600, 1600], Gen.Int[400, 1600], Gen.Int[40, 100], Gen.Bool, Gen.Int[0, 100_000]).Select((length, width, height, mass, isBolted, which) =>
            (Envelope: FormattableString.Invariant($"length: {length}.7, width: {width}.3, height: {height}.9, mass: {mass}.123"), IsBolted: isBolted, Which: which)).Holds(c => RingAgrees(c.Envelope, c.IsBolted, c.Which), iter: 2, threads: 1);

    private static void RingAgrees(string envelope, bool hasFlanges, int which)
    {
        string Text(IReadOnlyDictionary<string, string> marks)
        {
            string End(string run, int leg, bool atBegin) => marks.TryGetValue($"{run} {leg} {atBegin}", out var mark) ? $", {(atBegin ? "begin" : "end")}: {mark}" : "";
            string Leg(string run, int leg, string row) => $"      - {{{row}{End(run, leg, true)}{End(run, leg, false)}}}\n";
            return $"drawing: R-1\nline: {{size: 4, schedule: 40, class: 150, gasket: 0}}\nshop: {{envelope: {{{envelope}}}, split: {{every: 5000}}}}\nruns:\n  - run: main\n    start: {{to: flange, at: {{up: 500}}}}\n    legs:\n"
                + Leg("main", 0, "go: east, by: 700, to: tee, branch: north, name: T1") + Leg("main", 1, "go: east, by: 1400, to: tee, branch: north, name: T2") + Leg("main", 2, "go: east, by: 700, to: flange")
                + "  - run: bypass\n    start: {from: T1}\n    legs:\n"
                + Leg("bypass", 0, "go: north, by: 600, to: elbow") + Leg("bypass", 1, hasFlanges ? "go: east, by: 700, to: joint" : "go: east, by: 1400, to: elbow")
                + (hasFlanges ? Leg("bypass", 2, "go: east, by: 700, to: elbow") : "") + Leg("bypass", hasFlanges ? 3 : 2, "go: south, by: 600, to: tie-in, with: T2");
        }

        var bare = Given.Packet(Text(new Dictionary<string, string>(StringComparer.Ordinal)));
        var order = new Random(which);
        var not = Split.PlacesIn(bare.Fabrication, bare.Drawing.Shop.Split).Select(p => p.Name).OrderBy(_ => order.Next()).Skip(6).ToHashSet(StringComparer.Ordinal);
        var split = Split.Of(bare.Fabrication, new(Forbidden: not));
        var places = split.Places.Where(p => !not.Contains(p.Name)).ToList();
        Assert.Equal(6, places.Count);
        var costs = new List<double>();
        for (var code = 0; code < Math.Pow(3, places.Count); code++)
        {
            var marks = new Dictionary<string, string>(StringComparer.Ordinal);
            var rest = code;
            foreach (var place in places)
            {
                if (rest % 3 > 0)
                    marks[$"{bare.Drawing.Runs[place.Run].Name} {place.Leg} {place.AtBegin}"] = rest % 3 == 1 ? "field" : "final-fit";
                rest /= 3;
            }

            var packet = Given.Packet(Text(marks));
            if (packet.Fabrication.Route.Findings.All(f => f.Severity != Severity.Stop) && SplitByHand.IsGood(packet, [0, 1, 2, 3]) && SplitByHand.EveryMarkParts(packet))
                costs.Add(SplitByHand.Cost(packet, _ => false));
        }

        costs.Sort();
        Assert.Equal(Math.Min(3, costs.Count), split.Plans.Count);
        for (var i = 0; i < split.Plans.Count; i++)
            Assert.Equal(costs[i], split.Plans[i].Cost, 1e-6);
        Assert.All(split.Plans, p => Assert.True(p.IsProven));
    }

    [Fact]
    public void All_directions_need_a_final_fit_weld_in_each()
    {
        var line = new Line(["east 1500 elbow", "up 1500 elbow", "north 1500 flange"], "split: {every: 5000, directions: all}");
        var plan = Split.Of(Given.Packet(line.Bare).Fabrication, new()).Plans[0];
        var finals = plan.Marks.Where(m => m.Kind == WeldPlace.FinalFit).ToList();
        Assert.Equal(3, finals.Count);
        Assert.Equal([0, 1, 2], finals.Select(m => m.Place.Leg).Order());
        // One final-fit weld alone is enough where one direction is asked for.
        Assert.Single(Split.Of(Given.Packet(line.Bare.Replace(", directions: all", "", StringComparison.Ordinal)).Fabrication, new()).Plans[0].Marks, m => m.Kind == WeldPlace.FinalFit);
    }

    [Fact]
    public void What_is_marked_stays_and_what_is_freed_may_move()
    {
        var sample = SampleFile.All.First(s => s.Name == "chilled-supply");
        var fabrication = sample.Packet().Fabrication;
        var stays = Split.Of(fabrication, new()).Plans[0];
        Assert.Equal(["W11", "W15", "W21"], stays.Marks.Where(m => m.IsThere).Select(m => m.Place.Name));
        var free = Split.Of(fabrication, new(Free: true)).Plans[0];
        Assert.True(free.Cost < stays.Cost);
        Assert.DoesNotContain(free.Marks, m => m.IsThere);
    }

    [Fact]
    public void A_pinned_place_is_marked_and_a_forbidden_one_is_not()
    {
        var fabrication = SampleFile.All.First(s => s.Name == "recirculation").Packet().Fabrication;
        var free = Split.Of(fabrication, new(Free: true)).Plans[0].Marks[0].Place.Name;
        var other = Split.Of(fabrication, new(true, new Dictionary<string, WeldPlace>(StringComparer.Ordinal) { ["W5"] = WeldPlace.FinalFit }, new HashSet<string>(StringComparer.Ordinal) { free })).Plans[0];
        Assert.Contains(other.Marks, m => m.Place.Name == "W5" && m.Kind == WeldPlace.FinalFit);
        Assert.DoesNotContain(other.Marks, m => m.Place.Name == free);
        Assert.Contains("There is no place W99", Split.Of(fabrication, new(Forbidden: new HashSet<string>(StringComparer.Ordinal) { "W99" })).Say[0], StringComparison.Ordinal);
    }

    [Fact]
    public void Where_nothing_fits_the_part_that_does_not_is_named()
    {
        var line = new Line(["east 1500 elbow", "north 1500 flange"], "envelope: {length: 150, width: 150, height: 150, mass: 500}");
        var split = Split.Of(Given.Packet(line.Bare).Fabrication, new());
        Assert.Empty(split.Plans);
        Assert.Contains("the envelope is 150 x 150 x 150", split.Say[0], StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("chilled-supply")]
    [InlineData("sea-water")]
    [InlineData("recirculation")]
    [InlineData("pump-suction")]
    public void Written_marks_read_back_as_the_plan_and_every_comment_stays(string name)
    {
        var sample = SampleFile.All.First(s => s.Name == name);
        var reading = sample.Read();
        var rules = reading.Drawing!.Shop.Split with { Every = 400 };
        var text = DrawingText.Of(sample.Text, sample.Name + ".yaml");
        var shop = reading.Drawing.Shop with { EnvelopeLength = 2500, EnvelopeMass = 400 };
        var packet = Packet.Of(reading.Drawing with { Shop = shop });
        // Two new welds on one leg are pinned, so that a leg is parted twice.
        var leg = Split.Of(packet.Fabrication, new(Free: true) { Rules = rules }).Places.Where(p => p.Along is not null).GroupBy(p => (p.Run, p.Leg)).First(g => g.Count() > 1).ToList();
        var pins = new Dictionary<string, WeldPlace>(StringComparer.Ordinal) { [leg[0].Name] = WeldPlace.Field, [leg[^1].Name] = WeldPlace.Field };
        var split = Split.Of(packet.Fabrication, new(Free: true, pins) { Rules = rules });
        Assert.NotEmpty(split.Plans);
        var plan = split.Plans[0];
        Assert.Equal(2, plan.Marks.Count(m => m.Place.Along is not null && pins.ContainsKey(m.Place.Name)));
        var made = SplitWriting.Write(text, reading.Drawing, plan, takeOut: true);
        Assert.Null(made.Refusal);
        Assert.Equal(sample.Text.Split('\n').Where(l => l.Contains('#', StringComparison.Ordinal)).Select(l => l[l.IndexOf('#', StringComparison.Ordinal)..].Trim()),
            made.Text.Split('\n').Where(l => l.Contains('#', StringComparison.Ordinal)).Select(l => l[l.IndexOf('#', StringComparison.Ordinal)..].Trim()));
        var read = made.Read(b => File.ReadAllBytes(Path.Combine(sample.Folder, b)));
        Assert.True(read.Drawing is not null, string.Join("; ", read.Errors.Select(e => e.Message)) + made.Text);
        var again = Packet.Of(read.Drawing with { Shop = shop });
        // The line ends where it did, its welds stand where the plan has them, and the spools weigh and measure what it says.
        Assert.DoesNotContain(again.Findings, f => f is { Severity: Severity.Stop });
        var marked = again.Fabrication.Route.Joints.Where(j => j.IsWeld && j.Place != WeldPlace.Shop && j.Between.Count == 2).ToList();
        Assert.Equal(plan.Marks.Count, marked.Count);
        foreach (var mark in plan.Marks)
            Assert.Contains(marked, j => j.At.To(mark.Place.At) < 2 && j.Place == mark.Kind);
        Assert.Equal(plan.Spools.Count, again.Fabrication.Spools.Count);
        var masses = again.Fabrication.Spools.Select(s => s.Mass).Order().ToList();
        Assert.All(plan.Spools.Select(s => s.Mass).Order().Zip(masses), p => Assert.Equal(p.Second, p.First, 0.5));
    }

    [Fact]
    public void The_json_is_the_contract_of_the_site_papers()
    {
        var packet = SampleFile.All.First(s => s.Name == "sea-water").Packet();
        var buffer = new ArrayBufferWriter<byte>();
        using (var json = new Utf8JsonWriter(buffer))
            SplitJson.Write(json, Split.Of(packet.Fabrication, new(Free: true)), packet.Drawing);
        using var read = JsonDocument.Parse(buffer.WrittenMemory);
        var plan = read.RootElement.GetProperty("plans")[0];
        Assert.True(plan.GetProperty("proven").GetBoolean());
        var marks = plan.GetProperty("marks");
        Assert.Equal("intake", marks[0].GetProperty("run").GetString());
        Assert.Equal(0, marks[0].GetProperty("leg").GetInt32());
        Assert.Equal(501.6, marks[0].GetProperty("weld").GetDouble(), 1e-6);
        Assert.Equal("final-fit", marks[0].GetProperty("end").GetString());
        Assert.Equal("final-fit", marks[1].GetProperty("begin").GetString());
        Assert.Equal(3, plan.GetProperty("spools")[0].GetProperty("box").GetArrayLength());
        Assert.True(plan.GetProperty("spools")[0].GetProperty("mass").GetDouble() > 1);
    }
}
