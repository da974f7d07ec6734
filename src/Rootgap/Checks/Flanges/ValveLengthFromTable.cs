using Rootgap.Drawings;
using Rootgap.Fabricating;
using Rootgap.Findings;
using Rootgap.Measure;

namespace Rootgap.Checks;

internal sealed class ValveLengthFromTable : Rule
{
    public override string Name => "valve-length-from-table";
    public override Severity Severity => Severity.Note;
    public override string BeforeCutting => "valve lengths are the table's: hold the makers' drawings against them";
    public override string Says => "A valve's length comes from the table, not from its maker.";
    public override string Why => "Makers keep to the table for most valves and not for all (ASME B16.10, common practice): the vendor's drawing decides.";

    public override IEnumerable<Finding> Check(Fabrication fabrication)
    {
        foreach (var run in fabrication.Route.Runs)
        {
            for (var i = 0; i < run.Directions.Count; i++)
            {
                var leg = run.Run.Legs[i];
                if (leg.To is ValvePoint { FaceToFace: null, Ends: FittingEnds.Flanged or FittingEnds.Butt } valve && !IsMeasured(fabrication, run.Run.Legs[i]))
                    yield return Found(leg.Source, "kind", $"The length of this {Words.Of(valve.Kind)} valve NPS {run.Sizes[i]} is the table's.", "Add `face to face:` from the vendor's drawing when it is there.", "The legs beside the valve are cut for another length.");
            }
        }
    }

    /// <summary>The shop has measured the valve itself.</summary>
    private static bool IsMeasured(Fabrication fabrication, Leg leg) => leg.Item is { } item && fabrication.Route.Drawing.Shop.MeasuredTakeOffs.ContainsKey(item);
}
