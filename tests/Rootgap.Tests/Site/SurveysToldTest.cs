using System.Text;
using Rootgap.Measure;
using Rootgap.Site;
using Rootgap.Site.Closing;
using Rootgap.Site.Surveys;
using Rootgap.Tests.Samples;

namespace Rootgap.Tests.Site;

/// <summary>What survey files say and what is said of them, the good and the bad, word for word: <c>Told/surveys.txt</c>.</summary>
public class SurveysToldTest
{
    private static readonly SiteLine Line = SiteLine.Of(SampleFile.Clean.Single(s => s.Name == "chilled-supply").Packet().Fabrication);

    [Fact]
    [Trait("pace", "slow")]
    public void Each_survey_is_read_as_it_was_accepted() => Accepted.Told("surveys", text =>
    {
        var name = text.StartsWith("point,", StringComparison.Ordinal) || text.StartsWith("tape,", StringComparison.Ordinal) ? "survey.csv" : "survey.yaml";
        var (survey, errors) = SurveyReading.Read(Line, name, Encoding.UTF8.GetBytes(text), file => file == "points.csv" ? "point,at,east\nlip 12,W15 of 4,4620\n"u8.ToArray() : null);
        return errors.Select(Accepted.Line).Concat(errors.Count > 0 ? [] : Said(survey));
    });

    private static IEnumerable<string> Said(Survey s)
    {
        yield return Text($"  {s.Title}; {s.Drawing} {s.Revision}; {s.By}; {s.When}; steel {s.Steel:0.###}; expansion {s.Expansion}; total station {s.TotalStation}; {s.Frame}; others {s.Others}");
        yield return $"  standing {string.Join(", ", s.Standing.Select(p => $"{p.Key} {p.Value}"))}; made {string.Join(' ', s.Made)}; loose {string.Join(' ', s.Loose)}; held {string.Join(", ", s.Held)}";
        yield return $"  stands out {string.Join(", ", s.StandsOut.Select(p => Text($"{p.Key} {p.Value}")))}; may move {string.Join(", ", s.Limits.Select(p => Text($"{p.Key} {p.Value.East} {p.Value.North} {p.Value.Up} {p.Value.Turn:0.####}")))}";
        foreach (var pipe in s.Existing)
            yield return Text($"  existing {pipe.End.Name}: outside {pipe.Outside:0.###}, oval {pipe.Ovality:0.###}, wall {pipe.Wall:0.###}, spring {pipe.Spring:0.###}");
        foreach (var (end, (off, sd)) in s.AsBuilt)
            yield return $"  as built {end}: {string.Join(' ', Enumerable.Range(0, 6).Select(i => Text($"{off[i]:0.#####}/{sd[i]:0.#####}")))}";
        foreach (var r in s.Readings)
            yield return Text($"  {r.Entry} {r.Reading.Says(Units.Millimetres)} | {r.Reading.Says(Units.Inches)}: {r.Value:0.#####} ± {r.Sd:0.#####}");
        foreach (var finding in LineClosing.Of(Line, s).Errors)
            yield return Accepted.Line(finding);
    }

    private static string Text(FormattableString s) => FormattableString.Invariant(s);
}
