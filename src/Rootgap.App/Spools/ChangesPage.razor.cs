using Microsoft.AspNetCore.Components;
using Rootgap.Comparing;
using Rootgap.Drawings;
using Rootgap.Records;
using Rootgap.Sheets;
using Mark = Rootgap.Records.Mark;

namespace Rootgap.App.Spools;

/// <summary>
/// The drawing as it stands beside an earlier version: on the drawing itself what is spoiled, to be trimmed, to be looked at, changed and new; beside it what was done and
/// what becomes of it. A revision is taken to the shop here.
/// </summary>
public sealed partial class ChangesPage
{
    private static readonly (Mark Mark, string Word)[] Order = [(Mark.Spoiled, "Spoiled"), (Mark.Gone, "Gone"), (Mark.LookAt, "To be looked at"), (Mark.Stays, "Stays")];

    private IReadOnlyList<SpoolChange> spools = [];
    private IReadOnlyList<string> ends = [], differences = [];
    private IReadOnlyList<FileSaved> others = [];
    private IReadOnlyDictionary<string, ChangedPart>? changed;
    private FileSaved? then;
    private string from = "", chosen = "", laid = "";

    private string FromTo => from == Drawing.Revision ? Named(from) : $"{Named(from)} → {Named(Drawing.Revision)}";

    private string Title => Done.Marked.Any(m => m.IsWaiting) || Done.Marked.Any(m => m.IsHeld) || from != Drawing.Revision && then is not null
        ? $"{Open!.Number}, revision {Named(from)} to {Named(Drawing.Revision)}"
        : $"{Open!.Number}, what changes";

    private List<string> Held => [.. Done.Marked.Where(m => m.IsHeld).Select(m => m.Now).OfType<string>().Distinct()];

    private IReadOnlyList<(DrawingFact Fact, string Now)> Stays =>
        [.. Done.Marked.Where(m => m.Mark == Mark.Stays).Select(m => (m.Entry.Fact, m.Now ?? m.Was)).Concat(Done.Facts.Where(e => e.Counts).Select(e => (e.Fact, DrawingRecord.NameOf(e.As))))];

    private string Lead
    {
        get
        {
            List<string> says = [];
            Say(Mark.Spoiled, "piece spoiled", "pieces spoiled");
            Say(Mark.LookAt, "to look at", "to look at");
            Say(Mark.Gone, "whose part is gone", "whose parts are gone");
            return says.Count > 0 ? string.Join(", ", says) + "."
                : then is null ? "There is no other version to lay beside it: nothing is touched."
                : differences.Count == 0 && changed is null or { Count: 0 } ? "Nothing that the shop makes has changed."
                : "Nothing that was done is touched.";

            void Say(Mark mark, string one, string many)
            {
                if (Done.Marked.Count(m => m.Mark == mark) is > 0 and var count)
                    says.Add($"{count} {(count == 1 ? one : many)}");
            }
        }
    }

    /// <summary>Where ends of the line stand elsewhere, as a sentence; empty where none does.</summary>
    private string Moved => ends.Count == 0 ? "" : $" {char.ToUpperInvariant(ends[0][0])}{string.Join("; ", ends)[1..]}.";

    private string Untouched
    {
        get
        {
            var names = spools.Where(s => !s.IsTouched).Select(s => s.Old == s.New ? s.New : $"{s.Old} (now {s.New})").ToList();
            return names.Count == 0 ? "No spool is untouched." : $"{(names.Count == 1 ? "Spool" : "Spools")} {string.Join(", ", names)} {(names.Count == 1 ? "is" : "are")} untouched.";
        }
    }

    private static string Revision(string revision) => revision.Length > 0 ? $", on revision {revision}" : "";

    private static string Named(string revision) => revision.Length > 0 ? revision : "–";

    private string Called(FileSaved version) => $"{(DrawingHead.Of(version.Text!).Revision is { Length: > 0 } revision ? $"rev {revision}, " : "")}{version.Who}, {Choices.When(version.When)}";

    private void Choose(ChangeEventArgs e)
    {
        chosen = (string?)e.Value ?? "";
        Look();
    }

    protected override void Look()
    {
        base.Look();
        if (Plan is null)
            return;
        others = !Job.Record.Files.TryGetValue(Path, out var file) ? [] : [.. file.Versions.Where(v => v.Counts && v.Fact.Text is not null && v.Fact.Id != (Versions.Count > 0 ? Versions[0] : "")).Select(v => v.Fact).Reverse()];
        then = others.FirstOrDefault(v => v.Id == chosen) ?? Usual();
        // Laid beside each other once for each two versions and record.
        var key = $"{then?.Id} {string.Join(' ', Versions)} {Done.Facts.Count} {string.Join(' ', Done.Marked.Select(m => m.Entry.Fact.Id + m.Mark + m.IsHeld))}";
        if (key == laid)
            return;
        laid = key;
        (spools, ends, differences, changed, from) = ([], [], [], null, then is null ? Drawing.Revision : DrawingHead.Of(then.Text!).Revision);
        if (then?.Text is not { } text || Drawings.Read(DrawingText.Of(text, Path)).Packet is not { } old)
            return;
        var comparison = Comparison.Of(old.Fabrication, Packet.Fabrication);
        (spools, ends) = (comparison.Spools, [.. comparison.Ends.Select(e => e.Says)]);
        differences = [.. VersionWords.Differences(comparison, Choices)];
        changed = ChangedPart.Of(comparison, Done);
    }

    /// <summary>The version that people know: on which most of what is marked was made; else the last one of another revision, or the one before.</summary>
    private FileSaved? Usual() => Done.Marked.Where(m => m.Version?.Text is not null).GroupBy(m => m.Version!).MaxBy(g => g.Count())?.Key
        ?? others.FirstOrDefault(v => DrawingHead.Of(v.Text!).Revision != Drawing.Revision) ?? (others.Count > 0 ? others[0] : null);
}
