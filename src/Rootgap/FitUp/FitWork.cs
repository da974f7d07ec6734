using Rootgap.Measure;

namespace Rootgap.FitUp;

/// <summary>What is known of a joint that was made: its readings, or its error from a survey.</summary>
/// <param name="Readings">As taken at its own card; null where an error is given.</param>
/// <param name="Error">mm and radians.</param>
/// <param name="Mark">Distance of the marks, mm; null for the usual one.</param>
/// <param name="IsWelded">Read after welding: it has drawn in, and the weld's pull is in what was read.</param>
public sealed record JointAsMade(IReadOnlyList<Taken>? Readings, PoseError? Error, double? Mark, bool IsWelded = false)
{
    /// <summary>The weld has drawn in, also where what is known of it was read before, or nothing was read.</summary>
    public bool HasDrawnIn { get => field || IsWelded; init; }
}

/// <summary>An error that stays at a joint made before.</summary>
/// <param name="Joint">The joint.</param>
/// <param name="Error">What counts: of what nothing saw, none.</param>
/// <param name="Unseen">Components that nothing saw.</param>
public sealed record KeptError(string Joint, PoseError Error, IReadOnlyList<int> Unseen);

/// <summary>How a joint that is still open would bring the spool's far end back to its place.</summary>
/// <param name="Joint">The open joint.</param>
/// <param name="By">The error that would have to be set there on purpose, mm and radians, in its axes.</param>
/// <param name="IsWithin">That is inside the joint's own limits.</param>
public sealed record TakeBack(string Joint, PoseError By, bool IsWithin);

/// <summary>Where the spool's far end would come with this joint made true, on account of the errors that stay.</summary>
/// <param name="Part">The part at the far end.</param>
/// <param name="Shift">How far it would be off its place against the spool's other end, mm, in plant directions as drawn.</param>
/// <param name="Turn">By what angle, radians.</param>
/// <param name="By">The open joints that can take it back, the best first.</param>
public sealed record EndOff(string Part, Vector Shift, double Turn, IReadOnlyList<TakeBack> By);

/// <summary>One joint in its turn: the two assemblies as they stand with the errors kept before it, and what should be read.</summary>
/// <param name="Step">The joint in the order of work.</param>
/// <param name="Of">Number of joints in the order.</param>
/// <param name="Standing">As it stands.</param>
/// <param name="Drawn">As it would stand without errors.</param>
/// <param name="Kept">The errors kept at joints before it.</param>
public sealed record FitCard(FitStep Step, int Of, StandingJoint Standing, StandingJoint Drawn, FitTolerance Limits, IReadOnlyList<Target> Targets, IReadOnlyList<KeptError> Kept)
{
    /// <summary>What is read of the new part itself, before it is fitted.</summary>
    public IReadOnlyList<Target> OfPart { get; } = FitUp.Targets.OfPart(Standing, Limits);

    /// <summary>The joints before it that are welded and have drawn in by what was allowed for.</summary>
    public IReadOnlyList<string> DrawnIn { get; init; } = [];

    /// <summary>Where the spool's far end would come; null where nothing stays that would be felt there.</summary>
    public EndOff? EndOff { get; init; }

    /// <summary>What is screwed on when this weld is cold: nothing that carries it is welded after.</summary>
    public IReadOnlyList<ScrewedOn> Screwed { get; init; } = [];

    /// <summary>Valves that are on it and that this weld heats.</summary>
    public IReadOnlyList<FitPart> InTheHeat { get; init; } = [];

    /// <summary>The spool as it is when this joint is made true.</summary>
    public required Construction After { get; init; }
}

/// <summary>A spool's work in a given order, joint after joint, with what was read on the way.</summary>
public static class FitWork
{
    /// <summary>The cards of an order of work.</summary>
    /// <param name="spool">The spool.</param>
    /// <param name="steps">Its steps, whole or only the first.</param>
    /// <param name="made">What is known of a joint made; null where nothing is: it counts as true.</param>
    /// <param name="marks">Distance of the marks at a joint, mm; null for the usual one.</param>
    public static IReadOnlyList<FitCard> Cards(FitSpool spool, IReadOnlyList<FitStep> steps, Func<string, JointAsMade?>? made = null, Func<string, double?>? marks = null)
    {
        List<FitCard> cards = [];
        List<KeptError> kept = [];
        List<string> drawnIn = [];
        var construction = spool.Begin();
        foreach (var step in steps)
        {
            var known = made?.Invoke(step.Weld.Id);
            var before = construction;
            var card = Card(spool, step, steps, before, made, [.. kept], known?.Mark ?? marks?.Invoke(step.Weld.Id), known is { IsWelded: true }) with { DrawnIn = [.. drawnIn], Screwed = ScrewedAfter(spool, step, steps), InTheHeat = [.. step.Joint.Both.Parts.Where(p => FitSpool.IsHeated(step.Weld, p))] };
            var error = PoseError.None;
            if (known is { Error: { } given })
            {
                kept.Add(new(step.Weld.Id, given, []));
                error = given;
            }
            else if (known is { Readings: { Count: > 0 } readings })
            {
                var found = Diagnosis.Of(card.Standing, card.Limits, readings, card.Targets);
                error = card.Standing.Leaning(found.Kept, found.OfPart);
                kept.Add(new(step.Weld.Id, error, found.Unseen));
            }

            // Read while tacked and welded since: what was read stays, and the weld has drawn in.
            var joined = known is { IsWelded: false, HasDrawnIn: true } ? Standing(spool, step, before, card.Standing.Mark, hasDrawnIn: true) : card.Standing;
            construction = before.Join(joined, step.SetUp.Base, error);
            cards.Add(card with { After = construction });
            if (known is { HasDrawnIn: true } && spool.DrawsIn(step.Weld))
                drawnIn.Add(step.Weld.Id);
        }

        return cards;
    }

    // What the last weld at a part leaves free to be screwed on it, with all beyond.
    private static List<ScrewedOn> ScrewedAfter(FitSpool spool, FitStep step, IReadOnlyList<FitStep> steps)
    {
        HashSet<string> cold = [.. step.Weld.Between.Where(id => steps.SkipWhile(s => s != step).Skip(1).All(s => !s.Weld.Between.Contains(id)))];
        return [.. spool.Screwed.Where(s => cold.Contains(s.On.Id) && cold.Add(s.Part.Id))];
    }

    // A joint between what stands before it, as that stands.
    private static StandingJoint Standing(FitSpool spool, FitStep step, Construction before, double? mark, bool hasDrawnIn) =>
        new(spool.Fitting.Of(step.Weld, step.Joint.Held, step.Joint.HeldSide, step.Joint.Brought, before.SeenFrom(step.SetUp.Base.Length > 0 ? step.SetUp.Base : step.Joint.Held.Id), hasDrawnIn), step.SetUp, mark);

    private static FitCard Card(FitSpool spool, FitStep step, IReadOnlyList<FitStep> steps, Construction before, Func<string, JointAsMade?>? made, IReadOnlyList<KeptError> kept, double? mark, bool isWelded)
    {
        var drawn = new StandingJoint(step.Joint, step.SetUp, mark);
        var hasErrors = kept.Any(k => k.Error != PoseError.None);
        StandingJoint Stands(Construction c) => Standing(spool, step, c, drawn.Mark, isWelded);
        var isOtherLength = isWelded || Shrunk(before);
        var standing = hasErrors || isOtherLength ? Stands(before) : drawn;
        if (isOtherLength)
            drawn = hasErrors ? Stands(WithoutErrors(spool, steps.TakeWhile(s => s != step), made)) : standing;
        var limits = spool.Fitting.Limits(step.Weld, step.Joint);
        // A gap that is closed has no tolerance of its own: what it leaves is the spool's length.
        if (isWelded)
            limits = limits with { Gap = FitTolerance.Length(step.Weld.Size.Inches) };
        return new(step, steps.Count, standing, drawn, limits, Targets.Of(standing, limits, drawn), kept)
        {
            After = before,
            EndOff = hasErrors && !step.Joint.IsRing ? EndOffOf(spool, step, steps, standing, limits) : null,
        };

        // Until it is welded, what is tacked is longer than drawn by what its welds will draw in.
        bool Shrunk(Construction c) => c.Made.Count > 0 && spool.Spool.Cuts.Any(cut => cut.Allowance > 0);
    }

    /// <summary>The spool with all these joints made true, those that are welded drawn in.</summary>
    internal static Construction WithoutErrors(FitSpool spool, IEnumerable<FitStep> steps, Func<string, JointAsMade?>? made)
    {
        var construction = spool.Begin();
        foreach (var step in steps)
            construction = construction.Join(Standing(spool, step, construction, null, made?.Invoke(step.Weld.Id) is { HasDrawnIn: true }), step.SetUp.Base, PoseError.None);
        return construction;
    }

    private const double Felt = 0.5;

    // The spool's far end on the held side, against its far end on the side that is brought.
    private static EndOff? EndOffOf(FitSpool spool, FitStep step, IReadOnlyList<FitStep> steps, StandingJoint standing, FitTolerance limits)
    {
        var fit = standing.Joint;
        var near = Farthest(spool, fit.HeldSide, fit.Centre);
        var far = Farthest(spool, fit.Brought, fit.Centre);
        // What the far end does when the near one is held as drawn.
        var off = fit.Places[near.Part.Id].Inverse.After(fit.Places[far.Part.Id]);
        var shift = off.ShiftAt(far.End.Drawn);
        if (shift.Length < Felt && off.Turn.Length < limits.Tilt.Value / 2)
            return null;
        var by = steps.SkipWhile(s => s != step).Select(open => TakeBack(spool, open, near.Part.Id, far.Part.Id, off)).OfType<TakeBack>();
        return new(far.Part.Id, shift, off.Turn.Length, [.. BestFirst(by)]);
    }

    /// <summary>How an open joint would take back what a part is off, seen from another; null where it does not lie between them.</summary>
    internal static TakeBack? TakeBack(FitSpool spool, FitStep open, string near, string far, in Motion off)
    {
        if (open.Joint.IsRing || !Parts(spool, open, near, far))
            return null;
        // Turned the other way where the far end is on the side that is held.
        var error = new StandingJoint(open.Joint, open.SetUp).ErrorOf(OnSide(spool, open, far) ? off.Inverse : off);
        return new(open.Weld.Id, error, spool.Fitting.Limits(open.Weld, open.Joint).Holds(error));
    }

    internal static IEnumerable<TakeBack> BestFirst(IEnumerable<TakeBack> by) => by.OrderBy(b => b.IsWithin ? 0 : 1).ThenBy(b => b.By.Shift + Math.Abs(b.By.Z) + (b.By.Tilt * 300));

    private static (FitPart Part, FitEnd End) Farthest(FitSpool spool, Assembly assembly, Point from)
    {
        var there = spool.Parts.Select(p => p.Id).ToHashSet(StringComparer.Ordinal);
        var ends = assembly.Parts.SelectMany(p => p.Ends.Select(e => (Part: p, End: e))).ToList();
        var free = ends.Where(e => spool.Fitting.Net.IsFree(e.Part, e.End, there)).ToList();
        return (free.Count > 0 ? free : ends).MaxBy(e => e.End.At.To(from));
    }

    // Whether a weld lies between two parts, and on which side of it one lies.
    private static bool Parts(FitSpool spool, FitStep step, string one, string other) => OnSide(spool, step, one) != OnSide(spool, step, other);

    private static bool OnSide(FitSpool spool, FitStep step, string part)
    {
        var seen = new HashSet<string>(StringComparer.Ordinal) { step.Joint.New.Id };
        var queue = new Queue<string>(seen);
        while (queue.TryDequeue(out var id))
        {
            if (id == part)
                return true;
            foreach (var (joint, _, next) in spool.Fitting.Net.Of(id))
            {
                if (joint != step.Weld && spool.Parts.Any(p => p.Id == next) && seen.Add(next))
                    queue.Enqueue(next);
            }
        }

        return false;
    }

    /// <summary>A step in another set-up, or with the other side held; null with why it cannot be.</summary>
    /// <param name="wish">The set-up that is asked for; null for the best there is.</param>
    /// <param name="held">Id of the part at the weld that is held.</param>
    public static FitStep? Otherwise(FitSpool spool, FitStep step, (Attitude Attitude, double Roll)? wish, string held, out string refused)
    {
        var fit = step.Joint;
        if (held != fit.Held.Id)
        {
            if (held != fit.New.Id || fit.IsRing)
            {
                refused = $"{spool.Parts.FirstOrDefault(p => p.Id == held)?.Label ?? held} cannot be held at {fit.Name}: it joins {fit.Held.Label} and {fit.New.Label}.";
                return null;
            }

            fit = spool.Fitting.Of(step.Weld, fit.New, fit.Brought, fit.HeldSide, _ => Motion.None);
        }

        return FitOrder.SetUpOf(spool, fit, wish, out refused) is { } setUp ? step with { Joint = fit, SetUp = setUp } : null;
    }

    /// <summary>Whether a step stands as somebody asks for.</summary>
    public static bool IsSo(FitStep step, (Attitude Attitude, double Roll) wish) =>
        step.SetUp.Attitude == wish.Attitude && (wish.Attitude != Attitude.Rolled || Math.Abs(Math.IEEERemainder(step.SetUp.Roll - wish.Roll, 360)) < 0.6);

    /// <summary>The card of two parts alone, in a given attitude.</summary>
    public static FitCard Alone(FitJoints fitting, Routes.Joint weld, FitJoint joint, SetUp setUp, double? mark)
    {
        var standing = new StandingJoint(joint, setUp, mark);
        var limits = fitting.Limits(weld, joint);
        return new(new(1, weld, joint, setUp, 0, CanRoll: false, []), 1, standing, standing, limits, Targets.Of(standing, limits), []) { After = Construction.Begin([joint.HeldSide, joint.Brought]) };
    }
}
