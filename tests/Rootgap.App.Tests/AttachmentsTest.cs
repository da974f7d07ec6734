using System.Text.Json;
using Rootgap.App.Tests.Harness;

namespace Rootgap.App.Tests;

/// <summary>Pictures that go with an entry: kept offline with it, sent after it, seen on another tablet, and given back to a store that lost them.</summary>
public class AttachmentsTest(Chromium chromium) : BrowserTest(chromium, worksAlone: true)
{
    private static readonly string Order = "order/" + Pages.Drawing;

    // A picture as the browser itself makes one: noise, so that it does not shrink away. Larger than 2 MB it must be made smaller.
    private static async Task<byte[]> Photograph(IPage page, int side) => Convert.FromBase64String(await page.EvaluateAsync<string>(
        """
        async side => {
          const canvas = new OffscreenCanvas(side, side), context = canvas.getContext('2d'), image = context.createImageData(side, side);
          for (let at = 0; at < image.data.length; at += 65536) crypto.getRandomValues(image.data.subarray(at, Math.min(at + 65536, image.data.length)));
          for (let at = 3; at < image.data.length; at += 4) image.data[at] = 255;
          context.putImageData(image, 0, 0);
          const bytes = new Uint8Array(await (await canvas.convertToBlob({ type: 'image/png' })).arrayBuffer());
          let text = '';
          for (const b of bytes) text += String.fromCharCode(b);
          return btoa(text);
        }
        """,
        side));

    [Fact]
    public async Task A_picture_taken_offline_is_there_after_the_tab_was_closed_goes_out_after_its_entry_and_is_seen_elsewhere()
    {
        var server = await Serve();
        var tablet = await NewTablet(server);
        var page = await tablet.Open(Order);
        await tablet.IsKept();
        await tablet.AllSent();
        var small = await Photograph(page, 120);
        await server.Kill();
        await tablet.Context.SetOfflineAsync(true);
        await page.Locator("#erect-papers").SetInputFilesAsync(new FilePayload { Name = "as it hangs.png", MimeType = "image/png", Buffer = small });
        await page.GetByText("as it hangs.png").First.WaitForAsync();
        await tablet.CloseTab();

        // Picked, not yet ticked: it is still there.
        page = await tablet.Open(Order);
        await page.GetByText("as it hangs.png").First.WaitForAsync();
        await page.Locator("#erect").ClickAsync();
        await Assertions.Expect(page.Locator(".sync")).ToContainTextAsync("2 kept here");
        await tablet.CloseTab();

        await server.Again();
        await tablet.Context.SetOfflineAsync(false);
        page = await tablet.Open(Order);
        await tablet.AllSent();
        var fact = Assert.Single(await server.Facts(), f => f.GetProperty("fact").GetString() == "erection");
        var attached = Assert.Single(fact.GetProperty("attached").EnumerateArray());
        Assert.Equal("as it hangs.png", attached.GetProperty("name").GetString());
        using (var answer = await server.Get("api/attachments/" + attached.GetProperty("sha256").GetString()))
            Assert.Equal(small, await answer.Content.ReadAsByteArrayAsync(TestContext.Current.CancellationToken));

        var other = await NewTablet(server, who: "Miro");
        page = await other.Open(Order);
        await other.AllSent();
        await page.Locator(".steps-list button").First.ClickAsync();
        await page.GetByRole(AriaRole.Button, new() { Name = "as it hangs.png" }).ClickAsync();
        var picture = page.Locator(".shown img");
        await picture.WaitForAsync();
        Assert.Equal(120, await picture.EvaluateAsync<int>("i => i.decode().then(() => i.naturalWidth)"));
    }

    [Fact]
    public async Task A_large_photograph_is_made_smaller_a_large_paper_is_refused_before_it_is_read_and_a_store_that_lost_them_gets_them_again()
    {
        var server = await Serve();
        var tablet = await NewTablet(server);
        var page = await tablet.Open(Order);
        await tablet.AllSent();
        var backup = Path.Combine(server.Folder, "..", Path.GetFileName(server.Folder) + ".db");
        try
        {
            await JobServer.Command("backup", server.Folder, "--out", backup);
            var large = await Photograph(page, 1100);
            Assert.True(large.Length > 2 << 20);
            await page.Locator("#erect-papers").SetInputFilesAsync([
                new FilePayload { Name = "large.png", MimeType = "image/png", Buffer = large },
                new FilePayload { Name = "book.pdf", MimeType = "application/pdf", Buffer = new byte[(2 << 20) + 1] },
                new FilePayload { Name = "page.pdf", MimeType = "application/pdf", Buffer = "<html>"u8.ToArray() },
            ]);
            await page.GetByText("book.pdf: It has more than 2 MB.").WaitForAsync();
            await page.GetByText("page.pdf: It is no picture").WaitForAsync();
            await page.Locator("#erect").ClickAsync();
            await page.GetByText("Step 2 of").WaitForAsync();
            await tablet.AllSent();
            var attached = Assert.Single((await server.Facts()).First(f => f.GetProperty("fact").GetString() == "erection").GetProperty("attached").EnumerateArray());
            Assert.InRange(attached.GetProperty("bytes").GetInt32(), 50_000, 2 << 20);
            var address = "api/attachments/" + attached.GetProperty("sha256").GetString();
            using (var there = await server.Get(address))
                Assert.Equal(attached.GetProperty("bytes").GetInt32(), (await there.Content.ReadAsByteArrayAsync(TestContext.Current.CancellationToken)).Length);

            // Yesterday's records: neither the entry nor its picture. The tablet has both.
            await server.Kill();
            await JobServer.Command("restore", backup, server.Folder, "--anew");
            await server.Again();
            await page.GotoAsync(server.Address + "waiting");
            for (var tries = 0; tries < 100; tries++)
            {
                using var there = await server.Get(address);
                if (there.IsSuccessStatusCode)
                    break;
                await Task.Delay(200, TestContext.Current.CancellationToken);
            }

            using var again = await server.Get(address);
            Assert.True(again.IsSuccessStatusCode);
            using var lacking = JsonDocument.Parse(await (await server.Get("api/attachments/lacking")).Content.ReadAsStringAsync(TestContext.Current.CancellationToken));
            Assert.Empty(lacking.RootElement.GetProperty("lacking").EnumerateArray());
        }
        finally
        {
            File.Delete(backup);
        }
    }

    [Fact]
    public async Task A_picture_that_broke_off_goes_on_where_it_stopped_and_one_that_is_nowhere_is_told()
    {
        var server = await Serve();
        var tablet = await NewTablet(server);
        var page = await tablet.Open(Order);
        await tablet.AllSent();
        var picture = await Photograph(page, 330);
        Assert.InRange(picture.Length, 300 << 10, 512 << 10);
        var parts = new List<string>();
        var isCut = true;
        await tablet.Context.RouteAsync("**/api/jobs/*/attachments/*?at=*", async route =>
        {
            lock (parts)
                parts.Add(new Uri(route.Request.Url).Query);
            if (isCut && !route.Request.Url.Contains("at=0&", StringComparison.Ordinal))
                await route.AbortAsync();
            else
                await route.ContinueAsync();
        });
        await page.Locator("#erect-papers").SetInputFilesAsync(new FilePayload { Name = "hook.png", MimeType = "image/png", Buffer = picture });
        await page.GetByText("hook.png").First.WaitForAsync();
        await page.Locator("#erect").ClickAsync();
        await Assertions.Expect(page.Locator(".sync")).ToContainTextAsync("1 kept here");

        // Elsewhere the entry is there, and says that its picture is not.
        var other = await NewTablet(server, who: "Miro");
        var seen = await other.Open("waiting");
        await seen.GetByText("hook.png").WaitForAsync();
        await other.Go(Order);
        await seen.Locator(".steps-list button").First.ClickAsync();
        await seen.GetByRole(AriaRole.Button, new() { Name = "hook.png" }).ClickAsync();
        await seen.GetByText("neither on this device nor at the shop yet").WaitForAsync();

        isCut = false;
        await tablet.AllSent();
        lock (parts)
            Assert.Single(parts, p => p.StartsWith("?at=0&", StringComparison.Ordinal));
    }
}
