using Rootgap.Drawings;
using Rootgap.Routes;

namespace Rootgap.Checks;

/// <summary>A stretch of a run that stands lower, or higher, than what comes before and after it.</summary>
/// <param name="FirstLeg">The leg that leads into the stretch.</param>
/// <param name="LastLeg">The leg that leads out of it.</param>
/// <param name="HasBranch">A branch, outlet or flanged joint stands on it, by which it can be emptied.</param>
internal readonly record struct Pocket(int Run, int FirstLeg, int LastLeg, bool HasBranch)
{
    private static readonly double Level = Math.Sin(2 * Math.PI / 180);

    /// <summary>Low stretches (<paramref name="sign"/> -1: down, level, up) or high ones (+1).</summary>
    public static IEnumerable<Pocket> AllOf(Route route, int sign)
    {
        for (var r = 0; r < route.Runs.Count; r++)
        {
            var run = route.Runs[r];
            var entry = -1;
            var hasBranch = false;
            for (var l = 0; l < run.Directions.Count; l++)
            {
                var climb = sign * run.Directions[l].Z;
                if (climb > Level)
                {
                    (entry, hasBranch) = (l, Opens(run.Run.Legs[l].To, sign));
                }
                else if (climb < -Level)
                {
                    if (entry >= 0)
                        yield return new(r, entry, l, hasBranch);
                    entry = -1;
                }
                else if (entry >= 0)
                {
                    hasBranch |= Opens(run.Run.Legs[l].To, sign);
                }
            }
        }
    }

    /// <summary>Half of a right angle and less off level: a branch by which air or water leaves.</summary>
    private const double Aslant = 0.75;

    /// <summary>Air does not leave by a branch that hangs, nor water by one that stands.</summary>
    private static bool Opens(WorkPoint point, int sign) => point switch
    {
        TeePoint { Branch: { } branch } => branch.Unit.Z * sign > -Aslant,
        TeePoint => true,
        OutletPoint outlet => outlet.Branch.Unit.Z * sign > -Aslant,
        StubInPoint stub => stub.Branch.Unit.Z * sign > -Aslant,
        _ => false,
    };
}
