using System.CommandLine;
using System.Runtime.InteropServices;
using Rootgap.Cli;
using Rootgap.Cli.Commands;
using Rootgap.Cli.Commands.Sums;
using Rootgap.Findings;

// An archive has the server beside the command line, and one program to start both.
if (args is ["serve" or "job", ..] && ServerBeside.Find() is { } server)
    return server.Run(args);

var root = new RootCommand("Rootgap: from a piping isometric to spools that fit. Check the drawing, cut with sums, fit up, close.\n\nExit codes: 0 done, 1 done with warnings, 2 the drawing can't be built as drawn, 3 the input could not be read, 64 wrong usage, 70 a fault in the program itself.")
{
    CheckCommand.Create(),
    CompareCommand.Create(),
    PacketCommand.Create(),
    SheetCommand.Create(),
    ModelCommand.Create(),
    MeasureCommand.Create(),
    TemplateCommand.Create(),
    CutCommand.Create(),
    TablesCommand.Create(),
    FitCommand.Create(),
    FitOrderCommand.Create(),
    ForecastCommand.Create(),
    SplitCommand.Create(),
    SiteCommand.Create(),
    CloseCommand.Create(),
    RecordCommand.Create(),
    HandoverCommand.Create(),
    TestPackCommand.Create(),
    SumsCommand.Create(),
    ServeCommand.Create(),
    ServeCommand.CreateJob(),
};
foreach (var command in WorkCommands.Create())
    root.Add(command);

var parsed = root.Parse(CheckCommand.WrittenOut(args));
if (parsed.Errors.Count > 0)
{
    foreach (var error in parsed.Errors)
        Console.Error.WriteLine(error.Message);
    Console.Error.WriteLine("Say `rootgap --help`, or `rootgap COMMAND --help`, for how it is used.");
    return ExitCode.Usage;
}

// Where the system limits the size of files it ends a program that writes more, unless that asks to be told by the write.
const int SizeOfFiles = 25; // SIGXFSZ, on Linux and macOS alike
using var tooLarge = OperatingSystem.IsWindows() ? null : PosixSignalRegistration.Create((PosixSignal)SizeOfFiles, signal => signal.Cancel = true);
try
{
    return parsed.Invoke(new InvocationConfiguration { EnableDefaultExceptionHandler = false });
}
catch (Exception e)
{
    if (OutputFolder.IsStopping)
        Thread.Sleep(Timeout.Infinite); // The one who stops it ends the program.
    // Where a file grows beyond what the system allows, the platform speaks of an argument.
    if (e is IOException or UnauthorizedAccessException or NotSupportedException || (e is ArgumentOutOfRangeException && e.StackTrace?.Contains(" System.IO.", StringComparison.Ordinal) == true))
    {
        Console.Error.WriteLine($"A file could not be read or written: {e.Message}");
        Console.Error.WriteLine("  do: look at the name given with --out, whether the disk is full, and whether you may write there. What was there before stands as it was: nothing is put in its place before all of it is written.");
        return ExitCode.Unreadable;
    }

    if (e is OutOfMemoryException)
    {
        Console.Error.WriteLine("There is not enough memory for this.");
        Console.Error.WriteLine("  do: give fewer drawings at a time, or close other programs. What was there before stands as it was.");
        return ExitCode.Fault;
    }

    Console.Error.WriteLine($"A fault in the program, not in your files ({ProgramFault.Words(e)}). What was there before stands as it was.");
    Console.Error.WriteLine("  do: send this message, the command as you gave it and the files to whoever looks after the program.");
    return ExitCode.Fault;
}
