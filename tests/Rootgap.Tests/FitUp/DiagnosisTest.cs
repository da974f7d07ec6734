using Rootgap.FitUp;
using Rootgap.Measure;

namespace Rootgap.Tests.FitUp;

/// <summary>Errors are put in, readings worked out by <see cref="FitBench"/> (written from the definitions, apart from the engine), and asked back.</summary>
[Trait("pace", "slow")]
public class DiagnosisTest
{
    private static readonly FitTolerance Limits = FitTolerance.Of(FitGen.Of("elbow", 6, Vector.East, 0, 900, 90, 3.2), 6);

    private static (StandingJoint Joint, FitBench Bench, IReadOnlyList<Target> Targets) Stand(FitJoint joint, Attitude attitude)
    {
        var standing = new StandingJoint(joint, FitGen.SetUp(joint, attitude));
        var bench = new FitBench(standing);
        return (standing, bench, Targets.Of(standing, Limits));
    }

    private static List<Taken> Readings((StandingJoint Joint, FitBench Bench, IReadOnlyList<Target> Targets) on, double[] e) =>
        [.. on.Targets.Where(t => on.Bench.Read(t.Reading, on.Joint, e) is not null).Select(t => new Taken(t.Reading, on.Bench.Read(t.Reading, on.Joint, e)!.Value))];

    [Fact]
    public void Every_target_and_every_reading_out_of_place_agrees_with_a_separate_geometry() =>
        Gen.Select(FitGen.Any, FitGen.Attitudes, FitGen.Errors).Holds((joint, attitude, e) =>
        {
            var on = Stand(joint, attitude);
            foreach (var t in on.Targets)
            {
                var limit = t.Reading.IsAngle ? 1e-6 : 1e-5;
                if (on.Bench.Read(t.Reading, on.Joint, new double[6]) is { } right)
                    Assert.Equal(right, t.Value, limit);
                if (on.Bench.Read(t.Reading, on.Joint, e) is { } moved)
                    Assert.Equal(moved, t.Reading.Measure(on.Joint, PoseError.From(e)), limit);
            }
        }, iter: 600);

    [Fact]
    public void Exact_readings_give_the_error_back_in_every_component_that_they_see() =>
        Gen.Select(FitGen.Any, FitGen.Attitudes, FitGen.Errors).Holds((joint, attitude, e) =>
        {
            var on = Stand(joint, attitude);
            var found = Diagnosis.Of(on.Joint, Limits, Readings(on, e), on.Targets);
            Assert.Empty(found.Again);
            for (var i = 0; i < 6; i++)
            {
                if (!found.Unseen.Contains(i))
                    Assert.True(Math.Abs(e[i] - found.Error[i]) < (i < 3 ? 0.02 : Angles.ToRadians(0.005)), $"{joint.New.Kind} {attitude}: {PoseError.Names[i]} {found.Error[i]} for {e[i]}");
            }
        }, iter: 400);

    [Fact]
    public void An_elbow_with_gaps_steps_tapes_and_a_level_is_seen_whole() =>
        Gen.Select(FitGen.Elbow, FitGen.Errors).Holds((joint, e) =>
        {
            var on = Stand(joint, Attitude.Level);
            var found = Diagnosis.Of(on.Joint, Limits, Readings(on, e), on.Targets);
            Assert.Empty(found.Unseen);
        }, iter: 300);

    [Fact]
    public void With_noise_the_error_over_its_stated_spread_has_spread_one()
    {
        var random = new Random(20);
        var sum = new double[6];
        var count = new int[6];
        foreach (var (joint, attitude, e) in Cases(RandomCases.Many(600), 7))
        {
            var on = Stand(joint, attitude);
            var taken = Readings(on, e).Select(t => t with { Value = t.Value + (t.Spread * Normal(random)) }).ToList();
            var found = Diagnosis.Of(on.Joint, Limits, taken, on.Targets);
            for (var i = 0; i < 6; i++)
            {
                if (found.Unseen.Contains(i))
                    continue;
                sum[i] += Math.Pow((found.Error[i] - e[i]) / found.Sd[i], 2);
                count[i]++;
            }
        }
        for (var i = 0; i < 6; i++)
            Assert.InRange(Math.Sqrt(sum[i] / count[i]), 0.9, 1.1);
    }

    [Fact]
    public void Few_readings_with_noise_still_have_an_honest_spread()
    {
        var random = new Random(21);
        double sum = 0;
        var count = 0;
        foreach (var (joint, attitude, e) in Cases(RandomCases.Many(400), 8))
        {
            var on = Stand(joint, attitude);
            var taken = Readings(on, e).Where(_ => random.NextDouble() < 0.45).Select(t => t with { Value = t.Value + (t.Spread * Normal(random)) }).ToList();
            var found = Diagnosis.Of(on.Joint, Limits, taken, on.Targets);
            for (var i = 0; i < 6; i++)
            {
                if (found.Unseen.Contains(i))
                    continue;
                sum += Math.Pow((found.Error[i] - e[i]) / found.Sd[i], 2);
                count++;
            }
        }
        Assert.InRange(Math.Sqrt(sum / count), 0.9, 1.1);
    }

    [Fact]
    public void Unseen_names_the_components_whose_spread_stays_over_half_of_what_was_thought_likely() =>
        Gen.Select(FitGen.Any, FitGen.Attitudes, Gen.Int[0, 1 << 20]).Holds((joint, attitude, pick) =>
        {
            var on = Stand(joint, attitude);
            var none = new double[6];
            var taken = Readings(on, none).Where((_, i) => ((pick >> (i % 20)) & 1) == 1).ToList();
            var found = Diagnosis.Of(on.Joint, Limits, taken, on.Targets);
            var information = new double[6, 6];
            for (var i = 0; i < 6; i++)
                information[i, i] = 1;
            foreach (var t in taken)
            {
                var row = new double[6];
                for (var i = 0; i < 6; i++)
                {
                    var (scale, step) = i < 3 ? (5.0, 1e-3) : (3 * Math.PI / 180, 1e-6);
                    double[] more = [.. none], less = [.. none];
                    (more[i], less[i]) = (step, -step);
                    row[i] = (on.Bench.Read(t.Reading, on.Joint, more)!.Value - on.Bench.Read(t.Reading, on.Joint, less)!.Value) / (2 * step) * scale / t.Spread;
                }
                for (var i = 0; i < 6; i++)
                    for (var k = 0; k < 6; k++)
                        information[i, k] += row[i] * row[k];
            }
            var spread = Inverse(information);
            for (var i = 0; i < 6; i++)
            {
                var sd = Math.Sqrt(spread[i, i]);
                if (Math.Abs(sd - 0.5) > 1e-3)
                    Assert.Equal(0.5 < sd, found.Unseen.Contains(i));
            }
        }, iter: 250);

    [Fact]
    public void One_wrong_reading_among_eight_is_named()
    {
        var random = new Random(22);
        var (named, asked) = (0, 0);
        foreach (var (joint, _, e) in Cases(400, 9, elbowsOnly: true))
        {
            var on = Stand(joint, Attitude.Level);
            var all = Readings(on, e).OrderBy(_ => random.NextDouble()).Take(8).Select(t => t with { Value = t.Value + (t.Spread * Normal(random)) }).ToList();
            var wrong = random.Next(all.Count);
            // Only a reading that the other seven check can be named: what they leave open of it is under twice its own spread.
            if (Open(on, all, wrong) > 2)
                continue;
            all[wrong] = all[wrong] with { Value = all[wrong].Value + (20 * all[wrong].Spread * (random.Next(2) == 0 ? 1 : -1)) };
            var found = Diagnosis.Of(on.Joint, Limits, all, on.Targets);
            asked++;
            if (found.Again.Count > 0 && found.Again[0].Reading == all[wrong].Reading)
                named++;
        }
        Assert.True(100 < asked, $"only {asked} cases");
        Assert.True(0.95 * asked <= named, $"{named} of {asked}");
    }

    [Fact]
    public void Readings_without_a_gross_error_are_seldom_doubted()
    {
        var random = new Random(23);
        var doubted = 0;
        foreach (var (joint, attitude, e) in Cases(300, 10))
        {
            var on = Stand(joint, attitude);
            var taken = Readings(on, e).Select(t => t with { Value = t.Value + (t.Spread * Normal(random)) }).ToList();
            doubted += Diagnosis.Of(on.Joint, Limits, taken, on.Targets).Again.Count > 0 ? 1 : 0;
        }
        // Some twenty readings a case, each doubted once in a thousand.
        Assert.InRange(doubted, 0, 15);
    }

    // What the other readings leave open of this one, in its own spreads.
    private static double Open((StandingJoint Joint, FitBench Bench, IReadOnlyList<Target> Targets) on, List<Taken> taken, int which)
    {
        var information = new double[6, 6];
        double[] Row(Taken t)
        {
            var row = new double[6];
            for (var i = 0; i < 6; i++)
            {
                var (scale, step) = i < 3 ? (5.0, 1e-3) : (3 * Math.PI / 180, 1e-6);
                var (more, less) = (new double[6], new double[6]);
                (more[i], less[i]) = (step, -step);
                row[i] = (on.Bench.Read(t.Reading, on.Joint, more)!.Value - on.Bench.Read(t.Reading, on.Joint, less)!.Value) / (2 * step) * scale / t.Spread;
            }
            return row;
        }
        for (var n = 0; n < taken.Count; n++)
        {
            var row = Row(taken[n]);
            for (var i = 0; i < 6; i++)
                for (var k = 0; k < 6; k++)
                    information[i, k] += (n == which ? 0 : row[i] * row[k]) + (n == 0 && i == k ? 1 : 0);
        }
        var spread = Inverse(information);
        var mine = Row(taken[which]);
        double open = 0;
        for (var i = 0; i < 6; i++)
            for (var k = 0; k < 6; k++)
                open += mine[i] * spread[i, k] * mine[k];
        return Math.Sqrt(open);
    }

    private static IEnumerable<(FitJoint, Attitude, double[])> Cases(int count, int seed, bool elbowsOnly = false)
    {
        var random = new Random(seed);
        string[] kinds = elbowsOnly ? ["elbow"] : ["elbow", "elbow", "flange", "tee", "reducer"];
        for (var n = 0; n < count; n++)
        {
            var a = new Vector(Normal(random), Normal(random), Normal(random)).Unit;
            var joint = FitGen.Of(
                kinds[random.Next(kinds.Length)], FitGen.Sizes[random.Next(FitGen.Sizes.Length)], a, random.NextDouble() * 6.28,
                300 + (random.NextDouble() * 2500), random.Next(2) == 0 ? 90 : 45, 3.2);
            var e = Enumerable.Range(0, 6).Select(i => ((2 * random.NextDouble()) - 1) * (i < 3 ? 5 : 3 * Math.PI / 180)).ToArray();
            yield return (joint, (Attitude)random.Next(3), e);
        }
    }

    private static double Normal(Random random) =>
        Math.Sqrt(-2 * Math.Log(1 - random.NextDouble())) * Math.Cos(2 * Math.PI * random.NextDouble());

    private static double[,] Inverse(double[,] m)
    {
        var n = m.GetLength(0);
        var inverse = new double[n, n];
        var work = (double[,])m.Clone();
        for (var i = 0; i < n; i++)
            inverse[i, i] = 1;
        for (var i = 0; i < n; i++)
        {
            var p = work[i, i];
            for (var k = 0; k < n; k++)
                (work[i, k], inverse[i, k]) = (work[i, k] / p, inverse[i, k] / p);
            for (var r = 0; r < n; r++)
            {
                if (r == i)
                    continue;
                var f = work[r, i];
                for (var k = 0; k < n; k++)
                    (work[r, k], inverse[r, k]) = (work[r, k] - (f * work[i, k]), inverse[r, k] - (f * inverse[i, k]));
            }
        }
        return inverse;
    }
}
