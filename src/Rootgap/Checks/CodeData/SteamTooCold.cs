using Rootgap.Fabricating;
using Rootgap.Findings;
using Rootgap.Standards;

namespace Rootgap.Checks;

/// <summary>Steam at a temperature at which it is water.</summary>
internal sealed class SteamTooCold : Rule
{
    /// <summary>A line's design pressure may be a little over the steam's, C.</summary>
    private const double Leeway = 10;

    public override string Name => "steam-too-cold";
    public override Severity Severity => Severity.Warn;
    public override string Says => "The line carries steam, and its design temperature is more than 10 C under that at which steam of its design pressure condenses.";
    public override string Why => "Steam of a pressure is never colder than it boils at (IAPWS-IF97): a digit of the temperature or of the pressure slipped.";

    public override IEnumerable<Finding> Check(Fabrication fabrication)
    {
        var service = fabrication.Route.Drawing.Service;
        if (!service.Fluid.Contains("steam", StringComparison.OrdinalIgnoreCase) || service.Fluid.Contains("condensate", StringComparison.OrdinalIgnoreCase))
            yield break;
        if (ServiceFigures.Bar(service.DesignPressure) is not (> 0 and var gauge) || gauge + ServiceFigures.Atmosphere >= Fluids.CriticalBar || ServiceFigures.Celsius(service.DesignTemperature) is not { } celsius)
            yield break;
        var condenses = Fluids.SteamCondenses(gauge + ServiceFigures.Atmosphere);
        if (celsius < condenses - Leeway)
            yield return Found(service.Source, "design temperature", Say(fabrication.Units, $"Steam of {service.DesignPressure} condenses at {condenses:celsius}; the line is designed for {celsius:celsius}."), "Look whether a digit slipped.", "The line gets hotter than it is reckoned for.");
    }
}
