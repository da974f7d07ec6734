using System.Globalization;
using Rootgap.FitUp;
using Rootgap.Measure;

namespace Rootgap.Sheets;

/// <summary>What one fit-up card is made from.</summary>
/// <param name="Card">The joint in its turn, as it stands.</param>
/// <param name="Words">In the drawing's units, with the names that parts have on the other sheets.</param>
public sealed record FitUpJob(FitCard Card, FitWords Words)
{
    public FitStep Step => Card.Step;

    /// <summary>Number of joints of the spool.</summary>
    public int Of => Card.Of;

    public StandingJoint Standing => Card.Standing;

    /// <summary>A code for a camera in the card's head; null where there is none.</summary>
    public Figure? Code { get; init; }

    public FitTolerance Limits => Card.Limits;

    public IReadOnlyList<Target> Targets => Card.Targets;

    /// <summary>All that is written in: what is read at the joint, then what is read of the new part itself.</summary>
    public IReadOnlyList<Target> Fields { get; } = [.. Card.Targets, .. Card.OfPart];
}

/// <summary>
/// The fit-up card of one joint: head, picture, readings with room for the pen, words. It is as high as these need; nothing is set smaller to fit.
/// </summary>
public static class FitUpCard
{
    private static readonly TextStyle Fine = TextStyle.Small;
    private static readonly TextStyle FineBold = Fine with { Bold = true };

    /// <summary>Said where a joint shows nothing.</summary>
    public const string NothingToRead = "Nothing can be read at this joint: no gap is seen and no end is free. Set it by its marks; what it makes of the spool is read at the next joint and at the final check.";

    /// <summary>What holds for every card of a page.</summary>
    internal static string ForAll(Units units) =>
        $"Tacks hold nothing up: hook on until every stand carries. end: {(units == Units.Inches ? "1/16\"" : "1 mm")} (0.1°) here is so many {(units == Units.Inches ? "sixteenths" : "mm")} at the end.";

    private const double PictureWidth = 50, LeastPicture = 34, BranchPicture = 40, HeadLeast = 11, TableHead = 4.6, RowLeast = 5.8, RowMost = 9, CodeSide = 10;

    // Columns of the readings, mm: letter, target, allowance, what it is at the end, four cells for the pen; the name takes the rest.
    private const double LetterWidth = 4.5, TargetWidth = 22, AllowWidth = 10.5, EndWidth = 7.5, PenWidth = 13;

    /// <summary>Height that a card needs at a width, mm.</summary>
    internal static double Needs(FitUpJob job, double width) => new Layout(job, width).Height;

    /// <summary>A card as a page of its own, for the screen.</summary>
    public static Scene Scene(FitUpJob job)
    {
        const double Width = 180, Margin = 6;
        var canvas = new Canvas();
        var words = Fine.Wrap(ForAll(job.Words.Units), Width);
        var below = (words.Count * Fine.Pitch) + 1;
        var height = Math.Max(62, Needs(job, Width));
        var paper = new Paper("card", Width + (2 * Margin), height + below + (2 * Margin));
        Draw(canvas, new(Margin, Margin, Width, height), job);
        canvas.Lines(words, Margin, Margin + height + 2, Width, Fine, Anchor.Start);
        return canvas.ToScene(paper, "Fit-up " + job.Step.Joint.Name);
    }

    /// <summary>The picture of a card alone: both parts in their set-up, with clock, marks and tapes.</summary>
    public static Scene Picture(FitUpJob job)
    {
        var canvas = new Canvas();
        var paper = new Paper("picture", 110, 84);
        FitUpPicture.Draw(canvas, paper.Box.Inset(2), job.Standing, job.Targets, job.Words);
        return canvas.ToScene(paper, $"{job.Step.Joint.Name}, {job.Standing.SetUp.Word}");
    }

    public static void Draw(Canvas canvas, Box box, FitUpJob job) => canvas.Group("card-" + job.Step.Joint.Name, "fit-up-card", g =>
    {
        var layout = new Layout(job, box.Width);
        var (head, rest) = box.CutTop(layout.HeadHeight);
        var (foot, body) = rest.CutBottom(layout.FootHeight);
        g.Rectangle(box, LineStyle.Thick);
        Head(g, head, job, layout);
        g.Line(head.Left, head.Bottom, head.Right, head.Bottom, LineStyle.Medium);
        FitUpPicture.Draw(g, body with { Width = PictureWidth }, job.Standing, job.Targets, job.Words);
        g.Line(body.Left + PictureWidth, body.Top, body.Left + PictureWidth, body.Bottom, LineStyle.Thin);
        Readings(g, new(body.Left + PictureWidth, body.Top, body.Width - PictureWidth, body.Height), job, layout);
        g.Line(foot.Left, foot.Top, foot.Right, foot.Top, LineStyle.Medium);
        g.Lines(layout.Words, foot.Left + 2, foot.Top + 1.4, foot.Width - 4, Fine, Anchor.Start);
    });

    /// <summary>What stands on a card, wrapped to its width, and how much room it takes.</summary>
    private sealed class Layout
    {
        public Layout(FitUpJob job, double width)
        {
            NameWidth = width - PictureWidth - LetterWidth - TargetWidth - AllowWidth - EndWidth - (4 * PenWidth);
            var side = (job.Code is null ? 0 : CodeSide) + 3;
            Title = [.. FineBold.Wrap(Held(job), width - TitleLeft - side), .. FineBold.Wrap(Brought(job), width - TitleLeft - side)];
            HeadHeight = Math.Max(HeadLeast, (Title.Count * Fine.Pitch) + 2);
            Rows = [.. FitUpCard.Rows(job)];
            Names = [.. Rows.Select(r => Fine.Wrap(r.Name, NameWidth - 2))];
            Heights = [.. Rows.Zip(Names, (r, n) => Math.Max(RowLeast, ((Math.Max(n.Count, Math.Max(r.Value.Split('\n').Length, r.Allow.Split('\n').Length)) - 1) * Fine.Pitch) + Fine.Height + 1.6))];
            Words = Fine.Wrap(Said(job, Rows), width - 4);
            FootHeight = (Words.Count * Fine.Pitch) + 1.8;
            Height = HeadHeight + Math.Max(TableHead + Heights.Sum(), job.Step.Joint.Weld == FitWeld.Branch ? BranchPicture : LeastPicture) + FootHeight;
        }

        public double NameWidth { get; }

        public IReadOnlyList<string> Title { get; }

        public double HeadHeight { get; }

        public IReadOnlyList<ReadingLine> Rows { get; }

        public IReadOnlyList<IReadOnlyList<string>> Names { get; }

        public IReadOnlyList<double> Heights { get; }

        public IReadOnlyList<string> Words { get; }

        public double FootHeight { get; }

        public double Height { get; }
    }

    private const double StepWidth = 16, TitleLeft = 60;

    private static void Head(Canvas canvas, Box box, FitUpJob job, Layout layout)
    {
        var (step, j) = (job.Step, job.Step.Joint);
        var black = box with { Width = StepWidth };
        canvas.Fill(Shape.Rectangle(black));
        canvas.Text("step", black.Centre.X, black.Top + 3.9, Fine with { Ink = Ink.White }, Anchor.Middle);
        canvas.Text(Text($"{step.Number} / {job.Of}"), black.Centre.X, black.Top + 8.9, TextStyle.Strong with { Ink = Ink.White, Height = 3.2 }, Anchor.Middle);
        var name = TextStyle.Heading.Width(j.Name);
        canvas.Text(j.Name, black.Right + 2, box.Top + 7.6, TextStyle.Heading);
        var x = black.Right + 4 + name;
        canvas.Text($"{Kind(j)}, NPS {j.Size}", x, box.Top + 4.2, Fine);
        canvas.Text(Welding(job), x, box.Top + 8.8, Fine);
        canvas.Lines(layout.Title, box.Left + TitleLeft, box.Top + 1.6, box.Width, FineBold, Anchor.Start);
        if (job.Code is { } code)
            canvas.Place(code, new(box.Right - CodeSide - 0.6, box.Top + 0.5), CodeSide / Math.Max(code.Width, code.Height));
    }

    private static string Kind(FitJoint j) => j.Weld switch { FitWeld.Socket => "socket", FitWeld.SlipOn => "slip-on", FitWeld.Branch => "branch", _ => "butt" } + (j.IsWelded ? ", welded" : "");

    private static string Held(FitUpJob job)
    {
        var (standing, j) = (job.Standing, job.Step.Joint);
        var how = standing.SetUp.Attitude switch
        {
            Attitude.OnEnd => "on end",
            Attitude.Level => "level",
            Attitude.Clamped => "clamped",
            _ => Text($"rolled {standing.SetUp.Roll:0.#}° from level"),
        };
        return $"hold {Named(job, j.Held, j.HeldSide)}, {how}{(standing.HasMarks ? $"; marks {job.Words.Place(standing.Mark)} back" : "")}";
    }

    private static string Brought(FitUpJob job)
    {
        var j = job.Step.Joint;
        return j.IsRing
            ? $"close the ring at {Name(job, j.New)}: nothing is lifted, both sides hang together"
            : $"bring {Named(job, j.New, j.Brought)}, {(j.Brought.Unknown.Count > 0 ? "at least " : "")}{job.Words.Mass(j.Brought.Mass)}{(j.Brought.Mass > 0 ? Text($", centre {job.Words.Place((j.Brought.Centre - j.Centre).Length)} from the weld") : "")}";
    }

    // What hangs on it by its numbers alone.
    private static string Named(FitUpJob job, FitPart part, Assembly side) =>
        Name(job, part) + (side.IsSingle ? "" : " with " + string.Join(", ", side.Parts.Where(p => p != part).Select(p => p.Label)));

    private static string Name(FitUpJob job, FitPart part) => job.Words.NameOf(part.Id);

    // All that is said below the readings.
    private static string Said(FitUpJob job, IReadOnlyList<ReadingLine> rows)
    {
        var over = job.Step.TurnOvers switch { 0 => "", 1 => "Turn over first. ", var n => Text($"Turn over {n} times first. ") };
        List<string> said = [over + Tacks(job, rows), .. job.Words.StandingInShort(job.Card).Concat(job.Words.Kept(job.Card)).Select(Sentence), .. MindHere(job)];
        return string.Join(" ", said);
    }

    // In which order to tack, and what is read between, by the letters of the rows.
    private static string Tacks(FitUpJob job, IReadOnlyList<ReadingLine> rows)
    {
        if (job.Standing.Joint.IsWelded)
            return string.Join(" ", TackOrder(job));
        string Letters(Func<Reading, bool> counts) => string.Join(", ", rows.Select((r, i) => (r, i)).Where(x => x.r.Targets.Any(t => counts(t.Reading))).Select(x => Letter(x.i)));
        var first = Letters(r => r is Reading.FaceLevelAcross or Reading.Holes or Reading.Tape or Reading.EndTape);
        var second = Letters(r => r is Reading.Gap or Reading.FaceLevelAlong or Reading.Scale or Reading.Plumb);
        var more = 350 < job.Step.Joint.Outside ? ", then four more between them" : "";
        return $"{Begin(job)}, tack 12;{(first.Length > 0 ? $" read {first}," : "")} tack 6;{(second.Length > 0 ? $" read {second}," : "")} tack 3, 9{more}; read all again. Clock: looking into {job.Step.Joint.New.Label}.";
    }

    private static string Begin(FitUpJob job)
    {
        var j = job.Step.Joint;
        return j.Weld == FitWeld.Socket ? Text($"Scribe, draw back {job.Words.Gap(j.Gap)}") : 0 < j.Gap ? Text($"Gap rod {job.Words.Gap(j.Gap)}, bores matched") : "Set it to its marks";
    }

    /// <summary>In which order to read and tack, four lines; of a joint that is welded, what is read of it.</summary>
    public static IReadOnlyList<string> TackOrder(FitUpJob job)
    {
        if (job.Standing.Joint.IsWelded)
            return ["Let it cool, support it as when it was fitted.", "Read all, write it in: what the weld has pulled is in it."];
        var has = job.Targets.Select(t => t.Reading).ToList();
        bool Has<T>() => has.Exists(r => r is T);
        List<string> first = [], second = [];
        if (Has<Reading.FaceLevelAcross>())
            first.Add("level across");
        if (Has<Reading.Holes>())
            first.Add("hole level");
        if (Has<Reading.Tape>() || Has<Reading.EndTape>())
            first.Add("tapes");
        if (Has<Reading.FaceLevelAlong>())
            second.Add("level along");
        if (Has<Reading.Scale>())
            second.Add("scale");
        if (Has<Reading.Plumb>() && second.Count == 0)
            second.Add("plumb");
        var weld = job.Step.Joint.Weld;
        // What is pushed into a socket or a flange shows no gap.
        var set = weld switch { FitWeld.Socket => "the scribe line all round", FitWeld.SlipOn => "the setback all round", _ => "gap all round" };
        second.Add(set);
        var more = 350 < job.Step.Joint.Outside ? " Four more between them." : "";
        return
        [
            Text($"{Begin(job)}, tack 1."),
            Text($"Read {(first.Count > 0 ? string.Join(", ", first) : set)}; bring true, tack 2."),
            Text($"Read {string.Join(", ", second)}; tack 3 and 4.{more}"),
            "Read all again, write it in.",
        ];
    }

    private static string Sentence(string words) => char.ToUpperInvariant(words[0]) + words[1..] + ".";

    // A row of the readings: what is read, its target and allowance, what it is at the spool's end; the clock positions at which it is written, none where it has no clock.
    private sealed record ReadingLine(string Name, string Value, string Allow, string End, List<int> At, IReadOnlyList<Target> Targets);

    private static string Letter(int row) => ((char)('a' + row)).ToString();

    private static readonly double[] TargetHeights = [4, 3.5, 3, 2.5];

    private static void Readings(Canvas canvas, Box box, FitUpJob job, Layout layout)
    {
        var pens = box.Right - (4 * PenWidth);
        var (end, allow) = (pens - EndWidth, pens - EndWidth - AllowWidth);
        var target = allow - TargetWidth;
        if (layout.Rows.Count == 0)
        {
            canvas.TextIn(box.Inset(2, 2), NothingToRead, Fine);
            return;
        }

        canvas.Text("read", box.Left + LetterWidth + 1, box.Top + 3.6, FineBold).Text("target", allow - 1, box.Top + 3.6, FineBold, Anchor.End)
            .Text("±", allow + (AllowWidth / 2), box.Top + 3.6, FineBold, Anchor.Middle).Text("end", end + (EndWidth / 2), box.Top + 3.6, FineBold, Anchor.Middle);
        for (var i = 0; i < 4; i++)
            canvas.Text(StandingJoint.Clock[i].ToString(CultureInfo.InvariantCulture), pens + ((i + 0.5) * PenWidth), box.Top + 3.6, FineBold, Anchor.Middle);
        // Where there is room to spare the pen has it.
        var more = Math.Min((box.Height - TableHead - layout.Heights.Sum()) / layout.Rows.Count, RowMost - RowLeast);
        var y = box.Top + TableHead;
        for (var r = 0; r < layout.Rows.Count; r++)
        {
            var (row, height) = (layout.Rows[r], layout.Heights[r] + more);
            canvas.Line(box.Left, y, box.Right, y, LineStyle.Thin);
            var middle = y + (height / 2);
            canvas.Text(Letter(r), box.Left + (LetterWidth / 2), middle + 1.25, FineBold, Anchor.Middle);
            Centred(layout.Names[r], box.Left + LetterWidth + 1, layout.NameWidth, Fine, Anchor.Start);
            var values = row.Value.Split('\n');
            var style = FineBold with { Height = values.Length > 1 ? 2.5 : TargetHeights.FirstOrDefault(h => (FineBold with { Height = h }).Width(row.Value) <= TargetWidth - 1.5, 2.5) };
            Centred(values, target, TargetWidth - 1, style, Anchor.End);
            Centred(row.Allow.Split('\n'), allow, AllowWidth, Fine, Anchor.Middle);
            Centred([row.End], end, EndWidth, Fine, Anchor.Middle);
            // Cells for the pen: one a clock position, or one a figure.
            var spans = row.At.Count > 0 ? [.. row.At.Select(at => (From: StandingJoint.Clock.ToList().IndexOf(at), Wide: 1.0))] : Enumerable.Range(0, row.Targets.Count).Select(i => (From: i * 4 / row.Targets.Count, Wide: 4.0 / row.Targets.Count)).ToList();
            for (var i = 0; i < spans.Count; i++)
            {
                var left = row.At.Count > 0 ? pens + (spans[i].From * PenWidth) : pens + (i * spans[i].Wide * PenWidth);
                canvas.Line(left, y, left, y + height, LineStyle.Thin).Line(left + (spans[i].Wide * PenWidth), y, left + (spans[i].Wide * PenWidth), y + height, LineStyle.Thin);
            }

            // No reading at this position.
            if (row.At.Count > 0)
            {
                for (var i = 0; i < 4; i++)
                {
                    if (!row.At.Contains(StandingJoint.Clock[i]))
                        canvas.Line(pens + ((i + 0.5) * PenWidth) - 1.5, middle, pens + ((i + 0.5) * PenWidth) + 1.5, middle, LineStyle.Medium);
                }
            }

            y += height;

            void Centred(IReadOnlyList<string> lines, double left, double width, TextStyle its, Anchor anchor) =>
                canvas.Lines(lines, left, middle - ((its.Height + ((lines.Count - 1) * its.Pitch)) / 2), width, its, anchor);
        }

        canvas.Line(box.Left, y, box.Right, y, LineStyle.Thin);
        foreach (var x in (double[])[box.Left + LetterWidth, target, allow, end, pens])
            canvas.Line(x, box.Top, x, y, LineStyle.Thin);
    }

    private static IEnumerable<ReadingLine> Rows(FitUpJob job)
    {
        foreach (var name in (string[])["gap", "hi-lo", "tape", "end tape", "plumb", "diagonal", "height", "square", "straight edge"])
        {
            var all = job.Targets.Where(t => t.Reading.Name == name && t.Reading.Position is not null).ToList();
            var groups = all.GroupBy(t => (Value(job, t), Drawn(job, t))).ToList();
            foreach (var group in groups)
            {
                var at = group.Select(t => t.Reading.Position!.Value).ToList();
                // One figure with several allowances: each with where it counts.
                var allowed = group.GroupBy(t => job.Words.ShowSmall(t.Reading, t.Allow)).ToList();
                var where = allowed.Count > 1 ? ", ± at " + string.Join(" | ", allowed.Select(a => string.Join(", ", a.Select(t => t.Reading.Position)))) : groups.Count > 1 ? ", at " + string.Join(", ", at) : "";
                yield return Line(job, Heading(name, job) + where, [.. group]) with { Value = InCell([Value(job, group.First())]), Allow = string.Join('\n', allowed.Select(a => a.Key)), At = at };
            }
        }

        var singles = job.Targets.Where(t => t.Reading.Position is null).ToList();
        var isStraight = job.Standing.Joint.Turn.IsStraight;
        foreach (var row in InPairs(job, singles.Where(t => t.Reading is Reading.FaceLevelAlong or Reading.FaceLevelAcross), t => t.Reading is Reading.FaceLevelAlong ? "along" : "across", "level ", ", + " + string.Join(" | ", singles.Where(t => t.Reading is Reading.FaceLevelAlong or Reading.FaceLevelAcross).Select(t => t.Reading is Reading.FaceLevelAcross ? "3" : isStraight ? "12" : "throat")) + " high"))
            yield return row;
        foreach (var t in singles.Where(t => t.Reading is Reading.Holes or Reading.FlatLevel or Reading.HoleLine))
            yield return Line(job, $"{(t.Reading is Reading.HoleLine ? Label(t) : Label(t) + " level")}, + {Plus(t.Reading)}", [t]);
        foreach (var row in InPairs(job, singles.Where(t => t.Reading is Reading.Scale), t => job.Words.Place(((Reading.Scale)t.Reading).Station), "scale to pipe, ", " back"))
            yield return row;
        foreach (var t in singles.Where(t => t.Reading is Reading.TurnMark || (t.Reading is Reading.Height && job.Standing.Joint.Far is null)))
            yield return Line(job, t.Reading is Reading.TurnMark ? "turn mark, + clockwise" : "height of crown", [t]);
        var alone = job.Standing.Joint.New.Label + " alone, + out: ";
        foreach (var row in InPairs(job, job.Card.OfPart.Where(t => t.Reading is Reading.OutOfSquare), t => Text($"{((Reading.OutOfSquare)t.Reading).At}"), alone + "square at "))
            yield return row;
        foreach (var t in job.Card.OfPart.Where(t => t.Reading is not Reading.OutOfSquare))
            yield return Line(job, alone + "round", [t]);
    }

    // Two of a kind in one row, a bar between.
    private static IEnumerable<ReadingLine> InPairs(FitUpJob job, IEnumerable<Target> targets, Func<Target, string> name, string before, string after = "")
    {
        foreach (var group in targets.GroupBy(t => Drawn(job, t)))
        {
            foreach (var pair in group.Chunk(2))
            {
                yield return Line(job, before + string.Join(" | ", pair.Select(name)) + after, pair) with
                {
                    Allow = string.Join('\n', pair.Select(t => job.Words.ShowSmall(t.Reading, t.Allow)).Distinct()),
                };
            }
        }
    }

    private static ReadingLine Line(FitUpJob job, string name, Target[] targets)
    {
        // Of one kind the reading that shows the error best counts.
        var end = targets.Where(t => 0.5 <= t.AtSpoolEnd).MinBy(t => t.AtSpoolEnd);
        var says = end is null ? "" : end.Reading.IsAngle && job.Words.Units == Units.Inches ? (end.AtSpoolEnd / LengthText.Inch * 16).ToString("0.#", CultureInfo.InvariantCulture) : end.AtSpoolEnd.ToString("0", CultureInfo.InvariantCulture);
        var values = targets.Select(t => Value(job, t)).ToList();
        return new(name + (targets.Any(Differs) ? " (in line)" : "") + Drawn(job, targets[0]), InCell(values),
            job.Words.ShowSmall(targets[0].Reading, targets.Min(t => t.Allow)), says, [], targets);
    }

    // Side by side where the cell holds them, else one below the other.
    private static string InCell(IReadOnlyList<string> values)
    {
        var one = string.Join(" | ", values);
        return FineBold.Width(one) <= TargetWidth - 1.5 ? one : string.Join('\n', values.SelectMany(v => FineBold.Wrap(v, TargetWidth - 1.5)));
    }

    // With an error kept before, the figure without it as well.
    private static string Drawn(FitUpJob job, Target target) =>
        Math.Abs(target.Value - target.Drawn) > (target.Reading.IsAngle ? 1e-4 : 0.05) ? $", drawn {job.Words.Show(target.Reading, target.Drawn)}" : "";

    private static string Plus(Reading reading) => reading switch
    {
        Reading.FlatLevel => "far end high",
        Reading.HoleLine => "clockwise",
        _ => "3 high",
    };

    private static string Heading(string name, FitUpJob job) => name switch
    {
        "hi-lo" => "hi-lo, + new out",
        "tape" => "tape, mark to lip",
        "end tape" => $"tape, lip of {job.Standing.Joint.HeldEnd!.Label} to lip",
        "plumb" => "plumb at lip, level to mark",
        "height" => job.Standing.SetUp.Attitude == Attitude.OnEnd ? "lip over plate" : "lip over floor",
        "diagonal" => "diagonal, far lip to opposite",
        "square" => "square on face, + blade off",
        "straight edge" => "straight edge, + new out",
        _ => name,
    };

    // The line as drawn shows another angle than the bench.
    private static bool Differs(Target target) => target.InLine is { } inLine && 1e-3 < Math.Abs(inLine - target.Value);

    private static string Label(Target target) => target.Reading switch
    {
        Reading.Holes => "holes",
        Reading.HoleLine => "pins to north",
        _ => "flat",
    };

    private static string Value(FitUpJob job, Target target) => job.Words.Show(target.Reading, target.Value) + (Differs(target) ? $" ({job.Words.Show(target.Reading, target.InLine!.Value)})" : "");

    /// <summary>The welding position as the joint stands.</summary>
    public static string Position(FitUpJob job) => Welding(job) switch
    {
        "2G" => "Position 2G, pipe upright",
        "1G, rolled" => "Position 1G, can be rolled",
        "5G, fixed" => "Position 5G, fixed",
        _ => "Position: by the procedure",
    };

    private static string Welding(FitUpJob job) =>
        job.Step.Joint.Weld == FitWeld.Branch ? ""
        : job.Standing.SetUp.Attitude == Attitude.OnEnd || Math.Abs(job.Standing.Axis.Dot(job.Standing.SetUp.Up)) > 0.94 ? "2G"
        : job.Step.CanRoll ? "1G, rolled" : "5G, fixed";

    /// <summary>What to mind at the joint before and while it is fitted.</summary>
    public static IReadOnlyList<string> Mind(FitUpJob job) => ["Tacks hold nothing up: support first.", .. MindHere(job)];

    private static List<string> MindHere(FitUpJob job)
    {
        var step = job.Step;
        List<string> words = [];
        if (step.InTheWay.Count > 0)
            words.Add("No room at every tack: " + string.Join(", ", step.InTheWay.Select(job.Words.NameOf)) + " stands in the way.");
        if (step.Number == job.Of)
            words.Add("Last joint: look inside first; clean, dry, nothing left in it.");
        words.AddRange(job.Words.Besides(job.Card).Select(Sentence));
        if (step.Joint.BranchAt is not null)
            words.Add("Hole no larger than the bore.");
        return words;
    }

    private static string Text(FormattableString s) => FormattableString.Invariant(s);
}
