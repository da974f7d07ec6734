using System.Diagnostics;
using System.Runtime.InteropServices;

namespace Rootgap.Cli;

/// <summary>The server's program where it lies beside this one, as in the archives.</summary>
internal sealed partial record ServerBeside(string Program)
{
    public static ServerBeside? Find()
    {
        var program = Path.Combine(AppContext.BaseDirectory, OperatingSystem.IsWindows() ? "Rootgap.Server.exe" : "Rootgap.Server");
        return File.Exists(program) ? new(program) : null;
    }

    /// <summary>Runs it with these arguments, as if it had been started itself.</summary>
    /// <returns>The server's exit code.</returns>
    public int Run(string[] arguments)
    {
        if (!OperatingSystem.IsWindows())
        {
            // In this program's place: what stops the one stops the other, and whoever started it sees one program.
            Become(Program, [Program, .. arguments, null]);
            Console.Error.WriteLine($"{Program} could not be started: {Marshal.GetPInvokeErrorMessage(Marshal.GetLastPInvokeError())}");
            Console.Error.WriteLine("  do: see that it may be run (chmod +x), or unpack the archive again.");
            return ExitCode.Fault;
        }

        // Ctrl+C reaches both: the server puts things away and ends, and only then does this.
        Console.CancelKeyPress += (_, e) => e.Cancel = true;
        using var server = Process.Start(new ProcessStartInfo(Program, arguments) { UseShellExecute = false })!;
        server.WaitForExit();
        return server.ExitCode;
    }

    [LibraryImport("libc", EntryPoint = "execv", SetLastError = true, StringMarshalling = StringMarshalling.Utf8)]
    private static partial int Become(string program, string?[] arguments);
}
