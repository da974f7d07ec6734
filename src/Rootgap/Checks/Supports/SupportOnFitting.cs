using Rootgap.Fabricating;
using Rootgap.Findings;
using Rootgap.Routes;
using Rootgap.Standards;

namespace Rootgap.Checks;

/// <summary>A support whose place is not on pipe.</summary>
internal sealed class SupportOnFitting : Rule
{
    public override string Name => "support-on-fitting";
    public override Severity Severity => Severity.Warn;
    public override string Says => "A support's place lies beyond the end of its pipe, on the fitting, flange or valve beside it, or where the pipe is inside a socket or a thread; or the support is so long that it reaches over a flange there.";
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
            else if (length > 0 && support.Drawn.Length is { } covers && Reach(pipe.AtStart, covers / 2 - at) is var low && Reach(pipe.AtEnd, at + covers / 2 - length) is var high && Math.Max(low, high) is > 1 and var over)
                yield return Found(support.Source, "length", Say(fabrication.Units, $"{support.Tag} is {covers:len} long and reaches {over:len} over the end of its pipe, over what stands beside it."), "Ask for a place where its whole length lies on pipe.");
            else if (length > 0 && Math.Max(OnFitting(support, pipe.AtStart, at), OnFitting(support, pipe.AtEnd, length - at)) is > 1 and var covered)
                yield return Found(support.Source, "by", Say(fabrication.Units, $"{support.Tag} stands by {covered:len} on the fitting into which its pipe goes."), "See which dimension is meant, or ask for a place on the straight pipe.");
        }
    }

    /// <summary>How far it stands over the pipe's part inside a socket or a thread, mm.</summary>
    private static double OnFitting(Support support, PipeEnd end, double from) => end.Kind switch
    {
        EndKind.Socket => support.Covers + (Forged.SocketDepth.Of(support.Size, @class: support.Line.FittingClass)?.Mm ?? 0) - from,
        EndKind.Threaded => support.Covers + (Threads.NormalEngagement.Of(support.Size)?.Mm ?? 0) - from,
        _ => 0,
    };

    /// <summary>How far it reaches over an end, mm; a weld inside it is told of by its own rule.</summary>
    private static double Reach(PipeEnd end, double over) => end.Kind is EndKind.Butt ? 0 : over;
}
