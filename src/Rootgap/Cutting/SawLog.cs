namespace Rootgap.Cutting;

/// <summary>A piece that the saw has cut.</summary>
/// <param name="Drawing">Its drawing's number.</param>
/// <param name="Id">Its mark.</param>
/// <param name="Length">Finished length it was cut to, mm.</param>
/// <param name="IsGood">False where it was spoiled: its steel is gone, and it is wanted again.</param>
/// <param name="To">Where the saw cut it off, mm from the measuring end of the whole bar: by it one cut is known, however often it is told. Where the bar is not known, how many times the piece was cut.</param>
public sealed record SawnPiece(string Drawing, string Id, double Length, bool IsGood, double To)
{
    public string FullName => Piece.NameOf(Drawing, Id);

    internal bool IsSameCut(SawnPiece other) => FullName.Equals(other.FullName, StringComparison.OrdinalIgnoreCase) && Math.Abs(To - other.To) < SawLog.SameLength;
}

/// <summary>What was told of a bar: it is not any more as the stock file has it.</summary>
/// <param name="Name">The bar's mark, with its number where the row of the stock file stands for several; empty for pieces of which nobody said where they came from.</param>
/// <param name="Row">Mark of its row in the stock file.</param>
/// <param name="Gone">Length used up from the measuring end, saw cuts between included, the last one not, mm; 0: not begun.</param>
/// <param name="Sawn">What was cut from it, in the order of cutting.</param>
public sealed record SawnBar(string Name, string Row, double Gone, IReadOnlyList<SawnPiece> Sawn)
{
    /// <summary>Heat number found on it; empty: as the stock file has it.</summary>
    public string Heat { get; init; } = "";

    /// <summary>Bent, lost or otherwise of no use: nothing more is cut from it.</summary>
    public bool IsOut { get; init; }

    /// <summary>It is what the job's facts say: when they are read again, they are taken anew.</summary>
    public bool IsByFacts { get; init; }

    /// <summary>How plans call what is left of it.</summary>
    public string Rest => Gone > 0 ? $"{Name} rest" : Name;

    /// <summary>The same bar as two have told of it. A cut that both tell of is one cut, and spoiled where one of them says so.</summary>
    internal SawnBar And(SawnBar other) => this with
    {
        Gone = Math.Max(Gone, other.Gone),
        Sawn =
        [
            .. Sawn.Select(p => other.Sawn.Any(o => o.IsSameCut(p) && !o.IsGood) ? p with { IsGood = false } : p),
            .. other.Sawn.Where(o => !Sawn.Any(o.IsSameCut)),
        ],
        Heat = other.Heat.Length > 0 ? other.Heat : Heat,
        IsOut = IsOut || other.IsOut,
    };
}

/// <summary>
/// What happened at the saw up to now, bar by bar, counted from the stock file as it was before the first cut. Every plan carries the log it was made
/// after, so that a plan made after it needs nothing else.
/// </summary>
/// <param name="Told">What was told, each bar once by reports and once by facts of the job.</param>
public sealed record SawLog(IReadOnlyList<SawnBar> Told)
{
    public static readonly SawLog Empty = new([]);

    /// <summary>The bars, each once with all that was told of it.</summary>
    public IReadOnlyList<SawnBar> Bars { get; } = Together(Told.Where(b => b.Name.Length > 0));

    /// <summary>This log with more from a report.</summary>
    internal SawLog And(IEnumerable<SawnBar> told) => new([.. Together(Told.Where(b => !b.IsByFacts).Concat(told)), .. Told.Where(b => b.IsByFacts)]);

    /// <summary>This log with what the job's facts say now, in the place of what they said before.</summary>
    public SawLog With(IEnumerable<SawnBar> facts) => new([.. Told.Where(b => !b.IsByFacts), .. facts.Select(b => b with { IsByFacts = true })]);

    private static SawnBar[] Together(IEnumerable<SawnBar> bars) =>
        [.. bars.GroupBy(b => b.Name, StringComparer.OrdinalIgnoreCase).Select(g => g.Aggregate((a, b) => a.And(b))).OrderBy(b => b.Name, StringComparer.Ordinal)];

    public IEnumerable<SawnPiece> Good => Sawn.Where(p => p.IsGood);

    internal IEnumerable<SawnPiece> Sawn => All.SelectMany(b => b.Sawn);

    // Also what came from nobody knows which bar.
    internal SawnBar[] All => Together(Told);

    /// <summary>The rack as it is now.</summary>
    /// <exception cref="FormatException">The stock file has no such bar: it is not the one that the plan was made from.</exception>
    public Rack Left(Rack before)
    {
        var left = new List<StockBar>();
        var gone = new Dictionary<string, List<string>>(StringComparer.OrdinalIgnoreCase);
        foreach (var bar in Bars)
        {
            if (before.RowOfBar(bar.Name) is not { } row)
                throw new FormatException($"the plan cuts from bar {bar.Name}, and the stock file has no such bar: give the stock file that the first plan was made from.");
            if (!gone.TryGetValue(row.Id, out var names))
                gone[row.Id] = names = [];
            names.Add(bar.Name);
            var now = row with { Id = bar.Rest, Quantity = 1, Gone = [], Heat = bar.Heat.Length > 0 ? bar.Heat : row.Heat };
            if (bar.IsOut)
                continue;
            if (bar.Gone <= 0)
                left.Add(now with { Source = row.Source == StockSource.Buy ? StockSource.OnHand : row.Source });
            else if (row.Length - bar.Gone - before.Rules.Kerf is > 0 and var length)
                left.Add(now with { Length = length, Source = StockSource.Begun, FarEndIsMill = row.MillEnds > 0 });
        }

        return before with { Log = this, Bars = [.. left, .. before.Bars.Select(b => gone.TryGetValue(b.Id, out var names) ? b with { Gone = [.. b.Gone.Union(names, StringComparer.OrdinalIgnoreCase)] } : b).Where(b => b.Left != 0)] };
    }

    /// <summary>What is still to be cut of these pieces, and what has to be said about it.</summary>
    /// <param name="pieces">All pieces of the job.</param>
    /// <param name="findings">Gets a word on each piece that was cut to another length than is wanted now.</param>
    public List<Piece> Wanted(IEnumerable<Piece> pieces, List<Findings.Finding> findings)
    {
        var done = Good.GroupBy(p => p.FullName, StringComparer.Ordinal).ToDictionary(g => g.Key, g => g.ToList(), StringComparer.Ordinal);
        var wanted = new List<Piece>();
        foreach (var piece in pieces)
        {
            if (!done.TryGetValue(piece.FullName, out var sawn) || sawn.Count == 0)
            {
                wanted.Add(piece);
                continue;
            }

            // A length that was written and read again differs in its last digits.
            var same = sawn.FindIndex(p => Math.Abs(p.Length - piece.Length) < SameLength);
            if (same >= 0)
            {
                sawn.RemoveAt(same);
                continue;
            }

            findings.Add(CuttingPlanner.Say("cut-to-another-length", Findings.Severity.Warn, piece.FullName,
                $"{piece.FullName} is cut to {CuttingPlanner.Mm(sawn[0].Length)} mm, and the drawing wants {CuttingPlanner.Mm(piece.Length)} mm now: it is planned again.",
                "See whether the piece that is cut can be made to fit; if so, mark it as cut in the stock file (pieces: cut: yes)."));
            wanted.Add(piece);
        }

        return wanted;
    }

    /// <summary>Lengths nearer than this are one length, mm: half of what a saw's stop can show, and far above what writing takes off.</summary>
    internal const double SameLength = 0.05;
}
