using System.Text.RegularExpressions;
using Rootgap.Fabricating;
using Rootgap.Findings;

namespace Rootgap.Checks;

/// <summary>Oil or grease spoken of in an oxygen line.</summary>
internal sealed partial class OilInOxygen : Rule
{
    public override string Name => "oil-in-oxygen";
    public override Severity Severity => Severity.Stop;
    public override string Says => "The line carries oxygen, and its line data or a note of a leg speak of oil, grease or a preserving film.";
    public override string Why => "Oil and grease burn of themselves in oxygen under pressure, and the line with them (common practice; ASTM G93 and CGA G-4.1 have the cleaning, from memory). The words were copied from another line. Cleaning for oxygen is done and signed by those who are qualified for it.";

    public override IEnumerable<Finding> Check(Fabrication fabrication)
    {
        var drawing = fabrication.Route.Drawing;
        var service = drawing.Service;
        if (!IsOxygen(service.Fluid))
            yield break;
        foreach (var (key, text) in new[] { ("cleanliness", service.Cleanliness), ("paint", service.Paint), ("heat treatment", service.HeatTreatment), ("lining", service.Lining) })
        {
            if (Speaks(text))
                yield return Found(service.Source, key, $"The line carries {service.Fluid}, and its {key} is \"{text}\".", "Ask the engineer for the cleaning of oxygen lines.", "Oil in an oxygen line burns.");
        }

        foreach (var leg in drawing.Runs.SelectMany(r => r.Legs).Where(l => Speaks(l.Note)))
            yield return Found(leg.Source, "note", $"The line carries {service.Fluid}, and the note says \"{leg.Note}\".", "Ask the engineer for the cleaning of oxygen lines.", "Oil in an oxygen line burns.");
    }

    /// <summary>Oxygen itself: "oxygen-free nitrogen" and water without oxygen are not.</summary>
    private static bool IsOxygen(string fluid) => Oxygen().IsMatch(fluid) && !Without().IsMatch(fluid);

    private static bool Speaks(string text) => text.Length > 0 && Oil().IsMatch(Free().Replace(text, ""));

    [GeneratedRegex(@"\b(?:oxygen|GOX|LOX)\b", RegexOptions.CultureInvariant | RegexOptions.IgnoreCase, matchTimeoutMilliseconds: 1000)]
    private static partial Regex Oxygen();

    [GeneratedRegex(@"\b(?:oxygen[- ](?:free|scaveng\w*)|de-?oxygenated|without oxygen|low oxygen)\b", RegexOptions.CultureInvariant | RegexOptions.IgnoreCase, matchTimeoutMilliseconds: 1000)]
    private static partial Regex Without();

    /// <summary>What is free of oil speaks of it too.</summary>
    [GeneratedRegex(@"\b(?:(?:free (?:of|from)|without|no|remove[sd]?|removing)\s+(?:all\s+)?(?:oil|grease)(?:(?:\s+(?:and|or)\s+|/)(?:oil|grease))?|(?:oil|grease)(?:(?:\s+(?:and|or)\s+|/)(?:oil|grease))?[- ]?free|degreas\w*)\b", RegexOptions.CultureInvariant | RegexOptions.IgnoreCase, matchTimeoutMilliseconds: 1000)]
    private static partial Regex Free();

    [GeneratedRegex(@"\b(?:oil(?:ed|s|y)?|greas\w*|preservative|preserved)\b", RegexOptions.CultureInvariant | RegexOptions.IgnoreCase, matchTimeoutMilliseconds: 1000)]
    private static partial Regex Oil();
}
