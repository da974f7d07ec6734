using System.Net;
using Rootgap.Records;

namespace Rootgap.Server.Tests;

public class JobFolderTest
{
    private static async Task<FileHistory> Until(Served server, string path, Func<FileHistory, bool> holds)
    {
        FileHistory? file = null;
        for (var i = 0; i < 200; i++)
        {
            if ((file = await server.FileOf(path)) is { } now && holds(now))
                return now;
            await Task.Delay(100, TestContext.Current.CancellationToken);
        }

        Assert.Fail($"{path}: {string.Join(" | ", file?.Heads.Select(h => $"{h.Who}: {h.Text ?? "gone"}") ?? [])}");
        throw new InvalidOperationException();
    }

    [Fact]
    public async Task Files_of_the_folder_are_facts_when_the_server_starts_and_only_once()
    {
        using var job = new JobOnDisk();
        job.Write("a.yaml", "drawing: A\r\n");
        job.Write("area 2/list.csv", "item\n");
        job.Write("notes.txt", "not ours");
        job.Write(".hidden.yaml", "not ours");
        await using (var server = await Served.Of(job))
            Assert.Equal(["a.yaml", "area 2/list.csv"], (await server.All()).Select(f => ((FileSaved)f.Fact).Path).Order());
        await using var again = await Served.Of(job);
        var file = Assert.Single((await again.FileOf("a.yaml"))!.Versions).Fact;
        Assert.Equal(("folder", "drawing: A\r\n"), (file.Who, file.Text));
    }

    [Fact]
    public async Task A_version_from_the_app_is_written_into_the_folder()
    {
        using var job = new JobOnDisk();
        job.Write("a.yaml", "old\n");
        await using var server = await Served.Of(job);
        var old = (await server.FileOf("a.yaml"))!.Latest!;
        await server.Post(Facts.Saved("a.yaml", "new\r\n", old.Id), Facts.Saved("area 2/b.yaml", "b"));
        Assert.Equal("new\r\n", await File.ReadAllTextAsync(job.At("a.yaml"), TestContext.Current.CancellationToken));
        Assert.Equal("b", await File.ReadAllTextAsync(job.At("area 2/b.yaml"), TestContext.Current.CancellationToken));
        Assert.Equal(2, (await server.FileOf("a.yaml"))!.Versions.Count);
        Assert.Empty(Directory.GetFiles(job.Path, ".rootgap-*"));
    }

    [Fact]
    public async Task A_file_changed_by_another_program_is_a_version_made_from_the_one_before()
    {
        using var job = new JobOnDisk();
        job.Write("a.yaml", "one");
        await using var server = await Served.Of(job);
        var first = (await server.FileOf("a.yaml"))!.Latest!;
        job.Write("a.yaml", "two", secondsAgo: 30);
        var file = await Until(server, "a.yaml", f => f.Versions.Count == 2);
        Assert.Equal("two", file.Latest!.Text);
        Assert.Equal([first.Id], file.Latest.Bases);
    }

    [Fact]
    public async Task A_file_changed_by_another_program_and_in_the_app_is_kept_both_ways()
    {
        using var job = new JobOnDisk();
        job.Write("a.yaml", "one");
        await using var server = await Served.Of(job);
        var first = (await server.FileOf("a.yaml"))!.Latest!;
        job.Write("a.yaml", "by the editor", secondsAgo: 30);
        await server.Post(Facts.Saved("a.yaml", "by the app", first.Id));
        var file = await Until(server, "a.yaml", f => f.IsTorn);
        Assert.Equal(["by the app", "by the editor"], file.Heads.Select(h => h.Text!).Order());
        Assert.Equal("by the editor", await File.ReadAllTextAsync(job.At("a.yaml"), TestContext.Current.CancellationToken));

        await server.Post(Facts.Saved("a.yaml", "by both", [.. file.Heads.Select(h => h.Id)]));
        Assert.Equal("by both", await File.ReadAllTextAsync(job.At("a.yaml"), TestContext.Current.CancellationToken));
        Assert.False((await server.FileOf("a.yaml"))!.IsTorn);
    }

    [Fact]
    public async Task What_changed_while_no_server_ran_is_made_from_what_lay_there_then()
    {
        using var job = new JobOnDisk();
        job.Write("a.yaml", "one");
        string first;
        await using (var server = await Served.Of(job))
            first = (await server.FileOf("a.yaml"))!.Latest!.Id;
        job.Write("a.yaml", "two", secondsAgo: 30);
        await using var again = await Served.Of(job);
        await again.Post(Facts.Saved("a.yaml", "offline", first));
        Assert.Equal(["offline", "two"], (await again.FileOf("a.yaml"))!.Heads.Select(h => h.Text!).Order());
    }

    [Fact]
    public async Task A_file_that_another_program_takes_away_is_gone_and_its_versions_are_kept()
    {
        using var job = new JobOnDisk();
        job.Write("a.yaml", "one");
        await using var server = await Served.Of(job);
        File.Delete(job.At("a.yaml"));
        var file = await Until(server, "a.yaml", f => f.Heads.All(h => h.IsRemoved));
        Assert.Equal("one", file.Versions[0].Fact.Text);
    }

    [Fact]
    public async Task A_file_taken_away_in_the_app_goes_from_the_folder_unless_it_was_changed_there()
    {
        using var job = new JobOnDisk();
        job.Write("a.yaml", "one");
        job.Write("b.yaml", "one");
        await using var server = await Served.Of(job);
        async Task Remove(string path) => await server.Post(new FileSaved(Facts.NewId(), "Ann", Facts.Noon, path, null, [(await server.FileOf(path))!.Versions[0].Fact.Id]));
        job.Write("b.yaml", "two", secondsAgo: 30);
        await Remove("a.yaml");
        await Remove("b.yaml");
        Assert.False(File.Exists(job.At("a.yaml")));
        Assert.Equal("two", await File.ReadAllTextAsync(job.At("b.yaml"), TestContext.Current.CancellationToken));
    }

    [Fact]
    public async Task A_folder_that_is_not_there_for_a_while_takes_no_file_away()
    {
        using var job = new JobOnDisk();
        job.Write("a.yaml", "one");
        await using var server = await Served.Of(job);
        var folder = server.Job.Folder!;
        Directory.Move(job.Path, job.Path + "-away");
        Directory.CreateDirectory(job.Path);
        try
        {
            await folder.TrySyncAsync();
            await Task.Delay(2500, TestContext.Current.CancellationToken);
            await folder.TrySyncAsync();
        }
        finally
        {
            Directory.Delete(job.Path, recursive: true);
            Directory.Move(job.Path + "-away", job.Path);
        }

        Assert.Equal("one", (await server.FileOf("a.yaml"))!.Latest?.Text);
    }

    // OWASP, "Path Traversal", in the path of a file fact.
    [Theory]
    [InlineData("../out.yaml")]
    [InlineData("a/../../out.yaml")]
    [InlineData("..\\\\out.yaml")]
    [InlineData("/var/out.yaml")]
    [InlineData("C:/out.yaml")]
    [InlineData(".rootgap/records.yaml")]
    [InlineData("out.yaml\\u0000.png")]
    [InlineData("NUL.yaml")]
    [InlineData("out.sh")]
    [InlineData("link/out.yaml")]
    [InlineData("link.yaml")]
    public async Task A_path_that_leads_out_of_the_folder_is_refused(string path)
    {
        using var job = new JobOnDisk();
        using var outside = new JobOnDisk();
        outside.Write("target.yaml", "mine");
        Directory.CreateSymbolicLink(job.At("link"), outside.Path);
        File.CreateSymbolicLink(job.At("link.yaml"), outside.At("target.yaml"));
        await using var server = await Served.Of(job);
        var (status, body) = await server.Send(HttpMethod.Post, "/api/facts", $$"""{"facts":[{"id":"{{Facts.NewId()}}","fact":"file","who":"Eve","when":"2026-11-25T12:00:00Z","path":"{{path}}","text":"x"}]}""");
        Assert.Equal(HttpStatusCode.OK, status);
        Assert.Contains("path", Assert.Single(body.GetProperty("refused").EnumerateArray()).GetProperty("why").GetString(), StringComparison.Ordinal);
        Assert.Empty(await server.All());
        Assert.Equal(["target.yaml"], Directory.GetFiles(outside.Path).Select(System.IO.Path.GetFileName));
        Assert.Equal("mine", await File.ReadAllTextAsync(outside.At("target.yaml"), TestContext.Current.CancellationToken));
    }
}
