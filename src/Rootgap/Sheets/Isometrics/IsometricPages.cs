using System.Globalization;
using Rootgap.Fabricating;
using Rootgap.Measure;
using Rootgap.Routes;

namespace Rootgap.Sheets;

/// <summary>The isometric of a drawing as sheets: on the smaller paper where it fits, on the larger one beside its lists, or on several with match lines.</summary>
public static class IsometricPages
{
    /// <summary>Labels that the smaller paper, the larger paper beside its lists, and the larger paper alone can hold.</summary>
    private const int OnSmall = 46, BesideLists = 105, OnLarge = 135;

    private const double ListWidth = 118, Gap = 4;

    /// <param name="withLists">Whether the lists follow on a sheet of their own where there is no room beside the picture.</param>
    public static IReadOnlyList<Page> Of(ShopJob job, bool withLists) => MissingSheet.Instead(job, Title, () => Drawn(job, withLists));

    /// <summary>The picture alone, with rows written at joints.</summary>
    /// <param name="notes">By the joints' ids.</param>
    public static IReadOnlyList<Page> WithNotes(ShopJob job, string title, IReadOnlyDictionary<string, IReadOnlyList<string>> notes) => MissingSheet.Instead(job, title, () =>
    {
        var f = job.Fabrication;
        var all = DrawnLine.Everything(f);
        if (all.Count == 0)
            return [];
        var line = DrawnLine.Of(f, all, notes);
        return Single(job, job.Paper.Larger.Landscape, title, line, null) is { } alone ? [alone] : Several(job, job.Paper.Larger.Landscape, title, notes);
    });

    private const string Title = "Isometric";

    private static IReadOnlyList<Page> Drawn(ShopJob job, bool withLists)
    {
        var f = job.Fabrication;
        var all = DrawnLine.Everything(f);
        if (all.Count == 0)
            return [];
        var line = DrawnLine.Of(f, all);
        var (small, large) = (job.Paper.Landscape, job.Paper.Larger.Landscape);
        var count = Count(f);
        if (count <= OnSmall && small != large && Single(job, small, Title, line, null) is { } onSmall)
            return [onSmall, .. withLists ? Lists(job) : []];
        if (count <= BesideLists)
        {
            var lists = ListColumn(job, ListWidth);
            if (lists.Height <= Zone(job, large, Title, isSigned: false, out _).Height && Single(job, large, Title, line, lists) is { } beside)
                return [beside];
        }

        if (count <= OnLarge && Single(job, large, Title, line, null) is { } alone)
            return [alone, .. withLists ? Lists(job) : []];
        return [.. Several(job, large, Title, null), .. withLists ? Lists(job) : []];
    }

    /// <summary>One spool alone on a sheet.</summary>
    public static Page Of(ShopJob job, Spool spool)
    {
        var paper = job.Paper.Landscape;
        var title = $"Isometric of spool {spool.Name}";
        return MissingSheet.Instead(job, title, () =>
        {
            var zone = Zone(job, paper, title, isSigned: false, out var legend);
            return [Draw(job, paper, title, Isometric.Of(job.Fabrication, spool, zone.Width, zone.Height), zone, legend, null)];
        })[0];
    }

    private static int Count(Fabrication f) =>
        f.Route.Components.Count + f.Route.Joints.Count + (2 * f.Cuts.Count) + f.Spools.Count + f.Route.Runs.Count;

    private static Page? Single(ShopJob job, Paper paper, string title, DrawnLine line, Figure? lists)
    {
        var zone = Zone(job, paper, title, isSigned: lists is null, out var legend);
        if (lists is not null)
            zone = zone with { Width = zone.Width - ListWidth - Gap };
        var picture = Isometric.Of(line, zone.Width, zone.Height, Isometric.EmptyMarks);
        return picture.IsTooFull || (paper != job.Paper.Larger.Landscape && picture.IsCrowded) ? null : Draw(job, paper, title, picture.Figure, zone, legend, lists);
    }

    private static List<Page> Several(ShopJob job, Paper paper, string title, IReadOnlyDictionary<string, IReadOnlyList<string>>? notes)
    {
        var f = job.Fabrication;
        var zone = Zone(job, paper, title + " 1 of 2", isSigned: true, out var legend);
        var groups = SheetSplit.Of(f, OnLarge, ids => Isometric.Of(DrawnLine.Of(f, ids, notes), zone.Width, zone.Height, Isometric.EmptyMarks).IsTooFull);
        return
        [
            .. groups.Select((ids, i) => Draw(
                job, paper, groups.Count == 1 ? title : string.Create(CultureInfo.InvariantCulture, $"{title} {i + 1} of {groups.Count}"),
                Isometric.Of(DrawnLine.Of(f, ids, notes), zone.Width, zone.Height, Marks(f, groups, i)).Figure, zone, legend, null)),
        ];
    }

    /// <summary>What stands at the joints where a sheet ends.</summary>
    private static Dictionary<string, string> Marks(Fabrication f, List<HashSet<string>> groups, int own)
    {
        var marks = new Dictionary<string, string>(StringComparer.Ordinal);
        foreach (var joint in f.Route.Joints.Where(j => j.Between.Any(groups[own].Contains)))
        {
            if (joint.Between.FirstOrDefault(id => !groups[own].Contains(id)) is { } other)
                marks[joint.Id] = string.Create(CultureInfo.InvariantCulture, $"match line: isometric {groups.FindIndex(g => g.Contains(other)) + 1}");
        }

        return marks;
    }

    private static TitleBlock Block(ShopJob job, string title) => job.Block(title, Reader.Foreman) with { Fields = [.. job.Strip] };

    /// <param name="isSigned">Whether revision and signatures stand below the picture; beside it they stand under the lists.</param>
    private static Box Zone(ShopJob job, Paper paper, string title, bool isSigned, out Figure legend)
    {
        var area = Block(job, title).Content(paper);
        legend = Isometric.Legend(area.Width);
        var data = job.Drawing.Service.LineData(job.Drawing.Units).Select(d => $"{d.Key}: {d.Says}").ToList();
        if (data.Count > 0)
        {
            var signs = legend;
            legend = Flow.Column(area.Width, flow => flow.Paragraph(string.Join("; ", data) + ".", TextStyle.Strong with { Height = 3 }).Figure(signs));
        }

        if (isSigned)
        {
            var above = legend;
            legend = Flow.Column(area.Width, flow => Revisions(flow.Figure(above), job, blanks: 0));
        }

        return area with { Height = area.Height - legend.Height - 1 };
    }

    private static Page Draw(ShopJob job, Paper paper, string title, Figure figure, Box zone, Figure legend, Figure? lists) =>
        Page.Draw(paper, Block(job, title), (canvas, area) =>
        {
            canvas.Group(null, "isometric", Placement.Move(zone.X, zone.Y), g =>
            {
                foreach (var mark in figure.Marks)
                    g.Add(mark);
            });
            if (lists is not null)
                canvas.Group(null, "lists", Placement.Move(area.Right - ListWidth, zone.Y), g =>
                {
                    foreach (var mark in lists.Marks)
                        g.Add(mark);
                });
            canvas.Line(area.Left, zone.Bottom + 0.5, area.Right, zone.Bottom + 0.5, LineStyle.Thin);
            canvas.Group(null, "legend", Placement.Move(area.X, area.Bottom - legend.Height), g =>
            {
                foreach (var mark in legend.Marks)
                    g.Add(mark);
            });
        });

    private static IReadOnlyList<Page> Lists(ShopJob job)
    {
        var flow = new Flow(job.Paper.Landscape, job.Block("Lists to the isometric", Reader.Foreman));
        Lists(flow, job);
        return flow.Pages;
    }

    private static Figure ListColumn(ShopJob job, double width) => Flow.Column(width, flow =>
    {
        Lists(flow, job);
        flow.Heading("Revisions", 3);
        Revisions(flow, job, blanks: 3);
    });

    /// <summary>The revision of the drawing, and room to write what changed, who drew, checked and approved it.</summary>
    private static void Revisions(Flow flow, ShopJob job, int blanks) => flow.Table(new Table(
        ["rev", new("what changed", ColumnWidth.Share()), new("date", ColumnWidth.Of(18)), new("drawn", ColumnWidth.Of(17)), new("checked", ColumnWidth.Of(18)), new("approved", ColumnWidth.Of(20))],
        Enumerable.Range(0, 1 + blanks).Select(i => new Row(new Cell(i == 0 ? job.Drawing.Revision : "") { Bold = true }, "", "", "", "", "")))
    { Style = TextStyle.Small, RowHeight = 6.2 });

    /// <summary>The material list and the cut list, as they stand beside the picture.</summary>
    private static void Lists(Flow flow, ShopJob job)
    {
        var f = job.Fabrication;
        var style = TextStyle.Small;
        if (f.Materials.Count > 0)
        {
            flow.Heading("Material", 3);
            flow.Table(new Table(
                ["Item", new("What", ColumnWidth.Share()), "Size", new("Needed", Anchor.End)],
                f.Materials.Select(row => new Row(
                    row.Item is { } item ? item.Item.ToString(CultureInfo.InvariantCulture) : "–",
                    string.Join(", ", StoreRow.Kinds(f, row).Prepend(StoreRow.WhatOf(f, row)).Where(t => t.Length > 0)) + Numbers(row, f),
                    Wording.Size(row.Size, row.Size2),
                    row.IsLength ? LengthText.Pipe(f.Units, row.Needed) : row.Needed.ToString("0.##", CultureInfo.InvariantCulture))))
            { Style = style });
        }
    }

    /// <summary>What stands in no list is found by the numbers that it has on the picture.</summary>
    private static string Numbers(MaterialRow row, Fabrication f)
    {
        List<string> numbers = row.Item is not null ? [] : [.. f.Route.Components.Select(c => c.Id).Where(id => row.UsedBy.Contains(id, StringComparer.Ordinal))];
        return numbers.Count == 0 ? "" : ": " + string.Join(", ", numbers);
    }
}
