using Rootgap.Drawings;
using Rootgap.Fabricating;
using Rootgap.Findings;
using Rootgap.Routes;
using Rootgap.Standards;

namespace Rootgap.Checks;

internal sealed class BranchOnFitting : Rule
{
    public override string Name => "branch-on-fitting";
    public override Severity Severity => Severity.Stop;
    public override string Says => "An outlet or a stub-in stands inside a fitting's take-off, or its hole or its pad reaches into the socket, the thread or the slip-on flange beside it.";
    public override string Why => "It needs plain pipe around its hole; on an elbow or a flange its saddle does not fit, and its hole would cut the joint (common practice).";

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
                if (Lean.HoleOf(leg, pipe.Direction, pipe.Outside, route.Drawing.Units) is not var (shift, half))
                    continue;
                var size = leg.To is OutletPoint o ? o.Size : ((StubInPoint)leg.To).Size;
                var at = (run.Points[i + 1] - pipe.Start).Dot(pipe.Direction) + shift;
                var (room, isAtStart) = at <= length / 2 ? (at, true) : (length - at, false);
                var end = isAtStart ? pipe.AtStart : pipe.AtEnd;
                // Beside a butt weld the hole's distance is a rule of its own, and so is the pad's.
                var isOver = !end.IsButt && end.Kind is not (EndKind.Free or EndKind.Passing);
                var pad = isOver && leg.To is StubInPoint { HasPad: true, PadWidth: { } width } ? width : 0;
                room -= isOver ? Covered(route, pipe, isAtStart) : 0;
                if (room >= half + pad || (room >= 0 && !isOver))
                    continue;
                var beside = isAtStart ? pipe.FirstLeg == 0 ? "start of the run" : run.Run.Legs[pipe.FirstLeg - 1].To.Word : run.Run.Legs[pipe.LastLeg].To.Word;
                yield return Found(leg.Source, isAtStart ? "by" : "to",
                    room < 0
                        ? Say(fabrication.Units, $"This {leg.To.Word} stands {-room:len} inside the {beside} beside it: there is no pipe there.")
                        : Say(fabrication.Units, $"This NPS {size} {leg.To.Word} needs {half + pad:len} of plain pipe beside the {beside}, {room:len} drawn: {(room < half ? "its hole cuts the joint" : "its pad lies on it")}."),
                    "Move the branch along the pipe, or mend the dimension.", "The branch is set on the fitting, or the hole is cut through the joint.", room < 0 ? null : Severity.Warn);
            }
        }
    }

    /// <summary>How much of a pipe lies in the socket, the thread or the hub at its end, mm.</summary>
    private static double Covered(Route route, PipePiece pipe, bool atStart)
    {
        var (end, inward) = atStart ? (pipe.Start, pipe.Direction) : (pipe.End, -pipe.Direction);
        var joint = route.Joints.Where(j => j.Between.Contains(pipe.Id)).MinBy(j => j.At.To(end));
        if (joint?.Between.FirstOrDefault(id => id != pipe.Id) is not { } other || route.PartOf(other) is not { } part)
            return 0;
        return part.Ports.Where(p => p.Face.Dot(inward) > 0.99).Select(p => (p.At - end).Dot(inward)).DefaultIfEmpty(0).Max(d => d < pipe.Outside * 2 ? Math.Max(0, d) : 0);
    }
}
