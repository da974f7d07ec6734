using System.Globalization;
using Rootgap.Cutting;
using Rootgap.Measure;

namespace Rootgap.Sheets;

/// <summary>The cutting plan on paper: what to fetch and to buy, then bar by bar, to scale, with the place of each cut from the bar's end and boxes to tick.</summary>
public static class CuttingPages
{
    public static IReadOnlyList<Page> Of(CuttingPlan plan, Paper paper)
    {
        var block = new TitleBlock("", "", "Cutting plan")
        {
            Reader = Reader.Saw,
            Notice = plan.NotForFabrication.Count > 0 ? "NOT FOR FABRICATION" : plan.Unplaced.Count > 0 ? "NOT ALL PIECES ARE PLACED" : "",
        };
        var flow = new Flow(paper, block);
        Summary(flow, plan);
        flow.PageBreak();
        foreach (var group in plan.Groups)
        {
            // A size goes on where the one before ended; what is said of it stays with its first bar.
            flow.Heading(group.Pipe.ToString());
            var longest = group.Bars.Max(b => b.Stock.Length);
            foreach (var (n, bar) in group.Bars.Index())
            {
                flow.Together(f =>
                {
                    if (n == 0)
                    {
                        f.Paragraph(string.Create(CultureInfo.InvariantCulture,
                            $"{group.NewBars} {(group.NewBars == 1 ? "bar" : "bars")}, {group.Verdict}. Steel used {Run(plan.Rules.Units, group.Used)} {(plan.Rules.Units == Units.Inches ? "ft" : "m")}, waste {group.WastePercent:0.0} %, {group.Plans} different {(group.Plans == 1 ? "plan" : "plans")}."));
                    }

                    Bar(f, bar, longest, plan.Rules);
                });
            }
        }

        return flow.Pages;
    }

    private static void Summary(Flow flow, CuttingPlan plan)
    {
        var rules = plan.Rules;
        var units = rules.Units;
        var unit = units == Units.Inches ? "" : "mm";
        flow.Fields(4,
            new Field("Kerf, counted at every cut", In(units, rules.Kerf), unit),
            new Field("Trim at each mill end", In(units, rules.EndTrim), unit),
            new Field("Loss at a bevelled end", In(units, rules.FacingLoss), unit),
            new Field("Remnants kept from", In(units, rules.ShortestRemnant), unit));
        flow.Table(new Table(
            [new("Pipe", ColumnWidth.Share(2)), new("Bars", Anchor.End), new("Cost", Anchor.End), new(units == Units.Inches ? "Used, ft" : "Used, m", Anchor.End), new("Waste, %", Anchor.End), new("Verdict", ColumnWidth.Of(34))],
            plan.Groups.Select(g => new Row(
                new Cell(g.Pipe.ToString()) { Bold = true }, Whole(g.NewBars), Money(g.IsMoney ? g.Cost : null), Run(units, g.Used),
                g.WastePercent.ToString("0.0", CultureInfo.InvariantCulture), g.Verdict)))
        { WhenEmpty = "nothing to cut" });
        if (plan.Purchases.Any())
            ToBuy(flow, plan);

        if (plan.Unplaced.Count > 0)
        {
            flow.Heading("Not placed", 2);
            flow.Table(new Table(
                [new("Piece", ColumnWidth.Of(34)), new("Pipe", ColumnWidth.Of(46)), new(Length(units), Anchor.End), new("Why", ColumnWidth.Share())],
                plan.Unplaced.Select(u => new Row(new Cell(u.Piece.FullName) { Bold = true }, u.Piece.Pipe.ToString(), In(units, u.Piece.Length), u.Why))));
        }

        foreach (var finding in plan.Findings)
            flow.Paragraph($"{finding.Message} {finding.Remedy}");
        flow.Heading("At the saw", 2);
        flow.Bullets(
            (units == Units.Inches ? "Lengths are in feet and inches, each rounded to a sixteenth by itself, so that from and stop may come to a sixteenth more or less than the place of the cut" : "All lengths are in mm") + ". Measure every cut from the same end of the bar: the places printed count the kerf and what facing takes off. One tape for the whole job.",
            "Stop: what the saw's length stop is set to for this piece. It is longer than the piece where its ends are faced after the cut.",
            "Write the heat number on the piece and on what is left of the bar before cutting.",
            "A piece spoiled: tick what is good, and have the rest planned again; what was cut stays.");
        flow.Warning("Support the bar on both sides of the cut and keep it from rolling. Eye and ear protection; gloves off near a turning blade. Abrasive cutting and grinding are hot work: the site's rules and permit say where and how.", "Safety");
    }

    private static void ToBuy(Flow flow, CuttingPlan plan)
    {
        var units = plan.Rules.Units;
        flow.Heading("To buy", 2);
        flow.Table(new Table(
            [new("Pipe", ColumnWidth.Share()), new(Length(units), Anchor.End), new("How many", Anchor.End), new("Each", Anchor.End), new("Together", Anchor.End), new("Supplier", ColumnWidth.Of(22)), new("Certificate", ColumnWidth.Of(26))],
            plan.Purchases.Select(b => new Row(
                b.Pipe.ToString(), In(units, b.Length), Whole(b.Count), Money(b.CostEach), Money(b.Cost), b.Supplier, b.Certificate))
            .Append(new Row("all", "", Whole(plan.Purchases.Sum(p => p.Count)), "", new Cell(Money(plan.PurchaseCost)) { Bold = true }, "", "") { Strong = true }))
        { Style = TextStyle.Body with { Height = 3.1 } });
        if (plan.SharedByJob is { Count: > 0 } jobs)
        {
            flow.Paragraph("Shared among the jobs, each bar by the length of the pieces that are cut from it:");
            flow.Table(new Table(
                [new("Pipe", ColumnWidth.Share()), new(Length(units), Anchor.End), new("How many", Anchor.End), new("Job", ColumnWidth.Of(46)), new("Share, %", Anchor.End), new("Cost", Anchor.End)],
                plan.Purchases.SelectMany(b => b.Jobs.Select((j, n) => new Row(n == 0 ? b.Pipe.ToString() : "", n == 0 ? In(units, b.Length) : "", n == 0 ? Whole(b.Count) : "", j.Job, j.Percent.ToString("0.0", CultureInfo.InvariantCulture), Money(j.Cost))))
                .Concat(jobs.Select((j, n) => new Row(n == 0 ? "all" : "", "", "", j.Job, j.Percent.ToString("0.0", CultureInfo.InvariantCulture), new Cell(Money(j.Cost)) { Bold = true }) { Strong = true })))
            { Style = TextStyle.Body with { Height = 3.1 } });
        }

        var others = plan.Groups.Where(g => g.IsMoney && g.Otherwise.Count > 1).ToList();
        if (others.Count > 0)
        {
            flow.Paragraph("All steel of a size, if one length alone were bought (found quickly; the best may be a little less):");
            flow.Table(new Table(
                [new("Pipe", ColumnWidth.Share()), new("As planned", Anchor.End), new("Only", Anchor.End), new("Bars to buy", Anchor.End), new("All steel", Anchor.End)],
                others.SelectMany(g => g.Otherwise.Select((o, n) => new Row(n == 0 ? g.Pipe.ToString() : "", n == 0 ? Money(g.Cost) : "", In(units, o.Length), Whole(o.Bars), Money(o.Cost))))));
        }
    }

    private static string Money(decimal? cost) => cost is { } c ? c.ToString("0.00", CultureInfo.InvariantCulture) : "–";

    private static void Bar(Flow flow, CutBar bar, double longest, CuttingRules rules)
    {
        var units = rules.Units;
        flow.Heading(string.Create(CultureInfo.InvariantCulture, $"Bar {bar.Name}: {(units == Units.Inches ? LengthText.FeetInches(bar.Stock.Length) : $"{LengthText.Rounded(bar.Stock.Length, 1):0.#} mm")}{Where(bar.Stock)}"), 3);
        flow.Figure(Drawn(bar, longest, flow.Width, rules));
        var rows = bar.Pieces.Index().Select(p => new Row(
            Whole(p.Index + 1), new Cell(p.Item.Piece.Id) { Bold = true }, p.Item.Piece.Drawing, new Cell(In(units, p.Item.Piece.Length)) { Bold = true }, In(units, p.Item.SawLength), In(units, p.Item.From), new Cell(In(units, p.Item.To)) { Bold = true }, Cell.Box())).ToList();
        if (bar.Pieces[0].From > 0)
            rows.Insert(0, new Row("", "trim the mill end", "", "", "", In(units, 0), new Cell(In(units, bar.Pieces[0].From)) { Bold = true }, Cell.Box()));
        rows.Add(new Row("", bar.KeptRemnant > 0 ? $"keep: {bar.RemnantName}" : bar.Remnant > 0 ? "scrap" : "nothing left", "", bar.KeptRemnant > 0 ? Kept(units, bar.KeptRemnant) : In(units, bar.Remnant), "", "", "", Cell.Box()));
        flow.Table(new Table(
            [new("Cut", Anchor.End), new("Piece", ColumnWidth.Of(units == Units.Inches ? 27 : 38)), new("Drawing", ColumnWidth.Share()), new("Length", Anchor.End), new("Stop", Anchor.End), new("From", Anchor.End), new("Cut at", Anchor.End), "Done"], rows)
        { Style = TextStyle.Body with { Height = 3.1 } });
        flow.Paragraph($"Heat number {(bar.Stock.Heat.Length > 0 ? bar.Stock.Heat : "____________")}   moved to pieces and rest ____   cut by __________");
        flow.Space(3);
    }

    private static string Where(StockBar stock) => stock.Source switch
    {
        StockSource.OnHand => ", from the rack",
        StockSource.Buy => ", to buy",
        StockSource.Remnant => ", a remnant",
        _ => ", begun already",
    };

    // The bar from its measuring end, pieces to scale with their marks; what is lost to the saw is black, what is left is crossed.
    private static Figure Drawn(CutBar bar, double longest, double width, CuttingRules rules)
    {
        const double top = 1, height = 10, below = 5.6;
        var scale = (width - 2) / longest;
        var canvas = new Canvas();
        double X(double mm) => 1 + (mm * scale);
        canvas.Rectangle(new Box(X(0), top, bar.Stock.Length * scale, height), LineStyle.Medium);
        foreach (var (piece, from, to) in bar.Pieces)
        {
            var box = new Box(X(from), top, (to - from) * scale, height);
            canvas.Rectangle(box, LineStyle.Thick);
            Named(canvas, box, piece);
        }

        var end = bar.Stock.Length - (bar.Stock.MillEnds > 0 ? rules.EndTrim : 0);
        if (bar.Remnant > 0)
        {
            var rest = new Box(X(end - bar.Remnant), top, bar.Remnant * scale, height);
            canvas.Line(rest.Left, rest.Top, rest.Right, rest.Bottom, LineStyle.Thin);
            canvas.Line(rest.Left, rest.Bottom, rest.Right, rest.Top, LineStyle.Thin);
        }

        // Places of the cuts, where there is room for them; all of them stand in the table.
        var free = 0.0;
        var text = TextStyle.Small;
        foreach (var (_, _, to) in bar.Pieces)
        {
            var words = In(rules.Units, to);
            var half = text.Width(words) / 2;
            var at = Math.Min(X(to), width - half);
            canvas.Line(X(to), top + height, X(to), top + height + 1, LineStyle.Thin);
            if (at - half < free)
                continue;
            canvas.Text(words, at, top + height + 2.2 + text.Height, text, Anchor.Middle);
            free = at + half + 1.5;
        }

        return canvas.ToFigure(width, top + height + below);
    }

    // The mark large, its drawing small below it; a narrow piece bears both upright, or the mark alone.
    private static void Named(Canvas canvas, Box box, Piece piece)
    {
        var mark = TextStyle.Strong.Fitting(piece.Id, Math.Max(box.Width - 1.5, 0.1));
        var drawing = TextStyle.Small.Fitting(piece.Drawing, Math.Max(box.Width - 1.5, 0.1));
        if (1.8 <= mark.Height)
        {
            var both = 1.6 <= drawing.Height && piece.Drawing.Length > 0;
            canvas.Text(piece.Id, box.Centre.X, box.Centre.Y + (both ? -0.4 : mark.Height / 2), mark, Anchor.Middle);
            if (both)
                canvas.Text(piece.Drawing, box.Centre.X, box.Bottom - 1.2, drawing, Anchor.Middle);
            return;
        }

        if (TextStyle.Strong.Fitting(piece.Id, box.Height - 1.5) is not { Height: >= 1.6 } upright || box.Width < upright.Height + 0.4)
            return;
        var small = TextStyle.Small.Fitting(piece.Drawing, box.Height - 1);
        var isBoth = 1.6 <= small.Height && upright.Height + small.Height + 1.2 <= box.Width && piece.Drawing.Length > 0;
        var x = box.Centre.X + (isBoth ? (upright.Height - small.Height - 0.6) / 2 : upright.Height / 2);
        canvas.Text(piece.Id, new Spot(x, box.Bottom - 0.75), upright, Anchor.Start, -Math.PI / 2);
        if (isBoth)
            canvas.Text(piece.Drawing, new Spot(x + small.Height + 0.6, box.Bottom - 0.5), small, Anchor.Start, -Math.PI / 2);
    }

    private static string In(Units units, double mm) => units == Units.Inches ? LengthText.FeetInches(mm) : LengthText.Rounded(mm, 1).ToString("0.0", CultureInfo.InvariantCulture);

    /// <summary>A remnant that goes back to the rack, with its label: rounded down, it is at least as long as is written on it.</summary>
    internal static string Kept(Units units, double mm)
    {
        var step = units == Units.Inches ? LengthText.Inch / 16 : 0.1;
        return In(units, Math.Floor((mm / step) + 1e-6) * step);
    }

    private static string Run(Units units, double mm) => (units == Units.Inches ? mm / (12 * LengthText.Inch) : mm / 1000).ToString("0.0", CultureInfo.InvariantCulture);

    private static string Length(Units units) => units == Units.Inches ? "Length" : "Length, mm";

    private static string Whole(int n) => n.ToString(CultureInfo.InvariantCulture);
}
