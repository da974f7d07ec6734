using Rootgap.Drawings;
using Rootgap.Fabricating;
using Rootgap.Findings;
using Rootgap.Measure;
using Rootgap.Routes;
using Rootgap.Standards;

namespace Rootgap.Checks;

internal sealed class BranchesTooClose : Rule
{
    /// <summary>Clear space between two branch welds below which a torch does not get in well, mm (common practice).</summary>
    private const double Clear = 25;

    public override string Name => "branches-too-close";
    public override Severity Severity => Severity.Stop;
    public override string Says => "Two outlets or stub-ins on one pipe stand so close that they overlap, or that there is no room between their welds.";
    public override string Why => "Measured over the pipe's surface, two branches cannot be nearer than their half diameters together; beyond that each weld needs room (geometry; 25 mm clear: common practice).";

    public override IEnumerable<Finding> Check(Fabrication fabrication)
    {
        var route = fabrication.Route;
        foreach (var pipe in route.Pipes)
        {
            if (pipe.LastLeg - pipe.FirstLeg < 2)
                continue;
            var run = route.Runs[pipe.Run];
            for (var i = pipe.FirstLeg; i < pipe.LastLeg; i++)
            {
                if (Branch(run.Run.Legs[i]) is not { } a)
                    continue;
                var along = 0.0;
                var from = Lean.HoleOf(run.Run.Legs[i], pipe.Direction, pipe.Outside, route.Drawing.Units)!.Value;
                for (var j = i + 1; j < pipe.LastLeg; j++)
                {
                    along += run.Distances[j];
                    if (along > pipe.Outside * 2.5)
                        break;
                    var leg = run.Run.Legs[j];
                    if (Branch(leg) is not { } b)
                        continue;
                    var around = a.Side.SquareTo(pipe.Direction).AngleTo(b.Side.SquareTo(pipe.Direction)) * pipe.Outside / 2;
                    var to = Lean.HoleOf(leg, pipe.Direction, pipe.Outside, route.Drawing.Units)!.Value;
                    var between = along + to.Along - from.Along;
                    var apart = Math.Sqrt((between * between) + (around * around));
                    // A hole is longest along the pipe; between two that stand round it, as broad as its branch.
                    var needed = around < Math.Abs(between) ? from.Half + to.Half : (Outside(a.Size) + Outside(b.Size)) / 2;
                    if (apart >= needed + Clear)
                        continue;
                    yield return apart < needed
                        ? Found(leg.Source, "by", Say(fabrication.Units, $"This branch and the one before stand {apart:len} apart over the pipe's surface, and their half diameters take {needed:len}: {needed - apart:len} short."),
                            "Move one of the two, or ask for the right dimension.", "The second hole cuts into the first.")
                        : Found(leg.Source, "by", Say(fabrication.Units, $"Between this branch and the one before there are {apart - needed:len} clear for two welds."),
                            "See that both can be welded, and what reinforcement each takes.", severity: Severity.Note);
                }
            }
        }

        double Outside(NominalSize size) => Pipes.Outside(size, route.Drawing.Units);
    }

    private static (NominalSize Size, Vector Side)? Branch(Leg leg) => leg.To switch
    {
        OutletPoint o => (o.Size, o.Branch.Unit),
        StubInPoint s => (s.Size, s.Branch.Unit),
        _ => null,
    };
}
