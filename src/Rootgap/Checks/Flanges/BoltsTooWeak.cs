using System.Globalization;
using Rootgap.Drawings;
using Rootgap.Fabricating;
using Rootgap.Findings;
using Rootgap.Routes;
using Rootgap.Standards;

namespace Rootgap.Checks;

/// <summary>Bolting of low strength where it does not belong.</summary>
internal sealed class BoltsTooWeak : Rule
{
    private static readonly string[] Low = ["A307", "A193B8", "A320B8", "A36"];

    /// <summary>Strain-hardened stainless bolting is of higher strength.</summary>
    private static readonly string[] Hardened = ["A193B8CL2", "A193B8CLASS2", "A193B8MCL2", "A193B8MCLASS2", "A193B82", "A193B8M2", "A193B8M3", "A320B8CL2", "A320B8CLASS2", "A320B8MCL2", "A320B8MCLASS2"];

    public override string Name => "bolts-too-weak";
    public override Severity Severity => Severity.Warn;
    public override string Says => "Bolting of low strength is listed for flanges of class 400 and above, for ring joints or for spiral wound gaskets.";
    public override string Why => "ASME B16.5 5.3.4: bolts of low strength are for classes 150 and 300 with gaskets that seat easily; they cannot hold a spiral wound gasket or a ring tight. The engineer decides.";

    public override IEnumerable<Finding> Check(Fabrication fabrication)
    {
        var materials = fabrication.Route.Drawing.Materials;
        var isWound = materials.Any(m => m.Words.Ware == Ware.Gasket && m.What.Contains("spiral", StringComparison.OrdinalIgnoreCase));
        foreach (var row in fabrication.Materials)
        {
            if (row.Item is not { Words.Ware: Ware.StudBolt, Material.Length: > 0 } item || !IsLow(item.Material))
                continue;
            // Where the row is no joint's, those of its diameter.
            var own = fabrication.Bolting.Where(b => row.UsedBy.Contains(b.Joint.Id, StringComparer.Ordinal)).ToList();
            var worst = (own.Count > 0 ? own : fabrication.Bolting.Where(b => b.Size == item.Size)).Select(b => b.Joint).MaxBy(j => int.TryParse(j.Class, CultureInfo.InvariantCulture, out var c) ? c : 0);
            if (worst is null)
                continue;
            var isHigh = int.TryParse(worst.Class, CultureInfo.InvariantCulture, out var @class) && @class > 300;
            var isRing = worst.Between.Any(id => fabrication.Route.PartOf(id)?.Line.Facing == Facing.RingJoint);
            if (isHigh || isRing || isWound)
                yield return Found(item.Source, "material", $"{item.Material} bolts at {(isHigh ? $"class {worst.Class}" : isRing ? "a ring joint" : "a spiral wound gasket")} ({worst.Id}).", Usual(fabrication.Route.Drawing), "The gasket is never pressed tight.");
        }
    }

    /// <summary>Studs of higher strength that are usual at the line's temperature (ASME B31.3 table A-2: A193-B7 to -48 C, A320-L7 to -101 C; colder, strain-hardened stainless, from memory).</summary>
    private static string Usual(Drawing drawing) => "Ask the engineer; " + (ServiceFigures.Celsius(drawing.Service.DesignTemperature) switch
    {
        < -101 => "A320-B8 class 2 studs are usual so cold.",
        < -48 => "A320-L7 studs with A194-7 nuts are usual so cold.",
        _ => "A193-B7 studs with A194-2H nuts are usual; where they must be stainless, class 2 (strain-hardened) of the same grade.",
    });

    private static bool IsLow(string material)
    {
        var plain = Metals.Plain(material);
        return Low.Any(l => plain.StartsWith(l, StringComparison.Ordinal)) && !Hardened.Any(h => plain.StartsWith(h, StringComparison.Ordinal));
    }
}
