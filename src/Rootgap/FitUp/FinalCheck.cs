using Rootgap.Measure;

namespace Rootgap.FitUp;

/// <summary>What one reading of a finished spool should be: mm, or radians.</summary>
/// <param name="Reading">What is read.</param>
/// <param name="Value">With all welds drawn in, or tacked, as the check is of.</param>
/// <param name="Allow">Largest change over all errors of its ends within tolerance.</param>
public sealed record EndTarget(EndReading Reading, double Value, double Allow)
{
    public bool Allows(double value) => Math.Abs(value - Value) <= Allow + 1e-9;
}

/// <summary>A reading of a finished spool as taken.</summary>
/// <param name="Value">mm or radians.</param>
/// <param name="Sd">How well; the reading's usual one where null.</param>
public sealed record EndTaken(EndReading Reading, double Value, double? Sd = null);

/// <summary>Where one end is, by what was read.</summary>
/// <param name="End">The end.</param>
/// <param name="Error">Against its place, seen from the base: in the end's own axes.</param>
/// <param name="Sd">One standard deviation of each component.</param>
/// <param name="Unseen">Components that the readings do not see.</param>
/// <param name="Limits">The limits in force there.</param>
/// <param name="Outside">Readings that touch it and are outside their own allowance.</param>
/// <param name="Verdict">What can be said of it.</param>
public sealed record EndFound(OpenEnd End, PoseError Error, IReadOnlyList<double> Sd, IReadOnlyList<int> Unseen, FitTolerance Limits, IReadOnlyList<EndTaken> Outside, Verdict Verdict)
{
    /// <summary>What counts: of what nothing saw, none.</summary>
    public PoseError Seen
    {
        get
        {
            Span<double> v = stackalloc double[6];
            for (var i = 0; i < 6; i++)
                v[i] = Unseen.Contains(i) ? 0 : Error[i];
            return PoseError.From(v);
        }
    }
}

/// <summary>What the readings of a finished spool say.</summary>
/// <param name="Ends">All ends but the base, which everything is seen from.</param>
/// <param name="Again">Readings that contradict the others, or that were given twice with different figures.</param>
/// <param name="Alike">Readings that could be the wrong ones just as well.</param>
/// <param name="Next">What should be read next, as a set.</param>
/// <param name="Doubtful">They do not fit together, and no single one explains it.</param>
public sealed record FinalFound(IReadOnlyList<EndFound> Ends, IReadOnlyList<EndTaken> Again, IReadOnlyList<EndTaken> Alike, IReadOnlyList<EndReading> Next, bool Doubtful)
{
    /// <summary>The worst that is said of any end.</summary>
    public Verdict Verdict => Ends.Count == 0 ? Verdict.NothingRead : Ends.Any(e => e.Verdict == Verdict.NotWithin) ? Verdict.NotWithin : Ends.Min(e => e.Verdict);
}

/// <summary>The final dimensional check of a spool: what can be read from end to end, and where the ends are by what was read.</summary>
public sealed class FinalCheck
{
    private const int Proposed = 3;

    private readonly IReadOnlyList<Solid> bodies;
    private readonly List<OpenEnd> others;

    private FinalCheck(FitSpool spool, Func<string, Motion> place, bool isWelded, string? from)
    {
        Spool = spool;
        IsWelded = isWelded;
        Ends = OpenEnd.Of(spool, place);
        bodies = [.. spool.Parts.SelectMany(p => p.Bodies.Concat(p.Screen is { } screen ? [screen] : []).Select(b => b.Moved(place(p.Id))))];
        // Holes say how the spool is turned; a plain end does not, and a saddle has no face to set it by.
        Base = Ends.FirstOrDefault(e => Is(e, from)) ?? Ends.FirstOrDefault(e => e.Holes is not null) ?? Ends.FirstOrDefault(e => e.IsPlane) ?? (Ends.Count > 0 ? Ends[0] : null);
        others = [.. Ends.Where(e => e != Base)];
        var shop = spool.Fitting.Shop;
        var nps = spool.Parts.Select(p => p.Of.Size.Inches).DefaultIfEmpty(0).Max();
        var angle = shop.AngularTolerance is { } own ? Angles.ToDegrees(own) : (double?)null;
        Limits = Ends.ToDictionary(e => e.Name, e => FitTolerance.OfEnd(e, nps, shop.LinearTolerance, angle), StringComparer.Ordinal);
        Targets = [.. Readings().Select(Of)];
    }

    public FitSpool Spool { get; }

    /// <summary>All welds have drawn in; false for the spool tacked.</summary>
    public bool IsWelded { get; }

    /// <summary>Of the spool tacked: its welds that have drawn in already.</summary>
    public IReadOnlyList<string> DrawnIn { get; private init; } = [];

    /// <summary>The ends, along the line.</summary>
    public IReadOnlyList<OpenEnd> Ends { get; }

    /// <summary>The end by which the spool is set as drawn: its face, its holes, its pipe; null where nothing is open.</summary>
    public OpenEnd? Base { get; }

    /// <summary>The limits at each end, by name.</summary>
    public IReadOnlyDictionary<string, FitTolerance> Limits { get; }

    /// <summary>All that can be read.</summary>
    public IReadOnlyList<EndTarget> Targets { get; }

    /// <summary>The check after welding.</summary>
    /// <param name="from">Name of the end to set it by; null for the usual one.</param>
    public static FinalCheck Welded(FitSpool spool, string? from = null) => new(spool, _ => Motion.None, isWelded: true, from);

    /// <summary>The check of the spool tacked: longer by what its welds will draw in.</summary>
    /// <param name="steps">Its order of work.</param>
    /// <param name="made">What is known of a joint made: what is welded already has drawn in; null where none is.</param>
    public static FinalCheck Tacked(FitSpool spool, IReadOnlyList<FitStep> steps, string? from = null, Func<string, JointAsMade?>? made = null)
    {
        var place = Welded(spool, from).Base is { } based && steps.Count > 0 && spool.DrawsIn() ? FitWork.WithoutErrors(spool, steps, made).SeenFrom(based.Part.Id) : _ => Motion.None;
        return new(spool, place, isWelded: false, from) { DrawnIn = [.. steps.Select(s => s.Weld).Where(w => made?.Invoke(w.Id) is { HasDrawnIn: true } && spool.DrawsIn(w)).Select(w => w.Id)] };
    }

    /// <summary>An end by its name or as people call it, or by its part's where that is enough.</summary>
    public OpenEnd? Find(string name) => Ends.FirstOrDefault(e => Is(e, name)) ?? (Ends.Where(e => e.Part.Id.Equals(name, StringComparison.OrdinalIgnoreCase) || e.Part.Label.Equals(name, StringComparison.OrdinalIgnoreCase)).ToList() is [var one] ? one : null);

    private static bool Is(OpenEnd end, string? name) => end.Name.Equals(name, StringComparison.OrdinalIgnoreCase) || end.Called.Equals(name, StringComparison.OrdinalIgnoreCase);

    private IEnumerable<EndReading> Readings()
    {
        if (Base is null)
            yield break;
        foreach (var (one, other) in Pairs())
        {
            foreach (var tape in Tapes(one, other))
                yield return tape;
        }

        foreach (var end in others)
        {
            yield return new EndReading.Height(new(Base.Name, 12), new(end.Name, 12));
            foreach (var offset in Offsets(end))
                yield return offset;
        }

        foreach (var end in Ends)
        {
            var lies = Math.Abs(end.Normal.Dot(Vector.Up)) > 0.9;
            if (!end.IsPlane)
                continue;
            if (lies)
            {
                yield return new EndReading.FaceLevel(end.Name, IsAcross: false);
                yield return new EndReading.FaceLevel(end.Name, IsAcross: true);
            }
            else
            {
                yield return new EndReading.Lean(end.Name);
            }

            if (end.Holes is not null)
                yield return lies ? new EndReading.HoleLine(end.Name) : new EndReading.Holes(end.Name);
        }
    }

    // By plumb lines: of a face that stands both side lips the way it looks (they show its swing) and one the other way; of one that lies a single lip both ways.
    private IEnumerable<EndReading> Offsets(OpenEnd end)
    {
        var along = Base!.Normal.SquareTo(Vector.Up) is var level && level.Length > 0.1 ? -level.Unit : Vector.North;
        var across = along.Cross(Vector.Up);
        var stands = Math.Abs(end.Normal.Dot(Vector.Up)) < 0.9;
        var looksAcross = stands && Math.Abs(end.Normal.Dot(across)) > Math.Abs(end.Normal.Dot(along));
        bool IsPlumbFree(int at) => end.Lip(at, Motion.None) is var lip && Solid.Clear(lip, lip + (Vector.Up * (Lowest - lip.Z)), bodies, 1);
        var free = (stands ? new[] { 3, 9 } : [12, 6, 3, 9]).Where(IsPlumbFree).ToList();
        foreach (var at in stands ? free : free.Take(1))
            yield return new EndReading.Offset(new(end.Name, at), Base.Name, looksAcross, looksAcross ? across : along);
        foreach (var at in free.Take(1))
            yield return new EndReading.Offset(new(end.Name, at), Base.Name, !looksAcross, looksAcross ? along : across);
    }

    private double Lowest => bodies.Select(b => b.Lowest(Point.Origin, Vector.Up)).DefaultIfEmpty(0).Min();

    // Every end against the base, and each against the next.
    private IEnumerable<(OpenEnd One, OpenEnd Other)> Pairs()
    {
        foreach (var end in others)
            yield return (Base!, end);
        for (var i = 1; i < others.Count; i++)
            yield return (others[i - 1], others[i]);
    }

    // Lips on the same side, and the two diagonals across the side that both faces share.
    private IEnumerable<EndReading> Tapes(OpenEnd one, OpenEnd other)
    {
        int Near(Vector way) => StandingJoint.Clock.MaxBy(q => Math.Round(one.Q(q).Dot(way), 6));
        foreach (var at in StandingJoint.Clock)
        {
            if (IsFree(one, Near(other.Q(at)), other, at))
                yield return new EndReading.Tape(new(one.Name, Near(other.Q(at))), new(other.Name, at), IsDiagonal: false);
        }

        var shared = one.Normal.Cross(other.Normal);
        if (shared.Length < 0.02)
            shared = other.Three;
        var across = Math.Abs(other.Three.Dot(shared)) >= Math.Abs(other.Twelve.Dot(shared)) - 1e-9 ? 3 : 12;
        foreach (var at in (int[])[across, across == 3 ? 9 : 6])
        {
            var from = Near(-other.Q(at));
            if (IsFree(one, from, other, at))
                yield return new EndReading.Tape(new(one.Name, from), new(other.Name, at), IsDiagonal: true);
        }
    }

    private bool IsFree(OpenEnd one, int from, OpenEnd other, int to) =>
        one.Lip(from, Motion.None) is var a && other.Lip(to, Motion.None) is var b && a.To(b) > 1 && Solid.Clear(a, b, bodies, 1);

    /// <summary>What a reading should be.</summary>
    public EndTarget Of(EndReading reading)
    {
        var none = new double[6 * others.Count];
        var slopes = new double[none.Length];
        See(reading, 0, reading.Sd).Slopes(none, slopes);
        var allow = 0.0;
        for (var k = 0; k < others.Count; k++)
            allow += FitUp.Targets.Allowance(slopes.AsSpan(6 * k, 6), Limits[others[k].Name]);
        // The base itself is set as drawn, no better than its own limits.
        if (reading.Ends.All(e => e == Base!.Name))
            allow = reading is EndReading.Holes or EndReading.HoleLine ? Limits[Base!.Name].Roll.Value : Limits[Base!.Name].Tilt.Value;
        var value = Measure(reading, none);
        return new(reading, Math.Abs(value) < 1e-9 ? 0 : value, allow);
    }

    /// <summary>What would be read with the ends in error; the base is where it should be.</summary>
    /// <param name="errors">By the end's name; none for an end that is left out.</param>
    public double Measure(EndReading reading, IReadOnlyDictionary<string, PoseError> errors) => reading.Measure(name =>
        Find(name) is { } end ? new(end, errors.TryGetValue(name, out var e) ? end.MotionOf(e) : Motion.None) : throw new ArgumentException($"{name} is no end", nameof(reading)));

    private double Measure(EndReading reading, ReadOnlySpan<double> errors)
    {
        // A reading touches one end or two; it is measured thousands of times while the errors are looked for.
        var names = reading.Ends;
        var placed = new PlacedEnd[names.Count];
        for (var i = 0; i < placed.Length; i++)
        {
            var k = others.Count - 1;
            while (k >= 0 && others[k].Name != names[i])
                k--;
            placed[i] = k >= 0 ? new(others[k], others[k].MotionOf(PoseError.From(errors.Slice(6 * k, 6))))
                : names[i] == Base!.Name ? new(Base!, Motion.None)
                : throw new ArgumentException($"{names[i]} is no end", nameof(reading));
        }

        return reading.Measure(name => placed[0].End.Name == name ? placed[0] : placed[^1]);
    }

    private Sighting See(EndReading reading, double value, double spread) =>
        new([.. Enumerable.Range(0, others.Count).Where(k => reading.Ends.Contains(others[k].Name))], e => Measure(reading, e), value, spread);

    /// <summary>Where the ends are by what was read.</summary>
    public FinalFound Judge(IReadOnlyList<EndTaken> taken)
    {
        // The same thing read twice with different figures is a contradiction: neither counts. What is read of the base alone says how well it was set, and moves no end.
        var twice = taken.GroupBy(t => t.Reading).Where(g => g.Max(t => t.Value) - g.Min(t => t.Value) > 1e-9).SelectMany(g => g).ToList();
        Dictionary<Sighting, EndTaken> of = new(ReferenceEqualityComparer.Instance);
        foreach (var t in taken.Except(twice).DistinctBy(t => t.Reading).Where(t => t.Reading.Ends.Any(e => e != Base?.Name)))
            of[See(t.Reading, t.Value, t.Sd ?? t.Reading.Sd)] = t;
        if (others.Count == 0)
            return new([], twice, [], [], false);
        var fit = PoseFit.Of([.. of.Keys], others.Count);
        var outside = taken.Where(t => !Of(t.Reading).Allows(t.Value)).ToList();
        List<EndTaken> again = [.. twice, .. fit.Again.Select(s => of[s])];
        var isBaseOff = outside.Exists(t => t.Reading.Ends.All(e => e == Base!.Name));
        List<EndFound> found = [];
        for (var k = 0; k < others.Count; k++)
        {
            var (end, limits) = (others[k], Limits[others[k].Name]);
            var error = PoseError.From(fit.Errors.AsSpan(6 * k, 6));
            List<int> unseen = [.. fit.Unseen.Where(i => i / 6 == k).Select(i => i % 6)];
            List<EndTaken> own = [.. outside.Where(t => t.Reading.Ends.Contains(end.Name))];
            var judged = new EndFound(end, error, [.. fit.Sd.Skip(6 * k).Take(6)], unseen, limits, own, Verdict.NothingRead);
            var verdict = !of.Values.Any(t => t.Reading.Ends.Contains(end.Name)) && own.Count == 0 ? Verdict.NothingRead
                : !limits.Holds(judged.Seen) || own.Count > 0 || isBaseOff || fit.Disagree || again.Exists(t => t.Reading.Ends.Contains(end.Name)) ? Verdict.NotWithin
                : unseen.Exists(i => i != 5 || end.Holes is not null) ? Verdict.AsFarAsRead : Verdict.Within;
            found.Add(judged with { Verdict = verdict });
        }

        var open = Targets.Select(t => t.Reading).Where(r => r.Ends.Any(e => e != Base!.Name) && !fit.Kept.Any(s => of[s].Reading == r)).ToList();
        var allowed = others.SelectMany(e => Limits[e.Name].Each).ToList();
        var next = fit.Next([.. open.Select(r => See(r, 0, r.Sd))], allowed, Proposed);
        return new(found, again, [.. fit.Alike.Select(s => of[s])], [.. next.Select(i => open[i])], fit.Disagree);
    }
}
