using System.CommandLine;

namespace Rootgap.Cli.Commands;

/// <summary>`serve` is a program of its own, since it brings the app; here it is listed, and who gets here is told how to start it.</summary>
internal static class ServeCommand
{
    public static Command Create()
    {
        var rest = new Argument<string[]>("ARGUMENTS") { Description = "See rootgap serve --help.", Arity = ArgumentArity.ZeroOrMore };
        var command = new Command("serve", "Serve the app and a job's folder to this machine, or to the shop's network.\n\nExample: ./rootgap serve --demo") { rest };
        command.TreatUnmatchedTokensAsErrors = false;
        command.SetAction(_ =>
        {
            Console.Error.WriteLine("The server is a program of its own, which the script ./rootgap builds and starts.");
            Console.Error.WriteLine("  do: start it as ./rootgap serve --demo, or as the program Rootgap.Server with the same arguments.");
            return ExitCode.Usage;
        });
        return command;
    }
}
