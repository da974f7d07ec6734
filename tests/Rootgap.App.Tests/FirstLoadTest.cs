using System.Text.Json;
using Rootgap.App.Offline;
using Rootgap.App.Tests.Harness;

namespace Rootgap.App.Tests;

/// <summary>The first time that a tablet comes to the address, and what it can do from then on.</summary>
public class FirstLoadTest(Chromium chromium) : BrowserTest(chromium, worksAlone: true)
{
    /// <summary>3.5 MB until the first page stands, as a shop's thin line bears it: every byte that the server sends, heads included.</summary>
    private const long MostUntilItStands = 3_500_000;

    /// <summary>
    /// 4.85 MB with all that working offline needs, the offline worker's share included: 4.73 before paper drawings in PDF and runs turned over their reducers came in, 4.80 with some two dozen rules of the desk check, 4.86 with the second making of the test sheets, 4.82 without the heads that only pages need.
    /// The model in space, the help and what draws PDFs follow when the page is at rest.
    /// </summary>
    private const long MostOfAll = 4_850_000;

    [Fact]
    public async Task The_first_page_stands_after_at_most_3500_kB_and_does_without_the_rest_of_the_program()
    {
        var server = await Serve();
        await using var wire = new Wire(server);
        var tablet = await NewTablet(wire.Address);
        foreach (var part in ProgramParts.Later)
            await tablet.Context.RouteAsync($"**/_framework/{part[..^"wasm".Length]}*", route => route.AbortAsync());
        await tablet.Open();
        await tablet.Page.Locator(".drawing-line").First.WaitForAsync();
        TestContext.Current.TestOutputHelper?.WriteLine($"until the first page stands: {wire.Down} bytes");
        Assert.InRange(wire.Down, 1, MostUntilItStands);
        // A page that needs the rest says so, and stands once the rest can be had.
        await tablet.Page.Locator(".drawing-line a.whole").First.ClickAsync();
        await tablet.Page.Locator("#part-missing").WaitForAsync();
        await tablet.Context.UnrouteAllAsync();
        await tablet.Page.Locator("#part-missing button").ClickAsync();
        await tablet.Page.Locator(".pane-picture svg").WaitForAsync();
    }

    [Fact]
    public async Task The_first_load_is_at_most_4850_kB_with_all_that_working_offline_needs()
    {
        var server = await Serve();
        await using var wire = new Wire(server);
        var tablet = await NewTablet(wire.Address);
        await tablet.Open();
        await tablet.IsKept();
        await tablet.AllSent();
        TestContext.Current.TestOutputHelper?.WriteLine($"first load: {wire.Down} bytes");
        Assert.InRange(wire.Down, 1, MostOfAll);
    }

    [Fact]
    public async Task With_the_server_gone_every_page_opens_and_computes()
    {
        var server = await Serve();
        var tablet = await NewTablet(server);
        await tablet.Open();
        await tablet.IsKept();
        await tablet.AllSent();
        // What is not needed at first follows by itself.
        await tablet.Page.WaitForFunctionAsync("async () => (await caches.match('js/model.js', { ignoreSearch: true })) !== undefined", null, new() { Timeout = 90_000 });
        await server.Kill();
        await tablet.CloseTab();
        await tablet.Context.SetOfflineAsync(true);
        await tablet.Open();
        foreach (var (page, i) in Pages.All.Select((page, i) => (page, i)))
        {
            // Some from the address line, as a bookmark opens them: page, program and data come from the browser alone, whichever page it is.
            if (i % 5 == 1)
                await tablet.Go(page.Path);
            else
                await tablet.Turn(page.Path);
            await tablet.Page.GetByText(page.Says).First.WaitForAsync();
        }
    }

    [Fact]
    public async Task The_app_can_be_installed()
    {
        var server = await Serve();
        var tablet = await NewTablet(server);
        await tablet.Open();
        using var answer = await server.Get("manifest.webmanifest");
        using var manifest = JsonDocument.Parse(await answer.Content.ReadAsStringAsync(TestContext.Current.CancellationToken));
        var root = manifest.RootElement;
        // What a browser asks before it offers to install: W3C Web Application Manifest, and Chromium's own list (name, icons of 192 and 512 px, start address, display).
        Assert.NotEqual("", root.GetProperty("name").GetString());
        Assert.InRange(root.GetProperty("short_name").GetString()!.Length, 1, 12);
        Assert.Equal("standalone", root.GetProperty("display").GetString());
        using (var start = await server.Get(root.GetProperty("start_url").GetString()!))
            Assert.True(start.IsSuccessStatusCode);
        var sizes = new List<string>();
        foreach (var icon in root.GetProperty("icons").EnumerateArray())
        {
            var size = icon.GetProperty("sizes").GetString()!;
            sizes.Add(size);
            var drawn = await tablet.Page.EvaluateAsync<int[]>(
                "async src => { const i = new Image(); i.src = new URL(src, document.baseURI); await i.decode(); return [i.naturalWidth, i.naturalHeight]; }", icon.GetProperty("src").GetString());
            if (size != "any")
                Assert.Equal(size, FormattableString.Invariant($"{drawn[0]}x{drawn[1]}"));
        }

        Assert.Contains("192x192", sizes);
        Assert.Contains("512x512", sizes);
        var session = await tablet.Context.NewCDPSessionAsync(tablet.Page);
        var found = await session.SendAsync("Page.getAppManifest");
        Assert.Empty(found!.Value.GetProperty("errors").EnumerateArray());
    }
}
