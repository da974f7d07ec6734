using Rootgap.Drawings;
using Rootgap.Measure;
using Rootgap.Standards;

namespace Rootgap.Routes;

/// <summary>One piece of pipe as drawn, from end to end; it may run through dimension points, outlets and stub-ins.</summary>
public sealed record PipePiece : Part
{
    /// <summary>Leg in which it starts, and leg in which it ends.</summary>
    public required int FirstLeg { get; init; }

    public required int LastLeg { get; init; }

    /// <summary>Its two ends as drawn.</summary>
    public required Point Start { get; init; }

    public required Point End { get; init; }

    public required Vector Direction { get; init; }

    public required PipeEnd AtStart { get; init; }

    public required PipeEnd AtEnd { get; init; }

    /// <summary>Preparation of a free end at the start or at the end; null where the end is joined.</summary>
    public OpenEnds? FreeStart { get; init; }

    public OpenEnds? FreeEnd { get; init; }

    /// <summary>Final-fit extra is left at the start, or at the end.</summary>
    public bool ExtraAtStart { get; init; }

    public bool ExtraAtEnd { get; init; }

    public override string Word => "pipe";

    /// <summary>Length of the nipple that it is, mm: bought so, not cut; null where it is cut from stock.</summary>
    public double? Nipple { get; init; }

    public override string Name => Nipple is null ? "pipe" : "nipple";

    public override Ware Ware => Nipple is null ? Ware.Pipe : Ware.Nipple;

    public override IReadOnlyList<Port> Ports => [new(PortName.RunIn, Start, -Direction, Outside, Inside), new(PortName.RunOut, End, Direction, Outside, Inside)];

    /// <summary>Whether there is any pipe: a drawing that cannot be built may leave none.</summary>
    public bool IsThere => Outside > 0 && (End - Start).Dot(Direction) > 0;

    public override IReadOnlyList<Solid> Bodies => IsThere ? [Solid.Cylinder(Start, End, Outside / 2)] : [];

    /// <summary>Of the piece from end to end as drawn; what is left on it or cut away stands with its cut.</summary>
    public override Mass Mass => new(PerLength * Math.Max(0, (End - Start).Dot(Direction)), Origins.Tube);

    public override Point Centre => Start.Toward(End, 0.5);

    public override bool ShowsClock => false;

    public override bool IsBySchedule => true;

    internal override int? Fits(MaterialItem row) =>
        ItemSearch.Schedule(row, this)
        + (Nipple is { } length && row.Length is { } listed ? ItemSearch.Weigh(Math.Abs(listed - length) <= Tolerance.Closing, 8) : 0)
        + (row.Material.Length > 0 && Line.Material.Length > 0 ? ItemSearch.Weigh(row.Material.Equals(Line.Material, StringComparison.OrdinalIgnoreCase), 2) : 0);
}

/// <summary>Where the masses and shapes of parts come from.</summary>
internal static class Origins
{
    public static readonly Origin Tube = new Origin.Rule("geometry: a tube");
}
