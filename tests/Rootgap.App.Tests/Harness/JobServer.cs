using System.Diagnostics;
using System.Globalization;
using System.Net;
using System.Net.Sockets;
using System.Text;
using System.Text.Json;

namespace Rootgap.App.Tests.Harness;

/// <summary><c>rootgap serve</c>, started as its user starts it, on a copy of a job's folder. It can be killed and started again on the same port.</summary>
public sealed class JobServer : IAsyncDisposable
{
    private readonly string[] more;
    private readonly HttpClient http = new(new HttpClientHandler { AutomaticDecompression = DecompressionMethods.All });
    private readonly StringBuilder said = new();
    private Process? process;

    private JobServer(string folder, int port, string[] more)
    {
        (Folder, this.more) = (folder, more);
        Port = port;
        Address = new Uri(string.Create(CultureInfo.InvariantCulture, $"http://127.0.0.1:{port}/"));
        http.BaseAddress = Address;
    }

    /// <summary>The job's folder: a copy, gone afterwards.</summary>
    public string Folder { get; }

    public int Port { get; }

    public Uri Address { get; }

    /// <summary>All that it wrote, for a failing test's reader.</summary>
    public string Said
    {
        get
        {
            lock (said)
                return said.ToString();
        }
    }

    /// <summary>Serves a copy of a sample job, or an empty folder where <paramref name="sample"/> is null.</summary>
    public static async Task<JobServer> Start(string? sample = "hatchery", params string[] more)
    {
        var folder = Directory.CreateTempSubdirectory("rootgap-").FullName;
        if (sample is not null)
        {
            foreach (var file in Directory.GetFiles(Repository.At("samples", sample)))
                File.Copy(file, Path.Combine(folder, Path.GetFileName(file)));
        }

        var server = new JobServer(folder, FreePort(), more);
        await server.Again();
        return server;
    }

    /// <summary>Starts it, and waits until it answers.</summary>
    /// <param name="also">Arguments for this time only.</param>
    public async Task Again(params string[] also)
    {
        // A program that may not write more is told so, not killed, where it inherits that (see LimitFiles).
        var program = Environment.GetEnvironmentVariable("ROOTGAP_PROGRAM") ?? Repository.At("rootgap");
        var start = new ProcessStartInfo("bash", ["-c", "trap '' XFSZ; exec \"$0\" \"$@\"", program, "serve", Folder, "--port", Port.ToString(CultureInfo.InvariantCulture), .. more, .. also])
        {
            UseShellExecute = false,
            RedirectStandardOutput = true,
            RedirectStandardError = true,
            WorkingDirectory = Folder,
        };
        // Compiling again what runs often is no gain in a server that lives for a minute: it was 1.0 of its 2.4 s of work.
        start.Environment["DOTNET_TC_CallCounting"] = "0";
        process = Process.Start(start)!;
        process.OutputDataReceived += Hear;
        process.ErrorDataReceived += Hear;
        process.BeginOutputReadLine();
        process.BeginErrorReadLine();
        var since = Stopwatch.StartNew();
        while (true)
        {
            try
            {
                using var answer = await http.GetAsync(new Uri("api/job", UriKind.Relative));
                return;     // it answers, if only that the token is missing
            }
            catch (HttpRequestException) when (!process.HasExited && since.Elapsed < TimeSpan.FromMinutes(3))
            {
                await Task.Delay(50);
            }
            catch (HttpRequestException e)
            {
                throw new InvalidOperationException($"rootgap serve did not come up. It said:\n{Said}", e);
            }
        }
    }

    /// <summary>Runs <c>rootgap job ...</c>; what it said. Fails the test where that fails.</summary>
    public static async Task<string> Command(params string[] arguments)
    {
        using var command = Process.Start(new ProcessStartInfo(Environment.GetEnvironmentVariable("ROOTGAP_PROGRAM") ?? Repository.At("rootgap"), ["job", .. arguments]) { RedirectStandardError = true, RedirectStandardOutput = true })!;
        var wrong = command.StandardError.ReadToEndAsync();
        var output = await command.StandardOutput.ReadToEndAsync();
        await command.WaitForExitAsync();
        if (command.ExitCode != 0)
            throw new InvalidOperationException($"rootgap job {string.Join(' ', arguments)} ended with {command.ExitCode}: {await wrong}");
        return output;
    }

    /// <summary>Pulls the plug: no time to put anything away.</summary>
    public async Task Kill()
    {
        if (process is null)
            return;
        process.Kill(entireProcessTree: true);
        await process.WaitForExitAsync();
        process.Dispose();
        process = null;
    }

    /// <summary>The most memory that it had since it was started, bytes (Linux).</summary>
    public long Memory() => long.Parse(File.ReadLines(string.Create(CultureInfo.InvariantCulture, $"/proc/{process!.Id}/status")).First(l => l.StartsWith("VmHWM:", StringComparison.Ordinal)).Split(' ', StringSplitOptions.RemoveEmptyEntries)[1], CultureInfo.InvariantCulture) * 1024;

    /// <summary>Lets the server write no file larger than so many bytes, as on a disk that is full; "unlimited" makes room again.</summary>
    public async Task LimitFiles(string bytes)
    {
        using var limit = Process.Start("prlimit", ["--pid", process!.Id.ToString(CultureInfo.InvariantCulture), $"--fsize={bytes}:"]);
        await limit.WaitForExitAsync();
        if (limit.ExitCode != 0)
            throw new InvalidOperationException($"prlimit ended with {limit.ExitCode}.");
    }

    /// <summary>All facts that the server keeps, as their JSON, in the order of their numbers.</summary>
    public async Task<IReadOnlyList<JsonElement>> Facts()
    {
        var all = new List<JsonElement>();
        var after = 0L;
        while (true)
        {
            using var answer = JsonDocument.Parse(await http.GetStringAsync(new Uri(string.Create(CultureInfo.InvariantCulture, $"api/facts?after={after}"), UriKind.Relative)));
            var root = answer.RootElement;
            all.AddRange(root.GetProperty("facts").EnumerateArray().Select(f => f.GetProperty("fact").Clone()));
            after = root.GetProperty("next").GetInt64();
            if (!root.GetProperty("more").GetBoolean())
                return all;
        }
    }

    /// <summary>Facts from elsewhere, as another program would send them.</summary>
    public async Task Post(IReadOnlyList<object> facts)
    {
        using var content = new StringContent(JsonSerializer.Serialize(new { facts }), Encoding.UTF8, "application/json");
        using var answer = await http.PostAsync(new Uri("api/facts", UriKind.Relative), content);
        answer.EnsureSuccessStatusCode();
    }

    /// <summary>
    /// Changes a file of the job's folder as another program would, and waits until the server has seen it: it looks at the folder every few
    /// seconds, and a page that opens before would show the file as it was.
    /// </summary>
    public async Task Write(string path, string text)
    {
        await File.WriteAllTextAsync(Path.Combine(Folder, path), text);
        for (var tries = 0; tries < 150; tries++)
        {
            if ((await Facts()).Any(f => f.GetProperty("fact").GetString() == "file" && f.GetProperty("path").GetString() == path && f.TryGetProperty("text", out var kept) && kept.GetString() == text))
                return;
            await Task.Delay(200);
        }

        throw new InvalidOperationException($"The server did not see {path} in 30 s. It said:\n{Said}");
    }

    public async Task<HttpResponseMessage> Get(string path) => await http.GetAsync(new Uri(path, UriKind.Relative));

    public async ValueTask DisposeAsync()
    {
        await Kill();
        http.Dispose();
        Directory.Delete(Folder, recursive: true);
    }

    private static int FreePort()
    {
        using var listener = new TcpListener(IPAddress.Loopback, 0);
        listener.Start();
        return ((IPEndPoint)listener.LocalEndpoint).Port;
    }

    private void Hear(object sender, DataReceivedEventArgs line)
    {
        lock (said)
            said.AppendLine(line.Data);
    }
}
