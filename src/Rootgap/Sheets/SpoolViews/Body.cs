using Rootgap.Fabricating;
using Rootgap.Measure;
using Rootgap.Routes;

namespace Rootgap.Sheets;

/// <summary>A solid of a part of a spool, as a view shows it.</summary>
/// <param name="Part">Id of the component or the pipe.</param>
internal sealed record Body(string Part, Solid Solid)
{
    /// <summary>Corners of a block of plate, which a picture shows in the solid's stead: no solid has edges. Empty where it is round.</summary>
    public IReadOnlyList<Point> Corners { get; init; } = [];

    /// <summary>How the ends of a bar are cut where they are to lie on a header that is not in the picture.</summary>
    public (SaddleEnd? From, SaddleEnd? To) Saddles { get; init; }

    /// <summary>The solids of all parts of a spool, pipe with the final-fit extra that it leaves the shop with.</summary>
    public static IReadOnlyList<Body> Of(Spool spool) =>
    [
        .. spool.Cuts.SelectMany(cut => cut.AsCut.Picture.Select(s => new Body(cut.Pipe.Id, s) { Saddles = Free(spool, cut) })),
        .. spool.Supports.SelectMany(Of),
        .. spool.Components.SelectMany(c => c.Picture.Select(s => new Body(c.Id, s))),
    ];

    /// <summary>How broad a shoe's web and base are and how thick its base is, in diameters of the pipe, where nobody says (common practice, for pictures only).</summary>
    private const double Web = 0.12, Base = 0.6, Thick = 0.06;

    // A shoe is a web under the pipe with a base on it, as long and as high as the drawing says; what takes hold otherwise is round.
    private static IEnumerable<Body> Of(Support support)
    {
        if (support is not { Drawn: { Kind: Drawings.SupportKind.Shoe, IsWelded: true, Height: { } height }, Side: { } side } || support.Picture.Count == 0)
            return support.Picture.Select(s => new Body(support.Id, s));
        var across = side.Cross(support.Along).Unit;
        var half = (support.Drawn.Length ?? (support.Outside * Base)) / 2;
        var thick = Math.Min(support.Outside * Thick, height / 2);
        Body Block(double near, double far, double broad) => new(support.Id, support.Picture[^1])
        {
            Corners = [.. from along in (double[])[-half, half] from off in (double[])[-broad / 2, broad / 2] from down in (double[])[near, far] select support.Contact + (support.Along * along) + (across * off) + (side * down)],
        };
        return [Block(0, height - thick, support.Outside * Web), Block(height - thick, height, support.Outside * Base)];
    }

    // On its header a saddle shows no edge of its own.
    private static (SaddleEnd?, SaddleEnd?) Free(Spool spool, Cut cut)
    {
        bool IsOn(Point end, Point other) => spool.Joints.Any(j => j.Kind == JointKind.Branch && j.Between.Contains(cut.Pipe.Id, StringComparer.Ordinal) && j.At.To(end) < j.At.To(other));
        var (pipe, (start, end)) = (cut.Pipe, cut.SaddlesAsCut);
        return (IsOn(pipe.Start, pipe.End) ? null : start, IsOn(pipe.End, pipe.Start) ? null : end);
    }
}
