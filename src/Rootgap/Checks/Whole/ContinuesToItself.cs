using Rootgap.Drawings;
using Rootgap.Fabricating;
using Rootgap.Findings;
using Rootgap.Measure;
using Rootgap.Routes;

namespace Rootgap.Checks;

/// <summary>A drawing that goes on from itself.</summary>
internal sealed class ContinuesToItself : Rule
{
    public override string Name => "continues-to-itself";
    public override Severity Severity => Severity.Warn;
    public override string Says => "An end of the line is said to go on on this same drawing, or on one whose number has this one's letters in another order.";
    public override string Why => "The number of the next drawing was meant, or letters changed places (common practice).";

    public override IEnumerable<Finding> Check(Fabrication fabrication)
    {
        var drawing = fabrication.Route.Drawing;
        foreach (var run in drawing.Runs)
        {
            foreach (var (point, row) in run.Legs.Select(l => ((WorkPoint?)l.To, l.Source)).Prepend((run.Start.Ends, run.Start.Source)))
            {
                var on = point?.GoesOnIn;
                if (on is not null && string.Equals(on.Trim(), drawing.Number.Trim(), StringComparison.OrdinalIgnoreCase))
                    yield return Found(row, "continues", $"This end goes on on {on}, which is this drawing.", "Give the number of the next drawing.");
                else if (on is not null && Letters(on) is { Length: > 1 } letters && Letters(drawing.Number) is var own && letters != own && letters.Order().SequenceEqual(own.Order()))
                    yield return Found(row, "continues", $"This end goes on on {on}, and this drawing is {drawing.Number}: the same letters in another order.", "Look whether two letters changed places.");
            }
        }
    }

    private static string Letters(string number) => string.Concat(number.Where(char.IsLetter)).ToUpperInvariant();
}
