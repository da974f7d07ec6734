using System.Globalization;

namespace Rootgap.Tests.Papers;

/// <summary>
/// The count that a foreman would make with the slips of paper in his hand: by what happened in words, without a fact, a record or a fabrication of the engine. What was done on an
/// earlier revision at a joint of the leg that changed (W4 and W5: the pipe between the second and the third elbow, and the piece 1-C) counts for nothing there any more, nor does a release of the spool or a test of the line, which have it in them.
/// </summary>
internal static class CountedByHand
{
    public sealed record Weld(int Drawing, string Joint, int CutOut, int Repair, bool IsNow, bool IsMade, List<string> Stamps, List<string> Results, string Chart, bool IsAsked)
    {
        public string State => !IsNow ? "past" : Results.LastOrDefault() == "bad" ? "rejected" : IsMade ? "made" : "open";
    }

    /// <summary>What counts: not taken back, or its taking back is taken back; and still the same steel.</summary>
    public static List<LivedJob.Happened> Counting(LivedJob job)
    {
        var struck = new HashSet<string>();
        // From the last one back: a taking back that is itself taken back strikes nothing.
        for (var i = job.TakenBack.Count - 1; i >= 0; i--)
        {
            if (!struck.Contains(job.TakenBack[i].Id))
                struck.Add(job.TakenBack[i].Of);
        }

        return [.. job.Words.Where(w => !struck.Contains(w.Id) && !(w.Revision < job.Revision(w.Drawing) && w.At is "W4" or "W5" or "1-C" or "spool" or "line"))];
    }

    public static (int C, int R) MarkNow(LivedJob job, int drawing, string joint)
    {
        var best = (0, 0);
        foreach (var word in Counting(job).Where(w => w.Drawing == drawing && w.At == joint))
        {
            var mark = Mark(word);
            if (word.What == "repaired")
                mark = (mark.Item1, mark.Item2 + 1);
            if (word.What == "cut out")
                mark = (mark.Item1 + 1, 0);
            if (mark.CompareTo(best) > 0)
                best = mark;
        }

        return best;
    }

    private static (int, int) Mark(LivedJob.Happened word) =>
        word.Weld.Split('.') is var parts ? (int.Parse(parts[0], CultureInfo.InvariantCulture), int.Parse(parts[1], CultureInfo.InvariantCulture)) : default;

    public static List<Weld> Welds(LivedJob job)
    {
        var counting = Counting(job).ToLookup(w => (w.Drawing, w.At));
        List<Weld> welds = [];
        for (var d = 0; d < job.Drawings; d++)
        {
            for (var n = 1; n <= LivedJob.Welds(d); n++)
            {
                var here = counting[(d, $"W{n}")].ToList();
                var marks = new SortedSet<(int C, int R)> { (0, 0) };
                foreach (var word in here)
                {
                    var (c, r) = Mark(word);
                    marks.Add((c, r));
                    if (word.What == "repaired")
                        marks.Add((c, r + 1));
                    if (word.What == "cut out")
                        marks.Add((c + 1, 0));
                }

                var isAsked = false; // what a weld was asked for, its repair is asked for too; and what rejected it
                foreach (var (c, r) in marks)
                {
                    var mine = here.Where(w => w.Weld == $"{c}.{r}").ToList();
                    isAsked |= mine.Exists(w => w.What == "drawn");
                    welds.Add(new(d, $"W{n}", c, r, (c, r) == marks.Max, mine.Exists(w => w.What == "welded"),
                        [.. mine.Where(w => w.What == "welded").Select(w => w.Stamp).Distinct()], [.. mine.Where(w => w.What == "examined").Select(w => w.Result)],
                        mine.LastOrDefault(w => w.What == "heat treated")?.Result ?? "", isAsked));
                    isAsked |= welds[^1].Results.Contains("bad");
                }
            }
        }

        return welds;
    }
}
