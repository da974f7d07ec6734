using System.Globalization;
using Rootgap.Fabricating;
using Rootgap.Measure;
using Rootgap.Papers;
using Rootgap.Routes;
using Rootgap.Standards;
using Rootgap.Sums;

namespace Rootgap.Sheets;

/// <summary>The bolting sheets of a drawing: each joint with what goes in it and its limits, a row each, and the order of the bolts. What is written by pen stands in the joint register.</summary>
internal static class BoltingPages
{
    private static readonly TextStyle Dense = TextStyle.Body with { Height = 3 };
    private static readonly TextStyle Hole = TextStyle.Small with { Bold = true };

    public static IReadOnlyList<Page> Of(ShopJob job)
    {
        var joints = BoltedJoint.Of(job.Fabrication);
        if (joints.Count == 0)
            return [];
        var flow = new Flow(job.Paper, job.Block("bolting", Reader.Site));
        var rule = job.Drawing.Shop.Bolting;
        flow.Paragraph(BoltedJoint.NeverPull, TextStyle.Strong);
        flow.Paragraph(rule is null
            ? "Torque: by the bolting procedure. The shop's rules give no bolt stress, and none is made up here: the fields stay for the pen."
            : $"Torque: {Amount.Say(Quantity.Stress, rule.Stress, job.Drawing.Units)} on the {(rule.Area == BoltArea.Root ? "root" : "stress")} area × nut factor {rule.NutFactor.ToString("0.###", CultureInfo.InvariantCulture)} × diameter{(rule.Lubricant.Length > 0 ? $", {rule.Lubricant}" : "")}; source: {rule.Source}.", Dense);
        foreach (var caution in Hazards.Of(job.Drawing.Service))
            flow.Paragraph(caution, TextStyle.Strong with { Height = 3 });
        Orders(flow, joints);
        Rows(flow, job, joints);
        flow.Paragraph("Limits: faces and holes as ASME PCC-1 appendix E is quoted in published text (gap at rest twice the gasket, 1.5 mm high or low, 0.8 mm parallel at the sealing face, holes 3 mm). A machine's nozzle has tighter ones (API RP 686): ask. "
            + StarOrder.PassesSource + ".", TextStyle.Small);
        return flow.Pages;
    }

    /// <summary>The order for each count of bolts, holes numbered as they are painted.</summary>
    private static void Orders(Flow flow, IReadOnlyList<BoltedJoint> joints)
    {
        var counts = joints.Select(j => j.Pattern?.Count ?? 0).Where(StarOrder.Has).Distinct().Order().ToList();
        foreach (var pair in counts.Chunk(2))
        {
            flow.Beside([.. pair.Select(n => (1.0, (Action<Flow>)(f =>
            {
                f.Figure(Circle(n, Math.Min(f.Width, 46)));
                f.Paragraph(string.Create(CultureInfo.InvariantCulture, $"{n} bolts: ") + string.Join(" – ", StarOrder.Of(n)), TextStyle.Strong with { Height = 3 });
                f.Paragraph(StarOrder.Source(n) + ".", TextStyle.Small);
            }))), .. pair.Length == 1 ? new (double, Action<Flow>)[] { (1.0, f => f.Paragraph("Paint the numbers beside the holes, clockwise, 1 right of the top. Passes: hand-tight, 30, 60, 100 % by the star, then 100 % round and round until no nut turns, and again after four hours.", Dense)) } : []]);
        }
    }

    private static Figure Circle(int bolts, double side)
    {
        var canvas = new Canvas();
        var (middle, radius) = (new Spot(side / 2, side / 2), (side / 2) - 6);
        canvas.Circle(middle, radius + 5, LineStyle.Medium).Circle(middle, radius * 0.45, LineStyle.Medium);
        var order = StarOrder.Of(bolts);
        for (var i = 0; i < bolts; i++)
        {
            var at = middle.Polar(radius, (-Math.PI / 2) + ((i + 0.5) * 2 * Math.PI / bolts));
            canvas.Circle(at, Math.Min(3.2, radius * 2.4 / bolts), LineStyle.Medium);
            var style = bolts > 20 ? Hole with { Height = 2.2 } : Hole;
            canvas.Text((i + 1).ToString(CultureInfo.InvariantCulture), at.Moved(0, style.Height / 2), style, Anchor.Middle);
        }

        for (var i = 0; i + 1 < Math.Min(4, bolts); i++)
        {
            Spot Of(int hole) => middle.Polar(radius * 0.8, (-Math.PI / 2) + ((hole - 0.5) * 2 * Math.PI / bolts));
            canvas.Arrow(Of(order[i]), Of(order[i + 1]), LineStyle.Thin, 2.6);
        }

        return canvas.ToFigure(side, side);
    }

    private static void Rows(Flow flow, ShopJob job, IReadOnlyList<BoltedJoint> joints)
    {
        var (f, units) = (job.Fabrication, job.Drawing.Units);
        // Torques pass by pass, where the shop's rules give a stress.
        List<(string Name, double Share)> passes = joints.Any(b => b.Load is not null) ? [.. StarOrder.Passes.Where(p => p.Share is not null).DistinctBy(p => p.Share).Select(p => (p.IsStar ? p.Name : "round", p.Share!.Value))] : [];
        flow.Table(new Table(
            [
                "joint", new("between", ColumnWidth.Share()), "flange", "studs, two nuts", new("gasket", ColumnWidth.Share(2)), "drilling", new("gap at rest", Anchor.End),
                .. passes.Select(p => new Column($"{p.Name}, {Amount.Unit(Quantity.Torque, units)}", Anchor.End)),
            ],
            joints.Select(b =>
            {
                var j = b.Joint;
                var set = b.Load?.TorqueSet(units);
                return new Row(
                [
                    new Cell(j.Id) { Bold = true }, JointRegister.Between(f, j), $"NPS {j.Size} class {j.Class}",
                    j.ByOthers ? "by others" : j.SharesStuds ? "with the joint beside it" : b.Studs is { } s ? $"{s.Count} × {s.Size} × {(s.Length > 0 ? LiftWords.Length(units, s.Length) : "?")}" : "",
                    j.ByOthers ? "by others" : $"{b.Gasket?.Item?.What ?? "gasket"}, {LengthText.Say(units, $"{j.Gap:small}")}",
                    b.Pattern is { } p ? LengthText.Say(units, $"{p.Count} × {p.HoleDiameter:small} on {p.Circle:small}") : "", "to " + LengthText.Say(units, $"{BoltedJoint.GapInGaskets * j.Gap:small}"),
                    .. passes.Select(pass => new Cell(set is { } torque ? Amount.Figures(Amount.In(Quantity.Torque, torque * pass.Share, units), 3) : "") { Bold = true }),
                ]);
            }))
        { Style = TextStyle.Small, RowHeight = 6, LeastRowHeight = 5.2 });
        flow.Paragraph(string.Create(CultureInfo.InvariantCulture,
            $"As found, at rest: high or low to {LengthText.Say(units, $"{BoltedJoint.MostOffset:small}")}, out of parallel to {LengthText.Say(units, $"{BoltedJoint.MostOutOfParallel:small}")}, holes out of line to {LengthText.Say(units, $"{BoltedJoint.MostHoles:small}")}. Readings, lots, lubricant, tool, passes and names are written in the joint register."), TextStyle.Small);
    }
}
