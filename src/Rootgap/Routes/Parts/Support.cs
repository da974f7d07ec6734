using Rootgap.Drawings;
using Rootgap.Measure;
using Rootgap.Standards;

namespace Rootgap.Routes;

/// <summary>A support or an attachment on a straight pipe: nothing of the line itself, so it stands among <see cref="Route.Supports"/> and not among the components.</summary>
public sealed record Support : Part
{
    /// <summary>How high, long and thick it is where the drawing does not say, mm or in diameters of the pipe: for pictures only.</summary>
    private const double LikelyHeight = 100, LikelyRod = 600, LikelyLength = 0.6, LikelyBreadth = 0.3, LikelyRodRadius = 0.08, LikelyCollar = 0.62;

    /// <summary>The row as drawn.</summary>
    public required SupportPoint Drawn { get; init; }

    /// <summary>Index of the leg at whose end it stands.</summary>
    public required int Leg { get; init; }

    public required SourceRow Source { get; init; }

    /// <summary>Id of the pipe that goes through.</summary>
    public required string Pipe { get; init; }

    /// <summary>Its middle on the pipe's middle line.</summary>
    public required Point At { get; init; }

    /// <summary>Unit direction of the pipe.</summary>
    public required Vector Along { get; init; }

    /// <summary>Its weld on the pipe; null where it is clamped. It parts nothing: no spool ends there, and no length hangs on it.</summary>
    public Joint? Weld { get; init; }

    /// <summary>What people call it: the drawing's tag, else its id.</summary>
    public string Tag => Drawn.Tag.Length > 0 ? Drawn.Tag : Id;

    /// <summary>It is welded on in the shop and leaves with its spool.</summary>
    public bool IsOfSpool => Weld is { Place: WeldPlace.Shop };

    /// <summary>The side of the pipe on which it stands; null where the drawing has to say and does not.</summary>
    public Vector? Side => Drawn.SideOn(Along);

    /// <summary>What it covers of the pipe to each side of its middle where the drawing does not say, in diameters (common practice: half a diameter in all).</summary>
    private const double LeastCover = 0.25;

    /// <summary>What it covers of the pipe to each side of its middle, mm.</summary>
    public double Covers => Drawn.Length is { } length ? length / 2 : Outside * LeastCover;

    /// <summary>Whether the pipe's weight can rest on it.</summary>
    public bool Carries => Drawn.Carries(Along);

    /// <summary>Where the pipe's outside touches it: below, on its side; the pipe's middle line where no side is known.</summary>
    public Point Contact => Side is { } side ? At + (side * (Outside / 2)) : At;

    /// <summary>The pipe stands too steep there to have an underside.</summary>
    public bool IsOnRiser => SupportPoint.IsSteep(Along);

    /// <summary>Elevation of the pipe's underside at its middle, mm: what a level is held to; on a riser that of its middle.</summary>
    public double Underside => IsOnRiser ? At.Z : At.Z - (Outside / 2 * Math.Sqrt(Math.Max(0, 1 - (Along.Z * Along.Z))));

    /// <summary>Elevation of the steel on which it stands or from which it hangs, mm; null where the drawing does not say how high it is, or it stands at the pipe's side.</summary>
    public double? Steel => Drawn.Height is { } height && Side is { } side && Math.Abs(side.Z) > 0.7 ? Contact.Z + (side.Z * height) : null;

    public override string Word => "support";

    public override string Name => Drawn.KindWord;

    public override Ware Ware => Ware.Support;

    /// <summary>A row without a size may be any support's, one that bears its mark is its own, and trunnions and lugs are listed by their own plate or pipe.</summary>
    internal override bool IsListedIn(MaterialItem row) => row.Size.IsNone || row.Size == Size || Drawn.Kind is SupportKind.Trunnion or SupportKind.Lug || IsMarked(row);

    /// <summary>Whether the words of a row hold its mark as it is, and not as a part of a longer one: PS-4 is not PS-41.</summary>
    internal bool IsMarked(MaterialItem row)
    {
        var (what, mark) = (row.What, Drawn.Tag);
        for (var at = mark.Length == 0 ? -1 : what.IndexOf(mark, StringComparison.OrdinalIgnoreCase); at >= 0; at = what.IndexOf(mark, at + 1, StringComparison.OrdinalIgnoreCase))
        {
            var behind = at + mark.Length;
            if ((at == 0 || !char.IsLetterOrDigit(what[at - 1])) && (behind == what.Length || !char.IsLetterOrDigit(what[behind])))
                return true;
        }

        return false;
    }

    public override IReadOnlyList<Port> Ports => [];

    public override bool ShowsClock => true;

    /// <summary>As high and as long as the drawing says; how broad it is nobody says.</summary>
    public override IReadOnlyList<Solid> Bodies => Drawn.Height is { } height && Side is { } side && Outside > 0 ? [Foot(side, height)] : [];

    public override IReadOnlyList<Solid> Picture
    {
        get
        {
            if (Outside <= 0)
                return [];
            var solids = new List<Solid>();
            var isHung = Drawn.Kind == SupportKind.Hanger;
            if (!Drawn.IsWelded || Drawn.Kind == SupportKind.Anchor)
            {
                var half = Along * ((Drawn.Length ?? (Outside * LikelyLength)) / 2);
                solids.Add(Solid.Cylinder(At - half, At + half, Outside * LikelyCollar) with { IsSetOn = true });
            }

            // On an upright pipe ears and stubs stand on both sides.
            IEnumerable<Vector> sides = Side is { } side ? [side] : Drawn.IsWelded ? [Along.AnySquare(), -Along.AnySquare()] : [];
            foreach (var way in sides)
                solids.Add(Foot(way, Drawn.Height ?? (isHung ? LikelyRod : LikelyHeight)));
            return solids;
        }
    }

    private Solid Foot(Vector side, double height)
    {
        var from = At + (side * (Outside / 2));
        var radius = Outside * (Drawn.Kind == SupportKind.Hanger ? LikelyRodRadius : LikelyBreadth);
        return Solid.Cylinder(from, from + (side * height), radius) with { IsSetOn = true };
    }

    public override Mass? Mass => Drawn.Mass is { } kg ? new(kg, Origin.Drawing) : null;

    public override Point Centre => Side is { } side ? Contact + (side * ((Drawn.Height ?? 0) / 2)) : At;

    /// <summary>A list names it by its mark, or by its kind; a row that only says support may be any.</summary>
    internal override int? Fits(MaterialItem row)
    {
        bool Has(string word) => row.What.Contains(word, StringComparison.OrdinalIgnoreCase);
        var isMarked = IsMarked(row);
        if (!isMarked && !Has(Name) && !Has("support"))
            return null;
        var isAnothers = !isMarked && row.What.Split(' ').Any(w => w.Any(char.IsAsciiDigit));
        return (isMarked ? 40 : 0) + (Has(Name) ? 10 : 0) + (row.Size.IsNone ? 0 : 4) - (isAnothers ? 20 : 0);
    }
}
