using System.Security.Cryptography;
using System.Text.Json;
using Rootgap.Records;
using Rootgap.Store;

namespace Rootgap.Server;

/// <summary>
/// Keeps the job's folder and its facts in step. A file that another program changed becomes a version, made from the one that lay there before; a version
/// that came from a browser is written into the folder, where the file there is still the version it was made from. Where it is not, both are kept as versions
/// and the folder is left alone until somebody brings them together.
/// </summary>
internal sealed partial class JobFolder(Serving serving, FactStore store, ILogger<JobFolder> log) : IDisposable
{
    /// <summary>A file is taken when nobody has written to it for so long: half of a file is no version.</summary>
    private static readonly TimeSpan Settled = TimeSpan.FromMilliseconds(300);

    /// <summary>A file is gone when it stays away for so long: programs that save take the old file away for a moment.</summary>
    private static readonly TimeSpan Gone = TimeSpan.FromSeconds(2);

    private readonly SemaphoreSlim turn = new(1, 1);

    // File facts with the hash of the content in the content's place, and withdrawals: what the history of files needs, without the files.
    private readonly List<Fact> facts = [];
    private readonly Dictionary<string, Seen> seen = new(StringComparer.Ordinal);
    private readonly Dictionary<string, DateTimeOffset> missing = new(StringComparer.Ordinal);

    /// <summary>Which version lies in the folder, by path: its id.</summary>
    private Dictionary<string, string> lying = new(StringComparer.Ordinal);
    private IReadOnlyDictionary<string, FileHistory> files = JobRecord.Empty.Files;
    private long cursor;
    private string? lastTrouble;

    private string Noted => Path.Combine(serving.Own, "folder.json");

    private sealed record Seen(DateTime Written, long Length, string Hash);

    /// <summary>Reads what was noted and looks through the folder for the first time.</summary>
    public async Task StartAsync()
    {
        if (File.Exists(Noted))
        {
            try
            {
                lying = JsonSerializer.Deserialize<Dictionary<string, string>>(await File.ReadAllBytesAsync(Noted)) ?? lying;
            }
            catch (JsonException)
            {
                // Without the note, versions are known by their content.
            }
        }

        await SyncAsync();
    }

    /// <summary>Why a path of a fact is no file of this folder; null where it is one.</summary>
    public string? WhyNot(string path)
    {
        if (JobPath.WhyNot(path) is { } why)
            return why;
        // A link in the folder may lead out of it; so may a link to a folder on the way.
        var at = serving.Folder;
        foreach (var part in path.Split('/'))
        {
            at = Path.Combine(at, part);
            if (IsLink(at))
                return $"{part} is a link in the job's folder, and links are not followed.";
        }

        return null;
    }

    /// <summary>As <see cref="SyncAsync"/>; a folder or store that cannot be read now is tried again the next time.</summary>
    public async Task TrySyncAsync()
    {
        try
        {
            await SyncAsync();
            lastTrouble = null;
        }
        catch (Exception e) when (e is IOException or UnauthorizedAccessException or StoreException)
        {
            if (lastTrouble != e.Message)
                OutOfStep(lastTrouble = e.Message);
        }
    }

    [LoggerMessage(LogLevel.Warning, "The folder and the records are not in step for now: {trouble}")]
    private partial void OutOfStep(string trouble);

    /// <summary>Takes in what changed in the folder and writes out what came in.</summary>
    public async Task SyncAsync()
    {
        await turn.WaitAsync();
        try
        {
            await LearnAsync();
            var before = lying.ToDictionary(StringComparer.Ordinal);
            await TakeInAsync();
            await WriteOutAsync();
            if (before.Count != lying.Count || before.Any(p => lying.GetValueOrDefault(p.Key) != p.Value) || !File.Exists(Noted))
                Replace(Noted, JsonSerializer.SerializeToUtf8Bytes(lying));
        }
        finally
        {
            turn.Release();
        }
    }

    private async Task LearnAsync()
    {
        FactPage page;
        var isNew = false;
        do
        {
            page = await store.ReadAsync(cursor);
            foreach (var kept in page.Facts)
            {
                var fact = FactJson.Read(kept.Json).Fact;
                if (fact is FileSaved file)
                    facts.Add(file with { Content = file.Content is null ? null : SHA256.HashData(file.Content) });
                else if (fact is Withdrawn)
                    facts.Add(fact);
                isNew |= fact is FileSaved or Withdrawn;
            }

            cursor = page.Next;
        }
        while (page.More);
        if (isNew)
            files = JobRecord.Of(facts).Files;
    }

    private async Task TakeInAsync()
    {
        // No folder, or another one in its place (a disk that is not mounted): nothing was taken away by anybody.
        if (!Directory.Exists(serving.Own))
            throw new IOException($"The job's folder is not there: {serving.Folder}");
        var now = DateTimeOffset.UtcNow;
        var found = new HashSet<string>(StringComparer.Ordinal);
        List<Fact> changes = [];
        foreach (var (path, file) in Files(serving.Folder, ""))
        {
            found.Add(path);
            missing.Remove(path);
            if (FileSaved.Largest < file.Length || (now.UtcDateTime - file.LastWriteTimeUtc).Duration() < Settled)
                continue;
            var known = seen.GetValueOrDefault(path);
            if (known is null || known.Written != file.LastWriteTimeUtc || known.Length != file.Length)
            {
                var content = await File.ReadAllBytesAsync(file.FullName);
                known = seen[path] = new(file.LastWriteTimeUtc, file.Length, Hash(content));
                if (ChangeOf(path, known.Hash, content) is { } change)
                    changes.Add(change);
            }
        }

        foreach (var (path, id) in lying)
        {
            if (found.Contains(path) || VersionOf(path, id) is not { IsRemoved: false } gone)
                continue;
            if (!missing.TryGetValue(path, out var since))
                missing[path] = now;
            else if (Gone <= now - since)
                changes.Add(new FileSaved(Guid.CreateVersion7().ToString(), "folder", now, path, null, [gone.Id]));
        }

        if (changes.Count == 0)
            return;
        foreach (var change in changes)
        {
            // One by one: a large folder is more than one transaction should hold, and each stands for itself.
            await store.KeepAsync([change], now);
            lying[((FileSaved)change).Path] = change.Id;
        }

        await LearnAsync();
    }

    // A version where the file is none that is known; else null, and it is noted which one lies there.
    private FileSaved? ChangeOf(string path, string hash, byte[] content)
    {
        var history = files.GetValueOrDefault(path);
        var noted = lying.TryGetValue(path, out var id) ? VersionOf(path, id) : null;
        if (noted is not null && HashOf(noted) == hash)
            return null;
        // Put there by this program or a browser's version by chance: the latest one with this content.
        if (noted is null && history?.Versions.LastOrDefault(v => HashOf(v.Fact) == hash) is { } same)
        {
            lying[path] = same.Fact.Id;
            return null;
        }

        IReadOnlyList<string> bases = noted is not null ? [noted.Id] : history is { Heads: [var only] } ? [only.Id] : [];
        return new FileSaved(Guid.CreateVersion7().ToString(), "folder", DateTimeOffset.UtcNow, path, content, bases);
    }

    private async Task WriteOutAsync()
    {
        foreach (var (path, history) in files)
        {
            if (history.Heads is not [var head] || lying.GetValueOrDefault(path) == head.Id || WhyNot(path) is not null)
                continue;
            var target = Path.Combine(serving.Folder, path);
            var noted = lying.TryGetValue(path, out var id) ? VersionOf(path, id) : null;
            // Looked at once more, just before: what lies there must be what is noted.
            var there = File.Exists(target) ? Hash(await File.ReadAllBytesAsync(target)) : null;
            if (there != (noted is null ? null : HashOf(noted)) && there != HashOf(head))
                continue;
            if (head.IsRemoved)
            {
                File.Delete(target);
                seen.Remove(path);
            }
            else if (there != HashOf(head))
            {
                if ((await store.FindAsync(head.Id) as FileSaved)?.Content is not { } content)
                    continue;
                Directory.CreateDirectory(Path.GetDirectoryName(target)!);
                Replace(target, content);
            }

            lying[path] = head.Id;
        }
    }

    private FileSaved? VersionOf(string path, string id) => files.GetValueOrDefault(path)?.Versions.FirstOrDefault(v => v.Fact.Id == id)?.Fact;

    private static string? HashOf(FileSaved version) => version.Content is { } hash ? Convert.ToHexStringLower(hash) : null;

    private static string Hash(byte[] content) => Convert.ToHexStringLower(SHA256.HashData(content));

    // Whole or not at all: written beside, then put in its place.
    private static void Replace(string file, byte[] content)
    {
        var beside = Path.Combine(Path.GetDirectoryName(file)!, $".rootgap-{Guid.NewGuid():N}.tmp");
        try
        {
            using (var stream = new FileStream(beside, FileMode.CreateNew, FileAccess.Write))
            {
                stream.Write(content);
                stream.Flush(flushToDisk: true);
            }

            File.Move(beside, file, overwrite: true);
        }
        finally
        {
            File.Delete(beside);
        }
    }

    private static IEnumerable<(string Path, FileInfo File)> Files(string folder, string above)
    {
        foreach (var entry in new DirectoryInfo(folder).EnumerateFileSystemInfos())
        {
            var path = above + entry.Name;
            if (entry.Name[0] == '.' || entry.LinkTarget is not null)
                continue;
            if (entry is FileInfo file && JobPath.WhyNot(path) is null)
            {
                yield return (path, file);
            }
            else if (entry is DirectoryInfo && JobPath.WhyNot(path + "/a.yaml") is null)
            {
                foreach (var below in Files(entry.FullName, path + "/"))
                    yield return below;
            }
        }
    }

    private static bool IsLink(string path) => new FileInfo(path).LinkTarget is not null || new DirectoryInfo(path).LinkTarget is not null;

    public void Dispose() => turn.Dispose();
}
