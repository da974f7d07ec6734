using Rootgap.Fabricating;
using Rootgap.Findings;

namespace Rootgap.Checks;

/// <summary>A support whose place is not on pipe.</summary>
internal sealed class SupportOnFitting : Rule
{
    public override string Name => "support-on-fitting";
    public override Severity Severity => Severity.Warn;
    public override string Says => "A support's place lies beyond the end of its pipe, on the fitting, flange or valve beside it.";
    public override string Why => "Nothing is welded or clamped on flanges, valves and fittings without the engineer's word (common practice); as often the dimension is meant to another point.";

    public override IEnumerable<Finding> Check(Fabrication fabrication)
    {
        foreach (var support in fabrication.Route.Supports)
        {
            var pipe = fabrication.Route.PipeOf(support.Pipe)!;
            var length = (pipe.End - pipe.Start).Dot(pipe.Direction);
            var at = (support.At - pipe.Start).Dot(pipe.Direction);
            if (length > 0 && Math.Max(-at, at - length) is > 1 and var beyond)
                yield return Found(support.Source, "by", Say(fabrication.Units, $"{support.Tag} stands {beyond:len} beyond the end of its pipe, on what stands beside it."), "See which dimension is meant, or ask for a place on the straight pipe.");
        }
    }
}
