using Rootgap.Drawings;
using Rootgap.Measure;
using Rootgap.Standards;

namespace Rootgap.Routes;

/// <summary>The gasket or ring between two faces.</summary>
public sealed record Gasket : Component
{
    /// <summary>A gasket that no table has, against the outside of its pipe: for pictures only.</summary>
    private const double Likely = 1.25;

    public override string Word => "gasket";

    public override string Name => "gasket";

    public override Ware Ware => Ware.Gasket;

    public override string RatingClass => Line.Class;

    public override bool IsLoose => true;

    public override bool LiesInJoint => true;

    public override bool ShowsClock => false;

    public override bool HasFacing => true;

    public override MadeTo MadeTo => MadeTo.Nothing;

    public override IsometricSign Sign => IsometricSign.Gasket;

    public override IReadOnlyList<Solid> Bodies => Path > Tolerance.Noise ? [Solid.Cylinder(Ports[0].At, Ports[1].At, Ports[0].Outside / 2)] : [];

    public override Mass? Mass => null;

    public override Point Centre => Ports[0].At.Toward(Ports[1].At, 0.5);

    /// <summary>Whether a gasket of these words goes between such faces; null where the words do not say what it is. Rings lie in ring-joint grooves (ASME B16.20), flat and spiral-wound ones inside the bolts
    /// of raised faces, full-face ones between flat faces so that cast flanges are not bent (ASME B16.21, common practice).</summary>
    /// <param name="what">The list's words.</param>
    /// <param name="material">The list's material: a ring of metal lies in a groove.</param>
    /// <param name="facing">Of the two faces.</param>
    public static bool? GoesWith(string what, string material, Facing facing)
    {
        var isRing = Says(what, Rings) || (Says(what, PlainRings) && !Says(what, Raised) && (Says(what, RingMetals.Value) || Says(material, RingMetals.Value)));
        var isFullFace = Says(what, FullFace);
        var isSpiral = what.Contains("SPIRAL", StringComparison.OrdinalIgnoreCase);
        var isRaised = !isRing && !isFullFace && Says(what, Raised);
        // A spiral-wound one is one for raised faces.
        if (!isRing && !isFullFace && !isRaised)
            return null;
        return facing switch
        {
            Drawings.Facing.RingJoint => isRing,
            Drawings.Facing.Flat => !isRing && !isSpiral,
            _ => !isRing && !isFullFace,
        };

        static bool Says(string what, string[] words) => Array.Exists(words, w => what.Contains(w, StringComparison.OrdinalIgnoreCase));
    }

    private static readonly string[] Rings = ["RTJ", "RING JOINT", "RING-JOINT", "OCTAGONAL", "OVAL RING"];
    /// <summary>A ring that may be of sheet or of metal: its material tells.</summary>
    private static readonly string[] PlainRings = ["GASKET RING", "RING GASKET"];

    /// <summary>What rings for grooves are made of: ASME B16.20, in the table of metals.</summary>
    private static readonly Lazy<string[]> RingMetals = new(() => [.. StandardTable.Rows("metals").Where(r => r.Attribute == "ring gasket").Select(r => r.Item)]);

    private static readonly string[] FullFace = ["FULL FACE", "FULL-FACE", "FULLFACE"];
    private static readonly string[] Raised = ["SPIRAL", "GROOVED", "SERRATED", "FLAT", "SHEET", "FIBRE", "FIBER", "GRAPHITE", "PTFE", "RUBBER", "EPDM"];

    internal override int? Fits(MaterialItem row) =>
        ItemSearch.Facing(row, Line) + ItemSearch.FlangeClass(row, Line) + (GoesWith(row.What, row.Material, Line.Facing) is { } goes ? ItemSearch.Weigh(goes, 3) : 0);

    /// <summary>The gasket of a joint between two places along the line.</summary>
    internal static Gasket Between(StationMaking make, Situation s, PartEnd a, PartEnd b)
    {
        var (outside, wall) = make.Tube(s, s.Size, isBySchedule: false);
        var wide = make.Book.Try(Gaskets.SpiralRing, s.Size, @class: s.Line.Class) ?? outside * Likely;
        return new Gasket
        {
            Size = s.Size, Line = s.Line, Drawn = s.Point, Source = s.Source, Outside = outside, Wall = wall, Ways = [a with { Outside = wide }, b with { Outside = wide }],
        };
    }

    /// <summary>Compressed thickness, or a ring's stand-off, mm, with where it comes from.</summary>
    internal static (double Mm, Origin Origin) Thickness(StationMaking make, Situation s) =>
        s.Line.Gasket is { } stated ? (stated, Origin.Drawing)
        : s.Line.Facing == Drawings.Facing.RingJoint && FlangeTable.RingStandOff.Of(s.Size, @class: s.Line.Class) is { } row ? (row.In(make.Book.Units), new Origin.Table(row))
        : (Line.UsualGasket, Origin.CommonPractice);
}
