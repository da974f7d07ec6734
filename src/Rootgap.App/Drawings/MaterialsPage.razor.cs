using System.Globalization;
using Microsoft.AspNetCore.Components;
using Microsoft.AspNetCore.Components.Forms;
using Microsoft.AspNetCore.Components.Web;
using Microsoft.JSInterop;
using Rootgap.App.Offline;
using Rootgap.Drawings;
using Rootgap.Fabricating;
using Rootgap.Findings;
using Rootgap.Measure;
using Rootgap.Records;

namespace Rootgap.App.Drawings;

/// <summary>The material list of a drawing: written row by row, pasted, or read from a file, beside what the drawing needs.</summary>
public sealed partial class MaterialsPage
{
    private EditorState? state;
    private MaterialTable? table;
    private IReadOnlyList<IReadOnlyDictionary<string, string>> rows = [];
    private IReadOnlyList<string> columns = [], words = [];
    private IReadOnlyList<MaterialRow> missing = [];
    private readonly Dictionary<string, MaterialRow> checks = new(StringComparer.Ordinal);
    private readonly Dictionary<string, List<RowFinding>> findings = new(StringComparer.Ordinal);
    private readonly HashSet<CellAt> wrong = [];
    private readonly Dictionary<string, HashSet<string>> fitting = new(StringComparer.Ordinal);
    private string message = "", pasted = "", focus = "";
    private bool isBad, isPasting, allColumns, isGone;
    private ElementReference sheet;
    private IJSObjectReference? module, paste;
    private DotNetObjectReference<MaterialsPage>? self;

    [Parameter]
    public string DrawingPath { get; set; } = "";

    private bool IsWritten => state is { Text: { IsYaml: true, MaterialsFile: null } };

    private string Address => string.Join('/', DrawingPath.Split('/').Select(Uri.EscapeDataString));

    /// <summary>What is wrong with the list as a whole.</summary>
    private IEnumerable<RowFinding> Whole => findings.GetValueOrDefault("materials") ?? [];

    protected override void OnInitialized()
    {
        Job.Changed += Elsewhere;
        Choices.Changed += Redraw;
    }

    protected override void OnParametersSet() => Load();

    private void Load()
    {
        if (state?.Text.File != DrawingPath)
            state = null;
        if (Job.TextOf(DrawingPath) is not { } text)
            return;
        if (state is null)
            state = new(DrawingPath, text, Drawings.Read);
        else if (state.Text.Text != text)
            state.Replace(text);
        else
            state.Again();
        Choices.Drawn = state.Text.Units;
        Fill();
    }

    /// <summary>Another tab, another person or a file beside the drawing.</summary>
    private void Elsewhere() => _ = InvokeAsync(() =>
    {
        if (isGone)
            return;
        Load();
        StateHasChanged();
    });

    private void Redraw() => _ = InvokeAsync(StateHasChanged);

    protected override async Task OnAfterRenderAsync(bool firstRender)
    {
        if (paste is null && module is null && state is not null)
        {
            module = await Js.InvokeAsync<IJSObjectReference>("import", "./js/panes.js");
            self ??= DotNetObjectReference.Create(this);
            if (!isGone)
                paste = await module.InvokeAsync<IJSObjectReference>("pastedTables", sheet, self);
        }

        if (focus.Length > 0)
        {
            var id = focus;
            focus = "";
            await Page.Focus(id);
        }
    }

    /// <summary>Everything that is shown, from the text as it stands.</summary>
    private void Fill()
    {
        var s = state!;
        table = s.Text.MaterialsFile is { } file && Job.BytesOf(Rootgap.Records.JobPath.Beside(DrawingPath, file)) is { } content
            ? MaterialTable.OfFile(file, content, s.Text.Units)
            : null;
        rows = IsWritten ? [.. s.Text.Materials.Select(m => m.Cells)] : table?.Rows ?? [];
        columns = MaterialRows.Columns(rows, allColumns);
        checks.Clear();
        missing = [];
        if (s.Open.Packet is { } packet)
        {
            foreach (var row in packet.Fabrication.Materials)
            {
                if (row.Item is { } item)
                    checks.TryAdd(item.Source.Path.ToString(), row);
            }

            missing = [.. packet.Fabrication.Materials.Where(r => r.Item is null)];
        }

        findings.Clear();
        wrong.Clear();
        foreach (var found in s.Open.Errors.Select(f => new RowFinding(f, CanAccept: false)).Concat((s.Open.Packet?.Findings ?? []).Select(f => new RowFinding(f, CanAccept: true))))
        {
            var at = found.Finding.At;
            if (at.Group.ToString() != "materials")
                continue;
            var path = at.Item is { } index && index < rows.Count ? PathOf(index) : "materials";
            if (!findings.TryGetValue(path, out var there))
                findings[path] = there = [];
            there.Add(found);
            if (IsWritten && path != "materials" && found.Finding is { AcceptedBecause: null, Severity: not Severity.Note } && s.Text.Materials[IndexOf(path)].KeyOf(found.Finding) is { } key)
                wrong.Add(new(path, key));
        }

        words = IsWritten && s.Chosen is { } cell && IndexOf(cell.Path) is >= 0 and var n && n < rows.Count
            ? Offers.Material(s.Text, n).FirstOrDefault(o => o.Key == cell.Key)?.Words ?? []
            : [];
    }

    private static string PathOf(int row) => RowPath.OfItem(row).ToString();

    private static int IndexOf(string path) => RowPath.Of(path).Item ?? -1;

    private MaterialRow? CheckOf(int row) => checks.GetValueOrDefault(PathOf(row));

    private List<RowFinding>? FindingsOf(int row) => findings.GetValueOrDefault(PathOf(row));

    /// <summary>Whether a row has a field: it holds something, or it fits what the row is.</summary>
    private bool Fits(int row, string column)
    {
        if (rows[row].ContainsKey(column))
            return true;
        if (!IsWritten)
            return false;
        var what = rows[row].GetValueOrDefault("what", "");
        if (!fitting.TryGetValue(what, out var keys))
            fitting[what] = keys = [.. Offers.Material(state!.Text, row).Select(o => o.Key)];
        return keys.Contains(column);
    }

    private (string Class, string Text) Against(MaterialRow row)
    {
        if (row is { Listed: > 0, Needed: 0 })
            return ("note", "not used");
        if (row.Difference is not { } difference)
            return row.Needed > 0 ? ("plain", "no quantity") : ("", "");
        var amount = MaterialRows.Amount(Math.Abs(difference), row.IsLength, Choices.Units);
        var step = row.IsLength ? 0.005 : 0.001;
        return difference < -step ? ("stop", $"{amount} short") : difference > step ? ("plain", $"{amount} over") : ("good", "as needed");
    }

    private static string Sizes(MaterialRow need) => need.Size.IsNone ? "" : need.Size2.IsNone ? need.Size.ToString() : $"{need.Size} x {need.Size2}";

    private void Enter(CellAt cell)
    {
        state!.Choose(cell);
        Fill();
    }

    private Task Type(CellAt cell, string value) => Do(() => state!.Type(cell, value));

    private Task Insert(int at) => Change(state!.Text.InsertMaterial(at, new Dictionary<string, string>(StringComparer.Ordinal) { ["item"] = MaterialRows.NextNumber(state.Text) }), "", at, "what");

    private Task Remove(int at) => Change(state!.Text.RemoveMaterial(at), "", Math.Max(0, Math.Min(at, rows.Count - 2)), "item");

    private Task AddMissing(MaterialRow need) => Change(MaterialRows.Add(state!.Text, need, state.Open.Packet!.Fabrication), $"{need.What} is on the list now.");

    private Task Mend(Finding finding) => Do(() => state!.Mend(finding));

    private Task Accept((Finding Finding, string Why) accepted) => Do(() => state!.Accept(accepted.Finding, accepted.Why));

    private Task IntoDrawing() => Change(state!.Text.ReplaceMaterials(MaterialRows.Numbered(table!.Rows)), "The list stands in the drawing now; the file is as it was, and the drawing no longer names it.");

    private async Task TakePasted()
    {
        if (await Paste(pasted))
            (pasted, isPasting) = ("", false);
    }

    private async Task<bool> Paste(string text)
    {
        if (MaterialTable.HasHeadings(MaterialTable.CellsOf(text)))
            return await Take(MaterialTable.Pasted(text, state!.Text.Units));
        Tell("The first row names no columns. Copy the rows with their headings: item, what, size, schedule, class, material, quantity and the like.", bad: true);
        return false;
    }

    private async Task<bool> Take(MaterialTable taken)
    {
        if (MaterialRows.WhyNot(taken) is { } why)
        {
            Tell(why, bad: true);
            return false;
        }

        var left = string.Concat(taken.Notes.Where(n => n.Row < 0).Select(n => " " + n.Message));
        await Change(state!.Text.ReplaceMaterials(MaterialRows.Numbered(taken.Rows)), $"{taken.Rows.Count} rows are the list now. Undo brings back the one before.{left}");
        return !isBad;
    }

    /// <summary>A table was pasted into the list: with headings it is the list, without it fills the cells from the one it was pasted into.</summary>
    [JSInvokable]
    public async Task Pasted(string text, int row, string key)
    {
        if (!IsWritten)
            return;
        var cells = MaterialTable.CellsOf(text);
        if (MaterialTable.HasHeadings(cells) || row < 0)
            await Paste(text);
        else
            await Change(MaterialRows.Fill(state!.Text, cells, row, key, columns), cells.Count == 1 ? "A row of cells is filled." : $"{cells.Count} rows of cells are filled.");
        StateHasChanged();
    }

    /// <summary>Enter in the last row.</summary>
    [JSInvokable]
    public async Task Below(string key)
    {
        if (IsWritten)
            await Insert(rows.Count);
        StateHasChanged();
    }

    private async Task TakeFile(InputFileChangeEventArgs e, string? replaces)
    {
        var (name, size) = (e.File.Name, e.File.Size);
        if (size > FileSaved.Largest)
        {
            Tell($"{name} is larger than 4 MB: is it the right file?", bad: true);
            return;
        }

        using var stream = new MemoryStream();
        await e.File.OpenReadStream(FileSaved.Largest).CopyToAsync(stream);
        var content = stream.ToArray();
        var read = MaterialTable.OfFile(name, content, state!.Text.Units);
        if (replaces is null || MaterialRows.WhyNot(read) is not null)
        {
            await Take(read);
            return;
        }

        // Another kind of file comes under its own name, and the drawing then names that one.
        var named = System.IO.Path.GetExtension(name).Equals(System.IO.Path.GetExtension(replaces), StringComparison.OrdinalIgnoreCase) ? replaces : name;
        var path = Rootgap.Records.JobPath.Beside(DrawingPath, named);
        if (JobPath.WhyNot(path) is { } why)
        {
            Tell($"{path}: {why}", bad: true);
            return;
        }

        await Keep(async () =>
        {
            var bases = Job.Record.Files.TryGetValue(path, out var known) ? known.Heads.Select(h => h.Id).ToList() : [];
            await Job.Add(new FileSaved(LocalJob.NewId(), Job.Who, LocalJob.Now, path, content, bases));
        });
        if (named != replaces)
            await Change(state.Text.Set("", "materials", named), "");
        if (!isBad)
            Tell($"{path} is the list now: {read.Rows.Count} rows. The versions before it are kept.");
        Load();
    }

    /// <summary>Takes a changed text as one step.</summary>
    private async Task Change(DrawingText made, string done, int row = -1, string key = "")
    {
        if (made.Refusal is { } why)
        {
            Tell(why, bad: true);
            return;
        }

        await Do(() => state!.Replace(made.Text));
        if (done.Length > 0)
            Tell(done);
        if (row >= 0 && row < rows.Count)
            focus = new CellAt(PathOf(row), key).Id;
    }

    private async Task Do(Action change)
    {
        var before = state!.Text.Text;
        change();
        Tell(state.Refusal, bad: state.Refusal.Length > 0);
        Fill();
        if (state.Text.Text != before)
            await Keep(() => Job.SaveDraft(DrawingPath, state.Text.Text));
    }

    private async Task Keep(Func<Task> work)
    {
        try
        {
            await work();
        }
        catch (JSException e)
        {
            Tell(LocalJob.Words(e), bad: true);
        }
    }

    private void Tell(string words, bool bad = false) => (message, isBad) = (words, bad);

    public async ValueTask DisposeAsync()
    {
        isGone = true;
        Job.Changed -= Elsewhere;
        Choices.Changed -= Redraw;
        if (Job.Drafts.ContainsKey(DrawingPath))
            await Keep(() => Job.SaveVersion(DrawingPath));
        if (paste is not null)
        {
            await paste.InvokeVoidAsync("close");
            await paste.DisposeAsync();
        }

        if (module is not null)
            await module.DisposeAsync();
        self?.Dispose();
    }
}
