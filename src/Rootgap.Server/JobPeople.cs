using System.Globalization;
using System.Security.Cryptography;
using System.Text;
using System.Text.Json;
using Rootgap.Records;
using Rootgap.Store;

namespace Rootgap.Server;

/// <summary>
/// Who may sign on a job, as far as its store says, and what lets people and devices in: codes for devices, good once and for minutes, and people's own codes. Of codes only
/// slow hashes are kept, and who guesses waits ever longer.
/// </summary>
internal sealed class JobPeople(FactStore store, TimeProvider clock) : IDisposable
{
    private const int CodeLength = 6;
    private const int MostWrong = 20;

    public static readonly TimeSpan CodeLasts = TimeSpan.FromMinutes(10);

    /// <summary>How old an asking may be that a device signed.</summary>
    private static readonly TimeSpan AskLasts = TimeSpan.FromMinutes(5);

    private static readonly Choice Wanted = new(Kinds: Roster.Kinds);

    private readonly SemaphoreSlim turn = new(1, 1);
    private readonly List<Fact> facts = [];
    private long cursor;
    private string digest = "";

    /// <summary>People's own codes and badges.</summary>
    public PersonCodes Codes { get; } = new(store, clock);

    /// <summary>As it was when last learnt.</summary>
    public Roster Roster { get; private set; } = Roster.Empty;

    public async Task LearnAsync()
    {
        await turn.WaitAsync();
        try
        {
            if (!await store.AgreesAsync(cursor, digest))
            {
                facts.Clear();
                (cursor, digest) = (0, "");
            }

            FactPage page;
            var before = facts.Count;
            do
            {
                page = await store.ReadAsync(cursor, Wanted);
                facts.AddRange(page.Facts.Select(f => FactJson.Read(f.Json).Fact).OfType<Fact>());
                (cursor, digest) = (page.Next, page.Digest);
            }
            while (page.More);
            if (facts.Count != before || cursor == 0)
                Roster = Roster.Of(facts);
        }
        finally
        {
            turn.Release();
        }
    }

    /// <summary>Why a fact is not taken: by whom it is signed, what they may, and whether the signature is the device's own. Null where it is taken.</summary>
    public async Task<string?> WhyNotAsync(Fact fact)
    {
        var withdrawn = Roster.IsOn && fact is Withdrawn w ? await store.FindAsync(w.Fact) : null;
        if (Roster.WhyNot(fact, store.Job.Id, withdrawn) is { } why)
            return why;
        if (fact.Signed is not { } signed)
            return null;
        return Roster.Devices.TryGetValue(signed.Device, out var device) && ProgramKey.IsOwn(fact, device.Entry.Key) ? null : "The signature is not the device's own, or what it signed was changed.";
    }

    /// <summary>Whether an asking may be granted that is for whoever may say who is here.</summary>
    /// <param name="isHere">Whether it comes from the server's own machine: then nobody need sign while nobody is named.</param>
    public async Task<string?> WhyNotAskedAsync(Fact ask, bool isHere)
    {
        await LearnAsync();
        // At the server itself somebody must begin: until a device is in, nothing can be signed.
        if (isHere && Roster.Devices.Count == 0)
            return null;
        if (!Roster.IsOn)
            return isHere ? null : "Nobody is named yet who may let in others. Name the first person at the server: rootgap job person FOLDER --name NAME --may fit,people";
        if (AskLasts < (clock.GetUtcNow() - ask.When).Duration())
            return "This was asked too long ago, or the clock of the device is wrong.";
        if (await WhyNotAsync(ask) is { } why)
            return why;
        var person = Roster.People[ask.Signed!.Person];
        return !person.May(Right.People) ? $"{person.Name} may not let in others."
            : ask.Signed.Proof is null ? $"{person.Name} must show by code to be here."
            : await IsNewAsync(ask) ? null : "This was asked before. Ask anew.";
    }

    // Whoever listened cannot ask the same once more, at whichever server.
    private async Task<bool> IsNewAsync(Fact ask)
    {
        var isNew = false;
        await store.ChangeSecretAsync("asked", before =>
        {
            var asked = before is null ? [] : JsonSerializer.Deserialize<Dictionary<string, DateTimeOffset>>(before)!;
            foreach (var (id, _) in asked.Where(a => a.Value + (2 * AskLasts) < clock.GetUtcNow()).ToList())
                asked.Remove(id);
            isNew = asked.TryAdd(ask.Id, clock.GetUtcNow());
            return JsonSerializer.Serialize(asked);
        });
        return isNew;
    }

    /// <summary>A code that lets one device in.</summary>
    /// <param name="by">Who made it.</param>
    public async Task<string> NewDeviceCodeAsync(string by)
    {
        var code = RandomNumberGenerator.GetString(PersonCodes.Alphabet, CodeLength);
        await store.ChangeSecretAsync("enrol", before =>
        {
            var codes = DeviceCodes.Read(before, clock);
            codes.Open.Add(new(PersonCodes.HashOf(code), clock.GetUtcNow() + CodeLasts, by));
            return codes.Written();
        });
        return code;
    }

    /// <summary>Lets a device in that shows a code and its public key.</summary>
    /// <returns>Its fact, kept; or why not.</returns>
    public async Task<(DeviceEnrolled? Device, string? Why)> EnrolAsync(string code, string name, string key)
    {
        var shown = PersonCodes.HashOf(Plain(code));
        string? by = null;
        await store.ChangeSecretAsync("enrol", before =>
        {
            var codes = DeviceCodes.Read(before, clock);
            by = codes.Open.Find(c => c.Hash == shown)?.By;
            if (by is not null)
                codes.Open.RemoveAll(c => c.Hash == shown);
            // Who guesses voids all codes that are open.
            else if (++codes.Wrong >= MostWrong)
                codes = new();
            return codes.Written();
        });
        if (by is null)
            return (null, "This code is not good, or not any more: it is for one device, and for ten minutes. Ask for a new one.");
        var written = new DeviceEnrolled(Guid.CreateVersion7().ToString(), by, clock.GetUtcNow(), Guid.CreateVersion7().ToString(), name.Trim(), key);
        if (FactJson.Read(FactJson.Text(written)) is not { Fact: DeviceEnrolled enrolled } reading)
            return (null, FactJson.Read(FactJson.Text(written)).Wrong);
        await store.KeepAsync([enrolled], clock.GetUtcNow());
        await LearnAsync();
        return (enrolled, null);
    }

    private static string Plain(string code) => new([.. code.ToUpperInvariant().Where(c => !char.IsWhiteSpace(c) && c != '-')]);

    public void Dispose() => turn.Dispose();

    private sealed record OpenCode(string Hash, DateTimeOffset Until, string By);

    private sealed class DeviceCodes
    {
        public List<OpenCode> Open { get; init; } = [];

        public int Wrong { get; set; }

        public static DeviceCodes Read(string? written, TimeProvider clock)
        {
            var codes = written is null ? new() : JsonSerializer.Deserialize<DeviceCodes>(written)!;
            codes.Open.RemoveAll(c => c.Until < clock.GetUtcNow());
            return codes;
        }

        public string Written() => JsonSerializer.Serialize(this);
    }
}
