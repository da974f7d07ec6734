using System.Globalization;
using System.Text;
using BenchmarkDotNet.Attributes;
using Rootgap.Drawings;
using Rootgap.Fabricating;
using Rootgap.Packets;
using Rootgap.Site;
using Rootgap.Site.Erection;
using Rootgap.Site.Forecasting;
using Rootgap.Site.Splitting;

namespace Rootgap.Bench.Site;

/// <summary>
/// Planning for the site on one core. Aims: the forecast of a line with 40 joints and 10,000 draws under 1 s; the split of a line with 60 candidate places, two
/// branches among them, proven under 5 s.
/// </summary>
[MemoryDiagnoser]
public class SitePlanningBench
{
    private Fabrication _joints = null!;
    private Fabrication _places = null!;
    private Fabrication _ring = null!;

    /// <summary>One way with 40 joints to the final-fit weld: 20 spools bolted and welded, one after another.</summary>
    public static Fabrication FortyJoints()
    {
        var legs = new StringBuilder();
        string[] ways = ["north", "east"];
        for (var i = 0; i < 19; i++)
            legs.Append(CultureInfo.InvariantCulture, $"      - {{go: {ways[i % 2]}, by: 2500, to: elbow, begin: {(i % 2 == 0 ? "shop" : "field")}, end: field}}\n");
        legs.Append("      - {go: east, by: 2500, to: elbow, end: final-fit}\n      - {go: north, by: 1500, to: flange}\n");
        return Of("envelope: {length: 9000, width: 2400, height: 2400, mass: 3000}", legs.ToString(), "");
    }

    /// <summary>A header with two branches: 60 places where it may be parted.</summary>
    public static Fabrication SixtyPlaces()
    {
        const string main = """
                  - {go: north, by: 4600, to: elbow}
                  - {go: east, by: 3600, to: tee, name: A, branch: up}
                  - {go: east, by: 4100, to: elbow}
                  - {go: up, by: 3100, to: elbow}
                  - {go: east, by: 3100, to: tee, name: C, branch: north}
                  - {go: east, by: 2600, to: flange}

            """;
        const string branches = """
              - run: first
                start: {from: A}
                legs:
                  - {go: up, by: 2600, to: elbow}
                  - {go: north, by: 3100, to: flange}
              - run: second
                start: {from: C}
                legs:
                  - {go: north, by: 2100, to: elbow}
                  - {go: down, by: 1600, to: flange}

            """;
        return Of("envelope: {length: 6000, width: 2400, height: 2400, mass: 900}", main, branches);
    }

    /// <summary>A header with a welded bypass round it: a ring with some 50 of its 58 places.</summary>
    public static Fabrication Ring()
    {
        const string main = """
                  - {go: east, by: 4600, to: tee, branch: north, name: A}
                  - {go: east, by: 6400, to: tee, branch: north, name: C}
                  - {go: east, by: 2700, to: flange}

            """;
        const string bypass = """
              - run: bypass
                start: {from: A}
                legs:
                  - {go: north, by: 3600, to: elbow}
                  - {go: east, by: 6400, to: elbow}
                  - {go: south, by: 3600, to: tie-in, with: C}

            """;
        return Of("envelope: {length: 6000, width: 2400, height: 2400, mass: 900}", main, bypass);
    }

    private static Fabrication Of(string shop, string legs, string runs)
    {
        var text = $"drawing: BENCH\nline: {{size: 6, schedule: 40, class: 150, gasket: 3.2}}\nshop: {{{shop}}}\nruns:\n  - run: main\n    start: {{to: flange, at: {{up: 600}}}}\n    legs:\n{legs}{runs}";
        var reading = DrawingReader.Read(text, "bench.yaml");
        return Packet.Of(reading.Drawing ?? throw new InvalidOperationException(string.Join('\n', reading.Errors.Select(e => e.Message)))).Fabrication;
    }

    [GlobalSetup]
    public void Setup()
    {
        _joints = FortyJoints();
        _places = SixtyPlaces();
        _ring = Ring();
        var plan = Rootgap.Site.Splitting.Split.Of(_places, new()).Plans[0];
        Console.WriteLine(string.Create(CultureInfo.InvariantCulture,
            $"forecast: {_joints.Route.Joints.Count} joints, {new LineMap(_joints.Route).To(_joints.Route.Joints.First(j => j.Place == WeldPlace.FinalFit), second: false)!.Joints.Count} on the way; split: {Rootgap.Site.Splitting.Split.PlacesIn(_places, _places.Route.Drawing.Shop.Split).Count} places, proven {plan.IsProven}, cost {plan.Cost}"));
    }

    [Benchmark(Description = "forecast, 40 joints, 10,000 draws")]
    public double Forecast10000() => Forecast.Of(_joints, new()).Closings[0].ExtraNeeded;

    [Benchmark(Description = "the same as the desk check wants it")]
    public double ForecastAtDesk() => Forecast.Of(_joints, new(Draws: 0) { Chances = false }).Closings[0].ExtraNeeded;

    [Benchmark(Description = "split, 60 places")]
    public double Split() => Rootgap.Site.Splitting.Split.Of(_places, new()).Plans[0].Cost;

    [Benchmark(Description = "split, 60 places, all directions")]
    public double SplitAll() => Rootgap.Site.Splitting.Split.Of(_places, new() { Rules = _places.Route.Drawing.Shop.Split with { AllDirections = true } }).Plans[0].Cost;

    [Benchmark(Description = "split, a ring")]
    public bool SplitRing() => Rootgap.Site.Splitting.Split.Of(_ring, new()).Plans[0].IsProven;

    [Benchmark(Description = "order of erection")]
    public int Erection() => ErectionOrder.Of(SiteLine.Of(_joints)).Count;
}
