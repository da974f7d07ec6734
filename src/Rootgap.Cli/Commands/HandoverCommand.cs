using System.CommandLine;
using System.Globalization;
using Rootgap.Papers;
using Rootgap.Records;
using Rootgap.Sheets;

namespace Rootgap.Cli.Commands;

/// <summary><c>rootgap handover</c>: the book of a line as one PDF with bookmarks, and its lists as CSV, XLSX and JSON.</summary>
internal static class HandoverCommand
{
    private const int Told = 5;

    public static Command Create()
    {
        var folder = new Argument<string>("FOLDER") { Description = "The job's folder." };
        var drawings = new Option<string[]>("--drawing") { Description = "The line's drawing; may be given several times. Default: all of the job's.", HelpName = "NUMBER" };
        var into = OutOption.Folder("Where the book is written: handover.pdf, each list as CSV, all of them as handover.xlsx and handover.json, and the pictures and papers of the entries under their signs.");
        var paper = PaperOption.Create();
        var store = new Option<string?>("--store") { Description = "The records lie in PostgreSQL: \"Host=server;Database=shop;Username=shop\". Default: in the folder." };
        var command = new Command("handover", "The handover book, in this order: " + Parts() + ". What is missing has a page that says so; exit code 1 says that something is.\n\nExample: rootgap handover samples/hatchery --drawing CHW-201 --out handover")
        {
            folder, drawings, into, paper, store,
        };
        command.SetAction(r => Run(r.GetValue(folder)!, r.GetValue(drawings) ?? [], r.GetRequiredValue(into), PaperOption.Of(r.GetValue(paper)!), r.GetValue(store)));
        return command;
    }

    private static string Ending(byte[] content) => Attachment.TypeOf(content) switch { "image/png" => ".png", "image/jpeg" => ".jpg", "image/webp" => ".webp", _ => ".pdf" };

    private static string Parts() => string.Join(", ", HandoverBook.Titles.Select(t => char.ToLowerInvariant(t[0]) + t[1..]).Prepend("index"));

    private static int Run(string folder, string[] drawings, string into, Paper paper, string? store)
    {
        // The lots of a job may go over drawings that are not handed over yet.
        if (JobLines.Of(folder, store, []) is not { } all)
            return ExitCode.Unreadable;
        var lines = all.Lines.Where(l => drawings.Length == 0 || drawings.Contains(l.Line.Number, StringComparer.OrdinalIgnoreCase)).ToList();
        foreach (var number in drawings.Where(n => !lines.Exists(l => l.Line.Number.Equals(n, StringComparison.OrdinalIgnoreCase))))
        {
            Console.Error.WriteLine($"{folder}: there is no drawing {number}. There are: {string.Join(", ", all.Lines.Select(l => l.Line.Number))}.");
            return ExitCode.Unreadable;
        }

        var contents = JobLines.Contents(folder, store, all.Record.Facts.Where(e => e.Counts).SelectMany(e => e.Fact.Attached).Select(a => a.Sha256)).GetAwaiter().GetResult();
        var isComplete = true;
        using var files = new OutputFolder(into);
        using (var to = files.Create("handover.pdf"))
        using (var pdf = new PdfWriter(to, lines.Count == 1 ? $"{lines[0].Line.Number} handover" : "Handover"))
        {
            foreach (var line in lines)
            {
                var book = HandoverBook.Of(all.Papers, line.Line, line.Packet.ToJob(paper), a => contents.ContainsKey(a.Sha256));
                foreach (var one in book.Papers.Where(p => contents.ContainsKey(p.Of.Sha256)))
                    files.Write($"{string.Concat(line.Line.Number.Select(c => char.IsAsciiLetterOrDigit(c) || c is '-' or '_' or '.' ? c : '-'))}-{one.Sign}{Ending(contents[one.Of.Sha256])}", contents[one.Of.Sha256]);
                var booklet = book.Booklet();
                foreach (var scene in lines.Count == 1 ? booklet.Scenes() : booklet.Section())
                    pdf.Add(scene);
                isComplete &= book.IsComplete;
                Console.WriteLine($"{line.Line.Number}: {(book.IsComplete ? "complete" : "not complete")}");
                foreach (var part in book.Parts.Where(p => !p.IsComplete))
                    Console.WriteLine($"  {part.Title}: {string.Join("; ", part.Missing.Take(Told))}{(part.Missing.Count > Told ? string.Create(CultureInfo.InvariantCulture, $"; and {part.Missing.Count - Told} more") : "")}");
            }
        }

        WorkCommands.Write(files, PaperTables.Of(new JobPapers(all.Record, [.. lines.Select(l => l.Line)])), "handover");
        files.Commit();
        Console.WriteLine($"The book is {files.PathOf("handover.pdf")}; its lists are beside it.");
        return isComplete ? ExitCode.Done : ExitCode.Warn;
    }
}
