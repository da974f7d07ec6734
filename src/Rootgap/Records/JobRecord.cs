using System.Security.Cryptography;

namespace Rootgap.Records;

/// <summary>A fact in the record: it stays to be seen, also where it was withdrawn.</summary>
/// <param name="Withdrawals">The withdrawals that count; empty where it counts itself.</param>
public sealed record Entry<T>(T Fact, IReadOnlyList<Withdrawn> Withdrawals)
    where T : Fact
{
    public bool Counts => Withdrawals.Count == 0;

    /// <summary>The fact as it reads on the drawing as it is now: parts by the names that they have now. The fact itself where the drawing has not changed.</summary>
    public T As { get; init; } = Fact;
}

/// <summary>
/// What is known of a job: all its facts, in the order of their time, sorted by what they speak of. The same facts give the same record, in
/// whatever order they come and however often. A fact's time is what the device's clock said, but never later than it was kept; of one time, the order in which they were kept.
/// </summary>
public sealed record JobRecord
{
    public static readonly JobRecord Empty = Of([]);

    /// <summary>Every fact once, by time, then by their number in the store, then by id.</summary>
    public required IReadOnlyList<Entry<Fact>> Facts { get; init; }

    /// <summary>Files by their path; also those that were taken away.</summary>
    public required IReadOnlyDictionary<string, FileHistory> Files { get; init; }

    /// <summary>What was said of drawings, by time, on whatever version; <see cref="Following"/> says what it means on the drawing as it is now.</summary>
    public required IReadOnlyList<Entry<DrawingFact>> OnDrawings { get; init; }

    /// <summary>What may be about the drawing of a file: what was made on a version of it, and what has the drawing's number. By time.</summary>
    public IEnumerable<Entry<DrawingFact>> OnDrawing(string path, string number) => ByPath[path].Concat(ByNumber[number]).Distinct().OrderBy(e => e.Fact, Fact.Order);

    private ILookup<string, Entry<DrawingFact>> ByNumber { get; init; } = Array.Empty<Entry<DrawingFact>>().ToLookup(_ => "");

    private ILookup<string, Entry<DrawingFact>> ByPath { get; init; } = Array.Empty<Entry<DrawingFact>>().ToLookup(_ => "");

    /// <summary>Saved versions by their id.</summary>
    public required IReadOnlyDictionary<string, FileSaved> Versions { get; init; }

    private BarHeats? barHeats;

    /// <summary>The heat of the bar that a piece came from; null where nobody noted which bar, or its heat is known nowhere.</summary>
    public string? HeatOfBar(PieceCut cut) => (barHeats ??= new(this)).Of(cut);

    public static JobRecord Of(IEnumerable<Fact> facts)
    {
        var once = new Dictionary<string, Fact>(StringComparer.Ordinal);
        foreach (var fact in facts)
        {
            // One id, one fact. Should two programs ever use an id twice, everybody still keeps the same one of the two.
            if (!once.TryGetValue(fact.Id, out var known) || (!ReferenceEquals(known, fact) && string.CompareOrdinal(FactJson.Text(fact), FactJson.Text(known)) < 0))
                once[fact.Id] = fact;
        }

        var ordered = once.Values.Order(Fact.Order).ToList();
        var withdrawals = Withdrawals(ordered);
        Entry<T> EntryOf<T>(T fact)
            where T : Fact => new(fact, withdrawals.GetValueOrDefault(fact.Id) ?? []);
        List<Entry<DrawingFact>> onDrawings = [.. ordered.OfType<DrawingFact>().Select(EntryOf)];
        var versions = ordered.OfType<FileSaved>().ToDictionary(f => f.Id, StringComparer.Ordinal);
        return new JobRecord
        {
            Facts = [.. ordered.Select(EntryOf)],
            Files = ordered.OfType<FileSaved>().GroupBy(f => f.Path, StringComparer.Ordinal)
                .ToDictionary(g => g.Key, g => new FileHistory(g.Key, [.. g.Select(EntryOf)]), StringComparer.Ordinal),
            OnDrawings = onDrawings,
            ByNumber = onDrawings.ToLookup(e => e.Fact.Drawing.Number, StringComparer.Ordinal),
            ByPath = onDrawings.ToLookup(e => e.Fact.Versions is [var first, ..] && versions.TryGetValue(first, out var version) ? version.Path : "", StringComparer.Ordinal),
            Versions = versions,
        };
    }

    // A withdrawal counts unless one that counts withdraws it. Withdrawals that withdraw each other in a circle all count for nothing.
    private static Dictionary<string, List<Withdrawn>> Withdrawals(List<Fact> ordered)
    {
        var all = ordered.OfType<Withdrawn>().ToList();
        var waiting = all.ToDictionary(w => w.Id, _ => 0, StringComparer.Ordinal);
        foreach (var w in all)
        {
            if (waiting.TryGetValue(w.Fact, out var count))
                waiting[w.Fact] = count + 1;
        }

        var byId = all.ToDictionary(w => w.Id, StringComparer.Ordinal);
        var counting = new HashSet<string>(StringComparer.Ordinal);
        var struck = new HashSet<string>(StringComparer.Ordinal);
        var ready = new Queue<Withdrawn>(all.Where(w => waiting[w.Id] == 0));
        while (ready.TryDequeue(out var w))
        {
            if (!struck.Contains(w.Id))
            {
                counting.Add(w.Id);
                struck.Add(w.Fact);
            }

            if (byId.TryGetValue(w.Fact, out var next) && --waiting[next.Id] == 0)
                ready.Enqueue(next);
        }

        return all.Where(w => counting.Contains(w.Id)).GroupBy(w => w.Fact, StringComparer.Ordinal).ToDictionary(g => g.Key, g => g.ToList(), StringComparer.Ordinal);
    }
}

/// <summary>All versions of a file.</summary>
public sealed record FileHistory
{
    internal FileHistory(string path, IReadOnlyList<Entry<FileSaved>> versions)
    {
        Path = path;
        Versions = versions;
        Heads = HeadsOf(versions);
    }

    public string Path { get; }

    /// <summary>By time.</summary>
    public IReadOnlyList<Entry<FileSaved>> Versions { get; }

    /// <summary>
    /// The versions that nobody has gone on from, by time: one as a rule; several where people changed the same version without knowing of each other,
    /// until somebody saves one that is based on all of them. None where every version was withdrawn.
    /// </summary>
    public IReadOnlyList<FileSaved> Heads { get; }

    public bool IsTorn => Heads.Count > 1;

    /// <summary>The version to open: the last of the heads that still holds the file; null where it was taken away.</summary>
    public FileSaved? Latest => Heads.LastOrDefault(h => !h.IsRemoved);

    // The same content made from the same version, on two ways (a tablet's, sent again to a store that was put back, and the folder's): one change, not two people's.
    private static Dictionary<string, List<string>> TwinsOf(List<FileSaved> versions)
    {
        var twins = new Dictionary<string, List<string>>(StringComparer.Ordinal);
        foreach (var siblings in versions.GroupBy(v => string.Join(',', v.Bases.Order(StringComparer.Ordinal)), StringComparer.Ordinal).Where(g => g.Skip(1).Any()))
        {
            foreach (var same in siblings.GroupBy(v => v.Content is null ? "" : "=" + Convert.ToHexString(SHA256.HashData(v.Content)), StringComparer.Ordinal).Where(g => g.Skip(1).Any()))
            {
                var ids = same.Select(v => v.Id).ToList();
                foreach (var id in ids)
                    twins[id] = ids;
            }
        }

        return twins;
    }

    /// <summary>The last version that both were made from; null where there is none.</summary>
    public FileSaved? CommonBase(FileSaved one, FileSaved other) => Versions.Select(v => v.Fact).LastOrDefault(v => v.Id != one.Id && v.Id != other.Id && GoesOnFrom(one, v.Id) && GoesOnFrom(other, v.Id));

    /// <summary>Whether a version was made from another one, directly or over others.</summary>
    public bool GoesOnFrom(FileSaved version, string id)
    {
        var byId = Versions.ToDictionary(v => v.Fact.Id, v => v.Fact, StringComparer.Ordinal);
        var seen = new HashSet<string>(StringComparer.Ordinal);
        var open = new Stack<string>(version.Bases);
        while (open.TryPop(out var next))
        {
            if (next == id)
                return true;
            if (seen.Add(next) && byId.TryGetValue(next, out var before))
            {
                foreach (var further in before.Bases)
                    open.Push(further);
            }
        }

        return false;
    }

    private static List<FileSaved> HeadsOf(IReadOnlyList<Entry<FileSaved>> versions)
    {
        var byId = versions.ToDictionary(v => v.Fact.Id, v => v.Fact, StringComparer.Ordinal);
        var counting = versions.Where(v => v.Counts).Select(v => v.Fact).ToList();
        var behind = new HashSet<string>(StringComparer.Ordinal);
        var twins = TwinsOf(counting);
        var open = new Stack<FileSaved>(counting);
        while (open.TryPop(out var version))
        {
            foreach (var id in version.Bases)
            {
                // What a withdrawn version was based on is behind those that went on from it, too.
                foreach (var same in twins.GetValueOrDefault(id) ?? [id])
                {
                    if (behind.Add(same) && byId.TryGetValue(same, out var before))
                        open.Push(before);
                }
            }
        }

        var heads = counting.Where(v => !behind.Contains(v.Id) && (!twins.TryGetValue(v.Id, out var same) || same[0] == v.Id)).ToList();
        // Versions that claim each other as base in a circle: the file must not vanish for that.
        return heads.Count == 0 && counting.Count > 0 ? [counting[^1]] : heads;
    }
}
