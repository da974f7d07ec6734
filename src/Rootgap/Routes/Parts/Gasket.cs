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

    internal override int? Fits(MaterialItem row) => ItemSearch.Facing(row, Line) + ItemSearch.FlangeClass(row, Line);

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
