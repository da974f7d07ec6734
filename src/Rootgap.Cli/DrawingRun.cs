using System.Globalization;

namespace Rootgap.Cli;

/// <summary>Works through many drawings on all cores and hands the results on in the order given, so that the output is the same whatever the number of cores.</summary>
internal static class DrawingRun
{
    /// <summary>Drawings under way at once: enough to keep the cores busy, few enough to hold little memory (a drawing's sheets take some megabytes).</summary>
    private const int Batch = 16;

    public static IEnumerable<T> Each<T>(IReadOnlyList<DrawingFile> files, Func<DrawingFile, T> work)
    {
        if (files.Count == 1)
        {
            yield return work(files[0]);
            yield break;
        }

        var progress = new ProgressBar(files.Count);
        var results = new T[Math.Min(Batch, files.Count)];
        for (var from = 0; from < files.Count; from += Batch)
        {
            var count = Math.Min(Batch, files.Count - from);
            var start = from;
            Parallel.For(0, count, i => results[i] = work(files[start + i]));
            for (var i = 0; i < count; i++)
            {
                yield return results[i];
                results[i] = default!;
            }

            progress.Show(from + count);
        }
    }

    /// <summary>One line on standard error that fills up, where a person looks on and there is much to do.</summary>
    private sealed class ProgressBar(int total)
    {
        private const int Many = 20;
        private const int Width = 40;

        private readonly bool isShown = total > Many && !Console.IsErrorRedirected;

        public void Show(int done)
        {
            if (!isShown)
                return;
            var filled = Width * done / total;
            Console.Error.Write(string.Create(CultureInfo.InvariantCulture, $"\r[{new string('=', filled)}{new string(' ', Width - filled)}] {done} of {total} drawings"));
            if (done == total)
                Console.Error.WriteLine();
        }
    }
}
