using Rootgap.Papers;
using Rootgap.Records;
using Rootgap.Sheets;
using Rootgap.Tests.Records;
using UglyToad.PdfPig;
using ShopJob = Rootgap.Tests.Records.ShopJob;

namespace Rootgap.Tests.Papers;

public class HandoverBookTest
{
    private static readonly string[] Index =
        ["As-built isometric", "Weld list", "Materials and certificates", "Fit-up and dimensions", "Examination", "Heat treatment", "Lifting", "Bolting", "Test", "Release", "Open points", "Pictures and papers"];

    private static HandoverBook Book(ShopJob job)
    {
        var papers = job.Papers();
        return HandoverBook.Of(papers, papers.Lines[0], new Rootgap.Sheets.ShopJob(papers.Lines[0].Fabrication, [], IsBuildable: true, Paper.A4));
    }

    [Fact]
    public void A_book_of_nothing_has_every_part_and_each_says_what_is_missing()
    {
        var book = Book(new ShopJob(PaperJob.Line(2)));
        Assert.Equal(Index, book.Parts.Select(p => p.Title));
        Assert.All(book.Parts, p => Assert.NotEmpty(p.Pages));
        Assert.False(book.IsComplete);

        using var to = new MemoryStream();
        book.Booklet().WritePdf(to);
        using var pdf = PdfDocument.Open(to.ToArray());
        Assert.True(pdf.TryGetBookmarks(out var bookmarks));
        var titles = bookmarks.GetNodes().Select(b => b.Title).ToList();
        Assert.Contains("Handover book", titles);
        Assert.Contains("Weld list", titles);
        var text = string.Concat(pdf.GetPages().Select(p => string.Join(' ', p.GetWords().Select(w => w.Text)) + "\n"));
        Assert.Contains("not welded (4): W1, W2, W3, W4", text, StringComparison.Ordinal);
        Assert.Contains("spool 1: not released", text, StringComparison.Ordinal);
    }

    [Fact]
    public void A_part_is_complete_when_it_is_filled_or_somebody_explained_it()
    {
        var job = new ShopJob(PaperJob.Line(1));
        foreach (var piece in new[] { "1-A", "1-B" })
            job.Cut(piece, "H1");
        job.Heat("C1", "H2");
        foreach (var heat in new[] { "H1", "H2" })
            job.Add(new CertificateNoted(job.NextId, "Stu", job.Now, heat, "C-" + heat));
        foreach (var joint in new[] { "W1", "W2" })
        {
            job.Add(new FitUpSeen(job.NextId, "Ines", job.Now, job.Drawing(), joint) { Versions = job.Versions() });
            job.Weld(joint, "K1");
            job.Examine(joint, accepted: true);
        }

        job.Add(new Tested(job.NextId, "Ines", job.Now, job.Drawing(), "TP-1", TestMedium.Water, 15, true) { Versions = job.Versions() });
        job.Add(new Released(job.NextId, "Ines", job.Now, job.Drawing(), "1") { Versions = job.Versions() });
        Assert.Equal(["As-built isometric", "Fit-up and dimensions"], Book(job).Parts.Where(p => !p.IsComplete).Select(p => p.Title));

        foreach (var part in new[] { "As-built isometric", "fit-up and dimensions" })
            job.Add(new NoteTaken(job.NextId, "Ines", job.Now, job.Drawing(), "") { Note = part + ": not asked for by the client", Versions = job.Versions() });
        Assert.True(Book(job).IsComplete);
        Assert.Equal(Packet(job), Book(job).Booklet().Pages.Length);

        static int Packet(ShopJob job) => Book(job).Parts.Sum(p => p.Pages.Count) + 1;
    }

    [Fact]
    public void Sheets_of_lifting_bolting_and_test_are_bound_in_and_a_joint_opened_for_the_test_is_made_up_again_after_it()
    {
        var job = new ShopJob(Checks.Desk.Drawing("{go: north, by: 4000, to: elbow}\n{go: east, by: 2000, to: elbow, end: field}\n{go: up, by: 1500, to: flange}", "test: {pack: TP-7, medium: water, pressure: 15 bar}", "size: 6, schedule: 40, class: 150, material: A106-B", "to: flange"));
        var text = Text("Lifting");
        Assert.Contains("L1", text, StringComparison.Ordinal);
        Assert.Contains("L2", text, StringComparison.Ordinal);
        Assert.DoesNotContain("missing", text, StringComparison.Ordinal);
        text = Text("Test");
        foreach (var said in new[] { "TP-7", "Punch list", "Put back after the test", "no test on record" })
            Assert.Contains(said, text, StringComparison.Ordinal);
        Assert.Contains("not bolted up on record", Text("Bolting"), StringComparison.Ordinal);

        var joints = job.Made().Route.Joints.Where(j => j.Kind == Rootgap.Routes.JointKind.Bolted).Select(j => j.Id).ToList();
        Assert.Equal(2, joints.Count);
        foreach (var joint in joints)
            BoltUp(joint, "GS-9");
        text = Text("Bolting");
        // What was entered stands on the sheet, in the column of its pass.
        foreach (var said in new[] { "GS-9", "TW-3", "70 N m", "1 – 5 – 3 – 7 – 2 – 6 – 4 – 8" })
            Assert.Contains(said, text, StringComparison.Ordinal);
        Assert.True(Part("Bolting").IsComplete);

        job.Add(new Tested(job.NextId, "Ines", job.Now, job.Drawing(), "TP-7", TestMedium.Water, 15, true) { Versions = job.Versions() });
        Assert.Equal(joints.Select(j => $"{j}: opened for the test, and not bolted up since with a new gasket"), Part("Bolting").Missing);
        foreach (var joint in joints)
            BoltUp(joint, "GS-10");
        Assert.True(Part("Bolting").IsComplete);
        // What was done before the test stays beside what was done after it; the sheets of the test have its record.
        text = Text("Bolting");
        Assert.Contains("GS-9", text, StringComparison.Ordinal);
        Assert.Contains("GS-10", text, StringComparison.Ordinal);
        text = Text("Test");
        Assert.Contains("passed, 15 bar", text, StringComparison.Ordinal);
        Assert.Contains("GS-10", text, StringComparison.Ordinal);

        HandoverPart Part(string title) => Book(job).Parts.Single(p => p.Title == title);

        void BoltUp(string joint, string gasket) => job.Add(new BoltedUp(job.NextId, "Bo", job.Now, job.Drawing(), joint) { Gasket = gasket, Tool = "TW-3", Passes = [new("30 %", "70 N m"), new("round", "240 N m")], Versions = job.Versions() });

        string Text(string title) => TextOf(Book(job), title);
    }

    // Every paper that goes with an entry has a sign, that stands beside the entry and in the list.
    [Fact]
    public void A_paper_that_goes_with_an_entry_is_found_by_its_sign()
    {
        var job = new ShopJob(PaperJob.Line(1));
        job.Cut("1-A", "H1");
        var mill = Attachment.Of("mill.pdf", "%PDF-1.4"u8);
        job.Add(new CertificateNoted(job.NextId, "Stu", job.Now, "H1", "C-1") { Attached = [mill] });
        job.Add(new NoteTaken(job.NextId, "Ines", job.Now, job.Drawing(), "W1") { Note = "arc strike", Attached = [Attachment.Of("arc.png", [0x89, 0x50, 0x4E, 0x47, 1]), mill], Versions = job.Versions() });
        var papers = job.Papers();
        var sheets = new Rootgap.Sheets.ShopJob(papers.Lines[0].Fabrication, [], IsBuildable: true, Paper.A4);
        var book = HandoverBook.Of(papers, papers.Lines[0], sheets, a => a.Name == "mill.pdf");
        Assert.Equal([("P1", "mill.pdf", 2), ("P2", "arc.png", 1)], book.Papers.Select(p => (p.Sign, p.Of.Name, p.With.Count)));
        Assert.Contains("C-1 [P1]", TextOf(book, "Materials and certificates"), StringComparison.Ordinal);
        Assert.Contains("arc strike [P1, P2]", TextOf(book, "Open points"), StringComparison.Ordinal);
        Assert.Contains("certificate C-1 of heat H1; W1 note", TextOf(book, "Pictures and papers"), StringComparison.Ordinal);
        Assert.StartsWith("P2 arc.png: not here yet", Assert.Single(book.Parts[^1].Missing), StringComparison.Ordinal);
    }

    // 25.4 mm are an inch: what was entered in millimetres is said in the units of the drawing.
    [Fact]
    public void A_line_in_inches_is_handed_over_in_inches_and_every_figure_has_its_unit()
    {
        var job = new ShopJob(Checks.Desk.Drawing("{go: north, by: 120, to: elbow}\n{go: east, by: 60, to: flange}", "test: {pack: TP-8}\nunits: in", "size: 6, schedule: 40, class: 150, material: A106-B", "to: flange").Replace("units: mm\n", "", StringComparison.Ordinal));
        job.Add(new FitUpSeen(job.NextId, "Ines", job.Now, job.Drawing(), "W1") { Gap = 3.175, HiLo = 0.762, Versions = job.Versions() });
        job.Add(new Tested(job.NextId, "Ines", job.Now, job.Drawing(), "TP-8", TestMedium.Water, 10, true) { Versions = job.Versions() });
        var book = Book(job);
        Assert.Contains("0.125\" 0.030\"", TextOf(book, "Fit-up and dimensions"), StringComparison.Ordinal);
        Assert.Contains("145 psi", TextOf(book, "Test"), StringComparison.Ordinal);
        Assert.Contains("NPS 6 × 0.280\"", TextOf(book, "Weld list"), StringComparison.Ordinal);
        Assert.Matches("1 [0-9]+ lb", TextOf(book, "Release"));
    }

    private static string TextOf(HandoverBook book, string title)
    {
        using var to = new MemoryStream();
        new Booklet(title, book.Parts.Single(p => p.Title == title).Pages).WritePdf(to);
        using var pdf = PdfDocument.Open(to.ToArray());
        return string.Concat(pdf.GetPages().Select(p => string.Join(' ', p.GetWords().Select(w => w.Text)) + "\n"));
    }
}
