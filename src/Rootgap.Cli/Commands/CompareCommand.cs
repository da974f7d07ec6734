using System.CommandLine;
using System.Globalization;
using System.Text.Json;
using Rootgap.Comparing;
using Rootgap.Fabricating;
using Rootgap.Records;
using Rootgap.Routes;
using Rootgap.Sheets;
using Mark = Rootgap.Records.Mark;

namespace Rootgap.Cli.Commands;

/// <summary><c>rootgap compare</c>: what changed between two revisions of a drawing, and what becomes of the pieces that are cut already.</summary>
internal static class CompareCommand
{
    private const int MostCut = 100_000;
    private const int MostBad = 20;

    public static Command Create()
    {
        var old = new Argument<string>("OLD") { Description = "The drawing as it was." };
        var @new = new Argument<string>("NEW") { Description = "The drawing as it is now." };
        var cut = new Option<string?>("--cut") { Description = "Pieces that are cut already, one a line: 1-A, or 1-A, 1146.4 where it was measured (mm).", HelpName = "FILE" };
        var done = new Option<string?>("--done") { Description = "What was done on the old drawing: facts of the job as JSON, as the server gives them; what stays, what is to be looked at, what is spoiled.", HelpName = "FILE" };
        var picture = new Option<string?>("--picture") { Description = "Also draw the new isometric, with what is spoiled, to be trimmed, to be looked at, changed and new in colour and words: .svg, .pdf or .png.", HelpName = "FILE" };
        var json = JsonOption.Create();
        var command = new Command("compare", "Say what changed between two revisions of a drawing, and which pieces cut already are spoiled.\n\nExample: rootgap compare CHW-118-r1.yaml CHW-118-r2.yaml --cut pieces.txt") { old, @new, cut, done, picture, json };
        command.SetAction(result => Run(result.GetValue(old)!, result.GetValue(@new)!, result.GetValue(cut), result.GetValue(done), result.GetValue(picture), result.GetValue(json)));
        return command;
    }

    private static int Run(string oldFile, string newFile, string? cutFile, string? doneFile, string? pictureFile, bool asJson)
    {
        if (Read(oldFile) is not { } old || Read(newFile) is not { } @new)
            return ExitCode.Unreadable;
        List<CutPiece> pieces = [];
        if (cutFile is not null)
        {
            try
            {
                if (!ReadCut(cutFile, pieces))
                    return ExitCode.Unreadable;
            }
            catch (Exception e) when (e is IOException or UnauthorizedAccessException)
            {
                Console.Error.WriteLine($"{cutFile}: cannot be read: {e.Message}");
                return ExitCode.Unreadable;
            }
        }

        DrawingRecord? record = null;
        if (doneFile is not null)
        {
            if (FactsFile.Read(doneFile) is not { } facts)
                return ExitCode.Unreadable;
            record = Following.Between(JobRecord.Of(facts), old, @new);
        }

        var comparison = Comparison.Of(old, @new);
        var fates = CutAlready.Of(comparison, pieces);
        if (asJson)
            WriteJson(comparison, fates, record);
        else
            Print(comparison, fates, record);
        if (pictureFile is not null && Draw(pictureFile, @new, ChangedPart.Of(comparison, record, fates)) is { } trouble)
        {
            Console.Error.WriteLine($"{pictureFile}: {trouble}");
            return ExitCode.Unreadable;
        }

        return fates.Any(f => f.Fate is Fate.Spoiled or Fate.Unknown) || record?.Marked.Any(m => m.Mark != Mark.Stays) == true ? ExitCode.Warn : ExitCode.Done;
    }

    /// <returns>Why it was not drawn; null where it was.</returns>
    private static string? Draw(string file, Fabrication @new, IReadOnlyDictionary<string, ChangedPart> changed) =>
        IsometricScreen.Compared(@new, changed) is { } scene ? OutputFile.Draw(file, scene) : "there is nothing to draw.";

    /// <summary>Reads the list of pieces that are cut; a line that cannot be read is told, and then nothing is compared: a piece left out is a piece thought uncut.</summary>
    private static bool ReadCut(string file, List<CutPiece> pieces)
    {
        var seen = new Dictionary<string, int>(StringComparer.OrdinalIgnoreCase);
        var (number, bad) = (0, 0);
        foreach (var line in File.ReadLines(file))
        {
            number++;
            var piece = CutPiece.Parse(line, out var wrong);
            if (piece is { Piece: var mark } && !seen.TryAdd(mark, number))
                wrong = $"{mark} stands in line {seen[mark]} already. Leave one of the two lines.";
            if (piece is not null && pieces.Count >= MostCut)
                wrong = string.Create(CultureInfo.InvariantCulture, $"more than {MostCut} pieces are no list of one drawing.");
            if (wrong is not null)
            {
                Console.Error.WriteLine(string.Create(CultureInfo.InvariantCulture, $"{file}:{number}: {wrong}"));
                if (++bad == MostBad || pieces.Count >= MostCut)
                    break;
            }
            else if (piece is { } good)
            {
                pieces.Add(good);
            }
        }

        if (bad > 0)
            Console.Error.WriteLine($"{file}: nothing was compared. Mend the {(bad == 1 ? "line" : "lines")} above first.");
        return bad == 0;
    }

    private static Fabrication? Read(string file)
    {
        if (!File.Exists(file))
        {
            Console.Error.WriteLine($"{file}: there is no such file.");
            return null;
        }

        var (text, reading) = DrawingFiles.Read(file);
        if (reading.Drawing is { } drawing)
            return Spooling.Of(Routing.Of(drawing));
        var printer = FindingPrinter.ForConsole(Console.Error, Console.IsErrorRedirected);
        printer.Know(file, text);
        printer.Print(reading.Errors);
        return null;
    }

    private static void Print(Comparison c, IReadOnlyList<CutAlready> fates, DrawingRecord? done)
    {
        var to = Console.Out;
        if (c.Old.Number != c.New.Number)
            to.WriteLine($"These are two drawings, not two revisions of one: {c.Old.Number} and {c.New.Number}.");
        to.WriteLine($"{c.New.Number}: revision {Name(c.Old.Revision)} to revision {Name(c.New.Revision)}");
        if (c.IsSame)
            to.WriteLine("Nothing that the shop makes has changed.");
        Section("Ends", c.Ends.Select(Line));
        Section("Pieces", c.Pieces.Where(p => !p.IsSame).Select(Line));
        Section("Fittings and flanges", c.Components.Select(Line));
        Section("Joints", c.Joints.Select(Line));
        Section("Supports", c.Supports.Select(Line));
        Section("Material list", c.Items.Select(Line));
        Section("Spools", c.Spools.Where(s => s.IsTouched || s.Old != s.New).Select(Line));
        var untouched = c.Spools.Count(s => !s.IsTouched);
        if (untouched > 0)
            to.WriteLine(string.Create(CultureInfo.InvariantCulture, $"  {untouched} of {c.Spools.Count(s => s.New is not null)} spools are untouched: {string.Join(", ", c.Spools.Where(s => !s.IsTouched).Select(s => s.New))}"));
        Section("Pieces cut already", fates.Select(f => $"{f.Piece.Piece}: {Word(f.Fate)}: {f.Says}"));
        if (done is not null)
        {
            foreach (var (mark, title) in new[] { (Mark.Spoiled, "Done and spoiled"), (Mark.Gone, "Done, and the part is gone"), (Mark.LookAt, "Done, and to be looked at"), (Mark.Stays, "Done, and stays") })
                Section(title, done.Marked.Where(m => m.Mark == mark).Select(Line));
            Section("Done, and stays", done.Facts.Where(e => e.Counts).Select(e => $"{Deed(e.Fact)}, by {e.Fact.Who}{(DrawingRecord.NameOf(e.Fact) == DrawingRecord.NameOf(e.As) ? "" : ": now " + DrawingRecord.NameOf(e.As))}"));
            if (done.Marked.Count == 0 && done.Facts.Count == 0)
                to.WriteLine("The facts say nothing of this drawing in this revision.");
        }

        void Section(string title, IEnumerable<string> lines)
        {
            var any = false;
            foreach (var line in lines)
            {
                if (!any)
                    to.WriteLine(title);
                any = true;
                to.WriteLine("  " + line);
            }
        }
    }

    private static string Name(string revision) => revision.Length > 0 ? revision : "(none)";

    private static string Line(Difference d) => $"{d.Kind}: {d.Says}";

    private static string Line(PieceChange p)
    {
        if (p.Old is null)
            return string.Create(CultureInfo.InvariantCulture, $"new: {p.New!.Piece}, NPS {p.New.Pipe.Size}, {p.New.Length:0.0}");
        if (p.New is null)
            return string.Create(CultureInfo.InvariantCulture, $"gone: {p.Old.Piece}, NPS {p.Old.Pipe.Size}, {p.Old.Length:0.0}");
        var name = p.Old.Piece == p.New.Piece ? p.New.Piece : $"{p.Old.Piece}, now {p.New.Piece}";
        var length = Math.Abs(p.By) <= Comparison.SameLength ? "" : string.Create(CultureInfo.InvariantCulture, $" {p.Old.Length:0.0} is now {p.New.Length:0.0}: {Math.Abs(p.By):0.0} {(p.By > 0 ? "longer" : "shorter")}");
        return $"{name}:{length}{(length.Length > 0 && p.Differences.Count > 0 ? ";" : "")}{(p.Differences.Count > 0 ? " " + string.Join("; ", p.Differences) : "")}";
    }

    private static string Line(SpoolChange s) => s switch
    {
        { Old: null } => $"new: {s.New}",
        { New: null } => $"gone: {s.Old}",
        _ => $"{(s.Old == s.New ? s.New : $"{s.Old}, now {s.New}")}: {(s.Why.Count > 0 ? string.Join("; ", s.Why) : "untouched")}",
    };

    private static string Line(Marked m) => $"{Deed(m.Entry.Fact)}, by {m.Entry.Fact.Who}: {m.Says(w => w.ToString("yyyy-MM-dd HH:mm", CultureInfo.InvariantCulture))}";

    private static string Deed(DrawingFact fact) => fact switch
    {
        PieceCut c => $"{c.Piece} {(c.IsSpoiled ? "spoiled" : "cut")}{(c.Heat is { } heat ? $", heat {heat}" : "")}",
        HeatNoted h => $"{h.Component} heat {h.Heat}",
        JointStep s => $"{s.Joint} {s.Step.ToString().ToLowerInvariant()}",
        ReadingsTaken r => $"{r.Joint} read{(r.IsWelded ? " after welding" : "")}",
        SpoolRead r => $"spool {r.Spool} read",
        _ => fact.Kind,
    };

    private static string Word(Fate fate) => fate switch { Fate.Usable => "usable", Fate.UsableTrimmed => "usable when changed", Fate.Spoiled => "spoiled", _ => "unknown" };

    private static void WriteJson(Comparison c, IReadOnlyList<CutAlready> fates, DrawingRecord? done)
    {
        using var output = Console.OpenStandardOutput();
        using var json = new Utf8JsonWriter(output, JsonOption.Writing);
        json.WriteStartObject();
        json.WriteStartObject("old");
        json.WriteString("drawing", c.Old.Number);
        json.WriteString("revision", c.Old.Revision);
        json.WriteEndObject();
        json.WriteStartObject("new");
        json.WriteString("drawing", c.New.Number);
        json.WriteString("revision", c.New.Revision);
        json.WriteEndObject();
        json.WriteStartArray("pieces");
        foreach (var p in c.Pieces)
        {
            json.WriteStartObject();
            json.WriteString("change", p.IsSame ? "same" : p.Old is null ? "new" : p.New is null ? "gone" : "different");
            Piece("old", p.Old);
            Piece("new", p.New);
            if (p.Old is not null && p.New is not null)
                json.WriteNumber("by", Math.Round(p.By, 4));
            Strings("differences", p.Differences);
            json.WriteEndObject();
        }

        json.WriteEndArray();
        Differences("joints", c.Joints);
        Differences("components", c.Components);
        Differences("supports", c.Supports);
        Differences("items", c.Items);
        Differences("ends", c.Ends);
        json.WriteStartArray("spools");
        foreach (var s in c.Spools)
        {
            json.WriteStartObject();
            if (s.Old is not null)
                json.WriteString("old", s.Old);
            if (s.New is not null)
                json.WriteString("new", s.New);
            json.WriteBoolean("touched", s.IsTouched);
            Strings("why", s.Why);
            json.WriteEndObject();
        }

        json.WriteEndArray();
        json.WriteStartArray("cut");
        foreach (var f in fates)
        {
            json.WriteStartObject();
            json.WriteString("piece", f.Piece.Piece);
            json.WriteNumber("length", Math.Round(f.Length, 4));
            json.WriteString("fate", f.Fate switch { Fate.Usable => "usable", Fate.UsableTrimmed => "usable-trimmed", Fate.Spoiled => "spoiled", _ => "unknown" });
            if (f.UseAs is not null)
                json.WriteString("use as", f.UseAs);
            json.WriteNumber("trim by", Math.Round(f.TrimBy, 4));
            json.WriteString("says", f.Says);
            json.WriteEndObject();
        }

        json.WriteEndArray();
        if (done is not null)
        {
            json.WriteStartArray("done");
            foreach (var m in done.Marked)
                Deed(m.Entry.Fact, m.Mark switch { Mark.Stays => "stays", Mark.LookAt => "look at", Mark.Spoiled => "spoiled", _ => "gone" }, m.Was, m.Now, m.Why);
            foreach (var e in done.Facts.Where(e => e.Counts))
                Deed(e.Fact, "stays", DrawingRecord.NameOf(e.Fact), DrawingRecord.NameOf(e.As), []);
            json.WriteEndArray();
        }

        json.WriteEndObject();

        void Deed(DrawingFact fact, string mark, string was, string? now, IReadOnlyList<string> why)
        {
            json.WriteStartObject();
            json.WriteString("id", fact.Id);
            json.WriteString("fact", fact.Kind);
            json.WriteString("mark", mark);
            json.WriteString("was", was);
            if (now is not null)
                json.WriteString("now", now);
            Strings("why", why);
            json.WriteEndObject();
        }

        void Piece(string name, Cut? cut)
        {
            if (cut is null)
                return;
            json.WriteStartObject(name);
            json.WriteString("piece", cut.Piece);
            json.WriteNumber("length", Math.Round(cut.Length, 4));
            json.WriteEndObject();
        }

        void Strings(string name, IReadOnlyList<string> texts)
        {
            if (texts.Count == 0)
                return;
            json.WriteStartArray(name);
            foreach (var text in texts)
                json.WriteStringValue(text);
            json.WriteEndArray();
        }

        void Differences(string name, IReadOnlyList<Difference> differences)
        {
            json.WriteStartArray(name);
            foreach (var d in differences)
            {
                json.WriteStartObject();
                json.WriteString("change", d.Kind);
                json.WriteString("name", d.Name);
                json.WriteString("says", d.Says);
                json.WriteEndObject();
            }

            json.WriteEndArray();
        }
    }
}
