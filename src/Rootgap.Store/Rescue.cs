using System.Text.Json;
using Microsoft.Data.Sqlite;
using Rootgap.Records;

namespace Rootgap.Store;

/// <summary>What could be saved of a damaged store.</summary>
/// <param name="Saved">Facts saved.</param>
/// <param name="Lost">Numbers below the last one saved that could not be read, or were read as something else than what was kept.</param>
/// <param name="Lacking">Pictures and papers that saved facts speak of and whose content was not there, or could not be read.</param>
public sealed record Rescued(string Job, string Name, long Saved, IReadOnlyList<long> Lost, IReadOnlyList<Attachment> Lacking);

/// <summary>Saves what can still be read of a damaged SQLite store, row by row, into a new one.</summary>
public static class Rescue
{
    private const long MostLost = 100_000;

    /// <summary>Reads a damaged store and writes what it still holds into a new file. The damaged one is not touched.</summary>
    /// <exception cref="StoreException">Nothing of it can be read.</exception>
    /// <param name="noted">The job's id, where the folder has it noted and the file may have lost it.</param>
    public static async Task<Rescued> SaveAsync(string damaged, string into, string? noted = null, CancellationToken cancel = default)
    {
        await using var connection = new SqliteConnection(new SqliteConnectionStringBuilder { DataSource = damaged, Mode = SqliteOpenMode.ReadWrite, Pooling = false }.ToString());
        try
        {
            await connection.OpenAsync(cancel);
        }
        catch (SqliteException e)
        {
            throw Nothing(damaged, e);
        }

        var (job, name) = Job(connection);
        var isNew = Scalar(connection, "SELECT count(*) FROM sqlite_master WHERE name = 'rootgap_record'") is > 0;
        var table = isNew ? "rootgap_record" : "rootgap_fact";
        var last = Scalar(connection, $"SELECT max(seq) FROM {table}") ?? Scalar(connection, $"SELECT max(rowid) FROM {table}");
        await using var archive = await Archive.OpenFileAsync(into, cancel);
        var store = await archive.BeginJobAsync(name, job ?? noted, cancel);
        List<Archive.Row> rows = [];
        List<(Attachment Of, byte[]? Content)> contents = [];
        var seen = new HashSet<string>(StringComparer.Ordinal);
        List<Attachment> lacking = [];
        List<long> lost = [];
        var saved = 0L;
        var digest = "";
        for (var seq = 1L; last is null ? lost.Count < MostLost : seq <= last; seq++)
        {
            if (Row(connection, table, isNew, seq) is not { } row)
            {
                lost.Add(seq);
                digest = "";
                continue;
            }

            var (id, received, json, written) = row;
            // The digest goes on from the row before: where that was read, it tells whether this one is what was kept.
            var isSame = !isNew || (digest.Length == 0 && seq > 1) || FactStore.DigestOf(digest, id, json) == written;
            if (isSame && IdOf(json) == id)
            {
                // A fact that this version cannot read is a fact all the same.
                var fact = FactJson.Read(json).Fact;
                rows.Add(new(0, id, fact?.Kind ?? "", fact switch { DrawingFact d => d.Drawing.Number, FileSaved f => f.Path, _ => "" }, received, json, ""));
                saved++;
                foreach (var attached in (fact?.Attached ?? []).Where(a => seen.Add(a.Sha256)))
                {
                    var content = Content(connection, attached.Sha256);
                    contents.Add((attached, content));
                    if (content is null)
                        lacking.Add(attached);
                }
            }
            else
            {
                lost.Add(seq);
            }

            if (rows.Count == 500 || contents.Count >= 20)
                await AddAsync();
            digest = written;
        }

        await AddAsync();

        // Without the last number, the misses at the end are no facts.
        if (last is null)
        {
            var end = lost.Count;
            while (end > 0 && lost[end - 1] == lost[^1] - (lost.Count - end))
                end--;
            lost.RemoveRange(end, lost.Count - end);
        }

        return saved > 0 || last is null or 0 ? new(store.Job.Id, name, saved, lost, lacking) : throw Nothing(damaged, null);

        async Task AddAsync()
        {
            await archive.AddAsync(store.Job.Id, rows, contents, cancel);
            rows.Clear();
            contents.Clear();
        }
    }

    private static string? IdOf(string json)
    {
        try
        {
            using var document = JsonDocument.Parse(json, FactJson.Deep);
            return document.RootElement.TryGetProperty("id", out var id) ? id.GetString() : null;
        }
        catch (Exception e) when (e is JsonException or InvalidOperationException)
        {
            return null;
        }
    }

    private static (string? Id, string Name) Job(SqliteConnection connection)
    {
        string? id = null;
        var name = "job";
        foreach (var sql in new[] { "SELECT id, name FROM rootgap_job", "SELECT a.value, b.value FROM rootgap_meta a, rootgap_meta b WHERE a.key = 'job' AND b.key = 'name'" })
        {
            try
            {
                using var command = connection.CreateCommand();
                command.CommandText = sql;
                using var reader = command.ExecuteReader();
                if (reader.Read())
                    (id, name) = (reader.GetString(0), reader.GetString(1) is { Length: > 0 } called ? called : name);
            }
            catch (SqliteException)
            {
                // Another version, or that page is gone.
            }
        }

        return (id, name);
    }

    private static long? Scalar(SqliteConnection connection, string sql)
    {
        try
        {
            using var command = connection.CreateCommand();
            command.CommandText = sql;
            return command.ExecuteScalar() is long value ? value : null;
        }
        catch (SqliteException)
        {
            return null;
        }
    }

    private static (string Id, string Received, string Json, string Digest)? Row(SqliteConnection connection, string table, bool isNew, long seq)
    {
        // By its number through the index; where the index is damaged, through the table itself, whose rows were written in the same order.
        foreach (var by in new[] { "seq", "rowid" })
        {
            try
            {
                using var command = connection.CreateCommand();
                command.CommandText = $"SELECT id, received, json, {(isNew ? "digest" : "''")} FROM {table} WHERE {by} = $seq";
                command.Parameters.AddWithValue("$seq", seq);
                using var reader = command.ExecuteReader();
                if (reader.Read())
                    return (reader.GetString(0), reader.GetString(1), reader.GetString(2), reader.GetString(3));
            }
            catch (Exception e) when (e is SqliteException or InvalidCastException or InvalidOperationException)
            {
                // This page is gone.
            }
        }

        return null;
    }

    // Only what is what its digest says was saved.
    private static byte[]? Content(SqliteConnection connection, string sha256)
    {
        try
        {
            using var command = connection.CreateCommand();
            command.CommandText = "SELECT content FROM rootgap_attachment WHERE sha256 = $sha256";
            command.Parameters.AddWithValue("$sha256", sha256);
            return command.ExecuteScalar() is byte[] content && Attachment.DigestOf(content) == sha256 ? content : null;
        }
        catch (SqliteException)
        {
            return null;
        }
    }

    private static StoreException Nothing(string file, Exception? inner) => new(
        StoreTrouble.Damaged, $"Nothing of {file} can be read as a store.", "Put a backup in its place: `rootgap job restore BACKUP FOLDER --anew`. Tablets send what they hold.", inner);
}
