namespace Rootgap.Drawings;

/// <summary>
/// Makes a drawing that is still being written fit to be placed and drawn. What a fitter expects to see while the rows are typed:
/// every leg whose direction and distance are known, up to the first that has none; a run that stops at an elbow, a point, an outlet or a stub-in
/// — whose next leg is not there yet — ends as open pipe at that work point; a work point that is not understood yet is a plain weld, and open pipe at
/// the end of a run; an end inside a run (a flange that more legs follow) is a joint or a weld; a run without a leg or without a place is left out.
/// </summary>
internal static class PartialDrawing
{
    public static Drawing Of(Drawing read)
    {
        var runs = new List<Run>();
        var runNames = new HashSet<string>(StringComparer.Ordinal);
        foreach (var run in read.Runs.Where(r => r.Legs.Count > 0))
        {
            // Names tell runs apart further on; two without one are still two.
            var name = run.Name;
            for (var i = 2; !runNames.Add(name); i++)
                name = string.Create(System.Globalization.CultureInfo.InvariantCulture, $"{run.Name} ({i})");
            runs.Add(run with { Name = name, Legs = Ended(run.Legs) });
        }

        runs = OnceNamed(runs);
        runs = Placed(runs);
        var items = new HashSet<int>();
        return read with { Runs = Tied(runs), Materials = [.. read.Materials.Where(m => items.Add(m.Item))] };
    }

    private static List<Leg> Ended(IReadOnlyList<Leg> legs)
    {
        var ended = new List<Leg>(legs.Count);
        for (var i = 0; i < legs.Count; i++)
        {
            var leg = legs[i];
            WorkPoint to = i == legs.Count - 1
                ? leg.To switch
                {
                    { CanEndRun: false } => Open,
                    WeldPoint when leg.Source.Text("to") is not { } word || !word.Trim().Equals("weld", StringComparison.OrdinalIgnoreCase) => Open,
                    _ => leg.To,
                }
                : leg.To switch
                {
                    FlangePoint flange => new FlangedJointPoint(flange.Holes),
                    { Written.EndsRun: true } => new WeldPoint(Continues: null),
                    ElbowPoint when leg.Direction.AngleTo(legs[i + 1].Direction) < Measure.Tolerance.Turn => new WeldPoint(Continues: null),
                    _ => leg.To,
                };
            ended.Add(leg with { To = to });
        }

        return ended;
    }

    private static OpenPoint Open => new(OpenEnds.Bevel, Continues: null);

    /// <summary>Of two work points of one name the first keeps it.</summary>
    private static List<Run> OnceNamed(List<Run> runs)
    {
        var names = new HashSet<string>(StringComparer.Ordinal);
        return [.. runs.Select(run => run with
        {
            Legs = [.. run.Legs.Select(leg => leg.To.Name is not { } name || names.Add(name) ? leg : leg with
            {
                To = leg.To.WithoutName(),
            })],
        })];
    }

    /// <summary>The runs that have a place: one at the origin, those with coordinates, and those that start from one of these at an end that no other has taken.</summary>
    private static List<Run> Placed(List<Run> runs)
    {
        var placed = new HashSet<Run>(ReferenceEqualityComparer.Instance);
        var names = new HashSet<string>(StringComparer.Ordinal);
        var isOriginTaken = false;
        foreach (var run in runs.Where(r => r.Start.From is null))
        {
            if (run.Start.At is null && isOriginTaken)
                continue;
            isOriginTaken |= run.Start.At is null;
            Add(run);
        }

        for (var isMore = true; isMore;)
        {
            isMore = false;
            foreach (var run in runs.Where(r => r.Start.From is { } from && names.Contains(from) && !placed.Contains(r)).ToList())
            {
                if (!names.Remove(run.Start.From!))
                    continue;
                Add(run);
                isMore = true;
            }
        }

        return [.. runs.Where(placed.Contains)];

        void Add(Run run)
        {
            placed.Add(run);
            names.UnionWith(run.Legs.Select(l => l.To.Name).OfType<string>());
        }
    }

    /// <summary>A run that ties in at nothing known, or at an end that another has taken, ends open.</summary>
    private static List<Run> Tied(List<Run> runs)
    {
        var free = runs.SelectMany(r => r.Legs).Select(l => l.To.Name).OfType<string>().ToHashSet(StringComparer.Ordinal);
        free.ExceptWith(runs.Select(r => r.Start.From).OfType<string>());
        return [.. runs.Select(run => run.Legs[^1].To is not TieInPoint tie || free.Remove(tie.With) ? run : run with { Legs = [.. run.Legs.SkipLast(1), run.Legs[^1] with { To = Open }] })];
    }
}
