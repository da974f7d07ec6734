using Rootgap.Measure;

namespace Rootgap.FitUp;

/// <content>What stands with a third support, or with a tie-down, where two stands do not do.</content>
internal sealed partial class Stances
{
    /// <summary>Places for a third support: under level pipe of either assembly, and under fittings in the upright plane of the line.</summary>
    private IEnumerable<(FitPart Part, Point At, double Along, double Beside, bool IsHeld)> Thirds(StandLine line, Vector up)
    {
        var side = line.Along.Cross(up);
        foreach (var under in allLines.Where(l => Math.Abs(l.Along.Dot(up)) <= Level))
        {
            foreach (var stretch in under.Stretches)
            {
                for (var k = 0; k <= 6; k++)
                {
                    var at = under.On(stretch.From + ((stretch.To - stretch.From) * k / 6));
                    yield return (stretch.Pipe, at, line.At(at), (at - line.Origin).Dot(side), held.Contains(stretch.Pipe.Id));
                }
            }
        }

        foreach (var part in both.Parts.Where(p => !p.IsPipe))
        {
            foreach (var at in part.Ends.Count > 1 ? new[] { part.Centre, part.Ends[0].At.Toward(part.Ends[1].At, 0.5) } : [part.Centre])
            {
                if (Math.Abs((at - line.Origin).Dot(side)) < 1)
                    yield return (part, at, line.At(at), 0, held.Contains(part.Id));
            }
        }
    }

    /// <summary>A place for a third support, and what it may be screwed up to there before and after, kg: off the line its force follows from the moments.</summary>
    private readonly record struct Third(FitPart Part, Point At, double Along, double Beside, bool IsHeld, double[] Before, double[] After)
    {
        public bool IsOff => Math.Abs(Beside) >= 1;
    }

    // Three supports: the best force of a third, those of the other two, and the least share of the weight among them; nothing where that is not over what is known already, or where the masses' spread could lift one off.
    private (double First, double Second, double Force, double Least)? Best(in Third third, double x1, double x2, bool isAfter, Burden loads, double over)
    {
        (double, double, double, double)? best = null;
        var (weight, middle) = (loads.Weight, loads.Centre.Along);
        foreach (var force in isAfter ? third.After : third.Before)
        {
            var second = ((weight * (middle - x1)) - (force * (third.Along - x1))) / (x2 - x1);
            var first = weight - force - second;
            var least = Math.Min(Math.Min(first, second), force) / weight;
            if (least > over && least >= rules.ShareOfThree + 1e-6 && HoldsThree(third, x1, x2, force, loads))
                (best, over) = ((first, second, force, least), least);
        }

        return best;
    }

    private Stance? WithThird(StandLine line, Vector up, Footing footing, Burden before, Burden after)
    {
        var places = line.Places(FewPlaces);
        var outside = line.Pipes[0].Outside;
        if (after.IsNothing || before.IsNothing)
            return null;
        var (sharesBefore, sharesAfter) = (Shares(before), Shares(after));
        List<Third> thirds = [];
        foreach (var (part, at, along, beside, isHeld) in Thirds(line, up))
        {
            var isOff = Math.Abs(beside) >= 1;
            if (isOff && Math.Abs(beside) <= outside)
                continue;
            var third = new Third(part, at, along, beside, isHeld, isOff ? [Statics.OffTheLine(beside, before.Loads)] : sharesBefore, isOff ? [Statics.OffTheLine(beside, after.Loads)] : sharesAfter);
            // The other two share what it leaves: with more than that on one of them nothing holds as it should, wherever they are.
            if (!isOff || rules.ShareOfThree <= Math.Min(third.After[0], (after.Weight - third.After[0]) / 2) / after.Weight)
                thirds.Add(third);
        }

        var isSteadyBefore = before.Centre is var c && Math.Abs(c.Beside) <= rules.SteadyBeside * outside && c.Over <= rules.SteadyOver * outside;
        Stance? best = null;
        var most = 0.0;
        for (var i = 0; i < places.Count; i++)
        {
            for (var k = i + 1; k < places.Count; k++)
            {
                if (!AreApart(places[i], places[k]))
                    continue;
                var (x1, x2) = (places[i].At, places[k].At);
                var two = Statics.OnTwo(x1, x2, before.Loads);
                var standsOnTwo = Math.Min(two.First, two.Second) >= (rules.ShareOfTwo * (two.First + two.Second)) + 1e-6 && HoldsByMass(x1, x2, before);
                foreach (var third in thirds)
                {
                    if (!third.IsOff && Math.Min(Math.Abs(third.Along - x1), Math.Abs(third.Along - x2)) < rules.Clear)
                        continue;
                    if (Best(third, x1, x2, true, after, most) is not { } then)
                        continue;
                    // Under the held assembly it may stand there from the beginning; under what is brought only after: until then a clamp keeps it from rolling.
                    var now = third.IsHeld && (!standsOnTwo || (third.IsOff && !isSteadyBefore)) ? Best(third, x1, x2, false, before, double.NegativeInfinity) : null;
                    if (now is null && !standsOnTwo)
                        continue;
                    var (along, end) = StandLine.Found(third.Part, third.At);
                    if (Finish(line, up, footing,
                        [
                            Stand(line, places[i].Pipe, x1, now?.First ?? two.First, then.First), Stand(line, places[k].Pipe, x2, now?.Second ?? two.Second, then.Second),
                            new(SupportKind.Third, third.Part.Id, third.At, isHeldWeighed ? now?.Force : null, isWeighed ? then.Force : null, along, end),
                        ], before, after, third.IsOff ? now is null && !isSteadyBefore ? Across.After : Across.Always : Across.Never) is { } stance)
                        (best, most) = (stance, Math.Min(then.Least, now?.Least ?? 1));
                }
            }
        }

        return best;

        // What a third in the line may be screwed up to.
        static double[] Shares(Burden loads) => [.. Enumerable.Range(2, 13).Select(share => Math.Round(loads.Weight * share / 20, 1))];
    }

    private bool HoldsThree(in Third third, double x1, double x2, double force, Burden after)
    {
        var (at, beside) = (third.Along, third.Beside);
        if (!third.IsOff)
        {
            // Screwed up to its force, it keeps it; what the masses differ goes to the other two.
            return Statics.Least(after.Each, l => (x2 - l.Along) / (x2 - x1), rules.MassSpread) >= force * (x2 - at) / (x2 - x1)
                && Statics.Least(after.Each, l => (l.Along - x1) / (x2 - x1), rules.MassSpread) >= force * (at - x1) / (x2 - x1);
        }

        double OnThird(Load l) => l.Beside / beside;
        return Statics.Least(after.Each, OnThird, rules.MassSpread) >= 0
            && Statics.Least(after.Each, l => ((x2 - l.Along) - (OnThird(l) * (x2 - at))) / (x2 - x1), rules.MassSpread) >= 0
            && Statics.Least(after.Each, l => ((l.Along - x1) - (OnThird(l) * (at - x1))) / (x2 - x1), rules.MassSpread) >= 0;
    }

    // A pull at the end that would lift: just as much as leaves a fifth of the weight on the lighter stand.
    private Stance? WithTieDown(StandLine line, Vector up, Burden before, Burden after)
    {
        var places = line.Places(FewPlaces);
        var weight = after.Weight;
        if (weight <= 0)
            return null;
        Stance? best = null;
        var least = double.PositiveInfinity;
        for (var i = 0; i < places.Count; i++)
        {
            for (var k = i + 1; k < places.Count; k++)
            {
                if (!AreApart(places[i], places[k]))
                    continue;
                var (x1, x2) = (places[i].At, places[k].At);
                var (b1, b2) = Statics.OnTwo(x1, x2, before.Loads);
                if (Math.Min(b1, b2) < (rules.ShareOfTwo * (b1 + b2)) + 1e-6 || !HoldsByMass(x1, x2, before))
                    continue;
                var (a1, a2) = Statics.OnTwo(x1, x2, after.Loads);
                var liftsFirst = a1 < a2;
                foreach (var tie in places)
                {
                    var arm = (liftsFirst ? x2 - tie.At : tie.At - x1) / (x2 - x1);
                    if (arm < 0.5 || Math.Min(Math.Abs(tie.At - x1), Math.Abs(tie.At - x2)) < rules.Clear)
                        continue;
                    var pull = Math.Ceiling((((rules.ShareOfTwo + 0.005) * weight) - Math.Min(a1, a2)) / arm);
                    IReadOnlyList<Load> pulled = [.. after.Each, new(pull, tie.At)];
                    var (t1, t2) = Statics.OnTwo(x1, x2, pulled);
                    if (pull <= 0 || pull >= least || Math.Min(t1, t2) < rules.ShareOfTwo * weight || !HoldsTied(x1, x2, after, pull, tie.At))
                        continue;
                    if (Finish(line, up, Footing.Tied, [Stand(line, places[i].Pipe, x1, b1, t1), Stand(line, places[k].Pipe, x2, b2, t2),
                        Stand(line, tie.Pipe, tie.At, null, pull, SupportKind.TieDown) with { Before = null }], before, after, Across.Never) is { } stance)
                        (best, least) = (stance, pull);
                }
            }
        }

        return best;
    }

    private bool HoldsTied(double x1, double x2, Burden after, double pull, double at) =>
        Statics.Least(after.Each, l => (x2 - l.Along) / (x2 - x1), rules.MassSpread) + (pull * (x2 - at) / (x2 - x1)) >= 0
        && Statics.Least(after.Each, l => (l.Along - x1) / (x2 - x1), rules.MassSpread) + (pull * (at - x1) / (x2 - x1)) >= 0;
}
