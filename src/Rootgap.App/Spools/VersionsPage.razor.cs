using System.Globalization;
using Microsoft.AspNetCore.Components;
using Microsoft.JSInterop;
using Rootgap.App.Jobs;
using Rootgap.App.Look;
using Rootgap.App.Offline;
using Rootgap.Comparing;
using Rootgap.Drawings;
using Rootgap.Packets;
using Rootgap.Records;
using Rootgap.Sheets;

namespace Rootgap.App.Spools;

/// <summary>All kept versions of a drawing: what each changed, who and when; each to be looked at on the drawing and to be brought back. A new revision begins here.</summary>
public sealed partial class VersionsPage
{
    private const int More = 20;

    private sealed record Version(int Number, FileSaved Saved, FileSaved? Before, string Says, int Entries, bool IsNow);

    private readonly Dictionary<string, OpenDrawing> made = new(StringComparer.Ordinal);
    private List<Version> versions = [];
    private Version? looked;
    private IReadOnlyDictionary<string, ChangedPart>? changed;
    private string trouble = "", revision = "", drawnOf = "";
    private int shown = More;
    private bool isNaming;

    [Inject] public NavigationManager Way { get; set; } = default!;

    /// <summary>The version whose drawing is shown: the one that stands now, until another is looked at.</summary>
    private Version Looked => looked ?? versions.Find(v => v.IsNow) ?? versions[0];

    private OpenDrawing? Shown => Made(Looked.Saved);

    protected override void Look()
    {
        base.Look();
        versions = [];
        if (!Job.Record.Files.TryGetValue(Path, out var file))
            return;
        var all = file.Versions.Where(v => v.Counts).Select(v => v.Fact).ToList();
        var entries = Job.Record.OnDrawings.Select(e => e.Fact.Versions is [var on, ..] ? on : "").CountBy(on => on).ToDictionary(StringComparer.Ordinal);
        for (var i = 0; i < all.Count; i++)
        {
            var before = all[i].Bases.Count > 0 ? Job.Record.Versions.GetValueOrDefault(all[i].Bases[0]) : null;
            versions.Add(new(i + 1, all[i], before, all.Count - i <= shown ? Says(before, all[i]) : "", entries.GetValueOrDefault(all[i].Id), file.Latest?.Id == all[i].Id));
        }

        versions.Reverse();
        looked = looked is null ? null : versions.Find(v => v.Saved.Id == looked.Saved.Id);
        if (versions.Count > 0)
            Compare();
    }

    private void Choose(Version version)
    {
        looked = looked == version ? null : version;
        Compare();
    }

    private void Earlier()
    {
        shown += More;
        Look();
    }

    /// <summary>What the version that is looked at changed, on its drawing.</summary>
    private void Compare()
    {
        if (drawnOf == Looked.Saved.Id)
            return;
        drawnOf = Looked.Saved.Id;
        changed = Looked.Before is { } before && Made(before)?.Packet is { } old && Shown?.Packet is { } now ? ChangedPart.Of(Comparison.Of(old.Fabrication, now.Fabrication)) : null;
    }

    private OpenDrawing? Made(FileSaved version)
    {
        if (version.Text is not { } text)
            return null;
        if (!made.TryGetValue(version.Id, out var known))
            made[version.Id] = known = Drawings.Read(DrawingText.Of(text, Path));
        return known;
    }

    private string Says(FileSaved? before, FileSaved now)
    {
        if (now.IsRemoved)
            return "taken away";
        if (Made(now)?.Packet is not { } packet)
            return "cannot be read";
        if (before is null || before.IsRemoved)
            return $"first written, {packet.Drawing.Runs.Sum(r => r.Legs.Count)} legs";
        if (Made(before)?.Packet is not { } old)
            return "can be read again";
        List<string> says = [.. Differences(old, packet).Take(3)];
        return says.Count == 0 ? before.Text == now.Text ? "nothing" : "written otherwise, the same steel" : string.Join("; ", says);
    }

    private IEnumerable<string> Effects(Version version) =>
        Made(version.Saved)?.Packet is { } old && Open?.Packet is { } now ? Differences(old, now).DefaultIfEmpty("The same steel as now.").Prepend("From this version to the one that stands now:") : ["It cannot be read as it stands."];

    private IEnumerable<string> Differences(Packet old, Packet now) => VersionWords.Differences(Comparison.Of(old.Fabrication, now.Fabrication), Choices);

    private async Task BringBack(Version version)
    {
        await Try(async () =>
        {
            var heads = Job.Record.Files[Path].Heads.Select(h => h.Id).ToList();
            await Job.Add(FileSaved.OfText(LocalJob.NewId(), Job.Who, LocalJob.Now, Path, version.Saved.Text!, heads));
        });
        looked = null;
        Look();
    }

    private async Task Name()
    {
        (isNaming, revision) = (true, Next(Drawing.Revision));
        StateHasChanged();
        await Task.Yield();
        await Page.Focus("revision");
    }

    private async Task Begin()
    {
        var named = revision.Trim();
        if (named.Length == 0 || named == Drawing.Revision)
        {
            trouble = named.Length > 0 ? $"The drawing is revision {named} already. A new one has another number or letter." : "A revision has a number or a letter. Write the one from the title block.";
            return;
        }

        if (Job.Saved(Path)?.Text is not { } text)
            return;
        var written = DrawingText.Of(text, Path).Set("", "revision", named);
        if (written.Refusal is { } refusal)
        {
            trouble = refusal;
            return;
        }

        await Try(async () =>
        {
            await Job.SaveDraft(Path, written.Text);
            Way.NavigateTo(PageAddress.Drawing(Path));
        });
    }

    /// <summary>The revision that usually follows: the next number or letter; empty where that cannot be told.</summary>
    private static string Next(string revision) =>
        int.TryParse(revision, NumberStyles.None, CultureInfo.InvariantCulture, out var number) ? (number + 1).ToString(CultureInfo.InvariantCulture)
        : revision is [>= 'A' and < 'Z' or >= 'a' and < 'z'] ? ((char)(revision[0] + 1)).ToString()
        : revision.Length == 0 ? "1" : "";

    private async Task Try(Func<Task> work)
    {
        try
        {
            trouble = "";
            await work();
        }
        catch (JSException e)
        {
            trouble = LocalJob.Words(e);
        }
    }
}
