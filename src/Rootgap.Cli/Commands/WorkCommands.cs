using System.CommandLine;
using System.Globalization;
using System.Security.Cryptography;
using Rootgap.Papers;
using Rootgap.Records;
using Rootgap.Sheets;
using Rootgap.Store;

namespace Rootgap.Cli.Commands;

/// <summary>What the foreman, the inspector and the client ask a job's records for: <c>today</c>, <c>welds</c>, <c>lots</c>, <c>lists</c>.</summary>
internal static class WorkCommands
{
    private const long LargestList = 16 << 20;

    private static readonly Argument<string> Folder = new("FOLDER") { Description = "The job's folder." };
    private static readonly Option<string[]> Drawings = new("--drawing") { Description = "Only this drawing; may be given several times.", HelpName = "NUMBER" };
    private static readonly Option<string?> Store = new("--store") { Description = "The records lie in PostgreSQL: \"Host=server;Database=shop;Username=shop\". Default: in the folder." };

    public static IEnumerable<Command> Create()
    {
        var json = JsonOption.Create();
        var spool = new Option<string?>("--spool") { Description = "Only this spool." };
        var picture = new Option<string?>("--picture") { Description = "A file for the picture of the welding over time, .svg, .pdf or .png: diameter-inches and welds, day by day.", HelpName = "FILE" };
        var today = new Command("today", "What can be made today, what holds each piece, joint, spool and line, and how far the welding is.\n\nExample: rootgap today samples/hatchery --drawing CHW-201 --picture welded.png") { Folder, Drawings, spool, picture, Store, json };
        today.SetAction(r => With(r, job => Today(job, r.GetValue(spool), r.GetValue(picture), r.GetValue(json))));

        var welder = new Option<string?>("--welder") { Description = "Only welds in which this stamp had a hand." };
        var day = new Option<string?>("--day") { Description = "Only welds made on this day (UTC): 2026-11-25." };
        var welds = new Command("welds", "The weld list, each weld with its repairs under their own numbers; rejects by welder, in welds and in length.\n\nExample: rootgap welds samples/hatchery --welder K12") { Folder, Drawings, welder, day, Store, json };
        welds.SetAction(r => With(r, job => Welds(job, r.GetValue(welder), r.GetValue(day), r.GetValue(json))));

        var lot = new Option<string?>("--lot") { Description = "The lot's name. Default: each drawing is a lot of its own, of the drawing's number." };
        var draw = new Option<bool>("--draw") { Description = "Draw what the lots ask for, and keep it. Without it they are only shown." };
        var share = new Option<double?>("--share") { Description = "Of each welder's welds, %, where a lot is begun. Default: what the drawing's `service: examination` says." };
        var method = new Option<string?>("--method") { Description = "How they are examined, where a lot is begun. Default: what the drawing says, else radiography." };
        var seed = new Option<int?>("--seed") { Description = "Of the generator, where a lot is begun, 0 to 2147483647. Default: one by chance; it is printed and kept." };
        var since = new Option<DateOnly?>("--since") { Description = "Where a lot is begun: only welds made from this day on (UTC), 2026-03-01." };
        var until = new Option<DateOnly?>("--until") { Description = "Where a lot is begun: only welds made up to this day." };
        var who = new Option<string?>("--who") { Description = "Who draws." };
        var lots = new Command("lots", "Examination lots: draw a share of each welder's butt welds by chance, see what rejects ask for, see what is done.\n\nA reject asks for two more of the same welder's, each reject among these for two more, a further one for all (progressive sampling, B31.3 341.3.4). The code in force and the inspector decide.\n\nExample: rootgap lots samples/hatchery --draw --share 10 --who Ines")
        {
            Folder, Drawings, lot, draw, share, method, seed, since, until, who, Signing.KeyOption, Signing.CodeOption, Store, json,
        };
        lots.SetAction(r => With(r, job => Lots(job, r.GetValue(Store), new(r.GetValue(lot), r.GetValue(draw), r.GetValue(share), r.GetValue(method), r.GetValue(seed), r.GetValue(since), r.GetValue(until), r.GetValue(who), Signing.Of(r)), r.GetValue(json))));

        var into = OutOption.Folder("Where the lists are written: each as CSV, all in one workbook and one JSON.");
        var lists = new Command("lists", "Every list of the job's papers as CSV, XLSX and JSON: welds, heats, fit-up, examination, lots, welders, heat treatment, bolting, tests, releases, deviations, what comes next, progress, findings.\n\nExample: rootgap lists samples/hatchery --out lists") { Folder, Drawings, into, Store };
        lists.SetAction(r => With(r, job => Lists(job, r.GetRequiredValue(into))));

        var file = new Argument<string>("FILE") { Description = "CSV or XLSX; the first row has the headings." };
        var certificates = new Command("certificates", $"Take in certificates from a list. Its columns: {string.Join(", ", IncomingLists.OfCertificates)}.\n\nExample: rootgap certificates samples/hatchery certificates.xlsx --who Stu") { Folder, file, who, Signing.KeyOption, Signing.CodeOption, Store };
        certificates.SetAction(r => TakeIn(r.GetValue(Folder)!, r.GetValue(Store), r.GetValue(file)!, r.GetValue(who), Signing.Of(r), IncomingLists.Certificates));
        var welders = new Command("welders", $"Take in the welders' list: who may weld by what, until when. Its columns: {string.Join(", ", IncomingLists.OfWelders)}. Welds by others are findings of `rootgap today`.\n\nExample: rootgap welders samples/hatchery welders.csv --who Ines") { Folder, file, who, Signing.KeyOption, Signing.CodeOption, Store };
        welders.SetAction(r => TakeIn(r.GetValue(Folder)!, r.GetValue(Store), r.GetValue(file)!, r.GetValue(who), Signing.Of(r), IncomingLists.Welders));
        return [today, welds, lots, lists, certificates, welders];
    }

    private static int With(ParseResult r, Func<JobLines, int> work) => JobLines.Of(r.GetValue(Folder)!, r.GetValue(Store), r.GetValue(Drawings) ?? []) is { } job ? work(job) : ExitCode.Unreadable;

    private static int Today(JobLines job, string? spool, string? picture, bool asJson)
    {
        var steps = job.Papers.Steps.Where(s => spool is null || s.Spool.Equals(spool, StringComparison.OrdinalIgnoreCase)).ToList();
        var progress = Progress.Of(job.Papers.Welds);
        if (picture is not null && (progress.Days.Count == 0 ? "nothing is welded yet: there is nothing to draw." : OutputFile.Draw(picture, ProgressPicture.Scene(progress))) is { } why)
        {
            Console.Error.WriteLine($"{picture}: {why}");
            return ExitCode.Unreadable;
        }

        if (asJson)
        {
            WriteJson([PaperTables.Next(steps), PaperTables.Days(progress), PaperTables.Findings(job.Papers)]);
            return ExitCode.Done;
        }

        foreach (var line in steps.GroupBy(s => s.Line))
        {
            Console.WriteLine($"{line.Key.Number}{(line.Key.Done.Drawing.Revision.Length > 0 ? $" revision {line.Key.Done.Drawing.Revision}" : "")}");
            foreach (var step in line.Where(s => s.CanBeDone).GroupBy(s => (s.Step, s.Spool)))
                Console.WriteLine($"  today: {step.Key.Step} {string.Join(", ", step.Select(s => s.Of == StepOf.Spool ? $"spool {s.Name}" : s.Name))}{(step.Key.Spool.Length > 0 && step.First().Of != StepOf.Spool ? $" (spool {step.Key.Spool})" : "")}");
            foreach (var step in line.Where(s => !s.CanBeDone))
                Console.WriteLine($"  held: {step.Step} {(step.Of == StepOf.Spool ? "spool " : "")}{step.Name}: {string.Join("; ", step.Missing.Take(8))}{(step.Missing.Count > 8 ? string.Create(CultureInfo.InvariantCulture, $"; and {step.Missing.Count - 8} more") : "")}");
        }

        Console.WriteLine(string.Create(CultureInfo.InvariantCulture, $"Welded: {progress.Made} of {progress.Welds} welds; {progress.InchesMade:0.##} of {progress.Inches:0.##} diameter-inches of butt welds, {progress.ShopInchesMade:0.##} of {progress.ShopInches:0.##} in the shop."));
        foreach (var d in progress.Days)
            Console.WriteLine(string.Create(CultureInfo.InvariantCulture, $"  {d.Day:yyyy-MM-dd}  {d.Welds,4} welds {d.Inches,8:0.##} in.  so far {d.WeldsSoFar,5} {d.InchesSoFar,8:0.##}  {new string('#', (int)Math.Round(40 * d.InchesSoFar / Math.Max(progress.Inches, 1)))}"));
        return Told(job);
    }

    private static int Welds(JobLines job, string? welder, string? day, bool asJson)
    {
        var welds = job.Papers.Welds.Where(w => (welder is null || w.Welders.Contains(welder, StringComparer.OrdinalIgnoreCase)) && (day is null || w.Welded?.UtcDateTime.ToString("yyyy-MM-dd", CultureInfo.InvariantCulture) == day)).ToList();
        if (asJson)
        {
            WriteJson([PaperTables.Welds(welds), PaperTables.Welders(welds)]);
            return ExitCode.Done;
        }

        foreach (var w in welds)
        {
            Console.WriteLine(string.Create(CultureInfo.InvariantCulture, $"{w.FullName,-22} {PaperWords.Of(w.Joint.Kind),-7} NPS {w.Joint.Size,-5} {(w.IsField ? "site" : "shop")} {PaperWords.Of(w.State),-10} {(w.Welded is { } at ? at.UtcDateTime.ToString("yyyy-MM-dd", CultureInfo.InvariantCulture) : "")} {string.Join(" + ", w.Welders)}"
                + $"{string.Concat(w.Examinations.Select(e => $"; {PaperWords.Of(e.Method)} {(e.IsAccepted ? "accepted" : "rejected")}"))}"));
        }

        Console.WriteLine(string.Create(CultureInfo.InvariantCulture, $"{welds.Count} welds, {welds.Count(w => w.IsMade)} of them made."));
        foreach (var r in WelderRate.Of(welds))
            Console.WriteLine(string.Create(CultureInfo.InvariantCulture, $"{r.Welder}: {r.Welds} welds, {r.DiameterInches:0.##} diameter-inches{(r.Method is { } m ? $"; {PaperWords.Of(m)}: {r.Rejected} of {r.Examined} rejected ({r.Rate:0.0} %), {r.RejectedLength:0} of {r.ExaminedLength:0} mm ({r.LengthRate:0.00} %){(r.WithoutLength > 0 ? $", {r.WithoutLength} without a length" : "")}" : "")}"));
        return ExitCode.Done;
    }

    private sealed record DrawAsked(string? Lot, bool Draw, double? Share, string? Method, int? Seed, DateOnly? Since, DateOnly? Until, string? Who, Signing Signing);

    private static int Lots(JobLines job, string? store, DrawAsked asked, bool asJson)
    {
        if (asked.Draw && string.IsNullOrWhiteSpace(asked.Who))
            return Usage("Say --who draws: a draw is on record.");
        var method = asked.Method is null ? null : PaperWords.Method(asked.Method);
        if (asked.Method is not null && method is null)
            return Usage($"\"{asked.Method}\" is no method: visual, penetrant, magnetic, radiography, ultrasonic, hardness, alloy check, other.");
        if (asked.Share is <= 0 or > 100)
            return Usage("--share is a share in %, more than 0 and at most 100.");
        if (asked.Seed < 0)
            return Usage("--seed is a whole number from 0 to 2147483647.");

        List<Lot> lots = [];
        var known = job.Papers.Lots.Select(l => l.Name).ToHashSet(StringComparer.OrdinalIgnoreCase);
        var lines = job.Lines.Select(l => l.Line).ToList();
        foreach (var (name, of) in asked.Lot is { } one ? [(one, lines)] : lines.Select(l => (Name: l.Number, Of: (List<LineDone>)[l])))
        {
            var rule = AskedRule.Of(of[0].Fabrication.Route.Drawing.Service.Examination);
            // All of them are examined: nothing is drawn by chance.
            if (rule.IsAll && asked.Share is null && !known.Contains(name))
                continue;
            if ((asked.Share ?? rule.Share) is not { } share)
            {
                if (!known.Contains(name))
                {
                    if (asked.Draw)
                        Console.Error.WriteLine($"{name}: the drawing says no share. Say --share, or write `service: {{examination: 10 %}}`.");
                    continue;
                }

                share = 0;
            }

            lots.Add(job.Papers.LotOf(name, of, method ?? rule.Method, share, (uint)(asked.Seed ?? RandomNumberGenerator.GetInt32(int.MaxValue)), asked.Since, asked.Until));
        }

        if (asked.Lot is null)
            lots.AddRange(job.Papers.Lots.Where(l => !lots.Exists(o => o.Name.Equals(l.Name, StringComparison.OrdinalIgnoreCase))));
        if (asked.Draw)
        {
            var now = DateTimeOffset.UtcNow;
            List<Fact> facts = [.. lots.SelectMany(l => l.Draw() is { Count: > 0 } drawn ? l.Facts(drawn, line => (Guid.NewGuid().ToString("D"), asked.Who!, now, job.Of(line).Versions)) : [])];
            try
            {
                if (facts.Count > 0)
                    JobLines.Keep(job.Folder, store, facts, asked.Signing).GetAwaiter().GetResult();
            }
            catch (Exception e) when (e is StoreException or NotSignedException)
            {
                Console.Error.WriteLine(e.Message);
                return e is NotSignedException ? ExitCode.Stop : ExitCode.Unreadable;
            }

            if (JobLines.Of(job.Folder, store, [.. lines.Select(l => l.Number)]) is not { } again)
                return ExitCode.Unreadable;
            (job, lots) = (again, [.. again.Papers.Lots.Where(l => lots.Exists(o => o.Name.Equals(l.Name, StringComparison.OrdinalIgnoreCase)))]);
        }

        if (asJson)
        {
            WriteJson([PaperTables.Lots(lots)]);
            return ExitCode.Done;
        }

        foreach (var lot in lots)
        {
            var begun = lot.NextRound > 0;
            Console.WriteLine(string.Create(CultureInfo.InvariantCulture, $"Lot {lot.Name}: {PaperWords.Of(lot.Method)}, {lot.Share:0.##} % of each welder's butt welds{(begun ? $", seed {lot.Seed}, {lot.NextRound} {(lot.NextRound == 1 ? "draw" : "draws")}" : ", nothing drawn yet")}; {lot.Welds.Count} welds, {lot.Welds.Count(w => w.IsDrawn)} drawn"));
            foreach (var weld in lot.Welds.Where(w => w.IsDrawn))
                Console.WriteLine($"  {weld.Name}  {string.Join(" + ", weld.Welders)}  {(weld.IsField ? "site" : "shop")}  {Lot.Says(weld)}  {lot.ResultOf(weld)}");
            foreach (var ask in lot.Asks)
                Console.WriteLine(string.Create(CultureInfo.InvariantCulture, $"  to draw: {(ask.IsAll ? "all" : ask.Count)} of {ask.Welder}'s{(ask.For.Length > 0 ? $", asked for by {ask.For}" : "")}"));
        }

        if (lots.Count == 0)
            Console.WriteLine("There is no lot, and no drawing says a share of welds to be examined. Say --share, or write `service: {examination: 10 %}` into the drawing.");
        return ExitCode.Done;
    }

    private static int TakeIn<T>(string folder, string? store, string file, string? who, Signing signing, Func<string, byte[], Func<(string Id, string Who, DateTimeOffset When)>, (IReadOnlyList<T> Facts, IReadOnlyList<string> Wrong)> read)
        where T : Fact
    {
        if (string.IsNullOrWhiteSpace(who))
            return Usage("Say --who takes them in.");
        byte[] bytes;
        try
        {
            bytes = InputFile.Bytes(file, LargestList);
        }
        catch (Exception e) when (e is IOException or UnauthorizedAccessException)
        {
            Console.Error.WriteLine($"{file}: cannot be read: {e.Message}");
            return ExitCode.Unreadable;
        }

        var now = DateTimeOffset.UtcNow;
        var (facts, wrong) = read(file, bytes, () => (Guid.NewGuid().ToString("D"), who, now));
        foreach (var one in wrong)
            Console.Error.WriteLine($"{file}: {one}");
        if (wrong.Count > 0)
        {
            Console.Error.WriteLine($"{file}: nothing was taken in. Mend what is told above first.");
            return ExitCode.Unreadable;
        }

        try
        {
            JobLines.Keep(folder, store, [.. facts], signing).GetAwaiter().GetResult();
        }
        catch (Exception e) when (e is StoreException or IOException or NotSignedException)
        {
            Console.Error.WriteLine(e.Message);
            return e is NotSignedException ? ExitCode.Stop : ExitCode.Unreadable;
        }

        Console.WriteLine(string.Create(CultureInfo.InvariantCulture, $"{facts.Count} taken in from {file}."));
        return ExitCode.Done;
    }

    private static int Lists(JobLines job, string into)
    {
        var tables = PaperTables.Of(job.Papers);
        using var files = new OutputFolder(into);
        Write(files, tables, "papers");
        files.Commit();
        Console.WriteLine($"{tables.Count} lists are in {into}: each as CSV, all of them in papers.xlsx and papers.json.");
        return Told(job);
    }

    /// <summary>Writes lists as CSV each, as one workbook and as one JSON.</summary>
    public static void Write(OutputFolder files, IReadOnlyList<PaperTable> tables, string name)
    {
        foreach (var table in tables)
        {
            using var csv = new StreamWriter(files.Create(table.Name + ".csv"));
            PaperTables.Csv(csv, table);
        }

        using (var xlsx = files.Create(name + ".xlsx"))
            PaperTables.Xlsx(xlsx, tables);
        using var json = files.Create(name + ".json");
        PaperTables.Json(json, tables);
    }

    private static int Told(JobLines job)
    {
        var findings = job.Papers.Findings;
        foreach (var finding in findings)
        {
            Console.WriteLine($"look: {finding.Message}");
            Console.WriteLine($"  do: {finding.Remedy}");
        }

        return findings.Count > 0 ? ExitCode.Warn : ExitCode.Done;
    }

    private static void WriteJson(IReadOnlyList<PaperTable> tables)
    {
        using var to = Console.OpenStandardOutput();
        PaperTables.Json(to, tables);
        to.Write("\n"u8);
    }

    private static int Usage(string says)
    {
        Console.Error.WriteLine(says);
        return ExitCode.Usage;
    }
}
