using System.Diagnostics;
using System.Formats.Tar;
using System.IO.Compression;
using System.Security.Cryptography;
using System.Text.RegularExpressions;

namespace Rootgap.Cli.Tests;

/// <summary>The archive that ./publish makes for this system, unpacked where nothing else is and used as whoever fetched it would.</summary>
public sealed partial class ArchiveTest : IDisposable
{
    private readonly string folder = Directory.CreateTempSubdirectory("rootgap-archive-").FullName;

    [Fact]
    [Trait("pace", "slow")]
    public async Task The_archive_makes_a_packet_serves_the_demo_and_stops_with_nothing_else_installed()
    {
        var made = await Run("bash", [Repository.At("publish"), "here", "--out", Path.Combine(folder, "out")], TimeSpan.FromMinutes(25));
        Assert.True(made.Exit == 0, made.Error + made.Out);

        var archive = Assert.Single(Directory.GetFiles(Path.Combine(folder, "out"), "*.tar.gz"));
        var sum = Convert.ToHexStringLower(SHA256.HashData(File.ReadAllBytes(archive)));
        Assert.Equal($"{sum}  {Path.GetFileName(archive)}", File.ReadAllText(Path.Combine(folder, "out", "SHA256SUMS")).Trim());

        var shop = Directory.CreateDirectory(Path.Combine(folder, "shop")).FullName;
        using (var packed = new GZipStream(File.OpenRead(archive), CompressionMode.Decompress))
            TarFile.ExtractToDirectory(packed, shop, overwriteFiles: false);
        var home = Assert.Single(Directory.GetDirectories(shop));
        var program = Path.Combine(home, "rootgap");
        // One program to start, what it stands on in a folder, and what people read.
        Assert.Equal(["LICENSE", "README.txt", "installing.md", "licences.txt", "program", "rootgap", "service", "version.txt"], Directory.EnumerateFileSystemEntries(home).Select(Path.GetFileName).Order(StringComparer.Ordinal));
        Assert.Contains($"-{File.ReadAllText(Path.Combine(home, "version.txt")).Trim()}-", Path.GetFileName(home), StringComparison.Ordinal);
        Assert.Contains("three ", File.ReadAllText(Path.Combine(home, "licences.txt")), StringComparison.Ordinal);

        File.WriteAllText(Path.Combine(shop, "line.yaml"), Shop.Drawing("A-1"));
        var packet = await Run(program, ["packet", "line.yaml", "--out", "packet"], TimeSpan.FromMinutes(2));
        Assert.True(packet.Exit is 0 or 1, packet.Error + packet.Out);
        Assert.True(File.Exists(Path.Combine(shop, "packet", "packet.json")) && File.Exists(Path.Combine(shop, "packet", "shop.pdf")), packet.Out);
        // A picture is drawn by a native library, which lies in the archive too.
        var sheet = await Run(program, ["sheet", "line.yaml", "--format", "png", "--out", "sheets"], TimeSpan.FromMinutes(2));
        Assert.True(sheet.Exit is 0 or 1 && Directory.GetFiles(Path.Combine(shop, "sheets"), "*.png").Length > 0, sheet.Error + sheet.Out);

        await Serves(program, shop);
    }

    private async Task Serves(string program, string shop)
    {
        using var server = Process.Start(Start(program, ["serve", "--demo", "--port", "0"], shop))!;
        var unheard = server.StandardError.ReadToEndAsync();
        string? line;
        Match address;
        do
        {
            line = await server.StandardOutput.ReadLineAsync();
            address = Address().Match(line ?? "");
        }
        while (line is not null && !address.Success);
        if (line is null)
            Assert.Fail($"The server ended: {await unheard}");
        using var http = new HttpClient { BaseAddress = new Uri(address.Value) };
        Assert.Contains("<base href=\"/\"", await http.GetStringAsync(new Uri("/", UriKind.Relative)), StringComparison.Ordinal);
        Assert.NotEmpty(await http.GetByteArrayAsync(new Uri("/_framework/blazor.webassembly.js", UriKind.Relative)));
        Assert.Contains("DejaVu", await http.GetStringAsync(new Uri("/licences.txt", UriKind.Relative)), StringComparison.Ordinal);
        Assert.Contains("hatchery", await http.GetStringAsync(new Uri("/api/job", UriKind.Relative)), StringComparison.Ordinal);

        // It is one program from outside: what stops the one that was started stops the server.
        using (var stop = Process.Start("kill", ["-INT", FormattableString.Invariant($"{server.Id}")]))
            await stop.WaitForExitAsync();
        var said = await server.StandardOutput.ReadToEndAsync();
        await server.WaitForExitAsync();
        Assert.Equal(0, server.ExitCode);
        Assert.Contains("Stopped.", said, StringComparison.Ordinal);
        Assert.True(File.Exists(Path.Combine(shop, "demo", ".rootgap", "records.db")));
    }

    // As on a machine without .NET.
    private static ProcessStartInfo Start(string program, IEnumerable<string> arguments, string where)
    {
        var start = new ProcessStartInfo(program, arguments) { UseShellExecute = false, WorkingDirectory = where, RedirectStandardOutput = true, RedirectStandardError = true };
        if (Path.GetFileName(program) == "rootgap")
        {
            start.Environment["PATH"] = "/nowhere";
            foreach (var name in start.Environment.Keys.Where(k => k.StartsWith("DOTNET_", StringComparison.Ordinal)).ToList())
                start.Environment.Remove(name);
        }

        return start;
    }

    private async Task<Call> Run(string program, IEnumerable<string> arguments, TimeSpan patience)
    {
        using var process = Process.Start(Start(program, arguments, Path.GetFileName(program) == "rootgap" ? Path.Combine(folder, "shop") : folder))!;
        var (output, error) = (process.StandardOutput.ReadToEndAsync(), process.StandardError.ReadToEndAsync());
        using var limit = new CancellationTokenSource(patience);
        try
        {
            await process.WaitForExitAsync(limit.Token);
        }
        catch (OperationCanceledException)
        {
            process.Kill(entireProcessTree: true);
        }

        return new(process.ExitCode, await output, await error);
    }

    public void Dispose() => Directory.Delete(folder, recursive: true);

    [GeneratedRegex(@"http://localhost:\d+/", RegexOptions.CultureInvariant, 1000)]
    private static partial Regex Address();
}
