using Rootgap.Drawings;
using Rootgap.Fabricating;
using Rootgap.Measure;
using Rootgap.Routes;
using Rootgap.Standards;

namespace Rootgap.FitUp;

/// <summary>The welds of a fabricated drawing as joints to be fitted.</summary>
public sealed class FitJoints
{
    private readonly Fabrication fabrication;
    private readonly Units units;
    private readonly Dictionary<string, Component> components;
    private readonly Dictionary<string, PipePiece> pipes;
    private readonly Dictionary<string, double> pipeMass;
    private readonly ILookup<string, Joint> jointsOf;
    private readonly Dictionary<string, FitPart> parts = new(StringComparer.Ordinal);

    public FitJoints(Fabrication fabrication)
    {
        this.fabrication = fabrication;
        units = fabrication.Route.Drawing.Units;
        components = fabrication.Route.Components.ToDictionary(c => c.Id, StringComparer.Ordinal);
        pipes = fabrication.Route.Pipes.ToDictionary(p => p.Id, StringComparer.Ordinal);
        pipeMass = fabrication.Cuts.ToDictionary(c => c.Pipe.Id, c => c.Mass, StringComparer.Ordinal);
        Welds = [.. fabrication.Route.Joints.Where(j => j.IsWeld && j.Between.Count == 2)];
        jointsOf = Welds.SelectMany(j => j.Between.Select(id => (id, j))).ToLookup(t => t.id, t => t.j, StringComparer.Ordinal);
    }

    /// <summary>The welds that can be fitted: both sides are in this drawing.</summary>
    public IReadOnlyList<Joint> Welds { get; }

    /// <summary>The joints of one spool, each with its pipe held, in line order.</summary>
    public IReadOnlyList<FitJoint> OfSpool(Spool spool) => [.. spool.Joints.Where(j => j.IsWeld && j.Between.Count == 2).Select(j => Of(j))];

    /// <summary>The limits in force at a joint.</summary>
    public FitTolerance Limits(Joint joint, FitJoint fit)
    {
        var shop = fabrication.Route.Drawing.Shop;
        // The default hi-lo of the shop's rules is the published one: only another figure is the shop's own.
        return FitTolerance.Of(fit, joint.Size.Inches, new FitShopLimits(
            FaceAngle: shop.AngularTolerance is { } angle ? Angles.ToDegrees(angle) : null,
            HiLo: Math.Abs(shop.HiLo - 1.5) > 1e-9 ? shop.HiLo : null));
    }

    /// <summary>A weld with the part that is held, usually the pipe, and the other that is brought; <paramref name="flip"/> holds the other one.</summary>
    public FitJoint Of(Joint joint, bool flip = false)
    {
        var (first, second) = (joint.Between[0], joint.Between[1]);
        if (joint.Kind == JointKind.Branch)
            return Branch(joint, flip);
        var held = HoldsFirst(first, second) != flip ? first : second;
        var brought = held == first ? second : first;
        var (from, to) = (EndAt(held, joint.At), EndAt(brought, joint.At));
        var a = from.Face;
        var gap = joint.Kind switch
        {
            JointKind.Butt => Math.Max(0, (to.At - from.At).Dot(a)),
            JointKind.Socket => fabrication.Route.Drawing.Shop.SocketGap,
            _ => 0,
        };
        // In a socket or a slip-on the pipe's end counts: it is the pipe that is marked and set.
        var pipeEnd = pipes.ContainsKey(held) ? from.At + (a * (gap / 2)) : to.At - (a * (gap / 2));
        var centre = joint.Kind == JointKind.Butt ? from.At.Toward(to.At, 0.5) : pipeEnd;
        var outside = OutsideOf(joint.Size);
        var (turn, far, tip, run) = Beyond(brought, to);
        var (heldTurn, heldFar) = Behind(held, from, outside);
        return Common(joint, held, brought) with
        {
            Centre = centre,
            Axis = a,
            Gap = gap,
            Outside = outside,
            Inside = Math.Max(0, outside - (2 * joint.Wall)),
            HeldFar = heldFar,
            HeldStraight = pipes.TryGetValue(held, out var pipe) ? pipe.Start.To(pipe.End) : 0,
            HeldTurn = heldTurn,
            HeldBehind = heldTurn.IsStraight ? 0 : PipeBehind(held, heldFar.Centre),
            Turn = turn,
            Far = far,
            Tip = tip,
            Run = run,
            Holes = HolesOf(brought),
            Flat = FlatOf(brought),
        };
    }

    private FitJoint Common(Joint joint, string held, string brought)
    {
        var spool = fabrication.Spools.FirstOrDefault(s => s.Joints.Contains(joint));
        var (from, to) = spool is null ? Box() : (spool.BoxFrom, spool.BoxTo);
        return new FitJoint
        {
            Name = joint.Id,
            Held = Part(held),
            New = Part(brought),
            Weld = joint.Kind switch
            {
                JointKind.Socket => FitWeld.Socket,
                JointKind.Fillet => FitWeld.SlipOn,
                JointKind.Branch => FitWeld.Branch,
                _ => FitWeld.Butt,
            },
            Size = joint.Size.ToString(),
            OnEndLimit = fabrication.Route.Drawing.Shop.OnEndLimit,
            SpoolEnd = FarthestBeyond(joint, brought),
            SpoolReach = from.To(to),
            // Set by the caller, who knows which end meets which.
            Centre = joint.At,
            Axis = joint.Axis,
            Gap = joint.Gap,
            Outside = 0,
            Inside = 0,
            HeldFar = new FitFace(joint.At, -joint.Axis, 0),
            Tip = joint.At,
        };
    }

    // A branch is set on its header: the header is held, whichever way the line was drawn.
    private FitJoint Branch(Joint joint, bool flip)
    {
        // Of two pipes, the header is the one that runs through: the weld is far from both its ends.
        var header = joint.Between.Where(pipes.ContainsKey).MaxBy(id => Math.Min(pipes[id].Start.To(joint.At), pipes[id].End.To(joint.At)))!;
        var branch = joint.Between.FirstOrDefault(id => id != header) ?? header;
        var pipe = pipes[header];
        var to = EndAt(branch, joint.At);
        var a = -to.Face;
        var outside = OutsideOf(joint.Size);
        var (turn, far, tip, _) = Beyond(branch, to);
        var back = Math.Min((to.At - pipe.Start).Dot(pipe.Direction), (pipe.End - to.At).Dot(pipe.Direction));
        var wall = pipes.TryGetValue(branch, out var stub) ? stub.Wall : joint.Wall;
        return Common(joint, header, branch) with
        {
            Centre = to.At,
            Axis = a,
            Gap = joint.Gap,
            Outside = outside,
            Inside = Math.Max(0, outside - (2 * wall)),
            HeldFar = new FitFace(flip ? pipe.End : pipe.Start, flip ? pipe.Direction : -pipe.Direction, pipe.Outside),
            HeldStraight = Math.Max(0, back - (outside / 2)),
            Turn = turn,
            Far = far,
            Tip = tip,
            Header = pipe.Direction,
            HeaderOutside = pipe.Outside,
        };
    }

    // The pipe is held: it can be marked, levelled and stood up. A branch outlet stands on its header already.
    private bool HoldsFirst(string first, string second)
    {
        if (components.TryGetValue(first, out var c) && c is Outlet)
            return true;
        if (components.TryGetValue(second, out c) && c is Outlet)
            return false;
        return pipes.ContainsKey(first) || !pipes.ContainsKey(second);
    }

    private Port EndAt(string id, Point at) => Ends(id).MinBy(e => e.At.To(at));

    private IReadOnlyList<Port> Ends(string id) => pipes.TryGetValue(id, out var pipe) ? pipe.Ports : components[id].Ports;

    private double OutsideOf(NominalSize size) => Pipes.OutsideDiameter(size)?.In(units) ?? 0;

    // Where a new part leads, from the end that is welded.
    private (FitTurn Turn, FitFace? Far, Point Tip, double Run) Beyond(string id, Port entry)
    {
        if (pipes.TryGetValue(id, out var pipe))
        {
            var end = entry.At.To(pipe.Start) < entry.At.To(pipe.End) ? pipe.End : pipe.Start;
            return (FitTurn.Straight, new FitFace(end, -entry.Face, pipe.Outside), end, 0);
        }
        var c = components[id];
        if (c.Ports.Count < 2)
            return (FitTurn.Straight, null, c.WorkPoint, 0);
        var exit = Exit(c, entry);
        var onward = -entry.Face;
        var angle = onward.AngleTo(exit.Face);
        var run = c is Tee && Tolerance.Turn < angle && c.Across(entry) is { } across && across.Face.Dot(entry.Face) < 0 ? entry.At.To(across.At) : 0;
        return (
            angle < Tolerance.Turn ? FitTurn.Straight : new FitTurn(angle, exit.Face.SquareTo(onward).Unit, (c as Bent)?.Radius ?? 0),
            new FitFace(exit.At, exit.Face, exit.Outside), exit.At, run);
    }

    // The free face of a tee is its branch, or, where the branch is welded, the first end of its run.
    private static Port Exit(Component c, Port entry) => c is Tee tee
        ? entry.Name == PortName.Branch ? tee.RunIn : tee.Branch
        : c.Across(entry) ?? c.Ports[^1];

    /// <summary>Bolt holes of a flange that is welded fast; null for anything else, and where no reference line is known.</summary>
    public FitHoles? HolesOf(string id) => components.TryGetValue(id, out var c) && c is Flange { Stub: null, Holes: { } holes }
        ? new FitHoles(holes.Bolts.Count, holes.Bolts.Circle, holes.Between)
        : null;

    private Vector FlatOf(string id) =>
        components.TryGetValue(id, out var c) && c is Reducer { Flat: var flat } ? flat : Vector.Zero;

    private (FitTurn Turn, FitFace Far) Behind(string id, Port exit, double outside)
    {
        if (pipes.TryGetValue(id, out var pipe))
        {
            var start = exit.At.To(pipe.Start) < exit.At.To(pipe.End) ? pipe.End : pipe.Start;
            return (FitTurn.Straight, new FitFace(start, -exit.Face, pipe.Outside));
        }
        var c = components[id];
        if (c.Ports.Count < 2)
            return (FitTurn.Straight, new FitFace(c.WorkPoint, -exit.Face, outside));
        var entry = c.Across(exit) ?? c.Ports[^1];
        var onward = -entry.Face;
        var angle = onward.AngleTo(exit.Face);
        return (
            angle < Tolerance.Turn ? FitTurn.Straight : new FitTurn(angle, exit.Face.SquareTo(onward).Unit, (c as Bent)?.Radius ?? 0),
            new FitFace(entry.At, entry.Face, entry.Outside));
    }

    private double PipeBehind(string held, Point at)
    {
        foreach (var joint in jointsOf[held])
        {
            var other = joint.Between.FirstOrDefault(id => id != held) ?? held;
            if (joint.At.To(at) < 50 && pipes.TryGetValue(other, out var pipe))
                return pipe.Start.To(pipe.End);
        }
        return 0;
    }

    // Of all ends that hang on the new part when the spool is finished, the one farthest from the joint.
    private Point FarthestBeyond(Joint joint, string brought)
    {
        var seen = new HashSet<string>(StringComparer.Ordinal) { brought };
        var queue = new Queue<string>([brought]);
        var (best, most) = (joint.At, -1.0);
        while (queue.TryDequeue(out var id))
        {
            foreach (var end in Ends(id))
            {
                if (most < end.At.To(joint.At))
                    (best, most) = (end.At, end.At.To(joint.At));
            }
            foreach (var next in jointsOf[id])
            {
                if (next == joint || next.Place != WeldPlace.Shop)
                    continue;
                foreach (var other in next.Between)
                {
                    if (seen.Add(other))
                        queue.Enqueue(other);
                }
            }
        }
        return best;
    }

    private (Point From, Point To) Box()
    {
        var from = fabrication.Spools.Aggregate(new Point(1e9, 1e9, 1e9), (p, s) => new(Math.Min(p.X, s.BoxFrom.X), Math.Min(p.Y, s.BoxFrom.Y), Math.Min(p.Z, s.BoxFrom.Z)));
        var to = fabrication.Spools.Aggregate(new Point(-1e9, -1e9, -1e9), (p, s) => new(Math.Max(p.X, s.BoxTo.X), Math.Max(p.Y, s.BoxTo.Y), Math.Max(p.Z, s.BoxTo.Z)));
        return (from, to);
    }

    private FitPart Part(string id)
    {
        if (parts.TryGetValue(id, out var known))
            return known;
        Part part = pipes.TryGetValue(id, out var pipe) ? pipe : components[id];
        var mass = pipe is not null ? pipeMass.GetValueOrDefault(id) : part.Mass?.Kg ?? 0;
        return parts[id] = new FitPart(id, part is Outlet ? "branch outlet" : part.Word, mass, part.Centre, part.Bodies);
    }
}
