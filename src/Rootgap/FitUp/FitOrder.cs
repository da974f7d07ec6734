using Rootgap.Measure;
using Rootgap.Routes;

namespace Rootgap.FitUp;

/// <summary>The order of joints of one spool with their set-ups: nothing closed off before it is tacked, then the fewest turn-overs, then the most welds
/// that can be rolled, then the lowest lift; what stands free before what has to be held, short pieces on end where that costs nothing.</summary>
/// <remarks>Assemblies that are joined keep the attitude they were joined in until a joint wants another one: that is a turn-over, unless it is a small roll. A single
/// piece is set up as it is picked up, without a turn-over.</remarks>
public static class FitOrder
{
    /// <summary>Up to this many joints every order is compared; above it the most promising ones are.</summary>
    private const int AllOrders = 7;

    private const int MostWays = 600;

    private const int Beam = 8;

    /// <summary>Room that a hand with a torch needs beside the weld, mm (common practice).</summary>
    private const double Room = 50;

    /// <summary>Up to this much an assembly is rolled on its stands or leaned over, and not turned over, radians.</summary>
    private const double SmallRoll = 46 * Math.PI / 180;

    /// <summary>A way in which one joint can be fitted between two assemblies.</summary>
    internal sealed record Choice(Stance Stance, int Up, bool IsSideways);

    /// <summary>One joint between two assemblies, as far as the order asks.</summary>
    internal sealed record Meeting(FitJoint Joint, Stances Standing, int Blocked, double Reach)
    {
        public required IReadOnlyList<Choice> Choices { get; init; }
    }

    /// <summary>The joints of a spool, ready to be compared: what each meeting of two assemblies asks for is worked out once.</summary>
    internal sealed class Plan
    {
        private readonly Dictionary<(int, string, string), Meeting> meetings = [];
        private readonly Cost[] least;

        public Plan(FitSpool spool)
        {
            Spool = spool;
            Blocked = [.. spool.Welds.Select(w => spool.Parts.Where(p => !w.Between.Contains(p.Id) && Crowds(w, p)).Select(p => p.Id).ToHashSet(StringComparer.Ordinal))];
            // A weld that closes a ring brings nothing.
            var hasRing = spool.Welds.Count >= spool.Pieces.Count;
            least = [.. spool.Welds.Select(w => new Cost(0, 0, w.Between.Max(id => Extent(spool.Fitting.Part(id), w)) <= spool.Fitting.Rules.StandHeight ? 0 : 1,
                hasRing ? 0 : w.Between.Min(id => spool.Fitting.Part(id).Mass ?? 0), 0, 0, 0))];
        }

        public FitSpool Spool { get; }

        public IReadOnlyList<IReadOnlySet<string>> Blocked { get; }

        /// <summary>The least that the joints not yet made will cost.</summary>
        public Cost AtLeast(ulong done)
        {
            var sum = default(Cost);
            for (var i = 0; i < least.Length; i++)
            {
                if ((done & (1UL << i)) == 0)
                    sum += least[i];
            }

            return sum;
        }

        public Meeting Meet(int weld, Assembly held, Assembly brought)
        {
            if (!meetings.TryGetValue((weld, held.Key, brought.Key), out var known))
                meetings[(weld, held.Key, brought.Key)] = known = Make(weld, held, brought);
            return known;
        }

        private Meeting Make(int weld, Assembly held, Assembly brought)
        {
            var joint = Spool.Joint(Spool.Welds[weld], held, brought);
            var standing = new Stances(joint, Spool.Fitting.Net, Spool.Fitting.Rules);
            var parts = joint.Both.Parts;
            var choices = new List<Choice>();
            foreach (var stance in standing.Best(Spool.Ups))
            {
                // Of ways with the same side up the first will do: stands under the held part's own line come before others.
                var up = Up(stance.Up);
                if (choices.Exists(c => c.Up == up && c.Stance.Attitude == stance.Attitude && !(IsUnderHeld(stance) && !IsUnderHeld(c.Stance))))
                    continue;
                choices.RemoveAll(c => c.Up == up && c.Stance.Attitude == stance.Attitude);
                choices.Add(Chosen(standing, stance, up));
            }

            return new(joint, standing, parts.Count(p => Blocked[weld].Contains(p.Id)), parts.Max(p => Extent(p, joint.Centre, joint.Axis))) { Choices = choices };

            bool IsUnderHeld(Stance s) => s.Stands[0].Part == joint.Held.Id;
        }

        public Choice Chosen(Stances standing, Stance stance, int up)
        {
            var named = standing.Named(stance);
            return new(stance, up, named.Attitude == Attitude.Rolled && standing.LeadsAside);
        }

        private readonly List<Vector> seen = [];

        /// <summary>The number of a direction that looks up; within a degree it is the same, shims take up the rest.</summary>
        public int Up(Vector up)
        {
            var i = seen.FindIndex(u => u.AngleTo(up) < Math.PI / 180);
            if (i >= 0)
                return i;
            seen.Add(up);
            return seen.Count - 1;
        }

        public bool IsTurnedOver(int from, int to) => from >= 0 && seen[from].AngleTo(seen[to]) > SmallRoll;

        private static bool Crowds(Joint weld, FitPart part)
        {
            var (twelve, ring) = (weld.Axis.AnySquare(), (Standards.Pipes.OutsideDiameter(weld.Size)?.Mm ?? 0) / 2);
            for (var k = 0; k < 8; k++)
            {
                var at = weld.At + (twelve.Turned(weld.Axis, k * Math.PI / 4) * (ring + Room));
                if (part.Bodies.Any(b => b.Distance(at) < Room))
                    return true;
            }

            return false;
        }

        private static double Extent(FitPart part, Joint weld) => Extent(part, weld.At, weld.Axis);

        private static double Extent(FitPart part, Point centre, Vector axis) => part.Bodies.Select(b => FitOrder.Extent(b, centre, axis)).DefaultIfEmpty(0).Max();
    }

    /// <summary>What a body reaches at most from a line through <paramref name="centre"/>, mm.</summary>
    internal static double Extent(Solid body, Point centre, Vector axis)
    {
        var most = 0.0;
        foreach (var (middle, _, radius) in body.Discs)
            most = Math.Max(most, (middle - centre).SquareTo(axis).Length + radius);
        return most;
    }

    /// <summary>What an order costs; compared from left to right.</summary>
    internal readonly record struct Cost(int Blocked, int TurnOvers, int NotRolled, double Lift, int Held, int Sideways, int NotOnEnd) : IComparable<Cost>
    {
        // Sums of the same masses in another order differ in their last bits.
        public int CompareTo(Cost other) =>
            (Blocked, TurnOvers, NotRolled, Math.Round(Lift, 6), Held, Sideways, NotOnEnd).CompareTo((other.Blocked, other.TurnOvers, other.NotRolled, Math.Round(other.Lift, 6), other.Held, other.Sideways, other.NotOnEnd));

        public static Cost operator +(Cost a, Cost b) => new(
            a.Blocked + b.Blocked, a.TurnOvers + b.TurnOvers, a.NotRolled + b.NotRolled, a.Lift + b.Lift, a.Held + b.Held, a.Sideways + b.Sideways, a.NotOnEnd + b.NotOnEnd);
    }

    /// <summary>What hangs together and how each assembly stands (-1: as it was picked up), and which of them was joined last.</summary>
    internal sealed record State(IReadOnlyList<(Assembly Assembly, int Up)> Pieces, Assembly? Last)
    {
        public static State Loose(FitSpool spool) => new([.. spool.Pieces.Select(p => (p, -1))], null);

        /// <summary>As one word to look up.</summary>
        public string Key { get; } = string.Join('|', Pieces.Where(p => p.Up >= 0).Select(p => p.Assembly.Key + "@" + p.Up.ToString(System.Globalization.CultureInfo.InvariantCulture))) + "#" + Last?.Key;

        public (Assembly Assembly, int Up) Of(string part)
        {
            foreach (var piece in Pieces)
            {
                if (piece.Assembly.Contains(part))
                    return piece;
            }

            throw new InvalidOperationException($"{part} is no part of this spool.");
        }
    }

    /// <summary>The two assemblies that a weld joins now, held first; the second is none where it closes a ring.</summary>
    internal static (Assembly Held, Assembly Brought) Sides(Plan plan, State state, int weld)
    {
        var joint = plan.Spool.Welds[weld];
        var (first, second) = (state.Of(joint.Between[0]).Assembly, state.Of(joint.Between[1]).Assembly);
        if (first == second)
            return (first, Assembly.None);
        return plan.Spool.HoldsFirst(joint, first, second, state.Last) ? (first, second) : (second, first);
    }

    /// <summary>Makes one joint.</summary>
    internal static (State Next, Cost Cost) Make(Plan plan, State state, Meeting meeting, Choice choice)
    {
        var (held, brought) = (meeting.Joint.HeldSide, meeting.Joint.Brought);
        var turned = 0;
        var pieces = new List<(Assembly, int)>(state.Pieces.Count);
        var both = meeting.Joint.Both;
        var isIn = false;
        foreach (var piece in state.Pieces)
        {
            if (piece.Assembly != held && piece.Assembly != brought)
            {
                pieces.Add(piece);
                continue;
            }

            if (plan.IsTurnedOver(piece.Up, choice.Up))
                turned++;
            if (!isIn)
                pieces.Add((both, choice.Up));
            isIn = true;
        }

        var rolls = choice.Stance.Attitude is Attitude.Level or Attitude.Rolled && meeting.Reach <= plan.Spool.Fitting.Rules.StandHeight;
        return (new(pieces, both), new(meeting.Blocked, turned, rolls ? 0 : 1, brought.Mass, (int)choice.Stance.Footing, choice.IsSideways ? 1 : 0, choice.Stance.Attitude == Attitude.OnEnd ? 0 : 1));
    }

    private sealed record Path(State State, Cost Cost, Path? Before, int Weld, Meeting? Meeting, Choice? Choice, ulong Done);

    /// <summary>The order of work of a spool.</summary>
    public static IReadOnlyList<FitStep> Of(FitSpool spool)
    {
        if (spool.Welds.Count == 0)
            return [];
        var plan = new Plan(spool);
        var start = new Path(State.Loose(spool), default, null, -1, null, null, 0);
        return Steps(plan, spool.Welds.Count <= MostWelds ? Best(plan, start) ?? Good(plan, start) : InLine(plan, start));
    }

    // A bit for each weld.
    private const int MostWelds = 63;

    // The best order, found by always going on from the way that promises most (A*): what is still to do costs at least Plan.AtLeast.
    // Null where a large spool has too many ways.
    private static Path? Best(Plan plan, Path start)
    {
        var all = (1UL << plan.Spool.Welds.Count) - 1;
        var open = new PriorityQueue<Path, Cost>();
        var settled = new Dictionary<(ulong, string), Cost>();
        open.Enqueue(start, default);
        while (open.TryDequeue(out var path, out _))
        {
            if (path.Done == all)
                return path;
            if (AllOrders < plan.Spool.Welds.Count && MostWays < settled.Count)
                return null;
            if (path != start && settled.TryGetValue((path.Done, path.State.Key), out var best) && best.CompareTo(path.Cost) < 0)
                continue;
            foreach (var longer in Onward(plan, path))
            {
                var key = (longer.Done, longer.State.Key);
                if (settled.TryGetValue(key, out var known) && known.CompareTo(longer.Cost) <= 0)
                    continue;
                settled[key] = longer.Cost;
                open.Enqueue(longer, longer.Cost + plan.AtLeast(longer.Done));
            }
        }

        return null;
    }

    // A good order of a large spool: joint after joint, the most promising ways to the same assemblies go on.
    private static Path Good(Plan plan, Path start)
    {
        List<Path> layer = [start];
        for (var made = System.Numerics.BitOperations.PopCount(start.Done); made < plan.Spool.Welds.Count; made++)
        {
            var next = new Dictionary<(ulong, string), Path>();
            foreach (var path in layer)
            {
                foreach (var longer in Onward(plan, path))
                {
                    var key = (longer.Done, longer.State.Key);
                    if (!next.TryGetValue(key, out var known) || longer.Cost.CompareTo(known.Cost) < 0)
                        next[key] = longer;
                }
            }

            layer = [.. next.Values.OrderBy(p => p.Cost + plan.AtLeast(p.Done)).Take(Beam)];
        }

        return layer[0];
    }

    private static Path InLine(Plan plan, Path start)
    {
        var path = start;
        var done = new HashSet<int>();
        for (var p = start; p.Before is not null; p = p.Before)
            done.Add(p.Weld);
        foreach (var weld in Enumerable.Range(0, plan.Spool.Welds.Count).Where(w => !done.Contains(w)))
            path = Onward(plan, path, weld).MinBy(p => p.Cost)!;
        return path;
    }

    private static IEnumerable<Path> Onward(Plan plan, Path path)
    {
        for (var j = 0; j < plan.Spool.Welds.Count; j++)
        {
            if ((path.Done & (1UL << j)) != 0)
                continue;
            foreach (var longer in Onward(plan, path, j))
                yield return longer;
        }
    }

    private static IEnumerable<Path> Onward(Plan plan, Path path, int weld)
    {
        var (held, brought) = Sides(plan, path.State, weld);
        var meeting = plan.Meet(weld, held, brought);
        foreach (var choice in meeting.Choices)
            yield return Longer(plan, path, weld, meeting, choice);
    }

    private static Path Longer(Plan plan, Path path, int weld, Meeting meeting, Choice choice)
    {
        var (state, cost) = Make(plan, path.State, meeting, choice);
        return new(state, path.Cost + cost, path, weld, meeting, choice, path.Done | (1UL << (weld & 63)));
    }

    /// <summary>A weld in a fitter's own order.</summary>
    /// <param name="Weld">Index among the spool's welds.</param>
    /// <param name="Attitude">The attitude he wants; null for the best one there.</param>
    /// <param name="Roll">Degrees from level that he wants; null for any.</param>
    public sealed record Wish(int Weld, Attitude? Attitude = null, double? Roll = null);

    /// <summary>The steps of an order that a fitter has chosen, whole or only its beginning.</summary>
    /// <returns>The steps as far as they can be made, and why the next one cannot; null where all can.</returns>
    public static (IReadOnlyList<FitStep> Steps, string? Refused) Of(FitSpool spool, IReadOnlyList<Wish> chosen)
    {
        var plan = new Plan(spool);
        var path = new Path(State.Loose(spool), default, null, -1, null, null, 0);
        foreach (var wish in chosen)
        {
            var (held, brought) = Sides(plan, path.State, wish.Weld);
            var meeting = plan.Meet(wish.Weld, held, brought);
            IEnumerable<Choice> choices = meeting.Choices;
            if (wish.Attitude is { } attitude)
            {
                choices = [.. Wished(meeting.Standing, spool.Ups, attitude, wish.Roll).Select(s => plan.Chosen(meeting.Standing, s, plan.Up(s.Up)))];
                if (!choices.Any())
                    return (Steps(plan, path), meeting.Standing.WhyNot(attitude));
            }

            path = choices.Select(c => Longer(plan, path, wish.Weld, meeting, c)).MinBy(p => p.Cost)!;
        }

        return (Steps(plan, path), null);
    }

    /// <summary>The set-up of one joint between two assemblies: the one that is wished for, or the best there is; null with why it cannot be.</summary>
    public static SetUp? SetUpOf(FitSpool spool, FitJoint joint, (Attitude Attitude, double Roll)? wish, out string refused)
    {
        var standing = new Stances(joint, spool.Fitting.Net, spool.Fitting.Rules);
        refused = "";
        if (wish is not var (attitude, roll))
            return standing.Named(standing.Best(spool.Ups)[0]);
        if (Wished(standing, spool.Ups, attitude, attitude == Attitude.Rolled ? roll : null) is [var first, ..])
            return standing.Named(first);
        refused = standing.WhyNot(attitude);
        return null;
    }

    // The ways to stand that suit a wish, the best footing first. Who asks for level gets the pipe level all the same where its free face cannot look up.
    private static List<Stance> Wished(Stances standing, IReadOnlyList<Vector> ups, Attitude attitude, double? roll)
    {
        List<(Stance Stance, SetUp SetUp)> all = [.. standing.All(ups).Select(s => (s, standing.Named(s)))];
        List<Stance> exact = [.. all.Where(s => s.SetUp.Attitude == attitude && (roll is not { } r || Math.Abs(Math.IEEERemainder(s.SetUp.Roll - r, 360)) < 0.6)).Select(s => s.Stance)];
        return exact.Count > 0 || attitude != Attitude.Level ? exact : [.. all.Where(s => s.SetUp.Attitude == Attitude.Rolled).Select(s => s.Stance)];
    }

    /// <summary>The order of work of a spool that was begun otherwise: what was made, as it was made, and the best order of the rest from there.</summary>
    public static IReadOnlyList<FitStep> Of(FitSpool spool, IReadOnlyList<Wish> begun, bool andTheRest)
    {
        if (!andTheRest || begun.Count == 0)
            return begun.Count == 0 ? Of(spool) : Of(spool, begun).Steps;
        var plan = new Plan(spool);
        var path = new Path(State.Loose(spool), default, null, -1, null, null, 0);
        foreach (var wish in begun)
        {
            var (held, brought) = Sides(plan, path.State, wish.Weld);
            var meeting = plan.Meet(wish.Weld, held, brought);
            IEnumerable<Choice> choices = meeting.Choices;
            if (wish.Attitude is { } attitude)
            {
                var wished = Wished(meeting.Standing, spool.Ups, attitude, wish.Roll).Select(s => plan.Chosen(meeting.Standing, s, plan.Up(s.Up))).ToList();
                // It was made so, whatever speaks against it; where it cannot be reckoned so, the best way stands in.
                choices = wished.Count > 0 ? wished : choices;
            }

            path = choices.Select(c => Longer(plan, path, wish.Weld, meeting, c)).MinBy(p => p.Cost)!;
        }

        return Steps(plan, spool.Welds.Count <= MostWelds ? Best(plan, path) ?? Good(plan, path) : InLine(plan, path));
    }

    private static List<FitStep> Steps(Plan plan, Path last)
    {
        List<Path> paths = [];
        for (var p = last; p is { Before: not null }; p = p.Before)
            paths.Add(p);
        paths.Reverse();
        List<FitStep> steps = [];
        foreach (var path in paths)
        {
            var meeting = path.Meeting!;
            var (_, cost) = Make(plan, path.Before!.State, meeting, path.Choice!);
            steps.Add(new(
                steps.Count + 1, plan.Spool.Welds[path.Weld], meeting.Joint, meeting.Standing.Named(path.Choice!.Stance), cost.TurnOvers, cost.NotRolled == 0,
                [.. meeting.Joint.Both.Parts.Where(p => plan.Blocked[path.Weld].Contains(p.Id)).Select(p => p.Id)]));
        }

        return steps;
    }
}
