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
    private static readonly Option<string?> Hook = new("--hook") { Description = "Height of the hook over the points, the load level: the legs' lengths follow." };
    private static readonly Option<string?> Angle = new("--angle") { Description = "Angle of the legs to the level, alike, in degrees." };
    private static readonly Option<string?> Legs = new("--legs") { Description = "Legs: 2 (default), 3 or 4. Of three or four, two are counted to carry." };

    public static Command Create() => SumsAsked.With(
        new Command("lift", "What the legs of a sling carry, how the load hangs, and whether it would turn over: from the mass, the points and the legs. A lifting plan is made by a competent person.\n\nExamples:\n  rootgap sums lift --mass \"1000 kg\" --angle 60\n  rootgap sums lift --units in --mass 4000 --span \"12'\" --centre \"2'\" --hook \"3'\"\n  rootgap sums lift --mass 168 --span 2310 --centre 1071 --leg 2300 --below 20")
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

        var (span, angle, hook) = (asked.Length(Span), asked.Degrees(Angle, 90), asked.Length(Hook));
        var legs = asked.Lengths(Leg);
        var count = asked.Whole(Legs, 2, 4) ?? 2;
        if (asked.IsRefused)
            return null;
        if (new[] { angle is not null, hook is not null, legs.Count > 0 }.Count(g => g) > 1)
            return asked.Refused("--angle, --hook and --leg each say how the legs lie: give one of them.");
        if (count > 2)
            answer.Says.Add($"Of {count} legs two are counted to carry: the others may hang slack.");
        if (angle is { } a && span is null)
        {
            if (a <= 0)
                return asked.Refused("--angle: legs that lie level lift nothing.");
            answer.Given.Add(Sum.Given("angle of the legs to the level", a, Quantity.Angle));
            answer.Figures.Add(new("tension of a leg", Slings.OfTwo(mass, a), Quantity.Mass, "mass / 2 / sin angle", Slings.Source));
            Caution(answer, a);
            return answer;
        }

        if (span is not > 0)
            return asked.Refused("Give --span, the distance between the points (or --angle alone, for the middle between two points).");
        return Two(asked, answer, mass, span.Value, angle, hook, legs);
    }

    private static SumsAnswer? Two(SumsAsked asked, SumsAnswer answer, double mass, double span, double? angle, double? hook, IReadOnlyList<double> legs)
    {
        var centre = asked.Length(Centre, mayBeNegative: true) ?? (span / 2);
        var below = asked.Length(Below, mayBeNegative: true) ?? 0;
        if (asked.IsRefused)
            return null;
        answer.Given.AddRange([Sum.Given("span", span, Quantity.Length), Sum.Given("centre from the first point", centre, Quantity.Length), Sum.Given("centre below the line of the points", below, Quantity.Length)]);
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
        (double A, double B)? lengths = hook is { } height ? Slings.Level(span, centre, height)
            : angle is { } a && Math.Cos(a) > 1e-9 ? (span / 2 / Math.Cos(a), span / 2 / Math.Cos(a))
            : legs.Count switch { 1 => (legs[0], legs[0]), 2 => (legs[0], legs[1]), _ => null };
        if (legs.Count > 2)
            return asked.Refused("--leg: two legs, so one length or two.");
        if (lengths is not var (s1, s2))
            return answer;
        if (Slings.Of(mass, span, centre, Math.Abs(below), s1, s2) is not { } hanging)
            return asked.Refused("The legs do not meet over the load: they are together no longer than the span.");
        answer.Figures.AddRange(Slings.Sums(hanging));
        if (hanging.IsSlack)
            answer.Says.Add("One leg would hang slack: the load hangs from the other and swings.");
        Caution(answer, hanging.Flattest);
        return answer;
    }

    private static void Caution(SumsAnswer answer, double flattest)
    {
        if (flattest < Slings.Flattest)
            answer.Says.Add($"A leg lies at {Amount.Say(Quantity.Angle, flattest, Units.Millimetres)} to the level: under 45 degrees, not so. Take longer legs, or a beam.");
        answer.Says.Add("Riggers' charts: 60 degrees to the level preferred, never under 30. A lifting plan is made by a competent person.");
    }
}
