namespace Rootgap.Cli;

/// <summary>Works through many drawings on all cores and hands the results on in the order given, so that the output is the same whatever the number of cores.</summary>
internal static class DrawingRun
{
    /// <summary>Drawings under way at once: enough to keep the cores busy, few enough to hold little memory.</summary>
    private const int Batch = 64;

    public static IEnumerable<T> Each<T>(IReadOnlyList<string> files, Func<string, T> work)
    {
        if (files.Count == 1)
        {
            yield return work(files[0]);
            yield break;
        }

        var results = new T[Math.Min(Batch, files.Count)];
        for (var from = 0; from < files.Count; from += Batch)
        {
            var count = Math.Min(Batch, files.Count - from);
            var start = from;
            Parallel.For(0, count, i => results[i] = work(files[start + i]));
            for (var i = 0; i < count; i++)
                yield return results[i];
        }
    }
}
