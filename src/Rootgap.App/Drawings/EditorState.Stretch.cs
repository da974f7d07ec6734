using Rootgap.Drawings;

namespace Rootgap.App.Drawings;

/// <summary>Several legs at once: repeated, mirrored, turned, kept as a template; each is one step that can be undone.</summary>
public sealed partial class EditorState
{
    /// <summary>The legs that something is to be done with; null where nobody chose any.</summary>
    public Stretch? Stretch { get; private set; }

    /// <summary>Whether the other end of the stretch is still to be chosen: by going to its leg.</summary>
    public bool IsStretchOpen { get; private set; }

    /// <summary>What came of the last thing that was done with them, or why it was not done.</summary>
    public IReadOnlyList<string> StretchSays { get; private set; } = [];

    /// <summary>Chooses a leg as a stretch of one; the next leg of its run that is entered is its other end.</summary>
    public void BeginStretch(string path)
    {
        Close();
        if (LegAt(path) is { Leg: >= 0 } at)
            (Stretch, StretchSays, IsStretchOpen) = (new(at.Run, at.Leg, at.Leg), [], true);
    }

    public void EndStretch() => (Stretch, StretchSays) = (null, []);

    /// <summary>From leg to leg of the same run, in whichever order.</summary>
    public void Between(int one, int other)
    {
        if (Stretch is { } chosen && Text.Runs[chosen.Run].Legs.Count is var count && one >= 0 && other >= 0 && one < count && other < count)
            (Stretch, IsStretchOpen) = (chosen with { First = Math.Min(one, other), Last = Math.Max(one, other) }, false);
    }

    /// <summary>Takes what was made of the stretch.</summary>
    public bool Do(StretchDone done)
    {
        Close();
        if (!Make(done.Text, new(Leg(done.Now.Run, Math.Max(0, done.Now.First)), "go")))
        {
            StretchSays = [Refusal.Length > 0 ? Refusal : "There is nothing to change in it."];
            return false;
        }

        shown.Clear();
        (Stretch, StretchSays, IsStretchOpen) = (done.Now, done.Says, false);
        return true;
    }

    /// <summary>Takes all legs of the stretch out.</summary>
    public bool RemoveStretch()
    {
        if (Stretch is not { } chosen)
            return false;
        var less = Text;
        for (var leg = chosen.Last; leg >= chosen.First && less.Refusal is null; leg--)
            less = less.RemoveLeg(chosen.Run, leg);
        if (!Do(new(less, chosen, [])))
            return false;
        EndStretch();
        return true;
    }

    /// <summary>Whether a row lies in the stretch.</summary>
    public bool IsInStretch(string path) => Stretch is { } chosen && LegAt(path) is { } at && at.Run == chosen.Run && at.Leg >= chosen.First && at.Leg <= chosen.Last;

    /// <summary>After a step back the legs may not be there any more.</summary>
    private void HoldStretch()
    {
        if (Stretch is { } chosen && (chosen.Run >= Text.Runs.Count || chosen.Last >= Text.Runs[chosen.Run].Legs.Count || chosen.Last < chosen.First))
            EndStretch();
    }
}
