using Rootgap.Fabricating;
using Rootgap.Findings;

namespace Rootgap.Checks;

/// <summary>Design pressure above what the flange class is rated for.</summary>
internal sealed class DesignPressureOverClass : Rule
{
    private const double Ambient = 38;

    public override string Name => "design-pressure-over-class";
    public override Severity Severity => Severity.Warn;
    public override string Says => "The design pressure is more than the rating of the drawing's lowest flange class at the design temperature (carbon steel, group 1.1).";
    public override string Why => "ASME B16.5 Table 2-1.1. The class, the pressure or the temperature is written wrong, or the flanges are: the engineer decides.";

    public override IEnumerable<Finding> Check(Fabrication fabrication)
    {
        var service = fabrication.Route.Drawing.Service;
        if (ServiceFigures.Bar(service.DesignPressure) is not { } pressure || ServiceFigures.WeakestFlange(fabrication.Route) is not { } flange)
            yield break;
        var temperature = ServiceFigures.Celsius(service.DesignTemperature) ?? Ambient;
        if (ServiceFigures.Rating(flange.Line.Class, temperature) is not { } rating || pressure <= rating + 0.05)
            yield break;
        yield return Found(service.Source, "design pressure", Say($"Design pressure {service.DesignPressure} is {pressure:0.#} bar; class {flange.Line.Class} carries {rating:0.#} bar at {temperature:0} C: {pressure - rating:0.#} bar over."),
            "Ask the engineer: the class or the service is wrong.", "The flanges leak, or worse.");
    }
}
