using Rootgap.Drawings;
using Rootgap.Findings;
using Rootgap.Measure;
using Rootgap.Routes;

namespace Rootgap.Checks;

/// <summary>A place that the legs miss: by how much, over which legs, and which single figure or direction read otherwise would close them.</summary>
internal sealed class ClosingError
{
    private readonly List<Step> way;

    private ClosingError(SourceRow row, string key, Vector error, List<Step> way) => (Row, Key, Error, this.way) = (row, key, error, way);

    /// <summary>The row that states the place, and its key.</summary>
    public SourceRow Row { get; }

    /// <inheritdoc cref="Row"/>
    public string Key { get; }

    /// <summary>Where the legs end less where they should, mm.</summary>
    public Vector Error { get; }

    /// <summary>The places that the legs of a route miss.</summary>
    public static List<ClosingError> In(Route route)
    {
        var misses = new List<ClosingError>();
        for (var r = 0; r < route.Runs.Count; r++)
        {
            var run = route.Runs[r];
            for (var i = 0; i < run.Distances.Count; i++)
            {
                var leg = run.Run.Legs[i];
                if (leg.At is { } stated && run.Points[i + 1] - stated is var miss && miss.Length > Tolerance.Closing)
                    misses.Add(new(leg.Source, "at", miss, Way(route, r, i + 1)));
                if (leg.To is TieInPoint tie && Host(route, tie.With) is { } host && run.Points[i + 1] - route.Runs[host.Run].Points[host.Station] is var gap && gap.Length > Tolerance.Closing)
                    misses.Add(new(leg.Source, "with", gap, Less(Way(route, r, i + 1), Way(route, host.Run, host.Station))));
            }
        }

        return misses;
    }

    /// <summary>The rows on this way any one of which, read otherwise, would close it and all <paramref name="others"/> that miss by the same: first those that a slip of the pen explains, then the rest.</summary>
    public (List<Explanation> Slips, List<Explanation> Others) Explained(Units units, IReadOnlyList<ClosingError> others)
    {
        var sure = new List<Explanation>();
        var along = new List<Explanation>();
        foreach (var step in way)
        {
            if (!others.All(m => m.way.Contains(step)))
                continue;
            if (step.Leg is not { } leg)
                along.Add(Start(units, step));
            else if (Reading(leg, step) is { } reading)
                sure.Add(reading);
            else if (Sloped(leg, step) is { } sloped)
                sure.Add(sloped);
            else if (Unsloped(leg, step) is { } unsloped)
                sure.Add(unsloped);
            else if (TurnedOver(leg, step) is { } turned)
                sure.Add(turned);
            else if (Component(units, leg, step) is { } component)
                (component.IsSlip ? sure : along).Add(component.Explanation);
            else if (Figure(units, leg, step) is { } figure)
                (figure.IsSlip ? sure : along).Add(figure.Explanation);
        }

        return (sure, along);
    }

    /// <summary>A row that would close the way, read otherwise.</summary>
    /// <param name="Row">The row.</param>
    /// <param name="Key">Its key.</param>
    /// <param name="Otherwise">What it should say then: "1290 for 1920: digits changed over".</param>
    /// <param name="Sentence">The same as a sentence at the row.</param>
    internal sealed record Explanation(SourceRow Row, string Key, string Otherwise, string Sentence);

    /// <summary>Another place of the start that would close the way.</summary>
    private Explanation Start(Units units, Step step)
    {
        var right = step.From - (Error * step.Sign);
        var place = LengthText.Say(units, $"east {right.X:len}, north {right.Y:len}, up {right.Z:len}");
        return new(step.Source, "at", $"a start at {place}", $"The legs from here do not close; a start at {place} would close them.");
    }

    /// <summary>Another of the six directions that would close the way.</summary>
    private Explanation? Reading(Leg leg, Step step)
    {
        foreach (var (axis, word) in Axes.Six)
        {
            if (((step.Direction - axis) * (step.Distance * step.Sign) - Error).Length > Tolerance.Closing || leg.IsSkew)
                continue;
            return new(leg.Source, "go", $"{word} in place of {Axes.Word(step.Direction) ?? "what is written"}", $"The legs do not close; with this one going {word} they would.");
        }

        return null;
    }

    /// <summary>A slope the other way round, or none, that would close the way.</summary>
    private Explanation? Sloped(Leg leg, Step step)
    {
        if (leg.Slope == 0)
            return null;
        var rise = step.Direction.Z * step.Distance * step.Sign;
        var (word, other) = leg.Slope > 0 ? ("rise", "fall") : ("fall", "rise");
        if (Error.SquareTo(Vector.Up).Length > Tolerance.Closing)
            return null;
        return Math.Abs(Error.Z - (2 * rise)) <= Tolerance.Closing ? new(leg.Source, word, $"a {other} in place of a {word}", $"The legs do not close; with a {other} here in place of a {word} they would.")
            : Math.Abs(Error.Z - rise) <= Tolerance.Closing ? new(leg.Source, word, "level", $"The legs do not close; with this one level they would.")
            : null;
    }

    /// <summary>The slope of another leg on the way, left out here, that would close the way.</summary>
    private Explanation? Unsloped(Leg leg, Step step)
    {
        if (leg.Slope != 0 || leg.IsSkew || leg.MakeUp || Math.Abs(step.Direction.Z) > Tolerance.Turn || Error.SquareTo(Vector.Up).Length > Tolerance.Closing)
            return null;
        var rise = -Error.Z * step.Sign / step.Distance;
        foreach (var other in way)
        {
            if (other.Leg is not { Slope: not 0 } sloped || Math.Abs(Math.Abs(sloped.Slope) - Math.Abs(rise)) * step.Distance > Tolerance.Closing)
                continue;
            var says = FormattableString.Invariant($"{(rise > 0 ? "rise" : "fall")}: 1:{1 / Math.Abs(sloped.Slope):0.##}");
            return new(leg.Source, rise > 0 ? "rise" : "fall", $"`{says}`, which is left out", $"The legs do not close; with `{says}` here, as on the legs beside, they would.");
        }

        return null;
    }

    /// <summary>An eccentric reducer with its flat side the other way, or a concentric one in its place, that would close the way.</summary>
    private Explanation? TurnedOver(Leg leg, Step step)
    {
        if (leg.To is not ReducerPoint { IsEccentric: true } reducer || step.Aside.Length <= Tolerance.Closing)
            return null;
        var aside = step.Aside * step.Sign;
        return (Error - (aside * 2)).Length <= Tolerance.Closing
            ? new(leg.Source, "flat", "its flat side the other way", $"The legs do not close; with the flat side of this {reducer.Word} the other way they would.")
            : (Error - aside).Length <= Tolerance.Closing ? new(leg.Source, "kind", "concentric", $"The legs do not close; with a concentric {reducer.Word} here they would.")
            : null;
    }

    /// <summary>Another component of a skew leg that would close the way, and whether it is this one by a slip of the pen.</summary>
    private (Explanation Explanation, bool IsSlip)? Component(Units units, Leg leg, Step step)
    {
        if (!leg.IsSkew || Axes.Word(Error / Error.Length) is null)
            return null;
        var drawn = step.Direction * step.Distance;
        var closing = drawn - (Error * step.Sign);
        foreach (var (axis, word) in Axes.Six)
        {
            var (written, should) = (drawn.Dot(axis), closing.Dot(axis));
            if (written > Tolerance.Closing && Math.Abs(written + should) <= Tolerance.Closing && Axes.Word(-axis) is { } other)
                return (new(leg.Source, "go", $"{other} in place of {word}", LengthText.Say(units, $"The legs do not close; with {written:len} {other} here in place of {word} they would.")), true);
            if (written <= Tolerance.Closing || should <= 0 || Math.Abs(written - should) <= Tolerance.Closing)
                continue;
            var slip = Slip(written, should);
            var why = slip is null ? "" : $": {slip}";
            return (new(leg.Source, "go", LengthText.Say(units, $"{word} {should:len} for {written:len}{why}"), LengthText.Say(units, $"The legs do not close; {word} {should:len} here would close it, {written:len} drawn{why}.")), slip is not null);
        }

        return null;
    }

    /// <summary>Another length of this leg that would close the way, and whether it is this one by a slip of the pen.</summary>
    private (Explanation Explanation, bool IsSlip)? Figure(Units units, Leg leg, Step step)
    {
        var part = Error.Dot(step.Direction);
        if (Error.SquareTo(step.Direction).Length > Tolerance.Closing || leg.MakeUp)
            return null;
        var closing = step.Distance - (part * step.Sign);
        if (closing <= 0)
            return null;
        var slip = Slip(step.Distance, closing);
        var why = slip is null ? "" : $": {slip}";
        return (new(leg.Source, "by", LengthText.Say(units, $"{closing:len} for {step.Distance:len}{why}"), LengthText.Say(units, $"The legs do not close; {closing:len} here would close it, {step.Distance:len} drawn{why}.")), slip is not null);
    }

    private static string? Slip(double drawn, double closing)
    {
        foreach (var (times, says) in new[] { (10, "ten times off"), (100, "a hundred times off"), (LengthText.Inch, "inches and millimetres mixed up") })
        {
            if (Math.Abs(drawn - (closing * times)) <= times || Math.Abs(closing - (drawn * times)) <= times)
                return says;
        }

        if (Math.Abs(drawn - Math.Round(drawn)) > 0.05 || Math.Abs(closing - Math.Round(closing)) > 0.05)
            return null;
        var (a, b) = (FormattableString.Invariant($"{drawn:0}"), FormattableString.Invariant($"{closing:0}"));
        return a.Length == b.Length && a.Order().SequenceEqual(b.Order()) ? "digits changed over" : null;
    }

    /// <summary>A leg on the way: it adds <c>Sign</c> times its length along its direction to the error. Without a leg: the stated start of it all.</summary>
    /// <param name="Aside">The step of the middle line at its end, mm: an eccentric reducer's.</param>
    private readonly record struct Step(SourceRow Source, Leg? Leg, Point From, Vector Direction, double Distance, int Sign, Vector Aside = default);

    /// <summary>The legs from the beginning of all things to a station, through the runs that this one starts from.</summary>
    private static List<Step> Way(Route route, int run, int station)
    {
        var steps = new List<Step>();
        for (var guard = 0; guard <= route.Runs.Count; guard++)
        {
            var line = route.Runs[run];
            for (var i = station - 1; i >= 0; i--)
                steps.Add(new(line.Run.Legs[i].Source, line.Run.Legs[i], line.Points[i], line.Directions[i], line.Distances[i], 1, line.Points[i + 1] - line.Points[i] - (line.Directions[i] * line.Distances[i])));
            if (line.Run.Start is { At: not null, Source: var row })
                steps.Add(new(row, null, line.Points[0], Vector.Zero, 0, 1));
            if (line.Run.Start.From is not { } from || Host(route, from) is not { } host)
                break;
            (run, station) = host;
        }

        return steps;
    }

    /// <summary>The way there less the way back; legs on both fall out.</summary>
    private static List<Step> Less(List<Step> there, List<Step> back)
    {
        var steps = there.Where(s => !back.Contains(s)).ToList();
        steps.AddRange(back.Where(s => !there.Contains(s)).Select(s => s with { Sign = -1 }));
        return steps;
    }

    private static (int Run, int Station)? Host(Route route, string name)
    {
        for (var r = 0; r < route.Runs.Count; r++)
        {
            var legs = route.Runs[r].Run.Legs;
            for (var i = 0; i < legs.Count; i++)
            {
                if (legs[i].To.Name == name)
                    return (r, i + 1);
            }
        }

        return null;
    }
}
