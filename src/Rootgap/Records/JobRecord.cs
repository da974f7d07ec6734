namespace Rootgap.Records;

/// <summary>A fact in the record: it stays to be seen, also where it was withdrawn.</summary>
/// <param name="Withdrawals">The withdrawals that count; empty where it counts itself.</param>
public sealed record Entry<T>(T Fact, IReadOnlyList<Withdrawn> Withdrawals)
    where T : Fact
{
    public bool Counts => Withdrawals.Count == 0;
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

    /// <summary>What was done on each drawing, by its number.</summary>
    public required IReadOnlyDictionary<string, DrawingRecord> Drawings { get; init; }

    /// <summary>What was done on a drawing; nothing where nobody did anything.</summary>
    public DrawingRecord Drawing(string number) => Drawings.GetValueOrDefault(number) ?? new DrawingRecord(number, []);

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
        return new JobRecord
        {
            Facts = [.. ordered.Select(EntryOf)],
            Files = ordered.OfType<FileSaved>().GroupBy(f => f.Path, StringComparer.Ordinal)
                .ToDictionary(g => g.Key, g => new FileHistory(g.Key, [.. g.Select(EntryOf)]), StringComparer.Ordinal),
            Drawings = ordered.OfType<DrawingFact>().GroupBy(f => f.Drawing.Number, StringComparer.Ordinal)
                .ToDictionary(g => g.Key, g => new DrawingRecord(g.Key, [.. g.Select(EntryOf)]), StringComparer.Ordinal),
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

/// <summary>What was done on one drawing, over all its revisions.</summary>
public sealed record DrawingRecord
{
    internal DrawingRecord(string number, IReadOnlyList<Entry<DrawingFact>> facts)
    {
        Number = number;
        Facts = facts;
        Pieces = By<PieceCut>(f => f.Piece);
        Heats = By<HeatNoted>(f => f.Component);
        Readings = By<ReadingsTaken>(f => f.Joint);
        Steps = By<JointStep>(f => f.Joint);
        Erected = By<ErectionDone>(f => f.Step);

        ILookup<string, Entry<T>> By<T>(Func<T, string> key)
            where T : DrawingFact =>
            facts.Where(e => e.Fact is T).Select(e => new Entry<T>((T)e.Fact, e.Withdrawals)).ToLookup(e => key(e.Fact), StringComparer.OrdinalIgnoreCase);
    }

    public string Number { get; }

    /// <summary>By time. Each says of which revision it is.</summary>
    public IReadOnlyList<Entry<DrawingFact>> Facts { get; }

    /// <summary>Cut pieces by their mark. Like all that follows: an unknown name gives none, withdrawn facts and those of other revisions are among them.</summary>
    public ILookup<string, Entry<PieceCut>> Pieces { get; }

    /// <summary>Heat numbers by the component's id.</summary>
    public ILookup<string, Entry<HeatNoted>> Heats { get; }

    /// <summary>Readings by joint: all that anybody took.</summary>
    public ILookup<string, Entry<ReadingsTaken>> Readings { get; }

    /// <summary>Steps by joint.</summary>
    public ILookup<string, Entry<JointStep>> Steps { get; }

    /// <summary>Steps of erection by what they put up or closed.</summary>
    public ILookup<string, Entry<ErectionDone>> Erected { get; }

    /// <summary>The cut of a piece that counts at a revision: the last one; null where it is not cut.</summary>
    public PieceCut? CutOf(string piece, string revision) => Counting(Pieces[piece], revision).LastOrDefault();

    /// <summary>How far a joint has come at a revision: the farthest step that counts; null where none does.</summary>
    public Step? StepOf(string joint, string revision) => Counting(Steps[joint], revision).Max(s => (Step?)s.Step);

    /// <summary>Those facts that are of this revision and not withdrawn.</summary>
    public static IEnumerable<T> Counting<T>(IEnumerable<Entry<T>> entries, string revision)
        where T : DrawingFact => entries.Where(e => e.Counts && e.Fact.Drawing.Revision == revision).Select(e => e.Fact);
}
