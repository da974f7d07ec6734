using System.CommandLine;
using System.Globalization;
using System.Text;
using System.Text.Json;
using Rootgap.Drawings;
using Rootgap.Findings;
using Rootgap.FitUp;
using Rootgap.Measure;
using Rootgap.Packets;
using Rootgap.Sheets;

namespace Rootgap.Cli.Commands;

/// <summary><c>rootgap fit</c>: what every reading at a joint should be, and what readings that are off mean.</summary>
internal static class FitCommand
{
    private sealed record Request(string Drawing, string Joint, string? Readings, string? SetUp, double? Mark, bool Flip, bool Ask, bool Keep, string? Card, bool Json);

    public static Command Create()
    {
        var drawing = new Argument<string>("DRAWING") { Description = "The drawing file (YAML)." };
        var joint = new Option<string>("--joint") { Description = "The weld, as on the weld map: W3.", Required = true };
        var readings = new Option<string?>("--readings") { Description = "File with the readings taken (YAML)." };
        var setUp = new Option<string?>("--set-up") { Description = "\"on end\", level, rolled (a quarter, toward 3 o'clock) or \"rolled 270\"; left out: on end where a short piece stands safely, else level." };
        var mark = new Option<double?>("--mark") { Description = "Distance of the quarter marks back from the end of the held pipe, mm; default 300, or half a short piece." };
        var flip = new Option<bool>("--flip") { Description = "Hold the other part." };
        var ask = new Option<bool>("--ask") { Description = "Type the readings at a prompt, one after the other." };
        var noRecord = new Option<bool>("--no-record") { Description = "Do not add the readings to the joint's record beside the drawing." };
        var card = OutOption.Named(new Option<string?>("--card") { Description = "Write the joint's card to this file, as .svg, .pdf or .png." });
        var json = JsonOption.Create();
        var command = new Command("fit", "What each reading at a joint should be; with readings, where the part is and what to do.\n\nExample: rootgap fit line.yaml --joint W3 --readings w3.yaml")
        {
            drawing, joint, readings, setUp, mark, flip, ask, noRecord, card, json,
        };
        command.SetAction(r => Run(new(
            r.GetValue(drawing)!, r.GetValue(joint)!, r.GetValue(readings), r.GetValue(setUp), r.GetValue(mark), r.GetValue(flip), r.GetValue(ask), !r.GetValue(noRecord), r.GetValue(card), r.GetValue(json))));
        return command;
    }

    private const long LargestReadings = 1 << 20;

    private static int Run(Request request)
    {
        var printer = FindingPrinter.ForConsole(Console.Error, Console.IsErrorRedirected);
        if (!File.Exists(request.Drawing))
            return Refuse(ExitCode.Unreadable, $"{request.Drawing}: there is no such file.");
        var opened = DrawingFiles.Open(request.Drawing);
        printer.Know(request.Drawing, opened.Text);
        if (opened.Packet is not { Drawing: { } drawing } packet)
        {
            printer.Print(opened.Findings);
            return opened.Exit;
        }
        var fitting = new FitJoints(packet.Fabrication);
        if (fitting.Welds.FirstOrDefault(j => j.Id.Equals(request.Joint, StringComparison.OrdinalIgnoreCase)) is not { } weld)
            return Refuse(ExitCode.Usage, NoSuchJoint(request.Joint, packet, fitting));

        FitReadings? file = null;
        if (request.Readings is { } name)
        {
            if (!File.Exists(name))
                return Refuse(ExitCode.Unreadable, $"{name}: there is no such file.");
            var (written, bad, kind) = FileText.Of(InputFile.Bytes(name, LargestReadings));
            if (bad.Line > 0)
                return Refuse(ExitCode.Unreadable, string.Create(CultureInfo.InvariantCulture, $"{name}:{bad.Line}:{bad.Column}: the file is {kind}: save it again as UTF-8."));
            printer.Know(name, written);
            file = FitReadings.Read(written, name);
            if (file.Errors.Count > 0)
            {
                printer.Print(file.Errors);
                return ExitCode.Unreadable;
            }
            if (file.Joint.Length > 0 && !file.Joint.Equals(weld.Id, StringComparison.OrdinalIgnoreCase))
                return Refuse(ExitCode.Usage, $"{name}: these readings were taken at {file.Joint}, not at {weld.Id}.");
        }

        var flip = request.Flip || (file is { Held.Length: > 0 } && file.Held != fitting.Of(weld).Held.Id && file.Held == fitting.Of(weld, flip: true).Held.Id);
        var joint = fitting.Of(weld, flip);
        var attitude = file?.SetUp;
        if (request.SetUp is { } wanted && (attitude = SetUp.Parse(wanted)) is null)
            return Refuse(ExitCode.Usage, $"\"{wanted}\" is not a set-up: it is one of \"on end\", level, rolled, or \"rolled 270\" with its degrees.");
        var mark = request.Mark ?? file?.Mark;
        if (mark is { } m && (m < 0 || (0 < joint.HeldStraight && joint.HeldStraight < m)))
            return Refuse(ExitCode.Usage, string.Create(CultureInfo.InvariantCulture, $"A mark {m:0.##} mm back is not on {joint.Held.Id}, which is {joint.HeldStraight:0} mm long."));
        var setUp = attitude is { } chosen ? SetUp.Of(joint, chosen.Attitude, chosen.Roll) : SetUp.Usual(joint);
        var standing = new StandingJoint(joint, setUp, mark);
        var tolerance = fitting.Limits(weld, joint);
        var targets = Targets.Of(standing, tolerance);

        if (request.Card is { } to && WriteCard(to, packet, fitting, weld, standing, tolerance, targets) is { } refused)
            return Refuse(ExitCode.Usage, refused);

        IReadOnlyList<Taken>? taken = null;
        if (file is not null)
        {
            List<Finding> wrong = [.. file.Entries
                .Select(e => (e.Where, Wrong: FitReadings.Wrong(e.Taken, standing)))
                .Where(e => e.Wrong is not null)
                .Select(e => new Finding("bad-reading", Severity.Stop, "", e.Where, e.Wrong!.Value.Message, e.Wrong.Value.Remedy))];
            if (wrong.Count > 0)
            {
                printer.Print(wrong);
                return ExitCode.Unreadable;
            }
            taken = [.. file.Entries.Select(e => e.Taken)];
        }
        else if (request.Ask)
        {
            taken = FitPrompt.Ask(standing, targets, Console.In, request.Json ? Console.Error : Console.Out);
        }

        var found = taken is null ? null : Diagnosis.Of(standing, tolerance, taken, targets);
        var say = found is null ? [] : Remedy.Say(standing, tolerance, found);
        if (request.Json)
        {
            using var json = new Utf8JsonWriter(Console.OpenStandardOutput(), JsonOption.Writing);
            FitOutput.Write(json, standing, tolerance, targets, found, say);
        }
        else
        {
            FitOutput.Print(Console.Out, standing, tolerance, targets, taken, found, say);
        }
        if (found is not null && taken is { Count: > 0 } && request.Keep)
            Keep(request.Drawing, weld.Id, FitRecord.Entry(standing, taken, found, say, drawing.Number, drawing.Revision, DateTimeOffset.Now));
        return !packet.IsBuildable ? ExitCode.Stop : found is { Within: false } ? ExitCode.Warn : ExitCode.Done;
    }

    // The card as it stands in the packet, but for the set-up, which is the one asked for.
    private static string? WriteCard(string file, Packet packet, FitJoints fitting, Routes.Joint weld, StandingJoint standing, FitTolerance tolerance, IReadOnlyList<Target> targets)
    {
        var joint = standing.Joint;
        var cards = packet.Fabrication.Spools.Where(s => s.Joints.Contains(weld)).SelectMany(s => FitUpPages.Cards(fitting, packet.Fabrication, s)).ToList();
        var planned = cards.Find(c => c.Step.Joint.Name == weld.Id);
        var step = (planned?.Step ?? new FitStep(1, joint, standing.SetUp, 0, CanRoll: false, joint.New.Mass, [])) with { Joint = joint, SetUp = standing.SetUp };
        var job = new FitUpJob(step, Math.Max(1, cards.Count), standing, tolerance, targets, FitUpPages.Names(packet.Fabrication, joint));
        var scene = FitUpCard.Scene(job);
        switch (Path.GetExtension(file).ToUpperInvariant())
        {
            case ".SVG":
                OutputFile.Write(file, to => SvgWriter.Write(scene, to));
                return null;
            case ".PDF":
                OutputFile.Write(file, to => PdfWriter.Write(to, scene.Title, [scene]));
                return null;
            case ".PNG":
                OutputFile.Write(file, to => PngWriter.Write(scene, 150, to));
                return null;
            default:
                return $"{file}: a card is written as .svg, .pdf or .png.";
        }
    }

    private static string NoSuchJoint(string name, Packet packet, FitJoints fitting)
    {
        if (packet.Fabrication.Route.Joints.FirstOrDefault(j => j.Id.Equals(name, StringComparison.OrdinalIgnoreCase)) is { } other)
            return other.IsWeld ? $"{other.Id} joins this drawing to a line that is not in it: there is nothing to work its readings out from." : $"{other.Id} is no weld: fit-up is for welds.";
        var known = fitting.Welds.Select(j => j.Id).ToList();
        var near = Nearest.To(name, known);
        return $"There is no joint {name} in this drawing. " + (near is null ? "" : $"Did you mean {near}? ") + (known.Count > 0 ? $"Its welds are {known[0]} to {known[^1]}." : "It has no weld.");
    }

    // Appended, never overwritten: a joint measured again keeps both.
    private static void Keep(string drawing, string joint, string entry)
    {
        var record = Path.Combine(Path.GetDirectoryName(Path.GetFullPath(drawing))!, $"{Path.GetFileNameWithoutExtension(drawing)}.{joint}.readings.yaml");
        try
        {
            File.AppendAllText(record, entry, new UTF8Encoding(false));
        }
        catch (Exception e) when (e is IOException or UnauthorizedAccessException)
        {
            Console.Error.WriteLine($"The readings could not be added to {record}: {e.Message} Write them down, or use --no-record.");
        }
    }

    private static int Refuse(int code, string message)
    {
        Console.Error.WriteLine(message);
        return code;
    }
}
