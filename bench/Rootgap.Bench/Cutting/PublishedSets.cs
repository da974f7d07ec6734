using System.Globalization;
using Rootgap.Cutting.Solver;

namespace Rootgap.Bench.Cutting;

/// <summary>Published instances in the formats of their authors.</summary>
internal sealed record PublishedInstance(string Set, string Name, long Bar, List<(long Length, int Demand)> Kinds, int? Best);

internal static class PublishedSets
{
    /// <summary>Falkenauer 1996 (binpackN.txt): number of instances; then name, "capacity items best", one size a line.</summary>
    public static IEnumerable<PublishedInstance> Falkenauer(string path)
    {
        var lines = File.ReadLines(path).Select(l => l.Trim()).Where(l => l.Length > 0).ToArray();
        var set = Path.GetFileNameWithoutExtension(path);
        var at = 1;
        while (at < lines.Length)
        {
            var name = lines[at++];
            var head = lines[at++].Split(' ', StringSplitOptions.RemoveEmptyEntries);
            var items = int.Parse(head[1], CultureInfo.InvariantCulture);
            var kinds = new List<(long, int)>();
            for (var i = 0; i < items; i++)
            {
                kinds.Add((Tenths(lines[at++]), 1));
            }

            yield return new PublishedInstance(set, name, Tenths(head[0]), kinds, int.Parse(head[2], CultureInfo.InvariantCulture));
        }
    }

    private static long Tenths(string text) => (long)Math.Round(10 * double.Parse(text, CultureInfo.InvariantCulture));

    /// <summary>Schwerin and Waescher 1997, Waescher and Gau 1996, Schoenfield 2002: 'name', kinds, capacity, "size count" lines.</summary>
    public static IEnumerable<PublishedInstance> Bpp(string path)
    {
        var lines = File.ReadLines(path).Select(l => l.Trim()).Where(l => l.Length > 0).ToArray();
        var set = Path.GetFileNameWithoutExtension(path);
        var at = 0;
        while (at < lines.Length)
        {
            var name = lines[at++].Trim('\'');
            var m = int.Parse(lines[at++], CultureInfo.InvariantCulture);
            var bar = long.Parse(lines[at++], CultureInfo.InvariantCulture);
            var kinds = new List<(long, int)>();
            for (var i = 0; i < m; i++)
            {
                var parts = lines[at++].Split([' ', '\t'], StringSplitOptions.RemoveEmptyEntries);
                kinds.Add((long.Parse(parts[0], CultureInfo.InvariantCulture), int.Parse(parts[1], CultureInfo.InvariantCulture)));
            }

            yield return new PublishedInstance(set, name, bar, kinds, null);
        }
    }

    public static IEnumerable<PublishedInstance> All(string folder)
    {
        for (var i = 1; i <= 8; i++)
        {
            var path = Path.Combine(folder, "falkenauer", string.Create(CultureInfo.InvariantCulture, $"binpack{i}.txt"));
            if (File.Exists(path))
            {
                foreach (var p in Falkenauer(path))
                {
                    yield return p;
                }
            }
        }

        foreach (var path in new[] { "schwerin/SCH_WAE1.BPP", "schwerin/SCH_WAE2.BPP", "waescher/WAE_GAU1.BPP", "waescher/WAE_GAU2.BPP", "hard28/hard28" })
        {
            foreach (var p in Bpp(Path.Combine(folder, path)))
            {
                yield return p;
            }
        }
    }

    /// <summary>Solves every instance; prints what was not proven at once and a line a set.</summary>
    public static void Run(string folder, double seconds, string? filter, bool verbose)
    {
        foreach (var set in All(folder).Where(p => filter is null || p.Set.Contains(filter, StringComparison.OrdinalIgnoreCase) || p.Name.Trim() == filter).GroupBy(p => p.Set, StringComparer.Ordinal))
        {
            var n = 0;
            var one = 0;
            var limit = 0;
            double total = 0;
            foreach (var p in set)
            {
                var begun = OwnTime.Clock.GetTimestamp();
                var problem = PackingProblem.Classic(p.Kinds, p.Bar);
                var result = new BarSearch(problem, new Effort(OwnTime.Clock, TimeSpan.FromSeconds(seconds), default)).Run();
                var t = OwnTime.Clock.GetElapsedTime(begun).TotalSeconds;
                var bars = result.Best!.CountByType(1)[0];
                total += t;
                n++;
                one += result.Proven && t <= 1 ? 1 : 0;
                limit += result.Proven && t <= seconds + 0.5 ? 1 : 0;
                var wrong = p.Best is { } best && result.Proven && best < bars ? " WORSE THAN PUBLISHED" : "";
                if (verbose || !result.Proven || t > 1 || wrong.Length > 0)
                {
                    Console.WriteLine(string.Create(CultureInfo.InvariantCulture, $"  {p.Set} {p.Name}: {bars} bound {result.Bound[0]} {(result.Proven ? "proven" : "OPEN")} {t:0.000}s{wrong}"));
                }
            }

            Console.WriteLine(string.Create(CultureInfo.InvariantCulture, $"{set.Key}: {n} instances, proven in 1 s {one}, in {seconds} s {limit}, mean {total / n:0.000} s"));
        }
    }
}
