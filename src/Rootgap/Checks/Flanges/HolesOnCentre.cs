using Rootgap.Drawings;
using Rootgap.Findings;
using Rootgap.Measure;
using Rootgap.Routes;

namespace Rootgap.Checks;

internal sealed class HolesOnCentre : FlangeRule
{
    public override string Name => "holes-on-centre";
    public override Severity Severity => Severity.Note;
    public override string Says => "Bolt holes on the centreline, or turned by an angle.";
    public override string Why => "Holes straddle the centreline unless the drawing says otherwise; equipment that is one-holed is confirmed on the maker's drawing (common practice).";

    protected override Finding? Look(Flange flange, Drawing drawing) =>
        flange.Orientation is { } holes && (holes.OnCentre || Math.Abs(holes.Turn) > Tolerance.Turn)
            ? Found(flange.Source, "holes", holes.OnCentre ? "The bolt holes stand on the centreline, not astride it." : FormattableString.Invariant($"The bolt holes are turned {Angles.ToDegrees(holes.Turn):0.#} degrees from straddling."), "Confirm it on the drawing of what the flange mates with.", "The flange does not bolt up.")
            : null;
}
