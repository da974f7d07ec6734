using Rootgap.Drawings;
using Rootgap.Measure;
using Rootgap.Standards;

namespace Rootgap.Routes;

/// <summary>A blind flange by ASME B16.5, bolted against an end flange.</summary>
public sealed record BlindFlange : Component
{
    /// <summary>Plate and thickness over its raised face, mm; null where the standard has no such flange.</summary>
    public (double Plate, double Thickness, BoltPattern Bolts)? Shape { get; init; }

    /// <summary>The face that looks at the gasket.</summary>
    public Port Contact => Of(PortName.Face);

    public override string Word => "blind flange";

    public override string Name => "flange BL";

    public override Ware Ware => Ware.Flange;

    public override string RatingClass => Line.Class;

    public override bool HasFacing => true;

    /// <summary>It is bolted on at site and taken off again: it is of no spool.</summary>
    public override bool IsLoose => true;

    public override bool ShowsClock => false;

    public override MadeTo MadeTo => MadeTo.Nothing;

    public override IsometricSign Sign => IsometricSign.Blind;

    public override double Path => Shape?.Thickness ?? 0;

    public override IReadOnlyList<Solid> Bodies => Shape is { } shape ? [Solid.Cylinder(Contact.At, Contact.At - (Contact.Face * shape.Thickness), shape.Plate / 2)] : [];

    /// <summary>Of its plate less the holes; what a raised face leaves out at the rim is less than 1 %.</summary>
    public override Mass? Mass => Shape is { } shape
        ? new(Density * Math.PI / 4 * shape.Thickness * ((shape.Plate * shape.Plate) - (shape.Bolts.Count * shape.Bolts.HoleDiameter * shape.Bolts.HoleDiameter)), PlateLessHoles)
        : null;

    private static readonly Origin PlateLessHoles = new Origin.Rule("geometry: a plate less its bolt holes (ASME B16.5)");

    public override Point Centre => Contact.At - (Contact.Face * (Path / 2));

    public override bool IsOtherKind(WareWords words) => !words.IsBlind;

    internal override int? Fits(MaterialItem row) => row.Words.IsBlind ? 8 + ItemSearch.Facing(row, Line) + ItemSearch.FlangeClass(row, Line) : null;

    /// <summary>The blind with its face so far from the work point along a way.</summary>
    internal static BlindFlange At(StationMaking make, Situation s, Way way, double along)
    {
        var (plate, origin) = make.Book.Find(s.Source, FlangeTable.Outside, s.Size, @class: s.Line.Class);
        var (thickness, _) = make.Book.Find(s.Source, FlangeTable.BlindThickness, s.Size, @class: s.Line.Class);
        var bolts = FlangeShape.BoltsOf(make, s);
        return new BlindFlange
        {
            Size = s.Size, Line = s.Line, Drawn = s.Point, Source = s.Source, Outside = plate, Wall = plate / 2, Ways = [new(PortName.Face, way, along, plate, 0, 1)],
            Shape = origin is Origin.Table && thickness > 0 && bolts is not null ? (plate, thickness, bolts) : null,
        };
    }
}
