using Microsoft.JSInterop;
using Rootgap.App.Offline;
using Rootgap.Drawings;
using Rootgap.Records;

namespace Rootgap.App.Drawings;

/// <summary>What keys and taps do: called by scripts/editor.js.</summary>
public sealed partial class EditorPage
{
    /// <summary>A field changed under the person's fingers.</summary>
    [JSInvokable]
    public void Typed(string row, string key, string value)
    {
        if (state is null)
            return;
        if (row.Length == 0 && key == "text")
            state.TypeText(value);
        else
            state.Type(new(row, key), value);
        Show();
    }

    /// <summary>The person went to a field.</summary>
    [JSInvokable]
    public void Entered(string row, string key)
    {
        if (state is null || state.IsWriting && state.Chosen == new CellAt(row, key))
            return;
        state.Choose(new(row, key));
        Extend(row);
        Show();
    }

    /// <summary>After a first leg is chosen, the next one that somebody goes to is the other end of the stretch.</summary>
    private void Extend(string row)
    {
        if (state is { IsStretchOpen: true, Stretch: { } chosen } && EditorState.LegAt(row) is { Leg: >= 0 } at && at.Run == chosen.Run && at.Leg != chosen.First)
            state.Between(chosen.First, at.Leg);
    }

    /// <summary>The person left the fields.</summary>
    [JSInvokable]
    public void Left()
    {
        if (state is null)
            return;
        state.Leave();
        Show();
    }

    /// <summary>No word that fits begins as typed.</summary>
    [JSInvokable]
    public void Unfit(string row, string key, string typed)
    {
        state?.Unfit(typed, sheet?.Active is { } active && active.At == new CellAt(row, key) ? active.Caption : key);
        Show();
    }

    /// <summary>Something is to be done with a row, or with all. The id of the field to go to; empty where the person stays.</summary>
    [JSInvokable]
    public string Act(string act, string row, string key, string value)
    {
        if (state is null)
            return "";
        var cell = new CellAt(row, key);
        var next = act switch
        {
            "next" => state.Next(cell),
            "insert" => state.Insert(row),
            "remove" => state.Remove(row),
            "up" => state.Move(cell, -1),
            "down" => state.Move(cell, 1),
            "copy" => state.CopyAbove(cell),
            "run" => value.Length > 0 && BranchAt(value) is { } leg ? state.Branch(leg) : state.AddRun(value.Length > 0 ? value : null),
            "branch" => state.Branch(row),
            "twice" => state.Twice(row),
            "open" => OpenFields(row),
            "stretch" => BeginStretch(row),
            "ask" => state.Ask(row, value),
            "undo" => state.Undo(),
            "redo" => state.Redo(),
            _ => null,
        };
        if (act == "cancel")
        {
            state.Cancel();
            next = cell;
        }

        Show();
        return next?.Id ?? (act == "next" ? "add-run" : "");
    }

    private CellAt? BeginStretch(string row)
    {
        state?.BeginStretch(row);
        return null;
    }

    /// <summary>What can be inserted here: templates of this job, then its other drawings.</summary>
    private IReadOnlyList<(string Path, string Called)> Sources =>
    [
        .. Job.Paths.Where(p => p.StartsWith(Template.Folder, StringComparison.Ordinal)).Select(p => (p, Template.Read(Job.TextOf(p) ?? "", p)?.Name)).Where(t => t.Name is not null).Select(t => (t.p, t.Name!)),
        .. Opened.Paths.Where(p => p != path).Select(p => (p, $"drawing {Rootgap.Drawings.DrawingHead.Of(Job.TextOf(p) ?? "").Number}")),
    ];

    private DrawingText? ReadSource(string source) => Job.TextOf(source) is not { } text ? null
        : source.StartsWith(Template.Folder, StringComparison.Ordinal) ? Template.Read(text, source)?.Of : DrawingText.Of(text, source);

    private Task KeepTemplate(Template template) => Try(async () =>
    {
        var to = Template.PathOf(template.Name);
        await Job.Add(FileSaved.OfText(LocalJob.NewId(), Job.Who, LocalJob.Now, to, template.Written(), Job.Saved(to) is { } before ? [before.Id] : []));
    });

    private CellAt? OpenFields(string row)
    {
        if (state is null || EditorRows.FirstKey(state.Text, row) is not { Length: > 0 } first)
            return null;
        state.Choose(new(row, first));
        isHeadOpen = EditorState.LegAt(row) is null;
        return state.Chosen;
    }

    private string? BranchAt(string name) => state?.Text.Runs.SelectMany(r => r.Legs).FirstOrDefault(l => l["name"] == name)?.Path;
}
