using Rootgap.App.Tests.Harness;

namespace Rootgap.App.Tests;

/// <summary>People and devices: let in with a code, signing offline too, a person's own code, and the chain behind a signature.</summary>
public class SignaturesTest(Chromium chromium) : BrowserTest(chromium, worksAlone: true)
{
    private static async Task LetIn(JobServer server, Tablet tablet, string name)
    {
        var said = await JobServer.Command("enrol", server.Folder);
        var page = await tablet.Open("enrol");
        await page.Locator("#enrol-code").FillAsync(said.Split("write: ")[1][..6]);
        await page.Locator("#enrol-name").FillAsync(name);
        await page.Locator("#enrol").ClickAsync();
        await Assertions.Expect(page.Locator(".device").Filter(new() { HasText = name })).ToContainTextAsync("this one", new() { Timeout = 30_000 });
        await Shot(page, "people");
    }

    private static async Task Shot(IPage page, string name)
    {
        if (Environment.GetEnvironmentVariable("ROOTGAP_SHOTS") is { } shots)
            await page.ScreenshotAsync(new() { Path = Path.Combine(shots, $"signing-{name}.png") });
    }

    [Fact]
    public async Task A_device_that_was_let_in_signs_for_who_is_here_offline_too_and_everyone_can_look_at_the_chain()
    {
        var server = await Serve();
        await JobServer.Command("person", server.Folder, "--name", "Ann", "--role", "foreman", "--may", "fit,weld,draw,people", "--code", "4711");
        var tablet = await NewTablet(server, who: "Ann");
        await LetIn(server, tablet, "Tablet at stand 4");
        var page = tablet.Page;
        await tablet.IsKept();
        await tablet.Context.SetOfflineAsync(true);
        await tablet.Turn($"spool/{Pages.Spool}/{Pages.Drawing}");
        await page.Locator("[id^='cut-']").First.ClickAsync();
        await page.GetByRole(AriaRole.Link, new() { Name = "signed" }).First.WaitForAsync();
        var cut = (await tablet.Facts()).Single(f => f.Kind == "piece-cut");
        Assert.True(cut.IsUnsent);
        Assert.Equal(88, cut.Fact.GetProperty("signed").GetProperty("value").GetString()!.Length);
        await tablet.Context.SetOfflineAsync(false);
        await tablet.AllSent();
        Assert.Single(await server.Facts(), f => f.GetProperty("fact").GetString() == "piece-cut");
        await page.GetByRole(AriaRole.Link, new() { Name = "signed" }).First.ClickAsync();
        await Assertions.Expect(page.Locator("main")).ToContainTextAsync("The signature is right.");
        await Assertions.Expect(page.Locator(".chain")).ToContainTextAsync("Tablet at stand 4");
        await Shot(page, "chain");

        // A changed word is seen by whoever looks, were it changed in this very browser.
        await page.EvaluateAsync("""
            async id => {
              const answer = r => new Promise((done, failed) => { r.onsuccess = () => done(r.result); r.onerror = () => failed(r.error); });
              const db = await answer(indexedDB.open('rootgap'));
              const store = db.transaction('facts', 'readwrite').objectStore('facts');
              const fact = (await answer(store.getAll())).find(f => f.id === id);
              await answer(store.put({ ...fact, json: fact.json.replace('"piece":"', '"piece":"9') }));
              db.close();
            }
            """, cut.Id);
        await page.ReloadAsync();
        await Assertions.Expect(page.Locator("main")).ToContainTextAsync("The signature is wrong.");
        Assert.Equal("true", await page.EvaluateAsync<string>("""
            async () => {
              const answer = r => new Promise((done, failed) => { r.onsuccess = () => done(r.result); r.onerror = () => failed(r.error); });
              const db = await answer(indexedDB.open('rootgap'));
              const [kept] = await answer(db.transaction('device').objectStore('device').getAll());
              db.close();
              try { await crypto.subtle.exportKey('pkcs8', kept.key); return 'it can be taken out'; } catch { return 'true'; }
            }
            """));
    }

    [Fact]
    public async Task Who_may_names_others_with_their_code_and_a_device_that_is_not_in_signs_nothing()
    {
        var server = await Serve();
        await JobServer.Command("person", server.Folder, "--name", "Ann", "--role", "foreman", "--may", "fit,people", "--code", "4711");
        var office = await NewTablet(server, 1440, 900, who: "Ann");
        await LetIn(server, office, "Office");
        var page = office.Page;
        await page.Locator("#somebody-new").ClickAsync();
        await page.Locator("#person-name").FillAsync("Bo");
        await page.Locator("#person-keep").ClickAsync();
        await page.Locator("#ask-code").FillAsync("1234");
        await page.Locator("#ask-code-keep").ClickAsync();
        await page.GetByText("That is not the code.").WaitForAsync();
        await page.Locator("#ask-code").FillAsync("4711");
        await page.Locator("#ask-code-keep").ClickAsync();
        await page.Locator(".person").Filter(new() { HasText = "Bo" }).WaitForAsync();
        await office.AllSent();
        Assert.Contains(await server.Facts(), f => f.GetProperty("fact").GetString() == "person" && f.GetProperty("name").GetString() == "Bo" && f.GetProperty("signed").GetProperty("proof").GetString() == "code");

        await page.Locator("#let-in").ClickAsync();
        await page.Locator("#ask-code").FillAsync("4711");
        await page.Locator("#ask-code-keep").ClickAsync();
        await page.Locator(".qr svg").WaitForAsync();
        await Shot(page, "let-in");

        // Bo on a tablet of his own that nobody let in: the shop does not take it, and it is told.
        var own = await NewTablet(server, who: "Bo");
        page = await own.Open($"spool/{Pages.Spool}/{Pages.Drawing}");
        await own.AllSent();
        await page.Locator("[id^='cut-']").First.ClickAsync();
        await Assertions.Expect(page.Locator(".sync")).ToContainTextAsync("1 not taken", new() { Timeout = 30_000 });
        await own.Turn("waiting");
        await Assertions.Expect(page.Locator(".not-taken")).ToContainTextAsync("Nobody signed it");
        await Shot(page, "not-taken");
        Assert.DoesNotContain(await server.Facts(), f => f.GetProperty("fact").GetString() == "piece-cut");

        // Let in after all, he enters it anew.
        await LetIn(server, own, "Tablet of Bo");
        page = own.Page;
        await own.Turn("waiting");
        await page.GetByRole(AriaRole.Button, new() { Name = "Enter it anew" }).ClickAsync();
        await own.AllSent();
        Assert.Equal("Bo", Assert.Single(await server.Facts(), f => f.GetProperty("fact").GetString() == "piece-cut").GetProperty("who").GetString());
        Assert.Contains("are wrong", await JobServer.Command("verify", server.Folder), StringComparison.Ordinal);
    }

    [Fact]
    public async Task A_badge_before_the_camera_is_asked_of_the_shop_and_where_there_is_no_camera_the_code_is_typed()
    {
        var server = await Serve();
        await JobServer.Command("person", server.Folder, "--name", "Ann", "--role", "foreman", "--may", "fit,people", "--code", "4711");
        var office = await NewTablet(server, who: "Ann");
        // Debian's browser has no detector: this one reads what the test holds before it.
        await office.Context.AddInitScriptAsync("""
            window.BarcodeDetector = class { async detect() { return window.held ? [{ rawValue: window.held }] : []; } };
            if (navigator.mediaDevices) navigator.mediaDevices.getUserMedia = async () => { const c = document.createElement('canvas'); c.getContext('2d').fillRect(0, 0, 9, 9); const s = c.captureStream(5); setInterval(() => c.getContext('2d').fillRect(0, 0, 9, 9), 100); return s; };
            """);
        await LetIn(server, office, "Office");
        var page = office.Page;
        var picture = Path.Combine(server.Folder, "ann.svg");
        Assert.Contains("The badge of Ann is", await JobServer.Command("badge", server.Folder, "--name", "Ann", "--out", picture), StringComparison.Ordinal);
        Assert.Contains(">Ann</text>", await File.ReadAllTextAsync(picture, TestContext.Current.CancellationToken), StringComparison.Ordinal);

        await page.GetByRole(AriaRole.Button, new() { Name = "Change Ann" }).ClickAsync();
        await page.Locator("#new-badge").ClickAsync();
        await page.Locator("#ask-code-scan").ClickAsync();
        await page.EvaluateAsync("() => { window.held = 'rootgap-badge:somebody:ABCDEF'; }");
        await page.GetByText("That is somebody else's badge.").WaitForAsync(new() { Timeout = 30_000 });
        await Shot(page, "badge-wrong");
        await page.Locator("#ask-code").FillAsync("4711");
        await page.Locator("#ask-code-keep").ClickAsync();
        await page.Locator("#badge svg").First.WaitForAsync();
        await Shot(page, "badge");
    }
}
