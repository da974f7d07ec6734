using Rootgap.Fabricating;
using Rootgap.Findings;
using Rootgap.Measure;

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
        var misses = ClosingError.In(fabrication.Route);
        var found = new List<Finding>();
        while (misses.Count > 0)
        {
            // One wrong figure shows as the same miss at every place that is reached through it.
            var first = misses[0];
            var same = misses.FindAll(m => (m.Error - first.Error).Length <= Tolerance.Closing);
            misses.RemoveAll(same.Contains);
            var (slips, others) = first.Explained(fabrication.Units, same);
            var places = slips.Count > 0 ? slips : others;
            if (places.Count > Few)
                continue;
            foreach (var place in places)
            {
                var message = places.Count == 1 ? place.Sentence : FormattableString.Invariant($"{place.Sentence[..^1]} (one of {places.Count} places that would).");
                // A place that explains two misses is told once.
                if (!found.Exists(f => f.At == place.Row.Path && f.Message == message))
                    found.Add(Found(place.Row, place.Key, message, $"See {place.Key switch { "go" => "the direction", "at" => "the place", "by" => "the figure", "flat" => "the flat side", "kind" => "the kind", _ => "the slope" }} on the drawing.", place.Key is "go" ? "The spool is made as its mirror image." : ""));
            }
        }

        return found;
    }
}
