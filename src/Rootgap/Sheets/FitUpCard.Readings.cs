using System.Globalization;
using Rootgap.FitUp;
using Rootgap.Measure;

namespace Rootgap.Sheets;

/// <summary>The readings of a card: rows with a letter, target, allowance, what it becomes at the spool's end, and cells for the pen.</summary>
public static partial class FitUpCard
{
    // A row of the readings: what is read, its target and allowance, what it is at the spool's end; the clock positions at which it is written, none where it has no clock.
    private sealed record ReadingLine(string Name, string Value, string Allow, string End, List<int> At, IReadOnlyList<Target> Targets);

    private static string Letter(int row) => ((char)('a' + row)).ToString();

    private static readonly double[] TargetHeights = [4, 3.5, 3, 2.5];

    private static void Readings(Canvas canvas, Box box, FitUpJob job, Layout layout, bool withHeads)
    {
        var top = withHeads ? TableHead : 0;
        var pens = box.Right - (4 * PenWidth);
        var (end, allow) = (pens - EndWidth, pens - EndWidth - AllowOf(job));
        var target = allow - TargetOf(job);
        if (layout.Rows.Count == 0)
        {
            canvas.TextIn(box.Inset(2, job.IsStrip ? 1.2 : 2), job.IsStrip ? "Nothing can be read here: set it to its scribe line." : NothingToRead, Fine);
            return;
        }

        if (withHeads)
            Heads();
        // Where there is room to spare the pen has it.
        var more = Math.Min((box.Height - top - layout.Heights.Sum()) / layout.Rows.Count, RowMost - RowLeast);
        var y = box.Top + top;
        for (var r = 0; r < layout.Rows.Count; r++)
        {
            var (row, height) = (layout.Rows[r], layout.Heights[r] + more);
            canvas.Line(box.Left, y, box.Right, y, LineStyle.Thin);
            var middle = y + (height / 2);
            canvas.Text(Letter(r), box.Left + (LetterWidth / 2), middle + 1.25, FineBold, Anchor.Middle);
            Centred(layout.Names[r], box.Left + LetterWidth + 1, layout.NameWidth, Fine, Anchor.Start);
            var values = row.Value.Split('\n');
            var style = FineBold with { Height = values.Length > 1 ? 2.5 : TargetHeights.FirstOrDefault(h => (FineBold with { Height = h }).Width(row.Value) <= TargetOf(job) - 1.5, 2.5) };
            Centred(values, target, TargetOf(job) - 1, style, Anchor.End);
            Centred(row.Allow.Split('\n'), allow, AllowOf(job), Fine, Anchor.Middle);
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

        void Heads()
        {
            canvas.Text("read", box.Left + LetterWidth + 1, box.Top + 3.6, FineBold).Text("target", allow - 1, box.Top + 3.6, FineBold, Anchor.End)
                .Text("±", allow + (AllowOf(job) / 2), box.Top + 3.6, FineBold, Anchor.Middle).Text("end", end + (EndWidth / 2), box.Top + 3.6, FineBold, Anchor.Middle);
            for (var i = 0; i < 4; i++)
                canvas.Text(StandingJoint.Clock[i].ToString(CultureInfo.InvariantCulture), pens + ((i + 0.5) * PenWidth), box.Top + 3.6, FineBold, Anchor.Middle);
        }
    }

    /// <summary>Rows of a short card and of a strip at most, what is read of the new part itself aside.</summary>
    private const int MostRows = 6, MostOfStrip = 5;

    private static double TargetOf(FitUpJob job) => job.IsStrip ? 38 : TargetWidth;

    private static double AllowOf(FitUpJob job) => job.IsStrip ? 24 : job.Words.Units == Units.Inches ? InchAllowWidth : AllowWidth;

    // Several allowances side by side where the cell holds them.
    private static string Allowed(FitUpJob job, IEnumerable<string> values) =>
        string.Join(" | ", values) is var one && Fine.Width(one) <= AllowOf(job) - 1 ? one : string.Join('\n', values);

    /// <summary>The readings that a card bears.</summary>
    internal static IReadOnlyList<Target> Read(FitUpJob job) => [.. Rows(job).SelectMany(r => r.Targets)];

    // Gap and hi-lo are what the weld itself asks for.
    private static IEnumerable<ReadingLine> Rows(FitUpJob job)
    {
        var all = AllRows(job).ToList();
        if (!job.IsShort)
            return all;
        var ofPart = all.Count(r => r.Targets.All(t => t.Reading.IsOfPart));
        bool IsKept(int row) => all[row].Targets.Any(t => t.Reading is Reading.Gap or Reading.HiLo || (t.Reading.IsOfPart && !job.IsStrip));
        return TellingReadings.Of(job.Standing, job.Limits, [.. all.Select(r => r.Targets)], IsKept, job.IsStrip ? MostOfStrip : MostRows + ofPart).Select(i => all[i]);
    }

    private static IEnumerable<ReadingLine> AllRows(FitUpJob job)
    {
        foreach (var name in (string[])["gap", "hi-lo", "tape", "end tape", "plumb", "diagonal", "height", "square", "straight edge"])
        {
            var all = job.Targets.Where(t => t.Reading.Name == name && t.Reading.Position is not null).ToList();
            var groups = all.GroupBy(t => (Value(job, t), Drawn(job, t))).ToList();
            foreach (var group in groups)
            {
                var at = group.Select(t => t.Reading.Position!.Value).ToList();
                // One figure with several allowances: each with where it counts.
                var allowed = group.GroupBy(t => Allow(job, t.Reading, t.Allow)).ToList();
                var where = allowed.Count > 1 ? ", ± at " + string.Join(" | ", allowed.Select(a => string.Join(", ", a.Select(t => t.Reading.Position)))) : groups.Count > 1 ? ", at " + string.Join(", ", at) : "";
                yield return Line(job, Heading(name, job) + where, [.. group]) with { Value = InCell(job, [group.First()]), Allow = Allowed(job, allowed.Select(a => a.Key)), At = at };
            }
        }

        var singles = job.Targets.Where(t => t.Reading.Position is null).ToList();
        var isStraight = job.Standing.Joint.Turn.IsStraight;
        // Along is from 6 to 12 o'clock, or from the back to the throat, across from 9 to 3: which end is high says which it is. A tee has no throat: its branch's lip next to the weld is meant.
        var near = job.Standing.Joint.Turn.Radius > 0 ? "throat" : "lip next to the weld";
        foreach (var row in InPairs(job, singles.Where(t => t.Reading is Reading.FaceLevelAlong or Reading.FaceLevelAcross), t => t.Reading is Reading.FaceLevelAcross ? "3" : isStraight ? "12" : near, "level, + ", " high"))
            yield return row;
        foreach (var t in singles.Where(t => t.Reading is Reading.Holes or Reading.FlatLevel or Reading.HoleLine))
            yield return Line(job, $"{(t.Reading is Reading.HoleLine ? PinsTo(job) : t.Reading is Reading.Holes ? "holes level" : "flat level")}, + {Plus(t.Reading)}", [t]);
        foreach (var row in InPairs(job, singles.Where(t => t.Reading is Reading.Scale), t => job.Words.Place(((Reading.Scale)t.Reading).Station), "scale to pipe, ", " back"))
            yield return row;
        foreach (var t in singles.Where(t => t.Reading is Reading.TurnMark || (t.Reading is Reading.Height && job.Standing.Joint.Far is null)))
            yield return Line(job, t.Reading is Reading.TurnMark ? "turn mark, + clockwise" : "height of crown", [t]);
        var ofPart = job.Card.OfPart;
        if (ofPart.Count == 0)
            yield break;
        List<string> named = [.. ofPart.Any(t => t.Reading is Reading.OutOfSquare) ? ["out of square " + string.Join(" | ", ofPart.Select(t => t.Reading).OfType<Reading.OutOfSquare>().Select(r => Text($"{r.At}")))] : Array.Empty<string>(), .. ofPart.Any(t => t.Reading is not Reading.OutOfSquare) ? ["out of round"] : Array.Empty<string>()];
        yield return Line(job, $"part alone: {string.Join(", ", named)} (+ stands out)", [.. ofPart.OrderBy(t => t.Reading is Reading.OutOfSquare ? 0 : 1)]) with
        {
            Allow = Allowed(job, ofPart.OrderBy(t => t.Reading is Reading.OutOfSquare ? 0 : 1).Select(t => Allow(job, t.Reading, t.Allow)).Distinct()),
        };
    }

    // Two of a kind in one row, a bar between.
    private static IEnumerable<ReadingLine> InPairs(FitUpJob job, IEnumerable<Target> targets, Func<Target, string> name, string before, string after)
    {
        foreach (var group in targets.GroupBy(t => Drawn(job, t)))
        {
            foreach (var pair in group.Chunk(2))
            {
                yield return Line(job, before + string.Join(" | ", pair.Select(name)) + after, pair) with
                {
                    Allow = Allowed(job, pair.Select(t => Allow(job, t.Reading, t.Allow)).Distinct()),
                };
            }
        }
    }

    private static ReadingLine Line(FitUpJob job, string name, Target[] targets)
    {
        // Of one kind the reading that shows the error best counts.
        var end = targets.Where(t => 0.5 <= t.AtSpoolEnd).MinBy(t => t.AtSpoolEnd);
        var says = end is null ? "" : end.Reading.IsAngle && job.Words.Units == Units.Inches ? (end.AtSpoolEnd / LengthText.Inch * 16).ToString("0.#", CultureInfo.InvariantCulture) : end.AtSpoolEnd.ToString("0", CultureInfo.InvariantCulture);
        return new(name + (targets.Any(Differs) ? " (in line)" : "") + Drawn(job, targets[0]), InCell(job, targets),
            Allow(job, targets[0].Reading, targets.Min(t => t.Allow)), says, [], targets);
    }

    // Side by side where the cell holds them, else one below the other; a bar before the second either way.
    private static string InCell(FitUpJob job, Target[] targets)
    {
        List<string> values = [.. targets.Select(t => Value(job, t))];
        // Of several that are all nothing one says it.
        var one = values.Distinct(StringComparer.Ordinal).Count() == 1 && values[0].All(c => c is '0' or '.' or '"') ? values[0] : string.Join(" | ", values);
        return FineBold.Width(one) <= TargetOf(job) - 1.5 ? one : string.Join('\n', values.SelectMany((v, i) => FineBold.Wrap(i > 0 ? "|\u00a0" + v : v, TargetOf(job) - 1.5)));
    }

    // With an error kept before, the figure without it as well.
    private static string Drawn(FitUpJob job, Target target) =>
        Math.Abs(target.Value - target.Drawn) > (target.Reading.IsAngle ? 1e-4 : 0.05) ? $", drawn {Show(job, target.Reading, target.Drawn)}" : "";

    private static string Plus(Reading reading) => reading switch
    {
        Reading.FlatLevel => "far end high",
        Reading.HoleLine => "clockwise on the face",
        _ => "3 high",
    };

    private static string Heading(string name, FitUpJob job) => name switch
    {
        "hi-lo" => "hi-lo, + new out",
        "tape" => $"tape, mark to {Lip(job)}",
        "end tape" => $"tape, {Lip(job.Standing.Joint.HeldEnd)} of {job.Standing.Joint.HeldEnd!.Label} to {Lip(job)}",
        "plumb" => $"plumb at {Lip(job)}, level to mark",
        "height" => $"{Lip(job)} over {(job.Standing.SetUp.Attitude == Attitude.OnEnd ? "plate" : "floor")}",
        "diagonal" => $"diagonal, far {Lip(job)} to opposite",
        "square" => "square on face, + off",
        "straight edge" => "straight edge, + new out",
        _ => name,
    };

    // What the tape's end lies on. The rim of a socket differs from maker to maker: the edge of its hole is reckoned with, as wide as the pipe that goes in.
    private static string Lip(FitUpJob job) => Lip(job.Standing.Joint.End);

    private static string Lip(FitPart? part) => part is { HasHoles: true } ? "edge of its hole" : "lip";

    // The line as drawn shows another angle than the bench.
    private static bool Differs(Target target) => target.InLine is { } inLine && 1e-3 < Math.Abs(inLine - target.Value);

    // The line over the pins stands square to north, or to east where the face looks north as drawn; on the floor that is found along a pipe that runs so.
    private static string PinsTo(FitUpJob job)
    {
        var j = job.Standing.Joint;
        var way = Reading.HoleLine.North(j.Far!.Normal);
        var pipe = j.Both.Parts.Where(p => p.IsPipe).OrderBy(p => p.Id == j.Held.Id ? 0 : 1).FirstOrDefault(p => Math.Abs(j.PlaceOf(p).Of(p.Direction).Dot(way)) > 0.9998);
        return $"pins square to {(pipe is null ? "" : pipe.Label + ", ")}{(Math.Abs(j.Far.Normal.Y) < 0.9 ? "north" : "east")}{(pipe is null ? " as drawn" : "")}";
    }

    private static string Value(FitUpJob job, Target target) => Show(job, target.Reading, target.Value) + (Differs(target) ? $" ({Show(job, target.Reading, target.InLine!.Value)})" : "");

    // Nobody reads more of an angle than a tenth of a degree; a limit is never rounded up.
    private static string Show(FitUpJob job, Reading reading, double value) => reading.IsAngle ? Tenths(LengthText.Rounded(Angles.ToDegrees(value), 1)) : job.Words.Printed(reading, value);

    private static string Allow(FitUpJob job, Reading reading, double value) =>
        reading is Reading.Gap && job.Step.Joint.Gap == 0 ? "+" + job.Words.ShowSmall(reading, value)
        // Less than nothing no gap can be.
        : reading.IsAngle ? Tenths(Math.Floor((Angles.ToDegrees(value) * 10) + 1e-6) / 10) : job.Words.ShowSmall(reading, value);

    private static string Tenths(double degrees) => Text($"{degrees + 0.0:0.0}°").Replace('-', '−');
}
