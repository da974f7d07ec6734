using Rootgap.Drawings;
using Rootgap.Measure;
using Rootgap.Standards;

namespace Rootgap.Routes;

/// <summary>A flange by ASME B16.5.</summary>
public sealed record Flange : Component
{
    /// <summary>A face is upright or level within so much, radians: 5 degrees, so that slopes count.</summary>
    private const double Leaning = 5 * Math.PI / 180;

    /// <summary>Whether a face lies level: north is its upward direction then.</summary>
    /// <param name="face">Unit vector out of it.</param>
    public static bool LiesLevel(Vector face) => Math.Abs(face.Z) >= Math.Cos(Leaning);

    /// <summary>
    /// Slip-on flanges against the volume of their least dimensions: the published list runs 4 to 13 % above it in classes 150 and 300, as they are made to
    /// the plus side and with fillets; welding-neck flanges, with more of their mass in the hub, come out on the mean of two lists.
    /// </summary>
    private const double SlipOnShare = 1.06;

    public required FlangeKind Kind { get; init; }

    /// <summary>Its plate, hub and face; null where the standard has no such flange.</summary>
    public FlangeShape? Shape { get; init; }

    /// <summary>The bolt holes as numbers; null where the standard has no such flange.</summary>
    public BoltPattern? Bolts { get; init; }

    /// <summary>How the drawing turns the holes.</summary>
    public required HoleOrientation Orientation { get; init; }

    /// <summary>The stub end behind which a lap-joint flange turns; null for any other.</summary>
    public StubEnd? Stub { get; init; }

    /// <summary>The contact face: it looks at its gasket, away from the pipe.</summary>
    public Port Contact => Of(PortName.Face);

    public Port Neck => Of(PortName.Weld);

    public override string Word => "flange";

    public override string Name => "flange " + Words.Of(Kind);

    public override Ware Ware => Ware.Flange;

    public override string RatingClass => Line.Class;

    public override bool ShowsClock => false;

    public override IEnumerable<Point> Measured => [Contact.At];

    public override bool HasFacing => true;

    public override MadeTo MadeTo => MadeTo.ThroughHub;

    public override IsometricSign Sign => IsometricSign.Flange;

    public override double ExtraGrip => Stub?.Lap ?? 0;

    /// <summary>Distance from the contact face to the end that is welded, or to the hub's end, mm.</summary>
    private double Length => Contact.At.To(Neck.At);

    public override IReadOnlyList<Solid> Bodies
    {
        get
        {
            var back = -Contact.Face;
            if (Outside <= 0 || Length <= Tolerance.Noise)
                return [];
            if (Stub is { } stub)
                return [.. stub.Bodies(Contact.At, back, Outside), .. Shape is { } loose ? Solid.Turned(Contact.At + (back * stub.Lap), back, loose.Outline(0, loose.Through, Outside)) : []];
            return Shape is { } shape ? [.. Solid.Turned(Contact.At, back, shape.Outline(shape.FaceHeight, Length, Outside))] : [Solid.Cylinder(Contact.At, Neck.At, Outside / 2)];
        }
    }

    public override Mass? Mass
    {
        get
        {
            if (Shape is not { Hub: not null } shape)
                return null;
            var volume = Solids(shape).Sum(s => s.Volume);
            if (volume <= 0)
                return null;
            var own = volume * Density * (Kind == FlangeKind.SlipOn ? SlipOnShare : 1);
            return Stub is { } stub ? new(own + stub.Volumes(Outside, Wall).Sum(s => s.Volume * Density), PlateHubAndStub) : new(own, PlateAndHub);
        }
    }

    private static readonly Origin PlateAndHub = new Origin.Rule("geometry: plate and hub less bore and holes (ASME B16.5)");
    private static readonly Origin PlateHubAndStub = new Origin.Rule("geometry: plate and hub less bore and holes (ASME B16.5), and the stub end as a tube with its lap");

    /// <summary>Of face, plate and hub less the bore and the holes; behind a lap, with the stub end.</summary>
    public override Point Centre
    {
        get
        {
            if (Shape is not { Hub: not null } shape)
                return Contact.At.Toward(Neck.At, 0.5);
            var solids = Solids(shape);
            if (Stub is { } stub)
                solids = [.. solids.Select(s => (s.Volume, s.Along + stub.Lap)), .. stub.Volumes(Outside, Wall)];
            var volume = solids.Sum(s => s.Volume);
            return volume > 0 ? Contact.At - (Contact.Face * (solids.Sum(s => s.Volume * s.Along) / volume)) : Contact.At.Toward(Neck.At, 0.5);
        }
    }

    private List<(double Volume, double Along)> Solids(FlangeShape shape)
    {
        var isLoose = Stub is not null;
        var opening = Kind == FlangeKind.WeldNeck ? Inside : Outside;
        return shape.Solids(isLoose ? 0 : shape.FaceHeight, isLoose || Kind == FlangeKind.SlipOn ? shape.Through : Length, opening, Bolts);
    }

    /// <summary>Reference line of the bolt holes, unit vector in the face; null where none can be named.</summary>
    /// <remarks>An upright face straddles the upright centreline, a level one the north-south line; any other needs a line of its own (common practice).</remarks>
    public Vector? HoleLine
    {
        get
        {
            var face = Contact.Face;
            Vector? reference = Orientation.From is { } from ? from : Math.Abs(face.Z) <= Math.Sin(Leaning) ? Vector.Up : LiesLevel(face) ? Vector.North : null;
            return reference is { } r && r.SquareTo(face) is { } side && side.Length > 0.1 ? side.Unit : null;
        }
    }

    /// <summary>Turn of the bolt circle from straddling that line, radians, right-handed about the contact face.</summary>
    /// <remarks>The drawing counts it about the first end along the line, so that two flanges that mate have their holes in the same places.</remarks>
    public double HoleTurn => Ports[0] == Contact ? Orientation.Turn : -Orientation.Turn;

    /// <summary>The bolt holes as they stand in the plant; null where the standard has none or no line can be named.</summary>
    public BoltHoles? Holes => Bolts is { } bolts && HoleLine is { } line
        ? new(bolts, Contact.At, Contact.Face, line, HoleTurn + (Orientation.OnCentre ? Math.PI / bolts.Count : 0))
        : null;

    public override bool IsOtherKind(WareWords words) => words.IsBlind || (words.Flange is { } kind && kind != Kind);

    internal override int? Fits(MaterialItem row) => (row.Words.IsBlind ? -12 : 0)
        + (row.Words.Flange is { } kind ? ItemSearch.Weigh(kind == Kind, 8) : 0) + ItemSearch.Facing(row, Line) + ItemSearch.FlangeClass(row, Line);
}

/// <summary>Bolt holes of a flange by ASME B16.5.</summary>
/// <param name="Circle">Diameter of the bolt circle, mm.</param>
/// <param name="HoleDiameter">mm.</param>
/// <param name="Bolt">Diameter of the bolt as the trade names it, inches.</param>
public sealed record BoltPattern(int Count, double Circle, double HoleDiameter, NominalSize Bolt);

/// <summary>Bolt holes as they stand in the plant.</summary>
/// <param name="Centre">Middle of the contact face, mm.</param>
/// <param name="Face">Unit vector out of the contact face.</param>
/// <param name="Line">Reference line, unit vector in the face.</param>
/// <param name="Turn">From straddling the line, radians, right-handed about <paramref name="Face"/>; half a pitch where a hole stands on the line.</param>
public sealed record BoltHoles(BoltPattern Bolts, Point Centre, Vector Face, Vector Line, double Turn)
{
    /// <summary>Unit vector from the centre to the middle between two neighbouring holes.</summary>
    public Vector Between => Line.Turned(Face, Turn);

    /// <summary>Unit vectors from the centre to the holes.</summary>
    public IReadOnlyList<Vector> Ways => [.. Enumerable.Range(0, Bolts.Count).Select(i => Line.Turned(Face, Turn + ((i + 0.5) * 2 * Math.PI / Bolts.Count)))];
}
