using Rootgap.Drawings;
using Rootgap.Measure;
using Rootgap.Routes;
using Rootgap.Standards;

namespace Rootgap.Fabricating;

/// <summary>Masses of components, kg, by geometry: makers' lists scatter by several per cent, and lists are not there for every wall.</summary>
/// <remarks>
/// Held against published lists in the tests: butt-weld fittings within 5 %, flanges as near as the lists agree with each other.
/// The shares by which a fitting outweighs the tube of its outline come from those lists.
/// </remarks>
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
        if (Forged(c, outside, wall, density, units) is { } forged)
            return forged;
        return c.Ware switch
        {
            Ware.Elbow when c is { Radius: not null, Turn: not null } => (perLength * Path(c, outside) * ElbowShare, "geometry: a tube along the bend"),
            Ware.Tee => (TeeShare * ((perLength * RunOf(c)) + (BranchPerLength(c, outside, wall, density, units) * BranchOf(c, outside))), "geometry: two tubes and the crotch"),
            Ware.Reducer => (perLength * Path(c, outside) * (ReducerBase + (ReducerSlope * c.Size2.Inches / c.Size.Inches)), "geometry: a tube drawn to a cone"),
            Ware.Cap => (Head(outside - wall) * wall * density + (perLength * Math.Max(0, Path(c, outside) - (outside / 4))), "geometry: a 2:1 head and its skirt"),
            Ware.Flange => FlangeWeight.Of(c, outside - (2 * wall), density),
            Ware.Outlet => (perLength * Path(c, outside) * OutletShare, "estimate: twice the branch's tube"),
            Ware.Valve when c.Drawn is ValvePoint { Mass: { } stated } => (stated, "drawing"),
            Ware.Valve => StandardTable.Find("valve-mass", c.Name, "mass", c.Size, @class: c.Line.Class) is { } row ? (row.Figure, row.Source) : null,
            Ware.Gasket => null,
            _ => (perLength * Path(c, outside), "geometry: a tube"),
        };
    }

    /// <summary>
    /// A socket-weld or threaded fitting (ASME B16.11) as a tube of its own body: round the socket by the bore and the body's wall, round the thread by the band; null for any other part.
    /// </summary>
    private static (double Kg, string Source)? Forged(Component c, double outside, double wall, double density, Units units)
    {
        if (!c.Name.StartsWith("SW ", StringComparison.Ordinal) && !c.Name.StartsWith("TH ", StringComparison.Ordinal))
            return null;
        double? Value(string attribute) => StandardTable.Find("forged", c.Name, attribute, c.Size, @class: c.Line.FittingClass)?.In(units);
        var body = Value("band diameter") ?? (Value("socket bore max") + (2 * Value("body wall")));
        if (body is not { } diameter || diameter <= outside)
            return null;
        var length = c.Ports.Sum(p => p.At.To(c.WorkPoint));
        return (Pipes.MassPerLength(diameter, (diameter - outside + (2 * wall)) / 2, density) * length, "estimate: a tube of the fitting's body (ASME B16.11)");
    }

    /// <summary>An elbow against the tube along its bend: published lists run from 0 to 5 % above it, the throat being thicker.</summary>
    private const double ElbowShare = 1.02;

    /// <summary>A seamless tee's body against its two tubes: the wall is thicker about the crotch (published factor, pipingengineer.org).</summary>
    private const double TeeShare = 1.363;

    /// <summary>
    /// A reducer against the tube of its large end, by the ratio of its ends: a published rule gives 1, 0.94, 0.91 and 0.89 for one to four sizes of reduction.
    /// </summary>
    private const double ReducerBase = 0.725;

    private const double ReducerSlope = 0.335;

    private const double OutletShare = 2;

    /// <summary>Surface of a 2:1 half ellipsoid of revolution, mm².</summary>
    private static double Head(double diameter)
    {
        var e = Math.Sqrt(0.75);
        return Math.PI / 4 * diameter * diameter * (1 + ((1 - (e * e)) / e * Math.Atanh(e)));
    }

    private static double RunOf(Component c) => c.Ports.Count > 2 && c.Drawn is TeePoint { EnterBranch: true }
        ? c.Ports[1].At.To(c.Ports[2].At)
        : c.Ports[0].At.To(c.Ports[1].At);

    /// <summary>A tee's branch from the outside of its run to its end, mm.</summary>
    private static double BranchOf(Component c, double outside) =>
        c.Ports.Count > 2 ? Math.Max(0, c.Ports[c.Drawn is TeePoint { EnterBranch: true } ? 0 : 2].At.To(c.WorkPoint) - (outside / 2)) : 0;

    private static double BranchPerLength(Component c, double outside, double wall, double density, Units units)
    {
        if (c.Size2.IsNone)
            return Pipes.MassPerLength(outside, wall, density);
        var branchWall = c.Line.Schedule.Wall ?? Pipes.Wall(c.Size2, c.Line.Schedule.Name)?.In(units) ?? wall;
        return Pipes.MassPerLength(Pipes.OutsideDiameter(c.Size2)?.In(units) ?? outside, branchWall, density);
    }

    /// <summary>Length of a component's centreline, mm: for paint, water and mass.</summary>
    public static double Path(Component c, double outside)
    {
        if (c is { Ware: Ware.Elbow, Radius: { } radius, Turn: { } turn })
            return (radius * turn) + (2 * Math.Max(0, c.Ports[0].At.To(c.WorkPoint) - (radius * Math.Tan(Math.Min(turn, 2.9) / 2))));
        var length = c.Ports.Count > 1 ? c.Ports[0].At.To(c.Ports[1].At) : c.Ports[0].At.To(c.WorkPoint);
        return c is { Ware: Ware.Tee, Ports.Count: 3 } ? RunOf(c) + BranchOf(c, outside) : length;
    }
}
