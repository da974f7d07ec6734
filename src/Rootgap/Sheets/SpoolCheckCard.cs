using Rootgap.Fabricating;
using Rootgap.FitUp;

namespace Rootgap.Sheets;

/// <summary>The final dimensional check of a spool on paper: what can be read from end to end, with its allowance and boxes for what is read tacked and welded.</summary>
internal static class SpoolCheckCard
{
    /// <param name="steps">The spool's order of work.</param>
    public static IReadOnlyList<Page> Of(ShopJob job, FitSpool fit, Spool spool, IReadOnlyList<FitStep> steps)
    {
        var (check, tacked) = (FinalCheck.Welded(fit), FinalCheck.Tacked(fit, steps));
        if (check.Ends.Count == 0)
            return [];
        var words = new FinalWords(new(job.Drawing.Units, id => Wording.NameOf(job.Fabrication, id)));
        var flow = new Flow(job.Paper, job.Block($"Spool {spool.Name}: final check")).Heading("Final check: tacked, and after welding");
        flow.Paragraph($"Between lips, nothing to a centreline. {char.ToUpperInvariant(words.SetBy(check)[0])}{words.SetBy(check)[1..]}.");
        foreach (var limits in check.Ends.Where(e => e != check.Base).GroupBy(e => Limits(words, check, e), StringComparer.Ordinal))
            flow.Paragraph($"{FitWords.Join(limits.Select(e => e.Called))}: {limits.Key}.");
        flow.Table(new Table(
            ["What", new("From and to", ColumnWidth.Share()), new("Should be", Anchor.End), new("Allowed", Anchor.End), new("Tacked", ColumnWidth.Of(22)), new("Welded", ColumnWidth.Of(22))],
            check.Targets.Where(t => !t.Reading.IsAngle).Select(t => Line(t, check, tacked, words)))
        { RowHeight = 8, WhenEmpty = "one end only" });
        flow.Heading("Faces and holes, the spool standing as drawn", 2);
        flow.Table(new Table(
            ["What", new("End", ColumnWidth.Share()), new("Should be", Anchor.End), new("Allowed", Anchor.End), new("Tacked", ColumnWidth.Of(22)), new("Welded", ColumnWidth.Of(22))],
            check.Targets.Where(t => t.Reading.IsAngle).Select(t => Line(t, check, tacked, words)))
        { RowHeight = 8 });
        flow.Paragraph("Typed in (`rootgap fit DRAWING --final SPOOL --readings FILE`, or in the app) the readings say where each end is.");
        return flow.Pages;
    }

    private static string Limits(FinalWords words, FinalCheck check, OpenEnd end)
    {
        var limits = check.Limits[end.Name];
        var holes = end.Holes is { } h ? $"; holes {words.Words.Small(limits.Roll.Value * h.Circle / 2)} at the bolt circle ({limits.Roll.Source})" : "";
        return FormattableString.Invariant($"{words.Words.Small(limits.Gap.Value)} any way ({limits.Gap.Source}); face {Measure.Angles.ToDegrees(limits.Tilt.Value):0.00}° ({limits.Tilt.Source}){holes}");
    }

    private static Row Line(EndTarget target, FinalCheck check, FinalCheck tacked, FinalWords words)
    {
        var r = target.Reading;
        var what = r is EndReading.Tape { IsDiagonal: true } ? "diagonal" : r.Name;
        var where = FinalWords.Where(r, check) + (r.Plus.Length > 0 ? $" ({r.Plus})" : "");
        // What its welds will draw in makes it longer while it is tacked.
        var (value, before) = (words.Show(r, target.Value), words.Show(r, tacked.Of(r).Value));
        return new(what, where, new Cell(value == before ? value : $"{value} (tacked {before})") { Bold = true }, "± " + words.ShowSmall(r, target.Allow), "", "");
    }
}
