using Rootgap.FitUp;
using Rootgap.Measure;

namespace Rootgap.Site.Surveys;

/// <summary>What the final check of a spool found, as a survey has it: its ends as built.</summary>
public static class FinalAsBuilt
{
    /// <summary>Ends that are made at site, by name, each in its joint's axes: how far it is from the drawing seen from the end by which the spool was set, and how well that is known (mm, radians). What nothing saw
    /// is as drawn, within the tolerance of fabrication; an end of which nothing was read is left out.</summary>
    public static IReadOnlyDictionary<string, (PoseError Off, PoseError Sd)> Of(SiteLine line, FinalFound found)
    {
        var built = new Dictionary<string, (PoseError Off, PoseError Sd)>(StringComparer.Ordinal);
        foreach (var end in found.Ends)
        {
            // Nothing was read of it: it is as drawn for all that is known.
            if (end.Unseen.Count == 6)
                continue;
            var at = line.Ends.Where(e => e.Part == end.End.Part.Id && e.Normal.Dot(end.End.Normal) > 0.999).MinBy(e => (e.Face + (e.Normal * e.Extra)).To(end.End.Centre));
            if (at is null || line.JointOf(at.Joint) is not { } joint)
                continue;
            var axes = joint.Axes.At(end.End.Centre);
            var prior = JointLimits.EndOfSpool(joint);
            Vector[] own = [end.End.Three, end.End.Twelve, end.End.Normal], sites = [axes.Three, axes.Twelve, axes.Along];
            var sd = new double[6];
            for (var i = 0; i < 6; i++)
            {
                // The same axes but for their order and sign, mostly; what is read of one and another is taken as apart.
                var sum = 0.0;
                for (var k = 0; k < 3; k++)
                {
                    var share = sites[i % 3].Dot(own[k]);
                    var from = i < 3 ? k : k + 3;
                    var spread = end.Unseen.Contains(from) ? JointLimits.Spread(prior[from]) : end.Sd[from];
                    sum += share * share * spread * spread;
                }

                sd[i] = Math.Sqrt(sum);
            }

            built[at.Name] = (axes.ErrorOf(end.End.MotionOf(end.Seen)), PoseError.From(sd));
        }

        return built;
    }
}
