using System.Globalization;
using Rootgap.Fabricating;
using Rootgap.Measure;
using Rootgap.Papers;
using Rootgap.Records;
using Rootgap.Routes;
using Rootgap.Standards;
using Rootgap.Sums;

namespace Rootgap.Sheets;

/// <summary>The bolting sheets of a drawing: each joint with what goes in it and its limits, a row each, and the order of the bolts. What is written by pen stands in the joint register.</summary>
internal static class BoltingPages
{
    private static readonly TextStyle Dense = TextStyle.Body with { Height = 3 };
    private static readonly TextStyle Hole = TextStyle.Small with { Bold = true };

    /// <param name="made">What is on record of a joint, by its id: it stands in the fields, and the rest is for the pen. Null: all is for the pen.</param>
    public static IReadOnlyList<Page> Of(ShopJob job, Func<string, BoltedUp?>? made = null)
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
        if (made is null)
            Rows(flow, job, joints);
        flow.Paragraph("Limits: faces and holes as ASME PCC-1 appendix E is quoted in published text (gap at rest twice the gasket, 1.5 mm high or low, 0.8 mm parallel at the sealing face, holes 3 mm). A machine's nozzle has tighter ones (API RP 686): ask. "
            + char.ToUpperInvariant(StarOrder.PassesSource[0]) + StarOrder.PassesSource[1..] + ".", TextStyle.Small);
        if (made is not null)
        {
            foreach (var joint in joints)
                flow.Together(f => One(f, job, joint, made(joint.Joint.Id)));
        }

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
                f.Paragraph(char.ToUpperInvariant(StarOrder.Source(n)[0]) + StarOrder.Source(n)[1..] + ".", TextStyle.Small);
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

    private static void One(Flow flow, ShopJob job, BoltedJoint b, BoltedUp? made)
    {
        var (f, units) = (job.Fabrication, job.Drawing.Units);
        var j = b.Joint;
        flow.Heading($"{j.Id}: {Wording.Between(f, j)}", 3);
        flow.Fields(4,
            new Field("Flange", $"NPS {j.Size} class {j.Class}"),
            new Field("Studs, two nuts each", j.ByOthers ? "by others" : j.SharesStuds ? "those of the joint before" : b.Studs is { } s ? $"{s.Count} × {s.Size} × {(s.Length > 0 ? LiftWords.Length(units, s.Length) : "?")}" : ""),
            new Field("Gasket", j.ByOthers ? "by others" : $"{b.Gasket?.Item?.What ?? "gasket"}, {LengthText.Say(units, $"{j.Gap:small}")}"),
            new Field("Drilling", b.Pattern is { } p ? LengthText.Say(units, $"{p.Count} × {p.HoleDiameter:small} on {p.Circle:small}") : ""),
            new Field("Gasket, studs: lot", made?.Gasket ?? ""), new Field("Lubricant", made?.Lubricant ?? job.Drawing.Shop.Bolting?.Lubricant ?? ""), new Field("Tool, calibrated to", made?.Tool ?? ""), new Field("Flange faces seen"));
        var gap = LengthText.Say(units, $"{BoltedJoint.GapInGaskets * j.Gap:small}");
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
