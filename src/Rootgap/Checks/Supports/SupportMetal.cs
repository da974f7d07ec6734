using Rootgap.Fabricating;
using Rootgap.Findings;
using Rootgap.Standards;

namespace Rootgap.Checks;

/// <summary>A support of another metal than its pipe.</summary>
internal sealed class SupportMetal : Rule
{
    public override string Name => "support-metal";
    public override Severity Severity => Severity.Warn;
    public override string Says => "A support's item and the pipe that it holds have different P-numbers: carbon steel against stainless; or the one support of its kind is welded to stainless, without a word on its metal, where two or more others are clamped.";
    public override string Why => "Welded on, it needs a procedure and a filler of its own (ASME BPVC Section IX groups metals by P-number), and a pad of the pipe's metal is usual; clamped, bare carbon steel rusts into stainless and eats it (common practice: a liner, or a clamp of stainless).";

    public override IEnumerable<Finding> Check(Fabrication fabrication)
    {
        var route = fabrication.Route;
        foreach (var support in route.Supports)
        {
            var own = support.Item?.Material ?? "";
            var pipe = route.PipeOf(support.Pipe)!;
            var its = pipe.Material;
            if (own.Length == 0 && support.Weld is not null && Metals.PNumber(its) == "8" && route.Supports.Where(o => o != support && o.Drawn.Kind == support.Drawn.Kind).ToList() is { Count: >= 2 } others && others.TrueForAll(o => o.Weld is null))
                yield return Found(support.Source, "attach", $"{support.Tag}, {Drawings.Words.A(support.Name)}, is welded to a pipe of {its}, its own metal is not said, and each other {support.Name} of the drawing is clamped.", "Look whether `attach: clamped` is meant; if not, say its metal in the material list.");
            if (Metals.PNumber(own) is not { } p || Metals.PNumber(its) is not { } q || p == q)
                continue;
            // A clamp with a liner says so, and stainless takes no harm from carbon steel that it holds dry.
            if (support.Weld is null && (support.Item!.What.Contains("liner", StringComparison.OrdinalIgnoreCase) || support.Item.What.Contains("lined", StringComparison.OrdinalIgnoreCase) || p == "8"))
                continue;
            yield return Found(support.Source, "to", Say($"{support.Tag}, {Drawings.Words.A(support.Name)}, is {own} (P-No. {p}), item {support.Item!.Item}; its pipe is {its} (P-No. {q})."),
                support.Weld is null ? "Ask for a liner between the two, or a clamp of the pipe's metal; if it is meant, accept this with the drawing that says so." : "Ask for a pad of the pipe's metal; if it is meant, accept this with the welding procedure's number.");
        }
    }
}
