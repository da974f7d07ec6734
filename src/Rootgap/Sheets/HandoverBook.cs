using System.Globalization;
using Rootgap.Drawings;
using Rootgap.Fabricating;
using Rootgap.FitUp;
using Rootgap.Measure;
using Rootgap.Papers;
using Rootgap.Records;
using Rootgap.Routes;
using Rootgap.Site;
using Rootgap.Site.Closing;
using Rootgap.Site.Surveys;

namespace Rootgap.Sheets;

/// <summary>A part of the handover book of a line.</summary>
/// <param name="Missing">What is not on record, in plain sentences; empty where the part is whole.</param>
/// <param name="Explained">Why what is missing is not needed, and who said so; null where nobody did.</param>
/// <param name="Pages">At least one: where nothing is on record, a page that says so.</param>
public sealed record HandoverPart(string Title, IReadOnlyList<string> Missing, string? Explained, IReadOnlyList<Page> Pages)
{
    public bool IsComplete => Missing.Count == 0 || Explained is not null;
}

/// <summary>
/// What is handed over of a line when it is done: every part of the index filled, explained, or with a page that says what is missing. A note on the whole drawing that begins with a
/// part's title and a colon explains that part: <c>Heat treatment: none asked for by the client</c>.
/// </summary>
public sealed partial class HandoverBook
{
    private readonly JobPapers papers;
    private readonly LineDone line;
    private readonly ShopJob job;
    private readonly IReadOnlyList<WeldHistory> welds;
    private readonly IReadOnlyList<NoteTaken> notes;

    private HandoverBook(JobPapers papers, LineDone line, ShopJob job, Func<Attachment, bool>? isHere)
    {
        (this.papers, this.line, this.job, this.isHere) = (papers, line, job, isHere);
        welds = papers.WeldsOf(line);
        notes = [.. DrawingRecord.Counting(line.Done.Facts).OfType<NoteTaken>()];
        Papers = Signed(papers, line);
        signs = Papers.SelectMany(p => p.With.Select(f => (f.Id, p.Sign))).ToLookup(p => p.Id, p => p.Sign, StringComparer.Ordinal);
        Parts = [AsBuilt(), Welds(), Materials(), FitUps(), Examination(), HeatTreatment(), Lifting(), Bolting(), Test(), Release(), Open(), Attached()];
    }

    /// <summary>Titles of the parts, in their order: by these a part is explained.</summary>
    public static IReadOnlyList<string> Titles { get; } =
        ["As-built isometric", "Weld list", "Materials and certificates", "Fit-up and dimensions", "Examination", "Heat treatment", "Lifting", "Bolting", "Test", "Release", "Open points", "Pictures and papers"];

    /// <summary>After the index, in its order.</summary>
    public IReadOnlyList<HandoverPart> Parts { get; }

    public bool IsComplete => Parts.All(p => p.IsComplete);

    /// <summary>The book of one line.</summary>
    /// <param name="line">One of the papers' lines.</param>
    /// <param name="job">What its sheets are made from.</param>
    /// <param name="isHere">Whether the content of a picture or paper is there; null where that is not known.</param>
    public static HandoverBook Of(JobPapers papers, LineDone line, ShopJob job, Func<Attachment, bool>? isHere = null) => new(papers, line, job, isHere);

    /// <summary>All sheets, the index first.</summary>
    public Booklet Booklet()
    {
        var index = Index(1);
        index = Index(index.Count);
        return new($"{line.Number} handover", [.. index, .. Parts.SelectMany(p => p.Pages)]);
    }

    private IReadOnlyList<Page> Index(int own)
    {
        var flow = new Flow(job.Paper.Portrait, Block("Handover book"));
        var drawing = job.Drawing;
        var progress = Progress.Of(welds);
        flow.Fields(3, new Field("Drawing", drawing.Number), new Field("Revision", drawing.Revision), new Field("Spools", Text($"{line.Fabrication.Spools.Count}")),
            new Field("Fluid", drawing.Service.Fluid), new Field("Design pressure", drawing.Service.DesignPressure), new Field("Design temperature", drawing.Service.DesignTemperature),
            new Field("Code", drawing.Service.Code), new Field("Examination", drawing.Service.Examination), new Field("Test pressure", drawing.Service.TestPressure),
            new Field("Welds made", Text($"{progress.Made} of {progress.Welds}")), new Field("Diameter-inches", Text($"{progress.InchesMade:0.##} of {progress.Inches:0.##}")));
        flow.Heading("Index");
        var at = own + 1;
        List<Row> rows = [];
        foreach (var part in Parts)
        {
            rows.Add(new(new Cell(part.Title) { Bold = true }, Text($"{at}"), part.Missing.Count == 0 ? "complete" : part.Explained is not null ? "explained" : new Cell(Text($"{part.Missing.Count} missing")) { Alert = true },
                part.Explained ?? (part.Missing.Count == 0 ? "" : part.Missing[0] + (part.Missing.Count > 1 ? "; ..." : ""))));
            at += part.Pages.Count;
        }

        flow.Table(new Table(["Part", new("Sheet", Anchor.End), "State", new("What is missing, or why it is not needed", ColumnWidth.Share())], rows) { RowHeight = 7, Style = TextStyle.Small with { Height = 3 } });
        flow.Paragraph(IsComplete
            ? "Every part is filled or explained. The book says what is on record; whether the line is accepted is for those who sign."
            : "This book is not complete: each part says what is missing.", TextStyle.Strong);
        flow.Together(f => f.Heading("Handed over", 2).Fields(3, new Field("Contractor"), new Field("Inspector"), new Field("Client"), new Field("Date"), new Field("Date"), new Field("Date")));
        return flow.Pages;
    }

    private HandoverPart AsBuilt()
    {
        const string Title = "As-built isometric";
        var (closing, _) = SiteLine.Of(line.Fabrication) is var site ? LineClosing.Of(site, RecordedSurvey.Of(site, DrawingRecord.Counting(line.Done.Facts)).Reading.Survey) : default;
        var pages = closing is null ? [] : AsBuiltSheets.Of(job, closing.Adjustment);
        var measured = line.Fabrication.Cuts.Select(c => (c, line.Done.CutOf(c.Piece)?.Length)).Where(c => c.Length is not null).ToList();
        List<Page> all = [.. pages.Count > 0 ? pages : IsometricPages.WithNotes(job, "Isometric as drawn: nothing was measured", new Dictionary<string, IReadOnlyList<string>>(StringComparer.Ordinal))];
        List<string> missing = pages.Count > 0 ? [] : [$"{line.Number}: no face, spool or end was measured; the isometric is as drawn"];
        if (measured.Count == 0 && missing.Count == 0)
            return new(Title, missing, null, all);
        var flow = Listed("As built: lengths of the pieces");
        flow.Table(new Table(["Piece", new("As cut", Anchor.End), new("Drawn", Anchor.End), new("Off", Anchor.End)],
            measured.Select(m => new Row(new Cell(m.c.Piece) { Bold = true }, Words.Said(m.Length!.Value), Words.Said(m.c.SawLength), (m.Length > m.c.SawLength ? "+" : "") + Words.Signed(m.Length.Value - m.c.SawLength))))
        { WhenEmpty = "no piece was measured" });
        var part = Part(Title, missing, flow);
        return part with { Pages = [.. all, .. part.Pages] };
    }

    private HandoverPart Welds()
    {
        var flow = Listed("Weld list");
        flow.Table(new Table(
            ["Weld", "What", "Heats", "Fit-up seen", "Welded", "Root", "Fill", "Cap", "Procedure,\nfiller", new("Preheat", Anchor.End), new("Examined", ColumnWidth.Share()), "Heat\ntreated", "State"],
            welds.Select(w => new Row(
                new Cell(w.Name) { Bold = w.IsNow }, $"{Wording.Of(w.Joint.Kind)}, {(w.IsField ? "site" : "shop")}\nNPS {w.Joint.Size} × {Wall(w.Joint.Wall)}", string.Join("\n", w.Heats.Select(h => $"{h.Part}: {h.Heat ?? "–"}")),
                w.FitUp is { } f ? $"{Day(f.Time)}\n{f.Who}{Signs(f)}" : "–", w.Welded is { } at ? $"{Day(at)}{string.Concat(w.Made.Select(Signs))}" : "–", Stamps(w, Pass.Root), Stamps(w, Pass.Fill), Stamps(w, Pass.Cap),
                $"{Some(w.Made.Select(m => m.Procedure))}\n{Some(w.Made.Select(m => m.Filler))}", w.Made.LastOrDefault(m => m.Preheat is not null)?.Preheat is { } c ? Text($"{c:0.#} °C") : "–",
                string.Join("\n", w.Examinations.Select(e => $"{PaperWords.Of(e.Method)} {(e.IsAccepted ? "accepted" : "rejected")}{(e.Report is { } r ? $", {r}" : "")}")), w.Treated?.Chart ?? "", w.State == WeldState.Rejected ? Cell.Warn("rejected") : PaperWords.Of(w.State))))
        { Style = TextStyle.Small });
        flow.Paragraph("A weld that was repaired or cut out keeps its own row; the one in bold stands there now.", TextStyle.Small);
        if (Progress.Of(welds) is { Days.Count: > 0 } progress)
            flow.Together(f => f.Heading("Welded, day by day", 2).Figure(ProgressPicture.Figure(progress)));
        List<string> missing = [.. welds.Where(w => w is { IsNow: true, IsMade: false }).SelectMany(w => w.Missing), .. welds.Where(w => w is { IsMade: true, IsNow: true } && w.Welders.Count == 0).Select(w => $"{w.Name}: nobody noted who welded it")];
        return Part("Weld list", missing, flow);
    }

    private HandoverPart Materials()
    {
        var uses = papers.Heats.Where(h => h.Line == line).ToList();
        var flow = Listed("Materials with heats and certificates");
        flow.Table(new Table(["Spool", "Part", new("What", ColumnWidth.Share()), "NPS", "Schedule", "Material", "Heat", new("Certificates", ColumnWidth.Share())],
            uses.Select(u => new Row(u.Spool.Length > 0 ? u.Spool : "–", new Cell(u.Part) { Bold = true }, u.What, u.Size.ToString(), u.Schedule, u.Material, u.Heat is { } heat ? heat : Cell.Warn("not noted"),
                u.Certificates.Count > 0 ? string.Join("; ", u.Certificates.Select(c => c.Number + (c.Type is { } type ? $" ({type})" : "") + Signs(c))) : "–")))
        { Style = TextStyle.Small });
        flow.Heading("Where each heat went", 2).Table(new Table(["Heat", new("Parts, with their spool", ColumnWidth.Share())],
            uses.Where(u => u.Heat is not null).GroupBy(u => u.Heat!, StringComparer.OrdinalIgnoreCase).OrderBy(g => g.Key, StringComparer.Ordinal)
                .Select(g => new Row(new Cell(g.Key) { Bold = true }, string.Join(", ", g.Select(u => u.Part + (u.Spool.Length > 0 ? $" (spool {u.Spool})" : ""))))))
        { Style = TextStyle.Small });
        List<string> missing =
        [
            .. uses.Where(u => u.Heat is null).Select(u => $"{u.Part}: no heat number"),
            .. uses.Where(u => u.Heat is not null && u.Certificates.Count == 0).Select(u => u.Heat!).Distinct(StringComparer.OrdinalIgnoreCase).Select(h => $"heat {h}: no certificate"),
            .. Heats.Against(uses).Select(f => f.Message),
        ];
        return Part("Materials and certificates", missing, flow);
    }

    private HandoverPart FitUps()
    {
        var flow = Listed("Fit-up and dimensions");
        List<string> missing = [];
        flow.Heading("Fit-ups seen", 2).Table(new Table(["Weld", "Seen", "By", new("Gap", Anchor.End), new("Hi-lo", Anchor.End), "Result", new("Note", ColumnWidth.Share())],
            welds.Where(w => w.FitUp is not null).Select(w => new Row(new Cell(w.Name) { Bold = true }, Day(w.FitUp!.Time), w.FitUp.Who, Short(w.FitUp.Gap), Short(w.FitUp.HiLo), w.FitUp.IsRefused ? Cell.Warn("refused") : "accepted", (w.FitUp.Note ?? "") + Signs(w.FitUp))))
        { Style = TextStyle.Small });
        var overs = line.Fabrication.Route.Joints.SelectMany(j => GoingOver.Of(line.Done.Readings[j.Id]).Where(o => o.Counting.Count > 0)).ToList();
        flow.Heading("Readings at the joints", 2).Table(new Table(["Joint", "Read", "By", "State", new("Readings", ColumnWidth.Share())],
            overs.Select(o => new Row(new Cell(o.Joint) { Bold = true }, Day(o.Ended), o.Who, o.IsWelded ? "welded" : "tacked", string.Join("; ", o.Counting.Select(r => $"{r.Taken.Reading.Name}{(r.Taken.Reading.Position is { } at ? Text($" {at}") : "")} {Words.Told(r.Taken.Reading, r.Taken.Value)}")))))
        { Style = TextStyle.Small });
        var read = overs.Select(o => o.Joint).ToHashSet(StringComparer.OrdinalIgnoreCase);
        missing.AddRange(welds.Where(w => w is { IsNow: true, IsMade: true, Mark.Repair: 0, FitUp: null } && !read.Contains(w.Joint.Id)).Select(w => $"{w.Name}: no fit-up seen or read"));
        var fit = new FitJoints(line.Fabrication);
        foreach (var spool in line.Fabrication.Spools)
        {
            var check = FinalCheck.Welded(fit.OfSpool(spool));
            var kept = SpoolGoneOver.Of(check, DrawingRecord.Counting(line.Done.SpoolReadings[spool.Name].Where(e => e.Counts).Select(e => e with { Fact = e.As })));
            if (kept.Count == 0)
            {
                missing.Add($"spool {spool.Name}: no final check after welding");
                continue;
            }

            flow.Heading($"Spool {spool.Name} from end to end", 2).Table(new Table([new("Reading", ColumnWidth.Share()), new("Drawn", Anchor.End), new("Allowed", Anchor.End), new("Found", Anchor.End), "Result", "By", "Date"],
                kept.Select(k => (k, Target: check.Targets.FirstOrDefault(t => t.Reading.Equals(k.Taken.Reading)))).Select(x => new Row(
                    x.k.Taken.Reading.Text, x.Target is { } t ? Value(t.Reading.IsAngle, t.Value) : "–", x.Target is { } a ? "± " + Value(a.Reading.IsAngle, a.Allow) : "–", new Cell(Value(x.k.Taken.Reading.IsAngle, x.k.Taken.Value)) { Bold = true },
                    x.Target is { } b ? b.Allows(x.k.Taken.Value) ? "within" : Cell.Warn("outside") : "–", x.k.Fact.Who, Day(x.k.Fact.Time))))
            { Style = TextStyle.Small });
        }

        return Part("Fit-up and dimensions", missing, flow);
    }

    private HandoverPart Examination()
    {
        var flow = Listed("Examination");
        var rule = AskedRule.Of(job.Drawing.Service.Examination);
        var lots = papers.Lots.Where(l => l.Welds.Any(w => w.Weld.Line == line)).ToList();
        flow.Heading("Results", 2).Table(new Table(["Weld", "Welders", "Method", new("Extent", Anchor.End), "Result", "Report", new("Found", ColumnWidth.Share()), new("Rejected length", Anchor.End), "By", "Date"],
            welds.SelectMany(w => w.Examinations.Select(e => new Row(new Cell(w.Name) { Bold = true }, string.Join(" + ", w.Welders), PaperWords.Of(e.Method), Text($"{e.Extent:0.#} %"), e.IsAccepted ? "accepted" : Cell.Warn("rejected"), (e.Report ?? "–") + Signs(e), e.Found ?? "", e.RejectedLength is { } mm ? Words.Said(mm) : "–", e.Who, Day(e.Time)))))
        { Style = TextStyle.Small });
        foreach (var lot in lots)
        {
            flow.Heading($"Lot {lot.Name}", 2).Paragraph(Text($"{PaperWords.Of(lot.Method)}, {lot.Share:0.##} % of each welder's butt welds; seed {lot.Seed}, {lot.NextRound} {(lot.NextRound == 1 ? "draw" : "draws")}; {lot.Welds.Count} welds, {lot.Welds.Count(w => w.IsDrawn)} drawn. Drawn by SplitMix64 from the seed; docs/record.md says how to repeat it."), TextStyle.Small);
            flow.Table(new Table(["Weld", "Welders", "At", new("Why", ColumnWidth.Share()), "Result"],
                lot.Welds.Where(w => w.IsDrawn).Select(w => new Row(new Cell(w.Name) { Bold = true }, string.Join(" + ", w.Welders), w.IsField ? "site" : "shop", Lot.Says(w), lot.ResultOf(w))))
            { Style = TextStyle.Small });
        }

        flow.Heading("Welders", 2).Table(new Table(["Stamp", new("Welds", Anchor.End), "Method", new("Examined", Anchor.End), new("Rejected", Anchor.End), new("In welds", Anchor.End), new("In length", Anchor.End), new("Note", ColumnWidth.Share())],
            WelderRate.Of(welds).Select(r => new Row(new Cell(r.Welder) { Bold = true }, Text($"{r.Welds}"), r.Method is { } m ? PaperWords.Of(m) : "–", Text($"{r.Examined}"), Text($"{r.Rejected}"),
                r.Rate is { } a ? Text($"{a:0.0} %") : "–", r.LengthRate is { } b ? Text($"{b:0.00} %") : "–", r.WithoutLength > 0 ? Text($"{r.WithoutLength} rejected without a length") : "")))
        { Style = TextStyle.Small });
        var stamps = welds.SelectMany(w => w.Welders).Distinct(StringComparer.OrdinalIgnoreCase).Order(StringComparer.OrdinalIgnoreCase).ToList();
        if (!papers.Welders.IsEmpty && stamps.Count > 0)
        {
            flow.Heading("Welders' list", 2).Table(new Table(["Stamp", "Name", new("Procedures", ColumnWidth.Share()), "Qualified until"],
                stamps.Select(s => (s, On: papers.Welders.Find(s))).Select(x => new Row(new Cell(x.s) { Bold = true }, x.On?.Name ?? "–", x.On is null ? Cell.Warn("not on the list") : x.On.Procedures.Count > 0 ? string.Join(", ", x.On.Procedures) : "–",
                    x.On?.Until is { } until ? until.ToString("yyyy-MM-dd", CultureInfo.InvariantCulture) : "–")))
            { Style = TextStyle.Small });
        }

        List<string> missing = [.. welds.Where(w => w.IsMade).SelectMany(w => w.Missing), .. lots.SelectMany(l => l.Asks.Select(a => Text($"lot {l.Name}: {(a.IsAll ? "all" : a.Count.ToString(CultureInfo.InvariantCulture))} of {a.Welder}'s welds to be drawn{(a.For.Length > 0 ? $", asked for by {a.For}" : "")}")))];
        if (rule.Share is { } share and < 100 && lots.Count == 0)
            missing.Add(Text($"{line.Number}: {share:0.##} % of each welder's butt welds asked for, and no lot is drawn"));
        if (rule.Share is null && welds.All(w => w.Examinations.Count == 0))
            missing.Add($"{line.Number}: the drawing says no share of welds, and nothing was examined");
        return Part("Examination", missing, flow);
    }

    private HandoverPart HeatTreatment()
    {
        var flow = Listed("Heat treatment");
        var treated = welds.Where(w => w.Treated is not null).ToList();
        var isAsked = job.Drawing.Shop.HoldPoints.Any(h => h.Needs == "heat treated" || h.Before == "heat treated");
        if (treated.Count == 0 && !isAsked)
            flow.Paragraph("None is on record, and the shop's hold points ask for none. Whether the code asks for it is the engineer's word.");
        flow.Table(new Table(["Weld", "Chart", new("Temperature", Anchor.End), new("Time", Anchor.End), "By", "Date", new("Note", ColumnWidth.Share())],
            treated.Select(w => new Row(new Cell(w.Name) { Bold = true }, w.Treated!.Chart + Signs(w.Treated), w.Treated.Temperature is { } c ? Text($"{c:0.#} °C") : "–", w.Treated.Minutes is { } m ? Text($"{m:0.#} min") : "–", w.Treated.Who, Day(w.Treated.Time), w.Treated.Note ?? ""))));
        return Part("Heat treatment", isAsked ? [.. welds.Where(w => w is { IsNow: true, IsMade: true, Treated: null }).Select(w => $"{w.Name}: not heat treated")] : [], flow);
    }

    private HandoverPart Lifting()
    {
        var lifted = line.Fabrication.Spools.Where(s => Lift.IsAsked(line.Fabrication, s)).Select(s => (Spool: s, Lift: Lift.Of(line.Fabrication, s))).ToList();
        var units = job.Drawing.Units;
        var flow = new Flow(job.Paper.Portrait, Block("Lifting"));
        flow.Table(new Table(["Spool", new("Mass", Anchor.End), new("With a tenth more", Anchor.End), new("Slings", Anchor.End), new("How it hangs", ColumnWidth.Share())],
            lifted.Select(x => new Row(new Cell(x.Spool.Name) { Bold = true }, LiftWords.Mass(units, x.Spool.Mass) + (x.Spool.Unweighed.Count > 0 ? " +" : ""), LiftWords.Mass(units, x.Lift.Mass), Text($"{x.Lift.Holds.Count}"), LiftWords.Of(x.Lift, units).FirstOrDefault() ?? "level, as drawn")))
        { Style = TextStyle.Small, WhenEmpty = $"no spool of the line weighs {LiftWords.Mass(units, Lift.From)} or more" });
        foreach (var (spool, _) in lifted)
            MissingSheet.Instead(flow, $"Spool {spool.Name}: lifting", f => f.Space(4).Figure(LiftPages.Framed(job, spool, f.Width)));
        return Part("Lifting",
        [
            .. lifted.Where(x => x.Spool.Unweighed.Count > 0).Select(x => $"spool {x.Spool.Name}: its mass is without {string.Join(", ", x.Spool.Unweighed)}"),
            .. lifted.Where(x => x.Lift.Holds.Count == 0).Select(x => $"spool {x.Spool.Name}: no places for slings; a rigger says how it is slung"),
            .. lifted.Where(x => (!x.Lift.IsHeld && x.Lift.TurnsOver) || x.Lift.IsOutside).Select(x => $"spool {x.Spool.Name}: it turns over or swings out in these slings"),
        ], flow);
    }

    private HandoverPart Bolting()
    {
        var joints = line.Fabrication.Route.Joints.Where(j => j.Kind == JointKind.Bolted).Select(j => (j, Ups: line.Done.Counting<BoltedUp>(j.Id).ToList(), Up: line.Done.Counting<BoltedUp>(j.Id).LastOrDefault())).ToList();
        var flow = Listed("Bolting");
        // One row each time it was made up: what was done before a test stays beside what was done after it.
        flow.Table(new Table(["Joint", "NPS", "Class", new("Between", ColumnWidth.Share()), "Gasket", "Lubricant", "Tool", new("Passes", ColumnWidth.Share()), "By", "Date"],
            joints.SelectMany(x => x.Ups.DefaultIfEmpty().Select(up => new Row(new Cell(x.j.Id) { Bold = true }, x.j.Size.ToString(), x.j.Class, Wording.Between(line.Fabrication, x.j), up?.Gasket ?? "–", up?.Lubricant ?? "–", up?.Tool ?? "–",
                up is { Passes.Count: > 0 } ? string.Join("; ", up.Passes.Select(p => $"{p.Name} {p.Value}")) : "–", up is null ? "–" : up.Who + Signs(up), up is null ? "–" : Day(up.Time)))))
        { Style = TextStyle.Small, WhenEmpty = "the line has no bolted joint" });
        // What was opened for the test is made up again after it, with a new gasket.
        var opened = Pack.Opened.Select(b => b.Joint.Id).ToHashSet(StringComparer.Ordinal);
        var tested = line.Tests() is [.., var last] ? last.Time : null as DateTimeOffset?;
        return Part("Bolting",
        [
            .. joints.Where(x => x.Up is null).Select(x => $"{x.j.Id}: not bolted up on record"),
            .. joints.Where(x => x.Up is { } up && opened.Contains(x.j.Id) && up.Time < tested).Select(x => $"{x.j.Id}: opened for the test, and not bolted up since with a new gasket"),
        ], flow, MissingSheet.Instead(job, "Bolting, joint by joint", () => BoltingPages.Of(job, joint => line.Done.Counting<BoltedUp>(joint).LastOrDefault())));
    }

    private HandoverPart Test()
    {
        var tests = line.Tests();
        var flow = Listed("Test");
        flow.Table(new Table(["Pack", "Medium", new("Pressure", Anchor.End), "From", "To", "Gauges", "Result", "By", new("Note", ColumnWidth.Share())],
            tests.Select(t => new Row(new Cell(t.Pack) { Bold = true }, FactJson.WordOf(t.Medium), Amount.Say(Quantity.Pressure, t.Pressure, job.Drawing.Units), Minute(t.From), Minute(t.To), t.Gauges.Count > 0 ? string.Join("; ", t.Gauges) : "–", t.HasPassed ? "passed" : Cell.Warn("failed"), t.Who, (t.Note ?? "") + Signs(t))))
        { Style = TextStyle.Small });
        var marked = line.Done.Marked.Where(m => m.Entry.Fact is Tested).ToList();
        foreach (var mark in marked)
            flow.Warning($"The test of pack {((Tested)mark.Entry.Fact).Pack} was made before the drawing changed ({string.Join("; ", mark.Why)}): somebody who may must say whether it holds.", "Test before a change");
        flow.Paragraph($"The sheets of the pack follow: limits, heads, vents and drains, record, punch list, what is put back.", TextStyle.Small);
        return Part("Test", line.IsTested() ? [] : [marked.Count > 0 ? $"{line.Number}: tested before the drawing changed" : tests.Count > 0 ? $"{line.Number}: the last test failed" : $"{line.Number}: no test on record"], flow, TestPackPages.Of(job, Together, tests is [.., var done] ? new(done, joint => line.Done.Counting<BoltedUp>(joint).LastOrDefault(b => b.Time > done.Time)) : null));
    }

    private HandoverPart Release()
    {
        var spools = line.Fabrication.Spools.Select(s => (s, By: line.Done.Counting<Released>($"spool {s.Name}").LastOrDefault())).ToList();
        var flow = Listed("Release of the spools");
        flow.Table(new Table(["Spool", new("Mass", Anchor.End), "Released", "By", new("Missing and taken on", ColumnWidth.Share(2)), new("Why, and by whom", ColumnWidth.Share())],
            spools.Select(x => new Row(new Cell(x.s.Name) { Bold = true }, LiftWords.Mass(job.Drawing.Units, x.s.Mass), x.By is { } r ? Day(r.Time) + Signs(r) : "–", x.By?.Who ?? "–", x.By?.Deviation is { } d ? string.Join("; ", d.Missing) : "", x.By?.Deviation is { } e ? $"{e.Why} ({e.By})" : ""))));
        return Part("Release", [.. spools.Where(x => x.By is null).Select(x => $"spool {x.s.Name}: not released")], flow);
    }

    private HandoverPart Open()
    {
        var flow = Listed("Open points");
        var deviations = DrawingRecord.Counting(line.Done.Facts).Where(f => f.Deviation is not null).ToList();
        flow.Heading("Deviations that somebody took on", 2).Table(new Table(["At", "Step", new("Missing", ColumnWidth.Share(2)), new("Why", ColumnWidth.Share()), "Taken on by", "Done by", "Date"],
            deviations.Select(f => new Row(new Cell(DrawingRecord.NameOf(f)) { Bold = true }, f is JointStep s ? PaperWords.Of(s.Step) : f.Kind.Replace('-', ' '), string.Join("; ", f.Deviation!.Missing), f.Deviation.Why, f.Deviation.By, f.Who, Day(f.Time))))
        { Style = TextStyle.Small });
        var findings = papers.Findings.Where(f => f.At.ToString().StartsWith(line.Number + " ", StringComparison.Ordinal)).ToList();
        flow.Heading("What does not fit", 2).Table(new Table([new("What", ColumnWidth.Share(2)), new("What to do", ColumnWidth.Share())], findings.Select(f => new Row(f.Message, f.Remedy))) { Style = TextStyle.Small });
        flow.Heading("Entries to be looked at since the drawing changed", 2).Table(new Table(["Entry", new("What", ColumnWidth.Share()), "By", "Date"],
            line.Done.Marked.Select(m => new Row(new Cell(m.Was) { Bold = true }, m.Says(Day), m.Entry.Fact.Who, Day(m.Entry.Fact.Time))))
        { Style = TextStyle.Small });
        flow.Heading("Notes", 2).Table(new Table(["At", new("Note", ColumnWidth.Share()), "By", "Date"],
            notes.Select(n => new Row(new Cell(n.About.Length > 0 ? n.About : "line") { Bold = true }, (n.Note ?? "") + Signs(n), n.Who, Day(n.Time))))
        { Style = TextStyle.Small });
        return Part("Open points", [.. findings.Select(f => f.Message), .. line.Done.Marked.Select(m => $"{m.Was}: {m.Says(Day)}")], flow);
    }

    // Drawings of one pack are filled together.
    private IReadOnlyList<Fabrication> Together =>
        [.. papers.Lines.Where(l => l == line || (job.Drawing.Test.Pack.Length > 0 && l.Fabrication.Route.Drawing.Test.Pack.Equals(job.Drawing.Test.Pack, StringComparison.OrdinalIgnoreCase))).Select(l => l == line ? job.Fabrication : l.Fabrication)];

    private TestPack Pack => TestPack.Of(job.Fabrication, Together);

    private HandoverPart Part(string title, List<string> missing, Flow flow, params IReadOnlyList<Page> sheets)
    {
        var explained = Explanation(title);
        if (missing.Count > 0)
        {
            flow.Heading(explained is null ? "Missing" : "Not on record, and why not", 2);
            if (explained is not null)
                flow.Paragraph(explained);
            flow.Bullets(Grouped(missing));
        }

        return new(title, missing, explained, [.. flow.Pages, .. sheets]);
    }

    // What is said of many is said once: not welded (3): W5, W6, W7.
    private static IEnumerable<string> Grouped(IReadOnlyList<string> missing)
    {
        foreach (var same in missing.Select(m => (All: m, At: m.IndexOf(": ", StringComparison.Ordinal))).GroupBy(m => m.At > 0 ? m.All[(m.At + 2)..] : m.All, StringComparer.Ordinal))
        {
            if (same.Count() >= 3 && same.All(m => m.At > 0))
                yield return Text($"{same.Key} ({same.Count()}): {string.Join(", ", same.Select(m => m.All[..m.At]))}");
            else
                foreach (var one in same)
                    yield return one.All;
        }
    }

    private string? Explanation(string title) =>
        notes.LastOrDefault(n => n.About.Length == 0 && n.Note?.StartsWith(title + ":", StringComparison.OrdinalIgnoreCase) == true) is { } note ? $"{note.Note![(title.Length + 1)..].Trim()} ({note.Who}, {Day(note.Time)})" : null;

    private Flow Listed(string title) => new(job.Paper.Landscape, Block(title));

    private TitleBlock Block(string title) => new(job.Drawing.Number, job.Drawing.Revision, title) { Project = job.Drawing.Title };

    private string Value(bool isAngle, double value) => isAngle ? Text($"{Angles.ToDegrees(value):0.00}°") : Words.Said(value);

    private string Short(double? mm) => mm is { } v ? Words.Small(v) : "–";

    private FitWords Words => FitWords.In(job.Drawing.Units);

    private string Wall(double mm) => job.Drawing.Units == Units.Inches ? Text($"{mm / LengthText.Inch:0.000}\"") : LengthText.Millimetres(mm, 2) + " mm";

    private static string Stamps(WeldHistory weld, Pass pass) => weld.WhoMade(pass) is { Count: > 0 } who ? string.Join(" + ", who) : "–";

    private static string Some(IEnumerable<string?> words) => string.Join("; ", words.OfType<string>().Where(w => w.Length > 0).Distinct(StringComparer.Ordinal)) is { Length: > 0 } text ? text : "–";

    private static string Day(DateTimeOffset time) => time.UtcDateTime.ToString("yyyy-MM-dd", CultureInfo.InvariantCulture);

    private static string Minute(DateTimeOffset? time) => time?.UtcDateTime.ToString("yyyy-MM-dd HH:mm'Z'", CultureInfo.InvariantCulture) ?? "–";

    private static string Text(FormattableString text) => text.ToString(CultureInfo.InvariantCulture);
}
