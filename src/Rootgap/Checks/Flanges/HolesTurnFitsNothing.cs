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

    protected override Finding? Look(Component flange, Drawing drawing) =>
        Math.Abs(Holes(flange).Turn) > Tolerance.Turn && Standards.StandardTable.Find("flanges", "flange", "holes", flange.Size, @class: flange.Line.Class) is { } row
            && Math.PI / row.Figure is var half && Math.Abs(Math.IEEERemainder(Holes(flange).Turn, half)) > Tolerance.Turn
            ? Found(flange.Source, "holes", FormattableString.Invariant($"{Angles.ToDegrees(Holes(flange).Turn):0.#} degrees is no half pitch of {row.Figure:0} holes, which is {Angles.ToDegrees(half):0.##}."), "Confirm the angle on the drawing of what the flange mates with.")
            : null;
}
