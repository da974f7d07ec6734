using Rootgap.Papers;
using Rootgap.Records;

namespace Rootgap.Sheets;

/// <summary>A picture or a paper in the handover book of a line.</summary>
/// <param name="Sign">P1, P2 ...: by this the book names it.</param>
/// <param name="With">The entries that it goes with; at least one.</param>
public sealed record HandoverPaper(string Sign, Attachment Of, IReadOnlyList<Fact> With);

/// <content>Pictures and papers: each has a sign, by which the rest of the book names it.</content>
public sealed partial class HandoverBook
{
    private readonly ILookup<string, string> signs;
    private readonly Func<Attachment, bool>? isHere;

    /// <summary>Pictures and papers that go with the line's entries and the certificates of its heats, each once, in the order of the entries.</summary>
    public IReadOnlyList<HandoverPaper> Papers { get; }

    private static List<HandoverPaper> Signed(JobPapers papers, LineDone line) =>
        [.. DrawingRecord.Counting(line.Done.Facts).Cast<Fact>().Concat(papers.Heats.Where(h => h.Line == line).SelectMany(h => h.Certificates).Distinct()).OrderBy(f => f, Fact.Order)
            .SelectMany(f => f.Attached.Select(a => (Fact: f, Of: a))).GroupBy(x => x.Of.Sha256, StringComparer.Ordinal)
            .Select((g, i) => new HandoverPaper(Text($"P{i + 1}"), g.First().Of, [.. g.Select(x => x.Fact)]))];

    private HandoverPart Attached()
    {
        var flow = Listed("Pictures and papers");
        flow.Table(new Table(["Sign", "Name", new("Goes with", ColumnWidth.Share()), "By", "Date", new("Size", Anchor.End), "SHA-256 begins"],
            Papers.Select(p => new Row(new Cell(p.Sign) { Bold = true }, p.Of.Name, string.Join("; ", p.With.Select(Of)), p.With[0].Who, Day(p.With[0].Time), Text($"{p.Of.Bytes / 1024.0:0.#} kB"), p.Of.Sha256[..12])))
        { Style = TextStyle.Small, WhenEmpty = "no picture and no paper goes with the line's entries" });
        if (Papers.Count > 0)
            flow.Paragraph($"A sign in brackets in this book, such as [{Papers[0].Sign}], is of this list. The files lie beside the book, named by the drawing and the sign; their digests say that they are the ones that were attached.", TextStyle.Small);
        return Part("Pictures and papers", isHere is null ? [] : [.. Papers.Where(p => !isHere(p.Of)).Select(p => $"{p.Sign} {p.Of.Name}: not here yet; the device that has it sends it when it is on the network")], flow);

        static string Of(Fact fact) => fact switch
        {
            CertificateNoted c => $"certificate {c.Number} of heat {c.Heat}",
            JointStep s => $"{s.Weld.Of(s.Joint)} {PaperWords.Of(s.Step)}",
            DrawingFact f => $"{DrawingRecord.NameOf(f)} {f.Kind.Replace('-', ' ')}".Trim(),
            _ => fact.Kind,
        };
    }

    /// <summary>The signs of what is attached to an entry, in brackets; empty where nothing is.</summary>
    private string Signs(Fact fact) => signs[fact.Id].ToList() is { Count: > 0 } has ? $" [{string.Join(", ", has)}]" : "";
}
