using System.Globalization;
using System.Text.RegularExpressions;
using Rootgap.Drawings;
using Rootgap.Findings;
using Rootgap.Routes;

namespace Rootgap.Checks;

/// <summary>A soft gasket where it is too hot, too cold or pressed too hard.</summary>
internal sealed partial class GasketMaterial : ItemRule
{
    /// <summary>Words of a list, the greatest class, and the coldest and hottest temperature, C (common practice; the gasket maker's sheet decides).</summary>
    private static readonly (string[] Words, int Class, double Cold, double Hot)[] Soft =
    [
        (["rubber", "EPDM", "NBR", "neoprene", "FKM"], 150, -30, 130),
        (["PTFE"], 300, -200, 230),
        (["fibre", "fiber", "sheet"], 300, -100, 400),
    ];

    /// <summary>The greatest class for a flat gasket whose material nobody names (common practice: sheet).</summary>
    private const int Unnamed = 300;

    public override string Name => "gasket-material";
    public override Severity Severity => Severity.Warn;
    public override string Says => "A rubber gasket is listed above class 150, under -30 C or over 130 C, a PTFE one above class 300 or over 230 C, one of sheet or fibre above class 300 or over 400 C, or a flat one above class 300 without a word on its material.";
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
            var pressed = int.TryParse(use.Line.Class, NumberStyles.None, CultureInfo.InvariantCulture, out var @class) && @class > most && !isWound ? $" in class {use.Line.Class}" : "";
            var warmed = ServiceFigures.Celsius(route.Drawing.Service.DesignTemperature) is { } celsius && (celsius < cold || celsius > hot) ? Say(route.Drawing.Units, $" at {celsius:celsius}") : "";
            if (pressed.Length + warmed.Length > 0)
                return $"a soft gasket{pressed}{warmed}";
        }

        return item.Material.Length == 0 && Flat().IsMatch(item.What) && int.TryParse(use.Line.Class, NumberStyles.None, CultureInfo.InvariantCulture, out var high) && high > Unnamed ? $"a flat gasket in class {use.Line.Class}, and its material is not said" : null;
    }

    /// <summary>Flat, and no word behind or before it that names a material or another kind.</summary>
    [GeneratedRegex("^\\s*(?:flat gasket|gasket,? flat(?: ring)?)(?:,? (?:RF|raised face|ring))?\\s*$", RegexOptions.CultureInvariant | RegexOptions.IgnoreCase | RegexOptions.ExplicitCapture, matchTimeoutMilliseconds: 1000)]
    private static partial Regex Flat();
}
