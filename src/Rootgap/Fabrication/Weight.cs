using Rootgap.Drawings;
using Rootgap.Measure;
using Rootgap.Routes;
using Rootgap.Standards;

namespace Rootgap.Fabricating;

/// <summary>Masses of components, kg, by published tables where there is one, by geometry otherwise.</summary>
/// <remarks>The tables are of carbon steel in standard and extra-strong wall; other walls and steels follow in proportion.</remarks>
public static class Weight
{
    private const double StainlessSteel = 8.0e-6;

    /// <summary>Density of a pipe material, kg/mm³: 8000 kg/m³ for austenitic stainless (ASTM A312, TP3xx; common practice), else carbon steel's.</summary>
    public static double Density(string material) =>
        material.StartsWith("A312", StringComparison.OrdinalIgnoreCase) || material.Contains("TP3", StringComparison.OrdinalIgnoreCase) || material.Contains("F304", StringComparison.OrdinalIgnoreCase) || material.Contains("F316", StringComparison.OrdinalIgnoreCase)
            ? StainlessSteel
            : Pipes.CarbonSteel;

    /// <summary>Mass of a component and where the figure comes from; null where nobody knows it (a valve without the maker's sheet).</summary>
    public static (double Kg, string Source)? Of(Component c, double outside, double wall, Units units)
    {
        var density = Density(c.Line.Material);
        var perLength = Pipes.MassPerLength(outside, wall, density);
        return c.Ware switch
        {
            Ware.Elbow when c is { Radius: not null, Turn: not null } => (perLength * Path(c, outside), "geometry: a tube along the bend"),
            Ware.Tee or Ware.Cap or Ware.Reducer when FromTable(c, outside, wall, density) is { } tabled => tabled,
            Ware.Tee => (perLength * Path(c, outside) * TeeReinforcement, "geometry: two tubes, and the crotch"),
            Ware.Reducer => (perLength * Path(c, outside) * ReducerReinforcement * (1 + (c.Size2.Inches / c.Size.Inches)) / 2, "geometry: a cone with straight ends"),
            Ware.Cap => (perLength * Path(c, outside) * 1.1, "geometry: a 2:1 head"),
            Ware.Flange => FlangeWeight.Of(c, outside - (2 * wall), density),
            Ware.Outlet => (perLength * Path(c, outside) * OutletReinforcement, "estimate: twice the branch's tube"),
            Ware.Valve when c.Drawn is ValvePoint { Mass: { } stated } => (stated, "drawing"),
            Ware.Valve => StandardTable.Find("valve-mass", c.Name, "mass", c.Size, @class: c.Line.Class) is { } row ? (row.Figure, row.Source) : null,
            Ware.Gasket => null,
            _ => (perLength * Path(c, outside), "geometry: a tube"),
        };
    }

    /// <summary>A seamless tee's body against its two tubes (published weights of straight tees; see the tests).</summary>
    private const double TeeReinforcement = 1.363;

    /// <summary>A reducer's body against a plain cone: its ends run straight a little (published weights; see the tests).</summary>
    private const double ReducerReinforcement = 1.1;

    private const double Pound = 0.45359237;

    private const double OutletReinforcement = 2;

    /// <summary>Length of a component's centreline, mm: for paint, water and mass.</summary>
    public static double Path(Component c, double outside)
    {
        if (c is { Ware: Ware.Elbow, Radius: { } radius, Turn: { } turn })
            return (radius * turn) + (2 * Math.Max(0, c.Ports[0].At.To(c.WorkPoint) - (radius * Math.Tan(Math.Min(turn, 2.9) / 2))));
        var length = c.Ports.Count > 1 ? c.Ports[0].At.To(c.Ports[1].At) : c.Ports[0].At.To(c.WorkPoint);
        return c is { Ware: Ware.Tee, Ports.Count: 3 } ? length + Math.Max(0, c.Ports[2].At.To(c.WorkPoint) - (outside / 2)) : length;
    }

    private static (double, string)? FromTable(Component c, double outside, double wall, double density)
    {
        var item = c.Ware == Ware.Reducer ? "reducer" : c.Ware == Ware.Tee ? "tee" : c.Name;
        foreach (var schedule in new[] { "STD", "XS" })
        {
            if (StandardTable.Find("butt-weld-mass", item, "mass", c.Size, c.Ware == Ware.Reducer ? c.Size2 : default, schedule) is not { } row || Pipes.Wall(c.Size, schedule) is not { } listed)
                continue;
            var ratio = Pipes.MassPerLength(outside, wall, density) / Pipes.MassPerLength(outside, listed.Figure);
            if (schedule == "STD" && wall > listed.Figure + 1 && StandardTable.Find("butt-weld-mass", item, "mass", c.Size, c.Ware == Ware.Reducer ? c.Size2 : default, "XS") is not null)
                continue;
            return ((row.Mm ?? row.Inches!.Value * Pound) * ratio, Math.Abs(ratio - 1) < 0.01 ? row.Source : row.Source + "; in proportion to the wall");
        }

        return null;
    }
}
