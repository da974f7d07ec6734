using Rootgap.Drawings;
using Rootgap.Fabricating;
using Rootgap.Measure;
using Rootgap.Routes;
using Rootgap.Sums;

namespace Rootgap.Papers;

/// <summary>What supports bear with the line full of water: each level stretch between two of them is a simple beam, parts and water where they lie. For a support's design ask the engineer.</summary>
internal static class SpanLoads
{
    public const string Says = "Simple beams between the supports of one straight stretch, parts and water where they lie; what hangs beyond the last support and what nozzles bear is left out. For support design ask the engineer.";

    /// <summary>Every support that carries, those among them that no such stretch reckons.</summary>
    public static IEnumerable<SupportLoad> Of(Fabrication f)
    {
        var route = f.Route;
        var bearing = route.Supports.Where(s => s.Carries).ToList();
        if (bearing.Count == 0)
            yield break;
        var masses = MassesOf(f).ToList();
        Dictionary<string, (double Empty, double Full)> loads = bearing.ToDictionary(s => s.Id, _ => (0.0, 0.0), StringComparer.Ordinal);
        foreach (var line in bearing.GroupBy(s => s.Run))
        {
            var inOrder = line.OrderBy(s => s.Leg).ThenBy(s => (s.At - route.Runs[s.Run].Points[0]).Dot(s.Along)).ToList();
            for (var i = 0; i + 1 < inOrder.Count; i++)
            {
                var (a, b) = (inOrder[i], inOrder[i + 1]);
                var way = (b.At - a.At) with { Z = 0 };
                // In one straight and nearly level stretch only: over a corner a simple beam says nothing, be it a rolling offset that comes back to its line.
                var ways = route.Runs[a.Run].Directions;
                if (way.Length < 1 || way.Unit.Dot(a.Along) < Straight || Enumerable.Range(a.Leg, b.Leg - a.Leg + 1).Any(leg => ways[leg].Dot(a.Along) < Straight))
                    continue;
                foreach (var (at, empty, water) in masses)
                {
                    var along = (at - a.At).Dot(way.Unit);
                    if (along < 0 || along >= way.Length || (at - a.At).SquareTo((b.At - a.At).Unit).Length > Beside)
                        continue;
                    var share = along / way.Length;
                    Add(a, 1 - share);
                    Add(b, share);

                    void Add(Support s, double part) => loads[s.Id] = (loads[s.Id].Empty + (empty * part), loads[s.Id].Full + ((empty + water) * part));
                }
            }
        }

        foreach (var s in bearing)
            yield return new(s, loads[s.Id].Empty, loads[s.Id].Full);
    }

    /// <summary>Cosine of what still is one straight line: eight degrees, more than any fall.</summary>
    private const double Straight = 0.99;

    /// <summary>What lies within this of the stretch hangs on it, mm: short branches and what stands on them.</summary>
    private const double Beside = 1000;

    /// <summary>Masses along the line in short pieces: steel, and the water in it.</summary>
    private static IEnumerable<(Point At, double Empty, double Water)> MassesOf(Fabrication f)
    {
        const double step = 100;
        foreach (var pipe in f.Route.Pipes.Where(p => p.IsThere))
        {
            var length = pipe.Start.To(pipe.End);
            var n = Math.Max(1, (int)Math.Ceiling(length / step));
            for (var i = 0; i < n; i++)
                yield return (pipe.Start.Toward(pipe.End, (i + 0.5) / n), pipe.Mass.Kg / n, Math.PI / 4 * pipe.Inside * pipe.Inside * length / n * PressureTest.WaterDensity);
        }

        foreach (var c in f.Route.Components.Where(c => !c.LiesInJoint))
            yield return (c.Centre, f.Masses.TryGetValue(c.Id, out var mass) ? mass.Kg : 0, Math.PI / 4 * c.Inside * c.Inside * c.Path * PressureTest.WaterDensity);
    }
}
