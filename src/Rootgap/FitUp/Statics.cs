using Rootgap.Measure;

namespace Rootgap.FitUp;

/// <summary>A weight, or a pull counted as one: kg, and where it acts: along the line of the stands, beside it, and over it, mm.</summary>
internal readonly record struct Load(double Kg, double Along, double Beside = 0, double Over = 0);

/// <summary>All that one set of supports carries, with its weight and its centre.</summary>
internal sealed class Burden(Load[] loads)
{
    public IReadOnlyList<Load> Loads => loads;

    public ReadOnlySpan<Load> Each => loads;

    /// <summary>kg.</summary>
    public double Weight { get; } = loads.Sum(l => l.Kg);

    /// <summary>Where the centre of all lies: along, beside and over the line.</summary>
    public (double Along, double Beside, double Over) Centre { get; } = Statics.Centre(loads);

    public bool IsNothing => loads.Length == 0;
}

/// <summary>Vertical forces that hold a rigid body still: they make its weight, and their moments about any level line are those of its weight.</summary>
internal static class Statics
{
    /// <summary>g, m/s².</summary>
    public const double Gravity = 9.81;

    /// <summary>What two supports on a line carry, kg; below zero it lifts off.</summary>
    public static (double First, double Second) OnTwo(double first, double second, IEnumerable<Load> loads)
    {
        double weight = 0, moment = 0;
        foreach (var load in loads)
            (weight, moment) = (weight + load.Kg, moment + (load.Kg * (load.Along - first)));
        var far = moment / (second - first);
        return (weight - far, far);
    }

    /// <summary>What two supports on a line carry beside a third that is screwed up until it carries a given force, kg.</summary>
    public static (double First, double Second) BesideThird(double first, double second, double third, double force, IEnumerable<Load> loads) =>
        OnTwo(first, second, loads.Append(new Load(-force, third)));

    /// <summary>What a third support off the line of two others carries: its force follows from the moments about that line, kg.</summary>
    public static double OffTheLine(double beside, IEnumerable<Load> loads) => loads.Sum(l => l.Kg * l.Beside) / beside;

    /// <summary>The least that a support could carry when every mass may differ by a share from what is reckoned: each changes to the worse.</summary>
    /// <param name="carried">What the support carries of one kilogram of each load.</param>
    public static double Least(ReadOnlySpan<Load> loads, Func<Load, double> carried, double spread)
    {
        var least = 0.0;
        foreach (var load in loads)
        {
            var part = load.Kg * carried(load);
            least += part - (spread * Math.Abs(part));
        }

        return least;
    }

    /// <summary>Where the centre of all lies: along, beside and over the line.</summary>
    public static (double Along, double Beside, double Over) Centre(IReadOnlyList<Load> loads)
    {
        double kg = 0, along = 0, beside = 0, over = 0;
        foreach (var l in loads)
            (kg, along, beside, over) = (kg + l.Kg, along + (l.Kg * l.Along), beside + (l.Kg * l.Beside), over + (l.Kg * l.Over));
        return kg > 0 ? (along / kg, beside / kg, over / kg) : loads.Count > 0 ? (loads.Average(l => l.Along), loads.Average(l => l.Beside), loads.Average(l => l.Over)) : (0, 0, 0);
    }
}

/// <summary>Straight pipe of an assembly, in one line, on which stands can be set: one piece, or pieces in line.</summary>
internal sealed class StandLine
{
    /// <summary>A stretch on which a stand may be set, by the distance along the line.</summary>
    public readonly record struct Stretch(FitPart Pipe, double From, double To);

    private StandLine(Point origin, Vector along, IReadOnlyList<FitPart> pipes) => (Origin, Along, Pipes) = (origin, along, pipes);

    public Point Origin { get; }

    public Vector Along { get; }

    public IReadOnlyList<FitPart> Pipes { get; }

    public IReadOnlyList<Stretch> Stretches { get; private init; } = [];

    public double At(Point p) => (p - Origin).Dot(Along);

    public Point On(double along) => Origin + (Along * along);

    /// <summary>The lines of an assembly's pipes.</summary>
    /// <param name="there">Ids of all that is there: a branch keeps stands off.</param>
    public static IReadOnlyList<StandLine> Of(Assembly assembly, JointNet net, IReadOnlySet<string> there, FitRules rules)
    {
        List<StandLine> lines = [];
        var left = assembly.Parts.Where(p => p.IsPipe && p.Straight > 0 && p.Outside > 0).ToList();
        while (left.Count > 0)
        {
            var (first, direction) = (left[0], left[0].Direction);
            var pipes = left.Where(p => p.Direction.Cross(direction).Length < 1e-3 && (p.Centre - first.Centre).SquareTo(direction).Length < 1).ToList();
            left.RemoveAll(pipes.Contains);
            var origin = first.Ends[0].At;
            List<Stretch> stretches = [];
            foreach (var pipe in pipes)
            {
                var clear = pipes.Count > 1 && pipe.Straight < 4 * rules.Clear ? pipe.Straight / 4 : rules.Clear;
                var (a, b) = ((pipe.Ends[0].At - origin).Dot(direction), (pipe.Ends[1].At - origin).Dot(direction));
                List<(double From, double To)> free = [(Math.Min(a, b) + clear, Math.Max(a, b) - clear)];
                foreach (var (joint, at, other) in net.Of(pipe.Id))
                {
                    if (!there.Contains(other))
                        continue;
                    if (at is not null)
                    {
                        // Pushed into a socket or a slip-on, the pipe goes on beyond its weld.
                        var weld = (joint.At - origin).Dot(direction);
                        free = [.. free.Select(f => weld < (a + b) / 2 ? (Math.Max(f.From, weld + clear), f.To) : (f.From, Math.Min(f.To, weld - clear)))];
                        continue;
                    }

                    var branch = net.Part(other);
                    var end = net.EndAt(joint, branch)!;
                    var lean = Math.Max(0.25, end.Face.Cross(direction).Length);
                    var (middle, half) = ((joint.At - origin).Dot(direction), (branch.Outside / 2 / lean) + clear);
                    free = [.. free.SelectMany(f => new[] { (f.From, Math.Min(f.To, middle - half)), (Math.Max(f.From, middle + half), f.To) })];
                }

                stretches.AddRange(free.Where(f => f.From < f.To + 1e-6).Select(f => new Stretch(pipe, f.From, Math.Max(f.From, f.To))));
            }

            lines.Add(new(origin, direction, pipes) { Stretches = [.. stretches.OrderBy(s => s.From)] });
        }

        return lines;
    }

    /// <summary>Places for stands, every so many millimetres, with the ends of the stretches and the fifths of the pieces and of the whole line.</summary>
    public List<(FitPart Pipe, double At)> Places(int about)
    {
        List<(FitPart, double)> places = [];
        if (Stretches.Count == 0)
            return places;
        var ends = Pipes.SelectMany(p => p.Ends).Select(e => At(e.At)).ToList();
        var (low, high) = (ends.Min(), ends.Max());
        var step = Math.Max(20, Math.Ceiling((high - low) / about / 10) * 10);
        foreach (var s in Stretches)
        {
            List<double> at = [s.From, s.To];
            for (var x = Math.Ceiling((s.From - low) / step) * step; x <= s.To - low; x += step)
                at.Add(low + x);
            var (a, b) = (At(s.Pipe.Ends[0].At), At(s.Pipe.Ends[1].At));
            foreach (var (from, to) in new[] { (a, b), (low, high) })
            {
                foreach (var share in (double[])[0.2, 0.8])
                {
                    var fifth = from + (share * (to - from));
                    if (s.From <= fifth && fifth <= s.To)
                        at.Add(fifth);
                }
            }

            places.AddRange(at.Where(x => s.From - 1e-9 <= x && x <= s.To + 1e-9).Distinct().Order().Select(x => (s.Pipe, x)));
        }

        return places;
    }

    /// <summary>A place on the line as one finds it: the distance from the nearer end of its pipe, and which end that is.</summary>
    public static (double Along, int End) Found(FitPart pipe, Point at)
    {
        var (a, b) = (pipe.Ends[0].At.To(at), pipe.Ends[^1].At.To(at));
        return a <= b ? (a, 0) : (b, pipe.Ends.Count - 1);
    }
}
