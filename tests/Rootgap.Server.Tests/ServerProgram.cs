using System.Diagnostics;
using System.Text.RegularExpressions;

namespace Rootgap.Server.Tests;

/// <summary>The server as a program of its own, which can be killed.</summary>
internal sealed partial class ServerProgram : IAsyncDisposable
{
    private readonly Process process;

    private ServerProgram(Process process, Uri address)
    {
        this.process = process;
        Served = Served.Elsewhere(address);
    }

    public Served Served { get; }

    /// <param name="before">Shell commands before it, such as limits.</param>
    public static async Task<ServerProgram> Start(JobOnDisk job, string before = "", string arguments = "--port 0")
    {
        return await Up(Run(job, before, arguments));
    }

    /// <summary>Starts it with all its arguments.</summary>
    public static Task<ServerProgram> StartAs(string arguments) => Up(Run("", arguments, ""));

    private static async Task<ServerProgram> Up((Process Process, StreamReader Lines) run)
    {
        var (started, lines) = run;
        while (await lines.ReadLineAsync(TestContext.Current.CancellationToken) is { } line)
        {
            if (Address().Match(line) is { Success: true } match)
                return new(started, new Uri(match.Value));
        }

        throw new InvalidOperationException("The server did not start: " + await started.StandardError.ReadToEndAsync(TestContext.Current.CancellationToken));
    }

    /// <summary>Runs it to its end; what it said.</summary>
    public static async Task<(int Code, string Error)> ToEnd(JobOnDisk job, string arguments)
    {
        var (ended, _) = Run(job, "", arguments);
        using (ended)
        {
            var error = await ended.StandardError.ReadToEndAsync(TestContext.Current.CancellationToken);
            await ended.WaitForExitAsync(TestContext.Current.CancellationToken);
            return (ended.ExitCode, error);
        }
    }

    private static (Process Process, StreamReader Lines) Run(JobOnDisk job, string before, string arguments)
    {
        return Run(before, $"serve \"$1\" {arguments}", job.Path);
    }

    /// <summary>Runs a command to its end; what it said.</summary>
    public static async Task<(int Code, string Said)> Command(string arguments)
    {
        var (ended, lines) = Run("", arguments, "");
        using (ended)
        {
            var error = ended.StandardError.ReadToEndAsync(TestContext.Current.CancellationToken);
            var said = await lines.ReadToEndAsync(TestContext.Current.CancellationToken);
            await ended.WaitForExitAsync(TestContext.Current.CancellationToken);
            return (ended.ExitCode, said + await error);
        }
    }

    private static (Process Process, StreamReader Lines) Run(string before, string arguments, string folder)
    {
        var program = Path.Combine(AppContext.BaseDirectory, "Rootgap.Server.dll");
        var start = new ProcessStartInfo("bash", ["-c", $"{before} exec dotnet \"$0\" {arguments}", program, folder]) { RedirectStandardOutput = true, RedirectStandardError = true };
        // A limit on files would hold for the runtime's own as well.
        start.Environment["DOTNET_EnableDiagnostics"] = "0";
        start.Environment["DOTNET_EnableWriteXorExecute"] = "0";
        var started = Process.Start(start)!;
        return (started, started.StandardOutput);
    }

    /// <summary>As pulling the plug: no warning, no clean-up.</summary>
    public async Task Kill()
    {
        process.Kill();
        await process.WaitForExitAsync();
    }

    public async ValueTask DisposeAsync()
    {
        if (!process.HasExited)
            await Kill();
        await Served.DisposeAsync();
        process.Dispose();
    }

    [GeneratedRegex(@"https?://localhost:\d+", RegexOptions.CultureInvariant, 1000)]
    private static partial Regex Address();
}
