using System.Globalization;
using System.Text.RegularExpressions;
using Rootgap.Drawings;
using Rootgap.Fabricating;
using Rootgap.Findings;
using Rootgap.Routes;

namespace Rootgap.Checks;

/// <summary>The office's weld numbers: one twice, or one left out.</summary>
internal sealed partial class WeldNumberTwice : Rule
{
    public override string Name => "weld-number-twice";
    public override Severity Severity => Severity.Stop;
    public override string Says => "A weld number of the office stands at two welds; a weld without one, where all but a few have theirs, is a note; so is one number that their row leaps over.";
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

        // Of a drain or vent in one row only the first weld has a place for its number.
        var pressure = route.Joints.Where(j => j.IsWeld && !route.Runs[j.Run].Run.IsOfOneRow).ToList();
        var without = pressure.Where(j => j.Office.Length == 0).ToList();
        if (without.Count == 0 && LeptOver(route.Drawing, [.. welds.Where(j => j.Office.Length > 0)]) is (var number, var after))
            yield return Found(after.Source, after.Source.Has("end number") ? "end number" : "begin number", $"Weld number {number} stands at no weld, and {after.Office} comes next.", "Look whether a weld was left out or its number misread; a number that was given up is no harm.", severity: Severity.Note);
        if (without.Count == 0 || without.Count == pressure.Count || pressure.Count - without.Count < pressure.Count * Nearly)
            yield break;
        foreach (var joint in without)
            yield return Found(joint.Source, "to", $"{joint.Id} has no weld number of the office; {pressure.Count - without.Count} of {pressure.Count} welds have theirs.", "Add `end number:` or `begin number:` from the drawing.", severity: Severity.Note);
    }

    /// <summary>Fewer numbers make no row.</summary>
    private const int Row = 5;

    /// <summary>The one number that is missing in a row of numbers, and the weld behind it; null where none or several are, or where another sheet may have them.</summary>
    private static (string Number, Joint After)? LeptOver(Drawing drawing, IReadOnlyList<Joint> welds)
    {
        if (welds.Count < Row || drawing.Runs.Any(r => r.Start.Source.Has("continues") || r.Legs.Any(l => l.Source.Has("continues"))))
            return null;
        var numbers = welds.Select(j => (Joint: j, Match: Figures().Match(j.Office))).ToList();
        if (numbers.Any(n => !n.Match.Success || n.Match.Groups["letters"].Value != numbers[0].Match.Groups["letters"].Value))
            return null;
        var sorted = numbers.Select(n => (n.Joint, Figure: int.Parse(n.Match.Groups["figures"].Value, CultureInfo.InvariantCulture), Wide: n.Match.Groups["figures"].Length)).OrderBy(n => n.Figure).ToList();
        if (sorted[^1].Figure - sorted[0].Figure != sorted.Count)
            return null;
        var i = Enumerable.Range(1, sorted.Count - 1).FirstOrDefault(i => sorted[i].Figure - sorted[i - 1].Figure == 2);
        return i == 0 ? null : (numbers[0].Match.Groups["letters"].Value + (sorted[i].Figure - 1).ToString(CultureInfo.InvariantCulture).PadLeft(sorted[i - 1].Wide, '0'), sorted[i].Joint);
    }

    /// <summary>Letters first, figures last, as W-07.</summary>
    [GeneratedRegex("^(?<letters>.*?)(?<figures>\\d{1,6})$", RegexOptions.CultureInvariant | RegexOptions.ExplicitCapture, matchTimeoutMilliseconds: 1000)]
    private static partial Regex Figures();
}
