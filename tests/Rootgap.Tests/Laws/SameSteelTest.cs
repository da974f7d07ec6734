using System.Globalization;
using Rootgap.Checks;
using Rootgap.Drawings;
using Rootgap.FitUp;
using Rootgap.Measure;
using Rootgap.Packets;
using Rootgap.Routes;

namespace Rootgap.Tests.Laws;

/// <summary>The same steel written another way is the same steel: cut lengths, masses, centres, boxes, bodies, clashes, studs, readings.</summary>
/// <remarks>ROOTGAP_LAWS sets how many random drawings each law sees.</remarks>
public class SameSteelTest
{
    private static readonly int Many = int.TryParse(Environment.GetEnvironmentVariable("ROOTGAP_LAWS"), CultureInfo.InvariantCulture, out var n) ? n : 150;

    private const double Near = 1e-3;

    [Fact]
    public void A_run_written_from_its_other_end() => Gens.Sketches.Sample(sketch =>
    {
        var here = sketch.Packet();
        var there = sketch.Backwards((a, b) => ReducerLength(sketch, a, b)).Packet();
        // The other writing begins at the origin, where this one ends.
        var by = Ends(here)[^1] - Point.Origin;
        AssertSame(here, there, p => p - by);
    }, iter: Many, print: s => s.Yaml());

    [Fact]
    public void A_tee_entered_by_its_branch()
    {
        var entered = 0;
        Gens.Sketches.Sample(sketch =>
        {
            var here = sketch.Packet();
            if (sketch.EnteredByBranch(leg => here.Fabrication.Route.Runs[0].Points[leg + 1], (a, b) => ReducerLength(sketch, a, b)) is not { } yaml)
                return;
            AssertSame(here, Given.Packet(yaml), p => p);
            Interlocked.Increment(ref entered);
        }, iter: 3 * Many, print: s => s.Yaml());
        Assert.True(entered > Many / 10, $"{entered} of the drawings have a tee that can be entered by its branch");
    }

    [Fact]
    public void Runs_exchanged() => Gens.Sketches.Sample(
        sketch => AssertSame(sketch.Packet(), (sketch with { Order = RunOrder.Exchanged }).Packet(), p => p), iter: Many, print: s => s.Yaml());

    [Fact]
    public void The_other_hand() => Gens.Sketches.Sample(
        sketch => AssertSame(sketch.Packet(), sketch.Mirrored().Packet(), p => p with { X = -p.X }), iter: Many, print: s => s.Yaml());

    [Fact]
    public void A_whole_drawing_turned_about_the_upright() => Gen.Select(Gens.Sketches, Gen.Int[1, 3]).Sample((sketch, quarters) =>
    {
        var k = quarters;
        AssertSame(sketch.Packet(), sketch.Moved(Vector.Zero, k).Packet(), p => k switch { 1 => new(-p.Y, p.X, p.Z), 2 => new(-p.X, -p.Y, p.Z), _ => new(p.Y, -p.X, p.Z) });
    }, iter: Many, print: s => s.Item1.Yaml());

    private static double ReducerLength(Sketch s, string a, string b)
    {
        var (large, small) = Array.IndexOf(Gens.Sizes, a) > Array.IndexOf(Gens.Sizes, b) ? (a, b) : (b, a);
        return Reckoning.Column(s, "butt-weld", "reducer", "H", large, small) / s.Scale;
    }

    private static IReadOnlyList<Point> Ends(Packet packet) => packet.Fabrication.Route.Runs[0].Points;

    internal static void AssertSame(Packet here, Packet there, Func<Point, Point> map)
    {
        var (a, b) = (here.Fabrication, there.Fabrication);
        var near = new Near(Near);
        Assert.Equal(a.Cuts.Select(c => c.Length).Order(), b.Cuts.Select(c => c.Length).Order(), near);
        Assert.Equal(a.Cuts.Select(c => c.Mass).Order(), b.Cuts.Select(c => c.Mass).Order(), near);
        Assert.Equal(Parts(a, p => p), Parts(b, p => p).Select(p => p with { At = p.At }), new AlikeParts(map));
        Assert.Equal(a.Bolting.Select(s => (s.Size, s.Count, s.Length)).Order(), b.Bolting.Select(s => (s.Size, s.Count, s.Length)).Order());
        AssertSameClashes(a.Route, b.Route, map);
        AssertSameReadings(a, b, map);
        var spools = a.Spools.Select(s => (s.Mass, s.BoxFrom, s.BoxTo, s.CentreOfMass)).ToList();
        Assert.Equal(a.Spools.Count, b.Spools.Count);
        foreach (var (mass, from, to, centre) in spools)
        {
            var (f, t) = Corners(map(from), map(to));
            Assert.Contains(b.Spools, s => Math.Abs(s.Mass - mass) < Near && s.BoxFrom.To(f) < Near && s.BoxTo.To(t) < Near && s.CentreOfMass.To(map(centre)) < Near);
        }

        // The bodies: as far from any place, whichever way the line was written.
        foreach (var spool in a.Spools)
        {
            for (var i = 0; i < 12; i++)
            {
                var at = spool.BoxFrom + new Vector(spool.Box.X * ((i * 0.37) % 1), spool.Box.Y * ((i * 0.61) % 1), spool.Box.Z * ((i * 0.83) % 1));
                Assert.Equal(Distance(a, at), Distance(b, map(at)), Near);
            }
        }
    }

    /// <summary>At each weld, with the same part held, the same can be read, and reads the same.</summary>
    private static void AssertSameReadings(Fabricating.Fabrication a, Fabricating.Fabrication b, Func<Point, Point> map)
    {
        var (here, there) = (new FitJoints(a), new FitJoints(b));
        Assert.Equal(here.Welds.Count, there.Welds.Count);
        foreach (var weld in here.Welds)
        {
            var same = there.Welds.Where(w => w.At.To(map(weld.At)) < 0.01 && w.Kind == weld.Kind).MinBy(w => w.At.To(map(weld.At)));
            Assert.NotNull(same);
            var fit = here.Of(weld);
            var other = there.Of(same);
            if (other.Held.Centre.To(map(fit.Held.Centre)) > 0.1)
                other = there.Of(same, flip: true);
            Assert.Equal(0, other.Held.Centre.To(map(fit.Held.Centre)), 0.01);
            Assert.Equal(Values(here, weld, fit), Values(there, same, other), new SameReadings());
        }
    }

    /// <summary>What each kind of reading should be: which hour reads which, and toward which side an angle counts, hang on the writing. mm, and degrees.</summary>
    private static List<(string Kind, double Value)> Values(FitJoints fitting, Joint weld, FitJoint fit) =>
        [.. Targets.Of(new StandingJoint(fit, SetUps.Of(fitting, fit, Attitude.Level)), fitting.Limits(weld, fit)).Select(t => (t.Reading.GetType().Name, Math.Abs(t.Reading.IsAngle ? Angles.ToDegrees(t.Value) : t.Value))).Order()];

    private sealed class SameReadings : IEqualityComparer<IEnumerable<(string Kind, double Value)>>
    {
        public bool Equals(IEnumerable<(string Kind, double Value)>? x, IEnumerable<(string Kind, double Value)>? y) =>
            x!.Select(r => r.Kind).SequenceEqual(y!.Select(r => r.Kind)) && x!.Zip(y!).All(p => Math.Abs(p.First.Value - p.Second.Value) < 0.01);

        public int GetHashCode(IEnumerable<(string Kind, double Value)> obj) => 0;
    }

    private static (Point From, Point To) Corners(Point a, Point b) =>
        (new(Math.Min(a.X, b.X), Math.Min(a.Y, b.Y), Math.Min(a.Z, b.Z)), new(Math.Max(a.X, b.X), Math.Max(a.Y, b.Y), Math.Max(a.Z, b.Z)));

    /// <summary>The same parts lie in each other. Under which row that is told hangs on the writing.</summary>
    private static void AssertSameClashes(Route a, Route b, Func<Point, Point> map)
    {
        var (here, there) = (RunsThroughAnother.Pairs(a).ToList(), RunsThroughAnother.Pairs(b).ToList());
        foreach (var (one, two) in here)
        {
            var at = there.FindIndex(p => (Is(one, p.First) && Is(two, p.Second)) || (Is(one, p.Second) && Is(two, p.First)));
            Assert.True(at >= 0, $"{one.Id} lies in {two.Id}, and of the other writing's {string.Join(", ", there.Select(p => $"{p.First.Id} in {p.Second.Id}"))} none does");
            there.RemoveAt(at);
        }

        Assert.Empty(there);

        bool Is(Part p, Part q) => p.Name == q.Name && q.Centre.To(map(p.Centre)) < Near;
    }

    private static double Distance(Fabricating.Fabrication f, Point at) =>
        f.Route.Pipes.Concat<Part>(f.Route.Components).SelectMany(p => p.Bodies).Select(b => b.Distance(at)).DefaultIfEmpty(0).Min();

    private sealed record Placed(string Name, double Kg, Point At, string Ends);

    private static List<Placed> Parts(Fabricating.Fabrication f, Func<Point, Point> map) =>
        [.. f.Route.Components.Select(c => new Placed(
            c.Name, c.Mass?.Kg ?? 0, map(c.Centre),
            string.Join(' ', c.Ports.Select(p => p.Name is PortName.RunIn or PortName.RunOut ? $"run {p.Outside:0.0}" : $"{p.Name} {p.Outside:0.0}").Order(StringComparer.Ordinal))))];

    /// <summary>Two lists of parts are alike where each of the one has one of the other at its mapped place.</summary>
    private sealed class AlikeParts(Func<Point, Point> map) : IEqualityComparer<IEnumerable<Placed>>
    {
        public bool Equals(IEnumerable<Placed>? x, IEnumerable<Placed>? y)
        {
            var rest = y!.ToList();
            foreach (var part in x!)
            {
                var at = rest.FindIndex(o => o.Name == part.Name && o.Ends == part.Ends && Math.Abs(o.Kg - part.Kg) < Near && o.At.To(map(part.At)) < Near);
                if (at < 0)
                    return false;
                rest.RemoveAt(at);
            }

            return rest.Count == 0;
        }

        public int GetHashCode(IEnumerable<Placed> obj) => 0;
    }
}
