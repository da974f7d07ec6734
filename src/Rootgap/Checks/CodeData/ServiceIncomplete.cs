using Rootgap.Drawings;
using Rootgap.Fabricating;
using Rootgap.Findings;

namespace Rootgap.Checks;

/// <summary>The service block lacks what the shop needs to know.</summary>
internal sealed class ServiceIncomplete : Rule
{
    public override string Name => "service-incomplete";
    public override Severity Severity => Severity.Warn;
    public override string Says => "The drawing has no service, or its service lacks the code, the design pressure or the design temperature; a warning where its fluid is left blank, or where it names a design pressure and nothing says what the pipe is made of.";
    public override string Why => "Class, wall and examination cannot be held against the service (common practice: the title block has them). The engineer decides.";

    public override IEnumerable<Finding> Check(Fabrication fabrication)
    {
        var drawing = fabrication.Route.Drawing;
        var service = drawing.Service;
        if (!drawing.Source.Has("service"))
        {
            yield return Found(drawing.Source, "drawing", "The drawing does not say what service the line is for.", "Add `service:` with fluid, design pressure, design temperature and code.", severity: Severity.Note);
            yield break;
        }

        if (service.Source.Text("fluid") is { } said && said.Trim().Length == 0)
            yield return Found(service.Source, "fluid", "The service has a fluid, and nothing is written there.", "Write it from the line list: what the line carries decides cleaning, cautions and tests.", severity: Severity.Warn);

        if (service.DesignPressure.Length > 0 && drawing.Runs.SelectMany(r => r.Legs).All(l => l.Line.Material.Length == 0) && !drawing.Materials.Any(m => m.Words.Ware == Ware.Pipe && m.Material.Length > 0))
            yield return Found(drawing.Source, "line", "Neither the line nor the material list says what the pipe is made of.", "Add `material:` to `line:` from the pipe class.", "Ratings, masses and welding are reckoned as for carbon steel.", severity: Severity.Warn);

        List<string> missing = [];
        if (service.Code.Length == 0)
            missing.Add("code");
        if (service.DesignPressure.Length == 0)
            missing.Add("design pressure");
        if (service.DesignTemperature.Length == 0)
            missing.Add("design temperature");
        if (missing.Count > 0)
            yield return Found(drawing.Source, "service", $"The service has no {string.Join(", no ", missing)}.", "Add it from the line list.", severity: Severity.Note);
    }
}
