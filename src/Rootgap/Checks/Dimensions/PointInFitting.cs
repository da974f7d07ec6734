using Rootgap.Drawings;
using Rootgap.Fabricating;
using Rootgap.Findings;

namespace Rootgap.Checks;

internal sealed class PointInFitting : Rule
{
    public override string Name => "point-in-fitting";
    public override Severity Severity => Severity.Note;
    public override string Says => "A dimension point lies inside the take-off of the fitting beside it.";
    public override string Why => "It cannot be marked on the pipe (geometry): the dimension may belong to another point.";

    public override IEnumerable<Finding> Check(Fabrication fabrication)
    {
        var route = fabrication.Route;
        foreach (var pipe in route.Pipes)
        {
            var length = (pipe.End - pipe.Start).Dot(pipe.Direction);
            if (pipe.FirstLeg == pipe.LastLeg || length <= 0)
                continue;
            var run = route.Runs[pipe.Run];
            for (var i = pipe.FirstLeg; i < pipe.LastLeg; i++)
            {
                var leg = run.Run.Legs[i];
                var at = (run.Points[i + 1] - pipe.Start).Dot(pipe.Direction);
                if (leg.To is DimensionPoint && Math.Max(-at, at - length) is > 1 and var inside)
                {
                    yield return Found(leg.Source, "by", Say(fabrication.Units, $"This point lies {inside:len} beyond the end of its pipe, in what stands beside it."),
                        "See which dimension is meant.");
                }
            }
        }
    }
}
