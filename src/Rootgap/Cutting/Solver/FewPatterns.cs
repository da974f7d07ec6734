namespace Rootgap.Cutting.Solver;

/// <summary>
/// Packings of few different patterns, whatever bars that takes: pattern by pattern, each cut so often that as many kinds as can be are done with it (a sequential
/// procedure as Haessler 1975 has it). No claim of proof is made for this.
/// </summary>
internal static class FewPatterns
{
    private const int MostTimes = 12; // numbers of times that are tried for a pattern

    /// <summary>Packings to choose among: with each type of bar preferred in turn, with bars filled up and not.</summary>
    public static IEnumerable<Packing> Of(PackingProblem problem, Effort effort)
    {
        foreach (var wanted in Enumerable.Range(-1, problem.Types + 1))
        {
            foreach (var isFull in (bool[])[true, false])
            {
                if (effort.Spent && 0 <= wanted)
                    yield break;
                if (Pack(problem, wanted, isFull) is { } packing)
                    yield return packing;
            }
        }
    }

    private static Packing? Pack(PackingProblem problem, int wanted, bool isFull)
    {
        var left = (int[])problem.Demand.Clone();
        var free = (int[])problem.Limit.Clone();
        var bars = new List<(Pattern, int)>();
        while (left.Any(d => 0 < d))
        {
            (int Type, int Times, int[] Take, (int Done, double Share, int Times, int Wanted) Worth)? best = null;
            foreach (var times in left.Where(d => 0 < d).SelectMany(d => (int[])[d, (d + 1) / 2, (d + 2) / 3]).Append(1).Distinct().OrderByDescending(t => t).Take(MostTimes))
            {
                for (var k = 0; k < problem.Types; k++)
                {
                    if (free[k] < times || Filling(problem, k, times, left, isFull) is not { } take)
                        continue;
                    var done = 0;
                    long used = 0;
                    for (var i = 0; i < take.Length; i++)
                    {
                        used += take[i] * problem.Length[i];
                        done += 0 < take[i] && take[i] * times == left[i] ? 1 : 0;
                    }

                    var worth = (done, (double)used / problem.Capacity[k], times, k == wanted ? 1 : 0);
                    if (best is null || (wanted < 0 ? worth.CompareTo(best.Value.Worth) > 0 : (worth.Item4, worth.done, worth.Item2, worth.times).CompareTo((best.Value.Worth.Wanted, best.Value.Worth.Done, best.Value.Worth.Share, best.Value.Worth.Times)) > 0))
                        best = (k, times, take, worth);
                }
            }

            if (best is not { } chosen)
                return null;
            int[] kinds = [.. Enumerable.Range(0, left.Length).Where(i => 0 < chosen.Take[i])];
            bars.Add((new Pattern(chosen.Type, kinds, [.. kinds.Select(i => chosen.Take[i])]), chosen.Times));
            free[chosen.Type] -= chosen.Times;
            foreach (var i in kinds)
                left[i] -= chosen.Times * chosen.Take[i];
        }

        return new Packing(bars);
    }

    // First the kinds that this many bars do altogether, those that take least room first; then, where bars are to be full, more of the longest.
    private static int[]? Filling(PackingProblem problem, int type, int times, int[] left, bool isFull)
    {
        var take = new int[left.Length];
        var room = problem.Capacity[type];
        var any = false;
        foreach (var i in Enumerable.Range(0, left.Length).Where(i => 0 < left[i] && left[i] % times == 0 && problem.Fits(type, i)).OrderBy(i => left[i] / times * problem.Length[i]))
        {
            if (room < left[i] / times * problem.Length[i])
                break;
            take[i] = left[i] / times;
            room -= take[i] * problem.Length[i];
            any = true;
        }

        for (var i = 0; i < left.Length; i++)
        {
            if (take[i] > 0 || left[i] < times || !problem.Fits(type, i) || (any && !isFull))
                continue;
            take[i] = (int)Math.Min(left[i] / times, room / problem.Length[i]);
            room -= take[i] * problem.Length[i];
            any |= 0 < take[i];
        }

        return any ? take : null;
    }
}
