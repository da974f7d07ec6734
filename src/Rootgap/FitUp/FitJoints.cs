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
        if (components.TryGetValue(first, out var c) && c.Ware == Ware.Outlet)
            return true;
        if (components.TryGetValue(second, out c) && c.Ware == Ware.Outlet)
            return false;
        return pipes.ContainsKey(first) || !pipes.ContainsKey(second);
    }

    private Port EndAt(string id, Point at) => Ends(id).MinBy(e => e.At.To(at));

    private IReadOnlyList<Port> Ends(string id) => pipes.TryGetValue(id, out var pipe)
        ? [new(pipe.Start, -pipe.Direction), new(pipe.End, pipe.Direction)]
        : components[id].Ports;

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
        if (c.Ware == Ware.Cap || c.Ports.Count < 2)
            return (FitTurn.Straight, null, c.WorkPoint, 0);
        var exit = Exit(c, entry);
        var onward = -entry.Face;
        var angle = onward.AngleTo(exit.Face);
        var run = c.Ware == Ware.Tee && Tolerance.Turn < angle && Opposite(c, entry) is { } across ? entry.At.To(across.At) : 0;
        return (
            angle < Tolerance.Turn ? FitTurn.Straight : new FitTurn(angle, exit.Face.SquareTo(onward).Unit, c.Ware == Ware.Elbow ? c.Radius ?? 0 : 0),
            new FitFace(exit.At, exit.Face, OutsideAt(c, exit)), exit.At, run);
    }

    private static Port? Opposite(Component c, Port entry)
    {
        foreach (var port in c.Ports)
        {
            if (port.Face.Dot(entry.Face) < -0.99)
                return port;
        }
        return null;
    }

    // The free face of a tee is its branch, or, where the branch is welded, the first end of its run.
    private static Port Exit(Component c, Port entry) =>
        c.Ware == Ware.Tee && c.Ports.Count == 3 && c.Ports[2] != entry ? c.Ports[2] : Other(c, entry);

    // An end that is not this one; of a part that a bad drawing has crushed to nothing, the last.
    private static Port Other(Component c, Port port)
    {
        foreach (var other in c.Ports)
        {
            if (other != port)
                return other;
        }

        return c.Ports[^1];
    }

    /// <summary>Outside diameter of a component at one of its ends, mm; a flange's outside diameter.</summary>
    public double OutsideAt(Component c, Port face) => c.Ware switch
    {
        Ware.Flange => FlangeTable(c, "flange", "outside diameter") ?? OutsideOf(c.Size),
        Ware.Tee when c.Ports.Count == 3 && c.Ports[2] == face && !c.Size2.IsNone => OutsideOf(c.Size2),
        Ware.Reducer => ReducerOutside(c, face),
        _ => OutsideOf(c.Size),
    };

    private double ReducerOutside(Component c, Port face)
    {
        // The drawing names the size that the line goes on with; the other end has the other size.
        var next = c.Drawn is ReducerPoint p ? p.Size : c.Size2;
        var other = next == c.Size ? c.Size2 : c.Size;
        return OutsideOf(face == c.Ports[^1] ? next : other);
    }

    private double? FlangeTable(Component c, string item, string attribute) => StandardTable.Find("flanges", item, attribute, c.Size, @class: c.Line.Class)?.In(units);

    /// <summary>Bolt holes of a flange; null for anything else, and where no reference line is known.</summary>
    public FitHoles? HolesOf(string id)
    {
        if (!components.TryGetValue(id, out var c) || c.Ware != Ware.Flange || c.HoleLine is not { } line)
            return null;
        var count = (int)(StandardTable.Find("flanges", "flange", "holes", c.Size, @class: c.Line.Class)?.Figure ?? 0);
        if (count < 4 || FlangeTable(c, "flange", "bolt circle") is not { } circle)
            return null;
        var holes = c.Drawn switch { FlangePoint f => f.Holes, FlangedJointPoint j => j.Holes, ValvePoint v => v.Holes, _ => HoleOrientation.Straddle };
        var turn = c.HoleTurn + (holes.OnCentre ? Math.PI / count : 0);
        return new FitHoles(count, circle, line.Turned(c.Ports[0].Face, turn));
    }

    private Vector FlatOf(string id) =>
        components.TryGetValue(id, out var c) && c.Ware == Ware.Reducer && c.Drawn is ReducerPoint { IsEccentric: true, Flat: { } flat }
            ? flat.SquareTo(c.Ports[^1].Face).Unit
            : Vector.Zero;

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
        var entry = c.Ware == Ware.Tee ? Opposite(c, exit) ?? Other(c, exit) : Other(c, exit);
        var onward = -entry.Face;
        var angle = onward.AngleTo(exit.Face);
        return (
            angle < Tolerance.Turn ? FitTurn.Straight : new FitTurn(angle, exit.Face.SquareTo(onward).Unit, c.Radius ?? 0),
            new FitFace(entry.At, entry.Face, OutsideAt(c, entry)));
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
        if (!parts.TryGetValue(id, out var part))
            parts[id] = part = pipes.TryGetValue(id, out var pipe) ? Piece(pipe) : Fitting(components[id]);
        return part;
    }

    private FitPart Piece(PipePiece pipe) => new(
        pipe.Id, "pipe", pipeMass.GetValueOrDefault(pipe.Id), pipe.Start.Toward(pipe.End, 0.5), [new Solid.Cylinder(pipe.Start, pipe.End, pipe.Outside / 2)]);

    private FitPart Fitting(Component c)
    {
        var mass = fabrication.Masses.TryGetValue(c.Id, out var known) ? known.Kg : 0;
        var bodies = FitBodies.Of(c, port => OutsideAt(c, port), OutsideOf(c.Size), FlangeTable(c, c.Name, "thickness"));
        return new FitPart(c.Id, FitBodies.Word(c.Ware), mass, FitBodies.Middle(c), bodies);
    }
}
