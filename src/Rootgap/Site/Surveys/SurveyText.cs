using System.Globalization;
using System.Text;
using Rootgap.FitUp;
using Rootgap.Measure;

namespace Rootgap.Site.Surveys;

/// <summary>Writes a survey file.</summary>
public static class SurveyText
{
    private const int MostPlanned = 10;

    /// <summary>
    /// A survey to begin with: what the drawing says was surveyed (<c>at:</c> on a leg) as readings, and for each final-fit weld the readings that tell most,
    /// to be filled in.
    /// </summary>
    public static string Begin(SiteLine line, Survey survey)
    {
        var drawing = line.Fabrication.Route.Drawing;
        var text = new StringBuilder();
        text.Append(CultureInfo.InvariantCulture, $"survey: {drawing.Number}, to be filled in\ndrawing: {drawing.Number}\n");
        if (drawing.Revision.Length > 0)
            text.Append(CultureInfo.InvariantCulture, $"revision: {drawing.Revision}\n");
        text.Append("by:\nwhen:\nsteel: 20 C                      # of the steel while measuring\n");
        text.Append("# Bodies: ").AppendJoin(", ", line.Bodies.Select(b => b.Name)).Append('\n');
        text.Append("# Joints made at site: ").AppendJoin(", ", line.Joints.Select(j => j.Id)).Append("; what is welded out or bolted tight: made: [...], finger-tight or tacked: loose: [...]\n");
        text.Append("readings:\n");
        var surveyed = AtLegs(line).ToList();
        if (surveyed.Count > 0)
            text.Append("  # places that the drawing gives (at:), taken as surveyed; take out what was not\n");
        foreach (var (end, at) in surveyed)
            text.Append(CultureInfo.InvariantCulture, $"  - {{point: centre, at: {end.Name}, east: {at.X:0.##}, north: {at.Y:0.##}, up: {at.Z:0.##}}}\n");
        foreach (var joint in line.FinalFits.Where(j => j.Long is not null))
        {
            text.Append(CultureInfo.InvariantCulture, $"  # for {joint.Id}, what tells most first: write the figure and take the # away\n");
            foreach (var planned in SurveyPlan.Of(line, survey, joint, MostPlanned))
                text.Append(CultureInfo.InvariantCulture, $"  # - {ReadingText.Line(planned.Reading, null)}\n");
        }

        return text.ToString();
    }

    /// <summary>The keys of a survey but its readings, as a file writes them; read again they say the same.</summary>
    public static string Head(Survey survey)
    {
        var text = new StringBuilder();
        text.Append(CultureInfo.InvariantCulture, $"steel: {survey.Steel:0.##} C\n");
        if (survey.Expansion is { } expansion)
            text.Append(CultureInfo.InvariantCulture, $"expansion: {expansion}\n");
        if (survey.TotalStation)
            text.Append("instrument: total station\n");
        if (survey.Frame != SurveyFrame.Plant)
            text.Append(CultureInfo.InvariantCulture, $"frame: {(survey.Frame == SurveyFrame.Levelled ? "levelled" : "free")}\n");
        if (survey.Others != Known.Near)
            text.Append(CultureInfo.InvariantCulture, $"other: {WordOf(survey.Others)}\n");
        Map("standing", survey.Standing.Select(s => $"{s.Key}: {WordOf(s.Value)}"));
        List("made", survey.Made);
        List("loose", survey.Loose);
        List("held", survey.Held);
        Map("stands out", survey.StandsOut.Select(s => FormattableString.Invariant($"{s.Key}: {s.Value:0.##}")));
        Map("may move", survey.Limits.Select(m => $"{m.Key}: {{{string.Join(", ", Limits(m.Value))}}}"));
        if (survey.Existing.Count > 0)
            text.Append("existing:\n").AppendJoin('\n', survey.Existing.Select(e => "  - " + Existing(e))).Append('\n');
        return text.ToString();

        void List(string key, IReadOnlyList<string> words)
        {
            if (words.Count > 0)
                text.Append(CultureInfo.InvariantCulture, $"{key}: [{string.Join(", ", words)}]\n");
        }

        void Map(string key, IEnumerable<string> entries)
        {
            if (string.Join(", ", entries) is { Length: > 0 } all)
                text.Append(CultureInfo.InvariantCulture, $"{key}: {{{all}}}\n");
        }
    }

    /// <summary>Ends as built, as a survey file writes them.</summary>
    public static string AsBuilt(IReadOnlyDictionary<string, (PoseError Off, PoseError Sd)> ends)
    {
        var text = new StringBuilder("as built:\n");
        foreach (var (name, (off, sd)) in ends)
            text.Append(CultureInfo.InvariantCulture, $"  {name}: {{{Six(off)}, sd: {{{Six(sd)}}}}}\n");
        return text.ToString();

        static string Six(PoseError e) => string.Join(", ", PoseError.Names.Select((name, i) => FormattableString.Invariant($"{name}: {(i < 3 ? e[i] : Angles.ToDegrees(e[i])) + 0.0:0.###}")));
    }

    /// <summary>How far a body is known, as a survey file says it.</summary>
    public static string WordOf(Known known) => known switch { Known.Drawn => "drawn", Known.Far => "far", _ => "near" };

    private static IEnumerable<string> Limits(MayMove may)
    {
        if (may.East is { } east)
            yield return FormattableString.Invariant($"east: {east:0.##}");
        if (may.North is { } north)
            yield return FormattableString.Invariant($"north: {north:0.##}");
        if (may.Up is { } up)
            yield return FormattableString.Invariant($"up: {up:0.##}");
        if (may.Turn is { } turn)
            yield return FormattableString.Invariant($"turn: {Angles.ToDegrees(turn):0.###}");
    }

    private static string Existing(ExistingPipe pipe)
    {
        var keys = new List<string> { $"at: {pipe.End.Name}" };
        if (pipe.Girth is { } girth)
            keys.Add(FormattableString.Invariant($"girth: {girth:0.##}"));
        if (pipe.Across is var (up, level))
            keys.Add(FormattableString.Invariant($"across: [{up:0.##}, {level:0.##}]"));
        if (pipe.Walls.Count > 0)
            keys.Add($"wall: {{{string.Join(", ", pipe.Walls.Select(w => FormattableString.Invariant($"\"{Clock.Text(w.Clock)}\": {w.Wall:0.##}")))}}}");
        if (pipe.Punch is var (before, after))
            keys.Add(FormattableString.Invariant($"punch: [{before:0.##}, {after:0.##}]"));
        return $"{{{string.Join(", ", keys)}}}";
    }

    /// <summary>
    /// Places that the drawing writes beside legs, as surveyed centres: of the contact face at a run's end, the thing outside that it mates with.
    /// A place of a work point that cannot be touched (an elbow's) is none.
    /// </summary>
    public static IEnumerable<(SiteEnd End, Point At)> AtLegs(SiteLine line)
    {
        var route = line.Fabrication.Route;
        foreach (var (run, i) in route.Runs.Select((r, i) => (r, i)))
        {
            foreach (var leg in run.Run.Legs)
            {
                if (leg.At is not { } at)
                    continue;
                var joint = line.Joints.FirstOrDefault(j => j.Joint.Run == i && j.Joint.Leg == leg.Index && j.Sides.Any(e => e.Body.IsOutside));
                if (joint?.Sides.First(e => e.Body.IsOutside) is not { } outside)
                    continue;
                // The place is that of our own contact face; the mate's stands one gasket or gap beyond.
                var own = joint.Across(outside);
                yield return (outside, at + (outside.Face - own.Face));
            }
        }
    }
}
