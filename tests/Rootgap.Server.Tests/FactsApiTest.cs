using System.Globalization;
using System.Net;
using System.Text;
using Rootgap.Records;

namespace Rootgap.Server.Tests;

public class FactsApiTest
{
    [Fact]
    public async Task A_fact_is_kept_once_however_often_it_is_sent()
    {
        using var job = new JobOnDisk();
        await using var server = await Served.Of(job);
        var fact = Facts.Cut();
        var (status, first) = await server.Post(fact);
        Assert.Equal(HttpStatusCode.OK, status);
        Assert.Equal([fact.Id], Facts.Ids(first, "kept"));
        var (_, second) = await server.Post(fact, fact);
        Assert.Equal([fact.Id, fact.Id], Facts.Ids(second, "already"));
        Assert.Single(await server.All());
    }

    [Fact]
    public async Task The_same_id_with_another_content_is_refused_and_the_first_one_stays()
    {
        using var job = new JobOnDisk();
        await using var server = await Served.Of(job);
        var fact = Facts.Cut();
        await server.Post(fact);
        var (_, body) = await server.Post(Facts.Cut(fact.Id, "1-B"), Facts.Cut());
        Assert.Equal(fact.Id, body.GetProperty("refused")[0].GetProperty("id").GetString());
        Assert.Single(Facts.Ids(body, "kept"));
        Assert.Equal("1-A", Assert.IsType<PieceCut>((await server.All())[0].Fact).Piece);
    }

    [Fact]
    public async Task A_job_keeps_its_id_over_a_restart()
    {
        using var job = new JobOnDisk();
        string Id(System.Text.Json.JsonElement body) => body.GetProperty("job").GetString()!;
        string first;
        await using (var server = await Served.Of(job))
            first = Id((await server.Send(HttpMethod.Get, "/api/job")).Body);
        await using var again = await Served.Of(job);
        Assert.Equal(first, Id((await again.Send(HttpMethod.Get, "/api/job")).Body));
        Assert.True(Guid.TryParse(first, out _));
    }

    [Fact]
    public async Task Many_facts_come_page_by_page_and_none_twice()
    {
        using var job = new JobOnDisk();
        await using var server = await Served.Of(job);
        var facts = Enumerable.Range(0, 1234).Select(i => Facts.Cut(piece: i.ToString(CultureInfo.InvariantCulture))).ToList();
        await server.Post(facts);
        Assert.Equal(facts.Select(f => f.Id), (await server.All()).Select(f => f.Fact.Id));
    }

    [Theory]
    [InlineData("{\"facts\": [\n {\"id\": oops}]}", HttpStatusCode.BadRequest, "line 2, column 9")]
    [InlineData("", HttpStatusCode.BadRequest, "line 1")]
    [InlineData("[]", HttpStatusCode.BadRequest, "no list of facts")]
    [InlineData("{\"facts\": {}}", HttpStatusCode.BadRequest, "no list of facts")]
    public async Task Bad_json_is_told_with_its_line(string body, HttpStatusCode status, string told)
    {
        using var job = new JobOnDisk();
        await using var server = await Served.Of(job);
        var (answered, said) = await server.Send(HttpMethod.Post, "/api/facts", body);
        Assert.Equal(status, answered);
        Assert.Contains(told, said.GetProperty("error").GetString(), StringComparison.Ordinal);
        Assert.NotEmpty(said.GetProperty("remedy").GetString()!);
    }

    [Fact]
    public async Task A_wrong_fact_is_refused_by_itself_and_the_others_are_kept()
    {
        using var job = new JobOnDisk();
        await using var server = await Served.Of(job);
        var good = Facts.Cut();
        var (_, body) = await server.Send(HttpMethod.Post, "/api/facts", $$"""{"facts":[{"id":"x"},{{FactJson.Text(good)}},7]}""");
        Assert.Equal([good.Id], Facts.Ids(body, "kept"));
        Assert.Equal(["facts[0]: id is not a UUID in lower case.", "facts[2]: This is not a fact: a fact is an object with id, fact, who and when."], body.GetProperty("refused").EnumerateArray().Select(r => r.GetProperty("why").GetString()));
    }

    [Theory]
    [InlineData(false)]
    [InlineData(true)]
    public async Task A_body_over_sixteen_megabytes_is_refused_with_the_limit(bool isChunked)
    {
        using var job = new JobOnDisk();
        await using var server = await Served.Of(job);
        var big = "{\"facts\":[\"" + new string('a', 17 << 20) + "\"]}";
        using var request = new HttpRequestMessage(HttpMethod.Post, "/api/facts") { Content = new StringContent(big, Encoding.UTF8, "application/json") };
        request.Headers.TransferEncodingChunked = isChunked;
        // Asks before it sends, so that the answer is not lost in a broken pipe.
        request.Headers.ExpectContinue = true;
        using var answer = await server.Http.SendAsync(request, TestContext.Current.CancellationToken);
        Assert.Equal(HttpStatusCode.RequestEntityTooLarge, answer.StatusCode);
        Assert.Contains("16 MB", await answer.Content.ReadAsStringAsync(TestContext.Current.CancellationToken), StringComparison.Ordinal);
    }

    [Fact]
    public async Task A_kind_of_a_later_version_is_kept_and_passed_on()
    {
        using var job = new JobOnDisk();
        await using var server = await Served.Of(job);
        var later = $$$"""{"id":"{{{Facts.NewId()}}}","fact":"hung","who":"Jo","when":"2026-11-25T12:00:00.000Z","crane":{"t":1.50}}""";
        await server.Send(HttpMethod.Post, "/api/facts", $"{{\"facts\":[{later}]}}");
        Assert.True(FactJson.Same(later, FactJson.Text((await server.All())[0].Fact)));
    }
}
