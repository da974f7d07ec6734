using Rootgap.Drawings;
using Rootgap.Fabricating;
using Rootgap.FitUp;
using Rootgap.Measure;
using Rootgap.Routes;
using Rootgap.Standards;

namespace Rootgap.Site;

/// <summary>Makes bodies, ends and joints of a fabricated drawing. All that the site half asks of parts is asked here.</summary>
internal sealed class SiteLineMaking(Fabrication fabrication)
{
    /// <summary>Bolts in their holes may be forced no farther than this, mm (ASME B31.3 335.1.1: flange holes aligned within 3 mm).</summary>
    private const double MostPlay = 3;

    /// <summary>So far back an existing line is taken to be straight where something is read on it, mm: nobody draws it.</summary>
    private const double ExistingReach = 6000;

    private readonly Route route = fabrication.Route;
    private readonly Units units = fabrication.Route.Drawing.Units;
    private readonly FitJoints fitting = new(fabrication);
    private readonly Dictionary<string, Component> components = fabrication.Route.Components.ToDictionary(c => c.Id, StringComparer.Ordinal);
    private readonly Dictionary<string, PipePiece> pipes = fabrication.Route.Pipes.ToDictionary(p => p.Id, StringComparer.Ordinal);

    /// <summary>Spool that each part goes with; empty: with a thing outside.</summary>
    private readonly Dictionary<string, string> goesWith = new(fabrication.SpoolOf, StringComparer.Ordinal);

    public SiteLine Make()
    {
        TieLooseParts();
        var met = route.Joints.Where(IsMadeAtSite).ToList();
        var places = met.ToDictionary(j => j.Id, Places, StringComparer.Ordinal);
        var bodies = new List<SiteBody>();
        foreach (var spool in fabrication.Spools)
        {
            var faces = met.SelectMany(j => places[j.Id].Where(p => p.Part.Length > 0 && goesWith.GetValueOrDefault(p.Part) == spool.Name)).Select(p => p.Face).ToList();
            string[] parts = [.. goesWith.Where(p => p.Value == spool.Name).Select(p => p.Key)];
            bodies.Add(new(bodies.Count, "spool " + spool.Name, spool, parts, faces.Count > 0 ? Mean(faces) : spool.CentreOfMass));
        }

        var outside = new Dictionary<string, SiteBody>(StringComparer.Ordinal);
        foreach (var joint in met)
        {
            foreach (var place in places[joint.Id])
            {
                if (place.Part.Length > 0 && SpoolOf(place.Part).Length > 0)
                    continue;
                var name = joint.Id + " of other";
                outside[joint.Id] = new(bodies.Count, name, null, [], place.Face);
                bodies.Add(outside[joint.Id]);
            }
        }

        var joints = new List<SiteJoint>();
        foreach (var joint in met)
        {
            var (first, second) = (places[joint.Id][0], places[joint.Id][1]);
            SiteEnd End((string Part, Point Face, Vector Normal) place, bool isFirst)
            {
                var spool = place.Part.Length > 0 ? SpoolOf(place.Part) : "";
                var body = spool.Length > 0 ? bodies.First(b => b.Spool?.Name == spool) : outside[joint.Id];
                var mate = isFirst ? second.Part : first.Part;
                return new(
                    (joints.Count * 2) + (isFirst ? 0 : 1), $"{joint.Id} of {body.Spool?.Name ?? "other"}", joint.Id, body, place.Part, isFirst, place.Face, place.Normal, ExtraAt(place.Part, place.Face),
                    InsideOf(place.Part.Length > 0 && !IsHeader(joint, place.Part) ? place.Part : mate, joint), HolesOf(joint, place.Part, mate), StraightBehind(joint, place.Part, place.Face, place.Normal));
            }

            var (one, two) = (End(first, isFirst: true), End(second, isFirst: false));
            var carries = one.Extra > 0 ? one : two.Extra > 0 ? two : LongSide(joint, one, two);
            joints.Add(new(joint, JointAxes.Of(joint.At, joint.Axis), (second.Face - first.Face).Dot(joint.Axis), OutsideOf(joint), BoltingOf(joint), one, two, carries));
        }

        return new(fabrication, bodies, joints);
    }

    /// <summary>A loose flanged part goes with the body that its lowest-numbered bolted joint ties it to.</summary>
    private void TieLooseParts()
    {
        var bolted = route.Joints.Where(j => j.Kind == JointKind.Bolted).ToList();
        foreach (var loose in route.Components.Where(c => c.IsLoose && !c.LiesInJoint))
            Tie(loose.Id, []);

        string Tie(string id, HashSet<string> asked)
        {
            if (goesWith.TryGetValue(id, out var known))
                return known;
            if (!asked.Add(id) || bolted.Find(j => j.Between.Contains(id)) is not { } joint)
                return "";
            return goesWith[id] = joint.Between.FirstOrDefault(o => o != id) is { } other ? Tie(other, asked) : "";
        }
    }

    private string SpoolOf(string part) => goesWith.GetValueOrDefault(part, "");

    /// <summary>Not a shop weld, and between two bodies. What an end has outside the drawing is met at site whatever the mark says.</summary>
    private bool IsMadeAtSite(Joint joint) => joint.Between.Count switch
    {
        1 => true,
        2 => (joint.Kind == JointKind.Bolted || joint.Place != WeldPlace.Shop) && SpoolOf(joint.Between[0]) != SpoolOf(joint.Between[1]),
        _ => false,
    };

    /// <summary>Part, face and normal of the first side and of the second; what stands outside is where its mate as drawn would have it.</summary>
    private (string Part, Point Face, Vector Normal)[] Places(Joint joint)
    {
        if (joint.Between is [var a, var b])
            return [(a, Face(joint, a, isFirst: true).At, Face(joint, a, isFirst: true).Face), (b, Face(joint, b, isFirst: false).At, Face(joint, b, isFirst: false).Face)];
        var id = joint.Between[0];
        // At the start of a run the other side comes first: the part's own face looks back against the line.
        var port = Nearest(id, joint.At);
        var isFirst = port.Face.Dot(joint.Axis) > 0;
        var mate = ("", port.At + (port.Face * joint.Gap), -port.Face);
        return isFirst ? [(id, port.At, port.Face), mate] : [mate, (id, port.At, port.Face)];
    }

    private (Point At, Vector Face) Face(Joint joint, string part, bool isFirst) =>
        IsHeader(joint, part) ? (joint.At, isFirst ? joint.Axis : -joint.Axis) : Nearest(part, joint.At, isFirst ? joint.Axis : -joint.Axis);

    /// <summary>Whether the part is the header of a branch weld: it has no port there.</summary>
    private bool IsHeader(Joint joint, string part)
    {
        if (joint.Kind != JointKind.Branch || joint.Between.Count < 2)
            return false;
        double Away(string id) => PortsOf(id).Min(p => p.At.To(joint.At) + (1e3 * (1 - Math.Abs(p.Face.Dot(joint.Axis)))));
        return joint.Between.MaxBy(Away) == part;
    }

    private (Point At, Vector Face) Nearest(string part, Point at, Vector? facing = null)
    {
        var port = PortsOf(part).MinBy(p => p.At.To(at) + (facing is { } f ? 1e3 * (1 - p.Face.Dot(f)) : 0));
        return (port.At, port.Face);
    }

    private IReadOnlyList<Port> PortsOf(string id) => pipes.TryGetValue(id, out var pipe) ? pipe.Ports : components[id].Ports;

    private double ExtraAt(string part, Point face)
    {
        if (!pipes.TryGetValue(part, out var pipe))
            return 0;
        var here = face == pipe.Start ? pipe.ExtraAtStart : face == pipe.End && pipe.ExtraAtEnd;
        return here ? route.Drawing.Shop.FinalFitExtra : 0;
    }

    /// <summary>The pipe that would carry the extra where the shop leaves none: the one whose leg has the mark, or the only pipe there.</summary>
    private SiteEnd? LongSide(Joint joint, SiteEnd one, SiteEnd two)
    {
        if (joint.Place != WeldPlace.FinalFit)
            return null;
        foreach (var end in new[] { one, two })
        {
            if (pipes.TryGetValue(end.Part, out var pipe) && (end.Face == pipe.Start ? pipe.ExtraAtStart : end.Face == pipe.End && pipe.ExtraAtEnd))
                return end;
        }

        return pipes.ContainsKey(one.Part) ? one : pipes.ContainsKey(two.Part) ? two : null;
    }

    private double OutsideOf(Joint joint) =>
        joint.Kind == JointKind.Bolted && Table(joint, FlangeTable.Outside) is { } flange ? flange : Pipes.OutsideDiameter(joint.Size)?.In(units) ?? 0;

    private double InsideOf(string part, Joint joint)
    {
        if (pipes.TryGetValue(part, out var pipe))
            return pipe.Inside;
        var outside = Pipes.OutsideDiameter(joint.Size)?.In(units) ?? 0;
        var schedule = components.TryGetValue(part, out var c) ? c.Line.Schedule : null;
        var wall = schedule?.Wall ?? (schedule is null ? joint.Wall : Pipes.Wall(joint.Size, schedule.Name)?.In(units) ?? joint.Wall);
        return Math.Max(0, outside - (2 * wall));
    }

    private Bolting? BoltingOf(Joint joint)
    {
        if (joint.Kind != JointKind.Bolted || Table(joint, FlangeTable.BoltCircle) is not { } circle)
            return null;
        var count = (int)(FlangeTable.Holes.Of(joint.Size, @class: joint.Class)?.Figure ?? 0);
        var play = (Table(joint, FlangeTable.HoleDiameter) ?? 0) - (Table(joint, FlangeTable.BoltDiameter) ?? 0);
        return count < 4 ? null : new(count, circle, Math.Clamp(play, 0, MostPlay));
    }

    private double? Table(Joint joint, Dimension dimension) => dimension.Of(joint.Size, @class: joint.Class)?.In(units);

    private FitHoles? HolesOf(Joint joint, string part, string mate) =>
        joint.Kind != JointKind.Bolted ? null : (part.Length > 0 ? fitting.HolesOf(part) : null) ?? (mate.Length > 0 ? fitting.HolesOf(mate) : null);

    private StraightPipe? StraightBehind(Joint joint, string part, Point face, Vector normal)
    {
        if (part.Length == 0)
            return joint.Kind == JointKind.Bolted ? null : new(0, ExistingReach, OutsideOf(joint));
        if (pipes.TryGetValue(part, out var own))
            return IsHeader(joint, part) ? null : new(0, own.Start.To(own.End), own.Outside);
        if (!components.TryGetValue(part, out var flange) || joint.Kind != JointKind.Bolted)
            return null;
        foreach (var weld in route.Joints)
        {
            if (weld.Kind == JointKind.Bolted || !weld.Between.Contains(part))
                continue;
            foreach (var id in weld.Between)
            {
                if (!pipes.TryGetValue(id, out var pipe))
                    continue;
                var (near, far) = ((face - pipe.Start).Dot(normal), (face - pipe.End).Dot(normal));
                // A pipe that stands in the flange is first seen behind the hub.
                var hub = flange.Ports.Max(p => (face - p.At).Dot(normal));
                return new(Math.Max(hub, Math.Min(near, far)), Math.Max(near, far), pipe.Outside);
            }
        }

        return null;
    }

    private static Point Mean(List<Point> points) => Point.Origin + (points.Aggregate(Vector.Zero, (sum, p) => sum + (p - Point.Origin)) / points.Count);
}
