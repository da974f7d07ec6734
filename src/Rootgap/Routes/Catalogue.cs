using Rootgap.Drawings;
using Rootgap.Findings;
using Rootgap.Measure;
using Rootgap.Standards;

namespace Rootgap.Routes;

/// <summary>Looks dimensions up in the column of the drawing's units. A size that a standard does not have is a finding; the look-up then gives 0 and the sum says so.</summary>
internal sealed class Catalogue(Drawing drawing, List<Finding> findings)
{
    private readonly HashSet<string> told = new(StringComparer.Ordinal);

    public Units Units => drawing.Units;

    public ShopRules Shop => drawing.Shop;

    /// <summary>One dimension, mm, with its source.</summary>
    public (double Mm, string Source) Find(
        SourceRow where, string table, string item, string attribute, NominalSize nps, NominalSize nps2 = default, string schedule = "", string @class = "")
    {
        if (StandardTable.Find(table, item, attribute, nps, nps2, schedule, @class) is { } row)
            return (row.In(Units), row.Source);
        var message = StandardTable.Missing(table, item, attribute, nps, nps2, schedule, @class);
        if (told.Add(where.Path + message))
            findings.Add(new("not-in-the-standard", Severity.Stop, where.Path, where["to"], message + ".", "Choose a size that the standard has, or ask the engineer."));
        return (0, "not in the standard");
    }

    /// <summary>A dimension that may be missing without fault; null then.</summary>
    public double? Try(string table, string item, string attribute, NominalSize nps, NominalSize nps2 = default, string schedule = "", string @class = "") =>
        StandardTable.Find(table, item, attribute, nps, nps2, schedule, @class)?.In(Units);

    public double Outside(SourceRow where, NominalSize size) => Find(where, "pipe", "pipe", "outside diameter", size).Mm;

    public double Wall(SourceRow where, NominalSize size, Schedule schedule) =>
        schedule.Wall ?? Find(where, "pipe", "pipe", "wall", size, schedule: schedule.Name).Mm;

    public Term Term(SourceRow where, string what, string table, string item, string attribute, NominalSize nps, NominalSize nps2 = default, string schedule = "", string @class = "")
    {
        var (mm, source) = Find(where, table, item, attribute, nps, nps2, schedule, @class);
        return new(what, -mm, source);
    }

    /// <summary>How a pipe ends at a socket: the term to its bottom and the gap that keeps it off the bottom.</summary>
    public PipeEnd Socket(params Term[] toBottom) => new(EndKind.Socket, [.. toBottom, new("off the bottom of the socket", -Shop.SocketGap, "shop rule")]);

    /// <summary>How a pipe ends in a thread: the term to the fitting's end, less the engagement.</summary>
    public PipeEnd Threaded(SourceRow where, NominalSize size, params Term[] toEnd)
    {
        var (mm, source) = Find(where, "threads", "thread NPT", "normal engagement", size);
        return new(EndKind.Threaded, [.. toEnd, new("thread engagement", mm, source)]);
    }
}
