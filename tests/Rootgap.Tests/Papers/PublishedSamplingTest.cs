using Rootgap.Records;
using Rootgap.Tests.Records;

namespace Rootgap.Tests.Papers;

/// <summary>Progressive sampling as others tell it in numbers, lived through as a job.</summary>
public class PublishedSamplingTest
{
    private static ShopJob Welded()
    {
        var job = new ShopJob(PaperJob.Line(15));
        for (var i = 1; i <= 30; i++)
            job.Weld($"W{i}", "K1");
        return job;
    }

    // A welding society's forum on 341.3.4 (app.aws.org, topic 31098): "the penalty pyramid", of which the first three tiers are "the original 7" welds (1, 2 and 4), and a failure in
    // the third asks for the entire lot.
    [Fact]
    public void Where_every_tracer_fails_the_first_three_tiers_are_seven_welds_and_then_it_is_all()
    {
        var job = Welded();
        List<string> drawn = [];
        foreach (var tier in new[] { 1, 2, 4, 23 })
        {
            var next = job.Draw("L", 3, 11).SelectMany(d => d.Welds).Where(w => w.IsDrawn).Select(w => w.Joint).Except(drawn).ToList();
            Assert.Equal(tier, next.Count);
            drawn.AddRange(next);
            foreach (var joint in next)
                job.Examine(joint, accepted: false);
        }
    }

    // An engineers' forum (eng-tips.com, thread 316747): "1 reject - 2 tracers; 1 reject out of those tracers - 2 more tracers; 1 reject out of those - 100 %".
    [Fact]
    public void Where_one_of_each_pair_fails_two_and_two_more_are_drawn_and_then_all()
    {
        var job = Welded();
        List<string> drawn = [];
        foreach (var tier in new[] { 1, 2, 2, 25 })
        {
            var next = job.Draw("L", 3, 12).SelectMany(d => d.Welds).Where(w => w.IsDrawn).Select(w => w.Joint).Except(drawn).ToList();
            Assert.Equal(tier, next.Count);
            drawn.AddRange(next);
            for (var i = 0; i < next.Count; i++)
                job.Examine(next[i], accepted: i > 0);
        }
    }

    // The same, where all tracers pass: no more is asked for, and what they stand for is accepted (B31.3 341.3.4 as an inspection-forms publisher quotes it).
    [Fact]
    public void Where_both_tracers_pass_nothing_more_is_drawn()
    {
        var job = Welded();
        var first = job.Draw("L", 3, 13).SelectMany(d => d.Welds).Single(w => w.IsDrawn).Joint;
        job.Examine(first, accepted: false);
        foreach (var tracer in job.Draw("L", 3, 13).SelectMany(d => d.Welds).Where(w => w.IsDrawn && w.Joint != first))
            job.Examine(tracer.Joint, accepted: true);
        Assert.Empty(job.Draw("L", 3, 13).SelectMany(d => d.Welds));
    }
}
