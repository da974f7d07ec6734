using System.Data.Common;
using System.Globalization;
using Microsoft.Data.Sqlite;
using Npgsql;
using Rootgap.Records;

namespace Rootgap.Store;

/// <summary>A job in an archive.</summary>
/// <param name="Id">Made with the job, and the same wherever its records are brought to.</param>
/// <param name="Store">Made with this keeping of it: another one where the records were begun anew or brought here from a backup.</param>
public sealed record KeptJob(string Id, string Name, string Store);

/// <summary>
/// A database with the records of one job (a SQLite file) or of many (PostgreSQL, for any number of servers at a time). Stores of older versions are brought forward when
/// they are opened. Every method throws <see cref="StoreException"/> where the database cannot do it.
/// </summary>
public sealed class Archive : IAsyncDisposable
{
    private const string Schema = "3";

    private readonly Database database;

    private Archive(Database database) => this.database = database;

    /// <summary>Opens a SQLite file, or begins one.</summary>
    public static Task<Archive> OpenFileAsync(string file, CancellationToken cancel = default) => OpenAsync(Database.InFile(file), cancel);

    /// <summary>Opens a PostgreSQL database.</summary>
    /// <param name="connection">Npgsql's connection string: <c>Host=...;Database=...;Username=...</c>.</param>
    public static Task<Archive> OpenServerAsync(string connection, CancellationToken cancel = default)
    {
        try
        {
            return OpenAsync(Database.AtServer(connection), cancel);
        }
        catch (ArgumentException e)
        {
            throw new StoreException(StoreTrouble.Unreachable, $"The connection string is wrong: {e.Message}", "It is written \"Host=server;Database=hatchery;Username=shop;Password=...\".", e);
        }
    }

    private static async Task<Archive> OpenAsync(Database database, CancellationToken cancel)
    {
        try
        {
            await using var connection = await database.ConnectAsync(cancel);
            if (await database.DamageAsync(connection, cancel) is { } damage)
                throw Database.Damaged(database.ToString()!, damage);
            var schema = await SchemaOfAsync(connection, cancel);
            if (schema is null or "1" or "2")
            {
                await using var transaction = await database.BeginWriteAsync(connection, 0, cancel);
                await Sql.ExecuteAsync(transaction, database.Tables, cancel);
                if (schema == "1")
                    await BringForwardAsync(connection, transaction, cancel);
                await Sql.ExecuteAsync(transaction, "INSERT INTO rootgap_meta (key, value) VALUES ('schema', @schema) ON CONFLICT (key) DO UPDATE SET value = excluded.value", cancel, ("@schema", Schema));
                await transaction.CommitAsync(cancel);
                schema = await SchemaOfAsync(connection, cancel);
            }

            return schema == Schema ? new(database) : throw new StoreException(StoreTrouble.NotOurs, "The store was made by a later version of rootgap.", "Serve it with that version.");
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
    private static async Task<string?> SchemaOfAsync(DbConnection connection, CancellationToken cancel)
    {
        try
        {
            await using var command = connection.CreateCommand();
            command.CommandText = "SELECT value FROM rootgap_meta WHERE key = 'schema'";
            return await command.ExecuteScalarAsync(cancel) as string;
        }
        catch (DbException e) when (IsNoTable(e))
        {
            return null;
        }
    }

    private static bool IsNoTable(DbException e) => e is SqliteException { SqliteErrorCode: SQLitePCL.raw.SQLITE_ERROR } || e.SqlState == PostgresErrorCodes.UndefinedTable;

    // Version 1: one job a database, its id and name in the meta table, facts without a job, without a digest.
    private static async Task BringForwardAsync(DbConnection connection, DbTransaction transaction, CancellationToken cancel)
    {
        string id = "", name = "";
        await foreach (var row in Sql.RowsAsync(connection, transaction, "SELECT key, value FROM rootgap_meta", cancel))
        {
            if (row.GetString(0) == "job")
                id = row.GetString(1);
            else if (row.GetString(0) == "name")
                name = row.GetString(1);
        }

        // Another server may have done it while this one waited for the pen.
        if (id.Length == 0)
            return;
        var job = await InsertJobAsync(transaction, new(id, name, Guid.NewGuid().ToString("D")), cancel);
        var head = default(FactStore.Head);
        while (true)
        {
            List<Row> rows = [];
            await foreach (var row in Sql.RowsAsync(connection, transaction, "SELECT seq, id, received, json FROM rootgap_fact WHERE seq > @after ORDER BY seq LIMIT 500", cancel, ("@after", head.Seq)))
                rows.Add(new(row.GetInt64(0), row.GetString(1), "", "", row.GetString(2), row.GetString(3), ""));
            if (rows.Count == 0)
                break;
            foreach (var row in rows)
            {
                head = new(row.Seq, FactStore.DigestOf(head.Digest, row.Id, row.Json));
                var fact = FactJson.Read(row.Json).Fact;
                await InsertAsync(transaction, job, row with { Kind = fact?.Kind ?? "", About = await FactStore.AboutAsync(transaction, job, fact, cancel), Digest = head.Digest }, cancel);
            }
        }

        await Sql.ExecuteAsync(transaction, "DELETE FROM rootgap_meta WHERE key IN ('job', 'name'); DROP TABLE rootgap_fact;", cancel);
    }

    /// <summary>The jobs in it, by name.</summary>
    public Task<IReadOnlyList<KeptJob>> JobsAsync(CancellationToken cancel = default) => database.Safely<IReadOnlyList<KeptJob>>(async () =>
    {
        await using var connection = await database.ConnectAsync(cancel);
        List<KeptJob> jobs = [];
        await foreach (var row in Sql.RowsAsync(connection, null, "SELECT id, name, store FROM rootgap_job ORDER BY name", cancel))
            jobs.Add(new(row.GetString(0), row.GetString(1), row.GetString(2)));
        return jobs;
    });

    /// <summary>A job's facts. They use this archive, which stays open until it is closed itself.</summary>
    /// <exception cref="StoreException">There is no such job in it.</exception>
    public Task<FactStore> OpenJobAsync(string id, CancellationToken cancel = default) => database.Safely(async () =>
    {
        await using var connection = await database.ConnectAsync(cancel);
        await foreach (var row in Sql.RowsAsync(connection, null, "SELECT job, id, name, store FROM rootgap_job WHERE id = @id", cancel, ("@id", id)))
            return new FactStore(database, row.GetInt64(0), new(row.GetString(1), row.GetString(2), row.GetString(3)));
        throw new StoreException(StoreTrouble.NotOurs, $"The database holds no job {id}.", "`rootgap job list` tells which it holds.");
    });

    /// <summary>Begins a job; one of this id that is there already is left as it is.</summary>
    /// <param name="id">Null for a new one.</param>
    /// <exception cref="StoreException">Another job has this name.</exception>
    public Task<FactStore> BeginJobAsync(string name, string? id = null, CancellationToken cancel = default) => database.Safely(async () =>
    {
        var job = new KeptJob(id ?? Guid.NewGuid().ToString("D"), name, Guid.NewGuid().ToString("D"));
        await using (var connection = await database.ConnectAsync(cancel))
        {
            await using var transaction = await database.BeginWriteAsync(connection, 0, cancel);
            await foreach (var row in Sql.RowsAsync(connection, transaction, "SELECT id FROM rootgap_job WHERE name = @name", cancel, ("@name", name)))
            {
                if (id is not null && row.GetString(0) != id)
                    throw new StoreException(StoreTrouble.NotOurs, $"The database holds another job that is called \"{name}\".", "Give this one another name: --job NAME.");
                job = job with { Id = row.GetString(0) };
            }

            await InsertJobAsync(transaction, job, cancel);
            await transaction.CommitAsync(cancel);
        }

        return await OpenJobAsync(job.Id, cancel);
    });

    /// <summary>
    /// Brings a job's records from another archive into this one, as they were at one moment, also while others write to that. Where the job is here already, the facts that it
    /// lacks are added; nothing is ever taken away.
    /// </summary>
    /// <returns>How many facts were added.</returns>
    public Task<long> TakeInAsync(Archive from, string id, CancellationToken cancel = default) => database.Safely(async () =>
    {
        await using var source = await from.database.ConnectAsync(cancel);
        await using var reading = await from.database.BeginReadAsync(source, cancel);
        KeptJob? kept = null;
        var there = 0L;
        await foreach (var row in Sql.RowsAsync(source, reading, "SELECT job, id, name, store FROM rootgap_job WHERE id = @id", cancel, ("@id", id)))
            (there, kept) = (row.GetInt64(0), new(row.GetString(1), row.GetString(2), row.GetString(3)));
        if (kept is null)
            throw new StoreException(StoreTrouble.NotOurs, $"There is no job {id} to take over.", "`rootgap job list` tells which there are.");
        await using var connection = await database.ConnectAsync(cancel);
        await using var transaction = await database.BeginWriteAsync(connection, 0, cancel);
        var job = await InsertJobAsync(transaction, kept with { Store = Guid.NewGuid().ToString("D") }, cancel);
        var head = await FactStore.HeadAsync(connection, transaction, job, cancel);
        var isWhole = head.Seq == 0;
        var added = 0L;
        await foreach (var row in RowsOfAsync(source, reading, there, cancel))
        {
            // Into an empty place with its own numbers and digests, so that tablets go on where they were.
            var next = isWhole ? row : row with { Seq = head.Seq + 1, Digest = FactStore.DigestOf(head.Digest, row.Id, row.Json) };
            if (await InsertAsync(transaction, job, next, cancel) > 0)
            {
                head = new(next.Seq, next.Digest);
                added++;
            }
        }

        await foreach (var (attached, content) in AttachmentStore.AllAsync(source, reading, there, cancel))
            await AttachmentStore.PutAsync(transaction, job, attached, content, cancel);
        await foreach (var row in Sql.RowsAsync(source, reading, "SELECT key, value FROM rootgap_secret WHERE job = @job", cancel, ("@job", there)))
            await Sql.ExecuteAsync(transaction, "INSERT INTO rootgap_secret (job, key, value) VALUES (@job, @key, @value) ON CONFLICT DO NOTHING", cancel, ("@job", job), ("@key", row.GetString(0)), ("@value", row.GetString(1)));
        await transaction.CommitAsync(cancel);
        return added;
    });

    /// <summary>Adds rows that were saved from a damaged archive; their numbers and digests are made anew.</summary>
    /// <param name="attached">What these facts speak of, with its content where that was saved too.</param>
    internal Task AddAsync(string id, IReadOnlyList<Row> rows, IReadOnlyList<(Attachment Of, byte[]? Content)> attached, CancellationToken cancel) => database.Safely(async () =>
    {
        await using var connection = await database.ConnectAsync(cancel);
        await using var transaction = await database.BeginWriteAsync(connection, 0, cancel);
        var job = await InsertJobAsync(transaction, new(id, id, id), cancel);
        var head = await FactStore.HeadAsync(connection, transaction, job, cancel);
        foreach (var row in rows)
        {
            var next = new FactStore.Head(head.Seq + 1, FactStore.DigestOf(head.Digest, row.Id, row.Json));
            if (await InsertAsync(transaction, job, row with { Seq = next.Seq, Digest = next.Digest }, cancel) > 0)
                head = next;
        }

        foreach (var (of, content) in attached)
            await AttachmentStore.PutAsync(transaction, job, of, content, cancel);
        await transaction.CommitAsync(cancel);
        return 0;
    });

    private static async IAsyncEnumerable<Row> RowsOfAsync(DbConnection connection, DbTransaction reading, long job, [System.Runtime.CompilerServices.EnumeratorCancellation] CancellationToken cancel)
    {
        await foreach (var row in Sql.RowsAsync(connection, reading, "SELECT seq, id, kind, about, received, json, digest FROM rootgap_record WHERE job = @job ORDER BY seq", cancel, ("@job", job)))
            yield return new(row.GetInt64(0), row.GetString(1), row.GetString(2), row.GetString(3), row.GetString(4), row.GetString(5), row.GetString(6));
    }

    // Its number; one of this id that is there already stays as it is.
    private static async Task<long> InsertJobAsync(DbTransaction transaction, KeptJob job, CancellationToken cancel)
    {
        await Sql.ExecuteAsync(transaction, "INSERT INTO rootgap_job (id, name, store) VALUES (@id, @name, @store) ON CONFLICT (id) DO NOTHING", cancel, ("@id", job.Id), ("@name", job.Name), ("@store", job.Store));
        await using var command = Sql.Command(transaction, "SELECT job FROM rootgap_job WHERE id = @id", ("@id", job.Id));
        return Convert.ToInt64(await command.ExecuteScalarAsync(cancel), CultureInfo.InvariantCulture);
    }

    /// <summary>A row of the one table that is only added to.</summary>
    internal sealed record Row(long Seq, string Id, string Kind, string About, string Received, string Json, string Digest);

    internal static Task<int> InsertAsync(DbTransaction transaction, long job, Row row, CancellationToken cancel) => Sql.ExecuteAsync(
        transaction,
        "INSERT INTO rootgap_record (job, seq, id, kind, about, received, json, digest) VALUES (@job, @seq, @id, @kind, @about, @received, @json, @digest) ON CONFLICT (job, id) DO NOTHING",
        cancel,
        ("@job", job), ("@seq", row.Seq), ("@id", row.Id), ("@kind", row.Kind), ("@about", row.About), ("@received", row.Received), ("@json", row.Json), ("@digest", row.Digest));

    public ValueTask DisposeAsync() => database.DisposeAsync();
}
