using System.Runtime.CompilerServices;
using Rootgap.Fabricating;
using Rootgap.Findings;
using Rootgap.Site.Forecasting;

namespace Rootgap.Checks;

/// <summary>The forecast as the desk check wants it at every keystroke: first order only, and made once for all rules.</summary>
internal static class DeskForecast
{
    private static readonly ConditionalWeakTable<Fabrication, Forecast> Made = [];

    /// <summary>Null where the line cannot be built as drawn: there is nothing to forecast then.</summary>
    public static Forecast? Of(Fabrication fabrication) => fabrication.Route.Findings.Any(f => f.Severity == Severity.Stop)
        ? null
        : Made.GetValue(fabrication, static f => Forecast.Of(f, new(Draws: 0) { Chances = false }));
}
