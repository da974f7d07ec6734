using System.Globalization;
using System.Net;
using Microsoft.Data.Sqlite;
using Rootgap.Records;
using Rootgap.Store;

namespace Rootgap.Server.Tests;

/// <summary>Records that are lost, put back, damaged, of an older version: it is told, nothing begins without a word, and what can be saved is.</summary>
public class RecordsLostTest
{
    private static readonly CancellationToken Cancel = TestContext.Current.CancellationToken;

    private static async Task<List<string>> Ids(Served server) => [.. (await server.All()).Select(f => f.Fact.Id)];

    private static async Task<List<Fact>> Filled(JobOnDisk job, int count = 20)
    {
        var facts = Enumerable.Range(0, count).Select(i => (Fact)Facts.Cut(piece: i.ToString(CultureInfo.InvariantCulture))).ToList();
        await using var server = await Served.Of(job);
        foreach (var fact in facts)
            await server.Post(fact);
        return facts;
    }

    private static void Forget(JobOnDisk job)
    {
        foreach (var file in Directory.GetFiles(job.At(".rootgap"), "records.db*"))
            File.Delete(file);
    }

    [Theory]
    [InlineData(false)]
    [InlineData(true)]
    public async Task A_store_that_is_gone_from_a_known_folder_is_told_and_begun_anew_only_when_asked_and_as_the_same_job(bool isEmpty)
    {
        using var job = new JobOnDisk();
        await Filled(job);
        var id = JobPlace.NotedIn(job.At(".rootgap"));
        Forget(job);
        if (isEmpty)
            await File.WriteAllBytesAsync(job.At(".rootgap/records.db"), [], Cancel);
        var (code, said) = await ServerProgram.ToEnd(job, "--port 0");
        Assert.Equal(69, code);
        Assert.Contains("missing or empty", said, StringComparison.Ordinal);
        Assert.Contains("job restore", said, StringComparison.Ordinal);
        Assert.Contains("--anew", said, StringComparison.Ordinal);
        await using var anew = await Served.Of(new Serving { Folder = job.Path, Name = "job", Port = 0, IsAnew = true });
        Assert.Equal(id, anew.Job.Id);
        Assert.Empty(await anew.All());
    }

    [Fact]
    public async Task A_backup_made_while_serving_is_put_back_into_an_empty_place_and_a_reader_goes_on_where_it_was()
    {
        using var job = new JobOnDisk();
        using var other = new JobOnDisk();
        List<string> then;
        long cursor;
        string digest;
        await using (var server = await Served.Of(job))
        {
            await server.Post(Enumerable.Range(0, 700).Select(_ => Facts.Cut()));
            then = await Ids(server);
            var (code, said) = await ServerProgram.Command($"job backup {job.Path} --out {other.At("b.db")}");
            Assert.True(code == 0, said);
            Assert.Contains("700 facts", said, StringComparison.Ordinal);
            var body = (await server.Send(HttpMethod.Get, "/api/job")).Body;
            (cursor, digest) = (body.GetProperty("head").GetInt64(), body.GetProperty("digest").GetString()!);
            await server.Post(Facts.Cut());
            Assert.Equal(64, (await ServerProgram.Command($"job backup {job.Path} --out {other.At("b.db")}")).Code);
        }

        Assert.Equal(["b.db"], Directory.GetFiles(other.Path).Select(Path.GetFileName));
        Forget(job);
        Assert.Equal(0, (await ServerProgram.Command($"job restore {other.At("b.db")} {job.Path}")).Code);
        await using var again = await Served.Of(job);
        Assert.Equal(then, await Ids(again));
        Assert.Equal(HttpStatusCode.OK, (await again.Send(HttpMethod.Get, $"/api/facts?after={cursor}&digest={digest}")).Status);
    }

    [Fact]
    public async Task A_backup_put_back_over_newer_records_takes_nothing_away()
    {
        using var job = new JobOnDisk();
        using var other = new JobOnDisk();
        await Filled(job, 5);
        await ServerProgram.Command($"job backup {job.Path} --out {other.At("b.db")}");
        await using (var server = await Served.Of(job))
            await server.Post(Facts.Cut());
        var (code, said) = await ServerProgram.Command($"job restore {other.At("b.db")} {job.Path}");
        Assert.Equal(0, code);
        Assert.StartsWith("0 facts were put back", said, StringComparison.Ordinal);
        await using var again = await Served.Of(job);
        Assert.Equal(6, (await again.All()).Count);
    }

    [Fact]
    public async Task A_reader_of_records_that_went_another_way_since_is_told()
    {
        using var job = new JobOnDisk();
        using var other = new JobOnDisk();
        await Filled(job, 5);
        await ServerProgram.Command($"job backup {job.Path} --out {other.At("b.db")}");
        long cursor;
        string digest;
        await using (var server = await Served.Of(job))
        {
            await server.Post(Facts.Cut(), Facts.Cut());
            var body = (await server.Send(HttpMethod.Get, "/api/facts?after=0")).Body;
            (cursor, digest) = (body.GetProperty("next").GetInt64(), body.GetProperty("digest").GetString()!);
        }

        await ServerProgram.Command($"job restore {other.At("b.db")} {job.Path} --anew");
        Assert.True(File.Exists(job.At(".rootgap/records-aside-1.db")));
        await using var again = await Served.Of(job);
        Assert.Equal(HttpStatusCode.Conflict, (await again.Send(HttpMethod.Get, $"/api/facts?after={cursor}&digest={digest}")).Status);
        // As many facts again, but others: the number is there, and the digest tells.
        await again.Post(Facts.Cut(), Facts.Cut());
        Assert.Equal(HttpStatusCode.Conflict, (await again.Send(HttpMethod.Get, $"/api/facts?after={cursor}&digest={digest}")).Status);
        Assert.Equal(7, (await again.Send(HttpMethod.Get, "/api/facts/ids")).Body.GetProperty("ids").GetArrayLength());
    }

    [Fact]
    public async Task A_damaged_store_is_told_and_what_can_be_read_is_saved()
    {
        using var job = new JobOnDisk();
        var facts = await Filled(job, 200);
        var file = job.At(".rootgap/records.db");
        // The pages from the middle on are overwritten.
        var bytes = await File.ReadAllBytesAsync(file, Cancel);
        const int Page = 4096;      // SQLite's own page size, https://sqlite.org/pgszchng2016.html
        var from = bytes.Length / Page / 2 * Page;
        Array.Fill<byte>(bytes, 0x5a, from, 3 * Page);
        await File.WriteAllBytesAsync(file, bytes, Cancel);
        var (code, said) = await ServerProgram.ToEnd(job, "--port 0");
        Assert.Equal(69, code);
        Assert.Contains("damaged", said, StringComparison.Ordinal);
        Assert.Contains("job rescue", said, StringComparison.Ordinal);
        Assert.DoesNotContain("Exception", said, StringComparison.Ordinal);
        (code, said) = await ServerProgram.Command($"job rescue {job.Path}");
        Assert.True(code == 0, said);
        Assert.Contains("are lost", said, StringComparison.Ordinal);
        await using var again = await Served.Of(job);
        var kept = await Ids(again);
        Assert.InRange(kept.Count, 100, 199);
        Assert.Subset(facts.Select(f => f.Id).ToHashSet(StringComparer.Ordinal), kept.ToHashSet(StringComparer.Ordinal));
        await again.Post(facts);
        Assert.Equal(200, (await again.All()).Count);
    }

    [Fact]
    public async Task A_store_of_the_first_version_is_brought_forward()
    {
        using var job = new JobOnDisk();
        Directory.CreateDirectory(job.At(".rootgap"));
        var id = Facts.NewId();
        var facts = Enumerable.Range(0, 1200).Select(_ => Facts.Cut()).ToList();
        await using (var old = new SqliteConnection($"Data Source={job.At(".rootgap/records.db")};Pooling=False"))
        {
            await old.OpenAsync(Cancel);
            await using var command = old.CreateCommand();
            command.CommandText = """
                CREATE TABLE rootgap_meta (key TEXT PRIMARY KEY, value TEXT NOT NULL) WITHOUT ROWID;
                CREATE TABLE rootgap_fact (seq INTEGER PRIMARY KEY AUTOINCREMENT, id TEXT NOT NULL UNIQUE, received TEXT NOT NULL, json TEXT NOT NULL);
                INSERT INTO rootgap_meta VALUES ('schema', '1'), ('name', ''), ('job', $job);
                """ + string.Concat(facts.Select(f => $"INSERT INTO rootgap_fact (id, received, json) VALUES ('{f.Id}', '2026-11-25T12:00:00.0000000+00:00', '{FactJson.Text(f)}');"));
            command.Parameters.AddWithValue("$job", id);
            await command.ExecuteNonQueryAsync(Cancel);
        }

        await File.WriteAllTextAsync(job.At(".rootgap/folder.json"), "{}", Cancel);
        await using var server = await Served.Of(job);
        Assert.Equal(id, server.Job.Id);
        Assert.Equal(facts.Select(f => f.Id), await Ids(server));
    }

    [Fact]
    public async Task A_second_server_on_a_folder_is_kept_off_until_the_first_is_gone()
    {
        using var job = new JobOnDisk();
        var first = await ServerProgram.Start(job);
        var (code, said) = await ServerProgram.ToEnd(job, "--port 0");
        Assert.Equal(69, code);
        Assert.Contains("is served already: process ", said, StringComparison.Ordinal);
        Assert.Equal(69, (await ServerProgram.Command($"job rescue {job.Path}")).Code);
        await first.Kill();
        await first.DisposeAsync();
        await using var second = await ServerProgram.Start(job);
        Assert.Empty(await second.Served.All());
    }

    [Fact]
    public async Task A_file_of_the_program_that_was_not_noted_before_it_was_killed_is_its_own()
    {
        using var job = new JobOnDisk();
        job.Write("a.yaml", "one");
        job.Write("gone.yaml", "one");
        await using (var server = await Served.Of(job))
        {
            var note = await File.ReadAllBytesAsync(job.At(".rootgap/folder.json"), Cancel);
            await server.Post(Facts.Saved("a.yaml", "two", (await server.FileOf("a.yaml"))!.Latest!.Id));
            await server.Post(Facts.Saved("a.yaml", "three", (await server.FileOf("a.yaml"))!.Latest!.Id));
            await server.Post(new FileSaved(Facts.NewId(), "Ann", Facts.Noon, "gone.yaml", null, [(await server.FileOf("gone.yaml"))!.Latest!.Id]));
            Assert.Equal("three", await File.ReadAllTextAsync(job.At("a.yaml"), Cancel));
            await File.WriteAllBytesAsync(job.At(".rootgap/folder.json"), note, Cancel);
            File.SetLastWriteTimeUtc(job.At("a.yaml"), DateTime.UtcNow.AddMinutes(-1));
            await File.WriteAllTextAsync(job.At(".rootgap-5f0f2a528f2b4a3c9d2d3f1f6f2a9b01.tmp"), "thr", Cancel);
        }

        // The note is as the killed program left it: a version behind.
        await using var again = await Served.Of(job);
        await Task.Delay(2200, Cancel);
        await again.Job.Folder!.SyncAsync();
        Assert.Equal("three", Assert.Single((await again.FileOf("a.yaml"))!.Heads).Text);
        Assert.Equal(3, (await again.FileOf("a.yaml"))!.Versions.Count);
        Assert.Equal(2, (await again.FileOf("gone.yaml"))!.Versions.Count);
        Assert.Empty(Directory.GetFiles(job.Path, ".rootgap-*"));
    }

    [Fact]
    public async Task What_somebody_puts_back_to_an_older_state_is_a_version_of_theirs()
    {
        using var job = new JobOnDisk();
        job.Write("a.yaml", "one");
        await using var server = await Served.Of(job);
        await server.Post(Facts.Saved("a.yaml", "two", (await server.FileOf("a.yaml"))!.Latest!.Id));
        job.Write("a.yaml", "one", secondsAgo: 30);
        await server.Job.Folder!.SyncAsync();
        var file = (await server.FileOf("a.yaml"))!;
        Assert.Equal(3, file.Versions.Count);
        Assert.Equal("one", Assert.Single(file.Heads).Text);
    }

    [Fact]
    public async Task A_renewed_token_shuts_out_who_had_the_old_one()
    {
        using var job = new JobOnDisk();
        const string Old = "0123456789abcdef0123456789abcdef01234567";
        await using var server = await Served.Of(job, Old);
        Assert.Equal(HttpStatusCode.OK, (await server.Send(HttpMethod.Get, "/api/job", token: Old)).Status);
        var (code, said) = await ServerProgram.Command($"job token {job.Path} --renew");
        Assert.Equal(0, code);
        await Task.Delay(2100, Cancel);
        Assert.Equal(HttpStatusCode.Unauthorized, (await server.Send(HttpMethod.Get, "/api/job", token: Old)).Status);
        Assert.Equal(HttpStatusCode.OK, (await server.Send(HttpMethod.Get, "/api/job", token: said.Trim())).Status);
    }
}
