using System.Collections.Frozen;
using System.Globalization;
using Rootgap.Checks;
using Rootgap.Drawings;
using Rootgap.Findings;
using Rootgap.Measure;
using Rootgap.Papers;

namespace Rootgap.Sheets;

/// <summary>A drawing as it stands on the cover.</summary>
/// <param name="Look">What is looked at before steel is cut, and where in the drawing; empty where that is said in the words or is all of it.</param>
/// <param name="Notes">How many notes there are besides.</param>
internal sealed record CoverRow(string Drawing, string Revision, string Title, int Spools, int Pieces, int Joints, Units Units, bool IsBuildable, IReadOnlyList<(Severity Severity, string Words, string Where)> Look, int Notes)
{
    public static CoverRow Of(ShopJob job)
    {
        var f = job.Fabrication;
        var told = Told.Of(job.Findings).Where(t => t.First.AcceptedBecause is null).ToList();
        var notes = job.Findings.Where(n => n.Severity == Severity.Note && n.AcceptedBecause is null).ToLookup(n => BeforeCutting.ContainsKey(n.Rule));
        return new(
            job.Drawing.Number, job.Drawing.Revision, job.Drawing.Title, f.Spools.Count, SawRow.CountOf(f), f.Route.Joints.Count + f.Route.Attachments.Count(), job.Drawing.Units, job.IsBuildable,
            [
                .. told.Where(t => t.First.Severity != Severity.Note).Select(t => (t.First.Severity, Words(job, t), "")),
                .. notes[true].GroupBy(n => BeforeCutting[n.Rule], StringComparer.Ordinal).Select(same => (Severity.Note, same.Key, string.Join("; ", same.Select(n => Wording.Place(n, job.Drawing)).Distinct(StringComparer.Ordinal)))),
                .. Hazards.Of(job.Drawing.Service).Append(Hazards.PurgeAt(f.Route, f.Route.Joints) is null ? null : Hazards.Purge).OfType<string>().Select(c => (Severity.Warn, c, "")),
            ],
            notes[false].Count());
    }

    /// <summary>Of the rules on whose notes a cut length hangs, what the shop settles before the saw.</summary>
    private static readonly FrozenDictionary<string, string> BeforeCutting = DeskCheck.Rules.Where(r => r.BeforeCutting.Length > 0).ToFrozenDictionary(r => r.Name, r => r.BeforeCutting, StringComparer.Ordinal);

    private static string Words(ShopJob job, Told told)
    {
        var f = told.First;
        var more = told.More.Count == 0 ? "" : string.Create(CultureInfo.InvariantCulture, $" And {told.More.Count} more.");
        return $"{Wording.Place(f, job.Drawing)}: {f.Message}{(f.Otherwise.Length > 0 ? " " + f.Otherwise : "")}{more}";
    }
}

/// <summary>Who takes which pages, what to look at before steel is cut, and on which page each drawing begins.</summary>
internal static class Cover
{
    private static readonly TextStyle Style = TextStyle.Small;

    /// <param name="pages">Of each reader what he takes, his first page and how many, 0 where there are none.</param>
    /// <param name="firsts">Page of each drawing's isometric and of its first spool, by number.</param>
    public static IReadOnlyList<Page> Of(string title, IReadOnlyList<CoverRow> rows, IReadOnlyList<(Reader Reader, int First, int Count)> pages, IReadOnlyDictionary<string, (int Isometric, int Spool)> firsts, Paper paper)
    {
        var stopped = rows.Where(r => !r.IsBuildable).Select(r => r.Drawing).ToList();
        var block = new TitleBlock("", "", title)
        {
            Project = string.Create(CultureInfo.InvariantCulture, $"{Many(rows.Count, "drawing")}   {Many(rows.Sum(r => r.Spools), "spool")}   {Many(rows.Sum(r => r.Pieces), "piece")}   {Many(rows.Sum(r => r.Joints), "joint")}"),
            Notice = stopped.Count == 0 ? "" : stopped.Count > 3 ? "NOT FOR FABRICATION: drawings marked below" : "NOT FOR FABRICATION: " + string.Join(", ", stopped),
        };
        var flow = new Flow(paper.Portrait, block);
        flow.Heading("Who takes which pages", 2).Table(new Table(
            [new("reader", ColumnWidth.Of(46)), new("what", ColumnWidth.Share()), new("pages", ColumnWidth.Of(32), Anchor.Middle), new("count", ColumnWidth.Of(20), Anchor.Middle)],
            pages.Where(p => p.Count > 0).Select(p => new Row(new Cell(p.Reader.Tab()) { Bold = true }, WhatOf(p.Reader),
                new Cell(p.Count == 1 ? Whole(p.First) : $"{Whole(p.First)} – {Whole(p.First + p.Count - 1)}") { Bold = true, Height = 3.5 }, Whole(p.Count))))
        { Style = Style, RowHeight = 5.4 });
        flow.Heading("Look at these before steel is cut", 2);
        flow.Table(new Table(
            ["", "drawing", new("what", ColumnWidth.Share())],
            // What is said of several drawings is said once.
            rows.SelectMany(r => r.Look.Select(l => (r.Drawing, Look: l))).GroupBy(l => (l.Look.Severity, l.Look.Words), l => (l.Drawing, l.Look.Where)).Select(same => new Row(
                Cell.Box(), new Cell(string.Join("\n", same.Count() <= MostNamed ? same.Select(l => l.Drawing) : [$"{Whole(same.Count())} drawings"])) { Bold = true },
                same.Key.Severity == Severity.Stop ? Cell.Warn("STOP. " + same.Key.Words) : same.Key.Words + Where([.. same]))))
        { Style = Style, RowHeight = 6, WhenEmpty = "Nothing stops the job and nothing is doubtful." });
        if (rows.Sum(r => r.Notes) is > 0 and var notes)
            flow.Paragraph($"{Many(notes, "note")} besides: the desk check lists them with what to do about each.", Style);
        flow.Heading("Drawings", 2).Table(new Table(
            [new("drawing", ColumnWidth.Fit), "rev", new("what", ColumnWidth.Share()), new("spools", Anchor.Middle), new("pieces", Anchor.Middle), new("joints", Anchor.Middle), "unit", new("isom.", Anchor.Middle), new("sheet", Anchor.Middle)],
            rows.Select(r => new Row(
                r.IsBuildable ? new Cell(r.Drawing) { Bold = true } : Cell.Warn(r.Drawing + " NOT FOR FABRICATION"), r.Revision, Short(r.Title), Whole(r.Spools), Whole(r.Pieces), Whole(r.Joints), r.Units == Units.Inches ? "ft-in" : "mm",
                firsts.TryGetValue(r.Drawing, out var at) && at.Isometric > 0 ? Whole(at.Isometric) : "–", at.Spool > 0 ? Whole(at.Spool) : "–")))
        { Style = Style, RowHeight = 5.6, LeastRowHeight = 5.2 });
        flow.Paragraph("Nothing here replaces the welding procedure, the code or the site's rules. Tack welds hold nothing up: support first, cut or release last. Pressure tests: by a qualified person, to the written procedure, the area kept clear. " + ShopPages.HotWork + " " + ShopPages.Procedures, Style);
        flow.Together(f => f.LowFields(3, new Field("made by, date"), new Field("read by the foreman"), new Field("given out")));
        return flow.Pages;
    }

    /// <summary>So many drawings have their numbers below each other beside what is said of them.</summary>
    private const int MostNamed = 2;

    private static string Where(IReadOnlyList<(string Drawing, string Where)> of) => of.Count <= MostNamed && of.All(l => l.Where.Length == 0) ? ""
        : ": " + string.Join(". ", of.Select(l => of.Count == 1 ? l.Where : $"{l.Drawing} {l.Where}".TrimEnd())) + ".";

    // One line in the list: the whole title stands on the drawing's own sheets.
    private static string Short(string title)
    {
        const double Room = 75;
        if (Style.Width(title) <= Room)
            return title;
        var words = title.Split(' ');
        var count = words.Length;
        while (count > 1 && Room < Style.Width(string.Join(' ', words.Take(count)) + " …"))
            count--;
        return string.Join(' ', words.Take(count)).TrimEnd(',') + " …";
    }

    private static string WhatOf(Reader reader) => reader switch
    {
        Reader.All => "this cover",
        Reader.Foreman => "isometrics",
        Reader.Saw => "cut list, its sums",
        Reader.Store => "one list, bolting by joint",
        Reader.Fitter => "a sheet a spool, cards, templates if any",
        Reader.Inspector => "joint register, what the welds take",
        _ => "test packs, bolting",
    };

    private static string Many(int n, string what) => $"{Whole(n)} {what}{(n == 1 ? "" : "s")}";

    private static string Whole(int n) => n.ToString(CultureInfo.InvariantCulture);
}
