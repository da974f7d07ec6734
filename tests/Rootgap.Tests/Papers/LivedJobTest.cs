using System.Globalization;
using Rootgap.Papers;
using Rootgap.Records;

namespace Rootgap.Tests.Papers;

/// <summary>A small job in the suite; <c>ROOTGAP_LIFE=40</c> lives through 40 drawings and 3,000 facts.</summary>
public class LivedJobTest
{
    private static readonly int Lines = int.TryParse(Environment.GetEnvironmentVariable("ROOTGAP_LIFE"), NumberStyles.None, CultureInfo.InvariantCulture, out var n) ? n : 6;

    [Fact]
    public void The_lists_agree_with_a_count_by_hand_in_whatever_order_the_facts_came()
    {
        var job = new LivedJob(Lines, Lines * 75, seed: 19);
        var welds = CountedByHand.Welds(job);
        var words = CountedByHand.Counting(job);
        Assert.All(new[] { "cut", "welded", "examined", "repaired", "cut out", "heat treated", "bolted up", "tested", "released", "drawn" }, what => Assert.Contains(words, w => w.What == what));
        Assert.Contains(welds, w => w is { IsNow: true, IsAsked: true, IsMade: true, Results.Count: 0 });
        foreach (var order in new[] { 1, 2 })
        {
            var papers = job.Papers(order);
            var rows = papers.Welds;
            Assert.Equal(
                welds.Select(w => $"{LivedJob.Number(w.Drawing)} {w.Joint} {w.CutOut}.{w.Repair} {w.State} {string.Join('+', w.Stamps.Order(StringComparer.Ordinal))} {string.Join(' ', w.Results)} {w.Chart} {w.IsAsked}"),
                rows.Select(r => $"{r.Line.Number} {r.Joint.Id} {r.Mark.CutOut}.{r.Mark.Repair} {StateOf(r)} {string.Join('+', r.Welders)} {string.Join(' ', r.Examinations.Select(e => e.IsAccepted ? "good" : "bad"))} {r.Treated?.Chart} {r.Asked.Count > 0}"));

            // Progress: 4 inches a butt weld; what is repaired counts as made, what is cut out and not welded again does not.
            var progress = Progress.Of(rows);
            var now = welds.Where(w => w.IsNow).ToList();
            Assert.Equal((now.Count, now.Count(w => w.IsMade || w.Repair > 0)), (progress.Welds, progress.Made));
            Assert.Equal((4.0 * now.Count, 4.0 * progress.Made), (progress.Inches, progress.InchesMade));

            foreach (var stamp in welds.SelectMany(w => w.Stamps).Distinct())
            {
                var his = welds.Where(w => w.IsMade && w.Stamps.Contains(stamp)).ToList();
                var shot = his.Where(w => w.Results.Count > 0).ToList();
                var rates = WelderRate.Of(rows).Where(r => r.Welder == stamp).ToList();
                Assert.Equal(his.Count, rates[0].Welds);
                Assert.Equal((shot.Count, shot.Count(w => w.Results[0] == "bad")), (rates.Sum(r => r.Examined), rates.Sum(r => r.Rejected)));
            }

            for (var d = 0; d < job.Drawings; d++)
            {
                var cut = words.Where(w => w.Drawing == d && w.What == "cut").Select(w => w.At).Distinct().ToHashSet();
                var line = papers.Lines[d];
                var steps = papers.Steps.Where(s => s.Line == line).ToList();
                var his = words.Where(w => w.Drawing == d).ToList();
                Assert.Equal(his.Exists(w => w.What == "bolted up") ? 0 : 1, steps.Count(s => s.Step == "bolt up"));
                Assert.Equal(his.Exists(w => w.What == "released") ? 0 : 1, steps.Count(s => s.Step == "release"));
                var tests = his.Where(w => w.What == "tested").Select(w => w.Result == "good").ToList();
                Assert.Equal(tests, line.Tests().Select(t => t.HasPassed));
                Assert.Equal(tests is [.., true], line.IsTested());
                // What the lots still wait for: made, drawn or following one that was, and no result yet.
                Assert.Equal(now.Where(w => w.Drawing == d && w.IsAsked && w.IsMade && w.Results.Count == 0).Select(w => w.Joint),
                    papers.WeldsOf(line).Where(w => w.Missing.Any(m => m.Contains("asked for, not reported", StringComparison.Ordinal))).Select(w => w.Joint.Id));
                Assert.Equal(LivedJob.Elbows(d) + 1 - cut.Count, steps.Count(s => s.Step == "cut"));
                var mine = now.Where(w => w.Drawing == d).ToList();
                Assert.Equal(mine.Count(w => w.State == "rejected"), steps.Count(s => s.Step == "repair or cut out"));
                Assert.Equal(mine.Count(w => w is { State: "open", Repair: > 0 }), steps.Count(s => s.Step == "weld the repair"));
            }
        }

        static string StateOf(WeldHistory weld) => !weld.IsNow ? "past" : weld.IsRejected ? "rejected" : weld.IsMade ? "made" : "open";
    }

    [Fact]
    public void Whoever_reads_the_facts_gets_the_same_lists()
    {
        var job = new LivedJob(3, 120, seed: 4);
        var lists = new[] { 5, 6 }.Select(order =>
        {
            using var to = new MemoryStream();
            PaperTables.Json(to, PaperTables.Of(job.Papers(order)));
            return System.Text.Encoding.UTF8.GetString(to.ToArray());
        }).ToList();
        Assert.Equal(lists[0], lists[1]);
    }
}
