using Rootgap.Fabricating;
using Rootgap.Findings;
using Rootgap.Routes;

namespace Rootgap.Checks;

/// <summary>A spool that stands out in three directions.</summary>
internal sealed class SpoolThreeDimensional : Rule
{
    private const double Flat = 1000;

    public override string Name => "spool-three-dimensional";
    public override Severity Severity => Severity.Note;
    public override string Says => "Every side of a spool's box is more than 1000 mm; what is screwed together throughout is left out.";
    public override string Why => "It will not lie flat on a lorry or on the floor and is easily bent; flat spools are preferred where the box allows (common practice).";

    public override IEnumerable<Finding> Check(Fabrication fabrication)
    {
        foreach (var spool in fabrication.Spools)
        {
            var box = spool.Box;
            if (box.X <= Flat || box.Y <= Flat || box.Z <= Flat || spool.IsScrewedOnly || spool.Cuts.Count == 0)
                continue;
            var pipe = spool.Cuts[0].Pipe;
            yield return Found(fabrication.Route.RowOf(pipe.Run, pipe.FirstLeg), "go", Say(fabrication.Units, $"Spool {spool.Name} stands out in three directions, {box.X:len0} x {box.Y:len0} x {box.Z:len0}: it will not lie flat."),
                "Part it so that each spool lies in one plane, or build a cradle for it.");
        }
    }
}
