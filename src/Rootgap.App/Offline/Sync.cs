using System.Globalization;
using System.Net;
using System.Text.Json;
using Microsoft.JSInterop;
using Rootgap.App.Look;
using Rootgap.Records;

namespace Rootgap.App.Offline;

/// <summary>
/// Sends what this browser has and the server lacks, then fetches what the server has and this browser lacks. A server that is not there is a
/// normal state: everything stays here and is sent later. A fact sent twice counts once. What the server does not take is set aside with its reason.
/// </summary>
public sealed partial class Sync(ShopServer server, LocalJob job, PageScript page) : IDisposable
{
    private const int MostMissing = 500;
    private static readonly TimeSpan Often = TimeSpan.FromSeconds(4);
    private static readonly TimeSpan Seldom = TimeSpan.FromSeconds(30);

    /// <summary>A clock that is farther off than this is told.</summary>
    private static readonly TimeSpan ClockOff = TimeSpan.FromMinutes(2);

    private readonly SemaphoreSlim turn = new(1, 1);
    private TaskCompletionSource asked = new();
    private DotNetObjectReference<Sync>? self;
    private int failures;
    private bool isClosed;

    public event Action? Changed;

    /// <summary>Whether the server answered last time.</summary>
    public bool IsThere { get; private set; }

    /// <summary>Facts, pictures and papers that are only in this browser and wait to be sent.</summary>
    public int Waiting { get; private set; }

    /// <summary>How many of <see cref="Waiting"/> are pictures and papers.</summary>
    public int WaitingPapers { get; private set; }

    /// <summary>Facts that the server did not take.</summary>
    public int NotTaken { get; private set; }

    /// <summary>What the server said when it could not take something for now; empty where all is well.</summary>
    public string Trouble { get; private set; } = "";

    /// <summary>Whether the open job was brought in step with the server's since it was opened.</summary>
    public bool HasAgreed { get; private set; }

    /// <summary>The shop was asked for the job and has not answered yet: what is not here may still come.</summary>
    public bool IsAsking => !HasAgreed && failures == 0 && Trouble.Length == 0 && OtherJob is null;

    /// <summary>How many facts were fetched, of how many, while many are.</summary>
    public (long Done, long All)? Fetching { get; private set; }

    /// <summary>How far this device's clock is ahead of the server's; null where it is near enough, or no server was asked.</summary>
    public TimeSpan? ClockAhead { get; private set; }

    /// <summary>Files that the server could not bring in step with its folder, with what hindered it.</summary>
    public IReadOnlyList<(string Path, string Why)> FolderTroubles { get; private set; } = [];

    /// <summary>The jobs that the server at this address lets this device see.</summary>
    public IReadOnlyList<(string Id, string Name)> Served { get; private set; } = [];

    /// <summary>The job of the server at this address, where the one that is open is none of its: its store was replaced, or it serves another.</summary>
    public (string Id, string Name)? OtherJob { get; private set; }

    /// <summary>Opens the job that was open last, or is asked for in the address, where the server has it; else the server's; else, with no server, what is here. Once: a frame that is made anew finds it open, and what is being written stays a draft.</summary>
    public Task OpenAsync() => opened is null or { IsFaulted: true } ? opened = Open() : opened;

    private Task? opened;

    private async Task Open()
    {
        await server.OpenAsync();
        var known = await page.Setting("job");
        await LookAtServer();
        var kept = await job.Jobs();
        var (id, name) = Served.Count > 0 ? Served.FirstOrDefault(s => s.Id == known) is { Id: not null } same ? same : Served[0]
            : kept.FirstOrDefault(k => k.Id == known) is { } last ? (last.Id, last.Name)
            : kept.Count > 0 ? (kept[0].Id, kept[0].Name)
            // What was kept of the job was cleared, and the shop is away: what is entered now is still that job's, and goes to it.
            : known is { Length: > 0 } ? (known, await page.Setting("job-name") ?? "A job of this browser")
            : (Guid.CreateVersion7().ToString(), "A job of this browser");
        await job.OpenAsync(id, name);
        await page.Keep("job", id);
        await page.Keep("job-name", name);
        self = DotNetObjectReference.Create(this);
        await page.Watch(self);
        job.Added += () =>
        {
            // Said at once, so that nobody reads "all sent" over what was just entered; counted when it is sent.
            Waiting++;
            asked.TrySetResult();
            Changed?.Invoke();
        };
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
            HasAgreed |= await SendAndFetch();
            failures = 0;
        }
        catch (Exception e) when (ShopServer.IsAway(e))
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
            Fetching = null;
            turn.Release();
        }

        await CountAsync();
        Changed?.Invoke();
    }

    /// <summary>Opens another job, of the server or of this browser.</summary>
    public async Task OpenJob(string id, string name)
    {
        await turn.WaitAsync();
        try
        {
            await job.OpenAsync(id, name);
            await page.Keep("job", id);
            await page.Keep("job-name", name);
            OtherJob = null;
            HasAgreed = false;
        }
        finally
        {
            turn.Release();
        }

        await Once();
    }

    /// <summary>Opens a job that the server lets this device see since a moment ago.</summary>
    public async Task OpenServed(string id)
    {
        await LookAtServer();
        await OpenJob(id, Served.FirstOrDefault(s => s.Id == id).Name ?? id);
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
            // Nothing was entered while the shop was away: its job is opened, and no empty one is left behind.
            if (OtherJob is { } other && job.Facts.Count == 0 && job.Drafts.Count == 0)
                await OpenJob(other.Id, other.Name);
        }
    }

    private async Task LookAtServer()
    {
        try
        {
            using var list = await server.Get("jobs");
            if (list.IsRefused)
            {
                Trouble = list.Said;
                IsThere = true;
                return;
            }

            Served = [.. list.Root.GetProperty("jobs").EnumerateArray().Select(j => (j.GetProperty("job").GetString()!, j.GetProperty("name").GetString()!))];
            IsThere = true;
            // A server for many jobs tells a stranger of none. One for a single job says why it does not let in.
            if (Served.Count == 0)
            {
                using var answer = await server.Get("job");
                Trouble = answer.Said;
            }
        }
        catch (Exception e) when (ShopServer.IsAway(e))
        {
            IsThere = false;
        }
    }

    // Whether nothing is left to send or to fetch.
    private async Task<bool> SendAndFetch()
    {
        var at = $"jobs/{job.Id}/";
        using var there = await server.Get(at + "job");
        IsThere = true;
        if (there.IsRefused)
        {
            Trouble = there.Said;
            await LookAtServer();
            OtherJob = Served.Any(s => s.Id == job.Id) ? null : Served is [{ Id: not null } other, ..] ? other : null;
            return false;
        }

        OtherJob = null;
        if (Served.All(s => s.Id != job.Id))
            await LookAtServer();
        var root = there.Root;
        var ahead = LocalJob.Now - root.GetProperty("now").GetDateTimeOffset();
        ClockAhead = ClockOff < ahead.Duration() ? ahead : null;
        FolderTroubles = [.. root.GetProperty("troubles").EnumerateArray().Select(t => (t.GetProperty("path").GetString()!, t.GetProperty("why").GetString()!))];
        Changed?.Invoke();
        var store = root.GetProperty("store").GetString()!;
        return await Send(at) && await SendContents(at) && await Fetch(at, store, root.GetProperty("head").GetInt64());
    }

    private async Task<bool> Fetch(string at, string store, long head)
    {
        var isNew = false;
        try
        {
            while (true)
            {
                var read = await job.ReadTo();
                // A store that was begun anew or brought from a backup, or went another way since: compare, and send what it lacks.
                var isOther = read.Store.Length > 0 && read.Store != store;
                if (read is { Seq: 0, Store: "" } && BigJob < head && job.Brought is null && job.Facts.Count == 0)
                {
                    await Begin(at, store);
                    isNew = true;
                    continue;
                }

                using var answer = isOther ? null : await Read(at, read);
                if (isOther || answer!.Status == HttpStatusCode.Conflict)
                {
                    await Compare(at, store);
                    isNew = true;
                    continue;
                }

                if (answer.IsRefused)
                {
                    Trouble = answer.Said;
                    return false;
                }

                var list = Facts(answer.Root);
                var next = answer.Root.GetProperty("next").GetInt64();
                if (list.Count > 0 || next != read.Seq || read.Store != store)
                    await job.Take(list, new(next, answer.Root.GetProperty("digest").GetString()!, store));
                isNew |= list.Count > 0;
                if (!answer.Root.GetProperty("more").GetBoolean())
                    return true;
                Fetching = (next, Math.Max(next, head));
                Changed?.Invoke();
            }
        }
        finally
        {
            // Shown once: with many pages, the record would be made anew for each.
            if (isNew)
                job.Taken();
        }
    }

    private async Task Compare(string at, string store)
    {
        var end = new LocalJob.Cursor(0, "", store);
        var comparison = await job.Compare(Pages());
        // Where this device has some drawings only, it wants what is about these.
        if (job.Brought is not null)
            await TakeAbout(at, job.Wanted);
        else
            await TakeSome(at, comparison.Missing);

        await job.Take([], end);
        // What the store lacks goes out before anything else is fetched.
        if (comparison.Lacking > 0)
            await Send(at);
        await SendContents(at);

        async IAsyncEnumerable<JsonElement> Pages()
        {
            while (true)
            {
                using var answer = await server.Get(string.Create(CultureInfo.InvariantCulture, $"{at}facts/ids?after={end.Seq}"));
                if (answer.IsRefused)
                    throw new HttpRequestException(answer.Said);
                end = new(answer.Root.GetProperty("next").GetInt64(), answer.Root.GetProperty("digest").GetString()!, store);
                yield return answer.Root.GetProperty("ids");
                if (!answer.Root.GetProperty("more").GetBoolean())
                    yield break;
            }
        }
    }

    private static List<LocalJob.FetchedFact> Facts(JsonElement root)
    {
        List<LocalJob.FetchedFact> list = [];
        foreach (var entry in root.GetProperty("facts").EnumerateArray())
        {
            var written = entry.GetProperty("fact");
            list.Add(new(written.GetProperty("id").GetString()!, new(entry.GetProperty("seq").GetInt64(), entry.GetProperty("kept").GetDateTimeOffset()), written.GetRawText()));
        }

        return list;
    }
}
