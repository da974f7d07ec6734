using Rootgap.Papers;
using Rootgap.Records;
using Rootgap.Sheets;
using Rootgap.Tests.Records;
using ShopJob = Rootgap.Tests.Records.ShopJob;

namespace Rootgap.Tests.Papers;

/// <summary>Handover books as they are drawn: of a line of which nothing is on record, of one half done with rejects and repairs, and of one in inches with bolting and a test.</summary>
public class AcceptedBookTest
{
    [Fact]
    public void The_handover_books_are_the_accepted_ones() => Accepted.Same("accepted-books.txt", new[] { ("nothing done", new ShopJob(PaperJob.Line(2))), ("half done", HalfDone()), ("bolted and tested", BoltedAndTested()) }.Select(b =>
    {
        var papers = b.Item2.Papers();
        var book = HandoverBook.Of(papers, papers.Lines[0], new Rootgap.Sheets.ShopJob(papers.Lines[0].Fabrication, [], IsBuildable: true, Paper.A4), a => a.Name == "mill.pdf");
        return (b.Item1, string.Concat(book.Booklet().Scenes().Select(s => SvgWriter.Write(s))) + string.Join('\n', book.Parts.SelectMany(p => p.Missing.Prepend(p.Title))));
    }));

    private static ShopJob HalfDone()
    {
        var job = new ShopJob(PaperJob.Line(4, field: 2, service: "fluid: water, design pressure: 16 bar, test pressure: 24 bar, code: B31.3"));
        var mill = Attachment.Of("mill.pdf", "%PDF-1.4"u8);
        foreach (var (cut, i) in job.Made().Cuts.Select((c, i) => (c, i)))
            job.Cut(cut.Piece, i == 2 ? null : "H" + (1 + (i % 2)));
        job.Heat("C1", "H3");
        job.Add(new CertificateNoted(job.NextId, "Stu", job.Now, "H1", "C-1") { Attached = [mill] });
        foreach (var (joint, i) in new[] { "W1", "W2", "W3", "W4", "W5" }.Select((j, i) => (j, i)))
        {
            if (i != 1)
                job.Add(new FitUpSeen(job.NextId, "Ines", job.Now, job.Drawing(), joint) { Gap = 3 + (i * 0.1), HiLo = 0.4 * i, Versions = job.Versions() });
            job.Weld(joint, i % 2 == 0 ? "K1" : "K2");
            job.Examine(joint, accepted: i != 3, rejected: i == 3 ? 12 : null);
        }

        job.Repair("W4");
        job.Examine("W4", accepted: true);
        job.Add(new NoteTaken(job.NextId, "Ines", job.Now, job.Drawing(), "W1") { Note = "arc strike", Attached = [Attachment.Of("arc.png", [0x89, 0x50, 0x4E, 0x47, 1]), mill], Versions = job.Versions() });
        job.Add(new NoteTaken(job.NextId, "Ines", job.Now, job.Drawing(), "") { Note = "lifting: by the rigger's own plan", Versions = job.Versions() });
        job.Add(new Released(job.NextId, "Ines", job.Now, job.Drawing(), "1") { Versions = job.Versions() });
        return job;
    }

    private static ShopJob BoltedAndTested()
    {
        var job = new ShopJob(Checks.Desk.Drawing("{go: north, by: 120, to: elbow}\n{go: east, by: 60, to: elbow, end: field}\n{go: up, by: 50, to: flange}", "test: {pack: TP-8, medium: water, pressure: 220 psi}\nunits: in", "size: 6, schedule: 40, class: 150, material: A106-B", "to: flange").Replace("units: mm\n", "", StringComparison.Ordinal));
        foreach (var joint in job.Made().Route.Joints.Where(j => j.Kind == Rootgap.Routes.JointKind.Bolted).Select(j => j.Id).ToList())
            job.Add(new BoltedUp(job.NextId, "Bo", job.Now, job.Drawing(), joint) { Gasket = "GS-9", Tool = "TW-3", Passes = [new("30 %", "70 N m"), new("round", "240 N m")], Versions = job.Versions() });
        job.Add(new Tested(job.NextId, "Ines", job.Now, job.Drawing(), "TP-8", TestMedium.Water, 15, true) { Versions = job.Versions() });
        return job;
    }
}
