using System.Globalization;
using Rootgap.Drawings;

namespace Rootgap.App.Drawings;

/// <summary>Legs and runs: new ones, moved, copied, taken out, and branches begun.</summary>
public sealed partial class EditorState
{
    /// <summary>A new leg under a leg or a start. Where only one direction fits, it stands there already.</summary>
    public CellAt? Insert(string path)
    {
        Close();
        if (LegAt(path) is not { } place || place.Run >= Text.Runs.Count)
            return null;
        var at = Math.Min(place.Leg + 1, Text.Runs[place.Run].Legs.Count);
        var more = Text.InsertLeg(place.Run, at);
        var cell = new CellAt(Leg(place.Run, at), "go");
        if (more.Refusal is null && Offers.Leg(more, place.Run, at).FirstOrDefault(o => o.Key == "go") is { Default: { } only })
            more = more.Set(cell.Path, "go", only);
        Forget(place.Run);
        return Make(more, cell) ? Chosen = cell : null;
    }

    /// <summary>Which ways the line can go on behind a leg or a start, or from a branch of its own; none where it cannot.</summary>
    public IReadOnlyList<string> WaysFrom(string path)
    {
        if (LegAt(path) is not { } place || place.Run >= Text.Runs.Count)
            return [];
        var at = Math.Min(place.Leg + 1, Text.Runs[place.Run].Legs.Count);
        if (place.Leg >= 0 && FreeBranchOf(path) is not null && at < Text.Runs[place.Run].Legs.Count)
            return RowAt(path)?["branch"] is { Length: > 0 } way ? [way] : [];
        if (place.Leg >= 0 && at == Text.Runs[place.Run].Legs.Count && IsEnded(Text.Runs[place.Run]))
            return [];
        var more = Text.InsertLeg(place.Run, at);
        return more.Refusal is not null ? [] : Offers.Leg(more, place.Run, at).FirstOrDefault(o => o.Key == "go")?.Words ?? [];
    }

    /// <summary>Goes on behind a row in a direction: a leg there, or the first one of a branch that nothing leaves yet. The field to go to.</summary>
    public CellAt? GoOn(string path, string way)
    {
        if (LegAt(path) is { Leg: >= 0 } place && place.Leg + 1 < Text.Runs[place.Run].Legs.Count && FreeBranchOf(path) is not null)
        {
            if (Branch(path) is null)
                return null;
        }
        else if (Insert(path) is null)
        {
            return null;
        }

        var cell = Chosen!.Value;
        Make(Text.Set(cell.Path, "go", way), cell);
        return Chosen = new(cell.Path, "by");
    }

    /// <summary>Begins the branch that a leg's fitting has: it gets a name where it has none, and its first leg.</summary>
    public CellAt? Branch(string path)
    {
        Close();
        if (FreeBranchOf(path) is not { } name)
            return null;
        var named = RowAt(path)!["name"].Length > 0 ? Text : Text.Set(path, "name", name);
        var more = named.AddRun(name, name);
        if (more.Refusal is not null)
            return null;
        var run = more.Runs.Count - 1;
        var leg = more.InsertLeg(run, 0);
        if (Offers.Leg(leg, run, 0).FirstOrDefault(o => o.Key == "go") is { Default: { } only })
            leg = leg.Set(Leg(run, 0), "go", only);
        var cell = new CellAt(Leg(run, 0), "go");
        IsWriting = true;
        return Make(leg, cell) ? Chosen = cell : null;
    }

    /// <summary>Name under which a branch can begin at a leg's fitting; null where it has none that is free.</summary>
    public string? FreeBranchOf(string path)
    {
        if (RowAt(path) is not { } row || !Offers.HasBranch(row["to"]) || row["branch"].Length == 0)
            return null;
        if (row["name"] is { Length: > 0 } own)
            return Offers.FreeBranches(Text).Contains(own) ? own : null;
        var names = Text.Runs.Select(r => r.Name).Concat(Text.Runs.SelectMany(r => r.Legs).Select(l => l["name"])).ToHashSet(StringComparer.OrdinalIgnoreCase);
        for (var i = 1; ; i++)
        {
            var name = string.Create(CultureInfo.InvariantCulture, $"B{i}");
            if (!names.Contains(name))
                return name;
        }
    }

    /// <summary>The same leg once more below itself; its name and place stay its own.</summary>
    public CellAt? Twice(string path)
    {
        if (RowAt(path) is not { } row || Insert(path) is not { } cell)
            return null;
        var filled = Text;
        foreach (var (key, value) in row.Cells)
        {
            if (key is not ("name" or "at"))
                filled = filled.Set(cell.Path, key, value);
        }

        Make(filled, cell);
        return cell;
    }

    /// <summary>Takes a leg out, or a run where the row is the run's own.</summary>
    public CellAt? Remove(string path)
    {
        Close();
        if (LegAt(path) is not { } place)
            return null;
        Forget(place.Run);
        if (path == Run(place.Run))
            return Make(Text.RemoveRun(place.Run), new(path, "run")) ? Chosen = First(EditorRows.Paths(Text).LastOrDefault() ?? "") : null;
        if (place.Leg < 0 || !Make(Text.RemoveLeg(place.Run, place.Leg), new(path, "go")))
            return null;
        var left = Text.Runs[place.Run].Legs.Count;
        return Chosen = left == 0 ? First(Run(place.Run) + ".start") : new CellAt(Leg(place.Run, Math.Min(place.Leg, left - 1)), "go");
    }

    /// <summary>Moves a leg or a run up (-1) or down (1).</summary>
    public CellAt? Move(CellAt cell, int by)
    {
        Close();
        if (LegAt(cell.Path) is not { } place)
            return null;
        if (cell.Path == Run(place.Run))
        {
            var run = place.Run + by;
            shown.Clear();
            return run >= 0 && run < Text.Runs.Count && Make(Text.MoveRun(place.Run, run), new(Run(run), cell.Key)) ? Chosen = new(Run(run), cell.Key) : null;
        }

        var to = place.Leg + by;
        if (place.Leg < 0 || to < 0 || to >= Text.Runs[place.Run].Legs.Count)
            return null;
        Forget(place.Run);
        return Make(Text.MoveLeg(place.Run, place.Leg, to), new(Leg(place.Run, to), cell.Key)) ? Chosen = new(Leg(place.Run, to), cell.Key) : null;
    }

    /// <summary>Fills the empty fields of a leg from the leg above; its name and its place stay its own.</summary>
    public CellAt? CopyAbove(CellAt cell)
    {
        Close();
        if (LegAt(cell.Path) is not { Leg: > 0 } place)
            return null;
        var legs = Text.Runs[place.Run].Legs;
        var filled = Text;
        foreach (var (key, value) in legs[place.Leg - 1].Cells)
        {
            if (key is not ("name" or "at") && legs[place.Leg][key].Length == 0)
                filled = filled.Set(cell.Path, key, value);
        }

        return Make(filled, cell) ? cell : null;
    }

    /// <summary>A new run, from a free branch or with a start of its own.</summary>
    public CellAt? AddRun(string? from)
    {
        Close();
        var names = Text.Runs.Select(r => r.Name).ToHashSet(StringComparer.OrdinalIgnoreCase);
        var name = from ?? "main";
        for (var i = 2; names.Contains(name); i++)
            name = string.Create(CultureInfo.InvariantCulture, $"{from ?? "run"} {i}");
        var cell = new CellAt(Run(Text.Runs.Count), "run");
        return Make(Text.AddRun(name, from), cell) ? Chosen = cell : null;
    }

    private static bool IsEnded(WrittenRun run) => run.Legs.Count > 0 && run.Legs[^1]["to"] is "flange" or "cap" or "open" or "tie-in";
}
