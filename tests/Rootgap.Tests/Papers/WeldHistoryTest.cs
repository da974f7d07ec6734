using Rootgap.Papers;
using Rootgap.Records;
using Rootgap.Tests.Records;

namespace Rootgap.Tests.Papers;

public class WeldHistoryTest
{
    [Fact]
    public void A_repair_begins_a_weld_of_its_own_and_the_old_history_stays_under_the_old_number()
    {
        var job = new ShopJob(PaperJob.Line(2));
        job.Weld("W2", "K1");
        job.Examine("W2", accepted: false, rejected: 20);
        job.Repair("W2");
        job.Weld("W2", "K2", new(0, 1));
        job.Examine("W2", accepted: true, new(0, 1));
        job.Repair("W2", cutOut: true, new(0, 1));
        job.Weld("W2", "K3", new(1, 0));

        var welds = job.Papers().Welds.Where(w => w.Joint.Id == "W2").ToList();

        Assert.Equal(["W2", "W2 R1", "W2 C1"], welds.Select(w => w.Name));
        Assert.Equal(["K1", "K2", "K3"], welds.Select(w => string.Join(' ', w.Welders)));
        Assert.Equal([WeldState.Repaired, WeldState.CutOut, WeldState.Welded], welds.Select(w => w.State));
        Assert.Equal([false, true], welds.Take(2).Select(w => w.Examinations.Single().IsAccepted));
        Assert.Equal(["W2 C1: radiography asked for, not reported (as W2 R1 before it)"], welds[2].Missing);
    }

    [Fact]
    public void Two_people_who_tell_of_the_same_repair_make_one_weld()
    {
        var job = new ShopJob(PaperJob.Line(1));
        job.Weld("W1", "K1");
        job.Repair("W1");
        job.Repair("W1");

        Assert.Equal(["W1", "W1 R1"], job.Papers().Welds.Where(w => w.Joint.Id == "W1").Select(w => w.Name));
    }

    [Fact]
    public void A_repaired_joint_holds_together_and_a_cut_out_one_is_fitted_again()
    {
        var job = new ShopJob(PaperJob.Line(1));
        job.Weld("W1", "K1");
        job.Weld("W2", "K1");
        Assert.Equal(Step.Welded, job.Done().StepOf("W1"));
        var repair = job.Repair("W1");
        job.Repair("W2", cutOut: true);

        Assert.Equal(Step.Tacked, job.Done().StepOf("W1"));
        Assert.Null(job.Done().StepOf("W2"));

        job.Add(new Withdrawn(job.NextId, "Ines", job.Now, repair.Id, "wrong joint"));
        Assert.Equal(Step.Welded, job.Done().StepOf("W1"));
    }

    [Fact]
    public void Who_made_which_pass_is_told_of_each_pass()
    {
        var job = new ShopJob(PaperJob.Line(1));
        job.Add(new JointStep(job.NextId, "Jo", job.Now, job.Drawing(), "W1", Step.Welded) { Passes = [new("K1", [Pass.Root]), new("K2", [Pass.Fill, Pass.Cap])], Versions = job.Versions() });

        var weld = job.Papers().Welds[0];

        Assert.Equal(["K1", "K2", "K2"], new[] { Pass.Root, Pass.Fill, Pass.Cap }.Select(p => Assert.Single(weld.WhoMade(p))));
        Assert.Equal(["K1", "K2"], weld.Welders);
    }

    [Fact]
    public void What_was_found_out_about_a_weld_follows_it_through_a_revision_and_a_test_does_not_pass_over_new_steel()
    {
        var job = new ShopJob(PaperJob.Line(3));
        job.Weld("W1", "K1");
        job.Examine("W1", accepted: true);
        job.Weld("W4", "K1");
        job.Examine("W4", accepted: true);
        job.Add(new Tested(job.NextId, "Ines", job.Now, job.Drawing(), "TP-1", TestMedium.Water, 15, true) { Versions = job.Versions() });
        Assert.True(job.Papers().Lines[0].IsTested());

        job.Save(PaperJob.Line(3, revision: "2", longer: 2));
        job.Take("Jo");

        var papers = job.Papers();
        var welds = papers.Welds.ToDictionary(w => w.Name);
        Assert.Equal([true, false], new[] { welds["W1"], welds["W4"] }.Select(w => w.Examinations.Count > 0));
        Assert.False(papers.Lines[0].IsTested());
        var mark = papers.Lines[0].Done.Marked.Single(m => m.Entry.Fact is Tested);
        Assert.Equal(Mark.LookAt, mark.Mark);
    }

    [Fact]
    public void What_is_asked_for_in_full_holds_the_spool_until_it_is_reported()
    {
        var job = new ShopJob(PaperJob.Line(1, service: "fluid: oxygen, examination: 100 % RT"));
        foreach (var piece in new[] { "1-A", "1-B" })
            job.Cut(piece);
        job.Weld("W1", "K1");
        job.Weld("W2", "K1");
        job.Examine("W1", accepted: true);

        var papers = job.Papers();
        var release = papers.Steps.Single(s => s.Of == StepOf.Spool);

        Assert.Equal(("release", "W2: radiography asked for, not reported (100 % of the butt welds)"), (release.Step, Assert.Single(release.Missing)));
        var released = new Released(job.NextId, "Ines", job.Now, job.Drawing(), "1") { Versions = job.Versions() };
        Assert.Equal(release.Missing, papers.NotBefore(released, papers.Lines[0]));
        Assert.Empty(papers.NotBefore(released with { Deviation = new(release.Missing, "examined at site", "Bo") }, papers.Lines[0]));

        job.Add(released);
        var finding = Assert.Single(job.Papers().Findings);
        Assert.Equal("released-with-something-missing", finding.Rule);
        job.Examine("W2", accepted: true);
        Assert.Empty(job.Papers().Findings);
    }

    // What was found last counts: a film that was read anew, a weld shot again.
    [Theory]
    [InlineData(false, true, false)]
    [InlineData(true, false, true)]
    public void Of_two_results_of_one_method_the_later_counts(bool first, bool second, bool isRejected)
    {
        var job = new ShopJob(PaperJob.Line(1, service: "examination: 100 %"));
        job.Weld("W1", "K1");
        job.Examine("W1", first);
        job.Examine("W1", second);
        var weld = job.Papers().Welds.Single(w => w.Joint.Id == "W1");
        Assert.Equal(isRejected, weld.IsRejected);
        Assert.Equal(second, weld.ResultOf(ExaminationMethod.Radiography)!.IsAccepted);
    }

    [Fact]
    public void A_weld_that_took_two_days_is_welded_when_its_last_pass_is()
    {
        var job = new ShopJob(PaperJob.Line(1));
        var root = job.Weld("W1", "K1");
        var cap = job.Weld("W1", "K2");
        Assert.True(root.Time < cap.Time);
        Assert.Equal(cap.Time, job.Papers().Welds.Single(w => w.Joint.Id == "W1").Welded);
    }

    [Fact]
    public void A_weld_is_made_where_it_is_drawn_or_where_its_welder_says()
    {
        var job = new ShopJob(PaperJob.Line(2, field: 1));
        job.Weld("W1", "K1");
        job.Weld("W2", "K1");
        job.Weld("W3", "K1", isField: true);
        Assert.Equal([false, true, true], job.Papers().Welds.Take(3).Select(w => w.IsField));
    }
}
