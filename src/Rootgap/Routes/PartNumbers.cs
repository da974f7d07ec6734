using Rootgap.Drawings;
using Rootgap.Measure;

namespace Rootgap.Routes;

/// <summary>Turns the parts of all stations into components, numbered along the line in the order of runs and legs.</summary>
internal sealed class PartNumbers
{
    /// <summary>An upright face is one whose axis lies this level; 5 degrees, so that slopes count.</summary>
    private static readonly double NearlyLevel = Math.Sin(5 * Math.PI / 180);

    private readonly Dictionary<(int Run, int Station), int> first = [];
    private readonly List<Component> components = [];

    public PartNumbers(PlacedRun[] runs)
    {
        foreach (var run in runs)
        {
            for (var s = 0; s < run.Stations.Length; s++)
            {
                first[(run.Index, s)] = components.Count;
                if (s == 0 && run.From.Run >= 0)
                    continue;
                foreach (var (part, i) in run.Stations[s].Parts.Select((p, i) => (p, i)))
                    components.Add(Place(run, s, part, i));
            }
        }
    }

    public IReadOnlyList<Component> Components => components;

    public Component Of(int run, int station, int part) => components[first[(run, station)] + part];

    private Component Place(PlacedRun run, int s, Part part, int index)
    {
        var station = run.Stations[s];
        var at = run.Points[s];
        var ways = new Vector[3];
        ways[(int)Way.In] = s > 0 ? -run.Directions[s - 1] : Vector.Zero;
        ways[(int)Way.Out] = s < run.Directions.Length ? run.Directions[s] : s > 0 ? run.Directions[s - 1] : Vector.Zero;
        ways[(int)Way.Branch] = run.BranchDirection(s);
        var ports = new Port[part.Ends.Length];
        for (var i = 0; i < ports.Length; i++)
        {
            var end = part.Ends[i];
            // The near end of an eccentric reducer stands on the centreline before the step.
            var from = end.Way == Way.In ? at - station.Step : at;
            ports[i] = new(from + (ways[(int)end.Way] * end.Along), ways[(int)end.Way] * end.Looks);
        }

        var source = station.Source;
        var leg = s - 1;
        var item = station.Items.Count > index ? station.Items[index] : null;
        var (line, turn) = part.HasHoles ? Holes(station.Point, ports) : (null, 0);
        return new Component
        {
            Id = "C" + (components.Count + 1).ToString(System.Globalization.CultureInfo.InvariantCulture),
            Ware = part.Ware,
            Size = part.Size,
            Size2 = part.Size2,
            Run = run.Index,
            Leg = leg,
            Ports = ports,
            WorkPoint = at,
            Line = station.Line,
            Name = part.Name,
            Drawn = station.Point,
            Turn = part.Turn,
            Radius = part.Radius,
            IsCut = part.IsCut,
            HoleLine = line,
            HoleTurn = turn,
            IsLoose = part.IsLoose,
            Item = item,
            IsItemGuessed = item is not null && !(station.IsItemStated && IsMain(station, part)),
            SpoolName = IsFarSide(station, index) ? null : leg >= 0 ? run.Run.Legs[leg].Spool : run.Run.Start.Spool,
            Source = source,
        };
    }

    /// <summary>The flange beyond a gasket belongs to the spool that follows, not to the one that the leg names.</summary>
    private static bool IsFarSide(Station station, int part) => part == station.OutPart && station.Boltings.Count > 0 && station.InPart >= 0 && part != station.InPart;

    /// <summary>Whether a leg's <c>item</c> speaks of this part: the valve and not its flanges, the flange and not its gasket.</summary>
    private static bool IsMain(Station station, Part part) => station.Point switch
    {
        ValvePoint => part.Ware == Ware.Valve,
        FlangePoint or FlangedJointPoint => part.Ware == Ware.Flange,
        _ => true,
    };

    /// <summary>An upright face straddles the upright centreline, a level one the north-south line; any other needs a line of its own (common practice).</summary>
    private static (Vector? Line, double Turn) Holes(WorkPoint point, Port[] ports)
    {
        var holes = point switch { FlangePoint f => f.Holes, FlangedJointPoint j => j.Holes, ValvePoint v => v.Holes, _ => HoleOrientation.Straddle };
        var face = ports[0].Face;
        Vector? reference = holes.From is { } from ? from : Math.Abs(face.Z) <= NearlyLevel ? Vector.Up : Math.Abs(face.Z) >= 1 - NearlyLevel ? Vector.North : null;
        var line = reference is { } r && r.SquareTo(face) is { } side && side.Length > 0.1 ? side.Unit : (Vector?)null;
        return (line, holes.Turn);
    }
}
