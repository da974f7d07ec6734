using System.Globalization;
using Rootgap.Papers;
using Rootgap.Records;
using Rootgap.Tests.Records;

namespace Rootgap.Tests.Papers;

/// <summary>Lines of elbows for the papers' tests: so many butt welds in a row, and what was done on them.</summary>
internal static class PaperJob
{
    /// <summary>A line with two butt welds an elbow: pieces between, W1 to W2n along the line, one spool unless a weld is at site.</summary>
    /// <param name="longer">The leg (from 0) that is 200 longer.</param>
    /// <param name="field">The leg (from 1) that begins with a weld at site.</param>
    public static string Line(int elbows, string number = "T-1", string revision = "1", string service = "", string shop = "root gap: 3.2", int? longer = null, int? field = null, string size = "4", string end = "open, ends: bevel") =>
        string.Create(CultureInfo.InvariantCulture, $$"""
        drawing: {{number}}
        revision: "{{revision}}"
        units: mm
        line: {size: {{size}}, schedule: 40, class: 150, material: A106-B}
        {{(service.Length > 0 ? $"service: {{{service}}}" : "")}}
        shop: {{{shop}}}
        runs:
          - run: main
            start: {to: open, ends: bevel}
            legs:

        """) + string.Concat(Enumerable.Range(0, elbows + 1).Select(i => string.Create(CultureInfo.InvariantCulture,
            $"      - {{go: {(i % 2 == 0 ? "east" : i % 4 == 1 ? "north" : "up")}, by: {2000 + (i == longer ? 200 : 0)}, to: {(i < elbows ? "elbow" : end)}{(i == field ? ", begin: field" : "")}}}\n")));

    public static JobPapers Papers(this ShopJob job, string path = ShopJob.File) => new(job.Record, [new(path, job.Made(path), job.Done(path))]);

    public static JointStep Weld(this ShopJob job, string joint, string welder, WeldMark mark = default, bool? isField = null) =>
        job.Add(new JointStep(job.NextId, "Jo", job.Now, job.Drawing(), joint, Step.Welded) { Welder = welder, Weld = mark, IsField = isField, Versions = job.Versions() });

    public static Examined Examine(this ShopJob job, string joint, bool accepted, WeldMark mark = default, ExaminationMethod method = ExaminationMethod.Radiography, double? rejected = null) =>
        job.Add(new Examined(job.NextId, "Ines", job.Now, job.Drawing(), joint, method, accepted) { Weld = mark, RejectedLength = rejected, Versions = job.Versions() });

    public static Repair Repair(this ShopJob job, string joint, bool cutOut = false, WeldMark mark = default) =>
        job.Add(new Repair(job.NextId, "Ines", job.Now, job.Drawing(), joint, cutOut) { Weld = mark, Versions = job.Versions() });

    /// <summary>Draws what the lot asks for, and keeps it.</summary>
    public static IReadOnlyList<WeldsDrawn> Draw(this ShopJob job, string lot, double share, uint seed)
    {
        var papers = job.Papers();
        var now = papers.LotOf(lot, papers.Lines, ExaminationMethod.Radiography, share, seed);
        return [.. now.Facts(now.Draw(), _ => (job.NextId, "Ines", job.Now, job.Versions())).Select(job.Add)];
    }
}
