using Rootgap.Drawings;
using Rootgap.Fabricating;
using Rootgap.Measure;
using Rootgap.Routes;
using Rootgap.Site.Forecasting;

namespace Rootgap.Site.Splitting;

/// <summary>One mark of a plan.</summary>
/// <param name="IsThere">The drawing has it already.</param>
public sealed record SplitMark(SplitPlace Place, WeldPlace Kind, bool IsThere)
{
    public IReadOnlyList<Term> Cost => Kind == WeldPlace.FinalFit ? Place.FinalFitCost : Place.FieldCost;
}

/// <summary>A spool as a plan would have it.</summary>
/// <param name="Box">Sides of the box it is carried in, mm, longest first; extra on.</param>
/// <param name="Mass">Extra on, kg.</param>
/// <param name="Inches">Its largest nominal size, where its pipes have three directions; 0 otherwise.</param>
/// <param name="DrawnBox">The same box by the drawing, where ends of the spool were measured and <paramref name="Box"/> is that of the measured ends; null otherwise.</param>
public sealed record SplitSpool(string Name, IReadOnlyList<double> Box, double Mass, double Inches, IReadOnlyList<double>? DrawnBox = null);

/// <summary>A way to split a line.</summary>
/// <param name="Cost">Nominal inches, as the rules count them.</param>
public sealed record SplitPlan(double Cost, bool IsProven, IReadOnlyList<SplitMark> Marks, IReadOnlyList<SplitSpool> Spools);

/// <summary>Where the field and final-fit welds of a line go: the cheapest marks for which every spool can be carried and every loop can close.</summary>
public sealed record Split
{
    /// <summary>Plans that are shown.</summary>
    private const int Most = 3;

    private const int KeptInRings = 8;

    /// <summary>Cheapest first; empty where nothing fits.</summary>
    public required IReadOnlyList<SplitPlan> Plans { get; init; }

    /// <summary>Every place that was tried or stands fast, for who pins and forbids.</summary>
    public required IReadOnlyList<SplitPlace> Places { get; init; }

    /// <summary>Why nothing fits, or what the proof leaves out; empty where there is nothing to say.</summary>
    public required IReadOnlyList<string> Say { get; init; }

    public static Split Of(Fabrication fabrication, SplitAsked asked)
    {
        var model = new SplitModel(fabrication, asked);
        var say = Unknown(model, asked);
        if (say.Count > 0)
            return new() { Plans = [], Places = PlacesOf(model), Say = say };
        var (found, isProven) = Cheapest(model, Spreads(fabrication, model, asked));
        var drawn = model.Built.Count > 0 ? new SplitModel(fabrication, asked, isAsDrawn: true) : null;
        var plans = found.ConvertAll(p => PlanOf(model, drawn, p, isProven));
        if (model.Built.Count > 0)
            say.Add($"Built and measured, so neither parted nor joined otherwise: {string.Join(", ", model.Built.Select(b => "spool " + b))}. Their boxes are those of the measured ends.");
        if (plans.Count == 0)
            say.Add(WhyNot(model));
        else if (!isProven)
            say.Add("Not proven the cheapest: there are more ways to part this line than are tried.");
        return new() { Plans = plans, Places = PlacesOf(model), Say = say };
    }

    private static (List<SplitSearch.Partial> Plans, bool IsProven) Cheapest(SplitModel model, double[] spreads)
    {
        var (cases, areAll) = OpenedRings.Of(model);
        if (cases is [{ Opened.Count: 0 } tree])
        {
            var search = new SplitSearch(model, tree, spreads, double.PositiveInfinity, Most);
            return ([.. search.Best()], search.HasTriedAll);
        }

        // Round a ring a plan may leave a way without a final-fit weld, which is seen at the end only: more are looked for, and more again where too many fell out.
        var (found, hasTriedAll, leftOut) = InRings(model, cases, spreads, KeptInRings);
        if (areAll && (found.Count < Most ? double.IsFinite(leftOut) : found[^1].Cost > leftOut + 1e-7))
            (found, hasTriedAll, leftOut) = InRings(model, cases, spreads, 4 * KeptInRings);
        // With all directions asked for, the directions on the other way round a ring are not looked at.
        return (found, areAll && hasTriedAll && !model.Rules.AllDirections && (found.Count == 0 ? double.IsPositiveInfinity(leftOut) : found[0].Cost <= leftOut + 1e-7));
    }

    /// <returns>The best plans; whether all stretches were tried; what the plans that were not kept cost at least.</returns>
    private static (List<SplitSearch.Partial> Plans, bool HasTriedAll, double LeftOut) InRings(SplitModel model, List<OpenedRings> cases, double[] spreads, int kept)
    {
        var found = new List<SplitSearch.Partial>();
        var hasTriedAll = true;
        var leftOut = double.PositiveInfinity;
        foreach (var rings in cases.OrderBy(c => c.Cost))
        {
            // Three are shown: what costs more than the third that is known is not looked for.
            var search = new SplitSearch(model, rings, spreads, found.Count >= Most ? found[Most - 1].Cost : double.PositiveInfinity, kept);
            var best = search.Best();
            hasTriedAll &= search.HasTriedAll;
            found.AddRange(best.Where(p => EveryMarkParts(model, p) && EveryWayIsTaken(model, p)));
            found = [.. found.OrderBy(p => p, SplitSearch.Order.Instance).Take(Most)];
            if (best.Count >= kept)
                leftOut = Math.Min(leftOut, best[^1].Cost);
        }

        return (found, hasTriedAll, leftOut);
    }

    /// <summary>Every place where a line may be parted, before anything is planned; marks that are there count as free.</summary>
    public static IReadOnlyList<SplitPlace> PlacesIn(Fabrication fabrication, SplitRules rules) => PlacesOf(new SplitModel(fabrication, new(Free: true) { Rules = rules }));

    private static List<SplitPlace> PlacesOf(SplitModel model) => [.. model.Edges.Select(e => e.Place).OfType<SplitPlace>()];

    /// <summary>Pins and bans that name no place.</summary>
    private static List<string> Unknown(SplitModel model, SplitAsked asked)
    {
        var names = model.Edges.Select(e => e.Place?.Name).OfType<string>().ToHashSet(StringComparer.Ordinal);
        var say = new List<string>();
        foreach (var name in (asked.Pinned?.Keys ?? []).Concat(asked.Forbidden ?? (IEnumerable<string>)[]))
        {
            if (!names.Contains(name))
                say.Add($"There is no place {name} at which the line could be parted. The places are: {string.Join(", ", names)}.");
        }

        foreach (var edge in model.Edges)
        {
            if (edge.Place is { CanBeFinalFit: false } place && asked.Pinned?.GetValueOrDefault(place.Name) == WeldPlace.FinalFit)
                say.Add($"{place.Name} cannot be final-fit: no side of it is pipe that could be left long.");
        }

        return say;
    }

    /// <summary>Forecast variance along each direction, summed over the loops as they would be without any final-fit weld.</summary>
    private static double[] Spreads(Fabrication fabrication, SplitModel model, SplitAsked asked)
    {
        var route = fabrication.Route;
        var bare = route with { Joints = [.. route.Joints.Select(j => j.Place == WeldPlace.FinalFit ? j with { Place = WeldPlace.Field } : j)] };
        var loops = Forecast.Of(fabrication with { Route = bare }, new(Draws: 0) { Chances = false, AsBuilt = asked.AsBuilt }).Rigid;
        return [.. model.Directions.Select(d => loops.Sum(l => Along(l, d)))];

        static double Along(ForecastOpening loop, Vector d)
        {
            var (x, y, z) = (loop.Axes.Three.Dot(d) * loop.FirstOrder.X, loop.Axes.Twelve.Dot(d) * loop.FirstOrder.Y, loop.Axes.Along.Dot(d) * loop.FirstOrder.Z);
            return (x * x) + (y * y) + (z * z);
        }
    }

    /// <summary>Round a ring there are two ways: both need their final-fit weld.</summary>
    private static bool EveryWayIsTaken(SplitModel model, SplitSearch.Partial plan)
    {
        var taken = new HashSet<SplitEdge>();
        for (var mark = plan.Marks; mark is not null; mark = mark.Next)
        {
            if (mark.Cut == Cut.FinalFit)
                taken.Add(mark.Edge);
        }

        foreach (var group in Groups(model, e => !taken.Contains(e)))
        {
            if (group.SelectMany(n => n.Outside).Count(o => model.Outside[o].Place != WeldPlace.FinalFit) > 1)
                return false;
        }

        return true;
    }

    /// <summary>A ring that is parted at one place only is still one spool: that weld can be made in the shop.</summary>
    private static bool EveryMarkParts(SplitModel model, SplitSearch.Partial plan)
    {
        var cuts = new HashSet<SplitEdge>();
        for (var mark = plan.Marks; mark is not null; mark = mark.Next)
            cuts.Add(mark.Edge);
        return Groups(model, e => e.Allowed.Contains(Cut.None) && !cuts.Contains(e)).All(g => !cuts.Any(c => c.Place!.Stays is null && g.Contains(c.A) && g.Contains(c.B)));
    }

    private static IEnumerable<List<SplitNode>> Groups(SplitModel model, Func<SplitEdge, bool> holds)
    {
        var seen = new HashSet<SplitNode>();
        foreach (var start in model.Nodes)
        {
            if (!seen.Add(start))
                continue;
            List<SplitNode> group = [start];
            for (var i = 0; i < group.Count; i++)
            {
                foreach (var edge in group[i].Edges)
                {
                    if (holds(edge) && seen.Add(edge.Other(group[i])))
                        group.Add(edge.Other(group[i]));
                }
            }

            yield return group;
        }
    }

    private static SplitPlan PlanOf(SplitModel model, SplitModel? drawn, SplitSearch.Partial partial, bool isProven)
    {
        var cuts = new Dictionary<SplitEdge, Cut>();
        for (var mark = partial.Marks; mark is not null; mark = mark.Next)
            cuts[mark.Edge] = mark.Cut;
        var marks = cuts.Where(c => c.Key.Place is not null)
            .Select(c => new SplitMark(c.Key.Place!, c.Value == Cut.FinalFit ? WeldPlace.FinalFit : WeldPlace.Field, c.Key.Place!.Stays is not null))
            .OrderBy(m => m.Place.Run).ThenBy(m => m.Place.Leg).ThenBy(m => m.Place.Along ?? (m.Place.AtBegin ? -1 : 1e9)).ToList();
        return new(partial.Cost, isProven, marks, Spools(model, drawn, cuts));
    }

    private static List<SplitSpool> Spools(SplitModel model, SplitModel? drawn, Dictionary<SplitEdge, Cut> cuts)
    {
        var marked = cuts.Select(c => (Edge: model.Edges.IndexOf(c.Key), c.Value)).ToList();
        var spools = new List<SplitSpool>();
        foreach (var group in Groups(model, e => e.Allowed.Contains(Cut.None) && !cuts.ContainsKey(e)))
        {
            if (group.TrueForAll(n => n.IsLoose))
                continue;
            var nodes = group.ConvertAll(n => n.Index);
            var (box, mass) = Boxed(model, nodes, marked);
            var span = new Span3();
            foreach (var node in group.Where(n => n.PipeDirection >= 0))
                span.Add(model.Directions[node.PipeDirection]);
            var name = (spools.Count + 1).ToString(System.Globalization.CultureInfo.InvariantCulture);
            var byDrawing = drawn is null ? null : Boxed(drawn, nodes, marked).Box;
            spools.Add(new(name, box, mass, span.Count == 3 ? group.Max(n => n.Inches) : 0, byDrawing is not null && byDrawing.Zip(box).Any(b => Math.Abs(b.First - b.Second) > 0.005) ? byDrawing : null));
        }

        return spools;
    }

    /// <summary>Box, longest first, and mass of a spool; its nodes and the marked edges by their numbers, which are the same as drawn and as measured.</summary>
    private static (List<double> Box, double Mass) Boxed(SplitModel model, List<int> nodes, List<(int Edge, Cut Cut)> marked)
    {
        var group = nodes.ConvertAll(n => model.Nodes[n]);
        double[] limits = [model.Shop.EnvelopeLength, model.Shop.EnvelopeWidth, model.Shop.EnvelopeHeight];
        Array.Sort(limits);
        var size = SpoolSize.Of(new BoxFrames(model.Directions), group, e => marked.Exists(m => model.Edges[m.Edge] == e));
        foreach (var (index, cut) in marked)
        {
            if (cut == Cut.FinalFit && model.Edges[index] is { ExtraOn: { } carrier } edge && group.Contains(carrier))
                size = size.WithExtra(edge, model.Shop.FinalFitExtra);
        }

        return ([.. size.Best(limits, model.Shop.EnvelopeMass).Box.Reverse()], size.Mass);
    }

    /// <summary>The smallest spool that cannot be made smaller and does not fit; else what is missing for the loops.</summary>
    private static string WhyNot(SplitModel model)
    {
        var shop = model.Shop;
        double[] limits = [shop.EnvelopeLength, shop.EnvelopeWidth, shop.EnvelopeHeight];
        Array.Sort(limits);
        var frames = new BoxFrames(model.Directions);
        foreach (var group in Groups(model, e => e.Allowed is [Cut.None]))
        {
            if (group.TrueForAll(n => n.IsLoose))
                continue;
            var size = SpoolSize.Of(frames, group, e => e.Allowed is not [Cut.None]);
            var (box, fits) = size.Best(limits, shop.EnvelopeMass);
            if (!fits)
            {
                return FormattableString.Invariant(
                    $"No plan: what hangs on {model.Say(group[0])} cannot be parted further and is {box[2]:0} x {box[1]:0} x {box[0]:0} mm, {size.Mass:0.#} kg; the envelope is {limits[2]:0} x {limits[1]:0} x {limits[0]:0} mm, {shop.EnvelopeMass:0.#} kg. Allow a place there, or a larger envelope.");
            }
        }

        return model.Rules.AllDirections
            ? "No plan: no choice of final-fit welds takes up all directions of the pipes between two things outside within the envelope, at most one on a leg. Ask for `directions: one`, or free the marks with --free."
            : "No plan: between two things outside the drawing no weld may be made final-fit within the envelope. One of its sides must be pipe; free the marks with --free, or take out a ban.";
    }
}
