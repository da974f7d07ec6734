using System.Globalization;
using Rootgap.Fabricating;
using Rootgap.Measure;
using Rootgap.Papers;
using Rootgap.Records;
using Rootgap.Routes;
using Rootgap.Standards;
using Rootgap.Sums;

namespace Rootgap.Sheets;

/// <summary>The bolting sheets of a drawing as it was made: each joint with what is on record of it, and the order of the bolts.</summary>
internal static class BoltingPages
{
    private static readonly TextStyle Dense = TextStyle.Body with { Height = 3 };
    private static readonly TextStyle Hole = TextStyle.Small with { Bold = true };

    /// <summary>What stands under every bolting sheet: the limits in the drawing's units, as a rule or a feeler has them.</summary>
    internal static string Limits(Units units)
    {
        var mm = units == Units.Inches ? "" : " mm";
        return LengthText.Say(units, $"Limits: faces and holes as ASME PCC-1 appendix E is quoted in published text (gap at rest twice the gasket, {BoltedJoint.MostOffset:gap}{mm} high or low, {BoltedJoint.MostOutOfParallel:gap}{mm} parallel at the sealing face, holes {BoltedJoint.MostHoles:gap}{mm}). A machine's nozzle has tighter ones (API RP 686): ask. ")
            + char.ToUpperInvariant(StarOrder.PassesSource[0]) + StarOrder.PassesSource[1..] + ".";
    }

    /// <summary>What the torques of a drawing come from.</summary>
    internal static string TorqueOf(Drawings.Drawing drawing) => drawing.Shop.Bolting is not { } rule
        ? "Torque: by the bolting procedure. The shop's rules give no bolt stress, and none is made up here: the fields stay for the pen."
        : $"Torque: {Amount.Say(Quantity.Stress, rule.Stress, drawing.Units)} on the {(rule.Area == BoltArea.Root ? "root" : "stress")} area × nut factor {rule.NutFactor.ToString("0.###", CultureInfo.InvariantCulture)} × diameter{(rule.Lubricant.Length > 0 ? $", {rule.Lubricant}" : "")}; source: {rule.Source}.";

    /// <param name="made">What is on record of a joint, by its id: it stands in the fields, and the rest is for the pen.</param>
    public static IReadOnlyList<Page> Of(ShopJob job, Func<string, BoltedUp?> made)
    {
        var joints = BoltedJoint.Of(job.Fabrication);
        if (joints.Count == 0)
            return [];
        var flow = new Flow(job.Paper, job.Block("bolting", Reader.Site));
        flow.Paragraph(BoltedJoint.NeverPull, TextStyle.Strong);
        flow.Paragraph(TorqueOf(job.Drawing), Dense);
        foreach (var caution in Hazards.Of(job.Drawing.Service))
            flow.Paragraph(caution, TextStyle.Strong with { Height = 3 });
        Orders(flow, joints.Select(j => j.Pattern?.Count ?? 0));
        flow.Paragraph(Limits(job.Drawing.Units), TextStyle.Small);
        foreach (var joint in joints)
            flow.Together(f => One(f, job, joint, made(joint.Joint.Id)));
        return flow.Pages;
    }

    /// <summary>The order for each count of bolts, holes numbered as they are painted.</summary>
    internal static void Orders(Flow flow, IEnumerable<int> bolts)
    {
        var counts = bolts.Where(StarOrder.Has).Distinct().Order().ToList();
        // So many that their numbers need the whole width of the page.
        foreach (var many in counts.Where(n => n > MostBeside))
        {
            flow.Figure(Circle(many, Math.Min(flow.Width, SideOf(many))));
            flow.Paragraph(string.Create(CultureInfo.InvariantCulture, $"{many} bolts: ") + string.Join(" – ", StarOrder.Of(many)), TextStyle.Strong with { Height = 3 });
            flow.Paragraph(StarOrder.Source(many) + ".", TextStyle.Small);
        }

        // Three beside each other where their numbers have room.
        var beside = counts.Where(n => n <= MostBeside).ToList();
        foreach (var row in beside.Chunk(beside.TrueForAll(n => SideOf(n) <= (flow.Width - 12) / 3) ? 3 : 2))
        {
            flow.Beside([.. row.Select(n => (1.0, (Action<Flow>)(f =>
            {
                f.Figure(Circle(n, Math.Min(f.Width, SideOf(n))));
                f.Paragraph(string.Create(CultureInfo.InvariantCulture, $"{n} bolts: ") + string.Join(" – ", StarOrder.Of(n)), TextStyle.Strong with { Height = 3 });
                f.Paragraph(char.ToUpperInvariant(StarOrder.Source(n)[0]) + StarOrder.Source(n)[1..] + ".", TextStyle.Small);
            })))]);
        }

        if (counts.Count > 0)
            flow.Paragraph("Paint the numbers beside the holes, clockwise, 1 right of the top. Passes: hand-tight, 30, 60, 100 % by the star, then 100 % round and round until no nut turns, and again after four hours.", Dense);
    }

    private const int MostBeside = 48;

    /// <summary>Side of a picture in which the holes' numbers are 2.5 mm high and clear of each other, mm.</summary>
    private static double SideOf(int bolts) => Math.Max(46, (bolts * 4.6 / Math.PI) + 12);

    private static Figure Circle(int bolts, double side)
    {
        var canvas = new Canvas();
        var (middle, radius) = (new Spot(side / 2, side / 2), (side / 2) - 6);
        canvas.Circle(middle, radius + 5, LineStyle.Medium).Circle(middle, radius * 0.45, LineStyle.Medium);
        var order = StarOrder.Of(bolts);
        for (var i = 0; i < bolts; i++)
        {
            var at = middle.Polar(radius, (-Math.PI / 2) + ((i + 0.5) * 2 * Math.PI / bolts));
            canvas.Circle(at, Math.Min(3.2, radius * 3 / bolts), LineStyle.Medium);
            canvas.Text((i + 1).ToString(CultureInfo.InvariantCulture), at.Moved(0, Hole.Height / 2), Hole, Anchor.Middle);
        }

        for (var i = 0; i + 1 < Math.Min(4, bolts); i++)
        {
            Spot Of(int hole) => middle.Polar(radius * 0.8, (-Math.PI / 2) + ((hole - 0.5) * 2 * Math.PI / bolts));
            canvas.Arrow(Of(order[i]), Of(order[i + 1]), LineStyle.Thin, 2.6);
        }

        return canvas.ToFigure(side, side);
    }

    private static void One(Flow flow, ShopJob job, BoltedJoint b, BoltedUp? made)
    {
        var (f, units) = (job.Fabrication, job.Drawing.Units);
        var j = b.Joint;
        flow.Heading($"{j.Id}: {Wording.Between(f, j)}", 3);
        flow.Fields(4,
            new Field("Flange", $"NPS {j.Size} class {j.Class}"),
            new Field("Studs, two nuts each", j.ByOthers ? "by others" : j.SharesStuds ? "those of the joint before" : b.Studs is { } s ? $"{s.Count} × {s.Size} × {(s.Length > 0 ? LiftWords.Length(units, s.Length) : "?")}" : ""),
            new Field("Gasket", j.ByOthers ? "by others" : $"{b.Gasket?.Item?.What ?? "gasket"}, {LengthText.Say(units, $"{j.Gap:gap}")}"),
            new Field("Drilling", b.Pattern is { } p ? LengthText.Say(units, $"{p.Count} × {p.HoleDiameter:gap} on {p.Circle:gap}") : ""),
            new Field("Gasket, studs: lot", made?.Gasket ?? ""), new Field("Lubricant", made?.Lubricant ?? job.Drawing.Shop.Bolting?.Lubricant ?? ""), new Field("Tool, calibrated to", made?.Tool ?? ""), new Field("Flange faces seen"));
        var gap = LengthText.Say(units, $"{BoltedJoint.GapInGaskets * j.Gap:gap}");
        flow.Table(new Table(
            [new("As found, at rest", ColumnWidth.Share()), new("Limit", ColumnWidth.Of(26)), new("12", ColumnWidth.Of(18)), new("3", ColumnWidth.Of(18)), new("6", ColumnWidth.Of(18)), new("9", ColumnWidth.Of(18))],
            [
                new Row("Gap between the faces", "to " + gap, "", "", "", ""),
                new Row("High or low", LengthText.Say(units, $"{BoltedJoint.MostOffset:small}"), "", "", "", ""),
                new Row("Out of parallel / holes out of line", LengthText.Say(units, $"{BoltedJoint.MostOutOfParallel:small} / {BoltedJoint.MostHoles:small}"), "", "", "", ""),
            ])
        { Style = Dense, RowHeight = 6 });
        var set = b.Load?.TorqueSet(units);
        flow.Table(new Table(
            [.. new Column[] { "Pass" }, .. StarOrder.Passes.Select(p => new Column(p.Share is null ? "hand" : p.IsStar ? p.Name : p.Name.Contains("four", StringComparison.Ordinal) ? "after 4 h" : "round", ColumnWidth.Share()))],
            [
                new Row([new Cell(set is null ? "torque" : Amount.Unit(Quantity.Torque, units)) { Bold = true }, .. StarOrder.Passes.Select(p => new Cell(p.Share is { } share && set is { } torque ? Amount.Figures(Amount.In(Quantity.Torque, torque * share, units), 3) : "") { Bold = true })]),
                new Row([.. new Cell[] { made is null ? "Done, by" : "Done" }, .. StarOrder.Passes.Select(p => new Cell(made is null ? "" : DoneTo(made, p)))]),
            ])
        { Style = Dense, RowHeight = 6 });
        flow.Fields(3, new Field("Assembled by, certificate", made is null ? "" : $"{made.Who}, {made.Time.UtcDateTime.ToString("yyyy-MM-dd", CultureInfo.InvariantCulture)}"), new Field("Seen by"), new Field("Leak-tested, date"));
    }

    // A pass goes by its share where it has one; hand, round and four hours by their words.
    private static string DoneTo(BoltedUp made, (string Name, double? Share, bool IsStar) pass)
    {
        bool Is(TighteningPass done) => pass switch
        {
            { Share: null } => done.Name.Contains("hand", StringComparison.OrdinalIgnoreCase),
            { IsStar: true } => done.Name.Equals(pass.Name, StringComparison.OrdinalIgnoreCase),
            _ when pass.Name.Contains("four", StringComparison.Ordinal) => done.Name.Contains("hour", StringComparison.OrdinalIgnoreCase),
            _ => done.Name.Contains("round", StringComparison.OrdinalIgnoreCase) && !done.Name.Contains("hour", StringComparison.OrdinalIgnoreCase),
        };
        return made.Passes.FirstOrDefault(Is)?.Value ?? "";
    }
}
