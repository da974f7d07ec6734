using System.Globalization;
using System.Net;
using System.Net.Sockets;
using System.Text;
using System.Text.Json;
using Rootgap.Records;

namespace Rootgap.Server.Tests;

/// <summary>Whatever is sent or lies in the folder: it is taken or refused by itself, and everything else goes on.</summary>
public class PoisonTest
{
    private static readonly CancellationToken Cancel = TestContext.Current.CancellationToken;

    private static string Written(params string[] facts) => $"{{\"facts\":[{string.Join(',', facts)}]}}";

    private static string Nested(int deep) => $$"""{"id":"{{Facts.NewId()}}","fact":"hung","who":"Jo","when":"2026-11-25T12:00:00Z","x":{{new string('[', deep)}}{{new string(']', deep)}}}""";

    private static string Why(JsonElement body) => Assert.Single(body.GetProperty("refused").EnumerateArray()).GetProperty("why").GetString()!;

    // POSIX, NAME_MAX: a name has at most 255 bytes on most file systems. 90 signs of three bytes are 270.
    [Theory]
    [InlineData("x.yaml/y.yaml", "stands here for a folder")]
    [InlineData("a/List.CSV/y.yaml", "stands here for a folder")]
    [InlineData("管管管管管管管管管管管管管管管管管管管管管管管管管管管管管管管管管管管管管管管管管管管管管管管管管管管管管管管管管管管管管管管管管管管管管管管管管管管管管管管管管管管管管管.yaml", "bytes long")]
    [InlineData("~$list.xlsx", "lock file")]
    [InlineData("cafe\u0301.yaml", "accent")]
    public async Task A_name_that_cannot_be_written_everywhere_is_refused_at_the_door_and_the_server_starts_again(string path, string told)
    {
        using var job = new JobOnDisk();
        await using (var server = await Served.Of(job))
        {
            var (status, body) = await server.Send(HttpMethod.Post, "/api/facts", Written($$"""{"id":"{{Facts.NewId()}}","fact":"file","who":"Eve","when":"2026-11-25T12:00:00Z","path":"{{path}}","text":"x"}"""));
            Assert.Equal(HttpStatusCode.OK, status);
            Assert.Contains(told, Why(body), StringComparison.Ordinal);
            await server.Post(Facts.Saved("x.yaml", "x"), Facts.Saved("after.yaml", "y"));
            Assert.True(File.Exists(job.At("after.yaml")));
        }

        await using var again = await Served.Of(job);
        Assert.NotNull((await again.FileOf("after.yaml"))!.Latest);
    }

    [Fact]
    public async Task A_name_that_differs_only_in_large_and_small_letters_is_refused_with_the_one_that_is_there()
    {
        using var job = new JobOnDisk();
        await using var server = await Served.Of(job);
        var (_, body) = await server.Post(Facts.Saved("Line-1.yaml", "x"), Facts.Saved("line-1.yaml", "y"));
        Assert.Single(Facts.Ids(body, "kept"));
        Assert.Contains("Line-1.yaml is there already", Why(body), StringComparison.Ordinal);
    }

    [Fact]
    public async Task A_file_that_cannot_be_written_holds_up_no_other_and_is_told()
    {
        using var job = new JobOnDisk();
        Directory.CreateDirectory(job.At("b.yaml"));
        await using (var server = await Served.Of(job))
        {
            await server.Post(Facts.Saved("a.yaml", "a"), Facts.Saved("b.yaml", "b"), Facts.Saved("c.yaml", "c"));
            Assert.True(File.Exists(job.At("a.yaml")) && File.Exists(job.At("c.yaml")));
            var trouble = Assert.Single((await server.Send(HttpMethod.Get, "/api/job")).Body.GetProperty("troubles").EnumerateArray());
            Assert.Equal("b.yaml", trouble.GetProperty("path").GetString());
        }

        await using var again = await Served.Of(job);
        Assert.Equal(3, (await again.All()).Count);
    }

    [Fact]
    public async Task A_file_that_cannot_be_read_holds_up_no_other_and_is_told()
    {
        Assert.SkipWhen(OperatingSystem.IsWindows(), "Names that are no UTF-8 exist on Unix only.");
        using var job = new JobOnDisk();
        job.Write("a.yaml", "a");
        job.Write("z.yaml", "z");
        // A name in Latin-1, which no reader of UTF-8 can open: it works for root too, whom no rights keep out.
        using (var made = System.Diagnostics.Process.Start("bash", ["-c", $"printf x > \"$(printf '{job.Path}/m\\374ll.yaml')\"; touch -d '1 minute ago' {job.Path}/m*"]))
            await made.WaitForExitAsync(Cancel);
        await using var gone = new Remover(job.Path);
        await using var server = await Served.Of(job);
        Assert.Equal(["a.yaml", "z.yaml"], (await server.All()).Select(f => ((FileSaved)f.Fact).Path).Order());
        Assert.Single((await server.Send(HttpMethod.Get, "/api/job")).Body.GetProperty("troubles").EnumerateArray());
        await Task.Delay(2500, Cancel);
        await server.Job.Folder!.SyncAsync();
        Assert.Equal(2, (await server.All()).Count);
    }

    [Fact]
    public async Task The_lock_file_of_a_spreadsheet_is_no_list()
    {
        using var job = new JobOnDisk();
        job.Write("list.csv", "item\n");
        job.Write("~$list.xlsx", "lock");
        job.Write(".~lock.list.csv#", "lock");
        await using var server = await Served.Of(job);
        Assert.Equal("list.csv", ((FileSaved)Assert.Single(await server.All()).Fact).Path);
        Assert.Empty((await server.Send(HttpMethod.Get, "/api/job")).Body.GetProperty("troubles").EnumerateArray());
    }

    [Theory]
    [InlineData(17)]
    [InlineData(62)]
    [InlineData(200)]
    public async Task A_fact_whose_values_lie_too_deep_is_refused_and_the_others_are_kept(int deep)
    {
        using var job = new JobOnDisk();
        await using var server = await Served.Of(job);
        var (status, body) = await server.Send(HttpMethod.Post, "/api/facts", Written(Nested(deep), FactJson.Text(Facts.Cut())));
        Assert.Equal(HttpStatusCode.OK, status);
        Assert.Contains("deep", Why(body), StringComparison.Ordinal);
        Assert.Single(Facts.Ids(body, "kept"));
    }

    [Fact]
    public async Task The_deepest_fact_that_is_taken_can_be_read_by_a_reader_with_the_usual_limit()
    {
        using var job = new JobOnDisk();
        await using var server = await Served.Of(job);
        var (_, body) = await server.Send(HttpMethod.Post, "/api/facts", Written(Nested(15)));
        Assert.Single(Facts.Ids(body, "kept"));
        // JsonDocument's own limit is 64, as is that of most readers.
        using var read = JsonDocument.Parse(await server.Http.GetStringAsync(new Uri("/api/facts", UriKind.Relative), Cancel));
        Assert.Equal(1, read.RootElement.GetProperty("facts").GetArrayLength());
    }

    [Fact]
    public async Task A_fact_over_one_megabyte_is_refused_by_itself()
    {
        using var job = new JobOnDisk();
        await using var server = await Served.Of(job);
        var big = $$"""{"id":"{{Facts.NewId()}}","fact":"hung","who":"Jo","when":"2026-11-25T12:00:00Z","x":"{{new string('x', 15_000_000)}}"}""";
        var (status, body) = await server.Send(HttpMethod.Post, "/api/facts", Written(FactJson.Text(Facts.Cut()), big, FactJson.Text(Facts.Cut())));
        Assert.Equal(HttpStatusCode.OK, status);
        Assert.Contains("1 MB", Why(body), StringComparison.Ordinal);
        Assert.Equal(2, Facts.Ids(body, "kept").Length);
    }

    [Fact]
    public async Task A_fact_of_tomorrow_is_asked_about_and_one_of_yesterday_is_taken()
    {
        using var job = new JobOnDisk();
        await using var server = await Served.Of(job);
        var late = new PieceCut(Facts.NewId(), "Jo", new(9999, 1, 1, 0, 0, 0, TimeSpan.Zero), new("D-1", "2"), "1-A");
        var early = new PieceCut(Facts.NewId(), "Jo", DateTimeOffset.UtcNow.AddDays(-1), new("D-1", "2"), "1-A");
        var (_, body) = await server.Post(late, early);
        Assert.Equal([early.Id], Facts.Ids(body, "kept"));
        Assert.Contains("Set the clock", Why(body), StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("{\"facts\":[", "line 1")]
    [InlineData("{\"facts\":[{\"id\":\"\\ud800\"}]}", null)]
    [InlineData("{\"x\":[1,{\"y\":2}],\"facts\":[]}", null)]
    [InlineData("{\"x\":1}", "no list of facts")]
    [InlineData("{\"facts\":[]} trailing", "line 1")]
    public async Task Whatever_the_body_the_answer_says_why(string sent, string? told)
    {
        using var job = new JobOnDisk();
        await using var server = await Served.Of(job);
        var (status, body) = await server.Send(HttpMethod.Post, "/api/facts", sent);
        Assert.Equal(told is null ? HttpStatusCode.OK : HttpStatusCode.BadRequest, status);
        if (told is not null)
            Assert.Contains(told, body.GetProperty("error").GetString(), StringComparison.Ordinal);
    }

    // RFC 9112, 7.1: a recipient must watch for chunk sizes that overflow.
    [Theory]
    [InlineData("FFFFFFFFFFFFFFFFFF")]
    [InlineData("-5")]
    [InlineData("zz")]
    public async Task A_chunk_size_that_overflows_gets_an_answer(string size)
    {
        using var job = new JobOnDisk();
        await using var server = await Served.Of(job);
        using var client = new TcpClient();
        await client.ConnectAsync(IPAddress.Loopback, server.Address.Port, Cancel);
        await using var stream = client.GetStream();
        await stream.WriteAsync(Encoding.ASCII.GetBytes($"POST /api/facts HTTP/1.1\r\nHost: localhost\r\nContent-Type: application/json\r\nTransfer-Encoding: chunked\r\nConnection: close\r\n\r\n{size}\r\n{{}}\r\n0\r\n\r\n"), Cancel);
        using var reader = new StreamReader(stream);
        var answer = await reader.ReadToEndAsync(Cancel);
        Assert.StartsWith("HTTP/1.1 400 ", answer, StringComparison.Ordinal);
        Assert.Contains("could not be read", answer, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Silent_connections_of_one_device_shut_nobody_else_out()
    {
        Assert.SkipUnless(OperatingSystem.IsLinux(), "Linux takes all of 127.0.0.0/8 for this machine.");
        using var job = new JobOnDisk();
        await using var server = await Served.Of(job);
        var silent = new List<TcpClient>();
        try
        {
            for (var i = 0; i < 1100; i++)
            {
                silent.Add(new TcpClient());
                try
                {
                    await silent[^1].ConnectAsync(IPAddress.Loopback, server.Address.Port, Cancel);
                }
                catch (SocketException)
                {
                    // Closed by the server, as it should be beyond some number.
                }
            }

            using var other = new TcpClient(new IPEndPoint(IPAddress.Parse("127.0.0.2"), 0));
            await other.ConnectAsync(IPAddress.Loopback, server.Address.Port, Cancel);
            await using var stream = other.GetStream();
            await stream.WriteAsync("GET /api/job HTTP/1.1\r\nHost: localhost\r\nConnection: close\r\n\r\n"u8.ToArray(), Cancel);
            using var reader = new StreamReader(stream);
            Assert.Equal("HTTP/1.1 200 OK", await reader.ReadLineAsync(Cancel));
        }
        finally
        {
            silent.ForEach(s => s.Dispose());
        }
    }

    [Fact]
    public async Task Guessing_the_token_gets_slower()
    {
        using var job = new JobOnDisk();
        const string Right = "0123456789abcdef0123456789abcdef01234567";
        await using var server = await Served.Of(job, Right);
        var statuses = new List<HttpStatusCode>();
        for (var i = 0; i < 14; i++)
            statuses.Add((await server.Send(HttpMethod.Get, "/api/job", token: string.Create(CultureInfo.InvariantCulture, $"{i:d40}"))).Status);
        Assert.Equal(HttpStatusCode.Unauthorized, statuses[9]);
        Assert.Equal(HttpStatusCode.TooManyRequests, statuses[^1]);
        // The tablets behind the same address work on.
        Assert.Equal(HttpStatusCode.OK, (await server.Send(HttpMethod.Get, "/api/job", token: Right)).Status);
    }

    /// <summary>Takes away what .NET cannot name.</summary>
    private sealed class Remover(string folder) : IAsyncDisposable
    {
        public async ValueTask DisposeAsync()
        {
            using var made = System.Diagnostics.Process.Start("bash", ["-c", $"rm -f {folder}/m*"]);
            await made.WaitForExitAsync();
        }
    }

    /// <summary>The body is said to be large and never comes: whoever waited for it to be read would wait for ever.</summary>
    [Theory]
    [InlineData("POST", "/api/facts", 17_000_000)]
    [InlineData("POST", "/api/enrol", 70_000)]
    [InlineData("POST", "/api/people/proof", 70_000)]
    [InlineData("POST", "/api/people/code", 70_000)]
    [InlineData("POST", "/api/facts/some", 1_100_000)]
    [InlineData("POST", "/api/facts/about", 1_100_000)]
    [InlineData("POST", "/api/attachments/lacking", 1_100_000)]
    [InlineData("PUT", "/api/attachments/e3b0c44298fc1c149afbf4c8996fb92427ae41e4649b934ca495991b7852b855?at=0&of=90000", 2_200_000)]
    public async Task A_body_that_is_too_large_is_refused_before_any_of_it_is_read(string method, string path, int length)
    {
        using var job = new JobOnDisk();
        await using var served = await Served.Of(job);
        using var client = new TcpClient();
        await client.ConnectAsync(IPAddress.Loopback, served.Address.Port, TestContext.Current.CancellationToken);
        await using var stream = client.GetStream();
        await stream.WriteAsync(Encoding.ASCII.GetBytes($"{method} {path} HTTP/1.1\r\nHost: localhost\r\nContent-Type: application/json\r\nContent-Length: {length}\r\n\r\n"), TestContext.Current.CancellationToken);
        using var reader = new StreamReader(stream);
        Assert.Contains(" 413 ", await reader.ReadLineAsync(TestContext.Current.CancellationToken), StringComparison.Ordinal);
    }
}
