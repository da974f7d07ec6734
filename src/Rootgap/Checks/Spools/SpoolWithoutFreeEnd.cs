using Rootgap.Drawings;
using Rootgap.Fabricating;
using Rootgap.Findings;
using Rootgap.Routes;

namespace Rootgap.Checks;

/// <summary>A spool that closes on itself, or that nothing is joined to.</summary>
internal sealed class SpoolWithoutFreeEnd : Rule
{
    public override string Name => "spool-without-free-end";
    public override Severity Severity => Severity.Note;
    public override string Says => "A spool is a ring of shop welds without a union, or has no end that joins it to anything.";
    public override string Why => "The last weld of a ring has no end that can give: what the parts are out is pulled together by force (common practice: leave one joint of a ring for site or bolt it). A spool with no end has been closed by mistake.";

    public override IEnumerable<Finding> Check(Fabrication fabrication)
    {
        var route = fabrication.Route;
        foreach (var spool in fabrication.Spools)
        {
            var parts = spool.Components.Count + spool.Cuts.Count;
            var inner = spool.Joints.Count(j => j.Between.Count == 2);
            if (inner >= parts && spool.Joints.Count > 0 && !spool.Components.Any(c => c is Union))
            {
                var last = spool.Joints[^1];
                yield return Found(last.Source, "to", $"Spool {spool.Name} closes on itself by shop welds only: {inner} welds between {parts} parts.",
                    "Leave one weld of the ring for site, or bolt it.");
            }
            else if (spool.Ends.Count == 0 && parts > 1 && !spool.Joints.Any(j => j.Between.Count == 1) && !HasOpenEnd(spool))
            {
                var row = spool.Components.Count > 0 ? spool.Components[0].Source : route.RowOf(spool.Cuts[0].Pipe.Run, spool.Cuts[0].Pipe.FirstLeg);
                yield return Found(row, "to", $"Spool {spool.Name} is joined to nothing: it has no flange, no site weld and no open end.", "Look whether a leg or a branch is missing.");
            }
        }
    }

    private static bool HasOpenEnd(Spool spool)
    {
        foreach (var cut in spool.Cuts)
        {
            if (cut.Pipe.FreeStart is not null || cut.Pipe.FreeEnd is not null)
                return true;
        }

        // A branch from which no run starts, or a fitting at which a run ends, is open.
        foreach (var c in spool.Components)
        {
            if (c.Ports.Count > spool.Joints.Count(j => j.Between.Contains(c.Id, StringComparer.Ordinal)) && c is not (Cap or Flange))
                return true;
        }

        return false;
    }
}
