using System.Diagnostics;
using Rootgap.Cutting.Solver;
namespace Rootgap.Bench.Cutting;
internal static class Fuzz
{
    public static void Run(int from, int to)
    {
        for (var s = from; s < to; s++)
        {
            var r = new Random(s);
            var types = r.Next(1, 4);
            var cap = Enumerable.Range(0, types).Select(_ => (long)r.Next(5, 31)).ToArray();
            var limit = Enumerable.Range(0, types).Select(_ => r.Next(4)).Select(l => l == 0 ? PackingProblem.Plenty : l).ToArray();
            var cost = Enumerable.Range(0, types).Select(_ => (long)r.Next(1, 10)).ToArray();
            var kinds = Enumerable.Range(0, r.Next(1, 8)).Select(_ => (long)r.Next(1, 21)).GroupBy(l => l).OrderByDescending(g => g.Key).ToArray();
            var p = new PackingProblem { Length = [.. kinds.Select(k => k.Key)], Demand = [.. kinds.Select(k => k.Count())], Capacity = cap, Limit = limit, First = [.. cap.Select(_ => 1L)], Second = cost };
            if (!Enumerable.Range(0, p.Kinds).All(i => Enumerable.Range(0, types).Any(k => p.Fits(k, i)))) continue;
            var c = Stopwatch.StartNew();
            Console.Write($"{s} ");
            var res = new BarSearch(p, new Effort(TimeProvider.System, TimeSpan.FromSeconds(5), default)).Run();
            if (c.ElapsedMilliseconds > 50 || !(res.Proven || res.Impossible))
                Console.WriteLine($"\n seed {s}: {c.ElapsedMilliseconds} ms proven {res.Proven} impossible {res.Impossible} cap {string.Join(',', cap)} limit {string.Join(',', limit)} cost {string.Join(',', cost)} pieces {string.Join(',', p.Length.Zip(p.Demand))} best {(res.Best is null ? "-" : string.Join(',', res.Best.CountByType(types)))} bound {res.First},{res.Second}");
        }
    }
}
