using Microsoft.AspNetCore.Components;
using Microsoft.AspNetCore.Components.Forms;
using Microsoft.AspNetCore.Components.Web;
using Microsoft.AspNetCore.Components.Web.Virtualization;
using Microsoft.JSInterop;
using Rootgap.App.Look;
using Rootgap.App.Offline;
using Rootgap.Drawings;
using Rootgap.Records;

namespace Rootgap.App.Jobs;

/// <summary>A drawing as the first page lists it: what stands at the top of its file, found without reading the rest.</summary>
/// <param name="Of">Version or text that it was found in.</param>
public sealed record ListedDrawing(string Path, string Of, string Number, string Revision, string Title);

/// <summary>The first page: what can be made now, what is held and why, and the drawings with what is to find among them.</summary>
public sealed partial class JobPage
{
    private static readonly (string Key, string Says)[] Sifts = [("all", "all"), ("work", "work now"), ("held", "held"), ("done", "done")];

    private readonly Dictionary<string, ListedDrawing> listed = new(StringComparer.Ordinal);
    private readonly List<OfferedFile> known = [];
    private List<ListedDrawing> all = [];
    private List<ListedDrawing> rows = [];
    private IReadOnlyList<DrawingGlance> glances = [];
    private List<string> others = [];
    private List<(string Says, string Address)> heats = [];
    private Virtualize<ListedDrawing>? list;
    private (string What, string Title, string Says, string Address)? goOn;
    private JobRecord? of;
    private string find = "", sift = "all", order = "number", number = "", message = "";
    private bool isNaming, isDue, isGone;

    private List<ListedDrawing> Rows => rows;

    private List<(string Says, string Address)> Heats => heats;

    protected override async Task OnInitializedAsync()
    {
        Job.Changed += Refresh;
        Sync.Changed += Redraw;
        Kept.Changed += WorkedOut;
        await Kept.Open();
        Fill();
    }

    protected override async Task OnAfterRenderAsync(bool firstRender)
    {
        // Where work begins: a word typed at once is looked for. The heading's focus, which every page gets, comes first.
        if (!firstRender)
            return;
        await Task.Yield();
        await Page.Focus("find");
        // Also where there is nothing to be worked out: the next page waits less.
        await Parts.Bring();
    }

    private void Redraw()
    {
        if (Job.Brought is not null)
            _ = InvokeAsync(StateHasChanged);
    }

    private void Refresh() => _ = InvokeAsync(() =>
    {
        Fill();
        StateHasChanged();
    });

    /// <summary>Results come one by one: they are shown a few times a second.</summary>
    private void WorkedOut(string path)
    {
        if (isDue)
            return;
        isDue = true;
        _ = InvokeAsync(async () =>
        {
            await Task.Delay(Kept.Left > 0 ? 250 : 20);
            isDue = false;
            if (isGone)
                return;
            Glance();
            if (sift != "all" || find.Length > 0 || order == "held")
                Sift();
            StateHasChanged();
        });
    }

    private void Fill()
    {
        if (!ReferenceEquals(of, Job.Record) || Job.Drafts.Count > 0)
        {
            of = Job.Record;
            all = [.. Drawings.Paths.Select(Listed).OrderBy(l => l.Number.Length > 0 ? l.Number : l.Path, StringComparer.OrdinalIgnoreCase)];
            var paths = all.Select(l => l.Path).ToHashSet(StringComparer.Ordinal);
            others = [.. Job.Paths.Where(p => !paths.Contains(p))];
            goOn = GoOn();
        }

        Kept.WantAll(all.Select(l => l.Path));
        Glance();
        Sift();
    }

    private ListedDrawing Listed(string path)
    {
        var draft = Job.Drafts.GetValueOrDefault(path)?.Text;
        var from = draft ?? Job.Saved(path)?.Id ?? "";
        if (listed.TryGetValue(path, out var before) && before.Of == from)
            return before;
        var (head, title) = draft is not null ? (DrawingHead.Of(draft), DrawingHead.TitleOf(draft)) : Job.Saved(path) is { } saved && Drawings.TopOf(saved) is var top ? (top.Head, top.Title) : (new DrawingHead("", ""), "");
        return listed[path] = new(path, from, head.Number, head.Revision, title);
    }

    private void Glance() => glances = [.. all.Select(l => Kept.Known(l.Path)).OfType<DrawingGlance>()];

    private string NumberOf(string path) => listed.GetValueOrDefault(path) is { Number.Length: > 0 } l ? l.Number : path;

    private void Sift()
    {
        var word = find.Trim();
        var chosen = all.Where(l => Has(l, word) && Kept.Known(l.Path) is var g && sift switch
        {
            "work" => g?.Work.Any() == true,
            "held" => g is not null && (g.Held is not null || g.ToLookAt > 0),
            "done" => g?.IsDone == true,
            _ => true,
        });
        var last = order == "last" ? Last : [];
        rows = order switch
        {
            "held" => [.. chosen.OrderBy(l => Kept.Known(l.Path)?.Held is null)],
            "last" => [.. chosen.OrderByDescending(l => last.GetValueOrDefault(l.Number))],
            _ => [.. chosen],
        };
        heats = word.Length < 2 ? [] : [.. Job.Record.OnDrawings.Where(e => e.Counts).Select(e => e.Fact).Select(f => (f, Heat: f switch { HeatNoted h => h.Heat, PieceCut c => c.Heat, _ => null }))
            .Where(f => f.Heat?.Contains(word, StringComparison.OrdinalIgnoreCase) == true).DistinctBy(f => (f.Heat, f.f.Drawing.Number, DrawingRecord.NameOf(f.f))).Take(8)
            .Select(f => ($"{f.Heat}: {f.f.Drawing.Number} {DrawingRecord.NameOf(f.f)}", PathOf(f.f) is { } p ? PageAddress.Spools(p) : ""))];
    }

    private bool Has(ListedDrawing l, string word) => word.Length == 0 || l.Number.Contains(word, StringComparison.OrdinalIgnoreCase) || l.Title.Contains(word, StringComparison.OrdinalIgnoreCase)
        || l.Path.Contains(word, StringComparison.OrdinalIgnoreCase) || Kept.Known(l.Path)?.Names.Contains($" {word} ", StringComparison.OrdinalIgnoreCase) == true;

    /// <summary>When each drawing was worked on last, by its number.</summary>
    private Dictionary<string, DateTimeOffset> Last => Job.Record.OnDrawings.GroupBy(e => e.Fact.Drawing.Number, StringComparer.Ordinal).ToDictionary(g => g.Key, g => g.Max(e => e.Fact.When), StringComparer.Ordinal);

    private string? PathOf(DrawingFact fact) => fact.Versions is [var first, ..] && Job.Record.Versions.TryGetValue(first, out var version) && Job.Saved(version.Path) is not null ? version.Path : all.Find(l => l.Number == fact.Drawing.Number)?.Path;

    /// <summary>Where this person stopped; where anybody did, if they did nothing yet. Drawings that are being written go first.</summary>
    private (string, string, string, string)? GoOn()
    {
        if (Job.Drafts.Keys.FirstOrDefault(listed.ContainsKey) is { } draft)
            return ("", NumberOf(draft), "you were writing it: not saved yet", PageAddress.Drawing(draft));
        var mine = Job.Record.OnDrawings.Where(e => e.Counts && e.Fact is PieceCut or JointStep or ReadingsTaken or HeatNoted).Select(e => e.Fact).ToList();
        if ((mine.LastOrDefault(f => f.Who == Job.Who) ?? mine.LastOrDefault()) is not { } last || PathOf(last) is not { } path)
            return null;
        var name = DrawingRecord.NameOf(last);
        var whose = last.Who == Job.Who ? "you" : last.Who;
        return (name, NumberOf(path), $"{whose} {(last switch { PieceCut => "cut it", JointStep s => "had it " + s.Step.ToString().ToLowerInvariant(), HeatNoted => "noted its heat", _ => "stopped at the readings" })}, {Choices.When(last.When)}",
            last is PieceCut or HeatNoted ? PageAddress.Spools(path) : PageAddress.Fit(name, path));
    }

    /// <summary>Where somebody begins who has done nothing here yet: what is farthest on its way.</summary>
    private WorkGlance? FirstWork => glances.SelectMany(g => g.Work).OrderByDescending(w => w.Kind is WorkKind.Fit or WorkKind.Weld).FirstOrDefault();

    private void Seek(string word)
    {
        find = word;
        Sift();
    }

    private void Only(string key)
    {
        sift = key;
        Sift();
    }

    private void Order(string key)
    {
        order = key;
        Sift();
    }

    private void All()
    {
        (find, sift) = ("", "all");
        Sift();
    }

    private void First(KeyboardEventArgs e)
    {
        if (e.Key == "Enter" && rows.Count > 0 && find.Trim().Length > 0)
            Way.NavigateTo(PageAddress.Drawing(rows[0].Path));
        else if (e.Key == "Escape")
            All();
    }

    private ElementReference camera;
    private ScannedCode? meant;
    private string scanned = "";
    private bool isScanning;

    /// <summary>The code of a sheet, a card or a label opens its page.</summary>
    private async Task Scan()
    {
        (scanned, meant) = ("", null);
        if (!await Page.CanScan())
        {
            scanned = "This browser reads no codes. The device's own camera shows what the code says: write that number into Find.";
            return;
        }

        isScanning = true;
        StateHasChanged();
        // The picture of the camera is drawn first.
        await Task.Yield();
        try
        {
            if (await Page.Scan(camera, isOfPerson: false) is { } said)
                Scanned(said);
        }
        catch (JSException)
        {
            scanned = "The camera cannot be had. Allow it for this address, or write the number into Find.";
        }
        finally
        {
            isScanning = false;
        }
    }

    private void Scanned(string said)
    {
        if (ScannedCode.Of(said, all.Select(l => (l.Number, l.Path))) is not { } code)
            scanned = $"The code says \"{said.Split('\n')[0]}\", and this job has no such drawing on this device.";
        else if (code.Revision.Length > 0 && listed[code.Path].Revision is var now && now != code.Revision)
            (scanned, meant) = ($"That paper is of revision {code.Revision} of {code.Number}, and the drawing stands at {(now.Length > 0 ? now : "none")}. Take the paper of today.", code);
        else
            Way.NavigateTo(code.Address);
    }

    private Task StopScan() => Page.StopScan();

    private async Task ToFind() => await Page.Focus("find");

    private async Task Name()
    {
        isNaming = true;
        StateHasChanged();
        await Task.Yield();
        await Page.Focus("new-number");
    }

    private async Task Create()
    {
        var name = new string([.. number.Trim().Select(c => char.IsAsciiLetterOrDigit(c) || c is '-' or '_' or '.' ? c : '-')]).Trim('-', '.');
        if (name.Length == 0)
        {
            message = "A drawing has a number. Write the one from its title block.";
            return;
        }

        var path = name + ".yaml";
        for (var i = 2; Job.Paths.Contains(path, StringComparer.OrdinalIgnoreCase); i++)
            path = $"{name}-{i}.yaml";
        message = "";
        await Try(async () =>
        {
            if (!await Parts.Bring())
            {
                message = "The shop cannot be reached, and this device has only the first page of the program so far. Come near the shop's network once: the rest is kept from then on.";
                return;
            }

            await Job.SaveDraft(path, DrawingText.Blank(path, number.Trim(), Choices.Units).Text);
            await Job.SaveVersion(path);
            Way.NavigateTo(PageAddress.Drawing(path));
        });
    }

    private async Task AddFiles(InputFileChangeEventArgs e)
    {
        message = "";
        foreach (var file in e.GetMultipleFiles(200))
        {
            if (JobPath.WhyNot(file.Name) is { } why)
            {
                message += $"{file.Name}: {why} ";
                continue;
            }

            if (file.Size > FileSaved.Largest)
            {
                message += $"{file.Name} is larger than 4 MB. ";
                continue;
            }

            await Try(async () =>
            {
                using var content = new MemoryStream();
                await file.OpenReadStream(FileSaved.Largest).CopyToAsync(content);
                var bytes = content.ToArray();
                var before = Job.BytesOf(file.Name);
                if (before is null)
                    await Job.Add(new FileSaved(LocalJob.NewId(), Job.Who, LocalJob.Now, file.Name, bytes, Bases(file.Name)));
                else if (!before.AsSpan().SequenceEqual(bytes))
                    known.Add(new(file.Name, bytes, before));
            });
        }
    }

    private List<string> Bases(string path) => Job.Record.Files.TryGetValue(path, out var file) ? [.. file.Heads.Select(h => h.Id)] : [];

    /// <summary>The person has said what becomes of a file whose name the job knows.</summary>
    private Task Answer((OfferedFile File, FileAnswer Answer) said) => Try(async () =>
    {
        known.Remove(said.File);
        var path = said.File.Path;
        if (said.Answer == FileAnswer.NewVersion)
        {
            // What was being written is kept as a version first: nothing is dropped.
            await Job.SaveVersion(path);
            await Job.Add(new FileSaved(LocalJob.NewId(), Job.Who, LocalJob.Now, path, said.File.Content, Bases(path)));
        }
        else if (said.Answer == FileAnswer.Beside)
        {
            var dot = path.LastIndexOf('.');
            var beside = path;
            for (var i = 2; Job.Paths.Contains(beside, StringComparer.OrdinalIgnoreCase); i++)
                beside = $"{path[..dot]}-{i}{path[dot..]}";
            await Job.Add(new FileSaved(LocalJob.NewId(), Job.Who, LocalJob.Now, beside, said.File.Content, []));
        }
    });

    private async Task Save(string path)
    {
        if (Job.BytesOf(path) is { } content)
            await Page.Save(path.Split('/')[^1], "application/octet-stream", content);
    }

    private async Task Try(Func<Task> work)
    {
        try
        {
            await work();
        }
        catch (JSException e)
        {
            message += LocalJob.Words(e);
        }
    }

    public void Dispose()
    {
        isGone = true;
        if (isScanning)
            _ = Page.StopScan();
        Kept.Stop();
        Kept.Changed -= WorkedOut;
        Job.Changed -= Refresh;
        Sync.Changed -= Redraw;
    }
}
