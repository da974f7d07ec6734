using System.Globalization;
using Rootgap.Fabricating;
using Rootgap.Measure;
using Rootgap.Papers;

namespace Rootgap.Sheets;

/// <summary>The lifting sheet of a spool: where slings are made fast, what they carry, how it hangs.</summary>
internal static class LiftPages
{
    private static readonly TextStyle Dense = TextStyle.Body with { Height = 3 };

    /// <summary>The sheet of a spool that weighs enough, or for which the drawing gives places; none for others.</summary>
    public static IReadOnlyList<Page> Of(ShopJob job, Spool spool) => Lift.IsAsked(job.Fabrication, spool) ? One(job, Lift.Of(job.Fabrication, spool)) : [];

    private static IReadOnlyList<Page> One(ShopJob job, Lift lift)
    {
        var (f, units) = (job.Fabrication, job.Fabrication.Units);
        var flow = new Flow(job.Paper, job.Block($"spool {lift.Spool.Name}: lifting", Reader.Fitter, lift.Spool.Name));
        flow.Fields(3,
            new Field("Mass reckoned", LiftWords.Mass(units, lift.Spool.Mass)),
            new Field("Lifted with a tenth more", LiftWords.Mass(units, lift.Mass)),
            new Field("Weighed, where it was"));
        if (lift.Spool.Unweighed.Count > 0)
            flow.Warning(LiftWords.LeavesOut(f, lift.Spool), "Mass not whole");
        if (lift.Holds.Count > 0 && lift.Spool.Cuts.Count + lift.Spool.Components.Count <= SpoolSheet.MostDrawn)
            flow.Figure(LiftPicture.Of(lift, units, flow.Width, 105));
        flow.Table(new Table(
            ["", new("Sling at", ColumnWidth.Share()), new(lift.HookUp is { } up ? $"Leg, hook {LiftWords.Length(units, up)} up" : "Leg", Anchor.End), new("To level", Anchor.End), new("Lifts", Anchor.End), new("Pull", Anchor.End)],
            lift.Holds.Select(h => new Row(
                new Cell(h.Name) { Bold = true }, LiftWords.Where(f, h), h.Leg is { } leg ? LiftWords.Length(units, leg) : "drawn up",
                h.ToLevel is { } angle ? string.Create(CultureInfo.InvariantCulture, $"{Angles.ToDegrees(angle):0}°") : "",
                LiftWords.Mass(units, h.Lifts), new Cell(h.Pull is { } pull ? LiftWords.Mass(units, pull) : "") { Bold = true })))
        { Style = Dense, WhenEmpty = "no places" });
        flow.Paragraph($"{(lift.IsProposed ? "Places proposed by the program, clear of welds by one diameter" : "Places as the drawing gives them")}; lifts and pulls with the tenth more. {LiftWords.LeavesOut(f, lift.Spool)}", TextStyle.Small with { Height = 3 });
        foreach (var line in LiftWords.Of(lift, units))
            flow.Paragraph(line, lift.TurnsOver && line.StartsWith("IT ", StringComparison.Ordinal) ? TextStyle.Strong : Dense);
        flow.Paragraph(LiftWords.Line, Dense with { Bold = true });
        flow.Fields(3, new Field("Slings seen"), new Field("Lifted by"), new Field("Set down, date"));
        return flow.Pages;
    }
}
