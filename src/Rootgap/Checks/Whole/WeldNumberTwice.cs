using Rootgap.Fabricating;
using Rootgap.Findings;

namespace Rootgap.Checks;

/// <summary>The office's weld numbers: one twice, or one left out.</summary>
internal sealed class WeldNumberTwice : Rule
{
    public override string Name => "weld-number-twice";
    public override Severity Severity => Severity.Warn;
    public override string Says => "A weld number of the office stands at two welds; a weld without one, where all but a few have theirs, is a note.";
    public override string Why => "Records, films and welders' marks are kept by these numbers: two welds under one are mixed up, one without has no record (common practice).";

    /// <summary>Where at least so many of a drawing's welds have a number, one without is left out and not meant.</summary>
    private const double Nearly = 0.8;

    public override IEnumerable<Finding> Check(Fabrication fabrication)
    {
        var route = fabrication.Route;
        var welds = route.Joints.Where(j => j.IsWeld).Concat(route.Attachments).ToList();
        foreach (var same in welds.Where(j => j.Office.Length > 0).GroupBy(j => j.Office, StringComparer.OrdinalIgnoreCase).Where(g => g.Count() > 1))
        {
            foreach (var joint in same.Skip(1))
                yield return Found(joint.Source, joint.Source.Has("end number") ? "end number" : "begin number", $"Weld number {joint.Office} stands at {same.First().Id} and at {joint.Id}.", "Give each weld its own number.");
        }

        var pressure = route.Joints.Where(j => j.IsWeld).ToList();
        var without = pressure.Where(j => j.Office.Length == 0).ToList();
        if (without.Count == 0 || without.Count == pressure.Count || pressure.Count - without.Count < pressure.Count * Nearly)
            yield break;
        foreach (var joint in without)
            yield return Found(joint.Source, "to", $"{joint.Id} has no weld number of the office; {pressure.Count - without.Count} of {pressure.Count} welds have theirs.", "Add `end number:` or `begin number:` from the drawing.", severity: Severity.Note);
    }
}
