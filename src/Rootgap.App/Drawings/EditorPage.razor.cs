using System.Diagnostics;
using System.Text;
using Microsoft.AspNetCore.Components;
using Microsoft.JSInterop;
using Rootgap.App.Offline;
using Rootgap.Drawings;
using Rootgap.Findings;
using Rootgap.Records;

namespace Rootgap.App.Drawings;

/// <summary>
/// A drawing is written here: a table with one row a leg, beside it the isometric, the model or the text. Keys and taps are heard by scripts/editor.js, which calls
/// in at once (no waiting), so that a field and all that hangs on it change together. Each change is kept in the browser at once, and becomes a saved version when
/// nothing was typed for a while and when the page is left.
/// </summary>
public sealed partial class EditorPage
{
    private static readonly TimeSpan Quiet = TimeSpan.FromSeconds(3);
    private static readonly (string Key, string Says)[] Views = [("isometric", "Isometric"), ("model", "Model"), ("text", "Text"), ("paper", "Paper")];

    private readonly EditorRows rows = new();
    private EditorState? state;
    private EditorSheet? sheet;
    private IReadOnlyList<string> free = [];
    private List<FileSaved> heads = [];

    /// <summary>Of several versions the one that is shown.</summary>
    private FileSaved? looked;
    private JobRecord? beside;
    private string path = "";
    private string view = "isometric";

    /// <summary>What has the whole screen: <c>draw</c>, or empty where rows and drawing share it.</summary>
    private string full = "";
    private bool isHeadOpen;
    private string trouble = "";
    private int change;
    private readonly Following following = new();
    private IReadOnlyList<string> effects = [];
    private string agreed = "";
    private int waits;
    private ElementReference root;
    private bool isGone;
    private DotNetObjectReference<EditorPage>? self;
    private IJSObjectReference? script;

    [Parameter]
    public string DrawingPath { get; set; } = "";

    private string Address => string.Join('/', path.Split('/').Select(Uri.EscapeDataString));

    /// <summary>Whether the title block's and the line's fields are shown: somebody opened them, or is in one of them.</summary>
    private bool IsHeadOpen => isHeadOpen || state is { IsWriting: true, Chosen: { Path: "" or "line" or "service", Key: not "text" } };

    /// <summary>Findings of the whole drawing; while the head is folded also those of its rows, which could not be seen else.</summary>
    private IReadOnlyList<RowFinding> WholeOf(EditorSheet sheet) => IsHeadOpen ? sheet.Whole : [.. sheet.Whole.Concat(sheet.Top.Findings).Concat(sheet.Line.Findings).Concat(sheet.Service.Findings).Distinct()];

    /// <summary>The title block and the line in one line of words.</summary>
    private IEnumerable<string> Chips
    {
        get
        {
            if (state is null)
                yield break;
            var (top, line) = (state.Text.Top, state.Text.Line);
            if (top["revision"] is { Length: > 0 } revision)
                yield return "rev " + revision;
            yield return top["units"] is "in" ? "feet, inches" : "mm";
            yield return line["size"] is { Length: > 0 } size ? size + " in." : "size?";
            if (line["schedule"] is { Length: > 0 } schedule)
                yield return "schedule " + schedule;
            if (line["class"] is { Length: > 0 } rating)
                yield return "class " + rating;
            if (line["material"] is { Length: > 0 } material)
                yield return material;
            if (state.Text.Service["fluid"] is { Length: > 0 } fluid)
                yield return fluid;
        }
    }

    /// <summary>What the check says, in two words.</summary>
    private string Checked
    {
        get
        {
            if (state is null)
                return "";
            var (errors, stops, looks, notes) = (state.Shown.Errors.Count, Count(Severity.Stop), Count(Severity.Warn), Count(Severity.Note));
            return stops > 0 ? stops == 1 ? "1 stop" : $"{stops} stops"
                : errors > 0 ? errors == 1 ? "1 row not whole" : $"{errors} rows not whole"
                : state.Shown.Packet is null ? "not begun"
                : "can be built" + (looks > 0 ? looks == 1 ? ", 1 look" : $", {looks} looks" : notes > 0 ? notes == 1 ? ", 1 note" : $", {notes} notes" : "");

            int Count(Severity severity) => state.Shown.Packet?.Findings.Count(f => f.Severity == severity && f.AcceptedBecause is null && IsTold(f)) ?? 0;
        }
    }

    private bool IsTold(Finding finding) => state?.Chosen is not { Path.Length: > 0 } chosen || !state.IsHalfWritten(chosen.Path) || !finding.At.ToString().StartsWith(chosen.Path, StringComparison.Ordinal);

    /// <summary>Brings the first finding into sight, the stops first.</summary>
    private async Task ToFinding()
    {
        if (script is not null)
            await Try(async () => await script.InvokeVoidAsync("toFinding"));
    }

    /// <summary>Stops, warnings and what could not be read are shown at once; notes on the whole drawing on a tap.</summary>
    private static bool IsGrave(RowFinding found) => found.Finding.AcceptedBecause is null && (!found.CanAccept || found.Finding.Severity != Severity.Note);

    private void Fuller() => full = full.Length > 0 ? "" : "draw";

    protected override void OnInitialized()
    {
        Job.Changed += Elsewhere;
        Choices.Changed += Redraw;
    }

    protected override void OnParametersSet()
    {
        if (DrawingPath == path)
            return;
        var (before, left) = (path, state);
        path = DrawingPath;
        Begin();
        if (left is not null)
            _ = Try(() => MayBeSaved(before, left.Text) ? Job.SaveVersion(before) : Task.CompletedTask);
    }

    protected override async Task OnAfterRenderAsync(bool firstRender)
    {
        if (!firstRender)
            return;
        self = DotNetObjectReference.Create(this);
        script = await Js.InvokeAsync<IJSObjectReference>("import", "./js/editor.js");
        // The page may have been left while the script was fetched: nothing is there any more to hear keys on.
        if (isGone)
            return;
        await script.InvokeVoidAsync("begin", root, self);
        await BeginFirst();
    }

    /// <summary>A drawing without a leg begins with its pipe's size, or with the leg: the cursor stands there.</summary>
    private async Task BeginFirst()
    {
        if (state is not { Text.Runs: [{ Legs.Count: 0 } only] } || script is null)
            return;
        var next = state.Text.Line["size"].Length == 0 ? new CellAt("line", "size") : state.Insert(only.Start.Path);
        if (next is not { } cell)
            return;
        state.Choose(cell);
        Show();
        await Task.Yield();
        await script.InvokeVoidAsync("goTo", cell.Id);
    }

    public async ValueTask DisposeAsync()
    {
        isGone = true;
        Job.Changed -= Elsewhere;
        Choices.Changed -= Redraw;
        change++;
        try
        {
            if (script is not null)
            {
                await script.InvokeVoidAsync("end", root);
                await script.DisposeAsync();
            }

            if (state?.Close() == true)
                await Job.SaveDraft(path, state.Text.Text, IsLooking ? looked : null);
            if (state is not null && MayBeSaved(path, state.Text))
                await Job.SaveVersion(path);
        }
        catch (JSException)
        {
            // What was typed is kept as a draft; there is nobody left here to be told.
        }

        self?.Dispose();
    }

    private void Begin()
    {
        state = Job.TextOf(path) is { } text ? new(path, text, Opened.Read) : null;
        beside = Job.Record;
        heads = Heads();
        looked = heads.LastOrDefault();
        trouble = "";
        agreed = "";
        Weigh();
        Fill();
    }

    /// <summary>Shows what changed, and keeps it where it is the text.</summary>
    private void Show()
    {
        // What is typed into one of several versions is a version of its own, made from that one.
        if (state is not null && (IsLooking && !Job.Drafts.ContainsKey(path) ? looked?.Text : Job.TextOf(path)) != state.Text.Text)
            Keep(state.Text.Text);
        Fill();
        StateHasChanged();
        _ = LookOn();
    }

    /// <summary>The hand rests so long after a key before the desk check begins, and so long may a part of it hold up the next key.</summary>
    private static readonly TimeSpan Rest = TimeSpan.FromMilliseconds(100), Slice = TimeSpan.FromMilliseconds(8);

    /// <summary>Behind a key the drawing is checked a few rules at a time: a key in between goes first, and the check begins anew with what it changed.</summary>
    private async Task LookOn()
    {
        if (state is not { } writing || ReferenceEquals(writing.Shown, writing.Open) || writing.Open is not { Errors.Count: 0, Packet: { } packet })
            return;
        await Task.Delay(Rest);
        for (var isMore = true; isMore;)
        {
            if (!ReferenceEquals(writing, state) || !ReferenceEquals(writing.Open.Packet, packet))
                return;
            var since = Stopwatch.GetTimestamp();
            do
                isMore = packet.LookOn();
            while (isMore && Stopwatch.GetElapsedTime(since) < Slice);
            await Task.Delay(1);
        }

        if (!ReferenceEquals(writing, state) || !ReferenceEquals(writing.Open.Packet, packet) || !writing.Settle())
            return;
        Fill();
        StateHasChanged();
    }

    private void Fill()
    {
        if (state is null)
        {
            sheet = null;
            return;
        }

        Choices.Drawn = state.Text.Units;
        sheet = rows.Of(state, Choices.Units, kind => Job.Paths.Where(p => p != path && (kind == "shop" ? p.EndsWith(".yaml", StringComparison.OrdinalIgnoreCase) || p.EndsWith(".yml", StringComparison.OrdinalIgnoreCase) : !p.EndsWith(".xml", StringComparison.OrdinalIgnoreCase))));
        free = Offers.FreeBranches(state.Text);
    }

    private async Task Try(Func<Task> work)
    {
        try
        {
            await work();
        }
        catch (JSException e)
        {
            trouble = LocalJob.Words(e);
            StateHasChanged();
        }
    }

    private void Redraw() => _ = InvokeAsync(() =>
    {
        Fill();
        StateHasChanged();
    });

    /// <summary>The job changed, here or elsewhere: another version of this drawing, or another file beside it.</summary>
    private void Elsewhere() => _ = InvokeAsync(() =>
    {
        if (ReferenceEquals(beside, Job.Record))
            return;
        beside = Job.Record;
        Weigh();
        heads = Heads();
        if (looked is null || !heads.Contains(looked))
            looked = heads.LastOrDefault(h => h.Text == state?.Text.Text) ?? heads.LastOrDefault();
        if (state is null)
        {
            Begin();
        }
        else if (IsLooking && !Job.Drafts.ContainsKey(path) && looked?.Text is { } one && one != state.Text.Text)
        {
            // What stood here is behind all of them: one of them is shown.
            state.Replace(one);
        }
        else if (!Job.Drafts.ContainsKey(path) && !IsLooking && Job.TextOf(path) is { } text && text != state.Text.Text)
        {
            state.Replace(text);
        }
        else
        {
            state.Again();
        }

        Fill();
        StateHasChanged();
    });

    private void ChooseRow(string row)
    {
        state?.ChooseRow(row);
        Extend(row);
        Show();
        if (script is not null)
            _ = Try(async () => await script.InvokeVoidAsync("show", $"row-{row}"));
    }

    private async Task OpenRow(string row)
    {
        if (state is null || script is null || EditorRows.FirstKey(state.Text, row) is not { Length: > 0 } first)
            return;
        full = "";
        state.Choose(new(row, first));
        Show();
        await Task.Yield();
        await Try(async () => await script.InvokeVoidAsync("goTo", new CellAt(row, first).Id));
    }

    /// <summary>The line goes on from the drawing itself.</summary>
    private async Task GoOnFrom((string Row, string Way) on)
    {
        if (state?.GoOn(on.Row, on.Way) is not { } cell || script is null)
            return;
        full = "";
        state.Choose(cell);
        Show();
        // The row is drawn when this tap is done with.
        await Task.Yield();
        await Try(async () => await script.InvokeVoidAsync("goTo", cell.Id));
    }

    private void Mend(Finding finding)
    {
        state?.Mend(finding);
        Show();
    }

    private void Accept((Finding Finding, string Why) accepted)
    {
        state?.Accept(accepted.Finding, accepted.Why);
        Show();
    }
}
