using Rootgap.Drawings;
using Rootgap.Findings;
using Rootgap.Measure;
using Rootgap.Routes;

namespace Rootgap.Checks;

internal sealed class HoleLineUnstated : FlangeRule
{
    public override string Name => "hole-line-unstated";
    public override Severity Severity => Severity.Warn;
    public override string Says => "A flange whose face is neither upright nor level, without a line for its bolt holes.";
    public override string Why => "Two holes straddle the upright centreline, or the north-south line on a level face; on a skew face neither is there (common practice).";

    protected override Finding? Look(Flange flange, Drawing drawing) =>
        flange.HoleLine is null && flange.Orientation.From is null
            ? Found(flange.Source, "holes", "This flange's face is neither upright nor level: nobody can tell what its bolt holes straddle.", "Add `holes from:` with the direction of the line that they straddle.", "The holes miss by up to half a pitch.")
            : null;
}
