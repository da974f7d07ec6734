using System.Data.Common;
using System.Globalization;
using Microsoft.Data.Sqlite;
using Npgsql;

namespace Rootgap.Store;

/// <summary>One of the databases that a store can lie in, with all in which it differs from the others.</summary>
internal abstract class Database : IAsyncDisposable
{
    /// <summary>The tables of this version; made where they are not there.</summary>
    public abstract string Tables { get; }

    /// <summary>An open connection, to be closed by the caller.</summary>
    public abstract Task<DbConnection> ConnectAsync(CancellationToken cancel);

    /// <summary>Begins a transaction that has a job's only pen: whoever writes to it next waits until this one is committed and seen.</summary>
    /// <param name="job">The job's number; 0 for the tables themselves.</param>
    public abstract Task<DbTransaction> BeginWriteAsync(DbConnection connection, long job, CancellationToken cancel);

    /// <summary>Begins a transaction that sees the database as it is at one moment, and hinders nobody.</summary>
    public abstract Task<DbTransaction> BeginReadAsync(DbConnection connection, CancellationToken cancel);

    /// <summary>Looks whether what is kept can still be read; what is wrong, null where nothing is.</summary>
    public abstract Task<string?> DamageAsync(DbConnection connection, CancellationToken cancel);

    public abstract StoreException TroubleOf(DbException e);

    public abstract ValueTask DisposeAsync();

    /// <summary>Does something here; what the database says against it becomes a <see cref="StoreException"/>.</summary>
    public async Task<T> Safely<T>(Func<Task<T>> work)
    {
        try
        {
            return await work();
        }
        catch (DbException e)
        {
            throw TroubleOf(e);
        }
    }

    /// <summary>What is said of a file that cannot be read.</summary>
    public static StoreException Damaged(string file, string said, Exception? inner = null) => new(
        StoreTrouble.Damaged,
        $"This is no store, or it is damaged: {file}: {said}",
        "Stop the server and say `rootgap job rescue FOLDER`: it saves every fact that can still be read into a new store and says which are lost; the damaged file stays beside it. Then `rootgap job restore BACKUP FOLDER` adds what a backup has, and tablets send what they hold.",
        inner);

    /// <summary>A file for SQLite.</summary>
    public static Database InFile(string file) => new Sqlite(file);

    /// <summary>A PostgreSQL connection string.</summary>
    public static Database AtServer(string connection) => new Postgres(connection);

    private sealed class Sqlite(string file) : Database
    {
        private readonly string connection = new SqliteConnectionStringBuilder { DataSource = file, DefaultTimeout = 30 }.ToString();

        public override string ToString() => file;

        public override string Tables => """
            CREATE TABLE IF NOT EXISTS rootgap_meta (key TEXT PRIMARY KEY, value TEXT NOT NULL) WITHOUT ROWID;
            CREATE TABLE IF NOT EXISTS rootgap_job (job INTEGER PRIMARY KEY AUTOINCREMENT, id TEXT NOT NULL UNIQUE, name TEXT NOT NULL UNIQUE, store TEXT NOT NULL);
            CREATE TABLE IF NOT EXISTS rootgap_record (job INTEGER NOT NULL, seq INTEGER NOT NULL, id TEXT NOT NULL, kind TEXT NOT NULL, about TEXT NOT NULL, received TEXT NOT NULL, json TEXT NOT NULL, digest TEXT NOT NULL,
                PRIMARY KEY (job, seq), UNIQUE (job, id));
            CREATE INDEX IF NOT EXISTS rootgap_about ON rootgap_record (job, about, seq);
            CREATE INDEX IF NOT EXISTS rootgap_kind ON rootgap_record (job, kind, seq);
            CREATE TABLE IF NOT EXISTS rootgap_secret (job INTEGER NOT NULL, key TEXT NOT NULL, value TEXT NOT NULL, PRIMARY KEY (job, key)) WITHOUT ROWID;
            CREATE TABLE IF NOT EXISTS rootgap_attachment (job INTEGER NOT NULL, sha256 TEXT NOT NULL, name TEXT NOT NULL, bytes INTEGER NOT NULL, content BLOB, PRIMARY KEY (job, sha256));
            CREATE INDEX IF NOT EXISTS rootgap_lacking ON rootgap_attachment (job, sha256) WHERE content IS NULL;
            CREATE TABLE IF NOT EXISTS rootgap_attachment_part (job INTEGER NOT NULL, sha256 TEXT NOT NULL, start INTEGER NOT NULL, bytes INTEGER NOT NULL, content BLOB NOT NULL, PRIMARY KEY (job, sha256, start));
            """;

        public override async Task<DbConnection> ConnectAsync(CancellationToken cancel)
        {
            var opened = new SqliteConnection(connection);
            try
            {
                await opened.OpenAsync(cancel);
                var pragma = opened.CreateCommand();
                // FULL: an answer goes out only when the disk has it.
                pragma.CommandText = "PRAGMA journal_mode=WAL; PRAGMA synchronous=FULL;";
                await pragma.ExecuteNonQueryAsync(cancel);
                return opened;
            }
            catch
            {
                await opened.DisposeAsync();
                throw;
            }
        }

        public override Task<DbTransaction> BeginWriteAsync(DbConnection connection, long job, CancellationToken cancel) =>
            Task.FromResult<DbTransaction>(((SqliteConnection)connection).BeginTransaction(deferred: false));

        public override Task<DbTransaction> BeginReadAsync(DbConnection connection, CancellationToken cancel) =>
            Task.FromResult<DbTransaction>(((SqliteConnection)connection).BeginTransaction(deferred: true));

        public override async Task<string?> DamageAsync(DbConnection connection, CancellationToken cancel)
        {
            await using var command = connection.CreateCommand();
            command.CommandText = "PRAGMA quick_check(1)";
            return await command.ExecuteScalarAsync(cancel) is string said && said != "ok" ? said : null;
        }

        public override StoreException TroubleOf(DbException e) => (e as SqliteException)?.SqliteErrorCode switch
        {
            SQLitePCL.raw.SQLITE_FULL or SQLitePCL.raw.SQLITE_IOERR => new(StoreTrouble.Full, $"The disk of the store is full or cannot be written: {file}", "Make room on that disk. What is entered meanwhile stays in the browser and is sent again.", e),
            SQLitePCL.raw.SQLITE_READONLY or SQLitePCL.raw.SQLITE_PERM => new(StoreTrouble.ReadOnly, $"The store cannot be written: {file}", "Give the program the right to write there. What is entered meanwhile stays in the browser and is sent again.", e),
            SQLitePCL.raw.SQLITE_NOTADB or SQLitePCL.raw.SQLITE_CORRUPT => Damaged(file, e.Message, e),
            _ => new(StoreTrouble.Unreachable, $"The store does not answer: {file}: {e.Message}", "See whether the folder is there and whether another program holds the file.", e),
        };

        public override ValueTask DisposeAsync()
        {
            using var any = new SqliteConnection(connection);
            SqliteConnection.ClearPool(any);
            return ValueTask.CompletedTask;
        }
    }

    private sealed class Postgres(string connection) : Database
    {
        private readonly NpgsqlDataSource source = NpgsqlDataSource.Create(connection);

        public override string Tables => """
            CREATE TABLE IF NOT EXISTS rootgap_meta (key text PRIMARY KEY, value text NOT NULL);
            CREATE TABLE IF NOT EXISTS rootgap_job (job bigint GENERATED ALWAYS AS IDENTITY PRIMARY KEY, id text NOT NULL UNIQUE, name text NOT NULL UNIQUE, store text NOT NULL);
            CREATE TABLE IF NOT EXISTS rootgap_record (job bigint NOT NULL, seq bigint NOT NULL, id text NOT NULL, kind text NOT NULL, about text NOT NULL, received text NOT NULL, json text NOT NULL, digest text NOT NULL,
                PRIMARY KEY (job, seq), UNIQUE (job, id));
            CREATE INDEX IF NOT EXISTS rootgap_about ON rootgap_record (job, about, seq);
            CREATE INDEX IF NOT EXISTS rootgap_kind ON rootgap_record (job, kind, seq);
            CREATE TABLE IF NOT EXISTS rootgap_secret (job bigint NOT NULL, key text NOT NULL, value text NOT NULL, PRIMARY KEY (job, key));
            CREATE TABLE IF NOT EXISTS rootgap_attachment (job bigint NOT NULL, sha256 text NOT NULL, name text NOT NULL, bytes bigint NOT NULL, content bytea, PRIMARY KEY (job, sha256));
            CREATE INDEX IF NOT EXISTS rootgap_lacking ON rootgap_attachment (job, sha256) WHERE content IS NULL;
            CREATE TABLE IF NOT EXISTS rootgap_attachment_part (job bigint NOT NULL, sha256 text NOT NULL, start bigint NOT NULL, bytes bigint NOT NULL, content bytea NOT NULL, PRIMARY KEY (job, sha256, start));
            """;

        public override async Task<DbConnection> ConnectAsync(CancellationToken cancel) => await source.OpenConnectionAsync(cancel);

        public override async Task<DbTransaction> BeginWriteAsync(DbConnection connection, long job, CancellationToken cancel)
        {
            var transaction = await connection.BeginTransactionAsync(cancel);
            await using var command = connection.CreateCommand();
            command.Transaction = transaction;
            // Numbers are given in the order in which facts come to light, and each fact's digest goes on from the one before: so one writer at a time, in
            // whichever server. PostgreSQL gives the lock free after the commit is seen, or when the server that held it is gone. The number is "rootgap" in ASCII.
            command.CommandText = string.Create(CultureInfo.InvariantCulture, $"SELECT pg_advisory_xact_lock({32210649948971376 + job})");
            await command.ExecuteNonQueryAsync(cancel);
            return transaction;
        }

        public override async Task<DbTransaction> BeginReadAsync(DbConnection connection, CancellationToken cancel) =>
            await connection.BeginTransactionAsync(System.Data.IsolationLevel.RepeatableRead, cancel);

        public override Task<string?> DamageAsync(DbConnection connection, CancellationToken cancel) => Task.FromResult<string?>(null);

        public override StoreException TroubleOf(DbException e) => e.SqlState switch
        {
            PostgresErrorCodes.DiskFull => new(StoreTrouble.Full, "The disk of the database server is full.", "Make room on that disk. What is entered meanwhile stays in the browser and is sent again.", e),
            PostgresErrorCodes.ReadOnlySqlTransaction or PostgresErrorCodes.InsufficientPrivilege => new(StoreTrouble.ReadOnly, $"The database cannot be written: {e.Message}", "Give the user of the connection string the right to write and to make tables.", e),
            _ => new(StoreTrouble.Unreachable, $"The database server does not answer as it should: {e.Message}", "See whether it runs and whether the connection string is right. What is entered meanwhile stays in the browser and is sent again.", e),
        };

        public override ValueTask DisposeAsync() => source.DisposeAsync();
    }
}
