using System.CommandLine;
using System.Globalization;
using System.Text;
using System.Text.Json;
using Rootgap.Cutting;
using Rootgap.Fabricating;
using Rootgap.Findings;
using Rootgap.Packets;
using Rootgap.Sheets;
using Rootgap.Store;
using Spectre.Console;

namespace Rootgap.Cli.Commands;

/// <summary><c>rootgap cut</c>: which bar gives which piece, over many drawings and one stock file.</summary>
internal static class CutCommand
{
    private const long Largest = 256 << 20;

    private sealed record Wanted(string[] Drawings, string? Stock, string? Out, string? Instance, double Seconds, string? After, SawReport Report, RecordsOption.Wanted Records, bool DespiteStop, Paper Paper, Paper? Labels, bool Json);

    /// <summary>A drawing whose pieces are cut, or a packet.</summary>
    /// <param name="Fabrication">Null for a packet: what was entered in the app cannot be followed to it.</param>
    private sealed record Planned(string File, Fabrication? Fabrication, List<Piece> Pieces);

    public static Command Create()
    {
        var drawings = new Argument<string[]>("DRAWING") { Description = "Drawing files (YAML), packets (packet.json), or folders with drawing files.", Arity = ArgumentArity.ZeroOrMore };
        var stock = new Option<string?>("--stock") { Description = "The stock file: lengths on hand, remnants, lengths to buy, rules (YAML, CSV or XLSX)." };
        var folder = OutOption.Named(new Option<string?>("--out") { Description = "Folder for the plan: PDF, CSV, XLSX, JSON and the stock file after the cuts.", HelpName = "DIR" });
        var instance = new Option<string?>("--instance") { Description = "A plain cutting-stock instance instead of drawings: kinds, length of the bar, then a line 'length demand' each." };
        var seconds = new Option<double>("--time") { Description = "Seconds for the search; the best plan so far and its bound are given when they are over.", DefaultValueFactory = _ => 10 };
        seconds.Validators.Add(r =>
        {
            if (r.Tokens is [var token] && (!double.TryParse(token.Value, NumberStyles.Float, CultureInfo.InvariantCulture, out var s) || !(s is > 0 and <= 86_400)))
                r.AddError($"--time is a number of seconds above 0 and up to 86400, not {token.Value}.");
        });
        var after = new Option<string?>("--after") { Description = "The cut.json that was cut by: what is cut stays, the rest is planned again. Give the stock file of the first plan." };
        var cut = Told("--cut", "Pieces that are cut and good: DRAWING:MARK, or the mark alone where one drawing has it.");
        var spoiled = Told("--spoiled", "Pieces that were cut and spoiled: they are wanted again.");
        var unfit = Told("--out-of-use", "Bars that are bent, lost or otherwise of no use.");
        var instead = Told("--instead", "Another bar was taken than planned: PLANNED=TAKEN.");
        var heats = Told("--heat", "The heat number found on a bar, or on one delivered: BAR=HEAT.");
        foreach (var pairs in (Option<string[]>[])[instead, heats])
        {
            pairs.Validators.Add(r =>
            {
                foreach (var token in r.Tokens.Where(t => t.Value.IndexOf('=') is not > 0 || t.Value.EndsWith('=')))
                    r.AddError($"{pairs.Name} takes two words with = between, not {token.Value}.");
            });
        }

        var records = new RecordsOption("pieces cut and spoiled, bars bent, heats", "Plan as if nothing had been entered in the app.");
        var despite = new Option<bool>("--despite-stop") { Description = "Plan also the drawings that can't be built as drawn; everything is marked NOT FOR FABRICATION." };
        var paper = PaperOption.Create();
        var labels = new Option<string>("--labels") { Description = "Size of the label stock, width x height in mm, such as 100x50: a page of labels.pdf for each label. Left out: sheets of paper to cut apart." };
        labels.Validators.Add(r =>
        {
            if (r.Tokens is [var token] && !CuttingLabels.TrySize(token.Value, out _, out var why))
                r.AddError("--labels: " + why);
        });
        var json = JsonOption.Create();
        var command = new Command("cut", "Plan which bar gives which piece: what the shop has before what it must buy, then least cost, with a proof or a bound.\n\nExample: rootgap cut samples/hatchery --stock rack.yaml --out plan")
        {
            drawings, stock, folder, instance, seconds, after, cut, spoiled, unfit, instead, heats, despite, paper, labels, json,
        };
        records.AddTo(command);
        command.Validators.Add(r =>
        {
            var hasInstance = r.GetResult(instance) is not null;
            if (hasInstance && (r.GetResult(stock) is not null || r.GetResult(drawings) is { Tokens.Count: > 0 }))
                r.AddError("Give either --instance or drawings with --stock, not both.");
            else if (!hasInstance && r.GetResult(drawings) is not { Tokens.Count: > 0 })
                r.AddError("Give drawings and --stock, or --instance.");
            else if (!hasInstance && r.GetResult(stock) is null)
                r.AddError("Give the stock file with --stock.");
            else if (!hasInstance && r.GetResult(folder) is null && r.GetResult(json) is null)
                r.AddError("Give the folder for the plan with --out, or ask for --json.");
            if (r.GetResult(after) is null && ((Option<string[]>[])[cut, spoiled, unfit, instead, heats]).FirstOrDefault(o => r.GetResult(o) is { Tokens.Count: > 0 }) is { } told)
                r.AddError($"{told.Name} needs the plan that was cut by: give it with --after.");
        });
        // On a thread of its own, so that Ctrl-C reaches the search: it then gives the best plan so far.
        command.SetAction((result, stop) => Task.Run(() => Run(new Wanted(
            result.GetValue(drawings) ?? [], result.GetValue(stock), result.GetValue(folder), result.GetValue(instance), result.GetValue(seconds), result.GetValue(after),
            new SawReport
            {
                Cut = result.GetValue(cut) ?? [],
                Spoiled = result.GetValue(spoiled) ?? [],
                Out = result.GetValue(unfit) ?? [],
                Instead = Pairs(result.GetValue(instead)),
                Heats = Pairs(result.GetValue(heats)),
            },
            records.Of(result), result.GetValue(despite), PaperOption.Of(result.GetValue(paper)!), result.GetValue(labels) is { } size && CuttingLabels.TrySize(size, out var label, out _) ? label : null, result.GetValue(json)), stop), CancellationToken.None));
        return command;
    }

    private static Option<string[]> Told(string name, string what) => new(name) { Description = what, AllowMultipleArgumentsPerToken = true };

    private static List<(string, string)> Pairs(string[]? told) => [.. (told ?? []).Select(t => (t[..t.IndexOf('=')].Trim(), t[(t.IndexOf('=') + 1)..].Trim()))];

    private static int Run(Wanted wanted, CancellationToken stop)
    {
        try
        {
            return wanted.Instance is { } file ? Instance(file, wanted, stop) : Job(wanted, stop);
        }
        catch (StoreException e)
        {
            Console.Error.WriteLine(e.Message);
            Console.Error.WriteLine($"  do: {e.Remedy} Or plan without what was entered in the app: --without-records.");
            return ExitCode.Unreadable;
        }
        catch (Exception e) when (e is IOException or UnauthorizedAccessException)
        {
            Console.Error.WriteLine($"A file cannot be read or written: {e.Message}");
            Console.Error.WriteLine("  do: look at the names given, whether the disk is full, and whether you may write there. What was there before stands as it was.");
            return ExitCode.Unreadable;
        }
    }

    private static int Instance(string file, Wanted wanted, CancellationToken stop)
    {
        PlainInstance instance;
        try
        {
            instance = PlainInstance.Parse(Encoding.UTF8.GetString(Bytes(file)));
        }
        catch (FormatException e)
        {
            Console.Error.WriteLine($"{file}: {e.Message}");
            return ExitCode.Unreadable;
        }

        var solution = instance.Solve(TimeSpan.FromSeconds(wanted.Seconds), TimeProvider.System, stop);
        if (wanted.Json)
            Print(json => CuttingPlanJson.Write(json, solution));
        else
        {
            Console.WriteLine(string.Create(CultureInfo.InvariantCulture, $"{solution.Bars} bars, {(solution.Proven ? "proven best" : $"no plan has fewer than {solution.Bound}")}, {solution.Seconds:0.000} s"));
            foreach (var pattern in solution.Patterns)
                Console.WriteLine(string.Create(CultureInfo.InvariantCulture, $"{pattern.Count,6} x  {string.Join(" + ", pattern.Cuts.Select(c => c.Count == 1 ? c.Length.ToString(CultureInfo.InvariantCulture) : string.Create(CultureInfo.InvariantCulture, $"{c.Count} x {c.Length}")))}"));
        }

        return ExitCode.Done;
    }

    private static int Job(Wanted wanted, CancellationToken stop)
    {
        var log = wanted.Json ? Console.Error : Console.Out;
        var printer = FindingPrinter.ForConsole(Console.Error, Console.IsErrorRedirected);
        var faults = new List<Finding>();
        if (PlannedOf(wanted.Drawings, printer, faults) is not { } planned)
            return ExitCode.Unreadable;
        var pieces = planned.SelectMany(p => p.Pieces).ToList();
        var stopped = pieces.Where(p => p.NotForFabrication).GroupBy(p => p.Drawing, StringComparer.Ordinal).OrderBy(g => g.Key, StringComparer.Ordinal).ToList();
        List<Finding> findings = [.. faults, .. stopped.Select(d => Pieces.CannotBuild(d.Key, d.Count(), wanted.DespiteStop))];
        if (!wanted.DespiteStop)
            pieces.RemoveAll(p => p.NotForFabrication);
        var bytes = Bytes(wanted.Stock!);
        var reading = RackReader.Read(bytes, wanted.Stock!);
        if (reading.Rack is not { } rack)
        {
            printer.Know(wanted.Stock!, Encoding.UTF8.GetString(bytes));
            printer.Print(reading.Errors);
            return ExitCode.Unreadable;
        }

        var facts = Entered(wanted, planned, rack, findings);
        try
        {
            var before = SawLog.Empty;
            if (wanted.After is { } earlier)
            {
                var (told, said) = wanted.Report.On(CuttingPlanJson.Read(Encoding.UTF8.GetString(Bytes(earlier))), rack, facts);
                findings.AddRange(said);
                if (told is null)
                {
                    printer.Print(findings);
                    return ExitCode.Unreadable;
                }

                before = told;
            }
            else if (facts is not null)
            {
                before = before.With(facts);
            }

            (pieces, rack) = (before.Wanted(pieces, findings), before.Left(rack));
        }
        catch (FormatException e)
        {
            Console.Error.WriteLine($"{wanted.After ?? wanted.Stock}: {e.Message}");
            return ExitCode.Unreadable;
        }

        if (facts is not null && facts.Sum(b => b.Sawn.Count) is > 0 and var sawn)
            log.WriteLine(string.Create(CultureInfo.InvariantCulture, $"From the job's records: {facts.Sum(b => b.Sawn.Count(p => p.IsGood))} of {sawn} cuts count."));

        var plan = CuttingPlanner.Plan(rack.Rule(pieces), rack, TimeSpan.FromSeconds(wanted.Seconds), TimeProvider.System, Progress(), stop);
        plan = plan with { Findings = [.. findings, .. plan.Findings] };
        printer.Print(plan.Findings);
        if (wanted.Out is { } folder)
        {
            Save(folder, plan, rack, wanted.Paper, wanted.Labels);
            log.WriteLine($"The plan is in {folder}: cut.pdf, labels.pdf, cut.json, cut.csv, cut.xlsx, buy.csv, rack-after.yaml, rack-after.csv");
        }

        if (wanted.Json)
            Print(json => CuttingPlanJson.Write(json, plan, ThisProgram.Version));
        else
            Show(plan);
        return plan.Unplaced.Count > 0 || plan.Findings.Any(f => f.Severity == Severity.Stop) ? ExitCode.Stop
            : plan.Findings.Any(f => f.Severity == Severity.Warn) ? ExitCode.Warn
            : ExitCode.Done;
    }

    // What was entered in the app; null where it is not looked at.
    private static List<SawnBar>? Entered(Wanted wanted, List<Planned> planned, Rack rack, List<Finding> findings)
    {
        if (wanted.Records.IsWithout)
            return null;
        var jobs = planned.Select(p => (Planned: p, Folder: wanted.Records.Folder ?? JobRecords.FolderOf(p.File))).Where(p => p.Folder is not null).ToLookup(p => p.Folder!, p => p.Planned, StringComparer.Ordinal);
        List<SawnBar>? told = null;
        foreach (var job in jobs)
        {
            if (wanted.Records is { Folder: null, Store: null } && !File.Exists(JobPlace.RecordsOf(job.Key)))
            {
                findings.Add(new("records-not-looked-at", Severity.Warn, job.Key, default, $"The records of {job.Key} are not in the folder: what was entered in the app is not known, and may be planned again.", "Say where they are with --store, or --without-records if that is meant."));
                continue;
            }

            var packets = job.Where(p => p.Fabrication is null).Select(p => p.File).ToList();
            if (packets.Count > 0)
                findings.Add(new("records-not-looked-at", Severity.Warn, packets[0], default, $"{string.Join(", ", packets)}: what was entered in the app is followed on drawings, not on packets: what is cut of these is planned again.", "Give the drawing files in place of the packet."));
            (told ??= []).AddRange(JobRecords.Of(job.Key, wanted.Records.Store).AtTheSaw(
                wanted.Stock!, jobs.Count == 1, rack, job.Where(p => p.Fabrication is not null).Select(p => (p.File, p.Fabrication!, (IReadOnlyList<Piece>)p.Pieces)), findings));
        }

        return told;
    }

    /// <param name="faults">Takes in what is told of drawings over which the program failed: they alone are left out.</param>
    private static List<Planned>? PlannedOf(string[] names, FindingPrinter printer, List<Finding> faults)
    {
        var packets = names.Where(n => n.EndsWith(".json", StringComparison.OrdinalIgnoreCase) && File.Exists(n)).ToList();
        var files = DrawingFiles.Find(names.Except(packets, StringComparer.Ordinal), out var missing);
        if (missing.Count > 0 || files.Count + packets.Count == 0)
        {
            DrawingArgument.Refuse(files, missing);
            return null;
        }

        var planned = new List<Planned>();
        var good = true;
        foreach (var packet in packets)
        {
            try
            {
                planned.Add(new(packet, null, Pieces.OfPacket(Encoding.UTF8.GetString(Bytes(packet)), packet)));
            }
            catch (FormatException e)
            {
                Console.Error.WriteLine(e.Message);
                good = false;
            }
        }

        foreach (var file in files)
        {
            var (text, reading) = DrawingFiles.Read(file);
            if (reading.Drawing is { } drawing)
            {
                if (Packet.TryOf(drawing, out var fault) is { } built)
                    planned.Add(new(file, built.Fabrication, [.. Pieces.Of(built.Fabrication, drawing.Number, built.IsBuildable)]));
                else
                    faults.Add(fault! with { Where = fault.Where with { File = file } });
                continue;
            }

            printer.Know(file, text);
            printer.Print(reading.Errors);
            good = false;
        }

        return good ? ByJob(planned, files.Select(f => (File: f.Name, f.Job)).Concat(packets.Select(p => (File: p, Job: Path.GetDirectoryName(Path.GetFullPath(p))!))).DistinctBy(f => f.File).ToDictionary(f => f.File, f => f.Job, StringComparer.Ordinal)) : null;
    }

    // Where drawings of several folders are planned together, each folder is a job: what is bought is shared among them.
    private static List<Planned> ByJob(List<Planned> planned, IReadOnlyDictionary<string, string> jobs)
    {
        if (jobs.Values.Distinct(StringComparer.Ordinal).Skip(1).Any())
            return planned.ConvertAll(p => p with { Pieces = p.Pieces.ConvertAll(x => x with { Job = NameOf(jobs[p.File]) }) });
        return planned;

        // The folder's name; with the folder above it where two are called the same.
        string NameOf(string folder) => jobs.Values.Distinct(StringComparer.Ordinal).Count(f => Path.GetFileName(f) == Path.GetFileName(folder)) > 1 ? $"{Path.GetFileName(Path.GetDirectoryName(folder))}/{Path.GetFileName(folder)}" : Path.GetFileName(folder);
    }

    private static void Save(string folder, CuttingPlan plan, Rack rack, Paper paper, Paper? labels)
    {
        using var output = new OutputFolder(folder);
        using (var stream = output.Create("cut.json"))
        using (var json = new Utf8JsonWriter(stream, JsonOption.Writing with { Indented = true }))
            CuttingPlanJson.Write(json, plan, ThisProgram.Version);
        using (var csv = new StreamWriter(output.Create("cut.csv")))
            CuttingPlanTables.Csv(csv, CuttingPlanTables.Rows(plan));
        using (var csv = new StreamWriter(output.Create("rack-after.csv")))
            CuttingPlanTables.Csv(csv, CuttingPlanTables.Rows(plan.RackAfter));
        using (var yaml = new StreamWriter(output.Create("rack-after.yaml")))
            CuttingPlanTables.Yaml(yaml, rack, plan);
        using (var xlsx = output.Create("cut.xlsx"))
            CuttingPlanTables.Xlsx(xlsx, plan);
        using (var pdf = output.Create("cut.pdf"))
            new Booklet("Cutting plan", CuttingPages.Of(plan, paper)).WritePdf(pdf);
        using (var pdf = output.Create("labels.pdf"))
            CuttingLabels.WritePdf(pdf, plan, paper, labels);
        using (var csv = new StreamWriter(output.Create("buy.csv")))
            CuttingPlanTables.Csv(csv, CuttingPlanTables.Rows(plan.Purchases), CuttingPlanTables.ToBuy);
        output.Commit();
    }

    // On a terminal only: what is being planned, and how good the plan in hand is.
    private static Action<CuttingProgress>? Progress()
    {
        if (Console.IsErrorRedirected)
            return null;
        var last = "";
        return p =>
        {
            var line = $"\r{p}";
            if (line == last)
                return;
            Console.Error.Write(line.PadRight(Math.Max(line.Length, last.Length)) + (p.Group == p.Groups && p.Bars is not null && p.Gap == 0 ? "\n" : ""));
            last = line;
        };
    }

    private static void Show(CuttingPlan plan)
    {
        var table = new Spectre.Console.Table().Border(TableBorder.Simple);
        table.AddColumn("Pipe");
        foreach (var heading in (string[])["Bars", "Pieces", "Used, m", "Cost", "Waste, %", "Plans"])
            table.AddColumn(new TableColumn(heading).RightAligned());
        table.AddColumn("Verdict");
        foreach (var g in plan.Groups)
        {
            table.AddRow(
                Markup.Escape(g.Pipe.ToString()), Number(g.NewBars), Number(g.Bars.Sum(b => b.Pieces.Count)), (g.Used / 1000).ToString("0.0", CultureInfo.InvariantCulture),
                g.IsMoney ? g.Cost.ToString("0.00", CultureInfo.InvariantCulture) : "",
                g.WastePercent.ToString("0.0", CultureInfo.InvariantCulture), Number(g.Plans), g.Verdict);
        }

        // On the output as it is now, not as it was when the library was first called.
        AnsiConsole.Create(new AnsiConsoleSettings { Out = new AnsiConsoleOutput(Console.Out) }).Write(table);
        foreach (var purchase in plan.Purchases)
        {
            Console.WriteLine(string.Create(CultureInfo.InvariantCulture,
                $"buy {purchase.Count} x {purchase.Length:0.##} mm of {purchase.Pipe}{(purchase.Cost is { } cost ? $" for {cost:0.00}" : "")}{(purchase.Supplier.Length > 0 ? $" from {purchase.Supplier}" : "")}{(purchase.Certificate.Length > 0 ? $", {purchase.Certificate}" : "")}"));
        }

        if (plan.Purchases.Any() && plan.PurchaseCost is { } together)
            Console.WriteLine(string.Create(CultureInfo.InvariantCulture, $"to buy, all together: {together:0.00}"));
        foreach (var share in plan.SharedByJob)
            Console.WriteLine(string.Create(CultureInfo.InvariantCulture, $"of it for {share.Job}: {share.Percent:0.0} %{(share.Cost is { } part ? $", {part:0.00}" : "")}"));
        foreach (var (piece, why) in plan.Unplaced)
            Console.WriteLine($"not placed: {piece.FullName} ({piece.Pipe}): {why}");
    }

    private static string Number(int n) => n.ToString(CultureInfo.InvariantCulture);

    private static byte[] Bytes(string file) =>
        new FileInfo(file).Length <= Largest ? File.ReadAllBytes(file) : throw new IOException($"{file} is larger than 256 MB: is this the right file?");

    private static void Print(Action<Utf8JsonWriter> write)
    {
        using (var output = Console.OpenStandardOutput())
        using (var json = new Utf8JsonWriter(output, JsonOption.Writing))
            write(json);
        Console.WriteLine();
    }
}
