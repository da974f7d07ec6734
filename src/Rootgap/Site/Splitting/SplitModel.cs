using Rootgap.Drawings;
using Rootgap.Fabricating;
using Rootgap.FitUp;
using Rootgap.Measure;
using Rootgap.Routes;
using Rootgap.Standards;

namespace Rootgap.Site.Splitting;

/// <summary>A place where the line may be parted: a weld that is drawn, or a new one on straight pipe.</summary>
public sealed record SplitPlace
{
    /// <summary><c>W7</c>; of a new place <c>main/4@1500</c>: run, leg from nought, distance from the leg's first work point.</summary>
    public required string Name { get; init; }

    public required int Run { get; init; }
    public required int Leg { get; init; }

    /// <summary>Distance of a new weld from the leg's first work point, mm; null where the weld is drawn.</summary>
    public double? Along { get; init; }

    /// <summary>Whether the mark of a drawn weld stands under the leg's <c>begin</c>.</summary>
    public bool AtBegin { get; init; }

    public required Point At { get; init; }
    public required Vector Axis { get; init; }
    public required NominalSize Size { get; init; }

    /// <summary>A final-fit weld needs pipe on one side.</summary>
    public required bool CanBeFinalFit { get; init; }

    /// <summary>Cost in inches with the terms behind it, for a field weld; a final-fit weld has the first term dearer.</summary>
    public required IReadOnlyList<Term> FieldCost { get; init; }

    public required IReadOnlyList<Term> FinalFitCost { get; init; }

    /// <summary>What the drawing marks there already; null where nothing, or where it may be moved.</summary>
    public WeldPlace? Stays { get; init; }

    public double Cost(bool finalFit) => (finalFit ? FinalFitCost : FieldCost).Sum(t => t.Mm);
}

/// <summary>What the search for a split is told besides the drawing.</summary>
/// <param name="Free">Marks that are there may be moved.</param>
/// <param name="Pinned">Places that must be marked so, by name.</param>
/// <param name="Forbidden">Places that may not be marked.</param>
public sealed record SplitAsked(bool Free = false, IReadOnlyDictionary<string, WeldPlace>? Pinned = null, IReadOnlySet<string>? Forbidden = null)
{
    /// <summary>Other costs and wishes than the drawing's; null for those.</summary>
    public SplitRules? Rules { get; init; }

    /// <summary>Ends of spools that were measured after welding, by name (<c>W11 of 3</c>), as <see cref="Forecasting.ForecastAsked.AsBuilt"/>. Such a spool is built: it is not
    /// parted, its marks stay even where others may move, and its box is that of its measured ends.</summary>
    public IReadOnlyDictionary<string, (PoseError Off, PoseError Sd)> AsBuilt { get; init; } = new Dictionary<string, (PoseError Off, PoseError Sd)>(StringComparer.Ordinal);
}

/// <summary>The drawing as nodes and edges, with all places where it may be parted.</summary>
internal sealed class SplitModel
{
    private const double OffLevel = 5 * Math.PI / 180;
    private const double HighAbove = 2000;

    private readonly Fabrication fabrication;
    private readonly Route route;
    private readonly SplitAsked asked;
    private readonly Dictionary<string, List<SplitNode>> nodesOf = new(StringComparer.Ordinal);

    private readonly bool isAsDrawn;
    private readonly HashSet<string> built;

    /// <param name="isAsDrawn">Ends stand where the drawing has them, measured or not.</param>
    public SplitModel(Fabrication fabrication, SplitAsked asked, bool isAsDrawn = false)
    {
        (this.fabrication, this.asked, this.isAsDrawn) = (fabrication, asked, isAsDrawn);
        route = fabrication.Route;
        built = [.. fabrication.Spools.Select(s => s.Name).Where(s => route.Joints.Any(j => asked.AsBuilt.ContainsKey(EndOf(j, s))))];
        Rules = asked.Rules ?? route.Drawing.Shop.Split;
        foreach (var pipe in route.Pipes)
            AddPipe(pipe);
        foreach (var c in route.Components)
        {
            if (!c.LiesInJoint)
                AddComponent(c);
        }

        foreach (var joint in route.Joints)
            Join(joint);
        OutsideAxes = [.. Outside.Select(j => NumberOf(j.Axis))];
    }

    public SplitRules Rules { get; }

    public List<SplitNode> Nodes { get; } = [];

    public List<SplitEdge> Edges { get; } = [];

    /// <summary>Unit directions up to their sign.</summary>
    public List<Vector> Directions { get; } = [];

    /// <summary>Joints with things outside.</summary>
    public List<Joint> Outside { get; } = [];

    public IReadOnlyList<int> OutsideAxes { get; }

    public ShopRules Shop => route.Drawing.Shop;

    /// <summary>Names of the spools that are built already.</summary>
    public IReadOnlyCollection<string> Built => built;

    private static string EndOf(Joint joint, string spool) => $"{joint.Id} of {spool}";

    private string? SpoolOf(string part) => fabrication.SpoolOf.GetValueOrDefault(part);

    private bool IsBuilt(string part) => SpoolOf(part) is { } spool && built.Contains(spool);

    /// <summary>Where a part's end stands: as it was measured, else as drawn. What it leans is less than shows in a box.</summary>
    private Point Standing(string part, Point end)
    {
        if (isAsDrawn || SpoolOf(part) is not { } spool || !built.Contains(spool))
            return end;
        foreach (var joint in route.Joints)
        {
            if (joint.Between.Contains(part) && asked.AsBuilt.TryGetValue(EndOf(joint, spool), out var found) && joint.At.To(end) <= joint.Gap + 1)
                return JointAxes.Of(joint.At, joint.Axis).MotionOf(found.Off).Of(end);
        }

        return end;
    }

    public string Say(SplitNode node) => fabrication.Cuts.FirstOrDefault(c => c.Pipe.Id == node.Part) is { } cut ? $"piece {cut.Piece}" : $"{route.ComponentOf(node.Part)?.Name ?? "part"} {node.Part}";

    private int NumberOf(Vector direction)
    {
        var unit = direction.Unit;
        var at = Directions.FindIndex(d => Math.Abs(d.Dot(unit)) > 1 - 1e-9);
        if (at < 0)
        {
            at = Directions.Count;
            Directions.Add(unit);
        }

        return at;
    }

    private SplitNode Add(string part, double mass, List<(Point, Vector, double)> discs, List<int> directions, double inches, int pipeDirection = -1, bool isLoose = false)
    {
        var node = new SplitNode { Index = Nodes.Count, Part = part, Mass = mass, Discs = discs, Directions = directions, Inches = inches, PipeDirection = pipeDirection, IsLoose = isLoose };
        Nodes.Add(node);
        if (!nodesOf.TryGetValue(part, out var own))
            nodesOf[part] = own = [];
        own.Add(node);
        return node;
    }

    private void AddComponent(Component c) =>
        Add(c.Id, fabrication.Masses.TryGetValue(c.Id, out var known) ? known.Kg : 0, [.. c.Ports.Select(p => (Standing(c.Id, p.At), p.Face, p.Outside / 2))],
            [.. c.Ports.Select(p => NumberOf(p.Face)).Distinct()], Math.Max(c.Size.Inches, c.Size2.IsNone || c.Ware == Ware.Outlet ? 0 : c.Size2.Inches), isLoose: c.IsLoose);

    /// <summary>A pipe falls into stretches at the places where a new weld may stand.</summary>
    private void AddPipe(PipePiece pipe)
    {
        var cut = fabrication.Cuts.First(c => c.Pipe.Id == pipe.Id);
        var perLength = Pipes.MassPerLength(pipe.Outside, pipe.Wall, Metals.Density(pipe.Line.Material));
        var length = pipe.Start.To(pipe.End);
        List<double> places = IsBuilt(pipe.Id) || route.Runs[pipe.Run].Run.IsOfOneRow ? [] : [.. NewPlaces(pipe, length)];
        var mass = Math.Max(0, cut.SawLength - cut.Extra) * perLength;
        var direction = NumberOf(pipe.Direction);
        var half = Shop.RootGap / 2;
        SplitNode? last = null;
        for (var i = 0; i <= places.Count; i++)
        {
            var (from, to) = (i == 0 ? 0 : places[i - 1], i == places.Count ? length : places[i]);
            // Where it is parted, half the root gap is missing on each side; the shop's shrinkage allowance is more pipe.
            var (a, b) = (pipe.Start + (pipe.Direction * (i == 0 ? 0 : from + half)), pipe.Start + (pipe.Direction * (i == places.Count ? length : to - half)));
            var less = perLength * (half - (Shop.Shrinkage ?? 0)) * ((i == 0 ? 0 : 1) + (i == places.Count ? 0 : 1));
            var node = Add(pipe.Id, (length > 0 ? mass * (to - from) / length : mass) - less + Attached(pipe, from, to), [(Standing(pipe.Id, a), pipe.Direction, pipe.Outside / 2), (Standing(pipe.Id, b), pipe.Direction, pipe.Outside / 2)], [direction], pipe.Size.Inches, direction);
            if (last is not null)
                JoinNew(pipe, last, node, from, perLength);
            last = node;
        }
    }

    /// <summary>Mass of the supports welded on in the shop on a stretch of pipe, kg.</summary>
    private double Attached(PipePiece pipe, double from, double to) => route.Supports
        .Where(s => s.IsOfSpool && s.Pipe == pipe.Id && (s.At - pipe.Start).Dot(pipe.Direction) is var at && at >= from && at < to).Sum(s => s.Mass?.Kg ?? 0);

    private double Spacing(PipePiece pipe) => Shop.WeldSpacing ?? Math.Max(50, pipe.Outside);

    /// <summary>Distances from the pipe's first end at which a new weld may stand: clear of its ends, of what is set on it and of its supports, and no piece shorter than can be clamped.</summary>
    private IEnumerable<double> NewPlaces(PipePiece pipe, double length)
    {
        var least = Math.Max(Spacing(pipe), Shop.ShortestPipe);
        var branches = new List<(double At, double Radius)>();
        for (var leg = pipe.FirstLeg; leg < pipe.LastLeg; leg++)
        {
            if (Lean.HoleOf(route.Runs[pipe.Run].Run.Legs[leg], pipe.Direction, pipe.Outside, route.Drawing.Units) is var (shift, half))
                branches.Add(((route.Runs[pipe.Run].Points[leg + 1] - pipe.Start).Dot(pipe.Direction) + shift, half));
        }

        // To a support's edge too, and never inside one, however near the shop lets welds come.
        foreach (var support in route.Supports.Where(s => s.Pipe == pipe.Id))
            branches.Add(((support.At - pipe.Start).Dot(pipe.Direction), Math.Max((support.Drawn.Length ?? 0) / 2, support.Covers - Spacing(pipe))));

        for (var at = Rules.Every; at < length; at += Rules.Every)
        {
            if (at >= least - Tolerance.Noise && length - at >= least - Tolerance.Noise && branches.TrueForAll(b => Math.Abs(b.At - at) - b.Radius >= Spacing(pipe) - Tolerance.Noise))
                yield return at;
        }
    }

    private void JoinNew(PipePiece pipe, SplitNode a, SplitNode b, double along, double perLength)
    {
        var line = route.Runs[pipe.Run];
        var at = pipe.Start + (pipe.Direction * along);
        var leg = pipe.FirstLeg;
        while (leg < pipe.LastLeg && (at - line.Points[leg + 1]).Dot(pipe.Direction) > 0)
            leg++;
        var fromPoint = (at - line.Points[leg]).Dot(pipe.Direction);
        var name = FormattableString.Invariant($"{line.Run.Name}/{leg}@{Math.Round(fromPoint, 1):0.#}");
        List<Term> more = [new("a weld more", Rules.NewPlace * pipe.Size.Inches, new Origin.Rule("split: new place")), .. Position(at, pipe.Direction, pipe.Size)];
        // Of the fittings at the pipe's ends and the branches on it, spacing keeps it clear; it may still be less than one diameter.
        var near = Math.Min(IsFitting(pipe, atStart: true) ? along : double.MaxValue, IsFitting(pipe, atStart: false) ? pipe.Start.To(pipe.End) - along : double.MaxValue);
        if (near < pipe.Outside)
            more.Add(NearFitting(pipe.Size));
        var place = PlaceOf(name, pipe.Run, leg, at, pipe.Direction, pipe.Size, canBeFinalFit: true, more) with { Along = fromPoint };
        AddEdge(a, b, place, stays: null, canStayWhole: true, new(a, at - (pipe.Direction * (Shop.RootGap / 2)), pipe.Direction, perLength, pipe.Outside / 2), perLength * (Shop.RootGap - (2 * (Shop.Shrinkage ?? 0))));
    }

    private bool IsFitting(PipePiece pipe, bool atStart)
    {
        var end = atStart ? pipe.Start : pipe.End;
        return route.Joints.Any(j => j.Between.Contains(pipe.Id) && j.At.To(end) <= (j.Gap / 2) + 0.01 && j.Between.Any(id => route.ComponentOf(id) is not null));
    }

    private Term NearFitting(NominalSize size) => new("within one diameter of a fitting", Rules.NearFitting * size.Inches, new Origin.Rule("split: near fitting"));

    private IEnumerable<Term> Position(Point at, Vector axis, NominalSize size)
    {
        if (Math.Abs(Math.Asin(Math.Clamp(axis.Unit.Z, -1, 1))) > OffLevel)
            yield return new("off level", Rules.OffLevel * size.Inches, new Origin.Rule("split: off level"));
        if (at.Z - Rules.Floor > HighAbove)
            yield return new("over 2 m up", Rules.High * size.Inches, new Origin.Rule("split: high"));
    }

    private SplitPlace PlaceOf(string name, int run, int leg, Point at, Vector axis, NominalSize size, bool canBeFinalFit, List<Term> more) => new()
    {
        Name = name,
        Run = run,
        Leg = leg,
        At = at,
        Axis = axis,
        Size = size,
        CanBeFinalFit = canBeFinalFit,
        FieldCost = [new("field weld", Rules.Field * size.Inches, new Origin.Rule("split: field")), .. more],
        FinalFitCost = [new("final-fit weld", Rules.FinalFit * size.Inches, new Origin.Rule("split: final-fit")), .. more],
    };

    private void Join(Joint joint)
    {
        if (joint.Between is [var alone])
        {
            nodesOf[alone].MinBy(n => n.Discs.Min(d => d.At.To(joint.At)))!.Outside.Add(Outside.Count);
            Outside.Add(joint);
            return;
        }

        if (joint.Between is not [var first, var second] || !nodesOf.ContainsKey(first) || !nodesOf.ContainsKey(second))
            return;
        var (a, b) = (NodeAt(first, joint.At), NodeAt(second, joint.At));
        if (joint.Kind == JointKind.Bolted)
        {
            AddEdge(a, b, null, Cut.Field, canStayWhole: false, null);
            return;
        }

        var isBuilt = IsBuilt(first) || IsBuilt(second);
        var isMarked = joint.Place != WeldPlace.Shop && !(asked.Free && joint.Kind == JointKind.Butt && !isBuilt);
        Cut? stays = isMarked ? joint.Place == WeldPlace.FinalFit ? Cut.FinalFit : Cut.Field : null;
        if ((joint.Kind != JointKind.Butt || isBuilt || IsInSupport(joint) || route.Runs[joint.Run].Run.IsOfOneRow) && !isMarked)
        {
            AddEdge(a, b, null, Cut.None, canStayWhole: true, null);
            return;
        }

        var carrier = route.PipeOf(first) ?? route.PipeOf(second);
        List<Term> more = [.. Position(joint.At, joint.Axis, joint.Size)];
        if (IsNearFitting(joint))
            more.Add(NearFitting(joint.Size));
        var atBegin = joint.Between.Select(route.PipeOf).Any(p => p is not null && p.FirstLeg == joint.Leg && p.Run == joint.Run && p.Start.To(joint.At) <= (joint.Gap / 2) + 0.01);
        var place = PlaceOf(joint.Id, joint.Run, joint.Leg, joint.At, joint.Axis, joint.Size, carrier is not null, more) with { AtBegin = atBegin, Stays = isMarked ? joint.Place : null };
        AddEdge(a, b, place, stays, canStayWhole: true, carrier is null ? null : CarrierOf(carrier, carrier.Id == first ? a : b, joint));
    }

    private bool IsInSupport(Joint joint) => route.Supports.Any(s => s.Covers > s.At.To(joint.At) - (joint.Gap / 2) && Math.Abs(s.Along.Dot(joint.Axis)) > 0.99);

    private Carrier CarrierOf(PipePiece pipe, SplitNode node, Joint joint)
    {
        var atEnd = pipe.End.To(joint.At) <= pipe.Start.To(joint.At);
        return new(node, Standing(pipe.Id, atEnd ? pipe.End : pipe.Start), atEnd ? pipe.Direction : -pipe.Direction, Pipes.MassPerLength(pipe.Outside, pipe.Wall, Metals.Density(pipe.Line.Material)), pipe.Outside / 2);
    }

    private bool IsNearFitting(Joint joint)
    {
        if (joint.Between.Any(id => route.ComponentOf(id) is not null))
            return true;
        return joint.Between.Select(route.PipeOf).OfType<PipePiece>().Any(p => p.Start.To(p.End) < p.Outside && IsFitting(p, atStart: p.End.To(joint.At) < p.Start.To(joint.At)));
    }

    private SplitNode NodeAt(string part, Point at) => nodesOf[part].MinBy(n => Distance(n, at))!;

    /// <summary>To a stretch of pipe, or to the nearest end of another part.</summary>
    private static double Distance(SplitNode node, Point at)
    {
        if (node.PipeDirection < 0 || node.Discs is not [var from, var to])
            return node.Discs.Min(d => d.At.To(at));
        var length = from.At.To(to.At);
        var along = length > 0 ? Math.Clamp((at - from.At).Dot((to.At - from.At) / length), 0, length) : 0;
        return at.To(from.At.Toward(to.At, length > 0 ? along / length : 0));
    }

    /// <summary>The end of pipe that carries the extra of a final-fit weld.</summary>
    private sealed record Carrier(SplitNode On, Point From, Vector Way, double PerLength, double Radius);

    private void AddEdge(SplitNode a, SplitNode b, SplitPlace? place, Cut? stays, bool canStayWhole, Carrier? carrier, double wholeMass = 0)
    {
        List<Cut> allowed = [];
        if (place is not null && asked.Pinned?.TryGetValue(place.Name, out var pinned) == true)
            allowed.Add(pinned == WeldPlace.FinalFit ? Cut.FinalFit : Cut.Field);
        else if (stays is { } one)
            allowed.Add(one);
        else if (place is null || asked.Forbidden?.Contains(place.Name) == true)
            allowed.Add(Cut.None);
        else
            allowed.AddRange(place.CanBeFinalFit ? [Cut.None, Cut.Field, Cut.FinalFit] : [Cut.None, Cut.Field]);
        if (!canStayWhole)
            allowed.Remove(Cut.None);
        var edge = new SplitEdge
        {
            A = a,
            B = b,
            Place = place,
            Allowed = allowed,
            ExtraOn = carrier?.On,
            ExtraFrom = carrier?.From ?? Point.Origin,
            ExtraWay = carrier?.Way ?? Vector.Zero,
            ExtraMass = (carrier?.PerLength ?? 0) * Shop.FinalFitExtra,
            WholeMass = wholeMass,
            Radius = carrier?.Radius ?? 0,
            Direction = place is null ? 0 : NumberOf(place.Axis),
            OnLeg = place is null ? (-1, -1) : (place.Run, place.Leg),
        };
        Edges.Add(edge);
        a.Edges.Add(edge);
        b.Edges.Add(edge);
    }
}
