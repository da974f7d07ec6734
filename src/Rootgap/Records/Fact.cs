using Rootgap.FitUp;

namespace Rootgap.Records;

/// <summary>Where a fact stands in the job's store: what the server told of it.</summary>
/// <param name="Seq">Its number: facts kept later have higher ones.</param>
/// <param name="At">When it was kept, by the server's clock.</param>
public sealed record KeptAt(long Seq, DateTimeOffset At);

/// <summary>Something that was done or said, by whom and when. A fact is added, never changed; one that was wrong is withdrawn by another.</summary>
/// <param name="Id">Its own name, made by whoever writes it: a random UUID in lower case, with or without hyphens. The same id is the same fact.</param>
/// <param name="Who">Who did it, as people call them.</param>
public abstract record Fact(string Id, string Who, DateTimeOffset When)
{
    /// <summary>UTC, whole milliseconds: what the written form can hold.</summary>
    public DateTimeOffset When { get; } = new(When.UtcTicks - (When.UtcTicks % TimeSpan.TicksPerMillisecond), TimeSpan.Zero);

    /// <summary>Where it stands in the store; null while no server has it. No part of the written form.</summary>
    public KeptAt? Kept { get; init; }

    /// <summary>The time that counts: nothing was done after it was kept, whatever the clock of the device said.</summary>
    public DateTimeOffset Time => Kept is { } kept && kept.At < When ? kept.At : When;

    /// <summary>Who signed it and with what; null where nobody did.</summary>
    public Signature? Signed { get; init; }

    /// <summary>Whether one person did both: who signed them where both are signed, whatever they are called; else by name.</summary>
    public bool IsBySameAs(Fact other) => (Signed, other.Signed) is ({ } mine, { } theirs) ? mine.Person == theirs.Person : Who.Trim().Equals(other.Who.Trim(), StringComparison.OrdinalIgnoreCase);

    /// <summary>The order of facts, the same for everybody: by time, then by their number in the store, then by id.</summary>
    public static readonly IComparer<Fact> Order = Comparer<Fact>.Create((a, b) =>
        a.Time.CompareTo(b.Time) is var time and not 0 ? time
        : (a.Kept?.Seq ?? long.MaxValue).CompareTo(b.Kept?.Seq ?? long.MaxValue) is var seq and not 0 ? seq
        : string.CompareOrdinal(a.Id, b.Id));

    /// <summary>Pictures and papers that it speaks of; their content is kept apart.</summary>
    public IReadOnlyList<Attachment> Attached { get; init; } = [];

    /// <summary>Keys that this version does not know, with their values as JSON: kept and passed on.</summary>
    public IReadOnlyList<(string Key, string Json)> More { get; init; } = [];

    /// <summary>The word for its kind in the written form.</summary>
    public abstract string Kind { get; }
}

/// <summary>A drawing as a fact speaks of it. A fact is about the revision it was made on, and stays so when a later one comes.</summary>
/// <param name="Revision">Empty where the drawing has none.</param>
public readonly record struct DrawingRef(string Number, string Revision);

/// <summary>A fact about one drawing.</summary>
public abstract record DrawingFact(string Id, string Who, DateTimeOffset When, DrawingRef Drawing) : Fact(Id, Who, When)
{
    /// <summary>A word to whoever comes after; null where there is none.</summary>
    public string? Note { get; init; }

    /// <summary>
    /// Ids of the saved versions that it was made on: the drawing's first, then those of the files beside it (shop rules, list). Empty in facts from before this
    /// was noted: such a fact is about the version that was current when it was made.
    /// </summary>
    public IReadOnlyList<string> Versions { get; init; } = [];

    /// <summary>What was missing when it was done all the same, and who answers for that; null where nothing was, or nobody said so.</summary>
    public Deviation? Deviation { get; init; }
}

/// <summary>A step was done though something that the shop asks for before it was missing.</summary>
/// <param name="Missing">Each missing thing in words.</param>
/// <param name="By">Who takes it on.</param>
public sealed record Deviation(IReadOnlyList<string> Missing, string Why, string By);

/// <summary>A fact about a joint.</summary>
public abstract record JointFact(string Id, string Who, DateTimeOffset When, DrawingRef Drawing, string Joint) : DrawingFact(Id, Who, When, Drawing);

/// <summary>A fact about a spool.</summary>
public abstract record SpoolFact(string Id, string Who, DateTimeOffset When, DrawingRef Drawing, string Spool) : DrawingFact(Id, Who, When, Drawing);

/// <summary>A version of a file of the job.</summary>
/// <param name="Path">Below the job's folder, with <c>/</c>: see <see cref="JobPath"/>.</param>
/// <param name="Content">Its bytes; null where the file was taken away.</param>
/// <param name="Bases">The versions it was made from: none for a new file, several where it brings them together.</param>
public sealed record FileSaved(string Id, string Who, DateTimeOffset When, string Path, byte[]? Content, IReadOnlyList<string> Bases) : Fact(Id, Who, When)
{
    /// <summary>Largest file, bytes.</summary>
    public const int Largest = 4 << 20;

    public override string Kind => "file";

    public bool IsRemoved => Content is null;

    /// <summary>Its text; null where it is none (a workbook), or the file was taken away.</summary>
    public string? Text => Content is null ? null : FactText.Of(Content);

    /// <summary>The number that a drawing's file gives itself, read without reading the drawing; empty where a drawing has none, null where the file is none.</summary>
    public string? DrawingNumber
    {
        get
        {
            if (Text is not { } text || !(Path.EndsWith(".yaml", StringComparison.OrdinalIgnoreCase) || Path.EndsWith(".yml", StringComparison.OrdinalIgnoreCase)))
                return null;
            if (Rootgap.Drawings.DrawingHead.IsOfSurvey(text))
                return null;
            var isDrawing = false;
            foreach (var line in text.AsSpan().EnumerateLines())
            {
                isDrawing |= line.StartsWith("runs:", StringComparison.Ordinal);
                if (!line.StartsWith("drawing:", StringComparison.Ordinal))
                    continue;
                var value = line["drawing:".Length..];
                var comment = value.IndexOf(" #", StringComparison.Ordinal);
                return (comment < 0 ? value : value[..comment]).Trim().Trim("'\"").ToString();
            }

            return isDrawing ? "" : null;
        }
    }

    public static FileSaved OfText(string id, string who, DateTimeOffset when, string path, string text, params IReadOnlyList<string> bases) =>
        new(id, who, when, path, FactText.Bytes(text), bases);
}

/// <summary>A piece of pipe was cut.</summary>
/// <param name="Piece">Its mark: <c>1-A</c>.</param>
/// <param name="Heat">Heat number of the bar; null where nobody noted it.</param>
/// <param name="Length">As measured, mm; null where it was cut as drawn.</param>
public sealed record PieceCut(string Id, string Who, DateTimeOffset When, DrawingRef Drawing, string Piece, string? Heat = null, double? Length = null)
    : DrawingFact(Id, Who, When, Drawing)
{
    public override string Kind => "piece-cut";

    /// <summary>It came off the saw and is of no use: its steel is gone, and the piece is wanted again.</summary>
    public bool IsSpoiled { get; init; }

    /// <summary>The bar that it came from; null where nobody noted it.</summary>
    public CutFrom? From { get; init; }
}

/// <summary>Where a piece was cut from: what of the bar is gone is known by it.</summary>
/// <param name="Stock">Path of the stock file in the job; empty for lengths that are bought as the drawings' shop rules have them.</param>
/// <param name="Bar">The bar's mark, with its number where the row of the stock file stands for several: <c>R1#2</c>.</param>
/// <param name="To">Where the saw cut the piece off, mm from the end of the whole bar that all its cuts are measured from.</param>
public sealed record CutFrom(string Stock, string Bar, double To);

/// <summary>What was found of a bar of the stock. The last word that counts is the word; what a fact does not say stays as it was.</summary>
/// <param name="Stock">As <see cref="CutFrom.Stock"/>.</param>
/// <param name="Bar">As <see cref="CutFrom.Bar"/>.</param>
public sealed record BarNoted(string Id, string Who, DateTimeOffset When, string Stock, string Bar) : Fact(Id, Who, When)
{
    public override string Kind => "bar";

    /// <summary>Bent, lost, sold: nothing more is cut from it.</summary>
    public bool IsOut { get; init; }

    /// <summary>The heat number found on it; null where it is not about that.</summary>
    public string? Heat { get; init; }

    /// <summary>A word to whoever comes after; null where there is none.</summary>
    public string? Note { get; init; }
}

/// <summary>The heat number of a fitting, flange or valve; of a piece where it was found after the cut.</summary>
/// <param name="Component">Its id in the packet: <c>C3</c>; or the piece's mark: <c>1-A</c>.</param>
public sealed record HeatNoted(string Id, string Who, DateTimeOffset When, DrawingRef Drawing, string Component, string Heat) : DrawingFact(Id, Who, When, Drawing)
{
    public override string Kind => "heat";
}

/// <summary>What was read at a joint, all at one time.</summary>
/// <param name="SetUp">The set-up's word: on end, level, rolled 270.</param>
/// <param name="Held">Id of the part that was held.</param>
/// <param name="Mark">Distance of the marks, mm; null for the usual one.</param>
public sealed record ReadingsTaken(
    string Id, string Who, DateTimeOffset When, DrawingRef Drawing, string Joint, string SetUp, string Held, double? Mark, IReadOnlyList<Taken> Readings) : JointFact(Id, Who, When, Drawing, Joint)
{
    public override string Kind => "readings";

    /// <summary>The first of the readings facts that were taken in one going-over of the joint; null where this is it. See <see cref="GoingOver"/>.</summary>
    public string? First { get; init; }

    /// <summary>Read after welding: the weld has drawn in, and what it pulled is in what was read.</summary>
    public bool IsWelded { get; init; }
}

/// <summary>One reading of the final check of a spool. Of several of the same thing the last one counts.</summary>
/// <param name="Spool">The spool's name.</param>
/// <param name="Base">The end by which it was set as drawn, as a readings file names it: <c>C2</c>, <c>P1 north</c>.</param>
/// <param name="Row">As a readings file writes it: <c>{read: tape, from: C2 12, to: C5 12, mm: 2773.5}</c>.</param>
public sealed record SpoolRead(string Id, string Who, DateTimeOffset When, DrawingRef Drawing, string Spool, string Base, string Row) : SpoolFact(Id, Who, When, Drawing, Spool)
{
    public override string Kind => "spool-reading";

    /// <summary>Read before its welds had drawn in.</summary>
    public bool IsTacked { get; init; }

    /// <summary>Ids of the parts at whose ends it was taken, the base's among them.</summary>
    public IReadOnlyList<string> Parts =>
        [.. Row.Split(['{', '}', ','], StringSplitOptions.TrimEntries).Where(p => p.StartsWith("from:", StringComparison.Ordinal) || p.StartsWith("to:", StringComparison.Ordinal) || p.StartsWith("of:", StringComparison.Ordinal))
            .Select(p => p[(p.IndexOf(':', StringComparison.Ordinal) + 1)..].Trim()).Append(Base).Select(p => p.Split(' ')[0]).Where(p => p.Length > 0).Distinct(StringComparer.Ordinal)];
}

/// <summary>One reading of a survey at site.</summary>
/// <param name="Row">As a survey file writes it: <c>{tape: [lip 12, lip 12], at: [W15 of 4, B6 of other], mm: 2108}</c>.</param>
public sealed record SurveyRead(string Id, string Who, DateTimeOffset When, DrawingRef Drawing, string Row) : DrawingFact(Id, Who, When, Drawing)
{
    public override string Kind => "survey-reading";

    /// <summary>The joints on whose ends it was taken, as it names them: <c>W15</c>, <c>B6</c>.</summary>
    public IReadOnlyList<string> Joints =>
        [.. Row.Split([' ', ',', '[', ']', '{', '}', '"', ':'], StringSplitOptions.RemoveEmptyEntries).Where(w => w.Length > 1 && w[0] is 'W' or 'B' && w.AsSpan(1).IndexOfAnyExceptInRange('0', '9') < 0).Distinct(StringComparer.Ordinal)];
}

/// <summary>What was known at site beside the readings: the steel's temperature, what is made and loose, how coordinates are told. The last one counts.</summary>
/// <param name="Head">The keys of a survey file but its readings.</param>
public sealed record SurveySet(string Id, string Who, DateTimeOffset When, DrawingRef Drawing, string Head) : DrawingFact(Id, Who, When, Drawing)
{
    public override string Kind => "survey-set";
}

/// <summary>A spool's end as it was built: how far it is from where the drawing has it, in its joint's own axes. The last one counts.</summary>
/// <param name="End">Joint and spool: <c>W11 of 3</c>.</param>
/// <param name="Off">Toward 3 o'clock, 12 o'clock and along the line, mm; turn about these, radians.</param>
/// <param name="Sd">How well each of the six is known, one standard deviation.</param>
public sealed record EndAsBuilt(string Id, string Who, DateTimeOffset When, DrawingRef Drawing, string End, PoseError Off, PoseError Sd) : DrawingFact(Id, Who, When, Drawing)
{
    public override string Kind => "as-built";
}

/// <summary>A step of erection was done: the supports set, a body put up, or a final-fit weld closed.</summary>
/// <param name="Step">What it put up or closed: <c>spool 3</c>, <c>W15</c>; or <see cref="SupportsSet"/>.</param>
public sealed record ErectionDone(string Id, string Who, DateTimeOffset When, DrawingRef Drawing, string Step) : DrawingFact(Id, Who, When, Drawing)
{
    /// <summary>The step in which all supports of the line are set.</summary>
    public const string SupportsSet = "supports";

    public override string Kind => "erection";
}

/// <summary>A revision of a drawing is taken to the shop: what was done on the one before and is the same steel counts on it from now on.</summary>
public sealed record RevisionTaken(string Id, string Who, DateTimeOffset When, DrawingRef Drawing) : DrawingFact(Id, Who, When, Drawing)
{
    public override string Kind => "revision-taken";
}

/// <summary>
/// Somebody looked at steel that was made on an earlier version, beside the drawing as it is now (<see cref="DrawingFact.Versions"/>), and says whether it still holds.
/// What came over from another revision is freed so by a second person, not by the one who took the revision to the shop.
/// </summary>
/// <param name="Of">Id of the fact that was made then.</param>
/// <param name="Holds">It counts on this version; else it is set aside.</param>
/// <param name="As">What the piece, component or joint is called on this version.</param>
public sealed record LookedAt(string Id, string Who, DateTimeOffset When, DrawingRef Drawing, string Of, bool Holds, string As) : DrawingFact(Id, Who, When, Drawing)
{
    public override string Kind => "looked-at";
}

/// <summary>A fact that was wrong. It stays to be seen and no longer counts. A withdrawal can be withdrawn too.</summary>
/// <param name="Fact">Id of what is withdrawn.</param>
public sealed record Withdrawn(string Id, string Who, DateTimeOffset When, string Fact, string Why) : Fact(Id, Who, When)
{
    public override string Kind => "withdrawn";
}

/// <summary>A fact of a kind that this version does not know: kept and passed on as it came.</summary>
/// <param name="Json">The whole fact.</param>
public sealed record UnknownFact(string Id, string Who, DateTimeOffset When, string Word, string Json) : Fact(Id, Who, When)
{
    public override string Kind => Word;
}
