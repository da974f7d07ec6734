using Rootgap.Drawings;
using Rootgap.Fabricating;
using Rootgap.Findings;
using Rootgap.Measure;
using Rootgap.Routes;
using Rootgap.Standards;

namespace Rootgap.Checks;

internal sealed class OddAngle : Rule
{
    public override string Name => "odd-angle";
    public override Severity Severity => Severity.Note;
    public override string BeforeCutting => "elbows to be cut to their angle: see that it is meant";
    public override string Says => "A turn that is neither 90 nor 45 degrees: the elbow has to be cut.";
    public override string Why => "A cut elbow is marked by its arcs on the back and in the throat, and its cut end is bevelled anew (common practice; arc = angle x radius).";

    public override IEnumerable<Finding> Check(Fabrication fabrication)
    {
        var units = fabrication.Route.Drawing.Units;
        foreach (var c in fabrication.Route.Components)
        {
            if (c is not Bent { IsCut: true, Turn: var turn, Radius: { } radius } || turn > (Math.PI / 2) + Tolerance.Turn)
                continue;
            var half = c.Outside / 2;
            yield return Found(c.Source, "to",
                Say(fabrication.Units, $"This turn is {Angles.ToDegrees(turn):0.##} degrees: cut an {c.Name} NPS {c.Size} to arcs of {(radius + half) * turn:len} on the back, {radius * turn:len} in the middle, {Math.Max(0, radius - half) * turn:len} in the throat."),
                "See that the angle is meant; 45 and 90 come uncut.", "A stock elbow is welded in, and the line turns too far.");
        }
    }
}
