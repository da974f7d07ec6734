using Rootgap.Drawings;
using Rootgap.Routes;

namespace Rootgap.Checks;

/// <summary>A branch on a header pipe and the girth weld nearest to it.</summary>
/// <param name="Apart">From the branch's centre to the weld's middle, along the header, mm.</param>
/// <param name="Radius">Half the branch's outside diameter, mm.</param>
internal readonly record struct WeldBesideBranch(WorkPoint Branch, SourceRow Row, double Apart, double Radius)
{
    /// <summary>Every outlet and stub-in on a pipe that has a butt weld at one of its ends.</summary>
    public static IEnumerable<WeldBesideBranch> AllOf(Route route)
    {
        foreach (var pipe in route.Pipes)
        {
            if (pipe.FirstLeg == pipe.LastLeg)
                continue;
            var run = route.Runs[pipe.Run];
            var gap = route.Drawing.Shop.RootGap / 2;
            for (var leg = pipe.FirstLeg; leg < pipe.LastLeg; leg++)
            {
                if (Lean.HoleOf(run.Run.Legs[leg], pipe.Direction, pipe.Outside, route.Drawing.Units) is not ({ } shift, > 0 and var half))
                    continue;
                var at = run.Points[leg + 1] + (pipe.Direction * shift);
                var apart = double.PositiveInfinity;
                if (pipe.AtStart.IsButt)
                    apart = Math.Abs((at - pipe.Start).Dot(pipe.Direction)) + gap;
                if (pipe.AtEnd.IsButt)
                    apart = Math.Min(apart, Math.Abs((pipe.End - at).Dot(pipe.Direction)) + gap);
                if (double.IsFinite(apart))
                    yield return new(run.Run.Legs[leg].To, run.Run.Legs[leg].Source, apart, half);
            }
        }
    }
}
