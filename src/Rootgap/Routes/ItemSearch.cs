using Rootgap.Drawings;
using Rootgap.Measure;
using Rootgap.Standards;

namespace Rootgap.Routes;

/// <summary>Finds the row of the material list that a component or a pipe is: by kind and size first, then the row that agrees in most else.</summary>
internal static class ItemSearch
{
    public static MaterialItem? Find(IReadOnlyList<MaterialItem> list, Part part)
    {
        MaterialItem? best = null;
        var most = 0;
        foreach (var row in list)
        {
            // What the row does not say counts for nothing, what it says otherwise against it.
            if (!part.IsListedAs(row) || !part.IsListedIn(row) || part.Fits(row) is not { } fits)
                continue;
            var score = Likely + fits;
            if (score > most)
                (best, most) = (row, score);
        }

        return best;
    }

    /// <summary>What kind and size alone count for.</summary>
    private const int Likely = 100;

    /// <summary>Whether a schedule on the list is the pipe drawn: by its name, or by its wall (NPS 6 STD is schedule 40).</summary>
    internal static bool SameWall(string listed, Schedule drawn, NominalSize size)
    {
        if (Pipes.ScheduleName(listed) is not { } name)
            return true;
        if (name == drawn.Name)
            return true;
        var a = Pipes.Wall(size, name)?.Figure;
        var b = drawn.Wall ?? Pipes.Wall(size, drawn.Name)?.Figure;
        return a is { } x && b is { } y && Math.Abs(x - y) < 0.02;
    }

    internal static int Weigh(bool agrees, int weight) => agrees ? weight : -weight;

    internal static int Schedule(MaterialItem row, Part part) => row.Schedule.Length == 0 ? 0
        : Weigh(SameWall(row.Schedule, part.Line.Schedule, part.Size), 4) + (Pipes.ScheduleName(row.Schedule) == part.Line.Schedule.Name ? 1 : 0);

    internal static int Ends(MaterialItem row, FittingEnds drawn) => row.Words.Ends is { } ends ? Weigh(ends == drawn, 8) : 0;

    internal static int Facing(MaterialItem row, Line line) => row.Words.Facing is { } facing ? Weigh(facing == line.Facing, 2) : 0;

    internal static int FlangeClass(MaterialItem row, Line line) => row.Class.Length > 0 ? Weigh(row.Class == line.Class, 4) : 0;

    internal static int ForgedClass(MaterialItem row, Part part, FittingEnds ends) =>
        row.Class.Length > 0 ? Weigh(ends != FittingEnds.Butt && row.Class == part.Line.FittingClass, 4) : 0;
}
