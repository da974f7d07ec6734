using Rootgap.Fabricating;
using Rootgap.Findings;
using Rootgap.Measure;
using Rootgap.Sums;

namespace Rootgap.Checks;

/// <summary>Lifting points of one spool that do not go together.</summary>
internal sealed class LiftSlings : Rule
{
    private const double LeastApart = 300;
    private const int MostLegs = 4;

    public override string Name => "lift-slings";
    public override Severity Severity => Severity.Warn;
    public override string Says => "The lifting points of a spool do not go together: slings that do not meet, a length for some of them only, points in one place, more than four.";
    public override string Why => "The lifting sheet says loads for one set of slings; with others it does not hold (statics).";

    public override IEnumerable<Finding> Check(Fabrication fabrication)
    {
        var units = fabrication.Units;
        foreach (var spool in fabrication.Spools)
        {
            var rows = (from row in fabrication.Route.Drawing.Lift
                        let cut = spool.Cuts.FirstOrDefault(c => c.Piece.Equals(row.Piece, StringComparison.OrdinalIgnoreCase))
                        where cut is not null
                        select (Row: row, At: cut.Reach.Start + (cut.Pipe.Direction * row.At))).ToList();
            if (rows.Count < 2)
                continue;
            var (last, slings) = (rows[^1].Row.Source, rows.Select(r => r.Row.Sling).OfType<double>().ToList());
            var span = rows[0].At.To(rows[1].At);
            if (rows.Count > MostLegs)
                yield return Found(last, "piece", Say($"Spool {spool.Name} has {rows.Count} lifting points; sheets are for two, three or four."), "Leave four at most, or let a lifting plan say how it hangs.");
            if (slings.Count > 0 && rows.Count > 2)
                yield return Found(rows.First(r => r.Row.Sling is not null).Row.Source, "sling", Say($"Spool {spool.Name} has {rows.Count} lifting points: sling lengths are taken of two alone, and the sheet's legs are for a hook over the centre."), "Take the lengths out and use the sheet's, or let a lifting plan say how it hangs.");
            else if (slings.Count == 1)
                yield return Found(rows.First(r => r.Row.Sling is not null).Row.Source, "sling", $"One of the two slings of spool {spool.Name} has a length: the sheet takes its own for both.", "Write both lengths or none.");
            else if (slings.Count == 2 && Slings.Of(1, span, span / 2, 0, slings[0], slings[1]) is null)
                yield return Found(last, "sling", Say(units, $"Slings of {slings[0]:len} and {slings[1]:len} do not meet over points that are {span:len} apart."), "Longer slings, alike in length, or points nearer to each other.");
            if (rows.SelectMany((a, i) => rows.Skip(i + 1).Select(b => a.At.To(b.At))).Min() is < LeastApart and var apart)
                yield return Found(last, "at", Say(units, $"Two lifting points of spool {spool.Name} are {apart:len} apart."), Say(units, $"Put them either side of the centre of mass, {LeastApart:len} apart at the least."));
        }
    }
}
