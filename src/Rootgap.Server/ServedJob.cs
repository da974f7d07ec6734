using System.Text.Json;
using Rootgap.Store;

namespace Rootgap.Server;

/// <summary>A job that is served: its facts, the histories of its files, and the folder that is kept in step with them, where it has one.</summary>
internal sealed class ServedJob : IAsyncDisposable
{
    private readonly Archive? archive;
    private readonly FolderLock? held;

    private ServedJob(string name, FactStore store, string? folder, Archive? archive, FolderLock? held, ILogger log)
    {
        (Name, Store, this.archive, this.held) = (name, store, archive, held);
        Files = new(store);
        People = new(store, TimeProvider.System);
        Folder = folder is null ? null : new(folder, Files, log);
    }

    public string Name { get; }

    public string Id => Store.Job.Id;

    public FactStore Store { get; }

    public JobFiles Files { get; }

    public JobPeople People { get; }

    /// <summary>Null where files come from the store alone.</summary>
    public JobFolder? Folder { get; }

    /// <summary>What whoever is not at this machine must show.</summary>
    public required JobToken Token { get; init; }

    /// <summary>A job that lies in a database alone.</summary>
    public static ServedJob InDatabase(FactStore store, ILogger log) => new(store.Job.Name, store, null, null, null, log) { Token = new(store) };

    /// <summary>
    /// A job in a folder, with its records there or in a database that it shares. The folder notes which job it is; where it had records and now has none, they were lost,
    /// and a new job must not begin without a word.
    /// </summary>
    /// <param name="shared">The database; null for a file in the folder.</param>
    public static async Task<ServedJob> InFolderAsync(string folder, string name, Archive? shared, bool isAnew, ILogger log)
    {
        var own = Directory.CreateDirectory(JobPlace.OwnOf(folder)).FullName;
        var mine = FolderLock.Take(own);
        var records = shared;
        try
        {
            var noted = JobPlace.NotedIn(own);
            var isKnown = noted is not null || File.Exists(Path.Combine(own, "folder.json"));
            if (shared is null)
                RecordsFile.Finish(own);
            records ??= await Archive.OpenFileAsync(JobPlace.RecordsOf(folder));
            var jobs = await records.JobsAsync();
            var there = jobs.FirstOrDefault(j => j.Id == noted) ?? (shared is null ? jobs.Count > 0 ? jobs[0] : null : noted is null ? jobs.FirstOrDefault(j => j.Name == name) : null);
            if (there is null && isKnown && !isAnew)
            {
                throw new StoreException(
                    StoreTrouble.Missing,
                    shared is null ? $"The records of this job are not there: {JobPlace.RecordsOf(folder)} is missing or empty, and the folder was served before." : $"The database holds no records of this folder's job, and the folder was served before: {folder}",
                    "Put them back: `rootgap job restore BACKUP FOLDER`"
                    + (shared is null ? "" : " --store ... (a backup of the folder's own records is made with `rootgap job backup FOLDER`)")
                    + ". Without a backup say `rootgap serve FOLDER --anew`: the job goes on under its id, and tablets send again all that they hold.");
            }

            var store = there is null ? await records.BeginJobAsync(name, noted) : await records.OpenJobAsync(there.Id);
            if (noted != store.Job.Id)
                Note(own, store.Job.Id);
            var job = new ServedJob(name, store, folder, shared is null ? records : null, mine, log) { Token = new(folder) };
            await job.Folder!.StartAsync();
            return job;
        }
        catch
        {
            mine.Dispose();
            if (shared is null && records is not null)
                await records.DisposeAsync();
            throw;
        }
    }

    /// <summary>Notes in a folder which job it is.</summary>
    public static void Note(string own, string job) =>
        JobFolder.Replace(Path.Combine(own, "job.json"), JsonSerializer.SerializeToUtf8Bytes(new Dictionary<string, string>(StringComparer.Ordinal) { ["job"] = job }));

    public async ValueTask DisposeAsync()
    {
        Folder?.Dispose();
        Files.Dispose();
        People.Dispose();
        if (archive is not null)
            await archive.DisposeAsync();
        held?.Dispose();
    }
}
