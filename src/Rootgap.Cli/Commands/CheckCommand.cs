using System.CommandLine;
using System.Globalization;
using System.Text.Json;
using Rootgap.Drawings;
using Rootgap.Findings;
using Rootgap.Packets;

namespace Rootgap.Cli.Commands;

/// <summary><c>rootgap check</c>: what is wrong with drawings, before any steel is cut.</summary>
internal static class CheckCommand
{
    public static Command Create()
    {
        var drawings = DrawingArgument.Create();
        var json = JsonOption.Create();
        var sarif = OutOption.Named(new Option<string?>("--sarif") { Description = "Also write the findings to a file as SARIF 2.1.0.", HelpName = "FILE" });
        var fix = new Option<string?>("--fix") { Description = "Write the mechanical remedies into the drawing and its shop file, each with a copy of the old file beside it (NAME.old), and check again. `--fix list`: into the material list too; of a CSV or XLSX list a changed copy is written.", HelpName = "list", Arity = ArgumentArity.ZeroOrOne };
        fix.AcceptOnlyFromAmong("drawing", "list");
        var command = new Command("check", "Check drawings before any steel is cut: what is wrong, where, and what to do.\n\nExample: rootgap check samples/hatchery") { drawings, json, sarif, fix };
        command.SetAction(result => Run(result.GetValue(drawings)!, result.GetValue(json), result.GetValue(sarif), result.GetValue(fix) switch { "list" => MendingReach.List, "drawing" => MendingReach.Drawing, _ => MendingReach.None }));
        return command;
    }

    /// <summary>The arguments with `--fix` alone written out: what follows it is a drawing, unless it is the word `list`.</summary>
    public static string[] WrittenOut(string[] arguments) =>
        [.. arguments.Select((a, i) => a == "--fix" && arguments.ElementAtOrDefault(i + 1) != "list" && arguments is ["check", ..] ? "--fix=drawing" : a)];

    private const int MostPasses = 5;

    /// <summary>One drawing, checked.</summary>
    private sealed record Checked(DrawingFile Which, OpenedDrawing Drawing)
    {
        public string File => Which.Name;

        public Packet? Packet => Drawing.Packet;

        public IReadOnlyList<Finding> Findings => Drawing.Findings;

        /// <summary>What was written to mend it, and what could not be.</summary>
        public List<FileMending.Written> Written { get; init; } = [];

        public List<FileMending.Offered> Offered { get; init; } = [];

        /// <summary>Remedies that are left to a person, with the reason.</summary>
        public List<(Change Change, string Why)> Left { get; init; } = [];

        public string Refused { get; init; } = "";

        /// <summary>A remedy that took a doubt away leaves a warning: whoever reads on looks at what was written. A slip of the pen is no doubt.</summary>
        public bool WantsALook { get; init; }
    }

    private static int Run(string[] names, bool asJson, string? sarifFile, MendingReach fix)
    {
        var files = DrawingFiles.Find(names, out var missing);
        if (DrawingArgument.Refuse(files, missing))
            return ExitCode.Unreadable;
        var exit = ExitCode.Done;
        if (sarifFile is null)
            Work(Stream.Null);
        else
            OutputFile.Write(sarifFile, Work);
        return exit;

        void Work(Stream sarifOutput)
        {
            using var sarif = new Utf8JsonWriter(sarifOutput, JsonOption.Writing with { Indented = true });
            SarifLog.Begin(sarif, ThisProgram.Version);
            // Files are mended one after the other: several drawings may share a shop or material file.
            exit = Print(fix == MendingReach.None ? DrawingRun.Each(files, Check) : files.Select(f => Mended(f, fix)), asJson, sarif);
            SarifLog.End(sarif);
        }
    }

    private static Checked Check(DrawingFile file) => new(file, DrawingFiles.Open(file));

    private static Checked Mended(DrawingFile file, MendingReach reach)
    {
        var before = Check(file);
        List<FileMending.Written> written = [];
        try
        {
            // One remedy may call for the next: more extra wants more pipe.
            var (now, wantsALook) = (before, false);
            for (var pass = 0; pass < MostPasses; pass++)
            {
                var more = FileMending.Mend(file, now.Findings, reach, written);
                if (more.Count == 0)
                    break;
                var made = more.SelectMany(w => w.Made).ToHashSet(ReferenceEqualityComparer.Instance);
                wantsALook |= now.Findings.Any(f => f is { Change: not null, Severity: >= Severity.Warn } && made.Contains(f.Change) && !FileMending.IsOfReading(f));
                written.AddRange(more);
                now = Check(file);
            }

            if (Obstacles(now) > Obstacles(before))
            {
                FileMending.TakeBack(written);
                return before with { Refused = "the remedies would have made it worse and were taken back" };
            }

            return now with
            {
                Written = written,
                WantsALook = wantsALook,
                Offered = reach == MendingReach.List ? FileMending.OfferSheets(file, now.Findings) : [],
                Left = [.. FileMending.Left(now.Findings, reach)],
            };
        }
        catch (Exception e) when (e is IOException or UnauthorizedAccessException or InvalidDataException)
        {
            FileMending.TakeBack(written);
            return before with { Refused = $"cannot be mended, and is as it was: {e.Message}" };
        }
    }

    /// <summary>How much keeps the file from being read, or from being built.</summary>
    private static int Obstacles(Checked one) =>
        (one.Packet is null ? 1_000_000 : 0) + one.Findings.Count(f => f is { AcceptedBecause: null, Severity: Severity.Stop });

    private static int Print(IEnumerable<Checked> all, bool asJson, Utf8JsonWriter sarif)
    {
        var exit = ExitCode.Done;
        using var output = asJson ? Console.OpenStandardOutput() : Stream.Null;
        using var json = new Utf8JsonWriter(output, JsonOption.Writing);
        json.WriteStartObject();
        json.WriteStartArray("drawings");
        var printer = FindingPrinter.ForConsole(Console.Out, Console.IsOutputRedirected);
        var count = 0;
        var everything = new List<Severity?>();
        foreach (var one in all)
        {
            count++;
            exit = Math.Max(exit, one.WantsALook ? Math.Max(ExitCode.Warn, one.Drawing.Exit) : one.Drawing.Exit);
            everything.AddRange(one.Findings.Select(f => f.AcceptedBecause is null ? f.Severity : (Severity?)null));
            SarifLog.Write(sarif, one.File, one.Findings);
            if (sarif.BytesPending > 1 << 20)
                sarif.Flush();
            if (asJson)
            {
                Write(json, one);
                continue;
            }

            foreach (var written in one.Written)
            {
                foreach (var change in written.Made)
                    Console.Out.WriteLine(string.Create(CultureInfo.InvariantCulture, $"{written.File}:{change.At.Line}: changed: {change.Says}."));
            }

            foreach (var written in one.Written.DistinctBy(w => w.File, StringComparer.Ordinal))
                Console.Out.WriteLine($"{written.File}: the file as it was is {written.Copy}.");

            foreach (var offered in one.Offered)
            {
                Console.Out.WriteLine($"{offered.File}: a changed copy is {offered.Copy}: {string.Join("; ", offered.Made.Select(m => m.Says))}. Look at it, and put it in the list's place yourself.");
            }

            foreach (var (change, why) in one.Left)
                Console.Out.WriteLine(string.Create(CultureInfo.InvariantCulture, $"{change.At.File}:{change.At.Line}: left as it is, since {why}: {change.Says}."));

            if (one.WantsALook)
                Console.Out.WriteLine($"{one.File}: a warning or a stop was mended: look at what is written now.");
            if (one.Refused.Length > 0)
                Console.Out.WriteLine($"{one.File}: {one.Refused}.");
            printer.Know(one.File, one.Drawing.Text);
            KnowBeside(printer, one);
            printer.Print(one.Findings, one.Packet?.Drawing);
            Console.Out.WriteLine(string.Create(CultureInfo.InvariantCulture,
                $"{one.File}: {(one.Packet is null ? one.Drawing.WhyNot : FindingPrinter.Summary(one.Findings) + (one.Packet.IsBuildable ? "" : "; can't be built as drawn"))}"));
        }

        if (!asJson && count > 1)
            Console.Out.WriteLine(string.Create(CultureInfo.InvariantCulture, $"{count} drawings: {FindingPrinter.Summary(everything)}"));
        json.WriteEndArray();
        json.WriteEndObject();
        return exit;
    }

    private static void Write(Utf8JsonWriter json, Checked one)
    {
        json.WriteStartObject();
        json.WriteString("file", one.File);
        if (one.Packet is not null)
            json.WriteString("drawing", one.Packet.Drawing.Number);
        json.WriteBoolean("readable", one.Packet is not null || one.Drawing.IsFault);
        json.WriteStartArray("findings");
        foreach (var finding in one.Findings)
            PacketJson.Write(json, finding);
        json.WriteEndArray();
        if (one.Written.Count > 0)
        {
            json.WriteStartArray("changed");
            foreach (var written in one.Written)
            {
                foreach (var change in written.Made)
                {
                    json.WriteStartObject();
                    json.WriteString("file", written.File);
                    json.WriteNumber("line", change.At.Line);
                    json.WriteString("says", change.Says);
                    json.WriteString("old", written.Copy);
                    json.WriteEndObject();
                }
            }

            json.WriteEndArray();
        }

        Strings("offered", one.Offered.Select(o => o.Copy));
        Strings("left", one.Left.Select(l => $"{l.Change.Says}: {l.Why}"));
        if (one.Refused.Length > 0)
            json.WriteString("refused", one.Refused);
        json.WriteEndObject();

        void Strings(string name, IEnumerable<string> texts)
        {
            if (!texts.Any())
                return;
            json.WriteStartArray(name);
            foreach (var text in texts)
                json.WriteStringValue(text);
            json.WriteEndArray();
        }
    }

    /// <summary>Lines of shop and material files beside the drawing, where a finding stands in one.</summary>
    private static void KnowBeside(FindingPrinter printer, Checked one)
    {
        foreach (var name in one.Findings.Select(f => f.Where.File).Where(f => !string.IsNullOrEmpty(f) && f != one.File && f.EndsWith("ml", StringComparison.OrdinalIgnoreCase)).Distinct(StringComparer.Ordinal))
        {
            if (DrawingFiles.TextBeside(one.Which, name) is { } text)
                printer.Know(name, text);
        }
    }
}
