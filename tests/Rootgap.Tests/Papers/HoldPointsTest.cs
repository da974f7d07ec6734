using Rootgap.Drawings;
using Rootgap.Papers;
using Rootgap.Records;
using Rootgap.Tests.Records;

namespace Rootgap.Tests.Papers;

public class HoldPointsTest
{
    private const string Seen = "hold points: [{before: welded, needs: fit-up seen}, {before: painted, needs: examined}, {before: insulated, needs: tested}]";

    [Fact]
    public void A_weld_waits_for_its_fit_up_to_be_seen()
    {
        var job = new ShopJob(PaperJob.Line(1, shop: Seen));
        job.Step("W1", Step.Tacked);
        Assert.Equal(["W1: its fit-up is not seen"], job.Papers().Steps.Single(s => s.Name == "W1").Missing);

        job.Add(new FitUpSeen(job.NextId, "Ines", job.Now, job.Drawing(), "W1") { IsRefused = true, Versions = job.Versions() });
        Assert.NotEmpty(job.Papers().Steps.Single(s => s.Name == "W1").Missing);

        job.Add(new FitUpSeen(job.NextId, "Ines", job.Now, job.Drawing(), "W1") { Versions = job.Versions() });
        var step = job.Papers().Steps.Single(s => s.Name == "W1");
        Assert.Equal(("weld", true), (step.Step, step.CanBeDone));
    }

    [Fact]
    public void A_step_that_came_without_the_word_is_told_until_somebody_takes_it_on()
    {
        var job = new ShopJob(PaperJob.Line(1, shop: Seen));
        var weld = job.Weld("W1", "K1");
        Assert.Equal("step-without-word", Assert.Single(job.Papers().Findings).Rule);

        job.Add(new Withdrawn(job.NextId, "Jo", job.Now, weld.Id, "said anew"));
        job.Add(weld with { Id = job.NextId, Deviation = new(["W1: its fit-up is not seen"], "night shift", "Bo") });
        Assert.Empty(job.Papers().Findings);
        Assert.Equal("Bo", Assert.Single(PaperTables.Deviations(job.Papers().Lines).Rows)["taken on by"]);
    }

    [Fact]
    public void Where_people_sign_the_word_must_come_from_whoever_the_shop_names()
    {
        var job = new ShopJob(PaperJob.Line(1, shop: "hold points: [{before: welded, needs: fit-up seen, by: inspector}]"));
        job.Add(new PersonNamed(job.NextId, "Ann", job.Now, FactGens.Id(901), "Ines", null, "inspector", [Right.Examine, Right.People]));
        job.Add(new PersonNamed(job.NextId, "Ann", job.Now, FactGens.Id(902), "Jo", null, "fitter", [Right.Examine]));
        job.Step("W1", Step.Tacked);
        job.Add(new FitUpSeen(job.NextId, "Jo", job.Now, job.Drawing(), "W1") { Versions = job.Versions() });
        Assert.Equal(["W1: its fit-up is not seen by inspector"], job.Papers().Steps.Single(s => s.Name == "W1").Missing);

        job.Add(new FitUpSeen(job.NextId, "Ines", job.Now, job.Drawing(), "W1") { Versions = job.Versions() });
        Assert.Empty(job.Papers().Steps.Single(s => s.Name == "W1").Missing);
    }

    [Theory]
    [InlineData("hold points: [{before: welding, needs: fit-up seen}]", "welding")]
    [InlineData("hold points: [{before: welded}]", "needs")]
    [InlineData("hold points: yes", "list")]
    public void A_hold_point_that_cannot_be_read_is_told_with_its_place(string shop, string told)
    {
        var reading = DrawingReader.Read(PaperJob.Line(1, shop: shop), "t.yaml");
        Assert.Null(reading.Drawing);
        Assert.Contains(reading.Errors, e => (e.Message + e.Remedy).Contains(told, StringComparison.Ordinal) && e.Where.Line == 6);
    }
}
