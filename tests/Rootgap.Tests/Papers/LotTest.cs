using Rootgap.Papers;
using Rootgap.Records;
using Rootgap.Sums;
using Rootgap.Tests.Records;

namespace Rootgap.Tests.Papers;

/// <summary>
/// Sampling as it is quoted: not less than 5 % of the welds over their whole length, each welder's work among them (ASME B31.3 341.4.1, as a welding society's forum quotes it); a
/// reject asks for two more of the same kind and welder, each reject of these for two more, a reject of those for all (341.3.4, as an inspection-forms publisher and two forums
/// quote it alike).
/// </summary>
public class LotTest
{
    // Rosetta Code, "Pseudo-random numbers/Splitmix64": the first five of seed 1234567.
    [Fact]
    public void The_generator_is_the_published_one()
    {
        var chance = new DrawByChance(1234567);
        Assert.Equal(
            [6457827717110365317, 3203168211198807973, 9817491932198370423, 4593380528125082431, 16408922859458223821],
            Enumerable.Range(0, 5).Select(_ => chance.Next()));
    }

    // The same page: 100,000 draws of one in five with seed 987654321.
    [Fact]
    public void Its_draws_fall_as_the_published_ones_do()
    {
        var chance = new DrawByChance(987654321);
        var counts = new int[5];
        for (var i = 0; i < 100_000; i++)
            counts[chance.Among(5)]++;
        Assert.Equal([20027, 19892, 20073, 19978, 20030], counts);
    }

    [Theory]
    [InlineData(5, 1, 1)]
    [InlineData(5, 20, 1)]
    [InlineData(5, 21, 2)]
    [InlineData(5, 100, 5)] // 5 of 100 joints: an engineers' forum's own example
    [InlineData(10, 30, 3)]
    [InlineData(10, 31, 4)]
    [InlineData(100, 7, 7)]
    [InlineData(5, 0, 0)]
    public void The_share_is_rounded_up_and_at_least_one(double share, int welds, int drawn) => Assert.Equal(drawn, Sampling.CountOf(share, welds));

    // ASME B31.3 341.3.4: two more for each reject while there are two, at the third step all; and no more than are left.
    [Theory]
    [InlineData(1, 0, 20, 0)]
    [InlineData(1, 1, 20, 2)]
    [InlineData(1, 3, 5, 5)]
    [InlineData(1, 3, 20, 6)]
    [InlineData(3, 1, 9, 9)]
    public void Each_reject_asks_for_two_more_of_what_is_left(int step, int rejected, int left, int more) => Assert.Equal(more, Sampling.More(step, rejected, left));

    private static ShopJob Welded(int elbows, Func<int, string> welder, Func<int, bool?>? isField = null)
    {
        var job = new ShopJob(PaperJob.Line(elbows));
        var (drawing, versions) = (job.Drawing(), job.Versions());
        for (var i = 1; i <= 2 * elbows; i++)
            job.Add(new JointStep(job.NextId, "Jo", job.Now, drawing, $"W{i}", Step.Welded) { Welder = welder(i), IsField = isField?.Invoke(i), Versions = versions });
        return job;
    }

    [Fact]
    public void Of_each_welder_the_share_is_drawn_and_anybody_gets_the_same_from_the_seed()
    {
        var job = Welded(12, i => i <= 4 ? "K1" : "K2");
        var drawn = job.Draw("L", 10, 77)[0];

        Assert.Equal(["K1", "K2", "K2"], drawn.Welds.Where(w => w.IsDrawn).Select(w => w.Welder).Order());
        Assert.Equal(24, drawn.Welds.Count);
        // Repeated by hand from the seed: welders in the order of their stamps, one of those that are left each time.
        var chance = new DrawByChance(77);
        var left = drawn.Welds.Select(w => w.Joint).ToList();
        var k2 = left[4..];
        List<string> byHand = [left[(int)(chance.NextShare() * 4)]];
        for (var i = 0; i < 2; i++)
        {
            var at = (int)(chance.NextShare() * k2.Count);
            byHand.Add(k2[at]);
            k2.RemoveAt(at);
        }

        Assert.Equal(byHand.Order(), drawn.Welds.Where(w => w.IsDrawn).Select(w => w.Joint).Order());
    }

    [Fact]
    public void Where_he_welded_in_the_shop_and_at_site_both_are_drawn()
    {
        var job = Welded(5, _ => "K1", i => i > 9);
        var drawn = job.Draw("L", 5, 1)[0].Welds.Where(w => w.IsDrawn).ToList();
        Assert.Equal([false, true], drawn.Select(w => w.IsField).Order());
    }

    [Fact]
    public void A_lot_is_added_to_and_what_was_drawn_stays_drawn()
    {
        var job = new ShopJob(PaperJob.Line(15));
        for (var i = 1; i <= 20; i++)
            job.Weld($"W{i}", "K1");
        var first = job.Draw("L", 5, 9)[0].Welds.Single(w => w.IsDrawn).Joint;
        Assert.Empty(job.Draw("L", 5, 10));
        for (var i = 21; i <= 30; i++)
            job.Weld($"W{i}", "K1");
        job.Draw("L", 5, 11);

        var lot = Assert.Single(job.Papers().Lots);
        Assert.Equal((9u, 2, 2), (lot.Seed, lot.NextRound, lot.Welds.Count(w => w.IsDrawn)));
        Assert.Contains(lot.Welds, w => w.IsDrawn && w.Weld.Joint.Id == first);
    }

    [Fact]
    public void A_lot_of_a_time_takes_no_welds_of_another()
    {
        var job = new ShopJob(PaperJob.Line(2));
        var (drawing, versions) = (job.Drawing(), job.Versions());
        for (var i = 1; i <= 4; i++)
            job.Add(new JointStep(job.NextId, "Jo", FactGens.Noon.AddDays(i), drawing, $"W{i}", Step.Welded) { Welder = "K1", Versions = versions });
        var papers = job.Papers();
        var day = DateOnly.FromDateTime(FactGens.Noon.UtcDateTime);
        var lot = papers.LotOf("L", papers.Lines, ExaminationMethod.Radiography, 50, 1, day.AddDays(2), day.AddDays(3));
        Assert.Equal(["W2", "W3"], lot.Welds.Select(w => w.Weld.Joint.Id));
        foreach (var fact in lot.Facts(lot.Draw(), _ => (job.NextId, "Ines", job.Now, versions)))
            job.Add(fact);
        Assert.Equal(2, Assert.Single(job.Papers().Lots).Welds.Count);
    }

    private static (ShopJob Job, string[] Rejected) Sampled(int elbows, int rejectedOfFirst)
    {
        var job = Welded(elbows, _ => "K1");
        var first = job.Draw("L", 5, 3)[0].Welds.Single(w => w.IsDrawn).Joint;
        job.Examine(first, accepted: false);
        job.Draw("L", 5, 3);
        var tracers = job.Papers().Lots[0].Welds.Where(w => w.For is not null).ToList();
        Assert.Equal(2, tracers.Count);
        Assert.All(tracers, t => Assert.Equal($"T-1 {first}", t.For));
        foreach (var (i, tracer) in tracers.Index())
            job.Examine(tracer.Weld.Joint.Id, accepted: i >= rejectedOfFirst);
        return (job, [.. tracers.Take(rejectedOfFirst).Select(t => t.Name)]);
    }

    [Fact]
    public void Where_both_of_the_two_more_pass_nothing_more_is_asked_for()
    {
        var (job, _) = Sampled(8, 0);
        Assert.Empty(job.Papers().Lots[0].Asks);
    }

    // "The original 7" of the forum's penalty pyramid: one, two, four.
    [Fact]
    public void Where_both_are_rejected_each_asks_for_two_more_and_seven_are_examined()
    {
        var (job, rejected) = Sampled(8, 2);
        Assert.Equal(rejected.Select(r => ("K1", r, 2, false)), job.Papers().Lots[0].Asks.Select(a => (a.Welder, a.For, a.Count, a.IsAll)));
        job.Draw("L", 5, 3);
        Assert.Equal(7, job.Papers().Lots[0].Welds.Count(w => w.IsDrawn));
    }

    [Fact]
    public void A_reject_of_the_second_step_asks_for_all_that_the_sampling_stands_for()
    {
        var (job, _) = Sampled(8, 1);
        job.Draw("L", 5, 3);
        var second = job.Papers().Lots[0].Welds.Where(w => w.Round == 2).ToList();
        Assert.Equal(2, second.Count);
        job.Examine(second[0].Weld.Joint.Id, accepted: false);
        job.Examine(second[1].Weld.Joint.Id, accepted: true);

        var ask = Assert.Single(job.Papers().Lots[0].Asks);
        Assert.Equal((11, true), (ask.Count, ask.IsAll));
        job.Draw("L", 5, 3);
        Assert.All(job.Papers().Lots[0].Welds, w => Assert.True(w.IsDrawn));
    }

    [Fact]
    public void Another_welders_welds_are_not_asked_for()
    {
        var job = Welded(6, i => i % 2 == 0 ? "K1" : "K2");
        var first = job.Draw("L", 5, 3)[0].Welds.First(w => w is { IsDrawn: true, Welder: "K1" }).Joint;
        job.Examine(first, accepted: false);
        job.Draw("L", 5, 3);
        Assert.All(job.Papers().Lots[0].Welds.Where(w => w.For is not null), w => Assert.Equal(["K1"], w.Welders));
    }

    [Fact]
    public void A_repair_that_is_rejected_again_starts_no_new_sampling()
    {
        var (job, _) = Sampled(8, 0);
        var first = job.Papers().Lots[0].Welds.First(w => w.IsDrawn && w.For is null).Weld.Joint.Id;
        job.Repair(first);
        job.Weld(first, "K1", new(0, 1));
        job.Examine(first, accepted: false, new(0, 1));
        var papers = job.Papers();
        Assert.Empty(papers.Lots[0].Asks);
        Assert.Contains(papers.Welds.Single(w => w.Name == $"{first} R1").Missing, m => m.Contains("rejected by radiography", StringComparison.Ordinal));
    }

    [Fact]
    public void A_lot_says_the_same_after_a_revision_that_leaves_its_welds_alone()
    {
        var job = Welded(6, _ => "K1");
        var drawn = job.Draw("L", 20, 5)[0].Welds.Where(w => w.IsDrawn).Select(w => w.Joint).ToList();
        job.Save(PaperJob.Line(6, revision: "2", longer: 0));
        job.Take("Jo");
        Assert.Equal(drawn, job.Papers().Lots[0].Welds.Where(w => w.IsDrawn).Select(w => w.Weld.Joint.Id));
    }

    // Every weld is drawn as often as every other: chi-squared with 9 degrees of freedom, 0.1 % point 27.88 (NIST/SEMATECH e-Handbook of Statistical Methods, 1.3.6.7.4).
    [Fact]
    public void Over_many_seeds_every_weld_is_drawn_as_often_as_every_other()
    {
        var job = Welded(5, _ => "K1");
        var papers = job.Papers();
        var counts = new Dictionary<string, int>(StringComparer.Ordinal);
        const int Seeds = 2000;
        for (var seed = 0u; seed < Seeds; seed++)
        {
            foreach (var (weld, _) in papers.LotOf("L", papers.Lines, ExaminationMethod.Radiography, 30, seed).Draw())
                counts[weld.Name] = counts.GetValueOrDefault(weld.Name) + 1;
        }

        const double Expected = Seeds * 3 / 10.0;
        Assert.Equal(10, counts.Count);
        Assert.Equal(Seeds * 3, counts.Values.Sum());
        Assert.True(counts.Values.Sum(c => (c - Expected) * (c - Expected) / Expected) < 27.88);
    }

    // "If you X-ray 100 butt welds and 3 fail, your rate is 3 %"; "weld 1,000 inches and 50 inches require repair, the linear rate is 5 %": a published calculator's page on weld repair rate.
    [Fact]
    public void Rates_are_in_welds_and_in_length()
    {
        var job = new ShopJob(PaperJob.Line(50));
        var (drawing, versions) = (job.Drawing(), job.Versions());
        for (var i = 1; i <= 100; i++)
        {
            job.Add(new JointStep(job.NextId, "Jo", job.Now, drawing, $"W{i}", Step.Welded) { Welder = "K1", Versions = versions });
            job.Add(new Examined(job.NextId, "Ines", job.Now, drawing, $"W{i}", ExaminationMethod.Radiography, i > 3) { RejectedLength = i <= 3 ? 30 : null, Versions = versions });
        }

        var rate = Assert.Single(WelderRate.Of(job.Papers().Welds));
        Assert.Equal((100, 3, 3.0), (rate.Examined, rate.Rejected, rate.Rate));
        // NPS 4: 114.3 mm outside (ASME B36.10M).
        Assert.Equal(100 * 90 / (100 * Math.PI * 114.3), rate.LengthRate!.Value, 9);
    }
}
