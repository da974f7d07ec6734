using System.Data.Common;
using System.Globalization;
using Rootgap.Records;

namespace Rootgap.Store;

/// <summary>What became of facts that were brought to a store.</summary>
/// <param name="Kept">Ids that are new and kept now.</param>
/// <param name="Already">Ids that were kept before.</param>
/// <param name="Refused">Ids that are kept with another content, with the reason.</param>
public sealed record Keeping(IReadOnlyList<string> Kept, IReadOnlyList<string> Already, IReadOnlyList<(string Id, string Why)> Refused);

/// <summary>A fact as it is kept.</summary>
/// <param name="Seq">Its number in the store: facts that are kept later have higher numbers. Numbers may be left out.</param>
public readonly record struct KeptFact(long Seq, string Json);

/// <summary>A stretch of the store.</summary>
/// <param name="Next">Where to go on.</param>
/// <param name="More">Whether there is more to read at once.</param>
public sealed record FactPage(IReadOnlyList<KeptFact> Facts, long Next, bool More);

/// <summary>
/// A job's facts on disk: one table that is only added to. When <see cref="KeepAsync"/> has answered, the facts outlive a killed program and a pulled plug.
/// Every method throws <see cref="StoreException"/> where the database cannot do it.
/// </summary>
public sealed class FactStore : IAsyncDisposable
{
    private const string Schema = "1";

    private readonly Database database;

    private FactStore(Database database, string job)
    {
        this.database = database;
        Job = job;
    }

    /// <summary>The job's id, made with the store: another store is another job.</summary>
    public string Job { get; }

    /// <summary>Opens or begins a store in a SQLite file.</summary>
    public static Task<FactStore> OpenFileAsync(string file, CancellationToken cancel = default) => OpenAsync(Database.InFile(file), null, cancel);

    /// <summary>Opens or begins a store in a PostgreSQL database.</summary>
    /// <param name="connection">Npgsql's connection string: <c>Host=...;Database=...;Username=...</c>.</param>
    /// <param name="name">The job's name. A database, or a schema of it, holds one job; another name is refused.</param>
    public static Task<FactStore> OpenServerAsync(string connection, string name, CancellationToken cancel = default)
    {
        try
        {
            return OpenAsync(Database.AtServer(connection), name, cancel);
        }
        catch (ArgumentException e)
        {
            throw new StoreException(StoreTrouble.Unreachable, $"The connection string is wrong: {e.Message}", "It is written \"Host=server;Database=hatchery;Username=shop;Password=...\".", e);
        }
    }

    private static async Task<FactStore> OpenAsync(Database database, string? name, CancellationToken cancel)
    {
        try
        {
            await using var connection = await database.ConnectAsync(cancel);
            var meta = await MetaOfAsync(connection, cancel);
            if (meta is null)
            {
                await using var transaction = await database.BeginWriteAsync(connection, cancel);
                await ExecuteAsync(transaction, database.Tables, cancel);
                foreach (var (key, value) in new[] { ("schema", Schema), ("job", Guid.NewGuid().ToString("D")), ("name", name ?? "") })
                    await ExecuteAsync(transaction, "INSERT INTO rootgap_meta (key, value) VALUES (@key, @value) ON CONFLICT DO NOTHING", cancel, ("@key", key), ("@value", value));
                await transaction.CommitAsync(cancel);
                meta = await MetaOfAsync(connection, cancel);
            }

            if (meta?.GetValueOrDefault("schema") is not Schema)
                throw new StoreException(StoreTrouble.NotOurs, "The store was made by a later version of rootgap.", "Serve it with that version.");
            if (name is not null && meta.GetValueOrDefault("name") is { } other && other != name)
                throw new StoreException(StoreTrouble.NotOurs, $"The store holds the job \"{other}\", and this is \"{name}\".", $"Give each job its own database, or its own schema (Search Path=...). If the folder was renamed, say --job \"{other}\".");
            return new FactStore(database, meta["job"]);
        }
        catch (DbException e)
        {
            await database.DisposeAsync();
            throw database.TroubleOf(e);
        }
        catch
        {
            await database.DisposeAsync();
            throw;
        }
    }

    // Null where there is no store yet. Looked for without writing, so that a store on a full or locked disk can still be read.
    private static async Task<Dictionary<string, string>?> MetaOfAsync(DbConnection connection, CancellationToken cancel)
    {
        try
        {
            await using var command = connection.CreateCommand();
            command.CommandText = "SELECT key, value FROM rootgap_meta";
            await using var reader = await command.ExecuteReaderAsync(cancel);
            var meta = new Dictionary<string, string>(StringComparer.Ordinal);
            while (await reader.ReadAsync(cancel))
                meta[reader.GetString(0)] = reader.GetString(1);
            return meta.Count == 0 ? null : meta;
        }
        catch (DbException e) when (e is Microsoft.Data.Sqlite.SqliteException { SqliteErrorCode: SQLitePCL.raw.SQLITE_ERROR } || e.SqlState == Npgsql.PostgresErrorCodes.UndefinedTable)
        {
            return null;
        }
    }

    /// <summary>Keeps facts, all or none. A fact whose id is kept already is not kept again; where it says something else than the kept one it is refused.</summary>
    /// <param name="received">When they came, for whoever looks into the table.</param>
    public async Task<Keeping> KeepAsync(IReadOnlyList<Fact> facts, DateTimeOffset received, CancellationToken cancel = default)
    {
        List<string> kept = [];
        List<string> already = [];
        List<(string, string)> refused = [];
        if (facts.Count == 0)
            return new(kept, already, refused);
        try
        {
            await using var connection = await database.ConnectAsync(cancel);
            await using var transaction = await database.BeginWriteAsync(connection, cancel);
            var time = received.ToUniversalTime().ToString("O", CultureInfo.InvariantCulture);
            foreach (var fact in facts)
            {
                var json = FactJson.Text(fact);
                if (await ExecuteAsync(transaction, "INSERT INTO rootgap_fact (id, received, json) VALUES (@id, @received, @json) ON CONFLICT (id) DO NOTHING", cancel, ("@id", fact.Id), ("@received", time), ("@json", json)) > 0)
                    kept.Add(fact.Id);
                else if (FactJson.Same(json, await JsonOfAsync(transaction, fact.Id, cancel)))
                    already.Add(fact.Id);
                else
                    refused.Add((fact.Id, "Another fact with this id is kept, and a fact is never changed. Write a new one with an id of its own, and withdraw the old one."));
            }

            await transaction.CommitAsync(cancel);
            return new(kept, already, refused);
        }
        catch (DbException e)
        {
            throw database.TroubleOf(e);
        }
    }

    /// <summary>Facts in the order in which they were kept, after a number; at most so many, and about so many characters.</summary>
    public async Task<FactPage> ReadAsync(long after, int most = 500, long characters = 8 << 20, CancellationToken cancel = default)
    {
        try
        {
            await using var connection = await database.ConnectAsync(cancel);
            await using var command = connection.CreateCommand();
            command.CommandText = "SELECT seq, json FROM rootgap_fact WHERE seq > @after ORDER BY seq LIMIT @most";
            Add(command, "@after", after);
            Add(command, "@most", most + 1);
            await using var reader = await command.ExecuteReaderAsync(cancel);
            List<KeptFact> facts = [];
            while (await reader.ReadAsync(cancel))
            {
                if (facts.Count == most || characters <= 0)
                    return new(facts, facts[^1].Seq, More: true);
                facts.Add(new(reader.GetInt64(0), reader.GetString(1)));
                characters -= facts[^1].Json.Length;
            }

            return new(facts, facts.Count > 0 ? facts[^1].Seq : after, More: false);
        }
        catch (DbException e)
        {
            throw database.TroubleOf(e);
        }
    }

    /// <summary>One fact; null where it is not kept.</summary>
    public async Task<Fact?> FindAsync(string id, CancellationToken cancel = default)
    {
        try
        {
            await using var connection = await database.ConnectAsync(cancel);
            await using var command = connection.CreateCommand();
            command.CommandText = "SELECT json FROM rootgap_fact WHERE id = @id";
            Add(command, "@id", id);
            return await command.ExecuteScalarAsync(cancel) is string json ? FactJson.Read(json).Fact : null;
        }
        catch (DbException e)
        {
            throw database.TroubleOf(e);
        }
    }

    public ValueTask DisposeAsync() => database.DisposeAsync();

    private static async Task<string> JsonOfAsync(DbTransaction transaction, string id, CancellationToken cancel)
    {
        await using var command = Command(transaction, "SELECT json FROM rootgap_fact WHERE id = @id", ("@id", id));
        return (string)(await command.ExecuteScalarAsync(cancel))!;
    }

    private static async Task<int> ExecuteAsync(DbTransaction transaction, string sql, CancellationToken cancel, params (string Name, object Value)[] values)
    {
        await using var command = Command(transaction, sql, values);
        return await command.ExecuteNonQueryAsync(cancel);
    }

    private static DbCommand Command(DbTransaction transaction, string sql, params (string Name, object Value)[] values)
    {
        var command = transaction.Connection!.CreateCommand();
        command.Transaction = transaction;
        command.CommandText = sql;
        foreach (var (name, value) in values)
            Add(command, name, value);
        return command;
    }

    private static void Add(DbCommand command, string name, object value)
    {
        var parameter = command.CreateParameter();
        parameter.ParameterName = name;
        parameter.Value = value;
        command.Parameters.Add(parameter);
    }
}
