using Rootgap.Drawings;
using Rootgap.Fabricating;
using Rootgap.Findings;

namespace Rootgap.Checks;

/// <summary>A discharge that flows into its machine, or a suction that flows out of it.</summary>
internal sealed class FlowAgainstName : Rule
{
    public override string Name => "flow-against-name";
    public override Severity Severity => Severity.Warn;
    public override string Says => "A run that is called a discharge, or is the main one of a drawing called so, has one end at a flange and by its `flow` runs into it; or a suction runs out of it; or both its ends are flanges, the title leads from a discharge or to a suction, and the run flows against its legs.";
    public override string Why => "The flange is the machine's, and a discharge leaves it (common practice). Check valves and globe valves are put in by the arrow.";

    public override IEnumerable<Finding> Check(Fabrication fabrication)
    {
        var drawing = fabrication.Route.Drawing;
        for (var r = 0; r < drawing.Runs.Count; r++)
        {
            var run = drawing.Runs[r];
            if (run.FlowsAlong is not { } along || run.Legs.Count == 0 || (Leaves(run.Name) ?? (r == 0 ? Leaves(drawing.Title) : null)) is not { } leaves)
                continue;
            var (atStart, atEnd) = (IsMachine(run.Start.Ends), IsMachine(run.Legs[^1].To));
            // The flow leaves the machine at the run's start where it goes along, at its end where it goes against.
            if (atStart && atEnd && !along && r == 0 && IsInOrder(drawing.Title))
                yield return Found(run.Source, "flow", $"The title says \"{drawing.Title}\", and by its `flow` run \"{run.Name}\" runs from its end to its start.", "See the flow arrows on the drawing: along, where the legs are written from where the title begins.", "Valves with an arrow go in the wrong way round.");
            else if (atStart != atEnd && (atStart == along) != leaves)
                yield return Found(run.Source, "flow", $"By its name run \"{run.Name}\" {(leaves ? "comes from a pump or compressor" : "leads to a pump or compressor")}, and by its `flow` it runs {(leaves ? "into" : "out of")} the flange at its {(atStart ? "start" : "end")}.", "See the flow arrows on the drawing.", "Valves with an arrow go in the wrong way round.");
        }
    }

    /// <summary>Whether a title leads from a discharge, or to a suction: legs are written that way (common practice).</summary>
    private static bool IsInOrder(string title) =>
        title.IndexOf("discharge", StringComparison.OrdinalIgnoreCase) is >= 0 and var from ? title.IndexOf(" to ", from, StringComparison.OrdinalIgnoreCase) > 0
        : title.IndexOf(" to ", StringComparison.OrdinalIgnoreCase) is >= 0 and var to && title.IndexOf("suction", to, StringComparison.OrdinalIgnoreCase) > 0;

    private static bool IsMachine(WorkPoint? point) => point is FlangePoint { IsBlinded: false, GoesOnIn: null };

    /// <summary>Whether a name is that of a discharge (true) or a suction (false); null where it is neither, or both.</summary>
    private static bool? Leaves(string name)
    {
        var (discharge, suction) = (name.Contains("discharge", StringComparison.OrdinalIgnoreCase), name.Contains("suction", StringComparison.OrdinalIgnoreCase));
        return discharge == suction ? null : discharge;
    }
}
