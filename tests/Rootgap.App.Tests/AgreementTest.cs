using System.Text.Json;
using Rootgap.App.Tests.Harness;

namespace Rootgap.App.Tests;

/// <summary>Tablet and store agree by what they hold: whatever is put back, begun anew or refused, nothing that was entered becomes unreachable.</summary>
public class AgreementTest(Chromium chromium) : BrowserTest(chromium, worksAlone: true)
{
    private static string[] Ids(IEnumerable<JsonElement> facts) => [.. facts.Select(f => f.GetProperty("id").GetString()!).Order(StringComparer.Ordinal)];

    /// <summary>Ticks a piece of the n-th spool that has one.</summary>
    private static async Task Cut(Tablet tablet, int n)
    {
        var spools = Pages.Sample().Fabrication.Spools.Where(s => s.Cuts.Count > 0).Select(s => s.Name).ToList();
        await tablet.Turn($"spool/{Uri.EscapeDataString(spools[n])}/{Pages.Drawing}");
        await tablet.Page.Locator("[id^='cut-']").First.ClickAsync();
        await tablet.Page.Locator(".fact").First.WaitForAsync();
    }

    private static async Task<Tablet> AtSpool(Tablet tablet)
    {
        await tablet.Open($"spool/{Pages.Spool}/{Pages.Drawing}");
        await tablet.AllSent();
        return tablet;
    }

    private static Task Agrees(JobServer server, Tablet tablet) => Until(async () => Ids(await server.Facts()).SequenceEqual((await tablet.Facts()).Select(f => f.Id).Order(StringComparer.Ordinal)) && (await tablet.Facts()).All(f => !f.IsUnsent));

    private static async Task Until(Func<Task<bool>> holds)
    {
        for (var i = 0; i < 150; i++)
        {
            if (await holds())
                return;
            await Task.Delay(200, Xunit.TestContext.Current.CancellationToken);
        }

        Assert.Fail("It did not come about in half a minute.");
    }

    [Fact]
    public async Task A_fact_that_is_not_taken_holds_up_no_other_and_is_shown_with_the_reason_and_entered_anew()
    {
        var server = await Serve();
        var tablet = await AtSpool(await NewTablet(server));
        var page = tablet.Page;
        // As a tablet with a clock from another age would have kept it.
        await page.EvaluateAsync("""
            async () => {
              const answer = r => new Promise((done, failed) => { r.onsuccess = () => done(r.result); r.onerror = () => failed(r.error); });
              const db = await answer(indexedDB.open('rootgap'));
              const [job] = await answer(db.transaction('jobs').objectStore('jobs').getAllKeys());
              const id = '00000000-0000-4000-8000-000000000001';
              const fact = { id, fact: 'piece-cut', who: 'RH', when: '9999-01-01T00:00:00.000Z', drawing: 'CHW-201', revision: '3', piece: '9-Z', heat: 'H 9' };
              await answer(db.transaction('facts', 'readwrite').objectStore('facts').put({ job, id, json: JSON.stringify(fact), unsent: 1 }));
              db.close();
            }
            """);
        await Cut(tablet, 0);
        await Assertions.Expect(page.Locator(".sync")).ToContainTextAsync("1 not taken", new() { Timeout = 30_000 });
        Assert.Single(await server.Facts(), f => f.GetProperty("fact").GetString() == "piece-cut");

        await tablet.Turn("waiting");
        await Assertions.Expect(page.Locator(".not-taken")).ToContainTextAsync("9-Z cut, heat H 9");
        await Assertions.Expect(page.Locator(".not-taken")).ToContainTextAsync("Set the clock");
        var download = await page.RunAndWaitForDownloadAsync(() => page.Locator("#save-held").ClickAsync());
        using (var saved = JsonDocument.Parse(await File.ReadAllTextAsync(await download.PathAsync(), Xunit.TestContext.Current.CancellationToken)))
            Assert.Equal("9-Z", saved.RootElement.GetProperty("facts")[0].GetProperty("piece").GetString());
        await page.GetByRole(AriaRole.Button, new() { Name = "Enter it anew" }).ClickAsync();
        await tablet.AllSent();
        Assert.Contains(await server.Facts(), f => f.GetProperty("fact").GetString() == "piece-cut" && f.GetProperty("piece").GetString() == "9-Z" && !f.GetProperty("when").GetString()!.StartsWith("9999", StringComparison.Ordinal));
    }

    [Fact]
    public async Task A_store_put_back_from_yesterday_gets_again_what_it_lacks_and_gives_what_it_has()
    {
        var server = await Serve();
        Tablet[] tablets = [await AtSpool(await NewTablet(server, who: "Ruth")), await AtSpool(await NewTablet(server, who: "Miro"))];
        await Cut(tablets[0], 0);
        await tablets[0].AllSent();
        var backup = Path.Combine(server.Folder, "..", Path.GetFileName(server.Folder) + "-backup.db");
        await JobServer.Command("backup", server.Folder, "--out", backup);
        try
        {
            await Cut(tablets[0], 1);
            await Cut(tablets[1], 2);
            foreach (var tablet in tablets)
                await tablet.AllSent();
            var before = Ids(await server.Facts());
            await server.Kill();
            await JobServer.Command("restore", backup, server.Folder, "--anew");
            await server.Again();
            foreach (var tablet in tablets)
                await Agrees(server, tablet);
            Assert.Equal(before, Ids(await server.Facts()));
        }
        finally
        {
            File.Delete(backup);
        }
    }

    [Fact]
    public async Task Records_begun_anew_are_filled_again_by_what_the_tablets_hold()
    {
        var server = await Serve();
        var tablet = await AtSpool(await NewTablet(server));
        await Cut(tablet, 0);
        await tablet.AllSent();
        var before = Ids(await server.Facts());
        await server.Kill();
        foreach (var file in Directory.GetFiles(Path.Combine(server.Folder, ".rootgap"), "records.db*"))
            File.Delete(file);
        await server.Again("--anew");
        await Agrees(server, tablet);
        Assert.Subset(Ids(await server.Facts()).ToHashSet(StringComparer.Ordinal), before.ToHashSet(StringComparer.Ordinal));
        // The folder's drawings came in anew, as the same change that the tablet holds: nothing is torn.
        await tablet.Turn("drawing/" + Pages.Drawing);
        Assert.Equal(0, await tablet.Page.Locator(".torn").CountAsync());
    }

    [Fact]
    public async Task What_was_never_sent_of_a_job_whose_store_was_replaced_can_be_put_into_the_new_one()
    {
        var server = await Serve();
        var tablet = await AtSpool(await NewTablet(server));
        await tablet.IsKept();
        await server.Kill();
        await Cut(tablet, 0);
        await Assertions.Expect(tablet.Page.Locator(".sync")).ToContainTextAsync("1 kept here", new() { Timeout = 30_000 });
        Directory.Delete(Path.Combine(server.Folder, ".rootgap"), recursive: true);
        await server.Again();
        await tablet.Page.GetByText("Another job is served here").ClickAsync(new() { Timeout = 60_000 });
        await Assertions.Expect(tablet.Page.Locator(".apart")).ToContainTextAsync("1 of them never sent");
        await tablet.Page.GetByText("Put all of it into").ClickAsync();
        await Until(async () => (await server.Facts()).Any(f => f.GetProperty("fact").GetString() == "piece-cut"));
    }

    [Fact]
    public async Task What_is_typed_while_two_versions_stand_is_a_version_of_its_own()
    {
        var server = await Serve();
        var tablet = await NewTablet(server, 1440, 900);
        var page = await tablet.Open("drawing/" + Pages.Drawing);
        await tablet.AllSent();
        var file = (await server.Facts()).First(f => f.GetProperty("fact").GetString() == "file" && f.GetProperty("path").GetString() == Pages.Drawing);
        var text = file.GetProperty("text").GetString()!;
        await server.Post([.. new[] { "one", "two" }.Select((t, i) => (object)new Dictionary<string, object>(StringComparer.Ordinal)
        {
            ["id"] = Guid.NewGuid().ToString(), ["fact"] = "file", ["who"] = t, ["when"] = "2026-11-25T12:00:00Z", ["path"] = Pages.Drawing, ["text"] = text + $"# {t}\n", ["base"] = file.GetProperty("id").GetString()!,
        })]);
        await page.Locator(".torn").WaitForAsync(new() { Timeout = 30_000 });
        await page.Locator("[id='cell-runs[0].legs[2]-by']").FillAsync("913");
        await page.Keyboard.PressAsync("Tab");
        await Until(async () => (await server.Facts()).Any(f => f.GetProperty("fact").GetString() == "file" && f.TryGetProperty("text", out var t) && t.GetString()!.Contains("913", StringComparison.Ordinal)));
        await Assertions.Expect(page.Locator(".torn")).ToContainTextAsync("RH");
        await Assertions.Expect(page.Locator("[id='cell-runs[0].legs[2]-by']")).ToHaveValueAsync("913");
    }

    [Fact]
    public async Task Of_a_big_job_a_new_tablet_has_what_is_brought_to_it_with_all_that_was_done_on_that()
    {
        var server = await Serve();
        object Fact(string drawing, string component) => new Dictionary<string, object>(StringComparer.Ordinal)
        {
            ["id"] = Guid.NewGuid().ToString(), ["fact"] = "heat", ["who"] = "Jo", ["when"] = "2026-11-25T12:00:00Z", ["drawing"] = drawing, ["revision"] = "3", ["component"] = component, ["heat"] = "H 1",
        };
        for (var i = 0; i < 2; i++)
            await server.Post([.. Enumerable.Range(0, 2600).Select(n => Fact("OTHER-1", $"E{n}"))]);
        await server.Post([Fact("CHW-201", "E1"), Fact("CHW-201", "E2")]);
        var tablet = await NewTablet(server);
        var page = await tablet.Open();
        await tablet.AllSent();
        Assert.DoesNotContain(await tablet.Facts(), f => f.Kind == "heat");
        Assert.Contains(await tablet.Facts(), f => f.Kind == "file" && f.Fact.GetProperty("path").GetString()!.EndsWith(".csv", StringComparison.Ordinal));

        await page.Locator("#find").FillAsync("chw-201");
        var bring = page.Locator("#in-the-shop").GetByRole(AriaRole.Button, new() { Name = "Bring it here" });
        await Assertions.Expect(bring).ToHaveCountAsync(1);
        await bring.ClickAsync();
        await page.Locator(".drawing-line").Filter(new() { HasText = "CHW-201" }).GetByRole(AriaRole.Link, new() { Name = "spools" }).WaitForAsync();
        Assert.Equal(2, (await tablet.Facts()).Count(f => f.Kind == "heat"));
        // What is done by others on it from then on comes by itself, and what is done here goes out.
        await server.Post([Fact("CHW-201", "E3"), Fact("OTHER-1", "E1")]);
        await Until(async () => (await tablet.Facts()).Count(f => f.Kind == "heat") == 3);
        await Cut(tablet, 0);
        await tablet.AllSent();
        Assert.Contains(await server.Facts(), f => f.GetProperty("fact").GetString() == "piece-cut");

        await tablet.Turn("");
        await page.GetByText("Bring all of the job").ClickAsync();
        await Until(async () => (await tablet.Facts()).Count == (await server.Facts()).Count);
    }
}
