using Rootgap.Records;

namespace Rootgap.Tests.Records;

/// <summary>
/// What was done stays with the steel that it was done on. The shop's own rule (common practice): a mark on a drawing may change, the steel on the stand does not; what is
/// not the same any more is looked at before it is used, and over a revision by a second person.
/// </summary>
public class FollowingTest
{
    private const string Line = """
        drawing: L-1
        revision: 1
        line: {size: 6, schedule: 40, class: 150, material: A106-B}
        runs:
          - run: main
            start: {to: flange}
            legs:
              - {go: up, by: 1500, to: elbow}
              - {go: north, by: 3200, to: elbow}
              - {go: east, by: 2000, to: flange}

        """;

    // A flanged joint in front of the first leg: all numbers behind it move.
    private static readonly string Jointed = Line.Replace("      - {go: up, by: 1500", "      - {go: up, by: 700, to: joint}\n      - {go: up, by: 800", StringComparison.Ordinal);

    private static readonly string Longer = Line.Replace("3200", "3350", StringComparison.Ordinal);

    private static string Next(string text) => text.Replace("revision: 1", "revision: 2", StringComparison.Ordinal);

    [Fact]
    public void A_flanged_joint_put_in_front_moves_every_name_and_no_fact_from_its_steel()
    {
        var job = new ShopJob(Line);
        job.Cut("1-A", heat: "A1");
        job.Cut("1-B", heat: "A2");
        job.Heat("C3", "4711");
        job.Step("W4", Step.Welded);
        job.Save(Jointed);
        var done = job.Done();
        // 1-A was 1500 - 89 - 229 - 6.4 = 1175.6 and is 700 - 178 - 1.6 - 6.4 = 514; the elbow was C3 and is the seventh component.
        var piece = Assert.Single(done.Marked);
        Assert.Equal((Mark.LookAt, "1-A", "1-A"), (piece.Mark, piece.Was, piece.Now));
        Assert.Contains("cut at 1175.6; this makes it 514.0", piece.Why[0], StringComparison.Ordinal);
        Assert.Equal("A2", done.CutOf("2-B")!.Heat);
        Assert.Equal("4711", done.HeatOf("C6")!.Heat);
        Assert.Null(done.CutOf("1-A"));
        Assert.Equal((Step.Welded, null), (done.StepOf("W6"), done.StepOf("W4")));
    }

    [Fact]
    public void What_was_withdrawn_goes_along_and_stays_withdrawn()
    {
        var job = new ShopJob(Line);
        var cut = job.Cut("1-B");
        job.Add(new Withdrawn(job.NextId, "Jo", job.Now, cut.Id, "wrong bar"));
        job.Save(Jointed);
        Assert.Equal("wrong bar", Assert.Single(Assert.Single(job.Done().Pieces["2-B"]).Withdrawals).Why);
    }

    [Fact]
    public void A_piece_that_is_too_short_now_is_spoiled_and_says_by_how_much()
    {
        var job = new ShopJob(Line);
        foreach (var piece in new[] { "1-A", "1-B", "1-C" })
            job.Cut(piece);
        job.Save(Longer);
        var marked = Assert.Single(job.Done().Marked);
        Assert.Equal((Mark.Spoiled, "1-B"), (marked.Mark, marked.Now));
        Assert.Contains("150.0 too short", marked.Says(w => "then"), StringComparison.Ordinal);
        Assert.StartsWith("was on 1-B of revision 1 (version of then), which has changed: ", marked.Says(w => "then"), StringComparison.Ordinal);
    }

    [Fact]
    public void A_piece_welded_in_at_both_ends_cannot_be_trimmed_any_more()
    {
        var job = new ShopJob(Line);
        job.Cut("1-B");
        var shorter = Line.Replace("3200", "3000", StringComparison.Ordinal);
        job.Save(shorter);
        Assert.Equal(Mark.LookAt, Assert.Single(job.Done().Marked).Mark);
        job.Save(Line);
        job.Step("W3", Step.Tacked);
        job.Step("W4", Step.Welded);
        job.Save(shorter);
        Assert.Equal(Mark.Spoiled, Assert.Single(job.Done().Marked, m => m.Was == "1-B").Mark);
    }

    [Fact]
    public void Changed_back_everything_counts_again()
    {
        var job = new ShopJob(Line);
        job.Cut("1-B");
        job.Step("W3", Step.Tacked);
        job.Save(Longer);
        Assert.Empty(job.Done().Facts);
        job.Save(Line);
        Assert.Equal(2, job.Done().Facts.Count);
        Assert.Empty(job.Done().Marked);
    }

    [Fact]
    public void What_somebody_looked_at_counts_on_the_version_that_he_saw()
    {
        var job = new ShopJob(Line);
        var tacked = job.Step("W3", Step.Tacked);
        job.Save(Longer);
        var marked = Assert.Single(job.Done().Marked);
        job.Look(tacked, "W3", holds: true);
        Assert.Equal(Step.Tacked, job.Done().StepOf("W3"));
        Assert.Empty(job.Done().Marked);
        // And not on the next one.
        job.Save(Line.Replace("3200", "3500", StringComparison.Ordinal));
        Assert.Equal(Mark.LookAt, Assert.Single(job.Done().Marked).Mark);
        job.Look(tacked, "W3", holds: false);
        Assert.Empty(job.Done().Marked);
        Assert.Equal(tacked.Id, Assert.Single(job.Done().SetAside).Fact.Id);
        Assert.Equal("W3", marked.Was);
    }

    [Fact]
    public void What_was_entered_anew_settles_what_was_marked()
    {
        var job = new ShopJob(Line);
        var short_ = job.Cut("1-B");
        job.Save(Longer);
        Assert.Equal(Mark.Spoiled, Assert.Single(job.Done().Marked).Mark);
        var anew = job.Cut("1-B");
        Assert.Empty(job.Done().Marked);
        Assert.Equal(short_.Id, Assert.Single(job.Done().SetAside).Fact.Id);
        Assert.Equal(anew.Id, job.Done().CutOf("1-B")!.Id);
    }

    [Fact]
    public void A_new_revision_takes_over_what_is_the_same_steel_once_it_is_taken_to_the_shop()
    {
        var job = new ShopJob(Line);
        job.Cut("1-A");
        job.Cut("1-B");
        job.Step("W3", Step.Tacked);
        job.Save(Next(Longer));
        Assert.Empty(job.Done().Facts);
        Assert.Equal([(Mark.Stays, true), (Mark.Spoiled, true), (Mark.LookAt, true)], job.Done().Marked.Select(m => (m.Mark, m.IsWaiting)));
        job.Take("Ann");
        Assert.NotNull(job.Done().CutOf("1-A"));
        Assert.Equal([(Mark.Spoiled, false), (Mark.LookAt, true)], job.Done().Marked.Select(m => (m.Mark, m.IsHeld)));
        Assert.NotNull(job.Done().HeldBy("W3"));
    }

    [Fact]
    public void What_a_revision_holds_is_freed_by_a_second_person_and_not_by_the_one_who_took_it()
    {
        var job = new ShopJob(Line);
        var tacked = job.Step("W3", Step.Tacked);
        job.Save(Next(Longer));
        job.Take("Ann");
        job.Look(tacked, "W3", holds: true, who: " ann ");
        Assert.NotNull(job.Done().HeldBy("W3"));
        job.Look(tacked, "W3", holds: true, who: "Bo");
        Assert.Null(job.Done().HeldBy("W3"));
        Assert.Equal(Step.Tacked, job.Done().StepOf("W3"));
    }

    [Theory]
    [InlineData("Ann", "p1", "Ann Berg", "p1", false)]
    [InlineData("Jo", "p1", "Jo", "p2", true)]
    public void Where_people_sign_the_second_person_is_told_by_who_signed_and_not_by_the_name(string took, string tookAs, string looked, string lookedAs, bool isFreed)
    {
        static Signature By(string person) => new(FactGens.Id(90), FactGens.Id(91), person, null, "");
        var job = new ShopJob(Line);
        var tacked = job.Step("W3", Step.Tacked);
        job.Save(Next(Longer));
        job.Add(new RevisionTaken(job.NextId, took, job.Now, job.Drawing()) { Versions = job.Versions(), Signed = By(tookAs) });
        job.Add(new LookedAt(job.NextId, looked, job.Now, job.Drawing(), tacked.Id, true, "W3") { Versions = job.Versions(), Signed = By(lookedAs) });
        Assert.Equal(isFreed, job.Done().HeldBy("W3") is null);
    }

    [Fact]
    public void Two_files_with_one_number_and_revision_share_no_ticks()
    {
        var job = new ShopJob(Line);
        job.Save(Line, "copy.yaml");
        job.Cut("1-A");
        Assert.NotNull(job.Done().CutOf("1-A"));
        Assert.Null(job.Done("copy.yaml").CutOf("1-A"));
    }

    [Fact]
    public void A_file_with_another_name_keeps_what_was_done()
    {
        var job = new ShopJob(Line);
        job.Cut("1-A");
        job.Save(Line, "renamed.yaml");
        job.Remove("line.yaml");
        Assert.NotNull(job.Done("renamed.yaml").CutOf("1-A"));
    }

    [Fact]
    public void A_fact_from_before_versions_were_noted_is_about_the_one_that_was_current_then()
    {
        var job = new ShopJob(Line);
        job.Add(new PieceCut(job.NextId, "Jo", job.Now, new("L-1", "1"), "1-B"));
        job.Save(Jointed);
        Assert.NotNull(job.Done().CutOf("2-B"));
        job.Add(new PieceCut(job.NextId, "Jo", job.Now, new("L-1", "1"), "2-A"));
        Assert.Equal(["2-A", "2-B"], job.Done().Pieces.Select(p => p.Key).Order(StringComparer.Ordinal));
    }

    [Fact]
    public void Readings_go_along_with_the_part_that_was_held()
    {
        var job = new ShopJob(Line);
        job.Add(new ReadingsTaken(job.NextId, "Jo", job.Now, new("L-1", "1"), "W4", "level", "P2", null, [new(new Rootgap.FitUp.Reading.Tape(3), 612)]) { Versions = job.Versions() });
        job.Save(Jointed);
        var over = Assert.Single(GoingOver.Of(job.Done().Readings["W6"]));
        Assert.Equal(("W6", "P3"), (over.Joint, over.Held));
    }

    [Fact]
    public void A_rule_beside_the_drawing_is_part_of_the_version()
    {
        var job = new ShopJob(Line.Replace("runs:", "shop: shop.yaml\nruns:", StringComparison.Ordinal));
        job.Save("root gap: 3.2\n", "shop.yaml");
        job.Cut("1-A");
        job.Save("root gap: 2\n", "shop.yaml");
        // Two gaps of 1.2 less: the piece is 2.4 too short.
        Assert.Equal(Mark.Spoiled, Assert.Single(job.Done().Marked).Mark);
    }

    [Fact]
    public void A_version_that_is_not_here_yet_marks_the_fact_and_loses_nothing()
    {
        var job = new ShopJob(Line);
        job.Add(new PieceCut(job.NextId, "Jo", job.Now, new("L-1", "1"), "1-A") { Versions = [FactGens.Id(4711)] });
        var marked = Assert.Single(job.Done().Marked);
        Assert.Equal((Mark.LookAt, null), (marked.Mark, marked.Now));
    }
}
