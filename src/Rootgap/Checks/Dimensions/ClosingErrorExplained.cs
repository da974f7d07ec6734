using Rootgap.Drawings;
using Rootgap.Fabricating;
using Rootgap.Findings;
using Rootgap.Measure;
using Rootgap.Routes;

namespace Rootgap.Checks;

internal sealed class ClosingErrorExplained : Rule
{
    /// <summary>More places than this that could explain an error tell nothing.</summary>
    private const int Few = 5;

    public override string Name => "closing-error-explained";
    public override Severity Severity => Severity.Warn;
    public override string Says => "Where the legs do not close: the leg whose direction or dimension, read otherwise, would close them.";
    public override string Why => "A closing error has an axis and a size, and mostly one figure on the way explains both: turned round, ten times off, two digits changed over (common practice).";

    public override IEnumerable<Finding> Check(Fabrication fabrication)
    {
        var route = fabrication.Route;
        if (route.Findings.Count == 0 || !route.Findings.Any(f => f.Rule is "does-not-close" or "elevation-does-not-close"))
            return [];
        var misses = Misses(route);
        var found = new List<Finding>();
        while (misses.Count > 0)
        {
            // One wrong figure shows as the same miss at every place that is reached through it.
            var error = misses[0].Error;
            var same = misses.FindAll(m => (m.Error - error).Length <= Tolerance.Closing);
            misses.RemoveAll(m => (m.Error - error).Length <= Tolerance.Closing);
            var way = same[0].Way.FindAll(step => same.TrueForAll(m => m.Way.Contains(step)));
            found.AddRange(Explained(fabrication.Units, way, error));
        }

        return found;
    }

    /// <summary>The ways that do not close, each with its error.</summary>
    private static List<(Vector Error, List<Step> Way)> Misses(Route route)
    {
        var misses = new List<(Vector, List<Step>)>();
        for (var r = 0; r < route.Runs.Count; r++)
        {
            var run = route.Runs[r];
            for (var i = 0; i < run.Distances.Count; i++)
            {
                var leg = run.Run.Legs[i];
                if (leg.At is { } stated && run.Points[i + 1] - stated is var miss && miss.Length > Tolerance.Closing)
                    misses.Add((miss, Way(route, r, i + 1)));
                if (leg.To is TieInPoint tie && Host(route, tie.With) is { } host && run.Points[i + 1] - route.Runs[host.Run].Points[host.Station] is var gap && gap.Length > Tolerance.Closing)
                    misses.Add((gap, Less(Way(route, r, i + 1), Way(route, host.Run, host.Station))));
            }
        }

        return misses;
    }

    private List<Finding> Explained(Units units, List<Step> way, Vector error)
    {
        var sure = new List<Finding>();
        var along = new List<Finding>();
        foreach (var step in way)
        {
            if (step.Leg is not { } leg)
                along.Add(Start(units, step, error));
            else if (Reading(units, leg, step, error) is { } reading)
                sure.Add(reading);
            else if (Figure(units, leg, step, error) is { } figure)
                (figure.IsSlip ? sure : along).Add(figure.Finding);
        }

        var these = sure.Count > 0 ? sure : along;
        if (these.Count > Few)
            return [];
        return these.Count == 1 ? these : these.ConvertAll(f => f with { Message = FormattableString.Invariant($"{f.Message[..^1]} (one of {these.Count} places that would).") });
    }

    /// <summary>Another place of the start that would close the way.</summary>
    private Finding Start(Units units, Step step, Vector error)
    {
        var right = step.From - (error * step.Sign);
        return Found(step.Source, "at", Say(units, $"The legs from here do not close; a start at east {right.X:len}, north {right.Y:len}, up {right.Z:len} would close them."), "See the start's place on the drawing.");
    }

    /// <summary>A leg on the way: it adds <c>Sign</c> times its length along its direction to the error. Without a leg: the stated start of it all.</summary>
    private readonly record struct Step(SourceRow Source, Leg? Leg, Point From, Vector Direction, double Distance, int Sign);

    /// <summary>Another of the six directions that would close the way.</summary>
    private Finding? Reading(Units units, Leg leg, Step step, Vector error)
    {
        foreach (var (axis, word) in Axes.Six)
        {
            if (((step.Direction - axis) * (step.Distance * step.Sign) - error).Length > Tolerance.Closing || leg.IsSkew)
                continue;
            return Found(leg.Source, "go", Say(units, $"The legs do not close; with this one of {step.Distance:len} going {word} it would."),
                "See the direction on the drawing.", "The spool is made as its mirror image.");
        }

        return null;
    }

    /// <summary>Another length of this leg that would close the way, and whether it is this one by a slip of the pen.</summary>
    private (Finding Finding, bool IsSlip)? Figure(Units units, Leg leg, Step step, Vector error)
    {
        var part = error.Dot(step.Direction);
        if (error.SquareTo(step.Direction).Length > Tolerance.Closing || leg.MakeUp)
            return null;
        var closing = step.Distance - (part * step.Sign);
        if (closing <= 0)
            return null;
        var slip = Slip(step.Distance, closing);
        return (Found(leg.Source, "by",
            Say(units, $"The legs do not close; {closing:len} here would close it, {step.Distance:len} drawn{(slip is null ? "" : $": {slip}")}."),
            "See the figure on the drawing."), slip is not null);
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

    /// <summary>The legs from the beginning of all things to a station, through the runs that this one starts from.</summary>
    private static List<Step> Way(Route route, int run, int station)
    {
        var way = new List<Step>();
        for (var guard = 0; guard <= route.Runs.Count; guard++)
        {
            var line = route.Runs[run];
            for (var i = station - 1; i >= 0; i--)
                way.Add(new(line.Run.Legs[i].Source, line.Run.Legs[i], line.Points[i], line.Directions[i], line.Distances[i], 1));
            if (line.Run.Start is { At: not null, Source: var row })
                way.Add(new(row, null, line.Points[0], Vector.Zero, 0, 1));
            if (line.Run.Start.From is not { } from || Host(route, from) is not { } host)
                break;
            (run, station) = host;
        }

        return way;
    }

    /// <summary>The way there less the way back; legs on both fall out.</summary>
    private static List<Step> Less(List<Step> there, List<Step> back)
    {
        var way = there.Where(s => !back.Contains(s)).ToList();
        way.AddRange(back.Where(s => !there.Contains(s)).Select(s => s with { Sign = -1 }));
        return way;
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
