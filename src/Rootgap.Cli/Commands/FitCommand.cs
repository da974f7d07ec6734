using System.CommandLine;
using System.Globalization;
using System.Text.Json;
using Rootgap.Drawings;
using Rootgap.Findings;
using Rootgap.FitUp;
using Rootgap.Packets;
using Rootgap.Records;
using Rootgap.Routes;
using Rootgap.Sheets;
using Rootgap.Store;

namespace Rootgap.Cli.Commands;

/// <summary><c>rootgap fit</c>: what every reading at a joint should be, and what readings that are off mean.</summary>
internal static class FitCommand
{
    private sealed record Request(
        string Drawing, string[] Joints, string[] Readings, string? SetUp, string? After, string? Order, double? Mark, bool Flip, bool Ask, bool Keep, string? Card, string? Final, RecordsOption.Wanted Records, bool Json);

    public static Command Create()
    {
        var drawing = new Argument<string>("DRAWING") { Description = "The drawing file (YAML)." };
        var joint = new Option<string[]>("--joint") { Description = "The weld, as on the weld map: W3. May be given more than once; left out, every joint that the readings name.", AllowMultipleArgumentsPerToken = true };
        var readings = new Option<string[]>("--readings") { Description = "File with the readings taken (YAML), of one joint or of many; may be given more than once, each for itself.", AllowMultipleArgumentsPerToken = true };
        var setUp = new Option<string?>("--set-up") { Description = $"{FitUp.SetUp.Words}; left out: as on the joint's card. Without --after and --order the two parts alone." };
        var after = new Option<string?>("--after") { Description = "The order of work as `fit-order --json` printed it: the joint as it stands after the steps before it." };
        var order = new Option<string?>("--order") { Description = "The order of work as you do it: \"W3, W4 level, W5\"." };
        var mark = new Option<double?>("--mark") { Description = "Distance of the quarter marks back from the end of the held pipe, mm; default 300, or half a short piece." };
        var flip = new Option<bool>("--flip") { Description = "Hold the other part." };
        var ask = new Option<bool>("--ask") { Description = "Type the readings at a prompt, one after the other." };
        var noRecord = new Option<bool>("--no-record") { Description = "Do not add the readings to the joint's record beside the drawing." };
        var card = OutOption.Named(new Option<string?>("--card") { Description = "Write the joint's card to this file, as .svg, .pdf or .png." });
        var final = new Option<string?>("--final") { Description = "In place of a joint: the final check of this spool, from end to end. Its readings file begins with `spool: 2`; readings of its joints may be given beside it." };
        var records = new RecordsOption("joints tacked, read and welded, readings of the final check", "As if nothing had been entered in the app.");
        var json = JsonOption.Create();
        var command = new Command("fit", "What each reading at a joint should be; with readings, where the part is and what to do. Ends with 0 where it is within (or nothing was asked), 1 where it is not or not enough is read.\n\nExample: rootgap fit line.yaml --joint W3 --readings w3.yaml")
        {
            drawing, joint, readings, setUp, after, order, mark, flip, ask, noRecord, card, final, json,
        };
        records.AddTo(command);
        command.SetAction(r => Run(new(
            r.GetValue(drawing)!, r.GetValue(joint) ?? [], r.GetValue(readings) ?? [], r.GetValue(setUp), r.GetValue(after), r.GetValue(order), r.GetValue(mark), r.GetValue(flip), r.GetValue(ask),
            !r.GetValue(noRecord), r.GetValue(card), r.GetValue(final), records.Of(r), r.GetValue(json))));
        return command;
    }

    /// <summary>One joint with one file of readings, answered.</summary>
    private sealed record Answer(FitCard Card, FitSpool? Spool, IReadOnlyList<Taken>? Taken, Diagnosis? Found, IReadOnlyList<string> Say);

    private const long LargestOrder = 1 << 24;

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

        DrawingRecord? done;
        try
        {
            done = JobRecords.OnDrawing(request.Records, request.Drawing, packet.Fabrication);
        }
        catch (StoreException e)
        {
            return Refuse(ExitCode.Unreadable, $"{e.Message}\n  do: {e.Remedy} Or go by the drawing alone: --without-records.");
        }

        var fitting = new FitJoints(packet.Fabrication);
        if (request.Final is { } spoolName)
        {
            return request.Joints.Length > 0 ? Refuse(ExitCode.Usage, "--joint and --final are two questions: ask one of them.")
                : FitFinal.Run(request.Drawing, spoolName, request.Readings, packet, fitting, done, printer, request.Json, request.Keep);
        }

        var words = new FitWords(drawing.Units, id => Wording.NameOf(packet.Fabrication, id));
        List<(string Name, IReadOnlyList<FitReadings> Sets)> files = [];
        foreach (var name in request.Readings)
        {
            if (ReadingsFile.Text(name, printer) is not { } written)
                return ExitCode.Unreadable;
            var (sets, errors) = FitReadings.ReadAll(written, name);
            if (errors.Count > 0)
            {
                printer.Print(errors);
                return ExitCode.Unreadable;
            }

            foreach (var set in sets.Where(s => s.Joint.Length > 0))
            {
                if (Weld(fitting, set.Joint) is null)
                    return Refuse(ExitCode.Usage, $"{name}: {NoSuchJoint(set.Joint, packet, fitting)}");
            }

            files.Add((name, sets));
        }

        var wanted = request.Joints.Length > 0
            ? request.Joints.SelectMany(j => j.Split(',', StringSplitOptions.TrimEntries | StringSplitOptions.RemoveEmptyEntries)).ToList()
            : [.. files.SelectMany(f => f.Sets).Where(s => s.Error is null && s.Joint.Length > 0).Select(s => s.Joint).Distinct(StringComparer.OrdinalIgnoreCase)];
        if (wanted.Count == 0)
            return Refuse(ExitCode.Usage, "Which joint? Give it with --joint W3, or readings that name theirs.");
        List<Answer> answers = [];
        foreach (var (name, sets) in files.Count > 0 ? files : [("", [])])
        {
            foreach (var one in wanted)
            {
                if (Weld(fitting, one) is not { } weld)
                    return Refuse(ExitCode.Usage, NoSuchJoint(one, packet, fitting));
                // A file of one set whose joint is not said is of the joint asked for.
                var own = sets.LastOrDefault(s => Is(s.Joint, weld.Id)) ?? (sets.Count > 0 && sets.All(s => s.Joint.Length == 0) ? sets[^1] : null);
                if (own is null && sets.Count > 0 && sets.All(s => s.Error is null) && sets.Select(s => s.Joint).Distinct().Count() == 1)
                    return Refuse(ExitCode.Usage, $"{name}: these readings were taken at {sets[0].Joint}, not at {weld.Id}.");
                if (Card(request, fitting, weld, own, sets, done, out var spool, out var wrong) is not { } card)
                    return Refuse(ExitCode.Usage, wrong);
                if (own is { Error: null } && Wrong(own, card.Standing) is { Count: > 0 } impossible)
                {
                    printer.Print(impossible);
                    return ExitCode.Unreadable;
                }

                IReadOnlyList<Taken>? taken = own is { Error: null } ? [.. own.Entries.Select(e => e.Taken)] : null;
                if (taken is null && request.Ask)
                    taken = FitPrompt.Ask(card.Standing, [.. card.Targets, .. card.OfPart], words, Console.In, request.Json ? Console.Error : Console.Out);
                var found = taken is null ? null : Diagnosis.Of(card.Standing, card.Limits, taken, card.Targets);
                List<string> say = found is null ? [] : [.. Remedy.Say(card.Standing, card.Limits, found, drawing.Units)];
                // Of several sets of one joint the one before the last says what has moved, as by a tack.
                var earlier = own is null ? null : sets.LastOrDefault(s => s != own && s.Error is null && s.IsWelded == own.IsWelded && Is(s.Joint, weld.Id) && Wrong(s, card.Standing).Count == 0);
                if (found is not null && earlier is not null)
                    say.Add(Remedy.Since(Diagnosis.Of(card.Standing, card.Limits, [.. earlier.Entries.Select(e => e.Taken)], card.Targets), found, drawing.Units));
                answers.Add(new(card, spool, taken, found, say));
            }
        }

        if (request.Card is { } to && WriteCard(to, packet, answers[0]) is { } refused)
            return Refuse(ExitCode.Usage, refused);
        Write(request, answers, words);
        foreach (var (card, _, taken, found, say) in answers)
        {
            if (found is not null && taken is { Count: > 0 } && request.Keep)
                ReadingsFile.Keep(request.Drawing, card.Step.Weld.Id, FitRecord.Entry(card.Standing, taken, found, say, drawing.Number, drawing.Revision, DateTimeOffset.Now));
        }

        return !packet.IsBuildable ? ExitCode.Stop : answers.Exists(a => a.Found is { Within: false }) ? ExitCode.Warn : ExitCode.Done;
    }

    private static void Write(Request request, List<Answer> answers, FitWords words)
    {
        if (!request.Json)
        {
            for (var i = 0; i < answers.Count; i++)
            {
                if (i > 0)
                    Console.Out.WriteLine();
                FitOutput.Print(Console.Out, answers[i].Card, answers[i].Taken, answers[i].Found, answers[i].Say, words);
            }

            return;
        }

        using var json = new Utf8JsonWriter(Console.OpenStandardOutput(), JsonOption.Writing);
        if (answers.Count == 1)
        {
            FitJson.Write(json, answers[0].Card, answers[0].Found, answers[0].Say);
            return;
        }

        json.WriteStartObject();
        json.WriteStartArray("joints");
        foreach (var answer in answers)
            FitJson.Write(json, answer.Card, answer.Found, answer.Say);
        json.WriteEndArray();
        json.WriteEndObject();
    }

    private static bool Is(string name, string joint) => name.Equals(joint, StringComparison.OrdinalIgnoreCase);

    private static Joint? Weld(FitJoints fitting, string name) => fitting.Welds.FirstOrDefault(j => Is(name, j.Id));

    // The joint's card: as planned, in the order that is given, or of the two parts alone.
    private static FitCard? Card(Request request, FitJoints fitting, Joint weld, FitReadings? own, IReadOnlyList<FitReadings> sets, DrawingRecord? done, out FitSpool? spool, out string wrong)
    {
        (spool, wrong) = (null, "");
        var wish = request.SetUp is { } word ? SetUp.Parse(word) : own?.SetUp;
        if (request.SetUp is { } text && wish is null)
        {
            wrong = $"\"{text}\" is not a set-up: it is one of {SetUp.Words}.";
            return null;
        }

        var mark = request.Mark ?? own?.Mark;
        var (isOrdered, home) = (request.After is not null || request.Order is not null, fitting.SpoolOf(weld));
        if (isOrdered && home is null)
        {
            wrong = $"{weld.Id} is no weld of a spool: no order of work goes to it.";
            return null;
        }

        if (home is null || (!isOrdered && (request.SetUp is not null || request.Flip)))
            return Alone(request, fitting, weld, own, wish, mark, out wrong);
        spool = fitting.OfSpool(home);
        var made = done is null ? null : new SpoolAsMade(spool, done);
        if (Steps(request, spool, weld, made, out wrong) is not { } steps)
            return null;
        var upTo = steps.TakeWhile(s => s.Weld.Id != weld.Id).Append(steps.First(s => s.Weld.Id == weld.Id)).ToList();
        var (wants, held) = (isOrdered || request.SetUp is not null || own?.SetUp is not null ? wish : null, request.Flip ? Other(weld, upTo[^1]) : own is { Held.Length: > 0 } ? Named(upTo[^1].Joint, own.Held) : upTo[^1].Joint.Held.Id);
        if ((wants is { } w && !FitWork.IsSo(upTo[^1], w)) || held != upTo[^1].Joint.Held.Id)
        {
            if (FitWork.Otherwise(spool, upTo[^1], wants, held, out wrong) is not { } other)
                return null;
            upTo[^1] = other;
        }

        // Of the joint itself it is asked where it is: only whether it has been welded counts.
        var cards = FitWork.Cards(spool, upTo, id => id != weld.Id ? FitReadings.Made(sets, id) ?? made?.Joint(id, upTo) : own is { IsWelded: true } ? new([], null, null, IsWelded: true) : null, id => id == weld.Id ? mark : null);
        var last = cards[^1] with { Step = upTo[^1], Of = Math.Max(steps.Count, upTo.Count) };
        if (mark is { } m && (m < 0 || (0 < last.Standing.Joint.HeldStraight && last.Standing.Joint.HeldStraight < m)))
        {
            wrong = OffThePipe(m, last.Standing.Joint);
            return null;
        }

        return last;
    }

    // A part at the weld by its id or as it is called in the shop.
    private static string Named(FitJoint joint, string said) => new[] { joint.Held, joint.New }.FirstOrDefault(p => Is(said, p.Id) || Is(said, p.Label))?.Id ?? said;

    private static string Other(Joint weld, FitStep step) => weld.Between[0] == step.Joint.Held.Id ? weld.Between[1] : weld.Between[0];

    private static IReadOnlyList<FitStep>? Steps(Request request, FitSpool spool, Joint weld, SpoolAsMade? made, out string wrong)
    {
        wrong = "";
        if (request.After is { } after)
        {
            if (!File.Exists(after))
            {
                wrong = $"{after}: there is no such file.";
                return null;
            }

            var (read, bad) = FitOrderJson.Read(FileText.Of(InputFile.Bytes(after, LargestOrder)).Text, spool, weld.Id);
            wrong = read is null ? $"{after}: {bad}" : "";
            return read;
        }

        if (request.Order is not { } order)
            return made?.Steps ?? FitOrder.Of(spool);
        if (FitOrderCommand.Chosen(spool, order, isWhole: false, out wrong) is not { } chosen)
            return null;
        var index = spool.Welds.ToList().IndexOf(weld);
        if (!chosen.Exists(c => c.Weld == index))
            chosen.Add(new(index));
        var (steps, refused) = FitOrder.Of(spool, chosen);
        wrong = refused ?? "";
        return refused is null ? steps : null;
    }

    private static FitCard? Alone(Request request, FitJoints fitting, Joint weld, FitReadings? own, (Attitude Attitude, double Roll)? wish, double? mark, out string wrong)
    {
        wrong = "";
        var usual = fitting.Of(weld);
        var isFlipped = request.Flip || (own is { Held.Length: > 0 } && Named(usual, own.Held) == usual.New.Id);
        var joint = isFlipped ? fitting.Of(weld, flip: true) : usual;
        if (mark is { } m && (m < 0 || (0 < joint.HeldStraight && joint.HeldStraight < m)))
        {
            wrong = OffThePipe(m, joint);
            return null;
        }

        if (wish is { Attitude: Attitude.OnEnd } && !SetUps.HasBase(joint))
        {
            SetUps.Refused(fitting, joint, Attitude.OnEnd, out wrong);
            return null;
        }

        return FitWork.Alone(fitting, weld, joint, wish is var (attitude, roll) ? SetUps.Of(fitting, joint, attitude, roll) : SetUps.Usual(fitting, joint), mark);
    }

    private static string OffThePipe(double mark, FitJoint joint) =>
        new FitWords(joint.Units, id => id) is var words ? $"A mark {words.Said(mark)} back is not on {joint.Held.Label}, which is {words.Said(joint.HeldStraight)} long." : "";

    private static List<Finding> Wrong(FitReadings file, StandingJoint standing) =>
    [
        .. file.Entries
            .Select(e => (e.Where, Wrong: FitReadings.Wrong(e.Taken, standing)))
            .Where(e => e.Wrong is not null)
            .Select(e => new Finding("bad-reading", Severity.Stop, "", e.Where, e.Wrong!.Value.Message, e.Wrong.Value.Remedy)),
    ];

    private static string? WriteCard(string file, Packet packet, Answer answer) =>
        OutputFile.Draw(file, FitUpCard.Scene(FitUpPages.Job(packet.Fabrication, answer.Card))) is { } why ? $"{file}: {why}" : null;

    private static string NoSuchJoint(string name, Packet packet, FitJoints fitting)
    {
        if (packet.Fabrication.Route.Joints.FirstOrDefault(j => Is(name, j.Id)) is { } other)
            return other.IsWeld ? $"{other.Id} joins this drawing to a line that is not in it: there is nothing to work its readings out from." : $"{other.Id} is no weld: fit-up is for welds.";
        var known = fitting.Welds.Select(j => j.Id).ToList();
        var near = Nearest.To(name, known);
        return $"There is no joint {name} in this drawing. " + (near is null ? "" : $"Did you mean {near}? ") + (known.Count > 0 ? $"Its welds are {known[0]} to {known[^1]}." : "It has no weld.");
    }

    private static int Refuse(int code, string message)
    {
        Console.Error.WriteLine(message);
        return code;
    }
}
