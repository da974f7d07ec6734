using System.Globalization;
using Rootgap.Measure;
using Rootgap.Papers;
using Rootgap.Sums;

namespace Rootgap.Sheets;

/// <summary>The bolted joints of one drawing as the list over all drawings has them.</summary>
/// <param name="Torque">What the torques come from.</param>
/// <param name="Cautions">What its service asks to be minded.</param>
/// <param name="Bolts">How many bolts its joints have.</param>
/// <param name="Joints">Of each joint what it is between, flange, studs, gasket, drilling, gap at rest; then the torque of each pass, empty where the shop's rules give none.</param>
internal sealed record BoltingRow(string Drawing, bool IsBuildable, Units Units, string Torque, IReadOnlyList<string> Cautions, IReadOnlyList<int> Bolts, IReadOnlyList<(string Id, IReadOnlyList<string> Says, IReadOnlyList<string> Torques)> Joints)
{
    /// <summary>The passes that have a share of the torque of their own.</summary>
    public static readonly IReadOnlyList<(string Name, double Share)> Passes = [.. StarOrder.Passes.Where(p => p.Share is not null).DistinctBy(p => p.Share).Select(p => (p.IsStar ? p.Name : "round", p.Share!.Value))];

    public static BoltingRow Of(ShopJob job)
    {
        var (f, units) = (job.Fabrication, job.Drawing.Units);
        var joints = BoltedJoint.Of(f);
        return new(job.Drawing.Number, job.IsBuildable, units, BoltingPages.TorqueOf(job.Drawing), [.. Hazards.Of(job.Drawing.Service)], [.. joints.Select(b => b.Pattern?.Count ?? 0)], [.. joints.Select(b =>
        {
            var j = b.Joint;
            IReadOnlyList<string> says =
            [
                JointRegister.Between(f, j), $"{j.Size}, {j.Class}",
                j.ByOthers ? "by others" : j.SharesStuds ? BagRow.WithOf(f, j) : b.Studs is { } s ? $"{s.Count} × {s.Size} × {(s.Length > 0 ? LiftWords.Length(units, s.Length) : "?")}" : "",
                j.ByOthers ? "by others" : $"{GasketOf(b)}{LengthText.Say(units, $"{j.Gap:gap}")}",
                b.Pattern is { } p ? LengthText.Say(units, $"{p.Count} × {p.HoleDiameter:gap} on {p.Circle:gap}") : "", LengthText.Say(units, $"{BoltedJoint.GapInGaskets * j.Gap:gap}"),
            ];
            var set = b.Load?.TorqueSet(units);
            return (j.Id, says, (IReadOnlyList<string>)[.. Passes.Select(pass => set is { } torque ? Amount.Figures(Amount.In(Quantity.Torque, torque * pass.Share, units), 3) : "")]);
        })]);
    }

    // The column is headed gasket: the word is not said again.
    private static string GasketOf(BoltedJoint b) => b.Gasket?.Item?.What is { } what ? (what.StartsWith("gasket ", StringComparison.Ordinal) ? what["gasket ".Length..] : what) + ", " : "";
}

/// <summary>Bolting over all drawings: the order of the bolts once, and each joint with what goes in it, its limits and its torques, a row each. What is written by pen stands in the joint register.</summary>
internal static class BoltingList
{
    private static readonly TextStyle Dense = TextStyle.Body with { Height = 3 };

    public static IReadOnlyList<Page> Of(IReadOnlyList<BoltingRow> rows, Paper paper)
    {
        var some = rows.Where(r => r.Joints.Count > 0).ToList();
        if (some.Count == 0)
            return [];
        var stopped = some.Where(r => !r.IsBuildable).Select(r => r.Drawing).ToList();
        var flow = new Flow(paper.Portrait, new TitleBlock("", "", some.Count == 1 ? $"{some[0].Drawing} bolting" : "Bolting")
        {
            Reader = Reader.Site, Notice = stopped.Count == 0 ? "" : stopped.Count > 3 ? "NOT FOR FABRICATION: some drawings" : "NOT FOR FABRICATION: " + string.Join(", ", stopped),
            Project = string.Create(CultureInfo.InvariantCulture, $"{some.Sum(r => r.Joints.Count)} joints"),
        });
        flow.Paragraph(BoltedJoint.NeverPull, TextStyle.Strong);
        foreach (var same in some.GroupBy(r => r.Torque, StringComparer.Ordinal))
            flow.Paragraph(Before(same, some.Count) + same.Key, Dense);
        foreach (var same in some.SelectMany(r => r.Cautions.Select(c => (Row: r, Caution: c))).GroupBy(c => c.Caution, c => c.Row, StringComparer.Ordinal))
            flow.Paragraph(Before(same, some.Count) + same.Key, TextStyle.Strong with { Height = 3 });
        BoltingPages.Orders(flow, some.SelectMany(r => r.Bolts));
        flow.Paragraph("Readings, lots, lubricant, tool, passes and names are written in the joint register.", TextStyle.Small);
        foreach (var same in some.GroupBy(r => r.Units))
            flow.Paragraph(Before(same, some.Count) + BoltingPages.Limits(same.Key), TextStyle.Small);
        var hasTorque = some.Exists(r => r.Joints.Any(j => j.Torques.Any(t => t.Length > 0)));
        flow.Table(new Table(
            [
                "joint", new("between", ColumnWidth.Share()), "NPS, class", "studs, two nuts", "gasket", "drilling", new("gap to", Anchor.End),
                .. hasTorque ? BoltingRow.Passes.Select(p => new Column(p.Name, Anchor.End)) : [],
            ],
            some.SelectMany(r => (IEnumerable<Row>)
            [
                .. some.Count == 1 && !hasTorque ? Array.Empty<Row>() : [new Row($"{r.Drawing}{(r.Joints.Any(j => j.Torques.Any(t => t.Length > 0)) ? ", torque in " + Amount.Unit(Quantity.Torque, r.Units) : "")}") { Group = true }],
                .. r.Joints.Select(j => new Row([new Cell(j.Id) { Bold = true }, .. j.Says.Select(s => new Cell(s)), .. hasTorque ? j.Torques.Select(t => new Cell(t) { Bold = true }) : []])),
            ]))
        { Style = TextStyle.Small, RowHeight = 6, LeastRowHeight = 5.2 });
        return flow.Pages;
    }

    // Of which drawings something is said, where it is not said of all.
    private static string Before(IEnumerable<BoltingRow> rows, int all) => rows.ToList() is var own && own.Count == all ? "" : string.Join(", ", own.Select(r => r.Drawing)) + ": ";
}
