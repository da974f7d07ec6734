using System.Globalization;
using Rootgap.FitUp;
using Rootgap.Measure;

namespace Rootgap.Sheets;

/// <summary>What one fit-up card is made from.</summary>
/// <param name="Step">The joint in the order of work.</param>
/// <param name="Of">Number of joints of the spool.</param>
/// <param name="Names">What the parts are called on the other sheets, by id.</param>
public sealed record FitUpJob(FitStep Step, int Of, StandingJoint Standing, FitTolerance Limits, IReadOnlyList<Target> Targets, IReadOnlyDictionary<string, string> Names);

/// <summary>The fit-up card of one joint: half an A4 page.</summary>
public static class FitUpCard
{
    private static readonly TextStyle Fine = TextStyle.Small;

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
        FitUpPicture.Draw(canvas, paper.Box.Inset(2), job.Standing, job.Targets, part => Short(job, part));
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
            var (foot, body) = rest.CutBottom(14);
            var columns = body.Columns(0, 44, 56);
            var (words, picture) = columns[0].CutBottom(33);
            FitUpPicture.Draw(g, picture, job.Standing, job.Targets, part => Short(job, part));
            Dial(g, words with { Width = 30 }, job.Standing);
            Tacks(g, new Box(words.X + 30, words.Y + 1, words.Width - 32, words.Height - 2), job);
            g.Line(columns[1].Left, body.Top, columns[1].Left, body.Bottom, LineStyle.Thin);
            Readings(g, columns[1].Inset(1.5, 1.5), job);
            g.Line(foot.Left, foot.Top, foot.Right, foot.Top, LineStyle.Medium);
            Foot(g, foot.Inset(2, 1.5), job);
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
        return $"NPS {j.Size}: hold {Name(job, j.Held)}, bring {Name(job, j.New)}";
    }

    private static string Name(FitUpJob job, FitPart part) => job.Names.GetValueOrDefault(part.Id, part.Kind + " " + part.Id);

    // On the picture a pipe bears its piece mark alone, a fitting its number.
    private static string Short(FitUpJob job, FitPart part) =>
        job.Names.GetValueOrDefault(part.Id) is { } name && name.StartsWith("pipe ", StringComparison.Ordinal) ? name[5..] : part.Id;

    private static string SetUpLine(FitUpJob job)
    {
        var (standing, j) = (job.Standing, job.Step.Joint);
        var setUp = standing.SetUp;
        var how = setUp.Attitude switch
        {
            Attitude.OnEnd => "On end, on its far squared end",
            Attitude.Level => "Level",
            _ => Text($"Rolled {setUp.Roll:0.#}° from level"),
        };
        var stands = setUp.Stands.Count == 2
            ? Text($"; stands {setUp.Stands[0].FromWeld:0} and {setUp.Stands[1].FromWeld:0} back carry {setUp.Stands[0].Load:0} and {setUp.Stands[1].Load:0} kg, underside {SetUp.DefaultHeight:0} up") : "";
        return how + stands + (standing.HasMarks ? Text($"; marks {standing.Mark:0} back") : "") + ".";
    }

    private static void Dial(Canvas canvas, Box box, StandingJoint joint)
    {
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
        canvas.Text("looking into " + joint.Joint.New.Id, centre.Moved(0, Radius + 9.5), Fine with { Ink = Ink.Grey }, Anchor.Middle);
    }

    /// <summary>In which order to read and tack, four lines.</summary>
    public static IReadOnlyList<string> TackOrder(FitUpJob job)
    {
        var has = job.Targets.Select(t => t.Reading).ToList();
        bool Has<T>() => has.Exists(r => r is T);
        List<string> first = [], second = [];
        if (Has<Reading.FaceLevelAcross>())
            first.Add("level across");
        if (Has<Reading.Holes>())
            first.Add("hole level");
        if (Has<Reading.Tape>())
            first.Add("tapes");
        if (Has<Reading.FaceLevelAlong>())
            second.Add("level along");
        if (Has<Reading.Scale>())
            second.Add("scale");
        if (Has<Reading.Plumb>() && second.Count == 0)
            second.Add("plumb");
        second.Add("gap all round");
        var more = 350 < job.Step.Joint.Outside ? " Four more between them." : "";
        return
        [
            Text($"{(0 < job.Step.Joint.Gap ? Text($"Gap rod {job.Step.Joint.Gap:0.0}, match the bores") : "Set it to its marks")}, tack 1."),
            Text($"Read {(first.Count > 0 ? string.Join(", ", first) : "gap all round")}; bring true, tack 2."),
            Text($"Read {string.Join(", ", second)}; tack 3 and 4.{more}"),
            "Read all again, write it in.",
        ];
    }

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

    private static void Readings(Canvas canvas, Box box, FitUpJob job)
    {
        const double Names = 21, Allow = 15;
        var rows = Rows(job).ToList();
        var (head, body) = box.CutTop(5);
        var cell = (box.Width - Names - Allow) / 4;
        var height = Math.Min(14, body.Height / Math.Max(1, rows.Count));
        for (var i = 0; i < 4; i++)
            canvas.Text(StandingJoint.Clock[i].ToString(CultureInfo.InvariantCulture), box.Left + Names + ((i + 0.5) * cell), head.Top + 3, Fine with { Bold = true }, Anchor.Middle);
        canvas.Text("allowed", box.Right, head.Top + 3, Fine with { Bold = true }, Anchor.End);
        for (var r = 0; r < rows.Count; r++)
        {
            var (name, cells) = rows[r];
            var y = body.Top + (r * height);
            canvas.Line(box.Left, y, box.Right, y, LineStyle.Thin);
            canvas.TextIn(new Box(box.Left, y + 1.4, Names - 1, height - 1.6), name, Fine with { Bold = true });
            var width = 4 * cell / cells.Length;
            for (var i = 0; i < cells.Length; i++)
            {
                if (cells[i] is not { } target)
                    continue;
                var at = new Box(box.Left + Names + (i * width), y, width, height).Inset(0.6, 0.6);
                var value = (Label(target) is { Length: > 0 } label ? label + " " : "") + Value(target);
                canvas.Rectangle(at, LineStyle.Thin);
                canvas.Text(value, at.Centre.X, at.Top + 3.7, Fine.Fitting(value, at.Width - 1), Anchor.Middle);
            }
            if (cells.OfType<Target>().MaxBy(t => t.Allow) is not { } widest)
                continue;
            var most = Shown(widest.Reading, widest.Allow);
            canvas.Text(widest.Reading.IsAngle ? Text($"±{most:0.00}°") : Text($"±{most:0.0}"), box.Right, y + 4.3, Fine with { Bold = true }, Anchor.End);
            // Of one kind the reading that shows the error best counts.
            if (cells.OfType<Target>().Select(t => t.AtSpoolEnd).Where(v => 0.5 <= v).DefaultIfEmpty().Min() is > 0 and var end)
                canvas.Text(Text($"{(widest.Reading.IsAngle ? "0.1°" : "1")} → {end:0}"), box.Right, y + 8.2, Fine, Anchor.End);
        }
        canvas.Line(box.Left, body.Top + (rows.Count * height), box.Right, body.Top + (rows.Count * height), LineStyle.Thin);
    }

    // One line a kind of reading, its clock positions side by side; what has no clock position stands together.
    private static IEnumerable<(string Name, Target?[] Cells)> Rows(FitUpJob job)
    {
        foreach (var name in (string[])["gap", "hi-lo", "tape", "plumb", "diagonal", "height"])
        {
            var cells = StandingJoint.Clock.Select(q => job.Targets.FirstOrDefault(t => t.Reading.Name == name && t.Reading.Position == q)).ToArray();
            if (cells.Any(c => c is not null))
                yield return (Heading(name, job), cells);
        }
        var singles = job.Targets.Where(t => t.Reading.Position is null).ToList();
        var levels = singles.Where(t => t.Reading is Reading.FaceLevelAlong or Reading.FaceLevelAcross or Reading.Holes or Reading.FlatLevel).ToList();
        if (levels.Count > 0)
            yield return (levels.Exists(Differs) ? "level (in line)" : "level", [.. levels]);
        var others = singles.Where(t => t.Reading is Reading.Scale).ToList();
        if (others.Count > 0)
            yield return ("scale to pipe, back by", [.. others]);
        if (singles.Find(t => t.Reading is Reading.Height) is { } crown && job.Step.Joint.Far is null)
            yield return ("height", [crown]);
    }

    private static string Heading(string name, FitUpJob job) => name switch
    {
        "tape" => Text($"tape from mark at {job.Standing.Mark:0}"),
        "plumb" => "plumb line to mark",
        "height" => "height of lip",
        _ => name,
    };

    // The line as drawn shows another angle than the bench.
    private static bool Differs(Target target) => target.InLine is { } inLine && 1e-3 < Math.Abs(inLine - target.Value);

    private static string Label(Target target) => target.Reading switch
    {
        Reading.FaceLevelAlong => "along",
        Reading.FaceLevelAcross => "across",
        Reading.Holes => "holes",
        Reading.FlatLevel => "flat",
        Reading.Scale s => Text($"{s.Station:0}:"),
        _ => "",
    };

    private static string Value(Target target) => target.Reading.IsAngle
        ? Text($"{Angles.ToDegrees(target.Value):0.0}°") + (Differs(target) ? Text($" ({Angles.ToDegrees(target.InLine!.Value):0.0}°)") : "")
        : Text($"{target.Value:0.0}");

    private static double Shown(Reading reading, double value) => reading.IsAngle ? Angles.ToDegrees(value) : value;

    /// <summary>The welding position as the joint stands.</summary>
    public static string Position(FitUpJob job) =>
        job.Step.Joint.Weld == FitWeld.Branch ? "Position: by the procedure"
        : job.Standing.SetUp.Attitude == Attitude.OnEnd ? "Position 2G, pipe upright"
        : job.Step.CanRoll ? "Position 1G, can be rolled" : "Position 5G, fixed";

    /// <summary>What to mind at the joint before and while it is fitted.</summary>
    public static IReadOnlyList<string> Mind(FitUpJob job)
    {
        var (step, setUp) = (job.Step, job.Standing.SetUp);
        List<string> words = ["Tacks hold nothing up: support first.", Text($"Lift {step.Lift:0} kg.")];
        words.AddRange(setUp.Cautions.Select(c => char.ToUpperInvariant(c[0]) + c[1..] + "."));
        if (step.InTheWay.Count > 0)
            words.Add("No room at every tack: " + string.Join(", ", step.InTheWay) + " stands in the way.");
        if (step.Number == job.Of)
            words.Add("Last joint: look inside first; clean, dry, nothing left in it.");
        if (step.Joint.BranchAt is var (along, round))
            words.Add(Text($"Branch centre {along:0.0} from the {(step.Joint.HeldFar.Normal.Dot(step.Joint.Header) < 0 ? "start" : "end")} of the pipe, {Math.Abs(round):0.0} round its outside from the top as drawn{(Math.Abs(round) < 0.05 ? "" : round > 0 ? ", clockwise" : ", anticlockwise")}. Hole no larger than the bore."));
        if (step.Joint.Holes is { } holes)
            words.Add(Text($"Pins {holes.ReadAcross:0.0} apart{(holes.MidHeight ? " (left and right)" : "")}; chord {holes.Chord:0.0}, half {holes.Chord / 2:0.0}; 1.6 round the bolt circle shows {holes.Shows(1.6):0.0} across the top pair."));
        return words;
    }

    private static void Foot(Canvas canvas, Box box, FitUpJob job)
    {
        canvas.TextIn(new Box(box.Left, box.Top, box.Width * 0.66, box.Height), $"{Position(job)}. {string.Join(" ", Mind(job))} 1 → 20 says: 1 mm here is 20 mm at the spool's far end.", Fine);
        var x = box.Left + (box.Width * 0.68);
        canvas.Text("Procedure", x, box.Top + 2.6, Fine).Line(x + 18, box.Top + 3.4, box.Right, box.Top + 3.4, LineStyle.Thin);
        canvas.Text("Fitter, date", x, box.Top + 9, Fine).Line(x + 18, box.Top + 9.8, box.Right, box.Top + 9.8, LineStyle.Thin);
    }

    private static string Text(FormattableString s) => FormattableString.Invariant(s);
}
