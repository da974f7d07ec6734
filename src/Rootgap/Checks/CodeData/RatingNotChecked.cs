using Rootgap.Fabricating;
using Rootgap.Findings;
using Rootgap.Standards;

namespace Rootgap.Checks;

/// <summary>A pressure that no table here can be held against: told, so that silence is not taken for a check.</summary>
internal sealed class RatingNotChecked : Rule
{
    public override string Name => "rating-not-checked";
    public override Severity Severity => Severity.Note;
    public override string Says => "A pressure is given, and the tables here have no rating for a flange's material or class at its temperature.";
    public override string Why => "ASME B16.5 Table 1A names a group for each material, and each group has its ratings up to a last temperature. What is not in the tables here is not checked.";

    public override IEnumerable<Finding> Check(Fabrication fabrication)
    {
        var service = fabrication.Route.Drawing.Service;
        var key = ServiceFigures.Bar(service.DesignPressure) is not null ? "design pressure" : ServiceFigures.Bar(service.TestPressure) is not null ? "test pressure" : null;
        if (key is null)
            yield break;
        var temperature = ServiceFigures.Celsius(service.DesignTemperature) ?? Ratings.Ambient;
        foreach (var (flange, material, group) in ServiceFigures.Kinds(fabrication.Route))
        {
            var @class = flange.Line.Class;
            if (group is null)
            {
                yield return Found(service.Source, key, $"The pressure is not checked against class {@class} of {material}: the tables here know no rating group for it.",
                    "Look the rating up in ASME B16.5 Table 1A and the table of its group.");
            }
            else if (Ratings.Of(group, @class, temperature, fabrication.Units) is null)
            {
                yield return Found(service.Source, key, Say(fabrication.Units, $"The pressure is not checked against class {@class} of {(material.Length > 0 ? material : "carbon steel")} (group {group}) at {temperature:celsius}: the tables here have no such rating."),
                    $"Look the rating up in ASME B16.5 Table 2-{group}.");
            }
        }
    }
}
