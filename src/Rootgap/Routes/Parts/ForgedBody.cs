using Rootgap.Drawings;
using Rootgap.Measure;
using Rootgap.Standards;

namespace Rootgap.Routes;

/// <summary>The body of a socket-weld or threaded fitting (ASME B16.11).</summary>
/// <param name="Diameter">Of the body round the pipe, mm: round the socket by its bore and the body's wall, round the thread by the band; null where no table has it.</param>
public sealed record ForgedBody(ForgedFitting Table, double? Diameter)
{
    internal static ForgedBody Of(StationMaking make, ForgedFitting table, Situation s)
    {
        double? Value(Dimension dimension) => make.Book.Try(dimension, s.Size, @class: s.Line.FittingClass);
        return new(table, table.BodyWall is null ? Value(table.Around) : Value(table.Around) + (2 * Value(table.BodyWall)));
    }

    /// <summary>The fitting as a tube of its own body along its branches; null where the table does not tell.</summary>
    internal Mass? MassOf(Component c, double density) => TubeOf(c, Diameter, c.Ports.Sum(p => p.At.To(c.WorkPoint)), density);

    /// <summary>A tube of a body's diameter and a length, bored as its pipe; null where the table does not tell the diameter.</summary>
    internal static Mass? TubeOf(Component c, double? body, double length, double density) => body is not { } diameter || diameter <= c.Outside
        ? null
        : new(Pipes.MassPerLength(diameter, (diameter - c.Outside + (2 * c.Wall)) / 2, density) * length, TubeOfBody);

    private static readonly Origin TubeOfBody = new Origin.Rule("estimate: a tube of the fitting's body (ASME B16.11)");

    /// <summary>The pipe's end in a forged elbow or tee, and the distance of the fitting's own face from the work point, mm.</summary>
    internal static (PipeEnd End, double Face) End(StationMaking make, Situation s, ForgedFitting table, MaterialItem? item, NominalSize size)
    {
        if (s.Line.Ends == FittingEnds.Socket)
        {
            var term = make.Measured(item, make.Book.Term(s.Source, "centre to socket bottom", table.CentreToStop, size, @class: s.Line.FittingClass));
            return (make.Book.Socket(term), -term.Mm + make.SocketDepth(s, size).Mm);
        }

        var toEnd = make.Measured(item, make.Book.Term(s.Source, "centre to end", table.CentreToStop, size, @class: s.Line.FittingClass));
        return (make.Book.Threaded(s.Source, size, toEnd), -toEnd.Mm);
    }
}
