using Rootgap.Measure;
using Rootgap.Routes;

namespace Rootgap.FitUp;

/// <summary>The order of joints of one spool with their set-ups: nothing closed off before it is tacked, no valve on before a weld that would heat it, then the fewest turn-overs, then the most welds
/// that can be rolled, then the lowest lift; what stands free before what has to be held, short pieces on end where that costs nothing.</summary>
/// <remarks>Assemblies that are joined keep the attitude they were joined in until a joint wants another one: that is a turn-over, unless it is a small roll. A single
/// piece is set up as it is picked up, without a turn-over.</remarks>
public static partial class FitOrder
{
    /// <summary>Up to this many joints every order is compared; above it the most promising ones are.</summary>
    private const int AllOrders = 7;

    /// <summary>The order of a spool is the best of all orders; of a larger one it is the best of the most promising.</summary>
    public static bool LooksAtAll(FitSpool spool) => spool.Welds.Count <= AllOrders;

    private const int MostWays = 600;

    private const int Beam = 32;

    private sealed record Path(State State, Cost Cost, Path? Before, int Weld, Meeting? Meeting, Choice? Choice, ulong Done);

    /// <summary>The order of work of a spool.</summary>
    public static IReadOnlyList<FitStep> Of(FitSpool spool) => spool.Order;

    internal static IReadOnlyList<FitStep> Find(FitSpool spool)
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
