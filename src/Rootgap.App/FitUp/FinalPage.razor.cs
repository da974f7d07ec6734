using System.Text;
using Microsoft.AspNetCore.Components;
using Rootgap.App.Look;
using Rootgap.App.Offline;
using Rootgap.Fabricating;
using Rootgap.FitUp;
using Rootgap.Measure;
using Rootgap.Records;
using Rootgap.Site;
using Rootgap.Site.Surveys;

namespace Rootgap.App.FitUp;

/// <summary>
/// The final check of a spool: what can be read from end to end, the readings, and where they say that the ends are. A reading is a fact as soon as its field is left;
/// what is typed and could not be kept stays in the browser.
/// </summary>
public sealed partial class FinalPage
{
    private readonly Dictionary<string, string> wrongs = new(StringComparer.Ordinal);
    private Signing? signing;
    private Spool? spool;
    private FinalCheck? check;
    private IReadOnlyList<EndLeft> left = [];
    private IReadOnlyList<KeptEnd> kept = [];
    private List<Entry<DrawingFact>> entries = [];
    private FinalFound? found;
    private EntryDraft draft = new();
    private string draftName = "";
    private string told = "";
    private bool isTacked;

    /// <summary>The spool's name.</summary>
    [Parameter] public string SpoolName { get; set; } = "";

    private FinalWords Words => new(new FitWords(Choices.Units, part => Rootgap.Sheets.Wording.NameOf(Plan!.Packet.Fabrication, part)));

    private string NameOfDraft => $"final {Job.Id} {Drawing.Number} {Drawing.Revision} {spool?.Name}";

    private string State => isTacked ? "tacked" : "welded";

    /// <summary>Typed here and not kept yet, though nothing is wrong with it.</summary>
    private List<EndReading> Waiting => [.. check!.Targets.Select(t => t.Reading).Where(r => draft.Typed.ContainsKey(Key(r)) && !wrongs.ContainsKey(Key(r)))];

    /// <summary>Why the ends cannot be kept as built; empty where they can.</summary>
    private string NotAsBuilt =>
        found is null || found.Ends.All(e => e.Unseen.Count == 6) ? "Nothing is read yet that says where an end is."
        : isTacked ? "The ends stand elsewhere once the welds have drawn in: read the spool welded."
        : found.Again.Count > 0 || found.Doubtful ? "The readings contradict each other: read again what is named above, first."
        : "";

    protected override Task OnParametersSetAsync() => OpenDraft();

    // On a tablet's first visit the page stands before the job's files have come.
    protected override async Task OnAfterRenderAsync(bool firstRender)
    {
        if (NameOfDraft == draftName)
            return;
        await OpenDraft();
        StateHasChanged();
    }

    private async Task OpenDraft()
    {
        var name = NameOfDraft;
        if (name == draftName)
            return;
        (draftName, told) = (name, "");
        draft = EntryDraft.Read(await Page.Setting(name));
        Look();
    }

    protected override void Look()
    {
        base.Look();
        (check, found, left, kept, entries) = (null, null, [], [], []);
        spool = Plan?.Packet.Fabrication.Spools.FirstOrDefault(s => s.Name.Equals(SpoolName, StringComparison.OrdinalIgnoreCase));
        if (Plan is null || spool is null)
            return;
        var made = Plan.Made(spool, Done);
        List<SpoolRead> read = [.. Done.SpoolReadings[spool.Name].Where(e => e.Counts).Select(e => e.As)];
        isTacked = draft.SetUp switch { "tacked" => true, "welded" => false, _ => made.IsTacked(read) };
        (check, left) = Plan.Final(spool, Done, isTacked);
        entries = [.. Done.Facts.Where(e => e.As is SpoolRead read ? read.Spool.Equals(spool.Name, StringComparison.OrdinalIgnoreCase) : e.As is EndAsBuilt built && built.End.EndsWith($" of {spool.Name}", StringComparison.OrdinalIgnoreCase))];
        kept = SpoolGoneOver.Of(check, read, made.DrewIn);
        found = kept.Count > 0 ? check.Judge([.. kept.Select(k => k.Taken)]) : null;
        wrongs.Clear();
        foreach (var target in check.Targets)
        {
            if (draft.Typed.TryGetValue(Key(target.Reading), out var text))
                Value(target, text);
        }
    }

    private string Key(EndReading reading) => $"{State} {reading.Text}";

    private bool IsAgain(EndReading reading) => found is { } f && f.Again.Concat(f.Alike).Any(t => t.Reading.Equals(reading));

    private KeptEnd? Kept(EndReading reading) => kept.FirstOrDefault(k => k.Taken.Reading.Equals(reading));

    private string Shown(EndReading reading) => draft.Typed.GetValueOrDefault(Key(reading)) ?? (Kept(reading) is { Taken.Value: var value } ? Words.Show(reading, value).TrimEnd('°') : "");

    /// <summary>What was typed, mm or radians; null where it can be no reading, and then it is said why.</summary>
    private double? Value(EndTarget target, string text)
    {
        var reading = target.Reading;
        if (ReadingWords.Read(reading.IsAngle, text, Choices.Units, out var wrong) is { } value)
        {
            wrong = value < 0 && !reading.IsSigned ? "A distance has no minus sign."
                : Math.Abs(value - target.Value) > (reading.IsAngle ? Math.PI / 4 : 500 + Math.Abs(target.Value)) ? $"It should be about {Words.Show(reading, target.Value)}: is the point in its place?"
                : "";
            if (wrong.Length == 0)
                return value;
        }

        wrongs[Key(reading)] = wrong;
        return null;
    }

    private async Task Type(EndTarget target, string text)
    {
        var key = Key(target.Reading);
        told = "";
        wrongs.Remove(key);
        draft.SetUp = State;
        if (text.Trim().Length > 0)
        {
            draft.Typed[key] = text;
            await KeepDraft();
            await Confirm(target);
            return;
        }

        draft.Typed.Remove(key);
        await KeepDraft();
        if (Kept(target.Reading) is { } before)
            await signing!.TakeBack(before.Fact, FinalWords.Of(target.Reading, check!));
    }

    /// <summary>Makes what was typed a fact.</summary>
    private async Task Confirm(EndTarget target)
    {
        var key = Key(target.Reading);
        if (!draft.Typed.TryGetValue(key, out var text) || Value(target, text) is not { } value || check!.Base is not { } from)
            return;
        var (name, state, row) = (spool!.Name, isTacked, FinalReadings.Row(new(target.Reading, value)));
        // Out of the draft at once, so that it is not said twice; it comes back where it could not be kept.
        draft.Typed.Remove(key);
        if (Kept(target.Reading)?.Fact.Row != row && !await signing!.Keep(() => new SpoolRead(LocalJob.NewId(), Job.Who, LocalJob.Now, Drawing, name, from.Name, row) { IsTacked = state }))
            draft.Typed.TryAdd(key, text);
        // From here on the record says how it was read.
        if (draft.Typed.Count == 0)
            draft.SetUp = "";
        await KeepDraft();
    }

    private async Task KeepWaiting()
    {
        foreach (var target in check!.Targets.Where(t => Waiting.Contains(t.Reading)).ToList())
            await Confirm(target);
    }

    private Task KeepDraft() => Page.Keep(draftName, draft is { SetUp: "", Typed.Count: 0 } ? null : draft.Write());

    private async Task Read(bool tacked)
    {
        (draft.SetUp, told) = (tacked ? "tacked" : "welded", "");
        await KeepDraft();
        Look();
    }

    /// <summary>Each end that the readings say something of is kept as it was built: split, forecast and closing reckon with it.</summary>
    private async Task KeepAsBuilt()
    {
        var built = FinalAsBuilt.Of(SiteLine.Of(Packet.Fabrication), found!);
        foreach (var (end, (off, sd)) in built)
        {
            if (!await signing!.Keep(() => new EndAsBuilt(LocalJob.NewId(), Job.Who, LocalJob.Now, Drawing, end, off, sd)))
                return;
        }

        told = built.Count == 0 ? "None of the ends that were read is joined to another spool: the site reckons with nothing of them." : $"On record as built: {string.Join(", ", built.Keys)}.";
    }

    private string Says(DrawingFact fact) => fact switch
    {
        EndAsBuilt b => $"{b.End} as built: {Signed(b.Off.X)} toward 3 o’clock, {Signed(b.Off.Y)} toward 12, {Signed(b.Off.Z)} along the line",
        SpoolRead r when FinalReadings.OfRow(check!, r.Row) is [var taken, ..] => $"{FinalWords.Of(taken.Reading, check!)} {Words.Show(taken.Reading, taken.Value)}{(r.IsTacked ? ", tacked" : "")}",
        _ => FactWords.Of(fact),
    };

    /// <summary>It is not withdrawn, and what the page says is not made of it.</summary>
    private bool IsPassedOver(Entry<DrawingFact> entry) => entry is { Counts: true, Fact: SpoolRead } && kept.All(k => k.Fact.Id != entry.Fact.Id);

    private string Signed(double mm) => Words.Words.Signed(mm);

    private Task Save() => Page.Save($"spool-{spool!.Name}.readings.yaml", "text/yaml", Encoding.UTF8.GetBytes(FinalReadings.File(check!, kept.Select(k => k.Taken))));

    private static string Sentence(string words) => char.ToUpperInvariant(words[0]) + words[1..] + ".";
}
