using System.CommandLine;
using System.Globalization;
using System.Text.Json;
using Rootgap.Fabricating;
using Rootgap.FitUp;

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
        var command = new Command("fit-order", "The order in which a spool's joints are fitted, with its set-ups: fewest turn-overs first.\n\nExample: rootgap fit-order line.yaml --spool 2 --order \"W4, W3\"") { drawing, spool, order, json };
        command.SetAction(r => Run(r.GetValue(drawing)!, r.GetValue(spool), r.GetValue(order), r.GetValue(json)));
        return command;
    }

    private static int Run(string file, string? name, string? order, bool asJson)
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
        var fitting = new FitJoints(fabrication);
        var plans = new List<(Spool Spool, IReadOnlyList<FitStep> Steps)>();
        foreach (var spool in spools)
        {
            var joints = fitting.OfSpool(spool);
            if (order is null)
            {
                plans.Add((spool, FitOrder.Of(joints)));
                continue;
            }

            if (Chosen(joints, order, out var wrong) is not { } chosen)
                return Refuse(wrong);
            try
            {
                plans.Add((spool, FitOrder.Of(joints, chosen)));
            }
            catch (ArgumentException e)
            {
                return Refuse(e.Message);
            }
        }

        if (!packet.IsBuildable)
            Console.Error.WriteLine($"{file}: NOT FOR FABRICATION: {FindingPrinter.Summary(packet.Findings)}; say `rootgap check` for what is wrong");
        if (asJson)
            Json(plans, packet.IsBuildable);
        else
            Print(plans);
        return opened.ExitOfMaking;
    }

    /// <summary>The joints as the fitter names them, each once and all of them; null with what is wrong.</summary>
    private static List<(int Joint, Attitude? Attitude)>? Chosen(IReadOnlyList<FitJoint> joints, string order, out string wrong)
    {
        var chosen = new List<(int, Attitude?)>();
        var names = joints.Select(j => j.Name).ToList();
        foreach (var word in order.Split(',', StringSplitOptions.TrimEntries | StringSplitOptions.RemoveEmptyEntries))
        {
            var parts = word.Split(' ', 2, StringSplitOptions.TrimEntries);
            var index = names.FindIndex(n => n.Equals(parts[0], StringComparison.OrdinalIgnoreCase));
            if (index < 0 || chosen.Exists(c => c.Item1 == index))
            {
                wrong = index < 0 ? $"{parts[0]} is no weld of this spool. Its welds are: {string.Join(", ", names)}." : $"{parts[0]} stands twice in the order.";
                return null;
            }

            Attitude? attitude = null;
            if (parts.Length > 1)
            {
                if (SetUp.Parse(parts[1]) is not { } wanted)
                {
                    wrong = $"\"{parts[1]}\" is not a set-up: it is on end, level or rolled.";
                    return null;
                }

                attitude = wanted.Attitude;
            }

            chosen.Add((index, attitude));
        }

        wrong = chosen.Count == names.Count ? "" : $"The order leaves out {string.Join(", ", names.Where((_, i) => !chosen.Exists(c => c.Item1 == i)))}: give every weld of the spool.";
        return wrong.Length == 0 ? chosen : null;
    }

    private static void Print(List<(Spool Spool, IReadOnlyList<FitStep> Steps)> plans)
    {
        foreach (var (spool, steps) in plans)
        {
            Console.Out.WriteLine(string.Create(CultureInfo.InvariantCulture, $"spool {spool.Name}: {steps.Count} joints, {steps.Sum(s => s.TurnOvers)} turn-overs"));
            foreach (var s in steps)
            {
                Console.Out.WriteLine(string.Create(CultureInfo.InvariantCulture,
                    $"  {s.Number}. {s.Joint.Name}: hold {s.Joint.Held.Id}, bring {s.Joint.New.Id}; {s.SetUp.Word}{(s.TurnOvers > 0 ? ", turn it over first" : "")}{(s.CanRoll ? ", can be rolled" : "")}; lift {s.Lift:0.#} kg{(s.InTheWay.Count > 0 ? "; IN THE WAY of a tack: " + string.Join(", ", s.InTheWay) : "")}"));
            }
        }
    }

    private static void Json(List<(Spool Spool, IReadOnlyList<FitStep> Steps)> plans, bool isBuildable)
    {
        using var json = new Utf8JsonWriter(Console.OpenStandardOutput(), JsonOption.Writing);
        json.WriteStartObject();
        json.WriteBoolean("buildable", isBuildable);
        json.WriteStartArray("spools");
        foreach (var (spool, steps) in plans)
        {
            json.WriteStartObject();
            json.WriteString("spool", spool.Name);
            json.WriteNumber("turn-overs", steps.Sum(s => s.TurnOvers));
            json.WriteStartArray("steps");
            foreach (var s in steps)
            {
                json.WriteStartObject();
                json.WriteNumber("number", s.Number);
                json.WriteString("joint", s.Joint.Name);
                json.WriteString("held", s.Joint.Held.Id);
                json.WriteString("new", s.Joint.New.Id);
                json.WriteString("set-up", s.SetUp.Word);
                json.WriteNumber("turn-overs", s.TurnOvers);
                json.WriteBoolean("can roll", s.CanRoll);
                json.WriteNumber("lift", Math.Round(s.Lift, 2));
                json.WriteEndObject();
            }

            json.WriteEndArray();
            json.WriteEndObject();
        }

        json.WriteEndArray();
        json.WriteEndObject();
    }

    private static int Refuse(string message)
    {
        Console.Error.WriteLine(message);
        return ExitCode.Usage;
    }
}
