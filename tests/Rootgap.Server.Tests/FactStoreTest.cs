using System.Collections.Concurrent;
using System.Globalization;
using System.Net;
using Microsoft.Data.Sqlite;
using Npgsql;
using Rootgap.Records;
using Rootgap.Store;

namespace Rootgap.Server.Tests;

public class FactStoreTest(Postgres postgres) : IClassFixture<Postgres>
{
    private static readonly CancellationToken Cancel = TestContext.Current.CancellationToken;

    private async Task<Func<Task<Archive>>> Place(string kind, JobOnDisk job)
    {
        if (kind == "SQLite")
            return () => Archive.OpenFileAsync(job.At("records.db"), Cancel);
        var connection = await postgres.NewDatabase();
        return () => Archive.OpenServerAsync(connection, Cancel);
    }

    [Theory]
    [InlineData("SQLite")]
    [InlineData("PostgreSQL")]
    public async Task What_is_kept_is_there_again_in_its_order(string kind)
    {
        using var job = new JobOnDisk();
        var open = await Place(kind, job);
        var facts = Enumerable.Range(0, 30).Select(i => (Fact)Facts.Cut(piece: i.ToString(CultureInfo.InvariantCulture))).ToList();
        string id;
        await using (var archive = await open())
        {
            var store = await archive.BeginJobAsync("job", cancel: Cancel);
            id = store.Job.Id;
            Assert.Equal(30, (await store.KeepAsync(facts, Facts.Noon, Cancel)).Kept.Count);
        }

        await using var opened = await open();
        var again = await opened.OpenJobAsync(Assert.Single(await opened.JobsAsync(Cancel)).Id, Cancel);
        Assert.Equal(id, again.Job.Id);
        var keeping = await again.KeepAsync([facts[3], Facts.Cut(facts[4].Id, "other"), facts[5]], Facts.Noon, Cancel);
        Assert.Equal([facts[3].Id, facts[5].Id], keeping.Already);
        Assert.Equal(facts[4].Id, Assert.Single(keeping.Refused).Id);
        Assert.Equal(facts.Select(FactJson.Text), (await again.ReadAsync(0, cancel: Cancel)).Facts.Select(f => f.Json));
        Assert.Equal(FactJson.Text(facts[7]), FactJson.Text((await again.FindAsync(facts[7].Id, Cancel))!));
    }

    [Theory]
    [InlineData("SQLite")]
    [InlineData("PostgreSQL")]
    public async Task A_reader_that_goes_on_from_its_number_misses_nothing_while_many_write(string kind)
    {
        using var job = new JobOnDisk();
        var open = await Place(kind, job);
        await using var archive = await open();
        var first = await archive.BeginJobAsync("job", cancel: Cancel);
        var written = new ConcurrentBag<string>();
        var isDone = false;
        var seen = new List<string>();
        var reading = Task.Run(
            async () =>
            {
                var after = 0L;
                while (true)
                {
                    var last = Volatile.Read(ref isDone);
                    var page = await first.ReadAsync(after, most: 7, cancel: Cancel);
                    seen.AddRange(page.Facts.Select(f => FactJson.Read(f.Json).Fact!.Id));
                    after = page.Next;
                    if (last && page.Facts.Count == 0)
                        return;
                }
            },
            Cancel);
        // Batches of uneven size, so that transactions overlap and end in another order than they began.
        await Task.WhenAll(Enumerable.Range(0, 6).Select(async writer =>
        {
            await using var other = await open();
            var store = await other.OpenJobAsync(first.Job.Id, Cancel);
            for (var i = 0; i < 15; i++)
            {
                var batch = Enumerable.Range(0, 1 + ((writer * 7 + i * 5) % 13)).Select(_ => (Fact)Facts.Cut()).ToList();
                foreach (var id in (await store.KeepAsync(batch, Facts.Noon, Cancel)).Kept)
                    written.Add(id);
            }
        }));
        Volatile.Write(ref isDone, true);
        await reading;
        Assert.Equal(written.Order(), seen.Order());
    }

    // The case that the lock is for: a slow writer draws its number first and commits last.
    [Fact]
    public async Task A_writer_that_is_slow_to_commit_holds_up_those_after_it_so_that_no_reader_goes_past_its_number()
    {
        var connection = await postgres.NewDatabase();
        await using var archive = await Archive.OpenServerAsync(connection, Cancel);
        var store = await archive.BeginJobAsync("job", cancel: Cancel);
        await using var slow = new NpgsqlConnection(connection);
        await slow.OpenAsync(Cancel);
        await using var transaction = await slow.BeginTransactionAsync(Cancel);
        await using (var command = new NpgsqlCommand("SELECT pg_advisory_xact_lock(32210649948971377); INSERT INTO rootgap_record (job, seq, id, kind, about, received, json, digest) VALUES (1, 1, 'slow', '', '', '', '{}', 'd')", slow, transaction))
            await command.ExecuteNonQueryAsync(Cancel);
        var fast = store.KeepAsync([Facts.Cut()], Facts.Noon, Cancel);
        Assert.NotSame(fast, await Task.WhenAny(fast, Task.Delay(400, Cancel)));
        Assert.Empty((await store.ReadAsync(0, cancel: Cancel)).Facts);
        await transaction.CommitAsync(Cancel);
        await fast;
        var facts = (await store.ReadAsync(0, cancel: Cancel)).Facts;
        Assert.Equal("{}", facts[0].Json);
        Assert.Equal(2, facts.Count);
    }

    [Fact]
    public async Task A_database_holds_many_jobs_each_by_itself_and_a_job_that_is_opened_by_two_is_one()
    {
        var connection = await postgres.NewDatabase();
        await using var one = await Archive.OpenServerAsync(connection, Cancel);
        await using var other = await Archive.OpenServerAsync(connection, Cancel);
        var hatchery = await one.BeginJobAsync("hatchery", cancel: Cancel);
        var boiler = await other.BeginJobAsync("boiler", cancel: Cancel);
        Assert.Equal(hatchery.Job, (await other.BeginJobAsync("hatchery", cancel: Cancel)).Job);
        var cut = Facts.Cut();
        await hatchery.KeepAsync([cut], Facts.Noon, Cancel);
        Assert.Empty((await boiler.ReadAsync(0, cancel: Cancel)).Facts);
        Assert.Equal([cut.Id], (await boiler.KeepAsync([cut], Facts.Noon, Cancel)).Kept);
        Assert.Equal(["boiler", "hatchery"], (await one.JobsAsync(Cancel)).Select(j => j.Name));
        var refused = await Assert.ThrowsAsync<StoreException>(() => one.BeginJobAsync("boiler", Facts.NewId(), Cancel));
        Assert.Contains("--job", refused.Remedy, StringComparison.Ordinal);
    }

    [Fact]
    public async Task A_database_server_that_is_not_there_is_told_plainly()
    {
        var refused = await Assert.ThrowsAsync<StoreException>(() => Archive.OpenServerAsync("Host=127.0.0.1;Port=1;Username=a;Database=b", Cancel));
        Assert.Equal(StoreTrouble.Unreachable, refused.Kind);
    }

    [Fact]
    public async Task A_file_that_is_no_store_is_told_plainly_and_left_alone()
    {
        using var job = new JobOnDisk();
        var text = new string('x', 5000);
        await File.WriteAllTextAsync(job.At("records.db"), text, Cancel);
        Assert.Equal(StoreTrouble.Damaged, (await Assert.ThrowsAsync<StoreException>(() => Archive.OpenFileAsync(job.At("records.db"), Cancel))).Kind);
        Assert.Equal(text, await File.ReadAllTextAsync(job.At("records.db"), Cancel));
    }

    [Fact]
    public async Task The_server_keeps_its_facts_in_postgresql_when_told_to()
    {
        using var job = new JobOnDisk();
        job.Write("a.yaml", "one");
        var connection = await postgres.NewDatabase();
        await using var server = await Served.Of(job, store: connection);
        await server.Post(Facts.Cut());
        Assert.Equal(2, (await server.All()).Count);
        Assert.False(File.Exists(job.At(".rootgap/records.db")));
    }
}

public class FullDiskTest
{
    private static readonly CancellationToken Cancel = TestContext.Current.CancellationToken;

    // The disk is full when no file may grow past 2 MB: the system's own limit on the size of files (setrlimit(2), RLIMIT_FSIZE), which needs no rights.
    [Fact]
    public async Task A_full_disk_is_answered_with_507_and_what_was_kept_stays_readable()
    {
        using var job = new JobOnDisk();
        await using var server = await ServerProgram.Start(job, "ulimit -f 2000; trap '' XFSZ;");
        var kept = new List<string>();
        var big = new string('n', 4000);
        for (var i = 0; ; i++)
        {
            Assert.True(i < 2000, "The disk never got full.");
            var fact = Facts.Cut() with { Note = big[..3900] };
            var (status, body) = await server.Served.Post(fact);
            if (status == HttpStatusCode.OK)
            {
                kept.AddRange(Facts.Ids(body, "kept"));
                continue;
            }

            Assert.Equal(HttpStatusCode.InsufficientStorage, status);
            Assert.Contains("full", body.GetProperty("error").GetString(), StringComparison.Ordinal);
            Assert.Contains("stays in the browser", body.GetProperty("remedy").GetString(), StringComparison.Ordinal);
            break;
        }

        Assert.True(kept.Count > 20);
        Assert.Equal(kept, (await server.Served.All()).Select(f => f.Fact.Id));
    }

    [Fact]
    public async Task A_store_that_another_program_writes_to_can_be_read_all_the_same()
    {
        using var job = new JobOnDisk();
        var file = job.At("records.db");
        await using var archive = await Archive.OpenFileAsync(file, Cancel);
        var store = await archive.BeginJobAsync("job", cancel: Cancel);
        await store.KeepAsync([Facts.Cut()], Facts.Noon, Cancel);
        await using var other = new SqliteConnection($"Data Source={file};Pooling=False");
        await other.OpenAsync(Cancel);
        await using (var transaction = other.BeginTransaction(deferred: false))
            Assert.Single((await store.ReadAsync(0, cancel: Cancel)).Facts);
        await store.KeepAsync([Facts.Cut()], Facts.Noon, Cancel);
        Assert.Equal(2, (await store.ReadAsync(0, cancel: Cancel)).Facts.Count);
    }
}
