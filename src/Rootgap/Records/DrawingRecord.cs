namespace Rootgap.Records;

/// <summary>How a fact that was made on an earlier version stands to the drawing as it is now.</summary>
public enum Mark
{
    /// <summary>Its steel is as it was.</summary>
    Stays,

    /// <summary>Its part is there and has changed, or cannot be told: somebody looks at the steel, and says that it holds or enters it anew.</summary>
    LookAt,

    /// <summary>A piece that does not fit its place any more.</summary>
    Spoiled,

    /// <summary>Its part is not in the drawing any more.</summary>
    Gone,
}

/// <summary>A fact of an earlier version that does not count by itself on the drawing as it is now.</summary>
/// <param name="Was">What its piece, component or joint was called then.</param>
/// <param name="Now">What it is called now; null where it is gone or cannot be told.</param>
/// <param name="Version">The version that it was made on; null where it is not known.</param>
/// <param name="Revision">The drawing's revision then.</param>
/// <param name="Why">What has changed, or what becomes of a piece, in words.</param>
public sealed record Marked(Entry<DrawingFact> Entry, Mark Mark, string Was, string? Now, FileSaved? Version, string Revision, IReadOnlyList<string> Why)
{
    /// <summary>It was made on another revision, and the one that the drawing has now is not taken to the shop yet. What <see cref="Mark"/> says comes true then.</summary>
    public bool IsWaiting { get; init; }

    /// <summary>It came over with a revision and waits for a second person: what it is about is held until then.</summary>
    public bool IsHeld { get; init; }

    /// <summary>In words: <c>was on 1-A of revision 2 (version of 25 Nov 16:05), which is now 1-B: 1175.6 is now 514.0</c>.</summary>
    /// <param name="when">How a time is shown.</param>
    public string Says(Func<DateTimeOffset, string> when) =>
        $"was on {Was} of {(Revision.Length > 0 ? $"revision {Revision}" : "the drawing")}{(Version is { } v ? $" (version of {when(v.When)})" : "")}, "
        + (Now is null ? Mark == Mark.Gone ? "which is gone" : "which cannot be told now" : Now == Was ? "which has changed" : $"which is now {Now}")
        + (Mark == Mark.Stays ? ", the same steel" : Why.Count > 0 ? ": " + string.Join("; ", Why) : "");
}

/// <summary>
/// What was done on one drawing, as it stands on the drawing as it is now: each fact on the steel that it was made on, by the name that this has now. What cannot be
/// brought over is marked, and none is lost.
/// </summary>
public sealed record DrawingRecord
{
    private readonly ILookup<string, Entry<DrawingFact>> byName;
    private readonly Func<PieceCut, string?> heatOfBar;

    internal DrawingRecord(DrawingRef drawing, IReadOnlyList<Entry<DrawingFact>> facts, IReadOnlyList<Marked> marked, IReadOnlyList<Entry<DrawingFact>> setAside, RevisionTaken? taken, Func<PieceCut, string?>? heatOfBar = null)
    {
        this.heatOfBar = heatOfBar ?? (_ => null);
        (Drawing, Facts, Marked, SetAside, Taken) = (drawing, facts, marked, setAside, taken);
        Pieces = By<PieceCut>(f => f.Piece);
        Heats = By<HeatNoted>(f => f.Component);
        Readings = By<ReadingsTaken>(f => f.Joint);
        SpoolReadings = By<SpoolRead>(f => f.Spool);
        Steps = By<JointStep>(f => f.Joint);
        Erected = By<ErectionDone>(f => f.Step);
        byName = facts.ToLookup(e => NameOf(e.As), StringComparer.OrdinalIgnoreCase);

        ILookup<string, Entry<T>> By<T>(Func<T, string> key)
            where T : DrawingFact =>
            facts.Where(e => e.Fact is T).Select(e => new Entry<T>((T)e.Fact, e.Withdrawals) { As = (T)e.As }).ToLookup(e => key(e.As), StringComparer.OrdinalIgnoreCase);
    }

    /// <summary>Nothing was done yet.</summary>
    public static DrawingRecord Nothing(DrawingRef drawing) => new(drawing, [], [], [], null);

    public DrawingRef Drawing { get; }

    /// <summary>By time: what is about steel that the drawing has now. Those that were withdrawn are among them.</summary>
    public IReadOnlyList<Entry<DrawingFact>> Facts { get; }

    /// <summary>By time: what was made on an earlier version and does not count by itself.</summary>
    public IReadOnlyList<Marked> Marked { get; }

    /// <summary>By time: what somebody looked at and set aside, or entered anew.</summary>
    public IReadOnlyList<Entry<DrawingFact>> SetAside { get; }

    /// <summary>Who took the drawing's revision to the shop first; null where nobody did, or nothing was done on another.</summary>
    public RevisionTaken? Taken { get; }

    /// <summary>Cut pieces by their mark. Like all that follows: an unknown name gives none, withdrawn facts are among them.</summary>
    public ILookup<string, Entry<PieceCut>> Pieces { get; }

    /// <summary>Heat numbers by the component's id.</summary>
    public ILookup<string, Entry<HeatNoted>> Heats { get; }

    /// <summary>Readings by joint: all that anybody took.</summary>
    public ILookup<string, Entry<ReadingsTaken>> Readings { get; }

    /// <summary>Readings of final checks, by spool.</summary>
    public ILookup<string, Entry<SpoolRead>> SpoolReadings { get; }

    /// <summary>Steps by joint.</summary>
    public ILookup<string, Entry<JointStep>> Steps { get; }

    /// <summary>Steps of erection by what they put up or closed.</summary>
    public ILookup<string, Entry<ErectionDone>> Erected { get; }

    /// <summary>The cut of a piece that counts: the last one; null where it is not cut, or was spoiled.</summary>
    public PieceCut? CutOf(string piece) => Counting(Pieces[piece]).LastOrDefault() is { IsSpoiled: false } cut ? cut : null;

    /// <summary>The heat of a component that counts: the last one; null where none is noted.</summary>
    public HeatNoted? HeatOf(string component) => Counting(Heats[component]).LastOrDefault();

    /// <summary>The heat of a piece of pipe: what was found on it after the cut, else what was read at the saw, else that of the bar it came from; null where it is known nowhere.</summary>
    public string? HeatOfPiece(string piece) =>
        (HeatOf(piece)?.Heat ?? (CutOf(piece) is { } cut ? cut.Heat?.Trim() is { Length: > 0 } own ? own : heatOfBar(cut) : null))?.Trim() is { Length: > 0 } heat ? heat : null;

    /// <summary>The facts of a kind about something, by time: a joint, a piece, a component, <c>spool 3</c>. Withdrawn ones are among them.</summary>
    public IEnumerable<Entry<T>> About<T>(string name)
        where T : DrawingFact => byName[name].Where(e => e.Fact is T).Select(e => new Entry<T>((T)e.Fact, e.Withdrawals) { As = (T)e.As });

    /// <summary>As they read on the drawing now: the facts of a kind that count, by time.</summary>
    public IEnumerable<T> Counting<T>(string name)
        where T : DrawingFact => byName[name].Where(e => e.Counts).Select(e => e.As).OfType<T>();

    /// <summary>The welds that there were at a joint, the first one first: each repair and cut-out that counts makes another.</summary>
    public IReadOnlyList<WeldMark> WeldsOf(string joint)
    {
        var marks = new SortedSet<WeldMark> { WeldMark.First };
        foreach (var fact in Counting<WeldFact>(joint))
        {
            marks.Add(fact.Weld);
            if (fact is Repair repair)
                marks.Add(repair.Weld.Next(repair.IsCutOut));
        }

        return [.. marks];
    }

    /// <summary>The weld that stands, or is to be made, at a joint now.</summary>
    public WeldMark WeldOf(string joint) => WeldsOf(joint)[^1];

    /// <summary>How far a joint has come: the farthest step that counts of the weld there now; null where none does. What is repaired still holds together.</summary>
    public Step? StepOf(string joint) => StepOf(joint, WeldOf(joint));

    /// <summary>How far one weld of a joint has come.</summary>
    public Step? StepOf(string joint, WeldMark weld)
    {
        var step = Counting(Steps[joint]).Where(s => s.Weld == weld).Max(s => (Step?)s.Step);
        return step is null && weld.Repair > 0 ? Step.Tacked : step;
    }

    /// <summary>What holds a piece, component or joint until a second person has looked; null where nothing does.</summary>
    public Marked? HeldBy(string name) => Marked.FirstOrDefault(m => m.IsHeld && name.Equals(m.Now, StringComparison.OrdinalIgnoreCase));

    /// <summary>What a fact speaks of: the mark of a piece, the id of a component or joint.</summary>
    public static string NameOf(DrawingFact fact) => fact switch
    {
        PieceCut c => c.Piece,
        HeatNoted h => h.Component,
        JointFact j => j.Joint,
        SpoolFact s => $"spool {s.Spool}",
        NoteTaken n => n.About,
        Tested t => $"test {t.Pack}",
        WeldsDrawn d => $"lot {d.Lot}",
        ErectionDone e => e.Step,
        LookedAt l => l.As,
        SurveyRead s => s.Joints is [var joint, ..] ? joint : "",
        EndAsBuilt e => e.End.Split(' ')[0],
        _ => "",
    };

    /// <summary>Those facts that are not withdrawn.</summary>
    public static IEnumerable<T> Counting<T>(IEnumerable<Entry<T>> entries)
        where T : DrawingFact => entries.Where(e => e.Counts).Select(e => e.Fact);
}
