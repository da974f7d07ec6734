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

/// <summary>What is put up in one go: a spool with the valves that go with it.</summary>
public sealed class ErectedBody
{
    /// <summary>Where a stand may be: so far from welds, in diameters of the pipe (common practice).</summary>
    private const double ClearOfWelds = 1;

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

    /// <summary>What rests on each of its own supports, kg, with the places that hold it besides; of one that carries nothing 0.</summary>
    /// <param name="others">Middles of the joints to what stands, and stands.</param>
    public IReadOnlyList<(Support Support, double Bears)> Loads(IReadOnlyList<Point> others)
    {
        var carrying = Supports.Where(s => s.Carries).ToList();
        var loads = Statics.OnSeveral(Mass, Centre, [.. carrying.Select(s => s.At), .. others]);
        return [.. Supports.Select(s => (s, carrying.IndexOf(s) is >= 0 and var i ? loads[i] : 0))];
    }

    /// <summary>Parts whose mass nobody knows.</summary>
    public IReadOnlyList<string> Unweighed { get; }

    internal IReadOnlyList<Solid> Solids { get; }

    /// <summary>Stands that keep it steady together with the ends that are joined: none, one or two; null where no place on its pipes does.</summary>
    /// <param name="joined">Places at which it is held already.</param>
    /// <param name="slack">How far the centre may fall outside, mm: half the width of what holds.</param>
    public IReadOnlyList<Hold>? Stands(IReadOnlyList<Point> joined, double slack)
    {
        if (Statics.IsSteady(Centre, joined, slack))
            return [];
        var places = Places(slack).ToList();
        // A joint that is not made yet should bear little: three quarters on the stand.
        if (joined.Count > 0)
        {
            foreach (var one in places.Select(p => p with { Bears = Share(p, joined) }).OrderBy(p => Math.Abs((p.Bears / Math.Max(Mass, 1e-9)) - 0.75)))
            {
                if (Statics.IsSteady(Centre, [.. joined, one.At], slack))
                    return [one];
            }
        }

        foreach (var (a, b) in from a in places from b in places where string.CompareOrdinal(a.Piece, b.Piece) < 0 || (a.Piece == b.Piece && a.Along < b.Along) select (a, b))
        {
            if (((a.At - b.At) with { Z = 0 }).Length < 300 || !Statics.IsSteady(Centre, [.. joined, a.At, b.At], slack))
                continue;
            var (first, second) = Statics.OnTwo(Mass, Centre, a.At, b.At);
            return [a with { Bears = Math.Clamp(first, 0, Mass) }, b with { Bears = Math.Clamp(second, 0, Mass) }];
        }

        return null;
    }

    private double Share(Hold one, IReadOnlyList<Point> joined)
    {
        var other = joined.MaxBy(p => ((p - one.At) with { Z = 0 }).Length);
        return Math.Clamp(Statics.OnTwo(Mass, Centre, one.At, other).First, 0, Mass);
    }

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
