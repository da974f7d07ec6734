using System.Globalization;
using Rootgap.Drawings;
using Rootgap.Fabricating;
using Rootgap.Measure;
using Rootgap.Papers;
using Rootgap.Routes;

namespace Rootgap.Sheets;

/// <summary>The joints of one drawing as the register over all drawings has them.</summary>
/// <param name="Examined">Code, examination, heat treatment and test package.</param>
/// <param name="Welds">Of each weld, and of each thread among them, its cells; those that the pen leaves alone hold a dash.</param>
/// <param name="Threads">How many of them are threads.</param>
/// <param name="Minds">What is to be minded at some of its joints.</param>
internal sealed record RegisterRow(string Drawing, string Revision, bool IsBuildable, Units Units, string Examined, IReadOnlyList<IReadOnlyList<Cell>> Welds, int Threads, IReadOnlyList<IReadOnlyList<Cell>> Bolted, IReadOnlyList<string> Minds)
{
    public static RegisterRow Of(ShopJob job)
    {
        var f = job.Fabrication;
        var service = job.Drawing.Service;
        var examined = string.Join(", ", new[] { service.Code, service.Examination.Length > 0 ? service.Examination + " examined" : "", service.HeatTreatment.Length > 0 ? "heat treatment: " + service.HeatTreatment : "", service.TestPackage.Length > 0 ? "test package " + service.TestPackage : "" }.Where(t => t.Length > 0));
        var welds = f.Route.Joints.Where(j => j.Kind != JointKind.Bolted).Concat(f.Route.Attachments).ToList();
        var existing = welds.Where(j => j.MeetsExistingPipe).Select(j => j.Id).ToList();
        return new(
            job.Drawing.Number, job.Drawing.Revision, job.IsBuildable, job.Drawing.Units, examined.Length > 0 ? examined : "examination: not said on the drawing",
            [.. welds.Select(j => Weld(f, j))], welds.Count(j => j.Kind == JointKind.Threaded),
            [.. f.Route.Joints.Where(j => j.Kind == JointKind.Bolted).Select(j => (IReadOnlyList<Cell>)[new Cell(j.Id) { Bold = true }, j.Size.ToString(), JointRegister.Between(f, j), j.ByOthers ? "by others" : BagRow.StudsOf(f, j)])],
            [
                .. Hazards.PurgeAt(f.Route, f.Route.Joints) is { } purge ? [purge] : Array.Empty<string>(),
                .. existing.Count > 0 ? [$"{string.Join(", ", existing)}: welded to pipe that is there already. {Rootgap.Site.Closing.Cautions.ExistingLine} What it measures (girth, two diameters, wall) goes into the survey."] : Array.Empty<string>(),
            ]);
    }

    private static IReadOnlyList<Cell> Weld(Fabrication f, Joint j)
    {
        var (size, wall) = JointRegister.SizeAndWall(f, j);
        return
        [
            new Cell(j.Called) { Bold = true }, Wording.Of(j.Kind).Replace(" weld", "", StringComparison.Ordinal), new Cell(Wording.Of(j.Place).ToLowerInvariant()) { Bold = j.Place != WeldPlace.Shop }, size, wall,
            j.Place == WeldPlace.Shop ? f.SpoolOf.GetValueOrDefault(j.Between[0], "") : string.Join(" | ", j.Between.Select(id => f.SpoolOf.GetValueOrDefault(id, "–")).Distinct(StringComparer.Ordinal)), JointRegister.Between(f, j),
            .. j.Kind == JointKind.Threaded ? NotOfThreads : [],
        ];
    }

    /// <summary>A thread has heats and is looked at; procedure, gap, passes and what is asked of a weld are not for it.</summary>
    private static readonly IReadOnlyList<Cell> NotOfThreads = ["", "", "–", "–", "–", "", "–", "–", "", "–", "–", "–"];
}

/// <summary>The register of joints over all drawings for welder and inspector, A3 across: a row a weld, bolted joints in a block of their own with the boxes that apply to them.</summary>
internal static class JointRegister
{
    private static readonly TextStyle Style = TextStyle.Small;

    public static IReadOnlyList<Page> Of(IReadOnlyList<RegisterRow> rows, Paper paper)
    {
        var some = rows.Where(r => r.Welds.Count + r.Bolted.Count > 0).ToList();
        if (some.Count == 0)
            return [];
        var stopped = some.Where(r => !r.IsBuildable).Select(r => r.Drawing).ToList();
        var flow = new Flow(paper.Larger.Landscape, new TitleBlock("", "", some.Count == 1 ? $"{some[0].Drawing} joint register" : "Joint register")
        {
            Reader = Reader.Inspector, Notice = stopped.Count == 0 ? "" : stopped.Count > 3 ? "NOT FOR FABRICATION: drawings marked below" : "NOT FOR FABRICATION: " + string.Join(", ", stopped),
            Project = string.Create(CultureInfo.InvariantCulture, $"{some.Sum(r => r.Welds.Count - r.Threads)} welds, {(some.Sum(r => r.Threads) is > 0 and var threads ? $"{threads} {(threads == 1 ? "thread" : "threads")}, " : "")}{some.Sum(r => r.Bolted.Count)} bolted joints"),
        });
        flow.Paragraph("Ruled blanks are for the pen. Torque: as the bolting list says, else by the bolting procedure. Never pull flanges together by their bolts. " + ShopPages.Procedures, Style);
        if (some.Exists(r => r.Welds.Count > 0))
            Welds(flow, some);
        if (some.Exists(r => r.Bolted.Count > 0))
            Bolted(flow, some);
        return flow.Pages;
    }

    private static void Welds(Flow flow, IReadOnlyList<RegisterRow> rows) => flow.Table(new Table(
        [
            "joint", "kind", "place", "NPS", new("wall", Anchor.End), "spool", new("between", ColumnWidth.Share(2)),
            new("heat 1", ColumnWidth.Of(22)), new("heat 2", ColumnWidth.Of(22)), new("procedure", ColumnWidth.Of(21)), new("gap", ColumnWidth.Of(13)), new("hi-lo", ColumnWidth.Of(13)), new("fit-up seen", ColumnWidth.Of(23)),
            new("root", ColumnWidth.Of(17)), new("fill, cap", ColumnWidth.Of(17)), new("visual", ColumnWidth.Of(19)), new("asked", ColumnWidth.Of(13)), new("report, result", ColumnWidth.Of(30)), new("repair", ColumnWidth.Of(17)), new("accepted", ColumnWidth.Of(20)),
        ],
        rows.Where(r => r.Welds.Count > 0).SelectMany(r => Group(r, $"wall in {(r.Units == Units.Inches ? "inches" : "mm")}; {r.Examined}", r.Welds).Prepend(Minds(r)).OfType<Row>()))
    { Style = Style, RowHeight = 6.6, LeastRowHeight = 6 });

    private static void Bolted(Flow flow, IReadOnlyList<RegisterRow> rows) => flow.Table(new Table(
        [
            "joint", "NPS", new("between", ColumnWidth.Share()), "studs", new("gasket, lot", ColumnWidth.Of(30)), new("faces, high or low, holes", ColumnWidth.Of(40)), new("gaps 12 | 3 | 6 | 9", ColumnWidth.Of(40)),
            new("lubricant, tool", ColumnWidth.Of(28)), new("torque, source", ColumnWidth.Of(33)), new("hand 30 60 100 round", ColumnWidth.Of(43)), new("by", ColumnWidth.Of(24)), new("after 4 h", ColumnWidth.Of(18)), new("date", ColumnWidth.Of(18)),
        ],
        rows.Where(r => r.Bolted.Count > 0).SelectMany(r => Group(r, "bolted joints", r.Bolted)))
    { Style = Style, RowHeight = 6.2, LeastRowHeight = 6 });

    // What is to be minded stands with the welds that it is said of, not on the first page of all.
    private static Row? Minds(RegisterRow of) => of.Minds.Count > 0 ? new Row($"{of.Drawing}, {string.Join(" ", of.Minds)}") { Group = true } : null;

    // A drawing's rows under its name.
    private static IEnumerable<Row> Group(RegisterRow of, string says, IReadOnlyList<IReadOnlyList<Cell>> rows) =>
    [
        new Row(new Cell($"{of.Drawing} revision {of.Revision}: {says}{(of.IsBuildable ? "" : "; NOT FOR FABRICATION")}")) { Group = true },
        .. rows.Select(r => new Row([.. r]) { Id = $"{of.Drawing} {r[0].Text}" }),
    ];

    /// <summary>What meets at a joint, by mark and number alone.</summary>
    public static string Between(Fabrication f, Joint joint)
    {
        string Short(string id) => f.Cuts.FirstOrDefault(c => c.Pipe.Id == id)?.Piece ?? f.Route.SupportOf(id)?.Tag ?? id;
        var sides = joint.Between.Select(Short).ToList();
        if (sides.Count == 1)
            sides.Add(joint.Kind == JointKind.Bolted ? "mating flange" : "existing pipe");
        return string.Join(" – ", sides);
    }

    /// <summary>Size and wall at a joint; of a branch both, the header's first: welding it needs both.</summary>
    public static (string Size, string Wall) SizeAndWall(Fabrication f, Joint joint)
    {
        string Wall(double mm) => JointRegister.Wall(f.Units, mm);
        if (joint.Kind != JointKind.Branch || joint.Between.Count < 2)
            return (joint.Size.ToString(), joint.Wall > 0 ? Wall(joint.Wall) : "");
        var pipes = joint.Between.Select(f.Route.PipeOf).ToList();
        // The header is the pipe that the joint lies beside; the branch, pipe or outlet, is what is set on it.
        var header = pipes.OfType<PipePiece>().FirstOrDefault(p => IsBeside(p, joint)) ?? pipes.OfType<PipePiece>().FirstOrDefault();
        if (header is null)
            return (joint.Size.ToString(), Wall(joint.Wall));
        var other = joint.Between.First(id => id != header.Id);
        var wall = f.Route.PipeOf(other)?.Wall ?? f.Route.Joints.FirstOrDefault(j => j != joint && j.Between.Contains(other, StringComparer.Ordinal))?.Wall ?? 0;
        return ($"{header.Size} × {joint.Size}", $"{Wall(header.Wall)} × {Wall(wall)}");
    }

    /// <summary>A wall as registers have it: to 0.01 mm, or to 0.001 in.</summary>
    public static string Wall(Units units, double mm) => mm <= 0 ? "?" : units == Units.Inches ? (mm / LengthText.Inch).ToString("0.000", CultureInfo.InvariantCulture) : LengthText.Millimetres(mm, 2);

    private static bool IsBeside(PipePiece pipe, Joint joint) => pipe.AtStart.Kind != EndKind.SetOn && pipe.AtEnd.Kind != EndKind.SetOn && Math.Abs(joint.Axis.Dot(pipe.Direction)) < 0.99;
}
