using Microsoft.AspNetCore.Components;
using Rootgap.App.FitUp;
using Rootgap.App.Jobs;
using Rootgap.App.Look;
using Rootgap.App.Offline;
using Rootgap.Packets;
using Rootgap.Records;

namespace Rootgap.App.Spools;

/// <summary>A page of the shop about one drawing: looks again whenever the job's facts or the person's choices change.</summary>
public abstract class DrawingPage : ComponentBase, IDisposable
{
    [Inject] public LocalJob Job { get; set; } = default!;
    [Inject] public OpenDrawings Drawings { get; set; } = default!;
    [Inject] public FitPlans Plans { get; set; } = default!;
    [Inject] public Choices Choices { get; set; } = default!;
    [Inject] public PageScript Page { get; set; } = default!;

    /// <summary>The drawing's file in the job.</summary>
    [Parameter] public string Path { get; set; } = "";

    protected OpenDrawing? Open { get; private set; }

    /// <summary>Null where there is no such drawing, or nothing of it can be understood.</summary>
    protected FitPlan? Plan { get; private set; }

    /// <summary>How facts made here speak of the drawing.</summary>
    protected DrawingRef Drawing { get; private set; }

    /// <summary>What was done, as it stands on the drawing as it is now.</summary>
    protected DrawingRecord Done { get; private set; } = DrawingRecord.Nothing(new("", ""));

    /// <summary>The saved versions that facts made here are about.</summary>
    protected IReadOnlyList<string> Versions => Open?.Versions ?? [];

    /// <summary>Somebody is writing on the drawing here, and what he wrote is not saved.</summary>
    protected bool IsWritten => Open is not null && Job.Drafts.TryGetValue(Path, out var draft) && draft.Text != Open.Text;

    protected Packet Packet => Open!.Packet!;

    protected override void OnInitialized()
    {
        Job.Changed += LookAgain;
        Choices.Changed += LookAgain;
    }

    protected override void OnParametersSet() => Look();

    /// <summary>Takes in the drawing and its record as they stand; pages add what they show of it.</summary>
    protected virtual void Look()
    {
        Open = Drawings.Saved(Path);
        Plan = Open?.Packet is { } packet ? Plans.Of(packet, Path) : null;
        if (Plan is not null)
            (Drawing, Choices.Drawn) = (new(Packet.Drawing.Number, Packet.Drawing.Revision), Packet.Drawing.Units);
        Done = Drawings.Done(Path);
    }

    private void LookAgain() => _ = InvokeAsync(() =>
    {
        Look();
        StateHasChanged();
    });

    public void Dispose()
    {
        Job.Changed -= LookAgain;
        Choices.Changed -= LookAgain;
        GC.SuppressFinalize(this);
    }
}
