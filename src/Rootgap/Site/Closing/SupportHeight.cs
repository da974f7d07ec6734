using Rootgap.Measure;
using Rootgap.Routes;

namespace Rootgap.Site.Closing;

/// <summary>Elevation of a pipe's underside at a support, mm: as it is found, and after a body has been moved.</summary>
internal sealed record SupportHeight(Support Support, double Before, double After)
{
    /// <summary>Of the supports on a body's pipes. The body goes as a whole: what its ends deviate does not reach its middle.</summary>
    public static IEnumerable<SupportHeight> Of(LineClosing closing, Moved moved, SiteBody body)
    {
        if (body.Spool is not { } spool)
            yield break;
        var (shift, turn, _) = closing.Adjustment.PoseOf(body);
        var found = Motion.About(body.Reference, shift, turn);
        foreach (var support in closing.Adjustment.Line.Fabrication.Route.Supports.Where(s => spool.Cuts.Any(c => c.Pipe.Id == s.Pipe)))
            yield return new(support, Underside(support, found), Underside(support, moved.Motion.After(found)));

        static double Underside(Support support, Motion motion)
        {
            var (at, along) = (motion.Of(support.At), motion.Of(support.Along));
            return at.Z - (support.Outside / 2 * Math.Sqrt(Math.Max(0, 1 - (along.Z * along.Z))));
        }
    }
}
