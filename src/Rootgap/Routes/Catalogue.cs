using Rootgap.Drawings;
using Rootgap.Findings;
using Rootgap.Measure;
using Rootgap.Standards;

namespace Rootgap.Routes;

/// <summary>Looks dimensions up in the column of the drawing's units. A size that a standard does not have is a finding; the look-up then gives 0 and the sum says so.</summary>
internal sealed class Catalogue(Drawing drawing, List<Finding> findings)
{
    private readonly HashSet<(RowPath, string)> told = [];

    public Units Units => drawing.Units;

    public ShopRules Shop => drawing.Shop;

    /// <summary>One dimension, mm, with its source.</summary>
    public (double Mm, Origin Origin) Find(SourceRow where, Dimension dimension, NominalSize nps, NominalSize nps2 = default, string schedule = "", string @class = "")
    {
        if (dimension.Of(nps, nps2, schedule, @class) is { } row)
            return (row.In(Units), new Origin.Table(row));
        var message = dimension.Missing(nps, nps2, schedule, @class);
        if (told.Add((where.Path, message)))
            findings.Add(new("not-in-the-standard", Severity.Stop, where.Path, where["to"], message + ".", "Choose a size that the standard has, or ask the engineer."));
        return (0, Origin.NotInTheStandard);
    }

    /// <summary>A dimension that may be missing without fault; null then.</summary>
    public double? Try(Dimension dimension, NominalSize nps, NominalSize nps2 = default, string schedule = "", string @class = "") =>
        dimension.Of(nps, nps2, schedule, @class)?.In(Units);

    public double Outside(SourceRow where, NominalSize size) => Find(where, PipeTable.Outside, size).Mm;

    public double Wall(SourceRow where, NominalSize size, Schedule schedule) =>
        schedule.Wall ?? Find(where, PipeTable.Wall, size, schedule: schedule.Name).Mm;

    public Term Term(SourceRow where, string what, Dimension dimension, NominalSize nps, NominalSize nps2 = default, string schedule = "", string @class = "")
    {
        var (mm, origin) = Find(where, dimension, nps, nps2, schedule, @class);
        return new(what, -mm, origin);
    }

    /// <summary>How a pipe ends at a socket: the term to its bottom and the gap that keeps it off the bottom.</summary>
    public PipeEnd Socket(params Term[] toBottom) => new(EndKind.Socket, [.. toBottom, new("off the bottom of the socket", -Shop.SocketGap, Origin.ShopRule)]);

    /// <summary>How a pipe ends in a thread: the term to the fitting's end, less the engagement.</summary>
    public PipeEnd Threaded(SourceRow where, NominalSize size, params Term[] toEnd)
    {
        var (mm, origin) = Find(where, Threads.NormalEngagement, size);
        return new(EndKind.Threaded, [.. toEnd, new("thread engagement", mm, origin)]);
    }
}
