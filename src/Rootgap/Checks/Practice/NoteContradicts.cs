using System.Globalization;
using System.Text.RegularExpressions;
using Rootgap.Drawings;
using Rootgap.Fabricating;
using Rootgap.Findings;
using Rootgap.Measure;

namespace Rootgap.Checks;

/// <summary>A leg's own note that says another slope or another way of the flow than its row.</summary>
internal sealed partial class NoteContradicts : Rule
{
    /// <summary>Slopes that differ by less are one, written otherwise: 1:100 and 1 %, 1:96 and 1/8 in. a foot.</summary>
    private const double Same = 0.05;

    public override string Name => "note-contradicts";
    public override Severity Severity => Severity.Warn;
    public override string Says => "The note of a leg names a slope that the leg does not have, or a direction of flow against its run's; that of a support says welded of a clamped one, or clamped of a welded one.";
    public override string Why => "Note and row are of two revisions, or one was typed for another leg (common practice).";

    public override IEnumerable<Finding> Check(Fabrication fabrication)
    {
        foreach (var run in fabrication.Route.Runs)
        {
            for (var i = 0; i < run.Run.Legs.Count; i++)
            {
                var leg = run.Run.Legs[i];
                if (leg.Note.Length == 0)
                    continue;
                if (Slope().Match(leg.Note) is { Success: true } slope && Math.Abs(leg.Go.Z) < Tolerance.Noise && Against(leg, slope) is { } drawn)
                    yield return Found(leg.Source, "note", $"The note says \"{leg.Note}\", and this leg {drawn}.", "See the slope on the drawing.", "Water stands in the line, or it meets nothing at its end.");
                if (leg.To is SupportPoint support && leg.Note.Length > 0 && HowHeld(leg.Note) is { } welded && welded != support.IsWelded)
                    yield return Found(leg.Source, "note", $"The note says \"{leg.Note}\", and {support.Tag} is {(support.IsWelded ? "welded on" : "clamped")}.", "See the support's drawing, and mend `attach` or the note.", support.IsWelded ? "The pipe is welded where nothing may be welded." : "A weld is missing.");
                if (run.Run.FlowsAlong is { } along && Flow().Match(leg.Note) is { Success: true } flow && Array.Find([.. Axes.Six], a => a.Word.Equals(flow.Groups["way"].Value, StringComparison.OrdinalIgnoreCase)) is { Word: not null } said
                    && run.Directions[i].Dot(said.Axis) * (along ? 1 : -1) * (flow.Groups["from"].Success ? -1 : 1) < -0.5)
                    yield return Found(leg.Source, "note", $"The note says \"{leg.Note}\", and by its `flow` run \"{run.Run.Name}\" flows the other way.", "See the flow on the drawing, and mend the run's `flow` or the note.", "Valves are put in backwards.");
            }
        }
    }

    /// <summary>What the leg has in place of the slope that its note names; null where it has that one.</summary>
    private static string? Against(Leg leg, Match said)
    {
        if (!double.TryParse(said.Groups["over"].Value, NumberStyles.Float, CultureInfo.InvariantCulture, out var over) || over <= 0)
            return null;
        if (leg.Slope == 0)
            return "is level";
        var drawn = 1 / Math.Abs(leg.Slope);
        return Math.Abs(drawn - over) > Same * over ? Say($"{(leg.Slope > 0 ? "rises" : "falls")} 1:{drawn:0.##}") : null;
    }

    /// <summary>Whether a note says that a support is welded on (true) or clamped (false); null where it says neither, or both.</summary>
    private static bool? HowHeld(string note)
    {
        var isNot = NoWeld().IsMatch(note);
        var (clamped, welded) = (isNot || note.Contains("clamped", StringComparison.OrdinalIgnoreCase), !isNot && note.Contains("welded", StringComparison.OrdinalIgnoreCase));
        return clamped == welded ? null : welded;
    }

    [GeneratedRegex(@"\b(?:no|not|never|without|un)[- ]?(?:to be )?(?:weld|welds|welding|welded)\b", RegexOptions.CultureInvariant | RegexOptions.IgnoreCase, matchTimeoutMilliseconds: 1000)]
    private static partial Regex NoWeld();

    /// <summary>Falls 1:100; slope 1 in 200.</summary>
    [GeneratedRegex(@"\b(?:slope[sd]?|falls?|falling|rises?|rising|pitch(?:ed)?)\b[^\d;,.]{0,16}\b1\s*(?:[:/]|in)\s*(?<over>\d+(?:\.\d+)?)\b", RegexOptions.CultureInvariant | RegexOptions.IgnoreCase | RegexOptions.ExplicitCapture, matchTimeoutMilliseconds: 1000)]
    private static partial Regex Slope();

    /// <summary>Flow to the west; flows north; flow from the east.</summary>
    [GeneratedRegex(@"\bflow(?:s|ing)?\s+(?:(?:to|(?<from>from))\s+)?(?:the\s+)?(?<way>north|south|east|west|up|down)(?:wards?)?\b", RegexOptions.CultureInvariant | RegexOptions.IgnoreCase | RegexOptions.ExplicitCapture, matchTimeoutMilliseconds: 1000)]
    private static partial Regex Flow();
}
