using Rootgap.App.Tests.Harness;

namespace Rootgap.App.Tests;

/// <summary>The paper drawing beside the table: photographed, kept with the job, ticked off figure by figure.</summary>
public class PaperTest(Chromium chromium) : BrowserTest(chromium)
{
    // A picture as the browser itself makes one: half white, half grey, wider than high.
    private static async Task<byte[]> Photograph(IPage page) => Convert.FromBase64String(await page.EvaluateAsync<string>(
        """
        async () => {
          const canvas = new OffscreenCanvas(600, 400), context = canvas.getContext('2d');
          context.fillStyle = '#fff';
          context.fillRect(0, 0, 600, 400);
          context.fillStyle = '#888';
          context.fillRect(300, 0, 300, 400);
          const bytes = new Uint8Array(await (await canvas.convertToBlob({ type: 'image/png' })).arrayBuffer());
          return btoa(String.fromCharCode(...bytes));
        }
        """));

    [Fact]
    public async Task A_photograph_of_the_paper_is_kept_offline_beside_the_table_and_its_figures_are_ticked_off()
    {
        var server = await Serve();
        var tablet = await NewTablet(server, 1024, 768);
        var page = await tablet.Open("drawing/" + Pages.Drawing);
        await tablet.IsKept();
        await tablet.AllSent();
        await server.Kill();
        await tablet.Context.SetOfflineAsync(true);
        await page.Locator("#view-paper").ClickAsync();

        // A PDF cannot be ticked, and is told so.
        await page.Locator("#paper-pick").SetInputFilesAsync(new FilePayload { Name = "line.pdf", MimeType = "application/pdf", Buffer = "%PDF-1.4 nothing"u8.ToArray() });
        await page.GetByText("line.pdf").First.WaitForAsync();
        await page.Locator("#paper-keep").ClickAsync();
        await Assertions.Expect(page.Locator(".paper-add [role=alert]")).ToContainTextAsync("save its page as a picture");
        await page.GetByRole(AriaRole.Button, new() { Name = "Leave out line.pdf" }).ClickAsync();
        await page.Locator("#paper-pick").SetInputFilesAsync(new FilePayload { Name = "line.png", MimeType = "image/png", Buffer = await Photograph(page) });
        await page.GetByText("line.png").First.WaitForAsync();
        await page.Locator("#paper-keep").ClickAsync();

        var frame = page.Locator(".paper-frame");
        await frame.WaitForAsync();
        await Assertions.Expect(page.Locator("#ticked")).ToContainTextAsync("0 ticked");
        var box = (await frame.BoundingBoxAsync())!;
        (float X, float Y) one = ((float)box.Width * 0.3f, (float)box.Height * 0.5f), other = ((float)box.Width * 0.7f, (float)box.Height * 0.45f);
        await Tap(one);
        await Tap(other);
        await Assertions.Expect(page.Locator("#ticked")).ToContainTextAsync("2 ticked");
        await page.Locator("#untick").ClickAsync();
        await Assertions.Expect(page.Locator(".tick")).ToHaveCountAsync(1);
        await Tap(other);
        // A tap on a tick takes that one off; what is turned and brought closer keeps its ticks at their figures.
        await Tap(one);
        await Assertions.Expect(page.Locator(".tick")).ToHaveCountAsync(1);
        await page.WaitForFunctionAsync("() => !Object.keys(localStorage).some(k => k.startsWith('rootgap-ticks-'))");
        var place = await Place();
        await page.Locator("#paper-turn").ClickAsync();
        await page.Locator(".paper-tools [aria-label=Larger]").ClickAsync();
        Assert.Equal(place, await Place());

        // The table stands beside it and is written in.
        await page.Locator("[id='cell-runs[0].legs[0]-go']").ClickAsync();
        await Assertions.Expect(frame).ToBeVisibleAsync();

        // Another day, the network back: the picture and its tick are there, and the picture is at the shop.
        await tablet.CloseTab();
        await server.Again();
        await tablet.Context.SetOfflineAsync(false);
        page = await tablet.Open("drawing/" + Pages.Drawing);
        await tablet.AllSent();
        await page.Locator("#view-paper").ClickAsync();
        await Assertions.Expect(page.Locator("#ticked")).ToContainTextAsync("1 ticked");
        Assert.Equal(place, await Place());
        // The tick went with the job: another device has it, and takes it back for both.
        var second = await NewTablet(server, 1024, 768);
        var there = await second.Open("drawing/" + Pages.Drawing);
        await second.AllSent();
        await there.Locator("#view-paper").ClickAsync();
        await Assertions.Expect(there.Locator("#ticked")).ToContainTextAsync("1 ticked");
        await there.Locator("#untick").ClickAsync();
        await Assertions.Expect(page.Locator("#ticked")).ToContainTextAsync("0 ticked", new() { Timeout = 30_000 });
        var fact = Assert.Single(await server.Facts(), f => f.GetProperty("fact").GetString() == "note");
        Assert.Equal("line.png", Assert.Single(fact.GetProperty("attached").EnumerateArray()).GetProperty("name").GetString());

        Task Tap((float X, float Y) at) => page.Locator(".paper-frame").ClickAsync(new() { Position = new() { X = at.X, Y = at.Y } });
        Task<string> Place() => page.Locator(".tick").EvaluateAsync<string>("t => `${parseFloat(t.style.left).toFixed(1)} ${parseFloat(t.style.top).toFixed(1)}`");
    }
}
