using Rootgap.Measure;

namespace Rootgap.FitUp;

/// <summary>One joint in the order of work.</summary>
/// <param name="Number">1, 2, ... in the order of work.</param>
/// <param name="Joint">The joint with the part that is held and the part that is brought.</param>
/// <param name="SetUp">How it stands.</param>
/// <param name="TurnOvers">How many tacked-up pieces have to be turned over before it.</param>
/// <param name="CanRoll">Whether the weld can be rolled: everything joined so far swings clear of the floor about the pipe.</param>
/// <param name="Lift">Mass that is brought to it, kg: the lighter of the two pieces.</param>
/// <param name="InTheWay">Parts already joined that leave no room at a tack; nothing when the order is right.</param>
public sealed record FitStep(int Number, FitJoint Joint, SetUp SetUp, int TurnOvers, bool CanRoll, double Lift, IReadOnlyList<string> InTheWay);

/// <summary>The order of joints of one spool with their set-ups: nothing closed off before it is tacked, then the fewest turn-overs, then the most welds
/// that can be rolled, then the lowest lift; short pieces on end where that costs nothing.</summary>
/// <remarks>Pieces that are joined keep the attitude they were joined in until a joint wants another one: that is a turn-over. A single piece is set up
/// as it is picked up, without a turn-over.</remarks>
public static class FitOrder
{
    /// <summary>Up to this many joints every order is compared; above it the most promising ones are.</summary>
    private const int AllOrders = 7;

    private const int MostWays = 3000;

    private const int Beam = 24;

    /// <summary>Room that a hand with a torch needs beside the weld, mm (common practice).</summary>
    private const double Room = 50;

    /// <summary>An attitude in which one joint can be fitted.</summary>
    internal sealed record Choice(Attitude Attitude, int Up, bool SinglesOnly);

    /// <summary>The joints of a spool with all attitudes they can be fitted in, ready to be compared.</summary>
    internal sealed class Plan
    {
        public Plan(IReadOnlyList<FitJoint> joints)
        {
            Joints = joints;
            Parts = [.. joints.SelectMany(j => new[] { j.Held, j.New }).DistinctBy(p => p.Id, StringComparer.Ordinal)];
            Ends = [.. joints.Select(j => (Index(j.Held), Index(j.New)))];
            Choices = [.. joints.Select(Possible)];
            Blocked = [.. joints.Select(j => Parts.Select(p => p.Id != j.Held.Id && p.Id != j.New.Id && Crowds(j, p)).ToArray())];
            Reach = [.. joints.Select(j => Parts.Select(p => p.Bodies.Select(b => Extent(b, j.Centre, j.Axis)).DefaultIfEmpty(0).Max()).ToArray())];
        }

        public IReadOnlyList<FitJoint> Joints { get; }
        public IReadOnlyList<FitPart> Parts { get; }
        public IReadOnlyList<(int Held, int New)> Ends { get; }
        public List<Vector> Ups { get; } = [];
        public IReadOnlyList<IReadOnlyList<Choice>> Choices { get; }
        public bool[][] Blocked { get; }

        /// <summary>How far each part reaches from each joint's axis, mm.</summary>
        public double[][] Reach { get; }

        // The least that each joint costs, whatever was done before: its own two parts are joined at any rate.
        private Cost[]? least;

        /// <summary>The least that the joints not yet made will cost.</summary>
        public Cost AtLeast(ulong done)
        {
            least ??= [.. Joints.Select((j, i) => new Cost(
                0, 0, Math.Max(Reach[i][Ends[i].Held], Reach[i][Ends[i].New]) <= SetUp.DefaultHeight ? 0 : 1, Math.Min(j.Held.Mass, j.New.Mass), 0,
                Choices[i].Any(c => c.Attitude == Attitude.OnEnd) ? 0 : 1))];
            var sum = default(Cost);
            for (var i = 0; i < least.Length; i++)
            {
                if ((done & (1UL << i)) == 0)
                    sum += least[i];
            }
            return sum;
        }

        private int Index(FitPart part)
        {
            for (var i = 0; i < Parts.Count; i++)
            {
                if (Parts[i].Id == part.Id)
                    return i;
            }
            return -1;
        }

        private int Up(Vector up)
        {
            for (var i = 0; i < Ups.Count; i++)
            {
                // Within a degree it is the same attitude: shims take up the rest.
                if (Ups[i].AngleTo(up) < Math.PI / 180)
                    return i;
            }
            Ups.Add(up);
            return Ups.Count - 1;
        }

        // A turned part looks up, or sideways; a straight one goes with any attitude that lays its pipe level: those that other joints want.
        private List<Choice> Possible(FitJoint joint)
        {
            List<Choice> choices = [];
            var onEnd = SetUp.Of(joint, Attitude.OnEnd);
            if (onEnd.Cautions.Count == 0)
                choices.Add(new(Attitude.OnEnd, Up(onEnd.Up), SinglesOnly: true));
            var level = SetUp.Of(joint, Attitude.Level).Up;
            var about = joint.Weld == FitWeld.Branch ? joint.Header : joint.Axis;
            choices.Add(new(Attitude.Level, Up(level), SinglesOnly: false));
            var sideways = level.Turned(about, Math.PI / 2);
            if (joint.Turn.IsStraight && joint.Weld != FitWeld.Branch)
            {
                foreach (var other in Joints)
                {
                    var top = SetUp.Of(other, Attitude.Level).Up;
                    var side = SetUp.Of(other, Attitude.Rolled).Up;
                    foreach (var up in (Vector[])[top, side, -side])
                    {
                        if (Math.Abs(up.Dot(joint.Axis)) < 0.0175)
                            Add(choices, new(Attitude.Rolled, Up(up), SinglesOnly: false));
                    }
                }
            }
            else
            {
                Add(choices, new(Attitude.Rolled, Up(-sideways), SinglesOnly: false));
                Add(choices, new(Attitude.Rolled, Up(sideways), SinglesOnly: false));
            }
            return choices;
        }

        private static void Add(List<Choice> choices, Choice choice)
        {
            if (!choices.Exists(c => c.Up == choice.Up))
                choices.Add(choice);
        }

        private static bool Crowds(FitJoint joint, FitPart part)
        {
            var twelve = joint.Axis.AnySquare();
            for (var k = 0; k < 8; k++)
            {
                var at = joint.Centre + (twelve.Turned(joint.Axis, k * Math.PI / 4) * ((joint.Outside / 2) + Room));
                if (part.Bodies.Any(b => b.Distance(at) < Room))
                    return true;
            }
            return false;
        }
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
    internal readonly record struct Cost(int Blocked, int TurnOvers, int NotRolled, double Lift, int Sideways, int NotOnEnd) : IComparable<Cost>
    {
        public int CompareTo(Cost other) =>
            (Blocked, TurnOvers, NotRolled, Lift, Sideways, NotOnEnd).CompareTo((other.Blocked, other.TurnOvers, other.NotRolled, other.Lift, other.Sideways, other.NotOnEnd));

        public static Cost operator +(Cost a, Cost b) => new(
            a.Blocked + b.Blocked, a.TurnOvers + b.TurnOvers, a.NotRolled + b.NotRolled, a.Lift + b.Lift, a.Sideways + b.Sideways, a.NotOnEnd + b.NotOnEnd);
    }

    /// <summary>Which piece each part is in, and the attitude of each piece (-1: a single part, as it was picked up).</summary>
    internal sealed record State(int[] Piece, int[] Attitude)
    {
        public static State Loose(int parts) => new([.. Enumerable.Range(0, parts)], [.. Enumerable.Repeat(-1, parts)]);

        /// <summary>Which piece each part is in and how each piece stands, as one word to look up.</summary>
        public string Key => string.Create(Piece.Length, this, static (word, state) =>
        {
            for (var i = 0; i < word.Length; i++)
                word[i] = (char)((state.Piece[i] << 8) + state.Attitude[state.Piece[i]] + 1);
        });

        public bool IsSingle(int piece)
        {
            var count = 0;
            foreach (var p in Piece)
                count += p == piece ? 1 : 0;
            return count == 1;
        }
    }

    /// <summary>Makes one joint; null where the attitude cannot be had any more.</summary>
    internal static (State Next, Cost Cost)? Make(Plan plan, State state, int joint, Choice choice)
    {
        var (held, brought) = (state.Piece[plan.Ends[joint].Held], state.Piece[plan.Ends[joint].New]);
        if (choice.SinglesOnly && !(state.IsSingle(held) && state.IsSingle(brought)))
            return null;
        // The last joint of a closed frame lies within one piece.
        var closes = held == brought;
        var turned = (Differs(held) ? 1 : 0) + (!closes && Differs(brought) ? 1 : 0);
        var (blocked, reach) = (0, 0.0);
        double heldMass = 0, broughtMass = 0;
        for (var i = 0; i < state.Piece.Length; i++)
        {
            if (state.Piece[i] != held && state.Piece[i] != brought)
                continue;
            if (plan.Blocked[joint][i])
                blocked++;
            reach = Math.Max(reach, plan.Reach[joint][i]);
            if (state.Piece[i] == held)
                heldMass += plan.Parts[i].Mass;
            else
                broughtMass += plan.Parts[i].Mass;
        }
        var rolls = choice.Attitude != Attitude.OnEnd && reach <= SetUp.DefaultHeight;
        var piece = (int[])state.Piece.Clone();
        var attitude = (int[])state.Attitude.Clone();
        var joined = Math.Min(held, brought);
        for (var i = 0; i < piece.Length; i++)
        {
            if (piece[i] == held || piece[i] == brought)
                piece[i] = joined;
        }
        if (!closes)
            attitude[Math.Max(held, brought)] = -1;
        attitude[joined] = choice.Up;
        return (new State(piece, attitude), new Cost(
            blocked, turned, rolls ? 0 : 1, Math.Min(heldMass, broughtMass), choice.Attitude == Attitude.Rolled && !plan.Joints[joint].Turn.IsStraight ? 1 : 0, choice.Attitude == Attitude.OnEnd ? 0 : 1));

        bool Differs(int p) => state.Attitude[p] >= 0 && state.Attitude[p] != choice.Up;
    }

    private sealed record Path(State State, Cost Cost, Path? Before, int Joint, Choice? Choice, ulong Done);

    public static IReadOnlyList<FitStep> Of(IReadOnlyList<FitJoint> joints)
    {
        if (joints.Count == 0)
            return [];
        var plan = new Plan(joints);
        var start = new Path(State.Loose(plan.Parts.Count), default, null, -1, null, 0);
        return Steps(plan, Best(plan, start) ?? Good(plan, start));
    }

    // The best order, found by always going on from the way that promises most (A*): what is still to do costs at least Plan.AtLeast.
    // Null where a large spool has too many ways.
    private static Path? Best(Plan plan, Path start)
    {
        var all = (1UL << plan.Joints.Count) - 1;
        var open = new PriorityQueue<Path, Cost>();
        var settled = new Dictionary<(ulong, string), Cost>();
        open.Enqueue(start, default);
        while (open.TryDequeue(out var path, out _))
        {
            if (path.Done == all)
                return path;
            if (AllOrders < plan.Joints.Count && MostWays < settled.Count)
                return null;
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

    // A good order of a large spool: joint after joint, the most promising ways to the same pieces go on.
    private static Path Good(Plan plan, Path start)
    {
        List<Path> layer = [start];
        for (var made = 0; made < plan.Joints.Count; made++)
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

    private static IEnumerable<Path> Onward(Plan plan, Path path)
    {
        for (var j = 0; j < plan.Joints.Count; j++)
        {
            if ((path.Done & (1UL << j)) != 0)
                continue;
            foreach (var choice in plan.Choices[j])
            {
                if (Make(plan, path.State, j, choice) is var (state, cost))
                    yield return new Path(state, path.Cost + cost, path, j, choice, path.Done | (1UL << j));
            }
        }
    }

    /// <summary>The steps of an order that a fitter has chosen: joints by index with an attitude each, null for the best one there.</summary>
    public static IReadOnlyList<FitStep> Of(IReadOnlyList<FitJoint> joints, IReadOnlyList<(int Joint, Attitude? Attitude)> chosen)
    {
        var plan = new Plan(joints);
        var path = new Path(State.Loose(plan.Parts.Count), default, null, -1, null, 0);
        foreach (var (joint, attitude) in chosen)
        {
            Path? best = null;
            foreach (var choice in plan.Choices[joint].Where(c => attitude is null || c.Attitude == attitude))
            {
                if (Make(plan, path.State, joint, choice) is var (state, cost) && (best is null || (path.Cost + cost).CompareTo(best.Cost) < 0))
                    best = new Path(state, path.Cost + cost, path, joint, choice, path.Done | (1UL << joint));
            }
            path = best ?? throw new ArgumentException($"{joints[joint].Name} cannot be fitted so in this order.");
        }
        return Steps(plan, path);
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
            var joint = plan.Joints[path.Joint];
            var (_, cost) = Make(plan, path.Before!.State, path.Joint, path.Choice!)!.Value;
            var pieces = (path.Before.State.Piece[plan.Ends[path.Joint].Held], path.Before.State.Piece[plan.Ends[path.Joint].New]);
            var way = plan.Parts.Where((_, i) => plan.Blocked[path.Joint][i] && (path.Before.State.Piece[i] == pieces.Item1 || path.Before.State.Piece[i] == pieces.Item2));
            steps.Add(new(
                steps.Count + 1, joint, SetUp.Of(joint, path.Choice!.Attitude, plan.Ups[path.Choice.Up]),
                cost.TurnOvers, cost.NotRolled == 0, cost.Lift, [.. way.Select(p => p.Id)]));
        }
        return steps;
    }
}
