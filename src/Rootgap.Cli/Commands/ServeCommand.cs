using System.CommandLine;

namespace Rootgap.Cli.Commands;

/// <summary>`serve` and `job` are a program of their own, since it brings the app; here they are listed, and who gets here is told how to start it.</summary>
internal static class ServeCommand
{
    public static Command Create() => Elsewhere("serve", "Serve the app and a job's folder to this machine, or to the shop's network.\n\nExample: ./rootgap serve --demo");

    public static Command CreateJob() => Elsewhere("job", "The records of a job as a whole: back up, put back, save from damage; who may sign.\n\nExample: ./rootgap job backup FOLDER --out FILE");

    private static Command Elsewhere(string name, string says)
    {
        var rest = new Argument<string[]>("ARGUMENTS") { Description = $"See rootgap {name} --help.", Arity = ArgumentArity.ZeroOrMore };
        var command = new Command(name, says) { rest };
        command.TreatUnmatchedTokensAsErrors = false;
        command.SetAction(_ =>
        {
            Console.Error.WriteLine("The server and the app are not here: this is the command line by itself.");
            Console.Error.WriteLine($"  do: take the archive for your system, whose program rootgap has them (docs/installing.md), or say ./rootgap {name} ... where the sources are.");
            return ExitCode.Usage;
        });
        return command;
    }
}
