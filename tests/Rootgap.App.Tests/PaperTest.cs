using System.Security.Cryptography;
using System.Text;
using Rootgap.App.Tests.Harness;
using Rootgap.Sheets;

namespace Rootgap.App.Tests;

/// <summary>The paper drawing beside the table: photographed or a PDF, kept with the job, ticked off figure by figure.</summary>
public class PaperTest(Chromium chromium) : BrowserTest(chromium, worksAlone: true)
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

    // The line's own sheets, as the program writes them: the isometric and two spools.
    private static byte[] Sheets()
    {
        var packet = Pages.Sample();
        var job = packet.ToJob(Paper.A4);
        var scenes = new Booklet(packet.Drawing.Number, [.. IsometricPages.Of(job, withLists: true), .. packet.Fabrication.Spools.Take(2).Select(s => IsometricPages.Of(job, s))]).Scenes().ToList();
        Assert.True(scenes.Count > 1);
        using var pdf = new MemoryStream();
        PdfWriter.Write(pdf, packet.Drawing.Number, scenes);
        return pdf.ToArray();
    }

    // ISO 32000-1, 7.6.3: the standard security handler, with check values that no empty password meets.
    private static readonly byte[] Locked = Encoding.Latin1.GetBytes($"""
        %PDF-1.4
        1 0 obj
        << /Type /Catalog /Pages 2 0 R >>
        endobj
        2 0 obj
        << /Type /Pages /Kids [3 0 R] /Count 1 >>
        endobj
        3 0 obj
        << /Type /Page /Parent 2 0 R /MediaBox [0 0 842 595] >>
        endobj
        4 0 obj
        << /Filter /Standard /V 1 /R 2 /O <{new string('A', 64)}> /U <{new string('B', 64)}> /P -4 >>
        endobj
        trailer
        << /Size 5 /Root 1 0 R /Encrypt 4 0 R /ID [<00112233445566778899AABBCCDDEEFF> <00112233445566778899AABBCCDDEEFF>] >>
        %%EOF
        """);

    [Fact]
    public async Task The_pages_of_a_PDF_stand_beside_the_table_are_ticked_each_and_are_sharp_as_they_are_looked_at()
    {
        var server = await Serve();
        var tablet = await NewTablet(server, 1024, 768);
        var page = await tablet.Open("drawing/" + Pages.Drawing);
        await tablet.AllSent();
        await tablet.HasLater("js/pdf-paper.js", "js/pdf/pdf.js", "js/pdf/pdf-worker.js", "js/pdf/jbig2.wasm", "js/pdf/openjpeg.wasm", "js/pdf/FoxitSymbol.dat", "js/pdf/FoxitDingbats.dat");
        await server.Kill();
        await tablet.Context.SetOfflineAsync(true);
        await page.Locator("#view-paper").ClickAsync();

        // What cannot be drawn is not kept, and is told with what to do.
        await Refused("cut.pdf", "%PDF-1.4 nothing"u8.ToArray(), "damaged");
        await Refused("locked.pdf", Locked, "password");
        await page.Locator("#paper-pick").SetInputFilesAsync(new FilePayload { Name = "line.pdf", MimeType = "application/pdf", Buffer = Sheets() });
        await page.GetByText("line.pdf").First.WaitForAsync();
        await page.Locator("#paper-keep").ClickAsync();

        await Assertions.Expect(page.Locator("#leaf option").Nth(1)).ToBeAttachedAsync();
        await Drawn("whole");
        var first = await Dark();
        Assert.InRange(first, 0.002, 0.5);
        await Sharp();
        await Assertions.Expect(page.Locator("#paper-lacks")).ToHaveCountAsync(0);
        await Tap(0.4f, 0.4f);
        await Tap(0.6f, 0.5f);
        await Assertions.Expect(page.Locator("#ticked")).ToContainTextAsync("2 ticked");
        await Kept();

        // Brought closer it is drawn anew, as sharp as the screen, turned too.
        for (var i = 0; i < 4; i++)
            await page.Locator(".paper-tools [aria-label=Larger]").ClickAsync();
        await Drawn("part");
        await Sharp();
        await page.Locator("#paper-turn").ClickAsync();
        await Sharp();

        // Each page has its own ticks.
        await page.Locator("#leaf-after").ClickAsync();
        await Drawn("whole");
        await Assertions.Expect(page.Locator("#ticked")).ToContainTextAsync("0 ticked");
        Assert.NotEqual(first, await Dark());
        await Tap(0.5f, 0.5f);
        await Kept();
        await page.Locator("#leaf").SelectOptionAsync("1");
        await Assertions.Expect(page.Locator("#ticked")).ToContainTextAsync("2 ticked");

        // At the shop it is the PDF itself; another device shows its pages with their ticks.
        await server.Again();
        await tablet.Context.SetOfflineAsync(false);
        await tablet.AllSent();
        var second = await NewTablet(server, 1024, 768);
        page = await second.Open("drawing/" + Pages.Drawing);
        await second.AllSent();
        await page.Locator("#view-paper").ClickAsync();
        await Assertions.Expect(page.Locator("#ticked")).ToContainTextAsync("2 ticked");
        await page.Locator("#leaf-after").ClickAsync();
        await Drawn("whole");
        await Assertions.Expect(page.Locator("#ticked")).ToContainTextAsync("1 ticked");
        var facts = await server.Facts();
        var kept = Assert.Single(Assert.Single(facts, f => f.GetProperty("fact").GetString() == "note").GetProperty("attached").EnumerateArray());
        Assert.Equal(Convert.ToHexStringLower(SHA256.HashData(Sheets())), kept.GetProperty("sha256").GetString());
        Assert.Contains(facts, f => f.GetProperty("fact").GetString() == "paper-ticked" && f.TryGetProperty("page", out var of) && of.GetInt32() == 2);

        async Task Refused(string name, byte[] content, string says)
        {
            await page.Locator("#paper-pick").SetInputFilesAsync(new FilePayload { Name = name, MimeType = "application/pdf", Buffer = content });
            await page.GetByText(name).First.WaitForAsync();
            await page.Locator("#paper-keep").ClickAsync();
            await Assertions.Expect(page.Locator(".paper-add [role=alert]")).ToContainTextAsync(says);
            await page.GetByRole(AriaRole.Button, new() { Name = "Leave out " + name }).ClickAsync();
        }

        async Task Tap(float across, float down)
        {
            var box = (await page.Locator(".paper-frame").BoundingBoxAsync())!;
            await page.Locator(".paper-frame").ClickAsync(new() { Position = new() { X = box.Width * across, Y = box.Height * down } });
        }

        Task Kept() => page.WaitForFunctionAsync("() => !Object.keys(localStorage).some(k => k.startsWith('rootgap-ticks-'))");
        Task Drawn(string what) => page.Locator($".paper-frame[data-drawn={what}] canvas").First.WaitForAsync();
        Task<double> Dark() => page.EvaluateAsync<double>("() => { const c = document.querySelector('.photo canvas'), d = c.getContext('2d').getImageData(0, 0, c.width, c.height).data; let n = 0; for (let i = 0; i < d.length; i += 4) if (d[i] < 128) n++; return n / (d.length / 4); }");

        // A pixel of the picture for each of the screen, once the hand rests.
        Task Sharp() => page.WaitForFunctionAsync("() => { const c = [...document.querySelectorAll('.photo canvas')].at(-1), b = c.getBoundingClientRect(), share = Math.max(c.width, c.height) / Math.max(b.width, b.height) / devicePixelRatio; return share > 0.95 && share < 1.2; }");
    }
}
