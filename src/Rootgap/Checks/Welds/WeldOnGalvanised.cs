using Rootgap.Drawings;
using Rootgap.Fabricating;
using Rootgap.Findings;
using Rootgap.Routes;

namespace Rootgap.Checks;

/// <summary>A site weld in a line that is galvanised after it is made.</summary>
internal sealed class WeldOnGalvanised : Rule
{
    public override string Name => "weld-on-galvanised";
    public override Severity Severity => Severity.Warn;
    public override string Says => "The line is hot-dip galvanised by its paint, and a weld of it is made at site; a note where that weld is final-fit.";
    public override string Why => "The weld burns the zinc off inside and out, where nobody can mend it, and its fumes are poisonous (ISO 1461 lets bare spots be mended on the outside only in small areas, from memory). Such lines are flanged or threaded at site; welding on zinc wants the qualified procedure and breathing protection.";

    public override IEnumerable<Finding> Check(Fabrication fabrication)
    {
        if (!IsGalvanised(fabrication.Route))
            yield break;
        foreach (var isFinal in (bool[])[false, true])
        {
            var welds = fabrication.Route.Joints.Where(j => j.Kind is JointKind.Butt or JointKind.Socket && j.Place == (isFinal ? WeldPlace.FinalFit : WeldPlace.Field)).ToList();
            if (welds.Count > 0)
                yield return Found(welds[0].Source, welds[0].Source.Has("end") ? "end" : "to", $"{(welds.Count == 1 ? $"{welds[0].Id} is a weld" : Say($"{welds[0].Id} and {welds.Count - 1} more are welds"))} made at site, and the line is galvanised ({fabrication.Route.Drawing.Service.Paint}).",
                    "Ask for flanges there, or how the zinc is mended.", "The zinc burns off, and the line rusts from within.", isFinal ? Severity.Note : null);
        }
    }

    /// <summary>Whether the line is galvanised when it is made, by its paint.</summary>
    public static bool IsGalvanised(Route route) => route.Drawing.Service.Paint.Contains("galvani", StringComparison.OrdinalIgnoreCase);
}
