using Rootgap.Drawings;
using Rootgap.Fabricating;
using Rootgap.Findings;
using Rootgap.Measure;
using Rootgap.Papers;
using Rootgap.Routes;
using Rootgap.Standards;
using System.Collections.Immutable;
using System.Globalization;

namespace Rootgap.Sheets;

/// <summary>What the sheets of one drawing are made from.</summary>
/// <param name="IsBuildable">Where false, every sheet carries NOT FOR FABRICATION.</param>
public sealed record ShopJob(Fabrication Fabrication, IReadOnlyList<Finding> Findings, bool IsBuildable, Paper Paper)
{
    public Drawing Drawing => Fabrication.Route.Drawing;

    /// <summary>The title block of a sheet.</summary>
    public TitleBlock Block(string title) => new(Drawing.Number, Drawing.Revision, title)
    {
        Project = Drawing.Title,
        Notice = IsBuildable ? "" : "NOT FOR FABRICATION",
    };
}

/// <summary>The shop packet on paper, in the order the job is done: cover, isometric, material check, cut list, joint list, a sheet a spool, and the templates in true size.</summary>
public static class ShopPages
{
    public static IReadOnlyList<Page> Of(ShopJob job) =>
    [
        .. MissingSheet.Instead(job, "Cover", () => Cover(job)),
        .. IsometricPages.Of(job, withLists: false),
        .. MissingSheet.Instead(job, "Material: needed against listed", () => Materials(job)),
        .. MissingSheet.Instead(job, "Cut list", () => CutList(job)),
        .. MissingSheet.Instead(job, "Joint list", () => JointList(job)),
        .. MissingSheet.Instead(job, "Welds: what they take", () => QuantityPages.Of(job)),
        .. MissingSheet.Instead(job, "Bolting, joint by joint", () => BoltingPages.Of(job)),
        .. SpoolPages.Of(job),
        .. MissingSheet.Instead(job, "Templates", () => Templates.Of(job.Fabrication).SelectMany(t => TemplateSheets.Of(t, job.Block(t.Title), job.Paper))),
    ];

    /// <summary>The sheet of one spool: its isometric, its views with their dimensions, and its lists.</summary>
    public static IReadOnlyList<Page> Of(ShopJob job, Spool spool) => MissingSheet.Instead(job, $"Spool {spool.Name}", () => SpoolPages.One(job, spool));

    private static IReadOnlyList<Page> Cover(ShopJob job)
    {
        var drawing = job.Drawing;
        var f = job.Fabrication;
        var flow = new Flow(job.Paper, job.Block("Cover"))
            .Heading(drawing.Title.Length > 0 ? drawing.Title : drawing.Number)
            .Fields(4,
                new Field("Drawing", drawing.Number),
                new Field("Revision", drawing.Revision),
                new Field("Line", $"NPS {drawing.Line.Size}, schedule {drawing.Line.Schedule}"),
                new Field("Class", drawing.Line.Class),
                new Field("Fluid", drawing.Service.Fluid),
                new Field("Design pressure", drawing.Service.DesignPressure),
                new Field("Design temperature", drawing.Service.DesignTemperature),
                new Field("Code", drawing.Service.Code),
                new Field("Material", drawing.Line.Material),
                new Field("Examination", drawing.Service.Examination),
                new Field("Spools", f.Spools.Count.ToString(CultureInfo.InvariantCulture)),
                new Field("Pieces", f.Cuts.Count.ToString(CultureInfo.InvariantCulture)),
                new Field("Shop welds", Count(f, WeldPlace.Shop)),
                new Field("Field welds", Count(f, WeldPlace.Field)),
                new Field("Final-fit welds", Count(f, WeldPlace.FinalFit)),
                new Field("Diameter-inches", f.Route.Joints.Where(j => j.Kind == JointKind.Butt).Sum(j => j.Size.Inches).ToString("0.##", CultureInfo.InvariantCulture)));
        flow.Heading("What the desk check found", 2);
        if (!job.IsBuildable)
            flow.Warning("This drawing can't be built as drawn. Do not cut until every STOP below is settled.", "NOT FOR FABRICATION");
        flow.Table(new Table(
            ["", "Where", new("What is wrong", ColumnWidth.Share(3)), new("What to do", ColumnWidth.Share(2)), "Settled"],
            Told.Of(job.Findings).Select(t => (x: t.First, t.More)).Select(t => new Row(
                new Cell(t.x.AcceptedBecause is null ? Wording.Of(t.x.Severity) : "accepted") { Bold = t.x.Severity != Severity.Note, Alert = t.x.Severity == Severity.Stop && t.x.AcceptedBecause is null },
                t.More.Count == 0 ? Wording.Place(t.x, drawing) : string.Create(CultureInfo.InvariantCulture, $"{Wording.Place(t.x, drawing)} and {t.More.Count} more: {string.Join("; ", t.More.Select(m => drawing.PlaceOf(m.At)).Distinct(StringComparer.Ordinal))}"),
                t.x.Otherwise.Length > 0 ? $"{t.x.Message} {t.x.Otherwise}" : t.x.Message,
                t.x.AcceptedBecause is { } why ? $"Accepted: {why}" : t.x.Remedy,
                Cell.Box())))
        { WhenEmpty = "nothing", Style = TextStyle.Small with { Height = 3 } });
        flow.Together(f2 => f2.Heading("Before you start", 2).Bullets([.. Hazards.Of(drawing.Service), .. Cautions]));
        flow.Together(f2 => f2.Heading("Released", 2).Fields(3, new Field("Checked by"), new Field("Released for fabrication"), new Field("Date")));
        return flow.Pages;
    }

    /// <summary>The usual caution about hot work (common practice).</summary>
    public const string HotWork = "Hot work: permit, fire watch, ventilation; open closed lines before heating. Purge gas displaces air: treat a purged pipe as a confined space.";

    /// <summary>What the figures are not (common practice).</summary>
    public const string Procedures = "Welding, preheat, examination and repair follow the qualified procedure and the code. The figures here are targets, not permissions.";

    /// <summary>The usual cautions (common practice); they replace no procedure.</summary>
    private static readonly string[] Cautions =
    [
        "Tack welds hold nothing up: no lifting, hanging or levering on tacks. Support first, cut or release last.",
        "Lifting: mass and centre of mass stand on each spool sheet. Use rated gear and the site's lifting rules; nobody under the load.",
        HotWork,
        "Pressure tests: only by a qualified person, to the written procedure, with the area kept clear.",
        Procedures,
    ];

    private static string Count(Fabrication f, WeldPlace place) =>
        f.Route.Joints.Count(j => j.Place == place && j.IsWeld).ToString(CultureInfo.InvariantCulture);

    private static IReadOnlyList<Page> Materials(ShopJob job)
    {
        var f = job.Fabrication;
        var flow = new Flow(job.Paper.Landscape, job.Block("Material: needed against listed"));
        flow.Paragraph(job.Drawing.Materials.Count > 0
            ? "Pipe in metres, final-fit extra counted. * found by kind, size and rating, since the drawing does not say the item: look before you draw it from the store."
            : "The drawing has no material list: this is what it needs. Pipe in metres, final-fit extra counted.");
        flow.Table(new Table(
            ["Item", new("What", ColumnWidth.Share(3)), "Size", new("Listed", Anchor.End), new("Needed", Anchor.End), new("Over or short", Anchor.End), new("Remarks", ColumnWidth.Share(2)), "Drawn"],
            f.Materials.Select(row => new Row(
                row.Item is { } item ? item.Item.ToString(CultureInfo.InvariantCulture) + (row.IsGuess ? " *" : "") : "–",
                Words(row),
                Wording.Size(row.Size, row.Size2),
                row.Item is null ? "–" : row.Listed is { } listed ? Quantity(job.Drawing.Units, listed, row.IsLength) : "?",
                Quantity(job.Drawing.Units, row.Needed, row.IsLength),
                Balance(job.Drawing.Units, row),
                Remark(job, row),
                Cell.Box()))));
        flow.Heading("Studs of the bolted joints", 2);
        flow.Table(new Table(
            ["Joint", "Flange", "Class", "Studs", "Size", new(Wording.Heads(f.Units, "Length").Own, Anchor.End), new("From", ColumnWidth.Share())],
            f.Bolting.Select(b => new Row(
                b.Joint.Id, b.Joint.Size.ToString(), b.Joint.Class, b.Count.ToString(CultureInfo.InvariantCulture), $"{b.Size} in", b.Length > 0 ? LengthText.In(f.Units, b.Length) : "?", Wording.Short(b.Origin))))
        { Style = TextStyle.Small with { Height = 3 } });
        return flow.Pages;
    }

    private static string Words(MaterialRow row) => row.Item is { } item
        ? string.Join(", ", new[] { item.What, item.Schedule.Length > 0 ? "schedule " + item.Schedule : "", item.Class.Length > 0 ? "class " + item.Class : "", item.Bore.Length > 0 ? "bore " + item.Bore : "", item.Material }.Where(t => t.Length > 0))
        : row.What;

    private static string Quantity(Units units, double quantity, bool isLength) =>
        isLength ? LengthText.Pipe(units, quantity) : quantity.ToString("0.##", CultureInfo.InvariantCulture);

    private static Cell Balance(Units units, MaterialRow row)
    {
        if (row.Item is null)
            return Cell.Warn(Quantity(units, row.Needed, row.IsLength) + " not listed");
        if (row.Difference is not { } d)
            return "";
        return d < -0.0005 ? Cell.Warn(Quantity(units, -d, row.IsLength) + " short") : d > 0.0005 ? Quantity(units, d, row.IsLength) + " over" : "exact";
    }

    private static Cell Remark(ShopJob job, MaterialRow row)
    {
        if (row.Disagreements.Count > 0)
            return Cell.Warn(string.Join("; ", row.Disagreements));
        if (row.Item is not null && row.UsedBy.Count == 0)
            return "not used by this drawing";
        return row.Item is null && job.Drawing.Materials.Count > 0 ? Cell.Warn("missing from the list") : "";
    }

    private static IReadOnlyList<Page> CutList(ShopJob job)
    {
        var f = job.Fabrication;
        var flow = new Flow(job.Paper.Landscape, job.Block("Cut list"));
        flow.Paragraph("Lengths to the nose of the bevel, allowances and final-fit extra included. Carry the heat number to the piece and to the rest before you cut.");
        flow.Table(new Table(
            ["Piece", "Item", "NPS", "Schedule", new(Wording.Heads(f.Units, "Saw").Own, Anchor.End), new(Wording.Heads(f.Units, "Saw").Other, Anchor.End), new("Ends", ColumnWidth.Share()), new("In it", Anchor.End), new("Heat number", ColumnWidth.Of(42)), "Cut"],
            f.Cuts.Select(c => new Row(
                new Cell(c.Piece) { Bold = true }, c.Pipe.Item?.Item.ToString(CultureInfo.InvariantCulture) ?? "–", c.Pipe.Size.ToString(), c.Pipe.Line.Schedule.ToString(),
                new Cell(Wording.Both(f.Units, c.SawLength).Own) { Bold = true }, Wording.Both(f.Units, c.SawLength).Other,
                Ends(c), new Cell(InIt(f.Units, c)) { Bold = true }, "", Cell.Box())
            { Id = c.Piece }))
        { RowHeight = 10 });
        flow.Heading("The sums", 2);
        flow.Table(new Table(
            ["Piece", new(job.Drawing.Units == Units.Inches ? "Sum in inches" : "Sum in mm", ColumnWidth.Share(3)), new(Wording.Heads(f.Units, "Cut").Own, Anchor.End), new(Wording.Heads(f.Units, "Cut").Other, Anchor.End)],
            f.Cuts.Select(c => new Row(new Cell(c.Piece) { Bold = true }, SumText(c, job.Drawing.Units), new Cell(Wording.Both(f.Units, c.Length).Own) { Bold = true }, Wording.Both(f.Units, c.Length).Other)))
        { Style = TextStyle.Small with { Height = 3 } });
        flow.Paragraph("Take-offs: " + string.Join("; ", f.Cuts.SelectMany(c => c.Sum).Where(t => t.Origin is not (Origin.Drawn or Origin.Shop or Origin.Unknown)).Select(t => $"{t.What} {Term(Math.Abs(t.Mm), job.Drawing.Units)} from {Wording.Short(t.Origin)}").Distinct(StringComparer.Ordinal)) + ". `rootgap tables` writes every table with its sources.", TextStyle.Small);
        if (f.Cuts.Any(c => c.Sum.Any(t => t.Origin.IsFromMemory)))
            flow.Paragraph($"{Wording.MemorySign} {Wording.FromMemory}: measure the part before it is cut for, and give the shop's `measured`.", TextStyle.Small);
        if (job.Drawing.Shop.Shrinkage is null)
            flow.Paragraph("The shop has given no weld shrinkage of its own: none is added. A butt weld draws together by about 1.5 to 3 mm (TWI); the spool sheets show the forecast.", TextStyle.Small);
        return flow.Pages;
    }

    /// <summary>What is in the length besides the pipe that stays: trimmed at site, or cut away with the saddle.</summary>
    internal static string InIt(Units units, Cut c) => string.Join("; ", new[] { c.Extra > 0 ? $"{LengthText.In(units, c.Extra)} final fit" : "", c.Saddle > 0 ? $"{LengthText.In(units, c.Saddle)} saddle" : "" }.Where(t => t.Length > 0));

    internal static string Ends(Cut c) => c.AtStart.Says == c.AtEnd.Says ? $"both {c.AtStart.Says}" : $"{c.AtStart.Says} / {c.AtEnd.Says}";

    /// <summary>The sum as a fitter writes it down, in the drawing's units: a sum in sixteenths would be rounded at every term.</summary>
    internal static string SumText(Cut cut, Units units)
    {
        string Figure(double mm) => Term(mm, units);
        return string.Concat(cut.Sum.Select((t, i) => $"{(i == 0 ? "" : t.Mm < 0 ? " − " : " + ")}{Figure(i == 0 ? t.Mm : Math.Abs(t.Mm))}{(t.Origin.IsFromMemory ? Wording.MemorySign : "")} {t.What}")) + $" = {Figure(cut.Length)}{(cut.Saddle > 0 ? $"; saw {Figure(cut.SawLength)}: the sides of the saddle reach {Figure(cut.Saddle)} below the header's top" : "")}";
    }

    /// <summary>A term of a sum as it is printed: inches to a thousandth, millimetres to a hundredth.</summary>
    private static string Term(double mm, Units units) => units == Units.Inches ? LengthText.Millimetres(mm / LengthText.Inch, 3) : LengthText.Millimetres(mm, 2);

    private static IReadOnlyList<Page> JointList(ShopJob job)
    {
        var f = job.Fabrication;
        var flow = new Flow(job.Paper.Landscape, job.Block("Joint list"));
        flow.Table(new Table(
            ["Joint", "Kind", "Place", "NPS", new("Wall", Anchor.End), new("Between", ColumnWidth.Share()), "Spool", new("Heat numbers", ColumnWidth.Of(34)), new("Procedure", ColumnWidth.Of(25)), new("Welder", ColumnWidth.Of(19)), new("Fit-up", ColumnWidth.Of(17)), new("Examined", ColumnWidth.Of(24))],
            f.Route.Joints.Concat(f.Route.Attachments).Select(j => new Row(
                new Cell(j.Id) { Bold = true }, Wording.Of(j.Kind), new Cell(j.Kind == JointKind.Bolted ? "bolted" : Wording.Of(j.Place)) { Bold = j.Place != WeldPlace.Shop && j.Kind != JointKind.Bolted },
                j.Size.ToString(), j.Wall > 0 ? LengthText.Millimetres(j.Wall, 2) : "", Wording.Between(f, j),
                j is { Place: WeldPlace.Shop, Kind: not JointKind.Bolted } ? f.SpoolOf.GetValueOrDefault(j.Between[0], "") : "", "", "", "", "", "")
            { Id = j.Id }))
        { RowHeight = 9, Style = TextStyle.Small with { Height = 3 } });
        if (Hazards.PurgeAt(f.Route, f.Route.Joints) is { } purge)
            flow.Warning(purge, "Purge gas");
        var existing = f.Route.Joints.Where(j => j.MeetsExistingPipe).Select(j => j.Id).ToList();
        if (existing.Count > 0)
            flow.Warning($"{string.Join(", ", existing)}: welded to pipe that is there already. {Rootgap.Site.Closing.Cautions.ExistingLine} What it measures (girth, two diameters, wall) goes into the survey.", "Existing line");
        return flow.Pages;
    }
}
