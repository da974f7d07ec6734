using Rootgap.Drawings;
using Rootgap.Fabricating;
using Rootgap.Findings;
using Rootgap.Standards;

namespace Rootgap.Checks;

/// <summary>Pipe listed in another grade than the line is.</summary>
internal sealed class PipeGradeMismatch : Rule
{
    public override string Name => "pipe-grade-mismatch";
    public override Severity Severity => Severity.Warn;
    public override string Says => "The list's pipe material is not the line's.";
    public override string Why => "The wall was designed for the line's material, and its certificates are asked for (the drawing contradicts its own list).";

    public override IEnumerable<Finding> Check(Fabrication fabrication)
    {
        var route = fabrication.Route;
        HashSet<(int, RowPath)>? told = null;
        foreach (var pipe in route.Pipes)
        {
            if (pipe.Item is not { } item || item.Words.Ware != Ware.Pipe || item.Material.Length == 0 || pipe.Line.Material.Length == 0 || item.Material == pipe.Line.Material)
                continue;
            if (Metals.Marked(item.Material).Any(l => Metals.Marked(pipe.Line.Material).Any(d => Agree(Metals.Plain(l), Metals.Plain(d)))))
                continue;
            var leg = route.RowOf(pipe.Run, pipe.FirstLeg);
            // A leg with a material of its own stands alone where the list follows the line.
            var (row, key) = leg.Has("material") ? (leg, "material") : (item.Source, "material");
            if (!(told ??= []).Add((item.Item, row.Path)))
                continue;
            yield return Found(row, key, $"Item {item.Item}, pipe: {item.Material} listed, the line is {pipe.Line.Material}.", "Find out which is right, and mend the other.", "Pipe with the wrong certificate is welded in.");
        }
    }

    private static bool Agree(string listed, string drawn) => Agrees(listed, drawn) || Agrees(drawn, listed);

    /// <summary>One may be written shorter than the other: A106 and A106-B, A106-B and SA106-B.</summary>
    private static bool Agrees(string shorter, string longer) =>
        longer.StartsWith(shorter, StringComparison.Ordinal) || (longer.Length > 1 && longer[0] == 'S' && longer.AsSpan(1).StartsWith(shorter, StringComparison.Ordinal));
}
