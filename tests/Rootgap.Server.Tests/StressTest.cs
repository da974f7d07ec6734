using System.Collections.Concurrent;
using System.Globalization;
using System.Net;
using System.Net.Sockets;
using Rootgap.Records;

namespace Rootgap.Server.Tests;

/// <summary>
/// Many writers at once, of facts and of drawings, while servers are killed in the middle of writing and started again. With <c>ROOTGAP_KILLS=1000</c> as often as that;
/// the suite does it a few times.
/// </summary>
public class StressTest(Postgres postgres) : IClassFixture<Postgres>
{
    private const int Writers = 50;

    private static readonly int Kills = int.TryParse(Environment.GetEnvironmentVariable("ROOTGAP_KILLS"), CultureInfo.InvariantCulture, out var kills) ? kills : 3;

    private static readonly CancellationToken Cancel = TestContext.Current.CancellationToken;

    [Theory]
    [InlineData("SQLite")]
    [InlineData("PostgreSQL, two servers")]
    public async Task Nothing_that_was_acknowledged_is_lost_or_doubled_and_no_drawing_is_torn(string kind)
    {
        using var job = new JobOnDisk();
        job.Write("by-hand.yaml", "drawing: H\n");
        var isShared = kind != "SQLite";
        var store = isShared ? $" --store '{await postgres.NewDatabase()}'" : "";
        int[] ports = isShared ? [FreePort(), FreePort()] : [FreePort()];
        // The first server keeps the folder; the second has all from the database.
        string Arguments(int n) => n == 0 ? $"serve {job.Path} --job job --port {ports[0]}{store}" : $"serve --jobs --port {ports[n]}{store}";
        var servers = new ServerProgram[ports.Length];
        for (var i = 0; i < ports.Length; i++)
            servers[i] = await ServerProgram.StartAs(Arguments(i));
        var id = (await servers[0].Served.Send(HttpMethod.Get, "/api/job")).Body.GetProperty("job").GetString()!;

        using var http = new HttpClient(new SocketsHttpHandler { MaxConnectionsPerServer = 100 }) { Timeout = TimeSpan.FromSeconds(60) };
        var acknowledged = new ConcurrentBag<string>();
        var sent = new ConcurrentBag<string>();
        var pictures = new ConcurrentDictionary<string, byte[]>(StringComparer.Ordinal);
        var isOver = false;
        var writers = Enumerable.Range(0, Writers).Select(n => Task.Run(() => Write(n), Cancel)).ToList();
        var random = new Random(15);
        for (var kill = 0; kill < Kills; kill++)
        {
            var before = acknowledged.Count;
            // Some hundred more are written, then the plug is pulled at some moment.
            while (acknowledged.Count < before + 100 + random.Next(200))
                await Task.Delay(5, Cancel);
            var victim = kill % servers.Length;
            await servers[victim].Kill();
            await servers[victim].DisposeAsync();
            servers[victim] = await ServerProgram.StartAs(Arguments(victim));
        }

        Volatile.Write(ref isOver, true);
        await Task.WhenAll(writers);
        foreach (var server in servers)
        {
            var kept = (await server.Served.AllOf(id)).Select(f => f.Fact).ToList();
            Assert.Equal(kept.Count, kept.Select(f => f.Id).Distinct(StringComparer.Ordinal).Count());
            Assert.Empty(acknowledged.Except(kept.Select(f => f.Id), StringComparer.Ordinal));
            Assert.Equal(sent.Order(StringComparer.Ordinal), kept.Where(f => f.Who != "folder").Select(f => f.Id).Order(StringComparer.Ordinal));
            var files = JobRecord.Of(kept).Files;
            Assert.Equal(Writers + 1, files.Count);
            Assert.All(files.Values, f => Assert.Single(f.Heads));
            foreach (var (sha256, picture) in pictures)
                Assert.Equal(picture, await http.GetByteArrayAsync(new Uri(server.Served.Address, $"/api/jobs/{id}/attachments/{sha256}"), Cancel));
        }

        // The folder has each drawing's last version, and nothing half written.
        var last = JobRecord.Of((await servers[0].Served.AllOf(id)).Select(f => f.Fact)).Files;
        for (var tries = 0; tries < 100 && last.Values.Any(f => !File.Exists(job.At(f.Path)) || File.ReadAllText(job.At(f.Path)) != f.Latest!.Text); tries++)
            await Task.Delay(100, Cancel);
        foreach (var file in last.Values)
            Assert.Equal(file.Latest!.Text, await File.ReadAllTextAsync(job.At(file.Path), Cancel));
        Assert.Empty(Directory.GetFiles(job.Path, ".rootgap-*"));
        TestContext.Current.TestOutputHelper?.WriteLine(string.Create(CultureInfo.InvariantCulture, $"{kind}: {Kills} kills, {Writers} writers, {acknowledged.Count} acknowledged"));
        foreach (var server in servers)
            await server.DisposeAsync();

        async Task Write(int n)
        {
            string? lastVersion = null;
            for (var i = 0; !Volatile.Read(ref isOver); i++)
            {
                List<Fact> batch = [.. Enumerable.Range(0, 1 + (i % 3)).Select(_ => Facts.Cut())];
                if (i % 4 == 0)
                {
                    var version = Facts.Saved($"w{n}.yaml", $"drawing: W{n}\n# {i}\n", lastVersion is null ? [] : [lastVersion]);
                    lastVersion = version.Id;
                    batch.Add(version);
                }

                var picture = i % 20 == 7 ? Picture(n, i) : null;
                if (picture is not null)
                    batch.Add(Facts.Cut() with { Attached = [Attachment.Of("saw.png", picture)] });
                batch.ForEach(f => sent.Add(f.Id));
                var body = $$"""{"facts":[{{string.Join(',', batch.Select(FactJson.Text))}}]}""";
                // As a tablet does: what has no answer is sent again, to whichever server answers.
                for (var tries = n; ; tries++)
                {
                    try
                    {
                        using var content = new StringContent(body, System.Text.Encoding.UTF8, "application/json");
                        using var answer = await http.PostAsync(new Uri($"http://localhost:{ports[tries % ports.Length]}/api/jobs/{id}/facts"), content, Cancel);
                        if (answer.StatusCode != HttpStatusCode.OK)
                        {
                            await Task.Delay(50, Cancel);
                            continue;
                        }

                        using var said = System.Text.Json.JsonDocument.Parse(await answer.Content.ReadAsStringAsync(Cancel));
                        foreach (var kept in Facts.Ids(said.RootElement, "kept").Concat(Facts.Ids(said.RootElement, "already")))
                            acknowledged.Add(kept);
                        Assert.Empty(said.RootElement.GetProperty("refused").EnumerateArray());
                        break;
                    }
                    catch (Exception e) when (e is HttpRequestException or IOException)
                    {
                        await Task.Delay(50, Cancel);
                    }
                }

                if (picture is not null)
                    await Put(n, picture);
            }
        }

        // In two parts, each to whichever server answers; it goes on where that says.
        async Task Put(int n, byte[] picture)
        {
            var (sha256, have) = (Attachment.DigestOf(picture), 0);
            for (var tries = n; ; tries++)
            {
                try
                {
                    using var content = new ByteArrayContent(picture, have, Math.Min(20_000, picture.Length - have));
                    using var answer = await http.PutAsync(new Uri($"http://localhost:{ports[tries % ports.Length]}/api/jobs/{id}/attachments/{sha256}?at={have}&of={picture.Length}"), content, Cancel);
                    if (answer.StatusCode is not (HttpStatusCode.OK or HttpStatusCode.Conflict))
                    {
                        await Task.Delay(50, Cancel);
                        continue;
                    }

                    using var said = System.Text.Json.JsonDocument.Parse(await answer.Content.ReadAsStringAsync(Cancel));
                    if (said.RootElement.GetProperty("whole").GetBoolean())
                    {
                        pictures[sha256] = picture;
                        return;
                    }

                    have = said.RootElement.GetProperty("have").GetInt32();
                }
                catch (Exception e) when (e is HttpRequestException or IOException)
                {
                    await Task.Delay(50, Cancel);
                }
            }
        }
    }

    private static byte[] Picture(int n, int i)
    {
        var picture = new byte[30_000];
        new Random((n * 1000) + i).NextBytes(picture);
        // As a PNG begins (PNG specification, 5.2).
        new byte[] { 0x89, 0x50, 0x4E, 0x47, 0x0D, 0x0A, 0x1A, 0x0A }.CopyTo(picture, 0);
        return picture;
    }

    private static int FreePort()
    {
        using var listener = new TcpListener(IPAddress.Loopback, 0);
        listener.Start();
        return ((IPEndPoint)listener.LocalEndpoint).Port;
    }
}
