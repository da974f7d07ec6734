using Rootgap.Drawings;
using Rootgap.Fabricating;
using Rootgap.Findings;
using Rootgap.Measure;
using Rootgap.Routes;

namespace Rootgap.Sheets;

/// <summary>What the sheets of one drawing are made from.</summary>
/// <param name="IsBuildable">Where false, every sheet carries NOT FOR FABRICATION.</param>
public sealed record ShopJob(Fabrication Fabrication, IReadOnlyList<Finding> Findings, bool IsBuildable, Paper Paper)
{
    public Drawing Drawing => Fabrication.Route.Drawing;

    /// <summary>The head of a sheet.</summary>
    /// <param name="spool">The spool that it belongs to; empty where to none.</param>
    public TitleBlock Block(string title, Reader reader = Reader.Site, string spool = "") => new(Drawing.Number, Drawing.Revision, title)
    {
        Reader = reader,
        Spool = spool,
        Project = Drawing.Title,
        Unit = Drawing.Units == Units.Inches ? "feet and inches" : "mm",
        Notice = IsBuildable ? "" : "NOT FOR FABRICATION",
        Code = QrFigure.Of($"{Drawing.Number} rev {Drawing.Revision}{(spool.Length > 0 ? " spool " + spool : "")}", 15),
    };

    /// <summary>What a sheet that goes with steel says of the line; where the drawing is silent, room to write.</summary>
    public IReadOnlyList<Field> Strip => Said([$"NPS {Drawing.Line.Size} schedule {Drawing.Line.Schedule}"], [Drawing.Line.Material], [Drawing.Line.Class]);

    /// <summary>The same of a spool: its own pipe, largest first, and its own flanges.</summary>
    public IReadOnlyList<Field> StripOf(Spool spool)
    {
        List<Part> pipes = [.. spool.Cuts.Select(c => c.Pipe)];
        List<Part> parts = pipes.Count > 0 ? pipes : [.. spool.Components];
        List<Component> flanged = [.. spool.Components.Where(c => c is Flange)];
        return Said(
            [.. parts.GroupBy(p => p.Line.Schedule.ToString()).Select(g => (Sizes: g.Select(p => p.Size).Distinct().OrderDescending().ToList(), Schedule: g.Key)).OrderByDescending(g => g.Sizes[0]).Select(g => $"NPS {string.Join(", ", g.Sizes)} schedule {g.Schedule}")],
            parts.Select(p => p.Line.Material), (flanged.Count > 0 ? flanged : spool.Components).Select(c => c.Line.Class));
    }

    private IReadOnlyList<Field> Said(IReadOnlyList<string> pipe, IEnumerable<string> materials, IEnumerable<string> classes)
    {
        var service = Drawing.Service;
        static string Both(string one, string other) => string.Join("  ", new[] { one, other }.Where(t => t.Length > 0));
        const string Blank = "________";
        static string All(IEnumerable<string> words) => string.Join(", ", words.Where(w => w.Length > 0).Distinct());
        string Or(string words) => words.Length > 0 ? words : Blank;
        return
        [
            new("line", string.Join("; ", pipe)), new("material", Or(All(materials))), new("class", Or(All(classes))), new("fluid", Or(service.Fluid)),
            new("design", Or(Both(service.DesignPressure, service.DesignTemperature))), new("test", Or(service.TestPressure)), new("code, examined", Or(Both(service.Code, service.Examination))),
            new("paint", Or(service.Paint)), new("test pack", Or(service.TestPackage)),
        ];
    }
}

/// <summary>The sheets of one drawing, each for its reader: isometric, the fitter's sheets spool by spool with their cards and templates, the test pack.
/// The lists that run over all drawings are <see cref="JobPages"/>.</summary>
public static class ShopPages
{
    /// <param name="who">Whose pages; all where it is <see cref="Reader.All"/>.</param>
    public static IReadOnlyList<Page> Of(ShopJob job, Reader who = Reader.All) =>
    [
        .. who.Takes(Reader.Foreman) ? IsometricPages.Of(job, withLists: false) : [],
        .. who.Takes(Reader.Fitter) ? Fitter(job) : [],
        .. who.Takes(Reader.Site) ? Site(job) : [],
    ];

    /// <summary>The sheet of one spool: its isometric, its views with their dimensions, and its lists.</summary>
    public static IReadOnlyList<Page> Of(ShopJob job, Spool spool) => MissingSheet.Instead(job, $"Spool {spool.Name}", () => SpoolPages.One(job, spool));

    private static IEnumerable<Page> Site(ShopJob job) =>
    [
        .. job.Drawing.Test.Source != SourceRow.None || job.Drawing.Service.TestPressure.Length > 0 ? TestPackPages.Of(job) : [],
    ];

    private static IEnumerable<Page> Fitter(ShopJob job) =>
    [
        .. SpoolPages.Of(job),
        .. MissingSheet.Instead(job, "Templates", () => Templates.Of(job.Fabrication).SelectMany(t => TemplateSheets.Of(t, job.Block(t.Title, Reader.Fitter), job.Paper, job.Drawing.Units))),
    ];

    /// <summary>The usual caution about hot work (common practice).</summary>
    public const string HotWork = "Hot work: permit, fire watch, ventilation; open closed lines before heating. Purge gas displaces air: treat a purged pipe as a confined space.";

    /// <summary>What the figures are not (common practice).</summary>
    public const string Procedures = "Welding, preheat, examination and repair follow the qualified procedure and the code. The figures here are targets, not permissions.";
}
