using Rootgap.Papers;
using Rootgap.Records;
using Rootgap.Tests.Records;

namespace Rootgap.Tests.Papers;

public class HeatsTest
{
    [Theory]
    [InlineData("4", "40", "A106-B", null)]
    [InlineData("4", "SCH 40", "ASTM A106 Gr. B", null)]
    [InlineData("DN100", "40", "SA-106 Grade B", null)]
    [InlineData("6", "40", "A106-B", "NPS 6 where the part is NPS 4")]
    [InlineData("4", "80", "A106-B", "schedule 80 where the part is schedule 40")]
    [InlineData("4", "40", "A312-TP304L", "A312-TP304L where the part is A106-B")]
    public void A_heat_that_its_certificate_contradicts_is_told(string size, string schedule, string material, string? told)
    {
        var job = new ShopJob(PaperJob.Line(1));
        job.Cut("1-A", "H1");
        job.Add(new CertificateNoted(job.NextId, "Stu", job.Now, "h1", "C-7") { Size = size, Schedule = schedule, Material = material });

        var findings = job.Papers().Findings;

        if (told is null)
            Assert.Empty(findings);
        else
            Assert.Contains(told, Assert.Single(findings).Message, StringComparison.Ordinal);
    }

    [Fact]
    public void Of_one_heat_rolled_to_two_sizes_the_certificate_that_fits_is_enough()
    {
        var job = new ShopJob(PaperJob.Line(1));
        job.Cut("1-A", "H1");
        job.Add(new CertificateNoted(job.NextId, "Stu", job.Now, "H1", "C-7") { Size = "6" });
        job.Add(new CertificateNoted(job.NextId, "Stu", job.Now, "H1", "C-8") { Size = "4" });
        Assert.Empty(job.Papers().Findings);
    }

    // A certificate noted twice under one number was mended: the later counts.
    [Theory]
    [InlineData("6", "4", 0)]
    [InlineData("4", "6", 1)]
    public void A_certificate_that_is_noted_again_is_mended(string first, string then, int told)
    {
        var job = new ShopJob(PaperJob.Line(1));
        job.Cut("1-A", "H1");
        job.Add(new CertificateNoted(job.NextId, "Stu", job.Now, "H1", "C-7") { Size = first });
        job.Add(new CertificateNoted(job.NextId, "Stu", job.Now, "H1", "C-7") { Size = then });
        Assert.Equal(told, job.Papers().Findings.Count);
    }

    [Fact]
    public void What_was_read_on_the_piece_later_goes_before_what_was_noted_at_the_saw()
    {
        var job = new ShopJob(PaperJob.Line(1));
        job.Cut("1-A", "H1");
        job.Heat("1-A", "H2");
        job.Heat("C1", "H3");
        var heats = job.Papers().Heats.ToDictionary(u => u.Part, u => u.Heat);
        Assert.Equal(("H2", "H3"), (heats["1-A"], heats["C1"]));
        Assert.Equal(["H2", "H3"], job.Papers().Welds[0].Heats.Select(h => h.Heat));
    }

    [Fact]
    public void A_bars_heat_goes_with_every_piece_cut_from_it_and_nobody_writes_it_twice()
    {
        var job = new ShopJob(PaperJob.Line(1));
        job.Save("stock:\n  - {id: R1, size: 4, schedule: 40, length: 6000, quantity: 2, heat: H-RACK}\n", "rack.yaml");
        Sawn("1-A", "R1#1");
        Sawn("1-B", "R1#2");
        Assert.Equal(("H-RACK", "H-RACK"), Heats());

        // The bar is used up, and its mark goes to another: what was cut before keeps its heat.
        job.Save("stock:\n  - {id: R1, size: 4, schedule: 40, length: 6000, quantity: 2, heat: H-NEXT}\n", "rack.yaml");
        Assert.Equal(("H-RACK", "H-RACK"), Heats());

        // Somebody looks at the one bar: its own pieces follow, the other's do not.
        job.Add(new BarNoted(job.NextId, "Ann", job.Now, "rack.yaml", "r1#2") { Heat = "H-SEEN" });
        Assert.Equal(("H-RACK", "H-SEEN"), Heats());

        // What is read on the piece itself is the word, and taking it back gives the bar's again.
        var read = job.Heat("1-B", "H-READ");
        Assert.Equal(("H-RACK", "H-READ"), Heats());
        job.Add(new Withdrawn(job.NextId, "Ann", job.Now, read.Id, "another piece"));
        Assert.Equal(("H-RACK", "H-SEEN"), Heats());
        Assert.Equal(["H-RACK", null], job.Papers().Welds[0].Heats.Select(h => h.Heat));

        // A heat typed at one piece of a bar whose heat nobody knew goes to the other one.
        var other = new ShopJob(PaperJob.Line(1));
        other.Save("stock:\n  - {id: R1, size: 4, schedule: 40, length: 6000}\n", "rack.yaml");
        Sawn("1-A", "R1", of: other);
        Sawn("1-B", "R1", "H-TYPED", other);
        Assert.Equal(("H-TYPED", "H-TYPED"), Heats(other));

        void Sawn(string piece, string bar, string? heat = null, ShopJob? of = null)
        {
            var at = of ?? job;
            at.Add(new PieceCut(at.NextId, "Jo", at.Now, at.Drawing(), piece, heat) { From = new("rack.yaml", bar, 1000), Versions = at.Versions() });
        }

        (string?, string?) Heats(ShopJob? of = null) => (of ?? job).Papers().Heats.ToDictionary(u => u.Part, u => u.Heat) is var heats ? (heats["1-A"], heats["1-B"]) : default;
    }
}
