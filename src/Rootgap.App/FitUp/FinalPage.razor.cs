using System.Text;
using Microsoft.AspNetCore.Components;
using Rootgap.Fabricating;
using Rootgap.FitUp;

namespace Rootgap.App.FitUp;

/// <summary>The final check of a spool: what can be read from end to end, the readings as they are typed, and where they say that the ends are. Kept in the browser.</summary>
public sealed partial class FinalPage
{
    private readonly Dictionary<string, string> wrongs = new(StringComparer.Ordinal);
    private Spool? spool;
    private FinalCheck? check;
    private IReadOnlyList<EndLeft> left = [];
    private List<EndTaken> taken = [];
    private FinalFound? found;
    private EntryDraft draft = new();
    private string draftName = "";
    private bool isTacked;

    /// <summary>The spool's name.</summary>
    [Parameter] public string SpoolName { get; set; } = "";

    private FinalWords Words => new(new FitWords(Choices.Units, part => Rootgap.Sheets.Wording.NameOf(Plan!.Packet.Fabrication, part)));

    private string NameOfDraft => $"final {Job.Id} {Drawing.Number} {Drawing.Revision} {spool?.Name}";

    protected override Task OnParametersSetAsync() => OpenDraft();

    // On a tablet's first visit the page stands before the job's files have come.
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
        draftName = name;
        draft = EntryDraft.Read(await Page.Setting(name));
        isTacked = draft.SetUp == "tacked";
        Look();
    }

    protected override void Look()
    {
        base.Look();
        (check, found, left) = (null, null, []);
        spool = Plan?.Packet.Fabrication.Spools.FirstOrDefault(s => s.Name.Equals(SpoolName, StringComparison.OrdinalIgnoreCase));
        if (Plan is null || spool is null)
            return;
        (check, left) = Plan.Final(spool, Done, isTacked);
        Judge();
    }

    private void Judge()
    {
        wrongs.Clear();
        taken = [];
        foreach (var target in check!.Targets)
        {
            if (!draft.Typed.TryGetValue(target.Reading.Text, out var text) || text.Trim().Length == 0)
                continue;
            if (ReadingWords.Read(target.Reading.IsAngle, text, Choices.Units, out var wrong) is not { } value)
                wrongs[target.Reading.Text] = wrong;
            else if (value < 0 && !target.Reading.IsSigned)
                wrongs[target.Reading.Text] = "A distance has no minus sign.";
            else if (Math.Abs(value - target.Value) > (target.Reading.IsAngle ? Math.PI / 4 : 500 + Math.Abs(target.Value)))
                wrongs[target.Reading.Text] = $"It should be about {Words.Show(target.Reading, target.Value)}: is the point in its place?";
            else
                taken.Add(new(target.Reading, value));
        }

        found = taken.Count > 0 ? check.Judge(taken) : null;
    }

    private async Task Type(string key, string text)
    {
        if (text.Trim().Length == 0)
            draft.Typed.Remove(key);
        else
            draft.Typed[key] = text;
        await Page.Keep(draftName, draft.Write());
        Judge();
    }

    private async Task Read(bool tacked)
    {
        (isTacked, draft.SetUp) = (tacked, tacked ? "tacked" : "");
        await Page.Keep(draftName, draft.Write());
        Look();
    }

    private Task Save() => Page.Save($"spool-{spool!.Name}.readings.yaml", "text/yaml", Encoding.UTF8.GetBytes(FinalReadings.File(check!, taken)));

    private static string Sentence(string words) => char.ToUpperInvariant(words[0]) + words[1..] + ".";
}
