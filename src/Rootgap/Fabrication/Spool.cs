using Rootgap.Measure;
using Rootgap.Routes;
using Rootgap.Standards;

namespace Rootgap.Fabricating;

/// <summary>What hangs together by shop welds.</summary>
public sealed record Spool
{
    public required string Name { get; init; }

    public required IReadOnlyList<Component> Components { get; init; }

    public required IReadOnlyList<Cut> Cuts { get; init; }

    /// <summary>Supports welded on in the shop: they leave with it, and are in its mass.</summary>
    public IReadOnlyList<Support> Supports { get; init; } = [];

    /// <summary>Reinforcing pads welded on in the shop; those of which the drawing gives the measures are in its mass.</summary>
    public IReadOnlyList<Pad> Pads { get; init; } = [];

    /// <summary>The mitre welds of its bends.</summary>
    public IReadOnlyList<Joint> Seams { get; init; } = [];

    /// <summary>The welds of its supports, pads and mitred bends.</summary>
    public IEnumerable<Joint> Attachments => Supports.Select(s => s.Weld!).Concat(Pads.Select(p => p.Weld)).Concat(Seams);

    /// <summary>Its shop joints, in line order; those of its supports not among them.</summary>
    public required IReadOnlyList<Joint> Joints { get; init; }

    /// <summary>Whether nothing in it is welded: it is screwed up at site and carried in pieces.</summary>
    public bool IsScrewedOnly => Joints.Count > 0 && !Joints.Any(j => j.IsWeld);

    /// <summary>Whether all its pipe is of small bore.</summary>
    public bool IsSmallBore => Cuts.Count > 0 && Cuts.All(c => c.Pipe.Size.IsSmallBore);

    /// <summary>Joints that part it from its neighbours, in line order.</summary>
    public required IReadOnlyList<Joint> Ends { get; init; }

    /// <summary>Mass as it leaves the shop, final-fit extra included, kg.</summary>
    public required double Mass { get; init; }

    /// <summary>Parts whose mass nobody knows: ids.</summary>
    public required IReadOnlyList<string> Unweighed { get; init; }

    public required Point CentreOfMass { get; init; }

    /// <summary>Corners of the box along east, north and up that holds it, mm.</summary>
    public required Point BoxFrom { get; init; }

    public required Point BoxTo { get; init; }

    /// <summary>Outside surface, mm²: what is painted.</summary>
    public required double PaintArea { get; init; }

    /// <summary>Inside volume, mm³: what a full spool holds.</summary>
    public required double Content { get; init; }

    /// <summary>Lengths as fitted and as forecast after welding, leg by leg.</summary>
    public required IReadOnlyList<SpoolLength> Lengths { get; init; }

    public Vector Box => BoxTo - BoxFrom;
}

/// <summary>A leg's stretch in a spool: its length as fitted and the forecast after its butt welds have drawn together, mm.</summary>
/// <param name="Welds">Shop butt welds on the stretch.</param>
public sealed record SpoolLength(int Run, int Leg, double AsFitted, int Welds, double Low, double High);

/// <summary>A drawing made ready for the shop.</summary>
public sealed record Fabrication
{
    public required Route Route { get; init; }

    /// <summary>The units in which the drawing is read.</summary>
    public Units Units => Route.Drawing.Units;

    public required IReadOnlyList<Spool> Spools { get; init; }
    public required IReadOnlyList<Cut> Cuts { get; init; }
    /// <summary>Bends that the shop makes of pipe, each with the mark of its piece: the saw cuts pipe for them too.</summary>
    public IEnumerable<(MadeBend Bend, string Piece, string Spool)> MadeBends => Route.Components.OfType<MadeBend>().Select(b => (b, $"{SpoolOf[b.Id]}-{b.Id}", SpoolOf[b.Id]));

    public required IReadOnlyList<BoltSet> Bolting { get; init; }
    public required IReadOnlyList<MaterialRow> Materials { get; init; }

    /// <summary>Name of the spool of each component and pipe, by id; loose parts have none.</summary>
    public required IReadOnlyDictionary<string, string> SpoolOf { get; init; }

    /// <summary>Mass of each component and support, by id, with its source; absent where nobody knows it.</summary>
    public required IReadOnlyDictionary<string, Mass> Masses { get; init; }
}

/// <summary>The studs of one bolted joint.</summary>
/// <param name="Size">Bolt diameter, in inches as the trade names it.</param>
/// <param name="Length">mm; 0 where the standard has none.</param>
public sealed record BoltSet(Joint Joint, NominalSize Size, int Count, double Length, Origin Origin);
