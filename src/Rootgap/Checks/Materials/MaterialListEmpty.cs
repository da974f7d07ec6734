using Rootgap.Fabricating;
using Rootgap.Findings;

namespace Rootgap.Checks;

internal sealed class MaterialListEmpty : Rule
{
    public override string Name => "material-list-empty";
    public override Severity Severity => Severity.Warn;
    public override string Says => "The drawing names a material list, and it has no row.";
    public override string Why => "Nothing is held against it: every part counts as listed (common practice).";

    public override IEnumerable<Finding> Check(Fabrication fabrication)
    {
        var drawing = fabrication.Route.Drawing;
        if (!drawing.Source.Has("materials") || drawing.Materials.Count > 0)
            yield break;
        var file = drawing.Source.Text("materials");
        yield return Found(drawing.Source, "materials", file is { Length: > 0 } ? $"The material list \"{file}\" has no row." : "The material list has no row.",
            "Write the rows, or take the key `materials` out where the drawing has no list.", "What the drawing needs is held against nothing.");
    }
}
