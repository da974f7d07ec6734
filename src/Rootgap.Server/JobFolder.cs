using System.Security.Cryptography;
using System.Text.Json;
using Rootgap.Records;
using Rootgap.Store;

namespace Rootgap.Server;

/// <summary>
/// Keeps the job's folder and its facts in step. A file that another program changed becomes a version, made from the one that lay there before; a version
/// that came from a browser is written into the folder, where the file there is still the version it was made from. Where it is not, both are kept as versions
/// and the folder is left alone until somebody brings them together. A file that cannot be read or written is told and holds up no other.
/// </summary>
internal sealed partial class JobFolder(string folder, JobFiles files, ILogger log) : IDisposable
{
    private const string Beside = ".rootgap-";
    private const string BesideEnds = ".tmp";

    /// <summary>A file is taken when nobody has written to it for so long: half of a file is no version.</summary>
    private static readonly TimeSpan Settled = TimeSpan.FromMilliseconds(300);

    /// <summary>A file is gone when it stays away for so long: programs that save take the old file away for a moment.</summary>
    private static readonly TimeSpan Gone = TimeSpan.FromSeconds(2);

    /// <summary>Files that are written out in one go.</summary>
    private const int MostWritten = 200;

    private readonly SemaphoreSlim turn = new(1, 1);
    private readonly Dictionary<string, Seen> seen = new(StringComparer.Ordinal);
    private readonly Dictionary<string, DateTimeOffset> missing = new(StringComparer.Ordinal);

    /// <summary>What is found while one looks through the folder; it takes the place of what was found before when that is done.</summary>
    private Dictionary<string, string> troubles = new(StringComparer.Ordinal);

    /// <summary>Which version lies in the folder, by path: its id.</summary>
    private Dictionary<string, string> lying = new(StringComparer.Ordinal);
    private string? lastTrouble;

    private string Own => JobPlace.OwnOf(folder);

    private string Noted => Path.Combine(Own, "folder.json");

    /// <summary>Files that could not be brought in step, with what hindered it.</summary>
    public IReadOnlyList<(string Path, string Why)> Troubles { get; private set; } = [];

    private sealed record Seen(DateTime Written, long Length, string Hash);

    /// <summary>Clears away what a killed program left half written, reads what was noted, and looks through the folder for the first time.</summary>
    public async Task StartAsync()
    {
        foreach (var (left, _) in Entries("").Where(e => e.Entry is FileInfo && e.Entry.Name.StartsWith(Beside, StringComparison.Ordinal) && e.Entry.Name.EndsWith(BesideEnds, StringComparison.Ordinal)).ToList())
            Try(left, () => File.Delete(Path.Combine(folder, left)));
        foreach (var left in Directory.GetFiles(Own, Beside + "*" + BesideEnds))
            File.Delete(left);
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
        var at = folder;
        foreach (var part in path.Split('/'))
        {
            at = Path.Combine(at, part);
            if (IsLink(at))
                return $"{part} is a link in the job's folder, and links are not followed.";
        }

        return null;
    }

    /// <summary>As <see cref="SyncAsync"/>; a folder or store that cannot be read now is tried again the next time.</summary>
    public async Task<bool> TrySyncAsync(IReadOnlyCollection<string>? only = null)
    {
        try
        {
            var isMore = await SyncAsync(only);
            lastTrouble = null;
            return isMore;
        }
        catch (Exception e) when (e is IOException or UnauthorizedAccessException or StoreException)
        {
            if (lastTrouble != e.Message)
                OutOfStep(log, lastTrouble = e.Message);
            return false;
        }
    }

    [LoggerMessage(LogLevel.Warning, "The folder and the records are not in step for now: {trouble}")]
    private static partial void OutOfStep(ILogger log, string trouble);

    /// <summary>Takes in what changed in the folder and writes out what came in.</summary>
    /// <param name="only">Only these files; null for the whole folder.</param>
    /// <returns>Whether more is to be written out: much of it (a job that was put back) goes in parts, between which others have their turn, and nobody waits for all of it.</returns>
    public async Task<bool> SyncAsync(IReadOnlyCollection<string>? only = null)
    {
        await turn.WaitAsync();
        try
        {
            // No folder, or another one in its place (a disk that is not mounted): nothing was taken away by anybody.
            if (!Directory.Exists(Own))
                throw new IOException($"The job's folder is not there: {folder}");
            await files.LearnAsync();
            var before = lying.ToDictionary(StringComparer.Ordinal);
            if (only is null)
                troubles = new(StringComparer.Ordinal);
            await TakeInAsync(only);
            var isMore = await WriteOutAsync(only);
            Troubles = [.. troubles.OrderBy(t => t.Key, StringComparer.Ordinal).Select(t => (t.Key, t.Value))];
            if (before.Count != lying.Count || before.Any(p => lying.GetValueOrDefault(p.Key) != p.Value) || !File.Exists(Noted))
                Replace(Noted, JsonSerializer.SerializeToUtf8Bytes(lying));
            return isMore;
        }
        finally
        {
            turn.Release();
        }
    }

    private async Task TakeInAsync(IReadOnlyCollection<string>? only)
    {
        var now = DateTimeOffset.UtcNow;
        var found = new HashSet<string>(StringComparer.Ordinal);
        var closed = new List<string>();
        foreach (var (path, file) in only is null ? Files(closed) : Named(only))
        {
            found.Add(path);
            missing.Remove(path);
            await TryAsync(path, async () =>
            {
                if (FileSaved.Largest < file.Length)
                    throw new IOException("it is larger than 4 MB, and is left alone.");
                if ((now.UtcDateTime - file.LastWriteTimeUtc).Duration() < Settled)
                    return;
                var known = seen.GetValueOrDefault(path);
                if (known is not null && known.Written == file.LastWriteTimeUtc && known.Length == file.Length)
                    return;
                var content = await File.ReadAllBytesAsync(file.FullName);
                known = new(file.LastWriteTimeUtc, file.Length, Hash(content));
                if (files.WhyNot(path) is { } why)
                    throw new IOException(why);
                if (ChangeOf(path, known.Hash, content) is { } change)
                    await KeepAsync(change, now);
                seen[path] = known;
            });
        }

        foreach (var (path, id) in lying.ToList())
        {
            if (found.Contains(path) || only?.Contains(path) == false || closed.Exists(c => path.StartsWith(c, StringComparison.Ordinal)) || files.VersionOf(path, id) is not { IsRemoved: false } gone)
                continue;
            // Taken away by this program, which was stopped before it could note it.
            if (files.Histories[path].Versions.LastOrDefault(v => v.Fact.IsRemoved && files.Histories[path].GoesOnFrom(v.Fact, id)) is { } away)
                lying[path] = away.Fact.Id;
            else if (!missing.TryGetValue(path, out var since))
                missing[path] = now;
            else if (Gone <= now - since)
                await KeepAsync(new(Guid.CreateVersion7().ToString(), "folder", now, path, null, [gone.Id]), now);
        }

        await files.LearnAsync();
    }

    // One by one: a large folder is more than one transaction should hold, and each stands for itself.
    private async Task KeepAsync(FileSaved change, DateTimeOffset now)
    {
        await files.Store.KeepAsync([change], now);
        files.Expect(change.Path);
        lying[change.Path] = change.Id;
    }

    // A version where the file is none that is known; else null, and it is noted which one lies there.
    private FileSaved? ChangeOf(string path, string hash, byte[] content)
    {
        var history = files.Histories.GetValueOrDefault(path);
        var noted = lying.TryGetValue(path, out var id) ? files.VersionOf(path, id) : null;
        if (noted is not null && HashOf(noted) == hash)
            return null;
        // Put there by this program, which was stopped before it could note it; or a browser's version by chance: the latest one with this content. One that is older than
        // what is noted was brought back by somebody.
        if (history?.Versions.LastOrDefault(v => HashOf(v.Fact) == hash && (noted is null || history.GoesOnFrom(v.Fact, noted.Id))) is { } same)
        {
            lying[path] = same.Fact.Id;
            return null;
        }

        IReadOnlyList<string> bases = noted is not null ? [noted.Id] : history is { Heads: [var only] } ? [only.Id] : [];
        return new FileSaved(Guid.CreateVersion7().ToString(), "folder", DateTimeOffset.UtcNow, path, content, bases);
    }

    private async Task<bool> WriteOutAsync(IReadOnlyCollection<string>? only)
    {
        var written = 0;
        foreach (var (path, history) in files.Histories)
        {
            if (history.Heads is not [var head] || lying.GetValueOrDefault(path) == head.Id || only?.Contains(path) == false || WhyNot(path) is not null)
                continue;
            if (written++ == MostWritten)
                return true;
            await TryAsync(path, async () =>
            {
                var target = Path.Combine(folder, path);
                var noted = lying.TryGetValue(path, out var id) ? files.VersionOf(path, id) : null;
                // Looked at once more, just before: what lies there must be what is noted.
                var there = File.Exists(target) ? Hash(await File.ReadAllBytesAsync(target)) : null;
                if (there != (noted is null ? null : HashOf(noted)) && there != HashOf(head))
                    return;
                if (head.IsRemoved)
                {
                    File.Delete(target);
                    seen.Remove(path);
                }
                else if (there != HashOf(head))
                {
                    if ((await files.Store.FindAsync(head.Id) as FileSaved)?.Content is not { } content)
                        return;
                    Directory.CreateDirectory(Path.GetDirectoryName(target)!);
                    Replace(target, content);
                }

                lying[path] = head.Id;
            });
        }

        return false;
    }

    private static string? HashOf(FileSaved version) => version.Content is { } hash ? Convert.ToHexStringLower(hash) : null;

    private static string Hash(byte[] content) => Convert.ToHexStringLower(SHA256.HashData(content));

    /// <summary>Writes a file whole or not at all: beside it, then put in its place.</summary>
    public static void Replace(string file, byte[] content)
    {
        var beside = Path.Combine(Path.GetDirectoryName(file)!, $"{Beside}{Guid.NewGuid():N}{BesideEnds}");
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

    private void Try(string path, Action work)
    {
        try
        {
            work();
        }
        catch (Exception e) when (e is IOException or UnauthorizedAccessException)
        {
            troubles[path] = e.Message;
        }
    }

    // A file's own trouble is its own: no rights, a folder of its name, gone meanwhile. A full disk is everybody's, and is told all the same.
    private async Task TryAsync(string path, Func<Task> work)
    {
        try
        {
            await work();
            troubles.Remove(path);
        }
        catch (Exception e) when (e is IOException or UnauthorizedAccessException)
        {
            troubles[path] = e.Message;
        }
    }

    private IEnumerable<(string Path, FileInfo File)> Named(IReadOnlyCollection<string> only) =>
        from path in only
        where WhyNot(path) is null
        let file = new FileInfo(Path.Combine(folder, path))
        where file.Exists
        select (path, file);

    private IEnumerable<(string Path, FileInfo File)> Files(List<string> closed)
    {
        foreach (var (path, entry) in Entries("", closed))
        {
            if (entry is FileInfo file && entry.Name[0] != '.' && JobPath.Endings.Any(e => path.EndsWith(e, StringComparison.OrdinalIgnoreCase)))
            {
                if (JobPath.WhyNot(path) is not { } why)
                    yield return (path, file);
                else if (!entry.Name.StartsWith(JobPath.SpreadsheetLock, StringComparison.Ordinal))
                    troubles[path] = why;
            }
        }
    }

    /// <summary>All files below the folder, without links and hidden folders. Folders that cannot be looked into are told, and added to <paramref name="closed"/>.</summary>
    private List<(string Path, FileSystemInfo Entry)> Entries(string above, List<string>? closed = null)
    {
        List<(string, FileSystemInfo)> entries = [];
        try
        {
            foreach (var entry in new DirectoryInfo(Path.Combine(folder, above)).EnumerateFileSystemInfos().OrderBy(e => e.Name, StringComparer.Ordinal))
            {
                if (entry.LinkTarget is not null)
                    continue;
                if (entry is FileInfo)
                    entries.Add((above + entry.Name, entry));
                else if (entry.Name[0] != '.' && JobPath.WhyNot($"{above}{entry.Name}/a.yaml") is null)
                    entries.AddRange(Entries($"{above}{entry.Name}/", closed));
            }
        }
        catch (Exception e) when (e is IOException or UnauthorizedAccessException)
        {
            closed?.Add(above);
            troubles[above.Length > 0 ? above : "."] = e.Message;
        }

        return entries;
    }

    private static bool IsLink(string path) => new FileInfo(path).LinkTarget is not null || new DirectoryInfo(path).LinkTarget is not null;

    public void Dispose() => turn.Dispose();
}
