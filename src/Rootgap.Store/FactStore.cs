using System.Data.Common;
using System.Globalization;
using System.Security.Cryptography;
using System.Text;
using Rootgap.Records;

namespace Rootgap.Store;

/// <summary>What became of facts that were brought to a store.</summary>
/// <param name="Kept">Ids that are new and kept now.</param>
/// <param name="Already">Ids that were kept before.</param>
/// <param name="Refused">Ids that are kept with another content, with the reason.</param>
public sealed record Keeping(IReadOnlyList<string> Kept, IReadOnlyList<string> Already, IReadOnlyList<(string Id, string Why)> Refused);

/// <summary>A fact as it is kept.</summary>
/// <param name="Seq">Its number in the store: facts that are kept later have higher numbers. Numbers may be left out.</param>
/// <param name="Received">When it was kept.</param>
public readonly record struct KeptFact(long Seq, DateTimeOffset Received, string Json);

/// <summary>A stretch of the store.</summary>
/// <param name="Next">Where to go on.</param>
/// <param name="Digest">The running digest of all facts up to <paramref name="Next"/>: whoever shows another one has read another store.</param>
/// <param name="More">Whether there is more to read at once.</param>
public sealed record FactPage(IReadOnlyList<KeptFact> Facts, long Next, string Digest, bool More);

/// <summary>Ids of a stretch of the store, with their numbers and times.</summary>
public sealed record IdPage(IReadOnlyList<(long Seq, DateTimeOffset Received, string Id)> Ids, long Next, string Digest, bool More);

/// <summary>Which facts somebody wants.</summary>
/// <param name="Kinds">Words of kinds; null for all.</param>
/// <param name="About">Numbers of drawings, paths of files, empty for what is about neither; null for all.</param>
public sealed record Choice(IReadOnlyList<string>? Kinds = null, IReadOnlyList<string>? About = null);

/// <summary>
/// A job's facts on disk: one table that is only added to. When <see cref="KeepAsync"/> has answered, the facts outlive a killed program and a pulled plug.
/// Every method throws <see cref="StoreException"/> where the database cannot do it.
/// </summary>
public sealed class FactStore
{
    private readonly Database database;
    private readonly long job;

    internal FactStore(Database database, long job, KeptJob kept)
    {
        this.database = database;
        this.job = job;
        Job = kept;
        Attachments = new(database, job);
    }

    public KeptJob Job { get; }

    /// <summary>The pictures and papers that its facts speak of.</summary>
    public AttachmentStore Attachments { get; }

    /// <summary>The last fact of a store: its number, and the running digest of all up to it. Zero and empty where there is none.</summary>
    public readonly record struct Head(long Seq, string? Running)
    {
        public string Digest => Running ?? "";
    }

    /// <summary>The running digest after one more fact: SHA-256 over the one before, the id and the written form.</summary>
    internal static string DigestOf(string before, string id, string json) => Convert.ToHexStringLower(SHA256.HashData(Encoding.UTF8.GetBytes($"{before}\n{id}\n{json}")).AsSpan(0, 16));

    /// <summary>Keeps facts, all or none. A fact whose id is kept already is not kept again; where it says something else than the kept one it is refused.</summary>
    public Task<Keeping> KeepAsync(IReadOnlyList<Fact> facts, DateTimeOffset received, CancellationToken cancel = default) => database.Safely(async () =>
    {
        List<string> kept = [];
        List<string> already = [];
        List<(string, string)> refused = [];
        if (facts.Count == 0)
            return new Keeping(kept, already, refused);
        await using var connection = await database.ConnectAsync(cancel);
        await using var transaction = await database.BeginWriteAsync(connection, job, cancel);
        var time = Written(received);
        var head = await HeadAsync(connection, transaction, job, cancel);
        foreach (var fact in facts)
        {
            var json = FactJson.Text(fact);
            var next = new Head(head.Seq + 1, DigestOf(head.Digest, fact.Id, json));
            if (await Archive.InsertAsync(transaction, job, new(next.Seq, fact.Id, fact.Kind, await AboutAsync(transaction, job, fact, cancel), time, json, next.Digest), cancel) > 0)
            {
                await AttachmentStore.AskAsync(transaction, job, fact, cancel);
                kept.Add(fact.Id);
                head = next;
            }
            else if (FactJson.Same(json, await JsonOfAsync(transaction, fact.Id, cancel)))
            {
                already.Add(fact.Id);
            }
            else
            {
                refused.Add((fact.Id, "Another fact with this id is kept, and a fact is never changed. Write a new one with an id of its own, and withdraw the old one."));
            }
        }

        await transaction.CommitAsync(cancel);
        return new(kept, already, refused);
    });

    /// <summary>Facts in the order in which they were kept, after a number; at most so many, and about so many characters.</summary>
    public Task<FactPage> ReadAsync(long after, Choice? choice = null, int most = 500, long characters = 1 << 20, CancellationToken cancel = default) => database.Safely(async () =>
    {
        await using var connection = await database.ConnectAsync(cancel);
        await using var reading = await database.BeginReadAsync(connection, cancel);
        List<KeptFact> facts = [];
        List<(string, object)> values = [("@job", job), ("@after", after), ("@most", most + 1)];
        var chosen = In("kind", choice?.Kinds, values) + In("about", choice?.About, values);
        var digest = "";
        await foreach (var row in Sql.RowsAsync(connection, reading, $"SELECT seq, received, json, digest FROM rootgap_record WHERE job = @job AND seq > @after{chosen} ORDER BY seq LIMIT @most", cancel, [.. values]))
        {
            if (facts.Count == most || characters <= 0)
                return new(facts, facts[^1].Seq, digest, More: true);
            facts.Add(new(row.GetInt64(0), Read(row.GetString(1)), row.GetString(2)));
            digest = row.GetString(3);
            characters -= facts[^1].Json.Length;
        }

        // Of a choice all is read up to the end of the store.
        var end = choice is null && facts.Count > 0 ? new Head(facts[^1].Seq, digest) : await HeadAsync(connection, reading, job, cancel);
        return end.Seq >= after ? new FactPage(facts, end.Seq, end.Digest, More: false) : new(facts, after, "", More: false);
    });

    internal static string In(string column, IReadOnlyList<string>? among, List<(string, object)> values)
    {
        if (among is null)
            return "";
        var names = among.Select((_, i) => string.Create(CultureInfo.InvariantCulture, $"@{column}{i}")).ToList();
        values.AddRange(names.Zip(among, (name, value) => (name, (object)value)));
        return $" AND {column} IN ({string.Join(", ", names)})";
    }

    /// <summary>Whether this store is the one that was read up to a number: it has that fact, and all up to it are the same.</summary>
    public Task<bool> AgreesAsync(long seq, string digest, CancellationToken cancel = default) => database.Safely(async () =>
    {
        await using var connection = await database.ConnectAsync(cancel);
        return (seq == 0 ? "" : await DigestAtAsync(connection, seq, cancel)) == digest;
    });

    /// <summary>The last fact's number and digest.</summary>
    public Task<Head> HeadAsync(CancellationToken cancel = default) => database.Safely(async () =>
    {
        await using var connection = await database.ConnectAsync(cancel);
        return await HeadAsync(connection, null, job, cancel);
    });

    /// <summary>Ids in the order in which they were kept, after a number.</summary>
    public Task<IdPage> IdsAsync(long after, int most = 10_000, CancellationToken cancel = default) => database.Safely(async () =>
    {
        await using var connection = await database.ConnectAsync(cancel);
        List<(long, DateTimeOffset, string)> ids = [];
        var digest = "";
        await foreach (var row in Sql.RowsAsync(connection, null, "SELECT seq, received, id, digest FROM rootgap_record WHERE job = @job AND seq > @after ORDER BY seq LIMIT @most", cancel, ("@job", job), ("@after", after), ("@most", most + 1)))
        {
            if (ids.Count == most)
                return new(ids, ids[^1].Item1, digest, More: true);
            ids.Add((row.GetInt64(0), Read(row.GetString(1)), row.GetString(2)));
            digest = row.GetString(3);
        }

        return ids.Count > 0 ? new IdPage(ids, ids[^1].Item1, digest, More: false) : new(ids, after, await DigestAtAsync(connection, after, cancel) ?? "", More: false);
    });

    /// <summary>Those of some facts that are kept.</summary>
    public Task<IReadOnlyList<KeptFact>> SomeAsync(IReadOnlyList<string> ids, CancellationToken cancel = default) => database.Safely<IReadOnlyList<KeptFact>>(async () =>
    {
        await using var connection = await database.ConnectAsync(cancel);
        List<KeptFact> facts = [];
        foreach (var id in ids)
        {
            await foreach (var row in Sql.RowsAsync(connection, null, "SELECT seq, received, json FROM rootgap_record WHERE job = @job AND id = @id", cancel, ("@job", job), ("@id", id)))
                facts.Add(new(row.GetInt64(0), Read(row.GetString(1)), row.GetString(2)));
        }

        return facts;
    });

    /// <summary>One fact; null where it is not kept.</summary>
    public async Task<Fact?> FindAsync(string id, CancellationToken cancel = default) => await SomeAsync([id], cancel) is [var kept] ? FactJson.Read(kept.Json).Fact : null;

    /// <summary>Something of the job that is no fact and goes to nobody: a hash of a code or a token. Null where it is not kept.</summary>
    public Task<string?> SecretAsync(string key, CancellationToken cancel = default) => database.Safely(async () =>
    {
        await using var connection = await database.ConnectAsync(cancel);
        await foreach (var row in Sql.RowsAsync(connection, null, "SELECT value FROM rootgap_secret WHERE job = @job AND key = @key", cancel, ("@job", job), ("@key", key)))
            return row.GetString(0);
        return (string?)null;
    });

    /// <summary>Keeps, changes or (null) forgets a secret, in one step: what it is made from cannot change meanwhile.</summary>
    /// <returns>What is kept then.</returns>
    public Task<string?> ChangeSecretAsync(string key, Func<string?, string?> change, CancellationToken cancel = default) => database.Safely(async () =>
    {
        await using var connection = await database.ConnectAsync(cancel);
        await using var transaction = await database.BeginWriteAsync(connection, job, cancel);
        string? before = null;
        await foreach (var row in Sql.RowsAsync(connection, transaction, "SELECT value FROM rootgap_secret WHERE job = @job AND key = @key", cancel, ("@job", job), ("@key", key)))
            before = row.GetString(0);
        var after = change(before);
        if (after is null)
            await Sql.ExecuteAsync(transaction, "DELETE FROM rootgap_secret WHERE job = @job AND key = @key", cancel, ("@job", job), ("@key", key));
        else
            await Sql.ExecuteAsync(transaction, "INSERT INTO rootgap_secret (job, key, value) VALUES (@job, @key, @value) ON CONFLICT (job, key) DO UPDATE SET value = excluded.value", cancel, ("@job", job), ("@key", key), ("@value", after));
        await transaction.CommitAsync(cancel);
        return after;
    });

    internal static async Task<Head> HeadAsync(DbConnection connection, DbTransaction? transaction, long job, CancellationToken cancel)
    {
        await foreach (var row in Sql.RowsAsync(connection, transaction, "SELECT seq, digest FROM rootgap_record WHERE job = @job ORDER BY seq DESC LIMIT 1", cancel, ("@job", job)))
            return new(row.GetInt64(0), row.GetString(1));
        return default;
    }

    /// <summary>What a fact is about, for whoever wants only some: a drawing's number, a file's path, what the withdrawn fact is about; empty where it is about none.</summary>
    internal static async Task<string> AboutAsync(DbTransaction transaction, long job, Fact? fact, CancellationToken cancel)
    {
        switch (fact)
        {
            case DrawingFact drawing:
                return drawing.Drawing.Number;
            case FileSaved file:
                return file.Path;
            case Withdrawn withdrawn:
                await foreach (var row in Sql.RowsAsync(transaction.Connection!, transaction, "SELECT about FROM rootgap_record WHERE job = @job AND id = @id", cancel, ("@job", job), ("@id", withdrawn.Fact)))
                    return row.GetString(0);
                return "";
            default:
                return "";
        }
    }

    private async Task<string?> DigestAtAsync(DbConnection connection, long seq, CancellationToken cancel)
    {
        await foreach (var row in Sql.RowsAsync(connection, null, "SELECT digest FROM rootgap_record WHERE job = @job AND seq = @seq", cancel, ("@job", job), ("@seq", seq)))
            return row.GetString(0);
        return null;
    }

    private async Task<string> JsonOfAsync(DbTransaction transaction, string id, CancellationToken cancel)
    {
        await using var command = Sql.Command(transaction, "SELECT json FROM rootgap_record WHERE job = @job AND id = @id", ("@job", job), ("@id", id));
        return (string)(await command.ExecuteScalarAsync(cancel))!;
    }

    private static string Written(DateTimeOffset time) => time.ToUniversalTime().ToString("O", CultureInfo.InvariantCulture);

    private static DateTimeOffset Read(string time) => DateTimeOffset.TryParse(time, CultureInfo.InvariantCulture, DateTimeStyles.AssumeUniversal, out var read) ? read : DateTimeOffset.MaxValue;
}
