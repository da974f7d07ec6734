using System.Net;
using System.Net.Http.Headers;
using System.Text;
using System.Text.Json;
using Microsoft.JSInterop;
using Rootgap.App.Look;
using Rootgap.Records;

namespace Rootgap.App.Offline;

/// <summary>
/// Sends what this browser has and the server lacks, then fetches what the server has and this browser lacks. A server that is not there is a
/// normal state: everything stays here and is sent later. A fact sent twice counts once.
/// </summary>
public sealed class Sync(HttpClient http, LocalJob job, PageScript page) : IDisposable
{
    private const int Batch = 200;
    private const int BatchCharacters = 4_000_000;
    private static readonly TimeSpan Often = TimeSpan.FromSeconds(4);
    private static readonly TimeSpan Seldom = TimeSpan.FromSeconds(30);

    private readonly SemaphoreSlim turn = new(1, 1);
    private TaskCompletionSource asked = new();
    private DotNetObjectReference<Sync>? self;
    private string token = "";
    private int failures;
    private bool isClosed;

    public event Action? Changed;

    /// <summary>Whether the server answered last time.</summary>
    public bool IsThere { get; private set; }

    /// <summary>Facts that are only in this browser.</summary>
    public int Waiting { get; private set; }

    /// <summary>What the server said when it did not take something; empty where all is well.</summary>
    public string Trouble { get; private set; } = "";

    /// <summary>The job of the server at this address, where it is not the one that is open.</summary>
    public (string Id, string Name)? OtherJob { get; private set; }

    /// <summary>Opens the server's job; where the server is not there, the one that was open last.</summary>
    public async Task OpenAsync()
    {
        token = await page.Setting("token") ?? "";
        var known = await page.Setting("job");
        var served = await ServedJob();
        if (served is { } there)
        {
            await job.OpenAsync(there.Id, there.Name);
            await page.Keep("job", there.Id);
        }
        else
        {
            var kept = await job.Jobs();
            var last = kept.FirstOrDefault(k => k.Id == known) ?? (kept.Count > 0 ? kept[0] : null);
            var id = last?.Id ?? Guid.CreateVersion7().ToString();
            await job.OpenAsync(id, last?.Name ?? "A job of this browser");
            await page.Keep("job", id);
        }

        self = DotNetObjectReference.Create(this);
        await page.Watch(self);
        job.Added += () => asked.TrySetResult();
        foreach (var path in job.Drafts.Keys.ToList())
            await job.SaveVersion(path);
        await Once();
        _ = Loop();
    }

    [JSInvokable]
    public void Online(bool isOnline)
    {
        if (isOnline)
        {
            failures = 0;
            asked.TrySetResult();
        }
    }

    /// <summary>The page is put aside or closed: what is being written becomes a version while there is time.</summary>
    [JSInvokable]
    public async Task Leaving()
    {
        foreach (var path in job.Drafts.Keys.ToList())
            await job.SaveVersion(path);
    }

    /// <summary>Sends and fetches now.</summary>
    public async Task Once()
    {
        await turn.WaitAsync();
        try
        {
            await SendAndFetch();
            failures = 0;
        }
        catch (Exception e) when (e is HttpRequestException or TaskCanceledException or JsonException or InvalidOperationException)
        {
            IsThere = false;
            failures++;
        }
        catch (JSException e)
        {
            Trouble = LocalJob.Words(e);
        }
        finally
        {
            turn.Release();
        }

        Waiting = await job.UnsentCount();
        Changed?.Invoke();
    }

    /// <summary>Opens the server's job in place of the one that is open.</summary>
    public async Task OpenOther()
    {
        if (OtherJob is not { } other)
            return;
        await job.OpenAsync(other.Id, other.Name);
        await page.Keep("job", other.Id);
        OtherJob = null;
        await Once();
    }

    public void Dispose()
    {
        isClosed = true;
        self?.Dispose();
        turn.Dispose();
    }

    private async Task Loop()
    {
        while (!isClosed)
        {
            var pause = failures < 4 ? Often : Seldom;
            await Task.WhenAny(asked.Task, Task.Delay(pause));
            if (asked.Task.IsCompleted)
                asked = new();
            await Once();
        }
    }

    private async Task<(string Id, string Name)?> ServedJob()
    {
        try
        {
            using var answer = await Ask(HttpMethod.Get, "api/job", null);
            if (!answer.IsSuccessStatusCode)
            {
                Trouble = await Said(answer);
                return null;
            }

            using var document = JsonDocument.Parse(await answer.Content.ReadAsStringAsync());
            IsThere = true;
            return (document.RootElement.GetProperty("job").GetString()!, document.RootElement.GetProperty("name").GetString()!);
        }
        catch (Exception e) when (e is HttpRequestException or TaskCanceledException or JsonException or InvalidOperationException or KeyNotFoundException)
        {
            IsThere = false;
            return null;
        }
    }

    private async Task SendAndFetch()
    {
        if (await ServedJob() is not { } served)
            return;
        if (served.Id != job.Id)
        {
            OtherJob = served;
            return;
        }

        OtherJob = null;
        if (await Send())
            await Fetch();
    }

    private async Task<bool> Send()
    {
        var refused = "";
        while (true)
        {
            var waiting = await job.Unsent(Batch);
            if (waiting.Length == 0)
                break;
            var body = new StringBuilder("{\"facts\":[");
            var count = 0;
            foreach (var json in waiting)
            {
                if (count > 0 && body.Length + json.Length > BatchCharacters)
                    break;
                body.Append(count++ > 0 ? "," : "").Append(json);
            }

            body.Append("]}");
            using var answer = await Ask(HttpMethod.Post, "api/facts", body.ToString());
            if (!answer.IsSuccessStatusCode)
            {
                Trouble = await Said(answer);
                return false;
            }

            using var document = JsonDocument.Parse(await answer.Content.ReadAsStringAsync());
            var root = document.RootElement;
            string[] done = [.. Ids(root, "kept"), .. Ids(root, "already")];
            await job.Sent(done);
            if (root.TryGetProperty("refused", out var not) && not.GetArrayLength() > 0)
            {
                refused = "The server did not take everything; it is kept in this browser. " + not[0].GetProperty("why").GetString();
                // What is refused stays here and waits; the rest has gone.
                if (done.Length == 0)
                    break;
            }
        }

        Trouble = refused;
        return true;
    }

    private static IEnumerable<string> Ids(JsonElement root, string key) =>
        root.TryGetProperty(key, out var list) ? list.EnumerateArray().Select(e => e.GetString()!) : [];

    private async Task Fetch()
    {
        while (true)
        {
            var after = await job.Cursor();
            using var answer = await Ask(HttpMethod.Get, string.Create(System.Globalization.CultureInfo.InvariantCulture, $"api/facts?after={after}"), null);
            if (!answer.IsSuccessStatusCode)
            {
                Trouble = await Said(answer);
                return;
            }

            using var document = JsonDocument.Parse(await answer.Content.ReadAsStringAsync());
            var root = document.RootElement;
            var list = new List<(Fact?, string, string)>();
            foreach (var entry in root.GetProperty("facts").EnumerateArray())
            {
                var written = entry.GetProperty("fact");
                list.Add((FactJson.Read(written).Fact, written.GetProperty("id").GetString()!, written.GetRawText()));
            }

            var next = root.GetProperty("next").GetInt64();
            if (list.Count > 0 || next > after)
                await job.Take(list, next);
            if (!root.GetProperty("more").GetBoolean())
                return;
        }
    }

    private Task<HttpResponseMessage> Ask(HttpMethod method, string address, string? body)
    {
        var request = new HttpRequestMessage(method, address);
        if (token.Length > 0)
            request.Headers.Authorization = new AuthenticationHeaderValue("Bearer", token);
        if (body is not null)
            request.Content = new StringContent(body, Encoding.UTF8, "application/json");
        return http.SendAsync(request);
    }

    private async Task<string> Said(HttpResponseMessage answer)
    {
        IsThere = true;
        try
        {
            using var document = JsonDocument.Parse(await answer.Content.ReadAsStringAsync());
            var root = document.RootElement;
            return root.GetProperty("error").GetString() + (root.TryGetProperty("remedy", out var remedy) ? " " + remedy.GetString() : "");
        }
        catch (Exception e) when (e is JsonException or KeyNotFoundException or InvalidOperationException)
        {
            return answer.StatusCode == HttpStatusCode.RequestEntityTooLarge
                ? "The server says that this is too large. It is kept in this browser."
                : $"The server answered {(int)answer.StatusCode}. What you enter is kept in this browser.";
        }
    }
}
