using Rootgap.Fabricating;
using Rootgap.Findings;
using Rootgap.Measure;
using Rootgap.Routes;

namespace Rootgap.Checks;

/// <summary>A lifting point beside its piece, or on a weld.</summary>
internal sealed class LiftPlace : Rule
{
    public override string Name => "lift-place";
    public override Severity Severity => Severity.Stop;
    public override string Says => "A lifting point of the drawing lies past the end of its piece, or nearer than one diameter to an end, a weld or a branch.";
    public override string Why => "A sling past the end holds nothing; on a weld or a bevel it slips and spoils it (common practice: clear of welds by one diameter).";

    public override IEnumerable<Finding> Check(Fabrication fabrication)
    {
        var units = fabrication.Units;
        foreach (var row in fabrication.Route.Drawing.Lift)
        {
            if (fabrication.Cuts.FirstOrDefault(c => c.Piece.Equals(row.Piece, StringComparison.OrdinalIgnoreCase)) is not { } cut)
                continue;
            var (start, end) = cut.Reach;
            var (length, clear) = (start.To(end), cut.Pipe.Outside);
            if (row.At > length + Tolerance.Noise)
            {
                yield return Found(row.Source, "at", Say(units, $"{cut.Piece} is {length:len} long: {row.At:len} from its start is past its end."), "Write where the sling is made fast, from the end where the piece starts.", "The sheet shows it at the piece's end.");
                continue;
            }

            var marks = fabrication.Route.Joints.Where(j => j.Kind == JointKind.Branch && j.Between.Contains(cut.Pipe.Id)).Select(j => (j.At - start).Dot(cut.Pipe.Direction)).Append(0).Append(length);
            var near = marks.Min(m => Math.Abs(m - row.At));
            if (near < clear - Tolerance.Noise)
                yield return Found(row.Source, "at", Say(units, $"The sling at {row.At:len} on {cut.Piece} is {near:len} from an end, a weld or a branch, and the pipe is {clear:len} thick."), Say(units, $"Keep it {clear:len} off, or have the lifting plan say how it is held, and accept this."), severity: Severity.Warn);
        }
    }
}
