using System.CommandLine;
using System.Globalization;
using System.Text.Json;
using Rootgap.Fabricating;
using Rootgap.Findings;
using Rootgap.Measure;
using Rootgap.Sheets;
using Rootgap.Standards;

namespace Rootgap.Cli.Commands;

/// <summary><c>rootgap template</c>: wrap-arounds in true size, from a drawing or from sizes alone.</summary>
internal static class TemplateCommand
{
    private sealed record Output(OutputFolder Folder, string Format, Paper Paper, bool Json, Units Units);

    public static Command Create()
    {
        var command = new Command("template", "Wrap-around templates in true size: branch ends, mitres, cut elbows, trimmed ends.\n\nExamples:\n  rootgap template drawing samples/hatchery --out templates\n  rootgap template branch --header 6 --branch 4 --out templates\n  rootgap template elbow --size 6 --turn 60 --out templates");
        command.Subcommands.Add(OfDrawing());
        command.Subcommands.Add(Branch());
        command.Subcommands.Add(Mitre());
        command.Subcommands.Add(Elbow());
        command.Subcommands.Add(Trim());
        return command;
    }

    private static Command OfDrawing()
    {
        var drawings = DrawingArgument.Create();
        return With(new Command("drawing", "Every template that drawings need: stub-ins and cut elbows.") { drawings }, null, (result, output) =>
        {
            var files = DrawingFiles.Find(result.GetValue(drawings)!, out var missing);
            if (DrawingArgument.Refuse(files, missing))
                return ExitCode.Unreadable;
            var exit = ExitCode.Done;
            var written = new List<(Template, string)>();
            var printer = FindingPrinter.ForConsole(Console.Error, Console.IsErrorRedirected);
            foreach (var file in files)
            {
                var opened = DrawingFiles.Open(file);
                printer.Know(file, opened.Text);
                exit = Math.Max(exit, opened.ExitOfMaking);
                if (opened.Packet is not { } packet)
                {
                    printer.Print(opened.Findings);
                    continue;
                }

                try
                {
                    foreach (var template in Templates.Of(packet.Fabrication))
                        written.Add((template, Write(template, packet.Drawing.Number, packet.Drawing.Revision, output, packet.IsBuildable, packet.Drawing.Units)));
                }
                catch (Exception e) when (ProgramFault.IsOne(e))
                {
                    exit = Math.Max(exit, ExitCode.Stop);
                    printer.Print([ProgramFault.Of("The templates of this drawing could not be made", ProgramFault.Words(e), "The other drawings are not touched by this.", where: new(file, 0, 0, 0))]);
                }

                if (!packet.IsBuildable)
                    Console.Error.WriteLine($"{file}: NOT FOR FABRICATION: {FindingPrinter.Summary(packet.Findings)}; say `rootgap check` for what is wrong");
            }

            Tell(written, output);
            return exit;
        });
    }

    private static Command Branch()
    {
        var header = SizeOption("--header", "Nominal size of the header.");
        var branch = SizeOption("--branch", "Nominal size of the branch.");
        var schedule = new Option<string>("--schedule") { Description = "Schedule of the branch.", DefaultValueFactory = _ => "STD" };
        var lean = AngleOption("--angle", "Angle between the axes, degrees.", 90);
        var offset = new Option<string>("--offset") { Description = "Distance between the axes: the branch to the right, facing line 0 (the throat); negative to the left.", DefaultValueFactory = _ => "0" };
        var contact = new Option<string>("--contact") { Description = "What of the branch bears on the header: inside (set on and bevelled outward) or outside.", DefaultValueFactory = _ => "inside" };
        contact.AcceptOnlyFromAmong("inside", "outside");
        return With(new Command("branch", "The end of a branch set on a header (fishmouth).") { header, branch, schedule, lean, offset, contact }, UnitsOption(), (result, output) =>
        {
            var (h, b) = (Size(result.GetValue(header)!), Size(result.GetValue(branch)!));
            if (Pipes.OutsideDiameter(h)?.Mm is not { } headerOutside || Pipes.OutsideDiameter(b)?.Mm is not { } branchOutside)
                return Refuse("No pipe has that size.", "ASME B36.10M has NPS 1/8 to 48.");
            var name = Pipes.ScheduleName(result.GetValue(schedule)!);
            if (name is null || Pipes.Wall(b, name)?.Mm is not { } wall)
                return Refuse($"NPS {b} has no schedule {result.GetValue(schedule)}.", $"The schedules are: {string.Join(", ", Pipes.Schedules)}.");
            if (!LengthText.TryParse(result.GetValue(offset)!, output.Units, out var apart))
                return Refuse($"\"{result.GetValue(offset)}\" is not a length.", $"Write {(output.Units == Units.Inches ? "inches" : "millimetres")}, or a length with its unit.");
            var radius = result.GetValue(contact) == "outside" ? branchOutside / 2 : (branchOutside / 2) - wall;
            if (!Template.Fits(headerOutside / 2, radius, apart))
                return Refuse($"NPS {b}{(apart == 0 ? "" : $", {Length(apart, output.Units)} off the axis,")} does not lie on NPS {h}: part of it would hang beside the header.", "Take a smaller branch or offset, or `--contact inside`.");
            var degrees = result.GetValue(lean);
            var title = string.Create(CultureInfo.InvariantCulture, $"NPS {b} schedule {name} on NPS {h}, {degrees:0.##} degrees{(apart == 0 ? "" : $", {Length(apart, output.Units)} off axis")}");
            var template = Template.BranchEnd(title, headerOutside, branchOutside, radius, degrees == 90 ? Math.PI / 2 : Angles.ToRadians(degrees), apart, output.Units);
            Tell([(template, Write(template, "branch", "", output, units: output.Units))], output);
            return ExitCode.Done;
        });
    }

    private static Command Mitre()
    {
        var size = SizeOption("--size", "Nominal size of the pipe.");
        var angle = AngleOption("--angle", "Angle of the cut from square, degrees: half the turn of a two-piece mitre.", null);
        return With(new Command("mitre", "A mitre cut.") { size, angle }, UnitsOption(), (result, output) =>
        {
            var nps = Size(result.GetValue(size)!);
            if (Pipes.OutsideDiameter(nps)?.Mm is not { } outside)
                return Refuse("No pipe has that size.", "ASME B36.10M has NPS 1/8 to 48.");
            var degrees = result.GetValue(angle);
            if (degrees is <= 0 or > 60)
                return Refuse("A mitre is cut at more than 0 and at most 60 degrees from square.", "Give half the turn of the mitre.");
            var template = Template.Mitre(string.Create(CultureInfo.InvariantCulture, $"NPS {nps}, mitre {degrees:0.##} degrees"), outside, Angles.ToRadians(degrees));
            Tell([(template, Write(template, "mitre", "", output, units: output.Units))], output);
            return ExitCode.Done;
        });
    }

    private static Command Elbow()
    {
        var size = SizeOption("--size", "Nominal size of the elbow.");
        var turn = AngleOption("--turn", "The turn wanted, degrees.", null);
        var radius = new Option<string>("--radius") { Description = "long (1.5), short (1) or 3d.", DefaultValueFactory = _ => "long" };
        radius.AcceptOnlyFromAmong("long", "short", "3d");
        return With(new Command("elbow", "A stock elbow cut to a smaller turn.") { size, turn, radius }, UnitsOption(), (result, output) =>
        {
            var nps = Size(result.GetValue(size)!);
            var (item, table) = result.GetValue(radius) switch
            {
                "short" => ("elbow 90 SR", ButtWeld.Elbow90Short),
                "3d" => ("elbow 90 3D", ButtWeld.Elbow90ThreeD),
                _ => ("elbow 90 LR", ButtWeld.Elbow90Long),
            };
            if (table.Of(nps)?.Mm is not { } bend || Pipes.OutsideDiameter(nps)?.Mm is not { } outside)
                return Refuse(table.Missing(nps) + ".", "Take a size that the standard has.");
            var degrees = result.GetValue(turn);
            if (degrees is <= 0 or > 90)
                return Refuse("An elbow is cut to more than 0 and at most 90 degrees.", "Give the turn wanted.");
            var template = Template.CutElbow(string.Create(CultureInfo.InvariantCulture, $"{item} NPS {nps} cut to {degrees:0.##} degrees"), outside, bend, Angles.ToRadians(degrees));
            Tell([(template, Write(template, "elbow", "", output, units: output.Units))], output);
            return ExitCode.Done;
        });
    }

    private static Command Trim()
    {
        var size = SizeOption("--size", "Nominal size of the pipe.");
        var at = new[] { "12", "3", "6", "9" }.Select(q => new Option<string>("--at" + q) { Description = $"What comes off at {q} o'clock.", Required = true }).ToArray();
        var command = new Command("trim", "The trimmed end of a closing piece, from what comes off at the four quarters.") { size };
        foreach (var option in at)
            command.Options.Add(option);
        return With(command, UnitsOption(), (result, output) =>
        {
            var nps = Size(result.GetValue(size)!);
            if (Pipes.OutsideDiameter(nps)?.Mm is not { } outside)
                return Refuse("No pipe has that size.", "ASME B36.10M has NPS 1/8 to 48.");
            var off = new double[4];
            for (var i = 0; i < off.Length; i++)
            {
                if (!LengthText.TryParse(result.GetValue(at[i])!, output.Units, out off[i]) || off[i] < 0)
                    return Refuse($"\"{result.GetValue(at[i])}\" is not a length of 0 or more.", $"Write {(output.Units == Units.Inches ? "inches" : "millimetres")}, or a length with its unit.");
            }

            var template = Template.Trim($"NPS {nps}, trimmed end", outside, off[0], off[1], off[2], off[3], output.Units);
            Tell([(template, Write(template, "trim", "", output, units: output.Units))], output);
            return ExitCode.Done;
        });
    }

    private static Option<string> UnitsOption()
    {
        var option = new Option<string>("--units") { Description = "In which units bare lengths are read and what is printed speaks first: mm or in.", DefaultValueFactory = _ => "mm" };
        option.AcceptOnlyFromAmong("mm", "in");
        return option;
    }

    private static string Length(double mm, Units units) => units == Units.Inches ? LengthText.FeetInches(mm) : string.Create(CultureInfo.InvariantCulture, $"{mm:0.#} mm");

    /// <param name="units">Null where each drawing says its own.</param>
    private static Command With(Command command, Option<string>? units, Func<ParseResult, Output, int> run)
    {
        var folder = OutOption.Folder("Folder for the templates.");
        var format = new Option<string>("--format") { Description = "pdf (tiled over the paper) or svg (the whole strip).", DefaultValueFactory = _ => "pdf" };
        format.AcceptOnlyFromAmong("pdf", "svg");
        var paper = PaperOption.Create();
        var json = JsonOption.Create();
        command.Options.Add(folder);
        command.Options.Add(format);
        command.Options.Add(paper);
        command.Options.Add(json);
        if (units is not null)
            command.Options.Add(units);
        command.SetAction(result =>
        {
            using var output = new OutputFolder(result.GetValue(folder)!);
            return run(result, new(output, result.GetValue(format)!, PaperOption.Of(result.GetValue(paper)!), result.GetValue(json), units is not null && result.GetValue(units) == "in" ? Units.Inches : Units.Millimetres));
        });
        return command;
    }

    private static Option<string> SizeOption(string name, string says)
    {
        var option = new Option<string>(name) { Description = says, Required = true };
        option.Validators.Add(result =>
        {
            if (result.Tokens is [var token] && !(NominalSize.TryParse(token.Value, out var size) && size.IsPipeSize))
                result.AddError($"{name}: \"{token.Value}\" is not a nominal pipe size, such as 6, 1-1/2 or DN150.");
        });
        return option;
    }

    private static Option<double> AngleOption(string name, string says, double? otherwise)
    {
        var option = new Option<double>(name) { Description = says, Required = otherwise is null };
        if (otherwise is { } value)
            option.DefaultValueFactory = _ => value;
        option.Validators.Add(result =>
        {
            if (result.Tokens is [var token] && !(double.TryParse(token.Value, NumberStyles.Float, CultureInfo.InvariantCulture, out var degrees) && degrees is >= 0 and <= 165 && (name != "--angle" || degrees >= 15 || otherwise is null)))
                result.AddError($"{name}: \"{token.Value}\" is not an angle in degrees that can be cut (15 to 165 for a branch).");
        });
        return option;
    }

    private static NominalSize Size(string text) =>
        NominalSize.TryParse(text, out var size) ? size : default;

    private static int Refuse(string message, string remedy)
    {
        Console.Error.WriteLine(message);
        Console.Error.WriteLine("  do: " + remedy);
        return ExitCode.Unreadable;
    }

    private static string Write(Template template, string drawing, string revision, Output output, bool isBuildable = true, Units units = Units.Millimetres)
    {
        var name = output.Folder.Free(drawing + " " + template.Title, "." + output.Format);
        var block = new TitleBlock(drawing, revision, template.Title) { Notice = isBuildable ? "" : "NOT FOR FABRICATION" };
        using var stream = output.Folder.Create(name);
        if (output.Format == "svg")
            SvgWriter.Write(TemplateSheets.Whole(template, units), stream);
        else
            new Booklet(template.Title, TemplateSheets.Of(template, block, output.Paper, units)).WritePdf(stream);
        return output.Folder.PathOf(name);
    }

    private static void Tell(List<(Template Template, string File)> written, Output output)
    {
        output.Folder.Commit();
        foreach (var (template, _) in written.Where(w => w.Template.Caution.Length > 0))
            Console.Error.WriteLine($"{template.Title}: {template.Caution}");
        if (!output.Json)
        {
            foreach (var (template, file) in written)
                Console.Out.WriteLine($"{template.Title}: {file}");
            if (written.Count == 0)
                Console.Out.WriteLine("No template is needed: there is no stub-in and no cut elbow.");
            return;
        }

        using var json = new Utf8JsonWriter(Console.OpenStandardOutput(), JsonOption.Writing);
        json.WriteStartObject();
        json.WriteStartArray("templates");
        foreach (var (template, file) in written)
        {
            json.WriteStartObject();
            json.WriteString("title", template.Title);
            json.WriteString("file", file);
            json.WriteNumber("round", Math.Round(template.Round, 4));
            if (template.Caution.Length > 0)
                json.WriteString("caution", template.Caution);
            json.WriteStartArray("ordinates");
            foreach (var ordinate in template.Ordinates)
                json.WriteNumberValue(Math.Round(ordinate, 4));
            json.WriteEndArray();
            json.WriteEndObject();
        }

        json.WriteEndArray();
        json.WriteEndObject();
    }
}
