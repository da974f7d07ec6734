using Rootgap.Fabricating;
using Rootgap.Measure;

namespace Rootgap.Sheets;

/// <summary>A solid of a part of a spool, as a view shows it.</summary>
/// <param name="Part">Id of the component or the pipe.</param>
internal readonly record struct Body(string Part, Solid Solid)
{
    /// <summary>The solids of all parts of a spool, pipe with the final-fit extra that it leaves the shop with.</summary>
    public static IReadOnlyList<Body> Of(Spool spool) =>
    [
        .. spool.Cuts.SelectMany(cut => cut.AsCut.Picture.Select(s => new Body(cut.Pipe.Id, s))),
        .. spool.Supports.SelectMany(p => p.Picture.Select(s => new Body(p.Id, s))),
        .. spool.Components.SelectMany(c => c.Picture.Select(s => new Body(c.Id, s))),
    ];
}
