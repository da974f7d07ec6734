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
    /// <summary>The folder of the job that files lie in: the first above each that was ever served; null where none was.</summary>
    /// <exception cref="IOException">The files are of several jobs.</exception>
    public static string? FolderOf(IEnumerable<string> files)
    {
        var folders = files.Select(Above).OfType<string>().Distinct(StringComparer.Ordinal).ToList();
        return folders.Count < 2 ? folders.FirstOrDefault()
            : throw new IOException($"The drawings are of several jobs that were served ({string.Join(", ", folders)}). Say with --records whose records count, or --without-records.");

        static string? Above(string file)
        {
            for (var folder = Path.GetDirectoryName(Path.GetFullPath(file)); folder is not null; folder = Path.GetDirectoryName(folder))
            {
                if (File.Exists(JobPlace.RecordsOf(folder)) || JobPlace.NotedIn(JobPlace.OwnOf(folder)) is not null)
                    return folder;
            }

            return null;
        }
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

    /// <summary>What was done at the saw, as the stock file has its bars.</summary>
    public IReadOnlyList<SawnBar> AtTheSaw(string stock, Rack rack, IEnumerable<(string File, Fabrication Fabrication, IReadOnlyList<Piece> Pieces)> drawings, List<Finding> findings)
    {
        var following = new Following();
        return SawFacts.Of(Record, PathOf(stock), rack, drawings.Select(d => (following.Of(Record, PathOf(d.File), d.Fabrication, []), d.Pieces)), findings);
    }

    // The path that the job has for a file. A copy that lies elsewhere is known by its name.
    private string PathOf(string file)
    {
        var path = Path.GetRelativePath(Folder, Path.GetFullPath(file)).Replace(Path.DirectorySeparatorChar, '/');
        return !path.StartsWith("../", StringComparison.Ordinal) && !Path.IsPathRooted(path) ? path
            : Record.Files.Values.FirstOrDefault(f => f.Latest is not null && f.Path.Split('/')[^1].Equals(Path.GetFileName(file), StringComparison.OrdinalIgnoreCase))?.Path ?? path;
    }
}
