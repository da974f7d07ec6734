using Rootgap.Measure;
using Rootgap.Routes;

namespace Rootgap.FitUp;

/// <content>What making a joint asks for and costs.</content>
public static partial class FitOrder
{
    /// <summary>Room that a hand with a torch needs beside the weld, mm (common practice).</summary>
    private const double Room = 50;

    /// <summary>Up to this much an assembly is rolled on its stands or leaned over, and not turned over, radians.</summary>
    private const double SmallRoll = 46 * Math.PI / 180;

    /// <summary>A way in which one joint can be fitted between two assemblies.</summary>
    internal sealed record Choice(Stance Stance, int Up, bool IsSideways);

    /// <summary>One joint between two assemblies, as far as the order asks.</summary>
    /// <param name="Both">What hangs together afterwards.</param>
    /// <param name="Heated">Valves that are on already and that the weld would heat.</param>
    internal sealed record Meeting(FitJoint Joint, Assembly Both, Stances Standing, int Blocked, int Heated, double Reach)
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
            least = [.. spool.Welds.Select(w => new Cost(0, 0, 0, w.Between.Max(id => Extent(spool.Fitting.Part(id), w)) <= spool.Fitting.Rules.StandHeight ? 0 : 1,
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
            var both = joint.Both;
            var parts = both.Parts;
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

            return new(joint, both, standing, parts.Count(p => Blocked[weld].Contains(p.Id)), parts.Count(p => !Spool.Welds[weld].Between.Contains(p.Id) && FitSpool.IsHeated(Spool.Welds[weld], p)), parts.Max(p => Extent(p, joint.Centre, joint.Axis))) { Choices = choices };

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
    internal readonly record struct Cost(int Blocked, int Heated, int TurnOvers, int NotRolled, double Lift, int Held, int Sideways, int NotOnEnd) : IComparable<Cost>
    {
        // Sums of the same masses in another order differ in their last bits.
        public int CompareTo(Cost other) =>
            (Blocked, Heated, TurnOvers, NotRolled, Math.Round(Lift, 6), Held, Sideways, NotOnEnd).CompareTo((other.Blocked, other.Heated, other.TurnOvers, other.NotRolled, Math.Round(other.Lift, 6), other.Held, other.Sideways, other.NotOnEnd));

        public static Cost operator +(Cost a, Cost b) => new(
            a.Blocked + b.Blocked, a.Heated + b.Heated, a.TurnOvers + b.TurnOvers, a.NotRolled + b.NotRolled, a.Lift + b.Lift, a.Held + b.Held, a.Sideways + b.Sideways, a.NotOnEnd + b.NotOnEnd);
    }

    /// <summary>What hangs together and how each assembly stands (-1: as it was picked up), and which of them was joined last.</summary>
    internal sealed record State(IReadOnlyList<(Assembly Assembly, int Up)> Pieces, Assembly? Last)
    {
        public static State Loose(FitSpool spool) => new([.. spool.Pieces.Select(p => (p, -1))], null);

        /// <summary>As one word to look up among the states with the same welds made: those say what hangs together, and of each assembly its first part is name enough.</summary>
        public string Key { get; } = WordOf(Pieces, Last);

        private static string WordOf(IReadOnlyList<(Assembly Assembly, int Up)> pieces, Assembly? last)
        {
            var word = new char[(2 * pieces.Count) + 1];
            var length = 0;
            foreach (var (assembly, up) in pieces)
            {
                if (up >= 0)
                    (word[length++], word[length++]) = ((char)assembly.Parts[0].Order, (char)up);
            }

            word[length++] = (char)(last?.Parts[0].Order ?? 0);
            return new(word, 0, length);
        }

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
        var both = meeting.Both;
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
        // What nothing holds as it should comes before everything, as what is in the way of a tack does.
        var unsafely = choice.Stance.Footing == Footing.Last ? 1 : 0;
        return (new(pieces, both), new(meeting.Blocked + unsafely, meeting.Heated, turned, rolls ? 0 : 1, brought.Mass, (int)choice.Stance.Footing, choice.IsSideways ? 1 : 0, choice.Stance.Attitude == Attitude.OnEnd ? 0 : 1));
    }
}
