using Rootgap.Fabricating;
using Rootgap.Findings;
using Rootgap.Measure;

namespace Rootgap.Checks;

/// <summary>A final-fit pipe that cannot be trimmed by much before it is too short to weld.</summary>
internal sealed class FinalFitPipeShort : Rule
{
    public override string Name => "final-fit-pipe-short";
    public override Severity Severity => Severity.Note;
    public override string Says => "As drawn, the pipe at a final-fit weld is less than 50 mm longer than the shop's shortest pipe.";
    public override string Why => "The pipe gives way both ways: where the site is shorter than drawn, more than the extra comes off, and the rest is too short to clamp and weld (common practice).";

    private const double Leeway = 50;

    public override IEnumerable<Finding> Check(Fabrication fabrication)
    {
        var shortest = fabrication.Route.Drawing.Shop.ShortestPipe;
        foreach (var cut in fabrication.Cuts)
        {
            var net = cut.Length - cut.Extra;
            if (cut.Extra <= 0 || net < shortest - Tolerance.Noise || net >= shortest + Leeway - Tolerance.Noise)
                continue;
            var (leg, key) = cut.Pipe.ExtraAtStart ? (cut.Pipe.FirstLeg, "begin") : (cut.Pipe.LastLeg, "end");
            yield return Found(fabrication.Route.RowOf(cut.Pipe.Run, leg), key, Say(fabrication.Units, $"Piece {cut.Piece} is {net:len} as fitted; the shop's shortest pipe is {shortest:len}: it can only come {net - shortest:len} shorter."),
                "Put the final-fit weld on a longer pipe.");
        }
    }
}
