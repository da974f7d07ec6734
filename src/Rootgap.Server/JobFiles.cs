using System.Collections.Concurrent;
using System.Security.Cryptography;
using Rootgap.Records;
using Rootgap.Store;

namespace Rootgap.Server;

/// <summary>The histories of a job's files, without the files: each version's content is the SHA-256 of what it is.</summary>
internal sealed class JobFiles(FactStore store) : IDisposable
{
    private static readonly Choice Wanted = new(Kinds: ["file", "withdrawn"]);

    private readonly SemaphoreSlim turn = new(1, 1);
    private readonly List<Fact> facts = [];
    private readonly ConcurrentDictionary<string, string> numbers = new(StringComparer.Ordinal);
    private ConcurrentDictionary<string, string> names = new(StringComparer.OrdinalIgnoreCase);
    private long cursor;
    private string digest = "";

    public FactStore Store => store;

    /// <summary>As they were when last learnt.</summary>
    public IReadOnlyDictionary<string, FileHistory> Histories { get; private set; } = JobRecord.Empty.Files;

    /// <summary>Reads what was kept since, by whichever server.</summary>
    public async Task LearnAsync()
    {
        await turn.WaitAsync();
        try
        {
            // Records that were put back or begun anew under a running server are read from their beginning.
            if (!await store.AgreesAsync(cursor, digest))
            {
                facts.Clear();
                (cursor, digest) = (0, "");
            }

            FactPage page;
            var before = facts.Count;
            do
            {
                page = await store.ReadAsync(cursor, Wanted);
                foreach (var kept in page.Facts)
                {
                    var fact = FactJson.Read(kept.Json).Fact is { } read ? read with { Kept = new(kept.Seq, kept.Received) } : null;
                    if (fact is FileSaved { DrawingNumber: { } number } drawing)
                        numbers[drawing.Id] = number;
                    if (fact is FileSaved file)
                        facts.Add(file with { Content = file.Content is null ? null : SHA256.HashData(file.Content) });
                    else if (fact is Withdrawn)
                        facts.Add(fact);
                }

                (cursor, digest) = (page.Next, page.Digest);
            }
            while (page.More);
            if (facts.Count != before || Histories.Count == 0)
            {
                Histories = JobRecord.Of(facts).Files;
                var called = new ConcurrentDictionary<string, string>(StringComparer.OrdinalIgnoreCase);
                foreach (var path in Histories.Keys)
                    called.TryAdd(path, path);
                names = called;
            }
        }
        finally
        {
            turn.Release();
        }
    }

    /// <summary>Why a file of this name cannot be kept beside those that are there; null where it can. Histories must be learnt.</summary>
    public string? WhyNot(string path) =>
        names.TryGetValue(path, out var there) && there != path ? $"{there} is there already, and some disks hold only one of two names that differ in large and small letters alone. Save it under another name, or go on with {there}." : null;

    /// <summary>The files that are there, each with its newest versions and, where it is a drawing, its number.</summary>
    public IEnumerable<(string Path, string? Number, IReadOnlyList<string> Heads)> Newest() =>
        from file in Histories.Values
        where file.Latest is not null
        orderby file.Path
        select (file.Path, numbers.GetValueOrDefault(file.Latest!.Id), (IReadOnlyList<string>)[.. file.Heads.Select(h => h.Id)]);

    /// <summary>A file of this name is kept from now on, also before it is learnt.</summary>
    public void Expect(string path) => names.TryAdd(path, path);

    public FileSaved? VersionOf(string path, string id) => Histories.GetValueOrDefault(path)?.Versions.FirstOrDefault(v => v.Fact.Id == id)?.Fact;

    public void Dispose() => turn.Dispose();
}
