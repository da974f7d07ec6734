using Rootgap.Measure;
using Rootgap.Papers;
using Rootgap.Sheets;
using Rootgap.Site;
using Rootgap.Site.Erection;
using Rootgap.Tests.Samples;

namespace Rootgap.Tests.Site.Erection;

/// <summary>Order of erection and the statics behind it, against textbook examples and riggers' charts.</summary>
public class ErectionTest
{
    private static SiteLine Sample(string name) => SiteLine.Of(SampleFile.All.First(s => s.Name == name).Packet().Fabrication);

    private static SiteLine Given(string yaml) => SiteLine.Of(Rootgap.Tests.Given.Packet(yaml).Fabrication);

    [Fact]
    public void A_lifted_truss_hangs_level_where_the_textbook_says()
    {
        // R. C. Hibbeler, Engineering Mechanics: Statics, section 9.2, exercise 51 (read in a solutions page): five members of 4 m, 7 kg/m; the cable is attached 3 m along.
        const double up = 3464.1016;
        Point[] nodes = [new(0, 0, 0), new(4000, 0, 0), new(2000, 0, up), new(6000, 0, up)];
        var members = new[] { (0, 1), (1, 2), (0, 2), (2, 3), (1, 3) };
        var (mass, centre) = Statics.Together(members.Select(m => (28.0, nodes[m.Item1].Toward(nodes[m.Item2], 0.5))));
        Assert.Equal(140, mass, 1e-9);
        Assert.Equal(3000, centre.X, 1e-6);
    }

    [Fact]
    public void Two_supports_bear_by_moments()
    {
        // Moments about the supports: W b / L and W a / L; beyond a support the far one is pulled up.
        Assert.Equal((75.0, 25.0), Statics.OnTwo(100, new(1000, 0, 0), new(0, 0, 0), new(4000, 0, 0)));
        Assert.Equal((-25.0, 125.0), Statics.OnTwo(100, new(5000, 0, 0), new(0, 0, 0), new(4000, 0, 0)));
        // Statics course, section 5.2, "Beam with distributed load" (ecoursesbook.com): 800 N at 2 m, 300 at 3.33 and 150 at 5.8 on supports 6 m apart bear 671.8 and 578.2.
        var (load, centre) = Statics.Together([(800, new(2000, 0, 0)), (300, new(3330, 0, 0)), (150, new(5800, 0, 0))]);
        var (a, b) = Statics.OnTwo(load, centre, new(0, 0, 0), new(6000, 0, 0));
        Assert.Equal(671.8, a, 0.05);
        Assert.Equal(578.2, b, 0.05);
    }

    [Fact]
    public void A_body_is_steady_where_its_centre_falls_between_what_holds_it()
    {
        Point[] three = [new(0, 0, 0), new(1000, 0, 500), new(0, 1000, 0)];
        Assert.True(Statics.IsSteady(new(300, 300, 9000), three));
        Assert.False(Statics.IsSteady(new(600, 600, 0), three));
        Assert.Equal(Math.Sqrt(2) * 100, Statics.Outside(new(600, 600, 0), three), 1e-6);
        Assert.True(Statics.IsSteady(new(500, 60, 0), [new(0, 0, 0), new(1000, 0, 0)], slack: 84));
        Assert.False(Statics.IsSteady(new(500, 90, 0), [new(0, 0, 0), new(1000, 0, 0)], slack: 84));
        Assert.False(Statics.IsSteady(new(0, 0, 0), []));
    }

    [Fact]
    public void A_bent_pipe_hangs_at_the_centre_of_its_masses()
    {
        // Textbook centroid of two equal rods at a right angle: a quarter of a rod's length from the corner along each; the elbow and the root gaps shift it a little.
        var body = ErectionOrder.Of(Given("""
            drawing: T-1
            line: {size: 2, schedule: 40}
            shop: {root gap: 0}
            runs:
              - run: main
                start: {to: open, at: {}}
                legs:
                  - {go: east, by: 4000, to: elbow}
                  - {go: north, by: 4000, to: open}
            """.Replace("at: {}", "at: {up: 0}", StringComparison.Ordinal)))[0].Body!;
        Assert.Equal(3000, body.Centre.X, 20.0);
        Assert.Equal(1000, body.Centre.Y, 20.0);
    }

    [Fact]
    public void Headers_go_up_before_branches_towards_final_fits_and_those_last()
    {
        foreach (var name in (string[])["chilled-supply", "sea-water", "recirculation", "drain"])
        {
            var line = Sample(name);
            var steps = ErectionOrder.Of(line);
            Assert.Equal(line.Bodies.Count(b => !b.IsOutside) + line.FinalFits.Count() + (line.Fabrication.Route.Supports.Count > 0 ? 1 : 0), steps.Count);
            Assert.Equal(Enumerable.Range(1, steps.Count), steps.Select(s => s.Number));
            var firstFinal = steps.First(s => s.Closes is not null).Number;
            Assert.All(steps.Where(s => s.Body is not null), s => Assert.True(s.Number < firstFinal));
            var (_, wrong) = ErectionOrder.Checked(line, [.. steps.Select(s => s.Name)]);
            Assert.Empty(wrong);
        }

        var order = ErectionOrder.Of(Sample("chilled-supply")).Select(s => s.Name).ToList();
        // The branch to the rearing hall hangs on spool 3.
        Assert.True(order.IndexOf("spool 3") < order.IndexOf("spool 6"));
        Assert.True(order.IndexOf("spool 1") < order.IndexOf("spool 2"));
        Assert.True(order.IndexOf("spool 3") < order.IndexOf("spool 4"));
    }

    [Theory]
    [InlineData("1, 2, 3, 4, 5, 6, 7, W15, W21", "")]
    [InlineData("6, 1, 2, 3, 4, 5, 7, W15, W21", "header before branch")]
    [InlineData("4, 1, 2, 3, 5, 6, 7, W15, W21", "joined to nothing that stands")]
    [InlineData("1, 2, 3, 5, W15, 4, 6, 7, W21", "both stand first")]
    [InlineData("1, 2, 3, 4, 5, 6, 7, W15", "leaves out the final-fit weld W21")]
    [InlineData("1, 2, 3, 4, 5, 7, W15, W21", "leaves out spool 6")]
    [InlineData("1, 2, 3, 4, 5, 6, 7, 7, W15, W21", "stands twice")]
    [InlineData("1, 2, 3, 4, 5, 6, 7, W15, W21, W99", "W99 is neither")]
    public void A_foremans_own_order_is_checked(string order, string wrong)
    {
        var (_, found) = ErectionOrder.Checked(Sample("chilled-supply"), order.Split(", "));
        if (wrong.Length == 0)
            Assert.Empty(found);
        else
            Assert.Contains(found, f => f.Contains(wrong, StringComparison.Ordinal));
    }

    /// <summary>A post that stands in a ring, with a pipe over it and one under it.</summary>
    private const string Cage = """
        drawing: T-2
        line: {size: 4, schedule: 40}
        runs:
          - run: post
            start: {to: cap, at: {east: 0, north: 0, up: 0}}
            legs:
              - {go: up, by: 1000, to: cap}
          - run: ring
            start: {to: open, at: {east: -350, north: -350, up: 500}}
            legs:
              - {go: east, by: 700, to: elbow}
              - {go: north, by: 700, to: elbow}
              - {go: west, by: 700, to: elbow}
              - {go: south, by: 600, to: open}
          - run: over
            start: {to: open, at: {east: -1000, north: 0, up: 1300}}
            legs:
              - {go: east, by: 2000, to: open}
          - run: under
            start: {to: open, at: {east: -1000, north: 0, up: -300}}
            legs:
              - {go: east, by: 2000, to: open}
        """;

    [Fact]
    public void A_place_that_is_closed_off_is_filled_before_and_never_after()
    {
        var line = Given(Cage);
        var post = line.Bodies.First(b => b.Parts.Any(p => line.Fabrication.Route.PartOf(p)!.Run == 0)).Name;
        string[] others = [.. line.Bodies.Where(b => b.Name != post).Select(b => b.Name)];
        var (steps, wrong) = ErectionOrder.Checked(line, [.. others, post]);
        Assert.Contains(wrong, w => w.StartsWith(post, StringComparison.Ordinal) && w.Contains("closed off", StringComparison.Ordinal));
        Assert.Null(steps[^1].Way);
        Assert.DoesNotContain(ErectionOrder.Checked(line, [post, .. others]).Wrong, w => w.Contains("closed off", StringComparison.Ordinal));
        Assert.All(ErectionOrder.Of(line), s => Assert.NotNull(s.Way));
    }

    [Fact]
    public void Stands_keep_every_spool_of_the_demo_steady_or_it_is_said()
    {
        foreach (var sample in SampleFile.Clean)
        {
            foreach (var step in ErectionOrder.Of(SiteLine.Of(sample.Packet().Fabrication)).Where(s => s is { Body: not null, Stands.Count: > 0 }))
            {
                var held = step.Joints.SelectMany(j => Enumerable.Range(0, 8).Select(k => j.Joint.At + (j.Axes.Q(Math.PI / 4 * k) * (Math.Abs(j.Axes.Along.Z) < 0.7 ? 0 : j.Outside / 2)))).ToList();
                var radius = step.Body!.Body.Spool!.Cuts.Max(c => c.Pipe.Outside / 2);
                Assert.False(Statics.IsSteady(step.Body.Centre, held, radius - 0.01), $"{sample} {step.Name} needs no stand");
                Assert.True(Statics.IsSteady(step.Body.Centre, [.. held, .. step.Stands!.Select(s => s.At)], radius + 0.01), $"{sample} {step.Name} is not steady");
                Assert.All(step.Stands!, s => Assert.InRange(s.Bears, 0, step.Body.Mass + 1e-9));
            }
        }
    }

    [Fact]
    public void Slings_bear_the_mass_and_hang_under_the_hook()
    {
        var line = Sample("recirculation");
        var f = line.Fabrication;
        foreach (var step in ErectionOrder.Of(line).Where(s => s.Body is not null))
        {
            var lift = Lift.Of(f, step.Body!.Body.Spool!, step.Body.Mass, step.Body.Centre);
            if (lift.Holds.Count < 2)
                continue;
            Assert.Equal(1.1 * step.Body.Mass, lift.Holds.Sum(h => h.Lifts), 1e-6);
            // Moments about the centre vanish along the line of the first two, as it hangs.
            var along = lift.IsHeld ? Vector.East : (lift.Holds[1].Hitch - lift.Holds[0].Hitch).Unit;
            Assert.Equal(0, lift.Holds.Sum(h => h.Lifts * (h.Hitch - step.Body.Centre).Dot(along)), 1e-5);
            Assert.All(lift.Holds, h => Assert.True(h.ToLevel is > 0 and <= 1.5708 && h.Pull >= h.Lifts - 1e-9));
        }
    }

    [Fact]
    public void The_sheets_say_each_step_its_mass_and_its_cautions()
    {
        var sample = SampleFile.All.First(s => s.Name == "chilled-supply");
        var packet = sample.Packet();
        var line = SiteLine.Of(packet.Fabrication);
        var pages = ErectionPages.Of(packet.ToJob(Paper.A4), line, ErectionOrder.Of(line), []);
        var words = string.Join('\n', pages.SelectMany(p => Words(p.Marks)));
        foreach (var said in (string[])["Step 1: spool 1, 111 kg", "W15, final fit", "Stands and levels to set", "Joints made here, and how they are reached", "competent person", "nobody", "free of force"])
            Assert.Contains(said, words, StringComparison.Ordinal);
    }

    private static IEnumerable<string> Words(IEnumerable<Mark> marks)
    {
        foreach (var mark in marks)
        {
            if (mark is Text text)
                yield return text.Content;
            foreach (var word in mark is Group group ? Words(group.Marks) : [])
                yield return word;
        }
    }
}
