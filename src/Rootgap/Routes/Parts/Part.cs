using Rootgap.Drawings;
using Rootgap.Measure;
using Rootgap.Standards;

namespace Rootgap.Routes;

/// <summary>Which end of a part it is. Along a run the line comes in at <see cref="RunIn"/>; a tee entered by its branch has the line come in at <see cref="Branch"/>.</summary>
public enum PortName
{
    RunIn,
    RunOut,
    Branch,

    /// <summary>Where it is welded on: a flange's neck, a cap's rim, an outlet's foot on its header.</summary>
    Weld,

    /// <summary>A face against which something is bolted.</summary>
    Face,
}

/// <summary>An end of a part.</summary>
/// <param name="At">Its middle, mm.</param>
/// <param name="Face">Unit vector that points out of the part.</param>
/// <param name="Outside">Outside diameter there, mm: what a tape's hook or a lip is held to; 0 where no table has it.</param>
/// <param name="Bore">Inside diameter there, mm.</param>
public readonly record struct Port(PortName Name, Point At, Vector Face, double Outside, double Bore);

/// <summary>What a part weighs, kg, and where the figure comes from.</summary>
public sealed record Mass(double Kg, Origin Origin);

/// <summary>
/// Anything of which a line is made, placed in space. A closed family: each kind is one sealed type in a file of its own, and answers here for itself what the
/// model, views, boxes, clashes, fit-up, weights and the material list ask.
/// </summary>
public abstract record Part
{
    private protected Part()
    {
    }

    /// <summary>Pipes <c>P1</c>, <c>P2</c> ..., components <c>C1</c>, <c>C2</c> ..., along the line.</summary>
    public string Id { get; init; } = "";

    /// <summary>Its largest nominal size; an outlet's is that of its branch.</summary>
    public required NominalSize Size { get; init; }

    /// <summary>What the leg there is made of.</summary>
    public required Line Line { get; init; }

    /// <summary>Index of the run in the drawing.</summary>
    public int Run { get; init; }

    /// <summary>Outside diameter of its tube at <see cref="Size"/>, mm; 0 where the standard has none.</summary>
    public double Outside { get; init; }

    /// <summary>Wall of its tube at <see cref="Size"/>, mm; 0 where the standard has none.</summary>
    public double Wall { get; init; }

    /// <summary>The row of the material list: as the drawing says, or as guessed; null where none fits.</summary>
    public MaterialItem? Item { get; init; }

    /// <summary>What it is made of: as its row of the list says, else as the line says; empty where neither does.</summary>
    public string Material => Item?.Material is { Length: > 0 } listed ? listed : Line.Material;

    /// <summary>The drawing does not say the item: it was found by kind, size and rating.</summary>
    public bool IsItemGuessed { get; init; }

    /// <summary>The kind in a word, as the packet writes it: <c>elbow</c>, <c>flange</c>.</summary>
    public abstract string Word { get; }

    /// <summary>Its name for people: <c>elbow 90 LR</c>, <c>flange WN</c>, <c>valve gate</c>.</summary>
    public abstract string Name { get; }

    /// <summary>Its name with what else tells it from its like in a list: <c>strainer socket</c>, <c>valve check wafer</c>.</summary>
    public virtual string DrawnAs => Name;

    /// <summary>What a material list calls it.</summary>
    public abstract Ware Ware { get; }

    /// <summary>Ends along the line, the branch last.</summary>
    public abstract IReadOnlyList<Port> Ports { get; }

    /// <summary>Its outside, by the dimensions of the standards.</summary>
    public abstract IReadOnlyList<Solid> Bodies { get; }

    /// <summary>What a picture shows of it: its bodies, or a nearer likeness where no standard gives a shape.</summary>
    public virtual IReadOnlyList<Solid> Picture => Bodies;

    /// <summary>Its mass; null where nobody knows it.</summary>
    public abstract Mass? Mass { get; }

    /// <summary>Centre of mass of its solid.</summary>
    public abstract Point Centre { get; }

    /// <summary>Whether its ends show how it is turned about the pipe: an elbow does, a round end on the pipe's own axis does not.</summary>
    public abstract bool ShowsClock { get; }

    /// <summary>The class by which it is ordered: of a flange, or of a forged fitting; empty where there is none.</summary>
    public virtual string RatingClass => "";

    /// <summary>Whether it is ordered by the schedule of the pipe.</summary>
    public virtual bool IsBySchedule => false;

    /// <summary>Whether a row of the list may be its own by the row's size; a support's may leave it out.</summary>
    internal virtual bool IsListedIn(MaterialItem row) => row.Size == Size;

    /// <summary>Whether it may be ordered with another wall at each end.</summary>
    public virtual bool IsTwoWalled => false;

    /// <summary>Whether it has faces against which something is bolted, so that a list names their facing.</summary>
    public virtual bool HasFacing => false;

    /// <summary>Whether the words of a list row name another kind than this one: short radius for long, slip-on for weld neck.</summary>
    public virtual bool IsOtherKind(WareWords words) => false;

    /// <summary>Whether a list row is of its kind, by the row's words.</summary>
    internal virtual bool IsListedAs(MaterialItem row) => row.Words.Ware == Ware;

    /// <summary>How well a list row of its ware and size fits it, more the better; null where the row cannot be it.</summary>
    internal abstract int? Fits(MaterialItem row);

    /// <summary>Inside diameter of its tube, mm.</summary>
    public double Inside => Math.Max(0, Outside - (2 * Wall));

    /// <summary>Density of what it is made of, kg/mm³.</summary>
    private protected double Density => Metals.Density(Line.Material);

    /// <summary>Mass per length of its tube, kg/mm.</summary>
    private protected double PerLength => Pipes.MassPerLength(Outside, Wall, Density);

    /// <summary>The port with a name; the part must have it.</summary>
    private protected Port Of(PortName name)
    {
        foreach (var port in Ports)
        {
            if (port.Name == name)
                return port;
        }

        throw new InvalidOperationException($"{Word} {Id} has no end {name}.");
    }

    /// <summary>The end across the part from one of its ends: what stands straight on, or, where nothing does, the other end.</summary>
    public Port? Across(Port port)
    {
        Port? other = null;
        foreach (var p in Ports)
        {
            if (p == port)
                continue;
            if (p.Face.Dot(port.Face) < -0.99)
                return p;
            other ??= p;
        }

        return other;
    }
}
