using Rootgap.Drawings;
using Rootgap.Fabricating;
using Rootgap.Measure;
using Rootgap.Papers;
using Rootgap.Routes;
using Rootgap.Standards;
using System.Globalization;

namespace Rootgap.Sheets;

/// <summary>The sheets of one spool: what it looks like, its pieces and parts, true-scale views, what to measure, how flanges and branches are turned, its joints.</summary>
internal static class SpoolPages
{
    private const double WriteIn = 9;

    /// <summary>Parts of a spool that views can show: beyond, no label finds room, and looking for it takes hours. A spool that can be carried has a few dozen.</summary>
    internal const int MostDrawn = 160;

    private static readonly TextStyle Dense = TextStyle.Small with { Height = 3 };

    public static IEnumerable<Page> Of(ShopJob job)
    {
        var fitting = new FitUp.FitJoints(job.Fabrication);
        return job.Fabrication.Spools.SelectMany(s => (IEnumerable<Page>)
        [
            .. MissingSheet.Instead(job, $"Spool {s.Name}", () => One(job, s)),
            .. MissingSheet.Instead(job, $"Spool {s.Name}: lifting", () => LiftPages.Of(job, s)),
            .. MissingSheet.Instead(job, $"Spool {s.Name}: fit-up", () => FitUpPages.Of(job, fitting, s)),
        ]);
    }

    internal static IReadOnlyList<Page> One(ShopJob job, Spool spool)
    {
        var f = job.Fabrication;
        var block = job.Block($"Spool {spool.Name}");
        var flow = new Flow(job.Paper, block);
        var parts = spool.Components.Count + spool.Cuts.Count;
        if (parts <= MostDrawn)
            flow.Figure(Isometric.Of(f, spool, flow.Width, parts > 5 ? 110 : 85));
        else
            flow.Paragraph(string.Create(CultureInfo.InvariantCulture, $"This spool has {parts} parts: too many for views of it on one sheet. Part it by field welds; its lines are on the isometric of the drawing."), TextStyle.Strong);
        KeyFigures(flow, f, spool);
        Pieces(flow, f, spool);
        var subject = new ViewSubject(f, spool);
        if (parts <= MostDrawn)
        {
            var (views, keyedList) = ViewSheet.Of(subject, flow.Width, block.Content(job.Paper).Height, flow.Remaining - 4);
            flow.Figure(views);
            if (keyedList.Count > 0)
                flow.Paragraph("No room on the views: " + string.Join("; ", keyedList) + ".", TextStyle.Small);
        }

        flow.Together(x => CheckDimensions(x, f, spool, subject));
        Supports(flow, f, spool, subject);
        Flanges(flow, f, spool, subject);
        flow.Together(x => Turns(x, PartTurn.Of(f, spool), job.Drawing.Units));
        TakeOffs(flow, spool, job.Drawing.Units);
        Joints(flow, f, spool);
        AfterWelding(flow, job, spool);
        return flow.Pages;
    }

    private static string Unit(Units units) => units == Units.Inches ? "" : "mm";

    private static void KeyFigures(Flow flow, Fabrication f, Spool spool)
    {
        flow.Fields(4,
            new Field("Mass", Wording.Kg(spool.Mass), "kg"),
            new Field("Box east x north x up", string.Join(" x ", new[] { spool.Box.X, spool.Box.Y, spool.Box.Z }.Select(v => LengthText.In(f.Units, v))), Unit(f.Units)),
            new Field("Centre of mass from the box's west, south, low corner", string.Join(", ", new[] { spool.CentreOfMass.X - spool.BoxFrom.X, spool.CentreOfMass.Y - spool.BoxFrom.Y, spool.CentreOfMass.Z - spool.BoxFrom.Z }.Select(v => f.Units == Units.Inches ? LengthText.FeetInches(v) : LengthText.WholeMillimetres(v))), Unit(f.Units)),
            new Field("Paint / content", $"{(spool.PaintArea / 1e6).ToString("0.00", CultureInfo.InvariantCulture)} m² / {(spool.Content / 1e6).ToString("0.0", CultureInfo.InvariantCulture)} l"));
        flow.Paragraph(LiftWords.LeavesOut(f, spool), spool.Unweighed.Count > 0 ? TextStyle.Strong : TextStyle.Small);
        flow.Paragraph(LiftWords.Line, TextStyle.Small);
        foreach (var caution in Hazards.Of(f.Route.Drawing.Service).Append(Hazards.PurgeAt(f.Route, spool.Joints)).OfType<string>())
            flow.Paragraph(caution, TextStyle.Strong with { Height = 3 });
    }

    private static void Pieces(Flow flow, Fabrication f, Spool spool)
    {
        static string Item(MaterialItem? item, bool isGuessed) => item is null ? "–" : item.Item.ToString(CultureInfo.InvariantCulture) + (isGuessed ? " *" : "");
        var heads = Wording.Heads(f.Units, "Saw");
        flow.Table(new Table(
            ["Piece", "Item", "NPS", new(heads.Own, Anchor.End), new(heads.Other, Anchor.End), new("Ends", ColumnWidth.Share()), new("Heat number", ColumnWidth.Of(34)), "Done"],
            spool.Cuts.Select(c => new Row(
                new Cell(c.Piece) { Bold = true }, Item(c.Pipe.Item, c.Pipe.IsItemGuessed), c.Pipe.Size.ToString(), new Cell(Wording.Both(f.Units, c.SawLength).Own) { Bold = true }, Wording.Both(f.Units, c.SawLength).Other,
                $"{ShopPages.Ends(c)}{(c.Extra > 0 ? $"; {LengthText.In(f.Units, c.Extra)} final-fit extra in it" : "")}{(c.Saddle > 0 ? $"; {LengthText.In(f.Units, c.Saddle)} saddle in it" : "")}", "", Cell.Box())
            { Id = $"piece-{c.Piece}" }))
        { RowHeight = WriteIn, Style = Dense, WhenEmpty = "no pipe" });
        flow.Table(new Table(
            ["Part", "Item", new("What", ColumnWidth.Share()), "NPS", new("kg", Anchor.End), new("Heat number", ColumnWidth.Of(34)), "Done"],
            spool.Components.Select(c => new Row(
                new Cell(c.Id) { Bold = true }, Item(c.Item, c.IsItemGuessed), Wording.Of(c), Wording.Size(c),
                f.Masses.TryGetValue(c.Id, out var m) ? Wording.Kg(m.Kg) : "?", "", Cell.Box())
            { Id = $"part-{c.Id}" }))
        { RowHeight = WriteIn, Style = Dense, WhenEmpty = "no fittings" });
    }

    private static void CheckDimensions(Flow flow, Fabrication f, Spool spool, ViewSubject subject)
    {
        var units = subject.Units;
        var checks = CheckDimension.Of(f, spool, subject.Ends);
        if (checks.Count == 0)
            return;
        var (tolerance, source) = CheckDimension.ToleranceOf(f, spool);
        var hasExtra = checks.Any(c => c.HasExtra);
        flow.Heading("Check dimensions, from end to end", 2);
        flow.Paragraph(string.Join("; ", subject.Ends.Select(e => $"{e.Name}: {e.Says}, facing {BoltCircle.NameOf(e.Face)}{(e.Extra > 0 ? $" (+ {LengthText.In(units, e.Extra)} extra)" : "")}")) + ". Middle to middle. "
            + $"Tolerance ± {LengthText.In(units, tolerance)} each, not adding up ({source})."
            + (hasExtra ? " Where final-fit extra stands on an end, the last figure is what the tape reads before trimming." : ""), TextStyle.Small);
        flow.Table(new Table(
            ["From – to", new("E / W", Anchor.End), new("N / S", Anchor.End), new("Up / down", Anchor.End), new("Straight", Anchor.End), .. hasExtra ? new Column[] { new("With extra", Anchor.End) } : [], new("±", Anchor.End), new("Measured", ColumnWidth.Share())],
            checks.Select(c => new Row([
                new Cell($"{c.From.Name} – {c.To.Name}") { Bold = true },
                Toward(c.Way.X, "E", "W"), Toward(c.Way.Y, "N", "S"), Toward(c.Way.Z, "up", "down"),
                new Cell(LengthText.In(units, c.Way.Length)) { Bold = true },
                .. hasExtra ? new Cell[] { c.HasExtra ? LengthText.In(units, c.InShop.Length) : "" } : [],
                LengthText.In(units, c.Tolerance), ""])
            { Class = "check" }))
        { RowHeight = WriteIn, Style = Dense });

        Cell Toward(double mm, string plus, string minus) => Math.Abs(mm) < 0.05 ? "0" : $"{LengthText.In(units, Math.Abs(mm))} {(mm > 0 ? plus : minus)}";
    }

    /// <summary>Where supports are marked and welded on: from an end of their piece, and from an end of the spool that lies in line.</summary>
    private static void Supports(Flow flow, Fabrication f, Spool spool, ViewSubject subject)
    {
        var units = subject.Units;
        var mine = f.Route.Supports.Where(s => spool.Cuts.Any(c => c.Pipe.Id == s.Pipe)).ToList();
        if (mine.Count == 0)
            return;
        flow.Together(x => x.Heading("Supports: mark their middles", 2).Table(new Table(
            ["Support", "Item", new("What", ColumnWidth.Share()), "Side", new("On the piece", ColumnWidth.Share()), new("From an end", Anchor.End), "Weld", new("kg", Anchor.End), "Done"],
            mine.Select(s =>
            {
                var cut = spool.Cuts.First(c => c.Pipe.Id == s.Pipe);
                return new Row(
                    new Cell(s.Tag) { Bold = true }, s.Item is { } item ? item.Item.ToString(CultureInfo.InvariantCulture) + (s.IsItemGuessed ? " *" : "") : "–",
                    s.Name + (s.Weld is null ? ", clamped at site" : s.IsOfSpool ? ", welded" : ", welded at site"), Wording.SideOf(s),
                    $"{cut.Piece}: {LengthText.In(units, (s.At - cut.Reach.Start).Dot(cut.Pipe.Direction))} from its start", FromEnd(s, subject), s.Weld?.Id ?? "",
                    s.IsOfSpool ? s.Mass is { } m ? Wording.Kg(m.Kg) : "?" : "", Cell.Box())
                { Id = $"support-{s.Id}" };
            }))
        { RowHeight = WriteIn, Style = Dense }));
    }

    /// <summary>From the nearest end of the spool in line with the support's pipe; empty where none is.</summary>
    private static string FromEnd(Support s, ViewSubject subject)
    {
        var end = subject.Ends.Where(e => Math.Abs(e.Face.Dot(s.Along)) > 0.9999 && (e.At - s.At).SquareTo(s.Along).Length < 1).MinBy(e => e.At.To(s.At));
        return end is null ? "" : $"{end.Name}: {LengthText.In(subject.Units, end.InShop.To(s.At))}";
    }

    private static void Flanges(Flow flow, Fabrication f, Spool spool, ViewSubject subject)
    {
        var circles = spool.Components.OfType<Flange>().Select(c => (Flange: c, Circle: BoltCircle.Of(c))).ToList();
        if (circles.Count == 0)
            return;
        const int Across = 2;
        const double Gap = 6;
        var width = (flow.Width - (Gap * (Across - 1))) / Across;
        flow.Heading("Bolt holes, looking at the face", 2);
        foreach (var row in circles.Where(c => c.Circle is not null).Chunk(Across))
        {
            var figures = row.Select(c => c.Circle!.ToFigure(subject.Ends.FirstOrDefault(e => e.At == c.Flange.Contact.At)?.Name ?? "", width, f.Units)).ToList();
            var canvas = new Canvas();
            for (var i = 0; i < figures.Count; i++)
                canvas.Place(figures[i], new(i * (width + Gap), 0));
            flow.Figure(canvas.ToFigure(flow.Width, figures.Max(x => x.Height)));
        }

        var unknown = circles.Where(c => c.Circle is null).Select(c => c.Flange.Id).ToList();
        if (unknown.Count > 0)
            flow.Paragraph($"No hole line can be given for {string.Join(", ", unknown)}: the face is neither upright nor level and the drawing names no line (holes from:), or the standard has no such flange. Ask before welding.", TextStyle.Strong);
    }

    private static void Turns(Flow flow, IReadOnlyList<PartTurn> turns, Units units)
    {
        if (turns.Count == 0)
            return;
        flow.Heading("Turned about the pipe", 2);
        var hasLast = turns.Any(t => t.AgainstLast is not null);
        flow.Table(new Table(
            ["Part", new("What", ColumnWidth.Share()), "Looking", "From", new("Degrees", Anchor.End), "Which way", new("Round the pipe", Anchor.End), .. hasLast ? new Column[] { "Elbow before" } : []],
            turns.Select(t => new Row(
                new Cell(t.Part) { Bold = true }, t.What, BoltCircle.NameOf(t.Looking), Math.Abs(t.Looking.Z) > 0.98 ? "north" : "top",
                new Cell(Angles.ToDegrees(Math.Abs(t.Roll)).ToString("0.0", CultureInfo.InvariantCulture)) { Bold = true },
                Math.Abs(t.Roll) < 1e-6 || Math.PI - Math.Abs(t.Roll) < 1e-6 ? "–" : t.Roll > 0 ? "clockwise" : "anticlockwise",
                LengthText.In(units, t.Round),
                t.AgainstLast is not { } last ? "" : last.Angle < 1e-4 ? $"{last.Part}: in plane" : string.Create(CultureInfo.InvariantCulture, $"{last.Part}: {Angles.ToDegrees(last.Angle):0.0}° out"))))
        { Style = TextStyle.Small, RowHeight = 6 });
    }

    private static void TakeOffs(Flow flow, Spool spool, Units units)
    {
        if (spool.Cuts.Count == 0)
            return;
        string Terms(IEnumerable<Term> terms) => string.Join(", ", terms.Where(t => Math.Abs(t.Mm) > 0.05 && t.Origin is not Origin.Shop).Select(t => $"{t.What} {LengthText.In(units, Math.Abs(t.Mm))}"));
        // "2 × 3.2 root gap" rather than one at the start and one at the end.
        string Rules(Cut cut) => string.Join(", ", cut.Sum.Where(t => t.Origin is Origin.Shop)
            .GroupBy(t => (What: t.What.Split(" at the ")[0], t.Mm))
            .Select(g => string.Create(CultureInfo.InvariantCulture, $"{(g.Key.Mm < 0 ? "−" : "+")} {(g.Count() > 1 ? $"{g.Count()} × " : "")}{LengthText.In(units, Math.Abs(g.Key.Mm))} {g.Key.What}")));
        string End(PipeEnd end) => end.TakeOff.Count > 0 ? Terms(end.TakeOff) : "–";
        flow.Heading("Take-offs", 2);
        flow.Table(new Table(
            ["Piece", new("Work points", Anchor.End), new("Off at its start", ColumnWidth.Share()), new("Off at its end", ColumnWidth.Share()), new("Gaps and extra", ColumnWidth.Share()), new("Cut", Anchor.End)],
            spool.Cuts.Select(c => new Row(
                new Cell(c.Piece) { Bold = true },
                LengthText.In(units, c.Sum.Where(t => t.Origin is Origin.Drawn && t.Mm > 0).Sum(t => t.Mm)),
                End(c.Pipe.AtStart), End(c.Pipe.AtEnd),
                Rules(c),
                new Cell(LengthText.In(units, c.Length)) { Bold = true })))
        { Style = Dense });
    }

    private static void Joints(Flow flow, Fabrication f, Spool spool)
    {
        flow.Heading("Joints", 2);
        flow.Table(new Table(
            ["Joint", "Kind", "Place", new("Between", ColumnWidth.Share()), new("Tacked", ColumnWidth.Of(20)), new("Welded", ColumnWidth.Of(20)), new("Checked", ColumnWidth.Of(23))],
            spool.Joints.Concat(spool.Attachments).Concat(spool.Ends).Select(j => new Row(
                new Cell(j.Id) { Bold = true }, Wording.Of(j.Kind), j.Kind == JointKind.Bolted ? "bolted" : Wording.Of(j.Place), Wording.Between(f, j), Cell.Box(), Cell.Box(), Cell.Box())))
        { RowHeight = WriteIn, Style = Dense, WhenEmpty = "no joints" });
    }

    private static void AfterWelding(Flow flow, ShopJob job, Spool spool) =>
        flow.Heading("Work point to work point, before and after welding", 2).Table(new Table(
            ["Leg", new(Wording.Heads(job.Drawing.Units, "As fitted").Own, Anchor.End), new("Butt welds", Anchor.End), new(Wording.Heads(job.Drawing.Units, "After welding").Own, Anchor.End), new("Measured", ColumnWidth.Share())],
            spool.Lengths.Select(l => new Row(
                string.Create(CultureInfo.InvariantCulture, $"{job.Drawing.Runs[l.Run].Name}, leg {l.Leg + 1}"), LengthText.In(job.Drawing.Units, l.AsFitted), l.Welds.ToString(CultureInfo.InvariantCulture),
                Math.Abs(l.High - l.Low) < 0.05 ? LengthText.In(job.Drawing.Units, l.Low) : $"{LengthText.In(job.Drawing.Units, l.Low)} to {LengthText.In(job.Drawing.Units, l.High)}", "")))
        { RowHeight = 8, Style = Dense });
}
