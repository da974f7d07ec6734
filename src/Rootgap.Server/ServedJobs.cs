using System.Collections.Concurrent;
using Rootgap.Store;

namespace Rootgap.Server;

/// <summary>The jobs that a server serves.</summary>
internal sealed class ServedJobs : IAsyncDisposable
{
    private readonly ConcurrentDictionary<string, ServedJob> jobs = new(StringComparer.Ordinal);
    private readonly Archive? shared;
    private readonly bool isWholeDatabase;
    private readonly ILogger log;

    private ServedJobs(Archive? shared, bool isWholeDatabase, ILogger log) => (this.shared, this.isWholeDatabase, this.log) = (shared, isWholeDatabase, log);

    /// <summary>The one job of a server for one; null where there are many.</summary>
    public ServedJob? Only { get; private set; }

    /// <summary>All jobs that are open, by name.</summary>
    public IEnumerable<ServedJob> Open => jobs.Values.OrderBy(j => j.Name, StringComparer.Ordinal);

    public static async Task<ServedJobs> OpenAsync(Serving serving, ILogger log)
    {
        var database = serving.Store is { } connection ? await Archive.OpenServerAsync(connection) : null;
        var all = new ServedJobs(database, serving is { Folder: null, Jobs: null }, log);
        try
        {
            if (serving.Folder is { } folder)
                all.Add(all.Only = await ServedJob.InFolderAsync(folder, serving.Name, database, serving.IsAnew, log));
            foreach (var below in serving.Jobs is { } many ? Directory.GetDirectories(many).Order(StringComparer.Ordinal) : Enumerable.Empty<string>())
            {
                if (Path.GetFileName(below)[0] != '.' && new DirectoryInfo(below).LinkTarget is null)
                    all.Add(await ServedJob.InFolderAsync(below, Path.GetFileName(below), database, serving.IsAnew, log));
            }

            if (all.isWholeDatabase)
                await all.LookAsync();
            return all;
        }
        catch
        {
            await all.DisposeAsync();
            throw;
        }
    }

    /// <summary>A job by its id; null where it is not served here.</summary>
    public async Task<ServedJob?> FindAsync(string id)
    {
        if (!jobs.ContainsKey(id) && isWholeDatabase)
            await LookAsync();
        return jobs.GetValueOrDefault(id);
    }

    /// <summary>Opens what was added to the database since.</summary>
    public async Task LookAsync()
    {
        if (!isWholeDatabase)
            return;
        foreach (var kept in await shared!.JobsAsync())
        {
            if (!jobs.ContainsKey(kept.Id))
                Add(ServedJob.InDatabase(await shared.OpenJobAsync(kept.Id), log));
        }
    }

    private void Add(ServedJob job) => jobs.TryAdd(job.Id, job);

    public async ValueTask DisposeAsync()
    {
        foreach (var job in jobs.Values)
            await job.DisposeAsync();
        if (shared is not null)
            await shared.DisposeAsync();
    }
}
