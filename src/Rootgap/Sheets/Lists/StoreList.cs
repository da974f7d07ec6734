using System.Globalization;
using Rootgap.Drawings;
using Rootgap.Fabricating;
using Rootgap.Measure;
using Rootgap.Routes;

namespace Rootgap.Sheets;

/// <summary>What one drawing needs of one thing.</summary>
/// <param name="Short">How much its own list lacks; null where it lists enough, or has no list.</param>
/// <param name="Remark">What of list and drawing contradicts each other; empty where nothing does.</param>
internal sealed record StoreRow(string Drawing, Units Units, string What, string Kind, NominalSize Size, NominalSize Size2, bool IsLength, double Needed, double? Short, string Remark)
{
    public static IEnumerable<StoreRow> Of(ShopJob job)
    {
        var hasList = job.Drawing.Materials.Count > 0;
        foreach (var row in job.Fabrication.Materials)
        {
            if (row.Needed <= 0 && row.Disagreements.Count == 0)
                continue;
            var item = row.Item;
            var of = item is null ? "" : Wording.Kind(item, job.Drawing.Units);
            double? lacks = row.Difference is < -0.0005 and var d ? -d : item is null && hasList ? row.Needed : null;
            var remark = string.Join("; ", (item is null && hasList ? ["not on its list"] : Array.Empty<string>()).Concat(row.Disagreements));
            yield return new(job.Drawing.Number, job.Drawing.Units, item?.What ?? row.What, of, row.Size, row.Size2, row.IsLength, row.Needed, lacks, remark);
        }
    }
}

/// <summary>The bag of one bolted joint.</summary>
internal sealed record BagRow(string Drawing, string Revision, string Joint, string Between, string Studs, string Gasket)
{
    public static IEnumerable<BagRow> Of(ShopJob job)
    {
        var f = job.Fabrication;
        foreach (var joint in f.Route.Joints.Where(j => j.Kind == JointKind.Bolted))
        {
            if (joint.ByOthers)
            {
                yield return new(job.Drawing.Number, job.Drawing.Revision, joint.Id, Sides(f, joint), "on another list", "on another list");
                continue;
            }

            yield return new(job.Drawing.Number, job.Drawing.Revision, joint.Id, Sides(f, joint), StudsOf(f, joint), LengthText.Say(f.Units, $"NPS {joint.Size} class {joint.Class}, {joint.Gap:gap}"));
        }
    }

    /// <summary>Studs of a bolted joint: number, diameter in inches, length.</summary>
    public static string StudsOf(Fabrication f, Joint joint) => f.Bolting.FirstOrDefault(b => b.Joint.Id == joint.Id) is { } set
        ? string.Create(CultureInfo.InvariantCulture, $"{set.Count} × {set.Size} × {(set.Length > 0 ? LengthText.In(f.Units, set.Length).Replace(".0", "", StringComparison.Ordinal) : "?")}")
        : joint.SharesStuds ? "with the joint beside it" : "not in the table: ask";

    /// <summary>What it joins, by spools where they are spools.</summary>
    public static string Sides(Fabrication f, Joint joint)
    {
        var sides = joint.Between.Select(id => f.SpoolOf.TryGetValue(id, out var spool) ? $"spool {spool}" : Wording.NameOf(f, id)).ToList();
        if (sides.Count == 1)
            sides.Add("mating flange");
        return string.Join(" – ", sides);
    }
}

/// <summary>One list of all that the store gives out, over all drawings, and the bolting joint by joint.</summary>
internal static class StoreList
{
    private static readonly TextStyle Style = TextStyle.Small;

    // What a group's heading says already is not said again in each of its rows.
    private static readonly Dictionary<string, string> Said = new(StringComparer.Ordinal) { ["Flanges"] = "flange ", ["Valves and in-line items"] = "valve ", ["Gaskets"] = "gasket " };

    private static readonly string[] Groups = ["Pipe", "Fittings", "Flanges", "Valves and in-line items", "Gaskets", "Bolting"];

    public static IReadOnlyList<Page> Of(IReadOnlyList<StoreRow> rows, IReadOnlyList<BagRow> bags, int drawings, Paper paper)
    {
        if (rows.Count + bags.Count == 0)
            return [];
        var flow = new Flow(paper.Portrait, new TitleBlock("", "", "Store list") { Reader = Reader.Store, Project = string.Create(CultureInfo.InvariantCulture, $"{drawings} {(drawings == 1 ? "drawing" : "drawings")}") });
        // The column of what is lacking is there only where something is.
        var isShort = rows.Any(r => r.Short > Least);
        flow.Table(new Table(
            [
                new("what", ColumnWidth.Of(36)), new("NPS", ColumnWidth.Of(16)), new("of", ColumnWidth.Of(44)), new("needed", ColumnWidth.Of(19), Anchor.End), .. isShort ? [new Column("short", ColumnWidth.Of(11), Anchor.End)] : Array.Empty<Column>(),
                new("for", ColumnWidth.Share()), new("heat, lot", ColumnWidth.Of(20)), new("out", ColumnWidth.Of(9)),
            ],
            rows.GroupBy(Group).OrderBy(g => Array.IndexOf(Groups, g.Key)).SelectMany(g => Things(g, isShort, Said.GetValueOrDefault(g.Key, "")).Prepend(new Row(g.Key) { Group = true })))
        { Style = Style, RowHeight = 5.6, LeastRowHeight = 5.2, WhenEmpty = "nothing" });
        if (bags.Count > 0)
        {
            flow.Heading("Bolting, joint by joint", 2);
            flow.Table(new Table(
                [new("joint", ColumnWidth.Of(16)), new("between", ColumnWidth.Share()), new("studs, 2 nuts each", ColumnWidth.Of(36)), new("gasket", ColumnWidth.Of(38)), new("lot", ColumnWidth.Of(22)), new("bagged", ColumnWidth.Of(16))],
                bags.GroupBy(b => (b.Drawing, b.Revision)).SelectMany(g => g.Select(b => new Row(new Cell(b.Joint) { Bold = true }, b.Between, new Cell(b.Studs) { Bold = true }, b.Gasket, "", Cell.Box()))
                    .Prepend(new Row($"{g.Key.Drawing}, revision {g.Key.Revision}") { Group = true })))
            { Style = Style, RowHeight = 5.6, LeastRowHeight = 5.2 });
            flow.Paragraph("One bag a joint: studs, nuts, gasket, the joint's name. Torque: by the bolting procedure.", Style);
        }

        return flow.Pages;
    }

    // By the trade's first word for a thing.
    private static string Group(StoreRow row)
    {
        var first = row.What.Split(' ')[0];
        return row.IsLength ? "Pipe" : first switch
        {
            "flange" => "Flanges",
            "gasket" => "Gaskets",
            "stud" or "bolt" or "nut" => "Bolting",
            "valve" or "strainer" or "item" => "Valves and in-line items",
            _ => "Fittings",
        };
    }

    private static IEnumerable<Row> Things(IEnumerable<StoreRow> rows, bool isShort, string said) => rows
        .GroupBy(r => (r.What, r.Kind, r.Size, r.Size2, r.IsLength, Units: r.IsLength ? r.Units : Units.Millimetres))
        .OrderBy(g => g.Key.What, StringComparer.Ordinal).ThenByDescending(g => g.Key.Size.Inches).ThenByDescending(g => g.Key.Size2.IsNone ? 0 : g.Key.Size2.Inches).ThenBy(g => g.Key.Kind, StringComparer.Ordinal)
        .Select(g =>
        {
            string Quantity(double q) => g.Key.IsLength ? LengthText.Pipe(g.Key.Units, q) : q.ToString("0.##", CultureInfo.InvariantCulture);
            var lacks = g.Sum(r => r.Short ?? 0);
            var remarks = g.Where(r => r.Remark.Length > 0).Select(r => $"{r.Drawing}: {r.Remark}").ToList();
            return new Row(
            [
                new Cell(g.Key.What.StartsWith(said, StringComparison.Ordinal) ? g.Key.What[said.Length..] : g.Key.What) { Bold = true }, Wording.Size(g.Key.Size, g.Key.Size2), g.Key.Kind, new Cell(Quantity(g.Sum(r => r.Needed))) { Bold = true, Height = 3 },
                .. isShort ? [lacks > Least ? Cell.Warn(Quantity(lacks)) : Cell.Empty] : Array.Empty<Cell>(), remarks.Count > 0 ? Cell.Warn(string.Join("; ", remarks)) : string.Join(", ", g.Select(r => r.Drawing).Distinct(StringComparer.Ordinal)), "", Cell.Box(),
            ]);
        });

    /// <summary>Less than this is no lack: metres and pieces are rounded.</summary>
    private const double Least = 0.0005;
}
