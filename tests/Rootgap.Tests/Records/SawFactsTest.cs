using System.Globalization;
using System.Text;
using System.Text.Json;
using Rootgap.Cutting;
using Rootgap.Findings;
using Rootgap.Packets;
using Rootgap.Records;
using Rootgap.Tests.Cutting;
using static Rootgap.Tests.Records.FactGens;

namespace Rootgap.Tests.Records;

/// <summary>What was entered in the app at the saw feeds the next plan. The arithmetic of each case stands beside it.</summary>
public class SawFactsTest
{
    private const string Stock = "rack.yaml";

    private static readonly PipeKind Pipe = PipeKind.Of("6", "40", "A106-B");

    private static readonly Rack Bars = new([new StockBar("R", Pipe, 6000, 2, StockSource.OnHand), new StockBar("O", Pipe, 2500, 1, StockSource.Remnant)], new CuttingRules());

    private static readonly Packet Line = Drawn("A-1", 900, 1500, 1200);

    // A line that turns at each end of a leg: a piece of pipe a leg.
    private static Packet Drawn(string number, params int[] legs) => Given.Packet($$"""
        drawing: {{number}}
        line: {size: 6, schedule: 40, class: 150, material: A106-B}
        runs:
          - run: main
            start: {to: flange}
            legs:
              - {{string.Join("\n      - ", legs.Select((l, i) => string.Create(CultureInfo.InvariantCulture, $"{{go: {(i % 2 == 0 ? "east" : "north")}, by: {l}, to: {(i == legs.Length - 1 ? "flange" : "elbow")}}}")))}}
        """);

    private static List<Piece> PiecesOf(Packet packet) => [.. Pieces.Of(packet.Fabrication, packet.Drawing.Number)];

    private static SawLog Log(Rack rack, List<Finding> findings, IEnumerable<Packet> drawings, params IEnumerable<Fact> facts)
    {
        var job = JobRecord.Of(facts);
        return SawLog.Empty.With(SawFacts.Of(job, Stock, rack, drawings.Select(d => (new Following().Of(job, $"{d.Drawing.Number}.yaml", d.Fabrication, []), (IReadOnlyList<Piece>)PiecesOf(d))), findings));
    }

    private static int number;

    private static PieceCut Cut(Piece piece, string bar, double to, bool isSpoiled = false, string stock = Stock)
    {
        var n = Interlocked.Increment(ref number);
        return new(Id(n), "Jo", Noon.AddMinutes(n), new(piece.Drawing, ""), piece.Id) { From = bar.Length > 0 ? new(stock, bar, to) : null, IsSpoiled = isSpoiled };
    }

    private static BarNoted Note(string bar, bool isOut, string? heat = null)
    {
        var n = Interlocked.Increment(ref number);
        return new(Id(n), "Jo", Noon.AddMinutes(n), Stock, bar) { IsOut = isOut, Heat = heat };
    }

    // By hand, kerf 3: the remnant of 2500 first; of R#1 1000 are gone, so 5000 are left and a piece of 600 ends at 1000 + 3 + 600; R#2 is whole, its mill end is not trimmed here.
    [Fact]
    public void Bars_from_which_a_piece_may_be_cut_are_offered_with_what_is_left_and_where_it_would_end()
    {
        var piece = PiecesOf(Line)[0] with { Length = 600 };
        List<SawnBar> told = [new("R#1", "R", 1000, []) { Heat = "H7" }];
        Assert.Equal([("O", 2500, "", 600), ("R#1", 5000, "H7", 1603), ("R#2", 6000, "", 600)], BarOffer.Of(Bars, told, piece).Select(o => (o.Bar, o.Left, o.Heat, o.To)));
        // A full length has its mill end cut square first, a remnant has not; what is out or too short is not offered.
        var trimmed = Bars with { Rules = new CuttingRules { EndTrim = 10 } };
        Assert.Equal([("R#1", 3010.0)], BarOffer.Of(trimmed, [new("O", "O", 0, []) { IsOut = true }, new("R#2", "R", 4000, [])], piece with { Length = 3000 }).Select(o => (o.Bar, o.To)));
        Assert.Empty(BarOffer.Of(Bars, [], piece with { Pipe = PipeKind.Of("4", "40", "A106-B") }));
    }

    [Fact]
    public void A_piece_that_was_ticked_is_not_planned_again_and_the_rest_of_its_bar_is_stock()
    {
        var pieces = PiecesOf(Line);
        var findings = new List<Finding>();
        var log = Log(Bars, findings, [Line], Cut(pieces[0], "R#1", 800), Cut(pieces[1], "R#1", 2100));
        Assert.Empty(findings);
        Assert.Equal(pieces.Skip(2), log.Wanted(pieces, findings));
        // 2100 are gone with the kerf of 3 behind them: 6000 - 2100 - 3.
        Assert.Equal(("R#1 rest", 3897.0), (log.Left(Bars).Bars[0].Id, log.Left(Bars).Bars[0].Length));
        Assert.Equal(1, log.Left(Bars).Row("R")!.Left);
    }

    [Fact]
    public void A_spoiled_piece_is_wanted_again_and_its_steel_is_gone_and_a_tick_taken_back_was_none()
    {
        var pieces = PiecesOf(Line);
        var tick = Cut(pieces[0], "R#1", 800);
        Assert.Equal(pieces, Log(Bars, [], [Line], tick, Cut(pieces[0], "R#1", 800, isSpoiled: true)).Wanted(pieces, []));
        Assert.Equal(6000.0 - 803, Log(Bars, [], [Line], Cut(pieces[0], "R#1", 800, isSpoiled: true)).Left(Bars).Bars[0].Length);
        Assert.Equal(Bars.Bars, Log(Bars, [], [Line], tick, new Withdrawn(Id(9000), "Jo", Noon.AddHours(90), tick.Id, "not yet")).Left(Bars).Bars);
        // Cut again after that, from another bar: it is there once, and both bars are begun.
        var again = Log(Bars, [], [Line], tick, Cut(pieces[0], "R#1", 800, isSpoiled: true), Cut(pieces[0], "O", 700));
        Assert.Equal(pieces.Skip(1), again.Wanted(pieces, []));
        Assert.Equal(["O rest", "R#1 rest"], again.Left(Bars).Bars.Take(2).Select(b => b.Id));
        Assert.Single(again.Good);
    }

    [Fact]
    public void A_bent_bar_and_a_heat_found_are_known_and_can_be_taken_back()
    {
        var bent = Note("R#2", isOut: true);
        var log = Log(Bars, [], [Line], bent, Note("O", isOut: false, heat: "H77"));
        Assert.Equal("O H77, R ", string.Join(", ", log.Left(Bars).Bars.Select(b => $"{b.Id} {b.Heat}")));
        Assert.Equal(1, log.Left(Bars).Row("R")!.Left);
        Assert.Equal(2, Log(Bars, [], [Line], bent, new Withdrawn(Id(9001), "Jo", Noon.AddHours(90), bent.Id, "straight after all")).Left(Bars).Row("R")!.Left);
    }

    [Fact]
    public void The_heat_that_was_read_at_the_saw_goes_with_the_rest_and_the_remnant()
    {
        var pieces = PiecesOf(Line);
        var shop = new Rack([new StockBar("N", Pipe, 6000, null, StockSource.Buy)], new CuttingRules());
        var log = Log(shop, [], [Line], Cut(pieces[0], "N#1", 800) with { Heat = "K55" });
        Assert.Equal(("N#1 rest", "K55"), (log.Left(shop).Bars[0].Id, log.Left(shop).Bars[0].Heat));
        var plan = CuttingPlanner.Plan(log.Wanted(pieces, []), log.Left(shop), TimeSpan.FromMinutes(1), stop: TestContext.Current.CancellationToken);
        Assert.Equal("K55", Assert.Single(plan.RackAfter, b => b.Source == StockSource.Remnant).Heat);
        Assert.Equal("K56", Log(shop, [], [Line], Cut(pieces[0], "N#1", 800) with { Heat = "K55" }, new BarNoted(Id(9002), "Jo", Noon.AddHours(95), Stock, "N#1") { Heat = "K56" }).Left(shop).Bars[0].Heat);
    }

    [Fact]
    public void A_tick_that_is_taken_back_after_the_next_plan_was_made_leaves_nothing_behind()
    {
        var pieces = PiecesOf(Line);
        var tick = Cut(pieces[0], "R#1", 800);
        var log = Log(Bars, [], [Line], tick);
        var plan = Written(CuttingPlanner.Plan(log.Wanted(pieces, []), log.Left(Bars), TimeSpan.FromMinutes(1), stop: TestContext.Current.CancellationToken) with { Log = log });
        var now = Log(Bars, [], [Line], tick, new Withdrawn(Id(9003), "Jo", Noon.AddHours(90), tick.Id, "not yet")).Told;
        Assert.Equal(pieces, new SawReport().On(plan, Bars, now).Log!.Wanted(pieces, []));
        Assert.Equal(pieces.Skip(1), new SawReport().On(plan, Bars).Log!.Wanted(pieces, [])); // where the facts are not looked at, what the plan knew stays
    }

    [Fact]
    public void A_piece_cut_on_a_drawing_that_has_changed_is_wanted_again_and_its_steel_is_gone()
    {
        var old = PiecesOf(Line)[0];
        var now = Drawn("A-1", 1000, 1500, 1200);
        FileSaved Saved(int id, int first) => FileSaved.OfText(Id(id), "Jo", Noon.AddMinutes(id - 8000), "A-1.yaml", string.Create(CultureInfo.InvariantCulture, $$"""
            drawing: A-1
            line: {size: 6, schedule: 40, class: 150, material: A106-B}
            runs:
              - run: main
                start: {to: flange}
                legs:
                  - {go: east, by: {{first}}, to: elbow}
                  - {go: north, by: 1500, to: elbow}
                  - {go: east, by: 1200, to: flange}
            """), id == 8000 ? [] : [Id(8000)]);
        var cut = Cut(old, "R#1", 800) with { Versions = [Id(8000)] };
        var findings = new List<Finding>();
        var log = Log(Bars, findings, [now], Saved(8000, 900), Saved(8001, 1000), cut);
        Assert.Equal("cut-on-an-earlier-version", Assert.Single(findings).Rule);
        Assert.Equal(PiecesOf(now), log.Wanted(PiecesOf(now), []));
        Assert.Equal(6000.0 - 803, log.Left(Bars).Bars[0].Length);
        Assert.Equal(PiecesOf(Line).Skip(1), Log(Bars, [], [Line], Saved(8000, 900), Saved(8001, 1000), cut).Wanted(PiecesOf(Line), []));
    }

    [Fact]
    public void A_piece_that_a_new_revision_has_as_it_was_is_not_cut_again_before_the_revision_is_taken_to_the_shop()
    {
        var now = Given.Packet("""
            drawing: A-1
            revision: 2
            line: {size: 6, schedule: 40, class: 150, material: A106-B}
            runs:
              - run: main
                start: {to: flange}
                legs:
                  - {go: east, by: 900, to: elbow}
                  - {go: north, by: 1600, to: elbow}
                  - {go: east, by: 1200, to: flange}
            """);
        var before = FileSaved.OfText(Id(8000), "Jo", Noon.AddMinutes(-5), "A-1.yaml", """
            drawing: A-1
            line: {size: 6, schedule: 40, class: 150, material: A106-B}
            runs:
              - run: main
                start: {to: flange}
                legs:
                  - {go: east, by: 900, to: elbow}
                  - {go: north, by: 1500, to: elbow}
                  - {go: east, by: 1200, to: flange}
            """);
        var pieces = PiecesOf(Line);
        var findings = new List<Finding>();
        var log = Log(Bars, findings, [now], before, Cut(pieces[0], "R#1", 800) with { Versions = [Id(8000)] }, Cut(pieces[1], "R#1", 2100) with { Versions = [Id(8000)] });
        Assert.Equal(PiecesOf(now).Skip(1), log.Wanted(PiecesOf(now), []));
        Assert.Equal(pieces[1].FullName, Assert.Single(findings).At);
        Assert.Equal(6000.0 - 2103, log.Left(Bars).Bars[0].Length);
    }

    [Fact]
    public void What_the_facts_and_the_stock_file_do_not_agree_on_is_told()
    {
        var pieces = PiecesOf(Line);
        string Rules(params IEnumerable<Fact> facts)
        {
            var findings = new List<Finding>();
            var log = Log(Bars, findings, [Line], facts);
            Assert.Equal(pieces.Count - facts.OfType<PieceCut>().Select(f => f.Piece).Distinct(StringComparer.Ordinal).Count(), log.Wanted(pieces, []).Count);
            Assert.True(log.Left(Bars).Bars.Count > 0);
            return string.Join(' ', findings.Select(f => f.Rule));
        }

        Assert.Equal("cut-from-no-bar", Rules(Cut(pieces[0], "", 0)));
        Assert.Equal("", Rules(Cut(pieces[0], "R#1", 800, stock: "other.yaml"))); // of another rack: nothing of this one is gone
        Assert.Equal("", Rules(Cut(pieces[0], "R9", 800))); // taken out of the file since
        Assert.Equal("cuts-in-each-other", Rules(Cut(pieces[0], "R#1", 1000), Cut(pieces[1], "R#1", 1200))); // two plans that did not know of each other
        Assert.Equal("bar-too-short", Rules(Cut(pieces[0], "O", 2700)));
        var other = Bars with { Bars = [new StockBar("R", PipeKind.Of("6", "80", "A106-B"), 6000, 2, StockSource.OnHand)] };
        var said = new List<Finding>();
        Assert.Equal(other.Bars, Log(other, said, [Line], Cut(pieces[0], "R#1", 800)).Left(other).Bars);
        Assert.Equal("cut-from-another-pipe", Assert.Single(said).Rule);
    }

    [Fact]
    public void A_stock_file_after_the_cuts_takes_nothing_off_twice()
    {
        var pieces = PiecesOf(Line);
        var plan = CuttingPlanner.Plan(pieces, Bars, TimeSpan.FromMinutes(1), stop: TestContext.Current.CancellationToken);
        using var text = new StringWriter(CultureInfo.InvariantCulture);
        CuttingPlanTables.Yaml(text, Bars, plan);
        var after = RackReader.Read(Encoding.UTF8.GetBytes(text.ToString()), Stock).Rack!;
        var facts = plan.Groups.SelectMany(g => g.Bars).SelectMany(b => b.Pieces.Select(p => Cut(p.Piece, b.Name, p.To))).ToList();
        var log = Log(after, [], [Line], facts);
        Assert.Empty(log.Wanted(pieces, []));
        // Compared by what can be cut from: nothing more than the file says is gone.
        Assert.Equal(after.Bars.Select(b => (b.Id, b.Left, b.Length)), log.Left(after).Bars.Select(b => (b.Id, b.Left, b.Length)));
        Assert.Equal(plan.RackAfter.Select(b => (b.Id, b.Left)), after.Bars.Select(b => (b.Id, b.Left)));
    }

    private static readonly Gen<(int[] One, int[] Other, int Stock, int Chance)> Weeks =
        Gen.Select(Gen.Int[600, 2600].Array[2, 6], Gen.Int[600, 2600].Array[2, 6], Gen.Int[0, 3], Gen.Int[0, 1_000_000]);

    // Weeks at the saw: bars are cut in part, some of it is told by ticks in the app, some by a report with the plan, some by both; bars are bent, others are taken, pieces
    // are spoiled at once or later, ticks are taken back. What is true of the steel is reckoned here by itself.
    [Fact]
    public void Whatever_is_told_in_the_app_or_by_report_every_piece_is_cut_good_once_and_no_bar_gives_more_than_it_has() => Weeks.Sample(
        week =>
        {
            var random = new Random(week.Chance);
            Packet[] drawings = [Drawn("A-1", week.One), Drawn("B-1", week.Other)];
            List<Piece> pieces = [.. drawings.SelectMany(PiecesOf)];
            var rack = new Rack(
                [new StockBar("S", Pipe, 6000, 2 + week.Stock, StockSource.OnHand), new StockBar("O", Pipe, 3100, 1, StockSource.Remnant), new StockBar("N", Pipe, 6000, null, StockSource.Buy)],
                new CuttingRules { EndTrim = random.Next(2) * 8, FacingLoss = random.Next(2) * 1.5 });
            var facts = new List<Fact>();
            var left = new Dictionary<string, double>(StringComparer.Ordinal);
            var gone = new HashSet<string>(StringComparer.Ordinal);
            var good = new Dictionary<string, (PieceCut? Fact, bool IsReported)>(StringComparer.Ordinal);
            var log = SawLog.Empty;
            var wanted = pieces;
            for (var day = 0; wanted.Count > 0; day++)
            {
                Assert.True(day < 80, "the work comes to an end");
                var plan = CuttingPlanner.Plan(wanted, log.Left(rack), TimeSpan.FromMinutes(1), stop: TestContext.Current.CancellationToken);
                Assert.Empty(plan.Unplaced);
                PlanChecker.Check(plan, wanted, log.Left(rack));
                var (cut, spoiled, bent, instead) = (new List<string>(), new List<string>(), new List<string>(), new List<(string, string)>());
                var taken = plan.Groups.SelectMany(g => g.Bars).Select(b => b.Name).ToHashSet(StringComparer.Ordinal);
                foreach (var (name, (fact, isReported)) in good.ToList())
                {
                    if (day > 20 || random.Next(12) > 0) // some day nothing is spoiled any more
                        continue;
                    good.Remove(name);
                    if (isReported && (fact is null || random.Next(2) == 0))
                        spoiled.Add(name);
                    else
                        facts.Add(Cut(pieces.Single(p => p.FullName == name), fact!.From!.Bar, fact.From.To, isSpoiled: true));
                }

                foreach (var bar in plan.Groups.SelectMany(g => g.Bars))
                {
                    var known = plan.Log.Bars.FirstOrDefault(b => b.Rest == bar.Name);
                    var (steel, begun) = known is { Gone: > 0 } ? (known.Name, known.Gone + rack.Rules.Kerf) : (bar.Name, 0);
                    var whole = bar.Stock.Source == StockSource.Begun ? left[steel] : bar.Stock.Length;
                    Assert.DoesNotContain(steel, gone);
                    Assert.True(bar.Stock.Source == StockSource.Begun || !left.ContainsKey(steel), "a bar that was begun is not new any more");
                    Assert.Equal(whole, bar.Stock.Length, 0.02);
                    // Another bar is taken: a new one, which is there in plenty.
                    if (bar.Stock.Source != StockSource.Begun && random.Next(6) == 0)
                    {
                        (steel, whole) = (string.Create(CultureInfo.InvariantCulture, $"N#{900 + (10 * day) + taken.Count}"), 6000);
                        taken.Add(steel);
                        if (bar.Pieces[^1].To > whole)
                            continue;
                        instead.Add((bar.Name, steel));
                    }

                    var byWhom = random.Next(3); // 0 report, 1 app, 2 both
                    foreach (var p in bar.Pieces.Take(random.Next(bar.Pieces.Count + 1)))
                    {
                        Assert.True(p.To <= whole + 0.02);
                        left[steel] = whole - p.To - rack.Rules.Kerf;
                        var isGood = random.Next(5) > 0;
                        if (random.Next(4) == 0)
                            byWhom = random.Next(3);
                        PieceCut? tick = null;
                        if (byWhom > 0)
                        {
                            if (random.Next(5) == 0)
                            {
                                facts.Add(Cut(p.Piece, steel, begun + p.To));
                                facts.Add(new Withdrawn(Id(10_000_000 + facts.Count), "Jo", Noon.AddDays(1000), facts[^1].Id, "the wrong one"));
                            }

                            facts.Add(tick = Cut(p.Piece, steel, begun + p.To));
                            if (!isGood)
                                facts.Add(Cut(p.Piece, steel, begun + p.To, isSpoiled: true));
                            else if (random.Next(6) == 0)
                                facts.Add(tick = Cut(p.Piece, steel, begun + p.To)); // another tablet tells of it, too
                        }

                        if (byWhom != 1)
                            (isGood ? cut : spoiled).Add(p.Piece.FullName);
                        if (isGood)
                            good.Add(p.Piece.FullName, (tick, byWhom != 1));
                    }

                    if (left.ContainsKey(steel) && random.Next(8) == 0)
                    {
                        gone.Add(steel);
                        if (random.Next(2) == 0 && !instead.Exists(i => i.Item2 == steel))
                            bent.Add(bar.Name);
                        else
                            facts.Add(Note(steel, isOut: true));
                    }
                }

                var job = JobRecord.Of(facts);
                var told = SawFacts.Of(job, Stock, rack, drawings.Select(d => (new Following().Of(job, $"{d.Drawing.Number}.yaml", d.Fabrication, []), (IReadOnlyList<Piece>)PiecesOf(d))), []);
                var (now, said) = new SawReport { Cut = cut, Spoiled = spoiled, Out = bent, Instead = instead }.On(Written(plan), rack, told);
                Assert.DoesNotContain(said, f => f.Severity == Severity.Stop);
                log = now!;
                wanted = log.Wanted(pieces, []);
                Assert.Equal(pieces.Select(p => p.FullName).Except(good.Keys, StringComparer.Ordinal), wanted.Select(p => p.FullName));
            }
        },
        iter: Cases.Of(100), threads: 1);

    private static CuttingPlan Written(CuttingPlan plan)
    {
        using var stream = new MemoryStream();
        using (var json = new Utf8JsonWriter(stream))
            CuttingPlanJson.Write(json, plan, "test");
        return CuttingPlanJson.Read(Encoding.UTF8.GetString(stream.ToArray()));
    }
}
