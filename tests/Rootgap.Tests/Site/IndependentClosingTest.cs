using System.Globalization;
using System.Text.Json;

namespace Rootgap.Tests.Site;

/// <summary>Random lines with bodies put where they are not as drawn, read by geometry written apart (<see cref="SiteWorld"/>), against what the program makes of the readings.</summary>
public class IndependentClosingTest
{
    /// <summary>More lines where there is time: <c>ROOTGAP_SITE_LINES=2000</c>.</summary>
    private static readonly int Lines = int.TryParse(Environment.GetEnvironmentVariable("ROOTGAP_SITE_LINES"), NumberStyles.None, CultureInfo.InvariantCulture, out var n) ? n : 8;

    private static IEnumerable<(SiteWorld World, Random Random, int Seed)> Worlds(int first)
    {
        for (var seed = first; seed < first + Lines; seed++)
        {
            var r = new Random(seed);
            yield return (new SiteWorld(SiteLines.Random(r)), r, seed);
        }
    }

    private static double[] Six(JsonElement e, params string[] names) => [.. names.Select(n => e.GetProperty(n).GetDouble())];

    private static double[] Pose(JsonElement body, string of) => Six(body.GetProperty(of), "east", "north", "up", "re", "rn", "ru");

    [Theory]
    [InlineData("plant", 20)]
    [InlineData("levelled", 20)]
    [InlineData("free", 20)]
    [InlineData("plant", 41)]
    public void Without_noise_bodies_stand_and_cuts_lie_where_they_are(string frame, double steel)
    {
        foreach (var (world, r, seed) in Worlds(100))
        {
            SiteLines.Misplace(world, r, 25, 1.2, own: 0);
            world.Growth = 11.5e-6 * (steel - 20);
            if (frame != "plant")
            {
                // One thing must be known, or the frame and all bodies could shift together.
                world.Pose["B1 of other"] = ([0, 0, 0], [0, 0, 0]);
                var turn = r.NextDouble() * 6;
                world.Frame = (frame == "free" ? [r.NextDouble() * 2, r.NextDouble() * 2, turn / 3] : [0, 0, turn], [r.Next(100_000), r.Next(100_000), r.Next(9000)]);
            }

            var head = SiteLines.Text($"frame: {frame}\nsteel: {steel} C\nexpansion: 11.5e-6\nother: far\nstanding: {{{string.Join(", ", world.Pose.Keys.Where(b => b.StartsWith("spool", StringComparison.Ordinal)).Select(b => b + ": far"))}{(frame == "plant" ? "" : ", B1 of other: drawn")}}}");
            var (json, survey) = world.Close(SiteLines.Survey(head, SiteLines.Readings(world, r, 0, 0.001)));
            foreach (var body in json.GetProperty("bodies").EnumerateArray())
            {
                var (t, turn) = world.Pose[body.GetProperty("body").GetString()!];
                var (found, sd) = (Pose(body, "pose"), Pose(body, "sd"));
                for (var i = 0; i < 3; i++)
                {
                    // What is thought before pulls a little: its share of what is known in the end.
                    double Pull(double true_, int k, double before) => Math.Abs(true_) * 1.5 * Math.Pow(sd[k] / before, 2);
                    Assert.True(Math.Abs(found[i] - t[i]) < 0.05 + Pull(t[i], i, 1000), $"seed {seed} {body} {t[i]}\n{survey}");
                    // 0.05 mm at a metre.
                    var degrees = turn[i] * 180 / Math.PI;
                    Assert.True(Math.Abs(found[i + 3] - degrees) < 0.003 + Pull(degrees, i + 3, 15), $"seed {seed} {body} {degrees}\n{survey}");
                }
            }

            foreach (var closing in json.GetProperty("closings").EnumerateArray())
            {
                var truth = world.CutRound(closing.GetProperty("joint").GetString()!);
                var round = closing.GetProperty("round").EnumerateArray().Select(e => e.GetDouble()).ToList();
                for (var i = 0; i < 16; i++)
                    Assert.True(Math.Abs(round[i] - truth[i]) < 0.05, $"seed {seed} place {i}: {round[i]} {truth[i]}\n{survey}");
            }
        }
    }

    [Fact]
    public void With_noise_bodies_stand_within_three_of_their_standard_deviations()
    {
        var (within, all) = (0, 0);
        foreach (var (world, r, _) in Worlds(500))
        {
            SiteLines.Misplace(world, r, 50, 3, own: 1);
            var (json, _) = world.Close(SiteLines.Survey("other: near", SiteLines.Readings(world, r, 1, null)));
            foreach (var body in json.GetProperty("bodies").EnumerateArray())
            {
                var (t, turn) = world.Pose[body.GetProperty("body").GetString()!];
                var (found, sd) = (Pose(body, "pose"), Pose(body, "sd"));
                for (var i = 0; i < 6; i++)
                {
                    all++;
                    within += Math.Abs(found[i] - (i < 3 ? t[i] : turn[i - 3] * 180 / Math.PI)) <= 3 * sd[i] ? 1 : 0;
                }
            }
        }

        // 99.7 in 100, and three standard deviations of that count itself.
        var share = (double)within / all;
        Assert.True(share >= 0.997 - (3 * Math.Sqrt(0.997 * 0.003 / all)), $"{share} of {all}");
    }

    [Fact]
    public void A_gross_reading_among_good_ones_is_named()
    {
        var (named, all) = (0, 0);
        foreach (var (world, r, _) in Worlds(900))
        {
            SiteLines.Misplace(world, r, 30, 1, own: 0.7);
            var readings = SiteLines.Readings(world, r, 1, null);
            // Ten times its spread and more: a centimetre misread on a tape, a figure turned round.
            var wrong = readings.FindIndex(x => x.StartsWith("{tape", StringComparison.Ordinal));
            if (wrong < 0)
                continue;
            var at = readings[wrong].IndexOf("mm: ", StringComparison.Ordinal) + 4;
            var end = readings[wrong].IndexOf(',', at);
            var value = double.Parse(readings[wrong][at..end], CultureInfo.InvariantCulture) + (r.Next(2) == 0 ? 30 : -30);
            readings[wrong] = readings[wrong][..at] + value.ToString(CultureInfo.InvariantCulture) + readings[wrong][end..];
            var (json, _) = world.Close(SiteLines.Survey("other: near", readings));
            all++;
            named += json.TryGetProperty("again", out var again) && again.GetProperty("i").GetInt32() == wrong ? 1 : 0;
        }

        Assert.True(named >= 0.95 * all, $"{named} of {all}");
    }

    // The normal equations of some tapes, heights and heights of points, by differences of the geometry written apart; all bodies near, nothing off.
    [Trait("pace", "slow")]
    [Fact]
    public void What_the_readings_do_not_see_is_what_the_normal_equations_say()
    {
        foreach (var (world, r, seed) in Worlds(1700))
        {
            var rows = new List<(string Text, Func<double> Of, double Sd)>();
            for (var i = 0; i < 14; i++)
            {
                var (a, b) = (world.Faces[r.Next(world.Faces.Count)], world.Faces[r.Next(world.Faces.Count)]);
                if (a == b || world.Tape("lip 3", a.Name, "lip 6", b.Name) < 400)
                    continue;
                rows.Add((SiteLines.Text($"{{tape: [lip 3, lip 6], at: [{a.Name}, {b.Name}], mm: {world.Tape("lip 3", a.Name, "lip 6", b.Name)}, sd: 1}}"), () => world.Tape("lip 3", a.Name, "lip 6", b.Name), 1));
                rows.Add((SiteLines.Text($"{{point: lip 12, at: {a.Name}, up: {world.Point("lip 12", a.Name)[2]}, sd: 1}}"), () => world.Point("lip 12", a.Name)[2], 1));
                rows.Add((SiteLines.Text($"{{height: [lip 9, lip 9], at: [{a.Name}, {b.Name}], mm: {world.Point("lip 9", b.Name)[2] - world.Point("lip 9", a.Name)[2]}, sd: 1}}"), () => world.Point("lip 9", b.Name)[2] - world.Point("lip 9", a.Name)[2], 1));
            }

            var (json, survey) = world.Close(SiteLines.Survey("other: near", rows.Select(x => x.Text)));
            // Every unknown as its prior and a way to step it.
            var unknowns = new List<(string Body, int Component, double Prior, Action<double> Step)>();
            foreach (var body in world.Pose.Keys.ToList())
            {
                for (var k = 0; k < 6; k++)
                {
                    var (name, i) = (body, k);
                    unknowns.Add((body, k, k < 3 ? 50 : 3 * Math.PI / 180, d => (i < 3 ? world.Pose[name].T : world.Pose[name].R)[i % 3] += d));
                }
            }

            foreach (var face in world.Faces.Where(f => !f.Body.EndsWith("other", StringComparison.Ordinal)))
            {
                double[] limits = [3, 3, 3, 0.22 * Math.PI / 180, 0.22 * Math.PI / 180, 1.6 / ((face.IsBolted ? face.Circle : face.Outside) / 2)];
                for (var k = 0; k < 6; k++)
                {
                    var (name, i) = (face.Name, k);
                    unknowns.Add(("", k, limits[k] / Math.Sqrt(3), d => world.Own[name][i] += d));
                }
            }

            double Slope(Func<double> of, (string Body, int Component, double Prior, Action<double> Step) u)
            {
                var step = u.Prior * 1e-4;
                u.Step(step);
                var up = of();
                u.Step(-2 * step);
                var down = of();
                u.Step(step);
                return (up - down) / 2e-4;
            }

            var n = MathNet.Numerics.LinearAlgebra.Matrix<double>.Build.DenseIdentity(unknowns.Count);
            foreach (var (_, of, sd) in rows)
            {
                var slopes = MathNet.Numerics.LinearAlgebra.Vector<double>.Build.Dense([.. unknowns.Select(u => Slope(of, u) / sd)]);
                n += slopes.OuterProduct(slopes);
            }

            var covariance = n.Inverse();
            var said = json.GetProperty("unseen").EnumerateArray().Select(u => u.GetProperty("of").GetString() + " " + u.GetProperty("what").GetString()).ToHashSet(StringComparer.Ordinal);
            string[] names = ["east", "north", "up", "re", "rn", "ru"];
            for (var i = 0; i < unknowns.Count && unknowns[i].Body.Length > 0; i++)
            {
                var share = Math.Sqrt(covariance[i, i]);
                // On the threshold itself the two may differ by a rounding.
                if (Math.Abs(share - 0.5) > 1e-3)
                    Assert.True(share > 0.5 == said.Contains($"{unknowns[i].Body} {names[unknowns[i].Component]}"), $"seed {seed} {unknowns[i].Body} {names[unknowns[i].Component]} {share}\n{survey}");
            }

            foreach (var closing in json.GetProperty("closings").EnumerateArray())
            {
                var joint = closing.GetProperty("joint").GetString()!;
                var slopes = MathNet.Numerics.LinearAlgebra.Vector<double>.Build.Dense([.. unknowns.Select(u => Slope(() => world.CutRound(joint).Average(), u))]);
                var (before, after) = (slopes.L2Norm(), Math.Sqrt(slopes * (covariance * slopes)));
                Assert.Equal(after, closing.GetProperty("sd").GetProperty("mean").GetDouble(), 0.005 * after);
                if (Math.Abs((after / before) - 0.5) > 1e-3)
                    Assert.Equal(after / before > 0.5, said.Contains(joint + " mean"));
            }
        }
    }

    [Fact]
    public void Moves_put_on_again_close_the_line()
    {
        var (moved, all) = (0, 0);
        foreach (var (world, r, seed) in Worlds(1300))
        {
            SiteLines.Misplace(world, r, 5, 0.2, own: 0.3);
            var (json, survey) = world.Close(SiteLines.Survey("other: near\nloose: [B1]", SiteLines.Readings(world, r, 0, 0.001)));
            if (!json.TryGetProperty("moves", out var moves))
                continue;
            all++;
            // Where two things outside stand so that no movement within the limits closes the line, that is said.
            if (json.TryGetProperty("remains", out var remains) && remains.GetArrayLength() > 0)
                continue;
            moved++;
            var by = moves.EnumerateArray().ToDictionary(m => m.GetProperty("body").GetString()!, m => Pose(m, "by"), StringComparer.Ordinal);
            // No joint is made: each body is a group of its own, turned about its own reference point.
            (double[] At, double[] N) After(SiteWorld.Face f)
            {
                if (!by.TryGetValue(f.Body, out var six))
                    return (world.Centre(f), world.Normal(f));
                var q = SiteWorld.Rotation([.. six.Skip(3).Select(d => d * Math.PI / 180)]);
                var c = world.Reference[f.Body];
                return (SiteWorld.Plus(SiteWorld.Plus(c, SiteWorld.Apply(q, SiteWorld.Minus(world.Centre(f), c))), [.. six.Take(3)]), SiteWorld.Apply(q, world.Normal(f)));
            }

            foreach (var joint in world.Joints.Keys)
            {
                var faces = world.Faces.Where(f => f.Joint == joint).ToList();
                var (one, two) = (After(faces[0]), After(faces[1]));
                var lean = Math.Asin(SiteWorld.Length(SiteWorld.Cross(one.N, two.N)));
                var isFinal = world.FinalFits.Contains(joint);
                var along = faces[0].Extra > 0 || !isFinal ? one : two;
                var far = along == one ? two : one;
                var off = SiteWorld.Minus(far.At, along.At);
                var aside = SiteWorld.Length(SiteWorld.Minus(off, SiteWorld.Times(along.N, SiteWorld.Dot(off, along.N))));
                var said = $"seed {seed} {joint}: {aside} aside, {lean * 180 / Math.PI} degrees\n{survey}\n{json}";
                Assert.True(aside <= (faces[0].IsBolted ? 3 : 1.5) + 0.02, said);
                Assert.True(faces[0].IsBolted ? lean <= 0.005 + 1e-5 : faces[0].Outside * Math.Tan(lean) <= 0.8 + 0.01, said);
                if (!isFinal)
                    Assert.True(Math.Abs(SiteWorld.Dot(off, one.N) - world.Joints[joint].G) <= (faces[0].IsBolted ? 0.5 : 1) + 0.02, said);
            }
        }

        Assert.True(moved > all / 4, $"{moved} of {all}");
    }
}
