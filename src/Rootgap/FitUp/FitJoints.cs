using Rootgap.Drawings;
using Rootgap.Fabricating;
using Rootgap.Measure;
using Rootgap.Routes;
using Rootgap.Standards;

namespace Rootgap.FitUp;

/// <summary>The welds of a fabricated drawing as joints to be fitted: between single parts, or between assemblies as they stand.</summary>
public sealed class FitJoints
{
    private readonly Fabrication fabrication;
    private readonly Units units;
    private readonly Dictionary<string, FitPart> parts = new(StringComparer.Ordinal);
    private readonly Dictionary<Spool, FitSpool> spools = new(ReferenceEqualityComparer.Instance);
    private readonly JointNet net;

    public FitJoints(Fabrication fabrication)
    {
        this.fabrication = fabrication;
        units = fabrication.Route.Drawing.Units;
        var cuts = fabrication.Cuts.ToDictionary(c => c.Pipe.Id, StringComparer.Ordinal);
        // Along the line: a pipe comes before what stands at the end of its first leg. Loose parts have no fit-up.
        var all = fabrication.Route.Pipes.Select(p => (p.Run, Leg: p.FirstLeg, Kind: 0, Part: (Part)p))
            .Concat(fabrication.Route.Components.Where(c => !c.IsLoose).Select(c => (c.Run, c.Leg, Kind: 1, Part: (Part)c)))
            .OrderBy(p => (p.Run, p.Leg, p.Kind));
        foreach (var (_, _, _, part) in all)
            parts[part.Id] = part is PipePiece pipe ? FitPart.Make(cuts[pipe.Id], parts.Count) : FitPart.Make((Component)part, parts.Count);
        var joints = fabrication.Route.Joints.Where(j => j.Kind != JointKind.Attachment).SelectMany(j => j.Between.Distinct(StringComparer.Ordinal).Select(id => (Id: id, Joint: j))).ToLookup(j => j.Id, j => j.Joint, StringComparer.Ordinal);
        foreach (var part in parts.Values.ToList())
            parts[part.Id] = part with { Ends = [.. part.Ends.Select(e => e with { Joint = NameAt(part, e, joints[part.Id]) })] };
        net = new(fabrication.Route.Joints, parts);
        Welds = [.. fabrication.Route.Joints.Where(j => j.IsWeld && j.Between is [var a, var b] && a != b && parts.ContainsKey(a) && parts.ContainsKey(b))];
    }

    // A branch is at the end of the pipe that is set on, and at the side of its header.
    private static string NameAt(FitPart part, FitEnd end, IEnumerable<Joint> joints)
    {
        var isSetOn = part.Of is not PipePiece pipe || (end.Name == PortName.RunIn ? pipe.AtStart : pipe.AtEnd).Kind == EndKind.SetOn;
        return joints.Where(j => (isSetOn || j.Kind != JointKind.Branch) && part.Ends.All(e => end.Drawn.To(j.At) <= e.Drawn.To(j.At))).MinBy(j => end.Drawn.To(j.At))?.Id ?? "";
    }

    /// <summary>The welds that can be fitted: both sides are in this drawing.</summary>
    public IReadOnlyList<Joint> Welds { get; }

    /// <summary>The drawing's units.</summary>
    public Units Units => units;

    /// <summary>The shop's rules for standing things.</summary>
    public FitRules Rules => FitRules.Of(fabrication.Route.Drawing.Shop);

    /// <summary>The shop's rules as the drawing has them.</summary>
    internal ShopRules Shop => fabrication.Route.Drawing.Shop;

    internal JointNet Net => net;

    public FitPart Part(string id) => parts[id];

    /// <summary>A spool ready for its order of work.</summary>
    public FitSpool OfSpool(Spool spool)
    {
        if (!spools.TryGetValue(spool, out var known))
            spools[spool] = known = new(this, spool);
        return known;
    }

    /// <summary>The spool that a weld is made in; null for a weld at site.</summary>
    public Spool? SpoolOf(Joint joint) => fabrication.Spools.FirstOrDefault(s => s.Joints.Contains(joint));

    /// <summary>Bolt holes of a flange that is welded fast; null for anything else, and where no reference line is known.</summary>
    public FitHoles? HolesOf(string id) => parts.GetValueOrDefault(id)?.Holes;

    /// <summary>The limits in force at a joint.</summary>
    public FitTolerance Limits(Joint joint, FitJoint fit)
    {
        var shop = fabrication.Route.Drawing.Shop;
        return FitTolerance.Of(fit, joint.Size.Inches, new FitShopLimits(
            FaceAngle: shop.AngularTolerance is { } angle ? Angles.ToDegrees(angle) : null,
            HiLo: OwnHiLo));
    }

    // The default hi-lo of the shop's rules is the published one: only another figure is the shop's own.
    private double? OwnHiLo => fabrication.Route.Drawing.Shop.HiLo is var hiLo && Math.Abs(hiLo - 1.5) > 1e-9 ? hiLo : null;

    /// <summary>The limits of step and gap at a weld within a mitred bend, for which nothing is set up.</summary>
    public (FitLimit HiLo, FitLimit Gap) SeamLimits(Joint seam) => FitTolerance.OfSeam(seam.Size.Inches, OwnHiLo);

    /// <summary>The two parts at a weld alone, as drawn: the pipe held and the other brought; <paramref name="flip"/> holds the other one.</summary>
    public FitJoint Of(Joint joint, bool flip = false)
    {
        var (first, second) = (parts[joint.Between[0]], parts[joint.Between[1]]);
        var held = HoldsFirst(joint, first, second) != flip ? first : second;
        var brought = held == first ? second : first;
        return Of(joint, held, Assembly.Of([held]), Assembly.Of([brought]), _ => Motion.None);
    }

    // The pipe is held: it can be marked, levelled and stood up. A branch is set on its header.
    private bool HoldsFirst(Joint joint, FitPart first, FitPart second) =>
        joint.Kind == JointKind.Branch ? net.IsHeader(joint, first)
        : first.Of is Outlet || (second.Of is not Outlet && (first.IsPipe || !second.IsPipe));

    /// <summary>Whether a part is the header of a branch weld.</summary>
    public bool IsHeader(Joint joint, FitPart part) => net.IsHeader(joint, part);

    /// <summary>A weld between two assemblies as they stand.</summary>
    /// <param name="held">The part at the weld that is held.</param>
    /// <param name="place">The motion of each part from its place as drawn, by id; the brought assembly is moved as one to lie true.</param>
    /// <param name="isWelded">The weld has drawn in: no shrinkage allowance is left at it.</param>
    public FitJoint Of(Joint joint, FitPart held, Assembly heldSide, Assembly brought, Func<string, Motion> place, bool isWelded = false)
    {
        var other = parts[joint.Between[0] == held.Id ? joint.Between[1] : joint.Between[0]];
        var (from, to) = (net.EndAt(joint, held), net.EndAt(joint, other));
        var drawn = AsDrawn(joint, held, other, from, to);
        var longer = isWelded || from is null ? 0 : (from.Nose - from.Drawn).Dot(drawn.Axis);
        var spread = longer + (isWelded || to is null ? 0 : (to.Nose - to.Drawn).Dot(-drawn.Axis));
        var stands = place(held.Id);
        var isRing = brought.Parts.Length == 0;
        // So that the new part lies to the held one as drawn, and beyond it by what both are longer than drawn.
        var to0 = isRing ? place(other.Id) : stands.After(Motion.About(Point.Origin, drawn.Axis * spread, Vector.Zero));
        var all = isRing ? Motion.None : to0.After(place(other.Id).Inverse);
        var places = heldSide.Parts.ToDictionary(p => p.Id, p => place(p.Id), StringComparer.Ordinal);
        foreach (var part in brought.Parts)
            places[part.Id] = all.After(place(part.Id));
        var there = places.Keys.ToHashSet(StringComparer.Ordinal);
        var side = isRing ? null : FarSide.Of(net, joint, other, to, drawn.Axis, brought, there);
        var through = side is null ? Through(other, to, drawn.Axis) : side.Turns[0];
        Motion Place(string id) => places.TryGetValue(id, out var motion) ? motion : Motion.None;
        var far = side is null ? null : Moved(side.End.AsFace, Place(side.Part.Id));
        var tip = far?.Centre ?? (other.Of is Cap cap ? to0.Of(cap.WorkPoint) : to0.Of((to ?? other.Ends[0]).At));
        var (heldTurn, heldFar, farEnd) = Behind(held, from, drawn);
        var behind = heldTurn.IsStraight || farEnd is null ? null : PipeBehind(held, farEnd, heldSide);
        // A held fitting bears no marks: what hangs on it may have an open end to tape from.
        var open = isRing || held.IsPipe ? null : FarSide.Of(net, joint, held, from, -drawn.Axis, heldSide, there);
        var spool = SpoolOf(joint);
        return new FitJoint
        {
            Name = joint.Id,
            Units = units,
            Held = held,
            New = other,
            HeldSide = heldSide,
            Brought = brought,
            Weld = drawn.Weld,
            IsWelded = isWelded,
            Size = joint.Size.ToString(),
            Centre = stands.Of(drawn.Centre + (drawn.Axis * longer)),
            Axis = stands.Of(drawn.Axis),
            Gap = drawn.Gap,
            Outside = drawn.Outside,
            Inside = drawn.Inside,
            HeldFar = Moved(heldFar, stands),
            IsHeldFarFree = farEnd is not null && net.IsFree(held, farEnd, there),
            HeldEnd = open?.Part,
            HeldEndFace = open is null ? null : Moved(open.End.AsFace, Place(open.Part.Id)),
            HeldCarry = open is null ? [] : [.. open.Turns.Select(t => FarSide.Least(t.In, t.Out)).OfType<(Vector Axis, double Angle)>().Select(t => (stands.Of(t.Axis), t.Angle))],
            HeldStraight = drawn.Straight,
            HeldTurn = heldTurn with { Side = stands.Of(heldTurn.Side) },
            HeldBehind = behind?.Straight ?? 0,
            HeldBehindFace = behind is null ? null : Moved(heldFar, heldSide.Contains(behind.Id) ? place(behind.Id) : stands),
            Turn = Turn(other, through, to0),
            Far = far,
            End = side?.Part,
            Carry = side is null ? [] : [.. side.Turns.Select(t => FarSide.Least(t.In, t.Out)).OfType<(Vector Axis, double Angle)>().Select(t => (to0.Of(t.Axis), t.Angle))],
            Tip = tip,
            Setback = drawn.Weld == FitWeld.SlipOn ? Setback(held, other, from, to) : null,
            Holes = side is { Part.Holes: { } holes, End.Name: PortName.Face } ? holes with { Between = Place(side.Part.Id).Of(holes.Between) } : null,
            Header = stands.Of(drawn.Header),
            HeaderOutside = drawn.HeaderOutside,
            Flat = other.Of is Reducer { Flat: var flat } ? to0.Of(flat) : Vector.Zero,
            Bodies = [.. heldSide.Parts.Concat(brought.Parts).SelectMany(p => p.Bodies.Concat(p.Screen is { } screen ? [screen] : []).Select(b => b.Moved(Place(p.Id))))],
            HeldBodies = [.. held.Bodies.Select(b => b.Moved(Place(held.Id)))],
            NewBodies = [.. other.Bodies.Select(b => b.Moved(isRing ? place(other.Id) : Place(other.Id)))],
            Places = places,
            SpoolEnd = all.Of(FarthestBeyond(joint, other)),
            SpoolReach = spool is null ? Reach(fabrication.Spools) : Reach([spool]),
            RollIsFree = drawn.Weld != FitWeld.Branch && brought.Parts.All(p => !p.ShowsClock && p.Holes is null),
        };
    }

    /// <summary>The weld itself, without what hangs on it.</summary>
    private sealed record Drawn(FitWeld Weld, Point Centre, Vector Axis, double Gap, double Outside, double Inside, double Straight, Vector Header, double HeaderOutside);

    private Drawn AsDrawn(Joint joint, FitPart held, FitPart other, FitEnd? from, FitEnd? to)
    {
        var outside = Pipes.OutsideDiameter(joint.Size)?.In(units) ?? 0;
        if (joint.Kind == JointKind.Branch)
        {
            // A branch on its header: its own end is the weld, whichever side is held.
            var (branch, header, end) = from is null ? (other, held, to!) : (held, other, from);
            var wall = branch.IsPipe ? branch.Of.Wall : joint.Wall;
            var a = from is null ? -end.Face : end.Face;
            var back = header.Ends.Min(e => Math.Abs((end.Drawn - e.At).Dot(e.Face)));
            return new(FitWeld.Branch, end.Drawn - (a * (from is null ? joint.Gap / 2 : -joint.Gap / 2)), a, joint.Gap, outside, Math.Max(0, outside - (2 * wall)),
                from is null ? Math.Max(0, back - (outside / 2)) : held.Straight, from is null ? header.Direction : Vector.Zero, from is null ? header.Outside : 0);
        }

        var axis = from!.Face;
        var gap = joint.Kind switch
        {
            JointKind.Butt => Math.Max(0, (to!.Drawn - from.Drawn).Dot(axis)),
            JointKind.Socket => fabrication.Route.Drawing.Shop.SocketGap,
            _ => 0,
        };
        // In a socket or a slip-on the pipe's end counts: it is the pipe that is marked and set.
        var centre = joint.Kind == JointKind.Butt ? from.Drawn.Toward(to!.Drawn, 0.5) : held.IsPipe ? from.Drawn + (axis * (gap / 2)) : to!.Drawn - (axis * (gap / 2));
        var weld = joint.Kind switch
        {
            JointKind.Socket => FitWeld.Socket,
            JointKind.Fillet => FitWeld.SlipOn,
            _ => FitWeld.Butt,
        };
        return new(weld, centre, axis, gap, outside, Math.Max(0, outside - (2 * joint.Wall)), held.IsPipe ? held.Straight : 0, Vector.Zero, 0);
    }

    // How far a pipe's end stands behind the face of the flange that it is slid into.
    private static double? Setback(FitPart held, FitPart other, FitEnd? from, FitEnd? to)
    {
        var (pipe, flange) = held.IsPipe ? (from, other) : (to, held);
        return pipe is not null && (held.IsPipe || other.IsPipe) && flange.Ends.FirstOrDefault(e => e.Name == PortName.Face) is { } face ? Math.Abs((face.At - pipe.At).Dot(face.Face)) : null;
    }

    // Where a part leads that has no free end behind it: straight on, or round its own turn.
    private static (Vector In, Vector Out) Through(FitPart part, FitEnd? entry, Vector axis)
    {
        if (entry is null || part.Ends.Count < 2)
            return (axis, axis);
        var exit = FitEnd.Onward(part.Ends, entry)!;
        return FarSide.Ways(-entry.Face, exit.Face, entry.At, exit.At)[0];
    }

    private static FitTurn Turn(FitPart part, (Vector In, Vector Out) through, Motion motion)
    {
        var angle = through.In.AngleTo(through.Out);
        return angle < Tolerance.Turn ? FitTurn.Straight : new(part.Of is ReturnBend back ? back.Turn : angle, motion.Of(through.Out.SquareTo(through.In).Unit), (part.Of as Bent)?.Radius ?? 0);
    }

    private static FitFace Moved(FitFace face, Motion motion) => new(motion.Of(face.Centre), motion.Of(face.Normal), face.Outside);

    private static (FitTurn Turn, FitFace Far, FitEnd? End) Behind(FitPart held, FitEnd? exit, Drawn drawn)
    {
        if (exit is null)
            return (FitTurn.Straight, held.Ends[0].AsFace, held.Ends[0]);
        if (held.Ends.Count < 2)
            return (FitTurn.Straight, new FitFace(held.Of is Cap cap ? cap.WorkPoint : held.Centre, -exit.Face, drawn.Outside), null);
        var entry = FitEnd.Onward(held.Ends, exit)!;
        var onward = -entry.Face;
        var angle = onward.AngleTo(exit.Face);
        // From a return's other end its own one lies straight across.
        var side = exit.Face.SquareTo(onward) is { Length: > Tolerance.Noise } aside ? aside : (exit.At - entry.At).SquareTo(onward);
        return (angle < Tolerance.Turn ? FitTurn.Straight : new(angle, side.Unit, (held.Of as Bent)?.Radius ?? 0), entry.AsFace, entry);
    }

    // Of the held assembly, or, where two parts alone are looked at, of the line.
    private FitPart? PipeBehind(FitPart held, FitEnd far, Assembly heldSide)
    {
        foreach (var (_, at, other) in net.Of(held.Id))
        {
            if (at == far && parts[other] is { IsPipe: true } pipe && (heldSide.IsSingle || heldSide.Contains(other)))
                return pipe;
        }

        return null;
    }

    // Of all ends that hang on the new part when the spool is finished, the one farthest from the joint.
    private Point FarthestBeyond(Joint joint, FitPart brought)
    {
        var seen = new HashSet<string>(StringComparer.Ordinal) { brought.Id };
        var queue = new Queue<string>([brought.Id]);
        var (best, most) = (joint.At, -1.0);
        while (queue.TryDequeue(out var id))
        {
            foreach (var end in parts[id].Ends)
            {
                if (most < end.At.To(joint.At))
                    (best, most) = (end.At, end.At.To(joint.At));
            }

            foreach (var (next, _, other) in net.Of(id))
            {
                if (next != joint && next.Place == WeldPlace.Shop && seen.Add(other))
                    queue.Enqueue(other);
            }
        }

        return best;
    }

    private static double Reach(IReadOnlyList<Spool> spools)
    {
        var (from, to) = (new Point(1e9, 1e9, 1e9), new Point(-1e9, -1e9, -1e9));
        foreach (var s in spools)
        {
            from = new(Math.Min(from.X, s.BoxFrom.X), Math.Min(from.Y, s.BoxFrom.Y), Math.Min(from.Z, s.BoxFrom.Z));
            to = new(Math.Max(to.X, s.BoxTo.X), Math.Max(to.Y, s.BoxTo.Y), Math.Max(to.Z, s.BoxTo.Z));
        }

        return from.To(to);
    }
}
