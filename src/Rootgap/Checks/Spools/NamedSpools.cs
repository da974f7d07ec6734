using Rootgap.Drawings;
using Rootgap.Routes;

namespace Rootgap.Checks;

/// <summary>A spool's name as the drawing writes it, beside the part that it is written for.</summary>
/// <param name="Part">Id of the component or pipe.</param>
internal readonly record struct NamedPart(string Name, string Part, SourceRow Row)
{
    /// <summary>In the order of the file.</summary>
    public static List<NamedPart> AllOf(Route route)
    {
        var named = new List<NamedPart>();
        foreach (var c in route.Components)
        {
            if (c is { IsLoose: false, SpoolName: { } name })
                named.Add(new(name, c.Id, c.Source));
        }

        foreach (var (name, pipe, row) in route.NamedPipes)
            named.Add(new(name, pipe.Id, row));

        if (named.Count > 1)
            named.Sort((a, b) => a.Row.Where.Line != b.Row.Where.Line ? a.Row.Where.Line.CompareTo(b.Row.Where.Line) : a.Row.Where.Column.CompareTo(b.Row.Where.Column));
        return named;
    }
}
