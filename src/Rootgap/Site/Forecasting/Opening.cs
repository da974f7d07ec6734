using MathNet.Numerics.Distributions;
using MathNet.Numerics.Random;
using Rootgap.FitUp;
using Rootgap.Measure;

namespace Rootgap.Site.Forecasting;

/// <summary>What the errors on both sides of a joint make of its opening: how far its second side stands from where the first wants it, in the joint's own axes.</summary>
internal sealed class Opening
{
    private readonly List<Column> columns = [];
    private readonly List<ErrorStage> stages = [];
    private readonly int[] first;
    private readonly int[] second;

    /// <summary>One error, and what one mm or radian of it does to the opening's six.</summary>
    public sealed record Column(ErrorSource Source, double[] Lever, bool IsOfControl);

    /// <summary>A joint that can be set on purpose, and what one mm or radian of each of its six does to the opening's six: lever[i][k].</summary>
    public sealed record Setting(StageControl Control, double[][] Lever);

    public Opening(JointAxes axes, IReadOnlyList<ErrorStage> first, IReadOnlyList<ErrorStage> second)
    {
        Axes = axes;
        this.first = [.. first.Select(Number)];
        this.second = [.. second.Select(Number)];
        var effects = new double[stages.Count][][];
        AddEffects(this.first, -1);
        AddEffects(this.second, 1);
        for (var s = 0; s < stages.Count; s++)
        {
            Offsets.Add(columns.Count);
            foreach (var source in stages[s].Sources)
                columns.Add(new(source, effects[s][source.Component], stages[s].Control is not null));
            if (stages[s].Control is { } control)
                Settings.Add(new(control, effects[s]));
            for (var i = 0; i < 6; i++)
            {
                for (var k = 0; k < 6; k++)
                    Known[k] += effects[s][i][k] * stages[s].Known[i];
            }
        }

        void AddEffects(int[] way, int sign)
        {
            for (var i = 0; i < way.Length; i++)
            {
                var into = effects[way[i]] ??= [new double[6], new double[6], new double[6], new double[6], new double[6], new double[6]];
                for (var k = 0; k < 6; k++)
                    Effect(way, i, k, sign, into[k]);
            }
        }
    }

    public JointAxes Axes { get; }

    public IReadOnlyList<Column> Columns => columns;

    public List<Setting> Settings { get; } = [];

    /// <summary>The opening as far as it is known from spools that were measured, to first order: mm and radians.</summary>
    public double[] Known { get; } = new double[6];

    private List<int> Offsets { get; } = [];

    private int Number(ErrorStage stage)
    {
        var at = stages.IndexOf(stage);
        if (at < 0)
        {
            at = stages.Count;
            stages.Add(stage);
        }

        return at;
    }

    /// <summary>Adds what one unit of one component of a stage does at the opening: its lever, through the spools further on that are set true.</summary>
    private void Effect(int[] way, int at, int component, int sign, double[] into)
    {
        var axes = stages[way[at]].Axes;
        var unit = (component % 3) switch { 0 => axes.Three, 1 => axes.Twelve, _ => axes.Along };
        var (shift, turn, about) = component < 3 ? (unit, Vector.Zero, axes.Centre) : (Vector.Zero, unit, axes.Centre);
        for (var i = at + 1; i < way.Length; i++)
        {
            var next = stages[way[i]];
            if (next.TakesAnything)
                (shift, turn, about) = (next.LeftOfShift(shift + turn.Cross(next.Axes.Centre - about)), next.Left(turn), next.Axes.Centre);
        }

        shift += turn.Cross(Axes.Centre - about);
        Vector[] mine = [Axes.Three, Axes.Twelve, Axes.Along];
        for (var k = 0; k < 3; k++)
        {
            into[k] += sign * shift.Dot(mine[k]);
            into[k + 3] += sign * turn.Dot(mine[k]);
        }
    }

    /// <summary>First-order variance of each of the six, mm² and radian².</summary>
    public double[] Variances()
    {
        var v = new double[6];
        foreach (var c in columns)
        {
            var own = c.Source.Spread.Deviation * c.Source.Spread.Deviation;
            for (var k = 0; k < 6; k++)
                v[k] += own * c.Lever[k] * c.Lever[k];
        }

        return v;
    }

    /// <summary>First-order variance of the opening's shift along a direction in plant axes, mm².</summary>
    public double VarianceAlong(Vector direction)
    {
        var (x, y, z) = (Axes.Three.Dot(direction), Axes.Twelve.Dot(direction), Axes.Along.Dot(direction));
        return columns.Sum(c =>
        {
            var lever = (c.Lever[0] * x) + (c.Lever[1] * y) + (c.Lever[2] * z);
            return lever * lever * c.Source.Spread.Deviation * c.Source.Spread.Deviation;
        });
    }

    /// <summary>Openings drawn by chance, through the full geometry of turns.</summary>
    public PoseError[] Draw(int count, int seed) => [.. Drawn(count, seed, static o => o)];

    /// <summary>Draws, and hands each on as <paramref name="told"/> wants it from the opening.</summary>
    private IEnumerable<T> Drawn<T>(int count, int seed, Func<PoseError, T> told)
    {
        var chance = new Xoshiro256StarStar(seed, threadSafe: false);
        var values = new double[columns.Count];
        var own = new Motion[stages.Count];
        for (var n = 0; n < count; n++)
        {
            Fill(chance, values);
            for (var s = 0; s < stages.Count; s++)
                own[s] = OwnMotion(s, values);
            yield return told(Axes.ErrorOf(Along(first, own).Inverse.After(Along(second, own))));
        }
    }

    /// <summary>Openings drawn to first order; where <paramref name="withoutSettings"/>, the errors of the joints that can be set are left out.</summary>
    public double[][] DrawFirstOrder(int count, int seed, bool withoutSettings)
    {
        var chance = new Xoshiro256StarStar(seed, threadSafe: false);
        var values = new double[columns.Count];
        var drawn = new double[count][];
        for (var n = 0; n < count; n++)
        {
            Fill(chance, values);
            var sum = drawn[n] = [.. Known];
            for (var c = 0; c < columns.Count; c++)
            {
                if (withoutSettings && columns[c].IsOfControl)
                    continue;
                var lever = columns[c].Lever;
                for (var k = 0; k < 6; k++)
                    sum[k] += lever[k] * values[c];
            }
        }

        return drawn;
    }

    private void Fill(Xoshiro256StarStar chance, double[] values)
    {
        for (var c = 0; c < values.Length; c++)
        {
            var spread = columns[c].Source.Spread;
            values[c] = spread.IsNormal ? Normal.Sample(chance, 0, 1) * spread.Size : ((2 * chance.NextDouble()) - 1) * spread.Size;
        }
    }

    private Motion OwnMotion(int s, double[] values)
    {
        Span<double> six = stackalloc double[6];
        for (var k = 0; k < 6; k++)
            six[k] = stages[s].Known[k];
        var sources = stages[s].Sources;
        for (var i = 0; i < sources.Count; i++)
            six[sources[i].Component] += values[Offsets[s] + i];
        return stages[s].MotionOf(six);
    }

    /// <summary>The motion that a way's errors give its last part: the nearest to the weld acts first, the thing outside last.</summary>
    private Motion Along(int[] way, Motion[] own)
    {
        var motion = Motion.None;
        foreach (var s in way)
            motion = stages[s].Straightened(motion).After(own[s]);
        return motion;
    }
}
