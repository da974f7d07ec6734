using Rootgap.Drawings;
using Rootgap.Measure;

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

    /// <summary>0 where the row cannot be this part; more the better it agrees.</summary>
    private static int Score(MaterialItem row, Part part, Line line)
    {
        var words = row.Words;
        var isLapFlange = part.Ware == Ware.Flange && part.Name == "flange LJ";
        if (words.Ware != part.Ware || row.Size != part.Size && !(part.Ware == Ware.StudBolt))
            return 0;
        if (part.Ware is Ware.Reducer or Ware.Tee && row.Size2 != part.Size2 && !(row.Size2.IsNone && part.Ware == Ware.Reducer))
            return 0;
        var score = 1;
        score += Agrees(words.Angle, part.Name.Contains("45", StringComparison.Ordinal) ? 45 : 90, part.Ware == Ware.Elbow, 8);
        if (part.Ware == Ware.Elbow && words.Angle is { } angle && angle != (part.Name.Contains("45", StringComparison.Ordinal) ? 45 : 90))
            return 0;
        score += Agrees(words.Radius ?? ElbowRadius.Long, RadiusOf(part.Name), part.Ware == Ware.Elbow, 4);
        score += Agrees(words.Flange, isLapFlange ? FlangeKind.LapJoint : line.Flange, part.Ware == Ware.Flange, 4);
        score += Agrees(words.Facing, line.Facing, part.Ware is Ware.Flange, 2);
        score += Agrees(words.IsEccentric ?? false, part.Name.EndsWith("eccentric", StringComparison.Ordinal), part.Ware == Ware.Reducer, 4);
        if (part.Ware == Ware.Valve && words.Valve is { } valve && !part.Name.EndsWith(DrawingShape.ValveKinds[(int)valve], StringComparison.Ordinal))
            return 0;
        if (row.Class.Length > 0 && part.Ware is Ware.Flange or Ware.Gasket or Ware.Valve)
            score += row.Class == line.Class ? 4 : 0;
        if (row.Schedule.Length > 0 && part.Ware is Ware.Pipe or Ware.Elbow or Ware.Tee or Ware.Reducer or Ware.Cap)
            score += row.Schedule.Equals(line.Schedule.Name, StringComparison.OrdinalIgnoreCase) ? 4 : 0;
        if (row.Material.Length > 0 && part.Ware == Ware.Pipe)
            score += row.Material.Equals(line.Material, StringComparison.OrdinalIgnoreCase) ? 2 : 0;
        return score;
    }

    private static int Agrees<T>(T? said, T wanted, bool matters, int weight)
        where T : struct => matters && said is { } value && EqualityComparer<T>.Default.Equals(value, wanted) ? weight : 0;

    private static int Agrees<T>(T said, T wanted, bool matters, int weight)
        where T : struct => Agrees((T?)said, wanted, matters, weight);

    private static ElbowRadius RadiusOf(string name) => name switch
    {
        _ when name.EndsWith("SR", StringComparison.Ordinal) => ElbowRadius.Short,
        _ when name.EndsWith("3D", StringComparison.Ordinal) => ElbowRadius.ThreeD,
        _ when name.EndsWith("5D", StringComparison.Ordinal) => ElbowRadius.FiveD,
        _ => ElbowRadius.Long,
    };
}
