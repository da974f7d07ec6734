using System.Net;
using System.Net.Http.Headers;
using System.Text;
using System.Text.Json;
using Microsoft.Data.Sqlite;
using Rootgap.Records;
using Rootgap.Store;

namespace Rootgap.Server.Tests;

public class AttachmentsTest(Postgres postgres) : IClassFixture<Postgres>
{
    private static readonly CancellationToken Cancel = TestContext.Current.CancellationToken;

    // The signature of a PNG (PNG specification, 5.2), and something after it.
    private static byte[] Picture(int bytes, int seed = 1)
    {
        var content = new byte[bytes];
        new Random(seed).NextBytes(content);
        byte[] begins = [0x89, 0x50, 0x4E, 0x47, 0x0D, 0x0A, 0x1A, 0x0A];
        begins.CopyTo(content, 0);
        return content;
    }

    private static PieceCut With(byte[] content, string name = "saw.png") => Facts.Cut() with { Attached = [Attachment.Of(name, content)] };

    private static async Task<(HttpStatusCode Status, JsonElement Body)> Put(Served served, string sha256, byte[] part, int at, int of)
    {
        using var content = new ByteArrayContent(part);
        content.Headers.ContentType = new MediaTypeHeaderValue("application/octet-stream");
        using var answer = await served.Http.PutAsync(new Uri($"/api/attachments/{sha256}?at={at}&of={of}", UriKind.Relative), content, Cancel);
        var text = await answer.Content.ReadAsStringAsync(Cancel);
        return (answer.StatusCode, JsonDocument.Parse(text).RootElement.Clone());
    }

    [Theory]
    [InlineData("SQLite")]
    [InlineData("PostgreSQL")]
    public async Task A_picture_is_kept_once_by_its_content_and_comes_back_as_it_was(string kind)
    {
        using var job = new JobOnDisk();
        await using var served = await Served.Of(job, store: kind == "SQLite" ? null : await postgres.NewDatabase());
        var picture = Picture(Attachment.Largest);
        var (one, other) = (With(picture), With(picture, "the same.png"));
        Assert.Equal(2, Facts.Ids((await served.Post(one, other)).Body, "kept").Length);
        var sha = one.Attached[0].Sha256;
        Assert.Equal(sha, Assert.Single((await served.Send(HttpMethod.Get, "/api/attachments/lacking")).Body.GetProperty("lacking").EnumerateArray()).GetProperty("sha256").GetString());
        Assert.Equal(HttpStatusCode.NotFound, (await served.Http.GetAsync(new Uri($"/api/attachments/{sha}", UriKind.Relative), Cancel)).StatusCode);

        var (status, body) = await Put(served, sha, picture, 0, picture.Length);
        Assert.Equal(HttpStatusCode.OK, status);
        Assert.True(body.GetProperty("whole").GetBoolean());
        Assert.True((await Put(served, sha, picture, 0, picture.Length)).Body.GetProperty("whole").GetBoolean());
        Assert.Empty((await served.Send(HttpMethod.Get, "/api/attachments/lacking")).Body.GetProperty("lacking").EnumerateArray());
        using var answer = await served.Http.GetAsync(new Uri($"/api/attachments/{sha}", UriKind.Relative), Cancel);
        Assert.Equal("image/png", answer.Content.Headers.ContentType!.MediaType);
        Assert.Equal(picture, await answer.Content.ReadAsByteArrayAsync(Cancel));
        Assert.Equal([one.Id, other.Id], (await served.All()).Select(f => f.Fact.Id));
        Assert.Equal("the same.png", (await served.All())[1].Fact.Attached.Single().Name);
    }

    [Fact]
    public async Task One_that_broke_off_goes_on_where_it_stopped_also_at_another_server()
    {
        var database = await postgres.NewDatabase();
        using var job = new JobOnDisk();
        var picture = Picture(100_000);
        var fact = With(picture);
        var sha = fact.Attached[0].Sha256;
        string id;
        await using (var first = await Served.Of(job, store: database))
        {
            id = first.Job.Id;
            await first.Post(fact);
            Assert.Equal(40_000, (await Put(first, sha, picture[..40_000], 0, 100_000)).Body.GetProperty("have").GetInt32());
        }

        await using var second = await Served.Of(job, store: database);
        var (status, body) = await second.Send(HttpMethod.Post, "/api/attachments/lacking", $$"""{"sha256":["{{sha}}"]}""");
        Assert.Equal(HttpStatusCode.OK, status);
        Assert.Equal(40_000, Assert.Single(body.GetProperty("lacking").EnumerateArray()).GetProperty("have").GetInt32());
        var (elsewhere, told) = await Put(second, sha, picture[50_000..], 50_000, 100_000);
        Assert.Equal(HttpStatusCode.Conflict, elsewhere);
        Assert.Equal(40_000, told.GetProperty("have").GetInt32());
        Assert.True((await Put(second, sha, picture[40_000..], 40_000, 100_000)).Body.GetProperty("whole").GetBoolean());
        Assert.Equal(picture, await second.Http.GetByteArrayAsync(new Uri($"/api/attachments/{sha}", UriKind.Relative), Cancel));
    }

    [Fact]
    public async Task What_no_fact_speaks_of_what_is_too_large_and_what_is_something_else_is_refused()
    {
        using var job = new JobOnDisk();
        await using var served = await Served.Of(job);
        var picture = Picture(5000);
        var sha = Attachment.DigestOf(picture);
        Assert.Equal(HttpStatusCode.NotFound, (await Put(served, sha, picture, 0, 5000)).Status);
        Assert.Equal(HttpStatusCode.NotFound, (await Put(served, "..%5c", picture, 0, 5000)).Status is HttpStatusCode.BadRequest ? HttpStatusCode.NotFound : HttpStatusCode.OK);

        var page = Encoding.UTF8.GetBytes("<html><script>alert(1)</script>");
        await served.Post(With(picture), With(page, "certificate.pdf"));
        Assert.Equal(HttpStatusCode.UnprocessableEntity, (await Put(served, Attachment.DigestOf(page), page, 0, page.Length)).Status);
        // Another picture under this one's digest; in one piece, and in two.
        Assert.Equal(HttpStatusCode.UnprocessableEntity, (await Put(served, sha, Picture(5000, seed: 2), 0, 5000)).Status);
        await Put(served, sha, Picture(5000, seed: 2)[..2000], 0, 5000);
        Assert.Equal(HttpStatusCode.UnprocessableEntity, (await Put(served, sha, picture[2000..], 2000, 5000)).Status);
        // More than was said, with its length told before and without.
        Assert.Equal(HttpStatusCode.RequestEntityTooLarge, (await Put(served, sha, picture, 0, 4000)).Status);
        using (var chunked = new StreamContent(new MemoryStream(picture)) { Headers = { ContentLength = null } })
        {
            using var request = new HttpRequestMessage(HttpMethod.Put, $"/api/attachments/{sha}?at=0&of=4000") { Content = chunked };
            request.Headers.TransferEncodingChunked = true;
            Assert.Equal(HttpStatusCode.RequestEntityTooLarge, (await served.Http.SendAsync(request, Cancel)).StatusCode);
        }

        Assert.Equal(HttpStatusCode.RequestEntityTooLarge, (await Put(served, sha, picture, 0, Attachment.Largest + 1)).Status);
        // None of it stands in the way of the right one.
        Assert.True((await Put(served, sha, picture, 0, 5000)).Body.GetProperty("whole").GetBoolean());
    }

    [Fact]
    public async Task A_fact_that_lies_about_the_length_does_not_keep_the_content_out()
    {
        using var job = new JobOnDisk();
        await using var served = await Served.Of(job);
        var picture = Picture(5000);
        var lying = Facts.Cut() with { Attached = [Attachment.Of("x.png", picture) with { Bytes = 1 }] };
        await served.Post(lying, With(picture));
        Assert.True((await Put(served, lying.Attached[0].Sha256, picture, 0, 5000)).Body.GetProperty("whole").GetBoolean());
    }

    [Fact]
    public async Task Backup_restore_and_rescue_bring_the_contents_along_and_say_which_are_lost()
    {
        using var job = new JobOnDisk();
        var (picture, lost) = (Picture(90_000), Picture(3000, seed: 3));
        var sha = Attachment.DigestOf(picture);
        await using (var served = await Served.Of(job))
        {
            await served.Post(With(picture), With(lost, "lost.png"));
            await Put(served, sha, picture, 0, picture.Length);
            Assert.Equal(0, (await ServerProgram.Command($"job backup {job.Path} --out {job.At("b.db")}")).Code);
        }

        using var other = new JobOnDisk();
        Assert.Equal(0, (await ServerProgram.Command($"job restore {job.At("b.db")} {other.Path}")).Code);
        await using (var served = await Served.Of(other))
        {
            Assert.Equal(picture, await served.Http.GetByteArrayAsync(new Uri($"/api/attachments/{sha}", UriKind.Relative), Cancel));
            Assert.Equal("lost.png", Assert.Single((await served.Send(HttpMethod.Get, "/api/attachments/lacking")).Body.GetProperty("lacking").EnumerateArray()).GetProperty("name").GetString());
        }

        SqliteConnection.ClearAllPools();
        var (code, said) = await ServerProgram.Command($"job rescue {other.Path}");
        Assert.Equal(0, code);
        Assert.Contains("1 picture or paper is lacking: lost.png", said, StringComparison.Ordinal);
        await using (var served = await Served.Of(other))
            Assert.Equal(picture, await served.Http.GetByteArrayAsync(new Uri($"/api/attachments/{sha}", UriKind.Relative), Cancel));

        // Yesterday's backup had the fact and not its picture: put back over that, the picture is added.
        using var yesterday = new JobOnDisk();
        await using (var archive = await Archive.OpenFileAsync(job.At("b.db"), Cancel))
        {
            await using var older = await Archive.OpenFileAsync(yesterday.At("o.db"), Cancel);
            var facts = await (await archive.OpenJobAsync((await archive.JobsAsync(Cancel))[0].Id, Cancel)).ReadAsync(0, cancel: Cancel);
            var store = await older.BeginJobAsync("job", (await archive.JobsAsync(Cancel))[0].Id, Cancel);
            await store.KeepAsync([.. facts.Facts.Select(f => FactJson.Read(f.Json).Fact!)], Facts.Noon, Cancel);
            Assert.Equal(0, await older.TakeInAsync(archive, store.Job.Id, Cancel));
            Assert.Equal(picture, await store.Attachments.ReadAsync(sha, Cancel));
        }
    }

    [Fact]
    public async Task A_store_from_before_there_were_attachments_takes_them_after_it_was_brought_forward()
    {
        using var job = new JobOnDisk();
        await using (var archive = await Archive.OpenFileAsync(job.At("records.db"), Cancel))
            await archive.BeginJobAsync("job", cancel: Cancel);
        await using (var connection = new SqliteConnection($"Data Source={job.At("records.db")};Pooling=False"))
        {
            await connection.OpenAsync(Cancel);
            await using var command = connection.CreateCommand();
            command.CommandText = "DROP TABLE rootgap_attachment; DROP TABLE rootgap_attachment_part; UPDATE rootgap_meta SET value = '2' WHERE key = 'schema'";
            await command.ExecuteNonQueryAsync(Cancel);
        }

        await using var again = await Archive.OpenFileAsync(job.At("records.db"), Cancel);
        var store = await again.OpenJobAsync((await again.JobsAsync(Cancel))[0].Id, Cancel);
        var picture = Picture(100);
        await store.KeepAsync([With(picture)], Facts.Noon, Cancel);
        Assert.Equal(PartTaken.Whole, await store.Attachments.TakeAsync(picture, Cancel));
    }
}
