using Rootgap.Drawings;
using Rootgap.Measure;
using Rootgap.Standards;

namespace Rootgap.Routes;

/// <summary>Plate, hub and face of a flange by ASME B16.5, mm.</summary>
/// <param name="Plate">Outside diameter.</param>
/// <param name="PlateThickness">Of the plate alone, without its face.</param>
/// <param name="FaceDiameter">Of the raised face, or of a ring joint's raised portion.</param>
/// <param name="FaceHeight">By which the face stands out of the plate; 0 for a flat face.</param>
/// <param name="Through">Contact face to the hub's end as the table has it.</param>
/// <param name="Hub">Greatest diameter of the hub; null where no table has it.</param>
/// <param name="HubEnd">Diameter of the hub at its end; null where it does not taper.</param>
public sealed record FlangeShape(double Plate, double PlateThickness, double FaceDiameter, double FaceHeight, double Through, double? Hub, double? HubEnd)
{
    /// <summary>The outline from the contact face back, as (distance along, radius).</summary>
    /// <param name="face">Height of the face; 0 where a lap stands in its place.</param>
    /// <param name="length">Contact face to the end.</param>
    /// <param name="pipe">Outside diameter of the pipe: what the hub tapers to, and what stands behind a plate without hub.</param>
    internal IEnumerable<(double Along, double Radius)> Outline(double face, double length, double pipe)
    {
        var back = Math.Min(face + PlateThickness, length);
        var hub = Math.Min(Hub ?? pipe, Plate) / 2;
        return
        [
            (0, FaceDiameter / 2), (face, FaceDiameter / 2), (face, Plate / 2), (back, Plate / 2),
            (back, hub), (length, HubEnd is null ? hub : Math.Min(hub, pipe / 2)),
        ];
    }

    /// <summary>Volumes, mm³, with the distance of the middle of each from the contact face: face, plate and hub, less the bore and the holes.</summary>
    internal List<(double Volume, double Along)> Solids(double face, double length, double bore, BoltPattern? bolts)
    {
        var back = face + PlateThickness;
        var hubLength = Math.Max(0, length - back);
        var (a, b) = (Hub ?? bore, HubEnd ?? Hub ?? bore);
        var cone = Math.PI / 12 * hubLength * ((a * a) + (a * b) + (b * b));
        // A frustum's centre from its first end: h (A² + 2AB + 3B²) / 4 (A² + AB + B²).
        var coneAt = back + (hubLength * ((a * a) + (2 * a * b) + (3 * b * b)) / (4 * ((a * a) + (a * b) + (b * b))));
        return
        [
            (Disc(FaceDiameter) * face, face / 2),
            (Disc(Plate) * PlateThickness, face + (PlateThickness / 2)),
            (cone, coneAt),
            (-Disc(bore) * length, length / 2),
            (bolts is null ? 0 : -bolts.Count * Disc(bolts.HoleDiameter) * PlateThickness, face + (PlateThickness / 2)),
        ];
    }

    private static double Disc(double diameter) => Math.PI / 4 * diameter * diameter;

    /// <summary>The bolts of a size and class; null where the standard has none.</summary>
    internal static BoltPattern? BoltsOf(StationMaking make, Situation s)
    {
        var (size, @class) = (s.Size, s.Line.Class);
        return FlangeTable.Holes.Of(size, @class: @class) is { } holes && FlangeTable.BoltDiameter.Of(size, @class: @class) is { Inches: { } inches }
            && make.Book.Try(FlangeTable.BoltCircle, size, @class: @class) is { } circle && make.Book.Try(FlangeTable.HoleDiameter, size, @class: @class) is { } hole
            ? new((int)holes.Figure, circle, hole, NominalSize.OfInches(inches))
            : null;
    }

    /// <summary>The shape and the bolts of a flange; what the standard does not have is null, and told by who looks up its length.</summary>
    internal static (FlangeShape? Shape, BoltPattern? Bolts) Of(StationMaking make, Situation s, FlangeKind kind)
    {
        var (size, @class, book) = (s.Size, s.Line.Class, make.Book);
        double? Value(Dimension dimension) => book.Try(dimension, size, @class: @class);
        var table = FlangeEnd.TableOf(kind);
        var bolts = BoltsOf(make, s);
        if (Value(FlangeTable.Outside) is not { } plate || Value(table.Thickness) is not { } thickness || Value(table.ThroughHub) is not { } through)
            return (null, bolts);
        var raised = Value(FlangeTable.RaisedFaceHeight) ?? 0;
        // Of classes 150 and 300 the thickness counts the raised face (ASME B16.5 tables 7 and 10, note on the 2 mm face).
        var plateThickness = FlangeEnd.IsThin(s.Line) && s.Line.Facing != Facing.Flat && kind != FlangeKind.LapJoint ? thickness - raised : thickness;
        var (diameter, height) = s.Line.Facing switch
        {
            Facing.Raised => (Value(FlangeTable.RaisedFaceDiameter) ?? plate, raised),
            Facing.RingJoint => (Value(FlangeTable.RingFaceDiameter) ?? plate, Value(FlangeTable.GrooveDepth) ?? 0),
            Facing.Flat => (plate, 0),
            _ => throw new InvalidOperationException("The family of facings is closed."),
        };
        return (new(plate, plateThickness, diameter, height, through, Value(table.Hub), kind == FlangeKind.WeldNeck ? Value(FlangeTable.HubAtWeldEnd) : null), bolts);
    }
}
