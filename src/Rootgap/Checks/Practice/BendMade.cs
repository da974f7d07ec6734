using Rootgap.Fabricating;
using Rootgap.Findings;
using Rootgap.Measure;
using Rootgap.Routes;

namespace Rootgap.Checks;

/// <summary>A bend that the shop makes: what the engineer must have said of it.</summary>
internal sealed class BendMade : Rule
{
    /// <summary>The steepest cut for which ASME B31.3 304.2.3 (a) reckons a bend of several mitres, degrees.</summary>
    private const double SteepestCut = 22.5;

    /// <summary>A in ASME B31.3 304.2.3 (c) for walls up to 13 mm, mm.</summary>
    private const double Apart = 25;

    /// <summary>Radius in nominal sizes below which a pulled pipe wants more wall and a mandrel.</summary>
    private const double Tight = 3;

    public override string Name => "bend-made-in-shop";
    public override Severity Severity => Severity.Warn;
    public override string Says => "A mitred bend: a warning where its cuts are steeper or its radius is less than the code reckons with, else a note; or a pipe pulled to less than three nominal sizes.";
    public override string Why => "How much pressure a mitred bend may see is reckoned from its cut and its radius (ASME B31.3 304.2.3); a pulled pipe loses wall at its back, the more the tighter (ASME B31.1 table 102.4.5: 25 % thicker for three diameters). Both are the engineer's.";

    public override IEnumerable<Finding> Check(Fabrication fabrication)
    {
        foreach (var bend in fabrication.Route.Components.OfType<MadeBend>())
        {
            if (bend.Radius is not { } radius || bend.IsImpossible)
                continue;
            if (!bend.IsMitred)
            {
                if (radius < (Tight * bend.Size.Inches * LengthText.Inch) - Tolerance.Closing)
                    yield return Found(bend.Source, "bend radius", Say(fabrication.Units, $"NPS {bend.Size} is pulled to a radius of {radius:len}, less than {Tight:0} nominal sizes: its wall of {bend.Wall:small} goes down to about {bend.Wall * radius / (radius + (bend.Outside / 2)):small} at the back."), "Ask the engineer for the wall, or use an elbow.");
                continue;
            }

            var cut = Angles.ToDegrees(bend.Cut);
            var least = (Apart / Math.Tan(bend.Cut)) + (bend.Outside / 2);
            var wrong = cut > SteepestCut + 0.01 ? Say($" Over {SteepestCut} degrees ASME B31.3 does not reckon a bend of several mitres.")
                : radius < least ? Say(fabrication.Units, $" ASME B31.3 304.2.3 (c) wants a radius of {least:len} at least.") : "";
            yield return Found(bend.Source, wrong.Length > 0 && cut <= SteepestCut ? "bend radius" : "cuts", Say(fabrication.Units, $"A mitred bend, {bend.Cuts} cuts of {cut:0.##} degrees on a radius of {radius:len}: the pressure that it may see is a matter of design.{wrong}"), "See that the engineer has reckoned it.", "It is the weakest place of the line.",
                wrong.Length > 0 ? Severity.Warn : Severity.Note);
        }
    }
}
