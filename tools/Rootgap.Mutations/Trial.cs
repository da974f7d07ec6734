using System.Diagnostics;
using System.Text;
using System.Text.RegularExpressions;

namespace Rootgap.Mutations;

/// <summary>A copy of the repository in which the changes are built, each behind a switch, and tried one by one.</summary>
/// <param name="root">The repository.</param>
/// <param name="work">Where the copy goes.</param>
internal sealed partial class Trial(string root, string work)
{
    private const string Switch = "ROOTGAP_MUTATION";

    // What only looks at the text of the sources sees the switch itself, not what it does.
    private static readonly string[] All = ["-namespace-", "Rootgap.Tests.Conventions", "-noColor", "-noLogo"];

    private static readonly string[] Fast = ["-trait-", "pace=slow", .. All];

    /// <summary>A slow test that does not end by then does not end.</summary>
    private static readonly TimeSpan MostOfSlow = TimeSpan.FromMinutes(20);

    private string Program => Path.Combine(work, "tests", "Rootgap.Tests", "bin", "Release", "net10.0", "Rootgap.Tests");

    /// <summary>Makes the copy and builds it. Changes that do not compile are left out.</summary>
    /// <exception cref="InvalidOperationException">The copy cannot be built.</exception>
    public List<Mutation> Build(List<Mutation> mutations)
    {
        Copy();
        for (var tries = 0; tries < 6; tries++)
        {
            Write(mutations);
            var (code, text) = Run("dotnet", ["build", "tests/Rootgap.Tests", "-c", "Release", "-v", "quiet", "-nologo", "-p:RunAnalyzers=false", "-p:TreatWarningsAsErrors=false", "-p:EnforceCodeStyleInBuild=false", "-p:NuGetAudit=false"], TimeSpan.FromMinutes(20), 0);
            if (code == 0)
                return mutations;
            var wrong = Errors().Matches(text).Select(m => (File: m.Groups["file"].Value, Line: int.Parse(m.Groups["line"].Value, System.Globalization.CultureInfo.InvariantCulture))).ToHashSet();
            var left = mutations.Where(m => !wrong.Any(w => w.File.EndsWith(m.File, StringComparison.Ordinal) && Math.Abs(w.Line - m.Line) < 3)).ToList();
            if (left.Count == mutations.Count)
                throw new InvalidOperationException(text);
            mutations = left;
        }

        throw new InvalidOperationException("The changes do not compile.");
    }

    /// <summary>Runs all tests with no change switched on, and says how long that takes.</summary>
    /// <exception cref="InvalidOperationException">A test fails as it is.</exception>
    public TimeSpan Whole()
    {
        var watch = Stopwatch.StartNew();
        var (code, text) = Run(Program, Fast, TimeSpan.FromHours(1), 0);
        return code == 0 ? watch.Elapsed : throw new InvalidOperationException("The tests fail as they are.\n" + text);
    }

    /// <summary>The test that fails with a change switched on; null where none does. The tests of the changed folder go first, its slow ones last.</summary>
    public string? Killer(int number, Mutation mutation, TimeSpan whole)
    {
        var limit = 4 * whole + TimeSpan.FromMinutes(1);
        var folder = $"Rootgap.Tests.{mutation.File.Split('/')[2]}*";
        foreach (var (tests, most) in new (string[] Tests, TimeSpan Most)[] { (["-namespace", folder, .. Fast], limit), (["-namespace-", folder, .. Fast], limit), (["-namespace", folder, "-trait", "pace=slow", .. All], MostOfSlow) })
        {
            var (code, text) = Run(Program, ["-stopOnFail", .. tests], most, number);
            if (code != 0)
                return code == TimedOut ? "it does not end" : Failed().Match(text).Groups["test"].Value;
        }

        return null;
    }

    private const int TimedOut = -9;

    private void Copy()
    {
        var (_, files) = Run("git", ["-C", root, "ls-files", "-co", "--exclude-standard"], TimeSpan.FromMinutes(1), 0, Directory.GetCurrentDirectory());
        foreach (var file in files.Split('\n', StringSplitOptions.RemoveEmptyEntries).Where(f => File.Exists(Path.Combine(root, f))))
        {
            var target = Path.Combine(work, file);
            Directory.CreateDirectory(Path.GetDirectoryName(target)!);
            if (!File.Exists(target) || File.ReadAllText(target) != File.ReadAllText(Path.Combine(root, file)))
                File.Copy(Path.Combine(root, file), target, overwrite: true);
        }

        File.WriteAllText(Path.Combine(work, "src", "Rootgap", "BannedSymbols.txt"), "");
        File.WriteAllText(Path.Combine(work, "src", "Rootgap", "Measure", "MutationSwitch.cs"), $$"""
            namespace Rootgap;
            internal static class MutationSwitch
            {
                private static readonly string On = System.Environment.GetEnvironmentVariable("{{Switch}}") ?? "";
                public static bool Is(string number) => On == number;
            }
            """);
    }

    private void Write(List<Mutation> mutations)
    {
        foreach (var folder in Directory.EnumerateDirectories(Path.Combine(work, "src", "Rootgap")).Where(d => Path.GetFileName(d) is not ("bin" or "obj")))
        {
            foreach (var file in Directory.EnumerateFiles(folder, "*.cs", SearchOption.AllDirectories).Where(f => !f.EndsWith("MutationSwitch.cs", StringComparison.Ordinal)))
            {
                var name = Path.GetRelativePath(work, file).Replace('\\', '/');
                var original = Path.Combine(root, name);
                if (!File.Exists(original))
                    continue;
                var text = new StringBuilder(File.ReadAllText(original));
                // From the end, so that places before stay where they are; of two changes of one place, or one inside the other, the later is left to another draw.
                var end = int.MaxValue;
                foreach (var (mutation, number) in mutations.Select((m, i) => (m, i + 1)).Where(p => p.m.File == name).OrderByDescending(p => p.m.Span.Start))
                {
                    if (mutation.Span.End > end)
                        throw new InvalidOperationException($"Two changes overlap: {mutation}");
                    end = mutation.Span.Start;
                    text.Remove(mutation.Span.Start, mutation.Span.Length).Insert(mutation.Span.Start, $"(global::Rootgap.MutationSwitch.Is(\"{number}\") ? ({mutation.Is}) : ({mutation.Was}))");
                }

                if (File.ReadAllText(file) != text.ToString())
                    File.WriteAllText(file, text.ToString());
            }
        }
    }

    private (int Code, string Text) Run(string program, IReadOnlyList<string> arguments, TimeSpan limit, int number, string? folder = null)
    {
        var start = new ProcessStartInfo(program, arguments) { UseShellExecute = false, RedirectStandardOutput = true, RedirectStandardError = true, WorkingDirectory = folder ?? work };
        start.Environment[Switch] = number == 0 ? "" : number.ToString(System.Globalization.CultureInfo.InvariantCulture);
        using var process = Process.Start(start)!;
        var text = new StringBuilder();
        process.OutputDataReceived += (_, e) => { lock (text) text.AppendLine(e.Data); };
        process.ErrorDataReceived += (_, e) => { lock (text) text.AppendLine(e.Data); };
        process.BeginOutputReadLine();
        process.BeginErrorReadLine();
        if (!process.WaitForExit(limit))
        {
            process.Kill(entireProcessTree: true);
            return (TimedOut, "");
        }

        process.WaitForExit();
        return (process.ExitCode, text.ToString());
    }

    [GeneratedRegex(@"(?<file>[^\s(]+\.cs)\((?<line>\d+),\d+\): error", RegexOptions.ExplicitCapture | RegexOptions.CultureInvariant, 10_000)]
    private static partial Regex Errors();

    [GeneratedRegex(@"^\s+(?<test>Rootgap\.Tests\.\S+).*\[FAIL\]", RegexOptions.Multiline | RegexOptions.ExplicitCapture | RegexOptions.CultureInvariant, 10_000)]
    private static partial Regex Failed();
}
