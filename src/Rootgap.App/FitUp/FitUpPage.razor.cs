using Microsoft.AspNetCore.Components;
using Microsoft.AspNetCore.Components.Web;
using Rootgap.App.Look;
using Rootgap.App.Offline;
using Rootgap.Fabricating;
using Rootgap.FitUp;
using Rootgap.Papers;
using Rootgap.Records;
using Rootgap.Routes;
using Rootgap.Sheets;
using Step = Rootgap.Records.Step;

namespace Rootgap.App.FitUp;

/// <summary>
/// One joint: its targets, the readings as they are taken, what they mean, its steps. A reading is a fact as soon as it is confirmed;
/// what is typed and not yet confirmed is kept in the browser by the joint.
/// </summary>
public sealed partial class FitUpPage
{
    private readonly SemaphoreSlim turn = new(1, 1);
    private readonly Dictionary<string, string> wrongs = new(StringComparer.Ordinal);
    private readonly Dictionary<string, ReadingDoubt> doubts = new(StringComparer.Ordinal);
    private readonly HashSet<(string Key, string Text)> sure = [];
    private Signing? signing;
    private Joint? joint;
    private Spool? spool;
    private IReadOnlyList<Joint> order = [];
    private FitUpJob? planned;
    private FitUpJob? card;
    private string picture = "";
    private string refused = "";
    private List<JudgedOver> judged = [];
    private JudgedOver? mine;
    private IReadOnlyList<Marked> marked = [];
    private EntryDraft draft = new();
    private string draftName = "";
    private string active = "";
    private bool isPadOpen;
    private bool isWeldedByRecord;

    /// <summary>The joint's name: W3, B1.</summary>
    [Parameter] public string JointName { get; set; } = "";

    private IReadOnlyList<Step> Steps => joint is { IsWeld: true } ? [Step.Fitted, Step.Tacked, Step.Welded, Step.Checked] : [Step.Fitted, Step.Checked];

    private int Number => order.TakeWhile(j => j.Id != joint!.Id).Count();

    private Joint? Previous => Number > 0 ? order[Number - 1] : null;

    private Joint? Next => Number + 1 < order.Count ? order[Number + 1] : null;

    private Target? Active => card?.Fields.FirstOrDefault(t => ReadingWords.Key(t.Reading) == active);

    /// <summary>The set-ups to choose from; rolled by as much as planned.</summary>
    private IReadOnlyList<string> SetUps => ["on end", "level", planned?.Standing.SetUp is { Attitude: Attitude.Rolled } rolled ? rolled.Word : "rolled", "clamped"];

    /// <summary>In the units that the person reads.</summary>
    private FitWords Words => new(Choices.Units, Name);

    /// <summary>A card in the units that the person reads.</summary>
    private FitUpJob Read(FitUpJob card) => card with { Words = Words };

    // What stays at joints before moves this target.
    private static bool IsMoved(Target target) => Math.Abs(target.Value - target.Drawn) > (target.Reading.IsAngle ? 1e-4 : 0.05);

    private double? Mark => card is { Standing: { HasMarks: true, Mark: var mark } } ? mark : null;

    /// <summary>What speaks against going on at this joint.</summary>
    /// <summary>What the joint's metal and the line's fluid ask for.</summary>
    private IReadOnlyList<string> Cautions => joint is null ? [] : [.. Hazards.Of(Packet.Drawing.Service).Append(Hazards.PurgeAt(Packet.Fabrication.Route, [joint])).OfType<string>()];

    private string Warning
    {
        get
        {
            // Of each person what they read last: nobody's single good reading takes another's warning away.
            var off = judged.Where(j => j.Over.Drawing == Drawing && j.Found is not null).GroupBy(j => j.Over.Who, StringComparer.Ordinal).Select(g => g.MaxBy(j => j.Over.Ended)!).Where(j => j.Found is { Within: false }).Select(j => j.Over.Who).ToList();
            return off.Count == 0 ? "" : $"✗ The last readings, by {string.Join(" and by ", off)}, are not within tolerance: see to that before it is tacked or welded.";
        }
    }

    /// <summary>What holds this joint until a second person has looked; empty where nothing does.</summary>
    private string Held => joint is not null && Done.HeldBy(joint.Id) is { } held ? $"Held: {held.Says(Choices.When)}. A second person looks at it first." : "";

    private string NameOfDraft => $"fit {Job.Id} {Drawing.Number} {Drawing.Revision} {joint?.Id}";

    protected override Task OnParametersSetAsync() => OpenDraft();

    // On a tablet's first visit the page stands before the job's files have come: the joint is known only then.
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
        (draftName, isPadOpen) = (name, false);
        wrongs.Clear();
        draft = EntryDraft.Read(await Page.Setting(name));
        Look();
        active = card?.Fields.Select(t => t.Reading).FirstOrDefault(r => Kept(r) is null) is { } first ? ReadingWords.Key(first) : "";
    }

    protected override void Look()
    {
        base.Look();
        joint = Plan?.Joint(JointName);
        (planned, judged, mine) = (null, [], null);
        marked = joint is null ? [] : [.. Done.Marked.Where(m => joint.Id.Equals(m.Now, StringComparison.OrdinalIgnoreCase))];
        if (Plan is null || joint is null)
        {
            card = null;
            return;
        }

        spool = Plan.SpoolOf(joint);
        order = spool is null ? Plan.AtSite : Plan.InOrder(spool, Done);
        if (!Plan.HasReadings(joint))
        {
            card = null;
            return;
        }

        planned = Plan.Card(joint, Done);
        refused = "";
        var overs = GoingOver.Of(Done.Readings[joint.Id]);
        var last = overs.LastOrDefault(o => o.Who == Job.Who && o.Drawing == Drawing && o.Counting.Count > 0);
        // What is read from now on at a weld that was welded since is read after welding, until the fitter says otherwise.
        isWeldedByRecord = spool is not null && SpoolAsMade.WeldedAt(joint, Done) is { } at && (last is null || last.IsWelded || last.Ended < at);
        var isWelded = draft.IsWelded ?? isWeldedByRecord;
        var stood = draft.SetUp.Length > 0 ? Plan.Card(joint, Done, draft.SetUp, draft.Held, draft.Mark, isWelded, out refused)
            : last is not null ? Plan.Card(joint, Done, last.SetUp, last.Held, last.Mark, isWelded, out refused)
            : isWelded == planned.Standing.Joint.IsWelded ? planned
            : Plan.Card(joint, Done, planned.Standing.SetUp.Word, planned.Step.Joint.Held.Id, null, isWelded, out refused);
        if (card is null || card != stood || card.Standing.SetUp.Word != stood.Standing.SetUp.Word || !Same(card.Standing.Mark, stood.Standing.Mark))
            picture = SvgWriter.Write(FitUpCard.Picture(stood));
        card = stood;
        judged = [.. overs.Select(o => JudgedOver.Of(o, Stands(o, card) ? card : Plan.Card(joint, Done, o.SetUp, o.Held, o.Mark, o.IsWelded, out _), Choices.Units))];
        // Each against the one before that stood the same: what a tack has moved.
        for (var i = judged.Count - 1; i > 0; i--)
        {
            if (judged[i].Found is { } now && judged.Take(i).LastOrDefault(j => j.Found is not null && j.Over.SetUp == judged[i].Over.SetUp && j.Over.Held == judged[i].Over.Held && j.Over.IsWelded == judged[i].Over.IsWelded && Same(j.Over.Mark, judged[i].Over.Mark)) is { Found: { } before })
                judged[i] = judged[i] with { Say = [.. judged[i].Say, Remedy.Since(before, now, Choices.Units)] };
        }

        if (!draft.IsAnew)
            mine = judged.LastOrDefault(j => j.Over.Who == Job.Who && j.Over.Drawing == Drawing && Stands(j.Over, card));
        // What was at hand is not read here any more: it has been welded, or stands otherwise.
        if (active.Length > 0 && Active is null)
            active = card.Fields.Count > 0 ? ReadingWords.Key(card.Fields[0].Reading) : "";
    }

    private static bool Stands(GoingOver over, FitUpJob card) =>
        over.SetUp.Equals(card.Standing.SetUp.Word, StringComparison.OrdinalIgnoreCase) && (over.Held.Length == 0 || over.Held == card.Step.Joint.Held.Id)
        && (over.Mark is null || Same(over.Mark, card.Standing.Mark)) && over.IsWelded == card.Standing.Joint.IsWelded;

    private static bool Same(double? one, double? other) => one is { } a && other is { } b ? Math.Abs(a - b) < 1e-6 : one is null == other is null;

    /// <summary>The reading that counts in the going-over that is being written; null where it is not taken yet.</summary>
    private KeptReading? Kept(Reading reading) => mine?.Over.Counting.FirstOrDefault(r => r.Taken.Reading == reading);

    private string Typed(Reading reading) => draft.Typed.GetValueOrDefault(ReadingWords.Key(reading))
        ?? (Kept(reading) is { } kept ? Words.Show(reading, kept.Taken.Value).TrimEnd('°') : "");

    private bool IsAgain(Reading reading) => mine?.Found is { } found && (found.Again.Any(t => t.Reading == reading) || found.Alike.Any(t => t.Reading == reading));

    private async Task Type(string key, string text)
    {
        draft.Typed[key] = text;
        wrongs.Remove(key);
        doubts.Remove(key);
        await KeepDraft();
    }

    /// <summary>The person says what a doubtful reading is: what was typed, or what was meant.</summary>
    private async Task Say(string key, double? meant)
    {
        if (!doubts.Remove(key) || card?.Fields.FirstOrDefault(t => ReadingWords.Key(t.Reading) == key) is not { } target)
            return;
        if (meant is { } value)
            draft.Typed[key] = Words.Show(target.Reading, value).TrimEnd('°');
        else if (draft.Typed.TryGetValue(key, out var text))
            sure.Add((key, text.Trim()));
        active = key;
        await GoOn(1);
    }

    private async Task Press(string padKey)
    {
        if (Active is not { } target)
            return;
        if (padKey == "next")
        {
            await GoOn(1);
            return;
        }

        // A first digit begins anew; backing up goes into what was kept.
        var text = draft.Typed.GetValueOrDefault(active) ?? (padKey is "back" or "minus" ? Typed(target.Reading) : "");
        await Type(active, NumberPad.After(text, padKey));
    }

    private Task Key(KeyboardEventArgs e) => e.Key switch
    {
        "Enter" or "ArrowDown" => GoOn(1),
        "ArrowUp" => GoOn(-1),
        "Escape" => Drop(),
        _ => Task.CompletedTask,
    };

    private async Task Drop()
    {
        draft.Typed.Remove(active);
        wrongs.Remove(active);
        doubts.Remove(active);
        await KeepDraft();
    }

    /// <summary>Keeps the reading at hand and goes to the next, or the one before; stays where it is not kept.</summary>
    private async Task GoOn(int by)
    {
        if (card is null || Active is not { } target)
            return;
        if (draft.Typed.TryGetValue(active, out var typed) && typed.Trim().Length == 0 && Kept(target.Reading) is { } kept)
        {
            await Drop();
            await signing!.TakeBack(kept.Entry.Fact, $"{target.Reading.Text} {Words.Show(target.Reading, kept.Taken.Value)}");
            return;
        }

        if (!await Confirm(active))
            return;
        var keys = card.Fields.Select(t => ReadingWords.Key(t.Reading)).ToList();
        var at = keys.IndexOf(active) + by;
        if (at < 0 || keys.Count <= at)
        {
            isPadOpen = by < 0;
            return;
        }

        active = keys[at];
        StateHasChanged();
        await Page.Focus("reading-" + active);
    }

    private async Task Leave(string key)
    {
        if (draft.Typed.ContainsKey(key))
            await Confirm(key);
    }

    /// <summary>Makes what was typed a fact. True where there is nothing left to keep.</summary>
    private async Task<bool> Confirm(string key)
    {
        if (card is not { } at || joint is null || !draft.Typed.TryGetValue(key, out var text) || at.Fields.FirstOrDefault(t => ReadingWords.Key(t.Reading) == key) is not { } target)
            return true;
        if (text.Trim().Length == 0)
        {
            draft.Typed.Remove(key);
            await KeepDraft();
            return true;
        }

        if (ReadingWords.Read(target.Reading, text, Choices.Units, out var wrong) is not { } value)
        {
            wrongs[key] = wrong;
            return false;
        }

        var taken = new Taken(target.Reading, value);
        if (FitReadings.Wrong(taken, at.Standing) is var (message, remedy))
        {
            wrongs[key] = $"{message} {remedy}";
            return false;
        }

        // What can hardly be is asked first; what was said once is not asked again.
        if (ReadingDoubt.Of(target, value, Choices.Units) is { } doubt && !sure.Contains((key, text.Trim())))
        {
            doubts[key] = doubt;
            (active, isPadOpen) = (key, true);
            return false;
        }

        // Out of the draft at once: leaving the field and pressing Enter are one and the same reading. It comes back where it could not be kept.
        draft.Typed.Remove(key);
        wrongs.Remove(key);
        await turn.WaitAsync();
        try
        {
            var (name, mark) = (joint.Id, Mark);
            var isKept = Kept(target.Reading) is { } before && Math.Abs(before.Taken.Value - value) < 1e-9;
            if (!isKept && !await signing!.Keep(() => new ReadingsTaken(
                LocalJob.NewId(), Job.Who, LocalJob.Now, Drawing, name, at.Standing.SetUp.Word, at.Step.Joint.Held.Id, mark, [taken])
            { First = mine?.Over.Id, IsWelded = at.Standing.Joint.IsWelded }))
            {
                draft.Typed.TryAdd(key, text);
                return false;
            }

            // The going-over is there now, in the set-up that it says.
            if (!isKept)
                draft.IsAnew = false;
            await KeepDraft();
            Look();
            return true;
        }
        finally
        {
            turn.Release();
        }
    }

    /// <summary>Sets the joint up otherwise; readings in another set-up are a going-over of their own.</summary>
    private async Task Stand(string setUp, string held, double? mark)
    {
        if (Plan is null || joint is null)
            return;
        if (active.Length > 0 && !await Confirm(active))
            return;
        draft.Typed.Clear();
        wrongs.Clear();
        (draft.SetUp, draft.Held, draft.Mark, draft.IsAnew) = (setUp, held, mark, false);
        await KeepDraft();
        Look();
        active = card?.Fields.Count > 0 ? ReadingWords.Key(card.Fields[0].Reading) : "";
    }

    /// <summary>Says that what is read from now on is read after welding, or while tacked; each is a going-over of its own.</summary>
    private async Task SetState(bool isWelded)
    {
        if (active.Length > 0 && !await Confirm(active))
            return;
        draft.Typed.Clear();
        wrongs.Clear();
        (draft.IsWelded, draft.IsAnew) = (isWelded == isWeldedByRecord ? null : isWelded, false);
        await KeepDraft();
        Look();
    }

    private async Task MarkAt(string text)
    {
        if (card is null)
            return;
        var straight = card.Step.Joint.HeldStraight;
        double? mark = null;
        if (text.Trim().Length > 0)
        {
            if (!Rootgap.Measure.LengthText.TryParse(text, Choices.Units, out var mm) || mm <= 0 || (0 < straight && straight < mm))
            {
                wrongs["mark"] = $"\"{text.Trim()}\" back is not on {card.Step.Joint.Held.Label}, which is {Choices.LengthWithUnit(straight)} long.";
                return;
            }

            mark = mm;
        }

        await Stand(card.Standing.SetUp.Word, card.Step.Joint.Held.Id, mark);
    }

    private async Task Anew()
    {
        if (active.Length > 0)
            await Confirm(active);
        draft.Typed.Clear();
        draft.IsAnew = true;
        if (card is not null)
            (draft.SetUp, draft.Held, draft.Mark) = (card.Standing.SetUp.Word, card.Step.Joint.Held.Id, Mark);
        await KeepDraft();
        Look();
        active = card?.Fields.Count > 0 ? ReadingWords.Key(card.Fields[0].Reading) : "";
    }

    private Task KeepDraft() => Page.Keep(draftName, draft is { SetUp: "", IsWelded: null, IsAnew: false, Typed.Count: 0 } ? null : draft.Write());

    private void Choose(string key) => (active, isPadOpen) = (key, true);
}
