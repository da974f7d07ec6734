using Rootgap.Store;
using System.Net;
using Rootgap.Records;

namespace Rootgap.Server.Tests;

/// <summary>Many jobs on one server, and many servers on one database.</summary>
public class ManyJobsTest(Postgres postgres) : IClassFixture<Postgres>
{
    private static string[] Names(System.Text.Json.JsonElement body) => [.. body.GetProperty("jobs").EnumerateArray().Select(j => j.GetProperty("name").GetString()!)];

    private static async Task<string> Id(Served server, string name, string? token = null) =>
        (await server.Send(HttpMethod.Get, "/api/jobs", token: token)).Body.GetProperty("jobs").EnumerateArray().First(j => j.GetProperty("name").GetString() == name).GetProperty("job").GetString()!;

    [Fact]
    public async Task Each_folder_below_is_a_job_of_its_own()
    {
        using var shop = new JobOnDisk();
        shop.Write("boiler/a.yaml", "drawing: B\n");
        shop.Write("hatchery/a.yaml", "drawing: H\n");
        await using var server = await Served.Of(new Serving { Jobs = shop.Path, Port = 0 });
        Assert.Equal(["boiler", "hatchery"], Names((await server.Send(HttpMethod.Get, "/api/jobs")).Body));
        var (boiler, hatchery) = (await Id(server, "boiler"), await Id(server, "hatchery"));
        await server.Send(HttpMethod.Post, $"/api/jobs/{boiler}/facts", $"{{\"facts\":[{FactJson.Text(Facts.Saved("b.yaml", "new"))}]}}");
        Assert.True(File.Exists(shop.At("boiler/b.yaml")));
        Assert.False(File.Exists(shop.At("hatchery/b.yaml")));
        Assert.Equal("drawing: H\n", ((FileSaved)Assert.Single(await server.AllOf(hatchery)).Fact).Text);
        Assert.Equal(HttpStatusCode.NotFound, (await server.Send(HttpMethod.Get, $"/api/jobs/{Facts.NewId()}/facts")).Status);
        Assert.Equal(HttpStatusCode.NotFound, (await server.Send(HttpMethod.Get, "/api/facts")).Status);
    }

    [Fact]
    public async Task A_jobs_token_opens_that_job_alone()
    {
        using var shop = new JobOnDisk();
        shop.Write("boiler/a.yaml", "drawing: B\n");
        shop.Write("hatchery/a.yaml", "drawing: H\n");
        await using var server = await Served.Of(new Serving { Jobs = shop.Path, Port = 0, IsForShop = true });
        var token = await new JobToken(shop.At("boiler")).NowAsync();
        Assert.Equal(["boiler"], Names((await server.Send(HttpMethod.Get, "/api/jobs", token: token)).Body));
        Assert.Empty(Names((await server.Send(HttpMethod.Get, "/api/jobs")).Body));
        var hatchery = JobPlace.NotedIn(shop.At("hatchery/.rootgap"));
        Assert.Equal(HttpStatusCode.OK, (await server.Send(HttpMethod.Get, $"/api/jobs/{await Id(server, "boiler", token)}/facts", token: token)).Status);
        Assert.Equal(HttpStatusCode.Unauthorized, (await server.Send(HttpMethod.Get, $"/api/jobs/{hatchery}/facts", token: token)).Status);
        Assert.Equal(HttpStatusCode.Unauthorized, (await server.Send(HttpMethod.Post, $"/api/jobs/{hatchery}/facts", $"{{\"facts\":[{FactJson.Text(Facts.Cut())}]}}", token)).Status);
    }

    [Fact]
    public async Task Servers_that_share_a_database_have_the_same_jobs_and_one_may_die()
    {
        var database = await postgres.NewDatabase();
        using var folder = new JobOnDisk();
        folder.Write("a.yaml", "one");
        await using var second = await Served.Of(new Serving { Store = database, Port = 0 });
        string id, old;
        await using (var first = await Served.Of(new Serving { Folder = folder.Path, Name = "hatchery", Store = database, Port = 0 }))
        {
            id = first.Job.Id;
            Assert.Equal(["hatchery"], Names((await second.Send(HttpMethod.Get, "/api/jobs")).Body));
            old = Assert.Single(await second.AllOf(id)).Fact.Id;
        }

        // The second has the files from the database; when the first is back it writes what came meanwhile into its folder.
        await second.Send(HttpMethod.Post, $"/api/jobs/{id}/facts", $"{{\"facts\":[{FactJson.Text(Facts.Saved("a.yaml", "two", old))}]}}");
        await using var again = await Served.Of(new Serving { Folder = folder.Path, Name = "hatchery", Store = database, Port = 0 });
        Assert.Equal("two", await File.ReadAllTextAsync(folder.At("a.yaml"), TestContext.Current.CancellationToken));
        Assert.Equal(id, again.Job.Id);
    }

    [Fact]
    public async Task A_folder_whose_job_is_not_in_the_database_any_more_is_told()
    {
        using var folder = new JobOnDisk();
        await using (await Served.Of(folder, store: await postgres.NewDatabase()))
        {
        }

        var refused = await Assert.ThrowsAsync<Store.StoreException>(async () => await Served.Of(folder, store: await postgres.NewDatabase()));
        Assert.Equal(Store.StoreTrouble.Missing, refused.Kind);
    }

    [Fact]
    public async Task A_job_moves_from_its_folder_into_a_database_with_a_backup()
    {
        using var folder = new JobOnDisk();
        using var other = new JobOnDisk();
        var cut = Facts.Cut();
        await using (var server = await Served.Of(folder))
            await server.Post(cut);
        var database = await postgres.NewDatabase();
        Assert.Equal(0, (await ServerProgram.Command($"job backup {folder.Path} --out {other.At("b.db")}")).Code);
        var (code, said) = await ServerProgram.Command($"job restore {other.At("b.db")} {folder.Path} --store '{database}'");
        Assert.True(code == 0, said);
        await using var moved = await Served.Of(folder, store: database);
        Assert.Equal(cut.Id, Assert.Single(await moved.All()).Fact.Id);
        Assert.Equal(0, (await ServerProgram.Command($"job backup {folder.Path} --store '{database}' --out {other.At("c.db")}")).Code);
        Assert.Contains("1 facts", (await ServerProgram.Command($"job list --store '{database}'")).Said, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Who_wants_some_drawings_only_gets_the_facts_about_these_and_goes_on_from_the_end()
    {
        using var job = new JobOnDisk();
        job.Write("a.yaml", "drawing: \"D-1\"   # the first\nruns:\n");
        job.Write("list.csv", "item\n");
        await using var server = await Served.Of(job);
        var cut = Facts.Cut();
        var other = new PieceCut(Facts.NewId(), "Jo", Facts.Noon, new("D-2", "1"), "1-A");
        await server.Post(cut, other);
        await server.Post(new Withdrawn(Facts.NewId(), "Jo", Facts.Noon, cut.Id, "no"), new Withdrawn(Facts.NewId(), "Jo", Facts.Noon, other.Id, "no"));
        var files = (await server.Send(HttpMethod.Get, "/api/files")).Body.GetProperty("files");
        Assert.Equal("D-1", files[0].GetProperty("number").GetString());
        Assert.False(files[1].TryGetProperty("number", out _));
        async Task<System.Text.Json.JsonElement> About(long after, string about) => (await server.Send(HttpMethod.Post, "/api/facts/about", $"{{\"after\":{after},\"about\":[{about}]}}")).Body;
        var body = await About(0, "\"\",\"D-1\"");
        Assert.Equal(["piece-cut", "withdrawn"], body.GetProperty("facts").EnumerateArray().Select(f => f.GetProperty("fact").GetProperty("fact").GetString()));
        var end = body.GetProperty("next").GetInt64();
        Assert.Equal((await server.Send(HttpMethod.Get, "/api/job")).Body.GetProperty("head").GetInt64(), end);
        Assert.Equal(HttpStatusCode.OK, (await server.Send(HttpMethod.Get, $"/api/facts?after={end}&digest={body.GetProperty("digest").GetString()}")).Status);
        Assert.Empty((await About(end, "\"D-1\"")).GetProperty("facts").EnumerateArray());
    }
}
