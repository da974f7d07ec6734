using System.CommandLine;
using Rootgap.Measure;
using Rootgap.Sums;

namespace Rootgap.Cli.Commands.Sums;

/// <summary><c>rootgap sums lift</c>: what slings carry, and how a load hangs.</summary>
internal static class LiftSums
{
    private static readonly Option<string?> Mass = new("--mass") { Description = "Mass of the load: \"1000 kg\", \"4000 lb\".", Required = true };
    private static readonly Option<string?> More = new("--more") { Description = "Added to an estimated mass, in percent; default 0 here, 10 on the sheets." };
    private static readonly Option<string?> Span = new("--span") { Description = "Distance between the two points where the legs are made fast." };
    private static readonly Option<string?> Centre = new("--centre") { Description = "Centre of mass from the first point, along the line to the second; default the middle." };
    private static readonly Option<string?> Below = new("--below") { Description = "How far the centre of mass lies below the line of the points; less than 0: above it." };
    private static readonly Option<string[]> Leg = new("--leg") { Description = "Length of the legs: one figure where they are alike, two where not.", AllowMultipleArgumentsPerToken = true };
    private static readonly Option<string[]> Hook = new("--hook") { Description = "Height of the hook over the points, the hook over the centre of mass: the legs' lengths follow. Two figures where one point lies higher; --span and --centre are then measured level.", AllowMultipleArgumentsPerToken = true };
    private static readonly Option<string[]> Angle = new("--angle") { Description = "Angle of the legs to the level in degrees: one figure where they are alike, two where not.", AllowMultipleArgumentsPerToken = true };
    private static readonly Option<string?> Legs = new("--legs") { Description = "Legs: 2 (default), 3 or 4. Of three or four, two are counted to carry." };

    public static Command Create() => SumsAsked.With(
        new Command("lift", "What the legs of a sling carry, how the load hangs, and whether it would turn over: from the mass, the points and the legs. A lifting plan is made by a competent person.\n\nExamples:\n  rootgap sums lift --mass \"1000 kg\" --angle 60\n  rootgap sums lift --units in --mass 4000 --span \"12'\" --centre \"2'\" --hook \"3'\"\n  rootgap sums lift --mass 168 --span 2310 --centre 1071 --leg 2300 --below 20\n  rootgap sums lift --units in --mass 15000 --leg \"16'\" --hook \"12'\"\n  rootgap sums lift --mass 2000 --span 3000 --centre 1200 --hook 2500 1900")
        {
            Mass, More, Span, Centre, Below, Leg, Hook, Angle, Legs,
        }, Of);

    private static SumsAnswer? Of(SumsAsked asked)
    {
        var answer = new SumsAnswer("lift");
        if (asked.Of(Mass, Quantity.Mass) is not { } mass)
            return null;
        answer.Given.Add(Sum.Given("mass", mass, Quantity.Mass));
        if (asked.Of(More, Quantity.Number, 0) is > 0 and var more)
        {
            mass *= 1 + (more / 100);
            answer.Figures.Add(new("mass with allowance", mass, Quantity.Mass, FormattableString.Invariant($"mass + {more} %"), "estimated masses: the allowance is yours"));
        }

        var (span, angles, hooks, legs) = (asked.Length(Span), asked.AllDegrees(Angle, 90), asked.Lengths(Hook), asked.Lengths(Leg));
        var count = asked.Whole(Legs, 2, 4) ?? 2;
        if (asked.IsRefused)
            return null;
        foreach (var (option, given) in new (string, int)[] { (Angle.Name, angles.Count), (Hook.Name, hooks.Count), (Leg.Name, legs.Count) })
        {
            if (given > 2)
                return asked.Refused($"{option}: there are two legs, so one figure or two.");
        }

        if (count > 2)
            answer.Says.Add($"Of {count} legs two are counted to carry: the others may hang slack.");
        if (span is null && angles.Count == 0 && legs.Count == 1 && hooks.Count == 1)
            return OfHeight(asked, answer, mass, legs[0], hooks[0], count);
        if (new[] { angles.Count > 0, hooks.Count > 0, legs.Count > 0 }.Count(g => g) > 1)
            return asked.Refused("--angle, --hook and --leg each say how the legs lie: give one of them (or --leg with --hook and no --span, for the middle between two points).");
        if (angles.Any(a => a <= 0))
            return asked.Refused("--angle: legs that lie level lift nothing.");
        if (angles.Count == 2)
            return span is null ? OfAngles(answer, mass, angles[0], angles[1]) : asked.Refused("Two figures of --angle say all: leave --span out, or give --leg or --hook with it.");
        if (angles.Count == 1 && span is null)
            return OfAngle(answer, mass, angles[0], count);
        if (span is not > 0)
            return asked.Refused("Give --span, the distance between the points (or --angle alone, or --leg with --hook, for the middle between two points).");
        return Two(asked, answer, mass, span.Value, angles.Count > 0 ? angles[0] : null, hooks, legs);
    }

    /// <summary>From the length of a leg and the height of the hook: the riggers' rule with a tape.</summary>
    private static SumsAnswer? OfHeight(SumsAsked asked, SumsAnswer answer, double mass, double leg, double hook, int count)
    {
        if (hook > leg || hook <= 0)
            return asked.Refused("--hook: the hook stands over the load, and no higher than a leg is long.");
        answer.Given.AddRange([Sum.Given("length of a leg", leg, Quantity.Length), Sum.Given("height of the hook", hook, Quantity.Length)]);
        var angle = Math.Asin(hook / leg);
        answer.Figures.Add(new("angle of the legs to the level", angle, Quantity.Angle, "its sine is height of the hook / length of a leg", Slings.Source));
        return OfAngle(answer, mass, angle, count);
    }

    private static SumsAnswer OfAngle(SumsAnswer answer, double mass, double angle, int count)
    {
        if (answer.Figures.TrueForAll(f => f.Of != Quantity.Angle))
            answer.Given.Add(Sum.Given("angle of the legs to the level", angle, Quantity.Angle));
        answer.Figures.Add(new("load factor of the angle", 1 / Math.Sin(angle), Quantity.Number, "1 / sin angle: pull against what a leg lifts", Slings.Source));
        answer.Figures.Add(new("tension of a leg", Slings.OfTwo(mass, angle), Quantity.Mass, "mass / 2 / sin angle", Slings.Source));
        if (count > 2)
            answer.Figures.Add(new($"were all {count} legs to carry alike", mass / count / Math.Sin(angle), Quantity.Mass, $"mass / {count} / sin angle", "charts of slings; not counted on here: a stiff load hangs on two"));
        Caution(answer, angle);
        return answer;
    }

    private static SumsAnswer OfAngles(SumsAnswer answer, double mass, double first, double second)
    {
        answer.Given.AddRange([Sum.Given("angle of leg 1 to the level", first, Quantity.Angle), Sum.Given("angle of leg 2 to the level", second, Quantity.Angle)]);
        var (one, two) = Slings.OfAngles(mass, first, second);
        answer.Figures.Add(new("tension of leg 1", one, Quantity.Mass, "mass × cos angle 2 / sin (angle 1 + angle 2)", Slings.Source));
        answer.Figures.Add(new("tension of leg 2", two, Quantity.Mass, "mass × cos angle 1 / sin (angle 1 + angle 2)", Slings.Source));
        answer.Figures.Add(new("leg 1 lifts", one * Math.Sin(first), Quantity.Mass, "tension × sin of its angle", Slings.Source));
        answer.Figures.Add(new("leg 2 lifts", two * Math.Sin(second), Quantity.Mass, "tension × sin of its angle", Slings.Source));
        Caution(answer, Math.Min(first, second));
        return answer;
    }

    private static SumsAnswer? Two(SumsAsked asked, SumsAnswer answer, double mass, double span, double? angle, IReadOnlyList<double> hooks, IReadOnlyList<double> legs)
    {
        var centre = asked.Length(Centre, mayBeNegative: true) ?? (span / 2);
        var below = asked.Length(Below, mayBeNegative: true) ?? 0;
        if (asked.IsRefused)
            return null;
        answer.Given.AddRange([Sum.Given("span", span, Quantity.Length), Sum.Given("centre from the first point", centre, Quantity.Length), Sum.Given("centre below the line of the points", below, Quantity.Length)]);
        answer.Given.AddRange(hooks.Select((h, i) => Sum.Given(hooks.Count == 1 ? "height of the hook" : $"height of the hook over point {i + 1}", h, Quantity.Length)));
        var (first, second) = Slings.Lifts(mass, span, centre);
        answer.Figures.Add(new("straight up at point 1", first, Quantity.Mass, "mass × (span − centre) / span", "moments about point 2"));
        answer.Figures.Add(new("straight up at point 2", second, Quantity.Mass, "mass × centre / span", "moments about point 1"));
        if (centre <= 0 || centre >= span)
        {
            answer.Says.Add("The centre of mass does not lie between the points: the load would tip off.");
            return answer;
        }

        if (below < 0)
            answer.Says.Add("The centre of mass lies above the line of the points: the load would turn over until it hangs below. Sling it above its centre of mass.");
        if (hooks.Count == 2)
            return hooks.All(h => h > 0) ? Hangs(Slings.AsDrawn(mass, span, centre, hooks[0], hooks[1])!) : asked.Refused("--hook: the hook stands over both points.");
        (double A, double B)? lengths = hooks.Count == 1 ? Slings.Level(span, centre, hooks[0])
            : angle is { } a && Math.Cos(a) > 1e-9 ? (span / 2 / Math.Cos(a), span / 2 / Math.Cos(a))
            : legs.Count switch { 1 => (legs[0], legs[0]), 2 => (legs[0], legs[1]), _ => null };
        if (lengths is not var (s1, s2))
            return answer;
        return Slings.Of(mass, span, centre, Math.Abs(below), s1, s2) is { } hanging ? Hangs(hanging) : asked.Refused("The legs do not meet over the load: they are together no longer than the span.");

        SumsAnswer Hangs(Hanging load)
        {
            answer.Figures.AddRange(Slings.Sums(load));
            if (load.IsSlack)
                answer.Says.Add("One leg would hang slack: the load hangs from the other and swings.");
            Caution(answer, load.Flattest);
            return answer;
        }
    }

    private static void Caution(SumsAnswer answer, double flattest)
    {
        if (flattest < Slings.Flattest)
            answer.Says.Add($"A leg lies at {Amount.Say(Quantity.Angle, flattest, Units.Millimetres)} to the level: under 45 degrees, not so. Take longer legs, or a beam.");
        answer.Says.Add("Riggers' charts: 60 degrees to the level preferred, never under 30. A lifting plan is made by a competent person.");
    }
}
