using System.Globalization;
using Rootgap.Fabricating;
using Rootgap.FitUp;
using Rootgap.Measure;
using Rootgap.Routes;

namespace Rootgap.Sheets;

/// <summary>One row of a spool's check table: between which two things that can be touched, the target tacked, its tolerance and what it should be when welded.</summary>
/// <param name="Rank">How much it says: 0 most. Rows that say least are left out where there is no room.</param>
internal sealed record CheckRow(string What, string Target, string Tolerance, string WhenWelded, int Rank = 1)
{
    /// <summary>The two places between which it is read, and the way in which: views show it there. Null for an angle or a gap.</summary>
    public (Point From, Point To, Vector Way)? Span { get; init; }
}

/// <summary>A row of the check table as a view shows it: by the row's letter, with its target as printed.</summary>
/// <param name="From">Where it is read from and to, mm.</param>
/// <param name="Way">Unit: along a straight tape; up, or level along an axis, for a height or a plumb line.</param>
/// <param name="IsTape">Read with a tape from place to place.</param>
internal sealed record CheckMark(string Letter, string Target, Point From, Point To, Vector Way, bool IsTape)
{
    public string Text => $"{Letter} {Target}";
}

/// <summary>The check of a spool from end to end: of all that can be read, what says most, tacked and after welding.</summary>
internal static class CheckRows
{
    /// <summary>Straight readings between two ends: the tape and a diagonal say length and direction.</summary>
    private const int TapesAPair = 2;

    /// <summary>The rows that views can show, with the letters that they have in their table.</summary>
    public static IReadOnlyList<CheckMark> Marks(IReadOnlyList<CheckRow> rows) =>
        [.. rows.Select((r, i) => r.Span is var (from, to, way) ? new CheckMark(Letter(i), r.Target, from, to, way, Math.Abs((to - from).Length - Math.Abs((to - from).Dot(way))) < 1e-6) : null).OfType<CheckMark>()];

    /// <summary>a to z without the letters that are read as figures; then aa, ab ...</summary>
    public static string Letter(int index)
    {
        const string Letters = "abcdefghkmnpqrstuvwxyz";
        return index < Letters.Length ? Letters[index].ToString() : Letters[(index / Letters.Length) - 1].ToString() + Letters[index % Letters.Length];
    }

    /// <summary>As many rows as there is room for: those that say least give way.</summary>
    public static IReadOnlyList<CheckRow> Foremost(IReadOnlyList<CheckRow> all, int most)
    {
        var kept = all.OrderBy(r => r.Rank).Take(most).ToHashSet(ReferenceEqualityComparer.Instance);
        return [.. all.Where(kept.Contains)];
    }

    /// <summary>All rows of a spool.</summary>
    public static IReadOnlyList<CheckRow> Of(Fabrication f, FitSpool fit)
    {
        var check = FinalCheck.Tacked(fit, FitOrder.Of(fit));
        if (check.Base is null)
            return [];
        var welded = FinalCheck.Welded(fit);
        var rows = new List<CheckRow>();
        foreach (var pair in check.Targets.Where(t => t.Reading is EndReading.Tape).GroupBy(t => string.Join('|', t.Reading.Ends)))
            rows.AddRange(Tapes(f, fit, check, welded, [.. pair]));
        // What a tape between the same ends says already is not said again.
        var taped = rows.Select(r => r.Target).ToHashSet(StringComparer.Ordinal);
        var isInLine = check.Ends.Count == 2 && rows.Count == 1;
        foreach (var end in check.Ends)
        {
            var own = check.Targets.Where(t => t.Reading is not EndReading.Tape && t.Reading.Ends[^1] == end.Name).ToList();
            rows.AddRange(own.Where(t => t.Reading is EndReading.Height).Select(t => Height(f, fit, check, welded, t)).Where(r => !isInLine || !taped.Contains(r.Target)));
            if (!isInLine)
                rows.AddRange(own.Where(t => t.Reading is EndReading.Offset).GroupBy(t => ((EndReading.Offset)t.Reading).IsAcross).Select(g => Offset(f, fit, check, welded, g.First())));
            var levels = own.Where(t => t.Reading is EndReading.FaceLevel).ToList();
            if (levels.Count > 0)
                rows.Add(new($"{end.Called} face level, N–S | E–W", string.Join(" | ", levels.Select(t => Angle(t.Value))), AngleTolerance(levels.Min(t => t.Allow)), ""));
            rows.AddRange(own.Where(t => t.Reading is EndReading.Lean).Select(t => new CheckRow($"{end.Called} face plumb{(Math.Abs(t.Value) > 5e-4 ? ", + looks up" : "")}", Angle(t.Value), AngleTolerance(t.Allow), "")));
            rows.AddRange(own.Where(t => t.Reading is EndReading.Holes or EndReading.HoleLine).Select(t => new CheckRow($"{end.Called} pins {(t.Reading is EndReading.Holes ? "level" : "to north")}{(Math.Abs(t.Value) > 5e-4 ? t.Reading is EndReading.Holes ? ", + 3 o'clock high" : ", + clockwise" : "")}", Angle(t.Value), AngleTolerance(t.Allow), "")));
        }

        if (FitUpPages.HasRowsOnly(fit.Spool))
            rows.AddRange(Welds(f, fit));
        rows.AddRange(Mitres(f, fit));
        return rows;
    }

    // The welds of a spool without cards: gap and high-low, those with the same figures in one row.
    private static IEnumerable<CheckRow> Welds(Fabrication f, FitSpool fit)
    {
        var words = new FitWords(f.Units, id => id);
        string Said(Target? t) => t is null ? "–" : words.Show(t.Reading, t.Value);
        string Allowed(Target? t) => t is null ? "–" : words.ShowSmall(t.Reading, t.Allow);
        return FitWork.Cards(fit, FitOrder.Of(fit))
            .Select(c => (c.Standing.Joint.Name, Gap: c.Targets.FirstOrDefault(t => t.Reading is Reading.Gap), HiLo: c.Targets.FirstOrDefault(t => t.Reading is Reading.HiLo)))
            .GroupBy(w => ($"{Said(w.Gap)} | {Said(w.HiLo)}", $"{Allowed(w.Gap)} | {Allowed(w.HiLo)}"))
            .Select(g => new CheckRow($"{string.Join(", ", g.Select(w => w.Name))}: gap, four places | hi-lo", g.Key.Item1, g.Key.Item2, "", Rank: 0));
    }

    // The welds within mitred bends, which no card has.
    private static IEnumerable<CheckRow> Mitres(Fabrication f, FitSpool fit) => fit.Spool.Seams
        .GroupBy(s => (s.Gap, Limits: fit.Fitting.SeamLimits(s) is var (hiLo, gap) ? (hiLo.Value, gap.Value) : default))
        .Select(g => new CheckRow($"{FitWords.Join(g.Select(s => s.Id))}: gap at heel, throat, sides | hi-lo", $"{Small(f.Units, g.Key.Gap)} | {Small(f.Units, 0)}", $"{Small(f.Units, g.Key.Limits.Item2)} | {Small(f.Units, g.Key.Limits.Item1)}", "", Rank: 0));

    private static string Small(Units units, double mm) => units == Units.Inches ? LengthText.Say(units, $"{mm:gap}") : mm.ToString("0.0", CultureInfo.InvariantCulture);

    private static IEnumerable<CheckRow> Tapes(Fabrication f, FitSpool fit, FinalCheck check, FinalCheck welded, IReadOnlyList<EndTarget> tapes)
    {
        var straight = tapes.Where(t => t.Reading is EndReading.Tape { IsDiagonal: false }).ToList();
        // Parallel faces: the same all round.
        if (straight.Count > 2 && straight.Max(t => t.Value) - straight.Min(t => t.Value) < 0.05)
        {
            var t = (EndReading.Tape)straight[0].Reading;
            yield return Length(f, fit, check, welded, straight[0], $"{check.Find(t.From.End)!.Called} – {check.Find(t.To.End)!.Called}, {(straight.Count == 4 ? "four places" : "all round")}");
            yield break;
        }

        var chosen = straight.Take(1).Concat(tapes.Where(t => t.Reading is EndReading.Tape { IsDiagonal: true })).Concat(straight.Skip(1)).Take(TapesAPair);
        foreach (var t in chosen)
        {
            var tape = (EndReading.Tape)t.Reading;
            var rank = !t.Reading.Ends.Contains(check.Base!.Name) ? 4 : tape.IsDiagonal ? 2 : 0;
            yield return Length(f, fit, check, welded, t, $"{Said(check, tape.From)} – {Said(check, tape.To)}{(tape.IsDiagonal ? ", diagonal" : "")}") with { Rank = rank };
        }
    }

    // A lip by its end and the clock; of a saddle with what its edge is called there, as on its template.
    private static string Said(FinalCheck check, LipPlace lip) =>
        check.Find(lip.End)! is var end && end.EdgeAt(lip.At) is { Length: > 0 } edge ? string.Create(CultureInfo.InvariantCulture, $"{end.Called} {lip.At} ({edge})") : string.Create(CultureInfo.InvariantCulture, $"{end.Called} {lip.At}");

    private static CheckRow Height(Fabrication f, FitSpool fit, FinalCheck check, FinalCheck welded, EndTarget t)
    {
        var h = (EndReading.Height)t.Reading;
        var (from, to) = (Said(check, h.From), Said(check, h.To));
        return Length(f, fit, check, welded, t, Math.Abs(t.Value) < 0.05 ? $"{to} level with {from}" : t.Value > 0 ? $"{to} above {from}" : $"{to} below {from}") with { Rank = 2 };
    }

    private static CheckRow Offset(Fabrication f, FitSpool fit, FinalCheck check, FinalCheck welded, EndTarget t)
    {
        var o = (EndReading.Offset)t.Reading;
        var way = BoltCircle.NameOf(t.Value < 0 ? -o.Toward : o.Toward);
        var lip = Said(check, o.Lip);
        var from = check.Base!.Called;
        // Off a face that stands it is read from the face; off one that lies, from a plumb line at its middle.
        var lies = Math.Abs(check.Base.Normal.Dot(Vector.Up)) > 0.9;
        return Length(f, fit, check, welded, t, Math.Abs(t.Value) < 0.05
            ? $"{lip} plumb over {from}'s {(o.IsAcross && !lies ? "line" : "middle")}"
            : $"{lip} plumb, {way} of {from}'s {(lies ? "middle" : o.IsAcross ? "line" : "face")}") with
        { Rank = 3 };
    }

    private static CheckRow Length(Fabrication f, FitSpool fit, FinalCheck check, FinalCheck welded, EndTarget t, string what) =>
        new(what + (HasExtra(check, t.Reading) ? ", extra on" : ""), RunningDimensions.Figure(f.Units, Math.Abs(t.Value)), Tolerance(f.Units, t.Allow), WhenWelded(f, fit, check, welded, t)) { Span = Span(check, t.Reading) };

    private static (Point From, Point To, Vector Way)? Span(FinalCheck check, EndReading reading)
    {
        Point Lip(LipPlace lip) => check.Find(lip.End)!.Lip(lip.At, Motion.None);
        return reading switch
        {
            EndReading.Tape t => (Lip(t.From), Lip(t.To), (Lip(t.To) - Lip(t.From)).Unit),
            EndReading.Height h => (Lip(h.From), Lip(h.To), Vector.Up),
            EndReading.Offset o => (check.Base!.Centre, Lip(o.Lip), o.Toward),
            _ => null,
        };
    }

    /// <summary>
    /// What it should be when welded: by the shop's own allowance, or less what butt welds on the way usually draw in, 1.5 to 3 mm each along the pipe.
    /// </summary>
    private static string WhenWelded(Fabrication f, FitSpool fit, FinalCheck check, FinalCheck welded, EndTarget t)
    {
        if (f.Route.Drawing.Shop.Shrinkage is not null)
            return RunningDimensions.Figure(f.Units, Math.Abs(welded.Of(t.Reading).Value));
        var (low, high) = (Drawn(f, fit, check, t.Reading, Spooling.ShrinkageLow), Drawn(f, fit, check, t.Reading, Spooling.ShrinkageHigh));
        var (one, other) = (Math.Min(Math.Abs(t.Value + low), Math.Abs(t.Value + high)), Math.Max(Math.Abs(t.Value + low), Math.Abs(t.Value + high)));
        var (a, b) = (RunningDimensions.Figure(f.Units, one), RunningDimensions.Figure(f.Units, other));
        return a == b ? a : f.Units == Units.Inches ? $"{a} – {b}" : $"{a}–{b}";
    }

    /// <summary>By how much a reading changes when every butt weld between its two ends draws in by so much, mm.</summary>
    private static double Drawn(Fabrication f, FitSpool fit, FinalCheck check, EndReading reading, double each)
    {
        var (from, to, way) = Along(check, reading);
        return -each * Way(fit.Spool, from.Part.Id, to.Part.Id).Sum(axis => axis.Dot(way));
    }

    /// <summary>From which end to which a length is read, and along what.</summary>
    private static (OpenEnd From, OpenEnd To, Vector Way) Along(FinalCheck check, EndReading reading) => reading switch
    {
        EndReading.Tape t => (check.Find(t.From.End)!, check.Find(t.To.End)!, (check.Find(t.To.End)!.Lip(t.To.At, Motion.None) - check.Find(t.From.End)!.Lip(t.From.At, Motion.None)).Unit),
        EndReading.Height h => (check.Find(h.From.End)!, check.Find(h.To.End)!, Vector.Up),
        EndReading.Offset o => (check.Base!, check.Find(o.Lip.End)!, o.Toward),
        _ => (check.Base!, check.Base!, Vector.Up),
    };

    // Whether final-fit extra that is trimmed at site is in the figure; square to its pipe it is not.
    private static bool HasExtra(FinalCheck check, EndReading reading)
    {
        var (from, to, way) = Along(check, reading);
        return Has(from) || Has(to);

        bool Has(OpenEnd end) => end.Part.Of is PipePiece pipe && (end.Normal.Dot(pipe.Direction) > 0 ? pipe.ExtraAtEnd : pipe.ExtraAtStart) && Math.Abs(end.Normal.Dot(way)) > 0.02;
    }

    /// <summary>The axes of the butt welds from one part of a spool to another, each along the way.</summary>
    internal static IReadOnlyList<Vector> Way(Spool spool, string from, string to)
    {
        var reached = new Dictionary<string, (string Before, Joint? Over)>(StringComparer.Ordinal) { [from] = ("", null) };
        var next = new Queue<string>([from]);
        while (next.TryDequeue(out var part) && !reached.ContainsKey(to))
        {
            foreach (var joint in spool.Joints.Where(j => j.Between.Contains(part, StringComparer.Ordinal)))
            {
                foreach (var other in joint.Between.Where(b => reached.TryAdd(b, (part, joint))))
                    next.Enqueue(other);
            }
        }

        List<Vector> axes = [];
        for (var part = to; reached.TryGetValue(part, out var step) && step.Over is { } joint; part = step.Before)
        {
            if (joint.Kind == JointKind.Butt)
                axes.Add(joint.Between[0] == step.Before ? joint.Axis : -joint.Axis);
        }

        return axes;
    }

    // Nobody reads more than a tenth of a degree; a limit is never rounded up.
    private static string Angle(double radians) => (LengthText.Rounded(Angles.ToDegrees(radians), 1) + 0.0).ToString("0.0", CultureInfo.InvariantCulture) + "°";

    private static string AngleTolerance(double radians) => (Math.Floor((Angles.ToDegrees(radians) * 10) + 1e-6) / 10).ToString("0.0", CultureInfo.InvariantCulture) + "°";

    private static string Tolerance(Units units, double mm) => units == Units.Inches
        ? LengthText.FeetInches(Math.Max(1, Math.Floor((mm / LengthText.Inch * 16) + 1e-6)) * LengthText.Inch / 16)
        : (Math.Floor((mm * 10) + 1e-6) / 10).ToString("0.#", CultureInfo.InvariantCulture);
}
