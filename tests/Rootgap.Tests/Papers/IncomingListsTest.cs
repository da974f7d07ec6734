using System.Text;
using Rootgap.Papers;
using Rootgap.Records;
using Rootgap.Tests.Records;

namespace Rootgap.Tests.Papers;

public class IncomingListsTest
{
    private static (string, string, DateTimeOffset) Make() => (FactGens.Id(1), "Stu", FactGens.Noon);

    [Fact]
    public void Certificates_come_from_a_list_and_go_out_as_they_came()
    {
        var (facts, wrong) = IncomingLists.Certificates("c.csv", "Heat;Certificate;Size;Material\nH1;C-1;6;A106-B\n;;;\nH2;C-2;DN100;"u8.ToArray(), Make);
        Assert.Empty(wrong);
        Assert.Equal([("H1", "C-1", "6", "A106-B"), ("H2", "C-2", "DN100", null)], facts.Select(f => (f.Heat, f.Number, f.Size!, f.Material)));
    }

    [Theory]
    [InlineData("heat,certificate,colour\nH1,C1,red", "row 2, column 3: \"colour\"")]
    [InlineData("heat,certificate\nH1,", "row 2: certificate is missing")]
    [InlineData("heat,certificate,size\nH1,C1,big", "row 2: size: \"big\"")]
    [InlineData("heat,certificate", "no rows")]
    public void What_is_wrong_with_a_list_is_told_with_its_row(string csv, string told) =>
        Assert.Contains(told, Assert.Single(IncomingLists.Certificates("c.csv", Encoding.UTF8.GetBytes(csv), Make).Wrong), StringComparison.Ordinal);

    [Fact]
    public void A_list_that_was_written_out_is_read_by_a_general_library()
    {
        var job = new ShopJob(PaperJob.Line(2));
        job.Cut("1-A", "H1");
        job.Weld("W1", "K1");
        using var to = new MemoryStream();
        PaperTables.Xlsx(to, PaperTables.Of(job.Papers()));
        to.Position = 0;
        var rows = MiniExcelLibs.MiniExcel.Query(to, useHeaderRow: true, sheetName: "weld-list").Cast<IDictionary<string, object>>().ToList();
        Assert.Equal(["W1", "W2", "W3", "W4"], rows.Select(r => r["weld"]));
        Assert.Equal("K1", rows[0]["root"]);
        Assert.Equal("H1", rows[0]["heat 1"]);
    }

    // What goes out as a list comes in again as the same list; who may weld what on a day is read off it by hand.
    [Fact]
    public void The_welders_list_goes_out_as_it_is_read_and_says_who_may_weld_what()
    {
        var job = new ShopJob(PaperJob.Line(1));
        foreach (var fact in IncomingLists.Welders("w.csv", "stamp,name,procedures,until\nK1,Kim,WPS-4 WPS-5,2027-03-31\nK3,Kai,,2026-01-31\nK4,,WPS-4,"u8.ToArray(), () => (job.NextId, "Ines", job.Now)).Facts)
            job.Add(fact);
        var list = job.Papers().Welders;
        Assert.Equal("K1 K3 K4", Who("WPS-4", new(2026, 1, 31)));
        Assert.Equal("K1 K4", Who("wps-4", new(2026, 2, 1)));
        Assert.Equal("K1", Who("WPS-5", new(2027, 3, 31)));
        Assert.Equal("K1 K4", Who(null, new(2026, 6, 1)));

        using var to = new MemoryStream();
        PaperTables.Xlsx(to, [PaperTables.Listed(list)]);
        var (again, wrong) = IncomingLists.Welders("list.xlsx", to.ToArray(), Make);
        Assert.Empty(wrong);
        Assert.Equal(list.Welders.Select(w => (w.Stamp, w.Name, string.Join(' ', w.Procedures), w.Until)), again.Select(w => (w.Stamp, w.Name, string.Join(' ', w.Procedures), w.Until)));

        string Who(string? procedure, DateOnly day) => string.Join(' ', list.Who(procedure, day).Select(w => w.Stamp));
    }

    [Theory]
    [InlineData("K1", "WPS-4", null)]
    [InlineData("k1", "wps-4", null)]
    [InlineData("K1", "WPS-9", "on the list for WPS-4")]
    [InlineData("K2", "WPS-4", "on no welders' list")]
    [InlineData("K3", "WPS-4", "qualified until 2026-01-31")]
    public void A_weld_by_whoever_is_not_on_the_list_is_told(string stamp, string procedure, string? told)
    {
        var job = new ShopJob(PaperJob.Line(1));
        foreach (var fact in IncomingLists.Welders("w.csv", "stamp,name,procedures,until\nK1,Kim,WPS-4 WPS-5,2027-03-31\nK3,Kai,,2026-01-31"u8.ToArray(), () => (job.NextId, "Ines", job.Now)).Facts)
            job.Add(fact);
        job.Add(new JointStep(job.NextId, "Jo", job.Now, job.Drawing(), "W1", Step.Welded) { Welder = stamp, Procedure = procedure, Versions = job.Versions() });
        var findings = job.Papers().Findings;
        if (told is null)
            Assert.Empty(findings);
        else
            Assert.Contains(told, Assert.Single(findings).Message, StringComparison.Ordinal);
    }
}
