using Rootgap.Drawings;
using Rootgap.Measure;

namespace Rootgap.Routes;

/// <summary>How an isometric draws a component.</summary>
public enum IsometricSign
{
    Elbow,
    Tee,
    Outlet,
    Reducer,
    Flange,
    Gasket,
    Valve,
    Cap,
    Blind,

    /// <summary>A box between its ends, beside which its words stand.</summary>
    Box,
}

/// <summary>The length of a component for which its standard gives an allowance.</summary>
public enum MadeTo
{
    /// <summary>Nothing that the line's length hangs on.</summary>
    Nothing,

    /// <summary>From the middle to each end: elbows and tees (ASME B16.9).</summary>
    CentreToEnd,

    /// <summary>From end to end: reducers (ASME B16.9).</summary>
    EndToEnd,

    /// <summary>From face to face: valves (ASME B16.10).</summary>
    FaceToFace,

    /// <summary>From the face to the end of the hub: flanges (ASME B16.5).</summary>
    ThroughHub,
}

/// <summary>Something that stands at a work point: a fitting, flange, valve or gasket.</summary>
public abstract record Component : Part
{
    private protected Component()
    {
    }

    /// <summary>Small end of a reducer, branch of a reducing tee, header of an outlet; none otherwise.</summary>
    public NominalSize Size2 { get; init; }

    /// <summary>Index of the leg at whose end it stands; -1 at the start of the run.</summary>
    public int Leg { get; init; }

    public sealed override IReadOnlyList<Port> Ports => placed;

    /// <summary>The work point that it stands at.</summary>
    public Point WorkPoint { get; init; }

    /// <summary>The work point as the drawing writes it.</summary>
    public required WorkPoint Drawn { get; init; }

    /// <summary>Flanged valves and gaskets belong to no spool.</summary>
    public virtual bool IsLoose => false;

    /// <summary>It lies in the gap of a bolted joint and goes with that: a gasket.</summary>
    public virtual bool LiesInJoint => false;

    /// <summary>Which of its lengths the standard gives an allowance for.</summary>
    public abstract MadeTo MadeTo { get; }

    /// <summary>Spool that the drawing names for it; null where it names none.</summary>
    public string? SpoolName { get; init; }

    public required SourceRow Source { get; init; }

    /// <summary>How an isometric draws it.</summary>
    public abstract IsometricSign Sign { get; }

    /// <summary>Whether all its ends lie on the line that goes through it.</summary>
    public virtual bool LiesAlongLine => true;

    /// <summary>Length of its middle lines, mm: for paint and water.</summary>
    public virtual double Path => placed.Count > 1 ? placed[0].At.To(placed[1].At) : placed[0].At.To(WorkPoint);

    /// <summary>Stretches of its middle lines.</summary>
    public virtual IEnumerable<(Point From, Point To)> MiddleLines => placed.Count > 1 ? [(placed[0].At, placed[1].At)] : [];

    /// <summary>Places on it between which a fitter measures.</summary>
    public virtual IEnumerable<Point> Measured => [WorkPoint];

    /// <summary>What it adds between the two flanges that hold it, or before its own flange, mm: a wafer body, a lap. For the length of studs.</summary>
    public virtual double ExtraGrip => 0;

    /// <summary>Its ends before it is placed.</summary>
    internal IReadOnlyList<PartEnd> Ways { get; init; } = [];

    private IReadOnlyList<Port> placed = [];

    /// <summary>The component at its place.</summary>
    internal Component Placed(string id, int run, int leg, Point workPoint, IReadOnlyList<Port> ports, MaterialItem? item, bool isItemGuessed, string? spool) =>
        this with { Id = id, Run = run, Leg = leg, WorkPoint = workPoint, placed = ports, Item = item, IsItemGuessed = isItemGuessed, SpoolName = spool };
}

/// <summary>The way on which an end of a component lies, seen from the work point.</summary>
internal enum Way
{
    /// <summary>Back along the leg that comes in.</summary>
    In,

    /// <summary>Forth along the leg that goes out.</summary>
    Out,

    Branch,

    /// <summary>Forth along the leg behind the other corner of a return bend, from that corner.</summary>
    BehindReturn,
}

/// <summary>An end of a component before it is placed: so far from the work point along a way, looking away from the work point (1) or back to it (-1).</summary>
internal readonly record struct PartEnd(PortName Name, Way Way, double Along, double Outside, double Bore, int Looks = 1);
