using System.Data.Common;
using Microsoft.Data.Sqlite;
using Npgsql;

namespace Rootgap.Store;

/// <summary>One of the databases that a store can lie in, with all in which it differs from the others.</summary>
internal abstract class Database : IAsyncDisposable
{
    /// <summary>The tables; made where they are not there.</summary>
    public abstract string Tables { get; }

    /// <summary>An open connection, to be closed by the caller.</summary>
    public abstract Task<DbConnection> ConnectAsync(CancellationToken cancel);

    /// <summary>Begins a transaction that has the store's only pen: whoever writes next waits until this one is committed and seen.</summary>
    public abstract Task<DbTransaction> BeginWriteAsync(DbConnection connection, CancellationToken cancel);

    public abstract StoreException TroubleOf(DbException e);

    public abstract ValueTask DisposeAsync();

    /// <summary>A file for SQLite.</summary>
    public static Database InFile(string file) => new Sqlite(file);

    /// <summary>A PostgreSQL connection string.</summary>
    public static Database AtServer(string connection) => new Postgres(connection);

    private sealed class Sqlite(string file) : Database
    {
        private readonly string connection = new SqliteConnectionStringBuilder { DataSource = file, DefaultTimeout = 30 }.ToString();

        // AUTOINCREMENT: a number is never given twice, or a reader's cursor would pass over the second.
        public override string Tables => """
            CREATE TABLE IF NOT EXISTS rootgap_meta (key TEXT PRIMARY KEY, value TEXT NOT NULL) WITHOUT ROWID;
            CREATE TABLE IF NOT EXISTS rootgap_fact (seq INTEGER PRIMARY KEY AUTOINCREMENT, id TEXT NOT NULL UNIQUE, received TEXT NOT NULL, json TEXT NOT NULL);
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

        public override Task<DbTransaction> BeginWriteAsync(DbConnection connection, CancellationToken cancel) =>
            Task.FromResult<DbTransaction>(((SqliteConnection)connection).BeginTransaction(deferred: false));

        public override StoreException TroubleOf(DbException e) => (e as SqliteException)?.SqliteErrorCode switch
        {
            SQLitePCL.raw.SQLITE_FULL or SQLitePCL.raw.SQLITE_IOERR => new(StoreTrouble.Full, $"The disk of the store is full or cannot be written: {file}", "Make room on that disk. What is entered meanwhile stays in the browser and is sent again.", e),
            SQLitePCL.raw.SQLITE_READONLY or SQLitePCL.raw.SQLITE_PERM => new(StoreTrouble.ReadOnly, $"The store cannot be written: {file}", "Give the program the right to write there. What is entered meanwhile stays in the browser and is sent again.", e),
            SQLitePCL.raw.SQLITE_NOTADB or SQLitePCL.raw.SQLITE_CORRUPT => new(StoreTrouble.NotOurs, $"This is no store, or it is damaged: {file}", "Keep a copy of the file. Take it away, and a new store is begun; browsers send what they hold.", e),
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
            CREATE TABLE IF NOT EXISTS rootgap_fact (seq bigint GENERATED ALWAYS AS IDENTITY PRIMARY KEY, id text NOT NULL UNIQUE, received text NOT NULL, json text NOT NULL);
            """;

        public override async Task<DbConnection> ConnectAsync(CancellationToken cancel) => await source.OpenConnectionAsync(cancel);

        public override async Task<DbTransaction> BeginWriteAsync(DbConnection connection, CancellationToken cancel)
        {
            var transaction = await connection.BeginTransactionAsync(cancel);
            await using var command = connection.CreateCommand();
            command.Transaction = transaction;
            // A number of seq is drawn when a row is inserted, and the row is seen when it is committed. Without this lock a slow writer's low number
            // would come to light after a reader has gone past it. PostgreSQL gives the lock free after the commit is seen. The number is "rootgap" in ASCII.
            command.CommandText = "SELECT pg_advisory_xact_lock(32210649948971376)";
            await command.ExecuteNonQueryAsync(cancel);
            return transaction;
        }

        public override StoreException TroubleOf(DbException e) => e.SqlState switch
        {
            PostgresErrorCodes.DiskFull => new(StoreTrouble.Full, "The disk of the database server is full.", "Make room on that disk. What is entered meanwhile stays in the browser and is sent again.", e),
            PostgresErrorCodes.ReadOnlySqlTransaction or PostgresErrorCodes.InsufficientPrivilege => new(StoreTrouble.ReadOnly, $"The database cannot be written: {e.Message}", "Give the user of the connection string the right to write and to make tables.", e),
            _ => new(StoreTrouble.Unreachable, $"The database server does not answer as it should: {e.Message}", "See whether it runs and whether the connection string is right. What is entered meanwhile stays in the browser and is sent again.", e),
        };

        public override ValueTask DisposeAsync() => source.DisposeAsync();
    }
}
