using Rootgap.Drawings;
using Rootgap.Fabricating;
using Rootgap.Findings;
using Rootgap.Routes;

namespace Rootgap.Checks;

/// <summary>An outlet or a stub end that is listed with another wall than the pipe welded to it.</summary>
internal sealed class EndScheduleDiffers : Rule
{
    public override string Name => "end-schedule-differs";
    public override Severity Severity => Severity.Warn;
    public override string Says => "A butt-welding outlet is listed in another schedule than its branch, or a stub end in another than its pipe.";
    public override string Why => "They are ordered by the wall of the pipe that is welded on (MSS SP-97, ASME B16.9): another one is a step at the weld.";

    public override IEnumerable<Finding> Check(Fabrication fabrication)
    {
        var route = fabrication.Route;
        var told = new HashSet<int>();
        foreach (var outlet in route.Components.OfType<Outlet>().Where(o => o.Ends == FittingEnds.Butt && o.Drawn.Name is not null))
        {
            if (outlet.Item is { Schedule.Length: > 0 } item && route.Runs.FirstOrDefault(r => r.Run.Start.From == outlet.Drawn.Name) is { } branch
                && Against(item, branch.Run.Legs[0].Line.Schedule, outlet.Size, $"outlet {outlet.Drawn.Name}'s branch") is { } finding && told.Add(item.Item))
                yield return finding;
        }

        foreach (var flange in route.Components.OfType<Flange>().Where(f => f.Stub is not null))
        {
            foreach (var row in fabrication.Materials.Where(m => m.Item is { Words.Ware: Ware.StubEnd, Schedule.Length: > 0 } && m.UsedBy.Contains(flange.Id)))
            {
                if (Against(row.Item!, flange.Line.Schedule, flange.Size, "its pipe") is { } finding && told.Add(row.Item!.Item))
                    yield return finding;
            }
        }

        Finding? Against(MaterialItem item, Schedule drawn, Measure.NominalSize size, string whose) => Walls.Step(item.Schedule, drawn, size, fabrication.Units) is > 0 and var step
            ? Found(item.Source, "schedule", Say(fabrication.Units, $"Item {item.Item}, {item.What}, is schedule {item.Schedule}, and {whose} is {drawn}: walls {step:small} apart."), "Mend the one that is wrong.", "The wrong part is ordered, and there is a step at its weld.")
            : null;
    }
}
