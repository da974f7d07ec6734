using System.Text;
using Rootgap.App.Offline;
using Rootgap.Drawings;
using Rootgap.Records;

namespace Rootgap.App.Drawings;

/// <summary>What is written is kept at once and saved when the hand rests; what a change does to what was done; versions that wait for a choice.</summary>
public sealed partial class EditorPage
{
    private void Keep(string text)
    {
        var mine = ++change;
        _ = Try(async () =>
        {
            await Job.SaveDraft(path, text, IsLooking ? looked : null);
            trouble = "";
            await Task.Delay(Quiet);
            if (mine != change)
                return;
            state?.Pause();
            Weigh();
            if (effects.Count == 0 || agreed == text)
                await Job.SaveVersion(path);
            StateHasChanged();
        });
    }

    /// <summary>What the text as it stands does to what was done on the drawing as it is saved: nothing of it is a surprise once it is saved.</summary>
    private void Weigh()
    {
        var (marked, waiting) = state is null ? ([], 0) : Touched(path, state.Text);
        (effects, waits) = (marked, waiting);
    }

    private bool MayBeSaved(string which, DrawingText text) => agreed == text.Text || Touched(which, text).Effects.Count == 0;

    private (IReadOnlyList<string> Effects, int Waiting) Touched(string which, DrawingText text)
    {
        if (Job.Saved(which)?.Text is not { } saved || saved == text.Text)
            return ([], Job.Saved(which) is null ? 0 : Opened.Done(which).Marked.Count(m => m.IsWaiting));
        var before = Opened.Done(which);
        // What is on the screen is worked out already.
        if (before is { Facts.Count: 0, Marked.Count: 0 } || (state?.Text == text ? state.Open : Opened.Read(text)).Packet is not { } packet)
            return ([], 0);
        var known = before.Marked.Select(m => (m.Entry.Fact.Id, m.Mark, string.Join(' ', m.Why))).ToHashSet();
        var after = following.Of(Job.Record, which, packet.Fabrication, []).Marked;
        // Over a revision nothing counts until it is taken to the shop: that page tells all of it.
        return ([.. after.Where(m => !m.IsWaiting && m.Mark != Mark.Stays && !known.Contains((m.Entry.Fact.Id, m.Mark, string.Join(' ', m.Why)))).Select(Effect)], after.Count(m => m.IsWaiting));

        string Effect(Marked m) => $"{Rootgap.App.Spools.SpoolWords.Says(m.Entry.Fact, Choices)}: {(m.Why.Count > 0 ? string.Join("; ", m.Why) : "its part is gone")}{(m.Mark == Mark.Spoiled ? ": spoiled" : m.Mark == Mark.LookAt ? ": to be looked at" : "")}";
    }

    private Task SaveAllTheSame() => Try(async () =>
    {
        if (state is null)
            return;
        state.Close();
        agreed = state.Text.Text;
        effects = [];
        if (Job.TextOf(path) != agreed)
            await Job.SaveDraft(path, agreed);
        await Job.SaveVersion(path);
        Weigh();
        Fill();
    });

    private Task TakeChangeBack() => Try(async () =>
    {
        if (state is null || Job.Saved(path)?.Text is not { } saved)
            return;
        change++;
        state.Replace(saved);
        await Job.DropDraft(path);
        Weigh();
        Fill();
    });

    private List<FileSaved> Heads() => Job.Record.Files.TryGetValue(path, out var file) ? [.. file.Heads.Where(h => h.Text is not null)] : [];

    /// <summary>One of several versions is looked at.</summary>
    private bool IsLooking => heads.Count > 1;

    private void Look(FileSaved head)
    {
        looked = head;
        state?.Replace(head.Text ?? "");
        Fill();
    }

    private Task GoOnWith(FileSaved head) => Try(async () =>
    {
        var text = head.Text ?? "";
        var all = Job.Record.Files[path].Heads.Select(h => h.Id).ToList();
        looked = head;
        state?.Replace(text);
        await Job.Add(FileSaved.OfText(LocalJob.NewId(), Job.Who, LocalJob.Now, path, text, all));
        heads = Heads();
        Fill();
    });

    // The first two; more than two are brought together one after the other.
    private Task GoOnTogether(string text) => Try(async () =>
    {
        var two = heads.Take(2).Select(h => h.Id).ToList();
        var fact = FileSaved.OfText(LocalJob.NewId(), Job.Who, LocalJob.Now, path, text, two);
        looked = fact;
        state?.Replace(text);
        await Job.Add(fact);
        heads = Heads();
        Fill();
    });

    private Task SaveCopy() => state is null ? Task.CompletedTask : Try(() => Page.Save(path.Split('/')[^1], "application/yaml", Encoding.UTF8.GetBytes(state.Text.Text)));
}
