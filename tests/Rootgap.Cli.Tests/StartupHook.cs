using System.Reflection;
using System.Runtime.InteropServices;
using System.Text;
using System.Text.Json;
using Microsoft.Win32.SafeHandles;

/// <summary>
/// What the runtime calls in a program that is begun with <c>DOTNET_STARTUP_HOOKS</c> before its own beginning (the name is the runtime's): here it never gets to that, but is
/// called by its entry point for each request that comes, in the folder and with the arguments of that, writing to its files. So a call costs its work, and not the start of a
/// program and the compiling of its code again. See <see cref="Rootgap.Cli.Tests.ReadyProgram"/>.
/// </summary>
internal static partial class StartupHook
{
    private const int In = 0, Out = 1, Error = 2;

    public static void Initialize()
    {
        using var requests = new StreamReader(new FileStream(new SafeFileHandle(Dup(In), ownsHandle: true), FileAccess.Read));
        using var answers = new StreamWriter(new FileStream(new SafeFileHandle(Dup(Out), ownsHandle: true), FileAccess.Write)) { AutoFlush = true };
        using (var nothing = File.OpenHandle("/dev/null"))
            Put(nothing, In);
        var main = Assembly.Load("Rootgap.Cli").EntryPoint!;
        while (requests.ReadLine() is { } line)
        {
            var call = JsonSerializer.Deserialize<Request>(line)!;
            Directory.SetCurrentDirectory(call.Folder);
            using (var output = File.OpenHandle(call.Out, FileMode.Create, FileAccess.Write))
                Put(output, Out);
            using (var error = File.OpenHandle(call.Error, FileMode.Create, FileAccess.Write))
                Put(error, Error);
            using (var output = Writer(Console.OpenStandardOutput()))
            using (var error = Writer(Console.OpenStandardError()))
            {
                Console.SetOut(output);
                Console.SetError(error);
                Console.SetIn(new StringReader(call.Input ?? ""));
                answers.WriteLine(main.Invoke(null, [call.Arguments]));
            }
        }

        Environment.Exit(0);
    }

    /// <summary>One call: where, with what, what is typed, and the files for what it says.</summary>
    internal sealed record Request(string Folder, string[] Arguments, string? Input, string Out, string Error);

    private static StreamWriter Writer(Stream stream) => new(stream, new UTF8Encoding(encoderShouldEmitUTF8Identifier: false)) { AutoFlush = true };

    private static void Put(SafeFileHandle file, int at)
    {
        if (Dup2((int)file.DangerousGetHandle(), at) < 0)
            throw new IOException($"dup2 failed: {Marshal.GetLastPInvokeError()}.");
    }

    [LibraryImport("libc", EntryPoint = "dup", SetLastError = true)]
    private static partial int Dup(int file);

    [LibraryImport("libc", EntryPoint = "dup2", SetLastError = true)]
    private static partial int Dup2(int file, int at);
}
