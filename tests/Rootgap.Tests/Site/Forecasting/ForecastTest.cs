using System.Buffers;
using System.Text.Json;
using CsCheck;
using Rootgap.FitUp;
using Rootgap.Measure;
using Rootgap.Site.Forecasting;
using Rootgap.Tests.Samples;
using static Rootgap.Tests.Site.Forecasting.ChainByHand;

namespace Rootgap.Tests.Site.Forecasting;

/// <summary>The forecast against closed forms of tolerance chains (variance of a sum of levers) and against a Monte Carlo written apart.</summary>
[Trait("pace", "slow")]
public class ForecastTest
{
    private static readonly ForecastAsked Quick = new(Draws: 4000) { Chances = false };

    private static Fabricating.Fabrication Sample(string name) => SampleFile.All.First(s => s.Name == name).Packet().Fabrication;

    /// <summary>Five pieces of 1860 mm in one line between two existing pipes, all errors nought but the given.</summary>
    private static Fabricating.Fabrication Straight(string forecast) => Given.Packet($$$"""
        drawing: T-5
        line: {size: 6, schedule: 40}
        shop: {root gap: 0}
        forecast: {{{forecast}}}
        runs:
          - run: main
            start: {to: weld}
            legs:
              - {go: east, by: 1860, to: weld, begin: field, end: field}
              - {go: east, by: 1860, to: weld, end: field}
              - {go: east, by: 1860, to: weld, end: field}
              - {go: east, by: 1860, to: weld, end: field}
              - {go: east, by: 1860, to: weld, end: field}
        """).Fabrication;

    private const string Nought = "other: {position: 0, angle: 0}, shrinkage: 0, valve: 0, fitting: 0, flange: 0, reducer: 0";

    [Fact]
    public void Five_straight_legs_come_out_as_the_closed_form_says()
    {
        // Closed form: lateral variance = sum of (b^2/3) (distance to the end)^2, axial n limit^2/3. Five legs, 9.3 m, 3 mm a leg, 0.22 degree about two axes at
        // the start of each: axial 95 % 7.5, lateral sd 30.6 in each direction, resultant 50 % 37 and 95 % 72.
        var fabrication = Straight("{" + Nought + ", cut: 3, weld: {hi-lo: 0, gap: 0, angle: 0.22, roll: 0}}");
        var loop = Assert.Single(Forecast.Of(fabrication, new(AsWelded: true, Draws: 20_000)).Rigid);
        var b = 0.22 * Degree;
        var lateral = Math.Sqrt(Enumerable.Range(1, 5).Sum(i => b * b / 3 * 1860 * i * 1860 * i));
        Assert.Equal(30.6, lateral, 0.05);
        Assert.Equal(lateral, loop.FirstOrder.X, 0.001);
        Assert.Equal(lateral, loop.FirstOrder.Y, 0.001);
        Assert.Equal(Math.Sqrt(5 * 3.0 * 3 / 3), loop.FirstOrder.Z, 0.001);
        Assert.Equal(7.5, loop.Length95, 0.25);
        Assert.Equal(1, loop.Draws!.Value.X / lateral, 0.03);
        Assert.Equal(1, loop.Draws.Value.Y / lateral, 0.03);
        Assert.Equal(1, loop.Draws.Value.Z / Math.Sqrt(15), 0.03);
        Assert.Empty(loop.WhyNot);
    }

    [Fact]
    public void The_spread_of_a_thing_outside_turns_by_its_lever()
    {
        // Closed form: a turn of 1 degree (sd) at one end of a lever of 9300 stands 9300 tan 1 = 162 off at the other; a place stays what it is.
        var fabrication = Straight("{other: {position: {normal: 2}, angle: {normal: 1}}, shrinkage: 0, spool: {position: 0, angle: 0}, weld: {hi-lo: 0, gap: 0, angle: 0, roll: 0}}");
        var loop = Assert.Single(Forecast.Of(fabrication, Quick).Rigid);
        Assert.Equal(Math.Sqrt(2 * 2 * 2), loop.FirstOrder.Z, 1e-6);
        Assert.Equal(Math.Sqrt((9300 * Degree * 9300 * Degree) + 8), loop.FirstOrder.X, 1e-6);
        Assert.Equal(Degree * Math.Sqrt(2), loop.FirstOrder.Rz, 1e-9);
    }

    [Fact]
    public void A_checked_discharge_line_agrees_with_a_chain_worked_by_hand()
    {
        // CHW-201, weld W15 between the pump (B1) and the exchanger (B6); places read off the packet, limits: B16.5 NPS 6 class 150 (hole 22.2, bolt 19.05, circle
        // 241.3, outside 280), PFI ES-3, B16.10, and those of docs/forecast.md.
        double[] p1 = [4200, 1500, 848.4], p2 = [4200, 1500, 1370.4], p3 = [4200, 1500, 1729.6], p4 = [4200, 1500, 2120.4], p5 = [4200, 1500, 2179.6], w11 = [4200, 5103.4, 3050], w15 = [4620, 8269.4, 3610], p6 = [2518.4, 8500, 3610];
        var (up, north, west) = (Clock(0, 0, 1), Clock(0, 1, 0), Clock(-1, 0, 0));
        var first = new ChainByHand(11);
        Other(first, p1, up);
        Bolted(first, p1, up);
        Spool(first, p2, up);
        Bolted(first, p2, up);
        first.Then([4200, 1500, 1550], up, z: 1.6);
        Bolted(first, p3, up);
        Spool(first, p4, up);
        Bolted(first, p4, up);
        first.Then([4200, 1500, 2150], up, z: 1.6);
        Bolted(first, p5, up);
        Spool(first, w11, north);
        first.Then(w11, north, 1.5, 1.5, 0.8, 0.22 * Degree, 0.22 * Degree, 0.22 * Degree).Then(w11, north, z: 0.8);
        first.Then(w15, north, 3, 3, 0, 0.22 * Degree, 0.22 * Degree);
        var second = new ChainByHand(12);
        Other(second, p6, west);
        Bolted(second, p6, west);
        Spool(second, w15, north);
        Agrees(Forecast.Of(Sample("chilled-supply"), new(Draws: 10_000) { Chances = false }).Closings[0], "W15", Deviations(first, second, w15, north, 20_000));
    }

    private static void Other(ChainByHand chain, double[] at, double[][] axes) => chain.Then(at, axes, 3, 3, 3, 0.3 * Degree, 0.3 * Degree, 0.3 * Degree);

    private static void Bolted(ChainByHand chain, double[] at, double[][] axes)
    {
        var half = (22.2 - 19.05) / 2;
        chain.Then(at, axes, half, half, 0, 0.5 / 280, 0.5 / 280, Math.Min(half / (241.3 / 2), 0.22 * Degree));
    }

    private static void Spool(ChainByHand chain, double[] at, double[][] axes) => chain.Then(at, axes, 3, 3, 3, 0.22 * Degree, 0.22 * Degree);

    private static void Agrees(ForecastClosing closing, string joint, double[] byHand)
    {
        Assert.Equal(joint, closing.Opening.Joint.Id);
        for (var k = 0; k < 6; k++)
        {
            Assert.True(Math.Abs((closing.Opening.FirstOrder[k] / byHand[k]) - 1) < 0.05, $"{PoseError.Names[k]}: first order {closing.Opening.FirstOrder[k]}, by hand {byHand[k]}");
            Assert.True(Math.Abs((closing.Opening.Draws!.Value[k] / byHand[k]) - 1) < 0.05, $"{PoseError.Names[k]}: draws {closing.Opening.Draws.Value[k]}, by hand {byHand[k]}");
        }
    }

    [Fact]
    public void An_unchecked_line_with_elbows_agrees_with_a_chain_worked_by_hand()
    {
        // Flange, pipe, elbow, pipe, elbow, pipe (extra), elbow, pipe, flange: NPS 4 schedule 40, no root gap. Elbow radius 152.4 (B16.9), flange length 76 (B16.5),
        // hole 19.05 (from 3/4) and bolt 15.875, circle 190.5, outside 230 (B16.5 NPS 4 class 150).
        var fabrication = Given.Packet("""
            drawing: T-4
            line: {size: 4, schedule: 40, class: 150, gasket: 3.2}
            shop: {root gap: 0}
            runs:
              - run: main
                start: {to: flange, at: {up: 0}}
                legs:
                  - {go: up, by: 1500, to: elbow}
                  - {go: east, by: 2500, to: elbow}
                  - {go: north, by: 3500, to: elbow, end: final-fit}
                  - {go: east, by: 1200, to: flange}
            """).Fabrication;
        var closing = Assert.Single(Forecast.Of(fabrication, new(AsWelded: true, Draws: 10_000) { Chances = false }).Closings);
        const double radius = 152.4, through = 76.2;
        var (up, east, north) = (Clock(0, 0, 1), Clock(1, 0, 0), Clock(0, 1, 0));
        var first = new ChainByHand(21);
        Start(first, [0, 0, -1.6], up);
        first.Then([0, 0, 0], up, z: 1.6);
        Weld(first, [0, 0, through], up);
        first.Then([0, 0, 700], up, z: 1);
        Weld(first, [0, 0, 1500 - radius], up, ends: true);
        first.Then([0, 0, 1500], up, z: 2).Then([0, 0, 1500], east, z: 2);
        Weld(first, [radius, 0, 1500], east);
        first.Then([1000, 0, 1500], east, z: 1);
        Weld(first, [2500 - radius, 0, 1500], east, ends: true);
        first.Then([2500, 0, 1500], east, z: 2).Then([2500, 0, 1500], north, z: 2);
        Weld(first, [2500, radius, 1500], north);
        double[] at = [2500, 3500 - radius, 1500];
        var second = new ChainByHand(22);
        Start(second, [3701.6, 3500, 1500], east);
        second.Then([3700, 3500, 1500], east, z: 1.6);
        Weld(second, [3700 - through, 3500, 1500], east);
        second.Then([3000, 3500, 1500], east, z: 1);
        Weld(second, [2500 + radius, 3500, 1500], east);
        second.Then([2500, 3500, 1500], east, z: 2).Then([2500, 3500, 1500], north, z: 2);
        Agrees(closing, closing.Opening.Joint.Id, Deviations(first, second, at, north, 20_000));

        static void Start(ChainByHand chain, double[] at, double[][] axes)
        {
            Other(chain, at, axes);
            chain.Then(at, axes, 1.5875, 1.5875, 0, 0.5 / 230, 0.5 / 230, Math.Min(1.5875 / 95.25, 0.22 * Degree));
        }

        static void Weld(ChainByHand chain, double[] at, double[][] axes, bool ends = false) =>
            chain.Then(at, axes, 1.5, 1.5, 0.8, 0.22 * Degree, 0.22 * Degree, ends ? 0.22 * Degree : 0).Then(at, axes, z: 0.8);
    }

    [Fact]
    public void A_levelled_spool_keeps_no_tilt_of_what_came_before()
    {
        // Closed form: with a level on spool 1 the tilt that outer things bring is gone, and +-0.1 degree (sd 0.1/root 3) over the lever of 1860 is left; its place stays.
        const string only = "{other: {position: 0, angle: 1}, shrinkage: 0, spool: {position: 0, angle: 0}, weld: {hi-lo: 0, gap: 0, angle: 0, roll: 0}";
        var loop = Assert.Single(Forecast.Of(Straight(only + ", level: [spool 2]}"), Quick).Rigid);
        // East is the pipe: up (y) moves by tilts about north, level; x by turns about the upright, not level.
        var b = Degree / Math.Sqrt(3);
        var (level, far) = (0.1 * b * 4 * 1860, b * 1860);
        Assert.Equal(Math.Sqrt((level * level) + (far * far)), loop.FirstOrder.Y, 1e-6);
        Assert.Equal(b * 9300, loop.FirstOrder.X, 1e-6);
        Assert.Equal(1, loop.Draws!.Value.Y / loop.FirstOrder.Y, 0.05);
        var inLine = Assert.Single(Forecast.Of(Straight(only + ", in line: [spool 2]}"), Quick).Rigid);
        Assert.Equal(b * 9300, inLine.FirstOrder.Y, 1e-6);
        Assert.Equal(Math.Sqrt((level * level) + (far * far)), inLine.FirstOrder.X, 1e-6);
        Assert.Contains(inLine.Shares, s => s is { At: "in line 2", Error: "in line" });
    }

    [Fact]
    public void A_ring_cares_only_for_what_is_out_within_it()
    {
        // Both sides of the ring's weld hang on the same nozzle: what the nozzle is out moves both alike, and nothing of it shows in the opening.
        var fabrication = Given.Packet("""
            drawing: T-6
            line: {size: 4, schedule: 40, class: 150, gasket: 3.2}
            runs:
              - run: main
                start: {to: flange, at: {up: 0}}
                legs:
                  - {go: east, by: 1000, to: tee, name: A, branch: north}
                  - {go: east, by: 2000, to: tee, name: Z, branch: north}
                  - {go: east, by: 500, to: cap}
              - run: ring
                start: {from: A}
                legs:
                  - {go: north, by: 1500, to: elbow}
                  - {go: east, by: 2000, to: elbow, end: final-fit}
                  - {go: south, by: 1500, to: tie-in, with: Z}
            """).Fabrication;
        var closing = Assert.Single(Forecast.Of(fabrication, new(AsWelded: true, Draws: 2000) { Chances = false }).Closings);
        Assert.DoesNotContain(closing.Opening.Shares, s => s.At.EndsWith("of other", StringComparison.Ordinal));
        Assert.Equal(["B1", "B1"], closing.Opening.From.Select(j => j.Id));
        Assert.True(closing.Opening.FirstOrder.Z > 1);
    }

    [Fact]
    public void A_spool_that_was_measured_stands_where_it_was_found_and_both_are_told()
    {
        // Closed form: spool 2's far end is 4 up and turned 0.1 degree about the upright by measurement; three more pieces of 1860 follow, so the end stands
        // 5580 x 0.1 degree = 9.74 to the side, and 4 up. Nothing else is out.
        const string nought = "{other: {position: 0, angle: 0}, shrinkage: 0, spool: {position: 0, angle: 0}, weld: {hi-lo: 0, gap: 0, angle: 0, roll: 0}}";
        var turned = 0.1 * Degree;
        var built = new Dictionary<string, (PoseError, PoseError)>(StringComparer.Ordinal) { ["W3 of 2"] = (new(0, 4, 1.5, 0, turned, 0), new(0, 0.2, 0.1, 0, 0, 0)) };
        var forecast = Forecast.Of(Straight(nought), Quick with { AsBuilt = built });
        var loop = Assert.Single(forecast.Rigid);
        // The opening is the second side, what stands outside, against the first: it stands lower by what the line stands higher, and is narrower by what it is longer.
        Assert.Equal(-4, loop.Known.Y, 1e-9);
        Assert.Equal(-1.5, loop.Known.Z, 1e-9);
        Assert.Equal(5580 * turned, Math.Abs(loop.Known.X), 1e-6);
        Assert.Equal(0.2, loop.FirstOrder.Y, 1e-9);
        Assert.Equal(0, Assert.Single(forecast.AsDrawn!.Rigid).Length95, 1e-9);
        // Measured at its near end instead: the spool is set by that end, and all of it stands the other way.
        var near = new Dictionary<string, (PoseError, PoseError)>(StringComparer.Ordinal) { ["W2 of 2"] = (new(0, 4, 0, 0, 0, 0), default), ["W3 of 2"] = (default, default) };
        Assert.Equal(4, Assert.Single(Forecast.Of(Straight(nought), Quick with { AsBuilt = near }).Rigid).Known.Y, 1e-9);
    }

    [Fact]
    public void Shares_of_each_figure_add_to_one()
    {
        foreach (var closing in Forecast.Of(Sample("sea-water"), Quick).Closings)
        {
            foreach (var of in PoseError.Names)
                Assert.Equal(1, closing.Opening.Shares.Where(s => s.Of == of).Sum(s => s.Share), 0.005);
        }
    }

    [Fact]
    public void The_same_seed_draws_the_same_lines_and_another_does_not()
    {
        var sample = Sample("recirculation");
        Assert.Equal(Forecast.Of(sample, Quick).Closings[0].Opening.Draws, Forecast.Of(sample, Quick).Closings[0].Opening.Draws);
        Assert.NotEqual(Forecast.Of(sample, Quick).Closings[0].Opening.Draws, Forecast.Of(sample, Quick with { Seed = 2 }).Closings[0].Opening.Draws);
    }

    [Fact]
    public void The_extra_needed_is_the_99th_hundredth_of_what_is_too_short()
    {
        // Closed form: the one error is a normal opening of sd 10 along the pipe (both outer things, 7.07 each); its 99 % point is 2.3263 sd = 23.3.
        var fabrication = Given.Packet("""
            drawing: T-7
            line: {size: 6, schedule: 40}
            shop: {root gap: 0}
            forecast: {other: {position: {normal: 7.0711}, angle: 0}, shrinkage: 0, spool: {position: 0, angle: 0}, weld: {hi-lo: 0, gap: 0, angle: 0, roll: 0}}
            runs:
              - run: main
                start: {to: weld}
                legs:
                  - {go: east, by: 2000, to: weld, begin: field, end: final-fit}
                  - {go: east, by: 2000, to: weld, end: field}
            """).Fabrication;
        var closing = Assert.Single(Forecast.Of(fabrication, new(Draws: 40_000)).Closings);
        Assert.Equal(10, closing.Opening.FirstOrder.Z, 0.001);
        Assert.Equal(23.3, closing.ExtraNeeded, 0.6);
        Assert.Equal(19.6, closing.Opening.Length95, 0.3);
    }

    [Fact]
    public void Every_sample_has_draws_that_agree_with_its_first_order()
    {
        foreach (var sample in SampleFile.Clean)
        {
            var forecast = Forecast.Of(sample.Packet().Fabrication, new(Draws: 3000) { Chances = false });
            foreach (var opening in forecast.Closings.Select(c => c.Opening).Concat(forecast.Rigid))
                Assert.True(opening.WhyNot.Length == 0, $"{sample}: {opening.Joint.Id}: {opening.WhyNot}");
        }
    }

    [Fact]
    public void Random_lines_agree_between_first_order_and_draws() =>
        Gen.Select(Gen.Int[300, 4000].Array[4], Gen.Int[0, 3].Array[4], Gen.Bool).Holds((by, way, asWelded) =>
        {
            string[] ways = ["north", "east", "up", "south"];
            var legs = new List<string>();
            for (var i = 0; i < 4; i++)
            {
                var go = i % 2 == 0 ? ways[way[i]] : way[i] % 2 == 0 ? (ways[way[i - 1]] is "east" ? "up" : "east") : ways[way[i - 1]] is "up" ? "north" : "up";
                if (i > 0 && i % 2 == 0 && legs[i - 1].Contains(" " + go + ",", StringComparison.Ordinal))
                    go = go is "up" ? "east" : "up";
                if (i > 0 && (go, legs[i - 1]) is ("south", var before) && before.Contains(" north,", StringComparison.Ordinal))
                    go = "east";
                legs.Add($"{{go: {go}, by: {by[i] + 700}, to: {(i == 3 ? "flange" : "elbow")}{(i == 2 ? ", end: final-fit" : i == 1 ? ", end: field" : "")}}}");
            }

            if (Enumerable.Range(1, 3).Any(i => Go(legs[i]) == Go(legs[i - 1])))
                return;
            var fabrication = Given.Run("mm", "size: 4, schedule: 40, class: 150", "root gap: 3", "flange", [.. legs]).Fabrication;
            var forecast = Forecast.Of(fabrication, new(asWelded, 3000) { Chances = false });
            Assert.All(forecast.Closings, c => Assert.Equal("", c.Opening.WhyNot));
            // The 99 % point of 3,000 draws is itself within 3 % by chance (one deviation).
            var quick = Forecast.Of(fabrication, new(asWelded, Draws: 0) { Chances = false });
            Assert.All(forecast.Closings.Zip(quick.Closings), c => Assert.Equal(c.First.ExtraNeeded, c.Second.ExtraNeeded, 0.5 + (0.12 * c.First.ExtraNeeded)));
        }, iter: 40, threads: 1);

    [Theory]
    [InlineData("sea-water")]
    [InlineData("pump-suction")]
    [InlineData("recirculation")]
    public void What_the_desk_check_takes_for_the_extra_needed_is_what_forty_thousand_lines_need(string sample)
    {
        var fabrication = Sample(sample);
        foreach (var asWelded in (bool[])[false, true])
        {
            var quick = Forecast.Of(fabrication, new(asWelded, Draws: 0) { Chances = false }).Closings;
            Assert.NotEmpty(quick);
            Assert.All(Forecast.Of(fabrication, new(asWelded, Draws: 40_000) { Chances = false }).Closings.Zip(quick), c => Assert.Equal(c.First.ExtraNeeded, c.Second.ExtraNeeded, 0.04 * c.First.ExtraNeeded));
        }
    }

    private static string Go(string leg) => leg.Split(' ')[1];

    [Fact]
    public void What_matters_is_told_in_a_fitters_words_and_in_the_drawings_units()
    {
        var forecast = Forecast.Of(Sample("pump-suction"), new(Draws: 500));
        var say = string.Join('\n', new ForecastWords(Units.Inches).Of(forecast));
        Assert.DoesNotMatch(@"\b(r[xyz]|outside [xyz]) ", say);
        Assert.DoesNotContain("of other", say, StringComparison.Ordinal);
        Assert.Contains("how what is outside is turned at B1", say, StringComparison.Ordinal);
        // 100 mm of the shop's rule left on, to the next sixteenth.
        Assert.Contains("the 3 15/16\" left on takes it", say, StringComparison.Ordinal);
        foreach (var (sample, asWelded) in from s in (string[])["chilled-supply", "sea-water", "recirculation", "oxygen"] from w in (bool[])[false, true] select (s, w))
        {
            var other = Forecast.Of(Sample(sample), new(asWelded, Draws: 0) { Chances = false });
            Assert.All(other.Closings.Select(c => c.Opening).Concat(other.Rigid), o => Assert.All(PoseError.Names, of => Assert.All(ForecastWords.Matters(o, of, 0), m => Assert.DoesNotMatch(@"\b(spool spool|r[xyz]|other)\b", m.What))));
        }

        // Shares of one cause are one: what is left out is under a tenth.
        var opening = forecast.Closings.Single().Opening;
        Assert.All(PoseError.Names, of => Assert.Equal(opening.Shares.Where(s => s.Of == of).Sum(s => s.Share), ForecastWords.Matters(opening, of, 0).Sum(s => s.Share), 1e-9));
    }

    [Fact]
    public void The_json_is_the_contract_of_the_site_papers()
    {
        var buffer = new ArrayBufferWriter<byte>();
        using (var json = new Utf8JsonWriter(buffer))
            ForecastJson.Write(json, Forecast.Of(Sample("sea-water"), new(Draws: 500)), Units.Millimetres);
        using var read = JsonDocument.Parse(buffer.WrittenMemory);
        var root = read.RootElement;
        Assert.Equal("checked", root.GetProperty("spools").GetString());
        var closing = root.GetProperty("closings")[0];
        Assert.Equal("W11", closing.GetProperty("joint").GetString());
        Assert.Equal(["W1", "B4"], closing.GetProperty("from").EnumerateArray().Select(e => e.GetString()!));
        foreach (var six in (string[])["first-order", "draws"])
            Assert.Equal(PoseError.Names, closing.GetProperty(six).EnumerateObject().Select(p => p.Name));
        Assert.Equal(100, closing.GetProperty("extra").GetDouble());
        Assert.InRange(closing.GetProperty("closes").GetDouble(), 0, 1);
        Assert.True(closing.GetProperty("extra needed").GetDouble() > closing.GetProperty("length 95").GetDouble());
        var rigid = root.GetProperty("rigid")[0];
        Assert.Equal(["W1", "B6"], rigid.GetProperty("between").EnumerateArray().Select(e => e.GetString()!));
        Assert.Equal("B6", rigid.GetProperty("joint").GetString());
        // Angles are degrees in files: a nozzle's 0.3 degree is not 0.005.
        Assert.InRange(closing.GetProperty("first-order").GetProperty("rx").GetDouble(), 0.1, 3);
    }
}
