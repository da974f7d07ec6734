using Rootgap.Drawings;
using Rootgap.Measure;
using Rootgap.Routes;
using Rootgap.Standards;

namespace Rootgap.Fabricating;

/// <summary>Mass of a flange from its dimensions: the plate, the hub, less the bore and the bolt holes (ASME B16.5 dimensions).</summary>
internal static class FlangeWeight
{
    /// <summary>
    /// Slip-on flanges against the volume of their least dimensions: the published list runs 4 to 13 % above it in classes 150 and 300, as they are made to
    /// the plus side and with fillets; welding-neck flanges, with more of their mass in the hub, come out on the mean of two lists.
    /// </summary>
    private const double SlipOnShare = 1.06;

    public static (double Kg, string Source)? Of(Component c, double bore, double density)
    {
        var @class = c.Line.Class;
        double? Value(string item, string attribute) => StandardTable.Find("flanges", item, attribute, c.Size, @class: @class)?.In(Units.Millimetres);
        if (Value("flange", "outside diameter") is not { } outside || Value(c.Name, "thickness") is not { } thickness || Value(c.Name, "length through hub") is not { } through)
            return null;
        var holes = StandardTable.Find("flanges", "flange", "holes", c.Size, @class: @class)?.Figure ?? 0;
        var hole = Value("flange", "hole diameter") ?? 0;
        var raised = @class is "150" or "300" ? 0 : Value("flange", "raised face height") ?? 0;
        var raisedDiameter = Value("flange", "raised face diameter") ?? outside;
        var hub = Value(c.Name, "hub diameter") ?? bore;
        var hubEnd = c.Name == "flange WN" ? Value(c.Name, "hub diameter at weld end") ?? hub : hub;
        var opening = c.Name is "flange WN" ? bore : Pipes.OutsideDiameter(c.Size)?.In(Units.Millimetres) ?? bore;
        var plate = Disc(outside) * thickness;
        if (@class is "150" or "300")
            plate -= (Disc(outside) - Disc(raisedDiameter)) * (Value("flange", "raised face height") ?? 0);
        var hubLength = Math.Max(0, through - thickness - raised);
        var cone = Math.PI / 12 * hubLength * ((hub * hub) + (hub * hubEnd) + (hubEnd * hubEnd));
        var volume = plate + (Disc(raisedDiameter) * raised) + cone - (Disc(opening) * through) - (holes * Disc(hole) * thickness);
        var share = c.Name == "flange SO" ? SlipOnShare : 1;
        return volume > 0 ? (volume * density * share, "geometry: plate and hub less bore and holes (ASME B16.5)") : null;
    }

    private static double Disc(double diameter) => Math.PI / 4 * diameter * diameter;
}
