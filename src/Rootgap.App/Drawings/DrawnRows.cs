using Rootgap.Fabricating;
using Rootgap.Routes;

namespace Rootgap.App.Drawings;

/// <summary>Which components and pipes of a drawing were drawn from which row of its file, both ways.</summary>
public sealed class DrawnRows
{
    private readonly Dictionary<string, string> rows = new(StringComparer.Ordinal);
    private readonly Dictionary<string, List<string>> parts = new(StringComparer.Ordinal);

    public DrawnRows(Fabrication fabrication)
    {
        var route = fabrication.Route;
        foreach (var c in route.Components)
            Add(c.Id, c.Source.Path.ToString());
        foreach (var s in route.Supports)
            Add(s.Id, s.Source.Path.ToString());
        foreach (var p in route.Pipes)
        {
            for (var leg = p.FirstLeg; leg <= p.LastLeg; leg++)
                Add(p.Id, route.Runs[p.Run].Run.Legs[leg].Source.Path.ToString());
        }
    }

    /// <summary>The row of a component or pipe, such as <c>runs[0].legs[2]</c> or <c>runs[0].start</c>; empty where there is none. A pipe that runs through several legs is its first leg's.</summary>
    public string RowOf(string part) => rows.GetValueOrDefault(part, "");

    /// <summary>The components and pipes of a row.</summary>
    public IReadOnlyList<string> PartsOf(string row) => parts.GetValueOrDefault(row) ?? [];

    private void Add(string part, string row)
    {
        rows.TryAdd(part, row);
        if (!parts.TryGetValue(row, out var list))
            parts[row] = list = [];
        list.Add(part);
    }
}
