using System.Globalization;
using Rootgap.Drawings;
using Rootgap.Findings;
using Rootgap.Routes;

namespace Rootgap.Checks;

/// <summary>A soft gasket where it is too hot, too cold or pressed too hard.</summary>
internal sealed class GasketMaterial : ItemRule
{
    /// <summary>Words of a list, the greatest class, and the coldest and hottest temperature, C (common practice; the gasket maker's sheet decides).</summary>
    private static readonly (string[] Words, int Class, double Cold, double Hot)[] Soft =
    [
        (["rubber", "EPDM", "NBR", "neoprene", "FKM"], 150, -30, 130),
        (["PTFE"], 300, -200, 230),
    ];

    public override string Name => "gasket-material";
    public override Severity Severity => Severity.Warn;
    public override string Says => "A rubber gasket is listed above class 150, under -30 C or over 130 C, or a PTFE one above class 300 or over 230 C.";
    public override string Why => "Soft sheet is blown out, creeps or hardens (common practice; the gasket maker's sheet decides). Of a spiral-wound gasket with a soft filler the temperature alone counts.";
    protected override string Key => "what";
    protected override string LegKey => "";
    protected override string Otherwise => "The joint leaks in service.";

    private protected override string? Against(MaterialItem item, in ItemUse use, Route route)
    {
        if (use.Part is not Gasket)
            return null;
        var isWound = item.What.Contains("spiral", StringComparison.OrdinalIgnoreCase);
        foreach (var (words, most, cold, hot) in Soft)
        {
            // A soft filler between metal windings: the metal bears the pressure, the heat spoils the filler all the same.
            if (!words.Any(w => item.What.Contains(w, StringComparison.OrdinalIgnoreCase) || item.Material.Contains(w, StringComparison.OrdinalIgnoreCase)))
                continue;
            if (int.TryParse(use.Line.Class, NumberStyles.None, CultureInfo.InvariantCulture, out var @class) && @class > most && !isWound)
                return $"a soft gasket in class {use.Line.Class}";
            if (ServiceFigures.Celsius(route.Drawing.Service.DesignTemperature) is { } celsius && (celsius < cold || celsius > hot))
                return Say(route.Drawing.Units, $"a soft gasket at {celsius:celsius}");
        }

        return null;
    }
}
