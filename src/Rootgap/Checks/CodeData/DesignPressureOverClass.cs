using Rootgap.Fabricating;
using Rootgap.Findings;
using Rootgap.Standards;

namespace Rootgap.Checks;

/// <summary>Design pressure above what the flange class is rated for.</summary>
internal sealed class DesignPressureOverClass : Rule
{
    public override string Name => "design-pressure-over-class";
    public override Severity Severity => Severity.Warn;
    public override string Says => "The design pressure is more than the rating of the drawing's weakest flange at the design temperature, by its class and the group of its material; a note at flanges that stand apart from those of the highest class and end open, as the outlet of a relief valve.";
    public override string Why => "ASME B16.5 Tables 1A and 2-1.1 to 2-2.3. The class, the pressure or the temperature is written wrong, or the flanges are: the engineer decides.";

    public override IEnumerable<Finding> Check(Fabrication fabrication)
    {
        var service = fabrication.Route.Drawing.Service;
        var temperature = ServiceFigures.Celsius(service.DesignTemperature) ?? Ratings.Ambient;
        if (ServiceFigures.Bar(service.DesignPressure) is not { } pressure)
            yield break;
        if (ServiceFigures.WeakestLeftOut(fabrication.Route, temperature) is var (open, _, carries) && pressure > carries + 0.05)
            yield return Found(open.Source, "to", Say(fabrication.Units, $"These flanges of class {open.Line.Class} stand apart from the rest and end open: they are not held against the design pressure of {service.DesignPressure.Trim()}, of which they carry {carries:bar}."), "See that nothing can shut them in.", severity: Severity.Note);
        if (ServiceFigures.Weakest(fabrication.Route, temperature) is not var (flange, material, rating) || pressure <= rating + 0.05)
            yield break;
        var said = Say(fabrication.Units, $"{pressure:bar}");
        var written = service.DesignPressure.Trim();
        yield return Found(service.Source, "design pressure", Say(fabrication.Units, $"Design pressure {(written == said ? said : $"{written} ({said})")}; class {flange.Line.Class}{(material.Length > 0 ? " of " + material : "")}{ServiceFigures.Where(fabrication.Route, flange)} carries {rating:bar} at {temperature:celsius}: {pressure - rating:bar} over."),
            "Ask the engineer: the class or the service is wrong.", "The flanges leak, or worse.");
    }
}
