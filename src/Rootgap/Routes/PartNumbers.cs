using Rootgap.Drawings;
using Rootgap.Measure;

namespace Rootgap.Routes;

/// <summary>Turns the parts of all stations into components, numbered along the line in the order of runs and legs.</summary>
internal sealed class PartNumbers
{
    private readonly Dictionary<(int Run, int Station), int> first = [];
    private readonly List<Component> components = [];

    public PartNumbers(PlacedRun[] runs)
    {
        foreach (var run in runs)
        {
            for (var s = 0; s < run.Stations.Length; s++)
            {
                first[(run.Index, s)] = run.Stations[s].EndsReturn ? first[(run.Index, s - 1)] : components.Count;
                if (s == 0 && run.From.Run >= 0)
                    continue;
                foreach (var (part, i) in run.Stations[s].Parts.Select((p, i) => (p, i)))
                    components.Add(Place(run, s, part, i));
            }
        }
    }

    public IReadOnlyList<Component> Components => components;

    public Component Of(int run, int station, int part) => components[first[(run, station)] + part];

    private Component Place(PlacedRun run, int s, Component part, int index)
    {
        var station = run.Stations[s];
        var at = run.Points[s];
        var ways = new Vector[4];
        ways[(int)Way.In] = s > 0 ? -run.Directions[s - 1] : Vector.Zero;
        ways[(int)Way.Out] = s < run.Directions.Length ? run.Directions[s] : s > 0 ? run.Directions[s - 1] : Vector.Zero;
        ways[(int)Way.Branch] = run.BranchDirection(s);
        ways[(int)Way.BehindReturn] = s + 1 < run.Directions.Length ? run.Directions[s + 1] : Vector.Zero;
        var ports = new Port[part.Ways.Count];
        for (var i = 0; i < ports.Length; i++)
        {
            var end = part.Ways[i];
            // The near end of an eccentric reducer stands on the centreline before the step.
            var from = end.Way switch { Way.In => at - station.Step, Way.BehindReturn => run.Points[s + 1], _ => at };
            ports[i] = new(end.Name, from + (ways[(int)end.Way] * end.Along), ways[(int)end.Way] * end.Looks, end.Outside, end.Bore);
        }

        var leg = s - 1;
        var item = station.Items.Count > index ? station.Items[index] : null;
        return part.Placed(
            "C" + (components.Count + 1).ToString(System.Globalization.CultureInfo.InvariantCulture), run.Index, leg, at, ports,
            item, item is not null && !(station.IsItemStated && part.Word == station.Parts[station.Named].Word),
            IsFarSide(station, index) ? null : leg >= 0 ? run.Run.Legs[leg].Spool : run.Run.Start.Spool);
    }

    /// <summary>The flange beyond a gasket belongs to the spool that follows, not to the one that the leg names.</summary>
    private static bool IsFarSide(Station station, int part) => part == station.OutPart && station.Boltings.Count > 0 && station.InPart >= 0 && part != station.InPart;
}
