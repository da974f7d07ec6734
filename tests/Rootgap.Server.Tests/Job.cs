using System.Net;
using System.Net.Http.Headers;
using System.Text;
using System.Text.Json;
using Microsoft.AspNetCore.Builder;
using Microsoft.AspNetCore.Hosting.Server;
using Microsoft.AspNetCore.Hosting.Server.Features;
using Microsoft.Extensions.DependencyInjection;
using Rootgap.Records;

namespace Rootgap.Server.Tests;

/// <summary>A job's folder, for a test, and taken away after it.</summary>
internal sealed class JobOnDisk : IDisposable
{
    public string Path { get; } = Directory.CreateTempSubdirectory("rootgap-job-").FullName;

    public string At(string name) => System.IO.Path.Combine(Path, name);

    /// <summary>Writes a file as if a while ago, so that it counts as settled.</summary>
    public void Write(string name, string text, int secondsAgo = 60)
    {
        Directory.CreateDirectory(System.IO.Path.GetDirectoryName(At(name))!);
        File.WriteAllText(At(name), text);
        File.SetLastWriteTimeUtc(At(name), DateTime.UtcNow.AddSeconds(-secondsAgo));
    }

    public void Dispose() => Directory.Delete(Path, recursive: true);
}

/// <summary>A server on a free port, and a caller of it.</summary>
internal sealed class Served : IAsyncDisposable
{
    private readonly WebApplication? app;

    private Served(WebApplication? app, Uri address)
    {
        this.app = app;
        Address = address;
        Http = new HttpClient { BaseAddress = address, Timeout = TimeSpan.FromSeconds(60) };
    }

    public Uri Address { get; }

    public HttpClient Http { get; }

    public IServiceProvider Services => app!.Services;

    /// <summary>The one job of this server.</summary>
    public ServedJob Job => Services.GetRequiredService<ServedJobs>().Only!;

    public static async Task<Served> Of(JobOnDisk job, string? token = null, string? store = null, string name = "job")
    {
        if (token is not null)
        {
            Directory.CreateDirectory(job.At(".rootgap"));
            await File.WriteAllTextAsync(job.At(".rootgap/token"), token, TestContext.Current.CancellationToken);
        }

        return await Of(new Serving { Folder = job.Path, Name = name, Port = 0, IsForShop = token is not null, Store = store });
    }

    public static async Task<Served> Of(Serving serving)
    {
        var made = await JobServer.MakeAsync(serving);
        await made.StartAsync(TestContext.Current.CancellationToken);
        var port = new Uri(made.Services.GetRequiredService<IServer>().Features.Get<IServerAddressesFeature>()!.Addresses.First()).Port;
        return new(made, new Uri($"http://localhost:{port}"));
    }

    /// <summary>A caller of a server that runs as a program of its own.</summary>
    public static Served Elsewhere(Uri address) => new(null, address);

    public async Task<(HttpStatusCode Status, JsonElement Body)> Send(HttpMethod method, string path, string? body = null, string? token = null, Action<HttpRequestMessage>? more = null)
    {
        using var request = new HttpRequestMessage(method, path);
        if (body is not null)
            request.Content = new StringContent(body, Encoding.UTF8, "application/json");
        if (token is not null)
            request.Headers.Authorization = new AuthenticationHeaderValue("Bearer", token);
        more?.Invoke(request);
        using var answer = await Http.SendAsync(request, TestContext.Current.CancellationToken);
        var text = await answer.Content.ReadAsStringAsync(TestContext.Current.CancellationToken);
        return (answer.StatusCode, text.StartsWith('{') ? JsonDocument.Parse(text).RootElement.Clone() : default);
    }

    public Task<(HttpStatusCode Status, JsonElement Body)> Post(params IEnumerable<Fact> facts) =>
        Send(HttpMethod.Post, "/api/facts", $$"""{"facts":[{{string.Join(',', facts.Select(FactJson.Text))}}]}""");

    /// <summary>All facts, page by page.</summary>
    public Task<List<(long Seq, Fact Fact)>> All(string? token = null) => AllAt("/api", token);

    /// <summary>All facts of one of many jobs.</summary>
    public Task<List<(long Seq, Fact Fact)>> AllOf(string job, string? token = null) => AllAt($"/api/jobs/{job}", token);

    private async Task<List<(long Seq, Fact Fact)>> AllAt(string address, string? token)
    {
        var all = new List<(long, Fact)>();
        var after = 0L;
        while (true)
        {
            var (status, body) = await Send(HttpMethod.Get, $"{address}/facts?after={after}", token: token);
            Assert.Equal(HttpStatusCode.OK, status);
            all.AddRange(body.GetProperty("facts").EnumerateArray().Select(f => (f.GetProperty("seq").GetInt64(), FactJson.Read(f.GetProperty("fact")).Fact!)));
            after = body.GetProperty("next").GetInt64();
            if (!body.GetProperty("more").GetBoolean())
                return all;
        }
    }

    public async Task<FileHistory?> FileOf(string path) => JobRecord.Of((await All()).Select(f => f.Fact)).Files.GetValueOrDefault(path);

    public async ValueTask DisposeAsync()
    {
        Http.Dispose();
        if (app is not null)
            await app.DisposeAsync();
    }
}

/// <summary>Facts for tests.</summary>
internal static class Facts
{
    public static readonly DateTimeOffset Noon = new(2026, 11, 25, 12, 0, 0, TimeSpan.Zero);

    public static string NewId() => Guid.NewGuid().ToString("D");

    public static PieceCut Cut(string? id = null, string piece = "1-A") => new(id ?? NewId(), "Jo", Noon, new("D-1", "2"), piece, "A1234");

    public static FileSaved Saved(string path, string text, params string[] bases) => FileSaved.OfText(NewId(), "Ann", Noon, path, text, bases);

    public static string[] Ids(JsonElement body, string key) => [.. body.GetProperty(key).EnumerateArray().Select(e => e.GetString()!)];
}
