using Rootgap.Drawings;
using Rootgap.Measure;
using Rootgap.Standards;

namespace Rootgap.Routes;

/// <summary>Finds the row of the material list that a component or a pipe is: by kind and size first, then the row that agrees in most else.</summary>
internal static class ItemSearch
{
    public static MaterialItem? Find(IReadOnlyList<MaterialItem> list, Part part, Line line)
    {
        MaterialItem? best = null;
        var most = 0;
        foreach (var row in list)
        {
            var score = Score(row, part, line);
            if (score > most)
                (best, most) = (row, score);
        }

        return best;
    }

    public static MaterialItem? Pipe(IReadOnlyList<MaterialItem> list, NominalSize size, Line line) =>
        Find(list, new Part(Ware.Pipe, "pipe", size), line);

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

    /// <summary>0 where the row cannot be this part; more the better it agrees. What the row does not say counts for nothing, what it says otherwise against it.</summary>
    private static int Score(MaterialItem row, Part part, Line line)
    {
        var words = row.Words;
        if (words.Ware != part.Ware || row.Size != part.Size)
            return 0;
        if (part.Ware is Ware.Reducer or Ware.Tee && row.Size2 != part.Size2 && !(row.Size2.IsNone && part.Ware == Ware.Reducer))
            return 0;
        if (part.Ware == Ware.Valve && words.Valve is { } valve && !part.Name.EndsWith(DrawingShape.ValveKinds[(int)valve], StringComparison.Ordinal))
            return 0;
        if (part.Ware == Ware.Elbow && AngleOf(part.Name) is { } turn && words.Angle is { } angle && angle != turn)
            return 0;
        var score = 100;
        if (part.Ware == Ware.Elbow)
            score += Weigh((words.Radius ?? ElbowRadius.Long) == RadiusOf(part.Name), 8) + (words.Angle is null ? 0 : 4);
        if (part.Ware == Ware.Flange && words.Flange is { } kind)
            score += Weigh(kind == (part.Name == "flange LJ" ? FlangeKind.LapJoint : line.Flange), 8);
        if (part.Ware is Ware.Flange or Ware.Gasket && words.Facing is { } facing)
            score += Weigh(facing == line.Facing, 2);
        if (part.Ware == Ware.Reducer)
            score += Weigh((words.IsEccentric ?? false) == part.Name.EndsWith("eccentric", StringComparison.Ordinal), 4);
        if (part.Ware is Ware.Valve or Ware.Outlet or Ware.Elbow or Ware.Tee or Ware.Cap && words.Ends is { } ends)
            score += Weigh(ends == (part.Joins ?? line.Ends), 8);
        if (part.Ware == Ware.Outlet && !row.Size2.IsNone)
            score += Weigh(row.Size2 == part.Size2, 4);
        if (part.Ware is Ware.Flange or Ware.Gasket or Ware.Valve && row.Class.Length > 0)
            score += Weigh(row.Class == line.Class, 4);
        if (part.Ware is Ware.Elbow or Ware.Tee or Ware.Cap or Ware.Outlet && row.Class.Length > 0)
            score += Weigh((part.Joins ?? line.Ends) != FittingEnds.Butt && row.Class == line.FittingClass, 4);
        if (part.Ware is Ware.Pipe or Ware.Elbow or Ware.Tee or Ware.Reducer or Ware.Cap && row.Schedule.Length > 0)
            score += Weigh(SameWall(row.Schedule, line.Schedule, part.Size), 4) + (Pipes.ScheduleName(row.Schedule) == line.Schedule.Name ? 1 : 0);
        if (part.Ware == Ware.Pipe && row.Material.Length > 0 && line.Material.Length > 0)
            score += Weigh(row.Material.Equals(line.Material, StringComparison.OrdinalIgnoreCase), 2);
        return score;
    }

    private static int Weigh(bool agrees, int weight) => agrees ? weight : -weight;

    /// <summary>The angle of a stock elbow; null for a bend, which is made to any.</summary>
    private static int? AngleOf(string name) => name.StartsWith("bend", StringComparison.Ordinal) ? null : name.Contains("45", StringComparison.Ordinal) ? 45 : 90;

    private static ElbowRadius RadiusOf(string name) => name switch
    {
        _ when name.EndsWith("SR", StringComparison.Ordinal) => ElbowRadius.Short,
        _ when name.EndsWith("3D", StringComparison.Ordinal) => ElbowRadius.ThreeD,
        _ when name.EndsWith("5D", StringComparison.Ordinal) => ElbowRadius.FiveD,
        _ => ElbowRadius.Long,
    };
}
