using System.Text;
using Rootgap.Records;

namespace Rootgap.Site.Surveys;

/// <summary>The survey that the facts of a job amount to: readings as they were typed one by one, the conditions said last, ends as they were built.</summary>
/// <param name="Reading">The survey, with what of it does not fit the drawing as it is now.</param>
/// <param name="Rows">The fact of each row, in the order of the survey's entries.</param>
public sealed record RecordedSurvey(SurveyReading Reading, IReadOnlyList<SurveyRead> Rows)
{
    public static RecordedSurvey Of(SiteLine line, IEnumerable<DrawingFact> counting)
    {
        var facts = counting.ToList();
        var rows = facts.OfType<SurveyRead>().ToList();
        var head = facts.OfType<SurveySet>().LastOrDefault()?.Head ?? "";
        var text = new StringBuilder("survey: as typed\n").Append(head.Trim()).Append("\nreadings:\n");
        foreach (var row in rows)
            text.Append("  - ").Append(row.Row.ReplaceLineEndings(" ")).Append('\n');
        var reading = SurveyReading.Read(line, "survey.yaml", Encoding.UTF8.GetBytes(text.ToString()));
        var built = facts.OfType<EndAsBuilt>().Where(b => line.EndOf(b.End) is { Body.IsOutside: false }).GroupBy(b => b.End, StringComparer.Ordinal)
            .ToDictionary(g => g.Key, g => (g.Last().Off, g.Last().Sd), StringComparer.Ordinal);
        return new(reading with { Survey = reading.Survey with { AsBuilt = built.Count > 0 ? built : reading.Survey.AsBuilt } }, rows);
    }
}
