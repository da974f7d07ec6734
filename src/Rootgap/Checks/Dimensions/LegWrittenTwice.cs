using Rootgap.Drawings;
using Rootgap.Fabricating;
using Rootgap.Findings;

namespace Rootgap.Checks;

internal sealed class LegWrittenTwice : Rule
{
    public override string Name => "leg-written-twice";
    public override Severity Severity => Severity.Note;
    public override string Says => "Two legs one after the other are the same: direction, distance and what stands at the end.";
    public override string Why => "A row copied by mistake lengthens the line and the material list at once (common practice).";

    public override IEnumerable<Finding> Check(Fabrication fabrication)
    {
        foreach (var run in fabrication.Route.Drawing.Runs)
        {
            for (var i = 1; i < run.Legs.Count; i++)
            {
                var (before, leg) = (run.Legs[i - 1], run.Legs[i]);
                // Points, branches and welds at equal distances are the usual thing.
                if (leg.MakeUp || leg.To is DimensionPoint or SupportPoint or OutletPoint or StubInPoint or WeldPoint || leg.Go != before.Go || leg.By != before.By || !leg.To.Equals(before.To) || leg.Slope != before.Slope)
                    continue;
                yield return Found(leg.Source, "by", Say(fabrication.Units, $"This leg is the same as the one before: {leg.Distance:len} to {Words.A(leg.To.Word)}."),
                    "Take one of the two out if the drawing shows one.", "The line comes out longer by a leg.");
            }
        }
    }
}
