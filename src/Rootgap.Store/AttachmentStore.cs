using System.Data.Common;
using Rootgap.Records;

namespace Rootgap.Store;

/// <summary>A picture or paper that kept facts speak of and whose content is not here (yet).</summary>
/// <param name="Bytes">Its length, as the fact says that spoke of it first.</param>
/// <param name="Have">So many bytes of it are here, from its beginning.</param>
public sealed record LackingAttachment(string Sha256, string Name, int Bytes, int Have);

/// <summary>What became of a part of a content that was brought.</summary>
public enum PartTaken
{
    /// <summary>It is kept, and more is wanted.</summary>
    Part,

    /// <summary>All is here.</summary>
    Whole,

    /// <summary>It does not go on where what is here ends.</summary>
    Elsewhere,

    /// <summary>No kept fact speaks of it.</summary>
    Unasked,

    /// <summary>All is here and it is not what its digest says, or no picture and no PDF: it was thrown away.</summary>
    Wrong,
}

/// <summary>
/// The contents of pictures and papers, each once a job under its digest. A fact that is kept asks for those it speaks of; nothing else is taken, so a job's disk holds no more than its facts
/// account for. A content comes in parts, so that one that broke off goes on where it stopped, at whichever server.
/// </summary>
public sealed class AttachmentStore
{
    private readonly Database database;
    private readonly long job;

    internal AttachmentStore(Database database, long job) => (this.database, this.job) = (database, job);

    /// <summary>Those of some digests (null: of all) that facts speak of and whose content is not here; at most so many.</summary>
    public Task<IReadOnlyList<LackingAttachment>> LackingAsync(IReadOnlyList<string>? among = null, int most = 1000, CancellationToken cancel = default) => database.Safely<IReadOnlyList<LackingAttachment>>(async () =>
    {
        if (among is { Count: 0 })
            return [];
        await using var connection = await database.ConnectAsync(cancel);
        List<(string, object)> values = [("@job", job), ("@most", most)];
        var chosen = FactStore.In("sha256", among, values);
        List<LackingAttachment> lacking = [];
        var sql = "SELECT a.sha256, a.name, a.bytes, (SELECT coalesce(sum(p.bytes), 0) FROM rootgap_attachment_part p WHERE p.job = a.job AND p.sha256 = a.sha256) FROM rootgap_attachment a"
            + $" WHERE a.job = @job AND a.content IS NULL{chosen} ORDER BY a.sha256 LIMIT @most";
        await foreach (var row in Sql.RowsAsync(connection, null, sql, cancel, [.. values]))
            lacking.Add(new(row.GetString(0), row.GetString(1), (int)row.GetInt64(2), (int)row.GetInt64(3)));
        return lacking;
    });

    /// <summary>A content; null where it is not here.</summary>
    public Task<byte[]?> ReadAsync(string sha256, CancellationToken cancel = default) => database.Safely(async () =>
    {
        await using var connection = await database.ConnectAsync(cancel);
        await foreach (var row in Sql.RowsAsync(connection, null, "SELECT content FROM rootgap_attachment WHERE job = @job AND sha256 = @sha256 AND content IS NOT NULL", cancel, ("@job", job), ("@sha256", sha256)))
            return row.GetFieldValue<byte[]>(0);
        return (byte[]?)null;
    });

    /// <summary>Takes a whole content in.</summary>
    public async Task<PartTaken> TakeAsync(byte[] content, CancellationToken cancel = default) => (await TakeAsync(Attachment.DigestOf(content), 0, content.Length, content, cancel)).Became;

    /// <summary>Takes a part of a content in; it is on the disk when this comes back. A part that begins at 0 begins anew.</summary>
    /// <param name="at">Where it begins.</param>
    /// <param name="of">Length of the whole.</param>
    /// <returns>What became of it, and how many bytes are here now.</returns>
    public Task<(PartTaken Became, int Have)> TakeAsync(string sha256, int at, int of, byte[] part, CancellationToken cancel = default) => database.Safely(async () =>
    {
        await using var connection = await database.ConnectAsync(cancel);
        await using var transaction = await database.BeginWriteAsync(connection, job, cancel);
        (string, object)[] key = [("@job", job), ("@sha256", sha256)];
        bool? isHere = null;
        await foreach (var row in Sql.RowsAsync(connection, transaction, "SELECT CASE WHEN content IS NULL THEN 0 ELSE 1 END FROM rootgap_attachment WHERE job = @job AND sha256 = @sha256", cancel, key))
            isHere = row.GetInt32(0) == 1;
        if (isHere is null)
            return (PartTaken.Unasked, 0);
        if (isHere.Value)
            return (PartTaken.Whole, of);
        if (at == 0)
            await DropPartsAsync(transaction, key, cancel);
        List<byte[]> parts = [];
        await foreach (var row in Sql.RowsAsync(connection, transaction, "SELECT content FROM rootgap_attachment_part WHERE job = @job AND sha256 = @sha256 ORDER BY start", cancel, key))
            parts.Add(row.GetFieldValue<byte[]>(0));
        var have = parts.Sum(p => p.Length);
        if (at != have)
            return (PartTaken.Elsewhere, have);
        if (have + part.Length < of)
        {
            await Sql.ExecuteAsync(transaction, "INSERT INTO rootgap_attachment_part (job, sha256, start, bytes, content) VALUES (@job, @sha256, @start, @bytes, @content)", cancel, [.. key, ("@start", (long)at), ("@bytes", (long)part.Length), ("@content", part)]);
            await transaction.CommitAsync(cancel);
            return (PartTaken.Part, have + part.Length);
        }

        byte[] whole = [.. parts.SelectMany(p => p), .. part];
        var isRight = Attachment.DigestOf(whole) == sha256 && Attachment.WhyNot(whole) is null;
        if (isRight)
            await Sql.ExecuteAsync(transaction, "UPDATE rootgap_attachment SET content = @content, bytes = @bytes WHERE job = @job AND sha256 = @sha256", cancel, [.. key, ("@content", whole), ("@bytes", (long)whole.Length)]);
        await DropPartsAsync(transaction, key, cancel);
        await transaction.CommitAsync(cancel);
        return isRight ? (PartTaken.Whole, whole.Length) : (PartTaken.Wrong, 0);
    });

    /// <summary>A kept fact speaks of these: they are asked for from now on.</summary>
    internal static async Task AskAsync(DbTransaction transaction, long job, Fact? fact, CancellationToken cancel)
    {
        foreach (var attached in fact?.Attached ?? [])
            await PutAsync(transaction, job, attached, null, cancel);
    }

    /// <summary>Asks for a content, or puts it in where it is asked for and not here. One that is not what its digest says is not put in.</summary>
    internal static Task<int> PutAsync(DbTransaction transaction, long job, Attachment attached, byte[]? content, CancellationToken cancel) => Sql.ExecuteAsync(
        transaction,
        "INSERT INTO rootgap_attachment (job, sha256, name, bytes, content) VALUES (@job, @sha256, @name, @bytes, @content) ON CONFLICT (job, sha256) DO UPDATE SET content = excluded.content WHERE rootgap_attachment.content IS NULL AND excluded.content IS NOT NULL",
        cancel,
        ("@job", job), ("@sha256", attached.Sha256), ("@name", attached.Name), ("@bytes", (long)attached.Bytes),
        ("@content", content is not null && Attachment.DigestOf(content) == attached.Sha256 ? content : DBNull.Value));

    /// <summary>All that is asked for, each with its content where that is here, one at a time.</summary>
    internal static async IAsyncEnumerable<(Attachment Of, byte[]? Content)> AllAsync(DbConnection connection, DbTransaction reading, long job, [System.Runtime.CompilerServices.EnumeratorCancellation] CancellationToken cancel)
    {
        await foreach (var row in Sql.RowsAsync(connection, reading, "SELECT sha256, name, bytes, content FROM rootgap_attachment WHERE job = @job", cancel, ("@job", job)))
            yield return (new(row.GetString(0), row.GetString(1), (int)row.GetInt64(2)), await row.IsDBNullAsync(3, cancel) ? null : row.GetFieldValue<byte[]>(3));
    }

    private static Task<int> DropPartsAsync(DbTransaction transaction, (string, object)[] key, CancellationToken cancel) =>
        Sql.ExecuteAsync(transaction, "DELETE FROM rootgap_attachment_part WHERE job = @job AND sha256 = @sha256", cancel, key);
}
