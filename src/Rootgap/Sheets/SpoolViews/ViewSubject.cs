using Rootgap.Drawings;
using Rootgap.Fabricating;
using Rootgap.Measure;
using Rootgap.Routes;
using Rootgap.Standards;

namespace Rootgap.Sheets;

/// <summary>What the views of one spool show: its solids, its ends, and the places that are dimensioned.</summary>
internal sealed class ViewSubject
{
    /// <param name="checks">Rows of the check table that the views bear; none for views alone.</param>
    public ViewSubject(Fabrication f, Spool spool, IReadOnlyList<CheckMark>? checks = null)
    {
        (Fabrication, Spool, Checks) = (f, spool, checks ?? []);
        Bodies = Body.Of(spool);
        Ends = SpoolEnd.Of(f, spool);
        Stations = [.. StationsOf(f, spool).Concat(Ends.Select(e => e.InShop)).Concat(Ends.Select(e => e.Farthest)).Distinct()];
        Legs = [.. LegsOf(f, spool, Stations)];
        Units = f.Route.Drawing.Units;
    }

    public Fabrication Fabrication { get; }
    public Spool Spool { get; }

    public IReadOnlyList<CheckMark> Checks { get; }
    public Units Units { get; }
    public IReadOnlyList<Body> Bodies { get; }
    public IReadOnlyList<SpoolEnd> Ends { get; }

    /// <summary>Places between which a fitter measures: work points, faces, ends.</summary>
    public IReadOnlyList<Point> Stations { get; }

    /// <summary>Whether a tape can be held to a place in a direction: a face or an end that looks that way. An axis cannot be touched.</summary>
    public bool IsTouched(Point at, Vector way) => Ends.Any(e => e.IsEndAt(at) && Math.Abs(e.Face.Dot(way)) > 0.999);

    /// <summary>The plane in which all of it lies: its normal, unit; null where it lies in none, or along one line.</summary>
    public Vector? Plane
    {
        get
        {
            var lines = Centrelines().Select(l => l.To - l.From).Where(v => v.Length > 1).ToList();
            if (lines.Count == 0)
                return null;
            var first = lines.MaxBy(v => v.Length).Unit;
            var other = lines.Select(v => v.SquareTo(first)).MaxBy(v => v.Length);
            if (other.Length < 1)
                return null;
            var normal = first.Cross(other).Unit;
            var from = Centrelines().First().From;
            return Centrelines().All(l => Math.Abs((l.From - from).Dot(normal)) < 0.5 && Math.Abs((l.To - from).Dot(normal)) < 0.5) ? normal : null;
        }
    }

    /// <summary>Legs whose two ends are both stations of this spool.</summary>
    public IReadOnlyList<(Point From, Point To)> Legs { get; }

    public IReadOnlyList<Joint> Joints => field ??= [.. Spool.Joints.Concat(Spool.Ends)];

    /// <summary>Outside radius of the pipe at a joint, mm.</summary>
    public double RadiusAt(Joint joint) => Pipes.Outside(joint.Size, Units) / 2;

    /// <summary>Stretches of centreline, each of a part.</summary>
    public IEnumerable<(string Part, Point From, Point To)> Centrelines()
    {
        foreach (var cut in Spool.Cuts)
        {
            var (start, end) = cut.Reach;
            yield return (cut.Pipe.Id, start, end);
        }

        foreach (var c in Spool.Components)
        {
            foreach (var (from, to) in c.MiddleLines)
                yield return (c.Id, from, to);
        }
    }

    private static IEnumerable<Point> StationsOf(Fabrication f, Spool spool)
    {
        foreach (var c in spool.Components)
        {
            foreach (var at in c.Measured)
                yield return at;
        }

        // Places on a pipe that goes through: branches and supports of the spool. What is not on it in the shop, as a wall or a clamp, has nothing to be read at.
        foreach (var pipe in spool.Cuts.Select(c => c.Pipe))
        {
            var line = f.Route.Runs[pipe.Run];
            for (var leg = pipe.FirstLeg; leg < pipe.LastLeg; leg++)
            {
                var at = line.Points[leg + 1];
                if (line.Run.Legs[leg].To is not DimensionPoint and not SupportPoint || spool.Supports.Any(s => s.At.To(at) < 0.1))
                    yield return at;
            }
        }
    }

    private static IEnumerable<(Point From, Point To)> LegsOf(Fabrication f, Spool spool, IReadOnlyList<Point> stations)
    {
        foreach (var l in spool.Lengths)
        {
            var line = f.Route.Runs[l.Run];
            var (from, to) = (line.Points[l.Leg], line.Points[l.Leg + 1]);
            if (stations.Any(s => s.To(from) < 0.1) && stations.Any(s => s.To(to) < 0.1))
                yield return (from, to);
        }
    }
}
