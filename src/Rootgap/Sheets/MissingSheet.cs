using Rootgap.Findings;

namespace Rootgap.Sheets;

/// <summary>A page in the place of sheets that the program failed to draw: a fault of ours costs these sheets alone, and nobody takes the packet for whole.</summary>
public static class MissingSheet
{
    /// <summary>The pages that are drawn, or one that says which are missing and why.</summary>
    /// <param name="title">What the sheets are called.</param>
    internal static IReadOnlyList<Page> Instead(ShopJob job, string title, Func<IEnumerable<Page>> draw)
    {
        try
        {
            return [.. draw()];
        }
        catch (Exception e) when (ProgramFault.IsOne(e))
        {
            return [Of(job.Drawing.Number, job.Drawing.Revision, title, job.Paper, ProgramFault.Words(e))];
        }
    }

    /// <summary>The same for a part of a page: a warning stands in its place.</summary>
    internal static void Instead(Flow flow, string title, Action<Flow> draw)
    {
        try
        {
            draw(flow);
        }
        catch (Exception e) when (ProgramFault.IsOne(e))
        {
            flow.Warning($"{title}: what belongs here could not be drawn. That is a fault in the program, not in the drawing ({ProgramFault.Words(e)}).", "Part missing");
        }
    }

    /// <param name="words">What the program said: <see cref="ProgramFault.Words"/>.</param>
    internal static Page Of(string drawing, string revision, string title, Paper paper, string words)
    {
        var flow = new Flow(paper, new(drawing, revision, title) { Notice = "NOT FOR FABRICATION" })
            .Warning($"{title}: what belongs here could not be drawn. That is a fault in the program, not in the drawing ({words}).", "Sheet missing")
            .Paragraph("The figures are in packet.json and in the cut list. Send the drawing file with this page to whoever looks after the program.");
        return flow.Pages[0] with { Fault = words };
    }

    /// <summary>What is missing among pages, as findings.</summary>
    public static IEnumerable<Finding> Told(IEnumerable<Page> pages) =>
        pages.Where(p => p.Fault.Length > 0).Select(p => ProgramFault.Of($"The sheet \"{p.Block.Title}\" could not be drawn", p.Fault, "A page that says so stands in its place; its figures are in packet.json."));
}
