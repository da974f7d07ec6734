using System.Collections.Concurrent;
using System.Net;
using System.Net.Sockets;

namespace Rootgap.Server.Tests;

public class KilledTest
{
    [Fact]
    public async Task What_was_answered_is_there_once_after_the_server_was_killed_in_the_middle_of_writing()
    {
        using var job = new JobOnDisk();
        var answered = new ConcurrentBag<string>();
        var sent = new ConcurrentBag<Rootgap.Records.PieceCut>();
        await using (var server = await ServerProgram.Start(job))
        {
            var enough = new TaskCompletionSource();
            var writers = Enumerable.Range(0, 4).Select(async _ =>
            {
                while (true)
                {
                    var batch = Enumerable.Range(0, 3).Select(_ => Facts.Cut()).ToList();
                    batch.ForEach(sent.Add);
                    try
                    {
                        var (_, body) = await server.Served.Post(batch);
                        foreach (var id in Facts.Ids(body, "kept"))
                            answered.Add(id);
                    }
                    catch (Exception e) when (e is HttpRequestException or IOException)
                    {
                        return;
                    }

                    if (answered.Count > 60)
                        enough.TrySetResult();
                }
            }).ToList();
            await enough.Task;
            await server.Kill();
            await Task.WhenAll(writers);
        }

        await using var again = await ServerProgram.Start(job);
        // As a browser does that had no answer: all is sent once more.
        await again.Served.Post(sent);
        var kept = (await again.Served.All()).Select(f => f.Fact.Id).ToList();
        Assert.Empty(answered.Except(kept));
        Assert.Equal(sent.Select(f => f.Id).Order(), kept.Order());
    }

    [Fact]
    public async Task A_port_that_is_taken_is_told_with_another_one()
    {
        using var job = new JobOnDisk();
        using var taken = new TcpListener(IPAddress.Loopback, 0);
        taken.Start();
        var port = ((IPEndPoint)taken.LocalEndpoint).Port;
        var (code, error) = await ServerProgram.ToEnd(job, $"--port {port}");
        Assert.Equal(69, code);
        Assert.Contains($"Port {port} is taken", error, StringComparison.Ordinal);
        Assert.Contains($"--port {port + 1}", error, StringComparison.Ordinal);
        Assert.DoesNotContain("Exception", error, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("--store records.db", 64, "not a connection string")]
    [InlineData("--port 70000", 64, "no port 70000")]
    [InlineData("--demo", 64, "own folder")]
    [InlineData("--certificate a.pem", 64, "go together")]
    [InlineData("--nonsense", 64, "--nonsense")]
    [InlineData("--store 'Host=127.0.0.1;Port=1;Database=a;Username=b'", 69, "does not answer")]
    public async Task Wrong_usage_is_told_with_what_to_do(string arguments, int code, string told)
    {
        using var job = new JobOnDisk();
        var (ended, error) = await ServerProgram.ToEnd(job, arguments);
        Assert.Equal(code, ended);
        Assert.Contains(told, error, StringComparison.Ordinal);
    }
}
