using Rootgap.Drawings;
using Rootgap.Fabricating;
using Rootgap.Findings;
using Rootgap.Measure;
using Rootgap.Routes;

namespace Rootgap.Checks;

/// <summary>A weld inside another pipe, or a field weld too near one.</summary>
internal sealed class WeldOutOfReach : Rule
{
    private const double Clearance = 100;

    public override string Name => "weld-out-of-reach";
    public override Severity Severity => Severity.Warn;
    public override string Says => "A weld lies inside another pipe of the drawing (a warning), or a field weld has less than 100 mm clear to one (a note).";
    public override string Why => "A torch, a hand and an eye have to get all round (common practice: 300 mm is wanted, 100 mm is the least).";

    public override IEnumerable<Finding> Check(Fabrication fabrication)
    {
        var route = fabrication.Route;
        // Where no table has the measures of a fitting, its welds lie at its middle.
        var unmeasured = route.Findings.Where(f => f.Rule == "not-in-the-standard").Select(f => f.At).ToHashSet();
        foreach (var joint in route.Joints)
        {
            if (!joint.IsWeld || joint.Kind == JointKind.Branch || joint.Between.Any(id => route.ComponentOf(id) is { } c && unmeasured.Contains(c.Source.Path)))
                continue;
            var radius = Standards.Pipes.Outside(joint.Size, route.Drawing.Units) / 2;
            foreach (var pipe in route.Pipes)
            {
                if (IsFar(joint.At, pipe, (pipe.Outside / 2) + radius + Clearance))
                    continue;
                // A neighbour on the same run is near by its nature.
                if ((pipe.Run == joint.Run && joint.Leg > pipe.FirstLeg - 3 && joint.Leg < pipe.LastLeg + 3) || joint.Between.Contains(pipe.Id, StringComparer.Ordinal))
                    continue;
                var clear = Away(joint.At, pipe) - (pipe.Outside / 2);
                var isInside = clear < 0;
                // From outside it is the two surfaces that count, and only where the weld is made at site.
                if (!isInside && (joint.Place == WeldPlace.Shop || clear - radius >= Clearance || IsBranchOf(route, joint, pipe) || IsAtSameFitting(route, joint, pipe)))
                    continue;
                yield return Found(joint.Source, "by", isInside
                        ? Say($"Weld {joint.Id} lies inside the NPS {pipe.Size} pipe of leg {pipe.FirstLeg + 1} in \"{route.Runs[pipe.Run].Run.Name}\".")
                        : Say(fabrication.Units, $"Field weld {joint.Id} has {Math.Max(0, clear - radius):len0} clear to the NPS {pipe.Size} pipe of leg {pipe.FirstLeg + 1} in \"{route.Runs[pipe.Run].Run.Name}\"."),
                    "Look at the dimensions here; make the weld in the shop, or move it.", severity: isInside ? Severity.Warn : Severity.Note);
                break;
            }
        }
    }

    /// <summary>The first weld of a branch stands near its header by its nature.</summary>
    private static bool IsBranchOf(Route route, Joint joint, PipePiece header) =>
        joint.Leg <= 0 && route.Runs[joint.Run].Run.Start.From is { } from && route.Runs[header.Run].Run.Legs.Any(l => l.To.Name == from);

    /// <summary>The pipes of one tee or outlet stand near one another's welds by their nature.</summary>
    private static bool IsAtSameFitting(Route route, Joint joint, PipePiece pipe) =>
        route.Joints.Any(o => o.Between.Contains(pipe.Id, StringComparer.Ordinal) && o.Between.Any(id => joint.Between.Contains(id, StringComparer.Ordinal)));

    /// <summary>Whether a place is farther off than so much along one axis: most are.</summary>
    private static bool IsFar(Point at, PipePiece pipe, double by)
    {
        var (a, b) = (pipe.Start, pipe.End);
        return Beyond(at.X, a.X, b.X) > by || Beyond(at.Y, a.Y, b.Y) > by || Beyond(at.Z, a.Z, b.Z) > by;

        static double Beyond(double at, double a, double b) => Math.Max(Math.Min(a, b) - at, at - Math.Max(a, b));
    }

    private static double Away(Point at, PipePiece pipe)
    {
        var way = pipe.End - pipe.Start;
        var length = way.Length;
        var t = length > 0 ? Math.Clamp((at - pipe.Start).Dot(way) / (length * length), 0, 1) : 0;
        return at.To(pipe.Start + (way * t));
    }
}
