using Rootgap.Fabricating;
using Rootgap.Measure;
using Rootgap.Routes;

namespace Rootgap.Site.Erection;

/// <summary>A place on straight pipe where something can hold: a stand, a hanger.</summary>
/// <param name="Piece">Mark of the piece: <c>3-B</c>.</param>
/// <param name="Along">From the piece's start, mm.</param>
/// <param name="At">On the pipe's axis.</param>
/// <param name="Bears">Mass that rests here, kg.</param>
public sealed record Hold(string Piece, double Along, Point At, double Outside, double Bears)
{
    /// <summary>Elevation of the pipe's underside, mm: what a stand is set to.</summary>
    public double Underside => At.Z - (Outside / 2);
}

/// <summary>What holds a body as it is put up, kg: together its mass, unless the sling has to stay.</summary>
/// <param name="Supports">The drawing's own on its pipes; one that carries nothing bears 0.</param>
/// <param name="Stands">None, one or two; null where no place on its pipes keeps it steady.</param>
/// <param name="Joints">What hangs on joints to what stands, until they are made; those that bear nothing are left out.</param>
public sealed record Holding(IReadOnlyList<(Support Support, double Bears)> Supports, IReadOnlyList<Hold>? Stands, IReadOnlyList<(SiteJoint Joint, double Bears)> Joints);

/// <summary>What is put up in one go: a spool with the valves that go with it.</summary>
public sealed class ErectedBody
{
    /// <summary>Where a stand may be: so far from welds, in diameters of the pipe (common practice).</summary>
    private const double ClearOfWelds = 1;

    /// <summary>Most of the mass that may hang on tacks before a stand is looked for, as a share (common practice: tacks carry nothing, and the sling is wanted elsewhere).</summary>
    private const double MostOnTacks = 1.0 / 3;

    /// <summary>What the lesser of two holds should bear, as a share: a joint that is not made yet beside a stand, or the stand beside a support (common practice: enough that it does not lift).</summary>
    private const double LesserShare = 0.25;

    /// <summary>What lies steeper than this holds no stand without a stop, radians.</summary>
    private static readonly double Steep = Angles.ToRadians(30);

    private readonly List<(string Piece, PipePiece Pipe)> pipes;

    public ErectedBody(SiteLine line, SiteBody body)
    {
        Body = body;
        var f = line.Fabrication;
        var spool = body.Spool!;
        var loose = body.Parts.Select(f.Route.ComponentOf).OfType<Component>().Where(c => c.IsLoose && !c.LiesInJoint).ToList();
        Valves = loose;
        Unweighed = [.. spool.Unweighed, .. loose.Where(c => !f.Masses.ContainsKey(c.Id)).Select(c => c.Id)];
        (Mass, Centre) = Statics.Together([(spool.Mass, spool.CentreOfMass), .. loose.Where(c => f.Masses.ContainsKey(c.Id)).Select(c => (f.Masses[c.Id].Kg, c.Centre))]);
        Supports = [.. f.Route.Supports.Where(s => spool.Cuts.Any(c => c.Pipe.Id == s.Pipe))];
        pipes = [.. spool.Cuts.Select(c => (c.Piece, c.Pipe))];
        Solids = [.. body.Parts.Select(f.Route.PartOf).OfType<Part>().SelectMany(p => p.Bodies)];
    }

    public SiteBody Body { get; }

    public string Name => Body.Name;

    public double Mass { get; }

    public Point Centre { get; }

    /// <summary>Flanged valves and spacers that go up with it.</summary>
    public IReadOnlyList<Component> Valves { get; }

    /// <summary>The drawing's own supports on its pipes.</summary>
    public IReadOnlyList<Support> Supports { get; }

    /// <summary>Places at which it rests on its own supports.</summary>
    public IReadOnlyList<Point> Resting => [.. Supports.Where(s => s.Carries).Select(s => s.At)];

    /// <summary>
    /// What holds it as it is put up, and what each bears, reckoned at one go: supports, stands and joints bear its mass together. Where supports and stands keep it steady by themselves the joints,
    /// tacked or finger-tight, are taken to bear nothing.
    /// </summary>
    /// <param name="joints">To what stands already.</param>
    /// <param name="slack">How far the centre may fall outside, mm: half the width of what holds.</param>
    public Holding Held(IReadOnlyList<SiteJoint> joints, double slack)
    {
        var stands = Stands(joints, slack);
        var carrying = Supports.Where(s => s.Carries).ToList();
        var loads = Loads(joints, stands ?? [], slack);
        return new(
            [.. Supports.Select(s => (s, carrying.IndexOf(s) is >= 0 and var i ? loads[i] : 0))],
            stands is null ? null : [.. stands.Select((s, i) => s with { Bears = loads[carrying.Count + i] })],
            stands is null ? [] : [.. joints.Select((j, i) => (j, loads[carrying.Count + stands.Count + i])).Where(j => j.Item2 > 0)]);
    }

    /// <summary>What each bears, kg: of its own supports those that carry, then stands, then joints.</summary>
    private double[] Loads(IReadOnlyList<SiteJoint> joints, IReadOnlyList<Hold> stands, double slack)
    {
        List<Point> own = [.. Resting, .. stands.Select(s => s.At)];
        return Statics.IsSteady(Centre, own, slack)
            ? [.. Statics.OnSeveral(Mass, Centre, own), .. new double[joints.Count]]
            : Statics.OnSeveral(Mass, Centre, [.. own, .. joints.Select(j => j.Joint.At)]);
    }

    /// <summary>Parts whose mass nobody knows.</summary>
    public IReadOnlyList<string> Unweighed { get; }

    internal IReadOnlyList<Solid> Solids { get; }

    /// <summary>Stands that keep it steady together with its supports and the ends that are joined: none, one or two, what they bear not yet reckoned; null where no place on its pipes does.</summary>
    private IReadOnlyList<Hold>? Stands(IReadOnlyList<SiteJoint> joints, double slack)
    {
        List<Point> held = [.. joints.SelectMany(HeldAt), .. Resting];
        var isSteady = Statics.IsSteady(Centre, held, slack);
        if (isSteady && OnTacks(joints, [], slack) <= MostOnTacks * Mass)
            return [];
        var places = Places(slack).ToList();
        // Best where a support of its own and the stand hold it and nothing hangs on a joint, far apart; else little on the joint.
        var single = places.Where(p => held.Count > 0 && Statics.IsSteady(Centre, [.. held, p.At], slack))
            .OrderBy(p => !StandsAlone(p)).ThenBy(p => Math.Abs(Lesser(p) - LesserShare)).FirstOrDefault();
        if (isSteady)
            return single is not null && OnTacks(joints, [single], slack) <= MostOnTacks * Mass ? [single] : [];
        if (single is not null)
            return [single];
        foreach (var (a, b) in from a in places from b in places where string.CompareOrdinal(a.Piece, b.Piece) < 0 || (a.Piece == b.Piece && a.Along < b.Along) select (a, b))
        {
            if (((a.At - b.At) with { Z = 0 }).Length >= 300 && Statics.IsSteady(Centre, [.. held, a.At, b.At], slack))
                return [a, b];
        }

        return null;

        bool StandsAlone(Hold stand) => Resting.Count > 0 && Statics.IsSteady(Centre, [.. Resting, stand.At], slack);

        // The stand's share beside supports that hold with it; else what it leaves to the joints, or to the supports where nothing is joined.
        double Lesser(Hold stand)
        {
            if (StandsAlone(stand))
                return Statics.OnSeveral(Mass, Centre, [.. Resting, stand.At])[^1] / Math.Max(Mass, 1e-9);
            var loads = Statics.OnSeveral(Mass, Centre, [.. Resting, stand.At, .. joints.Select(j => j.Joint.At)]);
            return (joints.Count > 0 ? loads.Skip(Resting.Count + 1) : loads.Take(Resting.Count)).Sum() / Math.Max(Mass, 1e-9);
        }
    }

    /// <summary>What hangs on welds that are only tacked, kg; pipe that stands on pipe rests on it.</summary>
    private double OnTacks(IReadOnlyList<SiteJoint> joints, IReadOnlyList<Hold> stands, double slack) =>
        Loads(joints, stands, slack).Skip(Resting.Count + stands.Count).Where((_, i) => !joints[i].IsBolted && !LooksUp(joints[i])).Sum();

    /// <summary>A face that looks up or down bears all round its edge; one that stands, at its middle.</summary>
    private static IEnumerable<Point> HeldAt(SiteJoint joint)
    {
        yield return joint.Joint.At;
        for (var k = 0; k < 8 && LooksUp(joint); k++)
            yield return joint.Joint.At + (joint.Axes.Q(Math.PI / 4 * k) * (joint.Outside / 2));
    }

    private static bool LooksUp(SiteJoint joint) => Math.Abs(joint.Axes.Along.Z) >= 0.7;

    /// <summary>Places on its nearly level pipes, clear of their ends.</summary>
    private IEnumerable<Hold> Places(double slack)
    {
        foreach (var (piece, pipe) in pipes)
        {
            var length = pipe.Start.To(pipe.End);
            var clear = Math.Min(ClearOfWelds * pipe.Outside, 0.35 * length);
            if (Math.Abs(Math.Asin(Math.Clamp(pipe.Direction.Z, -1, 1))) > Steep || length < 200)
                continue;
            var steps = Math.Max(2, Math.Min(16, (int)((length - (2 * clear)) / 100)));
            for (var i = 0; i <= steps; i++)
            {
                var along = clear + ((length - (2 * clear)) * i / steps);
                yield return new(piece, along, pipe.Start + (pipe.Direction * along), pipe.Outside, 0);
            }

            // Right under the centre too, where it lies over the pipe.
            var under = (Centre - pipe.Start).Dot(pipe.Direction);
            if (slack > 0 && under > clear && under < length - clear)
                yield return new(piece, under, pipe.Start + (pipe.Direction * under), pipe.Outside, 0);
        }
    }
}
