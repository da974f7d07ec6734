using Rootgap.Drawings;
using Rootgap.Fabricating;
using Rootgap.Measure;
using Rootgap.Routes;
using Rootgap.Standards;
using Rootgap.Sums;

namespace Rootgap.Papers;

/// <summary>How a limit of a test is closed.</summary>
public enum LimitKind
{
    /// <summary>A blind on a flange.</summary>
    Blind,

    /// <summary>A cap, a plug or a test stopper on an open pipe or outlet.</summary>
    Cap,

    /// <summary>A cap that is welded on and stays.</summary>
    WeldedCap,

    /// <summary>Welded to a line that is there already, or goes on: where it is held off is the test engineer's.</summary>
    Existing,
}

/// <summary>An end of what is tested.</summary>
/// <param name="Name">1, 2 ... as on the sheet.</param>
/// <param name="Joint">The joint there; empty where none is.</param>
/// <param name="At">Middle of the bore there.</param>
public sealed record TestLimit(string Name, LimitKind Kind, string Joint, Point At, NominalSize Size, string Class, BoltedJoint? Bolting)
{
    /// <summary>Whether water or air can be let out there.</summary>
    public bool Opens => Kind is LimitKind.Blind or LimitKind.Cap;
}

/// <summary>A stretch whose bore stands higher, or lower, than all next to it.</summary>
/// <param name="At">Its middle.</param>
/// <param name="Height">Highest place of the bore's top, or lowest of its bottom, mm.</param>
/// <param name="Limit">The limit that stands there; null where none does.</param>
/// <param name="Stays">What stays there as air, or as water, mm³.</param>
/// <param name="Opened">The bolted joint that is opened to let it out; null where there is none on it.</param>
public sealed record BorePocket(bool IsHigh, Point At, double Height, NominalSize Size, TestLimit? Limit, double Stays, BoltedJoint? Opened)
{
    /// <summary>So little is let be, mm³: a cup.</summary>
    public const double Little = 0.1e6;

    public bool IsServed => Limit is not null || Stays < Little;
}

/// <summary>A pressure at a height.</summary>
/// <param name="Height">mm.</param>
/// <param name="Bar">Null where no test pressure is given.</param>
public sealed record TestHead(string What, double Height, double? Bar);

/// <summary>What one support bears with the line full of water.</summary>
/// <param name="Empty">kg.</param>
/// <param name="Full">kg.</param>
public sealed record SupportLoad(Support Support, double Empty, double Full);

/// <summary>All that the test of one drawing needs, from its geometry, alone or with others that are filled together with it. Pressure, medium, hold and every distance are the test engineer's.</summary>
public sealed record TestPack
{
    public required Fabrication Fabrication { get; init; }

    /// <summary>As the pack asks for it: the first of its drawings that says a test pressure.</summary>
    public required TestRules Asked { get; init; }

    /// <summary>Numbers of the drawings that are tested together, this one among them.</summary>
    public required IReadOnlyList<string> Numbers { get; init; }

    /// <summary>Why the drawings that were given together are not one test as they stand, in plain sentences; empty where they are.</summary>
    public required IReadOnlyList<string> Apart { get; init; }

    /// <summary>Test pressure, bar; null where neither the test nor the service gives one that can be read.</summary>
    public required double? Pressure { get; init; }

    /// <summary>Where it is asked, mm, and whether the drawing says so.</summary>
    public required double AskedAt { get; init; }

    public required IReadOnlyList<TestLimit> Limits { get; init; }

    public required IReadOnlyList<TestHead> Heads { get; init; }

    /// <summary>Valves that stay in, to be open.</summary>
    public required IReadOnlyList<Component> Valves { get; init; }

    /// <summary>What is taken out.</summary>
    public required IReadOnlyList<Component> Out { get; init; }

    public required IReadOnlyList<BorePocket> Pockets { get; init; }

    /// <summary>Volume of the bore of this drawing, mm³.</summary>
    public required double Volume { get; init; }

    /// <summary>Volume of all that is tested together, mm³: what gas stores energy in.</summary>
    public required double PackVolume { get; init; }

    /// <summary>The flange of the pack that carries least, its rating at 38 degrees C, and what its joints may be tested to, bar; null where no table has it.</summary>
    public required (Component Flange, double Rating, double Most)? Weakest { get; init; }

    /// <summary>Classes whose rating no table here has: not checked.</summary>
    public required IReadOnlyList<string> NotChecked { get; init; }

    public required IReadOnlyList<SupportLoad> Supports { get; init; }

    /// <summary>The highest design pressure of the pack, bar; null where none can be read.</summary>
    public required double? Design { get; init; }

    /// <summary>The least test pressure for the design pressure, bar.</summary>
    public double? Least => Design is { } design ? PressureTest.Least(design, Asked.Medium, Asked.StressRatio ?? 1) : null;

    public double WaterMass => Volume * PressureTest.WaterDensity;

    public bool IsAir => Asked.Medium == TestMedium.Air;

    /// <summary>Bolted joints that are opened for the test: their gaskets are renewed.</summary>
    public IReadOnlyList<BoltedJoint> Opened =>
    [
        .. Limits.Where(l => l.Kind == LimitKind.Blind).Select(l => l.Bolting).OfType<BoltedJoint>()
            .Concat(BoltedJoint.Of(Fabrication).Where(b => b.Joint.Between.Any(id => Out.Any(c => c.Id == id))))
            .Concat(Pockets.Where(p => !p.IsServed && !p.IsHigh).Select(p => p.Opened).OfType<BoltedJoint>())
            .DistinctBy(b => b.Joint.Id, StringComparer.Ordinal)
            .OrderBy(b => b.Joint.Id.Length).ThenBy(b => b.Joint.Id, StringComparer.Ordinal),
    ];

    /// <param name="pack">All drawings that are tested together, this one among them: they hang together as one bore, so heads, ratings and energy are the pack's, and an end that goes on on another of them is no limit. Null: this one alone.</param>
    public static TestPack Of(Fabrication f, IReadOnlyList<Fabrication>? pack = null)
    {
        var route = f.Route;
        var drawing = route.Drawing;
        List<Fabrication> all = [.. pack ?? [f]];
        if (!all.Contains(f))
            all.Add(f);
        List<string> numbers = [.. all.Select(a => a.Route.Drawing.Number)];
        var bore = new BoreMap(route);
        var bores = all.Select(a => (Drawing: a.Route.Drawing, Bore: a == f ? bore : new BoreMap(a.Route))).ToList();
        var bolting = BoltedJoint.Of(f);
        var limits = LimitsOf(f, bolting, numbers).ToList();
        var lead = all.Select(a => a.Route.Drawing).FirstOrDefault(d => d.Test.Pressure.Length > 0) ?? all.Select(a => a.Route.Drawing).FirstOrDefault(d => Checks.ServiceFigures.TestPressure(d) is not null) ?? drawing;
        var asked = lead.Test;
        // Of several drawings, one without a height stands nowhere against the others.
        bool IsPlaced(Drawing d) => all.Count == 1 || d.Runs.Any(r => r.Start.At is not null || r.Legs.Any(l => l.At is not null));
        var ends = bores.Where(b => IsPlaced(b.Drawing)).SelectMany(b => b.Bore.Nodes.Select(n => (n.Top, n.Bottom, b.Drawing.Number))).DefaultIfEmpty((Top: 0, Bottom: 0, drawing.Number)).ToList();
        var (top, bottom) = (ends.MaxBy(e => e.Top), ends.MinBy(e => e.Bottom));
        var at = asked.At ?? asked.Gauge ?? top.Top;
        var pressure = Checks.ServiceFigures.TestPressure(lead);
        double? Bar(double height) => pressure is { } bar ? PressureTest.At(bar, at, height, asked.Medium) : null;
        string On(string number) => all.Count > 1 ? $" ({number})" : "";
        List<TestHead> heads = [new("where it is asked", at, Bar(at)), new("at the gauge", asked.Gauge ?? at, Bar(asked.Gauge ?? at)), new("highest, top of the bore" + On(top.Number), top.Top, Bar(top.Top))];
        heads.AddRange(limits.Where(l => l.Kind != LimitKind.WeldedCap).Select(l => new TestHead($"limit {l.Name}{(l.Joint.Length > 0 ? ", " + l.Joint : "")}", l.At.Z, IsPlaced(drawing) ? Bar(l.At.Z) : null)));
        heads.Add(new("lowest, bottom of the bore" + On(bottom.Number), bottom.Bottom, Bar(bottom.Bottom)));
        var weakest = all.Select(a => Checks.ServiceFigures.Weakest(a.Route, Ratings.Ambient)).OfType<(Component Flange, string Material, double Rating)>().OrderBy(w => w.Rating).Select(w => ((Component, double)?)(w.Flange, w.Rating)).FirstOrDefault();
        var isOut = route.Components.Where(c => c.Leg >= 0 && drawing.Runs[c.Run].Legs[c.Leg].IsOutForTest && c is InLine).ToList();
        return new()
        {
            Fabrication = f,
            Asked = asked,
            Numbers = numbers,
            Apart = [.. ApartOf(lead, [.. all.Select(a => a.Route.Drawing)], IsPlaced)],
            Pressure = pressure,
            AskedAt = at,
            Limits = limits,
            Heads = heads,
            Valves = [.. route.Components.OfType<Valve>().Where(v => !isOut.Contains(v))],
            Out = isOut,
            Pockets = [.. PocketsOf(bore, limits, bolting, air: true), .. PocketsOf(bore, limits, bolting, air: false)],
            Volume = bore.Volume,
            PackVolume = bores.Sum(b => b.Bore.Volume),
            Weakest = weakest is var (flange, rating) ? (flange, rating, PressureTest.MostOfFlanges(rating, drawing.Units)) : null,
            NotChecked = [.. all.SelectMany(a => Checks.ServiceFigures.Kinds(a.Route)).Where(k => k.Group is not { } group || Ratings.Of(group, k.Flange.Line.Class, Ratings.Ambient) is null).Select(k => $"class {k.Flange.Line.Class}{(k.Material.Length > 0 ? " of " + k.Material : "")}").Distinct(StringComparer.Ordinal)],
            Supports = [.. SpanLoads.Of(f)],
            Design = all.Max(a => Checks.ServiceFigures.Bar(a.Route.Drawing.Service.DesignPressure)),
        };
    }

    private static IEnumerable<string> ApartOf(Drawing lead, IReadOnlyList<Drawing> all, Func<Drawing, bool> isPlaced)
    {
        foreach (var d in all.Where(d => !ReferenceEquals(d, lead)))
        {
            if (d.Test.MediumWritten is { } medium && medium != (lead.Test.MediumWritten ?? "water"))
                yield return $"{d.Number} asks for {medium}, {lead.Number} for {lead.Test.MediumWritten ?? "water"}";
            if (Checks.ServiceFigures.TestPressure(d) is { } own && Checks.ServiceFigures.TestPressure(lead) is { } other && Math.Abs(own - other) > 0.01 * other)
                yield return string.Create(System.Globalization.CultureInfo.InvariantCulture, $"{d.Number} asks for {own:0.##} bar, {lead.Number} for {other:0.##} bar");
            if ((d.Test.At ?? d.Test.Gauge) is { } here && here != (lead.Test.At ?? lead.Test.Gauge))
                yield return $"{d.Number} asks for its pressure at another height than {lead.Number}";
            if (d.Test.StressRatio is { } ratio && ratio != lead.Test.StressRatio)
                yield return $"{d.Number} has another stress ratio than {lead.Number}";
            if (d.Test.Pack.Length > 0 && lead.Test.Pack.Length > 0 && d.Test.Pack != lead.Test.Pack)
                yield return $"{d.Number} is of pack {d.Test.Pack}, {lead.Number} of {lead.Test.Pack}";
        }

        foreach (var d in all.Where(d => !isPlaced(d)))
            yield return $"{d.Number} does not say how high it stands: its heads are not worked out; give its start an `at` with `up`";
    }

    private static IEnumerable<TestLimit> LimitsOf(Fabrication f, IReadOnlyList<BoltedJoint> bolting, IReadOnlyCollection<string> pack)
    {
        var (route, drawing) = (f.Route, f.Route.Drawing);
        var number = 0;
        string Next() => (++number).ToString(System.Globalization.CultureInfo.InvariantCulture);
        for (var r = 0; r < drawing.Runs.Count; r++)
        {
            var (run, line) = (drawing.Runs[r], route.Runs[r]);
            if (run.Start.Ends is { } first && Limit(first, line.Points[0], line.Sizes[0], -1) is { } start)
                yield return start;
            if (run.Legs.Count > 0 && Limit(run.Legs[^1].To, line.Points[^1], line.Sizes[^1], run.Legs.Count - 1) is { } end)
                yield return end;

            TestLimit? Limit(WorkPoint point, Point at, NominalSize size, int leg)
            {
                if (point.GoesOnIn is { } on && pack.Contains(on))
                    return null;
                var open = route.Joints.Where(j => j.Run == r && j.Between.Count == 1).OrderBy(j => j.At.To(at)).ToList();
                // The weld to a line that is there stands a gap off the point.
                var joint = open.Find(j => j.Leg == leg) ?? open.Find(j => j.At.To(at) < AtTheEnd);
                return point switch
                {
                    FlangePoint { IsBlinded: false } => new(Next(), LimitKind.Blind, joint?.Id ?? "", at, size, joint?.Class ?? run.Line.Class, bolting.FirstOrDefault(b => b.Joint.Id == joint?.Id)),
                    CapPoint => new(Next(), LimitKind.WeldedCap, "", at, size, "", null),
                    OpenPoint => new(Next(), LimitKind.Cap, "", at, size, "", null),
                    WeldPoint => new(Next(), LimitKind.Existing, joint?.Id ?? "", at, size, "", null),
                    _ => null,
                };
            }
        }

        // Branches on which no run begins.
        foreach (var c in route.Components)
        {
            var branch = c switch { Outlet o => o.Branch, Tee t => t.Branch, _ => default };
            if (branch.Name == PortName.Branch && !route.Joints.Any(j => j.Between.Contains(c.Id) && j.At.To(branch.At) < AtTheEnd))
                yield return new(Next(), LimitKind.Cap, c.Id, branch.At, c is Outlet ? c.Size : c.Size2.IsNone ? c.Size : c.Size2, "", null);
        }
    }

    /// <summary>A joint within this of a line's end is the end's own, mm.</summary>
    private const double AtTheEnd = 60;

    /// <summary>Heights within this are one, mm: nobody levels a pipe better.</summary>
    private const double Same = 0.5;

    private static IEnumerable<BorePocket> PocketsOf(BoreMap bore, List<TestLimit> limits, IReadOnlyList<BoltedJoint> bolting, bool air)
    {
        var openings = limits.Where(l => l.Opens).Select(l => (Limit: l, Node: bore.Nodes.MinBy(n => n.At.To(l.At)))).Where(o => o.Node is not null && o.Node.At.To(o.Limit.At) < 400).ToList();
        var level = bore.Standing(openings.Select(o => (o.Node!, air ? o.Node!.Top : o.Node!.Bottom)), air);
        double Height(BoreMap.Node n) => air ? n.Top : -n.Bottom;
        var seen = new bool[bore.Nodes.Count];
        List<List<BoreMap.Node>> pockets = [];
        foreach (var begin in bore.Nodes)
        {
            if (seen[begin.Index])
                continue;
            // All that hangs together at one height.
            List<BoreMap.Node> flat = [];
            HashSet<int> mine = [begin.Index];
            var isTop = true;
            var stack = new Stack<BoreMap.Node>([begin]);
            seen[begin.Index] = true;
            while (stack.TryPop(out var node))
            {
                flat.Add(node);
                foreach (var other in node.Next.Select(i => bore.Nodes[i]))
                {
                    if (Math.Abs(Height(other) - Height(begin)) <= Same)
                    {
                        if (!seen[other.Index])
                        {
                            seen[other.Index] = mine.Add(other.Index);
                            stack.Push(other);
                        }
                        else
                        {
                            isTop &= mine.Contains(other.Index) || Height(other) <= Height(begin);
                        }
                    }
                    else if (air || node.Out.Contains(other.Index))
                    {
                        isTop &= Height(other) < Height(begin);
                    }
                }
            }

            if (isTop)
                pockets.Add(flat);
        }

        // The outermost of a stretch that stays full speaks for all of it.
        var told = new HashSet<int>();
        foreach (var flat in pockets.OrderByDescending(p => Height(p[0])).ThenBy(p => p[0].Index))
        {
            var limit = openings.Where(o => flat.Contains(o.Node!)).Select(o => o.Limit).FirstOrDefault();
            if (limit is null && told.Contains(flat[0].Index))
                continue;
            var stays = Stays(bore, level, flat[0], air, out var full);
            if (limit is null && stays < Nothing)
                continue;
            told.UnionWith(full.Select(n => n.Index));
            var opened = bolting.Where(b => full.Any(n => b.Joint.Between.Contains(n.Part.Id) && n.At.To(b.Joint.At) < AtJoint)).OrderBy(b => b.Joint.At.Z).FirstOrDefault();
            var middle = flat[flat.Count / 2];
            yield return new(air, middle.At, air ? flat.Max(n => n.Top) : flat.Min(n => n.Bottom), middle.Part.Size, limit, limit is null ? stays : 0, limit is null ? opened : null);
        }
    }

    /// <summary>Less than this is no pocket, mm³: a film, and what a step at a fitting makes of it.</summary>
    private const double Nothing = 0.03e6;

    /// <summary>A place this near to a bolted joint empties by it, mm.</summary>
    private const double AtJoint = 60;

    /// <summary>What stays round a pocket, mm³.</summary>
    private static double Stays(BoreMap bore, double[] level, BoreMap.Node from, bool air, out List<BoreMap.Node> wet)
    {
        double Sill(BoreMap.Node n) => air ? -n.Top : n.Bottom;
        wet = [];
        var seen = new HashSet<int> { from.Index };
        var stack = new Stack<BoreMap.Node>([from]);
        var volume = 0.0;
        while (stack.TryPop(out var node))
        {
            if (level[node.Index] <= Sill(node) + Tolerance.Noise)
                continue;
            wet.Add(node);
            volume += node.Volume * (air
                ? 1 - BoreMap.Filled(node.Bottom, node.Top, -level[node.Index])
                : BoreMap.Filled(node.Bottom, node.Top, level[node.Index]));
            foreach (var next in node.Next)
            {
                if (seen.Add(next))
                    stack.Push(bore.Nodes[next]);
            }
        }

        return volume;
    }
}
