using System.Globalization;
using Rootgap.Drawings;
using Rootgap.Fabricating;
using Rootgap.Measure;
using Rootgap.Papers;
using Rootgap.Routes;

namespace Rootgap.Sheets;

/// <summary>The register of a drawing's joints for welder and inspector: a row a weld, bolted joints in a block of their own with the boxes that apply to them.</summary>
internal static class JointRegister
{
    private static readonly TextStyle Style = TextStyle.Small;

    public static IReadOnlyList<Page> Of(ShopJob job)
    {
        var f = job.Fabrication;
        if (f.Route.Joints.Count == 0)
            return [];
        var service = job.Drawing.Service;
        var examined = string.Join(", ", new[] { service.Code, service.Examination.Length > 0 ? service.Examination + " examined" : "", service.HeatTreatment.Length > 0 ? "heat treatment: " + service.HeatTreatment : "", service.TestPackage.Length > 0 ? "test package " + service.TestPackage : "" }.Where(t => t.Length > 0));
        var flow = new Flow(job.Paper.Larger.Landscape, job.Block("joint register", Reader.Inspector) with { Project = examined.Length > 0 ? examined : "examination: not said on the drawing" });
        var welds = f.Route.Joints.Where(j => j.Kind != JointKind.Bolted).Concat(f.Route.Attachments).ToList();
        if (welds.Count > 0)
            Welds(flow, f, welds);
        var bolted = f.Route.Joints.Where(j => j.Kind == JointKind.Bolted).ToList();
        if (bolted.Count > 0)
            Bolted(flow, f, bolted);
        flow.Paragraph("Ruled blanks are for the pen. Torque: by the bolting procedure. Never pull flanges together by their bolts. " + ShopPages.Procedures, Style);
        if (Hazards.PurgeAt(f.Route, f.Route.Joints) is { } purge)
            flow.Paragraph(purge, Style with { Bold = true });
        var existing = welds.Where(j => j.MeetsExistingPipe).Select(j => j.Id).ToList();
        if (existing.Count > 0)
            flow.Paragraph($"{string.Join(", ", existing)}: welded to pipe that is there already. {Rootgap.Site.Closing.Cautions.ExistingLine} What it measures (girth, two diameters, wall) goes into the survey.", Style with { Bold = true });
        return flow.Pages;
    }

    private static void Welds(Flow flow, Fabrication f, IReadOnlyList<Joint> welds) => flow.Table(new Table(
        [
            "joint", "kind", "place", "NPS", new(f.Units == Units.Inches ? "wall, in" : "wall", Anchor.End), "spool", new("between", ColumnWidth.Share(2)),
            new("heat 1", ColumnWidth.Of(22)), new("heat 2", ColumnWidth.Of(22)), new("procedure", ColumnWidth.Of(21)), new("gap", ColumnWidth.Of(13)), new("hi-lo", ColumnWidth.Of(13)), new("fit-up seen", ColumnWidth.Of(23)),
            new("root", ColumnWidth.Of(17)), new("fill, cap", ColumnWidth.Of(17)), new("visual", ColumnWidth.Of(19)), new("asked", ColumnWidth.Of(13)), new("report, result", ColumnWidth.Of(30)), new("repair", ColumnWidth.Of(17)), new("accepted", ColumnWidth.Of(20)),
        ],
        welds.Select(j =>
        {
            var (size, wall) = SizeAndWall(f, j);
            return new Row(
                new Cell(j.Called) { Bold = true }, Wording.Of(j.Kind).Replace(" weld", "", StringComparison.Ordinal), new Cell(Wording.Of(j.Place).ToLowerInvariant()) { Bold = j.Place != WeldPlace.Shop }, size, wall,
                j.Place == WeldPlace.Shop ? f.SpoolOf.GetValueOrDefault(j.Between[0], "") : "–", Between(f, j))
            { Id = j.Id };
        }))
    { Style = Style, RowHeight = 6.6, LeastRowHeight = 5.6 });

    private static void Bolted(Flow flow, Fabrication f, IReadOnlyList<Joint> bolted) => flow.Table(new Table(
        [
            "joint", "NPS", new("between", ColumnWidth.Share()), "studs", new("gasket, lot", ColumnWidth.Of(30)), new("faces, high or low, holes", ColumnWidth.Of(40)), new("gaps 12 | 3 | 6 | 9", ColumnWidth.Of(40)),
            new("lubricant, tool", ColumnWidth.Of(28)), new("torque, source", ColumnWidth.Of(33)), new("hand 30 60 100 round", ColumnWidth.Of(43)), new("by", ColumnWidth.Of(24)), new("after 4 h", ColumnWidth.Of(18)), new("date", ColumnWidth.Of(18)),
        ],
        bolted.Select(j => new Row(new Cell(j.Id) { Bold = true }, j.Size.ToString(), Between(f, j), j.ByOthers ? "by others" : BagRow.StudsOf(f, j)) { Id = j.Id }))
    { Style = Style, RowHeight = 6.2, LeastRowHeight = 5.6 });

    /// <summary>What meets at a joint, by mark and number alone.</summary>
    public static string Between(Fabrication f, Joint joint)
    {
        string Short(string id) => f.Cuts.FirstOrDefault(c => c.Pipe.Id == id)?.Piece ?? id;
        var sides = joint.Between.Select(Short).ToList();
        if (sides.Count == 1)
            sides.Add(joint.Kind == JointKind.Bolted ? "mating flange" : "existing pipe");
        return string.Join(" – ", sides);
    }

    /// <summary>Size and wall at a joint; of a branch both, the header's first: welding it needs both.</summary>
    public static (string Size, string Wall) SizeAndWall(Fabrication f, Joint joint)
    {
        string Wall(double mm) => mm <= 0 ? "?" : f.Units == Units.Inches ? (mm / LengthText.Inch).ToString("0.000", CultureInfo.InvariantCulture) : LengthText.Millimetres(mm, 2);
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

    private static bool IsBeside(PipePiece pipe, Joint joint) => pipe.AtStart.Kind != EndKind.SetOn && pipe.AtEnd.Kind != EndKind.SetOn && Math.Abs(joint.Axis.Dot(pipe.Direction)) < 0.99;
}
