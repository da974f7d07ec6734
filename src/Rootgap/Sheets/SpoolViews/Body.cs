using Rootgap.Fabricating;
using Rootgap.Measure;
using Rootgap.Routes;

namespace Rootgap.Sheets;

/// <summary>A solid of a part of a spool, as a view shows it.</summary>
/// <param name="Part">Id of the component or the pipe.</param>
internal readonly record struct Body(string Part, Solid Solid)
{
    /// <summary>How the ends of a bar are cut where they are to lie on a header that is not in the picture.</summary>
    public (SaddleEnd? From, SaddleEnd? To) Saddles { get; init; }

    /// <summary>The solids of all parts of a spool, pipe with the final-fit extra that it leaves the shop with.</summary>
    public static IReadOnlyList<Body> Of(Spool spool) =>
    [
        .. spool.Cuts.SelectMany(cut => cut.AsCut.Picture.Select(s => new Body(cut.Pipe.Id, s) { Saddles = Free(spool, cut) })),
        .. spool.Supports.SelectMany(p => p.Picture.Select(s => new Body(p.Id, s))),
        .. spool.Components.SelectMany(c => c.Picture.Select(s => new Body(c.Id, s))),
    ];

    // On its header a saddle shows no edge of its own.
    private static (SaddleEnd?, SaddleEnd?) Free(Spool spool, Cut cut)
    {
        bool IsOn(Point end, Point other) => spool.Joints.Any(j => j.Kind == JointKind.Branch && j.Between.Contains(cut.Pipe.Id, StringComparer.Ordinal) && j.At.To(end) < j.At.To(other));
        var (pipe, (start, end)) = (cut.Pipe, cut.SaddlesAsCut);
        return (IsOn(pipe.Start, pipe.End) ? null : start, IsOn(pipe.End, pipe.Start) ? null : end);
    }
}
