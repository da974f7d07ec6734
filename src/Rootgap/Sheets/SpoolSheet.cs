using System.Globalization;
using Rootgap.Fabricating;
using Rootgap.FitUp;
using Rootgap.Measure;
using Rootgap.Papers;
using Rootgap.Routes;

namespace Rootgap.Sheets;

/// <summary>
/// The fitter's sheet of one spool, on one side of one paper: isometric, views with running dimensions, bolt circles, pieces with their sums, how each part stands,
/// the check table with columns for the pen, mass and centre, boxes to sign. Small paper where the spool is simple, the larger one otherwise; where the tables
/// leave no room for the drawings they stand on the back.
/// </summary>
internal static class SpoolSheet
{
    /// <summary>Parts of a spool that views can show: beyond, no label finds room, and looking for it takes hours. A spool that can be carried has a few dozen.</summary>
    internal const int MostDrawn = 160;

    /// <summary>Parts that a simple spool has at most.</summary>
    private const int Simple = 4;

    /// <summary>Shares of the width that the pieces may have beside the checks.</summary>
    private static readonly double[] Shares = [0.615, 0.54, 0.46];

    /// <summary>Stands after the number of an item that was found by kind and size.</summary>
    private const string GuessSign = "*";

    private const double Gap = 2.5, LeastDrawing = 92, LeastSmallDrawing = 76, CheckRow = 6, CheckHead = 9;

    private static readonly TextStyle Style = TextStyle.Small;

    /// <param name="cards">The drawing's cards: where the sheet has a back, it takes those of the spool for which it has room. Null for the sheet alone.</param>
    public static IReadOnlyList<Page> Of(ShopJob job, FitJoints fitting, Spool spool, CardStack? cards = null)
    {
        var parts = spool.Components.Count + spool.Cuts.Count;
        return parts <= Simple && On(job, fitting, spool, cards, isSmall: true) is [var one] ? [one] : On(job, fitting, spool, cards, isSmall: false);
    }

    /// <returns>On small paper one page, or none where it does not hold all.</returns>
    private static List<Page> On(ShopJob job, FitJoints fitting, Spool spool, CardStack? cards, bool isSmall)
    {
        var paper = isSmall ? job.Paper.Portrait : job.Paper.Larger.Landscape;
        var block = job.Block($"spool {spool.Name}", Reader.Fitter, spool.Name) with { Fields = [.. job.StripOf(spool)], Project = Between(job.Fabrication, spool) };
        var backBlock = block with { Title = $"spool {spool.Name}, back" };
        var room = block.Content(paper);
        var fit = fitting.OfSpool(spool);
        var foot = Flow.Column(room.Width, flow => Foot(flow, job, fit, isSmall));
        // The same rows in every width that is tried.
        var (pieceTable, rows) = (Pieces(job.Fabrication, spool), CheckRows.Of(job.Fabrication, fit));
        var least = isSmall ? LeastSmallDrawing : LeastDrawing;
        // Checks stand below the pieces on small paper, else beside them: so wide that both are low, since feet and inches want more room than millimetres.
        var (pieces, checks, tables, shown) = (isSmall ? [1] : Shares).Select(share => Side(share)).MinBy(t => t.Height);
        var drawing = room.Height - foot.Height - tables - (3 * Gap);
        var isDrawn = spool.Components.Count + spool.Cuts.Count <= MostDrawn;
        // The views bear the letters of the rows that stand in their table.
        SpoolDrawings With(IReadOnlyList<CheckRow> table) => new(job.Fabrication, spool, CheckRows.Marks(table));
        var front = drawing >= least && isDrawn ? With(shown).Beside(room.Width, drawing, isSmall) : null;
        if (front is { IsClean: true })
            return [OneSide(front)];
        if (isSmall)
            return [];
        if (!isDrawn)
        {
            var alone = new Flow(paper, block);
            alone.Paragraph(string.Create(CultureInfo.InvariantCulture, $"This spool has {spool.Components.Count + spool.Cuts.Count} parts: too many for views of it on one sheet. Part it by field welds; its lines are on the isometric of the drawing."), TextStyle.Strong);
            alone.Table(pieceTable);
            Checks(alone, rows);
            Foot(alone, job, fit, isSmall);
            return [.. alone.Pages];
        }

        // The drawings on the front, the tables on the back; then the views on the front and the isometric behind them: never smaller letters, and no line through words where it can be helped.
        var high = room.Height - foot.Height - Gap;
        var drawings = With(rows);
        var large = drawings.Beside(room.Width, high, isSmall);
        if (large is { IsClean: true })
            return [Front(large), .. Back()];
        var views = drawings.Views(room.Width, high);
        var isometric = drawings.Alone(room.Width, room.Height);
        if ((isometric.IsClean && views.All(v => v.IsClean)) || (front ?? large) is null)
            return [Front(views[0]), .. views.Skip(1).Append(isometric).Select(set => Page.Draw(paper, backBlock, (canvas, area) => set.Draw(canvas, new(area.X, area.Y)))), .. Back()];
        return front is not null ? [OneSide(front)] : [Front(large!), .. Back()];

        (Figure Pieces, Figure Checks, double Height, IReadOnlyList<CheckRow> Shown) Side(double share)
        {
            var left = Flow.Column(room.Width * share, flow => flow.Table(pieceTable));
            var most = Math.Max(6, (int)((room.Height - foot.Height - least - (3 * Gap) - (isSmall ? left.Height + Gap : 0) - CheckHead) / CheckRow));
            var foremost = CheckRows.Foremost(rows, most);
            var right = Flow.Column(isSmall ? room.Width : room.Width - left.Width - Gap, flow => Checks(flow, foremost));
            return (left, right, isSmall ? left.Height + Gap + right.Height : Math.Max(left.Height, right.Height), foremost);
        }

        Page OneSide(SpoolDrawings.SetOut set) => Page.Draw(paper, block, (canvas, area) =>
        {
            set.Draw(canvas, new(area.X, area.Y));
            Tables(canvas, area with { Y = area.Y + drawing + Gap }, pieces, checks, isSmall);
            canvas.Place(foot, new(area.X, area.Bottom - foot.Height));
        });

        Page Front(SpoolDrawings.SetOut set) => Page.Draw(paper, block, (canvas, area) =>
        {
            set.Draw(canvas, new(area.X, area.Y));
            canvas.Place(foot, new(area.X, area.Bottom - foot.Height));
        });

        // Pieces and checks beside each other, the spool's first cards below them; one after the other where they are too long for that.
        IReadOnlyList<Page> Back()
        {
            var (left, right) = Shares.Select(share => Flow.Column((room.Width - Gap) * share, flow => flow.Table(pieceTable)))
                .Select(left => (Left: left, Right: Flow.Column(room.Width - left.Width - Gap, flow => Checks(flow, rows)))).MinBy(b => Math.Max(b.Left.Height, b.Right.Height));
            var tall = Math.Max(left.Height, right.Height);
            if (tall > room.Height)
            {
                var back = new Flow(paper, backBlock);
                back.Table(pieceTable);
                Checks(back, rows);
                return back.Pages;
            }

            var below = cards?.Take(spool, room.Width, room.Height - tall - (2 * Gap));
            return
            [
                Page.Draw(paper, backBlock, (canvas, area) =>
                {
                    Tables(canvas, area, left, right, isSmall: false);
                    if (below is not null)
                        canvas.Place(below, new(area.X, area.Y + tall + (2 * Gap)));
                }),
            ];
        }
    }

    /// <summary>Between what the spool stands: where its ends go.</summary>
    private static string Between(Fabrication f, Spool spool)
    {
        var ends = spool.Ends.Select(j => j.Id).ToList();
        return ends.Count == 0 ? "nothing is joined to it" : $"between {FitWords.Join(ends)} of the line";
    }

    private static void Tables(Canvas canvas, Box area, Figure pieces, Figure checks, bool isSmall)
    {
        canvas.Place(pieces, new(area.X, area.Y));
        canvas.Place(checks, isSmall ? new(area.X, area.Y + pieces.Height + Gap) : new(area.Right - checks.Width, area.Y));
    }

    private static Table Pieces(Fabrication f, Spool spool)
    {
        var stands = PartStands.Of(f, spool);
        static string Item(Drawings.MaterialItem? item, bool isGuessed) => item is null ? "–" : item.Item.ToString(CultureInfo.InvariantCulture) + (isGuessed ? $" {GuessSign}" : "");
        return new Table(
            ["mark", "item", "what", new("cut", Anchor.End), "ends", new("how it stands, sum", ColumnWidth.Share()), new("heat", ColumnWidth.Of(20))],
            spool.Cuts.Select(c => new Row(
                new Cell(c.Piece) { Bold = true }, Item(c.Pipe.Item, c.Pipe.IsItemGuessed), $"{c.Pipe.Name} {c.Pipe.Size} sch {c.Pipe.Line.Schedule}",
                SawRow.CannotBeCut(c) ? Cell.Warn("cannot be cut") : new Cell(LengthText.In(f.Units, c.SawLength)) { Bold = true, Height = 3.5 }, SawRow.CannotBeCut(c) ? "" : SawRow.EndsOf(c),
                $"{stands[c.Piece]}: {SumWords.Of(c, f.Units)}{(c.Extra > 0 ? $"; {RunningDimensions.Figure(f.Units, c.Extra)} of it is left on for the final fit at {FitWords.Join(PartStands.ExtraEnds(f, spool, c))}{(c.StillSquare.Start + c.StillSquare.End > 0 ? ": square till then, the saddle is cut at site by its template" : "")}" : "")}")
            { Id = $"piece-{c.Piece}" })
            .Concat(spool.Components.SelectMany<Component, Row>(c => c is Flange { Stub: { } stub } loose ? [StubRow(f, loose, stub), Part(c)] : [Part(c)]))
            .Concat(f.Route.Supports.Where(s => spool.Cuts.Any(c => c.Pipe.Id == s.Pipe)).Select(s => new Row(
                new Cell(s.Tag) { Bold = true }, Item(s.Item, s.IsItemGuessed), s.Name, "", "", SupportStands(f, spool, s))
            { Id = $"support-{s.Id}" }))
            .Concat(Holes(f, spool))
            .Concat(spool.Pads.Select(p => new Row(
                new Cell(p.Id) { Bold = true }, Item(p.Item, p.IsItemGuessed), "pad", "", "", PadStands(f, spool, p))
            { Id = $"part-{p.Id}" })))
        { Style = Style, RowHeight = 5.4 };

        Row Part(Component c) => new(
            new Cell(c.Id) { Bold = true }, Item(c.Item, c.IsItemGuessed), $"{Wording.Of(c)} {Wording.Size(c)}", c is MadeBend bend ? new Cell(LengthText.In(f.Units, bend.PipeLength)) { Bold = true, Height = 3.5 } : "", c is MadeBend bent ? SawRow.EndsOf(bent, f.Units) : "",
                c is MadeBend made ? $"{Wording.MadeBy(made, f.Units)}; {stands[c.Id]}" : stands[c.Id])
        { Id = $"part-{c.Id}" };

        // What a lap joint is welded by, purged behind and traced by: its row of the list is found by kind and size.
        Row StubRow(Fabrication f, Flange loose, StubEnd stub)
        {
            var item = f.Materials.FirstOrDefault(m => m.Item is { } i && i.Words.Ware == Drawings.Ware.StubEnd && m.UsedBy.Contains(loose.Id, StringComparer.Ordinal))?.Item;
            var weld = spool.Joints.Concat(spool.Ends).FirstOrDefault(j => j.Kind == JointKind.Butt && j.Between.Contains(loose.Id, StringComparer.Ordinal));
            return new(
                new Cell(loose.Id) { Bold = true }, Item(item, isGuessed: true), $"stub end {Wording.Size(loose)}", "", "",
                $"{(weld is null ? "" : weld.Id + "; ")}{RunningDimensions.Figure(f.Units, stub.Length)} long; slide flange {loose.Id} on before it is welded")
            { Id = $"stub-{loose.Id}" };
        }
    }

    // The holes of branches that are not on this spool yet: they are made in it, and nothing else of it tells of them.
    private static IEnumerable<Row> Holes(Fabrication f, Spool spool)
    {
        foreach (var weld in spool.Ends.Where(j => j.Kind == JointKind.Branch))
        {
            if (spool.Cuts.FirstOrDefault(c => weld.Between.Contains(c.Pipe.Id, StringComparer.Ordinal)) is not { } header
                || f.Cuts.FirstOrDefault(c => c.Pipe.Id != header.Pipe.Id && c.Saddle > 0 && weld.Between.Contains(c.Pipe.Id, StringComparer.Ordinal)) is not { } branch)
                continue;
            var hole = Templates.Saddles(f, branch).Select(t => t.Hole).FirstOrDefault(h => h.Count > 0) ?? [];
            var size = hole.Count == 0 ? "" : $"{RunningDimensions.Figure(f.Units, hole.Max(p => p.Along) - hole.Min(p => p.Along))} along × {RunningDimensions.Figure(f.Units, hole.Max(p => p.Round) - hole.Min(p => p.Round))} round, ";
            yield return new(new Cell(weld.Id) { Bold = true }, "", "hole", "", "", $"{PartStands.HoleFor(f, spool, header, branch.Pipe, weld)}; {size}by the template of {branch.Piece}") { Id = $"hole-{weld.Id}" };
        }
    }

    /// <summary>Where a support is marked on its piece, on which side, its measures, and how it is made fast.</summary>
    private static string SupportStands(Fabrication f, Spool spool, Support support)
    {
        var cut = spool.Cuts.First(c => c.Pipe.Id == support.Pipe);
        var (side, measures) = (Wording.SideOf(support), Wording.MeasuresOf(support, f.Units));
        return $"on {cut.Piece}, middle {PartStands.FromEnd(f, spool, cut, support.At)}{(side.Length > 0 ? ", " + side : "")}; {(measures.Length > 0 ? measures + "; " : "measures by its own drawing; ")}{(support.Weld is not { } weld ? "clamped at site" : support.IsOfSpool ? $"welded, {weld.Id}" : "welded at site")}";
    }

    /// <summary>Where a pad lies, its measures and its weld. It hides the branch weld, and what the welding heats under it must get out (common practice).</summary>
    private static string PadStands(Fabrication f, Spool spool, Pad pad)
    {
        var cut = spool.Cuts.First(c => c.Pipe.Id == pad.Pipe);
        var measures = pad.Width is { } width ? $", {RunningDimensions.Figure(f.Units, width)} wide round it, {LengthText.Say(f.Units, $"{pad.Thickness:small}")} thick" : ", width and thickness by the designer: ________";
        return $"on {cut.Piece} round the branch {BoltCircle.NameOf(pad.Way)}, NPS {pad.Size}{measures}; {pad.Weld.Id}, when the branch weld has been seen; with a vent hole";
    }

    private static void Checks(Flow flow, IReadOnlyList<CheckRow> rows) =>
        flow.Table(new Table(
            ["", new("check, lip to lip", ColumnWidth.Share()), new("target", Anchor.End), new("±", Anchor.Middle), new("when welded", Anchor.Middle), new("tacked", ColumnWidth.Of(17)), new("welded", ColumnWidth.Of(17))],
            rows.Select((r, i) => new Row(new Cell(CheckRows.Letter(i)) { Bold = true }, r.What, new Cell(r.Target) { Bold = true, Height = 3 }, r.Tolerance, r.WhenWelded, "", "") { Class = "check" }))
        { Style = Style, RowHeight = CheckRow, WhenEmpty = "nothing of it is open" });

    private static void Foot(Flow flow, ShopJob job, FitSpool fit, bool isSmall)
    {
        var (f, spool) = (job.Fabrication, fit.Spool);
        var isInches = f.Units == Units.Inches;
        string Whole(double mm) => isInches ? LengthText.FeetInches(mm) : LengthText.WholeMillimetres(mm);
        var words = new FitWords(f.Units, id => Wording.NameOf(f, id));
        var corner = spool.CentreOfMass - spool.BoxFrom;
        Boxes(flow, 10,
            new Field("mass, dry", $"{words.Mass(spool.Mass)} + 10 %"),
            new Field("centre, from west, south, low corner", $"{Whole(corner.X)} E, {Whole(corner.Y)} N, {Whole(corner.Z)} up"),
            new Field("box E × N × up", string.Join(" × ", new[] { spool.Box.X, spool.Box.Y, spool.Box.Z }.Select(Whole))),
            new Field("holds", isInches
                ? string.Create(CultureInfo.InvariantCulture, $"{spool.Content / 3785411.784:0.#} gal, paint {spool.PaintArea / 92903.04:0.#} ft²")
                : string.Create(CultureInfo.InvariantCulture, $"{spool.Content / 1e6:0.#} l, paint {spool.PaintArea / 1e6:0.##} m²")));
        if (spool.Unweighed.Count > 0)
            flow.Paragraph(LiftWords.LeavesOut(f, spool), Style with { Bold = true });
        foreach (var caution in Hazards.Of(job.Drawing.Service).Append(Hazards.PurgeAt(f.Route, spool.Joints)).OfType<string>())
            flow.Paragraph(caution, Style with { Bold = true });
        var check = FinalCheck.Welded(fit);
        var (tolerance, source) = SpoolEnd.ToleranceOf(f, spool);
        flow.Paragraph(
            $"{(check.Base is not { } from ? "" : $"Check with {from.Called} set as drawn; 12 o'clock of an end is up (north where it lies), 3 at the right hand looking out of it. ")}{LengthText.Say(f.Units, $"Tolerance as each row says: ends within {tolerance:gap}")}{(isInches ? "" : " mm")} ({source}), not adding up. {(job.Drawing.Shop.Shrinkage is null ? $"When welded: each butt weld on the way draws in {(isInches ? "1/16\" to 1/8\"" : "1.5 to 3 mm")} (TWI). " : "")}"
            + $"{(spool.Joints.Any(j => j.Kind == JointKind.Butt) ? LengthText.Say(f.Units, $"Root gap {job.Drawing.Shop.RootGap:gap} at each butt weld. ") : "")}Tacks hold nothing up. {LiftWords.Line} {(spool.Unweighed.Count > 0 ? "" : LiftWords.LeavesOut(f, spool) + " ")}Welding by the qualified procedure.{string.Concat(Signs(f, spool).Select(s => " " + s))}", Style);
        string[] signs = ["cut and marked", "tacked and checked", "fit-up seen", "welded", "checked when welded", "released"];
        foreach (var row in signs.Chunk(isSmall ? 3 : 6))
            Boxes(flow, 10, [.. row.Select(s => new Field(s))]);
    }

    // What the signs in the table mean, those that stand there.
    private static IEnumerable<string> Signs(Fabrication f, Spool spool)
    {
        if (spool.Cuts.Select(c => (Part)c.Pipe).Concat(spool.Components).Concat(spool.Supports).Concat(spool.Pads).Any(p => p.Item is not null && p.IsItemGuessed))
            yield return $"{GuessSign} item found by kind and size: the drawing does not name it.";
        if (spool.Cuts.Any(c => c.Sum.Any(t => t.Origin.IsFromMemory)))
            yield return $"{Wording.MemorySign} {Wording.FromMemory}: measure the part before you cut for it.";
    }

    // A row of boxes: label, and the value below it or room to write.
    private static void Boxes(Flow flow, double height, params IReadOnlyList<Field> fields)
    {
        var bold = Style with { Bold = true };
        var needs = fields.Select(f => Math.Max(Style.Width(f.Label), bold.Width(f.Value)) + 4).ToList();
        var spare = (flow.Width - needs.Sum()) / fields.Count;
        var canvas = new Canvas();
        var (x, most) = (0.0, height);
        foreach (var (field, wide) in fields.Zip(needs))
        {
            var width = spare >= 0 ? wide + spare : wide * flow.Width / needs.Sum();
            var lines = bold.Wrap(field.Value, width - 3);
            most = Math.Max(most, height + ((lines.Count - 1) * bold.Pitch));
            canvas.Lines([.. Style.Wrap(field.Label, width - 2).Take(1)], x + 1.5, 1.3, width, Style, Anchor.Start);
            if (field.Value.Length > 0)
                canvas.Lines(lines, x + 1.5, 5.4, width, bold, Anchor.Start);
            x += width;
        }

        x = 0;
        foreach (var wide in needs)
        {
            var width = spare >= 0 ? wide + spare : wide * flow.Width / needs.Sum();
            canvas.Rectangle(new(x, 0, width, most), LineStyle.Medium);
            x += width;
        }

        flow.Figure(canvas.ToFigure(flow.Width, most));
    }
}

/// <summary>All that goes with the spools: a sheet each, their cards behind them.</summary>
internal static class SpoolPages
{
    public static IEnumerable<Page> Of(ShopJob job)
    {
        var fitting = new FitJoints(job.Fabrication);
        var cards = new CardStack(job, fitting, job.Fabrication.Spools);
        List<Page> sheets = [.. job.Fabrication.Spools.SelectMany(s => MissingSheet.Instead(job, $"Spool {s.Name}", () => SpoolSheet.Of(job, fitting, s, cards)))];
        return [.. sheets, .. cards.Pages()];
    }

    public static IReadOnlyList<Page> One(ShopJob job, Spool spool) => SpoolSheet.Of(job, new FitJoints(job.Fabrication), spool);
}
