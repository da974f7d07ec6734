using System.Diagnostics;
using System.Text.Json;

namespace Rootgap.Cli.Tests;

/// <summary>Whatever ends a command that writes, the old set of files stands entire or the new one does.</summary>
public class OutputsWholeTest
{
    private const string Own = ".rootgap-writing";

    private static Dictionary<string, byte[]> Files(Shop shop, string folder) =>
        Directory.EnumerateFileSystemEntries(shop.At(folder)).ToDictionary(f => Path.GetFileName(f), f => File.Exists(f) ? File.ReadAllBytes(f) : [], StringComparer.Ordinal);

    private static void Same(Dictionary<string, byte[]> before, Dictionary<string, byte[]> now)
    {
        Assert.Equal(before.Keys.Order(StringComparer.Ordinal), now.Keys.Order(StringComparer.Ordinal));
        Assert.All(before, f => Assert.True(f.Value.AsSpan().SequenceEqual(now[f.Key]), f.Key));
    }

    /// <summary>A job big enough that a command over it can be stopped on its way, and its packet by another revision.</summary>
    private static Dictionary<string, byte[]> Job(Shop shop)
    {
        for (var i = 0; i < 60; i++)
            shop.Write($"job/d{i:00}.yaml", Shop.Drawing($"D-{i}", "1100"));
        Assert.Equal(0, shop.Run("packet", "job/d00.yaml", "--out", "p").Exit);
        return Files(shop, "p");
    }

    private static Process Begin(Shop shop, params string[] arguments)
    {
        var process = Process.Start(new ProcessStartInfo("dotnet", [Path.Combine(AppContext.BaseDirectory, "Rootgap.Cli.dll"), .. arguments])
        {
            WorkingDirectory = shop.Folder,
            RedirectStandardError = true,
            RedirectStandardOutput = true,
        })!;
        // On its way, and not done: the sheets are being written.
        while (!process.HasExited && !(File.Exists(shop.At("p", Own, "new.shop.pdf")) && new FileInfo(shop.At("p", Own, "new.shop.pdf")).Length > 0))
            Thread.Sleep(5);
        return process;
    }

    [Fact]
    public void A_command_that_is_killed_leaves_the_old_set_and_the_next_one_clears_up()
    {
        using var shop = new Shop();
        var before = Job(shop);
        using (var process = Begin(shop, "packet", "job", "--out", "p"))
        {
            process.Kill();
            process.WaitForExit();
        }

        var left = Files(shop, "p");
        Assert.True(left.Remove(Own), "It was done before it was killed.");
        Same(before, left);
        Assert.Equal(0, shop.Run("packet", "job/d00.yaml", "--out", "p").Exit);
        Same(before, Files(shop, "p"));
    }

    [Theory]
    [InlineData("INT")]
    [InlineData("TERM")]
    public async Task A_command_that_is_told_to_stop_leaves_the_old_set_and_says_so(string signal)
    {
        using var shop = new Shop();
        var before = Job(shop);
        using var process = Begin(shop, "packet", "job", "--out", "p");
        Process.Start("kill", ["-" + signal, process.Id.ToString(System.Globalization.CultureInfo.InvariantCulture)])!.WaitForExit();
        var cancel = TestContext.Current.CancellationToken;
        var output = process.StandardOutput.ReadToEndAsync(cancel);
        var error = await process.StandardError.ReadToEndAsync(cancel);
        await process.WaitForExitAsync(cancel);
        Assert.NotNull(await output);
        Assert.Equal(130, process.ExitCode);
        Assert.Contains("Nothing in p is changed.", error, StringComparison.Ordinal);
        Same(before, Files(shop, "p"));
    }

    /// <summary>A limit on the size of files is refused as a full disk is: by the write, and not by a signal, which the runtime takes on only some time after it has begun.</summary>
    [Theory]
    [InlineData("packet job --out p")]
    [InlineData("packet job --data-only --out p")]
    [InlineData("sheet job --out p")]
    [InlineData("model job --out p")]
    [InlineData("tables --out p")]
    [InlineData("check job --sarif p/found.sarif")]
    public async Task A_full_disk_leaves_the_old_set_and_is_told(string command)
    {
        using var shop = new Shop();
        var before = Job(shop);
        using var process = Process.Start(new ProcessStartInfo("bash", ["-c", $"trap '' XFSZ; ulimit -f 8; DOTNET_EnableWriteXorExecute=0 exec dotnet {Path.Combine(AppContext.BaseDirectory, "Rootgap.Cli.dll")} {command}"])
        {
            WorkingDirectory = shop.Folder,
            RedirectStandardError = true,
            RedirectStandardOutput = true,
        })!;
        var cancel = TestContext.Current.CancellationToken;
        var output = process.StandardOutput.ReadToEndAsync(cancel);
        var error = await process.StandardError.ReadToEndAsync(cancel);
        await process.WaitForExitAsync(cancel);
        Assert.NotNull(await output);
        Assert.Equal(3, process.ExitCode);
        Assert.Contains("What was there before stands as it was", error, StringComparison.Ordinal);
        Assert.DoesNotContain("   at ", error, StringComparison.Ordinal);
        Same(before, Files(shop, "p"));
    }

    [Fact]
    public void Two_commands_at_once_on_one_folder_do_not_mix()
    {
        using var shop = new Shop();
        var before = Job(shop);
        Directory.CreateDirectory(shop.At("p", Own));
        using (new FileStream(shop.At("p", Own, "lock"), FileMode.Create, FileAccess.ReadWrite, FileShare.None))
        {
            var call = shop.Run("packet", "job/d01.yaml", "--out", "p");
            Assert.Equal(3, call.Exit);
            Assert.Contains("Another rootgap is writing in p", call.Error, StringComparison.Ordinal);
        }

        var left = Files(shop, "p");
        left.Remove(Own);
        Same(before, left);
    }

    [Fact]
    public void A_set_that_was_whole_when_its_process_ended_is_put_in_its_place()
    {
        using var shop = new Shop();
        Job(shop);
        Directory.CreateDirectory(shop.At("p", Own));
        File.WriteAllText(shop.At("p", Own, "new.cut-list.csv"), "the new one");
        File.WriteAllText(shop.At("p", Own, "new.half"), "what a command before that left");
        File.WriteAllLines(shop.At("p", Own, "whole"), ["packet.json", "cut-list.csv"]);
        shop.Run("model", "job/d00.yaml", "--out", "p");
        Assert.Equal("the new one", File.ReadAllText(shop.At("p", "cut-list.csv")));
        Assert.False(Directory.Exists(shop.At("p", Own)));
        Assert.False(File.Exists(shop.At("p", "half")));
    }

    [Fact]
    public void A_file_that_cannot_be_put_in_its_place_leaves_all_others_as_they_were()
    {
        using var shop = new Shop();
        shop.Write("a.yaml", Shop.Drawing("A-1"));
        shop.Write("p/packet.json", "old");
        shop.Write("p/shop.pdf/keep", "a folder where a file is to lie");
        var call = shop.Run("packet", "a.yaml", "--out", "p");
        Assert.Equal(3, call.Exit);
        Assert.Contains("shop.pdf is a folder", call.Error, StringComparison.Ordinal);
        Assert.Equal("old", File.ReadAllText(shop.At("p", "packet.json")));
        Assert.Equal(["packet.json", "shop.pdf"], Files(shop, "p").Keys.Order(StringComparer.Ordinal), StringComparer.Ordinal);
    }

    [Theory]
    [InlineData("sheet", "--format", "svg")]
    [InlineData("sheet", "--format", "pdf")]
    [InlineData("model")]
    public void Two_drawings_of_one_number_do_not_write_over_each_other(string command, params string[] more)
    {
        using var shop = new Shop();
        shop.Write("a.yaml", Shop.Drawing("A-1"));
        shop.Write("b.yaml", Shop.Drawing("A-1", "1300", "revision: 2"));
        var call = shop.Run([command, "a.yaml", "b.yaml", "--out", "o", "--json", .. more]);
        Assert.Equal(0, call.Exit);
        using var json = JsonDocument.Parse(call.Out);
        var named = json.RootElement.EnumerateObject().First().Value.EnumerateArray().Select(e => e.ValueKind == JsonValueKind.String ? e.GetString()! : e.GetProperty("file").GetString()!).ToList();
        // A drawing has one file, or one for each of its two sheets.
        Assert.Equal(more.Contains("svg", StringComparer.Ordinal) ? 4 : 2, named.Distinct(StringComparer.Ordinal).Count());
        Assert.Equal(named.Select(n => Path.GetFileName(n)!).Order(StringComparer.Ordinal), Files(shop, "o").Keys.Order(StringComparer.Ordinal));
        Assert.False(File.ReadAllBytes(shop.At(named[0])).AsSpan().SequenceEqual(File.ReadAllBytes(shop.At(named[named.Count / 2]))));
    }

    [Fact]
    public void Templates_of_two_drawings_of_one_number_do_not_write_over_each_other()
    {
        using var shop = new Shop();
        foreach (var name in new[] { "a", "b" })
            shop.Write(name + ".yaml", Shop.Drawing("A-1", extra: $"revision: {name}").Replace("{go: north, by: 1500, to: elbow}", "{go: north, by: 900, to: stub-in, size: 3, branch: up, name: S}\n      - {go: north, by: 600, to: elbow}", StringComparison.Ordinal) + "  - run: b\n    size: 3\n    start: {from: S}\n    legs: [{go: up, by: 600, to: flange}]\n");
        Assert.Equal(0, shop.Run("template", "drawing", "a.yaml", "b.yaml", "--out", "o").Exit);
        Assert.Equal(2, Files(shop, "o").Count);
    }
}
