using Rootgap.Measure;

namespace Rootgap.Site.Splitting;

/// <summary>A part, or a stretch of pipe between two places where it may be parted.</summary>
internal sealed class SplitNode
{
    public required int Index { get; init; }
    public required string Part { get; init; }
    public required double Mass { get; init; }

    /// <summary>Round outsides at its ends.</summary>
    public required List<(Point At, Vector Axis, double Radius)> Discs { get; init; }

    /// <summary>Numbers of the directions of its faces and its pipe.</summary>
    public required List<int> Directions { get; init; }

    /// <summary>Number of a pipe's direction; -1 for any other part.</summary>
    public int PipeDirection { get; init; } = -1;

    public required double Inches { get; init; }

    /// <summary>Valves that stand between flanges are in no spool.</summary>
    public bool IsLoose { get; init; }

    public List<SplitEdge> Edges { get; } = [];

    /// <summary>Joints with things outside here, by their numbers.</summary>
    public List<int> Outside { get; } = [];
}

internal enum Cut
{
    None,
    Field,
    FinalFit,
}

/// <summary>Where two nodes meet.</summary>
internal sealed class SplitEdge
{
    public required SplitNode A { get; init; }
    public required SplitNode B { get; init; }

    /// <summary>Null where it can be no mark: a shop joint of another kind, a bolted joint.</summary>
    public SplitPlace? Place { get; init; }

    /// <summary>What is allowed here.</summary>
    public required IReadOnlyList<Cut> Allowed { get; init; }

    /// <summary>The node whose pipe carries the extra of a final-fit weld here, and that pipe's end with its direction outward.</summary>
    public SplitNode? ExtraOn { get; init; }

    public Vector ExtraWay { get; init; }

    /// <summary>Where that pipe ends without the extra.</summary>
    public Point ExtraFrom { get; init; }

    public double ExtraMass { get; init; }

    /// <summary>What the pipe weighs more where it is not parted here: the root gap is steel then.</summary>
    public double WholeMass { get; init; }

    public double Radius { get; init; }

    /// <summary>Number of its axis among the directions.</summary>
    public int Direction { get; init; }

    /// <summary>Its leg, for one final-fit weld a leg at most.</summary>
    public (int Run, int Leg) OnLeg { get; init; }

    public SplitNode Other(SplitNode node) => ReferenceEquals(node, A) ? B : A;

    /// <summary>Nominal inches; nothing where it is no mark.</summary>
    public double CostOf(Cut cut) => cut == Cut.None ? 0 : Place?.Cost(cut == Cut.FinalFit) ?? 0;
}
