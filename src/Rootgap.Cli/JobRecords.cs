using Rootgap.Cli.Commands;
using Rootgap.Cutting;
using Rootgap.Fabricating;
using Rootgap.Findings;
using Rootgap.Records;
using Rootgap.Store;

namespace Rootgap.Cli;

/// <summary>What was entered in the app on a job: read from the records that lie in the job's folder, or in the database that the folder's job is in.</summary>
/// <param name="Folder">The job's folder, full.</param>
internal sealed record JobRecords(string Folder, JobRecord Record)
{
    /// <summary>The folder of the job that a file lies in: the first above it that was ever served; null where none was.</summary>
    public static string? FolderOf(string file)
    {
        for (var folder = Path.GetDirectoryName(Path.GetFullPath(file)); folder is not null; folder = Path.GetDirectoryName(folder))
        {
            if (File.Exists(JobPlace.RecordsOf(folder)) || JobPlace.NotedIn(JobPlace.OwnOf(folder)) is not null)
                return folder;
        }

        return null;
    }

    /// <exception cref="IOException">There are no records.</exception>
    /// <exception cref="StoreException">They cannot be had.</exception>
    public static JobRecords Of(string folder, string? store)
    {
        return Read().GetAwaiter().GetResult();

        async Task<JobRecords> Read()
        {
            await using var place = await JobPlace.OpenAsync(folder, store, name: null);
            return new(Path.GetFullPath(folder), JobRecord.Of(await place.FactsAsync()));
        }
    }

    /// <summary>What was done on a drawing, as it stands on it now; null where its job was never served, or is not to be looked at.</summary>
    /// <exception cref="IOException">There are no records.</exception>
    /// <exception cref="StoreException">They cannot be had.</exception>
    public static DrawingRecord? OnDrawing(RecordsOption.Wanted wanted, string file, Fabrication fabrication)
    {
        if (wanted.IsWithout || (wanted.Folder ?? FolderOf(file)) is not { } folder)
            return null;
        if (wanted is { Folder: null, Store: null } && !File.Exists(JobPlace.RecordsOf(folder)))
        {
            Console.Error.WriteLine($"The records of {folder} are not in the folder: what was entered in the app is not reckoned with. Say where they are with --store, or --without-records if that is meant.");
            return null;
        }

        var records = Of(folder, wanted.Store);
        return new Following().Of(records.Record, records.PathOf(file, isByName: true), fabrication, []);
    }

    /// <summary>What was done at the saw, as the stock file has its bars.</summary>
    /// <param name="isOneJob">A copy of the stock file outside the job's folder is known by its name; where jobs have a stock file each, it is not.</param>
    public IReadOnlyList<SawnBar> AtTheSaw(string stock, bool isOneJob, Rack rack, IEnumerable<(string File, Fabrication Fabrication, IReadOnlyList<Piece> Pieces)> drawings, List<Finding> findings)
    {
        var following = new Following();
        return SawFacts.Of(Record, PathOf(stock, isOneJob), rack, drawings.Select(d => (following.Of(Record, PathOf(d.File, isByName: true), d.Fabrication, []), d.Pieces)), findings);
    }

    // The path that the job has for a file. A copy that lies elsewhere is known by its name.
    private string PathOf(string file, bool isByName)
    {
        var path = Path.GetRelativePath(Folder, Path.GetFullPath(file)).Replace(Path.DirectorySeparatorChar, '/');
        return !path.StartsWith("../", StringComparison.Ordinal) && !Path.IsPathRooted(path) ? path
            : !isByName ? path : Record.Files.Values.FirstOrDefault(f => f.Latest is not null && f.Path.Split('/')[^1].Equals(Path.GetFileName(file), StringComparison.OrdinalIgnoreCase))?.Path ?? path;
    }
}
