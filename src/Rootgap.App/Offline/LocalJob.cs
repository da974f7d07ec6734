using System.Globalization;
using System.Text;
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
public sealed partial class LocalJob(IJSRuntime js, Choices choices, DeviceKey key)
{
    private readonly Dictionary<string, Fact> facts = new(StringComparer.Ordinal);
    private readonly HashSet<string> unread = new(StringComparer.Ordinal);
    private readonly Dictionary<string, Draft> drafts = new(StringComparer.Ordinal);
    private Task<IJSObjectReference>? module;
    private DotNetObjectReference<LocalJob>? self;
    private JobRecord? record;
    private Roster? roster;

    /// <summary>Facts or the job itself changed.</summary>
    public event Action? Changed;

    /// <summary>A fact was added here: it can be sent.</summary>
    public event Action? Added;

    /// <summary>The job's id, made by the server's store, or by this browser when there was none.</summary>
    public string Id { get; private set; } = "";

    public string Name { get; private set; } = "";

    public bool IsOpen => Id.Length > 0;

    /// <summary>Facts as they are kept that this version could not read: they stay and are sent all the same.</summary>
    public int Unread => unread.Count;

    public IReadOnlyCollection<Fact> Facts => facts.Values;

    /// <summary>What the facts amount to.</summary>
    public JobRecord Record => record ??= JobRecord.Of(facts.Values);

    /// <summary>Who may sign here, as far as this browser knows.</summary>
    public Roster Roster => roster ??= Roster.Of(facts.Values.Where(f => f is PersonNamed or DeviceEnrolled or Revoked).OrderBy(f => f.Kept?.Seq ?? long.MaxValue).ThenBy(f => f, Fact.Order));

    public IReadOnlyDictionary<string, Draft> Drafts => drafts;

    private Task<IJSObjectReference> Module => module ??= js.InvokeAsync<IJSObjectReference>("import", "./js/job-store.js").AsTask();

    /// <summary>The jobs this browser holds.</summary>
    public async Task<IReadOnlyList<KeptJob>> Jobs() => await (await Module).InvokeAsync<KeptJob[]>("jobs");

    /// <summary>A fact as it is signed here: as it is, where nobody asks for signatures or this device was not let in.</summary>
    private async Task<Fact> Signed(Fact fact, string? proof)
    {
        if (fact.Signed is not null || !Roster.IsOn || await key.DeviceOf(Id) is not { } device || Roster.Named(fact.Who) is not { } person)
            return fact;
        var signed = fact with { Signed = new(Id, device, person.Id, proof, "") };
        return signed with { Signed = signed.Signed! with { Value = await key.Sign(Id, FactJson.SignedBytes(signed)) } };
    }

    /// <summary>Something that is asked of the server in the name of who is here, signed where this device was let in.</summary>
    public async Task<string> Ask(string? proof, params IReadOnlyList<(string Key, string Value)> more)
    {
        var (id, when) = (NewId(), Now);
        if (Person is not { } person || await key.DeviceOf(Id) is not { } device)
            return FactJson.Text(FactJson.Ask(id, Who, when, null, more));
        var signed = new Signature(Id, device, person.Id, proof, "");
        var value = await key.Sign(Id, FactJson.SignedBytes(FactJson.Ask(id, Who, when, signed, more)));
        return FactJson.Text(FactJson.Ask(id, Who, when, signed with { Value = value }, more));
    }

    /// <summary>Brings all that this browser keeps of one job into another, to be sent there. The first stays as it is.</summary>
    /// <returns>How many facts were new there.</returns>
    public async Task<int> Join(string from, string into)
    {
        var count = await (await Module).InvokeAsync<int>("join", from, into);
        if (into == Id)
            await OpenAsync(Id, Name);
        Added?.Invoke();
        return count;
    }

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
        Brought = await store.InvokeAsync<string[]?>("brought", id);
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
    public string Who => Person?.Name ?? (choices.Who.Length > 0 ? choices.Who : "someone");

    /// <summary>Who is at this browser, where they are somebody of the job.</summary>
    public Person? Person => Roster.Named(choices.Who);

    /// <summary>Keeps facts. They are in the browser's database when this comes back.</summary>
    /// <exception cref="JSException">The browser could not keep them (no room): <see cref="Words"/> says it in plain words.</exception>
    public Task Add(params IReadOnlyList<Fact> added) => Add(added, proof: null);

    /// <summary>As above; signed by this device, where it was let in.</summary>
    /// <param name="proof">How the person proved to be here, where they did: <c>code</c>.</param>
    /// <param name="picked">For what the pictures and papers were picked; null where they were not: see <see cref="Pick"/>.</param>
    /// <param name="contents">The pictures and papers that the facts speak of, kept in the same step.</param>
    public async Task Add(IReadOnlyList<Fact> facts, string? proof, string? picked = null, params IReadOnlyList<byte[]> contents)
    {
        List<Fact> added = [];
        foreach (var fact in facts)
            added.Add(await Signed(fact, proof));
        await (await Module).InvokeAsync<string[]>("add", Id, added.Select(f => new { id = f.Id, json = FactJson.Text(f) }).ToArray(), contents.Select(c => new { sha256 = Attachment.DigestOf(c), content = c }).ToArray(), picked);
        foreach (var fact in added)
            this.facts[fact.Id] = fact;
        (record, roster) = (null, null);
        Changed?.Invoke();
        Added?.Invoke();
    }

    /// <summary>Takes in what the server has; facts that are here already keep what they say. <see cref="Changed"/> is left to <see cref="Taken"/>: many pages may follow each other.</summary>
    /// <param name="end">How far the server was read with this; null where it is not read in its order.</param>
    public async Task Take(IReadOnlyList<FetchedFact> list, Cursor? end)
    {
        var text = new StringBuilder();
        foreach (var fetched in list)
        {
            text.Append(fetched.Id).Append('\t').Append(fetched.Kept.Seq.ToString(CultureInfo.InvariantCulture)).Append('\t')
                .Append(fetched.Kept.At.ToString("O", CultureInfo.InvariantCulture)).Append('\t').Append(fetched.Json.Replace('\r', ' ').Replace('\n', ' ')).Append('\n');
        }

        await (await Module).InvokeVoidAsync("fetched", Id, Encoding.UTF8.GetBytes(text.ToString()), end?.Seq, end?.Digest, end?.Store);
        foreach (var fetched in list)
            Put(fetched.Id, FactJson.Read(fetched.Json).Fact, fetched.Kept);
    }

    /// <summary>Of which files this device has what was done, where it has not all of the job; null where it has all.</summary>
    public IReadOnlyList<string>? Brought { get; private set; }

    /// <summary>Notes of which files it has what was done; null for all: then all is read from the beginning.</summary>
    public async Task SetBrought(IReadOnlyList<string>? paths)
    {
        await (await Module).InvokeVoidAsync("setBrought", Id, paths);
        Brought = paths;
    }

    /// <summary>What the facts are about that this device wants: nothing in particular, and its drawings with their files.</summary>
    public IReadOnlyList<string> Wanted => ["", .. (Brought ?? []).Concat(Record.Files.Keys).Concat(Record.Files.Values.Select(f => f.Latest?.DrawingNumber).OfType<string>()).Where(n => n.Length > 0).Distinct(StringComparer.Ordinal)];

    /// <summary>What was taken in is shown.</summary>
    public void Taken()
    {
        (record, roster) = (null, null);
        Changed?.Invoke();
    }

    private void Put(string id, Fact? fact, KeptAt? kept)
    {
        if (fact is null)
            unread.Add(id);
        else
            facts[id] = fact with { Kept = kept };
    }

    public async Task<string[]> Unsent(int most) => await (await Module).InvokeAsync<string[]>("unsent", Id, most);

    /// <summary>How many facts wait to be sent, and how many the server did not take.</summary>
    public async Task<Counts> Count() => IsOpen ? await (await Module).InvokeAsync<Counts>("counts", Id) : new(0, 0, 0);

    public async Task Sent(IReadOnlyList<string> ids) => await (await Module).InvokeVoidAsync("sent", Id, ids);

    /// <summary>Sets facts aside that the server did not take, with its reason: they count no longer, and hold up no others.</summary>
    public async Task Refuse(IReadOnlyList<Refused> refused)
    {
        await (await Module).InvokeVoidAsync("refuse", Id, refused);
        foreach (var one in refused)
            facts.Remove(one.Id);
        Taken();
    }

    /// <summary>Facts that were not taken are sent once more.</summary>
    public async Task Again(IReadOnlyList<string> ids)
    {
        await (await Module).InvokeVoidAsync("again", Id, ids);
        await Load(ids);
        Taken();
        Added?.Invoke();
    }

    /// <summary>Facts that were not taken are given up: they stay in this browser, out of the way.</summary>
    public async Task GiveUp(IReadOnlyList<string> ids)
    {
        await (await Module).InvokeVoidAsync("giveUp", Id, ids);
        Taken();
    }

    /// <summary>What waits here, the newest first, after what was not taken.</summary>
    public async Task<IReadOnlyList<Held>> HeldFacts(int most) =>
        [.. (await (await Module).InvokeAsync<HeldJson[]>("held", Id, most)).Select(h => (h, FactJson.Read(h.Json).Fact)).Where(h => h.Fact is not null).Select(h => new Held(h.Fact!, h.h.Why))];

    /// <summary>All that only this browser has of a job, as a file that <c>Add</c> can take in again.</summary>
    public async Task<byte[]> OnlyHere(string job) => await (await Module).InvokeAsync<byte[]>("onlyHere", job);

    /// <summary>How far the server was read.</summary>
    public async Task<Cursor> ReadTo() => await (await Module).InvokeAsync<Cursor>("cursor", Id);

    /// <summary>Compares with a store that is not the one that was read from: what it lacks is to be sent to it.</summary>
    /// <param name="pages">Its ids, page by page, as JSON: [[number, time kept, id], ...].</param>
    /// <returns>Ids that it has and this browser lacks, and how many it lacks itself.</returns>
    public async Task<Comparison> Compare(IAsyncEnumerable<JsonElement> pages)
    {
        var store = await Module;
        await store.InvokeVoidAsync("compareBegin");
        await foreach (var page in pages)
            await store.InvokeVoidAsync("comparePage", page);
        var comparison = await store.InvokeAsync<Comparison>("compareEnd", Id);
        await Load();
        return comparison;
    }

    public async Task<(long Used, long Room, bool IsSafe)> Room()
    {
        var room = await (await Module).InvokeAsync<JsonElement>("room");
        return ((long)room.GetProperty("usage").GetDouble(), (long)room.GetProperty("quota").GetDouble(), room.GetProperty("isPersisted").GetBoolean());
    }

    /// <summary>The text of a file as it stands: its draft where there is one, else its latest version; null where it is none or no text.</summary>
    public string? TextOf(string path) => drafts.TryGetValue(path, out var draft) ? draft.Text : Saved(path)?.Text;

    /// <summary>The bytes of a file as it stands.</summary>
    public byte[]? BytesOf(string path) => drafts.TryGetValue(path, out var draft) ? Encoding.UTF8.GetBytes(draft.Text) : Saved(path)?.Content;

    /// <summary>The latest saved version of a file; null where there is none or it was taken away.</summary>
    public FileSaved? Saved(string path) => Record.Files.TryGetValue(path, out var file) ? file.Latest : null;

    /// <summary>The files of the job, with drafts of new ones, in the order of their names.</summary>
    public IEnumerable<string> Paths => Record.Files.Where(f => f.Value.Latest is not null).Select(f => f.Key).Concat(drafts.Keys).Distinct(StringComparer.Ordinal).Order(StringComparer.Ordinal);

    /// <summary>Keeps what is being written, at once: closing the tab loses nothing.</summary>
    /// <param name="from">The version that it is made from, where a file has several; null for the one that is shown.</param>
    public async Task SaveDraft(string path, string text, FileSaved? from = null)
    {
        // Made from the version that is shown: where there are several, the others stay until somebody chooses.
        IReadOnlyList<string> bases = drafts.TryGetValue(path, out var before) ? before.Bases : (from ?? Saved(path)) is { } shown ? [shown.Id] : [];
        drafts[path] = new(path, text, bases);
        await (await Module).InvokeVoidAsync("putDraft", new { job = Id, path, text, bases });
    }

    /// <summary>Makes a draft a saved version, where it says anything new.</summary>
    public async Task SaveVersion(string path)
    {
        if (!drafts.TryGetValue(path, out var draft))
            return;
        if (draft.Bases is [var only] && Record.Files.GetValueOrDefault(path)?.Versions.FirstOrDefault(v => v.Fact.Id == only)?.Fact.Text == draft.Text)
        {
            await DropDraft(path);
            return;
        }

        var fact = await Signed(FileSaved.OfText(NewId(), Who, Now, path, draft.Text, draft.Bases), proof: null);
        await (await Module).InvokeVoidAsync("saveDraft", Id, path, draft.Text, fact.Id, FactJson.Text(fact));
        facts[fact.Id] = fact;
        // Written on meanwhile: then the draft goes on from the version just saved.
        if (drafts.TryGetValue(path, out var now) && now.Text == draft.Text)
            drafts.Remove(path);
        else if (now is not null)
            drafts[path] = now with { Bases = [fact.Id] };
        (record, roster) = (null, null);
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
    /// <param name="ids">Which facts; null where it may be any.</param>
    [JSInvokable]
    public async Task Elsewhere(string job, string[]? ids)
    {
        if (job != Id)
            return;
        if (ids is null)
            await Load();
        else
            await Load(ids);
        Taken();
    }

    /// <summary>What a failure of the browser's database means, in plain words.</summary>
    public static string Words(JSException e) => e.Message.Contains("Quota", StringComparison.OrdinalIgnoreCase)
        ? "This browser has no more room. What was entered before is kept; what you just did is not. Make room on the device, then do it again."
        : e.Message.Split('\n')[0];

    private async Task Load()
    {
        facts.Clear();
        unread.Clear();
        Put(await (await Module).InvokeAsync<byte[]>("facts", Id));
        (record, roster) = (null, null);
    }

    private async Task Load(IReadOnlyList<string> ids)
    {
        Put(await (await Module).InvokeAsync<byte[]>("some", Id, ids));
        (record, roster) = (null, null);
    }

    // A line for each fact: id, number in the store, time kept, JSON, with a tab between.
    private void Put(byte[] lines)
    {
        Span<Range> parts = stackalloc Range[4];
        foreach (var range in lines.AsSpan().Split((byte)'\n'))
        {
            var line = lines[range];
            if (line.Length == 0)
                continue;
            parts.Clear();
            var n = 0;
            foreach (var part in line.AsSpan().Split((byte)'\t'))
            {
                parts[n++] = part;
                if (n == 4)
                    break;
            }

            var kept = long.TryParse(line.AsSpan(parts[1]), CultureInfo.InvariantCulture, out var seq)
                && DateTimeOffset.TryParse(Encoding.UTF8.GetString(line.AsSpan(parts[2])), CultureInfo.InvariantCulture, DateTimeStyles.AssumeUniversal, out var at) ? new KeptAt(seq, at) : null;
            Put(Encoding.UTF8.GetString(line.AsSpan(parts[0])), FactJson.Read(line.AsMemory(parts[3].Start.Value)).Fact, kept);
        }
    }

    /// <summary>A job that this browser keeps.</summary>
    public sealed record KeptJob(string Id, string Name, int Count, int Unsent, int Refused);

    /// <summary>How far a server's store was read: its last number, the running digest up to there, and which keeping of the store it was.</summary>
    public sealed record Cursor(long Seq, string Digest, string Store);

    /// <summary>A fact as a server gave it.</summary>
    public sealed record FetchedFact(string Id, KeptAt Kept, string Json);

    /// <param name="Waiting">Facts that wait to be sent.</param>
    /// <param name="Refused">Facts that the server did not take.</param>
    /// <param name="Papers">Pictures and papers that wait to be sent.</param>
    public sealed record Counts(int Waiting, int Refused, int Papers);

    public sealed record Refused(string Id, string Why);

    /// <summary>A fact that only this browser has.</summary>
    /// <param name="Why">Why the server did not take it; null where it was not asked yet.</param>
    public sealed record Held(Fact Fact, string? Why);

    public sealed record Comparison(string[] Missing, int Lacking);

    private sealed record HeldJson(string Json, string? Why);

    private sealed record KeptDraft(string Path, string Text, string[]? Bases);
}
