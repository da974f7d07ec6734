using Rootgap.Papers;
using Rootgap.Records;

namespace Rootgap.App.Offline;

/// <summary>A fact in a few words, for lists of all kinds of them.</summary>
public static class FactWords
{
    public static string Of(Fact fact) => fact switch
    {
        PieceCut f => $"{f.Piece} {(f.IsSpoiled ? "spoiled" : "cut")}{(f.From is { } from ? $" from bar {from.Bar}" : "")}{(f.Heat is { } heat ? $", heat {heat}" : "")}",
        BarNoted f => $"bar {f.Bar}{(f.IsOut ? " is of no use" : "")}{(f.Heat is { } heat ? $", heat {heat}" : "")}{(f.Note is { Length: > 0 } note ? $": {note}" : "")}",
        HeatNoted f => $"heat {f.Heat} on {f.Component}",
        ReadingsTaken f => $"{f.Joint}: {string.Join(", ", f.Readings.Select(r => r.Reading.Name))} read{(f.IsWelded ? " after welding" : "")}",
        JointStep f => $"{f.Weld.Of(f.Joint)} {f.Step.ToString().ToLowerInvariant()}{(f.Welders.Any() ? $" by {string.Join(" + ", f.Welders)}" : "")}",
        FitUpSeen f => $"fit-up of {f.Weld.Of(f.Joint)} {(f.IsRefused ? "refused" : "seen")}",
        Examined f => $"{f.Weld.Of(f.Joint)} {(f.IsAccepted ? "accepted" : "rejected")} by {PaperWords.Of(f.Method)}",
        HeatTreated f => $"{f.Weld.Of(f.Joint)} heat treated, chart {f.Chart}",
        Repair f => $"{f.Weld.Of(f.Joint)} {(f.IsCutOut ? "cut out" : "to be repaired")}{(f.Why is { Length: > 0 } why ? $": {why}" : "")}",
        WeldsDrawn f => $"lot {f.Lot}: {f.Welds.Count(w => w.IsDrawn)} of {f.Welds.Count} welds drawn{(f.For is { } asked ? $", asked for by {asked}" : "")}",
        CertificateNoted f => $"certificate {f.Number} of heat {f.Heat}",
        WelderNoted f => $"welder {f.Stamp}{(f.Name is { } name ? $", {name}" : "")}",
        BoltedUp f => $"{f.Joint} bolted up",
        Tested f => $"test pack {f.Pack} {(f.HasPassed ? "passed" : "failed")}",
        Released f => $"spool {f.Spool} released{(f.Deviation is null ? "" : " with something missing")}",
        Coated f => $"spool {f.Spool} {(f.Coating == Coating.Painted ? "painted" : "insulated")}",
        NoteTaken f => $"note{(f.About.Length > 0 ? $" on {f.About}" : "")}: {f.Note}",
        PaperTicked f => $"paper drawing: {f.Ticked.Count} ticked{(f.TakenBack.Count > 0 ? $", {f.TakenBack.Count} taken back" : "")}",
        ErectionDone f => f.Step + (f.Step.StartsWith("spool", StringComparison.OrdinalIgnoreCase) ? " put up" : " closed"),
        FileSaved { IsRemoved: true } f => $"{f.Path} taken away",
        FileSaved f => $"{f.Path} written",
        RevisionTaken f => $"revision {f.Drawing.Revision} taken to the shop",
        LookedAt f => f.Holds ? $"looked at: holds as {f.As}" : "looked at, and set aside",
        PersonNamed f => $"{f.Name} named",
        DeviceEnrolled f => $"{f.Name} let in",
        Revoked f => $"revoked: {f.Why}",
        SpoolRead f => $"spool {f.Spool} read{(f.IsTacked ? " tacked" : "")}: {f.Row.Trim('{', '}').Replace("read: ", "", StringComparison.Ordinal)}",
        SurveyRead f => $"survey: {f.Row}",
        SurveySet => "survey: what is known beside the readings",
        EndAsBuilt f => $"{f.End} as built",
        Withdrawn f => $"taken back: {f.Why}",
        _ => fact.Kind,
    };

    /// <summary>The drawing it is about, with its revision; empty where it is about none.</summary>
    public static string DrawingOf(Fact fact) => fact is DrawingFact { Drawing: var d } ? d.Number + (d.Revision.Length > 0 ? $" rev {d.Revision}" : "") : "";
}
