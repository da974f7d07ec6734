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
    /// <summary>A test blind on a flange: in for the test and out again.</summary>
    Blind,

    /// <summary>A cap, a plug or a test stopper on an open pipe, outlet or thread: in for the test and out again.</summary>
    Cap,

    /// <summary>A cap that is welded on and stays.</summary>
    WeldedCap,

    /// <summary>The line's own screwed cap or plug: it stays, and lets water or air out where it is unscrewed.</summary>
    Screwed,

    /// <summary>The line's own blind flange: it stays.</summary>
    OwnBlind,

    /// <summary>Welded to a line that is there already, or goes on: where it is held off is the test engineer's.</summary>
    Existing,
}

/// <summary>An end of what is tested.</summary>
/// <param name="Name">1, 2 ... as on the sheet.</param>
/// <param name="Joint">The joint there; empty where none is.</param>
/// <param name="At">Middle of the bore there.</param>
/// <param name="Part">What ends there, or closes it; null where a line goes on.</param>
public sealed record TestLimit(string Name, LimitKind Kind, string Joint, Point At, NominalSize Size, string Class, BoltedJoint? Bolting, Part? Part)
{
    /// <summary>The part that is taken out there for the test; null where none is.</summary>
    public Component? Out { get; init; }

    /// <summary>Whether what is taken out there is welded in, so that it does not come out without a cut.</summary>
    public bool IsWeldedIn { get; init; }

    /// <summary>Whether water or air can be let out there.</summary>
    public bool Opens => Kind is LimitKind.Blind or LimitKind.Cap or LimitKind.Screwed;

    /// <summary>Whether what closes it is put in for the test, so that it is counted in and out.</summary>
    public bool IsForTest => Kind is LimitKind.Blind or LimitKind.Cap;
}

/// <summary>A bore of the test that hangs together: how it is filled and let out.</summary>
/// <param name="Limits">All its limits.</param>
/// <param name="Fills">Limits at which it is filled, in this order: all of it is reached from them with the flow through check valves.</param>
/// <param name="Vents">Limits that let air out of its high places.</param>
/// <param name="Drains">Limits that let water out of its low places.</param>
/// <param name="Dry">What no limit fills, mm³: it lies before a check valve.</param>
public sealed record TestBore(IReadOnlyList<TestLimit> Limits, IReadOnlyList<TestLimit> Fills, IReadOnlyList<TestLimit> Vents, IReadOnlyList<TestLimit> Drains, double Dry);

/// <summary>A stretch whose bore stands higher, or lower, than all next to it.</summary>
/// <param name="At">Its middle.</param>
/// <param name="Part">The part that it lies in.</param>
/// <param name="Height">Highest place of the bore's top, or lowest of its bottom, mm.</param>
/// <param name="Limit">The limit that stands there; null where none does.</param>
/// <param name="Stays">What stays there as air, or as water, mm³.</param>
/// <param name="Opened">The bolted joint that is opened to let it out; null where there is none on it.</param>
public sealed record BorePocket(bool IsHigh, Point At, Part Part, double Height, NominalSize Size, TestLimit? Limit, double Stays, BoltedJoint? Opened)
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
/// <param name="Full">kg; 0 where no straight stretch leads from it to another, so that it is not reckoned.</param>
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

    /// <summary>Valves that stay in, to be open, and what else stays between two pieces of pipe: plates, strainers, meters.</summary>
    public required IReadOnlyList<Component> Valves { get; init; }

    /// <summary>What is taken out.</summary>
    public required IReadOnlyList<Component> Out { get; init; }

    /// <summary>High and low places of the bore; none where the test is with gas, which fills every corner.</summary>
    public required IReadOnlyList<BorePocket> Pockets { get; init; }

    /// <summary>The bores of this drawing: more than one where a part is taken out.</summary>
    public required IReadOnlyList<TestBore> Bores { get; init; }

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
        var isOut = OutOf(route);
        var bore = new BoreMap(route, isOut);
        var bores = all.Select(a => (Drawing: a.Route.Drawing, Bore: a == f ? bore : new BoreMap(a.Route, OutOf(a.Route)))).ToList();
        var bolting = BoltedJoint.Of(f);
        var limits = LimitsOf(f, bolting, isOut, numbers).ToList();
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
        heads.AddRange(limits.Where(l => l.IsForTest || l.Kind == LimitKind.Existing).Select(l => new TestHead($"limit {l.Name}{(l.Joint.Length > 0 ? ", " + l.Joint : "")}", l.At.Z, IsPlaced(drawing) ? Bar(l.At.Z) : null)));
        heads.Add(new("lowest, bottom of the bore" + On(bottom.Number), bottom.Bottom, Bar(bottom.Bottom)));
        // What stands apart and ends open in service is closed and pressed here like the rest.
        var weakest = all.SelectMany(a => new[] { Checks.ServiceFigures.Weakest(a.Route, Ratings.Ambient), Checks.ServiceFigures.WeakestLeftOut(a.Route, Ratings.Ambient) }).OfType<(Component Flange, string Material, double Rating)>().OrderBy(w => w.Rating).Select(w => ((Component, double)?)(w.Flange, w.Rating)).FirstOrDefault();
        var isAir = asked.Medium == TestMedium.Air;
        List<BorePocket> pockets = isAir ? [] : [.. PocketsOf(bore, limits, bolting, air: true), .. PocketsOf(bore, limits, bolting, air: false)];
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
            Valves = [.. route.Components.Where(c => c is Valve or InLineItem && !isOut.Contains(c))],
            Out = isOut,
            Pockets = pockets,
            Bores = [.. BoresOf(bore, limits, pockets)],
            Volume = bore.Volume,
            PackVolume = bores.Sum(b => b.Bore.Volume),
            Weakest = weakest is var (flange, rating) ? (flange, rating, PressureTest.MostOfFlanges(rating, drawing.Units)) : null,
            NotChecked = [.. all.SelectMany(a => Checks.ServiceFigures.Kinds(a.Route)).Where(k => k.Group is not { } group || Ratings.Of(group, k.Flange.Line.Class, Ratings.Ambient, drawing.Units) is null).Select(k => $"class {k.Flange.Line.Class}{(k.Material.Length > 0 ? " of " + k.Material : "")}").Distinct(StringComparer.Ordinal)],
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

    /// <summary>What the drawing marks to be taken out for the test.</summary>
    private static List<Component> OutOf(Route route) =>
        [.. route.Components.Where(c => c is InLine && c.Leg >= 0 && route.Drawing.Runs[c.Run].Legs[c.Leg].IsOutForTest)];

    private static IEnumerable<TestLimit> LimitsOf(Fabrication f, IReadOnlyList<BoltedJoint> bolting, List<Component> isOut, IReadOnlyCollection<string> pack)
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
                TestLimit Of(LimitKind kind, Part? part, Joint? at0 = null) => new(Next(), kind, at0?.Id ?? "", at, size, at0?.Class is { Length: > 0 } own ? own : kind is LimitKind.Blind or LimitKind.OwnBlind ? run.Line.Class : "", bolting.FirstOrDefault(b => b.Joint.Id == at0?.Id), part);
                T? Here<T>()
                    where T : Component => route.Components.OfType<T>().FirstOrDefault(c => c.Run == r && c.Leg == leg);
                switch (point)
                {
                    case FlangePoint { IsBlinded: true }:
                        var blind = Here<BlindFlange>();
                        return Of(LimitKind.OwnBlind, blind, route.Joints.FirstOrDefault(j => blind is not null && j.Between.Contains(blind.Id)));
                    case FlangePoint:
                        return Of(LimitKind.Blind, Here<Flange>(), joint);
                    case CapPoint:
                        var cap = Here<Cap>();
                        return Of(cap?.Line.Ends == FittingEnds.Threaded ? LimitKind.Screwed : LimitKind.WeldedCap, cap);
                    case PlugPoint:
                        return Of(LimitKind.Screwed, Here<Plug>());
                    case OpenPoint:
                        return Of(LimitKind.Cap, route.Pipes.FirstOrDefault(p => p.Run == r && p.Ports.Any(e => e.At.To(at) < 1)));
                    case WeldPoint:
                        return Of(LimitKind.Existing, null, joint);
                    default:
                        return null;
                }
            }
        }

        // Ends of parts to which nothing is joined: branches on which no run begins, a valve behind which nothing follows.
        foreach (var c in route.Components.Where(c => !c.LiesInJoint && !isOut.Contains(c)))
        {
            foreach (var port in FreeOf(route, c))
            {
                var isFaced = c is InLine { Ends: FittingEnds.Flanged } || port.Name == PortName.Face;
                yield return new(Next(), isFaced ? LimitKind.Blind : LimitKind.Cap, "", port.At, SizeAt(c, port), isFaced ? c.Line.Class : "", null, c);
            }
        }

        // The ends that a part leaves open where it is taken out.
        foreach (var gone in isOut)
        {
            foreach (var joint in route.Joints.Where(j => j.Between.Contains(gone.Id)))
            {
                var beside = joint.Between.Where(id => id != gone.Id).Select(route.PartOf).FirstOrDefault();
                if (beside is null || isOut.Contains(beside))
                    continue;
                var isBolted = joint.Kind == JointKind.Bolted;
                yield return new(Next(), isBolted ? LimitKind.Blind : LimitKind.Cap, joint.Id, joint.At, joint.Size, isBolted ? joint.Class : "", bolting.FirstOrDefault(b => b.Joint == joint), beside) { Out = gone, IsWeldedIn = joint.IsWeld };
            }
        }
    }

    /// <summary>Ends of a component to which no joint belongs; each joint belongs to the end that it is nearest to, an end has one.</summary>
    private static List<Port> FreeOf(Route route, Component c)
    {
        if (c is Cap or Plug or BlindFlange)
            return [];
        var free = c.Ports.ToList();
        var joints = route.Joints.Where(j => j.Between.Contains(c.Id)).ToList();
        while (free.Count > 0 && joints.Count > 0)
        {
            var (port, joint) = free.SelectMany(p => joints.Select(j => (Port: p, Joint: j))).MinBy(x => x.Port.At.To(x.Joint.At));
            free.Remove(port);
            joints.Remove(joint);
        }

        return free;
    }

    private static NominalSize SizeAt(Component c, Port port) => c switch
    {
        Tee { Size2.IsNone: false } when port.Name == PortName.Branch => c.Size2,
        Reducer { Size2.IsNone: false } reducer when Math.Abs(port.Outside - reducer.Outside) > Same => c.Size2,
        _ => c.Size,
    };

    /// <summary>A joint within this of a line's end is the end's own, mm.</summary>
    private const double AtTheEnd = 60;

    /// <summary>Heights within this are one, mm: nobody levels a pipe better.</summary>
    private const double Same = 0.5;

    private static IEnumerable<BorePocket> PocketsOf(BoreMap bore, List<TestLimit> limits, IReadOnlyList<BoltedJoint> bolting, bool air)
    {
        var openings = limits.Where(l => l.Opens).Select(l => (Limit: l, Node: NodeOf(bore, l))).Where(o => o.Node is not null).Select(o => (o.Limit, Node: o.Node!)).ToList();
        double[] Standing(IEnumerable<BoreMap.Node> at) => bore.Standing(at.Select(n => (n, air ? n.Top : n.Bottom)), air);
        var level = Standing(openings.Select(o => o.Node));
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
                foreach (var other in node.Out.Select(i => bore.Nodes[i]))
                {
                    if (Math.Abs(Height(other) - Height(begin)) <= Same)
                    {
                        // Where it may go on at this height and not come back, the place behind speaks.
                        if (!other.Out.Contains(node.Index))
                        {
                            isTop = false;
                        }
                        else if (!seen[other.Index])
                        {
                            seen[other.Index] = mine.Add(other.Index);
                            stack.Push(other);
                        }
                        else
                        {
                            isTop &= mine.Contains(other.Index) || Height(other) <= Height(begin);
                        }
                    }
                    else
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
            var here = openings.Where(o => flat.Contains(o.Node)).ToList();
            var limit = air ? here.LastOrDefault().Limit : here.FirstOrDefault().Limit;
            if (limit is null && told.Contains(flat[0].Index))
                continue;
            // A limit is named where it is needed: without it something would stay.
            var alone = limit is null ? level : Standing(openings.Except(here).Select(o => o.Node));
            var stays = Stays(bore, alone, flat[0], air, out var full);
            if (stays < Nothing)
                continue;
            var middle = flat[flat.Count / 2];
            BorePocket Pocket(double left, BoltedJoint? opened) => new(air, middle.At, middle.Part, air ? flat.Max(n => n.Top) : flat.Min(n => n.Bottom), middle.Part.Size, limit, left, opened);
            if (limit is not null)
            {
                yield return Pocket(0, null);
                continue;
            }

            told.UnionWith(full.Select(n => n.Index));
            // The bolted joint by which most runs off, if it does.
            var best = bolting.SelectMany(b => full.Where(n => b.Joint.Between.Contains(n.Part.Id) && n.At.To(b.Joint.At) < AtJoint).Select(n => (Joint: b, Stays: Stays(bore, Standing(openings.Select(o => o.Node).Append(n)), flat[0], air, out _))))
                .OrderBy(b => b.Stays).Select(b => ((BoltedJoint Joint, double Stays)?)b).FirstOrDefault();
            yield return Pocket(stays, best is var (joint, left) && left < BorePocket.Little ? joint : null);
        }
    }

    /// <summary>The place of the bore at which a limit opens; null where the bore does not reach it.</summary>
    private static BoreMap.Node? NodeOf(BoreMap bore, TestLimit limit) =>
        (limit.Part is { } part ? bore.At(part.Id, limit.At) : null) ?? bore.Nodes.Where(n => n.At.To(limit.At) < 400).MinBy(n => n.At.To(limit.At));

    private static IEnumerable<TestBore> BoresOf(BoreMap map, List<TestLimit> limits, List<BorePocket> pockets)
    {
        var at = limits.Select(l => (Limit: l, Node: NodeOf(map, l))).Where(x => x.Node is not null).Select(x => (x.Limit, Node: x.Node!)).ToList();
        foreach (var bore in map.Bores())
        {
            var all = bore.Select(n => n.Index).ToHashSet();
            var here = at.Where(x => all.Contains(x.Node.Index)).ToList();
            List<TestLimit> Served(bool high) => [.. pockets.Where(p => p.IsHigh == high && p.Limit is { } limit && here.Any(h => h.Limit == limit)).Select(p => p.Limit!).Distinct()];
            var vents = Served(high: true);
            // With the flow through every check valve: first what reaches most, of those none that is a vent where another will do, the lowest.
            List<TestLimit> fills = [];
            var dry = all.ToHashSet();
            while (dry.Count > 0 && here.Where(h => h.Limit.Opens && !fills.Contains(h.Limit)).Select(h => (h.Limit, h.Node, New: map.Reach([h.Node]).Where(dry.Contains).ToList()))
                .Where(h => h.New.Count > 0).OrderByDescending(h => h.New.Count).ThenBy(h => vents.Contains(h.Limit)).ThenBy(h => Math.Round(h.Node.Bottom)).FirstOrDefault() is { New: not null } best)
            {
                fills.Add(best.Limit);
                dry.ExceptWith(best.New);
            }

            yield return new([.. here.Select(h => h.Limit)], fills, vents, Served(high: false), dry.Sum(i => map.Nodes[i].Volume));
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
