using System.Globalization;
using Rootgap.Fabricating;
using Rootgap.Records;
using Rootgap.Routes;
using Made = Rootgap.Fabricating.Fabrication;

namespace Rootgap.Tests.Records;

/// <summary>
/// Random histories: a drawing is edited, revised, changed back, while pieces are cut, heats noted and joints welded on whatever version is current, some with facts of the
/// old kind. In the end every fact is on the steel that it was made on, or marked. What the steel was is written down by the test, part by part, when the fact is made.
/// </summary>
public class RandomHistoryTest
{
    private static readonly long Cases = long.TryParse(Environment.GetEnvironmentVariable("ROOTGAP_CASES"), System.Globalization.CultureInfo.InvariantCulture, out var n) ? n : 80;

    private static readonly string[] Ways = ["east", "west", "north", "south", "up", "down"];

    private sealed record Leg(int Tag, string Go, int By, string To, string End = "");

    private sealed record Sheet(string Run, int Revision, string Schedule, bool HasPoint, List<Leg> Legs)
    {
        public string Yaml()
        {
            var legs = Legs.Select((l, i) => HasPoint && i == 1
                ? string.Create(CultureInfo.InvariantCulture, $"      - {{go: {l.Go}, by: 300, to: point}}\n      - {{go: {l.Go}, by: {l.By - 300}, to: {l.To}{l.End}}}\n")
                : string.Create(CultureInfo.InvariantCulture, $"      - {{go: {l.Go}, by: {l.By}, to: {l.To}{l.End}}}\n"));
            return $"drawing: L-1\nrevision: {Revision}\nline: {{size: 4, schedule: {Schedule}, class: 150, material: A106-B}}\nruns:\n  - run: {Run}\n    start: {{to: flange}}\n    legs:\n{string.Concat(legs)}";
        }

        /// <summary>All that decides a leg's piece: its own leg, what stands before and behind, and the wall.</summary>
        public IEnumerable<string> Pieces => Legs.Select((l, i) => $"{Schedule} {(i > 0 ? Legs[i - 1].Tag + Legs[i - 1].To : "start")} {l.Tag} {l.By} {l.To}");
    }

    /// <summary>A fact, what its steel was when it was made, and, of a piece, all that decided it.</summary>
    private sealed record Known(DrawingFact Fact, string Steel, string? Piece);

    [Fact]
    public void Every_fact_is_on_the_steel_it_was_made_on_or_marked()
    {
        var stillThere = 0;
        var inVain = new System.Collections.Concurrent.ConcurrentBag<string>();
        Gen.Byte.Array[120].Sample(bytes =>
        {
            var chance = new Choices(bytes);
            var tag = 10;
            var sheet = new Sheet("main", 1, "40", false, [new(1, "north", 1500, "elbow"), new(2, "up", 2100, "elbow"), new(3, "east", 1800, "elbow"), new(4, "north", 2600, "elbow"), new(5, "up", 1700, "flange")]);
            List<Sheet> all = [sheet];
            var job = new ShopJob(sheet.Yaml());
            List<Known> known = [];
            for (var turn = 0; turn < 12; turn++)
            {
                for (var i = chance.Below(4); i > 0; i--)
                    known.Add(Do(job, chance, sheet));
                sheet = Edited(sheet, all, chance, ref tag);
                all.Add(sheet);
                job.Save(sheet.Yaml());
                if (chance.OneIn(3))
                    job.Take(chance.Of("Ann", "Bo"));
            }

            if (chance.OneIn(2))
                job.Take("Ann");
            var done = job.Done();
            var now = job.Made();
            var pieces = sheet.Pieces.ToHashSet(StringComparer.Ordinal);
            var counting = done.Facts.ToDictionary(e => e.Fact.Id, e => e.As, StringComparer.Ordinal);
            foreach (var (fact, steel, piece) in known)
            {
                // Set aside is what was marked and entered anew since.
                var isMarked = done.Marked.Any(m => m.Entry.Fact.Id == fact.Id) || done.SetAside.Any(e => e.Fact.Id == fact.Id);
                Assert.True(counting.ContainsKey(fact.Id) != isMarked, $"{fact} counts and is marked, or neither");
                if (counting.TryGetValue(fact.Id, out var there))
                    Assert.Equal(steel, Steel(now, there));
                if (piece is null || !pieces.Contains(piece) || (done.Taken is null && fact.Drawing.Revision != done.Drawing.Revision))
                    continue;
                Interlocked.Increment(ref stillThere);
                if (!counting.ContainsKey(fact.Id))
                    inVain.Add($"{piece}: {done.Marked.FirstOrDefault(m => m.Entry.Fact.Id == fact.Id) switch { { } m => $"{m.Was}, now {m.Now}: {m.Mark}, {string.Join("; ", m.Why)}", null => "set aside" }}\n  was {string.Join(" | ", all[0].Pieces)}\n  now {string.Join(" | ", sheet.Pieces)}");
            }
        }, iter: Cases, print: b => Convert.ToHexString(b));
        // Where all that stands around a piece has changed, one of its like may be taken for it: to be looked at in vain is the safe side, and seldom (2 of 6,685 in 2,100 histories).
        TestContext.Current.TestOutputHelper?.WriteLine($"{inVain.Count} of {stillThere} facts whose piece is there are marked");
        Assert.True(inVain.Count <= 2 + (stillThere / 100), $"{inVain.Count} of {stillThere} facts whose piece is there are marked:\n{string.Join('\n', inVain.Take(10))}");
    }

    private static Known Do(ShopJob job, Choices chance, Sheet sheet)
    {
        var made = job.Made();
        var versions = chance.OneIn(4) ? [] : job.Versions();
        var drawing = job.Drawing();
        DrawingFact fact;
        string? piece = null;
        switch (chance.Below(3))
        {
            case 0:
                var at = chance.Below(made.Cuts.Count);
                fact = new PieceCut(job.NextId, "Jo", job.Now, drawing, made.Cuts[at].Piece) { Versions = versions };
                piece = sheet.Pieces.ElementAt(at);
                break;
            case 1:
                fact = new HeatNoted(job.NextId, "Jo", job.Now, drawing, made.Route.Components[chance.Below(made.Route.Components.Count)].Id, "H") { Versions = versions };
                break;
            default:
                fact = new JointStep(job.NextId, "Jo", job.Now, drawing, made.Route.Joints[chance.Below(made.Route.Joints.Count)].Id, Step.Welded) { Versions = versions };
                break;
        }

        job.Add(fact);
        return new(fact, Steel(made, fact), piece);
    }

    private static Sheet Edited(Sheet s, List<Sheet> all, Choices chance, ref int tag)
    {
        var at = chance.Below(s.Legs.Count);
        List<Leg> legs = [.. s.Legs];
        switch (chance.Below(9))
        {
            case 0:
                legs[at] = legs[at] with { By = legs[at].By + chance.Of(-200, -40, 40, 150) };
                return legs[at].By > 900 ? s with { Legs = legs } : s;
            case 1 when at < legs.Count - 1:
                // A jog: two legs more, across the line that goes on.
                var side = Ways.First(w => Axis(w) != Axis(legs[at].Go) && Axis(w) != Axis(legs[at + 1].Go));
                legs.Insert(at + 1, new(tag++, side, 1000 + (10 * chance.Below(40)), "elbow"));
                legs.Insert(at + 2, new(tag++, legs[at].Go, 1000 + (10 * chance.Below(40)), "elbow"));
                return Fits(legs) ? s with { Legs = legs } : s;
            case 2 when legs.Count > 4 && at < legs.Count - 2:
                legs.RemoveRange(at + 1, 1);
                return Fits(legs) ? s with { Legs = legs } : s;
            case 3:
                return s with { Run = chance.Of("main", "feed", "over the wall") };
            case 4:
                return s with { HasPoint = !s.HasPoint };
            case 5:
                // The other hand from here on.
                for (var i = at; i < legs.Count; i++)
                    legs[i] = legs[i] with { Go = legs[i].Go switch { "east" => "west", "west" => "east", var go => go } };
                return s with { Legs = legs };
            case 6:
                return s with { Schedule = chance.Of("40", "40", "80") };
            case 7:
                return s with { Revision = s.Revision + 1 };
            default:
                return all[chance.Below(all.Count)] with { Revision = s.Revision };
        }
    }

    private static bool Fits(List<Leg> legs) => legs.Zip(legs.Skip(1)).All(p => Axis(p.First.Go) != Axis(p.Second.Go));

    private static int Axis(string way) => Array.IndexOf(Ways, way) / 2;

    /// <summary>What a fact speaks of, as steel: what it is and how large, and of a joint both its sides.</summary>
    private static string Steel(Made made, DrawingFact fact) => fact switch
    {
        PieceCut c => Of(made.Cuts.Single(x => x.Piece == c.Piece)),
        HeatNoted h => Of(made.Route.Components.Single(x => x.Id == h.Component)),
        JointStep s => made.Route.Joints.Single(x => x.Id == s.Joint) is var j ? $"{j.Kind} {string.Join(" and ", j.Between.Select(id => made.Cuts.FirstOrDefault(c => c.Pipe.Id == id) is { } cut ? Of(cut) : Of(made.Route.Components.Single(c => c.Id == id))).Order(StringComparer.Ordinal))}" : "",
        _ => "",
    };

    private static string Of(Cut cut) => string.Create(CultureInfo.InvariantCulture, $"pipe {cut.Pipe.Size} wall {cut.Pipe.Wall} cut {cut.Length:0.0}");

    private static string Of(Component c) => $"{c.Name} {c.Size} {(c.IsBySchedule ? c.Line.Schedule.ToString() : "")}";
}
