using Rootgap.Fabricating;
using Rootgap.Findings;
using Rootgap.Measure;
using Rootgap.Routes;

namespace Rootgap.Checks;

/// <summary>A length that no union has.</summary>
internal sealed class UnionLengthUnusual : Rule
{
    private const double Least = 1;
    private const double Most = 5;

    public override string Name => "union-length-unusual";
    public override Severity Severity => Severity.Warn;
    public override string Says => "A union over its ends is shorter than its pipe's outside diameter, or longer than five of them.";
    public override string Why => "Class 3000 unions are about one and a half to four outside diameters long, the smallest the longest (common practice): outside that a figure has slipped.";

    public override IEnumerable<Finding> Check(Fabrication fabrication)
    {
        foreach (var union in fabrication.Route.Components.OfType<Union>())
        {
            if (union.Outside > 0 && (union.Path < Least * union.Outside || union.Path > Most * union.Outside))
                yield return Found(union.Source, "face to face", Say(fabrication.Units, $"This union is said to be {union.Path:len} long, on pipe of {union.Outside:len} outside."), "Measure the union, made up, over its two ends.", "The pipes on both sides are cut wrong by it.");
        }
    }
}
