using System.Text.Json;
using Rootgap.Records;

namespace Rootgap.Store;

/// <summary>Where the records of a job lie: in its folder, or in a database under the id that the folder notes.</summary>
public sealed class JobPlace : IAsyncDisposable
{
    public required Archive Archive { get; init; }

    /// <summary>The job's id.</summary>
    public required string Job { get; init; }

    /// <summary>Where the program keeps what is its own in a job's folder.</summary>
    public static string OwnOf(string folder) => Path.Combine(folder, ".rootgap");

    /// <summary>The records of a folder's job, where they lie in the folder.</summary>
    public static string RecordsOf(string folder) => Path.Combine(OwnOf(folder), "records.db");

    /// <summary>The id of the job that a folder is noted to be; null where none is noted.</summary>
    public static string? NotedIn(string own)
    {
        try
        {
            return JsonSerializer.Deserialize<Dictionary<string, string>>(File.ReadAllBytes(Path.Combine(own, "job.json")))?.GetValueOrDefault("job");
        }
        catch (Exception e) when (e is FileNotFoundException or DirectoryNotFoundException or JsonException)
        {
            return null;
        }
    }

    /// <summary>Opens the records of a job.</summary>
    /// <param name="folder">The job's folder.</param>
    /// <param name="store">A database's connection string; null where they lie in the folder.</param>
    /// <param name="name">The job's name in the database; null for the one that the folder notes.</param>
    /// <exception cref="FileNotFoundException">There are none in the folder.</exception>
    /// <exception cref="StoreException">The store cannot be had, or which job is meant is not known.</exception>
    public static async Task<JobPlace> OpenAsync(string folder, string? store, string? name)
    {
        var archive = store is null ? await Archive.OpenFileAsync(RecordsIn(folder)) : await Archive.OpenServerAsync(store);
        try
        {
            var noted = name is null ? NotedIn(OwnOf(Path.GetFullPath(folder))) : null;
            var jobs = await archive.JobsAsync();
            var job = jobs.FirstOrDefault(j => name is not null ? j.Name == name : noted is not null ? j.Id == noted : jobs.Count == 1)
                ?? throw new StoreException(StoreTrouble.Missing, name is not null ? $"The database holds no job \"{name}\"." : "Which job is meant is not known.", jobs.Count > 0 ? $"Say --job with one of: {string.Join(", ", jobs.Select(j => j.Name))}." : "Serve it once: rootgap serve FOLDER.");
            return new() { Archive = archive, Job = job.Id };
        }
        catch
        {
            await archive.DisposeAsync();
            throw;
        }
    }

    /// <summary>Begins the records of a folder's job that was never served.</summary>
    /// <exception cref="StoreException">It was, and its records are gone.</exception>
    public static async Task<JobPlace> BeginAsync(string folder)
    {
        var full = Path.GetFullPath(folder);
        if (NotedIn(OwnOf(full)) is not null)
            throw new StoreException(StoreTrouble.Missing, $"The records of this job are not there: {RecordsOf(full)} is missing, and the folder was served before.", "Put them back: `rootgap job restore BACKUP FOLDER`.");
        Directory.CreateDirectory(OwnOf(full));
        var archive = await Archive.OpenFileAsync(RecordsOf(full));
        try
        {
            var jobs = await archive.JobsAsync();
            var job = jobs is [var there] ? there.Id : (await archive.BeginJobAsync(Path.GetFileName(full.TrimEnd(Path.DirectorySeparatorChar)))).Job.Id;
            return new() { Archive = archive, Job = job };
        }
        catch
        {
            await archive.DisposeAsync();
            throw;
        }
    }

    /// <summary>The records in a folder, where there are some.</summary>
    /// <exception cref="FileNotFoundException">There are none.</exception>
    public static string RecordsIn(string folder)
    {
        var records = RecordsOf(Path.GetFullPath(folder));
        return File.Exists(records) ? records : throw new FileNotFoundException($"{records}: there are no records.");
    }

    /// <summary>All facts of the job that this version can read, in the order in which they were kept.</summary>
    public async Task<IReadOnlyList<Fact>> FactsAsync()
    {
        var store = await Archive.OpenJobAsync(Job);
        List<Fact> facts = [];
        long after = 0;
        FactPage page;
        do
        {
            page = await store.ReadAsync(after);
            foreach (var kept in page.Facts)
            {
                if (FactJson.Read(kept.Json).Fact is { } fact)
                    facts.Add(fact with { Kept = new(kept.Seq, kept.Received) });
            }

            after = page.Next;
        }
        while (page.More);
        return facts;
    }

    public ValueTask DisposeAsync() => Archive.DisposeAsync();
}
