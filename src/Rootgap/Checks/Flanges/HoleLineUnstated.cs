using Rootgap.Drawings;
using Rootgap.Findings;
using Rootgap.Measure;
using Rootgap.Routes;

namespace Rootgap.Checks;

internal sealed class HoleLineUnstated : FlangeRule
{
    public override string Name => "hole-line-unstated";
    public override Severity Severity => Severity.Warn;
    public override string Says => "A flange whose face is neither upright nor level, without a line for its bolt holes; a note where the face leans by a slope and other flanges of the drawing that do have their line.";
    public override string Why => "Two holes straddle the upright centreline, or the north-south line on a level face; on a skew face neither is there (common practice).";

    protected override Finding? Look(Flange flange, Drawing drawing) =>
        flange.HoleLine is null && flange.Orientation.From is null
            ? Found(flange.Source, "holes", "This flange's face is neither upright nor level: nobody can tell what its bolt holes straddle.", "Add `holes from:` with the direction of the line that they straddle.", "The holes miss by up to half a pitch.")
            : flange.Orientation.From is null && IsLeaning(flange) && Slopes(drawing) ? Found(flange.Source, "holes", "This flange's face leans by the slope of its pipe, and other flanges of the drawing that do say what their bolt holes straddle.", "Add `holes from:` here, too, if it was forgotten.", severity: Severity.Note)
            : null;

    private static bool IsLeaning(Flange flange) => Math.Abs(flange.Ports[0].Face.Z) is > 1e-4 and < 0.7;

    private static bool Slopes(Drawing drawing) => drawing.Runs.SelectMany(r => r.Legs).Any(l => l.Slope != 0 && l.Source.Has("holes from"));
}
