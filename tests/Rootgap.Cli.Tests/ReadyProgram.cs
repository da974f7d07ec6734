using System.Collections.Concurrent;
using System.Diagnostics;
using System.Text.Json;

namespace Rootgap.Cli.Tests;

/// <summary>The program, begun once and then called again and again (see <see cref="StartupHook"/>): one for each test that runs at the same time. It ends with the tests.</summary>
internal sealed class ReadyProgram
{
    private static readonly ConcurrentBag<ReadyProgram> Idle = [];

    private readonly Process process;

    private ReadyProgram()
    {
        var start = new ProcessStartInfo("dotnet", [Path.Combine(AppContext.BaseDirectory, "Rootgap.Cli.dll")]) { RedirectStandardInput = true, RedirectStandardOutput = true };
        start.Environment["DOTNET_STARTUP_HOOKS"] = typeof(StartupHook).Assembly.Location;
        process = Process.Start(start)!;
    }

    public static Call Run(string folder, string? input, IReadOnlyList<string> arguments)
    {
        var program = Idle.TryTake(out var idle) ? idle : new();
        var (output, error) = (Path.GetTempFileName(), Path.GetTempFileName());
        try
        {
            program.process.StandardInput.WriteLine(JsonSerializer.Serialize(new StartupHook.Request(folder, [.. arguments], input, output, error)));
            program.process.StandardInput.Flush();
            int exit;
            if (program.process.StandardOutput.ReadLine() is { } answer)
            {
                exit = int.Parse(answer, System.Globalization.CultureInfo.InvariantCulture);
                Idle.Add(program);
            }
            else
            {
                // It ended itself.
                program.process.WaitForExit();
                exit = program.process.ExitCode;
            }

            return new(exit, File.ReadAllText(output), File.ReadAllText(error));
        }
        finally
        {
            File.Delete(output);
            File.Delete(error);
        }
    }
}
