using Rootgap.Drawings;
using Rootgap.Fabricating;
using Rootgap.Findings;
using Rootgap.Measure;
using Rootgap.Routes;

namespace Rootgap.Checks;

internal sealed class ClosingErrorExplained : Rule
{
    /// <summary>More legs than this along the axis of an error tell nothing.</summary>
    private const int Few = 3;

    public override string Name => "closing-error-explained";
    public override Severity Severity => Severity.Warn;
    public override string Says => "Where the legs do not close: the leg whose direction or dimension, read otherwise, would close them.";
    public override string Why => "A closing error has an axis and a size, and mostly one figure on the way explains both: turned round, ten times off, two digits changed over (common practice).";

    public override IEnumerable<Finding> Check(Fabrication fabrication)
    {
        var route = fabrication.Route;
        if (route.Findings.Count == 0 || !route.Findings.Any(f => f.Rule is "does-not-close" or "elevation-does-not-close"))
            return [];
        var told = new HashSet<SourceRow>();
        var found = new List<Finding>();
        for (var r = 0; r < route.Runs.Count; r++)
        {
            var run = route.Runs[r];
            for (var i = 0; i < run.Distances.Count; i++)
            {
                var leg = run.Run.Legs[i];
                if (leg.At is { } stated)
                    Explain(run.Points[i + 1] - stated, Way(route, r, i + 1));
                if (leg.To is TieInPoint tie && Host(route, tie.With) is { } host)
                    Explain(run.Points[i + 1] - route.Runs[host.Run].Points[host.Station], Less(Way(route, r, i + 1), Way(route, host.Run, host.Station)));
            }
        }

        return found;

        void Explain(Vector error, List<Step> way)
        {
            if (error.Length <= Tolerance.Closing)
                return;
            var sure = new List<Finding>();
            var along = new List<Finding>();
            foreach (var step in way)
            {
                if (told.Contains(step.Leg.Source))
                    continue;
                if (Reading(step, error) is { } reading)
                    sure.Add(reading);
                else if (Figure(step, error) is { } figure)
                    (figure.IsSlip ? sure : along).Add(figure.Finding);
            }

            var these = sure.Count > 0 ? sure : along;
            if (these.Count > Few)
                return;
            foreach (var finding in these)
                found.Add(finding);
            foreach (var step in way)
            {
                if (these.Any(f => f.At == step.Leg.Source.Path))
                    told.Add(step.Leg.Source);
            }
        }
    }

    /// <summary>A leg on the way: it adds <c>Sign</c> times its length along its direction to the error.</summary>
    private readonly record struct Step(Leg Leg, Vector Direction, double Distance, int Sign);

    /// <summary>Another of the six directions that would close the way.</summary>
    private Finding? Reading(Step step, Vector error)
    {
        foreach (var (axis, word) in Axes.Six)
        {
            if (((step.Direction - axis) * (step.Distance * step.Sign) - error).Length > Tolerance.Closing || step.Leg.IsSkew)
                continue;
            return Found(step.Leg.Source, "go", FormattableString.Invariant($"The way does not close; with this leg of {step.Distance:0.#} going {word} it would."),
                "See the direction on the drawing.", "The spool is made as its mirror image.");
        }

        return null;
    }

    /// <summary>Another length of this leg that would close the way, and whether it is this one by a slip of the pen.</summary>
    private (Finding Finding, bool IsSlip)? Figure(Step step, Vector error)
    {
        var part = error.Dot(step.Direction);
        if (error.SquareTo(step.Direction).Length > Tolerance.Closing || step.Leg.MakeUp)
            return null;
        var closing = step.Distance - (part * step.Sign);
        if (closing <= 0)
            return null;
        var slip = Slip(step.Distance, closing);
        return (Found(step.Leg.Source, "by",
            FormattableString.Invariant($"The way does not close; {closing:0.#} here would close it, {step.Distance:0.#} drawn{(slip is null ? "" : $": {slip}")}."),
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
                way.Add(new(line.Run.Legs[i], line.Directions[i], line.Distances[i], 1));
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
