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
/// whatever order they come and however often.
/// </summary>
public sealed record JobRecord
{
    public static readonly JobRecord Empty = Of([]);

    /// <summary>Every fact once, by time, then by id.</summary>
    public required IReadOnlyList<Entry<Fact>> Facts { get; init; }

    /// <summary>Files by their path; also those that were taken away.</summary>
    public required IReadOnlyDictionary<string, FileHistory> Files { get; init; }

    /// <summary>What was said of drawings, by time, on whatever version; <see cref="Following"/> says what it means on the drawing as it is now.</summary>
    public required IReadOnlyList<Entry<DrawingFact>> OnDrawings { get; init; }

    /// <summary>What may be about the drawing of a file: what was made on a version of it, and what has the drawing's number. By time.</summary>
    public IEnumerable<Entry<DrawingFact>> OnDrawing(string path, string number) => ByPath[path].Concat(ByNumber[number]).Distinct().OrderBy(e => e.Fact.When).ThenBy(e => e.Fact.Id, StringComparer.Ordinal);

    private ILookup<string, Entry<DrawingFact>> ByNumber { get; init; } = Array.Empty<Entry<DrawingFact>>().ToLookup(_ => "");

    private ILookup<string, Entry<DrawingFact>> ByPath { get; init; } = Array.Empty<Entry<DrawingFact>>().ToLookup(_ => "");

    /// <summary>Saved versions by their id.</summary>
    public required IReadOnlyDictionary<string, FileSaved> Versions { get; init; }

    public static JobRecord Of(IEnumerable<Fact> facts)
    {
        var once = new Dictionary<string, Fact>(StringComparer.Ordinal);
        foreach (var fact in facts)
        {
            // One id, one fact. Should two programs ever use an id twice, everybody still keeps the same one of the two.
            if (!once.TryGetValue(fact.Id, out var known) || (!ReferenceEquals(known, fact) && string.CompareOrdinal(FactJson.Text(fact), FactJson.Text(known)) < 0))
                once[fact.Id] = fact;
        }

        var ordered = once.Values.OrderBy(f => f.When).ThenBy(f => f.Id, StringComparer.Ordinal).ToList();
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

    private static List<FileSaved> HeadsOf(IReadOnlyList<Entry<FileSaved>> versions)
    {
        var byId = versions.ToDictionary(v => v.Fact.Id, v => v.Fact, StringComparer.Ordinal);
        var counting = versions.Where(v => v.Counts).Select(v => v.Fact).ToList();
        var behind = new HashSet<string>(StringComparer.Ordinal);
        var open = new Stack<FileSaved>(counting);
        while (open.TryPop(out var version))
        {
            foreach (var id in version.Bases)
            {
                // What a withdrawn version was based on is behind those that went on from it, too.
                if (behind.Add(id) && byId.TryGetValue(id, out var before))
                    open.Push(before);
            }
        }

        var heads = counting.Where(v => !behind.Contains(v.Id)).ToList();
        // Versions that claim each other as base in a circle: the file must not vanish for that.
        return heads.Count == 0 && counting.Count > 0 ? [counting[^1]] : heads;
    }
}
