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
                    (entry, hasBranch) = (l, Opens(run.Run.Legs[l].To));
                }
                else if (climb < -Level)
                {
                    if (entry >= 0)
                        yield return new(r, entry, l, hasBranch);
                    entry = -1;
                }
                else if (entry >= 0)
                {
                    hasBranch |= Opens(run.Run.Legs[l].To);
                }
            }
        }
    }

    private static bool Opens(WorkPoint point) => point is TeePoint or OutletPoint or StubInPoint;
}
