using System.Diagnostics;
using System.Text;
using Rootgap.Records;
using Rootgap.Store;

namespace Rootgap.Cli.Tests;

/// <summary>What a call of the program left behind.</summary>
public sealed record Call(int Exit, string Out, string Error);

/// <summary>A folder of files in which the program is called as its user calls it; gone afterwards.</summary>
public sealed class Shop : IDisposable
{
    public string Folder { get; } = Directory.CreateTempSubdirectory("rootgap-").FullName;

    public string At(params string[] parts) => Path.Combine([Folder, .. parts]);

    public string Write(string name, string text)
    {
        Directory.CreateDirectory(Path.GetDirectoryName(At(name))!);
        File.WriteAllText(At(name), text);
        return name;
    }

    /// <summary>What a command does in this folder. The program stands ready, so that it need not begin anew each time.</summary>
    public Call Run(params string[] arguments) => ReadyProgram.Run(Folder, null, arguments);

    /// <summary>Called by somebody who types.</summary>
    public Call Type(string input, params string[] arguments) => ReadyProgram.Run(Folder, input, arguments);

    /// <summary>As <see cref="Run"/>, by a program that is begun for it and ends with it, as its user has it.</summary>
    /// <param name="processors">How many processors the program may think there are; null for those there are.</param>
    public Call Begin(int? processors, params string[] arguments)
    {
        var start = new ProcessStartInfo("dotnet", [Path.Combine(AppContext.BaseDirectory, "Rootgap.Cli.dll"), .. arguments])
        {
            WorkingDirectory = Folder,
            UseShellExecute = false,
            RedirectStandardOutput = true,
            RedirectStandardError = true,
            StandardOutputEncoding = Encoding.UTF8,
            StandardErrorEncoding = Encoding.UTF8,
        };
        if (processors is { } count)
            start.Environment["DOTNET_PROCESSOR_COUNT"] = FormattableString.Invariant($"{count}");
        using var process = Process.Start(start)!;
        var error = process.StandardError.ReadToEndAsync();
        var output = process.StandardOutput.ReadToEnd();
        process.WaitForExit();
        return new(process.ExitCode, output, error.GetAwaiter().GetResult());
    }

    /// <summary>A fact's id.</summary>
    public static string Id(int n) => FormattableString.Invariant($"{n:x32}");

    /// <summary>Facts as they come from the app, into the records that lie in a job's folder.</summary>
    public async Task Keep(string folder, params Fact[] facts)
    {
        var cancel = TestContext.Current.CancellationToken;
        Directory.CreateDirectory(At(folder, ".rootgap"));
        await using var archive = await Archive.OpenFileAsync(JobPlace.RecordsOf(At(folder)), cancel);
        var job = await archive.JobsAsync(cancel) is [var there] ? await archive.OpenJobAsync(there.Id, cancel) : await archive.BeginJobAsync("job", cancel: cancel);
        await job.KeepAsync(facts, DateTimeOffset.UtcNow, cancel);
    }

    public void Dispose() => Directory.Delete(Folder, recursive: true);

    /// <summary>A drawing with nothing to find: an open end, an elbow, a flange.</summary>
    public static string Drawing(string number, string by = "1200", string extra = "") => $$"""
        drawing: {{number}}
        line: {size: 6, schedule: 40, class: 150, material: A106-B}
        {{extra}}
        runs:
          - run: main
            start: {to: open, at: {east: 1000, north: 500, up: 2000} }
            legs:
              - {go: north, by: 1500, to: elbow}
              - {go: east, by: {{by}}, to: flange}
        {{(extra.Contains("revision:", StringComparison.Ordinal) ? "" : "revision: 0")}}

        """;
}
