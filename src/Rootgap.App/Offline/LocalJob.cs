using System.Text.Json;
using Microsoft.JSInterop;
using Rootgap.App.Look;
using Rootgap.Records;

namespace Rootgap.App.Offline;

/// <summary>A drawing or list being written, not yet saved as a version.</summary>
/// <param name="Bases">The saved versions it was made from.</param>
public sealed record Draft(string Path, string Text, IReadOnlyList<string> Bases);

/// <summary>
/// A job as this browser keeps it: its facts, each once, in the browser's own database, and the drafts of what is being written.
/// Whatever is added is on the disk before the call comes back; the server gets it when it is there (<see cref="Sync"/>).
/// </summary>
public sealed class LocalJob(IJSRuntime js, Choices choices)
{
    private readonly Dictionary<string, Fact> facts = new(StringComparer.Ordinal);
    private readonly Dictionary<string, Draft> drafts = new(StringComparer.Ordinal);
    private Task<IJSObjectReference>? module;
    private DotNetObjectReference<LocalJob>? self;
    private JobRecord? record;

    /// <summary>Facts or the job itself changed.</summary>
    public event Action? Changed;

    /// <summary>A fact was added here: it can be sent.</summary>
    public event Action? Added;

    /// <summary>The job's id, made by the server's store, or by this browser when there was none.</summary>
    public string Id { get; private set; } = "";

    public string Name { get; private set; } = "";

    public bool IsOpen => Id.Length > 0;

    /// <summary>Facts as they are kept that this version could not read: they stay and are sent all the same.</summary>
    public int Unread { get; private set; }

    public IReadOnlyCollection<Fact> Facts => facts.Values;

    /// <summary>What the facts amount to.</summary>
    public JobRecord Record => record ??= JobRecord.Of(facts.Values);

    public IReadOnlyDictionary<string, Draft> Drafts => drafts;

    private Task<IJSObjectReference> Module => module ??= js.InvokeAsync<IJSObjectReference>("import", "./js/job-store.js").AsTask();

    /// <summary>The jobs this browser holds.</summary>
    public async Task<IReadOnlyList<KeptJob>> Jobs() => await (await Module).InvokeAsync<KeptJob[]>("jobs");

    /// <summary>Opens a job, with all that this browser keeps of it.</summary>
    public async Task OpenAsync(string id, string name)
    {
        var store = await Module;
        if (self is null)
        {
            self = DotNetObjectReference.Create(this);
            await store.InvokeVoidAsync("listen", self);
        }

        await store.InvokeVoidAsync("putJob", new { id, name });
        (Id, Name) = (id, name);
        await Load();
        drafts.Clear();
        foreach (var draft in await store.InvokeAsync<KeptDraft[]>("drafts", id))
            drafts[draft.Path] = new(draft.Path, draft.Text, draft.Bases ?? []);
        Changed?.Invoke();
    }

    /// <summary>A new id for a fact.</summary>
    public static string NewId() => Guid.CreateVersion7().ToString();

    /// <summary>Now, for a fact.</summary>
    public static DateTimeOffset Now => DateTimeOffset.UtcNow;

    /// <summary>Who is at this browser, for a fact; "someone" until they have said.</summary>
    public string Who => choices.Who.Length > 0 ? choices.Who : "someone";

    /// <summary>Keeps facts. They are in the browser's database when this comes back.</summary>
    /// <exception cref="JSException">The browser could not keep them (no room): <see cref="Words"/> says it in plain words.</exception>
    public async Task Add(params IReadOnlyList<Fact> added)
    {
        await (await Module).InvokeAsync<string[]>("add", Id, added.Select(f => new { id = f.Id, json = FactJson.Text(f) }).ToArray());
        foreach (var fact in added)
            facts[fact.Id] = fact;
        record = null;
        Changed?.Invoke();
        Added?.Invoke();
    }

    /// <summary>Takes in what the server has; facts that are here already are not touched.</summary>
    public async Task Take(IReadOnlyList<(Fact? Fact, string Id, string Json)> list, long next)
    {
        var fresh = await (await Module).InvokeAsync<string[]>("fetched", Id, list.Select(f => new { id = f.Id, json = f.Json }).ToArray(), next);
        if (fresh.Length == 0)
            return;
        var isNew = fresh.ToHashSet(StringComparer.Ordinal);
        foreach (var (fact, id, _) in list)
        {
            if (!isNew.Contains(id))
                continue;
            if (fact is null)
                Unread++;
            else
                facts[id] = fact;
        }

        record = null;
        Changed?.Invoke();
    }

    public async Task<string[]> Unsent(int most) => await (await Module).InvokeAsync<string[]>("unsent", Id, most);

    public async Task<int> UnsentCount() => IsOpen ? await (await Module).InvokeAsync<int>("unsentCount", Id) : 0;

    public async Task Sent(IReadOnlyList<string> ids) => await (await Module).InvokeVoidAsync("sent", Id, ids);

    public async Task<long> Cursor() => await (await Module).InvokeAsync<long>("cursor", Id);

    public async Task<(long Used, long Room, bool IsSafe)> Room()
    {
        var room = await (await Module).InvokeAsync<JsonElement>("room");
        return ((long)room.GetProperty("usage").GetDouble(), (long)room.GetProperty("quota").GetDouble(), room.GetProperty("isPersisted").GetBoolean());
    }

    /// <summary>The text of a file as it stands: its draft where there is one, else its latest version; null where it is none or no text.</summary>
    public string? TextOf(string path) => drafts.TryGetValue(path, out var draft) ? draft.Text : Saved(path)?.Text;

    /// <summary>The bytes of a file as it stands.</summary>
    public byte[]? BytesOf(string path) => drafts.TryGetValue(path, out var draft) ? System.Text.Encoding.UTF8.GetBytes(draft.Text) : Saved(path)?.Content;

    /// <summary>The latest saved version of a file; null where there is none or it was taken away.</summary>
    public FileSaved? Saved(string path) => Record.Files.TryGetValue(path, out var file) ? file.Latest : null;

    /// <summary>The files of the job, with drafts of new ones, in the order of their names.</summary>
    public IEnumerable<string> Paths => Record.Files.Where(f => f.Value.Latest is not null).Select(f => f.Key).Concat(drafts.Keys).Distinct(StringComparer.Ordinal).Order(StringComparer.Ordinal);

    /// <summary>Keeps what is being written, at once: closing the tab loses nothing.</summary>
    public async Task SaveDraft(string path, string text)
    {
        // Made from the version that is shown: where there are several, the others stay until somebody chooses.
        IReadOnlyList<string> bases = drafts.TryGetValue(path, out var before) ? before.Bases : Saved(path) is { } shown ? [shown.Id] : [];
        drafts[path] = new(path, text, bases);
        await (await Module).InvokeVoidAsync("putDraft", new { job = Id, path, text, bases });
    }

    /// <summary>Makes a draft a saved version, where it says anything new.</summary>
    public async Task SaveVersion(string path)
    {
        if (!drafts.TryGetValue(path, out var draft))
            return;
        if (Saved(path)?.Text == draft.Text)
        {
            await DropDraft(path);
            return;
        }

        var fact = FileSaved.OfText(NewId(), Who, Now, path, draft.Text, draft.Bases);
        await (await Module).InvokeVoidAsync("saveDraft", Id, path, draft.Text, fact.Id, FactJson.Text(fact));
        facts[fact.Id] = fact;
        // Written on meanwhile: then the draft goes on from the version just saved.
        if (drafts.TryGetValue(path, out var now) && now.Text == draft.Text)
            drafts.Remove(path);
        else if (now is not null)
            drafts[path] = now with { Bases = [fact.Id] };
        record = null;
        Changed?.Invoke();
        Added?.Invoke();
    }

    public async Task DropDraft(string path)
    {
        drafts.Remove(path);
        await (await Module).InvokeVoidAsync("dropDraft", Id, path);
        Changed?.Invoke();
    }

    /// <summary>Another tab has kept something.</summary>
    [JSInvokable]
    public async Task Elsewhere(string job)
    {
        if (job != Id)
            return;
        await Load();
        Changed?.Invoke();
    }

    /// <summary>What a failure of the browser's database means, in plain words.</summary>
    public static string Words(JSException e) => e.Message.Contains("Quota", StringComparison.OrdinalIgnoreCase)
        ? "This browser has no more room. What was entered before is kept; what you just did is not. Make room on the device, then do it again."
        : e.Message.Split('\n')[0];

    private async Task Load()
    {
        facts.Clear();
        Unread = 0;
        foreach (var json in await (await Module).InvokeAsync<string[]>("facts", Id))
        {
            if (FactJson.Read(json).Fact is { } fact)
                facts[fact.Id] = fact;
            else
                Unread++;
        }

        record = null;
    }

    /// <summary>A job that this browser keeps.</summary>
    public sealed record KeptJob(string Id, string Name, long Cursor);

    private sealed record KeptDraft(string Path, string Text, string[]? Bases);
}
