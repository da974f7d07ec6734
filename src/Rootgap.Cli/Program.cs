using System.CommandLine;
using Rootgap.Cli;
using Rootgap.Cli.Commands;

var root = new RootCommand("Rootgap: from a piping isometric to spools that fit. Check the drawing, cut with sums, fit up, close.\n\nExit codes: 0 done, 1 done with warnings, 2 the drawing can't be built as drawn, 3 the input could not be read, 64 wrong usage.")
{
    CheckCommand.Create(),
    CompareCommand.Create(),
    PacketCommand.Create(),
    SheetCommand.Create(),
    ModelCommand.Create(),
    TemplateCommand.Create(),
    CutCommand.Create(),
    TablesCommand.Create(),
    FitCommand.Create(),
    FitOrderCommand.Create(),
    ForecastCommand.Create(),
    ServeCommand.Create(),
};

var parsed = root.Parse(args);
if (parsed.Errors.Count > 0)
{
    foreach (var error in parsed.Errors)
        Console.Error.WriteLine(error.Message);
    Console.Error.WriteLine("Say `rootgap --help`, or `rootgap COMMAND --help`, for how it is used.");
    return ExitCode.Usage;
}

try
{
    return parsed.Invoke(new InvocationConfiguration { EnableDefaultExceptionHandler = false });
}
catch (Exception e) when (e is IOException or UnauthorizedAccessException or NotSupportedException)
{
    Console.Error.WriteLine($"A file could not be read or written: {e.Message}");
    Console.Error.WriteLine("  do: look at the name given with --out, whether the disk is full, and whether you may write there. Nothing that was there before is changed but what is named above.");
    return ExitCode.Unreadable;
}
