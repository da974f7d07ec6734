using Rootgap.Drawings;
using Rootgap.Fabricating;
using Rootgap.Findings;
using Rootgap.Measure;

namespace Rootgap.Checks;

/// <summary>Lined pipe that is welded at site.</summary>
internal sealed class LiningBurnt : Rule
{
    /// <summary>Linings that are made good by hand at a weld.</summary>
    private static readonly string[] MadeGood = ["cement", "concrete", "mortar", "refractory"];

    public override string Name => "lining-burnt";
    public override Severity Severity => Severity.Warn;
    public override string Says => "The service names a lining, and pipe is welded at site: a note for cement and the like, which is made good by hand.";
    public override string Why => "Spools are lined after their last weld, and rubber, plastic and glass burn at the next one: such lines are flanged spool by spool (common practice).";

    public override IEnumerable<Finding> Check(Fabrication fabrication)
    {
        var service = fabrication.Route.Drawing.Service;
        if (!service.IsLined)
            yield break;
        var welds = fabrication.Route.Joints.Where(j => j.IsWeld && j.Place != WeldPlace.Shop).Concat(fabrication.Route.Attachments.Where(a => a.Place != WeldPlace.Shop)).Select(j => j.Id).ToList();
        if (welds.Count == 0)
            yield break;
        var isMadeGood = Array.Exists(MadeGood, w => service.Lining.Contains(w, StringComparison.OrdinalIgnoreCase));
        yield return Found(service.Source, "lining", $"The line is lined ({service.Lining}), and {string.Join(", ", welds.Take(3))}{(welds.Count > 3 ? $" and {welds.Count - 3} more" : "")} {(welds.Count == 1 ? "is" : "are")} welded at site.",
            isMadeGood ? "Ask how the lining is made good there." : "Ask whether the spools are flanged, or the lining is another line's.", isMadeGood ? "" : "The lining burns at the weld, and the pipe rots there.", isMadeGood ? Severity.Note : Severity.Warn);
    }
}
