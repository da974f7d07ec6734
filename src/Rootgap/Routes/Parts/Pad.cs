using Rootgap.Drawings;
using Rootgap.Measure;
using Rootgap.Standards;

namespace Rootgap.Routes;

/// <summary>A reinforcing pad: a ring of plate laid round a branch on its header. It parts nothing, so it stands among <see cref="Route.Pads"/> and not among the components.</summary>
public sealed record Pad : Part
{
    /// <summary>Corners of an outline: finer than a torch follows.</summary>
    private const int Corners = 360;

    /// <summary>Index of the leg of the header at whose end the branch stands.</summary>
    public required int Leg { get; init; }

    public required SourceRow Source { get; init; }

    /// <summary>Id of the header's pipe.</summary>
    public required string Pipe { get; init; }

    /// <summary>Name of the branch; null where it has none.</summary>
    public string? Branch { get; init; }

    /// <summary>The branch's middle line on the header's.</summary>
    public required Point At { get; init; }

    /// <summary>Unit, out of the header along the branch.</summary>
    public required Vector Way { get; init; }

    /// <summary>How the branch leans on its header.</summary>
    internal Lean Lean { get; init; } = Lean.Square;

    /// <summary>Outside diameter of the branch, mm: the hole of the ring.</summary>
    public required double Hole { get; init; }

    /// <summary>From the branch's outside to the pad's edge on the plate, mm; null where the drawing does not say.</summary>
    public required double? Width { get; init; }

    /// <summary>Of its plate, mm: as drawn, else the header's wall.</summary>
    public required double Thickness { get; init; }

    /// <summary>Its weld on the header and on the branch.</summary>
    public required Joint Weld { get; init; }

    /// <summary>It is welded on in the shop and leaves with its spool.</summary>
    public bool IsOfSpool => Weld.Place == WeldPlace.Shop;

    public override string Word => "pad";

    public override string Name => "reinforcing pad";

    public override Ware Ware => Ware.Pad;

    public override IReadOnlyList<Port> Ports => [];

    public override bool ShowsClock => true;

    /// <summary>It lies on the header and reaches nowhere that the header does not.</summary>
    public override IReadOnlyList<Solid> Bodies => [];

    public override Mass? Mass => Width is null ? null : new(Area * Thickness * Density, Plate);

    private static readonly Origin Plate = new Origin.Rule("geometry: a ring of plate, rolled on the header");

    public override Point Centre => At + (Way * Lean.Along((Outside + Thickness) / 2));

    /// <summary>Lists name a pad by its branch, or by header and branch in either order.</summary>
    internal override bool IsListedIn(MaterialItem row) => IsRowOf(row, Size);

    /// <summary>Whether a row's size is of the pad of a branch.</summary>
    internal static bool IsRowOf(MaterialItem row, NominalSize branch) => row.Size == branch || (row.Size2 == branch && row.Size > branch);

    internal override int? Fits(MaterialItem row) => 0;

    /// <summary>Surface of the ring as laid flat, mm².</summary>
    public double Area => AreaOf(Outline(inner: false)) - AreaOf(Outline(inner: true));

    /// <summary>An edge of the ring as it is cut from plate and then rolled: (round the header from the line that faces the branch, along the header), mm, closed; laid out at the middle of the plate's thickness.</summary>
    public IReadOnlyList<(double Round, double Along)> Outline(bool inner)
    {
        var middle = (Outside + Thickness) / 2;
        var centre = Lean.Shift(middle);
        var more = inner ? 0 : Width ?? 0;
        var edge = new (double, double)[Corners + 1];
        for (var i = 0; i < Corners; i++)
        {
            var (sin, cos) = Math.SinCos(i * 2 * Math.PI / Corners);
            // Round the branch, the curve on the header; a branch that leans makes a longer one, away from the work point.
            var across = Math.Clamp(Hole / 2 * sin, -middle, middle);
            var (round, along) = (middle * Math.Asin(across / middle), Hole / 2 * cos);
            if (!Lean.IsSquare)
                along = ((Math.Sqrt((middle * middle) - (across * across)) + (along * Math.Cos(Lean.Radians))) / Math.Tan(Lean.Radians)) + (along * Math.Sin(Lean.Radians)) - centre;
            var reach = 1 + (more / Math.Sqrt((round * round) + (along * along)));
            edge[i] = (round * reach, centre + (along * reach));
        }

        edge[Corners] = edge[0];
        return edge;
    }

    // The surveyor's formula.
    private static double AreaOf(IReadOnlyList<(double Round, double Along)> edge)
    {
        var twice = 0.0;
        for (var i = 0; i + 1 < edge.Count; i++)
            twice += (edge[i].Round * edge[i + 1].Along) - (edge[i + 1].Round * edge[i].Along);
        return Math.Abs(twice) / 2;
    }
}
