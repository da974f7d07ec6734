using System.Globalization;
using Rootgap.Fabricating;
using Rootgap.Measure;
using Rootgap.Site;
using Rootgap.Site.Closing;
using Rootgap.Site.Surveys;

namespace Rootgap.Sheets;

/// <summary>The closing sheet of each final-fit weld: what was measured, sixteen figures to set out, what no cut takes away, boxes for who did it; behind it the readings, and the wrap-around in true size.</summary>
public sealed class ClosingSheets
{
    private readonly Units units;

    private ClosingSheets(Units units) => this.units = units;

    public static IReadOnlyList<Page> Of(ShopJob job, LineClosing closing, IReadOnlyList<string> say)
    {
        var pages = new List<Page>();
        // A weld of which nothing was read has no sheet: there is nothing on it to be set out.
        foreach (var closure in closing.Closures.Where(c => c.Unseen.Count < Closure.Names.Count))
        {
            pages.Add(Page.Draw(job.Paper.Portrait, job.Block($"Closing {closure.Joint.Id}"), (canvas, box) => new ClosingSheets(job.Drawing.Units).Draw(canvas, box, closing, closure)));
            if (Template(closing, closure) is { } template)
                pages.AddRange(TemplateSheets.Of(template, job.Block(template.Title), job.Paper, job.Drawing.Units));
        }

        return [.. pages, .. new ClosingSheets(job.Drawing.Units).Readings(job, closing, say)];
    }

    /// <summary>The wrap-around of a cut; null where there is nothing to be cut off all round.</summary>
    public static Template? Template(LineClosing closing, Closure closure) => closure.Opening.Round.Min() <= 0 ? null
        : Fabricating.Template.Closing($"{closure.Joint.Id}, closing cut of {closing.Adjustment.Line.NameOf(closure.Joint.Long!)}", closure.Joint.Outside,
            clock => Opening.CutBack(closure.Joint, closing.Adjustment.Standing, clock), closure.Joint.Long!.IsFirst);

    private void Draw(Canvas canvas, Box box, LineClosing closing, Closure c)
    {
        var survey = closing.Adjustment.Survey;
        var questioned = closing.Adjustment.Readings.Count(r => r.IsQuestioned);
        var (strip, rest) = box.CutTop(7);
        canvas.Text($"steel {Degrees(survey.Steel)}", strip.Left, strip.Top + 4, TextStyle.Body);
        var taken = Text($"{(survey.When.Length > 0 ? "survey of " + survey.When + ", " : "")}{survey.Readings.Select(r => r.Entry).Distinct().Count()} readings, {(questioned == 0 ? "none" : questioned)} questioned{(survey.By.Length > 0 ? ", by " + survey.By : "")}");
        canvas.Text(taken, strip.Right, strip.Top + 4, TextStyle.Body.Fitting(taken, strip.Width - 32), Anchor.End);
        (var top, rest) = rest.CutTop(50);
        var columns = top.Columns(4, 62, 38);
        OpeningPicture.Draw(canvas, columns[0], closing.Adjustment.Line, c.Joint, c, units);
        Verdicts(canvas, columns[1], closing, c);
        var piece = closing.Adjustment.Line.NameOf(c.Joint.Long!);
        (var heading, rest) = rest.CutTop(9);
        canvas.Text(c.Length == Verdict.Closes ? $"Set back from the present end of {piece}, on the outside{(units == Units.Inches ? "" : ", mm")}" : $"NOT TO BE CUT YET: the length {(c.Length == Verdict.DoesNotClose ? "is short" : "is not known")}. By what is read:", heading.Left, heading.Top + 6, TextStyle.Heading.Fitting($"Set back from the present end of {piece}, on the outside, mm, by what", heading.Width));
        (var figures, rest) = rest.CutTop(43);
        Sixteen(canvas, figures, c);
        (var strip2, rest) = rest.CutTop(27);
        Unrolled(canvas, strip2.Inset(0, 1), c);
        (var steps, rest) = rest.CutTop(51);
        Steps(canvas, steps, closing, c, piece);
        (var after, rest) = rest.CutTop(25);
        AfterTacking(canvas, after, closing, c);
        Signs(canvas, rest with { Y = rest.Y + 2, Height = Math.Min(17, rest.Height - 2) });
    }

    /// <summary>A temperature of steel in degrees C, or F where lengths are in inches.</summary>
    private string Degrees(double celsius) => units == Units.Inches ? Text($"{(celsius * 1.8) + 32:0} °F") : Text($"{celsius:0.#} °C");

    private void Verdicts(Canvas canvas, Box box, LineClosing closing, Closure c)
    {
        var o = c.Opening;
        (string What, string Verdict, string Figures)[] rows =
        [
            ("length", ClosingJson.Word(c.Length), Text($"cut off {o.Mean:cut} ± {2 * c.Sd[0]:off}")),
            ("angle", ClosingJson.Word(c.Angle), Text($"{Angles.ToDegrees(o.Angle):0.00}°: {c.Slant:off} round the pipe, limit {c.GapVariation:off}")),
            ("offset", ClosingJson.Word(c.Offset), Text($"{Math.Abs(o.OffsetUp):off} to {(o.OffsetUp < 0 ? 6 : 12)}, {Math.Abs(o.OffsetSide):off} to {(o.OffsetSide < 0 ? 9 : 3)}, limit {c.OffsetLimit:off}")),
            ("roll", "free", closing.Joints.Any(j => j.State != "made" && j.Joint.IsBolted) ? "holes further on: see the joints behind" : "no holes beyond: any roll"),
        ];
        var height = box.Height / rows.Length;
        for (var i = 0; i < rows.Length; i++)
        {
            var cell = new Box(box.X, box.Y + (i * height), box.Width, height);
            canvas.Rectangle(cell, LineStyle.Medium);
            canvas.Text(rows[i].What, cell.Left + 1.5, cell.Top + 5.5, TextStyle.Strong);
            canvas.Text(rows[i].Verdict, cell.Right - 1.5, cell.Top + 5.5, TextStyle.Strong, Anchor.End);
            canvas.TextIn(new(cell.Left + 1.5, cell.Top + 7.5, cell.Width - 3, cell.Height - 8), rows[i].Figures, TextStyle.Small);
        }
    }

    private void Sixteen(Canvas canvas, Box box, Closure c)
    {
        var rows = new[] { box with { Height = 20 }, box with { Y = box.Y + 21.5, Height = 20 } };
        for (var i = 0; i < Opening.Places; i++)
        {
            var cell = rows[i / 8].Columns(0, [.. Enumerable.Repeat(1.0, 8)])[i % 8];
            var isQuarter = i % 4 == 0;
            var (head, body) = cell.CutTop(6);
            if (isQuarter)
                canvas.Fill(Shape.Rectangle(head));
            var ink = isQuarter ? Ink.White : Ink.Black;
            canvas.Text((i + 1).ToString(CultureInfo.InvariantCulture), head.Left + 1.5, head.Top + 4.4, TextStyle.Strong with { Ink = ink });
            canvas.Text(Clock.Text(i * Math.PI / 8), head.Right - 1.5, head.Top + 4.4, (isQuarter ? TextStyle.Strong : TextStyle.Small) with { Ink = ink }, Anchor.End);
            canvas.Rectangle(cell, isQuarter ? LineStyle.Thick : LineStyle.Medium);
            var figure = Text($"{c.Opening.Round[i]:cut}");
            canvas.Text(figure, body.Centre.X, body.Centre.Y + 2.7, new TextStyle(5.4, Bold: true).Fitting(figure, cell.Width - 2), Anchor.Middle);
        }
    }

    private void Unrolled(Canvas canvas, Box box, Closure c)
    {
        var (words, strip) = box.CutTop(6);
        var (low, high) = (c.Opening.Round.Min(), c.Opening.Round.Max());
        canvas.Text(Text($"The cut unrolled, {Math.PI * c.Joint.Outside:cut} round, heights drawn larger; the wrap-around in true size is behind."), words.Left, words.Top + 3.5, TextStyle.Small);
        canvas.Rectangle(strip, LineStyle.Medium);
        var middle = (low + high) / 2;
        var scale = (strip.Height - 9) / Math.Max(high - low, 0.2) / 1.2;
        canvas.Polyline(Enumerable.Range(0, 65).Select(i =>
        {
            var at = c.Opening.Round[i / 4 % 16] + ((c.Opening.Round[((i / 4) + 1) % 16] - c.Opening.Round[i / 4 % 16]) * (i % 4) / 4.0);
            return new Spot(strip.Left + (strip.Width * i / 64), strip.Top + (strip.Height * 0.42) - ((at - middle) * scale));
        }), LineStyle.Thick);
        for (var i = 0; i < Opening.Places; i++)
        {
            var x = strip.Left + (strip.Width * i / Opening.Places);
            canvas.Line(x, strip.Top, x, strip.Bottom, LineStyle.Thin);
            canvas.Text((i + 1).ToString(CultureInfo.InvariantCulture), x + 1, strip.Bottom - 1, TextStyle.Small);
        }
    }

    private void Steps(Canvas canvas, Box box, LineClosing closing, Closure c, string piece)
    {
        var survey = closing.Adjustment.Survey;
        var joint = c.Joint;
        List<string> steps =
        [
            Text($"Lay the wrap-around with its seam at 12 o'clock and its chain line on the end of {piece} as it is; the numbers run clockwise looking along the line as it is written. Mark all sixteen, join them."),
            Text($"Read 4 of the 16 again before cutting. Steel within {(units == Units.Inches ? "9 °F" : "5 °C")} of {Degrees(survey.Steel)}, else ask for the sheet again ({(units == Units.Inches ? Text($"{closing.Adjustment.Expansion / 1.8 * 1200 * LengthText.Inch:small} on 100 ft and °F") : Text($"{closing.Adjustment.Expansion * 1e3:0.000} mm a metre and °C"))})."),
            Text($"Cut outside the line, dress to it, bevel by the procedure. Gap rod {joint.Gap:off} at 12, 3, 6, 9; straight edge over both outsides at 12 and 3."),
        ];
        if (closing.Joints.FirstOrDefault(j => j.Joint.IsBolted && j.State != "made" && (j.Joint.First.Body.IsOutside || j.Joint.Second.Body.IsOutside)) is { } flange)
            steps.Add($"{flange.Joint.Id} stays loose until {joint.Id} is tacked: never pull flanges together by their bolts. Read its face gap before and after, four places.");
        if (joint.Sides.Any(e => e.Body.IsOutside) && !joint.IsBolted)
            steps.Add("Existing pipe. " + Cautions.ExistingLine);
        (var heading, box) = box.CutTop(7);
        canvas.Text("In this order", heading.Left, heading.Top + 5, TextStyle.Heading);
        var style = TextStyle.Body with { Height = 3 };
        var y = box.Top;
        for (var i = 0; i < steps.Count; i++)
        {
            canvas.Text((i + 1).ToString(CultureInfo.InvariantCulture), box.Left + 1, y + 3, style with { Bold = true });
            var lines = style.Wrap(steps[i], box.Width - 8);
            canvas.TextIn(new(box.Left + 7, y, box.Width - 8, (lines.Count * style.Pitch) + 1), steps[i], style);
            y += (lines.Count * style.Pitch) + 0.8;
        }
    }

    private void AfterTacking(Canvas canvas, Box box, LineClosing closing, Closure c)
    {
        var flange = closing.Joints.FirstOrDefault(j => j.Joint.IsBolted && j.State != "made" && (j.Joint.First.Body.IsOutside || j.Joint.Second.Body.IsOutside))?.Joint.Id;
        string[] rows = ["read after tacking", "gap", "hi-lo", .. flange is null ? Array.Empty<string>() : [flange + " face gap, before | after"]];
        double[] shares = [30, 13, 13, 13, 13, 20, 20];
        var height = 5.8;
        for (var r = 0; r < rows.Length; r++)
        {
            var cells = new Box(box.X, box.Y + (r * height), box.Width, height).Columns(0, shares);
            string[] texts = r switch
            {
                0 => [rows[0], "12", "3", "6", "9", "limit", "by"],
                1 => [rows[1], "", "", "", "", Text($"{c.Joint.Gap - c.GapVariation:off} to {c.Joint.Gap + c.GapVariation:off}"), ""],
                2 => [rows[2], "", "", "", "", Text($"{c.HiLo:off}"), ""],
                _ => [rows[3], "|", "|", "|", "|", "the same", ""],
            };
            for (var k = 0; k < cells.Count; k++)
            {
                canvas.Rectangle(cells[k], LineStyle.Thin);
                var isMiddle = k is > 0 and < 5;
                var style = (r == 0 || k == 0 ? TextStyle.Strong : TextStyle.Body) with { Height = 3 };
                canvas.Text(texts[k], isMiddle ? cells[k].Centre.X : cells[k].Left + 1.5, cells[k].Top + 4.1, style.Fitting(texts[k], cells[k].Width - 2), isMiddle ? Anchor.Middle : Anchor.Start);
            }
        }
    }

    private static void Signs(Canvas canvas, Box box)
    {
        string[] names = ["line checked again", "tacked", "closed and welded", "free of force seen"];
        var cells = box.Columns(0, 1, 1, 1, 1);
        for (var i = 0; i < names.Length; i++)
        {
            canvas.Rectangle(cells[i], LineStyle.Medium);
            canvas.Text(names[i], cells[i].Left + 1.5, cells[i].Top + 4.2, TextStyle.Strong with { Height = 3 });
            canvas.Line(cells[i].Left + 2, cells[i].Bottom - 3, cells[i].Right - 2, cells[i].Bottom - 3, LineStyle.Thin with { Dash = Dash.Dotted });
        }
    }

    /// <summary>All readings with what the adjustment makes of them, the joints further on, and what is to be said.</summary>
    private IReadOnlyList<Page> Readings(ShopJob job, LineClosing closing, IReadOnlyList<string> say)
    {
        var flow = new Flow(job.Paper, job.Block("Survey: readings and joints")).Heading("What it says").Bullets(say);
        flow.Heading("Readings", 2).Table(new Table(
            [new("", Anchor.End), new("Reading", ColumnWidth.Share()), new("Read", Anchor.End), new("Reckoned", Anchor.End), new("Off", Anchor.End), new("In its spreads", Anchor.End)],
            closing.Adjustment.Readings.Select(r =>
            {
                var isAngle = r.Taken.Reading.IsAngle;
                string Shown(double v) => isAngle ? LengthText.Millimetres(Angles.ToDegrees(v), 2) + "°" : Text($"{v:cut}");
                return new Row(
                    Text($"{r.Taken.Entry + 1}"), r.Taken.Reading.Says(units), Shown(r.Taken.Value), Shown(r.Taken.Value - r.Residual), isAngle ? Shown(r.Residual) : Text($"{r.Residual:off}"),
                    r.IsQuestioned ? Cell.Warn(Text($"{r.Standardised:0.0}: again")) : r.IsUnchecked ? "nothing checks it" : LengthText.Millimetres(r.Standardised, 1));
            }))
        { Style = TextStyle.Small, WhenEmpty = "nothing read yet" });
        flow.Heading("Joints", 2).Table(new Table(
            ["Joint", "State", new("Toward 12", Anchor.End), new("Toward 3", Anchor.End), new("Along", Anchor.End), new("Out of line", Anchor.End), new(units == Units.Inches ? "Roll, round" : "Roll, mm round", Anchor.End), new("", ColumnWidth.Share())],
            closing.Joints.Select(j => new Row(
                j.Joint.Id, j.State, Text($"{j.Off.Y:off}"), Text($"{j.Off.X:off}"), Text($"{j.Off.Z:off}"), Text($"{Angles.ToDegrees(j.Off.Tilt):0.00}°"),
                Text($"{j.Off.Rz * (j.Joint.Bolting?.Circle ?? j.Joint.Outside) / 2:off}"), j.State == "made" ? "" : j.IsWithin ? "within" : Cell.Warn("out"))))
        { Style = TextStyle.Small });
        flow.Warning("Hot cutting and grinding need the site's hot-work permit. The welding procedure decides bevel, gap and fit. Nothing is jacked or pulled into place beyond what the engineer allows; the machine's flanges are free of force.", "Caution");
        return flow.Pages;
    }

    private string Text(FormattableString s) => LengthText.Say(units, s);
}
