using System.Diagnostics;
using System.Globalization;
using System.Text;
using System.Text.RegularExpressions;

namespace Rootgap.Mutations;

/// <summary>A copy of the repository in which the changes are built, each behind a switch, and tried one by one.</summary>
/// <param name="root">The repository.</param>
/// <param name="work">Where the copy goes.</param>
/// <param name="isQuick">The slow tests are left out.</param>
internal sealed partial class Trial(string root, string work, bool isQuick)
{
    private const string Switch = "ROOTGAP_MUTATION";

    private const string Notes = "ROOTGAP_MUTATION_NOTES";

    // What only looks at the text of the sources sees the switch itself, not what it does.
    private static readonly string[] All = ["-namespace-", "Rootgap.Tests.Conventions", "-noColor", "-noLogo"];

    private static readonly string[] Fast = ["-trait-", "pace=slow", .. All];

    private static readonly string[] Slow = ["-trait", "pace=slow", .. All];

    private readonly Dictionary<int, List<string>> passedBy = [];

    private readonly Dictionary<int, List<string>> passedBySlow = [];

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
            var wrong = Errors().Matches(text).Select(m => (File: m.Groups["file"].Value, Line: int.Parse(m.Groups["line"].Value, CultureInfo.InvariantCulture))).ToHashSet();
            var left = mutations.Where(m => !wrong.Any(w => w.File.EndsWith(m.File, StringComparison.Ordinal) && Math.Abs(w.Line - m.Line) < 3)).ToList();
            if (left.Count == mutations.Count)
                throw new InvalidOperationException(text);
            mutations = left;
        }

        throw new InvalidOperationException("The changes do not compile.");
    }

    /// <summary>
    /// Runs all tests with no change switched on, notes which test passes by which change, and says how long the fast ones take.
    /// What is reckoned once and kept is noted for the test that came first only: so what is said to survive there may still be seen by another.
    /// </summary>
    /// <exception cref="InvalidOperationException">A test fails as it is.</exception>
    public TimeSpan Whole()
    {
        var watch = new Stopwatch();
        foreach (var (tests, into) in new[] { (Slow, passedBySlow), (Fast, passedBy) }.Skip(isQuick ? 1 : 0))
        {
            watch.Restart();
            var notes = Path.Combine(work, "passed-by.txt");
            File.Delete(notes);
            var (code, text) = Run(Program, tests, TimeSpan.FromHours(1), 0, notes: notes);
            if (code != 0)
                throw new InvalidOperationException("The tests fail as they are.\n" + text);
            foreach (var line in File.ReadLines(notes).Select(l => l.Split(' ')))
            {
                var number = int.Parse(line[0], CultureInfo.InvariantCulture);
                into.TryAdd(number, []);
                into[number].Add(line[1]);
            }
        }

        return watch.Elapsed;
    }

    /// <summary>
    /// In how many turns a change's tests are tried: first those that hold whole answers, for they see most soonest; then those of the changed folder, the others, and the slow ones.
    /// So a run that is cut short has told most.
    /// </summary>
    public int Turns => isQuick ? 3 : 4;

    /// <summary>The test of this turn that fails with a change switched on; null where none does. Only tests that pass by it are tried.</summary>
    public string? Killer(int number, Mutation mutation, TimeSpan whole, int turn)
    {
        var tests = Only(turn == 3 ? passedBySlow.GetValueOrDefault(number, []) : passedBy.GetValueOrDefault(number, []).Where(t => TurnOf(t, $"Rootgap.Tests.{mutation.File.Split('/')[2]}") == turn));
        if (tests.Length == 0)
            return null;
        var (code, text) = Run(Program, ["-stopOnFail", .. tests], turn == 3 ? MostOfSlow : (4 * whole) + TimeSpan.FromMinutes(1), number);
        return code == 0 ? null : code == TimedOut ? "it does not end" : Failed().Match(text).Groups["test"].Value;
    }

    private static int TurnOf(string test, string folder) =>
        test.Contains(".Accepted", StringComparison.Ordinal) || test.Contains("ToldTest.", StringComparison.Ordinal) ? 0 : test.StartsWith(folder, StringComparison.Ordinal) ? 1 : 2;

    private static string[] Only(IEnumerable<string> tests) => tests.SelectMany(t => new[] { "-method", t }).ToArray() is { Length: > 0 } methods ? [.. methods, "-noColor", "-noLogo"] : [];

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
                private static readonly int On = int.TryParse(System.Environment.GetEnvironmentVariable("{{Switch}}"), out var on) ? on : 0;
                private static readonly string Notes = System.Environment.GetEnvironmentVariable("{{Notes}}");
                private static readonly System.Func<object> Current = Notes is null ? null : System.Type.GetType("Xunit.TestContext, xunit.v3.core").GetProperty("Current").GetMethod.CreateDelegate<System.Func<object>>();
                private static readonly System.Collections.Concurrent.ConcurrentDictionary<string, bool> PassedBy = new();
                [System.ThreadStatic] private static object last;
                [System.ThreadStatic] private static System.Collections.Generic.HashSet<int> seen;

                static MutationSwitch()
                {
                    if (Notes is not null)
                        System.AppDomain.CurrentDomain.ProcessExit += (_, _) => System.IO.File.WriteAllLines(Notes, PassedBy.Keys);
                }

                public static bool Is(int number)
                {
                    if (Notes is not null)
                        Note(number);
                    return On == number;
                }

                private static void Note(int number)
                {
                    var test = Current();
                    if (!object.ReferenceEquals(test, last) || seen is null)
                        (last, seen) = (test, new());
                    if (!seen.Add(number) || Of(test, "TestMethod") is not { } method)
                        return;
                    PassedBy[number + " " + Of(Of(method, "TestClass"), "TestClassName") + "." + Of(method, "MethodName")] = true;
                }

                private static object Of(object of, string what)
                {
                    foreach (var type in of.GetType().GetInterfaces())
                    {
                        if (type.GetProperty(what) is { } property)
                            return property.GetValue(of);
                    }

                    return null;
                }
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
                    text.Remove(mutation.Span.Start, mutation.Span.Length).Insert(mutation.Span.Start, $"(global::Rootgap.MutationSwitch.Is({number}) ? ({mutation.Is}) : ({mutation.Was}))");
                }

                if (File.ReadAllText(file) != text.ToString())
                    File.WriteAllText(file, text.ToString());
            }
        }
    }

    private (int Code, string Text) Run(string program, IReadOnlyList<string> arguments, TimeSpan limit, int number, string? folder = null, string? notes = null)
    {
        var start = new ProcessStartInfo(program, arguments) { UseShellExecute = false, RedirectStandardOutput = true, RedirectStandardError = true, WorkingDirectory = folder ?? work };
        start.Environment[Switch] = number == 0 ? "" : number.ToString(CultureInfo.InvariantCulture);
        if (notes is not null)
            start.Environment[Notes] = notes;
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
