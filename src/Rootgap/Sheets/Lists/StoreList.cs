using System.Globalization;
using Rootgap.Drawings;
using Rootgap.Fabricating;
using Rootgap.Measure;
using Rootgap.Routes;

namespace Rootgap.Sheets;

/// <summary>What one drawing needs of one thing.</summary>
/// <param name="Kind">By what else it is ordered: schedule, class, bore, thickness, length, material, the header of an outlet.</param>
/// <param name="Length">Of a nipple or a stud, mm, by which alike things are ordered; 0 for all else.</param>
/// <param name="Short">How much its own list lacks; null where it lists enough, or has no list.</param>
/// <param name="Remark">What of list and drawing contradicts each other; empty where nothing does.</param>
internal sealed record StoreRow(string Drawing, Units Units, string What, string Kind, double Length, NominalSize Size, NominalSize Size2, bool IsLength, double Needed, double? Short, string Remark)
{
    public static IEnumerable<StoreRow> Of(ShopJob job)
    {
        var (f, units, hasList) = (job.Fabrication, job.Drawing.Units, job.Drawing.Materials.Count > 0);
        foreach (var row in f.Materials)
        {
            if (row.Needed <= 0 && row.Disagreements.Count == 0)
                continue;
            var item = row.Item;
            double? lacks = row.Difference is < -0.0005 and var d ? -d : item is null && hasList ? row.Needed : null;
            var remark = string.Join("; ", (item is null && hasList ? ["not on its list"] : Array.Empty<string>()).Concat(row.Disagreements).Concat(OtherStuds(f, row)));
            yield return new(job.Drawing.Number, units, WhatOf(f, row), string.Join(", ", Kinds(f, row).Where(t => t.Length > 0)), item?.Length ?? row.Length ?? 0, row.Size, row.Size2, row.IsLength, row.Needed, lacks, remark);
        }
    }

    private static Part? PartOf(Fabrication f, MaterialRow row) => row.UsedBy is [var first, ..] ? f.Route.PartOf(first) : null;

    /// <summary>What the list calls it, else the part's own name with its ends; a length stands among what it is ordered by.</summary>
    internal static string WhatOf(Fabrication f, MaterialRow row) => row switch
    {
        { Item: { } item } => item.What,
        { Length: not null } => row.What.Split(" x ")[0],
        // A made bend is pipe, and a gasket is no in-line item of its joint.
        { IsLength: true } => row.What,
        _ => PartOf(f, row) is { } part and not Gasket ? part.DrawnAs : row.What,
    };

    /// <summary>By what a row is ordered besides its words and its size: as listed, else as drawn.</summary>
    internal static IEnumerable<string> Kinds(Fabrication f, MaterialRow row)
    {
        var (units, part) = (f.Units, PartOf(f, row));
        string Long(double mm) => LengthText.Say(units, $"{mm:len}") + (units == Units.Inches ? "" : " mm");
        if (row.Item is { } item)
        {
            yield return item.Schedule.Length > 0 ? "sch " + item.Schedule : "";
            yield return item.Class.Length > 0 ? "class " + item.Class : "";
            yield return item.Bore.Length > 0 ? "bore " + item.Bore : "";
            yield return item.Length is { } length ? Long(length) : "";
        }
        else
        {
            // A forged fitting goes by its class alone.
            yield return part is { IsBySchedule: true, RatingClass.Length: 0 } ? "sch " + part.Line.Schedule : "";
            yield return part is { RatingClass.Length: > 0 } ? "class " + part.RatingClass : "";
            yield return part is { HasFacing: true } and not Gasket ? Words.Of(part.Line.Facing) : "";
            yield return row.Length is { } length ? Long(length) : "";
        }

        var parts = row.UsedBy.Select(f.Route.PartOf).ToList();
        if (row.Size2.IsNone && parts.OfType<Outlet>().Select(o => o.Size2).Distinct().OrderBy(s => s.Inches).ToList() is { Count: > 0 } headers)
            yield return "on NPS " + string.Join(", ", headers);
        if (parts.OfType<Gasket>().Select(g => LengthText.Say(units, $"{g.Path:gap}")).Distinct(StringComparer.Ordinal).ToList() is { Count: > 0 } thick)
            yield return string.Join(" and ", thick) + (units == Units.Inches ? " thick" : " mm thick");
        // Of what the line is made its pipe alone is known to be.
        yield return row.Item is { } listed ? listed.Material : part is PipePiece or MadeBend ? part.Material : "";
    }

    /// <summary>Studs that the list has a step longer or shorter than their joints take: the rack gives out one length, and the bags ask for the other.</summary>
    private static IEnumerable<string> OtherStuds(Fabrication f, MaterialRow row)
    {
        if (row is not { Item: { Words.Ware: Ware.StudBolt, Length: { } listed } })
            yield break;
        foreach (var other in f.Bolting.Where(b => row.UsedBy.Contains(b.Joint.Id, StringComparer.Ordinal) && b.Length > 0 && Math.Abs(b.Length - listed) is > StudRows.Same and <= MaterialCheck.StudLength).GroupBy(b => b.Length).OrderBy(g => g.Key))
            yield return LengthText.Say(f.Units, $"its list says {listed:len0} long, {QuantityPages.Names([.. other.Select(b => b.Joint.Id)])} {(other.Count() == 1 ? "takes" : "take")} {other.Key:len0}: ask which");
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
        : joint.SharesStuds ? WithOf(f, joint) : "not in the table: ask";

    /// <summary>The joint with whose studs one is bolted: the other one of the same wafer body.</summary>
    public static string WithOf(Fabrication f, Joint joint) =>
        f.Route.Joints.FirstOrDefault(j => j.Kind == JointKind.Bolted && !j.SharesStuds && j.Id != joint.Id && j.Between.Intersect(joint.Between, StringComparer.Ordinal).Any()) is { } other ? $"with {other.Id}" : "with the joint beside it";

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
                new("what", ColumnWidth.Of(36)), new("NPS", ColumnWidth.Of(17)), new("of", ColumnWidth.Of(42)), new("needed", ColumnWidth.Of(21), Anchor.End), .. isShort ? [new Column("short", ColumnWidth.Of(11), Anchor.End)] : Array.Empty<Column>(),
                new("for", ColumnWidth.Share()), new("heat, lot", ColumnWidth.Of(20)), new("out", ColumnWidth.Of(9)),
            ],
            rows.GroupBy(Group).OrderBy(g => Array.IndexOf(Groups, g.Key)).SelectMany(g => Things(g, isShort, Said.GetValueOrDefault(g.Key, "")).Prepend(new Row(g.Key) { Group = true })))
        { Style = Style, RowHeight = 5.6, LeastRowHeight = 5.2, WhenEmpty = "nothing" });
        if (bags.Count > 0)
        {
            flow.Heading("Bolting, joint by joint", 2);
            flow.Paragraph("One bag a joint: studs, nuts, gasket, the joint's name. Torque: as the bolting list says, else by the bolting procedure.", Style);
            flow.Table(new Table(
                [new("joint", ColumnWidth.Of(16)), new("between", ColumnWidth.Share()), new("studs, 2 nuts each", ColumnWidth.Of(36)), new("gasket", ColumnWidth.Of(38)), new("lot", ColumnWidth.Of(22)), new("bagged", ColumnWidth.Of(16))],
                bags.GroupBy(b => (b.Drawing, b.Revision)).SelectMany(g => g.Select(b => new Row(new Cell(b.Joint) { Bold = true }, b.Between, new Cell(b.Studs) { Bold = true }, b.Gasket, "", Cell.Box()))
                    .Prepend(new Row($"{g.Key.Drawing}, revision {g.Key.Revision}") { Group = true })))
            { Style = Style, RowHeight = 5.6, LeastRowHeight = 5.2 });
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
        .GroupBy(r => (r.What, r.Kind, r.Length, r.Size, r.Size2, r.IsLength, Units: r.IsLength ? r.Units : Units.Millimetres))
        .OrderBy(g => g.Key.What, StringComparer.Ordinal).ThenByDescending(g => g.Key.Size.Inches).ThenByDescending(g => g.Key.Size2.IsNone ? 0 : g.Key.Size2.Inches).ThenBy(g => g.Key.Length).ThenBy(g => g.Key.Kind, StringComparer.Ordinal)
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
