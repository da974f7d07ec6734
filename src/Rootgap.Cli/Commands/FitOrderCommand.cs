using System.CommandLine;
using System.Globalization;
using System.Text.Json;
using Rootgap.Fabricating;
using Rootgap.FitUp;
using Rootgap.Records;
using Rootgap.Sheets;
using Rootgap.Store;

namespace Rootgap.Cli.Commands;

/// <summary><c>rootgap fit-order</c>: in which order the joints of a spool are fitted, and how it stands at each; a fitter may give his own order.</summary>
internal static class FitOrderCommand
{
    public static Command Create()
    {
        var drawing = new Argument<string>("DRAWING") { Description = "The drawing file (YAML)." };
        var spool = new Option<string?>("--spool") { Description = "Only this spool." };
        var order = new Option<string?>("--order") { Description = "Your own order of the spool's welds, with a set-up where you want another: \"W3, W2 level, W1 on end\". Needs --spool." };
        var json = JsonOption.Create();
        var records = new RecordsOption("joints tacked and welded stand first, as they were made", "As if nothing had been entered in the app.");
        var command = new Command("fit-order", "The order in which a spool's joints are fitted, with its set-ups: fewest turn-overs first.\n\nExample: rootgap fit-order line.yaml --spool 2 --order \"W4, W3\"") { drawing, spool, order, json };
        records.AddTo(command);
        command.SetAction(r => Run(r.GetValue(drawing)!, r.GetValue(spool), r.GetValue(order), records.Of(r), r.GetValue(json)));
        return command;
    }

    private static int Run(string file, string? name, string? order, RecordsOption.Wanted records, bool asJson)
    {
        var printer = FindingPrinter.ForConsole(Console.Error, Console.IsErrorRedirected);
        var opened = DrawingFiles.Open(file);
        printer.Know(file, opened.Text);
        if (opened.Packet is not { } packet)
        {
            printer.Print(opened.Findings);
            return opened.ExitOfMaking;
        }

        var fabrication = packet.Fabrication;
        var spools = fabrication.Spools.Where(s => name is null || s.Name == name).ToList();
        if (spools.Count == 0)
            return Refuse($"There is no spool {name}. The spools are: {string.Join(", ", fabrication.Spools.Select(s => s.Name))}.");
        if (order is not null && name is null)
            return Refuse("An order is of one spool: say which with --spool.");
        DrawingRecord? done;
        try
        {
            done = order is null ? JobRecords.OnDrawing(records, file, fabrication) : null;
        }
        catch (StoreException e)
        {
            Console.Error.WriteLine($"{e.Message}\n  do: {e.Remedy} Or go by the drawing alone: --without-records.");
            return ExitCode.Unreadable;
        }

        var fitting = new FitJoints(fabrication);
        var plans = new List<(Spool Spool, FitSpool Fit, IReadOnlyList<FitStep> Steps)>();
        foreach (var spool in spools)
        {
            var fit = fitting.OfSpool(spool);
            if (order is null)
            {
                plans.Add((spool, fit, done is null ? FitOrder.Of(fit) : new SpoolAsMade(fit, done).Steps));
                continue;
            }

            if (Chosen(fit, order, isWhole: true, out var wrong) is not { } chosen)
                return Refuse(wrong);
            var (steps, refused) = FitOrder.Of(fit, chosen);
            if (refused is not null)
                return Refuse(refused);
            plans.Add((spool, fit, steps));
        }

        if (!packet.IsBuildable)
            Console.Error.WriteLine($"{file}: NOT FOR FABRICATION: {FindingPrinter.Summary(packet.Findings)}; say `rootgap check` for what is wrong");
        if (asJson)
        {
            using var json = new Utf8JsonWriter(Console.OpenStandardOutput(), JsonOption.Writing);
            FitOrderJson.Write(json, plans, packet.IsBuildable, order is null);
        }
        else
        {
            Print(plans, new(packet.Drawing.Units, id => Wording.NameOf(fabrication, id)), order is null);
        }

        return opened.ExitOfMaking;
    }

    /// <summary>The joints as the fitter names them, each once; null with what is wrong.</summary>
    /// <param name="isWhole">All welds of the spool have to be there.</param>
    public static List<FitOrder.Wish>? Chosen(FitSpool spool, string order, bool isWhole, out string wrong)
    {
        var chosen = new List<FitOrder.Wish>();
        var names = spool.Welds.Select(w => w.Id).ToList();
        foreach (var word in order.Split(',', StringSplitOptions.TrimEntries | StringSplitOptions.RemoveEmptyEntries))
        {
            var parts = word.Split(' ', 2, StringSplitOptions.TrimEntries);
            var index = names.FindIndex(n => n.Equals(parts[0], StringComparison.OrdinalIgnoreCase));
            if (index < 0 || chosen.Exists(c => c.Weld == index))
            {
                wrong = index < 0 ? $"{parts[0]} is no weld of this spool. Its welds are: {string.Join(", ", names)}." : $"{parts[0]} stands twice in the order.";
                return null;
            }

            if (parts.Length == 1)
            {
                chosen.Add(new(index));
                continue;
            }

            if (SetUp.Parse(parts[1]) is not var (attitude, roll))
            {
                wrong = $"\"{parts[1]}\" is not a set-up: it is {SetUp.Words}.";
                return null;
            }

            // Plain "rolled" leaves open how far.
            chosen.Add(new(index, attitude, attitude == Attitude.Rolled && parts[1].Contains(' ', StringComparison.Ordinal) ? roll : null));
        }

        wrong = !isWhole || chosen.Count == names.Count ? "" : $"The order leaves out {string.Join(", ", names.Where((_, i) => !chosen.Exists(c => c.Weld == i)))}: give every weld of the spool.";
        return wrong.Length == 0 ? chosen : null;
    }

    private static void Print(List<(Spool Spool, FitSpool Fit, IReadOnlyList<FitStep> Steps)> plans, FitWords words, bool isPlanned)
    {
        foreach (var (spool, fit, steps) in plans)
        {
            Console.Out.WriteLine(string.Create(CultureInfo.InvariantCulture, $"spool {spool.Name}: {steps.Count} joints, {steps.Sum(s => s.TurnOvers)} turn-overs{(isPlanned && !FitOrder.LooksAtAll(fit) ? "; the best of the most promising orders: of more than eight parts not all are compared" : "")}"));
            foreach (var card in FitWork.Cards(fit, steps))
            {
                var s = card.Step;
                Console.Out.WriteLine(string.Create(CultureInfo.InvariantCulture,
                    $"  {s.Number}. {words.Head(card)}{(s.TurnOvers > 0 ? "; turn it over first" : "")}{(s.CanRoll ? "; can be rolled" : "")}{(s.InTheWay.Count > 0 ? "; IN THE WAY of a tack: " + string.Join(", ", s.InTheWay.Select(words.NameOf)) : "")}"));
                foreach (var line in words.Standing(card))
                    Console.Out.WriteLine("     " + line);
            }
        }
    }

    private static int Refuse(string message)
    {
        Console.Error.WriteLine(message);
        return ExitCode.Usage;
    }
}
