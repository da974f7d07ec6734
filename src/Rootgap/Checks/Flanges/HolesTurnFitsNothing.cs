using Rootgap.Drawings;
using Rootgap.Findings;
using Rootgap.Measure;
using Rootgap.Routes;

namespace Rootgap.Checks;

internal sealed class HolesTurnFitsNothing : FlangeRule
{
    public override string Name => "holes-turn-fits-nothing";
    public override Severity Severity => Severity.Note;
    public override string Says => "Bolt holes turned by an angle that is no half pitch.";
    public override string Why => "A flange fits its mate in steps of one pitch, and astride or on the centre only in half pitches (ASME B16.5: holes in multiples of four).";

    protected override Finding? Look(Flange flange, Drawing drawing) =>
        Math.Abs(flange.Orientation.Turn) > Tolerance.Turn && flange.Bolts is { } bolts
            && Math.PI / bolts.Count is var half && Math.Abs(Math.IEEERemainder(flange.Orientation.Turn, half)) > Tolerance.Turn
            ? Found(flange.Source, "holes", FormattableString.Invariant($"{Angles.ToDegrees(flange.Orientation.Turn):0.#} degrees is no half pitch of {bolts.Count:0} holes, which is {Angles.ToDegrees(half):0.##}."), "Confirm the angle on the drawing of what the flange mates with.")
            : null;
}
