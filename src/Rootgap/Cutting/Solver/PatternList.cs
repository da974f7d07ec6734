namespace Rootgap.Cutting.Solver;

/// <summary>
/// All patterns that a plan of given quality can contain: those whose contents are worth, at the prices of a certificate, no less than
/// the bar's worth minus what the whole plan can spare.
/// </summary>
internal static class PatternList
{
    /// <summary>The patterns of one type of bar, or null when there are more than <paramref name="most"/> or the search takes too long.</summary>
    /// <param name="isFull">
    /// Only those with no room for another piece: fewer, but a plan made of them may hold a cheap piece twice. Without, every bar of every plan is on the list as it is.
    /// </param>
    public static List<Pattern>? Worthy(PackingProblem problem, int type, long[] prices, long least, bool isFull, int most, Effort effort)
    {
        var kinds = Enumerable.Range(0, problem.Kinds).Where(i => 0 < problem.Demand[i] && problem.Fits(type, i))
            .ToArray();
        Array.Sort(kinds, (a, b) => ((Int128)prices[b] * problem.Length[a]).CompareTo((Int128)prices[a] * problem.Length[b]) is var r && r != 0 ? r : a.CompareTo(b));
        var shortest = kinds.Length == 0 ? 0 : kinds.Min(i => problem.Length[i]);
        var list = new List<Pattern>();
        var take = new int[problem.Kinds];
        var steps = 75L * most;
        return Walk(0, problem.Capacity[type], 0) ? list : null;

        bool Walk(int j, long room, long worth)
        {
            if (--steps < 0 || ((steps & 0xFFFF) == 0 && effort.Spent))
            {
                return false;
            }

            if (j == kinds.Length || room < shortest)
            {
                return least <= worth ? Keep(room) : true;
            }

            // The best still to come: fractional filling with the kinds from j on, rounded up.
            Int128 bound = worth;
            var left = room;
            for (var q = j; q < kinds.Length && 0 < left; q++)
            {
                var i = kinds[q];
                var full = problem.Demand[i] * problem.Length[i];
                if (left < full)
                {
                    bound += ((Int128)left * prices[i] / problem.Length[i]) + 1;
                    break;
                }

                bound += (Int128)problem.Demand[i] * prices[i];
                left -= full;
            }

            if (bound < least)
            {
                return true;
            }

            var kind = kinds[j];
            for (var t = (int)Math.Min(problem.Demand[kind], room / problem.Length[kind]); t >= 0; t--)
            {
                take[kind] = t;
                if (!Walk(j + 1, room - (t * problem.Length[kind]), worth + (t * prices[kind])))
                {
                    return false;
                }
            }

            take[kind] = 0;
            return true;
        }

        bool Keep(long room)
        {
            var used = new List<int>();
            for (var i = 0; i < take.Length; i++)
            {
                if (0 < take[i])
                {
                    used.Add(i);
                }

                if (isFull && take[i] < problem.Demand[i] && problem.Length[i] <= room && problem.Fits(type, i))
                {
                    return true; // another pattern of this list holds one piece more
                }
            }

            list.Add(new Pattern(type, [.. used], [.. used.Select(i => take[i])]));
            return list.Count < most;
        }
    }
}
