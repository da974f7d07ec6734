using Rootgap.Drawings;
using Rootgap.Fabricating;
using Rootgap.Findings;

namespace Rootgap.Checks;

/// <summary>A figure that is a fixed number of times too long or too short: held against the pipe listed, and against the other legs.</summary>
public abstract class FigureOffBy : Rule
{
    /// <summary>What a list may hold beyond the need: a quarter and a short offcut, mm.</summary>
    private const double ListedOver = 1.25;

    private const double Offcut = 600;

    /// <summary>The list must be short by this share of what the other reading saves, or it is merely a little short.</summary>
    private const double Substantial = 0.75;

    /// <summary>A leg this many times as long as the longest other one stands out.</summary>
    private const double StandsOut = 4;

    /// <summary>The other legs must be at least so many before one of them stands out.</summary>
    private const int Enough = 3;

    public sealed override Severity Severity => Severity.Warn;

    protected abstract double Times { get; }

    /// <summary>What the factor means, as in "... too long".</summary>
    protected abstract string Slip { get; }

    public sealed override IEnumerable<Finding> Check(Fabrication fabrication)
    {
        var told = new HashSet<Leg>(ReferenceEqualityComparer.Instance);
        foreach (var finding in AgainstTheList(fabrication, told).Concat(AgainstTheOthers(fabrication, told)))
            yield return finding;
    }

    /// <summary>Much more pipe is needed than is listed, and this one leg read shorter makes the list right; of several, the one that comes nearest to the list.</summary>
    private IEnumerable<Finding> AgainstTheList(Fabrication fabrication, HashSet<Leg> told)
    {
        foreach (var row in fabrication.Materials)
        {
            if (row is not { IsLength: true, Item: { } item, Listed: > 0 })
                continue;
            var (metres, need) = Alike.Together(fabrication.Materials, row);
            if (need <= metres)
                continue;
            var (listed, needed) = (metres * 1000, need * 1000);
            (Leg Leg, double Drawn, double Over)? best = null;
            var proved = ClosingError.Proved(fabrication.Route);
            foreach (var cut in fabrication.Cuts)
            {
                if (!ReferenceEquals(cut.Pipe.Item, item))
                    continue;
                var run = fabrication.Route.Runs[cut.Pipe.Run];
                for (var i = cut.Pipe.FirstLeg; i <= cut.Pipe.LastLeg; i++)
                {
                    var drawn = run.Distances[i];
                    var less = drawn - (drawn / Times);
                    var over = listed - (needed - less);
                    if (!proved.Contains(run.Run.Legs[i].Source) && cut.Length - less > 0 && needed - listed > less * Substantial && over >= 0 && listed <= ((needed - less) * ListedOver) + Offcut && (best is null || over < best.Value.Over))
                        best = (run.Run.Legs[i], drawn, over);
                }
            }

            if (best is { } found && told.Add(found.Leg))
            {
                yield return Found(found.Leg.Source, "by",
                    Say(fabrication.Units, $"{found.Drawn:len} here needs {need:pipe} of pipe in all and {metres:pipe} are listed; {found.Drawn / Times:len} would fit the list: {Slip} too long?"),
                    "See the figure on the drawing.", "A piece is cut far too long, and pipe is missing at the end.");
            }
        }
    }

    /// <summary>One leg stands out among all, and read the other way lies among them.</summary>
    private IEnumerable<Finding> AgainstTheOthers(Fabrication fabrication, HashSet<Leg> told)
    {
        double longest = 0, second = 0, shortest = double.MaxValue, secondShortest = double.MaxValue;
        var count = 0;
        (Leg? Long, Leg? Short) extreme = default;
        foreach (var run in fabrication.Route.Drawing.Runs)
        {
            foreach (var leg in run.Legs)
            {
                if (leg.Distance is not { } d || leg.To.IsPassedThrough)
                    continue;
                count++;
                if (d > longest)
                    (second, longest, extreme.Long) = (longest, d, leg);
                else if (d > second)
                    second = d;
                if (d < shortest)
                    (secondShortest, shortest, extreme.Short) = (shortest, d, leg);
                else if (d < secondShortest)
                    secondShortest = d;
            }
        }

        if (count <= Enough)
            yield break;
        if (longest >= StandsOut * second && longest / Times >= shortest && longest / Times <= second && told.Add(extreme.Long!))
        {
            yield return Found(extreme.Long!.Source, "by",
                Say(fabrication.Units, $"{longest:len} is {longest / second:0.0} times the next longest leg; {longest / Times:len} would lie among the others: {Slip} too long?"),
                "See the figure on the drawing.", severity: Severity.Note);
        }

        if (shortest * StandsOut <= secondShortest && shortest * Times >= secondShortest && shortest * Times <= longest && told.Add(extreme.Short!))
        {
            yield return Found(extreme.Short!.Source, "by",
                Say(fabrication.Units, $"{shortest:len} is far shorter than any other leg; {shortest * Times:len} would lie among the others: {Slip} too short?"),
                "See the figure on the drawing.", severity: Severity.Note);
        }
    }
}
