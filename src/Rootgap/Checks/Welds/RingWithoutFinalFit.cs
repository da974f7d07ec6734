using Rootgap.Drawings;
using Rootgap.Fabricating;
using Rootgap.Findings;
using Rootgap.Measure;
using Rootgap.Routes;

namespace Rootgap.Checks;

/// <summary>A run that ties in and so closes a ring in which nothing can be trimmed.</summary>
internal sealed class RingWithoutFinalFit : Rule
{
    public override string Name => "ring-without-final-fit";
    public override Severity Severity => Severity.Warn;
    public override string Says => "A run ends at another's branch and closes a ring, and no weld of the ring is final-fit; a note where it closes in a socket or a thread, which gives, and where it is a by-pass with bolted joints, without a weld at site, no larger than the shop's envelope.";
    public override string Why => "The last piece of a ring lies between two ends that stand already: it must be trimmed to what is there (common practice).";

    public override IEnumerable<Finding> Check(Fabrication fabrication)
    {
        var route = fabrication.Route;
        foreach (var run in route.Runs.Where(r => r.Run.Legs is [.., { To: TieInPoint }]))
        {
            var last = run.Run.Legs[^1];
            if (route.Joints.LastOrDefault(j => j.Source == last.Source) is not { Place: not WeldPlace.FinalFit, Between: [var a, var b] } closing)
                continue;
            var parted = new Parted(route.Joints, j => j != closing && j.Place != WeldPlace.FinalFit);
            if (parted.GroupOf(a) == parted.GroupOf(b))
                yield return Found(last.Source, "to", $"With {closing.Id} this run closes a ring, and no weld of the ring is final-fit.", "Mark a weld on straight pipe of the ring `final-fit`, one in each direction that may be out.", "The last piece does not go in.",
                    closing.Kind is JointKind.Socket or JointKind.Threaded || IsStation(route, run) ? Severity.Note : null);
        }
    }

    /// <summary>A by-pass with bolted joints and no weld at site that is no larger than the shop's envelope: a station that is built in one with its valves, or spacers for them, bolted in (common practice).</summary>
    private static bool IsStation(Route route, RunLine run)
    {
        var shop = route.Drawing.Shop;
        double[] limits = [shop.EnvelopeLength, shop.EnvelopeWidth, shop.EnvelopeHeight];
        double[] sides = [Side(run.Points, p => p.X), Side(run.Points, p => p.Y), Side(run.Points, p => p.Z)];
        return route.Joints.All(j => route.Runs[j.Run] != run || !j.IsWeld || j.Place == WeldPlace.Shop)
            && route.Joints.Count(j => j is { Kind: JointKind.Bolted, Between.Count: 2 } && route.Runs[j.Run] == run) >= 2
            && sides.Order().Zip(limits.Order()).All(s => s.First <= s.Second);
    }

    private static double Side(IReadOnlyList<Point> points, Func<Point, double> of) => points.Max(of) - points.Min(of);
}
