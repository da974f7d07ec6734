using Rootgap.Findings;
using Rootgap.Packets;
using Rootgap.Papers;
using Rootgap.Records;
using Rootgap.Store;

namespace Rootgap.Cli;

/// <summary>A drawing of a job's folder with what was done on it.</summary>
/// <param name="Versions">Ids of its saved version and of those beside it; empty where the job was never served.</param>
internal sealed record JobLine(LineDone Line, Packet Packet, IReadOnlyList<string> Versions);

/// <summary>The drawings of a job's folder with its records.</summary>
internal sealed record JobLines(string Folder, JobRecord Record, IReadOnlyList<JobLine> Lines)
{
    public JobPapers Papers { get; } = new(Record, [.. Lines.Select(l => l.Line)]);

    public JobLine Of(LineDone line) => Lines.First(l => l.Line == line);

    /// <summary>The folder's drawings with its records; null where something cannot be read, which is told.</summary>
    /// <param name="numbers">Only these drawings; empty for all.</param>
    public static JobLines? Of(string folder, string? store, IReadOnlyList<string> numbers)
    {
        if (!Directory.Exists(folder))
        {
            Console.Error.WriteLine($"{folder}: there is no such folder. Name the folder of the job.");
            return null;
        }

        JobRecord record;
        try
        {
            record = store is null && !File.Exists(JobPlace.RecordsOf(Path.GetFullPath(folder))) ? JobRecord.Empty : JobRecords.Of(folder, store).Record;
        }
        catch (Exception e) when (e is StoreException or IOException or UnauthorizedAccessException)
        {
            Console.Error.WriteLine($"{folder}: its records cannot be read: {e.Message}");
            return null;
        }

        var following = new Following();
        var isBad = false;
        List<JobLine> lines = [];
        foreach (var opened in DrawingRun.Each(DrawingFiles.Find([folder], out _), DrawingFiles.Open))
        {
            if (opened.Packet is not { } packet)
            {
                var printer = FindingPrinter.ForConsole(Console.Error, Console.IsErrorRedirected);
                printer.Know(opened.File, opened.Text);
                printer.Print(opened.Findings);
                isBad = true;
                continue;
            }

            if (numbers.Count > 0 && !numbers.Contains(packet.Drawing.Number, StringComparer.OrdinalIgnoreCase))
                continue;
            var path = Path.GetRelativePath(Path.GetFullPath(folder), Path.GetFullPath(opened.File)).Replace(Path.DirectorySeparatorChar, '/');
            if (Versions(record, folder, path, opened.Text) is not { } versions)
            {
                Console.Error.WriteLine($"{opened.File}: it was changed since the job was served last, or a file beside it was, and the records do not know it so.");
                Console.Error.WriteLine($"  do: serve the folder once (./rootgap serve {folder}), so that the version is kept that facts are about.");
                isBad = true;
                continue;
            }

            lines.Add(new(new(path, packet.Fabrication, following.Of(record, path, packet.Fabrication, versions)) { IsBuildable = packet.IsBuildable }, packet, versions));
        }

        foreach (var number in numbers.Where(n => !isBad && !lines.Exists(l => l.Line.Number.Equals(n, StringComparison.OrdinalIgnoreCase))))
        {
            Console.Error.WriteLine($"{folder}: there is no drawing {number}.");
            isBad = true;
        }

        if (!isBad && lines.Count == 0)
        {
            Console.Error.WriteLine($"{folder}: there is no drawing in it. Name the folder of the job, with its drawing files.");
            return null;
        }

        return isBad ? null : new(folder, record, lines);
    }

    // The saved versions of a drawing and of what lies beside it; none where the job never kept it, null where the folder has another content than the records.
    private static IReadOnlyList<string>? Versions(JobRecord record, string folder, string path, string text)
    {
        if (!record.Files.TryGetValue(path, out var file) || file.Latest is not { } version)
            return record.Files.Count == 0 ? [] : null;
        if (version.Text != text)
            return null;
        var beside = new SortedSet<string>(StringComparer.Ordinal);
        Rootgap.Drawings.DrawingReader.Read(text, path, named =>
        {
            beside.Add(JobPath.Beside(path, named));
            return record.Files.GetValueOrDefault(JobPath.Beside(path, named))?.Latest?.Content;
        });
        foreach (var other in beside)
        {
            var there = Path.Combine(folder, other.Replace('/', Path.DirectorySeparatorChar));
            var kept = record.Files.GetValueOrDefault(other)?.Latest?.Content;
            if (File.Exists(there) ? kept is null || !kept.AsSpan().SequenceEqual(File.ReadAllBytes(there)) : kept is not null)
                return null;
        }

        return [version.Id, .. beside.Select(b => record.Files.GetValueOrDefault(b)?.Latest?.Id).OfType<string>()];
    }

    /// <summary>Keeps facts. What was refused is told; the exit code says whether all is kept.</summary>
    /// <param name="signing">How they are signed where people of the job sign.</param>
    /// <param name="contents">Pictures and papers that the facts speak of.</param>
    /// <exception cref="NotSignedException">People sign on this job, and one of the facts is not taken: nothing is kept.</exception>
    public static async Task<Keeping> Keep(string folder, string? store, IReadOnlyList<Fact> facts, Signing signing, params IReadOnlyList<byte[]> contents)
    {
        await using var place = store is null && !File.Exists(JobPlace.RecordsOf(Path.GetFullPath(folder)))
            ? await JobPlace.BeginAsync(folder) : await JobPlace.OpenAsync(folder, store, name: null);
        var to = await place.Archive.OpenJobAsync(place.Job);
        var keeping = await to.KeepAsync(await signing.SignedAsync(facts, place, to), DateTimeOffset.UtcNow);
        foreach (var content in contents)
            await to.Attachments.TakeAsync(content);
        return keeping;
    }

    /// <summary>The contents of pictures and papers that are there, by their digests.</summary>
    public static async Task<Dictionary<string, byte[]>> Contents(string folder, string? store, IEnumerable<string> digests)
    {
        var found = new Dictionary<string, byte[]>(StringComparer.Ordinal);
        if (store is null && !File.Exists(JobPlace.RecordsOf(Path.GetFullPath(folder))))
            return found;
        await using var place = await JobPlace.OpenAsync(folder, store, name: null);
        var from = await place.Archive.OpenJobAsync(place.Job);
        foreach (var digest in digests.Distinct(StringComparer.Ordinal))
        {
            if (await from.Attachments.ReadAsync(digest) is { } content)
                found[digest] = content;
        }

        return found;
    }
}
