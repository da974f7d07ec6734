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

    public FitTolerance Limits => Card.Limits;

    public IReadOnlyList<Target> Targets => Card.Targets;

    /// <summary>All that is written in: what is read at the joint, then what is read of the new part itself.</summary>
    public IReadOnlyList<Target> Fields { get; } = [.. Card.Targets, .. Card.OfPart];
}

/// <summary>The fit-up card of one joint: half an A4 page.</summary>
public static class FitUpCard
{
    private static readonly TextStyle Fine = TextStyle.Small;

    /// <summary>Said where a joint shows nothing.</summary>
    public const string NothingToRead = "Nothing can be read at this joint: no gap is seen and no end is free. Set it by its marks; what it makes of the spool is read at the next joint and at the final check.";

    /// <summary>A card as a page of its own, A5 across, for the screen.</summary>
    public static Scene Scene(FitUpJob job)
    {
        var canvas = new Canvas();
        var paper = Paper.A5.Landscape;
        Draw(canvas, paper.Box.Inset(6), job);
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

    public static void Draw(Canvas canvas, Box box, FitUpJob job)
    {
        canvas.Group("card-" + job.Step.Joint.Name, "fit-up-card", g =>
        {
            g.Rectangle(box, LineStyle.Thick);
            var (head, rest) = box.CutTop(13);
            Head(g, head.Inset(2, 1.5), job);
            g.Line(head.Left, head.Bottom, head.Right, head.Bottom, LineStyle.Medium);
            // What is to be minded is never set smaller: it takes its room.
            var mind = Minded(job);
            var (foot, body) = rest.CutBottom(Math.Clamp((Fine.Wrap(mind, (rest.Width - 4) * FootShare).Count * Fine.Pitch) + 3, 14, 22));
            var columns = body.Columns(0, 44, 56);
            var (words, upper) = columns[0].CutBottom(33);
            var standing = string.Join(" ", job.Words.StandingInShort(job.Card).Concat(job.Words.Kept(job.Card)).Select(Sentence));
            // Long words stand under the readings where these leave room, so that the picture keeps its own; what does not fit under the picture is set smaller, never left out.
            var lines = Fine.Wrap(standing, columns[0].Width - 4).Count;
            var beside = (Fine.Wrap(standing, columns[1].Width - 4).Count * Fine.Pitch) + 2;
            var (below, readings) = columns[1].CutBottom(beside);
            var isBeside = lines > FewLines && ReadingsHead + (Rows(job).Count() * LeastRow) + 4 <= readings.Height;
            var (stands, picture) = upper.CutBottom(isBeside ? 0 : Math.Min(upper.Height * 0.5, (lines * Fine.Pitch) + 1.5));
            g.TextIn((isBeside ? below : stands).Inset(2, 0.5), standing, Fine);
            FitUpPicture.Draw(g, picture, job.Standing, job.Targets, job.Words);
            Dial(g, words with { Width = 30 }, job);
            Tacks(g, new Box(words.X + 30, words.Y + 1, words.Width - 32, words.Height - 2), job);
            g.Line(columns[1].Left, body.Top, columns[1].Left, body.Bottom, LineStyle.Thin);
            Readings(g, (isBeside ? readings : columns[1]).Inset(1.5, 1.5), job);
            g.Line(foot.Left, foot.Top, foot.Right, foot.Top, LineStyle.Medium);
            Foot(g, foot.Inset(2, 1.5), mind);
        });
    }

    private static void Head(Canvas canvas, Box box, FitUpJob job)
    {
        var (step, j) = (job.Step, job.Step.Joint);
        canvas.Text(j.Name, box.Left, box.Top + 6.5, TextStyle.Heading with { Height = 6 });
        var x = box.Left + TextStyle.Heading.Width(j.Name) * 1.2 + 5;
        var title = TextStyle.Strong.Fitting(Title(job), box.Right - x - 36);
        canvas.Text(Title(job), x, box.Top + 3.6, title);
        canvas.Text(SetUpLine(job), x, box.Top + 9, Fine.Fitting(SetUpLine(job), box.Right - x - 36));
        canvas.Text(Text($"joint {step.Number} of {job.Of}"), box.Right, box.Top + 3.6, TextStyle.Strong, Anchor.End);
        canvas.Text(step.TurnOvers == 0 ? "" : step.TurnOvers == 1 ? "turn over first" : Text($"{step.TurnOvers} turn-overs first"), box.Right, box.Top + 9, Fine with { Bold = true, Ink = Ink.Accent }, Anchor.End);
    }

    private static string Title(FitUpJob job)
    {
        var j = job.Step.Joint;
        return $"NPS {j.Size}: hold {Named(job, j.Held, j.HeldSide)}, {(j.IsRing ? "close the ring at " + Name(job, j.New) : "bring " + Named(job, j.New, j.Brought))}";
    }

    // What hangs on it by its numbers alone.
    private static string Named(FitUpJob job, FitPart part, Assembly side) =>
        Name(job, part) + (side.IsSingle ? "" : " with " + string.Join(", ", side.Parts.Where(p => p != part).Select(p => p.Label)));

    private static string Name(FitUpJob job, FitPart part) => job.Words.NameOf(part.Id);

    private static string SetUpLine(FitUpJob job)
    {
        var (standing, j) = (job.Standing, job.Step.Joint);
        var setUp = standing.SetUp;
        var how = setUp.Attitude switch
        {
            Attitude.OnEnd => "On end",
            Attitude.Level => "Level",
            Attitude.Clamped => "Clamped",
            _ => Text($"Rolled {setUp.Roll:0.#}° from level"),
        };
        var brought = j.IsRing ? "nothing is lifted: both sides hang together" : Text($"lift {(j.Brought.Unknown.Count > 0 ? "at least " : "")}{job.Words.Mass(j.Brought.Mass)}{(j.Brought.Mass > 0 ? Text($", centre {job.Words.Place((j.Brought.Centre - j.Centre).Length)} from the weld") : "")}");
        return $"{how}; {brought}{(standing.HasMarks ? $"; marks {job.Words.Place(standing.Mark)} back" : "")}.";
    }

    private static void Dial(Canvas canvas, Box box, FitUpJob job)
    {
        var joint = job.Standing;
        var centre = box.Centre.Moved(0, -2);
        const double Radius = 7.5;
        canvas.Circle(centre, Radius, LineStyle.Medium);
        int[] order = [12, 6, 3, 9];
        for (var i = 0; i < 4; i++)
        {
            var angle = ((order[i] / 12.0) - 0.25) * 2 * Math.PI;
            canvas.Text(order[i].ToString(CultureInfo.InvariantCulture), centre.Polar(Radius + 4.6, angle).Moved(0, 1.2), Fine with { Bold = true }, Anchor.Middle);
            var tack = centre.Polar(Radius, angle);
            canvas.Fill(Shape.Circle(tack, 1.9), Ink.White).Circle(tack, 1.9, LineStyle.Thin);
            canvas.Text((i + 1).ToString(CultureInfo.InvariantCulture), tack.Moved(0, 1.1), Fine with { Height = 2.2 }, Anchor.Middle);
        }
        if (!joint.Joint.Turn.IsStraight)
        {
            var side = joint.Joint.Turn.Side;
            var angle = Math.Atan2(-side.Dot(joint.Twelve), side.Dot(joint.Three));
            canvas.Arrow(centre, centre.Polar(Radius - 2.4, angle), LineStyle.Thick, 2.5);
        }
        canvas.Text("looking into " + joint.Joint.New.Label, centre.Moved(0, Radius + 9.5), Fine with { Ink = Ink.Grey }, Anchor.Middle);
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
            Text($"{(weld == FitWeld.Socket ? Text($"Scribe, draw back {job.Words.Small(job.Step.Joint.Gap)}") : 0 < job.Step.Joint.Gap ? Text($"Gap rod {job.Words.Small(job.Step.Joint.Gap)}, match the bores") : "Set it to its marks")}, tack 1."),
            Text($"Read {(first.Count > 0 ? string.Join(", ", first) : set)}; bring true, tack 2."),
            Text($"Read {string.Join(", ", second)}; tack 3 and 4.{more}"),
            "Read all again, write it in.",
        ];
    }

    private static string Sentence(string words) => char.ToUpperInvariant(words[0]) + words[1..] + ".";

    private static void Tacks(Canvas canvas, Box box, FitUpJob job)
    {
        var y = box.Top;
        foreach (var line in TackOrder(job).Select((l, i) => Text($"{i + 1}. {l}")))
        {
            var lines = Fine.Wrap(line, box.Width);
            canvas.TextIn(new Box(box.X, y, box.Width, box.Bottom - y), line, Fine);
            y += (lines.Count * Fine.Pitch) + 0.8;
        }
    }

    // Words under the picture that leave it room, lines.
    private const int FewLines = 4;

    private const double ReadingsHead = 5, RowHeight = 14, LeastRow = 10.5, LowRow = 6;

    private static void Readings(Canvas canvas, Box box, FitUpJob job)
    {
        const double Names = 25;
        var rows = Rows(job).ToList();
        var (head, body) = box.CutTop(ReadingsHead);
        var cell = (box.Width - Names) / 4;
        var height = Math.Min(RowHeight, body.Height / Math.Max(1, rows.Count));
        for (var i = 0; i < 4; i++)
            canvas.Text(StandingJoint.Clock[i].ToString(CultureInfo.InvariantCulture), box.Left + Names + ((i + 0.5) * cell), head.Top + 3, Fine with { Bold = true }, Anchor.Middle);
        if (rows.Count == 0)
            canvas.TextIn(body.Inset(1, 2), NothingToRead, Fine);
        for (var r = 0; r < rows.Count; r++)
        {
            var (name, cells) = rows[r];
            var y = body.Top + (r * height);
            canvas.Line(box.Left, y, box.Right, y, LineStyle.Thin);
            // Of one kind the reading that shows the error best counts.
            var end = cells.OfType<Target>().Where(t => 0.5 <= t.AtSpoolEnd).MinBy(t => t.AtSpoolEnd);
            var says = end is null ? "" : end.Reading.IsAngle ? Text($" 0.1° → {(job.Words.Units == Units.Inches ? job.Words.Small(end.AtSpoolEnd) : Text($"{end.AtSpoolEnd:0}"))}") : Text($" 1 → {end.AtSpoolEnd:0}");
            canvas.TextIn(new Box(box.Left, y + 1.2, Names - 1, height - 2), name + says, Fine);
            var width = 4 * cell / cells.Length;
            for (var i = 0; i < cells.Length; i++)
            {
                if (cells[i] is not { } target)
                    continue;
                var at = new Box(box.Left + Names + (i * width), y, width, height).Inset(0.6, 0.6);
                var value = (Label(job, target) is { Length: > 0 } label ? label + " " : "") + Value(job, target);
                canvas.Rectangle(at, LineStyle.Thin);
                // In a low row the two lines stand close, one above the other.
                var (down, lift) = at.Height < LowRow ? (2.8, 0.3) : (3.3, 0.9);
                canvas.Text(value, at.Centre.X, at.Top + down, (Fine with { Bold = true }).Fitting(value, at.Width - 1), Anchor.Middle);
                var allowed = "±" + job.Words.ShowSmall(target.Reading, target.Allow) + Drawn(job, target);
                canvas.Text(allowed, at.Left + 0.6, at.Bottom - lift, (Fine with { Height = 2.1 }).Fitting(allowed, at.Width - 1));
            }
        }
        canvas.Line(box.Left, body.Top + (rows.Count * height), box.Right, body.Top + (rows.Count * height), LineStyle.Thin);
    }

    // With an error kept before, the figure without it as well.
    private static string Drawn(FitUpJob job, Target target) =>
        Math.Abs(target.Value - target.Drawn) > (target.Reading.IsAngle ? 1e-4 : 0.05) ? $" drawn {job.Words.Show(target.Reading, target.Drawn)}" : "";

    // One line a kind of reading, its clock positions side by side; what has no clock position stands together.
    private static IEnumerable<(string Name, Target?[] Cells)> Rows(FitUpJob job)
    {
        foreach (var name in (string[])["gap", "hi-lo", "tape", "end tape", "plumb", "diagonal", "height", "square", "straight edge"])
        {
            var cells = StandingJoint.Clock.Select(q => job.Targets.FirstOrDefault(t => t.Reading.Name == name && t.Reading.Position == q)).ToArray();
            if (cells.Any(c => c is not null))
                yield return (Heading(name, job), cells);
        }
        var singles = job.Targets.Where(t => t.Reading.Position is null).ToList();
        var levels = singles.Where(t => t.Reading is Reading.FaceLevelAlong or Reading.FaceLevelAcross or Reading.Holes or Reading.FlatLevel or Reading.HoleLine).ToList();
        if (levels.Count > 0)
            yield return ($"level{(levels.Exists(Differs) ? " (in line)" : "")}, + {string.Join("; ", levels.Select(l => Plus(l.Reading)).Distinct())}", [.. levels]);
        var others = singles.Where(t => t.Reading is Reading.Scale).ToList();
        if (others.Count > 0)
            yield return ("scale to pipe, back by", [.. others]);
        var last = singles.Where(t => t.Reading is Reading.TurnMark || (t.Reading is Reading.Height && job.Standing.Joint.Far is null)).ToList();
        if (last.Count > 0)
            yield return (string.Join("; ", last.Select(t => t.Reading is Reading.TurnMark ? "turn mark, + clockwise" : "height of crown")), [.. last]);
        if (job.Card.OfPart.Count > 0)
            yield return ($"{job.Standing.Joint.New.Label} alone, before fitting, + out", [.. job.Card.OfPart]);
    }

    private static string Plus(Reading reading) => reading switch
    {
        Reading.FaceLevelAlong => "throat or 12 high",
        Reading.FlatLevel => "far end high",
        Reading.HoleLine => "clockwise",
        _ => "3 high",
    };

    private static string Heading(string name, FitUpJob job) => name switch
    {
        "hi-lo" => "hi-lo, + new stands out",
        "tape" => $"tape, mark {job.Words.Place(job.Standing.Mark)} back to lip",
        "end tape" => $"tape, lip of {job.Standing.Joint.HeldEnd!.Label} to lip",
        "plumb" => "plumb line at lip, level to mark",
        "height" => job.Standing.SetUp.Attitude == Attitude.OnEnd ? "height of lip over plate" : "height of lip over floor",
        "diagonal" => "diagonal, far lip to opposite lip",
        "square" => "square on face, + blade off pipe",
        "straight edge" => "straight edge, + new stands out",
        _ => name,
    };

    // The line as drawn shows another angle than the bench.
    private static bool Differs(Target target) => target.InLine is { } inLine && 1e-3 < Math.Abs(inLine - target.Value);

    private static string Label(FitUpJob job, Target target) => target.Reading switch
    {
        Reading.FaceLevelAlong => "along",
        Reading.FaceLevelAcross => "across",
        Reading.Holes => "holes",
        Reading.HoleLine => "pins to north",
        Reading.FlatLevel => "flat",
        Reading.TurnMark => "mark",
        Reading.OutOfSquare { At: var at } => Text($"square {at}:"),
        Reading.OutOfRound => "round",
        Reading.Height { At: null } => "crown",
        Reading.Scale s => job.Words.Place(s.Station) + ":",
        _ => "",
    };

    private static string Value(FitUpJob job, Target target) => job.Words.Show(target.Reading, target.Value) + (Differs(target) ? $" ({job.Words.Show(target.Reading, target.InLine!.Value)})" : "");

    /// <summary>The welding position as the joint stands.</summary>
    public static string Position(FitUpJob job) =>
        job.Step.Joint.Weld == FitWeld.Branch ? "Position: by the procedure"
        : job.Standing.SetUp.Attitude == Attitude.OnEnd || Math.Abs(job.Standing.Axis.Dot(job.Standing.SetUp.Up)) > 0.94 ? "Position 2G, pipe upright"
        : job.Step.CanRoll ? "Position 1G, can be rolled" : "Position 5G, fixed";

    /// <summary>What to mind at the joint before and while it is fitted.</summary>
    public static IReadOnlyList<string> Mind(FitUpJob job)
    {
        var step = job.Step;
        List<string> words = ["Tacks hold nothing up: support first."];
        if (step.InTheWay.Count > 0)
            words.Add("No room at every tack: " + string.Join(", ", step.InTheWay.Select(job.Words.NameOf)) + " stands in the way.");
        if (step.Number == job.Of)
            words.Add("Last joint: look inside first; clean, dry, nothing left in it.");
        words.AddRange(job.Words.Besides(job.Card).Select(Sentence));
        if (step.Joint.BranchAt is not null)
            words.Add("Hole no larger than the bore.");
        return words;
    }

    private const double FootShare = 0.66;

    private static string Minded(FitUpJob job) =>
        $"{Position(job)}. {string.Join(" ", Mind(job))}{(job.Step.Joint.IsRing ? "" : " Hook on until opposite tacks hold and all stands are under it.")} 1 → 20 says: {(job.Words.Units == Units.Inches ? "1/16\" here is 20/16\"" : "1 mm here is 20 mm")} at the spool's far end.";

    private static void Foot(Canvas canvas, Box box, string mind)
    {
        canvas.TextIn(new Box(box.Left, box.Top, box.Width * FootShare, box.Height), mind, Fine);
        var x = box.Left + (box.Width * 0.68);
        canvas.Text("Procedure", x, box.Top + 2.6, Fine).Line(x + 18, box.Top + 3.4, box.Right, box.Top + 3.4, LineStyle.Thin);
        canvas.Text("Fitter, date", x, box.Top + 9, Fine).Line(x + 18, box.Top + 9.8, box.Right, box.Top + 9.8, LineStyle.Thin);
    }

    private static string Text(FormattableString s) => FormattableString.Invariant(s);
}
