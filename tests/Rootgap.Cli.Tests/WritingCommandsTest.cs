using System.Collections.Concurrent;
using System.Diagnostics;
using System.Globalization;
using System.Text.RegularExpressions;

namespace Rootgap.Cli.Tests;

/// <summary>
/// Every command that writes, ended by whatever ends commands: killed, told to stop, a full disk. What is there afterwards is the old or the new, whole. With
/// <c>ROOTGAP_CASES=n</c> each is killed n times at moments by chance besides.
/// </summary>
public partial class WritingCommandsTest
{
    private static readonly int Cases = int.TryParse(Environment.GetEnvironmentVariable("ROOTGAP_CASES"), CultureInfo.InvariantCulture, out var n) ? n : 0;

    private const string Line = """
        drawing: T-1
        revision: 3
        line: {size: 6, schedule: 40, class: 150, material: A106-B, gasket: 3.2}
        runs:
          - run: main
            start: {to: flange, at: {east: 0, north: 0, up: 1000}}
            legs:
              - {go: up, by: 1500, to: elbow}
              - {go: north, by: 900, to: stub-in, size: 3, branch: west, name: S}
              - {go: north, by: 2100, to: elbow, end: final-fit}
              - {go: east, by: 2000, to: flange, at: {east: 2000, north: 3000, up: 2500}}
          - run: vent
            size: 3
            start: {from: S}
            legs: [{go: west, by: 600, to: flange}]
        """;

    /// <summary>Each command that writes, and the source file that does it. A command that is missing here fails the test below.</summary>
    public static readonly TheoryData<string, string> Commands = new()
    {
        { "packet a.yaml --out p", "PacketCommand" },
        { "sheet a.yaml --out p", "SheetCommand" },
        { "model a.yaml --out p", "ModelCommand" },
        { "template drawing a.yaml --out p", "TemplateCommand" },
        { "cut small.yaml --stock rack.yaml --out p --time 1", "CutCommand" },
        { "tables --out p", "TablesCommand" },
        { "test-pack a.yaml --out p", "TestPackCommand" },
        { "handover . --out p", "HandoverCommand" },
        { "lists . --out p", "WorkCommands" },
        { "site a.yaml --out p", "SiteCommand" },
        { "close a.yaml --survey s.yaml --out p", "CloseCommand" },
        { "close a.yaml --blank --out p", "CloseCommand" },
        { "close a.yaml --begin p/begun.yaml", "CloseCommand" },
        { "check a.yaml --sarif p/found.sarif", "CheckCommand" },
        { "compare a.yaml whole.yaml --picture p/changes.svg", "CompareCommand" },
        { "check faulty.yaml --fix", "FileMending" },
        { "split whole.yaml --write", "FileMending" },
        { "fit small.yaml --joint W2 --card p/card.pdf", "FitCommand" },
        { "fit small.yaml --joint W2 --set-up level --readings w2.yaml", "ReadingsFile" },
        { "fit small.yaml --final 1 --readings final.yaml", "ReadingsFile" },
    };

    private static Shop Begin()
    {
        var shop = new Shop();
        shop.Write("a.yaml", Line);
        shop.Write("s.yaml", "survey: x\ndrawing: T-1\nstanding: {spool 1: drawn, spool 2: drawn, B1 of other: drawn, B2 of other: drawn}\n");
        shop.Write("small.yaml", Shop.Drawing("A-1"));
        shop.Write("whole.yaml", Line.Replace(", end: final-fit", "", StringComparison.Ordinal));
        shop.Write("faulty.yaml", Shop.Drawing("A-2", extra: "shop: {final fit extra: 0}").Replace("to: elbow}", "to: elbow, end: final-fit}", StringComparison.Ordinal));
        shop.Write("w2.yaml", "joint: W2\nreadings:\n  - {read: tape, at: 3, mm: 581.4}\n  - {read: tape, at: 9, mm: 577.4}\n");
        shop.Write("final.yaml", "spool: 1\nreadings:\n  - {read: tape, from: C2 12, to: P1 12, mm: 1921.7}\n");
        shop.Write("rack.yaml", File.ReadAllText(Repository.At("samples", "hatchery", "rack.yaml")));
        Directory.CreateDirectory(shop.At("p"));
        return shop;
    }

    /// <summary>All files but those that begin with a dot: what is just being written.</summary>
    private static Dictionary<string, byte[]> Files(Shop shop) =>
        Directory.EnumerateFiles(shop.Folder, "*", SearchOption.AllDirectories).Where(f => !Path.GetRelativePath(shop.Folder, f).Split('/').Any(p => p[0] == '.'))
            .ToDictionary(f => Path.GetRelativePath(shop.Folder, f), File.ReadAllBytes, StringComparer.Ordinal);

    private static IEnumerable<string> Dotted(Shop shop) =>
        Directory.EnumerateFileSystemEntries(shop.Folder, "*", SearchOption.AllDirectories).Select(f => Path.GetRelativePath(shop.Folder, f)).Where(f => f.Split('/').Any(p => p[0] == '.'));

    /// <summary>What a command writes: each file as it was before (null where there was none) and as it is after.</summary>
    private sealed record Written(Dictionary<string, (byte[]? Old, byte[] New)> Files, int Exit, TimeSpan Took)
    {
        /// <summary>A record that grows has its time in it: no two are the same.</summary>
        public bool Grows => Files.Keys.All(f => f.EndsWith(".readings.yaml", StringComparison.Ordinal));
    }

    private static readonly ConcurrentDictionary<string, Written> Known = new(StringComparer.Ordinal);

    private static Written Run(string command) => Known.GetOrAdd(command, RunOnce);

    private static Written RunOnce(string command)
    {
        using var shop = Begin();
        var before = Files(shop);
        var watch = Stopwatch.StartNew();
        // How long a program takes that begins with the command counts where it is killed by chance.
        var call = Cases > 0 ? shop.Begin(null, command.Split(' ')) : shop.Run(command.Split(' '));
        Assert.DoesNotContain("fault in the program", call.Error, StringComparison.Ordinal);
        var written = Files(shop).Where(f => !before.TryGetValue(f.Key, out var old) || !old.AsSpan().SequenceEqual(f.Value)).ToDictionary(f => f.Key, f => ((byte[]?)before.GetValueOrDefault(f.Key), f.Value), StringComparer.Ordinal);
        Assert.True(written.Count > 0, $"{command} wrote nothing: {call.Out}{call.Error}");
        return new(written, call.Exit, watch.Elapsed);
    }

    /// <summary>A shop in which an older set lies where the command writes.</summary>
    private static Shop WithOld(Written written)
    {
        var shop = Begin();
        foreach (var (name, (old, _)) in written.Files)
        {
            // A file to begin with and the copy of an old drawing are never written over.
            if (old is null && name.StartsWith("p/", StringComparison.Ordinal) && !name.EndsWith("begun.yaml", StringComparison.Ordinal))
                shop.Write(name, "old " + name);
        }

        return shop;
    }

    private static Process Start(Shop shop, string command, string before = "") => Process.Start(new ProcessStartInfo("bash", ["-c", $"{before} DOTNET_EnableWriteXorExecute=0 DOTNET_EnableDiagnostics=0 exec dotnet {Path.Combine(AppContext.BaseDirectory, "Rootgap.Cli.dll")} {command}"])
    {
        WorkingDirectory = shop.Folder,
        RedirectStandardError = true,
        RedirectStandardOutput = true,
    })!;

    private static void IsOldOrNew(Written written, Dictionary<string, byte[]> before, Shop shop)
    {
        var now = Files(shop);
        var isNew = new HashSet<bool>();
        foreach (var (name, (_, made)) in written.Files)
        {
            var (old, there) = (before.GetValueOrDefault(name), now.GetValueOrDefault(name));
            // The copy of a drawing that is mended is written before the drawing is.
            if (name.Contains(".old", StringComparison.Ordinal))
                Assert.True(there is null || there.AsSpan().SequenceEqual(made), name + " is half written");
            else if (there is null || old is null || there.AsSpan().SequenceEqual(old))
                isNew.Add(there is not null && old is null);
            else
                isNew.Add(true);
            if (there is null || name.Contains(".old", StringComparison.Ordinal) || (old is not null && there.AsSpan().SequenceEqual(old)))
                continue;
            if (written.Grows)
                Assert.Equal(Text(made).Count(c => c == '\n'), Text(there).Count(c => c == '\n'));
            else
                Assert.True(there.AsSpan().SequenceEqual(made), name + " is neither the old one nor the new one");
        }

        Assert.True(isNew.Count == 1, "some are old, some new: " + string.Join(", ", written.Files.Keys));

        static string Text(byte[] bytes) => System.Text.Encoding.UTF8.GetString(bytes);
    }

    private static async Task Killed(string command, Written written, Func<Process, Shop, Task> wait)
    {
        using var shop = WithOld(written);
        var before = Files(shop);
        using (var process = Start(shop, command))
        {
            await wait(process, shop);
            process.Kill(entireProcessTree: true);
            await process.WaitForExitAsync(TestContext.Current.CancellationToken);
        }

        // What a set has begun to put in its place, the next command ends: it is the new set then.
        var isBegun = Directory.Exists(shop.At("p", ".rootgap-writing")) && File.Exists(shop.At("p", ".rootgap-writing", "whole"));
        if (!isBegun)
            IsOldOrNew(written, before, shop);
        // Again, to the end: nothing of the first is left over.
        var again = shop.Run(command.Split(' '));
        Assert.DoesNotContain("fault in the program", again.Error, StringComparison.Ordinal);
        Assert.Empty(Dotted(shop));
        if (!written.Grows)
            Assert.All(written.Files.Where(f => !f.Key.Contains(".old", StringComparison.Ordinal)), f => Assert.True(File.ReadAllBytes(shop.At(f.Key)).AsSpan().SequenceEqual(f.Value.New), f.Key));
    }

    // Something that is just being written, or it is over.
    private static async Task Writing(Process process, Shop shop)
    {
        while (!process.HasExited && !Dotted(shop).Any(f => f.EndsWith(".new", StringComparison.Ordinal) || Path.GetFileName(f).StartsWith("new.", StringComparison.Ordinal)))
            await Task.Delay(1, TestContext.Current.CancellationToken);
    }

    [Theory]
    [MemberData(nameof(Commands))]
    public async Task A_command_that_is_killed_leaves_the_old_or_the_new_and_nothing_for_good(string command, string source)
    {
        _ = source;
        var written = Run(command);
        await Killed(command, written, Writing);
        var chance = new Random(command.Length);
        for (var i = 0; i < Cases; i++)
            await Killed(command, written, (_, _) => Task.Delay(written.Took * (0.3 + (0.7 * chance.NextDouble())), TestContext.Current.CancellationToken));
    }

    [Theory]
    [MemberData(nameof(Commands))]
    public async Task A_command_that_is_told_to_stop_leaves_the_old_or_the_new_and_clears_up(string command, string source)
    {
        _ = source;
        var written = Run(command);
        using var shop = WithOld(written);
        var before = Files(shop);
        using var process = Start(shop, command);
        await Writing(process, shop);
        if (!process.HasExited)
            Process.Start("kill", ["-INT", process.Id.ToString(CultureInfo.InvariantCulture)])!.WaitForExit();
        var error = await process.StandardError.ReadToEndAsync(TestContext.Current.CancellationToken);
        await process.WaitForExitAsync(TestContext.Current.CancellationToken);
        Assert.True(process.ExitCode == 130 || process.ExitCode == written.Exit, $"{process.ExitCode}: {error}");
        Assert.DoesNotContain("   at ", error, StringComparison.Ordinal);
        IsOldOrNew(written, before, shop);
        Assert.Empty(Dotted(shop));
    }

    /// <summary>A limit on the size of files is refused as a full disk is: by the write.</summary>
    [Theory]
    [MemberData(nameof(Commands))]
    public async Task A_full_disk_leaves_the_old_and_is_told(string command, string source)
    {
        _ = source;
        var written = Run(command);
        using var shop = WithOld(written);
        var before = Files(shop);
        using var process = Start(shop, command, "trap '' XFSZ; ulimit -f 0;");
        var output = process.StandardOutput.ReadToEndAsync(TestContext.Current.CancellationToken);
        var error = await process.StandardError.ReadToEndAsync(TestContext.Current.CancellationToken);
        await process.WaitForExitAsync(TestContext.Current.CancellationToken);
        Assert.NotNull(await output);
        Assert.DoesNotContain("   at ", error, StringComparison.Ordinal);
        Assert.Matches("could not be|cannot be", error);
        var now = Files(shop);
        foreach (var (name, old) in before)
            Assert.True(old.AsSpan().SequenceEqual(now[name]), name);
        // A record that could not grow is there, and empty.
        Assert.All(now.Keys.Except(before.Keys, StringComparer.Ordinal), n => Assert.True(written.Grows && now[n].Length == 0, n));
        Assert.Empty(Dotted(shop));
    }

    [Fact]
    public void Whoever_writes_a_file_does_so_whole_and_is_tried_here()
    {
        var tried = Commands.Select(r => r.Data.Item2).ToHashSet(StringComparer.Ordinal);
        foreach (var file in Directory.EnumerateFiles(Repository.At("src", "Rootgap.Cli"), "*.cs", SearchOption.AllDirectories).Where(f => !f.Contains("/obj/", StringComparison.Ordinal) && !f.Contains("/bin/", StringComparison.Ordinal)))
        {
            var (name, text) = (Path.GetFileNameWithoutExtension(file), File.ReadAllText(file));
            if (name is "OutputFile" or "OutputFolder")
                continue;
            Assert.False(WritesByItself().IsMatch(text), $"{name} writes a file by itself: OutputFile and OutputFolder write whole ones.");
            Assert.True(!text.Contains("new OutputFolder(", StringComparison.Ordinal) && !text.Contains("OutputFile.", StringComparison.Ordinal) || tried.Contains(name), $"{name} writes and no command of the list above tries it.");
        }
    }

    [GeneratedRegex(@"\bFile\.(Write|Append|Create|OpenWrite|Move|Copy|Replace)|FileMode\.(Create|Append|Truncate)|new StreamWriter\(""", RegexOptions.CultureInvariant, 1000)]
    private static partial Regex WritesByItself();
}
