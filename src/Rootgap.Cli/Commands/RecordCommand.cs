using System.Buffers;
using System.CommandLine;
using System.Globalization;
using System.Text.Json;
using Rootgap.Papers;
using Rootgap.Records;
using Rootgap.Store;

namespace Rootgap.Cli.Commands;

/// <summary><c>rootgap record</c>: adds a fact to a job's records, for a script or a scanner; or many from a file.</summary>
internal static class RecordCommand
{
    private const int Batch = 500;
    private const long LargestAttached = 64 << 20;

    public static Command Create()
    {
        var folder = new Argument<string>("FOLDER") { Description = "The job's folder." };
        var what = new Argument<string?>("WHAT") { Description = $"What was done: {string.Join(", ", RecordForm.All.Select(f => f.Word))}.", Arity = ArgumentArity.ZeroOrOne };
        var name = new Argument<string?>("NAME") { Description = "The joint, piece, component, spool, test pack or heat; \"W7 R1\" for a weld after a repair (left out, the weld that stands there now is meant).", Arity = ArgumentArity.ZeroOrOne };
        var keys = new Argument<string[]>("KEY=VALUE") { Description = "What else is known; `rootgap record FOLDER WHAT` without a name lists the keys.", Arity = ArgumentArity.ZeroOrMore };
        var drawing = new Option<string?>("--drawing") { Description = "The drawing's number. Not needed where the job has one drawing." };
        var who = new Option<string?>("--who") { Description = "Who did it." };
        var when = new Option<string?>("--when") { Description = "When, with its offset: 2026-11-25T15:00:00Z. Default: now." };
        var despite = new Option<string?>("--despite") { Description = "Something that the shop asks for before it is missing, and it is done all the same: the reason. Needs --by." };
        var by = new Option<string?>("--by") { Description = "Who takes it on." };
        var attach = new Option<string[]>("--attach") { Description = "A picture (JPEG, PNG, WebP) or PDF that goes with it, at most 2 MB; may be given several times. The same content is kept once.", HelpName = "FILE" };
        var facts = new Option<string?>("--facts") { Description = "Facts as JSON, as devices and the server write them, one a line or in a list. A fact that is kept already is not kept again.", HelpName = "FILE" };
        var store = new Option<string?>("--store") { Description = "The records lie in PostgreSQL: \"Host=server;Database=shop;Username=shop\". Default: in the folder." };
        var command = new Command("record", "Add a fact to a job's records: a weld made, examined, repaired, a heat, a certificate, a test, a release.\n\nExample: rootgap record samples/hatchery welded W7 root=K12 fill=K7 cap=K7 procedure=WPS-4 --drawing CHW-201 --who Jo")
        {
            folder, what, name, keys, drawing, who, when, despite, by, attach, facts, Signing.KeyOption, Signing.CodeOption, store,
        };
        command.SetAction(r => r.GetValue(facts) is { } file
            ? Many(r.GetValue(folder)!, r.GetValue(store), file, Signing.Of(r))
            : One(r.GetValue(folder)!, r.GetValue(store), r.GetValue(what), r.GetValue(name), r.GetValue(keys) ?? [], new(r.GetValue(drawing), r.GetValue(who), r.GetValue(when), r.GetValue(despite), r.GetValue(by), r.GetValue(attach) ?? [], Signing.Of(r))));
        return command;
    }

    private sealed record Said(string? Drawing, string? Who, string? When, string? Despite, string? By, string[] Attach, Signing Signing);

    private static int One(string folder, string? store, string? word, string? name, string[] keys, Said said)
    {
        if (word is null)
            return Usage($"Say what was done: {string.Join(", ", RecordForm.All.Select(f => f.Word))}.");
        if (RecordForm.Find(word) is not { } form)
            return Usage($"\"{word}\" is none of {string.Join(", ", RecordForm.All.Select(f => f.Word))}.");
        if (name is null)
            return Usage($"{form.Word} what? For example: rootgap record {folder} {form.Word} {form.Example}. Its keys are: {string.Join(", ", form.Keys.Select(k => k.Key))}.");
        if (string.IsNullOrWhiteSpace(said.Who))
            return Usage("Say --who did it.");
        if (said.Despite is not null != said.By is not null)
            return Usage("--despite and --by go together: a deviation has a reason and a name.");
        List<(Attachment Of, byte[] Content)> attached = [];
        foreach (var file in said.Attach)
        {
            byte[] content;
            try
            {
                content = InputFile.Bytes(file, LargestAttached);
            }
            catch (Exception e) when (e is IOException or UnauthorizedAccessException)
            {
                Console.Error.WriteLine($"{file}: cannot be read: {e.Message}");
                return ExitCode.Unreadable;
            }

            if (Attachment.WhyNot(content) is { } no)
            {
                Console.Error.WriteLine($"{file}: {no}");
                return ExitCode.Unreadable;
            }

            if (Attachment.Of(Path.GetFileName(file), content) is var one && !attached.Exists(a => a.Of.Sha256 == one.Sha256))
                attached.Add((one, content));
        }

        if (attached.Count > Attachment.MostOfOne)
            return Usage(string.Create(CultureInfo.InvariantCulture, $"At most {Attachment.MostOfOne} files go with one entry."));
        if (JobLines.Of(folder, store, []) is not { } job)
            return ExitCode.Unreadable;
        if (!TryLine(job, form, said.Drawing, out var line))
            return ExitCode.Usage;
        var id = Guid.NewGuid().ToString("D");
        if (Fact(form, id, name, keys, said, line, []) is not { } fact)
            return ExitCode.Usage;
        var missing = line is null ? [] : job.Papers.NotBefore(fact, line.Line);
        if (missing.Count > 0 && said.Despite is null)
        {
            Console.Error.WriteLine($"Not kept: before {name} is {form.Word}, this is missing:");
            foreach (var one in missing)
                Console.Error.WriteLine($"  {one}");
            Console.Error.WriteLine("  do: have it done and put on record first; or say --despite REASON --by NAME, and it is kept as a deviation that names all this.");
            return ExitCode.Stop;
        }

        if (missing.Count > 0)
            fact = Fact(form, id, name, keys, said, line, missing)!;
        fact = fact with { Attached = [.. attached.Select(a => a.Of)] };
        try
        {
            JobLines.Keep(folder, store, [fact], said.Signing, [.. attached.Select(a => a.Content)]).GetAwaiter().GetResult();
        }
        catch (NotSignedException e)
        {
            Console.Error.WriteLine($"Not kept: {e.Message}");
            return ExitCode.Stop;
        }
        catch (StoreException e)
        {
            Console.Error.WriteLine(e.Message);
            return ExitCode.Unreadable;
        }

        Console.WriteLine($"Kept as {fact.Id}: {(line is null ? "" : line.Line.Number + " ")}{form.Word} {name}{(missing.Count > 0 ? $", a deviation that {said.By} takes on" : "")}.");
        return ExitCode.Done;
    }

    private static bool TryLine(JobLines job, RecordForm form, string? number, out JobLine? line)
    {
        line = null;
        if (!form.IsOfDrawing)
            return true;
        var fitting = job.Lines.Where(l => number is null || l.Line.Number.Equals(number, StringComparison.OrdinalIgnoreCase)).ToList();
        if (fitting.Count == 1)
        {
            line = fitting[0];
            return true;
        }

        Usage(fitting.Count == 0 ? $"There is no drawing {number}. There are: {string.Join(", ", job.Lines.Select(l => l.Line.Number))}." : $"Say --drawing with one of: {string.Join(", ", fitting.Select(l => l.Line.Number))}.");
        return false;
    }

    // Null where it cannot be made, which is told.
    private static Fact? Fact(RecordForm form, string id, string name, string[] keys, Said said, JobLine? line, IReadOnlyList<string> missing)
    {
        // A note may be about the whole drawing.
        if (form.NameKey == "about" && name.Equals("drawing", StringComparison.OrdinalIgnoreCase))
            name = "";
        var mark = "";
        var canBeRepaired = form.Keys.Any(k => k.Key == "weld");
        if (canBeRepaired && line is not null && !Array.Exists(keys, k => k.StartsWith("weld=", StringComparison.Ordinal)))
        {
            var at = name.IndexOf(' ', StringComparison.Ordinal);
            (name, mark) = at < 0 ? (name, line.Line.Done.WeldOf(name).ToString()) : (name[..at], name[(at + 1)..]);
        }

        if (line is not null && WhyNo(form, name, line.Line) is { } why)
        {
            Usage(why);
            return null;
        }

        var buffer = new ArrayBufferWriter<byte>();
        using (var json = new Utf8JsonWriter(buffer))
        {
            json.WriteStartObject();
            json.WriteString("id", id);
            json.WriteString("fact", form.Fact);
            json.WriteString("who", said.Who);
            json.WriteString("when", said.When ?? DateTimeOffset.UtcNow.ToString("yyyy-MM-dd'T'HH:mm:ss.fff'Z'", CultureInfo.InvariantCulture));
            if (line is not null)
            {
                json.WriteString("drawing", line.Line.Done.Drawing.Number);
                json.WriteString("revision", line.Line.Done.Drawing.Revision);
                if (line.Versions.Count > 0)
                {
                    json.WriteStartArray("version");
                    foreach (var version in line.Versions)
                        json.WriteStringValue(version);
                    json.WriteEndArray();
                }
            }

            if (mark.Length > 0)
                json.WriteString("weld", mark);
            if (form.Write(json, name, keys) is { } wrong)
            {
                Usage(wrong);
                return null;
            }

            if (missing.Count > 0)
            {
                json.WriteStartObject("deviation");
                json.WriteStartArray("missing");
                foreach (var one in missing)
                    json.WriteStringValue(one);
                json.WriteEndArray();
                json.WriteString("why", said.Despite);
                json.WriteString("by", said.By);
                json.WriteEndObject();
            }

            json.WriteEndObject();
        }

        using var document = JsonDocument.Parse(buffer.WrittenMemory);
        var (fact, told) = FactJson.Take(document.RootElement, DateTimeOffset.UtcNow);
        if (fact is null)
            Usage(told!);
        return fact;
    }

    /// <summary>Why the drawing has nothing of that name; null where it has, or none is asked for.</summary>
    private static string? WhyNo(RecordForm form, string name, LineDone line)
    {
        var f = line.Fabrication;
        var (kind, names) = form.NameKey switch
        {
            "piece" => ("piece", f.Cuts.Select(c => c.Piece)),
            "component" => ("component or piece", f.Route.Components.Select(c => c.Id).Concat(f.Cuts.Select(c => c.Piece))),
            "joint" when form.Fact == "bolted-up" => ("bolted joint", f.Route.Joints.Where(j => j.Kind == Rootgap.Routes.JointKind.Bolted).Select(j => j.Id)),
            "joint" => ("joint", f.Route.Joints.Select(j => j.Id)),
            "spool" => ("spool", f.Spools.Select(s => s.Name)),
            "about" => ("piece, component, joint or spool", f.Cuts.Select(c => c.Piece).Concat(f.Route.Components.Select(c => c.Id)).Concat(f.Route.Joints.Select(j => j.Id)).Concat(f.Spools.Select(s => $"spool {s.Name}"))),
            _ => ("", []),
        };
        var all = names.ToList();
        return kind.Length == 0 || name.Length == 0 || all.Contains(name, StringComparer.OrdinalIgnoreCase) ? null
            : $"{line.Number} has no {kind} {name}. It has: {string.Join(", ", all.Take(40))}{(all.Count > 40 ? ", ..." : "")}.";
    }

    private static int Many(string folder, string? store, string file, Signing signing)
    {
        if (FactsFile.Read(file) is not { } facts)
            return ExitCode.Unreadable;
        var now = DateTimeOffset.UtcNow;
        var (kept, already, refused) = (0, 0, 0);
        foreach (var fact in facts)
        {
            // What devices bring goes through the door of the server; this is another door with the same rules.
            using var document = JsonDocument.Parse(FactJson.Text(fact), FactJson.Deep);
            if (FactJson.Take(document.RootElement, now).Wrong is { } wrong)
            {
                Console.Error.WriteLine($"{file}: {fact.Id}: {wrong}");
                refused++;
            }
        }

        if (refused > 0)
        {
            Console.Error.WriteLine($"{file}: nothing was kept. Mend what is told above first.");
            return ExitCode.Unreadable;
        }

        try
        {
            foreach (var batch in facts.Chunk(Batch))
            {
                var keeping = JobLines.Keep(folder, store, batch, signing).GetAwaiter().GetResult();
                (kept, already, refused) = (kept + keeping.Kept.Count, already + keeping.Already.Count, refused + keeping.Refused.Count);
                foreach (var (id, why) in keeping.Refused)
                    Console.Error.WriteLine($"{file}: {id}: {why}");
            }
        }
        catch (NotSignedException e)
        {
            Console.Error.WriteLine($"{file}: {e.Message} {(kept > 0 ? $"{kept} facts before it were kept." : "Nothing was kept.")}");
            return ExitCode.Stop;
        }
        catch (StoreException e)
        {
            Console.Error.WriteLine(e.Message);
            return ExitCode.Unreadable;
        }

        Console.WriteLine(string.Create(CultureInfo.InvariantCulture, $"{kept} facts kept, {already} were kept before, {refused} refused."));
        return refused > 0 ? ExitCode.Warn : ExitCode.Done;
    }

    private static int Usage(string says)
    {
        Console.Error.WriteLine(says);
        return ExitCode.Usage;
    }
}
