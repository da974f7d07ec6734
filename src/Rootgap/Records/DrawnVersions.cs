using Rootgap.Drawings;
using Rootgap.Fabricating;
using Rootgap.Routes;

namespace Rootgap.Records;

/// <summary>The version of a drawing that facts stand on.</summary>
/// <param name="Key">The same for the same versions of the drawing and of what lies beside it.</param>
/// <param name="Version">Null where it is not here.</param>
/// <param name="At">When the fact was made: what lay beside the drawing then, where the fact does not say.</param>
internal sealed record Ground(string Key, IReadOnlyList<string> Versions, FileSaved? Version, string Revision, DateTimeOffset At)
{
    /// <summary>No file of the job was ever this drawing: the fact is about whatever has its number and revision.</summary>
    public bool IsAnything => Key.Length == 0;

    public static string KeyOf(IReadOnlyList<string> versions) => string.Join(' ', versions);
}

/// <summary>Finds the versions that facts stand on, and works each out once.</summary>
/// <param name="old">Where there is no job, only two drawings: the one that all is said to be made on; null otherwise.</param>
internal sealed class DrawnVersions(Fabrication? old = null)
{
    private readonly Dictionary<string, Fabrication?> made = new(StringComparer.Ordinal);
    private const string Old = "old";

    private ILookup<DrawingHead, FileSaved>? index;
    private JobRecord? indexed;
    private readonly Dictionary<string, DrawingHead> heads = new(StringComparer.Ordinal);

    /// <summary>What a fact stands on; null where it is not about the drawing of this file.</summary>
    public Ground? GroundOf(JobRecord record, DrawingFact fact, string path, string number)
    {
        if (old is { Route.Drawing: var then })
            return fact.Drawing == new DrawingRef(then.Number, then.Revision) ? new(Old, [], null, then.Revision, fact.When) : null;
        if (fact.Versions.Count > 0)
        {
            var version = record.Versions.GetValueOrDefault(fact.Versions[0]);
            // A file that was given another name, or whose version has not come yet, is known by the drawing's number.
            var isMine = version is not null && record.Files[version.Path].Latest is not null ? version.Path == path : fact.Drawing.Number == number;
            return isMine ? new(Ground.KeyOf(fact.Versions), fact.Versions, version, fact.Drawing.Revision, fact.Time) : null;
        }

        if (fact.Drawing.Number != number)
            return null;
        // From before versions were noted: the one that was current then; of two files with one number and revision the one that was saved last.
        var versions = VersionsOf(record, new(number, fact.Drawing.Revision));
        var current = versions.LastOrDefault(v => v.Time <= fact.Time) ?? versions.FirstOrDefault();
        return current is null ? new("", [], null, fact.Drawing.Revision, fact.Time)
            : current.Path == path || record.Files[current.Path].Latest is null ? new("@" + current.Id, [current.Id], current, fact.Drawing.Revision, fact.Time)
            : null;
    }

    /// <summary>The drawing of a version, made ready for the shop; null where it is not here or cannot be read.</summary>
    public Fabrication? MadeOf(JobRecord record, Ground ground)
    {
        if (ground.Key == Old)
            return old;
        if (ground.Version?.Text is not { } text)
            return null;
        if (!made.TryGetValue(ground.Key, out var known))
        {
            var reading = DrawingReader.Read(text, ground.Version.Path, named => BesideOf(record, ground, JobPath.Beside(ground.Version.Path, named)));
            made[ground.Key] = known = reading.Partial is { } drawing ? Spooling.Of(Routing.Of(drawing)) : null;
        }

        return known;
    }

    private static byte[]? BesideOf(JobRecord record, Ground ground, string path)
    {
        if (!record.Files.TryGetValue(path, out var file))
            return null;
        var noted = file.Versions.FirstOrDefault(v => ground.Versions.Contains(v.Fact.Id, StringComparer.Ordinal));
        return (noted?.Fact ?? file.Versions.LastOrDefault(v => v.Counts && v.Fact.Time <= ground.At)?.Fact ?? file.Latest)?.Content;
    }

    /// <summary>The versions of files that were a drawing in a revision, by time.</summary>
    private IEnumerable<FileSaved> VersionsOf(JobRecord record, DrawingHead head)
    {
        if (!ReferenceEquals(indexed, record))
        {
            indexed = record;
            index = record.Files.Values.SelectMany(f => f.Versions.Where(v => v.Counts).Select(v => v.Fact)).OrderBy(f => f, Fact.Order).ToLookup(HeadOf);
        }

        return index![head];
    }

    private DrawingHead HeadOf(FileSaved version)
    {
        if (!heads.TryGetValue(version.Id, out var head))
            heads[version.Id] = head = version.Text is { } text ? DrawingHead.Of(text) : default;
        return head;
    }
}
