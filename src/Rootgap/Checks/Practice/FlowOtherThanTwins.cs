using Rootgap.Drawings;
using Rootgap.Fabricating;
using Rootgap.Findings;
using Rootgap.Measure;

namespace Rootgap.Checks;

/// <summary>A branch that flows the other way than its like on the same header.</summary>
internal sealed class FlowOtherThanTwins : Rule
{
    public override string Name => "flow-other-than-its-twins";
    public override Severity Severity => Severity.Note;
    public override string Says => "Of the branches of one size that leave a header the same way and end alike, one flows the other way than the rest; of two, each is told.";
    public override string Why => "What is alike mostly serves alike: `along` and `against` are exchanged (common practice). A by-pass or a return may be meant.";

    public override IEnumerable<Finding> Check(Fabrication fabrication)
    {
        var route = fabrication.Route;
        var header = route.Runs.SelectMany(r => r.Run.Legs.Where(l => l.To.Name is not null).Select(l => (Name: l.To.Name!, r.Run))).GroupBy(p => p.Name, StringComparer.OrdinalIgnoreCase).ToDictionary(g => g.Key, g => g.First().Run, StringComparer.OrdinalIgnoreCase);
        var branches = route.Runs.Where(r => r.Run is { FlowsAlong: not null, IsOfOneRow: false, Start.From: { } from } && header.ContainsKey(from) && r.Directions.Count > 0)
            .GroupBy(r => (Header: header[r.Run.Start.From!], Size: r.Sizes[0], Way: Round(r.Directions[0]), Ends: r.Run.Legs[^1].To.Word));
        foreach (var alike in branches)
        {
            foreach (var one in alike)
            {
                var others = alike.Where(o => o != one).ToList();
                if (others.Count > 0 && others.TrueForAll(o => o.Run.FlowsAlong != one.Run.FlowsAlong))
                    yield return Found(one.Run.Source, "flow", $"Run {one.Run.Name} flows {(one.Run.FlowsAlong == true ? "from" : "to")} its header, and {string.Join(", ", others.Select(o => o.Run.Name))}, alike on the same header, {(one.Run.FlowsAlong == true ? "to" : "from")} it.", "See the flow arrows on the drawing.", "Valves with an arrow go in the wrong way round.");
            }
        }
    }

    private static (double, double, double) Round(Vector v) => (Math.Round(v.X, 2) + 0.0, Math.Round(v.Y, 2) + 0.0, Math.Round(v.Z, 2) + 0.0);
}
